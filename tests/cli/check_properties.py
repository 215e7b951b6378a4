"""What must hold of every answer about a yard, asked by the command: the same yard in other words gets the same answer, and an answer moves as its
question does.

usage: check_properties.py PROGRAM
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

from arithmetic import GALLON, ROOT, Checks

TODAY = "2026-10-24"
SAME = 1e-9  # relative: a unit and back is off by 1e-16, and a winter of the pile model by a thousand times that
FOOT, INCH, YARD, POUND = 0.3048, 0.0254, 0.9144, 0.45359237
INTO_SI = {"ft": ("m", FOOT), "in": ("mm", 1000 * INCH), "ft2": ("m2", FOOT**2), "yd3": ("m3", YARD**3), "ft3": ("L", 1000 * FOOT**3),
           "gal": ("L", 1000 * GALLON), "lb": ("kg", POUND), "short_ton": ("t", 2 * POUND), "lb/yd3": ("kg/m3", POUND / YARD**3)}
# What is rounded to measures that a person has, and what is made of those.
IN_MEASURES = {"whole_containers", "best_order", "orders", "phone_line", "next_best_order", "one_step_less_m3", "usual_offer", "cards"}
checks = Checks()
check = checks.at


def yard(name):
    return (ROOT / "examples" / f"{name}.toml").read_text()


class Asked:
    def __init__(self, program, folder):
        self.program, self.folder, self.files = str(pathlib.Path(program).resolve()), pathlib.Path(folder), 0

    def __call__(self, command, text, *more):
        self.files += 1
        file = self.folder / f"yard-{self.files}.toml"
        file.write_text(text)
        result = subprocess.run([self.program, command, file, "--today", TODAY, "--json", *more], capture_output=True, text=True, timeout=120)
        check(f"{command} {more}", result.returncode in (0, 1) and not result.stderr, f"exit {result.returncode}: {result.stderr}\n{text}")
        return json.loads(result.stdout or "null")


def differences(one, other, passed_over=frozenset(), path=""):
    """Where two answers differ by more than rounding."""
    if isinstance(one, dict) and isinstance(other, dict):
        for key in sorted(one.keys() | other.keys()):
            if key not in passed_over:
                yield from differences(one.get(key), other.get(key), passed_over, f"{path}/{key}")
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for place, pair in enumerate(zip(one, other)):
            yield from differences(*pair, passed_over, f"{path}/{place}")
    elif isinstance(one, float) or isinstance(other, float):
        if one is None or other is None or abs(one - other) > SAME * max(abs(one), abs(other)) + 1e-12:
            yield f"{path}: {one} and {other}"
    elif one != other:
        yield f"{path}: {one} and {other}"


def check_same(where, one, other, passed_over=frozenset()):
    found = list(differences(one, other, passed_over))
    check(where, one is not None and not found, f"{len(found)} differences: {found[:4]}")


def number(text):
    whole, _, part = text.rpartition(" ") if "/" in text else (text, "", "")
    over, _, under = part.partition("/")
    return float(whole or 0) + (float(over) / float(under) if under else 0.0)


def in_si(text):
    """A yard file with its American quantities in SI, to the last digit."""

    def converted(match):
        value, unit = number(match[1]), match[2]
        if unit == "degF":
            return f'"{(value - 32) / 1.8!r} degC"'
        symbol, factor = INTO_SI[unit]
        return f'"{value * factor!r} {symbol}"'

    amount = r'"((?:\d+ )?\d+/\d+|\d+(?:\.\d+)?) (ft|in|ft2|yd3|ft3|gal|lb|short_ton|lb/yd3|degF)"'
    text, count = re.subn(amount, converted, text)
    check("yard in SI", count > 0, "has no American quantity")
    return text


def check_units(ask):
    """What a yard is measured in is nothing to its answer; what it is shown in only to what is rounded to whole measures."""
    for name, command in (("quarter-acre", "plan"), ("december-hoop", "plan"), ("sour-pile", "plan"), ("fed-bin", "recipe"), ("tumbler", "pile"),
                          ("three-sites", "topdress"), ("lawn-order", "topdress"), ("spring-yard", "season"), ("leaves-only", "mix")):
        check_same(f"{name} {command}, US and SI", ask(command, yard(name)), ask(command, in_si(yard(name))))
    for name, command in (("quarter-acre", "season"), ("fed-bin", "mix"), ("sour-pile", "recipe"), ("quarter-acre", "recipe"),
                          ("spring-yard", "recipe"), ("december-hoop", "pile"), ("leaves-only", "topdress"), ("lawn-order", "topdress")):
        text = re.sub(r"^units = .*$", "", yard(name), flags=re.M)
        us, si = (ask(command, f'units = "{units}"\n{text}') for units in ("us", "si"))
        check_same(f"{name} {command}, shown in US and SI units", us, si, IN_MEASURES)


def check_words(ask):
    """Comments, the order of tables and of keys within one are nothing to it."""
    head, *tables = re.split(r"\n(?=\[)", re.sub(r" *#.*", "", yard("quarter-acre")))
    supplies = [table for table in tables if "[[supply]]" in table]
    others = [table for table in tables if "[[supply]]" not in table and "[[lawn.zone]]" not in table]
    zones = [table for table in tables if "[[lawn.zone]]" in table]
    turned = ["\n".join([lines[0], *reversed(lines[1:])]) for lines in (table.strip().split("\n") for table in supplies)]
    other = "\n\n".join([head, *zones, *reversed(others), *turned]) + "\n"
    for command in ("recipe", "topdress", "season"):
        check_same(f"{command}, in another order", ask(command, yard("quarter-acre")), ask(command, other))


def supply(feedstock, amount, more=""):
    return f'[[supply]]\nfeedstock = "{feedstock}"\namount = "{amount}"\n{more}\n'


def moves(where, answers, figure, up=True, strictly=True):
    """A figure goes up, or down, from answer to answer."""
    figures = [figure(answer) for answer in answers]
    pairs = list(zip(figures, figures[1:]) if up else zip(figures[1:], figures))
    right = all(a < b if strictly else a <= b * (1 + SAME) + 1e-12 for a, b in pairs)
    check(where, right, f"{figures} should go {'up' if up else 'down'}")
    if strictly:
        return
    check(where, figures[0] != figures[-1], f"{figures} never moves")


def check_mixes(ask):
    scraps = supply("kitchen-scraps", "4 bucket")
    browner = [ask("mix", supply("leaves-fall", f"{bags} leaf-bag") + scraps)["mix"] for bags in (2, 4, 8, 16)]
    moves("leaves and C:N", browner, lambda answer: answer["carbon_to_nitrogen"])
    moves("leaves and moisture", browner, lambda answer: answer["moisture_fraction"], up=False)
    moves("leaves and volume", browner, lambda answer: answer["volume_m3"])
    wetter = [ask("mix", supply("leaves-fall", "8 leaf-bag") + scraps, "--water", f"{gallons} gal")["mix"] for gallons in (0, 1, 4, 16)]
    moves("water and moisture", wetter, lambda answer: answer["moisture_fraction"])
    moves("water and air", wetter, lambda answer: answer["air_space_fraction"], up=False)
    for before, after, gallons in zip(wetter, wetter[1:], (1, 3, 12)):
        poured = after["water_kg"] - before["water_kg"]
        check("water", abs(poured - gallons * GALLON * 1000) < 1e-9, f"{gallons} gal added {poured} kg")
        check("water", abs(after["carbon_to_nitrogen"] / before["carbon_to_nitrogen"] - 1) < SAME, "changed C:N")
    for answer in browner + wetter:
        check("a mix", abs(answer["dry_mass_kg"] + answer["water_kg"] - answer["mass_kg"]) < SAME * answer["mass_kg"], "is dry matter and water")
        check("a mix", abs(answer["carbon_kg"] / answer["nitrogen_kg"] - answer["carbon_to_nitrogen"]) < 1e-6, "has the C:N of its sums")
        shares = sum(part["share_of_volume"] for part in answer["feedstocks"])
        check("a mix", abs(shares - 1) < SAME, f"has shares of {shares}")


def check_lawns(ask):
    def lawn(feet, inches="1/4", more=""):
        return f'[[lawn.zone]]\nshape = "area"\narea = "{feet} ft2"\n[topdressing]\ndepth = "{inches} in"\n{more}\n'

    larger = [ask("topdress", lawn(feet)) for feet in (300, 1000, 4000)]
    moves("lawn and compost", larger, lambda answer: answer["volume_with_allowance_m3"])
    moves("lawn and order", larger, lambda answer: answer["best_order"]["volume_m3"])
    deeper = [ask("topdress", lawn(1000, inches)) for inches in ("1/8", "1/4", "3/8")]
    moves("depth and compost", deeper, lambda answer: answer["volume_with_allowance_m3"])
    for one, feet in zip(larger, (300, 1000, 4000)):
        check("lawn", abs(one["volume_m3"] - feet * FOOT**2 * INCH / 4) < SAME, "takes its area times the depth")
        check("order", one["best_order"]["volume_m3"] >= one["volume_with_allowance_m3"] * (1 - SAME), "is less than what the lawn takes")
    for one, eighths in zip(deeper, (1, 2, 3)):
        check("depth", abs(one["volume_m3"] * 2 / eighths / deeper[1]["volume_m3"] - 1) < SAME, "takes as much more")


def check_piles(ask):
    def bin_of(feet, bags=30, more=""):
        return f'[pile]\nshape = "bin"\nlength = "{feet} ft"\nwidth = "{feet} ft"\nheight = "{feet} ft"\n{more}\n' + \
            supply("leaves-fall", f"{bags} leaf-bag") + supply("grass-clippings", f"{bags} bucket", 'treated = "no"')

    larger = [ask("pile", bin_of(feet)) for feet in (3, 4, 5)]
    moves("bin and what it holds", larger, lambda answer: answer["volume_m3"])
    moves("bin and what goes in", larger, lambda answer: answer["mix_volume_m3"], strictly=False)
    more = [ask("pile", bin_of(4, bags)) for bags in (3, 6, 12)]
    moves("supplies and what goes in", more, lambda answer: answer["mix_volume_m3"], strictly=False)
    climate = '[climate]\nlike = "cool"\n'
    forecasts = [ask("forecast", bin_of(4, bags, f"built = {TODAY}") + climate) for bags in (6, 12)]
    moves("supplies and the pile when it is ready", forecasts, lambda answer: answer["pile_volume_m3"])
    for answer in forecasts:
        lists = {key: value for key, value in answer.items() if isinstance(value, list) and key.startswith(("core", "moisture", "volatile"))}
        check("forecast", all(len(value) == len(answer["days"]) for value in lists.values()), "has a figure for each day")
        bands = zip(lists["core_low_degc"], lists["core_degc"], lists["core_high_degc"])
        check("forecast", all(low <= likely <= high for low, likely, high in bands), "lies within its band")
        check("forecast", all(0 < moisture < 1 for moisture in lists["moisture_fraction"]), "is neither dust nor water")
        left = lists["volatile_solids_left_fraction"]
        check("forecast", left[0] == 1 and all(after <= before for before, after in zip(left, left[1:])), "only rots")


def main():
    with tempfile.TemporaryDirectory() as folder:
        ask = Asked(sys.argv[1], folder)
        check_units(ask)
        check_words(ask)
        check_mixes(ask)
        check_lawns(ask)
        check_piles(ask)
    for failure in checks.failures:
        print(failure)
    print(f"{checks.count} checks, {len(checks.failures)} wrong")
    sys.exit(1 if checks.failures else 0)


if __name__ == "__main__":
    main()
