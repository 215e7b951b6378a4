// A heap from day to day: what is done to it and when, when it counts as ready, and what it is made of.
#include "heapwright/process/course.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <limits>
#include <set>
#include <unistd.h>

#include "heaps.hpp"
#include "heapwright/error.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;
using heaps::steady;

namespace {

using Air = std::vector<TemperaturePoint>;

constexpr double exact = 1e-12;  // a few sums and products of doubles

const ProcessParameters& best() { return heaps::every_set().best; }

HeapContents contents(const Mix& mix) { return contents_of(mix, heaps::materials(), heaps::every_set(), best()); }
const HeapContents& household() {
  static const HeapContents some = contents(heaps::household());
  return some;
}

Pile pile_of(const HeapContents& contents, TemperaturePoint start) { return Pile(best(), contents, heaps::heap_of_0_8_m3(), start); }

Course course_of(const HeapContents& contents, const HeapCare& care, const Air& air, int least_days = 0) {
  return run_course(pile_of(contents, air.front()), contents, care, air, least_days, hourly_steps);
}

/// Something done at the start of a day.
using Work = std::function<void(Pile&, int day)>;
std::vector<PileState> days_of(const HeapContents& contents, const Air& air, const Work& work) {
  Pile pile = pile_of(contents, air.front());
  std::vector<PileState> days{pile.state()};
  for (int day = 0; day < std::ssize(air); ++day) {
    work(pile, day);
    pile.drain();
    pile.live_a_day(air[static_cast<std::size_t>(day)], hourly_steps);
    days.push_back(pile.state());
  }
  return days;
}

/// Whether two heaps went the same way, to the bit.
bool same(const std::vector<PileState>& one, const std::vector<PileState>& other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(), [](const PileState& a, const PileState& b) {
    return a.core_degc == b.core_degc && a.edge_degc == b.edge_degc && a.wet_mass_kg == b.wet_mass_kg && a.moisture == b.moisture;
  });
}

/// Twenty days of spring, a fortnight just too cold for work, and two weeks just warm enough.
Air spring_with_frost() {
  Air air = steady(12.0, 21);
  for (const TemperaturePoint day : steady(1.99, 14)) air.push_back(day);
  for (const TemperaturePoint day : steady(2.0, 14)) air.push_back(day);
  return air;
}

/// The days at whose start more was put in: no heap gains a tenth of a filling of that in any other way here.
std::vector<int> fed_days(const Course& course, double share) {
  std::vector<int> days;
  for (std::size_t day = 0; day + 1 < course.days.size(); ++day) {
    if (course.days[day + 1].dry_mass_kg - course.days[day].dry_mass_kg > 0.5 * share * course.days.front().dry_mass_kg)
      days.push_back(static_cast<int>(day));
  }
  return days;
}

double worst(const Closure& closure) { return std::max({std::abs(closure.carbon), std::abs(closure.water), std::abs(closure.energy)}); }

/// The built-in tables with a user's file of some text.
Materials with_file(const std::string& text) {
  const auto path = std::filesystem::temp_directory_path() / ("heapwright-course-test-" + std::to_string(getpid()) + ".toml");
  std::ofstream(path) << text;
  Materials all = built_in_materials();
  try {
    add_materials_file(all, path.string());
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

TEST_CASE("a heap is turned on its days, and left alone in frost", "[course]") {
  const std::optional<MoistureWetBasis> wet_to = GENERATE(std::optional<MoistureWetBasis>(), std::optional(wet_basis(0.6)));
  const Air air = spring_with_frost();
  HeapCare care;
  care.turn_every = 7;
  care.wet_to = wet_to;
  const Course course = course_of(household(), care, air);
  const auto turned_on = [&](const std::set<int>& turnings) {
    return days_of(household(), air, [&](Pile& pile, int day) {
      if (turnings.count(day) > 0) pile.turn(air[static_cast<std::size_t>(day)], wet_to);
    });
  };
  // The frost of the third week finds it still at work, that of the fourth at rest.
  CHECK(course.days[21].core_degc >= working_core_degc);
  CHECK(course.days[28].core_degc < working_core_degc);
  CHECK(same(course.days, turned_on({7, 14, 21, 35, 42})));
  CHECK_FALSE(same(course.days, turned_on({7, 14, 35, 42})));
  CHECK_FALSE(same(course.days, turned_on({7, 14, 21, 28, 35, 42})));
  CHECK((course.water_given.value() > 0.0) == wet_to.has_value());
}

TEST_CASE("a heap that is never turned is watered each fortnight, and not in frost", "[course]") {
  const Air air = spring_with_frost();
  const HeapContents dry = contents(heaps::household(0.45));
  HeapCare care;
  care.wet_to = wet_basis(0.55);
  const Course course = course_of(dry, care, air);
  WaterMass given;
  const auto watered_on = [&](const std::set<int>& waterings) {
    return days_of(dry, air, [&](Pile& pile, int day) {
      if (waterings.count(day) > 0) pile.water(air[static_cast<std::size_t>(day)], wet_basis(0.55));
      given = pile.water_given();
    });
  };
  CHECK(same(course.days, watered_on({14, 42})));
  CHECK(course.water_given == given);
  CHECK(given.value() > 1.0);
  CHECK_FALSE(same(course.days, watered_on({14, 28, 42})));

  SECTION("one that is turned is watered then and at no other time") {
    care.turn_every = 40;
    const Course turned = course_of(dry, care, air);
    CHECK(same(turned.days, days_of(dry, air, [&](Pile& pile, int day) {
                 if (day == 40) pile.turn(air[40], wet_basis(0.55));
               })));
  }
  SECTION("without a moisture to keep it gets none") {
    care.wet_to.reset();
    const Course left = course_of(dry, care, air);
    CHECK(same(left.days, days_of(dry, air, [](Pile&, int) {})));
    CHECK(left.water_given.value() == 0.0);
  }
}

TEST_CASE("rain is taken up day by day, and none while it freezes", "[course]") {
  HeapCare care;
  care.rain_a_day = 0.001 * unit::m;
  const HeapContents dry = contents(heaps::household(0.45));
  const Course wet = course_of(dry, care, steady(10.0, 10));
  const Course without = course_of(dry, {}, steady(10.0, 10));
  CHECK(wet.days.back().moisture > without.days.back().moisture);
  CHECK(same(course_of(dry, care, steady(-1.0, 10)).days, course_of(dry, {}, steady(-1.0, 10)).days));
}

TEST_CASE("feeding", "[course]") {
  HeapCare care;
  SECTION("goes on until what there is has gone in") {
    care.feeding = Feeding{0.5, 7, 3, 100.0};
    const Course course = course_of(household(), care, steady(15.0, 60));
    CHECK(course.fed == 3);
    CHECK(fed_days(course, 0.5) == std::vector<int>{7, 14, 21});
  }
  SECTION("puts in a share of the first filling, with its water") {
    care.feeding = Feeding{0.5, 7, 1, 100.0};
    const HeapContents more = 0.5 * household();
    CHECK(same(course_of(household(), care, steady(15.0, 10)).days, days_of(household(), steady(15.0, 10), [&](Pile& pile, int day) {
                 if (day == 7) pile.add(more, TemperaturePoint::from_celsius(15.0));
               })));
  }
  SECTION("stops where the heap is full, and goes on when it has sunk") {
    const Feeding feeding{0.25, 7, 5, 1.25};
    care.feeding = feeding;
    care.turn_every = 7;
    const Course course = course_of(household(), care, steady(20.0, 200));
    const std::vector<int> days = fed_days(course, feeding.share);
    CHECK(std::ssize(days) == course.fed);
    REQUIRE(days.size() >= 3);
    int waited = 0;
    for (int day = 7; day < days.back(); day += 7) {
      CAPTURE(day);
      const bool is_full = course.days[static_cast<std::size_t>(day)].relative_volume + feeding.share > feeding.room;
      CHECK((std::find(days.begin(), days.end(), day) == days.end()) == is_full);
      waited += is_full ? 1 : 0;
    }
    CHECK(waited > 0);
    for (const PileState& state : course.days) CHECK(state.relative_volume <= feeding.room + 0.02);  // it shrinks from the next step on
  }
  SECTION("none goes into a heap without room") {
    care.feeding = Feeding{0.5, 7, 5, 0.4};
    CHECK(course_of(household(), care, steady(15.0, 100)).fed == 0);
  }
}

TEST_CASE("a heap with something raw in it is not ready", "[course]") {
  HeapCare care;
  care.turn_every = 7;
  care.wet_to = wet_basis(0.55);
  const Air air = steady(20.0, 400);
  const Course alone = course_of(household(), care, air);
  REQUIRE(alone.mature_day);
  REQUIRE(alone.turf_day);
  CHECK(*alone.turf_day < *alone.mature_day);
  const int in_the_cure = *alone.mature_day + 10;
  care.feeding = Feeding{1.0, in_the_cure, 1, 100.0};
  const Course fed = course_of(household(), care, air);
  REQUIRE(fed.fed == 1);
  REQUIRE(fed.turf_day);
  REQUIRE(fed.mature_day);
  CHECK(*fed.turf_day > in_the_cure);
  CHECK(*fed.mature_day > *fed.turf_day);
}

TEST_CASE("how long a heap is followed does not change when it is ready", "[course]") {
  HeapCare care;
  care.turn_every = 7;
  care.wet_to = wet_basis(0.55);
  const Air air = steady(20.0, 300);
  SECTION("left alone") {}
  SECTION("fed once more after its cure, if it were still there") {
    const Course alone = course_of(household(), care, air);
    care.feeding = Feeding{1.0, alone.mature_day.value() + cure, 1, 100.0};
  }
  const Course brief = course_of(household(), care, air);
  const Course longer = course_of(household(), care, air, 299);
  REQUIRE(brief.mature_day);
  CHECK(std::ssize(brief.days) < 250);
  CHECK(std::ssize(longer.days) == 300);
  CHECK(longer.turf_day == brief.turf_day);
  CHECK(longer.mature_day == brief.mature_day);
}

TEST_CASE("nothing is ready in less than a fortnight, nor done without its cure", "[course]") {
  // As good as finished: C:N about 12, hardly anything left to rot.
  const HeapContents compost{0.1 * unit::kg_organic, 0.1 * unit::kg_organic, 50.0 * unit::kg_organic,
                             50.0 * unit::kg_dry,    80.0 * unit::kg_water,  2.0 * unit::kg_nitrogen};
  const Air air = steady(15.0, 100);
  const Course course = course_of(compost, {}, air);
  REQUIRE(meets(course.days.front(), mature_limits));
  CHECK(course.turf_day == 14);
  CHECK(course.mature_day == 14);
  CHECK(course.days.size() == 14 + 21 + 1);
  CHECK(course_of(compost, {}, air, 20).days.size() == 14 + 21 + 1);
  CHECK(course_of(compost, {}, air, 36).days.size() == 37);
  CHECK(course_of(compost, {}, air, 1000).days.size() == 101);  // where the weather ends
  CHECK(course_of(compost, {}, steady(15.0, 13), 0).turf_day == std::nullopt);
}

TEST_CASE("a heap is ready where both limits are met", "[course]") {
  PileState state;
  state.respiration_worst = 8.0;
  state.carbon_to_nitrogen = 30.0;
  CHECK(meets(state, turf_limits));
  CHECK_FALSE(meets(state, mature_limits));
  state.respiration_worst = 8.001;
  CHECK_FALSE(meets(state, turf_limits));
  state.respiration_worst = 4.0;
  state.carbon_to_nitrogen = 25.0;
  CHECK(meets(state, mature_limits));
  state.carbon_to_nitrogen = 25.001;
  CHECK_FALSE(meets(state, mature_limits));
  state.carbon_to_nitrogen = std::numeric_limits<double>::infinity();
  CHECK_FALSE(meets(state, turf_limits));
}

TEST_CASE("carbon, water and heat balance through all that is done to a heap", "[course]") {
  // Rounding of some 10⁴ sums, relative to what went in.
  constexpr double rounding = 1e-10;
  Air air;
  for (int day = 0; day < 300; ++day) air.push_back(TemperaturePoint::from_celsius(8.0 - 14.0 * std::cos((day - 60) / 58.0)));
  HeapCare care;
  care.rain_a_day = 0.003 * unit::m;  // so that it drains too
  care.wet_to = wet_basis(0.65);
  care.feeding = Feeding{0.3, 7, 20, 2.0};
  SECTION("turned") { care.turn_every = 7; }
  SECTION("never turned") {}
  const Course course = course_of(household(), care, air);
  CHECK(course.fed > 3);
  CHECK(std::any_of(course.days.begin(), course.days.end(), [](const PileState& day) { return day.core_degc <= 0.0; }));
  CHECK(std::any_of(course.days.begin(), course.days.end(), [](const PileState& day) { return day.core_degc > 40.0; }));
  CHECK(worst(course.closure) < rounding);
}

TEST_CASE("what a mix is to the heap model", "[course]") {
  const Mix mix = heaps::household();
  for (const ProcessParameters& set : {best(), heaps::every_set().members.front(), heaps::every_set().members.back()}) {
    const HeapContents is = contents_of(mix, heaps::materials(), heaps::every_set(), set);
    CHECK_THAT((is.fast + is.slow + is.inert).value(), WithinRel(mix.organic_matter.value(), exact));
    CHECK_THAT(is.volatile_solids().value(), WithinRel(mix.organic_matter.value(), exact));
    CHECK_THAT(is.dry().value(), WithinRel(mix.dry.value(), exact));
    CHECK(is.water == mix.water);
    CHECK_THAT(set.cC * is.volatile_solids().value() / is.nitrogen.value(), WithinRel(mix.carbon_to_nitrogen->value(), exact));
    const PileState built = Pile(set, is, heaps::heap_of_0_8_m3(), TemperaturePoint::from_celsius(15.0)).state();
    CHECK_THAT(built.carbon_to_nitrogen, WithinRel(mix.carbon_to_nitrogen->value(), exact));
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
    const HeapContents all = contents(mix);
    const HeapContents half = 0.5 * all;
    CHECK(half.fast == 0.5 * all.fast);
    CHECK(half.nitrogen == 0.5 * all.nitrogen);
    CHECK_THAT(half.dry().value(), WithinRel(0.5 * all.dry().value(), exact));
  }
  SECTION("what nobody knows rots like nothing") {
    Mix strange = mix;
    for (MixPart& part : strange.parts) part.id = "moon-dust";
    const HeapContents is = contents(strange);
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

TEST_CASE("what a feedstock rots like", "[course]") {
  const ProcessEnsemble& ensemble = heaps::every_set();
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
      for (const Feedstock& feedstock : all.feedstocks) {
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
  SECTION("a heap of it") {
    const Mix mix = heaps::mix({{"my-own", 100.0}}, 0.55, all);
    const HeapContents is = contents_of(mix, all, ensemble, best());
    CHECK_THAT(is.fast.value(), WithinRel(0.30 * 90.0, exact));
    CHECK_THAT(is.slow.value(), WithinRel(0.20 * 90.0, exact));
    CHECK_THAT(is.ash.value(), WithinRel(10.0, 1e-11));  // the difference of two larger numbers
  }
}

TEST_CASE("every feedstock of ours says what it rots like", "[course]") {
  for (const Feedstock& feedstock : heaps::materials().feedstocks) {
    CAPTURE(feedstock.id);
    CHECK(feedstock.rots_like.has_value());
  }
}

TEST_CASE("rotting like something unknown", "[course]") {
  CHECK_THROWS_WITH(with_file(row("mine", "rots_like = \"strw\"")), Contains("\"strw\"") && Contains("rots_like") && Contains("straw"));
}
