"""The guided start, `new FILE --ask`: what people say at each question, and the yard file and the plan that come of it.

usage: check_sessions.py PROGRAM
"""
import concurrent.futures
import dataclasses
import datetime
import itertools
import json
import os
import pathlib
import random
import re
import resource
import shlex
import subprocess
import sys
import tempfile
import threading
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
QUESTIONS = tomllib.loads((ROOT / "materials/questions.toml").read_text(encoding="utf-8"))["question"]
ALL_QUESTIONS = [row["id"] for row in QUESTIONS]
FILE = "yard.toml"
PROMPT = b"] > "
WIDTH = 80
WAYS = [(), ("--json",), ("--units", "si")]  # to show a plan
MOST_REFUSED = 20  # in a row
RANDOM_SESSIONS, SEED = 30, 20261107
WORKERS = 2

# A time zone in which it is noon: no session runs over midnight.
NOW = datetime.datetime.now(datetime.timezone.utc)
TODAY = NOW.date()
SOON = TODAY + datetime.timedelta(days=7)
LONG_AGO = (TODAY - datetime.timedelta(days=60)).replace(day=1)
NOV_7 = datetime.date(TODAY.year if TODAY <= datetime.date(TODAY.year, 12, 8) else TODAY.year + 1, 11, 7)  # a month past, or to come
ENVIRONMENT = os.environ | {"TZ": f"NOON{NOW.hour - 12}"}

# A whole yard; Enter takes the default where nothing stands here. Without weather there is no forecast, which takes ten times all the rest.
YARD = {
    "leaves": "20", "lawn": "60 ft by 30 ft", "near-water": "yes", "clippings": "6 buckets", "treated": "no", "scraps": "4",
    "other": "2 buckets of coffee grounds, 1 bale of straw", "treated-other": "no", "bin": "5 by 3 1/2 by 4", "built": "2026-11-07",
    "turn": "every 10 days", "winter": "?",
}
WEATHER = {"winter": "28 and 74"}
SEASON = {"every": "week", "from": "Apr", "to": "Oct"}
YARD_FILE = {
    "title": "My yard",
    "supply": [
        {"feedstock": "leaves-fall", "amount": "20 leaf-bag"},
        {"feedstock": "grass-clippings", "amount": "6 buckets", "when": SEASON, "treated": "no"},
        {"feedstock": "kitchen-scraps", "estimate": {"people": 4}, "when": {"every": "week"}},
        {"feedstock": "coffee-grounds", "amount": "2 buckets"},
        {"feedstock": "straw", "amount": "1 bale", "treated": "no"},
    ],
    "pile": {
        "shape": "bin", "length": "5 ft", "width": "3 1/2 ft", "height": "4 ft",
        "built": datetime.date(2026, 11, 7), "filled": "as-it-comes", "turn_every": "10 days",
    },
    "climate": {"coldest_month": "28 degF", "warmest_month": "74 degF"},
    "lawn": {"zone": [{"name": "lawn", "shape": "area", "area": "60 ft by 30 ft"}]},
    "topdressing": {"near_water": True},
}
# The way past every question.
EVERY = YARD | {"leaves": "?", "trees": "2"}

# question, what is said, what the file then has that it had not
IN_FILE = [
    ("leaves", "a pile 6 by 4 feet, knee-high", {"feedstock": "leaves-fall", "estimate": {"pile": ["6 feet", "4 feet", "knee-high"]}}),
    ("bin", "64 gal", {"shape": "tumbler", "volume": "64 gal"}),
    ("bin", "round 3 by 4", {"shape": "round", "diameter": "3 ft", "height": "4 ft"}),
    ("bin", "1.2 by 1.2 by 1 m", {"shape": "bin", "length": "1.2 m", "width": "1.2 m", "height": "1 m"}),
    ("built", "Nov 7", {"built": NOV_7}),
    ("built", "today", {"built": TODAY}),
    ("lawn", "60 by 30", {"area": "60 ft by 30 ft"}),
    ("clippings", "?", {"feedstock": "grass-clippings", "estimate": {"mown_lawn": "60 ft by 30 ft"}, "when": SEASON, "treated": "no"}),
]

DO_NOT_KNOW = [
    "?", "don't know", "dont know", "don’t know", "do not know", "unknown", "not sure", "no idea", "dunno", "idk", "I don't know",
    "Don’t Know", "NOT SURE", "I’m not sure", "  ?  ", "\t?", "?\r",
]

# question, what is said, what it means in plain words: both make the same plan.
SAME = [
    ("leaves", "20 bags", "20"), ("leaves", "20 Leaf-Bags", "20"), ("leaves", "20 leaf-bag", "20"), ("leaves", "  20\t", "20"),
    ("leaves", "20.0", "20"), ("leaves", "0.9 m3", "900 L"), ("leaves", "900 LITERS", "900 L"), ("leaves", "2 cubic yards", "54 ft3"),
    ("leaves", "1½ yd3", "1.5 yd3"), ("leaves", "0 bags", "0"), ("leaves", "none", "0"), ("leaves", "1,000 lb", "1000 lb"),
    ("leaves", "1,000", "1000"), ("leaves", "half a bag", "0.5"), ("leaves", "about 12", "12"), ("leaves", "Twelve", "12"),
    ("leaves", "a dozen", "12"), ("leaves", "about a dozen bags", "12"),
    ("trees", "3 trees", "3"), ("trees", "one", "1"), ("trees", "2½", "2.5"), ("trees", "about 12", "12"), ("trees", "twelve", "12"),
    ("trees", "a dozen", "12"),
    ("lawn", "5,000 sq ft", "5000"), ("lawn", "5,000", "5000"), ("lawn", "10,500", "10500"), ("lawn", "60' by 30'", "1800"),
    ("lawn", "60′ x 30′", "1800"), ("lawn", "60 x 30 ft", "1800"), ("lawn", "60 by 30", "1800"), ("lawn", "60x30", "1800"),
    ("lawn", "60' 6\" by 30'", "1815"), ("lawn", "1/4 Acre", "10890"), ("lawn", "20 m by 10 m", "200 m²"), ("lawn", "20 by 10 m", "200 m²"),
    ("lawn", "no", "0"), ("lawn", "0 ft2", "0"), ("lawn", "about 5000", "5000"),
    ("near-water", "YES", "yes"), ("near-water", "n", "no"), ("near-water", "?", "yes"),
    ("clippings", "6", "6 buckets"), ("clippings", "6 Five-Gallon Buckets", "6"), ("clippings", "none", "0"),
    ("clippings", "113 l", "113 L"), ("clippings", "about 12", "12"), ("clippings", "twelve buckets", "12"), ("clippings", "a dozen", "12"),
    ("treated", "Y", "yes"), ("treated", "NOPE", "no"), ("treated", "unknown", "?"),
    ("scraps", "4 people", "4"), ("scraps", "none", "0"), ("scraps", "4.0", "4"), ("scraps", "about 12", "12"), ("scraps", "twelve", "12"),
    ("scraps", "a dozen", "12"),
    ("other", "coffee grounds: 2 buckets; straw = 1 bale", YARD["other"]),
    ("other", "2 Buckets OF Coffee Grounds AND a Bale of straw", YARD["other"]), ("other", "none", "nothing"), ("other", "nope", "nothing"),
    ("other", "nothing else", "nothing"), ("other", "1,000 lb of straw", "1000 lb of straw"),
    ("other", "2 buckets coffee grounds", "2 buckets of coffee grounds"),
    ("other", "2 buckets of coffee grounds and filters", "2 buckets of coffee grounds"),
    ("other", "1 bucket of horse manure and bedding", "1 bucket of stable bedding"),
    ("other", "1 bucket of lemons and limes", "1 bucket of lemons"), ("other", "half of a bale of straw", "half a bale of straw"),
    ("other", "2 39 gallon lawn and leaf bags of straw", "2 39 gallon bags of straw"),
    ("other", "a dozen buckets of straw, about 2 bales of hay", "12 buckets of straw, 2 bales of hay"),
    ("bin", "4", "4 by 4 by 4"), ("bin", "4x4x3", "4 by 4 by 3"), ("bin", "4 X 4 X 3", "4 by 4 by 3"),
    ("bin", "4, 4, 3", "4 by 4 by 3"), ("bin", "4 × 4 × 3", "4 by 4 by 3"), ("bin", "4'x4'x3'", "4 by 4 by 3"),
    ("bin", "4 by 4 by 3 ft", "4 by 4 by 3"), ("bin", '48" by 48" by 36"', "4 by 4 by 3"), ("bin", "48” by 48” by 36”", "4 by 4 by 3"),
    ("bin", "4’ by 4’ by 3’", "4 by 4 by 3"), ("bin", "48 by 48 by 36 in", "4 by 4 by 3"),
    ("bin", "6 ft 6 in by 4 ft by 3 ft", "6.5 by 4 by 3"), ("bin", "6' 6\" by 4' by 3'", "6.5 by 4 by 3"), ("bin", "6 ft 6 in", "6.5"),
    ("bin", "120 cm by 120 cm by 90 cm", "1.2 m by 1.2 m by 0.9 m"), ("bin", "1.2 by 1.2 by 1 m", "1.2 m by 1.2 m by 1 m"),
    ("bin", "4½ by 4 by 4", "4 1/2 by 4 by 4"), ("bin", "64 Gallons", "64 gal"), ("bin", "ROUND 3 x 4", "round 3 ft by 4 ft"),
    ("bin", "round 90 by 120 cm", "round 0.9 m by 1.2 m"),
    ("built", "2026-1-7", "2026-01-07"), ("built", "NOW", "today"), ("built", "today", str(TODAY)),
    ("built", "tomorrow", str(TODAY + datetime.timedelta(days=1))), ("built", "Nov 7", str(NOV_7)),
    ("built", "11/7/2026", "2026-11-07"), ("built", "1/7/2026", "2026-01-07"), ("built", "NOVEMBER 7, 2026", "2026-11-07"),
    ("built", f"{SOON:%B} {SOON.day}", str(SOON)),
    ("turn", "10", "10 days"), ("turn", "every 2 weeks", "14"), ("turn", "Every Week", "7"), ("turn", "2 weeks", "14"),
    ("turn", "0", "never"), ("turn", "NEVER", "never"), ("turn", "Weekly", "7"), ("turn", "every two weeks", "14"),
    ("turn", "every other week", "14"), ("turn", "monthly", "30"), ("turn", "once a month", "30"), ("turn", "every 2 months", "60"),
    ("winter", "28 °F and 74 °F", "28 and 74"), ("winter", "28F, 74F", "28 and 74"), ("winter", "28 to 74", "28 and 74"),
    ("winter", "0 °C and 25 °C", "32 and 77"), ("winter", "−10 °C and 20 °C", "14 and 68"), ("winter", "−5 and 70", "-5 and 70"),
    ("winter", "-3 and 22 °C", "-3 °C and 22 °C"), ("winter", "−3, 22C", "-3 °C and 22 °C"), ("winter", "Very Cold", "very-cold"),
]

# What is easily misread: refused with what would be right, or read as it is meant.
MEANT = [
    ("leaves", "12\rbags", "12 bags"), ("leaves", "two dozen", "24"), ("leaves", "no more than 12", "12"), ("leaves", "no idea, ten?", "?"),
    ("lawn", "no idea how large", "?"),
    ("clippings", "6 buckets a week", "6 buckets"), ("clippings", "6 buckets, the rest stays on the lawn", "6 buckets"),
    ("treated", "maybe no", "?"), ("treated", "no clue", "?"), ("treated", "no, I don’t know", "?"),
    ("treated-other", "maybe no", "?"), ("treated-other", "no way to know", "?"),
    ("scraps", "2 adults and 2 kids", "4"),
    ("other", "2 \r buckets of straw", "2 buckets of straw"), ("other", "nothing but 2 bales of straw", "2 bales of straw"),
    ("other", "2 buckets of coffee grounds, and a bale of straw", YARD["other"]),
    ("bin", "4 by 3", "4 by 4 by 3"), ("bin", "0", "?"), ("bin", "none", "?"), ("bin", "a tumbler of 64 gal", "64 gal"),
    ("turn", "every half month", "15"), ("turn", "twice a month", "15"), ("turn", "3 times a month", "10"), ("turn", "twice a week", "3.5"),
    ("turn", "no more than weekly", "7"),
]

NONSENSE = [
    "nonsense", "-3", "nan", "1e400", "x" * 10_000, "🍂🍂", "a\tb", "-1 bucket", "\x07", b"\xff\xfe", b"\x00", '"', "\\", "}{",
]
KEPT_OUT = [
    "dog poop", "2 buckets of dog poop", "1 bucket of meat scraps", "meat", "cat litter", "1 bag of cat litter", "cat litter: 1 bag",
    "2 buckets of straw, meat",
]
NONSENSE_AT = {
    "leaves": ["6 ft", "6 ft2", "6 dogs", "half", "1/0", "2 ton", "2,5", "dog poop", "cat litter", "12-5"],
    "trees": ["4 buckets", "6 lb", "3 dog poop", "3 to 2", "0x10", "1001", "6 6"],
    "lawn": ["6 lb", "60 ft", "60 ft by 30 ft by 10 ft", "-60 ft by 30 ft", "4 gal", "60 ft by wide"],
    "near-water": ["a bit", "6", "a pond"],
    "clippings": ["6 ft", "meat", "1 imp gal"],
    "treated": ["a bit", "6", "no and yes"],
    "scraps": ["4 buckets", "6 lb", "3 dog poop", "3 to 2", "0x10", "1001", "meat", "cat litter"],
    "other": [
        *KEPT_OUT, "6", "6 of straw", "straw: 6", "coffee grounds", "2 ft of straw", "1 bag of urea", ",", "of", "2 buckets of",
        "0.5.5 buckets of straw", "2 buckets of green leaves", ", ".join(["1 bucket of straw"] * 101),
    ],
    "treated-other": ["a bit", "6", "the farmer"],
    "bin": [
        "0 gal", "0 by 4 by 4", "4 by 4 by 4 by 4", "4 by wide by 4", "4 by -4 by 4", "4 ft2", "64 gal by 4", "round 3",
        "round 3 by 4 by 5", "by",
    ],
    "built": ["2026-13-07", "2026-02-31", "13/7/2026", "Nov 31", "2026-11", f"{LONG_AGO:%b} 1", "-2026-11-07", "2026--11-07", "November", "12026-11-07"],
    "turn": ["6 lb", "every", "-14 days", "every nan", "2 ft", "3-2 months"],
    "winter": [
        "76 and 30", "22 and -3 °C", "30", "30 and nan", "-500 and 76", "30 and 76 and 90", "zone 6", "200 and 300", "30 lb and 76 lb",
    ],
}
WOULD_BE_RIGHT = r"\bwrite\b|did you mean|\bsay\b|\bit has\b|lists them|in the trash|down the drain"

# Amounts at the edge of what a number holds: refused, or the session ends in a plan.
EXTREMES = [
    ("leaves", "1e-20 lb"), ("leaves", "1e-320 yd3"), ("leaves", "0.00000000000000000000001"), ("leaves", "1e12 yd3"),
    ("clippings", "1e-300 lb"), ("clippings", "1e12 yd3"), ("trees", "0.00001"), ("trees", "1e-300"), ("trees", "1000"),
    ("scraps", "1e-16"), ("scraps", "1e-300"), ("scraps", "1000"), ("other", "1e-300 lb of straw"), ("other", "1e12 lb of urea"),
    ("other", "0 buckets of straw"), ("other", ", ".join(["1 bucket of straw"] * 98)), ("bin", "1e-300 ft"), ("bin", "1e12 ft"),
    ("bin", "1e-300 gal"), ("bin", "1e12 gal"), ("built", "0000-01-01"), ("built", "9999-12-31"), ("turn", "1e-300 h"), ("turn", "1000000"),
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
    ("lawn and clippings unknown", {"lawn": "?", "clippings": "?"}, [], ["near-water"]),
    ("lawn", {"lawn": "10"}, ["near-water"], []),
]

# Two answers to each question that must not come to the same plan: nothing is asked in vain.
MATTERS = {
    "leaves": ("20", "3"), "trees": ("1", "5"), "lawn": ("1000", "5000"), "near-water": ("no", "yes"), "clippings": ("6", "0"),
    "treated": ("no", "yes"), "scraps": ("0", "6"), "other": ("nothing", "2 bales of straw"), "treated-other": ("no", "yes"),
    "bin": ("2", "6"), "built": ("2026-11-07", "2026-05-07"), "turn": ("never", "3"), "winter": ("bitter", "frost-free"),
}

# Which question was asked and what was said to it, in order; then the answers that it comes to.
TO_CLIPPINGS = [("leaves", "20"), ("lawn", "60 ft by 30 ft"), ("near-water", "yes")]
TO_SCRAPS = [*TO_CLIPPINGS, ("clippings", "6 buckets"), ("treated", "no")]
BACK = [
    ("one step", [("leaves", "12"), ("lawn", "back"), ("leaves", "20"), ("lawn", "60 ft by 30 ft")], {}),
    ("from the first question", [
        ("leaves", "back"), ("leaves", "back"), ("leaves", "20"), ("lawn", "back"), ("leaves", "back"), ("leaves", "20"),
    ], {}),
    ("many steps", [
        ("leaves", "12"), ("lawn", "1 acre"), ("near-water", "no"), ("clippings", "2"), ("treated", "yes"), ("scraps", "2"),
        ("other", "nothing"), ("bin", "3"), ("built", "today"), ("turn", "never"), ("winter", "back"), ("turn", "back"), ("built", "back"),
        ("bin", "back"), ("other", "back"), ("scraps", "back"), ("treated", "back"), ("clippings", "back"), ("near-water", "back"),
        ("lawn", "back"), ("leaves", "20"),
    ], {}),
    ("trees asked, then not", [("leaves", "?"), ("trees", "3"), ("lawn", "back"), ("trees", "back"), *TO_CLIPPINGS], {}),
    ("trees not asked, then asked", [
        ("leaves", "20"), ("lawn", "back"), ("leaves", "?"), ("trees", "3"), ("lawn", "60 ft by 30 ft"),
    ], {"leaves": "?", "trees": "3"}),
    ("lawn taken back", [
        *TO_CLIPPINGS, ("clippings", "back"), ("near-water", "back"), ("lawn", "0"), ("clippings", "6 buckets"),
    ], {"lawn": "0"}),
    ("lawn unknown, then measured", [("leaves", "20"), ("lawn", "?"), ("clippings", "back"), *TO_SCRAPS[1:]], {}),
    ("clippings taken back", [
        *TO_CLIPPINGS, ("clippings", "6"), ("treated", "yes"), ("scraps", "back"), ("treated", "back"), ("clippings", "0"), ("scraps", "4"),
    ], {"clippings": "0"}),
    ("treated changed", [
        *TO_CLIPPINGS, ("clippings", "6 buckets"), ("treated", "yes"), ("scraps", "back"), ("treated", "no"), ("scraps", "4"),
    ], {}),
    ("straw taken back", [
        *TO_SCRAPS, ("scraps", "4"), ("other", "1 bale of straw"), ("treated-other", "yes"), ("bin", "back"), ("treated-other", "back"),
        ("other", "nothing"), ("bin", YARD["bin"]),
    ], {"other": "nothing"}),
    ("after a refusal", [("leaves", "12"), ("lawn", "nonsense"), ("lawn", "back"), ("leaves", "20"), ("lawn", "60 ft by 30 ft")], {}),
    ("upper case", [("leaves", "12"), ("lawn", "BACK"), ("leaves", "20"), ("lawn", "60 ft by 30 ft")], {}),
    ("spaces", [("leaves", "12"), ("lawn", "  back "), ("leaves", "20"), ("lawn", "60 ft by 30 ft")], {}),
    ("CRLF", [("leaves", "12\r"), ("lawn", "back\r"), ("leaves", "20\r"), ("lawn", "60 ft by 30 ft\r")], {}),
    ("at the last question", [
        *((question, YARD[question]) for question in ALL_QUESTIONS[:-1] if question in YARD), ("winter", "back"), ("turn", "14"),
    ], {"turn": "14"}),
]

# What random sessions choose from, beside Enter, don't know, back and what SAME says.
POOLS = {
    "leaves": [
        "12", "3", "1", "0", "40", "6 garbage bags", "2 yd3", "200 lb", "half a bag", "3 m3", "2 wheelbarrow loads", "1 contractor bag",
        "a pile 6 by 4 feet, knee-high",
    ],
    "trees": ["1", "2", "5", "12", "0", "one"],
    "lawn": ["5000", "1000", "0", "60 ft by 30 ft", "450 m2", "1/4 acre", "25' by 12'", "100", "none"],
    "near-water": ["yes", "no"],
    "clippings": ["6", "1", "0", "2 grass-catchers", "40 L", "30 kg", "1/2 bucket", "1 riding mower bag", "20"],
    "treated": ["yes", "no", "n", "y"],
    "scraps": ["0", "1", "2", "3", "6", "none"],
    "other": [
        "nothing", "1 bale of straw", "half a bale of hay", "2 buckets of coffee grounds", "3 bags of wood chips",
        "1 bucket of chicken manure", "2 wheelbarrow loads of horse manure, 1 bag of sawdust", "5 lb of cardboard and 2 lb of newspaper",
        "1 bucket of weeds", "20 lb of vegetable scraps", "2 cups of blood meal", "4 bags of pine needles", "1 garden cart of brush",
        "1 pail of eggshells", "3 buckets of seaweed", "5 lb of urea", "coffee grounds: 1 coffee can; hay = 2 bales",
        "1 bucket of garden soil", "2 buckets of old compost", "6 grocery bags of shredded paper",
    ],
    "treated-other": ["yes", "no"],
    "bin": ["4", "3 by 3 by 3", "5 by 5 by 4", "8 ft by 4 ft by 4 ft", '36" by 36" by 36"', "1 m", "10 by 5 by 5", "2"],
    "built": ["today", "2026-11-07", "2026-04-15", "2026-07-01", "2024-02-29", "2027-1-2"],
    "turn": ["never", "3", "14", "every week", "30 days", "1", "every 3 weeks", "90"],
    "winter": [
        "cool", "cold", "very-cold", "mild", "warm", "bitter", "hot-desert", "frost-free", "30 and 76", "-5 and 70", "0 °C and 24 °C",
        "50 and 50",
    ],
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

    def way(self):
        """The options that say how the plan is shown."""
        return self.options if self.options in WAYS else ()

    def names(self):
        return sorted(path.name for path in self.folder.iterdir())

    def file(self):
        path = self.folder / FILE
        return path.read_bytes() if path.exists() else None

    def told(self):
        """All of it, for a failure: the answers, and how it ended."""
        lines = ["new " + shlex.join((FILE, "--ask", *self.options))]
        for turn in self.turns:
            said = f" -> {in_one_line(turn.said)[:200]}" if turn.said else ""
            lines.append(f"{turn.question}: {as_text(turn.answer)[:60]!r}{said}")
        lines.append(f"exit {self.code}: {in_one_line(self.end)[:400]}")
        return "\n".join(f"    {line}" for line in lines)


def as_text(data):
    return data.decode("utf-8", "replace")


def question_asked(prompt, session):
    """The number and the row of the question that a prompt puts; it shows the row's words, its example and what Enter takes."""
    number, words = in_one_line(prompt).split(". ", 1)
    row = next((row for row in QUESTIONS if words.startswith(row["ask"])), None)
    if row is None:
        raise ValueError(f"questions.toml does not have: {words}")
    # What was answered before a step back, else the question's own.
    given = [in_one_line(as_text(turn.answer)) for turn in session.turns if turn.question == row["id"]]
    usual = ["don't know" if one in ("?", "") and row["default"] == "?" or one == "?" else one or row["default"] for one in (*given, row["default"])]
    if words not in [f"{row['ask']} {row['example']} [{one}] >" for one in usual]:
        session.strays.append(f"the prompt reads {words!r}")
    session.strays.extend(f"{len(line)} columns: {line}" for line in prompt.split("\n") if len(line) > WIDTH)
    return int(number), row["id"]


class Checks:
    """Sessions with the program, and what is wrong with them. All the checks share what they have run already."""
    sessions = {}  # answers and options: the session
    results = {}  # what stood in a yard file, the command, its options: what came of it

    def __init__(self, program, folder):
        self.program, self.folder = program, folder
        self.failures, self.count, self.folders = [], 0, 0

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
        return subprocess.run([self.program, *arguments], cwd=folder, capture_output=True, timeout=60, env=ENVIRONMENT, **more)

    def talk(self, reply, *options, folder=None):
        """Gives reply(question, turns before) at each prompt, until the program ends. Bytes without a newline end the input."""
        session = Session(options, folder=folder or self.new_folder())
        command = [self.program, "new", FILE, "--ask", *options]
        pipes = {"stdin": subprocess.PIPE, "stderr": subprocess.PIPE}
        with tempfile.TemporaryFile() as stdout, subprocess.Popen(
                command, cwd=session.folder, stdout=stdout, env=ENVIRONMENT, **pipes) as process:
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
                session.turns[-1].said = re.split(rf"\n(?=Written to|heapwright:|{FILE}:)", session.end.partition("\n")[2])[0].strip("\n")
            if not process.stdin.closed:
                process.stdin.close()
            session.code = process.wait()
            watch.cancel()
            stdout.seek(0)
            session.stdout = stdout.read()
        return session

    def answer(self, answers, *options, folder=None):
        """A session that gives each question its answer, twice where it is refused; of a list one after the other; then Enter.
        The same session again is the one that was."""
        def reply(question, turns):
            given = answers.get(question, "")
            given = given if isinstance(given, list) else [given, given]
            turn = sum(turn.question == question for turn in turns)
            return as_bytes(given[turn] if turn < len(given) else "") + b"\n"
        if folder:
            return self.talk(reply, *options, folder=folder)
        key = repr((answers, options))
        if key not in self.sessions:
            self.sessions[key] = self.talk(reply, *options)
        return self.sessions[key]

    # --- what a session must be ---

    def numbered(self, name, session):
        """The prompts count up, down at back, and stay at a refusal; what is said fits a screen."""
        for turn, after in zip(session.turns, session.turns[1:]):
            back = turn.answer.strip().lower() == b"back"
            may_follow = {max(1, turn.number - 1)} if back else {turn.number, turn.number + 1}
            if not self.expect(name, after.number in may_follow, f"question {turn.number} is followed by {after.number}", session):
                return
        self.expect(name, not session.turns or session.turns[0].number == 1, "the first question is not number 1", session)
        self.expect(name, not session.strays, "; ".join(session.strays[:3]))
        wide = [line for turn in session.turns for line in turn.said.split("\n") if len(line) > WIDTH]
        self.expect(name, not wide, f"a line of {max(map(len, wide), default=0)} columns: {wide[:1]}")

    def finished(self, name, session):
        """It came to a file and a plan."""
        self.numbered(name, session)
        return self.expect(name, session.code in (0, 1) and session.stdout and session.names() == [FILE],
                           f"exit {session.code}, {len(session.stdout)} bytes of plan, files {session.names()}", session)

    def nothing_written(self, name, session):
        right = session.code == 2 and not session.stdout and not session.names() and "nothing is written" in session.end
        self.expect(name, right, f"exit {session.code}, {len(session.stdout)} bytes on standard output, leaves {session.names()}", session)

    def of_file(self, session, command, *options):
        """What a command makes of the session's file; of the same file it is asked once."""
        key = (session.file(), command, options)
        if key not in self.results:
            self.results[key] = self.run(session.folder, command, FILE, *options)
        return self.results[key]

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
        plan = self.of_file(session, "plan", *session.way())
        for command, result in [("plan", plan), *((command, self.of_file(session, command)) for command in ("recipe", "mix", "topdress"))]:
            self.expect(name, result.returncode in (0, 1) and not result.stderr and result.stdout,
                        f"{command}: exit {result.returncode}: {as_text(result.stderr)}", session)
        same = plan.stdout == session.stdout and plan.returncode == session.code
        self.expect(name, same, "`plan` prints another plan than `new`", session)
        if "--json" in session.way():
            json.loads(session.stdout, parse_constant=lambda word: self.expect(name, False, f"JSON with {word}", session))
        else:
            wide = [line for line in as_text(session.stdout).split("\n") if len(line) > WIDTH]
            self.expect(name, not wide, f"the plan is too wide: {wide[:1]}", session)

    def whole_in_all_ways(self, name, session):
        """whole(), and the same answers make the same file in whatever way the plan is shown, and the plan of it in that way."""
        self.whole(name, session)
        for way in WAYS[1:]:
            answers = iter([turn.answer for turn in session.turns])
            again = self.talk(lambda question, turns: next(answers, b""), *way)
            self.whole(f"{name}, {' '.join(way)}", again)
            same = again.code == session.code and again.file() == session.file()
            self.expect(f"{name}, {' '.join(way)}", same, "comes to another file", again)


# --- the sessions ---


def setting(question):
    """Answers that lead to a question."""
    return EVERY if question in ("trees", "treated-other") else YARD


def check_whole_yards(checks):
    checks.whole_in_all_ways("all defaults", checks.answer({}))
    real = checks.answer(YARD | WEATHER)
    checks.whole_in_all_ways("a whole yard", real)
    if real.file():
        found = tomllib.loads(as_text(real.file()))
        checks.expect("a whole yard", found == YARD_FILE, f"the file says\n{found}\n    where it should say\n{YARD_FILE}")
    every = checks.answer(EVERY | WEATHER)
    checks.whole_in_all_ways("every question", every)
    checks.expect("every question", every.asked() == ALL_QUESTIONS, f"asks {every.asked()}", every)
    zero = {question: "0" for question in ("leaves", "trees", "clippings", "scraps", "other", "turn", "lawn")}
    nothing = checks.answer(zero)
    checks.whole_in_all_ways("zero for everything", nothing)
    no_pile = nothing.code == 1 and b"[[supply]]" not in (nothing.file() or b"")
    checks.expect("zero for everything", no_pile, "there is no pile of nothing: exit 1", nothing)
    other_units = {
        "leaves": "3 m3", "lawn": "450 m²", "clippings": "80 L", "treated": "no", "other": "20 kg of hay; 100 L of sawdust",
        "treated-other": "no", "bin": "1.2 m by 1.2 m by 1 m", "turn": "2 weeks", "winter": "-3 °C and 22 °C",
    }
    checks.whole_in_all_ways("metric units", checks.answer(other_units))
    checks.whole_in_all_ways("feet and inches", checks.answer(YARD | {"bin": '48" by 48" by 36"', "lawn": "60' 6\" x 30'"}))
    checks.whole_in_all_ways("curly quotes", checks.answer(YARD | {"bin": "48” by 4’ 6” by 36”", "lawn": "60’ 6” by 30′"}))
    for question, said, has in IN_FILE:
        name = f"{question}: {said!r} in the file"
        session = checks.answer(YARD | {question: said})
        checks.whole(name, session)
        file = tomllib.loads(as_text(session.file() or b""))
        tables = [file.get("pile", {}), *file.get("lawn", {}).get("zone", []), *file.get("supply", [])]
        checks.expect(name, any(has.items() <= table.items() for table in tables), f"the file has no {has} in\n{tables}", session)


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
    checks.whole_in_all_ways("all don't know", plain)
    for words in DO_NOT_KNOW:
        session = checks.answer({question: [words] for question in ALL_QUESTIONS})
        same = session.file() is not None and session.file() == plain.file()
        checks.expect(f"don't know as {words!r}", same, "is not read like ?", session)
    for row in QUESTIONS:
        session = checks.answer(EVERY | {row["id"]: "?"})
        said = next((in_one_line(turn.said) for turn in session.turns if turn.question == row["id"]), "")
        checks.expect(f"don't know at {row['id']}", said == row["not_known"], f"says {said!r}", session)
        checks.finished(f"don't know at {row['id']}", session)


def check_same(checks):
    """One answer of each question to a session; what a session does not ask waits for the next."""
    waiting = {question: [pair for of, *pair in SAME if of == question] for question in ALL_QUESTIONS}
    while waiting := {question: pairs for question, pairs in waiting.items() if pairs}:
        given = {question: pairs[0] for question, pairs in waiting.items()}
        weather = WEATHER if "turn" in given else {}  # only the forecast shows what turning does
        once, again = (checks.answer(EVERY | weather | {question: [pair[way]] for question, pair in given.items()}) for way in (0, 1))
        given = {question: pair for question, pair in given.items() if question in once.asked()}
        name = ", ".join(f"{question}: {said!r} for {plainly!r}" for question, (said, plainly) in given.items())
        if not checks.expect(name, given, "nothing of it is asked", once):
            return
        for question in given:
            checks.expect(name, once.asked().count(question) == 1, f"the answer to {question} is refused", once)
            waiting[question].pop(0)
        checks.expect(name, checks.finished(name, once) and once.stdout == again.stdout, "are not read alike", once)
    for question, said, plainly in MEANT:
        name = f"{question}: {said!r}"
        session = checks.answer(setting(question) | {question: [said, plainly]})
        meant = checks.answer(setting(question) | {question: plainly})
        checks.finished(name, session)
        checks.expect(name, session.stdout == meant.stdout, f"is taken, and not as {plainly!r}", session)
        if session.asked().count(question) == 2:
            refusal(checks, name, session, question)


def refusal(checks, name, session, question):
    """What is said to a wrong answer: what is wrong with it and what would be right."""
    said = next(turn.said for turn in session.turns if turn.question == question)
    checks.expect(name, re.search(WOULD_BE_RIGHT, said), f"does not say what would be right: {said[:300]!r}")
    checks.expect(name, not re.search(r"[.?!:]\.(\s|$)", said), f"ends a sentence twice: {said!r}")


def check_nonsense(checks):
    plain = checks.answer(EVERY)
    # One of it at every question of a session.
    for all_nonsense in itertools.zip_longest(*([*NONSENSE, *NONSENSE_AT[question]] for question in ALL_QUESTIONS)):
        given = {question: nonsense for question, nonsense in zip(ALL_QUESTIONS, all_nonsense) if nonsense is not None}
        session = checks.answer(EVERY | {question: [nonsense, EVERY[question]] for question, nonsense in given.items()})
        names = {question: f"{question}: nonsense {nonsense[:40]!r}" for question, nonsense in given.items()}
        for question, nonsense in given.items():
            if checks.expect(names[question], session.asked().count(question) == 2, "is taken for an answer", session):
                refusal(checks, names[question], session, question)
            if question == "other" and nonsense in KEPT_OUT:
                kept_out(checks, nonsense, session)
        checks.finished(" | ".join(names.values()), session)
        if len(session.turns) == len(EVERY) + len(given):
            checks.expect(" | ".join(names.values()), session.file() == plain.file(), "the session goes on to another file", session)
    # All of it at every question of one session.
    session = checks.answer({question: [*NONSENSE, EVERY[question]] for question in ALL_QUESTIONS})
    checks.whole_in_all_ways("all nonsense at every question", session)
    checks.expect("all nonsense at every question", session.file() == plain.file(), "comes to another file", session)
    for question, extreme in EXTREMES:
        session = checks.answer(setting(question) | {question: [extreme]})
        checks.finished(f"{question}: {extreme[:40]!r}", session)


def kept_out(checks, name, session):
    said = in_one_line(next(turn.said for turn in session.turns if turn.question == "other"))
    checks.expect(name, re.search(r"stays? out of the pile: .+ in the trash", said), f"does not say why and where to: {said!r}")


def check_patience(checks):
    """So many refused answers in a row end it, one fewer does not, and an answer that is read begins the row anew."""
    session = checks.answer({"leaves": ["nonsense"] * (MOST_REFUSED + 5)})
    checks.expect("nothing but nonsense", len(session.turns) == MOST_REFUSED, f"ends after {len(session.turns)} answers", session)
    checks.nothing_written("nothing but nonsense", session)
    session = checks.answer({"leaves": "20", "lawn": ["nonsense", "2 dogs"] * MOST_REFUSED})
    checks.expect("nonsense at the second question", len(session.turns) == 1 + MOST_REFUSED, f"ends after {len(session.turns)}", session)
    checks.nothing_written("nonsense at the second question", session)
    session = checks.answer({question: [*["nonsense"] * (MOST_REFUSED - 1), EVERY[question]] for question in ALL_QUESTIONS})
    checks.expect("just not too much nonsense", session.file() == checks.answer(EVERY).file(), "comes to another file", session)


def check_branches(checks):
    for (name, answers, asked, not_asked), way in zip(BRANCHES, itertools.cycle(WAYS)):
        session = checks.answer({"winter": "?"} | answers, *way)
        for question in asked:
            checks.expect(name, question in session.asked(), f"{question} is not asked", session)
        for question in not_asked:
            checks.expect(name, question not in session.asked(), f"{question} is asked", session)
        checks.whole(name, session)


def check_that_it_matters(checks):
    for question in ALL_QUESTIONS:
        one, other = (checks.answer(setting(question) | WEATHER | {question: answer}) for answer in MATTERS[question])
        checks.expect(f"{question} matters", one.stdout != other.stdout, f"{' and '.join(MATTERS[question])} come to the same plan", one)


def check_back(checks):
    for name, script, comes_to in BACK:
        name = f"back: {name}"
        answers = YARD | comes_to

        def reply(question, turns):
            scripted = script[len(turns)][1] if len(turns) < len(script) else answers.get(question, "")
            return as_bytes(scripted) + b"\n" if len(turns) < 100 else b""

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
        lines = [("end of input", b""), ("an answer without its Enter", as_bytes(EVERY[last])), ("quit", b"quit\n")]
        if last in (ALL_QUESTIONS[0], ALL_QUESTIONS[-1]):
            lines += [
                ("QUIT", b"QUIT\n"), ("quit among spaces", b"  quit \n"), ("quit and CRLF", b"quit\r\n"),
                ("quit without its Enter", b"quit"), ("back without its Enter", b"back"), ("end within a refused line", b"nonsen"),
            ]
        for name, line in lines:
            name = f"{name} at {last}"

            def reply(question, turns):
                first_time = question not in [turn.question for turn in turns]
                return line if question == last and first_time else as_bytes(EVERY[question]) + b"\n"

            session = checks.talk(reply)
            checks.numbered(name, session)
            checks.nothing_written(name, session)


def check_files(checks):
    def within(folder):
        return {str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None for path in folder.rglob("*")}

    def refused(name, pattern, *arguments):
        """Before anything is asked, and with nothing changed."""
        folder = checks.new_folder()
        (folder / FILE).write_text("# mine\n")
        (folder / "folder").mkdir()
        before = within(folder)
        result = checks.run(folder, "new", *arguments, input=b"\n" * 20)
        stderr = as_text(result.stderr)
        checks.expect(name, result.returncode == 2 and not result.stdout, f"exit {result.returncode}: {in_one_line(stderr)[-300:]}")
        checks.expect(name, "1. " not in stderr, "asks first, and refuses then")
        checks.expect(name, re.search(pattern, stderr), f"no {pattern!r} in {in_one_line(stderr)[-300:]}")
        checks.expect(name, within(folder) == before, f"the folder has {sorted(within(folder))}")

    refused("a file that exists", r"yard\.toml exists already.*\s.*--force", FILE, "--ask")
    refused("a blank over a file", r"yard\.toml exists already.*\s.*--force", FILE, "--blank")
    refused("a file in no folder", r"nowhere", "nowhere/yard.toml", "--ask")
    refused("a blank in no folder", r"nowhere", "nowhere/yard.toml", "--blank")
    refused("a file in no folder, by force", r"nowhere", "nowhere/yard.toml", "--ask", "--force")
    refused("a file under a file", r"yard\.toml", "yard.toml/yard.toml", "--ask")
    refused("a folder", r"folder is a folder", "folder", "--ask")
    refused("a folder, by force", r"folder is a folder", "folder", "--ask", "--force")
    refused("a folder for a blank", r"folder is a folder", "folder", "--blank", "--force")
    refused("an empty name", r"no name.*\s.*yard\.toml", "", "--ask")
    refused("an empty name, by force", r"no name.*\s.*yard\.toml", "", "--ask", "--force")
    refused("no terminal", r"no terminal.*\s.*--ask.*--blank", "other.toml")
    refused("the plan to a file that exists", r"--output: yard\.toml exists already.*\s.*--force", "other.toml", "--ask", "--output", FILE)
    refused("a blank's plan to a file that exists", r"--output: yard\.toml exists", "other.toml", "--blank", "--output", FILE)
    refused("the plan to a folder", r"--output: folder is a folder", "other.toml", "--ask", "--output", "folder")
    refused("the plan to a folder, by force", r"--output: folder is a folder", "other.toml", "--ask", "--output", "folder", "--force")
    refused("the plan to no folder", r"--output: nowhere/plan\.txt .*no folder", "other.toml", "--ask", "--output", "nowhere/plan.txt")
    refused("the plan under a file", r"--output: yard\.toml/plan\.txt", "other.toml", "--ask", "--output", "yard.toml/plan.txt")
    refused("the plan into the yard file", r"other\.toml is the yard file", "other.toml", "--ask", "--output", "other.toml")
    refused("the plan into the yard file, by force", r"is the yard file", FILE, "--ask", "--output", "folder/../yard.toml", "--force")
    without = checks.run(checks.new_folder(), "new", FILE)
    checks.expect("no terminal and no input", without.returncode == 2 and b"--ask" in without.stderr,
                  f"exit {without.returncode}: {as_text(without.stderr)}")

    plain = checks.answer(YARD)
    folder = checks.new_folder()
    (folder / FILE).write_text("# mine\n")
    session = checks.talk(lambda question, turns: b"12\n" if not turns else b"", "--force", folder=folder)
    kept = session.code == 2 and session.file() == b"# mine\n"
    checks.expect("forced, then the input ends", kept, "the file is not what it was", session)
    session = checks.answer(YARD, "--force", folder=folder)
    checks.expect("--force", session.code == 0 and session.file() == plain.file() and session.names() == [FILE],
                  f"exit {session.code}, {session.names()}", session)

    for name, options in (("--output", ("--output", "plan.txt")), ("--output by force", ("--output", "plan.txt", "--force"))):
        session = checks.answer(YARD, *options, folder=folder if "--force" in options else checks.new_folder())
        folder = session.folder
        planned = (folder / "plan.txt").read_bytes() if (folder / "plan.txt").exists() else None
        right = session.code == 0 and not session.stdout and planned == plain.stdout and session.file() == plain.file()
        checks.expect(name, right and session.names() == ["plan.txt", FILE], f"exit {session.code}, {session.names()}", session)


def check_places(checks):
    """Where the yard file and the plan go, and what lies there already."""

    def new(folder, *arguments, **more):
        return checks.run(folder, "new", *arguments, **({"input": b"\n" * 20} | more))

    def described(folder):
        """Everything in a folder: links as where they lead, files as what is in them."""
        return {str(path.relative_to(folder)): f"link to {path.readlink()}" if path.is_symlink() else path.read_bytes() if path.is_file() else path.stat().st_mode
                for path in folder.rglob("*")}

    def written(name, result):
        return checks.expect(name, result.returncode == 0 and not re.search(rb"heapwright:", result.stderr), f"exit {result.returncode}: {as_text(result.stderr)[-300:]}")

    def refused(name, pattern, folder, *arguments):
        before = described(folder)
        result = new(folder, *arguments)
        stderr = as_text(result.stderr)
        checks.expect(name, result.returncode == 2 and re.search(pattern, stderr), f"exit {result.returncode}, no {pattern!r}: {in_one_line(stderr)[-300:]}")
        checks.expect(name, "1. " not in stderr, "asks first, and refuses then")
        checks.expect(name, described(folder) == before, f"the folder has {described(folder)}")

    folder = checks.new_folder()
    written("a plain place", new(folder, FILE, "--ask"))
    text = (folder / FILE).read_bytes()
    new_mode = (folder / FILE).stat().st_mode
    (folder / "another").write_text("")
    checks.expect("the mode of a new file", new_mode == (folder / "another").stat().st_mode, f"is {oct(new_mode)}")

    # A folder that takes no file, of root either.
    if os.path.isdir("/proc/self"):
        for options in (("/proc/yard.toml",), (FILE, "--output", "/proc/plan.txt")):
            refused(f"a folder that takes no file: {options[-1]}", rf"{options[-1]} cannot be written", checks.new_folder(), *options, "--ask")
    refused("a name too long", r"cannot be written: File name too long", checks.new_folder(), "x" * 300, "--ask")
    folder = checks.new_folder()
    folder.chmod(0o555)
    if not os.access(folder, os.W_OK):  # root writes there all the same
        refused("a read-only folder", r"yard.toml cannot be written: Permission denied", folder, FILE, "--ask")
    folder.chmod(0o755)

    # What is called like a scratch file might be is the person's.
    for name, make in (
        ("a file", lambda path: path.write_text("mine")),
        ("a link", lambda path: path.symlink_to("elsewhere")),
        ("a pipe", os.mkfifo),
        ("a folder", os.mkdir),
    ):
        folder = checks.new_folder()
        (folder / "elsewhere").write_text("mine")
        make(folder / f"{FILE}.heapwright-part")
        make(folder / ".heapwright-unfinished-Ab3xYz")
        before = described(folder)
        written(f"beside {name}", new(folder, FILE, "--ask"))
        checks.expect(f"beside {name}", described(folder) == before | {FILE: text}, f"the folder has {described(folder)}")

    folder = checks.new_folder()
    (folder / FILE).write_text("# mine")
    (folder / FILE).chmod(0o640)
    written("a file of another mode", new(folder, FILE, "--ask", "--force"))
    mode = (folder / FILE).stat().st_mode & 0o7777
    checks.expect("a file of another mode", mode == 0o640 and (folder / FILE).read_bytes() == text, f"has {oct(mode)}")

    # Links: the file behind one is written, the link stays.
    folder = checks.new_folder()
    (folder / "real").mkdir()
    (folder / "real/mine.toml").write_text("# mine")
    (folder / "real/mine.toml").chmod(0o600)
    (folder / FILE).symlink_to("real/mine.toml")
    refused("a link to a file", r"yard\.toml exists already", folder, FILE, "--ask")
    written("a link to a file, by force", new(folder, FILE, "--ask", "--force"))
    behind = (folder / "real/mine.toml")
    checks.expect("a link to a file, by force", (folder / FILE).is_symlink() and behind.read_bytes() == text and behind.stat().st_mode & 0o7777 == 0o600,
                  f"the folder has {described(folder)}")
    refused("the plan through a link into the yard file", r"is the yard file", folder, FILE, "--ask", "--output", "real/mine.toml", "--force")

    folder = checks.new_folder()
    (folder / FILE).symlink_to("nowhere.toml")
    refused("a link to nothing", r"yard\.toml is a link to a file that is not there.*\s.*--force", folder, FILE, "--ask")
    written("a link to nothing, by force", new(folder, FILE, "--ask", "--force"))
    checks.expect("a link to nothing, by force", described(folder) == {FILE: text}, f"the folder has {described(folder)}")
    folder = checks.new_folder()
    (folder / FILE).symlink_to(FILE)
    refused("a link to itself", r"yard\.toml is a link", folder, FILE, "--ask")

    # A line without an end.
    def small():
        resource.setrlimit(resource.RLIMIT_DATA, (200 << 20, 200 << 20))

    sanitized = b"__asan_init" in pathlib.Path(checks.program).read_bytes()
    if os.path.exists("/dev/zero"):
        folder = checks.new_folder()
        with open("/dev/zero", "rb") as zero:
            result = new(folder, FILE, "--ask", input=None, stdin=zero, preexec_fn=None if sanitized else small)
        right = result.returncode == 2 and b"more than 10000 bytes" in result.stderr and not described(folder)
        checks.expect("a device without end", right, f"exit {result.returncode}: {as_text(result.stderr)[-300:]}")
    for length, code in ((10_000, 0), (10_001, 2)):
        result = new(checks.new_folder(), FILE, "--ask", input=b"x" * length + b"\n" * 20)
        checks.expect(f"a line of {length} bytes", result.returncode == code, f"exit {result.returncode}: {as_text(result.stderr)[-300:]}")

    # What a terminal would obey is not repeated to it, not even in an answer.
    obeyed = "\x1b]0;x\x07\x9b31m\x7f\u202e\u2028"
    result = new(checks.new_folder(), f"{obeyed}.toml", "--ask", input=f"{obeyed}\n2 \x9b31m\u202e bags\n".encode() + b"\x9b31m\n" + b"\n" * 20)
    told = as_text(result.stdout + result.stderr)
    checks.expect("control characters", result.returncode == 0 and not set(obeyed) & set(told) - set("]0;x31m"),
                  f"exit {result.returncode}, prints {sorted(set(obeyed) & set(told))}")


def check_blank(checks):
    def blank(folder, *more):
        result = checks.run(folder, "new", FILE, "--blank", *more)
        return Session(("--blank", *more), code=result.returncode, stdout=result.stdout, end=as_text(result.stderr), folder=folder)

    session, asked = blank(checks.new_folder()), blank(checks.new_folder(), "--ask")
    checks.expect("--blank", "1. " not in session.end and "1. " not in asked.end, "asks", session)
    same = asked.stdout == session.stdout and asked.file() == session.file()
    checks.expect("--blank --ask", same, "makes something else than --blank", asked)
    checks.whole("--blank", session)
    if not session.file():
        return
    text = as_text(session.file())
    for command in ("plan", "recipe", "mix", "topdress"):
        for options in WAYS:
            of_file = checks.of_file(session, command, *options)
            checks.expect(f"--blank, {command} {options}", of_file.returncode in (0, 1) and not of_file.stderr and of_file.stdout,
                          f"exit {of_file.returncode}: {as_text(of_file.stderr)}")
    changed = text.replace("12 leaf-bag", "3 leaf-bag").encode()
    (session.folder / FILE).write_bytes(changed)
    again = blank(session.folder)
    kept = again.code == 2 and again.file() == changed != text.encode()
    checks.expect("--blank over a file", kept, "the file is not what it was", again)
    again = blank(session.folder, "--force")
    checks.expect("--blank --force", again.code == 0 and again.file() == text.encode(), "does not write it anew", again)


def check_told_command(checks):
    """The command that it tells at the end is pasted into a shell: it shows the plan again."""
    materials = """[[feedstock]]
id = "pond-weed"
like = "straw"
moisture_wet_basis = "85 %"
carbon_dry_basis = "40 %"
carbon_to_nitrogen = "18:1"
bulk_density = "800 lb/yd3"
"""
    asked = [question for question in ALL_QUESTIONS if question in checks.answer({}).asked()]
    everything = b"".join(b"?\n" if question == "winter" else b"\n" for question in asked)
    said = {"other": b"1 bucket of pond-weed\n", "winter": b"?\n"}
    with_weed = b"".join(said.get(question, b"\n") for question in ALL_QUESTIONS if question != "trees")
    for name, file, arguments, answers in (
        ("plain", FILE, (FILE,), everything),
        ("a space", "my yard.toml", ("my yard.toml",), everything),
        ("an apostrophe", "dad's $HOME.toml", ("dad's $HOME.toml",), everything),
        ("what a shell reads", "`a` \"b\" \\ & *; ü #.toml", ("`a` \"b\" \\ & *; ü #.toml",), everything),
        ("a tilde", "~.toml", ("~.toml",), everything),
        ("another folder", "my yards/yard.toml", ("my yards/yard.toml",), everything),
        ("a dash in front", "./-yard.toml", ("./-yard.toml",), everything),
        ("a name like an option", "-yard.toml", ("--", "-yard.toml"), everything),
        ("materials of one's own", FILE, (FILE, "--materials", "mine.toml"), with_weed),
        ("materials with a space", FILE, (FILE, "--materials", "my weeds.toml"), with_weed),
    ):
        name = f"told command: {name}"
        folder = checks.new_folder()
        (folder / "my yards").mkdir()
        for own in ("mine.toml", "my weeds.toml"):
            (folder / own).write_text(materials)
        result = checks.run(folder, "new", "--ask", *arguments, input=answers)
        stderr = as_text(result.stderr)
        told = re.search(r"\nWritten to (.*)\. To see this again:\n  (heapwright plan .*)\n", stderr)
        if not checks.expect(name, result.returncode == 0 and told, f"exit {result.returncode}: {in_one_line(stderr)[-300:]}"):
            continue
        checks.expect(name, told[1] == file and (folder / file).exists(), f"says that {told[1]!r} is written: {sorted(folder.rglob('*'))}")
        pasted = f'heapwright() {{ {shlex.quote(checks.program)} "$@"; }}\n{told[2]}\n'
        again = subprocess.run(["sh", "-c", pasted], cwd=folder, capture_output=True, env=ENVIRONMENT, timeout=60)
        right = again.returncode == 0 and again.stdout == result.stdout and not again.stderr
        checks.expect(name, right, f"{told[2]!r} prints something else: exit {again.returncode}: {as_text(again.stderr)}")


def check_random(checks):
    draw = random.Random(SEED)
    pools = {question: [*pool, *(said for of, said, _ in SAME if of == question)] for question, pool in POOLS.items()}

    def reply(question, turns):
        if len(turns) > 200:
            return b"\n"
        if question == "winter" and draw.random() < 0.8:
            return b"?\n"  # without weather it is quick
        luck = draw.random()
        if luck < 0.10:
            return b"back\n"
        if luck < 0.15:
            return as_bytes(draw.choice(NONSENSE_AT[question])) + b"\n"
        if luck < 0.25:
            return as_bytes(draw.choice(["?", "not sure", ""])) + b"\n"
        return as_bytes(draw.choice(pools[question])) + b"\n"

    for number, way in zip(range(RANDOM_SESSIONS), itertools.cycle(WAYS)):
        checks.whole(f"random session {number}", checks.talk(reply, *way))


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as root, concurrent.futures.ThreadPoolExecutor(WORKERS) as workers:
        def checked(check):
            folder = pathlib.Path(root, check.__name__)
            folder.mkdir()
            checks = Checks(program, folder)
            check(checks)
            return checks

        all_checks = list(workers.map(checked, (  # the longest first
            check_random, check_same, check_whole_yards, check_branches, check_nonsense, check_ends, check_back, check_do_not_know,
            check_that_it_matters, check_told_command, check_files, check_places, check_blank, check_manners, check_patience)))
    failures = [failure for checks in all_checks for failure in checks.failures]
    folders, count = sum(checks.folders for checks in all_checks), sum(checks.count for checks in all_checks)
    print("\n\n".join(failures))
    print(f"{folders} sessions and folders, {count} checks, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
