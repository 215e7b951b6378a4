#pragma once
/// The pile or bin of a yard, as its owner describes it.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/materials/caution.hpp"
#include "heapwright/pile/shapes.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// The shapes of shapes.hpp, by what people call them.
enum class PileShape { bin, round, tumbler, cone, windrow };

/// Each shape with its word in [pile].
const std::vector<std::pair<std::string, PileShape>>& pile_shape_words();
/// "windrow".
std::string_view shape_word(PileShape shape);

/// What [pile] says.
struct PileDescription {
  PileShape shape = PileShape::bin;
  std::optional<Length> length;
  std::optional<Length> width;
  std::optional<Length> height;
  std::optional<Length> diameter;
  std::optional<Length> top_width;  ///< of a flat-topped windrow; without it the section is half an ellipse
  std::optional<Volume> volume;
  int count = 1;
  std::optional<Date> built;
  bool filled_as_it_comes = false;
  std::optional<Duration> turn_every;  ///< never where absent
  bool keep_moist = false;
  bool covered = false;
  bool standing = false;               ///< it is there already, of the size described; its loads, where known, say what went in
  std::optional<BulkDensity> weighed;  ///< by what one of them was weighed to hold, full as described
};

/// The keys of [pile] that measure it.
inline constexpr std::array<std::string_view, 6> size_keys{"length", "width", "height", "diameter", "top_width", "volume"};

/// Reads a size into the place of its key, one of size_keys. @throws TextError where the text is none: sides are from 1 cm to 10000 m, a
/// top width from 0, a tumbler from 1 L
void read_size(PileDescription& pile, std::string_view key, std::string_view text);

/// The keys of the sizes that a shape is measured by.
std::vector<std::string> sizes_of(PileShape shape);
/// Those of them that a description lacks.
std::vector<std::string> missing_sizes(const PileDescription& pile);
/// How a size may be written: "4 ft", "60 gal".
std::string_view example_size(std::string_view key);

/// @throws TextError where a pile that is no windrow has a top width, or a windrow is wider at its top than at its base
void check_top_width(const PileDescription& pile);

/// How often a pile is turned: "14 days", or "never". @throws TextError for less than a day and more than a year too
std::optional<Duration> read_turning(std::string_view text);

/// A number of piles: whole, from 1 to 1000. @throws TextError otherwise
int pile_count(double number);

/// One pile of a description, full. @throws DomainError where a size is missing, or there is no such shape
PileSize size_of(const PileDescription& pile);

/// One pile of a description with a share of it there, from 0 to 1: a bin is filled lower; cones and windrows keep their slope and are
/// smaller all round.
PileDescription filled_to(const PileDescription& pile, double share);

/// What a tumbler takes of its volume, since it must turn over: two parts of three (common practice, no source).
inline constexpr double parts_of_a_tumbler_filled = 2.0;
inline constexpr double parts_of_a_tumbler = 3.0;

/// What one pile of a description takes: all of its volume, but of a tumbler two thirds, since it must turn over (common practice, no
/// source). @throws DomainError as size_of()
Volume taken_by(const PileDescription& pile);
/// What all of them take: count × taken_by().
Volume room_of(const PileDescription& pile);

/// Higher than this a pile packs down, heats unevenly and can take fire: 5 ft. Local codes limit it to 4 or 5 ft too.
inline constexpr Length tall_pile = 5.0 * unit::foot;

/// The facts of a pile built on a day that call for cautions. November to March counts as cold, when stoves burn (judged).
Facts facts_of(const PileDescription& pile, Date built);

/// Reads [pile]; nothing where the file has none.
std::optional<PileDescription> read_pile(Table& root);

}  // namespace heapwright
