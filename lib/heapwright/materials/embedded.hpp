#pragma once
/// The materials folder, compiled in.

#include <string_view>

#include "heapwright/input/tree.hpp"

namespace heapwright {

/// A table, parsed when the program was built; its name without the folder. @throws std::out_of_range
TreeView embedded_table(std::string_view file);
/// The text of the yard file that people start with.
std::string_view embedded_starter();

}  // namespace heapwright
