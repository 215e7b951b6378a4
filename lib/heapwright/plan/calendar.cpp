#include "heapwright/plan/calendar.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/plan/plan.hpp"

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

Date later(Date day, int count) { return Date(sys_days(day) + days(count)); }
Date later_of(Date one, Date other) { return sys_days(one) < sys_days(other) ? other : one; }
bool is_before(Date one, Date other) { return sys_days(one) < sys_days(other); }

/// Days of one month.
struct SpreadingTime {
  Date from;
  Date to;
};

constexpr int result_takes = 42;   // a soil sample, its way and its answer
constexpr int worth_starting = 7;  // days left of a month

std::vector<std::chrono::month> months_to_spread(const TopdressingPlan& plan) {
  if (!plan.months.empty()) return plan.months;
  return {grass_of(plan) == Grass::cool_season ? std::chrono::September : std::chrono::May};
}

/// The first of the plan's months that has a week and more of it after a day.
SpreadingTime next_time_to_spread(const TopdressingPlan& plan, Date after) {
  std::optional<SpreadingTime> next;
  for (const std::chrono::month month : months_to_spread(plan)) {
    for (const std::chrono::year year : {after.year(), after.year() + std::chrono::years(1)}) {
      const Date last(year / month / std::chrono::last);
      if (sys_days(last) < sys_days(after) + days(worth_starting)) continue;
      const Date first = later_of(Date(year / month / std::chrono::day(1)), after);
      if (!next || is_before(first, next->from)) next = SpreadingTime{first, last};
    }
  }
  return *next;
}

class Calendar {
 public:
  Calendar(const Yard& yard, const Plan& plan, Date today) : yard_(yard), plan_(plan), today_(today) {}

  std::vector<CalendarChore> chores() {
    if (has_size(plan_.recipe.result)) add_pile();
    if (plan_.topdressing) add_lawn();
    std::stable_sort(chores_.begin(), chores_.end(), [](const CalendarChore& one, const CalendarChore& other) { return is_before(one.from, other.from); });
    return std::move(chores_);
  }

 private:
  CalendarChore* add(const char* id, Date from, Date to) {
    if (is_before(to, today_)) return nullptr;
    chores_.push_back({known_row(*yard_.tables.chores, id), later_of(from, today_), to});
    return &chores_.back();
  }
  void add_about(const char* id, Date from, Date to) {
    if (CalendarChore* chore = add(id, from, to)) chore->about = true;
  }
  void add_every(const char* id, Date from, Date to, days every) {
    while (is_before(from, today_)) from = Date(sys_days(from) + every);
    if (is_before(to, from)) return;
    if (CalendarChore* chore = add(id, from, to)) chore->every = every;
  }

  /// When the forecast most likely calls it ready for a lawn.
  std::optional<Date> ready() const {
    if (!plan_.forecast || !(*plan_.forecast)->forecast) return std::nullopt;
    const Forecast& forecast = *(*plan_.forecast)->forecast;
    constexpr double as_likely_as_not = 0.5;
    const std::optional<HeatingBranch>& branch =
        forecast.heats.chance >= as_likely_as_not ? forecast.heats.if_it_heats : forecast.heats.if_not;
    const ReadyWindow& window = forecast.turf.likely || !branch ? forecast.turf : branch->turf;
    return window.likely ? std::optional(date_of(forecast, *window.likely)) : std::nullopt;
  }

  void add_pile() {
    constexpr int rests = 30;
    constexpr int turned_without_a_forecast = 84;  // twelve weeks
    const std::optional<Date> done = ready();
    const Date rest_from = done ? later(*done, -rests) : later(plan_.built, turned_without_a_forecast);
    add("build", plan_.built, plan_.built);
    if (const auto& feeding = plan_.recipe->feeding)
      add_every("feed", feeding->from, is_before(rest_from, feeding->until) && done ? rest_from : feeding->until, days(7));
    if (yard_.pile && yard_.pile->turn_every) {
      const days every(std::max(1L, std::lround(*yard_.pile->turn_every / unit::day)));
      add_every("turn", Date(sys_days(plan_.built) + every), rest_from, every);
    }
    add_cover(rest_from);
    if (!done) return;
    add_about("cure", rest_from, *done);
    add_about("test", *done, later(*done, 14));
    add_about("screen", later(*done, 14), later(*done, 28));
  }

  /// In mid-November, of what stands open then.
  void add_cover(Date until) {
    if (yard_.pile && (yard_.pile->covered || yard_.pile->shape == PileShape::tumbler)) return;
    const Date begins = later_of(plan_.built, today_);
    const Date november(begins.year() / std::chrono::November / 15);
    if (!is_before(until, november))
      add("cover", later_of(november, begins), later_of(Date(begins.year() / std::chrono::November / 30), begins));
  }

  void add_lawn() {
    const Topdressing& spread = plan_.topdressing->result;
    if (spread.advice.phosphorus == PhosphorusVerdict::hold) {
      add("ask-extension", today_, later(today_, 14));
      return;
    }
    const bool wants_a_test = !yard_.topdressing.soil_test || spread.advice.phosphorus != PhosphorusVerdict::go ||
                              spread.advice.soil_test_age == SoilTestAge::too_old;
    const SpreadingTime time = next_time_to_spread(yard_.topdressing, wants_a_test ? later(today_, result_takes) : today_);
    if (wants_a_test) {
      const Date sample = later_of(today_, later(time.from, -56));
      add("soil-sample", sample, later(sample, 14));
      add("by-the-result", later(sample, 28), later_of(later(sample, 28), later(time.from, -7)));
    }
    add("screwdriver", later(time.from, -21), later_of(later(time.from, -14), today_));
    if (plan_.supply.to_buy && is_positive(*plan_.supply.to_buy))
      add("order", later(time.from, -14), later_of(later(time.from, -7), today_));
    add("mark-lines", later(time.from, -7), later_of(later(time.from, -3), today_));
    add("topdress", time.from, time.to);
    add("water-in", time.from, time.to);
  }

  const Yard& yard_;
  const Plan& plan_;
  Date today_;
  std::vector<CalendarChore> chores_;
};

}  // namespace

std::vector<CalendarChore> calendar_of(const Yard& yard, const Plan& plan, Date today) { return Calendar(yard, plan, today).chores(); }

}  // namespace heapwright
