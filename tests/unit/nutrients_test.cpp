// What compost brings to a lawn, by the tables and by a supplier's analysis; the nitrogen that comes free of it; the soil test's words.

#include "heapwright/lawn/nutrients.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <set>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/lawn/spreading.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/units/wet_basis.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Materials& materials() {
  static const Materials all = built_in_materials();
  return all;
}
const NutrientKnowledge& knowledge() { return *materials().nutrients; }

/// lb on 1000 ft².
template <class PerArea>
double pounds(PerArea nutrient) {
  return nutrient.value() / 0.45359237 * 1000.0 * 0.3048 * 0.3048;
}

template <class Quantity>
CompostFigure<Quantity> exactly(Quantity figure) {
  CompostFigure<Quantity> told;
  told.typical = figure;
  return told;
}

/// A compost of just one value of everything.
CompostContents compost(double density_lb_yd3, double moisture, double nitrogen, double p2o5, double k2o, double ratio) {
  return {"compost",
          exactly(wet_basis(moisture)),
          exactly(BulkDensity(density_lb_yd3 * unit::pound / unit::cubic_yard)),
          exactly(carbon_to_nitrogen(ratio)),
          exactly(nitrogen_dry_basis(nitrogen)),
          exactly(from_si<PhosphateDryBasis>(p2o5)),
          exactly(from_si<PotashDryBasis>(k2o)),
          {}};
}

/// CalRecycle, Average Levels of Compost Nutrients, 2013 (seen): the mean of more than 1600 composts, dry weight.
CompostContents calrecycle_mean() { return compost(1000.0, 0.45, 0.0153, 0.0134, 0.0136, 16.8); }

Topdressing dressing(const std::string& text, std::optional<Date> today = std::nullopt) {
  const Yard yard = read_yard_text("[[lawn.zone]]\nshape = \"area\"\narea = \"1000 ft2\"\n" + text, "yard.toml");
  return topdress(*yard.lawn, yard.topdressing, yard.tables.materials, today).result;
}

std::vector<Problem> problems_of(const std::string& text) {
  try {
    read_yard_text(text, "yard.toml");
    return {};
  } catch (const InputError& error) {
    return error.problems();
  }
}

Topdressing analyzed(const std::string& keys) { return dressing("[topdressing]\nanalysis = { " + keys + " }\n"); }

std::vector<Problem> problems_of_analysis(const std::string& keys) { return problems_of("[topdressing]\nanalysis = { " + keys + " }\n"); }

Date day(int year, unsigned month, unsigned day_of_month) {
  return Date(std::chrono::year(year), std::chrono::month(month), std::chrono::day(day_of_month));
}

}  // namespace

TEST_CASE("what a quarter inch of compost brings, as worked by hand", "[nutrients]") {
  // Reference facts on lawns, section 2, "Worked load" [derived from CalRecycle's mean, at 1000 lb/yd3 and 45 % moisture]:
  // 424 lb dry, 6.5 lb total N, 5.7 lb P2O5, 5.8 lb K2O per 1000 ft2.
  const Nutrients nutrients = nutrients_of(0.25 * unit::inch, calrecycle_mean(), knowledge());
  CHECK_THAT(pounds(nutrients.dry_matter), WithinAbs(424.0, 0.5));
  CHECK_THAT(pounds(nutrients.nitrogen->likely), WithinAbs(6.5, 0.05));
  CHECK_THAT(pounds(nutrients.phosphate->likely), WithinAbs(5.7, 0.05));
  CHECK_THAT(pounds(nutrients.potash->likely), WithinAbs(5.8, 0.05));
  // The same place takes 5 to 15 % of it as free in the first year, 0.32 to 0.97 lb: of 6.49 lb that is so.
  CHECK_THAT(0.05 * pounds(nutrients.nitrogen->likely), WithinAbs(0.32, 0.005));
  CHECK_THAT(0.15 * pounds(nutrients.nitrogen->likely), WithinAbs(0.97, 0.005));
  // By the C:N table of the same section a compost of 16.8:1 frees 0, 4 and 8 %, which is less: 0 to 0.52 lb. The table is what is used.
  CHECK_THAT(pounds(nutrients.nitrogen_first_year->low), WithinAbs(0.0, 1e-12));
  CHECK_THAT(pounds(nutrients.nitrogen_first_year->likely), WithinAbs(0.26, 0.005));
  CHECK_THAT(pounds(nutrients.nitrogen_first_year->high), WithinAbs(0.52, 0.005));
  // "With a 1 % N yard-trimmings compost: 4.2 lb total N".
  CHECK_THAT(pounds(nutrients_of(0.25 * unit::inch, compost(1000, 0.45, 0.01, 0.005, 0.008, 17), knowledge()).nitrogen->likely),
             WithinAbs(4.2, 0.05));
  // A figure without a range brings one.
  CHECK(nutrients.nitrogen->low == nutrients.nitrogen->high);
}

TEST_CASE("what the usual yard trimmings compost brings", "[nutrients]") {
  // By hand from composts.toml: 1/4 in = 0.77160 yd3, 771.60 lb, 424.38 lb dry; 1.2, 0.5 and 0.8 % of it.
  const Topdressing result = dressing("");
  CHECK_THAT(pounds(result.nutrients.nitrogen->likely), WithinAbs(5.0926, 5e-4));
  CHECK_THAT(pounds(result.nutrients.phosphate->likely), WithinAbs(2.1219, 5e-4));
  CHECK_THAT(pounds(result.nutrients.potash->likely), WithinAbs(3.3951, 5e-4));
  // Ends by hand: N 0.7 to 1.5 %, 700 to 1400 lb/yd3, dry share 45 to 70 %:
  // 1 - sqrt((5/12)^2 + 0.3^2 + (2/11)^2) = 0.455327; 1 + sqrt(0.25^2 + 0.4^2 + (3/11)^2) = 1.544867.
  CHECK_THAT(result.nutrients.nitrogen->low / result.nutrients.nitrogen->likely, WithinAbs(0.455327, 5e-7));
  CHECK_THAT(result.nutrients.nitrogen->high / result.nutrients.nitrogen->likely, WithinAbs(1.544867, 5e-7));
  // C:N 17, from 12 to 22: 4 %, from -5 (of 22) to 15 % (of 12).
  CHECK_THAT(pounds(result.nutrients.nitrogen_first_year->likely), WithinAbs(0.04 * 5.0926, 5e-4));
  CHECK_THAT(pounds(result.nutrients.nitrogen_first_year->low), WithinAbs(-0.05 * 5.0926, 5e-4));
  CHECK_THAT(pounds(result.nutrients.nitrogen_first_year->high), WithinAbs(0.15 * 5.0926, 5e-4));
}

TEST_CASE("the range of the usual compost holds eight of ten measured ones", "[nutrients]") {
  // Compostable Field Testing Program 2023 (seen): density in lb/yd3, moisture in %, nitrogen in % of dry matter. By hand they bring 2.9 to
  // 9.3 lb; eight lie within what the usual compost of the tables may bring, 2.3 to 7.9 lb, and the two richest above it.
  struct Measured {
    double density, moisture, nitrogen;
  };
  const std::vector<Measured> ten{{1474, 40.73, 0.73},  {1203, 32.47, 1.23}, {842.8, 39.31, 1.84}, {656.6, 39.83, 2.2},
                                  {827, 52.9, 0.96},    {1220, 35.22, 1.39}, {976.1, 54.09, 1.96}, {1071, 38.49, 1.83},
                                  {672.5, 41.39, 1.68}, {1154, 46.53, 1.27}};
  const LikelyBand<NitrogenPerArea> band = *dressing("").nutrients.nitrogen;
  int inside = 0;
  for (const Measured& one : ten) {
    const Nutrients brought =
        nutrients_of(0.25 * unit::inch, compost(one.density, one.moisture / 100, one.nitrogen / 100, 0.005, 0.008, 17), knowledge());
    if (brought.nitrogen->likely >= band.low && brought.nitrogen->likely <= band.high) ++inside;
  }
  CHECK(inside == 8);
}

TEST_CASE("nitrogen of the first year by C:N", "[nutrients]") {
  // Reference facts on lawns, section 2, "Suggested first-year fraction" [judged there]: to 12 5/10/15 %, to 15 3/7/10, to 20 0/4/8,
  // to 25 -5/0/3, to 30 -10/-3/0, above that none: nitrogen is tied up.
  const auto [ratio, low, likely, high] = GENERATE(table<double, double, double, double>({{8.0, 5, 10, 15},
                                                                                          {12.0, 5, 10, 15},
                                                                                          {12.01, 3, 7, 10},
                                                                                          {15.0, 3, 7, 10},
                                                                                          {15.01, 0, 4, 8},
                                                                                          {20.0, 0, 4, 8},
                                                                                          {20.01, -5, 0, 3},
                                                                                          {25.0, -5, 0, 3},
                                                                                          {25.01, -10, -3, 0},
                                                                                          {30.0, -10, -3, 0}}));
  CAPTURE(ratio);
  const Nutrients nutrients = nutrients_of(0.25 * unit::inch, compost(1000, 0.45, 0.012, 0.005, 0.008, ratio), knowledge());
  REQUIRE(nutrients.freed);
  CHECK_THAT(100 * nutrients.freed->low.value(), WithinAbs(low, 1e-9));
  CHECK_THAT(100 * nutrients.freed->likely.value(), WithinAbs(likely, 1e-9));
  CHECK_THAT(100 * nutrients.freed->high.value(), WithinAbs(high, 1e-9));
  CHECK_THAT(pounds(nutrients.nitrogen_first_year->likely), WithinAbs(likely / 100 * pounds(nutrients.nitrogen->likely), 1e-9));
  CHECK_FALSE(nutrients.ties_up_nitrogen);
}

TEST_CASE("compost above 30:1 is no source of nitrogen", "[nutrients]") {
  const double ratio = GENERATE(30.01, 45.0, 400.0, 5000.0);
  const Nutrients nutrients = nutrients_of(0.25 * unit::inch, compost(1000, 0.45, 0.012, 0.005, 0.008, ratio), knowledge());
  CHECK(nutrients.ties_up_nitrogen);
  CHECK_FALSE(nutrients.nitrogen_first_year);
  CHECK(nutrients.phosphate);
}

TEST_CASE("nutrients scale with depth, and a depth that is none is refused", "[nutrients]") {
  const double times = GENERATE(take(20, random(0.1, 4.0)));
  const Nutrients once = nutrients_of(0.25 * unit::inch, calrecycle_mean(), knowledge());
  const Nutrients more = nutrients_of(times * 0.25 * unit::inch, calrecycle_mean(), knowledge());
  CHECK_THAT(more.nitrogen->likely.value(), WithinRel(times * once.nitrogen->likely.value(), 1e-12));
  CHECK_THAT(more.phosphate->high.value(), WithinRel(times * once.phosphate->high.value(), 1e-12));
  CHECK_THAT(more.potash->low.value(), WithinRel(times * once.potash->low.value(), 1e-12));
  CHECK_THAT(more.nitrogen_first_year->high.value(), WithinRel(times * once.nitrogen_first_year->high.value(), 1e-12));

  for (const double none : {0.0, -1.0, std::numeric_limits<double>::quiet_NaN()}) {
    CHECK_THROWS_AS(nutrients_of(none * unit::m, calrecycle_mean(), knowledge()), DomainError);
    CHECK_THROWS_AS(release_at(knowledge(), carbon_to_nitrogen(none)), DomainError);
  }
  CHECK_THROWS_AS(FreedShare::of(std::numeric_limits<double>::quiet_NaN()), DomainError);
  CHECK_THROWS_AS(FreedShare::of(-1.01), DomainError);
}

TEST_CASE("what a square yard gets is the same on any area", "[nutrients]") {
  const double size = GENERATE(take(10, random(10.0, 50000.0)));
  const Lawn lawn{{Zone{"lawn", size * unit::m2, std::nullopt}}};
  const Topdressing result = topdress(lawn, {}, materials()).result;
  CHECK_THAT(result.nutrients.nitrogen->likely.value(), WithinRel(dressing("").nutrients.nitrogen->likely.value(), 1e-12));
  // Over the lawn it is what all its compost holds, without the allowance.
  const DryMass dry = dry_mass(result.volume * bulk_density(1000 * 0.45359237 / 0.764554857984), wet_basis(0.45));
  CHECK_THAT((result.nutrients.nitrogen->likely * result.area).value(), WithinRel(0.012 * dry.value(), 1e-9));
}

TEST_CASE("a supplier's analysis stands in place of the table", "[nutrients]") {
  const Topdressing result = analyzed(
      "moisture_wet_basis = \"40 %\", nitrogen_dry_basis = \"1.5 %\", p2o5_dry_basis = \"0.6 %\", k2o_dry_basis = \"0.9 %\", "
      "bulk_density = \"900 lb/yd3\", carbon_to_nitrogen = \"14:1\", salts_1to5 = \"4.2 dS/m\"");
  // By hand: 0.771605 yd3 × 900 × 0.6 = 416.667 lb dry.
  CHECK_THAT(pounds(result.nutrients.nitrogen->likely), WithinAbs(6.25, 5e-4));
  CHECK_THAT(pounds(result.nutrients.phosphate->likely), WithinAbs(2.5, 5e-4));
  CHECK_THAT(pounds(result.nutrients.potash->likely), WithinAbs(3.75, 5e-4));
  CHECK_THAT(100 * result.nutrients.freed->likely.value(), WithinAbs(7.0, 1e-9));
  CHECK(result.mass->low == result.mass->high);
  CHECK(result.contents.nitrogen->whose == "the supplier's analysis");
  REQUIRE(result.contents.salts.size() == 1);
  CHECK(salts_method_words(result.contents.salts.front().method) == "1:5 slurry");
  CHECK_THAT(result.contents.salts.front().value.value(), WithinAbs(0.42, 1e-12));  // S/m

  SECTION("as received is told in its key") {
    // 0.9 % of the wet mass at 40 % moisture is 1.5 % of the dry.
    const Topdressing wet = analyzed(
        "moisture_wet_basis = \"40 %\", nitrogen_wet_basis = \"0.9 %\", p2o5_wet_basis = \"0.36 %\", k2o_wet_basis = \"0.54 %\", "
        "bulk_density = \"900 lb/yd3\"");
    CHECK_THAT(pounds(wet.nutrients.nitrogen->likely), WithinAbs(6.25, 5e-4));
    CHECK_THAT(pounds(wet.nutrients.phosphate->likely), WithinAbs(2.5, 5e-4));
    CHECK_THAT(pounds(wet.nutrients.potash->likely), WithinAbs(3.75, 5e-4));
  }
  SECTION("the elements are less than their oxides") {
    // CalRecycle's own line: P 5900 mg/kg is 1.35 % P2O5, K 1.13 % is 1.36 % K2O (seen).
    const Topdressing elements = analyzed("phosphorus_dry_basis = \"0.59 %\", potassium_dry_basis = \"1.13 %\"");
    CHECK_THAT(100 * elements.contents.phosphate->typical->value(), WithinAbs(1.35, 0.005));
    CHECK_THAT(100 * elements.contents.potash->typical->value(), WithinAbs(1.36, 0.005));
  }
  SECTION("in mg/kg, as laboratories give elements") {
    CHECK_THAT(analyzed("phosphorus_dry_basis = \"5900 mg/kg\"").contents.phosphate->typical->value(), WithinRel(0.0059 * 2.2914, 1e-12));
    CHECK_THAT(analyzed("nitrogen_dry_basis = \"15,300 ppm\"").contents.nitrogen->typical->value(), WithinRel(0.0153, 1e-12));
  }
  SECTION("what it leaves out is as usual") {
    const Topdressing some = analyzed("nitrogen_dry_basis = \"1.5 %\"");
    CHECK(some.contents.moisture.typical == wet_basis(0.45));
    CHECK(some.contents.moisture.whose == "judged by us");
    CHECK_THAT(pounds(some.nutrients.nitrogen->likely), WithinAbs(424.383 * 0.015, 5e-4));
  }
  SECTION("a C:N follows from organic matter and nitrogen") {
    // 45 % / 1.8 = 25 % carbon, over 1.25 % nitrogen: 20.
    const Topdressing some = analyzed("organic_matter_dry_basis = \"45 %\", nitrogen_dry_basis = \"1.25 %\"");
    CHECK_THAT(some.contents.carbon_to_nitrogen->typical->value(), WithinAbs(20.0, 1e-9));
  }
  SECTION("a dry weight alone gives the wet one") {
    const Topdressing some = analyzed("moisture_wet_basis = \"45 %\", dry_bulk_density = \"550 lb/yd3\"");
    CHECK_THAT(some.contents.bulk_density.typical->value(), WithinRel(1000 * 0.45359237 / 0.764554857984, 1e-9));
  }
}

TEST_CASE("an analysis that cannot be", "[nutrients]") {
  const auto [keys, what] = GENERATE(table<std::string, std::string>({
      {"moisture_wet_basis = \"45 %\", bulk_density = \"1000 lb/yd3\", dry_bulk_density = \"600 lb/yd3\"",
       "600 lb/yd3, and bulk_density less the water of moisture_wet_basis is 1000 × (1 − 0.45) = 550 lb/yd3"},
      {"dry_bulk_density = \"600 lb/yd3\"", "needs the moisture too"},
      {"nitrogen_wet_basis = \"0.8 %\"", "of the compost as received needs its moisture too"},
      {"moisture_wet_basis = \"45 %\", nitrogen_dry_basis = \"1.5 %\", nitrogen_wet_basis = \"0.8 %\"",
       "told twice, beside nitrogen_dry_basis"},
      {"p2o5_dry_basis = \"0.5 %\", phosphorus_dry_basis = \"0.2 %\"", "p2o5 and phosphorus are one nutrient told twice"},
      {"moisture_wet_basis = \"100 %\"", "a compost has dry matter too"},
      {"nitrogen_dry_basis = \"15 %\"", "15 % nitrogen of dry matter is more than any compost has"},
      {"organic_matter_dry_basis = \"98 %\", p2o5_dry_basis = \"4 %\"", "come to 102 % of dry matter"},
      {"moisture_wet_basis = \"45 %\", bulk_density = \"3000 lb/yd3\"", "heavier than its own solids and water"},
      {"nitrogen = \"1.5 %\"", "is not a key"},
      {"nitrogen_dry_basis = \"1.5\"", "has no unit"},
      {"carbon_to_nitrogen = \"0:1\"", ""},
      {"salts_1to5 = \"4\"", ""},
  }));
  CAPTURE(keys);
  const std::vector<Problem> problems = problems_of_analysis(keys);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].where.line == 2);
  CHECK_THAT(problems[0].what, Contains(what));

  // What rounding alone sets apart agrees: 45 % and 1000 lb/yd3 give 550.
  CHECK(problems_of_analysis("moisture_wet_basis = \"45 %\", bulk_density = \"1000 lb/yd3\", dry_bulk_density = \"545 lb/yd3\"").empty());
}

TEST_CASE("contents of the wet compost and of its dry matter", "[nutrients]") {
  // 0.55 % of the wet mass at 45 % moisture is 1 % of the dry.
  CHECK_THAT(to_dry_basis(from_si<NitrogenWetBasis>(0.0055), wet_basis(0.45)).value(), WithinRel(0.01, 1e-12));
  CHECK_THAT(to_dry_basis(from_si<PhosphateWetBasis>(0.0055), wet_basis(0.45)).value(), WithinRel(0.01, 1e-12));
  CHECK_THAT(to_dry_basis(from_si<PotashWetBasis>(0.0055), wet_basis(0.45)).value(), WithinRel(0.01, 1e-12));
  CHECK_THAT(to_dry_basis(from_si<OrganicMatterWetBasis>(0.22), wet_basis(0.45)).value(), WithinRel(0.4, 1e-12));
  CHECK_THAT(wet_density_of(dry_density_of(bulk_density(600), wet_basis(0.4)), wet_basis(0.4)).value(), WithinRel(600.0, 1e-12));
}

TEST_CASE("what a year's compost covers of the nitrogen that the laboratory recommends", "[nutrients]") {
  const Topdressing result = dressing("[soil_test]\nnitrogen_recommended = \"3 lb/1000ft2\"\n");
  REQUIRE(result.credit);
  // 0.2037 lb, from -0.2546 to 0.7639 lb, of 3 lb.
  CHECK_THAT(result.credit->share.likely, WithinAbs(0.0679, 5e-5));
  CHECK_THAT(result.credit->share.low, WithinAbs(-0.0849, 5e-5));
  CHECK_THAT(result.credit->share.high, WithinAbs(0.2546, 5e-5));
  // Twice a year it is twice as much; of a recommendation of none, and without one, there is nothing to cover.
  const Topdressing twice = dressing("[topdressing]\nmonths = [\"May\", \"Sep\"]\n[soil_test]\nnitrogen_recommended = \"3 lb/1000ft2\"\n");
  CHECK_THAT(twice.credit->share.likely, WithinRel(2 * result.credit->share.likely, 1e-12));
  CHECK_FALSE(dressing("[soil_test]\nnitrogen_recommended = \"0 lb/1000ft2\"\n").credit);
  CHECK_FALSE(dressing("[soil_test]\nphosphorus = \"low\"\n").credit);
  CHECK_FALSE(dressing("").credit);
}

TEST_CASE("what laboratories call phosphorus", "[nutrients][soil-test]") {
  // Which words say that there is too much: the reference design; more of them are common practice, no source.
  const auto [word, verdict] = GENERATE(table<std::string, PhosphorusVerdict>({
      {"high", PhosphorusVerdict::hold},
      {"High", PhosphorusVerdict::hold},
      {"VERY HIGH", PhosphorusVerdict::hold},
      {"very-high", PhosphorusVerdict::hold},
      {"excessive", PhosphorusVerdict::hold},
      {"excess", PhosphorusVerdict::hold},
      {"above optimum", PhosphorusVerdict::hold},
      {"Above Optimum", PhosphorusVerdict::hold},
      {"medium-high", PhosphorusVerdict::hold},
      {"too much", PhosphorusVerdict::hold},
      {"H", PhosphorusVerdict::hold},
      {"VH", PhosphorusVerdict::hold},
      {"high range", PhosphorusVerdict::hold},
      {"Phosphorus: very high", PhosphorusVerdict::hold},
      {"62 ppm Mehlich 3 (very high)", PhosphorusVerdict::hold},
      {"62 ppm Mehlich 3 very high", PhosphorusVerdict::hold},
      {"very high, 62 ppm", PhosphorusVerdict::hold},
      {"high 62 ppm", PhosphorusVerdict::hold},
      {"62 ppm, above optimum", PhosphorusVerdict::hold},
      {"62 ppm above optimum", PhosphorusVerdict::hold},
      {"medium / high", PhosphorusVerdict::hold},
      {"optimum", PhosphorusVerdict::go},
      {"Optimum range", PhosphorusVerdict::go},
      {"adequate", PhosphorusVerdict::go},
      {"medium", PhosphorusVerdict::go},
      {"M", PhosphorusVerdict::go},
      {"low", PhosphorusVerdict::go},
      {"very low", PhosphorusVerdict::go},
      {"below optimum", PhosphorusVerdict::go},
      {"deficient", PhosphorusVerdict::go},
      {"VL", PhosphorusVerdict::go},
      {"12 ppm Bray P1 (low)", PhosphorusVerdict::go},
      {"62 ppm", PhosphorusVerdict::figure_alone},
      {"62 ppm M3", PhosphorusVerdict::figure_alone},
      {"124 lb/acre Mehlich-3", PhosphorusVerdict::figure_alone},
      {"category four", PhosphorusVerdict::unknown_word},
      {"purple", PhosphorusVerdict::unknown_word},
      {"", PhosphorusVerdict::not_tested},
  }));
  CAPTURE(word);
  const Topdressing result = dressing("[soil_test]\nphosphorus = \"" + word + "\"\n");
  CHECK(result.advice.phosphorus == verdict);
  CHECK(result.advice.is_hold() == (verdict == PhosphorusVerdict::hold));
  CHECK(result.plan.soil_test->phosphorus == word);  // as it was written, its method too
  CHECK(dressing("").advice.phosphorus == PhosphorusVerdict::no_test);
}

TEST_CASE("every word of the table says what its row says, and no word stands in two", "[nutrients][soil-test]") {
  std::set<std::string> met;
  for (const PhosphorusWord& row : knowledge().phosphorus_words) {
    for (const std::string& word : row.words) {
      CAPTURE(row.id, word);
      CHECK(met.insert(word).second);
      const PhosphorusWord* found = phosphorus_word_in(word, knowledge());
      REQUIRE(found != nullptr);
      CHECK(found->id == row.id);
    }
  }
}

TEST_CASE("a laboratory's word misspelt is asked about, and never taken for go", "[nutrients][soil-test]") {
  const auto [typed, meant] = GENERATE(
      table<std::string, std::string>({{"hgih", "high"}, {"exessive", "excessive"}, {"optimun", "optimum"}, {"vrey high", "very high"}}));
  CAPTURE(typed);
  const std::vector<Problem> problems = problems_of("[soil_test]\nphosphorus = \"" + typed + "\"\n");
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].where.line == 2);
  CHECK(problems[0].where.column == 14);
  CHECK_THAT(problems[0].hint, Contains("did you mean \"" + meant + "\"?"));
}

TEST_CASE("a soil test holds for three years", "[nutrients][soil-test]") {
  // University of Delaware Cooperative Extension 2009 (seen): at least every three years.
  const SoilTest test{day(2026, 10, 10), "low", "low", false, std::nullopt};
  CHECK(age_of(test, day(2026, 10, 10), knowledge()) == SoilTestAge::holds);
  CHECK(age_of(test, day(2029, 10, 10), knowledge()) == SoilTestAge::holds);
  CHECK(age_of(test, day(2029, 10, 11), knowledge()) == SoilTestAge::too_old);
  CHECK(age_of(test, day(2026, 10, 9), knowledge()) == SoilTestAge::after_today);
  CHECK(age_of(test, std::nullopt, knowledge()) == SoilTestAge::not_known);
  CHECK(age_of({}, day(2026, 10, 9), knowledge()) == SoilTestAge::not_known);
  const SoilTest leap{day(2024, 2, 29), "low", "low", false, std::nullopt};
  CHECK(age_of(leap, day(2027, 3, 1), knowledge()) == SoilTestAge::holds);
  CHECK(age_of(leap, day(2027, 3, 2), knowledge()) == SoilTestAge::too_old);
  CHECK(dressing("[soil_test]\ndate = 2020-01-01\n", day(2026, 11, 30)).advice.soil_test_age == SoilTestAge::too_old);
}

TEST_CASE("ground to keep compost off", "[nutrients]") {
  CHECK(dressing("[topdressing]\nfrozen_or_snow = true\n").advice.is_hold());
  CHECK_FALSE(dressing("[topdressing]\nnear_water = true\nsteep = true\n").advice.is_hold());
  CHECK(dressing("[topdressing]\nsteep = true\n").advice.steep);
  const auto zone = [](const std::string& slope) {
    return read_yard_text(
        "[[lawn.zone]]\nname = \"bank\"\nshape = \"rectangle\"\nmeasured_by = \"tracing\"\nlength = \"30 ft\"\nwidth = \"20 ft\"\n"
        "slope = \"" +
            slope + "\"\n",
        "yard.toml");
  };
  const Yard steep = zone("10 %");
  CHECK(spreading_advice(*steep.lawn, steep.topdressing, std::nullopt, knowledge()).steep_zones == std::vector<std::string>{"bank"});
  const Yard gentle = zone("9 %");
  CHECK(spreading_advice(*gentle.lawn, gentle.topdressing, std::nullopt, knowledge()).steep_zones.empty());
}

TEST_CASE("a file may bring its own words and its own C:N table", "[nutrients]") {
  Problems problems;
  const Document document = Document::from_text(
      "[[nitrogen_release]]\ncarbon_to_nitrogen_at_most = \"20:1\"\nfirst_year = { typical = \"10 %\", low = \"5 %\", high = \"15 %\" }\n"
      "[[phosphorus_word]]\nid = \"our-lab\"\nhold = true\nwords = [\"category four\"]\n",
      "own.toml", problems);
  Table root = document.root();
  NutrientKnowledge own = knowledge();
  read_nutrients(root, own);
  root.finish();
  problems.throw_if_any();
  CHECK(own.nitrogen_release.size() == 1);
  CHECK(phosphorus_word_in("Category four", own)->hold);
  CHECK(phosphorus_word_in("low", own)->id == "low");

  const auto refused = [](const std::string& text) {
    Problems found;
    const Document bad = Document::from_text(text, "own.toml", found);
    Table table = bad.root();
    NutrientKnowledge onto;
    read_nutrients(table, onto);
    table.finish();
    CHECK_THROWS_AS(found.throw_if_any(), InputError);
  };
  refused("[[nitrogen_release]]\nfirst_year = { typical = \"10 %\", low = \"5 %\", high = \"15 %\" }\n");
  refused("[[nitrogen_release]]\ncarbon_to_nitrogen_at_most = \"20:1\"\nfirst_year = { typical = \"10 %\" }\n");
  refused("[[nitrogen_release]]\ncarbon_to_nitrogen_at_most = \"20:1\"\n[[nitrogen_release]]\ncarbon_to_nitrogen_at_most = \"12:1\"\n");
  refused("[soil_test_holds]\nyears = 0\n");
}
