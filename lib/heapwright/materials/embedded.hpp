#pragma once
#include <string_view>

namespace heapwright {

/// The text of a file of the materials folder, compiled in; its name without the folder. @throws std::out_of_range
std::string_view embedded_material(std::string_view file);

}  // namespace heapwright
