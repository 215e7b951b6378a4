// A pile by what really went into it: the model gets just that, the readings count it, and what it left on hand is used once.

#include "heapwright/plan/loaded.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

#include "heapwright/page/pages.hpp"
#include "heapwright/plan/care.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/recipe/verdict.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/time/days.hpp"
#include "heapwright/units/text.hpp"
#include "piles.hpp"
#include "yards.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

using yards::supply;
using yards::yard;

namespace {

using std::chrono::sys_days;

constexpr Date april_20{std::chrono::year(2027), std::chrono::month(4), std::chrono::day(20)};
constexpr Date november_28{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(28)};
constexpr double sums = 1e-9;  // some dozens of sums and products of doubles

/// So many kilograms of something on a day, water poured on, or both.
struct Went {
  int day = 0;
  std::string feedstock;
  double kg = 0.0;
  double litres = 0.0;
};

std::string table_of(const Went& one) {
  std::string text = "[[load]]\ndate = " + print_date(later_by(april_20, one.day)) + "\n";
  if (!one.feedstock.empty()) {
    text += "feedstock = \"" + one.feedstock + "\"\namount = \"" + std::to_string(one.kg) + " kg\"\n";
    if (one.feedstock == "grass-clippings") text += "treated = \"no\"\n";
  }
  if (one.litres > 0.0) text += "water = \"" + std::to_string(one.litres) + " L\"\n";
  return text;
}
std::string tables_of(const std::vector<Went>& all) {
  std::string text;
  for (const Went& one : all) text += table_of(one);
  return text;
}

const std::string warm = "[climate]\ncoldest_month = \"60 degF\"\nwarmest_month = \"80 degF\"\n";  // piles are soon ready: it saves time
const std::string bin =
    "[pile]\nshape = \"bin\"\nlength = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\nturn_every = \"14 days\"\nkeep_moist = true\n";

/// What went in as a mix, by the rows of the tables alone. @param watered to the aim where it is drier than its window
Mix mix_of_some(const std::vector<Went>& some, bool watered) {
  Blend blend;
  for (const Went& one : some) {
    blend.added_water += one.litres / 1000.0 * unit::m3 * water_density();
    if (one.feedstock.empty()) continue;
    const Feedstock& row = find_feedstock(piles::materials(), one.feedstock);
    blend.ingredients.push_back({{row.properties().value(), row.density(), one.kg * unit::kg}, row.id, row.name, row.usual_packing});
  }
  const Mix mix = mix_of(blend);
  if (!watered || !mix.moisture || *mix.moisture >= wet_basis(0.50)) return mix;
  blend.added_water += water_to(mix, wet_basis(0.55));
  return mix_of(blend);
}

/// The bin above with what went in, as the model takes it. @param begins place of the first that is no part of the first filling
PileToBuild built_directly(const std::vector<Went>& all, std::size_t begins, const Yard& one) {
  const bool watered = std::none_of(all.begin(), all.end(), [](const Went& went) { return went.litres > 0.0; });
  PileToBuild pile;
  pile.mix = mix_of_some({all.begin(), all.begin() + static_cast<std::ptrdiff_t>(begins)}, watered);
  pile.pile = one.pile;
  pile.care.turn_every = 14;
  pile.care.wet_to = wet_basis(0.55);
  pile.care.share_of_rain = 0.50;  // of an open bin
  pile.room = 64.0 * unit::cubic_foot;
  pile.stands = true;
  const int first = all[begins - 1].day;
  pile.built = later_by(april_20, first);
  for (std::size_t i = begins; i < all.size();) {
    std::size_t next = i;
    while (next < all.size() && all[next].day == all[i].day) ++next;
    const std::vector<Went> of_day(all.begin() + static_cast<std::ptrdiff_t>(i), all.begin() + static_cast<std::ptrdiff_t>(next));
    pile.loads.push_back({all[i].day - first, mix_of_some(of_day, watered)});
    i = next;
  }
  return pile;
}

Answer<YardForecast> forecast_by_loads(const Yard& one, Date today) { return forecast_of(one, recipe_in_pile(one, today), today); }

/// Whether two forecasts say the same of each day. Both run the same steps on the same doubles, summed in the same order: what differs is
/// rounding, and the model does not spread that to a billionth part.
void check_same(const Forecast& one, const Forecast& other) {
  REQUIRE(one.days.size() == other.days.size());
  CHECK(one.built == other.built);
  double core = 0.0, moisture = 0.0, solids = 0.0;
  for (std::size_t day = 0; day < one.days.size(); ++day) {
    const PileState& a = one.days[day].state;
    const PileState& b = other.days[day].state;
    core = std::max(core, std::abs(a.core.celsius() - b.core.celsius()));
    moisture = std::max(moisture, std::abs(a.moisture.value() - b.moisture.value()));
    solids = std::max(solids, std::abs(a.volatile_solids.value() - b.volatile_solids.value()) / a.volatile_solids.value());
  }
  CHECK(core < sums);
  CHECK(moisture < sums);
  CHECK(solids < sums);
  CHECK(one.turf.early == other.turf.early);
  CHECK(one.turf.likely == other.turf.likely);
  CHECK(one.turf.late == other.turf.late);
  CHECK(one.mature.likely == other.mature.likely);
  CHECK(one.status == other.status);
  CHECK(one.times_fed == other.times_fed);
  CHECK(one.last_fed == other.last_fed);
  CHECK_THAT(one.filled_in_all, WithinRel(other.filled_in_all, sums));
  CHECK_THAT(one.finished.mass.value(), WithinRel(other.finished.mass.value(), sums));
}

const std::vector<Went> fed_with_water{{0, "leaves-fall", 60.0, 50.0},
                                       {0, "grass-clippings", 90.0, 0.0},
                                       {7, "kitchen-scraps", 12.0, 0.0},
                                       {7, "leaves-fall", 6.0, 3.0},
                                       {16, "", 0.0, 20.0},
                                       {21, "kitchen-scraps", 12.0, 0.0},
                                       {21, "grass-clippings", 8.0, 0.0},
                                       {21, "leaves-fall", 9.0, 5.0}};
const std::vector<Went> fed_without_word_of_water{{0, "leaves-fall", 60.0},    {0, "grass-clippings", 20.0}, {9, "leaves-fall", 12.0},
                                                  {12, "kitchen-scraps", 9.0}, {30, "leaves-fall", 3.0},     {30, "grass-clippings", 18.0}};
const std::vector<Went> little_at_first{{0, "kitchen-scraps", 0.5, 0.2},   {3, "leaves-fall", 0.3, 0.0},     {9, "leaves-fall", 50.0, 40.0},
                                        {9, "grass-clippings", 60.0, 0.0}, {20, "kitchen-scraps", 9.0, 0.0}, {25, "", 0.0, 10.0}};

std::string act_screen(const Answer<Plan>& plan, const Yard& one) {
  return text_of(plan_page(plan, one.tables.materials), Show(ShownUnits::us), Screen());
}

}  // namespace

TEST_CASE("a pile of loads goes as the model goes that is filled with them", "[loaded]") {
  SECTION("with water poured on, several loads a day, and water alone") {
    const Yard one = yard(tables_of(fed_with_water) + warm + bin);
    const Answer<YardForecast> coming = forecast_by_loads(one, april_20);
    REQUIRE(coming->forecast);
    const Forecast direct =
        forecast(built_directly(fed_with_water, 2, one), weather_of(*one.climate), one.tables.materials, piles::some_sets());
    CHECK(coming->stands == Stands::by_loads);
    CHECK(direct.times_fed == 2);  // water alone is none
    check_same(*coming->forecast, direct);
  }
  SECTION("without a word of water dry loads are taken as watered") {
    const Yard one = yard(tables_of(fed_without_word_of_water) + warm + bin);
    const Answer<YardForecast> coming = forecast_by_loads(one, april_20);
    REQUIRE(coming->forecast);
    const PileToBuild pile = built_directly(fed_without_word_of_water, 2, one);
    CHECK_THAT(pile.mix.moisture->value(), WithinRel(0.55, sums));
    CHECK_THAT(pile.loads[0].mix.moisture->value(), WithinRel(0.55, sums));  // leaves alone
    CHECK(pile.loads[1].mix.moisture->value() > 0.60);                       // scraps are wet enough
    check_same(*coming->forecast, forecast(pile, weather_of(*one.climate), one.tables.materials, piles::some_sets()));
  }
  SECTION("it begins on the day on which there is enough") {
    const Yard one = yard(tables_of(little_at_first) + warm + bin);
    const Answer<YardForecast> coming = forecast_by_loads(one, april_20);
    REQUIRE(coming->forecast);
    CHECK(coming->forecast->built == later_by(april_20, 9));
    check_same(*coming->forecast,
               forecast(built_directly(little_at_first, 4, one), weather_of(*one.climate), one.tables.materials, piles::some_sets()));
  }
  SECTION("whatever the order of the days in the file") {
    const std::vector<Went>& in_order = fed_with_water;
    const std::vector<Went> mixed_up{in_order[5], in_order[2], in_order[0], in_order[6],
                                     in_order[4], in_order[1], in_order[3], in_order[7]};
    const Yard one = yard(tables_of(in_order) + warm + bin);
    const Yard other = yard(tables_of(mixed_up) + warm + bin);
    check_same(*forecast_by_loads(one, april_20)->forecast, *forecast_by_loads(other, april_20)->forecast);
  }
  SECTION("whenever it is asked") {
    const Yard one = yard(tables_of(fed_with_water) + warm + bin);
    check_same(*forecast_by_loads(one, april_20)->forecast, *forecast_by_loads(one, later_by(april_20, 300))->forecast);
  }
}

TEST_CASE("a pile is as old as its loads, whatever day it was to be built on", "[loaded]") {
  const Yard one = yard(tables_of(fed_with_water) + warm + bin + "built = 2027-05-15\n");
  const Answer<Plan> plan = make_plan(one, later_by(april_20, 60));
  CHECK(plan->built == april_20);
  CHECK((*plan->forecast)->forecast->built == april_20);
  CHECK_THAT(act_screen(plan, one), Contains("Apr 20, 2027"));
}

TEST_CASE("too little of loads is not followed", "[loaded]") {
  const std::vector<Went> little{{0, "kitchen-scraps", 0.5, 0.2}, {3, "leaves-fall", 0.3, 0.0}};
  const Yard one = yard(tables_of(little) + warm + bin);
  CHECK_FALSE(loaded_pile(one));
  const Answer<YardForecast> coming = forecast_by_loads(one, april_20);
  CHECK(coming->too_little);
  CHECK_FALSE(coming->forecast);
  CHECK_FALSE(loaded_pile(yard("[[load]]\ndate = 2027-04-20\nwater = \"10 gal\"\n" + warm + bin)));  // water alone
}

TEST_CASE("of loads in any order nothing gets lost", "[loaded][property]") {
  std::mt19937_64 random(20270420);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  const std::vector<std::string> things{"leaves-fall", "grass-clippings", "kitchen-scraps", "straw", "coffee-grounds", "wood-chips"};
  double worst = 0.0;
  for (int pile = 0; pile < 25; ++pile) {
    std::vector<Went> all{{0, "leaves-fall", between(20.0, 80.0), between(10.0, 60.0)}, {0, "grass-clippings", between(10.0, 60.0)}};
    for (int day = 1; day < 120; day += 1 + static_cast<int>(between(0.0, 30.0))) {
      const int count = 1 + static_cast<int>(between(0.0, 3.0));
      for (int i = 0; i < count; ++i)
        all.push_back({day, things[static_cast<std::size_t>(between(0.0, 6.0))], between(1.0, 25.0), between(0.0, 9.0)});
      if (between(0.0, 1.0) < 0.3) all.push_back({day, "", 0.0, between(1.0, 30.0)});
    }
    const Yard one = yard(tables_of(all) + warm);  // without a bin all find room
    const std::optional<LoadedPile> loaded = loaded_pile(one);
    REQUIRE(loaded);
    PileToBuild to_build{loaded->first, 1.0, one.pile, care_of(one), std::nullopt, loaded->begun};
    to_build.loads = loaded->later;
    const PileModel model(to_build, one.tables.materials, *one.tables.ensemble);
    const DailyWeather weather = days_from(weather_of(*one.climate), loaded->begun, 200);
    const Trajectory trajectory = model.trajectory(one.tables.ensemble->best, weather, {199});
    worst = std::max({worst, std::abs(trajectory.closure.carbon), std::abs(trajectory.closure.water), std::abs(trajectory.closure.energy)});
    double dry = 0.0;
    for (const Load& load : one.loads) {
      if (load.supply) dry += load.supply->mass(*load.supply->amount)->value() * (1.0 - load.supply->properties().moisture.value());
    }
    CAPTURE(pile, all.size());
    CHECK_THAT(trajectory.filled_in_all() * loaded->first.dry.value(), WithinRel(dry, sums));
    std::vector<int> days;
    for (const LaterLoad& load : loaded->later) {
      if (is_positive(load.mix.dry)) days.push_back(load.day);
    }
    std::vector<int> fed;
    for (const Fed& one_day : trajectory.fed) fed.push_back(one_day.day);
    CHECK(fed == days);
  }
  CHECK(worst < 1e-10);  // as of every trajectory (property/trajectories_test.cpp)
}

TEST_CASE("the readings of a fed pile count all that went in", "[loaded]") {
  const std::string on_hand = supply("leaves-fall", "150 kg", "storable = true\n") +
                              supply("grass-clippings", "4 bucket", "treated = \"no\"\nwhen = { every = \"week\" }\n");
  const std::string noticed = "[[noticed]]\nsymptom = \"ammonia smell\"\ndate = 2027-05-14\n";
  // Clippings and too few leaves: it smells.
  const std::vector<Went> all{{0, "leaves-fall", 20.0, 5.0},
                              {0, "grass-clippings", 90.0, 0.0},
                              {7, "grass-clippings", 60.0, 0.0},
                              {7, "leaves-fall", 4.0, 2.0},
                              {9, "", 0.0, 6.0}};
  const Yard one = yard(on_hand + tables_of(all) + warm + bin + noticed);
  const Date today = later_by(april_20, 24);
  const Answer<Recipe> recipe = recipe_in_pile(one, today);
  const Answer<YardReadings> readings = seen_of(one, &recipe, std::nullopt, usual_gap, today);

  double carbon = 0.0, nitrogen = 0.0, water = 13.0, dry = 0.0;
  const auto add = [&](const std::string& feedstock, double kg) {
    const Properties is = find_feedstock(piles::materials(), feedstock).properties().value();
    const double dry_part = kg * (1.0 - is.moisture.value());
    dry += dry_part;
    water += kg - dry_part;
    carbon += dry_part * is.carbon.value();
    nitrogen += dry_part * is.nitrogen.value();
  };
  for (const Went& went : all) {
    if (!went.feedstock.empty()) add(went.feedstock, went.kg);
  }
  REQUIRE(readings->starting_ratio.carbon_to_nitrogen);
  CHECK_THAT(readings->starting_ratio.carbon_to_nitrogen->value(), WithinRel(carbon / nitrogen, sums));

  // The same of the loads joined to supplies.
  const Yard joined = as_loaded(one);
  REQUIRE(joined.supplies.size() == 2);
  CHECK_THAT(joined.supplies[0].mass(*joined.supplies[0].amount)->value(), WithinRel(24.0, sums));
  CHECK_THAT(joined.supplies[1].mass(*joined.supplies[1].amount)->value(), WithinRel(150.0, sums));
  CHECK_THAT(joined.options.given_water.value(), WithinRel(13.0, sums));

  REQUIRE(readings->noticed.size() == 1);
  const NoticedSign& smell = readings->noticed.front();
  CHECK_FALSE(smell.as_planned);
  REQUIRE_FALSE(smell.fix.empty());
  REQUIRE(smell.mended);
  CHECK_THAT(smell.watered.value(), WithinRel(13.0, sums));
  for (const RecipeAmount& fix : smell.fix) add(fix.id, fix.mass.value());
  water += smell.water.value();
  CHECK_THAT(smell.mended->dry.value(), WithinRel(dry, sums));
  CHECK_THAT(smell.mended->water.value(), WithinRel(water, sums));
  CHECK_THAT(smell.mended->carbon_to_nitrogen->value(), WithinRel(carbon / nitrogen, sums));
  CHECK(smell.mended->carbon_to_nitrogen->value() >= 25.0 * (1.0 - 0.02));  // mended to the window, in whole buckets
}

TEST_CASE("the browns to fork in are those that the loads left", "[loaded]") {
  // Wet and too much of clippings; leaves are at hand still.
  const std::string on_hand = supply("leaves-fall", "150 kg", "storable = true\n");
  const std::string noticed = "[[noticed]]\nsymptom = \"rotten smell\"\ndate = 2027-05-14\n";
  const std::vector<Went> all{{0, "leaves-fall", 30.0, 60.0}, {0, "kitchen-scraps", 80.0, 0.0}, {7, "leaves-fall", 5.0, 0.0}};
  const Yard one = yard(on_hand + tables_of(all) + warm + bin + noticed);
  const Date today = later_by(april_20, 24);
  const PileAsBuilt pile = pile_as_built(one, recipe_in_pile(one, today), today);
  CHECK_THAT(pile.watered.value(), WithinRel(60.0, sums));
  REQUIRE(pile.kept_browns);
  CHECK(pile.kept_browns->kept.id == "leaves-fall");
  CHECK_THAT(pile.kept_browns->kept.mass.value(), WithinRel(150.0 - 35.0, sums));
  CHECK(pile.kept_browns->at_most.mass <= pile.kept_browns->kept.mass);
  // Nothing is kept where all of it went in, or more than there was.
  for (const char* amount : {"35 kg", "20 kg"}) {
    const Yard none = yard(supply("leaves-fall", amount, "storable = true\n") + tables_of(all) + warm + bin + noticed);
    CHECK_FALSE(pile_as_built(none, recipe_in_pile(none, today), today).kept_browns);
  }
}

TEST_CASE("what loads left and what they took are what was on hand", "[loaded][property]") {
  std::mt19937_64 random(20261128);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  for (int some = 0; some < 30; ++some) {
    const double bagged = between(0.0, 90.0), shredded = between(0.0, 60.0), straw = between(0.0, 30.0);
    std::string text =
        supply("leaves-fall", std::to_string(bagged + 0.1) + " kg", "storable = true\nwhen = { months = [\"Oct\", \"Nov\"] }\n") +
        supply("leaves-fall", std::to_string(shredded + 0.1) + " kg", "shredded = true\n") +
        supply("straw", std::to_string(straw + 0.1) + " kg") + supply("straw", "8 kg", "bought = true\nprice = 8\nunit = \"8 kg\"\n") +
        supply("kitchen-scraps", "1 bucket", "when = { every = \"week\" }\n");
    std::map<std::string, double> loaded;
    std::vector<Went> all;
    for (int i = 0; i < 8; ++i) {
      const std::string what = i % 3 == 0 ? "straw" : "leaves-fall";
      all.push_back({-30 + i, what, between(0.1, 25.0), between(0.0, 5.0)});
      loaded[what] += all.back().kg;
    }
    CAPTURE(some, text);
    const Yard one = yard(text + tables_of(all));
    const Date today = april_20;
    const InPile in = in_pile_by_loads(one, today);
    const Yard left = not_loaded_yet(one, today);
    CHECK(left.loads.empty());
    REQUIRE(left.supplies.size() == one.supplies.size());
    std::map<std::string, double> taken, had;
    for (std::size_t i = 0; i < one.supplies.size(); ++i) {
      const Supply& before = one.supplies[i];
      const Supply& after = left.supplies[i];
      if (before.bought) {
        CHECK(in.of_supplies.count(before.number) == 0);
        continue;
      }
      if (comes_fresh(before)) {
        CHECK(after.amount == before.amount);
        continue;
      }
      const double there = before.mass(*on_hand(before, today))->value();
      const double gone = in.of_supplies.count(before.number) > 0 ? in.of_supplies.at(before.number).value() : 0.0;
      const double rest = after.mass(*on_hand(after, today))->value();
      CHECK(gone >= 0.0);
      CHECK(rest >= 0.0);
      CHECK_THAT(gone + rest, WithinAbs(there, sums * there));
      taken[before.feedstock.id] += gone;
      had[before.feedstock.id] += there;
    }
    for (const auto& [id, kg] : loaded)
      CHECK_THAT(taken[id], WithinRel(std::min(kg, had[id]), 1e-6));  // amounts are printed to a microgram

    // The next recipe takes no more than is left, and no more does the year.
    const Answer<Recipe> next = first_recipe(left, today);
    for (const RecipeAmount& amount : as_built(next.result).amounts) {
      if (amount.bought || amount.supply == 0) continue;
      const Supply& after = left.supplies[static_cast<std::size_t>(amount.supply) - 1];
      if (!comes_fresh(after)) CHECK(amount.mass.value() <= after.mass(*on_hand(after, today))->value() * (1.0 + sums) + sums);
    }
    const YardSeason season = season_of(one, today).result;
    for (std::size_t i = 0; i < season.supplies.size(); ++i) {
      const Supply& of = season.supplies[i];
      if (season.question.supplies[i].keeping != Keeping::dry) continue;
      const Supply& after = left.supplies[static_cast<std::size_t>(of.number) - 1];
      double used = 0.0;
      for (int later = 0; later < season.months; ++later)
        used +=
            season.year.months[(static_cast<unsigned>(today.month()) - 1 + static_cast<std::size_t>(later)) % 12].supplies[i].used.value();
      CHECK(used <= after.mass(*on_hand(after, today))->value() * (1.0 + 1e-7) + 1e-6);  // CLP keeps its rows to 1e-7
    }
  }
}

TEST_CASE("a pile that stands is never filled again", "[loaded]") {
  const std::string on_hand =
      supply("leaves-fall", "24 leaf-bag", "when = { months = [\"Oct\", \"Nov\"] }\nstorable = true\n") +
      supply("grass-clippings", "6 bucket", "treated = \"no\"\nwhen = { every = \"week\", from = \"Apr\", to = \"Oct\" }\n") +
      supply("kitchen-scraps", "2 bucket", "when = { every = \"week\" }\n") + supply("coffee-grounds", "7 bucket");
  const std::string lawn = "[[lawn.zone]]\nshape = \"area\"\narea = \"1000 ft2\"\n";
  std::string loads;
  for (const Went& went :
       {Went{-180, "leaves-fall", 90.0, 60.0}, Went{-180, "coffee-grounds", 40.0, 0.0}, Went{-170, "kitchen-scraps", 15.0, 0.0}})
    loads += table_of(went);
  const auto [name, text, stands] =
      GENERATE_COPY(table<std::string, std::string, Stands>({{"by date", bin + "built = 2026-10-24\n", Stands::by_date},
                                                             {"by word", bin + "standing = true\n", Stands::by_word},
                                                             {"by loads", bin + loads, Stands::by_loads}}));
  const Date today = GENERATE(november_28, april_20);
  CAPTURE(name, print_date(today));
  const Yard one = yard(on_hand + text + warm + lawn);
  const Answer<Plan> plan = make_plan(one, today);
  REQUIRE(plan->stands == stands);
  const std::string screen = act_screen(plan, one);
  CAPTURE(screen);
  for (const char* fills : {"fill the", "fill one", "build the", "Take 1", "Take 2", " leaf bags of autumn leaves, best", "On it ",
                            "Water as you go", "lay 2 at"})
    CHECK_THAT(screen, !Contains(fills));
  const std::vector<RecipeAmount> amounts = as_built(plan->recipe.result).amounts;
  for (const CalendarChore& chore : plan->calendar) {
    CAPTURE(chore.what.id);
    CHECK(chore.what.id != "build");
    for (const RecipeAmount& amount : chore.amounts) {
      const bool is_of_recipe = std::any_of(amounts.begin(), amounts.end(), [&](const RecipeAmount& whole) {
        return whole.supply == amount.supply && is_positive(whole.mass) && whole.mass == amount.mass;
      });
      CHECK_FALSE(is_of_recipe);
    }
  }
  // One that is to be built says so.
  const Yard other = yard(on_hand + bin + "built = 2027-05-01\n" + warm + lawn);
  CHECK_THAT(act_screen(make_plan(other, today), other), Contains("Take 13 leaf bags"));
}
