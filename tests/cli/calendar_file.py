#!/usr/bin/python3
"""The calendar of a build, read by an independent parser (python3-icalendar): what is in it, the form of its lines as
RFC 5545 has them, and that a later calendar updates an earlier one instead of doubling it.

  calendar_file.py KITBENCH     from the project's root
"""
import csv
import datetime
import os
import shutil
import subprocess
import sys
import tempfile

import icalendar

KITBENCH = os.path.abspath(sys.argv[1])


def run(*words, code=0):
    done = subprocess.run([KITBENCH, *words], capture_output=True, check=False,
                          env={**os.environ, "KITBENCH_NOW": "2027-03-01 18:31"})
    assert done.returncode == code, f"{words}: {done.returncode}\n{done.stdout}{done.stderr}"
    return done.stdout if code == 0 else done.stderr


def events(data):
    found = icalendar.Calendar.from_ical(data).walk("VEVENT")
    by_uid = {str(event["UID"]): event for event in found}
    assert len(by_uid) == len(found), "a UID stands twice"
    return by_uid


def check_lines(data):
    assert data.endswith(b"END:VCALENDAR\r\n")
    for line in data.split(b"\r\n"):
        assert len(line) <= 75 and b"\n" not in line and b"\r" not in line, line
        line.decode("utf-8")  # a fold never cuts a character


def rename(path):
    """A name that must be escaped, and folded between characters of two and three octets."""
    with open(path, encoding="utf-8") as file:
        told = file.read()
    name = "Dôme; “très” long, " + "€uropäisch " * 9
    assert "Rotating observatory dome, 2.6 m" in told
    with open(path, "w", encoding="utf-8") as file:
        file.write(told.replace("Rotating observatory dome, 2.6 m", name.strip()))


def main():
    with tempfile.TemporaryDirectory() as folder:
        kit = os.path.join(folder, "kit")
        shutil.copytree("demo/kit", kit)
        rename(os.path.join(kit, "kit.csv"))
        build = os.path.join(folder, "build.kitbench")
        run("new", build, "--kit", kit, "--workshop", "demo/workshop")
        for box in range(1, 9):
            run("receive", build, str(box))
        run("count", build, "E2", "1", "0")
        run("promise", build, "D-919", "9", "2027-03-15")
        first = run("calendar", build)
        check_lines(first)
        once = events(first)

        with open("demo/workshop/sessions.csv", encoding="utf-8", newline="") as file:
            sessions = list(csv.DictReader(file))
        told = {uid.split("@")[0]: event for uid, event in once.items()}
        for session in sessions:
            event = told[f"session-{session['session']}"]
            start = datetime.datetime.fromisoformat(f"{session['date']} {session['start']}")
            assert event["DTSTART"].dt == start and event["DTEND"].dt > start
        steps = [line for event in told.values() for line in str(event.get("DESCRIPTION", "")).splitlines()]
        assert any(line.startswith("S01 ") for line in steps) and any(line.startswith("S70 ") for line in steps)
        assert told["promise-D-919-1"]["DTSTART"].dt == datetime.date(2027, 3, 15)
        assert "9 x D-919" in told["promise-D-919-1"]["SUMMARY"] and told["promise-D-919-1"]["STATUS"] == "TENTATIVE"
        assert sum(uid.startswith("care-") for uid in told) == 7
        assert told["care-R1"]["RRULE"]["INTERVAL"] == [182] and told["care-R1"]["STATUS"] == "TENTATIVE"
        top_ups = [event for uid, event in told.items() if uid.startswith("top-up-")]
        with open("demo/kit/batteries.csv", encoding="utf-8", newline="") as file:
            days = int(next(csv.DictReader(file))["top_up_days"])
        assert len(top_ups) == 2
        assert all(event["DTSTART"].dt == datetime.date(2027, 3, 1) + datetime.timedelta(days) for event in top_ups)
        with open("demo/workshop/crew.csv", encoding="utf-8", newline="") as file:
            for person in csv.DictReader(file):
                assert person["name"].encode() not in first, f"{person['name']} stands in the calendar"

        run("promise", build, "D-919", "9", "2027-03-22", "--instead")
        path = os.path.join(folder, "build.ics")
        assert f"{len(once)} events".encode() in run("calendar", build, "-o", path)
        with open(path, "rb") as file:
            later = events(file.read())
        assert later.keys() == once.keys(), "a later calendar has other UIDs"
        for uid, event in later.items():
            assert event["SEQUENCE"] > once[uid]["SEQUENCE"]
        moved = next(event for uid, event in later.items() if uid.startswith("promise-"))
        assert moved["DTSTART"].dt == datetime.date(2027, 3, 22)

        alone = os.path.join(folder, "alone.kitbench")
        run("new", alone, "--kit", kit)
        assert not [uid for uid in events(run("calendar", alone)) if uid.startswith("session-")]
        assert b"-o" in run("calendar", build, "--json", code=2)
        assert b"no-such" in run("calendar", build, "-o", "/no-such/b.ics", code=3)
    print(f"{len(once)} events, twice")


main()
