"""The man page and bash's completion hold every command and option of the table; groff and bash find no fault in
them (skipped where there is no man)."""
import json
import shutil
import subprocess
import sys
import tempfile

program = sys.argv[1]


def run(*arguments, stdin=None):
    return subprocess.run(arguments, input=stdin, capture_output=True, text=True, check=True, timeout=60)


def offered(script, *words):
    """What bash offers for the last of the words."""
    typed = " ".join(f"'{word}'" for word in words)
    ask = f"source {script}; COMP_WORDS=({typed}); COMP_CWORD={len(words) - 1}; compopt() {{ :; }}; _kitbench\n"
    return run("bash", "-c", ask + 'printf "%s\\n" "${COMPREPLY[@]}"').stdout.split()


def main():
    commands = json.loads(run(program, "help", "--json").stdout)["commands"]
    assert len(commands) > 25

    page = run(program, "help", "--manual").stdout
    plain = page.replace("\\-", "-")
    for one in commands:
        assert f"\n.SS kitbench {one['command']} " in plain, one["command"]
        for option in one["options"]:
            assert f"--{option['name']}\\fR" in plain, option["name"]
    if shutil.which("man"):
        with tempfile.NamedTemporaryFile("w", suffix=".1") as file:
            file.write(page)
            file.flush()
            said = subprocess.run(["man", "--warnings", "-E", "UTF-8", "-l", file.name], capture_output=True, text=True)
        assert said.returncode == 0 and not said.stderr, said.stderr
        for one in commands:
            assert f"kitbench {one['command']}" in said.stdout, one["command"]

    with tempfile.NamedTemporaryFile("w", suffix=".bash") as file:
        file.write(run(program, "help", "--completion").stdout)
        file.flush()
        assert offered(file.name, "kitbench", "whati") == ["whatif"]
        assert offered(file.name, "kitbench", "help", "tigh") == ["tighten"]
        assert sorted(offered(file.name, "kitbench", "")) == sorted(
            [one["command"] for one in commands] + ["--help", "--version"])
        for one in commands:
            expected = [f"--{option['name']}" for option in one["options"]] + ["--json", "--help"]
            assert offered(file.name, "kitbench", one["command"], "--") == expected, one["command"]
    print(f"{len(commands)} commands in the man page and the completion")


main()
