#!/usr/bin/env python3
"""Many phones count at once while all of them watch: how long does an entry take, is one lost, does memory stay flat?
web_load.py KITBENCH [SECONDS] [PHONES]. Beside it, in the same run: a bare commit of one row by SQLite, made durable."""
import os
import random
import socket
import sqlite3
import sys
import threading
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "tests", "web"))
from served import Device, Served

seconds, n = float(sys.argv[2]) if len(sys.argv) > 2 else 60, int(sys.argv[3]) if len(sys.argv) > 3 else 50
served = Served(sys.argv[1], "demo/kit", "demo/workshop")
phones = [Device(served, served.code) for _ in range(n)]
rows = phones[0].ask("GET", "/api/kit")[1]["rows"]
stop, took, heard, wrong = threading.Event(), [], [0] * n, []


def watch(i):
    with socket.create_connection(("127.0.0.1", served.port), timeout=1) as s:
        at = phones[i].state_at
        s.sendall(f"GET /api/live?since={at} HTTP/1.1\r\nHost: {served.host}\r\nCookie: {phones[i].cookie}\r\n\r\n".encode())
        while not stop.is_set():
            try:
                heard[i] += s.recv(1 << 16).count(b"event: change")
            except TimeoutError:
                pass


def count(i):
    pick = random.Random(i)
    time.sleep(pick.uniform(0, 2))
    while not stop.is_set():
        row, begin = pick.choice(rows), time.perf_counter()
        status, answer = phones[i].act("count", **{"in": row["in"], "line": row["line"], "usable": pick.randrange(row["quantity"] + 1), "seen": -1})
        took.append(time.perf_counter() - begin)
        if status != 200:
            wrong.append(answer)
        stop.wait(max(0, 2 - (time.perf_counter() - begin)))


def rss():
    return int(next(l for l in open(f"/proc/{served.process.pid}/status") if l.startswith("VmRSS")).split()[1]) / 1024


def processor():
    f = open(f"/proc/{served.process.pid}/stat").read().rsplit(")", 1)[1].split()
    return (int(f[11]) + int(f[12])) / os.sysconf("SC_CLK_TCK")


for p in phones:
    p.state_at = p.ask("GET", "/api/state")[1]["at"]
threads = [threading.Thread(target=f, args=(i,)) for i in range(n) for f in (watch, count)]
for t in threads:
    t.start()
db = sqlite3.connect(os.path.join(served.folder.name, "bare.db"), isolation_level=None)
db.execute("PRAGMA synchronous=FULL")
db.execute("CREATE TABLE t (a)")
bare, memory, before, end = [], [], processor(), time.monotonic() + seconds
while time.monotonic() < end:
    begin = time.perf_counter()
    db.execute("INSERT INTO t VALUES (1)")
    bare.append(time.perf_counter() - begin)
    memory.append(rss())
    time.sleep(0.2)
used = processor() - before
stop.set()
for t in threads:
    t.join()
at = lambda list_, share: 1000 * sorted(list_)[int(share * (len(list_) - 1))]
written = served.journal("count(*)", "verb = 'count'")[0][0]
print(f"{n} phones, {seconds:.0f} s: {len(took)} counts answered, {written} in the journal, {len(wrong)} refused, {min(heard)} to {max(heard)} changes heard")
print(f"an entry: half under {at(took, .5):.1f} ms, 99 of 100 under {at(took, .99):.1f} ms; a bare commit: {at(bare, .5):.1f} and {at(bare, .99):.1f} ms; aim: {10 + 4 * at(bare, .99):.1f} ms")
print(f"memory: {memory[0]:.1f} MB at first, {max(memory):.1f} at most, {memory[-1]:.1f} at the end; processor time {100 * used / seconds:.0f} % of one core")
served.stop()
raise SystemExit(written != len(took) or bool(wrong))
