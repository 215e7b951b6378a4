#include "heapwright/page/recipe_parts.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "heapwright/materials/rows.hpp"
#include "heapwright/page/mix_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_ways = 6;
constexpr std::size_t ways_at_once = 3;  // on a screen of twenty lines
constexpr double least_count = 0.25;     // of a container: less of it is weighed
constexpr double splash = 0.5;           // kg of water, not worth a word

/// "13 leaf bags of autumn leaves"; less than a quarter of a container is weighed.
Words so_much_of(const RecipeAmount& amount, const Materials& materials) {
  const bool weighed = amount.containers && amount.containers->count < least_count;
  const Words much = weighed ? Words(amount.mass) : own_measure(amount, amount.containers, amount.volume, materials);
  return say("{} of {}{}", much, amount.name, amount.bought ? " (to buy)" : "");
}

/// "2 leaf bags of browns", of what was named before.
Words of_browns(RecipeAmount amount, const Materials& materials) {
  amount.name = "browns";
  return so_much_of(amount, materials);
}

Words all_of(const std::vector<RecipeAmount>& amounts, const Materials& materials) {
  std::vector<Words> parts;
  for (const RecipeAmount& amount : amounts) parts.push_back(so_much_of(amount, materials));
  return listed(parts);
}

std::vector<RecipeAmount> going_in(const Recipe& recipe) {
  const AsBuilt pile = as_built(recipe);
  std::vector<RecipeAmount> amounts;
  std::copy_if(pile.amounts.begin(), pile.amounts.end(), std::back_inserter(amounts),
               [&](const RecipeAmount& amount) { return goes_in(amount, pile.mix); });
  return amounts;
}

Words water_step(const Recipe& recipe, const Materials& materials) {
  switch (watering_of(recipe)) {
    case Watering::so_much: return say("Water as you go, {}, until a handful clumps.", carried(as_built(recipe).water_to_add, materials));
    case Watering::none_wanted: return "No water, as you asked.";
    case Watering::wet_enough: return "No water: it is wet enough as it is.";
    case Watering::stays_too_dry: return "Give it what water there is. It stays too dry: it wants more.";
    case Watering::a_little: return "Wet it a little as you build.";
  }
  return {};
}

LeftOver left_over_of(const Remainder& left, const Materials& materials) {
  return known_row(*materials.feedstocks, left.amount.id).left_over;
}

/// "the other 11 leaf bags of autumn leaves"
Words rest_words(const Remainder& left, const Materials& materials) {
  const RecipeAmount& amount = left.amount;
  const bool none_in = !is_positive(amount.volume);
  const bool weighed = !left.containers && amount.counted_by_mass && amount.mass_left;
  const Words measure = weighed ? Words(*amount.mass_left) : amount_of(left.containers, left.volume, materials);
  return say("{}{} of {}", none_in ? "all " : "the other ", measure, amount.name);
}

/// What becomes of several that are kept dry: some of them may be mulch as well.
Words keep_dry_words(const std::vector<Remainder>& group, const Recipe& recipe, const Materials& materials) {
  std::vector<Words> mulch;
  for (const Remainder& left : group) {
    if (left_over_of(left, materials) == LeftOver::mulch) mulch.emplace_back(left.amount.name);
  }
  const bool all = mulch.size() == group.size();
  if (room_sets_size(recipe)) {
    const std::string_view sinks =
        calls_for(recipe, Basic::top_up) ? "keep them dry, and top it up as it sinks" : "keep them dry, and put them in as it sinks";
    return sinks;
  }
  if (mulch.empty() || all) return use_of_left_over(all ? LeftOver::mulch : LeftOver::leaf_mold, {});
  return say("keep them dry for later, or spread the {} as mulch", listed(mulch));
}

/// What has to come for the rest of something.
std::string_view when_it_goes_in(const std::optional<WhyLeft>& why) {
  return why == WhyLeft::too_brown ? "as more greens come in" : "as more browns come in";
}

Words use_of_group(const std::vector<Remainder>& group, const Recipe& recipe, const Materials& materials) {
  const LeftOver use = left_over_of(group.front(), materials);
  if (use == LeftOver::leaf_mold || use == LeftOver::mulch) return keep_dry_words(group, recipe, materials);
  if (use == LeftOver::under_browns && calls_for(recipe, Basic::rotate_a_tumbler)) return "put them in as more browns go in";
  return use_of_left_over(use, room_sets_size(recipe) ? "as the pile sinks" : when_it_goes_in(group.front().why));
}

/// Nothing of "too green" where greens are what it lacks: bound nitrogen makes nothing green.
Words why_rest_words(const std::optional<WhyLeft>& why, const Recipe& recipe) {
  return why == WhyLeft::too_green && greens_lacking(recipe) ? Words() : why_left_words(why);
}

/// "The other 11 leaf bags of autumn leaves and all 3 straw bales of straw (too brown): keep them dry for later."
Words remainders_step(const std::vector<Remainder>& group, const Recipe& recipe, const Materials& materials) {
  const bool for_one_reason = std::all_of(group.begin(), group.end(), [&](const Remainder& left) { return left.why == group.front().why; });
  std::vector<Words> rests;
  for (const Remainder& left : group)
    rests.push_back(for_one_reason ? rest_words(left, materials)
                                   : say("{}{}", rest_words(left, materials), why_rest_words(left.why, recipe)));
  const Words use = use_of_group(group, recipe, materials);
  return say("{}{}: {}.", capital(listed(rests)), for_one_reason ? why_rest_words(group.front().why, recipe) : Words(),
             use.empty() ? Words("put away") : use);
}

/// What is kept dry together, and else what has one use together.
std::vector<std::vector<Remainder>> by_use(const std::vector<Remainder>& remainders, const Materials& materials) {
  const auto kept_as = [&](const Remainder& left) {
    const LeftOver use = left_over_of(left, materials);
    return use == LeftOver::leaf_mold ? LeftOver::mulch : use;
  };
  std::vector<std::vector<Remainder>> groups;
  for (const Remainder& left : remainders) {
    const auto like = std::find_if(groups.begin(), groups.end(),
                                   [&](const std::vector<Remainder>& group) { return kept_as(group.front()) == kept_as(left); });
    if (like == groups.end()) {
      groups.push_back({left});
    } else {
      like->push_back(left);
    }
  }
  return groups;
}

/// A pile with the wood in it that the recipe leaves out.
Words with_what_hardly_rots_words(const Recipe& recipe, const Materials& materials) {
  if (!recipe.counting_what_rots || recipe.counting_what_rots->with_it.empty()) return {};
  if (verdict_of(recipe) == RecipeVerdict::far_off) return {};
  const CountingWhatRots& counting = *recipe.counting_what_rots;
  return say("{}: about in balance by what rots in a season, and of {} hardly any does", all_of(counting.with_it, materials),
             listed({counting.hardly_rots.begin(), counting.hardly_rots.end()}));
}

/// What is there without a limit, or could be bought, and is not wanted.
Words not_needed_words(const Recipe& recipe) {
  std::vector<Words> there;
  std::vector<Words> to_buy;
  for (const RecipeAmount& amount : not_needed(recipe)) (amount.bought ? to_buy : there).emplace_back(amount.name);
  if (to_buy.empty()) return there.empty() ? Words() : listed(there);
  const Words none = say("buy no {}", listed(to_buy));
  return there.empty() ? none : say("{}; {}", listed(there), none);
}

/// "a fifth", of the browns, where they lie in so many layers.
std::string_view part_of(int layers) {
  constexpr std::array<std::string_view, 5> parts{"half", "a third", "a quarter", "a fifth", "a sixth"};
  return parts.at(static_cast<std::size_t>(std::clamp(layers, 2, 6)) - 2);
}

std::string_view count_of_layers(int layers) {
  constexpr std::array<std::string_view, 5> words{"one layer", "two layers", "three layers", "four layers", "five layers"};
  return words.at(static_cast<std::size_t>(std::clamp(layers, 1, 5)) - 1);
}

/// Behind a list of so many things.
std::string_view shredded_words(const Recipe& recipe, std::size_t things) {
  if (!calls_for(recipe, Basic::shred_leaves)) return "";
  return things == 1 ? ", best shredded first" : ", the leaves best shredded first";
}

/// A tumbler is filled anyhow, and mixes by being rotated.
void tumbler_steps(const Recipe& recipe, const Materials& materials, std::vector<Words>& steps) {
  steps.push_back(say("Put in {}{}.", all_of(going_in(recipe), materials), shredded_words(recipe, going_in(recipe).size())));
}

void layer_steps(const Recipe& recipe, const Layering& layering, const Materials& materials, std::vector<Words>& steps) {
  const Words bottom = layering.at_the_bottom ? Words(whole(*layering.at_the_bottom)) : Words(part_of(layering.layers + 1));
  steps.push_back(
      say("Take {}{}; lay {} at the bottom.", all_of(layering.browns, materials), shredded_words(recipe, layering.browns.size()), bottom));
  const Words greens = all_of(layering.greens, materials);
  steps.push_back(layering.layers == 1 ? say("On it {}, and the rest over it.", greens)
                                       : say("On it {}, in {} or mixed, {} between and on top.", greens, count_of_layers(layering.layers),
                                             layering.browns.size() == 1 ? layering.browns.front().name : "the browns"));
}

/// "3 parts autumn leaves, 2 parts grass clippings"
Words parts_words(const Proportion& proportion) {
  std::vector<Words> parts;
  for (const Part& part : proportion.parts)
    parts.push_back(say("{} {} {}", whole(part.parts), part.parts == 1 ? "part" : "parts", part.name));
  return joined(parts);
}

/// "Apr to Oct", "Apr", or "Apr, Oct" where none comes in between.
Words months_of(const Season& season) {
  const auto& months = season.months;
  if (months.size() == 1) return month_name(months.front());
  if (season.is_one_run()) return say("{} to {}", month_name(months.front()), month_name(months.back()));
  std::vector<Words> names;
  for (const std::chrono::month month : months) names.emplace_back(month_name(month));
  return joined(names);
}

/// "each mowing, Apr to Oct", "each week", and of a load whose season nobody knows "each time".
/// A drum takes no more than lets it turn over, whatever a week brings.
constexpr const char* as_a_drum_sinks = "as it sinks, to two thirds full at most";

Words each_time(const Card& card, const Materials& materials) {
  const bool mown = known_row(*materials.feedstocks, card.greens.id).has_tag("grassy");
  const Words time = mown ? "each mowing" : card.greens.keeps ? "each week" : "each time";
  return card.season ? say("{}, {}", time, months_of(*card.season)) : time;
}

Words when_not_today(const NotToday& one, bool grassy) {
  const bool some = one.share_on_hand > 0.0;
  if (one.bought) return "Get them when they come.";
  if (!grassy) return say("{} go on as they come.", some ? "The others" : "They");
  return some ? "Leave the others on the lawn, or put them on as they come." : "Leave them on the lawn, or build right after a mowing.";
}

std::string name_of(const HeldBack& held, const Recipe& recipe) {
  const auto is_it = [&](const RecipeAmount& amount) { return amount.id == held.feedstock && amount.supply == held.supply; };
  const auto found = std::find_if(recipe.amounts.begin(), recipe.amounts.end(), is_it);
  return found == recipe.amounts.end() ? held.feedstock.value_or("") : found->name;
}

Words held_back_words(const HeldBack& held, const Recipe& recipe) {
  const std::string too_small = is_too_small(recipe) ? ", and too small for what must go in" : "";
  switch (reason_of(held, recipe)) {
    case HeldBackReason::balance: {
      const Mix& all = recipe.everything_in ? recipe.everything_in->mix : *recipe.mix;
      return say("balance: all of it together would be too brown, {}", ratio_words(all));
    }
    case HeldBackReason::too_few_greens: return "greens, moist and rich in nitrogen: there are not enough for all the browns";
    case HeldBackReason::too_few_browns: return "browns, dry and rich in carbon: there are not enough for all the greens";
    case HeldBackReason::too_wet: return "wet: all of it together would be too wet";
    case HeldBackReason::wet_already: return "wet: what goes in is as wet as it may be";
    case HeldBackReason::too_dry_for_its_water: return "dry: all of it together would want more water than you allow";
    case HeldBackReason::packs_down: return "air: it would pack down";
    case HeldBackReason::largest_share: return "the largest share that you allow of something";
    case HeldBackReason::no_more_of_it: return say("{}: there is no more", name_of(held, recipe));
    case HeldBackReason::none_of_it_today: return say("{}: there is none today", name_of(held, recipe));
    case HeldBackReason::as_big_as_asked: return say("size: the pile is as big as you asked{}", too_small);
    case HeldBackReason::room_is_full: return say("room: the pile is full{}", too_small);
    case HeldBackReason::no_more_water: return "water: there is no more";
  }
  return {};
}

/// A supplement's dose, the published part of it first.
Words dose_words(const RecipeAmount& amount) {
  return say("{}: {}, of that {} first", amount.name, amount.mass, Between<Mass>{amount.mass / 2.0, amount.mass * (2.0 / 3.0)});
}

Words addition_words(const Addition& addition, const Materials& materials) {
  const RecipeAmount& amount = addition.rounded;
  if (addition.is_supplement) return dose_words(amount);
  const bool countable = amount.containers && amount.containers->count >= least_count;
  return say("{}: {}{}", amount.name, own_measure(amount, countable ? amount.containers : std::nullopt, amount.volume, materials),
             addition.is_on_hand ? " more" : "");
}

Words way_words(const Help& help, const Materials& materials) {
  if (help.wilting)
    return say("let the {} wilt in the sun to about {} moisture before they go in: they lose {}", help.wilting->name, help.wilting->to,
               help.wilting->water_lost);
  std::vector<Words> additions;
  for (const Addition& addition : help.additions) additions.push_back(addition_words(addition, materials));
  if (help.water_to_add.value() < splash) return joined(additions, "; and ");
  if (additions.empty()) return say("water: {} in all", help.water_to_add);
  return say("{}, with {} of water in all", joined(additions, "; and "), help.water_to_add);
}

bool is_dose(const Help& help) { return !help.additions.empty() && help.additions.front().is_supplement; }

/// What stays out, and where it goes.
Words left_out_words(const LeftOut& left) {
  const std::string_view where = left.clippings ? "leave clippings lying on the lawn, and put none on beds"
                                 : left.manure  ? "spread manure on the field it came from, not on beds"
                                                : "give it back, or put it in the trash; none on beds";
  if (left.treated == Treated::yes) return say("{}, treated with weedkiller: {}", left.name, where);
  return say("{}: it may carry weedkiller. Ask; if nobody knows, {}", left.name, where);
}

/// What has to be found out of what stays out, and where it is written.
std::vector<Words> to_find_out(const Recipe& recipe) {
  std::vector<Words> words;
  for (const LeftOut& left : recipe.left_out) {
    if (left.treated == Treated::yes) continue;
    words.push_back(say("{}: if no weedkiller was used, write treated = \"no\" in the yard file", left.name));
  }
  return words;
}

Words not_today_words(const NotToday& one, const Materials& materials) {
  const bool grassy = known_row(*materials.feedstocks, one.id).has_tag("grassy");
  const Words season = one.season ? say(" come {} and", months_of(*one.season)) : Words();
  const Words there =
      one.share_on_hand > 0.0 ? say("only {} of a year's can be had", Percent{one.share_on_hand}) : Words("none can be had");
  return say("{}:{} keep {}, so {} that day. {}", one.name, season, one.keeps, there, when_not_today(one, grassy));
}

/// What sets the size, in the words of the person.
Words size_words_of(const Recipe& recipe) {
  const SizeSetBy& size = *recipe.size_set_by;
  const Words but =
      overfills(recipe) ? say(", but there is room for {}: the rest goes on as it sinks, or makes a second pile", *recipe.room) : Words();
  switch (size.from) {
    case SizeFrom::fill: return say("as you asked{}", but);
    case SizeFrom::capacity: return "the limit that you gave sets it";
    case SizeFrom::room: return "the room there is sets it";
    case SizeFrom::fixed: return say("what must go in sets it{}", but);
    case SizeFrom::water: return "what water there is sets it";
    case SizeFrom::goal: return say("the goal sets it: \"{}\" takes no more", goal_word(recipe.options.goal));
    case SizeFrom::on_hand: break;
  }
  constexpr std::size_t most_named = 3;
  std::vector<Words> words;
  for (const std::size_t place : size.used_up) words.emplace_back(recipe.amounts[place].name);
  if (words.empty() || words.size() > most_named) return say("what is on hand sets it{}", but);
  return say("what there is of {} sets it{}", listed(words), but);
}

/// Each amount with what it weighs and how fresh it has to be.
Grid amounts_grid(const Recipe& recipe, const Materials& materials) {
  Grid grid;
  for (const RecipeAmount& amount : going_in(recipe)) {
    std::vector<Words> rest;
    if (!amount.counted_by_mass) rest.emplace_back(amount.mass);
    if (amount.containers || amount.counted_by_mass) rest.emplace_back(amount.volume);
    if (amount.bought) rest.emplace_back("to buy");
    if (amount.keeps) {
      rest.push_back(say("fresh, at most {} old", *amount.keeps));
    } else if (amount.left_over && !is_left(amount)) {
      rest.emplace_back("all of it");
    }
    grid.rows.push_back({own_measure(amount, amount.containers, amount.volume, materials), amount.name, joined(rest)});
  }
  return grid;
}

void say_money(PageWriter& writer, const Recipe& recipe) {
  const AsBuilt pile = as_built(recipe);
  if (!is_positive(pile.cost)) return;
  writer.paragraph(say("Cost: {} in your money{}.", pile.cost, is_bought_by_weight(recipe) ? ", by the part of a unit" : ""));
  if (recipe.options.goal == Goal::cheapest && !recipe.options.fill)
    writer.paragraph("The cheapest pile that takes something bought is a small one: say how big a pile you want, fill = \"2 yd3\".");
  if (recipe.next_dearer) writer.paragraph(say("For {} it could be much nearer the aim.", recipe.next_dearer->cost));
}

bool has_leaves_left(const Recipe& recipe, const Materials& materials) {
  const std::vector<Remainder> left = remainders_of(recipe);
  return std::any_of(left.begin(), left.end(), [&](const Remainder& one) {
    return known_row(*materials.feedstocks, one.amount.id).left_over == LeftOver::leaf_mold;
  });
}

void say_everything_in(PageWriter& writer, const Recipe& recipe) {
  const EverythingVerdict verdict = everything_verdict(recipe);
  if (verdict == EverythingVerdict::same) return;
  const EverythingIn& all = *recipe.everything_in;
  const Words moist = all.mix.moisture ? say(", {} moist", *all.mix.moisture) : Words();
  const Words water = all.water_to_add.value() >= splash ? say(" with {} of water", all.water_to_add) : Words();
  const Words end = verdict == EverythingVerdict::overfills ? "more than the room there is"
                    : verdict == EverythingVerdict::may_all_go_in
                        ? "still about in balance, at the edge of the range. You may put it all in"
                        : character_words(all.mix, recipe.targets);
  writer.section(Depth::why).paragraph(say("If everything went in: {}{}{}: {}.", ratio_words(all.mix), moist, water, end));
}

Words ways_heading(const Recipe& recipe) {
  const std::string_view any = ways_to_mend(recipe).size() == 1 ? "" : ": any one of these";
  if (verdict_of(recipe) == RecipeVerdict::far_off) return say("Mix in what it lacks{}", any);
  if (recipe.status == RecipeStatus::on_target) return say("What would let all of it go in, just inside the range{}", any);
  return say("{}{}", recipe.status == RecipeStatus::not_enough ? "What is missing" : "What would set it right", any);
}

Words room_for_all(const Recipe& recipe) {
  return say("That is for all there is, and wants room for {}.", *ways_to_mend(recipe).front().mix.volume);
}

/// Ways to set it right, or to use all there is.
std::vector<Words> ways_words(const Recipe& recipe, const Materials& materials) {
  std::vector<Words> words;
  for (const Help& way : ways_to_mend(recipe)) {
    if (words.size() < most_ways) words.push_back(way_words(way, materials));
  }
  return words;
}

/// All ways; of a pile far off those that say_what_it_lacks() left out.
void say_ways(PageWriter& writer, const Recipe& recipe, const Materials& materials) {
  std::vector<Words> ways = ways_words(recipe, materials);
  const bool far_off = verdict_of(recipe) == RecipeVerdict::far_off;
  if (far_off) ways.erase(ways.begin(), ways.begin() + static_cast<std::ptrdiff_t>(std::min(ways.size(), ways_at_once)));
  if (ways.empty()) return;
  writer.section(Depth::why, far_off ? Words("Or one of these") : ways_heading(recipe)).bullets(std::move(ways));
  if (mended_overfills(recipe) && !far_off) writer.paragraph(room_for_all(recipe));
  if (std::any_of(recipe.what_would_help.begin(), recipe.what_would_help.end(), is_dose))
    writer.paragraph(
        "Start with half to two thirds of the urea or meal, watered in, and see whether it heats (Cornell, Use of Fertilizer Nitrogen).");
}

}  // namespace

namespace {

/// What rounds to the edge is called so: figures are shown in whole percents.
Words nearly_right_words(const Recipe& recipe) {
  const Mix mix = as_built(recipe).mix;
  return faults_of(mix, recipe.targets).empty() ? Words("at the edge of what works") : character_words(mix, recipe.targets);
}

/// Of all there is, as the ways to mend it are, where that is no more than what there is.
Words far_off_words(const Recipe& recipe, const Materials& materials) {
  const bool of_all = recipe.everything_in && everything_verdict(recipe) != EverythingVerdict::same;
  if (!of_all)
    return say("As it is, {}: this comes out {}.", all_of(going_in(recipe), materials),
               character_words(as_built(recipe).mix, recipe.targets));
  return say("All of it together, {}, comes out {}.", all_of(all_there_is(recipe), materials),
             character_words(recipe.everything_in->mix, recipe.targets));
}

}  // namespace

Words headline_of(const Recipe& recipe, const Materials& materials) {
  constexpr std::string_view only_an_addition =
      "That alone makes no pile: it is only an addition, or none of it. Say what else there is: leaves, clippings, scraps.";
  switch (recipe.status) {
    case RecipeStatus::on_target: return {};
    case RecipeStatus::nearest:
      if (verdict_of(recipe) == RecipeVerdict::nearly_right) return say("This pile is {}.", nearly_right_words(recipe));
      return far_off_words(recipe, materials);
    case RecipeStatus::not_enough:
      if (!recipe.mix) return only_an_addition;
      return say("There is not enough for a pile of {}: {} is missing. The largest good pile:", *recipe.wanted, *recipe.missing);
    case RecipeStatus::limits_clash:
      return "These limits cannot all be kept: what must go in, the largest shares and the room there is contradict each other. Take one "
             "away, or let one be \"up-to\".";
    case RecipeStatus::no_size:
      if (recipe.additions_only) return only_an_addition;
      if (recipe.proportion) return say("Mix by volume: {}.", parts_words(*recipe.proportion));
      if (recipe.mix)
        return say("As it is this comes out {}. The amounts are for each {}: say how much there is, --have \"leaves=20 bags\".",
                   character_words(*recipe.mix, recipe.targets), *recipe.example);
      return "How big a pile? Say how much there is of something (--have \"leaves=20 bags\"), or how big a pile you want (--fill \"1 "
             "yd3\").";
    case RecipeStatus::nothing_on_hand:
      return "Nothing is on hand. Say what there is: --have \"leaves=20 bags\", or [[supply]] in the yard file.";
  }
  return {};
}

Words pile_in_one_line(const Recipe& recipe, const Materials& materials) {
  const Words amounts = all_of(going_in(recipe), materials);
  if (watering_of(recipe) != Watering::so_much) return amounts;
  return say("{} and {} of water", amounts, carried(as_built(recipe).water_to_add, materials));
}

std::vector<Words> building_steps(const Recipe& recipe, const Materials& materials) {
  std::vector<Words> steps;
  if (calls_for(recipe, Basic::rotate_a_tumbler)) {
    tumbler_steps(recipe, materials, steps);
  } else if (const auto layering = layering_of(recipe)) {
    layer_steps(recipe, *layering, materials, steps);
  } else {
    steps.push_back(say("Pile up {}{}.", all_of(going_in(recipe), materials), shredded_words(recipe, going_in(recipe).size())));
  }
  steps.push_back(water_step(recipe, materials));
  if (calls_for(recipe, Basic::rotate_a_tumbler)) steps.push_back("Rotate it a few times, to mix it.");
  for (const auto& group : by_use(remainders_of(recipe), materials)) steps.push_back(remainders_step(group, recipe, materials));
  return steps;
}

void say_greens_lacking(PageWriter& writer, const Recipe& recipe, const Materials& materials) {
  const std::optional<GreensIn> greens = greens_lacking(recipe);
  if (!greens) return;
  const std::vector<Help> ways = recipe.counting_what_rots ? recipe.counting_what_rots->ways : std::vector<Help>();
  std::vector<Words> items;
  for (const Help& way : ways) items.push_back(way_words(way, materials));
  const std::vector<Words> names(recipe.mix->what_rots->hardly_rots.begin(), recipe.mix->what_rots->hardly_rots.end());
  const Words lack = say("There is {} in it: the nitrogen of {} is bound, and does not count.",
                         *greens == GreensIn::none ? "no green" : "too little green", listed(names));
  writer.paragraph(say("{} {}", lack, items.empty() ? "Get grass clippings, kitchen scraps or coffee grounds." : "Get one of these:"));
  writer.bullets(first_of(std::move(items), ways_at_once));
}

/// Where wood is much of what is on hand: what is counted.
void say_what_counts(PageWriter& writer, const Recipe& recipe) {
  if (!is_mended_by_what_rots(recipe)) return;
  const std::vector<std::string>& names = recipe.counting_what_rots->hardly_rots;
  writer.paragraph(say("Counted by what rots in a season: of {} hardly any does.", listed({names.begin(), names.end()})));
}

void say_what_it_lacks(PageWriter& writer, const Recipe& recipe, const Materials& materials) {
  if (verdict_of(recipe) != RecipeVerdict::far_off) return;
  say_what_counts(writer, recipe);
  writer.section(Depth::act, ways_heading(recipe)).bullets(first_of(ways_words(recipe, materials), ways_at_once));
  if (mended_overfills(recipe)) writer.paragraph(room_for_all(recipe));
}

Words use_of_left_over(LeftOver left_over, std::string_view when) {
  switch (left_over) {
    case LeftOver::nothing: return {};
    case LeftOver::covered: return say("keep it covered, away from water, and put it on {}", when);
    case LeftOver::under_browns: return say("put them on {}, under browns", when);
    case LeftOver::on_the_lawn: return "leave them on the lawn, that is no waste";
    case LeftOver::yard_waste_cart: return say("put them on {}, or in the yard-waste cart", when);
    case LeftOver::leaf_mold: return "keep them dry for later";
    case LeftOver::mulch: return "keep them dry for later, or spread them as mulch";
    case LeftOver::wood_mulch: return "spread them as mulch on paths and beds";
  }
  return {};
}

Words why_left_words(const std::optional<WhyLeft>& why) {
  if (!why) return {};
  switch (*why) {
    case WhyLeft::no_room: return " (no room)";
    case WhyLeft::big_enough: return " (more than you asked for)";
    case WhyLeft::its_share: return " (more than the share you allow)";
    case WhyLeft::goal: return " (the goal takes no more)";
    case WhyLeft::no_water: return " (too little water)";
    case WhyLeft::too_brown: return " (too brown)";
    case WhyLeft::too_green: return " (too green)";
    case WhyLeft::too_wet: return " (too wet)";
    case WhyLeft::enough: return " (enough without)";
  }
  return {};
}

std::vector<Words> card_words(const Recipe& recipe, const Materials& materials) {
  std::vector<Words> cards;
  std::string said;  // the browns of the card before
  for (const Card& card : recipe.cards) {
    const bool mown = known_row(*materials.feedstocks, card.greens.id).has_tag("grassy");
    std::vector<Words> with{mown ? own_measure(card.greens, card.greens.containers, card.greens.volume, materials)
                                 : so_much_of(card.greens, materials)};
    const bool named_before = card.browns.size() == 1 && card.browns.front().name == said;
    for (const RecipeAmount& browns : card.browns)
      with.push_back(named_before ? of_browns(browns, materials) : so_much_of(browns, materials));
    said = card.browns.size() == 1 ? card.browns.front().name : "";
    if (is_positive(card.water_to_add)) with.push_back(say("{} of water", carried(card.water_to_add, materials)));
    const bool is_tumbler = calls_for(recipe, Basic::rotate_a_tumbler);
    cards.push_back(say("{}: {}", is_tumbler ? Words(as_a_drum_sinks) : each_time(card, materials), joined(with, " + ")));
  }
  return cards;
}

Labels set_aside(const Recipe& recipe, const Materials& materials) {
  Labels labels;
  const char* name = "Leave out";
  for (const LeftOut& left : recipe.left_out) labels.labels.push_back({std::exchange(name, ""), left_out_words(left)});
  name = "Not today";
  for (const NotToday& one : recipe.not_today) labels.labels.push_back({std::exchange(name, ""), not_today_words(one, materials)});
  const Words bedding = with_what_hardly_rots_words(recipe, materials);
  if (!bedding.empty()) labels.labels.push_back({"Or", bedding});
  const Words unused = not_needed_words(recipe);
  if (!unused.empty()) labels.labels.push_back({"Not needed", unused});
  return labels;
}

namespace {

Words basic_words(Basic basic) {
  switch (basic) {
    case Basic::shred_leaves: return "shred whole leaves first, or mow over them: they mat less and rot sooner";
    case Basic::layers_or_mixed: return "built in one day, layers and a mixed pile both do: in layers it is mixed at the first turning";
    case Basic::cover_scraps: return "cover kitchen scraps with browns each time: that keeps flies and animals off";
    case Basic::top_up: return "top the bin up as it sinks, with the same mix";
    case Basic::rotate_a_tumbler: return "rotate a tumbler a few times whenever something goes in: it has no layers, and needs no fork";
  }
  return {};
}

void say_basics(PageWriter& writer, const Recipe& recipe) {
  std::vector<Words> items;
  for (const Basic basic : recipe.basics) items.push_back(basic_words(basic));
  writer.section(Depth::why, "How it is built (common practice, no source)").bullets(std::move(items));
}

}  // namespace

void say_why(PageWriter& writer, const Recipe& recipe, const Materials& materials, const Words& room) {
  writer.section(Depth::why, "Before what was left out can go in").bullets(to_find_out(recipe));
  if (!recipe.mix) return;
  say_basics(writer, recipe);
  const Mix& mix = as_built(recipe).mix;
  const bool far_off = verdict_of(recipe) == RecipeVerdict::far_off;
  if (far_off) say_ways(writer, recipe, materials);
  writer.section(Depth::why, far_off ? "What it makes as it is" : "What it makes").block(amounts_grid(recipe, materials));
  if (auto shares = shares_of(as_built(recipe).mix)) writer.block(*std::move(shares));
  writer.block(figures_of(mix, recipe.targets));
  Labels labels;
  if (mix.volume) labels.labels.push_back({"Pile", size_words(mix)});
  if (!room.empty()) labels.labels.push_back({"Room", room});
  if (recipe.size_set_by) labels.labels.push_back({"Size", size_words_of(recipe)});
  writer.block(std::move(labels));
  writer.paragraph(on_the_figures(mix));
  if (recipe.status == RecipeStatus::on_target && !recipe.whole_containers)
    writer.paragraph("Weigh it: whole containers do not come near enough.");
  if (recipe.status == RecipeStatus::on_target && recipe.whole_containers && !recipe.whole_containers->inside)
    writer.paragraph("In whole containers this is the nearest; weighed out it could come right.");
  say_money(writer, recipe);
  if (has_leaves_left(recipe, materials))
    writer.paragraph("Leaves that are left may also be piled up moist by themselves: they are leaf mold in a year or two.");
  if (room_sets_size(recipe) && !remainders_of(recipe).empty())
    writer.paragraph("What does not fit today: as the pile sinks, top it up with the same mix, or start a second one.");
  std::vector<Words> limits;
  for (const HeldBack& held : recipe.held_back_by) limits.push_back(held_back_words(held, recipe));
  writer.section(Depth::why, "What limits it").bullets(std::move(limits));
  say_everything_in(writer, recipe);
  if (!far_off) say_ways(writer, recipe, materials);
}

}  // namespace heapwright
