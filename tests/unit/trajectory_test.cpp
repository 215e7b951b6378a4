// A pile from day to day: what is done to it and when, when it counts as ready, and what it is made of.
#include "heapwright/process/trajectory.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <limits>
#include <set>
#include <unistd.h>

#include "heapwright/error.hpp"
#include "heapwright/process/rain.hpp"
#include "heapwright/tables/tables.hpp"
#include "piles.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;
using piles::steady;

namespace {

constexpr double exact = 1e-12;  // a few sums and products of doubles

const ProcessParameters& best() { return piles::every_set().best; }

PileContents contents(const Mix& mix) { return contents_of(mix, piles::materials(), piles::every_set(), best()); }
const PileContents& household() {
  static const PileContents some = contents(piles::household());
  return some;
}

Pile pile_of(const PileContents& contents, TemperaturePoint start) { return Pile(best(), contents, piles::pile_of_0_8_m3(), start); }

Trajectory trajectory_of(const PileContents& contents, const PileCare& care, const DailyWeather& weather, Following following = {}) {
  return run_trajectory(pile_of(contents, weather.front().air), contents, care, weather, following, hourly_steps);
}

/// Something done at the start of a day.
using Work = std::function<void(Pile&, int day)>;
std::vector<PileState> days_of(const PileContents& contents, const DailyWeather& weather, const Work& work) {
  Pile pile = pile_of(contents, weather.front().air);
  std::vector<PileState> days{pile.state()};
  for (int day = 0; day < std::ssize(weather); ++day) {
    work(pile, day);
    pile.drain();
    pile.live_a_day(weather[static_cast<std::size_t>(day)].air, hourly_steps);
    days.push_back(pile.state());
  }
  return days;
}

/// Whether two piles went the same way, to the bit.
bool same(const std::vector<PileState>& one, const std::vector<PileState>& other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(), [](const PileState& a, const PileState& b) {
    return a.core == b.core && a.edge == b.edge && a.mass == b.mass && a.moisture == b.moisture;
  });
}

/// Twenty days of spring, a fortnight just too cold for work, and two weeks just warm enough.
DailyWeather spring_with_frost() {
  DailyWeather weather = steady(12.0, 21);
  for (const DayOfWeather& day : steady(1.99, 14)) weather.push_back(day);
  for (const DayOfWeather& day : steady(2.0, 14)) weather.push_back(day);
  return weather;
}

/// The days at whose start more was put in: no pile gains a tenth of a filling of that in any other way here.
std::vector<int> fed_days(const Trajectory& trajectory, double share) {
  std::vector<int> days;
  for (std::size_t day = 0; day + 1 < trajectory.days.size(); ++day) {
    if (trajectory.days[day + 1].dry - trajectory.days[day].dry > 0.5 * share * trajectory.days.front().dry)
      days.push_back(static_cast<int>(day));
  }
  return days;
}

std::vector<int> fed_on(const Trajectory& trajectory) {
  std::vector<int> days;
  for (const Fed& fed : trajectory.fed) days.push_back(fed.day);
  return days;
}

double worst(const Closure& closure) { return std::max({std::abs(closure.carbon), std::abs(closure.water), std::abs(closure.energy)}); }

/// The built-in tables with a user's file of some text.
Materials with_file(const std::string& text) {
  const auto path = std::filesystem::temp_directory_path() / ("heapwright-trajectory-test-" + std::to_string(getpid()) + ".toml");
  std::ofstream(path) << text;
  Materials all = built_in_materials();
  try {
    all = tables_with(path.string()).materials;
  } catch (...) {
    std::filesystem::remove(path);
    throw;
  }
  std::filesystem::remove(path);
  return all;
}

std::string row(const std::string& id, const std::string& more) {
  return "[[feedstock]]\nid = \"" + id +
         "\"\nmoisture_wet_basis = \"50 %\"\ncarbon_dry_basis = \"45 %\"\ncarbon_to_nitrogen = \"30:1\"\nvolatile_solids_dry_basis = \"90 "
         "%\"\nbulk_density = \"300 kg/m3\"\n" +
         more + "\n";
}

}  // namespace

TEST_CASE("a pile is turned on its days, and left alone in frost", "[trajectory]") {
  const std::optional<MoistureWetBasis> wet_to = GENERATE(std::optional<MoistureWetBasis>(), std::optional(wet_basis(0.6)));
  const DailyWeather weather = spring_with_frost();
  PileCare care;
  care.turn_every = 7;
  care.wet_to = wet_to;
  const Trajectory trajectory = trajectory_of(household(), care, weather);
  const auto turned_on = [&](const std::set<int>& turnings) {
    return days_of(household(), weather, [&](Pile& pile, int day) {
      if (turnings.count(day) > 0) pile.turn(weather[static_cast<std::size_t>(day)].air, wet_to);
    });
  };
  // The frost of the third week finds it still at work, that of the fourth at rest.
  CHECK(trajectory.days[21].core >= working_core);
  CHECK(trajectory.days[28].core < working_core);
  CHECK(same(trajectory.days, turned_on({7, 14, 21, 35, 42})));
  CHECK_FALSE(same(trajectory.days, turned_on({7, 14, 35, 42})));
  CHECK_FALSE(same(trajectory.days, turned_on({7, 14, 21, 28, 35, 42})));
  CHECK((trajectory.water_given.value() > 0.0) == wet_to.has_value());
}

TEST_CASE("a pile that is never turned is watered each fortnight, and not in frost", "[trajectory]") {
  const DailyWeather weather = spring_with_frost();
  const PileContents dry = contents(piles::household(0.45));
  PileCare care;
  care.wet_to = wet_basis(0.55);
  const Trajectory trajectory = trajectory_of(dry, care, weather);
  WaterMass given;
  const auto watered_on = [&](const std::set<int>& waterings) {
    return days_of(dry, weather, [&](Pile& pile, int day) {
      if (waterings.count(day) > 0) pile.water(weather[static_cast<std::size_t>(day)].air, wet_basis(0.55));
      given = pile.water_given();
    });
  };
  CHECK(same(trajectory.days, watered_on({14, 42})));
  CHECK(trajectory.water_given == given);
  CHECK(given.value() > 1.0);
  CHECK_FALSE(same(trajectory.days, watered_on({14, 28, 42})));

  SECTION("one that is turned is watered then and at no other time") {
    care.turn_every = 40;
    const Trajectory turned = trajectory_of(dry, care, weather);
    CHECK(same(turned.days, days_of(dry, weather, [&](Pile& pile, int day) {
                 if (day == 40) pile.turn(weather[40].air, wet_basis(0.55));
               })));
  }
  SECTION("without a moisture to keep it gets none") {
    care.wet_to.reset();
    const Trajectory left = trajectory_of(dry, care, weather);
    CHECK(same(left.days, days_of(dry, weather, [](Pile&, int) {})));
    CHECK(left.water_given.value() == 0.0);
  }
}

TEST_CASE("rain is taken up day by day on the plan area, and none while it freezes", "[trajectory]") {
  PileCare care;
  care.share_of_rain = 0.30;
  const PileContents dry = contents(piles::household(0.45));
  const auto rainy = [](double celsius, double mm) {
    DailyWeather weather = steady(celsius, 10);
    for (DayOfWeather& day : weather) day.rain = mm / 1000.0 * unit::m;
    return weather;
  };
  const Trajectory without = trajectory_of(dry, {}, rainy(10.0, 3.0));
  CHECK(same(without.days, trajectory_of(dry, care, steady(10.0, 10)).days));

  // 0.3 (3 − 0.085 · 10) = 0.645 mm a day (section 6a of the model).
  CHECK(same(trajectory_of(dry, care, rainy(10.0, 3.0)).days,
             days_of(dry, steady(10.0, 10), [](Pile& pile, int) { pile.rain(TemperaturePoint::from_celsius(10.0), 0.000645 * unit::m); })));
  const double fallen = 0.645 * piles::pile_of_0_8_m3().plan.value();  // kg
  Pile pile = pile_of(dry, TemperaturePoint::from_celsius(10.0));
  const double before = pile.state().mass.value();
  pile.rain(TemperaturePoint::from_celsius(10.0), 0.000645 * unit::m);
  CHECK_THAT(pile.state().mass.value() - before, WithinRel(fallen, 1e-10));  // the difference of two larger numbers

  CHECK(same(trajectory_of(dry, care, rainy(10.0, 0.8)).days, without.days));  // all of it dries on the crust
  CHECK(same(trajectory_of(dry, care, rainy(-1.0, 3.0)).days, trajectory_of(dry, {}, rainy(-1.0, 3.0)).days));
}

TEST_CASE("how much of the rain stays in a pile", "[trajectory]") {
  // Check figures of section 17 of the model, in mm a day.
  struct Row {
    double rain, celsius, share, taken;
  };
  for (const Row& row : {Row{3.1, 24.0, 0.30, 0.318}, Row{3.1, 5.0, 0.30, 0.8025}, Row{3.1, -1.0, 0.30, 0.0}, Row{2.2, 10.0, 0.50, 0.675},
                         Row{0.55, 12.0, 0.30, 0.0}, Row{3.1, 0.0, 0.30, 0.0}}) {
    CAPTURE(row.rain, row.celsius);
    const Length taken = rain_taken_up(row.rain / 1000.0 * unit::m, TemperaturePoint::from_celsius(row.celsius), row.share);
    CHECK(1000.0 * taken.value() == Approx(row.taken).margin(1e-12));
  }
  for (double celsius = -20.0; celsius <= 45.0; celsius += 0.5) {
    for (const double mm : {0.0, 0.5, 2.0, 30.0}) {
      const double taken = rain_taken_up(mm / 1000.0 * unit::m, TemperaturePoint::from_celsius(celsius), 0.5).value();
      CHECK(taken >= 0.0);
      CHECK(taken <= 0.5 * mm / 1000.0);
    }
  }
  // Section 6a.
  PileDescription pile;
  CHECK(share_of_rain(std::nullopt).likely == 0.30);
  const std::vector<std::pair<PileShape, double>> shares{
      {PileShape::cone, 0.30}, {PileShape::windrow, 0.30}, {PileShape::bin, 0.50}, {PileShape::round, 0.50}, {PileShape::tumbler, 0.0}};
  for (const auto& [shape, share] : shares) {
    pile.shape = shape;
    pile.covered = false;
    CHECK(share_of_rain(pile).likely == share);
    pile.covered = true;
    CHECK(share_of_rain(pile).high == 0.0);
  }
}

TEST_CASE("in dry air a pile dries sooner", "[trajectory]") {
  DailyWeather dry_air = steady(15.0, 30);
  for (DayOfWeather& day : dry_air) day.humidity = dry_humidity;
  CHECK(trajectory_of(household(), {}, dry_air).days.back().moisture <
        trajectory_of(household(), {}, steady(15.0, 30)).days.back().moisture);
}

TEST_CASE("feeding", "[trajectory]") {
  PileCare care;
  SECTION("goes on until what there is has gone in") {
    care.feeding = Feeding{0.5, 7, 3, 100.0};
    const Trajectory trajectory = trajectory_of(household(), care, steady(15.0, 60));
    CHECK(fed_days(trajectory, 0.5) == std::vector<int>{7, 14, 21});
    CHECK(fed_on(trajectory) == std::vector<int>{7, 14, 21});
    CHECK(trajectory.last_fed() == 21);
  }
  SECTION("puts in a share of the first filling, with its water") {
    care.feeding = Feeding{0.5, 7, 1, 100.0};
    const PileContents more = 0.5 * household();
    CHECK(same(trajectory_of(household(), care, steady(15.0, 10)).days, days_of(household(), steady(15.0, 10), [&](Pile& pile, int day) {
                 if (day == 7) pile.add(more, TemperaturePoint::from_celsius(15.0));
               })));
  }
  SECTION("stops where the pile is full, and goes on when it has sunk") {
    const Feeding feeding{0.25, 7, 5, 1.25};
    care.feeding = feeding;
    care.turn_every = 7;
    const Trajectory trajectory = trajectory_of(household(), care, steady(20.0, 200));
    const std::vector<int> days = fed_days(trajectory, feeding.share);
    CHECK(days == fed_on(trajectory));
    REQUIRE(days.size() >= 3);
    int waited = 0;
    for (int day = 7; day < days.back(); day += 7) {
      CAPTURE(day);
      const bool is_full = trajectory.days[static_cast<std::size_t>(day)].relative_volume + feeding.share > feeding.room;
      CHECK((std::find(days.begin(), days.end(), day) == days.end()) == is_full);
      waited += is_full ? 1 : 0;
    }
    CHECK(waited > 0);
    for (const PileState& state : trajectory.days) CHECK(state.relative_volume <= feeding.room + 0.02);  // it shrinks from the next step on
  }
  SECTION("none goes into a pile without room") {
    care.feeding = Feeding{0.5, 7, 5, 0.4};
    const Trajectory trajectory = trajectory_of(household(), care, steady(15.0, 100));
    CHECK(trajectory.fed.empty());
    CHECK(trajectory.last_fed() == 0);
  }
}

TEST_CASE("a pile with something raw in it is not ready", "[trajectory]") {
  PileCare care;
  care.turn_every = 7;
  care.wet_to = wet_basis(0.55);
  const DailyWeather weather = steady(20.0, 400);
  const Trajectory alone = trajectory_of(household(), care, weather);
  REQUIRE(alone.mature_day);
  REQUIRE(alone.turf_day);
  CHECK(*alone.turf_day < *alone.mature_day);
  const int in_the_cure = *alone.mature_day + 10;
  care.feeding = Feeding{1.0, in_the_cure, 1, 100.0};
  const Trajectory fed = trajectory_of(household(), care, weather);
  REQUIRE(fed_on(fed) == std::vector<int>{in_the_cure});
  REQUIRE(fed.turf_day);
  REQUIRE(fed.mature_day);
  CHECK(*fed.turf_day > in_the_cure);
  CHECK(*fed.mature_day > *fed.turf_day);
}

TEST_CASE("how long a pile is followed does not change when it is ready", "[trajectory]") {
  PileCare care;
  care.turn_every = 7;
  care.wet_to = wet_basis(0.55);
  const DailyWeather weather = steady(20.0, 300);
  SECTION("left alone") {}
  SECTION("fed once more after its cure, if it were still there") {
    const Trajectory alone = trajectory_of(household(), care, weather);
    care.feeding = Feeding{1.0, alone.mature_day.value() + cure, 1, 100.0};
  }
  const Trajectory brief = trajectory_of(household(), care, weather);
  const Trajectory longer = trajectory_of(household(), care, weather, {299});
  REQUIRE(brief.mature_day);
  CHECK(std::ssize(brief.days) < 250);
  CHECK(std::ssize(longer.days) == 300);
  CHECK(longer.turf_day == brief.turf_day);
  CHECK(longer.mature_day == brief.mature_day);
}

TEST_CASE("nothing is ready in less than a fortnight, nor done without its cure", "[trajectory]") {
  // Finished: C:N 13, and nothing left to rot.
  const PileContents compost{OrganicMass(),       OrganicMass(),         50.0 * unit::kg_organic, OrganicMass(),
                             50.0 * unit::kg_dry, 80.0 * unit::kg_water, 2.0 * unit::kg_nitrogen};
  const DailyWeather weather = steady(15.0, 100);
  const Trajectory trajectory = trajectory_of(compost, {}, weather);
  REQUIRE(meets(trajectory.days.front(), mature_limits));
  CHECK(trajectory.turf_day == 14);
  CHECK(trajectory.mature_day == 14);
  CHECK(trajectory.days.size() == 14 + 21 + 1);
  CHECK(trajectory_of(compost, {}, weather, {20}).days.size() == 14 + 21 + 1);
  CHECK(trajectory_of(compost, {}, weather, {36}).days.size() == 37);
  CHECK(trajectory_of(compost, {}, weather, {1000}).days.size() == 101);  // where the weather ends
  CHECK(trajectory_of(compost, {}, steady(15.0, 13)).turf_day == std::nullopt);
}

TEST_CASE("a pile is ready where all three limits are met", "[trajectory]") {
  // Section 7 of the model: 8 mg, 30 and 0.6 for a lawn, 4 mg, 25 and 0.8 mature.
  PileState state;
  state.respiration_worst = 8.0 * mg_carbon_per_g_and_day;
  state.carbon_to_nitrogen = carbon_to_nitrogen(30.0);
  state.rotted_worst = 0.60;
  CHECK(meets(state, turf_limits));
  CHECK_FALSE(meets(state, mature_limits));
  state.respiration_worst = 8.001 * mg_carbon_per_g_and_day;
  CHECK_FALSE(meets(state, turf_limits));
  state.respiration_worst = 8.0 * mg_carbon_per_g_and_day;
  state.rotted_worst = 0.599;
  CHECK_FALSE(meets(state, turf_limits));
  state.respiration_worst = 4.0 * mg_carbon_per_g_and_day;
  state.carbon_to_nitrogen = carbon_to_nitrogen(25.0);
  state.rotted_worst = 0.799;
  CHECK_FALSE(meets(state, mature_limits));
  state.rotted_worst = 0.80;
  CHECK(meets(state, mature_limits));
  state.carbon_to_nitrogen = carbon_to_nitrogen(25.001);
  CHECK_FALSE(meets(state, mature_limits));
  state.carbon_to_nitrogen = carbon_to_nitrogen(std::numeric_limits<double>::infinity());
  CHECK_FALSE(meets(state, turf_limits));
}

TEST_CASE("what is wood passes the lab's tests at once, and is not ready until it has rotted", "[trajectory]") {
  // Half wood chips by dry mass: little in it rots, so that the whole respires little from the start.
  const PileContents woody = contents(piles::mix({{"wood-chips", 80.0}, {"kitchen-scraps", 20.0}}, 0.55));
  CHECK(woody.coarse.value() > 0.5 * woody.volatile_solids().value());
  const PileState built = pile_of(woody, TemperaturePoint::from_celsius(15.0)).state();
  CHECK(built.coarse == woody.coarse);
  CHECK(built.rotted_worst == Approx(0.0).margin(1e-12));
  // Section 7 of the model: of what passes the screen, C:N = 0.53 (VS − coarse)/N.
  const double passing = woody.volatile_solids().value() - woody.coarse.value();
  CHECK_THAT(built.carbon_to_nitrogen.value(), WithinRel(best().cC * passing / woody.nitrogen.value(), exact));
  const double rotting = best().kF * woody.fast.value() + best().kS * woody.slow.value();
  CHECK_THAT(value_in(mg_carbon_per_g_and_day, built.respiration_mean),
             WithinRel(best().kap * 1000.0 * best().cC * rotting / passing, exact));
  CHECK_THAT(built.least_carbon_to_nitrogen.value(),
             WithinRel(best().cC * (woody.inert.value() - woody.coarse.value()) / woody.nitrogen.value(), exact));
}

TEST_CASE("the first hot day", "[trajectory]") {
  PileCare care;
  care.turn_every = 7;
  int hot = 0;
  for (const double air : {2.0, 8.0, 15.0, 25.0}) {
    for (const double moisture : {0.3, 0.55}) {
      CAPTURE(air, moisture);
      const PileContents some = contents(piles::household(moisture));
      const DailyWeather weather = steady(air, 31);
      const Trajectory trajectory = trajectory_of(some, care, weather);
      const auto first_within = [&](int days) {
        return first_hot_day(pile_of(some, weather.front().air), some, care, weather, days, hourly_steps);
      };
      CHECK(first_within(30) == trajectory.hot_day());
      const std::optional<int> day = trajectory.hot_day();
      if (!day) continue;
      ++hot;
      CHECK(trajectory.days[static_cast<std::size_t>(*day)].core > TemperaturePoint::from_celsius(45.0));
      REQUIRE(*day > 0);
      CHECK(trajectory.days[static_cast<std::size_t>(*day - 1)].core <= TemperaturePoint::from_celsius(45.0));
      CHECK(first_within(*day) == day);
      CHECK(first_within(*day - 1) == std::nullopt);
      const DailyWeather to_that_day(weather.begin(), weather.begin() + *day);
      CHECK(first_hot_day(pile_of(some, weather.front().air), some, care, to_that_day, 30, hourly_steps) == day);
    }
  }
  CHECK(hot >= 2);
  CHECK(hot < 8);
}

TEST_CASE("the first hot day of a pile that is fed", "[trajectory]") {
  PileCare care;
  care.feeding = Feeding{1.0, 7, 3, 100.0};
  const PileContents little = 0.05 * household();
  const SettledShape shape{0.04 * unit::m3, 0.55 * unit::m2, 0.24 * unit::m2};
  const DailyWeather weather = steady(18.0, 60);
  const auto pile = [&] { return Pile(best(), little, shape, weather.front().air); };
  const Trajectory trajectory = run_trajectory(pile(), little, care, weather, {}, hourly_steps);
  REQUIRE(trajectory.fed.size() == 3);
  CHECK(first_hot_day(pile(), little, care, weather, 60, hourly_steps) == trajectory.hot_day());
}

namespace {

/// A smooth year without rain, coldest on day 100.
DailyWeather years(double mean_degc, double half_swing, int days) {
  DailyWeather weather;
  for (int day = 0; day < days; ++day)
    weather.push_back({TemperaturePoint::from_celsius(mean_degc - half_swing * std::cos(2.0 * 3.14159265 * (day - 100) / 365.0))});
  return weather;
}

/// A pile of about a wheelbarrow, which is quick to follow.
Trajectory small_trajectory(const PileContents& contents, const PileCare& care, const DailyWeather& weather, Following following) {
  const double size = 0.06 / 0.8;
  const PileContents some = size * contents;
  const SettledShape shape{0.06 * unit::m3, 0.69 * unit::m2, 0.30 * unit::m2};
  return run_trajectory(Pile(best(), some, shape, weather.front().air), some, care, weather, following, hourly_steps);
}

}  // namespace

TEST_CASE("piles that live abreast each live as they would alone, to the bit", "[trajectory]") {
  // Of different shells, more than have a place at a time, turned, fed, dry and wet, and stopping at different times.
  const DailyWeather weather = years(12.0, 10.0, 500);
  std::vector<PileInWeather> piles;
  for (const double size : {0.05, 0.1, 0.3, 1.0, 2.0}) {
    for (const double moisture : {0.35, 0.55, 0.65}) {
      const PileContents some = size * contents(piles::household(moisture));
      const SettledShape shape{size * 0.8 * unit::m3, std::cbrt(size * size) * 3.9 * unit::m2, std::cbrt(size * size) * 1.7 * unit::m2};
      PileCare care;
      if (size > 0.2) care.turn_every = static_cast<int>(10.0 * size) + 4;
      if (moisture < 0.6) care.wet_to = wet_basis(0.5);
      if (size < 0.2) care.feeding = Feeding{0.3, 7, 6, 100.0};
      care.share_of_rain = 0.3;
      const TemperatureDifference warmer = (10.0 * moisture - 5.0) * unit::kelvin;
      piles.push_back({Pile(best(), some, shape, weather.front().air + warmer), some, care, weather, warmer});
    }
  }
  std::set<int> shells;
  for (const PileInWeather& one : piles) shells.insert(one.pile.shells());
  CHECK(shells.size() >= 3);
  const Following following{30, true};
  int told = 0;
  const std::vector<Trajectory> abreast = run_trajectories(piles, following, hourly_steps, [&] { ++told; });
  const std::vector<std::optional<int>> hot_days = first_hot_days(piles, 40, hourly_steps);
  REQUIRE(abreast.size() == piles.size());
  CHECK(told == std::ssize(piles));
  std::set<std::size_t> lengths;
  for (std::size_t i = 0; i < piles.size(); ++i) {
    CAPTURE(i);
    const std::vector<Trajectory> alone = run_trajectories({piles[i]}, following, hourly_steps);
    CHECK(same(abreast[i].days, alone.front().days));
    CHECK(abreast[i].turf_day == alone.front().turf_day);
    CHECK(abreast[i].mature_day == alone.front().mature_day);
    CHECK(hot_days[i] == first_hot_days({piles[i]}, 40, hourly_steps).front());
    lengths.insert(abreast[i].days.size());
  }
  CHECK(lengths.size() >= 4);
}

TEST_CASE("a pile that cannot get ready any more is not followed to the end, where that is told", "[trajectory]") {
  const DailyWeather three_years = years(12.0, 10.0, 3 * 365);
  SECTION("dry under a lid") {
    const PileContents dry = contents(piles::household(0.25));
    const Trajectory given_up = small_trajectory(dry, {}, three_years, {0, true});
    CHECK(std::ssize(given_up.days) > 365);
    CHECK(std::ssize(given_up.days) < 3 * 365);
    CHECK(std::ssize(small_trajectory(dry, {}, three_years, {}).days) == 3 * 365 + 1);
  }
  SECTION("whose C:N cannot come down") {
    PileContents poor = household();
    poor.nitrogen = 0.25 * poor.nitrogen;
    PileCare care;
    care.turn_every = 14;
    care.wet_to = wet_basis(0.55);
    const Trajectory given_up = small_trajectory(poor, care, three_years, {0, true});
    CHECK(given_up.days.back().least_carbon_to_nitrogen > turf_limits.carbon_to_nitrogen);
    CHECK(given_up.days.size() == 366);  // a year, and the day that it begins with
    CHECK(std::ssize(small_trajectory(poor, care, three_years, {}).days) == 3 * 365 + 1);
  }
}

TEST_CASE("giving a pile up does not change when it is ready", "[trajectory]") {
  // Dry and wet ones, rich and poor ones, in the cold and in warmth, turned, rained on, fed, or left alone.
  int ready = 0;
  int given_up = 0;
  for (int pile = 0; pile < 20; ++pile) {
    CAPTURE(pile);
    PileContents some = contents(piles::household(std::array{0.28, 0.36, 0.44, 0.52, 0.60}[static_cast<std::size_t>(pile % 5)]));
    some.nitrogen = std::array{0.45, 0.6, 0.8, 1.0}[static_cast<std::size_t>(pile % 4)] * some.nitrogen;
    DailyWeather weather = years(std::array{2.0, 8.0, 15.0}[static_cast<std::size_t>(pile % 3)], 8.0, 900);
    if (pile % 2 == 0) {
      for (DayOfWeather& day : weather) day.rain = 0.0015 * unit::m;
    }
    PileCare care;
    care.share_of_rain = 0.3;
    if (pile % 7 < 3) care.turn_every = 20;
    if (pile % 7 == 1) care.wet_to = wet_basis(0.5);
    if (pile % 6 == 5) care.feeding = Feeding{0.5, 30, 3, 10.0};
    const Trajectory whole = small_trajectory(some, care, weather, {});
    const Trajectory brief = small_trajectory(some, care, weather, {0, true});
    CHECK(brief.turf_day == whole.turf_day);
    CHECK(brief.mature_day == whole.mature_day);
    ready += whole.mature_day ? 1 : 0;
    given_up += brief.days.size() < whole.days.size() ? 1 : 0;
  }
  CHECK(ready >= 4);
  CHECK(given_up >= 4);
}

TEST_CASE("carbon, water and heat balance through all that is done to a pile", "[trajectory]") {
  // Rounding of some 10⁴ sums, relative to what went in.
  constexpr double rounding = 1e-10;
  DailyWeather weather;
  for (int day = 0; day < 300; ++day)
    weather.push_back({TemperaturePoint::from_celsius(8.0 - 14.0 * std::cos((day - 60) / 58.0)), 0.008 * unit::m, 0.5});
  PileCare care;
  care.share_of_rain = 0.5;  // so that it drains too
  care.wet_to = wet_basis(0.65);
  care.feeding = Feeding{0.3, 7, 20, 2.0};
  SECTION("turned") { care.turn_every = 7; }
  SECTION("never turned") {}
  const Trajectory trajectory = trajectory_of(household(), care, weather);
  CHECK(trajectory.fed.size() > 3);
  CHECK(std::any_of(trajectory.days.begin(), trajectory.days.end(), [](const PileState& day) { return day.core.celsius() <= 0.0; }));
  CHECK(std::any_of(trajectory.days.begin(), trajectory.days.end(), [](const PileState& day) { return day.core.celsius() > 40.0; }));
  CHECK(worst(trajectory.closure) < rounding);
}

TEST_CASE("what a mix is to the pile model", "[trajectory]") {
  const Mix mix = piles::household();
  for (const ProcessParameters& set : {best(), piles::every_set().members.front(), piles::every_set().members.back()}) {
    const PileContents is = contents_of(mix, piles::materials(), piles::every_set(), set);
    CHECK_THAT((is.fast + is.slow + is.inert).value(), WithinRel(mix.organic_matter.value(), exact));
    CHECK_THAT(is.volatile_solids().value(), WithinRel(mix.organic_matter.value(), exact));
    CHECK_THAT(is.dry().value(), WithinRel(mix.dry.value(), exact));
    CHECK(is.water == mix.water);
    CHECK_THAT(set.cC * is.volatile_solids().value() / is.nitrogen.value(), WithinRel(mix.carbon_to_nitrogen->value(), exact));
    const PileState built = Pile(set, is, piles::pile_of_0_8_m3(), TemperaturePoint::from_celsius(15.0)).state();
    CHECK_THAT(built.carbon_to_nitrogen.value(), WithinRel(mix.carbon_to_nitrogen->value(), exact));
    CHECK(is.coarse.value() == 0.0);
    double fast = 0.0;
    double slow = 0.0;
    for (const MixPart& part : mix.parts) {
      const RottingMaterial material = part.id == "leaves-fall"       ? RottingMaterial::leaves
                                       : part.id == "grass-clippings" ? RottingMaterial::grass
                                                                      : RottingMaterial::food;
      fast += set.shares.at(material).fast * part.organic_matter.value();
      slow += set.shares.at(material).slow * part.organic_matter.value();
    }
    CHECK_THAT(is.fast.value(), WithinRel(fast, exact));
    CHECK_THAT(is.slow.value(), WithinRel(slow, exact));
  }

  SECTION("a share of it") {
    const PileContents all = contents(mix);
    const PileContents half = 0.5 * all;
    CHECK(half.fast == 0.5 * all.fast);
    CHECK(half.nitrogen == 0.5 * all.nitrogen);
    CHECK_THAT(half.dry().value(), WithinRel(0.5 * all.dry().value(), exact));
  }
  SECTION("what nobody knows rots like nothing") {
    Mix strange = mix;
    for (MixPart& part : strange.parts) part.id = "moon-dust";
    const PileContents is = contents(strange);
    CHECK(is.fast.value() == 0.0);
    CHECK(is.slow.value() == 0.0);
    CHECK(is.inert == mix.organic_matter);
  }
  SECTION("without nitrogen there is none") {
    Mix without = mix;
    without.carbon_to_nitrogen.reset();
    CHECK(contents(without).nitrogen.value() == 0.0);
  }
}

TEST_CASE("what a feedstock rots like", "[trajectory]") {
  const ProcessEnsemble& ensemble = piles::every_set();
  const ProcessParameters& other = ensemble.members.front();
  const Materials all =
      with_file(row("my-straw", "rots_like = \"straw\"") +
                row("my-own", "rots_like = \"leaves\"\ndegradable = { fast = \"30 %\", slow = \"20 %\" }") +
                row("all-of-it", "rots_like = \"food\"\ndegradable = { fast = \"70 %\", slow = \"30 %\" }") + row("keeps", "") +
                row("spoils", "class = \"must-go\"") + row("lawn", "class = \"clippings\"") + row("bag", "class = \"supplement\"") +
                row("shells", "class = \"mineral\"") + row("like-chips", "like = \"wood-chips\"") +
                row("like-chips-but", "like = \"wood-chips\"\nrots_like = \"manure\"") + row("like-mine", "like = \"my-straw\""));
  const auto shares = [&](const char* id, const ProcessParameters& set) { return ensemble.shares_of(find_feedstock(all, id), set); };
  const auto rots_like = [&](const char* id) { return ensemble.material_of(find_feedstock(all, id)); };

  SECTION("as it says") {
    CHECK(rots_like("my-straw") == RottingMaterial::straw);
    CHECK(shares("my-straw", best()).fast == best().shares.at(RottingMaterial::straw).fast);
    CHECK(shares("my-straw", best()).slow == best().shares.at(RottingMaterial::straw).slow);
    CHECK_THAT(shares("my-straw", other).fast, WithinRel(other.shares.at(RottingMaterial::straw).fast, exact));
  }
  SECTION("its own shares move with the set") {
    const DecayShares usual = best().shares.at(RottingMaterial::leaves);
    const DecayShares drawn = other.shares.at(RottingMaterial::leaves);
    REQUIRE(drawn.fast != usual.fast);
    CHECK_THAT(shares("my-own", best()).fast, WithinRel(0.30, exact));
    CHECK_THAT(shares("my-own", best()).slow, WithinRel(0.20, exact));
    CHECK_THAT(shares("my-own", other).fast, WithinRel(0.30 + drawn.fast - usual.fast, exact));
    CHECK_THAT(shares("my-own", other).slow, WithinRel(0.20 + drawn.slow - usual.slow, exact));
  }
  SECTION("never more than nine tenths") {
    CHECK_THAT(shares("all-of-it", best()).fast, WithinRel(0.7, exact));
    CHECK_THAT(shares("all-of-it", best()).slow, WithinRel(0.2, exact));
    for (const ProcessParameters& set : ensemble.members) {
      for (const Feedstock& feedstock : *all.feedstocks) {
        const DecayShares some = ensemble.shares_of(feedstock, set);
        CHECK((some.fast >= 0.0 && some.slow >= 0.0 && some.fast + some.slow <= most_degradable + exact));
      }
    }
  }
  SECTION("by its class where it says nothing") {
    CHECK(rots_like("keeps") == RottingMaterial::leaves);
    CHECK(rots_like("spoils") == RottingMaterial::food);
    CHECK(rots_like("lawn") == RottingMaterial::grass);
    CHECK(rots_like("bag") == RottingMaterial::food);
    CHECK(rots_like("shells") == RottingMaterial::nothing);
    CHECK(shares("shells", other).fast == 0.0);
    CHECK(shares("shells", other).slow == 0.0);
  }
  SECTION("as the row that it is like") {
    CHECK(rots_like("like-chips") == RottingMaterial::wood_chips);
    CHECK(rots_like("like-chips-but") == RottingMaterial::manure);
    CHECK(rots_like("like-mine") == RottingMaterial::straw);
  }
  SECTION("a pile of it") {
    const Mix mix = piles::mix({{"my-own", 100.0}}, 0.55, all);
    const PileContents is = contents_of(mix, all, ensemble, best());
    CHECK_THAT(is.fast.value(), WithinRel(0.30 * 90.0, exact));
    CHECK_THAT(is.slow.value(), WithinRel(0.20 * 90.0, exact));
    CHECK_THAT(is.ash.value(), WithinRel(10.0, 1e-11));  // the difference of two larger numbers
  }
}

TEST_CASE("every feedstock of ours says what it rots like", "[trajectory]") {
  for (const Feedstock& feedstock : *piles::materials().feedstocks) {
    CAPTURE(feedstock.id);
    CHECK(feedstock.rots_like.has_value());
  }
}

TEST_CASE("rotting like something unknown", "[trajectory]") {
  CHECK_THROWS_WITH(with_file(row("mine", "rots_like = \"strw\"")), Contains("\"strw\"") && Contains("rots_like") && Contains("straw"));
}
