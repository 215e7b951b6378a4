"""What went into a pile, from outside: written down by the command, read from the file, told by a log; what is asked, what is refused, and
that a file is kept as it was but for what is added.

usage: check_loads.py PROGRAM
"""
import json
import os
import pathlib
import re
import stat
import subprocess
import sys
import tempfile
import tomllib

from arithmetic import Checks

check = Checks()
TODAY = "2026-11-30"

YARD = """# A yard with its own ways: tabs\t, "quotes" and an umlaut, ü
title = "My yard"   # trailing

[[container]]
name = "blue tub"
volume = "12 gal"

[[supply]]
feedstock = "leaves"
amount = "20 leaf-bag"

[pile]
shape = "bin"
length = "4 ft"
width = "4 ft"
height = "4 ft"
built = 2026-11-07
"""

# As people type it, and the tables it must become: (feedstock, packing, amount) or (None, None, water).
WATER = None
TYPED = [
    ("2 buckets leaves", [("leaves-fall", None, "2 bucket")]),
    ("2 buckets of leaves", [("leaves-fall", None, "2 bucket")]),
    ("two buckets of leaves", [("leaves-fall", None, "2 bucket")]),
    ("leaves 2 buckets", [("leaves-fall", None, "2 bucket")]),
    ("leaves: 2 buckets", [("leaves-fall", None, "2 bucket")]),
    ("leaves=2 buckets", [("leaves-fall", None, "2 bucket")]),
    ("leaves, 2 buckets", [("leaves-fall", None, "2 bucket")]),
    ("LEAVES 2 BUCKETS", [("leaves-fall", None, "2 bucket")]),
    ("2 bucketfuls of leaves", [("leaves-fall", None, "2 bucket")]),
    ("grass 3 buckets", [("grass-clippings", None, "3 bucket")]),
    ("3 buckets grass-clippings", [("grass-clippings", None, "3 bucket")]),
    ("3 buckets of lawn clippings", [("grass-clippings", None, "3 bucket")]),
    ("3 buckets of fresh grass", [("grass-clippings", None, "3 bucket")]),
    ("half a bucket of coffee grounds", [("coffee-grounds", None, "0.5 bucket")]),
    ("1/2 bucket of coffee grounds", [("coffee-grounds", None, "1/2 bucket")]),
    ("coffee 1/2 bucket", [("coffee-grounds", None, "1/2 bucket")]),
    ("0.5 bucket of coffee", [("coffee-grounds", None, "0.5 bucket")]),
    ("a bag of leaves and a gallon of water", [("leaves-fall", None, "1 leaf-bag"), (WATER, None, "1 gallon")]),
    ("a bag of leaves", [("leaves-fall", None, "1 leaf-bag")]),
    ("one leaf bag of leaves", [("leaves-fall", None, "1 leaf-bag")]),
    ("4 bags of shredded leaves", [("leaves-fall", "shredded", "4 leaf-bag")]),
    ("4 bags of mulched leaves", [("leaves-fall", "shredded", "4 leaf-bag")]),
    ("4 bags of old dry leaves", [("leaves-fall", None, "4 leaf-bag")]),
    ("about 5 lb of kitchen scraps", [("kitchen-scraps", None, "5 lb")]),
    ("5 pounds kitchen scraps", [("kitchen-scraps", None, "5 pounds")]),
    ("food scraps, 1 bucket", [("kitchen-scraps", None, "1 bucket")]),
    ("a 5-gallon bucket of kitchen scraps", [("kitchen-scraps", None, "1 bucket")]),
    ("1 kitchen pail of scraps", [("kitchen-scraps", None, "1 kitchen-pail")]),
    ("2-3 buckets of leaves", [("leaves-fall", None, "2 to 3 bucket")]),
    ("2 to 3 buckets leaves", [("leaves-fall", None, "2 to 3 bucket")]),
    ("2 or 3 buckets of leaves", [("leaves-fall", None, "2 to 3 bucket")]),
    ("a wheelbarrow of horse manure", [("horse-manure", None, "1 wheelbarrow")]),
    ("2 wheelbarrow loads of horse manure", [("horse-manure", None, "2 wheelbarrow")]),
    ("a bale of straw", [("straw", None, "1 straw-bale")]),
    ("2 blue tubs of leaves", [("leaves-fall", None, "2 blue tub")]),
    ("1/2 yd3 of wood chips", [("wood-chips", None, "1/2 yd3")]),
    ("half a cubic yard of wood chips", [("wood-chips", None, "0.5 cubic yard")]),
    ("2 buckets leaves; 1 gal water", [("leaves-fall", None, "2 bucket"), (WATER, None, "1 gal")]),
    ("2 buckets leaves, 1 bucket grass and 1 gal water",
     [("leaves-fall", None, "2 bucket"), ("grass-clippings", None, "1 bucket"), (WATER, None, "1 gal")]),
    ("2 buckets leaves & 2 lb coffee", [("leaves-fall", None, "2 bucket"), ("coffee-grounds", None, "2 lb")]),
    ("2 gal water", [(WATER, None, "2 gal")]),
    ("2 gallons of water", [(WATER, None, "2 gallons")]),
    ("water 2 gal", [(WATER, None, "2 gal")]),
    ("water: 2 gal", [(WATER, None, "2 gal")]),
    ("water, 2 gal", [(WATER, None, "2 gal")]),
    ("half a bucket of rain water", [(WATER, None, "0.5 bucket")]),
    ("2 watering cans", [(WATER, None, "2 watering-can")]),
    ("20 liters of water", [(WATER, None, "20 liters")]),
    ("5 gal bucket of grass", [("grass-clippings", None, "1 bucket")]),
    ("a 30 gallon bag of leaves", [("leaves-fall", None, "1 leaf-bag")]),
    ("two 30-gallon bags of leaves", [("leaves-fall", None, "2 leaf-bag")]),
    ("i put in 2 buckets of leaves", [("leaves-fall", None, "2 bucket")]),
    ("added 2 buckets leaves,1 gal water", [("leaves-fall", None, "2 bucket"), (WATER, None, "1 gal")]),
    ("3 + 2 bags of leaves", [("leaves-fall", None, "5 leaf-bag")]),
    ("six 30 gallon bags of leaves, shredded", [("leaves-fall", "shredded", "6 leaf-bag")]),
    ("1,000 lb of leaves", [("leaves-fall", None, "1,000 lb")]),
    ("leaves (2 bags)", [("leaves-fall", None, "2 leaf-bag")]),
    ("1 bucket of coffee grounds with filters", None),
    ("a pizza box", None),
]

# What is asked or refused: the texts, what stderr must say.
REFUSED = [
    (["leaves"], r"how much of leaves\?"),
    (["2 buckets"], r"of what\?"),
    (["2", "buckets", "leaves"], r'"2".*put quotes around words that belong together: "2 buckets leaves"'),
    (["a few bags of leaves"], r"does not say how much"),
    (["3 buckets of leaves and grass"], r"how much of grass\?"),
    (["2 bukets of leaves"], r"bukets"),
    (["2 buckets of leafs clipings"], r"."),
    (["1 ton of leaves"], r"2000 lb"),
    (["2 buckets of meat"], r'"meat" stays out of the pile: .'),
    (["1 bag of dog poop"], r"stays out of the pile"),
    (["2 buckets leaves", "1 lb of cheese"], r"stays out of the pile"),
    (["2 buckets leaves; 1 bucket coal ash"], r"stays out of the pile.*write the others alone: 2 buckets leaves"),
    (["2 gal fish tank water"], r"."),
    (["water"], r"how much water\?"),
    (["3 bags of water"], r"holds none"),
    (["2 to 3 gal water"], r"two amounts"),
    (["2 qt water"], r'"2 qt".*unit'),
    (["500 ml of water"], r'"500 ml".*unit'),
    (["0 buckets leaves"], r"is nothing"),
    (["none"], r"is nothing that went in"),
    ([""], r"is nothing that went in"),
    (["-5 buckets leaves"], r"."),
    (["1e30 buckets of leaves"], r"."),
    (["nan gal water"], r"."),
    (["2 bags of potting soil"], r"."),
    (["2 buckets leaves", "--date", "2026-12-01"], r"--date: 2026-12-01 is after today, 2026-11-30"),
    (["2 buckets leaves", "--date", "2026-11-06"], r"2026-11-06 is before the pile was built, 2026-11-07.*--date"),
    (["2 buckets leaves", "--date", "11/8/2026"], r"--date: .*2026-11-07"),
    (["2 buckets leaves", "--date", "2026-02-30"], r"--date: "),
    (["2 buckets leaves", "--treated", "maybe"], r'--treated: "maybe" is neither yes, no nor unknown'),
    (["2 buckets leaves", "--treated", "yes"], r"--treated: nothing that is added can carry a weedkiller on"),
    (["2 buckets leaves", "--treated", "hay=yes"], r"--treated: no grass hay is added"),
    (["--date", "2026-11-08"], r"nothing is said to have gone in"),
    (["2 buckets leaves", "--html", "yard.toml", "--force"], r"--html: yard.toml is the yard file"),
    (["2 buckets leaves", "--output", "yard.toml", "--force"], r"--output: yard.toml is the yard file"),
    (["2 buckets leaves", "--html", "nowhere/page.html"], r"--html: "),
]


class Folder:
    """A yard in a folder of its own, and the program run there."""

    def __init__(self, program, path):
        self.program, self.path = program, pathlib.Path(path)
        self.yard = self.path / "yard.toml"

    def write(self, text, name="yard.toml"):
        path = self.path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    def run(self, *arguments, file="yard.toml", today=TODAY):
        arguments = [*map(str, arguments), *(["--today", today] if today else [])]
        return subprocess.run([self.program, "load", file, *arguments], cwd=self.path, capture_output=True, text=True, timeout=60)

    def adds(self, where, *arguments, **how):
        done = self.run(*arguments, **how)
        check(done.returncode == 0 and not done.stderr, f"{where}: exit {done.returncode}: {done.stderr}")
        return done.stdout

    def refuses(self, where, pattern, *arguments, **how):
        done = self.run(*arguments, **how)
        check(done.returncode == 2 and not done.stdout, f"{where}: exit {done.returncode}: {done.stdout}")
        check(re.search(pattern, done.stderr, re.DOTALL), f"{where}: no {pattern!r} in {done.stderr}")

    def only_the_yard(self, where, names=("yard.toml",)):
        check(sorted(os.listdir(self.path)) == sorted(names), f"{where}: {os.listdir(self.path)}")


def tables(path):
    with open(path, "rb") as file:
        return tomllib.load(file).get("load", [])


def check_typed(folder):
    for said, wanted in TYPED:
        folder.write(YARD)
        done = folder.run(said, "--json")
        if wanted is None:  # read or asked about, but never half
            check(done.returncode in (0, 2) and len(tables(folder.yard)) == (1 if done.returncode == 0 else 0), f"{said!r}: {done}")
            continue
        check(done.returncode == 0 and not done.stderr, f"{said!r}: exit {done.returncode}: {done.stderr}")
        if done.returncode != 0:
            continue
        text = folder.yard.read_text(encoding="utf-8")
        check(text.startswith(YARD), f"{said!r}: what was there is changed")
        found = [(table.get("feedstock"), table.get("packing"), table.get("amount", table.get("water"))) for table in tables(folder.yard)]
        check(found == wanted, f"{said!r}: {found} is not {wanted}")
        check(all(str(table["date"]) == TODAY for table in tables(folder.yard)), f"{said!r}: not of today")
        told = json.loads(done.stdout)
        check(told["loads"] == len(wanted) and told["added"] == told["went_in"], f"{said!r}: {told}")
        check([load["id"] for load in told["added"]] == [feedstock for feedstock, _, _ in wanted], f"{said!r}: {told}")
        check(all((load["mass_kg"] is None) == (load["id"] is None) for load in told["added"]), f"{said!r}: {told}")


def check_refused(folder):
    for arguments, pattern in REFUSED:
        folder.write(YARD)
        folder.refuses(arguments, pattern, *arguments)
        check(folder.yard.read_text(encoding="utf-8") == YARD, f"{arguments}: the file is changed")
        folder.only_the_yard(arguments)
    folder.refuses("no such file", r"there is no such file", "2 buckets leaves", file="other.toml")
    folder.only_the_yard("no such file")


def check_bytes(folder):
    crlf = YARD.replace("\n", "\r\n")
    for name, text in (
        ("as it is", YARD),
        ("no newline at its end", YARD.rstrip("\n")),
        ("CRLF", crlf),
        ("CRLF, no newline at its end", crlf.rstrip("\r\n")),
        ("a byte-order mark", "\ufeff" + YARD),
        ("a comment at its end", YARD + "# the end"),
        ("blank lines at its end", YARD + "\n\n\n"),
        ("loads before", YARD + "[[load]]\ndate = 2026-11-08\nwater = \"1 gal\"\n"),
        ("a load in the middle", "[[load]]\ndate = 2026-11-08\nwater = \"1 gal\"\n" + YARD.split("\n", 2)[2]),
        ("empty", ""),
        ("one line", 'title = "My yard"'),
    ):
        before = text.encode()
        folder.write(before)
        had = len(tables(folder.yard)) if not text.startswith("\ufeff") else 0
        folder.adds(name, "2 buckets leaves", "1 gal water")
        after = folder.yard.read_bytes()
        check(after.startswith(before), f"{name}: what was there is changed")
        added = after[len(before):]
        check(b"\n[[load]]" in b"\n" + added and added.endswith(b"\n"), f"{name}: {added}")
        ends = b"\r\n" if b"\r\n" in before else b"\n"
        check(added.replace(b"\r\n", b"\n").count(b"\n") == added.count(ends) and (ends == b"\r\n" or b"\r" not in added), f"{name}: {added}")
        listed = json.loads(folder.adds(name, "--json"))
        check(listed["loads"] == had + 2 and listed["added"] == [], f"{name}: {listed}")


def check_round_trip(folder):
    folder.write(YARD)
    folder.adds("first", "2 1/2 buckets of shredded leaves, 1 gal water", "--date", "2026-11-07")
    folder.adds("second", "grass 3 buckets", "--date", "2026-11-14", "--treated", "unknown")
    folder.adds("third", "2 buckets grass; 2 to 4 lb coffee", "--treated", "grass=no", "--date", "2026-11-10")
    found = tables(folder.yard)
    check([table.get("treated") for table in found] == [None, None, "unknown", "no", None], f"treated: {found}")
    listed = json.loads(folder.adds("list", "--json"))["went_in"]
    check([load["date"] for load in listed] == ["2026-11-07"] * 2 + ["2026-11-10"] * 2 + ["2026-11-14"], f"the earliest first: {listed}")
    check([load["treated"] for load in listed] == [None, None, "no", None, "unknown"], f"treated: {listed}")
    check(listed[0]["packing"] == "shredded" and listed[0]["containers"] == {"name": "bucket", "count": 2.5}, f"{listed[0]}")
    check(abs(listed[3]["mass_kg"] - 3 * 0.45359237) < 1e-9, f"the middle of a range: {listed[3]}")
    check(abs(listed[1]["water_kg"] - 3.785411784) < 1e-9, f"{listed[1]}")
    screen = folder.adds("list")
    check(screen.count("2026-11-10") == 2 and "about 3 lb of coffee grounds" in screen, screen)
    check("So far: 5 loads since Nov 7; 2 1/2 buckets of autumn leaves, 5 buckets of grass clippings, 3 lb of coffee grounds, 1 gallon of water."
          in " ".join(screen.split()), screen)
    before = folder.yard.read_bytes()
    folder.adds("list again")
    check(folder.yard.read_bytes() == before, "listing writes")


def check_told(folder):
    folder.write(YARD)
    told = folder.adds("told", "2 buckets leaves")
    check(told == "Added to yard.toml: 2 buckets of autumn leaves, Monday, Nov 30, 2026.\nSo far: 1 load on Nov 30; 2 buckets of autumn leaves.\n", told)
    check("So far: 2 loads on Nov 30" in folder.adds("told again", "1 gal water"), "2 loads")
    twice = folder.adds("twice", "2 buckets leaves")
    check(re.search(r"There are 2 loads of 2 buckets of autumn leaves on Nov 30 now\..*delete\s+the\s+last such \[\[load\]\] from\s+yard\.toml", twice, re.DOTALL), twice)
    check(len(tables(folder.yard)) == 3, "added all the same")
    check("There are" not in folder.adds("another day", "2 buckets leaves", "--date", "2026-11-29"), "of another day")
    check("There are" not in folder.adds("another amount", "3 buckets leaves"), "of another amount")
    check("Nothing that went in" in Folder.adds(fresh(folder), "none so far"), "none so far")
    for amount, shown in (("3/4 bucket", "3/4 bucket"), ("1/3 bucket", "1/3 bucket"), ("2.25 buckets", "2 1/4 buckets"), ("half a bucket", "half a bucket"),
                          ("12 buckets", "12 buckets"), ("1.1 buckets", "1.1 buckets"), ("0.05 bucket", "0.05 buckets"), ("12.3 buckets", "12.3 buckets")):
        told = folder.adds(amount, f"{amount} of grass")
        check(f"Added to yard.toml: {shown} of grass clippings," in told, f"{amount}: {told}")
    check("L of water" in folder.adds("SI", "2 gal water", "--units", "si"), "SI")
    page = folder.path / "page.html"
    folder.adds("a page", "1 bucket grass", "--html", page)
    check("1 bucket of grass clippings" in page.read_text(encoding="utf-8"), "a page")
    page.unlink()


def fresh(folder):
    folder.write(YARD)
    return folder


def check_files(folder):
    folder.write(YARD, "real.toml")
    folder.yard.symlink_to("real.toml")
    folder.adds("a link", "2 buckets leaves")
    check(folder.yard.is_symlink() and len(tables(folder.path / "real.toml")) == 1, "a link")
    folder.yard.unlink()
    (folder.path / "real.toml").unlink()

    folder.write(YARD)
    folder.yard.chmod(0o640)
    folder.adds("its mode", "2 buckets leaves")
    check(stat.S_IMODE(folder.yard.stat().st_mode) == 0o640, "its mode is kept")
    before = folder.yard.read_bytes()
    folder.yard.chmod(0o444)
    folder.refuses("read-only", r"yard.toml may only be read.*chmod", "2 buckets leaves")
    check(folder.yard.read_bytes() == before, "read-only")
    folder.adds("a list of a read-only file")
    folder.yard.chmod(0o644)

    if os.path.exists("/dev/full"):
        with open("/dev/full", "wb") as full:
            done = subprocess.run([folder.program, "load", "yard.toml", "1 gal water", "--today", TODAY], cwd=folder.path, stdout=full, stderr=subprocess.PIPE)
        check(done.returncode == 2 and b"it is added to yard.toml, but" in done.stderr, f"a full disk: {done.stderr}")

    for name, text, pattern in (
        ("broken", YARD + '[topdressing]\ndepth = "7 lb"\n', r"yard.toml:19:9: depth"),
        ("a load that is broken", YARD + "[[load]]\ndate = 2026-11-08\n", r"neither a feedstock nor water"),
        ("no TOML", YARD + "[[load\n", r"not TOML"),
        ("loads in a list", 'load = [{ date = 2026-11-08, water = "1 gal" }]\n' + YARD, r"is left as it is.*not TOML"),
        ("as many as a pile may have", YARD + '[[load]]\ndate = 2026-11-08\nwater = "1 gal"\n' * 2000, r"is left as it is.*2001 loads are more than"),
        ("as large as a file may be", YARD + "#" + "x" * (2**20 - len(YARD.encode()) - 1), r"larger than 1 MiB"),
    ):
        folder.write(text)
        folder.refuses(name, pattern, "2 buckets leaves")
        check(folder.yard.read_bytes() == text.encode(), f"{name}: the file is changed")
        folder.only_the_yard(name)

    # What the file names beside it is found in its folder, wherever the command is given.
    days = "date,air degF\n" + "".join(f"{2025 + day // 365}-{m:02}-{d:02},50\n" for day, (m, d) in enumerate(all_days()))
    (folder.path / "there").mkdir()
    folder.write(days, "there/daily.csv")
    folder.write(YARD + '[climate]\nfile = "daily.csv"\n', "there/yard.toml")
    folder.adds("another folder", "2 buckets leaves", file="there/yard.toml")
    (folder.path / "there" / "daily.csv").unlink()
    (folder.path / "there" / "yard.toml").unlink()
    (folder.path / "there").rmdir()


def all_days():
    lengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    year = [(month, day) for month, length in enumerate(lengths, 1) for day in range(1, length + 1)]
    return year + year


def check_dates(folder):
    folder.write(YARD)
    folder.adds("the day it was built", "1 gal water", "--date", "2026-11-07")
    folder.adds("today", "1 gal water", "--date", TODAY)
    check([str(table["date"]) for table in tables(folder.yard)] == ["2026-11-07", TODAY], f"{tables(folder.yard)}")
    folder.write(YARD.replace("built = 2026-11-07\n", ""))
    folder.adds("a pile of no date", "1 gal water", "--date", "2026-01-07")
    folder.adds("without --today", "1 gal water", today=None)
    folder.write(YARD + "standing = true\n")
    folder.adds("a pile that stands", "1 gal water")


def check_log(folder):
    folder.write(YARD + '\n[[load]]\ndate = 2026-11-09\nwater = "1 gal"\n')

    def readings(log):
        folder.write(log, "log.csv")
        arguments = [folder.program, "readings", "yard.toml", "--log", "log.csv", "--today", TODAY]
        return subprocess.run(arguments, cwd=folder.path, capture_output=True, text=True, timeout=60)

    head = "time,core degF,event,added\n"
    done = readings(head + '2026-11-08T08:00,100,,2 buckets leaves; 1 gal water\n2026-11-09T08:00,,turned,"grass 1 bucket, 1 gal water"\n'
                           "2026-11-10T08:00,,,coffee 3 lb\n2026-11-11T08:00,110,,-\n2026-11-12T08:00,115,,\n")
    check(done.returncode == 0 and not done.stderr, f"a log: exit {done.returncode}: {done.stderr}")
    for name, row, pattern in (
        ("no amount", "leaves", r"log.csv:3:23: added: how much of leaves\?"),
        ("no such thing", "2 buckets leavez", r"log.csv:3:23: added: "),
        ("what stays out", "1 lb meat", r"log.csv:3:23: added: .*stays out of the pile"),
    ):
        done = readings(head + f"2026-11-08T08:00,100,,\n2026-11-09T08:00,101,,{row}\n")
        check(done.returncode == 2 and re.search(pattern, done.stderr, re.DOTALL), f"{name}: exit {done.returncode}: {done.stderr}")
    done = readings("time,core degF,added,added\n2026-11-08T08:00,100,,\n")
    check(done.returncode == 2 and "is a second column of that name" in done.stderr, f"a second column: {done.stderr}")
    (folder.path / "log.csv").unlink()


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    for part in (check_typed, check_refused, check_bytes, check_round_trip, check_told, check_files, check_dates, check_log):
        with tempfile.TemporaryDirectory() as path:
            part(Folder(program, path))
    print("\n".join(check.failures))
    print(f"{check.count} checks, {len(check.failures)} failures")
    return 1 if check.failures or not check.count else 0


if __name__ == "__main__":
    sys.exit(main())
