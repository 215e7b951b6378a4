// Whether bought compost is fit for a lawn by its analysis, when grass takes compost, and what an order rests on.

#include <catch2/catch.hpp>

#include "heapwright/lawn/compost_fitness.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/tables/tables.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using Catch::Matchers::WithinRel;

namespace {

CompostFitness fitness_of(const std::string& keys) {
  const Yard yard = read_yard_text("[topdressing]\nanalysis = { " + keys + " }\n", "yard.toml");
  return compost_fitness(*yard.topdressing.analysis, *yard.tables.criteria);
}

std::vector<std::string> names_outside(const CompostFitness& fitness) {
  std::vector<std::string> names;
  for (const JudgedFigure& figure : fitness.outside()) names.push_back(figure.name);
  return names;
}

using Names = std::vector<std::string>;

Answer<Topdressing> dressed(const std::string& zone, const std::string& plan, Date today) {
  const Yard yard = read_yard_text("[[lawn.zone]]\narea = \"1000 ft2\"\n" + zone + "[topdressing]\n" + plan, "yard.toml");
  return topdress(*yard.lawn, yard.topdressing, yard.tables.materials, today);
}

constexpr Date in_october{std::chrono::year(2026), std::chrono::October, std::chrono::day(1)};

std::size_t place_of(const std::vector<Assumption>& assumptions, std::string_view what) {
  for (std::size_t at = 0; at < assumptions.size(); ++at) {
    if (assumptions[at].what.find(what) != std::string::npos) return at;
  }
  return assumptions.size();
}

}  // namespace

// The limits a second time from materials/criteria.toml: salts in a 1:5 slurry at most 2.5 (UK data sheet) and 10 dS/m (Caltrans), below 10
// (Minnesota).
TEST_CASE("salts in a slurry bar compost above every limit for turf", "[fitness]") {
  CHECK(names_outside(fitness_of("salts_1to5 = \"2.5 dS/m\"")).empty());
  for (const char* salts : {"2.6 dS/m", "9.9 dS/m", "10 dS/m"}) {
    const CompostFitness fitness = fitness_of(std::string("salts_1to5 = \"") + salts + "\"");
    CHECK(names_outside(fitness) == Names{"salts in a 1:5 slurry"});
    CHECK(!fitness.too_salty);
  }
  CHECK(fitness_of("salts_1to5 = \"10.1 dS/m\"").too_salty);
}

TEST_CASE("salts of another method are held against no limit for turf", "[fitness]") {
  CHECK(names_outside(fitness_of("salts_paste = \"3.9 dS/m\"")).empty());
  CHECK(names_outside(fitness_of("salts_paste = \"4 dS/m\"")) == Names{"salts in a saturated paste"});
  CHECK(names_outside(fitness_of("salts_1to2 = \"1.5 dS/m\"")) == Names{"salts in a 1:2 slurry"});
  CHECK(!fitness_of("salts_paste = \"12 dS/m\"").too_salty);
  CHECK(!fitness_of("salts_paste = \"16 dS/m\"").too_salty);
  CHECK(fitness_of("salts_paste = \"16.1 dS/m\"").too_salty);
  CHECK(!fitness_of("salts_1to2 = \"6 dS/m\"").too_salty);
  CHECK(fitness_of("salts_1to2 = \"6.1 dS/m\"").too_salty);
  for (const JudgedFigure& figure : fitness_of("salts_paste = \"12 dS/m\"").figures)
    for (const JudgedLimit& one : figure.limits) CHECK(one.limit.specification == "Missouri, for growing media");
}

TEST_CASE("other figures are asked about and bar nothing, and salts come first", "[fitness]") {
  const CompostFitness fitness = fitness_of("moisture_wet_basis = \"61 %\", carbon_to_nitrogen = \"31:1\", salts_1to5 = \"3 dS/m\"");
  CHECK(names_outside(fitness) == Names{"salts in a 1:5 slurry", "moisture", "C:N ratio"});
  CHECK(!fitness.too_salty);
  CHECK(names_outside(fitness_of("moisture_wet_basis = \"45 %\", carbon_to_nitrogen = \"15:1\", organic_matter_dry_basis = \"50 %\""))
            .empty());
}

TEST_CASE("compost that is too salty holds", "[fitness]") {
  const Yard yard =
      read_yard_text("[[lawn.zone]]\narea = \"1000 ft2\"\n[topdressing]\nanalysis = { salts_1to5 = \"12 dS/m\" }\n", "yard.toml");
  Topdressing result = topdress(*yard.lawn, yard.topdressing, yard.tables.materials).result;
  CHECK(!result.advice.is_hold());
  judge_compost(result, *yard.tables.criteria);
  CHECK(result.advice.compost_too_salty);
  CHECK(result.advice.is_hold());
}

TEST_CASE("grass that does not grow waits", "[fitness]") {
  using namespace std::chrono;
  for (const month one : {November, December, January, February, July}) CHECK(!takes_compost_in(Grass::cool_season, one));
  for (const month one : {March, April, June, August, September, October}) CHECK(takes_compost_in(Grass::cool_season, one));
  for (const month one : {September, November, December, January, March}) CHECK(!takes_compost_in(Grass::warm_season, one));
  for (const month one : {April, May, August}) CHECK(takes_compost_in(Grass::warm_season, one));

  const Date in_january{year(2027), January, day(15)};
  CHECK(dressed("", "", in_january)->advice.out_of_season);
  CHECK(!dressed("", "", in_october)->advice.out_of_season);
  CHECK(!dressed("", "months = [\"Sep\"]\n", in_january)->advice.out_of_season);
  CHECK(!dressed("", "surface = \"new\"\n", in_january)->advice.out_of_season);
  CHECK(dressed("", "grass = \"warm-season\"\n", Date{year(2026), November, day(1)})->advice.out_of_season);
}

TEST_CASE("what changes an order comes first among its assumptions", "[fitness]") {
  SECTION("an area and a depth that are told") {
    const auto assumptions = dressed("measured_by = \"wheel\"\n", "depth = \"1/4 in\"\n", in_october).assumptions;
    CHECK(place_of(assumptions, "area") == 0);
    CHECK(place_of(assumptions, "depth") == 1);
    CHECK(place_of(assumptions, "allowance") == 2);
    CHECK_THAT(*assumptions[0].could_change_answer, WithinRel(0.06, 1e-9));  // 3 % either way
    CHECK(!assumptions[1].could_change_answer);
    CHECK_THAT(*assumptions[2].could_change_answer, WithinRel(0.05 / 1.05, 1e-9));
  }
  SECTION("an area that is taken as exact") {
    const auto assumptions = dressed("", "depth = \"1/4 in\"\n", in_october).assumptions;
    CHECK(place_of(assumptions, "area") == 0);
    CHECK(assumptions[0].evidence.find("taken as exact") == 0);
  }
  SECTION("a depth that nobody told weighs more than a wheel's area") {
    const auto assumptions = dressed("measured_by = \"wheel\"\n", "", in_october).assumptions;
    CHECK(place_of(assumptions, "depth") < place_of(assumptions, "area"));
    CHECK_THAT(*assumptions[0].could_change_answer, WithinRel(1.0, 1e-9));  // from 1/8 to 3/8 in, of 1/4 in
  }
  SECTION("the grass nobody told, and what changes no order") {
    const auto assumptions = dressed("", "", in_october).assumptions;
    CHECK(place_of(assumptions, "grass") < place_of(assumptions, "weight"));
    CHECK(place_of(assumptions, "once a year") > place_of(assumptions, "allowance"));
    for (const char* what : {"weight", "moisture", "nitrogen of", "P2O5", "comes free"}) {
      const Assumption& one = assumptions.at(place_of(assumptions, what));
      CHECK(one.what.ends_with("(the volume to order stays)"));
      CHECK(!one.could_change_answer);
    }
    const auto told = dressed("", "grass = \"cool-season\"\n", in_october).assumptions;
    CHECK(place_of(told, "cool-season grass") == told.size());
  }
}
