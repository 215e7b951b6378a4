#pragma once
/// How much one input may hold, so that none makes the program slow or large: bounds far above what any yard, class or laboratory needs.
/// A bound that belongs to what it bounds stands there (most_supplies in mix/supply.hpp); DEVELOPERS.md lists all of them.

#include <cstddef>

namespace heapwright {

/// Bytes of a value of a file. Our own longest note has 300; names are looked up in a time that grows with the square of their length.
inline constexpr std::size_t longest_text = 1000;

/// Bytes of an answer to a question, and of what somebody says went in: a sentence or two.
inline constexpr std::size_t longest_answer = 300;

/// Tables of one key ([[reading]]): one a day for more than ten years.
inline constexpr std::size_t most_tables = 5000;

/// Prices that an order is made up from. Every two of them are looked at together.
inline constexpr std::size_t most_offers = 100;

/// Pieces and holes of a map. Whether one lies in another is looked at for every two.
inline constexpr std::size_t most_pieces = 400;

/// Levels of a map's JSON, one within the other: a polygon of a collection has eight. Each takes a place on the stack.
inline constexpr int deepest_map = 64;

}  // namespace heapwright
