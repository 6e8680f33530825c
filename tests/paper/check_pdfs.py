#!/usr/bin/env python3
"""Looks at finished sheets with other people's tools: check_pdfs.py MAKE_SHEETS GOLDEN_FOLDER

  qpdf       the file is sound
  pdftotext  the text is there, whole and in order (golden files), and no word lies on another
  pdftoppm   nothing is printed in the margins, and every page has something on it
  pdfinfo    title and paper size

UPDATE_GOLDEN=1 writes the golden files anew; look at the difference before committing it.
"""
import html
import os
import re
import shutil
import subprocess
import sys
import tempfile

WORD = re.compile(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>')
PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">')
MARGIN_MM = 9.0
SIZES = {"letter": (612.0, 792.0)}
A4 = (595.276, 841.89)


def run(*command):
    return subprocess.run(command, check=True, capture_output=True).stdout


def words_by_page(pdf):
    pages = []
    for line in run("pdftotext", "-bbox", pdf, "-").decode("utf-8").split("\n"):
        if PAGE.search(line):
            pages.append([])
        found = WORD.search(line)
        if found:
            pages[-1].append((*(float(x) for x in found.groups()[:4]), html.unescape(found.group(5))))
    return pages


# The upper and lower half of a code point in its box, for a character without a glyph: small digits close together.
HALF = re.compile(r"^[0-9A-F]{2,3}$")


def overlap(a, b):
    """The boxes of two words share more than a hair: half a point both ways."""
    if HALF.match(a[4]) and HALF.match(b[4]):
        return False
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.5 and min(a[3], b[3]) - max(a[1], b[1]) > 0.5


def check_overlaps(pdf):
    faults = []
    for number, words in enumerate(words_by_page(pdf), 1):
        words.sort(key=lambda w: w[1])
        for i, word in enumerate(words):
            for other in words[i + 1:]:
                if other[1] > word[3]:
                    break
                if overlap(word, other):
                    faults.append(f"page {number}: \"{word[4]}\" and \"{other[4]}\" lie on each other")
    return faults


def rasters(pdf, folder, last):
    run("pdftoppm", "-gray", "-r", "40", "-l", str(last), pdf, os.path.join(folder, "page"))
    for name in sorted(n for n in os.listdir(folder) if n.startswith("page")):
        path = os.path.join(folder, name)
        with open(path, "rb") as file:
            data = file.read()
        os.remove(path)
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
        yield int(head.group(1)), int(head.group(2)), data[head.end():]


def check_margins(pdf, folder, last):
    faults = []
    for number, (width, height, ink) in enumerate(rasters(pdf, folder, last), 1):
        margin = int(MARGIN_MM / 25.4 * 40)
        dark = 0
        for y in range(height):
            row = ink[y * width:(y + 1) * width]
            if margin <= y < height - margin:
                dark += sum(1 for p in row[margin:width - margin] if p < 128)
                row = row[:margin] + row[width - margin:]
            if min(row) < 250:
                faults.append(f"page {number}: something is printed in the margin, {y / 40 * 25.4:.0f} mm down")
                break
        if dark < 50:
            faults.append(f"page {number}: it is empty")
    return faults


def check_info(pdf, size):
    info = run("pdfinfo", pdf).decode("utf-8")
    faults = [] if re.search(r"^Title: +\S", info, re.M) else ["it has no title"]
    found = re.search(r"^Page size: +([\d.]+) x ([\d.]+)", info, re.M)
    wanted = SIZES.get(size, A4)
    turned = sorted(map(float, found.groups()))  # a wide table lies across
    if any(abs(f - w) > 0.1 for f, w in zip(turned, sorted(wanted))):
        faults.append(f"its pages are {found.group(1)} x {found.group(2)} points")
    return faults


def check_golden(pdf, golden):
    """Words line by line; how they are spaced is left out."""
    text = run("pdftotext", "-layout", pdf, "-").decode("utf-8")
    lines = [re.sub(r"\s+", " ", line).strip() for line in text.replace("\f", "\n--- page ---\n").split("\n")]
    text = "\n".join(line for line in lines if line) + "\n"
    if os.environ.get("UPDATE_GOLDEN"):
        with open(golden, "w", encoding="utf-8") as file:
            file.write(text)
    with open(golden, encoding="utf-8") as file:
        wanted = file.read()
    for number, (a, b) in enumerate(zip(text.split("\n"), wanted.split("\n")), 1):
        if a != b:
            return [f"{os.path.basename(golden)} line {number}: \"{a}\" instead of \"{b}\""]
    return [] if text == wanted else [f"{os.path.basename(golden)}: longer or shorter than it should be"]


def look_at(pdf, golden_folder, folder):
    name = os.path.basename(pdf)[:-4]
    size = name.rsplit("-", 1)[1]
    faults = []
    sound = subprocess.run(["qpdf", "--check", pdf], capture_output=True)
    if sound.returncode:
        faults.append("qpdf: " + (sound.stderr or sound.stdout).decode("utf-8", "replace").strip())
    faults += check_info(pdf, size) + check_overlaps(pdf)
    faults += check_margins(pdf, folder, 3 if size == "large" else 20)
    if size == "a4":
        faults += check_golden(pdf, os.path.join(golden_folder, name + ".txt"))
    return [f"{name}: {fault}" for fault in faults]


def try_the_checks(make_sheets, folder):
    """A page that is wrong on purpose must be found so."""
    pdf = os.path.join(folder, "faulty.pdf")
    run(make_sheets, "--faulty", pdf)
    found = []
    if not any("lie on each other" in f for f in check_overlaps(pdf)):
        found.append("the check for overlaps does not see one")
    if not any("margin" in f for f in check_margins(pdf, folder, 1)):
        found.append("the check of margins does not see a text in one")
    return found


def main():
    make_sheets, golden_folder = sys.argv[1:3]
    missing = [t for t in ("qpdf", "pdftotext", "pdftoppm", "pdfinfo") if not shutil.which(t)]
    if missing:
        print("SKIPPED: no", ", ".join(missing))
        return 77
    with tempfile.TemporaryDirectory() as folder:
        faults = try_the_checks(make_sheets, folder)
        sheets = os.path.join(folder, "sheets")
        os.mkdir(sheets)
        run(make_sheets, sheets)
        names = sorted(os.listdir(sheets))
        for name in names:
            faults += look_at(os.path.join(sheets, name), golden_folder, folder)
    for fault in faults:
        print(fault)
    print(f"{len(names)} PDFs, {len(faults)} faults")
    return 1 if faults or len(names) != 48 else 0


sys.exit(main())
