#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/guide/kinds.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// Its sides alone, between "by", the height last: of "3 ft high, 4 ft wide and 4 ft long" it is "4 ft by 4 ft by 3 ft".
std::string sides_alone(std::string size) {
  const std::vector<std::string_view> words_before{
      "a ",    "an ",       "my ",     "wire ",    "of wire ", "square ", "round ",    "round, ",  "round,", "circle ", "hoop ",
      "ring ", "cylinder ", "pallet ", "tumbler ", "bin ",     "pile ",   "circular ", "plastic ", ": ",     "of ",     ", "};
  while (drop_any_front(size, words_before)) size = plain_answer(size);
  for (const std::string_view behind : {" tumbler", " plastic bin", " round bin", " bin", " barrel", " composter"}) {
    if (size.ends_with(behind)) size.erase(size.size() - behind.size());
  }
  replace_each(size, {", ", ",", "*", " and ", " with "}, " by ");
  const std::vector<std::string> words = split(size, {" "});
  const bool numbers_alone = words.size() == 3 && std::all_of(words.begin(), words.end(), is_bare_number);
  if (numbers_alone) size = words[0] + " by " + words[1] + " by " + words[2];
  std::string sides;
  std::string height;
  for (std::string side : split(size, {" by ", " x ", "x"})) {
    bool upright = false;
    for (const std::string_view word : {" high", " tall", " in height", " height"}) {
      if (!side.ends_with(word)) continue;
      side.erase(side.size() - word.size());
      upright = true;
    }
    replace_each(side,
                 {" in diameter", " diameter", " across", " round", " circle", " in width", " in length", " wide", " long", " deep",
                  " each way", " each side", " on a side", " cubed", " cube"},
                 " by ");
    replace_all(side, "  ", " ");
    while (side.ends_with(" by ") || side.ends_with(' ')) side.erase(side.size() - (side.ends_with(" by ") ? 4 : 1));
    if (upright && height.empty()) {
      height = side;
    } else if (!side.empty()) {
      sides += (sides.empty() ? "" : " by ") + side;
    }
  }
  return height.empty() ? sides : sides + (sides.empty() ? "" : " by ") + height;
}

bool is_round(const std::string& said) {
  constexpr auto round = std::to_array<std::string_view>({"round", "hoop", "ring", "circle", "circular", "cylinder", "diameter", "across"});
  const std::vector<std::string> words = split(said, {" ", ", ", ","});
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) { return is_one_of(word, round); });
}

/// @throws TextError for sides that somebody means in inches, and for inches that were meant of one side alone
void check_sides(const std::vector<std::string>& sides, const std::string& size, bool has_unit, const std::string& hint) {
  constexpr Length shortest = 0.1 * unit::m;
  constexpr Length longest = 60.0 * unit::m;
  const Length likely_inches = 24.0 * unit::foot;
  const Length likely_feet = 0.5 * unit::foot;
  for (const std::string& side : sides) {
    const Length length = read_length(side);
    if (!has_unit && length >= likely_inches)
      throw TextError(in_quotes(size) + " in feet, or in inches?", "write the unit: 36 in by 36 in by 36 in; or of a tumbler 60 gal");
    if (has_unit && sides.size() > 1 && length < likely_feet)
      throw TextError(in_quotes(side) + " for a side of a bin?", "write each with its unit: 4 ft by 4 ft by 30 in");
    if (!(length >= shortest && length <= longest)) throw TextError(in_quotes(side) + " is no side of a bin", hint);
  }
}

/// Tumblers are told by their gallons, and by no more than so many; judged.
bool is_larger_than_a_tumbler(Volume volume, const std::string& said) {
  constexpr Volume largest = 120.0 * unit::gallon;
  return volume > largest && said.find("tumbler") == std::string::npos;
}

}  // namespace

/// "4", "4 by 4 by 3", "4 ft x 4 ft x 3 ft": three sides, where one stands for all; "round 3 by 4", "hoop 4 ft across 3 ft high": diameter
/// and height; "64 gal": a tumbler's volume.
Reply read_size_answer(const Question& question, const std::string& said) {
  const std::string hint = "write length, width and height: 4 by 4 by 3; or round 3 by 4; or of a tumbler 60 gal";
  if (is_nothing(said)) return {{}, {"unknown"}, {}};
  const bool round = is_round(said);
  std::string size = sides_alone(said);
  const bool is_square = size.find(" square") != std::string::npos;
  replace_each(size, {" square"}, "");
  std::vector<std::string> sides = sides_of(size, question.bare);
  if (is_square && sides.size() == 2) sides.insert(sides.begin(), sides.front());
  const bool is_volume = sides.size() == 1 && !round && is_quantity(sides[0], Dimension::volume);
  if (is_volume && read_volume(sides[0]) >= unit::liter) {
    if (is_larger_than_a_tumbler(read_volume(sides[0]), said))
      throw TextError(in_quotes(said) + " of a bin or a pile?", "write its length, width and height: 4 by 4 by 3; or round 3 by 4");
    return {{sides[0]}, {"some", "volume"}, {}};
  }
  const bool all_read =
      std::all_of(sides.begin(), sides.end(), [](const std::string& side) { return is_quantity(side, Dimension::length); });
  if (round && sides.size() == 1)
    throw TextError("and how high?", "write across and height: round " + (all_read ? size : std::string("4")) + " by 3");
  if (!all_read) throw TextError(in_quotes(said) + " tells no size in feet", hint);
  if (sides.size() > 3 || (round && sides.size() != 2)) throw TextError(in_quotes(said) + " is no size", hint);
  check_sides(sides, size, !unit_behind(sides_in(size).front()).empty() || !unit_behind(sides_in(size).back()).empty(), hint);
  if (round) return {sides, {"some", "round"}, {}};
  const bool one_for_all =
      sides.size() == 1 && !is_square && said.find("wide") == std::string::npos && said.find("long") == std::string::npos;
  if (sides.size() == 1 && one_for_all) sides = {sides[0], sides[0], sides[0]};
  if (sides.size() < 3) throw TextError("and how high?", "write length, width and height: 4 by 4 by 3");
  return some(sides);
}

}  // namespace heapwright
