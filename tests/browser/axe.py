#!/usr/bin/env python3
"""Every page, light and dark, small and large, against axe-core's rules for WCAG 2.2 A and AA: axe.py KITBENCH.
axe-core is looked for in node_modules (npm install --no-save axe-core) or at $KITBENCH_AXE."""
import os
import time

from phones import NAME, SKIP, Phone, sys
from served import Checks, Device, Served

path = os.environ.get("KITBENCH_AXE", "node_modules/axe-core/axe.min.js")
if not os.path.exists(path):
    print("SKIPPED: axe-core is not here")
    sys.exit(SKIP)
axe = open(path, encoding="utf-8").read()
served, check = Served(sys.argv[1], "demo/kit", "demo/workshop", ["--name", NAME]), Checks()
leader = Device(served, served.leader_code)
leader.act("all_here", **{"in": "A1"})
leader.act("count", **{"in": "A2", "line": 1, "usable": 1, "damaged": 2, "seen": 0})
leader.act("find", **{"in": "A2", "what": "a knob", "quantity": 1})
PAGES = ["", "boxes", "box/A2", "row/A1/2", "row/B1/1", "find/nut", "part/D-935", "missing", "work", "step/S02", "step/S20", "plan", "release", "closing", "batteries", "crew", "me", "more", "recent", "waiting", "scale", "quick"]
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
RUN = """const done = arguments[arguments.length - 1];
axe.run(document, {runOnly: arguments[0]}).then(r => done([r.passes.length, r.violations.map(v => v.id + ': ' + v.nodes.slice(0, 2).map(n => n.html.slice(0, 100) + ' ' + (n.any[0]?.message ?? '')).join(' | '))]))"""


def look(p, what):
    passed, found = p.d.execute_async_script(RUN, TAGS)
    check.that(passed >= 10, f"{what}: only {passed} rules had something to look at")
    check.that(not found, f"{what}: {found}")


for dark in (False, True):
    p = Phone(served, served.leader_code, size=(360, 740), dark=dark)
    for width in (360, 1280):
        p.size(width, 800)
        for page in PAGES:
            p.go(page)
            time.sleep(0.2)
            p.js("for (const d of document.querySelectorAll('main details')) d.open = true")
            p.js(axe)
            look(p, f"{page or 'where'} {width} {'dark' if dark else 'light'}")
    # The rules do find something where something is wrong.
    p.js("const i = document.createElement('img'); i.src = 'data:,'; document.querySelector('main').append(i)")
    check.that(p.d.execute_async_script(RUN, TAGS)[1], "a picture without words is not found")
    p.close()
p = Phone(served)
for page in ("/", "/hello"):
    p.open(page)
    time.sleep(1)
    p.js(axe)
    look(p, page)
p.close()
served.stop()
check.end()
