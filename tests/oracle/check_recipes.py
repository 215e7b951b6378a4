#!/usr/bin/env python3
"""Holds the recipes of heapwright against the oracle, figure by figure.

    check_recipes.py HEAPWRIGHT            compares all problems, but of a long series only a sample
    check_recipes.py HEAPWRIGHT --all      the whole of the series too
    check_recipes.py HEAPWRIGHT --only W   those whose name has W in it
    check_recipes.py HEAPWRIGHT --keep D   and leaves the files of each problem in the folder D
    check_recipes.py --self-test           solves with the oracle alone, and prints its answers

An answer may differ from the oracle's by a part in a million. Some piles leave it open to more
than that how much of a supply goes in, since each stage leaves the next a little slack: the
oracle solves every problem again with nearly no slack, and what that alters is allowed as well.
"""

import argparse
import contextlib
import dataclasses
import decimal
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field

import problems
import recipe_oracle

TOLERANCE = 1e-6
NEAR_NOTHING = 0.01  # of the mass scale: what is smaller is compared as if it were so large
STILL_KEPT = 20.0  # times as much as two optima may differ
BALANCE = 1e-12
HARDLY = 0.3 - 1e-6  # beyond a window's edge nobody can tell
MUCH_LARGER = 2.0
NEARLY_NO_SLACK = recipe_oracle.Slack(part=1e-8, floor=1e-5)
DEFAULT_TARGETS = problems.Targets()
SCALE_FACTOR = 1000.0
WITHOUT_A_PILE = ("no-size", "nothing-on-hand", "limits-clash")


# ---------------------------------------------------------------------------------------------
# Writing a problem down
# ---------------------------------------------------------------------------------------------

def digits(value):
    """All the digits of a number, never in powers of ten."""
    return f"{decimal.Decimal(repr(float(value))):f}"


def quantity(value, unit):
    return f'"{digits(value)} {unit}"'


def ratio(value):
    return f'"{digits(value)}:1"'


def table_text(header, entries):
    lines = [f"{key} = {value}" for key, value in entries if value is not None]
    return "\n".join([header, *lines]) + "\n"


def maybe(value, unit):
    return None if value is None else quantity(value, unit)


def feedstock_text(feedstock):
    return table_text("[[feedstock]]", [
        ("id", f'"{feedstock.id}"'),
        ("name", f'"{feedstock.id}"'),
        ("class", f'"{feedstock.kind}"'),
        ("moisture_wet_basis", quantity(feedstock.moisture, "%")),
        ("carbon_dry_basis", quantity(feedstock.carbon, "%")),
        ("carbon_to_nitrogen", ratio(feedstock.carbon_to_nitrogen)),
        ("particle_density", quantity(feedstock.particle_density, "kg/m3")),
        ("bulk_density", quantity(feedstock.bulk_density, "kg/m3")),
    ])


def supply_text(supply):
    return table_text("[[supply]]", [
        ("feedstock", f'"{supply.feedstock.id}"'),
        ("amount", maybe(supply.amount, "kg")),
        ("use", None if supply.bought else f'"{supply.use}"'),
        ("most_of_volume", maybe(supply.most_of_volume, "%")),
        ("bought", "true" if supply.bought else None),
        ("price", None if supply.price is None else digits(supply.price)),
        ("unit", None if supply.price is None else quantity(supply.unit, "kg")),
    ])


def window_text(values, write):
    low, aim, high = (write(value) for value in values)
    return f"{{ low = {low}, aim = {aim}, high = {high} }}"


def targets_text(targets):
    def percent(value):
        return quantity(value, "%")

    return table_text("[targets]", [
        ("carbon_to_nitrogen", window_text(targets.carbon_to_nitrogen, ratio)),
        ("moisture_wet_basis", window_text(targets.moisture, percent)),
        ("air_space", f"{{ low = {percent(targets.least_air)} }}"),
    ])


def materials_text(problem):
    feedstocks = [supply.feedstock for supply in problem.supplies] or [problems.LEAVES]
    return "\n".join(feedstock_text(feedstock) for feedstock in feedstocks)


def yard_text(problem):
    parts = [] if problem.targets is None else [targets_text(problem.targets)]
    parts.append(table_text("[recipe]", [
        ("goal", f'"{problem.goal}"'),
        ("fill", maybe(problem.fill, "m3")),
        ("capacity", maybe(problem.capacity, "m3")),
        ("settling", digits(problem.settling)),
        ("most_water", maybe(problem.most_water, "kg")),
    ]))
    parts += [supply_text(supply) for supply in problem.supplies]
    return "\n".join(parts)


# ---------------------------------------------------------------------------------------------
# Running the programme
# ---------------------------------------------------------------------------------------------

class Failed(Exception):
    """The programme gave no recipe to compare."""


def run(program, problem, folder, name):
    materials, yard = folder / f"{name}.materials.toml", folder / f"{name}.yard.toml"
    materials.write_text(materials_text(problem))
    yard.write_text(yard_text(problem))
    try:
        done = subprocess.run([program, "recipe", yard, "--materials", materials, "--json"],
                              capture_output=True, text=True, check=False)
    except OSError as error:
        raise Failed(f"it does not start: {error}") from error
    if done.returncode not in (0, 1):  # 1: no answer within the limits, the nearest is printed
        raise Failed(f"exit code {done.returncode}: {done.stderr.strip()}")
    try:
        return json.loads(done.stdout)
    except json.JSONDecodeError as error:
        raise Failed(f"not JSON: {error}: {done.stdout[:200]!r}") from error


def file_name(problem):
    return re.sub(r"[^a-z0-9]+", "-", problem.name.lower()).strip("-")


# ---------------------------------------------------------------------------------------------
# Comparing
# ---------------------------------------------------------------------------------------------

@dataclass
class Differences:
    """What does not agree, in words."""
    found: list = field(default_factory=list)

    def same(self, what, got, wanted):
        if got != wanted:
            self.found.append(f"{what}: {got!r}, the oracle has {wanted!r}")
        return got == wanted

    def near(self, what, got, wanted, allowed):
        """Whether two numbers agree; no number agrees with no number only."""
        if got is None or wanted is None:
            self.same(what, got, wanted)
        elif not abs(got - wanted) <= allowed:
            self.found.append(f"{what}: {got!r}, the oracle has {wanted!r}; "
                              f"they differ by {abs(got - wanted):.3g}, allowed {allowed:.3g}")

    def within(self, what, got, low, high):
        if got is None or not low <= got <= high:
            self.found.append(f"{what}: {got!r}, the oracle has {low!r} to {high!r}")


@dataclass(frozen=True)
class Expected:
    """The oracle's answer, and how much of each figure is left open by the slack."""
    answer: recipe_oracle.Answer
    tighter: recipe_oracle.Answer  # with nearly no slack
    windows: str = "targets"  # that it was found within

    def left_open(self, figure):
        """How much a figure moves as the slack goes; a little more, to be fair."""
        here, there = figure(self.answer), figure(self.tighter)
        return 0.0 if here is None or there is None else 2 * abs(here - there)

    def pile_mass(self):
        """What a mass is compared against."""
        total = math.fsum([*self.answer.amounts.values(), self.answer.water])
        return max(total, NEAR_NOTHING * self.answer.mass_scale)

    def amounts_left_open(self):
        """As a part of the pile, the most that is left open of any amount or of the water."""
        figures = [lambda a, id=id: a.amounts[id] for id in self.answer.amounts]
        figures.append(lambda a: a.water)
        return max(self.left_open(figure) for figure in figures) / self.pile_mass()


def expect(problem):
    """The oracle's answer."""
    answer, windows = largest_good(problem)
    return Expected(answer, within(problem, windows, NEARLY_NO_SLACK), windows)


def largest_good(problem):
    """The answer inside the windows or nearest to them; or that within wider ones which is at least
    twice the pile. With the name of its windows."""
    best, windows = within(problem, "targets"), "targets"
    if problem.goal != "use-most" or best.volume is None:
        return best, windows
    for name in ("hardly-off", "acceptable"):
        wider = recipe_oracle.solve(problem_within(problem, name), DEFAULT_TARGETS)
        if wider.status == "on-target" and wider.volume >= MUCH_LARGER * best.volume:
            best, windows = within(problem, name), name
    return best, windows


def within(problem, windows, *slack):
    """The answer within wider windows, judged by the problem's own; whether all of it would go in too."""
    own = recipe_oracle.solve(problem, DEFAULT_TARGETS, *slack)
    if windows == "targets":
        return own
    found = recipe_oracle.solve(problem_within(problem, windows), DEFAULT_TARGETS, *slack)
    feedstocks = {s.feedstock.id: s.feedstock for s in problem.supplies}
    sums = recipe_oracle.sums_of(found.amounts, found.water, feedstocks.get, problem.settling)
    distance = max(recipe_oracle.own_distances(sums, problem.targets or DEFAULT_TARGETS).values())
    return dataclasses.replace(found, distance=distance, everything_in=own.everything_in,
                               status="nearest" if distance > 1.0 + 1e-9 else "on-target")


def problem_within(problem, windows):
    """The problem with wider windows: C:N steps of 5 and 15 beyond an edge, moisture of 10 and 5 points, air of 5;
    or the acceptable ones, 20 to 40 and 40 to 65 %."""
    low, aim, high = (problem.targets or DEFAULT_TARGETS).carbon_to_nitrogen
    dry, moist, wet = (problem.targets or DEFAULT_TARGETS).moisture
    air = (problem.targets or DEFAULT_TARGETS).least_air
    if windows == "hardly-off":
        ratio, moisture = (low - HARDLY * 5, aim, high + HARDLY * 15), (dry - HARDLY * 10, moist, wet + HARDLY * 5)
        air = max(0.0, air - HARDLY * 5)
    else:
        ratio, moisture = (min(low, 20.0), aim, max(high, 40.0)), (min(dry, 40.0), moist, max(wet, 65.0))
    return dataclasses.replace(problem, targets=problems.Targets(ratio, moisture, air))


def compare(problem, expected, report, differences):
    answer = expected.answer
    if not differences.same("status", report["status"], answer.status):
        return
    differences.same("found_within", report["found_within"], expected.windows)
    if answer.status in WITHOUT_A_PILE:
        differences.same("amounts", report["amounts"], [])
        differences.same("mix", report["mix"], None)
        return
    compare_pile(problem, expected, report, differences)
    compare_stages(problem, expected, report, differences)
    compare_everything_in(problem, answer, report["everything_in"], differences)
    compare_next_dearer(answer, report["next_dearer"], differences)
    check_balances(problem, report, differences)


def compare_pile(problem, expected, report, differences):
    answer = expected.answer
    compare_amounts(problem, expected, report, differences)
    differences.near("distance_from_aim", report["distance_from_aim"], answer.distance,
                     TOLERANCE * max(1.0, answer.distance)
                     + expected.left_open(lambda a: a.distance))
    volume_allowed = TOLERANCE * max(answer.volume, NEAR_NOTHING * volume_scale(problem, answer))
    volume_allowed += expected.left_open(lambda a: a.volume)
    differences.near("mix.volume_m3", report["mix"]["volume_m3"], answer.volume, volume_allowed)
    differences.near("missing_m3", report["missing_m3"], answer.missing, volume_allowed)


def compare_amounts(problem, expected, report, differences, times=1.0):
    """Every mass by id, where the programme's are so many times the oracle's."""
    allowed = TOLERANCE * expected.pile_mass()
    masses = masses_of(report)
    for supply in problem.supplies:
        id = supply.feedstock.id
        differences.near(f"amount of {id} in kg", divided(masses.get(id), times),
                         expected.answer.amounts[id],
                         allowed + expected.left_open(lambda a, id=id: a.amounts[id]))
    differences.near("water_to_add_kg", divided(report["water_to_add_kg"], times),
                     expected.answer.water, allowed + expected.left_open(lambda a: a.water))


def divided(value, by):
    return None if value is None else value / by


def masses_of(report):
    return {entry["id"]: entry["mass_kg"] for entry in report["amounts"]}


def volume_scale(problem, answer):
    """The loosest volume of one mass scale, in m3."""
    loosest = min(supply.feedstock.bulk_density for supply in problem.supplies)
    return problem.settling * answer.mass_scale / loosest


def price_scale(problem, answer):
    """The dearest price of one mass scale."""
    return answer.mass_scale * max(recipe_oracle.price_of(s) for s in problem.supplies)


def compare_stages(problem, expected, report, differences):
    """The optimum of every stage, and that the amounts still keep it."""
    answer = expected.answer
    scales = stage_scales(problem, answer)
    found, kept = stages_of(report), figures_of_stages(problem, report)
    for stage, optimum in answer.stages.items():
        allowed = TOLERANCE * max(abs(optimum), scales.get(stage, 1.0))
        left_open = expected.left_open(lambda a, stage=stage: a.stages.get(stage))
        differences.near(f"stage {stage}", found.get(stage), optimum, allowed + left_open)
        if stage in kept:
            check_kept(stage, kept[stage], optimum, STILL_KEPT * (allowed + left_open),
                       differences)


def check_kept(stage, figure, optimum, allowed, differences):
    """The later stages may better an optimum, but not spoil it."""
    low, high = optimum - allowed, math.inf
    if stage in ("cheapest", "least-water", "least-bought", "size"):
        low, high = -math.inf, optimum + allowed
    differences.within(f"stage {stage}, by the amounts", figure, low, high)


def stages_of(report):
    """The optimum by the name of the stage; the first where a name comes twice."""
    optima = {}
    for entry in report["stages"]:
        optima.setdefault(entry["stage"], entry["optimum"])
    return optima


def stage_scales(problem, answer):
    """Below these an optimum is next to nothing. Of distances and fractions it is one."""
    return {
        "cheapest": NEAR_NOTHING * price_scale(problem, answer),
        "least-water": NEAR_NOTHING * answer.mass_scale,
        "least-bought": NEAR_NOTHING * volume_scale(problem, answer),
        "largest-pile": NEAR_NOTHING * volume_scale(problem, answer),
        "size": NEAR_NOTHING * volume_scale(problem, answer) / problem.settling,
    }


def figures_of_stages(problem, report):
    """What the amounts make of the figure that a stage was about."""
    masses = masses_of(report)
    figures = {
        "cheapest": cost_of(problem, masses),
        "least-water": report["water_to_add_kg"],
        "least-bought": math.fsum(masses[s.feedstock.id] / s.feedstock.bulk_density
                                  for s in problem.supplies if recipe_oracle.is_spared(s)),
        "largest-pile": report["mix"]["volume_m3"],
        "size": report["mix"]["volume_m3"] / problem.settling,
    }
    for supply in filter(recipe_oracle.is_raised, problem.supplies):
        kind, used = supply.feedstock.kind, masses[supply.feedstock.id] / supply.amount
        figures[kind] = min(used, figures.get(kind, used))
    return figures


def cost_of(problem, masses):
    return math.fsum(recipe_oracle.price_of(s) * masses[s.feedstock.id]
                     for s in problem.supplies)


def compare_everything_in(problem, answer, found, differences):
    if answer.everything_in is None or found is None:
        differences.same("everything_in", found and "something",
                         answer.everything_in and "something")
        return
    distance, water = answer.everything_in
    inside = [s.amount for s in problem.supplies
              if recipe_oracle.is_limited(s)]
    differences.near("everything_in.distance_from_aim", found["distance_from_aim"], distance,
                     TOLERANCE * max(1.0, distance))
    differences.near("everything_in.water_to_add_kg", found["water_to_add_kg"], water,
                     TOLERANCE * math.fsum([*inside, water]))


def compare_next_dearer(answer, found, differences):
    if answer.next_dearer is None or found is None:
        differences.same("next_dearer", found and "something",
                         answer.next_dearer and "something")
        return
    distance, least_cost, most_cost = answer.next_dearer
    differences.near("next_dearer.distance_from_aim", found["distance_from_aim"], distance,
                     TOLERANCE * max(1.0, distance))
    differences.within("next_dearer.cost", found["cost"], least_cost * (1 - TOLERANCE),
                       most_cost * (1 + TOLERANCE))


# ---------------------------------------------------------------------------------------------
# What must hold of any answer by itself
# ---------------------------------------------------------------------------------------------

def check_balances(problem, report, differences):
    """The sums of a mix, made again from its amounts."""
    feedstocks = {s.feedstock.id: s.feedstock for s in problem.supplies}
    masses = masses_of(report)
    if not differences.same("ids", list(masses), list(feedstocks)):
        return
    sums = recipe_oracle.sums_of(masses, report["water_to_add_kg"], feedstocks.get,
                                 problem.settling)
    mix = report["mix"]
    for key, wanted in (("mass_kg", sums.total), ("dry_mass_kg", sums.dry),
                        ("water_kg", sums.water), ("carbon_kg", sums.carbon),
                        ("nitrogen_kg", sums.nitrogen), ("volume_m3", sums.pile)):
        differences.near(f"balance of mix.{key}", mix[key], wanted, BALANCE * wanted)
    cost = cost_of(problem, masses)
    differences.near("balance of cost", report["cost"], cost, BALANCE * cost)


def check_larger(program, problem, folder, expected, differences):
    """Everything a thousand times as much: a thousand times the pile."""
    larger = Differences()
    report = run(program, problems.scaled(problem, SCALE_FACTOR), folder,
                 file_name(problem) + ".larger")
    compare_again(problem, expected, report, larger, SCALE_FACTOR)
    differences.found += [f"a thousand times as much: {text}" for text in larger.found]


def check_reversed(program, problem, folder, expected, differences):
    """The supplies the other way round: the same pile."""
    turned = Differences()
    report = run(program, problems.reversed_supplies(problem), folder,
                 file_name(problem) + ".reversed")
    compare_again(problem, expected, report, turned, 1.0)
    differences.found += [f"supplies reversed: {text}" for text in turned.found]


def compare_again(problem, expected, report, differences, times):
    if (differences.same("status", report["status"], expected.answer.status)
            and expected.answer.status not in WITHOUT_A_PILE):
        compare_amounts(problem, expected, report, differences, times)


# ---------------------------------------------------------------------------------------------
# All problems
# ---------------------------------------------------------------------------------------------

def check_known_figures(problem, answer, differences):
    """Figures that were known, rounded, before there was an oracle."""
    for figure, wanted in problem.expected.items():
        if figure == "status":
            differences.same("the oracle's status", answer.status, wanted)
            continue
        value, within = wanted
        got = answer.amounts.get(figure, getattr(answer, figure, None))
        differences.near(f"the oracle's {figure}, as known beforehand", got, value, within)


def check_problem(program, problem, folder):
    """Returns the oracle's answer and the differences from it."""
    expected, differences = expect(problem), Differences()
    check_known_figures(problem, expected.answer, differences)
    try:
        report = run(program, problem, folder, file_name(problem))
        compare(problem, expected, report, differences)
        check_larger(program, problem, folder, expected, differences)
        check_reversed(program, problem, folder, expected, differences)
    except Failed as failure:
        differences.found.append(str(failure))
    except (KeyError, TypeError) as error:
        differences.found.append(f"the JSON is not as it should be: {error!r}")
    return expected, differences


def summary(problem, expected):
    answer = expected.answer
    text = f"{problem.name}: {answer.status}"
    if answer.status in WITHOUT_A_PILE:
        return text
    text += f", distance {answer.distance:.6g}, {answer.volume:.6g} m3"
    left_open = expected.amounts_left_open()
    if left_open > TOLERANCE:
        text += f" (amounts left open by {left_open:.1g} of the pile)"
    return text


def compare_all(program, chosen, folder):
    agree = 0
    for problem in chosen:
        expected, differences = check_problem(program, problem, folder)
        agree += not differences.found
        print("differs" if differences.found else "agrees ", summary(problem, expected),
              flush=True)
        for text in differences.found:
            print(f"    {text}")
    if agree < len(chosen):
        print(f"{len(chosen) - agree} of {len(chosen)} problems differ")
        return 1
    print(f"{agree} problems agree")
    return 0


def self_test(chosen):
    wrong = 0
    started, calls = time.monotonic(), recipe_oracle.Programme.calls
    for problem in chosen:
        expected, differences = expect(problem), Differences()
        check_known_figures(problem, expected.answer, differences)
        print(summary(problem, expected))
        print_answer(expected.answer)
        for text in differences.found:
            print(f"    WRONG {text}")
        wrong += bool(differences.found)
    print(f"{len(chosen)} problems solved in {time.monotonic() - started:.1f} s with "
          f"{recipe_oracle.Programme.calls - calls} calls of glpsol; {wrong} are wrong")
    return 1 if wrong else 0


def print_answer(answer):
    for id, mass in answer.amounts.items():
        print(f"    {mass:14.7f} kg {id}")
    if answer.amounts:
        print(f"    {answer.water:14.7f} kg water")
        stages = ", ".join(f"{name} {optimum:.7g}" for name, optimum in answer.stages.items())
        print(f"    stages: {stages}")
    if answer.missing is not None:
        print(f"    missing: {answer.missing:.7g} m3")
    if answer.everything_in is not None:
        distance, water = answer.everything_in
        print(f"    everything in: distance {distance:.7g}, {water:.7g} kg water")
    if answer.next_dearer is not None:
        distance, least, most = answer.next_dearer
        print(f"    next dearer: distance {distance:.7g} for {least:.7g} to {most:.7g}")


@contextlib.contextmanager
def folder_for_files(keep):
    """The folder to keep them in; without one a folder that is gone afterwards."""
    if keep:
        keep.mkdir(parents=True, exist_ok=True)
        yield keep
        return
    with tempfile.TemporaryDirectory() as folder:
        yield pathlib.Path(folder)


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program", nargs="?", help="heapwright")
    parser.add_argument("--self-test", action="store_true", help="the oracle alone")
    parser.add_argument("--all", action="store_true", help="the whole of the long series")
    parser.add_argument("--only", default="", help="a part of the names of the problems to do")
    parser.add_argument("--keep", type=pathlib.Path, help="a folder for the files written")
    options = parser.parse_args()

    series = problems.all_problems() if options.all else problems.all_problems(*problems.A_SAMPLE)
    chosen = [p for p in series if options.only in p.name]
    if options.self_test:
        return self_test(chosen)
    if options.program is None:
        parser.error("which programme?")
    program = str(pathlib.Path(options.program).resolve())
    with folder_for_files(options.keep) as folder:
        return compare_all(program, chosen, folder)


if __name__ == "__main__":
    sys.exit(main())
