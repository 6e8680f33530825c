#!/usr/bin/env python3
"""docs/openapi.json against what the server really answers, act by act: openapi.py KITBENCH docs/openapi.json src/web/acts.c."""
import base64
import json
import re
import sys

import jsonschema

from served import Checks, Device, Served

document = json.load(open(sys.argv[2], encoding="utf-8"))
check = Checks()


def schema_of(schema):
    return {**schema, "components": document["components"], "$schema": "https://json-schema.org/draft/2020-12/schema"}


def fits(value, schema, what):
    faults = [f"{list(e.path)}: {e.message[:160]}" for e in jsonschema.Draft202012Validator(schema_of(schema)).iter_errors(value)]
    check.that(not faults, f"{what}: {faults[:3]}")


for name, schema in document["components"]["schemas"].items():
    jsonschema.Draft202012Validator.check_schema(schema)

# The words of the document are the words of the program.
words = set(re.findall(r'\{"(\w+)", act_', open(sys.argv[3], encoding="utf-8").read()))
check.that(words == set(document["components"]["schemas"]["Act"]["discriminator"]["mapping"]), "the acts are those of acts.c")

served = Served(sys.argv[1])
phone, leader = Device(served, served.code), Device(served, served.leader_code)


def asked(device, method, path, at=None, body=None):
    status, answer, _ = device.ask(method, path, body)
    how = document["paths"][at or path][method.lower()]
    if body is not None and status == 200:
        fits(body, how["requestBody"]["content"]["application/json"]["schema"], f"request of {path} {body.get('do', '')}")
    check.that(str(status) in how["responses"], f"{path} answers {status}")
    response = how["responses"].get(str(status), {})
    if "$ref" in response:
        response = document["components"]["responses"][response["$ref"].rsplit("/", 1)[1]]
    if "application/json" in response.get("content", {}):
        fits(answer, response["content"]["application/json"]["schema"], f"{method} {path} {body and body.get('do') or ''} {status}")
    return status, answer


def act(device, do, expect=200, **fields):
    device.n += 1
    status, answer = asked(device, "POST", "/api/act", body={"do": do, "once": f"{device.name}-{device.n:05d}", **fields})
    check.that(status == expect, f"{do} {fields}: {status} {answer}")
    return answer


for device in (phone, leader):
    for path in ("/api/me", "/api/kit", "/api/state"):
        check.that(asked(device, "GET", path)[0] == 200, path)
asked(phone, "POST", "/api/sit", body={"place": "bench"})
asked(Device(served), "POST", "/api/join", body={"code": "WRON"})
asked(Device(served), "GET", "/api/state")
kit = phone.ask("GET", "/api/kit")[1]
crew = {k[5:]: v for k, v in phone.state().items() if k.startswith("crew/")}
adult = next(k for k, v in crew.items() if v["adult"] and v["leader"])
learner = next(k for k, v in crew.items() if not v["adult"])
row, box = kit["rows"][0], next(c["no"] for c in kit["containers"] if c["box"])
place = {"in": row["in"], "line": row["line"]}
photo = base64.b64encode(bytes.fromhex("89504e470d0a1a0a0000000d494844520000000100000001080600000 01f15c4890000000d49444154789c6360606060000000050001a5f645400000000049454e44ae426082".replace(" ", ""))).decode()

act(phone, "receive", **{"in": box, "mass_g": 12000, "damage": "dent"})
act(phone, "take", **{"in": row["in"], "people": [learner]})
act(phone, "count", **place, usable=max(row["quantity"] - 1, 0), damaged=0, seen=0, note="once", by=learner)
act(phone, "count", expect=409, **place, usable=1, seen=0)
act(phone, "count", expect=400, **place, usable=-1)
act(phone, "count_again", **place, usable=row["quantity"], by=adult)
for device, sees in ((leader, True), (phone, False)):  # whether two counts agree is for the leader alone
    check.that(any(k.startswith("second/") for k in device.state()) == sees, f"second counts are the leader's to see: {sees}")
act(phone, "find", **{"in": row["in"], "what": "a knob", "quantity": 2, "photo": photo})
found = next(k[5:] for k in phone.state() if k.startswith("find/"))
status, picture, headers = phone.ask("GET", f"/api/picture/photo/{found}")
check.that(status == 200 and picture.startswith(b"\x89PNG") and headers["Content-Type"] == "image/png", f"the photo: {status}")
act(phone, "find", expect=400, **{"in": row["in"], "what": "x", "quantity": 1, "photo": "bm90IGEgcGljdHVyZQ=="})
act(phone, "bring_back", **{"in": row["in"]})
act(leader, "report_sent", note="by mail")
act(leader, "promise", part=row["part"], quantity=1, day="2099-01-05", instead=True)
act(phone, "promise", expect=403, part=row["part"], quantity=1, day="2099-01-05")
act(phone, "arrive", part=row["part"], usable=1, damaged=0)
act(phone, "label", part=row["part"], label="tray 1, A1")
act(phone, "all_here", **{"in": box})
act(leader, "enter", expect=409, entry="nonsense without end")
tools = [k[5:] for k in phone.state() if k.startswith("tool/")]
act(phone, "tools", tools=[{"tool": tools[0], "quantity": 1}])
act(leader, "set_code", person=adult, code="4931")
act(leader, "add_person", name="Newt", adult=False)
act(leader, "attend", session=1, person=learner, comes=False)
act(leader, "cancel_session", session=1, cancelled=True)
act(leader, "cancel_session", session=1, cancelled=False)
act(leader, "add_sessions", rule="Tuesdays 18:30 to 20:30, 5 September 2028 to 19 September 2028", expect=200)
act(phone, "undo", entry=next(int(k[6:]) for k, v in phone.state().items() if k.startswith("entry/") and v["do"] == "label"))
first = kit["steps"][0]
act(phone, "start", expect=409, step=kit["steps"][-1]["no"], people=[])
act(phone, "block", step=first["no"], reason="no light")
act(phone, "finish", expect=409, step=first["no"])
act(phone, "close", missing="")
for part in kit["parts"]:
    if part["designation"]:
        asked(phone, "GET", f"/api/picture/part/{part['no']}", "/api/picture/part/{part}")
asked(phone, "GET", f"/api/undoing/{first['no']}", "/api/undoing/{step}")
asked(phone, "GET", "/api/undoing/nothing", "/api/undoing/{step}")
asked(phone, "GET", "/api/picture/part/nothing", "/api/picture/part/{part}")
asked(leader, "GET", "/api/state")
served.stop()
check.end()
