#include "heapwright/materials/assumption.hpp"

namespace heapwright {

std::string_view figure_word(Figure figure) {
  switch (figure) {
    case Figure::none: return "";
    case Figure::amount: return "amount";
    case Figure::container: return "container";
    case Figure::bulk_density: return "bulk_density";
    case Figure::bulk_density_in_heap: return "bulk_density_in_heap";
    case Figure::moisture: return "moisture_wet_basis";
    case Figure::carbon_to_nitrogen: return "carbon_to_nitrogen";
    case Figure::nitrogen: return "nitrogen_dry_basis";
    case Figure::carbon: return "carbon_dry_basis";
  }
  return "";
}

}  // namespace heapwright
