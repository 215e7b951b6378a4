// A thermometer's log against a rule of time and temperature.

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "heapwright/exercise/draw_problems.hpp"
#include "heapwright/exercise/tidy.hpp"

namespace heapwright {
namespace {

using std::chrono::seconds;

/// Degrees of one scale, a day apart.
using DailyDegrees = std::vector<int>;

/// Rules that a log of a week or two can meet: so many days at so high a temperature, and nothing else.
std::vector<TimeTemperatureRule> short_rules(const Criteria& criteria) {
  std::vector<TimeTemperatureRule> rules;
  for (const TimeTemperatureRule& rule : criteria.rules) {
    if (rule.turnings == 0 && !rule.burst) rules.push_back(rule);
  }
  return rules;
}

TemperatureScale scale_of_sheet(const SheetUnits& units) { return units.metric ? TemperatureScale::celsius : TemperatureScale::fahrenheit; }

/// The bounds of a rule in whole degrees that count.
struct DegreeBounds {
  int low;
  std::optional<int> high;  ///< rounded up: as a sheet says it, still within; nothing where the rule has none
};

DegreeBounds bounds_in_degrees(const TimeTemperatureRule& rule, const SheetUnits& units) {
  const auto degrees = [&](TemperaturePoint point) { return units.metric ? point.celsius() : point.fahrenheit(); };
  constexpr double hair = 1e-6;
  const int low = static_cast<int>(std::ceil(degrees(rule.at_least) - hair));
  if (!rule.at_most) return {low, std::nullopt};
  return {low, static_cast<int>(std::ceil(degrees(*rule.at_most) - hair))};
}

/// Degrees drawn for the days of a log.
class DrawnDegrees {
 public:
  DrawnDegrees(Draw& draw, DegreeBounds bounds, bool metric) : draw_(draw), bounds_(bounds), step_(metric ? 1 : 2) {}
  int hot() { return bounds_.low + draw_.between(0, 13 * step_); }
  int cool() { return bounds_.low - draw_.between(2 * step_, 12 * step_); }
  int nearly() { return bounds_.low - draw_.between(step_, 4 * step_); }
  /// @pre the rule has an upper bound
  int too_hot() { return bounds_.high.value() + draw_.between(step_, 2 * step_); }
  /// So hot beside a reading that the two average above the bound.
  int hot_beside(int other) { return 2 * bounds_.low - other + draw_.between(step_, 4 * step_); }

 private:
  Draw& draw_;
  DegreeBounds bounds_;
  int step_;
};

void add_days(DailyDegrees& degrees, int days, const std::function<int()>& one) {
  for (int day = 0; day < days; ++day) degrees.push_back(one());
}

TemperatureLog daily_log(const std::vector<DailyDegrees>& probes, const SheetUnits& units) {
  using namespace std::chrono;
  const sys_seconds first = sys_days(year(2026) / April / 1) + hours(8);
  TemperatureLog log;
  log.probes = probes.size() > 1 ? std::vector<std::string>{"core", "side"} : std::vector<std::string>{"core"};
  for (std::size_t day = 0; day < probes.front().size(); ++day) {
    LogRow row;
    row.time = {first + days(day), std::nullopt};
    for (const DailyDegrees& degrees : probes) row.probes.emplace_back(TemperaturePoint::on(scale_of_sheet(units), degrees[day]));
    log.rows.push_back(std::move(row));
  }
  return log;
}

/// As if one thermometer had shown the average of all.
TemperatureLog log_of_the_average(const TemperatureLog& log) {
  TemperatureLog average = log;
  average.probes = {"average"};
  for (LogRow& row : average.rows) {
    double total = 0.0;
    for (const auto& probe : row.probes) total += probe->kelvin();
    row.probes = {TemperaturePoint::from_kelvin(total / static_cast<double>(row.probes.size()))};
  }
  return average;
}

/// One hot stretch.
TemperatureLog plain_log(Draw& draw, DrawnDegrees& degrees, const SheetUnits& units) {
  DailyDegrees core;
  add_days(core, 2, [&] { return degrees.cool(); });
  add_days(core, draw.between(3, 6), [&] { return degrees.hot(); });
  add_days(core, 1, [&] { return degrees.cool(); });
  return daily_log({core}, units);
}

/// Two stretches of unlike length, with a day between them that is not hot enough, or too hot where the rule has an upper bound.
TemperatureLog broken_log(Draw& draw, DrawnDegrees& degrees, const TimeTemperatureRule& rule, const SheetUnits& units) {
  DailyDegrees core;
  const int shorter = draw.between(2, 3);
  const int longer = shorter + draw.between(1, 2);
  const bool shorter_first = draw.yes_or_no();
  add_days(core, 1, [&] { return degrees.cool(); });
  add_days(core, shorter_first ? shorter : longer, [&] { return degrees.hot(); });
  add_days(core, 1, [&] { return rule.at_most ? degrees.too_hot() : degrees.nearly(); });
  add_days(core, shorter_first ? longer : shorter, [&] { return degrees.hot(); });
  add_days(core, 1, [&] { return degrees.cool(); });
  return daily_log({core}, units);
}

/// The side gets hot later than the core, or cools before it.
TemperatureLog two_probe_log(Draw& draw, DrawnDegrees& degrees, const SheetUnits& units) {
  const int both_hot = draw.between(3, 5);
  const int core_only = draw.between(1, 2);
  const bool side_is_late = draw.yes_or_no();
  DailyDegrees core;
  DailyDegrees side;
  const auto cool_day = [&] {
    core.push_back(degrees.cool());
    side.push_back(degrees.cool());
  };
  const auto uneven_days = [&] {
    for (int day = 0; day < core_only; ++day) {
      side.push_back(degrees.nearly());
      core.push_back(degrees.hot_beside(side.back()));
    }
  };
  cool_day();
  if (side_is_late) uneven_days();
  add_days(core, both_hot, [&] { return degrees.hot(); });
  add_days(side, both_hot, [&] { return degrees.hot(); });
  if (!side_is_late) uneven_days();
  cool_day();
  return daily_log({core, side}, units);
}

int day_of_log(const TemperatureLog& log, const WrittenTime& time) {
  return static_cast<int>(std::chrono::duration_cast<std::chrono::days>(time.at() - log.rows.front().time.at()).count()) + 1;
}

Working working_of_log(const TemperatureLog& log, const RuleResult& result) {
  Working working;
  const auto day = [&](const std::string& symbol, const std::string& what, const WrittenTime& time) {
    return given(symbol, what, day_of_log(log, time), "", "read off the log");
  };
  const std::string where = log.probes.size() > 1 ? "on which both count" : "that counts";
  const Term a = day("a", "first day " + where, result.stretch->from);
  const Term b = day("b", "last day of that stretch", result.stretch->to);
  working.step({"S", "The longest stretch", "from its first reading to its last", "days", by_definition}, b - a);
  return working;
}

}  // namespace

ExerciseProblem draw_log(Draw& draw, Level level, const SheetUnits& units, const Tables& tables) {
  LogProblem problem;
  problem.rule = draw.one_of(short_rules(*tables.criteria));
  DrawnDegrees degrees(draw, bounds_in_degrees(problem.rule, units), units.metric);
  switch (level) {
    case Level::first: problem.log = plain_log(draw, degrees, units); break;
    case Level::second: problem.log = broken_log(draw, degrees, problem.rule, units); break;
    case Level::third: problem.log = two_probe_log(draw, degrees, units); break;
  }
  const RuleResult result = judge(problem.rule, problem.log, usual_gap);
  problem.answer = result.longest;
  problem.met = result.met.value_or(false);
  problem.mistaken = result.longest + std::chrono::days(1);  // as many as there are readings
  if (level == Level::second) {
    problem.mistake = LogMistake::adds_up_stretches;
    problem.mistaken = result.total;
  }
  if (level == Level::third) {
    problem.mistake = LogMistake::averages_probes;
    problem.mistaken = judge(problem.rule, log_of_the_average(problem.log), usual_gap).longest;
  }
  Working working = working_of_log(problem.log, result);
  return {std::move(problem), std::move(working)};
}

}  // namespace heapwright
