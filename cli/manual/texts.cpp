#include "texts.hpp"

namespace heapwright::cli {

std::string with_in_place_of(const std::string& text, char of, const std::string& with) {
  std::string changed;
  for (const char c : text) changed += c == of ? with : std::string(1, c);
  return changed;
}

std::string joined(const std::vector<std::string>& texts, const std::string& between) {
  std::string text;
  for (const std::string& one : texts) text += (text.empty() ? "" : between) + one;
  return text;
}

}  // namespace heapwright::cli
