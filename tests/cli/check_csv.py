"""The CSV of seasons, jobs and orders, from outside: each cell is the JSON's figure to the digits that are written, fields are quoted by RFC 4180,
and no name is run by a spreadsheet as a formula.

usage: check_csv.py PROGRAM
"""
import csv
import io
import json
import pathlib
import subprocess
import sys
import tempfile

from arithmetic import ROOT, Checks

check = Checks()
DIGITS = {"depth_mm": 4}  # significant ones; of the rest 6
MONEY = ["compost", "haulage", "pallet_cost", "cost"]
FORMULAS = ["=1+1", "+1", "-1+1", "@SUM(A1)", "|calc", "%0A", "  =1+1", "\t=1+1", "\uff1d1+1", "\uff0b1", "\uff0d1", "\uff201", '=HYPERLINK("http://x.invalid","y")']
HARMLESS = ["bulk, delivered", 'the "good" yard', "two\nlines", "semi;colon", "a = b", "caf\u00e9 \u2013 no. 5", "3-way mix"]


def run(program, *arguments):
    # In bytes: a new line inside a field is to come as it was written.
    return subprocess.run([program, *map(str, arguments)], cwd=ROOT, capture_output=True, timeout=60)


def table(program, *arguments, code=0):
    done = run(program, *arguments, "--csv")
    check(done.returncode == code, f"{arguments}: exit code {done.returncode}, {done.stderr.decode()}")
    text = done.stdout.decode("utf-8")
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    check(text.endswith("\n") and len({len(row) for row in rows}) == 1, f"{arguments}: rows differ in length")
    return [dict(zip(rows[0], row)) for row in rows[1:]], rows[0]


def answer(program, *arguments):
    return json.loads(run(program, *arguments, "--json").stdout)


def same(where, column, cell, number):
    """Half of the last digit is as far as they may differ, of which 15 stand behind the point at most; of money half a cent."""
    if number is None:
        return check(cell == "", f"{where}: {column} is {cell} where JSON has null")
    within = 0.005 if column in MONEY else max(0.5 * 10.0 ** (1 - DIGITS.get(column, 6)) * abs(number), 0.5e-15)
    check(cell != "" and abs(float(cell) - number) <= within * (1 + 1e-9), f"{where}: {column} is {cell}, in JSON {number}")


def check_seasons(program, folder):
    yards = [(f"examples/{name}.toml", day) for name in ("quarter-acre", "spring-yard", "december-hoop", "leaves-only") for day in ("2026-10-24", "2027-04-10")]
    own = folder / "own.toml"
    own.write_text('[[feedstock]]\nid = "=1+1"\nname = "leaves, ours"\nclass = "keeper"\nmoisture_wet_basis = "30 %"\ncarbon_dry_basis = "45 %"\n'
                   'carbon_to_nitrogen = "50:1"\nbulk_density = { loose = "100 kg/m3" }\n', encoding="utf-8")
    yard = folder / "yard.toml"
    yard.write_text('[[supply]]\nfeedstock = "=1+1"\namount = "30 bucket"\nstorable = true\nwhen = { months = ["Oct"] }\n'
                    '[[supply]]\nfeedstock = "kitchen-scraps"\namount = "1 bucket"\nwhen = { every = "week" }\n', encoding="utf-8")
    for arguments in [(*one[:1], "--today", one[1]) for one in yards] + [(yard, "--materials", own, "--today", "2026-10-24")]:
        where = f"season {arguments}"
        found = answer(program, "season", *arguments)
        lines = [(month["month"], one) for month in found["months"] for one in month["feedstocks"]]
        rows, heading = table(program, "season", *arguments, code=0 if lines else 1)
        check(heading == ["month", "id", "supply", "in_m3", "bought_m3", "used_m3", "stored_m3", "unused_m3"], f"{where}: {heading}")
        check(len(rows) == len(lines), f"{where}: {len(rows)} rows, in JSON {len(lines)}")
        for row, (month, one) in zip(rows, lines):
            told = "'=1+1" if one["id"] == "=1+1" else one["id"]
            check((row["month"], row["id"], row["supply"]) == (month, told, str(one["supply"] or "")), f"{where}: {row} is {month} {one}")
            for column in heading[3:]:
                same(f"{where} {month} {one['id']}", column, row[column], one[column])


def check_jobs(program):
    arguments = ("topdress", "examples/three-sites.toml", "--today", "2026-09-01")
    drops = answer(program, *arguments)["jobs"]
    rows, _ = table(program, *arguments)
    check(len(rows) == len(drops) > 1, f"{len(rows)} drops")
    for row, drop in zip(rows, drops):
        where, best = f"jobs {drop['jobs']}", drop["best_order"]
        check(row["job"] == " and ".join(drop["jobs"]) and row["order"] == drop["phone_line"], f"{where}: {row}")
        check(row["offers"] == " and ".join(item["offer"] for item in best["items"]), f"{where}: {row['offers']}")
        check(row["hold"] == ("yes" if drop["spreading"]["hold"] else "no") and int(row["loads"]) == best["loads"], f"{where}: {row}")
        for column, number in (("area_m2", drop["area_m2"]), ("depth_mm", 1000 * drop["depth_m"]), ("compost_m3", drop["volume_with_allowance_m3"]),
                               ("order_m3", best["volume_m3"]), ("cost", best["cost"])):
            same(where, column, row[column], number)


def offer(name, price, more=""):
    return f'[[topdressing.offer]]\nname = {json.dumps(name)}\nunit = "1 yd3"\nprice = {price}\n{more}'


def lawn(*offers):
    return '[[lawn.zone]]\nname = "field"\narea = "5000 ft2"\n[topdressing]\n' + "".join(offers)


def check_orders(program, folder):
    file = folder / "order.toml"
    mixed = lawn(offer("bulk", 30.125, 'step = "1 yd3"\nminimum = "4 yd3"\ndelivery = 40\ndelivery_per = "load"\nload = { volume = "2 yd3" }\ntax = "7 %"\n'),
                 '[[topdressing.offer]]\nname = "bags"\nunit = "1 compost-bag-1ft3"\nprice = 1.05\npallet = { holds = 40, price = 12 }\n')
    yards = ["examples/front-lawn.toml", "examples/clinic-strip.toml", "examples/school-field.toml"]
    for text in [None] * len(yards) + [mixed]:
        if text:
            file.write_text(text, encoding="utf-8")
        arguments = ("topdress", file if text else yards.pop(), "--today", "2026-09-01")
        items = answer(program, *arguments)["best_order"]["items"]
        rows, heading = table(program, *arguments)
        check(heading == list(items[0]), f"{arguments}: {heading}")
        check(len(rows) == len(items), f"{arguments}: {rows} of {items}")
        for row, item in zip(rows, items):
            check(row["offer"] == item["offer"], f"{arguments}: {row['offer']}")
            for column in heading[1:]:
                same(f"order {arguments[1]}", column, row[column], item[column])
    file.write_text(lawn(offer("old", 30, "valid_until = 2026-01-31\n")), encoding="utf-8")
    check(table(program, "topdress", file, "--today", "2026-09-01", code=1)[0] == [], "an order of offers that are out of date")


def check_names(program, folder):
    """As cells, of an offer and of a job."""
    file = folder / "names.toml"
    for name in FORMULAS + HARMLESS:
        wanted = "'" + name if name in FORMULAS else name
        file.write_text(lawn(offer(name, 30)), encoding="utf-8")
        rows, _ = table(program, "topdress", file, "--today", "2026-09-01")
        check([row["offer"] for row in rows] == [wanted], f"the offer {name!r}: {rows}")
        file.write_text(f'[[job]]\nname = {json.dumps(name)}\n[[lawn.zone]]\nname = "field"\njob = {json.dumps(name)}\narea = "5000 ft2"\n[topdressing]\n' +
                        offer(name, 30), encoding="utf-8")
        rows, _ = table(program, "topdress", file, "--today", "2026-09-01")
        check([(row["job"], row["offers"]) for row in rows] == [(wanted, wanted)], f"the job {name!r}: {rows}")


def check_refusals(program):
    yard, priced = "examples/quarter-acre.toml", "examples/front-lawn.toml"
    for arguments, words in ((("season", yard, "--json"), "--csv is neither JSON nor a page"), (("topdress", priced, "--json"), "--csv is neither JSON nor a page"),
                             (("season", yard, "--html", "page.html"), "--csv is neither JSON nor a page"), (("topdress", yard), "neither jobs nor offers"),
                             (("topdress", priced, "--have", "2 yd3"), "excludes"), (("topdress", priced, "--budget", "60"), "excludes")):
        done = run(program, *arguments, "--csv")
        check(done.returncode == 2 and words in done.stderr.decode() and not done.stdout, f"{arguments}: {done}")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        check_seasons(program, folder)
        check_jobs(program)
        check_orders(program, folder)
        check_names(program, folder)
    check_refusals(program)
    print("\n".join(check.failures))
    print(f"{check.count} checks of CSV, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
