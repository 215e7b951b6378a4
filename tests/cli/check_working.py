"""The working, done again: each printed step is parsed from the screen, computed by Python and held against its printed result, and the
last figures against --json.

usage: check_working.py PROGRAM

Tolerances follow from the printed digits. A step's own numbers give its result within half a unit of the last printed digit. Against
--json, which is not rounded, each printed figure stands for all that would be printed so, and the interval is carried from step to step.
"""
import json
import math
import pathlib
import random
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
POUND, FOOT, INCH = 0.45359237, 0.3048, 0.0254  # international pound, foot and inch, 1959
GALLON = 231 * INCH**3
SI = {"": 1.0, "%": 0.01, "lb": POUND, "kg": 1.0, "cu ft": FOOT**3, "cu yd": 27 * FOOT**3, "m3": 1.0, "L": 0.001, "gal": GALLON,
      "sq ft": FOOT**2, "m2": 1.0, "lb/cu yd": POUND / (27 * FOOT**3), "kg/m3": 1.0, "ft": FOOT, "m": 1.0}
RATINGS = ["immature", "mature", "very mature"]
# Of the tests of maturity, what laboratories may write: each with its units, and between what the number lies.
WRITTEN_TESTS = {"carbon-to-nitrogen": [(":1", 12, 34)], "co2-respiration": [("mgC/gOM/day", 0.5, 9), ("mgCO2/gOM/day", 2, 30)],
                 "oxygen-uptake": [("mmolO2/kgOM/h", 2, 40), ("mgO2/kgOM/h", 60, 1200)], "oxygen-uptake-in-water": [("mgO2/gOM/h", 0.1, 3)],
                 "self-heating": [("degC", 2, 45), ("degF", 4, 80)], "water-soluble-carbon": [("%", 0.2, 2), ("mg/kg", 2000, 20000)],
                 "ammonium-to-nitrate": [("", 0.1, 6)], "ammonium": [("mg/kg", 20, 900), ("%", 0.002, 0.09)], "volatile-fatty-acids": [("mg/kg", 50, 2000)],
                 "germination": [("%", 40, 120)], "emergence": [("%", 60, 100)], "vigor": [("%", 60, 110)], "moisture": [("%", 25, 65)],
                 "ph": [("", 5, 9)], "salts-1to5": [("dS/m", 0.5, 12)], "organic-matter": [("%", 20, 70)]}
FIGURES_OF_A_GIVEN = 6
LEAST_FIGURES_OF_A_RESULT = 4

# Cornell Composting, Moisture Content: grass 77 %, leaves 35 %, goal 60 %; carbon and nitrogen from memory of its C/N Ratio page. The bulk
# densities are made up: the closed forms do without.
GRASS_AND_LEAVES = """
[[feedstock]]
id = "cornell-grass"
moisture_wet_basis = "77 %"
carbon_dry_basis = "45 %"
nitrogen_dry_basis = "2.4 %"
bulk_density = { loose = "350 lb/yd3" }
class = "clippings"
[[feedstock]]
id = "cornell-leaves"
moisture_wet_basis = "35 %"
carbon_dry_basis = "50 %"
nitrogen_dry_basis = "0.75 %"
bulk_density = { loose = "135 lb/yd3" }
"""
GOAL = """
[targets.moisture_wet_basis]
low = "50 %"
aim = "60 %"
high = "60 %"
[[supply]]
feedstock = "cornell-grass"
amount = "10 kg"
use = "all"
[[supply]]
feedstock = "cornell-leaves"
amount = "100 kg"
"""
# Of a person's own: nitrogen and C:N without carbon, no organic matter, no bulk density until weighed.
OWN = """
[[feedstock]]
id = "own-stuff"
moisture_wet_basis = "30 %"
nitrogen_dry_basis = "1.3 %"
carbon_to_nitrogen = "31:1"
"""

failures = []
checks = 0


def check(where, good, message):
    global checks
    checks += 1
    if not good:
        failures.append(f"{where}: {message}")


class Interval:
    def __init__(self, low, high):
        self.low, self.high = low, high

    def __add__(self, other):
        return Interval(self.low + other.low, self.high + other.high)

    def __sub__(self, other):
        return Interval(self.low - other.high, self.high - other.low)

    def __mul__(self, other):
        ends = [a * b for a in (self.low, self.high) for b in (other.low, other.high)]
        return Interval(min(ends), max(ends))

    def __truediv__(self, other):
        if other.low <= 0 <= other.high:
            return Interval(-math.inf, math.inf)
        return self * Interval(1 / other.high, 1 / other.low)

    def cube_root(self):
        return Interval(math.cbrt(self.low), math.cbrt(self.high))

    def root(self):
        return Interval(math.sqrt(max(0, self.low)), math.sqrt(max(0, self.high)))

    def wider(self, by):
        return Interval(self.low - by, self.high + by)

    def holds(self, value):
        hair = 1e-12 * max(1, abs(value))
        return self.low - hair <= value <= self.high + hair


def half_a_unit(printed, figures):
    """Half a unit of the last digit of a number printed to so many significant ones; trailing zeros are not printed."""
    value = abs(float(printed))
    if value == 0:
        return 0.0
    shown = len(printed.lstrip("-").replace(".", "").strip("0"))
    return 0.5 * 10.0 ** (math.floor(math.log10(value)) + 1 - max(figures, shown))


def about(printed, figures=FIGURES_OF_A_GIVEN):
    return Interval(float(printed), float(printed)).wider(half_a_unit(printed, figures))


def plain(formula):
    return formula.replace("×", "*").replace("−", "-").replace("√", "root").replace("∛", "cube_root")


def by_calculator(numbers):
    text = plain(numbers)
    if not re.fullmatch(r"(cube_root|root|[0-9.+*/() -])+", text):
        raise ValueError(f"no plain arithmetic: {numbers}")
    return eval(text, {"__builtins__": {}, "root": lambda x: math.sqrt(max(0.0, x)), "cube_root": math.cbrt})


def by_intervals(symbols, known):
    def operand(match):
        word = match.group()
        if word in ("root", "cube_root"):
            return word
        return f'known["{word}"]' if word[0].isalpha() else f'about("{word}")'
    text = re.sub(r"[A-Za-z]\w*|[0-9.]+", operand, plain(symbols))
    return eval(text, {"__builtins__": {}, "known": known, "about": about, "root": Interval.root, "cube_root": Interval.cube_root})


def steps_on(screen):
    """Heads with their lines, each joined where it was broken."""
    steps = []
    inside = False
    for line in screen.splitlines():
        if line.startswith("The working"):
            inside = True
        elif not inside:
            continue
        elif line.startswith("Formulas"):
            break
        elif re.match(r" {0,2}\d+\. ", line):
            steps.append([line.strip()])
        elif re.match(r" {7}\S", line):
            steps[-1].append(line.strip())
        else:
            steps[-1][-1] += " " + line.strip()
    return steps


def is_said_in_words(head):
    """What a step without arithmetic may say."""
    of_a_mix = ("must lie between", "no nitrogen", "has none", "No bulk density")
    of_a_rating = ("Rating of ", " for turf, by ", "C:N screen:", "Stability:", "Maturity:", "The less mature of the two:")
    return any(words in head for words in (*of_a_mix, *of_a_rating, "Piles needed:"))


def check_steps(where, screen):
    """All steps of a screen; the results by their symbols, as printed, and the intervals that they stand for."""
    known, results = {}, {}
    for head, *lines in steps_on(screen):
        if not lines:
            check(where, is_said_in_words(head), f"no reason: {head}")
            continue
        formula, *terms, sum_line = lines
        symbol, symbols = formula.split(" = ")
        for term in terms:
            name, number = re.match(r"(\S+) = (-?[0-9.]+)", term).groups()
            check(where, re.search(r": .+ \(.+\)$", term), f"no words or no source: {term}")
            check(where, name not in known, f"{name} stands for two things")
            known[name] = about(number)
        again, numbers, result = sum_line.split(" = ")
        check(where, again == symbol, f"{again} is not {symbol}")
        number, unit = re.fullmatch(r"(-?[0-9.]+)(?: (.+))?", result).groups()
        half = half_a_unit(number, LEAST_FIGURES_OF_A_RESULT)
        computed = by_calculator(numbers)
        check(where, abs(computed - float(number)) <= half * (1 + 1e-9), f"{numbers} is {computed}, not {number}")
        known[symbol] = by_intervals(symbols, known).wider(half)
        check(where, known[symbol].holds(float(number)), f"{symbol} = {symbols} does not come to {number}")
        results[symbol] = (number, unit or "")
    return results, known


def hold_against(where, results, known, symbol, value):
    """A figure of --json lies in what its printed one stands for."""
    if symbol not in results or value is None:
        check(where, symbol not in results and value is None, f"{symbol}: {results.get(symbol)} on the screen, {value} in JSON")
        return
    size = SI[results[symbol][1]]
    check(where, known[symbol].holds(value / size), f"{symbol} {results[symbol]}: {value / size} in JSON, not in [{known[symbol].low}, {known[symbol].high}]")


def check_rating(where, found):
    """Each test's rating from how far it lies inside its limits, and the less mature of the kinds, from their steps alone."""
    inside, rated = [], {}
    said = {}
    for step in found["working"]:
        if step["result"]:
            value, what = step["result"]["value"], step["what"]
            if what.endswith(", how far inside"):
                check(where, ("above zero" in step["formula"]) != ("zero or more" in step["formula"]), f"which side? {step['formula']}")
                inside.append((what, value > 0 if "above zero" in step["formula"] else value >= 0))
        elif step["what"].startswith("Rating of ") and inside:
            best = "very mature" if dict((what.split(", ")[-2], holds) for what, holds in inside).get("very mature") else None
            word = best or ("mature" if inside[-1][1] else "immature")
            rated[step["what"].removeprefix("Rating of ")] = (word, step["formula"])
            inside = []
        elif " for turf, by " in step["what"]:
            check(where, step["formula"] == ("inside." if all(holds for _, holds in inside) else "outside."), f"{step['what']}: {inside}")
            inside = []
        else:
            said[step["what"]] = step["formula"].rstrip(".")
            inside = []
    for name, (word, words) in rated.items():
        screened = {"mature": "passed", "immature": "failed"}.get(word) if words.startswith(("passed", "failed")) else None
        check(where, re.match(rf"(at least )?{screened or word}\b", words), f"{name} is {word}: {words}")
    for kind, key in (("Stability", "stability"), ("Maturity", "maturity")):
        check(where, found[key] is None or said[kind].startswith(found[key]), f"{kind}: {said[kind]}, {found[key]} in JSON")
    both = [found["stability"], found["maturity"]]
    least = None if None in both else min(both, key=RATINGS.index)
    if said.get("C:N screen", "").startswith("failed"):
        least = "immature"
    check(where, found["rating"] == (least or "not enough tests"), f"{both} make {found['rating']}")
    if "C:N screen" not in said or said["C:N screen"] == "passed":
        check(where, said["The less mature of the two"].startswith(found["rating"]), said)


def check_json_steps(where, steps):
    for step in steps:
        if step["result"] is None:
            check(where, step["numbers"] is None and step["formula"], f"no result and no reason: {step}")
            continue
        computed = by_calculator(step["numbers"])
        value = step["result"]["value"]
        tolerance = half_a_unit(repr(value), LEAST_FIGURES_OF_A_RESULT)
        check(where, abs(computed - value) <= tolerance * (1 + 1e-9), f"{step['numbers']} is {computed}, not {value}")
        check(where, step["source"] and all(term["source"] and term["what"] for term in step["terms"]), f"a source lacks: {step}")
        # A test's value stands in the unit of its limits.
        check(where, where[0] == "maturity" or step["result"]["unit"] in ("", "%", "kg", "m3", "kg/m3", "m2", "m"), f"not SI: {step['result']}")


def run(program, *arguments):
    result = subprocess.run([program, *arguments], cwd=ROOT, capture_output=True, text=True, timeout=60)
    check(arguments, result.returncode in (0, 1) and not result.stderr, f"exit {result.returncode}: {result.stderr}")
    return result.stdout


def check_pile(where, results, known, found):
    if "v" in results:  # a tumbler's is as it was given
        hold_against(where, results, known, "V" if "V" in results else "v", found["volume_m3"])
        hold_against(where, results, known, "F", found["footprint_m2"])
    if "x" not in results:
        return
    check(where, math.ceil(known["x"].low - 1e-9) <= found["piles_needed"] <= math.ceil(known["x"].high + 1e-9), f"{found['piles_needed']} piles of {results['x']}")
    hold_against(where, results, known, "H", found["filled_height_m"])
    hold_against(where, results, known, "Hs" if "Hs" in results else "H", found["settled_height_m"])


def check_command(program, *arguments):
    """One command in US units, SI and JSON. Returns the results of the SI screen."""
    answer = run(program, *arguments, "--json", "--show-working")
    if not answer:
        return {}
    found = json.loads(answer)
    check(arguments, json.loads(run(program, *arguments, "--json"))["working"] is None, "working without --show-working")
    check_json_steps(arguments, found["working"] or [])
    for units in ("us", "si"):
        where = (*arguments, units)
        # Water comes in half gallons or in litres, so the pile that is told follows the units.
        found = json.loads(run(program, *arguments, "--units", units, "--json", "--show-working"))
        screen = run(program, *arguments, "--units", units, "--show-working")
        check(where, all(len(line) <= 80 for line in screen.splitlines()), "a line is too long")
        results, known = check_steps(where, screen)
        check(where, bool(results) == bool(found["working"]), "working on one of screen and JSON")
        if arguments[0] == "maturity":
            check_rating(where, found)
        elif arguments[0] == "forecast":
            screened = found["finished"]["screened_volume_m3"]
            hold_against(where, results, known, "V", screened["likely"] if screened else None)
        elif arguments[0] == "pile":
            check_pile(where, results, known, found)
        elif arguments[0] == "topdress":
            hold_against(where, results, known, "Q" if "Q" in results else "A", found["volume_with_allowance_m3" if "Q" in results else "covers_m2"])
            hold_against(where, results, known, "V", found["volume_m3"])
            hold_against(where, results, known, "L", found["wheelbarrow_loads"])
            for symbol, which in (("m1", "low"), ("m2", "likely"), ("m3", "high")):
                hold_against(where, results, known, symbol, found["mass_kg"][which])
            # Nutrients are counted on 1000 sq ft or on 100 m2, and in JSON on 100 m2.
            on_more = 92.90304 / 100 if units == "us" else 1.0
            for symbol, key in (("N", "nitrogen_total"), ("P", "p2o5"), ("K", "k2o")):
                hold_against(where, results, known, symbol, on_more * found["nutrients_kg_per_100m2"][key])
            if "Y" in results:
                hold_against(where, results, known, "Y", found["per_year_m3"])
        elif found["mix"]:
            # The working is of what a person is told to put in.
            mix = (found.get("whole_containers") or found)["mix"]
            hold_against(where, results, known, "C:N", mix["carbon_to_nitrogen"])
            hold_against(where, results, known, "M", mix["moisture_fraction"])
            hold_against(where, results, known, "V", mix["volume_m3"])
            hold_against(where, results, known, "B", mix["bulk_density_kg_m3"])
            for symbol, key in (("T", "mass_kg"), ("D", "dry_mass_kg"), ("W", "water_kg"), ("C", "carbon_kg"), ("N", "nitrogen_kg")):
                hold_against(where, results, known, symbol, mix[key])
            if mix["air_space_fraction"]:
                hold_against(where, results, known, "A", mix["air_space_fraction"])
    return results


def check_published(program, folder):
    materials, yard = folder / "materials.toml", folder / "yard.toml"
    materials.write_text(GRASS_AND_LEAVES, encoding="utf-8")
    yard.write_text(GOAL, encoding="utf-8")
    results = check_command(program, "recipe", str(yard), "--materials", str(materials))
    # Cornell Composting, Moisture Content: 10 kg of the grass want 6.8 kg of the leaves for 60 %.
    check("leaves for the moisture goal", results.get("a") == ("6.8", "kg"), results.get("a"))
    # From memory of Cornell Composting, C/N Ratio: 3.5 kg for 30:1; by hand 6210/1787.5 = 3.474.
    check("leaves for the C:N goal", results.get("a'") == ("3.474", "kg"), results.get("a'"))
    # Geometry: a quarter inch on 1000 ft2 is 0.772 yd3.
    screen = run(program, "topdress", "--area", "1000 ft2", "--depth", "1/4 in", "--show-working")
    check("a quarter inch", check_steps("a quarter inch", screen)[0]["V"] == ("0.7716", "cu yd"), screen)


def some_supply(rng, feedstock):
    """A supply of a yard file with an amount and some measurements."""
    density = feedstock["used"]["bulk_density_kg_m3"]
    sparing = feedstock["class"] in ("supplement", "mineral")
    amount = rng.choice(["{:.1f} lb", "{:.2f} kg"] if sparing else ["{:.1f} bucket", "{:.1f} wheelbarrow", "{:.2f} ft3", "{:.3f} yd3", "{:.1f} lb", "{:.1f} L"])
    size = rng.uniform(0.1, 2) if sparing or "yd3" in amount else rng.uniform(1, 60)
    text = f'[[supply]]\nfeedstock = "{feedstock["id"]}"\namount = "{amount.format(size)}"\n'
    if not sparing and rng.random() < 0.3:
        full = 2 + density * 5 * GALLON * rng.uniform(0.6, 1.2) / POUND
        text += f'weighed = {{ container = "bucket", full = "{full:.2f} lb", empty = "2 lb" }}\n'
    if rng.random() < 0.3:
        text += f'dried = {{ wet = "10 g", dry = "{rng.uniform(4, 9):.2f} g" }}\n'
    elif rng.random() < 0.3:
        text += f'feel = "{rng.choice(["drips", "clumps", "crumbles"])}"\n'
    if rng.random() < 0.3:
        text += "shredded = true\n"
    if rng.random() < 0.2:
        text += 'when = { every = "week" }\n'
    return text


def some_yard(rng, feedstocks):
    text = f'[recipe]\nsettling = {rng.uniform(0.6, 1):.2f}\n' if rng.random() < 0.3 else ""
    supplies = [some_supply(rng, feedstock) for feedstock in rng.sample(feedstocks, rng.randint(1, 4))]
    if rng.random() < 0.3:
        supplies.append('[[supply]]\nfeedstock = "own-stuff"\namount = "2 bucket"\nweighed = { container = "bucket", full = "9 lb", empty = "2 lb" }\n')
    return text + "".join(supplies)


def some_piece(rng, small):
    def side(low=1.0):
        feet = rng.uniform(low, 1.1 * low) * (1 if small else 12)
        return rng.choice([f"{feet:.1f} ft", f"{feet * FOOT:.2f} m", f"{int(feet)} ft {rng.randint(0, 11)} in"])
    return rng.choice([
        f'shape = "rectangle"\nlength = "{side(5)}"\nwidth = "{side(3)}"\n',
        f'shape = "ellipse"\nlength = "{side(5)}"\nwidth = "{side(3)}"\n',
        f'shape = "circle"\ndiameter = "{side(4)}"\n',
        f'shape = "triangle"\nbase = "{side(5)}"\nheight = "{side(4)}"\n',
        f'shape = "triangle"\nsides = ["{side(4)}", "{side(5)}", "{side(6)}"]\n',
        f'shape = "trapezoid"\nparallel = ["{side(4)}", "{side(5)}"]\nheight = "{side(3)}"\n',
        f'shape = "area"\narea = "{rng.randint(10, 20) * (1 if small else 100)} ft2"\n'])


def some_lawn(rng):
    text = f'[topdressing]\ndepth = "{rng.choice(["1/4 in", "3/8 in", "6 mm", "0.3 in"])}"\nallowance = "{rng.randint(0, 15)} %"\n'
    if rng.random() < 0.5:
        text += 'months = ["Apr", "Sep"]\n'
    for zone in range(rng.randint(1, 3)):
        text += f'[[lawn.zone]]\nname = "zone {zone}"\n{some_piece(rng, False)}'
        if rng.random() < 0.3:
            text += 'depth = "1/3 in"\n'
        for _ in range(rng.randint(0, 2)):
            text += f'[[lawn.without]]\nfrom = "zone {zone}"\n{some_piece(rng, True)}'
    return text


def some_pile(rng):
    feet = lambda low, high: f"{rng.uniform(low, high):.1f} ft"
    shape = rng.choice(["bin", "round", "tumbler", "cone", "windrow", "flat windrow"])
    text = f'[recipe]\nsettling = {rng.uniform(0.6, 1):.2f}\n' if rng.random() < 0.5 else ""
    text += f'[pile]\nshape = "{shape.split()[-1]}"\n'
    if shape != "tumbler":
        text += f'height = "{feet(2, 5)}"\n'
    text += {"bin": f'length = "{feet(2, 6)}"\nwidth = "{feet(2, 6)}"\n', "round": f'diameter = "{feet(2, 6)}"\n', "cone": f'diameter = "{feet(3, 9)}"\n',
             "tumbler": f'volume = "{rng.uniform(20, 90):.0f} gal"\n', "windrow": f'length = "{feet(5, 40)}"\nwidth = "{feet(4, 12)}"\n',
             "flat windrow": f'length = "{feet(5, 40)}"\nwidth = "{feet(6, 12)}"\ntop_width = "{feet(1, 6)}"\n'}[shape]
    text += f"count = {rng.randint(1, 3)}\n" if rng.random() < 0.4 else ""
    return text


def check_piles_and_tests(program, folder):
    rng = random.Random(20261130)
    yard = folder / "pile.toml"
    for _ in range(12):
        stuff = f'[[supply]]\nfeedstock = "leaves"\namount = "{rng.randint(3, 60)} leaf-bag"\n[[supply]]\nfeedstock = "grass"\namount = "{rng.randint(1, 30)} bucket"\n'
        yard.write_text(some_pile(rng) + (stuff if rng.random() < 0.9 else ""), encoding="utf-8")
        before = len(failures)
        check_command(program, "pile", str(yard))
        if len(failures) > before:
            failures.append(f"the file was\n{yard.read_text(encoding='utf-8')}")
    for _ in range(25):
        options = []
        for test in rng.sample(sorted(WRITTEN_TESTS), rng.randint(1, 6)):
            unit, low, high = rng.choice(WRITTEN_TESTS[test])
            bound = rng.choice(["<", ">"]) if rng.random() < 0.1 and unit != ":1" else ""
            number = f"{rng.uniform(low, high):.3g}"
            options += ["--test", f"{test}={bound}{number}{unit if unit in ('%', ':1') else ' ' + unit}".strip()]
        check_command(program, "maturity", *options)
    # A limit is met at its edge, in whichever unit it is written: 36 degF is 20 °C, where "at most 20 degC" begins to fail.
    for value, inside in (("36 degF", True), ("36.1 degF", False), ("20 degC", True), ("20.01 degC", False)):
        steps = json.loads(run(program, "maturity", "--test", f"self-heating={value}", "--json", "--show-working"))["working"]
        margin = next(step["result"]["value"] for step in steps if step["what"] == "self-heating, mature, how far inside")
        check(value, (margin >= 0) == inside, f"{margin} inside 20 degC")


def check_random(program, folder):
    rng = random.Random(20261109)
    listed = json.loads(run(program, "materials", "--json"))["feedstocks"]
    feedstocks = [feedstock for feedstock in listed if not feedstock["lacks"]]
    materials, yard = folder / "own.toml", folder / "some.toml"
    materials.write_text(OWN, encoding="utf-8")
    for number in range(60):
        command = ("mix", "recipe", "topdress")[number % 3]
        yard.write_text(some_lawn(rng) if command == "topdress" else some_yard(rng, feedstocks), encoding="utf-8")
        before = len(failures)
        check_command(program, command, str(yard), "--materials", str(materials), *(["--water", "3 gal"] if command == "mix" and rng.random() < 0.5 else []))
        if len(failures) > before:
            failures.append(f"the file was\n{yard.read_text(encoding='utf-8')}")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    for command in ("mix", "recipe", "topdress"):
        check_command(program, command, "examples/quarter-acre.toml")
    check_command(program, "topdress", "--have", "2 yd3")
    # One by the best set, one by the middle of those that go one of two ways, one fed week by week, several piles at once.
    for yard in ("examples/quarter-acre.toml", "tests/cli/golden/chips.toml", "tests/cli/golden/full-bin.toml", "tests/data/one_load.toml"):
        check_command(program, "forecast", yard, "--today", "2026-11-10")
    check_command(program, "pile", "--have", "leaves=200 bags", "--have", "grass=100 buckets")
    check_command(program, "maturity", "tests/cli/golden/whole-report.toml")
    for at_home in ([], ["--check", "no-reheat=passed"]):
        why = " ".join(run(program, "maturity", *at_home, "--show-working").split())
        check(("maturity", *at_home), "No figures to work with: no test is told" in why, "does not say why there is no working")
    with tempfile.TemporaryDirectory() as folder:
        check_published(program, pathlib.Path(folder))
        check_piles_and_tests(program, pathlib.Path(folder))
        check_random(program, pathlib.Path(folder))
    for failure in failures[:20]:
        print(failure)
    print(f"{checks} checks, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
