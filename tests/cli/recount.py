#!/usr/bin/env python3
"""`kitbench recount KIT` against the kit's own tables, ranked here a second time: recount.py KITBENCH KIT. Which parts have a
look-alike is taken from `kitbench fastener --against` for some pairs and from the answer itself for the rest."""
import csv
import json
import math
import os
import subprocess
import sys

KITBENCH, KIT = os.path.abspath(sys.argv[1]), sys.argv[2]
CARE, SLIP, SLIP_A_PIECE = 3, 0.02, 0.002


def table(name):
    with open(os.path.join(KIT, name + ".csv"), newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def ask(*words):
    done = subprocess.run([KITBENCH, *words, "--json"], capture_output=True, text=True)
    return json.loads(done.stdout)


def stopped(drawing, followers):
    seen, open_steps = set(drawing), list(drawing)
    while open_steps:
        for step in followers.get(open_steps.pop(), []):
            if step not in seen:
                seen.add(step)
                open_steps.append(step)
    return seen


def main():
    told = ask("recount", KIT, "--show", "1000")["first"]
    steps = {s["step"]: s for s in table("steps")}
    careful = {s for s in steps if steps[s]["supervision"] in ("beside the work", "adult does it")}
    careful |= {t["step"] for t in table("step_tests") if t["hold_point"] == "yes"}
    followers, draws, care = {}, {}, set()
    for a in table("step_after"):
        followers.setdefault(a["after"], []).append(a["step"])
    for p in table("step_parts"):
        draws.setdefault(p["part"], set()).add(p["step"])
        if p["step"] in careful or p["tightening"] == "torque":
            care.add(p["part"])
    rows = {(r["container"], r["line"]): r for r in table("rows")}
    faults, harms = [], []
    for row in told:
        list_row = rows.pop((row["container"], str(row["line"])))
        stops = stopped(draws.get(row["part"], ()), followers)
        minutes = sum(int(steps[s]["people"] or 1) * int(steps[s]["likely_min"]) for s in stops)
        pieces = int(list_row["quantity"]) if list_row["unit"] in ("", "piece") else 1
        spare = int(list_row["spare"] or 0)
        chance = 1 - math.exp(-(SLIP + SLIP_A_PIECE * pieces) * (2 if row["look_alike"] else 1))
        harm = chance * minutes * (CARE if row["part"] in care else 1) / (1 + spare)
        for name, found, wanted in (("care", row["care"], row["part"] in care), ("steps", row["stops_steps"], len(stops)),
                                    ("minutes", row["stops_person_min"], minutes), ("spare", row["spare"], spare > 0)):
            if found != wanted:
                faults.append(f"{row['part']}: {name} is {found}, not {wanted}")
        if abs(row["chance_wrong"] - chance) > 1e-4 or abs(row["harm_person_min"] - harm) > 1e-4 * (1 + harm):
            faults.append(f"{row['part']}: harm {row['harm_person_min']}, not {harm}")
        harms.append(row["harm_person_min"])
    if harms != sorted(harms, reverse=True):
        faults.append("the rows are not in order")
    if rows or len(set(harms[:60])) < 40:
        faults.append("not every row, or an order that hardly tells rows apart")
    alike = {row["part"]: row["look_alike"] for row in told}
    names = {p["part"]: p["designation"] for p in table("parts") if p["designation"]}
    pair = ask("fastener", names["D-913"], "--against", names["D-914"])["against"]["verdict"]
    if pair not in ("look alike", "mixed up when seen alone") or not alike["D-913"] or not alike["D-914"]:
        faults.append("M6x20 and M6x25 are look-alikes")
    if alike["D-101"] or alike["D-941"]:
        faults.append("a ring segment and the only wing nut have no look-alike")
    print("\n".join(faults) or f"{len(told)} rows ranked, {len(set(harms))} different harms")
    return bool(faults)


sys.exit(main())
