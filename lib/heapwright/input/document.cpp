#include "heapwright/input/document.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "heapwright/input/file.hpp"
#include "heapwright/input/limits.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {

struct Value::Source {
  std::string name;
  std::filesystem::path folder;  ///< of the file; empty where the text is no file's
  std::string text;
  std::vector<std::size_t> line_starts;
  const Source* base = nullptr;  ///< of the file that some of its nodes were taken from

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

  /// The file that a node stands in.
  const Source& of(const toml::node& node) const {
    const bool is_of_base = base != nullptr && node.source().path && *node.source().path == base->name;
    return is_of_base ? *base : *this;
  }

  Position position(int line_number, int column) const {
    const std::string_view shown = line(line_number);
    return {name, line_number, column, std::string(shown.size() <= longest_line_shown ? shown : std::string_view())};
  }
};

namespace {

int as_int(toml::source_index index) { return static_cast<int>(index); }

std::string kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::string: return "a text";
    case toml::node_type::integer:
    case toml::node_type::floating_point: return "a bare number";
    case toml::node_type::boolean: return "true or false";
    case toml::node_type::date: return "a date";
    case toml::node_type::array: return "a list";
    case toml::node_type::table: return "a table";
    case toml::node_type::none:
    case toml::node_type::time:
    case toml::node_type::date_time: break;
  }
  return "a time of day";
}

/// A bare number, whole or not.
std::optional<double> number_of(const toml::node& node) {
  if (const auto* whole = node.as_integer()) return static_cast<double>(whole->get());
  if (const auto* number = node.as_floating_point()) return number->get();
  return std::nullopt;
}

bool has_curly_quotes(std::string_view line) {
  for (const std::string_view quote : {"“", "”", "‘", "’"}) {
    if (line.find(quote) != std::string_view::npos) return true;
  }
  return false;
}

[[noreturn]] void fail(Position where, std::string what, std::string hint) {
  throw InputError({Problem{std::move(where), {}, std::move(what), std::move(hint)}});
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

bool Value::is_text() const { return node_->is_string(); }
bool Value::is_table() const { return node_->is_table(); }
bool Value::is_list() const { return node_->is_array(); }

std::optional<std::string> Value::text() const {
  if (const auto* text = node_->as_string()) {
    if (text->get().size() <= longest_text) return text->get();
    problem("is longer than " + std::to_string(longest_text) + " bytes", "write it in fewer words");
    return std::nullopt;
  }
  const std::optional<double> number = number_of(*node_);
  if (number && std::isfinite(*number)) return print_number(*number, 15);
  if (number) {
    problem("is not a number that can be used", "write a number and its unit, in quotes");
    return std::nullopt;
  }
  problem("is " + kind_of(*node_) + " where a text is wanted", "write it in quotes");
  return std::nullopt;
}

std::optional<bool> Value::flag() const {
  if (const auto* flag = node_->as_boolean()) return flag->get();
  problem("is " + kind_of(*node_) + " where true or false is wanted", "write true or false, without quotes");
  return std::nullopt;
}

std::optional<double> Value::number() const {
  const std::optional<double> number = number_of(*node_);
  if (number && std::isfinite(*number)) return *number;
  problem("is " + (number ? "not a number that can be used" : kind_of(*node_) + " where a number is wanted"),
          "write a plain number, without quotes");
  return std::nullopt;
}

std::optional<Date> Value::date() const {
  if (const auto* date = node_->as_date()) {
    const toml::date day = date->get();
    try {
      return sensible_date(Date(std::chrono::year(day.year), std::chrono::month(day.month), std::chrono::day(day.day)));
    } catch (const TextError& error) {
      problem(error.what(), error.hint());
      return std::nullopt;
    }
  }
  problem("is " + kind_of(*node_) + " where a date is wanted", "write a date without quotes: 2026-11-07");
  return std::nullopt;
}

std::vector<Value> Value::items() const {
  const toml::array* list = node_->as_array();
  if (list == nullptr) return {*this};
  std::vector<Value> items;
  items.reserve(list->size());
  for (const toml::node& item : *list) items.emplace_back(item, source_->of(item), key_, *problems_);
  return items;
}

Table Value::table() const { return Table(*this); }

Position Value::position() const {
  const toml::source_position& begin = node_->source().begin;
  return source_->position(as_int(begin.line), as_int(begin.column));
}

void Value::problem(std::string what, std::string hint) const { problems_->add({position(), key_, std::move(what), std::move(hint)}); }

std::optional<Value> Table::find(std::string_view key) {
  expect(key);
  const toml::node* member = value_.node_->as_table()->get(key);
  if (member == nullptr) return std::nullopt;
  return Value(*member, value_.source_->of(*member), std::string(key), *value_.problems_);
}

bool Table::has(std::string_view key) const { return value_.node_->as_table()->contains(key); }

std::optional<std::string> Table::text(std::string_view key) {
  return read(key, [](std::string_view words) { return std::string(words); });
}

std::optional<std::string> Table::path(std::string_view key) {
  const std::optional<Value> value = find(key);
  if (!value) return std::nullopt;
  return value->read([&](std::string_view words) { return (value->source_->folder / words).string(); });
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
    if (tables.size() == most_tables) {
      item.problem("stands more than " + std::to_string(most_tables) + " times", "leave out what is not used, or make a second file");
      return tables;
    }
    if (item.is_table() && value->is_list()) {
      tables.push_back(item.table());
    } else {
      item.problem("is not a list of tables", "write [[" + std::string(key) + "]], with two brackets, before each");
    }
  }
  return tables;
}

void Table::require(std::string_view key, std::string hint) {
  expect(key);
  if (!has(key)) problem(std::string(key) + " is missing", std::move(hint));
}

void Table::problem_at(std::string_view key, std::string what, std::string hint) {
  const std::optional<Value> value = find(key);
  (value ? *value : value_).problem(std::move(what), std::move(hint));
}

void Table::renamed(std::string_view key, std::string what, std::string hint) {
  if (has(key)) problem_at(key, std::move(what), std::move(hint));
}

std::vector<std::string> Table::keys() const {
  std::vector<std::string> keys;
  for (const auto& [key, member] : *value_.node_->as_table()) keys.emplace_back(key.str());
  return keys;
}

void Value::unknown_word(const std::string& word, const std::vector<std::string>& known) const {
  std::string list;
  for (const std::string& name : known) list += (list.empty() ? "\"" : ", \"") + name + "\"";
  const std::optional<std::string> near = nearest(word, known);
  problem("\"" + word + "\" is not known here", (near ? "did you mean \"" + *near + "\"? " : "") + std::string("It is one of ") + list);
}

void Table::finish() {
  std::vector<std::string> known = asked_;
  std::sort(known.begin(), known.end());
  known.erase(std::unique(known.begin(), known.end()), known.end());
  for (const auto& [key, member] : *value_.node_->as_table()) {
    if (std::binary_search(known.begin(), known.end(), key.str())) continue;
    std::string list;
    for (const std::string& one : known) list += (list.empty() ? "" : ", ") + one;
    const std::optional<std::string> near = nearest(key.str(), known);
    const Value value(member, value_.source_->of(member), std::string(key.str()), *value_.problems_);
    value.problem("is not a key of this table", near ? "did you mean " + *near + "?" : "its keys are " + list);
  }
}

Document::Document(std::unique_ptr<Value::Source> source, std::unique_ptr<toml::node> root, Problems& problems)
    : source_(std::move(source)), root_(std::move(root)), problems_(&problems) {}
Document::Document(Document&&) noexcept = default;
Document::~Document() = default;

FileKind yard_file_kind() { return {Document::largest_file, ".toml", "a yard file is a page or two of text"}; }

Document Document::from_file(const std::string& path, Problems& problems) {
  return to_be(contents_of(path, yard_file_kind()), path, problems);
}

Document Document::to_be(std::string text, const std::string& path, Problems& problems) {
  Document document = from_text(std::move(text), path, problems);
  document.source_->folder = std::filesystem::path(path).parent_path();
  return document;
}

Document Document::from_text(std::string text, std::string name, Problems& problems) {
  auto source = std::make_unique<Value::Source>(std::move(name), without_byte_order_mark(std::move(text)));
  refuse_deep_keys(*source);
  try {
    auto root = std::make_unique<toml::table>(toml::parse(std::string_view(source->text), source->name));
    return {std::move(source), std::move(root), problems};
  } catch (const toml::parse_error& error) {
    fail_syntax(*source, error);
  }
}

namespace {

/// Moves a node into a table that has none of its key; a node that is moved keeps its place in its file.
void take(toml::table& own, toml::table& base, std::string_view key) {
  toml::node* node = base.get(key);
  if (node == nullptr || own.contains(key)) return;
  node->visit([&](auto& value) { own.insert(key, std::move(value)); });
}

bool is_shut_out(std::string_view key, const std::vector<std::string>& own, const std::vector<std::vector<std::string_view>>& groups) {
  const auto is_own = [&](std::string_view member) { return std::find(own.begin(), own.end(), member) != own.end(); };
  return std::any_of(groups.begin(), groups.end(), [&](const auto& group) {
    return std::find(group.begin(), group.end(), key) != group.end() && std::any_of(group.begin(), group.end(), is_own);
  });
}

}  // namespace

void Document::lay_over(Document base, const std::vector<std::string_view>& whole, const std::vector<std::string_view>& key_by_key,
                        const std::vector<std::vector<std::string_view>>& groups) {
  if (base_source_ || base.base_source_) throw DomainError("a file lies over one base, which has none of its own");
  toml::table& own_root = *root_->as_table();
  toml::table& base_root = *base.root_->as_table();
  for (const std::string_view key : key_by_key) {
    toml::table* own = own_root[key].as_table();
    toml::table* under = base_root[key].as_table();
    if (own == nullptr || under == nullptr) continue;
    const std::vector<std::string> own_keys = Table(Value(*own, *source_, {}, *problems_)).keys();
    for (const std::string& member : Table(Value(*under, *base.source_, {}, *problems_)).keys()) {
      if (!is_shut_out(member, own_keys, groups)) take(*own, *under, member);
    }
  }
  for (const std::string_view key : key_by_key) take(own_root, base_root, key);
  for (const std::string_view key : whole) take(own_root, base_root, key);
  base_source_ = std::move(base.source_);
  source_->base = base_source_.get();
}

Table Document::root() const { return Table(Value(*root_, *source_, {}, *problems_)); }
const std::string& Document::name() const { return source_->name; }

}  // namespace heapwright
