#include <algorithm>
#include <cmath>

#include "heapwright/plan/answers.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::chrono::sys_days;

WrittenTime noon_of(Date date) { return {sys_days(date) + std::chrono::hours(12), std::nullopt}; }

Date day_of(const WrittenTime& time) { return std::chrono::floor<std::chrono::days>(time.shown); }

std::vector<CoreReading> in_order_of_dates(const Observations& seen) {
  std::vector<CoreReading> readings;
  std::copy_if(seen.readings.begin(), seen.readings.end(), std::back_inserter(readings),
               [](const CoreReading& reading) { return reading.date.has_value(); });
  std::stable_sort(readings.begin(), readings.end(),
                   [](const CoreReading& one, const CoreReading& other) { return *one.date < *other.date; });
  return readings;
}

std::vector<CoreReading> felt_by_hand(const Observations& seen) {
  std::vector<CoreReading> readings = in_order_of_dates(seen);
  std::erase_if(readings, [](const CoreReading& reading) { return !std::holds_alternative<HandWarmth>(reading.core); });
  return readings;
}

StartingRatio judge_start(const std::optional<Mix>& mix) {
  StartingRatio start;
  start.rule = &built_in_criteria().starting_carbon_to_nitrogen;
  if (!mix || !mix->carbon_to_nitrogen) return start;
  start.carbon_to_nitrogen = mix->carbon_to_nitrogen;
  start.met = *start.carbon_to_nitrogen >= start.rule->low && *start.carbon_to_nitrogen <= start.rule->high;
  return start;
}

/// The heap that was logged, where the file does not say when it was built: on the first day of the log.
Date begun(const Yard& yard, const std::optional<TemperatureLog>& log, Date today) {
  return log && !log->rows.empty() ? yard.built_or(day_of(log->rows.front().time)) : yard.built_or(today);
}

bool has_supplies(const Yard& yard) { return !yard.supplies.empty(); }

}  // namespace

std::optional<TemperatureLog> log_of(const Observations& seen) {
  TemperatureLog log{{"core"}, false, {}};
  for (const CoreReading& reading : in_order_of_dates(seen)) {
    const TemperaturePoint* core = std::get_if<TemperaturePoint>(&reading.core);
    if (core == nullptr) continue;
    WrittenTime time = noon_of(*reading.date);
    if (!log.rows.empty()) time.shown = std::max(time.shown, log.rows.back().time.shown + std::chrono::minutes(1));
    log.rows.push_back({time, false, false, std::nullopt, {*core}});
  }
  return log.rows.empty() ? std::nullopt : std::optional(log);
}

ReadingsAnswer readings_of(const Yard& yard, std::optional<TemperatureLog> log, std::chrono::seconds gap, Date today,
                           const Progress& progress) {
  ReadingsAnswer answer;
  answer.log = log ? std::move(log) : log_of(yard.observations);
  answer.gap = gap;
  answer.by_hand = felt_by_hand(yard.observations);
  if (answer.log) {
    for (const TimeTemperatureRule& rule : built_in_criteria().rules) answer.rules.push_back(judge(rule, *answer.log, gap));
    answer.watched = watched(*answer.log);
  }
  answer.starting_ratio = judge_start(std::nullopt);
  Facts facts = facts_of(yard.observations);
  facts.insert(Fact::readings);
  if (answer.watched && answer.watched->peak.temperature >= TemperaturePoint::from_fahrenheit(140.0)) facts.insert(Fact::hot);
  answer.cautions = cautions_for(yard.materials.cautions, facts);
  if (!has_supplies(yard)) return answer;

  const Date built = begun(yard, answer.log, today);
  const Recipe recipe = first_recipe(yard, built);
  if (has_size(recipe)) answer.starting_ratio = judge_start(told(recipe).mix);
  answer.assumptions = recipe.assumptions;
  for (const std::string& id : recipe.cautions) answer.cautions.push_back(id);
  if (answer.log && yard.climate) {
    answer.forecast = forecast_of(yard, recipe, built, &*answer.log, progress);
    answer.assumptions = answer.forecast->assumptions;
    for (const std::string& id : answer.forecast->cautions) answer.cautions.push_back(id);
  }
  answer.cautions = in_order(answer.cautions, yard.materials.cautions);
  return answer;
}

}  // namespace heapwright
