"""Yards through the seasons: what is on hand on the building day, what is not and is said so, what fits the room, and what the browns that are
left feed afterwards. Yards are invented at random from a fixed seed, with building days through two years.

usage: check_seasons.py PROGRAM
"""
import datetime
import math
import pathlib
import random
import re
import sys
import tempfile

from arithmetic import Checks, Program, cubic_metres, feedstock_rows, keeps_days, share_on_hand, table, yard_text

YARDS = 40
FIRST_DAY = datetime.date(2027, 1, 1)  # the year after has a 29 February
LEEWAY = 1e-4  # of the room, and of what is on hand; stages of the recipe leave each other slack of 1e-7, bins are sized in feet
ALL_OF_IT = 0.999  # of what a year brings; more of it is all
NAMED_FROM = 0.001  # of what is on hand: less may be left over without a word
SAME = 1e-9  # relative; sums of a hundred doubles
SIZES = {"fill", "capacity", "room", "fixed", "on-hand", "goal", "water"}
GOES_IN_FROM = 1e-4  # of the mass of the pile; less is dust
ALL_IN = ("put it all in", "put all of it in")

check = Checks()


# Invented households


def maybe(generator, chance, supply):
    return [supply] if generator.random() < chance else []


def household_supplies(generator):
    """What a household has through the year, each feedstock once."""
    weekly = {"every": "week"}
    mowing = {"every": "week", "from": generator.choice(["Mar", "Apr", "Apr", "May"]), "to": generator.choice(["Sep", "Oct", "Oct", "Nov"])}
    treated = generator.choice([{}, {}, {"treated": "no"}, {"treated": "unknown"}, {"treated": "yes"}])
    manure = generator.choice([{"months": ["Mar", "Apr"]}, {"months": ["Dec", "Jan", "Feb"]}, {"months": ["Jul"]}, weekly, None])
    supplies = [{"feedstock": "leaves-fall", "amount": f"{generator.randint(4, 40)} leaf-bag", "storable": True,
                 "when": {"months": generator.choice([["Oct", "Nov"], ["Oct", "Nov"], ["Nov"], ["Sep", "Oct", "Nov"]])}}]
    supplies += maybe(generator, 0.8, {"feedstock": "grass-clippings", "amount": f"{generator.randint(2, 12)} bucket", "when": mowing, **treated})
    supplies += maybe(generator, 0.7, {"feedstock": "kitchen-scraps", "amount": f"{generator.randint(1, 4)} kitchen-pail", "when": weekly})
    supplies += maybe(generator, 0.5, {"feedstock": "coffee-grounds", "amount": f"{generator.randint(1, 8) / 2:g} bucket",
                                       "when": generator.choice([weekly, {"every": "week", "from": "Sep", "to": "Jun"}])})
    supplies += maybe(generator, 0.3, {"feedstock": "straw", "packing": "packed", "amount": f"{generator.randint(1, 5)} straw-bale"})
    horse = {"feedstock": "horse-manure", "amount": f"{generator.randint(1, 8)} wheelbarrow"}
    supplies += maybe(generator, 0.4, {**horse, "when": manure} if manure else horse)
    if generator.random() < 0.1 and len(supplies) > 1:
        supplies[-1]["use"] = "all"
    supplies += maybe(generator, 0.1, {"feedstock": "alfalfa-meal", "bought": True, "price": 20, "unit": "50 lb"})
    supplies += maybe(generator, 0.2, {"feedstock": "sawdust", "use": "unlimited"})
    supplies += maybe(generator, 0.2, {"feedstock": "garden-weeds", "use": "unlimited", "storable": False, "when": mowing})
    generator.shuffle(supplies)
    return supplies


def pile(generator, built):
    if generator.random() < 0.3:
        return {"shape": "tumbler", "volume": f"{generator.choice([37, 60, 80, 105])} gal", "count": generator.choice([1, 1, 2]), "built": built}
    side = generator.choice([2.5, 3, 4, 5])
    return {"shape": "bin", "length": f"{side} ft", "width": f"{side} ft", "height": f"{generator.choice([3, 4])} ft",
            "count": generator.choice([1, 1, 2, 3]), "built": built}


def room(bins):
    """Cubic metres; a tumbler takes two thirds, to turn over."""
    def size(key):
        return float(bins[key].split()[0])
    if bins["shape"] == "tumbler":
        return bins["count"] * cubic_metres(size("volume"), "gal") * 2.0 / 3.0
    return bins["count"] * cubic_metres(size("length") * size("width") * size("height"), "ft3")


def wishes(generator):
    return {"fill": f"{generator.choice([0.3, 0.6, 1])} yd3"} if generator.random() < 0.1 else {}


# What a yard has on its day


def counted(supply):
    """The number and the unit of its amount."""
    number, unit = supply["amount"].split()
    return float(number), unit


def share(supply, built):
    return share_on_hand(supply.get("when"), supply.get("storable", False), built, keeps_days(supply["feedstock"]))


def on_hand(supply, built):
    """Cubic metres as they are counted; of what there is as much of as is wanted, no end."""
    there = share(supply, built)
    return there * (math.inf if supply.get("use") == "unlimited" else cubic_metres(*counted(supply))) if there > 0.0 else 0.0


def goes_in(supply):
    return not supply.get("bought") and supply.get("treated") not in ("yes", "unknown")


def season(when):
    """First and last month of what has a season."""
    return (when["months"][0], when["months"][-1]) if "months" in when else (when["from"], when["to"])


# What is said of it


def plain(text):
    """In one line, for lines are broken anywhere."""
    return " ".join(text.split())


def labeled(text, name):
    """What stands beside a label, in the lines that are indented below it too."""
    lines = text.split("\n")
    at = next((number for number, line in enumerate(lines) if line.startswith(name)), None)
    if at is None:
        return ""
    end = next((number for number, line in enumerate(lines[at + 1:], at + 1) if not line.startswith(" ")), len(lines))
    return plain(" ".join(lines[at:end]))


def told(answer):
    """What the text goes by: whole containers where there are some."""
    return answer["whole_containers"] or answer


def check_on_hand(where, supplies, built, answer, texts):
    amounts = {amount["id"]: amount for amount in answer["amounts"]}
    left = {amount["id"]: amount["left_over_m3"] for amount in told(answer)["amounts"]}
    expected_not_today = []
    for supply in filter(goes_in, supplies):
        id, there, there_share = supply["feedstock"], on_hand(supply, built), share(supply, built)
        here = f"{where}: {id}"
        fresh = "when" in supply and not supply.get("storable")
        if fresh and (there == 0.0 or ("months" in supply["when"] and there_share < ALL_OF_IT and there < math.inf)):
            first, last = season(supply["when"])
            expected_not_today.append({"id": id, "keeps_days": keeps_days(id), "from": first, "to": last, "share_on_hand": there_share})
            for command, text in texts.items():
                check(feedstock_rows()[id]["name"] in labeled(text, "Not today"), f"{here} is not there whole on {built}, and the text of {command} does not say so")
        if there == 0.0:
            check(not amounts.get(id) or amounts[id]["volume_m3"] + amounts[id]["left_over_m3"] == 0.0, f"{here} has nothing on hand, but {amounts.get(id)}")
            continue
        if not answer["mix"]:
            continue
        if there == math.inf:
            of_the_pile = {amount["id"]: amount["mass_kg"] for amount in told(answer)["amounts"]}.get(id, 0.0) / told(answer)["mix"]["mass_kg"]
            for command, text in texts.items():
                check(of_the_pile > GOES_IN_FROM or feedstock_rows()[id]["name"] in labeled(text, "Not needed"),
                      f"{here} does not go in, and the text of {command} does not say so")
            continue
        check(id in amounts, f"{here} has {there:.6g} m3 on hand, and is in no amount")
        if id not in amounts:
            continue
        found = amounts[id]["volume_m3"] + amounts[id]["left_over_m3"]
        check(abs(found - there) <= LEEWAY * there, f"{here}: {found:.6g} m3 go in and are left over, {there:.6g} m3 are on hand on {built}")
        for command, text in texts.items():
            if left.get(id, 0.0) > NAMED_FROM * there and "and nothing green: that is no failure" not in plain(text):
                check(re.search(rf"\d\. (The other|All) [^:]* of {feedstock_rows()[id]['name']}[^:]*:", plain(text)),
                      f"{here}: {left[id]:.4g} of {there:.4g} m3 are left over, and the text of {command} does not say so")
    expected_not_today.sort(key=lambda one: one["id"])
    said = sorted(answer["not_today"], key=lambda one: one["id"])
    same = [one["id"] for one in said] == [one["id"] for one in expected_not_today] and all(
        one | {"share_on_hand": 0} == other | {"share_on_hand": 0} and abs(one["share_on_hand"] - other["share_on_hand"]) <= 1e-9
        for one, other in zip(said, expected_not_today))
    check(same,
          f"{where}: not today {answer['not_today']}, expected {expected_not_today}")


def check_room(where, bins, asked, supplies, answer, texts):
    there = room(bins)
    whole = answer["everything_in"] or answer
    volume = whole["mix"]["volume_m3"] if whole["mix"] else 0.0
    for command, text in texts.items():
        for words in ALL_IN:
            check(words not in plain(text).lower() or volume <= there * (1.0 + LEEWAY),
                  f'{where}: {command} says "{words}" of {volume:.4g} m3, the room is {there:.4g} m3')
    overfull = answer["mix"] and answer["mix"]["volume_m3"] > there * (1.0 + LEEWAY)
    if "fill" in asked or any(supply.get("use") == "all" for supply in supplies):
        for command, text in texts.items():
            check(not overfull or "there is room for" in plain(text), f"{where}: {command} does not say that the bins hold less")
        return
    for what, one in (("exactly", answer), ("in whole containers", answer["whole_containers"])):
        if one and one["mix"]:
            check(one["mix"]["volume_m3"] <= there * (1.0 + LEEWAY), f"{where}: {one['mix']['volume_m3']:.5g} m3 {what}, the room is {there:.5g} m3")


def check_size(where, bins, answer):
    """What sets the size is at its end."""
    if not answer["mix"]:
        return
    size = answer["size_set_by"] or {"by": None, "feedstocks": []}
    check(size["by"] in SIZES, f"{where}: the size is set by {size}")
    if size["by"] == "room":
        check(answer["mix"]["volume_m3"] >= room(bins) * (1.0 - LEEWAY),
              f"{where}: the room sets the size, but {answer['mix']['volume_m3']:.4g} m3 of {room(bins):.4g} m3 are filled")
    for amount in answer["amounts"]:
        if size["by"] == "on-hand" and amount["id"] in size["feedstocks"]:
            there = amount["volume_m3"] + amount["left_over_m3"]
            check(amount["left_over_m3"] <= LEEWAY * there, f"{where}: what there is of {amount['id']} sets the size, but {amount['left_over_m3']:.4g} m3 are left")


def check_yard(program, folder, where, supplies, asked, bins):
    path = folder / "yard.toml"
    path.write_text(yard_text(supplies, asked) + table("[pile]", bins))
    answer = program.answer("recipe", str(path))
    texts = {command: program.text(command, str(path), "--all") for command in ("recipe", "plan")}
    built = bins["built"]
    check_on_hand(where, supplies, built, answer, texts)
    check_room(where, bins, asked, supplies, answer, texts)
    check_size(where, bins, answer)
    return answer


# In balance all together, but not in this bin, of which no more than a part is wanted.
SNUG = ([{"feedstock": "leaves-fall", "amount": "10 leaf-bag"}, {"feedstock": "coffee-grounds", "amount": "6 bucket"}], {"fill": "0.5 yd3"},
        {"shape": "bin", "length": "3 ft", "width": "3 ft", "height": "3 ft", "count": 1, "built": FIRST_DAY})
# What must go in is alone more than the tumbler takes.
OVERFULL = ([{"feedstock": "leaves-fall", "amount": "14 leaf-bag"}, {"feedstock": "coffee-grounds", "amount": "10 bucket", "use": "all"}], {},
            {"shape": "tumbler", "volume": "60 gal", "count": 1, "built": FIRST_DAY})


def yards(generator):
    yield SNUG
    yield OVERFULL
    for place in range(2, YARDS):
        built = FIRST_DAY + datetime.timedelta(days=round(730 * (place + generator.random()) / YARDS))
        yield household_supplies(generator), wishes(generator), pile(generator, built)


def main():
    program = Program(sys.argv[1])
    met = {}
    with tempfile.TemporaryDirectory() as name:
        for place, (supplies, asked, bins) in enumerate(yards(random.Random(40))):
            before = len(check.failures)
            answer = check_yard(program, pathlib.Path(name), f"yard {place}", supplies, asked, bins)
            for what in (answer["status"], f"size by {(answer['size_set_by'] or {}).get('by')}",
                         *(["not all today"] if answer["not_today"] else [])):
                met[what] = met.get(what, 0) + 1
            if len(check.failures) > before:
                print((pathlib.Path(name) / "yard.toml").read_text() + "\n".join(check.failures[before:]) + "\n")
    print(f"{YARDS} yards: {', '.join(f'{count} {what}' for what, count in sorted(met.items()))}")
    print(f"{check.count} checks, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
