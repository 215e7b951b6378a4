#include "heapwright/process/rate.hpp"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "heapwright/process/pile_to_build.hpp"

namespace heapwright {
namespace {

constexpr double usual_air_off = 3.0;      // °C, that a weather may be off the pile's own; judged
constexpr double usual_reading_off = 3.0;  // °C, that a day's readings may be off the model's core at its right rate; judged
constexpr double widest_air_off = 10.0;    // °C
constexpr double small_air_step = 1.0;     // °C
constexpr double air_held = usual_reading_off * usual_reading_off / (usual_air_off * usual_air_off);
constexpr int air_steps = 2;                             // of Gauss and Newton
constexpr int bits = 14;                                 // of the factor's logarithm
constexpr int tries = 13;                                // over the range, before it is narrowed
constexpr double widest_telling = 3.0;                   // high over low; judged
constexpr double as_good_as_equal = 1.02;                // of a factor and an end of the range; judged
constexpr int most_days_of_fit = 365;                    // from the first; later ones tell more of the weather; judged
constexpr double widest_miss = 2.0 * usual_reading_off;  // °C, past which the model is not of this pile; judged

struct Fitting {
  const PileToBuild& pile;
  const DailyWeather& weather;
  const Materials& materials;
  const ProcessEnsemble& ensemble;
  std::vector<CoreOfDay> seen;
};

/// The core in the middle of each day that was seen, °C: least squares are of plain numbers.
std::vector<double> cores_of(const Fitting& fitting, double rate, double air_off) {
  const int last = fitting.seen.back().day;
  PileToBuild pile = fitting.pile;
  pile.rate = rate;
  DailyWeather weather(fitting.weather.begin(), fitting.weather.begin() + last + 1);
  for (DayOfWeather& day : weather) day.air = day.air + air_off * unit::kelvin;
  const PileModel model(pile, fitting.materials, fitting.ensemble);
  const Trajectory trajectory = model.trajectory(fitting.ensemble.best, weather, {last + 1, false});
  const auto degc_on = [&](std::size_t day) { return trajectory.days[day].core.celsius(); };
  std::vector<double> cores;
  for (const CoreOfDay& seen : fitting.seen) {
    const std::size_t day = static_cast<std::size_t>(seen.day);
    cores.push_back(0.5 * (degc_on(day) + degc_on(day + 1)));
  }
  return cores;
}

/// How far the model's core is from what was seen, under a rate and with the air off by so much.
struct Misses {
  double air_off = 0.0;
  std::vector<double> of_day;  ///< °C, seen less the model's
  double cost = 0.0;           ///< squares summed, and what the air's being off adds
};

Misses misses_of(const Fitting& fitting, const std::vector<double>& cores, double air_off) {
  Misses misses{air_off, {}, air_held * air_off * air_off};
  for (std::size_t i = 0; i < cores.size(); ++i) {
    misses.of_day.push_back(fitting.seen[i].core.celsius() - cores[i]);
    misses.cost += misses.of_day.back() * misses.of_day.back();
  }
  return misses;
}

/// Those where the air is off by what suits the rate best, near some guess: by steps of Gauss and Newton.
Misses least_misses(const Fitting& fitting, double rate, double guess) {
  std::vector<double> cores = cores_of(fitting, rate, guess);
  Misses misses = misses_of(fitting, cores, guess);
  for (int step = 0; step < air_steps; ++step) {
    const std::vector<double> warmer = cores_of(fitting, rate, misses.air_off + small_air_step);
    double along = -air_held * misses.air_off;
    double steep = air_held;
    for (std::size_t i = 0; i < cores.size(); ++i) {
      const double slope = (warmer[i] - cores[i]) / small_air_step;
      along += slope * misses.of_day[i];
      steep += slope * slope;
    }
    const double air_off = std::clamp(misses.air_off + along / steep, -widest_air_off, widest_air_off);
    cores = cores_of(fitting, rate, air_off);
    const Misses next = misses_of(fitting, cores, air_off);
    if (!(next.cost < misses.cost)) break;
    misses = next;
  }
  return misses;
}

/// A rate and how far the air is off, to begin from.
struct Guess {
  int rate = 0;  ///< which of the tries
  double air_off = 0.0;
  double cost = std::numeric_limits<double>::infinity();
};

double tried_log_rate(int which) {
  return std::log(slowest_rate) + which * (std::log(fastest_rate) - std::log(slowest_rate)) / (tries - 1);
}

Guess best_guess(const Fitting& fitting) {
  Guess best;
  for (int rate = 0; rate < tries; ++rate) {
    for (const double air_off : {-usual_air_off, 0.0, usual_air_off}) {
      const double cost = misses_of(fitting, cores_of(fitting, std::exp(tried_log_rate(rate)), air_off), air_off).cost;
      if (cost < best.cost) best = {rate, air_off, cost};
    }
  }
  return best;
}

double root_mean_square(const std::vector<double>& values) {
  double squares = 0.0;
  for (const double value : values) squares += value * value;
  return std::sqrt(squares / static_cast<double>(values.size()));
}

/// How many days tell something of their own, where each day's miss resembles the last one's.
double days_of_their_own(const std::vector<double>& misses) {
  double together = 0.0;
  double squares = 0.0;
  for (std::size_t i = 0; i < misses.size(); ++i) {
    squares += misses[i] * misses[i];
    if (i > 0) together += misses[i] * misses[i - 1];
  }
  const double likeness = squares > 0.0 ? std::clamp(together / squares, 0.0, 0.95) : 0.0;
  return static_cast<double>(misses.size()) * (1.0 - likeness) / (1.0 + likeness);
}

}  // namespace

std::optional<RateFit> fit_rate(const PileToBuild& pile, const DailyWeather& weather, const Materials& materials,
                                const ProcessEnsemble& ensemble, const std::vector<CoreOfDay>& seen) {
  Fitting fitting{pile, weather, materials, ensemble, {}};
  const auto is_followed = [&](const CoreOfDay& core) { return core.day >= 1 && core.day + 1 < std::ssize(weather) && core.day < horizon; };
  std::copy_if(seen.begin(), seen.end(), std::back_inserter(fitting.seen), is_followed);
  std::sort(fitting.seen.begin(), fitting.seen.end(), [](const CoreOfDay& one, const CoreOfDay& other) { return one.day < other.day; });
  while (!fitting.seen.empty() && fitting.seen.back().day > fitting.seen.front().day + most_days_of_fit) fitting.seen.pop_back();
  if (fitting.seen.size() < static_cast<std::size_t>(least_days_of_fit)) return std::nullopt;

  const Guess guess = best_guess(fitting);
  const auto cost = [&](double log_rate) { return least_misses(fitting, std::exp(log_rate), guess.air_off).cost; };
  const double below = tried_log_rate(std::max(0, guess.rate - 1));
  const double above = tried_log_rate(std::min(tries - 1, guess.rate + 1));
  const auto [log_rate, least] = boost::math::tools::brent_find_minima(cost, below, above, bits);

  RateFit fit;
  fit.factor = std::exp(log_rate);
  const Misses misses = least_misses(fitting, fit.factor, guess.air_off);
  const double misses_by = root_mean_square(misses.of_day);
  fit.air_off = misses.air_off * unit::kelvin;
  fit.misses_by = misses_by * unit::kelvin;
  fit.missed_before = root_mean_square(misses_of(fitting, cores_of(fitting, 1.0, 0.0), 0.0).of_day) * unit::kelvin;
  constexpr double aside = 0.1;
  const double curvature = (cost(log_rate + aside) + cost(log_rate - aside) - 2.0 * least) / (aside * aside);
  const double of_their_own = days_of_their_own(misses.of_day);
  const double days = static_cast<double>(misses.of_day.size());
  const double variance = misses_by * misses_by * days / std::max(1.0, days - 2.0);
  const double error = curvature > 0.0 ? std::sqrt(2.0 * variance / curvature * days / std::max(1.0, of_their_own)) : 10.0;
  const double spread = std::exp(2.0 * error);
  // Judged before the band is cut at the slowest and the fastest, where a factor says no more than that it is there or beyond.
  const bool at_an_end = fit.factor < slowest_rate * as_good_as_equal || fit.factor > fastest_rate / as_good_as_equal;
  fit.fits_none = misses_by > widest_miss;
  fit.tells = !at_an_end && !fit.fits_none && spread * spread < widest_telling;
  fit.low = std::max(slowest_rate, fit.factor / spread);
  fit.high = std::min(fastest_rate, fit.factor * spread);
  return fit;
}

}  // namespace heapwright
