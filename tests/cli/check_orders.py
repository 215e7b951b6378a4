"""Orders of compost, from outside: the line for the phone, and the cheapest order against every mix of the offers of random price lists.

usage: check_orders.py PROGRAM
"""
import json
import math
import pathlib
import random
import re
import subprocess
import sys
import tempfile

from arithmetic import Checks

check = Checks()
EXAMPLES = pathlib.Path(__file__).resolve().parents[2] / "examples"
FEET_A_YARD = 27
ALLOWANCE = 1.05
FEET_AT_A_QUARTER_INCH = 0.25 / 12  # cu ft on a sq ft


def run(program, *arguments):
    return subprocess.run([program, *arguments], capture_output=True, text=True, timeout=120)


def topdress(program, *arguments):
    done = run(program, "topdress", *arguments, "--json")
    check(done.returncode == 0, f"{arguments}: {done}")
    return json.loads(done.stdout)


def toml_of(offers, area):
    text = f'[[lawn.zone]]\nname = "field"\narea = "{area} ft2"\n[topdressing]\ndepth = "1/4 in"\n'
    for offer in offers:
        text += "[[topdressing.offer]]\n" + "\n".join(f"{key} = {value}" for key, value in offer["toml"].items()) + "\n"
    return text


def random_offer(generator, place):
    """Volumes in cubic feet."""
    in_bulk = generator.random() < 0.6
    unit = FEET_A_YARD if in_bulk else generator.choice([1, 2])
    step = unit // generator.choice([1, 1, 3]) if in_bulk else unit
    price = generator.randint(20, 60) if in_bulk else unit * generator.choice([2.5, 3, 4])
    offer = {"unit": unit, "step": step, "price": price, "delivery": 0, "by_load": False, "load": None, "minimum": 0, "break": None, "tax": 0.0, "pallet": None}
    toml = {"name": f'"offer {place}"', "unit": f'"{unit} ft3"', "price": price, "step": f'"{step} ft3"'}
    if in_bulk and generator.random() < 0.7:
        offer.update(delivery=generator.randint(20, 90), by_load=generator.random() < 0.5, load=FEET_A_YARD * generator.randint(3, 10))
        toml.update(delivery=offer["delivery"], delivery_per='"load"' if offer["by_load"] else '"order"', load=f'{{ volume = "{offer["load"]} ft3" }}')
    if generator.random() < 0.3:
        offer["minimum"] = step * generator.randint(1, 6)
        toml["minimum"] = f'"{offer["minimum"]} ft3"'
    if generator.random() < 0.4:
        offer["break"] = (step * generator.randint(2, 20), price * generator.choice([0.8, 0.9]))
        toml["breaks"] = f'[{{ from = "{offer["break"][0]} ft3", price = {offer["break"][1]} }}]'
    if generator.random() < 0.4:
        offer["tax"] = generator.choice([0.05, 0.07])
        toml["tax"] = f'"{100 * offer["tax"]:g} %"'
    if not in_bulk and generator.random() < 0.5:
        offer["pallet"] = (generator.randint(10, 50), generator.randint(5, 15))
        toml["pallet"] = f'{{ holds = {offer["pallet"][0]}, price = {offer["pallet"][1]} }}'
    return {**offer, "toml": toml}


def cost_of(offer, volume):
    if volume == 0:
        return 0.0
    if volume < offer["minimum"]:
        return math.inf
    price = offer["break"][1] if offer["break"] and volume >= offer["break"][0] else offer["price"]
    units = volume / offer["unit"]
    loads = math.ceil(volume / offer["load"]) if offer["load"] else 1
    cost = units * price * (1 + offer["tax"]) + (loads if offer["by_load"] else 1) * offer["delivery"]
    if offer["pallet"]:
        cost += math.ceil(units / offer["pallet"][0] - 1e-9) * offer["pallet"][1]
    return cost


def cheapest(offers, need):
    if not offers:
        return 0.0 if need <= 1e-7 else math.inf
    first, rest = offers[0], offers[1:]
    most = max(math.ceil(need), first["break"][0] if first["break"] else 0, first["minimum"]) + first["step"]
    best = math.inf
    for volume in range(0, most + 1, first["step"]):
        cost = cost_of(first, volume)
        if cost < best:
            best = min(best, cost + cheapest(rest, max(0.0, need - volume)))
    return best


def check_cheapest(program, folder):
    generator = random.Random(20)
    for number in range(120):
        offers = [random_offer(generator, place) for place in range(generator.randint(1, 3))]
        area = generator.randint(200, 6000)
        file = folder / "orders.toml"
        file.write_text(toml_of(offers, area))
        answer = topdress(program, str(file))
        need = area * FEET_AT_A_QUARTER_INCH * ALLOWANCE
        best, where = answer["best_order"], f"list {number}, {need:.2f} cu ft"
        check(best["volume_m3"] >= answer["volume_with_allowance_m3"] * (1 - 1e-9), f"{where}: {best} is below the need")
        wanted = cheapest(offers, need)
        check(abs(best["cost"] - wanted) <= 1e-6 * wanted, f"{where}: {best['cost']} and by every mix {wanted}: {file.read_text()}")
        check(abs(best["cost"] - sum(item["cost"] for item in best["items"])) <= 1e-6 * wanted, f"{where}: the items of {best} do not add up")
        check(all(order["cost"] >= best["cost"] * (1 - 1e-9) for order in answer["orders"]), f"{where}: another order is cheaper")
        check(all(order["volume_m3"] >= answer["volume_with_allowance_m3"] * (1 - 1e-9) for order in answer["orders"]), f"{where}: an order is below the need")


def check_phone_line(program, folder):
    """Rounded up to the step, never by how figures are shown."""
    for yards, wanted in ((99.5, "99 1/2"), (99.6, "100"), (104.5, "104 1/2"), (104.6, "105"), (4.0, "4"), (4.01, "4 1/2"), (0.6, "1")):
        area = yards * FEET_A_YARD / FEET_AT_A_QUARTER_INCH / ALLOWANCE
        line = topdress(program, "--area", f"{area:.9f} ft2")["phone_line"]
        check(line == f"{wanted} cu yd of compost screened to 3/8 in or finer", f"{yards} cu yd: {line}")
    check(topdress(program, "--area", "200 ft2")["phone_line"].startswith("5 bags of 1 cubic foot of compost"), "a small lawn is in bags")
    check(topdress(program, "--area", "2000 ft2", "--surface", "new")["phone_line"].endswith("screened to 1/2 in or finer"), "tilled in it may be coarser")
    file = folder / "loads.toml"
    file.write_text('[[lawn.zone]]\nname = "field"\narea = "15000 ft2"\n[topdressing]\n[[topdressing.offer]]\nname = "bulk"\nunit = "1 yd3"\nprice = 38\n'
                    'delivery = 75\ndelivery_per = "load"\nload = { volume = "10 yd3" }\nscreen = "1/4 in"\n'
                    '[[topdressing.offer]]\nname = "old"\nunit = "1 yd3"\nprice = 1\nvalid_until = 2026-01-31\n')
    answer = topdress(program, str(file), "--today", "2026-09-01")
    check(answer["phone_line"] == "13 cu yd of compost screened to 1/4 in or finer, 2 loads", answer["phone_line"])
    check(abs(answer["best_order"]["cost"] - (13 * 38 + 150)) < 1e-9, str(answer["best_order"]))
    screen = run(program, "topdress", str(file), "--today", "2026-09-01").stdout
    check(screen.startswith("Order 13 cu yd of compost screened to 1/4 in or finer, 2 loads.\n"), screen)
    bought = " ".join(run(program, "topdress", str(file), "--today", "2026-09-01", "--budget", "500").stdout.split())
    check(bought.startswith('For 500 you get 10 cu yd from "bulk": 455.'), bought)
    check("1/8 in it covers" in bought and "3/8 in it covers" in bought, bought)


def check_budget(program):
    """Of several drops all or nothing is told; of one, whether its order is within the money; and no more is bought than it takes."""
    sites, front, field = (str(EXAMPLES / f"{name}.toml") for name in ("three-sites", "front-lawn", "school-field"))
    for money, code, first in (("900", 1, "900 is not enough: all of it costs 950.62."), ("951", 0, "951 is enough: this costs 950.62.")):
        done = run(program, "topdress", sites, "--today", "2026-09-01", "--budget", money)
        check(done.returncode == code and done.stdout.startswith(first), f"{done}")
    for money in ("600", "$600", "600.00", "$1,200"):
        done = run(program, "topdress", front, "--today", "2027-08-20", "--budget", money)
        check(done.stdout.split("\n")[0].endswith("is enough: this costs 68."), f"{money}: {done}")
    short = run(program, "topdress", front, "--today", "2027-08-20", "--budget", "40").stdout
    check(short.startswith("For 40 you get") and "You need 6.3 cu ft more." in " ".join(short.split()), short)
    check(run(program, "topdress", front, "--budget", "much").returncode == 2, "no sum of money")
    for have, words in (("50 yd3", "You need 2 cu yd more."), ("52 yd3", "That is enough.")):
        text = " ".join(run(program, "topdress", field, "--today", "2027-08-20", "--have", have).stdout.split())
        check("takes 52 cu yd, each zone at its own depth" in text and words in text, text)


def check_huge_lawn(program, folder):
    """A page draws two dozen loads at most, and beyond that one bar that says how many there are."""
    sizes = {}
    for acres in (0.5, 1000, 2500):
        yard, page, sheet = (folder / name for name in ("huge.toml", "huge.html", "sheet.html"))
        yard.write_text(f'[[lawn.zone]]\nname = "range"\nshape = "area"\narea = "{acres} acre"\n[topdressing]\ndepth = "1/4 in"\n[[topdressing.offer]]\nname = "yard"\n'
                        'unit = "1 yd3"\nprice = 30\ndelivery = 50\ndelivery_per = "load"\nload = { volume = "1 yd3" }\n', encoding="utf-8")
        for file, option in ((page, "--html"), (sheet, "--order-sheet")):
            done = run(program, "topdress", str(yard), "--today", "2026-11-10", option, str(file), "--force")
            check(done.returncode == 0, f"{acres} acres, {option}: {done.returncode} {done.stderr}")
        text = page.read_text(encoding="utf-8")
        loads = re.search(r"yard: [\d,.]+ cu yd in ([\d,]+) loads", " ".join(text.split()))
        check(loads, f"{acres} acres: no count of loads")
        check(len(re.findall(r"<rect", text)) <= 40, f"{acres} acres: {len(re.findall(r'<rect', text))} boxes")
        sizes[acres] = len(text)
    check(max(sizes.values()) < 1.2 * sizes[0.5], f"pages of {sizes} letters")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as name:
        check_cheapest(program, pathlib.Path(name))
        check_phone_line(program, pathlib.Path(name))
        check_huge_lawn(program, pathlib.Path(name))
        check_budget(program)
    print("\n".join(check.failures))
    print(f"{check.count} checks of orders, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
