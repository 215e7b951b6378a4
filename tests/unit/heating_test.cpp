// Whether a pile gets hot: what counts as that, what a log of it tells, and what would tip it.
#include "heapwright/process/heating.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "heapwright/process/pile_to_build.hpp"
#include "heapwright/process/rain.hpp"
#include "piles.hpp"

using namespace heapwright;
using namespace std::chrono_literals;

namespace {

constexpr double exact = 1e-12;  // a few sums and products of doubles

/// A trajectory whose core is hot on a day and after it, and has gone on for so many.
Trajectory hot_from(std::optional<int> hot_day, int length = 200) {
  Trajectory trajectory;
  trajectory.days.resize(static_cast<std::size_t>(length));
  for (int day = 0; day < length; ++day)
    trajectory.days[static_cast<std::size_t>(day)].core =
        TemperaturePoint::from_celsius(hot_day && day >= *hot_day ? 45.001 : 45.0);  // 45 °C is not above it
  return trajectory;
}

ProcessEnsemble of_best_only() {
  ProcessEnsemble one = piles::every_set();
  one.members = {one.best};
  return one;
}

}  // namespace

TEST_CASE("heating is counted from where half of a pile is in", "[heating]") {
  const auto fed_on = [](const std::vector<int>& days, double share) {
    Trajectory trajectory;
    for (const int day : days) trajectory.fed.push_back({day, share, Mass()});
    return trajectory;
  };
  CHECK(counted_from(fed_on({}, 1.0)) == 0);                // nothing went in
  CHECK(counted_from(fed_on({7}, 1.0)) == 0);               // 1 of 2
  CHECK(counted_from(fed_on({7, 14}, 1.0)) == 7);           // 2 of 3
  CHECK(counted_from(fed_on({7, 14, 21}, 1.0)) == 7);       // 2 of 4
  CHECK(counted_from(fed_on({7, 14, 28, 35}, 1.0)) == 14);  // 3 of 5
  CHECK(counted_from(fed_on({7, 14, 28, 35}, 0.25)) == 0);  // 1 of 2
  CHECK(counted_from(fed_on({7, 14, 28, 35}, 4.0)) == 14);  // 9 of 17
}

TEST_CASE("hot within thirty days", "[heating]") {
  CHECK(heats_in_time(hot_from(0), 0));
  CHECK(heats_in_time(hot_from(30), 0));
  CHECK_FALSE(heats_in_time(hot_from(31), 0));
  CHECK_FALSE(heats_in_time(hot_from(std::nullopt), 0));
  CHECK(heats_in_time(hot_from(31), 1));
  CHECK(heats_in_time(hot_from(3), 60));
}

TEST_CASE("a trajectory agrees with a log, or does not", "[heating]") {
  struct Row {
    std::optional<int> trajectory;
    SeenHeating seen;
    bool agrees;
  };
  const int from = 10;  // to 40
  for (const Row& row : {
           Row{5, {12, {}}, true},              // both in time
           Row{40, {12, {}}, true},             //
           Row{41, {12, {}}, false},            // too late
           Row{{}, {12, {}}, false},            //
           Row{20, {41, {10, 20, 30}}, false},  // it was late itself
           Row{20, {41, {}}, true},             // nobody read it before
           Row{50, {41, {10, 20, 30}}, true},   //
           Row{{}, {41, {}}, true},             //
           Row{20, {{}, {18, 19}}, true},       // not so far
           Row{20, {{}, {19, 20}}, false},      //
           Row{{}, {{}, {20}}, true},           //
           Row{41, {{}, {20, 50, 100}}, true},  // what comes in spring says nothing
           Row{40, {{}, {20, 40}}, false},      //
           Row{40, {{}, {56, 57}}, true},       // a log that begins late
           Row{0, {{}, {}}, true},              // a log of no day
           Row{0, {{}, {0}}, false},            //
       }) {
    CAPTURE(row.trajectory.value_or(-1), row.seen.hot_day.value_or(-1), row.seen.cool_days.size());
    CHECK(agrees(hot_from(row.trajectory), from, row.seen) == row.agrees);
  }
}

TEST_CASE("what is said of a pile by how many sets heat", "[heating]") {
  // Section 19 of the model: from 0.8 most likely, to 0.2 hardly, two branches between.
  CHECK(heating_of(1.0, true) == Heating::will);
  CHECK(heating_of(0.8, true) == Heating::will);
  CHECK(heating_of(32.0 / 40.0, true) == Heating::will);
  CHECK(heating_of(31.0 / 40.0, true) == Heating::may);
  CHECK(heating_of(0.5, true) == Heating::may);
  CHECK(heating_of(9.0 / 40.0, true) == Heating::may);
  CHECK(heating_of(8.0 / 40.0, true) == Heating::hardly);
  CHECK(heating_of(0.2, true) == Heating::hardly);
  CHECK(heating_of(0.1 + 0.1, true) == Heating::hardly);
  CHECK(heating_of(3 * 0.1 - 0.1, true) == Heating::hardly);  // 0.2 and a rounding
  CHECK(heating_of(1.0 - 0.2, true) == Heating::will);
  CHECK(heating_of(0.0, true) == Heating::hardly);
  CHECK(heating_of(0.0, false) == Heating::not_at_all);
  HeatsOrNot heats;
  for (const Heating each : {Heating::will, Heating::may, Heating::hardly, Heating::not_at_all}) {
    heats.heating = each;
    CHECK(heats.is_open() == (each == Heating::may));
  }
}

TEST_CASE("words of heating", "[heating]") {
  const std::set<std::string_view> words{heating_word(Heating::will), heating_word(Heating::may), heating_word(Heating::hardly),
                                         heating_word(Heating::not_at_all)};
  CHECK(words == std::set<std::string_view>{"will", "may", "hardly", "not"});
  const std::set<std::string_view> changes{change_word(HeatingChange::half_as_much_again), change_word(HeatingChange::greener),
                                           change_word(HeatingChange::packed_closer), change_word(HeatingChange::two_weeks_earlier)};
  CHECK(changes == std::set<std::string_view>{"half-as-much-again", "greener", "packed-closer", "two-weeks-earlier"});
}

namespace {

/// A mix of the materials tables with a C:N of 27, as heavy and as moist: browns and greens each by one factor.
Mix to_27(const std::vector<std::pair<std::string, double>>& browns, const std::vector<std::pair<std::string, double>>& greens,
          double moisture) {
  struct Sum {
    double dry = 0.0;
    double excess = 0.0;  ///< carbon over 27 times the nitrogen, kg
  };
  const auto sum_of = [](const std::vector<std::pair<std::string, double>>& parts) {
    Sum sum;
    for (const auto& [name, kg] : parts) {
      const Properties made = find_feedstock(piles::materials(), name).properties().value();
      sum.dry += kg;
      sum.excess += kg * (made.carbon.value() - 27.0 * made.nitrogen.value());
    }
    return sum;
  };
  const Sum brown = sum_of(browns);
  const Sum green = sum_of(greens);
  // b/brown.dry · brown.excess + g/green.dry · green.excess = 0 with b + g as before.
  const double all = brown.dry + green.dry;
  const double per_brown = brown.excess / brown.dry;
  const double per_green = green.excess / green.dry;
  const double of_green = all * per_brown / (per_brown - per_green);
  std::vector<std::pair<std::string, double>> dry;
  for (const auto& [name, kg] : browns) dry.emplace_back(name, kg * (all - of_green) / brown.dry);
  for (const auto& [name, kg] : greens) dry.emplace_back(name, kg * of_green / green.dry);
  return piles::mix(dry, moisture);
}

/// The first number of days within which a change heats a pile that the one set of an ensemble does not heat.
std::optional<int> tipped_within(const PileToBuild& pile, HeatingChange change, const Weather& weather) {
  const ProcessEnsemble one = of_best_only();
  const auto tips = [&](int days) {
    const std::vector<WhatWouldTip> told = what_would_tip(pile, weather, piles::materials(), one, 0.0, days);
    return std::any_of(told.begin(), told.end(), [&](const WhatWouldTip& tip) { return tip.change == change && tip.chance == 1.0; });
  };
  for (int days = 0; days <= 20; ++days) {
    if (tips(days)) return days;
  }
  return std::nullopt;
}

double share_of(const std::vector<std::optional<int>>& hot_days) {
  const auto hot = std::count_if(hot_days.begin(), hot_days.end(), [](const std::optional<int>& day) { return day.has_value(); });
  return static_cast<double>(hot) / static_cast<double>(hot_days.size());
}

std::optional<int> hot_day_of(const PileToBuild& pile, const Weather& weather) {
  const ProcessEnsemble one = of_best_only();
  return PileModel(pile, piles::materials(), one).first_hot_days({one.best}, days_from(weather, pile.built, 21), 20).front();
}

PileToBuild built_in_october(const Mix& mix) {
  PileToBuild pile;
  pile.mix = mix;
  pile.care.turn_every = 14;
  pile.built = 2026y / 10 / 15;
  return pile;
}

}  // namespace

TEST_CASE("what would tip a pile is the same pile with one thing changed", "[heating]") {
  const Weather weather = piles::year(12.0, 12.0);
  const std::vector<std::pair<std::string, double>> browns{{"leaves-fall", 80.0}};
  const std::vector<std::pair<std::string, double>> greens{{"grass-clippings", 12.0}, {"kitchen-scraps", 8.0}};
  const PileToBuild pile = built_in_october(piles::mix({browns[0], greens[0], greens[1]}, 0.55));

  SECTION("half as much again") {
    PileToBuild larger = pile;
    larger.share = 1.5;
    REQUIRE(hot_day_of(larger, weather));
    CHECK(tipped_within(pile, HeatingChange::half_as_much_again, weather) == hot_day_of(larger, weather));
  }
  SECTION("packed closer") {
    PileToBuild packed = pile;
    packed.packed = 1.25;
    REQUIRE(hot_day_of(packed, weather));
    CHECK(tipped_within(pile, HeatingChange::packed_closer, weather) == hot_day_of(packed, weather));
  }
  SECTION("two weeks earlier") {
    PileToBuild earlier = pile;
    earlier.built = 2026y / 10 / 1;
    REQUIRE(hot_day_of(earlier, weather));
    CHECK(tipped_within(pile, HeatingChange::two_weeks_earlier, weather) == hot_day_of(earlier, weather));
  }
  SECTION("greener: to a C:N of 27, as heavy and as moist as before") {
    PileToBuild greener = pile;
    greener.mix = to_27(browns, greens, 0.55);
    REQUIRE(greener.mix.carbon_to_nitrogen->value() == Approx(27.0).epsilon(exact));
    REQUIRE(greener.mix.dry.value() == Approx(pile.mix.dry.value()).epsilon(exact));
    REQUIRE(hot_day_of(greener, weather));
    REQUIRE(hot_day_of(greener, weather) < hot_day_of(pile, weather).value_or(99));
    CHECK(tipped_within(pile, HeatingChange::greener, weather) == hot_day_of(greener, weather));
  }
  SECTION("greener, of leaves alone: with clippings") {
    const PileToBuild leaves = built_in_october(piles::mix({{"leaves-fall", 100.0}}, 0.55));
    PileToBuild greener = leaves;
    greener.mix = to_27({{"leaves-fall", 99.0}}, {{"grass-clippings", 1.0}}, 0.55);
    REQUIRE(greener.mix.carbon_to_nitrogen->value() == Approx(27.0).epsilon(exact));
    REQUIRE(hot_day_of(greener, weather));
    CHECK(tipped_within(leaves, HeatingChange::greener, weather) == hot_day_of(greener, weather));
  }
  SECTION("what is green enough is not made greener") {
    const PileToBuild green = built_in_october(piles::mix({{"leaves-fall", 50.0}, {"grass-clippings", 50.0}}, 0.60));
    REQUIRE(green.mix.carbon_to_nitrogen->value() < 27.0);
    REQUIRE(hot_day_of(green, weather));
    CHECK_FALSE(tipped_within(green, HeatingChange::greener, weather));
    CHECK(tipped_within(green, HeatingChange::packed_closer, weather));
  }
}

TEST_CASE("one load by the day on which it is built", "[heating]") {
  // The check for programs of section 19 of the model: shares of forty sets. Between those which heat and those which do not there may be
  // a set whose core comes to 45 °C and no further, so that a rounding may tip it.
  constexpr double a_set = 0.025 + exact;
  struct Row {
    Date built;
    double pile;
    std::optional<double> bin;  // not of 15 October, where the table has 0.85: ours is 0.78, by three sets that come to 44 °C and more
  };
  MonthlyMeans means;
  for (const double celsius : {-0.947, 0.247, 4.358, 10.497, 16.948, 21.981, 24.220, 23.040, 18.791, 12.612, 6.176, 1.219})
    means.push_back(TemperaturePoint::from_celsius(celsius));  // of 11.65 − 12.77 cos(2π (t − 20)/365.25)
  MonthlyRain rain;
  for (const int days : {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}) rain.push_back(0.0028 * days * unit::m);
  const Weather weather = Weather::of_months(means, rain);
  PileToBuild pile;
  pile.mix = piles::mix({{"leaves-fall", 88.45}, {"grass-clippings", 16.33}, {"kitchen-scraps", 13.335}}, 0.548);
  pile.care.turn_every = 14;
  pile.care.wet_to = wet_basis(0.55);
  PileDescription bin;
  bin.shape = PileShape::bin;
  bin.length = bin.width = bin.height = 4.0 * 0.3048 * unit::m;
  const auto chance = [&](const std::optional<PileDescription>& lies) {
    pile.pile = lies;
    pile.care.share_of_rain = share_of_rain(lies).likely;
    const PileModel model(pile, piles::materials(), piles::every_set());
    const DailyWeather days = days_from(weather, pile.built, 31);
    const auto& sets = piles::every_set().members;
    return share_of(model.first_hot_days(sets, days, 30));
  };
  for (const Row& row : {Row{2026y / 10 / 15, 0.95, {}}, Row{2026y / 11 / 7, 0.65, 0.50}, Row{2026y / 11 / 15, 0.38, 0.25}}) {
    pile.built = row.built;
    CHECK(std::abs(chance(std::nullopt) - row.pile) <= a_set);
    if (row.bin) CHECK(std::abs(chance(bin) - *row.bin) <= a_set);
  }
}

TEST_CASE("the larger a pile and the warmer the air, the more sets heat", "[heating]") {
  // Section 15 of the model, within 0.1: a larger pile also dries and cools in its own way.
  ProcessEnsemble some = piles::every_set();
  some.members.resize(20);
  const auto chance = [&](double share, double warmer) {
    PileToBuild pile = built_in_october(piles::household());
    pile.share = share;
    const PileModel model(pile, piles::materials(), some);
    const DailyWeather days = piles::steady(8.0 + warmer, 31);
    return share_of(model.first_hot_days(some.members, days, 30));
  };
  double before = 0.0;
  for (const double share : {0.3, 0.5, 0.8, 1.3, 2.0}) {
    CAPTURE(share, before);
    CHECK(chance(share, 0.0) >= before - 0.1);
    before = chance(share, 0.0);
  }
  CHECK(chance(0.3, 0.0) < chance(2.0, 0.0));
  before = 0.0;
  for (const double warmer : {-4.0, -2.0, 0.0, 4.0, 8.0}) {
    CAPTURE(warmer, before);
    CHECK(chance(0.6, warmer) >= before - 0.1);
    before = chance(0.6, warmer);
  }
  CHECK(chance(0.6, -4.0) < chance(0.6, 8.0));
}

TEST_CASE("what helps little is not told, nor is anything where all heat", "[heating]") {
  const Weather weather = piles::year(12.0, 12.0);
  const PileToBuild pile = built_in_october(piles::household());
  const ProcessEnsemble one = of_best_only();
  REQUIRE(hot_day_of(pile, weather));
  const auto shown = [&](double chance) { return what_would_tip(pile, weather, piles::materials(), one, chance, 20).size(); };
  CHECK(shown(0.85) > 0);  // by 0.15
  CHECK(shown(0.86) == 0);
  CHECK(shown(1.0) == 0);
  CHECK(what_would_tip(built_in_october(piles::household(0.2)), weather, piles::materials(), one, 0.0, 20).empty());
}

TEST_CASE("days that none counts as later than any", "[heating]") {
  CHECK(in_order({5, {}, 3, {}, 4}) == DaysOrNever{3, 4, 5, {}, {}});
  CHECK(middle_of({}) == std::nullopt);
  CHECK(middle_of({3, 4, 5}) == 4);
  CHECK(middle_of({3, 4, 5, 6}) == 5);
  CHECK(middle_of({3, {}, {}}) == std::nullopt);
  DaysOrNever forty;
  for (int day = 1; day <= 40; ++day) forty.emplace_back(day);
  const ReadyWindow most = middle_eight_tenths(forty);  // without four at either end
  CHECK(most.early == 5);
  CHECK(most.likely == 21);
  CHECK(most.late == 36);
  forty[36].reset();
  forty[37].reset();
  forty[38].reset();
  forty[39].reset();
  CHECK(middle_eight_tenths(forty).late == 36);
  forty[35].reset();
  CHECK(middle_eight_tenths(forty).late == std::nullopt);
  const ReadyWindow none = middle_eight_tenths({});
  CHECK((!none.early && !none.likely && !none.late));
}

TEST_CASE("a window of readiness", "[heating]") {
  Trajectory works;
  works.days.resize(400);
  for (PileState& day : works.days) day.core = TemperaturePoint::from_celsius(20.0);

  SECTION("holds eight of ten sets, cured") {
    // 100 days and the cure are 121: 0.7 times are 85, 1.7 times 206.
    const ReadyWindow wide = ready_window(works, 100, {20, 50, 60, 80, 90, 100, 120, 200, 300, 350});
    CHECK(wide.early == 50 + 21);
    CHECK(wide.likely == 121);
    CHECK(wide.late == 300 + 21);
  }
  SECTION("is no narrower than the model is known to miss") {
    const ReadyWindow narrow = ready_window(works, 100, {99, 100, 101});
    CHECK(narrow.early == 85);
    CHECK(narrow.likely == 121);
    CHECK(narrow.late == 206);
  }
  SECTION("no rest in the cold makes it sooner ready") {
    Trajectory rests = works;
    for (std::size_t day = 10; day < 70; ++day) rests.days[day].core = TemperaturePoint::from_celsius(9.9);
    // It works on 61 of 121 days, of which 0.7 times are 42.7: ten before its rest, 33 after it.
    CHECK(ready_window(rests, 100, {100}).early == 70 + 33);
  }
  SECTION("nor does what went in last get ready in less than a fortnight and its cure") {
    Trajectory fed = works;
    fed.fed = {{7, 1.0, Mass()}, {70, 1.0, Mass()}};
    CHECK(ready_window(fed, 100, {100}).early == 70 + 14 + 21);
    CHECK(ready_window(fed, 100, {20}).early == 20 + 21);  // by a set that is
  }
  SECTION("sets that are never ready leave it open") {
    const ReadyWindow open = ready_window(works, 100, {90, 100, {}});
    CHECK(open.early == 85);
    CHECK_FALSE(open.late);
    const ReadyWindow never = ready_window(works, std::nullopt, {90, {}, {}});
    CHECK(never.early == 90 + 21);
    CHECK_FALSE(never.likely);
    CHECK_FALSE(never.late);
  }
  SECTION("nothing of it is beyond the horizon") {
    Trajectory longer = works;
    longer.days.resize(1096, longer.days.front());
    const ReadyWindow late = ready_window(longer, 1000, {1000});
    CHECK(late.early == 715);  // 0.7 times 1021
    CHECK(late.likely == 1021);
    CHECK_FALSE(late.late);
    CHECK_FALSE(ready_window(longer, 1080, {1080}).likely);
  }
  SECTION("whatever the sets and the trajectory") {
    std::mt19937 random(5);
    for (int any = 0; any < 300; ++any) {
      Trajectory trajectory = works;
      for (PileState& day : trajectory.days) day.core = TemperaturePoint::from_celsius(random() % 3 == 0 ? 5.0 : 30.0);
      DaysOrNever sets;
      for (int set = 0; set < 12; ++set)
        sets.push_back(random() % 6 == 0 ? std::nullopt : std::optional(14 + static_cast<int>(random() % 360)));
      const int likely = 14 + static_cast<int>(random() % 360);
      const ReadyWindow window = ready_window(trajectory, likely, sets);
      REQUIRE(window.early);
      CHECK(window.likely == likely + 21);
      CHECK(*window.early <= *window.likely);
      CHECK(*window.early >= 14);
      if (window.late) CHECK(*window.late >= std::lround(1.7 * *window.likely));
      const auto within = std::count_if(sets.begin(), sets.end(), [&](std::optional<int> day) {
        return day && *window.early <= *day + 21 && *day + 21 <= window.late.value_or(horizon);
      });
      const auto never = std::count(sets.begin(), sets.end(), std::nullopt);
      CHECK(within + (window.late ? 0 : never) >= 10);  // of twelve, but for one at either end
    }
  }
}
