#!/usr/bin/env python3
"""`kitbench recount KIT` against the kit's own tables, ranked here a second time: recount.py KITBENCH KIT."""
import csv
import json
import os
import subprocess
import sys

KITBENCH, KIT = os.path.abspath(sys.argv[1]), sys.argv[2]


def table(name):
    with open(os.path.join(KIT, name + ".csv"), newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def steps_stopped(drawing, followers):
    seen, open_steps = set(drawing), list(drawing)
    while open_steps:
        for step in followers.get(open_steps.pop(), []):
            if step not in seen:
                seen.add(step)
                open_steps.append(step)
    return len(seen)


def main():
    done = subprocess.run([KITBENCH, "recount", KIT, "--show", "1000", "--json"], capture_output=True, text=True)
    told = json.loads(done.stdout)["first"]
    careful = {s["step"] for s in table("steps") if s["supervision"] in ("beside the work", "adult does it")}
    careful |= {t["step"] for t in table("step_tests") if t["hold_point"] == "yes"}
    followers, draws, care = {}, {}, set()
    for a in table("step_after"):
        followers.setdefault(a["after"], []).append(a["step"])
    for p in table("step_parts"):
        draws.setdefault(p["part"], set()).add(p["step"])
        if p["step"] in careful or p["tightening"] == "torque":
            care.add(p["part"])
    faults = []
    for row in told:
        if row["care"] != (row["part"] in care):
            faults.append(f"{row['part']}: care is {row['care']}")
        if row["stops_steps"] != steps_stopped(draws.get(row["part"], ()), followers):
            faults.append(f"{row['part']}: stops {row['stops_steps']} steps")
    order = [(not r["care"], -r["stops_steps"], r["spare"]) for r in told]
    if order != sorted(order):
        faults.append("the rows are not in order")
    if len(told) != len(table("rows")) or not any(r["care"] for r in told) or all(r["care"] for r in told):
        faults.append("not every row, or nothing to rank")
    print("\n".join(faults) or f"{len(told)} rows, {sum(r['care'] for r in told)} of them with care")
    return bool(faults)


sys.exit(main())
