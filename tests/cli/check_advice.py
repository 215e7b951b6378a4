"""What the first screen advises: whatever is listed and stays out is named there, with why and what to do with it; and no page contradicts
itself.

usage: check_advice.py PROGRAM
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

from arithmetic import ROOT, Checks

check = Checks()


class Asked:
    """The program, asked in a folder of yards."""

    def __init__(self, program, folder):
        self.program, self.folder = str(pathlib.Path(program).resolve()), folder

    def run(self, *arguments):
        return subprocess.run([self.program, *arguments], capture_output=True, text=True, timeout=120)

    def screen(self, *arguments):
        """In one line, for lines are broken anywhere."""
        return " ".join(self.run(*arguments).stdout.split())

    def recipe(self, *have, options=()):
        return self.screen("recipe", *(word for one in have for word in ("--have", one)), *options)

    def yard(self, name, text):
        path = self.folder / f"{name}.toml"
        path.write_text(text)
        return str(path)


def has(where, screen, *wanted):
    for words in wanted:
        check(re.search(words, screen), f"{where}: no \"{words}\" in: {screen}")


def has_not(where, screen, *unwanted):
    for words in unwanted:
        check(not re.search(words, screen), f"{where}: \"{words}\" in: {screen}")


# What stays out

SUPPLY = "[[supply]]\nfeedstock = \"{}\"\n{}\n"
LISTED = (SUPPLY.format("leaves-fall", 'amount = "20 leaf-bag"') + SUPPLY.format("kitchen-scraps", 'amount = "4 bucket"') +
          SUPPLY.format("grass-clippings", 'amount = "6 bucket"\ntreated = "no"\nwhen = { every = "week", from = "Apr", to = "Oct" }') +
          SUPPLY.format("horse-manure", 'amount = "2 bucket"\ntreated = "unknown"') +
          SUPPLY.format("corn-stalks", 'amount = "6 wheelbarrow"\nstorable = false\nwhen = { months = ["Sep"] }') +
          SUPPLY.format("wood-chips", 'use = "unlimited"') +
          SUPPLY.format("cardboard", 'bought = true\nprice = 3\nunit = "1 bucket"') + SUPPLY.format("urea", 'amount = "3 lb"') +
          '[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\nbuilt = 2026-11-20\n')


def check_kept_dry(ask):
    """Two that are kept dry are one step, with both names and the reason."""
    screen = ask.recipe("leaves=20 bags", "straw=3 bales", "grass=6 buckets")
    has("two kept dry", screen, r"leaf bags of autumn leaves and all 3 straw bales of straw \(too brown\): keep them dry for later, or spread "
        r"the straw as mulch\.")
    check(screen.count("keep them dry") == 1, f"two kept dry, said twice: {screen}")


def check_reasons(ask):
    has("greens left", ask.recipe("leaves=10 bags", "grass=40 buckets"), r"The other [^:]* of grass clippings \(too (wet|green)\): leave them")
    has("browns left", ask.recipe("leaves=20 bags", "grass=8 buckets"), r"The other [^:]* of autumn leaves \(too brown\): keep")
    has("wet left", ask.recipe("horse manure=10 wheelbarrows", "leaves=30 bags", "grass=10 buckets"), r"horse manure \(too wet\)")
    has("big enough", ask.recipe("leaves=20 bags", "grass=40 buckets", options=("--fill", "1 yd3")), r"\(more than you asked for\)")
    has("fertilizer left", ask.recipe("leaves=20 bags", "urea=5 lb"), r"The other [^:]* of urea \(enough without\): put away\.")
    limits = ask.yard("limits", SUPPLY.format("leaves-fall", 'amount = "20 leaf-bag"\nmost_of_volume = "60 %"') +
                      SUPPLY.format("straw", 'amount = "4 straw-bale"') +
                      SUPPLY.format("grass-clippings", 'amount = "20 bucket"\ntreated = "no"'))
    has("a share", ask.screen("recipe", limits), r"\(more than the share you allow\)")
    full = ask.yard("full", SUPPLY.format("leaves-fall", 'amount = "40 leaf-bag"') +
                    SUPPLY.format("grass-clippings", 'amount = "40 bucket"\ntreated = "no"') +
                    '[pile]\nshape = "bin"\nlength = "3 ft"\nwidth = "3 ft"\nheight = "3 ft"\n')
    for command in ("recipe", "plan"):
        has(f"a full bin, {command}", ask.screen(command, full), r"autumn leaves \(no room\)", r"grass clippings \(no room\)")
    goal = ask.yard("goal", '[recipe]\ngoal = "least-water"\n' + SUPPLY.format("leaves-fall", 'amount = "20 leaf-bag"') +
                    SUPPLY.format("grass-clippings", 'amount = "8 bucket"\ntreated = "no"'))
    has("a goal", ask.screen("recipe", goal), r"The other [^:]* of autumn leaves \([^)]*\):")


def check_far_off(ask):
    """Of a pile that is none, what would not go in is named too."""
    has("none of the clippings", ask.recipe("grass=40 buckets", "scraps=4 buckets"), r"grass clippings \(too green\): leave them on the lawn")
    has("none of the sawdust", ask.recipe("leaves=20 bags", "sawdust=3 buckets", "grass=2 buckets", options=("--fill", "1/2 yd3")),
        r"sawdust \(too brown\): ")


def check_listed(ask):
    """Out of season, not fit, not needed, to be bought: on the screens of the recipe and of the plan, and by name on those of pile and mix."""
    yard = ask.yard("listed", LISTED)
    for command in ("recipe", "plan"):
        has(f"listed, {command}", ask.screen(command, yard, "--today", "2026-11-20"), r"Leave out +horse manure: it may carry weedkiller", r"Not today .*grass clippings: ",
            r"corn stalks: [^.]*none can be had", r"Not needed wood chips; buy no corrugated cardboard", r"The other 5 leaf bags of autumn leaves \(no room\): keep",
            r"of urea \(enough without\): put away")
    has("listed, pile", ask.screen("pile", yard), r"The recipe leaves [0-9.]+ cu yd of autumn leaves and urea\.", r"Not in it: horse manure, grass clippings, corn stalks, wood chips "
        r"and corrugated cardboard\.", r"`heapwright recipe` says why")
    has("listed, mix", ask.screen("mix", yard), r"Not in it: grass clippings \(none that day\), corn stalks \(none that day\), wood chips \(no amount\) and "
        r"corrugated cardboard \(to buy\)\.")


def check_without_a_size(ask):
    has("parts, and a supplement", ask.recipe("leaves", "grass", "urea=5 lb"), r"All 5 lb of urea \(enough without\): put away")


def check_without_figures(ask):
    """What nobody published figures of is refused, and what to do with it is said."""
    done = ask.run("recipe", "--have", "leaves=10 bags", "--have", "compost starter=1 bucket")
    check(done.returncode == 2 and "cannot be mixed" in done.stderr, f"without figures: {done}")


# Wood and old compost


def check_wet_and_dry(ask):
    """Of bedded manure in many amounts: no page says that it is wet enough and that more water is wanted."""
    for manure in (1, 3, 6, 10):
        for shavings in (0.5, 2, 4, 10):
            for leaves in (0, 5, 20, 60, 100):
                have = [f"horse manure={manure} wheelbarrows", f"wood shavings={shavings} wheelbarrows"] + ([f"leaves={leaves} bags"] if leaves else [])
                screen = ask.recipe(*have, options=("--why",))
                wet = re.search(r"wet enough|too wet", screen)
                check(not (wet and "want more water" in screen), f"{have}: wet and dry at once: {screen}")
    for have in (("wood chips", "horse bedding=1 wheelbarrow", "straw=30 bales", "sawdust=2 buckets"),
                 ("leaves=5 bags", "horse manure=20 buckets", "wood chips=60 wheelbarrows", "sawdust"),
                 ("horse bedding=20 buckets", "grass", "wood shavings=5 buckets", "wood chips=30 wheelbarrows")):
        screen = ask.recipe(*have, options=("--why",))
        has(f"{have}", screen, "wet enough")
        has_not(f"{have}, wet enough", screen, "want more water")


def moisture_of(ask, *adds):
    done = ask.run("mix", *(word for one in adds for word in ("--add", one)), "--json")
    return json.loads(done.stdout)["mix"]["moisture_fraction"]


def check_bedding(ask):
    """Manure and shavings go in together, whatever leaves there are. By hand 33 bags of leaves bring ten and ten wheelbarrows to 60 % moisture, and 24
    to 62 %, which nobody can tell from it."""
    bedded = ["horse manure=10 wheelbarrows", "wood shavings=10 wheelbarrows"]
    check(abs(moisture_of(ask, *bedded, "leaves=33 bags") - 0.60) < 0.002, "33 bags by hand")
    counted = r"Counted by what rots in a season, C:N about 3[0-9]: of softwood shavings hardly any does"
    for leaves in ("leaves", "leaves=100 bags", "leaves=30 bags"):
        screen = ask.recipe(*bedded, leaves)
        has(f"bedding, {leaves}", screen, r"10 wheelbarrows of softwood shavings and [0-9]+ leaf bags", r"On it 10 wheelbarrows of horse manure", counted)
        bags = re.search(r"and ([0-9]+) leaf bags", screen)
        check(bags and 24 <= int(bags.group(1)) <= 33, f"bedding, {leaves}: {screen}")
    for leaves in ([], ["leaves=5 bags"], ["leaves=10 bags"], ["leaves=20 bags"]):
        screen = ask.recipe(*bedded, *leaves)
        has(f"bedding, {leaves}", screen, r"This pile is a little brown and a little wet, and will work", r"10 wheelbarrows of softwood shavings", counted,
            r"horse manure \(too wet\): keep it covered")
    has("bedded by name", ask.recipe("stable manure with shavings=6 wheelbarrows", "grass=20 buckets"), r"horse bedding with manure")


def check_one_verdict(ask):
    """A pile that will work is not said to smell, and what mix says of the same amounts is the same."""
    for have in (["horse manure=2 wheelbarrows", "leaves=6 bags"], ["straw=1 bale", "cow manure=1 wheelbarrow"], ["straw=1 bale", "grass=8 buckets"],
                 ["wood chips=1 pickup", "horse manure=1 pickup"], ["horse manure=10 wheelbarrows", "wood shavings=10 wheelbarrows", "leaves=30 bags"]):
        screen = ask.recipe(*have)
        if "will work" in screen:
            has_not(f"{have}", screen, "will smell", "pack down", "short of nitrogen")
    recipe = ask.recipe("wood chips=1 pickup", "horse manure=1 pickup")
    mix = ask.screen("mix", "--add", "wood chips=1 pickup", "--add", "horse manure=1 pickup")
    said = r"is (rather brown and rather wet, and will work, but slower)"
    has("chips and manure", recipe, "This pile " + said)
    has("chips and manure, mix", mix, "This mix " + said, r"of what rots about 37")


def check_much_larger(ask):
    """Who has manure, straw, leaves and grass is not told to build a hatful of leaves and grass, and keep the rest apart."""
    screen = ask.recipe("6 bags of leaves", "1 bale of straw", "2 wheelbarrows of horse manure", "3 buckets of grass")
    has("much larger", screen, r"6 leaf bags of autumn leaves and 1 straw bale of straw", r"horse manure, in", r"Makes 1\.[3-8] cu yd", "will work")
    screen = ask.recipe("1 bucket of leaves", "1 bale of straw", "1 wheelbarrow of horse manure")
    has("straw and manure", screen, r"1 straw bale of straw", r"On it 1 wheelbarrow of horse manure", "will work, but slower")


def check_ways(ask):
    """What is to be mixed in goes with all that is on hand, which the first line names; in winter no clippings, and nothing is dried in the sun."""
    screen = ask.recipe("cardboard=10 buckets", "grass=20 buckets", options=("--today", "2026-11-30"))
    has("all together", screen, r"All of it together, 10 buckets of corrugated cardboard and 20 buckets of grass clippings, comes out too wet",
        r"autumn leaves: 4 1/2 leaf bags")
    has_not("winter", screen, "wilt in the sun", "grass clippings: [0-9 /]+ buckets more")
    has("summer", ask.recipe("cardboard=10 buckets", "grass=20 buckets", options=("--today", "2026-06-30")), "wilt in the sun")
    has("greens to come", ask.recipe("leaves=20 bags", "grass=5 bags", "horse manure with shavings=10 wheelbarrows"),
        r"horse bedding with manure \(too brown\): keep it covered, away from water, and put it on as more greens come in")


def check_bales(ask):
    """A bale is shaken out as the pile is built: 45 lb at 230 lb/cu yd, and 0.45 cu yd of it at 100 lb/cu yd."""
    made = json.loads(ask.run("recipe", "--have", "straw=6 bales", "--have", "chicken manure=6 buckets", "--json").stdout)
    straw = next(one for one in made["amounts"] if one["id"] == "straw")
    density = straw["mass_kg"] / straw["volume_m3"]
    check(abs(density - 100 * 0.45359237 / 0.764554857984) < 0.1, f"straw lies at {density} kg/m3 in the pile")
    check(abs(straw["mass_kg"] - 6 * 5.25 / 27 * 230 * 0.45359237) < 0.5, f"six bales: {straw['mass_kg']} kg")


def check_wood(ask):
    """Chips that are left are mulch."""
    for have in (("wood chips=10 wheelbarrows", "scraps=4 buckets", "leaves=3 bags"), ("wood chips=4 wheelbarrows", "grass=20 buckets"), ("wood chips=10 wheelbarrows",)):
        screen = ask.recipe(*have)
        has(f"{have}", screen, r"wood chips[^:]*: spread them as mulch on paths and beds", r"of wood chips hardly any does")
        has_not(f"{have}", screen, r"(wood chips|shavings|sawdust): [0-9][^-]*more")


def check_old_compost(ask):
    """The nitrogen of old compost balances no leaves."""
    for command in (("recipe",), ("plan",)):
        yard = ask.yard("compost", SUPPLY.format("leaves-fall", 'amount = "20 leaf-bag"') + SUPPLY.format("old-compost", 'amount = "4 wheelbarrow"'))
        has(f"old compost, {command}", ask.screen(*command, yard), r"There is no green in it: the nitrogen of old or half-finished compost is bound, and does not "
            r"count\. Get one of these: - [a-z ]+: [0-9]")
    has("old compost, parts", ask.recipe("leaves", "old compost"), r"There is no green in it: [^.]*\. Get grass clippings, kitchen scraps or coffee grounds\.")
    has("old compost, few greens", ask.recipe("leaves=20 bags", "old compost=4 wheelbarrows", "scraps=1 bucket"), r"There is too little green in it: ")
    has_not("old compost, enough greens", ask.recipe("leaves=20 bags", "old compost=4 wheelbarrows", "grass=25 buckets"), r"There is (no|too little) green")
    has_not("no compost", ask.recipe("leaves=20 bags", "grass=25 buckets"), r"There is (no|too little) green")


# The trade's basics, by the kind of pile

KINDS = {"bin": 'shape = "bin"\nlength = "3 ft"\nwidth = "3 ft"\nheight = "3 ft"', "hoop": 'shape = "round"\ndiameter = "3 ft"\nheight = "3 ft"',
         "heap": 'shape = "cone"\ndiameter = "4 ft"\nheight = "3 ft"', "windrow": 'shape = "windrow"\nlength = "6 ft"\nwidth = "4 ft"\nheight = "3 ft"',
         "tumbler": 'shape = "tumbler"\nvolume = "80 gal"', "free": ""}
MARK = r"How it is built \(common practice, no source\)"


def yard_of(ask, kind, leaves="", more=""):
    pile = f"[pile]\n{KINDS[kind]}\nturn_every = \"7 days\"\n" if KINDS[kind] else ""
    return ask.yard("kind", SUPPLY.format("leaves-fall", f'amount = "20 leaf-bag"\n{leaves}') + SUPPLY.format("grass-clippings", 'amount = "12 bucket"\ntreated = "no"') +
                    SUPPLY.format("kitchen-scraps", 'amount = "3 bucket"') + pile + more)


def check_basics(ask):
    for kind in KINDS:
        for command in ("recipe", "plan"):
            yard = yard_of(ask, kind)
            screen, why = ask.screen(command, yard), ask.screen(command, yard, "--why")
            here = f"{kind}, {command}"
            has(here, screen, "best shredded first")
            has(here, why, MARK, "shred whole leaves first")
            if kind == "tumbler":
                has(here, screen, r"1\. Put in ", r"Rotate it a few times, to mix it\.")
                has(here, why, "it has no layers, and needs no fork")
                has_not(here, why.replace("it has no layers, and needs no fork", ""), "at the bottom", "layer", "twig", "fork", "on top", "turn it")
            else:
                has(here, screen, r"(in (two|three|four|five) layers or mixed, autumn leaves between and on top|the rest over it)")
                has(here, why, "layers and a mixed pile both do", "cover kitchen scraps with browns each time")
                has_not(here, why, "[Rr]otate")
            if kind in ("bin", "hoop"):
                has(here, why, "top the bin up as it sinks")
                has(here, screen, r"autumn leaves [^:]*\(no room\): keep them dry, and top it up as it sinks")
            if command == "plan" and kind not in ("free",):
                has(here, screen, "rotate it every 7 days" if kind == "tumbler" else "turn it every 7 days")
        has_not(f"{kind}, shredded", ask.screen("recipe", yard_of(ask, kind, "shredded = true"), "--why"), "best shredded first", "shred whole leaves")


def check_tumbler_symptoms(ask):
    """What to do with a tumbler is rotated, whatever is wrong with it."""
    with open(ROOT / "materials" / "symptoms.toml", "rb") as file:
        symptoms = [row["id"] for row in tomllib.load(file)["symptom"]]
    for symptom in symptoms:
        screen = ask.screen("readings", yard_of(ask, "tumbler"), "--noticed", symptom, "--why")
        has_not(f"a tumbler, {symptom}", screen, "twig", "forked in", "fork dry", "fork that", "with the fork", "layer by layer", "mound", "the outside to")


def main():
    with tempfile.TemporaryDirectory() as name:
        ask = Asked(sys.argv[1], pathlib.Path(name))
        for check_of in (check_kept_dry, check_reasons, check_far_off, check_listed, check_without_a_size, check_without_figures,
                         check_basics, check_tumbler_symptoms, check_wet_and_dry, check_bedding, check_one_verdict, check_much_larger, check_ways,
                         check_bales, check_wood, check_old_compost):
            check_of(ask)
    print("\n".join(check.failures))
    print(f"{check.count} checks, {len(check.failures)} failures")
    return 1 if check.failures else 0


if __name__ == "__main__":
    sys.exit(main())
