#include "heapwright/pile/pile.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double hair = 1e-6;  // so that 3 ft is 3 ft whichever way it was worked out, and a recipe for a cubic yard is one
constexpr double about = 0.9;  // "about a cubic yard" is no sharper

/// What of a pile is there.
struct Filled {
  Volume volume;
  std::optional<Length> height;  ///< none of a tumbler
};

Filled filled(const PileDescription& pile, Volume loose) {
  const Volume full = taken_by(pile);
  const Volume in = std::min(full, loose);
  return {in, filled_to(pile, in / full).height};
}

bool heats(const Filled& pile) { return is_enough_to_heat(pile.volume) && (!pile.height || *pile.height >= about * least_height_to_heat); }

std::optional<Area> times(int count, const std::optional<Area>& area) {
  return area ? std::optional<Area>(static_cast<double>(count) * *area) : std::nullopt;
}

PileSize all_of(int count, const PileSize& each) {
  return {static_cast<double>(count) * each.volume, times(count, each.surface), times(count, each.footprint)};
}

PileSize checked_size(const PileDescription& pile) {
  const PileSize size = size_of(pile);
  if (!is_positive(size.volume)) throw DomainError("a pile of this size holds nothing", "measure it again");
  return size;
}

/// How the mix fills the piles, one after another.
void fill(PileFit& answer, Volume mix, ShareOfLooseVolume settling) {
  const PileDescription& pile = *answer.pile;
  const auto say = [&](PileNote note) { answer.notes.push_back(note); };
  answer.fills = mix / taken_by(pile);
  answer.piles_needed = piles_for(*answer.fills);
  const Filled first = filled(pile, mix / settling);
  answer.filled_height = first.height;
  if (first.height) answer.settled_height = settling * *first.height;
  answer.tall_enough_to_heat = heats(first);
  answer.fits = *answer.piles_needed <= pile.count;
  const Volume before_last = static_cast<double>(*answer.piles_needed - 1) * taken_by(pile);
  const Filled last = filled(pile, (mix - before_last) / settling);
  if (!*answer.fits) say(PileNote::does_not_fit);
  if (*answer.fits && mix > as_good_as_full * (settling * room_of(pile))) say(PileNote::fits_as_it_sinks);
  if (!answer.tall_enough_to_heat && heats(filled(pile, taken_by(pile)))) say(PileNote::too_little_to_heat);
  if (answer.tall_enough_to_heat && *answer.fits && !heats(last)) say(PileNote::rest_too_little_to_heat);
}

/// Suggested piles are made to what goes in.
void fill_suggested(PileFit& answer, ShareOfLooseVolume settling) {
  answer.notes.push_back(PileNote::suggested);
  answer.fills = answer.pile->count;
  answer.piles_needed = answer.pile->count;
  answer.filled_height = answer.pile->height;
  answer.settled_height = settling * *answer.pile->height;
}

PileDescription square_bins(Volume loose) {
  constexpr Length height = 4.0 * unit::foot;
  constexpr Length widest = 5.0 * unit::foot;
  PileDescription bins;
  bins.shape = PileShape::bin;
  const double bins_at_widest = loose / (widest * widest * height);
  bins.count = static_cast<int>(std::ceil((1.0 - hair) * bins_at_widest));
  const Volume each = loose / static_cast<double>(bins.count);
  const Length side = std::max(least_height_to_heat, Length(boost::units::sqrt(each / height)));
  bins.length = bins.width = side;
  bins.height = each / (side * side);
  return bins;
}

PileDescription windrow_of(Volume loose) {
  PileDescription windrow;
  windrow.shape = PileShape::windrow;
  windrow.height = tall_pile;
  windrow.width = 2.0 * tall_pile;
  windrow.length = loose / (std::numbers::pi / 4.0 * *windrow.width * *windrow.height);
  return windrow;
}

void assume(Answer<PileFit>& answer, ShareOfLooseVolume settling) {
  const auto add = [&](std::string_view what, AssumedValue value, const char* evidence) {
    answer.assumptions.push_back({std::string(what), std::move(value), std::nullopt, std::nullopt, evidence, std::nullopt});
  };
  if (answer->pile || answer->mix)
    add(rule_of_heating, "from 3 ft (0.9 m) high and 27 cu ft (0.76 m3) on, about a cubic yard", "common practice, no source");
  if (answer->pile && answer->pile->shape == PileShape::windrow && !answer->pile->top_width)
    add("section of the windrow", "half an ellipse: a triangle would hold less, a box more",
        "judged by us, after the half circle of Strom and Finstein, New Jersey's Manual on Composting Leaves and Management of Other Yard "
        "Trimmings");
  if (answer->mix && settling < ShareOfLooseVolume::of(1.0)) add("settled volume, of the loose one", settling, "your own figure");
}

}  // namespace

int piles_for(double fills) {
  constexpr double most_counted = 1e6;
  return static_cast<int>(std::min(most_counted, std::ceil(fills / as_good_as_full)));
}

std::string_view note_word(PileNote note) {
  switch (note) {
    case PileNote::suggested: return "suggested";
    case PileNote::too_small_to_heat: return "too-small-to-heat";
    case PileNote::too_little_to_heat: return "too-little-to-heat";
    case PileNote::rest_too_little_to_heat: return "rest-too-little-to-heat";
    case PileNote::too_tall: return "too-tall";
    case PileNote::does_not_fit: return "does-not-fit";
    case PileNote::fits_as_it_sinks: return "fits-as-it-sinks";
    case PileNote::forecast_tells: return "forecast-tells";
  }
  return {};
}

bool is_enough_to_heat(Volume volume) { return volume >= about * least_volume_to_heat; }

Answer<PileFit> fit_of(const std::optional<PileDescription>& described, const std::optional<Volume>& mix, ShareOfLooseVolume settling) {
  if (mix && !(is_positive(*mix) && boost::units::isfinite(*mix)))
    throw DomainError("there is no such volume of a mix", "give one above zero");
  if (!is_positive(settling)) throw DomainError("a pile does not settle to nothing", "give a share above zero");
  Answer<PileFit> answer;
  PileFit& fit = answer.result;
  fit.mix = mix;
  fit.settling = settling;
  fit.pile = described || !mix ? described : suitable_pile(*mix / settling);
  assume(answer, settling);
  if (!fit.pile) {
    if (mix) fit.notes.push_back(PileNote::too_little_to_heat);
    return answer;
  }
  fit.each = checked_size(*fit.pile);
  fit.all = all_of(fit.pile->count, *fit.each);
  const Filled full = filled(*fit.pile, taken_by(*fit.pile));
  fit.tall_enough_to_heat = heats(full);
  if (!fit.tall_enough_to_heat) fit.notes.push_back(PileNote::too_small_to_heat);
  if (!described) fill_suggested(fit, settling);
  if (described && mix) fill(fit, *mix, settling);
  const std::optional<Length>& height = mix ? fit.filled_height : full.height;
  if (height && *height > (1.0 + hair) * tall_pile) fit.notes.push_back(PileNote::too_tall);
  return answer;
}

std::optional<PileDescription> suitable_pile(Volume loose) {
  if (!is_enough_to_heat(loose)) return std::nullopt;
  PileDescription windrow = windrow_of(loose);
  const bool is_long = *windrow.length >= (1.0 - hair) * 2.0 * *windrow.width;
  return is_long ? windrow : square_bins(loose);
}

}  // namespace heapwright
