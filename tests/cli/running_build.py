#!/usr/bin/env python3
"""The commands of the running build as a user runs them, right and wrong: running_build.py KITBENCH, from the root."""
import json
import os
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


class Build:
    def __init__(self, folder):
        self.path = os.path.join(folder, "cart.kitbench")
        self.now = "2027-04-06 18:40"
        self.run("new", "--kit", "tests/support/cart", "--workshop", "tests/support/cart-crew")

    def run(self, command, *words, code=0, typed=""):
        done = subprocess.run([KITBENCH, command, self.path, *words], input=typed, capture_output=True, text=True,
                              env={**os.environ, "KITBENCH_NOW": self.now})
        check(done.returncode == code,
              f"{command} {words}: exit code {done.returncode}, not {code}\n{done.stdout}{done.stderr}")
        for line in done.stdout.splitlines():
            check(len(line) <= 80 or "--json" in words, f"{command} {words}: {len(line)} columns: {line}")
        if code in (2, 3):
            check(done.stderr.startswith("kitbench: ") and not done.stdout, f"{command} {words}: {done.stdout}")
        return done.stdout if code in (0, 1) else done.stderr

    def json(self, command, *words, **more):
        return json.loads(self.run(command, *words, "--json", **more))

    def says(self, message, command, *words, **more):
        told = self.run(command, *words, **more)
        check(message in " ".join(told.split()), f"{command} {words}: {message!r} is not in {told!r}")


def an_evening(b):
    b.says("0 running, 2 ready", "where")
    check(b.json("where")["next_session_starts"] == "2027-04-06 18:30", "where: the session that is on")
    steps = b.json("steps")["steps"]
    check([s["step"] for s in steps if s["ready"]] == ["S1", "S6"], "steps: ready")
    b.says("S2 waits Brake it follows S1, which is to do", "steps")
    b.says("it takes 2 people, 1 named", "start", "S1", "--by", "Comet", code=1)
    b.says('the kit has no step of that number', "start", "S99", "--by", "Comet", code=2)
    b.says('nobody in the crew is called "Nobody"', "start", "S1", "--by", "Comet,Nobody", code=2)
    check(b.json("start", "S1", "--by", "Comet,Otter")["state"] == "running", "start")
    check(b.json("steps")["steps"][0]["people"] == ["Comet", "Otter"], "steps: people")
    b.says("S1 is running already", "start", "S1", "--by", "Fern,Moss", code=1)
    b.says("S1 Frame: running", "change-over", "S1", "--by", "Comet,Juniper")
    b.says("S2 is to do, not running", "change-over", "S2", "--by", "Comet", code=1)
    b.says("S2 is to do, not running", "leave", "S2", code=1)
    b.now = "2027-04-06 19:00"
    b.says("S1 Frame: blocked", "blocked", "S1", "a screw is bent", "--by", "Comet")
    b.says("S1 is blocked: a screw is bent", "where")
    b.says("write it in one line", "blocked", "S1", "a\nb", code=2)
    b.run("start", "S1", "--by", "Comet,Otter")
    b.says("9 of C-2 cannot be left: 8 were in the tub", "done", "S1", "--left", "C-2=9", code=1)
    b.says("a part has no quantity", "done", "S1", "--left", "C-2", code=2)
    b.says("the kit has no part of that number", "done", "S1", "--left", "X=1", code=2)
    b.says('"1.5" is not a whole number', "done", "S1", "--minutes", "1.5", code=2)
    check(b.json("done", "S1", "--minutes", "25", "--left", "C-2=1")["state"] == "done", "done")
    b.says("S1 is done, not running", "done", "S1", code=1)
    check(not any(s["step"] == "S1" for s in b.json("steps", "--open")["steps"]), "steps --open")


def tests_and_signs(b):
    b.says("does not answer", "test", "S2", "1", "2", "--by", "Fern", code=2)
    b.says("S1 has no test 9", "test", "S1", "9", "2", "--by", "Moss", code=2)
    b.says("write 2.5", "test", "S1", "1", "2,5", "--by", "Moss", code=2)
    b.says("say who measured", "test", "S1", "1", "2.5", code=1)
    b.says("Comet built it", "test", "S1", "1", "2.5", "--by", "Moss", "--signed-by", "Comet", code=1)
    b.says("FAILED, out of the limits", "test", "S1", "1", "99", "--by", "Moss", "--signed-by", "Fern", code=1)
    b.says("it is signed already", "test", "S1", "1", "2.5", "--by", "Moss", "--signed-by", "Fern", code=1)
    b.says("within the limits, signed", "test", "S1", "1", "2.5", "--by", "Moss", "--signed-by", "Fern", "--reason",
           "the tape had slipped")


def codes(b):
    check(b.json("codes")["codes"] == [], "codes: none")
    b.says("everybody is taken at their word", "codes")
    b.says("the crew has no adult of that name", "codes", "Comet", code=2, typed="7391\n7391\n")
    b.says("the two differ", "codes", "Moss", code=2, typed="7391\n7392\n")
    b.says("it is missing", "codes", "Moss", code=2)
    b.says("guessed first", "codes", "Moss", code=2, typed="1234\n1234\n")
    b.says("whose code is missing", "codes", "--remove", code=2)
    b.says("Moss: set", "codes", "Moss", typed="7391\n7391\n")
    b.says("Fern: set", "codes", "Fern", typed="2840\n2840\n")
    b.says("only a leader", "codes", "Moss", code=2, typed="8117\n8117\n")
    b.says("Moss: set", "codes", "Moss", "--by", "Fern", typed="2840\n8117\n8117\n")
    b.now = "2027-04-06 20:10"
    b.says("it is missing", "start", "S2", "--by", "Comet", "--confirm", "Moss", code=2)
    b.says("it is wrong; 4 more wrong tries", "start", "S2", "--by", "Comet", "--confirm", "Moss", code=2,
           typed="7391\n")
    b.says("no code is set", "start", "S2", "--by", "Comet", "--confirm", "Juniper", code=2, typed="7391\n")
    check(b.json("start", "S2", "--by", "Comet", "--confirm", "Moss", typed="8117\n")["written"], "start with a code")
    for _ in range(5):
        b.run("test", "S2", "1", "yes", "--by", "Otter", "--signed-by", "Moss", code=2, typed="0000\n")
    b.says("it is locked after 5 wrong tries", "test", "S2", "1", "yes", "--by", "Otter", "--signed-by", "Moss", code=2,
           typed="8117\n")
    locked = {c["name"]: c["locked"] for c in b.json("codes")["codes"]}
    check(locked == {"Fern": False, "Moss": True}, f"codes: {locked}")
    b.says("Moss: set", "codes", "Moss", "--by", "Fern", typed="2840\n5502\n5502\n")
    b.run("done", "S2")
    b.says("within the limits, signed", "test", "S2", "1", "yes", "--by", "Otter", "--signed-by", "Moss",
           typed="5502\n")
    b.says("it is missing", "undo", "--by", "Moss", "--reason", "misread", code=2)
    b.says("undone: S2 test 1: 1, signed", "undo", "--by", "Moss", "--reason", "misread", typed="5502\n")
    b.says("say why in a few words", "codes", "--clear", code=2)
    check(b.json("codes", "--clear", "--reason", "both forgot theirs")["codes"] == [], "codes --clear")
    told = subprocess.run(["sqlite3", "-readonly", b.path, "SELECT note FROM journal WHERE verb = 'code'"],
                          capture_output=True, text=True).stdout
    check(told.count("taken away: both forgot theirs") == 2, f"the journal tells of the codes: {told}")


def crew_and_dates(folder):
    b = Build.__new__(Build)
    b.path, b.now = os.path.join(folder, "bare.kitbench"), "2027-08-20 12:00"
    b.run("new", "--kit", "tests/support/cart")
    b.says("Nobody yet", "crew")
    b.says("No workshop yet", "workshop")
    b.says("add somebody first", "sessions", "add", "Tuesdays 18:30 to 20:30, 7 September to 28 September", code=2)
    b.says("P1 Heron: adult, leads; supervises setting the brake, machine live", "crew", "add", "Heron", "--adult",
           "yes", "--leader", "yes", "--supervises", "brake,machine live")
    b.says('the kit has no kind of work of that name; write one of: brake, live', "crew", "add", "Wren", "--adult",
           "yes", "--supervises", "welding", code=2)
    b.says('"maybe" is neither', "crew", "add", "Wren", "--adult", "maybe", code=2)
    b.says("only adults supervise", "crew", "add", "Wren", "--supervises", "brake", code=2)
    b.says("somebody has that name already", "crew", "add", "heron", code=2)
    b.says("a comma stands between names", "crew", "add", "Wren, Moss", code=2)
    b.says("write add, change or remove", "crew", "dance", "Wren", code=2)
    b.says('something is missing after "add"', "crew", "add", code=2)
    for name in ("Wren", "Moss", "Comet"):
        b.run("crew", "add", name)
    b.says("P2 Bracken: adult", "crew", "change", "Wren", "--name", "Bracken", "--adult", "yes")
    crew = b.json("crew", "change", "Bracken", "--skills", "sealing a cover")["crew"]
    check(crew[1] == {"person": "P2", "name": "Bracken", "adult": True, "leader": False, "supervises": [],
                      "skills": ["seal"]}, f"crew: {crew[1]}")
    rule = "Tuesdays 18:30 to 20:30, 7 September to 28 September, not 14 September"
    told = b.json("sessions", "add", rule, "--opening", "5")
    check([(s["session"], s["date"], s["opening_min"], s["closing_min"]) for s in told["sessions"]] ==
          [(1, "2027-09-07", 5, 10), (2, "2027-09-21", 5, 10), (3, "2027-09-28", 5, 10)], "sessions: by rule")
    check('nobody has "T-1" (ring spanner), which step S1 needs' in told["does_not_fit"], "sessions: does not fit")
    told = b.json("sessions", "add", "Thursday 9 September 18:00 to 21:00")
    check([s["session"] for s in told["sessions"]] == [1, 4, 2, 3], "sessions: in the order of time")
    b.says("session 4 starts at 18:00, but session 5 ends at 18:30", "sessions", "add",
           "9 September 17:00 to 18:30", code=2)
    check(len(b.json("sessions")["sessions"]) == 4, "a refused rule adds nothing")
    b.says("called off", "sessions", "cancel", "4")
    check([s["cancelled"] for s in b.json("sessions")["sessions"]] == [False, True, False, False], "cancelled")
    b.run("sessions", "restore", "4")
    b.says("there is none of that number", "sessions", "remove", "9", code=2)
    b.says("write add, cancel, restore or remove", "sessions", "move", "4", code=2)
    b.says("Bracken: 19:00-20:30", "attendance", "1", "Bracken", "19:00-")
    b.says("Comet: -", "attendance", "1", "Comet", "no")
    b.says('"perhaps" is none of them', "attendance", "1", "Comet", "perhaps", code=2)
    b.says("is not inside session 1, 18:30 to 20:30", "attendance", "1", "Comet", "17:00-", code=2)
    b.says('"Nobody": nobody in the crew is called that', "attendance", "1", "Nobody", "no", code=2)
    grid = b.json("attendance")["attendance"][0]["people"]
    check(grid == {"P1": "all", "P2": "19:00-20:30", "P3": "all", "P4": "-"}, f"attendance: {grid}")
    b.says("undone: attendance of session and person 1;P4 set", "undo")
    check(b.json("attendance")["attendance"][0]["people"]["P4"] == "all", "attendance: undone")
    b.says("T-1 ring spanner: 2", "workshop", "--owns", "T-1=2,T-2=1", "--minimum-adults", "2", "--wanted-day",
           "2027-10-01")
    b.says("the kit has no tool and no workplace of that number", "workshop", "--owns", "T-9=2", code=2)
    b.says('"soon" is no day', "workshop", "--wanted-day", "soon", code=2)
    # At work: who is not here does not work, and one adult is not enough.
    b.now = "2027-09-07 18:45"
    b.says("Bracken comes at 19:00", "start", "S1", "--by", "Moss,Bracken", code=1)
    b.says("1 adult is in the room now; any work takes 2", "start", "S1", "--by", "Moss,Comet", code=1)
    b.now = "2027-09-07 19:05"
    b.run("start", "S1", "--by", "Moss,Bracken")
    told = b.json("crew", "remove", "Comet")
    check([p["name"] for p in told["crew"]] == ["Heron", "Bracken", "Moss"], "crew: removed")
    check(b.json("crew", "add", "Comet")["crew"][3]["person"] == "P4", "who comes back has the old number")
    b.run("undo")
    check(len(b.json("crew")["crew"]) == 3, "adding is undone")
    check(b.json("plan")["status"] in ("optimal", "feasible"), "plan over the dates")
    b.says("The name is blanked", "forget", "Bracken")
    check([p["name"] for p in b.json("crew")["crew"]] == ["Heron", "P2", "Moss"], "forget")
    check(b"Bracken" not in open(b.path, "rb").read(), "forget: no byte left")
    told = subprocess.run(["sqlite3", "-readonly", b.path, "SELECT count(*) FROM journal WHERE cells LIKE '%Heron%'"],
                          capture_output=True, text=True).stdout
    check(told.strip() == "0", "names stand outside the journal")


PHOTO = (b"\xff\xd8\xff\xe1\x00\x0eExif\0\0Meadow" + b"\xff\xdb\x00\x04QT" + b"\xff\xda\x00\x04SS\x12\x34" + b"\xff\xd9")


def pairs_and_photos(b, folder):
    b.says("Everything is where it came from", "take")
    b.says("say who takes it", "take", "A1", code=1)
    b.says("A1 small parts: Comet, Otter at table 2", "take", "A1", "--by", "Comet,Otter", "--table", "table 2")
    b.says("Comet and Otter have A1 at table 2", "take", "A1", "--by", "Fern,Moss", code=1)
    b.says("no box or bag of that number", "take", "Z9", "--by", "Fern", code=2)
    check(b.json("take")["taken"][0]["people"] == ["Comet", "Otter"], "take: shown")
    check(b.json("count", "A1", "all-here", "--by", "Comet")["rows"] == 3, "all here")
    b.says("every row of it is counted already", "count", "A1", "all-here", code=2)
    b.says("Comet counted A1 row 1", "again", "A1", "1", "14", "--by", "Comet", code=1)
    told = b.run("again", "A1", "1", "13", "--by", "Otter")
    check("13" not in told and "14" not in told and "differ" not in told, f"again is blind: {told}")
    b.says("14 usable, 0 damaged (Comet); again 13 and 0 (Otter): DIFFERENT", "again", code=1)
    check(b.json("again", code=1)["counted_again"][0]["agree"] is False, "again: shown")
    b.says("something is missing", "again", "A1", code=2)
    b.run("again", "A1", "1", "14", "--by", "Moss")
    check(b.json("again")["counted_again"][0]["agree"] is True, "again: agree")
    path, out = os.path.join(folder, "found.jpg"), os.path.join(folder, "out.jpg")
    with open(path, "wb") as file:
        file.write(PHOTO)
    entry = b.json("count", "A1", "extra", "red cap", "2", "--photo", path)["entry"]
    b.says("bytes", "photo", str(entry), "-o", out)
    with open(out, "rb") as file:
        kept = file.read()
    check(kept == b"\xff\xd8" + PHOTO[18:], f"the photo without its place: {kept}")
    check(b"Meadow" not in open(b.path, "rb").read(), "no byte of the place is in the file")
    b.says("no photo came with it", "photo", "1", "-o", out + "2", code=2)
    b.says("there is a file of that name", "photo", str(entry), "-o", out, code=2)
    b.says("the name of the file is missing", "photo", str(entry), code=2)
    b.says("neither PNG nor JPEG", "count", "A1", "extra", "cap", "2", "--photo", "tests/cli/help.py", code=2)
    with open(path, "wb") as file:
        file.write(PHOTO[:-4])
    b.says("cut off or damaged", "count", "A1", "extra", "cap", "2", "--photo", path, code=2)
    b.says("A1 is not back where it came from", "closing", "--complete", code=1)
    b.says("Not back where it came from: A1", "closing")
    check(b.json("closing")["not_back"] == ["A1"], "closing: not back")
    b.says("A1 is back", "back", "A1")
    b.says("nobody had A1", "back", "A1", code=1)


def tidy_and_chase(b):
    b.says("No part lies in a compartment", "compartments")
    b.says("tray 1, B4: C-2 socket screw, 0", "compartments", "C-2", "tray 1, B4")
    b.says("something is missing", "compartments", "C-2", code=2)
    b.says("the kit has no part of that number", "compartments", "C-99", "x", code=2)
    b.says("T-1 ring spanner 10 mm: not counted of 2", "tools-here", code=1)
    b.says("the kit has no tool of that number", "tools-here", "T-9", "1", code=2)
    b.says("a tool has no number of pieces", "tools-here", "T-1", code=2)
    b.says("T-1 ring spanner 10 mm: 1 of 2", "tools-here", "--all", "T-1", "1", code=1)
    b.run("tools-here", "--all")
    b.says("Nothing lacks", "chase")
    b.run("count", "A1", "3", "2")
    b.says("C-6 socket screw: not asked; 2 lack; stops 1 step", "chase", code=1)
    b.says("C-6 socket screw: asked; 2 lack, 2 asked on 2027-04-06", "chase", "--sent", "by mail", code=1)
    b.says("say why it is corrected", "chase", "C-6", "1", "--by", "Fern", code=1)
    b.says("an adult corrects it", "chase", "C-6", "1", "--by", "Comet", "--reason", "one was found", code=1)
    check(b.json("chase", "C-6", "1", "--by", "Fern", "--reason", "one was found", code=1)["parts"][0]["asked"] == 1,
          "chase: corrected")
    b.says("none of its forms", "chase", "C-6", code=2)
    b.run("promise", "C-6", "2", "2027-04-08")
    b.says("C-6 socket screw: promised", "chase", code=1)
    b.now = "2027-04-09 10:00"
    check(b.json("chase", code=1)["parts"][0]["state"] == "overdue", "chase: overdue")
    b.run("arrive", "C-6", "2")
    b.says("C-6 socket screw: arrived; 0 lack", "chase")
    b.says("C-2 socket screw: 14 should be left, 2 of them packed as spares; in tray 1, B4", "left-overs")
    b.says("it is named twice", "left-overs", "C-2", "1", "C-2", "2", code=2)


def pieces_and_end(b):
    b.now = "2027-04-13 18:40"
    b.run("start", "S6", "--by", "Otter")
    b.says("there are 4 of C-6 there (tub), not 5", "move", "C-6", "5", "tub", "lost", "--step", "S6", code=1)
    b.says('"pocket" is no place', "move", "C-6", "1", "tub", "pocket", "--step", "S6", code=2)
    b.says("say of which step", "move", "C-6", "1", "tub", "compartment", code=1)
    b.says("1 x C-6: tub to lost", "move", "C-6", "1", "tub", "lost", "--step", "S6")
    b.run("move", "C-6", "1", "lost", "compartment")
    b.run("done", "S6")
    b.says("2 kinds of tools were not counted since the last work", "release", code=1)
    b.says("S1 is to do", "release", code=1)
    b.says("part C-6 socket screw: 1 pieces", "closing")
    b.says('"soon" is no moment', "closing", "--since", "soon", code=2)
    b.says("The closing count is written", "closing", "--complete")
    b.says("the row has 1", "reading", "C-5", "2", "12.8", code=2)
    b.says("C-2 is no battery", "reading", "C-2", "1", "12.8", code=2)
    b.says("12.8 V", "reading", "C-5", "1", "12.8", "--rested", "24")
    b.says("not begun", "undo-step", "S1", code=2)
    b.says("Comes off: S6 Bell", "undo-step", "S6")
    b.says("an adult must do it", "undo-step", "S6", "--yes", "--by", "Otter", "--reason", "askew", code=1)
    b.says("say why", "undo-step", "S6", "--yes", "--by", "Fern", code=2)
    check(b.json("undo-step", "S6", "--yes", "--by", "Fern", "--reason", "askew")["written"], "undo-step")
    check(b.json("loose")["loose"] == [], "loose")


def main():
    with tempfile.TemporaryDirectory() as folder:
        b = Build(folder)
        an_evening(b)
        tests_and_signs(b)
        codes(b)
        crew_and_dates(folder)
        os.remove(b.path)
        b = Build(folder)
        pairs_and_photos(b, folder)
        tidy_and_chase(b)
        pieces_and_end(b)
    print(f"{checks} checks passed")


main()
