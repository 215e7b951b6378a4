#include "heapwright/page/words.hpp"

namespace heapwright {

Words::Words() = default;
Words::Words(const Words& other) = default;
Words::Words(Words&& other) noexcept = default;
Words& Words::operator=(const Words& other) = default;
Words& Words::operator=(Words&& other) noexcept = default;
Words::~Words() = default;

Words::Words(std::string text) {
  if (!text.empty()) fragments_.emplace_back(std::move(text));
}

Words::Words(Fragment fragment) { fragments_.push_back(std::move(fragment)); }

Words& Words::operator+=(const Words& more) {
  fragments_.insert(fragments_.end(), more.fragments_.begin(), more.fragments_.end());
  return *this;
}

Words fill_in(std::string_view text, const std::vector<Words>& values) {
  Words words;
  for (const Words& value : values) {
    const std::size_t place = text.find("{}");
    words += text.substr(0, place);
    words += value;
    text.remove_prefix(place + 2);
  }
  words += text;
  return words;
}

Words joined(const std::vector<Words>& parts, std::string_view between) {
  Words words;
  for (const Words& part : parts) {
    if (!words.empty()) words += between;
    words += part;
  }
  return words;
}

Words listed(const std::vector<Words>& parts) {
  if (parts.size() < 2) return joined(parts);
  return say("{} and {}", joined({parts.begin(), parts.end() - 1}), parts.back());
}

}  // namespace heapwright
