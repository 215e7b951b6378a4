#!/usr/bin/env python3
"""Holds heapwright's pile against the oracle, day by day.

    check_pile.py PROGRAM            compares the runs R1 and R2
    check_pile.py PROGRAM R3 R5      compares these

PROGRAM RUN prints the run as CSV: a header, and a line for the start of each day, before its
events, from day 0 to the day after the last; stepped by an hour at most. How far that may be from
the oracle, which does not step by the hour, is said in pile_runs.
"""

import argparse
import csv
import math
import pathlib
import subprocess
import sys
from dataclasses import dataclass, field

import pile_oracle
import pile_runs

COMPARED = ("R1", "R2")
SHOWN = 5  # differences of a run that are printed; the rest are counted


class Failed(Exception):
    """The programme gave nothing to compare."""


def course_of(program, name):
    """The rows that the programme prints for a run: dictionaries by column."""
    try:
        done = subprocess.run([program, name], capture_output=True, text=True, check=False)
    except OSError as error:
        raise Failed(f"it does not start: {error}") from error
    if done.returncode != 0:
        raise Failed(f"exit code {done.returncode}: {done.stderr.strip()}")
    header, *lines = list(csv.reader(done.stdout.splitlines())) or [[]]
    if tuple(header) != pile_runs.COLUMNS:
        raise Failed(f"the header is {','.join(header)!r}")
    try:
        return [dict(zip(header, map(float, line), strict=True)) for line in lines]
    except ValueError as error:
        raise Failed(f"not a table of numbers: {error}") from error


@dataclass
class Comparison:
    days: int = 0
    largest: dict = field(default_factory=dict)  # column: (difference, day)
    found: list = field(default_factory=list)  # what differs, in words

    def take(self, column, day, got, wanted):
        difference = abs(got - wanted)
        if math.isnan(difference):
            difference = math.inf
        self.largest[column] = max(self.largest.get(column, (0.0, day)), (difference, day),
                                   key=lambda entry: entry[0])
        allowed = pile_runs.limit(column, wanted)
        if difference > allowed:
            self.found.append(f"{column} at the start of day {day}: {got:.10g}, the oracle has "
                              f"{wanted:.10g}; they differ by {difference:.3g}, allowed "
                              f"{allowed:.3g}")


def compare(rows, oracle_rows):
    comparison = Comparison(days=len(oracle_rows))
    days, wanted_days = ([row["day"] for row in some] for some in (rows, oracle_rows))
    if days != wanted_days:
        raise Failed(f"{len(days)} lines, and not one for each day from 0 to {wanted_days[-1]}")
    for got, wanted in zip(rows, oracle_rows):
        for column in pile_runs.COLUMNS[1:]:
            comparison.take(column, wanted["day"], got[column], wanted[column])
    return comparison


def check_run(program, name):
    """The comparison of one run, and what is wrong with the oracle's own course."""
    run = pile_runs.RUNS[name]
    course = pile_oracle.follow(run)
    wrong, _ = pile_oracle.check(run, course)
    try:
        comparison = compare(course_of(program, name), course.rows)
    except Failed as failure:
        comparison = Comparison(found=[str(failure)])
    comparison.found[:0] = [f"the oracle itself: {text}" for text in wrong]
    return comparison


def print_run(name, comparison):
    print("differs" if comparison.found else "agrees ", f"{name}: {comparison.days} days",
          flush=True)
    for column, (difference, day) in comparison.largest.items():
        print(f"    {column:22} {difference:9.2g} at most, day {day}")
    for text in comparison.found[:SHOWN]:
        print(f"    {text}")
    if len(comparison.found) > SHOWN:
        print(f"    and {len(comparison.found) - SHOWN} more")


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program", help="what prints a run")
    parser.add_argument("runs", nargs="*", metavar="RUN", help="R1 to R5; R1 and R2 if none")
    options = parser.parse_args()
    names = options.runs or COMPARED
    if not set(names) <= set(pile_runs.RUNS):
        parser.error(f"the runs are {', '.join(pile_runs.RUNS)}")

    program = str(pathlib.Path(options.program).resolve())
    days, differing, core = 0, 0, 0.0
    for name in names:
        comparison = check_run(program, name)
        print_run(name, comparison)
        days += comparison.days
        differing += bool(comparison.found)
        core = max(core, comparison.largest.get("core_degc", (0.0, 0))[0])
    print(f"oracle.pile: {len(names)} runs, {days} days, largest difference of the core "
          f"{core:.2g} degC" + (f"; {differing} runs differ" if differing else ""))
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
