"""Problem sheets, from outside: each answer worked out again from what is given, and the usual wrong one really wrong.

usage: check_exercises.py PROGRAM [SHEETS]

SHEETS, 60 unless told, are spread over levels and units; of each:
- every answer agrees with arithmetic of its own, and so does every usual wrong answer, which is off by more than the rounding;
- what is given is positive, within the published ranges of the tables, and of three digits at most in the units of the sheet;
- the sheet holds as many problems as its level has, of its kinds, no kind twice;
- without --answers the screen has no answer on it; with it the key shows the answer as the sheet rounds it.
The same seed gives the same sheet, another seed another. What the activity's lines become is a yard file that is read.
"""
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

from arithmetic import Checks

check = Checks()
ROOT = pathlib.Path(__file__).resolve().parents[2]
POUND, OUNCE, FOOT = 0.45359237, 0.45359237 / 16, 0.3048
EASY = {"moisture", "water", "carbon-to-nitrogen", "volume", "log", "tests"}
ALL = EASY | {"leaves-for-clippings", "nitrogen"}
PROBLEMS = {1: 6, 2: 7, 3: 7}
MOST_LINES = 110  # of a sheet without its key

with open(ROOT / "materials" / "feedstocks.toml", "rb") as file:
    FEEDSTOCKS = {row["id"]: row for row in tomllib.load(file)["feedstock"]}
with open(ROOT / "materials" / "composts.toml", "rb") as file:
    COMPOST = next(row for row in tomllib.load(file)["compost"] if row["id"] == "yard-trimmings")
with open(ROOT / "materials" / "criteria.toml", "rb") as file:
    CRITERIA = tomllib.load(file)


def near(a, b):
    return math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12)


def published(row, key):
    first = row[key][0]
    number = lambda text: float(text.split(":")[0].split()[0]) / (1.0 if ":" in text else 100.0)
    return number(first["low"]), number(first["high"])


def inside(value, low, high):
    return low - 1e-9 <= value <= high + 1e-9


class Sheet:
    def __init__(self, program, seed, level, units):
        self.program, self.level, self.units = program, level, units
        self.name = f"seed {seed}, level {level}, {units}"
        self.command = ["exercise", "--seed", str(seed), "--level", str(level), "--units", units]
        self.text, self.key = self.run(), self.run("--answers")
        printed = self.run("--json")
        self("NaN" not in printed and "null null" not in printed, "NaN")
        self.json = json.loads(printed)
        self.mass = POUND if units == "us" else 1.0
        self.small = OUNCE if units == "us" else 0.001
        self.side = FOOT if units == "us" else 1.0

    def __call__(self, right, what):
        check(right, f"{self.name}: {what}")

    def run(self, *options):
        result = subprocess.run([self.program, *self.command, *options], capture_output=True, text=True, timeout=60)
        self(result.returncode == 0 and not result.stderr, f"exit {result.returncode}: {result.stderr}")
        return result.stdout

    def given(self, what, si, unit, digits=3):
        """So many units, with few digits."""
        number = si / unit
        self(number > 0, f"{what}: {number}")
        self(math.isfinite(number) and math.isclose(number, float(f"{number:.{digits}g}"), rel_tol=1e-9), f"{what}: {number} has many digits")

    def clear(self, right, wrong, step, what):
        """A right answer that rounds one way only, and a wrong one that is no rounding of it."""
        rest = right / step % 1
        self(abs(rest - 0.5) > 0.1, f"{what}: {right} may round either way")
        self(abs(right - wrong) > 2 * step, f"{what}: {wrong} is too near to {right}")

    def of_feedstock(self, of, moisture=True):
        row = FEEDSTOCKS[of.get("feedstock", "leaves-fall")]
        if "mass_kg" in of:
            self.given("mass", of["mass_kg"], self.mass)
        for key, column in (("moisture_fraction", "moisture_wet_basis"), ("carbon_fraction_dry", "carbon_dry_basis"),
                            ("carbon_to_nitrogen", "carbon_to_nitrogen")):
            ends = of[key].values() if isinstance(of[key], dict) else [of[key]]
            for end in ends:
                self(inside(end, *published(row, column)), f"{row['id']}: {key} {end} is not as published")
                self.given(key, end, 0.01 if "fraction" in key else 1.0)


def carbon_and_nitrogen(of, wet=False):
    dry = of["mass_kg"] * (1 if wet else 1 - of["moisture_fraction"])
    carbon = dry * of["carbon_fraction_dry"]
    return carbon, carbon / of["carbon_to_nitrogen"]


# --- each kind again ---

def moisture(sheet, given, answer, wrong):
    bowl = given["bowl_kg"]
    if sheet.level > 1:
        sheet.given("bowl", bowl, sheet.small)
    sheet(len(given["weighings"]) == (2 if sheet.level == 3 else 1), "handfuls")
    for end, one in zip(("low", "high"), (given["weighings"][0], given["weighings"][-1])):
        wet, dry = one["wet_kg"] - bowl, one["dry_kg"] - bowl
        sheet.given("wet", one["wet_kg"], sheet.small)
        sheet.given("dry", one["dry_kg"], sheet.small)
        sheet(0 < dry < wet, "a handful that gains weight")
        sheet(near(answer["moisture_fraction"][end], (wet - dry) / wet), "moisture")
        sheet(near(wrong["moisture_fraction"][end], (wet - dry) / dry), "moisture of the dry weight")
        sheet.clear(100 * answer["moisture_fraction"][end], 100 * wrong["moisture_fraction"][end], 1, "moisture")
    low, high = answer["moisture_fraction"].values()
    return [f"{100 * low:.0f} %" if low == high else f"{100 * low:.0f} to {100 * high:.0f} %"]


def water(sheet, given, answer, wrong):
    mass, there = given["mass_kg"], given["water_kg"]
    sheet.given("mass", mass, sheet.mass)
    sheet.given("moisture", there / mass, 0.01)
    for end, goal in given["wanted_moisture_fraction"].items():
        sheet(near(answer["added_water_kg"][end], (mass - there) * goal / (1 - goal) - there), "water")
        sheet(near(wrong["added_water_kg"][end], mass * (goal - there / mass)), "water by points of the weight")
        sheet.clear(answer["added_water_kg"][end] / sheet.mass, wrong["added_water_kg"][end] / sheet.mass, 1, "water")
        moist = (there + answer["added_water_kg"][end]) / (mass + answer["added_water_kg"][end])
        sheet(near(moist, goal), "the mix is not so moist then")
    low, high = (value / sheet.mass for value in answer["added_water_kg"].values())
    return [f"{low:.0f}" if near(low, high) else f"{low:.0f} to {high:.0f}"]


def carbon_to_nitrogen(sheet, given, answer, wrong):
    parts = given["ingredients"]
    sheet(len(parts) == (3 if sheet.level == 3 else 2), "feedstocks")
    for one in parts:
        sheet.of_feedstock(one)
        carbon, nitrogen = carbon_and_nitrogen(one)
        sheet.given("carbon", carbon, sheet.mass)
        sheet.given("nitrogen", nitrogen, sheet.mass)
    total = [sum(column) for column in zip(*(carbon_and_nitrogen(one) for one in parts))]
    sheet(near(answer["carbon_to_nitrogen"], total[0] / total[1]), "C:N")
    if sheet.level == 3:
        of_wet = [sum(column) for column in zip(*(carbon_and_nitrogen(one, wet=True) for one in parts))]
        sheet(near(wrong["carbon_to_nitrogen"], of_wet[0] / of_wet[1]), "C:N of the wet weight")
    else:
        sheet(near(wrong["carbon_to_nitrogen"], sum(one["carbon_to_nitrogen"] for one in parts) / len(parts)), "average C:N")
    sheet(15 <= answer["carbon_to_nitrogen"] <= 60, "an absurd mix")
    sheet.clear(answer["carbon_to_nitrogen"], wrong["carbon_to_nitrogen"], 1, "C:N")
    return [f"{answer['carbon_to_nitrogen']:.0f}"]


def leaves_for_clippings(sheet, given, answer, wrong):
    clippings, leaves, goal = given["clippings"], given["leaves"], given["wanted_carbon_to_nitrogen"]
    sheet.of_feedstock(clippings)
    sheet.of_feedstock(leaves)
    carbon, nitrogen = carbon_and_nitrogen(clippings)
    for end, other in (("low", "high"), ("high", "low")):
        mass = answer["leaves_kg"][end]
        c, n = carbon_and_nitrogen({**leaves, "mass_kg": mass, "carbon_to_nitrogen": leaves["carbon_to_nitrogen"][other]})
        sheet(near((carbon + c) / (nitrogen + n), goal), f"the mix comes to {(carbon + c) / (nitrogen + n)}")
        c, n = carbon_and_nitrogen({**leaves, "mass_kg": 1.0, "carbon_to_nitrogen": math.inf})
        sheet(near(wrong["leaves_kg"][end], (goal * nitrogen - carbon) / c), "leaves without nitrogen")
        sheet(mass / 10 < wrong["leaves_kg"][end] < mass, "an absurd heap of leaves")
        sheet.clear(mass / sheet.mass, wrong["leaves_kg"][end] / sheet.mass, 1, "leaves")
    low, high = (value / sheet.mass for value in answer["leaves_kg"].values())
    sheet((low < high) == (sheet.level == 3), "a range")
    return [f"{low:.0f}" if near(low, high) else f"{low:.0f} to {high:.0f}"]


def volume(sheet, given, answer, wrong):
    if sheet.level == 1:
        area = given["area_m2"]
        sheet.given("area", area, sheet.side**2)
    else:
        area = given["lawn"]["length_m"] * given["lawn"]["width_m"]
    sheet((given["cut_out"] is not None) == (sheet.level == 3), "something cut out")
    for piece in (given["lawn"], given["cut_out"]):
        for side in (piece or {}).values():
            sheet.given("side", side, sheet.side)
    if given["cut_out"]:
        sheet(given["cut_out"]["length_m"] < given["lawn"]["length_m"] and given["cut_out"]["width_m"] < given["lawn"]["width_m"], "a bed too large")
        area -= given["cut_out"]["length_m"] * given["cut_out"]["width_m"]
    sheet(near(given["depth_m"], 0.00635 if sheet.units == "us" else 0.006), "depth")
    sheet(near(answer["volume_m3"], area * given["depth_m"]), "volume")
    sheet(near(wrong["volume_m3"], answer["volume_m3"] * (12 if sheet.units == "us" else 10)), "inches for feet")
    one = 1.0 if sheet.units == "si" else FOOT**3 if sheet.level == 1 else 27 * FOOT**3
    step = 0.01 if sheet.units == "si" else 0.1
    sheet.clear(answer["volume_m3"] / one, wrong["volume_m3"] / one, step, "volume")
    return [f"{answer['volume_m3'] / one:.{2 if step == 0.01 else 1}f}".rstrip("0").rstrip(".")]


def stretches(readings, low, high):
    """Days between the first and the last reading of each run within bounds."""
    found, run = [], 0
    for reading in [*readings, -1e9]:
        if low - 1e-9 <= reading <= high + 1e-9:
            run += 1
        elif run:
            found.append(run - 1)
            run = 0
    return found


def log(sheet, given, answer, wrong):
    rule = next(row for row in CRITERIA["rule"] if row["id"] == given["rule"])
    sheet(rule["length"] == f"{given['rule_days']:g} days" and "turnings" not in rule, "the rule")
    low, high = given["at_least_k"], given["at_most_k"] or 1e9
    sheet(near(low, 328.15), "55 degC")
    probes = list(given["daily_readings_k"].values())
    sheet(len(probes) == (2 if sheet.level == 3 else 1) and len(probes[0]) <= 12, "thermometers")
    for kelvin in sum(probes, []):
        degrees = kelvin - 273.15 if sheet.units == "si" else (kelvin - 273.15) * 1.8 + 32
        sheet(abs(degrees - round(degrees)) < 1e-6 and 35 <= round(degrees) <= (85 if sheet.units == "si" else 185), f"{degrees} degrees")
    if given["at_most_k"]:  # the sheet shows the bound in whole degrees, and no reading lies between the two
        shown = round(high - 273.15) + 273.15 if sheet.units == "si" else high
        sheet(all((kelvin <= shown + 1e-6) == (kelvin <= high + 1e-9) for kelvin in sum(probes, [])), "a reading at the upper bound")
    coldest = [min(day) if max(day) <= high + 1e-9 else 1e9 for day in zip(*probes)]
    days = stretches([1e9 if day > 1e8 else day for day in coldest], low, high)
    sheet(answer["longest_days"] == max(days), f"longest stretch: {days}")
    sheet(answer["met"] == (max(days) >= given["rule_days"]) and answer["safe"] is False, "met")
    if sheet.level == 1:
        sheet(wrong["longest_days"] == answer["longest_days"] + 1 == sum(1 for day in coldest if low - 1e-9 <= day <= high + 1e-9), "readings counted")
    elif sheet.level == 2:
        sheet(wrong["longest_days"] == sum(days) and len(days) == 2, "stretches added up")
    else:
        average = [sum(day) / len(day) for day in zip(*probes)]
        sheet(wrong["longest_days"] == max(stretches(average, low, high)), "by the average")
    sheet(wrong["longest_days"] >= answer["longest_days"] + 1, "the wrong stretch is right")
    count = int(answer["longest_days"])
    return [f"{count} day{'' if count == 1 else 's'}. The rule is {'met' if answer['met'] else 'not met'}", "free of germs or weed seeds"]


def is_on(bound, value, kelvin):
    side, number = re.match(r"(below|at most|above|at least) ([\d.]+)", bound).groups()
    number = float(number) / (100 if "%" in bound else 1)
    return {"below": value < number, "at most": value <= number, "above": value > number, "at least": value >= number}[side]


def tests(sheet, given, answer, wrong):
    words = ["immature", "mature", "very mature"]
    kinds, ratings = [], []
    for one, told in zip(given["tests"], answer["tests"]):
        row = next(row for row in CRITERIA["test"] if row["id"] == one["test"])
        scale = row["scale"][0]
        rating = 0
        if is_on(scale["mature"], one["value"], False):
            rating = 2 if "very_mature" in scale and is_on(scale["very_mature"], one["value"], False) else 1
        sheet(words[rating] == told["rating"] and row["kind"] == told["tells"], f"{one}: {told}")
        kinds.append(row["kind"])
        ratings.append(rating)
    if sheet.level == 1:
        sheet(len(kinds) == 1 and answer["rating"] == words[ratings[0]] and wrong["tells"] not in kinds, "what it tells")
        return [words[ratings[0]]]
    sheet(kinds == ["stability", "maturity", "screen"][: sheet.level], f"kinds: {kinds}")
    screened = "screen" in kinds and ratings[-1] == 0
    together = 0 if screened else min(rating for rating, kind in zip(ratings, kinds) if kind != "screen")
    sheet(answer["rating"] == words[together], "taken together")
    sheet(wrong["rating"] == words[max(ratings)] and wrong["rating"] != answer["rating"], "the best of them")
    return [f"Taken together: {answer['rating']}"]


def nitrogen(sheet, given, answer, wrong):
    sheet(inside(given["moisture_fraction"], *published(COMPOST, "moisture_wet_basis")), "moisture as published")
    sheet.given("density", given["bulk_density_kg_m3"], 1.0 if sheet.units == "si" else POUND / (27 * FOOT**3))
    sheet.given("moisture", given["moisture_fraction"], 0.01)
    whole = given["area_m2"] * given["depth_m"] * given["bulk_density_kg_m3"]
    for end, content in given["nitrogen_fraction_dry"].items():
        sheet(inside(content, *published(COMPOST, "nitrogen_dry_basis")), "nitrogen as published")
        sheet.given("content", content, 0.01, 2)
        sheet(near(answer["nitrogen_kg"][end], whole * (1 - given["moisture_fraction"]) * content), "nitrogen")
        sheet(near(wrong["nitrogen_kg"][end], whole * content), "nitrogen of the wet weight")
        sheet.clear(answer["nitrogen_kg"][end] / sheet.mass, wrong["nitrogen_kg"][end] / sheet.mass, 0.1, "nitrogen")
    low, high = (value / sheet.mass for value in answer["nitrogen_kg"].values())
    shown = lambda number: f"{number:.1f}".removesuffix(".0")
    return [shown(low) if near(low, high) else f"{shown(low)} to {shown(high)}"]


KINDS = {"moisture": moisture, "water": water, "carbon-to-nitrogen": carbon_to_nitrogen, "leaves-for-clippings": leaves_for_clippings,
         "volume": volume, "log": log, "tests": tests, "nitrogen": nitrogen}


def numbers_given(given):
    if isinstance(given, dict):
        given = list(given.values())
    if isinstance(given, list):
        return sum(numbers_given(one) for one in given)
    return int(isinstance(given, (int, float)) and not isinstance(given, bool))


def plain(text):
    return " ".join(text.split())


def check_sheet(program, seed, level, units, seen):
    sheet = Sheet(program, seed, level, units)
    problems = sheet.json["problems"]
    kinds = [problem["kind"] for problem in problems]
    sheet(sheet.json["seed"] == seed and sheet.json["level"] == level, "which sheet it is")
    sheet(len(kinds) == len(set(kinds)) == PROBLEMS[level] and set(kinds) <= (EASY if level == 1 else ALL), f"kinds: {kinds}")
    sheet(sheet.text.count("\n") <= MOST_LINES and all(len(line) <= 80 for line in sheet.text.split("\n")), "too long or too wide")
    sheet(sheet.key.startswith(sheet.text) and sheet.text == sheet.run(), "the same sheet")
    said, key = plain(sheet.text), plain(sheet.key[len(sheet.text):])
    solved = re.split(r"\n+(?=\d+\. )", sheet.key[len(sheet.text):])[1:]
    sheet(len(solved) == len(problems), f"{len(solved)} answers in the key")
    sheet("wrong answer" not in said and "=" not in said.split("Squeeze and weigh")[0], "the sheet tells an answer")
    for number, problem in enumerate(problems, 1):
        given, wrong = problem["given"], problem["usual_mistake"]
        sheet(plain(problem["text"]) in said, f"problem {number} is not on the sheet: {problem['text']}")
        sheet("{}" not in problem["text"] and wrong["why"] and plain(wrong["why"]) in key, f"problem {number}: why")
        told = plain(re.split(r"\n  1\. |Usual wrong answer", solved[number - 1])[0])
        for shown in KINDS[problem["kind"]](sheet, given, problem["answer"], wrong["answer"]):
            sheet(re.search(rf"(?<![\d.]){re.escape(shown)}(?!\d)", told), f"problem {number}: no {shown} in {told}")
        seen.setdefault((problem["kind"], level), []).append(numbers_given(given))


def check_levels(seen):
    """No kind asks for less at a higher level: the fewest numbers given never fall."""
    for kind in KINDS:
        counts = [min(seen[kind, level]) for level in (1, 2, 3) if (kind, level) in seen and kind != "log"]
        check(counts == sorted(counts), f"{kind}: {counts} numbers given, level by level")


def check_activity(program):
    """The lines of the activity, filled in, are read."""
    text = subprocess.run([program, "exercise"], capture_output=True, text=True, timeout=60).stdout
    lines = [line[2:] for line in text.split("\n") if re.match(r"- (weighed|dried|feel) = ", line)]
    check(len(lines) == 3, f"lines of a yard file: {lines}")
    filled = "\n".join(lines)
    for value in ("9", "2", "10", "2.5"):
        filled = filled.replace("____ ", value + " ", 1)
    filled = filled.replace("____", "drips")
    with tempfile.TemporaryDirectory() as folder:
        yard = pathlib.Path(folder, "yard.toml")
        yard.write_text('[[supply]]\nfeedstock = "clippings"\namount = "4 bucket"\n' + filled + "\n", encoding="utf-8")
        result = subprocess.run([program, "mix", str(yard), "--json"], capture_output=True, text=True, timeout=60)
        check(result.returncode == 0, f"{filled}\n{result.stderr}")
        if result.returncode == 0:
            check(near(json.loads(result.stdout)["mix"]["moisture_fraction"], 0.75), "the dried handful does not count")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    sheets = int(sys.argv[2]) if len(sys.argv) > 2 else 60
    seen, texts = {}, set()
    for number in range(sheets):
        seed = number if number % 12 else 4294967295 - number  # the largest ones too
        check_sheet(program, seed, number % 3 + 1, "si" if number % 6 > 2 else "us", seen)
    for seed in range(5):
        texts.add(subprocess.run([program, "exercise", "--seed", str(seed)], capture_output=True, text=True, timeout=60).stdout.split("\n", 1)[1])
    check(len(texts) == 5, "other seeds give the same sheet")
    if sheets >= 60:
        check_levels(seen)
    check_activity(program)
    print("\n".join(check.failures[:40]))
    print(f"{check.count} checks of {sheets} sheets, {len(check.failures)} failures")
    return 1 if check.failures or not sheets else 0


if __name__ == "__main__":
    sys.exit(main())
