"""Lawns in files of maps and tracks, from outside: areas against GeographicLib's own of python3-pyproj, zones and cut-outs of a file, and
what is refused by its feature, point or line.

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
        check_geodesic(program, folder)
        check_collection(program, folder)
        check_track(program, folder)
        check_bad(program, folder)
    print(f"{checks} checks of areas, {len(failures)} failures")
    for failure in failures:
        print(failure)
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
