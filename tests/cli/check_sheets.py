"""Order sheets, from outside: two sides for each drop, their figures against the JSON of the same file and against plain geometry.

usage: check_sheets.py PROGRAM
"""
import html.parser
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile

from arithmetic import Checks

check = Checks()
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
JOBS = ["front-lawn", "lawn-order", "clinic-strip", "school-field", "three-sites"]
TODAY = "2027-08-20"
FEET = 0.3048
INCH = FEET / 12
BARROW = 6 * FEET**3
BUCKET = 5 * 231 * INCH**3
DEGREES_OF_REST = 37


class Sheets(html.parser.HTMLParser):
    """The text of each <article>, the rows of its tables, its boxes, and whatever no page to print should hold."""

    def __init__(self):
        super().__init__()
        self.mains, self.forbidden, self.inside, self.cell = [], [], False, None

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        if tag in ("script", "img", "link", "a", "iframe", "form", "input"):
            self.forbidden.append(tag)
        self.forbidden += [name for name in attributes if name.startswith("on") or name in ("href", "src")]
        if tag == "article":
            self.mains.append({"text": "", "rows": [], "boxes": 0, "drawings": []})
            self.inside = True
        if not self.inside:
            return
        if tag == "ul" and attributes.get("class") == "boxes":
            self.boxes = True
        if tag == "li" and getattr(self, "boxes", False):
            self.mains[-1]["boxes"] += 1
        if tag == "tr":
            self.mains[-1]["rows"].append([])
        if tag in ("td", "th"):
            self.mains[-1]["rows"][-1].append("")
            self.cell = self.mains[-1]["rows"][-1]
        if tag == "svg":
            self.mains[-1]["drawings"].append(attributes)

    def handle_endtag(self, tag):
        if tag == "article":
            self.inside = False
        if tag in ("td", "th"):
            self.cell = None
        if tag == "ul":
            self.boxes = False

    def handle_data(self, data):
        if not self.inside:
            return
        self.mains[-1]["text"] += data.strip() + " " if data.strip() else ""
        if self.cell is not None:
            self.cell[-1] += data


def run(program, *arguments):
    return subprocess.run([program, "topdress", *arguments, "--today", TODAY], capture_output=True, text=True, timeout=60)


def sheets_of(program, folder, file, *arguments):
    path = pathlib.Path(folder) / "sheet.html"
    done = run(program, str(file), "--order-sheet", str(path), "--force", *arguments)
    check(done.returncode == 0, f"{file}: {done.stderr}")
    page = Sheets()
    page.feed(path.read_text())
    return page


def feet_of(text):
    return float(text) * FEET


def check_drop(sheet_of_supplier, crew, drop, name):
    text = sheet_of_supplier["text"]
    check(drop["phone_line"] in text, f"{name}: the line for the phone is not on the supplier's side: {drop['phone_line']}")
    best = drop["best_order"]
    for item in best["items"]:
        check(best["cost"] is None or item["offer"] in text, f"{name}: whose offer is it?")
    fetched = name == "front-lawn"
    for needed in ("Drop spot", "Narrowest place", "Ask the supplier", "report says", "Price agreed", "Before you load it" if fetched else "Before the truck tips"):
        check(needed in text, f"{name}: {needed}")
    check(fetched == ("2 trips, each about 350 to 700 lb" in text), f"{name}: what a trip weighs")
    check(sheet_of_supplier["boxes"] >= 8, f"{name}: {sheet_of_supplier['boxes']} boxes to tick")
    load = re.search(r"Room for one load, ([\d.]+) cu yd: about ([\d.]+) ft across and ([\d.]+) ft high", text)
    if load:
        volume, across, high = (float(figure) for figure in load.groups())
        slope = math.tan(math.radians(DEGREES_OF_REST))
        wanted = 2 * (3 * volume * 27 / (math.pi * slope)) ** (1 / 3)
        check(abs(across - wanted) < 0.05 * wanted, f"{name}: {volume} cu yd lie {wanted:.1f} ft across, not {across}")
        check(abs(high - slope * across / 2) < 0.06 * high, f"{name}: a cone {across} ft across is {slope * across / 2:.1f} ft high, not {high}")

    zones = {row[0]: row for row in crew["rows"] if len(row) == 5}
    for zone in drop["zones"]:
        row = zones[zone["name"]]
        check(float(row[3]) == math.ceil(2 * zone["wheelbarrow_loads"] - 1e-9) / 2, f"{name}: {row} against {zone['wheelbarrow_loads']} barrows")
        check(row[4] == "", f"{name}: no room to write what was used: {row}")
    depths = sorted({round(zone["depth_m"] / INCH, 9) for zone in drop["zones"]})
    if len(drop["zones"]) > 1:
        check(float(zones["all"][3]) == math.ceil(2 * drop["wheelbarrow_loads"] - 1e-9) / 2, f"{name}: {zones['all']}")
    checks = [row for row in crew["rows"] if len(row) == 5 and "square" in row[1] and "catches" in row[4]]
    check(len(checks) == len(depths), f"{name}: {checks} for {depths}")
    for row, depth in zip(checks, depths):
        barrow, half, bucket, caught = (float(re.search(r"[\d.]+", cell).group()) for cell in row[1:])
        for shown, volume in ((barrow, BARROW), (half, BARROW / 2), (bucket, BUCKET)):
            side = math.sqrt(volume / (depth * INCH)) / FEET
            check(abs(shown - side) <= 0.5 if side >= 10 else abs(shown - side) <= 0.051, f"{name}: {shown} ft a side, not {side:.2f}")
        gallons = 16 * 144 * depth / 231
        check(abs(caught - gallons) <= 0.02 * gallons, f"{name}: a tarp of 16 sq ft catches {gallons:.2f} gallons at {depth} in, not {caught}")
    for blank in ("Delivered", "Used", "Left over", "Hands, hours"):
        check([blank, ""] in crew["rows"], f"{name}: no room for {blank}")
    check("811" in crew["text"] and "N95" in crew["text"], f"{name}: the crew's cautions")
    true_size = [drawing for drawing in crew["drawings"] if drawing.get("class") == "true-size"]
    check(len(true_size) == 1 and f"{depths[0]:.4f}in" == true_size[0]["height"], f"{name}: a bar as thick as the compost: {true_size}")


def check_examples(program, folder):
    for name in JOBS:
        file = EXAMPLES / f"{name}.toml"
        page = sheets_of(program, folder, file)
        check(page.forbidden == [], f"{name}: {page.forbidden} on a page to print")
        answer = json.loads(run(program, str(file), "--json").stdout)
        drops = answer.get("jobs") or [answer]
        check(len(page.mains) == 2 * len(drops), f"{name}: {len(page.mains)} sides for {len(drops)} drops")
        for place, drop in enumerate(drops):
            check_drop(page.mains[2 * place], page.mains[2 * place + 1], drop, name)
        for side in page.mains:
            check(("Hold:" in side["text"]) == answer["spreading"]["hold"], f"{name}: Hold on every side, or on none")


def check_site(program, folder):
    page = sheets_of(program, folder, EXAMPLES / "school-field.toml")
    rows = page.mains[0]["rows"]
    for row in (["Drop spot", "gravel lot by the equipment shed"], ["Narrowest place", "14 ft"],
                ["Deliver", "Monday, Sep 6, 2027 to Friday, Sep 10, 2027"]):
        check(row in rows, f"school-field: {row}")
    check(["Address", ""] in sheets_of(program, folder, EXAMPLES / "front-lawn.toml").mains[0]["rows"], "what nobody told is left to write")


def check_spreads(program):
    """49 cu yd on 330 x 180 - 30 x 9 = 59130 sq ft: 0.2685 in, 7.39 % more than 1/4 in."""
    answer = json.loads(run(program, str(EXAMPLES / "school-field.toml"), "--json").stdout)
    area = (330 * 180 - 30 * 9) * FEET**2
    depth = 49 * 27 * FEET**3 / area
    check(abs(answer["spreads"][0]["depth_m"] / depth - 1) < 1e-12, f"{answer['spreads']}")
    check(abs(answer["allowance_fraction"] - (depth / (0.25 * INCH) - 1)) < 1e-9, f"{answer['allowance_fraction']}")
    need = answer["volume_m3"] * (1 + answer["allowance_fraction"])
    check(abs(answer["volume_with_allowance_m3"] / need - 1) < 1e-12, "the order goes by what was used")
    text = run(program, str(EXAMPLES / "school-field.toml")).stdout
    check("49 cu yd on 59100 sq ft" in text and "7 % more than meant" in re.sub(r"\s+", " ", text), text)


def check_metric(program, folder):
    text = sheets_of(program, folder, EXAMPLES / "front-lawn.toml", "--units", "si").mains[1]["text"]
    check(" ft" not in text and "5.2 m" in text, f"a barrow covers 5.2 m a side: {text}")


def check_refused(program, folder):
    path = pathlib.Path(folder) / "there.html"
    path.write_text("mine")
    done = run(program, str(EXAMPLES / "front-lawn.toml"), "--order-sheet", str(path))
    check(done.returncode == 2 and path.read_text() == "mine" and "--force" in done.stderr, f"{done}")
    unmeasured = pathlib.Path(folder) / "unmeasured.toml"
    unmeasured.write_text('[topdressing]\ndepth = "1/4 in"\n')
    done = run(program, str(unmeasured), "--order-sheet", str(pathlib.Path(folder) / "none.html"))
    check(done.returncode == 2 and "no lawn is measured" in done.stderr, f"{done}")
    done = run(program, "--have", "2 yd3", "--order-sheet", str(path))
    check(done.returncode == 2, f"{done}")


def main():
    program = sys.argv[1]
    with tempfile.TemporaryDirectory() as folder:
        check_examples(program, folder)
        check_site(program, folder)
        check_spreads(program)
        check_metric(program, folder)
        check_refused(program, folder)
    print("\n".join(check.failures))
    print(f"{check.count} checks of order sheets, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
