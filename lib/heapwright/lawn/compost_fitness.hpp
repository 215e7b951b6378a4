#pragma once
/// Whether compost is fit for a lawn, by the supplier's analysis and the limits for turf (maturity/turf.hpp).

#include <string>
#include <vector>

#include "heapwright/lawn/compost_analysis.hpp"
#include "heapwright/maturity/criteria.hpp"

namespace heapwright {

/// A limit, and whether a figure keeps it.
struct JudgedLimit {
  TurfLimit limit;
  bool ok = false;
};

/// A figure of an analysis with all limits that there are for it.
struct JudgedFigure {
  std::string name;  ///< "salts in a 1:5 slurry"
  TestQuantity measured = TestQuantity();
  TestValue value;
  std::vector<JudgedLimit> limits;

  /// Whether it breaks any limit.
  bool is_outside() const;
};

/// Salts first.
struct CompostFitness {
  std::vector<JudgedFigure> figures;
  bool too_salty = false;

  /// Those that do.
  std::vector<JudgedFigure> outside() const;
};

/// So many times the limit for growing media bars compost from a lawn, where salts were measured in a way that no specification for turf
/// has. Judged: of a 1:5 slurry the highest limit for turf is four times the lowest, and what breaks that one breaks all.
inline constexpr double far_above_growing_media = 4.0;

/// Salts in a 1:5 slurry bar compost above every limit for turf. Salts of other methods have no limit for turf and do not convert: they are
/// held against those for growing media, below 4.0 dS/m in a saturated paste and 1.5 dS/m in a 1:2 slurry (University of Missouri, seen;
/// which says that they may not hold of compost on a field). What else is outside a limit is to be asked about and bars nothing.
CompostFitness compost_fitness(const CompostAnalysis& analysis, const Criteria& criteria);

}  // namespace heapwright
