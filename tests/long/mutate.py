"""Do the unit tests notice a mistake? Makes one mistake at a time in the sources of a room and runs them. By hand, not in CI.

usage: mutate.py BUILD ROOM... [--mutants N] [--seed N] [--work FOLDER] [--check SCRIPT]...

BUILD has the unit tests and the program built. The library is built once more as a shared one. A file with a mistake is compiled alone and
loaded before the library, so that its functions take the place of the right ones; nothing else is built again, and no source is touched.
Mistakes that the compiler turns into the same code are none, and not counted. What survives the unit tests is tried on each SCRIPT too, one
of tests/cli.
"""
import argparse
import collections
import json
import os
import pathlib
import random
import re
import shlex
import signal
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
LIB = ROOT / "lib" / "heapwright"
TESTS = ROOT / "tests"

OPERATORS = {"<": ["<=", ">="], "<=": ["<", ">"], ">": [">=", "<="], ">=": [">", "<"], "==": ["!="], "!=": ["=="], "+": ["-"], "-": ["+"],
             "*": ["/"], "/": ["*"], "&&": ["||"], "||": ["&&"], "+=": ["-="], "-=": ["+="], "*=": ["/="], "/=": ["*="]}
OPERATOR = re.compile(r"(?<= )(<=|>=|==|!=|<|>|[-+*/]=|[-+*/]|&&|\|\|)(?= )")  # clang-format sets spaces about these, and none in a template
NUMBER = re.compile(r"(?<![\w.<])(\d+\.\d+(?:e-?\d+)?|\d+(?:\.?e-?\d+)?)(?=[^\w.']|U\b)")
WORD = re.compile(r"\b(true|false|std::min|std::max)\b(?!>)")
OTHER_WORD = {"true": "false", "false": "true", "std::min": "std::max", "std::max": "std::min"}
NOT = re.compile(r"(?<=[(\s])!(?=[\w(])")
STATEMENT = re.compile(r"^ +(?!return|throw|using|case)(?:[\w:.>\[\]()*-]+ (?:[-+*/]?=) [^;{}]+|[\w:.>\[\]-]+\([^;{}]*\));$", re.M)

Mutant = collections.namedtuple("Mutant", "file start end text")


def without_words(source):
    """The source with comments, texts and lines of the preprocessor blanked, each character in its place."""
    parts = r'//[^\n]*|/\*.*?\*/|R"\((?:.*?)\)"|"(?:\\.|[^"\\\n])*"|(?<!\w)\'(?:\\.|[^\'\\])\'|^#[^\n]*'
    return re.sub(parts, lambda match: re.sub(r"[^\n]", " ", match.group()), source, flags=re.S | re.M)


def end_of_bracket(text, start):
    depth = 0
    for place in range(start, len(text)):
        depth += {"(": 1, ")": -1}.get(text[place], 0)
        if depth == 0:
            return place
    return None


def changed_number(number, generator):
    if re.fullmatch(r"\d+", number):
        return str(int(number) + (1 if number == "0" else generator.choice([-1, 1])))
    value = float(number)
    return repr(value * generator.choice([0.9, 1.1]) if value else 0.1)


def mutants_of(file, generator):
    source = file.read_text()
    bare = without_words(source)
    found = []

    def add(start, end, text):
        found.append(Mutant(file, start, end, text))

    for match in OPERATOR.finditer(bare):
        add(*match.span(1), generator.choice(OPERATORS[match.group(1)]))
    for match in NUMBER.finditer(bare):
        add(*match.span(1), changed_number(match.group(1), generator))
    for match in WORD.finditer(bare):
        add(*match.span(1), OTHER_WORD[match.group(1)])
    for match in NOT.finditer(bare):
        add(*match.span(), "")
    for match in re.finditer(r"\bif (?=\()", bare):
        end = end_of_bracket(bare, match.end())
        condition = bare[match.end():end + 1] if end else ";"
        if ";" not in condition and " = " not in condition:
            add(match.end(), end + 1, f"(!{source[match.end():end + 1]})")
    for match in STATEMENT.finditer(bare):
        start = match.start() + len(match.group()) - len(match.group().lstrip())
        add(start, match.end(), ";")
    return found


def told(mutant):
    """Where a mutant is, with its line before and after."""
    source = mutant.file.read_text()
    first = source.rfind("\n", 0, mutant.start) + 1
    last = source.find("\n", mutant.end)
    before = source[first:last]
    after = source[first:mutant.start] + mutant.text + source[mutant.end:last]
    line = source.count("\n", 0, mutant.start) + 1
    return f"{mutant.file.relative_to(LIB)}:{line}\n    {' '.join(before.split())}\n    {' '.join(after.split())}"


def run(command, folder=None, timeout=None, **more):
    """The exit code and output of a command; nothing where it takes too long. What it started ends with it."""
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
                          start_new_session=True, **more) as process:
        try:
            output = process.communicate(timeout=timeout)[0]
            return process.returncode, output
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            process.communicate()
            return None, ""


def must_run(command, folder=None):
    code, output = run(command, folder)
    if code != 0:
        sys.exit(f"{shlex.join(map(str, command))}\n{output}")
    return output


class Bench:
    """What mutants are tried with: the library as a shared one, and the unit tests and the program linked with it."""

    def __init__(self, build, work):
        self.work = work
        options = ["HEAPWRIGHT_TESTS=OFF", "HEAPWRIGHT_PROGRAM=OFF", "HEAPWRIGHT_EXAMPLES=OFF", "HEAPWRIGHT_INSTALL=OFF",
                   "CMAKE_EXPORT_COMPILE_COMMANDS=ON", "CMAKE_POSITION_INDEPENDENT_CODE=ON", "CMAKE_UNITY_BUILD=ON",
                   "CMAKE_UNITY_BUILD_BATCH_SIZE=16", "CMAKE_DISABLE_PRECOMPILE_HEADERS=ON", "CMAKE_CXX_COMPILER_LAUNCHER=ccache"]
        must_run(["cmake", "-S", ROOT, "-B", work, *(f"-D{option}" for option in options)])
        must_run(["cmake", "--build", work, "-j1", "--target", "heapwright"])
        self.shared = work / "libheapwright.so"
        must_run(["g++", "-shared", "-o", self.shared, "-Wl,--whole-archive", work / "lib" / "libheapwright.a", "-Wl,--no-whole-archive"])
        self.tests = self.linked(build / "tests", "heapwright-tests")
        self.program = self.linked(build / "cli", "heapwright-program", "heapwright")
        commands = json.loads((work / "compile_commands.json").read_text())
        of_any_batch = next(entry for entry in commands if "heapwright.dir/Unity" in entry["file"])
        dropped = {"-c", "-o", "-O2", of_any_batch["file"]}
        words = shlex.split(of_any_batch["command"])
        self.compile = [word for word in words if word not in dropped and not word.endswith((".o", "ccache"))] + ["-w"]
        self.folder = tempfile.TemporaryDirectory(prefix="mutants-")
        self.scratch = pathlib.Path(self.folder.name)
        self.mutant = self.scratch / "mutant.so"
        self.wrapper = self.scratch / "heapwright"
        self.wrapper.write_text(f'#!/bin/sh\nLD_PRELOAD={self.mutant} exec {self.program} "$@"\n')
        self.wrapper.chmod(0o755)
        self.usual_times = {}

    def linked(self, folder, target, name=None):
        """A program of the build with the shared library in place of the archive."""
        program = self.work / (name or target)
        words = shlex.split((folder / "CMakeFiles" / f"{target}.dir" / "link.txt").read_text())
        place = words.index("-o") + 1
        words[place] = str(program)
        must_run([str(self.shared) if word.endswith("libheapwright.a") else word for word in words] + [f"-Wl,-rpath,{self.work}"], folder)
        return program

    def compiled(self, file, source, name):
        """The object of a source that stands for a file; nothing where it does not compile."""
        copy = self.scratch / file.name
        copy.write_text(source)
        made = self.scratch / f"{name}.o"
        optimized = ["-O2", "-ffast-math"] if file.name == "pile_rates.cpp" else ["-O1"]
        code, _ = run([*self.compile, *optimized, f"-iquote{file.parent}", "-c", copy.name, "-o", made], self.scratch)
        copy.unlink()
        return made if code == 0 else None

    def shared_from(self, made):
        must_run(["g++", "-shared", "-o", self.mutant, made])

    def tested(self, filters, timeout):
        """None where the tests pass, else how they end."""
        environment = {**os.environ, "LD_PRELOAD": str(self.mutant)}
        code, output = run([self.tests, "--filenames-as-tags", "--abort", *filters], TESTS, timeout, env=environment)
        if code is None:
            return "timed out"
        if code == 0:
            return None
        names = re.findall(r"^-{79}\n(\S.*)\n(?:.*\n){0,4}?-{79}$", output, re.M)  # of a case, and of its section
        return f"killed by \"{names[-1].strip()}\"" if names else "killed"

    def usual_time(self, filters):
        if str(filters) not in self.usual_times:
            started = time.monotonic()
            code, output = run([self.tests, "--filenames-as-tags", *filters], TESTS)
            if code != 0:
                sys.exit(f"the tests fail as they are\n{output[-2000:]}")
            self.usual_times[str(filters)] = time.monotonic() - started
        return self.usual_times[str(filters)]

    def checked(self, scripts):
        for script in scripts:
            code, _ = run([sys.executable, script, self.wrapper], TESTS, 900)
            if code != 0:
                return f"killed by {pathlib.Path(script).name}"
        return None


def test_files(room):
    """The files of tests that include a header of the room, and the rest."""
    files = sorted(file for folder in ("unit", "property", "reference") for file in (TESTS / folder).glob("*_test.cpp"))
    of_room = [file for file in files if f"heapwright/{room}/" in file.read_text() or file.stem.startswith(room)]
    return of_room, [file for file in files if file not in of_room]


def filters_of(files):
    return [",".join(f"[#{file.stem}]" for file in files)]


def try_room(bench, room, count, seed, scripts):
    generator = random.Random(f"{seed} {room}")
    all_mutants = [mutant for file in sorted((LIB / room).glob("*.cpp")) for mutant in mutants_of(file, generator)]
    generator.shuffle(all_mutants)
    first, rest = (filters_of(files) for files in test_files(room))
    usual = [bench.usual_time(filters) for filters in (first, rest)]
    print(f"{room}: {len(all_mutants)} places; its tests take {usual[0]:.0f} s, all others {usual[1]:.0f} s", flush=True)
    originals = {}
    counts = collections.Counter()
    for mutant in all_mutants:
        if counts["mutants"] == count:
            break
        started = time.monotonic()
        source = mutant.file.read_text()
        made = bench.compiled(mutant.file, source[:mutant.start] + mutant.text + source[mutant.end:], "mutant")
        if not made:
            counts["did not compile"] += 1
            continue
        if mutant.file not in originals:
            originals[mutant.file] = bench.compiled(mutant.file, source, "original").read_bytes()
        if made.read_bytes() == originals[mutant.file]:
            counts["same code"] += 1
            continue
        bench.shared_from(made)
        counts["mutants"] += 1
        end = bench.tested(first, 3.0 * usual[0] + 20.0) or bench.tested(rest, 3.0 * usual[1] + 20.0) or bench.checked(scripts) or "survived"
        counts[end.split(" by ")[0]] += 1
        print(f"{counts['mutants']}. {end} ({time.monotonic() - started:.0f} s): {told(mutant)}", flush=True)
    print(f"{room}: " + ", ".join(f"{number} {what}" for what, number in counts.items()), flush=True)


def main():
    parser = argparse.ArgumentParser(usage=__doc__)
    parser.add_argument("build", type=lambda text: pathlib.Path(text).resolve())
    parser.add_argument("rooms", nargs="+")
    parser.add_argument("--mutants", type=int, default=50)
    parser.add_argument("--seed", default="1")
    parser.add_argument("--work", type=lambda text: pathlib.Path(text).resolve(), default=ROOT / "build" / "mutants")
    parser.add_argument("--check", action="append", default=[], type=lambda text: pathlib.Path(text).resolve())
    options = parser.parse_args()
    os.nice(15)
    bench = Bench(options.build, options.work)
    for room in options.rooms:
        try_room(bench, room, options.mutants, options.seed, options.check)


if __name__ == "__main__":
    main()
