# The recipe of a compost pile, one linear programme for all its stages.
#
# A recipe says how many kilograms of each supply, and how much water, go into one pile. It is
# found stage by stage: how near to the aim can the pile come at all; then what the person
# asked for; then how near again; then whatever makes the answer the only one. Every stage is
# this same programme with another objective, and with what the earlier stages reached kept as
# a limit. Nothing here remembers the stages: recipe_oracle.py writes a data section for each.
#
# The rows are meant for exact arithmetic (glpsol --exact), which has two habits to know of:
# - It takes whole numbers as they are, but a broken one only to some ten figures. So each row is
#   multiplied by a large number, `one`, and its coefficients are rounded to whole numbers: read
#   round(one * a) as a.
# - It shows an unknown below 1e-9 as nothing. So the unknown masses are not in kg but in grains,
#   of which a pile has very many; what a grain weighs is given. Masses and volumes of the data
#   section are in kg and m3, except where a comment says grains.

# ---------------------------------------------------------------------------------------------
# What there is
# ---------------------------------------------------------------------------------------------

param never := 1e300;                        # stands for "no such limit"
param one   := 2 ** 60;                      # a power of two: multiplying by it loses nothing

set SUPPLIES;
set FIXED  within SUPPLIES, default {};      # all of it must go in
set RAISED within SUPPLIES, default {};      # what a recipe tries to use up
set SPARED within SUPPLIES, default {};      # bought, supplements, minerals: little is best
set LIMITED within SUPPLIES, default {};     # raised and fixed ones: they set the size
set ENDLESS within SUPPLIES, default {};     # as much as anybody wants

param moisture{SUPPLIES};                    # of the mass as it is
param carbon{SUPPLIES};                      # of dry matter
param nitrogen{SUPPLIES};                    # of dry matter
param bulk_density{SUPPLIES};                # kg/m3, as it lies in its packing
param particle_density{SUPPLIES};            # kg/m3, of the dry solids alone
param price{SUPPLIES}        default 0;      # of one kg
param amount{SUPPLIES}       default never;  # kg at hand or for sale
param most_of_volume{SUPPLIES} default never;  # largest share of the loose volume

param grain > 0;                             # kg
param settling > 0;                          # pile volume over loose volume
param water_density := 1000;

# ---------------------------------------------------------------------------------------------
# The unknowns and their sums
# ---------------------------------------------------------------------------------------------

var mass{SUPPLIES} >= 0;                     # as it is
var water_added >= 0;

var dry;
var water;
var total;
var carbon_mass;
var nitrogen_mass;
var loose_volume;
var pile_volume;
var solids_and_water;                        # the volume that is not air

s.t. sum_dry:
    one * dry = sum{i in SUPPLIES} round(one * (1 - moisture[i])) * mass[i];

s.t. sum_water:
    one * water = sum{i in SUPPLIES} round(one * moisture[i]) * mass[i] + one * water_added;

s.t. sum_total:
    total = sum{i in SUPPLIES} mass[i] + water_added;

s.t. sum_carbon:
    one * carbon_mass = sum{i in SUPPLIES} round(one * carbon[i] * (1 - moisture[i])) * mass[i];

s.t. sum_nitrogen:
    one * nitrogen_mass
    = sum{i in SUPPLIES} round(one * nitrogen[i] * (1 - moisture[i])) * mass[i];

s.t. sum_loose:
    one * loose_volume = sum{i in SUPPLIES} round(one / bulk_density[i]) * mass[i];

s.t. sum_pile:
    one * pile_volume = round(one * settling) * loose_volume;

s.t. sum_solids_and_water:
    one * solids_and_water
    = sum{i in SUPPLIES} round(one * ((1 - moisture[i]) / particle_density[i]
                                      + moisture[i] / water_density)) * mass[i]
      + round(one / water_density) * water_added;

# ---------------------------------------------------------------------------------------------
# Hard limits
# ---------------------------------------------------------------------------------------------

param fill       default never;              # m3, the settled volume wanted
param capacity   default never;              # m3, the settled volume at most
param most_water default never;              # kg added
param least_part default 0;                  # of the mass of all raised supplies: some pile at all
param most_swelling default never;           # dry endless supplies over dry limited ones

s.t. no_more_than_there_is{i in SUPPLIES: amount[i] < never}:
    one * mass[i] <= round(one * amount[i] / grain);

s.t. all_of_it{i in FIXED}:
    one * mass[i] >= round(one * amount[i] / grain);

s.t. share{i in SUPPLIES: most_of_volume[i] < never}:
    round(one / bulk_density[i]) * mass[i] <= round(one * most_of_volume[i]) * loose_volume;

s.t. filled{1..1: fill < never}:
    one * pile_volume = round(one * fill / grain);

s.t. fits_in{1..1: capacity < never}:
    one * pile_volume <= round(one * capacity / grain);

s.t. water_at_most{1..1: most_water < never}:
    one * water_added <= round(one * most_water / grain);

s.t. some_pile{1..1: least_part > 0}:
    one * sum{i in RAISED} mass[i]
    >= round(one * least_part * (sum{i in RAISED} amount[i]) / grain);

s.t. swelling{1..1: most_swelling < never}:
    sum{i in ENDLESS} round(one * (1 - moisture[i])) * mass[i]
    <= most_swelling * sum{i in LIMITED} round(one * (1 - moisture[i])) * mass[i];

# ---------------------------------------------------------------------------------------------
# The windows, and the distance from their aims
#
# A distance is 0 on the aim, 1 on the edge of the window, and beyond 1 outside. For a given
# distance the rows below are linear, and they give way as it grows. Each window has its own.
# ---------------------------------------------------------------------------------------------

set WINDOWS := {'carbon_to_nitrogen', 'moisture', 'air_space'};
set RATIOS  := {'carbon_to_nitrogen', 'moisture'};

param low{WINDOWS};                          # air space has a low edge only
param aim{RATIOS};
param high{RATIOS};

param distance{WINDOWS} default never;       # never: as if there were no such window

# For each further 1 beyond the edge the low side steps down, and the high side up, by so much.
param step_down{w in WINDOWS} :=
    if w = 'carbon_to_nitrogen' then 5 else if w = 'moisture' then 0.10 else 0.05;
param step_up{w in RATIOS} :=
    if w = 'carbon_to_nitrogen' then 15 else 0.05;

param lowest{w in RATIOS: distance[w] < never} :=
    if distance[w] <= 1 then aim[w] - distance[w] * (aim[w] - low[w])
    else low[w] - (distance[w] - 1) * step_down[w];
param highest{w in RATIOS: distance[w] < never} :=
    if distance[w] <= 1 then aim[w] + distance[w] * (high[w] - aim[w])
    else high[w] + (distance[w] - 1) * step_up[w];
param least_air :=
    if distance['air_space'] <= 1 then low['air_space']
    else if distance['air_space'] = never then 0
    else low['air_space'] - (distance['air_space'] - 1) * step_down['air_space'];

# How fast each side gives way at this distance (just below it, where it has a corner).
param low_pace{w in RATIOS} :=
    if distance[w] <= 1 then aim[w] - low[w] else step_down[w];
param high_pace{w in RATIOS} :=
    if distance[w] <= 1 then high[w] - aim[w] else step_up[w];
param air_pace :=
    if distance['air_space'] <= 1 then 0 else step_down['air_space'];

# The windows being lowered are tightened by a margin, a part of one distance, to see whether a
# smaller distance is within reach. Tightening a ratio times an unknown sum would not be linear;
# a reference sum near the answer stands in for the unknown one. It alters only how far the next
# trial goes: the greatest margin is above nothing if, and only if, the distance can still fall.
set LOWERED within WINDOWS, default {};
param reference{WINDOWS} default 1;          # nitrogen, total mass, pile volume; in grains

var margin <= 10;                            # a bound, so that no pile without end comes of it

param low_margin{w in RATIOS}  := if w in LOWERED then low_pace[w] * reference[w] else 0;
param high_margin{w in RATIOS} := if w in LOWERED then high_pace[w] * reference[w] else 0;
param air_margin := if 'air_space' in LOWERED then air_pace * reference['air_space'] else 0;

s.t. carbon_low{w in {'carbon_to_nitrogen'}: distance[w] < never}:
    one * carbon_mass >= round(one * lowest[w]) * nitrogen_mass
                         + round(one * low_margin[w]) * margin;

s.t. carbon_high{w in {'carbon_to_nitrogen'}: distance[w] < never}:
    one * carbon_mass <= round(one * highest[w]) * nitrogen_mass
                         - round(one * high_margin[w]) * margin;

s.t. water_low{w in {'moisture'}: distance[w] < never}:
    one * water >= round(one * lowest[w]) * total + round(one * low_margin[w]) * margin;

s.t. water_high{w in {'moisture'}: distance[w] < never}:
    one * water <= round(one * highest[w]) * total - round(one * high_margin[w]) * margin;

s.t. air{w in {'air_space'}: distance[w] < never}:
    one * solids_and_water <= round(one * (1 - least_air)) * pile_volume
                              - round(one * air_margin) * margin;

# ---------------------------------------------------------------------------------------------
# What earlier stages reached
# ---------------------------------------------------------------------------------------------

param least_fraction{RAISED} default 0;      # used, of what is at hand
param most_cost   default never;             # these five in grains, like the unknowns
param most_spared default never;
param most_added  default never;
param most_loose  default never;
param least_pile  default 0;

var cost;
var spared_volume;

s.t. sum_cost:
    one * cost = sum{i in SUPPLIES} round(one * price[i]) * mass[i];

s.t. sum_spared:
    one * spared_volume = sum{i in SPARED} round(one / bulk_density[i]) * mass[i];

s.t. keep_fraction{i in RAISED: least_fraction[i] > 0}:
    one * mass[i] >= round(one * least_fraction[i] * amount[i] / grain);

s.t. keep_cost{1..1: most_cost < never}:
    one * cost <= round(one * most_cost);

s.t. keep_spared{1..1: most_spared < never}:
    one * spared_volume <= round(one * most_spared);

s.t. keep_water{1..1: most_added < never}:
    one * water_added <= round(one * most_added);

s.t. keep_loose{1..1: most_loose < never}:
    one * loose_volume <= round(one * most_loose);

s.t. keep_pile{1..1: least_pile > 0}:
    one * pile_volume >= round(one * least_pile);

# ---------------------------------------------------------------------------------------------
# The objective of this stage
# ---------------------------------------------------------------------------------------------

set SHARING within RAISED, default {};       # whose smallest used fraction is raised

var smallest_fraction <= 1;

s.t. used{i in SHARING}:
    one * mass[i] >= round(one * amount[i] / grain) * smallest_fraction;

param objective, symbolic, in
    {'margin', 'fraction', 'cost', 'spared', 'water', 'pile', 'loose', 'mass'};

minimize goal:
    if      objective = 'margin'   then -margin
    else if objective = 'fraction' then -smallest_fraction
    else if objective = 'cost'     then cost
    else if objective = 'spared'   then spared_volume
    else if objective = 'water'    then water_added
    else if objective = 'pile'     then -pile_volume
    else if objective = 'loose'    then loose_volume
    else sum{i in SUPPLIES} mass[i];

solve;

printf "ANSWER goal %.17g\n", goal;
printf "ANSWER water %.17g\n", water_added;
printf{i in SUPPLIES} "ANSWER mass %s %.17g\n", i, mass[i];

end;
