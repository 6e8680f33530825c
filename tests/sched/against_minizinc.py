#!/usr/bin/env python3
"""Solves fresh random problems with Gecode through MiniZinc and with the kernel, and wants the same optima.

    tests/sched/against_minizinc.py TEST_SCHED_RANDOM COUNT SEED

TEST_SCHED_RANDOM is the runner of solved problems; make_random.py draws and solves with Gecode. Both must prove at least 95 in 100.
Without minizinc it says so and ends with 77: skipped.
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile

runner, count, seed = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
if not shutil.which("minizinc"):
    print("SKIPPED: minizinc is not installed")
    sys.exit(77)
here = os.path.dirname(os.path.abspath(__file__))
with tempfile.NamedTemporaryFile("w", suffix=".txt") as f:
    made = subprocess.run([sys.executable, os.path.join(here, "make_random.py"), str(count), str(seed)], stdout=f, check=False)
    if made.returncode:
        sys.exit("make_random.py failed")
    solved = len(re.findall(r"^(?:optimum|infeasible)", open(f.name, encoding="utf-8").read(), re.M))
    print("Gecode proved %d of %d" % (solved, count))
    ours = subprocess.run([runner, f.name], text=True, capture_output=True)
    print(ours.stdout[-4000:], ours.stderr[-1000:])
last = re.search(r"^(\d+) problems, (\d+) differences$", ours.stdout, re.M)
good = last and int(last.group(1)) == solved and last.group(2) == "0" and ours.returncode == 0
sys.exit(0 if good and solved >= 0.95 * count else 1)
