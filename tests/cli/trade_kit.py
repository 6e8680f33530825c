#!/usr/bin/env python3
"""The commands about the trade on a kit and on a build file, against the kit's own tables, computed here a second time:
trade_kit.py KITBENCH KIT WORKSHOP CART. CART is a small kit whose build is played here."""
import csv
import json
import os
import subprocess
import sys
import tempfile

KITBENCH, KIT, WORKSHOP, CART = (os.path.abspath(p) for p in sys.argv[1:5])
checks = 0


def check(what, message):
    global checks
    checks += 1
    if not what:
        sys.exit(f"FAILED: {message}")


def run(*words, now="2027-04-06 18:40", codes=(0, 1)):
    done = subprocess.run([KITBENCH, *words], capture_output=True, text=True, env={**os.environ, "KITBENCH_NOW": now})
    check(done.returncode in codes, f"{words}: exit code {done.returncode}\n{done.stdout}{done.stderr}")
    check(all(len(line) <= 80 for line in done.stdout.splitlines()) or "--json" in words, f"{words}: over 80 columns")
    return done.stdout if done.returncode < 2 else done.stderr


def ask(*words, **more):
    return json.loads(run(*words, "--json", **more))


def table(folder, name):
    with open(os.path.join(folder, name + ".csv"), newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def tools():
    """One group: at once is the most that one step names or needs; the workshop's numbers are its table's."""
    named, owned = {}, {t["tool"]: int(t["quantity"]) for t in table(WORKSHOP, "tools")}
    for t in table(KIT, "step_tools"):
        named.setdefault(t["tool"], {}).setdefault(t["step"], 0)
        named[t["tool"]][t["step"]] += int(t["quantity"] or 1)
    advised = {t["tool"]: int(t["needed"] or 1) for t in table(KIT, "tools")}
    told = ask("tools", KIT, "--workshop", WORKSHOP)
    lines = {t["tool"]: t for t in told["tools"] if t["tool"]}
    for tool, line in lines.items():
        check(line["at_once"] == max(named[tool].values()), f"{tool}: {line['at_once']} at once")
        check(line["steps"] == len(named[tool]), f"{tool}: in {line['steps']} steps")
        check(line["owned"] == owned.get(tool, 0) and line["in_table"] == advised[tool], f"{tool}: owned, advised")
    spanner = next(t for t in told["tools"] if t["sort"] == "spanner" and t["size_mm"] == 13)
    check(spanner["owned"] == owned["CS-13"] + owned["SO-13"], "13 mm: spanners and sockets together")
    check(spanner["at_once"] >= max(named["CS-13"].values()), "13 mm: at least what a step names")
    check(all(t not in named for t in told["idle"]), "idle tools are named by no step")
    before = 0
    for groups in (1, 2, 3, 9):
        now = ask("tools", KIT, "--groups", str(groups))
        some = sum(t["at_once"] for t in now["tools"])
        check(some >= before, "more groups never want fewer tools")
        check(all(t["short_by"] == max(0, t["at_once"] - t["in_table"]) for t in now["tools"]), "short by")
        check(all(t["owned"] is None for t in now["tools"]), "no workshop, nothing owned")
        before = some


def lifting():
    """Each unit: parts of its steps, and what joins it; the main machine ends with all parts of all building steps."""
    mass = {p["part"]: float(p["mass_g"] or 0) for p in table(KIT, "parts")}
    steps = {s["step"]: s for s in table(KIT, "steps")}
    sums = {}
    for p in table(KIT, "step_parts"):
        sums[p["step"]] = sums.get(p["step"], 0) + mass[p["part"]] * int(p["quantity"]) / 1000
    for unit in [u["sub_assembly"] for u in table(KIT, "sub_assemblies")]:
        told = ask("lift", KIT, "--unit", unit)
        own = sum(kg for s, kg in sums.items() if steps[s]["sub_assembly"] == unit)
        joined = {j for s in told["steps"] for j in s["joins"]}
        own += sum(kg for s, kg in sums.items() if steps[s]["sub_assembly"] in joined)
        check(abs(told["steps"][-1]["mass_kg"] - own) < 1e-3, f"{unit}: {told['steps'][-1]['mass_kg']} kg, not {own}")
        for s in told["steps"]:
            alone = next((n for n, kg in ((1, 16), (2, 16 * 4 / 3), (3, 24)) if s["mass_kg"] <= kg), 0)
            turn = next((n for n, kg in ((1, 16), (2, 16 * 4 / 3), (3, 24)) if s["mass_kg"] / 2 <= kg), 0)
            fit = next((n for n, kg in ((1, 7), (2, 7 * 4 / 3), (3, 10.5)) if s["mass_kg"] <= kg), 0)
            check((s["carry"], s["turn"], s["fit"]) == (alone, turn, fit), f"{unit} {s['step']}: adults")
    machine = ask("lift", KIT, "--unit", "machine")
    everything = sum(kg for s, kg in sums.items() if steps[s]["kind"] == "build")
    check(abs(machine["steps"][-1]["mass_kg"] - everything) < 1e-2, "the machine weighs what all steps fit")
    joined = sorted(j for s in machine["steps"] for j in s["joins"])
    check(joined == sorted(set(joined)) and len(joined) >= 8, "each sub-assembly joins the machine once")


def batteries():
    label = table(KIT, "batteries")[0]
    rest = ask("battery", "rest", KIT, "--voltage", "12.28", "--rested", "14")
    check(rest["part"] == label["part"] and rest["wanted_on_arrival_v"] == float(label["arrival_low_v"]), "the label")
    store = ask("battery", "store", KIT, "--to", "2027-12-01", now="2027-03-01 10:00")
    check(store["top_ups"][0] == "2027-05-30" and store["label_days"] == 90, "90 days of the label, from today")
    season = ("battery", "store", "--from", "2026-10-01", "--to", "2028-10-01")
    check(ask(*season, "--temperature", "15")["top_ups"] == ask(*season, "--temperatures", ";".join(["15"] * 12))["top_ups"],
          "twelve equal months are one temperature")
    warm, cold = (ask(*season, "--temperatures", ";".join([t] * 5 + ["25"] * 3 + [t] * 4))["top_ups"] for t in ("18", "2"))
    check(len(cold) < len(warm), "a cold shed asks for fewer top-ups")
    too_much = str(float(label["charge_high_a"]) + 0.1)
    check(not ask("battery", "charger", KIT, "--amperes", too_much, "--charge-volts", "14.4")["suits"], "above the label")
    check(ask("battery", "charger", KIT, "--amperes", label["charge_high_a"], "--charge-volts", "14.4")["suits"], "label")
    mass = ask("battery", "mass", KIT)
    check(mass["kit_says_kg"] == 10.6 and mass["mass_kg"]["low"] < 10.6 < mass["mass_kg"]["high"], "mass within the band")
    check("several" not in run("battery", "mass", CART), "one battery needs no --part")
    check("no battery" in run("battery", "mass", KIT, "--part", "D-802", codes=(2,)), "a part that is none")


def on_the_floor(folder):
    """A piece of C-2 on the floor of the cart's build."""
    path = os.path.join(folder, "cart.kitbench")
    run("new", path, "--kit", CART)

    def sources(*words, now="2027-04-06 19:00"):
        return [(s["from"] if s["from"] != "step" else s["step"]) for s in
                ask("identify", path, "--floor", *(words or ("M6x20",)), now=now)["sources"] if s["part"] == "C-2"]

    check(sources() == ["bag"], "nothing was built: from a bag")
    run("start", path, "S1", "--by", "Comet,Otter")
    check(sources() == ["S1", "bag"], "a running step")
    run("done", path, "S1", "--minutes", "20")
    check(sources() == ["S1", "bag"], "a finished step without a signed test")
    run("test", path, "S1", "1", "0.5", "--by", "Otter", "--signed-by", "Fern", now="2027-04-06 19:05")
    signed = ask("identify", path, "--floor", "M6x20")["sources"]
    check(signed[0]["from"] == "bag" or signed[0]["chance"] < 0.9, "a signed step is less likely")
    check(next(s for s in signed if s["from"] == "step")["signed"], "it is signed")
    one = ask("identify", path, "--floor", "--length", "20", "--thread", "6")
    check(one["parts"][0]["part"] == "C-2" and one["sources"][0]["part"] == "C-2", "by what was measured")
    check(abs(sum(s["chance"] for s in one["sources"]) - 1) < 1e-3, "chances sum to one")
    run("move", path, "C-2", "1", "row", "lost")
    check(sources()[0] == "lost", "one written down as lost comes first")
    check("build file" in run("identify", KIT, "--floor", "M8", codes=(2,)), "a kit knows nothing of the work")


def build_files(folder):
    """Kit and build file give the same answers where nothing was counted or built."""
    path = os.path.join(folder, "dome.kitbench")
    run("new", path, "--kit", KIT, "--workshop", WORKSHOP)
    check(ask("lift", KIT) == ask("lift", path), "lift")
    check(ask("identify", KIT, "M8", "nut") == ask("identify", path, "M8", "nut"), "identify")
    check(ask("tools", path) == ask("tools", KIT, "--workshop", WORKSHOP), "tools know the build's workshop")
    check(ask("battery", "mass", KIT) == ask("battery", "mass", path), "battery")
    weigh = ("A1", "--gross", "1380", "--tare", "12", "--step", "1")
    check(ask("weigh", KIT, *weigh) == ask("weigh", path, *weigh), "weigh")
    check(ask("tighten", "D-936", "--kit", KIT) == ask("tighten", "D-936", "--kit", path), "tighten")
    run("compartments", path, "D-937", "tray 2, C4")
    tried = ("identify", path, "--kind", "screw", "--runs-with")
    check(ask(*tried, "TRAY 2, c4") == ask(*tried, "D-937"), "identify with the nut of a compartment")
    check("its compartment" in run(*tried, "tray 2, C5", codes=(2,)), "identify with an unknown compartment")
    check("no row was counted" in run("recount", path, codes=(2,)), "recount: nothing counted")
    run("count", path, "A1", "1", "3", "--by", "Fern")
    run("count", path, "A1", "2", "40", "--by", "Fern")
    first = ask("recount", path, "--fewer-than", "1")["first"]
    check(len(first) == 2 and {r["line"] for r in first} == {1, 2} and first[0]["differs"], "recount what was counted")


tools()
lifting()
batteries()
with tempfile.TemporaryDirectory() as scratch:
    on_the_floor(scratch)
    build_files(scratch)
print(f"{checks} checks")
