#!/usr/bin/env python3
"""Follows a pile through its days, by the page of the process, apart from heapwright.

    pile_oracle.py           all runs: are their balances closed, and do they give the tables?
    pile_oracle.py R1 R3     some of them

What is solved here is the page's model itself, and not the page's way of stepping through it.
Oxygen is solved until it stands, at each evaluation, from the state alone. The days are left to
LSODA, whose steps follow its error; it starts afresh each day, since the air and the pile change
in a jump between two days. The page's tables come from steps of an hour and an oxygen that lags
behind, so they lie a little off what is found here, and that little is the size of these two
shortcuts.

That little is, on the days in the tables and with their rounding: 0.019 degC in the core (R2, day
2), 0.010 in the mean (R2, day 7), 0.005 at the edge, 5e-5 of the volatile solids, of moisture and
of what has rotted in the rawest shell. The days on which the piles are hottest, ready for a lawn,
mature and very mature agree in all five runs.
"""

import argparse
import math
import sys
import time
from dataclasses import dataclass

from scipy.integrate import odeint

import pile_runs

DAY = 86400.0  # s
ZERO = 273.15  # K, of 0 degC

# Kinetics
FAST_RATE, SLOW_RATE = 0.098, 0.0200  # a day at 37 degC
COLDEST, BEST, HOTTEST = -3.0, 57.4, 70.4  # degC
FIRST_ACTIVITY, GROWTH = 0.31, 1.0
HALF_OXYGEN, AIR_OXYGEN = 0.02, 0.205  # volume fractions
LAB_TEMPERATURE = 37.0
LAB_FACTOR = 1.45

# For 1 kg of volatile solids that is oxidised
HEAT, OXYGEN, WATER, CARBON = 19.7e6, 1.42, 0.477, 0.53
OXYGEN_DENSITY = 1.33

# Heat and water
DRY_HEAT, WATER_HEAT, FUSION = 1250.0, 4186.0, 3.34e5
AIR_DENSITY, AIR_HEAT, AIR_VISCOSITY, GRAVITY = 1.2, 1006.0, 1.9e-5, 9.81
CONDUCTION, CONDUCTION_DRY, CONDUCTION_WET = 0.053, 3.3e-4, 7.9e-4
SURFACE_HEAT = 10.0  # W/m2.K
HUMIDITY = 0.65

# Air
OXYGEN_DIFFUSION, VAPOUR_DIFFUSION = 2.0e-5, 2.6e-5  # m2/s
PERMEABILITY, AIR_EXPONENT = 6.5e-9, 0.70
STILL_AIR_FLOW = 1.95e-5  # m/s
STILL_LAYER = 0.053  # m
VENT = 1.0

# Room
DRY_PARTICLES, WATER_PARTICLES = 1500.0, 1000.0  # kg/m3
FINISHED_DENSITY = 188.0  # kg dry/m3
LEAST_AIR_SPACE, LEAST_ROOM = 0.02, 1.05

# Events
TURNING_LOSS, OF_IT_VAPOUR, MOST_OF_THE_WATER = 0.125, 0.70, 0.05
MOST_WATER = 2.4  # kg/kg dry
PLAN_PART = 1 / 2.3  # the ground under a free pile, which rain falls on, over the exposed area
DRIED, TAKEN_UP = 0.085, 0.30  # of the rain: mm a day for each degC, and a part of what is left

# Nitrogen
MOST_LOST, HALF_LOST_AT, LOST_WIDTH, NITROGEN_ORDER = 0.65, 27.25, 6.595, 2.0

# Levels of the finish: the most respiration, the most C:N and the least share that has rotted in
# the rawest shell. No mixture here has wood, so nothing of a pile stays on the screen.
LAWN, MATURE, VERY_MATURE = (8.0, 30.0, 0.60), (4.0, 25.0, 0.80), (2.0, 25.0, 0.80)
FIRST_READY, CURE = 14, 21  # days

RELATIVE_ERROR = 1e-8  # of a step; 1e-10 changes no temperature by more than 2e-6 degC
SETTLED = 1e-13  # of the oxygen, a volume fraction


# ---------------------------------------------------------------------------------------------
# The forms of the page
# ---------------------------------------------------------------------------------------------

def temperature_form(t):
    if not COLDEST < t < HOTTEST:
        return 0.0
    return ((t - HOTTEST) * (t - COLDEST) ** 2
            / ((BEST - COLDEST) * ((BEST - COLDEST) * (t - BEST)
                                   - (BEST - HOTTEST) * (BEST + COLDEST - 2 * t))))


AT_LAB_TEMPERATURE = temperature_form(LAB_TEMPERATURE)


def speed(t, moisture, air_space):
    """Against that at 37 degC, with water and air enough."""
    return (temperature_form(t) / AT_LAB_TEMPERATURE
            / (1 + math.exp(7.0622 - 17.684 * moisture))
            / (1 + math.exp(3.4945 - 23.675 * air_space)))


def saturated_vapour(t):
    """kg/m3"""
    return 610.94 * math.exp(17.625 * t / (t + 243.04)) / (461.5 * (t + ZERO))


def vapour_heat(t):
    """J/kg, from liquid water of 0 degC."""
    return 2.501e6 + 1860.0 * t


def temperature_of(heat, dry, water):
    """degC; the heat is nothing in dry matter and liquid water of 0 degC."""
    capacity = DRY_HEAT * dry + WATER_HEAT * water
    if heat >= 0.0:
        return heat / capacity
    return min(0.0, (heat + FUSION * water) / capacity)


def least_volume(water_to_dry):
    """m3 of the particles of 1 kg of dry mass and of its water."""
    return 1 / DRY_PARTICLES + water_to_dry / WATER_PARTICLES


def lost_nitrogen(carbon_to_nitrogen):
    """The part of a mixture's nitrogen that is lost in the end."""
    return MOST_LOST / (1 + math.exp((carbon_to_nitrogen - HALF_LOST_AT) / LOST_WIDTH))


# ---------------------------------------------------------------------------------------------
# A pile
# ---------------------------------------------------------------------------------------------

@dataclass
class Pile:
    """What stays as it is between additions."""
    shells: int
    radius: float  # m, as built
    scale: float  # of the volume and area of spheres, to those of the pile
    volume: float  # m3, as built
    specific_volume: float  # m3/kg dry, as built
    exposed_area: float
    cover: float
    inert: float  # kg of volatile solids that stay
    ash: float
    degradable: float  # kg that were ever put in
    solids: float  # kg of volatile solids that were ever put in
    nitrogen: float  # kg that was ever put in
    volatile_nitrogen: float  # kg of it that may be lost

    def __post_init__(self):
        n = self.shells
        self.share = [(3 * i * i + 3 * i + 1) / n ** 3 for i in range(n)]
        self.surfaces = [4 * math.pi * self.scale * ((i + 1) / n) ** 2 for i in range(n)]
        self.shrinking = math.log(max(FINISHED_DENSITY, 1 / self.specific_volume)
                                  * self.specific_volume)


@dataclass(frozen=True)
class Air:
    """The air of one day, all day long."""
    temperature: float

    def vapour(self):
        return HUMIDITY * saturated_vapour(self.temperature)


class State:
    """The numbers that LSODA integrates, by name; lists of one for each shell."""

    def __init__(self, y, n):
        self.heat, self.fast, self.slow, self.water = (y[k * n:(k + 1) * n] for k in range(4))
        self.nitrogen, self.activity = y[4 * n:4 * n + 2]
        # What has passed since the pile was built:
        self.oxidised, self.vapour_out, self.heat_out, self.heat_of_matter = y[4 * n + 2:]

    def numbers(self):
        return [*self.heat, *self.fast, *self.slow, *self.water, self.nitrogen, self.activity,
                self.oxidised, self.vapour_out, self.heat_out, self.heat_of_matter]


class Shells:
    """Everything that a state says of each shell, as the page has it in its third section."""

    def __init__(self, pile, state):
        n = pile.shells
        self.dry, self.temperature, self.moisture, self.water_to_dry = [], [], [], []
        self.air_space, self.conductivity, self.vapour = [], [], []
        self.volume = 0.0
        for i in range(n):
            share, water = pile.share[i], state.water[i]
            degradable = state.fast[i] + state.slow[i]
            dry = degradable + (pile.inert + pile.ash) * share
            wet = water / dry
            t = temperature_of(state.heat[i], dry, water)
            degraded = max(0.0, 1 - degradable / (pile.degradable * share))
            particles = least_volume(wet)
            room = max(pile.specific_volume * math.exp(-pile.shrinking * degraded),
                       LEAST_ROOM * particles)
            self.dry.append(dry)
            self.water_to_dry.append(wet)
            self.temperature.append(t)
            self.moisture.append(water / (water + dry))
            self.air_space.append(max(LEAST_AIR_SPACE, 1 - particles / room))
            self.conductivity.append(CONDUCTION + (CONDUCTION_DRY + CONDUCTION_WET * wet) / room)
            self.vapour.append(wet / (wet + 0.08) * saturated_vapour(t))
            self.volume += room * dry
        self.radius = pile.radius * (self.volume / pile.volume) ** (1 / 3)
        self.thickness = self.radius / n
        self.mean_temperature = sum(map(float.__mul__, pile.share, self.temperature))
        self.mean_air_space = sum(map(float.__mul__, pile.share, self.air_space))


def links(pile, shells):
    """Of each shell with the next one, and of the last with the air: for heat, and for gas."""
    heat, gas = [], []
    k, air = shells.conductivity, [e * e for e in shells.air_space]
    thickness, last = shells.thickness, pile.shells - 1
    areas = [surface * shells.radius ** 2 for surface in pile.surfaces]
    for i in range(last):
        per_thickness = 2 * areas[i] / thickness
        heat.append(k[i] * k[i + 1] / (k[i] + k[i + 1]) * per_thickness)
        gas.append(air[i] * air[i + 1] / (air[i] + air[i + 1]) * per_thickness)
    heat.append(areas[last] / (1 / SURFACE_HEAT + thickness / (2 * k[last])))
    gas.append(pile.cover * areas[last] / (thickness / (2 * air[last]) + STILL_LAYER))
    return heat, gas, areas[last]


def draught(shells, outer_area, air):
    """m3/s of air through the whole pile."""
    e = shells.mean_air_space
    permeability = PERMEABILITY * (e / 0.5) ** 3 * (0.5 / (1 - e)) ** AIR_EXPONENT
    warmer = max(shells.mean_temperature - air.temperature, 0.0)
    buoyancy = AIR_DENSITY * GRAVITY * warmer / (air.temperature + ZERO)
    return VENT * (permeability * buoyancy / AIR_VISCOSITY + STILL_AIR_FLOW) * outer_area / 3


def oxygen_in(gas, flows, demand):
    """The oxygen of each shell at which as much comes in as is used up.

    Newton's steps, each by elimination. The use of oxygen is concave in it and the links are
    those of a network, so from the first step on the oxygen is too low everywhere and rises to
    the answer; what the first step may put below nothing is raised to nothing, and stays too low.
    """
    n = len(gas)
    conductance = [OXYGEN_DIFFUSION * link for link in gas]
    oxygen = [AIR_OXYGEN] * n
    factor, value = [0.0] * n, [0.0] * n
    for _ in range(100):
        below, below_factor, below_value = 0.0, 0.0, 0.0
        for i in range(n):
            o, above, d = oxygen[i], conductance[i], demand[i]
            slope = d * HALF_OXYGEN / (o + HALF_OXYGEN) ** 2
            pivot = below + above + flows[i] + slope - below * below_factor
            source = flows[i] * AIR_OXYGEN + slope * o - d * o / (o + HALF_OXYGEN)
            if i == n - 1:
                source += above * AIR_OXYGEN
            below_factor = factor[i] = above / pivot
            below_value = value[i] = (source + below * below_value) / pivot
            below = above
        change, outer = 0.0, 0.0
        for i in range(n - 1, -1, -1):
            outer = value[i] + factor[i] * outer if i < n - 1 else value[i]
            change = max(change, abs(outer - oxygen[i]))
            oxygen[i] = outer
        if change < SETTLED:
            return oxygen
        oxygen = [max(o, 0.0) for o in oxygen]
    raise ArithmeticError(f"the oxygen does not settle: {oxygen}")


@dataclass
class Workings:
    """What one evaluation finds besides the state."""
    shells: Shells
    heat_links: list
    gas_links: list
    flows: list  # m3/s of air through each shell
    oxygen: list
    fast: list  # kg/s of each shell that are oxidised
    slow: list
    mean_speed: float


def work_out(pile, state, air):
    shells = Shells(pile, state)
    heat_links, gas_links, outer_area = links(pile, shells)
    through = draught(shells, outer_area, air)
    flows = [through * share for share in pile.share]
    speeds = list(map(speed, shells.temperature, shells.moisture, shells.air_space))
    at_once = (HALF_OXYGEN + AIR_OXYGEN) / AIR_OXYGEN
    fast = [FAST_RATE / DAY * g * state.activity * f for g, f in zip(speeds, state.fast)]
    slow = [SLOW_RATE / DAY * g * state.activity * s for g, s in zip(speeds, state.slow)]
    demand = [(f + s) * OXYGEN / OXYGEN_DENSITY * at_once for f, s in zip(fast, slow)]
    oxygen = oxygen_in(gas_links, flows, demand)
    held_back = [o / (o + HALF_OXYGEN) * at_once for o in oxygen]
    return Workings(shells, heat_links, gas_links, flows, oxygen,
                    list(map(float.__mul__, fast, held_back)),
                    list(map(float.__mul__, slow, held_back)),
                    sum(map(float.__mul__, pile.share, speeds)))


def change(pile, state, air):
    """Of every number of the state, a second."""
    n = pile.shells
    w = work_out(pile, state, air)
    t = [*w.shells.temperature, air.temperature]
    vapour = [*w.shells.vapour, air.vapour()]
    heat_in_vapour = list(map(vapour_heat, t))
    heat, water = [], []
    from_below, vapour_from_below = 0.0, 0.0
    vapour_out, heat_out, heat_of_matter = 0.0, 0.0, 0.0
    for i in range(n):
        oxidised, flow = w.fast[i] + w.slow[i], w.flows[i]
        vapour_up = w.gas_links[i] * VAPOUR_DIFFUSION * (vapour[i] - vapour[i + 1])
        up = (w.heat_links[i] * (t[i] - t[i + 1])
              + vapour_up * heat_in_vapour[i if vapour_up > 0 else i + 1])
        carried = flow * (vapour[i] - vapour[n])
        heat_carried = flow * (vapour[i] * heat_in_vapour[i] - vapour[n] * heat_in_vapour[n]
                               + AIR_DENSITY * AIR_HEAT * (t[i] - t[n]))
        of_matter = oxidised * (WATER * WATER_HEAT - DRY_HEAT) * t[i]
        water.append(WATER * oxidised - carried - vapour_up + vapour_from_below)
        heat.append(HEAT * oxidised + of_matter - heat_carried - up + from_below)
        vapour_out += carried
        heat_out += heat_carried
        heat_of_matter += of_matter
        from_below, vapour_from_below = up, vapour_up
    oxidised = sum(w.fast) + sum(w.slow)
    left = sum(state.fast) + sum(state.slow)
    a = state.activity
    return [*heat, *(-f for f in w.fast), *(-s for s in w.slow), *water,
            -NITROGEN_ORDER * state.nitrogen * oxidised / left,
            GROWTH / DAY * w.mean_speed * a * (1 - a),
            oxidised, vapour_out + vapour_from_below, heat_out + from_below, heat_of_matter]


# ---------------------------------------------------------------------------------------------
# Events
# ---------------------------------------------------------------------------------------------

@dataclass
class Ledger:
    """What events brought into the pile and took out of it: kg of water, J."""
    water_in: float = 0.0
    water_out: float = 0.0
    heat_in: float = 0.0
    heat_out: float = 0.0


@dataclass(frozen=True)
class Portion:
    """What is in an amount of the mixture as it is when fresh: kg."""
    dry: float
    water: float
    solids: float
    fast: float
    slow: float
    nitrogen: float


def portion(run, dry):
    """So much dry mass of the run's mixture."""
    shares = math.fsum(share for share, _ in run.mix)
    parts = [(dry * share / shares * m.volatile, m) for share, m in run.mix]
    return Portion(dry=dry, water=dry * run.moisture / (1 - run.moisture),
                   solids=math.fsum(solids for solids, _ in parts),
                   fast=math.fsum(solids * m.fast for solids, m in parts),
                   slow=math.fsum(solids * m.slow for solids, m in parts),
                   nitrogen=math.fsum(CARBON * solids / m.carbon_to_nitrogen
                                      for solids, m in parts))


def spread(values, amount, share):
    """Adds an amount to shells by their shares."""
    values[:] = [value + amount * part for value, part in zip(values, share)]


def mix_all(values, total, share):
    values[:] = [total * part for part in share]


def put_in(pile, state, fresh, temperature):
    """Returns the heat that came in."""
    heat = (DRY_HEAT * fresh.dry + WATER_HEAT * fresh.water) * temperature
    if temperature < 0.0:
        heat -= FUSION * fresh.water
    for values, amount in ((state.heat, heat), (state.fast, fresh.fast),
                           (state.slow, fresh.slow), (state.water, fresh.water)):
        spread(values, amount, pile.share)
    degradable = fresh.fast + fresh.slow
    lost = fresh.nitrogen * lost_nitrogen(CARBON * fresh.solids / fresh.nitrogen)
    state.nitrogen += lost
    pile.inert += fresh.solids - degradable
    pile.ash += fresh.dry - fresh.solids
    pile.degradable += degradable
    pile.solids += fresh.solids
    pile.nitrogen += fresh.nitrogen
    pile.volatile_nitrogen += lost
    return heat


def build(run):
    """The pile as it stands at the start of its first day, its state and its ledger."""
    wet = run.volume * run.wet_density
    fresh = portion(run, wet * (1 - run.moisture))
    radius = 3 * run.volume / run.exposed_area
    shells = min(max(math.floor(radius / 0.08 + 0.5), 3), 6)
    pile = Pile(shells=shells, radius=radius,
                scale=run.volume / (4 / 3 * math.pi * radius ** 3), volume=run.volume,
                specific_volume=run.volume / fresh.dry, exposed_area=run.exposed_area,
                cover=run.cover, inert=0.0, ash=0.0, degradable=0.0, solids=0.0, nitrogen=0.0,
                volatile_nitrogen=0.0)
    state = State([0.0] * (4 * shells + 6), shells)
    state.activity = FIRST_ACTIVITY
    ledger = Ledger(water_in=fresh.water)
    ledger.heat_in = put_in(pile, state, fresh, run.air(0.5))
    return pile, state, ledger


def feed(pile, state, ledger, fresh, air):
    ledger.heat_in += put_in(pile, state, fresh, max(air.temperature, 5.0))
    ledger.water_in += fresh.water


def turn(pile, state, ledger, air, moisture_wanted):
    heat, water = sum(state.heat), sum(state.water)
    fast, slow = sum(state.fast), sum(state.slow)
    dry = fast + slow + pile.inert + pile.ash
    t = temperature_of(heat, dry, water)
    if t > air.temperature and t > 0.0:
        lost = TURNING_LOSS * (DRY_HEAT * dry + WATER_HEAT * water) * (t - air.temperature)
        steam = min(OF_IT_VAPOUR * lost / vapour_heat(t), MOST_OF_THE_WATER * water)
        heat, water = heat - lost, water - steam
        ledger.heat_out += lost
        ledger.water_out += steam
    if moisture_wanted > 0.0 and temperature_of(heat, dry, water) > 0.0:
        poured = max(0.0, dry * moisture_wanted / (1 - moisture_wanted) - water)
        warmth = WATER_HEAT * poured * max(air.temperature, 2.0)
        heat, water = heat + warmth, water + poured
        ledger.heat_in += warmth
        ledger.water_in += poured
    for values, total in ((state.heat, heat), (state.fast, fast), (state.slow, slow),
                          (state.water, water)):
        mix_all(values, total, pile.share)


def rain_taken(millimetres, t):
    """What a free pile takes up, in mm: some dries off its crust, of the rest most runs off."""
    if t <= 0.0:
        return 0.0
    return TAKEN_UP * max(0.0, millimetres - DRIED * t)


def rain(pile, state, ledger, air, millimetres):
    taken = rain_taken(millimetres, air.temperature) * pile.exposed_area * PLAN_PART
    warmth = WATER_HEAT * taken * air.temperature
    spread(state.water, taken, pile.share)
    spread(state.heat, warmth, pile.share)
    ledger.water_in += taken
    ledger.heat_in += warmth


def drain(pile, state, ledger):
    for i, share in enumerate(pile.share):
        dry = state.fast[i] + state.slow[i] + (pile.inert + pile.ash) * share
        too_much = state.water[i] - MOST_WATER * dry
        if too_much > 0.0 and state.heat[i] >= 0.0:
            warmth = WATER_HEAT * too_much * temperature_of(state.heat[i], dry, state.water[i])
            state.water[i] -= too_much
            state.heat[i] -= warmth
            ledger.water_out += too_much
            ledger.heat_out += warmth


# ---------------------------------------------------------------------------------------------
# A run
# ---------------------------------------------------------------------------------------------

def day_of(pile, state, air):
    """The state a day later, and how many evaluations it took."""
    n = pile.shells

    def rates(_, y):
        return change(pile, State(y.tolist(), n), air)

    y = state.numbers()
    shares = pile.share
    dry, water, solids = sum(Shells(pile, state).dry), sum(state.water), pile.degradable
    capacity = DRY_HEAT * dry + WATER_HEAT * water
    scales = [*(capacity * share for share in shares),  # of 1 K
              *(0.1 * solids * share for share in shares * 2),
              *(0.1 * water * share for share in shares),
              0.1 * pile.nitrogen, 1.0, solids, water, capacity, capacity]
    days, info = odeint(rates, y, [0.0, DAY], tfirst=True, rtol=RELATIVE_ERROR,
                        atol=[RELATIVE_ERROR * scale for scale in scales],
                        mxstep=20000, full_output=True)
    if info["message"] != "Integration successful.":
        raise ArithmeticError(info["message"])
    return State(days[-1].tolist(), n), int(info["nfe"][-1])


def figures(pile, state, air, day):
    """A row of the table."""
    w = work_out(pile, state, air)
    t, water, dry = w.shells.temperature, sum(state.water), sum(w.shells.dry)
    solids = sum(state.fast) + sum(state.slow) + pile.inert
    lost = pile.volatile_nitrogen - state.nitrogen

    def respiration(fast, slow, inert):
        return (LAB_FACTOR * CARBON * 1000 * (FAST_RATE * fast + SLOW_RATE * slow)
                / (fast + slow + inert))

    def rotted(fast, slow, share):
        return 1 - (fast + slow) / (pile.degradable * share)

    inert = [pile.inert * share for share in pile.share]
    row = (day, t[0], w.shells.mean_temperature, t[-1], 1 - solids / pile.solids,
           water / (water + dry), CARBON * solids / (pile.nitrogen - lost), lost / pile.nitrogen,
           respiration(sum(state.fast), sum(state.slow), pile.inert),
           max(map(respiration, state.fast, state.slow, inert)),
           min(map(rotted, state.fast, state.slow, pile.share)),
           w.shells.volume / pile.volume, w.oxygen[0], water + dry)
    return dict(zip(pile_runs.COLUMNS, row))


def closure(pile, state, ledger):
    """What is missing in the balances of carbon, water and energy, as parts of what came in."""
    solids = sum(state.fast) + sum(state.slow) + pile.inert
    water, heat = sum(state.water), sum(state.heat)
    released = HEAT * state.oxidised
    return {
        "carbon": (pile.solids - solids - state.oxidised) / pile.solids,
        "water": (ledger.water_in + WATER * state.oxidised - state.vapour_out - ledger.water_out
                  - water) / ledger.water_in,
        "energy": (ledger.heat_in + released + state.heat_of_matter - state.heat_out
                   - ledger.heat_out - heat) / (abs(ledger.heat_in) + abs(released) + 1),
    }


@dataclass
class Course:
    """A run from its first day to its last."""
    rows: list  # at the start of each day, before its events
    closure: dict
    evaluations: int


def follow(run):
    pile, state, ledger = build(run)
    fresh = portion(run, run.added_wet_mass * (1 - run.moisture))
    rows = [figures(pile, state, Air(run.air(0.5)), 0)]
    evaluations = 0
    for day in range(run.days):
        air = Air(run.air(day + 0.5))
        if day in run.additions:
            feed(pile, state, ledger, fresh, air)
        if day in run.turns:
            turn(pile, state, ledger, air, run.moisture_after_turn)
        rain(pile, state, ledger, air, run.rain)
        drain(pile, state, ledger)
        state, calls = day_of(pile, state, air)
        evaluations += calls
        rows.append(figures(pile, state, air, day + 1))  # the oxygen is still of the day gone by
    return Course(rows, closure(pile, state, ledger), evaluations)


# ---------------------------------------------------------------------------------------------
# Checking itself
# ---------------------------------------------------------------------------------------------

CLOSED = 1e-9


def ready_day(rows, level):
    """The first day, from the fourteenth on, that starts with a pile at the level, and the cure."""
    most_respiration, most_carbon, least_rotted = level
    for row in rows:
        if (row["day"] >= FIRST_READY and row["respiration_worst"] <= most_respiration
                and row["carbon_to_nitrogen"] <= most_carbon
                and row["rotted_worst"] >= least_rotted):
            return row["day"] + CURE
    return None


def check(run, course):
    """What is wrong with a course, in words, and the largest differences from the table."""
    wrong = [f"the balance of {name} is {part:.2g} off"
             for name, part in course.closure.items() if not abs(part) <= CLOSED]
    largest = dict.fromkeys(pile_runs.COLUMNS[1:], 0.0)
    for wanted in pile_runs.table_of(run):
        got = course.rows[int(wanted["day"])]
        for column in largest:
            difference = abs(got[column] - wanted[column])
            largest[column] = max(largest[column], difference)
            if not difference <= (pile_runs.limit(column, wanted[column])
                                  + pile_runs.rounding(wanted[column])):
                wrong.append(f"{column} of day {wanted['day']:.0f}: {got[column]:.6g}, "
                             f"the table has {wanted[column]:.4g}")
    hottest = max(course.rows, key=lambda row: row["core_degc"])["day"]
    for what, got, wanted in (
            ("hottest", hottest, run.hottest_day),
            ("ready for a lawn", ready_day(course.rows, LAWN), run.lawn_day),
            ("ready", ready_day(course.rows, MATURE), run.ready_day),
            ("ready, when very mature,", ready_day(course.rows, VERY_MATURE),
             run.ready_day_very_mature)):
        if got != wanted:
            wrong.append(f"{what} on day {got}, the page says {wanted}")
    return wrong, largest


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("runs", nargs="*", metavar="RUN", help="R1 to R5; all of them if none")
    names = parser.parse_args().runs or list(pile_runs.RUNS)
    if not set(names) <= set(pile_runs.RUNS):
        parser.error(f"the runs are {', '.join(pile_runs.RUNS)}")

    failed = 0
    for name in names:
        run, started = pile_runs.RUNS[name], time.monotonic()
        course = follow(run)
        wrong, largest = check(run, course)
        failed += bool(wrong)
        print(f"{name}: {course.evaluations} evaluations in {time.monotonic() - started:.1f} s; "
              + ", ".join(f"{part:.1g} of the {what}" for what, part in course.closure.items())
              + " missing; largest differences from the table, rounding included:")
        for column, difference in largest.items():
            print(f"    {column:22} {difference:.2g}")
        for text in wrong:
            print(f"    WRONG {text}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
