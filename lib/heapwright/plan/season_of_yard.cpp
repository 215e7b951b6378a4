#include "heapwright/plan/season_of_yard.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/assume.hpp"
#include "heapwright/recipe/amounts.hpp"

namespace heapwright {
namespace {

using std::chrono::month;

constexpr double weeks_in_a_month = 365.0 / 12.0 / 7.0;

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

/// What is on hand now comes once, in the month of the day.
YearSupply year_supply(const Supply& supply, const Ingredient& ingredient, Date today) {
  constexpr double of_scraps = 3.0;
  YearSupply of{ingredient, keeping_of(supply), {}, 1.0};
  if (supply.feedstock.feedstock_class == FeedstockClass::must_go) of.weight = of_scraps;
  if (of.keeping == Keeping::bought) return of;
  const Mass amount = *supply.mass(*supply.amount);
  if (std::holds_alternative<std::monostate>(supply.when)) {
    of.comes[index_of(today.month())] = amount;
    return of;
  }
  for (std::size_t m = 0; m < months_in_a_year; ++m) of.comes[m] = share_in_month(supply, month_at(m)) * amount;
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
      : season_(season), counted_(counted), bucket_(bucket), today_(today) {}

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

  /// Whether as much comes in one month as in another, but for their days.
  bool are_alike(std::size_t one, std::size_t other) const {
    constexpr double alike = 0.12;
    for (std::size_t i = 0; i < season_.supplies.size(); ++i) {
      if (!is_fresh(i)) continue;
      const Mass most = std::max(at(one, i).comes, at(other, i).comes);
      if (most - std::min(at(one, i).comes, at(other, i).comes) > alike * most) return false;
    }
    return true;
  }

  void tell_weeks() {
    const std::size_t first = index_of(today_.month());
    std::size_t done = 0;
    while (done < months_in_a_year) {
      const std::size_t from = (first + done) % months_in_a_year;
      std::size_t count = 1;
      while (done + count < months_in_a_year && are_alike(from, (from + count) % months_in_a_year)) ++count;
      const WeekOfSeason week = mean_week(from, count);
      if (!week.greens.empty() || !week.left.empty()) season_.weeks.push_back(week);
      done += count;
    }
  }

  /// Over the months the mean, which lies within the windows as each of them does.
  WeekOfSeason mean_week(std::size_t from, std::size_t count) const {
    WeekOfSeason week{month_at(from), month_at((from + count - 1) % months_in_a_year), {}, {}, {}, {}};
    const double weeks = weeks_in_a_month * static_cast<double>(count);
    for (std::size_t i = 0; i < season_.supplies.size(); ++i) {
      Mass used;
      Mass left;
      for (std::size_t m = 0; m < count; ++m) {
        used += at((from + m) % months_in_a_year, i).used;
        left += at((from + m) % months_in_a_year, i).left;
      }
      used = used / weeks;
      left = left / weeks;
      if (is_some(weeks_in_a_month * used, i)) {
        if (is_fresh(i)) week.greens.push_back(amount(i, used));
        if (!is_fresh(i)) week.browns.push_back(by_the_bucket(i, used));
      }
      if (is_fresh(i) && is_some(weeks_in_a_month * left, i)) week.left.push_back(amount(i, left));
    }
    for (std::size_t m = 0; m < count; ++m) week.water += season_.year.months[(from + m) % months_in_a_year].water / weeks;
    return week;
  }

  void tell_store(std::size_t i) {
    std::size_t fullest = 0;
    Mass left;
    for (std::size_t m = 0; m < months_in_a_year; ++m) {
      if (at(m, i).kept > at(fullest, i).kept) fullest = m;
      left += at(m, i).left;
    }
    if (is_some(left, i)) season_.left_dry.push_back(amount(i, left));
    const Mass most = at(fullest, i).kept;
    if (!is_some(most, i)) return;
    KeptDry held{amount(i, most), month_at(fullest), std::nullopt};
    constexpr double as_good_as_empty = 0.02;
    for (std::size_t later = 1; later < months_in_a_year && !held.lasts_to; ++later) {
      const std::size_t m = (fullest + later) % months_in_a_year;
      if (at(m, i).kept <= as_good_as_empty * most) held.lasts_to = month_at(m);
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
  Date today_;
};

/// So much of some browns, had when it is wanted, as would take all that is left; nothing where even that does not.
std::optional<RecipeAmount> enough_of(const Supply& browns, const YardSeason& season, const Yard& yard, Date today) {
  YearQuestion question = season.question;
  const RecipeQuestion counted = recipe_question({browns}, yard.targets, {}, today, yard.tables.materials);
  question.supplies.push_back({counted.supplies.front().ingredient, Keeping::bought, {}, 1.0});
  const Year year = balance_year(question);
  if (!year.is_balanced()) return std::nullopt;
  Mass bought;
  for (const MonthOfYear& of : year.months) bought += of.supplies.back().bought;
  return amount_of(counted.supplies.front(), bought);
}

/// More of the browns that the yard has, or straw by the bale.
std::vector<RecipeAmount> what_would_take_all(const YardSeason& season, const Yard& yard, Date today) {
  Supply straw = supply_of(yard.tables.materials, "straw");
  set_amount(straw, so_many(1.0, known_row(*yard.tables.materials.containers, "straw-bale")));
  std::vector<Supply> kinds;
  const auto is_keeper = [](const Supply& supply) { return supply.feedstock.feedstock_class == FeedstockClass::keeper && !supply.bought; };
  const auto own = std::find_if(season.supplies.begin(), season.supplies.end(), is_keeper);
  if (own != season.supplies.end() && own->feedstock.id != straw.feedstock.id) kinds.push_back(*own);
  kinds.push_back(std::move(straw));
  std::vector<RecipeAmount> ways;
  for (const Supply& kind : kinds) {
    if (const auto amount = enough_of(kind, season, yard, today)) ways.push_back(*amount);
  }
  return ways;
}

}  // namespace

Answer<YardSeason> season_of_yard(const Yard& yard, Date today) {
  Answer<YardSeason> answer;
  YardSeason& season = answer.result;
  const Materials& materials = yard.tables.materials;
  season.supplies = supplies_of_a_year(yard);
  const RecipeQuestion counted = recipe_question(season.supplies, yard.targets, yard.options, today, materials);
  season.question.targets = yard.targets;
  for (std::size_t i = 0; i < season.supplies.size(); ++i)
    season.question.supplies.push_back(year_supply(season.supplies[i], counted.supplies[i].ingredient, today));
  season.year = comfortable_or_best(season.question);
  const auto any_is = [&](auto... keeping) {
    return std::any_of(season.question.supplies.begin(), season.question.supplies.end(),
                       [&](const YearSupply& one) { return ((one.keeping == keeping) || ...); });
  };
  season.browns_only = !any_is(Keeping::fresh, Keeping::waits);
  season.greens_only = !any_is(Keeping::dry, Keeping::bought);
  Told(season, counted, so_many(1.0, known_row(*materials.containers, "bucket")), today).tell();
  if (!season.year.is_balanced()) season.would_take_all = what_would_take_all(season, yard, today);
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
