#!/usr/bin/env python3
"""Plans published multi-skill instances as builds: multiskill.py [--sets set1a,set2b,set2c] [--seconds 10] [--match TEXT]

Each instance is written as a kit and a workshop (a step for each activity, its people bound to one skill each by
own_people, one session long enough for everything) and goes the way of every build: kitbench new, kitbench plan. Printed for
each set: how many finishes are the published best, how many are proven and after how many seconds of processor time,
and how many contradict the published bounds (none may).

Data: ../shared/data/multiskill seen from the project's root, or multiskill where KITBENCH_DATA points. Source of the
instances and of the bounds: K. D. Young, T. Feydy, A. Schutt, "Constraint Programming Applied to the Multi-Skill Project Scheduling
Problem", CP 2017.
"""
import argparse
import csv
import json
import os
import resource
import subprocess
import sys
import tempfile

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
DATA = os.path.join(os.environ.get("KITBENCH_DATA") or os.path.join(ROOT, "..", "shared", "data"), "multiskill")
WITHIN = (0.1, 1, 10, 60)


def write(folder, table, heading, rows):
    with open(os.path.join(folder, table + ".csv"), "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file)
        out.writerow(heading.split(","))
        out.writerows(rows)


def write_build(instance, folder):
    """Kit and workshop of an instance. Its first and last activity are milestones of length 0 and need no step."""
    kit, workshop = os.path.join(folder, "kit"), os.path.join(folder, "workshop")
    os.makedirs(kit)
    os.makedirs(workshop)
    steps = [i for i, d in enumerate(instance["duration"]) if d > 0]
    need = instance["people_needed_by_skill"]
    write(kit, "kit", "kit,name", [("M-1", "published instance")])
    write(kit, "parts", "part,name", [("P1", "frame")])
    write(kit, "containers", "container,kind", [("box 1", "box")])
    write(kit, "rows", "container,line,part,quantity,unit", [("box 1", 1, "P1", 1, "piece")])
    write(kit, "skills", "skill,name", [("K%d" % k, "skill %d" % k) for k in range(len(need[0]))])
    write(kit, "steps", "step,name,low_min,likely_min,high_min,people,supervision",
          [("S%d" % i, "activity %d" % i, instance["duration"][i], instance["duration"][i], instance["duration"][i],
            max(1, sum(need[i])), "in the room") for i in steps])
    write(kit, "step_after", "step,after",
          [("S%d" % b, "S%d" % a) for a, b in instance["after"] if a in steps and b in steps])
    write(kit, "step_parts", "step,part,quantity,tightening", [("S%d" % steps[0], "P1", 1, "")])
    write(kit, "step_skills", "step,skill,people,own_people",
          [("S%d" % i, "K%d" % k, n, "yes") for i in steps for k, n in enumerate(need[i]) if n])
    write(workshop, "workshop", "name,minimum_adults,beginners_factor", [("everybody of age", 1, 1)])
    write(workshop, "crew", "person,name,adult,skills",
          [("P%d" % p, "person %d" % p, "yes", "; ".join("K%d" % k for k, has in enumerate(skills) if has))
           for p, skills in enumerate(instance["has_skill"])])
    write(workshop, "sessions", "session,date,start,end", [(1, "2030-01-07", "00:00", "23:59")])


def plan(program, instance, seconds):
    """The plan, and the seconds of processor time it took."""
    with tempfile.TemporaryDirectory() as folder:
        write_build(instance, folder)
        build = os.path.join(folder, "it.kitbench")
        subprocess.run([program, "check", folder + "/kit", "--workshop", folder + "/workshop", "--package"], capture_output=True)
        made = subprocess.run([program, "new", build, "--kit", folder + "/kit", "--workshop", folder + "/workshop"],
                              capture_output=True, text=True)
        if made.returncode:
            sys.exit("the instance makes no build: " + made.stderr)
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        run = subprocess.run([program, "plan", build, "--json", "--seconds", str(seconds)], capture_output=True, text=True)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        if run.returncode > 1:
            sys.exit("no plan: " + run.stderr)
        return json.loads(run.stdout), after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main():
    a = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    a.add_argument("--program", default=os.path.join(ROOT, "build", "kitbench"))
    a.add_argument("--sets", default="set1a,set2b,set2c")
    a.add_argument("--seconds", type=float, default=10, help="for each plan, on the clock")
    a.add_argument("--match", default="", help="only instances whose name has this in it")
    a.add_argument("--verbose", action="store_true", help="a line for each instance that is not proven or takes over a second")
    o = a.parse_args()
    if not os.path.isdir(DATA):
        print("SKIPPED: no instances at " + DATA)
        return 0
    with open(os.path.join(DATA, "best.csv"), newline="") as file:
        best = {r["instance"]: r for r in csv.DictReader(file)}
    wrong = 0
    print("%-6s %9s %12s %8s  proven within %s s" % ("set", "instances", "best reached", "proven", ", ".join(map(str, WITHIN))))
    for name in o.sets.split(","):
        rows = []
        for file in sorted(os.listdir(os.path.join(DATA, name))):
            it = file[:-len(".json")]
            if o.match not in it:
                continue
            with open(os.path.join(DATA, name, file)) as f:
                instance = json.load(f)
            p, seconds = plan(o.program, instance, o.seconds)
            makespan, bound, proven = p["makespan_min"], p["lower_bound_min"], p["status"] == "optimal"
            low, high = int(best[it]["lower_bound"]), int(best[it]["upper_bound"])
            contradicts = makespan is None or makespan < low or bound > high or (proven and makespan > high)
            wrong += contradicts
            rows.append((makespan == high, proven, seconds))
            if contradicts or (o.verbose and (not proven or seconds > 1)):
                print("%s: %s, bound %s, %s, %.2f s; published %d to %d%s" % (
                    it, makespan, bound, p["status"], seconds, low, high, " CONTRADICTS" if contradicts else ""))
                sys.stdout.flush()
        print("%-6s %9d %12d %8d  %s; %.1f s together" % (
            name, len(rows), sum(r[0] for r in rows), sum(r[1] for r in rows),
            ", ".join(str(sum(r[1] and r[2] <= t for r in rows)) for t in WITHIN if t <= 2 * o.seconds),
            sum(r[2] for r in rows)))
        sys.stdout.flush()
    if wrong:
        print("%d contradict the published bounds" % wrong)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
