#include "heapwright/page/rule_words.hpp"

namespace heapwright {
namespace {

DayOfMonth day_of(const WrittenTime& time) { return {time.day()}; }

Words turnings(int count) { return Count{static_cast<double>(count), "turning"}; }

/// The thermometer that ended a stretch, where there are several.
Words probe_that_ended(const RuleResult& result, const TemperatureLog& log) {
  if (log.probes.size() < 2 || result.ended_by < 0) return {};
  return say(" ({})", log.probes[static_cast<std::size_t>(result.ended_by)]);
}

/// How to count over a missed day, where that broke it.
Words over_a_missed_day(const RuleResult& result) {
  if (!result.over_a_missed_day) return {};
  return say(" (a day was missed: if it stayed hot then, --gap \"{} h\" counts across it, {})",
             Number{static_cast<double>(std::chrono::duration_cast<std::chrono::hours>(missed_day).count())},
             Span{result.over_a_missed_day->length()});
}

Words ended(const RuleResult& result, const TemperatureLog& log) {
  const Words probe = probe_that_ended(result, log);
  switch (result.end) {
    case StretchEnd::log_ends: return "then the log ends";
    case StretchEnd::no_reading: return say("then nothing was measured for too long{}", probe);
    case StretchEnd::too_cold: return say("then it read {}{}", ExactTemperature{*result.ended_at}, probe);
    case StretchEnd::too_hot: return say("then it was too hot, {}{}", ExactTemperature{*result.ended_at}, probe);
  }
  return {};
}

Words why_not(RuleGap gap, const RuleResult& result, const TemperatureLog& log) {
  const TimeTemperatureRule& rule = *result.rule;
  switch (gap) {
    case RuleGap::never_warm: return say("never two readings in a row from {} up", rule.at_least);
    case RuleGap::too_hot: return say("it was hotter than {}", *rule.at_most);
    case RuleGap::too_far_apart:
      return say("it was hot enough, but its readings are too far apart to count as one stretch{}", over_a_missed_day(result));
    case RuleGap::too_short:
      return say("the longest stretch, from {}, lasted {}; {}{}", day_of(result.stretch->from), Span{result.stretch->length()},
                 ended(result, log), over_a_missed_day(result));
    case RuleGap::too_few_turnings:
      return say("{} in its {} where {} are asked for", turnings(result.turnings), Span{result.stretch->length()},
                 Number{static_cast<double>(rule.turnings)});
    case RuleGap::turnings_not_noted: return "long enough, but the log has no column \"event\" that notes the turnings";
    case RuleGap::burst_not_shown:
      return say("read above {}, but not often enough to show {} of it: readings at most {} apart would", rule.burst->above,
                 Span{rule.burst->length}, Span{rule.burst->readings_apart});
    case RuleGap::no_burst:
      return say("never {} above {} by readings at most {} apart", Span{rule.burst->length}, rule.burst->above,
                 Span{rule.burst->readings_apart});
  }
  return {};
}

}  // namespace

Words why_of_rule(const RuleResult& result, const TemperatureLog& log) {
  if (result.gap) return why_not(*result.gap, result, log);
  const Stretch& stretch = *result.stretch;
  return say("from {} to {}, {}", day_of(stretch.from), day_of(stretch.to), Span{stretch.length()});
}

Words why_of_start(const StartingRatio& start) {
  if (!start.carbon_to_nitrogen) return "what went in is not known";
  return say("built by its recipe it began at about {}:1, and {}:1 to {}:1 is asked for", *start.carbon_to_nitrogen, start.rule->low,
             start.rule->high);
}

Words what_a_rule_asks(const TimeTemperatureRule& rule) {
  Words words = rule.at_most ? say("{} to {}", rule.at_least, *rule.at_most) : Words(rule.at_least);
  words += say(" for {}", Span{rule.length});
  if (rule.turnings > 0) words += say(", {}", turnings(rule.turnings));
  if (rule.burst) words += say(", above {} for {}", rule.burst->above, Span{rule.burst->length});
  return words;
}

}  // namespace heapwright
