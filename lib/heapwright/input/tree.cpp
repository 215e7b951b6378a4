#include "heapwright/input/tree.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <map>

namespace heapwright {
namespace {

NodeKind node_kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::string: return NodeKind::text;
    case toml::node_type::integer: return NodeKind::whole_number;
    case toml::node_type::floating_point: return NodeKind::number;
    case toml::node_type::boolean: return NodeKind::flag;
    case toml::node_type::date: return NodeKind::date;
    case toml::node_type::array: return NodeKind::list;
    case toml::node_type::table: return NodeKind::table;
    case toml::node_type::none:
    case toml::node_type::time:
    case toml::node_type::date_time: break;
  }
  return NodeKind::time;
}

std::uint32_t as_count(std::size_t count) { return static_cast<std::uint32_t>(count); }

class TreeBuilder {
 public:
  Tree build(const toml::table& root) && {
    tree_.nodes.push_back(node_of(root));
    add_children(0, root);
    return std::move(tree_);
  }

 private:
  /// The same words stand in the text once.
  Range add_text(std::string_view words) {
    const auto known = texts_.find(words);
    if (known != texts_.end()) return known->second;
    const Range range{as_count(tree_.text.size()), as_count(words.size())};
    tree_.text += words;
    texts_.emplace(words, range);
    return range;
  }

  Node node_of(const toml::node& node) {
    Node made;
    made.kind = node_kind_of(node);
    made.line = node.source().begin.line;
    made.column = node.source().begin.column;
    if (const auto* text = node.as_string()) made.of = add_text(text->get());
    if (const auto* whole = node.as_integer()) made.number = static_cast<double>(whole->get());
    if (const auto* number = node.as_floating_point()) made.number = number->get();
    if (const auto* flag = node.as_boolean()) made.number = flag->get() ? 1.0 : 0.0;
    if (const auto* date = node.as_date()) made.number = date->get().year * 10000.0 + date->get().month * 100.0 + date->get().day;
    return made;
  }

  void add_children(std::size_t parent, const toml::node& node) {
    const std::size_t first = tree_.nodes.size();
    if (const toml::array* list = node.as_array()) {
      for (const toml::node& item : *list) tree_.nodes.push_back(node_of(item));
      set_children(parent, first);
      for (std::size_t i = 0; i < list->size(); ++i) add_children(first + i, (*list)[i]);
    } else if (const toml::table* table = node.as_table()) {
      for (const auto& [key, member] : *table) {
        tree_.nodes.push_back(node_of(member));
        tree_.nodes.back().key = add_text(key.str());
      }
      set_children(parent, first);
      std::size_t at = first;
      for (const auto& [key, member] : *table) add_children(at++, member);
    }
  }

  void set_children(std::size_t parent, std::size_t first) {
    tree_.nodes[parent].of = {as_count(first), as_count(tree_.nodes.size() - first)};
  }

  Tree tree_;
  std::map<std::string, Range, std::less<>> texts_;
};

/// A node with its key, to be put among others.
using Members = std::vector<Node>;

Members members_of(const Tree& tree, const Node& table) {
  const auto first = tree.nodes.begin() + table.of.first;
  return {first, first + table.of.count};
}

const Node* find_member(const Tree& tree, const Node& table, std::string_view key) { return tree.view().member(table, key); }

bool is_shut_out(std::string_view key, const TreeView& own, const Node& table, const std::vector<std::vector<std::string_view>>& groups) {
  const auto is_own = [&](std::string_view member) { return own.member(table, member) != nullptr; };
  return std::any_of(groups.begin(), groups.end(), [&](const auto& group) {
    return std::find(group.begin(), group.end(), key) != group.end() && std::any_of(group.begin(), group.end(), is_own);
  });
}

/// The nodes of another tree behind one's own, so that members can point at them; returns where its root is.
std::uint32_t append(Tree& own, const Tree& base) {
  const std::uint32_t nodes_before = as_count(own.nodes.size());
  const std::uint32_t text_before = as_count(own.text.size());
  own.text += base.text;
  for (Node node : base.nodes) {
    node.of_base = true;
    node.key.first += text_before;
    node.of.first += node.kind == NodeKind::list || node.kind == NodeKind::table ? nodes_before : text_before;
    own.nodes.push_back(node);
  }
  return nodes_before;
}

void set_members(Tree& tree, std::size_t table, Members members) {
  const auto key_of = [&](const Node& node) { return tree.view().text_of(node.key); };
  std::sort(members.begin(), members.end(), [&](const Node& one, const Node& other) { return key_of(one) < key_of(other); });
  tree.nodes[table].of = {as_count(tree.nodes.size()), as_count(members.size())};
  tree.nodes.insert(tree.nodes.end(), members.begin(), members.end());
}

}  // namespace

const Node* TreeView::member(const Node& table, std::string_view key) const {
  const Node* first = nodes + table.of.first;
  const Node* last = first + table.of.count;
  const Node* found =
      std::lower_bound(first, last, key, [&](const Node& node, std::string_view sought) { return text_of(node.key) < sought; });
  return found != last && text_of(found->key) == key ? found : nullptr;
}

Tree read_tree(std::string_view text) {
  try {
    return TreeBuilder().build(toml::parse(text));
  } catch (const toml::parse_error& error) {
    const toml::source_position& begin = error.source().begin;
    throw NotToml(std::string(error.description()), static_cast<int>(begin.line), static_cast<int>(begin.column));
  }
}

void lay_over(Tree& own, const Tree& base, const std::vector<std::string_view>& whole, const std::vector<std::string_view>& key_by_key,
              const std::vector<std::vector<std::string_view>>& groups) {
  const Node base_root = own.nodes[append(own, base)];
  const auto at = [&](const Node* node) { return static_cast<std::size_t>(node - own.nodes.data()); };
  for (const std::string_view key : key_by_key) {
    const Node* table = find_member(own, own.nodes.front(), key);
    const Node* under = find_member(own, base_root, key);
    if (table == nullptr || under == nullptr || table->kind != NodeKind::table || under->kind != NodeKind::table) continue;
    const TreeView view = own.view();
    Members members = members_of(own, *table);
    for (const Node& member : members_of(own, *under)) {
      const std::string_view name = view.text_of(member.key);
      if (view.member(*table, name) == nullptr && !is_shut_out(name, view, *table, groups)) members.push_back(member);
    }
    set_members(own, at(table), std::move(members));
  }
  Members members = members_of(own, own.nodes.front());
  const auto take = [&](std::string_view key) {
    const Node* under = find_member(own, base_root, key);
    if (under != nullptr && find_member(own, own.nodes.front(), key) == nullptr) members.push_back(*under);
  };
  for (const std::string_view key : key_by_key) take(key);
  for (const std::string_view key : whole) take(key);
  set_members(own, 0, std::move(members));
}

}  // namespace heapwright
