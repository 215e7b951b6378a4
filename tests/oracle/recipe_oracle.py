"""Solves a recipe through all its stages with glpsol on recipe.mod.

The programme itself, its rows and its objectives, is in recipe.mod; here are only the stages,
one after the other, in the order in which the page of the recipe gives them. glpsol works in
exact rational arithmetic, so nothing depends on a solver's tolerance.
"""

import functools
import math
import pathlib
import subprocess
from dataclasses import dataclass, field, replace

MODEL = pathlib.Path(__file__).with_name("recipe.mod")
WINDOWS = ("carbon_to_nitrogen", "moisture", "air_space")
CLASSES_IN_TURN = ("must-go", "clippings", "keeper")

WATER_DENSITY = 1000.0
LEAST_PART = 0.02  # of what is on hand: some pile at all
SWELLING = 4  # times the dry matter of what is limited: how much may be endless,
WIDEST_SWELLING = 1024  # where the other limits want more than that,
SWELLING_TRIED = 0.5  # a part of it, to see whether it is dilution that helps,
SWELLING_IN_VAIN = 1  # and what is left of it where no more than dilution does
WELL_OFF = 1.3  # a distance beyond which dilution alone is no help
FALLS = 1e-6  # a distance that dilution lessens by more than this is lessened by it
AS_GOOD_AS_FULL = 0.999  # of a capacity
STAY_INSIDE = 0.6  # how far clippings and keepers may take a pile that could be nearer
MORE_MONEY = 1.1  # the next dearer recipe may cost so many times the cheapest,
MUCH_NEARER = 0.25  # and is worth showing if its distance falls by this

ROUNDING = 1e-12  # of the numbers that glpsol prints and Python adds up
NEARLY = 1e-9  # of a wanted volume: it is what was asked for
SETTLED = 1e-12  # a distance that falls by no more than this is the least
TELLING = 1e-8  # a fraction or a distance that can change by less than this cannot change
# Exact all along; then, for exact steps have no guard against going round in circles, exact from the last
# basis of floating point on.
WAYS = (("--exact",), ("--nopresol", "--xcheck"))
ENDLESSLY = 2.0  # s, of what takes some milliseconds
GRAINS = 1e9  # in one mass scale; glpsol shows anything below 1e-9 as nothing


@dataclass(frozen=True)
class Slack:
    """By how much an optimum may be missed in later stages."""
    part: float = 1e-7  # of the optimum,
    floor: float = 0.01  # or of this where the optimum is nearer to nothing
    nothing_stays_nothing: bool = True  # no slack in a sum that is nothing, see of_grains

    def of(self, optimum):
        """Of a distance or a used fraction."""
        return self.part * max(abs(optimum), self.floor)

    def of_grains(self, optimum):
        """Of a sum of masses, or of their volume or price.

        Nothing stays nothing: where no water is needed, none may be added later. Any slack in
        it, however little, would count for more in a small pile than in a large one, and the
        next stage, which looks at distances only, would shrink the pile to have more of it.
        """
        if self.nothing_stays_nothing and abs(optimum) <= 1:
            return abs(optimum) * ROUNDING
        return self.part * max(abs(optimum), self.floor * GRAINS)


# ---------------------------------------------------------------------------------------------
# Asking glpsol
# ---------------------------------------------------------------------------------------------

@dataclass(frozen=True)
class Limits:
    """Everything that bounds one solution: the sizes, and what earlier stages reached."""
    fill: float | None = None
    capacity: float | None = None
    most_water: float | None = None
    least_part: float = 0.0
    most_swelling: float | None = None
    distance: dict = field(default_factory=dict)  # window: how far it may be
    least_fraction: dict = field(default_factory=dict)  # id: how much is used at least
    most_cost: float | None = None
    most_spared: float | None = None
    most_added: float | None = None
    most_loose: float | None = None
    least_pile: float | None = None

    def within(self, distance):
        """These limits, with the three windows no farther than one distance."""
        return replace(self, distance=dict.fromkeys(WINDOWS, distance))

    def using(self, fractions):
        """These limits, with at least these fractions used as well; none is ever loosened."""
        larger = {id: max(fraction, self.least_fraction.get(id, 0.0))
                  for id, fraction in fractions.items()}
        return replace(self, least_fraction={**self.least_fraction, **larger})


@dataclass(frozen=True)
class Solution:
    goal: float
    water: float  # in grains
    masses: dict  # id: in grains


@dataclass
class Yard:
    """The supplies that one pile may be made of, and what they are."""
    supplies: list
    fixed: list  # ids
    settling: float
    targets: object
    mass_scale: float  # kg
    slack: Slack

    @property
    def grain(self):
        return self.mass_scale / GRAINS  # kg

    def feedstock(self, id):
        return next(s.feedstock for s in self.supplies if s.feedstock.id == id)

    def raised(self):
        return [s for s in self.supplies if is_raised(s) and s.feedstock.id not in self.fixed]

    def spared(self):
        return [s for s in self.supplies if is_spared(s)]


def is_raised(supply):
    """What a recipe tries to use up."""
    return (not supply.bought and supply.use == "up-to" and supply.amount is not None
            and supply.feedstock.kind in CLASSES_IN_TURN)


def is_limited(supply):
    """What sets the size of a pile that nothing else does."""
    return is_raised(supply) or supply.use == "all"


def is_endless(supply):
    """What there is as much of as anybody wants."""
    return supply.amount is None


def is_spared(supply):
    """What a recipe takes the least of."""
    if supply.bought:
        return True
    return supply.use != "all" and supply.feedstock.kind not in CLASSES_IN_TURN


def moisture_of(feedstock):
    return feedstock.moisture / 100.0


def carbon_of(feedstock):
    return feedstock.carbon / 100.0


def nitrogen_of(feedstock):
    return carbon_of(feedstock) / feedstock.carbon_to_nitrogen


def price_of(supply):
    return (supply.price or 0.0) / supply.unit


def data_set(name, members):
    return f"set {name} := {' '.join(members)};\n" if members else ""


def data_value(name, value):
    return "" if value is None else f"param {name} := {value!r};\n"


def data_table(name, values):
    entries = " ".join(f"[{key}] {value!r}" for key, value in values.items() if value is not None)
    return f"param {name} := {entries};\n" if entries else ""


def yard_data(yard):
    """The part of the data section that stays the same through all stages."""
    by_id = {s.feedstock.id: s for s in yard.supplies}
    materials = {id: s.feedstock for id, s in by_id.items()}

    def table(name, value_of, things):
        return data_table(name, {id: value_of(thing) for id, thing in things.items()})

    def share_of(supply):
        # 30 % and 70 % are a whole, though their nearest binary fractions fall just short of it.
        share = supply.most_of_volume
        return None if share is None else share / 100.0 * (1 + ROUNDING)

    targets = yard.targets
    ratio = targets.carbon_to_nitrogen
    wet = [percent / 100.0 for percent in targets.moisture]
    return "".join([
        "data;\n",
        data_set("SUPPLIES", by_id),
        data_set("FIXED", yard.fixed),
        data_set("RAISED", [s.feedstock.id for s in yard.raised()]),
        data_set("SPARED", [s.feedstock.id for s in yard.spared()]),
        data_set("LIMITED", [s.feedstock.id for s in yard.supplies if is_limited(s)]),
        data_set("ENDLESS", [s.feedstock.id for s in yard.supplies if is_endless(s)]),
        table("moisture", moisture_of, materials),
        table("carbon", carbon_of, materials),
        table("nitrogen", nitrogen_of, materials),
        table("bulk_density", lambda f: f.bulk_density, materials),
        table("particle_density", lambda f: f.particle_density, materials),
        table("price", price_of, by_id),
        table("amount", lambda s: s.amount, by_id),
        table("most_of_volume", share_of, by_id),
        data_value("grain", yard.grain),
        data_value("settling", yard.settling),
        data_table("low", {"carbon_to_nitrogen": ratio[0], "moisture": wet[0],
                           "air_space": targets.least_air / 100.0}),
        data_table("aim", {"carbon_to_nitrogen": ratio[1], "moisture": wet[1]}),
        data_table("high", {"carbon_to_nitrogen": ratio[2], "moisture": wet[2]}),
    ])


def limits_data(limits):
    return "".join([
        data_value("fill", limits.fill),
        data_value("capacity", limits.capacity),
        data_value("most_water", limits.most_water),
        data_value("least_part", limits.least_part),
        data_value("most_swelling", limits.most_swelling),
        data_table("distance", limits.distance),
        data_table("least_fraction", limits.least_fraction),
        data_value("most_cost", limits.most_cost),
        data_value("most_spared", limits.most_spared),
        data_value("most_added", limits.most_added),
        data_value("most_loose", limits.most_loose),
        data_value("least_pile", limits.least_pile),
    ])


class Programme:
    """One yard, ready to be solved for any objective within any limits."""

    calls = 0  # of glpsol, over all programmes

    def __init__(self, yard):
        self.yard = yard
        self.constant_data = yard_data(yard)

    def solve(self, objective, limits, sharing=(), lowered=(), reference=None):
        """The solution, or None where no amounts meet the limits."""
        data = "".join([
            self.constant_data,
            limits_data(limits),
            data_set("SHARING", sharing),
            data_set("LOWERED", lowered),
            data_table("reference", reference or {}),
            data_value("objective", objective),
            "end;\n",
        ])
        return parse_answer(run_glpsol(data))


@functools.lru_cache(maxsize=1000)  # a quarter of what is asked was asked before, of the same pile
def run_glpsol(data):
    Programme.calls += 1
    for way in WAYS:
        try:
            done = subprocess.run(["glpsol", *way, "--model", str(MODEL), "--data", "/dev/stdin"],
                                  input=data, capture_output=True, text=True, check=False, timeout=ENDLESSLY)
        except subprocess.TimeoutExpired:
            continue
        if done.returncode != 0:
            raise RuntimeError(f"glpsol failed:\n{done.stdout}{done.stderr}\nwith the data\n{data}")
        return done.stdout
    raise RuntimeError(f"glpsol goes round in circles with the data\n{data}")


def parse_answer(output):
    if "PROBLEM HAS NO FEASIBLE SOLUTION" in output:
        return None
    if "PROBLEM HAS UNBOUNDED SOLUTION" in output:
        raise Unbounded
    if "OPTIMAL SOLUTION FOUND" not in output:
        raise RuntimeError(f"glpsol found no optimum:\n{output}")
    goal, water, masses = 0.0, 0.0, {}
    for line in output.splitlines():
        match line.split():
            case ["ANSWER", "goal", value]:
                goal = float(value)
            case ["ANSWER", "water", value]:
                water = float(value)
            case ["ANSWER", "mass", id, value]:
                masses[id] = float(value)
    return Solution(goal, water, masses)


class Unbounded(Exception):
    """The objective has no bound: a pile without a size."""


# ---------------------------------------------------------------------------------------------
# Sums and distances of a pile
# ---------------------------------------------------------------------------------------------

@dataclass(frozen=True)
class Sums:
    dry: float
    water: float
    total: float
    carbon: float
    nitrogen: float
    loose: float
    pile: float
    solids_and_water: float


def sums_of(masses, added_water, feedstock_of, settling):
    """The sums of a pile, from its masses by id; in whatever unit of mass they are."""
    dry = {id: (1 - moisture_of(feedstock_of(id))) * x for id, x in masses.items()}
    wet = {id: moisture_of(feedstock_of(id)) * x for id, x in masses.items()}
    loose = math.fsum(x / feedstock_of(id).bulk_density for id, x in masses.items())
    solids = math.fsum(x / feedstock_of(id).particle_density for id, x in dry.items())
    water = math.fsum([*wet.values(), added_water])
    return Sums(
        dry=math.fsum(dry.values()),
        water=water,
        total=math.fsum([*masses.values(), added_water]),
        carbon=math.fsum(carbon_of(feedstock_of(id)) * x for id, x in dry.items()),
        nitrogen=math.fsum(nitrogen_of(feedstock_of(id)) * x for id, x in dry.items()),
        loose=loose,
        pile=settling * loose,
        solids_and_water=solids + water / WATER_DENSITY,
    )


def distance_of_ratio(value, low, aim, high, step_down, step_up):
    """Of C:N or moisture: the least distance whose window holds the value."""
    if abs(value - aim) <= ROUNDING * aim:
        return 0.0
    edge, step, sign = (low, step_down, -1) if value < aim else (high, step_up, 1)
    beyond = sign * (value - edge)
    if beyond > ROUNDING * edge:
        return 1.0 + beyond / step
    if edge == aim:
        return 0.0
    return min(1.0, (value - aim) / (edge - aim))


def distance_of_air(solids_and_water, pile, low):
    """Nothing where there is air enough; else beyond 1, for there is no aim within."""
    missing = solids_and_water - (1 - low) * pile
    return 0.0 if missing <= ROUNDING * pile else 1.0 + missing / (0.05 * pile)


def own_distances(sums, targets):
    wet = [percent / 100.0 for percent in targets.moisture]
    return {
        "carbon_to_nitrogen": distance_of_ratio(
            sums.carbon / sums.nitrogen, *targets.carbon_to_nitrogen, 5.0, 15.0),
        "moisture": distance_of_ratio(sums.water / sums.total, *wet, 0.10, 0.05),
        "air_space": distance_of_air(
            sums.solids_and_water, sums.pile, targets.least_air / 100.0),
    }


# ---------------------------------------------------------------------------------------------
# The two searches that a stage is made of
# ---------------------------------------------------------------------------------------------

def sums_of_solution(programme, solution):
    yard = programme.yard
    return sums_of(solution.masses, solution.water, yard.feedstock, yard.settling)


def first_reference(yard):
    """Sums of a pile of one mass scale, of every supply alike; only a start."""
    alike = {s.feedstock.id: GRAINS / len(yard.supplies) for s in yard.supplies}
    return references(sums_of(alike, 0.0, yard.feedstock, yard.settling))


def references(sums):
    return {"carbon_to_nitrogen": sums.nitrogen, "moisture": sums.total, "air_space": sums.pile}


@dataclass(frozen=True)
class Nearest:
    distance: float
    reference: dict  # sums of a pile that is so near


def least_distance(programme, limits, lowered=WINDOWS):
    """The least distance that the lowered windows can have in common.

    Each trial asks for the greatest margin by which some pile beats the distance reached so far;
    the distance of that pile is the next trial's (Dinkelbach's method, which closes in faster
    and faster). No margin left: the distance is the least. None if no pile meets the limits.
    """
    nearest = Nearest(math.inf, first_reference(programme.yard))
    trial = 2.0  # outside every window, where each of them gives way
    for _ in range(60):
        solution = try_distance(programme, limits, lowered, trial, nearest.reference)
        if solution is None:
            return None
        sums = sums_of_solution(programme, solution)
        own = own_distances(sums, programme.yard.targets)
        attained = max(own[window] for window in lowered)
        if attained >= nearest.distance - SETTLED:
            return nearest
        nearest = Nearest(attained, references(sums))
        trial = attained
    raise RuntimeError("the distance does not settle")


def try_distance(programme, limits, lowered, distance, reference):
    """The pile that beats a distance by the greatest margin."""
    bounds = {**limits.distance, **dict.fromkeys(lowered, distance)}
    return programme.solve("margin", replace(limits, distance=bounds), lowered=lowered,
                           reference=reference)


def keep_distance(programme, limits, windows, distance):
    kept = dict.fromkeys(windows, distance + programme.yard.slack.of(distance))
    return replace(limits, distance={**limits.distance, **kept})


def can_fall(programme, limits, window, free, nearest):
    """Whether one window can be nearer while the others that are free stay where they are."""
    others = dict.fromkeys((w for w in free if w != window), nearest.distance + ROUNDING)
    trial = replace(limits, distance={**limits.distance, **others})
    solution = try_distance(programme, trial, [window], nearest.distance, nearest.reference)
    return solution is not None and -solution.goal > TELLING


def lower_distances(programme, limits):
    """The three windows as near as they can be, the farthest first.

    Returns the farthest distance, and limits that keep all three.
    """
    free = list(WINDOWS)
    farthest = None
    while free:
        nearest = least_distance(programme, limits, free)
        farthest = nearest.distance if farthest is None else farthest
        if nearest.distance <= 1 and "air_space" in free:
            # Within 1 there is air enough, and its own distance is nothing.
            limits = keep_distance(programme, limits, ["air_space"], 0.0)
            free.remove("air_space")
        stuck = [w for w in free if not can_fall(programme, limits, w, free, nearest)]
        if free and not stuck:
            raise RuntimeError("every window can fall below their least common distance")
        limits = keep_distance(programme, limits, stuck, nearest.distance)
        free = [w for w in free if w not in stuck]
    return farthest, limits


def fair_use(programme, limits, group):
    """The used fractions of a group as large as can be, the smallest first.

    Returns the smallest fraction, and limits that keep all of them.
    """
    free = [s.feedstock.id for s in group]
    amount = {s.feedstock.id: s.amount / programme.yard.grain for s in group}
    smallest = None
    while free:
        solution = programme.solve("fraction", limits, sharing=free)
        fraction = -solution.goal
        smallest = fraction if smallest is None else smallest
        stuck = []
        for id in free:
            others = {other: fraction - ROUNDING for other in free if other != id}
            if solution.masses[id] / amount[id] > fraction + TELLING:
                continue  # it exceeds the smallest already
            if fraction < 1 - TELLING:
                alone = programme.solve("fraction", limits.using(others), sharing=[id])
                if -alone.goal > fraction + TELLING:
                    continue
            stuck.append(id)
        if not stuck:
            raise RuntimeError("every fraction can exceed the smallest")
        limits = limits.using({id: fraction - programme.yard.slack.of(fraction) for id in stuck})
        free = [id for id in free if id not in stuck]
    return smallest, limits


# ---------------------------------------------------------------------------------------------
# The stages
# ---------------------------------------------------------------------------------------------

@dataclass
class Answer:
    """What is compared with the programme. Masses in kg, volumes in m3."""
    status: str
    amounts: dict = field(default_factory=dict)  # id: kg, in the order of the supplies
    water: float = 0.0
    distance: float | None = None
    volume: float | None = None
    missing: float | None = None
    carbon_to_nitrogen: float | None = None
    moisture: float | None = None
    stages: dict = field(default_factory=dict)  # name: optimum
    everything_in: tuple | None = None  # distance, water
    next_dearer: tuple | None = None  # distance, least cost, most cost
    mass_scale: float = 1.0


def mass_scale_of(problem):
    with_amount = [s.amount for s in problem.supplies if s.amount is not None]
    if with_amount:
        return math.fsum(with_amount)
    densest = max(s.feedstock.bulk_density for s in problem.supplies)
    sizes = [size for size in (problem.fill, problem.capacity) if size is not None]
    return densest * max(sizes) / problem.settling


def yard_of(problem, default_targets, slack):
    return Yard(supplies=list(problem.supplies),
                fixed=[s.feedstock.id for s in problem.supplies if s.use == "all"],
                settling=problem.settling,
                targets=problem.targets or default_targets,
                mass_scale=mass_scale_of(problem),
                slack=slack)


def has_something_to_use(problem):
    return any(is_limited(s) for s in problem.supplies)


def least_part_of(problem, capacity):
    """Some pile at all: 2 % of what is on hand, under a capacity at most half of it full of the lightest supply."""
    on_hand = sum(s.amount for s in problem.supplies if is_raised(s))
    if capacity is None or not on_hand > 0:
        return LEAST_PART
    lightest = min(s.feedstock.bulk_density for s in problem.supplies)
    return min(LEAST_PART, 0.5 * capacity / problem.settling * lightest / on_hand)


def hard_limits(problem):
    """The limits with the wanted fill, and the same without it."""
    something = has_something_to_use(problem)
    fill, capacity = problem.fill, problem.capacity
    if not something and fill is None:
        fill, capacity = capacity, None  # the capacity stands in for a fill
    can_swell = fill is None and something and any(is_endless(s) for s in problem.supplies)
    any_fixed = any(s.use == "all" for s in problem.supplies)
    with_fill = Limits(fill=fill, capacity=capacity, most_water=problem.most_water,
                       least_part=0.0 if any_fixed or fill is not None else least_part_of(problem, capacity),
                       most_swelling=SWELLING if can_swell else None)
    without = replace(with_fill, fill=None, least_part=0.0 if any_fixed else least_part_of(problem, capacity))
    return with_fill, without


def solve(problem, default_targets, slack=Slack()):
    """All of one problem."""
    if not problem.supplies:
        return Answer("nothing-on-hand")
    if not has_something_to_use(problem) and problem.fill is None and problem.capacity is None:
        return Answer("no-size")
    programme = Programme(yard_of(problem, default_targets, slack))
    answer = solve_stages(programme, problem)
    answer.mass_scale = programme.yard.mass_scale
    answer.everything_in = everything_in(problem, programme.yard)
    return answer


def solve_stages(programme, problem):
    limits, without_fill = hard_limits(problem)
    limits = with_swelling_enough(programme, limits)
    slack = programme.yard.slack
    fill = limits.fill
    beyond_reach = False
    if programme.solve("water", limits) is None:
        largest = largest_pile(programme, without_fill) if fill is not None else 0.0
        if not 0 < largest < fill * (1 + NEARLY):
            return Answer("limits-clash")
        # A fill that wants all there is may miss it by the last figure of its sum.
        beyond_reach = largest < fill * (1 - NEARLY)
        limits = without_fill if beyond_reach else replace(limits, fill=largest)

    nearest = least_distance(programme, limits)
    if nearest is None:
        return Answer("limits-clash")
    nearest, limits = without_vain_swelling(programme, limits, nearest.distance)
    cap = 1.0 if nearest <= 1 + ROUNDING else nearest + slack.of(nearest)
    status = "not-enough" if beyond_reach else "on-target" if cap == 1.0 else "nearest"
    stages = {"least-t": nearest}

    goal = "largest-pile" if beyond_reach else problem.goal
    hard = limits
    limits = reach_goal(programme, goal, hard, cap, stages)

    if hard.most_swelling is not None:
        limits = least_size(programme, limits, cap, stages)

    limits = replace(limits, distance={})
    stages["least-t-again"], limits = lower_distances(programme, limits)
    solution = make_unique(programme, limits)

    answer = describe(programme, solution, status, stages)
    if beyond_reach:
        answer.missing = fill - answer.volume
    if goal == "cheapest":
        answer.next_dearer = next_dearer(programme, hard, stages)
    return answer


def with_swelling_enough(programme, limits):
    """The limits, with more swelling by doublings where the others ask for it; as they are where none is enough."""
    wider = limits
    while wider.most_swelling is not None and wider.most_swelling <= WIDEST_SWELLING:
        if programme.solve("water", wider) is not None:
            return wider
        wider = replace(wider, most_swelling=2 * wider.most_swelling)
    return limits


def without_vain_swelling(programme, limits, nearest):
    """The least distance and the limits, with less swelling where it only dilutes.

    Where shares leave no pile with so little of what is endless, the limits stay as they are.
    """
    def least(swelling):
        found = least_distance(programme, replace(limits, most_swelling=swelling))
        return math.inf if found is None else found.distance

    if limits.most_swelling is None or nearest <= WELL_OFF:
        return nearest, limits
    if least(SWELLING_TRIED * limits.most_swelling) <= nearest + FALLS:
        return nearest, limits
    again = least(SWELLING_IN_VAIN)
    if again == math.inf:
        return nearest, limits
    return again, replace(limits, most_swelling=SWELLING_IN_VAIN)


def largest_pile(programme, without_fill):
    """The largest volume within the hard limits in m3; nothing where they clash."""
    try:
        largest = programme.solve("pile", without_fill)
    except Unbounded:
        return math.inf
    return -largest.goal * programme.yard.grain if largest else 0.0


def reach_goal(programme, goal, limits, cap, stages):
    """The second stage. Writes its optima into stages; returns limits that keep them."""
    if goal == "use-most":
        return use_most(programme, limits, cap, stages)
    limits = reach_sum(programme, goal, limits, cap, stages)
    return limits if goal == "largest-pile" else use_most(programme, limits, cap, stages)


def reach_sum(programme, goal, limits, cap, stages):
    """A goal that is a sum."""
    objective = {"cheapest": "cost", "least-bought": "spared", "least-water": "water",
                 "largest-pile": "pile"}[goal]
    optimum = programme.solve(objective, limits.within(cap)).goal
    stages[goal] = abs(optimum) * programme.yard.grain
    most = optimum + programme.yard.slack.of_grains(optimum)
    match goal:
        case "cheapest":
            return replace(limits, most_cost=most)
        case "least-bought":
            return replace(limits, most_spared=most)
        case "least-water":
            return replace(limits, most_added=most)
        case _:
            return replace(limits, least_pile=-most)


def inner_bound(programme, limits, cap):
    """The distance that a pile on target may have, so as not to end on the edge of a window."""
    if cap != 1.0:
        return cap
    nearest = least_distance(programme, limits).distance
    return max(STAY_INSIDE, nearest + programme.yard.slack.of(nearest))


def use_most(programme, limits, cap, stages):
    """Class after class, those that spoil first."""
    for kind in CLASSES_IN_TURN:
        group = [s for s in programme.yard.raised() if s.feedstock.kind == kind]
        if not group:
            continue
        bound = cap if kind == "must-go" and not fills_the_room(programme, limits, cap, group) else inner_bound(programme, limits, cap)
        stages[kind], within = fair_use(programme, limits.within(bound), group)
        limits = replace(within, distance={})
    return limits


def fills_the_room(programme, limits, cap, group):
    """Whether a group as fully used as can be leaves no room."""
    if limits.capacity is None:
        return False
    _, within = fair_use(programme, limits.within(cap), group)
    least = programme.solve("loose", within).goal * programme.yard.grain * programme.yard.settling
    return least >= AS_GOOD_AS_FULL * limits.capacity


def least_size(programme, limits, cap, stages):
    """The least loose volume that keeps all so far; what is limited sets it."""
    bound = inner_bound(programme, limits, cap)
    least = programme.solve("loose", limits.within(bound)).goal
    stages["size"] = least * programme.yard.grain
    return replace(limits, most_loose=least + programme.yard.slack.of_grains(least))


def make_unique(programme, limits):
    """The last stage: of all that is as good, one recipe."""
    slack = programme.yard.slack
    _, limits = fair_use(programme, limits, programme.yard.raised())
    spared = programme.solve("spared", limits).goal
    limits = tightened(limits, most_spared=spared + slack.of_grains(spared))
    added = programme.solve("water", limits).goal
    limits = tightened(limits, most_added=added + slack.of_grains(added))
    return programme.solve("mass", limits)


def tightened(limits, **bounds):
    """These limits with upper bounds that only ever become smaller."""
    now = {name: getattr(limits, name) for name in bounds}
    return replace(limits, **{name: bound if now[name] is None else min(bound, now[name])
                              for name, bound in bounds.items()})


def describe(programme, solution, status, stages):
    yard = programme.yard
    amounts = {id: x * yard.grain for id, x in solution.masses.items()}
    water = solution.water * yard.grain
    sums = sums_of(amounts, water, yard.feedstock, yard.settling)
    return Answer(status, amounts, water,
                  distance=max(own_distances(sums, yard.targets).values()),
                  volume=sums.pile,
                  carbon_to_nitrogen=sums.carbon / sums.nitrogen,
                  moisture=sums.water / sums.total,
                  stages=stages)


# ---------------------------------------------------------------------------------------------
# The two recipes beside it
# ---------------------------------------------------------------------------------------------

def everything_in(problem, yard):
    """Distance and water of a pile of all that is on hand and could spoil or be used up."""
    inside = [replace(s, most_of_volume=None) for s in problem.supplies if is_limited(s)]
    if not inside:
        return None
    all_of_it = Programme(replace(yard, supplies=inside,
                                  fixed=[s.feedstock.id for s in inside]))
    limits = Limits(most_water=problem.most_water)
    if least_distance(all_of_it, limits) is None:
        return None
    _, limits = lower_distances(all_of_it, limits)
    solution = all_of_it.solve("water", limits)
    own = own_distances(sums_of_solution(all_of_it, solution), yard.targets)
    return max(own.values()), solution.water * yard.grain


def next_dearer(programme, limits, stages):
    """Distance, least cost and most cost of the nearest recipe for a little more money."""
    grain = programme.yard.grain
    most_cost = stages["cheapest"] / grain * MORE_MONEY
    if most_cost <= 0:
        return None
    limits = replace(limits, most_cost=most_cost)
    distance = least_distance(programme, limits).distance
    if stages["least-t-again"] - distance < MUCH_NEARER:
        return None
    least = programme.solve("cost", limits.within(
        distance + programme.yard.slack.of(distance))).goal
    return distance, least * grain, most_cost * grain
