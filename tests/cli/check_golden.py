"""Screens as they are, byte for byte.

usage: check_golden.py PROGRAM [--update]

Each file of golden/ is a command line after "$ heapwright", its exit code and what it prints; stderr must be empty. With --update
the files are written anew: read the difference before you commit it.
"""
import difflib
import pathlib
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
GOLDEN = pathlib.Path(__file__).resolve().parent / "golden"
PROMPT = "$ heapwright "


def run(program, command):
    return subprocess.run([program, *shlex.split(command)], cwd=ROOT, capture_output=True, text=True, timeout=60)


def screen(command, result):
    return f"{PROMPT}{command}\nexit {result.returncode}\n{result.stdout}"


def difference(path, expected, found):
    lines = difflib.unified_diff(expected.splitlines(), found.splitlines(), str(path), "now", lineterm="")
    return "\n".join(lines)


def main():
    program, update = str(pathlib.Path(sys.argv[1]).resolve()), "--update" in sys.argv
    failures = 0
    paths = sorted(GOLDEN.glob("*.txt"))
    for path in paths:
        expected = path.read_text(encoding="utf-8")
        command = expected.split("\n", 1)[0].removeprefix(PROMPT).strip()
        result = run(program, command)
        found = screen(command, result)
        too_wide = [line for line in result.stdout.splitlines() if len(line) > 80 and "--json" not in command]
        if update:
            path.write_text(found, encoding="utf-8")
        elif found != expected or result.stderr or too_wide:
            failures += 1
            print(difference(path, expected, found) or f"{path}: stderr: {result.stderr}{too_wide}")
    print(f"{len(paths) - failures} screens as expected, {failures} not")
    return 1 if failures or not paths else 0


if __name__ == "__main__":
    sys.exit(main())
