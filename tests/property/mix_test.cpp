// What must hold for any blend of any feedstocks. Sums of a few dozen doubles: a part in 10¹² is their rounding many times over.

#include "heapwright/mix/mix.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/supply.hpp"

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double rounding = 1e-12;

/// Every feedstock that can be mixed and poured, each way it is packed.
const std::vector<Ingredient>& pantry() {
  static const std::vector<Ingredient> all = [] {
    const Materials materials = built_in_materials();
    std::vector<Ingredient> ingredients;
    for (const Feedstock& row : *materials.feedstocks) {
      if (!row.lacks().empty()) continue;
      for (const Packing& packing : row.packings) {
        if (const auto density = row.density(packing.name))
          ingredients.push_back({{*row.properties(), density, Mass()}, row.id, row.name, packing.name});
      }
    }
    return ingredients;
  }();
  return all;
}

/// The n-th of a fixed sequence of blends: one to eight ingredients, grams to tons, some with water, some settled.
Blend blend(unsigned n) {
  std::mt19937 random(n);
  const auto within = [&](double low, double high) { return low + (high - low) * (static_cast<double>(random()) / 4294967296.0); };
  Blend blend;
  const int count = 1 + static_cast<int>(within(0.0, 8.0));
  for (int i = 0; i < count; ++i) {
    Ingredient next = pantry()[static_cast<std::size_t>(within(0.0, static_cast<double>(pantry().size())))];
    next.mass = std::pow(10.0, within(-2.0, 3.0)) * unit::kg;
    blend.ingredients.push_back(std::move(next));
  }
  if (within(0.0, 1.0) < 0.5) blend.added_water = within(0.0, 200.0) * unit::kg_water;
  if (within(0.0, 1.0) < 0.5) blend.settling = ShareOfLooseVolume::of(within(0.5, 1.0));
  return blend;
}

Blend any_blend() { return blend(GENERATE(range(0U, 300U))); }

void check_same(const Mix& a, const Mix& b, double times = 1.0) {
  CHECK_THAT(a.mass.value() * times, WithinRel(b.mass.value(), rounding));
  CHECK_THAT(a.dry.value() * times, WithinRel(b.dry.value(), rounding));
  CHECK_THAT(a.water.value() * times, WithinRel(b.water.value(), rounding));
  CHECK_THAT(a.carbon.value() * times, WithinRel(b.carbon.value(), rounding));
  CHECK_THAT(a.nitrogen.value() * times, WithinRel(b.nitrogen.value(), rounding));
  CHECK_THAT(a.organic_matter.value() * times, WithinRel(b.organic_matter.value(), rounding));
  CHECK_THAT(a.volume->value() * times, WithinRel(b.volume->value(), rounding));
  CHECK_THAT(a.moisture->value(), WithinRel(b.moisture->value(), rounding));
  CHECK_THAT(a.carbon_to_nitrogen->value(), WithinRel(b.carbon_to_nitrogen->value(), rounding));
  CHECK_THAT(a.bulk_density->value(), WithinRel(b.bulk_density->value(), rounding));
  CHECK_THAT(a.air_space->value(), WithinAbs(b.air_space->value(), rounding));  // a difference of numbers near one
}

}  // namespace

TEST_CASE("the pantry is the whole table", "[mix]") {
  // Rows that nobody measured are absent; without this the properties below might hold of nothing.
  CHECK(pantry().size() > 60);
}

TEST_CASE("a feedstock alone is itself", "[mix]") {
  for (Ingredient ingredient : pantry()) {
    CAPTURE(ingredient.id, ingredient.packing);
    ingredient.mass = 7.0 * unit::kg;
    const Mix mix = mix_of({{ingredient}, {}});
    CHECK_THAT(mix.mass.value(), WithinRel(7.0, rounding));
    CHECK_THAT(mix.moisture->value(), WithinRel(ingredient.properties.moisture.value(), rounding));
    CHECK_THAT(mix.bulk_density->value(), WithinRel(ingredient.density->value(), rounding));
    CHECK_THAT(mix.carbon_to_nitrogen->value(),
               WithinRel((ingredient.properties.carbon / ingredient.properties.nitrogen).value(), rounding));
    CHECK(mix.air_space->value() > 0.0);
    CHECK(mix.parts.front().share == ShareOfLooseVolume::of(1.0));
  }
}

TEST_CASE("what goes in is dry matter and water, and stays", "[mix]") {
  const Blend blend = any_blend();
  const Mix mix = mix_of(blend);
  double kg = blend.added_water.value();
  double m3 = 0.0;
  double shares = 0.0;
  for (const Ingredient& ingredient : blend.ingredients) {
    kg += ingredient.mass.value();
    m3 += ingredient.mass.value() / ingredient.density->value();
  }
  for (const MixPart& part : mix.parts) shares += part.share->value();
  CHECK_THAT(mix.mass.value(), WithinRel(kg, rounding));
  CHECK_THAT(mix.dry.value() + mix.water.value(), WithinRel(kg, rounding));
  CHECK_THAT(mix.volume->value(), WithinRel(m3 * blend.settling.value(), rounding));
  CHECK_THAT(shares, WithinRel(1.0, rounding));
  CHECK(mix.parts.size() == blend.ingredients.size());

  // each constituent is a part of the next
  CHECK(mix.carbon.value() <= mix.dry.value() * (1.0 + rounding));
  CHECK(mix.nitrogen.value() <= mix.dry.value() * (1.0 + rounding));
  CHECK(mix.organic_matter.value() <= mix.dry.value() * (1.0 + rounding));
}

TEST_CASE("the order of ingredients does not matter", "[mix]") {
  const Blend blend = any_blend();
  Blend shuffled = blend;
  std::mt19937 random(1);
  std::shuffle(shuffled.ingredients.begin(), shuffled.ingredients.end(), random);
  check_same(mix_of(shuffled), mix_of(blend));
}

TEST_CASE("twice as much of everything is the same mix, twice", "[mix]") {
  const Blend blend = any_blend();
  const double times = GENERATE(2.0, 1e-3, 137.0);
  Blend more = blend;
  for (Ingredient& ingredient : more.ingredients) ingredient.mass *= times;
  more.added_water *= times;
  check_same(mix_of(blend), mix_of(more), times);
}

TEST_CASE("an ingredient in two halves is the ingredient", "[mix]") {
  const Blend blend = any_blend();
  Blend split = blend;
  const Mass whole = split.ingredients.front().mass;
  split.ingredients.front().mass = 0.3 * whole;
  split.ingredients.push_back(split.ingredients.front());
  split.ingredients.back().mass = whole - split.ingredients.front().mass;
  check_same(mix_of(split), mix_of(blend));
}

TEST_CASE("none of an ingredient is no ingredient", "[mix]") {
  const Blend blend = any_blend();
  Blend with_none = blend;
  with_none.ingredients.push_back(pantry().front());
  with_none.ingredients.back().mass = Mass();
  check_same(mix_of(with_none), mix_of(blend));
  SECTION("even where nobody knows its density") {
    with_none.ingredients.back().density.reset();
    check_same(mix_of(with_none), mix_of(blend));
  }
}

TEST_CASE("C:N and moisture lie between those of the parts", "[mix]") {
  Blend blend = any_blend();
  blend.added_water = WaterMass();
  double least_ratio = std::numeric_limits<double>::infinity();
  double most_ratio = 0.0;
  double driest = 1.0;
  double wettest = 0.0;
  for (const Ingredient& ingredient : blend.ingredients) {
    const Properties& of = ingredient.properties;
    const double ratio = (of.carbon / of.nitrogen).value();
    least_ratio = std::min(least_ratio, ratio);
    most_ratio = std::max(most_ratio, ratio);
    driest = std::min(driest, of.moisture.value());
    wettest = std::max(wettest, of.moisture.value());
  }
  const Mix mix = mix_of(blend);
  CHECK(mix.carbon_to_nitrogen->value() >= least_ratio * (1.0 - rounding));
  CHECK(mix.carbon_to_nitrogen->value() <= most_ratio * (1.0 + rounding));
  CHECK(mix.moisture->value() >= driest * (1.0 - rounding));
  CHECK(mix.moisture->value() <= wettest * (1.0 + rounding));
}

TEST_CASE("water makes it wetter and heavier, fills its air, and leaves its C:N and volume", "[mix]") {
  const Blend blend = any_blend();
  Blend wetter = blend;
  wetter.added_water += 1.0 * unit::kg_water;
  const Mix before = mix_of(blend);
  const Mix after = mix_of(wetter);
  CHECK(after.moisture->value() > before.moisture->value());
  CHECK(*after.carbon_to_nitrogen == *before.carbon_to_nitrogen);
  CHECK(*after.volume == *before.volume);
  CHECK(*after.bulk_density > *before.bulk_density);
  CHECK(*after.air_space < *before.air_space);
  CHECK_THAT(before.air_space->value() - after.air_space->value(),
             WithinRel(0.001 / before.volume->value(), 1e-6));  // the difference of two near numbers
}

TEST_CASE("settling takes air, not matter", "[mix]") {
  Blend blend = any_blend();
  blend.settling = ShareOfLooseVolume::of(1.0);
  Mix loose = mix_of(blend);
  for (const double settling : {0.9, 0.7, 0.5}) {
    blend.settling = ShareOfLooseVolume::of(settling);
    const Mix settled = mix_of(blend);
    CHECK(settled.mass == loose.mass);
    CHECK(*settled.carbon_to_nitrogen == *loose.carbon_to_nitrogen);
    CHECK(*settled.volume < *loose.volume);
    CHECK(*settled.air_space < *loose.air_space);
    // Solids and water stay as large, and may be larger than the room that is left.
    CHECK_THAT((1.0 - settled.air_space->value()) * settled.volume->value(),
               WithinRel((1.0 - loose.air_space->value()) * loose.volume->value(), rounding));
    loose = settled;
  }
}

TEST_CASE("without a density there is no volume, and all else", "[mix]") {
  Blend blend = any_blend();
  const Mix poured = mix_of(blend);
  blend.ingredients.back().density.reset();
  const Mix mix = mix_of(blend);
  CHECK_FALSE(mix.volume);
  CHECK_FALSE(mix.bulk_density);
  CHECK_FALSE(mix.air_space);
  CHECK(*mix.carbon_to_nitrogen == *poured.carbon_to_nitrogen);
  CHECK(*mix.moisture == *poured.moisture);
}

TEST_CASE("nothing is a mix of nothing", "[mix]") {
  const Mix mix = mix_of({});
  CHECK(mix.mass.value() == 0.0);
  CHECK_FALSE(mix.carbon_to_nitrogen);
  CHECK_FALSE(mix.moisture);
  CHECK_FALSE(mix.bulk_density);
}
