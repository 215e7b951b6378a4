// The whole job: what a heap leaves, what the lawn still wants, and warnings in the order of their weight.

#include "heapwright/plan/plan.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Matchers::WithinRel;

namespace {

constexpr Date november_7{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)};
constexpr double exact = 1e-12;

Yard yard(const std::string& text) { return read_yard_text(text, "yard.toml", built_in_materials()); }

std::string supply(const std::string& feedstock, const std::string& amount) {
  return "[[supply]]\nfeedstock = \"" + feedstock + "\"\namount = \"" + amount + "\"\n";
}

std::string lawn(const std::string& area) { return "[[lawn.zone]]\nshape = \"area\"\narea = \"" + area + "\"\n"; }

double cubic_feet(Volume volume) { return volume.value() / unit_size(Dimension::volume, "ft3"); }

template <class Quantity>
Reading<Quantity> reading(Quantity low, Quantity typical, Quantity high) {
  Reading<Quantity> reading;
  reading.low = low;
  reading.typical = typical;
  reading.high = high;
  return reading;
}

}  // namespace

TEST_CASE("the compost of a heap, by hand", "[plan]") {
  // 100 kg half water: 50 kg dry, of it 36 kg organic and 14 kg ash.
  const Properties properties{wet_basis(0.5), carbon_dry_basis(0.4), nitrogen_dry_basis(0.016), organic_dry_basis(0.72),
                              particle_density(1500.0)};
  const Mix mix = mix_of({{{{properties, bulk_density(200.0), 100.0 * unit::kg}, "a", "a", ""}}, {}});
  Compost compost;
  compost.moisture = {reading(wet_basis(0.3), wet_basis(0.4), wet_basis(0.5))};
  compost.bulk_density = {reading(bulk_density(500.0), bulk_density(600.0), bulk_density(700.0))};
  const YieldRule rule{reading(ShareOfVolatileSolids::of(0.4), ShareOfVolatileSolids::of(0.5), ShareOfVolatileSolids::of(0.6)),
                       reading(ShareOfVolume::of(0.05), ShareOfVolume::of(0.10), ShareOfVolume::of(0.20))};

  const CompostYield yield = compost_yield(mix, compost, rule);
  CHECK_THAT(yield.likely.value(), WithinRel((14.0 + 18.0) / (600.0 * 0.6) * 0.90, exact));  // 0.080 m³
  CHECK_THAT(yield.low.value(), WithinRel((14.0 + 14.4) / (700.0 * 0.6) * 0.80, exact));
  CHECK_THAT(yield.high.value(), WithinRel((14.0 + 21.6) / (500.0 * 0.6) * 0.95, exact));

  SECTION("water added to the heap does not make more compost") {
    const Mix wetter = mix_of({{{{properties, bulk_density(200.0), 100.0 * unit::kg}, "a", "a", ""}}, 50.0 * unit::kg_water});
    CHECK(compost_yield(wetter, compost, rule).likely == yield.likely);
  }
  SECTION("a density without its range is taken as it is") {
    compost.bulk_density.front().low.reset();
    compost.bulk_density.front().high.reset();
    CHECK_THAT(compost_yield(mix, compost, rule).low.value(), WithinRel((14.0 + 14.4) / (600.0 * 0.6) * 0.80, exact));
  }
}

TEST_CASE("24 bags of loose leaves leave a few cubic feet, not cubic yards", "[plan]") {
  const Plan plan = make_plan(yard("[[supply]]\nfeedstock = \"leaves-fall\"\npacking = \"loose\"\namount = \"24 leaf-bag\"\n"), november_7);
  REQUIRE(plan.supply.own_compost);
  CHECK(cubic_feet(plan.supply.own_compost->low) > 1.0);
  CHECK(cubic_feet(plan.supply.own_compost->likely) > 3.0);
  CHECK(cubic_feet(plan.supply.own_compost->likely) < 8.0);
  CHECK(cubic_feet(plan.supply.own_compost->high) < 27.0 / 2.0);
  CHECK_FALSE(plan.supply.needed);  // no lawn measured
  CHECK_FALSE(plan.supply.to_buy);
  CHECK_FALSE(plan.topdressing);
}

TEST_CASE("own and bought compost make what is needed", "[plan]") {
  const std::string area = GENERATE("500 ft2", "5000 ft2", "2 acre");
  const Plan plan = make_plan(yard(supply("leaves", "24 leaf-bag") + supply("grass", "12 bucket") + lawn(area)), november_7);
  REQUIRE(plan.supply.own_compost);
  REQUIRE(plan.supply.needed);
  REQUIRE(plan.supply.to_buy);
  CHECK(plan.supply.to_buy->value() > 0.0);
  CHECK_THAT((plan.supply.own_compost->likely + *plan.supply.to_buy).value(), WithinRel(plan.supply.needed->value(), exact));
  CHECK(*plan.supply.needed == plan.topdressing->per_year);
  CHECK(plan.supply.own_compost->low < plan.supply.own_compost->likely);
  CHECK(plan.supply.own_compost->likely < plan.supply.own_compost->high);
}

TEST_CASE("twice a year takes twice as much", "[plan]") {
  const std::string text = supply("leaves", "24 leaf-bag") + lawn("5000 ft2");
  const Plan once = make_plan(yard(text), november_7);
  const Plan twice = make_plan(yard(text + "[topdressing]\nmonths = [\"Apr\", \"Sep\"]\n"), november_7);
  CHECK_THAT(twice.supply.needed->value(), WithinRel(2.0 * once.supply.needed->value(), exact));
}

TEST_CASE("nothing is to buy where the heap gives more than the lawn wants", "[plan]") {
  const Plan plan = make_plan(yard(supply("leaves", "24 leaf-bag") + supply("grass", "12 bucket") + lawn("10 ft2")), november_7);
  CHECK(plan.supply.own_compost->likely > *plan.supply.needed);
  CHECK(plan.supply.to_buy->value() == 0.0);
}

TEST_CASE("without a heap all is bought", "[plan]") {
  const Plan plan = make_plan(yard(lawn("1000 ft2")), november_7);
  CHECK(plan.recipe.status == RecipeStatus::nothing_on_hand);
  CHECK_FALSE(plan.supply.own_compost);
  CHECK(plan.supply.to_buy == plan.supply.needed);
}

TEST_CASE("cautions come once each, the most important first", "[plan]") {
  const Yard everything = yard(supply("leaves", "24 leaf-bag") + supply("straw", "2 bale") + supply("grass", "12 bucket") +
                               supply("scraps", "3 bucket") + supply("horse-manure", "4 bucket") + supply("cow-manure", "4 bucket") +
                               supply("urea", "1 lb") + lawn("1000 ft2") + "[topdressing]\nnear_water = true\n");
  const auto rank = [&](const std::string& id) {
    const auto& table = everything.materials.cautions;
    return std::find_if(table.begin(), table.end(), [&](const Caution& caution) { return caution.id == id; }) - table.begin();
  };
  const auto check = [&](const std::vector<std::string>& ids) {
    std::vector<std::ptrdiff_t> ranks;
    for (const std::string& id : ids) {
      CAPTURE(id);
      CHECK(find_caution(everything.materials, id) != nullptr);
      ranks.push_back(rank(id));
    }
    CHECK(std::adjacent_find(ranks.begin(), ranks.end(), std::greater_equal<>()) ==
          ranks.end());  // no rank is followed by an equal or smaller one
  };
  const Plan plan = make_plan(everything, november_7);
  check(plan.cautions);
  check(plan.recipe.cautions);
  check(mix_on_hand(everything, WaterMass(), november_7).cautions);
  const auto has = [&](const char* id) { return std::find(plan.cautions.begin(), plan.cautions.end(), id) != plan.cautions.end(); };
  for (const char* id : {"raw-manure", "meat-and-pet-waste", "persistent-herbicide", "dust-and-mould", "buried-lines",
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
    CHECK_THAT(mix_on_hand(some, 2.0 * unit::kg_water, november_7).mix->mass.value(), WithinRel(12.0, exact));
  }
  SECTION("nothing is no mix") { CHECK_FALSE(mix_on_hand(yard(""), WaterMass(), november_7).mix); }
}

TEST_CASE("the day the heap is built is the file's, else today", "[plan]") {
  CHECK(make_plan(yard(supply("leaves", "1 kg")), november_7).built == november_7);
  const Date may_1{std::chrono::year(2027), std::chrono::month(5), std::chrono::day(1)};
  CHECK(make_plan(yard(supply("leaves", "1 kg") + "[heap]\nshape = \"tumbler\"\nvolume = \"60 gal\"\nbuilt = 2027-05-01\n"), november_7)
            .built == may_1);
}
