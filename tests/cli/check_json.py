"""The keys of --json are an interface: others read them. They may be added to, never renamed.

usage: check_json.py PROGRAM
"""
import json
import math
import pathlib
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
MIX = {"mass_kg", "dry_mass_kg", "water_kg", "carbon_kg", "nitrogen_kg", "carbon_to_nitrogen", "moisture_fraction", "volume_m3",
       "bulk_density_kg_m3", "air_space_fraction", "ranges", "feedstocks"}
RECIPE = {"status", "distance_from_aim", "missing_m3", "mix", "water_to_add_kg", "amounts", "everything_in", "held_back_by", "whole_containers", "proportion",
          "pair", "bags_to_a_catcher"}
PAIR = {"first", "second", "proportions", "share_of_volume_where_carbon_to_nitrogen_is_right", "share_of_volume_where_moisture_is_right",
        "share_of_volume_where_both_are_right", "share_of_volume_where_both_are_right_with_water", "at_carbon_to_nitrogen_aim",
        "at_moisture_aim"}
PAIR_MIX = {"share_of_volume", "share_of_mass", "carbon_to_nitrogen", "moisture_fraction", "water_wanted_kg_m3"}
STEP = {"what", "formula", "symbols", "numbers", "terms", "result", "source"}
TOPDRESS = {"area_m2", "depth_m", "volume_m3", "volume_with_allowance_m3", "covers_m2", "mass_kg", "per_year_m3", "orders", "best_order", "phone_line",
            "wheelbarrow_loads", "nutrients_kg_per_100m2", "nitrogen_credit", "salts", "analysis_for_lawns", "soil_test", "spreading"}
NUTRIENTS = {"nitrogen_total", "nitrogen_available", "p2o5", "k2o", "ranges", "ties_up_nitrogen"}
PILE = {"shape", "volume_m3", "surface_m2", "footprint_m2", "count", "fits", "tall_enough_to_heat", "notes", "mix_volume_m3", "piles_needed",
        "filled_height_m", "settled_height_m", "takes_m3", "left_over_m3"} | {"assumptions", "measure_first", "working", "cautions"}
SEASON = {"months", "hold_back", "unused_m3", "balanced"}
PLAN = {"yard", "season", "recipe", "pile", "forecast", "readings", "maturity", "topdress", "supply", "calendar"}
MATURITY = {"rating", "pile_at_work", "stability", "maturity", "tests", "checks", "turf", "next", "stability_tests_disagree", "maturity_tests_disagree", "cured_by",
            "plants_decide", "rating_reasons", "report_lines"}
EVERY_ANSWER = {"assumptions", "measure_first", "working", "cautions"}

failures = []


def has(where, found, wanted):
    missing = wanted - set(found)
    if missing:
        failures.append(f"{where} lacks {sorted(missing)}")


def every_number(value):
    if isinstance(value, dict):
        for inner in value.values():
            yield from every_number(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from every_number(inner)
    elif isinstance(value, float):
        yield value


def answer(program, *arguments):
    result = subprocess.run([program, *arguments, "--json"], cwd=ROOT, capture_output=True, text=True, timeout=60)
    found = json.loads(result.stdout)
    if not all(math.isfinite(number) for number in every_number(found)):
        failures.append(f"{arguments}: a number is not finite")
    has(str(arguments), found, EVERY_ANSWER)
    for assumption in found.get("assumptions", []):
        has("an assumption", assumption, {"what", "value", "evidence", "could_change_answer"})
    for caution in found.get("cautions", []):
        has("a caution", caution, {"id", "text"})
    return found


def check_mix(where, mix):
    has(where, mix, MIX)
    for feedstock in mix["feedstocks"]:
        has(f"{where} feedstocks", feedstock, {"id", "mass_kg", "volume_m3", "share_of_volume"})


def check_recipe(where, recipe):
    has(where, recipe, RECIPE)
    if recipe["mix"]:
        check_mix(f"{where} mix", recipe["mix"])
        has(f"{where} everything_in", recipe["everything_in"], {"mix", "distance_from_aim", "water_to_add_kg"})
    for amount in recipe["amounts"]:
        has(f"{where} amounts", amount, {"id", "mass_kg", "volume_m3", "containers", "left_over_m3"})
    if recipe["pair"]:
        has(f"{where} pair", recipe["pair"], PAIR)
        for mix in recipe["pair"]["proportions"]:
            has(f"{where} proportions", mix, PAIR_MIX | {"first", "second"})
    for held in recipe["held_back_by"]:
        has(f"{where} held_back_by", held, {"limit", "feedstock", "what_would_help"})


def check_maturity(where, maturity):
    has(where, maturity, MATURITY)
    for test in maturity["tests"]:
        has(f"{where} tests", test, {"test", "value", "unit", "told", "rating", "at_least", "source", "evidence", "class", "date", "superseded", "stands_beside"})
    for line in maturity["report_lines"]:
        has(f"{where} report_lines", line, {"name", "line", "test", "written", "value", "unit", "told", "standing", "what", "limit", "source", "evidence", "date"})
        if line["limit"]:
            has(f"{where} report_lines limit", line["limit"], {"written", "value", "unit", "for_whom", "source", "evidence"})
    for reason in maturity["rating_reasons"]:
        has(f"{where} rating_reasons", reason, {"id", "text", "source", "evidence"})
    for check in maturity["checks"]:
        has(f"{where} checks", check, {"check", "result", "date", "how", "source", "evidence"})
    for limit in maturity["turf"]:
        has(f"{where} turf", limit, {"property", "value", "limit", "unit", "ok", "specification", "source", "evidence", "respiratory_quotient"})
        has(f"{where} turf limit", limit["limit"], {"low", "high"})
        if (limit["ok"] is None) != (limit["value"] is None):
            failures.append(f"{where} turf: {limit['property']} is judged without a value, or not judged with one")
    if not maturity["next"] or not all(isinstance(step, str) and step for step in maturity["next"]):
        failures.append(f"{where} says nothing of what to do next")


def check_today(program):
    """Everything counts from the day that is asked for: fresh leaves, that keep two weeks, are there in November, and in March none."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder, "yard.toml")
        path.write_text('[[supply]]\nfeedstock = "leaves-fall"\namount = "12 leaf-bag"\nstorable = false\nwhen = { months = ["Oct", "Nov"] }\n')
        found = {day: answer(program, "recipe", str(path), "--today", day)["not_today"] for day in ("2026-11-28", "2027-03-01")}
    shares = [round(waiting["share_on_hand"], 3) for waits in found.values() for waiting in waits]
    if shares != [round(14 / 61, 3), 0.0]:
        failures.append(f"on hand by the day: {shares}")


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    yard = "examples/quarter-acre.toml"
    check_mix("mix", answer(program, "mix", yard)["mix"])
    for arguments in (("recipe", yard), ("recipe", "--have", "leaves=20 bags"), ("recipe", "--have", "leaves"), ("recipe",),
                      ("recipe", "--have", "leaves=4 bags", "--fill", "2 yd3")):
        check_recipe(str(arguments), answer(program, *arguments))
    pair = answer(program, "recipe", "--have", "leaves", "--have", "grass")["pair"]
    has("pair", pair or {}, PAIR)
    for command in (("mix", yard), ("recipe", yard), ("topdress", yard)):
        for step in answer(program, *command, "--show-working")["working"]:
            has(f"{command} step", step, STEP)
            has(f"{command} result", step["result"] or {}, {"symbol", "value", "unit"} if step["numbers"] else set())
            for term in step["terms"]:
                has(f"{command} term", term, {"symbol", "what", "value", "unit", "source"})
    has("topdress", answer(program, "topdress", yard), TOPDRESS | {"working"})
    has("topdress --have", answer(program, "topdress", "--have", "2 yd3"), TOPDRESS)
    plan = answer(program, "plan", yard)
    has("plan", plan, PLAN)
    check_recipe("plan recipe", plan["recipe"])
    has("topdress nutrients", answer(program, "topdress", yard)["nutrients_kg_per_100m2"], NUTRIENTS)
    has("topdress spreading", answer(program, "topdress", yard)["spreading"], {"hold", "phosphorus", "compost_too_salty", "frozen_or_snow", "out_of_season", "near_water", "steep"})
    has("plan topdress", plan["topdress"], TOPDRESS)
    has("season", answer(program, "season", yard), SEASON)
    has("plan season", plan["season"], SEASON)
    for month in plan["season"]["months"]:
        has("a month", month, {"month", "feedstocks", "mix", "water_kg"})
        for feedstock in month["feedstocks"]:
            has("of a month", feedstock, {"id", "in_m3", "used_m3", "stored_m3", "unused_m3"})
    for held in plan["season"]["hold_back"]:
        has("held back", held, {"id", "volume_m3"})
    for chore in plan["calendar"]:
        has("a chore", chore, {"from", "to", "chore", "why"})
    has("plan supply", plan["supply"], {"own_compost_m3", "needed_m3", "to_buy_m3"})
    has("plan own compost", plan["supply"]["own_compost_m3"], {"low", "likely", "high"})
    tumbler = ("pile", "--shape", "tumbler", "--volume", "60 gal")
    for arguments in (("pile", yard), tumbler, (*tumbler, "--have", "leaves=20 bags"), ("pile", "--have", "leaves=20 bags"), ("pile",)):
        has(str(arguments), answer(program, *arguments), PILE)
    has("plan pile", plan["pile"], PILE)
    if plan["pile"] != answer(program, "pile", yard):
        failures.append("plan tells another pile than pile")
    for arguments in ((), ("tests/cli/golden/lab-report.toml",), ("tests/cli/golden/tests-disagree.toml",), ("tests/cli/golden/whole-report.toml",), ("--check", "looks=failed"),
                      ("--test", "self-heating=12 degC"), ("--test", "C:N=30:1")):
        check_maturity(str(arguments), answer(program, "maturity", *arguments))
    rated = answer(program, "maturity", "--test", "self-heating=22 degF", "--test", "emergence=95 %")
    found = [rated["rating"], *((test["test"], round(test["value"], 2), test["unit"], test["rating"], test["class"]) for test in rated["tests"])]
    if found != ["mature", ("self-heating", 12.22, "degC", "mature", "IV"), ("emergence", 0.95, "1", "very mature", None)]:
        failures.append(f"maturity of two tests: {found}")
    check_today(program)
    print("\n".join(failures))
    print(f"JSON of 29 commands, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
