#pragma once
/// What a TOML text says, as plain data: nodes that a program can be built with, so that its own tables are never parsed when it runs.

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace heapwright {

/// What a value is. A time of day, with or without a date, is nothing that is read.
enum class NodeKind : std::uint8_t { text, whole_number, number, flag, date, time, list, table };

/// A run of characters of a tree's text, or of its nodes.
struct Range {
  std::uint32_t first = 0;
  std::uint32_t count = 0;
};

/// A value and its place. The items of a list, and the members of a table in the order of their keys, stand side by side.
struct Node {
  NodeKind kind = NodeKind::table;
  bool of_base = false;    ///< whether it stands in the file that another lies over
  std::uint32_t line = 0;  ///< from 1
  std::uint32_t column = 0;
  Range key;            ///< of the text, under which it stands in its table
  Range of;             ///< of the text of a text, of the nodes of a list or a table
  double number = 0.0;  ///< 1 for true; a date as yyyymmdd
};

/// Somebody else's nodes: first the root.
struct TreeView {
  const Node* nodes = nullptr;
  std::string_view text;

  /// The characters of a key, or of a text.
  std::string_view text_of(Range range) const { return text.substr(range.first, range.count); }
  /// The member of a table at a key; none where it has none.
  const Node* member(const Node& table, std::string_view key) const;
};

/// Nodes of its own.
struct Tree {
  std::vector<Node> nodes;
  std::string text;

  /// As long as it stays as it is.
  TreeView view() const { return {nodes.data(), text}; }
};

/// What is no TOML.
struct NotToml : std::runtime_error {
  NotToml(const std::string& what, int at_line, int at_column) : std::runtime_error(what), line(at_line), column(at_column) {}
  int line;
  int column;
};

/// @throws NotToml
Tree read_tree(std::string_view text);

/// Takes from another tree what this one leaves out; see Document::lay_over().
void lay_over(Tree& own, const Tree& base, const std::vector<std::string_view>& whole, const std::vector<std::string_view>& key_by_key,
              const std::vector<std::vector<std::string_view>>& groups);

}  // namespace heapwright
