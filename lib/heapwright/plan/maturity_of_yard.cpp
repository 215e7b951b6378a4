#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/maturity/log_summary.hpp"
#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/process/trajectory.hpp"
#include "heapwright/process/weather.hpp"

namespace heapwright {
namespace {

Facts facts_of_compost(const Yard& yard, const CompostKnown& known) {
  Facts facts = facts_of(yard.observations);
  facts.insert(Fact::own_compost_on_lawn);  // what fit for turf is asked for
  for (const Supply& supply : yard.supplies) {
    facts.merge(facts_of(supply));
    if (supply.may_carry_weedkiller()) facts.insert(Fact::herbicide);
  }
  if (harms_plants(known)) facts.insert(Fact::herbicide);  // which may be why
  return facts;
}

/// Those of using compost, and those that cannot wait. First the weedkiller, which no test of maturity shows.
std::vector<std::string> cautions_of_use(const std::vector<Caution>& cautions, const Facts& facts) {
  std::vector<std::string> ids = cautions_for(cautions, facts);
  std::erase_if(ids, [&](const std::string& id) {
    const auto caution = std::find_if(cautions.begin(), cautions.end(), [&](const Caution& one) { return one.id == id; });
    return !caution->first && caution->step != "use";
  });
  std::stable_partition(ids.begin(), ids.end(), [](const std::string& id) { return id == "herbicide-pot-test"; });
  return ids;
}

/// Cool since the day of the check that says so.
std::optional<Date> cured_by(const std::vector<CheckResult>& checks) {
  for (const CheckResult& result : checks) {
    if (result.check->id != "no-reheat" || result.passed != true || !result.date) continue;
    return Date(std::chrono::sys_days(*result.date) + std::chrono::days(cure));
  }
  return std::nullopt;
}

std::optional<Date> last_tested(const Observations& seen) {
  std::optional<Date> last;
  for (const MaturityTest& test : seen.tests) last = std::max(last, test.date);
  for (const HouseholdCheck& check : seen.checks) last = std::max(last, check.date);
  return last;
}

bool is_at_work(const Noticed& noticed, const std::vector<Symptom>& symptoms) {
  return is_smoke(noticed) || known_row(symptoms, noticed.symptom).at_work;
}

/// By its last reading and what was noticed, not older than the last test or check.
bool is_at_work(const Observations& seen, const std::vector<Symptom>& symptoms) {
  const std::optional<Date> tested = last_tested(seen);
  const auto counts = [&](const std::optional<Date>& date) { return !date || !tested || *date >= *tested; };
  const auto earlier = [](const CoreReading& one, const CoreReading& other) { return one.date < other.date; };
  const auto latest = std::max_element(seen.readings.begin(), seen.readings.end(), earlier);
  if (latest != seen.readings.end() && counts(latest->date) && at_or_above(heated, *latest)) return true;
  return std::any_of(seen.noticed.begin(), seen.noticed.end(),
                     [&](const Noticed& noticed) { return counts(noticed.date) && is_at_work(noticed, symptoms); });
}

/// The day of which household checks tell: the latest, else that on which it is asked.
Date checked_on(const Observations& seen, Date today) {
  std::optional<Date> last;
  for (const HouseholdCheck& check : seen.checks) last = std::max(last, check.date);
  return last.value_or(today);
}

/// Its age where it has hardly seen warmth since it was built, and stands in the cold. Both bounds judged: below 5 °C nothing in a cold
/// pile moves, and no pile of leaves is done in eight warm weeks.
std::optional<std::chrono::days> age_in_cold(const Yard& yard, Date day) {
  const TemperaturePoint cold = TemperaturePoint::from_celsius(5.0);
  constexpr int enough_warm_days = 56;
  constexpr std::chrono::days old(400);  // it has seen every season; no need to count its days
  if (!yard.climate || !yard.pile || !yard.pile->built) return std::nullopt;
  const std::chrono::sys_days built(*yard.pile->built);
  const std::chrono::days age = std::chrono::sys_days(day) - built;
  if (age.count() < 0 || age > old) return std::nullopt;
  const Weather weather = weather_of(*yard.climate);
  if (weather.on(day) >= cold) return std::nullopt;
  int warm = 0;
  for (std::chrono::days since(0); since < age; ++since) warm += weather.on(Date(built + since)) >= cold ? 1 : 0;
  return warm < enough_warm_days ? std::optional(age) : std::nullopt;
}

Assumption taken_for_granted(std::string what, std::string value) {
  return {std::move(what), std::move(value), std::nullopt, std::nullopt, "judged by us", std::nullopt};
}

std::vector<Assumption> assumptions_of(const CompostKnown& known, bool moisture_is_known) {
  std::vector<Assumption> assumptions;
  const std::vector<RatedTest>& tests = known.rating.tests;
  const bool rests_on_cool =
      result_of(known.checks, "no-reheat") == true ||
      std::any_of(tests.begin(), tests.end(), [](const RatedTest& one) { return one.criterion->kind == TestKind::stability; });
  const bool undated = std::any_of(tests.begin(), tests.end(), [](const RatedTest& one) { return !one.test.date; });
  if (known.rating.rating && !known.rating.carbon_to_nitrogen)
    assumptions.push_back(taken_for_granted("C:N ratio", "not tested, taken as 25 or less"));
  if (rests_on_cool && !moisture_is_known)
    assumptions.push_back(
        taken_for_granted("moisture", "the compost was moist, so that it is quiet because it is done, not because it is dry"));
  if (undated) assumptions.push_back(taken_for_granted("tests without a date", "of the compost as it is now"));
  return assumptions;
}

}  // namespace

Answer<YardCompost> maturity_of(const Yard& yard, Date today) {
  const Criteria& criteria = *yard.tables.criteria;
  Answer<YardCompost> answer;
  CompostKnown& known = answer->known;
  known.rating = rate(yard.observations.tests, criteria);
  known.turf = turf_results(known.rating.tests, criteria);
  known.checks = check_results(yard.observations.checks, criteria);
  answer->cured_by = cured_by(known.checks);
  known.has_cured = answer->cured_by && *answer->cured_by <= today;
  known.pile_at_work = is_at_work(yard.observations, *yard.tables.symptoms);
  known.age_in_cold = age_in_cold(yard, checked_on(yard.observations, today));
  answer->reasons = reasons_of(known.rating, criteria);
  answer->report_lines = standing_lines(yard.observations.report_lines, *yard.tables.report_lines);
  answer->next = next_steps(known, criteria);
  answer.assumptions = assumptions_of(known, !counting(known.rating.tests, "moisture").empty());
  answer.cautions = cautions_of_use(*yard.tables.materials.cautions, facts_of_compost(yard, known));
  return answer;
}

}  // namespace heapwright
