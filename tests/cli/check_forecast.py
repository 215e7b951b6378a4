"""The forecast from outside: its JSON, CSV and table agree, options are as the file would have it, exit codes, refusals.

usage: check_forecast.py PROGRAM
"""
import csv
import datetime
import io
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
GOLDEN = ROOT / "tests" / "cli" / "golden"
EXAMPLE = ROOT / "examples" / "quarter-acre.toml"

SERIES = {"core_degc", "core_low_degc", "core_high_degc", "edge_degc", "moisture_fraction", "volatile_solids_left_fraction",
          "respiration_mg_co2c_per_g_om_day", "carbon_to_nitrogen", "air_degc"}
# Key and what it holds, null where it does not apply.
KEYS = {"built": "date", "status": "word", "ready_for_turf": "window", "mature": "window", "binding_criterion": "word or null",
        "peak_core_degc": "number", "peak_day": "count", "heats": "heats", "loss": "loss", "finished": "finished", "pile_volume_m3": "number",
        "piles": "count", "week_by_week": "flag", "water_added_kg": "number", "notes": "words", "if_watered": "instead",
        "if_built_in_warmth": "instead", "warm_enough": "date or null", "days": "series", **{key: "series" for key in SERIES}}
STATUS = {"mature", "ready-for-turf", "never"}
CHANGES = {"half-as-much-again", "greener", "packed-closer", "two-weeks-earlier"}
UNITS = ("_degc", "_fraction", "_mg_co2c_per_g_om_day")
BARE = {"date", "day", "carbon_to_nitrogen", "relative_volume"}  # a date, a number of days, ratios
FIVE_DIGITS = 5.01e-5  # the CSV's figures are rounded to five digits: by half of the last, which is at most 5e-5 of a figure

failures = []
checks = 0


def check(where, true, what):
    global checks
    checks += 1
    if not true:
        failures.append(f"{where}: {what}")


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value)


def is_date(value):
    return isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value) and datetime.date.fromisoformat(value)


def is_window(value):
    return set(value) == {"early", "likely", "late"} and all(date is None or is_date(date) for date in value.values())


def is_instead(value):
    return value is None or (set(value) == {"ready_for_turf", "mature"} and all(date is None or is_date(date) for date in value.values()))


def is_loss(value):
    wanted = {"mass_fraction", "volume_fraction", "carbon_fraction", "nitrogen_fraction"}
    return set(value) == wanted and all(is_number(part) and 0 <= part <= 1 for part in value.values())


def is_finished(value):
    screened = value["screened_volume_m3"]
    return (set(value) == {"carbon_to_nitrogen", "moisture_fraction", "mass_kg", "volume_m3", "screened_volume_m3"}
            and 0 < value["moisture_fraction"] < 1 and all(is_number(value[key]) and value[key] > 0 for key in ("mass_kg", "volume_m3"))
            and (screened is None or 0 < screened["low"] <= screened["likely"] <= screened["high"]))


def is_branch(value):
    return value is None or (set(value) == {"hot_from", "ready_for_turf", "mature"} and all(is_window(one) for one in value.values()))


def is_heats(value):
    return (set(value) == {"chance_in_ten", "branch", "if_it_heats", "if_not", "what_would_tip", "by_its_log", "log_disagrees"} and 0 <= value["chance_in_ten"] <= 10
            and is_branch(value["if_it_heats"]) and is_branch(value["if_not"])
            and isinstance(value["by_its_log"], bool) and isinstance(value["log_disagrees"], bool)
            and all(set(tip) == {"change", "chance_in_ten"} and tip["change"] in CHANGES for tip in value["what_would_tip"]))


IS = {"date": is_date, "word": lambda value: isinstance(value, str), "date or null": lambda value: value is None or is_date(value), "word or null": lambda value: value is None or isinstance(value, str),
      "window": is_window, "number": is_number, "count": lambda value: isinstance(value, int) and value >= 0, "loss": is_loss,
      "finished": is_finished, "flag": lambda value: isinstance(value, bool), "words": lambda value: all(isinstance(one, str) for one in value),
      "instead": is_instead, "heats": is_heats, "series": lambda value: isinstance(value, list) and all(is_number(one) for one in value)}


class Program:
    def __init__(self, path, folder):
        self.path, self.folder = path, folder

    def run(self, *arguments):
        return subprocess.run([self.path, *map(str, arguments)], cwd=ROOT, capture_output=True, text=True, timeout=120)

    def json(self, *arguments):
        result = self.run(*arguments, "--json")
        check(arguments, not result.stderr and "NaN" not in result.stdout, f"not clean: {result.stderr}")
        return json.loads(result.stdout), result.returncode

    def file(self, text, name="yard.toml"):
        path = pathlib.Path(self.folder, name)
        path.write_text(text, encoding="utf-8")
        return path


def check_keys(where, found):
    check(where, set(found) == set(KEYS) | {"assumptions", "measure_first", "working", "cautions"}, f"keys {sorted(set(found) ^ set(KEYS))}")
    for key, kind in KEYS.items():
        check(where, key in found and IS[kind](found[key]), f"{key} is no {kind}: {str(found.get(key))[:200]}")
    check(where, found["status"] in STATUS, f"status {found['status']}")
    check(where, found["days"] == list(range(len(found["days"]))), "days are not 0, 1, 2 …")
    for key in SERIES:
        check(where, len(found[key]) == len(found["days"]), f"{key} has {len(found[key])} days of {len(found['days'])}")
        if key.endswith("_fraction"):
            check(where, all(0 <= value <= 1 for value in found[key]), f"{key} outside 0 to 1")
    check(where, all(low < core < high for low, core, high in zip(found["core_low_degc"], found["core_degc"], found["core_high_degc"])),
          "a core outside its band")
    check(where, found["core_degc"][found["peak_day"]] == found["peak_core_degc"] == max(found["core_degc"]), "another peak")


def check_heats(where, found):
    """The branch follows from the chance, and two branches leave nothing above them."""
    heats = found["heats"]
    chance, branch = heats["chance_in_ten"], heats["branch"]
    if branch == "not":
        check(where, chance == 0, f"not, by {chance} in ten")
    else:
        wanted = "will" if chance >= 8 - 1e-6 else "may" if chance > 2 + 1e-6 else "hardly"
        check(where, branch == wanted, f"{branch} by {chance} in ten")
    has = [key for key in ("if_it_heats", "if_not") if heats[key] is not None]
    wanted = {"will": ["if_it_heats"], "may": ["if_it_heats", "if_not"], "hardly": ["if_not"], "not": ["if_not"]}[branch]
    check(where, has == wanted, f"branches {has} of a pile that {branch} heat")
    check(where, all(tip["chance_in_ten"] >= chance + 1.5 - 1e-6 for tip in heats["what_would_tip"]), "a change that hardly helps")
    top = [found[key][when] for key in ("ready_for_turf", "mature") for when in ("early", "likely", "late")]
    if branch == "may":
        check(where, all(date is None for date in top), "a date above two branches")
        shown = "core-of-those-that-heat" if chance >= 5 else "core-of-those-that-do-not"
        check(where, shown in found["notes"], f"the notes do not say that the core is {shown}")
    else:
        only = heats[has[0]]
        check(where, all(only[key] == found[key] for key in ("ready_for_turf", "mature")), "one branch, and other dates than above it")
        hot = only["hot_from"]["likely"]
        days = [day for day, core in enumerate(found["core_degc"]) if core > 45]
        first = datetime.date.fromisoformat(found["built"]) + datetime.timedelta(days=days[0]) if days else None
        check(where, hot == (str(first) if first else None), f"hot from {hot}, and above 45 degC from {first}")


def told(found):
    """The dates that a forecast is about: its own, or those of the likelier branch."""
    heats = found["heats"]
    if heats["branch"] != "may":
        return found["ready_for_turf"], found["mature"]
    branch = heats["if_it_heats"] if heats["chance_in_ten"] >= 5 else heats["if_not"]
    return branch["ready_for_turf"], branch["mature"]


def check_dates(where, found):
    far = "9999-12-31"  # ISO dates sort as text; none is as late as any
    turf, mature = told(found)
    for window in (turf, mature):
        check(where, found["built"] < (window["early"] or far) <= (window["likely"] or window["late"] or far) <= (window["late"] or far),
              f"dates out of order: {window}")
    check(where, all((turf[key] or far) <= (mature[key] or far) for key in turf), "mature before it is fit for the lawn")
    status = found["status"]
    # A pile that may go two ways comes as far as the better of them; what it leaves is told of the likelier.
    ways = [found["heats"][key] for key in ("if_it_heats", "if_not") if found["heats"][key] is not None]
    check(where, any(way["mature"]["likely"] for way in ways) == (status == "mature"), "likely mature, and the status not")
    ready = any(way["ready_for_turf"]["likely"] for way in ways)
    check(where, ready == (status in ("mature", "ready-for-turf")), "likely for the lawn, and the status not")
    check(where, (found["finished"]["screened_volume_m3"] is None) == (turf["likely"] is None), "compost of what is never ready")
    if mature["likely"]:
        last = datetime.date.fromisoformat(found["built"]) + datetime.timedelta(days=found["days"][-1])
        check(where, str(last) == mature["likely"], f"the days end on {last}")


def check_csv(where, found, text):
    rows = list(csv.DictReader(io.StringIO(text)))
    names = text.split("\n", 1)[0].split(",")
    check(where, all(name in BARE or name.endswith(UNITS) for name in names), f"a column without its unit: {names}")
    check(where, SERIES <= set(names), f"columns missing: {SERIES - set(names)}")
    check(where, len(rows) == len(found["days"]), f"{len(rows)} rows")
    built = datetime.date.fromisoformat(found["built"])
    check(where, all(row["date"] == str(built + datetime.timedelta(days=day)) and row["day"] == str(day) for day, row in enumerate(rows)),
          "days out of order")
    for key in SERIES:
        far = [day for day, row in enumerate(rows) if not math.isclose(float(row[key]), found[key][day], rel_tol=FIVE_DIGITS, abs_tol=0.0)]
        check(where, not far, f"{key} differs from the JSON on days {far[:5]}")


def check_table(where, found, text):
    weeks = [line for line in text.splitlines() if re.match(r"\s*\d{4}-\d\d-\d\d ", line)]
    built = datetime.date.fromisoformat(found["built"])
    wanted = [str(built + datetime.timedelta(days=day)) for day in found["days"][::7]]
    check(where, [line.split()[0] for line in weeks] == wanted, "not a line a week")
    heads = text.splitlines()[0].split("  ")
    check(where, all(word in [head.strip() for head in heads] for word in ("week of", "air", "core", "edge", "moisture")), f"heads {heads}")
    for line, day in zip(weeks, found["days"][::7]):
        core = int(line.split()[3])  # date, air, °C, core, °C
        check(where, abs(core - found["core_degc"][day]) <= 0.5 + 1e-9, f"core {core} on day {day}")


def check_yards(program):
    yards = [path for path in sorted(GOLDEN.glob("*.toml")) if "[climate]" in path.read_text(encoding="utf-8")] + [EXAMPLE]
    check("yards", len(yards) >= 5, "hardly any")
    seen = set()
    for path in yards:
        where = path.name
        found, code = program.json("forecast", path)
        check_keys(where, found)
        check_dates(where, found)
        check_heats(where, found)
        check(where, code == (1 if found["status"] == "never" else 0), f"exit {code} of a pile that is {found['status']}")
        seen |= {found["status"], found["heats"]["branch"]}
        result = program.run("forecast", path, "--csv")
        check(where, result.returncode == code, f"--csv: exit {result.returncode}")
        check_csv(f"{where} --csv", found, result.stdout)
        plan, _ = program.json("plan", path)
        check(where, plan["forecast"] == found, "plan has another forecast")
        check(where, (plan["supply"]["own_compost_m3"] or None) == found["finished"]["screened_volume_m3"], "plan counts on other compost")
        if path == EXAMPLE:
            # In whole litres the recipe's water is not quite what it is in whole gallons.
            si, _ = program.json("forecast", path, "--units", "si")
            check_table(f"{where} --table", si, program.run("forecast", path, "--table", "--units", "si").stdout)
            for arguments in (["--units", "si"], ["--units", "si", "--table"]):
                text = program.run("forecast", path, *arguments).stdout
                check(f"{where} {arguments}", "°F" not in text and "°C" in text, "not in °C alone")
            text = program.run("forecast", path, "--units", "us", "--table").stdout
            check(f"{where} --units us", "°C" not in text and "°F" in text, "not in °F alone")
    check("yards", seen >= {"mature", "never", "will", "may", "hardly"}, f"they only tell {seen}")


def yard_of(leaves, grass, scraps, pile, climate):
    supply = "".join(f'[[supply]]\nfeedstock = "{name}"\namount = "{amount}"\nuse = "all"\ntreated = "no"\n'
                     for name, amount in (("leaves", leaves), ("grass", grass), ("scraps", scraps)))
    return supply + f'[pile]\nshape = "bin"\nlength = "5 ft"\nwidth = "5 ft"\nheight = "4 ft"\n{pile}[climate]\nlike = "{climate}"\n'


def check_two_ways(program):
    """Piles of which some sets are given up long before others are ready: two branches, each to the end of its cure."""
    pile = 'built = 2027-04-10\nturn_every = "never"\n'
    for number, (leaves, grass, scraps, climate) in enumerate((
            ("14 leaf-bag", "14 bucket", "2 bucket", "mountain"), ("16 leaf-bag", "12 bucket", "3 bucket", "mountain"),
            ("12 leaf-bag", "12 bucket", "2 bucket", "mountain"), ("10 leaf-bag", "10 bucket", "2 bucket", "bitter"),
            ("14 leaf-bag", "10 bucket", "2 bucket", "cold"), ("8 leaf-bag", "8 bucket", "2 bucket", "high-desert"))):
        path = program.file(yard_of(leaves, grass, scraps, pile, climate), f"two-ways-{number}.toml")
        found, code = program.json("forecast", path)
        check(path.name, code == (1 if found["status"] == "never" else 0), f"exit {code} of {found['status']}")
        check_keys(path.name, found)
        check_heats(path.name, found)
        branches = [branch for branch in (found["heats"]["if_it_heats"], found["heats"]["if_not"]) if branch]
        ready = any(branch["ready_for_turf"]["likely"] for branch in branches)
        check(path.name, (found["status"] == "never") == (not ready), f"{found['status']}, and the branches are {branches}")
        mature = told(found)[1]["likely"]
        if mature:
            last = datetime.date.fromisoformat(found["built"]) + datetime.timedelta(days=found["days"][-1])
            check(path.name, str(last) == mature, f"the days end on {last}, mature is {mature}")
        screen = program.run("forecast", path, "--why").stdout
        both = "  if it gets hot" in screen and ("  if it does not:" in screen or "  if it gets hot only later" in screen)
        check(path.name, both == (found["heats"]["branch"] == "may" and ready), "the screen has not both branches")


def check_logs(program):
    """What a log of the pile rules out, and what it cannot."""
    base = (GOLDEN.parents[1] / "data" / "one_load.toml").read_text(encoding="utf-8").replace("built = 2026-11-07", "built = 2026-10-15")
    def heats_with(readings, name):
        text = base + "".join(f'[[reading]]\ndate = {date}\ncore = "{degf} degF"\n' for date, degf in readings)
        return program.json("plan", program.file(text, name))[0]["forecast"]["heats"]
    def days_of(first, count):
        return [str(datetime.date.fromisoformat(first) + datetime.timedelta(days=day)) for day in range(count)]
    without = heats_with([], "no-log.toml")
    late = heats_with([(day, 55) for day in days_of("2026-12-10", 6)], "late-log.toml")
    check("late log", late["chance_in_ten"] == without["chance_in_ten"] and not late["by_its_log"], "a log of December tells of October")
    hot = heats_with([(day, 130) for day in days_of("2026-10-20", 6)], "hot-log.toml")
    check("hot log", hot["chance_in_ten"] == 10 and hot["branch"] == "will", f"a hot pile will {hot['branch']}")
    cold = heats_with([(day, 60) for day in days_of("2026-10-16", 32)], "cold-log.toml")
    check("cold log", cold["log_disagrees"] or cold["branch"] in ("hardly", "not"), f"a cold pile {cold['branch']}")
    if cold["log_disagrees"]:
        screen = " ".join(program.run("plan", "--why", program.file(base + "".join(
            f'[[reading]]\ndate = {day}\ncore = "60 degF"\n' for day in days_of("2026-10-16", 32)), "cold-screen.toml")).stdout.split())
        check("cold log", "do not go by its dates" in screen and "for the lawn" not in screen, "dates of a forecast that the log denies")


def check_hot_by_its_log(program):
    """A pile that got hotter than forecast is not a faulty one."""
    yard = ('[[supply]]\nfeedstock = "leaves"\namount = "10 leaf-bag"\n[[supply]]\nfeedstock = "grass"\namount = "10 bucket"\ntreated = "no"\n'
            '[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\nbuilt = 2026-10-31\n[climate]\nlike = "cool"\n')
    log = program.file("time,core degF,event\n" + "".join(f"2026-11-{day:02d},{degrees},\n" for day, degrees in (
        (2, 135), (3, 135), (4, 135), (6, 138), (8, 138), (10, 140), (12, 140), (20, 110), (28, 80))), "hot.csv")
    screen = " ".join(program.run("readings", program.file(yard, "hot.toml"), "--log", log, "--why").stdout.split())
    check("hot by its log", "look for what is wrong" not in screen and "likelier to get hot" not in screen, screen)


def check_gain_by_water(program):
    """Water that makes nothing ready sooner is not said to."""
    yard = ('[[supply]]\nfeedstock = "leaves-fall"\namount = "25 bags"\n[[supply]]\nfeedstock = "kitchen-scraps"\nestimate = { people = 4 }\n'
            'when = { every = "week" }\n[pile]\nshape = "round"\ndiameter = "4 ft"\nheight = "3 ft"\nbuilt = 2026-11-01\nfilled = "as-it-comes"\n'
            'turn_every = "30 days"\n[climate]\nlike = "Ohio"\n')
    path = program.file(yard, "fed.toml")
    screen = " ".join(program.run("forecast", path, "--why").stdout.split())
    likely = re.search(r"Lawn between .*?, most likely (\w+ \w+ \d+)", screen)
    said = re.search(r"so it would be ready for the lawn about (\w+ \w+ \d+)", screen)
    check("water", not (likely and said and likely.group(1) == said.group(1)), screen)


def check_odd_stuff(program):
    """What hardly rots, and what a screen holds back whole."""
    soil = '[[supply]]\nfeedstock = "garden-soil"\namount = "1 yd3"\nuse = "all"\n[climate]\nlike = "cool"\n'
    result = program.run("forecast", program.file(soil, "soil.toml"))
    check("soil", result.returncode == 1 and "Nothing in it rots" in result.stdout, f"exit {result.returncode}: {result.stdout[:200]}")
    chips = '[[feedstock]]\nid = "pure-chips"\nname = "pure chips"\nlike = "wood-chips"\nmoisture_wet_basis = "40 %"\n' \
            'carbon_dry_basis = "50 %"\ncarbon_to_nitrogen = "300:1"\nvolatile_solids_dry_basis = "100 %"\nbulk_density = "450 lb/yd3"\n'
    rows = program.file(chips, "chips-rows.toml")
    yard = program.file('[[supply]]\nfeedstock = "pure-chips"\namount = "1 yd3"\nuse = "all"\n', "pure-chips.toml")
    result = program.run("plan", yard, "--materials", rows)
    check("pure chips", result.returncode == 0 and not result.stderr, f"exit {result.returncode}: {result.stderr[:200]}")


def check_what_if(program):
    """An option is as good as the file with that line."""
    example = EXAMPLE.read_text(encoding="utf-8")
    pile_height = 'width = "4 ft"\nheight = "4 ft"'
    dry = (GOLDEN / "dry-pile.toml").read_text(encoding="utf-8")
    for name, text, options, old, new in (
        ("built", example, ["--built", "2027-05-20"], "built = 2026-10-24", "built = 2027-05-20"),
        ("turning", example, ["--turn-every", "5 days"], 'turn_every = "14 days"', 'turn_every = "5 days"'),
        ("never turned", example, ["--turn-every", "never"], 'turn_every = "14 days"', 'turn_every = "never"'),
        ("height", example, ["--height", "1 ft"], pile_height, 'width = "4 ft"\nheight = "1 ft"'),
        ("moist", dry, ["--keep-moist"], "covered = true", "covered = true\nkeep_moist = true"),
    ):
        check(name, text.count(old) == 1, "the file has changed")
        before = program.file(text, "before.toml")
        after = program.file(text.replace(old, new), "after.toml")
        by_option, code = program.json("forecast", before, *options)
        by_file, code_of_file = program.json("forecast", after)
        check(name, by_option == by_file and code == code_of_file, "the option is not as the file has it")
        check(name, by_option["core_degc"] != program.json("forecast", before)[0]["core_degc"], "the option changes nothing")
        screen = program.run("forecast", after).stdout
        check(name, ("never turned" in screen) == ("never" in new or text == dry), "the screen tells another turning")


def check_nothing(program):
    """Nothing, or too little, to build a pile of: exit 1, every key there, and something said."""
    nothing = '[climate]\nlike = "cool"\n'
    little = nothing + '[[supply]]\nfeedstock = "leaves"\namount = "3 L"\n'
    for name, text, said in (("nothing", nothing, "nothing yet"), ("little", little, "too little")):
        path = program.file(text)
        found, code = program.json("forecast", path)
        check(name, code == 1, f"exit {code}")
        check(name, set(found) == set(KEYS) | {"assumptions", "measure_first", "working", "cautions"}, f"keys {sorted(set(found) ^ set(KEYS))}")
        check(name, all(found.get(key) is None for key in KEYS), "a key that is not null")
        for option in ([], ["--table"]):
            result = program.run("forecast", path, *option)
            check(name, result.returncode == 1 and said in " ".join(result.stdout.split()), f"{option} says {result.stdout!r}")
        result = program.run("forecast", path, "--csv")
        check(name, result.returncode == 1 and result.stdout.startswith("date,day,") and result.stdout.count("\n") == 1,
              f"--csv says {result.stdout!r}")


def check_never(program):
    """A pile that is never ready gives the lawn nothing."""
    lawn = '[[lawn.zone]]\nshape = "area"\narea = "1000 ft2"\n'
    path = program.file((GOLDEN / "dry-pile.toml").read_text(encoding="utf-8") + lawn)
    plan, code = program.json("plan", path)
    check("never", code == 0, f"exit {code}")
    check("never", plan["forecast"]["status"] == "never", plan["forecast"]["status"])
    check("never", plan["supply"]["own_compost_m3"] is None, "there is compost")
    check("never", plan["supply"]["to_buy_m3"] == plan["supply"]["needed_m3"] > 0, "not all is to buy")
    screen = program.run("plan", path).stdout
    check("never", "not ready within three years" in " ".join(screen.split()), "the plan does not say so")


def check_refused(program):
    leaves = '[[supply]]\nfeedstock = "leaves"\namount = "24 leaf-bag"\n'
    weather = '[climate]\nlike = "cool"\n'
    bare = program.file(leaves, "bare.toml")
    no_pile = program.file(leaves + weather, "no-pile.toml")
    tumbler = program.file(leaves + weather + '[pile]\nshape = "tumbler"\nvolume = "60 gal"\n', "tumbler.toml")
    turned = program.file(leaves + weather + '[pile]\nshape = "tumbler"\nvolume = "60 gal"\nturn_every = "0 days"\n', "turned.toml")
    for arguments, pattern in (
        ([bare], r"bare\.toml: \[climate\] is missing.*coldest_month"),
        ([EXAMPLE, "--built", "2027-02-30"], r'--built: "2027-02-30" is no day of the calendar'),
        ([EXAMPLE, "--built", "in spring"], r'--built: "in spring" is no date.*2026-11-07'),
        ([EXAMPLE, "--turn-every", "often"], r'--turn-every: "often"'),
        ([EXAMPLE, "--turn-every", "14"], r'--turn-every: "14" has no unit'),
        ([EXAMPLE, "--turn-every", "0 days"], r'--turn-every: "0 days" is no time from one turning to the next.*never'),
        ([EXAMPLE, "--turn-every", "3 hours"], r'--turn-every: "3 hours" is no time from one turning'),
        ([EXAMPLE, "--turn-every", "2000 days"], r'--turn-every: "2000 days" is no time from one turning'),
        ([turned], r'turned.toml:9:14: turn_every: "0 days" is no time'),
        ([EXAMPLE, "--height", "3 lb"], r'--height: "3 lb" is a weight'),
        ([EXAMPLE, "--height", "0 ft"], r'--height: "0 ft" is no side of a pile'),
        ([EXAMPLE, "--height", "3"], r'--height: "3" has no unit'),
        ([tumbler, "--height", "3 ft"], r"--height: a tumbler is not measured by it"),
        ([no_pile, "--height", "3 ft"], r"no \[pile\] to change.*add \[pile\]"),
        ([no_pile, "--turn-every", "never"], r"no \[pile\] to change"),
        ([no_pile, "--built", "2027-04-10"], r"no \[pile\] to change"),
        ([no_pile, "--keep-moist"], r"no \[pile\] to change"),
        ([EXAMPLE, "--table", "--csv"], r"--table excludes --csv|--csv excludes --table"),
        ([], r"file"),
        (["nowhere.toml"], r"nowhere.toml"),
    ):
        result = program.run("forecast", *arguments)
        where = " ".join(map(str, arguments[1:])) or str(arguments)
        check(where, result.returncode == 2, f"exit {result.returncode}")
        check(where, not result.stdout, "standard output is not empty")
        check(where, re.search(pattern, result.stderr, re.DOTALL), f"no {pattern!r} in {result.stderr}")


def main():
    with tempfile.TemporaryDirectory() as folder:
        program = Program(str(pathlib.Path(sys.argv[1]).resolve()), folder)
        for part in (check_yards, check_two_ways, check_logs, check_hot_by_its_log, check_gain_by_water, check_odd_stuff, check_what_if, check_nothing, check_never, check_refused):
            part(program)
    print("\n".join(failures))
    print(f"{checks} checks of the forecast, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
