// Writes a C++ source that holds the tables of the materials folder as they are once parsed, and the text of the yard file that people
// start with.
// usage: heapwright-embed OUTPUT.cpp STARTER.toml TABLE.toml...
#include <fmt/format.h>
#include <fmt/os.h>

#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "heapwright/input/tree.hpp"

namespace {

using heapwright::Node;
using heapwright::NodeKind;
using heapwright::Tree;

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(file), {}};
  if (!file) throw std::runtime_error(path + " cannot be read");
  return text;
}

Tree tree_of(const std::string& path) {
  try {
    return heapwright::read_tree(text_of(path));
  } catch (const heapwright::NotToml& error) {
    throw std::runtime_error(fmt::format("{}:{}:{}: this is not TOML: {}", path, error.line, error.column, error.what()));
  }
}

std::string literal(const std::string& text) { return "R\"heapwright(" + text + ")heapwright\""; }

std::string code_of(const Node& node) {
  return fmt::format("{{NodeKind({}),false,{},{},{{{},{}}},{{{},{}}},{}}},\n", static_cast<int>(node.kind), node.line, node.column,
                     node.key.first, node.key.count, node.of.first, node.of.count, node.number);
}

void write(int count, char** arguments) {
  std::string tables, answers;
  for (int i = 3; i < count; ++i) {
    const Tree tree = tree_of(arguments[i]);
    tables += fmt::format("constexpr Node nodes_{}[] = {{\n", i);
    for (const Node& node : tree.nodes) tables += code_of(node);
    tables += fmt::format("}};\nconstexpr std::string_view text_{} = {};\n", i, literal(tree.text));
    answers +=
        fmt::format("  if (file == \"{}\") return {{nodes_{}, text_{}}};\n", std::filesystem::path(arguments[i]).filename().string(), i, i);
  }
  fmt::output_file(arguments[1])
      .print(
          R"(// Made from the materials folder by lib/cmake/embed_tables.cpp.
#include "heapwright/materials/embedded.hpp"

#include <stdexcept>
#include <string>

namespace heapwright {{
namespace {{
{}}}  // namespace

TreeView embedded_table(std::string_view file) {{
{}  throw std::out_of_range("no table " + std::string(file));
}}

std::string_view embedded_starter() {{ return {}; }}
}}  // namespace heapwright
)",
          tables, answers, literal(text_of(arguments[2])));
}

}  // namespace

int main(int count, char** arguments) {
  try {
    if (count < 4) throw std::runtime_error("usage: heapwright-embed OUTPUT.cpp STARTER.toml TABLE.toml...");
    write(count, arguments);
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
}
