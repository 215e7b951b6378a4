#include <algorithm>
#include <cmath>

#include "heapwright/input/words.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::chrono::seconds;

constexpr std::ptrdiff_t most_turnings = 5;            // the latest
constexpr std::ptrdiff_t most_assumptions_by_log = 4;  // the log says more than they do; --json has all

/// "Nov 12"
std::string show_day(const WrittenTime& time) {
  const Date day = time.day();
  return std::string(month_name(day.month())) + " " + std::to_string(static_cast<unsigned>(day.day()));
}

std::string count_of(long long count, const std::string& one) { return std::to_string(count) + " " + one + (count == 1 ? "" : "s"); }

/// "3 days 4 h", "15 days", "11 h 30 min"
std::string show_length(seconds length) {
  const auto days = std::chrono::floor<std::chrono::days>(length);
  const auto hours = std::chrono::floor<std::chrono::hours>(length - days);
  const auto minutes = std::chrono::floor<std::chrono::minutes>(length - days - hours);
  std::string text;
  const auto add = [&](const std::string& part) { text += (text.empty() ? "" : " ") + part; };
  if (days.count() > 0) add(count_of(days.count(), "day"));
  if (hours.count() > 0) add(std::to_string(hours.count()) + " h");
  if (minutes.count() > 0) add(std::to_string(minutes.count()) + " min");
  return text.empty() ? "0 h" : text;
}

std::string show_reading(const PileReading& reading, const Show& show) {
  return show.temperature(reading.temperature) + " on " + show_day(reading.time);
}

/// To a hundredth, finer than thermometers show it: a bound missed by ever so little is missed.
std::string show_exactly(TemperaturePoint temperature, const Show& show) {
  const double degrees = show.in_us_units() ? temperature.fahrenheit() : temperature.celsius();
  return print_number(std::round(100.0 * degrees) / 100.0, 6) + (show.in_us_units() ? " °F" : " °C");
}

/// What it is doing and what to do now. @param but "but for that " where something is to be done to it all the same
std::string what_now(const Watched& seen, const std::string& but, const Show& show) {
  const std::string latest = show_reading(seen.latest, show);
  switch (seen.state()) {
    case PileActivity::is_too_hot:
    case PileActivity::has_not_heated: return {};  // told as symptoms
    case PileActivity::working:
      return "It is working, " + latest + "; " + but + "leave it while it is hot. Turn it when it falls below about " +
             show.temperature(turned_below) + ", and water it then if a handful does not clump.";
    case PileActivity::slowing: return "It is slowing, " + latest + ": turn it now, and water it if a handful does not clump.";
    case PileActivity::too_early:
      return "It is too early to tell, " + latest + ". A pile that heats does so within " + std::to_string(time_to_heat.count()) +
             " days or so; go on measuring.";
    case PileActivity::turned_in_vain:
      return "It has cooled, " + latest +
             ", and turning did not warm it: let it cure for three weeks and then look whether it is finished (heapwright maturity).";
    case PileActivity::turned_lately:
      return "It is cool, " + latest + ", and was turned on " + show_day(*seen.last_turned) +
             ". Measure it daily for a week. If it stays cool, squeeze a handful: water it if it crumbles. If leaves can still be told "
             "apart it wants greens; if nothing can, let it cure for three weeks.";
    case PileActivity::cooled_for_good:
      return "It has cooled, " + latest +
             ". Turn it once more: if it does not warm again within a week, let it cure for three weeks and "
             "then look whether it is finished (heapwright maturity).";
    case PileActivity::cooling:
      return "It has fallen below " + show.temperature(heated) + ", " + latest +
             ". Turn it, water it if a handful does not clump, and go on measuring: if it warms again it has more to do.";
  }
  return {};
}

/// The same of what a hand felt.
std::string what_now(const FeltByHand& felt, const std::string& but) {
  switch (felt.core) {
    case HandWarmth::hot:
      return "It is working; " + but +
             "leave it while it is hot. Turn it when it feels only warm, and water it then if a handful does not clump.";
    case HandWarmth::warm: return "It is warm. Turn it, water it if a handful does not clump, and feel it again in a week.";
    case HandWarmth::cold: break;
  }
  if (felt.has_not_heated()) return {};  // told as a symptom
  if (felt.has_heated)
    return "It has cooled. Turn it, water it if a handful does not clump, and feel it each day for a week: if it does not warm again, let "
           "it cure for three weeks and then look whether it is finished (heapwright maturity).";
  return "It is too early to tell. A pile that heats does so within " + std::to_string(time_to_heat.count()) +
         " days or so; go on feeling it.";
}

std::string reheat_text(const Reheat& reheat, const WrittenTime& last, const Show& show) {
  const std::string turned = "turned on " + show_day(reheat.turned) + ": ";
  const std::string highest = show.temperature(reheat.highest);
  if (last.at() == reheat.turned.at()) return turned + "not measured since";
  if (reheat.warmed) return turned + "it warmed again, from " + show.temperature(reheat.lowest) + " to " + highest;
  if (std::min(reheat.lowest, reheat.latest) >= heated) return turned + "it stayed hot, up to " + highest + " in the week after";
  if (reheat.latest < reheat.lowest && reheat.highest >= heated)
    return turned + "it went on cooling, from " + show.temperature(reheat.lowest) + " to " + show.temperature(reheat.latest);
  if (last.at() - reheat.turned.at() < std::chrono::days(7)) return turned + "it has not warmed again yet, " + highest + " at most";
  return turned + "it did not warm again, " + highest + " at most in the week after";
}

/// "its C:N from 17 to 26 and its moisture from 68 % to 60 %": what the fix changes, as far as it shows.
std::string brought_text(const NoticedSign& noticed) {
  if (!noticed.mix || !noticed.mended || !noticed.mix->moisture || !noticed.mended->moisture) return {};
  std::string text;
  const auto change = [&](const std::string& what, const std::string& from, const std::string& to) {
    if (from != to) text += (text.empty() ? "" : " and ") + what + " from " + from + " to " + to;
  };
  const auto ratio = [](const Mix& mix) { return mix.carbon_to_nitrogen ? show_ratio(*mix.carbon_to_nitrogen) : std::string("none"); };
  change("its C:N", ratio(*noticed.mix), ratio(*noticed.mended));
  change("its moisture", show_moisture(*noticed.mix->moisture), show_moisture(*noticed.mended->moisture));
  return text;
}

std::string fix_text(const NoticedSign& noticed, const Materials& materials, const Show& show) {
  std::string added;
  const auto add = [&](const std::string& what) { added += (added.empty() ? "" : " and ") + what; };
  for (const RecipeAmount& amount : noticed.fix) {
    const bool by_mass = amount.counted_by_mass || (amount.volume.value() == 0.0);
    add((by_mass ? show.mass(amount.mass) : show_amount(amount.containers, amount.volume, materials, show)) + " of " + amount.name);
  }
  if (noticed.water.value() > 0.5) add(show.water(noticed.water) + " of water");
  if (added.empty()) return {};
  const std::string brings = brought_text(noticed);
  const std::string when = noticed.cause->fix_when.empty() ? "" : noticed.cause->fix_when + ", ";
  const std::string condition =
      noticed.cause->fix == Fix::water ? "if all you listed went in and no water since, " : "if all you listed went in, ";
  return when + condition + "add " + added + (brings.empty() ? "" : "; that brings " + brings) +
         (noticed.overfills ? "; it is more than fits, so make a second pile of the rest" : "");
}

/// A cause that is one of several, in a few lines.
std::string one_cause_text(const Cause& cause, const std::string& before = "") {
  return item(capital(before + cause.cause) + ". It is so if " + cause.check + ". Then " + cause.do_now + ".");
}

/// Of a pile of which nothing is known all causes, to choose from by looking.
std::string causes_to_choose_text(const NoticedSign& noticed) {
  const std::string name = capital(noticed.symptom->name);
  if (noticed.other_causes.empty()) return wrap(name + ".") + one_cause_text(*noticed.cause);
  std::string text = wrap(name + ". Look which of these it is:") + one_cause_text(*noticed.cause);
  for (const Cause* other : noticed.other_causes) text += one_cause_text(*other);
  return text;
}

std::string noticed_text(const NoticedSign& noticed, const Materials& materials, const Show& show) {
  if (!noticed.pile_is_known) return causes_to_choose_text(noticed);
  std::string text = wrap(capital(noticed.symptom->name) + ". Likely " + noticed.cause->cause + ".");
  text += item("it is so if " + noticed.cause->check);
  text += item("do now: " + noticed.cause->do_now);
  const std::string fix = fix_text(noticed, materials, show);
  if (!fix.empty()) text += item(fix);
  for (const Cause* other : noticed.other_causes) text += one_cause_text(*other, "or ");
  return text;
}

std::string all_noticed_text(const YardReadings& answer, const Materials& materials, const Show& show) {
  std::string text;
  for (const NoticedSign& noticed : answer.noticed) text += (text.empty() ? "" : "\n") + noticed_text(noticed, materials, show);
  return text;
}

std::string watched_text(const YardReadings& answer, const Show& show) {
  const Watched& seen = *answer.watched;
  std::string text = "\nWhat the log shows\n";
  const std::size_t probes = answer.log->probes.size();
  const std::string when = seen.readings == 1
                               ? "once, on " + show_day(seen.first)
                               : count_of(seen.readings, "time") + " from " + show_day(seen.first) + " to " + show_day(seen.last);
  text += item("measured " + when + (probes > 1 ? ", by " + std::to_string(probes) + " thermometers" : "") +
               (answer.log->air_passed_over ? "; that of the air is set aside" : ""));
  if (answer.readings_left_aside > 0)
    text += item("the log stands for the " + count_of(answer.readings_left_aside, "reading") + " in the yard file");
  text += item("hottest " + show_reading(seen.peak, show) + (probes > 1 ? " (" + answer.log->probes[seen.peak.probe] + ")" : ""));
  if (seen.too_hot)
    text += item("above " + show.temperature(too_hot) +
                 (seen.too_hot->length.count() == 0
                      ? ", by single readings, first on " + show_day(seen.too_hot->first)
                      : " from " + show_day(seen.too_hot->first) + " on, for " + show_length(seen.too_hot->length) + " in all"));
  const std::ptrdiff_t earlier = std::max<std::ptrdiff_t>(0, std::ssize(seen.reheats) - most_turnings);
  if (earlier > 0) text += item("turned " + count_of(earlier, "time") + " before these:");
  for (auto reheat = seen.reheats.begin() + earlier; reheat != seen.reheats.end(); ++reheat)
    text += item(reheat_text(*reheat, seen.last, show));
  if (seen.cool_since) text += item("below " + show.temperature(heated) + " since " + show_day(*seen.cool_since));
  if (seen.longest_gap > answer.gap)
    text += item("nothing was measured for " + show_length(seen.longest_gap) + " after " + show_day(*seen.gap_from));
  return text;
}

std::string by_hand_text(const std::vector<CoreReading>& felt) {
  if (felt.empty()) return {};
  std::string text = "\nBy hand\n";
  for (const CoreReading& reading : felt) {
    const HandWarmth warmth = std::get<HandWarmth>(reading.core);
    const char* words = warmth == HandWarmth::hot ? "hot" : warmth == HandWarmth::warm ? "warm" : "cold";
    text += item(show_day({std::chrono::sys_days(*reading.date), {}}) + ", " + words);
  }
  return text + wrap("  A hand tells hot from cold, and no more: the rules of composting sites need a thermometer.", 2);
}

/// "131 °F for 15 days, 5 turnings"
std::string asks(const TimeTemperatureRule& rule, const Show& show) {
  std::string text = show.temperature(rule.at_least);
  if (rule.at_most) text += " to " + show.temperature(*rule.at_most);
  text += " for " + show_length(rule.length);
  if (rule.turnings > 0) text += ", " + count_of(rule.turnings, "turning");
  if (rule.burst) text += ", above " + show.temperature(rule.burst->above) + " for " + show_length(rule.burst->length);
  return text;
}

std::string ended(const RuleResult& answer, const TemperatureLog& log, const Show& show) {
  const std::string probe =
      log.probes.size() > 1 && answer.ended_by >= 0 ? " (" + log.probes[static_cast<std::size_t>(answer.ended_by)] + ")" : "";
  switch (answer.end) {
    case StretchEnd::log_ends: return "then the log ends";
    case StretchEnd::no_reading: return "then nothing was measured for too long" + probe;
    case StretchEnd::too_cold: return "then it read " + show_exactly(*answer.ended_at, show) + probe;
    case StretchEnd::too_hot: return "then it was too hot, " + show_exactly(*answer.ended_at, show) + probe;
  }
  return {};
}

}  // namespace

std::string why_of_rule(const RuleResult& answer, const TemperatureLog& log, const Show& show) {
  const TimeTemperatureRule& rule = *answer.rule;
  if (!answer.gap)
    return "from " + show_day(answer.stretch->from) + " to " + show_day(answer.stretch->to) + ", " + show_length(answer.stretch->length());
  switch (*answer.gap) {
    case RuleGap::never_warm: return "never two readings in a row from " + show.temperature(rule.at_least) + " up";
    case RuleGap::too_hot: return "it was hotter than " + show.temperature(*rule.at_most);
    case RuleGap::too_far_apart: return "so hot, but its readings lie too far apart to count as one stretch";
    case RuleGap::too_short:
      return "the longest stretch, from " + show_day(answer.stretch->from) + ", lasted " + show_length(answer.stretch->length()) + "; " +
             ended(answer, log, show);
    case RuleGap::too_few_turnings:
      return count_of(answer.turnings, "turning") + " in its " + show_length(answer.stretch->length()) + " where " +
             std::to_string(rule.turnings) + " are asked for";
    case RuleGap::turnings_not_noted: return "long enough, but the log has no column \"event\" that notes the turnings";
    case RuleGap::burst_not_shown:
      return "read above " + show.temperature(rule.burst->above) + ", but not often enough to show " + show_length(rule.burst->length) +
             " of it: readings at most " + show_length(rule.burst->readings_apart) + " apart would";
    case RuleGap::no_burst:
      return "never " + show_length(rule.burst->length) + " above " + show.temperature(rule.burst->above) + " by readings at most " +
             show_length(rule.burst->readings_apart) + " apart";
  }
  return {};
}

std::string why_of_start(const StartingRatio& start) {
  const std::string window = show_ratio(start.rule->low) + ":1 to " + show_ratio(start.rule->high) + ":1";
  if (!start.carbon_to_nitrogen) return "what went in is not known";
  return "built by its recipe it began at about " + show_ratio(*start.carbon_to_nitrogen) + ":1, and " + window + " is asked for";
}

namespace {

std::string met_word(const std::optional<bool>& met) { return !met ? "cannot say" : *met ? "met" : "not met"; }

std::string rules_text(const YardReadings& answer, const Show& show) {
  std::string text = "\nHeld against the rules that composting sites go by\n";
  std::string never;
  for (const RuleResult& one : answer.rules) {
    if (one.gap == RuleGap::never_warm) {
      never += (never.empty() ? "" : "; ") + one.rule->name + " (" + asks(*one.rule, show) + ")";
      continue;
    }
    text += item(one.rule->name + ": " + asks(*one.rule, show));
    const bool more = one.stretch && one.total > one.stretch->length();
    text += wrap(
        "    " + met_word(one.met) + ": " + why_of_rule(one, *answer.log, show) + (more ? "; " + show_length(one.total) + " in all" : ""),
        4);
  }
  if (!never.empty()) text += item("not met, never so hot for two readings in a row: " + never);
  text += item(answer.starting_ratio.rule->name);
  text += wrap("    " + met_word(answer.starting_ratio.met) + ": " + why_of_start(answer.starting_ratio), 4);
  return text + wrap(
                    "  The coldest thermometer counts. A site shows with them that all of its pile got hot; a home pile's edges and base "
                    "stay cooler, so nobody can say of it that no germ or weed seed is left. The rules for vessels and aerated piles are "
                    "not for an open pile that is turned.",
                    2);
}

std::string rate_text(const RateFit& rate, const Show& show) {
  const auto one_decimal = [](double number) { return print_number(std::round(10.0 * number) / 10.0, 3); };
  const auto degrees = [&](double kelvin) {
    return std::to_string(std::lround(show.in_us_units() ? 1.8 * kelvin : kelvin)) + (show.in_us_units() ? " °F" : " °C");
  };
  if (!rate.tells)
    return "The log does not tell how fast it rots, since " +
           (rate.fits_none ? "at no rate the forecast core comes nearer to it than " + degrees(rate.misses_by_degc)
                           : std::string("many rates fit it about as well")) +
           ": the forecast keeps its own rate.";
  constexpr double closest_told = 1.0;  // °C: no thermometer in a pile is nearer
  const std::string factor = one_decimal(rate.factor);
  return "By its log it rots " + (factor == "1" ? std::string("as fast") : factor + " times as fast") + " as forecast (from " +
         one_decimal(rate.low) + " to " + one_decimal(rate.high) + " times" + "); the core then fits within " +
         degrees(std::max(rate.misses_by_degc, closest_told)) + ".";
}

std::string ready_text(const YardReadings& answer, const Materials& materials, const Show& show) {
  if (!answer.forecast || !(*answer.forecast)->forecast) return {};
  std::string text = "\nWhen it is ready\n";
  if ((*answer.forecast)->rate) {
    text += wrap("  " + rate_text(*(*answer.forecast)->rate, show), 2);
  } else {
    text += wrap("  There are too few days in the log, from the day it was built, to correct the forecast by it.", 2);
  }
  const HeatsOrNot& heats = (*answer.forecast)->forecast->heats;
  if (heats.by_its_log || heats.log_disagrees) text += text_of_heating(answer.forecast->result, materials, show);
  if (heats.log_disagrees) return text;
  text += text_of_readiness(*(*answer.forecast)->forecast);
  if ((*answer.forecast)->forecast->status == ForecastStatus::never)
    text += wrap("  " + text_of_why_never(*(*answer.forecast)->forecast), 2);
  return text;
}

}  // namespace

std::string text_of_pile_now(const YardReadings& answer, const Materials& materials, const Show& show) {
  std::string text = all_noticed_text(answer, materials, show);
  const std::string but = answer.noticed.empty() ? "" : "but for that ";
  std::string now;
  if (answer.felt_last) {
    now = what_now(*answer.felt_last, but);
  } else if (answer.watched) {
    now = what_now(*answer.watched, but, show);
  }
  if (!now.empty()) text += (text.empty() ? "" : "\n") + wrap(now);
  return text;
}

std::string text_of_readings(const Answer<YardReadings>& whole, const Materials& materials, const Show& show) {
  const YardReadings& answer = whole.result;
  std::string text = text_of_first_cautions(whole.cautions, materials);
  if (answer.smokes) return text + wait_for_the_fire;
  const std::string now = text_of_pile_now(answer, materials, show);
  text += now;
  if (answer.watched) {
    text += watched_text(answer, show);
  } else if (now.empty() && answer.by_hand.empty()) {
    text += wrap(
        "Nothing was measured yet. Push a long thermometer into the middle of the pile once a day, and write [[reading]] with date "
        "and core in the yard file, or keep a log and give it with --log.");
  }
  text += by_hand_text(answer.by_hand);
  if (answer.log) text += rules_text(answer, show);
  text += ready_text(answer, materials, show);
  if (answer.log || !answer.noticed.empty()) {
    const std::vector<Assumption> first(
        whole.assumptions.begin(),
        whole.assumptions.begin() + std::min<std::ptrdiff_t>(most_assumptions_by_log, std::ssize(whole.assumptions)));
    text += text_of_assumptions(first, std::nullopt, show);
  }
  return text + text_of_cautions(whole.cautions, materials);
}

}  // namespace heapwright
