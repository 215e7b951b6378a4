"""What the documents say is so. README.md: each command runs, what is shown of its screen is its screen, each piece of a file is read, each
option and file exists. lib/heapwright/README.md: each function stands in the header named with it, each source in the tables with its
mark, and its example by hand comes to what the program answers.

usage: check_documents.py PROGRAM
"""
import json
import math
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import tomllib

from arithmetic import Checks

ROOT = pathlib.Path(__file__).resolve().parents[2]
LIBRARY = ROOT / "lib" / "heapwright"
DOCUMENTS = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *LIBRARY.rglob("README.md")]
TODAY = ["--today", "2026-11-22"]  # of the examples' log
ESTIMATED = {"trees": "leaves", "people": "kitchen scraps", "mown_lawn": "grass clippings", "pile": "leaves"}


def blocks_of(text):
    """Each indented block of a document, without its indentation."""
    return [re.sub("(?m)^ {4}", "", found).strip("\n") for found in re.findall(r"(?:^ {4}.*\n(?:\n(?= {4}))*)+", text, re.M)]


OTHERS = ("sudo ", "(cd ")  # blocks of commands that are not ours, which tests/consumer and whoever makes a version run


def words_of(line):
    """A command line without the comment behind it."""
    return shlex.split(line, comments=True)[1:]


class Readme:
    def __init__(self, program, folder, check):
        self.program, self.folder, self.check = program, folder, check
        shutil.copytree(ROOT / "examples", folder / "examples")
        shutil.copy(ROOT / "examples" / "quarter-acre.toml", folder / "my-yard.toml")

    def run(self, *words, typed=""):
        return subprocess.run([self.program, *words], cwd=self.folder, input=typed, capture_output=True, text=True, timeout=120)

    def runs(self, line):
        """A command without its screen: it answers, if only that there is no answer within the limits."""
        words = words_of(line)
        if words[0] == "new":  # a terminal asks; Enter takes each default
            (self.folder / words[1]).unlink()
            result = self.run(*words, *TODAY, "--ask", typed="\n" * 40)
        else:
            result = self.run(*words, *TODAY)
        self.check(result.returncode in (0, 1), f"{line}: exit {result.returncode}: {result.stderr}")
        for option, file in zip(words, words[1:]):
            if option in ("--html", "--calendar", "--order-sheet", "--new", "--into"):
                self.check((self.folder / file).exists(), f"{line}: makes no {file}")

    def shows(self, line, shown):
        """A command with its screen, or lines of it with "..." between."""
        screen = self.run(*words_of(line.removeprefix("$ "))).stdout.splitlines()
        at = 0
        for part in "\n".join(shown).strip("\n").split("\n...\n"):
            lines = part.removeprefix("...\n").split("\n")
            found = [i for i in range(at, len(screen)) if screen[i:i + len(lines)] == lines]
            self.check(found, f"{line}: shows no longer\n{part}")
            at = found[0] + len(lines) if found else at

    def reads(self, text):
        """A piece of a yard file."""
        if text.startswith("estimate"):
            lines = text.splitlines()
            text = "".join(f'[[supply]]\nfeedstock = "{ESTIMATED[re.search(r"{ (.*?) =", line).group(1)]}"\n{line}\n' for line in lines[:-1]) + lines[-1]
        if not text.startswith("[[supply]]\nfeedstock = \"leaves\"\namount"):
            text += '\n[[lawn.zone]]\nname = "front"\nshape = "area"\narea = "14000 ft2"\n'
        (self.folder / "piece.toml").write_text(text, encoding="utf-8")
        result = self.run("load", "piece.toml")
        self.check(result.returncode == 0, f"not read:\n{text}\n{result.stderr}")

    def log(self, text):
        (self.folder / "log.csv").write_text(text + "\n", encoding="utf-8")
        result = self.run("readings", "examples/quarter-acre.toml", "--log", "log.csv", *TODAY)
        self.check(result.returncode == 0, f"not read:\n{text}\n{result.stderr}")

    def columns(self, text):
        (self.folder / "base.toml").write_text(text + "\n", encoding="utf-8")
        headings = ",".join(f'"{heading}"' for heading in tomllib.loads(text)["columns"])
        (self.folder / "form.csv").write_text(f"household,{headings}\n1,3\n", encoding="utf-8")
        result = self.run("workshop", "form.csv", "--base", "base.toml", "--into", "class", "--json")
        self.check(result.returncode == 0 and not json.loads(result.stdout)["unknown_columns"], f"not read:\n{text}\n{result.stdout}{result.stderr}")

    def code(self, text):
        """C++ is of the example, line for line; CMake stands above it."""
        example = (ROOT / "examples" / "yard_forecast.cpp").read_text(encoding="utf-8")
        for line in re.sub(r" *//.*", "", text[text.index("#include"):]).splitlines():
            self.check(line.strip() in example, f"examples/yard_forecast.cpp has no line {line.strip()}")
        for header in re.findall(r"#include <(heapwright/.*?)>", text):
            self.check((ROOT / "lib" / header).exists(), f"there is no {header}")
        headers = "".join(path.read_text(encoding="utf-8") for path in LIBRARY.rglob("*.hpp"))
        for name in set(re.findall(r"(\w+)\(", re.sub(r"//.*|^(find_package|target_link_libraries).*", "", text, flags=re.M))) - {"for"}:
            self.check(re.search(rf"\b{name}\(", headers), f"the library has no {name}()")

    def block(self, text):
        lines = text.splitlines()
        first = lines[0]
        if first.startswith("$ heapwright "):
            self.shows(first, lines[1:])
        elif first.startswith("heapwright "):
            for line in filter(None, lines):
                self.runs(line)
        elif first.startswith(OTHERS):
            return
        elif first.startswith("./"):
            for line in lines:
                self.check((ROOT / line.split()[0]).exists(), f"there is no {line}")
        elif first.startswith("[columns]"):
            self.columns(text)
        elif first.startswith(("[", "estimate")):
            self.reads(text)
        elif first.startswith("time,"):
            self.log(text)
        else:
            self.check(first.startswith("find_package"), f"a block that this test does not know: {first}")
            self.code(text)


def check_readme(program, check):
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        readme = Readme(program, pathlib.Path(folder), check)
        for block in blocks_of(text):
            readme.block(block)
        commands = re.findall(r"^  (\w+) ", readme.run("--help").stdout.split("Subcommands:")[1], re.M)
        helps = "".join(readme.run(command, "--help").stdout for command in commands)
    ours = re.sub(rf"(?m)^ {{4}}({'|'.join(map(re.escape, OTHERS))}).*", "", text)
    for option in sorted(set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", ours))):
        check(re.search(rf"{option}\b", helps), f"README.md: no command has {option}")


def check_files(check):
    """Each file that a document names stands somewhere under a name that ends so."""
    files = ["/" + str(path.relative_to(ROOT)) for path in ROOT.rglob("*") if "build" not in path.relative_to(ROOT).parts and path.is_file()]
    for document in DOCUMENTS:
        for quoted in re.findall(r"`([^`\s]+)`", document.read_text(encoding="utf-8")):
            if not re.fullmatch(r"[\w./-]+\.(hpp|cpp|py|toml|tsv|csv|sh|md|txt)", quoted) or quoted.startswith("my-"):
                continue
            made = quoted in ("answers.csv", "daily.csv", "roster.csv")  # by a command, or by its user
            check(made or any(file.endswith("/" + quoted) for file in files), f"{document.relative_to(ROOT)}: there is no {quoted}")


def marks_of(tables):
    """Each source of the tables with the marks of what goes by it."""
    marks = {}

    def look(at):
        if isinstance(at, dict):
            if "source" in at and "evidence" in at:
                marks.setdefault(at["source"], set()).add(at["evidence"])
            at = list(at.values())
        for inner in at if isinstance(at, list) else []:
            look(inner)

    for table in tables:
        look(tomllib.loads(table.read_text(encoding="utf-8")))
    return marks


def check_functions_and_sources(text, check):
    for paragraph in re.split(r"\n\s*\n", text):
        headers = [LIBRARY / name for name in re.findall(r"`([\w/]+\.hpp)`", paragraph)]
        declared = "".join(header.read_text(encoding="utf-8") for header in headers if header.exists())
        for name in re.findall(r"`(\w+)\(\)`", paragraph):
            check(re.search(rf"\b{name}\(", declared), f"{name}() stands in none of the headers of its paragraph")
    known = {source["id"] for source in tomllib.loads((ROOT / "materials" / "sources.toml").read_text(encoding="utf-8"))["source"]}
    marks = marks_of((ROOT / "materials").glob("*.toml"))
    named = re.findall(r"\[([a-z0-9-]+),\s+(\w+)\]", text)
    check(len(named) >= 10, f"{len(named)} sources are named")
    for source, mark in named:
        check(source in known, f"[{source}] is no source of the tables")
        check(mark in marks.get(source, {mark}), f"[{source}] is not {mark} in the tables")


def rounds_to(value, printed):
    """Whether a value is within a unit of a printed figure's last digit: half of that for its own rounding, half for that of what it is made of."""
    digits = len(printed.partition(".")[2])
    return math.isclose(value, float(printed), rel_tol=1e-12, abs_tol=10.0**-digits)


def check_example(program, text, check):
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line.startswith("| ")][1:]
    check(len(rows) >= 20, f"{len(rows)} rows of the example")
    with tempfile.TemporaryDirectory() as folder:
        yard = "\n\n".join(block for block in blocks_of(text) if block.startswith("["))
        pathlib.Path(folder, "yard.toml").write_text(yard, encoding="utf-8")
        answers = {}
        for what, by_hand, comes_to, command, key in rows:
            sum_of_it = by_hand.replace("×", "*").replace("−", "-")
            check(re.fullmatch(r"[\d.+*/() -]+", sum_of_it), f"{what}: {by_hand} is no arithmetic")
            check(rounds_to(eval(sum_of_it), comes_to), f"{what}: {by_hand} is {eval(sum_of_it)} and not {comes_to}")
            if not command:
                continue
            if command not in answers:
                result = subprocess.run([program, command, "yard.toml", "--json", *TODAY], cwd=folder, capture_output=True, text=True, timeout=120)
                check(result.returncode == 0, f"{command}: {result.stderr}")
                answers[command] = json.loads(result.stdout)
            value = answers[command]
            for part in key.split("."):
                value = value[part]
            check(rounds_to(value, comes_to), f"{what}: the program answers {value} and not {comes_to}")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    check = Checks()
    check_files(check)
    mathematics = (LIBRARY / "README.md").read_text(encoding="utf-8")
    check_functions_and_sources(mathematics, check)
    check_example(program, mathematics, check)
    check_readme(program, check)
    print("\n".join(check.failures))
    print(f"{check.count} checks, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
