// A log made by the model itself, with noise and a known rate: the fit finds the rate again, and the new dates hold the true one.

#include "heapwright/process/rate.hpp"

#include <catch2/catch.hpp>

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>

#include "../unit/piles.hpp"
#include "heapwright/process/pile_to_build.hpp"

using namespace heapwright;

namespace {

struct Log {
  const char* name;
  double noise_degc;     ///< of a day's mean
  double air_off_degc;   ///< how much warmer the pile's own air is than the weather's
  int gap_from, gap_to;  ///< days without readings
  double within;         ///< of the factor
};

const Log good{"hourly readings", 0.5, 0.0, 0, 0, 0.10};
const Log once_a_day{"one reading a day", 2.0, 0.0, 0, 0, 0.15};
const Log gappy{"two weeks without readings", 1.0, 0.0, 10, 24, 0.15};
const Log warm_place{"air 3 degC warmer than the weather's", 1.0, 3.0, 0, 0, 0.15};
const Log cold_place{"air 3 degC colder than the weather's", 1.0, -3.0, 0, 0, 0.15};

Weather weather() {
  MonthlyMeans means;
  for (const double celsius : {-1.0, 1.0, 6.0, 12.0, 17.0, 22.0, 24.0, 23.0, 19.0, 13.0, 7.0, 1.0})
    means.push_back(TemperaturePoint::from_celsius(celsius));
  return Weather::of_months(means);
}

DailyWeather weather_from(Date built, double off) {
  static const Weather of_place = weather();
  DailyWeather days = days_from(of_place, built, horizon);
  for (DayOfWeather& day : days) day.air = day.air + off * unit::kelvin;
  return days;
}

Trajectory trajectory_of(const PileToBuild& pile, const DailyWeather& days, int least_days) {
  return PileModel(pile, piles::materials(), piles::every_set()).trajectory(piles::every_set().best, days, {least_days});
}

PileToBuild pile_built(Date built, std::optional<int> turned) {
  PileCare care;
  care.turn_every = turned;
  care.wet_to = wet_basis(0.55);
  return {piles::household(), 1.0, std::nullopt, care, std::nullopt, built};
}

std::vector<CoreOfDay> logged(const PileToBuild& pile, const Log& log, double rate, int length, boost::random::mt19937_64& engine) {
  PileToBuild true_pile = pile;
  true_pile.rate = rate;
  const Trajectory trajectory = trajectory_of(true_pile, weather_from(pile.built, log.air_off_degc), length + 1);
  boost::random::normal_distribution<double> noise(0.0, log.noise_degc);
  std::vector<CoreOfDay> cores;
  for (int day = 0; day < length; ++day) {
    const double error = noise(engine);
    if (day >= log.gap_from && day < log.gap_to) continue;
    const std::size_t at = static_cast<std::size_t>(day);
    const double core = 0.5 * (trajectory.days[at].core.celsius() + trajectory.days[at + 1].core.celsius());
    cores.push_back({day, TemperaturePoint::from_celsius(core + error)});
  }
  return cores;
}

const std::vector<Log> logs{good, once_a_day, gappy, warm_place, cold_place};

/// A hundred logs: of piles built from April to October, turned or not, followed for a month or two, that rot at three rates.
struct Case {
  const Log* log;
  PileToBuild pile;
  double rate;
  int length;
};

std::vector<Case> hundred_cases() {
  const std::vector<std::optional<int>> habits{7, 14, std::nullopt};
  const double rates[] = {0.5, 1.0, 1.7};
  std::vector<Case> cases;
  for (unsigned i = 0; i < 100; ++i) {
    const Date built(std::chrono::year(2027), std::chrono::month(4 + i % 7), std::chrono::day(1 + (7 * i) % 28));
    cases.push_back({&logs[i % logs.size()], pile_built(built, habits[(i / 5) % habits.size()]), rates[(i / 3) % 3], i % 2 == 0 ? 30 : 60});
  }
  return cases;
}

}  // namespace

TEST_CASE("a rate is found again in logs of the model's own making, and the new dates hold the true day", "[long][rate]") {
  boost::random::mt19937_64 engine(1);
  int held = 0;
  for (const Case& one : hundred_cases()) {
    INFO(one.log->name << ", built " << print_date(one.pile.built) << ", rate " << one.rate << ", " << one.length << " days");
    const DailyWeather days = weather_from(one.pile.built, 0.0);
    const auto fit =
        fit_rate(one.pile, days, piles::materials(), piles::every_set(), logged(one.pile, *one.log, one.rate, one.length, engine));
    REQUIRE(fit);
    INFO("found " << fit->factor << ", from " << fit->low << " to " << fit->high);
    CHECK(std::abs(fit->factor / one.rate - 1.0) <= one.log->within);
    CHECK(fit->tells);

    PileToBuild true_pile = one.pile;
    true_pile.rate = one.rate;
    const Trajectory truth = trajectory_of(true_pile, weather_from(one.pile.built, one.log->air_off_degc), 0);
    PileToBuild corrected = one.pile;
    corrected.rate = fit->factor;
    const ReadyWindow window = forecast(corrected, weather(), piles::materials(), piles::some_sets()).turf;
    REQUIRE(truth.turf_day);
    const int ready = *truth.turf_day + cure;
    held += window.early && *window.early <= ready && (!window.late || ready <= *window.late) ? 1 : 0;
  }
  INFO(held << " of 100");
  CHECK(held >= 80);
}
