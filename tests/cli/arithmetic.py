"""The mix, the season and the distance from the aim a second time, for the checks that compute an answer again. Figures of feedstocks are read from
`materials ID --json`, container sizes from the table's text; nothing else comes from the program.
"""
import calendar
import datetime
import functools
import json
import math
import pathlib
import subprocess
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
GALLON = 231 * 0.0254**3  # US gallon of 231 cubic inches, m3
WATER = 1000.0  # kg/m3
ORGANIC, ASH = 1500.0, 2650.0  # particle densities, kg/m3; stated beside the formulas of the mix as judged
KILOGRAMS = {"kg": 1.0, "lb": 0.45359237}  # international pound, 1959
CUBIC_METRES = {"yd3": 0.9144**3, "ft3": 0.3048**3, "gal": GALLON, "L": 0.001, "m3": 1.0, "bushel": 2150.42 * 0.0254**3}
MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]

DEFAULT_TARGETS = {"ratio": (25.0, 30.0, 35.0), "moisture": (0.50, 0.55, 0.60), "air": 0.35}


class Checks:
    """Counts what is checked, and keeps what was wrong."""

    def __init__(self):
        self.count, self.failures = 0, []

    def __call__(self, right, what):
        self.count += 1
        if not right:
            self.failures.append(what)

    def at(self, where, right, what):
        """The same, of some place."""
        self(right, f"{where}: {what}")


@functools.cache
def container_sizes():
    """Each container's volume in cubic metres."""
    with open(ROOT / "materials" / "containers.toml", "rb") as file:
        rows = tomllib.load(file)["container"]
    sizes = {}
    for row in rows:
        number, unit = row["volume"].split()
        sizes[row["id"]] = float(number) * CUBIC_METRES[unit]
    return sizes


@functools.cache
def container_packings():
    """How what is in each container lies, where its row says so."""
    with open(ROOT / "materials" / "containers.toml", "rb") as file:
        rows = tomllib.load(file)["container"]
    return {row["id"]: [row["packing"]] if isinstance(row.get("packing"), str) else row.get("packing", []) for row in rows}


def packing_in(container, feedstock):
    """The first of its container's packings that a feedstock has, else its usual one."""
    lies = [packing for packing in container_packings().get(container, []) if packing in feedstock_rows()[feedstock]["bulk_density"]]
    return lies[0] if lies else None


@functools.cache
def feedstock_rows():
    with open(ROOT / "materials" / "feedstocks.toml", "rb") as file:
        return {row["id"]: row for row in tomllib.load(file)["feedstock"]}


def keeps_days(feedstock):
    """How long a fresh one may wait; two weeks where its row says nothing."""
    keeps = feedstock_rows()[feedstock].get("keeps")
    number, unit = keeps["typical"].split() if keeps else (14, "days")
    return int(number) * (7 if unit == "weeks" else 1)


class Program:
    """The command, with what it was asked before remembered."""

    def __init__(self, path):
        self.path = str(pathlib.Path(path).resolve())
        self.figures = functools.cache(self._figures)

    def answer(self, *arguments):
        """JSON of a command, whether it found an answer or not (exit 0 or 1)."""
        result = subprocess.run([self.path, *arguments, "--json"], capture_output=True, text=True, timeout=120)
        if result.returncode not in (0, 1) or result.stderr:
            raise SystemExit(f"{arguments}: exit {result.returncode}: {result.stderr}")
        return json.loads(result.stdout)

    def text(self, *arguments):
        return subprocess.run([self.path, *arguments], capture_output=True, text=True, timeout=120).stdout

    def _figures(self, feedstock):
        return self.answer("materials", feedstock)

    def is_supplement(self, feedstock):
        return self.figures(feedstock)["class"] == "supplement"

    def matter(self, feedstock, packing=None, shredded=False, moisture=None):
        """What a kilogram of it is: moisture, carbon, nitrogen, organic matter, and its densities as counted and as it lies in the pile."""
        row = self.figures(feedstock)
        used, densities = row["used"], row["readings"]["bulk_density_kg_m3"]
        counted = middle(densities[packing or row["usual_packing"]][0])
        pile = middle(densities["shredded"][0]) if shredded and "shredded" in densities else counted
        wet = used["moisture_fraction"] if moisture is None else moisture
        organic = used["volatile_solids_fraction_dry"]
        if organic is None:
            organic = min(1.0, 1.8 * used["carbon_fraction_dry"])  # as the page of the mix has it where nothing was published
        dry = 1.0 - wet
        return {"water": wet, "dry": dry, "carbon": dry * used["carbon_fraction_dry"], "nitrogen": dry * used["nitrogen_fraction_dry"],
                "solids": dry * (organic / ORGANIC + (1.0 - organic) / ASH), "loose": 1.0 / pile, "counted_density": counted,
                "class": row["class"]}


def middle(reading):
    return reading["typical"] if reading["typical"] is not None else (reading["low"] + reading["high"]) / 2.0


def mix(portions, added_water, settling=1.0):
    """Of (matter, kilograms) and water: sums, and what follows from them."""
    total = {key: math.fsum(matter[key] * mass for matter, mass in portions) for key in ("water", "dry", "carbon", "nitrogen", "solids", "loose")}
    total["water"] += added_water
    total["mass"] = total["water"] + total["dry"]
    total["volume"] = settling * total["loose"]
    total["ratio"] = total["carbon"] / total["nitrogen"] if total["nitrogen"] > 0.0 else math.inf
    total["moisture"] = total["water"] / total["mass"] if total["mass"] > 0.0 else 0.0
    filled = total["solids"] + total["water"] / WATER
    total["air"] = min(1.0, max(0.0, 1.0 - filled / total["volume"])) if total["volume"] > 0.0 else 0.0
    return total


def beyond(value, low, aim, high, step_below, step_above):
    """Own distance of a window: 0 on the aim, 1 on its edge, above 1 outside by the outer steps."""
    if value < low:
        return 1.0 + (low - value) / step_below
    if value > high:
        return 1.0 + (value - high) / step_above
    if value < aim:
        return (aim - value) / (aim - low)
    return (value - aim) / (high - aim) if value > aim else 0.0


def distance(of, targets=DEFAULT_TARGETS):
    """The distance from the aim as lib/heapwright/recipe/README.md has it."""
    air = 0.0 if of["air"] >= targets["air"] else 1.0 + (targets["air"] - of["air"]) / 0.05
    return max(beyond(of["ratio"], *targets["ratio"], 5.0, 15.0), beyond(of["moisture"], *targets["moisture"], 0.10, 0.05), air)


def water_to(of, moisture):
    """Water that brings a mix up to a moisture."""
    return max(0.0, of["dry"] * moisture / (1.0 - moisture) - of["water"])


def cubic_metres(number, unit):
    """Of so many containers, or units of volume."""
    return number * (container_sizes()[unit] if unit in container_sizes() else CUBIC_METRES[unit])


def kilograms(number, unit, counted_density):
    return number * KILOGRAMS[unit] if unit in KILOGRAMS else cubic_metres(number, unit) * counted_density


def share_of_day(when, day):
    """Times its amount that comes in on a day."""
    if "months" in when:
        season = sum(calendar.monthrange(day.year, MONTHS.index(month) + 1)[1] for month in when["months"])
        return 1.0 / season if MONTHS[day.month - 1] in when["months"] else 0.0
    first, last, at = MONTHS.index(when.get("from", "Jan")), MONTHS.index(when.get("to", "Dec")), day.month - 1
    return 1.0 / 7.0 if (first <= at <= last if first <= last else at >= first or at <= last) else 0.0


def share_on_hand(when, storable, built, keeps=14):
    """Times its amount that a supply has on hand: what came in over the last twelve months where it is stored. What comes fresh comes in
    loads a week apart: the last load whole, or what the days that it keeps brought, the day itself among them, where that is more."""
    if when is None:
        return 1.0
    try:
        year_before = built.replace(year=built.year - 1)
    except ValueError:  # 29 February
        year_before = built.replace(year=built.year - 1, day=28)
    begin, end = (year_before, built) if storable else (built - datetime.timedelta(days=keeps - 1), built + datetime.timedelta(days=1))
    shares = [share_of_day(when, begin + datetime.timedelta(days=at)) for at in range((end - begin).days)]
    in_season = [share for share in shares if share > 0.0]
    if storable or not in_season:
        return sum(shares)
    return max(7, len(in_season)) * in_season[-1]


def toml(value):
    """A value as a yard file has it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {toml(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(toml(inner) for inner in value) + "]"
    if isinstance(value, datetime.date):
        return value.isoformat()
    return json.dumps(value)


def table(name, entries):
    return f"{name}\n" + "".join(f"{key} = {toml(value)}\n" for key, value in entries.items())


def yard_text(supplies, wishes=None, targets=None, built=None, units="us"):
    """A yard file of supplies (each the keys of its table)."""
    text = f'units = "{units}"\n' + "".join(table("[[supply]]", supply) for supply in supplies)
    if wishes:
        text += table("[recipe]", wishes)
    if targets:
        text += table("[targets]", targets)
    if built:
        text += table("[pile]", {"shape": "tumbler", "volume": "9 yd3", "built": built})
    return text
