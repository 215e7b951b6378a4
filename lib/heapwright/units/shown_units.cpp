#include "heapwright/units/shown_units.hpp"

namespace heapwright {

const std::vector<std::pair<std::string, ShownUnits>>& shown_units_words() {
  static const std::vector<std::pair<std::string, ShownUnits>> words{
      {"us", ShownUnits::us}, {"si", ShownUnits::si}, {"both", ShownUnits::both}};
  return words;
}

}  // namespace heapwright
