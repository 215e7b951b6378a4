// A quarter inch of compost on a lawn: how much that is, what to order of whom, and how far a pickup load goes. Invented prices.
//
// Prints:
//   2290 ft2 take 1.76 yd3, 1.85 yd3 with something to spare: 8.3 wheelbarrows.
//   Order 2 cu yd of compost screened to 3/8 in or finer, for $151: 2 of bulk, delivered.
//   1.5 yd3 cover 1850 ft2.

#include <heapwright/lawn/lawn.hpp>
#include <heapwright/lawn/shapes.hpp>
#include <heapwright/lawn/topdressing.hpp>
#include <heapwright/materials/materials.hpp>
#include <heapwright/units/text.hpp>
#include <iostream>
#include <string>

using namespace heapwright;

namespace {

Offer offer(const std::string& name, const std::string& unit, double price, double delivery, const Materials& materials) {
  Offer offer;
  offer.name = name;
  offer.unit = read_amount(unit, materials);
  offer.unit_volume = offer.step = read_compost_volume(unit, materials);
  offer.price = price * unit::money;
  offer.delivery = delivery * unit::money;
  return offer;
}

}  // namespace

int main() {
  const Materials materials = built_in_materials();
  const Area bed = circle_area(read_length("12 ft"));
  const Lawn lawn{{{"front", rectangle_area(read_length("60 ft"), read_length("30 ft")) - bed, {}},
                   {"side", triangle_area(read_length("30 ft"), read_length("40 ft"), read_length("50 ft")), {}}}};
  TopdressingPlan plan;
  plan.depth = read_length("1/4 in");
  plan.offers = {offer("bulk, delivered", "1 yd3", 38.0, 75.0, materials), offer("bags", "1 compost-bag-1ft3", 4.5, 0.0, materials)};

  Topdressing topdressing = topdress(lawn, plan, materials).result;
  std::cout << print_in(topdressing.area, "ft2", 3) << " take " << print_in(topdressing.volume, "yd3", 3) << ", "
            << print_in(topdressing.volume_with_allowance, "yd3", 3)
            << " with something to spare: " << print_number(topdressing.wheelbarrow_loads, 2) << " wheelbarrows.\n";

  order_for(topdressing, read_date("2027-09-01"), false, materials);
  const Order& best = *topdressing.ordering->best;
  std::cout << "Order " << topdressing.phone_line << ", for $" << print_number(value_in(unit::money, best.cost), 5) << ":";
  for (const OrderLine& line : best.lines) std::cout << ' ' << line.units << " of " << plan.offers[line.offer].name;
  std::cout << ".\n";

  const Volume load = read_compost_volume("1 1/2 yd3", materials);
  std::cout << print_in(load, "yd3", 2) << " cover " << print_in(area_covered(load, plan), "ft2", 3) << ".\n";
}
