#!/usr/bin/env python3
"""One thing that must not compile, and its twin that must.

    check.py CASE.cpp COMPILER [FLAG ...]

CASE.cpp has both halves: MUST_NOT_COMPILE defined gives the mistake, undefined the twin that
is right. Its line `// expect: REGEX` says what one of the compiler's errors must match, so that the mistake is
refused for its own reason and not for a misspelt include.
"""
import os
import re
import subprocess
import sys


def start(command):
    environment = {**os.environ, "LC_ALL": "C"}  # plain quotes and English in the errors
    return subprocess.Popen(command, stderr=subprocess.PIPE, text=True, errors="replace", env=environment)


def main(case, compiler, *flags):
    with open(case, encoding="utf-8") as file:
        expected = re.findall(r"^// expect: (.+)$", file.read(), re.MULTILINE)
    if len(expected) != 1:
        return f"{case}: wants one line '// expect: REGEX'"

    command = [compiler, "-fsyntax-only", *flags, case]
    mistake = start(command + ["-DMUST_NOT_COMPILE"])
    twin = start(command)
    mistake_says = mistake.communicate()[1]
    twin_says = twin.communicate()[1]

    if twin.returncode != 0:
        return f"{case}: the twin must compile and does not:\n{twin_says}"
    if mistake.returncode == 0:
        return f"{case}: compiles and must not"
    errors = [line for line in mistake_says.splitlines() if "error:" in line]
    if not any(re.search(expected[0], error) for error in errors):
        return f"{case}: refused, but by no error that matches\n  {expected[0]}\n{mistake_says}"
    return None


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
