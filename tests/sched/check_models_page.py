#!/usr/bin/env python3
"""docs/models.md names only what is there: every `file.c` or `file.h`, every `name()` and every table's key is looked for."""
import glob
import os
import re
import sys

root = sys.argv[1]
with open(os.path.join(root, "docs", "models.md"), encoding="utf-8") as f:
    page = f.read()
code = {os.path.basename(p): open(p, encoding="utf-8").read() for p in glob.glob(os.path.join(root, "src", "sched", "*.[ch]"))}
reader = open(os.path.join(root, "src", "cli", "solve_json.c"), encoding="utf-8").read()
missing = []
for name in re.findall(r"`([a-z_*]+\.[ch])`", page):
    if name != "prop_NAME.c" and not glob.glob(os.path.join(root, "src", "sched", name)):
        missing.append(name)
for name in re.findall(r"`([a-z_]+)\(\)`", page) + re.findall(r"`(past|bound|round_up|why_kind)", page):
    if not any(re.search(r"\b%s\b" % name, text) for text in code.values()):
        missing.append(name)
keys = set(re.findall(r'"([a-z_]+)"', reader[reader.index("look_at_keys"):reader.index("The relation \"before")]))
form = page[page.index("## The JSON form"):]
missing += sorted("key " + k for k in keys if "`%s`" % k not in form)
named = [x for row in re.findall(r"^\| (`[^|]+) \|", form, re.M) for x in re.findall(r"`([a-z_]+)`", row)]
missing += sorted("unread key " + k for k in named if k not in keys)
print("missing: " + ", ".join(missing) if missing else "all there: %d keys" % len(keys))
sys.exit(bool(missing) or len(keys) < 15)
