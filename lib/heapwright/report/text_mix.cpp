#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright {
std::string text_of_mix(const Answer<MixOnHand>& whole, const Targets& targets, const Materials& materials, const Show& show) {
  const MixOnHand& answer = whole.result;
  if (!answer.mix) return wrap("Nothing is on hand to mix. Say what there is: --add \"leaves=20 bags\", or [[supply]] in the yard file.");
  const Mix& mix = *answer.mix;
  std::string text = text_of_first_cautions(whole.cautions, materials) + wrap("This pile is " + character(mix, targets) + ".");
  text += figures_of(mix, targets, show);
  std::vector<std::vector<std::string>> rows;
  for (const MixPart& part : mix.parts)
    rows.push_back({part.name, show.mass(part.mass), part.volume ? show.volume(*part.volume) : "",
                    part.share ? show_percent(part.share->value()) + " of the volume" : ""});
  text += "\nIn it\n" + columns(rows);
  return text + text_of_assumptions(whole.assumptions, whole.measure_first, show) + text_of_steps(whole.working) +
         text_of_cautions(whole.cautions, materials);
}

}  // namespace heapwright
