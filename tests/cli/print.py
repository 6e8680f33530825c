#!/usr/bin/env python3
"""`kitbench print` as people use it: print.py KITBENCH, from the project's root (needs demo/)."""
import json
import os
import shutil
import struct
import subprocess
import sys
import tempfile
import zlib

KITBENCH = os.path.abspath(sys.argv[1])
faults = []


def run(*words, **environment):
    done = subprocess.run([KITBENCH, *words], capture_output=True, text=True,
                          env={**os.environ, "KITBENCH_NOW": "2027-03-02 18:00", **environment})
    return done.returncode, done.stdout, done.stderr


def expect(what, got, wanted):
    if got != wanted:
        faults.append(f"{what}: {got!r} instead of {wanted!r}")


def read(path):
    with open(path, "rb") as file:
        return file.read()


def refuses(words, message, code=2):
    got, out, told = run("print", *words)
    expect(f"exit code of {words}", got, code)
    expect(f"output of {words}", out, "")
    if message not in told:
        faults.append(f"{words}: told {told!r} without {message!r}")


def same_bytes_everywhere(folder, source, what):
    """Neither the fonts, the language, the time zone nor the clock of the machine shows in a sheet."""
    one, two = os.path.join(folder, "one.pdf"), os.path.join(folder, "two.pdf")
    expect(f"{what} here", run("print", source, what, "-o", one)[0], 0)
    expect(f"{what} elsewhere",
           run("print", source, what, "-o", two, LC_ALL="de_DE.UTF-8", LANGUAGE="ar", TZ="Pacific/Apia", HOME="/nowhere",
               FONTCONFIG_FILE="/nowhere/fonts.conf", PANGO_LANGUAGE="he")[0], 0)
    expect(f"{what}: same bytes", read(one) == read(two), True)


def what_is_no_pdf_stays(folder, build):
    """A name given twice by mistake must not cost the build file."""
    before = read(build)
    refuses([build, "check-sheets", "-o", build], "it is no PDF; choose another name")
    refuses([build, "check-sheets", "-o", folder], "it is a folder; name a file")
    pipe = os.path.join(folder, "pipe")
    os.mkfifo(pipe)
    refuses([build, "check-sheets", "-o", pipe], "it is a device or a pipe; name a file")
    os.remove(pipe)
    expect("the build file afterwards", read(build) == before, True)


def picture(width):
    """A grey PNG (W3C PNG specification)."""
    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
    rows = (b"\0" + bytes([120]) * width) * 20
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, 20, 8, 0, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))


def pictures_are_in_the_build(folder):
    """A build file prints the maker's pictures after the kit folder is gone."""
    kit, build, out = (os.path.join(folder, name) for name in ("pictured", "pictured.kitbench", "cards.pdf"))
    shutil.copytree("tests/support/cart", kit)
    path = os.path.join(kit, "steps.csv")
    with open(path, encoding="utf-8") as file:
        lines = file.read().splitlines()
    with open(path, "w", encoding="utf-8") as file:
        for i, line in enumerate(lines):
            file.write(line + (",picture" if i == 0 else ",wheel.png" if i < 3 else ",") + "\n")
    expect("check --package without the picture", run("check", kit, "--package")[0], 2)

    def begin(data, code, message):
        with open(os.path.join(kit, "wheel.png"), "wb") as file:
            file.write(data)
        run("check", kit, "--package")
        got, _, told = run("new", build, "--kit", kit)
        expect(f"new with {data[:8]}", got, code)
        if message not in told:
            faults.append(f"new with a bad picture: {told!r} without {message!r}")
        expect("a refused build leaves nothing", os.path.exists(build), code == 0)

    begin(b"GIF89a and so on", 2, 'steps.csv row 2, picture: "wheel.png": it is neither PNG nor JPEG; save it as PNG')
    begin(b"", 2, "it is neither PNG nor JPEG")
    begin(picture(30) + b"x" * (8 << 20), 2, "wheel.png")
    begin(picture(30), 0, "")
    shutil.rmtree(kit)
    code, answer, told = run("print", build, "job-cards", "-o", out, "--json")
    expect("job cards with pictures", (code, json.loads(answer)["notes"] if code == 0 else told), (0, []))
    images = subprocess.run(["pdfimages", "-list", out], capture_output=True, text=True).stdout.splitlines()
    expect("pictures on the cards", [line.split()[3:5] for line in images[2:]], [["30", "20"]] * 2)
    os.remove(build)
    os.remove(out)


def main():
    with tempfile.TemporaryDirectory() as folder:
        build, out = os.path.join(folder, "t.kitbench"), os.path.join(folder, "out.pdf")
        expect("new", run("new", build, "--kit", "demo/kit", "--workshop", "demo/workshop")[0], 0)
        for source, what in (("demo/kit", "check-sheets"), ("demo/kit", "job-cards"), (build, "check-sheets"),
                             (build, "report"), (build, "job-cards"), (build, "run-sheet")):
            same_bytes_everywhere(folder, source, what)

        what_is_no_pdf_stays(folder, build)
        pictures_are_in_the_build(folder)

        code, answer, _ = run("print", "demo/kit", "check-sheets", "--box", "1,8", "--copies", "2", "-o", out, "--json")
        told = json.loads(answer)
        expect("--json: keys", sorted(told), ["bytes", "file", "notes", "pages"])
        expect("--json: bytes", told["bytes"], os.path.getsize(out))
        expect("--json: notes", (code, told["file"], told["notes"]), (0, out, []))
        one = run("print", "demo/kit", "check-sheets", "--box", "box 1", "-o", out, "--json")[1]
        eight = run("print", "demo/kit", "check-sheets", "--box", "8", "-o", out, "--json")[1]
        expect("pages of two copies of two boxes", told["pages"],
               2 * (json.loads(one)["pages"] + json.loads(eight)["pages"]))

        every = os.path.join(folder, "every")
        told = json.loads(run("print", build, "all", "-o", every, "--json")[1])
        made = [sheet for sheet in told["sheets"] if "left_out" not in sheet]
        expect("all: every sheet", (len(made), sorted(os.listdir(every))),
               (len(told["sheets"]), sorted(sheet["sheet"] + ".pdf" for sheet in made)))
        expect("all: pages", told["pages"], sum(sheet["pages"] for sheet in made))
        expect("all: bytes", [sheet["bytes"] for sheet in made],
               [os.path.getsize(os.path.join(every, sheet["sheet"] + ".pdf")) for sheet in made])
        left_out = [sheet["sheet"] for sheet in json.loads(run("print", "demo/kit", "all", "-o", every, "--json")[1])["sheets"]
                    if "left_out" in sheet]
        expect("all of a kit leaves out", left_out, ["report", "run-sheet"])
        shutil.rmtree(every)

        before = read(out)
        refuses(["demo/kit", "labels", "-o", out], 'there is no sheet "labels"; choose check-sheets, ')
        refuses(["demo/kit", "job-cards"], "the name of the PDF is missing")
        refuses(["demo/kit", "job-cards", "-o", out, "--paper", "a5"], "choose a4 or letter")
        refuses(["demo/kit", "job-cards", "-o", out, "--step", "S01,S999"], 'no step "S999"')
        refuses(["demo/kit", "job-cards", "-o", out, "--box", "1"], "job-cards takes no --box")
        refuses(["demo/kit", "job-cards", "-o", out, "--session", "1"], "it is a kit folder")
        refuses(["demo/kit", "run-sheet", "-o", out], "it is a kit folder")
        refuses(["demo/kit", "check-sheets", "-o", out, "--copies", "0"], "--copies")
        refuses(["demo/kit", "check-sheets", "-o", out, "--box", "A1"], "is a bag")
        refuses([build, "run-sheet", "-o", out, "--session", "999"], "no session 999")
        refuses([build, "job-cards", "-o", out, "--session", "1", "--step", "S01"], "both choose the steps")
        refuses([os.path.join(folder, "nothing"), "report", "-o", out], "nothing")
        expect("a refused sheet leaves the file", read(out) == before, True)
        refuses(["demo/kit", "check-sheets", "-o", os.path.join(folder, "no", "such", "folder.pdf")], "folder.pdf", 3)
        expect("nothing else lies there", sorted(os.listdir(folder)), ["one.pdf", "out.pdf", "t.kitbench", "two.pdf"])
    for fault in faults:
        print(fault)
    print(f"{len(faults)} faults")
    return 1 if faults else 0


sys.exit(main())
