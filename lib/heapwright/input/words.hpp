#pragma once
/// Small readings that several rooms share.

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/input/document.hpp"

namespace heapwright {

/// The months of a list at a key, each once; a repeated one is a problem.
std::vector<std::chrono::month> read_months(Table& table, std::string_view key);
/// The words of a text, which are its runs of letters from A to Z, each in its plain form (plain_name()): "Smells-burnt!" in two.
std::vector<std::string> words_of(std::string_view text);

}  // namespace heapwright
