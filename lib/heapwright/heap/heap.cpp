#include "heapwright/heap/heap.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double as_good_as_full = 1.02;
constexpr double hair = 1e-6;  // so that 3 ft is 3 ft whichever way it was reckoned, and a recipe for a cubic yard is one
constexpr double about = 0.9;  // "about a cubic yard" is no sharper

/// What of a heap is there.
struct Filled {
  Volume volume;
  std::optional<Length> height;  ///< none of a tumbler
};

Filled filled(const HeapDescription& heap, double share) {
  share = std::min(1.0, share);
  return {share * taken_by(heap), filled_to(heap, share).height};
}

bool heats(const Filled& heap) { return is_enough_to_heat(heap.volume) && (!heap.height || *heap.height >= about * least_height_to_heat); }

std::optional<Area> times(int count, const std::optional<Area>& area) {
  return area ? std::optional<Area>(static_cast<double>(count) * *area) : std::nullopt;
}

HeapSize all_of(int count, const HeapSize& each) {
  return {static_cast<double>(count) * each.volume, times(count, each.surface), times(count, each.footprint)};
}

HeapSize checked_size(const HeapDescription& heap) {
  const HeapSize size = size_of(heap);
  if (!(size.volume.value() > 0.0)) throw DomainError("a heap of this size holds nothing", "measure it again");
  return size;
}

/// How the mix fills the heaps, one after another.
void fill(HeapAnswer& answer, Volume mix, ShareOfLooseVolume settling) {
  const HeapDescription& heap = *answer.heap;
  const auto say = [&](HeapNote note) { answer.notes.push_back(note); };
  answer.fills = (mix / taken_by(heap)).value();
  answer.heaps_needed = heaps_for(*answer.fills);
  const Filled first = filled(heap, *answer.fills / settling.value());
  answer.filled_height = first.height;
  if (first.height) answer.settled_height = settling.value() * *first.height;
  answer.tall_enough_to_heat = heats(first);
  answer.fits = *answer.heaps_needed <= heap.count;
  const Filled last = filled(heap, (*answer.fills - (*answer.heaps_needed - 1)) / settling.value());
  if (!*answer.fits) say(HeapNote::does_not_fit);
  if (*answer.fits && mix > as_good_as_full * settling.value() * room_of(heap)) say(HeapNote::fits_as_it_sinks);
  if (!answer.tall_enough_to_heat && heats(filled(heap, 1.0))) say(HeapNote::too_little_to_heat);
  if (answer.tall_enough_to_heat && *answer.fits && !heats(last)) say(HeapNote::rest_too_little_to_heat);
}

/// Suggested heaps are made to what goes in.
void fill_suggested(HeapAnswer& answer, ShareOfLooseVolume settling) {
  answer.notes.push_back(HeapNote::suggested);
  answer.fills = answer.heap->count;
  answer.heaps_needed = answer.heap->count;
  answer.filled_height = answer.heap->height;
  answer.settled_height = settling.value() * *answer.heap->height;
}

HeapDescription square_bins(Volume loose) {
  const Length height = 4.0 * 0.3048 * unit::m;
  const Length widest = 5.0 * 0.3048 * unit::m;
  HeapDescription bins;
  bins.shape = HeapShape::bin;
  bins.count = static_cast<int>(std::ceil((1.0 - hair) * (loose / (widest * widest * height)).value()));
  const Volume each = loose / static_cast<double>(bins.count);
  const Length side = std::max(least_height_to_heat, std::sqrt((each / height).value()) * unit::m);
  bins.length = bins.width = side;
  bins.height = each / (side * side);
  return bins;
}

HeapDescription windrow_of(Volume loose) {
  HeapDescription windrow;
  windrow.shape = HeapShape::windrow;
  windrow.height = tall_heap;
  windrow.width = 2.0 * tall_heap;
  windrow.length = loose / (std::numbers::pi / 4.0 * *windrow.width * *windrow.height);
  return windrow;
}

void assume(HeapAnswer& answer, ShareOfLooseVolume settling) {
  const auto add = [&](const char* what, AssumedValue value, const char* evidence) {
    answer.assumptions.push_back({what, std::move(value), std::nullopt, std::nullopt, evidence, std::nullopt});
  };
  if (answer.heap || answer.mix)
    add("a heap heats", "from 3 ft (0.9 m) high and 27 cu ft (0.76 m3) on, about a cubic yard", "common practice, no source");
  if (answer.heap && answer.heap->shape == HeapShape::windrow && !answer.heap->top_width)
    add("section of the windrow", "half an ellipse: a triangle would hold less, a box more",
        "judged by us, after the half circle of Strom and Finstein, New Jersey's Manual on Composting Leaves and Management of Other Yard "
        "Trimmings");
  if (answer.mix && settling.value() < 1.0) add("settled volume, of the loose one", settling, "your own figure");
}

}  // namespace

int heaps_for(double fills) {
  constexpr double most_counted = 1e6;
  return static_cast<int>(std::min(most_counted, std::ceil(fills / as_good_as_full)));
}

std::string_view note_word(HeapNote note) {
  switch (note) {
    case HeapNote::suggested: return "suggested";
    case HeapNote::too_small_to_heat: return "too-small-to-heat";
    case HeapNote::too_little_to_heat: return "too-little-to-heat";
    case HeapNote::rest_too_little_to_heat: return "rest-too-little-to-heat";
    case HeapNote::too_tall: return "too-tall";
    case HeapNote::does_not_fit: return "does-not-fit";
    case HeapNote::fits_as_it_sinks: return "fits-as-it-sinks";
    case HeapNote::forecast_tells: return "forecast-tells";
  }
  return {};
}

bool is_enough_to_heat(Volume volume) { return volume >= about * least_volume_to_heat; }

HeapAnswer heap_answer(const std::optional<HeapDescription>& described, const std::optional<Volume>& mix, ShareOfLooseVolume settling) {
  if (mix && !(mix->value() > 0.0 && mix->value() < std::numeric_limits<double>::infinity()))
    throw DomainError("there is no such volume of a mix", "give one above zero");
  if (!(settling.value() > 0.0)) throw DomainError("a heap does not settle to nothing", "give a share above zero");
  HeapAnswer answer;
  answer.mix = mix;
  answer.heap = described || !mix ? described : suitable_heap(*mix / settling.value());
  assume(answer, settling);
  if (!answer.heap) {
    if (mix) answer.notes.push_back(HeapNote::too_little_to_heat);
    return answer;
  }
  answer.each = checked_size(*answer.heap);
  answer.all = all_of(answer.heap->count, *answer.each);
  const Filled full = filled(*answer.heap, 1.0);
  answer.tall_enough_to_heat = heats(full);
  if (!answer.tall_enough_to_heat) answer.notes.push_back(HeapNote::too_small_to_heat);
  if (!described) fill_suggested(answer, settling);
  if (described && mix) fill(answer, *mix, settling);
  const std::optional<Length>& height = mix ? answer.filled_height : full.height;
  if (height && *height > (1.0 + hair) * tall_heap) answer.notes.push_back(HeapNote::too_tall);
  return answer;
}

std::optional<HeapDescription> suitable_heap(Volume loose) {
  if (!is_enough_to_heat(loose)) return std::nullopt;
  HeapDescription windrow = windrow_of(loose);
  const bool is_long = *windrow.length >= (1.0 - hair) * 2.0 * *windrow.width;
  return is_long ? windrow : square_bins(loose);
}

}  // namespace heapwright
