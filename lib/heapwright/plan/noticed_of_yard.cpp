#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/character.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/process/weather.hpp"
#include "heapwright/recipe/verdict.hpp"

namespace heapwright {
namespace {

const TemperaturePoint cold_air = TemperaturePoint::from_celsius(5.0);         // below it a small pile cannot keep warm; judged
const TemperaturePoint freezing_nights = TemperaturePoint::from_celsius(2.0);  // a day's mean below which most nights freeze; judged
constexpr double much_grass = 0.3;                                             // of the volume; judged

bool has_tag(const Yard& yard, const MixPart& part, const char* tag) {
  const std::vector<std::string>& tags = known_row(*yard.tables.materials.feedstocks, part.id).tags;
  return std::find(tags.begin(), tags.end(), tag) != tags.end();
}

double share_of_clippings(const Yard& yard, const Mix& mix) {
  Volume clippings;
  Volume all;
  for (const MixPart& part : mix.parts) {
    const Volume volume = part.volume.value_or(Volume());
    all += volume;
    if (has_tag(yard, part, "grassy")) clippings += volume;
  }
  return is_positive(all) ? static_cast<double>(clippings / all) : 0.0;
}

/// By how much a value is off its aim, 1 on the edge of its window; above 0 on its high side.
template <class Quantity>
double off(Quantity value, const Window<Quantity>& window) {
  const Quantity side = value > window.aim ? window.high - window.aim : window.aim - window.low;
  return (value - window.aim) / side;
}

/// Off by more than anyone can tell.
template <class Quantity>
bool is_below(const std::optional<Quantity>& value, const Window<Quantity>& window) {
  return value && off(*value, window) < -hardly_off;
}
template <class Quantity>
bool is_above(const std::optional<Quantity>& value, const Window<Quantity>& window) {
  return value && off(*value, window) > hardly_off;
}

void of_mix(const Yard& yard, const Recipe& recipe, const Mix& mix, Circumstances& found) {
  const Targets& targets = yard.targets;
  const auto add = [&](bool holds, Circumstance circumstance) {
    if (holds) found.insert(circumstance);
  };
  const bool kept_moist = yard.pile && yard.pile->keep_moist;
  const std::optional<CarbonNitrogenRatio> ratio = judged_ratio(mix, targets);
  add(is_below(ratio, targets.carbon_to_nitrogen), Circumstance::too_much_nitrogen);
  add(!ratio || is_above(ratio, targets.carbon_to_nitrogen), Circumstance::too_little_nitrogen);
  add(!ratio || greens_lacking(recipe) == GreensIn::none, Circumstance::no_greens);
  const std::vector<MixFault> faults = faults_of(mix, targets);
  add(std::find(faults.begin(), faults.end(), MixFault::too_wet) != faults.end(), Circumstance::too_wet);
  add(mix.moisture && *mix.moisture < dry_moisture && !kept_moist, Circumstance::too_dry);
  add(mix.air_space && *mix.air_space < targets.least_air, Circumstance::airless);
  add(share_of_clippings(yard, mix) >= much_grass, Circumstance::grassy);
  add(std::any_of(mix.parts.begin(), mix.parts.end(), [&](const MixPart& part) { return has_tag(yard, part, "scraps"); }),
      Circumstance::scraps);
}

bool is_in_a_tumbler(const Yard& yard) { return yard.pile && yard.pile->shape == PileShape::tumbler; }

void of_weather(const Yard& yard, Date day, Circumstances& found) {
  if (!yard.climate) return;
  const TemperaturePoint air = weather_of(*yard.climate).on(day);
  if (air < cold_air) found.insert(Circumstance::cold);
  if (air < freezing_nights) found.insert(Circumstance::freezes);
}

void of_pile(const Yard& yard, const Answer<Recipe>& recipe, Date day, Circumstances& found) {
  const PileFit pile = pile_of(yard, recipe, day).result;
  if (pile.mix && !pile.tall_enough_to_heat) found.insert(Circumstance::small);
  const auto noted = [&](PileNote note) { return std::find(pile.notes.begin(), pile.notes.end(), note) != pile.notes.end(); };
  if (noted(PileNote::too_tall)) found.insert(Circumstance::big);
  const bool sheltered = is_in_a_tumbler(yard) || (pile.pile && pile.pile->covered);
  if (!sheltered) found.insert(Circumstance::rained_on);
  if (is_in_a_tumbler(yard)) found.insert(Circumstance::in_a_tumbler);
}

Circumstances circumstances_of(const Yard& yard, const Answer<Recipe>& recipe, const std::optional<Mix>& mix, Date day,
                               Circumstances found) {
  if (mix) of_mix(yard, recipe.result, *mix, found);
  if (found.contains(Circumstance::watered)) found.erase(Circumstance::too_dry);
  for (const Noticed& noticed : yard.observations.noticed) {
    if (is_smoke(noticed)) continue;
    for (const Circumstance ruled_out : known_row(*yard.tables.symptoms, noticed.symptom).rules_out) found.erase(ruled_out);
  }
  of_pile(yard, recipe, day, found);
  of_weather(yard, day, found);
  return found;
}

bool adds_browns(const Addition& addition) { return addition.amount.feedstock_class == FeedstockClass::keeper; }

/// Whether a cause wants browns: they dry, open up and go against too many greens.
bool wants_browns(const Cause& cause) {
  return cause.is_of(Circumstance::too_wet) || cause.is_of(Circumstance::airless) || cause.is_of(Circumstance::too_much_nitrogen);
}

/// More greens than went in of all make another pile, and mend none; judged.
bool is_a_pile_of_its_own(const Help& help, const Mix& mix) {
  Volume added;
  for (const Addition& addition : help.additions) {
    if (!adds_browns(addition)) added += addition.amount.volume;
  }
  return mix.volume && added > *mix.volume;
}

/// Whether a way to help works against a cause: what only brings the mix nearer to its targets may do so from the wrong side.
bool works_against(const Cause& cause, const Help& help, const Mix& mix) {
  if (help.additions.empty()) return false;
  if (wants_browns(cause)) return std::all_of(help.additions.begin(), help.additions.end(), adds_browns);
  return !is_a_pile_of_its_own(help, mix);
}

/// Where its nitrogen is bound what rots is counted, as the recipe does.
std::vector<Help> ways_against(const Recipe& recipe) {
  const bool counts_what_rots = greens_lacking(recipe) && recipe.counting_what_rots;
  return counts_what_rots ? recipe.counting_what_rots->ways : recipe.what_would_help;
}

/// What is said to bring what went in back inside the targets: the first of the ways that work against the cause, which is the handiest.
void balance(const PileAsBuilt& pile, Date day, NoticedSign& answer) {
  if (!answer.mix) return;
  const std::vector<Help> ways = ways_against(pile.recipe.result);
  const auto way = std::find_if(ways.begin(), ways.end(), [&](const Help& one) { return works_against(*answer.cause, one, *answer.mix); });
  if (way == ways.end()) {
    if (wants_browns(*answer.cause)) answer.kept_browns = pile.kept_browns;
    return;
  }
  for (const Addition& addition : way->additions) answer.fix.push_back(addition.rounded);
  answer.watered = pile.watered;
  answer.water = way->water_to_add - pile.watered;
  answer.mix = mix_on_hand(pile.yard, pile.watered, day)->mix;
  answer.mended = way->mix;
}

void add_water(const Recipe& recipe, NoticedSign& answer) {
  if (!recipe.everything_in) return;
  answer.water = recipe.everything_in->water_to_add;
  answer.mended = recipe.everything_in->mix;
}

/// Whether more is in a mix than the piles hold.
bool overfills(const Yard& yard, const std::optional<Mix>& mix) {
  return yard.pile && mix && mix->volume && fit_of(yard.pile, mix->volume, yard.options.settling)->fits == false;
}

void mend(const PileAsBuilt& pile, Date day, NoticedSign& answer) {
  switch (answer.cause->fix) {
    case Fix::none: break;
    case Fix::balance: balance(pile, day, answer); break;
    case Fix::water: add_water(pile.recipe.result, answer); break;
    case Fix::browns: answer.kept_browns = pile.kept_browns; break;
  }
  answer.overfills = overfills(pile.yard, answer.mended);
}

/// What was done to a pile tells nothing of why it does what it does.
bool tell_of_causes(Circumstances shown) {
  shown.erase(Circumstance::turned);
  shown.erase(Circumstance::watered);
  return !shown.empty();
}

std::vector<const Cause*> all_causes(const Symptom& symptom) {
  std::vector<const Cause*> causes;
  for (const Cause& cause : symptom.causes) {
    if (!cause.is_of(Circumstance::in_a_tumbler)) causes.push_back(&cause);
  }
  return causes;
}

}  // namespace

NoticedSign noticed_in(const Yard& yard, const PileAsBuilt* pile, std::string_view symptom, Date day, const Circumstances& shown) {
  NoticedSign answer;
  answer.symptom = &known_row(*yard.tables.symptoms, symptom);
  answer.in_a_tumbler = is_in_a_tumbler(yard);
  answer.pile_is_known = pile != nullptr || tell_of_causes(shown);
  if (pile != nullptr) answer.mix = mix_on_hand(pile->yard, WaterMass(), day)->mix;
  const Circumstances found = pile != nullptr ? circumstances_of(pile->yard, pile->recipe, answer.mix, day, shown) : shown;
  const std::vector<const Cause*> causes = answer.pile_is_known ? likely_causes(*answer.symptom, found) : all_causes(*answer.symptom);
  answer.cause = causes.front();
  answer.is_measured =
      shown.contains(Circumstance::near_fire) || (shown.contains(Circumstance::too_hot) && answer.symptom->id == "too-hot");
  const bool cannot_wait = answer.pile_is_known && answer.cause->is_of(Circumstance::near_fire);
  if (!cannot_wait) answer.other_causes.assign(causes.begin() + 1, causes.end());
  if (pile == nullptr) return answer;
  answer.as_planned = pile->as_planned;
  mend(*pile, day, answer);
  return answer;
}

}  // namespace heapwright
