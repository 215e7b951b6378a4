#!/usr/bin/env python3
"""Makes the seeds of each fuzz target, and its words, of what stands in the repository already.

    make_seeds.py FOLDER [TIMES]    FOLDER/TARGET/* and FOLDER/TARGET.dict, the same each time; so many times as many of those invented at random
"""
import datetime
import json
import pathlib
import random
import re
import sys
import tomllib

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "long"))
from random_yards import feedstock_rows, random_yard  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parents[2]
TIMES = int(sys.argv[2]) if len(sys.argv) > 2 else 1
SCRIPTS = sorted((ROOT / "tests/cli").glob("*.py"))
UNIT_TESTS = sorted((ROOT / "tests").glob("*/*.[ch]pp"))


def read(path):
    return path.read_text(encoding="utf-8")


def typed():
    """Question and answer, as people type them."""
    rows = [line.split("\t") for line in read(ROOT / "tests/data/typed.tsv").splitlines() if line and not line.startswith("#")]
    return [(row[0], row[1]) for row in rows]


def texts_in_tests(pattern):
    """Texts of several lines that hold a pattern, of the checks of the command and the unit tests."""
    texts = [text for script in SCRIPTS for text in re.findall(r'"""(.*?)"""', read(script), re.S)]
    texts += [text for test in UNIT_TESTS for text in re.findall(r'R"\w*\((.*?)\)\w*"', read(test), re.S)]
    yield from (text.lstrip("\n") for text in texts if re.search(pattern, text))


def strings_in(path):
    return [text.encode().decode("unicode_escape", "ignore").encode("latin-1", "ignore").decode("utf-8", "ignore")
            for text in re.findall(r'"((?:[^"\\\n]|\\.)*)"', read(path))]


def with_letters(letters, texts, count):
    chance = random.Random(1)
    return [letter + text for letter in letters for text in chance.sample(texts, min(count, len(texts)))]


def amounts():
    tests = [ROOT / "tests/unit" / name for name in ("units_text_test.cpp", "amount_test.cpp")]
    texts = sorted({text for test in tests for text in strings_in(test) if 0 < len(text) < 40})
    return with_letters("abcdefghijklmnopqrstu", texts, 40)


def typed_texts():
    return with_letters("abcdefghijklmnopqrst", sorted({answer for _, answer in typed()}), 40)


def yards():
    yield from (read(path) for path in sorted((ROOT / "examples").glob("*.toml")) + sorted((ROOT / "tests/data").glob("*.toml")))
    invented = random.Random(5)
    rows = feedstock_rows()
    yield from (random_yard(invented, rows) for _ in range(4 * TIMES))
    yield from texts_in_tests(r"\[\[?(supply|lawn|load|pile|maturity|topdressing|reading)")


def forecasts():
    winter = '[climate]\nlike = "cold"\n'
    for text in yards():
        yield text if "[climate]" in text else text + "\n" + winter


def rows_of(table):
    return re.split(r"\n(?=\[\[)", read(ROOT / "materials" / table))


def own_tables():
    yield read(ROOT / "examples/lab-report.toml")
    for table in ("feedstocks.toml", "composts.toml", "containers.toml", "symptoms.toml", "climates.toml", "cautions.toml", "keep_out.toml", "yield.toml",
                  "rough.toml", "report_lines.toml", "criteria.toml", "nutrients.toml", "order_sheet.toml", "calendar.toml"):
        yield from (row for row in rows_of(table)[1:6] if len(row) < 3000)
    yield from texts_in_tests(r"\[\[feedstock")


def logs():
    yield read(ROOT / "examples/quarter-acre-log.csv")
    yield from texts_in_tests(r"(?i)^(time|date)\b.*(degF|degC|°)")
    yield "date,core degF,event,added\n2026-10-25,54,,2 buckets leaves; 1 gal water\n2026-10-26,90,turned,\n2026-10-27,131,turned and watered,grass 3 buckets\n"
    yield "Date and time;Core (°C);air °C\n25/10/2026 8:00 AM;12,5;3\n26/10/2026 8:00 PM;55,1;4\n27/10/2026 8:00;n/a;4\n"


def reports():
    tables = tomllib.loads(read(ROOT / "materials/criteria.toml"))
    lines = tomllib.loads(read(ROOT / "materials/report_lines.toml"))
    values = ["12 degC", "95 %", "<5 mg/kg", "4", "no", "passed", "failed", "3:1", "ND", "1.2 dS/m", "very stable", "<3 MPN/4 g", "1474 lb/yd3", "10 mm", "5-7"]
    names = [row.get("id", row.get("name", "")) for table in (tables, lines) for rows in table.values() if isinstance(rows, list)
             for row in rows if isinstance(row, dict)]
    chance = random.Random(2)
    for _ in range(20 * TIMES):
        yield "".join(f"{chance.choice(names)}={chance.choice(values)}\n" for _ in range(chance.randint(1, 12)))
    for name in names:
        yield "".join(f"{name}={value}\n" for value in values)


def days():
    first = datetime.date(2025, 1, 1)
    for head, row in (("date,air degF", "{},50"), ("date,air degC,rain mm", "{},9.5,2"), ("day;mean °C", "{};9,5")):
        yield head + "\n" + "".join(row.format(first + datetime.timedelta(days=day)) + "\n" for day in range(365))
        yield head + "\n" + "".join(row.format(first + datetime.timedelta(days=day)) + "\n" for day in range(4))


def answers():
    asked = [question["id"] for question in tomllib.loads(read(ROOT / "materials/questions.toml"))["question"]]
    given = {}
    for question, answer in typed():
        given.setdefault({"people": "scraps", "have": "other", "date": "built"}.get(question, question), []).append(answer)
    return asked, given


def interviews():
    asked, given = answers()
    chance = random.Random(3)
    for _ in range(15 * TIMES):
        lines = [chance.choice(given.get(question, ["", "yes", "no", "?", "3"])) for question in asked]
        yield "".join(line + "\n" for line in lines if chance.random() < 0.95)


def rosters():
    asked, given = answers()
    chance = random.Random(4)
    for _ in range(6 * TIMES):
        columns = [column for column in ["household", "name"] + asked if chance.random() < 0.9]
        rows = [columns]
        for number in range(1, chance.randint(2, 5)):
            fixed = {"household": [str(number)], "name": ["Ann Example"]}
            rows.append([chance.choice(fixed.get(column) or given.get(column, ["", "yes", "no", "?", "3"])) for column in columns])
        yield "".join(",".join('"' + field.replace('"', '""') + '"' if re.search('[",]', field) else field for field in row) + "\n" for row in rows)


def square(east, north, side):
    return [[east, north], [east + side, north], [east + side, north + side], [east, north + side], [east, north]]


def maps():
    lawn, bed = square(-93.2, 44.9, 0.001), square(-93.1996, 44.9004, 0.0002)
    shapes = [{"type": "Polygon", "coordinates": [lawn, bed]}, {"type": "MultiPolygon", "coordinates": [[lawn, bed], [square(-93.1, 44.9, 0.001)]]}]
    shapes.append({"type": "GeometryCollection", "geometries": shapes[:1]})
    features = [{"type": "Feature", "properties": {"name": "front"}, "geometry": shapes[0]},
                {"type": "Feature", "properties": {"name": "bed", "cut_out": True}, "geometry": {"type": "Polygon", "coordinates": [bed]}},
                {"type": "Feature", "properties": None, "geometry": {"type": "Point", "coordinates": [-93.2, 44.9]}}]
    yield from (json.dumps(shape) for shape in shapes + features[:1] + [{"type": "FeatureCollection", "features": features}])
    fixes = "".join(f'<trkpt lat="{north}" lon="{east}"><ele>270</ele></trkpt>' for east, north in lawn)
    yield f'<?xml version="1.0"?>\n<gpx version="1.1"><trk><name>back</name><trkseg>{fixes}</trkseg></trk></gpx>\n'
    yield f'<gpx><rte>{fixes.replace("trkpt", "rtept")}</rte></gpx>'


def keys_of_toml():
    """Keys and words that the library reads."""
    words = set()
    for path in sorted((ROOT / "lib/heapwright").glob("*/*.cpp")):
        words |= set(re.findall(r'"([a-z][a-z_]{2,30})"', read(path)))
    return words


def ids():
    return {match for path in (ROOT / "materials").glob("*.toml") for match in re.findall(r'^(?:id|name) = "([^"\\]{2,40})"', read(path), re.M)}


def units():
    return {text for text in re.findall(r'"([^"\\ ]{1,12})"', read(ROOT / "lib/heapwright/units/text.cpp"))}


def words_people_use():
    return {word for _, answer in typed() for word in answer.split()}


TARGETS = {
    "amounts": (amounts, units), "typed": (typed_texts, words_people_use), "yard": (yards, lambda: keys_of_toml() | ids() | units()),
    "forecast": (forecasts, lambda: keys_of_toml() | ids()), "materials": (own_tables, lambda: keys_of_toml() | units()),
    "readings": (logs, lambda: {"degF", "degC", "turned", "watered", "added", "event", "2026-10-25T08:00", "+01:00", "Z", " AM"}),
    "maturity": (reports, lambda: ids() | units()), "climate": (days, lambda: {"degF", "degC", "rain in", "rain mm", "02-29", "2024-02-29"}),
    "interview": (interviews, words_people_use), "roster": (rosters, words_people_use),
    "map": (maps, lambda: {'"type":', '"Polygon"', '"coordinates":', '"GeometryCollection"', '"geometries":', '"Feature"', '"geometry":', '"properties":',
                           '"cut_out":true', "<trkpt", "<trkseg>", "<rte>", "<!--", "<![CDATA[", "-93.2", "1e308", "[[", "]]"}),
}


def main():
    folder = pathlib.Path(sys.argv[1])
    for target, (seeds, words) in TARGETS.items():
        own = folder / target
        own.mkdir(parents=True, exist_ok=True)
        for number, seed in enumerate(seeds()):
            (own / f"seed-{number:04}").write_text(seed, encoding="utf-8", errors="ignore")
        lines = sorted('"' + word.encode().hex(" ").replace(" ", "") + '"' for word in words() if word)
        escaped = ['"' + "".join(f"\\x{byte}" for byte in re.findall("..", line.strip('"'))) + '"' for line in lines]
        (folder / f"{target}.dict").write_text("\n".join(escaped) + "\n", encoding="ascii")


if __name__ == "__main__":
    main()
