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

/// What the first thermometer to leave a stretch showed after it.
void tell_end(const TimeTemperatureRule& rule, const TemperatureLog& log, Span span, seconds gap, RuleAnswer& answer) {
  for (std::size_t row = span.to + 1; row < log.rows.size(); ++row) {
    for (std::size_t probe = 0; probe < log.probes.size(); ++probe) {
      const std::optional<TemperaturePoint>& reading = log.rows[row].probes[probe];
      if (!reading) continue;
      const bool too_cold = *reading < rule.at_least;
      const bool too_hot = rule.at_most && *reading > *rule.at_most;
      const bool too_late = length_of(log, {span.to, row}) > gap;
      if (!too_cold && !too_hot && !too_late) continue;
      answer.end = too_late ? StretchEnd::no_reading : too_cold ? StretchEnd::too_cold : StretchEnd::too_hot;
      answer.ended_by = static_cast<int>(probe);
      answer.ended_at = reading;
      return;
    }
  }
}

enum class Standing { too_short, few_turnings, no_burst, meets };

}  // namespace

RuleAnswer judge(const TimeTemperatureRule& rule, const TemperatureLog& log, seconds gap) {
  const Spans spans = spans_of_all(
      log, gap, [&](TemperaturePoint reading) { return reading >= rule.at_least && (!rule.at_most || reading <= *rule.at_most); });
  Spans bursts;
  if (rule.burst) {
    bursts =
        spans_of_all(log, std::min(gap, rule.burst->readings_apart), [&](TemperaturePoint reading) { return reading > rule.burst->above; });
  }
  const auto standing_of = [&](Span span) {
    if (!(length_of(log, span) >= rule.length)) return Standing::too_short;
    if (turnings_in(log, span) < rule.turnings) return Standing::few_turnings;
    if (rule.burst && !has_burst(log, span, bursts, rule.burst->length)) return Standing::no_burst;
    return Standing::meets;
  };

  RuleAnswer answer;
  answer.rule = &rule;
  std::optional<Span> best;
  Standing standing = Standing::too_short;
  for (const Span span : spans) {
    answer.total += length_of(log, span);
    const Standing here = standing_of(span);
    const bool better = !best || here > standing || (here == standing && length_of(log, span) > length_of(log, *best));
    if (!better) continue;
    best = span;
    standing = here;
  }
  if (!best || length_of(log, *best) == seconds(0)) {
    answer.met = false;
    answer.gap = RuleGap::never_warm;
    return answer;
  }
  answer.stretch = Stretch{log.rows[best->from].time, log.rows[best->to].time};
  answer.turnings = turnings_in(log, *best);
  tell_end(rule, log, *best, gap, answer);
  answer.met = standing == Standing::meets;
  if (standing == Standing::too_short) answer.gap = RuleGap::too_short;
  if (standing == Standing::no_burst) answer.gap = RuleGap::no_burst;
  if (standing == Standing::few_turnings) {
    answer.gap = log.notes_events ? RuleGap::too_few_turnings : RuleGap::turnings_not_noted;
    if (!log.notes_events) answer.met.reset();
  }
  return answer;
}

}  // namespace heapwright
