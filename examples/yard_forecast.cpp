// What goes into the first pile of a yard, in pounds, and how that pile goes on, in degrees Fahrenheit: of a yard file where one is named.
// Invented yard.
//
// Prints:
//   241 lb  autumn leaves
//   158 lb  coffee grounds
//   104 lb  grass clippings
//   4 gal  water
//   C:N 31.6:1
//   warmest 130 degF on 2026-11-02
//   fit for a lawn: 2027-06-13

#include <heapwright/plan/answers.hpp>
#include <heapwright/units/text.hpp>
#include <iostream>

using namespace heapwright;

namespace {

constexpr const char* autumn = R"(
[[supply]]
feedstock = "leaves"
amount = "20 bags"
[[supply]]
feedstock = "coffee grounds"
amount = "8 buckets"
[[supply]]
feedstock = "grass clippings"
amount = "12 buckets"
[pile]
shape = "bin"
length = "4 ft"
width = "4 ft"
height = "4 ft"
built = 2026-10-24
turn_every = "14 days"
[climate]
coldest_month = "30 degF"
warmest_month = "76 degF"
)";

void print_recipe(const AsBuilt& pile) {
  for (const RecipeAmount& amount : pile.amounts) {
    if (goes_in(amount, pile.mix)) std::cout << print_in(amount.mass, "lb", 3) << "  " << amount.name << '\n';
  }
  std::cout << print_in(volume_of(pile.water_to_add), "gal", 2) << "  water\n";
  if (pile.mix.carbon_to_nitrogen) std::cout << "C:N " << print_ratio(*pile.mix.carbon_to_nitrogen, 3) << '\n';
}

void print_window(const Forecast& forecast, const char* when, const ReadyWindow& turf) {
  std::cout << "fit for a lawn" << when << ": " << (turf.likely ? print_date(date_of(forecast, *turf.likely)) : "not in three years")
            << '\n';
}

void print_forecast(const Forecast& forecast) {
  std::cout << "warmest " << print_number(forecast.peak_core.fahrenheit(), 3) << " degF on "
            << print_date(date_of(forecast, forecast.peak_day)) << '\n';
  if (!forecast.heats.is_open()) return print_window(forecast, "", forecast.turf);
  print_window(forecast, " if it heats", forecast.heats.if_it_heats->turf);
  print_window(forecast, " if it does not", forecast.heats.if_not->turf);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    const Yard yard = argc > 1 ? read_yard(argv[1]) : read_yard_text(autumn, "autumn");
    const Date today = yard.built_or(read_date("2026-10-24"));
    const Answer<Recipe> recipe = first_recipe(yard, today);
    if (!has_size(recipe.result)) return 1;
    print_recipe(as_built(recipe.result));
    const Answer<YardForecast> answer = forecast_of(yard, recipe, today);
    if (answer->forecast) print_forecast(*answer->forecast);
    return 0;
  } catch (const Error& error) {
    std::cerr << error.what() << '\n' << error.hint() << '\n';
    return 2;
  }
}
