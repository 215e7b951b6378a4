// The year of a yard after its pile: what is left lasts as long as it says, and nothing is used that is not there.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "heapwright/plan/loaded.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/plan/season_of_yard.hpp"
#include "heapwright/recipe/verdict.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/time/days.hpp"
#include "heapwright/time/month.hpp"
#include "yards.hpp"

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

using yards::supply;
using yards::yard;

namespace {

using std::chrono::sys_days;

constexpr double sums = 1e-9;
// The months come from a linear programme whose rows hold to 1e-7 of their scale.
constexpr double programme = 1e-6;

constexpr Date day(int year, unsigned month, unsigned of_month) {
  return {std::chrono::year(year), std::chrono::month(month), std::chrono::day(of_month)};
}

std::string leaves(double bags) {
  return supply("leaves-fall", std::to_string(bags) + " leaf-bag", "when = { months = [\"Oct\", \"Nov\"] }\nstorable = true\n");
}
const std::string clippings =
    supply("grass-clippings", "6 bucket", "treated = \"no\"\nwhen = { every = \"week\", from = \"Apr\", to = \"Oct\" }\n");
const std::string scraps = supply("kitchen-scraps", "1 bucket", "when = { every = \"week\" }\n");
std::string bin(Date built) {
  return "[pile]\nshape = \"bin\"\nlength = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\nbuilt = " + print_date(built) + "\n";
}

std::size_t place(const YardSeason& season, int later) {
  return (static_cast<unsigned>(season.from.month()) - 1 + static_cast<std::size_t>(later)) % months_in_a_year;
}

/// Yards whose piles are built through the year, with more and less of each thing.
struct Tried {
  std::string text;
  Date built;
};
Tried tried(std::mt19937_64& random) {
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  const Date built(sys_days(day(2026, 10, 1)) + std::chrono::days(static_cast<int>(between(0.0, 365.0))));
  std::string text = leaves(between(4.0, 60.0));
  if (between(0.0, 1.0) < 0.8) text += scraps;
  if (between(0.0, 1.0) < 0.7) text += clippings;
  if (between(0.0, 1.0) < 0.3) text += supply("straw", "2 straw-bale");
  if (between(0.0, 1.0) < 0.3) text += supply("coffee-grounds", "4 bucket");
  return {text + bin(built), built};
}

constexpr int tries = 20;

}  // namespace

TEST_CASE("what the pile has, what the year uses and what it leaves are what was there", "[season]") {
  std::mt19937_64 random(20261201);
  int after_pile = 0, cut_short = 0;
  for (int i = 0; i < 3 * tries; ++i) {
    const Tried of = tried(random);
    CAPTURE(i, of.text);
    const Yard one = yard(of.text);
    const Answer<Recipe> recipe = recipe_in_pile(one, of.built);
    if (!has_size(recipe.result)) continue;
    const InPile in = in_pile_of(recipe.result, of.built);
    const YardSeason season = season_of_yard(one, of.built, in).result;
    REQUIRE(season.after_pile);
    ++after_pile;
    cut_short += season.scraps_only ? 1 : 0;
    for (std::size_t s = 0; s < season.supplies.size(); ++s) {
      const Supply& supply = season.supplies[s];
      if (season.question.supplies[s].keeping != Keeping::dry) continue;
      const double had = supply.mass(*on_hand(supply, of.built))->value();
      const double in_pile = in.of_supplies.count(supply.number) > 0 ? in.of_supplies.at(supply.number).value() : 0.0;
      CHECK(in_pile <= had * (1.0 + sums));
      double comes_later = 0.0, used = 0.0, left = 0.0, all = 0.0;
      for (int later = 0; later < static_cast<int>(months_in_a_year); ++later) {
        const MonthOfSupply& at = season.year.months[place(season, later)].supplies[s];
        if (later > 0) comes_later += at.comes.value();
        used += at.used.value();
        left += at.left.value();
        all += at.comes.value();
        if (later >= season.months) CHECK_THAT(at.used.value(), WithinAbs(0.0, programme * had + programme));  // the season is over
      }
      CHECK_THAT(in_pile + season.year.months[place(season, 0)].supplies[s].comes.value(), WithinAbs(had, sums * had));
      CHECK_THAT(in_pile + used + left, WithinAbs(had + comes_later, programme * (had + comes_later)));
      // Nothing is used before it comes: the store is empty when the season begins.
      const double before = season.year.months[place(season, -1 + static_cast<int>(months_in_a_year))].supplies[s].kept.value();
      CHECK_THAT(before, WithinAbs(0.0, programme * all + programme));
    }
  }
  CHECK(after_pile > tries);
  CHECK(cut_short > 3);
}

TEST_CASE("the loads of each week are those of their month", "[season]") {
  std::mt19937_64 random(20261202);
  for (int i = 0; i < tries; ++i) {
    const Tried of = tried(random);
    CAPTURE(i, of.text);
    const Yard one = yard(of.text);
    const Answer<Recipe> recipe = recipe_in_pile(one, of.built);
    if (!has_size(recipe.result)) continue;
    const YardSeason season = season_of_yard(one, of.built, in_pile_of(recipe.result, of.built)).result;
    const std::vector<WeeklyLoad> loads = weekly_loads(season, of.built, one.options.settling);
    for (std::size_t n = 0; n < loads.size(); ++n) {
      CHECK(loads[n].date > of.built);
      CHECK(loads[n].date <= season.until);
      CHECK((sys_days(loads[n].date) - sys_days(of.built)).count() % 7 == 0);
      if (n > 0) CHECK(loads[n - 1].date < loads[n].date);
    }
    for (int later = 0; later < season.months; ++later) {
      const auto month = std::chrono::year_month(season.from.year(), season.from.month()) + std::chrono::months(later);
      const Date first = std::max(Date(month / 1), season.from);
      const Date last = std::min(Date(month / std::chrono::last), season.until);
      const double there = static_cast<double>((sys_days(last) - sys_days(first)).count() + 1);
      for (std::size_t s = 0; s < season.supplies.size(); ++s) {
        const double used = season.year.months[place(season, later)].supplies[s].used.value();
        double in = 0.0;
        int count = 0;
        for (const WeeklyLoad& load : loads) {
          if (load.date < first || load.date > last) continue;
          in += load.blend.ingredients[s].mass.value();
          ++count;
        }
        // Each load is seven days' worth of what its month has. So many weeks, whole ones, are off what is there of a month by less than
        // one week; of the first months the day of the pile, and of three days or less a tenth of a month is counted.
        const double week = used * std::min(1.0, 7.0 / std::max(there, 0.1 * days_in_month(last)));
        CAPTURE(later, used, in, count, there);
        CHECK(std::abs(in - used) <= week * (1.0 + sums) + programme * used);
        CHECK_THAT(in, WithinAbs(count * week, sums * used + week * count * 1.0 / there));  // the day itself counts for either side
      }
    }
  }
}

TEST_CASE("browns run out within the season", "[season]") {
  std::mt19937_64 random(20261203);
  int told = 0;
  for (int i = 0; i < tries; ++i) {
    const Tried of = tried(random);
    CAPTURE(i, of.text);
    const Yard one = yard(of.text);
    for (const int after : {0, 45, 150}) {
      const Date today(sys_days(of.built) + std::chrono::days(after));
      const YardSeason season = season_of(one, today).result;
      CHECK(season.from <= season.until);
      for (const KeptDry& kept : season.kept_dry) {
        CHECK(is_positive(kept.most.mass));
        if (!kept.runs_out || !season.after_pile) continue;
        ++told;
        CHECK(*kept.runs_out <= season.until);
        CHECK(*kept.runs_out >= season.from);
      }
      for (const WeekOfSeason& week : season.weeks) {
        CHECK(week.first <= week.last);
        if (season.after_pile) CHECK(week.last <= season.until);
      }
    }
  }
  CHECK(told > tries / 4);
}

TEST_CASE("where browns do not last all scraps go in as long as they do, and no longer", "[season]") {
  const Date november_7 = day(2026, 11, 7);
  int cut_short = 0;
  for (double bags = 2.0; bags <= 34.0; bags += 2.0) {
    for (const std::string& greens : {scraps, scraps + clippings}) {
      CAPTURE(bags, greens);
      const Yard one = yard(leaves(bags) + greens);
      const InPile nothing{november_7, {}};
      const YardSeason season = season_of_yard(one, november_7, nothing).result;
      if (!season.scraps_only) continue;
      ++cut_short;
      const Supply& of = season.supplies[1];
      REQUIRE(of.feedstock.id == "kitchen-scraps");
      double comes = 0.0, left = 0.0;
      for (int later = 0; later < season.months; ++later) {
        const MonthOfSupply& at = season.year.months[place(season, later)].supplies[1];
        comes += at.comes.value();
        left += at.left.value();
      }
      CHECK(left <= 0.02 * comes + programme);
      // A bucket a week from the first day to the last. The year has twelve months of a 365th part each day; its first month is a part too,
      // which counts as a whole one when quarters are taken off its last.
      const double days = static_cast<double>((sys_days(season.until) - sys_days(season.from)).count() + 1);
      const double a_day = of.mass(*of.amount)->value() / 7.0;
      constexpr double quarter_of_a_month = 8.0;  // days, to which it is told
      CHECK(std::abs(comes - days * a_day) <= quarter_of_a_month * a_day);

      // A quarter of a month more cannot be had.
      YearQuestion more = season.question;
      const double months = [&] {
        double whole = 0.0;
        for (int later = 0; later < season.months; ++later) {
          const std::size_t m = place(season, later);
          const double full = share_in_month(of, std::chrono::month(static_cast<unsigned>(m) + 1)) * of.mass(*of.amount)->value();
          const double first =
              later == 0 ? (days_in_month(november_7) + 1.0 - static_cast<unsigned>(november_7.day())) / days_in_month(november_7) : 1.0;
          whole += season.year.months[m].supplies[1].comes.value() / (first * full);
        }
        return whole;
      }();
      CHECK_THAT(4.0 * months, WithinAbs(std::round(4.0 * months), 1e-6));
      for (int later = 0; later < 12; ++later) {
        const std::size_t m = place(season, later);
        const double full = share_in_month(of, std::chrono::month(static_cast<unsigned>(m) + 1)) * of.mass(*of.amount)->value();
        const double first =
            later == 0 ? (days_in_month(november_7) + 1.0 - static_cast<unsigned>(november_7.day())) / days_in_month(november_7) : 1.0;
        more.supplies[1].comes[m] = std::clamp(months + 0.25 - later, 0.0, 1.0) * first * full * unit::kg;
      }
      const Year longer = balance_year(more);
      double all = 0.0, out = 0.0;
      for (const MonthOfYear& month : longer.months) {
        all += month.supplies[1].comes.value();
        out += month.supplies[1].left.value();
      }
      CHECK(out > 0.02 * all * (1.0 - programme));
    }
  }
  CHECK(cut_short > 5);
}

TEST_CASE("more leaves never make browns run out earlier", "[season]") {
  for (const Date built : {day(2026, 11, 7), day(2027, 2, 20), day(2027, 5, 8)}) {
    for (const std::string& greens : {scraps, scraps + clippings}) {
      std::optional<Date> before;
      double bags_before = 0.0;
      for (double bags = 3.0; bags <= 60.0; bags += 3.0) {
        const Yard one = yard(leaves(bags) + greens);
        const YardSeason season = season_of_yard(one, built, InPile{built, {}}).result;
        CAPTURE(print_date(built), greens, bags, bags_before);
        if (season.kept_dry.empty()) continue;
        const std::optional<Date> runs_out = season.kept_dry.front().runs_out;
        if (before && runs_out) {
          CAPTURE(print_date(*before), print_date(*runs_out));
          CHECK(*runs_out >= *before);
        }
        if (runs_out) before = runs_out;
        bags_before = bags;
      }
      CHECK(before);
    }
  }
}

TEST_CASE("the plain year of a yard without a pile is as it was", "[season]") {
  for (const Date today : {day(2026, 11, 28), day(2027, 4, 1), day(2027, 7, 1)}) {
    const Yard one = yard(leaves(24.0) + clippings + scraps);
    const Answer<YardSeason> plain = season_of_yard(one, today);
    CHECK_FALSE(plain->after_pile);
    CHECK(plain->months == 12);
    CHECK_FALSE(plain->scraps_only);
    CHECK(json_of_season(season_of(one, today), one.tables.materials) == json_of_season(plain, one.tables.materials));
    // All of a year's leaves, in their months, and all that is fresh.
    double comes = 0.0, used = 0.0, left = 0.0;
    for (const MonthOfYear& month : plain->year.months) {
      comes += month.supplies[0].comes.value();
      used += month.supplies[0].used.value();
      left += month.supplies[0].left.value();
    }
    CHECK_THAT(comes, WithinRel(one.supplies[0].mass(*one.supplies[0].amount)->value(), sums));
    CHECK_THAT(used + left, WithinRel(comes, programme));
  }
}

TEST_CASE("the year of a pile that stands is that of its plan, though leaves or clippings are all that is on hand", "[season]") {
  const std::string loads = "[[load]]\ndate = 2026-10-02\nfeedstock = \"kitchen-scraps\"\namount = \"40 kg\"\n";
  for (const std::string& on_hand : {leaves(36.0), clippings}) {
    for (const std::string& stands : {loads, loads + bin(day(2026, 10, 2)), bin(day(2026, 10, 2)) + "standing = true\n"}) {
      CAPTURE(on_hand, stands);
      const Yard one = yard(on_hand + stands);
      const Date today = day(2027, 4, 1);
      const Answer<Plan> plan = make_plan(one, today);
      REQUIRE(plan->stands);
      REQUIRE(plan->season);
      const YardSeason alone = season_of(one, today).result;
      CHECK(alone.after_pile == plan->season->after_pile);
      CHECK(alone.until == plan->season->until);
      for (std::size_t m = 0; m < months_in_a_year; ++m)
        CHECK(alone.year.months[m].supplies[0].comes == plan->season->year.months[m].supplies[0].comes);
    }
  }
}

TEST_CASE("nothing is borrowed from leaves that have not fallen yet", "[season]") {
  // In August all of last fall's leaves are in the pile; the new ones come in October.
  const Date august_15 = day(2027, 8, 15);
  const Yard one = yard(leaves(24.0) + scraps + clippings);
  const Supply& of = one.supplies[0];
  const InPile all_of_it{august_15, {{of.number, *of.mass(*of.amount)}}};
  const YardSeason season = season_of_yard(one, august_15, all_of_it).result;
  REQUIRE(season.after_pile);
  for (const int later : {0, 1}) {
    const MonthOfSupply& at = season.year.months[place(season, later)].supplies[0];
    CAPTURE(later);
    CHECK_THAT(at.used.value(), WithinAbs(0.0, 1e-6));
    CHECK_THAT(at.comes.value(), WithinAbs(0.0, 1e-6));
  }
}
