#!/usr/bin/env python3
"""The server is killed at random moments under load; no acknowledged change may be missing, none doubled:
kills.py KITBENCH KILLS [SEED]."""
import http.client
import random
import sys
import threading
import time

from served import Checks, Device, Served

PHONES = 6
kills, seed = int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 1
chance, check = random.Random(seed), Checks()
served = Served(sys.argv[1])
phones = [Device(served, served.code) for _ in range(PHONES)]
rows = phones[0].ask("GET", "/api/kit")[1]["rows"]
acknowledged = [{} for _ in phones]  # name of the act -> entry
sent = [set() for _ in phones]
open_act = [None] * PHONES


def enter(i, stop):
    """One phone: counts on, and sends the act it was not answered again, as the pages do."""
    phone = phones[i]
    pick = random.Random(seed * 1000 + i + len(sent[i]))
    while not stop.is_set():
        if not open_act[i]:
            row = pick.choice(rows)
            open_act[i] = {"do": "count", "once": f"{phone.name}-{len(sent[i]):06d}", "in": row["in"], "line": row["line"],
                           "usable": pick.randrange(row["quantity"] + 2), "seen": -1}
            sent[i].add(open_act[i]["once"])
        try:
            status, answer, _ = phone.ask("POST", "/api/act", open_act[i])
        except (OSError, http.client.HTTPException):
            phone.connection = None
            time.sleep(0.01)
            continue
        if status != 200:
            check.that(status == 503, f"{status} {answer}")
            continue
        acknowledged[i][open_act[i]["once"]] = answer["entry"]
        open_act[i] = None


def run(seconds, kill):
    stop = threading.Event()
    threads = [threading.Thread(target=enter, args=(i, stop)) for i in range(PHONES)]
    for t in threads:
        t.start()
    time.sleep(seconds)
    if kill:
        served.kill()
    stop.set()
    for t in threads:
        t.join()


for k in range(kills):
    run(chance.uniform(0.02, 0.25), True)
    served.start()
run(0.5, False)
while any(open_act):  # what was not answered is sent until it is
    run(0.1, False)
written = dict(served.journal("once, act", "once IS NOT NULL"))
rows_written = served.journal("count(*)", "once IS NOT NULL")[0][0]
for i in range(PHONES):
    for once, entry in acknowledged[i].items():
        check.that(written.get(once) == entry, f"{once}: acknowledged as {entry}, in the journal {written.get(once)}")
total = sum(len(s) for s in sent)
check.that(rows_written == len(written) == total, f"{total} acts, {rows_written} in the journal, {len(written)} names")
check.that(total > kills, f"only {total} acts in {kills} kills: that is no load")
check.that(served.stop() == 0, "ends well")
print(f"{kills} kills, {total} acts, {sum(len(a) for a in acknowledged)} acknowledged")
check.end()
