// All mixes of two feedstocks, against mix_of() at many shares.

#include "heapwright/mix/pair.hpp"

#include <catch2/catch.hpp>

#include <random>

#include "heapwright/error.hpp"

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Ingredient ingredient(double moisture, double carbon, double nitrogen, double density) {
  const OrganicMatterDryBasis organic = organic_dry_basis(std::min(1.0, 1.8 * carbon));
  const Properties properties{wet_basis(moisture), carbon_dry_basis(carbon), nitrogen_dry_basis(nitrogen), organic,
                              particle_density_of(organic)};
  return {{properties, bulk_density(density), Mass()}, "a", "a", ""};
}

/// The same mix by the balance of masses, of one cubic metre.
Mix balance(Ingredient first, Ingredient second, double share, WaterMass water = {}) {
  first.mass = share * unit::m3 * *first.density;
  second.mass = (1.0 - share) * unit::m3 * *second.density;
  return mix_of({{first, second}, water});
}

Targets targets_of(double low_ratio, double ratio, double high_ratio, double low, double aim, double high) {
  Targets targets;
  targets.carbon_to_nitrogen = {carbon_to_nitrogen(low_ratio), carbon_to_nitrogen(ratio), carbon_to_nitrogen(high_ratio)};
  targets.moisture = {wet_basis(low), wet_basis(aim), wet_basis(high)};
  return targets;
}

/// Whether what holds at a share, and a little to either side of it, is what the window says; on its edge either will do.
template <class Holds>
void check_by_scan(const std::optional<PairWindow>& window, Holds holds_at) {
  constexpr int shares = 400;
  constexpr double edge = 1e-9;
  for (int i = 0; i <= shares; ++i) {
    const double share = static_cast<double>(i) / shares;
    const bool near_an_edge = window && (std::abs(share - window->low.value()) < edge || std::abs(share - window->high.value()) < edge);
    if (near_an_edge) continue;
    CAPTURE(share, window.has_value());
    CHECK(holds(window, ShareOfLooseVolume::of(share)) == holds_at(share));
  }
}

void check_windows(const Ingredient& first, const Ingredient& second, const Targets& targets) {
  const Pair pair = pair_of(first, second, targets);
  const auto ratio_right = [&](double share) {
    const auto ratio = balance(first, second, share).carbon_to_nitrogen;
    return ratio && *ratio >= targets.carbon_to_nitrogen.low && *ratio <= targets.carbon_to_nitrogen.high;
  };
  const auto moisture = [&](double share) { return *balance(first, second, share).moisture; };
  const auto moisture_right = [&](double share) {
    return moisture(share) >= targets.moisture.low && moisture(share) <= targets.moisture.high;
  };
  check_by_scan(pair.right_ratio, ratio_right);
  check_by_scan(pair.right_moisture, moisture_right);
  check_by_scan(pair.both_right, [&](double share) { return ratio_right(share) && moisture_right(share); });
  check_by_scan(pair.right_with_water, [&](double share) { return ratio_right(share) && moisture(share) <= targets.moisture.high; });
}

const Ingredient grass = ingredient(0.77, 0.45, 0.024, 200.0);
const Ingredient leaves = ingredient(0.35, 0.50, 0.0075, 80.0);

}  // namespace

TEST_CASE("the everyday proportions of a pair are mixes of it") {
  const Targets targets;
  const Pair pair = pair_of(leaves, grass, targets);
  REQUIRE(pair.everyday.size() == everyday_proportions.size());
  for (std::size_t i = 0; i < everyday_proportions.size(); ++i) {
    const auto [parts_of_leaves, parts_of_grass] = everyday_proportions[i];
    const double share = static_cast<double>(parts_of_leaves) / (parts_of_leaves + parts_of_grass);
    const Mix mix = balance(leaves, grass, share);
    const PairMix& found = pair.everyday[i];
    CAPTURE(parts_of_leaves, parts_of_grass);
    CHECK_THAT(found.by_volume.value(), WithinAbs(share, 1e-15));
    CHECK_THAT(found.by_mass.value(), WithinAbs((mix.parts[0].mass / mix.mass).value(), 1e-12));
    CHECK_THAT(found.carbon_to_nitrogen->value(), WithinRel(mix.carbon_to_nitrogen->value(), 1e-12));
    CHECK_THAT(found.moisture.value(), WithinRel(mix.moisture->value(), 1e-12));
    if (*mix.moisture >= targets.moisture.low) {
      CHECK(found.water_wanted.value() == 0.0);
    } else {
      const Mix watered = balance(leaves, grass, share, WaterMass(1.0 * unit::m3 * found.water_wanted));
      CHECK_THAT(watered.moisture->value(), WithinRel(targets.moisture.aim.value(), 1e-12));
    }
  }
}

TEST_CASE("clippings and leaves cannot meet both aims without water") {
  // The remembered composition of Cornell Composting, C/N Ratio, and what follows from it: at C:N 30 the mix is 66.171 % moist, at 60 %
  // its C:N is 36.729.
  const Pair pair = pair_of(leaves, grass, targets_of(25.0, 30.0, 35.0, 0.50, 0.60, 0.60));
  CHECK_FALSE(pair.both_right);
  CHECK_FALSE(pair.right_with_water);  // water makes it only wetter
  CHECK_THAT(pair.at_ratio_aim->carbon_to_nitrogen->value(), WithinRel(30.0, 1e-12));
  CHECK_THAT(100.0 * pair.at_ratio_aim->moisture.value(), WithinAbs(66.171, 0.0006));
  CHECK_THAT(100.0 * pair.at_moisture_aim->moisture.value(), WithinRel(60.0, 1e-12));
  CHECK_THAT(pair.at_moisture_aim->carbon_to_nitrogen->value(), WithinAbs(36.729, 0.0006));
  check_windows(leaves, grass, targets_of(25.0, 30.0, 35.0, 0.50, 0.60, 0.60));
}

TEST_CASE("windows of random pairs against a scan") {
  std::mt19937 random(20261108);
  std::uniform_real_distribution<double> any(0.0, 1.0);
  int meet = 0;
  for (int i = 0; i < 60; ++i) {
    const auto some = [&] {
      return ingredient(0.95 * any(random), 0.2 + 0.35 * any(random), 0.003 + 0.05 * any(random), 50.0 + 600.0 * any(random));
    };
    const Ingredient first = some();
    const Ingredient second = some();
    CAPTURE(i);
    check_windows(first, second, {});
    meet += pair_of(first, second, {}).right_with_water ? 1 : 0;
  }
  CHECK(meet > 5);
}

TEST_CASE("the order of a pair only turns its line round") {
  const Pair one = pair_of(leaves, grass, {});
  const Pair other = pair_of(grass, leaves, {});
  REQUIRE(one.right_ratio);
  REQUIRE(other.right_ratio);
  CHECK_THAT(other.right_ratio->low.value(), WithinAbs(1.0 - one.right_ratio->high.value(), 1e-12));
  CHECK_THAT(other.right_ratio->high.value(), WithinAbs(1.0 - one.right_ratio->low.value(), 1e-12));
  check_windows(grass, leaves, {});
}

TEST_CASE("pairs at the edge of what a pair is") {
  const Targets targets;
  SECTION("equal ratios inside the window: any proportion") {
    const Pair pair = pair_of(ingredient(0.5, 0.45, 0.015, 100.0), ingredient(0.6, 0.45, 0.015, 300.0), targets);
    CHECK(pair.right_ratio->low.value() == 0.0);
    CHECK(pair.right_ratio->high.value() == 1.0);
    CHECK(pair.both_right->high.value() == 1.0);
  }
  SECTION("equal ratios outside: none") {
    const Pair pair = pair_of(ingredient(0.5, 0.45, 0.045, 100.0), ingredient(0.6, 0.45, 0.045, 300.0), targets);
    CHECK_FALSE(pair.right_ratio);
    CHECK_FALSE(pair.at_ratio_aim);
  }
  SECTION("equal moistures") { check_windows(ingredient(0.55, 0.5, 0.01, 100.0), ingredient(0.55, 0.45, 0.04, 300.0), targets); }
  SECTION("one without nitrogen has no ratio by itself") {
    const Ingredient sawdust = ingredient(0.2, 0.5, 0.0, 200.0);
    const Pair pair = pair_of(sawdust, grass, targets);
    CHECK_FALSE(pair.everyday.front().carbon_to_nitrogen);
    CHECK(pair.right_ratio);
    check_windows(sawdust, grass, targets);
  }
  SECTION("both without nitrogen") {
    const Pair pair = pair_of(ingredient(0.2, 0.5, 0.0, 200.0), ingredient(0.8, 0.5, 0.0, 200.0), targets);
    CHECK_FALSE(pair.right_ratio);
    CHECK_FALSE(pair.right_with_water);
    CHECK_FALSE(pair.at_ratio_aim);
    CHECK(pair.right_moisture);
  }
  SECTION("neither carbon nor nitrogen") {
    const Pair pair = pair_of(ingredient(0.2, 0.0, 0.0, 1200.0), ingredient(0.8, 0.0, 0.0, 900.0), targets);
    CHECK_FALSE(pair.right_ratio);
  }
  SECTION("an aim that is all water wants none") {
    const Pair pair = pair_of(leaves, grass, targets_of(25.0, 30.0, 35.0, 0.5, 1.0, 1.0));
    CHECK(pair.everyday.front().water_wanted.value() == 0.0);
  }
  SECTION("a volume wants a bulk density") {
    Ingredient unknown = leaves;
    unknown.density.reset();
    CHECK_THROWS_AS(pair_of(unknown, grass, targets), DomainError);
    CHECK_THROWS_AS(pair_of(grass, ingredient(0.5, 0.4, 0.01, 0.0), targets), DomainError);
  }
}

TEST_CASE("a pair on a bound is inside, however the bound was computed") {
  // Both are at 25:1 and 50 % but for a rounding, on either side of it.
  const Targets targets;
  const double hair = GENERATE(1e-12, -1e-12);
  const Ingredient one = ingredient(0.5 * (1.0 + hair), 0.45, 0.45 / 25.0 * (1.0 + hair), 200.0);
  const Ingredient other = ingredient(0.5 * (1.0 + hair), 0.40, 0.40 / 25.0 * (1.0 + hair), 100.0);
  const Pair pair = pair_of(one, other, targets);
  for (const PairMix& mix : pair.everyday) {
    CHECK(holds(pair.both_right, mix.by_volume));
    CHECK(mix.water_wanted.value() == 0.0);
  }
}
