#include <set>
#include <string_view>

#include "heapwright/materials/rows.hpp"
#include "heapwright/page/mix_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/pair_parts.hpp"
#include "heapwright/page/recipe_parts.hpp"
#include "heapwright/pile/pile.hpp"

namespace heapwright {
namespace {

const WorkSteps building{"gather", "build"};

/// What else to do with each of its feedstocks, and why some of it would stay out.
std::vector<Words> uses_of(const Recipe& recipe, const Materials& materials) {
  std::vector<Words> uses;
  std::set<std::string_view> said;
  const std::vector<RecipeAmount> amounts = as_built(recipe).amounts;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    const RecipeAmount& amount = amounts[i];
    const bool none_in = !is_positive(amount.volume);
    if ((none_in && !is_left(amount)) || !said.insert(amount.id).second) continue;
    const Feedstock& feedstock = known_row(*materials.feedstocks, amount.id);
    const bool brown = feedstock.used_carbon_to_nitrogen() > recipe.targets.carbon_to_nitrogen.high;
    const Words use = use_of_left_over(feedstock.left_over, brown ? "as greens come in" : "as more browns come in");
    const Words why = none_in ? why_left_words(recipe.why_left[i]) : Words();
    if (!use.empty() || none_in) uses.push_back(say("{}{}: {}", feedstock.name, why, use.empty() ? Words("put away") : use));
  }
  return uses;
}

/// What to mix in first, and what to do without it.
void say_far_off(PageWriter& writer, const Recipe& recipe, const Materials& materials) {
  say_what_it_lacks(writer, recipe, materials);
  std::vector<Words> uses = uses_of(recipe, materials);
  if (alone_is(recipe) == AloneIs::brown) uses.push_back(say("or make a slow pile by itself: {}", pile_in_one_line(recipe, materials)));
  writer.section(Depth::act, !ways_to_mend(recipe).empty() ? "Or, without them" : "What to do with it").bullets(std::move(uses));
  writer.section(Depth::why, "The nearest to a good pile as it is").block(Numbered{building_steps(recipe, materials)});
}

void say_parts(PageWriter& writer, const Recipe& recipe, const Materials& materials) {
  writer.section(Depth::act, "So, for one small batch").block(Numbered{building_steps(recipe, materials)});
  writer.paragraph("For amounts say how much there is: --have \"leaves=20 bags\"");
}

void say_what_to_do(PageWriter& writer, const Recipe& recipe, const Materials& materials) {
  switch (verdict_of(recipe)) {
    case RecipeVerdict::no_pile: return;
    case RecipeVerdict::far_off: return say_far_off(writer, recipe, materials);
    case RecipeVerdict::parts: return say_parts(writer, recipe, materials);
    case RecipeVerdict::on_target:
    case RecipeVerdict::nearly_right:
    case RecipeVerdict::too_little: break;
  }
  writer.section(Depth::act, "Put in the pile").block(Numbered{building_steps(recipe, materials)});
}

Words makes(const Recipe& recipe) {
  const Mix& mix = as_built(recipe).mix;
  const Words moist = mix.moisture ? say(", {} moist", *mix.moisture) : Words();
  const Words volume = mix.volume && has_size(recipe) ? say("{}, ", *mix.volume) : Words();
  const bool said = verdict_of(recipe) == RecipeVerdict::nearly_right || greens_lacking(recipe);  // above
  return say("{}{}{}{}", volume, ratio_words(mix), moist, said ? Words() : say(": {}", character_words(mix, recipe.targets)));
}

/// Where what rots in a season is far from the window that all of it is in: which way, and what to do. By a fifth, judged.
Words what_rots_words(const Recipe& recipe) {
  if (!recipe.mix || !recipe.mix->what_rots || is_judged_by_what_rots(*recipe.mix, recipe.targets)) return {};
  constexpr double far = 1.2;
  const Window<CarbonNitrogenRatio>& window = recipe.targets.carbon_to_nitrogen;
  const CarbonNitrogenRatio ratio = recipe.mix->what_rots->carbon_to_nitrogen;
  const std::vector<std::string>& hardly_rots = recipe.mix->what_rots->hardly_rots;
  const std::vector<Words> names(hardly_rots.begin(), hardly_rots.end());
  if (far * ratio < window.low)
    return say(
        "C:N about {} in what rots this year, which is green: of {} hardly any does. Have dry leaves ready, and mix them in if it "
        "smells of ammonia",
        ratio, listed(names));
  if (greens_lacking(recipe)) return say("C:N about {} in what rots this year, which is brown", ratio);
  return {};
}

/// Whether as much as heats well can go in, in the end.
bool takes_a_yard(const Recipe& recipe) { return !recipe.room || is_enough_to_heat(*recipe.room); }

Labels at_a_glance(const Recipe& recipe, const Materials& materials) {
  Labels labels;
  const bool far_off = verdict_of(recipe) == RecipeVerdict::far_off;
  if (recipe.mix && !far_off) labels.labels.push_back({"Makes", makes(recipe)});
  const Words judged_by = recipe.mix && !far_off ? judged_by_words(as_built(recipe).mix, recipe.targets) : Words();
  if (!judged_by.empty()) labels.labels.push_back({"Counted", judged_by});
  const Words rots = far_off ? Words() : what_rots_words(recipe);
  if (!rots.empty()) labels.labels.push_back({"But", rots});
  const bool to_be_built = has_size(recipe) && !far_off;
  if (to_be_built && recipe.cards.empty() && !is_enough_to_heat(*as_built(recipe).mix.volume))
    labels.labels.push_back({"Heats", say("hardly, so small: it rots all the same, but slowly{}",
                                          takes_a_yard(recipe) ? ". Keep adding, to a cubic yard" : "")});
  const std::size_t before_cards = labels.labels.size();
  for (const Words& card : card_words(recipe, materials))
    labels.labels.push_back({labels.labels.size() > before_cards ? "" : "Later", card});
  if (has_size(recipe) && !recipe.cards.empty() && !calls_for(recipe, Basic::rotate_a_tumbler))
    labels.labels.push_back({"", "as long as there are browns: `heapwright season` shares them out over the year"});
  return labels;
}

}  // namespace

Page recipe_page(const Answer<Recipe>& answer, const Materials& materials) {
  const Recipe& recipe = answer.result;
  PageWriter writer("What goes into the pile");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act).paragraph(headline_of(recipe, materials));
  say_greens_lacking(writer, recipe, materials);
  say_what_to_do(writer, recipe, materials);
  writer.section(Depth::act).labels(set_aside(recipe, materials)).labels(at_a_glance(recipe, materials));
  end_act(writer, answer, materials, building);
  say_why(writer, recipe, materials);
  if (recipe.pair && (recipe.status == RecipeStatus::no_size || answer.working)) say_pair(writer, *recipe.pair, recipe.targets);
  if (recipe.bags_to_a_catcher) say_bags_to_a_catcher(writer, *recipe.bags_to_a_catcher, recipe.targets, materials);
  return finished(std::move(writer), answer, materials);
}

}  // namespace heapwright
