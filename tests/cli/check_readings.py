"""Logs and symptoms from outside: broken logs, the JSON, every symptom where it fits and where it does not, what mends it.

usage: check_readings.py PROGRAM
"""
import datetime
import json
import pathlib
import re
import resource
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "quarter-acre.toml"
LOG = ROOT / "examples" / "quarter-acre-log.csv"

HEAD = "time,core degF,event\n"
ROW = "2026-11-08T08:00,100,\n"

# name, text of the log, what stderr must match (position, what is wrong, what would be right)
BROKEN = [
    ("empty", "", r"log.csv: .*no rows.*columns' names"),
    ("no names", ROW, r"log.csv:1:1: there are no names above the rows.*time,core degF"),
    ("tabs", HEAD.replace(",", "\t") + ROW.replace(",", "\t"), r"log.csv:1:1: the columns are parted by tabs.*save it as CSV"),
    ("no time", "when,core degF\n2026-11-08,100\n", r'log.csv:1:1: no column is named "time"'),
    ("time twice", "time,time,core degF\n2026-11-08,2026-11-08,100\n", r"log.csv:1:6: time: is a second column of that name"),
    ("no unit", "time,core\n2026-11-08,100\n", r'log.csv:1:6: core: does not say its unit.*"core degF"'),
    ("no probe", "time,event\n2026-11-08,turned\n", r"log.csv:1:1: no column has temperatures of the pile"),
    ("only the air", "time,air degF\n2026-11-08,50\n", r"log.csv:1:1: no column has temperatures of the pile"),
    ("outside of what", "time,core degF,air degF,outside degF\n2026-11-08,100,50,50\n", r"log.csv:1:25: .*may be the pile's outside or the air's.*edge degF"),
    ("probe twice", "time,core degF,core degF\n2026-11-08,100,50\n", r"log.csv:1:16: .*second column of that name"),
    ("event twice", "time,core degF,event,event\n2026-11-08,100,,\n", r"log.csv:1:22: .*second column of that name"),
    ("no rows", HEAD, r"log.csv: .*no temperature of the pile in it"),
    ("no reading", HEAD + "2026-11-08T08:00,,turned\n", r"log.csv: .*no temperature of the pile in it"),
    ("no such day", HEAD + "2026-11-31T08:00,100,\n", r'log.csv:2:1: time: "2026-11-31" is no day of the calendar'),
    ("dates in either order", HEAD + "11/08/2026 08:00,100,\n11/09/2026 08:00,100,\n", r'log.csv:2:1: time: "11/08/2026" may be Nov 8 or Aug 11.*year-month-day: 2026-11-'),
    ("degF under degC", HEAD.replace("degF", "degC") + "2026-11-08,140,\n", r'log.csv:2:12: core degC: "140" is no temperature of a pile.*end its name in degF'),
    ("hour 24", HEAD + "2026-11-08T24:00,100,\n", r"log.csv:2:1: time: .*is no time.*2026-11-12T08:00"),
    ("minute 60", HEAD + "2026-11-08T08:60,100,\n", r"log.csv:2:1: time: .*is no time"),
    ("second 60", HEAD + "2026-11-08T08:00:60,100,\n", r"log.csv:2:1: time: .*is no time"),
    ("time with pm", HEAD + "2026-11-08T08:00 pm,100,\n", r"log.csv:2:1: time: .*is no time"),
    ("offset of a day", HEAD + "2026-11-08T08:00+24:00,100,\n", r"log.csv:2:1: time: .*is no time"),
    ("time cut off", HEAD + "2026-11-08T08,100,\n", r"log.csv:2:1: time: .*is no time"),
    ("no time at all", HEAD + ",100,\n", r"log.csv:2:1: time: .*is no time"),
    ("twice", HEAD + ROW + ROW, r"log.csv:3:1: time: 2026-11-08T08:00 stands twice.*in their order"),
    ("out of order", HEAD + ROW + "2026-11-07T08:00,100,\n", r"log.csv:3:1: time: 2026-11-07T08:00 stands after 2026-11-08T08:00"),
    ("clock put back", HEAD + "2026-11-01T01:30,100,\n2026-11-01T01:30,100,\n", r"log.csv:3:1: .*stands twice.*2026-11-01T01:30-05:00"),
    ("same moment", HEAD + "2026-11-08T08:00Z,100,\n2026-11-08T03:00-05:00,100,\n", r"log.csv:3:1: .*stands twice"),
    ("offset now and then", HEAD + "2026-11-08T08:00Z,100,\n2026-11-09T08:00,100,\n", r"log.csv:3:1: .*does not say its offset"),
    ("offset from now on", HEAD + ROW + "2026-11-09T08:00Z,100,\n", r"log.csv:3:1: .*says its offset from UTC where those above do not"),
    ("a word", HEAD + "2026-11-08T08:00,hot,\n", r'log.csv:2:18: core degF: "hot".*in the yard file: \[\[reading\]\]'),
    ("a decimal comma", "time,core degF\n2026-11-08T08:00,\"100,5\"\n", r"log.csv:2:18: core degF: "),
    ("a unit in the field", HEAD + "2026-11-08T08:00,100 F,\n", r"log.csv:2:18: core degF: "),
    ("a failed probe", HEAD + "2026-11-08T08:00,-196.6,\n", r'log.csv:2:18: .*"-196.6" is no temperature of a pile.*leave the field empty'),
    ("too hot for a pile", HEAD + "2026-11-08T08:00,999,\n", r"log.csv:2:18: .*is no temperature of a pile"),
    ("inf", HEAD + "2026-11-08T08:00,inf,\n", r'log.csv:2:18: core degF: "inf" is infinite'),
    ("1e400", HEAD + "2026-11-08T08:00,1e400,\n", r"log.csv:2:18: core degF: "),
    ("event not known", HEAD + "2026-11-08T08:00,100,stirred\n", r'log.csv:2:22: event: "stirred" is no event.*turned, watered'),
    ("field too many", HEAD + "2026-11-08T08:00,100,,\n", r"log.csv:2:1: .*4 fields where the header has 3"),
    ("field too few", HEAD + "2026-11-08T08:00,100\n", r"log.csv:2:1: .*2 fields where the header has 3"),
    ("quote not closed", HEAD + '2026-11-08T08:00,100,"turned\n', r"log.csv:2:\d+: "),
    ("not text", HEAD.encode() + b"2026-11-08T08:00,\xff\xfe,\n", r"log.csv:2:18: "),
    ("three at once", HEAD + "2026-11-08T08:00,hot,\n2026-11-09,100,stirred\n2026-13-09,100,\n",
     r"log.csv:2:18: (.|\n)*log.csv:3:16: (.|\n)*log.csv:4:1: "),
]


def pile(extra=""):
    return '[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\nbuilt = 2027-06-01\n' + extra


def supply(feedstock, amount, packing=None):
    lines = f'[[supply]]\nfeedstock = "{feedstock}"\namount = "{amount}"\ntreated = "no"\n' if feedstock == "grass-clippings" else \
        f'[[supply]]\nfeedstock = "{feedstock}"\namount = "{amount}"\n'
    return lines + (f'packing = "{packing}"\n' if packing else "")


BALANCED = supply("leaves-fall", "8 leaf-bag") + supply("grass-clippings", "20 bucket", "loose")
CLIPPINGS = supply("grass-clippings", "20 bucket", "loose")
LEAVES = supply("leaves-fall", "24 leaf-bag")
SCRAPS = supply("kitchen-scraps", "6 bucket")
LITTLE = supply("leaves-fall", "1 leaf-bag") + supply("grass-clippings", "2 1/2 bucket", "loose")
TUMBLER = '[pile]\nshape = "tumbler"\nvolume = "60 gal"\nbuilt = 2027-06-01\nkeep_moist = true\n'
MOIST = pile("keep_moist = true\n")
COVERED = pile("keep_moist = true\ncovered = true\n")
WINTER = '[climate]\nlike = "cold"\n'

# symptom, a yard on which a cause of its own fits with words of that cause, one on which it does not
SYMPTOMS = [
    ("ammonia-smell", CLIPPINGS + pile(), "too many greens", LEAVES + pile()),
    ("rotten-smell", SCRAPS + pile(), "too wet", BALANCED + COVERED),
    ("dry-middle", LEAVES + pile(), "too little water", BALANCED + MOIST),
    ("matted-grass", CLIPPINGS + pile(), "more clippings than", BALANCED + pile()),
    ("will-not-heat", LEAVES + pile(), "too dry", BALANCED + MOIST),
    ("will-not-heat", LEAVES + MOIST, "too few greens", BALANCED + MOIST),
    ("will-not-heat", LITTLE + MOIST, "too small", BALANCED + MOIST),
    ("too-hot", CLIPPINGS + pile(), "many greens", BALANCED + MOIST),
    ("flies", SCRAPS + BALANCED + pile(), "scraps that lie open", BALANCED + pile()),
    ("rats", SCRAPS + BALANCED + pile(), "they come for scraps", BALANCED + pile()),
    ("ants", LEAVES + pile(), "it is dry", BALANCED + MOIST),
    ("soggy", SCRAPS + pile(), "more water went in", BALANCED + COVERED),
    ("soggy", BALANCED + MOIST, "rain", BALANCED + COVERED),
    ("white-threads", LEAVES + pile(), "where it is dry", BALANCED + MOIST),
    ("half-rotted-and-cold", LEAVES + pile(), "dried out", BALANCED + MOIST),
    ("half-rotted-and-cold", LEAVES + MOIST, "greens are used up", BALANCED + MOIST),
]

failures = []
checks = 0


def check(where, true, what):
    global checks
    checks += 1
    if not true:
        failures.append(f"{where}: {what}")


def run(program, *arguments):
    return subprocess.run([program, "readings", *map(str, arguments)], capture_output=True, text=True, errors="replace", timeout=120, cwd=ROOT)


def words(program, *arguments):
    """The screen without its line breaks."""
    return " ".join(run(program, *arguments).stdout.split())


def answer(program, *arguments):
    result = run(program, *arguments, "--json")
    return json.loads(result.stdout) if result.stdout else {"error": result.stderr}


def check_broken(program, folder):
    log = folder / "log.csv"
    for name, text, expected in BROKEN:
        log.write_bytes(text if isinstance(text, bytes) else text.encode())
        result = run(program, "--log", log)
        check(name, result.returncode == 2, f"exit {result.returncode}")
        check(name, result.stdout == "", "something on standard output")
        check(name, re.search(expected, result.stderr, re.S), result.stderr)


def check_json(program):
    found = answer(program, EXAMPLE, "--log", LOG)
    check("json", set(found) == {"rules", "forecast_correction", "observations", "noticed", "assumptions", "measure_first", "working", "cautions", "smokes", "pile_activity", "questions", "dies_at"}, set(found))
    check("json", found["pile_activity"] == "has-not-heated", found["pile_activity"])
    check("json", answer(program, "--noticed", "flies")["pile_activity"] is None, "a pile that nobody measured has a state")
    check("json", [rule["id"] for rule in found["rules"]] == [
        "further-reduction-windrow", "further-reduction-in-vessel", "significant-reduction", "organic-windrow", "organic-in-vessel",
        "organic-starting-c-to-n"], found["rules"])
    for rule in found["rules"]:
        check("json", set(rule) == {"id", "met", "longest_hours", "total_hours", "turnings", "from", "to", "why", "source"}, rule)
    for noticed in found["noticed"]:
        check("json", {"symptom", "likely_cause", "check", "fix", "do_now"} <= set(noticed), noticed)
    check("json", found["rules"][-1]["met"] is True, found["rules"][-1])
    without_yard = answer(program, "--log", LOG)
    check("json", without_yard["rules"][-1]["met"] is None, "a C:N out of nothing")
    check("json", without_yard["forecast_correction"] is None, "a forecast out of nothing")


def noticed_in(program, folder, yard, symptom):
    path = folder / "yard.toml"
    path.write_text(yard + f'[[noticed]]\nsymptom = "{symptom}"\ndate = 2027-06-10\n', encoding="utf-8")
    found = answer(program, path)
    return found["noticed"][0] if found.get("noticed") else {"likely_cause": str(found), "fix": []}


def check_symptoms(program, folder):
    for symptom, fits, words, does_not in SYMPTOMS:
        found = noticed_in(program, folder, fits, symptom)
        check(symptom, words in found["likely_cause"], f"{words!r} is not in {found['likely_cause']!r}")
        other = noticed_in(program, folder, does_not, symptom)
        check(symptom, words not in other["likely_cause"], f"{words!r} is told where it does not fit")
        check(symptom, other["fix"] == [], "something to add where nothing is wrong")
        if not found["fix"]:
            continue
        mended = fits + "".join(supply(part["id"], f"{part['mass_kg']:.6f} kg") for part in found["fix"])
        again = noticed_in(program, folder, mended, symptom)
        check(symptom, words not in again["likely_cause"], f"still {words!r} after {found['fix']}")
        check(symptom, 24.99 <= found["mix_with_fix"]["carbon_to_nitrogen"] <= 35.01, found["mix_with_fix"])
        check(symptom, 0.4999 <= found["mix_with_fix"]["moisture_fraction"] <= 0.6001, found["mix_with_fix"])


def check_watering(program, folder):
    for symptom in ("dry-middle", "ants", "will-not-heat"):
        found = noticed_in(program, folder, LEAVES + pile(), symptom)
        check(symptom, found["water_to_add_kg"] > 10.0, "no water for dry leaves")
        check(symptom, 0.4999 <= found["mix_with_fix"]["moisture_fraction"] <= 0.6001, found["mix_with_fix"])


ABUNDANT = supply("leaves-fall", "20 leaf-bag") + supply("grass-clippings", "10 bucket", "loose") + pile()


def mixed(program, folder, supplies):
    path = folder / "mixed.toml"
    path.write_text(supplies, encoding="utf-8")
    return json.loads(subprocess.run([program, "mix", path, "--json"], capture_output=True, text=True, timeout=120).stdout)["mix"]


def check_kept_browns(program, folder):
    """A pile built by its recipe is told how many of the bags that stand by it bears, and one all of whose supplies went in what to add."""
    for symptom in ("ammonia-smell", "rotten-smell", "soggy"):
        found = noticed_in(program, folder, ABUNDANT, symptom)
        check(symptom, found["as_planned"] and found["fix"] == [], found)
        browns = found["kept_browns"]
        check(symptom, browns is not None and browns["at_most"]["id"] == "leaves-fall", browns)
        path = folder / "yard.toml"
        amounts = json.loads(subprocess.run([program, "recipe", path, "--json"], capture_output=True, text=True, timeout=120).stdout)
        went_in = amounts["whole_containers"]["amounts"]
        in_all = "".join(supply(one["id"], f"{one['mass_kg']:.6f} kg") for one in went_in)
        leaves = browns["kept"]["mass_kg"] / browns["kept"]["containers"]["count"]
        check(symptom, abs(sum(one["mass_kg"] for one in went_in if one["id"] == "leaves-fall") + browns["kept"]["mass_kg"] - 20 * leaves) < 0.01,
              "what went in and what was kept are not all there is")
        at_most = browns["at_most"]["mass_kg"]
        check(symptom, mixed(program, folder, in_all + supply("leaves-fall", f"{at_most:.6f} kg"))["carbon_to_nitrogen"] <= 35.0, "too brown")
        one_more = at_most + (0.5 if browns["at_most"]["containers"]["count"] < 10 else 1.0) * leaves
        check(symptom, mixed(program, folder, in_all + supply("leaves-fall", f"{one_more:.6f} kg"))["carbon_to_nitrogen"] > 35.0, "it bears more")
        screen = words(program, path)
        count = browns["at_most"]["containers"]["count"]
        shown = "half a leaf bag" if count == 0.5 else f"{count:g} leaf bag" + ("s" if count > 1 else "")
        check(symptom, f"Fork in up to {shown} of the autumn leaves you kept" in screen, screen)
    example = words(program, EXAMPLE, "--noticed", "ammonia")
    check("the example", "Fork in up to 4 leaf bags of the autumn leaves you kept: more would make it too brown." in example, example)
    everything = ABUNDANT.replace('amount = "20 leaf-bag"', 'amount = "2 leaf-bag"\nuse = "all"').replace(
        'amount = "10 bucket"', 'amount = "30 bucket"\nuse = "all"')
    found = noticed_in(program, folder, everything, "ammonia-smell")
    check("all went in", not found["as_planned"] and found["kept_browns"] is None and "too many greens" in found["likely_cause"], found)
    check("all went in", [part["id"] for part in found["fix"]] == ["leaves-fall"], found["fix"])
    by_recipe = noticed_in(program, folder, everything.replace('use = "all"\n', ""), "ammonia-smell")
    check("by its recipe", by_recipe["as_planned"] and "too many greens" not in by_recipe["likely_cause"], by_recipe)
    winter = answer(program, folder / "yard.toml", "--noticed", "will-not-heat", "--today", "2026-12-10")
    for one in winter["noticed"]:
        check("December", all(part["id"] != "grass-clippings" for part in one["fix"]), one["fix"])


# Piles that are off in more than one way, as they were built.
COOL = '[climate]\nlike = "cool"\n'
CHIPS = supply("wood-chips", "1 yd3") + supply("horse-manure", "1 yd3").replace("amount", 'treated = "no"\namount') + pile()
BROWN = supply("leaves-fall", "10 leaf-bag") + supply("grass-clippings", "3 bucket") + supply("kitchen-scraps", "2 bucket")
BROWN = BROWN.replace('"\n[[', '"\nuse = "all"\n[[') + pile().replace("2027-06-01", "2026-10-24") + COOL
SOUR = (supply("kitchen-scraps", "12 bucket") + 'use = "all"\n' + supply("leaves-fall", "4 leaf-bag") + 'use = "all"\n' +
        '[pile]\nshape = "bin"\nlength = "3 ft"\nwidth = "3 ft"\nheight = "3 ft"\nbuilt = 2026-11-01\n' + COOL)


def check_against_the_cause(program, folder):
    """What is added works against the cause: browns against wet, and what a pile was given to drink counts."""
    _, found = asked(program, folder, CHIPS, "--noticed", "soggy", "--today", "2027-06-10")
    soggy = found["noticed"][0]
    check("soggy", all(part["id"] in ("leaves-fall", "straw", "sawdust", "cardboard") for part in soggy["fix"]), soggy["fix"])
    shown, _ = asked(program, folder, CHIPS, "--noticed", "will not heat", "--today", "2027-06-10")
    check("a meal by weight", not re.search(r"cu ft of \w+ meal|buckets? of \w+ meal|wheelbarrows of wood chips", shown), shown)
    shown, found = asked(program, folder, BROWN, "--noticed", "will not heat", "--today", "2026-10-30")
    cold = found["noticed"][0]
    check("its water", "with 7 1/2 gallons (4 watering cans) of water, add" in shown and "gallons (1 watering can)" not in shown, shown)
    check("its water", 0.4999 <= cold["mix_with_fix"]["moisture_fraction"] <= 0.6001 and cold["mix"]["moisture_fraction"] > 0.5, cold)
    shown, found = asked(program, folder, BROWN, "--noticed", "will not heat", "--today", "2026-12-20")
    check("in frost", "the frost" in shown and "until spring" in shown and found["noticed"][0]["fix"] == [], shown)
    shown, found = asked(program, folder, BROWN, "--noticed", "half rotted", "--today", "2026-12-20")
    check("half rotted in frost", "leave it alone until spring" in shown.lower() and found["noticed"][0]["fix"] == [], shown)
    shown, found = asked(program, folder, BROWN, "--noticed", "will not heat", "--today", "2026-11-20")
    check("in November", all(part["id"] != "grass-clippings" for part in found["noticed"][0]["fix"]), found["noticed"][0]["fix"])
    old = supply("leaves-fall", "10 leaf-bag") + supply("old-compost", "5 bucket") + pile()
    shown, found = asked(program, folder, old, "--noticed", "will not heat", "--today", "2027-06-10")
    check("no green in it", "Likely there is no green in it" in shown and found["noticed"][0]["fix"], shown)


def check_sour(program, folder):
    """A pile that the recipe calls too wet is not said to have been dry enough, and nothing cures that smells."""
    yard = SOUR + '[[reading]]\ndate = 2026-11-05\ncore = "hot"\n[[reading]]\ndate = 2026-11-20\ncore = "cold"\n'
    shown, found = asked(program, folder, yard, "--noticed", "rotten smell", "--today", "2026-11-21")
    check("sour", "too wet" in found["noticed"][0]["likely_cause"] and [part["id"] for part in found["noticed"][0]["fix"]] == ["leaves-fall"], found)
    check("sour", "cure" not in shown and "dry enough" not in shown and "It has cooled, but is not finished." in shown, shown)
    shown, _ = asked(program, folder, yard, "--today", "2026-11-21")
    check("cool without a smell", "let it cure for three weeks" in shown, shown)


def check_signs_together(program, folder):
    """What is frozen is left alone, opposite signs are asked about, and what mends two signs goes in once."""
    shown, _ = asked(program, folder, BALANCED + pile(), "--noticed", "ammonia smell", "--noticed", "frozen", "--today", "2027-06-10")
    check("frozen", shown.index("It is frozen") < shown.index("It smells of ammonia. Once it has thawed:"), shown)
    shown = words(program, "--noticed", "soggy", "--noticed", "dry")
    check("opposites", "Which is it now?" in shown and "hollow" not in shown and "mound" not in shown, shown)
    check("opposites", len(answer(program, "--noticed", "soggy", "--noticed", "dry")["questions"]) == 1, shown)
    shown, _ = asked(program, folder, CLIPPINGS + pile(), "--noticed", "ammonia", "--noticed", "matted grass", "--today", "2027-06-10")
    check("two signs, one mend", shown.count("leaf bags") == 1 and "What you add for that does for this too." in shown, shown)


def check_stale(program, folder):
    """An old reading is not told as if it were of now, and what a log shows is not asked."""
    log = folder / "stale.csv"
    log.write_text(daily([100, 140, 141, 142, 143]), encoding="utf-8")  # to Nov 5
    shown = words(program, "--log", log, "--today", "2026-11-09")
    check("stale", "The last reading is 4 days old: measure first." in shown and "It is working" in shown, shown)
    shown = words(program, "--log", log, "--today", "2026-11-30")
    check("long stale", "25 days old: measure again before you do anything." in shown and "It is working" not in shown, shown)
    shown = words(program, "--log", log, "--today", "2026-11-08")
    check("fresh", "days old" not in shown, shown)
    log.write_text(daily([100, 150, 165, 166, 166]), encoding="utf-8")
    shown = words(program, "--log", log, "--today", "2026-11-12")
    check("stale and too hot", "7 days old" in shown and "Check that it is so: a thermometer shows more than 160" in shown, shown)
    log.write_text(daily([140, 165, 170, 182, 181]), encoding="utf-8")
    shown = words(program, "--log", log, "--today", "2026-11-12")
    check("stale and near fire", "running hose" in shown, shown)
    turned = answer(program, EXAMPLE, "--log", LOG)["noticed"][0]
    check("turned by its log", "was not turned" not in turned["check"], turned)


DRUM = '[pile]\nshape = "tumbler"\nvolume = "60 gal"\nbuilt = 2027-05-15\nfilled = "as-it-comes"\nturn_every = "3 days"\n[climate]\nlike = "mild"\n'


def check_drum(program, folder):
    """A drum gets what fits it, by its hatch."""
    yard = supply("kitchen-scraps", "2 bucket") + supply("leaves-fall", "4 leaf-bag") + DRUM
    for symptom, wrong in (("soggy", ("around its base", "wet place", "Add up to 2 leaf bags")), ("flies", ("8 inches deep",)), ("rats", ("base", "wire mesh below")),
                           ("too dry", ("rain runs off",)), ("too hot", ("lower it", "spread it")), ("roots", ("tree",)), ("ants", ("turn it",)),
                           ("will not heat", ("3 feet",))):
        shown, found = asked(program, folder, yard, "--noticed", symptom, "--today", "2027-06-15")
        for part in wrong:
            check(f"a drum, {symptom}", part not in shown, shown)
        browns = found["noticed"][0]["kept_browns"]
        check(f"a drum, {symptom}", browns is None or browns["at_most"]["containers"]["count"] <= 1, browns)
    path = folder / "yard.toml"
    for command in ("plan", "recipe", "forecast"):
        shown = " ".join(subprocess.run([program, command, path, "--why", "--today", "2027-05-15"], capture_output=True, text=True, timeout=120).stdout.split())
        for part in ("tread it down", "half as much again", "to a cubic yard", "each week:"):
            check(f"a drum, {command}", part not in shown, f"{part!r} in {shown}")


def check_names(program):
    for name in ("ammonia", "Ammonia smell", "it smells of ammonia", "smells like ammonia", "rats", "There are rats", "won't heat",
                 "fruit flies", "white mold", "matted", "putrid", "smells of ammonia", "smells of rotten eggs", "slimy", "weeds growing", "never heated",
                 "plants growing in it", "too cold", "steam", "fire ants"):
        check(name, run(program, "--noticed", name).returncode == 0, "is not understood")
    for name in ("smoke", "it smoulders", "fire"):
        result = run(program, "--noticed", name, "--noticed", "will not heat")
        first = " ".join(result.stdout.split("\n\n")[0].split())
        check(name, result.returncode == 0 and "call the fire service" in first, result.stdout + result.stderr)
        check(name, "turn it, and" not in result.stdout, "tells to turn what smokes")
        check(name, answer(program, "--noticed", name)["smokes"] is True, "is no smoke in JSON")
    for name in ("fire ants", "smells rotten", "rats"):
        check(name, "fire service" not in run(program, "--noticed", name).stdout, "calls the fire service")
    result = run(program, "--noticed", "ammnoai")
    check("a slip", result.returncode == 2 and 'did you mean "ammonia"' in result.stderr, result.stderr)
    check("nothing", run(program).returncode == 2, "nothing asked, something answered")
    for gap in ("0 h", "-1 h", "2 months", "soon"):
        check(gap, run(program, "--log", LOG, "--gap", gap).returncode == 2, "taken as a gap")


def check_hot(program, folder):
    """A pile near fire is not opened at once, and gets nothing dry; one at 165 °F is turned and wetted."""
    log = folder / "hot.csv"
    log.write_text("time,core degF\n2027-06-10,170\n2027-06-11,179.9\n", encoding="utf-8")
    hot = words(program, "--log", log)
    check("hot", "smoldering" not in hot and "turn it today" in hot, hot)
    log.write_text("time,core degF\n2027-06-10,170\n2027-06-11,180\n", encoding="utf-8")
    near_fire = words(program, "--log", log)
    check("near fire", "running hose" in near_fire and "urn it today" not in near_fire, near_fire)
    path = folder / "yard.toml"
    path.write_text(CLIPPINGS + pile(), encoding="utf-8")
    noticed = answer(program, path, "--log", log)["noticed"][0]
    check("near fire", noticed["symptom"] == "too-hot" and noticed["fix"] == [], noticed)
    check("hand cooler", "It is too hot" in hot and "scald" in hot, "no word on scalding")


def felt(*readings):
    return BALANCED + MOIST + "".join(f'[[reading]]\ndate = 2027-{day}\ncore = "{core}"\n' for day, core in readings)


def check_near_fire_lately(program, folder):
    """What was near fire two days ago is no pile to leave alone, whatever it reads or feels like since."""
    path = folder / "yard.toml"
    for later in ("120 degF", "warm"):
        path.write_text(felt(("06-20", "183 degF"), ("06-22", later)), encoding="utf-8")
        text = words(program, path)
        check(f"near fire, then {later}", "running hose" in text and "It is w" not in text, text)
        path.write_text(felt(("06-20", "183 degF"), ("06-24", later)), encoding="utf-8")
        text = words(program, path)
        check(f"near fire, long past, then {later}", "running hose" not in text and "It is w" in text, text)
    path.write_text(LEAVES + pile(), encoding="utf-8")
    def causes_of_cold(*options):
        found = answer(program, path, "--noticed", "will-not-heat", *options)["noticed"][0]
        return [found["likely_cause"], *(other["cause"] for other in found["other_causes"])]
    alone = causes_of_cold()
    for symptom, ruled_out in (("ammonia-smell", "too few greens for the browns"), ("soggy", "too dry to rot")):
        check(f"{symptom} rules out", ruled_out in alone and ruled_out not in causes_of_cold("--noticed", symptom), alone)
    path.write_text(felt(("06-20", "183 degF")), encoding="utf-8")
    found = answer(program, path, "--noticed", "will-not-heat")["noticed"]
    check("fire first", [one["symptom"] for one in found][0] == "too-hot", found)


def check_felt(program, folder):
    """What to do where only a hand was put in."""
    path = folder / "yard.toml"
    for readings, expected, symptom in (
            ([("06-02", "cold")], "too early to tell", None),
            ([("06-02", "cold"), ("06-05", "cold")], "too early to tell", None),
            ([("06-02", "cold"), ("06-06", "cold")], "It will not heat", "will-not-heat"),
            ([("06-02", "hot"), ("06-06", "cold")], "It has cooled", None),
            ([("06-02", "125 degF"), ("06-06", "cold")], "It has cooled", None),
            ([("06-06", "warm")], "Turn it", None),
            ([("06-06", "hot")], "leave it while it is hot", None)):
        path.write_text(felt(*readings), encoding="utf-8")
        text = words(program, path)
        check(f"felt {readings}", expected in text, text)
        found = [one["symptom"] for one in answer(program, path)["noticed"]]
        check(f"felt {readings}", found == ([symptom] if symptom else []), found)


def check_newest(program, folder):
    """What was felt after all that was measured is what it does now; a watering noted makes it no longer dry; a wrong place is told."""
    path = folder / "yard.toml"
    path.write_text(BALANCED + MOIST + '[[reading]]\ndate = 2027-06-04\ncore = "128 degF"\n[[reading]]\ndate = 2027-06-23\ncore = "Cold"\n')
    shown = run(program, path).stdout
    check("newest", "It is working" not in shown and "Jun 23, cold" in shown, shown)
    log = folder / "watered.csv"
    log.write_text("time,core degF,event\n2027-06-04,60,\n2027-06-12,62,watered\n", encoding="utf-8")
    path.write_text(LEAVES + pile(), encoding="utf-8")
    watered = answer(program, path, "--log", log)["noticed"][0]
    check("watered", "too dry" not in watered["likely_cause"] and watered["water_to_add_kg"] == 0, watered)
    result = run(program, log)
    check("a log for a yard", result.returncode == 2 and "--log" in result.stderr, result.stderr)
    path.write_text('[[reading]]\ncore = "128 degF"\n', encoding="utf-8")
    result = run(program, path)
    check("undated", result.returncode == 2 and "date" in result.stderr, result.stderr)
    path.write_text('[[reading]]\ndate = 2027-06-04\ncore = "390 degF"\n', encoding="utf-8")
    result = run(program, path)
    check("390 degF", result.returncode == 2 and "yard.toml:3:8" in result.stderr, result.stderr)


def daily(temperatures, turned=()):
    """A log in °F, a reading each morning from November 1 on, turned on some days."""
    return HEAD + "".join(f"{datetime.date(2026, 11, 1) + datetime.timedelta(days=day)}T08:00,{degrees},{'turned' if day in turned else ''}\n"
                          for day, degrees in enumerate(temperatures))


# What the pile did: a log, what the screen says of it, what it must not say.
SHAPES = [
    ("hot once", daily([60, 100, 130, 140, 140, 138, 120, 110, 90, 80, 70, 65, 60, 60, 60, 60]),
     ["It has cooled. Turn it once more.", "104 °F or more from Nov 3 to Nov 8, 140 °F at most", "below 104 °F since Nov 9"], ["again, from"]),
    ("hot six days, turned, hot three days more", daily([60, 140, 142, 145, 141, 140, 140, 141, 140, 139, 100, 90, 85], [7]),
     ["turned on Nov 8: it stayed hot until Nov 10, up to 140 °F, then fell to 85 °F", "104 °F or more from Nov 2 to Nov 10, 145 °F at most"],
     ["went on cooling"]),
    ("hot six days, turned and cool, hot three days more", daily([60, 140, 142, 145, 141, 140, 138, 98, 130, 138, 139, 100, 90, 85], [7]),
     ["104 °F or more from Nov 2 to Nov 7, 145 °F at most", "104 °F or more from Nov 9 to Nov 11, 139 °F at most",
      "turned on Nov 8: it warmed again, from 98 °F to 139 °F"], ["went on cooling"]),
    ("several spells, turned between", daily([60, 140, 140, 120, 100, 130, 135, 120, 95, 90, 115, 120, 100, 90, 80, 75, 72], [4, 9]),
     ["it warmed again, from 100 °F to 135 °F", "it warmed again, from 90 °F to 120 °F", "104 °F or more from Nov 11 to Nov 12, 120 °F at most"], []),
    ("rising still", daily([60, 68, 76, 82, 88, 94, 99]), ["It is warming: leave it, and go on measuring."], ["It will not heat", "too early"]),
    ("cooling", daily([140, 138, 130, 120, 112, 108]), ["It is slowing. Turn it now"], ["It is working"]),
    ("never hot", daily([60, 61, 62, 63, 64, 65, 66]), ["It will not heat.", "Too dry to rot."], ["104 °F or more", "has cooled", "It did heat"]),
    ("hot again after weeks", daily([60, 140, 140, 110, 90, 80, 75] + 12 * [70] + [76, 85, 95, 106]),
     ["It is working: leave it until it warms no further.", "104 °F or more only on Nov 23: 106 °F"], ["slowing", "has cooled"]),
    ("warming again after weeks", daily([60, 140, 140, 110, 90, 80, 75] + 12 * [70] + [76, 85, 95]),
     ["It is warming again: leave it, and go on measuring."], ["has cooled"]),
    ("one odd reading", daily([60, 62, 61, 165, 62, 63, 61, 60, 61]),
     ["Was 165 °F on Nov 4 misread?", "It will not heat."], ["too hot", "has fallen below", "above 160 °F", "Hottest 165"]),
    ("one odd low reading", daily([140, 141, 142, 60, 141, 140]), ["Was 60 °F on Nov 4 misread?", "It is working", "from Nov 1 to Nov 6"], []),
    ("an odd last reading", daily([140, 141, 142, 141, 60]), ["Was the last reading taken in its middle? It is 81 °F below"], ["has fallen below"]),
    ("hardly warmed", daily([60, 140, 140, 110, 100, 99, 102, 103, 103, 100, 98, 97, 97], [5]),
     ["turned on Nov 6: it hardly warmed, 103 °F at most in the week after"], ["went on cooling"]),
]


def check_shapes(program, folder):
    """What the screen says that a pile did is what its log shows."""
    log = folder / "shape.csv"
    for name, text, expected, wrong in SHAPES:
        log.write_text(text, encoding="utf-8")
        shown = words(program, "--log", log, "--why", "--today", text.splitlines()[-1][:10])
        for part in expected:
            check(name, part in shown, f"{part!r} is not in {shown}")
        for part in wrong:
            check(name, part not in shown, f"{part!r} is in {shown}")


def check_days_in_a_row(program, folder):
    """A missed day is told where it broke a stretch, with what bridges it; who does not ask for days in a row is named as it was read."""
    log = folder / "missed.csv"
    hot = daily([60] + 20 * [140] + [60], [2, 5, 8, 11, 14]).splitlines()
    log.write_text("\n".join(hot) + "\n", encoding="utf-8")
    met = words(program, "--log", log, "--why")
    check("in a row", "windrow (131 °F for 15 days, 5 turnings). Met" in met, met)
    check("in a row", "By 21 CFR 112.54, compost on produce farms (as quoted elsewhere), the 15 days need not be consecutive." in met, met)
    log.write_text("\n".join(hot[:10] + hot[11:]) + "\n", encoding="utf-8")
    broken = words(program, "--log", log, "--why")
    check("a missed day", 'a day was missed: if it stayed hot then, --gap "50 h" counts across it, 19 days' in broken, broken)
    bridged = words(program, "--log", log, "--why", "--gap", "50 h")
    check("a missed day", "windrow (131 °F for 15 days, 5 turnings). Met" in bridged and "--gap" not in bridged, bridged)
    log.write_text(daily([60, 61, 62]), encoding="utf-8")
    check("never hot", "112.54" not in words(program, "--log", log, "--why"), "days in a row of a pile that was never hot")


BUILT = pile().replace("2027-06-01", "2026-11-07")


def asked(program, folder, yard, *options):
    path = folder / "yard.toml"
    path.write_text(yard, encoding="utf-8")
    return words(program, path, *options), answer(program, path, *options)


def check_dates(program, folder):
    """Dates that can hardly be right are asked about; what was read before the pile was built is not reckoned with."""
    early = '[[reading]]\ndate = 2026-10-03\ncore = "170 degF"\n'
    today = ("--today", "2026-11-20")
    question = "The first reading, Oct 3, is before the pile was built on Nov 7: is one of the two dates wrong? It is left out."
    shown, found = asked(program, folder, BUILT + early + '[[reading]]\ndate = 2026-11-10\ncore = "128 degF"\n', *today)
    check("before it was built", question in shown and "Latest 128 °F" in shown and "170" not in shown and "too hot" not in shown, shown)
    check("before it was built", found["questions"] == [question] and found["observations"][0]["value"] < 54.0, found)
    shown, found = asked(program, folder, BUILT + early, *today)
    check("all before it was built", question in shown and "That leaves no reading of this pile." in shown and found["observations"] == [], shown)
    shown, _ = asked(program, folder, BUILT + 2 * early.replace("10-03", "10-05") + early.replace("2026-10-03", "2025-12-30"), *today)
    check("three before", "The first 3 readings, Dec 30, 2025 to Oct 5, are before the pile was built on Nov 7, 2026: is one of the dates wrong? They are left out." in shown, shown)
    plan = " ".join(subprocess.run([program, "plan", folder / "yard.toml", *today], capture_output=True, text=True, timeout=60).stdout.split())
    check("a plan", "The first 3 readings" in plan, plan)
    log = folder / "early.csv"
    log.write_text(HEAD + "2026-11-06,170,turned\n2026-11-07,60,\n2026-11-08,120,\n", encoding="utf-8")
    shown, found = asked(program, folder, BUILT, "--log", log, *today)
    check("a log of before", "The first reading, Nov 6, is before the pile was built on Nov 7" in shown and "170" not in shown, shown)
    log.write_text(HEAD + "2026-11-07,60,\n2026-11-08,120,\n", encoding="utf-8")
    shown, found = asked(program, folder, BUILT, "--log", log, *today)
    check("a log from the day it was built", found["questions"] == [], found["questions"])
    shown, _ = asked(program, folder, BUILT, "--log", log, "--today", "2026-11-07")
    check("after today", "The last reading, Nov 8, is after today, Nov 7: is its date wrong?" in shown and "Latest 120 °F on Nov 8" in shown, shown)
    shown, _ = asked(program, folder, BUILT + '[[reading]]\ndate = 2027-11-10\ncore = "hot"\n[[reading]]\ndate = 2027-11-11\ncore = "hot"\n', *today)
    check("after today, by hand", "The last 2 readings, Nov 10, 2027 to Nov 11, 2027, are after today, Nov 20, 2026: are their dates wrong?" in shown, shown)
    sign = '[[noticed]]\nsymptom = "ammonia"\ndate = 2026-10-03\n'
    shown, found = asked(program, folder, BUILT + sign, *today)
    check("a sign of before", "Noticed on Oct 3, before the pile was built on Nov 7: it smells of ammonia." in shown and found["noticed"] == [], shown)
    shown, found = asked(program, folder, BUILT + sign.replace("2026-10-03", "2026-11-21"), *today)
    check("a sign of tomorrow", "Noticed on Nov 21, after today, Nov 20: it smells of ammonia. Is its date wrong?" in shown and len(found["noticed"]) == 1, shown)
    shown, found = asked(program, folder, BUILT + sign.replace("ammonia", "smoke"), *today)
    check("smoke is told whatever its date", found["smokes"] is True and "fire service" in shown, shown)
    shown, found = asked(program, folder, BUILT + sign.replace("2026-10-03", "2026-11-20"), *today)
    check("a sign of today", found["questions"] == [], found["questions"])
    shown, found = asked(program, folder, BUILT + '[[reading]]\ndate = 2026-11-10\ncore = "n/a"\n[[reading]]\ndate = 2026-11-11\ncore = "120 degF"\n', *today)
    check("no reading", found["observations"][0]["time"].startswith("2026-11-11") and found["questions"] == [], found)


def check_as_people_write(program, folder):
    """What was taken for certain of a log is said on the screen."""
    log = folder / "people.csv"
    log.write_text("Date,Time,Temp (F)\n11/7/26,8:00 AM,60\n11/13/26,8:00 PM,130\n", encoding="utf-8")
    shown = words(program, "--log", log)
    check("US dates", "The dates of the log are read as month/day/year: 11/13/26 is Nov 13." in shown and "Latest 130 °F on Nov 13" in shown, shown)
    log.write_text("\ufeffdate;core (°C)\r\n7.11.2026;20,5\r\n13.11.2026;54,5\r\n", encoding="utf-8")
    shown = words(program, "--log", log)
    check("a spreadsheet", "read as day/month/year: 13.11.2026 is Nov 13." in shown and "Latest 130 °F on Nov 13" in shown, shown)
    log.write_text("date,core degC\n2026-11-07,60\n2026-11-08,118\n", encoding="utf-8")
    shown = words(program, "--log", log)
    check("°F under °C", "Is the log in °F? No pile gets to 118 °C, as it reads on Nov 8." in shown, shown)
    log.write_text("date,core degF\n" + "".join(f"2026-11-{day:02d},{degrees}\n" for day, degrees in enumerate((15, 25, 38, 52, 60, 62, 61, 60, 58), 1)), encoding="utf-8")
    shown = words(program, "--log", log)
    check("°C under °F", "Is the log in °C? It goes from 25 °F to 52 °F within days" in shown, shown)


def check_own_readings(program, folder):
    yard = BALANCED + MOIST + '[climate]\nlike = "cool"\n' + "".join(
        f"[[reading]]\ndate = 2027-06-{day:02d}\ncore = \"{core}\"\n" for day, core in ((4, "136 degF"), (2, "133 degF"), (3, "135 degF"),
                                                                                      (5, "134 degF"), (9, "warm")))
    path = folder / "yard.toml"
    path.write_text(yard, encoding="utf-8")
    found = answer(program, path)
    by_id = {rule["id"]: rule for rule in found["rules"]}
    check("own readings", by_id["further-reduction-in-vessel"]["met"] is True, by_id)
    check("own readings", by_id["further-reduction-in-vessel"]["longest_hours"] == 72.0, by_id)
    text = run(program, path).stdout
    check("own readings", "Jun 9, warm" in text, text)
    path.write_text(BALANCED + MOIST + '[[reading]]\ndate = 2027-06-02\ncore = "cold"\n', encoding="utf-8")
    found = answer(program, path)
    check("by hand", found["rules"] == [], "a hand meets rules")


def check_correction(program, folder):
    """A log that the program's own forecast gives: the factor is near 1."""
    yard = folder / "yard.toml"
    yard.write_text(BALANCED + MOIST + '[climate]\nlike = "cool"\n', encoding="utf-8")
    result = subprocess.run([program, "forecast", str(yard), "--json"], capture_output=True, text=True, timeout=120)
    core = json.loads(result.stdout)["core_degc"]
    log = folder / "log.csv"
    log.write_text("time,core degC\n" + "".join(
        f"2027-06-{day + 1:02d}T12:00,{0.5 * (core[day] + core[day + 1]):.1f}\n" for day in range(25)), encoding="utf-8")
    found = answer(program, yard, "--log", log)["forecast_correction"]
    check("correction", found and abs(found["rate_factor"] - 1.0) < 0.05, found)


def check_long_log(program, folder):
    """A log of very many rows is read in seconds, though the pile was turned at each: all readings gone through for each turning would
    take minutes. The sanitizers take some ten times as long as the program."""
    first = datetime.datetime(2026, 11, 7)
    log = folder / "long.csv"
    log.write_text("time,core degF,event\n" + "".join(
        f"{first + datetime.timedelta(minutes=5 * row):%Y-%m-%dT%H:%M},{90 + row % 40},turned\n" for row in range(250_000)), encoding="utf-8")
    limited = subprocess.run([program, "readings", "--log", str(log)], capture_output=True, timeout=300,
                             preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (60, 60)))
    check("a long log", limited.returncode == 0, f"exit {limited.returncode} within 60 s")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        check_broken(program, folder)
        check_json(program)
        check_symptoms(program, folder)
        check_watering(program, folder)
        check_against_the_cause(program, folder)
        check_sour(program, folder)
        check_signs_together(program, folder)
        check_stale(program, folder)
        check_drum(program, folder)
        check_names(program)
        check_kept_browns(program, folder)
        check_hot(program, folder)
        check_near_fire_lately(program, folder)
        check_felt(program, folder)
        check_newest(program, folder)
        check_shapes(program, folder)
        check_days_in_a_row(program, folder)
        check_dates(program, folder)
        check_as_people_write(program, folder)
        check_own_readings(program, folder)
        check_correction(program, folder)
        check_long_log(program, folder)
    print(f"{checks} checks, {len(failures)} failures")
    for failure in failures[:30]:
        print(failure)
    return 1 if failures else 0


sys.exit(main())
