"""The runs of the page of the process, and its tables of what they give.

Moisture is a part of the wet mass; the shares of a mix are of the dry mass. The tables hold the
values at the start of the day, before its events, as the page has them: computed with steps of
an hour, and rounded to four digits.
"""

import math
from dataclasses import dataclass

COLUMNS = ("day", "core_degc", "mean_degc", "edge_degc", "volatile_solids_loss", "moisture",
           "carbon_to_nitrogen", "nitrogen_loss", "respiration_mean", "respiration_worst",
           "relative_volume", "core_oxygen", "wet_mass_kg")

# How far steps of an hour may be from no steps at all. By the page's own scheme, written down in
# Python for once, they are 0.020 degC off in the core, 0.008 in the mean and at the edge, 8e-6 of
# the volatile solids, 9e-6 of moisture, 4e-4 of C:N, 6e-6 of the nitrogen, 3e-4 of respiration,
# 1.4e-5 of the volume, 1.3e-5 of oxygen and 2.4e-5 of the mass, at most, on any day of R1 to R5.
# These limits are two to five times that. An error of 1 % in any one number of the page exceeds
# them in R1 or R2, but for the loss at turning and the flow of still air (which R4 shows), half
# the oxygen (R5), and what no run is moved by: the heat of fusion, the least air space and room,
# and the most water that turning may take.
LIMITS = {
    "core_degc": 0.06, "mean_degc": 0.02, "edge_degc": 0.02, "volatile_solids_loss": 3e-5,
    "moisture": 3e-5, "carbon_to_nitrogen": 1e-3, "nitrogen_loss": 2e-5,
    "respiration_mean": 1e-3, "respiration_worst": 1e-3, "relative_volume": 5e-5,
    "core_oxygen": 5e-5,
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
    rain: float = 0.0  # mm a day
    cover: float = 1.0
    additions: range = range(0)
    added_wet_mass: float = 0.0  # kg a day
    # What the page says of it: the days it is ready, and hottest in its core
    ready_day: int = 0
    ready_day_very_mature: int | None = None
    hottest_day: int = 0
    table: str = ""


def heap_area(volume):
    """The top and sides of a free heap."""
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
0 11.33 11.33 11.33 0 0.5 28.23 0 26.27 26.27 1 0.1931 240
1 16.77 14.35 12.89 0.001679 0.5033 28.23 0.001583 26.21 26.22 0.9979 0.1963 241.2
2 25.02 17.65 14.34 0.004387 0.5064 28.22 0.004126 26.11 26.14 0.9946 0.1942 242.2
3 37.44 22.34 16.29 0.009025 0.5092 28.21 0.008459 25.94 26.03 0.9888 0.1896 242.5
5 57.13 37.04 24.52 0.03435 0.5059 28.15 0.03155 25 25.55 0.9579 0.1881 235.5
7 49.15 38.66 28.54 0.07923 0.4825 27.95 0.07014 23.25 24.41 0.9043 0.195 215.6
14 32.58 28.46 23.82 0.1669 0.4573 27.25 0.1369 19.5 20.74 0.8034 0.2009 188.4
30 35.53 28.73 24.21 0.2732 0.484 25.73 0.2026 14.46 16.92 0.6883 0.1992 176.3
60 43.49 31.67 26.56 0.4104 0.5708 22.57 0.2627 7.916 11.71 0.5506 0.1919 177.9
90 42.2 30.4 26.83 0.4965 0.6637 19.91 0.2862 4.641 6.62 0.4699 0.1779 199.8
120 30.45 25.6 24.01 0.5417 0.6972 18.33 0.2941 3.275 3.93 0.4293 0.1812 206.1
180 14.2 13.19 12.8 0.575 0.7059 17.09 0.298 2.273 2.557 0.4002 0.1982 200.1
240 1.944 1.767 1.699 0.5804 0.7058 16.88 0.2985 2.1 2.371 0.3955 0.2044 198.1
300 0.03124 0.008594 0 0.581 0.7119 16.86 0.2985 2.083 2.353 0.395 0.2048 202.1
365 11.55 11.27 11.15 0.5847 0.7059 16.72 0.2988 1.963 2.219 0.3919 0.2004 196.6
"""

R2_TABLE = """
0 20 20 20 0 0.57 28.23 0 26.27 26.27 1 0.1742 330
1 34.9 28.41 24.61 0.005755 0.5704 28.22 0.005407 26.06 26.09 0.9924 0.1855 328.6
2 59.02 40.87 30.9 0.02035 0.5686 28.19 0.0189 25.52 25.72 0.9732 0.1819 323
3 62.25 48.51 37.8 0.0487 0.5566 28.1 0.04421 24.45 24.94 0.9366 0.1857 306.2
5 59.92 47.19 37.45 0.1139 0.5144 27.73 0.09788 21.81 22.32 0.8551 0.1883 262.7
7 61.92 47.41 36.7 0.1656 0.5384 27.26 0.136 19.55 19.82 0.7932 0.1861 262.3
14 58.02 40.91 31.25 0.2899 0.5362 25.42 0.2114 13.61 14.01 0.654 0.1871 227.4
30 45.71 31.48 25.43 0.4069 0.5454 22.67 0.2615 7.972 8.135 0.5344 0.1895 199.6
60 32.16 25.23 22.39 0.4824 0.5484 20.38 0.2831 5.058 5.085 0.4628 0.1939 179.9
90 27.69 23.28 21.45 0.5208 0.5486 19.07 0.2908 3.876 3.887 0.428 0.1962 169.3
120 25.24 22.25 20.95 0.5468 0.5325 18.14 0.2948 3.121 3.218 0.405 0.1983 156.5
180 22.59 20.98 20.26 0.5772 0.4932 17.01 0.2982 2.203 2.454 0.3788 0.2008 136.8
"""

R3_TABLE = """
0 11.59 11.59 11.59 0 0.55 29.86 0 24.66 24.66 1 0.1918 300
1 16.45 14.42 13.1 0.001752 0.5528 29.85 0.001452 24.6 24.61 0.9975 0.1956 301.4
2 23.84 17.23 14.1 0.004476 0.5556 29.84 0.003702 24.5 24.53 0.9937 0.1941 302.6
3 34.84 21.03 15.4 0.008885 0.5581 29.81 0.007322 24.34 24.43 0.9875 0.1898 303.1
5 58.11 34.65 21.62 0.03147 0.5586 29.68 0.02547 23.5 24.02 0.9563 0.1858 297.3
7 54.94 39.05 26.55 0.07697 0.5426 29.32 0.05998 21.74 23.05 0.8954 0.1906 275
14 32.52 24.09 17.51 0.17 0.5226 28.23 0.1221 17.86 20.17 0.7779 0.1999 240.2
30 31.4 14.98 9.33 0.2651 0.5465 26.56 0.1737 13.57 13.67 0.6655 0.1892 227.7
60 3.449 2.157 1.656 0.3094 0.6344 25.58 0.1938 11.53 11.54 0.6168 0.2019 268
90 0 0 0 0.3123 0.6673 25.51 0.195 11.39 11.39 0.6136 0.204 293.4
120 0 0 0 0.3143 0.6877 25.46 0.1958 11.3 11.3 0.6116 0.2038 311.8
180 28.02 17.96 14.16 0.3614 0.7064 24.26 0.2139 9.146 9.408 0.5621 0.1706 312.5
240 31.96 26.32 23.96 0.4911 0.7062 20.23 0.2488 4.423 4.435 0.4362 0.1711 259.5
300 27.59 24.81 23.65 0.5615 0.706 17.66 0.2584 2.414 2.423 0.3739 0.1855 230.6
365 12.85 12.31 12.06 0.5858 0.7059 16.72 0.2602 1.645 1.646 0.3533 0.2003 220.6
"""

R4_TABLE = """
0 6.206 6.206 6.206 0 0.55 50 0 14.91 14.91 1 0.1703 5750
1 7.217 7.151 7.061 0.0003745 0.5508 49.98 2.583e-05 14.9 14.9 0.9993 0.1926 5758
2 8.482 8.239 7.929 0.0008529 0.5516 49.96 5.88e-05 14.88 14.88 0.9984 0.1971 5766
3 10.1 9.531 8.843 0.001475 0.5524 49.93 0.0001017 14.86 14.87 0.9972 0.1982 5774
5 15.28 13.24 11.03 0.003479 0.5541 49.84 0.0002393 14.8 14.82 0.9933 0.1975 5784
7 28.11 21.13 14.57 0.008205 0.5556 49.62 0.0005621 14.66 14.73 0.9844 0.1918 5780
14 43.04 46.17 48.23 0.1199 0.4636 44.33 0.007418 11.28 11.65 0.7897 0.1968 4309
30 34.08 27.79 20.59 0.2511 0.5518 37.96 0.01357 7.786 7.819 0.5997 0.1887 4483
60 47.12 30.6 15.48 0.3862 0.5473 31.25 0.01777 4.987 5.066 0.4411 0.1874 3751
90 49.37 27.82 11.79 0.4489 0.5539 28.09 0.01899 3.685 3.784 0.3783 0.187 3483
120 51.33 28.93 14.11 0.4901 0.5589 26 0.01953 2.716 2.827 0.3405 0.188 3307
180 51.78 34.25 24.11 0.5417 0.5994 23.38 0.01992 1.285 1.366 0.2966 0.1887 3345
240 33.09 31.2 29.11 0.5655 0.6515 22.17 0.02 0.5124 0.5133 0.2775 0.1909 3688
300 25.34 23.09 21.29 0.5732 0.6967 21.78 0.02001 0.2459 0.247 0.2716 0.194 4179
365 9.229 8.94 8.582 0.5752 0.7059 21.68 0.02001 0.1754 0.1754 0.2701 0.2028 4294
"""

R5_TABLE = """
0 28 28 28 0 0.635 23.68 0 33.39 33.39 1 0.1949 8
1 33.55 31.36 30.78 0.01188 0.6353 23.74 0.01453 32.98 32.99 0.985 0.1924 7.923
2 37.69 33.88 32.88 0.02911 0.6364 23.83 0.03512 32.37 32.41 1.156 0.1875 9.389
3 42.31 36.68 35.2 0.05265 0.6379 23.92 0.06231 31.51 31.6 1.308 0.1834 10.76
5 47.23 39.76 37.77 0.1081 0.6405 24.05 0.1218 29.34 29.58 1.562 0.1797 13.22
7 48 40.27 38.21 0.1562 0.6426 24.01 0.1678 27.3 27.67 1.787 0.1789 15.49
14 47.8 40.12 38.08 0.2603 0.6502 23.29 0.2479 22.38 22.96 2.511 0.1773 23.14
30 46.97 39.39 37.39 0.369 0.6681 21.54 0.3065 16.71 17.3 3.983 0.1734 40.3
60 35.85 32.83 32.04 0.5006 0.6976 18.82 0.3715 8.383 8.86 4.978 0.1778 58.12
90 30.51 29.54 29.29 0.5733 0.7021 16.8 0.3985 3.797 4.001 4.283 0.1916 52.19
120 29.36 28.81 28.67 0.6056 0.7043 15.71 0.4056 2.42 2.542 3.986 0.1963 49.53
"""

MIXED = ((0.60, LEAVES), (0.20, GRASS), (0.20, FOOD))

RUNS = {
    # Built in spring, and left alone.
    "R1": Run(0.8, heap_area(0.8), 300.0, MIXED, 0.50, season(110), 365, rain=1.0,
              ready_day=140, hottest_day=5, table=R1_TABLE),
    # A covered box, turned every third day of its first three months and watered as it is turned.
    "R2": Run(1.0, box_area(1.0), 330.0, MIXED, 0.57, always(20.0), 180, turns=range(3, 88, 3),
              moisture_after_turn=0.55, ready_day=108, hottest_day=3, table=R2_TABLE),
    # Built in autumn: it freezes.
    "R3": Run(1.0, heap_area(1.0), 300.0, ((0.65, LEAVES), (0.20, GRASS), (0.15, FOOD)), 0.55,
              season(293), 365, turns=range(14, 365, 14), moisture_after_turn=0.52, rain=1.0,
              ready_day=272, ready_day_very_mature=346, hottest_day=5, table=R3_TABLE),
    # A windrow of leaves.
    "R4": Run(25.0, 22.0, 230.0, ((1.0, LEAVES),), 0.55, season(320), 365,
              turns=range(14, 365, 14), moisture_after_turn=0.55, rain=1.0,
              ready_day=160, ready_day_very_mature=175, hottest_day=9, table=R4_TABLE),
    # A bin that is fed for seven weeks.
    "R5": Run(0.02, 1.9 * 0.1 ** (2 / 3), 400.0, ((DRY_FOOD, FOOD), (DRY_LEAVES, LEAVES)),
              1.0 - DRY_FOOD - DRY_LEAVES, always(28.0), 120, cover=0.5, additions=range(1, 50),
              added_wet_mass=1.6, ready_day=112, hottest_day=8, table=R5_TABLE),
}


def table_of(run):
    """The rows of the page: dictionaries by column."""
    return [dict(zip(COLUMNS, map(float, line.split()))) for line in run.table.split("\n") if line]


def limit(column, value):
    return LIMITS[column] * (abs(value) if column == "wet_mass_kg" else 1.0)


def rounding(value):
    """How far a number of four digits may be from what it was rounded from."""
    return 0.501 * 10.0 ** (math.floor(math.log10(abs(value))) - 3) if value else 0.0
