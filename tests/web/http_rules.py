#!/usr/bin/env python3
"""The server without a browser: guards, joining, acts written once, bad input, slow clients: http_rules.py KITBENCH."""
import json
import socket
import subprocess
import sys
import time

from served import Checks, Device, Served

served, check = Served(sys.argv[1]), Checks()
nobody = Device(served)


def is_error(answer, kind):
    e = answer.get("error", {}) if isinstance(answer, dict) else {}
    return e.get("kind") == kind and set(e) == {"kind", "place", "cause", "remedy", "reasons"} and e["cause"]


# Guards.
for host in ("evil.example", f"evil.example:{served.port}", "localhost", "localhost:1", "127.0.0.1.nip.example", ""):
    status, answer, _ = nobody.ask("GET", "/", headers={"Host": host})
    check.that(status in (400, 421), f"host {host!r} got {status}")
for origin in (None, "null", "http://evil.example", "http://localhost", f"https://localhost:{served.port}", f"http://localhost:{served.port}.evil.example"):
    status, answer, _ = nobody.ask("POST", "/api/join", {"code": served.code}, headers={"Origin": origin})
    check.that(status == 403 and is_error(answer, "origin"), f"origin {origin!r} got {status} {answer}")
for kind in (None, "text/plain", "application/x-www-form-urlencoded", "multipart/form-data"):
    status, answer, _ = nobody.ask("POST", "/api/join", {"code": served.code}, headers={"Content-Type": kind})
    check.that(status == 415, f"type {kind!r} got {status}")
for method in ("PUT", "DELETE", "HEAD", "OPTIONS", "PATCH"):
    check.that(nobody.ask(method, "/api/state")[0] == 405, f"{method} is answered")
status, answer, _ = nobody.ask("POST", "/api/join", raw=b"x" * 300000)
check.that(status == 413 and is_error(answer, "too_large"), f"large body got {status}")


def spoken(bytes_, wait=5.0):
    with socket.create_connection(("127.0.0.1", served.port), timeout=wait) as s:
        s.sendall(bytes_)
        try:
            return s.recv(200).split(b"\r\n")[0].decode()
        except TimeoutError:
            return "silence"


at = f"Host: {served.host}\r\nOrigin: http://{served.host}\r\nContent-Type: application/json\r\n"
for name, head in {"two lengths": "Content-Length: 2\r\nContent-Length: 3\r\n", "length and chunks": "Content-Length: 2\r\nTransfer-Encoding: chunked\r\n",
                   "chunks": "Transfer-Encoding: chunked\r\n", "two hosts": f"Host: {served.host}\r\nContent-Length: 2\r\n", "no length": ""}.items():
    line = spoken(f"POST /api/join HTTP/1.1\r\n{at}{head}\r\n{{}}".encode())
    check.that(any(f" {n} " in line for n in (400, 411, 421)), f"{name}: {line}")
check.that(" 4" in spoken(b"GET / HTTP/1.1\r\nHost: " + served.host.encode() + b"\r\nX: " + b"y" * 60000 + b"\r\n\r\n"), "a header of 60 kB")
check.that(" 400 " in spoken(b"GET / HTTP/1.1\r\n\r\n"), "no host")

# Headers of every answer.
status, page, headers = nobody.ask("GET", "/")
check.that(status == 200 and b"<main" in page, "the first page")
check.that("default-src 'none'" in headers["Content-Security-Policy"] and "unsafe" not in headers["Content-Security-Policy"], "policy")
check.that(headers["X-Content-Type-Options"] == "nosniff" and headers["Referrer-Policy"] == "no-referrer", "headers")
check.that(nobody.ask("GET", "/", headers={"If-None-Match": headers["ETag"]})[0] == 304, "not changed")
first = 0
for path in ("/", "/style.css", "/main.js", "/store.js", "/dom.js", "/words.js", "/words-de.js", "/stock.js", "/work.js", "/people.js"):
    status, data, headers = nobody.ask("GET", path, headers={"Accept-Encoding": "gzip"})
    check.that(status == 200 and headers["Content-Encoding"] == "gzip", path)
    first += len(data)
for path in ("/api/state", "/api/kit", "/api/me", "/api/live", "/api/picture/part/P1"):
    status, answer, _ = nobody.ask("GET", path)
    check.that(status == 401 and is_error(answer, "join"), f"{path} without joining: {status}")
for path in ("/../etc/passwd", "/%2e%2e/x", "/main.js/", "/j", "/api", "/pages.h"):
    check.that(nobody.ask("GET", path)[0] == 404, path)

# Joining.
for code in ("ZZZZ", "", "' OR 1=1", "A" * 300, "\u00e4\u00f6", served.code[:3]):
    status, answer, _ = nobody.ask("POST", "/api/join", {"code": code})
    check.that(status in (400, 401, 429), f"code {code!r} got {status}")
status, answer, _ = nobody.ask("POST", "/api/join", {"code": served.code})
check.that(status == 429 and is_error(answer, "join"), f"after five wrong codes even the right one waits: {status}")
served.stop()
served.start()
for code in (served.code.lower(), " ".join(served.code)):
    check.that(Device(served, code).cookie, "small letters and blanks are allowed")
phone, other, leader = Device(served, served.code), Device(served, served.code), Device(served, served.leader_code)
check.that(phone.ask("GET", "/api/me")[1]["role"] == "learner" and leader.ask("GET", "/api/me")[1]["role"] == "leader", "roles")
check.that("join_code" in leader.ask("GET", "/api/me")[1] and not phone.ask("GET", "/api/me")[1]["join_code"], "the code is the leader's to see")
check.that(Device(served).ask("GET", "/api/state", headers={"Cookie": "kitbench=" + "0" * 32})[0] == 401, "an invented token")
status, answer, _ = phone.ask("POST", "/api/sit", {"place": "table 2"})
check.that(status == 200 and answer["place"] == "table 2", answer)
check.that(phone.ask("POST", "/api/sit", {"place": "a\nb"})[0] == 400 and phone.ask("POST", "/api/sit", {"place": "x" * 61})[0] == 400, "places")

# Acts, once.
kit = phone.ask("GET", "/api/kit")[1]
row = kit["rows"][0]
count = {"in": row["in"], "line": row["line"], "usable": row["quantity"]}
status, answer = phone.act("count", once="abcdefgh-1", seen=0, **count)
check.that(status == 200 and answer["written"] and not answer["again"], answer)
before = served.journal()[0][0]
for sender in (phone, other):
    status, again = sender.act("count", once="abcdefgh-1", seen=0, **count)
    check.that(status == 200 and again["again"] and again["entry"] == answer["entry"], again)
check.that(served.journal()[0][0] == before, "the same act twice is one")
check.that(served.journal("device", "verb = 'count'") == [("table 2",)], "the table stands in the journal")
status, answer = other.act("count", seen=0, **count)
check.that(status == 409 and is_error(answer, "conflict"), f"counted meanwhile: {answer}")
check.that(other.act("count", seen=-1, **count)[0] == 200, "by decision it is written")
check.that(other.state()[f"row/{row['in']}/{row['line']}"]["times"] == 2, "two counts")

# Bad input: clear, and nothing written.
before = served.journal()[0][0]
bad = [{"usable": -1}, {"usable": "3"}, {"usable": 1.5}, {"usable": 10**12}, {"usable": None}, {"line": 0}, {"line": 9998}, {"in": "no such"}, {"in": 7}, {"in": ""},
       {"note": 5}, {"note": "x" * 501}, {"note": "a\u0007b"}, {"in_transit": "yes"}, {"seen": "no"}, {"by": "Nobody Known"}, {"by": ["P1"]}]
for wrong in bad:
    status, answer = phone.act("count", **{**count, **wrong})
    check.that(status == 400 and is_error(answer, "input"), f"{wrong}: {status} {answer}")
for once in ("short", "UPPER-CASE-1", "x" * 65, "", 5, "with blank 1"):
    check.that(phone.ask("POST", "/api/act", {"once": once, "do": "count", **count})[0] == 400, f"once {once!r}")
for raw in (b"", b"[]", b"{", b'{"a":1,"a":2}', b"\xff\xfe", b'"x"', b"[" * 5000, b'{"do":"count","once":"aaaaaaaaa\\u0000"}'):
    check.that(phone.ask("POST", "/api/act", raw=raw)[0] == 400, f"body {raw[:20]!r}")
for do in ("nothing", "COUNT", "", "count ", "drop table journal"):
    check.that(phone.act(do)[0] == 400, f"do {do!r}")
for do in ("promise", "enter", "undo_step", "set_code"):
    status, answer = phone.act(do)
    check.that(status == 403 and is_error(answer, "role"), f"{do} by a learner: {status}")
check.that(served.journal()[0][0] == before, "bad input wrote something")

# Markup stays text.
name = '<img src=x onerror=alert(1)> & "quotes"'
check.that(phone.act("find", **{"in": row["in"], "what": name, "quantity": 1})[0] == 200, "markup in a name")
check.that(any(v.get("what") == name for k, v in phone.state().items() if k.startswith("find/")), "markup comes back as it was")

# A step that needs a supervisor.
supervised = next((s for s in kit["steps"] if s["supervision"] != "room" and not s["after"]), None)
if supervised:
    status, answer = phone.act("start", step=supervised["no"], people=["P1"], confirm="P1")
    check.that(status == 409 and is_error(answer, "refused"), f"an adult's word from a shared phone: {answer}")

# The live stream: what one enters, the others see within a second.
with socket.create_connection(("127.0.0.1", served.port), timeout=10) as s:
    all_ = other.ask("GET", "/api/state")[1]
    s.sendall(f"GET /api/live?since={all_['at']} HTTP/1.1\r\nHost: {served.host}\r\nCookie: {other.cookie}\r\n\r\n".encode())
    begin, seen = time.monotonic(), b""
    phone.act("count", seen=-1, **{**count, "usable": row["quantity"] - 1})
    while b"event: change" not in seen and time.monotonic() - begin < 10:
        seen += s.recv(65536)
    check.that(f'"row/{row["in"]}/{row["line"]}"'.encode() in seen, "the change is in the stream")
# A command beside the server is seen as well.
subprocess.run([served.kitbench, "count", served.file, row["in"], str(row["line"]), str(row["quantity"] + 2)], check=True, stdout=subprocess.DEVNULL)
for _ in range(100):
    if phone.state()[f"row/{row['in']}/{row['line']}"]["extra"] == 2:
        break
    time.sleep(0.1)
check.that(phone.state()[f"row/{row['in']}/{row['line']}"]["extra"] == 2, "what a command wrote")

# A restart forgets no device, and its streams begin anew.
check.that(served.stop() == 0, "ends well on a signal")
served.start()
check.that(phone.ask("GET", "/api/me")[0] == 200, "the phone is known after a restart")
check.that(phone.act("count", once="abcdefgh-1", seen=0, **count)[1].get("again") is True, "once holds over a restart")
# Wrong starts: told in one line, exit code 2 or 3; a taken port leaves the code of the other server as it is.
def tries(*args, typed=""):
    done = subprocess.run([served.kitbench, "serve", *args], input=typed, capture_output=True, text=True, timeout=60)
    return done.returncode, done.stderr


for args, code in (((served.file, "--port", str(served.port)), 3), (("no-such.kitbench",), 2), ((served.file, "--name", "a b"), 2), ((served.file, "--tls", "cert.pem"), 2),
                   ((served.file, "--port", "99999"), 2), ((served.file, "--wifi", "X" * 33), 2), (("README.md",), 2)):
    got, told = tries(*args)
    check.that(got == code and told.count("\n") == 1, f"serve {args}: {got} {told}")
got, told = tries(served.file, "--wifi", "Club", typed="short\n")
check.that(got == 2 and "short" not in told, "a password that is none: " + told)
check.that(Device(served, served.code).cookie, "tonight's code still opens")


def qr_texts(told):
    """The QR codes of a terminal, read by another program."""
    import re
    import shutil
    import tempfile
    if not shutil.which("zbarimg"):
        return None
    texts, block = [], []
    for line in told.splitlines() + [""]:
        if re.fullmatch(r"  [\u2580\u2584\u2588 ]{20,}", line):
            block.append(line[2:])
        elif block:
            light = [[c in "\u2588\u2580" for c in b] for b in block], [[c in "\u2588\u2584" for c in b] for b in block]
            rows = [light[k % 2][k // 2] for k in range(2 * len(block))]
            with tempfile.NamedTemporaryFile(suffix=".pgm") as f:
                big = b"".join(b"".join((b"\xff" if x else b"\0") * 6 for x in r) * 6 for r in rows)
                f.write(f"P5 {6 * len(rows[0])} {6 * len(rows)} 255\n".encode() + big)
                f.flush()
                texts.append(subprocess.run(["zbarimg", "-q", "--raw", f.name], capture_output=True, text=True).stdout.strip())
            block = []
    return texts


import os
with open(os.path.join(served.folder.name, "wifi"), "w+") as log:
    lan = subprocess.Popen([served.kitbench, "serve", served.file, "--port", "0", "--lan", "--name", "workshop.test", "--wifi", "Club; A"], stdin=subprocess.PIPE, stdout=log, stderr=subprocess.DEVNULL, text=True)
    lan.stdin.write("pass:word\\1\n")
    lan.stdin.close()
    for _ in range(200):
        if "To join the Wi-Fi" in open(log.name).read():
            break
        time.sleep(0.05)
    time.sleep(0.3)
    lan.terminate()
    check.that(lan.wait(60) == 0, "ends well")
    told = open(log.name).read()
texts = qr_texts(told)
if texts is None:
    print("SKIPPED: zbarimg is not here, the QR codes were not read")
else:
    check.that(len(texts) == 2 and texts[0].startswith("http://workshop.test:") and "/j/" in texts[0], f"QR of the address: {texts}")
    check.that(texts[-1] == "WIFI:T:WPA;S:Club\\; A;P:pass\\:word\\\\1;;", f"QR of the Wi-Fi: {texts}")
print(f"first page: {first} bytes over the wire")
check.that(first < 100_000, "first page under 100 kB")
check.that(served.stop() == 0, "ends well")
check.end()
