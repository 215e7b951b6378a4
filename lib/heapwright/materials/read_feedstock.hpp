#pragma once
/// A feedstock's row from TOML, and whether its figures can all be true.

#include <optional>
#include <string>

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
bool third_agrees(CarbonDryBasis carbon, NitrogenDryBasis nitrogen, CarbonNitrogenRatio ratio, const TypedTo& typed);

/// Why a row has more nitrogen than anything that grew, with its arithmetic: above most_nitrogen, by its own values or as carbon over
/// C:N.
std::optional<std::string> why_not_nitrogen(const Feedstock& row);
/// Why a packing cannot weigh so much: more than its own solids and water without any air, the typical weight at the typical moisture, the
/// ends of its range at whichever moisture allows most.
std::optional<std::string> why_not_density(const Feedstock& row, const Packing& packing);

/// Judged. Laying hens' manure has up to 10 % nitrogen, the most of the table but for supplements and minerals; 12 % is three quarters
/// protein.
inline constexpr NitrogenDryBasis most_nitrogen = 0.12 * (unit::kg_nitrogen / unit::kg_dry);

/// A problem of a row that holds more nitrogen than anything that grew, unless it is like a supplement or a mineral.
void check_nitrogen(Table& table, const Feedstock& row, const Feedstock& like);

/// Problems of figures that contradict each other or nature: carbon outside 20–60 %, a third of carbon, nitrogen and C:N that
/// disagrees, a density above that of the row's own solids and water.
void check_feedstock(Table& table, const Feedstock& row);

}  // namespace heapwright
