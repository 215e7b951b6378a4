#pragma once
/// A feedstock's row from TOML, and whether its figures can all be true.

#include "heapwright/input/document.hpp"
#include "heapwright/materials/feedstock.hpp"

namespace heapwright {

/// Reads a row in place of the one that was there, which leaves its everyday names and its tags unless the new one gives its own.
void read_feedstock(Table& table, Feedstock& row);

/// How finely carbon, nitrogen and C:N were typed: half a unit of the last digit, relative.
struct TypedTo {
  double carbon;
  double nitrogen;
  double ratio;
};

/// Whether carbon over nitrogen is the C:N beside them, for some figures that round to those typed.
bool third_agrees(double carbon, double nitrogen, double ratio, const TypedTo& typed);

/// Problems of figures that contradict each other or nature: carbon outside 20–60 %, a third of carbon, nitrogen and C:N that
/// disagrees, a density above that of the row's own solids and water.
void check_feedstock(Table& table, const Feedstock& row);

}  // namespace heapwright
