#!/bin/sh
# Every folder of tests/faulty-kits but good/ is a fault (or a few) laid over the good kit: files of the same name
# replace the good ones, `without` lists files to take away, `expected` holds what `kitbench check` must say, to the
# letter. To add one, add a folder; docs/kit-format.md lists the rules. `faulty_kits.sh KITBENCH --write` writes all
# `expected` files anew, to be read before they are committed.
set -eu
kitbench=$(realpath "$1")
write=${2-}
cases=$(realpath "$(dirname "$0")/../faulty-kits")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
done_cases=0

check() { # CODE NAME: runs the check in the work folder, output in $work/said
    code=0
    (cd "$work/case" && "$kitbench" check kit --workshop workshop) >"$work/summary" 2>"$work/said" || code=$?
    [ "$code" = "$1" ] && return 0
    echo "$2: exit code $code, not $1"
    cat "$work/said"
    return 1
}

mkdir "$work/case"
cp -r "$cases/good/." "$work/case"
check 0 good || exit 1
grep -q 'No fault found' "$work/summary" || { echo "good: no summary"; exit 1; }

for folder in "$cases"/*/; do
    name=$(basename "$folder")
    [ "$name" != good ] || continue
    rm -rf "$work/case"
    mkdir "$work/case"
    cp -r "$cases/good/." "$work/case"
    for part in kit workshop; do
        [ ! -d "$folder$part" ] || cp -r "$folder$part/." "$work/case/$part"
    done
    if [ -f "${folder}without" ]; then
        while read -r file; do rm "$work/case/$file"; done <"${folder}without"
    fi
    done_cases=$((done_cases + 1))
    check 2 "$name" || { failed=$((failed + 1)); continue; }
    [ "$write" != --write ] || cp "$work/said" "${folder}expected"
    if ! diff -u "${folder}expected" "$work/said"; then
        echo "$name: another message"
        failed=$((failed + 1))
    fi
done

# A message that two faults share tells neither.
shared=$(sha256sum "$cases"/*/expected | sort | awk '$1 == last { print before, $2 } { last = $1; before = $2 }')
[ -z "$shared" ] || { echo "The same message for two faults: $shared"; failed=$((failed + 1)); }
[ "$done_cases" -ge 40 ] || { echo "only $done_cases faults, of at least 40"; failed=$((failed + 1)); }
echo "$done_cases faulty kits, $failed failed"
[ "$failed" = 0 ]
