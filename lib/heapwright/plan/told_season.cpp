#include <algorithm>

#include "heapwright/plan/told_season_parts.hpp"
#include "heapwright/recipe/amounts.hpp"
#include "heapwright/time/month.hpp"

namespace heapwright {
namespace {

constexpr double weeks_in_a_month = 365.0 / 12.0 / 7.0;

std::chrono::month month_at_place(std::size_t place) { return std::chrono::month(static_cast<unsigned>(place) + 1); }

/// Builds the answer of a year that is solved.
class Told {
 public:
  Told(YardSeason& season, const RecipeQuestion& counted, const ContainerCount& bucket)
      : season_(season), counted_(counted), bucket_(bucket), past_(std::max(0, months_between(season.from, season.today))) {}

  void tell() {
    tell_weeks();
    for (std::size_t i = 0; i < season_.supplies.size(); ++i) {
      if (season_.question.supplies[i].keeping == Keeping::dry) tell_store(i);
      if (season_.question.supplies[i].keeping == Keeping::bought) tell_bought(i);
    }
  }

 private:
  const MonthOfSupply& at(std::size_t m, std::size_t i) const { return season_.year.months[m].supplies[i]; }
  bool is_fresh(std::size_t i) const {
    const Keeping keeping = season_.question.supplies[i].keeping;
    return keeping == Keeping::fresh || keeping == Keeping::waits;
  }
  /// A hundredth of what there is of a month is as good as none.
  bool is_some(Mass part, std::size_t i) const {
    constexpr double hardly_any = 0.01;  // judged
    Mass whole;
    for (std::size_t m = 0; m < months_in_a_year; ++m) whole = std::max(whole, std::max(at(m, i).comes, at(m, i).used));
    return part > hardly_any * whole;
  }
  RecipeAmount amount(std::size_t i, Mass mass) const { return amount_of(counted_.supplies[i], mass); }
  /// As it goes in with a pail or a mowing.
  RecipeAmount by_the_bucket(std::size_t i, Mass mass) const { return amount_of(measured_in(counted_.supplies[i], bucket_), mass); }

  /// Whether as much comes in one month of the season as in another, but for their days.
  bool are_alike(int one, int other) const {
    constexpr double alike = 0.12;  // months of 28 and of 31 days are; judged
    for (std::size_t i = 0; i < season_.supplies.size(); ++i) {
      if (!is_fresh(i)) continue;
      const Mass a = at(place(one), i).comes / months_of(one);
      const Mass b = at(place(other), i).comes / months_of(other);
      if (std::max(a, b) - std::min(a, b) > alike * std::max(a, b)) return false;
    }
    return true;
  }

  /// The place in the year of a month of the season.
  std::size_t place(int later) const {
    return (static_cast<unsigned>(season_.from.month()) - 1 + static_cast<std::size_t>(later)) % months_in_a_year;
  }
  Date begin_of(int later) const { return later == 0 ? season_.from : first_of_month(season_.from, later); }
  double months_of(int later) const { return share_of_month_in(season_, later); }

  void tell_weeks() {
    int done = past_;
    while (done < season_.months) {
      int count = 1;
      while (done + count < season_.months && are_alike(done, done + count)) ++count;
      const WeekOfSeason week = mean_week(done, count);
      if (!week.greens.empty() || !week.left.empty()) season_.weeks.push_back(week);
      done += count;
    }
  }

  /// Over the months the mean, which lies within the windows as each of them does.
  WeekOfSeason mean_week(int begin, int count) const {
    const std::size_t from = place(begin);
    WeekOfSeason week{month_at_place(from),
                      month_at_place(place(begin + count - 1)),
                      begin_of(begin),
                      std::min(season_.until, end_of_month(season_.from, begin + count - 1)),
                      {},
                      {},
                      {},
                      {}};
    double months = 0.0;
    for (int later = begin; later < begin + count; ++later) months += months_of(later);
    const double weeks = std::max(1.0, weeks_in_a_month * months);
    for (std::size_t i = 0; i < season_.supplies.size(); ++i) {
      Mass used;
      Mass left;
      for (int later = begin; later < begin + count; ++later) {
        used += at(place(later), i).used;
        left += at(place(later), i).left;
      }
      used = used / weeks;
      left = left / weeks;
      if (is_some(weeks_in_a_month * used, i)) {
        if (is_fresh(i)) week.greens.push_back(amount(i, used));
        if (!is_fresh(i)) week.browns.push_back(by_the_bucket(i, used));
      }
      if (is_fresh(i) && is_some(weeks_in_a_month * left, i)) week.left.push_back(amount(i, left));
    }
    for (int later = begin; later < begin + count; ++later) week.water += season_.year.months[place(later)].water / weeks;
    return week;
  }

  /// What of it is kept as a month of the season ends; before its first what there is then, but for what nobody needs.
  Mass kept(int later, std::size_t i) const {
    if (later >= 0) return at(place(later), i).kept;
    return season_.after_pile ? std::max(Mass(), Mass(at(place(0), i).comes - all_left(i))) : Mass();
  }
  Mass all_left(std::size_t i) const {
    Mass left;
    for (const MonthOfYear& of : season_.year.months) left += of.supplies[i].left;
    return left;
  }

  void tell_store(std::size_t i) {
    const Mass left = all_left(i);
    constexpr double worth_a_word = 0.05;  // of what a pile left of it: judged
    const bool is_much = !season_.scraps_only && (!season_.after_pile || left > worth_a_word * at(place(0), i).comes);
    if (is_some(left, i) && is_much) season_.left_dry.push_back(amount(i, left));
    int fullest = std::min(past_, season_.months) - 1;
    const int till_new =
        season_.after_pile ? std::min(season_.months, std::max(0, months_between(season_.from, season_.new_browns))) : season_.months;
    for (int later = past_; later < till_new; ++later) {
      if (kept(later, i) > kept(fullest, i)) fullest = later;
    }
    const Mass most = kept(fullest, i);
    if (!is_some(most, i)) return;
    KeptDry held{amount(i, most), month_at_place(place(std::max(0, fullest))), std::nullopt, std::nullopt};
    constexpr double as_good_as_empty = 0.02;  // judged
    const int last = season_.after_pile ? season_.months - 1 : fullest + static_cast<int>(months_in_a_year) - 1;
    for (int later = fullest + 1; later <= last && !held.runs_out; ++later) {
      if (at(place(later), i).kept > as_good_as_empty * most) continue;
      held.lasts_to = month_at_place(place(later));
      held.runs_out = season_.after_pile ? std::min(season_.until, end_of_month(season_.from, later)) : end_of_month(season_.from, later);
    }
    season_.kept_dry.push_back(held);
  }

  void tell_bought(std::size_t i) {
    Mass bought;
    for (std::size_t m = 0; m < months_in_a_year; ++m) bought += at(m, i).bought;
    if (is_some(bought, i)) season_.bought.push_back(amount(i, bought));
  }

  YardSeason& season_;
  const RecipeQuestion& counted_;
  ContainerCount bucket_;
  int past_;  ///< months of the season that are over
};

}  // namespace

void tell_season(YardSeason& season, const RecipeQuestion& counted, const ContainerCount& bucket) { Told(season, counted, bucket).tell(); }

}  // namespace heapwright
