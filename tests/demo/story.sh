#!/bin/sh
# story.sh KITBENCH: plays scripts/demo into a folder of its own, twice, and looks at what it tells and leaves.
set -eu
KITBENCH=$1
export KITBENCH
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0

fail() {
    echo "story: $*" >&2
    failed=1
}

for play in one two; do
    mkdir "$work/$play"
    ln -sfn "$work/$play" "$work/out"
    KITBENCH_OUT=$work/out scripts/demo >"$work/$play.txt" || fail "the demo ended with $?"
done
cmp "$work/one.txt" "$work/two.txt" || fail "a second run tells something else"

# What the record is about: each must be told.
while read -r told; do
    tr -s ' \n' ' ' <"$work/one.txt" | grep -qF "$told" || fail "not told: $told"
done <<'END'
M6x20) has 6 too many
same head and thread, 20 and 25 mm long
E2 row 1, D-919 button head screw M5x12, ISO 7380-1 M5x12-10.9: 9 of 9, none found
batteries, carton wit… 19 of 19 1 battery low
guard 2 of 2 missing, nothing there
panel, right: 1 of 6, in transit
battery 2 has 12.28 V
M5x30 countersunk, blue, of another kit
(counted 2 times, this count stands)
S55 Drive on to the base ring, wheel lifted, guard on: 8 of 8 x D-919
For the carrier: damage in transit
9 promised for 2027-03-15
of them without a date
Stopped: pieces are missing and not promised S37 Panel pair 6: 1 x D-302 panel, right missing
Wanted for Friday 2027-04-30: in time
S37 Panel pair 6: 1 x D-302 panel, right, promised for Monday 2027-03-22; in session
S28 Six carry the dome ring on to the carriages
END

for file in check-sheets.pdf run-sheet.pdf job-cards.pdf report/report.pdf report/report.txt report/report.csv \
    plan.txt plan.json demo.kitbench; do
    [ -s "$work/one/$file" ] || fail "not left behind: $file"
    case $file in
    *.pdf) [ "$(head -c 5 "$work/one/$file")" = "%PDF-" ] || fail "no PDF: $file" ;;
    esac
    cmp "$work/one/$file" "$work/two/$file" || fail "a second run writes another $file"
done

# What the sheets must say of this delivery.
while IFS='|' read -r file said; do
    pdftotext "$work/one/$file" - | tr -s ' \n' ' ' | grep -qF "$said" || fail "$file does not say: $said"
done <<'END'
check-sheets.pdf|battery 2, alone, V
report/report.pdf|Missing as a whole
report/report.pdf|from Owl Meadow Astronomy Club
END

# A command that answers otherwise than the story expects ends the demo at once.
cat >"$work/broken" <<END
#!/bin/sh
[ "\$1" = missing ] && exit 0
exec "$KITBENCH" "\$@"
END
chmod +x "$work/broken"
if KITBENCH=$work/broken KITBENCH_OUT=$work/out scripts/demo >"$work/broken.txt" 2>"$work/broken.err"; then
    fail "a wrong answer was not noticed"
fi
grep -q "missing .* ended with 0, expected 1" "$work/broken.err" || fail "a wrong answer was not named"
exit "$failed"
