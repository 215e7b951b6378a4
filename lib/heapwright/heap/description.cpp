#include "heapwright/heap/description.hpp"

#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, HeapShape>> shape_words{{"bin", HeapShape::bin},
                                                                 {"round", HeapShape::round},
                                                                 {"tumbler", HeapShape::tumbler},
                                                                 {"cone", HeapShape::cone},
                                                                 {"windrow", HeapShape::windrow}};

std::vector<std::string> keys_of(HeapShape shape) {
  switch (shape) {
    case HeapShape::bin:
    case HeapShape::windrow: return {"length", "width", "height"};
    case HeapShape::round:
    case HeapShape::cone: return {"diameter", "height"};
    case HeapShape::tumbler: return {"volume"};
  }
  return {};
}

Length read_side(std::string_view text) {
  const Length length = read_length(text);
  if (!(length.value() > 0.0)) throw TextError("\"" + std::string(text) + "\" is no side of a heap", "write a length above zero: \"4 ft\"");
  return length;
}

void read_size(Table& table, HeapDescription& heap, bool shape_known) {
  heap.length = table.read("length", read_side);
  heap.width = table.read("width", read_side);
  heap.height = table.read("height", read_side);
  heap.diameter = table.read("diameter", read_side);
  heap.volume = table.read("volume", read_volume);
  if (!shape_known) return;
  for (const std::string& key : keys_of(heap.shape))
    table.require(key, "write " + key + (key == "volume" ? " = \"60 gal\"" : " = \"4 ft\""));
}

}  // namespace

Volume room_of(const HeapDescription& heap) {
  constexpr double quarter_pi = std::numbers::pi / 4.0;
  const auto m = [](const std::optional<Length>& length) { return length ? length->value() : 0.0; };
  double one = 0.0;
  switch (heap.shape) {
    case HeapShape::bin: one = m(heap.length) * m(heap.width) * m(heap.height); break;
    case HeapShape::round: one = quarter_pi * m(heap.diameter) * m(heap.diameter) * m(heap.height); break;
    case HeapShape::tumbler: one = heap.volume ? heap.volume->value() : 0.0; break;
    case HeapShape::cone: one = quarter_pi / 3.0 * m(heap.diameter) * m(heap.diameter) * m(heap.height); break;
    case HeapShape::windrow: one = quarter_pi * m(heap.width) * m(heap.height) * m(heap.length); break;
  }
  return heap.count * one * unit::m3;
}

Facts facts_of(const HeapDescription& heap, Date built) {
  Facts facts;
  if (heap.height && *heap.height > tall_heap * (1.0 + 1e-9)) facts.insert(Fact::tall_heap);
  if (heap.turn_every) facts.insert(Fact::turning);
  if (built.month() >= std::chrono::November || built.month() <= std::chrono::March) facts.insert(Fact::cold_season);
  return facts;
}

std::optional<HeapDescription> read_heap(Table& root) {
  std::optional<Table> table = root.table("heap");
  if (!table) return std::nullopt;
  HeapDescription heap;
  const auto shape = table->one_of("shape", shape_words);
  heap.shape = shape.value_or(heap.shape);
  read_size(*table, heap, shape || !table->has("shape"));
  if (const auto count = table->number("count")) {
    if (*count >= 1.0 && *count <= 1000.0 && *count == static_cast<int>(*count)) {
      heap.count = static_cast<int>(*count);
    } else {
      table->problem_at("count", "is no number of heaps", "write a whole number from 1 to 1000");
    }
  }
  heap.built = table->date("built");
  heap.filled_as_it_comes = table->one_of<bool>("filled", {{"at-once", false}, {"as-it-comes", true}}).value_or(false);
  heap.turn_every = table
                        ->read("turn_every",
                               [](std::string_view text) -> std::optional<Duration> {
                                 if (text == "never") return std::nullopt;
                                 return read_duration(text);
                               })
                        .value_or(std::nullopt);
  heap.keep_moist = table->flag("keep_moist").value_or(false);
  heap.covered = table->flag("covered").value_or(false);
  table->finish();
  return heap;
}

}  // namespace heapwright
