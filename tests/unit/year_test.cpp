#include "heapwright/season/year.hpp"

#include <catch2/catch.hpp>

#include <limits>

#include "heapwright/error.hpp"

using namespace heapwright;

namespace {

using std::chrono::April;
using std::chrono::month;
using std::chrono::October;

const Volume bag = 113.0 * unit::liter;
const Volume bucket = 20.0 * unit::liter;
constexpr double weeks_in_a_month = 365.2425 / 84.0;

struct Figures {
  double moisture, carbon, ratio, density, particle;
};

/// As in the reference cases: picks inside published ranges.
YearSupply supply(const char* id, const Figures& figures, Keeping keeping) {
  YearSupply supply;
  supply.ingredient.id = supply.ingredient.name = id;
  Properties& properties = supply.ingredient.properties;
  properties.moisture = wet_basis(figures.moisture);
  properties.carbon = CarbonDryBasis::from_value(figures.carbon);
  properties.nitrogen = NitrogenDryBasis::from_value(figures.carbon / figures.ratio);
  properties.particle_density = ParticleDensity::from_value(figures.particle);
  supply.ingredient.density = figures.density * unit::kg / unit::m3;
  supply.keeping = keeping;
  return supply;
}

Mass mass_in(const YearSupply& of, double count, Volume each) { return count * each * *of.ingredient.density; }

YearSupply leaves(double bags) {
  YearSupply of = supply("leaves", {0.30, 0.48, 50, 100, 1400}, Keeping::dry);
  of.comes[9] = of.comes[10] = mass_in(of, bags / 2.0, bag);
  return of;
}

YearSupply clippings(double buckets_a_week) {
  YearSupply of = supply("clippings", {0.80, 0.44, 17, 200, 1450}, Keeping::fresh);
  for (std::size_t m = 3; m <= 9; ++m) of.comes[m] = mass_in(of, buckets_a_week * weeks_in_a_month, bucket);
  return of;
}

YearSupply scraps(Keeping keeping) {
  YearSupply of = supply("scraps", {0.72, 0.46, 16, 450, 1400}, keeping);
  of.comes.fill(mass_in(of, weeks_in_a_month, bucket));
  of.weight = 3.0;
  return of;
}

YearSupply straw() { return supply("straw", {0.12, 0.45, 80, 60, 1300}, Keeping::bought); }

/// Each month's account, and its windows.
void check_months(const YearQuestion& question, const Year& year) {
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    for (std::size_t m = 0; m < months_in_a_year; ++m) {
      const MonthOfSupply& now = year.months[m].supplies[i];
      const Mass before = year.months[(m + 11) % 12].supplies[i].kept;
      const Mass in = before + now.comes + now.bought;
      const Mass out = now.used + now.left + now.kept;
      CHECK(in.value() == Approx(out.value()).epsilon(1e-9).margin(1e-9));
      CHECK(std::min({now.used, now.left, now.kept, now.bought}) >= Mass());
    }
  }
  for (const MonthOfYear& month : year.months) {
    Blend blend;
    blend.added_water = month.water;
    for (std::size_t i = 0; i < question.supplies.size(); ++i) {
      blend.ingredients.push_back(question.supplies[i].ingredient);
      blend.ingredients.back().mass = month.supplies[i].used;
    }
    const Mix mix = mix_of(blend);
    if (mix.mass < 1e-3 * unit::kg) continue;
    CHECK(mix.carbon_to_nitrogen->value() == Approx(30.0).margin(5.0 + 1e-4));
    CHECK(mix.moisture->value() == Approx(0.55).margin(0.05 + 1e-6));
    CHECK(mix.air_space->value() >= 0.35 - 1e-6);
  }
}

Year year_of(std::vector<YearSupply> supplies, std::optional<Volume> store = {}) {
  const YearQuestion question{std::move(supplies), {}, 1.0, store};
  Year year = balance_year(question);
  check_months(question, year);
  return year;
}

}  // namespace

// The figures of these cases are those of a reference solution of the same programme by other code (HiGHS); to its six digits.

TEST_CASE("a year that begins uses nothing before it comes", "[season]") {
  YearQuestion question{{leaves(20.0), scraps(Keeping::waits), clippings(2.0)}, {}, 1.0, std::nullopt};
  const Year round = balance_year(question);
  CHECK(round.months[7].supplies[0].used.value() > 1.0);  // August has last fall's
  question.begins = std::chrono::August;
  const Year year = balance_year(question);
  check_months(question, year);
  for (const std::size_t august_or_september : {7, 8}) {
    CHECK(year.months[august_or_september].supplies[0].used.value() == Approx(0.0).margin(1e-6));  // rows hold to 1e-8 of some 100 kg
    CHECK(year.months[august_or_september].supplies[1].used.value() == Approx(0.0).margin(1e-6));
  }
  CHECK(year.months[9].supplies[0].used.value() > 1.0);
  for (const MonthOfSupply& july : year.months[6].supplies) CHECK(july.kept.value() == 0.0);
}

TEST_CASE("24 bags of leaves, clippings, scraps, and straw to be had", "[season]") {
  const Year year = year_of({leaves(24), clippings(3), scraps(Keeping::waits), straw()});
  CHECK(year.is_balanced());
  CHECK_FALSE(year.waits);
  CHECK(year.bought.value() == Approx(1.7206).margin(5e-5));
  CHECK(year.store.value() == Approx(2.2075).margin(5e-5));
}

TEST_CASE("24 bags of leaves, and nothing bought", "[season]") {
  const Year year = year_of({leaves(24), clippings(3), scraps(Keeping::waits)});
  CHECK_FALSE(year.is_balanced());
  CHECK(year.waste == Approx(49.8746).margin(5e-5));
  CHECK(year.store.value() == Approx(2.2764).margin(5e-5));
}

TEST_CASE("24 bags of leaves, and room for a cubic meter", "[season]") {
  const Year year = year_of({leaves(24), clippings(3), scraps(Keeping::waits)}, 1.0 * unit::m3);
  CHECK(year.waits);
  CHECK(year.waste == Approx(163.6768).margin(5e-5));
  CHECK(year.store.value() <= 1.0 + 1e-8);  // as LinearProgram promises
}

TEST_CASE("six bags of leaves, many clippings", "[season]") {
  CHECK(year_of({leaves(6), clippings(6), scraps(Keeping::waits)}).waste == Approx(408.4963).margin(5e-5));
  const Year bought = year_of({leaves(6), clippings(6), scraps(Keeping::waits), straw()});
  CHECK(bought.is_balanced());
  CHECK(bought.bought.value() == Approx(6.3758).margin(5e-5));
}

TEST_CASE("leaves alone wait for nothing", "[season]") {
  const Year year = year_of({leaves(24)});
  CHECK(year.is_balanced());
  CHECK(year.store.value() == Approx(0.0).margin(1e-6));
  for (const MonthOfYear& month : year.months) CHECK(month.supplies.front().used.value() == Approx(0.0).margin(1e-6));
}

TEST_CASE("more keepers or more room never waste more", "[season]") {
  double before = std::numeric_limits<double>::infinity();
  for (const double bags : {0.0, 6.0, 12.0, 24.0, 48.0}) {
    const double waste = year_of({leaves(bags), clippings(3), scraps(Keeping::fresh)}).waste;
    CHECK(waste <= before + 1e-6);
    before = waste;
  }
  before = std::numeric_limits<double>::infinity();
  for (const double room : {0.1, 0.5, 1.0, 2.0, 4.0}) {
    const double waste = year_of({leaves(24), clippings(3), scraps(Keeping::fresh)}, room * unit::m3).waste;
    CHECK(waste <= before + 1e-6);
    before = waste;
  }
}

TEST_CASE("a year wants densities and amounts", "[season]") {
  YearSupply loose = leaves(24);
  loose.ingredient.density.reset();
  CHECK_THROWS_AS(balance_year({{loose}, {}, 1.0, {}}), DomainError);
  YearSupply negative = leaves(24);
  negative.comes[0] = -1.0 * unit::kg;
  CHECK_THROWS_AS(balance_year({{negative}, {}, 1.0, {}}), DomainError);
  negative.comes[0] = std::numeric_limits<double>::quiet_NaN() * unit::kg;
  CHECK_THROWS_AS(balance_year({{negative}, {}, 1.0, {}}), DomainError);
}
