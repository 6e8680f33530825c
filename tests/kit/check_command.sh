#!/bin/sh
# What `kitbench check` prints for a kit without a fault, as text and as JSON, and how it refuses what is no kit folder.
set -eu
kitbench=$(realpath "$1")
cd "$(dirname "$0")/../faulty-kits/good"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

cat >"$work/wanted" <<'TEXT'
Bird table
  kit       BT-1, serial BT-0004, revision A
  packed    1 box, 1 bag, 6 rows, 26 pieces
  build     5 steps, 1 sub-assembly, 3.1 person-hours,
            2 tests, 1 hold point, 3 tools
  workshop  3 people, 2 sessions
No fault found.
TEXT
"$kitbench" check kit --workshop workshop >"$work/text"
diff -u "$work/wanted" "$work/text"

cat >"$work/wanted" <<'TEXT'
{"faults": [], "kit": "BT-1", "name": "Bird table", "serial": "BT-0004", "revision": "A", "boxes": 1, "bags": 1, "parts": 6, "rows": 6, "pieces": 26, "tools": 3, "sub_assemblies": 1, "steps": 5, "tests": 2, "hold_points": 1, "person_min": 190, "crew": 3, "sessions": 2}
TEXT
"$kitbench" check kit --workshop workshop --json | python3 -c 'import json, sys; print(json.dumps(json.load(sys.stdin)))' \
    >"$work/json"
diff -u "$work/wanted" "$work/json"

# Faults as JSON: on standard output, exit code 2.
cp -r kit "$work/kit"
rm "$work/kit/parts.csv"
code=0
"$kitbench" check "$work/kit" --json >"$work/faults" || code=$?
[ "$code" = 2 ]
python3 - "$work/faults" <<'PYTHON'
import json, sys
faults = json.load(open(sys.argv[1]))["faults"]
assert faults[0]["file"] == "datapackage.json" and "parts.csv" in faults[0]["cause"], faults
assert {"file", "row", "column", "cause", "remedy"} == set(faults[0]), faults[0]
PYTHON

for wrong in nowhere ../README.md; do
    code=0
    "$kitbench" check "$wrong" 2>"$work/said" || code=$?
    [ "$code" = 2 ]
    grep -q "^kitbench: $wrong: " "$work/said"
done
# One folder taken for the other: one sentence, not a fault for each table.
code=0
"$kitbench" check kit --workshop kit 2>"$work/said" || code=$?
[ "$code" = 2 ] && [ "$(wc -l <"$work/said")" = 1 ]
grep -q "it is a kit's folder, not a workshop's; name the workshop's own folder" "$work/said"
code=0
"$kitbench" check workshop 2>"$work/said" || code=$?
[ "$code" = 2 ] && grep -q "it is a workshop's folder, not a kit's" "$work/said"
echo "kitbench check: text, JSON and refusals as wanted"
