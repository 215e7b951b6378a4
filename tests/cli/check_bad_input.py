"""Files and options that cannot be used: exit 2, where and what and what would be right, nothing on standard output.

usage: check_bad_input.py PROGRAM
"""
import datetime
import json
import os
import pathlib
import re
import resource
import subprocess
import sys
import tempfile
import time

SUPPLY = '[[supply]]\nfeedstock = "leaves-fall"\namount = "6 leaf-bag"\n'


def supply(line):
    return SUPPLY + line + "\n"


def feedstock(lines):
    return '[[feedstock]]\nid = "x"\n' + lines + "\n"


def dies_at(line):
    pest = "" if line.startswith("pest") else 'pest = "germs"\n'
    return f'[[dies_at]]\nid = "mine"\n{pest}{line}\nat_least = "60 degC"\nfound = "they died"\nsource = "judged"\nevidence = "judged"\n'


WINDROW = '[pile]\nshape = "windrow"\nlength = "40 ft"\nwidth = "8 ft"\nheight = "4 ft"\n'

# name, text of the yard file, what stderr must match (position, what is wrong, what would be right)
YARDS = [
    ("unknown key at the top", 'titel = "a"\n', r"yard.toml:1:9: titel: is not a key.*did you mean title\?"),
    ("unknown key in a supply", supply('packings = "loose"'), r"yard.toml:4:12: packings: .*did you mean packing\?"),
    ("unknown key far from any", supply('zzzzzzzz = "loose"'), r"yard.toml:4:12: zzzzzzzz: .*its keys are amount"),
    ("wrong type", SUPPLY.replace('"6 leaf-bag"', "true"), r"yard.toml:3:10: amount: is true or false where a text is wanted"),
    ("a list for a text", SUPPLY.replace('"6 leaf-bag"', '["6 leaf-bag"]'), r"yard.toml:3:10: amount: is a list"),
    ("bare number", SUPPLY.replace('"6 leaf-bag"', "6"), r'yard.toml:3:10: amount: "6" has no unit.*6 leaf-bag'),
    ("bare number in quotes", SUPPLY.replace('"6 leaf-bag"', '"6"'), r'yard.toml:3:10: amount: "6" has no unit'),
    ("wrong dimension", SUPPLY.replace("6 leaf-bag", "6 ft2"), r'yard.toml:3:10: amount: "6 ft2" is an area, not a volume.*yd3'),
    ("unknown unit", SUPPLY.replace("6 leaf-bag", "6 leaf-bgas"), r'yard.toml:3:10: .*unknown unit.*"leaf-bag"\?'),
    ("percentage above 100", supply('most_of_volume = "162 %"'), r'yard.toml:4:18: most_of_volume: "162 %" is outside 0–100 %'),
    ("fraction without percent", supply('most_of_volume = "0.3"'), r'most_of_volume: "0.3" has no unit.*55 %'),
    ("negative", SUPPLY.replace("6 leaf-bag", "-6 leaf-bag"), r'yard.toml:3:10: amount: "-6 leaf-bag" is negative.*zero or more'),
    ("nan in a text", SUPPLY.replace("6 leaf-bag", "nan leaf-bag"), r'amount: "nan leaf-bag" does not begin with a number'),
    ("inf in a text", SUPPLY.replace("6 leaf-bag", "inf yd3"), r'amount: "inf yd3" does not begin with a number'),
    ("nan as a number", supply("price = nan"), r"yard.toml:4:9: price: is not a number that can be used"),
    ("inf as a number", supply("price = inf"), r"yard.toml:4:9: price: is not a number that can be used"),
    ("1e400 in a text", SUPPLY.replace("6 leaf-bag", "1e400 yd3"), r'amount: "1e400 yd3" is beyond what this tool works with'),
    ("1e400 as a number", supply("price = 1e400"), r"yard.toml:4:"),
    ("ambiguous ton", SUPPLY.replace("6 leaf-bag", "2 ton"), r"ambiguous.*short_ton \(2000 lb\) or t \(1000 kg\)"),
    ("imperial gallon", SUPPLY.replace("6 leaf-bag", "2 imp gal"), r"imperial gallons"),
    ("comma for a point", SUPPLY.replace("6 leaf-bag", "2,5 yd3"), r'comma.*decimal point, "2.5"'),
    ("unknown feedstock", SUPPLY.replace("leaves-fall", "leafs-fal"), r'yard.toml:2:13: feedstock: "leafs-fal" is no known feedstock.*did you mean "leaves-fall"\?'),
    ("feedstock that cannot be mixed", SUPPLY.replace("leaves-fall", "leaves-green"),
     r'feedstock: .*cannot be mixed: we have no figures of its.*Say "leafy prunings".*Or write figures of your own for --materials'),
    ("what hardly rots", SUPPLY.replace("leaves-fall", "walnut shells"), r'"nut-shells" cannot be mixed.*Let a handful ride along'),
    ("sod", SUPPLY.replace("leaves-fall", "sod"), r'"sod" stays out of the pile: It is mostly soil.*Stack it upside down'),
    ("ivy", SUPPLY.replace("leaves-fall", "English ivy"), r'"English ivy" stays out of the pile.*dry it in the sun.*say "shrub trimmings"'),
    ("unknown packing", supply('packing = "squashed"'), r'yard.toml:4:11: packing: "squashed" is no packing of leaves-fall.*it has bagged'),
    ("missing feedstock", '[[supply]]\namount = "1 yd3"\n', r"yard.toml:1:1: supply: feedstock is missing.*write feedstock"),
    ("missing amount", '[[supply]]\nfeedstock = "leaves-fall"\n', r"yard.toml:1:1: supply: amount is missing"),
    ("unlimited with an amount", supply('use = "unlimited"'), r"amount: an unlimited supply has no amount"),
    ("unknown word", supply('use = "upto"'), r'yard.toml:4:7: use: "upto" is not known here.*did you mean "up-to"\?'),
    ("month 13 by name", supply('when = { months = ["13"] }'), r'months: "13" is no month'),
    ("month 13 in a date", "[pile]\nbuilt = 2026-13-07\n", r"yard.toml:2:\d+: .*not TOML"),
    ("31 February", "[pile]\nbuilt = 2026-02-31\n", r"yard.toml:2:\d+: "),
    ("date in quotes", '[pile]\nshape = "tumbler"\nvolume = "60 gal"\nbuilt = "2026-11-07"\n', r"yard.toml:4:9: built: is a text where a date is wanted.*2026-11-07"),
    ("both kinds of when", supply('when = { months = ["Oct"], every = "week" }'), r"yard.toml:4:8: when: says either months or every"),
    ("a load of no day", '[[load]]\nwater = "1 gal"\n', r"yard.toml:1:1: load: date is missing.*write date = 2026-11-07"),
    ("a load of nothing", "[[load]]\ndate = 2026-11-07\n", r"yard.toml:1:1: load: neither a feedstock nor water went in.*water = "),
    ("a load with a season", '[[load]]\ndate = 2026-11-07\nwater = "1 gal"\nwhen = { every = "week" }\n', r"yard.toml:4:8: when: is not a key of this table"),
    ("a load in a single table", '[load]\ndate = 2026-11-07\n', r"load: is not a list of tables.*\[\[load\]\]"),
    ("a pile that stands in quotes", WINDROW + 'standing = "yes"\n', r"yard.toml:6:12: standing: is a text where true or false is wanted"),
    ("unclosed quote", 'title = "a\n', r"yard.toml:1:\d+: this is not TOML"),
    ("curly quotes", "title = “a”\n", r"yard.toml:1:9: .*use straight quotes"),
    ("duplicate key", 'title = "a"\ntitle = "b"\n', r"yard.toml:2:\d+: this is not TOML"),
    ("supply as a table", '[supply]\nfeedstock = "leaves-fall"\namount = "1 yd3"\n', r"supply: is not a list of tables.*\[\[supply\]\]"),
    ("window out of order", '[targets]\ncarbon_to_nitrogen = { low = "40:1" }\n', r"yard.toml:2:\d+: carbon_to_nitrogen: low, aim and high are out of order"),
    ("ratio as a number", '[targets]\ncarbon_to_nitrogen = { low = 25 }\n', r'low: "25" is not a ratio.*30:1'),
    ("settling beyond one", "[recipe]\nsettling = 1.5\n", r"yard.toml:2:12: settling: .*above 0, at most 1"),
    ("fill and capacity", '[recipe]\nfill = "1 yd3"\ncapacity = "1 yd3"\n', r"capacity: a pile has either"),
    ("no pile at all", '[recipe]\nfill = "0 yd3"\n', r'fill: "0 yd3" is no pile'),
    ("weighing upside down", supply('weighed = { container = "bucket", full = "2 lb", empty = "9 lb" }'), r"weighed: the full container weighs no more"),
    ("bucket of lead", supply('weighed = { container = "bucket", full = "200 lb", empty = "2 lb" }'), r"weighed: the bucketful weighs more than"),
    ("soil wetter than it weighs", '[[supply]]\nfeedstock = "garden-soil"\namount = "2 bucket"\ndried = { wet = "100 g", dry = "10 g" }\n', r"yard.toml:4:9: dried: at 90 % moisture garden soil weighs at most \d+ kg/m3.*weigh a bucketful"),
    ("drying upside down", supply('dried = { wet = "2 g", dry = "10 g" }'), r"dried: the dry weight must be"),
    ("lawn of unknown shape", '[[lawn.zone]]\nshape = "hexagon"\n', r'shape: "hexagon" is not known here.*"rectangle"'),
    ("lawn without a side", '[[lawn.zone]]\nshape = "rectangle"\nlength = "60 ft"\n', r"yard.toml:1:1: .*width is missing"),
    ("no such triangle", '[[lawn.zone]]\nshape = "triangle"\nsides = ["1 ft", "2 ft", "9 ft"]\n', r"sides: no triangle has such sides"),
    ("cut larger than its zone", '[[lawn.zone]]\nname = "f"\nshape = "area"\narea = "10 ft2"\n[[lawn.without]]\nfrom = "f"\nshape = "area"\narea = "20 ft2"\n', r"this is larger than what is left"),
    ("cut from nowhere", '[[lawn.zone]]\nname = "front"\nshape = "area"\narea = "10 ft2"\n[[lawn.without]]\nfrom = "back"\nshape = "area"\narea = "2 ft2"\n', r'from: there is no zone "back".*front'),
    ("two months of rain", '[climate]\nlike = "cool"\nrain = ["3 in", "2 in"]\n', r"yard.toml:3:8: rain: has 2 months.*twelve"),
    ("rain in pounds", '[climate]\nlike = "cool"\nrain = "3 lb"\n', r'yard.toml:3:8: rain: "3 lb" is a weight'),
    ("a flood each month", '[climate]\nlike = "cool"\nrain = "300 in"\n', r'yard.toml:3:8: rain: "300 in" is no month\'s rain.*3 in'),
    ("rain and nothing else", '[climate]\nrain = "3 in"\n', r"yard.toml:1:1: .*nothing of the air's temperature.*coldest_month"),
    ("a bin as light as air", '[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\nweighed = "9 lb"\n', r"yard.toml:6:11: weighed: .*lighter than any pile"),
    ("a bin of lead", '[pile]\nshape = "bin"\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\nweighed = "9000 lb"\n', r"yard.toml:6:11: weighed: .*heavier than any pile"),
    ("eleven months of weather", '[climate]\nmean_air_temperature = ["1 degC"]\n', r"has 1 temperatures.*twelve"),
    ("unknown maturity test", '[[maturity.test]]\ntest = "self-heatng"\nvalue = "12 degC"\n', r'yard.toml:2:8: test: "self-heatng" is no known test.*did you mean "self-heating"\?'),
    ("a rise without a scale", '[[maturity.test]]\ntest = "self-heating"\nvalue = "12"\n', r'yard.toml:3:9: value: "12" has no unit.*"12 degC" or "22 degF"'),
    ("oxygen for carbon dioxide", '[[maturity.test]]\ntest = "co2-respiration"\nvalue = "12 mmolO2/kgOM/h"\n', r"yard.toml:3:9: value: .*is oxygen taken up.*name the test oxygen-uptake"),
    ("a value that is a number", '[[maturity.test]]\ntest = "ph"\nvalue = 7.4\n', r'yard.toml:3:9: value: must stand in quotes.*"7.4"'),
    ("a value that no compost has", '[[maturity.test]]\ntest = "ph"\nvalue = "74"\n', r"yard.toml:3:9: value: .*more or less than any compost has"),
    ("four times the control", '[[maturity.test]]\ntest = "emergence"\nvalue = "400 %"\n', r"yard.toml:3:9: value: .*more or less than any compost has.*from 0 to 200 %"),
    ("a control that failed", '[[maturity.test]]\ntest = "emergence"\ngerminated = "20 of 20"\ncontrol = "5 of 20"\n', r"yard.toml:4:11: control: .20 of 20 against 5 of 20. is more or less.*from 0 to 200 %"),
    ("an endless reading", '[[reading]]\ndate = 2026-11-06\ncore = "inf degF"\n', r'yard.toml:3:8: core: "inf degF" is infinite, which no reading is.*by hand'),
    ("no sprouts in the control", '[[maturity.test]]\ntest = "emergence"\ngerminated = "8 of 10"\ncontrol = "0 of 10"\n', r"yard.toml:4:11: control: nothing came up in the control"),
    ("no number in a test", '[[maturity.test]]\ntest = "ammonium"\nvalue = "nan mg/kg"\n', r'yard.toml:3:9: value: "nan mg/kg" is no number.*leave the line out'),
    ("no number in another line", '[[maturity.test]]\ntest = "lead"\nvalue = "NaN mg/kg"\n', r'yard.toml:3:9: value: "NaN mg/kg" is no number.*leave the line out'),
    ("an endless test", '[[maturity.test]]\ntest = "ammonium"\nvalue = "inf"\n', r'yard.toml:3:9: value: "inf" is no number'),
    ("an endless line", '[[maturity.test]]\ntest = "lead"\nvalue = "-inf mg/kg"\n', r'yard.toml:3:9: value: "-inf mg/kg" is no number'),
    ("below what is endless", '[[maturity.test]]\ntest = "lead"\nvalue = "<Infinity"\n', r'yard.toml:3:9: value: "<Infinity" is no number'),
    ("no number in a line that nobody knows", '[[maturity.test]]\ntest = "gribble number"\nvalue = "nan"\n', r'yard.toml:3:9: value: "nan" is no number'),
    ("a line beyond all numbers", '[[maturity.test]]\ntest = "lead"\nvalue = "1e400 mg/kg"\n', r'yard.toml:3:9: value: "1e400 mg/kg" is beyond'),
    ("a line without quotes", '[[maturity.test]]\ntest = "lead"\nvalue = 5\n', r'yard.toml:3:9: value: must stand in quotes.*"5"'),
    ("a line without a value", '[[maturity.test]]\ntest = "lead"\n', r"yard.toml:1:1: test: value is missing.*write value"),
    ("a line with an empty value", '[[maturity.test]]\ntest = "lead"\nvalue = " "\n', r"yard.toml:3:9: value: .*empty"),
    ("a line without a name", '[[maturity.test]]\ntest = ""\nvalue = "5 mg/kg"\n', r"yard.toml:2:8: test: .*empty"),
    ("a line of counts", '[[maturity.test]]\ntest = "lead"\ngerminated = "8 of 10"\ncontrol = "9 of 10"\n', r'yard.toml:3:14: germinated: says nothing of "lead"'),
    ("a bound without a unit", '[[maturity.test]]\ntest = "ammonium"\nvalue = "<5"\n', r"yard.toml:3:9: value: .*has no unit.*300 mg/kg"),
    ("a bound that no compost has", '[[maturity.test]]\ntest = "ph"\nvalue = ">74"\n', r"yard.toml:3:9: value: .*more or less than any compost has"),
    ("a test nearer than any line", '[[maturity.test]]\ntest = "amonium nitrogen"\nvalue = "5 mg/kg"\n', r'test: "amonium nitrogen" is no known test.*did you mean "ammonium"\?'),
    ("unknown household check", '[[maturity.check]]\ncheck = "looks-good"\nresult = "passed"\n', r'yard.toml:2:9: check: "looks-good" is not known here'),
    ("temperature without a scale", '[climate]\ncoldest_month = "30"\nwarmest_month = "70 degF"\n', r'coldest_month: "30" has no unit.*degF'),
    ("a year's mean without its swing", '[climate]\nannual_mean = "53 degF"\n', r'yard.toml:1:1: climate: gives only one of the year.s mean and its swing.*swing = "46 degF"'),
    ("a swing without a scale", '[climate]\nannual_mean = "53 degF"\nswing = "46"\n', r'yard.toml:3:9: swing: "46" has no unit.*degF'),
    ("a swing downwards", '[climate]\nannual_mean = "53 degF"\nswing = "-46 degF"\n', r'yard.toml:3:9: swing: "-46 degF" is negative.*zero or more'),
    ("a swing past all weather", '[climate]\nannual_mean = "53 degF"\nswing = "300 degF"\n', r"yard.toml:3:9: swing: makes a month such as there is none"),
    ("a swing as a number", '[climate]\nannual_mean = "53 degF"\nswing = 46\n', r'yard.toml:3:9: swing: "46" has no unit'),
    ("a year's mean misspelt", '[climate]\nanual_mean = "53 degF"\nswing = "46 degF"\n', r"yard.toml:2:14: anual_mean: .*did you mean annual_mean\?"),
    ("weather in two ways", '[climate]\nannual_mean = "53 degF"\nswing = "46 degF"\nlike = "cold"\n', r"yard.toml:1:1: climate: tells the weather in more than one way"),
    ("days in no file", '[climate]\nfile = "nowhere.csv"\n', r"yard.toml:2:8: file: nowhere.csv: there is no such file"),
    ("days in a folder", '[climate]\nfile = "."\n', r"yard.toml:2:8: file: .*this is a folder, not a file.*\.csv"),
    ("a pile without its height", '[pile]\nshape = "cone"\ndiameter = "4 ft"\n', r"yard.toml:1:1: .*height is missing"),
    ("a tumbler of nothing", '[pile]\nshape = "tumbler"\nvolume = "0 gal"\n', r'yard.toml:3:10: volume: "0 gal" is no tumbler'),
    ("half a pile", '[pile]\nshape = "tumbler"\nvolume = "60 gal"\ncount = 1.5\n', r"yard.toml:4:9: count: is no number of piles.*whole number"),
    ("a top wider than the base", WINDROW + 'top_width = "9 ft"\n', r"yard.toml:6:13: top_width: a windrow is no wider at the top"),
    ("a negative top", WINDROW + 'top_width = "-1 ft"\n', r'yard.toml:6:13: top_width: "-1 ft" is negative'),
    ("a bin with a top width", '[pile]\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\ntop_width = "2 ft"\n', r"yard.toml:5:13: top_width: only a windrow has"),
    ("unknown compost", '[topdressing]\ncompost = "yard-trimings"\n', r'compost: "yard-trimings" is no known compost.*did you mean "yard-trimmings"\?'),
    ("an analysis whose densities disagree", '[topdressing]\nanalysis = { moisture_wet_basis = "45 %", bulk_density = "1000 lb/yd3", dry_bulk_density = "600 lb/yd3" }\n',
     r"yard.toml:2:\d+: dry_bulk_density: is 600 lb/yd3, and bulk_density less the water of moisture_wet_basis is 1000 × \(1 − 0.45\) = 550 lb/yd3"),
    ("an analysis as received without its moisture", '[topdressing]\nanalysis = { nitrogen_wet_basis = "0.8 %" }\n',
     r"yard.toml:2:\d+: nitrogen_wet_basis: of the compost as received needs its moisture too"),
    ("phosphate is no phosphorus", '[topdressing]\nanalysis = { phosphate_dry_basis = "1 %" }\n', r"yard.toml:2:\d+: phosphate_dry_basis: is called p2o5_dry_basis"),
    ("potash is no potassium", '[topdressing]\nanalysis = { potash_wet_basis = "1 %" }\n', r"yard.toml:2:\d+: potash_wet_basis: is called k2o_wet_basis"),
    ("more than all of it", '[topdressing]\nanalysis = { nitrogen_dry_basis = "2000000 mg/kg" }\n', r"nitrogen_dry_basis: \"2000000 mg/kg\" is more than all of it"),
    ("an analysis without a basis", '[topdressing]\nanalysis = { nitrogen = "0.8 %" }\n', r"yard.toml:2:\d+: nitrogen: is not a key.*nitrogen_"),
    ("a laboratory's word misspelt", '[soil_test]\nphosphorus = "vrey high"\n', r'yard.toml:2:14: phosphorus: "vrey high" is no laboratory.s word.*did you mean "very high"'),
    ("too deep for a lawn", '[[lawn.zone]]\nshape = "area"\narea = "100 ft2"\n[topdressing]\ndepth = "3/4 in"\n', r"yard.toml:5:9: depth: 0.75 in of compost at once would smother a living lawn.*surface"),
    ("too deep in a zone", '[[lawn.zone]]\nshape = "area"\narea = "100 ft2"\ndepth = "0 in"\n', r"yard.toml:4:9: depth: .*0 in"),
    ("the same month twice", supply('when = { months = ["Oct", "Oct"] }'), r"yard.toml:4:\d+: months: names a month twice"),
    ("keys without end", "a" + ".a" * 200_000 + " = 1\n", r"yard.toml:1:1: tables nested this deep are not read"),
]



def days(names="date,air degF", leave_out=(), instead=()):
    """A year of days as a station writes them; some left out, the rows of some replaced."""
    first = datetime.date(2023, 1, 1)
    rows = [str(first + datetime.timedelta(days=n)) for n in range(365)]
    return "\n".join([names] + [dict(instead).get(row, row + ",50") for row in rows if row not in leave_out]) + "\n"


# name, text of weather/daily.csv, which the yard file names, what stderr must match
DAYS = [
    ("days without names", days("2022-12-31,50"), r"weather/daily.csv:1:1: there are no names above the rows.*date,air degF"),
    ("days without dates", days("day,air degF"), r'weather/daily.csv:1:1: no column is named "date"'),
    ("days without a unit", days("date,air"), r'weather/daily.csv:1:6: air: does not say its unit.*"air degF"'),
    ("days without temperatures", days("date,rain"), r"weather/daily.csv:1:1: no column has temperatures"),
    ("an empty file of days", "", r"weather/daily.csv: the file has no rows"),
    ("a bad number", days(instead=[("2023-02-03", "2023-02-03,5o")]), r'weather/daily.csv:35:12: air degF: "5o" is not a number alone'),
    ("a reading that failed", days(instead=[("2023-02-03", "2023-02-03,-9999")]), r'daily.csv:35:12: air degF: "-9999" is no day.s mean on this earth'),
    ("nan degrees", days(instead=[("2023-02-03", "2023-02-03,nan")]), r'daily.csv:35:12: air degF: "nan" is no reading, and every day wants one'),
    ("a day twice", days(instead=[("2023-02-03", "2023-02-02,50")]), r"daily.csv:35:1: date: 2023-02-02 stands twice"),
    ("a day out of order", days(instead=[("2023-02-03", "2021-02-03,50")]), r"daily.csv:35:1: date: 2021-02-03 stands after 2023-02-02"),
    ("a day in another order", days(instead=[("2023-02-03", "02/03/2023,50")]), r'daily.csv:35:1: date: "02/03/2023" is no date.*2026-11-07'),
    ("a day missing", days(leave_out=["2023-02-03", "2023-02-04", "2023-09-01"]), r"daily.csv:35:1: date: 2023-02-03 is missing before this"),
    ("less than a year", days(leave_out=["2023-12-31"]), r"daily.csv: the days from 2023-01-01 to 2023-12-30 are less than a year"),
    ("a row too short", days(instead=[("2023-02-03", "2023-02-03")]), r"daily.csv:35:1: the row has 1 field where the header has 2"),
    ("an open quotation mark", days(instead=[("2023-02-03", '2023-02-03,"50')]), r"daily.csv:35:12: a quotation mark is opened here and never closed"),
    ("days that are binary", bytes(range(256)) * 8, r"yard.toml:2:8: file: weather/daily.csv: this is not a text file.*\.csv"),
    ("more days than we read", days() + "#" * (1 << 24), r"yard.toml:2:8: file: weather/daily.csv: the file is larger than 16 MiB"),
]

# The same through --materials.
MATERIALS = [
    ("sawdust of 204 % carbon", feedstock('moisture_wet_basis = "42 %"\nnitrogen_dry_basis = "0.43 %"\ncarbon_to_nitrogen = "475:1"'), r"mine.toml:1:1: feedstock: nitrogen 0.43 % × C:N 475 = carbon 204 % of dry matter, outside 20–60 %"),
    ("a third that disagrees", feedstock('carbon_dry_basis = "45 %"\nnitrogen_dry_basis = "2.4 %"\ncarbon_to_nitrogen = "30:1"'), r"mine.toml:5:\d+: carbon_to_nitrogen: carbon 45 % over nitrogen 2.4 % is 18.75:1, not 30:1"),
    ("moisture 162 %", feedstock('moisture_wet_basis = "162 %"'), r'mine.toml:3:22: moisture_wet_basis: "162 %" is outside 0–100 %'),
    ("moisture as a fraction", feedstock("moisture_wet_basis = 0.62"), r'mine.toml:3:22: moisture_wet_basis: "0.62" has no unit'),
    ("duplicate ids", feedstock('carbon_dry_basis = "45 %"') + feedstock('carbon_dry_basis = "45 %"'), r'mine.toml:5:6: id: "x" stands twice'),
    ("heavier than its solids", feedstock('moisture_wet_basis = "50 %"\ncarbon_dry_basis = "45 %"\ncarbon_to_nitrogen = "30:1"\nbulk_density = "3000 lb/yd3"'), r"mine.toml:6:16: bulk_density: as-is: 1780 kg/m3 is more than its own solids"),
    ("out of order", feedstock('moisture_wet_basis = { typical = "50 %", low = "60 %" }'), r"mine.toml:3:22: moisture_wet_basis: low, typical and high are out of order"),
    ("kills no known pest", dies_at('pest = "rats"'), r'mine.toml:3:8: pest: "rats" is not known here.*weed-seeds'),
    ("cooler at most than at least", dies_at('at_most = "55 degC"'), r"mine.toml:4:11: at_most: is below at_least.*swap them"),
    ("for no time", dies_at('length = "0 days"'), r"mine.toml:4:10: length: is no time.*3 days"),
    ("at no heat", dies_at("").replace('at_least = "60 degC"', ""), r"mine.toml:1:.*at_least.*55 degC"),
    ("of no source", dies_at("").replace('source = "judged"', ""), r"mine.toml:1:.*source"),
    ("like nothing", feedstock('like = "gras-clippings"'), r'like: "gras-clippings" is no known feedstock.*did you mean "grass-clippings"\?'),
]

# Accepted: what editors and word processors do to a file.
ACCEPTED = [
    ("byte-order mark", "\ufeff" + SUPPLY),
    ("CRLF", SUPPLY.replace("\n", "\r\n")),
    ("curly inches", SUPPLY + '[[lawn.zone]]\nshape = "rectangle"\nlength = "60′ 6″"\nwidth = "30’"\n'),
    ("zero", SUPPLY + '[[supply]]\nfeedstock = "clippings"\namount = "0 bucket"\n'),
]

OPTIONS = [
    ("a test without a value", ["maturity", "--test", "self-heating"], r'--test: "self-heating" has no "=".*--test "self-heating=12 degC"'),
    ("an unknown test", ["maturity", "--test", "vigr=90 %"], r'--test: "vigr" is no known test.*did you mean "vigor"\?'),
    ("a test with a wrong unit", ["maturity", "--test", "ammonium=300 ppb"], r'--test: "300 ppb" is not a share of dry matter.*300 mg/kg'),
    ("an unknown check", ["maturity", "--check", "sealed-bg=passed"], r'--check: "sealed-bg" is no household check.*did you mean "sealed-bag"\?'),
    ("a check that is neither", ["maturity", "--check", "looks=maybe"], r'--check: "maybe" is no result of a check.*passed, failed'),
    ("unknown command", ["mixx"], r"did you mean mix\?"),
    ("unknown option", ["mix", "--ad", "leaves=1 yd3"], r"did you mean --add\?"),
    ("no file", ["plan"], r"file"),
    ("words without quotes", ["recipe", "--have", "leaves=20", "bags"], r'there is no file bags\s+put words that belong together in quotes'),
    ("one long dash", ["recipe", "\u2014have", "leaves"], r"write two short ones: --have"),
    ("one dash", ["recipe", "-have", "leaves"], r"write two: --have"),
    ("treated of what is not there", ["recipe", "--have", "leaves", "--treated", "hay=yes"], r"--treated: there is no .*hay"),
    ("missing file", ["plan", "nowhere.toml"], r"nowhere.toml: there is no such file"),
    ("folder", ["plan", "/"], r"/: this is a folder"),
    ("nothing to mix", ["mix"], r"nothing to mix.*--add"),
    ("bare amount", ["mix", "--add", "leaves=6"], r'--add: "6" of leaves has no unit'),
    ("no amount", ["mix", "--add", "leaves"], r"--add: how much of leaves-fall\?"),
    ("unknown feedstock", ["mix", "--add", "lleaves=6 bags"], r'--add: "lleaves" is no known feedstock.*did you mean "leaves"'),
    ("two things in one", ["recipe", "--have", "6 bags of leaves and 4 buckets of grass"],
     r'--have: these are 2 things.*--have "6 bags of leaves" --have "4 buckets of grass"'),
    ("an amount that nobody can count", ["mix", "--add", "several bags of leaves"], r'--add: "several bags" does not say how much.*2 buckets of leaves'),
    ("half a unit of area", ["topdress", "--area", "5000 sq"], r'--area: "5000 sq" does not say square what.*5000 ft2'),
    ("sides without a unit", ["topdress", "--area", "60 x 40"], r'--area: "60 x 40" has no unit.*60 ft by 40 ft'),
    ("a scoop of the yard that sells it", ["topdress", "--have", "a scoop"], r"scoops and loads come in many sizes.*1/2 yd3"),
    ("compost by weight", ["topdress", "--have", "20 bags of 40 lb"], r'"800 lb" is a weight.*20 bags of 1 ft3'),
    ("two depths", ["topdress", "--area", "100 ft2", "--depth", "1/4 to 1/2 inch"], r"more than one depth"),
    ("hot ashes", ["readings", "--noticed", "somebody dumped ashes in it"], r"--noticed: hot ashes or coals .*fire service"),
    ("unknown packing", ["mix", "--add", "leaves:tight=6 bags"], r'--add: "tight" is no packing'),
    ("water as a length", ["mix", "--add", "leaves=6 bags", "--water", "2 ft"], r'--water: "2 ft" is a length'),
    ("depth as a weight", ["topdress", "--area", "100 ft2", "--depth", "2 lb"], r'--depth: "2 lb" is a weight'),
    ("smothering depth", ["topdress", "--area", "100 ft2", "--depth", "1 in"], r"smother.*--surface new"),
    ("no area", ["topdress"], r"the lawn has no area"),
    ("unknown units", ["mix", "--add", "leaves=6 bags", "--units", "metric"], r"units"),
    ("no day", ["plan", "examples/quarter-acre.toml", "--today", "soon"], r'--today: "soon"'),
    ("a day that is none", ["topdress", "--area", "100 ft2", "--today", "2026-02-30"], r'--today: "2026-02-30"'),
    ("unknown material", ["materials", "lleaves"], r'did you mean "leaves"'),
    ("output that exists", ["materials", "--output", "/etc/passwd"], r"exists already.*--force"),
    ("output in no folder", ["materials", "--output", "/no/such/folder/x"], r"cannot be written"),
    ("pile without a side", ["pile", "--shape", "windrow", "--length", "40 ft", "--height", "4 ft"], r'--width is missing: a windrow.*add --width "4 ft"'),
    ("bin with a drum's volume", ["pile", "--shape", "bin", "--length", "4 ft", "--width", "4 ft", "--height", "4 ft", "--volume", "60 gal"], r"--volume: a bin is not measured by it.*--shape"),
    ("tumbler with a diameter", ["pile", "--shape", "tumbler", "--volume", "60 gal", "--diameter", "2 ft"], r"--diameter: a tumbler is not measured by it"),
    ("pile of no height", ["pile", "--shape", "cone", "--diameter", "6 ft", "--height", "0 ft"], r'--height: "0 ft" is no side of a pile'),
    ("pile past all measure", ["pile", "--shape", "cone", "--diameter", "1e6 ft", "--height", "4 ft"], r'--diameter: "1e6 ft" is no side of a pile.*1 cm to 10000 m'),
    ("pile as high as a weight", ["pile", "--shape", "cone", "--diameter", "6 ft", "--height", "4 lb"], r'--height: "4 lb" is a weight'),
    ("pile of nan", ["pile", "--shape", "tumbler", "--volume", "nan gal"], r'--volume: "nan gal" does not begin with a number'),
    ("nan piles", ["pile", "--shape", "tumbler", "--volume", "60 gal", "--count", "nan"], r"--count: is no number of piles"),
    ("pile of unknown shape", ["pile", "--shape", "pyramid"], r"--shape: pyramid"),
    ("top wider than the base", ["pile", "--shape", "windrow", "--length", "40 ft", "--width", "8 ft", "--height", "4 ft", "--top-width", "9 ft"], r"--top-width: a windrow is no wider"),
    ("cone with a flat top", ["pile", "--shape", "cone", "--diameter", "6 ft", "--height", "4 ft", "--top-width", "1 ft"], r"--top-width: only a windrow"),
    ("no roster", ["workshop"], r"there is no roster.*--new roster.csv"),
    ("no folder for handouts", ["workshop", "roster.csv"], r"--into is missing.*--into handouts"),
    ("a roster that is not there", ["workshop", "nowhere.csv", "--into", "handouts"], r"nowhere.csv: there is no such file"),
    ("a roster to fill in and one to read", ["workshop", "roster.csv", "--new", "new.csv"], r"--new writes a roster to fill in.*leave out --new"),
    ("a roster to fill in that exists", ["workshop", "--new", "/etc/passwd"], r"--new: /etc/passwd exists already"),
    ("a roster to fill in as JSON", ["workshop", "--new", "new.csv", "--json"], r"--new writes a file, which is no JSON"),
    ("sheet of an unknown level", ["exercise", "--level", "4"], r'--level: "4" is no level.*write 1 for the easy half'),
    ("sheet of a word", ["exercise", "--seed", "x"], r'--seed: "x" is no number of a sheet.*--seed 7'),
    ("sheet below zero", ["exercise", "--seed", "-1"], r'--seed: "-1" is no number of a sheet.*from 0'),
    ("sheet past the last", ["exercise", "--seed", "4294967296"], r'--seed: "4294967296" is no number of a sheet'),
    ("sheet of a part", ["exercise", "--seed", "1.5"], r'--seed: "1.5" is no number of a sheet'),
    ("sheet over a base", ["exercise", "--base", "base.toml"], r"--base: a sheet is drawn from the tables that come.*leave the file out"),
    ("feedstocks over a base", ["materials", "--base", "base.toml"], r"--base: the tables are shown without any yard.*leave the file out"),
    ("sheet from a table of one's own", ["exercise", "--materials", "mine.toml"], r"--materials: a sheet is drawn from the tables that come"),
    ("fill and capacity", ["recipe", "--have", "leaves=6 bags", "--fill", "1 yd3", "--capacity", "1 yd3"], r"one or the other"),
]

# Files of nothing but mistakes, within what a file may have: refused in little memory and time.
# name, file, text, command, what stderr must match
PILES_OF_MISTAKES = [
    ("unknown keys on one line", "yard.toml", "[pile]\n" + "x = { " + ", ".join(f"a{n}=1" for n in range(60_000)) + " }\n", ["plan", "yard.toml"],
     r"yard.toml:2:\d+: x: is not a key"),
    ("a table of unknown keys on one line", "yard.toml", "pile = { " + ", ".join(f"a{n}=1" for n in range(60_000)) + " }\n", ["plan", "yard.toml"],
     r"yard.toml:1:\d+: a0: is not a key.*and \d{5} more\n$"),
    ("unknown keys at the top", "yard.toml", "".join(f"a{n}=1\n" for n in range(60_000)), ["plan", "yard.toml"],
     r"yard.toml:1:\d+: a0: is not a key.*    a49=1\n.*and 59950 more\n$"),
    ("a list of no tables on one line", "yard.toml", "supply = [" + "1," * 100_000 + "]\n", ["plan", "yard.toml"],
     r"yard.toml:1:11: supply: is not a list of tables.*and 99950 more\n$"),
    ("rows of no numbers", "log.csv", "time,core degF\n" + "2026-11-07,x\n" * 900_000, ["readings", "--log", "log.csv"],
     r"log.csv:2:12: core degF: .*and \d+ more; the rest is not read\n$"),
    ("rows of many columns of no numbers", "log.csv", ",".join(["time"] + [f"p{n} degF" for n in range(900)]) + "\n" + ("2026-11-07" + ",x" * 900 + "\n") * 200,
     ["readings", "--log", "log.csv"], r"log.csv:2:12: .*and \d+ more; the rest is not read\n$"),
    ("days of no numbers", "daily.csv", "date,air degF\n" + "".join(f"{datetime.date(1000, 1, 1) + datetime.timedelta(days=n)},x\n" for n in range(900_000)),
     ["plan", "days.toml"], r"daily.csv:2:12: air degF: .*and \d+ more; the rest is not read\n$"),
    ("a roster of no answers", "roster.csv", "leaves,lawn,bin\n" + "x,y,z\n" * 9_000, ["workshop", "roster.csv", "--into", "handouts"],
     r"roster.csv: more than 1000 of its fields cannot be read.*roster.csv:2:1: leaves: .*and \d+ more\n$"),
    ("a roster of rows cut short", "roster.csv", "leaves,lawn,bin\n" + "x\n" * 9_000, ["workshop", "roster.csv", "--into", "handouts"],
     r"roster.csv:2:1: the row has 1 field where the header has 3.*and 50 more; the rest is not read\n$"),
    ("more rows than a class has", "roster.csv", "scraps\n" + "0\n" * 10_001, ["workshop", "roster.csv", "--into", "handouts"],
     r"roster.csv: a roster has at most 10,000 rows"),
]

# name, text of roster.csv, what stderr must match
ROSTERS = [
    ("a roster without rows", "leaves,lawn\n", r"roster.csv: there is no row below the headings"),
    ("a roster of unknown columns", "a,b\n1,2\n", r"roster.csv:1:1: none of the headings is a question's.*leaves, trees.*\[columns\]"),
    ("a column twice", "leaves,Leaves\n1,2\n", r"roster.csv:1:8: Leaves: is a second column of leaves"),
    ("a column twice by two names", "people,scraps\n1,2\n", r"roster.csv:1:8: scraps: is a second column of scraps"),
    ("a roster parted by tabs", "leaves\tlawn\n1\t2\n", r"roster.csv:1:1: the columns are parted by tabs"),
    ("a roster with an open quotation mark", 'leaves,name\n3,"A\n4,B\n', r"roster.csv:2:3: a quotation mark is opened here and never closed"),
    ("a roster that is binary", bytes(range(256)), r"roster.csv: this is not a text file"),
]
# name, text of base.toml, what stderr must match
BASES = [
    ("an unknown column", '[columns]\n"Leaves?" = "leavs"\n', r'base.toml:2:13: Leaves\?: "leavs" is no column of a roster.*did you mean "leaves"\?'),
    ("a column that is a number", '[columns]\n"Leaves?" = true\n', r"base.toml:2:13: Leaves\?: is true or false where a text is wanted"),
]
MOST_MEMORY = 100 << 20  # bytes
MOST_SECONDS = 20  # ten times what it takes: other tests run beside it


def little_memory():
    resource.setrlimit(resource.RLIMIT_DATA, (MOST_MEMORY, MOST_MEMORY))


# A terminal obeys these, or shows a line turned around: C0 but newline and tab, DEL, C1, marks of direction, ends of lines of another kind.
OBEYED = [chr(n) for n in (*range(9), *range(11, 32), *range(0x7f, 0xa0), 0x61c, 0x200e, 0x200f, *range(0x2028, 0x202f), *range(0x2066, 0x206a))]


def texts_in(json_value):
    if isinstance(json_value, dict):
        json_value = list(json_value.values())
    return [text for value in json_value for text in texts_in(value)] if isinstance(json_value, list) else [str(json_value)]


def written_with_them(program, folder, failures):
    """A title, notes, names, a column's name, options and file names with control characters: none leaves the program as it stands."""
    everything = "".join(OBEYED[1:])  # no argument and no file name has a NUL
    escaped = "".join(f"\\u{ord(c):04x}" for c in OBEYED)
    raw = "".join(c for c in OBEYED if ord(c) > 0x7f)  # what TOML takes as it stands

    def yard(title, more=""):
        pathlib.Path(folder, "yard.toml").write_text(f'title = "{title}"\n{SUPPLY}{more}', encoding="utf-8")

    def runs():
        run = ["plan", "yard.toml"]
        yard(f"My {escaped} yard")
        yield "an escaped title", run, 0
        yield "an escaped title in JSON", [*run, "--json"], 0
        yard(f"My {raw} yard")
        yield "a title", run, 0
        yield "a title in JSON", [*run, "--json"], 0
        yard("a", f'{raw[:20]} = "b"\n')
        yield "what is no TOML", run, 2
        yard("a", f'"{escaped}" = "b"\n')
        yield "a key", run, 2
        yard("a", f'[[feedstock]]\nid = "x"\nname = "x{escaped}"\n')
        yield "a table that is none", run, 2
        for name in (escaped, raw):
            pathlib.Path(folder, "mine.toml").write_text(f'[[feedstock]]\nid = "x"\nlike = "straw"\nnote = "{name}"\n', encoding="utf-8")
            yield "a note", ["materials", "x", "--materials", "mine.toml"], 0
        for character in "\x1b\x7f\x9b\u061c\u200e\u202e\u2028\u2067":
            for key in ("id", "name"):
                text = f'[[feedstock]]\n{"" if key == "id" else "id = " + chr(34) + "x" + chr(34) + chr(10)}{key} = "x\\u{ord(character):04x}y"\nlike = "straw"\n'
                pathlib.Path(folder, "mine.toml").write_text(text, encoding="utf-8")
                yield f"a {key} with U+{ord(character):04X}", ["materials", "--materials", "mine.toml"], 2
        pathlib.Path(folder, "log.csv").write_text(f"time,{raw} degF,core degF\n2026-11-07,x,y\n", encoding="utf-8", newline="")
        yield "a column", ["readings", "--log", "log.csv"], 2
        yield "a file", ["plan", everything.replace("/", "") + ".toml"], 2
        yield "a command", [everything], 2
        yield "an option", ["mix", "--" + everything], 2
        yield "an option's text", ["mix", "--add", f"{everything}=1 yd3"], 2
        yield "bytes that are no text", ["mix", "--add", b"\x9b31m\xff\xc0\x9b=1 yd3"], 2
        yield "a material", ["materials", everything], 2

    count = 0
    for name, arguments, code in runs():
        count += 1
        result = subprocess.run([program, *arguments], cwd=folder, capture_output=True, timeout=60)
        if result.returncode != code:
            failures.append(f"{name}, with control characters: exit {result.returncode}: {result.stderr.decode(errors='replace')}")
        try:
            told = (result.stdout + result.stderr).decode()
        except UnicodeDecodeError as error:
            failures.append(f"{name}, with control characters: {error}")
            continue
        if found := sorted({f"U+{ord(c):04X}" for c in told if c in OBEYED}):
            failures.append(f"{name}, with control characters: prints {', '.join(found)}")
        if "--json" in arguments and raw not in "".join(texts_in(json.loads(told))):
            failures.append(f"{name}, with control characters: the JSON says something else")
    return count


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    failures, checks = [], 0
    sanitized = b"__asan_init" in pathlib.Path(program).read_bytes()

    with tempfile.TemporaryDirectory() as folder:
        def run(*arguments):
            return subprocess.run([program, *arguments], cwd=folder, capture_output=True, timeout=60)

        def refused(name, pattern, *arguments):
            nonlocal checks
            checks += 1
            result = run(*arguments)
            stderr = result.stderr.decode("utf-8", "replace")
            if result.returncode != 2:
                failures.append(f"{name}: exit {result.returncode}\n{stderr}")
            elif result.stdout:
                failures.append(f"{name}: standard output is not empty")
            elif not re.search(pattern, stderr, re.DOTALL):
                failures.append(f"{name}: no {pattern!r} in\n{stderr}")

        def write(name, content):
            data = content if isinstance(content, bytes) else content.encode("utf-8")
            pathlib.Path(folder, name).write_bytes(data)

        for name, text, pattern in YARDS:
            write("yard.toml", text)
            refused(name, pattern, "plan", "yard.toml")
        os.mkdir(os.path.join(folder, "weather"))
        write("yard.toml", '[climate]\nfile = "weather/daily.csv"\n')
        for name, text, pattern in DAYS:
            write("weather/daily.csv", text)
            refused(name, pattern, "plan", "yard.toml")
        for name, text, pattern in MATERIALS:
            write("mine.toml", text)
            refused(name, pattern, "materials", "--materials", "mine.toml")
        for name, arguments, pattern in OPTIONS:
            refused(name, pattern, *arguments)

        write("yard.toml", b"")
        for name, content, pattern in (
            ("50 MB", b"# " + b"x" * 50_000_000, r"larger than 1 MiB"),
            ("binary", bytes(range(256)) * 8, r"not a text file"),
            ("not UTF-8", b'title = "\xff\xfe"\n', r"yard.toml:1:10: this is not UTF-8.*save it as UTF-8"),
            ("deep nesting", b"title = " + b"[" * 100_000, r"yard.toml:1:\d+: this is not TOML"),
            ("101 supplies", SUPPLY.encode() * 101, r"101 supplies are more than the 100"),
        ):
            write("yard.toml", content)
            refused(name, pattern, "plan", "yard.toml")
        if os.path.exists("/dev/zero"):
            refused("a device without end", r"this is a pipe or a device, not a file", "plan", "/dev/zero")

        write("days.toml", SUPPLY + '[climate]\nfile = "daily.csv"\n')
        for name, file, text, arguments, pattern in PILES_OF_MISTAKES:
            checks += 1
            write(file, text)
            begun = time.monotonic()
            result = subprocess.run([program, *arguments], cwd=folder, capture_output=True, timeout=120, preexec_fn=None if sanitized else little_memory)
            took = time.monotonic() - begun
            stderr = result.stderr.decode("utf-8", "replace")
            if result.returncode != 2 or result.stdout or not re.search(pattern, stderr, re.DOTALL):
                failures.append(f"{name}: exit {result.returncode}, no {pattern!r} in\n{stderr[:500]} … {stderr[-500:]}")
            if took > MOST_SECONDS and not sanitized:
                failures.append(f"{name}: takes {took:.1f} s")

        for name, text, pattern in ROSTERS:
            write("roster.csv", text)
            refused(name, pattern, "workshop", "roster.csv", "--into", "handouts")
        write("roster.csv", "leaves\n1\n")
        for name, text, pattern in BASES:
            write("base.toml", text)
            refused(name, pattern, "workshop", "roster.csv", "--into", "handouts", "--base", "base.toml")
        refused("handouts into a file", "--into: base.toml is a file", "workshop", "roster.csv", "--into", "base.toml")
        refused("handouts into nowhere", "--into: no/where cannot be used: No such file", "workshop", "roster.csv", "--into", "no/where")
        checks += 1
        if os.path.exists(os.path.join(folder, "handouts")):
            failures.append("a roster that is refused leaves a folder")

        # Standard output that takes nothing is told, whatever was asked.
        if os.path.exists("/dev/full"):
            commands = re.findall(r"^  ([a-z]+)  ", run("--help").stdout.decode(), re.MULTILINE)
            for arguments in ([], ["--help"], ["--version"], ["materials"], *([command, "--help"] for command in commands)):
                checks += 1
                with open("/dev/full", "wb") as full:
                    result = subprocess.run([program, *arguments], stdout=full, stderr=subprocess.PIPE, timeout=60)
                if result.returncode != 2 or b"standard output cannot be written" not in result.stderr:
                    failures.append(f"{arguments} to a full disk: exit {result.returncode}: {result.stderr.decode()}")
            checks += 1
            if len(commands) < 10:
                failures.append(f"--help lists {commands}")

        checks += written_with_them(program, folder, failures)

        # All of a file's errors at once, in the order of their places.
        write("yard.toml", 'titel = "a"\n[[supply]]\nfeedstock = "leeves"\namount = "6"\n[topdressing]\ndepth = "7 lb"\n')
        refused("four errors at once", r":1:9:.*:3:13:.*:4:10:.*:6:9:", "plan", "yard.toml")

        for command, option in (("recipe", "--have"), ("pile", "--have"), ("mix", "--add")):
            refused(f"150 supplies of {command}", "150 supplies are more than the 100", command, *[option, "leaves=1 lb"] * 150)
        write("yard.toml", SUPPLY + '[climate]\nlike = "cool"\n[pile]\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\n')
        for year in ("9999", "1850"):
            refused(f"built in {year}", "is outside the years 1900 to 2200", "forecast", "yard.toml", "--built", f"{year}-12-31")
        write("far.toml", SUPPLY + '[pile]\nlength = "4 ft"\nwidth = "4 ft"\nheight = "4 ft"\nbuilt = 9999-12-31\n')
        refused("built in the far future", "far.toml:.*9999-12-31 is outside the years 1900 to 2200", "plan", "far.toml")

        # The file of days is told from the yard file's folder, wherever the command is given; CRLF and a byte-order mark do no harm.
        write("weather/daily.csv", "\ufeff" + days().replace("\n", "\r\n"))
        write("weather/yard.toml", SUPPLY + '[climate]\nfile = "daily.csv"\n')
        checks += 1
        result = run("plan", "weather/yard.toml")
        if result.returncode != 0 or result.stderr:
            failures.append(f"a file of days: exit {result.returncode}: {result.stderr.decode()}")

        for name, text in ACCEPTED:
            checks += 1
            write("yard.toml", text)
            result = run("plan", "yard.toml")
            if result.returncode != 0 or result.stderr:
                failures.append(f"{name}: exit {result.returncode}: {result.stderr.decode()}")

    print("\n\n".join(failures))
    print(f"{checks} inputs, {len(failures)} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
