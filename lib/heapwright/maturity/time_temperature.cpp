#include "heapwright/maturity/time_temperature.hpp"

#include <algorithm>

namespace heapwright {
namespace {

using std::chrono::seconds;

/// Rows of a log, from one to another, both counted.
struct Span {
  std::size_t from;
  std::size_t to;
};
using Spans = std::vector<Span>;

seconds length_of(const TemperatureLog& log, Span span) { return log.rows[span.to].time.at() - log.rows[span.from].time.at(); }

/// The stretches of one thermometer: of readings that count, none further than the gap from the next.
template <class Counts>
Spans spans_of(const TemperatureLog& log, std::size_t probe, seconds gap, Counts counts) {
  Spans spans;
  bool open = false;
  for (std::size_t row = 0; row < log.rows.size(); ++row) {
    const std::optional<TemperaturePoint>& reading = log.rows[row].probes[probe];
    if (!reading) continue;
    if (!counts(*reading)) {
      open = false;
    } else if (open && length_of(log, {spans.back().to, row}) <= gap) {
      spans.back().to = row;
    } else {
      spans.push_back({row, row});
      open = true;
    }
  }
  return spans;
}

Spans overlaps(const Spans& one, const Spans& other) {
  Spans both;
  for (auto a = one.begin(), b = other.begin(); a != one.end() && b != other.end();) {
    const Span shared{std::max(a->from, b->from), std::min(a->to, b->to)};
    if (shared.from <= shared.to) both.push_back(shared);
    a->to < b->to ? ++a : ++b;
  }
  return both;
}

/// The stretches in which the readings of every thermometer count.
template <class Counts>
Spans spans_of_all(const TemperatureLog& log, seconds gap, Counts counts) {
  Spans spans = spans_of(log, 0, gap, counts);
  for (std::size_t probe = 1; probe < log.probes.size(); ++probe) spans = overlaps(spans, spans_of(log, probe, gap, counts));
  return spans;
}

int turnings_in(const TemperatureLog& log, Span span) {
  int turnings = 0;
  for (std::size_t row = span.from; row <= span.to; ++row) turnings += log.rows[row].turned ? 1 : 0;
  return turnings;
}

bool has_burst(const TemperatureLog& log, Span within, const Spans& bursts, seconds length) {
  return std::any_of(bursts.begin(), bursts.end(), [&](Span burst) {
    const Span shared{std::max(within.from, burst.from), std::min(within.to, burst.to)};
    return shared.from <= shared.to && length_of(log, shared) >= length;
  });
}

/// Where a thermometer leaves a stretch.
struct Leaving {
  seconds at = seconds::max();  ///< since the epoch
  StretchEnd end = StretchEnd::log_ends;
  std::optional<TemperaturePoint> reading;
};

Leaving leaving_of(const TimeTemperatureRule& rule, const TemperatureLog& log, std::size_t probe, Span span, seconds gap) {
  const auto time_of = [&](std::size_t row) { return log.rows[row].time.at().time_since_epoch(); };
  std::optional<seconds> last;
  for (std::size_t row = 0; row < log.rows.size(); ++row) {
    const std::optional<TemperaturePoint>& reading = log.rows[row].probes[probe];
    const bool late = last && row > span.to && time_of(row) - *last > gap;
    if (late) return {*last + gap, StretchEnd::no_reading, std::nullopt};
    if (!reading) continue;
    last = time_of(row);
    if (row <= span.to) continue;
    if (*reading < rule.at_least) return {*last, StretchEnd::too_cold, reading};
    if (rule.at_most && *reading > *rule.at_most) return {*last, StretchEnd::too_hot, reading};
  }
  return {};
}

/// What the first thermometer to leave a stretch showed.
void tell_end(const TimeTemperatureRule& rule, const TemperatureLog& log, Span span, seconds gap, RuleResult& answer) {
  Leaving first;
  for (std::size_t probe = 0; probe < log.probes.size(); ++probe) {
    const Leaving leaving = leaving_of(rule, log, probe, span, gap);
    if (!(leaving.at < first.at)) continue;
    first = leaving;
    answer.ended_by = static_cast<int>(probe);
  }
  answer.end = first.end;
  answer.ended_at = first.reading;
}

/// Why there is no stretch at all.
void tell_none(const TimeTemperatureRule& rule, const TemperatureLog& log, RuleResult& answer) {
  const auto any = [&](auto counts) {
    const Spans spans = spans_of_all(log, seconds::max(), counts);
    return std::any_of(spans.begin(), spans.end(), [&](Span span) { return length_of(log, span) > seconds(0); });
  };
  const auto warm = [&](TemperaturePoint reading) { return reading >= rule.at_least; };
  const auto counts = [&](TemperaturePoint reading) { return warm(reading) && (!rule.at_most || reading <= *rule.at_most); };
  if (any(counts)) {
    answer.gap = RuleGap::too_far_apart;
    return;
  }
  answer.met = false;
  answer.gap = any(warm) ? RuleGap::too_hot : RuleGap::never_warm;
}

enum class Standing { too_short, few_turnings, no_burst, meets };

RuleResult judge_at(const TimeTemperatureRule& rule, const TemperatureLog& log, seconds gap) {
  const Spans spans = spans_of_all(
      log, gap, [&](TemperaturePoint reading) { return reading >= rule.at_least && (!rule.at_most || reading <= *rule.at_most); });
  Spans bursts;
  Spans bursts_unseen;  // with readings too far apart to show them
  if (rule.burst) {
    const auto counts = [&](TemperaturePoint reading) { return reading > rule.burst->above; };
    bursts = spans_of_all(log, std::min(gap, rule.burst->readings_apart), counts);
    bursts_unseen = spans_of_all(log, gap, counts);
  }
  const auto standing_of = [&](Span span) {
    if (!(length_of(log, span) >= rule.length)) return Standing::too_short;
    if (turnings_in(log, span) < rule.turnings) return Standing::few_turnings;
    if (rule.burst && !has_burst(log, span, bursts, rule.burst->length)) return Standing::no_burst;
    return Standing::meets;
  };

  RuleResult answer;
  answer.rule = &rule;
  std::optional<Span> best;
  Standing standing = Standing::too_short;
  for (const Span span : spans) {
    answer.total += length_of(log, span);
    answer.longest = std::max(answer.longest, length_of(log, span));
    const Standing here = standing_of(span);
    const bool better = !best || here > standing || (here == standing && length_of(log, span) > length_of(log, *best));
    if (!better) continue;
    best = span;
    standing = here;
  }
  if (!best || length_of(log, *best) == seconds(0)) {
    tell_none(rule, log, answer);
    return answer;
  }
  answer.stretch = Stretch{log.rows[best->from].time, log.rows[best->to].time};
  answer.turnings = turnings_in(log, *best);
  tell_end(rule, log, *best, gap, answer);
  answer.met = standing == Standing::meets;
  if (standing == Standing::too_short) answer.gap = RuleGap::too_short;
  if (standing == Standing::no_burst) {
    const bool unseen = has_burst(log, *best, bursts_unseen, rule.burst->length);
    answer.gap = unseen ? RuleGap::burst_not_shown : RuleGap::no_burst;
    if (unseen) answer.met.reset();
  }
  if (standing == Standing::few_turnings) {
    answer.gap = log.notes_events ? RuleGap::too_few_turnings : RuleGap::turnings_not_noted;
    if (!log.notes_events) answer.met.reset();
  }
  return answer;
}

}  // namespace

RuleResult judge(const TimeTemperatureRule& rule, const TemperatureLog& log, seconds gap) {
  RuleResult result = judge_at(rule, log, gap);
  const bool is_short = result.gap == RuleGap::too_far_apart || result.gap == RuleGap::too_short;
  if (gap >= missed_day || !is_short) return result;
  const std::optional<Stretch> bridged = judge_at(rule, log, missed_day).stretch;
  if (bridged && (!result.stretch || bridged->length() > result.stretch->length())) result.over_a_missed_day = bridged;
  return result;
}

}  // namespace heapwright
