#!/usr/bin/env python3
"""`kitbench solve` as its user runs it: answers, limits, Ctrl-C, faults with their line, and problems that are too large.

    solve.py KITBENCH
"""
import json
import os
import random
import signal
import subprocess
import sys
import tempfile
import time

KITBENCH = sys.argv[1]


def run(*args, code=0):
    done = subprocess.run([KITBENCH, "solve", *args], capture_output=True, text=True)
    assert done.returncode == code, (args, done.returncode, done.stderr)
    return json.loads(done.stdout) if code < 2 else done.stderr


def hard(n, seed):
    """A project like the hard ones of the open sets: every resource scarce, few relations."""
    r = random.Random(seed)
    return {"duration": [r.randint(1, 10) for _ in range(n)], "capacity": [12, 12, 12, 12],
            "needs": [[r.randint(1, 10) for _ in range(4)] for _ in range(n)],
            "after": [[r.randint(0, i - 1), i] for i in range(5, n)]}


def keeps_all_rules(p, starts):
    """A checker of its own, for the rules of hard()."""
    ends = [s + d for s, d in zip(starts, p["duration"])]
    assert all(ends[a] <= starts[b] for a, b in p["after"])
    for t in set(starts):
        for r, capacity in enumerate(p["capacity"]):
            assert sum(p["needs"][i][r] for i in range(len(starts)) if starts[i] <= t < ends[i]) <= capacity
    return max(ends)


def processor_seconds(pid):
    with open("/proc/%d/stat" % pid, encoding="ascii") as f:
        fields = f.read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def interrupted(path, p):
    """After a second of work, whatever the machine's load; it would work for days."""
    started = subprocess.Popen([KITBENCH, "solve", path], stdout=subprocess.PIPE)
    while started.poll() is None and processor_seconds(started.pid) < 1:
        time.sleep(0.02)
    started.send_signal(signal.SIGINT)
    answer = json.loads(started.communicate()[0])
    assert started.returncode == 0 and answer["status"] == "feasible" and not answer["proven"]
    assert answer["reason"] == "it was cancelled"
    assert keeps_all_rules(p, answer["starts"]) == answer["makespan"] > answer["lower_bound"]


def faults(folder):
    path = os.path.join(folder, "wrong.json")
    with open(path, "w", encoding="utf-8") as f:
        f.write('{"duration": [1, 2],\n "capacity": [3],\n "needs": [[1], [2, 2]],\n "after": [[0, 5]]}\n')
    told = run(path, code=2).splitlines()
    assert told[0].startswith(path + " line 3, needs[1]: this row does not fit the resources; "), told
    assert told[1].startswith(path + " line 4, after[0]: task 5 does not exist"), told
    assert told[2] == "kitbench: 2 faults found", told
    done = subprocess.run([KITBENCH, "solve", path, "--json"], capture_output=True, text=True)
    assert done.returncode == 2 and len(json.loads(done.stdout)["faults"]) == 2
    assert "--processor-seconds" in run(path, "--seconds", "1", "--processor-seconds", "1", code=2)
    assert "wrong.txt" in run(os.path.join(folder, "wrong.txt"), code=2)


def infeasible(folder):
    path = os.path.join(folder, "late.json")
    with open(path, "w", encoding="utf-8") as f:
        json.dump({"duration": [4, 4, 4, 9], "capacity": [2, 5], "needs": [[2, 1], [2, 1], [2, 1], [0, 1]],
                   "deadline": [10, 10, 10, None]}, f)
    answer = run(path, code=1)
    assert answer["status"] == "infeasible" and answer["proven"] and answer["starts"] == []
    assert answer["reason_tasks"] == [0, 1, 2] and answer["reason_resources"] == [0], answer
    assert answer["reason"] == "tasks 0, 1 and 2 cannot all be done in the time they have with resource 0"


def too_large(folder):
    """Tasks by the ten thousand: a right answer, within the memory limit."""
    n = 20000
    r = random.Random(3)
    p = {"duration": [r.randint(1, 9) for _ in range(n)], "capacity": [40], "needs": [[r.randint(0, 5)] for _ in range(n)],
         "after": [[i - 40, i] for i in range(40, n)]}
    path = os.path.join(folder, "large.json")
    with open(path, "w", encoding="utf-8") as f:
        json.dump(p, f)
    answer = run(path, "--processor-seconds", "3")
    ends = [s + d for s, d in zip(answer["starts"], p["duration"])]
    assert all(ends[a] <= answer["starts"][b] for a, b in p["after"])
    change = {}
    for i in range(n):
        change[answer["starts"][i]] = change.get(answer["starts"][i], 0) + p["needs"][i][0]
        change[ends[i]] = change.get(ends[i], 0) - p["needs"][i][0]
    used = 0
    for t in sorted(change):
        used += change[t]
        assert used <= 40
    assert answer["memory_bytes"] <= 256 << 20
    with open(path, "w", encoding="utf-8") as f:
        json.dump({"duration": [100000000] * 3}, f)
    assert "count time in a coarser unit" in run(path, code=2)


def main():
    with tempfile.TemporaryDirectory() as folder:
        p = hard(60, 5)
        path = os.path.join(folder, "hard.json")
        with open(path, "w", encoding="utf-8") as f:
            json.dump(p, f)
        interrupted(path, p)
        answer = run(path, "--processor-seconds", "1")
        assert keeps_all_rules(p, answer["starts"]) == answer["makespan"]
        faults(folder)
        infeasible(folder)
        too_large(folder)
    print("solve: all right")


main()
