"""What is said to help must help: each way put into the yard and solved again is on target, a little less of it is not, and none is left out that
would do. Held-back yards are invented at random from a fixed seed.

usage: check_help.py PROGRAM
"""
import functools
import json
import math
import pathlib
import random
import re
import sys
import tempfile
import tomllib

from arithmetic import DEFAULT_TARGETS, GALLON, ROOT, Program, cubic_metres, distance, kilograms, mix, water_to, yard_text

SUMMER, WINTER = "2027-06-15", "2026-12-15"  # when lawns are mown, and when not

PROBLEMS = 50
SAME = 1e-9  # relative; the answer prints all digits
MARGIN = 1e-4  # what help.cpp says it stays inside the edge by, so that an amount told in five figures is still inside
LESS = 0.98

GREENS = ["grass-clippings", "kitchen-scraps", "coffee-grounds", "horse-manure", "garden-weeds", "cow-manure", "vegetable-scraps", "tea-leaves"]
BROWNS = ["leaves-fall", "leaves-fall", "straw", "wood-chips", "sawdust", "cardboard", "pine-needles", "corn-stalks"]

failures = []
checks = 0
ways = {}


def check(right, what):
    global checks
    checks += 1
    if not right:
        failures.append(what)
    return right


def near(found, expected, relative):
    return abs(found - expected) <= relative * abs(expected)


@functools.cache
def easy_to_get():
    with open(ROOT / "materials" / "feedstocks.toml", "rb") as file:
        return [row["id"] for row in tomllib.load(file)["feedstock"] if row.get("easy_to_get")]


# Held-back yards: supplies and wishes


def some(generator, kinds, low, high):
    feedstock = generator.choice(kinds)
    how = generator.random()
    amount = f"{generator.randint(2 * low, 2 * high) / 2:g} {generator.choice(['bucket', 'leaf-bag', 'grass-catcher', 'bucket'])}"
    if how < 0.15:
        amount = f"{generator.randint(10 * low, 10 * high)} {generator.choice(['lb', 'kg'])}"
    return {"feedstock": feedstock, "amount": amount}


def leaves_only(generator):
    supply = {"feedstock": "leaves-fall", "packing": generator.choice(["loose", "bagged", "collected"]), "amount": f"{generator.randint(4, 60) / 2:g} leaf-bag"}
    if generator.random() < 0.4:
        supply["shredded"] = True
    return [supply] + [some(generator, BROWNS, 1, 10)] * generator.randint(0, 1), {}


def greens_only(generator):
    return [some(generator, GREENS, 1, 20) for _ in range(generator.randint(1, 3))], {}


def too_much_of_one(generator):
    kinds = [BROWNS, GREENS]
    generator.shuffle(kinds)
    return [some(generator, kinds[0], 15, 40), some(generator, kinds[1], 1, 4)] + [some(generator, kinds[0], 1, 10)] * generator.randint(0, 1), {}


def too_wet(generator):
    """In balance by C:N or nearly so, and wetter than the window."""
    return [{"feedstock": "grass-clippings", "amount": f"{generator.randint(10, 40)} bucket"},
            {"feedstock": "leaves-fall", "packing": "bagged", "amount": f"{generator.randint(20, 80) / 2:g} bucket"},
            {"feedstock": generator.choice(["sawdust", "cardboard", "wood-chips"]), "amount": f"{generator.randint(1, 12) / 2:g} bucket"}], {}


def too_wet_and_in_balance(generator):
    """Clippings with so many moist leaves that C:N is right."""
    buckets = generator.randint(8, 30)
    return [{"feedstock": "grass-clippings", "packing": "loose", "amount": f"{buckets} bucket"},
            {"feedstock": "leaves-fall", "packing": "bagged", "feel": "clumps", "amount": f"{buckets * generator.uniform(1.2, 3.2):.1f} bucket"}], {}


def short_of_water(generator):
    return ([some(generator, BROWNS, 10, 30), some(generator, GREENS, 3, 15)], {"most_water": f"{generator.choice([0, 1, 2, 5])} gal"})


def balanced_but_dry(generator):
    """Leaves and a meal that are right by C:N, with less water than they want."""
    bags = generator.randint(4, 20)
    return ([{"feedstock": "leaves-fall", "packing": "bagged", "amount": f"{bags} leaf-bag"},
             {"feedstock": "alfalfa-meal", "amount": f"{bags * generator.uniform(3.0, 6.0):.1f} lb", "use": "all"}],
            {"most_water": f"{generator.choice([0, 1, 3])} gal"})


def larger_than_the_supply(generator):
    return ([some(generator, BROWNS, 2, 10), some(generator, GREENS, 1, 8)][:generator.randint(1, 2)],
            {"fill": f"{generator.choice([0.5, 1, 1.5, 2, 3])} yd3"})


def with_shares(generator):
    supplies = [some(generator, BROWNS, 4, 20), some(generator, GREENS, 4, 20)]
    generator.choice(supplies)["most_of_volume"] = f"{generator.choice([5, 10, 20, 30, 50])} %"
    return supplies, {}


def short_of_room(generator):
    """Leaves and clippings in balance and more of them than the pile is to be."""
    buckets = generator.randint(20, 40)
    return ([{"feedstock": "leaves-fall", "packing": "bagged", "amount": f"{2 * buckets} bucket"},
             {"feedstock": "kitchen-scraps", "amount": f"{buckets * generator.uniform(0.45, 0.6):.1f} bucket"}],
            {generator.choice(["capacity", "fill"]): f"{generator.choice([0.3, 0.6])} yd3"})


def beyond_help(generator):
    """So settled that whatever goes in has too little air."""
    return [some(generator, BROWNS, 4, 20), some(generator, GREENS, 4, 20)], {"settling": 0.1}


KINDS = [short_of_room, beyond_help, leaves_only, greens_only, too_much_of_one, too_wet, too_wet_and_in_balance, short_of_water, balanced_but_dry, larger_than_the_supply,
         with_shares]


def random_problem(generator, kind):
    supplies, wishes = kind(generator)
    supplies = [dict(supply) for supply in supplies]
    wishes = {"goal": generator.choice(["use-most"] * 4 + ["least-water", "cheapest"]), **wishes}
    if "fill" not in wishes and generator.random() < 0.15:
        wishes["capacity"] = f"{generator.choice([0.3, 1, 2])} yd3"
    if "settling" not in wishes and generator.random() < 0.1:
        wishes["settling"] = generator.choice([0.6, 0.8])
    if generator.random() < 0.15:
        supplies.append({"feedstock": generator.choice(["leaves-fall", "straw", "sawdust"]), "bought": True})
    targets = {"carbon_to_nitrogen": {"low": "22:1", "aim": "27:1", "high": "30:1"}} if generator.random() < 0.1 else {}
    return supplies, wishes, targets


# What the ways come to, apart


def number(text):
    return float(text.rstrip(" %").split(":")[0]) / (100.0 if text.endswith("%") else 1.0)


class Problem:
    """A yard's text and its parts; everything on hand is what is not bought and no supplement that may go in or not."""

    def __init__(self, program, folder, supplies, wishes, targets):
        self.program, self.folder = program, folder
        self.supplies, self.wishes, self.targets = supplies, wishes, targets
        classes = {supply["feedstock"]: program.figures(supply["feedstock"])["class"] for supply in supplies}
        self.fill = "fill" in wishes
        self.everything = [{**supply, "use": "all"} for supply in supplies
                           if "amount" in supply and not supply.get("bought")
                           and (supply.get("use") == "all" or classes[supply["feedstock"]] not in ("supplement", "mineral"))]
        self.kept_wishes = {key: value for key, value in wishes.items() if key in ("most_water", "settling")}
        self.most_water = number(wishes["most_water"].split()[0]) * GALLON * 1000.0 if "most_water" in wishes else math.inf
        self.own_targets = dict(DEFAULT_TARGETS)
        if targets:
            self.own_targets["ratio"] = tuple(number(targets["carbon_to_nitrogen"][end]) for end in ("low", "aim", "high"))

    def solved(self, supplies, wishes):
        path = self.folder / "yard.toml"
        path.write_text(yard_text(supplies, wishes, self.targets))
        return self.program.answer("recipe", str(path), "--today", SUMMER)

    def first(self):
        return self.solved(self.supplies, self.wishes)

    def beside(self, feedstock):
        """The first supply of a feedstock on hand: more of it lies as that does."""
        return next((supply for supply in self.supplies if supply["feedstock"] == feedstock), {"feedstock": feedstock})

    def has(self, feedstock):
        return any(supply["feedstock"] == feedstock for supply in self.supplies)

    def as_supply(self, addition, mass):
        beside = self.beside(addition["id"])
        like = {key: value for key, value in beside.items() if key in ("feedstock", "packing", "shredded", "feel")}
        return {**like, "amount": f"{mass!r} kg", "use": "all"}

    def with_additions(self, additions, masses, wishes=None):
        """Everything on hand and the additions as fixed amounts; of a wished size, what is on hand as far as wanted."""
        added = [self.as_supply(addition, mass) for addition, mass in zip(additions, masses)]
        if self.fill:
            return self.solved(self.supplies + added, {**self.wishes, **(wishes or {})})
        return self.solved(self.everything + added, {**self.kept_wishes, **(wishes or {})})

    # By own arithmetic, of everything on hand

    def portions(self):
        listed = []
        for supply in self.everything:
            matter = self.matter_of(supply)
            number_of, unit = supply["amount"].split()
            listed.append((matter, kilograms(float(number_of), unit, matter["counted_density"])))
        return listed

    def matter_of(self, supply):
        moisture = None
        if supply.get("feel"):
            moisture = self.feel(supply["feel"])
        return self.program.matter(supply["feedstock"], supply.get("packing"), supply.get("shredded", False), moisture)

    @staticmethod
    def feel(word):
        with open(ROOT / "materials" / "rough.toml", "rb") as file:
            rows = tomllib.load(file)["rough"]["feel"]
        (row,) = [row for row in rows if row["id"] == word]
        return number(row["moisture_wet_basis"]["typical"])

    def least_distance(self, portions):
        """Over the water there is: what misses the moisture and what misses the air move apart in it, so their greater one has one least."""
        settling = self.wishes.get("settling", 1.0)
        dry = mix(portions, 0.0, settling)
        low, high = 0.0, min(self.most_water, water_to(dry, 0.99))

        def far(water):
            return distance(mix(portions, water, settling), self.own_targets)

        for _ in range(50):
            third = (high - low) / 3.0
            if far(low + third) <= far(high - third):
                high -= third
            else:
                low += third
        return far((low + high) / 2.0)

    def keeps_shares(self, portions):
        loose = math.fsum(mass * matter["loose"] for matter, mass in portions)
        return all("most_of_volume" not in supply or mass * matter["loose"] <= number(supply["most_of_volume"]) * loose * (1.0 + SAME)
                   for supply, (matter, mass) in zip(self.everything, portions))


def check_first_named(where, answer):
    """What stands beside each limit is the first way that adds something; beside the want of room nothing."""
    adding = [way["additions"] for way in answer["help"] if not way["wilting"]]
    for held in answer["held_back_by"]:
        expected = [] if held["limit"] == "capacity" or not adding else adding[0]
        check(held["what_would_help"] == expected, f"{where}: beside {held['limit']} stands {held['what_would_help']}, not {expected}")


def check_nothing_helps(where, problem, answer):
    """No way is told only where none is wanted or none there is: the pile has its size, all fits inside but for the room, or even all that is easy
    to get does not do."""
    if answer["help"]:
        return
    if problem.fill and answer["status"] == "on-target":
        ways["none: it has its size"] = ways.get("none: it has its size", 0) + 1
        return
    if not problem.fill:
        alone = problem.solved(problem.everything, problem.kept_wishes)
        if alone["status"] == "on-target":
            ways["none: only room is wanted"] = ways.get("none: only room is wanted", 0) + 1
            return
    ids = easy_to_get()
    bought = [{"feedstock": feedstock, "bought": True} for feedstock in ids]
    more = [{**problem.beside(supply["feedstock"]), "bought": True} for supply in problem.supplies if supply["feedstock"] not in ids]
    for supply in more:
        supply.pop("amount", None)
        supply.pop("use", None)
        supply.pop("most_of_volume", None)
    supplies = (problem.supplies if problem.fill else problem.everything) + bought + more
    whole = problem.solved(supplies, problem.wishes if problem.fill else problem.kept_wishes)
    ways["none: nothing helps"] = ways.get("none: nothing helps", 0) + 1
    check(whole["status"] != "on-target", f"{where}: no way is told, but all that is easy to get makes it on target")


def check_way(where, problem, way):
    additions = way["additions"]
    if way["wilting"]:
        return check_wilting(where, problem, way)
    if [addition["id"] for addition in additions] == ["water"]:
        ways["water"] = ways.get("water", 0) + 1
        again = problem.with_additions([], [], {"most_water": f"{additions[0]['mass_kg']!r} L"})
        check(again["status"] == "on-target", f"{where}: with {additions} it is {again['status']}, {again['distance_from_aim']} off")
        return
    kind = "several" if len(additions) > 1 else "one"
    ways[kind] = ways.get(kind, 0) + 1
    told = ", ".join(f"{addition['mass_kg']:.6g} kg of {addition['id']}" for addition in additions)
    masses = [addition["mass_kg"] for addition in additions]
    check(all(mass > 0.0 for mass in masses), f"{where}: {told} is nothing")
    again = problem.with_additions(additions, masses)
    check(again["status"] == "on-target", f"{where}: with {told} it is {again['status']}, {again['distance_from_aim']} off")
    for addition in additions:
        is_there = any(supply["feedstock"] == addition["id"] for supply in problem.supplies)
        check(addition["on_hand"] == is_there, f"{where}: {addition['id']} on hand: {addition['on_hand']}")
        density = 1.0 / problem.matter_of(problem.as_supply(addition, 1.0))["loose"]
        check(near(addition["mass_kg"] / addition["volume_m3"], density, SAME), f"{where}: {addition['id']} at {density} kg/m3 is not {told}")
        for supply in problem.supplies:  # a largest share is of all of it
            if supply["feedstock"] != addition["id"] or "most_of_volume" not in supply:
                continue
            share = sum(part["share_of_volume"] for part in way["mix"]["feedstocks"] if part["id"] == addition["id"])
            check(share <= number(supply["most_of_volume"]) * (1.0 + 1e-6),
                  f"{where}: with {told} it is {share:.3f} of the volume, at most {supply['most_of_volume']} are allowed")
    if not problem.fill:
        rounded = [addition["rounded_kg"] for addition in additions]
        again = problem.with_additions(additions, rounded)
        check(again["status"] == "on-target", f"{where}: {told} rounded to {rounded} is {again['status']}, {again['distance_from_aim']} off")
        check(all(more >= mass * (1.0 - SAME) for more, mass in zip(rounded, masses)), f"{where}: {told} rounded down to {rounded}")
    if not problem.fill and len(additions) == 1:
        check_least(where, problem, additions[0], told)


def check_least(where, problem, addition, told):
    """A fiftieth less is off target, or so near the edge that it is within the margin which the told amount keeps to it."""
    less = LESS * addition["mass_kg"]
    portions = [*problem.portions(), (problem.matter_of(problem.as_supply(addition, 1.0)), less)]
    far = problem.least_distance(portions)
    keeps_shares = problem.keeps_shares(portions)
    check(far > 1.0 - MARGIN - 1e-7 or not keeps_shares, f"{where}: {LESS} of {told} would do too, {far} from the aim")
    if far > 1.0 + 1e-6 or not keeps_shares:
        again = problem.with_additions([addition], [less])
        by_what_rots = again["status"] == "on-target" and again["carbon_counted"] == "what-rots"  # chips that must go in: less would do so
        check(again["status"] != "on-target" or by_what_rots, f"{where}: {LESS} of {told} is on target too, {again['distance_from_aim']} off")


def check_wilting(where, problem, way):
    wilting = way["wilting"]
    ways["wilting"] = ways.get("wilting", 0) + 1
    portions = problem.portions()
    places = [place for place, supply in enumerate(problem.everything) if supply["feedstock"] == wilting["id"]]
    place = max(places, key=lambda place: portions[place][1])
    left = portions[place][1] - wilting["water_lost_kg"]
    wet = wilting["moisture_fraction"]
    dry_before = portions[place][1] * portions[place][0]["dry"]
    check(near(left * (1.0 - wet), dry_before, 1e-9), f"{where}: clippings at {wet} of {left} kg are not the {dry_before} kg of dry matter there were")
    supplies = [dict(supply) for supply in problem.everything]
    supplies[place].update({"amount": f"{left!r} kg", "dried": {"wet": "1000 g", "dry": f"{1000.0 * (1.0 - wet)!r} g"}})
    supplies[place].pop("feel", None)
    again = problem.solved(supplies, problem.kept_wishes)
    check(again["status"] == "on-target", f"{where}: wilted to {wet} it is {again['status']}, {again['distance_from_aim']} off")
    # A fiftieth less water lost is too wet still, or within the margin.
    supplies[place].update({"amount": f"{portions[place][1] - LESS * wilting['water_lost_kg']!r} kg"})
    wetter = 1.0 - dry_before / (portions[place][1] - LESS * wilting["water_lost_kg"])
    supplies[place]["dried"] = {"wet": "1000 g", "dry": f"{1000.0 * (1.0 - wetter)!r} g"}
    matter = problem.program.matter(wilting["id"], problem.everything[place].get("packing"), False, wetter)
    portions[place] = (matter, dry_before / (1.0 - wetter))
    far = problem.least_distance(portions)
    # the window's high end less 1e-4 in moisture, which is 0.002 of a window of five points
    check(far > 1.0 - 0.0021, f"{where}: {LESS} of the water lost would do too, {far} from the aim")
    if far > 1.0 + 1e-6:
        again = problem.solved(supplies, problem.kept_wishes)
        check(again["status"] != "on-target", f"{where}: {LESS} of the water lost is on target too")


def check_complete(where, problem, answer):
    """None is left out: a feedstock on hand or easy to get, of which some amount brings everything well inside, is told."""
    if problem.fill or not answer["help"]:
        return
    told = {addition["id"] for way in answer["help"] for addition in way["additions"] if len(way["additions"]) == 1}
    base = problem.portions()
    there = math.fsum(mass for _, mass in base)
    low, _, high = problem.own_targets["ratio"]
    for feedstock in {*easy_to_get(), *(supply["feedstock"] for supply in problem.supplies)}:
        if feedstock in told:
            continue
        # Who allows only so much of something does not want more of it.
        if any(supply["feedstock"] == feedstock and "most_of_volume" in supply for supply in problem.supplies):
            continue
        # A supplement is told against a want of nitrogen only, and not for what is mostly wood, browner than 100.
        everything = mix(base, 0.0)["ratio"]
        if problem.program.is_supplement(feedstock) and not high < everything <= 100.0:
            continue
        matter = problem.matter_of(problem.as_supply({"id": feedstock}, 1.0))
        for step in range(120):
            portions = [*base, (matter, there * 1e-3 * 1.1**step)]
            ratio = mix(portions, 0.0)["ratio"]
            if low < ratio < high and problem.keeps_shares(portions) and problem.least_distance(portions) <= 0.99:
                check(False, f"{where}: {portions[-1][1]:.4g} kg of {feedstock} would do, and is not told")
                break
        else:
            check(True, "")


def check_screen(program, bags):
    """The screen tells no fewer containers than help: from ten on it prints whole ones."""
    asked = ["recipe", "--have", f"leaves-fall:collected={bags} leaf-bag", "--today", SUMMER]
    screen = program.text(*asked)
    for way in program.answer(*asked)["help"]:
        for addition in way["additions"]:
            said = re.search(rf"- {addition['id'].replace('-', ' ')}: (?:([0-9]+) )?(?:([0-9]+)/([0-9]+) )?buckets", screen)
            if not addition["containers"] or not said:
                continue
            printed = float(said[1] or 0) + (float(said[2]) / float(said[3]) if said[2] else 0.0)
            least = addition["containers"]["count"]
            check(printed >= least * (1.0 - SAME), f"{asked[2]}: {printed:g} buckets of {addition['id']} on the screen, {least:.6g} are the least")


def check_winter(program):
    """Nobody is sent for clippings in December, whether or not there is a size, but where lawns grow all year."""
    climate = '[climate]\nlike = "frost-free"\n'
    for amount in ("leaves", "20 bags of leaves"):
        for day, there in ((SUMMER, True), (WINTER, False)):
            help = program.answer("recipe", "--have", amount, "--today", day)["help"]
            named = any(one["id"] == "grass-clippings" for way in help for one in way["additions"])
            check(named == there, f"{amount} on {day}: clippings are {'' if named else 'not '}asked for")
    with tempfile.TemporaryDirectory() as name:
        path = pathlib.Path(name) / "yard.toml"
        path.write_text('[[supply]]\nfeedstock = "leaves"\namount = "20 bags"\n' + climate, encoding="utf-8")
        help = program.answer("recipe", str(path), "--today", WINTER)["help"]
        check(any(one["id"] == "grass-clippings" for way in help for one in way["additions"]), "no clippings where it never freezes")


def main():
    program = Program(sys.argv[1])
    check_winter(program)
    generator = random.Random(4)
    held_back = 0
    tried = 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        while held_back < PROBLEMS:
            kind = KINDS[tried % len(KINDS)]
            tried += 1
            problem = Problem(program, folder, *random_problem(generator, kind))
            answer = problem.first()
            if not answer["held_back_by"]:
                continue
            held_back += 1
            where = f"{kind.__name__} {tried}"
            before = len(failures)
            check_first_named(where, answer)
            check_nothing_helps(where, problem, answer)
            for way in answer["help"]:
                check_way(where, problem, way)
            check_complete(where, problem, answer)
            if len(failures) > before:
                print(yard_text(problem.supplies, problem.wishes, problem.targets) + "\n".join(failures[before:]) + "\n")
        # Named without amounts and alone: a cubic yard of it is what is told of.
        for feedstock in ("leaves-fall", "straw", "grass-clippings", "kitchen-scraps"):
            alone = Problem(program, folder, [{"feedstock": feedstock, "amount": "1 yd3"}], {}, {})
            answer = program.answer("recipe", "--have", feedstock, "--today", SUMMER)
            check(answer["status"] == "no-size" and answer["help"], f"{feedstock} alone: {answer['status']} and {len(answer['help'])} ways")
            for way in answer["help"]:
                check_way(f"{feedstock} alone", alone, way)

    for bags in range(2, 42, 2):
        check_screen(program, bags)

    print("\n".join(failures))
    print(f"{held_back} held-back yards of {tried}; ways: {json.dumps(ways)}")
    print(f"{checks} checks, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
