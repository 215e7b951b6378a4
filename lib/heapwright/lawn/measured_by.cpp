#include "heapwright/lawn/measured_by.hpp"

#include <cmath>

namespace heapwright {
namespace {

/// Errors x and y of one deviation s have a length within √(−2 ln 0.05) s 19 times in 20, and one of them lies within 1.96 s.
Area spread_by_fixes(Area area) {
  constexpr Length within = 4.9 * unit::m;
  const Length deviation = within / std::sqrt(-2.0 * std::log(0.05));
  return 1.96 * std::sqrt(2.0) * deviation * boost::units::sqrt(area);
}

}  // namespace

const std::vector<std::pair<std::string, MeasuredBy>>& measured_by_words() {
  static const std::vector<std::pair<std::string, MeasuredBy>> words{{"wheel", MeasuredBy::wheel},
                                                                     {"tape", MeasuredBy::tape},
                                                                     {"paces", MeasuredBy::paces},
                                                                     {"tracing", MeasuredBy::tracing},
                                                                     {"gps", MeasuredBy::gps}};
  return words;
}

Area spread_of_area(Area area, MeasuredBy measured_by) {
  switch (measured_by) {
    case MeasuredBy::tape: return 0.02 * area;
    case MeasuredBy::wheel: return 0.03 * area;
    case MeasuredBy::tracing: return 0.05 * area;
    case MeasuredBy::paces: return 0.10 * area;
    case MeasuredBy::gps: return spread_by_fixes(area);
  }
  return {};
}

}  // namespace heapwright
