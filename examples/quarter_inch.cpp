// A quarter inch of compost on a lawn: how much that is, and how far a pickup load goes.
//
// Prints:
//   2290 ft2 take 1.76 yd3, 1.85 yd3 with something to spare: 8.3 wheelbarrows.
//   1.5 yd3 cover 1850 ft2.

#include <heapwright/lawn/lawn.hpp>
#include <heapwright/lawn/shapes.hpp>
#include <heapwright/lawn/topdressing.hpp>
#include <heapwright/materials/materials.hpp>
#include <heapwright/units/text.hpp>
#include <iostream>

using namespace heapwright;

int main() {
  const Materials materials = built_in_materials();

  const Area bed = circle_area(read_length("12 ft"));
  const Lawn lawn{{{"front", rectangle_area(read_length("60 ft"), read_length("30 ft")) - bed, {}},
                   {"side", triangle_area(read_length("30 ft"), read_length("40 ft"), read_length("50 ft")), {}}}};
  TopdressingPlan plan;
  plan.depth = read_length("1/4 in");

  const Topdressing topdressing = topdress(lawn, plan, materials).result;
  std::cout << print_in(topdressing.area, "ft2", 3) << " take " << print_in(topdressing.volume, "yd3", 3) << ", "
            << print_in(topdressing.volume_with_allowance, "yd3", 3)
            << " with something to spare: " << print_number(topdressing.wheelbarrow_loads, 2) << " wheelbarrows.\n";

  const Volume load = read_compost_volume("1 1/2 yd3", materials);
  std::cout << print_in(load, "yd3", 2) << " cover " << print_in(area_covered(load, plan), "ft2", 3) << ".\n";
}
