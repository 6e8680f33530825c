#!/usr/bin/env python3
"""True scale and QR codes on the rendered page, measured by other people's tools.

Pages become pixels at 300 dpi (pdftoppm). The ruler and the fasteners are measured in pixels: 0.2 mm are 2.4 of them.
Sizes from the standards: head height k, head diameter dk and width across corners e of ISO 4762, ISO 4017 and
ISO 7380-1 as their tables print them. QR codes are read by zbarimg (skipped where it is not installed).

  true_scale.py KITBENCH     from the project's root
"""
import csv
import os
import re
import shutil
import subprocess
import sys
import tempfile

KITBENCH = os.path.abspath(sys.argv[1])
DPI = 300
TOLERANCE_MM = 0.2
OUTLINE_MM = 0.8 * 25.4 / 72  # half of it lies outside the shape on each side

# part of the demo kit: (end view, side view) in millimetres
FASTENERS = {
    "D-913": (10.0, 6.0 + 20),  # ISO 4762 M6x20: dk 10, k 6
    "D-916": (10.0, 6.0 + 45),  # ISO 4762 M6x45
    "D-917": (13.0, 8.0 + 45),  # ISO 4762 M8x45: dk 13, k 8
    "D-910": (7.0, 4.0 + 30),   # ISO 4762 M4x30: dk 7, k 4
    "D-919": (9.5, 2.75 + 12),  # ISO 7380-1 M5x12: dk 9.5, k 2.75
}


def run(*words):
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


def printed(folder, name, what, *options, kit="demo/kit"):
    path = os.path.join(folder, f"{name}.pdf")
    run(KITBENCH, "print", kit, what, "-o", path, *options)
    run("qpdf", "--check", path)
    return path


def pixels(path, page):
    """Rows of grey values of one page."""
    data = subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", "-f", str(page), "-l", str(page), path],
                          capture_output=True, check=True).stdout
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
    width, height = int(head[1]), int(head[2])
    body = data[head.end():]
    return [body[y * width:(y + 1) * width] for y in range(height)]


def mm(count):
    return count * 25.4 / DPI


def longest_run(line):
    best = run_now = 0
    for value in line:
        run_now = run_now + 1 if value < 128 else 0
        best = max(best, run_now)
    return best


def ruler(rows, expected):
    """The ruler's base line is the one dark run of about its length."""
    found = [mm(longest_run(row)) for row in rows]
    assert any(abs(length - expected) < TOLERANCE_MM + 0.15 for length in found), \
        f"no line of {expected:.2f} mm; nearest {min(found, key=lambda f: abs(f - expected)):.2f} mm"


def words(path):
    """(page, left, top) in points of each word that stands once."""
    page = 0
    found = {}
    for line in run("pdftotext", "-bbox", path, "-").splitlines():
        page += "<page " in line
        word = re.search(r'xMin="([\d.]+)" yMin="([\d.]+)".*>([^<]+)</word>', line)
        if word:
            found[word[3]] = (page, float(word[1]), float(word[2]))
    return found


def groups(rows, left, right, top, bottom):
    """Widths in mm of what stands side by side there."""
    dark = [any(rows[y][x] < 128 for y in range(top, bottom)) for x in range(left, right)]
    widths, run_now, gap = [], 0, 0
    for is_dark in dark + [False] * 20:
        if is_dark:
            run_now += 1 + gap
            gap = 0
        elif run_now:
            gap += 1
            if mm(gap) > 0.6:
                widths.append(mm(run_now))
                run_now = gap = 0
    return widths


def check_fasteners(path, scale):
    where = words(path)
    per_point = DPI / 72
    pages = {}
    for part, (end, side) in FASTENERS.items():
        page, x, y = where[part]
        rows = pages.setdefault(page, pixels(path, page))
        left, bottom = int((x - 2) * per_point), int((y - 1) * per_point)
        right = left + int((end + side + 9) * scale / 25.4 * DPI)
        top = bottom - int((end * scale + 2) / 25.4 * DPI)
        widths = groups(rows, left, right, top, bottom)
        for measured, meant in zip(widths, (end, side)):
            assert abs(measured - OUTLINE_MM * scale - meant * scale) < TOLERANCE_MM, \
                f"{part}: {measured - OUTLINE_MM * scale:.2f} mm, should be {meant * scale:.2f}"
        assert len(widths) >= 2, f"{part}: {widths}"
    return len(FASTENERS)


def check_codes(path, expected):
    if not shutil.which("zbarimg"):
        print("skipped: zbarimg is not installed, no QR code was read")
        return
    with tempfile.TemporaryDirectory() as folder:
        run("pdftoppm", "-r", str(DPI), "-gray", "-png", path, os.path.join(folder, "page"))
        pages = [os.path.join(folder, name) for name in sorted(os.listdir(folder))]
        read = run("zbarimg", "-q", "--raw", *pages).split("\n")
    read = [line for line in read if line]
    assert len(read) == len(expected), f"{len(read)} codes read, {len(expected)} printed"
    for number in expected:
        assert sum(f" {number} " in line for line in read) == 1, f"{number} is in no code"
    codes = [line.split()[-1] for line in read]
    assert len(set(codes)) == len(codes) and all(re.fullmatch("[ACDEFHJKLMNPRTUVWXY34679]{4}", c) for c in codes)


def refused(*options):
    done = subprocess.run([KITBENCH, "print", "demo/kit", "bag-labels", "-o", "/nowhere/x.pdf", *options],
                          capture_output=True, text=True, check=False)
    assert done.returncode == 2 and done.stderr.count("\n") == 1, f"{options}: {done.returncode} {done.stderr}"


def main():
    with tempfile.TemporaryDirectory() as folder:
        for paper, measured in (("a4", None), ("letter", "97.5")):
            scale = 100 / float(measured) if measured else 1
            options = ["--paper", paper, *(["--ruler", measured] if measured else [])]
            page = printed(folder, "test", "test-page", *options)
            rows = pixels(page, 1)
            ruler(rows, 100 * scale)
            ruler(list(zip(*rows)), 100 * scale)  # and upright
            sheets = printed(folder, "gauge", "gauge-sheets", *options)
            ruler(pixels(sheets, 1), 100 * scale)
            check_fasteners(sheets, scale)
        with open("demo/kit/containers.csv", encoding="utf-8", newline="") as file:
            containers = [row["container"] for row in csv.DictReader(file)]
        with open("demo/kit/parts.csv", encoding="utf-8", newline="") as file:
            fasteners = [row["part"] for row in csv.DictReader(file) if row["designation"]]
        check_codes(printed(folder, "bags", "bag-labels"), containers)
        check_codes(printed(folder, "sorter", "sorter-labels", "--first", "5"), fasteners)
        check_codes(printed(folder, "small", "sorter-labels", "--grid", "4x10", "--label", "45.7x25.4", "--corner",
                            "9.7x21.5", "--gap", "2.5x0"), fasteners)
        refused("--grid", "9x9")
        refused("--grid", "three")
        refused("--label", "10x10")
        refused("--first", "25")
        refused("--ruler", "50")
        refused("--box", "1")
    print("true scale on both papers, as printed and corrected; every QR code read")


main()
