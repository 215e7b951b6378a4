"""The guided start, `new FILE --ask`: what people say at each question, and the yard file and the plan that come of it.

usage: check_sessions.py PROGRAM
"""
import dataclasses
import datetime
import json
import os
import pathlib
import random
import re
import shlex
import subprocess
import sys
import tempfile
import threading
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
QUESTIONS = tomllib.loads((ROOT / "materials/questions.toml").read_text(encoding="utf-8"))["question"]
FILE = "yard.toml"
PROMPT = b"] > "
WIDTH = 80
RANDOM_SESSIONS, SEED = 100, 20261107

# A whole yard; Enter takes the default where nothing stands here.
YARD = {
    "leaves": "20", "clippings": "6 buckets", "treated": "no", "scraps": "4",
    "other": "2 buckets of coffee grounds, 1 bale of straw", "treated-other": "no", "bin": "5 by 3 1/2 by 4", "built": "2026-11-07",
    "turn": "every 10 days", "winter": "28 and 74", "lawn": "60 ft by 30 ft", "near-water": "yes",
}
YARD_FILE = {
    "title": "My yard",
    "supply": [
        {"feedstock": "leaves-fall", "amount": "20 leaf-bag"},
        {"feedstock": "grass-clippings", "amount": "6 buckets", "when": {"every": "week", "from": "Apr", "to": "Oct"}, "treated": "no"},
        {"feedstock": "kitchen-scraps", "estimate": {"people": 4}, "when": {"every": "week"}},
        {"feedstock": "coffee-grounds", "amount": "2 buckets"},
        {"feedstock": "straw", "amount": "1 bale", "treated": "no"},
    ],
    "heap": {"shape": "bin", "length": "5 ft", "width": "3 1/2 ft", "height": "4 ft", "built": datetime.date(2026, 11, 7), "turn_every": "10 days"},
    "climate": {"coldest_month": "28 degF", "warmest_month": "74 degF"},
    "lawn": {"zone": [{"name": "lawn", "shape": "area", "area": "60 ft by 30 ft"}]},
    "topdressing": {"depth": "1/4 in", "near_water": True},
}
# The way past every question.
EVERY = YARD | {"leaves": "?", "trees": "2"}
ALL_QUESTIONS = [row["id"] for row in QUESTIONS]

DO_NOT_KNOW = [
    "?", "don't know", "dont know", "don’t know", "do not know", "unknown", "not sure", "no idea", "dunno", "idk", "I don't know", "Don’t Know",
    "NOT SURE", "  ?  ", "\t?", "?\r",
]

# question, what is said, what it means in plain words: both make the same plan.
SAME = [
    ("leaves", "20 bags", "20"), ("leaves", "20 Leaf-Bags", "20"), ("leaves", "20 leaf-bag", "20"), ("leaves", "  20\t", "20"), ("leaves", "20.0", "20"),
    ("leaves", "0.9 m3", "900 L"), ("leaves", "900 LITERS", "900 L"), ("leaves", "2 cubic yards", "54 ft3"), ("leaves", "1½ yd3", "1.5 yd3"),
    ("leaves", "0 bags", "0"), ("leaves", "none", "0"), ("leaves", "1,000 lb", "1000 lb"), ("leaves", "1,000", "1000"), ("leaves", "half a bag", "0.5"),
    ("trees", "3 trees", "3"), ("trees", "one", "1"), ("trees", "2½", "2.5"),
    ("clippings", "6", "6 buckets"), ("clippings", "6 Five-Gallon Buckets", "6"), ("clippings", "none", "0"), ("clippings", "113 l", "113 L"),
    ("treated", "Y", "yes"), ("treated", "NOPE", "no"), ("treated", "unknown", "?"),
    ("scraps", "4 people", "4"), ("scraps", "none", "0"), ("scraps", "4.0", "4"),
    ("other", "coffee grounds: 2 buckets; straw = 1 bale", YARD["other"]), ("other", "2 Buckets OF Coffee Grounds AND a Bale of straw", YARD["other"]),
    ("other", "none", "nothing"), ("other", "nope", "nothing"), ("other", "nothing else", "nothing"), ("other", "1,000 lb of straw", "1000 lb of straw"),
    ("other", "2 buckets of coffee grounds and filters", "2 buckets of coffee grounds"),
    ("other", "1 bucket of horse manure and bedding", "1 bucket of stable bedding"), ("other", "1 bucket of lemons and limes", "1 bucket of lemons"),
    ("other", "half of a bale of straw", "half a bale of straw"), ("other", "2 39 gallon lawn and leaf bags of straw", "2 39 gallon bags of straw"),
    ("bin", "4", "4 by 4 by 4"), ("bin", "4 by 3", "4 by 4 by 3"), ("bin", "4x4x3", "4 by 4 by 3"), ("bin", "4 X 4 X 3", "4 by 4 by 3"),
    ("bin", "4, 4, 3", "4 by 4 by 3"), ("bin", "4 × 4 × 3", "4 by 4 by 3"), ("bin", "4'x4'x3'", "4 by 4 by 3"), ("bin", "4 by 4 by 3 ft", "4 by 4 by 3"),
    ("bin", '48" by 48" by 36"', "4 by 4 by 3"), ("bin", "48” by 48” by 36”", "4 by 4 by 3"), ("bin", "4’ by 4’ by 3’", "4 by 4 by 3"),
    ("bin", "6 ft 6 in by 4 ft by 3 ft", "6.5 by 4 by 3"), ("bin", "6' 6\" by 4' by 3'", "6.5 by 4 by 3"), ("bin", "6 ft 6 in", "6.5"),
    ("bin", "120 cm by 120 cm by 90 cm", "1.2 m by 1.2 m by 0.9 m"), ("bin", "4½ by 4 by 4", "4 1/2 by 4 by 4"),
    ("built", "2026-1-7", "2026-01-07"), ("built", "NOW", "today"),
    ("turn", "10", "10 days"), ("turn", "every 2 weeks", "14"), ("turn", "Every Week", "7"), ("turn", "2 weeks", "14"), ("turn", "0", "never"), ("turn", "NEVER", "never"),
    ("winter", "28 °F and 74 °F", "28 and 74"), ("winter", "28F, 74F", "28 and 74"), ("winter", "28 to 74", "28 and 74"), ("winter", "0 °C and 25 °C", "32 and 77"),
    ("winter", "−10 °C and 20 °C", "14 and 68"), ("winter", "−5 and 70", "-5 and 70"), ("winter", "Very Cold", "very-cold"),
    ("lawn", "5,000 sq ft", "5000"), ("lawn", "5,000", "5000"), ("lawn", "60' by 30'", "1800"), ("lawn", "60′ x 30′", "1800"), ("lawn", "60 x 30 ft", "1800"),
    ("lawn", "60' 6\" by 30'", "1815"), ("lawn", "1/4 Acre", "10890"), ("lawn", "20 m by 10 m", "200 m²"), ("lawn", "no", "0"), ("lawn", "0 ft2", "0"),
    ("near-water", "YES", "yes"), ("near-water", "n", "no"), ("near-water", "?", "yes"),
]

# What is easily misread: refused with what would be right, or read as it is meant.
MEANT = [
    ("leaves", "12\rbags", "12 bags"), ("other", "2 \r buckets of straw", "2 buckets of straw"),
    ("trees", "a dozen", "12"), ("scraps", "a dozen", "12"), ("scraps", "2 adults and 2 kids", "4"),
    ("bin", "1.2 x 1.2 x 1 m", "1.2 m by 1.2 m by 1 m"), ("bin", "48 by 48 by 36 in", "48 in by 48 in by 36 in"), ("lawn", "60 by 30", "1800"),
    ("winter", "-3 and 22 °C", "-3 °C and 22 °C"),
    ("other", "2 buckets coffee grounds", "2 buckets of coffee grounds"),
]

NONSENSE = ["nonsense", "-3", "nan", "1e400", "x" * 10_000, "🍂🍂", "a\tb", "-1 bucket", "\x07", b"\xff\xfe", b"\x00", '"', "\\", "}{"]
KEPT_OUT = ["dog poop", "2 buckets of dog poop", "1 bucket of meat scraps", "meat", "cat litter", "1 bag of cat litter", "cat litter: 1 bag", "2 buckets of straw, meat"]
NONSENSE_AT = {
    "leaves": ["6 ft", "6 ft2", "6 dogs", "half", "1/0", "2 ton", "2,5", "dog poop", "cat litter", "12-15"],
    "trees": ["4 buckets", "6 lb", "3 dog poop", "2 to 3", "0x10", "1001", "6 6"],
    "clippings": ["6 ft", "meat", "1 imp gal"],
    "treated": ["maybe", "6", "no and yes"],
    "scraps": ["4 buckets", "6 lb", "3 dog poop", "2 to 3", "0x10", "1001", "meat", "cat litter"],
    "other": [*KEPT_OUT, "6", "6 of straw", "straw: 6", "coffee grounds", "2 ft of straw", "1 bag of urea", ",", "of", "2 buckets of", "0.5.5 buckets of straw",
              "2 buckets of green leaves", ", ".join(["1 bucket of straw"] * 101)],
    "treated-other": ["maybe", "6", "the farmer"],
    "bin": ["0", "4 by 4 by 4 by 4", "64 gal", "4 by wide by 4", "4 by -4 by 4", "4 ft2", "by"],
    "built": ["2026-13-07", "2026-02-31", "13/7/2026", "2026-11", "-2026-11-07", "2026--11-07", "November", "12026-11-07"],
    "turn": ["6 lb", "every", "-14 days", "every nan", "2 ft"],
    "winter": ["76 and 30", "30", "30 and nan", "-500 and 76", "30 and 76 and 90", "zone 6", "200 and 300", "30 lb and 76 lb"],
    "lawn": ["6 lb", "60 ft", "60 ft by 30 ft by 10 ft", "-60 ft by 30 ft", "4 gal", "60 ft by wide"],
    "near-water": ["maybe", "6", "a pond"],
}
WOULD_BE_RIGHT = r"\bwrite\b|did you mean|\bsay\b|\bit has\b|lists them|in the trash|down the drain"

# Amounts at the edge of what a number holds: refused, or the session ends in a plan.
EXTREMES = [
    ("leaves", "1e-20 lb"), ("leaves", "1e-320 yd3"), ("leaves", "0.00000000000000000000001"), ("leaves", "1e12 yd3"), ("clippings", "1e-300 lb"), ("clippings", "1e12 yd3"),
    ("trees", "0.00001"), ("trees", "1e-300"), ("trees", "1000"), ("scraps", "1e-16"), ("scraps", "1e-300"), ("scraps", "1000"),
    ("other", "1e-300 lb of straw"), ("other", "1e12 lb of urea"), ("other", "0 buckets of straw"), ("other", ", ".join(["1 bucket of straw"] * 98)),
    ("bin", "1e-300 ft"), ("bin", "1e12 ft"), ("built", "0000-01-01"), ("built", "9999-12-31"), ("turn", "1e-300 h"), ("turn", "1000000"),
    ("winter", "-130 and 76"), ("winter", "30 and 30"), ("lawn", "1e-300 ft2"), ("lawn", "1e12 ft by 1e12 ft"),
]

# name, answers beside Enter, questions that must be asked, questions that must not
BRANCHES = [
    ("leaves known", {}, [], ["trees"]),
    ("no leaves", {"leaves": "0"}, [], ["trees"]),
    ("leaves unknown", {"leaves": "?"}, ["trees"], []),
    ("no clippings", {"clippings": "0"}, [], ["treated"]),
    ("clippings of no buckets", {"clippings": "0 buckets"}, [], ["treated"]),
    ("clippings", {"clippings": "2"}, ["treated"], []),
    ("clippings unknown", {"clippings": "?"}, ["treated"], []),
    ("nothing else", {"other": "nothing"}, [], ["treated-other"]),
    ("else unknown", {"other": "?"}, [], ["treated-other"]),
    ("coffee", {"other": "2 buckets of coffee grounds"}, [], ["treated-other"]),
    ("straw", {"other": "1 bale of straw"}, ["treated-other"], []),
    ("hay behind coffee", {"other": "2 buckets of coffee grounds, 1 bale of hay"}, ["treated-other"], []),
    ("horse manure", {"other": "1 bucket of horse manure"}, ["treated-other"], []),
    ("chicken manure", {"other": "1 bucket of chicken manure"}, [], ["treated-other"]),
    ("no straw", {"other": "0 bales of straw"}, [], ["treated-other"]),
    ("no lawn", {"lawn": "0"}, [], ["near-water"]),
    ("lawn unknown", {"lawn": "?"}, [], ["near-water"]),
    ("lawn", {"lawn": "10"}, ["near-water"], []),
]

# Two answers to each question that must not come to the same plan: nothing is asked in vain.
MATTERS = {
    "leaves": ("20", "3"), "trees": ("1", "5"), "clippings": ("6", "0"), "treated": ("no", "yes"), "scraps": ("0", "6"), "other": ("nothing", "2 bales of straw"),
    "treated-other": ("no", "yes"), "bin": ("2", "6"), "built": ("2026-11-07", "2026-05-07"), "turn": ("never", "3"), "winter": ("bitter", "frost-free"),
    "lawn": ("1000", "5000"), "near-water": ("no", "yes"),
}

# Which question was asked and what was said to it, in order; then the answers that it comes to.
BACK = [
    ("one step", [("leaves", "12"), ("clippings", "back"), ("leaves", "20"), ("clippings", "6 buckets")], {}),
    ("from the first question", [("leaves", "back"), ("leaves", "back"), ("leaves", "20"), ("clippings", "back"), ("leaves", "back"), ("leaves", "20")], {}),
    ("many steps", [("leaves", "12"), ("clippings", "2"), ("treated", "yes"), ("scraps", "2"), ("other", "nothing"), ("bin", "3"), ("built", "today"),
                    ("turn", "never"), ("winter", "cold"), ("lawn", "1 acre"), ("near-water", "back"), ("lawn", "back"), ("winter", "back"), ("turn", "back"),
                    ("built", "back"), ("bin", "back"), ("other", "back"), ("scraps", "back"), ("treated", "back"), ("clippings", "back"), ("leaves", "20")], {}),
    ("trees asked, then not", [("leaves", "?"), ("trees", "3"), ("clippings", "back"), ("trees", "back"), ("leaves", "20"), ("clippings", "6 buckets")], {}),
    ("trees not asked, then asked", [("leaves", "20"), ("clippings", "back"), ("leaves", "?"), ("trees", "3"), ("clippings", "6 buckets")], {"leaves": "?", "trees": "3"}),
    ("clippings taken back", [("leaves", "20"), ("clippings", "6"), ("treated", "yes"), ("scraps", "back"), ("treated", "back"), ("clippings", "0"), ("scraps", "4")], {"clippings": "0"}),
    ("treated changed", [("leaves", "20"), ("clippings", "6 buckets"), ("treated", "yes"), ("scraps", "back"), ("treated", "no"), ("scraps", "4")], {}),
    ("straw taken back", [("leaves", "20"), ("clippings", "6 buckets"), ("treated", "no"), ("scraps", "4"), ("other", "1 bale of straw"), ("treated-other", "yes"),
                          ("bin", "back"), ("treated-other", "back"), ("other", "nothing"), ("bin", YARD["bin"])], {"other": "nothing"}),
    ("after a refusal", [("leaves", "12"), ("clippings", "nonsense"), ("clippings", "back"), ("leaves", "20"), ("clippings", "6 buckets")], {}),
    ("upper case", [("leaves", "12"), ("clippings", "BACK"), ("leaves", "20"), ("clippings", "6 buckets")], {}),
    ("spaces", [("leaves", "12"), ("clippings", "  back "), ("leaves", "20"), ("clippings", "6 buckets")], {}),
    ("CRLF", [("leaves", "12\r"), ("clippings", "back\r"), ("leaves", "20\r"), ("clippings", "6 buckets\r")], {}),
]
LAWN_TAKEN_BACK = [(question, YARD[question]) for question in ALL_QUESTIONS if question in YARD][:-1] + [("near-water", "back"), ("lawn", "0")]

# What random sessions choose from, beside Enter, don't know, back and what SAME says.
POOLS = {
    "leaves": ["12", "3", "1", "0", "40", "6 garbage bags", "2 yd3", "200 lb", "half a bag", "3 m3", "2 wheelbarrow loads", "1 contractor bag"],
    "trees": ["1", "2", "5", "12", "0", "one"],
    "clippings": ["6", "1", "0", "2 grass-catchers", "40 L", "30 kg", "1/2 bucket", "1 riding mower bag", "20"],
    "treated": ["yes", "no", "n", "y"],
    "scraps": ["0", "1", "2", "3", "6", "none"],
    "other": ["nothing", "1 bale of straw", "half a bale of hay", "2 buckets of coffee grounds", "3 bags of wood chips", "1 bucket of chicken manure",
              "2 wheelbarrow loads of horse manure, 1 bag of sawdust", "5 lb of cardboard and 2 lb of newspaper", "1 bucket of weeds", "20 lb of vegetable scraps",
              "2 cups of blood meal", "4 bags of pine needles", "1 garden cart of brush", "1 pail of eggshells", "3 buckets of seaweed", "5 lb of urea",
              "coffee grounds: 1 coffee can; hay = 2 bales", "1 bucket of garden soil", "2 buckets of old compost", "6 grocery bags of shredded paper"],
    "bin": ["4", "3 by 3 by 3", "5 by 5 by 4", "8 ft by 4 ft by 4 ft", '36" by 36" by 36"', "1 m", "10 by 5 by 5", "2"],
    "built": ["today", "2026-11-07", "2026-04-15", "2026-07-01", "2024-02-29", "2027-1-2"],
    "turn": ["never", "3", "14", "every week", "30 days", "1", "every 3 weeks", "90"],
    "winter": ["cool", "cold", "very-cold", "mild", "warm", "bitter", "hot-desert", "frost-free", "30 and 76", "-5 and 70", "0 °C and 24 °C", "50 and 50"],
    "lawn": ["5000", "1000", "0", "60 ft by 30 ft", "450 m2", "1/4 acre", "25' by 12'", "100", "none"],
    "near-water": ["yes", "no"],
}


def in_one_line(text):
    return " ".join(text.split())


def as_bytes(answer):
    return answer if isinstance(answer, bytes) else answer.encode("utf-8")


@dataclasses.dataclass
class Turn:
    """A question, the answer to it, and what the program said to that before it asked on."""
    number: int
    question: str
    answer: bytes = b""
    said: str = ""


@dataclasses.dataclass
class Session:
    options: tuple
    turns: list = dataclasses.field(default_factory=list)
    code: int = None
    stdout: bytes = b""
    end: str = ""  # what stderr has behind the last answer
    strays: list = dataclasses.field(default_factory=list)  # what is wrong with the prompts
    folder: pathlib.Path = None

    def asked(self):
        return [turn.question for turn in self.turns]

    def names(self):
        return sorted(path.name for path in self.folder.iterdir())

    def file(self):
        path = self.folder / FILE
        return path.read_bytes() if path.exists() else None

    def told(self):
        """All of it, for a failure: the answers, and how it ended."""
        said = [f"{turn.question}: {as_text(turn.answer)[:60]!r}" + (f" -> {in_one_line(turn.said)[:200]}" if turn.said else "") for turn in self.turns]
        return "    new " + shlex.join((FILE, "--ask", *self.options)) + "\n    " + "\n    ".join(said) + f"\n    exit {self.code}: {in_one_line(self.end)[:400]}"


def as_text(data):
    return data.decode("utf-8", "replace")


def question_asked(prompt, session):
    """The number and the row of the question that a prompt puts; it shows the row's words, its example and what Enter takes."""
    number, words = in_one_line(prompt).split(". ", 1)
    row = next((row for row in QUESTIONS if words.startswith(row["ask"])), None)
    if row is None:
        raise ValueError(f"questions.toml does not have: {words}")
    usual = "don't know" if row["default"] == "?" else row["default"]
    if words != f"{row['ask']} {row['example']} [{usual}] >":
        session.strays.append(f"the prompt reads {words!r}")
    session.strays.extend(f"{len(line)} columns: {line}" for line in prompt.split("\n") if len(line) > WIDTH)
    return int(number), row["id"]


class Checks:
    def __init__(self, program, folder):
        self.program, self.folder = program, pathlib.Path(folder)
        self.failures, self.count, self.folders = [], 0, 0
        # A time zone in which it is noon: no session runs over midnight.
        self.environment = os.environ | {"TZ": f"NOON{datetime.datetime.now(datetime.timezone.utc).hour - 12}"}

    def expect(self, name, right, what, session=None):
        self.count += 1
        if not right:
            self.failures.append(f"{name}: {what}" + (f"\n{session.told()}" if session else ""))
        return right

    def new_folder(self):
        self.folders += 1
        folder = self.folder / str(self.folders)
        folder.mkdir()
        return folder

    def run(self, folder, *arguments, **more):
        more = {"stdin": subprocess.DEVNULL} | more if "input" not in more else more
        return subprocess.run([self.program, *arguments], cwd=folder, capture_output=True, timeout=60, env=self.environment, **more)

    def talk(self, reply, *options, folder=None):
        """Gives reply(question, turns before) at each prompt, until the program ends. Bytes without a newline end the input."""
        session = Session(options, folder=folder or self.new_folder())
        command = [self.program, "new", FILE, "--ask", *options]
        with tempfile.TemporaryFile() as stdout, subprocess.Popen(
                command, cwd=session.folder, stdin=subprocess.PIPE, stdout=stdout, stderr=subprocess.PIPE, env=self.environment) as process:
            watch = threading.Timer(60, process.kill)
            watch.daemon = True
            watch.start()
            said = b""
            while piece := os.read(process.stderr.fileno(), 1 << 16):
                said += piece
                if not said.endswith(PROMPT) or process.stdin.closed:
                    continue
                before, _, prompt = as_text(said).rpartition("\n\n")
                if session.turns:  # the first line repeats the answer
                    session.turns[-1].said = before.partition("\n")[2]
                turn = Turn(*question_asked(prompt, session))
                turn.answer = reply(turn.question, session.turns)
                session.turns.append(turn)
                process.stdin.write(turn.answer)
                process.stdin.flush()
                if not turn.answer.endswith(b"\n"):
                    process.stdin.close()
                said = b""
            session.end = as_text(said)
            if session.turns:
                session.turns[-1].said = re.split(r"\n(?=Written to|heapwright:)", session.end.partition("\n")[2])[0].strip("\n")
            if not process.stdin.closed:
                process.stdin.close()
            session.code = process.wait()
            watch.cancel()
            stdout.seek(0)
            session.stdout = stdout.read()
        return session

    def answer(self, answers, *options, **more):
        """A session that gives each question its answer, twice where it is refused; of a list one after the other; then Enter."""
        def reply(question, turns):
            given = answers.get(question, "")
            given = given if isinstance(given, list) else [given, given]
            turn = sum(turn.question == question for turn in turns)
            return as_bytes(given[turn] if turn < len(given) else "") + b"\n"
        return self.talk(reply, *options, **more)

    # --- what a session must be ---

    def numbered(self, name, session):
        """The prompts count up, down at back, and stay at a refusal."""
        for turn, after in zip(session.turns, session.turns[1:]):
            back = turn.answer.strip().lower() == b"back"
            may_follow = {max(1, turn.number - 1)} if back else {turn.number, turn.number + 1}
            if not self.expect(name, after.number in may_follow, f"question {turn.number} is followed by {after.number}", session):
                return
        self.expect(name, not session.turns or session.turns[0].number == 1, "the first question is not number 1", session)
        self.expect(name, not session.strays, "; ".join(session.strays[:3]))

    def finished(self, name, session):
        """It came to a file and a plan."""
        self.numbered(name, session)
        return self.expect(name, session.code in (0, 1) and session.stdout and session.names() == [FILE],
                           f"exit {session.code}, {len(session.stdout)} bytes of plan, files {session.names()}", session)

    def nothing_written(self, name, session):
        right = session.code == 2 and not session.stdout and not session.names() and "nothing is written" in session.end
        self.expect(name, right, f"exit {session.code}, {len(session.stdout)} bytes on standard output, leaves {session.names()}", session)

    def whole(self, name, session):
        """finished(), and every command takes the file, and the plan that was shown is the plan of the file."""
        if not self.finished(name, session):
            return
        text = as_text(session.file())
        self.expect(name, text.endswith("\n") and "\r" not in text, "the file does not end its lines with newlines", session)
        try:
            tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            self.expect(name, False, f"the file is not TOML: {error}", session)
            return
        for command in ("plan", "recipe", "mix", "topdress"):
            result = self.run(session.folder, command, FILE)
            self.expect(name, result.returncode in (0, 1) and not result.stderr and result.stdout,
                        f"{command}: exit {result.returncode}: {as_text(result.stderr)}", session)
            if command == "plan":
                self.expect(name, result.stdout == session.stdout and result.returncode == session.code, "`plan` prints another plan than `new`", session)
                wide = [line for line in as_text(result.stdout).split("\n") if len(line) > WIDTH]
                self.expect(name, not wide, f"the plan is too wide: {wide[:1]}", session)
        given = b"".join(turn.answer for turn in session.turns)
        for options in (("--json",), ("--units", "si")):
            folder = self.new_folder()
            made = self.run(folder, "new", FILE, "--ask", *options, input=given)
            planned = self.run(folder, "plan", FILE, *options)
            self.expect(name, made.returncode == planned.returncode == session.code and made.stdout == planned.stdout,
                        f"{options}: `plan` prints another plan than `new`", session)
            self.expect(name, (folder / FILE).exists() and (folder / FILE).read_bytes() == session.file(), f"{options}: another file", session)
            if options == ("--json",) and made.stdout:
                json.loads(made.stdout, parse_constant=lambda word: self.expect(name, False, f"JSON with {word}", session))


# --- the sessions ---


def check_whole_yards(checks):
    checks.whole("all defaults", checks.answer({}))
    real = checks.answer(YARD)
    checks.whole("a whole yard", real)
    if real.file():
        found = tomllib.loads(as_text(real.file()))
        checks.expect("a whole yard", found == YARD_FILE, f"the file says\n{found}\n    where it should say\n{YARD_FILE}")
    every = checks.answer(EVERY)
    checks.whole("every question", every)
    checks.expect("every question", every.asked() == ALL_QUESTIONS, f"asks {every.asked()}", every)
    zero = {question: "0" for question in ("leaves", "trees", "clippings", "scraps", "other", "turn", "lawn")}
    nothing = checks.answer(zero)
    checks.whole("zero for everything", nothing)
    checks.expect("zero for everything", nothing.code == 1 and b"[[supply]]" not in (nothing.file() or b""), "there is no heap of nothing: exit 1", nothing)
    other_units = {"leaves": "3 m3", "clippings": "80 L", "treated": "no", "other": "20 kg of hay; 100 L of sawdust", "treated-other": "no",
                   "bin": "1.2 m by 1.2 m by 1 m", "turn": "2 weeks", "winter": "-3 °C and 22 °C", "lawn": "450 m²"}
    checks.whole("metric units", checks.answer(other_units))
    checks.whole("feet and inches", checks.answer(YARD | {"bin": '48" by 48" by 36"', "lawn": "60' 6\" x 30'"}))
    checks.whole("curly quotes", checks.answer(YARD | {"bin": "48” by 4’ 6” by 36”", "lawn": "60’ 6” by 30′"}))


def check_manners(checks):
    """The same yard in capitals, among spaces, with the line ends of another system: the same file and plan."""
    plain = checks.answer(YARD)
    for name, manner in (
        ("capitals", str.upper),
        ("spaces", lambda answer: f"  {answer} \t"),
        ("wide spaces", lambda answer: answer.replace(" ", "  ")),
        ("CRLF", lambda answer: answer + "\r"),
    ):
        session = checks.answer({question: manner(answer) for question, answer in YARD.items()})
        checks.whole(name, session)
        checks.expect(name, session.stdout == plain.stdout, "comes to another plan than the same answers plainly", session)
    for name, line in (("Enter and CRLF", "\r"), ("spaces alone", "   "), ("a tab alone", "\t")):
        session = checks.answer({question: line for question in ALL_QUESTIONS})
        checks.expect(name, session.code == 0 and session.file() == checks.answer({}).file(), "is not read like Enter", session)


def check_do_not_know(checks):
    plain = checks.answer({question: "?" for question in ALL_QUESTIONS})
    checks.whole("all don't know", plain)
    for words in DO_NOT_KNOW:
        session = checks.answer({question: [words] for question in ALL_QUESTIONS})
        same = session.file() is not None and session.file() == plain.file()
        checks.expect(f"don't know as {words!r}", same, "is not read like ?", session)
    for row in QUESTIONS:
        session = checks.answer(EVERY | {row["id"]: "?"})
        said = next((in_one_line(turn.said) for turn in session.turns if turn.question == row["id"]), "")
        checks.expect(f"don't know at {row['id']}", said == row["not_known"], f"says {said!r}", session)
        checks.finished(f"don't know at {row['id']}", session)


def setting(question):
    """Answers that lead to a question."""
    return EVERY if question in ("trees", "treated-other") else YARD


def check_same(checks):
    for question, said, plainly in SAME:
        name = f"{question}: {said!r}"
        once, again = (checks.answer(setting(question) | {question: [answer]}) for answer in (said, plainly))
        accepted = once.asked().count(question) == 1 and checks.finished(name, once)
        checks.expect(name, accepted and once.stdout == again.stdout, f"is not read like {plainly!r}", once)
    for question, said, plainly in MEANT:
        name = f"{question}: {said!r}"
        session = checks.answer(setting(question) | {question: [said, plainly]})
        meant = checks.answer(setting(question) | {question: plainly})
        checks.finished(name, session)
        checks.expect(name, session.stdout == meant.stdout, f"is taken, and not as {plainly!r}", session)
        if session.asked().count(question) == 2:
            refusal(checks, name, session, question)


def refusal(checks, name, session, question):
    """What is said to a wrong answer: what is wrong with it and what would be right, in lines that a screen shows."""
    said = next(turn.said for turn in session.turns if turn.question == question)
    checks.expect(name, re.search(WOULD_BE_RIGHT, said), f"does not say what would be right: {said[:300]!r}")
    checks.expect(name, max(len(line) for line in said.split("\n")) <= WIDTH, f"a line of {max(len(line) for line in said.split(chr(10)))} columns: {said[:100]!r}")
    checks.expect(name, not re.search(r"[.?!:]\.(\s|$)", said), f"ends a sentence twice: {said!r}")


def check_nonsense(checks):
    for question in ALL_QUESTIONS:
        answers = setting(question)
        plain = checks.answer(answers)
        for nonsense in [*NONSENSE, *NONSENSE_AT[question]]:
            name = f"{question}: nonsense {nonsense[:40]!r}"
            session = checks.answer(answers | {question: [nonsense, answers[question]]})
            asked_twice = session.asked().count(question) == 2
            if checks.expect(name, asked_twice, "is taken for an answer", session):
                refusal(checks, name, session, question)
                checks.expect(name, session.file() == plain.file(), "the session goes on to another file", session)
            checks.finished(name, session)
    for kept_out in KEPT_OUT:
        session = checks.answer({"other": [kept_out]})
        said = in_one_line(next(turn.said for turn in session.turns if turn.question == "other"))
        checks.expect(kept_out, re.search(r"stays? out of the heap: .+ in the trash", said), f"does not say why and where to: {said!r}")
    # All of it at every question of one session.
    session = checks.answer({question: [*NONSENSE, EVERY[question]] for question in ALL_QUESTIONS})
    checks.whole("all nonsense at every question", session)
    checks.expect("all nonsense at every question", session.file() == checks.answer(EVERY).file(), "comes to another file", session)
    for question, extreme in EXTREMES:
        session = checks.answer(setting(question) | {question: [extreme]})
        checks.finished(f"{question}: {extreme[:40]!r}", session)


def check_branches(checks):
    for name, answers, asked, not_asked in BRANCHES:
        session = checks.answer(answers)
        for question in asked:
            checks.expect(name, question in session.asked(), f"{question} is not asked", session)
        for question in not_asked:
            checks.expect(name, question not in session.asked(), f"{question} is asked", session)
        checks.whole(name, session)


def check_that_it_matters(checks):
    for question in ALL_QUESTIONS:
        one, other = (checks.answer(setting(question) | {question: answer}) for answer in MATTERS[question])
        checks.expect(f"{question} matters", one.stdout != other.stdout, f"{' and '.join(MATTERS[question])} come to the same plan", one)


def check_back(checks):
    for name, script, comes_to in [*BACK, ("lawn taken back", LAWN_TAKEN_BACK, {"lawn": "0"})]:
        name = f"back: {name}"
        answers = YARD | comes_to

        def reply(question, turns):
            return as_bytes(script[len(turns)][1] if len(turns) < len(script) else answers[question] if len(turns) < 100 else "") + b"\n"

        session = checks.talk(reply)
        asked = [question for question, _ in script]
        checks.expect(name, session.asked()[:len(asked)] == asked, f"asks {session.asked()} for {asked}", session)
        checks.whole(name, session)
        checks.expect(name, session.file() == checks.answer(answers).file(), "comes to another file than the last answers alone", session)
    session = checks.answer({"leaves": ["back"]})
    checks.expect("back: at the first question", "first question" in session.turns[0].said, f"says {session.turns[0].said!r}")


def check_ends(checks):
    """The input ends, or the person stops, at each question."""
    for last in ALL_QUESTIONS:
        ways = [("end of input", b""), ("end within a line", as_bytes(EVERY[last])), ("end within a refused line", b"nonsen"), ("quit", b"quit\n")]
        if last in (ALL_QUESTIONS[0], ALL_QUESTIONS[-1]):
            ways += [("QUIT", b"QUIT\n"), ("quit among spaces", b"  quit \n"), ("quit and CRLF", b"quit\r\n"), ("quit without a newline", b"quit")]
        for name, line in ways:
            name = f"{name} at {last}"

            def reply(question, turns):
                first_time = question not in [turn.question for turn in turns]
                return line if question == last and first_time else as_bytes(EVERY[question]) + b"\n"

            session = checks.talk(reply)
            checks.numbered(name, session)
            checks.nothing_written(name, session)
    session = checks.talk(lambda question, turns: b"12")
    checks.nothing_written("end within the first line", session)


def check_files(checks):
    def refused(name, pattern, *arguments):
        """Before anything is asked, and with nothing changed."""
        folder = checks.new_folder()
        (folder / FILE).write_text("# mine\n")
        (folder / "folder").mkdir()
        before = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
        result = checks.run(folder, "new", *arguments, input=b"\n" * 20)
        stderr = as_text(result.stderr)
        checks.expect(name, result.returncode == 2 and not result.stdout, f"exit {result.returncode}: {in_one_line(stderr)[-300:]}")
        checks.expect(name, "1. " not in stderr, "asks first, and refuses then")
        checks.expect(name, re.search(pattern, stderr), f"no {pattern!r} in {in_one_line(stderr)[-300:]}")
        after = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
        checks.expect(name, before == after, f"the folder has {sorted(after)}")

    refused("a file that exists", r"yard\.toml exists already.*\s.*--force", FILE, "--ask")
    refused("a blank over a file", r"yard\.toml exists already.*\s.*--force", FILE, "--blank")
    refused("a file in no folder", r"nowhere", "nowhere/yard.toml", "--ask")
    refused("a blank in no folder", r"nowhere", "nowhere/yard.toml", "--blank")
    refused("a file under a file", r"yard\.toml", "yard.toml/yard.toml", "--ask")
    refused("a folder", r"folder", "folder", "--ask")
    refused("a folder, by force", r"folder", "folder", "--ask", "--force")
    refused("no name", r"\w", "", "--ask")
    refused("no terminal", r"no terminal.*\s.*--ask.*--blank", "other.toml")
    refused("the plan to a file that exists", r"exists already", "other.toml", "--ask", "--output", FILE)
    refused("the plan into the yard file", r"other\.toml", "other.toml", "--ask", "--output", "other.toml")
    refused("the plan into the yard file, by force", r"other\.toml", "other.toml", "--ask", "--output", "other.toml", "--force")
    without = checks.run(checks.new_folder(), "new", FILE)
    checks.expect("no terminal and no input", without.returncode == 2 and b"--ask" in without.stderr, f"exit {without.returncode}: {as_text(without.stderr)}")

    folder = checks.new_folder()
    (folder / FILE).write_text("# mine\n")
    session = checks.talk(lambda question, turns: b"12\n" if not turns else b"", "--force", folder=folder)
    checks.expect("forced, then the input ends", session.code == 2 and session.file() == b"# mine\n", "the file is no longer what it was", session)
    session = checks.answer(YARD, "--force", folder=folder)
    checks.expect("--force", session.code == 0 and session.file() == checks.answer(YARD).file() and session.names() == [FILE],
                  f"exit {session.code}, {session.names()}", session)

    folder = checks.new_folder()
    session = checks.answer(YARD, "--output", "plan.txt", folder=folder)
    planned = (folder / "plan.txt").read_bytes() if (folder / "plan.txt").exists() else None
    checks.expect("--output", session.code == 0 and not session.stdout and planned == checks.answer(YARD).stdout, f"exit {session.code}", session)


def check_blank(checks):
    for more in ((), ("--ask",)):
        folder = checks.new_folder()
        result = checks.run(folder, "new", FILE, "--blank", *more)
        session = Session(("--blank", *more), code=result.returncode, stdout=result.stdout, end=as_text(result.stderr), folder=folder)
        checks.expect("--blank", "1. " not in session.end, "asks", session)
        if not checks.finished("--blank", session):
            continue
        text = as_text(session.file())
        checks.expect("--blank", text.endswith("\n") and tomllib.loads(text), "is not TOML that ends with a newline")
        for command in ("plan", "recipe", "mix", "topdress"):
            for options in ((), ("--json",), ("--units", "si")):
                of_file = checks.run(folder, command, FILE, *options)
                checks.expect(f"--blank, {command} {options}", of_file.returncode in (0, 1) and not of_file.stderr and of_file.stdout,
                              f"exit {of_file.returncode}: {as_text(of_file.stderr)}")
        checks.expect("--blank", checks.run(folder, "plan", FILE).stdout == session.stdout, "`plan` prints another plan than `new`")
        changed = text.replace("12 leaf-bag", "3 leaf-bag").encode()
        (folder / FILE).write_bytes(changed)
        checks.expect("--blank over a file", checks.run(folder, "new", FILE, "--blank").returncode == 2 and session.file() == changed, "the file is no longer what it was")
        checks.expect("--blank --force", checks.run(folder, "new", FILE, "--blank", "--force").returncode == 0 and session.file() == text.encode(), "does not write it anew")


def check_told_command(checks):
    """The command that it tells at the end is pasted into a shell: it shows the plan again."""
    materials = '[[feedstock]]\nid = "pond-weed"\nlike = "straw"\nmoisture_wet_basis = "85 %"\ncarbon_dry_basis = "40 %"\ncarbon_to_nitrogen = "18:1"\nbulk_density = "800 lb/yd3"\n'
    for name, file, options, answers in (
        ("plain", FILE, (), b"\n" * 20),
        ("a space", "my yard.toml", (), b"\n" * 20),
        ("an apostrophe", "dad's $HOME.toml", (), b"\n" * 20),
        ("a dash in front", "./-yard.toml", (), b"\n" * 20),
        ("materials of one's own", FILE, ("--materials", "mine.toml"), b"\n\n\n\n2 buckets of pond-weed\n" + b"\n" * 20),
    ):
        folder = checks.new_folder()
        (folder / "mine.toml").write_text(materials)
        result = checks.run(folder, "new", file, "--ask", *options, input=answers)
        told = re.search(r"`heapwright (.*)` shows", as_text(result.stderr))
        if not checks.expect(f"told command: {name}", result.returncode == 0 and told, f"exit {result.returncode}: {in_one_line(as_text(result.stderr))[-300:]}"):
            continue
        again = subprocess.run(["sh", "-c", f"{shlex.quote(checks.program)} {told[1]}"], cwd=folder, capture_output=True, env=checks.environment, timeout=60)
        checks.expect(f"told command: {name}", again.stdout == result.stdout, f"{told[0]!r} prints something else: exit {again.returncode}: {as_text(again.stderr)}")


def check_random(checks):
    draw = random.Random(SEED)
    pools = {question: list(pool) for question, pool in POOLS.items()} | {"treated-other": ["yes", "no"]}
    for question, said, _ in SAME:
        pools[question].append(said)

    def reply(question, turns):
        if len(turns) > 200:
            return b"\n"
        luck = draw.random()
        if luck < 0.10:
            return b"back\n"
        if luck < 0.15:
            return as_bytes(draw.choice(NONSENSE_AT[question])) + b"\n"
        if luck < 0.25:
            return as_bytes(draw.choice(["?", "not sure", ""])) + b"\n"
        return as_bytes(draw.choice(pools[question])) + b"\n"

    for number in range(RANDOM_SESSIONS):
        checks.whole(f"random session {number}", checks.talk(reply))


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        checks = Checks(program, folder)
        for check in (check_whole_yards, check_manners, check_do_not_know, check_same, check_nonsense, check_branches,
                      check_that_it_matters, check_back, check_ends, check_files, check_blank, check_told_command, check_random):
            check(checks)
    print("\n\n".join(checks.failures))
    print(f"{checks.folders} sessions and folders, {checks.count} checks, {len(checks.failures)} failures")
    return 1 if checks.failures else 0


if __name__ == "__main__":
    sys.exit(main())
