#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "heapwright/page/pages.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/page/pile_parts.hpp"

namespace heapwright {
namespace {

const WorkSteps building_it{"build"};

std::string nouns(const PileDescription& pile, int count) { return fmt::format("{}{}", pile_noun(pile.shape), count == 1 ? "" : "s"); }

struct NamedPart {
  double share;
  const char* words;
};
constexpr std::array<NamedPart, 9> everyday_parts{{{0.1, "a tenth"},
                                                   {0.2, "a fifth"},
                                                   {0.25, "a quarter"},
                                                   {1.0 / 3.0, "a third"},
                                                   {0.4, "two fifths"},
                                                   {0.5, "half"},
                                                   {2.0 / 3.0, "two thirds"},
                                                   {0.75, "three quarters"},
                                                   {0.9, "nine tenths"}}};

const char* nearest_part(double share) {
  return std::min_element(
             everyday_parts.begin(), everyday_parts.end(),
             [&](const NamedPart& one, const NamedPart& other) { return std::abs(one.share - share) < std::abs(other.share - share); })
      ->words;
}

/// "nine tenths of it", "one and a fifth", "a little over two": as many piles as a mix fills, in everyday fractions.
Words filled_words(const PileFit& fit) {
  constexpr double a_little = 0.05;
  constexpr double many = 10.0;
  const double fills = *fit.fills;
  if (fills > many) return say("about {}", Number{std::round(fills), 3});
  const char* of_one = fit.pile->count == 1 ? " of it" : " of one";
  const int whole = static_cast<int>(std::floor(fills));
  const double rest = fills - whole;
  if (rest > 1.0 - a_little) return whole_words(whole + 1);
  if (whole == 0) return say("{}{}", rest < a_little ? "hardly any" : nearest_part(rest), of_one);
  if (rest < a_little) return say("{}{}", *fit.piles_needed > whole ? "a little over " : "", whole_words(whole));
  return say("{} and {}", whole_words(whole), nearest_part(rest));
}

// --- what it holds, and what to do ---

Words side_words(const PileDescription& pile) {
  switch (pile.shape) {
    case PileShape::bin: return say("{} by {}, {} high", *pile.length, *pile.width, *pile.height);
    case PileShape::round:
    case PileShape::cone: return say("{} across, {} high", *pile.diameter, *pile.height);
    case PileShape::windrow:
      return say("{} long, {} wide, {}{} high", *pile.length, *pile.width,
                 pile.top_width ? say("{} wide on top, ", *pile.top_width) : Words(), *pile.height);
    case PileShape::tumbler: return *pile.volume;
  }
  return {};
}

Words holding_words(const PileFit& fit) {
  const PileDescription& pile = *fit.pile;
  const Words text = say("{} {} holds {}", pile.count == 1 ? "The" : "Each", pile_noun(pile.shape), fit.each->volume);
  if (pile.shape != PileShape::tumbler) return say("{}.", text);
  return say("{} and takes two thirds of that, {}, so that it turns over.", text, taken_by(pile));
}

Words filled_by_mix(const PileFit& fit) { return say("{} Your mix of {} fills {}", holding_words(fit), *fit.mix, filled_words(fit)); }

Words more_piles(const PileFit& fit) {
  const int missing = piles_missing(fit);
  return say("{} more such {}", whole_words(missing), nouns(*fit.pile, missing));
}

Words use_several(const PileFit& fit) {
  const char* how_far = fit.pile->shape == PileShape::tumbler ? "so far" : "to the top";
  return say("use {}. Fill one {} before you start the next", whole_words(*fit.piles_needed), how_far);
}

Words suggestion(const PileFit& fit) {
  const PileDescription& pile = *fit.pile;
  if (pile.count == 1) return say("Build a {} {}: that suits your mix of {}.", pile_noun(pile.shape), side_words(pile), *fit.mix);
  return say("Build {} {}, each {}: that suits your mix of {}.", whole_words(pile.count), nouns(pile, pile.count), side_words(pile),
             *fit.mix);
}

Words what_heats(const PileFit& fit) {
  const bool stands = !fit.pile || fit.pile->shape != PileShape::tumbler;
  const Words height = stands ? say("is at least {} high and ", least_height_to_heat) : Words();
  return say("A pile that heats {}holds about {}.", height, least_volume_to_heat);
}

Words headline(const PileFit& fit) {
  switch (advice_of(fit)) {
    case PileAdvice::describe_one:
      return "No pile is described. Describe one (--shape bin --length \"4 ft\" --width \"4 ft\" --height \"4 ft\"), or say how much there "
             "is "
             "to put in one (--have \"leaves=20 bags\").";
    case PileAdvice::say_what_goes_in:
      return say("{} Say how much goes in to see whether it fits: --have \"leaves=20 bags\", or [[supply]] in the yard file.",
                 holding_words(fit));
    case PileAdvice::pile_up:
      return say("Pile up your mix of {} and keep adding: it is too little to heat yet. {}", *fit.mix, what_heats(fit));
    case PileAdvice::build_suggested: return suggestion(fit);
    case PileAdvice::goes_in: return say("{}: it goes in.", filled_by_mix(fit));
    case PileAdvice::use_one: return say("{}: use one.", filled_by_mix(fit));
    case PileAdvice::use_several: return say("{}: {}.", filled_by_mix(fit), use_several(fit));
    case PileAdvice::fill_as_it_sinks: return say("{}: it does not go in at once; fill up again as it sinks.", filled_by_mix(fit));
    case PileAdvice::does_not_fit:
      return say("{}: it does not fit at once. Fill up again as it sinks, or have {}.", filled_by_mix(fit), more_piles(fit));
  }
  return {};
}

Words note_words(PileNote note, const PileFit& fit) {
  switch (note) {
    case PileNote::too_small_to_heat: return say("Even full it will hardly heat. {} It rots all the same, only slower.", what_heats(fit));
    case PileNote::too_little_to_heat: return say("It will hardly heat yet: keep adding. {}", what_heats(fit));
    case PileNote::rest_too_little_to_heat: return "The last one will hardly heat with what is left for it: keep adding.";
    case PileNote::too_tall: return say("It is too tall: above {} a pile packs down, heats unevenly, and can take fire.", tall_pile);
    case PileNote::forecast_tells: return "It is small. Whether it gets hot in your weather `heapwright forecast` says.";
    case PileNote::suggested:
    case PileNote::does_not_fit:
    case PileNote::fits_as_it_sinks: return {};  // the first line says it
  }
  return {};
}

void say_notes(PageWriter& writer, const PileFit& fit) {
  if (!fit.pile) return;  // the first line says it
  for (const PileNote note : fit.notes) writer.paragraph(note_words(note, fit));
}

/// Of piles on the ground.
bool stands_on_ground(const PileFit& fit) { return fit.pile && fit.pile->shape != PileShape::tumbler; }

Labels heights(const PileFit& fit) {
  Labels labels;
  if (fit.filled_height)
    labels.labels.push_back({"Filled", say("{} high{}", *fit.filled_height, piles_built(fit) > 1 ? ", the first" : "")});
  if (fit.settled_height && *fit.settled_height < *fit.filled_height)
    labels.labels.push_back({"Settled", say("{} high, by your figure for settling", *fit.settled_height)});
  return labels;
}

Words as_it_sinks(const PileFit& fit) {
  return piles_built(fit) > 1 ? "When they have sunk, put two together, so that they stay big enough to heat."
                              : "Fill it up again as it sinks, or leave it.";
}

// --- why ---

template <class Quantity>
Words each_and_all(Quantity each, Quantity all, int count) {
  return count == 1 ? Words(each) : say("{} each, {} in all", each, all);
}

Labels size_of_it(const PileFit& fit) {
  const PileDescription& pile = *fit.pile;
  Labels labels;
  if (pile.shape != PileShape::tumbler) labels.labels.push_back({capital(nouns(pile, pile.count)), side_words(pile)});
  labels.labels.push_back({"Room", each_and_all(taken_by(pile), room_of(pile), pile.count)});
  if (fit.each->surface)
    labels.labels.push_back({"Open to air", say("{}, top and sides", each_and_all(*fit.each->surface, *fit.all->surface, pile.count))});
  if (fit.each->footprint)
    labels.labels.push_back({"Ground", say("{}. Look up your town's rules on height and on the distance to fence and house.",
                                           each_and_all(*fit.each->footprint, *fit.all->footprint, pile.count))});
  return labels;
}

void say_sinking(PageWriter& writer, const PileFit& fit, const Materials& materials) {
  if (!stands_on_ground(fit)) return;
  writer.section(Depth::why, "How it sinks")
      .paragraph(say("A pile sinks as it rots, fastest at first: a windrow to about half its size in roughly a month ({}).",
                     source_words(materials, "ramsey-yard-waste", Evidence::seen)))
      .paragraph(as_it_sinks(fit));
}

}  // namespace

namespace {

Words names_of(const std::vector<std::string>& names) { return listed({names.begin(), names.end()}); }

void say_what_stays_out(PageWriter& writer, const PileFit& fit) {
  if (fit.left_over) writer.paragraph(say("The recipe leaves {} of {}.", *fit.left_over, names_of(fit.left_over_of)));
  if (!fit.stays_out.empty()) writer.paragraph(say("Not in it: {}.", names_of(fit.stays_out)));
  if (fit.left_over || !fit.stays_out.empty()) writer.paragraph("`heapwright recipe` says why, and what to do with it.");
}

}  // namespace

Page pile_page(const Answer<PileFit>& answer, const Materials& materials) {
  const PileFit& fit = answer.result;
  PageWriter writer("What the pile holds");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act).paragraph(headline(fit));
  say_notes(writer, fit);
  writer.labels(heights(fit));
  // A recipe need not take all that there is.
  say_what_stays_out(writer, fit);
  if (fit.pile || fit.mix) end_act(writer, answer, materials, building_it);
  if (fit.pile) writer.section(Depth::why, "Size").block(size_of_it(fit));
  say_sinking(writer, fit, materials);
  return finished(std::move(writer), answer, materials);
}

}  // namespace heapwright
