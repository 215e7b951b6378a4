#include <algorithm>

#include "heapwright/page/pile_now.hpp"
#include "heapwright/page/rule_words.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {
namespace {

double hours_of(std::chrono::seconds length) { return static_cast<double>(length.count()) / 3600.0; }

Json rule_json(const RuleResult& answer, const TemperatureLog& log) {
  return {{"id", answer.rule->id},
          {"met", optional_json(answer.met)},
          {"longest_hours", hours_of(answer.longest)},
          {"total_hours", hours_of(answer.total)},
          {"turnings", answer.turnings},
          {"from", answer.stretch ? Json(print_time(answer.stretch->from)) : Json(nullptr)},
          {"to", answer.stretch ? Json(print_time(answer.stretch->to)) : Json(nullptr)},
          {"why", Show(ShownUnits::si).words(why_of_rule(answer, log))},
          {"source", answer.rule->whose.source}};
}

Json start_json(const StartingRatio& start) {
  return {{"id", start.rule->id},
          {"met", optional_json(start.met)},
          {"longest_hours", nullptr},
          {"total_hours", nullptr},
          {"turnings", nullptr},
          {"from", nullptr},
          {"to", nullptr},
          {"why", Show(ShownUnits::si).words(why_of_start(start))},
          {"source", start.rule->whose.source}};
}

Json rules_json(const YardReadings& answer) {
  Json rules = Json::array();
  if (!answer.log) return rules;
  for (const RuleResult& one : answer.rules) rules.push_back(rule_json(one, *answer.log));
  rules.push_back(start_json(answer.starting_ratio));
  return rules;
}

Json dies_at_json(const std::vector<const DiesAt*>& rows, const OnlyWhatWasHot& caution, const Materials& materials) {
  Json list = Json::array();
  for (const DiesAt* row : rows) {
    const auto word = std::find_if(pest_words().begin(), pest_words().end(), [&](const auto& one) { return one.second == row->pest; });
    list.push_back({{"id", row->id},
                    {"pest", word->first},
                    {"at_least_degc", row->at_least.celsius()},
                    {"at_most_degc", row->at_most ? Json(row->at_most->celsius()) : Json(nullptr)},
                    {"hours", row->length ? Json(hours_of(*row->length)) : Json(nullptr)},
                    {"found", row->found},
                    {"source", source_words(materials, row->whose.source, row->whose.evidence)},
                    {"evidence", evidence_word(row->whose.evidence)}});
  }
  return {{"only_what_was_hot", caution.text}, {"rows", std::move(list)}};
}

Json correction_json(const YardReadings& answer) {
  if (!answer.forecast || !(*answer.forecast)->forecast || !(*answer.forecast)->rate || !(*answer.forecast)->rate->tells) return nullptr;
  const RateFit& rate = *(*answer.forecast)->rate;
  const Forecast& forecast = *(*answer.forecast)->forecast;
  return {{"rate_factor", rate.factor},
          {"rate_factor_low", rate.low},
          {"rate_factor_high", rate.high},
          {"air_off_degc", value_in(unit::kelvin, rate.air_off)},
          {"misses_by_degc", value_in(unit::kelvin, rate.misses_by)},
          {"ready_for_turf", window_json(forecast, forecast.turf)},
          {"mature", window_json(forecast, forecast.mature)}};
}

Json questions_json(const YardReadings& answer) {
  Json questions = Json::array();
  for (const Words& question : questions_of(answer)) questions.push_back(Show(ShownUnits::si).words(question));
  return questions;
}

/// null where nothing was measured, or a hand was put in since.
Json activity_json(const YardReadings& answer) {
  if (!answer.summary || answer.felt_last) return nullptr;
  return activity_word(answer.summary->state());
}

Json observations_json(const YardReadings& answer) {
  Json observations = Json::array();
  if (!answer.summary) return observations;
  const LogSummary& seen = *answer.summary;
  const auto add = [&](const char* what, const WrittenTime& time, Json value) {
    observations.push_back({{"what", what}, {"time", print_time(time)}, {"value", std::move(value)}});
  };
  add("hottest_degc", seen.peak.time, seen.peak.temperature.celsius());
  if (seen.first_heated) add("heated_above_40_degc", *seen.first_heated, nullptr);
  if (seen.too_hot) add("hours_above_71_degc", seen.too_hot->first, hours_of(seen.too_hot->length));
  for (const HotSpell& spell : seen.hot_spells) add("hours_from_40_degc_up", spell.from, hours_of(spell.to.at() - spell.from.at()));
  for (const Reheat& reheat : seen.reheats) {
    if (reheat.measured) add("warmed_after_turning_by_kelvin", reheat.turned, (reheat.highest - reheat.lowest).value());
  }
  for (const PileReading& odd : seen.set_aside) add("set_aside_degc", odd.time, odd.temperature.celsius());
  if (seen.cool_since) add("below_40_degc_since", *seen.cool_since, nullptr);
  if (seen.gap_from && seen.longest_gap > answer.gap) add("hours_without_readings", *seen.gap_from, hours_of(seen.longest_gap));
  add("latest_degc", seen.latest.time, seen.latest.temperature.celsius());
  return observations;
}

Json noticed_mix_json(const std::optional<Mix>& mix) {
  if (!mix) return nullptr;
  return {{"carbon_to_nitrogen", optional_si(mix->carbon_to_nitrogen)}, {"moisture_fraction", optional_si(mix->moisture)}};
}

Json measured_json(const RecipeAmount& amount) {
  Json containers = nullptr;
  if (amount.containers) containers = {{"name", amount.containers->container}, {"count", amount.containers->count}};
  return {{"id", amount.id}, {"mass_kg", amount.mass.value()}, {"containers", containers}};
}

Json kept_browns_json(const std::optional<KeptBrowns>& browns) {
  if (!browns) return nullptr;
  return {{"kept", measured_json(browns->kept)}, {"at_most", measured_json(browns->at_most)}};
}

Json noticed_json(const YardReadings& answer) {
  Json list = Json::array();
  if (answer.smokes) return list;  // the caution says all there is to do
  for (const NoticedSign& noticed : answer.noticed) {
    Json fix = Json::array();
    for (const RecipeAmount& amount : noticed.fix) fix.push_back(measured_json(amount));
    Json others = Json::array();
    for (const Cause* other : noticed.other_causes)
      others.push_back({{"cause", other->cause}, {"check", other->check}, {"do_now", other->to_do(noticed.in_a_tumbler)}});
    list.push_back({{"symptom", noticed.symptom->id},
                    {"likely_cause", noticed.cause->cause},
                    {"check", noticed.cause->check},
                    {"other_causes", others},
                    {"as_planned", noticed.as_planned},
                    {"fix", fix},
                    {"kept_browns", kept_browns_json(noticed.kept_browns)},
                    {"water_to_add_kg", noticed.water.value()},
                    {"mix", noticed_mix_json(noticed.mix)},
                    {"mix_with_fix", noticed_mix_json(noticed.mended)},
                    {"do_now", noticed.cause->to_do(noticed.in_a_tumbler)}});
  }
  return list;
}

}  // namespace

Json readings_json(const Answer<YardReadings>& whole, const Materials& materials) {
  const YardReadings& answer = whole.result;
  Json json;
  json["smokes"] = answer.smokes;
  json["questions"] = questions_json(answer);
  json["pile_activity"] = activity_json(answer);
  json["rules"] = rules_json(answer);
  json["dies_at"] = dies_at_json(answer.dies_at, *answer.only_what_was_hot, materials);
  json["forecast_correction"] = correction_json(answer);
  json["observations"] = observations_json(answer);
  json["noticed"] = noticed_json(answer);
  return with_grounds(std::move(json), whole, materials);
}

std::string json_of_dies_at(const Criteria& criteria, const Materials& materials) {
  std::vector<const DiesAt*> rows;
  for (const DiesAt& row : criteria.dies_at) rows.push_back(&row);
  return printed(dies_at_json(rows, criteria.only_what_was_hot, materials));
}

std::string json_of_readings(const Answer<YardReadings>& answer, const Materials& materials) {
  return printed(readings_json(answer, materials));
}

}  // namespace heapwright
