#include <algorithm>
#include <array>
#include <cmath>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

bool says(const PileFit& answer, PileNote note) { return std::find(answer.notes.begin(), answer.notes.end(), note) != answer.notes.end(); }

std::string noun(PileShape shape) {
  switch (shape) {
    case PileShape::bin: return "bin";
    case PileShape::round: return "round bin";
    case PileShape::tumbler: return "tumbler";
    case PileShape::cone: return "pile";
    case PileShape::windrow: return "windrow";
  }
  return {};
}

/// Whether more than one pile is built.
bool are_several(const PileFit& answer) {
  const int count = answer.pile->count;
  return std::min(count, answer.piles_needed.value_or(count)) > 1;
}

std::string plural(int count, const std::string& word) { return count == 1 ? word : word + "s"; }

std::string whole_words(int count) {
  static constexpr std::array<const char*, 11> words{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"};
  return count >= 0 && count <= 10 ? words.at(static_cast<std::size_t>(count)) : std::to_string(count);
}

struct NamedPart {
  double share;
  const char* words;
};
constexpr std::array<NamedPart, 9> parts{{{0.1, "a tenth"},
                                          {0.2, "a fifth"},
                                          {0.25, "a quarter"},
                                          {1.0 / 3.0, "a third"},
                                          {0.4, "two fifths"},
                                          {0.5, "half"},
                                          {2.0 / 3.0, "two thirds"},
                                          {0.75, "three quarters"},
                                          {0.9, "nine tenths"}}};

const NamedPart& nearest_part(double share) {
  return *std::min_element(parts.begin(), parts.end(), [&](const NamedPart& one, const NamedPart& other) {
    return std::abs(one.share - share) < std::abs(other.share - share);
  });
}

/// "nine tenths of it", "one and a fifth", "a little over two": as many piles as a mix fills, in everyday fractions.
std::string piles_words(const PileFit& answer) {
  const double fills = *answer.fills;
  const std::string of_one = answer.pile->count == 1 ? " of it" : " of one";
  constexpr double a_little = 0.05;
  constexpr double many = 10.0;
  if (fills > many) return "about " + print_number(std::round(fills), 3);
  const int whole = static_cast<int>(std::floor(fills));
  const double rest = fills - whole;
  if (rest > 1.0 - a_little) return whole_words(whole + 1);
  if (whole == 0 && rest < a_little) return "hardly any" + of_one;
  if (rest < a_little) return (*answer.piles_needed > whole ? "a little over " : "") + whole_words(whole);
  const std::string part = nearest_part(rest).words;
  return whole == 0 ? part + of_one : whole_words(whole) + " and " + part;
}

std::string holds(const PileFit& answer, const Show& show) {
  const PileDescription& pile = *answer.pile;
  const std::string text = (pile.count == 1 ? "The " : "Each ") + noun(pile.shape) + " holds " + show.volume(answer.each->volume);
  if (pile.shape != PileShape::tumbler) return text + ".";
  return text + " and takes two thirds of that, " + show.volume(taken_by(pile)) + ", so that it turns over.";
}

/// A recipe need not take all that there is.
std::string left_over(const PileFit& answer, const Show& show) {
  if (!answer.left_over) return {};
  return " The recipe leaves " + show.volume(*answer.left_over) + " of what you have: `heapwright recipe` says of what, and why.";
}

/// What to do with a mix and the piles there are.
std::string to_do(const PileFit& answer) {
  const int count = answer.pile->count;
  const int needed = *answer.piles_needed;
  if (!*answer.fits)
    return "it does not fit at once. Fill up again as it sinks, or have " + whole_words(needed - count) + " more such " +
           plural(needed - count, noun(answer.pile->shape)) + ".";
  if (says(answer, PileNote::fits_as_it_sinks)) return "it does not go in at once; fill up again as it sinks.";
  if (count == 1) return "it goes in.";
  if (needed == 1) return "use one.";
  const bool turns = answer.pile->shape == PileShape::tumbler;
  return "use " + whole_words(needed) + ". Fill one " + (turns ? "so far" : "to the top") + " before you start the next.";
}

std::string sides(const PileDescription& pile, const Show& show) {
  switch (pile.shape) {
    case PileShape::bin: return show.length(*pile.length) + " by " + show.length(*pile.width) + ", " + show.length(*pile.height) + " high";
    case PileShape::round:
    case PileShape::cone: return show.length(*pile.diameter) + " across, " + show.length(*pile.height) + " high";
    case PileShape::windrow:
      return show.length(*pile.length) + " long, " + show.length(*pile.width) + " wide, " +
             (pile.top_width ? show.length(*pile.top_width) + " wide on top, " : "") + show.length(*pile.height) + " high";
    case PileShape::tumbler: return show.volume(*pile.volume);
  }
  return {};
}

std::string suggestion(const PileFit& answer, const Show& show) {
  const PileDescription& pile = *answer.pile;
  const bool one = pile.count == 1;
  return "Build " + (one ? "a " : whole_words(pile.count) + " ") + plural(pile.count, noun(pile.shape)) + (one ? " " : ", each ") +
         sides(pile, show) + ": that suits your mix of " + show.volume(*answer.mix) + ".";
}

std::string what_heats(const PileFit& answer, const Show& show) {
  const bool stands = !answer.pile || answer.pile->shape != PileShape::tumbler;
  return std::string("A pile that heats ") + (stands ? "is at least " + show.length(least_height_to_heat) + " high and " : "") + "holds " +
         show.volume(least_volume_to_heat) + " (common practice, no source).";
}

std::string headline(const PileFit& answer, const Show& show) {
  if (!answer.pile && !answer.mix)
    return wrap(
        "There is no pile to tell of. Describe one (--shape bin --length \"4 ft\" --width \"4 ft\" --height \"4 ft\"), or say how much "
        "there is to put in one (--have \"leaves=20 bags\").");
  if (!answer.pile)
    return wrap("Pile up your mix of " + show.volume(*answer.mix) + " and keep adding: it is too little to heat yet. " +
                what_heats(answer, show) + left_over(answer, show));
  if (says(answer, PileNote::suggested)) return wrap(suggestion(answer, show) + left_over(answer, show));
  if (!answer.mix)
    return wrap(holds(answer, show) +
                " Say how much goes in to see whether it fits: --have \"leaves=20 bags\", or [[supply]] in the yard file.");
  return wrap(holds(answer, show) + " Your mix of " + show.volume(*answer.mix) + " fills " + piles_words(answer) + ": " + to_do(answer) +
              left_over(answer, show));
}

std::string note_sentence(PileNote note, const PileFit& answer, const Show& show) {
  const std::string slower = "It rots all the same, only slower.";
  switch (note) {
    case PileNote::too_small_to_heat: return "Even full it will hardly heat. " + what_heats(answer, show) + " " + slower;
    case PileNote::too_little_to_heat: return "It will hardly heat yet: keep adding. " + what_heats(answer, show);
    case PileNote::rest_too_little_to_heat: return "The last one will hardly heat with what is left for it: keep adding.";
    case PileNote::too_tall:
      return "It is too tall: above " + show.length(tall_pile) + " a pile packs down, heats unevenly, and can take fire.";
    case PileNote::forecast_tells: return "It is small. Whether it gets hot in your weather `heapwright forecast` tells.";
    case PileNote::suggested:
    case PileNote::does_not_fit:
    case PileNote::fits_as_it_sinks: return {};  // the first line says it
  }
  return {};
}

std::string notes_text(const PileFit& answer, const Show& show) {
  std::string text;
  if (!answer.pile) return text;  // the first line says it
  for (const PileNote note : answer.notes) {
    const std::string sentence = note_sentence(note, answer, show);
    if (!sentence.empty()) text += wrap(sentence);
  }
  return text;
}

std::string line(const std::string& what, const std::string& words) { return wrap("  " + padded(what, 14) + " " + words, 17); }

std::string each_and_all(const std::string& each, const std::string& all, int count) {
  return count == 1 ? each : each + " each, " + all + " in all";
}

std::string size_text(const PileFit& answer, const Show& show) {
  const PileDescription& pile = *answer.pile;
  std::string text = "\nSize\n";
  if (pile.shape != PileShape::tumbler) text += line(plural(pile.count, noun(pile.shape)), sides(pile, show));
  text += line("room", each_and_all(show.volume(taken_by(pile)), show.volume(room_of(pile)), pile.count));
  if (answer.each->surface)
    text += line("open to air",
                 each_and_all(show.area(*answer.each->surface), show.area(*answer.all->surface), pile.count) + ", top and sides");
  if (answer.each->footprint)
    text += line("ground", each_and_all(show.area(*answer.each->footprint), show.area(*answer.all->footprint), pile.count) +
                               ". Look up your town's rules on height and on the distance to fence and house.");
  if (answer.filled_height)
    text += line("filled", show.length(*answer.filled_height) + " high" + (are_several(answer) ? ", the first" : ""));
  if (answer.settled_height && *answer.settled_height < *answer.filled_height)
    text += line("settled", show.length(*answer.settled_height) + " high, by your figure for settling");
  return text;
}

/// Of piles on the ground.
std::string sinking_text(const PileFit& answer, const Materials& materials) {
  if (answer.pile->shape == PileShape::tumbler) return {};
  const std::string source = source_words(materials, "ramsey-yard-waste", Evidence::seen);
  return "\nHow it sinks\n" +
         wrap("  A pile sinks as it rots, fastest at first: a windrow to about half its size in roughly a month (" + source + "). " +
                  (are_several(answer) ? "Then put two together, so that they stay big enough to heat."
                                       : "Fill it up again as it sinks, or leave it."),
              2);
}

}  // namespace

std::string text_of_room(const PileFit& answer, const Show& show) {
  if (!answer.mix || !answer.fits) return {};
  const bool turns = answer.pile->shape == PileShape::tumbler;
  const std::string room =
      "  room       " + show.volume(room_of(*answer.pile)) + (turns ? ", two thirds of the tumbler, so that it turns over: " : ": ");
  const std::string heat = says(answer, PileNote::too_small_to_heat)    ? "; so small a one will hardly heat"
                           : says(answer, PileNote::too_little_to_heat) ? "; so little will hardly heat, keep adding"
                                                                        : "";
  if (*answer.fits) return wrap(room + (says(answer, PileNote::fits_as_it_sinks) ? "it fits once it has sunk" : "it fits") + heat, 17);
  return wrap(room + show.volume(*answer.mix) + " does not fit at once. Fill up again as it sinks, or give the pile more room" +
                  (heat.empty() ? "." : heat + "."),
              17);
}

std::string text_of_pile(const Answer<PileFit>& whole, const Materials& materials, const Show& show) {
  const PileFit& answer = whole.result;
  std::string text = text_of_first_cautions(whole.cautions, materials) + headline(answer, show) + notes_text(answer, show);
  if (answer.pile) text += size_text(answer, show) + sinking_text(answer, materials);
  return text + text_of_assumptions(whole.assumptions, std::nullopt, show) + text_of_cautions(whole.cautions, materials);
}

}  // namespace heapwright
