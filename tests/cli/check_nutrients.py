"""What compost brings to a lawn, worked out a second time from the tables; and whether the answer says to hold.

usage: check_nutrients.py PROGRAM

Written apart from the program. Each compost of the tables at several depths, and analyses made up at random on either basis, as oxides and
as elements: the JSON to a billionth, and each figure of the screen as it is rounded, in US units, SI and both. Then the soil test: which
words hold, that "Hold" is the first line of `topdress`, with and without a measured lawn, of `topdress --have`, `topdress --budget` and of a
plan without a pile, and that it brings neither an order before it nor a go behind it. Then the analysis against the limits for lawns, a
second time, the seasons, what a plan says below a hold, and what is carried where.
"""
import json
import math
import pathlib
import random
import re
import subprocess
import sys
import tempfile
import tomllib

from arithmetic import Checks

MATERIALS = pathlib.Path(__file__).resolve().parents[2] / "materials"
POUND, FOOT, INCH = 0.45359237, 0.3048, 0.0254
YARD3 = (3 * FOOT) ** 3
THOUSAND_FEET = 1000 * FOOT * FOOT
DENSITY = {"lb/yd3": POUND / YARD3, "kg/m3": 1.0}
# P2O5 is 141.9445 and two P 61.9475; K2O is 94.196 and two K 78.1966.
OXIDE = {"p2o5": ("phosphorus", 141.9445 / 61.9475), "k2o": ("potassium", 94.196 / 78.1966)}
# The table by C:N as it is printed in the reference facts on lawns: up to this C:N, the least, the likely and the most percent.
FREED = [(12, 5, 10, 15), (15, 3, 7, 10), (20, 0, 4, 8), (25, -5, 0, 3), (30, -10, -3, 0)]

HOLD = ["high", "High", "VERY HIGH", "very high", "excessive", "Excessive", "above optimum", "Above Optimum", "medium-high", "H", "VH",
        "85 ppm Mehlich-3 (very high)", "very high, 85 ppm Mehlich-3", "85 ppm Olsen, excessive", "phosphorus: high"]
GO = ["optimum", "Optimum", "medium", "low", "very low", "below optimum", "adequate", "L", "M", "12 ppm Bray P1 (low)", "optimum range"]
ASK = ["85 ppm", "85 ppm Mehlich-3", "85 ppm M3", "purple", "class four"]

counted = Checks()


def check(where, holds, what):
    counted(holds, f"{where}: {what}")


def near(where, found, expected, relative=1e-9):
    close = found is not None and abs(found - expected) <= relative * max(abs(expected), 1e-12) + 1e-15
    check(where, close, f"{found} is not {expected}")


def run(program, *arguments):
    result = subprocess.run([program, *arguments], capture_output=True, text=True, timeout=60)
    check(arguments, result.returncode in (0, 1) and not result.stderr, f"exit {result.returncode}: {result.stderr}")
    return result.stdout


def number_of(text):
    number, unit = text.split(" ", 1) if " " in text else (text.split(":")[0], ":1")
    return float(number) * {"%": 0.01, ":1": 1.0, **DENSITY}[unit]


def reading(row, key):
    first = row[key][0]
    typical = number_of(first["typical"])
    return (number_of(first["low"]), typical, number_of(first["high"]))


def spread(low, typical, high):
    return (1 - low / typical, high / typical - 1) if typical > 0 else (0.0, 0.0)


def expected_nutrients(depth, figures):
    """On a square meter: each nutrient at the least, likely and at the most. figures: low, typical, high of each."""
    moisture, density = figures["moisture"], figures["density"]
    dry = depth * density[1] * (1 - moisture[1])
    common = [spread(*density), spread(1 - moisture[2], 1 - moisture[1], 1 - moisture[0])]
    nutrients = {}
    for name in ("nitrogen", "p2o5", "k2o"):
        ends = common + [spread(*figures[name])]
        below, above = (math.sqrt(sum(end[side] ** 2 for end in ends)) for side in (0, 1))
        likely = dry * figures[name][1]
        nutrients[name] = (max(0.0, 1 - below) * likely, likely, (1 + above) * likely)
    return nutrients


def row_at(ratio):
    return next((row for row in FREED if ratio <= row[0] * (1 + 1e-9)), None)


def expected_freed(total, ratio):
    """Nitrogen that comes free; None where the C:N ties it up."""
    low, typical, high = ratio
    likely = row_at(typical)
    if likely is None:
        return None
    worst = row_at(high) or FREED[-1]
    best = row_at(low)
    return tuple(total * share / 100 for share in (min(likely[1], worst[1]), likely[2], max(likely[3], best[3])))


def printed(value, digits):
    """A value to so many significant digits, as screens write it."""
    if value == 0:
        return "0"
    decimals = digits - 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, decimals)
    return f"{rounded:.{max(decimals, 0)}f}".rstrip("0").rstrip(".") if decimals > 0 else f"{rounded:.0f}"


def same_digits(text, value, digits):
    """Whether a text is the value rounded; a value halfway between may go either way."""
    return text in {printed(value * (1 + nudge), digits) for nudge in (-1e-9, 0, 1e-9)}


def check_screen(where, screen, nutrients, freed, us):
    size, unit = (POUND / THOUSAND_FEET, "lb") if us else (0.01, "kg")
    text = " ".join(screen.split())
    for words, name in (("nitrogen", "nitrogen"), (r"phosphate \(P2O5\)", "p2o5"), (r"potash \(K2O\)", "k2o")):
        low, likely, high = (value / size for value in nutrients[name])
        found = re.search(rf"[:;bog] {words} (-?[0-9.]+) {unit}(?: \((-?[0-9.]+) to (-?[0-9.]+)\))?", text)
        if not found:
            check(where, False, f"no {name} on the screen")
            continue
        check(where, same_digits(found[1], likely, 2), f"{name}: {found[1]} is not {likely}")
        check(where, (found[2] is None) == (low == high), f"{name}: a range where there is none, or none where there is one")
        if found[2] is not None:
            check(where, same_digits(found[2], low, 2) and same_digits(found[3], high, 2), f"{name}: {found[2]} to {found[3]} is not {low} to {high}")
    if freed is None:
        check(where, "ties nitrogen up and feeds no grass" in text, "does not say that nitrogen is tied up")
        return
    low, likely, high = (value / size for value in freed)
    if likely < 0:
        check(where, "it likely ties up" in text and "of the soil's nitrogen, at worst" in text, "does not say that nitrogen is tied up")
        return
    weight = rf"(none|hardly any|[0-9.]+ {unit})"
    if low < 0:
        found = re.search(rf"nitrogen for the grass: (?:about )?{weight}, at best {weight}; or {weight} tied up", text)
        expected = (likely, high, low)
    else:
        found = re.search(rf"nitrogen for the grass: (?:about )?{weight}, from {weight} to {weight}", text)
        expected = (likely, low, high)
    check(where, found, f"no first year: {text}")
    for shown, value in zip(found.groups() if found else (), expected):
        digits = 1 if abs(value) < 1 else 2
        check(where, same_digits("0" if shown in ("none", "hardly any") else shown.split()[0], abs(value), digits), f"first year: {shown} is not {value}")


def check_json(where, answer, nutrients, freed):
    found = answer["nutrients_kg_per_100m2"]
    for key, name in (("nitrogen_total", "nitrogen"), ("p2o5", "p2o5"), ("k2o", "k2o")):
        near(f"{where} {key}", found[key], 100 * nutrients[name][1])
        for end, which in enumerate(("low", "likely", "high")):
            near(f"{where} {key} {which}", found["ranges"][key][which], 100 * nutrients[name][end])
    check(where, found["ties_up_nitrogen"] == (freed is None), "ties_up_nitrogen")
    if freed is None:
        check(where, found["nitrogen_available"] is None, "nitrogen from compost that ties it up")
        return
    for end, which in enumerate(("low", "likely", "high")):
        near(f"{where} available {which}", found["nitrogen_available"][which], 100 * freed[end])


def check_yard(program, path, where, depth, figures):
    nutrients = expected_nutrients(depth, figures)
    freed = expected_freed(nutrients["nitrogen"][1], figures["ratio"])
    check_json(where, json.loads(run(program, "topdress", path, "--json")), nutrients, freed)
    check_screen(where, run(program, "topdress", path), nutrients, freed, True)
    check_screen(f"{where} SI", run(program, "topdress", path, "--units", "si"), nutrients, freed, False)


def of_table(row):
    return {"moisture": reading(row, "moisture_wet_basis"), "density": reading(row, "bulk_density"), "ratio": reading(row, "carbon_to_nitrogen"),
            "nitrogen": reading(row, "nitrogen_dry_basis"), "p2o5": reading(row, "phosphate_dry_basis"), "k2o": reading(row, "potash_dry_basis")}


LAWN = '[[lawn.zone]]\nname = "back"\nshape = "area"\narea = "4000 ft2"\n'


def check_tables(program, yard):
    with open(MATERIALS / "composts.toml", "rb") as file:
        rows = tomllib.load(file)["compost"]
    for row in rows:
        for text, depth in (("1/4 in", 0.25 * INCH), ("1/8 in", 0.125 * INCH), ("10 mm", 0.010)):
            yard.write_text(f'{LAWN}[topdressing]\ndepth = "{text}"\ncompost = "{row["id"]}"\n', encoding="utf-8")
            check_yard(program, yard, f"{row['id']} {text}", depth, of_table(row))


def some_analysis(rng, usual):
    """Keys of an analysis, and the figures that they stand for: what it leaves out is as usual."""
    figures, keys = dict(usual), []

    def exact(name, value):
        figures[name] = (value, value, value)

    moisture = rng.randint(25, 60)
    keys.append(f'moisture_wet_basis = "{moisture} %"')
    exact("moisture", moisture / 100)
    if rng.random() < 0.7:
        density = rng.randint(600, 1400)
        exact("density", density * DENSITY["lb/yd3"])
        keys.append(f'bulk_density = "{density} lb/yd3"')
        if rng.random() < 0.5:
            keys.append(f'dry_bulk_density = "{density * (1 - moisture / 100) * rng.uniform(0.985, 1.015):.4f} lb/yd3"')
    for name, most in (("nitrogen", 3.0), ("p2o5", 2.0), ("k2o", 2.0)):
        if rng.random() < 0.2:
            continue
        percent = round(rng.uniform(0.2, most), 3)
        key, per = name, 1.0
        if name in OXIDE and rng.random() < 0.4:
            key, per = OXIDE[name]
        wet = rng.random() < 0.4
        keys.append(f'{key}_{"wet" if wet else "dry"}_basis = "{percent} %"')
        exact(name, per * percent / 100 / ((1 - moisture / 100) if wet else 1))
    told_nitrogen = figures["nitrogen"] if figures["nitrogen"] != usual["nitrogen"] else None
    if rng.random() < 0.5:
        ratio = round(rng.uniform(8, 34), 1)
        keys.append(f'carbon_to_nitrogen = "{ratio}:1"')
        exact("ratio", ratio)
    elif told_nitrogen and rng.random() < 0.5:
        organic = rng.randint(25, 70)
        keys.append(f'organic_matter_dry_basis = "{organic} %"')
        exact("ratio", organic / 100 / 1.8 / told_nitrogen[1])
    rng.shuffle(keys)
    return keys, figures


def check_analyses(program, yard, rng):
    with open(MATERIALS / "composts.toml", "rb") as file:
        usual = of_table(tomllib.load(file)["compost"][0])
    for number in range(40):
        keys, figures = some_analysis(rng, usual)
        yard.write_text(f'{LAWN}[topdressing]\nanalysis = {{ {", ".join(keys)} }}\n', encoding="utf-8")
        # By atomic weights P2O5 is 2.29137 and K2O 1.20460 times the element; the program has five digits of it.
        nutrients = expected_nutrients(0.25 * INCH, figures)
        freed = expected_freed(nutrients["nitrogen"][1], figures["ratio"])
        before = len(counted.failures)
        found = json.loads(run(program, "topdress", yard, "--json"))["nutrients_kg_per_100m2"]
        for key, name in (("nitrogen_total", "nitrogen"), ("p2o5", "p2o5"), ("k2o", "k2o")):
            near(f"analysis {number} {key}", found[key], 100 * nutrients[name][1], 1e-9 if name == "nitrogen" else 3e-5)
            near(f"analysis {number} {key} high", found["ranges"][key]["high"], 100 * nutrients[name][2], 1e-9 if name == "nitrogen" else 3e-5)
        check(f"analysis {number}", (found["nitrogen_available"] is None) == (freed is None), "available")
        if freed is not None and found["nitrogen_available"]:
            near(f"analysis {number} available", found["nitrogen_available"]["likely"], 100 * freed[1])
        if len(counted.failures) > before:
            counted.failures.append(f"the file was\n{yard.read_text(encoding='utf-8')}")


def check_salts(program, yard):
    yard.write_text(f'{LAWN}[topdressing]\nanalysis = {{ salts_1to5 = "4.2 dS/m", salts_paste = "6 mmhos/cm" }}\n', encoding="utf-8")
    answer = json.loads(run(program, "topdress", yard, "--json"))["salts"]
    check("salts", [(one["method"], round(one["value_ds_per_m"], 9)) for one in answer] == [("1:5 slurry", 4.2), ("saturated paste", 6.0)], answer)
    check("salts", "4.2 dS/m in a 1:5 slurry, 6 dS/m in a saturated paste" in run(program, "topdress", yard), "not on the screen")


def first_line(text):
    return text.split("\n", 1)[0]


def check_soil_tests(program, yard):
    unmeasured = yard.with_name("unmeasured.toml")
    for word in HOLD:
        soil = f'[soil_test]\nphosphorus = "{word}"\n'
        yard.write_text(LAWN + soil, encoding="utf-8")
        unmeasured.write_text(soil, encoding="utf-8")
        screens = [run(program, "topdress", yard), run(program, "topdress", unmeasured), run(program, "topdress", yard, "--have", "2 yd3"),
                   run(program, "plan", yard), run(program, "topdress", yard, "--units", "both")]
        for screen in screens:
            text = " ".join(screen.split())
            check(word, first_line(screen).startswith("Hold: "), f"the first line is {first_line(screen)!r}")
            check(word, f'calls phosphorus "{word}"' in text, "the laboratory's word is not said")
            check(word, "add phosphate (P2O5) to each 1000 sq ft" in text and " 2.1 lb" in text, "not what it would add")
            check(word, "skip this year" in text and "thinner" in text and "less P2O5" in text, "not what can be done instead")
            check(word, "go ahead" not in text, "goes ahead")
        answer = json.loads(run(program, "topdress", yard, "--json"))
        check(word, answer["spreading"]["hold"] and answer["spreading"]["phosphorus"] == "hold", answer["spreading"])
        check(word, answer["soil_test"]["phosphorus"] == word, answer["soil_test"])
    for words, verdicts in ((GO, {"go"}), (ASK, {"figure-alone", "unknown-word"})):
        for word in words:
            yard.write_text(f'{LAWN}[soil_test]\nphosphorus = "{word}"\n', encoding="utf-8")
            screen, answer = run(program, "topdress", yard), json.loads(run(program, "topdress", yard, "--json"))
            check(word, "Hold" not in screen and not answer["spreading"]["hold"], "holds")
            check(word, answer["spreading"]["phosphorus"] in verdicts, answer["spreading"])
            text = " ".join(screen.split())
            check(word, ("go ahead" in text) == (words is GO), text)
            check(word, ("ask your laboratory" in text) == (words is ASK), text)
            check(word, words is GO or screen.split("\n")[0] == f'First ask your laboratory: is phosphorus "{word}" high? If so, hold.', screen)
    yard.write_text(LAWN, encoding="utf-8")
    check("no soil test", "First have the soil's phosphorus tested: if it is high, spread none." in " ".join(run(program, "topdress", yard).split()), "is not said")
    yard.write_text(f"{LAWN}[topdressing]\nfrozen_or_snow = true\n", encoding="utf-8")
    check("frozen ground", first_line(run(program, "topdress", yard)).startswith("Hold: "), "does not hold")
    check("frozen ground", json.loads(run(program, "topdress", yard, "--json"))["spreading"]["hold"], "does not hold")


OFFER = '[[topdressing.offer]]\nname = "bulk"\nunit = "1 yd3"\nprice = 40\n'


def in_order(where, text, *parts):
    """Whether each part stands in a text, in this order."""
    at = 0
    for part in parts:
        found = text.find(part, at)
        check(where, found >= 0, f"{part!r} is missing or too early: {text}")
        at = max(found, at)


def check_own_compost(program, yard):
    """Compost of one's own that its tests keep off a lawn is said so right below the order."""
    salty = '[[maturity.test]]\ntest = "salts-1to5"\nvalue = "12 dS/m"\n'
    raw = '[[maturity.check]]\ncheck = "no-reheat"\nresult = "failed"\n'
    fine = '[[maturity.test]]\ntest = "salts-1to5"\nvalue = "2 dS/m"\n'
    for own, line in ((salty, "Keep your own compost off the lawn: it is too salty for one."),
                      (salty.replace("1to5", "paste").replace("12", "17"), "Keep your own compost off the lawn: it is too salty for one."),
                      (salty.replace("1to5", "paste"), None), (salty.replace("12", "<12"), None), (raw, "Keep your own compost off the lawn for now."),
                      (fine, None), (fine.replace("salts-1to5", "salmonella").replace("2 dS/m", "4 MPN/4g"), "Your own compost: Salmonella is not below"),
                      (fine.replace("salts-1to5", "lead").replace("2 dS/m", "24 mg/kg"), "Show your own compost's report to your extension office")):
        yard.write_text(LAWN + own, encoding="utf-8")
        text = " ".join(run(program, "topdress", yard).split())
        check(own, ("our own compost" in text) == (line is not None), text)
        if line:
            in_order(own, text, "Order ", line, "Spread ")
            for today, wait in (("2027-09-15", ""), ("2027-01-15", "Wait for spring")):
                text = " ".join(run(program, "topdress", yard, "--today", today).split())
                in_order(f"{own} {today}", text, "Order ", line, wait, "Spread ")
                text = " ".join(run(program, "topdress", yard, "--have", "2 yd3", "--today", today).split())
                in_order(f"{own} {today}", text, "of compost covers", line, wait, "Brings")
            yard.write_text(f'{LAWN}{own}[soil_test]\nphosphorus = "high"\n', encoding="utf-8")
            in_order(own, " ".join(run(program, "topdress", yard).split()), "Hold: ", "If it is cleared:", "Order ", line, "Spread ")


def check_budget(program, yard):
    yard.write_text(f'{LAWN}[topdressing]\n{OFFER}[soil_test]\nphosphorus = "high"\n', encoding="utf-8")
    in_order("budget", run(program, "topdress", yard, "--budget", "500"), "Hold: ", "If it is cleared:", "500 is enough: this costs 160", "Order")
    in_order("budget", run(program, "topdress", yard, "--budget", "120"), "Hold: ", "If it is cleared:", "For 120 you get", "of compost covers", "Brings")
    yard.write_text(f'{LAWN}[topdressing]\n{OFFER}[soil_test]\nphosphorus = "85 ppm"\n', encoding="utf-8")
    in_order("budget", run(program, "topdress", yard, "--budget", "120"), "First ask your laboratory", "For 120 you get", "of compost covers", "Brings")


# Keys of an analysis, the line below the order that they bring, and whether they hold.
LIMITS = [
    ('salts_1to5 = "2.5 dS/m"', None, False),
    ('salts_1to5 = "4.2 dS/m"', "Ask first: salts in a 1:5 slurry 4.2 dS/m: fails UK data sheet (at most 2.5)", False),
    ('salts_1to5 = "12 dS/m"', "salts in a 1:5 slurry 12 dS/m: fails Caltrans (at most 10), Minnesota (below 10), UK data sheet (at most 2.5)", True),
    ('salts_paste = "3.9 dS/m"', None, False),
    ('salts_paste = "12 dS/m"', "Ask first: salts in a saturated paste 12 dS/m: fails Missouri, for growing media (below 4)", False),
    ('salts_paste = "17 dS/m"', "salts in a saturated paste 17 dS/m: fails Missouri, for growing media (below 4)", True),
    ('salts_1to2 = "7 dS/m"', "salts in a 1:2 slurry 7 dS/m: fails Missouri, for growing media (below 1.5)", True),
    ('carbon_to_nitrogen = "40:1"', "Ask first: C:N ratio 40: fails Penn State (at most 30), Minnesota (6 to 20), UK data sheet (at most 20)", False),
    ('carbon_to_nitrogen = "15:1", moisture_wet_basis = "45 %"', None, False),
]


def check_limits(program, yard):
    for keys, line, holds in LIMITS:
        yard.write_text(f"{LAWN}[topdressing]\nanalysis = {{ {keys} }}\n", encoding="utf-8")
        for command in (("topdress",), ("plan",), ("topdress", "--have", "2 yd3")):
            screen = run(program, command[0], yard, *command[1:])
            text = " ".join(screen.split())
            check(keys, first_line(screen).startswith("Hold: ") == holds, f"{command}: {screen}")
            check(keys, line is None or line in text, f"{command}: {line!r} is not in {text}")
            check(keys, ("Ask first" in text) == (line is not None and not holds), f"{command}: {text}")
        text = run(program, "topdress", yard)
        check(keys, "Order " in text, text)
        if line and not holds:
            check(keys, text.split("\n")[1].startswith("Ask first: "), f"not right below the order: {text}")
        answer = json.loads(run(program, "topdress", yard, "--json"))
        check(keys, answer["spreading"]["hold"] == answer["spreading"]["compost_too_salty"] == holds, answer["spreading"])
        check(keys, all(one["ok"] for one in answer["analysis_for_lawns"]) == (line is None), answer["analysis_for_lawns"])


def check_seasons(program, yard):
    wait = {"cool-season": "Wait for spring, when cool-season grass grows.", "warm-season": "Wait for late spring, when warm-season grass grows."}
    dormant = {"cool-season": (11, 12, 1, 2), "warm-season": (9, 10, 11, 12, 1, 2, 3)}
    for grass, line in wait.items():
        for month in range(1, 13):
            yard.write_text(f'{LAWN}[topdressing]\ngrass = "{grass}"\n', encoding="utf-8")
            for command in ("topdress", "plan"):
                text = " ".join(run(program, command, yard, "--today", f"2026-{month:02}-15").split())
                check(f"{command} {grass} in {month}", (line in text) == (month in dormant[grass]), text)
    yard.write_text(f"{LAWN}[topdressing]\n", encoding="utf-8")
    told = run(program, "topdress", yard, "--today", "2027-01-15", "--all")
    check("no grass", "grass: cool-season grass (judged by us: nobody said" in " ".join(told.split()), told)
    in_order("no grass", told, "Order ", "Wait for spring", "Spread ")
    check("July", "Wait for late summer, when cool-season grass grows." in " ".join(run(program, "topdress", yard, "--today", "2027-07-15").split()), "")
    yard.write_text(f'{LAWN}[topdressing]\nmonths = ["Sep", "Dec"]\n', encoding="utf-8")
    check("December", "Not in Dec: spread in early fall or spring" in " ".join(run(program, "topdress", yard, "--today", "2027-07-15").split()), "")
    for more in ('[topdressing]\nmonths = ["Sep"]\n', '[topdressing]\nsurface = "new"\n', 'surface = "new"\n'):
        yard.write_text(LAWN + more, encoding="utf-8")
        check(more, "Wait for" not in run(program, "topdress", yard, "--today", "2027-01-15"), "waits")
    yard.write_text(f'{LAWN}[topdressing]\nfrozen_or_snow = true\n', encoding="utf-8")
    in_order("frozen", run(program, "topdress", yard, "--today", "2027-01-15"), "Hold: spread none on frozen ground", "Once it has thawed:", "Order ",
             "Wait for spring, when cool-season grass grows.")


def check_plan_below_hold(program, yard):
    pile = '[[supply]]\nfeedstock = "leaves-fall"\namount = "8 leaf-bag"\n[[supply]]\nfeedstock = "grass-clippings"\namount = "8 bucket"\n'
    salty = 'analysis = { salts_1to5 = "12 dS/m" }\n'
    for plan, soil, instead in (("", '[soil_test]\nphosphorus = "high"\n', "once cleared. Till then buy none; keep yours covered"), (salty, "", "ask for one with less salt"),
                                ("frozen_or_snow = true\n", "", "once thawed. Till then buy none; keep yours covered")):
        yard.write_text(f"{pile}{LAWN}[topdressing]\n{plan}{soil}", encoding="utf-8")
        text = " ".join(run(program, "plan", yard).split())
        check(instead, "Hold" in text and "buy none" in text.lower() and instead in text and "To buy for the rest" not in text, text)
    yard.write_text(f'{pile}{LAWN}[soil_test]\nphosphorus = "purple"\n', encoding="utf-8")
    in_order("ask", run(program, "plan", yard), 'Ask     your laboratory: is phosphorus "purple" high? If so, hold', "Covers")
    yard.write_text(pile + LAWN, encoding="utf-8")
    check("no hold", "To buy for the rest" in " ".join(run(program, "plan", yard).split()), "does not say what to buy")


def check_what_is_carried(program, yard):
    """Barrows and what is carried are one amount, with the allowance; the ground has its own words."""
    second = LAWN.replace("back", "front").replace("4000", "1000")
    yard.write_text(f'{LAWN}{second}[topdressing]\nallowance = "20 %"\n', encoding="utf-8")
    answer = json.loads(run(program, "topdress", yard, "--json"))
    for zone in answer["zones"]:
        near("carried", zone["volume_with_allowance_m3"], 1.2 * zone["volume_m3"])
        near("barrows", zone["wheelbarrow_loads"] / answer["wheelbarrow_loads"], zone["volume_with_allowance_m3"] / answer["volume_with_allowance_m3"])
    text = run(program, "topdress", yard, "--why")
    check("carried", "Spread 3.9 cu yd over 5000 sq ft, 1/4 in deep." in text, text)  # 5000 × 0.25/12/27 = 3.858
    check("carried", "to carry: with the 20 % for overlap and lumps" in text, text)
    check("carried", re.search(r"back +4000 sq ft +1/4 in +3\.7 cu yd", text), text)  # 3.086 × 1.2 = 3.704


def check_assumptions(program, yard):
    """What changes the order comes first, the rest says that it changes none."""
    yard.write_text(LAWN.replace("shape", 'measured_by = "paces"\nshape') + '[topdressing]\ndepth = "1/4 in"\n', encoding="utf-8")
    assumptions = json.loads(run(program, "topdress", yard, "--json"))["assumptions"]
    whats = [one["what"] for one in assumptions]
    check("assumptions", whats[:3] == ["area of the lawn", "depth of the compost", "allowance for overlap, lumps and settling"], whats)
    near("area", assumptions[0]["could_change_answer"], 0.2)
    near("allowance", assumptions[2]["could_change_answer"], 0.05 / 1.05)
    check("assumptions", all(what.endswith("(the volume to order stays)") for what in whats[5:]), whats)
    yard.write_text(LAWN + '[topdressing]\n', encoding="utf-8")
    assumptions = json.loads(run(program, "topdress", yard, "--json"))["assumptions"]
    depth = next(one for one in assumptions if one["what"] == "depth of the compost")
    near("depth", depth["could_change_answer"], 1.0)
    known = [one["could_change_answer"] for one in assumptions if one["could_change_answer"] is not None]
    check("assumptions", known == sorted(known, reverse=True), known)
    check("area", next(one for one in assumptions if one["what"] == "area of the lawn")["evidence"].startswith("taken as exact"), assumptions)
    have = json.loads(run(program, "topdress", yard, "--have", "2 yd3", "--json"))["assumptions"]
    check("have", all(one["what"] != "area of the lawn" for one in have), have)


def check_age(program, yard):
    yard.write_text(f'{LAWN}[soil_test]\ndate = 2023-11-30\nphosphorus = "low"\n', encoding="utf-8")
    for today, old in (("2026-11-30", False), ("2026-12-01", True)):
        text = " ".join(run(program, "topdress", yard, "--today", today).split())
        answer = json.loads(run(program, "topdress", yard, "--today", today, "--json"))
        check(today, ("more than 3 years old" in text) == old and answer["soil_test"]["too_old"] == old, f"{text} {answer['soil_test']}")
    check("a test of tomorrow", "check its date" in run(program, "topdress", yard, "--today", "2023-11-29"), "is not said")


def check_credit(program, yard):
    for recommended, months in ((3, 1), (0.5, 1), (4, 2)):
        listed = ', '.join(f'"{month}"' for month in ("May", "Sep")[:months])
        yard.write_text(f'{LAWN}[topdressing]\nmonths = [{listed}]\n[soil_test]\nnitrogen_recommended = "{recommended} lb/1000ft2"\n', encoding="utf-8")
        answer = json.loads(run(program, "topdress", yard, "--json"))
        available, credit = answer["nutrients_kg_per_100m2"]["nitrogen_available"], answer["nitrogen_credit"]
        of = recommended * POUND / THOUSAND_FEET * 100
        near("recommended", credit["recommended_kg_per_100m2"], of)
        for which in ("low", "likely", "high"):
            near(f"credit {which}", credit["share"][which], months * available[which] / of)
        text = " ".join(run(program, "topdress", yard).split())
        shown = re.search(r"about ([0-9.]+) %, at most ([0-9.]+) %, of the ([0-9.]+) lb a year your laboratory recommends", text)
        check("credit", shown and float(shown[3]) == recommended, text)
        if shown:
            for figure, which in ((shown[1], "likely"), (shown[2], "high")):
                check("credit", abs(float(figure) - 100 * credit["share"][which]) <= 0.51, f"{figure} is not {credit['share'][which]}")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        yard = pathlib.Path(folder, "yard.toml")
        check_tables(program, yard)
        check_analyses(program, yard, random.Random(20261130))
        check_salts(program, yard)
        check_soil_tests(program, yard)
        check_budget(program, yard)
        check_own_compost(program, yard)
        check_limits(program, yard)
        check_seasons(program, yard)
        check_plan_below_hold(program, yard)
        check_what_is_carried(program, yard)
        check_assumptions(program, yard)
        check_age(program, yard)
        check_credit(program, yard)
    print("\n".join(counted.failures[:40]))
    print(f"{counted.count} checks of nutrients and soil tests, {len(counted.failures)} failures")
    return 1 if counted.failures else 0


if __name__ == "__main__":
    sys.exit(main())
