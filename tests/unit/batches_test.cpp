// What bins are filled with one after the other, the compost of a yard by date, and leaves where nothing is green.

#include "heapwright/plan/batches.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "heapwright/page/pages.hpp"
#include "heapwright/plan/compost_by_date.hpp"
#include "heapwright/plan/leaves_alone.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/time/days.hpp"
#include "piles.hpp"
#include "yards.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

using yards::supply;
using yards::yard;

namespace {

using std::chrono::sys_days;

constexpr double sums = 1e-9;
constexpr std::chrono::days screening(14);  // before that time is over compost is not screened

constexpr Date day(int year, unsigned month, unsigned of_month) {
  return {std::chrono::year(year), std::chrono::month(month), std::chrono::day(of_month)};
}
const std::string warm = "[climate]\ncoldest_month = \"60 degF\"\nwarmest_month = \"80 degF\"\n";
const std::string cool = "[climate]\ncoldest_month = \"30 degF\"\nwarmest_month = \"76 degF\"\n";

std::string household(int bags, int buckets_of_scraps) {
  return supply("leaves-fall", std::to_string(bags) + " leaf-bag", "when = { months = [\"Oct\", \"Nov\"] }\nstorable = true\n") +
         supply("grass-clippings", "6 bucket", "treated = \"no\"\nwhen = { every = \"week\", from = \"Apr\", to = \"Oct\" }\n") +
         supply("kitchen-scraps", std::to_string(buckets_of_scraps) + " bucket", "when = { every = \"week\" }\n");
}
std::string bins(int count, const std::string& more = {}) {
  return "[pile]\nshape = \"bin\"\nlength = \"3 ft\"\nwidth = \"3 ft\"\nheight = \"3 ft\"\nturn_every = \"14 days\"\nkeep_moist = "
         "true\ncount = " +
         std::to_string(count) + "\n" + more;
}

}  // namespace

TEST_CASE("bins are filled one after the other, with each load once", "[batches]") {
  const std::string climate = GENERATE(as<std::string>(), warm, cool);
  const int count = GENERATE(1, 2, 3);
  const auto [bags, scraps] = GENERATE(table<int, int>({{60, 4}, {90, 2}, {40, 1}}));
  const Date built = GENERATE(day(2026, 11, 7), day(2027, 5, 8));
  CAPTURE(climate, count, bags, scraps, print_date(built));
  const Yard one = yard(household(bags, scraps) + bins(count, "built = " + print_date(built) + "\n") + climate);
  const Answer<Plan> plan = make_plan(one, built);
  REQUIRE(plan->season);
  const std::vector<CompostBatch>& batches = plan->batches;
  REQUIRE_FALSE(batches.empty());
  CHECK(batches.front().from == built);
  CHECK(batches.front().bin == 1);

  const YardForecast& first = plan->forecast->result;
  const std::vector<WeeklyLoad> loads =
      weekly_loads(*plan->season, std::max(batches.front().until, plan->season->from), one.options.settling);
  for (std::size_t i = 0; i < batches.size(); ++i) {
    const CompostBatch& batch = batches[i];
    CAPTURE(i, print_date(batch.from), print_date(batch.until));
    CHECK(batch.from <= batch.until);
    if (i > 0) CHECK(batches[i - 1].until < batch.from);
    if (batch.likely) {
      if (batch.early) CHECK(*batch.early <= *batch.likely);
      if (batch.late) CHECK(*batch.likely <= *batch.late);
      CHECK(sys_days(*batch.likely) - sys_days(batch.until) >= std::chrono::days(earliest_ready + cure));
    }
    CHECK(batch.screened.has_value() == batch.likely.has_value());
    if (i == 0) continue;
    DryMass dry;
    int there = 0;
    for (const WeeklyLoad& load : loads) {
      if (load.date < batch.from || load.date > batch.until) continue;
      dry += load.mix.dry;
      ++there;
    }
    CHECK(there > 0);
    CHECK_THAT(batch.mix.dry.value(), WithinRel(dry.value(), sums));
  }
  // Each load is in one of them, but for the last: too few to be followed, or beyond the sixth batch.
  Blend rest{{}, WaterMass(), one.options.settling};
  for (const WeeklyLoad& load : loads) {
    const auto holds = std::count_if(batches.begin(), batches.end(),
                                     [&](const CompostBatch& batch) { return batch.from <= load.date && load.date <= batch.until; });
    CHECK(holds <= 1);
    if (holds == 1) continue;
    CHECK(load.date > batches.back().until);
    rest.ingredients.insert(rest.ingredients.end(), load.blend.ingredients.begin(), load.blend.ingredients.end());
  }
  if (batches.size() < 6 && !rest.ingredients.empty()) CHECK_FALSE(is_enough_to_follow(one, mix_of(rest)));

  // A bin is taken again when what was in it is screened, and not before.
  for (std::size_t i = 0; i < batches.size(); ++i) {
    CHECK(batches[i].bin <= count);
    if (batches[i].bin == 0) continue;
    for (std::size_t j = i + 1; j < batches.size(); ++j) {
      if (batches[j].bin != batches[i].bin) continue;
      CAPTURE(i, j);
      REQUIRE(batches[i].likely);
      CHECK(sys_days(batches[j].from) >= sys_days(*batches[i].likely) + screening);
    }
  }
  // Bins that the first filling takes stay taken.
  for (std::size_t j = 1; j < batches.size(); ++j) {
    const bool is_before_first_is_done = !batches.front().likely || batches[j].from < Date(sys_days(*batches.front().likely) + screening);
    if (batches[j].bin > 0 && is_before_first_is_done) CHECK(batches[j].bin > std::min(first.piles, count));
  }
}

TEST_CASE("where nothing comes in a season the one pile is the whole of it", "[batches]") {
  const std::string on_hand = supply("leaves-fall", "14 leaf-bag") + supply("grass-clippings", "20 bucket", "treated = \"no\"\n");
  const std::string lawn = "[[lawn.zone]]\nshape = \"area\"\narea = \"1000 ft2\"\n";
  const Date april_10 = day(2027, 4, 10);
  const Answer<Plan> plan = make_plan(yard(on_hand + bins(1) + warm + lawn), april_10);
  CHECK_FALSE(plan->season);
  REQUIRE(plan->batches.size() == 1);
  const CompostBatch& pile = plan->batches.front();
  CHECK(pile.from == april_10);
  REQUIRE(pile.likely);
  REQUIRE(pile.screened);
  REQUIRE_FALSE(plan->lawn_by_date.empty());
  const LawnByDate& september = plan->lawn_by_date.front();
  REQUIRE(sys_days(*pile.likely) + screening <= sys_days(september.time.to));
  CHECK(september.own.likely == std::min(pile.screened->likely, september.needed));
  CHECK(is_positive(september.covers));
  const auto test =
      std::find_if(plan->calendar.begin(), plan->calendar.end(), [](const CalendarChore& chore) { return chore.what.id == "test"; });
  REQUIRE(test != plan->calendar.end());
  CHECK(test->from == *pile.likely);
  // Without the weather nobody knows when, but what it will cover is said.
  const Yard without = yard(on_hand + bins(1) + lawn);
  const Answer<Plan> some_day = make_plan(without, april_10);
  CHECK(some_day->batches.empty());
  const std::string screen = text_of(plan_page(some_day, without.tables.materials), Show(ShownUnits::us), Screen());
  CHECK_THAT(screen, Contains("once it is done"));
}

TEST_CASE("compost is spread once, and what lacks is bought", "[batches]") {
  std::mt19937_64 random(20270901);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  for (int some = 0; some < 80; ++some) {
    const std::string months = between(0.0, 1.0) < 0.5   ? ""
                               : between(0.0, 1.0) < 0.5 ? "months = [\"Apr\", \"Sep\"]\n"
                                                         : "months = [\"May\"]\n";
    const Yard one =
        yard("[[lawn.zone]]\nshape = \"area\"\narea = \"" + std::to_string(between(50.0, 8000.0)) + " ft2\"\n[topdressing]\ngrass = \"" +
             (between(0.0, 1.0) < 0.5 ? "cool-season" : "warm-season") + "\"\n" + months);
    const Date today = later_by(day(2026, 10, 1), static_cast<int>(between(0.0, 500.0)));
    const Topdressing spread = topdress(*one.lawn, one.topdressing, one.tables.materials, today).result;
    std::vector<CompostBatch> batches;
    Date ready = later_by(today, static_cast<int>(between(-200.0, 200.0)));
    double all_low = 0.0, all_likely = 0.0, all_high = 0.0;
    for (int i = 0; i < static_cast<int>(between(0.0, 6.0)); ++i) {
      CompostBatch batch;
      batch.from = batch.until = later_by(ready, -100);
      if (between(0.0, 1.0) < 0.8) {
        batch.likely = ready;
        const double low = between(0.01, 2.0);
        batch.screened = CompostYield{low * unit::m3, 1.5 * low * unit::m3, 2.0 * low * unit::m3};
        all_low += low;
        all_likely += 1.5 * low;
        all_high += 2.0 * low;
      }
      batches.push_back(batch);
      ready = later_by(ready, static_cast<int>(between(1.0, 200.0)));
    }
    const std::vector<LawnByDate> lawn = lawn_by_date(spread, batches, today);
    CAPTURE(some, print_date(today), months, batches.size());
    CHECK_FALSE(lawn.empty());
    double spread_low = 0.0, spread_likely = 0.0, spread_high = 0.0;
    for (std::size_t i = 0; i < lawn.size(); ++i) {
      const LawnByDate& at = lawn[i];
      CHECK(at.time.from >= today);
      CHECK(at.time.from <= at.time.to);
      if (i > 0) CHECK(lawn[i - 1].time.to < at.time.from);
      const double needed = at.needed.value();
      CHECK_THAT(at.own.likely.value() + at.to_buy.value(), WithinRel(needed, sums));
      for (const Volume& own : {at.own.low, at.own.likely, at.own.high, at.to_buy}) CHECK(own.value() >= 0.0);
      CHECK(at.own.low <= at.own.likely);
      CHECK(at.own.likely <= at.own.high);
      CHECK(at.own.high.value() <= needed * (1.0 + sums));
      CHECK(at.covers <= spread.area);
      CHECK_THAT(at.covers.value(), WithinAbs(spread.area.value() * at.own.likely.value() / needed, sums * spread.area.value()));
      spread_low += at.own.low.value();
      spread_likely += at.own.likely.value();
      spread_high += at.own.high.value();
      // No more by then than is screened two weeks before the time ends.
      double by_then = 0.0;
      for (const CompostBatch& batch : batches) {
        if (batch.likely && sys_days(*batch.likely) + screening <= sys_days(at.time.to)) by_then += batch.screened->likely.value();
      }
      CHECK(spread_likely <= by_then * (1.0 + sums) + sums);
    }
    CHECK(spread_low <= all_low * (1.0 + sums) + sums);
    CHECK(spread_likely <= all_likely * (1.0 + sums) + sums);
    CHECK(spread_high <= all_high * (1.0 + sums) + sums);
  }
}

TEST_CASE("leaves alone are shared out, and no leaf is counted twice", "[leaves]") {
  std::mt19937_64 random(20261129);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  int answered = 0, mulched = 0, molded = 0;
  for (int some = 0; some < 60; ++some) {
    const double bags = std::exp(between(std::log(0.5), std::log(120.0)));
    const double area = std::round(std::exp(between(std::log(100.0), std::log(20000.0))));
    const bool in_two = between(0.0, 1.0) < 0.3;
    const bool has_lawn = between(0.0, 1.0) < 0.8;
    const std::string when = between(0.0, 1.0) < 0.5 ? "when = { months = [\"Oct\", \"Nov\"] }\nstorable = true\n" : "";
    std::string text = supply("leaves-fall", std::to_string(bags) + " leaf-bag", when);
    if (in_two) text += supply("leaves-fall", "3 leaf-bag", "shredded = true\n");
    if (has_lawn) text += "[[lawn.zone]]\nshape = \"area\"\narea = \"" + std::to_string(area) + " ft2\"\n";
    const Date today = later_by(day(2026, 10, 2), static_cast<int>(between(0.0, 364.0)));
    const Yard one = yard(text);
    const std::optional<LeavesAlone> leaves = leaves_alone_of(one, today);
    CAPTURE(some, text, print_date(today));
    double there = 0.0;
    for (const Supply& supply : one.supplies) there += supply.mass(*on_hand(supply, today))->value();
    if (!leaves) continue;
    ++answered;
    const double all = leaves->all.mass.value();
    CHECK_THAT(all, WithinRel(there, sums));
    const double keep = leaves->keep.mass.value();
    const double mulch = leaves->mulch ? leaves->mulch->mass.value() : 0.0;
    const double mold = leaves->mold ? leaves->mold->mass.value() : 0.0;
    CHECK(keep > 0.0);
    CHECK((!leaves->mulch || mulch > 0.0));
    CHECK((!leaves->mold || mold > 0.0));
    CHECK_THAT(keep + mulch + mold, WithinRel(all, sums));
    // Half a kilogram of dry leaves a square meter, where they lie: 0.54 (Cornell, 1999).
    const double square_meters = area * 0.3048 * 0.3048;
    const double dry = mulch * (1.0 - one.supplies.front().properties().moisture.value());
    CHECK(dry <= (has_lawn ? 0.54 * square_meters * (1.0 + sums) : 0.0));
    const unsigned month = static_cast<unsigned>(today.month());
    if (month < 10) CHECK_FALSE(leaves->mulch);
    CHECK(leaves->build >= today);
    mulched += leaves->mulch ? 1 : 0;
    molded += leaves->mold ? 1 : 0;
  }
  CHECK(answered > 56);  // few leaves are no failure either
  CHECK(mulched > 2);
  CHECK(molded > 15);
}

TEST_CASE("what is no yard of leaves alone", "[leaves]") {
  const Date today = day(2026, 11, 28);
  const std::string leaves = supply("leaves-fall", "20 leaf-bag");
  CHECK(leaves_alone_of(yard(leaves), today));
  CHECK_FALSE(leaves_alone_of(yard(""), today));
  CHECK_FALSE(leaves_alone_of(yard(leaves + supply("kitchen-scraps", "1 bucket", "when = { every = \"week\" }\n")), today));
  CHECK_FALSE(leaves_alone_of(yard(leaves + supply("grass-clippings", "1 bucket")), today));
  CHECK_FALSE(leaves_alone_of(yard("[[supply]]\nfeedstock = \"leaves-fall\"\nbought = true\nprice = 2\nunit = \"1 leaf-bag\"\n"), today));
  CHECK_FALSE(has_greens_alone(yard("")));
  CHECK(has_greens_alone(yard(supply("grass-clippings", "1 bucket", "treated = \"no\"\n"))));
  CHECK_FALSE(has_greens_alone(yard(leaves + supply("grass-clippings", "1 bucket"))));
}
