#pragma once
/// Whose a criterion is.

#include <string>

#include "heapwright/materials/published_value.hpp"

namespace heapwright {

/// Whose a figure is, and how we know it.
struct Provenance {
  std::string source;  ///< id of a Source
  Evidence evidence = Evidence::judged;
  std::string what;  ///< of what, in the source's words
};

}  // namespace heapwright
