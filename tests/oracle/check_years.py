"""`season` against the same year solved by glpsol on year.mod, for random yards; its rules of waiting and of a comfortable mix too.

Figures of feedstocks are the program's own (`materials ID --json`); all else is worked out here from what a yard file says.

usage: check_years.py PROGRAM
"""
import calendar
import pathlib
import random
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "cli"))
from arithmetic import MONTHS, Checks, Program, kilograms, table  # noqa: E402

MODEL = pathlib.Path(__file__).with_name("year.mod")
YEARS = 200
STAGES = ("most_waste", "most_of_a_month", "most_bought", "most_waiting")
COMFORTABLE = 0.6
RATIO, MOISTURE, AIR = (25.0, 30.0, 35.0), (0.50, 0.55, 0.60), 0.35
KEEPERS = ("leaves-fall", "straw", "wood-shavings", "corn-stalks", "sawdust")
# What glpsol's floating point and CLP's may differ by: their rows hold to some 1e-7 each, over five stages kept at 1e-7 one on the other.
TOLERANCE = 2e-5

check = Checks()


def random_yard(generator):
    """Supplies as they stand in a yard file."""
    supplies = []
    for feedstock in generator.sample(KEEPERS, generator.randint(1, 2)):
        months = generator.sample(MONTHS, generator.randint(1, 3))
        supplies.append({"feedstock": feedstock, "amount": f"{generator.randint(2, 30)} leaf-bag", "when": {"months": sorted(months, key=MONTHS.index)}, "storable": True})
    if generator.random() < 0.8:
        first = generator.randint(2, 5)
        supplies.append({"feedstock": "grass-clippings", "amount": f"{generator.randint(1, 8)} bucket", "treated": "no",
                         "when": {"every": "week", "from": MONTHS[first], "to": MONTHS[generator.randint(first, 10)]}})
    if generator.random() < 0.8:
        supplies.append({"feedstock": "kitchen-scraps", "amount": f"{generator.choice([1, 2, 3])} bucket", "when": {"every": "week", "from": "Jan", "to": "Dec"}})
    if generator.random() < 0.4:
        supplies.append({"feedstock": "coffee-grounds", "amount": f"{generator.randint(1, 40)} bucket", "when": {"months": [generator.choice(MONTHS)]}})
    if generator.random() < 0.3 and not any(supply["feedstock"] == "straw" for supply in supplies):
        supplies.append({"feedstock": "straw", "bought": True, "price": 8, "unit": "1 straw-bale"})
    return supplies


def kind_of(supply):
    if supply.get("bought"):
        return "BOUGHT"
    if supply.get("storable"):
        return "DRY"
    return "FRESH"


def masses(supply, matter):
    """What of it comes in each month of a common year, in kilograms."""
    if supply.get("bought"):
        return [0.0] * 12
    number, unit = supply["amount"].split(" ", 1)
    amount = kilograms(float(number), unit, matter["counted_density"])
    days = [calendar.monthrange(2025, month + 1)[1] for month in range(12)]
    when = supply["when"]
    if "months" in when:
        listed = [MONTHS.index(month) for month in when["months"]]
        return [amount * days[month] / sum(days[one] for one in listed) if month in listed else 0.0 for month in range(12)]
    first, last = MONTHS.index(when["from"]), MONTHS.index(when["to"])
    return [amount * days[month] / 7.0 if first <= month <= last else 0.0 for month in range(12)]


def data_of(supplies, matters, comes, whole, distance, may_wait, stage, limits):
    names = [f"s{place}" for place in range(len(supplies))]
    lines = ["data;", "set SUPPLIES := " + " ".join(names) + ";"]
    for kind in ("FRESH", "DRY", "BOUGHT"):
        lines.append(f"set {kind} := " + " ".join(name for name, supply in zip(names, supplies) if kind_of(supply) == kind) + ";")
    lines.append("set WAITS := " + " ".join(name for name, supply, matter in zip(names, supplies, matters) if kind_of(supply) == "FRESH" and matter["class"] == "must-go") + ";")
    for param, key in (("water_in", "water"), ("dry_in", "dry"), ("carbon_in", "carbon"), ("nitrogen_in", "nitrogen"), ("loose", "loose"), ("solids", "solids")):
        lines.append(f"param {param} := " + " ".join(f"{name} {matter[key]!r}" for name, matter in zip(names, matters)) + ";")
    lines.append("param weight := " + " ".join(f"{name} {3 if matter['class'] == 'must-go' else 1}" for name, matter in zip(names, matters)) + ";")
    lines.append("param comes := " + " ".join(f"[{name}, {month}] {mass / whole!r}" for name, year in zip(names, comes) for month, mass in enumerate(year) if mass > 0.0) + ";")
    for name, (low, aim, high) in (("ratio", RATIO), ("moisture", MOISTURE)):
        lines.append(f"param {name}_low := {aim - distance * (aim - low)!r}; param {name}_high := {aim + distance * (high - aim)!r};")
    lines.append(f"param least_air := {AIR}; param may_wait := {int(may_wait)}; param stage := {stage};")
    lines += [f"param {name} := {limit!r};" for name, limit in limits.items()]
    return "\n".join(lines + ["end;"])


def glpsol(data, folder):
    path = pathlib.Path(folder) / "year.dat"
    path.write_text(data)
    done = subprocess.run(["glpsol", "--model", str(MODEL), "--data", str(path)], capture_output=True, text=True, timeout=60)
    lines = [line for line in done.stdout.split("\n") if len(line.split()) == 5 and line[0] in "-0123456789"]
    if "OPTIMAL" not in done.stdout or not lines:
        raise SystemExit(f"glpsol: {done.stdout[-800:]}\n{data}")
    return [float(figure) for figure in lines[-1].split()]


def solved(supplies, matters, comes, whole, distance, may_wait, folder, last=5):
    limits, reached = {}, None
    for stage in range(1, last + 1):
        reached = glpsol(data_of(supplies, matters, comes, whole, distance, may_wait, stage, limits), folder)
        if stage <= len(STAGES):
            limits[STAGES[stage - 1]] = reached[stage - 1] * (1 + 1e-7) + 1e-9
    return {"waste": reached[0] * whole, "bought": reached[2] * whole, "store": reached[4] * whole}


def with_waiting(*year, last=5):
    """Scraps wait where that saves a twentieth of all that is fresh."""
    supplies, matters, comes = year[:3]
    best = solved(*year[:5], False, year[5], last=last)
    fresh = sum((3 if matter["class"] == "must-go" else 1) * matter["dry"] * sum(masses_) for supply, matter, masses_ in zip(supplies, matters, comes) if kind_of(supply) == "FRESH")
    best.update(fresh=fresh, waits=False)
    can_wait = any(kind_of(supply) == "FRESH" and matter["class"] == "must-go" for supply, matter in zip(supplies, matters))
    if not can_wait or best["waste"] < 0.05 * fresh:
        return best
    waiting = solved(*year[:5], True, year[5], last=last)
    waiting.update(fresh=fresh, waits=True)
    return waiting if best["waste"] - waiting["waste"] >= 0.05 * fresh else best


def agrees(where, what, found, expected, whole):
    check(abs(found - expected) <= TOLERANCE * max(abs(expected), whole), f"{where}: {what} {found} against {expected}")


def check_accounts(where, answer):
    for place in range(len(answer["months"][0]["feedstocks"])):
        rows = [month["feedstocks"][place] for month in answer["months"]]
        largest = max(max(row["in_m3"], row["used_m3"], row["stored_m3"]) for row in rows)
        for month, row in enumerate(rows):
            before = rows[month - 1]["stored_m3"]
            gap = before + row["in_m3"] + row["bought_m3"] - row["used_m3"] - row["unused_m3"] - row["stored_m3"]
            check(abs(gap) <= 1e-9 * max(1.0, largest), f"{where}: {row['id']} in {MONTHS[month]} is off by {gap} m3")
            check(min(value for value in row.values() if isinstance(value, float)) >= 0.0, f"{where}: {row}")


def check_year(program, supplies, where, folder, counts):
    path = pathlib.Path(folder) / "yard.toml"
    path.write_text("".join(table("[[supply]]", supply) for supply in supplies))
    answer = program.answer("season", str(path), "--today", "2026-11-28")
    matters = [program.matter(supply["feedstock"]) for supply in supplies]
    comes = [masses(supply, matter) for supply, matter in zip(supplies, matters)]
    whole = sum(map(sum, comes))
    distance = answer["distance_from_aim"]
    year = (supplies, matters, comes, whole, distance, folder)
    expected = with_waiting(*year)
    counts["waits"] += expected["waits"]
    counts["balanced"] += answer["balanced"]
    counts["comfortable"] += distance < 1.0
    check(answer["scraps_wait"] == expected["waits"], f"{where}: scraps wait: {answer['scraps_wait']}")
    agrees(where, "waste", answer["waste_kg"], expected["waste"], 0.01 * expected["fresh"])
    volume = sum(sum(year_) * matter["loose"] for year_, matter in zip(comes, matters))
    agrees(where, "bought", sum(row["bought_m3"] for month in answer["months"] for row in month["feedstocks"]), expected["bought"], 0.1 * volume)
    agrees(where, "store", answer["store_m3"], expected["store"], 0.1 * volume)
    check_accounts(where, answer)
    for month in answer["months"]:
        mix = month["mix"]
        if mix and mix["dry_mass_kg"] > 1e-3:
            check(RATIO[0] - 1e-3 <= mix["carbon_to_nitrogen"] <= RATIO[2] + 1e-3, f"{where}: C:N {mix['carbon_to_nitrogen']} in {month['month']}")
            check(MOISTURE[0] - 1e-4 <= mix["moisture_fraction"] <= MOISTURE[2] + 1e-4, f"{where}: moisture {mix['moisture_fraction']} in {month['month']}")
    return year, expected


def check_choice(year, expected, where, counts):
    """The comfortable distance where it costs no more than a hundredth of what is fresh, and a tenth of what is bought."""
    other = with_waiting(*year[:4], 1.0 if year[4] < 1.0 else COMFORTABLE, year[5], last=3)
    best, inside = (other, expected) if year[4] < 1.0 else (expected, other)
    little = 1e-6 * best["fresh"]
    as_little = inside["waste"] - best["waste"] <= 0.01 * best["fresh"] + little and inside["bought"] <= 1.1 * best["bought"] + 0.001 + 1e-6
    clearly_more = inside["waste"] - best["waste"] > 0.01 * best["fresh"] - little or inside["bought"] > 1.1 * best["bought"] + 0.001 - 1e-6
    check(as_little if year[4] < 1.0 else clearly_more, f"{where}: {year[4]} is chosen: {inside} against {best}")
    counts["choices"] += 1


def main():
    program = Program(sys.argv[1])
    generator = random.Random(20261128)
    counts = {"waits": 0, "balanced": 0, "comfortable": 0, "choices": 0}
    with tempfile.TemporaryDirectory() as folder:
        for number in range(YEARS):
            year, expected = check_year(program, random_yard(generator), f"year {number}", folder, counts)
            if number % 5 == 0:
                check_choice(year, expected, f"year {number}", counts)
    print("\n".join(check.failures[:20]))
    print(counts)
    print(f"{check.count} checks of {YEARS} years, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
