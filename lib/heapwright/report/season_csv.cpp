#include "heapwright/report/season_csv.hpp"

#include <fmt/format.h>

#include "heapwright/report/csv_parts.hpp"
#include "heapwright/report/season_parts.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

std::string season_row(std::string_view month, const Ingredient& ingredient, const MonthOfSupply& of) {
  constexpr int digits = 6;
  const SupplyInMonth volumes = supply_in_month(ingredient, of);
  return fmt::format("{},{},{},{},{},{},{},{}\n", month, csv_cell(ingredient.id),
                     ingredient.supply > 0 ? fmt::format("{}", ingredient.supply) : "", print_number(volumes.in, digits),
                     print_number(volumes.bought, digits), print_number(volumes.used, digits), print_number(volumes.stored, digits),
                     print_number(volumes.unused, digits));
}

}  // namespace

SupplyInMonth supply_in_month(const Ingredient& ingredient, const MonthOfSupply& month) {
  const auto cubic_meters = [&](Mass mass) { return Volume(mass / *ingredient.density).value(); };
  return {cubic_meters(month.comes), cubic_meters(month.bought), cubic_meters(month.used), cubic_meters(month.kept),
          cubic_meters(month.left)};
}

std::string csv_of_season(const YardSeason& season) {
  std::string text = "month,id,supply,in_m3,bought_m3,used_m3,stored_m3,unused_m3\n";
  for (std::size_t index = 0; index < months_in_a_year; ++index) {
    const std::string_view month = month_name(std::chrono::month(static_cast<unsigned>(index) + 1));
    for (std::size_t i = 0; i < season.question.supplies.size(); ++i)
      text += season_row(month, season.question.supplies[i].ingredient, season.year.months[index].supplies[i]);
  }
  return text;
}

}  // namespace heapwright
