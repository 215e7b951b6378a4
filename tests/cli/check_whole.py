"""Recipes in whole containers, proportions and cards, computed again: each must be inside when it is mixed afresh, and no nearer one may have
been missed. Yards are invented at random from a fixed seed.

usage: check_whole.py PROGRAM
"""
import datetime
import itertools
import json
import math
import pathlib
import random
import sys
import tempfile
import tomllib

from arithmetic import (Checks, DEFAULT_TARGETS, GALLON, ROOT, Program, container_sizes, cubic_metres, distance, kilograms, mix, keeps_days, packing_in, share_on_hand,
                       water_to, yard_text)

YARDS = 200
DUST = 1e-4  # of the pile's mass: less of a supply does not go in
USED_UP = 0.999  # of a supply: then it may be all of it
SAME = 1e-9  # relative; sums of a dozen doubles differ by less than 1e-14, and the answer prints all digits
EDGE = 1e-9  # on the edge is inside, to rounding

GREENS = ["grass-clippings", "kitchen-scraps", "coffee-grounds", "horse-manure", "garden-weeds", "cow-manure", "seaweed", "vegetable-scraps",
          "chicken-manure", "tea-leaves"]
BROWNS = ["leaves-fall", "leaves-fall", "straw", "wood-chips", "sawdust", "cardboard", "hay-grass", "pine-needles", "corn-stalks", "brush"]
SPARING = ["urea", "blood-meal", "alfalfa-meal"]
CONTAINERS = ["leaf-bag", "bucket", "bucket", "wheelbarrow", "grass-catcher", "kitchen-pail", "trash-can"]
TARGETS = [{"carbon_to_nitrogen": {"low": "22:1", "aim": "27:1", "high": "30:1"}},
           {"carbon_to_nitrogen": {"low": "25:1", "aim": "30:1", "high": "40:1"}, "moisture_wet_basis": {"low": "45 %", "aim": "52 %", "high": "58 %"}},
           {"moisture_wet_basis": {"low": "54 %", "aim": "56 %", "high": "58 %"}},
           {"air_space": {"low": "60 %"}}]

check = Checks()


def near(found, expected, relative):
    return abs(found - expected) <= relative * abs(expected)


# Invented yards


def random_supply(generator, program, kinds):
    feedstock = generator.choice(kinds)
    packings = program.figures(feedstock)["readings"]["bulk_density_kg_m3"]
    shredded = "shredded" in packings and generator.random() < 0.25
    supply = {"feedstock": feedstock, "packing": generator.choice([packing for packing in packings if packing != "shredded"])}
    if shredded:
        supply["shredded"] = True
    how = generator.random()
    if feedstock in SPARING:
        supply["amount"] = f"{generator.randint(1, 12)} lb"
    elif how < 0.12:
        supply["amount"] = f"{generator.randint(10, 400)} {generator.choice(['lb', 'kg'])}"
    elif how < 0.22:
        supply["amount"] = f"{generator.choice([0.25, 0.5, 1, 1.5, 2, 3])} {generator.choice(['yd3', 'm3'])}"
    else:
        supply["amount"] = f"{generator.randint(2, 80) / 2:g} {generator.choice(CONTAINERS)}"
    if generator.random() < 0.2:
        supply["storable"] = generator.random() < 0.5
        if generator.random() < 0.6:
            supply["when"] = {"every": "week"}
            if generator.random() < 0.5:
                supply["when"].update({"from": generator.choice(["Mar", "Apr"]), "to": generator.choice(["Oct", "Nov"])})
            supply["amount"] = f"{generator.randint(1, 12) / 2:g} {generator.choice(['bucket', 'kitchen-pail', 'grass-catcher'])}"
        else:
            supply["when"] = {"months": generator.choice([["Oct", "Nov"], ["Sep", "Oct", "Nov"], ["Jul", "Oct"]])}
    if generator.random() < 0.12:
        supply["most_of_volume"] = f"{generator.choice([10, 20, 30, 50])} %"
    role = generator.random()
    if role < 0.10:
        supply.update({"bought": True, "price": generator.choice([2, 5.5, 8]), "unit": generator.choice(["1 leaf-bag", "1 bucket", "1 straw-bale"])})
        if program.is_supplement(feedstock) and supply["unit"] == "1 leaf-bag":
            supply["unit"] = "5 lb"
        if generator.random() < 0.6:
            del supply["amount"]
            supply.pop("when", None)
            supply.pop("storable", None)
    elif role < 0.17:
        supply["use"] = "all"
    return supply


def random_yard(generator, program):
    count = generator.choice([1, 2, 2, 3, 3, 3, 4, 4, 5, 6])
    kinds = [BROWNS, GREENS] + [generator.choice([GREENS, BROWNS, SPARING, GREENS + BROWNS]) for _ in range(4)]
    supplies = [random_supply(generator, program, kinds[place]) for place in range(count)]
    generator.shuffle(supplies)
    wishes = {"goal": generator.choice(["use-most", "use-most", "use-most", "cheapest", "least-bought", "least-water"])}
    size = generator.random()
    if size < 0.25:
        wishes["capacity"] = f"{generator.choice([0.2, 0.5, 1, 2, 3])} yd3"
    elif size < 0.40:
        wishes["fill"] = f"{generator.choice([0.3, 0.5, 1, 2])} yd3"
    if generator.random() < 0.25:
        wishes["most_water"] = f"{generator.choice([0, 2, 5, 10, 25])} gal"
    if generator.random() < 0.15:
        wishes["settling"] = generator.choice([0.5, 0.6, 0.8])
    targets = generator.choice(TARGETS) if generator.random() < 0.2 else {}
    built = datetime.date(2026, generator.choice([3, 6, 9, 11]), generator.randint(1, 28))
    return yard_text(supplies, wishes, targets, built, generator.choice(["us", "us", "si"]))


# What a yard file asks, read back from its text


def number(text):
    """Of "30 %", "25:1"."""
    value = text.strip().rstrip("%").split(":")[0]
    return float(value) / (100.0 if text.strip().endswith("%") else 1.0)


def counted(text):
    """Number and unit of "24 leaf-bag" and "1 1/2 gal"."""
    *numbers, unit = text.split()
    return sum(float(part.split("/")[0]) / float(part.split("/")[1]) if "/" in part else float(part) for part in numbers), unit


class Yard:
    def __init__(self, text, program):
        asked = tomllib.loads(text)
        self.own_containers = {row["name"]: cubic_metres(*counted(row["volume"])) for row in asked.get("container", [])}
        wishes = asked.get("recipe", {})
        self.goal = wishes.get("goal", "use-most")
        self.settling = wishes.get("settling", 1.0)
        self.fill = asked.get("recipe", {}).get("fill")
        self.capacity = cubic_metres(*counted(wishes["capacity"])) if "capacity" in wishes else math.inf
        if not self.fill:
            self.capacity = min(self.capacity, self.room(asked))
        self.most_water = cubic_metres(*counted(wishes["most_water"])) * 1000.0 if "most_water" in wishes else math.inf
        self.units = asked.get("units", "us")
        self.targets = dict(DEFAULT_TARGETS)
        for key, of in (("carbon_to_nitrogen", "ratio"), ("moisture_wet_basis", "moisture")):
            if key in asked.get("targets", {}):
                self.targets[of] = tuple(number(asked["targets"][key][end]) for end in ("low", "aim", "high"))
        if "air_space" in asked.get("targets", {}):
            self.targets["air"] = number(asked["targets"]["air_space"]["low"])
        built = asked.get("pile", {}).get("built", datetime.date.today())
        self.supplies = [self.supply(entry, built, program) for entry in asked["supply"]]

    def size_of(self, container):
        return self.own_containers.get(container) or container_sizes()[container]

    @staticmethod
    def room(asked):
        """Of bins all of them, of a tumbler two thirds of it."""
        pile = asked.get("pile")
        if pile is None:
            return math.inf
        if pile["shape"] == "tumbler":
            return 2.0 / 3.0 * cubic_metres(*counted(pile["volume"]))
        feet = math.prod(counted(pile[side])[0] for side in ("length", "width", "height"))
        return pile.get("count", 1) * cubic_metres(feet, "ft3")

    def kilograms(self, text, matter):
        count, unit = counted(text)
        if unit in self.own_containers:
            return count * self.own_containers[unit] * matter["counted_density"]
        return kilograms(count, unit, matter["counted_density"])

    def supply(self, entry, built, program):
        matter = program.matter(entry["feedstock"], entry.get("packing"), entry.get("shredded", False))
        storable = entry.get("storable", matter["class"] not in ("must-go", "clippings"))
        there = None
        if "amount" in entry:
            there = share_on_hand(entry.get("when"), storable, built, keeps_days(entry["feedstock"])) * self.kilograms(entry["amount"], matter)
        price = entry["price"] / self.kilograms(entry["unit"], matter) if "price" in entry else 0.0
        return {**entry, "matter": matter, "there": there, "price_per_kg": price,
                "most": number(entry["most_of_volume"]) if "most_of_volume" in entry else None, "fixed": entry.get("use") == "all"}

    def mix(self, masses, water):
        return mix([(supply["matter"], mass) for supply, mass in zip(self.supplies, masses)], water, self.settling)

    def inside(self, of, masses, water, answer):
        """Windows, capacity, shares and water, all to rounding; a wanted fill that is reached to a tenth."""
        exact = answer["mix"]["volume_m3"]
        if answer["status"] != "not-enough" and self.fill and abs(of["volume"] - exact) > 0.1 * exact * (1.0 + EDGE):
            return False
        if distance(of, self.targets) > 1.0 + EDGE or of["volume"] > self.capacity * (1.0 + EDGE) or water > self.most_water * (1.0 + EDGE):
            return False
        return all(supply["most"] is None or mass * supply["matter"]["loose"] <= supply["most"] * of["loose"] * (1.0 + EDGE)
                   for supply, mass in zip(self.supplies, masses))

    def water_measure(self, answer):
        """Pints or half litres for a pile under 20 kg, gallons or five litres from 40 kg of water on, else half gallons or litres."""
        small, large = answer["mix"]["mass_kg"] < 20.0, answer["water_to_add_kg"] >= 40.0
        if self.units == "si":
            return 0.5 if small else 5.0 if large else 1.0
        return (0.125 if small else 1.0 if large else 0.5) * GALLON * 1000.0


# Whole containers


def measure_of(supply, exact, amount, yard):
    """The mass of one measure: half a container while there are fewer than ten, one of what is bought; a unit of the second figure of a weight."""
    if amount["containers"] is None:
        return 10.0 ** (math.floor(math.log10(exact)) - 1)
    each = yard.size_of(amount["containers"]["name"]) * supply["matter"]["counted_density"]
    return each if supply.get("bought") or exact >= 10.0 * each else 0.5 * each


def is_multiple(value, of):
    return abs(value / of - round(value / of)) <= 1e-7  # seven digits of a count: far finer than the halves asked about


def check_amounts(where, yard, answer):
    """Halves below ten, wholes from there on and of what is bought, or all of it; never more than there is."""
    whole, pile = answer["whole_containers"], answer["mix"]["mass_kg"]
    for supply, exact, told in zip(yard.supplies, answer["amounts"], whole["amounts"]):
        here = f"{where}: {supply['feedstock']} {told['mass_kg']} kg for {exact['mass_kg']}"
        check(told["id"] == supply["feedstock"] and told["mass_kg"] >= 0.0, f"{here}: in its place")
        if supply["there"] is not None and supply.get("use") != "unlimited":
            check(told["mass_kg"] <= supply["there"] * (1.0 + SAME), f"{here}: more than the {supply['there']} there is")
        # What the person's own containers are too coarse for is measured in buckets, as it lies in the pile.
        weighed = bool(exact["containers"]) and not told["containers"]
        in_buckets = bool(told["containers"]) and bool(exact["containers"]) and exact["containers"]["name"] != told["containers"]["name"] == "bucket"
        if told["containers"]:
            each = yard.size_of(told["containers"]["name"]) * (1.0 / supply["matter"]["loose"] if in_buckets else supply["matter"]["counted_density"])
            check(near(told["containers"]["count"] * each, told["mass_kg"], SAME), f"{here}: is not {told['containers']} of {each} kg")
        if exact["mass_kg"] <= DUST * pile and not supply["fixed"]:
            check(told["mass_kg"] == 0.0, f"{here}: dust goes in")
            continue
        there = supply["there"]
        all_of_it = there is not None and exact["mass_kg"] >= USED_UP * there and near(told["mass_kg"], there, SAME)
        check(all_of_it or not supply["fixed"], f"{here}: a fixed amount is all of it, {there}")
        measure = None if all_of_it else measure_of(supply, exact["mass_kg"], exact, yard)
        # What is less than two buckets may be weighed.
        if weighed and not all_of_it:
            check(exact["volume_m3"] < 2.0 * yard.size_of("bucket"), f"{here}: weighed, though it is more than two buckets")
            measure = 10.0 ** (math.floor(math.log10(exact["mass_kg"])) - 1)
        if in_buckets:
            measure = each if told["mass_kg"] >= 10.0 * each else 0.5 * each
        check(all_of_it or is_multiple(told["mass_kg"], measure), f"{here}: neither all of it nor whole measures of {measure} kg")
        count = told["containers"]["count"] if told["containers"] else 0.0
        check(all_of_it or count < 10.0 or is_multiple(count, 1.0), f"{here}: {count} containers, ten or more and not whole")


def mixed_afresh(program, folder, yard, whole):
    """The whole amounts by the command mix, from counts and masses printed in full."""
    water = ["--water", f"{whole['water_to_add_kg']!r} L"]  # a litre of water weighs a kilogram
    by_file = yard.settling != 1.0 or yard.own_containers or any(supply.get("shredded") for supply in yard.supplies)
    portions = []
    for supply, told in zip(yard.supplies, whole["amounts"]):
        if not told["mass_kg"] > 0.0:
            continue
        held = told["containers"]
        if held and (held["name"] in yard.own_containers or supply["matter"]["class"] == "supplement"):
            held = None  # unknown to the command by itself; and it takes fertilizer by weight alone
        amount = f"{held['count']!r} {held['name']}" if held else f"{told['mass_kg']!r} kg"
        portions.append({"feedstock": supply["feedstock"], "packing": supply["packing"], "amount": amount, "shredded": supply.get("shredded", False)}
                        if "packing" in supply else {"feedstock": supply["feedstock"], "amount": amount})
    if by_file:
        path = folder / "afresh.toml"
        path.write_text(yard_text(portions, {"settling": yard.settling}))
        return program.answer("mix", str(path), *water)["mix"]
    adds = [f"{one['feedstock']}:{one['packing']}={one['amount']}" for one in portions]
    return program.answer("mix", *itertools.chain(*(("--add", add) for add in adds)), *water)["mix"]


def choices_of(supply, exact, amount, yard, pile, reach):
    """Masses that brute force tries, each with how far it is away."""
    if supply["fixed"]:
        return [(supply["there"], 0.0)]
    if exact <= DUST * pile:
        return [(0.0, 0.0)]
    there = math.inf if supply["there"] is None else supply["there"]
    measure = measure_of(supply, exact, amount, yard)
    middle = round(exact / measure)
    masses = {step * measure for step in range(max(0, middle - reach - 1), middle + reach + 2) if abs(step * measure - exact) <= reach * measure}
    if exact >= USED_UP * there:
        masses.add(there)
    return [(mass, abs(mass - exact)) for mass in sorted(masses) if mass <= there]


def best_by_force(yard, answer, reach):
    """The nearest combination inside the windows and limits: how far away, its distance, its water; nothing where none is."""
    pile = answer["mix"]["mass_kg"]
    choices = [choices_of(supply, exact["mass_kg"], exact, yard, pile, reach) for supply, exact in zip(yard.supplies, answer["amounts"])]
    measure = yard.water_measure(answer)
    exact_water = answer["water_to_add_kg"]
    waters = [step * measure for step in range(max(0, math.floor(exact_water / measure) - reach), math.ceil(exact_water / measure) + reach + 1)
              if abs(step * measure - exact_water) <= reach * measure or step == 0]
    exact_sum = math.fsum(exact["mass_kg"] for exact in answer["amounts"])
    low, _, high = yard.targets["ratio"]
    per_kg = [(supply["matter"]["carbon"], supply["matter"]["nitrogen"]) for supply in yard.supplies]
    found = []
    nearest = math.inf
    for combination in itertools.product(*choices):
        away = math.fsum(one[1] for one in combination) / exact_sum
        if away > nearest + SAME:
            continue
        masses = [one[0] for one in combination]
        carbon = sum(mass * of[0] for mass, of in zip(masses, per_kg))
        nitrogen = sum(mass * of[1] for mass, of in zip(masses, per_kg))
        if not (nitrogen > 0.0 and 0.999 * low <= carbon / nitrogen <= 1.001 * high):  # inside() decides
            continue
        for water in waters:
            of = yard.mix(masses, water)
            if not yard.inside(of, masses, water, answer):
                continue
            nearest = min(nearest, away)
            found.append((away, distance(of, yard.targets), water, masses))
    return [one for one in found if one[0] <= nearest + SAME]


def check_yard(program, folder, where, text):
    path = folder / "yard.toml"
    path.write_text(text)
    answer = program.answer("recipe", str(path))
    whole = answer["whole_containers"]
    # A quarter of the way from the windows' edges to their aims is room for whole measures, down to weighing what is less than two buckets.
    if answer["status"] == "on-target" and answer["distance_from_aim"] <= 0.75:
        check(whole is not None and whole["inside"], f"{where}: {answer['distance_from_aim']} from the aim, and nothing whole is inside")
    if whole is None or answer["status"] == "no-size":
        return "without amounts"
    yard = Yard(text, program)
    masses, water = [told["mass_kg"] for told in whole["amounts"]], whole["water_to_add_kg"]

    own = yard.mix(masses, water)
    told = whole["mix"]
    pairs = [("mass", "mass_kg"), ("dry", "dry_mass_kg"), ("water", "water_kg"), ("carbon", "carbon_kg"), ("nitrogen", "nitrogen_kg"),
             ("ratio", "carbon_to_nitrogen"), ("moisture", "moisture_fraction"), ("volume", "volume_m3"), ("air", "air_space_fraction")]
    for key, name in pairs:
        check(near(told[name], own[key], SAME), f"{where}: {name} of whole containers is {told[name]}, computed apart {own[key]}")
    far = distance(own, yard.targets)
    # C:N of 25 to 35 is ten distances of a fifth of it: the relative error of the mix grows fivefold or so, narrow windows more.
    check(abs(whole["distance_from_aim"] - far) <= 1e-7 * (1.0 + far), f"{where}: distance {whole['distance_from_aim']}, computed apart {far}")
    # What is bought by the container is paid by whole ones, whatever of them goes in.
    paid = []
    for mass, supply, exact in zip(masses, yard.supplies, answer["amounts"]):
        if exact["containers"] and supply["price_per_kg"] > 0.0:
            each = yard.size_of(exact["containers"]["name"]) * supply["matter"]["counted_density"]
            mass = math.ceil(mass / each - 1e-9) * each
        paid.append(mass * supply["price_per_kg"])
    cost = math.fsum(paid)
    check(abs(whole["cost"] - cost) <= SAME * (1.0 + cost), f"{where}: cost {whole['cost']}, computed apart {cost}")
    check_amounts(where, yard, answer)
    measure = yard.water_measure(answer)
    check(is_multiple(water, measure), f"{where}: water {water} is no multiple of {measure}")

    is_inside = yard.inside(own, masses, water, answer)
    check(whole["inside"] == is_inside, f"{where}: inside is {whole['inside']}, computed apart {is_inside}")
    if whole["inside"]:
        afresh = mixed_afresh(program, folder, yard, whole)
        for of, name in (("ratio", "carbon_to_nitrogen"), ("moisture", "moisture_fraction")):
            low, _, high = yard.targets[of]
            check(low * (1.0 - 1e-6) <= afresh[name] <= high * (1.0 + 1e-6), f"{where}: mixed afresh, {name} is {afresh[name]}")
        check(afresh["air_space_fraction"] >= yard.targets["air"] * (1.0 - 1e-6), f"{where}: mixed afresh, air is {afresh['air_space_fraction']}")
        check(near(afresh["volume_m3"], told["volume_m3"], 1e-6), f"{where}: mixed afresh, {afresh['volume_m3']} m3")

    taking_part = sum(exact["mass_kg"] > DUST * answer["mix"]["mass_kg"] for exact in answer["amounts"])
    found = best_by_force(yard, answer, 2 if taking_part <= 4 else 1)
    if not found:
        return "inside" if whole["inside"] else "nothing near is inside"
    by_force, nearest_distance, _, its_masses = min(found)
    check(whole["inside"], f"{where}: nothing inside, but {its_masses} is, {by_force} away")
    exact_masses = [exact["mass_kg"] for exact in answer["amounts"]]
    counts = [supply["fixed"] or exact > DUST * answer["mix"]["mass_kg"] for supply, exact in zip(yard.supplies, exact_masses)]  # dust does not
    away = math.fsum(abs(mass - exact) for mass, exact, part in zip(masses, exact_masses, counts) if part) / math.fsum(exact_masses)
    check(not whole["inside"] or away <= by_force + SAME, f"{where}: {away} away, but {its_masses} is {by_force} away")
    if whole["inside"] and away >= by_force - SAME:
        if yard.goal == "least-water":
            least = min(one[2] for one in found)
            check(water <= least + 1e-6, f"{where}: {water} kg of water, but {least} would do")
        else:
            least = min(one[1] for one in found)
            check(far <= least + 1e-6, f"{where}: as near, but distance {far} for {least}")
    return "inside" if whole["inside"] else "missed"


# Proportions and cards

EVERYDAY = ["leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds", "straw", "wood-chips", "horse-manure", "cardboard", "sawdust",
            "garden-weeds"]
MOST_PARTS = 24
TRIPLES = 30


def parts_of(total, kinds):
    if kinds == 1:
        yield (total,)
        return
    for first in range(1, total - kinds + 2):
        for rest in parts_of(total - first, kinds - 1):
            yield (first, *rest)


def with_best_water(portions):
    dry = mix(portions, 0.0)
    return mix(portions, water_to(dry, DEFAULT_TARGETS["moisture"][1]))


def check_proportion(program, feedstocks):
    where = " and ".join(feedstocks)
    answer = program.answer("recipe", *itertools.chain(*(("--have", feedstock) for feedstock in feedstocks)))
    bucket = container_sizes()["bucket"]
    matters = [program.matter(feedstock) for feedstock in feedstocks]

    def of_parts(parts):
        return with_best_water([(matter, count * bucket / matter["loose"]) for matter, count in zip(matters, parts)])

    best = None
    for total in range(len(feedstocks), MOST_PARTS + 1):
        inside = [(distance(of_parts(parts)), parts) for parts in parts_of(total, len(feedstocks))]
        inside = [one for one in inside if one[0] <= 1.0 + EDGE]
        if inside:
            best = (total, *min(inside))
            break
    told = answer["proportion"]
    check((told is None) == (best is None), f"{where}: told {told}, by force {best}")
    if told is None or best is None:
        check_cards(program, where, answer)
        return
    parts = [part["parts"] for part in told]
    check([part["id"] for part in told] == list(feedstocks), f"{where}: {told} in another order")
    check(all(isinstance(count, int) and count >= 1 for count in parts), f"{where}: {parts} are no whole parts")
    far = distance(of_parts(parts))
    check(far <= 1.0 + EDGE, f"{where}: {parts} is {far} off")
    check(sum(parts) == best[0], f"{where}: {parts}, but {best[2]} is fewer")
    check(far <= best[1] + SAME, f"{where}: {parts} is {far} from the aim, {best[2]} {best[1]}")
    own = of_parts(parts)
    mix = answer["whole_containers"]["mix"]
    check(near(mix["carbon_to_nitrogen"], own["ratio"], SAME) and near(mix["moisture_fraction"], own["moisture"], SAME),
          f"{where}: the mix told is not that of its parts")
    check_cards(program, where, answer)
    greens = [feedstock for feedstock, matter in zip(feedstocks, matters) if matter["class"] in ("must-go", "clippings")]
    for feedstock in greens:
        browns = [matter for matter in matters if matter["class"] == "keeper"]
        container = "grass-catcher" if program.figures(feedstock)["class"] == "clippings" else "bucket"
        greens_in_it = program.matter(feedstock, packing_in(container, feedstock))
        load = (greens_in_it, container_sizes()[container] / greens_in_it["loose"])
        halves = [(brown, count) for brown in browns for count in range(1, 41)]
        would_do = any(distance(with_best_water([load, (brown, 0.5 * count * bucket / brown["loose"])])) <= 0.9 for brown, count in halves)
        has_card = any(card["greens"]["id"] == feedstock for card in answer["cards"])
        check(has_card or not would_do, f"{where}: no card for {feedstock}, though half buckets of one of the browns would do")


# Greens of a week, browns, and the container that their card counts the browns in: the person's own while it is fine enough.
WEEKS = [
    ('"grass-clippings", amount = "2 grass-catcher"', '"leaves-fall", amount = "40 leaf-bag"', "leaf-bag"),
    ('"grass-clippings", amount = "1 riding-mower-bagger"', '"leaves-fall", amount = "40 garbage-bag"', "garbage-bag"),
    ('"grass-clippings", packing = "loose", amount = "6 bucket"', '"leaves-fall", amount = "40 bucket"', "bucket"),
    ('"grass-clippings", amount = "1 grass-catcher"', '"leaves-fall", amount = "3 yd3"', "bucket"),
    ('"grass-clippings", amount = "1 grass-catcher"', '"leaves-fall", amount = "400 lb"', "bucket"),
    ('"grass-clippings", amount = "3 grass-catcher"', '"leaves-fall", amount = "9 bulk-bag"', "bucket"),
    ('"coffee-grounds", amount = "3 bucket"', '"straw", amount = "6 straw-bale"', "straw-bale"),
    ('"kitchen-scraps", amount = "2 kitchen-pail"', '"straw", amount = "6 straw-bale"', "bucket"),
]


def check_weeks(program, folder):
    """A week's greens are what their container holds, as it lies in that; browns come in the container they are counted in."""
    path = folder / "week.toml"
    for greens, browns, expected in WEEKS:
        path.write_text(f"[[supply]]\nfeedstock = {browns.replace(', ', chr(10))}\n[[supply]]\nfeedstock = {greens.replace(', ', chr(10))}\n"
                        'when = { every = "week" }\ntreated = "no"\n')
        answer = program.answer("recipe", str(path))
        here = f"{greens} with {browns}"
        check(len(answer["cards"]) == 1, f"{here}: {len(answer['cards'])} cards")
        for card in answer["cards"]:
            check([one["containers"]["name"] for one in card["browns"]] == [expected], f"{here}: {card['browns']} is not in {expected}")
            check_a_card(program, here, card, "loose" if '"loose"' in greens else None)


def check_a_card(program, here, card, packing=None):
    """Mixed afresh from its counts it is inside; its greens weigh what the mix says that they do."""
    greens = card["greens"]
    said = f"{greens['id']}:{packing}" if packing else greens["id"]
    adds = [f"{said}={greens['containers']['count']!r} {greens['containers']['name']}"]
    adds += [f"{one['id']}={one['containers']['count']!r} {one['containers']['name']}" for one in card["browns"]]
    afresh = program.answer("mix", *itertools.chain(*(("--add", add) for add in adds)), "--water", f"{card['water_to_add_kg']!r} L")["mix"]
    check(25.0 * (1 - 1e-6) <= afresh["carbon_to_nitrogen"] <= 35.0 * (1 + 1e-6) and 0.5 * (1 - 1e-6) <= afresh["moisture_fraction"] <= 0.6 * (1 + 1e-6)
          and afresh["air_space_fraction"] >= 0.35 * (1 - 1e-6), f"{here}: {adds} with {card['water_to_add_kg']} kg of water is {afresh}")
    check(near(afresh["feedstocks"][0]["mass_kg"], greens["mass_kg"], SAME), f"{here}: {greens} weighs {afresh['feedstocks'][0]} in the mix")


def check_cards(program, where, answer):
    """A load, its browns and its water, mixed afresh from the counts, are inside; browns come in half buckets, from ten on in whole ones."""
    for card in answer["cards"]:
        here = f"{where}: the card of {card['greens']['id']}"
        check(card["greens"]["containers"]["count"] == 1.0 and card["browns"], f"{here} is not one load with browns")
        check_a_card(program, here, card)
        for brown in card["browns"]:
            count = brown["containers"]["count"]
            check(brown["containers"]["name"] == "bucket" and is_multiple(count, 0.5 if count < 10.0 else 1.0), f"{here}: {count} buckets")


def main():
    program = Program(sys.argv[1])
    generator = random.Random(20261107)
    ends = {}
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        example = check_yard(program, folder, "quarter-acre", (ROOT / "examples" / "quarter-acre.toml").read_text())
        check(example == "inside", f"quarter-acre: {example}")
        check_weeks(program, folder)
        for place in range(YARDS):
            text = random_yard(generator, program)
            before = len(check.failures)
            end = check_yard(program, folder, f"yard {place}", text)
            ends[end] = ends.get(end, 0) + 1
            if len(check.failures) > before:
                print(text + "\n".join(check.failures[before:]) + "\n")
    for pair in itertools.combinations(EVERYDAY, 2):
        check_proportion(program, pair)
    for triple in generator.sample(list(itertools.combinations(EVERYDAY, 3)), TRIPLES):
        check_proportion(program, triple)

    print("\n".join(check.failures))
    print(f"{YARDS} yards: {json.dumps(ends)}")
    print(f"{check.count} checks, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
