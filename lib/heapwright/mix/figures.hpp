#pragma once
/// The figures of a portion as terms of a working, with the steps that lead to them.

#include <optional>
#include <string>

#include "heapwright/mix/batch.hpp"
#include "heapwright/working/step.hpp"
#include "heapwright/working/working_units.hpp"

namespace heapwright {

/// A portion by its figures, as Supply::properties() takes them. Their symbols bear its number: m2 is the weight of the second.
struct Figures {
  std::string name;
  Term mass;
  Term moisture;
  Term dry;
  Term carbon;
  Term nitrogen;
  std::optional<Term> carbon_to_nitrogen;  ///< where nitrogen follows from it
  Expression solids;                       ///< their volume
  std::optional<Term> density;             ///< as it lies in the pile
};

/// The figures of a portion: weight from containers and bulk density, moisture from a dried sample, nitrogen from carbon and C:N, each
/// where it follows so; else as it was given or stands in the table, with whose it is.
Figures figures_of(Working& working, const Portion& portion, std::size_t number, const Materials& materials, const WorkingUnits& units);

/// A volume over its bulk density, or a weight over one, between a measure and the large one that bulk densities are by: divided, or
/// multiplied, by how many make a large one; as it is where they are the same.
Expression in_large(const Expression& volume, const WorkingUnits& units, const WorkingUnit<Volume>& small);
Expression from_large(const Expression& volume, const WorkingUnits& units, const WorkingUnit<Volume>& small);

}  // namespace heapwright
