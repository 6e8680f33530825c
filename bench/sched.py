#!/usr/bin/env python3
"""Measures the scheduling kernel on open data, side by side with MiniZinc/Gecode where that is installed.

    bench/sched.py [--set j30,j60,j120,builds] [--seconds 1] [--every 1] [--threads 1] [--other] [--csv FILE]

Data: ../shared/data seen from the project's root, or where KITBENCH_DATA points. For each set: how many are proven within
10 ms, 0.1 s, 1 s ... of processor time of the solve (with several threads of the whole process), makespans above the best known, the median and the
sum of the times. A proof outside the published bounds of best.csv is a bug and ends with exit code 1. --other runs Gecode on the same
problems; the time to write them down for it is not counted. The limit is one of processor time, so that a busy machine changes
nothing. KITBENCH names another binary to measure. --csv writes one row for each problem and solver.
"""
import argparse
import csv
import json
import math
import os
import re
import resource
import statistics
import subprocess
import sys
import tempfile

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
KITBENCH = os.environ.get("KITBENCH") or os.path.join(ROOT, "build", "kitbench")
DATA = os.environ.get("KITBENCH_DATA") or os.path.join(ROOT, "..", "shared", "data")


def best_known(folder):
    with open(os.path.join(DATA, folder, "best.csv"), encoding="utf-8") as f:
        return {r["instance"]: (int(r["lower_bound"]), int(r["upper_bound"])) for r in csv.DictReader(f)}


def problems(name):
    folder = os.path.join(DATA, "builds") if name == "builds" else os.path.join(DATA, "psplib", name)
    end = ".json" if name == "builds" else ".sm"
    files = [f for f in os.listdir(folder) if f.endswith(end)]
    files.sort(key=lambda f: [int(x) if x.isdigit() else x for x in re.split(r"(\d+)", f)])
    return [os.path.join(folder, f) for f in files]


def processor_time(run):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    result = run()
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return result, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def kitbench(path, seconds, threads):
    call = [KITBENCH, "solve", path, "--processor-seconds", str(seconds), "--threads", str(threads)]
    run, spent = processor_time(lambda: subprocess.run(call, capture_output=True, text=True))
    answer = json.loads(run.stdout)
    return {"makespan": answer["makespan"], "lower_bound": answer["lower_bound"], "proven": answer["proven"],
            "seconds": answer["seconds"] if threads == 1 else spent, "conflicts": answer["conflicts"],
            "memory_bytes": answer["memory_bytes"]}


def read_psplib(path):
    """The same problem again, by a reader of its own."""
    with open(path, encoding="utf-8") as f:
        text = f.read()
    rows = lambda head, skip: [list(map(int, line.split())) for line in re.search(
        head + r".*\n" + r".*\n" * skip + r"((?:[ \d]+\n)+)", text).group(1).splitlines() if line.strip()]
    requests = rows(r"REQUESTS/DURATIONS", 2)
    return {"duration": [r[2] for r in requests], "needs": [r[3:] for r in requests], "capacity": rows("RESOURCEAVAILABILITIES", 1)[0],
            "after": [(r[0] - 1, x - 1) for r in rows("PRECEDENCE RELATIONS", 1) for x in r[3:]]}


def gecode(path, seconds):
    if path.endswith(".json"):
        with open(path, encoding="utf-8") as f:
            p = json.load(f)
    else:
        p = read_psplib(path)
    horizon = p.get("sessions", 0) * p.get("session_minutes", 0) or sum(p["duration"])
    n = len(p["duration"])
    out = ['include "cumulative.mzn";', "array[1..%d] of var 0..%d: s;" % (n, horizon), "var 0..%d: last;" % horizon]
    for i, d in enumerate(p["duration"], 1):
        out.append("constraint s[%d] + %d <= last;" % (i, d))
        if "session_minutes" in p and d:
            out.append("constraint s[%d] mod %d <= %d;" % (i, p["session_minutes"], p["session_minutes"] - d))
    for a, b in p["after"]:
        out.append("constraint s[%d] + %d <= s[%d];" % (a + 1, p["duration"][a], b + 1))
    for r, capacity in enumerate(p["capacity"]):
        users = [i for i in range(n) if p["needs"][i][r] and p["duration"][i]]
        start = ["s[%d]" % (i + 1) for i in users]
        length, amount = [p["duration"][i] for i in users], [p["needs"][i][r] for i in users]
        for change, a, b, less in p.get("capacity_changes", []):  # what is missing is taken by a fixed block
            if change == r and less < capacity:
                start.append(str(a))
                length.append(b - a)
                amount.append(capacity - less)
        if users:
            out.append("constraint cumulative([%s], %s, %s, %d);" % (",".join(start), length, amount, capacity))
    out.append("solve :: int_search(s, smallest, indomain_min) minimize last;")
    out.append('output ["\\(last)"];')
    with tempfile.TemporaryDirectory() as folder:
        model, flat = os.path.join(folder, "p.mzn"), os.path.join(folder, "p.fzn")
        with open(model, "w", encoding="utf-8") as f:
            f.write("\n".join(out))
        subprocess.run(["minizinc", "--solver", "gecode", "-c", "--no-output-ozn", "--fzn", flat, model], check=True,
                       capture_output=True)
        limit = math.ceil(seconds)  # the system counts whole seconds
        call = ["fzn-gecode", "-a", flat]
        run, spent = processor_time(lambda: subprocess.run(
            call, capture_output=True, text=True, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (limit, limit + 1))))
    values = re.findall(r"^last = (\d+);$", run.stdout, re.M)
    makespan, proven = int(values[-1]) if values else None, "==========" in run.stdout
    return {"makespan": makespan, "lower_bound": makespan if proven else 0, "proven": proven, "seconds": spent, "conflicts": "",
            "memory_bytes": ""}


def table(name, solver, rows, best):
    proven = [r for r in rows if r["proven"]]
    limits = [0.01, 0.1, 1, 10, 60]
    above = [100 * (r["makespan"] - best[r["instance"]][1]) / best[r["instance"]][1] for r in rows if r["makespan"] is not None]
    gaps = [100 * (r["makespan"] - r["lower_bound"]) / r["makespan"] for r in rows if not r["proven"] and r["makespan"]]
    print("%-7s %-9s %4d problems, %4d proven: %s" % (name, solver, len(rows), len(proven), ", ".join(
        "%d in %g s" % (sum(r["seconds"] <= t for r in proven), t) for t in limits)))
    print("%17s makespans %.3f %% above the best known; open gaps up to %.1f %%; median %.4f s of the proven; %.1f s in all" % (
        "", statistics.fmean(above) if above else float("nan"), max(gaps, default=0),
        statistics.median(r["seconds"] for r in proven) if proven else float("nan"), sum(r["seconds"] for r in rows)))
    sys.stdout.flush()


def main():
    a = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    a.add_argument("--set", default="j30,j60,j120,builds")
    a.add_argument("--seconds", type=float, default=1)
    a.add_argument("--every", type=int, default=1, help="only every n-th problem")
    a.add_argument("--threads", type=int, default=1)
    a.add_argument("--other", action="store_true", help="Gecode too")
    a.add_argument("--csv")
    o = a.parse_args()
    if not os.path.isdir(DATA):
        print("SKIPPED: no data at ../shared/data and KITBENCH_DATA does not say where it is")
        return 0
    every_row, contradictions = [], 0
    for name in o.set.split(","):
        best = best_known("builds" if name == "builds" else "psplib")
        solvers = {"kitbench": lambda path: kitbench(path, o.seconds, o.threads)}
        if o.other:
            solvers["gecode"] = lambda path: gecode(path, o.seconds)
        for solver, solve in solvers.items():
            rows = []
            for path in problems(name)[:: o.every]:
                row = {"set": name, "solver": solver, "instance": os.path.splitext(os.path.basename(path))[0], **solve(path)}
                low, high = best[row["instance"]]
                if (row["makespan"] is not None and row["makespan"] < low) or row["lower_bound"] > high:
                    print("CONTRADICTION: %s: %s against %d .. %d" % (row["instance"], row, low, high))
                    contradictions += 1
                rows.append(row)
            table(name, solver, rows, best)
            every_row += rows
    if o.csv:
        with open(o.csv, "w", newline="", encoding="utf-8") as f:
            w = csv.DictWriter(f, list(every_row[0]))
            w.writeheader()
            w.writerows(every_row)
    return 1 if contradictions else 0


sys.exit(main())
