#!/usr/bin/env python3
"""Fifty seeded variations of the demo build: how long a plan takes, and a plan again after an announcement.

    bench/plan_variations.py [--builds N] [--seed S]

Each variation has other absences, and one of: a tool fewer, an adult fewer, parts missing with a promise for some of them,
a session called off. Seconds are processor time of the whole command; the aims are those of the middle and of nine in
ten. The last lines measure the other commands that plan, on the demo as it is.
"""

import argparse
import csv
import json
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile

KITBENCH = os.path.abspath("build/kitbench")


def run(*arguments, code=(0, 1)):
    done = subprocess.run([KITBENCH, *arguments], capture_output=True, text=True)
    if done.returncode not in code:
        sys.exit(f"{arguments}: {done.stderr}")
    return done.stdout


def timed(*arguments):
    """Output, and seconds of processor time."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    out = run(*arguments)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return out, after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


def read(path):
    with open(path, newline="", encoding="utf-8") as f:
        return list(csv.DictReader(f))


def write(path, rows):
    with open(path, "w", newline="", encoding="utf-8") as f:
        out = csv.DictWriter(f, rows[0].keys(), lineterminator="\n")
        out.writeheader()
        out.writerows(rows)


def absences(folder, dice):
    """Three to six people stay away from a session at which they were expected."""
    rows = read(f"{folder}/attendance.csv")
    crew, sessions = read(f"{folder}/crew.csv"), read(f"{folder}/sessions.csv")
    known = {(r["session"], r["person"]) for r in rows}
    for _ in range(dice.randint(3, 6)):
        at = (dice.choice(sessions)["session"], dice.choice(crew)["person"])
        if at not in known:
            known.add(at)
            rows.append({"session": at[0], "person": at[1], "comes": "no", "from": "", "until": ""})
    write(f"{folder}/attendance.csv", rows)


def fewer_tools(folder, dice):
    rows = read(f"{folder}/tools.csv")
    at_once = {}
    for r in read("demo/kit/step_tools.csv"):
        at_once[r["tool"]] = max(at_once.get(r["tool"], 0), int(r["quantity"] or 1))
    tool = dice.choice([r for r in rows if int(r["quantity"]) > max(1, at_once.get(r["tool"], 0))])
    tool["quantity"] = str(int(tool["quantity"]) - 1)
    write(f"{folder}/tools.csv", rows)
    return f"one {tool['tool']} fewer"


def fewer_adults(folder, dice):
    """An adult who is away from every other session."""
    rows = read(f"{folder}/attendance.csv")
    adult = dice.choice([r for r in read(f"{folder}/crew.csv") if r["adult"] == "yes"])["person"]
    rows = [r for r in rows if r["person"] != adult]
    for s in read(f"{folder}/sessions.csv")[dice.randint(0, 1)::2]:
        rows.append({"session": s["session"], "person": adult, "comes": "no", "from": "", "until": ""})
    write(f"{folder}/attendance.csv", rows)
    return f"{adult} every other time"


def called_off(folder, dice):
    rows = read(f"{folder}/sessions.csv")
    for r in rows:
        r["cancelled"] = ""
    off = dice.choice(rows[:10])
    off["cancelled"] = "yes"
    write(f"{folder}/sessions.csv", rows)
    return f"no session {off['session']}"


def missing_parts(build, dice):
    """Of three rows a piece is missing; two of the three parts are promised."""
    rows = dice.sample([r for r in read("demo/kit/rows.csv") if int(r["quantity"]) > 1 and not r["unit"].strip("piece")], 3)
    for n, r in enumerate(rows):
        run("count", build, r["container"], r["line"], str(int(r["quantity"]) - 1))
        if n < 2:
            run("promise", build, r["part"], "1", f"2027-03-{dice.randint(5, 28):02d}")
    return "missing " + ", ".join(r["part"] for r in rows)


def variation(folder, seed):
    dice = random.Random(seed)
    workshop, build = f"{folder}/w{seed}", f"{folder}/b{seed}.kitbench"
    shutil.copytree("demo/workshop", workshop)
    absences(workshop, dice)
    kind = seed % 4
    what = [fewer_tools, fewer_adults, called_off][kind](workshop, dice) if kind < 3 else ""
    run("check", f"{folder}/kit", "--workshop", workshop, "--package", code=(0,))
    run("new", build, "--kit", f"{folder}/kit", "--workshop", workshop, code=(0,))
    return build, what or missing_parts(build, dice)


def told(name, figures, middle, most):
    figures.sort()
    n = len(figures)
    print(f"{name}: middle {figures[n // 2]:.2f} s (aim {middle}), nine of ten {figures[int(0.9 * n)]:.2f} s (aim {most}), "
          f"longest {figures[-1]:.2f} s")


def others(folder):
    build = f"{folder}/demo.kitbench"
    run("new", build, "--kit", "demo/kit", "--workshop", "demo/workshop", code=(0,))
    for name, aim, arguments in (
            ("plan, demo", "0.3", ("plan", build)),
            ("risk, 20,000 samples, both cores together", "2", ("risk", build)),
            ("crew curve", "10", ("whatif", build, "--crew")),
            ("why", "5", ("why", build)),
            ("session", "", ("session", build, "3"))):
        seconds = sorted(timed(*arguments)[1] for _ in range(3))[1]
        print(f"{name}: {seconds:.2f} s" + (f" (aim {aim})" if aim else ""))
    run("plan", build, "--announce")
    print(f"plan again, nothing changed: {timed('plan', build)[1]:.2f} s (aim 0.5)")


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--builds", type=int, default=50)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--each", action="store_true", help="a line for each build")
    options = options.parse_args()
    plans, again, proven, moved = [], [], 0, 0
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree("demo/kit", f"{folder}/kit")
        for seed in range(options.seed, options.seed + options.builds):
            build, what = variation(folder, seed)
            out, seconds = timed("plan", build, "--json")
            plan = json.loads(out)
            plans.append(seconds)
            proven += plan["proven"]
            if options.each:
                print(f"{seed:3d} {seconds:5.2f} s {plan['status']:10s} {plan['makespan_min']} at least "
                      f"{plan['lower_bound_min']}  {what}")
            run("plan", build, "--announce")
            rows = read("demo/kit/rows.csv")
            row = random.Random(seed).choice([r for r in rows if int(r["quantity"]) > 1])
            run("count", build, row["container"], row["line"], str(int(row["quantity"]) - 1))
            run("promise", build, row["part"], "1", "2027-03-10")
            out, seconds = timed("plan", build, "--json")
            again.append(seconds)
            moved += len(json.loads(out)["changes"])
        told(f"{options.builds} plans", plans, 0.3, 1)
        print(f"  proven {proven} of {options.builds}")
        told("plan again after a count and a promise", again, 0.5, 0.5)
        print(f"  {moved / options.builds:.1f} steps changed on average")
        others(folder)


if __name__ == "__main__":
    main()
