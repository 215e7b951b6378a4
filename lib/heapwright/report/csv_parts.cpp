#include "heapwright/report/csv_parts.hpp"

#include <string_view>

namespace heapwright {
namespace {

/// Spreadsheets run what begins so, behind spaces too: the signs that OWASP lists for CSV, some of them in full width.
bool runs_as_formula(std::string_view text) {
  if (text.starts_with('\t') || text.starts_with('\r')) return true;
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return false;
  text.remove_prefix(first);
  for (const std::string_view sign : {"=", "+", "-", "@", "|", "%", "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"}) {
    if (text.starts_with(sign)) return true;
  }
  return false;
}

}  // namespace

std::string csv_cell(const std::string& text) {
  const std::string harmless = runs_as_formula(text) ? "'" + text : text;
  if (harmless.find_first_of(",;\"\n\r\t") == std::string::npos) return harmless;
  std::string quoted = "\"";
  for (const char letter : harmless) quoted += letter == '"' ? "\"\"" : std::string(1, letter);
  return quoted + "\"";
}

}  // namespace heapwright
