// What a heap will do and when it is ready: never surer than the model is, and with its reasons.
#include "heapwright/process/forecast.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "heaps.hpp"
#include "heapwright/error.hpp"

using namespace heapwright;
using Air = std::vector<TemperaturePoint>;
using Notes = std::vector<ForecastNote>;

namespace {

constexpr Date april_20{std::chrono::year(2027), std::chrono::month(4), std::chrono::day(20)};
constexpr int first_of_april_20 = 110;  // day of the year
constexpr int of_january_15 = 15;
constexpr double whole_days = 0.5;  // a window's ends are rounded to days

/// A smooth year, coldest on 20 January, from a day of it on.
Air year(double mean_degc, double half_swing, int first_day) {
  Air air;
  for (int day = 0; day < horizon + 366; ++day)
    air.push_back(
        TemperaturePoint::from_celsius(mean_degc - half_swing * std::cos(2.0 * std::numbers::pi * (day + first_day - 20) / 365.25)));
  return air;
}
/// Winters around freezing, warm summers.
Air cool(int first_day) { return year(11.5, 12.0, first_day); }

HeapCare moist() {
  HeapCare care;
  care.turn_every = 14;
  care.wet_to = wet_basis(usual_watering);
  return care;
}

HeapToBuild heap_of(const Mix& mix, const HeapCare& care) { return {mix, 1.0, heaps::heap_of_0_8_m3(), care, april_20}; }

Forecast forecast_of(const Mix& mix, const HeapCare& care, const Air& air, const ProcessEnsemble& sets = heaps::some_sets()) {
  return forecast(heap_of(mix, care), air, heaps::materials(), sets);
}

/// A day in the order of days, none as later than any.
int day_or_never(std::optional<int> day) { return day.value_or(1'000'000); }

bool has(const Forecast& forecast, ForecastNote note) {
  return std::find(forecast.notes.begin(), forecast.notes.end(), note) != forecast.notes.end();
}

struct Case {
  const char* what;
  ForecastStatus status;
  Mix mix;
  HeapCare care;
  Air air;
};

/// A forecast of each status.
std::vector<Case> cases() {
  return {{"in spring, moist", ForecastStatus::mature, heaps::household(), moist(), cool(first_of_april_20)},
          {"leaves", ForecastStatus::mature, heaps::mix({{"leaves-fall", 100.0}}, 0.55), moist(), cool(first_of_april_20)},
          {"dry leaves",
           ForecastStatus::turf_only,
           heaps::mix({{"leaves-fall", 50.0}, {"grass-clippings", 20.0}}, 0.1),
           {},
           cool(first_of_april_20)},
          {"dry", ForecastStatus::never, heaps::household(0.25), {}, cool(first_of_april_20)},
          {"in January", ForecastStatus::start_decides, heaps::household(), moist(), year(7.0, 12.0, of_january_15)}};
}

void check_window(const Forecast& forecast, const ReadyWindow& window) {
  CHECK(day_or_never(window.early) <= day_or_never(window.late));
  if (!window.likely) return;
  REQUIRE(window.early);
  // A third sooner, of the days on which it works.
  const auto likely = forecast.days.begin() + std::min<std::ptrdiff_t>(*window.likely, std::ssize(forecast.days));
  const auto resting = std::count_if(forecast.days.begin(), likely, [](const DayOfForecast& day) { return day.state.core_degc < 10.0; });
  CHECK(*window.early <= 0.7 * *window.likely + static_cast<double>(resting) + whole_days);
  if (window.late) CHECK(*window.late >= 1.7 * *window.likely - whole_days);
  CHECK(*window.likely <= horizon);
}

bool same(const ReadyWindow& one, const ReadyWindow& other) {
  return one.early == other.early && one.likely == other.likely && one.late == other.late;
}

}  // namespace

TEST_CASE("a forecast says no more than is known", "[forecast]") {
  for (const Case& heap : cases()) {
    CAPTURE(heap.what);
    const Forecast coming = forecast_of(heap.mix, heap.care, heap.air);
    CHECK(coming.status == heap.status);
    CHECK(coming.mature.likely.has_value() == (heap.status == ForecastStatus::mature));
    CHECK(coming.turf.likely.has_value() == (heap.status == ForecastStatus::mature || heap.status == ForecastStatus::turf_only));
    check_window(coming, coming.turf);
    check_window(coming, coming.mature);
    CHECK(day_or_never(coming.turf.early) <= day_or_never(coming.mature.early));
    CHECK(day_or_never(coming.turf.likely) <= day_or_never(coming.mature.likely));
    CHECK(day_or_never(coming.turf.late) <= day_or_never(coming.mature.late));

    REQUIRE_FALSE(coming.days.empty());
    CHECK(coming.days.front().state.core_degc == Approx(heap.air.front().celsius()).margin(1e-9));  // through enthalpy and back
    double hottest = -100.0;
    for (std::size_t day = 0; day < coming.days.size(); ++day) {
      const DayOfForecast& now = coming.days[day];
      CHECK(now.core_low_degc <= now.state.core_degc - 10.0);
      CHECK(now.core_high_degc >= now.state.core_degc + 10.0);
      hottest = std::max(hottest, now.state.core_degc);
      for (const double number :
           {now.state.core_degc, now.state.edge_degc, now.state.mean_degc, now.state.moisture, now.state.volatile_solids_loss,
            now.state.respiration_worst, now.state.carbon_to_nitrogen, now.air_degc, now.core_low_degc, now.core_high_degc})
        CHECK(std::isfinite(number));
    }
    CHECK(coming.peak_core_degc == hottest);
    CHECK(coming.days.at(static_cast<std::size_t>(coming.peak_day)).state.core_degc == hottest);

    const Finished& left = coming.finished;
    CHECK(0.0 < left.mass_loss);
    CHECK(left.mass_loss < 1.0);
    CHECK(0.0 < left.volume_loss);
    CHECK(left.volume_loss < 1.0);
    CHECK(0.0 <= left.nitrogen_loss);
    CHECK(left.nitrogen_loss < 1.0);
    CHECK(0.0 <= left.volatile_solids_loss_low);
    CHECK(left.volatile_solids_loss_low <= left.volatile_solids_loss - 0.12);
    CHECK(left.volatile_solids_loss_high >= left.volatile_solids_loss + 0.12);
    CHECK(left.volatile_solids_loss_high <= 1.0);
    CHECK(coming.filled_in_all == 1.0);
    CHECK((coming.water_given.value() > 0.0) == heap.care.wet_to.has_value());
  }
}

TEST_CASE("the likely day is the best set's, the window holds eight of ten of the others", "[forecast]") {
  const Mix mix = heaps::household();
  const Air air = cool(first_of_april_20);
  const ProcessEnsemble& sets = heaps::every_set();
  const Forecast coming = forecast_of(mix, moist(), air, sets);
  const auto course = [&](const ProcessParameters& set) {
    const HeapContents contents = contents_of(mix, heaps::materials(), sets, set);
    return run_course(Pile(set, contents, heaps::heap_of_0_8_m3(), air.front()), contents, moist(), air, 0, hourly_steps);
  };
  const Course best = course(sets.best);
  CHECK(coming.turf.likely == best.turf_day.value() + 21);
  CHECK(coming.mature.likely == best.mature_day.value() + 21);
  CHECK(std::ssize(coming.days) == *coming.mature.likely + 1);
  CHECK(coming.days.back().state.volatile_solids_loss == coming.finished.volatile_solids_loss);
  CHECK(1.0 - coming.days.back().state.relative_volume == Approx(coming.finished.volume_loss).epsilon(1e-12));

  int inside = 0;
  for (const ProcessParameters& set : sets.members) {
    const int day = course(set).mature_day.value() + 21;
    inside += *coming.mature.early <= day && day <= *coming.mature.late ? 1 : 0;
  }
  CHECK(10 * inside >= 8 * std::ssize(sets.members));
}

TEST_CASE("what is mature is fit for turf, where two sets only tell", "[forecast]") {
  // So few that one which gets far can outdo the best: the windows of both uses are then widened about different days.
  ProcessEnsemble two = heaps::every_set();
  two.members.resize(2);
  const double size = 0.1 / 0.8;
  const Mix mix = heaps::mix({{"leaves-fall", 65.0 * size}, {"grass-clippings", 20.0 * size}, {"kitchen-scraps", 15.0 * size}}, 0.5);
  HeapToBuild heap = heap_of(mix, moist());
  heap.shape = {0.1 * unit::m3, 3.9 * std::pow(size, 2.0 / 3.0) * unit::m2};
  const Forecast coming = forecast(heap, year(3.0, 8.0, 290), heaps::materials(), two);
  CHECK(day_or_never(coming.turf.early) <= day_or_never(coming.mature.early));
  CHECK(day_or_never(coming.turf.late) <= day_or_never(coming.mature.late));
}

TEST_CASE("words of a forecast", "[forecast]") {
  CHECK(status_word(ForecastStatus::mature) == "mature");
  CHECK(status_word(ForecastStatus::turf_only) == "ready-for-turf");
  CHECK(status_word(ForecastStatus::start_decides) == "start-decides");
  CHECK(status_word(ForecastStatus::never) == "never");
  CHECK(criterion_word(Criterion::respiration) == "respiration");
  CHECK(criterion_word(Criterion::carbon_to_nitrogen) == "carbon-to-nitrogen");
  std::vector<std::string_view> words;
  for (int note = 0; note <= static_cast<int>(ForecastNote::dries); ++note) words.push_back(note_word(static_cast<ForecastNote>(note)));
  std::sort(words.begin(), words.end());
  CHECK_FALSE(words.front().empty());
  CHECK(std::adjacent_find(words.begin(), words.end()) == words.end());
}

TEST_CASE("a heap that is never ready says why", "[forecast]") {
  struct Never {
    ForecastNote why;
    Mix mix;
    HeapCare care;
    Air air;
    Criterion binding;
  };
  const std::vector<Never> heaps{
      {ForecastNote::too_dry, heaps::household(0.25), {}, cool(first_of_april_20), Criterion::respiration},
      {ForecastNote::too_little_nitrogen, heaps::mix({{"sawdust", 100.0}}, 0.55), moist(), cool(first_of_april_20),
       Criterion::carbon_to_nitrogen},
      {ForecastNote::too_little_nitrogen, heaps::mix({{"cardboard", 100.0}}, 0.55), moist(), cool(first_of_april_20),
       Criterion::carbon_to_nitrogen},
      {ForecastNote::too_cold, heaps::household(), moist(), year(-12.0, 15.0, first_of_april_20), Criterion::respiration}};
  for (const Never& heap : heaps) {
    CAPTURE(note_word(heap.why));
    const Forecast coming = forecast_of(heap.mix, heap.care, heap.air);
    CHECK(coming.status == ForecastStatus::never);
    REQUIRE_FALSE(coming.notes.empty());
    CHECK(coming.notes.front() == heap.why);
    CHECK(coming.binding == heap.binding);
    CHECK(std::ssize(coming.days) == horizon + 1);
    CHECK_FALSE(coming.turf.likely);
    CHECK_FALSE(coming.mature.likely);
    CHECK(coming.watered.has_value() == (heap.why == ForecastNote::too_dry));
    if (coming.watered) {
      CHECK(coming.watered->turf_day.value() < 180);
      CHECK(coming.watered->mature_day.value() > *coming.watered->turf_day);
    }
  }
}

TEST_CASE("what holds a heap up longest", "[forecast]") {
  const auto binding = [](const Mix& mix) { return forecast_of(mix, moist(), cool(first_of_april_20)).binding; };
  CHECK(binding(heaps::household()) == Criterion::respiration);
  CHECK(binding(heaps::mix({{"leaves-fall", 100.0}}, 0.55)) == Criterion::carbon_to_nitrogen);
}

TEST_CASE("a heap without nitrogen has no C:N, and is never ready", "[forecast]") {
  Mix mix = heaps::mix({{"leaves-fall", 100.0}}, 0.55);
  mix.carbon_to_nitrogen.reset();
  const Forecast coming = forecast_of(mix, moist(), cool(first_of_april_20));
  CHECK(coming.status == ForecastStatus::never);
  CHECK(coming.notes.front() == ForecastNote::too_little_nitrogen);
  CHECK(std::isinf(coming.finished.carbon_to_nitrogen));
  CHECK(coming.finished.nitrogen_loss == 0.0);
}

TEST_CASE("built near or below freezing nobody can say when it is ready", "[forecast]") {
  const Air air = year(7.0, 12.0, of_january_15);
  REQUIRE(air.front() < TemperaturePoint::from_celsius(-4.9));
  const Forecast coming = forecast_of(heaps::household(), moist(), air);
  CHECK(coming.status == ForecastStatus::start_decides);
  CHECK(coming.notes.front() == ForecastNote::cold_start);
  for (const ReadyWindow& window : {coming.turf, coming.mature}) {
    CHECK_FALSE(window.likely);
    CHECK(window.early);
    CHECK(window.late);
  }
  REQUIRE(coming.warm_enough);
  REQUIRE(coming.built_in_warmth);
  REQUIRE(coming.built_in_warmth->turf_day);
  const int waits = static_cast<int>((std::chrono::sys_days(*coming.warm_enough) - std::chrono::sys_days(april_20)).count());
  CHECK(*coming.built_in_warmth->turf_day > waits + 21);
  CHECK(air[static_cast<std::size_t>(waits - 1)] < TemperaturePoint::from_celsius(10.0));
  for (int day = waits; day < waits + 7; ++day) CHECK(air[static_cast<std::size_t>(day)] >= TemperaturePoint::from_celsius(10.0));
  // As early as from a warm start, or earlier.
  const Air warm_first = [&] {
    Air days = air;
    days.front() = TemperaturePoint::from_celsius(15.0);
    return days;
  }();
  const Forecast warm = forecast_of(heaps::household(), moist(), warm_first);
  REQUIRE(warm.turf.likely);
  CHECK(*coming.turf.early <= *warm.turf.likely);
}

TEST_CASE("built in warmth it has a likely day", "[forecast]") {
  const Forecast coming = forecast_of(heaps::household(), moist(), year(20.0, 4.0, first_of_april_20));
  CHECK(coming.status == ForecastStatus::mature);
  CHECK_FALSE(has(coming, ForecastNote::cold_start));
  CHECK_FALSE(coming.warm_enough);
  CHECK_FALSE(coming.built_in_warmth);
  CHECK_FALSE(has(coming, ForecastNote::freezes));
  CHECK(coming.mature.likely);
}

TEST_CASE("a heap that a warm start would have saved has no reason never to be ready", "[forecast]") {
  const Forecast coming = forecast_of(heaps::household(0.5), {}, year(0.0, 12.0, first_of_april_20));
  REQUIRE(coming.status == ForecastStatus::start_decides);
  CHECK(coming.notes.front() == ForecastNote::cold_start);
  for (const ForecastNote why :
       {ForecastNote::too_dry, ForecastNote::too_wet, ForecastNote::too_little_nitrogen, ForecastNote::too_cold, ForecastNote::too_slow})
    CHECK_FALSE(has(coming, why));
}

TEST_CASE("water is offered to a heap that dries and has none", "[forecast]") {
  const Air air = cool(first_of_april_20);
  const Mix dry = heaps::mix({{"leaves-fall", 50.0}, {"grass-clippings", 20.0}}, 0.1);
  const Forecast unwatered = forecast_of(dry, {}, air);
  CHECK(has(unwatered, ForecastNote::dries));
  REQUIRE(unwatered.watered);
  CHECK(unwatered.watered->turf_day.value() < unwatered.turf.likely.value());

  HeapCare watered;
  watered.wet_to = wet_basis(usual_watering);
  const Forecast moist = forecast_of(dry, watered, air);
  CHECK_FALSE(moist.watered);
  CHECK(moist.turf.likely == unwatered.watered->turf_day);
  CHECK(moist.mature.likely == unwatered.watered->mature_day);
  CHECK_FALSE(forecast_of(heaps::household(), ::moist(), air).watered);
}

TEST_CASE("more each week is counted in", "[forecast]") {
  HeapToBuild heap = heap_of(heaps::household(), moist());
  heap.share = 0.25;
  heap.care.feeding = Feeding{1.0, 7, 3, 10.0};
  heap.shape = {0.2 * unit::m3, 1.6 * unit::m2};
  const Forecast coming = forecast(heap, cool(first_of_april_20), heaps::materials(), heaps::some_sets());
  CHECK(coming.filled_in_all == 4.0);
  CHECK(coming.finished.mass_loss > 0.0);
  CHECK(coming.finished.mass_loss < 1.0);
  const PileState& end = coming.days.back().state;
  CHECK(coming.finished.mass_loss == Approx(1.0 - end.wet_mass_kg / heap.mix.mass.value()).epsilon(1e-12));
  CHECK(coming.finished.volume_loss == Approx(1.0 - end.relative_volume / 4.0).epsilon(1e-12));
}

TEST_CASE("a forecast tells how far it is, and comes out the same again", "[forecast]") {
  std::vector<int> told;
  const HeapToBuild heap = heap_of(heaps::household(), moist());
  const Air air = cool(first_of_april_20);
  const int sets = static_cast<int>(heaps::some_sets().members.size()) + 1;
  const Forecast one = forecast(heap, air, heaps::materials(), heaps::some_sets(), [&](int done, int of) {
    CHECK(of == sets);
    told.push_back(done);
  });
  std::vector<int> all;
  for (int set = 1; set <= sets; ++set) all.push_back(set);
  CHECK(told == all);

  const Forecast other = forecast(heap, air, heaps::materials(), heaps::some_sets());
  CHECK(same(one.turf, other.turf));
  CHECK(same(one.mature, other.mature));
  CHECK(one.notes == other.notes);
  REQUIRE(one.days.size() == other.days.size());
  for (std::size_t day = 0; day < one.days.size(); ++day) {
    CHECK(one.days[day].state.core_degc == other.days[day].state.core_degc);
    CHECK(one.days[day].state.moisture == other.days[day].state.moisture);
    CHECK(one.days[day].core_low_degc == other.days[day].core_low_degc);
    CHECK(one.days[day].core_high_degc == other.days[day].core_high_degc);
  }
  CHECK(date_of(one, 0) == april_20);
  CHECK(date_of(one, 11) == Date{std::chrono::year(2027), std::chrono::month(5), std::chrono::day(1)});
}

TEST_CASE("a forecast of nothing", "[forecast]") {
  const HeapToBuild heap = heap_of(heaps::household(), moist());
  CHECK_THROWS_AS(forecast(heap, {}, heaps::materials(), heaps::some_sets()), DomainError);
  ProcessEnsemble none = heaps::some_sets();
  none.members.clear();
  CHECK_THROWS_AS(forecast(heap, cool(first_of_april_20), heaps::materials(), none), DomainError);
  HeapToBuild tiny = heap;
  tiny.shape.volume = 0.004 * unit::m3;
  CHECK_THROWS_AS(forecast(tiny, cool(first_of_april_20), heaps::materials(), heaps::some_sets()), DomainError);
}
