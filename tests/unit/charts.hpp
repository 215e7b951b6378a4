#pragma once
/// Reads the SVG of a chart back, as strictly as a browser reads XML.

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace heapwright::charts {

struct Element {
  std::string name;
  std::map<std::string, std::string> attributes;
  std::string text;  ///< its own, entities resolved

  double number(const std::string& attribute) const { return std::stod(attributes.at(attribute)); }
  bool is(const std::string& attribute, std::string_view value) const {
    const auto found = attributes.find(attribute);
    return found != attributes.end() && found->second == value;
  }
};

/// An SVG, element after element. What is not well formed is a failure of the test.
class Svg {
 public:
  explicit Svg(std::string text) : text_(std::move(text)) {
    while (at_ < text_.size()) {
      if (text_[at_] == '<')
        read_tag();
      else
        read_text();
    }
    if (!open_.empty()) FAIL("<" << elements_[open_.back()].name << "> is left open");
  }

  const std::vector<Element>& elements() const { return elements_; }
  std::vector<Element> all(std::string_view name) const {
    std::vector<Element> found;
    for (const Element& element : elements_) {
      if (element.name == name) found.push_back(element);
    }
    return found;
  }
  std::vector<std::string> texts() const {
    std::vector<std::string> texts;
    for (const Element& text : all("text")) texts.push_back(text.text);
    return texts;
  }
  bool says(std::string_view words) const {
    for (const std::string& text : texts()) {
      if (text == words) return true;
    }
    return false;
  }
  double width() const { return frame().at(2); }
  double height() const { return frame().at(3); }

  /// All numbers of an attribute, of "12.5,3" and "M1 2L3 4" as well.
  static std::vector<double> numbers(const std::string& value) {
    std::vector<double> numbers;
    const char* at = value.c_str();
    while (*at != '\0') {
      char* end = nullptr;
      const double number = std::strtod(at, &end);  // it reads "nan" and "inf" too
      if (end == at) {
        ++at;
      } else {
        numbers.push_back(number);
        at = end;
      }
    }
    return numbers;
  }

 private:
  std::vector<double> frame() const { return numbers(elements_.front().attributes.at("viewBox")); }

  [[noreturn]] void refuse(const std::string& why) const {
    FAIL(why << " at " << text_.substr(at_, 60));
    throw std::logic_error(why);  // never reached: FAIL throws
  }

  void read_tag() {
    ++at_;
    if (text_.compare(at_, 1, "/") == 0) return read_end();
    Element element{read_name(), {}, {}};
    while (text_.at(at_) == ' ') {
      ++at_;
      read_attribute(element);
    }
    const bool is_empty = text_.at(at_) == '/';
    if (is_empty) ++at_;
    if (text_.at(at_) != '>') refuse("a tag without an end");
    ++at_;
    if (open_.empty() && !elements_.empty()) refuse("a second root");
    elements_.push_back(std::move(element));
    if (!is_empty) open_.push_back(elements_.size() - 1);
  }

  void read_end() {
    ++at_;
    const std::string name = read_name();
    if (open_.empty() || elements_[open_.back()].name != name) refuse("</" + name + "> closes another");
    open_.pop_back();
    if (text_.at(at_) != '>') refuse("a tag without an end");
    ++at_;
  }

  std::string read_name() {
    const std::size_t end = text_.find_first_of(" />=", at_);
    if (end == std::string::npos || end == at_) refuse("no name");
    std::string name = text_.substr(at_, end - at_);
    at_ = end;
    return name;
  }

  void read_attribute(Element& element) {
    const std::string name = read_name();
    if (text_.compare(at_, 2, "=\"") != 0) refuse("an attribute without quotes");
    const std::size_t end = text_.find('"', at_ + 2);
    if (end == std::string::npos) refuse("an attribute without an end");
    if (element.attributes.contains(name)) refuse(name + " twice");
    element.attributes[name] = resolved(text_.substr(at_ + 2, end - at_ - 2));
    at_ = end + 1;
  }

  void read_text() {
    const std::size_t end = std::min(text_.find('<', at_), text_.size());
    const std::string text = resolved(text_.substr(at_, end - at_));
    if (!open_.empty())
      elements_[open_.back()].text += text;
    else if (text.find_first_not_of(" \n") != std::string::npos)
      refuse("text outside");
    at_ = end;
  }

  std::string resolved(const std::string& raw) const {
    static const std::map<std::string, std::string> entities{
        {"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}};
    std::string text;
    for (std::size_t i = 0; i < raw.size();) {
      if (raw[i] == '<') refuse("a bare <");
      if (raw[i] != '&') {
        text += raw[i++];
        continue;
      }
      const std::size_t end = raw.find(';', i);
      const auto entity = end == std::string::npos ? entities.end() : entities.find(raw.substr(i, end - i + 1));
      if (entity == entities.end()) refuse("a bare &");
      text += entity->second;
      i = end + 1;
    }
    return text;
  }

  std::string text_;
  std::size_t at_ = 0;
  std::vector<Element> elements_;
  std::vector<std::size_t> open_;
};

}  // namespace heapwright::charts
