#!/usr/bin/env python3
"""The commands on a build file, as a user runs them: answers, JSON, exit codes, what the sqlite3 shell sees, and a
read-only folder and a full disk for real.

  build_file.py KITBENCH     from the project's root
"""
import json
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile

KITBENCH = os.path.abspath(sys.argv[1])
checks = 0


def check(what, message):
    global checks
    checks += 1
    if not what:
        sys.exit(f"FAILED: {message}")


def run(*words, code=0, entry=None, before=(), program=KITBENCH):
    done = subprocess.run([*before, program, *words], input=entry, capture_output=True, text=True,
                          env={**os.environ, "KITBENCH_NOW": "2027-03-01 18:31"})
    check(done.returncode == code, f"{words}: exit code {done.returncode}, not {code}\n{done.stdout}{done.stderr}")
    return done.stdout if code in (0, 1) else done.stderr


def answer(*words, code=0, **more):
    text = run(*words, "--json", code=code, **more)
    try:
        return json.loads(text)
    except ValueError as fault:
        sys.exit(f"FAILED: {words}: no JSON ({fault}): {text}")


def shell(path, sql):
    done = subprocess.run(["sqlite3", "-readonly", path, sql], capture_output=True, text=True)
    check(done.returncode == 0, f"sqlite3 shell: {sql}: {done.stderr}")
    return done.stdout.strip()


def whole_day(folder):
    """One of each command; returns the file."""
    path = os.path.join(folder, "barrow.kitbench")
    begun = answer("new", path, "--kit", "tests/support/barrow", "--workshop", "tests/support/barrow-crew")
    check(begun["rows"] == 12 and begun["crew"] == 4, "new: rows and crew")
    check("there is a file of that name" in run("new", path, "--kit", "tests/support/barrow", code=2), "new: twice")
    box = answer("receive", path, "1", "--mass", "4100", "--damaged", "wet corner", "--by", "Fern")
    check(box["box"] == "box 1" and box["boxes_received"] == 1 and not box["mass_doubtful"], "receive")
    check(answer("count", path, "A1", "1", "30", "--by", "moss")["extra"] == 6, "count: extra")
    check(answer("count", path, "HX6025", "24")["missing"] == 6, "count by maker's number")
    check(answer("count", path, "A1", "extra", "red cap", "2")["quantity"] == 2, "count extra")
    battery = answer("count", path, "box 2", "1", "2", "--volts", "12.8;12.1")
    check(battery["usable"] == 2, "count with volts")
    check(answer("enter", path, entry="bag B1 all right except row 2: 1\n")["rows_wrong"] == 1, "enter")
    check("no box or bag" in run("enter", path, code=2, entry="bag B9 all right\n"), "enter: fault")
    said = run("enter", path, code=2, entry="bag B1 row\n")
    check('or "bag B3 extra 2 what it is"' in said, f"enter: a remedy that can be typed: {said}")
    stock = answer("stock", path)
    check(stock["counted"] == 5 and not stock["complete"] and len(stock["containers"]) == 5, "stock")
    missing = answer("missing", path, code=1)
    check([s["fits"] for s in missing["swaps"]][:1] == [True], "missing: the swap")
    check(missing["low_batteries"][0]["volts"] == 12.1 and missing["report_by"] == "2027-03-15", "missing: battery, day")
    check({s["part"] for s in missing["stopped"]} == {"P-21"}, "missing: stopped")
    told = run("missing", path, code=1)
    check(f"carrier takes claims until Monday, {missing['carrier_by']}" in told, "missing: the carrier's day")
    check("battery 2: 12.1 V, expected at least 12.4 V" in run("report", path), "report: volts as measured")
    check("-3 is below 0" in run("count", path, "A2", "1", "-3", code=2), "count: a number below 0")
    check(answer("promise", path, "P-21", "6", "2027-03-20")["promised"][0]["quantity"] == 6, "promise")
    check(answer("missing", path, code=1)["stopped"][-1]["promised_for"] == "2027-03-20", "promised day at the step")
    check(answer("arrive", path, "P-21", "6")["lacking"] == 0, "arrive")
    check(answer("undo", path)["undone"] == ["6 of P-21 arrived for A2 row 1"], "undo")
    report = os.path.join(folder, "report")
    run("report", path, "-o", report)
    text = open(os.path.join(report, "report.txt"), encoding="utf-8").read()
    for words in ("BARROW-0042", "Revision        B", "A2 / lot 7", "For the carrier", "2027-03-08", "wet corner"):
        check(words in text, f"report.txt: {words}")
    check(all(len(line) <= 80 for line in text.splitlines()), "report.txt: 80 columns")
    check(open(os.path.join(report, "report.pdf"), "rb").read(5) == b"%PDF-", "report.pdf")
    check(answer("copy", path, os.path.join(folder, "copy.kitbench"))["copy"].endswith("copy.kitbench"), "copy")
    check(answer("forget", path, "Comet Longtail")["forgotten"] == "P3", "forget")
    check(b"Longtail" not in open(path, "rb").read(), "forget: no byte left")
    check("nobody in this build" in run("forget", path, "Comet Longtail", code=2), "forget: twice")
    for command in ("stock", "missing", "report"):
        out = run(command, path, code=1 if command == "missing" else 0)
        check(all(len(line) <= 80 for line in out.splitlines()), f"{command}: 80 columns")
    return path


def report_csv(folder):
    import csv
    with open(os.path.join(folder, "report", "report.csv"), encoding="utf-8", newline="") as f:
        rows = list(csv.DictReader(f, strict=True))
    check({r["serial"] for r in rows} == {"BARROW-0042"}, "report.csv: serial")
    lacking = [r for r in rows if r["what"] == "lacking" and r["part"] == "P-21"]
    check(len(lacking) == 1 and lacking[0]["lacking"] == "6" and lacking[0]["makers_numbers"] == "HX 6025", "report.csv")
    check([r["note"] for r in rows if r["to"] == "carrier" and r["what"] == "damaged box"] == ["wet corner"], "carrier")


def seen_by_sqlite(path):
    check(shell(path, "PRAGMA integrity_check") == "ok", "integrity_check")
    check(shell(path, "PRAGMA foreign_key_check") == "", "foreign_key_check")
    check(shell(path, "PRAGMA application_id") == "1265202242", "application_id")
    views = shell(path, "SELECT name FROM sqlite_schema WHERE type = 'view'").split()
    check(len(views) == 6, "views")
    for view in views:
        check(int(shell(path, f"SELECT count(*) FROM {view}")) > 0, f"view {view}")
    check(shell(path, "SELECT who FROM journal_told WHERE verb = 'receive'") == "Fern", "who by name")
    check(shell(path, "SELECT missing FROM row_stock WHERE container = 'A2' AND line = 1") == "6", "row_stock")
    db = sqlite3.connect(path)
    for sql in ("UPDATE journal SET note = 'x'", "DELETE FROM journal"):
        try:
            db.execute(sql)
            check(False, f"{sql} went through")
        except sqlite3.IntegrityError:
            check(True, sql)
    db.close()


def read_only(folder, path):
    """As an ordinary user: root may write everywhere."""
    before = ()
    if os.geteuid() == 0:
        if not shutil.which("setpriv"):
            print("SKIPPED: no setpriv, so root cannot try a read-only folder")
            return
        before = ("setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--")
    os.chmod(folder, 0o755)
    program = os.path.join(folder, "kitbench")
    shutil.copy(KITBENCH, program)
    locked = os.path.join(folder, "locked")
    os.mkdir(locked)
    there = os.path.join(locked, "barrow.kitbench")
    shutil.copy(path, there)
    os.chmod(there, 0o644)
    if os.geteuid() == 0:
        os.chown(there, 65534, 65534)
    os.chmod(locked, 0o555)
    size = os.path.getsize(there)
    run("stock", there, before=before, program=program)
    said = run("count", there, "A1", "1", "3", code=3, before=before, program=program)
    check("cannot be opened" in said or "read-only" in said, f"read-only folder: {said}")
    said = run("new", os.path.join(locked, "new.kitbench"), "--kit", "tests/support/barrow", code=3, before=before,
               program=program)
    check("its folder cannot be written (Permission denied); choose" in said, f"new in a read-only folder: {said}")
    said = run("new", os.path.join(folder, "nowhere", "new.kitbench"), "--kit", "tests/support/barrow", code=3)
    check("there is no folder" in said and "make the folder" in said, f"new in no folder: {said}")
    said = run("copy", there, os.path.join(locked, "copy.kitbench"), code=3, before=before, program=program)
    check("its folder cannot be written" in said, f"copy into a read-only folder: {said}")
    os.chmod(locked, 0o777)
    os.chmod(there, 0o444)
    said = run("count", there, "A1", "1", "3", code=3, before=before, program=program)
    check("read-only" in said, f"read-only file: {said}")
    check(sorted(os.listdir(locked)) == ["barrow.kitbench"] and os.path.getsize(there) == size, "nothing was left")
    check(shell(there, "SELECT count(*) FROM journal") == shell(path, "SELECT count(*) FROM journal"), "nothing changed")


FULL_DISK = """
mount -t tmpfs -o size=%dk none "$1" || exit 77
cp "$2" "$1/b.kitbench"
dd if=/dev/zero of="$1/filler" bs=1k count=100000 2>/dev/null
"$3" count "$1/b.kitbench" A1 1 3; echo "full: $?"
"$3" copy "$1/b.kitbench" "$1/c.kitbench"; echo "copy: $?"
ls "$1"
rm "$1/filler"
"$3" count "$1/b.kitbench" A1 1 3; echo "free: $?"
sqlite3 "$1/b.kitbench" "PRAGMA integrity_check; SELECT count(*) FROM journal"
"""


def full_disk(folder, path):
    disk = os.path.join(folder, "disk")
    os.mkdir(disk)
    kilobytes = os.path.getsize(path) // 1024 + 60
    done = subprocess.run(["unshare", "-m", "sh", "-c", FULL_DISK % kilobytes, "sh", disk, path, KITBENCH],
                          capture_output=True, text=True)
    if done.returncode in (1, 77) and "full:" not in done.stdout:
        print("SKIPPED: no disk of our own can be mounted here")
        return
    entries = int(shell(path, "SELECT count(*) FROM journal"))
    check("full: 3" in done.stdout and "disk is full" in done.stderr, f"full disk: {done.stdout}{done.stderr}")
    check("copy: 3" in done.stdout and "c.kitbench" not in done.stdout, f"copy to a full disk: {done.stdout}{done.stderr}")
    check("free: 0" in done.stdout and f"ok\n{entries + 1}" in done.stdout, f"after the full disk: {done.stdout}")


def main():
    folder = tempfile.mkdtemp(prefix="kitbench-test-")
    try:
        path = whole_day(folder)
        report_csv(folder)
        seen_by_sqlite(path)
        read_only(folder, path)
        full_disk(folder, path)
    finally:
        subprocess.run(["chmod", "-R", "u+w", folder], check=False)
        shutil.rmtree(folder)
    print(f"{checks} checks passed")


main()
