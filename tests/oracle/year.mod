# A year of supplies in balance, one linear programme for all its stages.
#
# How much of what goes into the pile in which month, so that as little as can be of what is fresh goes to waste; then, among all such
# years, what the later stages ask. check_years.py writes the data of each stage, with what the earlier ones reached as limits.
# Masses are shares of all that comes in a year; volumes are m3 of such a share.

set SUPPLIES;
set FRESH  within SUPPLIES, default {};   # used in its month, or wasted
set WAITS  within SUPPLIES, default {};   # of those: may be kept for a month, where that is allowed
set DRY    within SUPPLIES, default {};   # kept as long as there is room
set BOUGHT within SUPPLIES, default {};
set MONTHS := 0..11;

param comes{SUPPLIES, MONTHS} default 0;
param water_in{SUPPLIES};                 # of a kilogram as it is
param dry_in{SUPPLIES};
param carbon_in{SUPPLIES};
param nitrogen_in{SUPPLIES};
param loose{SUPPLIES};                    # m3
param solids{SUPPLIES};                   # m3, of the dry matter itself
param weight{SUPPLIES} default 1;         # of its waste

param ratio_low; param ratio_high;
param moisture_low; param moisture_high;
param least_air;
param room default 1e6;
param may_wait default 0;

param most_waste default 1e6;
param most_of_a_month default 1e6;
param most_bought default 1e6;
param most_waiting default 1e6;
param stage;                              # 1 waste, 2 its worst month, 3 bought, 4 waiting, 5 store

var used{SUPPLIES, MONTHS} >= 0;
var left{SUPPLIES, MONTHS} >= 0;
var kept{SUPPLIES, MONTHS} >= 0;
var bought{SUPPLIES, MONTHS} >= 0;
var added_water{MONTHS} >= 0;
var worst >= 0;
var store >= 0;

s.t. account{s in SUPPLIES, m in MONTHS}:
  kept[s, (m + 11) mod 12] + comes[s, m] + bought[s, m] = used[s, m] + left[s, m] + kept[s, m];

s.t. only_bought{s in SUPPLIES diff BOUGHT, m in MONTHS}: bought[s, m] = 0;
s.t. none_left{s in BOUGHT, m in MONTHS}: left[s, m] = 0;
s.t. not_kept{s in SUPPLIES diff DRY, m in MONTHS}:
  kept[s, m] <= if s in WAITS then may_wait * comes[s, m] else 0;

var dry{m in MONTHS};
var water{m in MONTHS};
s.t. of_dry{m in MONTHS}: dry[m] = sum{s in SUPPLIES} dry_in[s] * used[s, m];
s.t. of_water{m in MONTHS}: water[m] = sum{s in SUPPLIES} water_in[s] * used[s, m] + added_water[m];

s.t. not_too_green{m in MONTHS}: sum{s in SUPPLIES} (carbon_in[s] - ratio_low * nitrogen_in[s]) * used[s, m] >= 0;
s.t. not_too_brown{m in MONTHS}: sum{s in SUPPLIES} (carbon_in[s] - ratio_high * nitrogen_in[s]) * used[s, m] <= 0;
s.t. not_too_dry{m in MONTHS}: water[m] >= moisture_low * (water[m] + dry[m]);
s.t. not_too_wet{m in MONTHS}: water[m] <= moisture_high * (water[m] + dry[m]);
s.t. air{m in MONTHS}:
  1000 * sum{s in SUPPLIES} (solids[s] - (1 - least_air) * loose[s]) * used[s, m] + water[m] <= 0;

s.t. stored{m in MONTHS}: sum{s in DRY} loose[s] * kept[s, m] <= store;
s.t. in_the_room: store <= room;

var waste_of{m in MONTHS};
s.t. wasted{m in MONTHS}: waste_of[m] = sum{s in FRESH} weight[s] * dry_in[s] * left[s, m];
s.t. up_to_the_worst{m in MONTHS}: waste_of[m] <= worst;
var waste;      s.t. waste_is: waste = sum{m in MONTHS} waste_of[m];
var all_bought; s.t. bought_is: all_bought = sum{s in BOUGHT, m in MONTHS} loose[s] * bought[s, m];
var waiting;    s.t. waiting_is: waiting = sum{s in FRESH, m in MONTHS} dry_in[s] * kept[s, m];

s.t. stage_1: waste <= most_waste;
s.t. stage_2: worst <= most_of_a_month;
s.t. stage_3: all_bought <= most_bought;
s.t. stage_4: waiting <= most_waiting;

minimize goal:
  if stage = 1 then waste else if stage = 2 then worst else if stage = 3 then all_bought else if stage = 4 then waiting else store;

solve;
printf "%.12g %.12g %.12g %.12g %.12g\n", waste, worst, all_bought, waiting, store;
end;
