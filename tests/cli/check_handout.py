"""Handouts, from outside: two sides, all that is to be done on the first, every caution whole on the second; how hard they read.

usage: check_handout.py PROGRAM

How hard: the Flesch-Kincaid grade, 0.39 words a sentence + 11.8 syllables a word - 15.59 (Kincaid, Fishburne, Rogers and Chissom 1975,
Navy Research Branch Report 8-75; the formula from memory). Syllables are counted by groups of vowels, a silent e taken off.
A list's item, a row and a label are a sentence each; days and amounts are left out of it, since no formula was made for them.
"""
import html.parser
import json
import pathlib
import re
import subprocess
import sys
import tempfile

from arithmetic import Checks

check = Checks()
ROOT = pathlib.Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
YARDS = ["quarter-acre", "leaves-only", "clippings-only", "fed-bin", "tumbler", "december-hoop", "spring-yard", "lawn-order", "sour-pile"]
TODAY = "2026-10-24"
GRADE = 8.0
OFFICE = """[office]
name = "Exampleton <Garden> Office"
lines = ["12 Invented Street", "Open \\"most\\" days"]
statements = ["This office & its help are made up."]
prepared_by = "the one on duty"
version = "fall 2026"
"""
BLOCKS = {"p", "li", "dt", "dd", "td", "th", "h1", "h2", "figcaption"}


class Handout(html.parser.HTMLParser):
    """The texts of each side, block by block, charts apart; and whatever no page to print should hold."""

    def __init__(self):
        super().__init__()
        self.sides, self.charts, self.forbidden, self.svg, self.rows = [], 0, [], 0, []

    def handle_starttag(self, tag, attributes):
        if tag in ("script", "img", "link", "a", "iframe", "form", "input"):
            self.forbidden.append(tag)
        self.forbidden += [name for name, _ in attributes if name.startswith("on") or name in ("href", "src")]
        if tag == "article":
            self.sides.append([])
        if tag == "svg":
            self.svg += 1
            self.charts += 1
        if tag in BLOCKS and self.sides:
            self.sides[-1].append("")

    def handle_endtag(self, tag):
        self.svg -= tag == "svg"

    def handle_data(self, data):
        if self.sides and self.sides[-1] and not self.svg:
            self.sides[-1][-1] += data

    def text(self, side):
        return " ".join(" ".join(self.sides[side]).split())


def run(program, *arguments):
    return subprocess.run([program, *arguments], cwd=ROOT, capture_output=True, text=True, timeout=120)


def handout_of(program, folder, yard, *options):
    path = pathlib.Path(folder) / "handout.html"
    done = run(program, "plan", str(yard), "--html", str(path), "--force", *options)
    check(done.returncode in (0, 1) and not done.stderr, f"{yard} {options}: exit {done.returncode}: {done.stderr}")
    page = Handout()
    page.feed(path.read_text())
    check("url(" not in path.read_text() and "@import" not in path.read_text(), f"{yard}: fetches nothing")
    check(not page.forbidden, f"{yard}: {page.forbidden}")
    return page, done.stdout


def syllables(word):
    groups = len(re.findall(r"[aeiouy]+", word))
    if word.endswith("e") and not word.endswith("le") and groups > 1:
        groups -= 1
    return max(groups, 1)


def grade_of(texts):
    sentences = [words for text in texts for part in re.split(r"(?<=[.!?:;])\s", text)
                 if (words := re.findall(r"[a-z]+", re.sub(r"\S*\d\S*", " ", part.lower())))]
    words = [word for sentence in sentences for word in sentence]
    return 0.39 * len(words) / len(sentences) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def check_formula():
    """A sentence that everybody knows: eleven syllables in nine words."""
    text = "The quick brown fox jumps over the lazy dog."
    by_hand = 0.39 * 9 + 11.8 * 11 / 9 - 15.59
    check(abs(grade_of([text]) - by_hand) < 1e-9, f"the grade of a sentence: {grade_of([text])}, by hand {by_hand}")


def check_yard(program, folder, name):
    yard = EXAMPLES / f"{name}.toml"
    page, screen = handout_of(program, folder, yard, "--today", TODAY)
    answer = json.loads(run(program, "plan", str(yard), "--today", TODAY, "--json").stdout)
    check(len(page.sides) == 2, f"{name}: {len(page.sides)} sides")
    front, back = page.text(0), page.text(1)
    steps = re.findall(r"^\d+\. (.+(?:\n   .+)*)", screen, re.M)
    for step in steps:
        check(" ".join(step.split()) in front, f"{name}: the first side leaves out: {step}")
    titles = {chore["title"] for chore in answer["calendar"]} if answer["calendar"] and "title" in answer["calendar"][0] else set()
    for title in titles:
        check(title in front, f"{name}: the calendar leaves out: {title}")
    for caution in answer["cautions"]:
        check(caution["text"] in back or caution["text"] in front, f"{name}: no caution: {caution['text']}")
    check("Local rules come first" in front and "Local rules come first" in back, f"{name}: local rules on both sides")
    check("--" not in front.replace("---", ""), f"{name}: an option on paper: {front}")
    grade = grade_of(page.sides[0])
    check(grade <= GRADE, f"{name}: the first side reads at grade {grade:.1f}")
    return grade


def check_office(program, folder):
    base = pathlib.Path(folder) / "base.toml"
    base.write_text(OFFICE)
    page, _ = handout_of(program, folder, EXAMPLES / "quarter-acre.toml", "--today", TODAY, "--base", str(base))
    front, back = page.text(0), page.text(1)
    check("Exampleton <Garden> Office, prepared by the one on duty" in front and "fall 2026" in front, f"who hands it out: {front[-300:]}")
    check("This office & its help are made up." in back and "12 Invented Street. Open \"most\" days" in back, f"the office's own lines: {back[-400:]}")


def check_units(program, folder):
    both, _ = handout_of(program, folder, EXAMPLES / "quarter-acre.toml", "--today", TODAY, "--units", "both")
    check(re.search(r"7 1/2 gallons \(2\d L\)", both.text(0)) is not None, f"gallons and liters: {both.text(0)[:700]}")


def check_sheets(program, folder):
    page, _ = handout_of(program, folder, EXAMPLES / "quarter-acre.toml", "--today", TODAY, "--shed-card", "--blank-log")
    check(len(page.sides) == 4, f"a card and a log beside two sides: {len(page.sides)}")
    check("Oct to May: 2 kitchen pails of kitchen scraps, with 2 buckets of autumn leaves" in page.text(2), f"the card: {page.text(2)}")
    check(sum(not text.strip() for text in page.sides[3]) >= 100, "a log to write on")
    done = run(program, "plan", str(EXAMPLES / "quarter-acre.toml"), "--shed-card")
    check(done.returncode == 2 and "--shed-card" in done.stderr and "--html" in done.stderr, f"a card of no handout: {done.stderr}")


def check_names(program, folder):
    yard = pathlib.Path(folder) / "named.toml"
    name = '<script>alert("x")</script> & \u202eO\'Brien'
    yard.write_text(f"title = '''{name}'''\n[[supply]]\nfeedstock = \"leaves\"\namount = \"6 leaf-bag\"\n"
                    "[[supply]]\nfeedstock = \"grass-clippings\"\namount = \"4 bucket\"\n")
    page, _ = handout_of(program, folder, yard, "--today", TODAY)
    check("<script>alert(\"x\")</script> &" in page.text(0), f"a name as it was typed: {page.text(0)[:200]}")


def main(program):
    check_formula()
    with tempfile.TemporaryDirectory() as folder:
        grades = {name: check_yard(program, folder, name) for name in YARDS}
        check_office(program, folder)
        check_units(program, folder)
        check_sheets(program, folder)
        check_names(program, folder)
    print("grades: " + ", ".join(f"{name} {grade:.1f}" for name, grade in grades.items()))
    print("\n".join(check.failures))
    print(f"{check.count} checks of handouts, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
