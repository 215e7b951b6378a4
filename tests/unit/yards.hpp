#pragma once
// Yard files in a few words.

#include <string>

#include "heapwright/yard/yard.hpp"
#include "piles.hpp"

namespace yards {

/// With some of the sets only, to be quick.
inline heapwright::Yard yard(const std::string& text) {
  heapwright::Yard one = heapwright::read_yard_text(text, "yard.toml", heapwright::built_in_tables());
  one.tables.ensemble = heapwright::Lazy<heapwright::ProcessEnsemble>(heapwright::piles::some_sets());
  return one;
}

inline std::string supply(const std::string& feedstock, const std::string& amount, const std::string& more = {}) {
  return "[[supply]]\nfeedstock = \"" + feedstock + "\"\namount = \"" + amount + "\"\n" + more;
}

}  // namespace yards
