#!/usr/bin/env python3
"""Makes the larger solved problems of tests/sched/cases/large.txt: 30 to 60 tasks with every kind of rule.

Drawn by make_random.py. The optima come from clasp, through a model of 0/1 variables ("task i starts at t") and sums, one for each time
unit: the pseudo-Boolean form of the solver competitions. Where Gecode proves the same problem within its time by the model of
make_random.py the two must agree; how many it did is said at the top of the file.

    tests/sched/make_large.py COUNT SEED > tests/sched/cases/large.txt
"""
import random
import re
import subprocess
import sys
import tempfile

import make_random
from make_random import end_of


class Sums:
    """Constraints "sum of coefficient * variable >= limit" over 0/1 variables x1, x2, ..."""

    def __init__(self):
        self.n, self.rows = 0, []

    def variable(self):
        self.n += 1
        return self.n

    def at_least(self, terms, limit):
        if not terms:
            assert limit <= 0 or self.rows.append("+1 x1 >= 2 ;") is None
        else:
            self.rows.append(" ".join("%+d x%d" % t for t in terms) + " >= %d ;" % limit)

    def at_most(self, terms, limit):
        self.at_least([(-c, x) for c, x in terms], -limit)

    def minimize(self, terms):
        """The least value, None when there is no solution, or "open" when the time is over."""
        goal = "min: " + " ".join("%+d x%d" % t for t in terms) + " ;\n" if terms else ""
        with tempfile.NamedTemporaryFile("w", suffix=".opb") as f:
            f.write("* #variable= %d #constraint= %d\n" % (self.n, len(self.rows)) + goal + "\n".join(self.rows) + "\n")
            f.flush()
            run = subprocess.run(["clasp", "--time-limit=20", "--quiet=1", f.name], capture_output=True, text=True)
        if "UNSATISFIABLE" in run.stdout:
            return None
        if "OPTIMUM FOUND" not in run.stdout and (terms or "SATISFIABLE" not in run.stdout):
            return "open"
        found = re.findall(r"^o (-?\d+)$", run.stdout, re.M)
        return int(found[-1]) if found else 0


def starts_of(p, i):
    horizon = p["horizon"]
    for s in range(horizon + 1):
        end = end_of(p, i, s)
        if end > min(horizon, p["deadline"].get(i, horizon)) or s < p["release"].get(i, 0) or s != p["fixed"].get(i, s):
            continue
        if i in p["windows"] and not any(a <= s <= b for a, b in p["windows"][i]):
            continue
        if p["cross"][i][0] == "kept" and any(s < c < end for c in p["cuts"]):
            continue
        yield s, end


def mapped(pieces, t):
    value = t
    for start, v, slope in pieces:
        if start <= t:
            value = v + slope * (t - start)
    return value


def problem(p):
    """The rules as sums; x[i]: (start, end, variable) for each start of task i."""
    m, horizon = Sums(), p["horizon"]
    x = [[(s, e, m.variable()) for s, e in starts_of(p, i)] for i in range(p["n"])]
    late = [m.variable() for _ in range(horizon)]  # the last end is after t
    for one in x:
        m.at_least([(1, v) for _, _, v in one], 1)
        m.at_most([(1, v) for _, _, v in one], 1)

    def running(i, t, amount=1):
        return [(amount, v) for s, e, v in x[i] if s <= t < e]

    for t in range(horizon):
        for one in x:
            m.at_least([(1, late[t])] + [(-1, v) for _, e, v in one if e > t], 0)
        for r, steps in enumerate(p["cap"]):
            m.at_most([q for i in range(p["n"]) if p["need"][r][i] for q in running(i, t, p["need"][r][i])], steps[t])
        for some in p["sets"]:
            m.at_most([q for i in some for q in running(i, t)], len(some) - 1)
    for kind, a, b, delay, index in p["rel"]:
        for t in range(horizon + 1):
            point = lambda s, e: e if kind == "after" else s
            pushed = [(1, v) for s, e, v in x[a] if (mapped(p["maps"][index], point(s, e)) if index >= 0 else point(s, e)) + delay > t]
            m.at_most(pushed + [(1, v) for s, _, v in x[b] if s <= t], 1)
    for stock in p["stock"]:
        for t in range(horizon + 1):
            have = stock["initial"] + sum(a for when, a in stock["arrive"] if when <= t)
            gives = [(stock["give"][i], v) for i in range(p["n"]) if stock["give"][i] for _, e, v in x[i] if e <= t]
            draws = [(-stock["draw"][i], v) for i in range(p["n"]) if stock["draw"][i] for s, _, v in x[i] if s <= t]
            m.at_least(gives + draws, -have)
    return m, x, late


def optimum(p):
    m, x, late = problem(p)
    if any(not one for one in x):
        return []
    found = []
    goals = [[(1, v) for v in late]]
    for costs in p["costs"]:
        goals.append([(mapped([(-1, pieces[0][1], 0)] + pieces, s), v) for i, pieces in costs.items() for s, _, v in x[i]])
    for terms in goals:
        terms = [(c, v) for c, v in terms if c]
        best = m.minimize(terms)
        if best is None and not found:
            return []
        if best == "open":
            return None
        found.append(best)
        m.at_most(terms, best)
    return found


def main():
    count, seed = int(sys.argv[1]), int(sys.argv[2])
    told, both, number = [], 0, 0
    while len(told) < count:
        p = make_random.draw(random.Random(seed * 1000003 + number), large=True)
        best = optimum(p)
        if best is not None:
            again = make_random.optimum(p, 5)
            assert again in (None, best), (number, again, best)
            both += again is not None
            told.append("\nproblem %d-%d\n%s\n%s" % (seed, number, "\n".join(p["lines"]),
                                                    "optimum " + " ".join(map(str, best)) if best else "infeasible"))
        sys.stderr.write("%d: %s\n" % (number, best))
        number += 1
    print("# Random problems of 30 to 60 tasks with optima found by clasp; made by make_large.py %d %d. Of %d drawn it solved these %d;" % (
        count, seed, number, count))
    print("# Gecode through MiniZinc proved %d of them too, and found the same." % both)
    print("# Each ends with \"optimum MAKESPAN OBJECTIVE...\" or \"infeasible\".")
    print("\n".join(told))


main()
