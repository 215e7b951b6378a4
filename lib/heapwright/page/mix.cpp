#include "heapwright/page/mix_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/parts.hpp"

namespace heapwright {
namespace {

const WorkSteps mixing{"build"};

/// What mends it.
Words remedy(MixFault fault, const Mix& mix, const Targets& targets, const Materials& materials) {
  switch (fault) {
    case MixFault::no_nitrogen:
    case MixFault::too_brown: return "Mix in greens: grass clippings, kitchen scraps, coffee grounds.";
    case MixFault::too_green: return "Mix in browns: leaves, straw, wood chips.";
    case MixFault::too_wet: return "Mix in dry browns, or let it drain.";
    case MixFault::too_dry:
      return say("Add {} of water as you mix: that brings it to {}.", carried(water_to(mix, targets.moisture.aim), materials),
                 targets.moisture.aim);
    case MixFault::no_room: return "Leave water out: what there is does not fit in its room.";
    case MixFault::short_of_air: return "Mix in something coarse, as wood chips, so that air gets in.";
  }
  return {};
}

Numbered to_do(const Mix& mix, const Targets& targets, const Materials& materials) {
  Numbered steps;
  for (const MixFault fault : faults_of(mix, targets)) steps.items.push_back(remedy(fault, mix, targets, materials));
  return steps;
}

Grid parts_of(const Mix& mix) {
  Grid grid;
  for (const MixPart& part : mix.parts)
    grid.rows.push_back({part.name, part.mass, part.volume ? Words(*part.volume) : Words(),
                         part.share ? say("{} of the volume", Percent{part.share->value()}) : Words()});
  return grid;
}

/// "grass clippings (none that day)"
Words not_mixed_words(const NotMixed& one) {
  switch (one.why) {
    case WhyNotMixed::to_buy: return say("{} (to buy)", one.name);
    case WhyNotMixed::no_amount: return say("{} (no amount)", one.name);
    case WhyNotMixed::none_that_day: return say("{} (none that day)", one.name);
  }
  return {};
}

Words not_in_mix(const MixOnHand& on_hand) {
  std::vector<Words> names;
  for (const NotMixed& one : on_hand.not_mixed) names.push_back(not_mixed_words(one));
  return names.empty() ? Words() : say("Not in it: {}.", listed(names));
}

}  // namespace

Page mix_page(const Answer<MixOnHand>& answer, const Targets& targets, const Materials& materials) {
  PageWriter writer("What the mix makes");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act);
  if (!answer->mix) {
    writer.paragraph("Nothing is on hand to mix. Say what there is: --add \"leaves=20 bags\", or [[supply]] in the yard file.");
    writer.paragraph(not_in_mix(answer.result));
    return std::move(writer).page();
  }
  const Mix& mix = *answer->mix;
  writer.paragraph(say("This mix is {}.", character_words(mix, targets))).block(figures_of(mix, targets));
  const Words judged_by = judged_by_words(mix, targets);
  if (!judged_by.empty()) writer.paragraph(say("Counted {}.", judged_by));
  if (mix.volume) writer.paragraph(say("It makes a pile of {}.", size_words(mix)));
  writer.paragraph(not_in_mix(answer.result));
  const Numbered steps = to_do(mix, targets, materials);
  writer.section(Depth::act, is_a_little_off(mix, targets) ? "To better it" : "What to do");
  if (!steps.items.empty()) writer.block(steps).paragraph("`heapwright recipe` says how much of each.");
  end_act(writer, answer, materials, mixing);
  writer.section(Depth::why, "In it");
  if (std::optional<ShareBars> shares = shares_of(mix)) writer.block(*std::move(shares));
  writer.block(parts_of(mix)).paragraph(on_the_figures(mix));
  return finished(std::move(writer), answer, materials);
}

}  // namespace heapwright
