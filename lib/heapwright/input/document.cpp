#include "heapwright/input/document.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <iterator>

#include "heapwright/input/file.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {

struct Value::Source {
  std::string name;
  std::filesystem::path folder;  ///< of the file; empty where the text is no file's
  std::string text;
  std::vector<std::size_t> line_starts;

  Source(std::string of_file, std::string words) : name(std::move(of_file)), text(std::move(words)) {
    line_starts.push_back(0);
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == '\n') line_starts.push_back(i + 1);
    }
  }

  std::string_view line(int number) const {
    const auto index = static_cast<std::size_t>(number);
    if (number < 1 || index > line_starts.size()) return {};
    const std::size_t begin = line_starts[index - 1];
    const std::size_t end = index < line_starts.size() ? line_starts[index] - 1 : text.size();
    std::string_view line = std::string_view(text).substr(begin, end - begin);
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
  }

  Position position(int line_number, int column) const {
    const std::string_view shown = line(line_number);
    return {name, line_number, column, std::string(shown.size() <= longest_line_shown ? shown : std::string_view())};
  }
};

struct Value::Node {
  struct Member;
  std::variant<std::string, double, bool, Date, std::vector<Node>, std::vector<Member>> content;
  int line = 0;
  int column = 0;
  std::string refused;  ///< what it is, where it is a kind of value that no key takes
};

struct Value::Node::Member {
  std::string key;
  Node node;
};

namespace {

using Node = Value::Node;
using List = std::vector<Node>;
using Members = std::vector<Node::Member>;

int as_int(toml::source_index index) { return static_cast<int>(index); }

Node place(const toml::node& from) {
  Node node;
  node.line = as_int(from.source().begin.line);
  node.column = as_int(from.source().begin.column);
  return node;
}

Node convert(const toml::node& from) {
  Node node = place(from);
  if (const auto* text = from.as_string()) {
    node.content = text->get();
  } else if (const auto* flag = from.as_boolean()) {
    node.content = flag->get();
  } else if (const auto* integer = from.as_integer()) {
    node.content = static_cast<double>(integer->get());
  } else if (const auto* number = from.as_floating_point()) {
    node.content = number->get();
  } else if (const auto* date = from.as_date()) {
    const toml::date day = date->get();
    node.content = Date(std::chrono::year(day.year), std::chrono::month(day.month), std::chrono::day(day.day));
  } else if (const auto* list = from.as_array()) {
    List items;
    items.reserve(list->size());
    for (const toml::node& item : *list) items.push_back(convert(item));
    node.content = std::move(items);
  } else if (const auto* table = from.as_table()) {
    Members members;
    members.reserve(table->size());
    for (const auto& [key, value] : *table) members.push_back({std::string(key.str()), convert(value)});
    node.content = std::move(members);
  } else {
    node.refused = "a time of day";
  }
  return node;
}

std::string kind_of(const Node& node) {
  if (!node.refused.empty()) return node.refused;
  constexpr std::array<const char*, 6> kinds{"a text", "a bare number", "true or false", "a date", "a list", "a table"};
  return kinds.at(node.content.index());
}

bool has_curly_quotes(std::string_view line) {
  for (const std::string_view quote : {"“", "”", "‘", "’"}) {
    if (line.find(quote) != std::string_view::npos) return true;
  }
  return false;
}

[[noreturn]] void fail(Position where, std::string what, std::string would_be_right) {
  throw InputError({Problem{std::move(where), {}, std::move(what), std::move(would_be_right)}});
}

[[noreturn]] void fail_syntax(const Value::Source& source, const toml::parse_error& error) {
  const int line = as_int(error.source().begin.line);
  std::string hint = "a line is a key, an equals sign and a value: depth = \"1/4 in\"";
  if (has_curly_quotes(source.line(line))) hint = "use straight quotes, \" and not “ or ”";
  fail(source.position(line, as_int(error.source().begin.column)), "this is not TOML: " + std::string(error.description()),
       std::move(hint));
}

/// "a.a.a.a…": toml++ follows dotted keys without a limit, and its destructors after it.
void refuse_deep_keys(const Value::Source& source) {
  constexpr int most_dots = 100;
  int line = 1;
  int dots = 0;
  for (const char c : source.text) {
    if (c == '\n') {
      ++line;
      dots = 0;
    } else if (c == '.' && ++dots > most_dots) {
      fail({source.name, line, 1, {}}, "tables nested this deep are not read", "a key of a yard file is one or two words");
    }
  }
}

}  // namespace

bool Value::is_text() const { return std::holds_alternative<std::string>(node_->content) && node_->refused.empty(); }
bool Value::is_table() const { return std::holds_alternative<Members>(node_->content); }
bool Value::is_list() const { return std::holds_alternative<List>(node_->content); }

std::optional<std::string> Value::text() const {
  if (is_text()) return std::get<std::string>(node_->content);
  if (const double* number = std::get_if<double>(&node_->content)) {
    if (std::isfinite(*number)) return print_number(*number, 15);
  }
  problem("is " + kind_of(*node_) + " where a text is wanted", "write it in quotes");
  return std::nullopt;
}

std::optional<bool> Value::flag() const {
  if (const bool* value = std::get_if<bool>(&node_->content)) return *value;
  problem("is " + kind_of(*node_) + " where true or false is wanted", "write true or false, without quotes");
  return std::nullopt;
}

std::optional<double> Value::number() const {
  const double* value = std::get_if<double>(&node_->content);
  if (value != nullptr && std::isfinite(*value)) return *value;
  problem("is " + (value != nullptr ? "not a number that can be used" : kind_of(*node_) + " where a number is wanted"),
          "write a plain number, without quotes");
  return std::nullopt;
}

std::optional<Date> Value::date() const {
  if (const Date* value = std::get_if<Date>(&node_->content)) {
    try {
      return sensible_date(*value);
    } catch (const TextError& error) {
      problem(error.what(), error.hint());
      return std::nullopt;
    }
  }
  problem("is " + kind_of(*node_) + " where a date is wanted", "write a date without quotes: 2026-11-07");
  return std::nullopt;
}

std::vector<Value> Value::items() const {
  const List* list = std::get_if<List>(&node_->content);
  if (list == nullptr) return {*this};
  std::vector<Value> items;
  items.reserve(list->size());
  for (const Node& item : *list) items.emplace_back(item, *source_, key_, *problems_);
  return items;
}

Table Value::table() const { return Table(*this); }

Position Value::position() const { return source_->position(node_->line, node_->column); }

void Value::problem(std::string what, std::string would_be_right) const {
  problems_->add({position(), key_, std::move(what), std::move(would_be_right)});
}

std::optional<Value> Table::find(std::string_view key) {
  asked_.emplace(key);
  for (const Node::Member& member : std::get<Members>(value_.node_->content)) {
    if (member.key == key) return Value(member.node, *value_.source_, member.key, *value_.problems_);
  }
  return std::nullopt;
}

std::optional<std::string> Table::text(std::string_view key) {
  return read(key, [](std::string_view words) { return std::string(words); });
}

std::optional<std::string> Table::path(std::string_view key) {
  return read(key, [&](std::string_view words) { return (value_.source_->folder / words).string(); });
}

std::optional<bool> Table::flag(std::string_view key) {
  const std::optional<Value> value = find(key);
  return value ? value->flag() : std::nullopt;
}

std::optional<double> Table::number(std::string_view key) {
  const std::optional<Value> value = find(key);
  return value ? value->number() : std::nullopt;
}

std::optional<Date> Table::date(std::string_view key) {
  const std::optional<Value> value = find(key);
  return value ? value->date() : std::nullopt;
}

std::vector<Value> Table::list(std::string_view key) {
  const std::optional<Value> value = find(key);
  return value ? value->items() : std::vector<Value>();
}

std::optional<Table> Table::table(std::string_view key) {
  const std::optional<Value> value = find(key);
  if (!value) return std::nullopt;
  if (value->is_table()) return value->table();
  value->problem("is " + kind_of(*value->node_) + " where a table is wanted",
                 "write [" + std::string(key) + "] on a line of its own, its keys below");
  return std::nullopt;
}

std::vector<Table> Table::tables(std::string_view key) {
  std::vector<Table> tables;
  const std::optional<Value> value = find(key);
  if (!value) return tables;
  for (const Value& item : value->items()) {
    if (item.is_table() && value->is_list()) {
      tables.push_back(item.table());
    } else {
      item.problem("is not a list of tables", "write [[" + std::string(key) + "]], with two brackets, before each");
    }
  }
  return tables;
}

void Table::require(std::string_view key, std::string would_be_right) {
  if (!has(key)) problem(std::string(key) + " is missing", std::move(would_be_right));
}

void Table::problem_at(std::string_view key, std::string what, std::string would_be_right) {
  const std::optional<Value> value = find(key);
  (value ? *value : value_).problem(std::move(what), std::move(would_be_right));
}

void Table::renamed(std::string_view key, std::string what, std::string would_be_right) {
  const std::vector<std::string> there = keys();
  if (std::find(there.begin(), there.end(), key) != there.end()) problem_at(key, std::move(what), std::move(would_be_right));
}

std::vector<std::string> Table::keys() const {
  std::vector<std::string> keys;
  for (const Node::Member& member : std::get<Members>(value_.node_->content)) keys.push_back(member.key);
  return keys;
}

void Value::unknown_word(const std::string& word, const std::vector<std::string>& known) const {
  std::string list;
  for (const std::string& name : known) list += (list.empty() ? "\"" : ", \"") + name + "\"";
  const std::optional<std::string> near = nearest(word, known);
  problem("\"" + word + "\" is not known here", (near ? "did you mean \"" + *near + "\"? " : "") + std::string("It is one of ") + list);
}

void Table::finish() {
  const std::vector<std::string> known(asked_.begin(), asked_.end());
  std::string list;
  for (const std::string& key : known) list += (list.empty() ? "" : ", ") + key;
  for (const Node::Member& member : std::get<Members>(value_.node_->content)) {
    if (asked_.contains(member.key)) continue;
    const std::optional<std::string> near = nearest(member.key, known);
    const Value value(member.node, *value_.source_, member.key, *value_.problems_);
    value.problem("is not a key of this table", near ? "did you mean " + *near + "?" : "its keys are " + list);
  }
}

Document::Document(std::unique_ptr<Value::Source> source, std::unique_ptr<Value::Node> root, Problems& problems)
    : source_(std::move(source)), root_(std::move(root)), problems_(&problems) {}
Document::Document(Document&&) noexcept = default;
Document::~Document() = default;

Document Document::from_file(const std::string& path, Problems& problems) {
  Document document = from_text(contents_of(path, {largest_file, ".toml", "a yard file is a page or two of text"}), path, problems);
  document.source_->folder = std::filesystem::path(path).parent_path();
  return document;
}

Document Document::from_text(std::string text, std::string name, Problems& problems) {
  auto source = std::make_unique<Value::Source>(std::move(name), without_byte_order_mark(std::move(text)));
  refuse_deep_keys(*source);
  try {
    const toml::table parsed = toml::parse(std::string_view(source->text), source->name);
    auto root = std::make_unique<Node>(convert(parsed));
    return {std::move(source), std::move(root), problems};
  } catch (const toml::parse_error& error) {
    fail_syntax(*source, error);
  }
}

Table Document::root() const { return Table(Value(*root_, *source_, {}, *problems_)); }
const std::string& Document::name() const { return source_->name; }

}  // namespace heapwright
