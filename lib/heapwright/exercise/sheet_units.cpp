#include "heapwright/exercise/sheet_units.hpp"

#include <algorithm>
#include <iterator>

namespace heapwright {
namespace {

template <class Quantity>
std::vector<Quantity> so_many_of(Quantity one, const std::vector<double>& numbers) {
  std::vector<Quantity> quantities;
  std::transform(numbers.begin(), numbers.end(), std::back_inserter(quantities), [&](double number) { return Quantity(number * one); });
  return quantities;
}

}  // namespace

const SheetUnits& us_sheet_units() {
  static const SheetUnits units{
      .working = &us_working_units(),
      .small = {"oz", unit::ounce},
      .handfuls = so_many_of(unit::ounce, {4, 5, 8, 10}),
      .weighed_to = 0.5 * unit::ounce,
      .bowls = so_many_of(unit::ounce, {4, 6, 8, 12}),
      .heaps = so_many_of(unit::pound, {20, 30, 40, 50, 60, 80, 100}),
      .lawns = so_many_of(unit::square_foot, {480, 720, 960, 1200, 2400, 3600, 4800}),
      .lawn_sides = so_many_of(unit::foot, {20, 24, 30, 36, 40, 45, 50, 60, 72, 80, 90}),
      .bed_sides = so_many_of(unit::foot, {5, 6, 8, 9, 10, 12}),
      .spread_depth = 0.25 * unit::inch,
      .spread = us_working_units().pile,
      .lawn_measure = 1000.0 * unit::square_foot,
      .compost_densities = so_many_of(us_working_units().density.one, {700, 800, 900, 1000, 1100, 1200, 1300, 1400}),
      .large_volume_step = 0.1,
      .metric = false,
  };
  return units;
}

const SheetUnits& si_sheet_units() {
  static const SheetUnits units{
      .working = &si_working_units(),
      .small = {"g", unit::gram},
      .handfuls = so_many_of(unit::gram, {50, 80, 100, 120, 150, 200}),
      .weighed_to = unit::gram,
      .bowls = so_many_of(unit::gram, {100, 120, 150, 200, 250}),
      .heaps = so_many_of(Mass(1.0 * unit::kg), {10, 15, 20, 25, 30, 40, 50}),
      .lawns = so_many_of(Area(1.0 * unit::m2), {50, 100, 150, 200, 250, 300}),
      .lawn_sides = so_many_of(Length(1.0 * unit::m), {6, 8, 10, 12, 15, 18, 20, 25, 30}),
      .bed_sides = so_many_of(Length(1.0 * unit::m), {2, 3, 4}),
      .spread_depth = 0.006 * unit::m,
      .spread = si_working_units().pile,
      .lawn_measure = 100.0 * unit::m2,
      .compost_densities = so_many_of(bulk_density(1.0), {450, 500, 550, 600, 650, 700, 750, 800}),
      .large_volume_step = 0.01,
      .metric = true,
  };
  return units;
}

}  // namespace heapwright
