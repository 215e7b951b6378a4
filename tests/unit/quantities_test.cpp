#include "heapwright/units/quantities.hpp"

#include <catch2/catch.hpp>

#include <limits>
#include <tuple>

using namespace heapwright;

namespace {
// A handful of roundings of a double, each at most 1.1e-16.
const double rounding = 1e-14;
auto close_to(double value) { return Catch::WithinRel(value, rounding); }

DryMass dry(double kg) { return kg * unit::kg_dry; }
WaterMass water(double kg) { return kg * unit::kg_water; }
OrganicMass organic(double kg) { return kg * unit::kg_organic; }
}  // namespace

TEST_CASE("dry matter and water together are the as-is mass", "[quantities]") {
  CHECK(as_is_mass(dry(45.0), water(55.0)) == 100.0 * unit::kg);
  CHECK(as_is_mass(dry(0.0), water(0.0)) == 0.0 * unit::kg);
}

TEST_CASE("an as-is mass parts into its dry matter and its water", "[quantities]") {
  CHECK_THAT(si_number(dry_mass(200.0 * unit::kg, wet_basis(0.55))), close_to(90.0));

  const Mass mass = GENERATE(take(10, random(1e-3, 1e5))) * unit::kg;
  const MoistureWetBasis moisture = wet_basis(GENERATE(0.0, 0.08, 0.5, 0.82, 1.0));
  const DryMass solids = dry_mass(mass, moisture);
  const WaterMass wetness = mass * moisture;
  CHECK_THAT(si_number(as_is_mass(solids, wetness)), close_to(si_number(mass)));
  CHECK_THAT(si_number(moisture_wet_basis(solids, wetness)), close_to(si_number(moisture)));
}

TEST_CASE("moisture of the wet mass and of the dry matter, at known points", "[quantities]") {
  const auto [of_wet, of_dry] = GENERATE(table<double, double>({
      {0.0, 0.0},
      {0.2, 0.25},
      {0.5, 1.0},
      {0.55, 11.0 / 9.0},
      {0.6, 1.5},
      {0.9, 9.0},
  }));
  const MoistureDryBasis dry_basis = of_dry * (unit::kg_water / unit::kg_dry);
  CHECK_THAT(si_number(to_dry_basis(wet_basis(of_wet))), close_to(of_dry));
  CHECK_THAT(si_number(to_wet_basis(dry_basis)), close_to(of_wet));
}

TEST_CASE("wet basis to dry basis and back is the same moisture", "[quantities]") {
  const double moisture = GENERATE(take(200, random(0.0, 0.99)));
  // 1 - M loses at most two digits below 0.99.
  CHECK_THAT(si_number(to_wet_basis(to_dry_basis(wet_basis(moisture)))), Catch::WithinRel(moisture, 100 * rounding));
}

TEST_CASE("moisture of either basis tells the same water", "[quantities]") {
  const MoistureWetBasis moisture = wet_basis(GENERATE(take(20, random(0.0, 0.95))));
  const DryMass solids = dry(12.0);
  const WaterMass wetness = solids * to_dry_basis(moisture);
  CHECK_THAT(si_number(moisture_wet_basis(solids, wetness)), Catch::WithinRel(si_number(moisture), 20 * rounding));  // 1/(1 - 0.95)
}

TEST_CASE("ash is what of the dry matter is not organic", "[quantities]") {
  CHECK_THAT(si_number(ash_mass(dry(50.0), organic(42.5))), close_to(7.5));
  CHECK(si_number(ash_mass(dry(50.0), organic(50.0))) == 0.0);

  const DryMass solids = dry(80.0);
  const OrganicMass burnt = solids * organic_dry_basis(0.9);
  CHECK_THAT(si_number(ash_mass(solids, burnt)), close_to(8.0));
}

TEST_CASE("contents of dry matter give the constituents, and those their ratio", "[quantities]") {
  const DryMass grass = dry_mass(100.0 * unit::kg, wet_basis(0.8));
  const CarbonMass carbon = grass * carbon_dry_basis(0.45);
  const NitrogenMass nitrogen = grass * nitrogen_dry_basis(0.03);
  const CarbonNitrogenRatio ratio = carbon / nitrogen;
  const NitrogenMass from_ratio = carbon / carbon_to_nitrogen(15.0);
  CHECK_THAT(value_in(unit::kg_carbon, carbon), close_to(9.0));
  CHECK_THAT(value_in(unit::kg_nitrogen, nitrogen), close_to(0.6));
  CHECK_THAT(si_number(ratio), close_to(15.0));
  CHECK_THAT(si_number(from_ratio), close_to(0.6));
}

TEST_CASE("a density turns a volume into a mass", "[quantities]") {
  const Volume volume = 2.0 * unit::m3;
  const Mass mass = volume * bulk_density(475.0);
  const DryMass solids = volume * particle_density(1500.0);
  const WaterMass wetness = volume * water_density();
  CHECK(value_in(unit::kg, mass) == 950.0);
  CHECK(value_in(unit::kg_dry, solids) == 3000.0);
  CHECK(value_in(unit::kg_water, wetness) == 2000.0);
}

TEST_CASE("a quantity goes to its SI number and back unchanged", "[quantities]") {
  const double number = GENERATE(0.0, 0.1, 1.0 / 3.0, 1e-300, 1e12);
  CHECK(si_number(from_si<Mass>(number)) == number);
  CHECK(si_number(from_si<CarbonNitrogenRatio>(number)) == number);
  CHECK(value_in(unit::m3, from_si<Volume>(number)) == number);
}

TEST_CASE("a bound that is met to rounding is met, and no number meets none", "[quantities]") {
  const auto ratio = [](double of_one) { return CarbonNitrogenRatio(of_one * unit::kg_carbon / unit::kg_nitrogen); };
  CHECK(at_least(ratio(25.0), ratio(25.0 * (1.0 - 1e-15))));
  CHECK(at_most(ratio(40.0), ratio(40.0 * (1.0 + 1e-15))));
  CHECK_FALSE(at_least(ratio(25.0), ratio(24.9999)));
  CHECK_FALSE(at_most(ratio(40.0), ratio(40.0001)));
  const double none = std::numeric_limits<double>::quiet_NaN();
  CHECK_FALSE(at_least(ratio(25.0), ratio(none)));
  CHECK_FALSE(at_most(ratio(40.0), ratio(none)));
  CHECK_FALSE(is_positive(ratio(none)));
}

TEST_CASE("what people measure in is what it is by definition", "[quantities]") {
  // International yard and pound agreement of 1959; NIST Handbook 44, Appendix C: gallon of 231 in3, bushel of 2150.42 in3.
  CHECK_THAT(value_in(unit::m, unit::yard), close_to(0.9144));
  CHECK_THAT(value_in(unit::square_foot, unit::acre), close_to(43560.0));
  CHECK_THAT(value_in(unit::cubic_foot, unit::cubic_yard), close_to(27.0));
  CHECK_THAT(value_in(unit::liter, unit::gallon), close_to(3.785411784));
  CHECK_THAT(value_in(unit::gallon, unit::bushel), close_to(2150.42 / 231.0));
  CHECK_THAT(value_in(unit::kg, unit::short_ton), close_to(907.18474));
  CHECK_THAT(value_in(unit::day, unit::week), close_to(7.0));
}
