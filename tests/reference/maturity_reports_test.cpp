/// Two public laboratory reports of composts, from the public files of a county, as far as their method is known, and conversions.
#include <catch2/catch.hpp>

#include "heapwright/maturity/rating.hpp"

using namespace heapwright;

namespace {

const Criteria& criteria() {
  static const Criteria table = built_in_criteria();
  return table;
}

Rating rated(std::string_view test, std::string_view value) {
  const MaturityTest taken = read_maturity_test(criteria(), test, value);
  return rating_on(*criteria().test_called(test).scale_for(taken.value), taken.value);
}

}  // namespace

TEST_CASE("San Joaquin County files 896776 and 900204: nitrogen", "[reference]") {
  // Both reports call all of these "immature".
  CHECK(rated("ammonium-to-nitrate", "71") == Rating::immature);
  CHECK(rated("ammonium-to-nitrate", "5800") == Rating::immature);
  CHECK(rated("ammonium", "530 ppm") == Rating::immature);
  CHECK(rated("ammonium", "640 ppm") == Rating::immature);
  // 530 / 7.5 is the report's own 71.
  CHECK(530.0 / 7.5 == Approx(71.0).margin(0.5));
}

TEST_CASE("San Joaquin County files 896776 and 900204: cucumbers", "[reference]") {
  // Emergence and vigor above 80 % of the control are "well cured" there; 100 % came up in compost whose nitrogen is "immature".
  CHECK(rated("emergence", "100 %") >= Rating::mature);
  CHECK(rated("vigor", "81 %") >= Rating::mature);
  const MaturityRating rating =
      rate({read_maturity_test(criteria(), "emergence", "100 %"), read_maturity_test(criteria(), "ammonium-to-nitrate", "71"),
            read_maturity_test(criteria(), "co2-respiration", "7.0 mgC/gOM/day")},
           criteria());
  CHECK(rating.maturity.tests_disagree);
  CHECK(rating.maturity.rating == Rating::very_mature);  // plants decide
  CHECK(rating.rating == Rating::immature);              // by its respiration, see below
}

TEST_CASE("San Joaquin County files 896776 and 900204: respiration, which does not reproduce", "[reference]") {
  // 7.0 and 8.5 mg CO2-C/g OM/day are there "moderate-selected use". That is a scale of another protocol, whose bounds were not seen; it
  // has no such word as ours. By our remembered scale both are immature, and 7.0 alone is within the 8 that Minnesota takes on turf.
  CHECK(rated("co2-respiration", "7.0 mgC/gOM/day") == Rating::immature);
  CHECK(rated("co2-respiration", "8.5 mgC/gOM/day") == Rating::immature);
}

TEST_CASE("limits told in different units lie where they are said to", "[reference]") {
  // At a respiratory quotient of 1 the 16 mg CO2 of a British limit and the 400 mg O2 of a Canadian one (from memory) lie near the Irish
  // 13 mmol O2/kg OM/h, and the 8 mg CO2-C of two US states near the European 25 (from memory).
  const auto mmol = [](std::string_view text) {
    const TestValue value = read_test_value(TestQuantity::carbon_dioxide, text);
    return in_usual_unit(TestQuantity::oxygen, to_oxygen_uptake(std::get<RespirationRate>(value))).number;
  };
  CHECK(mmol("16 mgCO2/gOM/day") == Approx(15.1).margin(0.05));
  CHECK(mmol("8 mgC/gOM/day") == Approx(27.8).margin(0.05));
  CHECK(in_usual_unit(TestQuantity::oxygen, read_test_value(TestQuantity::oxygen, "400 mgO2/kgOM/h")).number == Approx(12.5).margin(0.05));
  CHECK(in_usual_unit(TestQuantity::oxygen, read_test_value(TestQuantity::oxygen, "800 mgO2/kgOM/h")).number == Approx(25.0).margin(0.05));
}
