"""Each chart of each HTML page: well formed, with words for who does not see it, all of it in its frame and nothing in the way of it.

usage: check_charts.py PROGRAM

Of every <svg> in the HTML of every command over the example yards, in the sheets to print, and of a yard whose names would break it:
- it parses as XML by itself, has a role, a title and a description, and no name that another chart could have too
- no number is none, nothing lies outside the frame, no text is wider than what room it has, none lies on another
- nothing in it runs, is fetched, or rests on something outside it
- its words are large enough on a phone
"""
import itertools
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

from arithmetic import Checks

ROOT = pathlib.Path(__file__).resolve().parents[2]
EXAMPLES = ROOT / "examples"
TODAY = "2026-10-24"
NAMESPACE = "{http://www.w3.org/2000/svg}"
ELEMENTS = {"svg", "title", "desc", "rect", "line", "text", "polyline", "polygon", "circle", "path"}
NUMBER = r"-?\d+(?:\.\d+)?(?:e-?\d+)?"
# What a letter of a serif font is wide on average, of its size. Wide fonts have 0.58, narrow ones 0.45.
USUAL_LETTER, NARROW_LETTER = 0.55, 0.45
PHONE = 360 - 2 * 17.6  # px, the margins of the page left out
SMALLEST_TEXT = 9  # px on a phone
SMALL_DRAWING = 208  # px, on a sheet to print

# The charts that each command is known to draw, of one of the examples at least.
KNOWN = {"plan": {"Each feedstock's share", "Temperature of its core", "Compost for the lawn"},
         "recipe": {"Each feedstock's share"}, "mix": {"Each feedstock's share"}, "forecast": {"Temperature of its core"},
         "season": {"Kept dry at the end of each month: autumn leaves"},
         "readings": {"Temperature of its core, as measured and as forecast by it"},
         "topdress": {"What comes to each drop, load by load", "What to order, load by load"},
         "order sheet": {"What one barrow covers", "A load where it is tipped", "As thick as it is to lie"}}

HOSTILE = '<b>&"\'</b> ]]> \U0001F342 and a name that goes on for longer than there is room on any sheet'

checks = Checks()
check = checks.at


def html_of(program, command, *arguments, option="--html"):
    with tempfile.TemporaryDirectory() as folder:
        file = pathlib.Path(folder, "page.html")
        whole = ["--all"] if command == "plan" else []  # its --html alone is the handout
        result = subprocess.run([program, command, *arguments, "--today", TODAY, option, str(file), *whole], cwd=ROOT, capture_output=True,
                                text=True, timeout=120)
        check(f"{command} {' '.join(arguments)}", result.returncode in (0, 1), result.stderr)
        return file.read_text(encoding="utf-8") if file.exists() else ""


def number(element, name):
    return float(element.get(name, "0"))


def points_of(element):
    """The points that an element names, of a path those that are no steps from one before."""
    tag = element.tag.removeprefix(NAMESPACE)
    if tag == "rect":
        x, y = number(element, "x"), number(element, "y")
        return [(x, y), (x + number(element, "width"), y + number(element, "height"))]
    if tag == "line":
        return [(number(element, "x1"), number(element, "y1")), (number(element, "x2"), number(element, "y2"))]
    if tag == "circle":
        x, y, r = number(element, "cx"), number(element, "cy"), number(element, "r")
        return [(x - r, y - r), (x + r, y + r)]
    if tag == "path":
        return [(float(x), float(y)) for x, y in re.findall(rf"[ML]({NUMBER})[ ,]?({NUMBER})", element.get("d"))]
    if tag in ("polyline", "polygon"):
        return [tuple(map(float, point.split(","))) for point in element.get("points").split()]
    return []


def box_of(text, letter):
    size = float(text.get("font-size"))
    width = letter * size * len(text.text)
    x, y = number(text, "x"), number(text, "y")
    left = x - {"start": 0, "middle": width / 2, "end": width}[text.get("text-anchor")]
    return left, y - 0.7 * size, left + width, y


def overlap(one, other):
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def check_words(where, svg):
    title, words = svg.find(f"{NAMESPACE}title"), svg.find(f"{NAMESPACE}desc")
    check(where, svg.get("role") == "img" and svg.get("aria-label", "").strip(" ."), "no role, or no label")
    check(where, title is not None and (title.text or "").strip(), "no title")
    check(where, words is not None and len((words.text or "").strip()) > 3, "not described")


def check_nothing_strange(where, svg):
    for element in svg.iter():
        check(where, element.tag.removeprefix(NAMESPACE) in ELEMENTS, f"<{element.tag}>")
        for name, value in element.attrib.items():
            check(where, name != "id" and "href" not in name and not name.startswith("on") and "url(" not in value, f"{name}={value}")
            if name not in ("aria-label", "stroke-linejoin"):
                check(where, not re.search(r"\b(?:nan|inf)", value, re.IGNORECASE), f"{name}={value[:40]}")


def check_frame(where, svg):
    left, top, width, height = map(float, svg.get("viewBox").split())
    check(where, left == top == 0 and 0 < width < 1000 and 0 < height < 2000, f"a frame of {svg.get('viewBox')}")
    for element in svg.iter():
        for x, y in points_of(element):
            check(where, math.isfinite(x) and math.isfinite(y) and -0.5 <= x <= width + 0.5 and -0.5 <= y <= height + 0.5,
                  f"outside: {element.tag} at {x}, {y}")
    texts = list(svg.iter(f"{NAMESPACE}text"))
    for text in texts:
        box = box_of(text, USUAL_LETTER)
        check(where, box[0] >= 0 and box[2] <= width and box[1] >= 0 and box[3] <= height, f"{text.text!r} goes beyond the frame: {box}")
        shown = PHONE if width > 320 else SMALL_DRAWING
        check(where, float(text.get("font-size")) * shown / width >= SMALLEST_TEXT, f"{text.text!r} is small")
    for one, other in itertools.combinations(texts, 2):
        check(where, not overlap(box_of(one, NARROW_LETTER), box_of(other, NARROW_LETTER)), f"{one.text!r} lies on {other.text!r}")


def charts_of(where, html):
    """The titles of the charts of a page, each looked at."""
    titles = set()
    ids = re.findall(r"\sid=\"([^\"]*)\"", html)
    check(where, len(ids) == len(set(ids)), "an id stands twice")
    svgs = re.findall(r"<svg\b.*?</svg>", html, re.DOTALL)
    check(where, len(svgs) == html.count("<svg"), "a chart without an end")
    for text in svgs:
        try:
            svg = xml.etree.ElementTree.fromstring(text)
        except xml.etree.ElementTree.ParseError as error:
            check(where, False, f"no XML: {error}")
            continue
        titles.add(svg.findtext(f"{NAMESPACE}title"))
        name = f"{where}, {svg.findtext(f'{NAMESPACE}title')!r}"
        check_words(name, svg)
        check_nothing_strange(name, svg)
        check_frame(name, svg)
    figures = re.findall(r"<figure>.*?</figure>", html, re.DOTALL)
    check(where, all("<svg" in figure for figure in figures), "a figure without a chart")
    return titles


def check_examples(program):
    drawn = {name: set() for name in KNOWN}
    for yard in sorted(EXAMPLES.glob("*.toml")):
        file, text = str(yard.relative_to(ROOT)), yard.read_text(encoding="utf-8")
        if "[[feedstock]]" in text:
            continue  # a table, no yard
        with_lawn = "[[lawn.zone]]" in text
        # Of the pile's commands the plan has the charts of all; it is the one to run in the other units.
        for command in ("plan", "recipe", "mix", "season", "topdress") if with_lawn else ("plan", "recipe", "mix", "season"):
            for units in ("us", "both") if command == "plan" else ("both",):
                drawn[command] |= charts_of(f"{command} {file} --units {units}", html_of(program, command, file, "--units", units))
        if with_lawn:
            drawn["order sheet"] |= charts_of(f"sheets of {file}", html_of(program, "topdress", file, option="--order-sheet"))
    for units in ("us", "si", "both"):
        forecast = html_of(program, "forecast", "examples/quarter-acre.toml", "--units", units)
        drawn["forecast"] |= charts_of(f"forecast in {units}", forecast)
        readings = html_of(program, "readings", "examples/quarter-acre.toml", "--log", "examples/quarter-acre-log.csv", "--units", units)
        drawn["readings"] |= charts_of(f"readings in {units}", readings)
        check(f"readings in {units}", "core, measured" in readings and ">turned<" in readings, "no readings or turnings on the chart")
        for page in (forecast, readings):
            has = {unit: bool(re.search(rf">\d+ {unit}</text>", page)) for unit in ("°F", "°C")}
            check(f"in {units}", has == {"°F": units != "si", "°C": units != "us"}, f"units on the axes: {has}")
        pair = html_of(program, "recipe", "--have", "leaves", "--have", "clippings", "--units", units)
        check("pair", "autumn leaves and grass clippings, all their mixes" in charts_of(f"pair in {units}", pair), "no chart of all mixes")
    log_alone = html_of(program, "readings", "--log", "examples/quarter-acre-log.csv")
    check("a log alone", "Temperature of its core, as measured" in charts_of("a log alone", log_alone), "no chart")
    for command, titles in KNOWN.items():
        check(command, titles <= drawn[command], f"not drawn: {titles - drawn[command]}")


def check_names(program):
    """Whatever a name holds."""
    sites = (EXAMPLES / "three-sites.toml").read_text(encoding="utf-8")
    name = HOSTILE.replace("\\", "\\\\").replace('"', '\\"')
    with tempfile.TemporaryDirectory() as folder:
        yard = pathlib.Path(folder, "yard.toml")
        yard.write_text(sites.replace('"school field"', f'"{name}"').replace('"bulk, delivered"', f'"{name}"'), encoding="utf-8")
        html = html_of(program, "topdress", str(yard))
        check("hostile names", "What comes to each drop, load by load" in charts_of("hostile names", html), "no chart of the drops")
        charts_of("hostile names", html_of(program, "topdress", str(yard), option="--order-sheet"))


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    check_examples(program)
    check_names(program)
    print("\n".join(checks.failures[:40]))
    print(f"{checks.count} checks of charts, {len(checks.failures)} failures")
    return 1 if checks.failures else 0


if __name__ == "__main__":
    sys.exit(main())
