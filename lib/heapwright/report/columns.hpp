#pragma once
/// Columns on a screen.

#include <string>
#include <string_view>
#include <vector>

namespace heapwright {

/// Characters on a line of a screen, where nobody says.
inline constexpr std::size_t usual_width = 80;

std::size_t width_of(std::string_view text);                   ///< in characters
std::string padded(std::string_view text, std::size_t width);  ///< with spaces behind

/// Rows with their columns aligned, two spaces apart; a row of one cell stands across them. A row too long goes on below its last column.
std::string columns(const std::vector<std::vector<std::string>>& rows, std::size_t width = usual_width);

}  // namespace heapwright
