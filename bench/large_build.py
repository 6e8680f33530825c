#!/usr/bin/env python3
"""Plans large builds of its own: large_build.py [--seeds 5] [--seconds 10]

Each build is drawn from its seed: 200 steps (sub-assemblies as chains that join a main machine), 20 people (5 of them adults with
works they supervise, all with some skills), 30 sessions of 100 working minutes with people who stay away, come late or leave early,
tools and workplaces of which there are too few. Printed: the finish, the bound, the gap between them and the processor time.
Invented and regular; it measures the planner, it describes no machine.
"""
import argparse
import datetime
import json
import os
import random
import resource
import subprocess
import sys
import tempfile

from multiskill import ROOT, write

STEPS, PEOPLE, SESSIONS, ADULTS, UNITS = 200, 20, 30, 5, 16
WORKS = ("cutting", "wiring", "lifting", "gluing")
SKILLS = ("measure", "torque", "crimp", "rivet", "saw")


def draw_steps(dice):
    """(step, unit or None, those it follows): two thirds in sub-assemblies, the rest along the main machine."""
    own = [dice.randrange(5, 12) for _ in range(UNITS)]
    rows, number = [], 0
    ends = []
    for unit, length in enumerate(own):
        chain = []
        for k in range(length):
            after = [chain[-1]] if chain and dice.random() < 0.8 else chain[-2:-1]
            chain.append(number)
            rows.append((number, unit, after))
            number += 1
        ends.append(sorted(set(chain) - {a for _, u, f in rows if u == unit for a in f}))
    trunk = []
    free = list(range(UNITS))
    while number < STEPS:
        after = [trunk[-1]] if trunk and dice.random() < 0.5 else dice.sample(trunk[-6:], min(1, len(trunk)))
        if free and (dice.random() < 0.3 or STEPS - number <= len(free)):
            after = after + ends[free.pop(0)]
        rows.append((number, None, after))
        trunk.append(number)
        number += 1
    return rows


def write_large_build(seed, folder):
    dice = random.Random(seed)
    kit, workshop = os.path.join(folder, "kit"), os.path.join(folder, "workshop")
    os.makedirs(kit)
    os.makedirs(workshop)
    rows = draw_steps(dice)
    write(kit, "kit", "kit,name", [("LB-%d" % seed, "large build %d" % seed)])
    write(kit, "parts", "part,name", [("P1", "frame")])
    write(kit, "containers", "container,kind", [("box 1", "box")])
    write(kit, "rows", "container,line,part,quantity,unit", [("box 1", 1, "P1", 1, "piece")])
    write(kit, "skills", "skill,name", [(s, s) for s in SKILLS])
    write(kit, "works", "work,name", [(w, w) for w in WORKS])
    write(kit, "zones", "zone,name,kind,groups", [("bench", "bench", "workplace", ""), ("front", "front", "zone", 2), ("back", "back", "zone", 2)])
    write(kit, "tools", "tool,name,kind,size,needed", [("T%d" % t, "spanner %d" % t, "ring spanner", "%d mm" % (t + 6), 2) for t in range(10)])
    write(kit, "sub_assemblies", "sub_assembly,name", [("U%d" % u, "unit %d" % u) for u in range(UNITS)])
    steps, skills, tools = [], [], []
    for number, unit, _ in rows:
        likely, people = dice.randrange(10, 46), dice.choice((1, 2, 2, 2, 3, 4))
        work = dice.choice(WORKS) if dice.random() < 0.4 else ""
        supervision = "beside the work" if work and dice.random() < 0.6 else "in the room"
        zone = "bench" if unit is not None else dice.choice(("front", "back", ""))
        pause = dice.random() < 0.4
        steps.append(("S%d" % number, "step %d" % number, "U%d" % unit if unit is not None else "", work, likely // 2 + 1, likely, likely * 2,
                      people, supervision, zone, "yes" if pause else "", "put it down" if pause else "", dice.randrange(2, 6) if pause else ""))
        for skill in dice.sample(SKILLS, dice.choice((0, 1, 1, 2))):
            skills.append(("S%d" % number, skill, 1, "yes" if dice.random() < 0.3 and people > 2 else ""))
        for tool in dice.sample(range(10), dice.choice((0, 1, 1, 2))):
            tools.append(("S%d" % number, "T%d" % tool, 1))
    write(kit, "steps", "step,name,sub_assembly,work,low_min,likely_min,high_min,people,supervision,zone,may_pause,safe_state,resume_min", steps)
    write(kit, "step_after", "step,after", [("S%d" % n, "S%d" % a) for n, _, after in rows for a in after])
    write(kit, "step_parts", "step,part,quantity,tightening", [("S0", "P1", 1, "")])
    write(kit, "step_skills", "step,skill,people,own_people", skills)
    write(kit, "step_tools", "step,tool,quantity", tools)
    write(workshop, "workshop", "name,minimum_adults,beginners_factor", [("large crew", 2, 1.5)])
    write(workshop, "crew", "person,name,adult,leader,supervises,skills",
          [("P%d" % p, "person %d" % p, "yes" if p < ADULTS else "no", "yes" if p == 0 else "",
            "; ".join(w for w in WORKS if p < 2 or dice.random() < 0.5) if p < ADULTS else "",
            "; ".join(s for s in SKILLS if p < 2 or dice.random() < 0.5)) for p in range(PEOPLE)])
    first = datetime.date(2030, 1, 7)
    write(workshop, "sessions", "session,date,start,end,opening_min,closing_min",
          [(s + 1, first + datetime.timedelta(days=7 * (s // 2) + 3 * (s % 2)), "18:30", "20:30", 10, 10) for s in range(SESSIONS)])
    attendance = []
    for s in range(SESSIONS):
        for p in range(PEOPLE):
            chance = dice.random()
            if chance < 0.15 and p != 0 and p != 1:
                attendance.append((s + 1, "P%d" % p, "no", "", ""))
            elif chance < 0.25 and p > 1:
                attendance.append((s + 1, "P%d" % p, "yes", "19:00" if chance < 0.2 else "", "" if chance < 0.2 else "20:00"))
    write(workshop, "attendance", "session,person,comes,from,until", attendance)
    write(workshop, "tools", "tool,quantity", [("T%d" % t, 3 + t % 2) for t in range(10)])
    write(workshop, "workplaces", "zone,quantity", [("bench", 6)])


def main():
    a = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    a.add_argument("--program", default=os.path.join(ROOT, "build", "kitbench"))
    a.add_argument("--seeds", type=int, default=5)
    a.add_argument("--seconds", type=float, default=10, help="for each plan, on the clock")
    o = a.parse_args()
    print("%4s %6s %9s %8s %8s %8s %7s" % ("seed", "steps", "sessions", "finish", "bound", "gap", "cpu s"))
    for seed in range(1, o.seeds + 1):
        with tempfile.TemporaryDirectory() as folder:
            write_large_build(seed, folder)
            build = os.path.join(folder, "it.kitbench")
            subprocess.run([o.program, "check", folder + "/kit", "--workshop", folder + "/workshop", "--package"], capture_output=True)
            made = subprocess.run([o.program, "new", build, "--kit", folder + "/kit", "--workshop", folder + "/workshop"],
                                  capture_output=True, text=True)
            if made.returncode:
                sys.exit("no build: " + made.stderr)
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            run = subprocess.run([o.program, "plan", build, "--json", "--seconds", str(o.seconds)], capture_output=True, text=True)
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            if run.returncode > 1:
                sys.exit("no plan: " + run.stderr)
            p = json.loads(run.stdout)
        finish, bound = p["makespan_min"], p["lower_bound_min"]
        print("%4d %6d %9d %8d %8d %7.2f%% %7.2f" % (
            seed, len(p["steps"]), (finish + 99) // 100, finish, bound, 100 * (finish - bound) / bound,
            after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime))
        sys.stdout.flush()


if __name__ == "__main__":
    main()
