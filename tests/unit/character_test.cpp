// What is wrong with a mix, on the edges of its windows: what is shown as the edge is no fault.
#include "heapwright/mix/character.hpp"

#include <catch2/catch.hpp>

using namespace heapwright;

namespace {

using Faults = std::vector<MixFault>;

Mix mix_with(std::optional<double> ratio, double moisture, std::optional<double> air = std::nullopt) {
  Mix mix;
  if (ratio) mix.carbon_to_nitrogen = carbon_to_nitrogen(*ratio);
  mix.moisture = wet_basis(moisture);
  if (air) mix.air_space = AirLeft::of(*air);
  return mix;
}

Faults faults(const Mix& mix) { return faults_of(mix, Targets()); }

PairMix pair_with(std::optional<double> ratio, double moisture) {
  PairMix mix{ShareOfLooseVolume::of(0.5), ShareOfMass::of(0.5), std::nullopt, wet_basis(moisture), WaterDensity()};
  if (ratio) mix.carbon_to_nitrogen = carbon_to_nitrogen(*ratio);
  return mix;
}

}  // namespace

TEST_CASE("a mix is off where its shown figures are", "[mix]") {
  CHECK(faults(mix_with(30.0, 0.55, 0.5)).empty());
  CHECK(faults(mix_with(35.4, 0.55)).empty());
  CHECK(faults(mix_with(35.6, 0.55)) == Faults{MixFault::too_brown});
  CHECK(faults(mix_with(24.6, 0.55)).empty());
  CHECK(faults(mix_with(24.4, 0.55)) == Faults{MixFault::too_green});
  CHECK(faults(mix_with(std::nullopt, 0.55)) == Faults{MixFault::no_nitrogen});
  CHECK(faults(mix_with(30.0, 0.604)).empty());
  CHECK(faults(mix_with(30.0, 0.606)) == Faults{MixFault::too_wet});
  CHECK(faults(mix_with(30.0, 0.494)) == Faults{MixFault::too_dry});
  CHECK(faults(mix_with(30.0, 0.55, 0.344)) == Faults{MixFault::short_of_air});
  CHECK(faults(mix_with(30.0, 0.55, -0.01)) == Faults{MixFault::no_room});
  CHECK(faults(mix_with(49.0, 0.96, -0.2)) == Faults{MixFault::too_brown, MixFault::too_wet, MixFault::no_room});
}

TEST_CASE("of a pair too dry is no fault, and without nitrogen it is too brown", "[mix]") {
  CHECK(faults_of(pair_with(30.0, 0.3), Targets()).empty());
  CHECK(faults_of(pair_with(std::nullopt, 0.7), Targets()) == Faults{MixFault::too_brown, MixFault::too_wet});
  const Pair never_right;
  CHECK(verdict_of(pair_with(35.2, 0.55), never_right, Targets()) == PairVerdict::at_the_edge);
  CHECK(verdict_of(pair_with(40.0, 0.55), never_right, Targets()) == PairVerdict::off);
  Pair right;
  right.right_with_water = PairWindow{ShareOfLooseVolume::of(0.4), ShareOfLooseVolume::of(0.6)};
  CHECK(verdict_of(pair_with(30.0, 0.3), right, Targets()) == PairVerdict::right_once_watered);
  right.both_right = right.right_with_water;
  CHECK(verdict_of(pair_with(30.0, 0.55), right, Targets()) == PairVerdict::right);
}
