#include "heapwright/pile/description.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

struct Side {
  std::string_view key;
  std::optional<Length> PileDescription::*place;
};
constexpr std::array<Side, 5> sides{{{"length", &PileDescription::length},
                                     {"width", &PileDescription::width},
                                     {"height", &PileDescription::height},
                                     {"diameter", &PileDescription::diameter},
                                     {"top_width", &PileDescription::top_width}}};

// Wide of anything built, and narrow enough that figures stay readable.
const Length shortest_side = 0.01 * unit::m;
const Length longest_side = 1e4 * unit::m;
const Volume smallest_drum = 0.001 * unit::m3;
constexpr Duration shortest_turning = unit::day;
constexpr Duration longest_turning = 366.0 * unit::day;

Length read_side(std::string_view text) {
  const Length length = read_length(text);
  if (!(length >= shortest_side && length <= longest_side))
    throw TextError("\"" + std::string(text) + "\" is no side of a pile", "write a length from 1 cm to 10000 m: \"4 ft\"");
  return length;
}

Volume read_drum(std::string_view text) {
  const Volume volume = read_volume(text);
  if (!(volume >= smallest_drum))
    throw TextError("\"" + std::string(text) + "\" is no tumbler", "write a volume of 1 L or more: \"60 gal\"");
  return volume;
}

Mass read_pile_weight(std::string_view text) {
  const Mass mass = read_mass(text);
  const Mass least = 1.0 * unit::kg;
  if (!(mass >= least)) throw TextError("\"" + std::string(text) + "\" is no weight of a pile", "write what a full one weighs: \"900 lb\"");
  return mass;
}

/// Loose straw weighs 30 kg/m³ and more, and water without any air 1000. Judged.
BulkDensity density_of(Mass weighed, const PileDescription& pile) {
  const BulkDensity lightest = bulk_density(30.0);
  const BulkDensity heaviest = bulk_density(1100.0);
  const char* hint = "write what one weighs when it is full as described: \"900 lb\"";
  if (pile.shape == PileShape::tumbler) throw TextError("nobody fills a tumbler to the top", "weigh a bucket of each supply instead");
  const BulkDensity density = weighed / size_of(pile).volume;
  if (density < lightest) throw TextError("that is lighter than any pile of this size", hint);
  if (density > heaviest) throw TextError("that is heavier than any pile of this size", hint);
  return density;
}

bool has_size(const PileDescription& pile, std::string_view key) {
  if (key == "volume") return pile.volume.has_value();
  const auto side = std::find_if(sides.begin(), sides.end(), [&](const Side& one) { return one.key == key; });
  return side != sides.end() && (pile.*(side->place)).has_value();
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

void read_sizes(Table& table, PileDescription& pile, bool shape_known) {
  for (const std::string_view key : size_keys) {
    table.read(key, [&](std::string_view text) {
      read_size(pile, key, text);
      return true;
    });
  }
  if (!shape_known) return;
  for (const std::string& key : sizes_of(pile.shape)) table.require(key, "write " + key + " = \"" + std::string(example_size(key)) + "\"");
  checked_at(table, "top_width", [&] { check_top_width(pile); });
}

}  // namespace

const std::vector<std::pair<std::string, PileShape>>& pile_shape_words() {
  static const std::vector<std::pair<std::string, PileShape>> words{{"bin", PileShape::bin},
                                                                    {"round", PileShape::round},
                                                                    {"tumbler", PileShape::tumbler},
                                                                    {"cone", PileShape::cone},
                                                                    {"windrow", PileShape::windrow}};
  return words;
}

std::string_view shape_word(PileShape shape) {
  for (const auto& [word, meaning] : pile_shape_words()) {
    if (meaning == shape) return word;
  }
  return {};
}

void read_size(PileDescription& pile, std::string_view key, std::string_view text) {
  for (const Side& side : sides) {
    if (side.key == key) pile.*(side.place) = key == "top_width" ? read_length(text) : read_side(text);
  }
  if (key == "volume") pile.volume = read_drum(text);
}

std::vector<std::string> sizes_of(PileShape shape) {
  switch (shape) {
    case PileShape::bin:
    case PileShape::windrow: return {"length", "width", "height"};
    case PileShape::round:
    case PileShape::cone: return {"diameter", "height"};
    case PileShape::tumbler: return {"volume"};
  }
  return {};
}

std::vector<std::string> missing_sizes(const PileDescription& pile) {
  std::vector<std::string> missing = sizes_of(pile.shape);
  std::erase_if(missing, [&](const std::string& key) { return has_size(pile, key); });
  return missing;
}

std::string_view example_size(std::string_view key) { return key == "volume" ? "60 gal" : "4 ft"; }

void check_top_width(const PileDescription& pile) {
  if (!pile.top_width) return;
  if (pile.shape != PileShape::windrow)
    throw TextError("only a windrow has a width at the top", "leave it out, or let the shape be windrow");
  if (pile.width && !(*pile.top_width <= *pile.width))
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

int pile_count(double number) {
  constexpr double most = 1000.0;
  if (!(number >= 1.0 && number <= most && number == static_cast<int>(number)))
    throw TextError("is no number of piles", "write a whole number from 1 to 1000");
  return static_cast<int>(number);
}

PileSize size_of(const PileDescription& pile) {
  const std::vector<std::string> missing = missing_sizes(pile);
  if (!missing.empty()) throw DomainError("the pile has no " + missing.front(), "measure it");
  switch (pile.shape) {
    case PileShape::bin: return box(*pile.length, *pile.width, *pile.height);
    case PileShape::round: return cylinder(*pile.diameter, *pile.height);
    case PileShape::tumbler: return drum(*pile.volume);
    case PileShape::cone: return cone(*pile.diameter, *pile.height);
    case PileShape::windrow:
      if (pile.top_width) return flat_topped_windrow(*pile.length, *pile.width, *pile.top_width, *pile.height);
      return semi_elliptic_windrow(*pile.length, *pile.width, *pile.height);
  }
  throw DomainError("there is no such shape of a pile");
}

PileDescription filled_to(const PileDescription& pile, double share) {
  const auto scale = [](std::optional<Length>& side, double by) {
    if (side) *side *= by;
  };
  PileDescription part = pile;
  switch (pile.shape) {
    case PileShape::bin:
    case PileShape::round: scale(part.height, share); break;
    case PileShape::tumbler: *part.volume *= share; break;
    case PileShape::cone:
      scale(part.height, std::cbrt(share));
      scale(part.diameter, std::cbrt(share));
      break;
    case PileShape::windrow:
      for (auto* side : {&part.height, &part.width, &part.top_width}) scale(*side, std::sqrt(share));
      break;
  }
  return part;
}

Volume taken_by(const PileDescription& pile) {
  constexpr double share_of_a_tumbler = parts_of_a_tumbler_filled / parts_of_a_tumbler;
  const Volume full = size_of(pile).volume;
  return pile.shape == PileShape::tumbler ? share_of_a_tumbler * full : full;
}

Volume room_of(const PileDescription& pile) { return static_cast<double>(pile.count) * taken_by(pile); }

Facts facts_of(const PileDescription& pile, Date built) {
  Facts facts;
  if (pile.height && *pile.height > tall_pile * (1.0 + 1e-9)) facts.insert(Fact::tall_pile);
  if (pile.turn_every) facts.insert(Fact::turning);
  if (built.month() >= std::chrono::November || built.month() <= std::chrono::March) facts.insert(Fact::cold_season);
  return facts;
}

std::optional<PileDescription> read_pile(Table& root) {
  root.renamed("heap", "is called [pile]", "write [pile]");
  std::optional<Table> table = root.table("pile");
  if (!table) return std::nullopt;
  PileDescription pile;
  const auto shape = table->one_of("shape", pile_shape_words());
  pile.shape = shape.value_or(pile.shape);
  read_sizes(*table, pile, shape || !table->has("shape"));
  if (const auto count = table->number("count")) checked_at(*table, "count", [&] { pile.count = pile_count(*count); });
  pile.built = table->date("built");
  pile.filled_as_it_comes = table->one_of<bool>("filled", {{"at-once", false}, {"as-it-comes", true}}).value_or(false);
  pile.turn_every = table->read("turn_every", read_turning).value_or(std::nullopt);
  pile.keep_moist = table->flag("keep_moist").value_or(false);
  pile.covered = table->flag("covered").value_or(false);
  pile.standing = table->flag("standing").value_or(false);
  const std::optional<Mass> weighed = table->read("weighed", read_pile_weight);
  if (weighed && missing_sizes(pile).empty()) checked_at(*table, "weighed", [&] { pile.weighed = density_of(*weighed, pile); });
  table->finish();
  return pile;
}

}  // namespace heapwright
