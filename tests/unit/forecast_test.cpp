// What a pile will do and when it is ready: never surer than the model is, and with its reasons.
#include "heapwright/process/forecast.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/process/pile_to_build.hpp"
#include "piles.hpp"

using namespace heapwright;

namespace {

constexpr Date april_20{std::chrono::year(2027), std::chrono::month(4), std::chrono::day(20)};
constexpr Date january_15{std::chrono::year(2027), std::chrono::month(1), std::chrono::day(15)};
constexpr Date november_7{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)};
constexpr double whole_days = 0.5;  // a window's late end is rounded to days
constexpr double a_day = 1.0;       // its early end is the day in which it is reached
constexpr double exact = 1e-12;     // a few sums and products of doubles

/// Winters around freezing, warm summers.
const Weather& cool() {
  static const Weather weather = piles::year(11.5, 12.0);
  return weather;
}

PileCare moist() {
  PileCare care;
  care.turn_every = 14;
  care.wet_to = wet_basis(usual_watering);
  return care;
}

PileToBuild pile_of(const Mix& mix, const PileCare& care, Date built = april_20) { return {mix, 1.0, {}, care, {}, built}; }

Forecast forecast_of(const Mix& mix, const PileCare& care, const Weather& weather, const ProcessEnsemble& sets = piles::some_sets(),
                     Date built = april_20) {
  return forecast(pile_of(mix, care, built), weather, piles::materials(), sets);
}

/// A day in the order of days, none as later than any.
int day_or_never(std::optional<int> day) { return day.value_or(1'000'000); }

bool has(const Forecast& forecast, ForecastNote note) {
  return std::find(forecast.notes.begin(), forecast.notes.end(), note) != forecast.notes.end();
}

Mix leaves_and_clippings() { return piles::mix({{"leaves-fall", 50.0}, {"grass-clippings", 20.0}}, 0.6); }

PileCare rained_on() {
  PileCare care = moist();
  care.share_of_rain = 0.30;
  return care;
}

/// The pile of section 19 of the model, its check for programs: 300 lb of leaves, 180 lb of clippings and 98 lb of scraps, 75:13.8:11.2 of
/// 118.6 kg of dry matter.
Mix one_load() { return piles::mix({{"leaves-fall", 89.0}, {"grass-clippings", 16.3}, {"kitchen-scraps", 13.3}}, 0.548); }
/// Its weather: 11.65 − 12.77 cos.
const Weather& of_one_load() {
  static const Weather weather = piles::year(11.65, 12.77);
  return weather;
}

struct Case {
  const char* what;
  ForecastStatus status;
  Mix mix;
  PileCare care;
  Weather weather;
  Date built;
};

/// A forecast of each status.
std::vector<Case> cases() {
  return {{"in spring, moist", ForecastStatus::mature, piles::household(), moist(), cool(), april_20},
          {"leaves", ForecastStatus::mature, piles::mix({{"leaves-fall", 100.0}}, 0.55), moist(), cool(), april_20},
          {"never watered", ForecastStatus::turf_only, leaves_and_clippings(), {}, cool(), april_20},
          {"dry", ForecastStatus::never, piles::household(0.25), {}, cool(), april_20},
          {"in November", ForecastStatus::mature, one_load(), rained_on(), of_one_load(), november_7},
          {"in January", ForecastStatus::mature, piles::household(), moist(), piles::year(7.0, 12.0), january_15}};
}

/// Every window that a forecast has, for turf and mature together.
std::vector<std::pair<ReadyWindow, ReadyWindow>> windows_of(const Forecast& coming) {
  std::vector<std::pair<ReadyWindow, ReadyWindow>> windows;
  if (!coming.heats.is_open()) windows.emplace_back(coming.turf, coming.mature);
  for (const std::optional<HeatingBranch>& branch : {coming.heats.if_it_heats, coming.heats.if_not}) {
    if (branch) windows.emplace_back(branch->turf, branch->mature);
  }
  return windows;
}

void check_window(const ReadyWindow& window) {
  CHECK(day_or_never(window.early) <= day_or_never(window.likely));
  CHECK(day_or_never(window.likely) <= day_or_never(window.late));
  if (window.likely && window.late) CHECK(*window.late >= 1.7 * *window.likely - whole_days);
  for (const std::optional<int> day : {window.early, window.likely, window.late}) CHECK(day.value_or(0) <= horizon);
}

/// A third sooner, of the days on which it works.
void check_early(const Forecast& forecast, const ReadyWindow& window) {
  if (!window.likely) return;
  const auto likely = forecast.days.begin() + std::min<std::ptrdiff_t>(*window.likely, std::ssize(forecast.days));
  const auto resting = std::count_if(forecast.days.begin(), likely,
                                     [](const DayOfForecast& day) { return day.state.core < TemperaturePoint::from_celsius(10.0); });
  CHECK(window.early.value() <= 0.7 * *window.likely + static_cast<double>(resting) + a_day);
}

bool same(const ReadyWindow& one, const ReadyWindow& other) {
  return one.early == other.early && one.likely == other.likely && one.late == other.late;
}
bool is_empty(const ReadyWindow& window) { return same(window, {}); }

}  // namespace

TEST_CASE("a forecast says no more than is known", "[forecast]") {
  for (const Case& pile : cases()) {
    CAPTURE(pile.what);
    const Forecast coming = forecast_of(pile.mix, pile.care, pile.weather, piles::some_sets(), pile.built);
    CHECK(coming.status == pile.status);
    CHECK(coming.built == pile.built);
    const HeatsOrNot& heats = coming.heats;
    CHECK(heats.if_it_heats.has_value() == (heats.heating == Heating::will || heats.is_open()));
    CHECK(heats.if_not.has_value() == (heats.heating != Heating::will));
    CHECK_FALSE(heats.by_its_log);
    if (heats.is_open()) {
      CHECK(is_empty(coming.turf));
      CHECK(is_empty(coming.mature));
    } else {
      CHECK(coming.mature.likely.has_value() == (pile.status == ForecastStatus::mature));
      CHECK(coming.turf.likely.has_value() == (pile.status != ForecastStatus::never));
      check_early(coming, coming.turf);
      check_early(coming, coming.mature);
    }
    for (const auto& [turf, mature] : windows_of(coming)) {
      check_window(turf);
      check_window(mature);
      CHECK(day_or_never(turf.early) <= day_or_never(mature.early));
      CHECK(day_or_never(turf.likely) <= day_or_never(mature.likely));
      CHECK(day_or_never(turf.late) <= day_or_never(mature.late));
    }

    REQUIRE_FALSE(coming.days.empty());
    const TemperaturePoint first_air = pile.weather.on(pile.built);
    CHECK(coming.days.front().air == first_air);
    if (!heats.is_open())
      CHECK(coming.days.front().state.core.celsius() == Approx(first_air.celsius()).margin(1e-9));  // through enthalpy and back
    TemperaturePoint hottest = coming.days.front().state.core;
    for (const DayOfForecast& now : coming.days) {
      CHECK(now.core_low <= now.state.core - 10.0 * unit::kelvin);
      CHECK(now.core_high >= now.state.core + 10.0 * unit::kelvin);
      hottest = std::max(hottest, now.state.core);
      for (const double number : {now.state.core.celsius(), now.state.edge.celsius(), now.state.mean.celsius(), now.state.moisture.value(),
                                  now.state.volatile_solids_loss, now.state.respiration_worst.value(), now.state.rotted_worst,
                                  now.state.carbon_to_nitrogen.value(), now.air.celsius(), now.core_low.celsius(), now.core_high.celsius()})
        CHECK(std::isfinite(number));
    }
    CHECK(coming.peak_core == hottest);
    CHECK(coming.days.at(static_cast<std::size_t>(coming.peak_day)).state.core == hottest);

    const Finished& left = coming.finished;
    CHECK(left.mass_loss < 1.0);
    CHECK(0.0 < left.volume_loss);
    CHECK(left.volume_loss < 1.0);
    CHECK(0.0 <= left.nitrogen_loss);
    CHECK(left.nitrogen_loss < 1.0);
    CHECK(0.0 <= left.volatile_solids_loss_low);
    CHECK(left.volatile_solids_loss_low <= std::max(0.0, left.volatile_solids_loss - 0.12));
    CHECK(left.volatile_solids_loss_high >= left.volatile_solids_loss + 0.12);
    CHECK(left.volatile_solids_loss_high <= 1.0);
    CHECK(left.screened.low < left.screened.likely);
    CHECK(left.screened.likely < left.screened.high);
    CHECK(coming.filled_in_all == 1.0);
    CHECK((coming.water_given.value() > 0.0) == pile.care.wet_to.has_value());
  }
}

TEST_CASE("the likely day is the best set's, the window holds eight of ten of the others", "[forecast]") {
  const ProcessEnsemble& sets = piles::every_set();
  const PileToBuild pile = pile_of(piles::household(), moist());
  const Forecast coming = forecast(pile, cool(), piles::materials(), sets);
  REQUIRE(coming.heats.heating == Heating::will);
  const PileModel model(pile, piles::materials(), sets);
  const DailyWeather days = days_from(cool(), april_20, horizon);
  const Trajectory best = model.trajectory(sets.best, days, {});
  CHECK(coming.turf.likely == best.turf_day.value() + 21);
  CHECK(coming.mature.likely == best.mature_day.value() + 21);
  CHECK(std::ssize(coming.days) == *coming.mature.likely + 1);
  CHECK(coming.days.back().state.volatile_solids_loss == coming.finished.volatile_solids_loss);
  CHECK(1.0 - coming.days.back().state.relative_volume == Approx(coming.finished.volume_loss).epsilon(exact));
  CHECK(coming.volume == model.shape(sets.best).volume);
  CHECK(same(coming.heats.if_it_heats->mature, coming.mature));

  int inside = 0;
  int hot = 0;
  std::vector<int> hot_days;
  for (const ProcessParameters& set : sets.members) {
    const Trajectory trajectory = model.trajectory(set, days, {});
    const int day = trajectory.mature_day.value() + 21;
    inside += *coming.mature.early <= day && day <= *coming.mature.late ? 1 : 0;
    const std::optional<int> hot_day = trajectory.hot_day();
    hot += hot_day && *hot_day <= 30 ? 1 : 0;
    if (hot_day) hot_days.push_back(*hot_day);
  }
  CHECK(10 * inside >= 8 * std::ssize(sets.members));
  CHECK(coming.heats.chance == Approx(hot / 40.0).epsilon(exact));
  std::sort(hot_days.begin(), hot_days.end());
  CHECK(coming.heats.if_it_heats->hot_from.early.value() >= hot_days.front());
  CHECK(coming.heats.if_it_heats->hot_from.late.value() <= hot_days.back());
}

TEST_CASE("what is mature is fit for turf, where two sets only tell", "[forecast]") {
  // So few that one which gets far can outdo the best: the windows of both uses are then widened about different days.
  PileToBuild pile = pile_of(piles::household(0.5), moist(), std::chrono::year(2026) / 10 / 17);
  pile.share = 0.125;
  const Forecast coming = forecast(pile, piles::year(3.0, 8.0), piles::materials(), piles::some_sets());
  for (const auto& [turf, mature] : windows_of(coming)) {
    CHECK(day_or_never(turf.early) <= day_or_never(mature.early));
    CHECK(day_or_never(turf.late) <= day_or_never(mature.late));
  }
}

TEST_CASE("words of a forecast", "[forecast]") {
  CHECK(status_word(ForecastStatus::mature) == "mature");
  CHECK(status_word(ForecastStatus::turf_only) == "ready-for-turf");
  CHECK(status_word(ForecastStatus::never) == "never");
  CHECK(criterion_word(Criterion::respiration) == "respiration");
  CHECK(criterion_word(Criterion::carbon_to_nitrogen) == "carbon-to-nitrogen");
  CHECK(criterion_word(Criterion::rotted) == "rotted");
  std::vector<std::string_view> words;
  for (int note = 0; note <= static_cast<int>(ForecastNote::windrow); ++note) words.push_back(note_word(static_cast<ForecastNote>(note)));
  std::sort(words.begin(), words.end());
  CHECK_FALSE(words.front().empty());
  CHECK(std::adjacent_find(words.begin(), words.end()) == words.end());
}

TEST_CASE("a pile that is never ready says why", "[forecast]") {
  struct Never {
    ForecastNote why;
    Mix mix;
    PileCare care;
    Weather weather;
    Criterion binding;
  };
  const std::vector<Never> piles{
      {ForecastNote::too_dry, piles::household(0.25), {}, cool(), Criterion::respiration},
      {ForecastNote::too_little_nitrogen, piles::mix({{"sawdust", 100.0}}, 0.55), moist(), cool(), Criterion::carbon_to_nitrogen},
      {ForecastNote::too_little_nitrogen, piles::mix({{"cardboard", 100.0}}, 0.55), moist(), cool(), Criterion::carbon_to_nitrogen},
      {ForecastNote::too_cold, piles::household(), moist(), piles::year(-12.0, 15.0), Criterion::respiration}};
  for (const Never& pile : piles) {
    CAPTURE(note_word(pile.why), pile.mix.carbon_to_nitrogen->value());
    const Forecast coming = forecast_of(pile.mix, pile.care, pile.weather);
    CHECK(coming.status == ForecastStatus::never);
    REQUIRE_FALSE(coming.notes.empty());
    CHECK(coming.notes.front() == pile.why);
    CHECK(coming.binding == pile.binding);
    CHECK(std::ssize(coming.days) == horizon + 1);
    CHECK_FALSE(coming.turf.likely);
    CHECK_FALSE(coming.mature.likely);
    CHECK(coming.watered.has_value() == (pile.why == ForecastNote::too_dry));
    if (coming.watered) {
      CHECK(coming.watered->turf_day.value() < 180);
      CHECK(coming.watered->mature_day.value() > *coming.watered->turf_day);
    }
  }
}

TEST_CASE("wood does not pass for compost", "[forecast]") {
  // Its respiration is low from the start, and what passes the screen may have a low C:N: section 7 of the model asks what has rotted too.
  const Forecast coming = forecast_of(piles::mix({{"wood-chips", 80.0}, {"coffee-grounds", 20.0}}, 0.55), {}, piles::year(4.0, 8.0));
  for (const DayOfForecast& day : coming.days) {
    if (day.state.rotted_worst < 0.60) CHECK_FALSE(meets(day.state, turf_limits));
  }
  CHECK(coming.days.front().state.coarse > 0.5 * coming.days.front().state.volatile_solids);
  CHECK(coming.finished.left.dry.value() < 0.5 * coming.days.back().state.dry.value());
  CHECK(day_or_never(coming.turf.likely) > 180);
}

TEST_CASE("what holds a pile up longest", "[forecast]") {
  const auto binding = [](const Mix& mix) { return forecast_of(mix, moist(), cool()).binding; };
  CHECK(binding(piles::household()) == Criterion::respiration);
  CHECK(binding(piles::mix({{"leaves-fall", 100.0}}, 0.55)) == Criterion::carbon_to_nitrogen);
}

TEST_CASE("a pile without nitrogen has no C:N, and is never ready", "[forecast]") {
  Mix mix = piles::mix({{"leaves-fall", 100.0}}, 0.55);
  mix.carbon_to_nitrogen.reset();
  const Forecast coming = forecast_of(mix, moist(), cool());
  CHECK(coming.status == ForecastStatus::never);
  CHECK(coming.notes.front() == ForecastNote::too_little_nitrogen);
  CHECK(std::isinf(coming.finished.carbon_to_nitrogen.value()));
  CHECK(coming.finished.nitrogen_loss == 0.0);
}

TEST_CASE("built in the cold a pile that will hardly heat is told when it is warm enough", "[forecast]") {
  const Weather weather = piles::year(7.0, 12.0);
  REQUIRE(weather.on(january_15) < TemperaturePoint::from_celsius(-4.5));
  const Forecast coming = forecast_of(piles::household(), moist(), weather, piles::some_sets(), january_15);
  CHECK((coming.heats.heating == Heating::hardly || coming.heats.heating == Heating::not_at_all));
  CHECK(coming.heats.chance == 0.0);
  CHECK_FALSE(coming.heats.if_it_heats);
  CHECK(has(coming, ForecastNote::cold_start));
  CHECK(has(coming, ForecastNote::hardly_heats) == !(coming.peak_core > hot_core));  // in spring it may
  CHECK(has(coming, ForecastNote::freezes));
  CHECK(coming.mature.likely);
  REQUIRE(coming.warm_enough);
  REQUIRE(coming.built_in_warmth);
  REQUIRE(coming.built_in_warmth->turf_day);
  using std::chrono::days;
  using std::chrono::sys_days;
  const int waits = static_cast<int>((sys_days(*coming.warm_enough) - sys_days(january_15)).count());
  CHECK(*coming.built_in_warmth->turf_day > waits + 21);
  CHECK(weather.on(Date(sys_days(*coming.warm_enough) - days(1))) < TemperaturePoint::from_celsius(10.0));
  for (int day = 0; day < 7; ++day)
    CHECK(weather.on(Date(sys_days(*coming.warm_enough) + days(day))) >= TemperaturePoint::from_celsius(10.0));
  // It is what a pile built then gets.
  const Forecast then = forecast_of(piles::household(), moist(), weather, piles::some_sets(), *coming.warm_enough);
  REQUIRE(then.turf.likely);
  CHECK(*coming.built_in_warmth->turf_day == waits + *then.turf.likely);
}

TEST_CASE("built in warmth it heats", "[forecast]") {
  const Forecast coming = forecast_of(piles::household(), moist(), piles::year(20.0, 4.0));
  CHECK(coming.status == ForecastStatus::mature);
  CHECK(coming.heats.heating == Heating::will);
  CHECK(coming.heats.chance == 1.0);
  CHECK(coming.heats.what_would_tip.empty());
  CHECK_FALSE(has(coming, ForecastNote::cold_start));
  CHECK_FALSE(has(coming, ForecastNote::hardly_heats));
  CHECK_FALSE(coming.warm_enough);
  CHECK_FALSE(coming.built_in_warmth);
  CHECK_FALSE(has(coming, ForecastNote::freezes));
  CHECK(coming.mature.likely);
}

namespace {

/// So many sets that some heat in November, and some do not.
const ProcessEnsemble& sixteen_sets() {
  static const ProcessEnsemble ensemble = [] {
    ProcessEnsemble some = piles::every_set();
    some.members.resize(16);
    return some;
  }();
  return ensemble;
}

/// Their first hot days with the load of section 19, in November.
const DaysOrNever& hot_days() {
  static const DaysOrNever days = [] {
    const PileToBuild pile = pile_of(one_load(), rained_on(), november_7);
    const PileModel model(pile, piles::materials(), sixteen_sets());
    return in_order(model.first_hot_days(sixteen_sets().members, days_from(of_one_load(), november_7, 31), 30));
  }();
  return days;
}
std::ptrdiff_t how_many_heat() {
  return std::count_if(hot_days().begin(), hot_days().end(), [](std::optional<int> day) { return day.has_value(); });
}

/// Read cool every day.
SeenHeating cool_until(int last) {
  SeenHeating seen;
  for (int day = 1; day <= last; ++day) seen.cool_days.push_back(day);
  return seen;
}

Forecast in_november(const std::optional<SeenHeating>& seen = std::nullopt) {
  return forecast(pile_of(one_load(), rained_on(), november_7), of_one_load(), piles::materials(), sixteen_sets(), seen);
}

}  // namespace

TEST_CASE("a pile that may or may not heat has two branches and no single date", "[forecast]") {
  const Forecast coming = in_november();
  REQUIRE(how_many_heat() > 2);
  REQUIRE(how_many_heat() < 13);
  CHECK(coming.heats.is_open());
  CHECK(coming.heats.chance == Approx(static_cast<double>(how_many_heat()) / 16.0).epsilon(exact));
  CHECK(is_empty(coming.turf));
  CHECK(is_empty(coming.mature));
  const bool likelier_heats = coming.heats.chance >= 0.5;
  CHECK(has(coming, ForecastNote::core_of_those_that_heat) == likelier_heats);
  CHECK(has(coming, ForecastNote::core_of_those_that_do_not) == !likelier_heats);
  CHECK(coming.built_in_warmth.has_value() == !likelier_heats);

  REQUIRE(coming.heats.if_it_heats);
  REQUIRE(coming.heats.if_not);
  const ReadyWindow& hot = coming.heats.if_it_heats->hot_from;
  CHECK(hot.early.value() >= hot_days().front().value());
  CHECK(hot.late.value() <= 30);
  const ReadyWindow& not_hot = coming.heats.if_not->hot_from;
  CHECK(day_or_never(not_hot.early) > 30);
  CHECK(coming.heats.if_it_heats->mature.likely.value() > 100);
  CHECK(coming.heats.if_not->mature.likely.value() > 100);

  // What would tip it is told with how likely it is then, the most first.
  REQUIRE_FALSE(coming.heats.what_would_tip.empty());
  double before = 1.0;
  for (const WhatWouldTip& tip : coming.heats.what_would_tip) {
    CHECK(tip.chance >= coming.heats.chance + 0.15 - exact);
    CHECK(tip.chance <= before);
    before = tip.chance;
  }
}

TEST_CASE("a log of whether a pile got hot leaves the sets that agree", "[forecast]") {
  const double all = static_cast<double>(hot_days().size());
  SECTION("hot") {
    const Forecast coming = in_november(SeenHeating{9, {}});
    CHECK(coming.heats.by_its_log);
    CHECK(coming.heats.chance == 1.0);
    CHECK(coming.heats.heating == Heating::will);
    CHECK(coming.heats.if_it_heats);
    CHECK_FALSE(coming.heats.if_not);
    CHECK(coming.mature.likely);
    CHECK(coming.heats.what_would_tip.empty());
    CHECK_FALSE(has(coming, ForecastNote::core_of_those_that_heat));
  }
  SECTION("not in thirty days") {
    const Forecast coming = in_november(cool_until(30));
    CHECK(coming.heats.by_its_log);
    CHECK(coming.heats.chance == 0.0);
    CHECK(coming.heats.heating == Heating::hardly);
    CHECK_FALSE(coming.heats.if_it_heats);
    CHECK(coming.heats.if_not);
    CHECK(coming.mature.likely);
    CHECK(coming.heats.what_would_tip.empty());  // it is built
  }
  SECTION("not so far") {
    const int so_far = 8;
    const auto were_hot =
        std::count_if(hot_days().begin(), hot_days().end(), [&](std::optional<int> day) { return day && *day <= so_far; });
    REQUIRE(were_hot > 0);
    REQUIRE(were_hot < how_many_heat());
    const Forecast coming = in_november(cool_until(so_far));
    CHECK(coming.heats.by_its_log);
    CHECK(coming.heats.chance ==
          Approx(static_cast<double>(how_many_heat() - were_hot) / (all - static_cast<double>(were_hot))).epsilon(exact));
  }
  SECTION("a log too short to tell leaves them all") {
    const Forecast coming = in_november(cool_until(1));
    CHECK_FALSE(coming.heats.by_its_log);
    CHECK(coming.heats.chance == Approx(static_cast<double>(how_many_heat()) / all).epsilon(exact));
  }
}

TEST_CASE("a log that next to no set agrees with leaves them all", "[forecast]") {
  // In warmth all of these heat; of one that has not there is nothing better to say.
  ProcessEnsemble five = piles::every_set();
  five.members.resize(5);
  const Forecast coming = forecast(pile_of(piles::household(), moist()), piles::year(20.0, 4.0), piles::materials(), five, cool_until(30));
  CHECK_FALSE(coming.heats.by_its_log);
  CHECK(coming.heats.log_disagrees);  // and no date of it is to be told
  CHECK(coming.heats.chance == 1.0);
}

TEST_CASE("water is offered to a pile that dries and has none", "[forecast]") {
  const Forecast unwatered = forecast_of(leaves_and_clippings(), {}, cool());
  CHECK(has(unwatered, ForecastNote::dries));
  REQUIRE(unwatered.watered);
  CHECK(unwatered.watered->turf_day.value() < day_or_never(unwatered.turf.likely));

  PileCare watered;
  watered.wet_to = wet_basis(usual_watering);
  const Forecast moist = forecast_of(leaves_and_clippings(), watered, cool());
  CHECK_FALSE(moist.watered);
  REQUIRE_FALSE(moist.heats.is_open());
  CHECK(moist.turf.likely == unwatered.watered->turf_day);
  CHECK(moist.mature.likely == unwatered.watered->mature_day);
  CHECK_FALSE(forecast_of(piles::household(), ::moist(), cool()).watered);
}

TEST_CASE("more each week is counted in", "[forecast]") {
  PileToBuild pile = pile_of(piles::household(), moist());
  pile.share = 0.25;
  pile.care.feeding = Feeding{1.0, 7, 3, 10.0};
  const Forecast coming = forecast(pile, cool(), piles::materials(), piles::some_sets());
  CHECK(coming.filled_in_all == 4.0);
  CHECK(coming.finished.mass_loss > 0.0);
  CHECK(coming.finished.mass_loss < 1.0);
  const PileState& end = coming.days.back().state;
  CHECK(coming.finished.mass_loss == Approx(1.0 - end.dry.value() / (1.0 - 0.42) / pile.mix.mass.value()).epsilon(exact));
  CHECK(coming.finished.volume_loss == Approx(1.0 - end.relative_volume / 4.0).epsilon(exact));

  SECTION("but for what its room does not hold") {
    pile.room = 1.5 * coming.volume;
    CHECK(forecast(pile, cool(), piles::materials(), piles::some_sets()).filled_in_all < 4.0);
  }
}

TEST_CASE("what is left passes a screen, at the moisture of use", "[forecast]") {
  // Section 18 of the model: d = (D − coarse)(1 − 0.15), OM = (VS − coarse)/(D − coarse), 1/ρ = OM/204 + (1 − OM)/1154, moisture 0.42.
  const Mix mix = piles::mix({{"leaves-fall", 40.0}, {"grass-clippings", 40.0}, {"wood-chips", 20.0}}, 0.55);
  const Forecast coming = forecast_of(mix, moist(), cool());
  REQUIRE_FALSE(coming.heats.is_open());
  const PileState& end = coming.days.back().state;
  REQUIRE(end.coarse > 10.0 * unit::kg_organic);
  const double passes = end.dry.value() - end.coarse.value();
  const double organic = (end.volatile_solids - end.coarse).value() / passes;
  const double dry = 0.85 * passes;
  const double volume = dry * (organic / 204.0 + (1.0 - organic) / 1154.0);
  const CompostLeft& left = coming.finished.left;
  CHECK(left.dry.value() == Approx(dry).epsilon(exact));
  CHECK(left.organic.value() == Approx(organic).epsilon(exact));
  CHECK(left.volume.value() == Approx(volume).epsilon(exact));
  CHECK(left.mass.value() == Approx(dry / 0.58).epsilon(exact));
  CHECK(left.density.value() == Approx(dry / 0.58 / volume).epsilon(exact));
  CHECK(coming.finished.screened.likely == left.volume);
  CHECK(coming.finished.mass_loss == Approx(1.0 - end.dry.value() / 0.58 / mix.mass.value()).epsilon(exact));
  // No surer than the density of composts is known: by its logarithm's deviation of 0.24 nine in ten are within 1.36 times.
  CHECK(coming.finished.screened.high.value() > 1.36 * volume);
  CHECK(coming.finished.screened.low.value() < volume / 1.36);
}

TEST_CASE("a forecast tells how far it is, and comes out the same again", "[forecast]") {
  std::vector<int> told;
  const PileToBuild pile = pile_of(piles::household(), moist());
  const int sets = static_cast<int>(piles::some_sets().members.size()) + 1;
  const Forecast one = forecast(pile, cool(), piles::materials(), piles::some_sets(), std::nullopt, [&](int done, int of) {
    CHECK(of == sets);
    told.push_back(done);
  });
  std::vector<int> all;
  for (int set = 1; set <= sets; ++set) all.push_back(set);
  CHECK(told == all);

  const Forecast other = forecast(pile, cool(), piles::materials(), piles::some_sets());
  CHECK(same(one.turf, other.turf));
  CHECK(same(one.mature, other.mature));
  CHECK(one.notes == other.notes);
  REQUIRE(one.days.size() == other.days.size());
  for (std::size_t day = 0; day < one.days.size(); ++day) {
    CHECK(one.days[day].state.core == other.days[day].state.core);
    CHECK(one.days[day].state.moisture == other.days[day].state.moisture);
    CHECK(one.days[day].core_low == other.days[day].core_low);
    CHECK(one.days[day].core_high == other.days[day].core_high);
  }
  CHECK(date_of(one, 0) == april_20);
  CHECK(date_of(one, 11) == Date{std::chrono::year(2027), std::chrono::month(5), std::chrono::day(1)});
}

TEST_CASE("a forecast of nothing", "[forecast]") {
  const PileToBuild pile = pile_of(piles::household(), moist());
  ProcessEnsemble none = piles::some_sets();
  none.members.clear();
  CHECK_THROWS_AS(forecast(pile, cool(), piles::materials(), none), DomainError);
  PileToBuild tiny = pile;
  tiny.share = 0.005;
  CHECK_THROWS_AS(forecast(tiny, cool(), piles::materials(), piles::some_sets()), DomainError);
  PileToBuild empty = pile;
  empty.mix = Mix();
  CHECK_THROWS_AS(forecast(empty, cool(), piles::materials(), piles::some_sets()), DomainError);
  CHECK_THROWS_AS(PileModel(pile, piles::materials(), piles::some_sets()).trajectory(piles::some_sets().best, {}, {}), DomainError);
}
