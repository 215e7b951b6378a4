#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <set>

#include "heapwright/input/problems.hpp"
#include "heapwright/maturity/germination.hpp"
#include "heapwright/maturity/rating.hpp"
#include "heapwright/maturity/turf.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;

namespace {

const Criteria& criteria() {
  static const Criteria table = built_in_criteria();
  return table;
}

MaturityTest test_of(std::string_view test, std::string_view value) { return read_maturity_test(criteria(), test, value); }

MaturityTest on_day(MaturityTest test, std::string_view date) {
  test.date = read_date(date);
  return test;
}

MaturityRating rate_all(const std::vector<std::pair<std::string, std::string>>& values) {
  std::vector<MaturityTest> tests;
  for (const auto& [test, value] : values) tests.push_back(test_of(test, value));
  return rate(tests, criteria());
}

std::string overall(const std::vector<std::pair<std::string, std::string>>& values) {
  return std::string(rating_word(rate_all(values).rating));
}

Rating rated(std::string_view test, std::string_view value) {
  const MaturityTest taken = test_of(test, value);
  return rating_on(*criteria().test_called(test).scale_for(taken.value), taken.value);
}

std::string refusal_of(std::string_view test, std::string_view value) {
  try {
    read_maturity_test(criteria(), test, value);
  } catch (const Error& error) {
    return std::string(error.what()) + " | " + error.hint();
  }
  return "accepted";
}

std::string problems_of(const std::string& text) {
  try {
    read_yard_text(text, "yard.toml", built_in_tables());
  } catch (const InputError& error) {
    return error.what();
  }
  return "none";
}

/// How a value moves to the mature side of a bound, or off it.
double towards_mature(Bound::Side side) { return side == Bound::Side::below || side == Bound::Side::at_most ? -1.0 : 1.0; }
bool holds_at_itself(Bound::Side side) { return side == Bound::Side::at_most || side == Bound::Side::at_least; }

TestValue scaled(const TestValue& value, double factor) {
  return std::visit([&](const auto& quantity) { return TestValue(factor * quantity); }, value);
}

}  // namespace

TEST_CASE("every bound of the table has its two sides and its edge", "[maturity]") {
  for (const TestCriterion& test : criteria().tests) {
    for (const Scale& scale : test.scales) {
      for (const std::optional<Bound>& bound : {scale.very_mature, std::optional(scale.mature)}) {
        if (!bound) continue;
        CAPTURE(test.id);
        const double step = 0.001 * towards_mature(bound->side);
        CHECK(bound->holds(scaled(bound->value, 1.0 + step)));
        CHECK_FALSE(bound->holds(scaled(bound->value, 1.0 - step)));
        CHECK(bound->holds(bound->value) == holds_at_itself(bound->side));
      }
      if (scale.very_mature) {
        const double step = 0.001 * towards_mature(scale.mature.side);
        CHECK(scale.mature.holds(scale.very_mature->value));  // very mature lies inside mature
        CHECK(rating_on(scale, scaled(scale.very_mature->value, 1.0 + step)) == Rating::very_mature);
        CHECK(rating_on(scale, scale.very_mature->value) == Rating::mature);
        CHECK(rating_on(scale, scale.mature.value) == Rating::mature);
        CHECK(rating_on(scale, scaled(scale.mature.value, 1.0 - step)) == Rating::immature);
      }
    }
  }
}

TEST_CASE("limits, entered a second time", "[maturity]") {
  // Figures of the middle column are from memory (nobody's published index) unless a source stands beside them.
  struct Row {
    const char* test;
    const char* better;
    const char* at_very_mature;  // "" where nobody gives one
    const char* between;
    const char* at_mature;
    bool edge_is_mature;
    const char* worse;
  };
  const auto row = GENERATE(values<Row>({
      {"carbon-to-nitrogen", "12:1", "", "20:1", "25:1", true, "25.1:1"},
      {"co2-respiration", "1.9 mgC/gOM/day", "2 mgC/gOM/day", "3 mgC/gOM/day", "4 mgC/gOM/day", true, "4.1 mgC/gOM/day"},
      {"oxygen-uptake", "2 mmolO2/kgOM/h", "", "12 mmolO2/kgOM/h", "13 mmolO2/kgOM/h", true, "13.1 mmolO2/kgOM/h"},  // Troy 2012
      {"oxygen-uptake-in-water", "0.39 mgO2/gOM/h", "0.4 mgO2/gOM/h", "1 mgO2/gOM/h", "1.3 mgO2/gOM/h", true, "1.31 mgO2/gOM/h"},
      {"self-heating", "9.9 degC", "10 degC", "15 degC", "20 degC", true, "20.1 degC"},
      {"self-heating", "17.9 degF", "18 degF", "27 degF", "36 degF", true, "36.1 degF"},
      {"water-soluble-carbon", "0.4 %", "", "0.9 %", "1 %", false, "1.1 %"},  // Hue and Liu 1995, as quoted
      {"ammonium-to-nitrate", "0.49", "0.5", "1", "3", true, "3.1"},
      {"ammonium", "74 mg/kg", "75 mg/kg", "300 mg/kg", "500 mg/kg", true, "501 mg/kg"},
      {"ammonium", "0.0074 %", "0.0075 %", "0.03 %", "0.05 %", true, "0.0501 %"},
      {"volatile-fatty-acids", "199 mg/kg", "200 mg/kg", "500 mg/kg", "1000 mg/kg", true, "1001 mg/kg"},
      {"germination", "120 %", "", "81 %", "80 %", false, "79 %"},  // Acta Horticulturae 933: above 80 %
      {"emergence", "91 %", "90 %", "85 %", "80 %", true, "79 %"},
      {"vigor", "91 %", "90 %", "85 %", "80 %", true, "79 %"},
  }));
  CAPTURE(row.test, row.better);
  const bool has_very_mature = std::string(row.at_very_mature) != "";
  CHECK(rated(row.test, row.better) == (has_very_mature ? Rating::very_mature : Rating::mature));
  if (has_very_mature) CHECK(rated(row.test, row.at_very_mature) == Rating::mature);
  CHECK(rated(row.test, row.between) == Rating::mature);
  CHECK((rated(row.test, row.at_mature) == Rating::mature) == row.edge_is_mature);
  CHECK(rated(row.test, row.worse) == Rating::immature);
}

TEST_CASE("classes of self-heating", "[maturity]") {
  const auto [rise, name] = GENERATE(table<std::string, std::string>({{"0 degC", "V"},
                                                                      {"10 degC", "V"},
                                                                      {"10.1 degC", "IV"},
                                                                      {"12 degC", "IV"},
                                                                      {"22 degF", "IV"},
                                                                      {"20 degC", "IV"},
                                                                      {"30 degC", "III"},
                                                                      {"30.1 degC", "II"},
                                                                      {"40 degC", "II"},
                                                                      {"72 degF", "II"},
                                                                      {"40.1 degC", "I"},
                                                                      {"60 degC", "I"}}));
  CAPTURE(rise);
  CHECK(rate_all({{"self-heating", rise}}).tests.at(0).heating_class == name);
}

TEST_CASE("the less mature rules", "[maturity]") {
  CHECK(overall({{"self-heating", "5 degC"}, {"emergence", "95 %"}}) == "very mature");
  CHECK(overall({{"self-heating", "12 degC"}, {"emergence", "95 %"}}) == "mature");
  CHECK(overall({{"self-heating", "5 degC"}, {"emergence", "85 %"}}) == "mature");
  CHECK(overall({{"self-heating", "25 degC"}, {"emergence", "95 %"}}) == "immature");
  CHECK(overall({{"self-heating", "5 degC"}, {"ammonium", "800 mg/kg"}}) == "immature");
  CHECK(overall({{"self-heating", "5 degC"}, {"emergence", "95 %"}, {"carbon-to-nitrogen", "25:1"}}) == "very mature");
  CHECK(overall({{"self-heating", "5 degC"}, {"emergence", "95 %"}, {"carbon-to-nitrogen", "26:1"}}) == "immature");
  CHECK(overall({{"carbon-to-nitrogen", "26:1"}}) == "immature");  // whatever the rest says
  // Two of a kind are no pair.
  CHECK(overall({}) == "not enough tests");
  CHECK(overall({{"carbon-to-nitrogen", "18:1"}}) == "not enough tests");
  CHECK(overall({{"self-heating", "25 degC"}}) == "not enough tests");
  CHECK(overall({{"self-heating", "5 degC"}, {"co2-respiration", "1 mgC/gOM/day"}}) == "not enough tests");
  CHECK(overall({{"emergence", "95 %"}, {"ammonium", "30 mg/kg"}}) == "not enough tests");
  CHECK(overall({{"ph", "7"}, {"moisture", "40 %"}, {"salts-1to5", "2 dS/m"}, {"emergence", "95 %"}}) == "not enough tests");
}

TEST_CASE("tests that disagree are never averaged", "[maturity]") {
  const MaturityRating rating = rate_all({{"co2-respiration", "1 mgC/gOM/day"},
                                          {"volatile-fatty-acids", "50 mg/kg"},
                                          {"ammonium-to-nitrate", "71"},
                                          {"ammonium", "530 mg/kg"}});
  CHECK(rating.rating == Rating::immature);
  CHECK(rating.stability.rating == Rating::very_mature);
  CHECK_FALSE(rating.stability.tests_disagree);
  CHECK(rating.maturity.rating == Rating::immature);
  CHECK(rating.maturity.tests_disagree);
  CHECK_FALSE(rating.maturity.plants_decide);
  CHECK(rating.tests.size() == 4);  // all are shown
}

TEST_CASE("where plants were grown they decide, and what is in an extract stands beside them", "[maturity]") {
  const std::vector<std::pair<std::string, std::string>> nitrogen{
      {"ammonium-to-nitrate", "71"}, {"ammonium", "530 mg/kg"}, {"volatile-fatty-acids", "2000 mg/kg"}};
  const auto with = [&](const std::vector<std::pair<std::string, std::string>>& plants) {
    std::vector<std::pair<std::string, std::string>> all{{"co2-respiration", "1 mgC/gOM/day"}};
    all.insert(all.end(), nitrogen.begin(), nitrogen.end());
    all.insert(all.end(), plants.begin(), plants.end());
    return rate_all(all);
  };
  CHECK(with({}).rating == Rating::immature);
  CHECK_FALSE(with({}).maturity.plants_decide);
  for (const char* plant : {"emergence", "vigor"}) {
    CAPTURE(plant);
    const MaturityRating good = with({{plant, "100 %"}});
    CHECK(good.rating == Rating::very_mature);
    CHECK(good.maturity.plants_decide);
    CHECK(good.maturity.tests_disagree);
    for (const RatedTest& one : good.tests)
      CHECK(one.stands_beside == (one.criterion->kind == TestKind::maturity && one.test.test != plant));
    CHECK(with({{plant, "85 %"}}).rating == Rating::mature);
    CHECK(with({{plant, "60 %"}}).rating == Rating::immature);
    CHECK_FALSE(with({{plant, "60 %"}}).maturity.tests_disagree);  // all say so
  }
  CHECK(with({{"germination", "95 %"}}).maturity.rating == Rating::mature);  // a scale that knows no more
  CHECK(with({{"germination", "95 %"}}).maturity.tests_disagree);
  CHECK(with({{"emergence", "100 %"}, {"vigor", "60 %"}}).rating == Rating::immature);  // of plants the less mature
  // Good nitrogen makes up for no bad plants.
  const MaturityRating bad = rate_all({{"co2-respiration", "1 mgC/gOM/day"}, {"ammonium", "20 mg/kg"}, {"emergence", "60 %"}});
  CHECK(bad.rating == Rating::immature);
  CHECK(bad.maturity.tests_disagree);
  // Alone, plants stand over nothing.
  CHECK_FALSE(rate_all({{"emergence", "60 %"}}).maturity.plants_decide);
}

TEST_CASE("the rating says where it comes from, and why it came out so", "[maturity]") {
  const auto reasons = [](const std::vector<std::pair<std::string, std::string>>& values) {
    std::vector<std::string> ids;
    for (const RatingReason* reason : reasons_of(rate_all(values), criteria())) ids.push_back(reason->id);
    return ids;
  };
  using Ids = std::vector<std::string>;
  CHECK(reasons({}).empty());
  CHECK(reasons({{"ph", "7"}}).empty());
  CHECK(reasons({{"C:N", "18:1"}}) == Ids{"index"});
  CHECK(reasons({{"emergence", "95 %"}}) == Ids{"index"});
  CHECK(reasons({{"ammonium", "530 mg/kg"}}) == Ids{"index", "nitrogen-foretells"});
  CHECK(reasons({{"ammonium", "530 mg/kg"}, {"emergence", "95 %"}}) == Ids{"index", "plants-decide"});
  CHECK(reasons({{"ammonium", "20 mg/kg"}, {"emergence", "95 %"}}) == Ids{"index"});                // they agree
  CHECK(reasons({{"volatile-fatty-acids", "2000 mg/kg"}, {"emergence", "95 %"}}) == Ids{"index"});  // of nitrogen nothing is said
}

TEST_CASE("a scale that knows no more than mature neither lowers a better test nor disagrees with it", "[maturity]") {
  const MaturityRating better =
      rate_all({{"oxygen-uptake", "1 mmolO2/kgOM/h"}, {"self-heating", "2 degC"}, {"germination", "150 %"}, {"emergence", "98 %"}});
  CHECK(better.rating == Rating::very_mature);
  CHECK_FALSE(better.stability.tests_disagree);
  CHECK_FALSE(better.maturity.tests_disagree);
  const MaturityRating worse = rate_all({{"oxygen-uptake", "1 mmolO2/kgOM/h"}, {"self-heating", "25 degC"}});
  CHECK(worse.stability.rating == Rating::immature);
  CHECK(worse.stability.tests_disagree);
  CHECK(rate_all({{"oxygen-uptake", "1 mmolO2/kgOM/h"}}).stability.rating == Rating::mature);
}

TEST_CASE("of the same test the latest counts", "[maturity]") {
  const MaturityTest young = on_day(test_of("self-heating", "25 degC"), "2027-03-01");
  const MaturityTest old = on_day(test_of("self-heating", "8 degC"), "2027-05-01");
  const MaturityTest undated = test_of("self-heating", "15 degC");
  const MaturityTest other = on_day(test_of("co2-respiration", "3 mgC/gOM/day"), "2027-01-01");
  const MaturityRating rating = rate({young, other, old}, criteria());
  CHECK(rating.stability.rating == Rating::mature);  // another test, though older, still counts
  CHECK(counting(rating.tests, "self-heating").size() == 1);
  CHECK(counting(rating.tests, "self-heating").at(0)->test.written == "8 degC");
  CHECK(rating.tests.size() == 3);
  // Nobody knows when an undated one was done: it counts, and puts none out.
  CHECK(rate({undated, old}, criteria()).stability.rating == Rating::mature);
  CHECK(counting(rate({undated, old, young}, criteria()).tests, "self-heating").size() == 2);
}

TEST_CASE("oxygen and carbon dioxide at a respiratory quotient of 1", "[maturity]") {
  // Worked by hand with 12.011 g/mol of carbon, 44.009 of CO2 and 31.998 of O2; one O2 for each CO2.
  const auto [given, mmol, decimals] = GENERATE(table<std::string, double, int>({{"2 mgC/gOM/day", 6.9, 1},
                                                                                 {"4 mgC/gOM/day", 13.9, 1},
                                                                                 {"5 mgC/gOM/day", 17.3, 1},
                                                                                 {"8 mgC/gOM/day", 27.8, 1},
                                                                                 {"16 mgCO2/gOM/day", 15.1, 1}}));
  const auto value = std::get<RespirationRate>(read_test_value(TestQuantity::carbon_dioxide, given));
  const double found = in_usual_unit(TestQuantity::oxygen, to_oxygen_uptake(value)).number;
  CHECK(std::abs(found - mmol) <= 0.5 * std::pow(10.0, -decimals));
  CHECK(in_usual_unit(TestQuantity::carbon_dioxide, to_respiration(to_oxygen_uptake(value))).number ==
        Approx(in_usual_unit(TestQuantity::carbon_dioxide, value).number));
}

TEST_CASE("a C:N ratio as laboratories print it", "[maturity]") {
  CHECK(compare(read_test_value(TestQuantity::carbon_to_nitrogen, "14.5"), read_test_value(TestQuantity::carbon_to_nitrogen, "14.5:1")) ==
        std::partial_ordering::equivalent);
}

TEST_CASE("oxygen by mass and by moles", "[maturity]") {
  const TestValue canada = read_test_value(TestQuantity::oxygen, "400 mgO2/kgOM/h");
  CHECK(std::abs(in_usual_unit(TestQuantity::oxygen, canada).number - 12.5) <= 0.05);
  const TestValue europe = read_test_value(TestQuantity::oxygen, "800 mgO2/kgOM/h");
  CHECK(std::abs(in_usual_unit(TestQuantity::oxygen, europe).number - 25.0) <= 0.05);
  // Taken up in water it is another quantity, which does not compare, however its unit is spelt.
  const TestValue in_water = read_test_value(TestQuantity::oxygen_in_water, "0.8 mgO2/gOM/h");
  CHECK(compare(in_water, read_test_value(TestQuantity::oxygen_in_water, "800 mgO2/kgOM/h")) == std::partial_ordering::equivalent);
  CHECK(in_usual_unit(TestQuantity::oxygen_in_water, read_test_value(TestQuantity::oxygen_in_water, "25 mmolO2/kgOM/h")).number ==
        Approx(0.79995));  // of 31.998 g/mol
  CHECK(std::holds_alternative<OxygenUptakeRateInWater>(in_water));
  CHECK(compare(in_water, europe) == std::partial_ordering::unordered);
  CHECK_FALSE(criteria().test_called("oxygen-uptake").scale_for(europe)->mature.holds(in_water));
}

TEST_CASE("units as laboratories write them", "[maturity]") {
  const auto [test, text, number, unit] = GENERATE(table<std::string, std::string, double, std::string>({
      {"co2-respiration", "7 mg CO2-C per g OM per day", 7.0, "mgC/gOM/day"},
      {"co2-respiration", "7 mg CO2-C/g OM/d", 7.0, "mgC/gOM/day"},
      {"co2-respiration", "7 mg C/g VS/day", 7.0, "mgC/gOM/day"},
      {"co2-respiration", "0.5 mgC/gOM/h", 12.0, "mgC/gOM/day"},
      {"oxygen-uptake", "12 mmol O2/kg OM/h", 12.0, "mmolO2/kgOM/h"},
      {"oxygen-uptake-in-water", "0.9 mg O2/g VS/hr", 0.9, "mgO2/gOM/h"},
      {"SOUR", "900 mgO2/kgOM/h", 0.9, "mgO2/gOM/h"},
      {"self-heating", "12 degC", 12.0, "degC"},
      {"self-heating", "21.6 degF", 12.0, "degC"},
      {"ammonium", "0.04 %", 400.0, "mg/kg"},
      {"ammonium", "530 ppm", 530.0, "mg/kg"},
      {"ammonium-to-nitrate", "0.3", 0.3, "1"},
      {"ammonium-to-nitrate", "0.3:1", 0.3, "1"},
      {"carbon-to-nitrogen", "18:1", 18.0, "1"},
      {"emergence", "112 %", 1.12, "1"},
      {"salts-1to5", "250 mS/m", 2.5, "dS/m"},
      {"salts-1to5", "2.1 mmhos/cm", 2.1, "dS/m"},
      {"salts-paste", "4000 uS/cm", 4.0, "dS/m"},
      {"particle-size", "3/8 in", 9.525, "mm"},
      {"ph", "7.4", 7.4, "1"},
      {"moisture", "45 %", 0.45, "1"},
  }));
  CAPTURE(test, text);
  const TestCriterion& criterion = criteria().test_called(test);
  const ValueInUnit value = in_usual_unit(criterion.measured, read_test_value(criterion.measured, text));
  CHECK(value.number == Approx(number));
  CHECK(std::string(value.unit) == unit);
}

TEST_CASE("values that cannot be", "[maturity]") {
  const auto [test, value, says] = GENERATE(table<std::string, std::string, std::string>({
      {"self-heating", "12", "12 degC"},
      {"self-heating", "12 kg", "22 degF"},
      {"self-heating", "-3 degC", "negative"},
      {"self-heating", "120 degC", "more or less than any compost"},
      {"self-heating", "nan degC", "number"},
      {"self-heating", "inf degC", "number"},
      {"emergence", "93 % of soil", "percentage"},
      {"ammonium", "300 mg/kg wet", "is not a share of dry matter"},
      {"moisture", "50 % dry", "percentage"},
      {"organic-matter", "50 % as received", "percentage"},
      {"self-heating", "1e400 degC", "beyond"},
      {"co2-respiration", "7", "mgC/gOM/day"},
      {"co2-respiration", "12 mmolO2/kgOM/h", "oxygen-uptake"},
      {"co2-respiration", "7 mgC/gDM/day", "of organic matter"},
      {"co2-respiration", "7000 mgC/gOM/day", "more or less than any compost"},
      {"oxygen-uptake", "7 mgC/gOM/day", "co2-respiration"},
      {"oxygen-uptake", "0.9 mgO2/gOM/h", "oxygen-uptake-in-water"},
      {"SOUR", "7 mgC/gOM/day", "co2-respiration"},
      {"oxygen-uptake", "7 mgO2/gOM", "mmolO2/kgOM/h"},
      {"ammonium-to-nitrate", "30 %", "plain number"},
      {"ammonium", "300", "mg/kg"},
      {"ammonium", "30 %", "more or less than any compost"},
      {"emergence", "0.95", "95 %"},
      {"emergence", "950 %", "more or less than any compost"},
      {"emergence", "201 %", "from 0 to 200 %"},
      {"germination", "400 %", "from 0 to 200 %"},
      {"moisture", "100 %", "from 1 to 99 %"},
      {"total-nitrogen", "60 %", "that of urea"},
      {"ph", "0.5", "from 1 to 14"},
      {"ph", "14.1", "from 1 to 14"},
      {"carbon-to-nitrogen", "18 lb", "ratio"},
      {"carbon-to-nitrogen", "1:18", "more or less than any compost"},
      {"water-soluble-carbon", "0.3", "percent"},
      {"moisture", "0.45", "no unit"},
      {"moisture", "0.45 %", "more or less than any compost"},
      {"moisture", "145 %", "0–100 %"},
      {"ph", "7.4 %", "plain number"},
      {"ph", "74", "more or less than any compost"},
      {"ph", "nan", "number"},
      {"salts-1to5", "2.1", "dS/m"},
      {"salts-1to5", "2100 dS/m", "more or less than any compost"},
      {"selfheating test", "12 degC", "self-heating"},
      {"amonium", "12 mg/kg", "did you mean \"ammonium\""},
      {"vigr", "90 %", "did you mean \"vigor\""},
      {"zzz", "1", "It is one of carbon-to-nitrogen"},
  }));
  CAPTURE(test, value);
  CHECK_THAT(refusal_of(test, value), Catch::Contains(says));
}

TEST_CASE("a value that is no number holds no bound", "[maturity]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const TestCriterion& test : criteria().tests) {
    for (const Scale& scale : test.scales) {
      const TestValue broken = scaled(scale.mature.value, nan);
      CAPTURE(test.id);
      CHECK_FALSE(scale.mature.holds(broken));
      CHECK(rating_on(scale, broken) == Rating::immature);
    }
  }
  CHECK_THROWS_AS(Fraction<OfMass>::of(nan), DomainError);
}

TEST_CASE("a name is one test's alone", "[maturity]") {
  std::set<std::string> names;
  for (const TestCriterion& test : criteria().tests) {
    std::set<std::string> own{plain_name(test.id), plain_name(test.name)};
    for (const std::string& also : test.also) own.insert(plain_name(also));
    for (const std::string& name : own) {
      CAPTURE(test.id, name);
      CHECK(names.insert(name).second);
      CHECK(criteria().test_called(name).id == test.id);
    }
  }
}

TEST_CASE("germination by counts", "[maturity]") {
  const Length root = 0.023 * unit::m;
  const Length control_root = 0.030 * unit::m;
  // (18/20) / (19/20) × 23/30 = 0.7263
  CHECK(germination_index(read_sprouted("18 of 20"), read_sprouted("19 of 20"), root, control_root) == Approx(0.72631579));
  CHECK(emergence(read_sprouted("8 of 10"), read_sprouted("19 of 20")) == Approx(0.8 / 0.95));
  CHECK(germination_index(read_sprouted("0 of 20"), read_sprouted("19 of 20"), root, control_root) == 0.0);
  CHECK_THROWS_AS(emergence(read_sprouted("8 of 10"), read_sprouted("0 of 20")), DomainError);
  CHECK_THROWS_AS(germination_index({18, 20}, {19, 20}, root, 0.0 * unit::m), DomainError);
  CHECK_THROWS_AS(germination_index({18, 20}, {19, 20}, root, std::nan("") * unit::m), DomainError);
  for (const char* text :
       {"18", "18 of 0", "21 of 20", "1.5 of 20", "-1 of 20", "nan of 20", "18 of 20 seeds", "18/20", "90 %", "1e9 of 2e9"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(read_sprouted(text), TextError);
  }
}

TEST_CASE("germination by counts in a yard file", "[maturity]") {
  const std::string counts = "germinated = \"18 of 20\"\ncontrol = \"19 of 20\"\n";
  const std::string roots = "root = \"23 mm\"\ncontrol_root = \"30 mm\"\n";
  const std::string head = "[[maturity.test]]\ntest = ";
  const Yard yard = read_yard_text(head + "\"germination\"\n" + counts + roots + head + "\"emergence\"\n" + counts, "y", built_in_tables());
  CHECK(std::get<double>(yard.observations.tests.at(0).value) == Approx(0.72631579));
  CHECK(std::get<double>(yard.observations.tests.at(1).value) == Approx(18.0 / 19.0));
  CHECK(yard.observations.tests.at(0).written == "18 of 20 against 19 of 20, roots 23 mm against 30 mm");
  CHECK_THAT(problems_of(head + "\"germination\"\n" + counts), Catch::Contains("root is missing"));
  CHECK_THAT(problems_of(head + "\"germination\"\ngerminated = \"18 of 20\"\n" + roots), Catch::Contains("control is missing"));
  CHECK_THAT(problems_of(head + "\"self-heating\"\n" + counts), Catch::Contains("says nothing of self-heating"));
  CHECK_THAT(problems_of(head + "\"emergence\"\nvalue = \"90 %\"\n" + counts), Catch::Contains("beside counts"));
  CHECK_THAT(problems_of(head + "\"emergence\"\ngerminated = \"18 of 20\"\ncontrol = \"0 of 20\"\n"),
             Catch::Contains("nothing came up in the control"));
  CHECK_THAT(problems_of(head + "\"self-heating\"\n"), Catch::Contains("value is missing"));
  CHECK_THAT(problems_of(head + "\"self-heatng\"\nvalue = \"12 degC\"\n"),
             Catch::Contains("2:8: test: ") && Catch::Contains("did you mean \"self-heating\"?"));
  CHECK_THAT(problems_of(head + "\"self-heating\"\nvalue = 12\n"), Catch::Contains("3:9: value: "));
  CHECK_THAT(problems_of("[[maturity.check]]\ncheck = \"no-reheet\"\nresult = \"passed\"\n"),
             Catch::Contains("did you mean \"no-reheat\"?"));
}

TEST_CASE("turf limits, entered a second time", "[maturity]") {
  struct Row {
    const char* test;
    const char* specification;
    const char* low;  // "" where it asks for none
    const char* high;
    const char* too_low;
    const char* too_high;
  };
  // Penn State by way of other pages, Caltrans (fine grade), Minnesota Stormwater Manual, a UK data sheet on a producer's page.
  const auto row = GENERATE(values<Row>({
      {"moisture", "Penn State", "30 %", "50 %", "29.9 %", "50.1 %"},
      {"moisture", "Caltrans", "25 %", "60 %", "24.9 %", "60.1 %"},
      {"moisture", "UK data sheet", "35 %", "55 %", "34.9 %", "55.1 %"},
      {"ph", "Penn State", "6.0", "8.0", "5.9", "8.1"},
      {"ph", "Caltrans", "6", "8.5", "5.9", "8.6"},
      {"ph", "Minnesota", "5.5", "8.5", "5.4", "8.6"},
      {"ph", "UK data sheet", "7.0", "8.7", "6.9", "8.8"},
      {"organic-matter", "Penn State", "30.1 %", "", "30 %", ""},  // above 30 %
      {"organic-matter", "Caltrans", "30 %", "70 %", "29 %", "71 %"},
      {"organic-matter", "Minnesota", "30 %", "65 %", "29 %", "66 %"},
      {"organic-matter", "UK data sheet", "25 %", "", "24 %", ""},
      {"carbon-to-nitrogen", "Penn State", "", "30:1", "", "31:1"},
      {"carbon-to-nitrogen", "Minnesota", "6:1", "20:1", "5:1", "21:1"},
      {"carbon-to-nitrogen", "UK data sheet", "", "20:1", "", "21:1"},
      {"nitrogen", "Penn State", "0.5 %", "3 %", "0.4 %", "3.1 %"},
      {"salts-1to5", "Caltrans", "", "10 dS/m", "", "10.1 dS/m"},
      {"salts-1to5", "Minnesota", "", "9.9 dS/m", "", "10 dS/m"},  // below 10
      {"salts-1to5", "UK data sheet", "", "250 mS/m", "", "251 mS/m"},
      {"particle-size", "Penn State", "", "3/8 in", "", "1/2 in"},
      {"particle-size", "Minnesota", "", "1 in", "", "1 1/4 in"},
      {"particle-size", "UK data sheet", "", "10 mm", "", "11 mm"},
      {"co2-respiration", "Caltrans", "", "5 mgC/gOM/day", "", "5.1 mgC/gOM/day"},
      {"co2-respiration", "Minnesota", "", "7.9 mgC/gOM/day", "", "8 mgC/gOM/day"},  // below 8
      {"emergence", "Caltrans", "80 %", "", "79 %", ""},
      {"emergence", "Minnesota", "80 %", "", "79 %", ""},
      {"vigor", "Caltrans", "80 %", "", "79 %", ""},
      {"vigor", "Minnesota", "80 %", "", "79 %", ""},
  }));
  CAPTURE(row.test, row.specification);
  const auto passes = [&](const char* value) {
    for (const TurfResult& result : turf_results(rate_all({{row.test, value}}).tests, criteria())) {
      if (result.property->id == row.test && result.limit->specification == row.specification) return *result.ok;
    }
    throw std::out_of_range("no such limit");
  };
  for (const char* good : {row.low, row.high}) {
    if (*good != '\0') CHECK(passes(good));
  }
  for (const char* bad : {row.too_low, row.too_high}) {
    if (*bad != '\0') CHECK_FALSE(passes(bad));
  }
}

TEST_CASE("every turf limit is entered a second time", "[maturity]") { CHECK(criteria().turf.size() == 27); }

TEST_CASE("turf: what was not measured is not said to pass", "[maturity]") {
  const std::vector<TurfResult> nothing = turf_results({}, criteria());
  CHECK(nothing.size() == criteria().turf.size());
  for (const TurfResult& result : nothing) CHECK_FALSE(result.ok);
  for (const TurfVerdict& verdict : turf_verdicts(nothing)) {
    CHECK(verdict.measured == 0);
    CHECK(verdict.not_measured.size() == static_cast<std::size_t>(verdict.asked));
  }
}

TEST_CASE("turf: salts by the other method, oxygen in water are left alone; oxygen of moist compost is converted", "[maturity]") {
  const auto measured = [](const std::vector<std::pair<std::string, std::string>>& values, const std::string& property) {
    std::vector<TurfResult> found;
    for (const TurfResult& result : turf_results(rate_all(values).tests, criteria())) {
      if (result.property->id == property && result.ok) found.push_back(result);
    }
    return found;
  };
  CHECK(measured({{"salts-paste", "2 dS/m"}}, "salts-1to5").empty());
  CHECK(measured({{"oxygen-uptake-in-water", "0.2 mgO2/gOM/h"}}, "co2-respiration").empty());
  const std::vector<TurfResult> converted = measured({{"oxygen-uptake", "20 mmolO2/kgOM/h"}}, "co2-respiration");
  REQUIRE(converted.size() == 2);
  for (const TurfResult& result : converted) {
    CHECK(result.converted);
    CHECK(in_usual_unit(TestQuantity::carbon_dioxide, *result.value).number == Approx(5.765).epsilon(0.001));  // 20 × 24 × 12.011 / 1000
    CHECK(*result.ok == (result.limit->specification == "Minnesota"));
  }
  // TestQuantity outright it is not converted.
  CHECK_FALSE(measured({{"oxygen-uptake", "20 mmolO2/kgOM/h"}, {"co2-respiration", "3 mgC/gOM/day"}}, "co2-respiration").at(0).converted);
}
