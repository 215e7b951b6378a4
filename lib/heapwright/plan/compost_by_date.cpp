#include "heapwright/plan/compost_by_date.hpp"

#include <algorithm>

namespace heapwright {
namespace {

using std::chrono::sys_days;

std::vector<std::chrono::month> months_to_spread(const TopdressingPlan& plan) {
  if (!plan.months.empty()) return plan.months;
  return {grass_of(plan) == Grass::cool_season ? std::chrono::September : std::chrono::May};
}

/// What is screened by a day and was not by another.
CompostYield screened_between(const std::vector<CompostBatch>& batches, std::optional<Date> after, Date by) {
  constexpr std::chrono::days screening(14);  // common practice, no source
  CompostYield all{};
  for (const CompostBatch& batch : batches) {
    if (!batch.likely || !batch.screened) continue;
    const Date there(sys_days(*batch.likely) + screening);
    if (there > by || (after && there <= *after)) continue;
    all.low += batch.screened->low;
    all.likely += batch.screened->likely;
    all.high += batch.screened->high;
  }
  return all;
}

CompostYield sum_of(const CompostYield& one, const CompostYield& other) {
  return {one.low + other.low, one.likely + other.likely, one.high + other.high};
}
CompostYield at_most(const CompostYield& some, Volume most) {
  return {std::min(some.low, most), std::min(some.likely, most), std::min(some.high, most)};
}
CompostYield rest_of(const CompostYield& some, const CompostYield& taken) {
  return {some.low - taken.low, some.likely - taken.likely, some.high - taken.high};
}

}  // namespace

std::vector<SpreadingTime> times_to_spread(const TopdressingPlan& plan, Date after) {
  constexpr std::chrono::days worth_starting(7);  // judged
  constexpr std::chrono::days looked_ahead(550);  // a year and a half
  std::vector<SpreadingTime> times;
  for (const std::chrono::month month : months_to_spread(plan)) {
    for (int later = 0; later <= 2; ++later) {
      const std::chrono::year year = after.year() + std::chrono::years(later);
      const Date last(year / month / std::chrono::last);
      if (sys_days(last) < sys_days(after) + worth_starting || sys_days(last) > sys_days(after) + looked_ahead) continue;
      times.push_back({std::max(Date(year / month / std::chrono::day(1)), after), last});
    }
  }
  std::sort(times.begin(), times.end(), [](const SpreadingTime& one, const SpreadingTime& other) { return one.from < other.from; });
  return times;
}

std::vector<LawnByDate> lawn_by_date(const Topdressing& spread, const std::vector<CompostBatch>& batches, Date after) {
  std::vector<LawnByDate> lawn;
  CompostYield there{};
  std::optional<Date> before;
  for (const SpreadingTime& time : times_to_spread(spread.plan, after)) {
    there = sum_of(there, screened_between(batches, before, time.to));
    LawnByDate one{time, spread.volume_with_allowance, at_most(there, spread.volume_with_allowance), {}, {}};
    one.covers = std::min(spread.area, Area(spread.area * (one.own.likely / one.needed)));
    one.to_buy = one.needed - one.own.likely;
    there = rest_of(there, one.own);
    before = time.to;
    lawn.push_back(one);
  }
  return lawn;
}

}  // namespace heapwright
