"""At what heat weed seeds and germs are said to die: each row a second time, with its source, and what always stands with them.

usage: check_heat.py PROGRAM
"""
import json
import pathlib
import re
import subprocess
import sys

from arithmetic import Checks

ROOT = pathlib.Path(__file__).resolve().parents[2]
HOUR, DAY, WEEK = 1, 24, 168
FAHRENHEIT = lambda degrees: (degrees - 32) / 1.8  # noqa: E731
# id: what lives, from, to (°C), hours, words of what was found, the source as it is shown, how it is known.
ROWS = {
    # Larney and Blackshaw, abstract: core of 55 to 65 °C; six species at 0 % after two weeks, redroot pigweed 3.5 %, all twelve 0 % after four.
    "weeds-in-manure": ("weed-seeds", 55, 65, 4 * WEEK, ["twelve weeds", "3.5 %"], "Larney and Blackshaw", "seen"),
    # Dahlquist, Prather and Stapleton, Weed Science, abstract: 50 °C and more lethal to all six; unaffected: purslane to 46, pigweed and
    # barnyardgrass to 42, nightshade 39 °C.
    "weeds-kept-moist": ("weed-seeds", 50, None, None, ["46 °C", "42 °C", "39 °C"], "Dahlquist", "seen"),
    # A database's abstract: ten arable weeds, imbibed, in soil: 75 °C for half a day; 56 °C all but Rumex obtusifolius; doubts about 65 °C.
    "arable-weeds": ("weed-seeds", 75, None, 12 * HOUR, ["56 °C", "65 °C", "doubt"], "arable weeds", "seen"),
    # Oregon State University Extension (Andrews): 130 to 135 °F for seeds and pathogens.
    "extension-needed": ("weed-seeds", FAHRENHEIT(130), FAHRENHEIT(135), None, ["needed"], "Oregon State", "seen"),
    # Washington State University Extension EB1784E: 130 to 150 °F kills most; slow piles do not reliably.
    "extension-most": ("weed-seeds", FAHRENHEIT(130), FAHRENHEIT(150), None, ["most", "not all", "slow piles"], "EB1784E", "seen"),
    # Noble and Roberts, Plant Pathology 53:548, 2004: peak of 64 to 70 °C and 21 days, 33/38, 7/7, 9/9, 3/9; survivors at 62 to 74 °C.
    "plant-diseases-reviewed": ("plant-diseases", 64, 70, 21 * DAY, ["33 of 38", "all 7", "all 9", "3 of 9", "clubroot"], "Noble and Roberts", "seen"),
    "tobacco-mosaic": ("plant-diseases", 68, 68, 20 * DAY, ["is not killed by this", "takes more", "longer"], "Noble and Roberts", "seen"),
    # 40 CFR 257 Appendix II: 55 °C for 3 days in vessels or static aerated, for 15 days in windrows turned five times or more.
    "sites-in-vessel": ("germs", 55, None, 3 * DAY, ["vessels"], "40 CFR 257", "seen"),
    "sites-windrow": ("germs", 55, None, 15 * DAY, ["turned at least five times"], "40 CFR 257", "seen"),
    # A trade page on the German rule: windrows 55 °C 14 days or 65 °C 7 days, vessels 60 °C 7 days.
    "german-windrow": ("germs", 55, None, 14 * DAY, ["windrows", "trade page"], "German rule", "secondary"),
    "german-windrow-hotter": ("germs", 65, None, 7 * DAY, ["same page"], "German rule", "secondary"),
    "german-in-vessel": ("germs", 60, None, 7 * DAY, ["vessels", "same page"], "German rule", "secondary"),
    # University of Maine Extension, citing Purdue: about 104 °F for about 3 days, worms and cocoons.
    "jumping-worms": ("worms", FAHRENHEIT(104), None, 3 * DAY, ["egg cases"], "University of Maine", "seen"),
}
# Only what was so hot for so long counts; not the shell; nobody can say that a home pile is free of them.
CAUTION = ("Only what was itself so hot for so long counts", "the shell of a pile was not", "nobody can say of a home pile that it is free of weed seeds or germs")
checks = Checks()
check = checks.at


def run(program, *arguments):
    result = subprocess.run([program, *arguments], cwd=ROOT, capture_output=True, text=True, timeout=60)
    check(arguments, result.returncode in (0, 1) and not result.stderr, f"exit {result.returncode}: {result.stderr}")
    return result.stdout


def check_row(row):
    where = row["id"]
    pest, low, high, hours, words, source, evidence = ROWS[where]
    check(where, row["pest"] == pest, row["pest"])
    check(where, abs(row["at_least_degc"] - low) < 1e-9, row["at_least_degc"])
    check(where, row["at_most_degc"] == high if high is None else abs(row["at_most_degc"] - high) < 1e-9, row["at_most_degc"])
    check(where, row["hours"] == hours, row["hours"])
    for word in words:
        check(where, word in row["found"], f"no {word!r} in {row['found']}")
    check(where, source.lower() in row["source"].lower() and row["evidence"] == evidence, f"{row['source']}, {row['evidence']}")


def check_json(found):
    check("rows", [row["id"] for row in found["rows"]] == list(ROWS), [row["id"] for row in found["rows"]])
    for row in found["rows"]:
        check_row(row)
    for words in CAUTION:
        check("caution", words in found["only_what_was_hot"], found["only_what_was_hot"])


def check_shown(where, screen, found):
    """Each row with its source below the caution."""
    plain = " ".join(screen.split())
    for words in CAUTION:
        check(where, words in plain, f"no {words!r}")
    check(where, plain.index(CAUTION[0]) < plain.index(found["rows"][0]["found"][:30]), "the caution comes last")
    for row in found["rows"]:
        check(where, re.search(re.escape(row["found"]) + rf" \([^()]+(\([^()]+\))?[^()]*, {row['evidence']}\)", plain), f"no {row['id']} with its mark")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    found = json.loads(run(program, "materials", "--dies-at", "--json"))
    check_json(found)
    log = ("readings", "examples/quarter-acre.toml", "--log", "examples/quarter-acre-log.csv", "--today", "2026-12-01")
    check("readings", json.loads(run(program, *log, "--json"))["dies_at"] == found, "other rows than the table's")
    check_shown("materials", run(program, "materials", "--dies-at"), found)
    for depth in ("--why", "--all"):
        check_shown(depth, run(program, *log, depth), found)
    check("act", CAUTION[1] not in run(program, *log), "the table stands on the first screen")
    plain = " ".join(run(program, "materials", "--dies-at").split())
    check("times", plain.count("for how long is not told") == sum(1 for row in found["rows"] if row["hours"] is None), "rows without a time")
    check("lives on", "154 °F for 20 days: tobacco mosaic virus is not killed by this" in plain, plain)
    us, si = run(program, "materials", "--dies-at"), run(program, "materials", "--dies-at", "--units", "si")
    check("units", "131 °F to 149 °F for 28 days" in " ".join(us.split()) and "55 °C to 65 °C for 28 days" in " ".join(si.split()), us)
    print("\n".join(checks.failures[:20]))
    print(f"{checks.count} checks of heat, {len(checks.failures)} failures")
    return 1 if checks.failures else 0


if __name__ == "__main__":
    sys.exit(main())
