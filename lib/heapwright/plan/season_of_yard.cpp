#include "heapwright/plan/season_of_yard.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/assume.hpp"
#include "heapwright/recipe/amounts.hpp"

namespace heapwright {
namespace {

using std::chrono::month;
using std::chrono::sys_days;

constexpr double weeks_in_a_month = 365.0 / 12.0 / 7.0;

month month_at(std::size_t index) { return month(static_cast<unsigned>(index) + 1); }
std::size_t index_of(month of) { return static_cast<unsigned>(of) - 1; }

/// The last day of the month that is so many after a day's.
Date end_of_month(Date day, int later) {
  const auto that = std::chrono::year_month(day.year(), day.month()) + std::chrono::months(later);
  return Date(that / std::chrono::last);
}
int days_in_month(Date day) { return static_cast<int>(static_cast<unsigned>(end_of_month(day, 0).day())); }
/// Of the days of its month those up to a day.
double share_of_month_over(Date day) { return static_cast<double>(static_cast<unsigned>(day.day())) / days_in_month(day); }
/// Those from a day on.
double share_of_month_left(Date day) {
  return static_cast<double>(days_in_month(day) + 1 - static_cast<int>(static_cast<unsigned>(day.day()))) / days_in_month(day);
}
int months_between(Date from, Date to) {
  return (static_cast<int>(to.year()) - static_cast<int>(from.year())) * 12 + static_cast<int>(static_cast<unsigned>(to.month())) -
         static_cast<int>(static_cast<unsigned>(from.month()));
}

/// What a yard may put in; what is said to carry weedkiller stays out, and so does what is mineral.
std::vector<Supply> supplies_of_a_year(const Yard& yard) {
  std::vector<Supply> supplies = yard.supplies;
  std::erase_if(supplies, [](const Supply& supply) {
    const FeedstockClass sort = supply.feedstock.feedstock_class;
    const bool has_some = supply.bought || supply.use == Use::unlimited || (supply.amount && !is_zero(*supply.amount));
    return supply.may_carry_weedkiller() || !has_some || !supply.density() || sort == FeedstockClass::mineral;
  });
  return supplies;
}

Keeping keeping_of(const Supply& supply) {
  if (supply.bought || supply.use == Use::unlimited) return Keeping::bought;
  const bool keeps = supply.storable ||
                     (std::holds_alternative<std::monostate>(supply.when) && supply.feedstock.feedstock_class == FeedstockClass::keeper);
  if (keeps || supply.feedstock.feedstock_class == FeedstockClass::supplement) return Keeping::dry;
  return supply.feedstock.feedstock_class == FeedstockClass::must_go ? Keeping::waits : Keeping::fresh;
}

YearSupply kept_as(const Supply& supply, const Ingredient& ingredient) {
  constexpr double of_scraps = 3.0;
  YearSupply of{ingredient, keeping_of(supply), {}, 1.0};
  if (supply.feedstock.feedstock_class == FeedstockClass::must_go) of.weight = of_scraps;
  return of;
}

/// What is on hand now comes once, in the month of the day.
YearSupply year_supply(const Supply& supply, const Ingredient& ingredient, Date today) {
  YearSupply of = kept_as(supply, ingredient);
  if (of.keeping == Keeping::bought) return of;
  const Mass amount = *supply.mass(*supply.amount);
  if (std::holds_alternative<std::monostate>(supply.when)) {
    of.comes[index_of(today.month())] = amount;
    return of;
  }
  for (std::size_t m = 0; m < months_in_a_year; ++m) of.comes[m] = share_in_month(supply, month_at(m)) * amount;
  return of;
}

/// How many months there are from a day until new browns come; of less than three a whole year.
int months_till_browns(const std::vector<Supply>& supplies, Date from) {
  constexpr int least_months = 3;
  for (int later = 1; later < static_cast<int>(months_in_a_year); ++later) {
    const month then = from.month() + std::chrono::months(later);
    const auto begins = [&](const Supply& supply) {
      const std::optional<Season> season = keeping_of(supply) == Keeping::dry ? season_of(supply) : std::nullopt;
      return season && season->months.front() == then;
    };
    if (std::any_of(supplies.begin(), supplies.end(), begins)) return later < least_months ? static_cast<int>(months_in_a_year) : later;
  }
  return static_cast<int>(months_in_a_year);
}

/// Of a year that begins on a day with what the pile left, which is all there in its first month; new browns come as they do.
YearSupply supply_after(const Supply& supply, const Ingredient& ingredient, const InPile& in_pile, int months) {
  YearSupply of = kept_as(supply, ingredient);
  if (of.keeping == Keeping::bought) return of;
  const std::size_t first = index_of(in_pile.by.month());
  const bool comes_once = std::holds_alternative<std::monostate>(supply.when);
  const Mass all = *supply.mass(*supply.amount);
  if (comes_once || of.keeping == Keeping::dry) {
    const auto in = in_pile.of_supplies.find(supply.number);
    const std::optional<Amount> there = on_hand(supply, in_pile.by);
    const Mass had = there ? *supply.mass(*there) : Mass();
    of.comes[first] = std::max(Mass(), Mass(had - (in == in_pile.of_supplies.end() ? Mass() : in->second)));
  }
  if (comes_once) return of;
  const bool keeps = of.keeping == Keeping::dry;
  if (!keeps) of.comes[first] = share_of_month_left(in_pile.by) * share_in_month(supply, in_pile.by.month()) * all;
  for (int later = 1; later < months; ++later) {
    const std::size_t m = (first + static_cast<std::size_t>(later)) % months_in_a_year;
    of.comes[m] = share_in_month(supply, month_at(m)) * all;
  }
  return of;
}

/// Well inside the windows where that costs nothing to speak of, else to their edge.
Year comfortable_or_best(YearQuestion& question) {
  constexpr double comfortable_distance = 0.6;
  constexpr double hardly_more = 0.01;
  Year best = balance_year(question);
  YearQuestion well_inside = question;
  well_inside.distance = comfortable_distance;
  Year comfortable_year = balance_year(well_inside);
  const bool as_little_waste = comfortable_year.waste - best.waste <= hardly_more * best.all_fresh;
  const bool as_little_bought = comfortable_year.bought <= (1.0 + 10.0 * hardly_more) * best.bought + 1.0 * unit::liter;
  if (!as_little_waste || !as_little_bought) return best;
  question.distance = comfortable_distance;
  return comfortable_year;
}

/// Builds the answer of a year that is solved.
class Told {
 public:
  Told(YardSeason& season, const RecipeQuestion& counted, const ContainerCount& bucket, Date today)
      : season_(season), counted_(counted), bucket_(bucket), past_(std::max(0, months_between(season.from, today))) {}

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
    constexpr double hardly_any = 0.01;
    Mass whole;
    for (std::size_t m = 0; m < months_in_a_year; ++m) whole = std::max(whole, std::max(at(m, i).comes, at(m, i).used));
    return part > hardly_any * whole;
  }
  RecipeAmount amount(std::size_t i, Mass mass) const { return amount_of(counted_.supplies[i], mass); }
  /// As it goes in with a pail or a mowing.
  RecipeAmount by_the_bucket(std::size_t i, Mass mass) const { return amount_of(measured_in(counted_.supplies[i], bucket_), mass); }

  /// Whether as much comes in one month of the season as in another, but for their days.
  bool are_alike(int one, int other) const {
    constexpr double alike = 0.12;
    for (std::size_t i = 0; i < season_.supplies.size(); ++i) {
      if (!is_fresh(i)) continue;
      const Mass a = at(place(one), i).comes / months_of(one);
      const Mass b = at(place(other), i).comes / months_of(other);
      if (std::max(a, b) - std::min(a, b) > alike * std::max(a, b)) return false;
    }
    return true;
  }

  /// The place in the year of a month of the season.
  std::size_t place(int later) const { return (index_of(season_.from.month()) + static_cast<std::size_t>(later)) % months_in_a_year; }
  Date begin_of(int later) const {
    if (later == 0) return season_.from;
    const auto that = std::chrono::year_month(season_.from.year(), season_.from.month()) + std::chrono::months(later);
    return Date(that / 1);
  }
  static constexpr double least_share = 0.1;
  /// How much of a month of the season there is: of its first, where the year is no round one, what comes after its first day; of its last
  /// what comes before its end.
  double months_of(int later) const {
    if (!season_.after_pile) return 1.0;
    double share = 1.0;
    if (later == 0) share -= 1.0 - share_of_month_left(season_.from);
    if (later == season_.months - 1) share -= 1.0 - share_of_month_over(season_.until);
    return std::max(share, least_share);
  }

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
    WeekOfSeason week{month_at(from),
                      month_at(place(begin + count - 1)),
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
    constexpr double worth_a_word = 0.05;  // of what a pile left of it
    const bool is_much = season_.scraps_only ? false : !season_.after_pile || left > worth_a_word * at(place(0), i).comes;
    if (is_some(left, i) && is_much) season_.left_dry.push_back(amount(i, left));
    int fullest = past_ - 1;
    for (int later = past_; later < season_.months; ++later) {
      if (kept(later, i) > kept(fullest, i)) fullest = later;
    }
    const Mass most = kept(fullest, i);
    if (!is_some(most, i)) return;
    KeptDry held{amount(i, most), month_at(place(std::max(0, fullest))), std::nullopt, std::nullopt};
    constexpr double as_good_as_empty = 0.02;
    const int last = season_.after_pile ? season_.months - 1 : fullest + static_cast<int>(months_in_a_year) - 1;
    for (int later = fullest + 1; later <= last && !held.runs_out; ++later) {
      if (at(place(later), i).kept > as_good_as_empty * most) continue;
      held.lasts_to = month_at(place(later));
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

/// So much of some browns, had when it is wanted, as would take all that is left; nothing where even that does not.
std::optional<RecipeAmount> enough_of(const Supply& browns, YearQuestion question, const Yard& yard, Date today) {
  const RecipeQuestion counted = recipe_question({browns}, yard.targets, {}, today, yard.tables.materials);
  question.supplies.push_back({counted.supplies.front().ingredient, Keeping::bought, {}, 1.0});
  const Year year = balance_year(question);
  if (!year.is_balanced()) return std::nullopt;
  Mass bought;
  for (const MonthOfYear& of : year.months) bought += of.supplies.back().bought;
  return amount_of(counted.supplies.front(), bought);
}

/// More of the browns that the yard has, or straw by the bale.
std::vector<RecipeAmount> what_would_take_all(const YardSeason& season, const YearQuestion& of_all, const Yard& yard, Date today) {
  Supply straw = supply_of(yard.tables.materials, "straw");
  set_amount(straw, so_many(1.0, known_row(*yard.tables.materials.containers, "straw-bale")));
  std::vector<Supply> kinds;
  Supply leaves = supply_of(yard.tables.materials, "leaves-fall");
  set_amount(leaves, so_many(1.0, known_row(*yard.tables.materials.containers, "leaf-bag")));
  const auto is_keeper = [](const Supply& supply) { return supply.feedstock.feedstock_class == FeedstockClass::keeper && !supply.bought; };
  const auto own = std::find_if(season.supplies.begin(), season.supplies.end(), is_keeper);
  if (own == season.supplies.end()) {
    kinds.push_back(std::move(leaves));
  } else if (own->feedstock.id != straw.feedstock.id) {
    kinds.push_back(*own);
  }
  kinds.push_back(std::move(straw));
  std::vector<RecipeAmount> ways;
  for (const Supply& kind : kinds) {
    if (const auto amount = enough_of(kind, of_all, yard, today)) ways.push_back(*amount);
  }
  return ways;
}

/// Whether more than a little stays out of what nobody can leave lying.
bool leaves_must_go(const YearQuestion& question, const Year& year) {
  constexpr double a_little = 0.02;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    if (question.supplies[i].keeping != Keeping::waits) continue;
    Mass left;
    Mass all;
    for (const MonthOfYear& of : year.months) {
      left += of.supplies[i].left;
      all += of.supplies[i].comes;
    }
    if (left > a_little * all) return true;
  }
  return false;
}

/// Of a season of so many months, and parts of one: what comes after them is no part of it, and clippings stay on the lawn.
YearQuestion of_scraps(YearQuestion question, const YardSeason& season, double months) {
  for (YearSupply& supply : question.supplies) {
    if (supply.keeping == Keeping::fresh) supply.comes = {};
    if (supply.keeping != Keeping::waits) continue;
    for (int later = 0; later < static_cast<int>(months_in_a_year); ++later) {
      const std::size_t m = (index_of(season.from.month()) + static_cast<std::size_t>(later)) % months_in_a_year;
      supply.comes[m] = std::clamp(months - later, 0.0, 1.0) * supply.comes[m];
    }
  }
  return question;
}

/// Where browns do not last for all scraps, all scraps go in for as long as they do, to a quarter of a month: half of each week's would
/// stink as the whole.
void take_scraps_while_browns_last(YardSeason& season) {
  constexpr int quarters = 4;
  int last = 0;  // so many quarters can be had
  int too_many = quarters * season.months + 1;
  Year best;
  while (too_many - last > 1) {
    const int tried = (last + too_many) / 2;
    const YearQuestion question = of_scraps(season.question, season, static_cast<double>(tried) / quarters);
    Year year = balance_year(question);
    if (leaves_must_go(question, year)) {
      too_many = tried;
    } else {
      last = tried;
      best = std::move(year);
    }
  }
  if (last == 0) return;
  season.scraps_only = last < quarters * season.months;
  season.question = of_scraps(season.question, season, static_cast<double>(last) / quarters);
  season.year = std::move(best);
  season.months = (last + quarters - 1) / quarters;
  const Date end = end_of_month(season.from, season.months - 1);
  const int days_over = days_in_month(end) * (quarters * season.months - last) / quarters;
  season.until = Date(sys_days(end) - std::chrono::days(days_over));
}

/// Whether the season of a pile is over, so that the year is a new one.
bool is_over(const std::vector<Supply>& supplies, const InPile& in_pile, Date today) {
  return months_between(in_pile.by, today) >= months_till_browns(supplies, in_pile.by);
}

}  // namespace

InPile in_pile_of(const Recipe& recipe, Date built) {
  InPile in{built, {}};
  for (const RecipeAmount& amount : as_built(recipe).amounts) in.of_supplies[amount.supply] += amount.mass;
  return in;
}

std::vector<WeeklyLoad> weekly_loads(const YardSeason& season, Date after, ShareOfLooseVolume settling) {
  std::vector<WeeklyLoad> loads;
  for (sys_days day = sys_days(after) + std::chrono::days(7); day <= sys_days(season.until); day += std::chrono::days(7)) {
    const Date date(day);
    if (day < sys_days(season.from)) continue;
    const bool is_first = season.after_pile && months_between(season.from, date) == 0;
    const bool is_last = season.after_pile && months_between(date, season.until) == 0;
    const double of_month = (is_first ? share_of_month_left(season.from) : 1.0) - (is_last ? 1.0 - share_of_month_over(season.until) : 0.0);
    const double share = std::min(1.0, 7.0 / (days_in_month(date) * std::max(of_month, 0.1)));
    const MonthOfYear& of = season.year.months[index_of(date.month())];
    WeeklyLoad load{date, {{}, share * of.water, settling}, {}};
    for (std::size_t i = 0; i < of.supplies.size(); ++i) {
      load.blend.ingredients.push_back(season.question.supplies[i].ingredient);
      load.blend.ingredients.back().mass = share * of.supplies[i].used;
    }
    load.mix = mix_of(load.blend);
    if (is_positive(load.mix.dry)) loads.push_back(std::move(load));
  }
  return loads;
}

Answer<YardSeason> season_of_yard(const Yard& yard, Date today, const std::optional<InPile>& in_pile) {
  Answer<YardSeason> answer;
  YardSeason& season = answer.result;
  const Materials& materials = yard.tables.materials;
  season.supplies = supplies_of_a_year(yard);
  season.after_pile = in_pile && !is_over(season.supplies, *in_pile, today);
  season.from = season.after_pile ? in_pile->by : today;
  if (season.after_pile) season.months = months_till_browns(season.supplies, season.from);
  const RecipeQuestion counted = recipe_question(season.supplies, yard.targets, yard.options, today, materials);
  season.question.targets = yard.targets;
  if (season.after_pile) season.question.begins = season.from.month();
  for (std::size_t i = 0; i < season.supplies.size(); ++i) {
    const Ingredient& ingredient = counted.supplies[i].ingredient;
    season.question.supplies.push_back(season.after_pile ? supply_after(season.supplies[i], ingredient, *in_pile, season.months)
                                                         : year_supply(season.supplies[i], ingredient, today));
  }
  season.until = end_of_month(season.from, season.months - 1);
  const YearQuestion of_all = season.question;
  season.year = comfortable_or_best(season.question);
  if (season.after_pile && leaves_must_go(season.question, season.year)) take_scraps_while_browns_last(season);
  const auto any_is = [&](auto... keeping) {
    return std::any_of(season.question.supplies.begin(), season.question.supplies.end(),
                       [&](const YearSupply& one) { return ((one.keeping == keeping) || ...); });
  };
  season.browns_only = !any_is(Keeping::fresh, Keeping::waits);
  season.greens_only = !any_is(Keeping::dry, Keeping::bought);
  Told(season, counted, so_many(1.0, known_row(*materials.containers, "bucket")), today).tell();
  if (!season.year.is_balanced() || season.scraps_only) season.would_take_all = what_would_take_all(season, of_all, yard, today);
  if (yard.lawn) season.mulch = most_mulched_leaves * area_of(*yard.lawn);
  Facts facts;
  for (const Supply& supply : season.supplies) {
    for (Assumption& assumption : assumptions_of(supply, materials)) answer.assumptions.push_back(std::move(assumption));
    facts.merge(facts_of(supply));
  }
  if (!season.kept_dry.empty()) facts.insert(Fact::stored_browns);
  order_by_weight(answer.assumptions);
  answer.cautions = cautions_for(*materials.cautions, facts);
  return answer;
}

}  // namespace heapwright
