#include "heapwright/mix/targets.hpp"

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

template <class Quantity, class Read>
void read_window(Table& targets, std::string_view key, Window<Quantity>& window, Read read) {
  std::optional<Table> table = targets.table(key);
  if (!table) return;
  window.low = table->read("low", read).value_or(window.low);
  window.aim = table->read("aim", read).value_or(window.aim);
  window.high = table->read("high", read).value_or(window.high);
  table->finish();
  if (!(window.low <= window.aim && window.aim <= window.high))
    table->problem("low, aim and high are out of order", "low ≤ aim ≤ high; what is left out keeps its default");
}

}  // namespace

Targets acceptable_windows(Targets targets) {
  const auto widen = [](auto& window, auto low, auto high) {
    window.low = std::min(window.low, low);
    window.high = std::max(window.high, high);
  };
  widen(targets.carbon_to_nitrogen, carbon_to_nitrogen(20.0), carbon_to_nitrogen(40.0));
  widen(targets.moisture, wet_basis(0.40), wet_basis(0.65));
  return targets;
}

Targets read_targets(Table& root) {
  Targets targets;
  std::optional<Table> table = root.table("targets");
  if (!table) return targets;
  read_window(*table, "carbon_to_nitrogen", targets.carbon_to_nitrogen, read_carbon_to_nitrogen);
  read_window(*table, "moisture_wet_basis", targets.moisture, read_moisture_wet_basis);
  if (!(targets.moisture.aim < wet_basis(1.0)))
    table->problem_at("moisture_wet_basis", "nothing but water is 100 % moist", "aim below 100 %: common is 55 %");
  if (std::optional<Table> air = table->table("air_space")) {
    targets.least_air = air->read("low", read_fraction<OfPileVolume>).value_or(targets.least_air);
    air->finish();
  }
  table->finish();
  return targets;
}

}  // namespace heapwright
