#!/bin/sh
# A real parts list goes the whole way: draft kit, build file, counts, missing, report, check sheets; and, with ten steps
# and a crew added, a plan. `whole_way.sh KITBENCH`, from the project's root. SKIPPED (77) without ../shared/data.
set -eu
kitbench=$(realpath "$1")
lists=${KITBENCH_DATA:-../shared/data}/boms
[ -f "$lists/feeder.csv" ] || { echo "SKIPPED: $lists is not there"; exit 77; }
lists=$(realpath "$lists")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

fail() {
    echo "FAILED: $*"
    exit 1
}

# run CODE ARGUMENTS...: output in ./said
run() {
    wanted=$1
    shift
    code=0
    "$kitbench" "$@" >said 2>&1 || code=$?
    [ "$code" = "$wanted" ] || { cat said; fail "kitbench $*: exit code $code, not $wanted"; }
}

says() {
    grep -q -- "$1" said || { cat said; fail "nothing said about: $1"; }
}

# ---- the lists become kits ----
for list in feeder soccer-robot micromanipulator; do
    run 0 draft "$lists/$list.csv"
    says 'Nothing was written'
    longest=$(LC_ALL=C.UTF-8 wc -L <said)
    [ "$longest" -le 80 ] || fail "$list: a line of $longest columns"
    [ ! -e $list ] || fail "$list was written without -o"
    run 0 draft "$lists/$list.csv" -o $list
    says "Written to $list"
    run 0 check $list
    says 'No fault found'
    run 2 draft "$lists/$list.csv" -o $list
    says 'it is there already'
done
run 0 draft "$lists/soccer-robot.csv" -o opened --open-packs
grep -q '^A1,4,P005,100,piece' opened/rows.csv || fail "a pack of 100 does not count 100 pieces"
grep -q '^A1,4,P005,1,pack' soccer-robot/rows.csv || fail "a pack of 100 is not one pack"
grep -q '^A1,11,P012,1200,g' feeder/rows.csv || fail "1.2 kg are not 1200 g"

# ---- what is wrong is said, and nothing is written ----
printf 'Part,Qty\nBolt,3-14\nNut,2\n' >range.csv
run 1 draft range.csv -o range
says 'row 2 .*Bolt'
run 0 check range
grep -q '^P002,Bolt,.*not understood in row 2' range/parts.csv || fail "the part does not say what was not understood"
[ "$(wc -l <range/rows.csv)" = 2 ] || fail "a quantity that was not understood stands on a packing row"
printf 'Part,Qty,Total qty\nBolt,2,8\n' >two.csv
run 2 draft two.csv -o two
says 'say which: --columns "quantity=B"'
run 2 draft range.csv -o no --columns 'quantity=Menge'
says 'the list has no column "Menge"'
run 2 draft range.csv -o no --encoding latin
says 'write utf-8, utf-16le, utf-16be or windows-1252'
run 2 draft range.csv -o no --header-row x
run 2 draft nothing.csv -o no
says 'no such file'
run 2 draft . -o no
[ ! -e two ] && [ ! -e no ] || fail "a kit was written in spite of a fault"
printf 'a\0\0b' >noise
run 2 draft noise -o no
run 3 draft range.csv -o no/such/place

# ---- stock check of the feeder ----
run 0 new f.kitbench --kit feeder
run 0 receive f.kitbench "box 1"
run 0 missing f.kitbench
says "28 of 28 rows are not counted yet"
printf 'bag A1 all right except row 12: 10, row 15: 9 and 1 damaged\n' >entry
run 0 enter f.kitbench entry --by Mika
run 0 count f.kitbench P027 4 --by Mika
run 1 missing f.kitbench --json
says '"P013"'
says '"P016"'
run 0 report f.kitbench -o report
grep -q 'M3-hex-nut' report/report.txt || fail "the report does not name the missing nut"
run 0 print feeder check-sheets -o sheets.pdf
if command -v qpdf >/dev/null && command -v pdftotext >/dev/null; then
    qpdf --check sheets.pdf >said 2>&1 || { cat said; fail "the check sheets are no right PDF"; }
    pdftotext -layout sheets.pdf sheets.txt
    for name in peel-worm-gear M5-t-slot-nut shaft-collar; do
        grep -q $name sheets.txt || fail "no $name on the check sheets"
    done
fi

# ---- ten steps and a crew: a plan ----
awk -F, 'NR > 1 { print "S" (NR - 2) % 10 + 1 "," $3 "," $4 }' feeder/rows.csv >needs
{ echo step,part,quantity; cat needs; } >feeder/step_parts.csv
awk 'BEGIN { print "step,name,low_min,likely_min,high_min,people"
             for (i = 1; i <= 10; i++) printf "S%d,Fit group %d,10,20,40,%d\n", i, i, i % 2 + 1 }' >feeder/steps.csv
awk 'BEGIN { print "step,after"; for (i = 2; i <= 10; i++) printf "S%d,S%d\n", i, i > 3 ? i - 3 : 1 }' >feeder/step_after.csv
mkdir workshop
printf 'name\nThe shed\n' >workshop/workshop.csv
printf 'person,name,adult,leader\nP1,Fern,yes,yes\nP2,Mika,yes,\nP3,Comet,no,\nP4,Pixel,no,\n' >workshop/crew.csv
printf 'session,date,start,end\n1,2027-03-02,18:30,20:30\n2,2027-03-04,18:30,20:30\n' >workshop/sessions.csv
printf '{"name": "shed", "profile": "tabular-data-package", "resources": []}' >workshop/datapackage.json
run 0 check feeder --workshop workshop --package
run 0 check feeder --workshop workshop
says '10 steps'
run 0 new plan.kitbench --kit feeder --workshop workshop
printf 'bag A1 all right\n' >entry
run 0 enter plan.kitbench entry --by Mika
run 0 plan plan.kitbench --json
says '"finish": "2027-03-0'
[ "$(grep -c '"step": "S' said)" -ge 10 ] || fail "the plan does not hold all ten steps"
echo "three lists became kits; one went the whole way"
