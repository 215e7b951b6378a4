"""Cautions from outside: the trigger of every caution fires in a case and nothing else does. A case says which facts are true of a yard;
materials/cautions.toml says which cautions hang on them, in its order, and the program must print just those.

usage: check_cautions.py PROGRAM
"""
import functools
import hashlib
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

TABLE = pathlib.Path(__file__).resolve().parents[2] / "materials" / "cautions.toml"
NOTHING_BUT_FIRE = "Everything else can wait. Ask again once it is out and cold."
LAST_LINE = "Local rules come first."

# Facts of what goes into the pile: each is a tag of feedstocks too.
TAGS = "dusty moldy scraps fruit manure herbicide sharp-nitrogen printed thorny soil grassy leaves weedy juglone salty".split()
FACTS = TAGS + """shredded treated pile tall-pile big-dry-pile cold-season stored-browns from-elsewhere heavy-containers turning readings hot smoke rats
topdressing living-lawn near-water phosphorus-high own-compost-on-lawn bought-compost new-ground""".split()


def supply(feedstock, amount="3 bucket", more=""):
    return f'[[supply]]\nfeedstock = "{feedstock}"\namount = "{amount}"\n{more}\n'


def pile(built="2026-05-01", height="4 ft", more=""):
    return f'[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "{height}"\nbuilt = {built}\n{more}\n'


def lawn(length="10 ft", more=""):
    return f'[[lawn.zone]]\nshape = "rectangle"\nlength = "{length}"\nwidth = "10 ft"\n{more}\n'


def add(*feedstocks):
    return [word for feedstock in feedstocks for word in ("--add", f"{feedstock}=1 bucket")]


def reading(core):
    return f'[[reading]]\ndate = 2026-05-12\ncore = "{core}"\n'


def noticed(symptom):
    return f'[[noticed]]\nsymptom = "{symptom}"\ndate = 2026-05-12\n'


def weighed(bags, full):
    return supply("leaves-fall", f"{bags} leaf-bag", f'weighed = {{ container = "leaf-bag", full = "{full}", empty = "1 lb" }}')


def bought(feedstock, more=""):
    return supply(feedstock, "1 bucket", f'use = "all"\nbought = true\nprice = 3\nunit = "1 bucket"\n{more}')


def mown_from(month):
    return supply("grass-clippings", more=f'{UNTREATED}\nuse = "all"\nwhen = {{ every = "week", from = "{month}", to = "Oct" }}')


UNTREATED = 'treated = "no"'
COFFEE = supply("coffee-grounds")  # has no fact of its own
MAY = pile()                       # nor has this; every pile has a date, since without one it is built today and today may be cold
WINDROW = '[pile]\nshape = "windrow"\nlength = "40 ft"\nwidth = "8 ft"\nheight = "5 ft"\nbuilt = 2026-05-01\n'
DRY = '[recipe]\nmost_water = "0 gal"\n'

# One fact, the command, a yard (text) or options (a list) that make it true, the twin in which it is just not true, the facts that
# neither can avoid, those that only the first cannot, those that are true of the twin instead. Any recipe of something is a pile, any
# topdressing is on a living lawn or on new ground, an order is of bought compost, and a planned lawn gets compost of one's own, or bought, or
# both.
PAIRS = [
    ("dusty", "mix", add("sawdust"), add("wood-chips"), "", "", ""),
    ("moldy", "mix", supply("straw", more=UNTREATED), add("sawdust"), "dusty", "", ""),
    ("scraps", "mix", add("kitchen-scraps"), add("coffee-grounds"), "", "", ""),
    ("fruit", "mix", add("fruit-scraps"), add("vegetable-scraps"), "scraps", "", ""),
    ("manure", "mix", supply("cow-manure", more=UNTREATED), add("old-compost"), "", "", ""),
    ("herbicide", "mix", add("grass-clippings"), supply("grass-clippings", more=UNTREATED), "grassy", "", ""),
    ("herbicide", "mix", add("straw"), supply("straw", more=UNTREATED), "dusty moldy", "", ""),
    ("herbicide", "mix", add("hay-grass"), supply("hay-grass", more=UNTREATED), "dusty moldy", "", ""),
    ("herbicide", "mix", add("horse-manure"), supply("horse-manure", more=UNTREATED), "manure", "", ""),
    ("herbicide", "recipe", MAY + supply("grass-clippings"), MAY + supply("grass-clippings", more=UNTREATED), "grassy pile", "", ""),
    ("sharp-nitrogen", "mix", add("urea"), add("coffee-grounds"), "", "", ""),
    ("sharp-nitrogen", "mix", add("blood-meal"), add("alfalfa-meal"), "dusty", "", ""),
    ("printed", "mix", add("cardboard"), add("wood-chips"), "", "", ""),
    ("thorny", "mix", add("brush"), add("wood-chips"), "", "", ""),
    ("soil", "mix", add("garden-soil"), add("old-compost"), "", "", ""),
    ("grassy", "mix", supply("grass-clippings", more=UNTREATED), add("coffee-grounds"), "", "", ""),
    ("weedy", "mix", add("garden-weeds"), add("coffee-grounds"), "", "", ""),
    ("weedy", "mix", add("garden-haulm"), add("old-compost"), "", "", ""),
    ("juglone", "mix", add("black walnut leaves"), add("leaves-fall"), "dusty leaves", "", ""),
    ("salty", "mix", add("seaweed"), add("coffee-grounds"), "", "", ""),
    ("salty", "mix", add("spent mushroom compost"), add("old-compost"), "", "", ""),
    ("manure", "mix", supply("alpaca manure", more=UNTREATED), add("old-compost"), "", "", ""),
    ("manure", "mix", supply("rabbit manure", more=UNTREATED), add("old-compost"), "", "", ""),
    ("herbicide", "mix", add("cotton burrs"), supply("cotton burrs", more=UNTREATED), "dusty", "", ""),
    ("shredded", "mix", supply("leaves-fall", more="shredded = true"), supply("leaves-fall", more="shredded = false"), "dusty leaves", "", ""),
    ("leaves", "mix", add("leaves-fall"), add("pine-needles"), "dusty", "", ""),
    ("leaves", "recipe", MAY + supply("leaves-fall"), MAY + supply("pine-needles"), "dusty pile", "", ""),
    # In season and out of season: clippings of summer are not in a pile of May 1 if none were mown in April.
    ("grassy", "recipe", MAY + COFFEE + mown_from("Apr"), MAY + COFFEE + mown_from("Jun"), "pile", "", ""),

    ("pile", "recipe", MAY + COFFEE, MAY, "", "", ""),
    ("pile", "recipe", MAY + COFFEE, MAY + supply("grass-clippings", more='treated = "yes"'), "", "", "treated"),
    ("pile", "plan", MAY + COFFEE, lawn(), "", "", "topdressing living-lawn bought-compost"),
    ("tall-pile", "recipe", COFFEE + pile(height="5 ft 1 in"), COFFEE + pile(height="5 ft"), "pile", "", ""),
    ("tall-pile", "plan", COFFEE + pile(height="153 cm"), COFFEE + pile(height="152 cm"), "pile", "", ""),
    ("big-dry-pile", "recipe", WINDROW + DRY + supply("wood-chips", "30 yd3", 'use = "all"'),
     WINDROW + supply("wood-chips", "30 yd3", 'use = "all"'), "pile", "", ""),
    ("big-dry-pile", "recipe", WINDROW + DRY + supply("leaves-fall", "30 yd3", 'use = "all"'),
     WINDROW + DRY + supply("leaves-fall", "3 yd3", 'use = "all"'), "pile dusty leaves", "", ""),
    ("cold-season", "recipe", COFFEE + pile("2027-03-31"), COFFEE + pile("2027-04-01"), "pile", "", ""),
    ("cold-season", "plan", COFFEE + pile("2027-01-15"), COFFEE + pile("2026-07-15"), "pile", "", ""),
    ("stored-browns", "recipe", MAY + supply("leaves-fall", "20 bucket") + supply("coffee-grounds", "1 bucket"),
     MAY + supply("leaves-fall", "20 bucket") + supply("coffee-grounds", "20 bucket"), "pile dusty leaves", "", ""),
    ("stored-browns", "recipe", MAY + supply("straw", "40 bucket", UNTREATED) + supply("coffee-grounds", "1 bucket"),
     MAY + supply("straw", "5 bucket", UNTREATED) + supply("coffee-grounds", "20 bucket"), "pile dusty moldy", "", ""),
    ("from-elsewhere", "mix", add("leaves-fall:collected"), add("leaves-fall:bagged"), "dusty leaves", "", ""),
    ("from-elsewhere", "recipe", MAY + supply("leaves-fall", more='packing = "collected"'), MAY + supply("leaves-fall", more='packing = "bagged"'),
     "pile dusty leaves", "", ""),
    ("from-elsewhere", "recipe", MAY + COFFEE + bought("wood-chips"), MAY + COFFEE + supply("wood-chips", "1 bucket", 'use = "all"'), "pile", "", ""),
    # A sealed sack from a shop has grown nowhere, lay on no curb and holds no worms.
    ("from-elsewhere", "recipe", MAY + COFFEE + bought("straw", UNTREATED), MAY + COFFEE + bought("urea"), "pile", "dusty moldy", "sharp-nitrogen"),
    # Names that say it: these leaves are not from the own yard.
    *[("from-elsewhere", "mix", add(name), add("yard leaves"), "dusty leaves", "", "")
      for name in ("street leaves", "city leaves", "curbside leaves", "vacuumed leaves")],
    ("heavy-containers", "recipe", MAY + weighed(2, "51 lb"), MAY + weighed(2, "50 lb"), "pile dusty leaves", "", ""),
    ("heavy-containers", "recipe", MAY + weighed(1, "51 lb"), MAY + weighed(1, "50 lb"), "pile dusty leaves", "", ""),
    ("heavy-containers", "recipe", MAY + supply("coffee-grounds", "2 trash-can"), MAY + supply("coffee-grounds", "2 wheelbarrow"), "pile", "", ""),
    ("turning", "recipe", COFFEE + pile(more='turn_every = "14 days"'), COFFEE + pile(more='turn_every = "never"'), "pile", "", ""),
    ("turning", "plan", COFFEE + pile(more='turn_every = "14 days"'), COFFEE + MAY, "pile", "", ""),

    ("readings", "plan", MAY + COFFEE + reading("warm"), MAY + COFFEE, "pile", "turning", ""),
    ("hot", "plan", MAY + COFFEE + reading("140 degF"), MAY + COFFEE + reading("139 degF"), "pile readings turning", "", ""),
    ("hot", "plan", MAY + COFFEE + reading("60 degC"), MAY + COFFEE + reading("59.9 degC"), "pile readings turning", "", ""),
    ("hot", "plan", MAY + COFFEE + reading("hot"), MAY + COFFEE + reading("warm"), "pile readings turning", "", ""),
    *[("smoke", "plan", MAY + COFFEE + noticed(words), MAY + COFFEE + noticed(other), "pile", "", "turning") for words, other in (
        ("smoke", "steam"), ("smoking", "ammonia-smell"), ("smells-burnt", "rotten-smell"), ("burning-smell", "dry-middle"),
        ("smouldering", "white-threads"), ("smoldering", "will-not-heat"), ("fire", "flies"), ("flames", "fire ants"))],
    ("rats", "plan", MAY + COFFEE + noticed("mice"), MAY + COFFEE + noticed("ants"), "pile turning", "", ""),

    ("topdressing", "plan", MAY + COFFEE + lawn("1 ft"), MAY + COFFEE, "pile", "living-lawn own-compost-on-lawn", ""),
    ("topdressing", "topdress", ["--area", "100 ft2"], None, "living-lawn bought-compost", "", ""),
    ("topdressing", "topdress", ["--have", "1 yd3"], None, "living-lawn", "", ""),
    ("living-lawn", "topdress", ["--area", "100 ft2"], ["--area", "100 ft2", "--surface", "new"], "topdressing bought-compost", "", "new-ground"),
    ("bought-compost", "topdress", ["--area", "100 ft2"], ["--have", "1 yd3"], "topdressing living-lawn", "", ""),
    ("new-ground", "topdress", lawn(more='[topdressing]\nsurface = "new"'), lawn(more='[topdressing]\nsurface = "lawn"'),
     "topdressing bought-compost", "", "living-lawn"),
    ("new-ground", "plan", lawn(more='[topdressing]\nsurface = "new"'), lawn(), "topdressing bought-compost", "", "living-lawn"),
    ("near-water", "topdress", lawn(more="[topdressing]\nnear_water = true"), lawn(more="[topdressing]\nnear_water = false"),
     "topdressing living-lawn bought-compost", "", ""),
    ("near-water", "plan", lawn(more="[topdressing]\nnear_water = true"), lawn(), "topdressing living-lawn bought-compost", "", ""),
    # Without a lawn nothing is spread, whatever the water and the soil.
    ("near-water", "plan", MAY + COFFEE + lawn("1 ft", "[topdressing]\nnear_water = true"), MAY + COFFEE + "[topdressing]\nnear_water = true\n",
     "pile", "topdressing living-lawn own-compost-on-lawn", ""),
    *[("phosphorus-high", "topdress", lawn(more=f'[soil_test]\nphosphorus = "{word}"'), lawn(more=f'[soil_test]\nphosphorus = "{other}"'),
       "topdressing living-lawn bought-compost", "", "")
      for word, other in (("high", "medium"), ("Very High", "very low"), ("excessive", "optimum"), ("above optimum", "below optimum"),
                          ("VH", "VL"), ("H", "M"))],
    ("phosphorus-high", "plan", MAY + COFFEE + lawn("1 ft", '[soil_test]\nphosphorus = "high"'), MAY + COFFEE + '[soil_test]\nphosphorus = "high"\n',
     "pile", "topdressing living-lawn own-compost-on-lawn", ""),
    ("own-compost-on-lawn", "plan", MAY + COFFEE + lawn("1 ft"), lawn("1 ft"), "topdressing living-lawn", "pile", "bought-compost"),
    ("own-compost-on-lawn", "plan", MAY + COFFEE + lawn("1 ft"), MAY + COFFEE, "pile", "topdressing living-lawn", ""),
    ("bought-compost", "plan", MAY + COFFEE + lawn("10 ft"), MAY + COFFEE + lawn("1 ft"), "pile topdressing living-lawn own-compost-on-lawn", "", ""),
]

# What a weedkiller may come with: the facts it has of itself, and a word of where it is to go instead.
CARRIERS = {
    "grass-clippings": ("grassy", "lawn"),
    "hay-grass": ("dusty moldy", "trash"),
    "straw": ("dusty moldy", "trash"),
    "horse-manure": ("manure", "field"),
}
# Of these nobody is asked, but who writes treated = "yes" means it: what is kept out of piles includes treated leaves, weeds and manure.
SAID_TREATED = {"chicken-manure": "dusty manure", "leaves-fall": "dusty leaves", "garden-weeds": "weedy"}

# One feedstock a tag, and one without any.
ONE_TAG = "".join(f'''[[feedstock]]
id = "only-{TAGS.index(tag) if tag else 'nothing'}"
moisture_wet_basis = "55 %"
carbon_dry_basis = "45 %"
carbon_to_nitrogen = "30:1"
bulk_density = "400 lb/yd3"
tags = [{f'"{tag}"' if tag else ''}]
''' for tag in ["", *TAGS])

failures = []
checks = 0


def equal(what, found, expected):
    global checks
    checks += 1
    if found != expected:
        failures.append(f"{what}: {found} is not {expected}")


def holds(what, condition):
    global checks
    checks += 1
    if not condition:
        failures.append(what)


def words_of(given):
    """A case in a line: the options, or the yard without the pile that all have."""
    return " ".join(given if isinstance(given, list) else given.replace(MAY, "").split())


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with open(TABLE, "rb") as source:
        table = tomllib.load(source)["caution"]
    texts = {caution["id"]: caution["text"] for caution in table}
    positive, negative, printed = set(), set(), set()

    with tempfile.TemporaryDirectory() as folder:
        def file(name, text):
            path = pathlib.Path(folder, name)
            path.write_text(text, encoding="utf-8")
            return str(path)

        @functools.cache
        def output(command, *arguments):
            result = subprocess.run([program, command, *arguments], capture_output=True, text=True, timeout=60)
            holds(f"{command} {arguments}: exit {result.returncode}: {result.stderr}", result.returncode in (0, 1) and not result.stderr)
            return result.stdout

        def run(command, given, *options):
            arguments = given if isinstance(given, list) else [file(f"{hashlib.sha256(given.encode()).hexdigest()}.toml", given)]
            built = re.search(r"^built = (.*)$", given, re.MULTILINE) if isinstance(given, str) else None
            return output(command, *arguments, *options, *(["--today", built[1]] if built else []))

        def screen(what, text, ids):
            """All cautions stand at the end of the whole screen, above the last line."""
            lines = text.rstrip("\n").split("\n")
            if not ids:
                holds(f"{what}: the screen shows cautions, the JSON has none", "Mind" not in lines)
                return
            if lines[0] and texts["smoldering-pile"].startswith(lines[0]):
                equal(f"{what}: last line", lines[-1], NOTHING_BUT_FIRE)
                return
            equal(f"{what}: last line", lines[-1], LAST_LINE)
            equal(f'{what}: lines "Mind"', lines.count("Mind"), 1)
            if "Mind" not in lines:
                return
            shown = []
            for line in lines[lines.index("Mind") + 1:-1]:
                if line.startswith("- "):
                    shown.append(line[2:])
                elif shown:
                    shown[-1] += " " + line.strip()
            equal(f"{what}: cautions on the screen", shown, [texts[name] for name in ids])

        def case(what, command, given, facts):
            """The ids printed are those that the table hangs on these facts. Returns the JSON and the screen."""
            assert facts <= set(FACTS), facts - set(FACTS)
            answer = json.loads(run(command, given, "--json") or "{}")
            ids = [caution["id"] for caution in answer.get("cautions", [])]
            equal(f"{what}: {' '.join(sorted(facts)) or 'no fact'}", ids, [caution["id"] for caution in table if facts & set(caution["when"])])
            for caution in answer.get("cautions", []):
                equal(f"{what}: text of {caution['id']}", caution["text"], texts.get(caution["id"]))
            printed.update(ids)
            text = run(command, given, "--all")
            screen(what, text, ids)
            return answer, text

        materials = file("materials.toml", ONE_TAG)
        pairs = PAIRS + [(tag, "mix", ["--materials", materials, *add(f"only-{TAGS.index(tag)}")], ["--materials", materials, *add("only-nothing")], "", "", "")
                         for tag in TAGS]
        for fact, command, given, twin, both, first, second in pairs:
            case(f"{fact}: {command} {words_of(given)}", command, given, {fact, *both.split(), *first.split()})
            positive.add(fact)
            if twin is not None:
                case(f"not {fact}: {command} {words_of(twin)}", command, twin, {*both.split(), *second.split()})
                negative.add(fact)

        # What was treated, or may have been, stays out and the screen says where it goes; untreated it goes in.
        chips = MAY + supply("wood-chips", "2 bucket")
        of_what_stays_out = {"yes": ["treated"], "unknown": ["treated", "herbicide"], "no": []}
        for feedstock, (own, where) in CARRIERS.items():
            for treated in ("yes", "unknown", "no"):
                yard = chips + supply(feedstock, "2 bucket", f'treated = "{treated}"\nuse = "all"')
                stays_out = treated != "no"
                for command in ("recipe", "plan"):
                    what = f'{command}, {feedstock} treated = "{treated}"'
                    answer, text = case(what, command, yard, {"pile", *(of_what_stays_out[treated] or own.split())})
                    recipe = answer["recipe"] if command == "plan" else answer
                    left_out = [{"id": feedstock, "treated": treated}] if stays_out else []
                    equal(f"{what}: left out", recipe["left_out"], left_out)
                    amounts = [amount["id"] for amount in recipe["amounts"] if amount["mass_kg"] > 0]
                    equal(f"{what}: amounts", amounts, ["wood-chips"] + ([] if stays_out else [feedstock]))
                    for mix in (recipe["mix"], recipe["everything_in"] and recipe["everything_in"]["mix"]):
                        if mix:
                            equal(f"{what}: in the mix", feedstock in [part["id"] for part in mix["feedstocks"]], not stays_out)
                    found = re.search(r"^Leave out +(.*(?:\n  +.*)*)", text, re.MULTILINE)
                    paragraph = " ".join(found[1].split()) if found else ""
                    equal(f"{what}: said to stay out", bool(paragraph), stays_out)
                    if stays_out:
                        holds(f"{what}: says where it goes: {paragraph!r}", where in paragraph)
                (positive if stays_out else negative).add("treated")
        for feedstock, own in SAID_TREATED.items():
            yard = chips + supply(feedstock, "2 bucket", 'treated = "yes"\nuse = "all"')
            answer, _ = case(f'recipe, {feedstock} treated = "yes"', "recipe", yard, {"pile", "treated"})
            equal(f'recipe, {feedstock} treated = "yes": left out', answer["left_out"], [{"id": feedstock, "treated": "yes"}])
            case(f'recipe, {feedstock} treated = "no"', "recipe", yard.replace('"yes"', '"no"'), {"pile", *own.split()})
        # A mix leaves nothing out; so it must say that this should have been.
        for treated in ("yes", "unknown"):
            yard = supply("grass-clippings", more=f'treated = "{treated}"')
            case(f'mix, clippings treated = "{treated}"', "mix", yard, {"grassy", "herbicide", "treated"})

        # A pile without a date is built today: what it is told is what a pile of today's date is told.
        undated = "".join(line for line in MAY.splitlines(keepends=True) if not line.startswith("built"))
        answer = json.loads(run("plan", COFFEE + undated, "--json"))
        dated = json.loads(run("plan", COFFEE + pile(answer["built"]), "--json"))
        undated_ids, dated_ids = ([caution["id"] for caution in each["cautions"]] for each in (answer, dated))
        equal(f'a pile built today, {answer["built"]}: undated and dated', undated_ids, dated_ids)

    equal("facts of the table", sorted({fact for caution in table for fact in caution["when"]}), sorted(FACTS))
    equal("facts in no positive case", sorted(set(FACTS) - positive), [])
    equal("facts in no negative case", sorted(set(FACTS) - negative), [])
    equal("cautions never printed", sorted(set(texts) - printed), [])
    print("\n".join(failures))
    print(f"{checks} checks, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
