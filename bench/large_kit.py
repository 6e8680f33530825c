#!/usr/bin/env python3
"""Writes a large kit without faults, to measure with: large_kit.py FOLDER [ROWS] [STEPS]

Invented and regular, but with the references, orders and texts of a real one: bags of ten rows in boxes of ten bags,
steps in chains of twenty that join, two parts and two tools for each step. datapackage.json is left to
`kitbench check FOLDER --package`.
"""
import csv
import os
import sys


def write(folder, table, heading, rows):
    with open(os.path.join(folder, table + ".csv"), "w", encoding="utf-8", newline="") as file:
        out = csv.writer(file)
        out.writerow(heading.split(","))
        out.writerows(rows)


def main(folder, n_rows=5000, n_steps=500):
    os.makedirs(folder, exist_ok=True)
    lengths = [10, 12, 16, 20, 25, 30, 35, 40]
    write(folder, "kit", "kit,name,serial,revision", [("L-1", "large kit", "1", "A")])
    write(folder, "parts", "part,name,makers_numbers,designation,mass_g,note", [
        ("P%d" % i, "socket screw of lot %d, zinc plated" % i, "MN-%d; %d/7" % (i, i),
         "ISO 4762 M6x%d-8.8" % lengths[i % 8] if i % 2 else "", "%d.%d" % (i % 90 + 1, i % 10),
         'with a "quoted" remark, and a comma' if i % 5 == 0 else "") for i in range(n_rows)])
    bags, boxes = (n_rows + 9) // 10, (n_rows + 99) // 100
    write(folder, "containers", "container,name,kind,inside,gross_mass_kg",
          [("box %d" % b, "", "box", "", "") for b in range(boxes)] +
          [("B%d" % b, "bag of small parts", "bag", "box %d" % (b // 10), "") for b in range(bags)])
    used = 2 * n_steps
    write(folder, "rows", "container,line,part,quantity,unit,spare",
          [("B%d" % (i // 10), i % 10 + 1, "P%d" % i, 8, "piece", 0 if i < used else 8) for i in range(n_rows)])
    write(folder, "tools", "tool,name,kind,size", [("T%d" % i, "spanner", "ring spanner", "%d mm" % i)
                                                   for i in range(6, 36)])
    write(folder, "steps", "step,name,low_min,likely_min,high_min,people,supervision,instruction",
          [("S%d" % i, "fit unit %d" % i, 10, 20, 40, 2, "in the room", "Fit it.\nLook at the picture first.")
           for i in range(n_steps)])
    write(folder, "step_after", "step,after",
          [("S%d" % i, "S%d" % (i - 1)) for i in range(1, n_steps) if i % 20] +
          [("S%d" % i, "S%d" % (i - 20)) for i in range(20, n_steps)] +
          [("S%d" % i, "S%d" % (i // 2)) for i in range(50, n_steps)])
    write(folder, "step_effects", "step,effect,other", [("S%d" % i, "hides", "S%d" % (i - 20))
                                                        for i in range(20, n_steps)])
    write(folder, "step_parts", "step,part,quantity,tightening,torque_nm,condition,closed_by",
          [("S%d" % i, "P%d" % (2 * i), 8, "hand", "", "dry", "") for i in range(n_steps)] +
          [("S%d" % i, "P%d" % (2 * i + 1), 8, "torque", "9.5", "oiled", "") for i in range(n_steps)])
    write(folder, "step_tools", "step,tool,quantity",
          [("S%d" % i, "T%d" % (6 + (i + k) % 30), 1) for i in range(n_steps) for k in range(2)])
    write(folder, "step_tests", "step,what,unit,low,high,hold_point,signed_by",
          [("S%d" % i, "gap", "mm", "0.5", "1.25", "no", "learner") for i in range(n_steps)])


if __name__ == "__main__":
    if not 2 <= len(sys.argv) <= 4 or sys.argv[1].startswith("-"):
        sys.exit(__doc__)
    main(sys.argv[1], *map(int, sys.argv[2:4]))
