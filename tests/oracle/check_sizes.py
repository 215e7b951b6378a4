#!/usr/bin/env python3
"""How large the piles come out where some supplies have no end.

    check_sizes.py HEAPWRIGHT            a fixed sample of yards
    check_sizes.py HEAPWRIGHT --all      three hundred
    check_sizes.py HEAPWRIGHT --keep D   and leaves the yard files in the folder D

The yards are made up: things to be had from a garden or a shop, by their ids in the table, in everyday
containers. What there is little of sets the size of a pile, so that no pile may be larger than the
least that the oracle finds for using that up; and the answer says what set its size.
"""

import argparse
import json
import math
import pathlib
import random
import subprocess
import sys
import time
from dataclasses import dataclass

import check_recipes
import problems
import recipe_oracle

YARDS = 300
A_SAMPLE = 20
SEED = 11
TOO_LARGE = 20.0  # m3, of a pile made of
LITTLE = 5.0  # m3 of what is limited
KNOWN_TO_BE_LARGE = {"yard 173"}  # 34 m3 of 2.5: dry leaves and wet pomace without end, no water, just within the limit of swelling
USED_UP = 0.999
TRACES = 1e-6  # of the pile; the slack of the stages leaves them
FULL = 1e-5  # short of a capacity is full

# What a container holds in m3: of US gallons or cubic feet, both exact.
GALLON, CUBIC_FOOT = 0.003785411784, 0.028316846592
CONTAINERS = {
    "bucket": 5 * GALLON, "small-bucket": 2 * GALLON, "kitchen-pail": 1 * GALLON, "leaf-bag": 30 * GALLON,
    "trash-can": 32 * GALLON, "barrel": 55 * GALLON, "wheelbarrow": 6 * CUBIC_FOOT, "garden-cart": 10 * CUBIC_FOOT,
}
COUNTS = (1, 2, 3, 4, 6, 8, 10, 12)

ORGANIC, ASH = 1500.0, 2650.0  # kg/m3 of dry particles, for the air alone


def feedstocks_of(program):
    """The table's feedstocks that a pile can be made of, and the packing of each."""
    done = subprocess.run([program, "materials", "--json"], capture_output=True, text=True, check=True)
    entries = [f for f in json.loads(done.stdout)["feedstocks"] if not f["lacks"] and f["used"]["carbon_to_nitrogen"] > 0]
    return [feedstock_of(f) for f in entries], {f["id"]: f["usual_packing"] for f in entries}


def feedstock_of(entry):
    used = entry["used"]
    organic = used["volatile_solids_fraction_dry"]
    return problems.Feedstock(
        entry["id"], entry["class"], 100 * used["moisture_fraction"], 100 * used["carbon_fraction_dry"],
        used["carbon_to_nitrogen"], used["bulk_density_kg_m3"], 1 / (organic / ORGANIC + (1 - organic) / ASH))


# ---------------------------------------------------------------------------------------------
# Yards
# ---------------------------------------------------------------------------------------------

@dataclass(frozen=True)
class InContainers:
    """A supply as a person would say it."""
    supply: problems.Supply
    amount: str | None


def limited(rng, feedstock):
    container, count = rng.choice(tuple(CONTAINERS)), rng.choice(COUNTS)
    mass = count * CONTAINERS[container] * feedstock.bulk_density
    make = problems.fixed if rng.random() < 0.15 else problems.have
    share = rng.choice((20.0, 30.0, 50.0)) if make is problems.have and rng.random() < 0.15 else None
    return InContainers(make(feedstock, mass, most_of_volume=share), f"{count} {container}")


def endless(rng, feedstock):
    make = problems.buy if rng.random() < 0.35 else problems.unlimited
    return InContainers(make(feedstock, most_of_volume=rng.choice((30.0, 50.0)) if rng.random() < 0.15 else None), None)


def yard(rng, number, feedstocks):
    """A problem without a fill, and its supplies in containers."""
    setting = [f for f in feedstocks if f.kind in recipe_oracle.CLASSES_IN_TURN]
    few, many = rng.randint(1, 3), rng.randint(1, 3)
    chosen = rng.sample(setting, few)
    chosen += rng.sample([f for f in feedstocks if f not in chosen], many)
    supplies = [limited(rng, f) for f in chosen[:few]] + [endless(rng, f) for f in chosen[few:]]
    rng.shuffle(supplies)
    return problems.Problem(f"yard {number}", tuple(s.supply for s in supplies), problems.GOALS_IN_TURN[number % 4],
                            capacity=rng.uniform(0.2, 2.5) if rng.random() < 0.25 else None,
                            most_water=0.0 if rng.random() < 0.1 else None), supplies


def yard_text(problem, supplies, packings):
    lines = ["[recipe]", f'goal = "{problem.goal}"']
    if problem.capacity is not None:
        lines.append(f"capacity = {check_recipes.quantity(problem.capacity, 'm3')}")
    if problem.most_water is not None:
        lines.append(f"most_water = {check_recipes.quantity(problem.most_water, 'kg')}")
    for written in supplies:
        supply = written.supply
        lines += ["", "[[supply]]", f'feedstock = "{supply.feedstock.id}"', f'packing = "{packings[supply.feedstock.id]}"']
        if written.amount:
            lines.append(f'amount = "{written.amount}"')
        if supply.bought:
            lines.append("bought = true")
        elif supply.use != "up-to":
            lines.append(f'use = "{supply.use}"')
        if supply.most_of_volume is not None:
            lines.append(f'most_of_volume = "{supply.most_of_volume:g} %"')
    return "\n".join(lines) + "\n"


def run(program, path):
    done = subprocess.run([program, "recipe", path, "--json"], capture_output=True, text=True, check=False)
    if done.returncode not in (0, 1):
        raise check_recipes.Failed(f"exit code {done.returncode}: {done.stderr.strip()}")
    return json.loads(done.stdout)


# ---------------------------------------------------------------------------------------------
# What must hold
# ---------------------------------------------------------------------------------------------

def check_size(problem, expected, report, differences):
    """No larger than the least that uses up what is limited, and of that at least a fifth of the dry matter, where no share forbids it."""
    most = expected.answer.stages["size"] * (1 + check_recipes.TOLERANCE) + expected.left_open(lambda a: a.stages["size"])
    differences.within("volume in m3", report["mix"]["volume_m3"], 0.0, most * problem.settling)
    there_is = math.fsum(s.amount / s.feedstock.bulk_density for s in problem.supplies if recipe_oracle.is_limited(s))
    if there_is < LITTLE and problem.name not in KNOWN_TO_BE_LARGE:
        differences.within(f"volume in m3, of {there_is:.3g} m3 limited", report["mix"]["volume_m3"], 0.0, TOO_LARGE)
    if any(s.most_of_volume for s in problem.supplies if recipe_oracle.is_limited(s)):
        return
    masses = check_recipes.masses_of(report)
    dry = {s: (1 - recipe_oracle.moisture_of(s.feedstock)) * masses[s.feedstock.id] for s in problem.supplies}
    limited = math.fsum(mass for s, mass in dry.items() if recipe_oracle.is_limited(s))
    endless = math.fsum(mass for s, mass in dry.items() if recipe_oracle.is_endless(s))
    differences.within("endless over limited dry matter", endless / limited, 0.0, recipe_oracle.SWELLING * (1 + check_recipes.TOLERANCE))


def check_size_set_by(problem, report, differences):
    """What is said to set the size is what does."""
    said = report["size_set_by"]
    if report["status"] in check_recipes.WITHOUT_A_PILE:
        differences.same("size_set_by", said, None)
        return
    if said is None:
        differences.found.append("size_set_by: nothing, though there is a pile")
        return
    masses = check_recipes.masses_of(report)
    by_id = {s.feedstock.id: s for s in problem.supplies}
    in_it = {id for id in by_id if masses[id] > TRACES * report["mix"]["mass_kg"]}
    used_up = {id for id in in_it if by_id[id].amount is not None and masses[id] >= USED_UP * by_id[id].amount}
    limited = {id for id in used_up if recipe_oracle.is_limited(by_id[id])}
    left = any(recipe_oracle.is_raised(s) and masses[id] < USED_UP * s.amount for id, s in by_id.items())
    used_up_water = problem.most_water is not None and report["water_to_add_kg"] >= USED_UP * problem.most_water
    full = problem.capacity is not None and report["mix"]["volume_m3"] >= problem.capacity * (1 - FULL)
    match said["by"]:
        case "capacity":
            differences.same("the pile fills the capacity that is said to set its size", full, True)
            return
        case "fixed":
            allowed = {id for id in in_it if by_id[id].use == "all"}
            differences.same("what is fixed and sets the size", set(said["feedstocks"]), allowed)
        case "on-hand":
            differences.same("what is on hand and sets the size", set(said["feedstocks"]), limited or used_up)
            differences.same("something is used up that is said to set the size", bool(used_up), True)
        case "goal":
            differences.same("something is left, where the goal is said to set the size", left, True)
            differences.same("the goal, which is said to set the size, is to use most", problem.goal == "use-most", False)
        case "water":
            differences.same("something is left, where the water is said to set the size", left, True)
            differences.same("the water, which is said to set the size, is used up", used_up_water, True)
        case other:
            differences.same("size_set_by", other, "one of capacity, fixed, on-hand, goal, water")
    differences.same("the pile fills the capacity, and something else is said to set its size", full, False)


def check_yard(program, path, problem):
    """Returns the volume, or none where there is no pile, and the differences."""
    differences = check_recipes.Differences()
    expected = check_recipes.expect(problem)
    answer = expected.answer
    try:
        report = run(program, path)
    except check_recipes.Failed as failure:
        differences.found.append(str(failure))
        return answer, None, differences
    differences.same("left out", report["left_out"], [])
    check_size_set_by(problem, report, differences)
    if differences.same("status", report["status"], answer.status) and answer.status not in check_recipes.WITHOUT_A_PILE:
        check_size(problem, expected, report, differences)
    volume = report["mix"] and report["mix"]["volume_m3"]
    return answer, volume, differences


def check_all(program, count, folder):
    feedstocks, packings = feedstocks_of(program)
    rng = random.Random(SEED)
    volumes, wrong, started = [], 0, time.monotonic()
    for number in range(1, count + 1):
        problem, supplies = yard(rng, number, feedstocks)
        path = folder / f"yard-{number}.toml"
        path.write_text(yard_text(problem, supplies, packings))
        answer, volume, differences = check_yard(program, path, problem)
        if volume is not None:
            volumes.append(volume)
        if differences.found:
            wrong += 1
            print(f"yard {number}: {answer.status}")
            for text in differences.found:
                print(f"    {text}")
    volumes.sort()
    larger = sum(volume > TOO_LARGE for volume in volumes)
    print(f"{count} yards, {len(volumes)} piles in {time.monotonic() - started:.1f} s: {volumes[0]:.3g} to {volumes[-1]:.3g} m3, "
          f"the middle one {volumes[len(volumes) // 2]:.3g}; {larger} above {TOO_LARGE:g} m3; {wrong} wrong")
    return 1 if wrong else 0


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program", help="heapwright")
    parser.add_argument("--all", action="store_true", help="three hundred yards")
    parser.add_argument("--keep", type=pathlib.Path, help="a folder for the files written")
    options = parser.parse_args()

    program = str(pathlib.Path(options.program).resolve())
    count = YARDS if options.all else A_SAMPLE
    with check_recipes.folder_for_files(options.keep) as folder:
        return check_all(program, count, folder)


if __name__ == "__main__":
    sys.exit(main())
