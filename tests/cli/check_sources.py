"""How the figures used are known: counted a second time from the tables, and held against the head of `materials --sources`.

usage: check_sources.py PROGRAM
"""
import collections
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import tomllib

MATERIALS = pathlib.Path(__file__).resolve().parents[2] / "materials"
OF_A_COMPOST = "moisture_wet_basis bulk_density carbon_to_nitrogen organic_matter_dry_basis nitrogen_dry_basis phosphate_dry_basis potash_dry_basis".split()
MARKS = "seen secondary memory judged own".split()

failures = []


def equal(what, found, expected):
    if found != expected:
        failures.append(f"{what}: {found} is not {expected}")


def table(name):
    with open(MATERIALS / f"{name}s.toml", "rb") as file:
        return tomllib.load(file)[name]


def first(row, key):
    """The reading that is used, if it has a typical figure; one alone stands without brackets."""
    readings = row.get(key) or []
    reading = readings[0] if isinstance(readings, list) and readings else readings
    return reading if isinstance(reading, dict) and "typical" in reading else None


def used_of_feedstock(row):
    moisture, carbon, ratio, nitrogen = (first(row, key) for key in ("moisture_wet_basis", "carbon_dry_basis", "carbon_to_nitrogen", "nitrogen_dry_basis"))
    if not moisture or (carbon, ratio, nitrogen).count(None) > 1:
        return []  # of no use in a mix
    used = [moisture, carbon, ratio, first(row, "volatile_solids_dry_basis"), first(row, "keeps")]
    used += [nitrogen] if not (carbon and ratio) else []
    used += [first(row["bulk_density"], packing) for packing in row.get("bulk_density", {})]
    used += row.get("degradable", {}).values()
    return list(filter(None, used))


def count():
    used = [reading for row in table("feedstock") for reading in used_of_feedstock(row)]
    used += [reading for row in table("compost") for key in OF_A_COMPOST if (reading := first(row, key))]
    marks = collections.Counter(reading["evidence"] for reading in used)
    return marks, sum("range_evidence" in reading for reading in used)


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())

    def sources(*options):
        result = subprocess.run([program, "materials", "--sources", *options], capture_output=True, text=True, timeout=60)
        equal(f"materials --sources {options}", (result.returncode, result.stderr), (0, ""))
        return result.stdout

    marks, ranges = count()
    every = sum(marks.values())
    found = json.loads(sources("--json"))["used_figures"]
    equal("JSON", found, {**{mark: marks[mark] for mark in MARKS}, "ranges_not_read": ranges})

    head = " ".join(sources().split("\n\n")[0].split())
    equal("figures in the line", [int(figure) for figure in re.findall(r"\d+", head)],
          [every, *(round(100 * marks[mark] / every) for mark in MARKS[:4]), ranges])
    equal("begins with", head[:3], "Of ")

    # A figure of one's own is counted as one's own, in place of the one it replaces.
    with tempfile.TemporaryDirectory() as folder:
        own = pathlib.Path(folder, "own.toml")
        own.write_text('[[feedstock]]\nid = "mine"\nmoisture_wet_basis = "50 %"\ncarbon_dry_basis = "45 %"\ncarbon_to_nitrogen = "30:1"\nbulk_density = "400 lb/yd3"\n')
        found = json.loads(sources("--json", "--materials", str(own)))["used_figures"]
        equal("with four figures of one's own", found, {**{mark: marks[mark] for mark in MARKS}, "own": 4, "ranges_not_read": ranges})
        equal("their share on the screen", f"{round(400 / (every + 4))} % are your own." in " ".join(sources("--materials", str(own)).split()), True)

    print("\n".join(failures))
    print(f"{every} figures used, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
