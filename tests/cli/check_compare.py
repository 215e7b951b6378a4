"""forecast --compare: each row is the forecast of a yard file so changed, by the command itself.

usage: check_compare.py PROGRAM
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

from arithmetic import Checks

ROOT = pathlib.Path(__file__).resolve().parents[2]
TODAY = "2026-10-24"
SIDE = 2 ** (1 / 3)  # twice as much, in the same shape
checks = Checks()
check = checks.at

# What a row changes of a file, in its own words.
OPEN = {"length": 4.0, "width": 4.0, "height": 4.0, "shape": "bin", "turn_every": "14 days", "keep_moist": False, "covered": False, "built": "2026-10-24",
        "leaves": 20.0, "grass": 12.0}
MOIST = {**OPEN, "shape": "cone", "length": None, "width": None, "diameter": 6.0, "keep_moist": True, "turn_every": "never", "built": "2027-05-20"}
STANDING = {**OPEN, "built": "2026-09-10"}


def file_of(yard):
    sides = "".join(f'{key} = "{yard[key]!r} ft"\n' for key in ("length", "width", "height", "diameter") if yard.get(key))
    return f"""
[climate]
like = "cool"
[pile]
shape = "{yard['shape']}"
{sides}turn_every = "{yard['turn_every']}"
keep_moist = {str(yard['keep_moist']).lower()}
covered = {str(yard['covered']).lower()}
built = {yard['built']}
[[supply]]
feedstock = "leaves"
amount = "{yard['leaves']!r} leaf-bag"
[[supply]]
feedstock = "grass"
amount = "{yard['grass']!r} bucket"
"""


def scaled(yard, times):
    sides = {key: yard[key] * times ** (1 / 3) for key in ("length", "width", "height", "diameter") if yard.get(key)}
    return {**yard, **sides, "leaves": times * yard["leaves"], "grass": times * yard["grass"]}


CHANGES = {"as-it-is": lambda yard: yard, "larger": lambda yard: scaled(yard, 2), "smaller": lambda yard: scaled(yard, 0.5),
           "kept-moist": lambda yard: {**yard, "keep_moist": True}, "not-watered": lambda yard: {**yard, "keep_moist": False},
           "covered": lambda yard: {**yard, "covered": True}, "in-spring": lambda yard: {**yard, "built": "2027-04-15"},
           "in-late-fall": lambda yard: {**yard, "built": "2026-11-15"}, "turned-weekly": lambda yard: {**yard, "turn_every": "7 days"},
           "turned-monthly": lambda yard: {**yard, "turn_every": "30 days"}, "never-turned": lambda yard: {**yard, "turn_every": "never"}}


class Program:
    def __init__(self, path, folder):
        self.path, self.folder = path, pathlib.Path(folder)

    def run(self, *arguments):
        return subprocess.run([self.path, "forecast", *map(str, arguments), "--today", TODAY], cwd=ROOT, capture_output=True, text=True, timeout=120)

    def json(self, *arguments):
        return json.loads(self.run(*arguments, "--json").stdout)

    def file(self, yard, name="yard.toml"):
        path = self.folder / name
        path.write_text(yard if isinstance(yard, str) else file_of(yard), encoding="utf-8")
        return path


def near(one, other):
    """Sides are written to the last digit; the sizes of containers and water follow by rounding alone."""
    return one == other or (one is not None and other is not None and abs(one - other) <= 1e-6 * max(abs(one), abs(other)))


def either_way(forecast, end):
    heats = forecast["heats"]
    days = [heats[way]["ready_for_turf"][end] for way in ("if_it_heats", "if_not")] if heats["branch"] == "may" else [forecast["ready_for_turf"][end]]
    if end == "late":
        return None if None in days else max(days)
    return min((day for day in days if day), default=None)


def check_row(where, row, forecast):
    for key in ("built", "status"):
        check(where, row[key] == forecast[key], f"{key} is {row[key]}, not {forecast[key]}")
    check(where, row["heats"]["branch"] == forecast["heats"]["branch"], f"{row['heats']} for {forecast['heats']}")
    check(where, near(row["heats"]["chance_in_ten"], forecast["heats"]["chance_in_ten"]), f"{row['heats']} for {forecast['heats']}")
    for end in ("early", "late"):
        check(where, row["ready_for_turf"][end] == either_way(forecast, end), f"{end} is {row['ready_for_turf'][end]}, not {either_way(forecast, end)}")
    check(where, near(row["water_added_kg"], forecast["water_added_kg"]), f"water {row['water_added_kg']}, not {forecast['water_added_kg']}")
    screened = forecast["finished"]["screened_volume_m3"]
    for key in ("low", "likely", "high"):
        check(where, near(row["screened_volume_m3"][key], screened[key]), f"{key} {row['screened_volume_m3'][key]}, not {screened[key]}")


def half_month(day):
    return (day[:7], int(day[8:]) > 15) if day else None


def comes_to_the_same(row, first):
    """As many of ten get hot, to the half of one; the same half-months; compost and water to 1 %."""
    near_enough = lambda one, other: abs(one - other) <= 0.01 * max(abs(one), abs(other))  # noqa: E731
    likely = lambda one: one["screened_volume_m3"]["likely"] if one["screened_volume_m3"] else 0.0  # noqa: E731
    return (row["status"] == first["status"] and row["heats"]["branch"] == first["heats"]["branch"]
            and abs(row["heats"]["chance_in_ten"] - first["heats"]["chance_in_ten"]) < 0.5
            and all(half_month(row["ready_for_turf"][end]) == half_month(first["ready_for_turf"][end]) for end in ("early", "late"))
            and near_enough(likely(row), likely(first)) and near_enough(row["water_added_kg"], first["water_added_kg"]))


def check_page(where, page, found):
    """A row each, in their order, and the chart; how many of ten get hot as the forecast says it. (check_pages.py holds the screen to its lines.)"""
    check(where, "<svg" in page, "no chart")
    first, *others = found["compare"]
    told = [first, *(row for row in others if not row["same_as_it_is"])]
    table = re.search(r"<table.*?</table>", page, re.DOTALL).group(0)
    rows = re.findall(r"<tr>(.*?)</tr>", table, re.DOTALL)[1:]
    check(where, ("No difference:" in page) == (len(told) <= len(others)), "rows that make no difference are not told of, or there are none")
    units = {unit for shown in rows for unit in re.findall(r">[\d.]+ (cu ft|cu yd|L|m3)<", shown)}
    check(where, len(units) <= 1, f"compost in {units}")
    for row in found["compare"]:
        check(where, row["same_as_it_is"] == comes_to_the_same(row, first), f"{row} to {first}")
    for row, shown in zip(told, rows, strict=True):
        early, late = row["ready_for_turf"]["early"], row["ready_for_turf"]["late"]
        years = re.findall(r"\b20\d\d\b", shown)
        if early and late:
            check(where, years == sorted({early[:4], late[:4]}), f"years {years} of {early} to {late}")
        chance = round(row["heats"]["chance_in_ten"] - 0.01)
        heats = {"will": "over 9 in 10" if chance == 10 else f"{chance} in 10", "may": f"{chance} in 10", "hardly": "hardly", "not": "no"}[row["heats"]["branch"]]
        check(where, f">{heats}<" in shown, f"no {heats!r} in {shown}")


def check_rows(program, name, yard, wanted, tried):
    """@param tried the rows that are forecast again: a forecast takes most of a second"""
    page = program.folder / "page.html"
    found = program.json(program.file(yard), "--compare", "--html", page, "--force")
    check_page(name, page.read_text(encoding="utf-8"), found)
    check(name, set(found) == {"compare", "assumptions", "measure_first", "working", "cautions"}, f"keys {sorted(found)}")
    changes = [row["change"] for row in found["compare"]]
    check(name, changes == wanted, f"rows {changes}")
    check(name, len(changes) <= 8, f"{len(changes)} rows")
    for row in (row for row in found["compare"] if row["change"] in tried):
        forecast = program.json(program.file(CHANGES[row["change"]](yard), "changed.toml"))
        check_row(f"{name}, {row['change']}", row, forecast)
        if row["change"] == "as-it-is":
            check(name, found["assumptions"] == forecast["assumptions"], "other grounds than the forecast's")


def check_standing(program):
    """A pile that is there is neither larger nor built another day."""
    found = program.file(STANDING)
    changes = [row["change"] for row in program.json(found, "--compare")["compare"]]
    plain = " ".join(program.run(found, "--compare").stdout.split())
    check("standing", "It stands: its size and its day are as they are." in plain, plain)
    check("standing", "no row is wetter" not in plain, plain)
    check("standing", changes == ["as-it-is", "kept-moist", "covered", "turned-weekly", "turned-monthly", "never-turned"], changes)


def check_refused(program):
    no_pile = program.file('[climate]\nlike = "cool"\n[[supply]]\nfeedstock = "leaves"\namount = "24 leaf-bag"\n', "no-pile.toml")
    no_weather = program.file(file_of(OPEN).replace('[climate]\nlike = "cool"\n', ""), "no-weather.toml")
    for arguments, pattern in (([no_pile, "--compare"], r"no \[pile\] to change"), ([no_weather, "--compare"], r"\[climate\] is missing"),
                               ([program.file(OPEN), "--compare", "--table"], r"excludes"), ([program.file(OPEN), "--compare", "--csv"], r"excludes"),
                               ([program.file(OPEN), "--compare", "--show-working"], r"excludes")):
        result = program.run(*arguments)
        check(arguments[1:], result.returncode == 2 and not result.stdout, f"exit {result.returncode}")
        check(arguments[1:], re.search(pattern, result.stderr), f"no {pattern!r} in {result.stderr}")


def check_examples(program):
    """A bin that stands and is kept moist, where no row differs; and a hoop of which half would be too little to forecast."""
    fed = " ".join(program.run("examples/fed-bin.toml", "--compare").stdout.split())
    check("fed bin", re.search(r"late Oct 20\d\d–late Jun 20\d\d", fed), f"no years in {fed}")
    check("fed bin", "No difference: never watered, turned weekly, turned monthly, never turned." in fed and fed.count("in 10") == 1, fed)
    check("fed bin", "It is kept moist already: no row is wetter." in fed, fed)
    hoop = program.run("examples/december-hoop.toml", "--compare").stdout
    check("hoop", re.search(r"^ +half as much +- +- +- +-$", hoop, re.MULTILINE), f"no row of dashes in {hoop}")
    check("hoop", "Half as much: What a week brings is less than a bucketful" in " ".join(hoop.split()), hoop)


def check_nothing(program):
    result = program.run(program.file('[climate]\nlike = "cool"\n[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\n', "nothing.toml"), "--compare")
    check("nothing", result.returncode == 1 and "nothing yet" in " ".join(result.stdout.split()), f"{result.returncode}: {result.stdout}")


def main():
    with tempfile.TemporaryDirectory() as folder:
        program = Program(str(pathlib.Path(sys.argv[1]).resolve()), folder)
        rows = ["as-it-is", "larger", "smaller", "kept-moist", "covered", "in-spring", "turned-weekly", "never-turned"]
        check_rows(program, "open", OPEN, rows, rows)
        check_rows(program, "moist", MOIST, ["as-it-is", "larger", "smaller", "not-watered", "in-late-fall", "turned-weekly", "turned-monthly"],
                   ["larger", "not-watered", "in-late-fall"])
        for part in (check_standing, check_refused, check_examples, check_nothing):
            part(program)
    print("\n".join(checks.failures[:20]))
    print(f"{checks.count} checks of the comparison, {len(checks.failures)} failures")
    return 1 if checks.failures else 0


if __name__ == "__main__":
    sys.exit(main())
