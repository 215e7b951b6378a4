"""The runs of the page of the process, and its tables of what they give.

Moisture is a part of the wet mass; the shares of a mix are of the dry mass. The tables hold the
values at the start of the day, before its events, as the page has them: computed with steps of
an hour, and rounded to four digits.
"""

import math
from dataclasses import dataclass

COLUMNS = ("day", "core_degc", "mean_degc", "edge_degc", "volatile_solids_loss", "moisture",
           "carbon_to_nitrogen", "nitrogen_loss", "respiration_mean", "respiration_worst",
           "rotted_worst", "relative_volume", "core_oxygen", "wet_mass_kg")

# How far steps of an hour may be from no steps at all. By the page's own scheme, written down in
# Python for once, they are 0.020 degC off in the core, 0.008 in the mean and 0.007 at the edge,
# 8e-6 of the volatile solids, 9e-6 of moisture, 4e-4 of C:N, 6e-6 of the nitrogen, 3e-4 of
# respiration, 1.4e-5 of what has rotted in the rawest shell and of the volume, 1.3e-5 of oxygen and
# 2.4e-5 of the mass, at most, on any day of R1 to R5. These limits are two to five times that. A
# number of the page that is 1 % too large exceeds them in R1 or R2, but for the loss at turning
# (which R4 shows), half the oxygen (R5), and what no run is moved by: the heat of fusion, the least
# air space and room, the most water that turning may take, and the two numbers of the form of the
# air space, since no run has less air than 0.36.
LIMITS = {
    "core_degc": 0.06, "mean_degc": 0.02, "edge_degc": 0.02, "volatile_solids_loss": 3e-5,
    "moisture": 3e-5, "carbon_to_nitrogen": 1e-3, "nitrogen_loss": 2e-5,
    "respiration_mean": 1e-3, "respiration_worst": 1e-3, "rotted_worst": 5e-5,
    "relative_volume": 5e-5, "core_oxygen": 5e-5,
    "wet_mass_kg": 1e-4,  # of itself
}


@dataclass(frozen=True)
class Material:
    """Volatile solids as a part of the dry mass; fast and slow ones as parts of these."""
    volatile: float
    fast: float
    slow: float
    carbon_to_nitrogen: float


LEAVES = Material(0.89, 0.10, 0.48, 50.0)
GRASS = Material(0.88, 0.48, 0.24, 17.0)
FOOD = Material(0.88, 0.60, 0.13, 17.0)

# What is in 1 kg of wet mixture: three parts of food with 28 % dry mass, one of leaves with 62 %.
DRY_FOOD, DRY_LEAVES = 0.75 * 0.28, 0.25 * 0.62


@dataclass(frozen=True)
class Run:
    """A pile, its weather and what is done to it. Volume in m3, area in m2, density in kg/m3."""
    volume: float
    exposed_area: float
    wet_density: float
    mix: tuple  # (share of the dry mass, material)
    moisture: float
    air: object  # day: degC
    days: int
    turns: range = range(0)
    moisture_after_turn: float = 0.0  # nothing is watered where it is nothing
    rain: float = 0.0  # mm a day, of which a part is taken up
    cover: float = 1.0
    additions: range = range(0)
    added_wet_mass: float = 0.0  # kg a day
    # What the page says of it: the days it is ready at each level (None: never), and hottest in
    # its core
    lawn_day: int | None = None
    ready_day: int | None = None
    ready_day_very_mature: int | None = None
    hottest_day: int = 0
    table: str = ""


def pile_area(volume):
    """The top and sides of a free pile."""
    return 1.15 * 2 * math.pi * (3 * volume / (2 * math.pi)) ** (2 / 3)


def box_area(volume):
    return 5 * volume ** (2 / 3)


def season(day_of_year):
    """The air of a year, for a pile built on such a day of it."""
    def air(day):
        return 11.5 - 12 * math.cos(2 * math.pi * (day + day_of_year - 20) / 365.25)
    return air


def always(degc):
    return lambda day: degc


R1_TABLE = """
0 11.33 11.33 11.33 0 0.5 28.23 0 26.27 26.27 0 1 0.1931 240
1 16.77 14.35 12.89 0.001674 0.5022 28.23 0.001578 26.21 26.22 0.0024 0.9979 0.1963 240.7
2 25.01 17.64 14.33 0.004367 0.5043 28.22 0.004108 26.11 26.14 0.005622 0.9946 0.1943 241.1
3 37.29 22.27 16.25 0.008954 0.5059 28.21 0.008393 25.95 26.04 0.01015 0.9889 0.1899 240.9
5 56.43 36.35 24.07 0.03341 0.5004 28.15 0.03071 25.03 25.57 0.02987 0.9591 0.1886 233.1
7 47.82 37.68 27.84 0.07591 0.4753 27.97 0.06738 23.38 24.5 0.07408 0.9082 0.1957 213.3
14 30.31 27.16 23.13 0.1566 0.4416 27.36 0.1297 19.96 21.06 0.2056 0.8149 0.2015 185.1
30 30.09 26.37 23.3 0.2476 0.4396 26.17 0.1883 15.71 18.32 0.3014 0.7153 0.2013 167.2
60 33.55 28.5 25.47 0.357 0.4501 23.97 0.2426 10.51 15.83 0.3836 0.6033 0.2 149.2
90 34.69 28.98 26.11 0.4279 0.4627 22.07 0.2684 7.563 13.71 0.4507 0.5347 0.199 138.7
120 33.73 27.01 24.22 0.4777 0.4878 20.54 0.282 5.709 11.71 0.5138 0.4881 0.1975 135.1
180 19.61 14.56 13.21 0.5353 0.6073 18.56 0.2932 3.576 7.054 0.6709 0.4354 0.1948 160.7
240 2.188 1.842 1.729 0.5458 0.7025 18.18 0.2947 3.219 5.904 0.7176 0.426 0.2036 208.3
300 0.09211 0.02231 0 0.5466 0.7112 18.15 0.2948 3.19 5.83 0.7208 0.4252 0.2044 214.3
365 13.09 11.78 11.36 0.5531 0.7059 17.91 0.2956 2.98 5.302 0.7446 0.4194 0.1931 208.1
"""

R2_TABLE = """
0 20 20 20 0 0.57 28.23 0 26.27 26.27 0 1 0.1742 330
1 34.9 28.41 24.61 0.005755 0.5704 28.22 0.005407 26.06 26.09 0.00795 0.9924 0.1855 328.6
2 59.02 40.87 30.9 0.02035 0.5686 28.19 0.0189 25.52 25.72 0.02375 0.9732 0.1819 323
3 62.25 48.51 37.8 0.0487 0.5566 28.1 0.04421 24.45 24.94 0.05625 0.9366 0.1857 306.2
5 59.92 47.19 37.45 0.1139 0.5144 27.73 0.09788 21.81 22.32 0.1591 0.8551 0.1883 262.7
7 61.92 47.41 36.7 0.1656 0.5384 27.26 0.136 19.55 19.82 0.2501 0.7932 0.1861 262.3
14 58.02 40.91 31.25 0.2899 0.5362 25.42 0.2114 13.61 14.01 0.4418 0.654 0.1871 227.4
30 45.71 31.48 25.43 0.4069 0.5454 22.67 0.2615 7.972 8.135 0.6323 0.5344 0.1895 199.6
60 32.16 25.23 22.39 0.4824 0.5484 20.38 0.2831 5.058 5.085 0.7553 0.4628 0.1939 179.9
90 27.69 23.28 21.45 0.5208 0.5486 19.07 0.2908 3.876 3.887 0.8163 0.428 0.1962 169.3
120 25.24 22.25 20.95 0.5468 0.5325 18.14 0.2948 3.121 3.218 0.8524 0.405 0.1983 156.5
180 22.59 20.98 20.26 0.5772 0.4932 17.01 0.2982 2.203 2.454 0.8926 0.3788 0.2008 136.8
"""

R3_TABLE = """
0 11.59 11.59 11.59 0 0.55 29.86 0 24.66 24.66 0 1 0.1918 300
1 16.46 14.42 13.1 0.001751 0.5519 29.85 0.001451 24.6 24.61 0.002568 0.9975 0.1957 300.8
2 23.89 17.25 14.1 0.004474 0.5538 29.84 0.0037 24.5 24.53 0.005903 0.9937 0.1942 301.3
3 34.93 21.06 15.4 0.008882 0.5554 29.81 0.00732 24.34 24.43 0.01033 0.9875 0.19 301.3
5 57.69 34.4 21.49 0.03129 0.5539 29.68 0.02533 23.5 24.03 0.02743 0.9565 0.1862 294.3
7 53.96 38.4 26.1 0.07569 0.5358 29.33 0.05904 21.79 23.08 0.06708 0.8971 0.1913 271.3
14 30.33 23.08 17.05 0.1635 0.5101 28.32 0.1181 18.13 20.32 0.1765 0.7857 0.2006 235.6
30 31.69 15.03 9.312 0.2571 0.5308 26.72 0.1699 13.92 14.03 0.4046 0.6745 0.1901 222.1
60 3.71 2.242 1.679 0.3024 0.6122 25.74 0.1908 11.84 11.85 0.4796 0.6244 0.202 254.8
90 0 0 0 0.3055 0.647 25.67 0.1921 11.69 11.69 0.4848 0.6211 0.204 278.9
120 0 0 0 0.3075 0.6686 25.62 0.1929 11.6 11.6 0.4879 0.6189 0.2038 296.3
180 29.74 18.64 14.47 0.3581 0.7064 24.35 0.2127 9.28 9.581 0.5573 0.5655 0.1692 313.9
240 32.07 26.37 23.98 0.4911 0.7062 20.23 0.2488 4.424 4.435 0.7787 0.4362 0.1711 259.5
300 27.63 24.82 23.65 0.5616 0.706 17.65 0.2584 2.411 2.42 0.8908 0.3738 0.1855 230.5
365 12.85 12.31 12.06 0.5859 0.7059 16.71 0.2602 1.643 1.643 0.9298 0.3532 0.2003 220.6
"""

R4_TABLE = """
0 6.206 6.206 6.206 0 0.55 50 0 14.91 14.91 0 1 0.1703 5750
1 7.218 7.151 7.061 0.0003745 0.5507 49.98 2.583e-05 14.9 14.9 0.0006422 0.9993 0.1926 5757
2 8.484 8.24 7.93 0.0008528 0.5513 49.96 5.88e-05 14.88 14.88 0.001438 0.9984 0.1971 5763
3 10.1 9.535 8.846 0.001475 0.552 49.93 0.0001017 14.86 14.87 0.002425 0.9972 0.1982 5768
5 15.29 13.26 11.04 0.00348 0.5534 49.84 0.0002394 14.8 14.82 0.00524 0.9933 0.1975 5776
7 28.18 21.18 14.58 0.008217 0.5547 49.62 0.0005629 14.66 14.73 0.0103 0.9843 0.1918 5769
14 42.53 45.83 48.03 0.1194 0.4616 44.36 0.007388 11.3 11.66 0.184 0.7906 0.197 4296
30 33.7 27.49 20.38 0.25 0.5517 38.01 0.01353 7.811 7.843 0.4287 0.6011 0.1888 4487
60 47.19 30.65 15.5 0.3854 0.5473 31.29 0.01776 5.003 5.082 0.6577 0.4419 0.1874 3755
90 49.48 27.89 11.82 0.4485 0.5536 28.11 0.01898 3.695 3.794 0.7656 0.3787 0.187 3482
120 51.12 28.79 14.04 0.4897 0.5556 26.02 0.01952 2.725 2.836 0.8367 0.3408 0.1883 3285
180 50.27 33.53 23.83 0.5405 0.5741 23.44 0.01991 1.322 1.401 0.9274 0.2976 0.191 3153
240 33.09 31.05 28.83 0.5645 0.5911 22.22 0.01999 0.547 0.548 0.9732 0.2783 0.1958 3148
300 25.69 23.11 21.13 0.5726 0.6129 21.81 0.02 0.2656 0.267 0.9872 0.272 0.1991 3278
365 9.087 8.787 8.418 0.5747 0.6512 21.7 0.02001 0.1908 0.1908 0.9909 0.2704 0.2035 3623
"""

R5_TABLE = """
0 28 28 28 0 0.635 23.68 0 33.39 33.39 0 1 0.1949 8
1 33.55 31.36 30.78 0.01188 0.6353 23.74 0.01453 32.98 32.99 0.01744 0.985 0.1924 7.923
2 37.69 33.88 32.88 0.02911 0.6364 23.83 0.03512 32.37 32.41 0.04225 1.156 0.1875 9.389
3 42.31 36.68 35.2 0.05265 0.6379 23.92 0.06231 31.51 31.6 0.07557 1.308 0.1834 10.76
5 47.23 39.76 37.77 0.1081 0.6405 24.05 0.1218 29.34 29.58 0.1535 1.562 0.1797 13.22
7 48 40.27 38.21 0.1562 0.6426 24.01 0.1678 27.3 27.67 0.2217 1.787 0.1789 15.49
14 47.8 40.12 38.08 0.2603 0.6502 23.29 0.2479 22.38 22.96 0.3735 2.511 0.1773 23.14
30 46.97 39.39 37.39 0.369 0.6681 21.54 0.3065 16.71 17.3 0.5374 3.983 0.1734 40.3
60 35.85 32.83 32.04 0.5006 0.6976 18.82 0.3715 8.383 8.86 0.7384 4.978 0.1778 58.12
90 30.51 29.54 29.29 0.5733 0.7021 16.8 0.3985 3.797 4.001 0.8533 4.283 0.1916 52.19
120 29.36 28.81 28.67 0.6056 0.7043 15.71 0.4056 2.42 2.542 0.9044 3.986 0.1963 49.53
"""

NEW_JERSEY_RAIN = 3.1  # mm a day, all year; where it rains at all
MIXED = ((0.60, LEAVES), (0.20, GRASS), (0.20, FOOD))

RUNS = {
    # Built in spring, and left alone.
    "R1": Run(0.8, pile_area(0.8), 300.0, MIXED, 0.50, season(110), 365,
              rain=NEW_JERSEY_RAIN, lawn_day=188, hottest_day=5, table=R1_TABLE),
    # A covered box, turned every third day of its first three months and watered as it is turned.
    "R2": Run(1.0, box_area(1.0), 330.0, MIXED, 0.57, always(20.0), 180, turns=range(3, 88, 3),
              moisture_after_turn=0.55, lawn_day=52, ready_day=108, hottest_day=3, table=R2_TABLE),
    # Built in autumn: it freezes.
    "R3": Run(1.0, pile_area(1.0), 300.0, ((0.65, LEAVES), (0.20, GRASS), (0.15, FOOD)), 0.55,
              season(293), 365, turns=range(14, 365, 14), moisture_after_turn=0.52,
              rain=NEW_JERSEY_RAIN, lawn_day=217, ready_day=272, ready_day_very_mature=346,
              hottest_day=5, table=R3_TABLE),
    # A windrow of leaves.
    "R4": Run(25.0, 22.0, 230.0, ((1.0, LEAVES),), 0.55, season(320), 365,
              turns=range(14, 365, 14), moisture_after_turn=0.55,
              rain=NEW_JERSEY_RAIN, lawn_day=91, ready_day=161, ready_day_very_mature=176,
              hottest_day=9, table=R4_TABLE),
    # A bin that is fed for seven weeks.
    "R5": Run(0.02, 1.9 * 0.1 ** (2 / 3), 400.0, ((DRY_FOOD, FOOD), (DRY_LEAVES, LEAVES)),
              1.0 - DRY_FOOD - DRY_LEAVES, always(28.0), 120, cover=0.5, additions=range(1, 50),
              added_wet_mass=1.6, lawn_day=84, ready_day=112, hottest_day=8, table=R5_TABLE),
}


def table_of(run):
    """The rows of the page: dictionaries by column."""
    return [dict(zip(COLUMNS, map(float, line.split()))) for line in run.table.split("\n") if line]


def limit(column, value):
    return LIMITS[column] * (abs(value) if column == "wet_mass_kg" else 1.0)


def rounding(value):
    """How far a number of four digits may be from what it was rounded from."""
    return 0.501 * 10.0 ** (math.floor(math.log10(abs(value))) - 3) if value else 0.0
