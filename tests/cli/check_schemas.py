"""Every command's --json against its schema of lib/heapwright/report/schema, by Debian's python3-jsonschema: each command of pages.txt, each
example yard on several days, and extreme inputs. No key that is not described, no number that is none; and each described key occurs.

usage: check_schemas.py PROGRAM
"""
import concurrent.futures
import itertools
import json
import math
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

from jsonschema import Draft202012Validator, FormatChecker, RefResolver

from arithmetic import ROOT, Checks

check = Checks()
FOLDER = ROOT / "lib/heapwright/report/schema"
SCHEMAS = {path.as_uri(): json.loads(path.read_text(encoding="utf-8")) for path in sorted(FOLDER.glob("*.schema.json"))}
COMMANDS = ["mix", "recipe", "pile", "forecast", "readings", "maturity", "topdress", "season", "load", "plan", "materials", "exercise", "workshop"]
WITHOUT_JSON = {"new"}  # asks, and writes a yard file
# What no input of this test brings about, and why.
HARD_TO_REACH = {}


def schema_uri(command):
    return (FOLDER / f"{command}.schema.json").as_uri()


def looked_up(reference, base):
    """The schema that a $ref names, its place, and the file that its own references are relative to."""
    file, _, pointer = reference.partition("#")
    uri = base.rsplit("/", 1)[0] + "/" + file if file else base
    schema = SCHEMAS[uri]
    for step in pointer.strip("/").split("/") if pointer else []:
        schema = schema[step]
    return schema, uri + "#" + pointer, uri


class Coverage:
    """Which described keys occur. A key is known by the file and the place of its schema."""

    def __init__(self):
        self.seen, self.validators = set(), {}

    def validator(self, schema, base):
        if id(schema) not in self.validators:
            resolver = RefResolver(base_uri=base, referrer=SCHEMAS[base], store=SCHEMAS)
            self.validators[id(schema)] = Draft202012Validator(schema, resolver=resolver, format_checker=FormatChecker())
        return self.validators[id(schema)]

    def visit(self, schema, value, place, base):
        if not isinstance(schema, dict):
            return
        if "$ref" in schema:
            found, found_at, found_in = looked_up(schema["$ref"], base)
            self.visit(found, value, found_at, found_in)
        for number, branch in enumerate(schema.get("allOf", [])):
            self.visit(branch, value, f"{place}/allOf/{number}", base)
        branches = [(number, branch) for number, branch in enumerate(schema.get("anyOf", [])) if branch != {"type": "null"} and value is not None]
        for number, branch in branches:
            if len(branches) == 1 or self.validator(branch, base).is_valid(value):
                self.visit(branch, value, f"{place}/anyOf/{number}", base)
        if isinstance(value, dict):
            for key, inner in schema.get("properties", {}).items():
                if value.get(key) is not None:
                    self.seen.add(f"{place}/properties/{key}")
                    self.visit(inner, value[key], f"{place}/properties/{key}", base)
            for key in value.keys() - schema.get("properties", {}).keys():
                self.visit(schema.get("additionalProperties"), value[key], f"{place}/additionalProperties", base)
        if isinstance(value, list) and isinstance(schema.get("items"), dict):
            if value and isinstance(value[0], (int, float)):
                return  # nothing is in a number
            for item in value:
                self.visit(schema["items"], item, f"{place}/items", base)


def described_keys(schema, place):
    """(place, schema, the object that it is a key of) of each key."""
    if isinstance(schema, list):
        for number, inner in enumerate(schema):
            yield from described_keys(inner, f"{place}/{number}")
    if not isinstance(schema, dict):
        return
    for word, inner in schema.items():
        if word in ("properties", "$defs"):
            for key, of_key in inner.items():
                if word == "properties" and isinstance(of_key, dict):
                    yield f"{place}/properties/{key}", of_key, schema
                yield from described_keys(of_key, f"{place}/{word}/{key}")
        elif word not in ("enum", "const", "required"):
            yield from described_keys(inner, f"{place}/{word}")


def is_described(schema, base):
    while "description" not in schema and "$ref" in schema:
        schema, _, base = looked_up(schema["$ref"], base)
    return "description" in schema


def is_closed(schema, base):
    """Whether a key that nobody described fails."""
    if "additionalProperties" in schema:
        return schema["additionalProperties"] is False or "propertyNames" in schema or "properties" not in schema  # the last: by any name
    if "$ref" in schema:
        found, _, found_in = looked_up(schema["$ref"], base)
        if is_closed(found, found_in):
            return True
    branches = schema.get("anyOf", [])
    return any(is_closed(part, base) for part in schema.get("allOf", [])) or (bool(branches) and all(is_closed(branch, base) for branch in branches))


def check_schemas_themselves(program):
    listed = subprocess.run([program, "--help"], capture_output=True, text=True, timeout=60).stdout.partition("Subcommands:")[2]
    commands = set(re.findall(r"^  ([a-z]+)  ", listed, re.MULTILINE)) - WITHOUT_JSON
    check(commands == set(COMMANDS), f"the commands are {sorted(commands)}")
    check({file.name for file in FOLDER.iterdir()} == {f"{name}.schema.json" for name in (*COMMANDS, "common")}, "a schema for each command")
    for uri, schema in SCHEMAS.items():
        name = uri.rsplit("/", 1)[1]
        Draft202012Validator.check_schema(schema)
        check.count += 1
        if name != "common.schema.json":
            check(is_closed(schema, uri), f"{name}: a key that nobody described passes")
        refinements = {"kind", "given", "answer", "usual_mistake", "typical"}  # of a kind of problem, of a share: described where they are refined from
        for place, of_key, owner in described_keys(schema, name + "#"):
            key = place.rsplit("/", 1)[1]
            if not any(word in place for word in ("published_shares", "without_grounds")) and key not in refinements:
                check(is_described(of_key, uri), f"{place} has no description")
            if "object" in owner.get("type", ""):  # "object", or ["object", "null"]
                check(is_closed(owner, uri), f"{place}: its object takes keys that nobody described")


def no_constant(word):
    raise ValueError(f"{word} is no number of JSON")


class Commands:
    def __init__(self, program):
        self.program, self.lines = program, []

    def add(self, *arguments):
        line = [str(one) for one in arguments]
        self.lines.append(line if "--today" in line else [*line, "--today", "2026-10-24"])  # the same on any day

    def run(self, arguments):
        return subprocess.run([self.program, *arguments, "--json"], cwd=ROOT, capture_output=True, text=True, timeout=120)

    def answers(self):
        """Each with its command line, once."""
        lines = [list(line) for line in dict.fromkeys(tuple(line) for line in self.lines)]
        with concurrent.futures.ThreadPoolExecutor(2) as pool:
            for arguments, done in zip(lines, pool.map(self.run, lines)):
                where = shlex.join(arguments)
                check(done.returncode in (0, 1), f"{where}: exit code {done.returncode}, {done.stderr}")
                try:
                    answer = json.loads(done.stdout, parse_constant=no_constant)
                except ValueError as error:
                    check(False, f"{where}: {error}")
                    continue
                yield where, arguments[0], answer


def every_number(value):
    if isinstance(value, (dict, list)):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from every_number(inner)
    elif isinstance(value, float):
        yield value


def add_pages(commands):
    for line in (ROOT / "tests/cli/pages.txt").read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            words = shlex.split(line)
            if words[0] in ("plan", "mix", "pile", "recipe", "maturity") and "--units" in words:  # their JSON is in SI anyway
                del words[words.index("--units"):words.index("--units") + 2]
            if "--compare" in words:  # of a pile that is through sooner: a fourth of the time
                words[1] = "examples/sour-pile.toml"
            commands.add(*words)


def add_examples(commands):
    in_pages = {" ".join(line[:2]) for line in commands.lines}
    days = itertools.cycle(["2026-10-24", "2026-12-15", "2027-05-20"])
    for path in sorted((ROOT / "examples").glob("*.toml")):
        yard = path.relative_to(ROOT)
        if path.name == "lab-report.toml":  # feedstocks of a laboratory, no yard
            commands.add("materials", "--check", yard)
            commands.add("recipe", "--materials", yard, "--have", "leaves=20 bags", "--have", "grass=6 buckets")
            continue
        for command in ("mix", "pile", "maturity", "load"):
            commands.add(command, yard, "--today", "2026-10-24")
        for command in ("recipe", "topdress"):
            for day in ("2026-10-24", "2027-05-20"):
                commands.add(command, yard, "--today", day)
        commands.add("season", yard, "--today", next(days))
        if f"plan {yard}" not in in_pages:
            mown = path.name == "leaves-only.toml"  # while leaves can be mown into the lawn
            commands.add("plan", yard, "--today", "2026-10-24" if mown else next(days))
    yard = "examples/quarter-acre.toml"
    for command in ("mix", "recipe", "pile", "forecast", "topdress"):
        commands.add(command, yard, "--show-working", "--today", "2026-10-24")
    commands.add("topdress", "examples/three-sites.toml", "--have", "3 yd3")
    commands.add("topdress", "examples/front-lawn.toml", "--budget", "40", "--today", "2027-08-20")
    for form in (["leaves"], ["yard-trimmings"], ["--sources"], ["--dies-at"], []):
        commands.add("materials", *form)
    for seed in range(1, 6):
        for level in (1, 2, 3):
            commands.add("exercise", "--seed", seed, "--level", level, *(["--units", "si"] if seed % 2 else []))


def supply(feedstock, amount, *lines):
    return f'[[supply]]\nfeedstock = "{feedstock}"\namount = "{amount}"\n' + "".join(f"{line}\n" for line in lines)


def pile(*lines, side="4 ft"):
    return f'[pile]\nshape = "bin"\nlength = "{side}"\nwidth = "{side}"\nheight = "{side}"\n' + "".join(f"{line}\n" for line in lines)


BALANCED = supply("leaves-fall", "8 leaf-bag") + supply("grass-clippings", "20 bucket", 'packing = "loose"', 'treated = "no"')
SEASONAL = (supply("leaves-fall", "24 leaf-bag", "storable = false", 'when = { months = ["Oct", "Nov"] }') +
            supply("kitchen-scraps", "1 kitchen-pail", 'when = { every = "week" }'))
NO_NITROGEN = """[[feedstock]]
id = "stone-meal"
name = "stone meal"
class = "mineral"
rots_like = "leaves"
moisture_wet_basis = "10 %"
carbon_dry_basis = "5 %"
nitrogen_dry_basis = "0 %"
bulk_density = { loose = "1000 kg/m3" }
"""
LAWN = '[[lawn.zone]]\nname = "{name}"\narea = "{area}"\n'


class Yards:
    """Yard files of this test, in a folder of its own."""

    def __init__(self, folder):
        self.folder, self.count = folder, 0

    def __call__(self, text, ending=".toml"):
        self.count += 1
        path = self.folder / f"yard-{self.count}{ending}"
        path.write_text(text, encoding="utf-8")
        return path


def add_amounts(commands, yards):
    """The tiny, the huge, and what is none."""
    for amount in ("0.0001 L", "0.001 bucket", "1000 bags"):
        for command in ("recipe", "pile"):
            commands.add(command, "--have", f"leaves={amount}", "--have", f"grass={amount}")
        commands.add("mix", "--add", f"leaves-fall={amount}", "--water", "0.001 gal")
        commands.add("recipe", "--have", f"leaves={amount}", "--fill", "2 yd3")
    for area, depth in (("0.001 ft2", "1/4 in"), ("1 m2", "0.01 mm"), ("1000 acre", "1/8 in")):
        commands.add("topdress", "--area", area, "--depth", depth)
    for have in ("0.001 L", "100000 m3"):
        commands.add("topdress", "--have", have)
    materials = yards(NO_NITROGEN)
    commands.add("mix", "--materials", materials, "--add", "stone-meal=2 bucket")
    commands.add("recipe", "--materials", materials, "--have", "stone-meal=2 bucket", "--have", "leaves=2 bags")
    bare = yards(supply("stone-meal", "40 bucket") + pile("built = 2027-04-10") + '[climate]\nlike = "cool"\n[[noticed]]\nsymptom = "ammonia smell"\n')
    for command in ("mix", "recipe", "pile", "forecast", "season", "readings", "plan"):
        commands.add(command, bare, "--materials", materials, "--today", "2027-05-01")
    nothing = yards('title = "An empty yard"\n')
    for command in ("mix", "recipe", "pile", "season", "maturity", "topdress", "load", "plan"):
        commands.add(command, nothing)


def add_recipes(commands, yards):
    """Woody, wet, dry, dear, in a range of containers."""
    commands.add("recipe", "--have", "old compost=10 buckets", "--have", "leaves=10 bags")
    commands.add("recipe", "--have", "wood chips", "--have", "grass=10 buckets")
    commands.add("recipe", "--have", "hay=2 bales", "--treated", "hay=yes", "--have", "grass=3 buckets")
    commands.add("recipe", yards(supply("leaves-fall", "2 to 3 bucket") + supply("kitchen-scraps", "1 bucket")))
    commands.add("recipe", yards(supply("grass-clippings", "37 bucket", 'use = "all"', 'treated = "no"') +
                                 supply("leaves-fall", "17.5 bucket", 'packing = "bagged"', 'use = "all"') + supply("sawdust", "3 bucket", 'use = "all"') +
                                 '[recipe]\ngoal = "use-most"\nsettling = 0.8\n'), "--today", "2027-06-10")  # in balance and too wet
    commands.add("recipe", yards(supply("leaves-fall", "10 leaf-bag", 'packing = "bagged"') + supply("alfalfa-meal", "45 lb", 'use = "all"') +
                                 '[recipe]\nmost_water = "1 gal"\n'))
    commands.add("recipe", yards("".join(supply(what, f"{count} bucket", *(["bought = true", f"price = {price}", 'unit = "1 bucket"'] if price else []))
                                         for what, count, price in (("alfalfa-meal", 55, 9), ("straw", 58, 5), ("coffee-grounds", 46, 0))) +
                                 '[recipe]\ngoal = "cheapest"\nfill = "0.5 yd3"\n'))  # a little more money makes it much better
    seasonal = yards(SEASONAL)
    for day in ("2026-10-20", "2027-05-14"):
        commands.add("recipe", seasonal, "--today", day)
        commands.add("season", seasonal, "--today", day)


def add_piles(commands, yards):
    """Climates from the coldest to the hottest, the small, the large and the wet; logs of a day and of weeks."""
    hardest = '[climate]\ncoldest_month = "{0}"\nwarmest_month = "{1}"\nrain = "{2}"\n'
    commands.add("forecast", yards(supply("leaves-fall", "1 leaf-bag") + supply("kitchen-scraps", "1 quart") + pile("built = 2026-12-20", side="1 ft") +
                                   hardest.format("-40 degF", "40 degF", "30 in")), "--today", "2026-12-01")
    commands.add("forecast", yards(supply("sawdust", "900 bucket") + pile("built = 2027-07-01", side="10 ft") + hardest.format("60 degF", "110 degF", "0 in")),
                 "--today", "2026-12-01")
    commands.add("forecast", yards(pile("built = 2027-07-01") + '[climate]\nlike = "cool"\n'), "--today", "2026-12-01")
    moist = yards(BALANCED + pile("built = 2027-06-01", "keep_moist = true"))
    one_day = yards("time,core degF\n2027-06-05T08:00,120\n", ".csv")
    commands.add("readings", moist, "--log", one_day, "--today", "2027-06-05")
    commands.add("readings", "--log", one_day)
    rows = enumerate((80, 120, 140, 150, 155, 161, 162, 150, 148, 131, 90, 99, 130, 128, 120, 99, 90, 88, 85), 2)
    weeks = yards("time,core degF,side degF,event\n" + "".join(
        f"2027-06-{day:02}T08:00Z,{core},{core - 10},{'turned' if day == 12 else ''}\n" for day, core in rows if day != 17), ".csv")
    commands.add("readings", moist, "--log", weeks, "--gap", "26 h", "--today", "2027-06-25")
    loads = "".join(f'[[load]]\ndate = 2027-04-{day}\nfeedstock = "{what}"\namount = "{amount}"\n' + (f'water = "{water}"\n' if water else "")
                    for day, what, amount, water in ((20, "leaves-fall", "30 kg", "60 L"), (20, "kitchen-scraps", "80 kg", None), (27, "leaves-fall", "5 kg", None)))
    loaded = yards(supply("leaves-fall", "150 kg", "storable = true") + loads + '[[load]]\ndate = 2027-04-28\nwater = "1 gal"\n' + pile(side="5 ft") +
                   '[climate]\nlike = "cool"\n[[noticed]]\nsymptom = "rotten smell"\ndate = 2027-05-14\n')
    commands.add("readings", loaded, "--today", "2027-05-14")
    commands.add("plan", loaded, "--today", "2027-05-14")
    commands.add("load", loaded, "2 to 3 buckets leaves", "1 gal water", "--date", "2027-05-01", "--today", "2027-05-14")
    commands.add("load", loaded, "3 buckets grass", "--treated", "no", "--today", "2027-05-14")
    commands.add("readings", moist, "--noticed", "it smokes", "--today", "2027-06-05")
    with_browns = yards(BALANCED + supply("leaves-fall", "12 leaf-bag", "storable = true") + pile("built = 2027-06-01", side="3 ft"))
    for symptom in ("ammonia smell", "won't heat", "flies", "soggy", "dry in the middle"):
        commands.add("readings", with_browns, "--noticed", symptom, "--today", "2027-06-05")
    commands.add("plan", "tests/cli/golden/leaves-alone.toml", "--today", "2026-11-01")


def add_lawns(commands, yards):
    commands.add("maturity", yards('[[maturity.test]]\ntest = "emergence"\nvalue = "passed"\n[[maturity.test]]\ntest = "self-heating"\nvalue = "<12 degC"\n'))
    offers = "".join(f'[[topdressing.offer]]\nname = "{name}"\nunit = "1 yd3"\nprice = {price}\nvalid_until = 2026-12-31\n' for name, price in (("a", 30), ("b", 40)))
    order = yards(LAWN.format(name="field", area="5000 ft2") + "[topdressing]\n" + offers)
    for day in ("2026-09-01", "2027-09-01"):  # out of date the second time
        commands.add("topdress", order, "--today", day)


def add_classes(commands, yards):
    roster = yards("household,leaves,lawn,clippings,treated,scraps,Shoe size\n7,about 10,1/2 acre,4,no,3,9\nx,6 bags,5000,2 mower bags,idk,,\n"
                   "9,lots,,,,,\n10,20,5000,,,2,\n", ".csv")
    folder = str(pathlib.Path(roster).with_suffix("")) + "-handouts"
    commands.add("workshop", roster, "--into", folder, "--today", "2026-10-24")
    commands.add("workshop", yards("leaves,scraps\n0,0\n", ".csv"), "--into", folder + "-empty", "--today", "2026-10-24")


def correct_own_forecast(commands, yards):
    """A log that the program's own forecast gives tells how fast it rots."""
    yard = yards(BALANCED + pile("built = 2027-06-01", "keep_moist = true") + '[climate]\nlike = "cool"\n')
    core = json.loads(commands.run(["forecast", yard]).stdout)["core_degc"]
    log = "time,core degC\n" + "".join(f"2027-06-{day + 1:02d}T12:00,{0.5 * (core[day] + core[day + 1]):.1f}\n" for day in range(25))
    commands.add("readings", yard, "--log", yards(log, ".csv"), "--today", "2027-06-26")


def check_answers(commands):
    coverage, answered = Coverage(), set()
    for where, command, answer in commands.answers():
        answered.add(command)
        uri = schema_uri(command)
        errors = list(coverage.validator(SCHEMAS[uri], uri).iter_errors(answer))
        for error in errors[:3]:
            check(False, f"{where}: at {'/'.join(map(str, error.absolute_path))}: {error.message[:300]}")
        check(not errors, f"{where}: {len(errors)} errors")
        check(all(math.isfinite(number) for number in every_number(answer)), f"{where}: a number is not finite")
        coverage.visit(SCHEMAS[uri], answer, uri + "#", uri)
    check(answered == set(COMMANDS), f"no answer of {set(COMMANDS) - answered}")
    for uri, schema in SCHEMAS.items():
        for place, _, _ in described_keys(schema, uri + "#"):
            short = place.removeprefix(FOLDER.as_uri() + "/")
            check(place in coverage.seen or short in HARD_TO_REACH, f"{short} never occurs")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    check_schemas_themselves(program)
    commands = Commands(program)
    with tempfile.TemporaryDirectory() as name:
        yards = Yards(pathlib.Path(name))
        add_pages(commands)
        add_examples(commands)
        for add in (add_amounts, add_recipes, add_piles, add_lawns, add_classes, correct_own_forecast):
            add(commands, yards)
        check_answers(commands)
    print("\n".join(check.failures))
    print(f"{check.count} checks of {len(commands.lines)} answers under their schemas, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
