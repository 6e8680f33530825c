"""Every command in the list tells of itself in 80 columns, the two ways of asking agree, and nothing it is asked
wrongly ends in a crash: an unknown option and too many words give exit code 2, one line and a way to the help."""
import json
import subprocess
import sys

program = sys.argv[1]
failures = 0


def run(*arguments):
    done = subprocess.run([program, *arguments], stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60)
    return done.returncode, done.stdout, done.stderr


def expect(right, what):
    global failures
    if not right:
        failures += 1
        print(what)


code, everything, _ = run("--help")
expect(code == 0, f"--help ends with {code}")
commands = [line.split()[0] for line in everything.splitlines() if line.startswith("  ") and line[2:3].islower()]
expect(len(commands) >= 25, f"only {len(commands)} commands in the list")

listed = json.loads(run("help", "--json")[1])["commands"]
expect([one["command"] for one in listed] == commands, "help --json lists other commands than --help")
expect(json.loads(run("help", "wire", "--json")[1])["commands"] ==
       [one for one in listed if one["command"] == "wire"], "help wire --json is not the one of help --json")

for command in commands:
    code, text, said = run(command, "--help")
    expect(code == 0 and not said, f"{command} --help ends with {code}: {said}")
    expect(text.startswith(f"usage: kitbench {command} "), f"{command} --help begins: {text[:60]!r}")
    expect(run("help", command)[:2] == (0, text), f"help {command} says something else than {command} --help")
    for line in text.splitlines():
        expect(len(line) <= 80, f"{command} --help: {len(line)} columns: {line}")
    # A fastener's name may be of any number of words.
    for wrong in (["--no-such-option"], ["w"] * 9)[:1 if "DESIGNATION" in text.split("\n")[0] or "]..." in text.split("\n")[0] else 2]:
        code, text, said = run(command, *wrong)
        expect(code == 2 and not text, f"{command} {wrong} ends with {code}, says {text!r}")
        expect(said.count("\n") == 1 and "--help" in said, f"{command} {wrong} does not say where help is: {said!r}")
for line in everything.splitlines():
    expect(len(line) <= 80, f"--help: {len(line)} columns: {line}")

print(f"{len(commands)} commands asked, {failures} complaints")
sys.exit(failures > 0)
