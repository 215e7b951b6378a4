#!/usr/bin/env python3
"""Holds the 80 % bands of `mix --json` against a Monte Carlo that reads the tables by itself.

    check_ranges.py PROGRAM

Moisture, C:N and carbon of a feedstock are drawn apart, from the triangle low - typical - high of
their first readings; nitrogen is carbon / C:N, or drawn where the row has no C:N. A packing's bulk
density and a container's size are drawn too, and what is told by volume weighs what they make of
it. Ingredients of one feedstock share their draws. The band runs from the 10th percentile to the 90th.
"""

import json
import math
import pathlib
import random
import subprocess
import sys
import tomllib

import numpy

MIXES = 100
DRAWS = 50_000
DRAWS_OF_PROGRAM = 4096
OUTSIDE = 0.10  # of the draws below the band, and as many above
# Compared are shares of our draws below an end and above it, each with the standard error sqrt(p (1 - p) / n): 0.0013 of ours, 0.0047
# of the program's, whose quasi-random draws of some twenty figures are taken as no better than random. Four errors of both together: of
# 600 shares none should fall beyond by chance (one in 16 000 would).
TOLERANCE = 4.0 * math.sqrt(OUTSIDE * (1.0 - OUTSIDE) * (1.0 / DRAWS + 1.0 / DRAWS_OF_PROGRAM))
SAME = 1e-9  # relative; for typical values, which are computed, not drawn

MATERIALS = pathlib.Path(__file__).resolve().parents[2] / "materials"
KILOGRAMS = {"kg": 1.0, "lb": 0.45359237}
CUBIC_METRES = {"m3": 1.0, "L": 0.001, "ft3": 0.3048**3, "yd3": 0.9144**3, "gal": 231 * 0.0254**3, "bushel": 2150.42 * 0.0254**3}
WATER = 1000.0  # kg/m3
ORGANIC, ASH = 1500.0, 2650.0  # particle densities, kg/m3


def number(text):
    """A table's value in SI units: "35 %", "48.5:1", "135 lb/yd3", "0.75 ft3"."""
    if text.endswith(":1"):
        return float(text[:-2])
    figure, unit = text.split()
    if unit == "%":
        return float(figure) / 100.0
    mass, _, volume = unit.rpartition("/")
    if mass:
        return float(figure) * KILOGRAMS[mass] / CUBIC_METRES[volume]
    return float(figure) * CUBIC_METRES[volume]


def triangle(reading, typical="typical"):
    """Low, typical and high; all three the typical where there is no range."""
    ends = [number(reading[end]) for end in ("low", "high") if end in reading]
    middle = number(reading[typical]) if typical in reading else sum(ends) / 2.0
    low, high = ends if len(ends) == 2 else (middle, middle)
    return low, middle, high


def rows_of(table, name):
    with open(MATERIALS / table, "rb") as file:
        return {row["id"]: row for row in tomllib.load(file)[name]}


FEEDSTOCKS = rows_of("feedstocks.toml", "feedstock")
CONTAINERS = rows_of("containers.toml", "container")


class Draws:
    """Columns of one mix, drawn once for each figure; with none to draw, the typical values."""

    def __init__(self, generator):
        self.generator = generator
        self.columns = {}

    def of(self, reading, *figure, typical="typical"):
        if figure not in self.columns:
            low, middle, high = triangle(reading, typical)
            drawn = self.generator is not None and low < high
            self.columns[figure] = self.generator.triangular(low, middle, high, DRAWS) if drawn else middle
        return self.columns[figure]


def mass_and_density(ingredient, draws):
    """Kilograms of an ingredient, and the density it lies at."""
    feedstock, packing, amount, unit = ingredient
    row = FEEDSTOCKS[feedstock]
    lies = CONTAINERS.get(unit, {}).get("packing", [])
    lies = [lies] if isinstance(lies, str) else lies
    named, packing = packing, packing or next((one for one in lies if one in row["bulk_density"]), row["usual_packing"])
    density = draws.of(row["bulk_density"][packing][0], feedstock, packing)
    if unit in KILOGRAMS:
        return amount * KILOGRAMS[unit], density
    size = draws.of(CONTAINERS[unit], feedstock, unit, typical="volume") if unit in CONTAINERS else CUBIC_METRES[unit]
    shaken_out = named is None and packing == "packed" and row["usual_packing"] != "packed"  # a bale, as the pile is built
    in_pile = draws.of(row["bulk_density"][row["usual_packing"]][0], feedstock, row["usual_packing"]) if shaken_out else density
    return amount * size * density, in_pile


def content(feedstock, draws):
    """Water of the whole; carbon and nitrogen of the dry matter."""
    row = FEEDSTOCKS[feedstock]
    water, carbon = (draws.of(row[figure][0], feedstock, figure) for figure in ("moisture_wet_basis", "carbon_dry_basis"))
    if "carbon_to_nitrogen" in row:
        return water, carbon, carbon / draws.of(row["carbon_to_nitrogen"][0], feedstock, "carbon_to_nitrogen")
    return water, carbon, draws.of(row["nitrogen_dry_basis"][0], feedstock, "nitrogen_dry_basis")


def solids_per_dry(feedstock):
    """Room that a kilogram of dry matter fills; it is not drawn."""
    row = FEEDSTOCKS[feedstock]
    if "volatile_solids_dry_basis" in row:
        organic = triangle(row["volatile_solids_dry_basis"][0])[1]
    else:
        organic = min(1.0, 1.8 * triangle(row["carbon_dry_basis"][0])[1])
    return organic / ORGANIC + (1.0 - organic) / ASH


def outcome(ingredients, gallons, draws):
    """C:N, moisture and air space of a mix."""
    water = gallons * CUBIC_METRES["gal"] * WATER
    dry = carbon = nitrogen = solids = volume = 0.0
    for ingredient in ingredients:
        mass, density = mass_and_density(ingredient, draws)
        wet, carbon_of_dry, nitrogen_of_dry = content(ingredient[0], draws)
        own_dry = mass * (1.0 - wet)
        water, dry = water + mass * wet, dry + own_dry
        carbon, nitrogen = carbon + own_dry * carbon_of_dry, nitrogen + own_dry * nitrogen_of_dry
        solids, volume = solids + own_dry * solids_per_dry(ingredient[0]), volume + mass / density
    return {"carbon_to_nitrogen": carbon / nitrogen, "moisture_fraction": water / (water + dry),
            "air_space_fraction": numpy.clip(1.0 - (solids + water / WATER) / volume, 0.0, 1.0)}


def arguments_of(ingredients, gallons):
    arguments = ["mix"]
    for feedstock, packing, amount, unit in ingredients:
        arguments += ["--add", f"{feedstock}{':' + packing if packing else ''}={amount} {unit}"]
    return arguments + (["--water", f"{gallons} gal"] if gallons else [])


def beyond(drawn, low, high):
    """How far the shares of our draws below the band and above it are from what they should be. Draws on an end count on
    either side of it: where there is no air, many are 0."""
    def off(inner, outer):
        return max(outer - OUTSIDE, OUTSIDE - inner, 0.0)
    drawn = numpy.broadcast_to(drawn, DRAWS)
    return off(numpy.mean(drawn <= low), numpy.mean(drawn < low)), off(numpy.mean(drawn >= high), numpy.mean(drawn > high))


def differences(program, ingredients, gallons, generator):
    """What is said of the mix that is not so, and the greatest share that a band is off by."""
    result = subprocess.run([program, *arguments_of(ingredients, gallons), "--json"], capture_output=True, text=True, check=False)
    if result.returncode != 0:
        return [f"exit {result.returncode}: {result.stderr.strip()}"], 0.0
    said = json.loads(result.stdout)["mix"]
    found, greatest = [], 0.0
    for figure, value in outcome(ingredients, gallons, Draws(None)).items():
        if said[figure] is None or not math.isclose(said[figure], value, rel_tol=SAME, abs_tol=SAME):
            found.append(f"{figure} is {said[figure]}, typical values make {value:.6g}")
    for figure, drawn in outcome(ingredients, gallons, Draws(generator)).items():
        low, high = numpy.quantile(drawn, (OUTSIDE, 1.0 - OUTSIDE))
        band = said["ranges"].get(figure)
        if band is None:
            found.append(f"{figure} has no band, drawn it is {low:.4g} to {high:.4g}")
            continue
        off = beyond(drawn, band["low"], band["high"])
        greatest = max(greatest, *off)
        if not max(off) <= TOLERANCE:
            found.append(f"{figure}: {band['low']:.4g} to {band['high']:.4g}, drawn {low:.4g} to {high:.4g}; "
                         f"{off[0]:.3f} and {off[1]:.3f} of the draws on the wrong side, {TOLERANCE:.3f} allowed")
    return found, greatest


COMPLETE = [id for id, row in FEEDSTOCKS.items() if row.get("bulk_density") and "moisture_wet_basis" in row and "carbon_dry_basis" in row
            and ("carbon_to_nitrogen" in row or "nitrogen_dry_basis" in row)]
SHARP = [id for id in COMPLETE if "carbon_to_nitrogen" not in FEEDSTOCKS[id]]  # strong in nitrogen: a little goes far
PLAIN = [id for id in COMPLETE if id not in SHARP]

# What no seed may leave out: no carbon, nitrogen drawn by itself, one packing told in two ways.
ALWAYS = [
    ([("leaves-fall", None, 6, "leaf-bag"), ("ammonium-sulfate", None, 3, "lb")], 2),
    ([("wood-chips", None, 40, "lb"), ("ammonium-sulfate", None, 2, "cup")], 0),
    ([("leaves-fall", None, 6, "leaf-bag"), ("feather-meal", None, 6, "lb")], 0),
    ([("straw", None, 3, "lb"), ("feather-meal", None, 10, "lb")], 1),
    ([("sawdust", None, 10, "lb"), ("blood-meal", None, 6, "lb")], 0),
    ([("leaves-fall", None, 4, "leaf-bag"), ("leaves-fall", "bagged", 6, "ft3"), ("grass-clippings", None, 3, "bucket")], 0),
    ([("straw", None, 1, "straw-bale"), ("straw", "packed", 20, "lb"), ("horse-manure", None, 2, "wheelbarrow")], 0),
    ([("grass-clippings", None, 3, "grass-catcher"), ("grass-clippings", "loose", 2, "grass-catcher"), ("sawdust", None, 1, "bucket")], 0),
]


def ingredient(dice, feedstock):
    """A plausible amount of it, by weight, volume or container."""
    if feedstock in SHARP:
        return feedstock, None, *dice.choice([(dice.randint(1, 4), "lb"), (dice.randint(2, 12), "cup")])
    packing = dice.choice([None, dice.choice(list(FEEDSTOCKS[feedstock]["bulk_density"]))])
    containers = ["bucket", "storage-tote", "trash-can", "wheelbarrow"]
    if packing == "packed" and "straw-bale" == FEEDSTOCKS[feedstock].get("usual_container"):
        containers = ["straw-bale"]
    return feedstock, packing, *dice.choice([(dice.randint(10, 120), "lb"), (round(dice.uniform(0.1, 0.6), 2), "yd3"),
                                             (dice.randint(1, 6), dice.choice(containers))])


def mixes():
    dice = random.Random(20)
    yield from ALWAYS
    for _ in range(MIXES - len(ALWAYS)):
        feedstocks = dice.sample(PLAIN, dice.randint(2, 5)) + dice.sample(SHARP, dice.choice([0, 0, 0, 1]))
        feedstocks += dice.sample(feedstocks, dice.choice([0, 0, 0, 1]))  # the same twice
        yield [ingredient(dice, feedstock) for feedstock in feedstocks], dice.choice([0, 0, 1, 5])


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    generator = numpy.random.default_rng(1)
    wrong, greatest = 0, 0.0
    for ingredients, gallons in mixes():
        found, off = differences(program, ingredients, gallons, generator)
        if found:
            wrong += 1
            print(" ".join(f"'{argument}'" if " " in argument else argument for argument in arguments_of(ingredients, gallons)))
            print("".join(f"    {line}\n" for line in found), end="")
        else:
            greatest = max(greatest, off)
    print(f"{MIXES} mixes, {wrong} differ; of the others the bands are off by {greatest:.4f} of the draws at most, {TOLERANCE:.4f} allowed")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
