"""The Debian package is built from what is committed, lintian has nothing to say, and what it installs works without
the tree: version, demo kit, man page. Skipped where debhelper or lintian is not installed."""
import os
import shutil
import subprocess
import sys
import tempfile

root = sys.argv[1]


def run(*arguments, **how):
    return subprocess.run(arguments, capture_output=True, text=True, check=True, **how).stdout


if not (shutil.which("dh") and shutil.which("lintian")):
    print("skipped: debhelper and lintian are not installed")
    sys.exit(77)
made = run("scripts/package", cwd=root).split()[-1]
package = os.path.join(root, made)
said = subprocess.run(["lintian", "--allow-root", "--fail-on", "error,warning,info", package],
                      capture_output=True, text=True)
assert said.returncode == 0, said.stdout + said.stderr
with tempfile.TemporaryDirectory() as folder:
    run("dpkg-deb", "-x", package, folder)
    program = f"{folder}/usr/bin/kitbench"
    documents = f"{folder}/usr/share/doc/kitbench"
    assert run(program, "--version").startswith("kitbench ")
    run(program, "check", f"{documents}/examples/demo/kit", "--workshop", f"{documents}/examples/demo/workshop")
    assert os.path.exists(f"{documents}/docs/kit-format.md")
    assert os.path.exists(f"{folder}/usr/share/man/man1/kitbench.1.gz")
print("the package is in order")
