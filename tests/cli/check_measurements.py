"""The measurement that a yard is told to make first must narrow the answer most, each possible one taken in turn. The mix formulas stand here a
second time, and all ranges are drawn at once, where the command moves one figure at a time.

usage: check_measurements.py PROGRAM
"""
import functools
import json
import math
import pathlib
import random
import re
import subprocess
import sys
import tempfile

from arithmetic import Checks

DRAWS = 8000
FINDINGS = 8  # values that a measurement may find
DRAWS_EACH = 2000  # draws of all else at each of them: 16000 for a measurement
# By how much the named one may leave a wider spread than the best. The ratio of two spreads of 4000 draws wanders by 0.6 to 0.9 % (standard
# deviation over twelve seeds, seven of these yards), of 16000 by half of that. The curvature of C:N in its parts, which the command's steps from
# low to high do not see, has to fit into the same 2 %.
TOLERANCE = 0.02

# Invented yards: title, the day the pile is built, [recipe], supplies.
YARDS = [
    ("two maples and a pail", "2026-11-07", "",
     ['feedstock = "leaves-fall", packing = "bagged", amount = "20 leaf-bag"',
      'feedstock = "grass-clippings", packing = "loose", amount = "8 bucket", treated = "no"',
      'feedstock = "kitchen-scraps", amount = "3 kitchen-bag"']),
    ("leaves in paper bags, coffee from a cafe", "2026-11-20", "",
     ['feedstock = "leaves-fall", amount = "20 grocery-bag"',
      'feedstock = "straw", amount = "1 straw-bale"',
      'feedstock = "coffee-grounds", amount = "12 bucket"']),
    ("a loose pile and a scale", "2026-10-30", "",
     ['feedstock = "leaves-fall", packing = "loose", amount = "3 yd3"',
      'feedstock = "grass-clippings", amount = "90 lb", treated = "no"',
      'feedstock = "coffee-grounds", amount = "40 lb"']),
    ("bags through the shredder", "2026-11-12", "",
     ['feedstock = "leaves-fall", packing = "bagged", amount = "16 leaf-bag", shredded = true',
      'feedstock = "grass-clippings", packing = "packed", amount = "6 muck-bucket", treated = "no"',
      'feedstock = "coffee-grounds", amount = "2 bucket"']),
    ("a pony and three bales", "2026-04-18", "",
     ['feedstock = "straw", amount = "3 straw-bale"',
      'feedstock = "horse-manure", amount = "10 bucket", treated = "no"',
      'feedstock = "kitchen-scraps", amount = "4 bucket"']),
    ("wood chips and the mower", "2026-06-20", "",
     ['feedstock = "wood-chips", amount = "3 wheelbarrow"',
      'feedstock = "grass-clippings", amount = "12 grass-catcher", treated = "no"',
      'feedstock = "coffee-grounds", amount = "5 bucket"']),
    ("leaves with urea bought", "2026-11-15", 'goal = "cheapest"\nfill = "1 yd3"',
     ['feedstock = "leaves-fall", packing = "bagged", amount = "30 leaf-bag"',
      'feedstock = "urea", bought = true, price = 12, unit = "5 lb"']),
    ("leaves with blood meal", "2026-11-15", 'goal = "least-bought"\nfill = "1 1/2 yd3"',
     ['feedstock = "leaves-fall", packing = "collected", amount = "14 trash-can"',
      'feedstock = "kitchen-scraps", amount = "5 small-bucket"',
      'feedstock = "blood-meal", bought = true, price = 20, unit = "10 lb"']),
    ("oaks with known crowns and a lawn", "2026-10-31", "",
     ['feedstock = "leaves-fall", estimate = { trees = 2, canopy_width = "35 ft" }, when = { months = ["Oct", "Nov"] }',
      'feedstock = "grass-clippings", estimate = { mown_lawn = "6000 ft2" }, when = { months = ["May", "Jun", "Jul", "Aug", "Sep", "Oct"] }, '
      'treated = "no"',
      'feedstock = "coffee-grounds", amount = "2 bucket"']),
    ("trees nobody paced and a household of four", "2026-12-05", "",
     ['feedstock = "leaves-fall", estimate = { trees = 3 }, when = { months = ["Oct", "Nov"] }',
      'feedstock = "kitchen-scraps", estimate = { people = 4 }, when = { every = "week" }',
      'feedstock = "coffee-grounds", amount = "1 bucket", when = { every = "week" }']),
    ("a pile of leaves to the waist", "2026-11-28", "",
     ['feedstock = "leaves-fall", packing = "loose", estimate = { pile = ["8 ft", "6 ft", "waist-high"] }',
      'feedstock = "horse-manure", amount = "1/4 yd3", treated = "no"',
      'feedstock = "kitchen-scraps", amount = "3 bucket"']),
    ("bales for the scraps of five", "2026-03-21", "",
     ['feedstock = "straw", amount = "2 straw-bale"',
      'feedstock = "kitchen-scraps", estimate = { people = 5 }, when = { every = "week" }']),
    ("a big lawn, a small pile", "2026-09-12", 'fill = "1 yd3"',
     ['feedstock = "leaves-fall", packing = "collected", amount = "40 leaf-bag", when = { months = ["Nov"] }',
      'feedstock = "grass-clippings", estimate = { mown_lawn = "12000 ft2" }, when = { months = ["May", "Jun", "Jul", "Aug", "Sep"] }, '
      'treated = "no"']),
    ("by the feel of a handful", "2026-11-03", "",
     ['feedstock = "leaves-fall", packing = "bagged", amount = "18 lawn-and-leaf-bag", feel = "crumbles"',
      'feedstock = "grass-clippings", amount = "9 bucket", feel = "drips", treated = "no"',
      'feedstock = "straw", amount = "1 straw-bale"']),
    ("as much as one wants of leaves and coffee", "2026-11-10", 'fill = "2 yd3"',
     ['feedstock = "leaves-fall", packing = "bagged", use = "unlimited"',
      'feedstock = "coffee-grounds", use = "unlimited"']),
    ("everything on the scale", "2026-10-24", "",
     ['feedstock = "leaves-fall", packing = "loose", amount = "220 lb"',
      'feedstock = "coffee-grounds", amount = "150 lb"',
      'feedstock = "straw", amount = "30 lb"',
      'feedstock = "kitchen-scraps", amount = "25 kg"']),
    ("a stable next door", "2026-05-09", 'fill = "1 1/2 yd3"',
     ['feedstock = "leaves-fall", packing = "collected", amount = "2 yd3", feel = "clumps"',
      'feedstock = "horse-manure", amount = "1/4 yd3", treated = "no"',
      'feedstock = "blood-meal", amount = "10 lb"']),
    ("tarp loads and grocery bags", "2026-11-22", "",
     ['feedstock = "leaves-fall", packing = "loose", amount = "5 tarp-load"',
      'feedstock = "grass-clippings", amount = "10 grocery-bag", treated = "no"',
      'feedstock = "coffee-grounds", amount = "10 coffee-can"']),
    ("one young tree and a week of mowing", "2026-10-31", "",
     ['feedstock = "leaves-fall", estimate = { trees = 1, canopy_width = "18 ft" }',
      'feedstock = "grass-clippings", amount = "14 bucket", treated = "no"',
      'feedstock = "kitchen-scraps", estimate = { people = 2 }, when = { every = "week" }']),
    ("shredded leaves of two trees", "2026-11-25", 'most_water = "40 gal"',
     ['feedstock = "leaves-fall", estimate = { trees = 2, canopy_width = "25 ft" }, when = { months = ["Oct", "Nov"] }, shredded = true',
      'feedstock = "kitchen-scraps", estimate = { people = 6 }, when = { every = "week" }',
      'feedstock = "coffee-grounds", amount = "3 bucket"']),
]

# A figure's key in `materials ID --json`, for those that an answer does not list.
USED = {"moisture_wet_basis": "moisture_fraction", "carbon_dry_basis": "carbon_fraction_dry", "nitrogen_dry_basis": "nitrogen_fraction_dry"}
TAKES_AWAY = {"weighed": "bulk_density", "dried": "moisture_wet_basis", "amount": "amount"}
DUST = 1e-4  # of the pile's mass: what is less does not go in

check = Checks()


def yard_text(yard, supplies):
    title, built, wishes, _ = yard
    listed = ",\n".join(f"  {{ {supply} }}" for supply in supplies)
    return (f'title = "{title}"\nsupply = [\n{listed}\n]\n[recipe]\n{wishes}\n'
            f'[pile]\nshape = "bin"\nlength = "5 ft"\nwidth = "5 ft"\nheight = "4 ft"\nbuilt = {built}\n'
            '[[container]]\nname = "tub"\nvolume = "10 L"\n')


class Ingredient:
    """What of a supply goes in. The person puts in as many containers, or pounds, as told, at most what is there."""

    def __init__(self, supply, amount, assumptions, used):
        self.supply, self.id, self.mass = supply, amount["id"], amount["mass_kg"]
        self.figures = {figure: used[key] for figure, key in USED.items()}
        self.figures["bulk_density"] = amount["mass_kg"] / amount["volume_m3"]
        self.figures.update((assumption["figure"], assumption["value"]) for assumption in assumptions)
        self.ranges = {assumption["figure"]: (assumption["low"], assumption["high"], assumption["value"]) for assumption in assumptions
                       if assumption["low"] is not None and assumption["low"] < assumption["high"]}
        self.by_weight = re.search(r'(amount|unit) = "[^"]* (lb|kg)"', supply) is not None
        self.estimate = next(iter(re.findall(r"estimate = \{ (\w+)", supply)), None)
        self.told = self.mass / self.figures["bulk_density"]  # as it is counted: shredding shrinks it later
        left = (amount["left_over_m3"] or 0.0) / amount["volume_m3"]
        self.there = self.told * (1.0 + left)
        self.all_of_it = left < 1e-6
        self.container, self.each = "tub", 0.010
        if amount["containers"]:
            self.container, self.each = amount["containers"]["name"], self.told / amount["containers"]["count"]

    def measurements(self):
        return [how for how, figure in TAKES_AWAY.items() if figure in self.ranges]

    def measured(self, how):
        """The supply with that measurement in it, which finds what was assumed."""
        if how == "weighed":
            full = 1.0 + self.figures["bulk_density"] * self.each
            return f'{self.supply}, weighed = {{ container = "{self.container}", full = "{full!r} kg", empty = "1 kg" }}'
        if how == "dried":
            return f'{self.supply}, dried = {{ wet = "100 g", dry = "{100.0 * (1.0 - self.figures["moisture_wet_basis"])!r} g" }}'
        unit = "m3" if self.estimate == "pile" else self.container
        return re.sub(r"estimate = \{[^}]*\}", f'amount = "{self.figures["amount"]!r} {unit}"', self.supply)

    def parts(self, drawn, how=None, found=None):
        """Water, dry matter, carbon, nitrogen and volume, by the figures drawn; `how` is the measurement made, if any, and what it found."""
        figures = {**self.figures, **drawn}
        if how:
            figures[TAKES_AWAY[how]] = found
        density, moisture = figures["bulk_density"], figures["moisture_wet_basis"]
        volume = self.told
        if "container" in drawn:
            volume *= figures["container"] / self.figures["container"]
        if self.by_weight:
            volume = self.mass / density
        elif self.estimate and how != "amount":  # what was counted is told in containers from then on
            there = self.there * figures["amount"] / self.figures["amount"]
            if self.estimate != "pile":  # an estimate of pounds
                there *= self.figures["bulk_density"] / density
            if self.estimate == "trees":  # of dry leaves
                there *= (1.0 - self.figures["moisture_wet_basis"]) / (1.0 - moisture)
            volume = there if self.all_of_it else min(self.told, there)
        # Who weighs the container they count in knows what all of them weigh, and still not how much one holds.
        mass = self.told * density if how == "weighed" and "container" in drawn else volume * density
        dry = mass * (1.0 - moisture)
        carbon = dry * figures["carbon_dry_basis"]
        nitrogen = carbon / figures["carbon_to_nitrogen"] if "carbon_to_nitrogen" in figures else dry * figures["nitrogen_dry_basis"]
        return mass * moisture, dry, carbon, nitrogen, mass / figures["bulk_density_in_pile"] if "bulk_density_in_pile" in figures else volume


def mix_of(parts, added_water):
    water, dry, carbon, nitrogen, volume = (sum(column) for column in zip(*parts))
    return carbon / nitrogen, (water + added_water) / (water + added_water + dry), volume


def deviation(values):
    mean = math.fsum(values) / len(values)
    return math.sqrt(math.fsum((value - mean) ** 2 for value in values) / len(values))


def spread(parts_of_all, typical, added_water):
    """The parts of each ingredient in each draw come to one spread over C:N, moisture and volume."""
    mixes = [mix_of(parts, added_water) for parts in zip(*parts_of_all)]
    return math.sqrt(sum((deviation(drawn) / value) ** 2 for drawn, value in zip(zip(*mixes), typical)))


def equally_likely(low, high, typical):
    """Values of a triangular distribution that are as likely as each other: its quantiles in the middle of as many equal shares."""
    split = (typical - low) / (high - low)
    for k in range(FINDINGS):
        p = (k + 0.5) / FINDINGS
        yield low + math.sqrt(p * (high - low) * (typical - low)) if p < split else high - math.sqrt((1.0 - p) * (high - low) * (high - typical))


def spreads(ingredients, added_water, seed):
    """The spread of the answer as it is, under None, and what each measurement leaves of it; the same draws for all. Nobody knows what a
    measurement will find, so what it leaves is averaged over what it may find: C:N is curved in its parts, and at one finding the other
    figures may matter less than at the next."""
    generator = random.Random(seed)
    drawn = [[{figure: generator.triangular(*limits) for figure, limits in ingredient.ranges.items()} for _ in range(DRAWS)]
             for ingredient in ingredients]
    typical = mix_of([ingredient.parts({}) for ingredient in ingredients], added_water)
    parts = [[ingredient.parts(figures) for figures in draws] for ingredient, draws in zip(ingredients, drawn)]
    left = {None: spread(parts, typical, added_water)}
    for place, ingredient in enumerate(ingredients):
        for how in ingredient.measurements():
            squares = []
            for found in equally_likely(*ingredient.ranges[TAKES_AWAY[how]]):
                after = [ingredient.parts(figures, how, found) for figures in drawn[place][:DRAWS_EACH]]
                others = [column[:DRAWS_EACH] for column in parts]
                squares.append(spread([*others[:place], after, *others[place + 1:]], typical, added_water) ** 2)
            left[ingredient.id, how] = math.sqrt(math.fsum(squares) / len(squares))
    return left


def weights(answer):
    return [assumption["could_change_answer"] for assumption in answer["assumptions"]]


def could_change(answer):
    return math.sqrt(sum(weight**2 for weight in weights(answer) if weight is not None))


def sizes(answer):
    return [answer["mix"][key] for key in ("carbon_to_nitrogen", "moisture_fraction", "volume_m3")]


def near(found, expected, relative):
    return all(abs(one - other) <= relative * abs(other) for one, other in zip(found, expected))


def examine(yard, seed, ask, used):
    """What measuring first is said to be, the spreads, and by how much each measurement taken lowers the sum of what could change."""
    title, supplies = yard[0], yard[3]
    answer = ask(yard_text(yard, supplies))
    known = [weight for weight in weights(answer) if weight is not None]
    check(weights(answer) == sorted(known, reverse=True) + [None] * (len(answer["assumptions"]) - len(known)), f"{title}: not the largest first")

    ingredients, places = [], []
    for place, amount in enumerate(answer["amounts"]):
        if amount["mass_kg"] > DUST * answer["mix"]["mass_kg"]:
            assumptions = [assumption for assumption in answer["assumptions"] if assumption["feedstock"] == amount["id"]]
            ingredients.append(Ingredient(supplies[place], amount, assumptions, used(amount["id"])))
            places.append(place)
    typical = mix_of([ingredient.parts({}) for ingredient in ingredients], answer["water_to_add_kg"])
    check(near(typical, sizes(answer), 1e-6), f"{title}: the mix is {sizes(answer)}, computed apart {typical}")

    lowered = {}
    for place, ingredient in zip(places, ingredients):
        for how in ingredient.measurements():
            taken = ask(yard_text(yard, [*supplies[:place], ingredient.measured(how), *supplies[place + 1:]]))
            where = f"{title}: {ingredient.id} {how}"
            gone = all((assumption["feedstock"], assumption["figure"]) != (ingredient.id, TAKES_AWAY[how]) for assumption in taken["assumptions"])
            check(gone, f"{where}: still assumed")
            check(near(sizes(taken), sizes(answer), 1e-6),
                  f"{where}: it finds what was assumed, but the mix goes from {sizes(answer)} to {sizes(taken)}")
            lowered[ingredient.id, how] = could_change(answer) - could_change(taken)
    first = answer["measure_first"] or {"feedstock": "nothing", "how": "measured"}
    return (first["feedstock"], first["how"]), spreads(ingredients, answer["water_to_add_kg"], seed), lowered


def words(table):
    return ", ".join(f"{' '.join(key) if key else 'nothing measured'} {value:.4f}" for key, value in table.items())


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())

    def answer(*arguments):
        result = subprocess.run([program, *arguments, "--json"], capture_output=True, text=True, timeout=60)
        if not result.stdout:
            raise SystemExit(f"{arguments}: exit {result.returncode}: {result.stderr}")
        return json.loads(result.stdout)

    used = functools.cache(lambda feedstock: answer("materials", feedstock)["used"])
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder, "yard.toml")

        def ask(text):
            path.write_text(text, encoding="utf-8")
            return answer("recipe", str(path))

        for seed, yard in enumerate(YARDS):
            named, left, lowered = examine(yard, seed, ask, used)
            least = min(left[key] for key in lowered)
            says = f"{yard[0]}: {' '.join(named)} is named first"
            check(left.get(named, math.inf) <= (1.0 + TOLERANCE) * least, f"{says}; the spread is {words(left)}")
            others = max((fall for key, fall in lowered.items() if key != named), default=0.0)
            check(lowered.get(named, 0.0) > max(others, 0.0), f"{says}; what could change falls by {words(lowered)}")

    print("\n".join(check.failures))
    print(f"{check.count} checks of {len(YARDS)} yards, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
