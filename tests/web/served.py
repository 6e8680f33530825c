"""served.py: a build that is being served, for the tests of the pages."""
import http.client
import json
import os
import re
import signal
import socket
import subprocess
import tempfile
import time


class Served:
    """The hand cart of tests/support (or another kit), served on a port of its own."""

    def __init__(self, kitbench, kit="tests/support/cart", workshop="tests/support/cart-crew", args=()):
        self.kitbench = os.path.abspath(kitbench)
        self.folder = tempfile.TemporaryDirectory()
        self.file = os.path.join(self.folder.name, "build.kitbench")
        self.args = list(args)
        subprocess.run([self.kitbench, "new", self.file, "--kit", kit, "--workshop", workshop], check=True,
                       stdout=subprocess.DEVNULL)
        self.port = 0
        self.start()

    def start(self):
        self.log = open(os.path.join(self.folder.name, "log"), "w+")
        self.process = subprocess.Popen([self.kitbench, "serve", self.file, "--port", str(self.port), *self.args],
                                        stdout=self.log, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL)
        for _ in range(300):
            told = open(self.log.name).read()
            leader = re.search(r"http://localhost:(\d+)/j/(\w{10})", told)
            code = re.search(r"code (?:to join: | )?\s*(\w{4})\b", told)
            if leader and code:
                break
            if self.process.poll() is not None:
                raise SystemExit("the server ended at once: " + told)
            time.sleep(0.1)
        self.port, self.leader_code, self.code = int(leader[1]), leader[2], code[1]
        self.host = f"localhost:{self.port}"

    def stop(self):
        self.process.send_signal(signal.SIGTERM)
        return self.process.wait(60)

    def kill(self):
        self.process.kill()
        self.process.wait(60)

    def told(self):
        return open(self.log.name).read()

    def journal(self, what="count(*)", where="1"):
        import sqlite3
        with sqlite3.connect(f"file:{self.file}?mode=ro", uri=True, timeout=20) as db:
            return db.execute(f"SELECT {what} FROM journal WHERE {where}").fetchall()


class Device:
    """A phone: one keep-alive connection and its cookie."""

    def __init__(self, served, code=None, person=None):
        self.served, self.cookie, self.connection, self.n = served, None, None, 0
        self.name = os.urandom(6).hex()
        if code:
            status, answer, headers = self.ask("POST", "/api/join", {"code": code, **({"person": person} if person else {})})
            assert status == 200, answer
            self.cookie = headers["Set-Cookie"].split(";")[0]

    def ask(self, method, path, body=None, headers=None, raw=None):
        mine = {"Host": self.served.host, "Origin": "http://" + self.served.host, "Content-Type": "application/json"}
        if method == "GET":
            mine = {"Host": self.served.host}
        if self.cookie:
            mine["Cookie"] = self.cookie
        mine.update(headers or {})
        mine = {k: v for k, v in mine.items() if v is not None}
        sent = raw if raw is not None else json.dumps(body).encode() if body is not None else None
        for attempt in range(2):
            try:
                if not self.connection:
                    self.connection = http.client.HTTPConnection("127.0.0.1", self.served.port, timeout=30)
                    self.connection.connect()
                    self.connection.sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
                self.connection.request(method, path, sent, mine)
                answer = self.connection.getresponse()
                break
            except (http.client.RemoteDisconnected, ConnectionResetError, BrokenPipeError):
                self.connection = None # an idle connection was closed
                if attempt:
                    raise
        data = answer.read()
        if answer.headers.get("Connection") == "close":
            self.connection.close()
            self.connection = None
        is_json = answer.headers.get("Content-Type") == "application/json" and answer.headers.get("Content-Encoding") is None
        return answer.status, json.loads(data) if is_json and data else data, answer.headers

    def act(self, do, once=None, **fields):
        self.n += 1
        return self.ask("POST", "/api/act", {"once": once or f"{self.name}-{self.n:06d}", "do": do, **fields})[:2]

    def state(self):
        return self.ask("GET", "/api/state")[1]["set"]


class Checks:
    """Counts what was checked, and tells what was not as it must be."""

    def __init__(self):
        self.n, self.wrong = 0, []

    def that(self, ok, what):
        self.n += 1
        if not ok:
            self.wrong.append(str(what))
            print("WRONG:", what, flush=True)

    def end(self):
        print(f"{self.n} checks, {len(self.wrong)} wrong")
        raise SystemExit(1 if self.wrong else 0)
