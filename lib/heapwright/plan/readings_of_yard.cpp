#include <algorithm>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::chrono::sys_days;

WrittenTime noon_of(Date date) { return {sys_days(date) + std::chrono::hours(12), std::nullopt}; }

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

StartingRatio judge_start(const StartingRatioRule& rule, const std::optional<Mix>& mix) {
  StartingRatio start;
  start.rule = &rule;
  if (!mix || !mix->carbon_to_nitrogen) return start;
  start.carbon_to_nitrogen = mix->carbon_to_nitrogen;
  start.met = meets(rule, *start.carbon_to_nitrogen);
  return start;
}

/// The pile that was logged, where the file does not say when it was built: on the first day of the log.
Date begun(const Yard& yard, const std::optional<TemperatureLog>& log, Date today) {
  return log && !log->rows.empty() ? yard.built_or(log->rows.front().time.day()) : yard.built_or(today);
}

// --- dates that can hardly be right ---

void take(const Date& date, std::optional<DatesInDoubt>& dates) {
  if (!dates) dates = DatesInDoubt{0, date, date};
  ++dates->count;
  dates->first = std::min(dates->first, date);
  dates->last = std::max(dates->last, date);
}

bool has_reading(const LogRow& row) {
  return std::any_of(row.probes.begin(), row.probes.end(), [](const auto& reading) { return reading.has_value(); });
}

/// Takes the rows of before the pile was built out of a log; nothing where none has a reading then.
std::optional<TemperatureLog> since_built(TemperatureLog log, Date built, std::optional<DatesInDoubt>& before) {
  const auto is_before = [&](const LogRow& row) { return Date(row.time.day()) < built; };
  for (const LogRow& row : log.rows) {
    if (is_before(row) && has_reading(row)) take(row.time.day(), before);
  }
  std::erase_if(log.rows, is_before);
  return std::any_of(log.rows.begin(), log.rows.end(), has_reading) ? std::optional(std::move(log)) : std::nullopt;
}

void tell_dates_in_doubt(const Yard& yard, Date today, YardReadings& answer) {
  const Observations& seen = yard.observations;
  for (const CoreReading& reading : seen.readings_before_built) take(*reading.date, answer.before_built);
  if (answer.log) {
    for (const LogRow& row : answer.log->rows) {
      if (has_reading(row) && Date(row.time.day()) > today) take(row.time.day(), answer.after_today);
    }
  }
  for (const CoreReading& reading : answer.by_hand) {
    if (*reading.date > today) take(*reading.date, answer.after_today);
  }
  const auto sign = [&](const Noticed& noticed) { return SignInDoubt{&known_row(*yard.tables.symptoms, noticed.symptom), *noticed.date}; };
  for (const Noticed& noticed : seen.noticed_before_built) answer.signs_before_built.push_back(sign(noticed));
  for (const Noticed& noticed : seen.noticed) {
    if (noticed.date && *noticed.date > today && !is_smoke(noticed)) answer.signs_after_today.push_back(sign(noticed));
  }
}

// --- what they show ---

bool is_turned_since_hot(const LogSummary& summary) {
  if (!summary.last_turned) return false;
  if (!summary.first_heated) return true;
  return summary.cool_since && summary.last_turned->at() >= summary.cool_since->at();
}

Circumstances shown_by(const YardReadings& answer) {
  Circumstances shown;
  const std::optional<LogSummary>& summary = answer.summary;
  const auto add = [&](bool holds, Circumstance circumstance) {
    if (holds) shown.insert(circumstance);
  };
  if (answer.felt_last) {
    add(answer.felt_last->core == HandWarmth::hot, Circumstance::hot);
  } else if (summary) {
    add(summary->first_heated && !summary->cool_since, Circumstance::hot);
    add(summary->state() == PileActivity::is_too_hot, Circumstance::too_hot);
    add(summary->was_near_fire_by(summary->last), Circumstance::near_fire);
  }
  add(summary && summary->first_heated, Circumstance::has_heated);
  add(summary && is_turned_since_hot(*summary), Circumstance::turned);
  if (answer.log) {
    const std::vector<LogRow>& rows = answer.log->rows;
    add(std::any_of(rows.begin(), rows.end(), [](const LogRow& row) { return row.watered; }), Circumstance::watered);
  }
  return shown;
}

/// Whether a pile was first watched so late that it may have heated unseen.
bool is_watched_late(const Yard& yard, Date first) { return sys_days(first) - sys_days(yard.built_or(first)) > time_to_heat_and_cool; }

/// Whether a log shows that it never was warm.
bool never_heated(const Yard& yard, const YardReadings& answer) {
  return answer.summary && !answer.summary->first_heated && !is_watched_late(yard, answer.summary->first.day());
}

/// Leaves out the causes of a pile that did heat.
void leave_out_heated(NoticedSign& one) {
  const auto has_heated = [](const Cause* cause) { return cause->is_of(Circumstance::has_heated); };
  std::erase_if(one.other_causes, has_heated);
  if (!has_heated(one.cause) || one.other_causes.empty()) return;
  one.cause = one.other_causes.front();
  one.other_causes.erase(one.other_causes.begin());
}

/// Whether the same is added for two signs, so that it goes in once.
bool has_the_same_fix(const NoticedSign& one, const NoticedSign& other) {
  const auto is_alike = [](const RecipeAmount& a, const RecipeAmount& b) {
    return a.supply == b.supply && a.id == b.id && a.mass == b.mass;
  };
  if (one.kept_browns && other.kept_browns) return one.fix.empty() && other.fix.empty();
  return !one.fix.empty() && std::equal(one.fix.begin(), one.fix.end(), other.fix.begin(), other.fix.end(), is_alike);
}

/// What was noticed and what the log shows; each symptom once.
void take_noticed(const Yard& yard, const Answer<Recipe>* recipe, Date today, YardReadings& answer) {
  std::optional<PileAsBuilt> pile;  // only where there is something to tell of it
  const auto add = [&](std::string_view name, Date day) {
    if (recipe != nullptr && !pile) pile = pile_as_built(yard, *recipe, today);
    NoticedSign one = noticed_in(yard, pile ? &*pile : nullptr, name, day, shown_by(answer));
    if (!one.pile_is_known && never_heated(yard, answer)) leave_out_heated(one);
    if (stale_since(answer) && !one.cause->is_of(Circumstance::near_fire)) one.is_measured = false;
    one.is_mended_with =
        std::any_of(answer.noticed.begin(), answer.noticed.end(), [&](const NoticedSign& other) { return has_the_same_fix(one, other); });
    const bool known =
        std::any_of(answer.noticed.begin(), answer.noticed.end(), [&](const NoticedSign& other) { return other.symptom == one.symptom; });
    if (!known) answer.noticed.push_back(std::move(one));
  };
  const bool is_too_hot = answer.summary && !answer.felt_last && answer.summary->state() == PileActivity::is_too_hot;
  if (is_too_hot) add("too-hot", answer.summary->last.day());  // before all else
  for (const Noticed& noticed : yard.observations.noticed) {
    if (!is_smoke(noticed)) add(noticed.symptom, noticed.date.value_or(today));
  }
  const auto add_cold = [&](Date first, Date last) { add(is_watched_late(yard, first) ? "half-rotted-and-cold" : "will-not-heat", last); };
  if (answer.felt_last) {
    if (answer.felt_last->state() == FeltActivity::has_not_heated) add_cold(*answer.by_hand.front().date, answer.felt_last->date);
    return;
  }
  if (!answer.summary) return;
  if (answer.summary->state() == PileActivity::has_not_heated) add_cold(answer.summary->first.day(), answer.summary->last.day());
}

Facts facts_of_readings(const Yard& yard, const YardReadings& answer) {
  Facts facts = facts_of(yard.observations);
  if (answer.summary || answer.felt_last || !answer.noticed.empty()) facts.insert(Fact::turning);  // as the screen tells them to do
  if (answer.log) facts.insert(Fact::readings);
  const auto scalds = [](const PileReading& reading) { return reading.temperature >= scalding; };
  if (answer.summary &&
      (scalds(answer.summary->peak) || std::any_of(answer.summary->set_aside.begin(), answer.summary->set_aside.end(), scalds)))
    facts.insert(Fact::hot);
  for (const NoticedSign& one : answer.noticed) facts.insert(one.symptom->facts.begin(), one.symptom->facts.end());
  return facts;
}

/// What a hand felt since the log, unless a hand can tell nothing against what the log shows.
std::optional<FeltByHand> felt_last(const YardReadings& answer, const Yard& yard) {
  if (answer.by_hand.empty()) return std::nullopt;
  const std::vector<CoreReading>& felt = answer.by_hand;
  const Date date = *felt.back().date;
  if (answer.summary && date <= answer.summary->last.day()) return std::nullopt;
  if (answer.summary && answer.summary->was_near_fire_by(noon_of(date))) return std::nullopt;
  const bool felt_warm =
      std::any_of(felt.begin(), felt.end(), [](const CoreReading& one) { return std::get<HandWarmth>(one.core) != HandWarmth::cold; });
  const bool has_heated = felt_warm || (answer.summary && answer.summary->first_heated);
  const auto age = sys_days(date) - sys_days(yard.built_or(*felt.front().date));
  return FeltByHand{date, std::get<HandWarmth>(felt.back().core), has_heated, age >= time_to_heat};
}

}  // namespace

std::vector<OppositeSigns> opposite_signs(const YardReadings& readings) {
  std::vector<OppositeSigns> opposites;
  for (const NoticedSign& one : readings.noticed) {
    const std::vector<std::string>& ids = one.symptom->opposites;
    for (const NoticedSign& other : readings.noticed) {
      if (std::find(ids.begin(), ids.end(), other.symptom->id) != ids.end()) opposites.push_back({&one, &other});
    }
  }
  return opposites;
}

bool is_frozen(const YardReadings& readings) {
  return std::any_of(readings.noticed.begin(), readings.noticed.end(), [](const NoticedSign& one) { return one.symptom->is_frozen; });
}

bool is_unfinished(const YardReadings& readings) {
  return std::any_of(readings.noticed.begin(), readings.noticed.end(), [](const NoticedSign& one) { return one.symptom->at_work; });
}

std::optional<std::chrono::days> stale_since(const YardReadings& readings) {
  if (!readings.summary && !readings.felt_last) return std::nullopt;
  const Date last = readings.felt_last ? readings.felt_last->date : Date(readings.summary->last.day());
  const std::chrono::days age = sys_days(readings.today) - sys_days(last);
  return age > reading_keeps ? std::optional(age) : std::nullopt;
}

bool is_anything_seen(const YardReadings& readings) {
  return readings.smokes || readings.summary || !readings.noticed.empty() || !readings.by_hand.empty();
}

std::optional<TemperatureLog> log_of(const Observations& seen) {
  TemperatureLog log{{"core"}, false, false, {}};
  for (const CoreReading& reading : in_order_of_dates(seen)) {
    const TemperaturePoint* core = std::get_if<TemperaturePoint>(&reading.core);
    if (core == nullptr) continue;
    WrittenTime time = noon_of(*reading.date);
    if (!log.rows.empty()) time.shown = std::max(time.shown, log.rows.back().time.shown + std::chrono::minutes(1));
    log.rows.push_back({time, false, false, {*core}});
  }
  return log.rows.empty() ? std::nullopt : std::optional(log);
}

Answer<YardReadings> seen_of(const Yard& yard, const Answer<Recipe>* recipe, std::optional<TemperatureLog> log, std::chrono::seconds gap,
                             Date today) {
  Answer<YardReadings> whole;
  YardReadings& answer = whole.result;
  answer.built = yard.pile ? yard.pile->built : std::nullopt;
  if (!answer.built && is_loaded(yard)) answer.built = yard.loads.front().date;
  answer.today = today;
  if (log && answer.built) log = since_built(*std::move(log), *answer.built, answer.before_built);
  answer.log = std::move(log);
  answer.gap = gap;
  const std::vector<Noticed>& noticed = yard.observations.noticed;
  answer.smokes = std::any_of(noticed.begin(), noticed.end(), is_smoke);
  answer.by_hand = felt_by_hand(yard.observations);
  answer.not_in_a_row = &yard.tables.criteria->not_in_a_row;
  for (const DiesAt& row : yard.tables.criteria->dies_at) answer.dies_at.push_back(&row);
  answer.only_what_was_hot = &yard.tables.criteria->only_what_was_hot;
  if (answer.log) {
    for (const TimeTemperatureRule& rule : yard.tables.criteria->rules) answer.rules.push_back(judge(rule, *answer.log, gap));
    answer.summary = log_summary_of(*answer.log, gap);
    answer.scale = scale_in_doubt(*answer.log, answer.by_hand);
  }
  tell_dates_in_doubt(yard, today, answer);
  answer.felt_last = felt_last(answer, yard);
  answer.starting_ratio =
      judge_start(yard.tables.criteria->starting_carbon_to_nitrogen,
                  recipe != nullptr && has_size(recipe->result) ? std::optional(as_built(recipe->result).mix) : std::nullopt);
  take_noticed(yard, recipe, today, answer);
  whole.cautions = cautions_for(*yard.tables.materials.cautions, facts_of_readings(yard, answer));
  return whole;
}

namespace {

Answer<YardReadings> read_and_forecast(const Yard& yard, std::optional<TemperatureLog> log, std::chrono::seconds gap, Date today,
                                       const Progress& progress) {
  if (yard.supplies.empty() && !is_loaded(yard)) return seen_of(yard, nullptr, std::move(log), gap, today);
  const Date built = begun(yard, log, today);
  const Answer<Recipe> recipe = recipe_in_pile(yard, built);
  Answer<YardReadings> answer = seen_of(yard, &recipe, std::move(log), gap, today);
  answer.assumptions = recipe.assumptions;
  if (answer->log && yard.climate) {
    answer->forecast = forecast_of(yard, recipe, built, &*answer->log, progress);
    answer.assumptions = answer->forecast->assumptions;
  }
  return answer;
}

}  // namespace

Answer<YardReadings> readings_of(const Yard& yard, std::optional<TemperatureLog> log, std::chrono::seconds gap, Date today,
                                 const Progress& progress) {
  std::optional<TemperatureLog> own = log_of(yard.observations);
  if (!log) return read_and_forecast(yard, std::move(own), gap, today, progress);
  Answer<YardReadings> answer = read_and_forecast(yard, std::move(log), gap, today, progress);
  answer->readings_left_aside = own ? static_cast<int>(own->rows.size()) : 0;
  return answer;
}

}  // namespace heapwright
