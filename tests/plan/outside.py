#!/usr/bin/env python3
"""Plans of small random builds beside a general-purpose solver (Gecode, through MiniZinc).

    tests/plan/outside.py TELL_BUILD [--first 1] [--builds 300] [--divisor 10] [--effort 40000] [--seconds 10]

TELL_BUILD (a program of the tests) writes each build as it stands and the plan that src/plan makes of it. The model is outside.mzn;
what a step needs at each minute is worked out here, minute by minute, from docs/planning.md. The two must agree: where both prove,
the same finish; no bound above a plan of the other; no plan that the model says cannot be. At least 95 of 100 builds must be proven by
both. Which steps go ahead is taken from the plan (tests/plan/plan_rules.c judges that).
"""
import argparse, json, os, re, subprocess, sys, tempfile

FAR = 1000000
IN_ROOM, BESIDE, ADULT_DOES = 0, 1, 2


class Build:
    def __init__(self, b):
        self.b, self.w, self.plan = b, b["workshop"], b["plan"]
        self.crew = self.w["crew"]
        self.line = self.plan["makespan_min"]
        self.clock, self.session_of = [], []
        for n, s in enumerate(self.plan["sessions"]):
            for m in range(s["from_min"], s["to_min"]):
                self.clock.append(s["begins"] + m - s["from_min"])
                self.session_of.append(n)
        self.present = [self.who_is_there(m) for m in range(self.line)]
        self.steps = sorted(self.plan["steps"])
        self.place = {s: n for n, s in enumerate(self.steps)}

    def minutes(self, likely):
        return max(1, -(-likely * self.w["beginners_percent"] // 100))

    def who_is_there(self, minute):
        session = self.plan["sessions"][self.session_of[minute]]["session"]
        there = set(range(len(self.crew)))
        if session >= 0:
            clock = self.clock[minute] - self.w["sessions"][session]["day"] * 1440
            for a in self.w["attendance"]:
                if a["session"] == session and (not a["comes"] or 0 <= a["from"] and clock < a["from"]
                                                or 0 <= a["until"] <= clock):
                    there.discard(a["person"])
        adults = sum(self.crew[p]["adult"] for p in there)
        if adults < self.w["minimum_adults"] or (adults == 1 and len(there) == 2):
            return set()  # nobody may work
        return there

    def course(self, step, start):
        """Pieces (from, to) of the step begun at `start`; None when it cannot be begun there."""
        work, taking_up, done, pieces, at = self.minutes(step["likely_min"]), 0, 0, [], start
        changes = {self.minutes(c) for c in step["change_over_min"]}
        while done < work or taking_up:
            if at >= self.line:
                return None
            new_session = at > start and self.session_of[at] != self.session_of[at - 1]
            if new_session:
                if not step["may_pause"]:
                    return None
                taking_up += step["resume_min"]
            if at == start or new_session or (done in changes and not taking_up):
                pieces.append([at, at])
            if taking_up:
                taking_up -= 1
            else:
                done += 1
            at += 1
            pieces[-1][1] = at
        return pieces

    def first_minute_from(self, moment):
        return next((m for m, c in enumerate(self.clock) if c >= moment), FAR)

    def release(self, step):
        """The first minute that what was done before the plan allows."""
        first = 0
        for d, at in self.b["stock"]["done"]:
            before = self.b["steps"][d]
            if d not in step["after"]:
                continue
            first = max(first, self.first_minute_from(at))
            if before["wall_clock"]:
                first = max(first, self.first_minute_from(at + before["delay_min"]))
                continue
            earlier = 0
            for s in self.w["sessions"]:
                opens, shuts = s["day"] * 1440 + s["start"] + s["opening_min"], s["day"] * 1440 + s["end"] - s["closing_min"]
                earlier += sum(at <= m < self.clock[0] for m in range(opens, shuts))
            waited = [earlier + sum(c >= at for c in self.clock[:m]) for m in range(self.line + 1)]
            first = max(first, next((m for m, x in enumerate(waited) if x >= before["delay_min"]), FAR))
        return first

    def reaches(self, before, end):
        if end == 0:
            return 0
        if before["wall_clock"]:
            return min(FAR, max(end, self.first_minute_from(self.clock[end - 1] + 1 + before["delay_min"])))
        return end + before["delay_min"]

    def data(self):
        steps = [self.b["steps"][s] for s in self.steps]
        line, crew = self.line, self.crew
        courses = [[self.course(s, t) if t >= self.release(s) else None for t in range(line)] + [None] for s in steps]
        pieces = max((len(c) for course in courses for c in course if c), default=1)

        def piece(c, k, end):
            return c[k][end] if c and k < len(c) else 0

        def there(c, k, p):
            return bool(c) and k < len(c) and all(p in self.present[m] for m in range(*c[k]))

        def supervisor(s, p):
            return crew[p]["adult"] and (s["work"] < 0 or s["work"] in crew[p]["supervises"])

        skills = 1 + max([x for s in steps for x, _, _ in s["skills"]], default=0)
        links = [(self.place[a], self.place[s["step"]]) for s in steps for a in s["after"] if a in self.place]
        things, takes = [], []
        for t in {t for s in steps for t, _ in s["tools"]} if self.w["tools"] else ():
            things.append(sum(q for what, q in self.w["tools"] if what == t))
            takes.append([sum(q for what, q in s["tools"] if what == t) for s in steps])
        for z in {s["zone"] for s in steps if s["zone"] >= 0}:
            zone = self.w["zones"][z]
            if zone["zone"]:
                things.append(zone["groups"])
            elif self.w["workplaces"]:
                things.append(sum(q for what, q in self.w["workplaces"] if what == z))
            else:
                continue
            takes.append([int(s["zone"] == z) for s in steps])
        apart = [(a, b) for a in range(len(steps)) for b in range(a)
                 if steps[b]["work"] in steps[a]["not_beside"] or steps[a]["work"] in steps[b]["not_beside"]]
        supplies = []
        for part, usable in enumerate(self.b["stock"]["usable"]):
            draws = [sum(q for what, q in s["parts"] if what == part) for s in steps]
            comes = sorted((self.first_minute_from(at), q) for what, q, at in self.b["stock"]["arrivals"] if what == part)
            have = max(0, usable)
            for at, quantity in comes + [(FAR, 0)]:
                supplies.append((min(at, line + 1), have, draws))
                have += quantity
        T = range(line + 1)
        return {
            "steps": len(steps), "pieces": pieces, "crew": len(crew), "line": line,
            "may_start": [[c is not None for c in course] for course in courses],
            "end_at": [[c[-1][1] if c else 0 for c in course] for course in courses],
            "from_at": [[[piece(c, k, 0) for c in course] for k in range(pieces)] for course in courses],
            "to_at": [[[piece(c, k, 1) for c in course] for k in range(pieces)] for course in courses],
            "there": [[[[there(c, k, p) for c in course] for p in range(len(crew))] for k in range(pieces)] for course in courses],
            "people": [s["people"] for s in steps],
            "beside": [s["supervision"] == BESIDE for s in steps],
            "one_may": [s["supervision"] == ADULT_DOES for s in steps],
            "may_work": [[p["adult"] or s["supervision"] != ADULT_DOES for p in crew] for s in steps],
            "may_supervise": [[supervisor(s, p) for p in range(len(crew))] for s in steps],
            "skills": skills,
            "skill_need": [[max([q for what, q, _ in s["skills"] if what == x], default=0) for x in range(skills)] for s in steps],
            "own_people": [[any(own for what, _, own in s["skills"] if what == x) for x in range(skills)] for s in steps],
            "has_skill": [[x in p["skills"] for x in range(skills)] for p in crew],
            "links": len(links), "before": [a + 1 for a, _ in links], "after": [b + 1 for _, b in links],
            "reaches": [[self.reaches(steps[a], t) for t in T] for a, _ in links],
            "things": len(things), "owned": things, "takes": [[t[s] for t in takes] for s in range(len(steps))],
            "apart": len(apart), "apart_a": [a + 1 for a, _ in apart], "apart_b": [b + 1 for _, b in apart],
            "supplies": len(supplies), "supply_until": [u for u, _, _ in supplies], "supply": [h for _, h, _ in supplies],
            "draws": [d for _, _, d in supplies],
        }


def flat(value):
    return [y for x in value for y in flat(x)] if isinstance(value, list) else [value]


def shape(data, name):
    n, k, p, t = ("1..%d" % data[x] for x in ("steps", "pieces", "crew", "skills"))
    line = "0..%d" % data["line"]
    return {"may_start": (n, line), "end_at": (n, line), "from_at": (n, k, line), "to_at": (n, k, line),
            "there": (n, k, p, line), "may_work": (n, p), "may_supervise": (n, p), "skill_need": (n, t), "own_people": (n, t), "has_skill": (p, t),
            "reaches": ("1..%d" % data["links"], line), "takes": (n, "1..%d" % data["things"]),
            "draws": ("1..%d" % data["supplies"], n)}.get(name)


def write_data(data):
    out = []
    for name, value in data.items():
        written = json.dumps(flat(value) if isinstance(value, list) else value)
        ranges = shape(data, name)
        out.append("%s = %s;" % (name, "array%dd(%s, %s)" % (len(ranges), ", ".join(ranges), written) if ranges else written))
    return "\n".join(out)


def solve(data, model, seconds):
    """(finish or None, proven, infeasible)"""
    with tempfile.NamedTemporaryFile("w", suffix=".dzn") as f:
        f.write(write_data(data))
        f.flush()
        call = ["minizinc", "--solver", "gecode", "--time-limit", str(int(seconds * 1000)), model, f.name]
        run = subprocess.run(call, capture_output=True, text=True)
    if run.returncode != 0:
        sys.exit("the model does not run: " + run.stderr + run.stdout)
    values = re.findall(r"^(\d+)$", run.stdout, re.M)
    return (int(values[-1]) if values else None), "==========" in run.stdout, "UNSATISFIABLE" in run.stdout


def main():
    a = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    a.add_argument("tell_build")
    a.add_argument("--first", type=int, default=1)
    a.add_argument("--builds", type=int, default=300)
    a.add_argument("--divisor", type=int, default=10)
    a.add_argument("--effort", type=int, default=40000)
    a.add_argument("--seconds", type=float, default=10)
    o = a.parse_args()
    if subprocess.run(["which", "minizinc"], capture_output=True).returncode:
        print("SKIPPED: no minizinc")
        return 77
    model = os.path.join(os.path.dirname(os.path.abspath(__file__)), "outside.mzn")
    met = dict(builds=0, both=0, ours=0, theirs=0, skilled=0, wrong=0)
    seed = o.first
    while met["builds"] < o.builds:
        call = [o.tell_build, str(seed), "50", str(o.divisor), str(o.effort)]
        seed += 50
        for line in subprocess.run(call, capture_output=True, text=True, check=True).stdout.splitlines():
            b = Build(json.loads(line))
            if len(b.steps) < 2 or met["builds"] == o.builds:  # nothing to plan
                continue
            makespan, bound = b.plan["makespan_min"], b.plan["lower_bound_min"]
            ours = b.plan["status"] == "optimal"
            finish, theirs, impossible = solve(b.data(), model, o.seconds)
            met["builds"] += 1
            met["skilled"] += any(s["skills"] for s in b.b["steps"])
            met["ours"] += ours
            met["theirs"] += theirs
            met["both"] += ours and theirs
            if impossible or (finish is not None and finish < bound) or (theirs and ours and finish != makespan):
                met["wrong"] += 1
                print("build %d: plan %d, bound %d, %s; outside %s%s%s" % (
                    b.b["seed"], makespan, bound, b.plan["status"], finish, " proven" if theirs else "",
                    ": no plan can end there" if impossible else ""))
            elif not (ours and theirs):
                print("build %d: plan %d, bound %d, %s; outside %s%s" % (
                    b.b["seed"], makespan, bound, b.plan["status"], finish, " proven" if theirs else ""))
            sys.stdout.flush()
    print("%(builds)d builds of 2 steps or more, %(skilled)d with skills: %(ours)d proven by the plan, %(theirs)d by the other, "
          "%(both)d by both; %(wrong)d contradictions" % met)
    return 1 if met["wrong"] or met["both"] < 0.95 * met["builds"] else 0


if __name__ == "__main__":
    sys.exit(main())
