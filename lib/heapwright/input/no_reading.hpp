#pragma once
/// What a field says where nothing was measured: one rule for logs, files of days and yard files.

#include <string_view>

namespace heapwright {

/// "", "-", "n/a", "NA", "NaN": no reading.
bool is_no_reading(std::string_view text);

/// "inf", "-Infinity", "inf degF": no number, and no missing one either. @throws TextError for such
void refuse_infinite(std::string_view text);

}  // namespace heapwright
