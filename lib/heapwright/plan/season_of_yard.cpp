#include "heapwright/plan/season_of_yard.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/assume.hpp"
#include "heapwright/plan/told_season_parts.hpp"
#include "heapwright/recipe/amounts.hpp"
#include "heapwright/time/month.hpp"

namespace heapwright {
namespace {

using std::chrono::month;
using std::chrono::sys_days;

month month_at(std::size_t index) { return month(static_cast<unsigned>(index) + 1); }
std::size_t index_of(month of) { return static_cast<unsigned>(of) - 1; }

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
/// @param in_pile of a pile whose season is over: what it took of that is not there again
YearSupply year_supply(const Supply& supply, const Ingredient& ingredient, Date today, const std::optional<InPile>& in_pile) {
  YearSupply of = kept_as(supply, ingredient);
  if (of.keeping == Keeping::bought) return of;
  const Mass amount = *supply.mass(*supply.amount);
  if (std::holds_alternative<std::monostate>(supply.when)) {
    of.comes[index_of(today.month())] = std::max(Mass(), Mass(amount - (in_pile ? in_pile->of(supply) : Mass())));
    return of;
  }
  for (std::size_t m = 0; m < months_in_a_year; ++m) of.comes[m] = share_in_month(supply, month_at(m)) * amount;
  return of;
}

/// How many months after that of a day new browns come; twelve where none do.
int months_till_browns(const std::vector<Supply>& supplies, Date from) {
  for (int later = 1; later < static_cast<int>(months_in_a_year); ++later) {
    const month then = from.month() + std::chrono::months(later);
    const auto begins = [&](const Supply& supply) {
      const std::optional<Season> season = keeping_of(supply) == Keeping::dry ? season_of(supply) : std::nullopt;
      return season && season->months.front() == then;
    };
    if (std::any_of(supplies.begin(), supplies.end(), begins)) return later;
  }
  return static_cast<int>(months_in_a_year);
}

/// So many months are planned; where browns come within three, a whole year (judged).
int months_of_season(int till_browns) {
  constexpr int least_months = 3;
  return till_browns < least_months ? static_cast<int>(months_in_a_year) : till_browns;
}

/// Of a year that begins on a day with what the pile left, which is all there in its first month; new browns come from a month on.
YearSupply supply_after(const Supply& supply, const Ingredient& ingredient, const InPile& in_pile, int till_browns) {
  const int months = months_of_season(till_browns);
  YearSupply of = kept_as(supply, ingredient);
  if (of.keeping == Keeping::bought) return of;
  const std::size_t first = index_of(in_pile.by.month());
  const bool comes_once = std::holds_alternative<std::monostate>(supply.when);
  const Mass all = *supply.mass(*supply.amount);
  if (comes_once || of.keeping == Keeping::dry) {
    const std::optional<Amount> there = on_hand(supply, in_pile.by);
    const Mass had = there ? *supply.mass(*there) : Mass();
    of.comes[first] = std::max(Mass(), Mass(had - in_pile.of(supply)));
  }
  if (comes_once) return of;
  const bool keeps = of.keeping == Keeping::dry;
  if (!keeps) of.comes[first] = share_of_month_left(in_pile.by) * share_in_month(supply, in_pile.by.month()) * all;
  for (int later = keeps ? till_browns : 1; later < months; ++later) {
    const std::size_t m = (first + static_cast<std::size_t>(later)) % months_in_a_year;
    of.comes[m] = share_in_month(supply, month_at(m)) * all;
  }
  return of;
}

/// Well inside the windows where that costs nothing to speak of, else to their edge.
Year comfortable_or_best(YearQuestion& question) {
  constexpr double comfortable_distance = 0.6;
  constexpr double hardly_more = 0.01;  // judged
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

/// The browns that the yard has, else leaves by the bag, and straw by the bale.
std::vector<Supply> browns_to_get(const YardSeason& season, const Yard& yard) {
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
  return kinds;
}

/// The ways to let everything in.
std::vector<RecipeAmount> what_would_take_all(const YardSeason& season, const YearQuestion& of_all, const Yard& yard, Date today) {
  std::vector<RecipeAmount> ways;
  for (const Supply& kind : browns_to_get(season, yard)) {
    if (const auto amount = enough_of(kind, of_all, yard, today)) ways.push_back(*amount);
  }
  return ways;
}

/// Whether more than a little stays out of what nobody can leave lying.
bool leaves_must_go(const YearQuestion& question, const Year& year) {
  constexpr double a_little = 0.02;  // judged
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

/// So many months of a season are before the next leaves fall: where the yard has none of its own, the neighbors' in October (judged).
int months_till_fall(const YardSeason& season) {
  const Date later = std::max(season.today, season.from);
  std::chrono::year year = later.year();
  if (later.month() >= std::chrono::October) ++year;
  const int till_october = months_between(season.from, Date(year / std::chrono::October / 1));
  return std::clamp(std::min(till_october, months_between(season.from, season.new_browns)), 1, season.months);
}

/// Whether the season of a pile is over, so that the year is a new one.
bool is_over(const std::vector<Supply>& supplies, const InPile& in_pile, Date today) {
  constexpr int followed_on = 6;  // months in which its last filling rests: judged
  return months_between(in_pile.by, today) >= months_of_season(months_till_browns(supplies, in_pile.by)) + followed_on;
}

}  // namespace

InPile in_pile_of(const Recipe& recipe, Date built) {
  InPile in{built, {}};
  for (const RecipeAmount& amount : as_built(recipe).amounts) in.of_supplies[amount.supply] += amount.mass;
  return in;
}

double share_of_month_in(const YardSeason& season, int later) {
  constexpr double least_share = 0.1;
  if (!season.after_pile) return 1.0;
  double share = 1.0;
  if (later == 0) share -= 1.0 - share_of_month_left(season.from);
  if (later == season.months - 1) share -= 1.0 - share_of_month_over(season.until);
  return std::max(share, least_share);
}

std::vector<WeeklyLoad> weekly_loads(const YardSeason& season, Date after, ShareOfLooseVolume settling) {
  std::vector<WeeklyLoad> loads;
  for (sys_days day = sys_days(after) + std::chrono::days(7); day <= sys_days(season.until); day += std::chrono::days(7)) {
    const Date date(day);
    if (day < sys_days(season.from)) continue;
    const double days = days_in_month(date) * share_of_month_in(season, months_between(season.from, date));
    const double share = std::min(1.0, 7.0 / days);
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
  season.today = today;
  season.leaves_alone = leaves_alone_of(yard, today);
  season.supplies = supplies_of_a_year(yard);
  season.after_pile = in_pile && !is_over(season.supplies, *in_pile, today);
  if (season.after_pile) season.in_pile = in_pile;
  season.from = season.after_pile ? in_pile->by : today;
  const int till_browns = months_till_browns(season.supplies, season.from);
  if (season.after_pile) season.months = months_of_season(till_browns);
  season.new_browns = first_of_month(season.from, till_browns);
  const RecipeQuestion counted = recipe_question(season.supplies, yard.targets, yard.options, today, materials);
  season.question.targets = yard.targets;
  if (season.after_pile) season.question.begins = season.from.month();
  for (std::size_t i = 0; i < season.supplies.size(); ++i) {
    const Ingredient& ingredient = counted.supplies[i].ingredient;
    season.question.supplies.push_back(season.after_pile ? supply_after(season.supplies[i], ingredient, *in_pile, till_browns)
                                                         : year_supply(season.supplies[i], ingredient, today, in_pile));
  }
  season.until = end_of_month(season.from, season.months - 1);
  const YearQuestion of_all = season.question;
  season.year = comfortable_or_best(season.question);
  if (season.after_pile && leaves_must_go(season.question, season.year)) {
    const YearQuestion scraps = of_scraps(season.question, season, months_till_fall(season));
    take_scraps_while_browns_last(season);
    season.wanted_for_scraps = enough_of(browns_to_get(season, yard).front(), scraps, yard, today);
  }
  const auto any_is = [&](auto... keeping) {
    return std::any_of(season.question.supplies.begin(), season.question.supplies.end(),
                       [&](const YearSupply& one) { return ((one.keeping == keeping) || ...); });
  };
  season.browns_only = !any_is(Keeping::fresh, Keeping::waits);
  season.greens_only = !any_is(Keeping::dry, Keeping::bought);
  if (season.greens_only)
    season.wanted_for_scraps = enough_of(browns_to_get(season, yard).front(), of_scraps(of_all, season, season.months), yard, today);
  tell_season(season, counted, so_many(1.0, known_row(*materials.containers, "bucket")));
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
