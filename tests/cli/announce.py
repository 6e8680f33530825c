"""kitbench plan --announce as a user runs it: kept by later plans, what changes is told with its reason, undo takes it back."""

import json
import os
import subprocess
import sys
import tempfile

KITBENCH = os.path.abspath(sys.argv[1])


def run(*arguments, now="2027-03-01 12:00", code=0):
    environment = dict(os.environ, KITBENCH_NOW=now)
    done = subprocess.run([KITBENCH, *arguments], capture_output=True, text=True, env=environment)
    assert done.returncode == code, (arguments, done.returncode, done.stdout[-500:], done.stderr)
    return done.stdout if code < 2 else done.stderr


def main():
    with tempfile.TemporaryDirectory() as folder:
        build = os.path.join(folder, "b.kitbench")
        run("new", build, "--kit", "demo/kit", "--workshop", "demo/workshop")
        first = json.loads(run("plan", build, "--json"))
        assert not first["announced"] and first["changes"] == []
        assert "What changes" not in run("plan", build)
        assert "nobody in the crew" in run("plan", build, "--announce", "--by", "Nobody", code=2)
        text = run("plan", build, "--announce", "--by", "Fern")
        assert "Announced: 70 steps" in text

        again = json.loads(run("plan", build, "--json"))
        # Nothing has changed, so nothing moves; somebody may get another seat (docs/planning.md says how far that is kept).
        assert again["announced"] and {c["kind"] for c in again["changes"]} <= {"people"}
        assert len(again["changes"]) <= 2
        assert [(s["step"], s["start"]) for s in again["steps"]] == [(s["step"], s["start"]) for s in first["steps"]]

        # the walk through the workshop takes 40 minutes instead of 23
        walk = again["steps"][0]
        assert walk["step"] == "S01" and walk["start"] == "2027-03-02 18:40"
        run("start", build, "S01", "--by", ",".join(walk["people"]), now="2027-03-02 18:40")
        run("done", build, "S01", "--by", "Fern", now="2027-03-02 19:20")
        late = json.loads(run("plan", build, "--json", now="2027-03-02 19:20"))
        assert late["pace"]["steps"] == 1 and 1.5 < late["pace"]["factor"] < late["pace"]["seen"]
        assert late["changes"], "a late step changes nothing"
        told = {s["step"]: s["start"] for s in again["steps"]}
        now = {s["step"]: s["start"] for s in late["steps"]}
        for c in late["changes"]:
            assert c["announced"] == told[c["step"]] and c["now"] == now[c["step"]], c
            assert (c["announced"] == c["now"]) == (c["kind"] == "people"), c
            assert (c["announced"][:10] == c["now"][:10]) == (c["kind"] in ("time", "people")), c
        changed = {c["step"] for c in late["changes"]}
        assert all(told[s] == now[s] for s in now if s not in changed)
        assert any("done later" in c["why"] for c in late["changes"])
        text = run("plan", build, now="2027-03-02 19:20")
        assert "What changes of what was announced" in text and "Pace learned from 1 step" in text
        assert all(len(line) <= 80 for line in text.splitlines())

        other = os.path.join(folder, "c.kitbench")
        run("new", other, "--kit", "demo/kit", "--workshop", "demo/workshop")
        run("plan", other, "--announce")
        run("undo", other)
        assert not json.loads(run("plan", other, "--json"))["announced"]


main()
