#!/usr/bin/env python3
"""Makes the solved random problems of tests/sched/cases/random.txt.

Each problem is drawn with every kind of rule the kernel has, small enough to be solved twice. The optimum written down is not ours:
it comes from Gecode through MiniZinc, by a model of its own that counts time unit by time unit and shares nothing with the kernel
but the words of sched.h. test_sched_random.c solves the same problems with the kernel and expects the same answers.

    tests/sched/make_random.py COUNT SEED > tests/sched/cases/random.txt
"""
import json
import random
import re
import subprocess
import sys
import tempfile


def draw(rng, large=False):
    """Large: 30 to 60 tasks; what binds single tasks is rarer then, so that schedules are left, and there is more stock."""
    n = rng.randint(30, 60) if large else rng.randint(3, 8)
    horizon = 2 * n if large else rng.randint(18, 30)
    rare = 6 / n if large else 1
    p = {"n": n, "horizon": horizon, "lines": ["horizon %d" % horizon]}
    line = p["lines"].append
    p["dur"] = [rng.choice([0, 1, 1, 2, 2, 3, 3, 4, 5]) for _ in range(n)]
    for d in p["dur"]:
        line("task %d" % d)
    p["cuts"] = sorted(rng.sample(range(1, horizon), rng.randint(1, 3))) if rng.random() < 0.5 else []
    for c in p["cuts"]:
        line("cut %d" % c)
    p["cross"] = [("ignored", 0)] * n
    for i in range(n):
        if p["cuts"] and rng.random() < 0.7:
            kind = rng.choice(["kept", "costs", "costs"])
            extra = rng.randint(0, 3) if kind == "costs" else 0
            p["cross"][i] = (kind, extra)
            line("crossing %d %s %d" % (i, kind, extra))
    p["release"], p["deadline"], p["fixed"], p["windows"] = {}, {}, {}, {}
    for i in range(n):
        if rng.random() < 0.12 * rare:
            p["release"][i] = rng.randint(0, horizon // 3)
            line("release %d %d" % (i, p["release"][i]))
        if rng.random() < 0.1 * rare:
            p["deadline"][i] = rng.randint(horizon // 2, horizon)
            line("deadline %d %d" % (i, p["deadline"][i]))
        if rng.random() < 0.02 * rare:
            p["fixed"][i] = rng.randint(0, horizon // 2)
            line("fixed %d %d" % (i, p["fixed"][i]))
        if rng.random() < 0.08 * rare:
            p["windows"][i] = []
            for _ in range(rng.randint(1, 3)):
                a = rng.randint(0, horizon - 2)
                b = rng.randint(a, min(horizon, a + 5))
                p["windows"][i].append((a, b))
                line("allow %d %d %d" % (i, a, b))
    p["cap"] = []
    for r in range(rng.randint(0, 3)):
        base = rng.randint(2, 6)
        steps = [base] * (horizon + 1)
        line("resource %d" % base)
        for _ in range(rng.choice([0, 0, 1, 2])):
            a = rng.randint(0, horizon - 1)
            b = rng.randint(a + 1, horizon)
            c = rng.choice([0, base // 2, base - 1, base, base])
            line("capacity %d %d %d %d" % (r, a, b, c))
            for t in range(a, b):
                steps[t] = c
        p["cap"].append(steps)
    p["need"] = [[0] * n for _ in p["cap"]]
    for r in range(len(p["cap"])):
        for i in range(n):
            if rng.random() < 0.7:
                p["need"][r][i] = rng.choice([0, 1, 1, 1, 2, 2, 3])
                line("need %d %d %d" % (i, r, p["need"][r][i]))
    p["maps"] = []
    if rng.random() < 0.3:  # the night: times up to `day` map to the next day
        day = rng.randint(5, 9)
        pieces = [(k * day, (k + 1) * day, 0) for k in range(horizon // day + 1)]
        pieces.append(((horizon // day + 1) * day, (horizon // day + 2) * day, 1))
        if rng.random() < 0.5:
            pieces = [(0, rng.randint(0, 2), 1), (day, day + 3, 0), (day + 3, day + 3, 1)]
            if pieces[0][1] > 1:
                pieces[0] = (0, 1, 1)
        p["maps"].append(pieces)
        line("map " + " ".join("%d %d %d" % q for q in pieces))
    p["rel"] = []
    for i in range(n):
        for j in range(i + 1, n):
            if rng.random() < (2 / n if large else 0.16):
                kind = rng.choice(["after", "after", "after", "after_start"])
                delay = rng.choice([0, 0, 0, 1, 2, 4])
                m = 0 if p["maps"] and rng.random() < 0.5 else -1
                p["rel"].append((kind, i, j, delay, m))
                line("%s %d %d %d %d" % (kind, i, j, delay, m))
    p["sets"] = []
    for _ in range(rng.choice([0, 0, 1, 2])):
        s = rng.sample(range(n), rng.randint(2, min(4, n)))
        p["sets"].append(s)
        line(("apart " if len(s) == 2 else "not_all ") + " ".join(map(str, s)))
    p["stock"] = []
    for v in range(rng.choice([0, 0, 1, 2])):
        stock = {"initial": rng.randint(n // 3, n // 2) if large else rng.randint(1, 4), "arrive": [], "draw": [0] * n, "give": [0] * n}
        line("reservoir %d" % stock["initial"])
        for _ in range(rng.randint(0, 2)):
            stock["arrive"].append((rng.randint(1, horizon // 2), rng.randint(1, 3)))
            line("arrive %d %d %d" % (v, *stock["arrive"][-1]))
        for i in range(n):
            if rng.random() < 0.35:
                stock["draw"][i] = rng.randint(1, 2)
                line("draw %d %d %d" % (i, v, stock["draw"][i]))
            if rng.random() < 0.25:
                stock["give"][i] = rng.randint(1, 2)
                line("give %d %d %d" % (i, v, stock["give"][i]))
        p["stock"].append(stock)
    p["costs"] = []
    for k in range(rng.choice([0, 0, 1, 2])):
        costs = {}
        line("objective")
        for i in range(n):
            if rng.random() < 0.6:
                x = sorted(rng.sample(range(0, horizon), rng.randint(1, 3)))
                costs[i] = [(a, rng.randint(-5, 20), rng.randint(-3, 3)) for a in x]
                line("cost %d %d " % (k, i) + " ".join("%d %d %d" % q for q in costs[i]))
        p["costs"].append(costs)
    return p


def end_of(p, i, s):
    """End of task i started at s, walked unit by unit."""
    kind, extra = p["cross"][i]
    left, t = p["dur"][i], s
    while left > 0:
        t += 1
        left -= 1
        if kind == "costs" and t in p["cuts"] and left > 0:
            left += extra
        if t > 200:
            return 999
    return t


def model(p, keep):
    H, n = p["horizon"], p["n"]
    out = []
    for i in range(n):
        ends = [end_of(p, i, s) for s in range(H + 1)]
        starts = [s for s in range(H + 1) if ends[s] <= min(H, p["deadline"].get(i, H)) and s >= p["release"].get(i, 0)]
        if i in p["fixed"]:
            starts = [s for s in starts if s == p["fixed"][i]]
        if i in p["windows"]:
            starts = [s for s in starts if any(a <= s <= b for a, b in p["windows"][i])]
        if p["cross"][i][0] == "kept":
            starts = [s for s in starts if not any(s < c < ends[s] for c in p["cuts"])]
        if not starts:
            return None
        out.append("var {%s}: s%d;" % (",".join(map(str, starts)), i))
        out.append("var 0..%d: e%d; constraint e%d = [%s][s%d+1];" % (H, i, i, ",".join(map(str, ends)), i))

    def running(i, t):
        return "bool2int(s%d<=%d /\\ e%d>%d)" % (i, t, i, t)

    for r, steps in enumerate(p["cap"]):
        for t in range(H):
            terms = ["%d*%s" % (p["need"][r][i], running(i, t)) for i in range(n) if p["need"][r][i] and p["dur"][i]]
            if terms:
                out.append("constraint %s <= %d;" % (" + ".join(terms), steps[t]))
    for kind, a, b, delay, m in p["rel"]:
        x = ("e%d" if kind == "after" else "s%d") % a
        if m >= 0:
            f = []
            for t in range(H + 1):
                value = t
                for start, v, slope in p["maps"][m]:
                    if start <= t:
                        value = v + slope * (t - start)
                f.append(value)
            x = "[%s][%s+1]" % (",".join(map(str, f)), x)
        out.append("constraint s%d >= %s + %d;" % (b, x, delay))
    for s in p["sets"]:
        for t in range(H):
            out.append("constraint %s < %d;" % (" + ".join(running(i, t) for i in s), len(s)))
    for stock in p["stock"]:
        for t in range(H + 1):
            have = stock["initial"] + sum(a for when, a in stock["arrive"] if when <= t)
            terms = ["%d" % have]
            terms += ["%d*bool2int(e%d<=%d)" % (stock["give"][i], i, t) for i in range(n) if stock["give"][i]]
            terms += ["(-%d)*bool2int(s%d<=%d)" % (stock["draw"][i], i, t) for i in range(n) if stock["draw"][i]]
            out.append("constraint %s >= 0;" % " + ".join(terms))
    out.append("var 0..%d: goal_0; constraint goal_0 = max([%s]);" % (H, ",".join("e%d" % i for i in range(n))))
    for k, costs in enumerate(p["costs"]):
        terms = ["0"]
        for i, pieces in costs.items():
            table = []
            for t in range(H + 1):
                value = pieces[0][1]
                for start, v, slope in pieces:
                    if start <= t:
                        value = v + slope * (t - start)
                table.append(value)
            terms.append("[%s][s%d+1]" % (",".join(map(str, table)), i))
        out.append("var -100000..100000: goal_%d; constraint goal_%d = %s;" % (k + 1, k + 1, " + ".join(terms)))
    for k, value in enumerate(keep):
        out.append("constraint goal_%d = %d;" % (k, value))
    out.append("solve minimize goal_%d;" % len(keep))
    out.append('output ["\\(goal_%d)"];' % len(keep))
    return "\n".join(out)


def optimum(p, seconds=20):
    """[makespan, objective, ...], [] when there is no schedule, None when not solved in time."""
    found = []
    for _ in range(1 + len(p["costs"])):
        text = model(p, found)
        if text is None:
            return []
        with tempfile.NamedTemporaryFile("w", suffix=".mzn") as f:
            f.write(text)
            f.flush()
            run = subprocess.run(["minizinc", "--solver", "gecode", "--time-limit", str(1000 * seconds), f.name], capture_output=True, text=True)
        if "UNSATISFIABLE" in run.stdout:
            return []
        if "==========" not in run.stdout:
            sys.stderr.write("not solved: %s %s\n" % (run.stdout[-200:], run.stderr[-300:]))
            return None
        found.append(int(re.findall(r"^(-?\d+)$", run.stdout, re.M)[-1]))
    return found


def main():
    count, seed = int(sys.argv[1]), int(sys.argv[2])
    print("# Random problems with optima found by Gecode through MiniZinc; made by make_random.py %d %d." % (count, seed))
    print("# Each ends with \"optimum MAKESPAN OBJECTIVE...\" or \"infeasible\".")
    for number in range(count):
        p = draw(random.Random(seed * 1000003 + number))
        best = optimum(p)
        if best is None:
            continue
        print("\nproblem %d-%d" % (seed, number))
        print("\n".join(p["lines"]))
        print("optimum " + " ".join(map(str, best)) if best else "infeasible", flush=True)


if __name__ == "__main__":
    main()
