#!/usr/bin/env python3
"""Follows the recipes of a document word for word in a copy of the tree.

    tests/recipes.py DOCUMENT [WHAT TO BUILD FIRST ...]

A fenced block whose first line is
  new PATH                  makes the file PATH of it
  add PATH after "TEXT"     puts it into PATH after the first line that holds TEXT
  sh run                    is run with sh in the copy, after building
  text shows                must stand, line by line, in what the last run printed
Other blocks are prose.
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile

ROOT = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
FENCE = re.compile(r"^```(.*)$")


def blocks(path):
    head, lines = None, []
    for number, line in enumerate(open(path, encoding="utf-8"), 1):
        fence = FENCE.match(line)
        if fence and head is None:
            head, lines = (number, fence.group(1).strip()), []
        elif fence:
            yield head[0], head[1], "".join(lines)
            head = None
        elif head is not None:
            lines.append(line)


def copy_tree(to):
    listed = subprocess.run(["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, check=True, text=True,
                            capture_output=True).stdout.split("\n")
    for name in filter(None, listed):
        source = os.path.join(ROOT, name)
        if os.path.isfile(source):
            os.makedirs(os.path.dirname(os.path.join(to, name)), exist_ok=True)
            shutil.copy2(source, os.path.join(to, name))


def run(command, cwd):
    done = subprocess.run(command, cwd=cwd, shell=True, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    if done.returncode:
        sys.exit(f"failed ({done.returncode}): {command}\n{done.stdout[-4000:]}")
    return done.stdout


def apply(tree, line, kind, body):
    made = re.match(r"^\S+ new (\S+)$", kind)
    added = re.match(r'^\S+ add (\S+) after "(.*)"$', kind)
    if made:
        with open(os.path.join(tree, made.group(1)), "x", encoding="utf-8") as out:
            out.write(body)
        return True
    if added:
        path = os.path.join(tree, added.group(1))
        lines = open(path, encoding="utf-8").readlines()
        at = [i for i, text in enumerate(lines) if added.group(2) in text]
        if not at:
            sys.exit(f"line {line}: {added.group(1)} has no line with {added.group(2)}")
        lines.insert(at[0] + 1, body)
        open(path, "w", encoding="utf-8").writelines(lines)
        return True
    return False


def main():
    document, wanted_first = sys.argv[1], " ".join(sys.argv[2:])
    tree = tempfile.mkdtemp(prefix="kitbench-recipes-")
    try:
        copy_tree(tree)
        steps = list(blocks(os.path.join(tree, document)))
        changed = sum(apply(tree, *step) for step in steps)
        run("meson setup build --buildtype=debug -Dtests=true -Doptimization=0", tree)
        run("ninja -C build " + wanted_first, tree)
        printed, runs, shown = "", 0, 0
        for line, kind, body in steps:
            if kind == "sh run":
                printed, runs = run(body, tree), runs + 1
            elif kind == "text shows":
                for wanted in body.splitlines():
                    if wanted not in printed.splitlines():
                        sys.exit(f"{document} line {line}: not printed: {wanted}\nbut:\n{printed}")
                    shown += 1
        if changed < 3 or runs < 2 or shown < 2:
            sys.exit(f"{document}: its recipes are gone")
        print(f"followed {changed} changes, {runs} runs, {shown} lines shown")
    finally:
        shutil.rmtree(tree)


main()
