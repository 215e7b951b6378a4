// A forecast as its owner sees it: half-months of the same warmth, and what to do about it.
#include "heapwright/process/spells.hpp"

#include <catch2/catch.hpp>

#include "heapwright/process/outlook.hpp"

using namespace heapwright;

namespace {

constexpr Date day(int year, unsigned month, unsigned date) {
  return {std::chrono::year(year), std::chrono::month(month), std::chrono::day(date)};
}

/// Days of a core, moist or dry.
Forecast forecast_from(Date built, const std::vector<double>& cores, MoistureWetBasis moisture = wet_basis(0.55)) {
  Forecast forecast;
  forecast.built = built;
  forecast.status = ForecastStatus::mature;
  for (const double core : cores) {
    DayOfForecast one{};
    one.state.core = TemperaturePoint::from_celsius(core);
    one.state.moisture = moisture;
    forecast.days.push_back(one);
  }
  return forecast;
}

Forecast with_notes(ForecastStatus status, const std::vector<ForecastNote>& notes) {
  Forecast forecast;
  forecast.built = day(2027, 4, 20);
  forecast.status = status;
  forecast.heats.heating = Heating::will;
  forecast.notes = notes;
  return forecast;
}

}  // namespace

TEST_CASE("how a pile feels changes on its bounds", "[spells]") {
  CHECK(warmth_of(thawed_core) == Warmth::frozen);
  CHECK(warmth_of(thawed_core + 0.01 * unit::kelvin) == Warmth::cold);
  CHECK(warmth_of(cool_core) == Warmth::cool);
  CHECK(warmth_of(warm_core) == Warmth::warm);
  CHECK(warmth_of(hot_core - 0.01 * unit::kelvin) == Warmth::warm);
  CHECK(warmth_of(hot_core) == Warmth::hot);
}

TEST_CASE("half-months that feel the same are one spell", "[spells]") {
  std::vector<double> cores(47, 30.0);  // Nov 14 to Dec 30
  cores[20] = 60.0;                     // Dec 4
  const std::vector<Spell> spells = spells_of(forecast_from(day(2026, 11, 14), cores));
  REQUIRE(spells.size() == 3);
  CHECK(spells[0].from == day(2026, 11, 14));
  CHECK(spells[0].to == day(2026, 11, 30));
  CHECK(spells[0].warmth == Warmth::warm);
  CHECK(spells[1].from == day(2026, 12, 1));
  CHECK(spells[1].to == day(2026, 12, 15));
  CHECK(spells[1].warmth == Warmth::hot);
  CHECK(spells[1].core == TemperaturePoint::from_celsius(60.0));
  CHECK(spells[2].to == day(2026, 12, 30));
}

TEST_CASE("what is dry is one spell through warm and cold, but for frost", "[spells]") {
  std::vector<double> cores(45, 15.0);  // Sep 16 to Oct 30
  cores.insert(cores.end(), 31, 5.0);   // to Nov 30
  cores.insert(cores.end(), 31, -2.0);  // to Dec 31
  const std::vector<Spell> spells = spells_of(forecast_from(day(2026, 9, 16), cores, dry_moisture - wet_basis(0.01)));
  REQUIRE(spells.size() == 2);
  CHECK(spells[0].to == day(2026, 11, 30));
  CHECK(spells[0].warmth == Warmth::cool);
  CHECK(spells[1].warmth == Warmth::frozen);
}

TEST_CASE("what is dry stands still, however warm the air makes it", "[spells]") {
  const std::vector<Spell> dry = spells_of(forecast_from(day(2026, 7, 1), std::vector<double>(31, 30.0), dry_moisture - wet_basis(0.01)));
  REQUIRE(dry.size() == 1);
  CHECK(dry.front().dry);
  CHECK(dry.front().warmth == Warmth::cool);
  CHECK_FALSE(spells_of(forecast_from(day(2026, 7, 1), {30.0}, dry_moisture)).front().dry);
  CHECK(spells_of(forecast_from(day(2026, 7, 1), {})).empty());
}

TEST_CASE("by when a pile heats hangs on the season before it", "[spells]") {
  const auto by = [](unsigned month) { return heats_by(forecast_from(day(2026, month, 10), {})); };
  CHECK(by(7) == ByWhen::within_a_month);
  CHECK(by(8) == ByWhen::before_winter);
  CHECK(by(10) == ByWhen::before_winter);
  CHECK(by(11) == ByWhen::before_spring);
  CHECK(by(1) == ByWhen::before_spring);
  CHECK(by(2) == ByWhen::within_a_month);
  Forecast fed = forecast_from(day(2026, 10, 10), {});
  fed.heats.counted_from = days_to_heat;
  CHECK(heats_by(fed) == ByWhen::before_winter);
  fed.heats.counted_from = days_to_heat + 1;  // from mid-November on: in no time before that winter
  CHECK(heats_by(fed) == ByWhen::by_its_day);
}

TEST_CASE("of a pile that is never ready only what counts all the same is said", "[spells]") {
  const std::vector<ForecastNote> notes{ForecastNote::too_dry, ForecastNote::few_greens, ForecastNote::dries};
  const Forecast never = with_notes(ForecastStatus::never, notes);
  CHECK(why_never(never) == ForecastNote::too_dry);
  CHECK(notes_that_count(never) == std::vector{ForecastNote::few_greens});
  CHECK(notes_that_count(with_notes(ForecastStatus::mature, notes)) == notes);
}

TEST_CASE("each chore is named once, what mends a pile that is never ready first", "[spells]") {
  CHECK(chores_of(with_notes(ForecastStatus::never, {ForecastNote::too_dry, ForecastNote::dries, ForecastNote::gets_wet})) ==
        std::vector{Chore::water, Chore::dry, Chore::keep_seeds_out});
  CHECK(chores_of(with_notes(ForecastStatus::mature, {})) == std::vector{Chore::keep_seeds_out});
}

TEST_CASE("a pile stands still where water makes it ready two months sooner", "[spells]") {
  Forecast forecast = with_notes(ForecastStatus::mature, {ForecastNote::dries});
  CHECK_FALSE(stalls(forecast));
  forecast.turf.likely = 200;
  forecast.watered = Instead{140, std::nullopt};
  CHECK_FALSE(stalls(forecast));
  forecast.watered->turf_day = 139;
  CHECK(stalls(forecast));
}
