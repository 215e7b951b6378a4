#pragma once
/// TOML files with positions: typed reading, every problem gathered, unknown keys found.
///
/// A room reads its own tables: it asks a Table for the keys it knows, gives each text to the reader of the
/// quantity it wants, and calls finish(), which reports the keys that nobody asked for.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/input/problems.hpp"
#include "heapwright/input/tree.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

class Table;
struct FileKind;

/// A value of a file and its place. Cheap to copy; valid as long as its Document.
class Value {
 public:
  struct Source;
  /// @param key outlives the value
  Value(const Node& node, const Source& source, std::string_view key, Problems& problems)
      : node_(&node), source_(&source), key_(key), problems_(&problems) {}

  /// What stands there.
  bool is_text() const;
  bool is_table() const;
  bool is_list() const;

  /// The value as written: of a text its characters, of a number its digits. Nothing, and a problem, for tables, lists and dates.
  std::optional<std::string> text() const;
  std::optional<bool> flag() const;      ///< true or false
  std::optional<double> number() const;  ///< a plain finite number
  std::optional<Date> date() const;      ///< 2026-11-07, not in quotes
  std::vector<Value> items() const;      ///< of a list; a single value counts as a list of one
  Table table() const;                   ///< @pre is_table()

  /// The text through a reader; a TextError becomes a problem of this place.
  template <class Read>
  auto read(Read&& reader) const -> std::optional<std::decay_t<decltype(reader(std::string_view()))>> {
    std::string digits;
    const std::optional<std::string_view> words = this->words(digits);
    if (!words) return std::nullopt;
    try {
      auto quantity = reader(*words);
      if (is_text()) return quantity;
      problem("must stand in quotes", "write \"" + digits + "\"");
    } catch (const Error& error) {
      problem(error.what(), error.hint());
    }
    return std::nullopt;
  }

  /// One of some words, each with what it means.
  template <class Meaning>
  std::optional<Meaning> one_of(const std::vector<std::pair<std::string, Meaning>>& words) const {
    std::string digits;
    const std::optional<std::string_view> word = this->words(digits);
    if (!word) return std::nullopt;
    for (const auto& [name, meaning] : words) {
      if (name == *word) return meaning;
    }
    std::vector<std::string> known;
    for (const auto& [name, meaning] : words) known.push_back(name);
    unknown_word(std::string(*word), known);
    return std::nullopt;
  }

  /// Tells a problem of this place.
  void problem(std::string what, std::string hint = {}) const;
  /// Where it stands, and at which key.
  Position position() const;
  std::string_view key() const { return key_; }

 private:
  /// What text() tells, as it stands in the file, or as digits in the string.
  std::optional<std::string_view> words(std::string& digits) const;
  void unknown_word(const std::string& word, const std::vector<std::string>& known) const;
  friend class Table;
  const Node* node_;
  const Source* source_;
  std::string_view key_;
  Problems* problems_;
};

/// A table of a file. Remembers which keys were asked for.
class Table {
 public:
  explicit Table(Value value) : value_(value) {}

  /// The value at a key; nothing where it is absent. The key counts as asked for.
  std::optional<Value> find(std::string_view key);
  /// Whether it stands there; no question of whether it may.
  bool has(std::string_view key) const;
  /// A key that may stand here, though nobody asks for it this time.
  void expect(std::string_view key) {
    constexpr std::size_t most_have_no_more = 12;
    if (asked_.empty()) asked_.reserve(most_have_no_more);
    asked_.emplace_back(key);
  }

  /// As those of a Value; nothing where the key is absent.
  std::optional<std::string> text(std::string_view key);
  /// The path of another file, which is read from the folder of this one; as it stands where this is a text and no file.
  std::optional<std::string> path(std::string_view key);
  std::optional<bool> flag(std::string_view key);
  std::optional<double> number(std::string_view key);
  std::optional<Date> date(std::string_view key);
  std::vector<Value> list(std::string_view key);

  /// The table at a key; nothing, and a problem, for anything else.
  std::optional<Table> table(std::string_view key);
  /// The tables of an array of tables ([[key]]); none where the key is absent.
  std::vector<Table> tables(std::string_view key);

  /// The text at a key through a reader, as that of a Value.
  template <class Read>
  auto read(std::string_view key, Read&& reader) -> std::optional<std::decay_t<decltype(reader(std::string_view()))>> {
    const std::optional<Value> value = find(key);
    if (!value) return std::nullopt;
    return value->read(std::forward<Read>(reader));
  }

  /// One of some words, each with what it means.
  template <class Meaning>
  std::optional<Meaning> one_of(std::string_view key, const std::vector<std::pair<std::string, Meaning>>& words) {
    const std::optional<Value> value = find(key);
    return value ? value->one_of(words) : std::nullopt;
  }

  /// A problem where the key is absent.
  void require(std::string_view key, std::string hint);
  /// Tells a problem of the table, or of a key of it.
  void problem(std::string what, std::string hint = {}) const { value_.problem(std::move(what), std::move(hint)); }
  void problem_at(std::string_view key, std::string what, std::string hint = {});
  /// A problem where a key stands that has another name now.
  void renamed(std::string_view key, std::string what, std::string hint);

  /// Reports every key of the table that nobody asked for, with the nearest that was.
  void finish();

  /// Where it stands.
  Position position() const { return value_.position(); }
  /// Where the problems of this table go, for a reader of another file that it names.
  Problems& problems() const { return *value_.problems_; }
  /// All of its keys, in the order of the alphabet.
  std::vector<std::string> keys() const;

 private:
  void is_unknown(const Node& member, std::string_view key) const;

  Value value_;
  std::vector<std::string> asked_;  ///< some of them twice
};

/// A whole file. Values and tables read from it point into it.
class Document {
 public:
  /// Most bytes that a file may have.
  static constexpr std::size_t largest_file = 1U << 20U;

  /// @throws InputError when the file cannot be read, is too large, or is not TOML
  static Document from_file(const std::string& path, Problems& problems);
  /// @param name what positions call it
  static Document from_text(std::string text, std::string name, Problems& problems);
  /// One that was read before, without its lines.
  static Document from_tree(TreeView tree, std::string name, Problems& problems);
  /// A text that a file is to hold: other files that it names are read from the folder of that.
  static Document to_be(std::string text, const std::string& path, Problems& problems);

  /// Values point into what it holds, so it moves and is not copied.
  Document(Document&&) noexcept;
  ~Document();

  /// Takes from another file what this one leaves out: of each of some keys the whole value; of a table whose keys stand each for
  /// themselves those that this one lacks, but for those that would say the same in another way: of a group of keys one that stands shuts
  /// out the base's. What is wrong with them is reported in that file's place. @pre neither lies over a base already
  void lay_over(Document base, const std::vector<std::string_view>& whole, const std::vector<std::string_view>& key_by_key,
                const std::vector<std::vector<std::string_view>>& groups);

  /// The files that it names under a key, wherever that stands: from its folder.
  std::vector<std::string> files_at(std::string_view key) const;

  /// The table of the whole file; and what positions call it.
  Table root() const;
  const std::string& name() const;

 private:
  Document(std::unique_ptr<Value::Source> source, Problems& problems);
  std::unique_ptr<Value::Source> source_;
  std::unique_ptr<Value::Source> base_source_;
  Problems* problems_;
};

/// What a TOML file of ours should be, for contents_of().
FileKind yard_file_kind();

}  // namespace heapwright
