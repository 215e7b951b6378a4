"""Faults of the machine: full disks, folders and files that may only be read, pipes, links, signals, bytes that are no text, and what
would steer a terminal. Each ends with its exit code and words, in no time, and leaves whole files only.

usage: check_faults.py PROGRAM [--table]     --table: what each fault ends with, as Markdown

Run as root, rows of missing permission are played as another user. A row that the machine cannot play is named as skipped.
"""
import csv
import io
import datetime
import itertools
import json
import os
import pathlib
import pty
import re
import resource
import shutil
import signal
import stat
import subprocess
import sys
import tempfile
import termios
import threading
import time
from typing import NamedTuple

NOBODY = 65534
SMALL = 100  # bytes, less than any page
TODAY = "2026-10-24"
SUPPLY = '[[supply]]\nfeedstock = "leaves-fall"\namount = "6 leaf-bag"\n'
PILE = '[pile]\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\n'
SQUARE = [[-93.2, 44.9], [-93.1995, 44.9], [-93.1995, 44.9005], [-93.2, 44.9005], [-93.2, 44.9]]
DAYS = "date,air degF\n" + "".join(f"{datetime.date(2025, 1, 1) + datetime.timedelta(day)},50\n" for day in range(365))
FILES = {
    "yard.toml": f'title = "A yard"\n{SUPPLY}{PILE}',  # without weather it has no forecast, and is quick
    "hot.toml": f'{SUPPLY}[climate]\nlike = "cool"\n{PILE}',
    "base.toml": '[office]\nname = "Office of nowhere"\n',
    "mine.toml": '[[feedstock]]\nid = "x"\nlike = "straw"\n',
    "log.csv": "time,core degF\n2026-10-01 08:00,120\n2026-10-02 08:00,130\n",
    "daily.csv": DAYS,
    "days.toml": SUPPLY + '[climate]\nfile = "daily.csv"\n',
    "roster.csv": "leaves,clippings,lawn\n3,2,0\n4,2,0\n",
    "lawn.geojson": json.dumps({"type": "Polygon", "coordinates": [SQUARE]}),
    "map.toml": '[[lawn.zone]]\nname = "a"\nshape = "geojson"\nfile = "lawn.geojson"\n',
    "walk.gpx": '<?xml version="1.0"?>\n<gpx version="1.1" creator="test"><trk><name>a</name><trkseg>\n' +
                "\n".join(f'<trkpt lat="{lat}" lon="{lon}"/>' for lon, lat in SQUARE) + "\n</trkseg></trk></gpx>\n",
    "track.toml": '[[lawn.zone]]\nname = "a"\nshape = "gpx"\nfile = "walk.gpx"\n',
    "offers.toml": '[[lawn.zone]]\nname = "a"\nshape = "area"\narea = "5000 ft2"\n[[topdressing.offer]]\nname = "bulk"\nunit = "1 yd3"\nprice = 40\n',
}
# How each kind of file is read.
READ = {
    "yard.toml": ["load", "yard.toml"],
    "base.toml": ["load", "yard.toml", "--base", "base.toml"],
    "mine.toml": ["materials", "--materials", "mine.toml"],
    "log.csv": ["readings", "--log", "log.csv"],
    "daily.csv": ["mix", "days.toml"],
    "roster.csv": ["workshop", "roster.csv", "--into", "out"],
    "lawn.geojson": ["topdress", "map.toml"],
    "walk.gpx": ["topdress", "track.toml"],
}
# Every option that writes a file, and a command with it.
WRITE = {
    "--output": ["mix", "--add", "leaves=3 bags", "--output"],
    "--html": ["mix", "--add", "leaves=3 bags", "--html"],
    "--html of a handout": ["plan", "yard.toml", "--html"],
    "--html of a sheet": ["exercise", "--html"],
    "--html of a class": ["workshop", "roster.csv", "--into", "out", "--html"],
    "--calendar": ["plan", "yard.toml", "--calendar"],
    "--order-sheet": ["topdress", "offers.toml", "--order-sheet"],
    "--new": ["workshop", "--new"],
    "the file of new": ["new", "--blank"],
}
# Commands that end with one --output or --html more.
ALL_COMMANDS = {
    "exercise": ["exercise"], "forecast": ["forecast", "hot.toml"], "load": ["load", "yard.toml"], "maturity": ["maturity", "yard.toml"],
    "materials": ["materials"], "mix": ["mix", "yard.toml"], "new": ["new", "other.toml", "--blank"], "pile": ["pile", "yard.toml"],
    "plan": ["plan", "yard.toml"], "readings": ["readings", "--log", "log.csv"], "recipe": ["recipe", "yard.toml"],
    "season": ["season", "yard.toml"], "topdress": ["topdress", "offers.toml"], "workshop": ["workshop", "roster.csv", "--into", "out"],
}
# A terminal obeys these, or shows a line turned around.
OBEYED = {chr(n) for n in (*range(9), *range(11, 32), *range(0x7f, 0xa0), 0x61c, 0x200e, 0x200f, *range(0x2028, 0x202f), *range(0x2066, 0x206a))}
SIGNALS = {-number: f"{128 + number} ({name})" for name, number in (("SIGINT", signal.SIGINT), ("SIGTERM", signal.SIGTERM), ("SIGHUP", signal.SIGHUP),
                                                                   ("SIGPIPE", signal.SIGPIPE), ("SIGXFSZ", signal.SIGXFSZ), ("SIGKILL", signal.SIGKILL))}


class CannotPlay(Exception):
    """This machine has no such fault."""


class Row(NamedTuple):
    fault: str
    command: list
    code: int
    words: str  # that standard error must match; empty: nothing is said there
    prepare: object = None  # what makes the fault, of the folder
    writes: tuple = ()  # what may be written: names of the folder
    how: dict = {}  # of subprocess.Popen
    as_nobody: bool = False
    during: object = None  # what happens while it runs, of process and folder
    after: object = None  # what must hold, of folder and standard output


# --- what makes a fault, of a name ---

def content(name, data):
    def make(folder):
        (folder / name).unlink(missing_ok=True)
        (folder / name).write_bytes(data)
    return make


def instead(name, make):
    def replace(folder):
        (folder / name).unlink(missing_ok=True)
        make(folder / name)
    return replace


def a_folder(name):
    return instead(name, os.mkdir)


def a_pipe(name):
    return instead(name, os.mkfifo)


def a_link(name, to):
    return instead(name, lambda path: path.symlink_to(to))


def a_device(name, device="/dev/zero"):
    def make(folder):
        if not os.path.exists(device):
            raise CannotPlay(f"there is no {device}")
        a_link(name, device)(folder)
    return make


def mode(name, bits):
    return lambda folder: (folder / name).chmod(bits)


def all_of(*steps):
    def make(folder):
        for step in steps:
            step(folder)
    return make


def small_files():
    resource.setrlimit(resource.RLIMIT_FSIZE, (SMALL, SMALL))


def closed(*descriptors):
    def close():
        for descriptor in descriptors:
            os.close(descriptor)
    return close


def file_is(name, data):
    return lambda folder, _: None if (folder / name).read_bytes() == data else f"{name} is changed"


# --- files that are read ---

def reading_rows():
    for name, command in READ.items():
        ending = pathlib.Path(name).suffix
        text = FILES[name].encode()

        def row(fault, words, prepare, code=2, **more):
            return Row(f"{name}: {fault}", command, code, words, prepare, **more)

        yield row("is not there", rf"{name}: there is no such file.*check the name", lambda folder, name=name: (folder / name).unlink())
        yield row("a folder", rf"{name}: this is a folder, not a file.*name a {ending} file", a_folder(name))
        yield row("a pipe", rf"{name}: this is a pipe or a device, not a file.*save", a_pipe(name))
        yield row("a device without end", rf"{name}: this is a pipe or a device, not a file", a_device(name))
        yield row("a link in a circle", rf"{name}: the file cannot be opened: Too many levels of symbolic links.*check", a_link(name, name))
        yield row("a link to nothing", rf"{name}: this is a link to a file that is not there.*", a_link(name, "nowhere"))
        yield row("may not be read", rf"{name}: the file cannot be opened: Permission denied.*check that you may read it", mode(name, 0), as_nobody=True)
        yield row("cannot be read", rf"{name}: the file cannot be read: Input/output error", a_device(name, "/proc/self/mem"))
        yield row("with a NUL", rf"{name}: this is not a text file.*name a {ending} file", content(name, text + b"\0"))
        yield row("in UTF-16", rf"{name}: the file is saved as UTF-16.*UTF-8", content(name, text.decode().encode("utf-16")))
        yield row("in Latin-1", rf"{name}:\d+:\d+: .*not UTF-8.*save it as UTF-8", content(name, text + "# Jos\u00e9, 50 \u00b0F\n".encode("latin-1")))
        yield row("too large", rf"{name}: the file is larger than \d+ MiB", lambda folder, name=name: os.truncate(folder / name, (16 << 20) + 1))
        if ending == ".toml":
            yield row("empty", "", content(name, b""), code=0)
            yield row("broken off", rf"{name}:\d+:\d+: this is not TOML", content(name, text + b'[[supply]]\nfeedstock = "lea'))
        else:
            yield row("empty", rf"{name}: ", content(name, b""))


def changing_rows():
    """A file that grows, shrinks and goes while it is read: read as it is, or refused in words."""
    text = FILES["yard.toml"].encode()

    def written_all_the_while(process, folder):
        end = time.monotonic() + 0.5
        while process.poll() is None and time.monotonic() < end:
            for data in (text, b"", text + b"# more\n" * 1000, None):
                with open(folder / "new.toml", "wb") as file:
                    file.write(data or b"")
                if data is None:
                    (folder / "yard.toml").unlink(missing_ok=True)
                else:
                    os.replace(folder / "new.toml", folder / "yard.toml")
        (folder / "new.toml").unlink(missing_ok=True)
        (folder / "yard.toml").write_bytes(text)

    for n in range(10):
        yield Row(f"yard.toml: changes while it is read, {n + 1}", READ["yard.toml"], {0, 2}, r"^$|there is no such file", during=written_all_the_while)

    def grows(folder):
        (folder / "stop").touch()

        def write():
            with open(folder / "yard.toml", "ab") as file:
                while (folder / "stop").exists():
                    file.write(b"# more of it, and more\n" * 1000)

        thread = threading.Thread(target=write)
        thread.start()
        while (folder / "yard.toml").stat().st_size <= 1 << 20:
            time.sleep(0.001)
        return lambda: ((folder / "stop").unlink(), thread.join())

    yield Row("yard.toml: grows without end", READ["yard.toml"], 2, r"yard.toml: the file is larger than 1 MiB", grows, ("yard.toml", "stop"))


def materials_rows(program):
    """Each table that a file of one's own may hold, broken."""
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "mine.toml").write_text("zzzzzzzz = 1\n")
        told = subprocess.run([program, "materials", "--materials", "mine.toml"], cwd=folder, capture_output=True, text=True).stderr
    tables = re.search("its keys are (.*)", told)[1].split(", ")
    assert len(tables) > 25, tables
    for table in tables:
        for fault, text, words in (
            ("syntax", f'[[{table}]]\nid = "x\n', r"mine.toml:2:\d+: this is not TOML"),
            ("a number", f"{table} = 7\n", rf"mine.toml:1:\d+: {table}: (is|must) "),
            ("a list of numbers", f"{table} = [7]\n", rf"mine.toml:1:\d+: {table}: "),
            ("half a row", f'[[{table}]]\nnote = "some"\n', r"mine.toml:\d+:\d+: "),
            ("a key that is none", f"[[{table}]]\nzzzzzzzz = 1\n", r"mine.toml:\d+:\d+: "),
        ):
            yield Row(f"--materials: {table}, {fault}", READ["mine.toml"], 2, words, content("mine.toml", text.encode()))


# --- files that are written ---

def writing_rows(program):
    for option, command in WRITE.items():
        said = re.escape(option.split(" ")[0] + ": ") if option.startswith("--") else ""
        makes = ("x", "out")

        def row(fault, words, prepare=None, code=2, path="x", force=False, writes=("out",), **more):
            return Row(f"{option}: {fault}", [*command, path, *(["--force"] if force else [])], code, words, prepare, writes, **more)

        there = content("x", b"mine")
        yield row("a file that is there", said + "x exists already.*--force", there)
        yield row("a folder", said + "x is a folder.*name a file in it", a_folder("x"))
        yield row("a folder, by force", said + "x is a folder", a_folder("x"), force=True)
        yield row("in no folder", said + "no/x cannot be written: there is no folder .*no", path="no/x")
        yield row("under a file", said + "yard.toml/x cannot be written: ", path="yard.toml/x")
        yield row("a name too long", said + "x+ cannot be written: File name too long", path="x" * 300)
        yield row("a pipe", said + "x is no plain file", a_pipe("x"))
        yield row("a pipe, by force", said + "x is no plain file", a_pipe("x"), force=True)
        yield row("a device, by force", said + "/dev/full is no plain file", a_device("y", "/dev/full"), path="/dev/full", force=True)
        yield row("a link to a file", said + "x exists already", all_of(content("y", b"mine"), a_link("x", "y")))
        yield row("a link to nothing", said + "x is a link to a file that is not there", a_link("x", "y"))
        yield row("a link in a circle", said + "x is a link", a_link("x", "x"))
        yield row("in a folder that may only be read", said + "there/x cannot be written: Permission denied",
                  all_of(a_folder("there"), mode("there", 0o555)), path="there/x", as_nobody=True)
        yield row("a file that may only be read, by force", said + "x may only be read.*chmod u\\+w", all_of(there, mode("x", 0o444)), force=True)
        yield row("another's file, by force", said + "x may only be read", all_of(there, mode("x", 0o644), lambda folder: os.chown(folder / "x", 0, 0)
                                                                                  if os.geteuid() == 0 else cannot_play("only root has another's file")),
                  force=True, as_nobody=True)
        full = {"preexec_fn": small_files}
        yield row("a full disk", (said if "class" not in option else "--into: out/household-.*") + " ?.*cannot be written: File too large", how=full)
        yield row("a full disk, by force", "cannot be written: File too large", there, force=True, how=full)
        if option != "the file of new" and "yard.toml" in command:
            yield row("the yard file that is read", said + "yard.toml is the yard file", path="yard.toml", force=True)
            yield row("the yard file, by another name", said + "x is the yard file", a_link("x", "yard.toml"), force=True)
    for command, arguments in ALL_COMMANDS.items():
        for option in ("--output", "--html"):
            if (command, option) == ("materials", "--html"):
                continue  # it has no page
            yield Row(f"{command} {option}: a file that is there", [*arguments, option, "x"], 2, f"{option}: x exists already", content("x", b"mine"), ("out",))
    for read, arguments in (("base.toml", ["load", "yard.toml", "--base", "base.toml"]), ("mine.toml", ["materials", "--materials", "mine.toml"]),
                            ("log.csv", ["readings", "--log", "log.csv"]), ("roster.csv", ["workshop", "roster.csv", "--into", "out"]),
                            ("roster.csv", ["workshop", "./roster.csv", "--into", "out"]), ("mine.toml", ["materials", "--check", "mine.toml"])):
        yield Row(f"--output: {read} that {' '.join(arguments[:2])} reads", [*arguments, "--output", read, "--force"], 2,
                  rf"--output: {read} is the .*name another file", writes=("out",))
    for named, command in (("daily.csv", ["plan", "days.toml", "--calendar"]), ("daily.csv", ["plan", "days.toml", "--output"]),
                           ("lawn.geojson", ["topdress", "map.toml", "--order-sheet"]), ("walk.gpx", ["topdress", "track.toml", "--html"])):
        yield Row(f"{command[-1]}: {named} that the yard names", [*command, f"./{named}", "--force"], 2,
                  rf"{command[-1]}: ./{named} is a file that {command[1]} names.*name another file")
    for one, other in (("--html", "--output"), ("--html", "--calendar"), ("--output", "--calendar")):
        yield Row(f"{one} and {other}: one file", ["plan", "yard.toml", one, "x", other, "./x"], 2, "is the file of --.*name another file")
    yield Row("materials --html: what has no page", ["materials", "--html", "x"], 2, "--html: of the tables only --dies-at is a page")
    yield Row("workshop --output: in the folder of its handouts", ["workshop", "roster.csv", "--into", "out", "--output", "out/x"], 0, "", writes=("out",))
    yield Row("new --html: the yard file itself", ["new", "x", "--blank", "--html", "x"], 2, "--html: x is the yard file")
    yield Row("new --output: the yard file of no name", ["new", "--blank", "--output", "my-yard.toml"], 2, "--output: my-yard.toml is the yard file")
    yield Row("the second of two files cannot be written", ["plan", "yard.toml", "--calendar", "x", "--html", "no/x"], 2, "--html: no/x cannot be written")
    yield Row("the yard file of load: six at once add to it", ["load", "yard.toml", "1 gal water"], 0, "", writes=("yard.toml",), during=five_more(program),
              after=lambda folder, _: None if (folder / "yard.toml").read_text().count("[[load]]") == 6 else "not all is added")
    yield Row("the yard file of load: may only be read", ["load", "yard.toml", "1 gal water"], 2, "yard.toml may only be read.*chmod", mode("yard.toml", 0o444))
    yield Row("the yard file of load: a full disk", ["load", "yard.toml", "1 gal water"], 2, "yard.toml cannot be written: File too large",
              content("yard.toml", FILES["yard.toml"].encode() + b"# more\n" * 1000), how={"preexec_fn": small_files})
    yield Row("--into: a file", ["workshop", "roster.csv", "--into", "x"], 2, "--into: x is a file", content("x", b"mine"))
    yield Row("--into: a pipe", ["workshop", "roster.csv", "--into", "x"], 2, "--into: x is a file", a_pipe("x"))
    yield Row("--into: in no folder", ["workshop", "roster.csv", "--into", "no/x"], 2, "--into: no/x cannot be used: No such file")
    yield Row("--into: a link to nothing", ["workshop", "roster.csv", "--into", "x"], 2, "--into: x ", a_link("x", "y"))
    yield Row("--into: a link in a circle", ["workshop", "roster.csv", "--into", "x"], 2, "--into: x ", a_link("x", "x"))
    yield Row("--into: a folder that may only be read", ["workshop", "roster.csv", "--into", "x"], 2, "--into: x/household-00[12].html cannot be written: Permission",
              all_of(a_folder("x"), mode("x", 0o555)), as_nobody=True)
    yield Row("--into: a handout of one's own", ["workshop", "roster.csv", "--into", "x"], 2, "household-001.html is there already",
              all_of(a_folder("x"), content("x/household-001.html", b"mine")))
    yield Row("--into: a full disk", ["workshop", "roster.csv", "--into", "out"], 2, "--into: out/.* cannot be written: File too large",
              how={"preexec_fn": small_files}, writes=("out",), after=lambda folder, _: "something is left" if list((folder / "out").iterdir()) else None)
    yield Row("the folder one stands in is gone", ["mix", "--add", "leaves=3 bags", "--output", "x"], 2, "--output: x cannot be written: .*folder",
              how={"preexec_fn": lambda: (os.mkdir("gone"), os.chdir("gone"), os.rmdir("../gone"))})
    yield from full_disk_rows()


def five_more(program):
    def run_them(_, folder):
        others = [subprocess.Popen([program, "load", "yard.toml", "1 gal water"], cwd=folder, stdout=subprocess.DEVNULL) for _ in range(5)]
        for other in others:
            other.wait()
    return run_them


def full_disk_rows():
    """A real one, in a file system of its own that ends with the run."""
    if subprocess.run(["unshare", "-rm", "true"], capture_output=True).returncode != 0 if shutil.which("unshare") else True:
        yield Row("a full disk in memory", [], 0, "", lambda folder: cannot_play("unshare makes no file system here"))
        return
    script = 'mount -t tmpfs -o size=16k none disk && cd disk && head -c 12000 /dev/zero > full && "$@"; code=$?; ls -A; exit $code'
    for command in (["mix", "--add", "leaves=3 bags", "--html", "x.html"], ["exercise", "--html", "x.html"], ["plan", "../yard.toml", "--html", "x.html"],
                    ["topdress", "../offers.toml", "--order-sheet", "x.html"]):
        yield Row(f"{command[0]} {command[-2]}: a full disk in memory", command, 2, f"{command[-2]}: x.html cannot be written: No space left on device",
                  a_folder("disk"), how={"wrapped": ["unshare", "-rm", "sh", "-c", script, "sh"]},
                  after=lambda folder, out: None if out == "full\n" else f"left {out!r}")


def cannot_play(why):
    raise CannotPlay(why)


# --- standard streams ---

def stream_rows(program):
    mix = ["mix", "--add", "leaves=3 bags"]
    refused = "standard output cannot be written"
    for command, arguments in ALL_COMMANDS.items():
        if command not in ("new", "workshop"):
            yield Row(f"{command}: standard output is full", arguments, 2, refused + ".*No space left", a_device("y", "/dev/full"), ("y",), {"stdout": "/dev/full"})
    yield Row("standard output is closed", mix, 2, refused, how={"preexec_fn": closed(1)})
    yield Row("standard output is closed, JSON", [*mix, "--json"], 2, refused, how={"preexec_fn": closed(1)})
    yield Row("standard output is closed, of --help", ["--help"], 2, refused, how={"preexec_fn": closed(1)})
    yield Row("standard output is closed, nothing goes there", [*mix, "--output", "x"], 0, "", writes=("x",), how={"preexec_fn": closed(1)})
    yield Row("standard output is closed, of a class", ["workshop", "roster.csv", "--into", "out"], 2, refused, writes=("out",), how={"preexec_fn": closed(1)},
              after=lambda folder, _: None if b"</html>" in (folder / "out/index.html").read_bytes() else "the index is not whole")
    yield Row("standard error is closed", ["new", "x", "--blank", "--force"], 0, "", content("x", b"mine"), ("x",), {"preexec_fn": closed(2)},
              after=lambda folder, _: None if b"Written to" not in (folder / "x").read_bytes() else "messages stand in the file")
    yield Row("standard error is closed, a bad file", ["plan", "nowhere.toml", "--html", "x"], 2, "", how={"preexec_fn": closed(2)})
    yield Row("all three are closed", [*mix, "--html", "x"], 2, "", writes=("x",), how={"preexec_fn": closed(0, 1, 2)},
              after=lambda folder, _: None if (folder / "x").read_bytes().endswith(b"</html>\n") else "the page is not whole")
    yield Row("standard input is closed, new", ["new", "x", "--ask"], 2, "the input ended before the last question: nothing is written",
              how={"preexec_fn": closed(0)})
    yield Row("standard input is a folder, new", ["new", "x", "--ask"], 2, "the input ended before the last question: nothing is written",
              how={"stdin": "."})
    yield Row("standard input ends in a question, new", ["new", "x", "--ask"], 2, "the input ended before the last question: nothing is written",
              how={"stdin": subprocess.DEVNULL})
    for command in ("plan", "materials", "exercise", "season"):
        yield Row(f"{command}: who reads its output goes", ALL_COMMANDS[command], -signal.SIGPIPE, "", how={"stdout": "pipe"})
    yield Row("who reads its output goes, and nobody minds", ["materials"], 2, refused + ": Broken pipe",
              how={"stdout": "pipe", "preexec_fn": lambda: signal.signal(signal.SIGPIPE, signal.SIG_IGN), "restore_signals": False})
    yield Row("a file that its output goes to is full", ["materials"], 2, refused + ": File too large", writes=("y",),
              how={"stdout": "y", "preexec_fn": small_files})
    yield Row("little memory", ["readings", "--log", "log.csv"], 2, "there is not enough memory", little_memory(program),
              how={"preexec_fn": lambda: resource.setrlimit(resource.RLIMIT_DATA, (8 << 20, 8 << 20))})


def little_memory(program):
    def make(folder):
        if b"__asan_init" in pathlib.Path(program).read_bytes():
            cannot_play("the sanitizers take more memory")
        content("log.csv", b"time,core degF\n" + b"2026-10-01,120\n" * 600_000)(folder)
    return make


# --- signals ---

def signal_rows(program):
    ends = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)

    def after_a_while(number, seconds=0.05):
        def send(process, _):
            time.sleep(seconds)
            process.send_signal(number)
        return send

    def a_long_handout(folder):
        """Kept by the next run, which takes its time to put it with the others."""
        subprocess.run([program, *READ["roster.csv"]], cwd=folder, stdout=subprocess.DEVNULL, check=True)
        handout = folder / "out/household-002.html"
        handout.write_bytes(handout.read_bytes().replace(b"</main>", b" " * (20 << 20) + b"</main>"))
        (folder / "out/print-all.html").unlink()

    def in_the_middle_of_a_file(number):
        def send(process, folder):
            while process.poll() is None and not any(name.startswith(".") for name in os.listdir(folder / "out")):
                time.sleep(0.001)
            process.send_signal(number)
        return send

    def whole_handouts(folder, _):
        for path in (folder / "out").iterdir():
            if path.name.startswith(".") or not path.read_bytes().endswith((b"</html>\n", b"\n")):
                return f"{path.name} is left, and is not whole"
        return None

    for number in ends:
        yield Row(f"{number.name}: forecast", ["forecast", "hot.toml", "--compare", "--html", "x"], -number, "", during=after_a_while(number))
        yield Row(f"{number.name}: workshop, as it writes", ["workshop", "roster.csv", "--into", "out"], -number, "", a_long_handout, ("out",),
                  during=in_the_middle_of_a_file(number), after=whole_handouts)
        yield Row(f"{number.name}: new, at a question", ["new", "x", "--ask"], -number, r"1\. ", during=after_a_while(number, 0.2), how={"terminal": True})
    yield Row("SIGHUP that is not to be minded (nohup): plan", ["plan", "hot.toml"], 0, "", during=after_a_while(signal.SIGHUP, 0.03),
              how={"preexec_fn": lambda: signal.signal(signal.SIGHUP, signal.SIG_IGN)})
    yield Row("SIGKILL: the next run clears up", ["workshop", "roster.csv", "--into", "out"], 0, "", lambda folder: (folder / "out").mkdir() or
              (folder / "out/.heapwright-unfinished-Ab3xYz").write_text("<!DOCTYPE html>\n<!-- made of a roster -->\n<html"), ("out",), after=whole_handouts)


# --- what a terminal would obey ---

HARM = "\x1b]0;x\x07\x1b[31m\x9b31m\u202e\u2066\u061c\u2028\x7f"


def toml(text):
    return '"' + "".join(f"\\u{ord(c):04x}" if c in OBEYED or c in '"\\\n' else c for c in text) + '"'


def harmful_rows():
    name = f"<b onload=x>=1+1,{HARM}&"
    yard = (f"title = {toml(name + chr(13) + chr(10) + 'END:VCALENDAR')}\n{SUPPLY}" + f'[office]\nname = {toml(name)}\nlines = [{toml(name)}]\n{PILE}built = 2026-10-24\n'
            f'[[lawn.zone]]\nname = {toml(name)}\nshape = "area"\narea = "5000 ft2"\n'
            f'[[topdressing.offer]]\nname = {toml(name)}\nunit = "1 yd3"\nprice = 40\n[[container]]\nname = {toml(name)}\nvolume = "1 gal"\n')
    jobs = (f"[[job]]\nname = {toml(name)}\nsite = {{ name = {toml(name)}, contact = {toml(name)} }}\n"
            f'[[lawn.zone]]\nname = "a"\njob = {toml(name)}\nshape = "area"\narea = "5000 ft2"\n')
    mine = f'[[feedstock]]\nid = "mine"\nlike = "straw"\nname = "mine"\nalso = []\nnote = {toml(name)}\n'
    base = f'[columns]\n{toml(name)} = "people"\n'

    def row(fault, command, code, words="", files=None, **more):
        return Row(f"escapes and marks in {fault}", command, code, words, all_of(*(content(file, text.encode(errors="surrogateescape"))
                                                                                  for file, text in (files or {}).items())), **more)

    y = {"yard.toml": yard}
    any_code = {0, 1, 2}
    yield row("a yard", ["plan", "yard.toml", "--all"], any_code, ".*", y)
    yield row("a yard, JSON", ["plan", "yard.toml", "--json"], any_code, ".*", y)
    no_container = {"yard.toml": yard.split("[[container]]")[0]}
    yield row("a yard: page, calendar", ["plan", "yard.toml", "--all", "--html", "x.html", "--calendar", "x.ics"], 0, "", no_container, writes=("x.html", "x.ics"))
    yield row("a yard: handout", ["plan", "yard.toml", "--html", "x.html", "--shed-card", "--blank-log"], 0, "", no_container, writes=("x.html",))
    yield row("a yard: JSON", ["plan", "yard.toml", "--json", "--output", "x.json"], 0, "", no_container, writes=("x.json",))
    yield row("a yard: CSV, order sheet", ["topdress", "yard.toml", "--csv", "--output", "x.csv", "--order-sheet", "x.html"], 0, "", no_container, writes=("x.csv", "x.html"))
    yield row("a yard: charts", ["forecast", "yard.toml", "--html", "x.html"], 0, "",
              {"yard.toml": no_container["yard.toml"] + '[climate]\nlike = "cool"\n'}, writes=("x.html",))
    yield row("jobs", ["topdress", "yard.toml", "--csv", "--output", "x.csv"], any_code, ".*", {"yard.toml": jobs}, writes=("x.csv",))
    yield row("a note of one's own table", ["materials", "mine", "--materials", "mine.toml"], 0, "", {"mine.toml": mine})
    yield row("a name of one's own table", ["materials", "--materials", "mine.toml"], 2, "mine.toml:", {"mine.toml": mine.replace('"mine"', toml(name))})
    yield row("a map", ["topdress", "map.toml"], any_code, ".*", {"lawn.geojson": json.dumps(
        {"type": "Feature", "properties": {"name": name}, "geometry": {"type": "Polygon", "coordinates": [SQUARE]}})})
    yield row("a map that is none", ["topdress", "map.toml"], 2, "lawn.geojson", {"lawn.geojson": '{"type": "' + name.replace("\x1b", "\\u001b")})
    yield row("a track", ["topdress", "track.toml"], any_code, ".*", {"walk.gpx": FILES["walk.gpx"].replace("<name>a", "<name>" + HARM)})
    yield row("a log", ["readings", "--log", "log.csv"], 2, "log.csv:2:", {"log.csv": f"time,core degF,event\n2026-10-01,{name},{HARM}\n"})
    yield row("an event of a log", ["readings", "--log", "log.csv", "--all"], any_code, ".*", {"log.csv": f"time,core degF,event\n2026-10-01,120,{HARM}\n2026-10-02,120,\n"})
    yield row("days of weather", ["mix", "days.toml"], 2, "daily.csv:2:", {"daily.csv": f"date,air degF\n2025-01-01,{HARM}\n"})
    roster = {"roster.csv": f'household,name,leaves,other\n1,"{name}",3,\n2,"{name}",{HARM},\n3,b,3,"{HARM}"\n', "base.toml": base}
    yield row("a roster", ["workshop", "roster.csv", "--into", "out", "--names", "--base", "base.toml", "--html", "x.html"], 1, "roster.csv:3:", roster, writes=("out", "x.html"))
    yield row("a roster, JSON", ["workshop", "roster.csv", "--into", "out", "--names", "--json", "--output", "x.json"], 1, "roster.csv:3:", roster, writes=("out", "x.json"))
    yield row("a file that is not there", ["plan", f"{HARM}.toml"], 2, "there is no such file")
    yield row("a file with such a name", ["load", f"{HARM}.toml"], 0, "", {f"{HARM}.toml": FILES["yard.toml"]})
    yield row("the name of a roster", ["workshop", f"{HARM}.csv", "--into", f"out{HARM}"], 0, "", {f"{HARM}.csv": FILES["roster.csv"]}, writes=(f"out{HARM}",))
    yield row("the name of an output", ["mix", "--add", "leaves=3 bags", "--output", f"no{HARM}/x"], 2, "cannot be written")
    yield row("a word of the command line", ["mix", "--add", HARM], 2, "heapwright: ")
    yield row("an option", ["mix", "--" + HARM], 2, "heapwright: ")
    yield row("bytes of a file name that are no text", ["plan", b"\x9b31m\xff.toml"], 2, "there is no such file")
    yield row("what is typed of a load", ["load", "yard.toml", HARM], 2, "heapwright: ")


def harm_in(data):
    try:
        found = sorted(set(data.decode()) & OBEYED)
    except UnicodeDecodeError as error:
        return str(error)
    return "has " + ", ".join(f"U+{ord(c):04X}" for c in found) if found else None


def harm_in_file(path):
    """What must not stand in a file that was written, by its kind."""
    data = path.read_bytes()
    if path.suffix == ".ics":
        data = data.replace(b"\r\n", b"\n")
    wrong = harm_in(data)
    if not wrong and path.suffix == ".ics" and data.count(b"\nEND:VCALENDAR") != 1:
        wrong = "has a line that a name brought"
    if not wrong and path.suffix == ".html" and b"<b onload" in data:
        wrong = "has a tag that a name brought"
    if not wrong and path.suffix == ".json":
        json.loads(data)
    if not wrong and path.suffix == ".csv" and any(cell.startswith(("=", "+", "@")) for line in csv.reader(io.StringIO(data.decode())) for cell in line):
        wrong = "has a cell that runs as a formula"
    return f"{path.name} {wrong}" if wrong else None


# --- playing them ---

def described(folder):
    def one(path):
        status = path.lstat()
        if stat.S_ISREG(status.st_mode):
            is_small = status.st_size < 1 << 20 and os.access(path, os.R_OK)
            return path.read_bytes() if is_small else (status.st_ino, status.st_size, status.st_mtime_ns)
        return f"link to {os.readlink(path)}" if path.is_symlink() else status.st_mode
    return {str(path.relative_to(folder)): one(path) for path in folder.rglob("*")}


def wait_for_end(process, row, folder):
    if row.during:
        row.during(process, folder)
    try:
        return process.communicate(timeout=20)
    except subprocess.TimeoutExpired:
        process.kill()
        return process.communicate()


def run(program, row, folder):
    """Exit code, standard output, standard error, and what else is wrong."""
    how = dict(row.how)
    terminal, wrapped = how.pop("terminal", False), how.pop("wrapped", [])
    opened = []
    streams = {"stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    if how.get("stdout") == "pipe":
        read, how["stdout"] = os.pipe()
        os.close(read)
        opened.append(how["stdout"])
    for name in ("stdin", "stdout"):
        if isinstance(how.get(name), str):
            how[name] = os.open(folder / how[name], os.O_RDONLY if name == "stdin" else os.O_WRONLY | os.O_CREAT)
            opened.append(how[name])
    if terminal:
        try:
            ours, how["stdin"] = pty.openpty()
        except OSError as why:
            raise CannotPlay(f"there is no terminal to play it at: {why}") from why
        opened += [ours, how["stdin"]]
        before = termios.tcgetattr(ours)
    if row.as_nobody and os.geteuid() == 0:
        how |= {"user": NOBODY, "group": NOBODY, "extra_groups": []}
    process = subprocess.Popen([*wrapped, program, *row.command], cwd=folder, **{**streams, **how})
    out, err = wait_for_end(process, row, folder)
    wrong = []
    if terminal and termios.tcgetattr(ours) != before:
        wrong.append("the terminal is left in another mode")
    for descriptor in opened:
        os.close(descriptor)
    return process.returncode, out or b"", err or b"", wrong


def play(program, row, folder):
    for name, text in FILES.items():
        (folder / name).write_text(text, encoding="utf-8")
    folder.chmod(0o777)
    undo = row.prepare(folder) if row.prepare else None
    before = described(folder)
    code, out, err, wrong = run(program, row, folder)
    if callable(undo):
        undo()
    after = described(folder)
    codes = row.code if isinstance(row.code, set) else {row.code}
    if code not in codes:
        wrong.append(f"exit {code}")
    told = err.decode(errors="replace")
    if not re.search(row.words or "^$", told, re.DOTALL) and not (code == 0 and isinstance(row.code, set)):
        wrong.append(f"no {row.words!r}")
    if "fault of heapwright" in told or "terminate called" in told or "Sanitizer" in told:
        wrong.append("a fault of the program")
    for stream, data in (("standard output", out), ("standard error", err)):
        if harm := harm_in(data):
            wrong.append(f"{stream} {harm}")
    changed = {name for name in before.keys() | after.keys() if before.get(name) != after.get(name)}
    if others := {name for name in changed if pathlib.Path(name).parts[0] not in row.writes}:
        wrong.append(f"writes {sorted(others)}")
    if left := [name for name in after if ".heapwright-unfinished" in name]:
        wrong.append(f"leaves {left}")
    pages = [folder / name for name in changed if pathlib.Path(name).suffix in (".html", ".json", ".csv", ".ics") and (folder / name).is_file()]
    wrong += [found for path in pages if (found := harm_in_file(path))]
    if row.after and (found := row.after(folder, out.decode(errors="replace"))):
        wrong.append(found)
    return code, told, wrong


def rows(program):
    every = itertools.chain(reading_rows(), changing_rows(), materials_rows(program), writing_rows(program), stream_rows(program), signal_rows(program), harmful_rows())
    return [row for row in every if row is not None]


def cell(text):
    return "".join(c if c.isprintable() else "\ufffd" for c in text).replace("|", "\\|")


def main():
    source = pathlib.Path(sys.argv[1]).resolve()
    table = "--table" in sys.argv
    failures, skipped, played = [], [], 0
    if table:
        print("| Fault | Command | Exit code | Says | Holds |\n|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as top:
        top = pathlib.Path(top)
        top.chmod(0o755)  # for another user
        program = str(shutil.copy(source, top / "heapwright"))
        for number, row in enumerate(rows(program)):
            folder = top / str(number)
            folder.mkdir()
            try:
                code, told, wrong = play(program, row, folder)
            except CannotPlay as why:
                skipped.append(f"{row.fault}: {why}")
                continue
            finally:
                for path in [folder, *folder.rglob("*")]:
                    if path.is_dir() and not path.is_symlink():
                        path.chmod(0o755)
                shutil.rmtree(folder)
            played += 1
            command = " ".join(word if isinstance(word, str) else repr(word) for word in row.command)
            if wrong:
                failures.append(f"{row.fault} ({cell(command)[:100]}): {'; '.join(wrong)}\n    {cell(told)[:300]}")
            if table:
                said = told.splitlines()[0] if told else ""
                print(f"| {cell(row.fault)[:80]} | `{cell(command)[:80]}` | {SIGNALS.get(code, code)} | {cell(said)[:160]} | {'no: ' + cell('; '.join(wrong))[:160] if wrong else 'yes'} |")
    print("\n".join(failures))
    for row in skipped:
        print(f"skipped: {cell(row)}")
    print(f"{played} faults, {len(skipped)} skipped, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
