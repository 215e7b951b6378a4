"""Whether an example prints what the comment at its top says, behind "Prints:".

usage: check_output.py PROGRAM SOURCE
"""
import difflib
import pathlib
import subprocess
import sys


def promised(source):
    """The comment lines between "// Prints:" and the first line that is no comment."""
    lines = pathlib.Path(source).read_text(encoding="utf-8").splitlines()
    begin = lines.index("// Prints:") + 1
    end = next(i for i in range(begin, len(lines)) if not lines[i].startswith("//"))
    return [line.removeprefix("//").removeprefix("   ").rstrip() for line in lines[begin:end]]


def main():
    program, source = sys.argv[1:]
    result = subprocess.run([program], capture_output=True, text=True, timeout=60)
    expected, found = promised(source), result.stdout.splitlines()
    print("\n".join(difflib.unified_diff(expected, found, "promised", "printed", lineterm="")))
    return 0 if found == expected and result.returncode == 0 and not result.stderr else 1


if __name__ == "__main__":
    sys.exit(main())
