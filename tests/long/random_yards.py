"""Yards invented at random, plausible and not: whatever is asked, the program ends by itself, with an answer or with what is wrong in the question,
and its amounts balance.

usage: random_yards.py PROGRAM [--yards N] [--seed N] [--keep FOLDER]
"""
import argparse
import datetime
import functools
import json
import math
import pathlib
import random
import re
import resource
import shlex
import signal
import subprocess
import sys
import tempfile
import time
import tomllib

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "cli"))
from arithmetic import CUBIC_METRES, MONTHS, ROOT, Program, container_sizes, table  # noqa: E402

PATIENCE = 20  # s of the processor, however many share it; a forecast of three years takes a few
STALLED = 300  # s; then it waits for something
SAME = 1e-9  # relative; sums of a dozen doubles differ by less than 1e-14, and JSON prints all digits
A_GRAM = 0.001  # kg; less of anything is nothing in a pile, as lib/heapwright/recipe/recipe.cpp has it
SLACK = 1e-6  # relative; the recipe keeps its limits with a slack of 1e-7
NOT_A_NUMBER = re.compile(r"(?<![A-Za-z])[-+]?(nan|inf|infinity)(?![A-Za-z])", re.IGNORECASE)
MASSES = {"kg": 1.0, "lb": 0.45359237, "g": 0.001, "oz": 0.45359237 / 16, "short_ton": 907.18474, "t": 1000.0}  # international pound, 1959

# Lines that once defeated the solver: traces of one thing beside a load of another.
LINES = [["softwood-shavings=235 lb", "leaves-fall=0.73 lb", "broiler-litter=2.05 lb", "urea=0.0651 lb"],
         ["bark-hardwood=1.71 lb", "garden-soil=34.2 lb", "sheep-manure=2.41 lb", "garden-haulm=150 lb", "urea=1.9 lb"],
         ["softwood-shavings=235 lb", "leaves-fall=0.73 lb", "broiler-litter=2.05 lb", "urea=0.0651 lb", "bark-hardwood=1.71 lb",
          "garden-soil=34.2 lb", "sheep-manure=2.41 lb", "garden-haulm=150 lb", "urea=1.9 lb"]]

WHENS = [{"months": ["Oct", "Nov"]}, {"months": ["Oct"]}, {"months": ["Dec", "Jan", "Feb"]}, {"months": MONTHS}, {"every": "week"},
         {"every": "week", "from": "Apr", "to": "Oct"}, {"every": "week", "from": "Nov", "to": "Feb"}]
CLIMATES = ["bitter", "very-cold", "cold", "mountain", "cool", "high-desert", "mild", "warm", "dry-summer", "hot-desert", "frost-free"]


@functools.cache
def feedstock_rows():
    with open(ROOT / "materials" / "feedstocks.toml", "rb") as file:
        return tomllib.load(file)["feedstock"]


# Questions


def some(generator, chance):
    return generator.random() < chance


def random_number(generator, low, high):
    """Alike in each power of ten; of three digits, as people write them, or of one."""
    value = math.exp(generator.uniform(math.log(low), math.log(high)))
    return f"{float(f'{value:.{generator.choice([1, 2, 3])}g}'):.10g}"


def random_amount(generator):
    """From a gram to tons, a cup to truckloads."""
    how = generator.random()
    if how < 0.04:
        return "0 " + generator.choice(["lb", "kg", "gal"])
    if how < 0.45:
        unit = generator.choice(list(MASSES))
        return f"{random_number(generator, 0.001 / MASSES[unit], 5000.0 / MASSES[unit])} {unit}"
    if how < 0.70:
        unit = generator.choice(list(CUBIC_METRES))
        return f"{random_number(generator, 0.0005 / CUBIC_METRES[unit], 20.0 / CUBIC_METRES[unit])} {unit}"
    return f"{random_number(generator, 0.1, 80)} {generator.choice(list(container_sizes()))}"


def random_measuring(generator, supply):
    how = generator.random()
    if how < 0.08:
        empty = generator.choice([0, 1, 2])
        supply["weighed"] = {"container": generator.choice(["bucket", "leaf-bag", "wheelbarrow"]), "full": f"{empty + generator.choice([0.5, 2, 7, 20])} lb",
                             "empty": f"{empty} lb"}
    elif how < 0.16:
        supply["dried"] = {"wet": "10 g", "dry": f"{generator.choice([0.1, 1, 2.3, 5, 9, 10])} g"}
    elif how < 0.24:
        supply["feel"] = generator.choice(["drips", "clumps", "crumbles"])


def random_supply(generator, rows):
    row = generator.choice(rows)
    supply = {"feedstock": row["id"]}
    packings = row.get("bulk_density")
    if isinstance(packings, dict) and some(generator, 0.3):
        supply["packing"] = generator.choice(list(packings))
    if some(generator, 0.12):
        supply["use"] = "unlimited"
    else:
        supply["amount"] = random_amount(generator)
        if some(generator, 0.12):
            supply["use"] = "all"
    if some(generator, 0.15):
        supply["bought"] = True
        if some(generator, 0.5):
            supply.pop("amount", None)
            supply.pop("use", None)
        if some(generator, 0.7):
            supply["price"] = generator.choice([0, 0.01, 3, 8.5, 1000])
            supply["unit"] = random_amount(generator)
    if "amount" in supply and some(generator, 0.3):
        supply["when"] = generator.choice(WHENS)
    if some(generator, 0.2):
        supply["storable"] = some(generator, 0.5)
    if some(generator, 0.15):
        supply["shredded"] = some(generator, 0.7)
    if some(generator, 0.15):
        supply["treated"] = generator.choice(["no", "no", "yes", "unknown"])
    if some(generator, 0.12):
        supply["most_of_volume"] = f"{generator.choice([0, 0.1, 5, 30, 50, 100])} %"
    random_measuring(generator, supply)
    return supply


def random_targets(generator):
    targets = {}
    if some(generator, 0.6):
        low, aim, high = sorted(generator.choice([0.5, 5, 12, 20, 25, 30, 35, 60, 200, 900]) for _ in range(3))
        targets["carbon_to_nitrogen"] = {"low": f"{low}:1", "aim": f"{aim}:1", "high": f"{high}:1"}
    if some(generator, 0.6):
        low, aim, high = sorted(generator.choice([0, 2, 20, 40, 50, 55, 60, 80, 95, 99.9]) for _ in range(3))
        targets["moisture_wet_basis"] = {"low": f"{low} %", "aim": f"{aim} %", "high": f"{high} %"}
    if some(generator, 0.4):
        targets["air_space"] = {"low": f"{generator.choice([0, 10, 35, 60, 95, 100])} %"}
    return targets


def random_wishes(generator):
    wishes = {}
    if some(generator, 0.6):
        wishes["goal"] = generator.choice(["use-most", "cheapest", "least-bought", "least-water"])
    size = generator.random()
    if size < 0.3:
        wishes["fill"] = f"{random_number(generator, 0.01, 30)} yd3"
    elif size < 0.5:
        wishes["capacity"] = f"{random_number(generator, 0.01, 30)} m3"
    if some(generator, 0.2):
        wishes["settling"] = generator.choice([0.2, 0.4, 0.6, 0.8, 1.0])
    if some(generator, 0.25):
        wishes["most_water"] = f"{generator.choice([0, 0, 1, 20, 300])} gal"
    return wishes


def random_pile(generator):
    def side():
        return f"{random_number(generator, 0.5, 12)} ft"

    shape = generator.choice(["bin", "round", "tumbler", "cone", "windrow"])
    pile = {"shape": shape}
    if shape == "tumbler":
        pile["volume"] = f"{random_number(generator, 5, 150)} gal"
    elif shape in ("round", "cone"):
        pile.update({"diameter": side(), "height": side()})
    else:
        pile.update({"length": side(), "width": side(), "height": side()})
    if some(generator, 0.3):
        pile["count"] = generator.choice([1, 2, 3, 12])
    if some(generator, 0.7):
        pile["built"] = datetime.date(2026, 1, 1) + datetime.timedelta(days=generator.randrange(730))
    if some(generator, 0.5):
        pile["turn_every"] = generator.choice(["2 days", "2 weeks", "60 days", "never"])
    if some(generator, 0.3):
        pile["keep_moist"] = some(generator, 0.7)
    if some(generator, 0.2):
        pile["covered"] = True
    if some(generator, 0.3):
        pile["filled"] = generator.choice(["as-it-comes", "at-once"])
    return pile


def random_lawn(generator, text):
    if some(generator, 0.5):
        text += table("[[lawn.zone]]", {"name": "front", "shape": "rectangle", "length": f"{random_number(generator, 1, 400)} ft", "width": "30 ft"})
    else:
        text += table("[[lawn.zone]]", {"name": "all", "shape": "area", "area": f"{random_number(generator, 10, 90000)} ft2"})
    if some(generator, 0.6):
        text += table("[topdressing]", {"depth": generator.choice(["1/4 in", "1/8 in", "3/8 in"])})
    return text


def random_yard(generator, rows):
    text = f'units = "{generator.choice(["us", "us", "si", "both"])}"\n'
    for _ in range(generator.randint(0, 12)):
        text += table("[[supply]]", random_supply(generator, rows))
    if some(generator, 0.6):
        text += table("[recipe]", random_wishes(generator))
    if some(generator, 0.25):
        text += table("[targets]", random_targets(generator))
    if some(generator, 0.7):
        text += table("[pile]", random_pile(generator))
    if some(generator, 0.6):
        climate = {"like": generator.choice(CLIMATES)} if some(generator, 0.5) else {
            "coldest_month": f"{generator.randint(-20, 60)} degF", "warmest_month": f"{generator.randint(60, 100)} degF"}
        if some(generator, 0.5):
            climate["rain"] = f"{generator.choice([0, 0.2, 3, 12])} in"
        text += table("[climate]", climate)
    return random_lawn(generator, text) if some(generator, 0.3) else text


def random_line(generator, rows):
    """Options in place of a file."""
    haves = []
    for _ in range(generator.randint(1, 6)):
        row = generator.choice(rows)
        name = row["id"]
        if isinstance(row.get("bulk_density"), dict) and some(generator, 0.3):
            name += ":" + generator.choice(list(row["bulk_density"]))
        haves.append(name)
    if some(generator, 0.85):
        haves = [f"{name}={random_amount(generator)}" for name in haves]
    line = [option for have in haves for option in ("--have", have)]
    size = generator.random()
    if size < 0.2:
        line += ["--fill", f"{random_number(generator, 0.05, 10)} yd3"]
    elif size < 0.35:
        line += ["--capacity", f"{random_number(generator, 0.05, 10)} m3"]
    if some(generator, 0.3):
        line += ["--goal", generator.choice(["cheapest", "least-bought", "least-water"])]
    return line


# Answers


def limit_processor_time():
    resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, PATIENCE + 1))


class Runs:
    """Runs of the program and what was wrong with them, each failure kept with what repeats it."""

    def __init__(self, program, keep):
        self.program = str(pathlib.Path(program).resolve())
        self.keep = keep
        self.failures = []
        self.seconds = {}
        self.ends = {}

    def fail(self, place, arguments, what, yard=None):
        self.failures.append(f"{place}: {what}\n    heapwright {shlex.join(arguments)}")
        print(self.failures[-1], flush=True)
        if not self.keep:
            return
        self.keep.mkdir(parents=True, exist_ok=True)
        if yard:
            (self.keep / f"{place}.toml").write_text(yard)
        with open(self.keep / f"{place}.txt", "a") as file:
            file.write(f"{what}\nheapwright {shlex.join(arguments)}\n\n")

    def run(self, place, arguments, yard=None):
        """What it printed, and its exit code; nothing where it did not end well."""
        begin = time.monotonic()
        try:
            result = subprocess.run([self.program, *arguments], capture_output=True, text=True, timeout=STALLED, stdin=subprocess.DEVNULL,
                                    preexec_fn=limit_processor_time)
        except subprocess.TimeoutExpired:
            self.fail(place, arguments, f"not done after {STALLED} s", yard)
            return None
        if result.returncode == -signal.SIGXCPU:
            self.fail(place, arguments, f"not done after {PATIENCE} s of the processor", yard)
            return None
        self.seconds.setdefault(arguments[0], []).append((time.monotonic() - begin, place))
        end = (arguments[0], result.returncode)
        self.ends[end] = self.ends.get(end, 0) + 1
        if result.returncode not in (0, 1, 2):
            self.fail(place, arguments, f"exit {result.returncode}: {result.stderr.strip()[:300]}", yard)
            return None
        if result.returncode == 2 and (result.stdout or not result.stderr):
            self.fail(place, arguments, "refused without a word, or with half an answer", yard)
        if NOT_A_NUMBER.search(result.stdout) or NOT_A_NUMBER.search(result.stderr):
            at = NOT_A_NUMBER.search(result.stdout + result.stderr)
            self.fail(place, arguments, f"prints {at.group()!r} at {at.string[max(0, at.start() - 60):at.end() + 20]!r}", yard)
        return result

    def json(self, place, arguments, yard=None):
        result = self.run(place, [*arguments, "--json"], yard)
        if result is None or result.returncode == 2:
            return None
        try:
            return json.loads(result.stdout, parse_constant=lambda name: float(name))
        except ValueError as error:
            self.fail(place, arguments, f"no JSON: {error}", yard)
            return None


def numbers(value, path=""):
    """All numbers of an answer with their places."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from numbers(inner, f"{path}.{key}")
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from numbers(inner, f"{path}.{at}")
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield path, value


def faults_of_numbers(answer):
    for path, value in numbers(answer):
        if not math.isfinite(value):
            yield f"{path} is {value}"
        # A dry pile takes up rain, and gains; what fills more than its room leaves less than no air.
        if ".loss." in path or path.endswith(".air_space_fraction"):
            continue
        if re.search(r"(_kg|_m3|_m2|_fraction|count|cost|parts)$", path) and not value >= 0.0:
            yield f"{path} is {value}, below nothing"


def may_carry_weedkiller(supply):
    """Then no pile gets it."""
    carries = {row["id"] for row in feedstock_rows() if "herbicide" in row.get("tags", [])}
    return supply.get("treated") == "yes" or (supply.get("treated") == "unknown" and supply["feedstock"] in carries)


@functools.cache
def packings_of_containers():
    with open(ROOT / "materials" / "containers.toml", "rb") as file:
        return {row["id"]: row["packing"] for row in tomllib.load(file)["container"] if "packing" in row}


def packing_of(supply, program):
    """As told, else as a bale has it, else the usual one (nothing)."""
    settled = packings_of_containers().get(supply["amount"].split()[1])
    known = program.figures(supply["feedstock"])["readings"]["bulk_density_kg_m3"]
    return supply.get("packing") or (settled if settled in known else None)


def kilograms_on_hand(supply, matter):
    """Of an amount in one number and a unit."""
    number, unit = supply["amount"].split()
    density = matter["counted_density"]
    if "weighed" in supply:
        weighed = supply["weighed"]
        held = (float(weighed["full"].split()[0]) - float(weighed["empty"].split()[0])) * MASSES["lb"]
        density = held / container_sizes()[weighed["container"]]
    if unit in MASSES:
        return float(number) * MASSES[unit], density
    return float(number) * (container_sizes().get(unit) or CUBIC_METRES[unit]) * density, density


def faults_of_recipe(recipe, asked, program):
    """Of the balance: what goes in and what is left is what there is; the parts come to the whole; no limit is passed."""
    if not recipe["amounts"]:
        return
    mix, wishes = recipe["mix"], asked.get("recipe", {})
    total = math.fsum(amount["mass_kg"] for amount in recipe["amounts"]) + recipe["water_to_add_kg"]
    if not abs(total - mix["mass_kg"]) <= SAME * mix["mass_kg"]:
        yield f"amounts and water come to {total} kg, the mix is {mix['mass_kg']}"
    going = [supply for supply in asked.get("supply", []) if not may_carry_weedkiller(supply)]
    if len(going) == len(recipe["amounts"]):
        for supply, amount in zip(going, recipe["amounts"]):
            if supply.get("bought") or "amount" not in supply or "when" in supply:
                continue
            matter = program.matter(supply["feedstock"], packing_of(supply, program), supply.get("shredded", False))
            there, density = kilograms_on_hand(supply, matter)
            if there < A_GRAM:
                continue
            shredded = supply.get("shredded") and "shredded" in program.figures(supply["feedstock"])["readings"]["bulk_density_kg_m3"]
            found = amount["mass_kg"] + amount["left_over_m3"] * (1.0 / matter["loose"] if shredded else density)
            if amount["id"] != supply["feedstock"] or not abs(found - there) <= SAME * there:
                yield f"{supply['feedstock']}: {amount['mass_kg']} kg and {amount['left_over_m3']} m3 left are {found} kg of {there}"
    else:
        yield f"{len(recipe['amounts'])} amounts of {len(going)} supplies"
    if "most_water" in wishes:
        most = float(wishes["most_water"].split()[0]) * CUBIC_METRES["gal"] * 1000.0
        if not recipe["water_to_add_kg"] <= most * (1.0 + SLACK) + 1e-9:
            yield f"{recipe['water_to_add_kg']} kg of water, more than {most}"
    if "capacity" in wishes and not mix["volume_m3"] <= float(wishes["capacity"].split()[0]) * (1.0 + SLACK):
        yield f"{mix['volume_m3']} m3 in {wishes['capacity']}"


def check_yard(runs, program, folder, place, yard, at):
    path = folder / f"{place}.toml"
    path.write_text(yard)
    file = str(path)
    asked = tomllib.loads(yard)
    recipe = runs.json(place, ["recipe", file], yard)
    if recipe:
        for fault in faults_of_recipe(recipe, asked, program):
            runs.fail(place, ["recipe", file, "--json"], fault, yard)
    answers = {"recipe": recipe, "plan": runs.json(place, ["plan", file], yard)}
    if at % 10 == 0:
        answers["forecast"] = runs.json(place, ["forecast", file], yard)
    if at % 3 == 0:
        answers["pile"] = runs.json(place, ["pile", file], yard)
    for command, answer in answers.items():
        for fault in list(faults_of_numbers(answer))[:3]:
            runs.fail(place, [command, file, "--json"], fault, yard)
    runs.run(place, ["recipe", file], yard)
    if at % 5 == 0:
        runs.run(place, ["plan", file], yard)
    path.unlink()


def check_line(runs, place, line):
    arguments = ["recipe", *line]
    answer = runs.json(place, arguments)
    for fault in list(faults_of_numbers(answer))[:3]:
        runs.fail(place, arguments, fault)
    runs.run(place, arguments)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("--yards", type=int, default=40)
    parser.add_argument("--seed", type=int, default=20261107)
    parser.add_argument("--keep", type=pathlib.Path)
    options = parser.parse_args()

    rows = feedstock_rows()
    # Rows without the figures of a mix are refused with the whole yard: one in a while is enough.
    whole = [row for row in rows if "moisture_wet_basis" in row and "bulk_density" in row]
    runs = Runs(options.program, options.keep)
    program = Program(options.program)
    for at, haves in enumerate(LINES):
        check_line(runs, f"line-known-{at}", [option for have in haves for option in ("--have", have)])
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for at in range(options.yards):
            generator = random.Random(f"{options.seed} {at}")
            here = rows if at % 20 == 19 else whole
            check_yard(runs, program, folder, f"yard-{options.seed}-{at}", random_yard(generator, here), at)
            check_line(runs, f"line-{options.seed}-{at}", random_line(generator, here))

    for command, seconds in runs.seconds.items():
        times = sorted(seconds)
        print(f"{command}: {len(times)} runs, half within {times[len(times) // 2][0]:.2f} s, the longest {times[-1][0]:.1f} s ({times[-1][1]})")
    print("exit codes: " + ", ".join(f"{command} {code}: {count}" for (command, code), count in sorted(runs.ends.items())))
    print(f"{options.yards} yards, {len(runs.failures)} failures")
    return 1 if runs.failures else 0


if __name__ == "__main__":
    sys.exit(main())
