"""The page of questions is true: every command on it is run and must print what the page shows. And every command about
the trade writes JSON whose members are all in the page about JSON, and refuses nonsense with exit code 2."""
import json
import re
import shlex
import subprocess
import sys

program, page, json_page, kit = sys.argv[1:5]
failures = 0


def run(arguments):
    done = subprocess.run([program] + arguments, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, timeout=60)
    return done.returncode, done.stdout


def complain(what):
    global failures
    failures += 1
    print(what)


def check_page():
    commands = 0
    block, command, shown = False, None, []

    def finish():
        nonlocal commands
        if command is None:
            return
        commands += 1
        _, output = run(shlex.split(command)[1:])
        wanted = "\n".join(shown).rstrip("\n")
        if output.rstrip("\n") != wanted:
            complain(f"{command}\n--- the page\n{wanted}\n--- the program\n{output}")

    for line in open(page, encoding="utf-8"):
        line = line.rstrip("\n")
        if line.startswith("```"):
            finish()
            block, command, shown = line == "```console", None, []
        elif block and line.startswith("$ "):
            finish()
            command, shown = line[2:], []
        elif block:
            shown.append(line)
    if commands < 10:
        complain(f"only {commands} commands on the page")
    print(f"{commands} commands of {page} compared")


# Each with --json: exit code 0 or 1 and a value that parses.
ANSWERED = [
    ["fastener", "DIN", "985", "M8"],
    ["fastener", "ISO", "4762", "M8x25", "--against", "ISO 4762 M8x30"],
    ["fastener", "--list"],
    ["fastener", "M8"],
    ["fastener", "M10x1"],
    ["tighten", "ISO 4762 M8x25-8.8"],
    ["tighten", "D-936", "--kit", kit],
    ["tighten", "D-912", "--kit", kit],
    ["lift", kit, "--unit", "DR"],
    ["wire", "--load", "5", "--length", "2"],
    ["wire", "--load", "10", "--length", "2", "--area", "1.5"],
    ["identify", kit, "--head", "allen", "--finish", "black"],
    ["battery", "run", "--load", "10x5; 2x20"],
    ["battery", "rest", "--voltage", "12.5", "--rested", "24"],
    ["battery", "store", "--from", "2026-10-01", "--to", "2027-10-01"],
    ["battery", "store", "--from", "2026-10-01", "--to", "2027-10-01", "--label-days", "90"],
    ["battery", "charger", "--amperes", "4", "--charge-volts", "14.4", "--float-volts", "13.7"],
    ["battery", "test", "--reached", "200", "--promised", "300"],
    ["battery", "mass"],
    ["lift", "--mass", "12"],
    ["lift", "--mass", "12", "--reach", "40"],
    ["lift", kit],
    ["lift", kit, "--unit", "machine"],
    ["battery", "rest", kit, "--voltage", "12.5", "--rested", "24"],
    ["battery", "store", kit, "--to", "2030-10-01"],
    ["battery", "mass", kit],
    ["tools", kit, "--groups", "2"],
    ["identify", kit, "--head", "cap", "--thread", "5.4", "--length", "16"],
    ["identify", kit, "--kind", "nut", "--width", "13", "--with", "caliper"],
    ["identify", kit, "M8"],
    ["identify", kit, "levleling"],
    ["identify", kit, "M8 nut", "--width", "13 mm"],
    ["identify", kit, "--kind", "screw", "--runs-with", "H1 8", "--stops-with", "D-937"],
    ["recount", kit, "--first", "5", "--second", "4", "--both", "3"],
    ["weigh", "--gross", "208", "--tare", "8", "--reference", "25", "--reference-mass", "62.5"],
    ["weigh", kit, "A1", "--gross", "1380", "--tare", "12", "--step", "1"],
]

# Exit code 2, one line that tells place and remedy.
REFUSED = [
    ["fastener", "purple"],
    ["fastener", "ISO 99999 M8"],
    ["fastener"],
    ["tighten", "ISO 4762 M8x25"],
    ["tighten", "NOPE", "--kit", kit],
    ["lift", kit, "--unit", "NOPE"],
    ["tighten", "ISO 4762 M8x25-8.8", "--joint", "plastic"],
    ["tighten", "ISO 4762 M8x25-8.8", "--condition", "wet"],
    ["tighten", "ISO 4762 M8x25-A2-70"],
    ["tighten", "ISO 4762 M20x50-8.8"],
    ["wire", "--load", "5", "--length", "nan"],
    ["wire", "--load", "5", "--length", "2", "--volts", "230"],
    ["wire", "--load", "5,5", "--length", "2"],
    ["wire", "--length", "2"],
    ["battery", "rest", "--voltage", "12.5", "--rested", "3"],
    ["battery", "rest", "--voltage", "25", "--rested", "24"],
    ["battery", "run", "--load", "500"],
    ["battery", "run", "--load", "abc"],
    ["battery", "store", "--from", "2026-13-01", "--to", "2027-10-01"],
    ["battery", "paint"],
    ["lift", "--mass", "12", "--who", "minor"],
    ["lift", "--mass", "-3"],
    ["lift", "--mass", "12", "--reach", "90"],
    ["tools", "no/such/folder"],
    ["identify", kit, "--thread", "-1"],
    ["identify", kit, "--head", "pointy"],
    ["identify", kit, "--floor", "M8"],
    ["identify", kit, "--length", "2 cm"],
    ["identify", kit, "--runs-with", "D-955"],
    ["identify", kit, "--runs-with", "Z9 4"],
    ["recount", "--rows", "10", "--recounted", "11"],
    ["recount"],
    ["weigh", "--gross", "208"],
    ["weigh", "--gross", "20008", "--tare", "8", "--reference", "25", "--reference-mass", "62.5"],
    ["weigh", kit, "A1", "--gross", "10", "--tare", "12"],
    ["weigh", kit, "NOWHERE", "--gross", "10", "--tare", "1"],
]


def documented():
    """The words in backquotes of each section of the page about JSON."""
    text = open(json_page, encoding="utf-8").read()
    sections = re.split(r"^## (.*)$", text, flags=re.M)
    return {name.strip(): {word.split("[")[0].lstrip(".").split(".")[-1] for words in re.findall(r"`([^`]*)`", body)
                           for word in words.replace("[]", "").split()}
            for name, body in zip(sections[1::2], sections[2::2])}


def members(value):
    if isinstance(value, dict):
        return set(value).union(*(members(v) for v in value.values()))
    return set().union(*(members(v) for v in value)) if isinstance(value, list) else set()


def check_json():
    sections = documented()
    for arguments in ANSWERED:
        code, output = run(arguments + ["--json"])
        try:
            value = json.loads(output)
            unknown = members(value) - sections.get(arguments[0], set()) - {"set screw", "threaded rod", "retaining ring"}
            if not isinstance(value, dict) or unknown:
                complain(f"{arguments}: no object, or not in {json_page}: {sorted(unknown)}")
        except ValueError as error:
            complain(f"{arguments}: {error}: {output[:200]}")
        if code not in (0, 1):
            complain(f"{arguments}: exit code {code}")
        code, output = run(arguments)
        wide = [line for line in output.split("\n") if len(line) > 80]
        if code not in (0, 1) or wide:
            complain(f"{arguments}: exit code {code}, lines over 80 columns: {wide[:2]}")
    for arguments in REFUSED:
        code, output = run(arguments)
        if code not in (2, 3) or not output.startswith("kitbench: ") or ";" not in output:
            complain(f"{arguments}: exit code {code}, {output[:200]}")
    print(f"{len(ANSWERED)} answers and {len(REFUSED)} refusals looked at")


check_page()
check_json()
sys.exit(1 if failures else 0)
