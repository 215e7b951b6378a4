"""Problems for the recipe: what is at hand, what is wanted, and what is asked for.

Every feedstock and every yard here is made up for testing, and named so, except where a comment
says that a figure is known from elsewhere. Percentages and ratios are kept as they are written
in a file, so that the programme under test and the oracle start from the same digits.
"""

import random
from dataclasses import dataclass, field, replace


@dataclass(frozen=True)
class Feedstock:
    """What a material is. Moisture and carbon in percent, densities in kg/m3."""
    id: str
    kind: str  # must-go | clippings | keeper | supplement | mineral
    moisture: float
    carbon: float
    carbon_to_nitrogen: float
    bulk_density: float
    particle_density: float = 1400.0


@dataclass(frozen=True)
class Supply:
    """How much of a material there is, and how it may be used. Masses in kg."""
    feedstock: Feedstock
    amount: float | None = None
    use: str = "up-to"  # all | up-to | unlimited
    most_of_volume: float | None = None  # percent
    bought: bool = False
    price: float | None = None  # for one unit
    unit: float = 1.0  # kg


@dataclass(frozen=True)
class Targets:
    """Low, aim and high; moisture and air space in percent."""
    carbon_to_nitrogen: tuple = (25.0, 30.0, 35.0)
    moisture: tuple = (50.0, 55.0, 60.0)
    least_air: float = 35.0


@dataclass(frozen=True)
class Problem:
    name: str
    supplies: tuple
    goal: str = "use-most"
    fill: float | None = None  # m3
    capacity: float | None = None  # m3
    settling: float = 1.0
    most_water: float | None = None  # kg
    targets: Targets | None = None  # None: nothing is written, so the defaults hold
    expected: dict = field(default_factory=dict)  # figures known beforehand, see known_figures


def scaled(problem, factor):
    """The same yard with everything that has a size made so many times larger."""
    def times(value):
        return None if value is None else value * factor

    supplies = tuple(replace(s, amount=times(s.amount)) for s in problem.supplies)
    return replace(problem, supplies=supplies, fill=times(problem.fill),
                   capacity=times(problem.capacity), most_water=times(problem.most_water))


def reversed_supplies(problem):
    """The same yard with its supplies written down the other way round."""
    return replace(problem, supplies=problem.supplies[::-1])


# ---------------------------------------------------------------------------------------------
# Feedstocks, made up, of plausible size
# ---------------------------------------------------------------------------------------------

LEAVES = Feedstock("leaves-a", "keeper", 30.0, 48.0, 50.0, 100.0)
OAK = Feedstock("leaves-b", "keeper", 22.5, 51.0, 62.0, 80.0, 1380.0)
STRAW = Feedstock("straw-a", "keeper", 12.0, 45.0, 80.0, 60.0, 1300.0)
SAWDUST = Feedstock("sawdust-a", "keeper", 38.0, 52.0, 400.0, 260.0, 1450.0)
CHIPS = Feedstock("chips-a", "keeper", 40.0, 50.0, 220.0, 300.0, 1420.0)
CLIPPINGS = Feedstock("clippings-a", "clippings", 80.0, 44.0, 17.0, 200.0)
DRY_CLIPPINGS = Feedstock("clippings-b", "clippings", 64.0, 43.0, 20.5, 130.0, 1450.0)
SCRAPS = Feedstock("scraps-a", "must-go", 72.0, 46.0, 16.0, 450.0)
COFFEE = Feedstock("coffee-a", "must-go", 60.0, 50.0, 20.0, 400.0)
PEELS = Feedstock("scraps-b", "must-go", 81.0, 44.5, 27.0, 520.0, 1350.0)
UREA = Feedstock("urea-a", "mineral", 0.0, 20.0, 20.0 / 46.0, 750.0, 1330.0)
BLOOD_MEAL = Feedstock("blood-meal-a", "supplement", 10.0, 46.0, 46.0 / 14.5, 600.0)
HORSE_MANURE = Feedstock("manure-a", "supplement", 68.0, 41.0, 24.0, 480.0, 1500.0)

# A well-known worked example of grass and leaves (Cornell, the page on C/N ratio), given from
# memory: grass 77 % moisture, 45 % carbon, 2.4 % nitrogen; leaves 35 %, 50 %, 0.75 %. The bulk
# densities are not part of it and are made up.
EXAMPLE_GRASS = Feedstock("grass-m", "clippings", 77.0, 45.0, 45.0 / 2.4, 210.0)
EXAMPLE_LEAVES = Feedstock("leaves-m", "keeper", 35.0, 50.0, 50.0 / 0.75, 110.0)


def have(feedstock, amount, **more):
    return Supply(feedstock, amount, **more)


def fixed(feedstock, amount, **more):
    return Supply(feedstock, amount, use="all", **more)


def unlimited(feedstock, **more):
    return Supply(feedstock, use="unlimited", **more)


def buy(feedstock, amount=None, price=None, unit=1.0, **more):
    return Supply(feedstock, amount, bought=True, price=price, unit=unit, **more)


# ---------------------------------------------------------------------------------------------
# Problems by hand
# ---------------------------------------------------------------------------------------------

def known_figures():
    """Two recipes whose answers were known, rounded, before there was any programme."""
    return [
        Problem("known: leaves for ten kilograms of grass",
                (have(EXAMPLE_LEAVES, 60.0), fixed(EXAMPLE_GRASS, 10.0)),
                most_water=0.0,
                expected={"status": "nearest", "distance": (1.084, 5e-4), "leaves-m": (6.52, 5e-3),
                          "carbon_to_nitrogen": (36.3, 0.05), "moisture": (0.604, 5e-4)}),
        Problem("known: a thousand litres of leaves, twenty of clippings",
                (have(LEAVES, 100.0), have(CLIPPINGS, 4.0)),
                expected={"status": "on-target", "distance": (0.679, 5e-4),
                          "volume": (0.0504, 5e-5), "carbon_to_nitrogen": (33.4, 0.05)}),
    ]


def every_goal():
    """The same piles, asked for in each of the four ways."""
    yard = (have(LEAVES, 120.0), have(CLIPPINGS, 60.0), have(SCRAPS, 25.0),
            buy(STRAW, price=6.5, unit=20.0), buy(HORSE_MANURE, price=2.0, unit=25.0))
    stock = (have(OAK, 90.0), have(STRAW, 30.0), have(DRY_CLIPPINGS, 70.0), have(COFFEE, 18.0),
             have(BLOOD_MEAL, 3.0))
    problems = []
    for goal in ("use-most", "cheapest", "least-bought", "least-water"):
        problems.append(Problem(f"goal {goal}, a filled bin", yard, goal, fill=0.8))
        problems.append(Problem(f"goal {goal}, a settled capacity", stock, goal, capacity=0.9,
                                settling=0.7))
    return problems


def classes_in_turn():
    return [
        Problem("two of every class",
                (have(SCRAPS, 20.0), have(COFFEE, 15.0), have(CLIPPINGS, 50.0),
                 have(DRY_CLIPPINGS, 30.0), have(LEAVES, 80.0), have(STRAW, 40.0))),
        Problem("two of every class, a small bin",
                (have(SCRAPS, 20.0), have(COFFEE, 15.0), have(CLIPPINGS, 50.0),
                 have(DRY_CLIPPINGS, 30.0), have(LEAVES, 80.0), have(STRAW, 40.0)),
                capacity=0.5, settling=0.8),
        Problem("keepers alone are too brown", (have(LEAVES, 100.0), have(STRAW, 20.0))),
        Problem("scraps alone are too wet and too green", (have(SCRAPS, 30.0), have(PEELS, 12.0))),
        Problem("everything fits",
                (have(LEAVES, 40.0), have(CLIPPINGS, 30.0), have(COFFEE, 4.0))),
        Problem("supplements on hand are spared",
                (have(LEAVES, 100.0), have(UREA, 5.0), have(HORSE_MANURE, 200.0))),
        Problem("urea beside leaves", (have(LEAVES, 100.0), have(UREA, 2.0)), fill=0.6),
    ]


def fixed_and_unlimited():
    return [
        Problem("all the scraps must go in",
                (fixed(SCRAPS, 22.0), have(LEAVES, 70.0), have(CLIPPINGS, 40.0))),
        Problem("all the scraps, leaves without end",
                (fixed(SCRAPS, 22.0), unlimited(LEAVES), have(DRY_CLIPPINGS, 12.0)), capacity=0.7),
        Problem("leaves and clippings without end fill a bin",
                (unlimited(LEAVES), unlimited(CLIPPINGS)), fill=1.0),
        Problem("leaves and clippings without end, a capacity is a fill",
                (unlimited(LEAVES), unlimited(CLIPPINGS), buy(STRAW, price=5.0, unit=12.5)),
                capacity=0.65, settling=0.85),
        Problem("everything fixed",
                (fixed(LEAVES, 35.0), fixed(CLIPPINGS, 20.0), fixed(HORSE_MANURE, 10.0))),
        Problem("everything fixed, too wet",
                (fixed(LEAVES, 5.0), fixed(CLIPPINGS, 40.0), fixed(SCRAPS, 12.0))),
    ]


TEN_BUCKETS_OF_SAWDUST = 0.1892705892 * 260.0  # kg


def limited_and_endless():
    """What there is little of sets the size, and what there is no end of only brings it right."""
    sawdust = have(SAWDUST, TEN_BUCKETS_OF_SAWDUST)
    yard = (sawdust, unlimited(CLIPPINGS), unlimited(LEAVES))
    shop = (have(SCRAPS, 30.0), have(COFFEE, 10.0), unlimited(LEAVES), buy(STRAW, price=6.5, unit=20.0),
            buy(SAWDUST, price=1.2, unit=10.0))
    problems = []
    for goal in ("use-most", "cheapest", "least-bought", "least-water"):
        problems.append(Problem(f"ten buckets of sawdust, {goal}", yard, goal))
        problems.append(Problem(f"scraps and a shop, {goal}", shop, goal))
    return problems + [
        Problem("ten buckets of sawdust, a small bin", yard, capacity=0.6, settling=0.8),
        Problem("ten buckets of sawdust, all of it", (replace(sawdust, use="all"), *yard[1:])),
        Problem("a wood pile is diluted in vain",
                (have(replace(SAWDUST, id="sawdust-b", carbon_to_nitrogen=900.0), 60.0), unlimited(LEAVES))),
        Problem("diluted in vain, but a share wants it so",
                (have(SAWDUST, 60.0, most_of_volume=20.0), unlimited(OAK)), most_water=0.0),
        Problem("the share of an endless supply holds it down",
                (have(CHIPS, 80.0), unlimited(CLIPPINGS, most_of_volume=25.0), unlimited(STRAW))),
        Problem("urea without end", (have(OAK, 90.0), unlimited(UREA))),
        Problem("manure without end is taken the least of",
                (have(LEAVES, 90.0), unlimited(HORSE_MANURE), unlimited(CLIPPINGS)), "least-bought"),
        Problem("air is wanting in a pile of peels without end",
                (have(PEELS, 40.0), unlimited(COFFEE)), settling=0.45,
                targets=Targets(least_air=50.0), most_water=10.0),
    ]


def buying():
    return [
        Problem("straw for wet scraps, cheapest",
                (have(SCRAPS, 80.0), have(LEAVES, 10.0), buy(STRAW, price=7.0, unit=18.0),
                 buy(SAWDUST, price=1.2, unit=10.0)), "cheapest", fill=0.7),
        Problem("only so many bales for sale",
                (have(SCRAPS, 50.0), have(PEELS, 60.0), buy(STRAW, 20.0, 7.0, 18.0),
                 buy(CHIPS, 60.0, 3.0, 50.0)), "cheapest", fill=0.5),
        Problem("nothing costs anything",
                (have(LEAVES, 60.0), have(CLIPPINGS, 50.0), buy(STRAW, 40.0)), "cheapest",
                fill=0.6),
        Problem("little money buys a better pile",
                (have(LEAVES, 200.0), buy(HORSE_MANURE, price=9.0, unit=100.0),
                 buy(UREA, price=20.0, unit=10.0), buy(CLIPPINGS, price=1.0, unit=20.0)),
                "cheapest", fill=1.2),
        Problem("cheap but not near, dear and near",
                (have(STRAW, 100.0), have(LEAVES, 60.0), buy(HORSE_MANURE, price=4.0, unit=100.0),
                 buy(COFFEE, price=4.3, unit=100.0)), "cheapest", fill=1.0),
        Problem("all is bought, least of it", (buy(LEAVES), buy(CLIPPINGS), buy(COFFEE, 15.0)),
                "least-bought", fill=0.5),
        Problem("least bought without a size",
                (have(LEAVES, 60.0), have(CLIPPINGS, 3.0), have(COFFEE, 1.0),
                 fixed(SCRAPS, 6.0), buy(STRAW)), "least-bought"),
    ]


def shares_and_water():
    return [
        Problem("not more than a third clippings",
                (have(LEAVES, 90.0), have(CLIPPINGS, 90.0, most_of_volume=30.0),
                 have(COFFEE, 20.0, most_of_volume=12.5))),
        Problem("shares sum to one exactly",
                (have(LEAVES, 90.0, most_of_volume=62.5),
                 have(CLIPPINGS, 90.0, most_of_volume=25.0),
                 have(COFFEE, 40.0, most_of_volume=12.5))),
        Problem("shares of thirty and seventy per cent",
                (have(LEAVES, 90.0, most_of_volume=70.0),
                 have(SCRAPS, 90.0, most_of_volume=30.0))),
        Problem("shares sum to one and fill the bin",
                (unlimited(LEAVES, most_of_volume=75.0),
                 unlimited(CLIPPINGS, most_of_volume=25.0)), fill=1.0, settling=0.9),
        Problem("no water to add", (have(LEAVES, 90.0), have(CLIPPINGS, 45.0), have(SCRAPS, 12.0)),
                most_water=0.0),
        Problem("little water for dry leaves",
                (have(OAK, 90.0), have(STRAW, 25.0), have(BLOOD_MEAL, 8.0)), most_water=40.0),
        Problem("little water, least of it",
                (have(OAK, 90.0), have(STRAW, 25.0), have(DRY_CLIPPINGS, 80.0)), "least-water",
                most_water=60.0, fill=0.9),
    ]


def every_other_status():
    return [
        Problem("not enough for the bin", (have(LEAVES, 40.0), have(CLIPPINGS, 25.0)), fill=1.5),
        Problem("not enough, and not near",
                (have(LEAVES, 40.0), have(STRAW, 10.0, most_of_volume=20.0)), "cheapest",
                fill=2.0, settling=0.9),
        Problem("not enough, shares hold it down",
                (have(LEAVES, 200.0, most_of_volume=70.0), have(CLIPPINGS, 30.0),
                 have(SCRAPS, 30.0, most_of_volume=20.0)), "least-bought", fill=3.0),
        Problem("not enough beside a fixed supply",
                (fixed(SCRAPS, 15.0), have(LEAVES, 50.0), have(DRY_CLIPPINGS, 20.0)),
                "least-water", fill=2.5),
        Problem("not enough to buy", (buy(LEAVES, 30.0, 1.0), buy(CLIPPINGS, 30.0, 1.5)),
                "cheapest", fill=1.0),
        Problem("the fixed supply is larger than the bin",
                (fixed(LEAVES, 80.0), have(CLIPPINGS, 20.0)), fill=0.5),
        Problem("the fixed supply is larger than the capacity",
                (fixed(LEAVES, 80.0), have(CLIPPINGS, 20.0)), capacity=0.5),
        Problem("shares sum to less than one",
                (have(LEAVES, 80.0, most_of_volume=50.0),
                 have(CLIPPINGS, 20.0, most_of_volume=40.0))),
        Problem("a fixed supply beyond its own share",
                (fixed(SCRAPS, 30.0, most_of_volume=20.0), have(LEAVES, 2.0))),
        Problem("nobody says how much", (unlimited(LEAVES), unlimited(CLIPPINGS))),
        Problem("all to be bought, no size", (buy(LEAVES), buy(CLIPPINGS, price=2.0)),
                "cheapest"),
        Problem("nothing at all", ()),
        Problem("nothing at all, and a bin", (), fill=1.0),
    ]


def changed_targets():
    yard = (have(LEAVES, 90.0), have(CLIPPINGS, 70.0), have(SCRAPS, 20.0), have(CHIPS, 60.0))
    return [
        Problem("browner and drier targets", yard,
                targets=Targets((30.0, 38.0, 42.0), (40.0, 48.0, 52.0), 40.0)),
        Problem("aim on the low edge", yard, targets=Targets((25.0, 25.0, 35.0),
                                                             (50.0, 55.0, 60.0), 35.0)),
        Problem("aims on the high edges", yard, "least-water",
                targets=Targets((22.0, 30.0, 30.0), (45.0, 60.0, 60.0), 30.0), fill=0.7),
        Problem("air is short in a settled pile",
                (have(SCRAPS, 90.0), have(COFFEE, 40.0), have(SAWDUST, 70.0),
                 have(CHIPS, 30.0)), settling=0.55, targets=Targets(least_air=45.0)),
        Problem("air alone is out of reach",
                (have(SAWDUST, 80.0), have(COFFEE, 90.0)), settling=0.5,
                targets=Targets(least_air=60.0), fill=0.2),
        Problem("no air is asked for", (have(PEELS, 60.0), have(SAWDUST, 40.0)), settling=0.6,
                targets=Targets(least_air=0.0)),
    ]


def tight_and_degenerate():
    leaves_again = replace(LEAVES, id="leaves-c")
    clippings_again = replace(CLIPPINGS, id="clippings-c")
    return [
        Problem("the same leaves twice",
                (have(LEAVES, 60.0), have(leaves_again, 20.0), have(CLIPPINGS, 30.0))),
        Problem("the same clippings and the same leaves twice, a capacity",
                (have(LEAVES, 50.0), have(leaves_again, 50.0), have(CLIPPINGS, 35.0),
                 have(clippings_again, 10.0)), capacity=0.6),
        Problem("a spoon of coffee beside a mountain of leaves",
                (have(LEAVES, 100000.0), have(COFFEE, 0.1), have(CLIPPINGS, 40000.0))),
        Problem("a mountain of leaves for a bucket",
                (have(LEAVES, 50000.0), have(CLIPPINGS, 0.5), have(SCRAPS, 0.3)), fill=0.01),
        Problem("one supply that is on the aim by itself",
                (have(Feedstock("ready-a", "keeper", 55.0, 45.0, 30.0, 300.0), 50.0),)),
        Problem("a pile that can only be filled in one way",
                (have(LEAVES, 30.0), have(CLIPPINGS, 20.0)), fill=0.4),
        Problem("nearly the same leaves",
                (have(LEAVES, 60.0), have(replace(LEAVES, id="leaves-d", moisture=30.2), 60.0),
                 have(CLIPPINGS, 30.0)), fill=0.9),
        Problem("one kilogram of everything",
                tuple(have(f, 1.0) for f in (LEAVES, OAK, STRAW, CLIPPINGS, DRY_CLIPPINGS,
                                             SCRAPS, COFFEE, PEELS))),
    ]


# ---------------------------------------------------------------------------------------------
# Problems at random, the same ones every time
# ---------------------------------------------------------------------------------------------

# Low and high of moisture, carbon, C:N and bulk density of each class; plausible, not published.
RANDOM_SEED = 3

RANGES = {
    "must-go": ((55, 85), (42, 50), (12, 30), (300, 600)),
    "clippings": ((55, 85), (40, 46), (13, 25), (100, 300)),
    "keeper": ((8, 45), (44, 52), (35, 200), (50, 300)),
    "supplement": ((5, 75), (38, 48), (4, 25), (300, 700)),
    "mineral": ((0, 3), (15, 30), (0.4, 2), (600, 1000)),
}


def random_feedstock(rng, number, kind):
    moisture, carbon, ratio, bulk = (rng.uniform(*r) for r in RANGES[kind])
    return Feedstock(f"{kind}-{number}", kind, moisture, carbon, ratio, bulk,
                     rng.uniform(1250, 1550))


def random_supply(rng, feedstock, everything_has_an_amount):
    kind = feedstock.kind
    amount = rng.uniform(5, 150) * (0.05 if kind in ("supplement", "mineral") else 1.0)
    share = rng.uniform(15, 60) if rng.random() < 0.2 else None
    way = rng.random()
    if way < 0.25 or kind == "mineral":
        has_amount = everything_has_an_amount or rng.random() < 0.6
        return buy(feedstock, amount if has_amount else None, rng.uniform(1, 20),
                   rng.uniform(5, 40), most_of_volume=share)
    if way < 0.32 and not everything_has_an_amount:
        return unlimited(feedstock, most_of_volume=share)
    if way < 0.40:
        return fixed(feedstock, amount * 0.3)
    return have(feedstock, amount, most_of_volume=share)


GOALS = ("use-most", "cheapest", "least-bought", "use-most", "least-water")
SIZES = ("fill", "capacity", "none")


def random_problem(rng, number):
    goal, size = GOALS[number % len(GOALS)], SIZES[number % len(SIZES)]
    kinds = ["keeper", rng.choice(("must-go", "clippings"))]
    kinds += rng.choices(list(RANGES), (3, 3, 4, 1, 1), k=rng.randint(0, 6))
    feedstocks = [random_feedstock(rng, i, kind) for i, kind in enumerate(kinds)]
    rng.shuffle(feedstocks)
    # A pile without a size could grow without end towards its least distance, and never be there.
    supplies = [random_supply(rng, f, size == "none") for f in feedstocks]
    # And there must be something on hand to make a pile of.
    first_keeper = next(i for i, f in enumerate(feedstocks) if f.kind == "keeper")
    supplies[first_keeper] = have(feedstocks[first_keeper], rng.uniform(20, 120))
    return Problem(f"random {number}", tuple(supplies), goal,
                   fill=rng.uniform(0.2, 1.2) if size == "fill" else None,
                   capacity=rng.uniform(0.3, 1.5) if size == "capacity" else None,
                   settling=rng.choice((1.0, 1.0, 0.85, 0.6)),
                   most_water=rng.choice((None, None, rng.uniform(0, 80))))


def random_problems(count, seed=RANDOM_SEED):
    rng = random.Random(seed)
    return [random_problem(rng, number) for number in range(1, count + 1)]


ENDLESS_SEED = 8
GOALS_IN_TURN = ("use-most", "cheapest", "least-bought", "least-water")


def endless_supply(rng, feedstock):
    share = rng.uniform(20, 70) if rng.random() < 0.2 else None
    if rng.random() < 0.4:
        price = rng.choice((None, rng.uniform(1, 20)))
        return buy(feedstock, None, price, 1.0 if price is None else rng.uniform(5, 40),
                   most_of_volume=share)
    return unlimited(feedstock, most_of_volume=share)


def limited_supply(rng, feedstock):
    amount = 10 ** rng.uniform(0.5, 2.5)  # from a small bucket to a pick-up's load
    if rng.random() < 0.2:
        return fixed(feedstock, amount)
    return have(feedstock, amount, most_of_volume=rng.uniform(15, 60) if rng.random() < 0.15 else None)


def other_supply(rng, feedstock):
    """With an amount, and neither limited nor endless."""
    if feedstock.kind in ("supplement", "mineral") and rng.random() < 0.5:
        return have(feedstock, rng.uniform(0.2, 8))
    return buy(feedstock, rng.uniform(5, 60), rng.uniform(1, 20), rng.uniform(5, 40))


def endless_problem(rng, number):
    def some(make, kinds, weights, most, least=1):
        chosen = rng.choices(kinds, weights, k=rng.randint(least, most))
        return [make(rng, random_feedstock(rng, rng.randrange(10 ** 6), kind)) for kind in chosen]

    supplies = some(limited_supply, ("must-go", "clippings", "keeper"), (3, 2, 4), 3)
    supplies += some(endless_supply, tuple(RANGES), (2, 4, 5, 1, 1), 3)
    if rng.random() < 0.3:
        supplies += some(other_supply, tuple(RANGES), (1, 1, 2, 2, 1), 2)
    rng.shuffle(supplies)
    amount = sum(s.amount for s in supplies if s.use == "all" or not s.bought and s.amount)
    return Problem(f"endless {number}", tuple(supplies), GOALS_IN_TURN[number % 4],
                   capacity=amount / rng.uniform(50, 600) if number % 3 == 0 else None,
                   settling=rng.choice((1.0, 1.0, 0.85, 0.6)),
                   most_water=rng.choice((None, None, rng.uniform(0, amount))))


def endless_problems(count, seed=ENDLESS_SEED):
    rng = random.Random(seed)
    return [endless_problem(rng, number) for number in range(1, count + 1)]


RANDOM, ENDLESS = 30, 184
A_SAMPLE = 7, 14  # of them, for the time they take


def all_problems(random=RANDOM, endless=ENDLESS):
    return (known_figures() + every_goal() + classes_in_turn() + fixed_and_unlimited()
            + limited_and_endless() + buying() + shares_and_water() + every_other_status() + changed_targets()
            + tight_and_degenerate() + random_problems(random)
            + endless_problems(endless))
