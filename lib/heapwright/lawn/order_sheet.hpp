#pragma once
/// What a sheet for the supplier and one for the crew need beside the topdressing: one truck's drop.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/lawn/jobs.hpp"
#include "heapwright/lawn/sheet_lines.hpp"
#include "heapwright/lawn/site.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/order/tipped_pile.hpp"

namespace heapwright {

/// How a crew sees, without a scale, that it spreads to a depth:
///
///     square of one barrow = √(barrow/depth)        of one bucket likewise        caught by a tarp = its area × depth
struct DepthCheck {
  Length depth;
  Length barrow_square;  ///< a side
  Length half_barrow_square;
  Length bucket_square;
  Volume caught;  ///< on a tarp of tarp_side
};
inline const Length tarp_side = 4.0 * 0.3048 * unit::m;

/// @throws DomainError for a depth that is not above zero (NaN too)
DepthCheck depth_check(Length depth, const Materials& materials);

/// Of a kind of grass for an area.
struct SeedForArea {
  const SeedRate* of = nullptr;
  Mass low;
  Mass high;
};

/// All that stands on both sides of a sheet.
struct OrderSheet {
  std::string name;  ///< of the jobs, or of the yard; may be empty
  Site site;
  Topdressing topdressing;                 ///< with its order
  std::vector<DepthCheck> checks;          ///< one of each depth, the thinnest first
  std::optional<LikelyBand<Mass>> barrow;  ///< a full one weighs
  std::optional<TippedPile> tipped;        ///< of one load in bulk; the largest
  int loads = 0;                           ///< that a truck tips; none of bags and one's own trips
  std::vector<SeedForArea> seeds;
  Volume water;                       ///< to water it in: half an inch (common practice, no source)
  std::vector<std::string> cautions;  ///< ids
};

/// @param topdressing with its order (order_for())
OrderSheet order_sheet(std::string name, Site site, Topdressing topdressing, const Materials& materials, const SheetLines& lines);

/// One for each drop, with the site of its first job that has one, else that of the file.
std::vector<OrderSheet> order_sheets(const DressedJobs& dressed, const std::vector<Job>& jobs, const std::optional<Site>& of_file,
                                     const Materials& materials, const SheetLines& lines);

}  // namespace heapwright
