#pragma once
/// The room that a load takes where it is tipped.

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// A cone as loose compost comes to rest.
struct TippedPile {
  Volume volume;
  Length across;
  Length high;
};

/// Of its slope, 37° (from memory, not re-checked):
///
///     V = π r³ tan 37° / 3        across = 2 r        high = r tan 37°
///
/// so that 10 yd³ lie 14 ft across and 5 ft high.
/// @throws DomainError for a volume that is not above zero (NaN too)
TippedPile tipped_pile(Volume volume);

}  // namespace heapwright
