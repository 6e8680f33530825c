#!/usr/bin/env python3
"""What the commands about the trade say to nonsense: refusals.py KITBENCH CASES, from the project's root. Exit code 2, nothing on
standard output, and the one line that the case file holds."""
import shlex
import subprocess
import sys

program, cases = sys.argv[1:3]
wrong = 0
blocks = [b.splitlines() for b in open(cases, encoding="utf-8").read().split("\n\n")]
blocks = [lines for lines in ([x for x in b if not x.startswith("# ")] for b in blocks) if lines]
for lines in blocks:
    command, message = lines
    done = subprocess.run([program, *shlex.split(command)], capture_output=True, text=True, timeout=60)
    if done.returncode != 2 or done.stdout or done.stderr.strip() != message:
        wrong += 1
        print(f"{command}: exit code {done.returncode}\n  says    {done.stderr.strip()}{done.stdout[:200]}\n  not     {message}")
    if ";" not in message:
        wrong += 1
        print(f"{command}: no remedy: {message}")
print(f"{len(blocks)} refusals")
sys.exit(wrong > 0 or len(blocks) < 100)
