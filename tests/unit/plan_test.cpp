// The whole job: what a pile leaves, what the lawn still wants, and warnings in the order of their weight.

#include "heapwright/plan/plan.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

#include "heapwright/error.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Matchers::WithinRel;

namespace {

constexpr Date november_7{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)};
constexpr double exact = 1e-12;

Yard yard(const std::string& text) { return read_yard_text(text, "yard.toml", built_in_tables()); }

std::string supply(const std::string& feedstock, const std::string& amount) {
  return "[[supply]]\nfeedstock = \"" + feedstock + "\"\namount = \"" + amount + "\"\n";
}

std::string lawn(const std::string& area) { return "[[lawn.zone]]\nshape = \"area\"\narea = \"" + area + "\"\n"; }

double cubic_feet(Volume volume) { return volume.value() / unit::cubic_foot.value(); }

template <class Quantity>
PublishedValue<Quantity> reading(Quantity low, Quantity typical, Quantity high) {
  PublishedValue<Quantity> reading;
  reading.low = low;
  reading.typical = typical;
  reading.high = high;
  return reading;
}

}  // namespace

TEST_CASE("the compost of a pile, by hand", "[plan]") {
  // 100 kg half water: 50 kg dry, of it 36 kg organic and 14 kg ash.
  const Properties properties{wet_basis(0.5), carbon_dry_basis(0.4), nitrogen_dry_basis(0.016), organic_dry_basis(0.72),
                              particle_density(1500.0)};
  const Mix mix = mix_of({{{{properties, bulk_density(200.0), 100.0 * unit::kg}, "a", "a", ""}}, {}});
  YieldRule rule;
  rule.volatile_solids_lost = reading(ShareOfVolatileSolids::of(0.4), ShareOfVolatileSolids::of(0.5), ShareOfVolatileSolids::of(0.6));
  rule.held_back_by_screen = reading(ShareOfVolume::of(0.05), ShareOfVolume::of(0.10), ShareOfVolume::of(0.20));
  rule.moisture_at_use = reading(wet_basis(0.3), wet_basis(0.4), wet_basis(0.5));
  rule.organic_density.typical = dry_bulk_density(200.0);
  rule.mineral_density.typical = dry_bulk_density(1200.0);
  rule.density_spread = 0.24;

  // Of 36 kg 18 are left, beside 14 kg of ash: 32 kg, of which a tenth stays on the screen; specific volumes add.
  const double litres_a_kg = 18.0 / 32.0 / 200.0 + 14.0 / 32.0 / 1200.0;
  const CompostYield yield = compost_yield(mix, OrganicMass(), rule);
  CHECK_THAT(yield.likely.value(), WithinRel(0.9 * 32.0 * litres_a_kg, exact));  // 0.092 m³
  // Low and high are as far off as eight in ten: what density, screen and loss vary by, each by its logarithm, 1.2816 deviations.
  const double of_screen = std::log(0.95 / 0.80) / 2.563104;
  const double of_loss = std::log((14.0 + 21.6) / (14.0 + 14.4)) / 2.563104;
  const double times = std::exp(1.281552 * std::sqrt(0.24 * 0.24 + of_screen * of_screen + of_loss * of_loss));
  CHECK_THAT(yield.low.value(), WithinRel(yield.likely.value() / times, exact));
  CHECK_THAT(yield.high.value(), WithinRel(yield.likely.value() * times, exact));

  SECTION("water added to the pile does not make more compost") {
    const Mix wetter = mix_of({{{{properties, bulk_density(200.0), 100.0 * unit::kg}, "a", "a", ""}}, 50.0 * unit::kg_water});
    CHECK(compost_yield(wetter, OrganicMass(), rule).likely == yield.likely);
  }
  SECTION("coarse wood stays on the screen, and does not rot") {
    const CompostYield with_wood = compost_yield(mix, 8.0 * unit::kg_organic, rule);
    const double passes = 32.0 - 8.0;
    CHECK_THAT(with_wood.likely.value(), WithinRel(0.9 * passes * (10.0 / passes / 200.0 + 14.0 / passes / 1200.0), exact));
    // Of 36 kg no more than 6 go where 30 are wood: only ash passes.
    CHECK_THAT(compost_yield(mix, 30.0 * unit::kg_organic, rule).likely.value(), WithinRel(0.9 * 14.0 / 1200.0, exact));
  }
}

TEST_CASE("the compost that is left, by the law of its density", "[plan]") {
  // Check figures of section 17 of the model, printed to eight digits, with the rule that comes with the program.
  constexpr double printed = 1e-7;
  const YieldRule rule = *built_in_materials().yield;
  const std::vector<std::pair<double, double>> densities{{0.79, 246.63804}, {0.50, 346.70987}, {0.30, 481.42331}};
  for (const auto& [organic, density] : densities)
    CHECK_THAT(finished_density(organic_dry_basis(organic), rule).value(), WithinRel(density, printed));
  const CompostLeft one =
      compost_left(67.0 * unit::kg_dry, 0.79 * 67.0 * unit::kg_organic, OrganicMass(), *rule.held_back_by_screen.typical, rule);
  CHECK_THAT(one.volume.value(), WithinRel(0.23090518, printed));
  CHECK_THAT(one.mass.value(), WithinRel(98.189655, printed));
  const CompostLeft woody =
      compost_left(100.0 * unit::kg_dry, 90.0 * unit::kg_organic, 40.0 * unit::kg_organic, *rule.held_back_by_screen.typical, rule);
  CHECK_THAT(woody.volume.value(), WithinRel(0.21569902, printed));
  CHECK_THAT(woody.mass.value(), WithinRel(87.931034, printed));
  double before = 1e9;
  for (double organic = 0.0; organic <= 1.0; organic += 0.05) {
    const double density = finished_density(organic_dry_basis(std::min(1.0, organic)), rule).value();
    CHECK(density < before);
    before = density;
  }
}

TEST_CASE("24 bags of loose leaves leave a few cubic feet, not cubic yards", "[plan]") {
  const Answer<Plan> plan =
      make_plan(yard("[[supply]]\nfeedstock = \"leaves-fall\"\npacking = \"loose\"\namount = \"24 leaf-bag\"\n"), november_7);
  REQUIRE(plan->supply.own_compost);
  CHECK(cubic_feet(plan->supply.own_compost->low) > 1.0);
  CHECK(cubic_feet(plan->supply.own_compost->likely) > 3.0);
  CHECK(cubic_feet(plan->supply.own_compost->likely) < 8.0);
  CHECK(cubic_feet(plan->supply.own_compost->high) < 27.0 / 2.0);
  CHECK_FALSE(plan->supply.needed);  // no lawn measured
  CHECK_FALSE(plan->supply.to_buy);
  CHECK_FALSE(plan->topdressing);
}

TEST_CASE("own and bought compost make what is needed", "[plan]") {
  const std::string area = GENERATE("500 ft2", "5000 ft2", "2 acre");
  const Answer<Plan> plan = make_plan(yard(supply("leaves", "24 leaf-bag") + supply("grass", "12 bucket") + lawn(area)), november_7);
  REQUIRE(plan->supply.own_compost);
  REQUIRE(plan->supply.needed);
  REQUIRE(plan->supply.to_buy);
  CHECK(plan->supply.to_buy->value() > 0.0);
  CHECK_THAT((plan->supply.own_compost->likely + *plan->supply.to_buy).value(), WithinRel(plan->supply.needed->value(), exact));
  CHECK(*plan->supply.needed == (*plan->topdressing)->per_year);
  CHECK(plan->supply.own_compost->low < plan->supply.own_compost->likely);
  CHECK(plan->supply.own_compost->likely < plan->supply.own_compost->high);
}

TEST_CASE("twice a year takes twice as much", "[plan]") {
  const std::string text = supply("leaves", "24 leaf-bag") + lawn("5000 ft2");
  const Answer<Plan> once = make_plan(yard(text), november_7);
  const Answer<Plan> twice = make_plan(yard(text + "[topdressing]\nmonths = [\"Apr\", \"Sep\"]\n"), november_7);
  CHECK_THAT(twice->supply.needed->value(), WithinRel(2.0 * once->supply.needed->value(), exact));
}

TEST_CASE("what a plan takes for granted holds what its forecast does", "[plan]") {
  const std::string climate = "[climate]\ncoldest_month = \"60 degF\"\nwarmest_month = \"80 degF\"\n";
  const std::string text =
      supply("leaves", "24 leaf-bag") + supply("grass", "12 bucket") + "treated = \"no\"\n" + lawn("5000 ft2") +
      "[pile]\nshape = \"bin\"\nlength = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\nkeep_moist = true\nturn_every = "
      "\"14 days\"\n";
  const Answer<Plan> plan = make_plan(yard(text + climate), november_7);
  REQUIRE(plan->forecast);
  const auto count_of = [](const std::vector<Assumption>& all, const std::string& what) {
    return std::count_if(all.begin(), all.end(), [&](const Assumption& one) { return one.what.starts_with(what); });
  };
  for (const char* what : {"weather", "rain", "weight of the pile"}) {
    CAPTURE(what);
    CHECK(count_of(plan->forecast->assumptions, what) == 1);
    CHECK(count_of(plan.assumptions, what) == 1);
  }
  for (const Assumption& one : plan->forecast->assumptions) {
    CAPTURE(one.what);
    CHECK(count_of(plan.assumptions, one.what) >= 1);
  }
  for (const Assumption& one : plan->recipe.assumptions) {
    CAPTURE(one.what);
    CHECK(count_of(plan.assumptions, one.what) >= 1);
  }
  const Answer<Plan> without = make_plan(yard(text), november_7);
  CHECK_FALSE(without->forecast);
  CHECK(count_of(without.assumptions, "weather") == 0);
  CHECK(count_of(without.assumptions, "rain") == 0);
}

TEST_CASE("nothing is to buy where the pile gives more than the lawn wants", "[plan]") {
  const Answer<Plan> plan = make_plan(yard(supply("leaves", "24 leaf-bag") + supply("grass", "12 bucket") + lawn("10 ft2")), november_7);
  CHECK(plan->supply.own_compost->likely > *plan->supply.needed);
  CHECK(plan->supply.to_buy->value() == 0.0);
}

TEST_CASE("without a pile all is bought", "[plan]") {
  const Answer<Plan> plan = make_plan(yard(lawn("1000 ft2")), november_7);
  CHECK(plan->recipe->status == RecipeStatus::nothing_on_hand);
  CHECK_FALSE(plan->supply.own_compost);
  CHECK(plan->supply.to_buy == plan->supply.needed);
}

TEST_CASE("cautions come once each, the most important first", "[plan]") {
  const Yard everything = yard(supply("leaves", "24 leaf-bag") + supply("straw", "2 bale") + supply("grass", "12 bucket") +
                               supply("scraps", "3 bucket") + supply("horse-manure", "4 bucket") + supply("cow-manure", "4 bucket") +
                               supply("urea", "1 lb") + lawn("1000 ft2") + "[topdressing]\nnear_water = true\n");
  const auto rank = [&](const std::string& id) {
    const auto& table = *everything.tables.materials.cautions;
    return std::find_if(table.begin(), table.end(), [&](const Caution& caution) { return caution.id == id; }) - table.begin();
  };
  const auto check = [&](const std::vector<std::string>& ids) {
    std::vector<std::ptrdiff_t> ranks;
    for (const std::string& id : ids) {
      CAPTURE(id);
      CHECK(row_with_id(*everything.tables.materials.cautions, id) != nullptr);
      ranks.push_back(rank(id));
    }
    CHECK(std::adjacent_find(ranks.begin(), ranks.end(), std::greater_equal<>()) ==
          ranks.end());  // no rank is followed by an equal or smaller one
  };
  const Answer<Plan> plan = make_plan(everything, november_7);
  check(plan.cautions);
  check(plan->recipe.cautions);
  check(mix_on_hand(everything, WaterMass(), november_7).cautions);
  const auto has = [&](const char* id) { return std::find(plan.cautions.begin(), plan.cautions.end(), id) != plan.cautions.end(); };
  for (const char* id : {"raw-manure", "meat-and-pet-waste", "persistent-herbicide", "dust-and-mold", "buried-lines",
                         "phosphorus-near-water", "sharp-nitrogen", "local-rules"}) {
    CAPTURE(id);
    CHECK(has(id));
  }
}

TEST_CASE("clippings known to be untreated call for no warning", "[plan]") {
  const auto [treated, warned] = GENERATE(table<std::string, bool>(
      {{"", true}, {"treated = \"unknown\"\n", true}, {"treated = \"yes\"\n", true}, {"treated = \"no\"\n", false}}));
  const std::vector<std::string> ids = mix_on_hand(yard(supply("grass", "1 bucket") + treated), WaterMass(), november_7).cautions;
  CHECK((std::find(ids.begin(), ids.end(), "persistent-herbicide") != ids.end()) == warned);
}

TEST_CASE("what is on hand together", "[plan]") {
  SECTION("bought supplies and those without an amount stay out") {
    const Yard some = yard(supply("leaves", "10 kg") + supply("straw", "5 kg") + "bought = true\n" +
                           "[[supply]]\nfeedstock = \"grass\"\nuse = \"unlimited\"\n");
    CHECK_THAT(mix_on_hand(some, 2.0 * unit::kg_water, november_7).result.mix->mass.value(), WithinRel(12.0, exact));
  }
  SECTION("nothing is no mix") { CHECK_FALSE(mix_on_hand(yard(""), WaterMass(), november_7).result.mix); }
}

TEST_CASE("the day the pile is built is the file's, else today", "[plan]") {
  CHECK(make_plan(yard(supply("leaves", "1 kg")), november_7).result.built == november_7);
  const Date may_1{std::chrono::year(2027), std::chrono::month(5), std::chrono::day(1)};
  CHECK(make_plan(yard(supply("leaves", "1 kg") + "[pile]\nshape = \"tumbler\"\nvolume = \"60 gal\"\nbuilt = 2027-05-01\n"), november_7)
            .result.built == may_1);
}

namespace {

const std::string three_supplies = supply("leaves", "24 leaf-bag") + "when = { months = [\"Oct\", \"Nov\"] }\n" +
                                   supply("grass", "6 bucket") +
                                   "when = { every = \"week\", from = \"Apr\", to = \"Oct\" }\ntreated = \"no\"\n" +
                                   supply("scraps", "2 bucket") + "when = { every = \"week\" }\n";

std::string of_shape(const std::string& lines) { return "[pile]\n" + lines + "built = 2026-11-07\n"; }

std::string words_of(const Answer<Plan>& plan, const Yard& yard) {
  return text_of(plan_page(plan, yard.tables.materials), Show(ShownUnits::us), {80, Depth::ground});
}

}  // namespace

TEST_CASE("what to do with two supplies of one feedstock is said once", "[plan]") {
  const Yard one = yard(supply("leaves", "3 leaf-bag") + supply("leaves", "2 bucket"));
  const std::string text =
      text_of(recipe_page(first_recipe(one, november_7), one.tables.materials), Show(ShownUnits::us), {80, Depth::act});
  const std::size_t first = text.find("keep them dry for later");
  REQUIRE(first != std::string::npos);
  CHECK(text.find("keep them dry for later", first + 1) == std::string::npos);
}

TEST_CASE("of what is used up it is told that all of it goes in, and of nothing else", "[plan]") {
  const Yard one = yard(supply("leaves", "100 leaf-bag") + supply("grass-clippings", "10 bucket"));
  const Answer<Recipe> recipe = first_recipe(one, november_7);
  const std::string text = text_of(recipe_page(recipe, one.tables.materials), Show(ShownUnits::us), {80, Depth::why});
  const std::string what_it_makes = text.substr(text.find("What it makes"));
  const auto row_of = [&](const std::string& name) {
    const std::size_t begin = what_it_makes.find(name);
    REQUIRE(begin != std::string::npos);
    return what_it_makes.substr(begin, what_it_makes.find('\n', begin) - begin);
  };
  CHECK(row_of("grass clippings").ends_with(", all of it"));
  CHECK(row_of("autumn leaves").find("all of it") == std::string::npos);
}

TEST_CASE("a pile that stands, of supplies that give no recipe, has a page", "[plan]") {
  const std::string seen = "[[reading]]\ndate = 2026-11-05\ncore = \"90 degF\"\n";
  const Yard one = yard(supply("leaves", "0 leaf-bag") + seen);
  const Answer<Plan> plan = make_plan(one, november_7);
  REQUIRE_FALSE(plan->recipe->mix);
  CHECK(words_of(plan, one).find("90 °F on Nov 5") != std::string::npos);
}

TEST_CASE("clippings that are not there today are told of, and so is what comes later", "[plan]") {
  const Yard one = yard(three_supplies + of_shape("length = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\n"));
  const Answer<Plan> plan = make_plan(one, november_7);
  const Recipe& recipe = plan->recipe.result;
  REQUIRE(recipe.not_today.size() == 1);
  CHECK(recipe.not_today.front().id == "grass-clippings");
  CHECK(recipe.not_today.front().season->months.front() == std::chrono::April);
  CHECK(recipe.amounts[1].mass.value() == 0.0);
  REQUIRE(recipe.cards.size() == 2);  // a mowing's and a week's scraps
  CHECK_THAT(recipe.cards[0].greens.containers->count, WithinRel(6.0, exact));
  CHECK_THAT(recipe.cards[1].greens.containers->count, WithinRel(2.0, exact));
  const std::string words = words_of(plan, one);
  CHECK(words.find("grass clippings: come Apr to Oct and keep 3 days") != std::string::npos);
  CHECK(words.find("Browns last to ") != std::string::npos);
}

TEST_CASE("of clippings without a limit none are there out of season", "[plan]") {
  const std::string endless =
      "[[supply]]\nfeedstock = \"grass\"\nuse = \"unlimited\"\ntreated = \"no\"\nwhen = { every = \"week\", from = "
      "\"Apr\", to = \"Oct\" }\n";
  const Answer<Plan> plan = make_plan(yard(supply("leaves", "24 leaf-bag") + supply("scraps", "5 bucket") + endless), november_7);
  CHECK(plan->recipe->amounts[2].mass.value() == 0.0);
  REQUIRE(plan->recipe->not_today.size() == 1);
  CHECK(plan->recipe->not_today.front().id == "grass-clippings");
}

TEST_CASE("what comes from April on is not fed before", "[plan]") {
  const std::string mowing = supply("grass", "2 bucket") + "treated = \"no\"\nwhen = { every = \"week\", from = \"Apr\", to = \"Oct\" }\n";
  const Answer<Plan> plan = make_plan(yard(supply("leaves", "40 leaf-bag") + supply("scraps", "2 bucket") + mowing), november_7);
  const std::vector<WeeklyLoad> loads = weekly_loads(plan->season.value(), plan->built, ShareOfLooseVolume::of(1.0));
  REQUIRE_FALSE(loads.empty());
  CHECK(loads.front().date == Date{std::chrono::year(2027), std::chrono::April, std::chrono::day(3)});  // a Saturday, as November 7 is
  for (std::size_t i = 1; i < loads.size(); ++i)
    CHECK(std::chrono::sys_days(loads[i].date) - std::chrono::sys_days(loads[i - 1].date) == std::chrono::days(7));
}

TEST_CASE("a recipe is no bigger than the bins hold, a tumbler two thirds of its volume", "[plan]") {
  const auto [shape, room] = GENERATE(table<std::string, double>(
      {{"length = \"3 ft\"\nwidth = \"3 ft\"\nheight = \"2 ft\"\n", 18.0}, {"shape = \"tumbler\"\nvolume = \"9 ft3\"\n", 6.0}}));
  const Yard one = yard(supply("leaves", "24 leaf-bag") + supply("scraps", "5 bucket") + of_shape(shape));
  const Answer<Plan> plan = make_plan(one, november_7);
  CHECK_THAT(cubic_feet(*plan->recipe->room), WithinRel(room, 1e-9));
  CHECK(cubic_feet(*as_built(plan->recipe.result).mix.volume) <= room * (1.0 + 1e-9));
  CHECK(plan->recipe->size_set_by->from == SizeFrom::room);
  CHECK((*plan->fit)->fits == true);
  const std::string words = words_of(plan, one);
  CHECK(words.find("put it all in") == std::string::npos);
  CHECK(words.find("does not fit today") != std::string::npos);
}

TEST_CASE("what must go in is not held back by the bin, and the plan says that it does not fit", "[plan]") {
  const Yard one =
      yard(supply("leaves", "24 leaf-bag") + "use = \"all\"\n" + of_shape("length = \"3 ft\"\nwidth = \"3 ft\"\nheight = \"2 ft\"\n"));
  const Answer<Plan> plan = make_plan(one, november_7);
  CHECK(plan->recipe->size_set_by->from == SizeFrom::fixed);
  CHECK((*plan->fit)->fits == false);
}
