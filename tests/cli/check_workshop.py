"""A class from outside: a messy roster, a handout for each good row and a message for each bad one; a run that is killed and run again;
numbers and no names; the totals a second time.

usage: check_workshop.py PROGRAM [ROWS BAD_ROWS]     24 rows, 4 of them bad, where none are said

With a number of rows it makes such a roster alone, runs it once, each household with its winter, and tells how long it took.
"""
import csv
import datetime
import html
import io
import json
import os
import pathlib
import random
import re
import signal
import subprocess
import sys
import tempfile
import time

from arithmetic import Checks, container_sizes
from check_pages import read_page

check = Checks()
TODAY = "2026-10-24"
PEOPLE = "How many people live with you?"
HEADINGS = ["Timestamp", "household", "Name", "LEAVES", "trees", "lawn", "Near water", "clippings", "treated", PEOPLE, "other", "treated other",
            "bin", "built", "turn", "winter"]
BASE = f'[office]\nname = "Office of nowhere"\n[columns]\n"{PEOPLE}" = "people"\n'
# Invented, and made to break things; each stands in its file as it is typed.
NAMES = ["Ann Example", "<script>alert(1)</script>", 'Bo "Quote" Example', "=1+1", "Cy O'Example & Co", "Example, Di", "+cmd|' /C calc'!A0"]
TURNED = "Ex\u202eample"
LEAVES = ["12", "about 10", "6 bags", "a dozen", "20-25 bags", "10 ", "half a dozen bags", "0", "", "idk"]
LAWN = ["5000", "1/2 acre", "60 by 30", "", "idk", "0"]
OTHER = ["", "nothing", "2 buckets of coffee grounds", "1 bale of straw, 1 bucket of coffee grounds", "idk"]
BIN = ["4 by 4 by 4", "4", "round 3 by 4", "tumbler 60 gal", "", "?"]
BAD = [("LEAVES", "10 bgas", r"unknown unit"), ("lawn", "blue", r"."), ("other", "2 buckets of meat", r"stays out of the pile"),
       (PEOPLE, "a lot", r"."), ("Near water", "purple", r"neither yes nor no"), ("bin", "the big one", r".")]
PLAIN_BAGS = {"12": 12, "6 bags": 6, "10 ": 10, "0": 0, "about 10": 10, "a dozen": 12, "half a dozen bags": 6, "20-25 bags": 22.5}
FORMULA = "=+-@|%\t\r"


def make_roster(rows, bad_rows, with_winters):
    """The rows as dicts, and of the bad ones the heading and what is said."""
    rng = random.Random(20261024)
    bad = set(rng.sample(range(rows), bad_rows))
    made, wrong = [], {}
    for at in range(rows):
        name = NAMES[at % len(NAMES)] + f" {at}" if at % 9 else TURNED + f" {at}"
        row = {heading: "" for heading in HEADINGS}
        row |= {"Timestamp": f"2026/10/{1 + at % 20} 7:0{at % 10} PM", "household": str(at + 1), "Name": name, "LEAVES": rng.choice(LEAVES),
                "trees": rng.choice(["3", "", "idk"]), "lawn": rng.choice(LAWN), "Near water": rng.choice(["no", "yes", ""]),
                "clippings": rng.choice(["0", "4", "2 mower bags", ""]), "treated": rng.choice(["no", "yes", "idk", ""]),
                PEOPLE: rng.choice(["3", "2", "", "idk"]), "other": rng.choice(OTHER), "treated other": rng.choice(["no", "idk", ""]),
                "bin": rng.choice(BIN), "built": rng.choice(["today", "", "Nov 7"]), "turn": rng.choice(["every 2 weeks", "never", ""]),
                "winter": rng.choice(["cool", "cold", "Ohio", "mild"]) if with_winters or at == 3 else ""}
        # What is not asked may be anything: it is passed over, and must do a spreadsheet no harm.
        if row["LEAVES"] not in ("", "idk"):
            row["trees"] = '=SUM("a";B1)' if at % 3 == 0 else row["trees"]
        if at in bad:
            heading, text, said = BAD[len(wrong) % len(BAD)]
            if heading == "Near water":
                row["lawn"] = "5000"
            row[heading] = text
            wrong[at] = (heading, said)
        made.append(row)
    return made, wrong


def written(rows, blank_after=()):
    """As CSV, with blank rows; and the line of each row."""
    text, lines = io.StringIO(), []
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(HEADINGS)
    line = 2
    for at, row in enumerate(rows):
        lines.append(line)
        writer.writerow([row[heading] for heading in HEADINGS])
        line += 1
        if at in blank_after:
            writer.writerow([""] * len(HEADINGS))
            line += 1
    return text.getvalue(), lines


class Class:
    """A folder with a roster, and runs of the command in it."""

    def __init__(self, program, folder, text):
        self.program, self.folder = program, pathlib.Path(folder)
        (self.folder / "roster.csv").write_text(text, encoding="utf-8")
        (self.folder / "base.toml").write_text(BASE, encoding="utf-8")

    def command(self, into, *options):
        return [self.program, "workshop", "roster.csv", "--into", into, "--base", "base.toml", "--today", TODAY, *options]

    def run(self, into, *options):
        return subprocess.run(self.command(into, *options), cwd=self.folder, capture_output=True, text=True, timeout=600)

    def files(self, into):
        return {path.name: path.read_bytes() for path in (self.folder / into).iterdir()}


def answers_are_told(files, rows, good, with_names=False):
    table = list(csv.reader(io.StringIO(files["answers.csv"].decode())))
    head, body = table[0], table[1:]
    check(head[0] == "household" and ("name" in head) == with_names and head[-1] == "assumed", f"answers.csv begins {head}")
    check([int(line[0]) for line in body] == [at + 1 for at in good], "answers.csv has another order than the roster")
    columns = {heading.lower().replace(" ", "-"): heading for heading in HEADINGS} | {"scraps": PEOPLE}
    for line, at in zip(body, good):
        if with_names:
            check(line[1].removeprefix("'") == rows[at]["Name"].replace("\u202e", "\ufffd"), f"household {at + 1} is named {line[1]!r}")
        for place, column in enumerate(head):
            if column in columns and column not in ("household", "name"):
                typed = rows[at][columns[column]].strip()
                check(line[place].removeprefix("'") == typed, f"answers.csv, household {at + 1}, {column}: {line[place]!r} for {typed!r}")
                if typed in ("", "idk") and line[place + 1]:
                    check(line[place + 1] == "don't know", f"household {at + 1}, {column}: understood as {line[place + 1]!r}")
            check(not line[place][:1] or line[place][0] not in FORMULA, f"answers.csv, household {at + 1}, {column}: a formula {line[place]!r}")


def totals_are_sums(told, rows, good):
    totals = told["totals"]
    counted = [PLAIN_BAGS[row["LEAVES"]] for row in (rows[at] for at in good) if row["LEAVES"] in PLAIN_BAGS]
    trees = sum(1 for at in good if rows[at]["LEAVES"] in ("", "idk"))
    leaves = [thing for thing in totals["feedstocks"] if thing["id"] == "leaves-fall"]
    check(len(leaves) == 1 and leaves[0]["households"] == sum(1 for count in counted if count) + trees, f"leaves of {leaves}")
    least = sum(counted) * container_sizes()["leaf-bag"]
    check(leaves[0]["volume_m3"] > least * (1 - 1e-9), f"leaves {leaves[0]['volume_m3']} of which bags alone are {least}")
    if trees == 0:
        check(abs(leaves[0]["volume_m3"] / least - 1) < 1e-4, f"leaves {leaves[0]['volume_m3']} for {least}")
    people = sum(int(rows[at][PEOPLE]) for at in good if rows[at][PEOPLE] in ("2", "3"))
    scraps = [thing for thing in totals["feedstocks"] if thing["id"] == "kitchen-scraps"][0]
    each = scraps["mass_kg"] / people
    check(0.5 < each < 5 and scraps["each_week"], f"a week's scraps of one person are {each} kg")
    square_metres = {"5000": 5000 * 0.3048**2, "1/2 acre": 0.5 * 43560 * 0.3048**2, "60 by 30": 1800 * 0.3048**2}
    area = sum(square_metres.get(rows[at]["lawn"], 0) for at in good)
    check(abs(totals["lawn_area_m2"] / area - 1) < 1e-4, f"lawns of {totals['lawn_area_m2']} m2 for {area}")
    recipe = totals["demonstration_pile"]["recipe"]
    check(recipe["status"] == "on-target" and abs(recipe["mix"]["volume_m3"] / 0.9144**3 - 1) < 1e-6, f"the pile is {recipe['status']}")
    there = {thing["id"]: thing["mass_kg"] for thing in totals["demonstration_pile"]["brought"]}
    for amount in recipe["amounts"]:
        check(amount["mass_kg"] <= there[amount["id"]] * (1 + 1e-9), f"more {amount['id']} than there is")


def names_are_kept_out(files, rows):
    for file, content in files.items():
        text = html.unescape(content.decode())
        # Of the first words those that are a name alone, not a part of a longer word.
        found = [row["Name"] for row in rows
                 if row["Name"] in text or re.search(rf"(?<!\w){re.escape(row['Name'].split(' ')[0])}(?!\w)", text)]
        check(not found and "Example" not in text and "alert" not in text, f"{file} has names: {found}")


def handouts_are_whole(files, good, rows, with_names=False):
    wanted = {f"household-{at + 1:03}.html" for at in good} | {"print-all.html", "index.html", "answers.csv"}
    check(set(files) == wanted, f"files {sorted(set(files) ^ wanted)} too many or missing")
    for name, content in files.items():
        text = content.decode()
        if name.endswith(".html"):
            page = read_page(text)
            check(not page.faults, f"{name}: {page.faults}")
            check(text.startswith("<!DOCTYPE html>\n<!-- made of ") and text.endswith("</html>\n"), f"{name} is not whole")
    bodies = "".join(body_of(files[f"household-{at + 1:03}.html"]) for at in good)
    check(body_of(files["print-all.html"]) == bodies, "print-all.html is not the handouts in the roster's order")
    for at in good:
        title = f"Household {at + 1}" + (f", {rows[at]['Name']}" if with_names else "")
        shown = html.escape(title.replace("\u202e", "\ufffd"), quote=True).replace("&#x27;", "&#39;")
        check(f"<h1>{shown}</h1>" in files[f"household-{at + 1:03}.html"].decode(), f"{title} is not the title of its handout")
        check(shown in files["index.html"].decode(), f"{title} is not in the index")


def body_of(content):
    text = content.decode()
    return text[text.index("<main>\n") + len("<main>\n"):text.rindex("</main>")]


def a_messy_roster(program, folder):
    rows, wrong = make_roster(24, 4, False)
    text, lines = written(rows, blank_after=(2, 11))
    one = Class(program, folder, text)
    good = [at for at in range(len(rows)) if at not in wrong]
    result = one.run("out")
    check(result.returncode == 1, f"exit {result.returncode}: {result.stderr}")
    for at in wrong:
        check(f": household {at + 1}: " in result.stderr, f"household {at + 1} is not named in\n{result.stderr}")
    check(len(re.findall(r"^roster\.csv:", result.stderr, re.MULTILINE)) == len(wrong), f"as many messages as bad rows:\n{result.stderr}")
    for at, (heading, said) in wrong.items():
        message = rf"^roster\.csv:{lines[at]}:\d+: {re.escape(heading)}: .*\n(    .*\n)*"
        found = re.search(message, result.stderr, re.MULTILINE)
        check(found and re.search(said, found[0]), f"row {lines[at]}, {heading}: no such message in\n{result.stderr}")
    screen = " ".join(result.stdout.split())
    check(f"{len(good)} handouts in out" in screen and "Without one, named above: 4 rows of the roster" in screen, result.stdout)
    check("personal data" in screen and "Keep it off shared drives" in screen and "delete it" in screen, result.stdout)
    check('left out: "Timestamp"' in screen, result.stdout)
    check(len(result.stdout.splitlines()) <= 20, f"{len(result.stdout.splitlines())} lines:\n{result.stdout}")
    files = one.files("out")
    check((one.folder / "out").stat().st_mode & 0o077 == 0, "the folder is not its owner's alone")
    handouts_are_whole(files, good, rows)
    check(all((one.folder / "out" / name).stat().st_mode & 0o777 == 0o600 for name in files), "a file is not its owner's alone")
    without = ", ".join(str(at + 1) for at in sorted(wrong))
    check(f"Households without a handout: {without}." in files["index.html"].decode().replace(" and ", ", "), f"not {without} in the index")
    names_are_kept_out(files, rows)
    answers_are_told(files, rows, good)

    told = one.run("out", "--json")
    check(told.returncode == 1, f"exit {told.returncode}")
    told = json.loads(told.stdout)
    check(told["kept"] == len(good), f"{told['kept']} of {len(good)} are kept")
    check([(each["household"], each["line"], each["file"]) for each in told["households"]] ==
          [(at + 1, lines[at], f"household-{at + 1:03}.html") for at in good], "the JSON has other households")
    check({(each["household"], each["line"], each["column"]) for each in told["bad_rows"]} ==
          {(at + 1, lines[at], {PEOPLE: "scraps"}.get(heading, heading.lower().replace(" ", "-"))) for at, (heading, _) in wrong.items()},
          f"{told['bad_rows']}")
    totals_are_sums(told, rows, good)
    check(one.files("out") == files, "the same run makes other files")
    killed_and_run_again(one, files)
    one_row_corrected(one, rows, wrong, files)
    with_names = one.run("named", "--names")
    check(with_names.returncode == 1, with_names.stderr)
    named = one.files("named")
    handouts_are_whole(named, good, rows, with_names=True)
    answers_are_told(named, rows, good, with_names=True)
    for at in wrong:
        name = rows[at]["Name"].replace("\u202e", "\ufffd")
        check(f": household {at + 1}, {name}: " in with_names.stderr, f"household {at + 1} is not named in\n{with_names.stderr}")


def somebodys_own(folder):
    """Files that are called like those that we leave when we are killed, or almost."""
    own = [folder / name for name in (".heapwright-Ab3xYz", ".heapwright-unfinished-Own000", ".heapwright-unfinished-Ab3-Yz",
                                      ".heapwright-unfinished-Link00")]
    for path in own[:3]:
        path.write_text("mine")
    own[3].symlink_to("nowhere")
    return own


def killed_and_run_again(one, files):
    for least in (1, 8):
        into = f"killed-{least}"
        process = subprocess.Popen(one.command(into), cwd=one.folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        folder = one.folder / into
        while process.poll() is None and (not folder.exists() or len(list(folder.glob("household-*.html"))) < least):
            time.sleep(0.002)
        process.send_signal(signal.SIGKILL)
        process.wait()
        before = {path.name: path.read_bytes() for path in folder.iterdir() if not path.name.startswith(".")}
        check(all(files[name] == content for name, content in before.items()), "a file of a run that was killed is not whole")
        own = somebodys_own(folder)
        (folder / ".heapwright-unfinished-Ab3xYz").write_text("<!DOCTYPE html>\n<!-- made of a roster -->\n<html")
        (folder / ".heapwright-unfinished-000000").write_text("")
        (folder / ".heapwright-unfinished-Csv000").write_bytes(files["answers.csv"][:-5])
        again = json.loads(one.run(into, "--json").stdout)
        for path in own:
            check(path.is_symlink() or path.exists(), f"{path.name} is somebody's own, and removed")
            path.unlink()
        check(again["kept"] == sum(1 for name in before if name.startswith("household")), f"{again['kept']} kept of {len(before)}")
        check(one.files(into) == files, "a run that was killed and run again ends with other files")


def one_row_corrected(one, rows, wrong, files):
    """Only what changes is made again; another's file is left alone."""
    at, (heading, _) = next(iter(wrong.items()))
    corrected = [dict(row) for row in rows]
    corrected[at][heading] = ""
    (one.folder / "roster.csv").write_text(written(corrected)[0], encoding="utf-8")
    told = json.loads(one.run("out", "--json").stdout)
    check(told["kept"] == len(told["households"]) - 1 == len(rows) - len(wrong), f"{told['kept']} kept of {len(told['households'])}")
    (one.folder / "roster.csv").write_text(written(rows)[0], encoding="utf-8")
    handout = one.folder / "out" / "household-001.html"
    handout.write_text("<!DOCTYPE html>\n<html>somebody's own</html>\n")
    refused = one.run("out")
    check(refused.returncode == 2 and "household-001.html is there already" in refused.stderr and not refused.stdout, refused.stderr)
    check("somebody's own" in handout.read_text(), "another's file is overwritten")
    check(one.run("out", "--force").returncode == 1 and handout.read_bytes() == files["household-001.html"], "--force does not overwrite")


def a_template(program, folder):
    folder = pathlib.Path(folder)
    run = lambda *arguments: subprocess.run([program, "workshop", *arguments], cwd=folder, capture_output=True, text=True, timeout=120)
    made = run("--new", "new.csv")
    check(made.returncode == 0 and "workshop new.csv --into" in made.stdout, f"{made.stdout}{made.stderr}")
    check(run("--new", "new.csv").returncode == 2, "a template overwrites a file")
    result = run("new.csv", "--into", "handouts", "--json", "--today", TODAY)
    told = json.loads(result.stdout)
    check(result.returncode == 0 and not result.stderr and [each["household"] for each in told["households"]] == [1, 2], result.stderr)
    table = list(csv.reader(io.StringIO((folder / "handouts" / "answers.csv").read_text())))
    rows = list(csv.DictReader(io.StringIO((folder / "new.csv").read_text())))
    for row, line in zip(rows, table[1:]):
        answers = dict(zip(table[0], line))
        check(all(answers[column] == text for column, text in row.items() if column != "name"), f"{row} became {answers}")
    text = (folder / "new.csv").read_text()
    (folder / "windows.csv").write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    again = run("windows.csv", "--into", "windows", "--today", TODAY)
    check(again.returncode == 0 and not again.stderr, again.stderr)
    for name in ("household-001.html", "household-002.html", "print-all.html", "answers.csv"):
        check((folder / "windows" / name).read_bytes() == (folder / "handouts" / name).read_bytes(), f"{name} is another from Windows")


def a_base_with_more(program, folder):
    """Its containers, targets, depth and weather file count: in the answers, the totals and what is made again."""
    folder = pathlib.Path(folder)
    days = [datetime.date(2025, 1, 1) + datetime.timedelta(days=n) for n in range(365)]
    weather = lambda coldest: "date,air degC\n" + "".join(f"{day},{15 - abs(day.month - 7) * (15 - coldest) / 6:.2f}\n" for day in days)
    (folder / "daily.csv").write_text(weather(0))
    (folder / "base.toml").write_text('[climate]\nfile = "daily.csv"\n[[container]]\nname = "big-tub"\nvolume = "50 gal"\n'
                                      '[topdressing]\ndepth = "3/8 in"\n')
    (folder / "roster.csv").write_text("leaves,clippings,treated,lawn,near-water\n6 big-tubs,8,no,5000,no\n8 big-tubs,6,no,0,\n")
    run = lambda *more: subprocess.run([program, "workshop", "roster.csv", "--into", "out", "--base", "base.toml", "--today", TODAY, "--json", *more],
                                       cwd=folder, capture_output=True, text=True, timeout=120)
    result = run()
    check(result.returncode == 0 and not result.stderr, result.stderr)
    told = json.loads(result.stdout)
    leaves = [thing for thing in told["totals"]["feedstocks"] if thing["id"] == "leaves-fall"][0]
    check(abs(leaves["volume_m3"] / (14 * 50 * 231 * 0.0254**3) - 1) < 1e-6, f"14 tubs are {leaves['volume_m3']} m3")
    amounts = told["totals"]["demonstration_pile"]["recipe"]["amounts"]
    check(told["totals"]["demonstration_pile"]["is_to_build"] and "big-tub" in json.dumps(amounts), f"no tubs in {amounts}")
    check("big-tub" in (folder / "out" / "index.html").read_text(), "no tubs in the index")
    check("3/8 in" in (folder / "out" / "household-001.html").read_text(), "the base's depth is not on the handout")
    check(json.loads(run().stdout)["kept"] == 2, "the same is made again")
    (folder / "daily.csv").write_text(weather(-12))
    check(json.loads(run().stdout)["kept"] == 0, "handouts made of another weather are kept")


def rows_that_go(program, folder):
    """A handout stays no longer than its row; what is not ours stays."""
    folder = pathlib.Path(folder)
    run = lambda text, *more: ((folder / "roster.csv").write_text(text),
                               subprocess.run([program, "workshop", "roster.csv", "--into", "out", "--today", TODAY, *more], cwd=folder,
                                              capture_output=True, text=True, timeout=120))[1]
    out = folder / "out"
    out.mkdir(mode=0o755)
    (out / "household-099.html").write_text("<!DOCTYPE html>\n<html>somebody's own</html>\n")
    check(run("household,leaves\n1,3\n2,4\n3,5\n").returncode == 0, "three rows make no handouts")
    check((out / "household-002.html").stat().st_mode & 0o777 == 0o600, "in a folder that was there a handout is not its owner's alone")
    result = run("household,leaves\n1,3\n3,blue\n")
    names = lambda: sorted(path.name for path in out.iterdir())
    check("Removed: household-002.html, household-003.html" in " ".join(result.stdout.split()), f"what is removed is not told:\n{result.stdout}")
    check(names() == ["answers.csv", "household-001.html", "household-099.html", "index.html", "print-all.html"], f"{names()}")
    check("Household 3" not in (out / "print-all.html").read_text(), "a handout that went is printed")
    result = run("household,leaves\n1,red\n3,blue\n", "--json")
    told = json.loads(result.stdout)
    check(result.returncode == 1 and told["removed"] == ["household-001.html"] and not told["households"], result.stdout)
    check(names() == ["answers.csv", "household-099.html", "index.html", "print-all.html"], f"{names()}")
    check((out / "answers.csv").read_text().count("\n") == 1, "answers of households without a handout")
    for name in ("index.html", "print-all.html"):
        text = (out / name).read_text()
        check(not read_page(text).faults and "<h1>Household 1</h1>" not in text, f"{name} without households")
    check("Households without a handout: 1, 3." in (out / "index.html").read_text(), "the index does not say who has none")
    check("somebody's own" in (out / "household-099.html").read_text(), "another's file is removed")
    (out / "household-001.html").unlink(missing_ok=True)
    os.mkfifo(out / "household-001.html")
    for more in ((), ("--force",)):
        refused = run("household,leaves\n1,3\n", *more)  # would wait for ever
        check(refused.returncode == 2 and "household-001.html" in refused.stderr, refused.stderr)


def a_base(program, folder):
    """Who does not know the climate and the bin has those of the base file, as if it had been said; what is said wins."""
    folder = pathlib.Path(folder)
    (folder / "base.toml").write_text('[office]\nname = "Office of nowhere"\n[climate]\nlike = "cool"\n'
                                      '[pile]\nshape = "bin"\nlength = "3 ft"\nwidth = "3 ft"\nheight = "3 ft"\n')
    (folder / "roster.csv").write_text("household,leaves,clippings,treated,scraps,winter,bin\n1,12,4,no,2,cool,3 by 3 by 3\n2,12,4,no,2,,\n"
                                       "3,12,4,no,2,cold,4 by 4 by 4\n")
    result = subprocess.run([program, "workshop", "roster.csv", "--into", "out", "--base", "base.toml", "--today", TODAY, "--json"], cwd=folder,
                            capture_output=True, text=True, timeout=120)
    check(result.returncode == 0 and not result.stderr, result.stderr)
    said, unsaid, other = [body_of((folder / "out" / f"household-00{number}.html").read_bytes()) for number in (1, 2, 3)]
    check("winter: don&#39;t know" in unsaid, "the handout does not say what was not told")
    plan = [re.sub(r"<div class=\"ground\">\n<p>Not told.*?</p>\n</div>\n", "", text, flags=re.S) for text in (said, unsaid)]
    check(plan[1].replace("Household 2", "Household 1") == plan[0], "the base's climate and bin are not as if they had been said")
    check(other.replace("Household 3", "Household 1") != said, "what a household says does not win over the base")
    check("Office of nowhere" in unsaid, "the office is on no handout")
    assumed = {each["column"]: each["taken"] for each in json.loads(result.stdout)["households"][1]["assumed"]}
    check(assumed["winter"] == assumed["bin"] == "Then it is as in the base file.", f"{assumed}")


def a_large_class(program, rows, bad_rows):
    made, wrong = make_roster(rows, bad_rows, True)
    with tempfile.TemporaryDirectory() as folder:
        one = Class(program, folder, written(made)[0])
        begun = time.monotonic()
        command = ["/usr/bin/time", "-v", *one.command("out")] if os.path.exists("/usr/bin/time") else one.command("out")
        result = subprocess.run(command, cwd=folder, capture_output=True, text=True)
        took = time.monotonic() - begun
        handouts = len(list((one.folder / "out").glob("household-*.html")))
        messages = {int(line) for line in re.findall(r"^roster\.csv:(\d+):", result.stderr, re.MULTILINE)}
        check(result.returncode == 1 and handouts == rows - bad_rows and len(messages) == bad_rows,
              f"exit {result.returncode}, {handouts} handouts, {len(messages)} bad rows")
        memory = re.search(r"Maximum resident set size \(kbytes\): (\d+)", result.stderr)
        cpu = re.search(r"User time \(seconds\): ([\d.]+)", result.stderr)
        print(f"{rows} rows: {took:.0f} s, {took / rows:.3f} s a household; "
              f"user {cpu[1] if cpu else '?'} s; at most {int(memory[1]) / 1024 if memory else 0:.0f} MiB")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    if len(sys.argv) > 3:
        a_large_class(program, int(sys.argv[2]), int(sys.argv[3]))
    else:
        with tempfile.TemporaryDirectory() as folder:
            a_messy_roster(program, folder)
        with tempfile.TemporaryDirectory() as folder:
            a_template(program, folder)
        with tempfile.TemporaryDirectory() as folder:
            a_base(program, folder)
        with tempfile.TemporaryDirectory() as folder:
            a_base_with_more(program, folder)
        with tempfile.TemporaryDirectory() as folder:
            rows_that_go(program, folder)
    print("\n\n".join(check.failures))
    print(f"{check.count} checks, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
