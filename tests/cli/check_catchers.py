"""Bags of leaves to a catcher of clippings: every cell again by the command's own `mix`, and its range by draws of our own.

usage: check_catchers.py PROGRAM
"""
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile

import numpy

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "oracle"))
from check_ranges import OUTSIDE, TOLERANCE, Draws, content, mass_and_density  # noqa: E402: the tables and draws of the other Monte Carlo

from arithmetic import Checks  # noqa: E402

PAIR = ("recipe", "--have", "leaves", "--have", "clippings")
checks = Checks()
check = checks.at


class Program:
    def __init__(self, path):
        self.path = path

    def run(self, *arguments):
        return subprocess.run([self.path, *map(str, arguments)], cwd=ROOT, capture_output=True, text=True, timeout=60).stdout

    def json(self, *arguments):
        return json.loads(self.run(*arguments, "--json"))


def check_by_mix(program, where, table, row, folder):
    """So many bags and one catcher have the C:N aim and the moisture that is told."""
    bags = f"{table['leaves']}:{row['leaves_lie']}={row['bags']!r} {table['bag']}"
    if row["wilted"]:
        # What wilted weighs less, with the dry matter that it had.
        fresh = program.json("mix", "--add", f"{table['clippings']}:{row['clippings_lie']}=1 {table['catcher']}")["mix"]
        wet = fresh["dry_mass_kg"] / (1 - table["wilted_to_moisture_fraction"])
        yard = pathlib.Path(folder, "wilted.toml")
        yard.write_text(f'[[supply]]\nfeedstock = "{table["clippings"]}"\namount = "{wet!r} kg"\ndried = {{ wet = "10 g", dry = "4 g" }}\n'
                        f'[[supply]]\nfeedstock = "{table["leaves"]}"\npacking = "{row["leaves_lie"]}"\namount = "{row["bags"]!r} {table["bag"]}"\n', encoding="utf-8")
        mix = program.json("mix", yard)["mix"]
    else:
        mix = program.json("mix", "--add", bags, "--add", f"{table['clippings']}:{row['clippings_lie']}=1 {table['catcher']}")["mix"]
    check(where, math.isclose(mix["carbon_to_nitrogen"], table["carbon_to_nitrogen"], rel_tol=1e-9), f"C:N {mix['carbon_to_nitrogen']}")
    check(where, math.isclose(mix["moisture_fraction"], row["moisture_fraction"], rel_tol=1e-9), f"moisture {mix['moisture_fraction']}, not {row['moisture_fraction']}")


def carbon_and_nitrogen(feedstock, packing, container, draws):
    """Kilograms of both in one container, in each draw."""
    mass, _ = mass_and_density((feedstock, packing, 1.0, container), draws)
    water, carbon, nitrogen = content(feedstock, draws)
    return mass * (1 - water) * carbon, mass * (1 - water) * nitrogen


def check_range(where, table, row):
    """Low and high leave out a tenth of our draws each, within what both sets of draws are off by chance."""
    draws = Draws(numpy.random.default_rng(20261130))
    carbon, nitrogen = carbon_and_nitrogen(table["clippings"], row["clippings_lie"], table["catcher"], draws)
    of_bag, nitrogen_of_bag = carbon_and_nitrogen(table["leaves"], row["leaves_lie"], table["bag"], draws)
    aim = table["carbon_to_nitrogen"]
    brought = of_bag - aim * nitrogen_of_bag
    bags = numpy.where(brought > 0, numpy.maximum(0.0, aim * nitrogen - carbon) / numpy.where(brought > 0, brought, 1.0), numpy.inf)
    below, above = (bags < row["low"]).mean(), (bags > row["high"]).mean() if row["high"] is not None else OUTSIDE
    check(where, abs(below - OUTSIDE) <= TOLERANCE, f"{below} of the draws below {row['low']}")
    check(where, abs(above - OUTSIDE) <= TOLERANCE, f"{above} of the draws above {row['high']}")
    if row["high"] is None:
        check(where, (bags == numpy.inf).mean() > OUTSIDE - TOLERANCE, "no high, and leaves that reach the aim")


def check_screen(program, table):
    """The table stands in --why, as the JSON has it, and not on the screen of what to do."""
    check("screen", "For the phone" not in program.run(*PAIR), "it is on the first screen")
    lines = program.run(*PAIR, "--why").splitlines()
    at = next((i for i, line in enumerate(lines) if line.startswith("For the phone")), None)
    check("screen", at is not None, "no table in --why")
    shown = "\n".join(lines[at or 0:])
    for row in table["rows"]:
        bags = float(f"{row['bags']:.2g}")
        words = row["clippings_lie"] + (", then wilted" if row["wilted"] else "")
        check("screen", f"{words} " in shown, f"no row {words}")
        check("screen", f"{bags:g}" in shown, f"{row['bags']} is not in {shown}")
        mark = "too wet" if row["moisture_fraction"] > 0.60 else "water it" if row["moisture_fraction"] < 0.50 else ""
        ending = f"{100 * row['moisture_fraction']:.0f} %" + (f" +{mark}" if mark else "")
        check("screen", re.search(rf"^ +{words} +{bags:g} .* {ending}$", shown, re.MULTILINE), f"{words} is not marked {mark!r}")
    plain = " ".join(shown.split())
    for word in ("more dry leaves till a squeezed handful only clumps", "they keep the moisture right too, not the C:N alone"):
        check("screen", word in plain, f"no {word!r}")
    both = [line for line in lines if line.startswith("- Both")]
    check("screen", len({line.split(":", 1)[1] for line in both}) == len(both) >= 1, f"the same twice: {both}")


def check_where_it_stands(program):
    """Of leaves and clippings without amounts alone."""
    for have in (("leaves=10 bags", "clippings"), ("leaves", "kitchen scraps"), ("leaves",), ("leaves", "clippings", "straw")):
        options = [word for one in have for word in ("--have", one)]
        check(have, program.json("recipe", *options)["bags_to_a_catcher"] is None, "a table")


def main():
    program = Program(str(pathlib.Path(sys.argv[1]).resolve()))
    table = program.json(*PAIR)["bags_to_a_catcher"]
    lies = [(row["leaves_lie"], row["clippings_lie"], row["wilted"]) for row in table["rows"]]
    clippings = [("loose", False), ("collected", False), ("collected", True), ("packed", False)]
    check("rows", lies == [(leaves, *lie) for leaves in ("bagged", "collected", "shredded") for lie in clippings], lies)
    with tempfile.TemporaryDirectory() as folder:
        for row in table["rows"]:
            where = f"{row['leaves_lie']} to {row['clippings_lie']}{', wilted' if row['wilted'] else ''}"
            check_by_mix(program, where, table, row, folder)
            check_range(where, table, row)
    check_screen(program, table)
    check_where_it_stands(program)
    print("\n".join(checks.failures[:20]))
    print(f"{checks.count} checks of bags to a catcher, {len(checks.failures)} failures")
    return 1 if checks.failures else 0


if __name__ == "__main__":
    sys.exit(main())
