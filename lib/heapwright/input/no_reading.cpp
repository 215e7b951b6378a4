#include "heapwright/input/no_reading.hpp"

#include <string>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {

bool is_no_reading(std::string_view text) {
  if (text == "—") return true;
  const std::string plain = plain_name(text);  // without hyphens and points
  return plain.empty() || plain == "na" || plain == "n/a" || plain == "nan";
}

void refuse_infinite(std::string_view text) {
  std::string plain = plain_name(text);
  if (plain.starts_with('+')) plain.erase(0, 1);
  for (const std::string_view word : {"infinity", "infinite", "inf", "∞"}) {
    if (!plain.starts_with(word)) continue;
    const std::string_view unit = std::string_view(plain).substr(word.size());
    if (unit.empty() || temperature_scale(unit))
      throw TextError("\"" + std::string(text) + "\" is infinite, which no reading is", "where a thermometer failed, leave it empty");
  }
}

}  // namespace heapwright
