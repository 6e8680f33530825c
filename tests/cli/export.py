#!/usr/bin/env python3
"""Export and restore: the round trip is exact, the JSON keeps its schema by an independent validator, secrets stay in the
file, and what somebody changed in the JSON is refused without leaving a file behind.

  export.py KITBENCH     from the project's root
"""
import base64
import copy
import csv
import html.parser
import json
import os
import struct
import subprocess
import sys
import tempfile
import zlib

import jsonschema

KITBENCH = os.path.abspath(sys.argv[1])
ENTRY = "by Fern\nbag B1 all right\nbag A1 all right except row 1: 20 and 1 damaged\nbag E2 row 1: 0\nbag A1 extra 2 \"ünknown “thing”\"\n"


def run(*words, code=0, entry=None):
    done = subprocess.run([KITBENCH, *words], input=entry, capture_output=True, text=True, check=False,
                          env={**os.environ, "KITBENCH_NOW": "2027-03-02 18:31"})
    assert done.returncode == code, f"{words}: {done.returncode}\n{done.stdout}{done.stderr}"
    return done.stdout if code == 0 else done.stderr


def png():
    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 2, 2, 8, 0, 0, 0, 0)) +
            chunk(b"IDAT", zlib.compress(b"\0\0\xff" * 2)) + chunk(b"IEND", b""))


def make_build(folder):
    """With a picture, counts, a promise, a name that is forgotten."""
    kit = os.path.join(folder, "kit")
    subprocess.run(["cp", "-r", "demo/kit", kit], check=True)
    steps = os.path.join(kit, "steps.csv")
    with open(steps, encoding="utf-8") as file:
        lines = file.read().rstrip("\n").split("\n")
    lines = [line + end for line, end in zip(lines, [",picture", ",a.png"] + [","] * len(lines))]
    with open(steps, "w", encoding="utf-8", newline="") as file:
        file.write("\n".join(lines) + "\n")
    with open(os.path.join(kit, "a.png"), "wb") as file:
        file.write(png())
    with open(os.path.join(kit, "kit.csv"), encoding="utf-8", newline="") as file:
        named = file.read().replace("Rotating observatory dome", "<script>alert(1)</script> dome")
    with open(os.path.join(kit, "kit.csv"), "w", encoding="utf-8", newline="") as file:
        file.write(named)
    run("check", kit, "--package")
    build = os.path.join(folder, "build.kitbench")
    run("new", build, "--kit", kit, "--workshop", "demo/workshop")
    run("enter", build, entry=ENTRY)
    run("promise", build, "D-919", "2", "2027-03-15")
    run("undo", build)
    run("forget", build, "Otter")
    return build


class Reader(html.parser.HTMLParser):
    """What a page holds, as a browser would take it."""

    def __init__(self):
        super().__init__()
        self.tags, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)

    def handle_data(self, data):
        self.words.append(data)


def check_page(folder, build):
    told = run("page", build)
    page = Reader()
    page.feed(told)
    words = "".join(page.words)
    assert "script" not in page.tags and "<script>alert(1)</script> dome" in words, "markup in a name is not escaped"
    assert {"html", "title", "h1", "table"} <= set(page.tags)
    for expected in ("S70", "D-919", "What stops us", "box 8", "2027-04"):
        assert expected in words, expected
    with open("demo/workshop/crew.csv", encoding="utf-8", newline="") as file:
        for person in csv.DictReader(file):
            assert person["name"] not in words, f"{person['name']} stands on the page"
    path = os.path.join(folder, "page.html")
    run("page", build, "-o", path)
    with open(path, encoding="utf-8", newline="") as file:
        assert file.read() == told
    run("page", build, "--json", code=2)


def refused(folder, told, words):
    path, out = os.path.join(folder, "changed.json"), os.path.join(folder, "changed.kitbench")
    with open(path, "w", encoding="utf-8") as file:
        file.write(told if isinstance(told, str) else json.dumps(told))
    said = run("restore", out, path, code=2)
    assert words in said and said.count("\n") == 1, f"{words!r} not in {said!r}"
    left = [name for name in os.listdir(folder) if name.startswith("changed.kitbench")]
    assert not left, left


def changes(told):
    """Each a changed export and words of the failure."""
    def change(words, act):
        other = copy.deepcopy(told)
        act(other)
        return other, words
    tables = "tables"
    yield change("newer kitbench", lambda t: t.update(kitbench_export=2))
    yield change("newer kitbench", lambda t: t.update(file_version=999))
    yield change("no export", lambda t: t.pop(tables))
    yield change("not known", lambda t: t[tables].update(codes=[]))
    yield change("not known", lambda t: t[tables].update({"x\"; DROP TABLE journal; --": []}))
    yield change("no such column", lambda t: t[tables]["journal"][1].update({"x) VALUES (1); --": 1}))
    yield change("journal row 2", lambda t: t[tables]["journal"][1].update(entry=99))
    yield change("journal row 2", lambda t: t[tables]["journal"][1].update(verb="dance"))
    yield change("journal row 2", lambda t: t[tables]["journal"][1].update(usable=-4))
    yield change("journal row 2", lambda t: t[tables]["journal"][1].update(at_s="soon"))
    yield change("neither a text nor a whole number", lambda t: t[tables]["journal"][1].update(note=1.5))
    yield change("neither a text nor a whole number", lambda t: t[tables]["journal"][1].update(note=["x"]))
    yield change("it is empty", lambda t: t[tables]["journal"].append({}))
    yield change("no object", lambda t: t[tables]["journal"].append(7))
    yield change("base 64", lambda t: t[tables]["kit_pictures"][0].update(bytes="a=b="))
    yield change("people row", lambda t: t[tables]["people"].append(t[tables]["people"][0]))
    yield change("", lambda t: t[tables]["kit_rows"][0].update(part="no such part"))
    yield change("", lambda t: t[tables].pop("kit_kit"))


def main():
    with open("docs/export.schema.json", encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    with tempfile.TemporaryDirectory() as folder:
        build = make_build(folder)
        one, two = os.path.join(folder, "one.json"), os.path.join(folder, "two.json")
        run("export", build, "-o", one)
        restored = os.path.join(folder, "restored.kitbench")
        run("restore", restored, one)
        run("export", restored, "-o", two)
        with open(one, "rb") as first, open(two, "rb") as second:
            data = first.read()
            assert data == second.read(), "the round trip is not exact"
        told = json.loads(data)
        faults = [error.message for error in validator.iter_errors(told)]
        assert not faults, faults[:3]
        assert base64.b64decode(told["tables"]["kit_pictures"][0]["bytes"]) == png()
        assert any(person["forgotten"] and person["name"] == "" for person in told["tables"]["people"])
        assert b"Otter" not in data and "ünknown “thing”" in data.decode("utf-8")
        for command in ("missing", "stock"):
            code = 1 if command == "missing" else 0
            both = [subprocess.run([KITBENCH, command, path, "--json"], capture_output=True, check=False)
                    for path in (build, restored)]
            assert both[0].returncode == both[1].returncode == code and both[0].stdout == both[1].stdout, command
        assert run("export", restored) == data.decode("utf-8")
        run("export", build, "-o", one, code=2)
        run("restore", restored, one, code=2)
        check_page(folder, build)
        n = 0
        for other, words in changes(told):
            refused(folder, other, words)
            n += 1
        text = data.decode("utf-8")
        for wrong, words in ((text[:len(text) // 2], "line "), ("", "line 1"), ("[" * 100000, "line 1"), ("[]", "no export"),
                             (text.replace('"entry": 1,', '"entry": 1, "entry": 1,', 1), "line ")):
            refused(folder, wrong, words)
            n += 1
    print(f"the same bytes after a round trip; {n} changed exports refused")


main()
