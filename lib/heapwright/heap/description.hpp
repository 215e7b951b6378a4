#pragma once
/// The heap or bin of a yard, as its owner describes it.

#include <optional>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/caution.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

enum class HeapShape { bin, round, tumbler, cone, windrow };

struct HeapDescription {
  HeapShape shape = HeapShape::bin;
  std::optional<Length> length;
  std::optional<Length> width;
  std::optional<Length> height;
  std::optional<Length> diameter;
  std::optional<Volume> volume;
  int count = 1;
  std::optional<Date> built;
  bool filled_as_it_comes = false;
  std::optional<Duration> turn_every;  ///< never where absent
  bool keep_moist = false;
  bool covered = false;
};

/// What all heaps of a description hold, full: a box, a cylinder, a drum, a cone, or a windrow of semi-elliptic section (π/4 × width ×
/// height × length).
Volume room_of(const HeapDescription& heap);

/// Higher than this a heap packs down, heats unevenly and can take fire: 5 ft. Local codes limit it to 4 or 5 ft too.
inline const Length tall_heap = 5.0 * 0.3048 * unit::m;

/// The facts of a heap built on a day that call for cautions. November to March counts as cold, when stoves burn (judged).
Facts facts_of(const HeapDescription& heap, Date built);

/// Reads [heap]; nothing where the file has none.
std::optional<HeapDescription> read_heap(Table& root);

}  // namespace heapwright
