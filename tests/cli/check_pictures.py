"""The pictures of the README are of the program as it is: the chart and the handout that they were made from, byte for byte.

usage: check_pictures.py PROGRAM

Where it fails: examples/make_pictures.sh build/heapwright
"""
import pathlib
import re
import subprocess
import sys
import tempfile

EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
PICTURES = EXAMPLES / "pictures"


def page_of(program, folder, *options):
    path = pathlib.Path(folder) / "page.html"
    subprocess.run([program, "plan", "quarter-acre.toml", "--today", "2026-10-24", "--html", str(path), "--force", *options], cwd=EXAMPLES,
                   check=True, capture_output=True, timeout=120)
    return path.read_text(encoding="utf-8")


def main(program):
    program = str(pathlib.Path(program).resolve())
    failures = []
    with tempfile.TemporaryDirectory() as folder:
        if page_of(program, folder, "--base", "office.toml") != (PICTURES / "handout.html").read_text(encoding="utf-8"):
            failures.append("the handout is another by now")
        if (PICTURES / "temperature.svg").read_text(encoding="utf-8") not in page_of(program, folder, "--all"):
            failures.append("the chart is another by now")
    readme = (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")
    failures += [f"{name} is not there" for name in re.findall(r"examples/pictures/[\w.-]+", readme) if not (EXAMPLES.parent / name).exists()]
    print("\n".join(failures + [f"pictures: {len(failures)} failures; make them anew with examples/make_pictures.sh" if failures else "pictures: as the program draws them"]))
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
