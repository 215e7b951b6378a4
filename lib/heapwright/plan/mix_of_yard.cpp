#include "heapwright/mix/ranges.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/assumed.hpp"
#include "heapwright/plan/what_rots.hpp"

namespace heapwright {
namespace {

std::optional<WhyNotMixed> why_not_mixed(const Supply& supply, const std::optional<Amount>& on_hand) {
  if (supply.bought) return WhyNotMixed::to_buy;
  if (!on_hand) return WhyNotMixed::no_amount;
  return is_zero(*on_hand) ? std::optional(WhyNotMixed::none_that_day) : std::nullopt;
}

}  // namespace

Answer<MixOnHand> mix_on_hand(const Yard& yard, WaterMass added_water, Date today) {
  Answer<MixOnHand> answer;
  Blend blend{{}, added_water, yard.options.settling};
  answer->batch = {{}, added_water, "your own figure", yard.options.settling};
  std::vector<Taken> taken;
  Facts facts = facts_of(yard.observations);
  for (const Supply& supply : yard.supplies) {
    const std::optional<Amount> amount = on_hand(supply, yard.built_or(today));
    if (const auto why = why_not_mixed(supply, amount)) {
      answer->not_mixed.push_back({supply.name(), *why});
      continue;
    }
    blend.ingredients.push_back(supply.ingredient(*supply.mass(*amount)));
    taken.push_back({&supply, blend.ingredients.back().mass});
    answer->batch.portions.push_back(portion_on_hand(supply, *amount));
    facts.merge(facts_of(supply));
    if (supply.may_carry_weedkiller()) facts.insert(Fact::treated);
  }
  if (blend.ingredients.empty()) return answer;
  answer->mix = mix_of(blend);
  answer->mix->ranges = ranges_of(blend, taken, yard.targets, yard.tables.materials);
  note_what_rots(*answer->mix, blend, yard.tables.materials, *yard.tables.ensemble);
  for (std::size_t i = 0; i < taken.size(); ++i) take_on(taken[i], blend, i, yard.tables.materials, answer.assumptions);
  assume_windows(taken, answer.assumptions);
  order_by_weight(answer.assumptions);
  answer.measure_first = measure_first(blend, taken, yard.tables.materials);
  answer.cautions = cautions_for(*yard.tables.materials.cautions, facts);
  return answer;
}

}  // namespace heapwright
