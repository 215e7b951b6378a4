"""Each answer's page: on a screen, on a narrow one, as HTML; whether all that the answer holds is on it.

usage: check_pages.py PROGRAM

The commands are those of pages.txt. Of each:
- the screen is at most 20 lines of 80 columns (22 for a plan, 110 for a problem sheet), but for a working that was asked for; at 48 columns none is wider;
- --why and --all say all that the shorter ones say, in the same order;
- each assumption and each caution of the JSON stands in --all, the caution in full;
- the HTML is well formed, fetches nothing and runs nothing, and says all that --all says, each figure of it too;
- a caution of the JSON that may burn, poison or infect, and belongs to what is done today, is on the screen.
Names that a person gives stand in the HTML as they were typed. Each command's help fits the screen and has an example.
"""
import fcntl
import html
import html.parser
import json
import os
import pathlib
import pty
import re
import shlex
import struct
import subprocess
import sys
import tempfile
import termios
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
COMMANDS = pathlib.Path(__file__).resolve().parent / "pages.txt"
WIDE, NARROW = 80, 48
MOST_LINES = {"plan": 22, "exercise": 110}
USUAL_LINES = 20
# The steps of the work that each command is asked for; a plan's are those of a pile yet to be built, where it stands under no name of its own.
TODAY = {"plan": {"gather", "build"}, "recipe": {"gather", "build"}, "mix": {"build"}, "pile": {"build"}, "forecast": {"build", "turn"},
         "readings": {"turn", "gather", "use"}, "maturity": {"use"}, "topdress": {"use"}, "season": {"gather", "build"},
         "workshop": {"gather", "build"},
         "plan examples/lawn-order.toml": {"use"}, "plan examples/sour-pile.toml": {"turn", "gather"}}
WORKING = "The working, step by step"
FIGURE = re.compile(r"\d+(?:[./]\d+)?")
VOID = {"meta", "br", "hr", "img", "input", "link"}

failures, checks = [], 0


def check(where, holds, what):
    global checks
    checks += 1
    if not holds:
        failures.append(f"{where}: {what}")


def run(program, command, *options):
    result = subprocess.run([program, *shlex.split(command), *options], cwd=ROOT, capture_output=True, text=True, timeout=120)
    check(command, result.returncode in (0, 1) and not result.stderr, f"exit {result.returncode}: {result.stderr}")
    return result.stdout


def on_a_terminal(program, command, columns):
    """What it prints on a terminal so wide; nothing where this machine gives none, as in a bare container."""
    try:
        ours, theirs = pty.openpty()
    except OSError:
        return None
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    attributes = termios.tcgetattr(theirs)
    attributes[1] &= ~termios.OPOST
    termios.tcsetattr(theirs, termios.TCSANOW, attributes)
    process = subprocess.Popen([program, *shlex.split(command)], cwd=ROOT, stdin=subprocess.DEVNULL, stdout=theirs, stderr=subprocess.DEVNULL)
    os.close(theirs)
    text = b""
    while True:
        try:
            piece = os.read(ours, 65536)
        except OSError:  # the other end is closed
            break
        if not piece:
            break
        text += piece
    process.wait(timeout=120)
    os.close(ours)
    return text.decode("utf-8")


class Page(html.parser.HTMLParser):
    """The text of a page; notes what is not well formed, runs, or is fetched."""

    def __init__(self):
        super().__init__()
        self.open, self.text, self.faults = [], [], []

    def handle_starttag(self, tag, attributes):
        if tag not in VOID:
            self.open.append(tag)
        self.look_at(tag, attributes)

    def handle_startendtag(self, tag, attributes):
        self.look_at(tag, attributes)

    def look_at(self, tag, attributes):
        if tag in ("script", "iframe", "object", "embed", "link", "img", "base", "a", "form"):
            self.faults.append(f"<{tag}>")
        for name, value in attributes:
            if name.startswith("on") or name in ("src", "href", "style") or "javascript:" in (value or "").lower():
                self.faults.append(f"{name}={value}")
            if name == "aria-label":
                self.text.append(value)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"</{tag}> closes another")

    def handle_data(self, data):
        if self.open and self.open[-1] == "style":
            if "url(" in data or "@import" in data:
                self.faults.append("style fetches")
        else:
            self.text.append(data)


def read_page(text):
    page = Page()
    page.feed(text)
    page.close()
    if page.open:
        page.faults.append(f"left open: {page.open}")
    if "://" in text.replace('xmlns="http://www.w3.org/2000/svg"', ""):
        page.faults.append("an address")
    return page


def plain(text):
    return " ".join(text.split())


def without_markers(line):
    """A line of a list without what the list puts before it."""
    return re.sub(r"^\s*(?:-|\d+\.)\s+", "", line)


def words_of(text):
    return re.findall(r"[^\W\d_]+|\d+(?:[./]\d+)?", text)


def check_screens(program, command, html_file):
    name = command.split()[0]
    act, why, whole = run(program, command), run(program, command, "--why"), run(program, command, "--all", "--html", html_file)
    lines = act.rstrip("\n").split("\n")
    if WORKING not in act:
        check(command, len(lines) <= MOST_LINES.get(name, USUAL_LINES), f"{len(lines)} lines")
    for text in (act, why, whole):
        wide = [line for line in text.split("\n") if len(line) > WIDE]
        check(command, not wide, f"wider than {WIDE}: {wide[:1]}")
    for options in ("", " --all"):
        narrow = on_a_terminal(program, command + options, NARROW)
        if narrow is None:
            continue
        wide = [line for line in narrow.split("\n") if len(line) > NARROW and " " in line.strip()]
        check(command + options, narrow and not wide, f"wider than {NARROW}: {wide[:1]}")
    for shorter, longer in ((act, why), (why, whole)):
        said = [line for line in shorter.split("\n") if "--all" not in line]
        check(command, longer.startswith("\n".join(said).rstrip("\n")), "the longer screen does not begin with the shorter one")
    return act, whole


def check_grounds(program, command, act, whole, harmful):
    answer = json.loads(run(program, command, "--json"))
    said = plain(whole)
    for assumption in answer.get("assumptions", []):
        check(command, assumption["what"] in said, f"assumption not said: {assumption['what']}")
    for caution in answer.get("cautions", []):
        check(command, plain(caution["text"]) in said, f"caution not said: {caution['id']}")
    shown = plain(act)
    if "Everything else can wait" in shown or not answer.get("assumptions") and command.split()[0] in ("mix", "recipe", "pile"):
        return  # a fire, or nothing to do
    for caution in answer.get("cautions", []):
        row = harmful.get(caution["id"])
        if row and row["step"] in TODAY.get(command, TODAY[command.split()[0]]):
            check(command, row["in_short"] in shown, f"a caution that may burn, poison or infect is left out: {caution['id']}")


def check_html(command, whole, html_file):
    page = read_page(pathlib.Path(html_file).read_text(encoding="utf-8"))
    check(command, not page.faults, f"HTML: {page.faults[:3]}")
    said = set(words_of(" ".join(page.text)))
    for line in whole.split("\n"):
        missing = [word for word in words_of(without_markers(line)) if word not in said]
        check(command, not missing, f"not in the HTML: {missing} of {line!r}")


def check_helps(program, names):
    """Each command's help fits, and has an example to copy."""
    for name in names:
        text = run(program, f"{name} --help")
        wide = [line for line in text.split("\n") if len(line) > WIDE]
        check(f"{name} --help", not wide, f"wider than {WIDE}: {wide[:1]}")
        check(f"{name} --help", re.search(rf"^Examples?:\n  heapwright {name}", text, re.MULTILINE), "has no example")


def check_names(program, folder):
    """Names stand as they were typed, whatever they hold."""
    for name in ("<b>&\"'</b>", "a < b && c > d", "\U0001F342 leaves \U0001F40C", "\u05e2\u05dc\u05d9\u05dd \u05d5\u05e2\u05e9\u05d1", "x" * 1000):
        yard = pathlib.Path(folder, "yard.toml")
        quoted = name.replace("\\", "\\\\").replace('"', '\\"')
        yard.write_text(f'title = "{quoted}"\n[[supply]]\nfeedstock = "leaves-fall"\namount = "20 leaf-bag"\n[[lawn.zone]]\nname = "{quoted}"\n'
                        'shape = "area"\narea = "1000 ft2"\n[[lawn.zone]]\nname = "back"\nshape = "area"\narea = "500 ft2"\n', encoding="utf-8")
        path = pathlib.Path(folder, "names.html")
        path.unlink(missing_ok=True)
        run(program, f"plan {shlex.quote(str(yard))}", "--html", str(path))
        page = read_page(path.read_text(encoding="utf-8"))
        check(f"name {name[:20]!r}", not page.faults, page.faults[:3])
        check(f"name {name[:20]!r}", page.text.count(name) >= 2, "does not stand in the HTML as it was typed")


def a_class(program, folder):
    """The command of a small class, whose handouts are made already: another run says just that."""
    run(program, f"workshop --new {folder}/roster.csv")
    command = f"workshop {folder}/roster.csv --into {folder}/handouts --today 2026-10-24"
    run(program, command)
    return command


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with open(ROOT / "materials" / "cautions.toml", "rb") as file:
        harmful = {row["id"]: row for row in tomllib.load(file)["caution"] if row.get("harms") and not row.get("first")}
    commands = [line for line in COMMANDS.read_text(encoding="utf-8").split("\n") if line and not line.startswith("#")]
    with tempfile.TemporaryDirectory() as folder:
        commands.append(a_class(program, folder))
        for number, command in enumerate(commands):
            html_file = str(pathlib.Path(folder, f"{number}.html"))
            act, whole = check_screens(program, command, html_file)
            check_grounds(program, command, act, whole, harmful)
            check_html(command, whole, html_file)
        check_names(program, folder)
    check_helps(program, sorted({command.split()[0] for command in commands} | {"materials", "new"}))
    print("\n".join(failures[:40]))
    if on_a_terminal(program, "--version", NARROW) is None:
        print("no terminal here, so none of 48 columns was checked")
    print(f"{checks} checks of {len(commands)} pages, {len(failures)} failures")
    return 1 if failures or not commands else 0


if __name__ == "__main__":
    sys.exit(main())
