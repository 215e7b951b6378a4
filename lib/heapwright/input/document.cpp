#include "heapwright/input/document.hpp"

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
  Tree own_tree;  ///< empty where the tree is another's
  TreeView tree;
  const Source* base = nullptr;  ///< of the file that some of its nodes were taken from

  Source(std::string of_file, std::string words) : name(std::move(of_file)), text(std::move(words)) {}

  /// Looked for only where something is wrong with it.
  std::string_view line(int number) const {
    std::string_view rest = text;
    for (int at = 1; at < number && !rest.empty(); ++at) {
      const std::size_t end = rest.find('\n');
      rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    }
    std::string_view line = number < 1 ? std::string_view() : rest.substr(0, rest.find('\n'));
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
  }

  /// The file that a node stands in.
  const Source& of(const Node& node) const { return node.of_base && base != nullptr ? *base : *this; }

  Position position(int line_number, int column) const {
    const std::string_view shown = line(line_number);
    return {name, line_number, column, std::string(shown.size() <= longest_line_shown ? shown : std::string_view())};
  }
};

namespace {

std::string_view kind_of(const Node& node) {
  switch (node.kind) {
    case NodeKind::text: return "a text";
    case NodeKind::whole_number:
    case NodeKind::number: return "a bare number";
    case NodeKind::flag: return "true or false";
    case NodeKind::date: return "a date";
    case NodeKind::time: return "a time of day";
    case NodeKind::list: return "a list";
    case NodeKind::table: return "a table";
  }
  return {};
}

std::string but_is(const Node& node, std::string_view wanted) {
  return "is " + std::string(kind_of(node)) + " where " + std::string(wanted) + " is wanted";
}

/// A bare number, whole or not.
std::optional<double> number_of(const Node& node) {
  const bool is_number = node.kind == NodeKind::whole_number || node.kind == NodeKind::number;
  return is_number ? std::optional(node.number) : std::nullopt;
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

[[noreturn]] void fail_syntax(const Value::Source& source, const NotToml& error) {
  std::string hint = "a line is a key, an equals sign and a value: depth = \"1/4 in\"";
  if (has_curly_quotes(source.line(error.line))) hint = "use straight quotes, \" and not “ or ”";
  fail(source.position(error.line, error.column), std::string("this is not TOML: ") + error.what(), std::move(hint));
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

bool Value::is_text() const { return node_->kind == NodeKind::text; }
bool Value::is_table() const { return node_->kind == NodeKind::table; }
bool Value::is_list() const { return node_->kind == NodeKind::list; }

std::optional<std::string_view> Value::words(std::string& digits) const {
  if (is_text()) {
    const std::string_view words = source_->tree.text_of(node_->of);
    if (words.size() <= longest_text) return words;
    problem("is longer than " + std::to_string(longest_text) + " bytes", "write it in fewer words");
    return std::nullopt;
  }
  const std::optional<double> number = number_of(*node_);
  if (number && std::isfinite(*number)) return digits = print_number(*number, 15);
  if (number) {
    problem("is not a number that can be used", "write a number and its unit, in quotes");
  } else {
    problem(but_is(*node_, "a text"), "write it in quotes");
  }
  return std::nullopt;
}

std::optional<std::string> Value::text() const {
  std::string digits;
  const std::optional<std::string_view> words = this->words(digits);
  return words ? std::optional<std::string>(*words) : std::nullopt;
}

std::optional<bool> Value::flag() const {
  if (node_->kind == NodeKind::flag) return node_->number != 0.0;
  problem(but_is(*node_, "true or false"), "write true or false, without quotes");
  return std::nullopt;
}

std::optional<double> Value::number() const {
  const std::optional<double> number = number_of(*node_);
  if (number && std::isfinite(*number)) return *number;
  problem(number ? "is not a number that can be used" : but_is(*node_, "a number"), "write a plain number, without quotes");
  return std::nullopt;
}

std::optional<Date> Value::date() const {
  if (node_->kind == NodeKind::date) {
    const int digits = static_cast<int>(node_->number);
    const auto part = [&](int of, int many) { return static_cast<unsigned>(digits / of % many); };
    try {
      return sensible_date(Date(std::chrono::year(digits / 10000), std::chrono::month(part(100, 100)), std::chrono::day(part(1, 100))));
    } catch (const TextError& error) {
      problem(error.what(), error.hint());
      return std::nullopt;
    }
  }
  problem(but_is(*node_, "a date"), "write a date without quotes: 2026-11-07");
  return std::nullopt;
}

std::vector<Value> Value::items() const {
  if (!is_list()) return {*this};
  std::vector<Value> items;
  items.reserve(node_->of.count);
  const Node* first = source_->tree.nodes + node_->of.first;
  for (const Node* item = first; item != first + node_->of.count; ++item) items.emplace_back(*item, *source_, key_, *problems_);
  return items;
}

Table Value::table() const { return Table(*this); }

Position Value::position() const { return source_->of(*node_).position(static_cast<int>(node_->line), static_cast<int>(node_->column)); }

void Value::problem(std::string what, std::string hint) const {
  problems_->add({position(), std::string(key_), std::move(what), std::move(hint)});
}

std::optional<Value> Table::find(std::string_view key) {
  expect(key);
  const Node* member = value_.source_->tree.member(*value_.node_, key);
  if (member == nullptr) return std::nullopt;
  return Value(*member, *value_.source_, value_.source_->tree.text_of(member->key), *value_.problems_);
}

bool Table::has(std::string_view key) const { return value_.source_->tree.member(*value_.node_, key) != nullptr; }

std::optional<std::string> Table::text(std::string_view key) {
  return read(key, [](std::string_view words) { return std::string(words); });
}

std::optional<std::string> Table::path(std::string_view key) {
  const std::optional<Value> value = find(key);
  if (!value) return std::nullopt;
  return value->read([&](std::string_view words) { return (value->source_->of(*value->node_).folder / words).string(); });
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
  value->problem(but_is(*value->node_, "a table"), "write [" + std::string(key) + "] on a line of its own, its keys below");
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
  const TreeView& tree = value_.source_->tree;
  const Node* first = tree.nodes + value_.node_->of.first;
  for (const Node* member = first; member != first + value_.node_->of.count; ++member) keys.emplace_back(tree.text_of(member->key));
  return keys;
}

void Value::unknown_word(const std::string& word, const std::vector<std::string>& known) const {
  std::string list;
  for (const std::string& name : known) list += (list.empty() ? "\"" : ", \"") + name + "\"";
  const std::optional<std::string> near = nearest(word, known);
  problem("\"" + word + "\" is not known here", (near ? "did you mean \"" + *near + "\"? " : "") + std::string("It is one of ") + list);
}

void Table::finish() {
  const TreeView& tree = value_.source_->tree;
  const Node* first = tree.nodes + value_.node_->of.first;
  for (const Node* member = first; member != first + value_.node_->of.count; ++member) {
    const std::string_view key = tree.text_of(member->key);
    if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) is_unknown(*member, key);
  }
}

void Table::is_unknown(const Node& member, std::string_view key) const {
  std::vector<std::string> known = asked_;
  std::sort(known.begin(), known.end());
  known.erase(std::unique(known.begin(), known.end()), known.end());
  std::string list;
  for (const std::string& one : known) list += (list.empty() ? "" : ", ") + one;
  const std::optional<std::string> near = nearest(key, known);
  const Value value(member, *value_.source_, key, *value_.problems_);
  value.problem("is not a key of this table", near ? "did you mean " + *near + "?" : "its keys are " + list);
}

Document::Document(std::unique_ptr<Value::Source> source, Problems& problems) : source_(std::move(source)), problems_(&problems) {}
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
    source->own_tree = read_tree(source->text);
    source->tree = source->own_tree.view();
    return {std::move(source), problems};
  } catch (const NotToml& error) {
    fail_syntax(*source, error);
  }
}

Document Document::from_tree(TreeView tree, std::string name, Problems& problems) {
  auto source = std::make_unique<Value::Source>(std::move(name), std::string());
  source->tree = tree;
  return {std::move(source), problems};
}

void Document::lay_over(Document base, const std::vector<std::string_view>& whole, const std::vector<std::string_view>& key_by_key,
                        const std::vector<std::vector<std::string_view>>& groups) {
  if (base_source_ || base.base_source_) throw DomainError("a file lies over one base, which has none of its own");
  heapwright::lay_over(source_->own_tree, base.source_->own_tree, whole, key_by_key, groups);
  source_->tree = source_->own_tree.view();
  base_source_ = std::move(base.source_);
  source_->base = base_source_.get();
}

std::vector<std::string> Document::files_at(std::string_view key) const {
  std::vector<std::string> files;
  for (const Node& node : source_->own_tree.nodes) {
    const bool names_one = node.kind == NodeKind::text && source_->tree.text_of(node.key) == key;
    if (names_one) files.push_back((source_->of(node).folder / source_->tree.text_of(node.of)).string());
  }
  return files;
}

Table Document::root() const { return Table(Value(source_->tree.nodes[0], *source_, {}, *problems_)); }
const std::string& Document::name() const { return source_->name; }

}  // namespace heapwright
