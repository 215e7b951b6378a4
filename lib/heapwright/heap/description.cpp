#include "heapwright/heap/description.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

struct Side {
  std::string_view key;
  std::optional<Length> HeapDescription::*place;
};
constexpr std::array<Side, 5> sides{{{"length", &HeapDescription::length},
                                     {"width", &HeapDescription::width},
                                     {"height", &HeapDescription::height},
                                     {"diameter", &HeapDescription::diameter},
                                     {"top_width", &HeapDescription::top_width}}};

// Wide of anything built, and narrow enough that figures stay readable.
const Length shortest_side = 0.01 * unit::m;
const Length longest_side = 1e4 * unit::m;
const Volume smallest_drum = 0.001 * unit::m3;
const Duration shortest_turning = 86400.0 * unit::s;
const Duration longest_turning = 366.0 * 86400.0 * unit::s;

Length read_side(std::string_view text) {
  const Length length = read_length(text);
  if (!(length >= shortest_side && length <= longest_side))
    throw TextError("\"" + std::string(text) + "\" is no side of a heap", "write a length from 1 cm to 10000 m: \"4 ft\"");
  return length;
}

Volume read_drum(std::string_view text) {
  const Volume volume = read_volume(text);
  if (!(volume >= smallest_drum))
    throw TextError("\"" + std::string(text) + "\" is no tumbler", "write a volume of 1 L or more: \"60 gal\"");
  return volume;
}

Mass read_heap_weight(std::string_view text) {
  const Mass mass = read_mass(text);
  const Mass least = 1.0 * unit::kg;
  if (!(mass >= least)) throw TextError("\"" + std::string(text) + "\" is no weight of a heap", "write what a full one weighs: \"900 lb\"");
  return mass;
}

/// Loose straw weighs 30 kg/m³ and more, and water without any air 1000. Judged.
BulkDensity density_of(Mass weighed, const HeapDescription& heap) {
  const BulkDensity lightest = bulk_density(30.0);
  const BulkDensity heaviest = bulk_density(1100.0);
  const char* hint = "write what one weighs when it is full as described: \"900 lb\"";
  if (heap.shape == HeapShape::tumbler) throw TextError("nobody fills a tumbler to the top", "weigh a bucket of each supply instead");
  const BulkDensity density = weighed / size_of(heap).volume;
  if (density < lightest) throw TextError("that is lighter than any heap of this size", hint);
  if (density > heaviest) throw TextError("that is heavier than any heap of this size", hint);
  return density;
}

bool has_size(const HeapDescription& heap, std::string_view key) {
  if (key == "volume") return heap.volume.has_value();
  const auto side = std::find_if(sides.begin(), sides.end(), [&](const Side& one) { return one.key == key; });
  return side != sides.end() && (heap.*(side->place)).has_value();
}

/// Reads a key of the table with whatever reads or checks it; a TextError becomes a problem of its place.
template <class Check>
void checked_at(Table& table, std::string_view key, Check check) {
  try {
    check();
  } catch (const TextError& error) {
    table.problem_at(key, error.what(), error.hint());
  }
}

void read_sizes(Table& table, HeapDescription& heap, bool shape_known) {
  for (const std::string_view key : size_keys) {
    table.read(key, [&](std::string_view text) {
      read_size(heap, key, text);
      return true;
    });
  }
  if (!shape_known) return;
  for (const std::string& key : sizes_of(heap.shape)) table.require(key, "write " + key + " = \"" + std::string(example_size(key)) + "\"");
  checked_at(table, "top_width", [&] { check_top_width(heap); });
}

}  // namespace

const std::vector<std::pair<std::string, HeapShape>>& heap_shape_words() {
  static const std::vector<std::pair<std::string, HeapShape>> words{{"bin", HeapShape::bin},
                                                                    {"round", HeapShape::round},
                                                                    {"tumbler", HeapShape::tumbler},
                                                                    {"cone", HeapShape::cone},
                                                                    {"windrow", HeapShape::windrow}};
  return words;
}

std::string_view shape_word(HeapShape shape) {
  for (const auto& [word, meaning] : heap_shape_words()) {
    if (meaning == shape) return word;
  }
  return {};
}

void read_size(HeapDescription& heap, std::string_view key, std::string_view text) {
  for (const Side& side : sides) {
    if (side.key == key) heap.*(side.place) = key == "top_width" ? read_length(text) : read_side(text);
  }
  if (key == "volume") heap.volume = read_drum(text);
}

std::vector<std::string> sizes_of(HeapShape shape) {
  switch (shape) {
    case HeapShape::bin:
    case HeapShape::windrow: return {"length", "width", "height"};
    case HeapShape::round:
    case HeapShape::cone: return {"diameter", "height"};
    case HeapShape::tumbler: return {"volume"};
  }
  return {};
}

std::vector<std::string> missing_sizes(const HeapDescription& heap) {
  std::vector<std::string> missing = sizes_of(heap.shape);
  std::erase_if(missing, [&](const std::string& key) { return has_size(heap, key); });
  return missing;
}

std::string_view example_size(std::string_view key) { return key == "volume" ? "60 gal" : "4 ft"; }

void check_top_width(const HeapDescription& heap) {
  if (!heap.top_width) return;
  if (heap.shape != HeapShape::windrow)
    throw TextError("only a windrow has a width at the top", "leave it out, or let the shape be windrow");
  if (heap.width && !(*heap.top_width <= *heap.width))
    throw TextError("a windrow is no wider at the top than at the base", "make it the width at most");
}

std::optional<Duration> read_turning(std::string_view text) {
  if (text == "never") return std::nullopt;
  constexpr const char* hint = "write a day or more, at most a year: \"14 days\"; or \"never\"";
  Duration every;
  try {
    every = read_duration(text);
  } catch (const TextError& error) {
    throw TextError(error.what(), hint);
  }
  if (!(every >= shortest_turning && every <= longest_turning))
    throw TextError("\"" + std::string(text) + "\" is no time from one turning to the next", hint);
  return every;
}

int heap_count(double number) {
  constexpr double most = 1000.0;
  if (!(number >= 1.0 && number <= most && number == static_cast<int>(number)))
    throw TextError("is no number of heaps", "write a whole number from 1 to 1000");
  return static_cast<int>(number);
}

HeapSize size_of(const HeapDescription& heap) {
  const std::vector<std::string> missing = missing_sizes(heap);
  if (!missing.empty()) throw DomainError("the heap has no " + missing.front(), "measure it");
  switch (heap.shape) {
    case HeapShape::bin: return box(*heap.length, *heap.width, *heap.height);
    case HeapShape::round: return cylinder(*heap.diameter, *heap.height);
    case HeapShape::tumbler: return drum(*heap.volume);
    case HeapShape::cone: return cone(*heap.diameter, *heap.height);
    case HeapShape::windrow:
      if (heap.top_width) return flat_topped_windrow(*heap.length, *heap.width, *heap.top_width, *heap.height);
      return semi_elliptic_windrow(*heap.length, *heap.width, *heap.height);
  }
  throw DomainError("there is no such shape of a heap");
}

HeapDescription filled_to(const HeapDescription& heap, double share) {
  const auto scale = [](std::optional<Length>& side, double by) {
    if (side) *side *= by;
  };
  HeapDescription part = heap;
  switch (heap.shape) {
    case HeapShape::bin:
    case HeapShape::round: scale(part.height, share); break;
    case HeapShape::tumbler: *part.volume *= share; break;
    case HeapShape::cone:
      scale(part.height, std::cbrt(share));
      scale(part.diameter, std::cbrt(share));
      break;
    case HeapShape::windrow:
      for (auto* side : {&part.height, &part.width, &part.top_width}) scale(*side, std::sqrt(share));
      break;
  }
  return part;
}

Volume taken_by(const HeapDescription& heap) {
  constexpr double share_of_a_tumbler = 2.0 / 3.0;
  const Volume full = size_of(heap).volume;
  return heap.shape == HeapShape::tumbler ? share_of_a_tumbler * full : full;
}

Volume room_of(const HeapDescription& heap) { return static_cast<double>(heap.count) * taken_by(heap); }

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
  const auto shape = table->one_of("shape", heap_shape_words());
  heap.shape = shape.value_or(heap.shape);
  read_sizes(*table, heap, shape || !table->has("shape"));
  if (const auto count = table->number("count")) checked_at(*table, "count", [&] { heap.count = heap_count(*count); });
  heap.built = table->date("built");
  heap.filled_as_it_comes = table->one_of<bool>("filled", {{"at-once", false}, {"as-it-comes", true}}).value_or(false);
  heap.turn_every = table->read("turn_every", read_turning).value_or(std::nullopt);
  heap.keep_moist = table->flag("keep_moist").value_or(false);
  heap.covered = table->flag("covered").value_or(false);
  const std::optional<Mass> weighed = table->read("weighed", read_heap_weight);
  if (weighed && missing_sizes(heap).empty()) checked_at(*table, "weighed", [&] { heap.weighed = density_of(*weighed, heap); });
  table->finish();
  return heap;
}

}  // namespace heapwright
