#!/usr/bin/env python3
"""Holds the material tables against a second, independent copy of the published figures.

    check_feedstocks.py FOLDER_OF_MATERIALS

The copy is published_feedstocks.tsv beside this file. Checked are: that both copies agree, that a
row can be mixed and is consistent in itself, ranges, sources and marks of evidence, what must be there,
names, and densities. Each failure is a line; the exit status is 1 where there is any.
"""
import collections
import csv
import itertools
import pathlib
import re
import sys
import tomllib
import typing
from decimal import Decimal

EXTRACT = pathlib.Path(__file__).with_name("published_feedstocks.tsv")

KEYS = {
    "cn": "carbon_to_nitrogen",
    "n": "nitrogen_dry_basis",
    "moist": "moisture_wet_basis",
    "bd": "bulk_density",
    "c": "carbon_dry_basis",
    "vs": "volatile_solids_dry_basis",
    "ash": "ash_dry_basis",
}
COMPOST_KEYS = {**KEYS, "vs": "organic_matter_dry_basis"}
COMPOST_PROPERTIES = ("moisture_wet_basis", "bulk_density", "carbon_to_nitrogen", "organic_matter_dry_basis", "nitrogen_dry_basis", "phosphate_dry_basis", "potash_dry_basis")

PUBLISHED = ("seen", "secondary")
EVIDENCE = PUBLISHED + ("memory", "judged")
RANGE_EVIDENCE = ("memory", "judged")
OWN_SOURCES = {"memory": ("memory",), "judged": ("judged", "common-practice", "calibrated")}

FIXED_FEEDSTOCKS = ("leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds", "straw", "urea", "blood-meal")
FIXED_COMPOSTS = ("yard-trimmings",)
FIXED_CONTAINERS = {"leaf-bag": "30 gal", "bucket": "5 gal"}
WELL_KNOWN = ("leaves-fall", "grass-clippings", "kitchen-scraps")
LEAST_COMPLETE = 30

# Of a source that the extract covers, but read on another page.
FROM_ELSEWHERE = {("bd", "epa-2016", ("768 lb/yd3", None, None))}

KG_PER_M3 = {"kg/m3": Decimal(1), "lb/yd3": Decimal("0.45359237") / Decimal("0.764554857984")}
OTHER_UNITS = ("%", ":1", "pH", "dS/m", "mgC/gOM/day", "gal", "ft3", "yd3", "L", "bushel", "lb", "lb/1000ft2", "in", "mm", "ft", "degF", "days")

# Names by which the remembered handbooks go; no remembered figure may be laid at their door.
HANDBOOK_NAMES = ("on-farm composting", "farm composting handbook", "nraes", "rynk", "solid waste management")


class Report:
    """Counts what is checked and prints what fails."""

    def __init__(self):
        self.checks = 0
        self.failures = 0

    def check(self, right, message):
        self.checks += 1
        if not right:
            self.failures += 1
            print(f"FAILED  {message}")
        return right

    @staticmethod
    def note(message):
        print(f"note    {message}")


def number_and_unit(text):
    """"48.5:1" -> (48.5, ":1"); decimals stay as printed."""
    match = re.fullmatch(r"(-?\d+(?:\.\d+)?)\s*(\S.*)", text)
    if not match:
        raise SystemExit(f"cannot read the value \"{text}\"")
    number, unit = Decimal(match[1]), match[2]
    if unit not in KG_PER_M3 and unit not in OTHER_UNITS:
        raise SystemExit(f"unknown unit in \"{text}\"")
    return number, unit


def number(text):
    return None if text is None else number_and_unit(text)[0]


def kg_per_m3(text):
    value, unit = number_and_unit(text)
    return value * KG_PER_M3[unit]


def comparable(value):
    """A figure as a number: with a unit as texts have it, or plain as the pile model's parameters are."""
    if isinstance(value, (int, float)):
        return Decimal(repr(value))
    return kg_per_m3(value) if number_and_unit(value)[1] in KG_PER_M3 else number(value)


def half_last_place(value):
    return Decimal((0, (5,), value.as_tuple().exponent - 1))


def triple(reading):
    return tuple(reading.get(key) for key in ("typical", "low", "high"))


def published(reading):
    """What of a reading its source says: not a range that we judged."""
    typical, low, high = triple(reading)
    return (typical, None, None) if reading.get("range_evidence") == "judged" else (typical, low, high)


def shown(values):
    return " / ".join("-" if value is None else str(value) for value in values)


def packings(row):
    density = row.get("bulk_density", {})
    return density if isinstance(density, dict) else {"as-is": density}


def readings_of(row, key):
    """All readings of a property; of the bulk density, those of all packings."""
    if key == "bulk_density":
        return list(itertools.chain.from_iterable(packings(row).values()))
    return row.get(key, [])


def used(row, key):
    """Typical value of the first reading, as a text, or None."""
    readings = row.get(key, [])
    return readings[0].get("typical") if readings else None


def used_density(row):
    usual = row.get("usual_packing") or next(iter(packings(row)), None)
    readings = packings(row).get(usual, [])
    return readings[0].get("typical") if readings else None


def is_complete(row):
    carbon = used(row, "carbon_dry_basis")
    nitrogen = used(row, "carbon_to_nitrogen") or used(row, "nitrogen_dry_basis")
    return all((used(row, "moisture_wet_basis"), carbon, nitrogen, used_density(row)))


def all_readings(value, where):
    """Every reading below a value: (where it stands, reading)."""
    if isinstance(value, list):
        for item in value:
            yield from all_readings(item, where)
    elif isinstance(value, dict):
        if "evidence" in value:
            yield where, value
        for key, item in value.items():
            yield from all_readings(item, f"{where} {key}".strip())


# --- a. two entries agree -------------------------------------------------------------------------------------------------------


def lines_of_extract():
    with open(EXTRACT, encoding="utf-8") as file:
        return list(csv.DictReader((line for line in file if not line.startswith("#")), delimiter="\t"))


class Figure(typing.NamedTuple):
    """One figure of a line of the extract, and the reading that it must be."""

    table: str
    row: str
    name: str
    values: tuple
    evidence: str
    source: str
    line: dict
    remembered_range: bool = False

    def __str__(self):
        return f"{self.row} {self.name}: {shown(self.values)} ({self.evidence}, {self.source}; {self.line['published']})"

    def readings(self, tables):
        return readings_of(tables[self.table].get(self.row, {}), (COMPOST_KEYS if self.table == "compost" else KEYS)[self.name])

    def has_values_of(self, reading):
        return all(same_value(copied, text, self.name) for copied, text in zip(self.values, published(reading)))

    def is_reading(self, reading):
        known_as = (reading["evidence"], reading["source"], reading.get("range_evidence") == "memory")
        return self.has_values_of(reading) and (self.evidence, self.source, self.remembered_range) == known_as


def sources_of(line):
    """Source of a line, and that of its ash where it is another."""
    ident, _, of_ash = line["source_id"].partition(", ash ")
    return ident, of_ash or ident


def source_of(line, name, evidence):
    if evidence in OWN_SOURCES:
        return evidence
    ident, of_ash = sources_of(line)
    return of_ash if name == "ash" else ident


def figures_of_line(line):
    table, _, row = line["id"].rpartition(":")
    table = table or "feedstock"
    for name in KEYS:
        evidence = line[f"{name}_evidence"]
        typical, low, high = (line[f"{name}_{part}"] or None for part in ("typ", "low", "high"))
        if not (typical or low or high):
            continue
        if evidence == "typ secondary, range memory":
            yield Figure(table, row, name, (typical, low, high), "secondary", source_of(line, name, "secondary"), line, remembered_range=True)
            continue
        parts = [((typical, low, high), evidence)]
        if evidence == "typ memory, range secondary":
            parts = [((typical, low, high), "memory"), ((None, low, high), "secondary")]
        elif typical and ";" in typical:
            parts = [((each.strip(), None, None), evidence) for each in typical.split(";")]
        for values, mark in parts:
            yield Figure(table, row, name, values, mark, source_of(line, name, mark), line)
    for item in filter(None, (item.strip() for item in line["more"].split(";"))):
        name, row, values, evidence, source = item.split(" ")
        yield Figure("feedstock", row, name, tuple(part or None for part in values.split("/")), evidence, source, line)


def same_value(copied, text, name):
    if copied is None or text is None:
        return copied is None and text is None
    copied = Decimal(copied)
    value, unit = number_and_unit(text)
    if name == "bd" and unit != "lb/yd3":
        return abs(value * KG_PER_M3[unit] / KG_PER_M3["lb/yd3"] - copied) <= half_last_place(copied)
    return value == copied


def check_two_entries(report, tables):
    lines = lines_of_extract()
    for line in lines:
        for ident in filter(None, sources_of(line)):
            report.check(ident in tables["source"], f"two entries: {line['published']}: \"{ident}\" is no source")
    figures = [figure for line in lines for figure in figures_of_line(line)]
    matched = set()
    for figure in figures:
        readings = figure.readings(tables)
        right = [reading for reading in readings if figure.is_reading(reading)]
        alike = [f"{reading['evidence']}, {reading['source']}" for reading in readings if figure.has_values_of(reading)]
        there = f"stands there as {' and as '.join(alike)}" if alike else f"no such reading; there are {'; '.join(shown(triple(reading)) for reading in readings) or 'none'}"
        report.check(right, f"two entries: {figure}: {there}")
        matched.update(id(reading) for reading in right)
        if "outlier" in figure.line["published"]:
            report.check(all(reading.get("outlier") for reading in right), f"two entries: {figure}: not marked as an outlier")

    # The other way round: a reading of a source that the extract covers must be one of its figures, in this row or in one it was taken over from.
    covered_sources = {figure.source for figure in figures}
    covered_rows = {figure.row for figure in figures if figure.table == "feedstock"}
    beside = 0
    for ident, row in tables["feedstock"].items():
        for name, key in KEYS.items():
            for reading in readings_of(row, key):
                if id(reading) in matched or reading["evidence"] == "judged":
                    continue
                if any(figure.name == name and figure.is_reading(reading) for figure in figures):
                    matched.add(id(reading))
                elif (name, reading["source"], published(reading)) in FROM_ELSEWHERE or reading["source"] not in covered_sources or ident not in covered_rows:
                    beside += 1
                else:
                    report.check(False, f"two entries: {ident} {name}: {shown(triple(reading))} ({reading['evidence']}, {reading['source']}) is no figure of the extract")
    report.note(f"{len(figures)} figures of the extract, {len(matched)} readings held against them; {beside} published or remembered readings of feedstocks come from elsewhere and have one entry only")


# --- b. complete and consistent -------------------------------------------------------------------------------------------------


def check_carbon_and_nitrogen(report, ident, row):
    carbon, ratio = number(used(row, "carbon_dry_basis")), number(used(row, "carbon_to_nitrogen"))
    if carbon is None:
        return
    if row["class"] != "mineral":
        report.check(20 <= carbon <= 60, f"carbon: {ident}: {carbon} % of dry matter is outside 20-60 %")
    published = [reading for reading in row.get("nitrogen_dry_basis", []) if reading["evidence"] != "judged" and not reading.get("outlier")]
    values = [number(text) for reading in published for text in triple(reading) if text]
    if ratio is None or not values:
        return
    low, high = min(values), max(values)
    nitrogen = carbon / ratio
    if low <= nitrogen <= high:
        report.check(True, "")
        return
    least = (carbon - half_last_place(carbon)) / (ratio + half_last_place(ratio))
    most = (carbon + half_last_place(carbon)) / (ratio - half_last_place(ratio))
    within_rounding = low == high and least <= high + half_last_place(high) and most >= low - half_last_place(low)
    report.check(within_rounding, f"nitrogen: {ident}: {carbon} % carbon / {ratio} is {nitrogen:.3f} % nitrogen, published are {low}-{high} %")
    if within_rounding:
        report.note(f"nitrogen: {ident}: {carbon} % carbon / {ratio} is {nitrogen:.3f} %, the one published value {low} % but for rounding")


# --- c. ranges ------------------------------------------------------------------------------------------------------------------


def check_order(report, where, reading):
    typical = next((reading[key] for key in ("typical", "volume", "value") if key in reading), None)
    figures = [figure for figure in (reading.get("low"), typical, reading.get("high")) if figure is not None]
    in_order = [comparable(figure) for figure in figures]
    units = {number_and_unit(figure)[1] for figure in figures if isinstance(figure, str)}
    report.check(len(units) <= 1, f"ranges: {where}: several units in one reading: {', '.join(sorted(units))}")
    report.check(in_order == sorted(in_order), f"ranges: {where}: low, typical and high out of order: {shown(triple(reading))}")


def first_readings_of_feedstock(row):
    keys = ["moisture_wet_basis", "carbon_dry_basis", "carbon_to_nitrogen", "volatile_solids_dry_basis"]
    if not row.get("carbon_to_nitrogen") and is_complete(row):
        keys.append("nitrogen_dry_basis")
    for key in keys:
        if row.get(key):
            yield key, row[key][0]
    for packing, readings in packings(row).items():
        yield f"bulk_density {packing}", readings[0]
    yield from row.get("degradable", {}).items()


def first_readings_of_compost(row):
    for key in COMPOST_PROPERTIES:
        if row.get(key):
            yield key, row[key][0]


def check_first_is_whole(report, where, reading):
    report.check(all(triple(reading)), f"ranges: {where}: the reading that is used wants typical, low and high, has {shown(triple(reading))}")


# --- d. sources and evidence ----------------------------------------------------------------------------------------------------


def telling_words(sources):
    """Names, words of titles and years that would pass for a citation of a source: word -> its id."""
    telling = {}
    for ident, source in sources.items():
        if source["kind"] == "own":
            continue
        telling |= {word: ident for word in re.findall(r"\b[A-Z][A-Za-z]{3,}", source["title"])}
        telling |= {year: ident for year in {str(source.get("year", "")), *re.findall(r"\b(?:18|19|20)\d\d\b", source["title"])} if year}
    return telling


def check_evidence(report, where, reading, sources, wants_note=True):
    evidence, source, note = reading.get("evidence"), reading.get("source"), reading.get("note", "")
    report.check(evidence in EVIDENCE, f"evidence: {where}: \"{evidence}\" is no mark of evidence")
    report.check(source in sources, f"sources: {where}: \"{source}\" is no source")
    own = OWN_SOURCES.get(evidence)
    if own:
        report.check(source in own, f"evidence: {where}: a figure that is {evidence} has the source {' or '.join(own)}, not {source}")
        if wants_note:
            report.check(note.strip(), f"evidence: {where}: a figure that is {evidence} needs a note")
    else:
        report.check(source in sources and sources[source]["kind"] != "own", f"evidence: {where}: a figure that is {evidence} needs a publication, not {source}")
    check_range_evidence(report, where, reading)


def check_range_evidence(report, where, reading):
    """A range of our own stands about a published figure only, and is whole."""
    range_evidence = reading.get("range_evidence")
    if range_evidence is None:
        return
    report.check(range_evidence in RANGE_EVIDENCE, f"range_evidence: {where}: \"{range_evidence}\" is none of {' and '.join(RANGE_EVIDENCE)}")
    report.check(reading.get("evidence") in PUBLISHED and all(triple(reading)), f"range_evidence: {where}: stands about a published figure, with low and high")
    report.check(range_evidence != "judged" or reading.get("note", "").strip(), f"range_evidence: {where}: a judged range needs a note")


def check_no_borrowed_name(report, where, reading, sources, telling):
    """A remembered figure names no publication; a judged one only points to the id of a source it was worked out from."""
    evidence = reading.get("evidence")
    if evidence not in OWN_SOURCES:
        return
    words = f"{reading.get('what', '')} {reading.get('note', '')}"
    pointers = [ident for ident, source in sources.items() if source["kind"] != "own" and re.search(rf"(?<![\w-]){re.escape(ident)}(?![\w-])", words)]
    if evidence == "memory":
        report.check(not pointers, f"names: {where}: a remembered figure points to {', '.join(pointers)}")
    for pointer in pointers:
        words = words.replace(pointer, "")
    borrowed = [f"{word} ({telling[word]})" for word in re.findall(r"\b(?:[A-Z]\w{3,}|\d{4})\b", words) if word in telling]
    borrowed += [name for name in HANDBOOK_NAMES if name in words.lower()]
    report.check(not borrowed, f"names: {where}: the words of a figure that is {evidence} are those of a publication: {', '.join(borrowed)}")


def check_pointers(report, where, text, known):
    """An id in brackets, as in "(tree-trimmings)", must be one."""
    for pointer in re.findall(r"\(([a-z][a-z0-9]*(?:-[a-z0-9]+)+)\)", text):
        report.check(pointer in known, f"sources: {where}: \"{pointer}\" in a note is neither a source nor a row")


# --- e. what must be there ------------------------------------------------------------------------------------------------------


def check_presence(report, tables):
    feedstocks, composts, containers = tables["feedstock"], tables["compost"], tables["container"]
    complete = [ident for ident, row in feedstocks.items() if is_complete(row)]
    report.check(len(complete) >= LEAST_COMPLETE, f"presence: {len(complete)} feedstocks can be mixed, {LEAST_COMPLETE} are wanted")
    for ident in FIXED_FEEDSTOCKS:
        report.check(ident in complete, f"presence: {ident} is missing or cannot be mixed")
    for ident in FIXED_COMPOSTS:
        report.check(ident in composts, f"presence: compost {ident} is missing")
    for ident, volume in FIXED_CONTAINERS.items():
        report.check(ident in containers and containers[ident]["volume"] == volume, f"presence: container {ident} of {volume} is missing")
    for ident in WELL_KNOWN:
        for key in ("carbon_to_nitrogen", "bulk_density"):
            sources = {reading["source"] for reading in readings_of(feedstocks.get(ident, {}), key) if reading["evidence"] in PUBLISHED and not reading.get("outlier")}
            report.check(len(sources) >= 2, f"presence: {ident} {key}: published by {len(sources)} sources, 2 are wanted")
    report.note(f"{len(complete)} of {len(feedstocks)} feedstocks can be mixed; not: {', '.join(ident for ident in feedstocks if ident not in complete)}")


# --- f. names -------------------------------------------------------------------------------------------------------------------


def plain(name):
    return re.sub(r"[\s\-._]", "", name.lower()).removesuffix("s")


def check_names(report, table, rows):
    owners = collections.defaultdict(list)
    for ident, row in rows.items():
        for name in {plain(name): name for name in (ident, row["name"], *row.get("also", []))}.items():
            owners[name[0]].append(f"{ident} (\"{name[1]}\")")
    for name, rows_of_name in owners.items():
        report.check(len(rows_of_name) == 1, f"names: {table}: \"{name}\" stands for {' and '.join(rows_of_name)}")


# --- g. density -----------------------------------------------------------------------------------------------------------------


def check_density(report, ident, row):
    moisture, carbon = number(used(row, "moisture_wet_basis")), number(used(row, "carbon_dry_basis"))
    organic = number(used(row, "volatile_solids_dry_basis"))
    if organic is None and carbon is not None:
        organic = min(Decimal(100), carbon * Decimal("1.8"))
    if moisture is None or organic is None:
        return
    water, organic = moisture / 100, organic / 100
    particle = 1 / (organic / 1500 + (1 - organic) / 2650)
    most = 1 / ((1 - water) / particle + water / 1000)
    for packing, readings in packings(row).items():
        for reading in readings:
            for text in filter(None, triple(reading)):
                report.check(kg_per_m3(text) <= most, f"density: {ident} {packing}: {text} is {kg_per_m3(text):.0f} kg/m3, its solids and water without air {most:.0f} kg/m3")


# --- h. criteria of maturity ----------------------------------------------------------------------------------------------------


def rows_of_criteria(rest):
    """All that must say whose it is: (where it stands, row)."""
    for test in rest["test"]:
        for key in ("scale", "classes"):
            for row in test.get(key, []):
                yield f"test {test['id']} {key}", row
    for turf in rest["turf"]:
        for limit in turf["limits"]:
            yield f"turf {turf['property']}", limit
    for table in ("check", "step"):
        for row in rest[table]:
            yield f"{table} {row['id']}", row


def check_criteria(report, rest):
    """That the marks are right is checked with all other readings; here, that none is missing, and that a rating has a scale."""
    for where, row in rows_of_criteria(rest):
        report.check("source" in row and "evidence" in row, f"criteria: {where}: does not say whose it is")
    for test in rest["test"]:
        report.check(bool(test.get("scale")) == (test["kind"] != "property"), f"criteria: {test['id']}: a {test['kind']} with{'' if test.get('scale') else 'out'} a scale")
    for turf in rest["turf"]:
        of_one = [limit["whose"] for limit in turf["limits"]]
        report.check(len(of_one) == len(set(of_one)), f"criteria: turf {turf['property']}: one specification stands twice")


def read_tables(folder):
    tables = {name: {} for name in ("feedstock", "compost", "container", "source", "caution", "keep_out", "sheet_line", "chore")}
    rest = {}
    for path in sorted(folder.glob("*.toml")):
        with open(path, "rb") as file:
            document = tomllib.load(file)
        for name, rows in document.items():
            if name not in tables:
                rest[name] = rows
                continue
            for row in rows:
                if row["id"] in tables[name]:
                    raise SystemExit(f"{path.name}: {name} {row['id']} stands twice")
                tables[name][row["id"]] = row
    return tables, rest


def main(arguments):
    if len(arguments) != 1:
        raise SystemExit(__doc__.strip())
    tables, rest = read_tables(pathlib.Path(arguments[0]))
    sources = tables["source"]
    telling = telling_words(sources)
    known = set(sources) | set(tables["feedstock"]) | set(tables["compost"])
    report = Report()

    check_two_entries(report, tables)
    for ident, row in tables["feedstock"].items():
        check_carbon_and_nitrogen(report, ident, row)
        check_density(report, ident, row)
        for key, reading in first_readings_of_feedstock(row):
            check_first_is_whole(report, f"{ident} {key}", reading)
    for ident, row in tables["compost"].items():
        for key, reading in first_readings_of_compost(row):
            check_first_is_whole(report, f"{ident} {key}", reading)

    tables_of_readings = {**{name: tables[name] for name in ("feedstock", "compost", "container", "caution", "keep_out", "sheet_line", "chore")}, "": rest}
    for name, rows in tables_of_readings.items():
        for where, reading in all_readings(rows, name):
            check_order(report, where, reading)
            check_evidence(report, where, reading, sources, wants_note=name not in ("caution", "keep_out", "sheet_line", "chore"))
            check_no_borrowed_name(report, where, reading, sources, telling)
            check_pointers(report, where, reading.get("note", ""), known)
    for name in ("feedstock", "compost", "container", "keep_out"):
        check_names(report, name, tables[name])
        for ident, row in tables[name].items():
            check_pointers(report, f"{name} {ident}", row.get("note", ""), known)
    check_presence(report, tables)
    check_criteria(report, rest)

    print(f"{report.checks} checks, {report.failures} failures")
    return 1 if report.failures else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
