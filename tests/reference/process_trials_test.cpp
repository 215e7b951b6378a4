// The heap model against published trials: what the best set gives of each, what was observed, and which figures are known to be outside.
//
// `predicted` and the band were reckoned by an independent program of the same equations: the best set, and the middle eight tenths of
// 150 sets drawn about it. Those trials say how they ended, seldom how they were run: volumes, densities and moistures are assumed, and
// stand in the functions below.
#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>
#include <limits>

#include "heapwright/process/course.hpp"
#include "process_runs.hpp"

using namespace heapwright;

namespace {

using Figures = std::map<std::string, double>;
constexpr double never = std::numeric_limits<double>::infinity();
constexpr double days_a_month = 365.25 / 12.0;

std::vector<PileState> days_of(const runs::Run& run, const ProcessParameters& p) {
  std::vector<PileState> days;
  Pile pile = run.pile(p);
  for (int day = 0; day <= run.days; ++day) {
    days.push_back(pile.state());
    run.events(pile, p, day);
    pile.live_a_day(run.air(day), hourly_steps);
  }
  return days;
}

double first_day(const std::vector<PileState>& days, const std::function<bool(const PileState&)>& holds) {
  const auto found = std::find_if(days.begin() + earliest_ready, days.end(), holds);
  return found == days.end() ? never : static_cast<double>(found - days.begin());
}
/// Trials call a heap stable by a sample of the whole.
double stable_day(const std::vector<PileState>& days) {
  return first_day(days, [](const PileState& now) { return now.respiration_mean <= mature_limits.respiration; });
}
double ready_day(const std::vector<PileState>& days) {
  return cure + first_day(days, [](const PileState& now) { return meets(now, mature_limits); });
}
double peak(const std::vector<PileState>& days, int until) {
  double hottest = 0.0;
  for (int day = 0; day <= until; ++day) hottest = std::max(hottest, days.at(static_cast<std::size_t>(day)).core_degc);
  return hottest;
}

/// A sample held at 50 °C and 60 % moisture in free air for 43 days, as in a temperature-controlled laboratory. Both pools then decay
/// by first order and nothing else happens, so they are reckoned here in closed form from the set's figures: a heap held at 50 °C by a
/// trick would also dry. Without the start-up lag: the predicted figures come out so, and with it lie 1.2 d behind.
void laboratory_mix(const ProcessParameters& p, const std::string& name, double leaves, Figures& figures) {
  constexpr double days = 43.0, celsius = 50.0, moisture = 0.60;
  const HeapContents mix =
      runs::contents(p, {{RottingMaterial::leaves, leaves}, {RottingMaterial::grass, 1.0 - leaves}}, 1.0, moisture / (1.0 - moisture));
  const auto warmth = [&p](double t) {
    return (t - p.Tmax) * (t - p.Tmin) * (t - p.Tmin) /
           ((p.Topt - p.Tmin) * ((p.Topt - p.Tmin) * (t - p.Topt) - (p.Topt - p.Tmax) * (p.Topt + p.Tmin - 2.0 * t)));
  };
  const double age = days * warmth(celsius) / warmth(37.0) / (1.0 + std::exp(7.0622 - 17.684 * moisture));
  const double fast = mix.fast.value() * std::exp(-p.kF * age);
  const double slow = mix.slow.value() * std::exp(-p.kS * age);
  const double before = mix.fast.value() + mix.slow.value() + mix.inert.value();
  const double after = fast + slow + mix.inert.value();
  figures[name + " loss"] = 1.0 - after / before;
  figures[name + " respiration"] = p.kap * 1000.0 * p.cC * (p.kF * fast + p.kS * slow) / after;
}

/// What is left of dry matter when all that can rot has.
double residue(const ProcessParameters& p, const std::vector<runs::Part>& parts) {
  const HeapContents mix = runs::contents(p, parts, 1.0, 1.0);
  return 1.0 - mix.fast.value() - mix.slow.value();
}

/// The fed bin of the reference runs, as open as a heap.
void fed_bin(const ProcessParameters& p, Figures& figures) {
  runs::Run bin = runs::all().at("R5");
  bin.cover = 1.0;
  const std::vector<PileState> days = days_of(bin, p);
  const double put_in = bin.wet_kg * (1.0 + bin.fed_each_day * bin.last_feed);
  figures["bin peak"] = peak(days, bin.days);
  figures["bin C:N"] = days.back().carbon_to_nitrogen;
  figures["bin mass loss"] = 1.0 - days.back().wet_mass_kg / put_in;
  figures["bin stable"] = stable_day(days);
}

/// 60 m³ at 15 °C, turned and wetted weekly. Density and moisture are not stated: 400 kg/m³ and 50 % give all three predicted figures.
void trimmings_heap(const ProcessParameters& p, Figures& figures) {
  const runs::Run heap{{{RottingMaterial::yard_trimmings, 1.0}},
                       60.0,
                       runs::heap_surface(60.0),
                       1.0,
                       24000.0,
                       0.50,
                       0,
                       15.0,
                       7,
                       133,
                       0.50,
                       0.0,
                       133,
                       0.0,
                       0};
  const std::vector<PileState> days = days_of(heap, p);
  figures["trimmings stable"] = stable_day(days);
  figures["trimmings respiration"] = days.at(27).respiration_mean;
  figures["trimmings C:N"] = days.at(133).carbon_to_nitrogen;
}

/// 20 m³ at 25 °C, wetted to 60 % at weekly turnings. Three parts of manure to one of straw (C:N 23), 450 kg/m³ and 65 % are not
/// stated: they give all four predicted figures.
void manure_windrow(const ProcessParameters& p, Figures& figures) {
  const runs::Run heap{{{RottingMaterial::manure, 0.75}, {RottingMaterial::straw, 0.25}},
                       20.0,
                       runs::heap_surface(20.0),
                       1.0,
                       9000.0,
                       0.65,
                       0,
                       25.0,
                       7,
                       120,
                       0.60,
                       0.0,
                       120,
                       0.0,
                       0};
  const std::vector<PileState> days = days_of(heap, p);
  const PileState& end = days.at(84);
  figures["windrow peak"] = peak(days, 28);
  figures["windrow volume loss"] = 1.0 - end.relative_volume;
  figures["windrow density"] = end.wet_mass_kg / days.front().wet_mass_kg / end.relative_volume;
  figures["windrow stable"] = stable_day(days);
}

/// Leaf windrows built 16 November and heaps of 0.8 m³ built 20 April, both in New Jersey's seasons. What is not stated of them is
/// what gives the predicted figures, and those for heaps built in July and October.
void finish_times(const ProcessParameters& p, Figures& figures) {
  const auto months = [&p](const runs::Run& run) { return ready_day(days_of(run, p)) / days_a_month; };
  runs::Run leaves = runs::all().at("R4");
  leaves.days = 500;
  figures["leaves, every 14 d"] = months(leaves);
  leaves.turn_every = 7;
  figures["leaves, every 7 d"] = months(leaves);

  runs::Run home = runs::all().at("R1");
  figures["home passive"] = months(home);
  home.turn_every = 14;
  home.last_turn = 364;
  home.moisture = 0.55;
  home.wet_to = 0.52;
  figures["home active"] = months(home);
  home.turn_every = 3;
  home.last_turn = 87;
  home.moisture = 0.57;
  home.wet_to = 0.55;
  home.rain_mm = 0.5;
  figures["home hot"] = months(home);
  figures["autumn"] = ready_day(days_of(runs::all().at("R3"), p));
}

Figures figures_of(const ProcessParameters& p) {
  using enum RottingMaterial;
  Figures figures;
  laboratory_mix(p, "leaves", 1.0, figures);
  laboratory_mix(p, "leaves and grass 2:1", 2.0 / 3.0, figures);
  laboratory_mix(p, "leaves and grass 1:2", 1.0 / 3.0, figures);
  figures["residue of food"] = residue(p, {{food, 1.0}});
  figures["residue of food and leaves"] = residue(p, {{food, 0.6}, {leaves, 0.4}});  // not stated; gives the predicted figure
  fed_bin(p, figures);
  trimmings_heap(p, figures);
  manure_windrow(p, figures);
  finish_times(p, figures);
  return figures;
}

struct Range {
  double low;
  double high;
};

struct Observed {
  std::string figure;
  double predicted;           ///< by the independent program
  double digit;               ///< of the last place it is printed to
  Range band;                 ///< likewise
  Range accepted;             ///< published, or taken from it as the source says
  std::string known_outside;  ///< why; empty where it is inside
};

const std::vector<Observed> observed{
    // Yard Waste Composting, Compost Science & Utilization (1993; abstract, the year from memory): cellulose lost 61, 74, 78 %,
    // hemicellulose
    // 57, 79, 82 %, acid-insoluble matter 40, 49, 42 %, all three stable. Losses of the whole derived from those; stable up to 5 is ours.
    {"leaves loss", 0.447, 0.001, {0.393, 0.499}, {0.44, 0.54}, ""},
    {"leaves respiration", 3.73, 0.01, {2.55, 4.87}, {0.5, 5.0}, ""},
    {"leaves and grass 2:1 loss", 0.515, 0.001, {0.457, 0.569}, {0.50, 0.62}, ""},
    {"leaves and grass 2:1 respiration", 3.59, 0.01, {2.61, 4.56}, {0.5, 5.0}, ""},
    {"leaves and grass 1:2 loss", 0.583, 0.001, {0.504, 0.668}, {0.56, 0.68}, ""},
    {"leaves and grass 1:2 respiration", 3.40, 0.01, {2.37, 4.56}, {0.5, 5.0}, ""},
    // Eklind and Kirchmann, Bioresource Technology 74:115 (2000; abstract): 22 to 63 % of the dry matter remain.
    {"residue of food", 0.358, 0.001, {0.294, 0.446}, {0.22, 0.63}, ""},
    {"residue of food and leaves", 0.408, 0.001, {0.37, 0.469}, {0.22, 0.63}, ""},
    // Karnchanawong and Suriyanon, Resources, Conservation and Recycling 55:548 (2011; abstract): 24 to 57 °C, C:N 14.8 to 16.0, 59 to 62 %
    // of the mass lost, stable on day 56 to 91. A peak from 48 °C is accepted.
    {"bin peak", 47.0, 0.1, {43.6, 50.4}, {48.0, 57.0}, "a degree too cool"},
    {"bin C:N", 15.9, 0.1, {14.4, 18.5}, {14.8, 16.0}, ""},
    {"bin mass loss", 0.617, 0.001, {0.542, 0.715}, {0.59, 0.62}, ""},
    {"bin stable", 90.0, 1.0, {78.0, never}, {56.0, 91.0}, ""},
    // Brewer and Sullivan, Compost Science & Utilization 11:96 (2003; abstract): high respiration for 27 d, stable from day 70 to 133,
    // final
    // C:N 12. The windows of respiration and C:N are our tolerances.
    {"trimmings stable", 74.0, 1.0, {51.0, 110.0}, {70.0, 133.0}, ""},
    {"trimmings respiration", 14.0, 0.1, {8.92, 20.3}, {5.5, 14.0}, ""},
    {"trimmings C:N", 13.7, 0.1, {11.0, 17.6}, {10.5, 14.0}, ""},
    // Abbassi, Jordan (abstract): 65 to 70 °C in the first 4 weeks, 12 weeks in all, 40 to 50 % of the volume lost, 15 % denser. Up to 30 %
    // is accepted, and any finish within the 12 weeks.
    {"windrow peak", 69.2, 0.1, {67.6, 70.3}, {65.0, 70.0}, ""},
    {"windrow volume loss", 0.499, 0.001, {0.425, 0.584}, {0.40, 0.50}, ""},
    {"windrow density", 1.02, 0.01, {0.871, 1.23}, {1.0, 1.3}, ""},
    {"windrow stable", 39.0, 1.0, {27.9, 54.2}, {14.0, 84.0}, ""},
    // New Jersey's leaf composting manual (Strom and Finstein), months: 4 to 6 at the intermediate level, 3 to 4 at the high one; the
    // columns
    // are inferred from its text. A month and a half a month longer are accepted.
    {"leaves, every 14 d", 5.26, 0.01, {4.27, 7.67}, {4.0, 7.0}, ""},
    {"leaves, every 7 d", 5.32, 0.01, {3.58, 7.83}, {3.0, 4.5}, "leaves wait for a C:N of 25, however often they are turned"},
    // Solana Center, months: 6 to 18 left alone, 5 to 6 turned, 3 to 4 hot. From 4 and from 2.5 are accepted.
    {"home passive", 4.60, 0.01, {4.07, 5.62}, {6.0, 18.0}, "heaps built in spring are ready too soon"},
    {"home active", 3.55, 0.01, {2.99, 4.34}, {4.0, 6.0}, "heaps built in spring are ready too soon"},
    {"home hot", 3.52, 0.01, {2.82, 4.41}, {2.5, 4.0}, ""},
    // Advice to gardeners, the source not kept: a heap of 20 October is usable in late spring; 5 June is day 228.
    {"autumn", 272.0, 1.0, {246.0, 294.0}, {150.0, 228.0}, "a heap built in autumn waits frozen: six weeks late"},
};

/// Between the two nearest, as the bands were.
double quantile(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  const double place = share * static_cast<double>(values.size() - 1);
  const auto below = static_cast<std::size_t>(place);
  const double part = place - static_cast<double>(below);
  if (part == 0.0) return values.at(below);
  return (1.0 - part) * values.at(below) + part * values.at(below + 1);
}

}  // namespace

TEST_CASE("the best set gives what was predicted of published trials", "[process][reference][trials]") {
  const Figures figures = figures_of(built_in_ensemble().best);
  CHECK(figures.size() == observed.size());
  for (const Observed& row : observed) {
    CAPTURE(row.figure, row.known_outside);
    const double value = figures.at(row.figure);
    // Half a unit of the last place printed.
    CHECK(value == Approx(row.predicted).margin(0.5 * row.digit).epsilon(0));
    // By the places printed, which is how the windows are given too: yard trimmings breathe 14.00 on day 27, at the edge of theirs.
    const double printed = row.digit * std::round(value / row.digit);
    const double rounding = 1e-9 * printed;
    CHECK((printed >= row.accepted.low - rounding && printed <= row.accepted.high + rounding) == row.known_outside.empty());
  }
}

TEST_CASE("the ensemble's forty sets spread as the hundred and fifty that the bands are from", "[process][reference][trials]") {
  // A tenth or nine tenths of n normal draws is known to √(0.1 · 0.9/n)/0.1755 standard deviations (0.1755 is the density there): 0.27 for
  // 40, 0.14 for 150, 0.304 for their difference. The band is 2.563 wide, so three deviations of the difference are 0.356 of it.
  constexpr double three_deviations = 0.356;
  std::map<std::string, std::vector<double>> spread;
  for (const ProcessParameters& member : built_in_ensemble().members) {
    for (const auto& [figure, value] : figures_of(member)) spread[figure].push_back(value);
  }
  for (const Observed& row : observed) {
    CAPTURE(row.figure);
    CHECK(spread.at(row.figure).size() == 40);
    const bool ends = std::isfinite(row.band.high);
    const double width = ends ? row.band.high - row.band.low : 2.0 * (row.predicted - row.band.low);
    const double low = quantile(spread.at(row.figure), 0.1);
    const double high = quantile(spread.at(row.figure), 0.9);
    CHECK(low == Approx(row.band.low).margin(three_deviations * width).epsilon(0));
    CHECK(std::isfinite(high) == ends);
    if (ends) CHECK(high == Approx(row.band.high).margin(three_deviations * width).epsilon(0));
  }
}
