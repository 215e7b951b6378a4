#include "heapwright/input/words.hpp"

#include <algorithm>
#include <string>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
std::vector<std::chrono::month> read_months(Table& table, std::string_view key) {
  std::vector<std::chrono::month> listed;
  for (const Value& value : table.list(key)) {
    const auto month = value.read(read_month);
    if (!month) continue;
    if (std::find(listed.begin(), listed.end(), *month) != listed.end()) {
      value.problem("names a month twice", "write each month once");
    } else {
      listed.push_back(*month);
    }
  }
  return listed;
}

std::vector<std::string> words_of(std::string_view text) {
  const auto is_letter = [](char one) { return (one >= 'a' && one <= 'z') || (one >= 'A' && one <= 'Z'); };
  std::vector<std::string> words;
  for (auto from = text.begin(); from != text.end();) {
    from = std::find_if(from, text.end(), is_letter);
    const auto to = std::find_if_not(from, text.end(), is_letter);
    if (from != to) words.push_back(plain_name(std::string_view(&*from, static_cast<std::size_t>(to - from))));
    from = to;
  }
  return words;
}

}  // namespace heapwright
