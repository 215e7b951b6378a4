// A yard's pile through time: what goes into one pile, how it lies and what falls on it, what it leaves for the lawn.

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>

#include "heapwright/error.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/process/settled.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/units/text.hpp"
#include "logs.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr Date april_20{std::chrono::year(2027), std::chrono::month(4), std::chrono::day(20)};
constexpr double exact = 1e-12;  // a few sums and products of doubles

Yard yard(const std::string& text) { return read_yard_text(text, "yard.toml", built_in_tables()); }

std::string supply(const std::string& feedstock, const std::string& amount, const std::string& more = {}) {
  return "[[supply]]\nfeedstock = \"" + feedstock + "\"\namount = \"" + amount + "\"\n" + more;
}

// An invented yard: once it has settled it is more than 22.5 cu ft and less than twice that.
const std::string household =
    supply("leaves", "24 leaf-bag") + supply("grass", "12 bucket", "treated = \"no\"\n") + supply("scraps", "6 bucket");
const std::string warm = "[climate]\ncoldest_month = \"60 degF\"\nwarmest_month = \"80 degF\"\n";  // piles are soon ready: it saves time
const std::string wide_bin = "length = \"8 ft\"\nwidth = \"8 ft\"\nheight = \"4 ft\"\n";

std::string pile(const std::string& sizes, const std::string& more = {}) { return "[pile]\n" + sizes + more; }
std::string bin(const std::string& more = {}) {
  return pile("shape = \"bin\"\nlength = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\nturn_every = \"14 days\"\nkeep_moist = true\n",
              more);
}

Answer<YardForecast> answer(const Yard& yard) { return forecast_of(yard, first_recipe(yard, april_20), april_20); }

std::string screen(const Answer<YardForecast>& answer, const Yard& yard) {
  return text_of(forecast_page(answer, yard.tables.materials), Show(ShownUnits::us), Screen());
}

/// So much of the recipe settled, m³, as the model's law has it (settled.hpp).
double settled(const Yard& yard, double share = 1.0) {
  const Answer<Recipe> recipe = first_recipe(yard, april_20);
  const Mix& mix = as_built(recipe.result).mix;
  const std::optional<BulkDensity> weighed = yard.pile ? yard.pile->weighed : std::nullopt;
  const SettledDensity density = settled_density_of(mix, yard.tables.materials, built_in_ensemble(), weighed);
  return settled_shape(share * mix.dry, density, 1.0, yard.pile).volume.value();
}

/// The share of the recipe that fills a room less than 1 m high.
double share_of_first(const Yard& yard, double room) {
  const Answer<Recipe> recipe = first_recipe(yard, april_20);
  const Mix& mix = as_built(recipe.result).mix;
  const SettledDensity density = settled_density_of(mix, yard.tables.materials, built_in_ensemble());
  return room * density.at(1.0 * unit::m, 1.0).value() / mix.dry.value();
}

/// In a pile filled to the brim three rounds of height and density leave the volume so near (settled_test.cpp).
constexpr double three_rounds = 1e-3;

double litres(double number) { return number / 1000.0; }
double cubic_feet(double number) { return number * unit::cubic_foot.value(); }

bool takes_for_granted(const Grounds& answer, const std::string& what) {
  return std::any_of(answer.assumptions.begin(), answer.assumptions.end(),
                     [&](const Assumption& one) { return one.what.starts_with(what); });
}

}  // namespace

TEST_CASE("a pile through time, from a yard", "[forecast]") {
  const Yard one = yard(household + warm + bin());
  const Answer<YardForecast> coming = answer(one);
  REQUIRE(coming->forecast);
  CHECK(coming->forecast->status == ForecastStatus::mature);
  CHECK(coming->forecast->built == april_20);
  CHECK_FALSE(coming->too_little);
  CHECK_FALSE(coming->week_by_week);

  // Filled with all of it, since that fits.
  CHECK(settled(one) < cubic_feet(64.0));
  CHECK(coming->piles == 1);
  CHECK_THAT(coming->volume->value(), WithinRel(settled(one), exact));

  // Kept as it is described.
  CHECK(coming->care.turn_every == 14);
  CHECK(coming->care.wet_to == one.targets.moisture.aim);
  CHECK(coming->care.share_of_rain == 0.50);  // of an open bin
  CHECK_FALSE(coming->care.feeding);
  CHECK(takes_for_granted(coming, "rain"));  // which nobody told
  CHECK(takes_for_granted(coming, "weight of the pile, once it has settled"));
  CHECK(takes_for_granted(coming, "weather"));

  const Answer<Recipe> recipe = first_recipe(one, april_20);
  const Finished& finished = coming->forecast->finished;
  CHECK_THAT(coming->finished_volume.value(), WithinRel((1.0 - finished.volume_loss) * settled(one), exact));
  CHECK_THAT(coming->mass.value(), WithinRel((1.0 - finished.mass_loss) * as_built(recipe.result).mix.mass.value(), exact));
  REQUIRE(coming->screened);
  const PublishedValue<ShareOfVolatileSolids>& lost = coming->yield.volatile_solids_lost;
  CHECK(lost.typical->value() == finished.volatile_solids_loss);
  CHECK(lost.low->value() == finished.volatile_solids_loss_low);
  CHECK(lost.high->value() == finished.volatile_solids_loss_high);
  CHECK(coming->yield.held_back_by_screen.typical == one.tables.materials.yield->held_back_by_screen.typical);
  CHECK(coming->screened->low < coming->screened->likely);
  CHECK(coming->screened->likely < coming->screened->high);
}

TEST_CASE("what is too much for one pile fills more, and the first is full", "[forecast]") {
  const Yard one = yard(
      "[recipe]\nfill = \"2.4 yd3\"\n" + household + warm +
      pile("shape = \"bin\"\nlength = \"3 ft\"\nwidth = \"3 ft\"\nheight = \"30 in\"\n", "keep_moist = true\nturn_every = \"14 days\"\n"));
  const double each = cubic_feet(22.5);
  REQUIRE(settled(one) > 1.1 * each);
  REQUIRE(settled(one) < 2.0 * each);
  const Answer<YardForecast> coming = answer(one);
  CHECK(coming->piles == 2);
  CHECK_THAT(coming->volume->value(), WithinRel(each, exact));
  // What is left is of both.
  CHECK_THAT(coming->finished_volume.value(),
             WithinRel((1.0 - coming->forecast->finished.volume_loss) * each / share_of_first(one, each), exact));
}

TEST_CASE("piles of every shape", "[forecast]") {
  const std::string sizes = GENERATE(
      as<std::string>(), "shape = \"bin\"\nlength = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\n",
      "shape = \"round\"\ndiameter = \"4 ft\"\nheight = \"4 ft\"\n", "shape = \"cone\"\ndiameter = \"7 ft\"\nheight = \"4 ft\"\n",
      "shape = \"windrow\"\nlength = \"9 ft\"\nwidth = \"5 ft\"\nheight = \"3 ft\"\n", "shape = \"tumbler\"\nvolume = \"60 gal\"\n", "");
  CAPTURE(sizes);
  const Yard one = yard(household + warm + (sizes.empty() ? "" : pile(sizes, "keep_moist = true\nturn_every = \"7 days\"\n")));
  const Answer<YardForecast> coming = answer(one);
  REQUIRE(coming->forecast);
  REQUIRE(coming->volume);
  const bool tumbles = one.pile && one.pile->shape == PileShape::tumbler;
  if (one.pile) CHECK(*coming->volume <= size_of(*one.pile).volume * (1.0 + three_rounds));
  CHECK(coming->volume->value() <= settled(one) * (1.0 + exact));
  CHECK((coming->care.share_of_rain == 0.0) == tumbles);
  CHECK(takes_for_granted(coming, "rain") == !tumbles);
  CHECK(coming->forecast->peak_core > TemperaturePoint::from_celsius(20.0));
}

TEST_CASE("a pile that was weighed lies as it was weighed", "[forecast]") {
  const Yard one = yard(household + warm + bin("weighed = \"1600 lb\"\n"));  // 64 cu ft full
  const Answer<YardForecast> coming = answer(one);
  const Answer<Recipe> recipe = first_recipe(one, april_20);
  const double pounds = 1600.0 * unit::pound.value();
  const double each = size_of(*one.pile).volume.value();
  CHECK_THAT(coming->volume->value(), WithinRel(as_built(recipe.result).mix.mass.value() * each / pounds, exact));
  REQUIRE(takes_for_granted(coming, "weight of the pile"));
  const auto weight = std::find_if(coming.assumptions.begin(), coming.assumptions.end(),
                                   [](const Assumption& assumption) { return assumption.what.starts_with("weight of the pile"); });
  REQUIRE(weight != coming.assumptions.end());
  CHECK(weight->evidence == "your own figure");
  CHECK_FALSE(weight->low);
  CHECK_THAT(std::get<BulkDensity>(weight->value).value(), WithinRel(pounds / each, exact));
  for (const char* none : {"weighed = \"1 lb\"\n", "weighed = \"-900 lb\"\n", "weighed = \"3 ft\"\n"})
    CHECK_THROWS_AS(yard(household + warm + bin(none)), InputError);
}

TEST_CASE("rain as it is told", "[forecast]") {
  const Answer<YardForecast> told_of = answer(yard(household + warm + "rain = \"2 in\"\n" + bin()));
  const auto rain = std::find_if(told_of.assumptions.begin(), told_of.assumptions.end(),
                                 [](const Assumption& assumption) { return assumption.what.starts_with("rain of a month"); });
  REQUIRE(rain != told_of.assumptions.end());
  CHECK(rain->evidence == "your own figure");
  const auto kept = std::find_if(told_of.assumptions.begin(), told_of.assumptions.end(),
                                 [](const Assumption& assumption) { return assumption.what.starts_with("of the rain"); });
  REQUIRE(kept != told_of.assumptions.end());
  CHECK(std::get<ShareOfVolume>(kept->value).value() == 0.50);
  CHECK_THAT(std::get<Length>(rain->value).value(), WithinRel(0.0508, exact));
  // The wetter it is the more a pile holds that nobody waters.
  const std::string unwatered = pile("shape = \"bin\"\nlength = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\n");
  const auto moisture = [&](const std::string& a_month) {
    const Answer<YardForecast> coming = answer(yard(household + warm + "rain = \"" + a_month + "\"\n" + unwatered));
    return coming->forecast->days.at(60).state.moisture;
  };
  CHECK(moisture("8 in") > moisture("4 in"));
}

TEST_CASE("a log shows whether a pile that may or may not heat has got hot", "[forecast]") {
  const Date november_7{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)};
  const Yard one = yard(supply("leaves", "300 lb") + supply("grass", "180 lb", "treated = \"no\"\n") + supply("scraps", "98 lb") +
                        "[climate]\ncoldest_month = \"30 degF\"\nwarmest_month = \"76 degF\"\n" + bin("built = 2026-11-07\n"));
  const Answer<Recipe> recipe = first_recipe(one, november_7);
  // Thirty-five mornings and evenings: a core of a few degrees, or that of a pile that heats in a week and cools again.
  const auto log_with = [&](const std::function<int(int)>& fahrenheit) {
    std::string text = "time,core degF,side degF\n";
    for (int day = 0; day < 35; ++day) {
      const std::string date = print_date(Date(std::chrono::sys_days(november_7) + std::chrono::days(day)));
      const int core = fahrenheit(day);
      text += date + "T08:00," + std::to_string(core - 3) + ",40\n" + date + "T18:00," + std::to_string(core + 3) + ",40\n";
    }
    return logs::log_of(text);
  };
  SECTION("cold") {
    const TemperatureLog log = log_with([](int day) { return 60 - day / 2; });
    const Answer<YardForecast> coming = forecast_of(one, recipe, november_7, &log);
    CHECK(coming->forecast->heats.chance == 0.0);
    CHECK_FALSE(coming->forecast->heats.is_open());
    CHECK_FALSE(coming->forecast->heats.if_it_heats);
    CHECK(coming->forecast->heats.what_would_tip.empty());
  }
  SECTION("hot") {
    const TemperatureLog log = log_with([](int day) { return day < 8 ? 55 + 10 * day : std::max(70, 140 - 4 * day); });
    const Answer<YardForecast> coming = forecast_of(one, recipe, november_7, &log);
    CHECK(coming->forecast->heats.chance == 1.0);
    CHECK_FALSE(coming->forecast->heats.if_not);
    CHECK(coming->forecast->heats.what_would_tip.empty());
  }
}

TEST_CASE("a lid keeps the rain out", "[forecast]") {
  const Answer<YardForecast> covered = answer(yard(household + warm + bin("covered = true\n")));
  CHECK(covered->care.share_of_rain == 0.0);
  CHECK_FALSE(takes_for_granted(covered, "rain"));
}

TEST_CASE("little in a wide bin is heaped up, not spread", "[forecast]") {
  const std::string kept = "keep_moist = true\nturn_every = \"14 days\"\n";
  const Yard wide = yard(household + warm + pile(wide_bin, kept));
  const Yard wider = yard(household + warm + pile("shape = \"bin\"\nlength = \"12 ft\"\nwidth = \"12 ft\"\nheight = \"4 ft\"\n", kept));
  const Answer<YardForecast> in_a_bin = answer(wide);
  const Answer<YardForecast> heaped = answer(wider);
  CHECK_THAT(in_a_bin->volume->value(), WithinRel(heaped->volume->value(), exact));
  // Spread over 64 sq ft it would be a foot high and meet the air all over.
  const PileDescription spread = filled_to(*wide.pile, (*in_a_bin->volume / size_of(*wide.pile).volume).value());
  REQUIRE(*spread.height < 2.0 * 0.3048 * unit::m);
  CHECK_THAT(in_a_bin->forecast->peak_core.celsius(), WithinRel(heaped->forecast->peak_core.celsius(), 1e-6));  // floors are rounded
  CHECK(in_a_bin->forecast->mature.likely == heaped->forecast->mature.likely);
}

TEST_CASE("less than a bucketful is too little to forecast", "[forecast]") {
  const std::string little = supply("scraps", "1 L") + supply("leaves", "3 L") + "[[lawn.zone]]\nshape = \"area\"\narea = \"50 ft2\"\n";
  const Yard one = yard(little + warm);
  REQUIRE(settled(one) < litres(5.0));
  const Answer<YardForecast> coming = answer(one);
  CHECK(coming->too_little);
  CHECK_FALSE(coming->forecast);
  CHECK_FALSE(coming->screened);
  CHECK(json_of_forecast(coming, one.tables.materials).find("\"status\": null") != std::string::npos);
  CHECK_THAT(screen(coming, one), Contains("too little"));

  const Plan plan = make_plan(one, april_20).result;
  const Plan without_weather = make_plan(yard(little), april_20).result;
  REQUIRE(plan.supply.own_compost);
  CHECK(plan.supply.own_compost->likely == without_weather.supply.own_compost->likely);
  CHECK(plan.supply.to_buy == without_weather.supply.to_buy);
}

TEST_CASE("nothing to put in is nothing to forecast", "[forecast]") {
  const Yard one = yard(warm + bin());
  const Answer<YardForecast> coming = answer(one);
  CHECK_FALSE(coming->forecast);
  CHECK_FALSE(coming->too_little);
  CHECK_THAT(screen(coming, one), Contains("nothing yet"));
  CHECK_FALSE(make_plan(one, april_20)->forecast);
}

TEST_CASE("a pile that is filled as it comes", "[forecast]") {
  const std::string supplies = supply("leaves", "48 leaf-bag", "storable = true\n") +
                               supply("scraps", "2 bucket", "when = { every = \"week\" }\n") +
                               supply("grass", "2 bucket", "treated = \"no\"\nwhen = { every = \"week\" }\n");
  const Yard one = yard(supplies + warm + bin("filled = \"as-it-comes\"\n"));
  const Answer<Recipe> recipe = first_recipe(one, april_20);
  const Answer<YardForecast> coming = answer(one);
  REQUIRE(coming->forecast);
  CHECK(coming->week_by_week);
  CHECK(coming->piles == 1);
  CHECK_THAT(coming->volume->value(), WithinRel(settled(one), exact));  // at first what is on hand that day
  CHECK_FALSE(coming->care.feeding);
  // It gets the loads of its season, of which the leaves that the first filling leaves are enough for so many.
  const YardSeason season = season_with_pile(one, recipe, april_20).result;
  const std::vector<WeeklyLoad> loads = weekly_loads(season, april_20, one.options.settling);
  CHECK(coming->weeks_fed <= static_cast<int>(loads.size()));
  CHECK(coming->weeks_fed > 0);
  DryMass fed;
  for (const WeeklyLoad& load : loads) fed += load.mix.dry;
  CHECK(coming->forecast->filled_in_all > 1.5);
  CHECK(coming->forecast->filled_in_all <= 1.0 + static_cast<double>(fed / as_built(recipe.result).mix.dry) + exact);
  // What it leaves is of all that was put in.
  const double all = coming->volume->value() * coming->forecast->filled_in_all;
  CHECK_THAT(coming->finished_volume.value(), WithinRel((1.0 - coming->forecast->finished.volume_loss) * all, exact));
}

TEST_CASE("a pile that is filled as it comes, where nothing comes week by week, is filled at once", "[forecast]") {
  const Yard one = yard(household + warm + bin("filled = \"as-it-comes\"\n"));
  const Answer<YardForecast> at_once = answer(one);
  CHECK_FALSE(at_once->week_by_week);
  CHECK_FALSE(at_once->care.feeding);
  CHECK_THAT(at_once->volume->value(), WithinRel(settled(one), exact));
}

TEST_CASE("a pile that is fed is never fuller than it holds", "[forecast]") {
  const std::string supplies =
      supply("leaves", "48 leaf-bag", "storable = true\n") + supply("scraps", "1 bucket", "when = { every = \"week\" }\n");
  const Yard one =
      yard(supplies + warm +
           pile("shape = \"round\"\ndiameter = \"2 ft\"\nheight = \"2 ft\"\n", "filled = \"as-it-comes\"\nkeep_moist = true\n"));
  const Answer<YardForecast> coming = answer(one);
  REQUIRE(coming->forecast);
  CHECK(*coming->volume <= size_of(*one.pile).volume * (1.0 + three_rounds));
  REQUIRE(coming->week_by_week);
  CHECK(coming->forecast->filled_in_all > 1.0);
  constexpr double from_the_next_step_on = 0.02;  // it shrinks from the step after the feeding on (trajectory_test.cpp)
  const double room = (size_of(*one.pile).volume / *coming->volume).value();
  for (const DayOfForecast& day : coming->forecast->days) CHECK(day.state.relative_volume <= room + from_the_next_step_on);
}

TEST_CASE("without the weather there is no forecast, and the plan goes by the rule", "[forecast]") {
  const std::string lawn = "[[lawn.zone]]\nshape = \"area\"\narea = \"1000 ft2\"\n";
  const Yard one = yard(household + bin() + lawn);
  CHECK_THROWS_AS(answer(one), DomainError);
  CHECK_THROWS_WITH(answer(one), Contains("[climate]"));

  const Plan plan = make_plan(one, april_20).result;
  CHECK_FALSE(plan.forecast);
  REQUIRE(plan.supply.own_compost);
  const Mix& mix = as_built(plan.recipe.result).mix;
  const CompostYield rule =
      compost_yield(mix, coarse_wood_of(mix, one.tables.materials, *one.tables.ensemble), *one.tables.materials.yield);
  CHECK(plan.supply.own_compost->low == rule.low);
  CHECK(plan.supply.own_compost->likely == rule.likely);
  CHECK(plan.supply.own_compost->high == rule.high);

  SECTION("with it by the forecast") {
    const Yard with = yard(household + bin() + lawn + warm);
    const Plan forecast = make_plan(with, april_20).result;
    const Answer<YardForecast> coming = answer(with);
    REQUIRE(forecast.forecast);
    REQUIRE(coming->screened);
    CHECK(forecast.supply.own_compost->low == coming->screened->low);
    CHECK(forecast.supply.own_compost->likely == coming->screened->likely);
    CHECK(forecast.supply.own_compost->high == coming->screened->high);
    CHECK(forecast.supply.own_compost->likely != rule.likely);
    CHECK_THAT(forecast.supply.to_buy->value(), WithinRel(forecast.supply.needed->value() - coming->screened->likely.value(), exact));
    CHECK(json_of_forecast(*forecast.forecast, with.tables.materials) == json_of_forecast(coming, with.tables.materials));
  }
}

TEST_CASE("a part of a pile holds its share", "[pile]") {
  const std::string sizes =
      GENERATE(as<std::string>(), "shape = \"bin\"\nlength = \"4 ft\"\nwidth = \"5 ft\"\nheight = \"3 ft\"\n",
               "shape = \"round\"\ndiameter = \"4 ft\"\nheight = \"3 ft\"\n", "shape = \"cone\"\ndiameter = \"7 ft\"\nheight = \"4 ft\"\n",
               "shape = \"windrow\"\nlength = \"9 ft\"\nwidth = \"5 ft\"\nheight = \"3 ft\"\n",
               "shape = \"windrow\"\nlength = \"9 ft\"\nwidth = \"5 ft\"\nheight = \"3 ft\"\ntop_width = \"2 ft\"\n",
               "shape = \"tumbler\"\nvolume = \"60 gal\"\n");
  CAPTURE(sizes);
  const PileDescription full = *yard(pile(sizes)).pile;
  for (const double share : {0.0, 0.1, 0.5, 1.0}) {
    CAPTURE(share);
    const PileDescription part = filled_to(full, share);
    CHECK_THAT(size_of(part).volume.value(), WithinRel(share * size_of(full).volume.value(), exact));
    CHECK(part.shape == full.shape);
    if (full.shape == PileShape::bin) CHECK((part.length == full.length && part.width == full.width));
    if (full.shape == PileShape::windrow) CHECK(part.length == full.length);
  }
}

TEST_CASE("how often a pile is turned", "[pile]") {
  CHECK(read_turning("14 days") == 14.0 * 86400.0 * unit::s);
  CHECK(read_turning("1 day") == 86400.0 * unit::s);
  CHECK(read_turning("52 weeks") == 364.0 * 86400.0 * unit::s);
  CHECK(read_turning("never") == std::nullopt);
  for (const char* text : {"0 days", "1 hour", "2000 days", "14", "14 lb", "always"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(read_turning(text), TextError);
  }
}
