"""kitbench risk as a user runs it: text and JSON agree, shares add up, the seed counts and the threads do not, bad options."""

import json
import os
import subprocess
import sys
import tempfile

KITBENCH = os.path.abspath(sys.argv[1])


def run(*arguments, code=0):
    done = subprocess.run([KITBENCH, *arguments], capture_output=True, text=True)
    assert done.returncode == code, (arguments, done.returncode, done.stdout[-500:], done.stderr)
    return done.stdout if code < 2 else done.stderr


def main():
    with tempfile.TemporaryDirectory() as folder:
        build = os.path.join(folder, "b.kitbench")
        run("new", build, "--kit", "demo/kit", "--workshop", "demo/workshop")
        few = ("risk", build, "--samples", "1000")
        text = run(*few)
        assert all(len(line) <= 80 for line in text.splitlines()), text
        told = json.loads(run(*few, "--json"))
        assert told["samples"] == 1000 and len(told["steps"]) == 70
        last = sum(s["last"]["share"] for s in told["sessions"])
        assert abs(last + told["unfinished"] / 1000 - 1) < 1e-4, last
        for s in told["sessions"]:
            assert s["last"]["low"] <= s["last"]["share"] <= s["last"]["high"]
        assert any(0 < s["last"]["share"] < 1 for s in told["sessions"])
        assert f"{100 * told['in_time']['share']:.1f} %" in text
        assert all(a["decides"]["share"] >= b["decides"]["share"] for a, b in zip(told["steps"], told["steps"][1:]))
        assert told == json.loads(run(*few, "--json", "--threads", "1")), "threads change the answer"
        assert told != json.loads(run(*few, "--json", "--seed", "2")), "the seed changes nothing"

        assert "--samples" in run("risk", build, "--samples", "no", code=2)
        assert "--seed" in run("risk", build, "--seed", "0", code=2)
        bare = os.path.join(folder, "bare.kitbench")
        run("new", bare, "--kit", "demo/kit")
        assert "no workshop" in run("risk", bare, code=2)


main()
