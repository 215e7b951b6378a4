#pragma once
/// A pile and what is to go in: does it fit, how high does it come, will it heat.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/mix/answer.hpp"
#include "heapwright/pile/description.hpp"
#include "heapwright/pile/shapes.hpp"
#include "heapwright/units/fraction.hpp"

namespace heapwright {

/// Below this a pile loses its warmth as fast as it makes it: 3 ft high and 3 × 3 × 3 ft, "about a cubic yard" (common practice, no
/// source).
inline constexpr Length least_height_to_heat = 3.0 * unit::foot;
inline const Volume least_volume_to_heat = least_height_to_heat * least_height_to_heat * least_height_to_heat;

/// What the assumption about that is called.
inline constexpr std::string_view rule_of_heating = "a pile heats";

/// Whether so much heats, all in one pile; "about" takes a tenth less.
bool is_enough_to_heat(Volume volume);

/// What is to be said of a pile beside its figures.
enum class PileNote {
  suggested,                ///< none was described: the size is one that suits
  too_small_to_heat,        ///< even full
  too_little_to_heat,       ///< what is put in
  rest_too_little_to_heat,  ///< what is left for the last of several
  too_tall,                 ///< above tall_pile
  does_not_fit,
  fits_as_it_sinks,  ///< not all at once, since loose it is more than the room
  forecast_tells,    ///< small as it is, whether it heats is for the forecast to say
};

/// "too-tall", for other programs.
std::string_view note_word(PileNote note);

/// What fits, how high it comes, whether it heats.
struct PileFit {
  std::optional<PileDescription> pile;  ///< as described, else suggested; none where there is too little to suggest one for
  std::optional<PileSize> each;         ///< one pile, full
  std::optional<PileSize> all;          ///< all of them
  std::optional<Volume> mix;            ///< what is to be put in, settled; the rest applies where it is known
  ShareOfLooseVolume settling = ShareOfLooseVolume::of(1.0);  ///< settled volume of loose volume
  std::optional<Volume> left_over;                            ///< of what is on hand, loose; none where all of it is put in
  std::vector<std::string> left_over_of;                      ///< the names of that
  std::vector<std::string> stays_out;   ///< names of what is listed and does not go in at all: not there that day, not needed, not fit
  std::optional<double> fills;          ///< as many piles as that, 1.2
  std::optional<bool> fits;             ///< none where nobody described a pile
  std::optional<int> piles_needed;      ///< counted up to a million
  std::optional<Length> filled_height;  ///< of the first pile; none of a tumbler
  std::optional<Length> settled_height;
  bool tall_enough_to_heat = false;  ///< the first pile as it is filled; full where nothing is to be put in
  std::vector<PileNote> notes;
};

/// This many times its room is as good as full; judged.
inline constexpr double as_good_as_full = 1.02;

/// How many piles hold so many times the room of one; 2 % more than the room is as good as full.
int piles_for(double fills);

/// What a pile comes to, with the volume V of a mix (settled) and the settling k (settled volume over loose):
///
///     fits where V ≤ 1.02 n v, n piles that take v        piles needed = ⌈V / (1.02 v)⌉
///     fill of the first f = min(1, V/(k v)), loose, since piles are filled one after another
///     filled height = h f  (bin, round)        h ∛f  (cone)        h √f  (windrow): the last two keep their slope
///     settled height = k × filled height
///
/// 2 % more than the room is as good as full. Without a described pile it suggests one, suitable_pile().
/// @param mix above 0 @throws DomainError otherwise, and as size_of()
Answer<PileFit> fit_of(const std::optional<PileDescription>& described, const std::optional<Volume>& mix, ShareOfLooseVolume settling);

/// Piles that suit a loose volume: square bins at most 4 ft high and about 5 ft across, at least 3 ft; a windrow 5 ft high and
/// 10 ft wide where it comes out twice as long as wide, from 29 cubic yards on. None for less than heats: it is too little yet. Judged,
/// within what heats and what gets too big.
std::optional<PileDescription> suitable_pile(Volume loose);

}  // namespace heapwright
