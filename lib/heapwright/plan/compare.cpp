#include "heapwright/plan/compare.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "heapwright/error.hpp"
#include "heapwright/plan/care.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/process/outlook.hpp"
#include "heapwright/time/days.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_rows = 8;
constexpr std::chrono::month_day spring_day{std::chrono::April, std::chrono::day(15)};
constexpr std::chrono::month_day late_fall_day{std::chrono::November, std::chrono::day(15)};

/// The next such day of the year, today included.
Date next_on(std::chrono::month_day day, Date today) {
  const Date this_year(today.year(), day.month(), day.day());
  return this_year < today ? Date(today.year() + std::chrono::years(1), day.month(), day.day()) : this_year;
}

/// How far two days of the year lie apart, either way round.
int days_apart_in_a_year(Date one, std::chrono::month_day other) {
  constexpr int year = 365;
  const int days = std::abs(days_from_to(one, Date(one.year(), other.month(), other.day())));
  return std::min(days, year - std::min(days, year));
}

void scale_sides(PileDescription& pile, double times) {
  const double side = std::cbrt(times);
  for (std::optional<Length> PileDescription::*one : {&PileDescription::length, &PileDescription::width, &PileDescription::height,
                                                      &PileDescription::diameter, &PileDescription::top_width}) {
    if (pile.*one) *(pile.*one) *= side;
  }
  if (pile.volume) *pile.volume *= times;
}

/// So many times as much of all that there is to put in, and of the room for it.
void scale(Yard& yard, double factor) {
  scale_sides(*yard.pile, factor);
  for (Supply& supply : yard.supplies) {
    if (supply.amount) supply.amount = times(factor, *supply.amount);
    if (supply.estimated) std::visit([&](auto& likely) { likely *= factor; }, supply.estimated->likely);
  }
  RecipeOptions& options = yard.options;
  if (options.fill) *options.fill *= factor;
  if (options.capacity) *options.capacity *= factor;
  if (options.most_water) *options.most_water *= factor;
}

void turn_every(Yard& yard, std::optional<Duration> every) { yard.pile->turn_every = every; }

/// The same half-month, or never for both.
bool is_same_time(const Forecast& one, const std::optional<int>& day, const Forecast& other, const std::optional<int>& other_day) {
  if (!day || !other_day) return !day && !other_day;
  return is_same_half_month(date_of(one, *day), date_of(other, *other_day));
}

bool is_within_a_hundredth(double one, double other) { return std::abs(one - other) <= 0.01 * std::max(std::abs(one), std::abs(other)); }

constexpr Duration weekly = 7.0 * unit::day;
constexpr Duration monthly = 30.0 * unit::day;

}  // namespace

std::string_view change_word(PileChange change) {
  switch (change) {
    case PileChange::as_it_is: return "as-it-is";
    case PileChange::larger: return "larger";
    case PileChange::smaller: return "smaller";
    case PileChange::kept_moist: return "kept-moist";
    case PileChange::not_watered: return "not-watered";
    case PileChange::covered: return "covered";
    case PileChange::in_spring: return "in-spring";
    case PileChange::in_late_fall: return "in-late-fall";
    case PileChange::turned_weekly: return "turned-weekly";
    case PileChange::turned_monthly: return "turned-monthly";
    case PileChange::never_turned: return "never-turned";
  }
  return {};
}

Yard changed(Yard yard, PileChange change, Date today) {
  PileDescription& pile = *yard.pile;
  switch (change) {
    case PileChange::as_it_is: break;
    case PileChange::larger: scale(yard, 2.0); break;
    case PileChange::smaller: scale(yard, 0.5); break;
    case PileChange::kept_moist: pile.keep_moist = true; break;
    case PileChange::not_watered: pile.keep_moist = false; break;
    case PileChange::covered: pile.covered = true; break;
    case PileChange::in_spring: pile.built = next_on(spring_day, today); break;
    case PileChange::in_late_fall: pile.built = next_on(late_fall_day, today); break;
    case PileChange::turned_weekly: turn_every(yard, weekly); break;
    case PileChange::turned_monthly: turn_every(yard, monthly); break;
    case PileChange::never_turned: turn_every(yard, std::nullopt); break;
  }
  return yard;
}

std::vector<PileChange> changes_for(const Yard& yard, Date today) {
  std::vector<PileChange> changes{PileChange::as_it_is};
  const auto add = [&](bool changes_something, PileChange change) {
    if (changes_something) changes.push_back(change);
  };
  const PileCare care = care_of(yard);
  const bool is_to_be_built = !stands_by(yard, today);
  const Date built = yard.built_or(today);
  const bool spring_is_farther = days_apart_in_a_year(built, spring_day) >= days_apart_in_a_year(built, late_fall_day);
  const auto is_turned_every = [&](Duration every) { return yard.pile->turn_every && *yard.pile->turn_every == every; };
  add(is_to_be_built, PileChange::larger);
  add(is_to_be_built, PileChange::smaller);
  add(!care.wet_to, PileChange::kept_moist);
  add(care.wet_to.has_value(), PileChange::not_watered);
  add(!care.wet_to && care.share_of_rain > 0.0, PileChange::covered);
  add(is_to_be_built, spring_is_farther ? PileChange::in_spring : PileChange::in_late_fall);
  add(!is_turned_every(weekly), PileChange::turned_weekly);
  add(!is_turned_every(monthly), PileChange::turned_monthly);
  add(yard.pile->turn_every.has_value(), PileChange::never_turned);
  if (changes.size() > most_rows) std::erase(changes, PileChange::turned_monthly);
  return changes;
}

bool come_to_the_same(const YardForecast& one, const YardForecast& other) {
  if (!one.forecast || !other.forecast) return false;
  constexpr double half_of_one_in_ten = 0.05;
  const Forecast& a = *one.forecast;
  const Forecast& b = *other.forecast;
  const ReadyWindow ready = ready_for_turf(a);
  const ReadyWindow other_ready = ready_for_turf(b);
  const auto screened = [](const YardForecast& of) { return of.screened ? of.screened->likely.value() : 0.0; };
  return a.status == b.status && a.heats.heating == b.heats.heating && std::abs(a.heats.chance - b.heats.chance) < half_of_one_in_ten &&
         is_same_time(a, ready.early, b, other_ready.early) && is_same_time(a, ready.late, b, other_ready.late) &&
         is_within_a_hundredth(screened(one), screened(other)) && is_within_a_hundredth(a.water_given.value(), b.water_given.value());
}

Answer<PileComparison> compare_piles(const Yard& yard, Date today, const Progress& progress) {
  if (!yard.pile) throw DomainError("there is no pile to change", "describe it in [pile]");
  Answer<PileComparison> whole;
  whole->stands = stands_by(yard, today).has_value();
  whole->kept_moist = care_of(yard).wet_to.has_value();
  const std::vector<PileChange> changes = changes_for(yard, today);
  for (const PileChange change : changes) {
    const Yard other = changed(yard, change, today);
    const int before = static_cast<int>(whole->piles.size());
    const Progress of_all = [&](int done, int of) {
      if (progress) progress(before * of + done, static_cast<int>(changes.size()) * of);
    };
    Answer<YardForecast> forecast = forecast_of(other, recipe_in_pile(other, today), today, nullptr, of_all);
    if (change == PileChange::as_it_is) static_cast<Grounds&>(whole) = forecast;
    whole->piles.push_back({change, std::move(forecast.result)});
  }
  for (ComparedPile& pile : whole->piles) pile.same_as_it_is = come_to_the_same(pile.forecast, whole->piles.front().forecast);
  return whole;
}

ReadyWindow ready_for_turf(const Forecast& forecast) {
  const HeatsOrNot& heats = forecast.heats;
  return heats.is_open() ? either_way(heats.if_it_heats->turf, heats.if_not->turf) : forecast.turf;
}

}  // namespace heapwright
