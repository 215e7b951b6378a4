#include "heapwright/plan/calendar.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/time/days.hpp"

namespace heapwright {
namespace {

using std::chrono::sys_days;

constexpr int result_takes = 42;  // a soil sample, its way and its answer
constexpr int rests = 30;         // days; common practice, no source

class Calendar {
 public:
  Calendar(const Yard& yard, const Plan& plan, Date today) : yard_(yard), plan_(plan), today_(today) {}

  std::vector<CalendarChore> chores() {
    add_first_pile();
    if (plan_.leaves_alone) add_leaves(*plan_.leaves_alone);
    if (plan_.greens_alone) add_greens();
    for (std::size_t i = 1; i < plan_.batches.size(); ++i) add_batch(plan_.batches[i], static_cast<int>(i) + 1);
    if (plan_.season && plan_.is_for_a_pile()) add_browns(*plan_.season);
    if (plan_.topdressing) add_lawn();
    const auto rank = [](const CalendarChore& chore) { return chore.what.id == "get-browns" ? 0 : 1; };  // or scraps stink
    std::stable_sort(chores_.begin(), chores_.end(), [&](const CalendarChore& one, const CalendarChore& other) {
      return one.from == other.from ? rank(one) < rank(other) : one.from < other.from;
    });
    return std::move(chores_);
  }

 private:
  void add_leaves(const LeavesAlone& leaves) {
    const auto add_some = [&](const char* id, Date from, Date to, const RecipeAmount& amount) {
      if (CalendarChore* chore = add(id, from, to)) chore->amounts.push_back(amount);
    };
    const Date winter(today_.year() / std::chrono::December / 15);
    if (leaves.mulch) add_some("mulch-leaves", today_, std::max(winter, today_), *leaves.mulch);
    if (today_ < leaves.build) add_some("keep-dry", today_, later_by(today_, 14), leaves.keep);
    if (leaves.mold) add_some("leaf-mold", today_, later_by(today_, 14), *leaves.mold);
    if (CalendarChore* chore = add("first-clippings", leaves.build, later_by(leaves.build, 30)))
      chore->amounts = {leaves.keep, leaves.clippings};
  }

  /// In the months of mowing that come next; of scraps, browns first.
  void add_greens() {
    const std::optional<RecipeAmount> wanted = plan_.season ? plan_.season->wanted_for_scraps : std::nullopt;
    if (wanted && is_positive(wanted->mass)) {
      if (CalendarChore* chore = add("get-browns", today_, later_by(today_, 30))) chore->amounts.push_back(*wanted);
    }
    for (const Supply& clippings : yard_.supplies) {
      if (clippings.feedstock.feedstock_class != FeedstockClass::clippings) continue;
      const std::optional<Season> season = season_of(clippings);
      const std::chrono::month first = season ? season->months.front() : std::chrono::January;
      const std::chrono::month last = season ? season->months.back() : std::chrono::December;
      const bool over = Date(today_.year() / last / std::chrono::last) < today_;
      const std::chrono::year year = over ? today_.year() + std::chrono::years(1) : today_.year();
      add("grasscycle", Date(year / first / std::chrono::day(1)), Date(year / last / std::chrono::last));
    }
  }

  CalendarChore* add(const char* id, Date from, Date to) {
    if (to < today_) return nullptr;
    chores_.push_back({known_row(*yard_.tables.chores, id), std::max(from, today_), to});
    return &chores_.back();
  }
  void add_about(const char* id, Date from, Date to) {
    if (CalendarChore* chore = add(id, from, to)) chore->about = true;
  }
  CalendarChore* add_every(const char* id, Date from, Date to, std::chrono::days every) {
    while (from < today_) from = Date(sys_days(from) + every);
    if (to < from) return nullptr;
    Date last = from;
    while (to >= Date(sys_days(last) + every)) last = Date(sys_days(last) + every);
    CalendarChore* chore = add(id, from, last);
    if (chore != nullptr) chore->every = every;
    return chore;
  }

  /// The first pile, built or to be built, with a forecast or without.
  void add_first_pile() {
    if (!plan_.is_for_a_pile() || !has_size(plan_.recipe.result)) return;
    constexpr int turned_without_a_forecast = 84;  // twelve weeks: judged
    if (!plan_.stands) add("build", plan_.built, plan_.built);
    const std::optional<Date> done = plan_.batches.empty() ? std::nullopt : plan_.batches.front().likely;
    const Date rest_from = done ? later_by(*done, -rests) : later_by(plan_.built, turned_without_a_forecast);
    const bool is_fed = plan_.batches.empty() || plan_.batches.front().from != plan_.batches.front().until;
    constexpr int a_year = 366;  // no season is longer
    const Date last = plan_.loads.empty() ? plan_.built : std::max(plan_.built, plan_.loads.back().date);
    if (plan_.stands == Stands::by_word && plan_.batches.empty()) {  // it is taken as what it is
      if (CalendarChore* chore = add("next-place", today_, later_by(today_, 6))) chore->batch = 2;
      add_feeding(today_, later_by(today_, a_year), 2);
    } else if (is_fed) {
      add_feeding(last, plan_.batches.empty() ? later_by(today_, a_year) : plan_.batches.front().until, 1);
    }
    if (is_tumbler() && !plan_.recipe->cards.empty()) add_topping_up(plan_.recipe->cards.front(), rest_from);
    add_care(plan_.built, rest_from, 1);
    if (done) add_end(*done, 1);
  }

  bool is_tumbler() const { return yard_.pile && yard_.pile->shape == PileShape::tumbler; }

  /// Each fortnight, as it sinks. (common practice, no source)
  void add_topping_up(const Card& card, Date rest_from) {
    CalendarChore* chore = add_every("top-up", later_by(plan_.built, 14), rest_from, std::chrono::days(14));
    if (chore == nullptr) return;
    chore->amounts = {card.greens};
    chore->amounts.insert(chore->amounts.end(), card.browns.begin(), card.browns.end());
    chore->batch = 1;
  }

  void add_batch(const CompostBatch& batch, int number) {
    const bool same_bin = batch.bin > 0 && batch.bin == plan_.batches[static_cast<std::size_t>(number) - 2].bin;
    const char* begin = same_bin ? "same-bin" : batch.bin > 0 ? "next-bin" : "next-place";
    if (CalendarChore* chore = add(begin, batch.from, later_by(batch.from, 6))) chore->batch = number;
    add_feeding(later_by(batch.from, -7), batch.until, number);
    const Date rest_from = batch.likely ? later_by(*batch.likely, -rests) : batch.until;
    const std::optional<Date> before = plan_.batches[static_cast<std::size_t>(number) - 2].likely;  // till then one round does for both
    add_care(std::max(batch.from, before ? later_by(*before, -rests) : batch.from), rest_from, number);
    if (batch.likely) add_end(*batch.likely, number);
  }

  /// Each week from the one after a day on, as the season has it.
  void add_feeding(Date after, Date until, int number) {
    if (!plan_.season) return;
    for (const WeekOfSeason& week : plan_.season->weeks) {
      if (week.greens.empty()) continue;
      Date from = later_by(after, 7);
      while (from < week.first) from = later_by(from, 7);
      CalendarChore* chore = add_every("feed", from, std::min(until, week.last), std::chrono::days(7));
      if (chore == nullptr) continue;
      chore->week = week;
      chore->batch = number;
    }
  }

  void add_care(Date begun, Date rest_from, int number) {
    const std::size_t before = chores_.size();
    constexpr int squeezed_every = 14;  // common practice, no source
    if (yard_.pile && yard_.pile->turn_every) {
      const std::chrono::days every(std::max(1L, std::lround(*yard_.pile->turn_every / unit::day)));
      add_every(is_tumbler() ? "rotate" : "turn", Date(sys_days(begun) + every), rest_from, every);
    } else {
      add_every("squeeze", later_by(begun, squeezed_every), rest_from, std::chrono::days(squeezed_every));
    }
    if (number == 1) add_cover(begun, rest_from);
    for (std::size_t i = before; i < chores_.size(); ++i) chores_[i].batch = number;
  }

  void add_end(Date done, int number) {
    const std::size_t before = chores_.size();
    add_about("cure", later_by(done, -rests), done);
    add_about("test", done, later_by(done, 14));
    add_about("screen", later_by(done, 14), later_by(done, 28));
    for (std::size_t i = before; i < chores_.size(); ++i) chores_[i].batch = number;
  }

  /// In mid-November, of what stands open then.
  void add_cover(Date begun, Date until) {
    if (yard_.pile && (yard_.pile->covered || is_tumbler())) return;
    const Date begins = std::max(begun, today_);
    const Date november(begins.year() / std::chrono::November / 15);
    const Date last(begins.year() / std::chrono::November / 30);
    if (until >= november && last >= begins) add("cover", std::max(november, begins), last);
  }

  /// Browns are gathered when they fall, kept dry, and got anew before they run out.
  void add_browns(const YardSeason& season) {
    const Date begins = season.after_pile ? season.from : today_;
    if (!season.kept_dry.empty()) {
      if (CalendarChore* chore = add("keep-dry", begins, later_by(begins, 6)))
        for (const KeptDry& kept : season.kept_dry) chore->amounts.push_back(kept.most);
    }
    constexpr int till_new_ones = 120;          // days: judged
    if (season.scraps_only && !is_tumbler()) {  // which takes what it takes
      if (CalendarChore* chore = add("get-browns", later_by(season.until, -14), later_by(season.until, till_new_ones))) {
        if (season.wanted_for_scraps) chore->amounts.push_back(*season.wanted_for_scraps);
      }
    }
    std::optional<Date> last;
    for (const KeptDry& kept : season.kept_dry) {
      if (kept.runs_out && (!last || *last < *kept.runs_out)) last = kept.runs_out;
    }
    const bool leaves_come = std::any_of(season.supplies.begin(), season.supplies.end(), [](const Supply& supply) {
      return supply.storable && !supply.bought && !std::holds_alternative<std::monostate>(supply.when);
    });
    if (leaves_come && season.after_pile && season.from < season.new_browns)
      add("next-pile", season.new_browns, later_by(season.new_browns, 60));
    if (leaves_come) {
      for (const Supply& supply : season.supplies) {
        const std::optional<Season> comes = supply.storable && !supply.bought ? season_of(supply) : std::nullopt;
        if (comes) add_gathering(season, *comes);
      }
    } else if (last && !season.scraps_only) {
      add("get-browns", later_by(*last, -14), *last);
    }
  }

  /// In the next run of its months that is not begun when the season is.
  void add_gathering(const YardSeason& season, const Season& comes) {
    const std::chrono::month first = comes.months.front();
    const Date after = season.after_pile ? season.from : today_;
    std::chrono::year year = after.year();
    const auto begins = [&] { return Date(year / first / std::chrono::day(1)); };
    while (season.after_pile ? after >= begins() : later_by(begins(), 61) < after) ++year;
    const bool over_new_year = comes.months.back() < first;
    add("gather", begins(), Date((over_new_year ? year + std::chrono::years(1) : year) / comes.months.back() / std::chrono::last));
  }

  void add_lawn() {
    const Topdressing& spread = plan_.topdressing->result;
    if (spread.advice.phosphorus == PhosphorusVerdict::hold) {
      add("ask-extension", today_, later_by(today_, 14));
      return;
    }
    const bool wants_a_test = wants_soil_test(spread);
    if (plan_.lawn_by_date.empty()) return;
    const SpreadingTime time = plan_.lawn_by_date.front().time;
    if (wants_a_test) {
      const Date sample = std::max(today_, later_by(time.from, -56));
      add("soil-sample", sample, later_by(sample, 14));
      add("by-the-result", later_by(sample, 28), std::max(later_by(sample, 28), later_by(time.from, -7)));
    }
    add("screwdriver", later_by(time.from, -21), std::max(later_by(time.from, -14), today_));
    if (is_positive(plan_.lawn_by_date.front().to_buy)) add("order", later_by(time.from, -14), std::max(later_by(time.from, -7), today_));
    add("mark-lines", later_by(time.from, -7), std::max(later_by(time.from, -3), today_));
    add("topdress", time.from, time.to);
    add("water-in", time.from, time.to);
  }

  const Yard& yard_;
  const Plan& plan_;
  Date today_;
  std::vector<CalendarChore> chores_;
};

}  // namespace

bool wants_soil_test(const Topdressing& spread) {
  return !spread.plan.soil_test || spread.advice.phosphorus != PhosphorusVerdict::go || spread.advice.soil_test_age == SoilTestAge::too_old;
}

Date earliest_spreading(const Topdressing& spread, Date today) { return wants_soil_test(spread) ? later_by(today, result_takes) : today; }

std::vector<CalendarChore> calendar_of(const Yard& yard, const Plan& plan, Date today) { return Calendar(yard, plan, today).chores(); }

}  // namespace heapwright
