// What goes into the first pile of a yard, in pounds, and how that pile goes on, in degrees Fahrenheit: of a yard file where one is named.
// Invented yard.
//
// Prints:
//   241 lb  autumn leaves
//   158 lb  coffee grounds
//   104 lb  grass clippings
//   4 gal  water
//   warmest 130 degF on 2026-11-02
//   fit for a lawn: 2027-05-08 to 2027-11-22, most likely 2027-06-13

#include <heapwright/plan/answers.hpp>
#include <heapwright/plan/compare.hpp>
#include <heapwright/units/text.hpp>
#include <iostream>
#include <optional>
#include <string>

using namespace heapwright;

namespace {

constexpr const char* autumn = R"(
supply = [{ feedstock = "leaves", amount = "20 bags" }, { feedstock = "coffee grounds", amount = "8 buckets" },
          { feedstock = "grass clippings", amount = "12 buckets" }]
pile = { shape = "bin", length = "4 ft", width = "4 ft", height = "4 ft", built = 2026-10-24, turn_every = "14 days" }
climate = { coldest_month = "30 degF", warmest_month = "76 degF" }
)";

std::string day(const Forecast& forecast, const std::optional<int>& day) { return day ? print_date(date_of(forecast, *day)) : "never"; }

}  // namespace

int main(int argc, char** argv) {
  try {
    const Yard yard = argc > 1 ? read_yard(argv[1]) : read_yard_text(autumn, "autumn");
    const Date today = yard.built_or(read_date("2026-10-24"));
    const Answer<Recipe> recipe = first_recipe(yard, today);
    if (!has_size(recipe.result)) return 1;
    const AsBuilt pile = as_built(recipe.result);
    for (const RecipeAmount& amount : pile.amounts) {
      if (goes_in(amount, pile.mix)) std::cout << print_in(amount.mass, "lb", 3) << "  " << amount.name << '\n';
    }
    std::cout << print_in(volume_of(pile.water_to_add), "gal", 2) << "  water\n";

    const Answer<YardForecast> answer = forecast_of(yard, recipe, today);
    if (!answer->forecast) return 1;
    const Forecast& forecast = *answer->forecast;
    const ReadyWindow turf = ready_for_turf(forecast);  // of either way, where the pile may or may not get hot
    std::cout << "warmest " << print_number(forecast.peak_core.fahrenheit(), 3) << " degF on " << day(forecast, forecast.peak_day) << '\n'
              << "fit for a lawn: " << day(forecast, turf.early) << " to " << day(forecast, turf.late);
    if (turf.likely) std::cout << ", most likely " << day(forecast, turf.likely);
    std::cout << '\n';
    return 0;
  } catch (const Error& error) {
    std::cerr << error.what() << '\n' << error.hint() << '\n';
    return 2;
  }
}
