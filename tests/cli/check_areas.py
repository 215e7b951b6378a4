"""Areas of lawns, from outside: shapes whose area is known by hand; lawns in files of maps and tracks against GeographicLib's own of
python3-pyproj, zones and cut-outs of a file, and what is refused by its feature, point or line.

    check_areas.py PROGRAM
"""
import json
import math
import pathlib
import random
import subprocess
import sys
import tempfile

from pyproj import Geod

GEOD = Geod(ellps="WGS84")
failures = []
checks = 0


def check(where, true, what):
    global checks
    checks += 1
    if not true:
        failures.append(f"{where}: {what}")


def topdress(program, folder, zones):
    (folder / "yard.toml").write_text(zones, encoding="utf-8")
    return subprocess.run([program, "topdress", folder / "yard.toml", "--json"], capture_output=True, text=True, timeout=60)


def zone(shape, file, more=""):
    return f'[[lawn.zone]]\nshape = "{shape}"\nfile = "{file}"\n{more}'


def around(latitude, longitude, meters, count, generator):
    """A ring of points about one, in order, closed."""
    angles = sorted(generator.uniform(0, 360) for _ in range(count))
    ring = [GEOD.fwd(longitude, latitude, angle, generator.uniform(0.5, 1.0) * meters)[:2] for angle in angles]
    return [[lon, lat] for lon, lat in ring + ring[:1]]


def area_of(ring):
    return abs(GEOD.polygon_area_perimeter([p[0] for p in ring], [p[1] for p in ring])[0])


def feature(ring, name=None, **properties):
    if name:
        properties["name"] = name
    return {"type": "Feature", "properties": properties, "geometry": {"type": "Polygon", "coordinates": [ring]}}


FEET, METERS = 0.3048 ** 2, 1.0
# Each a shape that no other has: its name, its yard file, its area as worked out by hand, the square meters of one of that, and why.
SHAPES = [
    ("area as told", 'area = "5000 ft2"', 5000, FEET, "nothing to work out"),
    ("rectangle", 'shape = "rectangle"\nlength = "60 ft"\nwidth = "30 ft"', 1800, FEET, "60 × 30"),
    ("square in meters", 'shape = "rectangle"\nlength = "20 m"\nwidth = "20 m"', 400, METERS, "20²"),
    ("rectangle in feet and inches", 'shape = "rectangle"\nlength = "12 ft 6 in"\nwidth = "8 ft"', 100, FEET, "12.5 × 8"),
    ("circle", 'shape = "circle"\ndiameter = "20 ft"', 314.1592653589793, FEET, "π 10²"),
    ("ellipse", 'shape = "ellipse"\nlength = "40 ft"\nwidth = "20 ft"', 628.3185307179587, FEET, "π × 20 × 10"),
    ("triangle by base and height", 'shape = "triangle"\nbase = "40 ft"\nheight = "30 ft"', 600, FEET, "40 × 30 / 2"),
    ("triangle 3-4-5", 'shape = "triangle"\nsides = ["30 ft", "40 ft", "50 ft"]', 600, FEET, "a right angle between 30 and 40"),
    ("triangle 13-14-15", 'shape = "triangle"\nsides = ["13 m", "14 m", "15 m"]', 84, METERS, "height 12 on 14, which makes 5-12-13 and 9-12-15"),
    ("triangle 5-5-8, blunt", 'shape = "triangle"\nsides = ["5 m", "5 m", "8 m"]', 12, METERS, "two 3-4-5 side by side, height 3 on 8"),
    ("triangle 7-15-20", 'shape = "triangle"\nsides = ["7 m", "15 m", "20 m"]', 42, METERS, "Heron: s = 21, √(21 × 14 × 6 × 1) = √1764"),
    ("trapezoid", 'shape = "trapezoid"\nparallel = ["50 ft", "70 ft"]\nheight = "40 ft"', 2400, FEET, "a mean of 60, by 40"),
    ("trapezoid in meters", 'shape = "trapezoid"\nparallel = ["9 m", "3 m"]\nheight = "5 m"', 30, METERS, "a mean of 6, by 5"),
    ("L", 'shape = "polygon"\npoints = [["0 ft", "0 ft"], ["10 ft", "0 ft"], ["10 ft", "4 ft"], ["4 ft", "4 ft"], ["4 ft", "10 ft"], ["0 ft", "10 ft"]]',
     64, FEET, "10 by 10 less 6 by 6"),
    ("U in meters", 'shape = "polygon"\npoints = [["0 m", "0 m"], ["12 m", "0 m"], ["12 m", "9 m"], ["8 m", "9 m"], ["8 m", "3 m"], ["4 m", "3 m"], '
     '["4 m", "9 m"], ["0 m", "9 m"]]', 84, METERS, "12 by 9 less a court of 4 by 6"),
    ("T", 'shape = "polygon"\npoints = [["0 ft", "8 ft"], ["0 ft", "12 ft"], ["20 ft", "12 ft"], ["20 ft", "8 ft"], ["12 ft", "8 ft"], ["12 ft", "0 ft"], '
     '["8 ft", "0 ft"], ["8 ft", "8 ft"]]', 112, FEET, "a bar of 20 by 4 and a stem of 4 by 8"),
    ("arrow, bent in", 'shape = "polygon"\npoints = [["0 m", "0 m"], ["8 m", "0 m"], ["4 m", "2 m"], ["4 m", "10 m"]]',
     24, METERS, "a triangle of 8 by 10 is 40, less a notch of 8 by 4 / 2"),
    ("kite", 'shape = "polygon"\npoints = [["0 ft", "4 ft"], ["6 ft", "8 ft"], ["16 ft", "4 ft"], ["6 ft", "0 ft"]]', 64, FEET, "diagonals 16 × 8 / 2"),
    ("parallelogram", 'shape = "polygon"\npoints = [["0 m", "0 m"], ["10 m", "0 m"], ["13 m", "4 m"], ["3 m", "4 m"]]', 40, METERS, "10 by a height of 4"),
    ("offsets that end straight", 'shape = "offsets"\nspacing = "10 ft"\noffsets = ["12 ft", "15 ft"]\ntapers = false', 135, FEET, "10 × 13.5"),
    ("offsets that run out", 'shape = "offsets"\nspacing = "10 ft"\noffsets = ["12 ft", "15 ft"]\ntapers = true', 270, FEET, "10 × (12 + 15)"),
    ("radii of a rhombus", 'shape = "radii"\nradii = ["3 m", "4 m", "3 m", "4 m"]', 24, METERS, "diagonals 6 × 8 / 2"),
    ("radii of a hexagon", 'shape = "radii"\nradii = ["10 ft", "10 ft", "10 ft", "10 ft", "10 ft", "10 ft"]', 259.8076211353316, FEET,
     "six triangles of 10² √3 / 4"),
    ("radii of a square", 'shape = "radii"\nradii = ["5 m", "5 m", "5 m", "5 m"]', 50, METERS, "diagonals 10 × 10 / 2"),
    ("rectangle less a circle", 'shape = "rectangle"\nlength = "60 ft"\nwidth = "30 ft"\n[[lawn.without]]\nshape = "circle"\ndiameter = "12 ft"',
     1686.9026644707675, FEET, "1800 less 36 π"),
    ("circle less a square", 'shape = "circle"\ndiameter = "10 m"\n[[lawn.without]]\nshape = "rectangle"\nlength = "5 m"\nwidth = "5 m"',
     53.53981633974483, METERS, "25 π less 25"),
    ("two zones", 'name = "a"\nshape = "rectangle"\nlength = "10 m"\nwidth = "4 m"\n[[lawn.zone]]\nname = "b"\nshape = "triangle"\nbase = "6 m"\nheight = "5 m"',
     55, METERS, "40 and 15"),
    ("slope 3:4:5", 'shape = "rectangle"\nlength = "40 ft"\nwidth = "30 ft"\nmeasured_by = "tracing"\nslope = "75 %"', 1500, FEET,
     "a run of 4 rises 3 and is 5 long: 1200 × 5 / 4"),
    ("slope 5:12:13", 'area = "144 m2"\nmeasured_by = "tracing"\nslope = "41.6666666666667 %"', 156, METERS, "a run of 12 rises 5 and is 13 long: 144 × 13 / 12"),
]


def check_shapes(program, folder):
    for name, lines, expected, unit, reason in SHAPES:
        result = topdress(program, folder, f"[[lawn.zone]]\n{lines}\n")
        if result.returncode != 0:
            check(name, False, result.stderr)
            continue
        found = json.loads(result.stdout)["area_m2"] / unit
        check(name, math.isclose(found, expected, rel_tol=1e-12), f"{found} is not {expected}: {reason}")
    check("shapes", len({lines for _, lines, *_ in SHAPES}) >= 25, "fewer than 25 shapes")


CURVES = [
    # A parabola y = 4 h x (l - x) / l², 12 ft wide at the middle of 40 ft: 2/3 of 12 × 40 is 320. Trapezoids at 10 ft: 10 × (9 + 12 + 9).
    ("parabola", ["0", "9 ft", "12 ft", "9 ft", "0"], "10 ft", 300 * FEET, 320 * FEET, 1e-12),
    # A half circle of 10 m radius: 50 π is 157.08. Widths at every meter: trapezoids fall short by at most 2 %.
    ("half circle", ["0"] + [f"{math.sqrt(100 - x * x):.12f} m" for x in range(-9, 10)] + ["0"], "1 m", 50 * math.pi, None, 0.02),
]


def check_curves(program, folder):
    for name, widths, spacing, expected, simpson, tolerance in CURVES:
        listed = ", ".join(f'"{width}"' for width in widths)
        result = topdress(program, folder, f'[[lawn.zone]]\nshape = "offsets"\nspacing = "{spacing}"\noffsets = [{listed}]\n')
        check(name, result.returncode == 0, result.stderr)
        found = json.loads(result.stdout)["area_m2"]
        check(name, math.isclose(found, expected, rel_tol=tolerance), f"{found} is not {expected}")
        closer = "Measure zone 1 closer" in subprocess.run([program, "topdress", folder / "yard.toml"], capture_output=True, text=True, timeout=60).stdout
        check(name, closer == (simpson is not None and abs(simpson - expected) > 0.05 * expected), "whether it asks for closer widths")


def check_geodesic(program, folder):
    generator = random.Random(20261130)
    for _ in range(40):
        ring = around(generator.uniform(-50, 70), generator.uniform(-179, 179), generator.uniform(5, 300), generator.randint(6, 12), generator)
        (folder / "lawn.geojson").write_text(json.dumps({"type": "Polygon", "coordinates": [ring]}), encoding="utf-8")
        result = topdress(program, folder, zone("geojson", "lawn.geojson"))
        if result.returncode != 0 and "meets itself" in result.stderr:
            continue  # a gap of more than half a turn between two points
        check("geodesic", result.returncode == 0, result.stderr)
        found = json.loads(result.stdout)["area_m2"]
        check("geodesic", math.isclose(found, area_of(ring), rel_tol=1e-6), f"{found} where pyproj has {area_of(ring)}")


def square(longitude, latitude, meters):
    east = GEOD.fwd(longitude, latitude, 90, meters)[0]
    north = GEOD.fwd(longitude, latitude, 0, meters)[1]
    return [[longitude, latitude], [east, latitude], [east, north], [longitude, north], [longitude, latitude]]


def check_collection(program, folder):
    front, side, bed = square(-93.2, 44.9, 40), square(-93.19, 44.9, 20), square(-93.1999, 44.9001, 5)
    collection = {"type": "FeatureCollection", "features": [
        feature(front, "front"), feature(side, "side"), feature(bed, "bed", cut_out=True),
        {"type": "Feature", "properties": None, "geometry": {"type": "Point", "coordinates": [-93.2, 44.9]}}]}
    (folder / "site.geojson").write_text(json.dumps(collection), encoding="utf-8")
    found = json.loads(topdress(program, folder, zone("geojson", "site.geojson")).stdout)["zones"]
    check("collection", [one["name"] for one in found] == ["front", "side"], found)
    check("cut-out", math.isclose(found[0]["area_m2"], area_of(front) - area_of(bed), rel_tol=1e-6), found)
    check("side", math.isclose(found[1]["area_m2"], area_of(side), rel_tol=1e-6), found)
    holed = {"type": "MultiPolygon", "coordinates": [[front, bed], [side]]}
    (folder / "site.geojson").write_text(json.dumps(holed), encoding="utf-8")
    found = json.loads(topdress(program, folder, zone("geojson", "site.geojson")).stdout)
    check("hole", math.isclose(found["area_m2"], area_of(front) - area_of(bed) + area_of(side), rel_tol=1e-6), found["zones"])
    sloped = json.loads(topdress(program, folder, zone("geojson", "site.geojson", 'slope = "25 %"\n')).stdout)
    check("slope", math.isclose(sloped["area_m2"], math.sqrt(1.0625) * found["area_m2"], rel_tol=1e-12), sloped["area_m2"])


def gpx(points, name="back"):
    fixes = "\n".join(f'<trkpt lat="{lat:.9f}" lon="{lon:.9f}"/>' for lon, lat in points)
    return f'<?xml version="1.0"?>\n<gpx version="1.1" creator="test"><trk><name>{name}</name><trkseg>\n{fixes}\n</trkseg></trk></gpx>\n'


def check_track(program, folder):
    ring = square(-93.2, 44.9, 60)
    track = []
    for (lon0, lat0), (lon1, lat1) in zip(ring, ring[1:]):
        track += [(lon0 + (lon1 - lon0) * i / 10, lat0 + (lat1 - lat0) * i / 10) for i in range(10)]
    (folder / "walk.gpx").write_text(gpx(track + track[:3]), encoding="utf-8")  # three steps beyond the start
    result = topdress(program, folder, zone("gpx", "walk.gpx"))
    found = json.loads(result.stdout)
    check("track", math.isclose(found["area_m2"], area_of(ring), rel_tol=1e-6), found["area_m2"])
    check("track", found["zones"][0]["name"] == "back", found["zones"])
    expected = 1.96 * math.sqrt(2) * 4.9 / math.sqrt(-2 * math.log(0.05)) * math.sqrt(area_of(ring))
    check("a track is of a phone's fixes", math.isclose(found["area_spread_m2"], expected, rel_tol=1e-5), found["area_spread_m2"])
    (folder / "walk.gpx").write_text(gpx(track[:25]), encoding="utf-8")
    result = topdress(program, folder, zone("gpx", "walk.gpx"))
    check("half a walk", result.returncode == 2 and "from its start" in result.stderr, result.stderr)


BOW_TIE = [[-93.2, 44.9], [-93.199, 44.901], [-93.199, 44.9], [-93.2, 44.901], [-93.2, 44.9]]
BAD = [
    ("no JSON", "geojson", '{"type": "Polygon",\n oops', "from its line 2 on"),
    ("another JSON", "geojson", '{"a": 1}', "no polygon"),
    ("a list", "geojson", "[1, 2]", "no polygon"),
    ("a point", "geojson", '{"type": "Point", "coordinates": [1, 2]}', "no polygon"),
    ("no coordinates", "geojson", '{"type": "Polygon"}', 'no "coordinates"'),
    ("swapped", "geojson", json.dumps({"type": "Polygon", "coordinates": [[[lat, lon] for lon, lat in square(-93.2, 44.9, 40)]]}),
     "the wrong way around"),
    ("not closed", "geojson", json.dumps({"type": "Polygon", "coordinates": [square(-93.2, 44.9, 40)[:-1] + [[-93.2, 44.8]]]}), "not closed"),
    ("three positions", "geojson", json.dumps({"type": "Polygon", "coordinates": [[[1, 2], [2, 3], [1, 2]]]}), "four or more"),
    ("a bow tie", "geojson", json.dumps(feature(BOW_TIE, "front")), "front: its edge meets itself: from point 1 to 2, and from point 3 to 4"),
    ("text for a number", "geojson", '{"type": "Polygon", "coordinates": [[["a", 2], [2, 3], [3, 3], ["a", 2]]]}', "position 1"),
    ("a cut outside", "geojson", json.dumps({"type": "FeatureCollection", "features": [
        feature(square(-93.2, 44.9, 40), "front"), feature(square(-93.1, 44.9, 5), "bed", cut_out=True)]}), "bed lies in no lawn"),
    ("no XML", "gpx", "<gpx>\n<trk", "from its line"),
    ("no track", "gpx", "<gpx></gpx>", "no track"),
    ("a fix nowhere", "gpx", '<gpx><trk><trkseg><trkpt lat="x" lon="2"/></trkseg></trk></gpx>', "track 1, point 1"),
    ("an empty track", "gpx", "<gpx><trk></trk></gpx>", "three"),
]


def check_bad(program, folder):
    for name, kind, text, expected in BAD:
        (folder / f"bad.{kind}").write_text(text, encoding="utf-8")
        result = topdress(program, folder, zone(kind, f"bad.{kind}"))
        message = " ".join(result.stderr.split())
        check(name, result.returncode == 2 and expected in message, message)
        check(name, "yard.toml:3:8" in message, f"no place: {message}")
    result = topdress(program, folder, zone("geojson", "missing.geojson"))
    check("no file", result.returncode == 2 and "missing.geojson" in result.stderr, result.stderr)


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        check_shapes(program, folder)
        check_curves(program, folder)
        check_geodesic(program, folder)
        check_collection(program, folder)
        check_track(program, folder)
        check_bad(program, folder)
    print(f"{len(SHAPES) + len(CURVES)} shapes with known answers")
    print(f"{checks} checks of areas, {len(failures)} failures")
    for failure in failures:
        print(failure)
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
