#include <algorithm>
#include <cmath>

#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/pile_now.hpp"
#include "heapwright/page/rule_words.hpp"

namespace heapwright {
namespace {

constexpr std::ptrdiff_t most_turnings = 5;  // the latest
constexpr std::ptrdiff_t most_spells = 4;    // the latest

/// What is done to a pile that is read.
const WorkSteps tending{"turn", "gather", "use"};

DayOfMonth on_day(const WrittenTime& time) { return {time.day()}; }

// --- the whole log ---

Words reheat_words(const Reheat& reheat, const WrittenTime& last) {
  const char* how_long = reheat.turned_again ? "until it was turned again" : "in the week after";
  switch (outcome_of(reheat, last)) {
    case ReheatOutcome::not_measured_since: return "not measured since";
    case ReheatOutcome::not_measured: return say("not measured {}", how_long);
    case ReheatOutcome::warmed: return say("it warmed again, from {} to {}", reheat.lowest, reheat.highest);
    case ReheatOutcome::stayed_hot: return say("it stayed hot, up to {} {}", reheat.highest, how_long);
    case ReheatOutcome::stayed_hot_for_days:
      return say("it stayed hot until {}, up to {}, then fell to {}", on_day(reheat.hot_until), reheat.highest, reheat.coolest);
    case ReheatOutcome::went_on_cooling: return say("it went on cooling, from {} to {}", reheat.lowest, reheat.latest);
    case ReheatOutcome::not_yet: return say("it has not warmed again yet, {} at most", reheat.highest);
    case ReheatOutcome::hardly_warmed: return say("it hardly warmed, {} at most {}", reheat.highest, how_long);
    case ReheatOutcome::did_not_warm: return say("it did not warm again, {} at most {}", reheat.highest, how_long);
  }
  return {};
}

Words when_measured(const LogSummary& seen) {
  if (seen.readings == 1) return say("once, on {}", on_day(seen.first));
  return say("{} times from {} to {}", whole(seen.readings), on_day(seen.first), on_day(seen.last));
}

Words too_hot_words(const TooHot& hot) {
  if (hot.length.count() == 0) return say("above {}, by single readings, first on {}", too_hot_above, on_day(hot.first));
  return say("above {} from {} on, for {} in all", too_hot_above, on_day(hot.first), Span{hot.length});
}

/// The latest of some things with how many came before.
template <class Thing, class Say>
void add_latest(std::vector<Words>& items, const std::vector<Thing>& all, std::ptrdiff_t most, const char* done, Say say_one) {
  const std::ptrdiff_t earlier = std::max<std::ptrdiff_t>(0, std::ssize(all) - most);
  if (earlier > 0) items.push_back(say("{} {} before these:", done, Count{static_cast<double>(earlier), "time"}));
  std::transform(all.begin() + earlier, all.end(), std::back_inserter(items), say_one);
}

Words spell_words(const HotSpell& spell) {
  if (spell.from.at() == spell.to.at()) return say("{} or more only on {}: {}", heated, on_day(spell.from), spell.hottest.temperature);
  return say("{} or more from {} to {}, {} at most", heated, on_day(spell.from), on_day(spell.to), spell.hottest.temperature);
}

void say_log(PageWriter& writer, const YardReadings& readings) {
  if (!readings.summary) return;
  const LogSummary& seen = *readings.summary;
  const std::size_t probes = readings.log->probes.size();
  std::vector<Words> items;
  items.push_back(say("measured {}{}{}", when_measured(seen),
                      probes > 1 ? say(", by {} thermometers", whole(static_cast<long long>(probes))) : Words(),
                      readings.log->air_passed_over ? "; that of the air is set aside" : ""));
  if (readings.readings_left_aside > 0)
    items.push_back(say("the log stands for the {} in the yard file", Count{static_cast<double>(readings.readings_left_aside), "reading"}));
  if (seen.too_hot) items.push_back(too_hot_words(*seen.too_hot));
  add_latest(items, seen.hot_spells, most_spells, "hot", spell_words);
  add_latest(items, seen.reheats, most_turnings, "turned",
             [&](const Reheat& reheat) { return say("turned on {}: {}", on_day(reheat.turned), reheat_words(reheat, seen.last)); });
  if (seen.cool_since) items.push_back(say("below {} since {}", heated, on_day(*seen.cool_since)));
  if (seen.longest_gap > readings.gap)
    items.push_back(say("nothing was measured for {} after {}", Span{seen.longest_gap}, on_day(*seen.gap_from)));
  writer.section(Depth::why, "What the log shows").bullets(std::move(items));
  if (std::optional<Chart> chart = measured_chart(readings)) writer.block(*std::move(chart));
}

void say_by_hand(PageWriter& writer, const std::vector<CoreReading>& felt) {
  if (felt.empty()) return;
  std::vector<Words> items;
  for (const CoreReading& reading : felt) items.push_back(felt_words(*reading.date, std::get<HandWarmth>(reading.core)));
  writer.section(Depth::why, "By hand").bullets(std::move(items));
  writer.paragraph("A hand tells hot from cold, and no more: the rules of composting sites need a thermometer.");
}

// --- rules ---

const char* met_word(const std::optional<bool>& met) { return !met ? "cannot say" : *met ? "met" : "not met"; }

Words rule_words(const RuleResult& result, const TemperatureLog& log) {
  const bool more = result.stretch && result.total > result.stretch->length();
  return say("{} ({}). {}: {}{}.", capital(result.rule->name), what_a_rule_asks(*result.rule), capital(std::string(met_word(result.met))),
             why_of_rule(result, log), more ? say("; {} in all", Span{result.total}) : Words());
}

/// How the days of the rules for turned piles are counted, where it was ever hot enough for them.
Words how_days_are_counted(const YardReadings& readings, const Materials& materials) {
  const auto is_near = [](const RuleResult& result) { return result.rule->turnings > 0 && result.gap != RuleGap::never_warm; };
  if (std::none_of(readings.rules.begin(), readings.rules.end(), is_near)) return {};
  const CountedOtherwise& other = *readings.not_in_a_row;
  return say("We count 15 days as one unbroken stretch: that is our reading of these rules. By {}, {}.",
             source_words(materials, other.whose.source, other.whose.evidence), other.text);
}

void say_rules(PageWriter& writer, const YardReadings& readings, const Materials& materials) {
  if (!readings.log) return;
  std::vector<Words> items;
  std::vector<Words> never;
  for (const RuleResult& result : readings.rules) {
    if (result.gap == RuleGap::never_warm)
      never.push_back(say("{} ({})", result.rule->name, what_a_rule_asks(*result.rule)));
    else
      items.push_back(rule_words(result, *readings.log));
  }
  if (!never.empty()) items.push_back(say("Not met, never so hot for two readings in a row: {}.", joined(never, "; ")));
  const StartingRatio& start = readings.starting_ratio;
  items.push_back(say("{}. {}: {}.", capital(start.rule->name), capital(std::string(met_word(start.met))), why_of_start(start)));
  writer.section(Depth::why, "Held against the rules that composting sites go by").bullets(std::move(items));
  writer.paragraph(how_days_are_counted(readings, materials));
  writer.paragraph(
      "The coldest thermometer counts. A site shows with them that all of its pile got hot; a home pile's edges and base stay cooler, so "
      "nobody can say of it that no germ or weed seed is left. The rules for vessels and aerated piles are not for an open pile that is "
      "turned.");
}

// --- what heat is said to do ---

const char* pest_heading(Pest pest) {
  switch (pest) {
    case Pest::weed_seeds: return "Weed seeds";
    case Pest::plant_diseases: return "Plant diseases";
    case Pest::germs: return "Germs that make people ill";
    case Pest::worms: return "Worms";
  }
  return "";
}

Words heat_words(const DiesAt& row) {
  Words heat = row.at_least;
  if (!row.at_most) heat += " and up";
  if (row.at_most && *row.at_most > row.at_least) heat += say(" to {}", *row.at_most);
  return row.length ? say("{} for {}", heat, Span{*row.length}) : say("{}, for how long is not told", heat);
}

/// What lives in a pile one after another, each row with whose it is, and what none of them tells.
void say_dies_at(PageWriter& writer, const std::vector<const DiesAt*>& rows, const OnlyWhatWasHot& caution, const Materials& materials) {
  if (rows.empty()) return;
  writer.paragraph(caution.text);
  for (const auto& [word, pest] : pest_words()) {
    std::vector<Words> items;
    for (const DiesAt* row : rows) {
      if (row->pest == pest)
        items.push_back(
            say("{}: {} ({})", heat_words(*row), row->found, source_in_short(materials, row->whose.source, row->whose.evidence)));
    }
    if (!items.empty()) writer.paragraph(say("{}:", pest_heading(pest))).bullets(std::move(items));
  }
}

// --- the forecast as the log corrects it ---

/// To a tenth: no log tells more.
Number tenth(double factor) { return {std::round(10.0 * factor) / 10.0, 3}; }

Words rate_words(const RateFit& rate) {
  if (!rate.tells && rate.fits_none)
    return say(
        "The log does not tell how fast it rots: at no rate does the forecast core come nearer to it than {}. The forecast keeps its "
        "own rate.",
        WholeDifference{rate.misses_by});
  if (!rate.tells) return "The log does not tell how fast it rots: many rates fit it about as well. The forecast keeps its own rate.";
  const Number factor = tenth(rate.factor);
  return say("By its log it rots {} as forecast (from {} to {} times); the core then fits within {}.",
             factor.value == 1.0 ? Words("as fast") : say("{} times as fast", factor), tenth(rate.low), tenth(rate.high),
             WholeDifference{rate.told_miss()});
}

void say_forecast_by_log(PageWriter& writer, const YardReadings& readings, const Materials& materials) {
  if (!readings.forecast || !(*readings.forecast)->forecast) return;
  const YardForecast& answer = readings.forecast->result;
  const HeatsOrNot& heats = answer.forecast->heats;
  writer.section(Depth::why, "When it is ready");
  writer.paragraph(answer.rate ? rate_words(*answer.rate)
                               : "There are too few days in the log, from the day it was built, to correct the forecast by it.");
  if (heats.by_its_log || heats.log_disagrees) {
    writer.paragraph(heating_sentence(answer));
    say_heating_tips(writer, answer, materials);
  }
  if (heats.log_disagrees) return;
  writer.block(readiness(*answer.forecast)).paragraph(last_to_be_done(*answer.forecast));
  if (answer.forecast->status == ForecastStatus::never) writer.paragraph(capital(say("{}.", why_never_ready(*answer.forecast))));
}

// --- the page ---

/// A fix rests on what went in; what the pile does and what to do about it rests on its readings alone.
Grounds what_it_rests_on(const Answer<YardReadings>& answer) {
  Grounds grounds = answer;
  const std::vector<NoticedSign>& noticed = answer->noticed;
  const bool has_fix =
      std::any_of(noticed.begin(), noticed.end(), [](const NoticedSign& one) { return !one.fix.empty() || one.takes_water(); });
  if (!has_fix) grounds.assumptions.clear();
  return grounds;
}

}  // namespace

Page dies_at_page(const Criteria& criteria, const Materials& materials) {
  std::vector<const DiesAt*> rows;
  for (const DiesAt& row : criteria.dies_at) rows.push_back(&row);
  PageWriter writer("At what heat weed seeds and germs are said to die");
  writer.section(Depth::act);
  say_dies_at(writer, rows, criteria.only_what_was_hot, materials);
  return std::move(writer).page();
}

Page readings_page(const Answer<YardReadings>& answer, const Materials& materials) {
  const YardReadings& readings = answer.result;
  PageWriter writer("What the pile is doing");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act);
  if (readings.smokes) {
    writer.paragraph(wait_until_it_is_out);
    return std::move(writer).page();
  }
  say_pile_now(writer, readings, materials);
  if (!is_anything_seen(readings) && readings.before_built) writer.paragraph("That leaves no reading of this pile.");
  if (!is_anything_seen(readings) && !readings.before_built)
    writer.paragraph(
        "Nothing was measured yet. Push a long thermometer into the middle of the pile once a day, and write [[reading]] with date and "
        "core "
        "in the yard file, or keep a log and give it with --log.");
  end_act(writer, what_it_rests_on(answer), materials, tending);
  say_other_causes(writer, readings);
  say_log(writer, readings);
  say_by_hand(writer, readings.by_hand);
  say_rules(writer, readings, materials);
  writer.section(Depth::why, "At what heat weed seeds and germs are said to die");
  say_dies_at(writer, readings.dies_at, *readings.only_what_was_hot, materials);
  say_forecast_by_log(writer, readings, materials);
  return finished(std::move(writer), answer, materials);
}

}  // namespace heapwright
