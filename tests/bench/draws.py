#!/usr/bin/env python3
"""The draws of a mix of six feedstocks, four buckets of each, by NumPy and by the library, in turn.

    draws.py BENCH      heapwright-bench, built with HEAPWRIGHT_BENCHMARKS

NumPy draws each figure's column at once, and finds the bands by quantile, as check_ranges.py does.
"""

import pathlib
import subprocess
import sys
import time
import xml.etree.ElementTree

import numpy

sys.path.append(str(pathlib.Path(__file__).resolve().parents[1] / "oracle"))
import check_ranges  # noqa: E402

ROUNDS = 15
check_ranges.DRAWS = check_ranges.DRAWS_OF_PROGRAM
MIX = [(feedstock, None, 4, "bucket")
       for feedstock in ("leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds", "straw", "sawdust")]


class Triangles:
    """The ends of each figure, read before the clock starts."""

    def __init__(self):
        self.draws, self.known = check_ranges.Draws(None), {}

    def of(self, reading, *figure, typical="typical"):
        self.known.setdefault(figure, check_ranges.triangle(reading, typical))
        return self.draws.of(reading, *figure, typical=typical)


class Columns:
    """A column drawn for each figure when it is first asked for."""

    def __init__(self, generator, known):
        self.generator, self.known, self.columns = generator, known, {}

    def of(self, _, *figure, typical="typical"):
        if figure not in self.columns:
            low, middle, high = self.known[figure]
            self.columns[figure] = self.generator.triangular(low, middle, high, check_ranges.DRAWS) if low < high else middle
        return self.columns[figure]


def by_numpy(generator, known):
    start = time.perf_counter()
    for drawn in check_ranges.outcome(MIX, 0, Columns(generator, known)).values():
        numpy.quantile(drawn, (0.1, 0.9))
    return time.perf_counter() - start


def by_library(bench):
    report = subprocess.run([bench, "draws", "--benchmark-samples", "20", "--reporter", "xml"], capture_output=True, text=True, check=True)
    return float(xml.etree.ElementTree.fromstring(report.stdout).find(".//BenchmarkResults/mean").get("value")) * 1e-9


def main():
    triangles = Triangles()
    check_ranges.outcome(MIX, 0, triangles)
    generator = numpy.random.default_rng(1)
    rounds = [(min(by_numpy(generator, triangles.known) for _ in range(20)), by_library(sys.argv[1])) for _ in range(ROUNDS)]
    ratios = sorted(numpy_took / library_took for numpy_took, library_took in rounds)
    best = [min(took) * 1e3 for took in zip(*rounds)]
    print(f"NumPy {best[0]:.3f} ms, the library {best[1]:.3f} ms; {ratios[len(ratios) // 2]:.2f} times as fast on the median of {ROUNDS} rounds")


if __name__ == "__main__":
    main()
