"""A plan through its year, from outside: what is to be done when can be done with what there is, in its season and in the order of the trade;
plan, `season`, `forecast`, screen and JSON say the same. Odd yards end well: a message or an answer, and no figure that none can be.

usage: check_year.py PROGRAM
"""
import calendar as months_of
import concurrent.futures
import datetime
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

from arithmetic import CUBIC_METRES, MONTHS, Checks

check = Checks()
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
YARDS = ["quarter-acre", "tumbler", "december-hoop", "spring-yard", "fed-bin", "leaves-only", "clippings-only"]
DAYS = ["2026-11-28", "2027-04-01", "2027-07-01"]
MOST_LINES, MOST_COLUMNS = 22, 80
HANDLED = ("turn", "rotate", "squeeze", "cover")  # with a fork, or on a pile that still rots
WEEK = datetime.timedelta(days=7)
ROUNDING = 1e-9  # of sums of a few doubles, relative


def day(text):
    return datetime.date.fromisoformat(text)


def plain(text):
    return " ".join(text.split())


class Asked:
    """All that is said of one yard on one day."""

    def __init__(self, program, path, today):
        self.where, self.path, self.today = f"{path.stem} on {today}", path, day(today)
        self.file = tomllib.loads(path.read_text())
        self.program = program
        self.plan = json.loads(self.run("plan", "--json"))
        self.text, self.season_text = self.run("plan"), self.run("season")
        self.season = json.loads(self.run("season", "--json"))
        self.calendar = self.plan["calendar"]
        self.stands = self.plan["stands"]

    def run(self, command, *options):
        done = subprocess.run([self.program, command, str(self.path), "--today", str(self.today), *options], capture_output=True, text=True, timeout=120)
        check(done.returncode in (0, 1) and not done.stderr, f"{self.where}: {command} {options} exits {done.returncode}: {done.stderr}")
        return done.stdout

    def __call__(self, right, what):
        check(right, f"{self.where}: {what}")

    def supplies(self):
        return {number: supply for number, supply in enumerate(self.file.get("supply", []), 1)}

    def chores(self, *ids):
        return [chore for chore in self.calendar if chore["id"] in ids]


def in_season(supply, month):
    """Whether some of a supply comes in a month, 1 to 12."""
    when = supply.get("when")
    if not when:
        return True
    if "months" in when:
        return MONTHS[month - 1] in when["months"]
    first, last = MONTHS.index(when.get("from", "Jan")) + 1, MONTHS.index(when.get("to", "Dec")) + 1
    return first <= month <= last if first <= last else month >= first or month <= last


def times_of(chore):
    """How often a chore is done."""
    return (day(chore["to"]) - day(chore["from"])).days // chore["every_days"] + 1 if chore["every_days"] else 1


def check_chores(asked):
    """Each has its days, to come, and its reason."""
    for chore in asked.calendar:
        asked(asked.today <= day(chore["from"]) <= day(chore["to"]), f"{chore['id']} from {chore['from']} to {chore['to']}")
        asked(chore["why"] and chore["source"] and chore["chore"], f"{chore['id']} without a reason or a source: {chore}")
        for amount in chore["amounts"]:
            asked(amount["mass_kg"] > 0.0 and amount["volume_m3"] > 0.0, f"{chore['id']}: nothing of {amount['id']}: {amount}")


def check_kept(asked, season):
    """What is kept when the store is fullest is as much as goes in from then on, till it runs out."""
    for held in season["hold_back"]:
        if not held["lasts_to"]:
            continue
        first = MONTHS.index(held["fullest"]) + 1
        months = [season["months"][(first + later) % 12] for later in range((MONTHS.index(held["lasts_to"]) - first) % 12 + 1)]
        of = [next(one for one in month["feedstocks"] if one["supply"] == held["supply"]) for month in months]
        used = sum(one["used_m3"] - one["in_m3"] for one in of)
        # The linear programme keeps its rows to 1e-7.
        asked(used <= held["volume_m3"] * (1.0 + 1e-6), f"{held['volume_m3']:.4f} m3 of supply {held['supply']} are kept, {used:.4f} m3 go in till {held['runs_out']}")


def check_feeding(asked):
    """Fed with what the months have of it, in its season."""
    season, supplies = asked.plan["season"], asked.supplies()
    if not season:
        asked(not asked.chores("feed"), "fed without a season")
        return
    check_kept(asked, season)
    fed, one_week, months = {}, {}, {}
    for chore in asked.chores("feed"):
        asked(chore["every_days"] in (7, None), f"fed every {chore['every_days']} days")
        dates = [day(chore["from"]) + n * WEEK for n in range(times_of(chore))]
        for amount in chore["amounts"]:
            number, supply = amount["supply"], supplies[amount["supply"]]
            out = [date for date in dates if not in_season(supply, date.month)]
            asked(supply.get("storable") or "months" in supply.get("when", {}) or not out,
                  f"{amount['id']} fed out of its season: {out[:1]} in a chore of {chore['from']} to {chore['to']}")
            fed[number] = fed.get(number, 0.0) + len(dates) * amount["volume_m3"]
            one_week[number] = one_week.get(number, 0.0) + amount["volume_m3"]
            # The weeks are a mean from the day on which the season begins, a week before it is first fed.
            months.setdefault(number, set()).update((date.year, date.month) for date in [dates[0] - WEEK, *dates])
    for number, volume in fed.items():
        of = {m: next(one for one in month["feedstocks"] if one["supply"] == number)["used_m3"] for m, month in enumerate(season["months"], 1)}
        there = sum(of[month] for _, month in months[number])
        # A week is a mean of its months. A run of days that is no whole number of weeks has one feeding day more than its mean: of each chore
        # at most one week's worth.
        asked(volume <= there + one_week[number] * (1.0 + ROUNDING),
              f"supply {number}: {volume:.4f} m3 are fed over the weeks, their months have {there:.4f} m3, a week's is {one_week[number]:.4f} m3")


def check_order_of_work(asked):
    """Of each pile: fed, turned, rested, tested, screened; one chore of a kind at a time."""
    for pile in {chore["pile"] for chore in asked.calendar} - {None}:
        of = [chore for chore in asked.calendar if chore["pile"] == pile]
        rest = [day(chore["from"]) for chore in of if chore["id"] == "cure"]
        screened = [day(chore["from"]) for chore in of if chore["id"] == "screen"]
        batch = asked.plan["batches"][pile - 1] if pile <= len(asked.plan["batches"]) else None
        if batch and batch["ready_for_turf"]["likely"]:
            rest = rest or [max(asked.today, day(batch["ready_for_turf"]["likely"]) - datetime.timedelta(days=30))]
        for chore in of:
            if chore["id"] == "feed" and rest:
                asked(day(chore["to"]) <= rest[0], f"pile {pile} is fed till {chore['to']} and rests from {rest[0]}")
            if chore["id"] in HANDLED and screened:
                asked(day(chore["to"]) <= screened[0], f"pile {pile}: {chore['id']} till {chore['to']}, screened on {screened[0]}")
            if chore["id"] in HANDLED[:3] and rest:
                asked(day(chore["to"]) <= rest[0], f"pile {pile}: {chore['id']} till {chore['to']}, rests from {rest[0]}")
        feeds = sorted((day(chore["from"]), day(chore["to"])) for chore in of if chore["id"] == "feed")
        for (_, before), (after, _) in zip(feeds, feeds[1:]):
            asked(before < after, f"pile {pile} is fed twice at a time: till {before} and from {after}")
    for sample in asked.chores("soil-sample"):
        for spread in asked.chores("topdress", "order"):
            asked(day(sample["from"]) < day(spread["from"]), f"soil sample on {sample['from']}, {spread['id']} on {spread['from']}")
    weekly = sorted((day(chore["from"]), day(chore["to"]), chore["pile"]) for chore in asked.chores("feed"))
    for one, other in zip(weekly, weekly[1:]):
        asked(one[1] < other[0], f"one week's greens go into two piles: {one} and {other}")


def check_batches(asked):
    """The dates of the fillings are those of the calendar."""
    for number, batch in enumerate(asked.plan["batches"], 1):
        ready = batch["ready_for_turf"]
        known = [ready[key] for key in ("early", "likely", "late") if ready[key]]
        asked(known == sorted(known), f"pile {number} is ready {known}")
        asked(day(batch["from"]) <= day(batch["until"]), f"pile {number} from {batch['from']} until {batch['until']}")
        asked((batch["screened_volume_m3"] is None) == (ready["likely"] is None), f"pile {number}: {batch['screened_volume_m3']} of {ready}")
        tests = [chore for chore in asked.chores("test") if chore["pile"] == number]
        if ready["likely"] and day(ready["likely"]) >= asked.today:
            asked([chore["from"] for chore in tests] == [ready["likely"]], f"pile {number} is ready on {ready['likely']}, its tests are {tests}")
        if not ready["likely"]:
            asked(not tests, f"pile {number} is never ready and is tested: {tests}")
    for before, after in zip(asked.plan["batches"], asked.plan["batches"][1:]):
        asked(before["until"] < after["from"], f"a filling until {before['until']}, the next from {after['from']}")


def check_forecast(asked):
    if not asked.plan["forecast"] or asked.plan["readings"]:
        return  # which by its readings is another
    alone = json.loads(asked.run("forecast", "--json"))
    of_plan = asked.plan["forecast"]
    for key in of_plan:
        if key in alone:
            asked(alone[key] == of_plan[key], f"forecast and plan do not agree on {key}: {str(alone[key])[:80]} and {str(of_plan[key])[:80]}")
    if not asked.plan["batches"]:
        return
    first = asked.plan["batches"][0]["ready_for_turf"]
    windows = [of_plan["ready_for_turf"]] + [of_plan["heats"][branch]["ready_for_turf"] for branch in ("if_it_heats", "if_not") if of_plan["heats"][branch]]
    watered = of_plan.get("if_watered")  # of one that stalls, as its chores water it
    asked(first in windows or not first["likely"] or (watered and not first["early"] and not first["late"]), f"the first pile is ready {first}, the forecast has {windows}")


def check_season(asked):
    """`season` and plan are of one year; what the weeks say is fed."""
    of_plan = asked.plan["season"]
    if not of_plan:
        return
    for key in of_plan:
        asked(of_plan[key] == asked.season[key], f"season and plan do not agree on {key}")
    weeks = [sorted((one["supply"], one["mass_kg"]) for one in week["greens"] + week["browns"]) for week in of_plan["weeks"]]
    for chore in asked.chores("feed"):
        amounts = sorted((one["supply"], one["mass_kg"]) for one in chore["amounts"])
        asked(amounts in weeks, f"what is fed from {chore['from']} on is in no week of the season: {amounts}")


def section(text, name):
    """A label of the act screen with its lines."""
    lines, found = [], False
    for line in text.split("\n"):
        if re.match(rf"{name}\s", line):
            found = True
            lines.append(line[len(name):].strip())
        elif found and line.startswith("  "):
            lines.append(line.strip())
        elif found:
            break
    return " ".join(lines)


def each_week(text):
    """Of `season`: months and browns of each line."""
    body = plain(text.partition("Each week")[2])
    return [(months.replace("All", "all"), what) for months, what in re.findall(r"\d\. (\w{3} to \w{3}|\w{3}|All year): (.*?)\.(?= \d\. |\D|$)", body)]


def browns_of(line):
    found = re.search(r"with ([^;]*?) of (?:autumn )?leaves", line)
    return found[1] if found else None


def check_words(asked):
    """What the screens say of the weeks, and how long browns last."""
    text, season_text = plain(asked.text), plain(asked.season_text)
    season = asked.plan["season"]
    dates = {held["runs_out"] for held in season["hold_back"] if held["runs_out"]} if season else set()
    in_plan = re.findall(r"Browns last to (.*?)(?:;|\.)", text)
    in_season_ = re.findall(r"they last to (.*?)\.", season_text)
    for words in in_plan:
        asked(words in in_season_, f"browns last to {words!r} in the plan, {in_season_} in `season`")
    for words in in_plan + in_season_:
        year, month = re.search(r"(\d{4})", words)[1], re.search(r"[A-Z][a-z]{2}", words)[0]
        fit = [one for one in dates if one[:4] == year and MONTHS[int(one[5:7]) - 1] == month and half_fits(words, day(one))]
        asked(fit, f"browns last to {words!r} on the screen, {dates} in the JSON")
    if in_season_ and not asked.stands and section(asked.text, "Later") and asked.file.get("pile", {}).get("shape") != "tumbler":
        asked(in_plan, f"`season` says how long browns last, {in_season_}, and the plan does not")
    if asked.file.get("pile", {}).get("shape") == "tumbler":
        return
    told = dict(each_week(asked.season_text))
    later = section(asked.text, "Later").replace("each week, ", "")
    for months, what in re.findall(r"(\w{3} to \w{3}|all year|\b[A-Z][a-z]{2}): (.*?)(?= \w{3} to \w{3}:| Browns last| Leave other|$)", later):
        asked(months in told, f"the plan's {months!r} is no line of `season`: {list(told)}")
        browns = re.search(r"\+ ([^+]*?) of leaves", what)
        asked((browns[1] if browns else None) == browns_of(told.get(months, "")), f"{months}: {what!r} in the plan, {told.get(months)!r} in `season`")
    for fed, with_it in re.findall(r"cover scraps 8 in \(20 cm\) deep: (.*?), with (.*?)\.(?: \d\. | Expect| \w)", text):
        asked(f"{fed}, with {with_it}" in season_text, f"the plan feeds {fed!r} with {with_it!r}, which `season` does not say: {list(told.items())}")


def half_fits(words, date):
    """Whether "the end of Sep", "early Sep" or "late Sep" is the date."""
    last = months_of.monthrange(date.year, date.month)[1]
    if "end of" in words:
        return date.day == last
    return date.day <= 15 if "early" in words else date.day >= 15


AREA = r"([\d.,]+|none) of ([\d,]+) sq ft"


def check_lawn(asked):
    """What the compost covers: the line on the screen is one of the dates of the JSON."""
    covers = section(asked.text, "Covers")
    times = asked.plan["supply"]["by_date"]
    for time in times:
        own, needed, buy = time["own_compost_m3"]["likely"], time["needed_m3"], time["to_buy_m3"]
        asked(abs(own + buy - needed) <= ROUNDING * needed and min(own, buy) >= 0.0, f"{own} and {buy} to buy are not {needed}")
    if not covers or not times:
        return
    square_foot = CUBIC_METRES["ft3"] ** (2.0 / 3.0)
    shown = re.search(AREA, covers)
    if not shown:
        asked("all of" in covers, f"Covers: {covers}")
        return
    feet = 0.0 if shown[1] == "none" else float(shown[1].replace(",", ""))
    if "once it is done" in covers:
        asked(not asked.plan["batches"], f"Covers {covers!r}, and it is known when: {asked.plan['batches'][:1]}")
        near = abs((asked.plan["supply"]["own_compost_m3"]["likely"] / times[0]["needed_m3"]) - feet / float(shown[2].replace(",", ""))) <= 0.05
        asked(near, f"Covers {covers!r} by {asked.plan['supply']}")
        return
    month = re.match(r"([A-Z][a-z]{2}) (\d{4}):", covers)
    fit = [time for time in times if not month or (time["from"][:4] == month[2] and MONTHS[int(time["from"][5:7]) - 1] == month[1])]
    # Areas are shown to two figures: half a unit of the second is at most a twentieth.
    near = [time for time in fit if abs(time["covers_m2"] / square_foot - feet) <= 0.05 * feet + 0.5]
    asked(near, f"Covers {covers!r}, by date {[(time['from'], time['covers_m2'] / square_foot) for time in fit]} sq ft")


BUILD = re.compile(r"^(\d\. )?(Take|Lay) [\d/ ]+|\b(fill|build) (the|one) (bin|tumbler|round bin|pile|hoop|heap)\b|^On it ", re.MULTILINE)
STANDS = re.compile(r"In the (bin|pile|tumbler|round bin) since|, filled on |\bstands\b|put none of this in again")


def check_screen(asked):
    lines = asked.text.rstrip("\n").split("\n")
    asked(len(lines) <= MOST_LINES, f"the screen has {len(lines)} lines, more than {MOST_LINES}")
    asked(max(map(len, lines)) <= MOST_COLUMNS, f"a line of {max(map(len, lines))} columns")
    says_build, says_stands = BUILD.search(asked.text), STANDS.search(asked.text)
    asked(not (says_build and says_stands), f"says both {says_build and says_build[0]!r} and {says_stands and says_stands[0]!r}")
    if asked.stands:
        asked(not says_build, f"a pile that stands {asked.stands} is built again: {says_build and says_build[0]!r}")
        asked(not asked.chores("build"), f"a pile that stands {asked.stands} has a chore to build it")
    asked("nan" not in asked.text.lower().split() and "inf" not in asked.text.lower().split(), "a figure that is none")


def figures(value, name=""):
    """Every number of an answer with its name."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from figures(inner, f"{name}/{key}")
    elif isinstance(value, list):
        for inner in value:
            yield from figures(inner, name)
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        yield name, value


# Temperatures; what takes up water loses less than nothing; raw compost takes nitrogen from the soil.
MAY_BE_NEGATIVE = re.compile(r"degc|/loss/mass_fraction|nitrogen_available")


def check_figures(where, answer):
    for name, value in figures(answer):
        check(math.isfinite(value), f"{where}: {name} is {value}")
        check(value >= -1e-9 or MAY_BE_NEGATIVE.search(name), f"{where}: {name} is {value}, below nothing")


def check_yard(program, path, today):
    asked = Asked(program, path, today)
    for one in (check_chores, check_feeding, check_order_of_work, check_batches, check_forecast, check_season, check_words, check_lawn, check_screen):
        one(asked)
    check_figures(asked.where, asked.plan)
    check_figures(asked.where, asked.season)


def supply(feedstock, amount, more=""):
    return f'[[supply]]\nfeedstock = "{feedstock}"\namount = "{amount}"\n{more}'


def load(date, feedstock=None, amount=None, more=""):
    return f"[[load]]\ndate = {date}\n" + (f'feedstock = "{feedstock}"\namount = "{amount}"\n' if feedstock else "") + more


def a_bin(more=""):
    return '[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\n' + more


LEAVES = supply("leaves-fall", "24 leaf-bag", 'when = { months = ["Oct", "Nov"] }\nstorable = true\n')
CLIPPINGS = supply("grass-clippings", "6 bucket", 'treated = "no"\nwhen = { every = "week", from = "Apr", to = "Oct" }\n')
SCRAPS = supply("kitchen-scraps", "1 bucket", 'when = { every = "week" }\n')
HOUSEHOLD = LEAVES + CLIPPINGS + SCRAPS
STRAW = '[[supply]]\nfeedstock = "straw"\nbought = true\nprice = 8\nunit = "1 straw-bale"\n'
WEATHER = '[climate]\ncoldest_month = "30 degF"\nwarmest_month = "76 degF"\n'
LAWN = '[[lawn.zone]]\nshape = "area"\narea = "1000 ft2"\n'
AROUND = WEATHER + LAWN
TUMBLER = '[pile]\nshape = "tumbler"\nvolume = "60 gal"\n'
SOUTH = '[climate]\nmean_air_temperature = ["22 degC", "22 degC", "20 degC", "16 degC", "12 degC", "9 degC", "8 degC", "9 degC", "12 degC", "15 degC", "18 degC", "21 degC"]\n'
EIGHT_BAGS = load("2026-10-01", "leaves-fall", "8 leaf-bag")
MANY = "".join(load(f"2026-{1 + i // 130:02}-{1 + i % 28:02}", ["leaves-fall", "kitchen-scraps"][i % 2], "0.1 bucket") for i in range(1500))

# Odd yards: what they are, and what must be said on the screen, or refused.
ODD = {
    "loads before the day of the pile": (HOUSEHOLD + a_bin("built = 2026-11-07\n") + AROUND + EIGHT_BAGS, r"since Thursday, Oct 1, 2026"),
    "loads of no supply": (SCRAPS + a_bin() + AROUND + EIGHT_BAGS, r"8 leaf bags of autumn leaves"),
    "loads and no supplies": (a_bin() + AROUND + EIGHT_BAGS + load("2026-10-02", "grass-clippings", "8 bucket", 'treated = "no"\n'), r"Covers  Sep 2027: \d+ of"),
    "1500 loads": (HOUSEHOLD + a_bin() + AROUND + MANY, r"75 buckets of autumn leaves"),
    "a million buckets": (HOUSEHOLD + a_bin() + AROUND + load("2026-10-01", "leaves-fall", "1000000 bucket"), r"1000000 buckets"),
    "water alone": (HOUSEHOLD + a_bin() + AROUND + load("2026-10-01", more='water = "10 gal"\n'), r"10 gallons of water"),
    "a gram": (HOUSEHOLD + a_bin() + AROUND + load("2026-10-01", "leaves-fall", "1 g"), r"."),
    "a load of urea": (LEAVES + a_bin() + AROUND + load("2026-10-01", "urea", "5 lb"), r"urea"),
    "standing bin": (HOUSEHOLD + a_bin("standing = true\n") + AROUND, r"stands"),
    "standing and nothing on hand": (a_bin("standing = true\n") + AROUND, r"what went in"),
    "standing and loaded": (HOUSEHOLD + a_bin("standing = true\n") + AROUND + EIGHT_BAGS, r"In the bin since"),
    "standing, built next year": (HOUSEHOLD + a_bin("standing = true\nbuilt = 2028-05-01\n") + AROUND, r"stands"),
    "standing tumbler": (HOUSEHOLD + TUMBLER + "standing = true\n" + AROUND, r"tumbler stands"),
    "built ten years ago": (HOUSEHOLD + a_bin("built = 2017-04-01\n") + AROUND, r"should be compost"),
    "built next year": (HOUSEHOLD + a_bin("built = 2028-04-01\n") + AROUND, r"Apr 1, 2028: (fill|start) the bin"),
    "only bought browns": (STRAW + a_bin() + AROUND, r"."),
    "bought browns and scraps": (SCRAPS + STRAW + a_bin() + AROUND, r"straw"),
    "only urea": (supply("urea", "5 lb") + a_bin() + AROUND, r"."),
    "only treated clippings": (supply("grass-clippings", "12 bucket", 'treated = "yes"\n') + a_bin() + AROUND, r"weedkiller"),
    "no lawn": (HOUSEHOLD + a_bin("built = 2026-10-24\n") + WEATHER, r"filled on"),
    "no weather": (HOUSEHOLD + a_bin("built = 2026-10-24\n") + LAWN, r"Covers  once it is done"),
    "no weather and loads": (HOUSEHOLD + a_bin() + LAWN + EIGHT_BAGS, r"Covers  once it is done"),
    "three bins": (HOUSEHOLD + a_bin("built = 2026-10-24\ncount = 3\n") + AROUND, r"[Ss]econd pile"),
    "leaves in every month": (supply("leaves-fall", "24 leaf-bag", f"when = {{ months = {json.dumps(MONTHS)} }}\nstorable = true\n") + SCRAPS + a_bin("built = 2026-10-24\n") + AROUND, r"."),
    "southern months": (LEAVES.replace('"Oct", "Nov"', '"Apr", "May"') + CLIPPINGS.replace("Apr", "Sep", 1).replace('to = "Oct"', 'to = "Apr"') + SCRAPS + a_bin("built = 2027-05-08\n") + SOUTH + LAWN, r"(fill|start) the bin"),
    "29 February": (HOUSEHOLD + a_bin("built = 2028-02-29\n") + AROUND, r"Feb 29, 2028"),
    "frozen all year": (HOUSEHOLD + a_bin("built = 2026-12-24\n") + '[climate]\ncoldest_month = "-40 degF"\nwarmest_month = "20 degF"\n' + LAWN, r"."),
    "a desert": (HOUSEHOLD + a_bin("built = 2026-12-24\n") + '[climate]\ncoldest_month = "80 degF"\nwarmest_month = "110 degF"\nrain = "0 in"\n' + LAWN, r"."),
    "few leaves and nothing green": (supply("leaves-fall", "2 leaf-bag") + a_bin() + AROUND, r"that is no failure.*grass clippings\s+that\s+nobody\s+treated\s+with\s+weedkiller"),
    "loads, and on hand leaves alone": (LEAVES + a_bin() + AROUND + load("2026-10-02", "kitchen-scraps", "5 bucket"), r"In the bin since"),
    "a year without a balance": (supply("leaves-fall", "15 leaf-bag", 'when = { months = ["Oct", "Nov"] }\nstorable = true\n') + SCRAPS + CLIPPINGS + load("2027-05-08", more='water = "1 gal"\n'), r"."),
}
REFUSED = {
    "standing without a size": (HOUSEHOLD + "[pile]\nstanding = true\n", r"pile: length is missing"),
    "2001 loads": (HOUSEHOLD + a_bin() + 2001 * EIGHT_BAGS, r"2001 loads are more than the 2000"),
    "29 February of a common year": (HOUSEHOLD + a_bin("built = 2027-02-29\n"), r"day between 1 and 28"),
    "a negative load": (HOUSEHOLD + load("2026-10-01", "leaves-fall", "-2 bucket"), r'"-2 bucket" is negative'),
    "a load of nothing": (HOUSEHOLD + load("2026-10-01", "leaves-fall", "0 bucket"), r"a load is what went in"),
    "a load without a date": (HOUSEHOLD + '[[load]]\nfeedstock = "leaves-fall"\namount = "2 bucket"\n', r"date is missing"),
    "a load of lime": (HOUSEHOLD + load("2026-10-01", "lime", "5 lb"), r"lime.* stays out of the pile"),
    "a load of the year 9999": (HOUSEHOLD + load("9999-12-31", "leaves-fall", "2 bucket"), r"outside the years"),
}


def check_odd_year(where, program, path, today):
    """`season` and plan are of one year, where a pile is described or there."""
    answers = [subprocess.run([program, command, str(path), "--today", today, "--json"], capture_output=True, text=True, timeout=120).stdout for command in ("plan", "season")]
    plan, season = map(json.loads, answers)
    for key in plan["season"] or {}:
        check(plan["season"][key] == season[key], f"{where}: season and plan do not agree on {key}")


def check_odd(program, folder, name, text, said):
    path = pathlib.Path(folder, re.sub(r"\W+", "-", name) + ".toml")
    path.write_text(text, encoding="utf-8")
    for today in ("2027-04-01", "2028-02-29"):
        for command in ("plan", "season", "recipe", "readings", "forecast") if today == "2027-04-01" else ("plan",):
            done = subprocess.run([program, command, str(path), "--today", today, "--json"], capture_output=True, text=True, timeout=120)
            where = f"{name}: {command} on {today}"
            if command == "forecast" and "[climate]" not in text:
                check(done.returncode == 2 and "[climate] is missing" in done.stderr, f"{where}: {done}")
                continue
            if not check_ends_well(where, done):
                continue
            check_figures(where, json.loads(done.stdout))
        is_loaded = any(day <= today for day in re.findall(r"\[\[load\]\]\ndate = ([0-9-]+)", text))
        if today == "2027-04-01" and ("[pile]" in text or is_loaded):
            check_odd_year(f"{name} on {today}", program, path, today)
    # What it says is asked of one day, before 2027's clippings.
    screen = subprocess.run([program, "plan", str(path), "--today", "2027-04-01"], capture_output=True, text=True, timeout=120)
    check(re.search(said, plain(screen.stdout)) or re.search(said, screen.stdout), f"{name}: {said!r} is not in {screen.stdout}")
    check(max(map(len, screen.stdout.split("\n"))) <= MOST_COLUMNS, f"{name}: too wide")
    says_build, says_stands = BUILD.search(screen.stdout), STANDS.search(screen.stdout)
    check(not (says_build and says_stands), f"{name}: both {says_build} and {says_stands}")


def check_ends_well(where, done):
    right = done.returncode in (0, 1) and not done.stderr
    check(right, f"{where}: exit {done.returncode}: {done.stderr}")
    return right


def check_refused(program, folder, name, text, said):
    path = pathlib.Path(folder, re.sub(r"\W+", "-", name) + ".toml")
    path.write_text(text, encoding="utf-8")
    for command in ("plan", "season", "recipe"):
        done = subprocess.run([program, command, str(path), "--today", "2027-04-01"], capture_output=True, text=True, timeout=120)
        check(done.returncode == 2 and re.search(said, done.stderr) and not done.stdout, f"{name}: {command} says {done.returncode}: {done.stderr}")


def days_to_try():
    """Six days of eighteen months."""
    for later in range(1, 18, 3):
        year, month = divmod(2026 * 12 + 9 + later, 12)
        yield f"{year}-{month + 1:02}-{1 if month % 2 else 15:02}"


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    asked = [(EXAMPLES / f"{name}.toml", today) for name in YARDS for today in DAYS]
    asked += [(EXAMPLES / "quarter-acre.toml", today) for today in days_to_try()]
    with tempfile.TemporaryDirectory() as folder, concurrent.futures.ThreadPoolExecutor(2) as pool:
        jobs = [pool.submit(check_yard, program, *one) for one in asked]
        jobs += [pool.submit(check_odd, program, folder, name, *one) for name, one in ODD.items()]
        jobs += [pool.submit(check_refused, program, folder, name, *one) for name, one in REFUSED.items()]
        for job in jobs:
            job.result()
    print("\n".join(check.failures[:60]))
    print(f"{check.count} checks of plans through the year, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
