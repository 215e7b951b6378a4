#include "heapwright/report/text.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/heap/heap.hpp"
#include "heapwright/input/words.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_cautions = 3;
constexpr std::size_t most_assumptions = 6;
constexpr double on_the_edge = 1.0 + 1e-6;
constexpr double as_good = 1.1;  // as inside: a C:N of 36
constexpr double nearly = 1.3;   // off the windows by less than anyone can tell: a C:N of 39, moisture of 61 %

std::string item(const std::string& text) { return wrap("- " + text, 2); }

std::string window_words(const Targets& targets) {
  const auto& cn = targets.carbon_to_nitrogen;
  return show_ratio(cn.low) + " to " + show_ratio(cn.high);
}

std::string moisture_window_words(const Targets& targets) {
  const std::string low = show_moisture(targets.moisture.low);
  return low.substr(0, low.find(' ')) + " to " + show_moisture(targets.moisture.high);
}

/// What a heap off its windows will be like, in a gardener's words. What is shown as the edge counts as the edge.
std::string character(const Mix& mix, const Targets& targets) {
  constexpr double shown_ratio = 0.5;
  constexpr double shown_share = 0.005;
  std::vector<std::string> words;
  const auto& cn = targets.carbon_to_nitrogen;
  if (!mix.carbon_to_nitrogen) words.emplace_back("without nitrogen: it will not rot");
  if (mix.carbon_to_nitrogen && mix.carbon_to_nitrogen->value() >= cn.high.value() + shown_ratio)
    words.emplace_back("slow and brown, short of nitrogen");
  if (mix.carbon_to_nitrogen && mix.carbon_to_nitrogen->value() < cn.low.value() - shown_ratio)
    words.emplace_back("too green: it will smell of ammonia");
  if (mix.moisture && mix.moisture->value() >= targets.moisture.high.value() + shown_share)
    words.emplace_back("too wet: it will pack down and smell");
  if (mix.moisture && mix.moisture->value() < targets.moisture.low.value() - shown_share) words.emplace_back("too dry to rot");
  if (mix.air_space && mix.air_space->value() < targets.least_air.value() - shown_share) words.emplace_back("short of air");
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : "; ") + word;
  return text.empty() ? "in balance" : text;
}

std::string ratio_of(const Mix& mix) { return mix.carbon_to_nitrogen ? "C:N about " + show_ratio(*mix.carbon_to_nitrogen) : "no nitrogen"; }

/// "likely 26 to 43": the band, its unit said once.
std::string likely(const std::string& low, const std::string& high) {
  const std::size_t unit = low.find(' ');
  const bool same_unit = unit != std::string::npos && high.ends_with(low.substr(unit));
  return "likely " + (same_unit ? low.substr(0, unit) : low) + " to " + high;
}

std::string figures_of(const Mix& mix, const Targets& targets, const Show& show) {
  std::vector<std::vector<std::string>> rows;
  const std::optional<MixRanges>& ranges = mix.ranges;
  if (mix.carbon_to_nitrogen)
    rows.push_back({"C:N ratio", "about " + show_ratio(*mix.carbon_to_nitrogen),
                    ranges && ranges->carbon_to_nitrogen
                        ? likely(show_ratio(ranges->carbon_to_nitrogen->low), show_ratio(ranges->carbon_to_nitrogen->high))
                        : "",
                    window_words(targets) + " works"});
  if (mix.moisture)
    rows.push_back({"moisture", "about " + show_moisture(*mix.moisture),
                    ranges ? likely(show_moisture(ranges->moisture.low), show_moisture(ranges->moisture.high)) : "",
                    moisture_window_words(targets) + " works: a handful clumps"});
  if (mix.air_space)
    rows.push_back({"air", "about " + show_percent(mix.air_space->value()),
                    ranges && ranges->air_space
                        ? likely(show_percent(ranges->air_space->low.value()), show_percent(ranges->air_space->high.value()))
                        : "",
                    "at least " + show_percent(targets.least_air.value())});
  std::string text = columns(rows);
  if (mix.volume)
    text += "  heap       " + show.volume(*mix.volume) + ", " + show.mass(mix.mass) +
            (mix.bulk_density ? ", " + show.density(*mix.bulk_density) : "") + "\n";
  return text;
}

/// What "likely" means, and the commonest mistake about ratios.
std::string on_the_figures(const Mix& mix) {
  std::string band;
  if (mix.ranges) {
    band = "Likely: eight times in ten, as published figures vary";
    const std::string& most = mix.ranges->ratio_rests_on;
    if (most.starts_with("C:N")) band += ", most of all the " + most + ", which only a laboratory can tell";
    band += ". ";
  }
  return wrap("  (" + band + "The ratio counts carbon and nitrogen: 30 to 1 is not thirty buckets to one.)", 2);
}

/// Whether an assumption is worth a line: it could change the answer, is a statement in words, or what the person measured.
bool is_worth_a_line(const Assumption& assumption) {
  constexpr double little = 0.05;
  if (assumption.could_change_answer) return *assumption.could_change_answer >= little;
  const bool in_words = std::holds_alternative<std::string>(assumption.value) || std::holds_alternative<Date>(assumption.value);
  return in_words || assumption.evidence.starts_with("you");  // the person's own figure
}

std::string measure_first_text(const std::optional<Measurement>& first) {
  if (!first) return {};
  switch (first->how) {
    case Measuring::weigh:
      return wrap("Measure first: weigh one full " + first->container.name + " of " + first->name +
                  ". In the yard file: weighed = { container = \"" + first->container.id + "\", full = \"… lb\", empty = \"… lb\" }");
    case Measuring::dry:
      return wrap(
          "Measure first: weigh a handful of " + first->name +
          " moist, and again once it has dried crisp in a warm airy place. In the yard file: dried = { wet = \"… g\", dry = \"… g\" }");
    case Measuring::count:
      return wrap("Measure first: count the " + first->name + " in place of the guess. In the yard file: amount = \"… " +
                  first->container.id + "\"");
  }
  return {};
}

std::string assumptions_text(const std::vector<Assumption>& assumptions, const std::optional<Measurement>& first, const Show& show) {
  if (assumptions.empty()) return {};
  std::string text = "\nI took it as (what could change the answer most comes first)\n";
  std::size_t others = 0;
  std::size_t shown = 0;
  for (const Assumption& assumption : assumptions) {
    const bool ranged = assumption.could_change_answer.has_value();
    if (!is_worth_a_line(assumption) || (ranged && shown == most_assumptions)) {
      ++others;
      continue;
    }
    shown += ranged ? 1 : 0;
    text += item(assumption.what + ": " + show.assumed(assumption) + " (" + assumption.evidence + ")");
  }
  if (others > 0)
    text += item(std::to_string(others) + (others == 1 ? " more that matters" : " more that matter") + " less: --json lists them");
  return text + measure_first_text(first);
}

std::string working_text(const std::optional<Working>& working) { return working ? text_of_working(*working) : ""; }

std::string cautions_text(const std::vector<std::string>& ids, const Materials& materials) {
  if (ids.empty()) return {};
  std::string text = "\nMind\n";
  for (std::size_t i = 0; i < ids.size() && i < most_cautions; ++i) {
    if (const Caution* caution = find_caution(materials, ids[i])) text += item(caution->text);
  }
  return text + "Local rules come first.\n";
}

/// Cautions that cannot wait, above the answer.
std::string first_cautions_text(const std::vector<std::string>& ids, const Materials& materials) {
  std::string text;
  for (const std::string& id : ids) {
    const Caution* caution = find_caution(materials, id);
    if (caution != nullptr && caution->first) text += wrap(caution->text) + "\n";
  }
  return text;
}

/// Where a supply goes that may carry a weedkiller.
std::string left_out_words(const LeftOut& left) {
  const std::string where = left.clippings ? "leave clippings lying on the lawn, and put none on beds"
                            : left.manure  ? "spread manure on the pasture or field it came from, not on beds"
                                           : "give it back, or put it in the trash; none on beds";
  if (left.treated == Treated::yes) return left.name + ": treated with weedkiller. So " + where + ".";
  return left.name +
         ": nobody knows whether weedkiller was used. Find out, and write treated = \"no\" in the yard file if not. If you cannot, " +
         where + ".";
}

std::string left_out_text(const Recipe& recipe) {
  if (recipe.left_out.empty()) return {};
  std::string text = "\nNot for the heap\n";
  for (const LeftOut& left : recipe.left_out) text += item(left_out_words(left));
  return text;
}

/// In the person's own measure: containers, a weight, or a volume.
std::string own_measure(const RecipeAmount& amount, const std::optional<ContainerCount>& containers, Volume volume,
                        const Materials& materials, const Show& show) {
  if (!containers && amount.counted_by_mass && amount.volume.value() > 0.0)
    return show.mass(Mass(amount.mass * (volume / amount.volume).value()));
  return show_amount(containers, volume, materials, show);
}

std::vector<std::string> amount_row(const RecipeAmount& amount, const Materials& materials, const Show& show) {
  std::string rest = amount.counted_by_mass ? show.volume(amount.volume)
                                            : show.mass(amount.mass) + (amount.containers ? ", " + show.volume(amount.volume) : "");
  if (amount.bought) rest += "; to buy";
  const bool all = amount.left_over && amount.left_over->value() <= 1e-3 * amount.volume.value();
  if (all) rest += amount.comes_fresh ? "; what 30 days bring" : "; all of it";
  return {own_measure(amount, amount.containers, amount.volume, materials, show), amount.name, rest};
}

/// Water as one carries it: gallons, and watering cans where that is more than a splash.
std::string water_words(WaterMass water, const Materials& materials, const Show& show) {
  const Container* can = find_container(materials.containers, "watering-can");
  if (can == nullptr || !show.in_us_units()) return show.water(water);
  const double cans = (water / water_density() / can->volume).value();
  constexpr double many = 10.0;
  return show.water(water) + (cans >= 0.5 && cans < many ? " (" + show_count(cans, can->name) + ")" : "");
}

std::string ingredients_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  const Told heap = told(recipe);
  std::vector<std::vector<std::string>> rows;
  for (const RecipeAmount& amount : heap.amounts) {
    if (goes_in(amount, heap.mix)) rows.push_back(amount_row(amount, materials, show));
  }
  std::string text = columns(rows);
  const bool moist = heap.mix.moisture && *heap.mix.moisture >= recipe.targets.moisture.low;
  constexpr double splash = 0.5;
  if (heap.water_to_add.value() >= splash) {
    text += wrap("  Water: " + water_words(heap.water_to_add, materials, show) + ", a little on each layer as you build.", 4);
  } else {
    text += moist ? "  No water: it is wet enough as it is.\n" : "  It stays too dry: it wants more water than there is.\n";
  }
  if (recipe.whole_containers && !recipe.whole_containers->inside && recipe.status == RecipeStatus::on_target)
    text += wrap("  So small a heap comes out right only by weight: in whole containers this is the nearest.", 2);
  return text;
}

/// "3 parts autumn leaves, 2 parts grass clippings"
std::string parts_words(const Proportion& proportion) {
  std::string text;
  for (const Part& part : proportion.parts)
    text += (text.empty() ? "" : ", ") + std::to_string(part.parts) + (part.parts == 1 ? " part " : " parts ") + part.name;
  return text;
}

/// "1 grass catcher of grass clippings"
std::string so_much_of(const RecipeAmount& amount, const Materials& materials, const Show& show) {
  return show_amount(amount.containers, amount.volume, materials, show) + " of " + amount.name;
}

/// What goes with each load of greens as it comes.
std::string cards_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  std::string text;
  for (const Card& card : recipe.cards) {
    std::string line = (card.greens.feedstock_class == FeedstockClass::clippings ? "each mowing: " : "each time: ") +
                       so_much_of(card.greens, materials, show);
    for (const RecipeAmount& browns : card.browns) line += " + " + so_much_of(browns, materials, show);
    if (card.water_to_add.value() > 0.0) line += " + " + water_words(card.water_to_add, materials, show) + " of water";
    text += item(line);
  }
  return text;
}

std::string as_it_comes_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  if (!recipe.proportion) return {};
  if (recipe.status == RecipeStatus::no_size)  // the parts stand on top
    return (recipe.cards.empty() ? "" : "\nBit by bit, as it comes\n" + cards_text(recipe, materials, show)) +
           wrap("For amounts say how much there is: --have \"leaves=20 bags\"") +
           (recipe.pair ? text_of_pair(*recipe.pair, recipe.targets, show) : "");
  if (recipe.cards.empty()) return {};
  return "\nOr bit by bit, as it comes, a mix of its own\n" +
         item("by volume: " + parts_words(*recipe.proportion) + ": " + ratio_of(recipe.proportion->mix)) +
         cards_text(recipe, materials, show);
}

/// What to do with what is left of a feedstock.
std::string advice_for_left_over(const Feedstock& feedstock) {
  if (feedstock.has_tag("manure")) return "manure: keep it covered, away from water, until browns come in";
  switch (feedstock.feedstock_class) {
    case FeedstockClass::must_go: return "scraps and coffee: cover them with browns as more browns come in";
    case FeedstockClass::clippings:
      if (feedstock.has_tag("grassy")) return "clippings: leave them on the lawn, that is no waste";
      return "greens: add them as browns come in, or put them in the town's yard-waste cart";
    case FeedstockClass::keeper:
      if (feedstock.has_tag("leaves"))
        return "leaves: keep them dry for greens to come, or pile them up moist by themselves: leaf mould in a year or two";
      return "browns: keep them dry for greens to come, or spread them as mulch";
    case FeedstockClass::supplement:
    case FeedstockClass::mineral: return {};
  }
  return {};
}

/// What to do with greens that are not composted.
std::string advice_text(const Recipe& recipe, const Materials& materials) {
  std::string advice;
  for (const RecipeAmount& amount : told(recipe).amounts) {
    const std::string words = advice_for_left_over(find_feedstock(materials, amount.id));
    if (!words.empty() && advice.find(words) == std::string::npos) advice += item(words);
  }
  return advice;
}

/// What is left, so that what goes in and what stays add up as they are shown.
std::string left_over_measure(const RecipeAmount& amount, const Materials& materials, const Show& show) {
  if (!amount.containers || !amount.containers_left) {
    if (amount.counted_by_mass && amount.mass.value() > 0.0)
      return show.mass(Mass(amount.mass * (*amount.left_over / amount.volume).value()));
    return show.volume(*amount.left_over);
  }
  ContainerCount left = *amount.containers_left;
  if (left.container == amount.containers->container)
    left.count = std::max(0.0, shown_count(left.count + amount.containers->count) - shown_count(amount.containers->count));
  return show_amount(left, *amount.left_over, materials, show);
}

std::string left_over_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  std::vector<std::vector<std::string>> rows;
  std::string advice;
  for (const RecipeAmount& amount : told(recipe).amounts) {
    if (!amount.left_over || amount.left_over->value() <= 1e-3 * (amount.volume + *amount.left_over).value()) continue;
    rows.push_back({left_over_measure(amount, materials, show), amount.name});
    const std::string words = advice_for_left_over(find_feedstock(materials, amount.id));
    if (!words.empty() && advice.find(words) == std::string::npos) advice += item(words);
  }
  return rows.empty() ? "" : "\nLeft over\n" + columns(rows) + advice;
}

std::string name_of(const std::string& id, const Recipe& recipe) {
  const auto found =
      std::find_if(recipe.amounts.begin(), recipe.amounts.end(), [&](const RecipeAmount& amount) { return amount.id == id; });
  return found == recipe.amounts.end() ? id : found->name;
}

bool greens_are_left(const Recipe& recipe) {
  const Told heap = told(recipe);
  return std::any_of(heap.amounts.begin(), heap.amounts.end(), [](const RecipeAmount& amount) {
    const bool green = amount.feedstock_class == FeedstockClass::clippings || amount.feedstock_class == FeedstockClass::must_go;
    return green && amount.left_over && amount.left_over->value() > 1e-3 * (amount.volume + *amount.left_over).value();
  });
}

std::string held_back_words(const HeldBack& held, const Recipe& recipe) {
  const Mix* all = recipe.everything_in ? &recipe.everything_in->mix : recipe.mix ? &*recipe.mix : nullptr;
  const auto& window = recipe.targets.carbon_to_nitrogen;
  switch (held.limit) {
    case Limit::carbon_to_nitrogen: {
      const bool brown = all != nullptr && all->carbon_to_nitrogen && *all->carbon_to_nitrogen > window.high;
      if (brown && greens_are_left(recipe)) return "balance: all of it together would be too brown, " + ratio_of(*all);
      return brown ? "greens, moist and rich in nitrogen: there are not enough for all the browns"
                   : "browns, dry and rich in carbon: there are not enough for all the greens";
    }
    case Limit::moisture: {
      const bool wet = all != nullptr && all->moisture && *all->moisture > recipe.targets.moisture.aim;
      return wet ? "wet: all of it together would be too wet" : "dry: more water is wanted than there is";
    }
    case Limit::air_space: return "air: it would pack down";
    case Limit::share: return "the largest share that you allow of something";
    case Limit::amount: return name_of(held.feedstock.value_or(""), recipe) + ": there is no more";
    case Limit::capacity: return "room: the heap is full";
    case Limit::water: return "water: there is no more";
  }
  return {};
}

std::string held_back_text(const Recipe& recipe) {
  if (recipe.held_back_by.empty()) return {};
  std::string text = "\nWhat limits it\n";
  for (const HeldBack& held : recipe.held_back_by) text += item(held_back_words(held, recipe));
  return text;
}

/// A supplement's dose, the published part of it first.
std::string dose_words(const RecipeAmount& amount, const Show& show) {
  const double kilograms = amount.mass.value();
  return amount.name + ": " + show.mass(amount.mass) + ", of that " + show.mass_range(kilograms / 2.0, kilograms * 2.0 / 3.0) + " first";
}

std::string addition_words(const Addition& addition, const Materials& materials, const Show& show) {
  const RecipeAmount& amount = addition.rounded;
  if (addition.is_supplement) return dose_words(amount, show);
  constexpr double least_count = 0.25;
  const bool countable = amount.containers && amount.containers->count >= least_count;
  return amount.name + ": " + own_measure(amount, countable ? amount.containers : std::nullopt, amount.volume, materials, show) +
         (addition.is_on_hand ? " more" : "");
}

std::string one_help_words(const Help& help, const Materials& materials, const Show& show) {
  if (help.wilting)
    return "let the " + help.wilting->name + " wilt in the sun to about " + show_moisture(help.wilting->to) +
           " moisture before they go in: they lose " + show.water(help.wilting->water_lost);
  std::string text;
  for (const Addition& addition : help.additions) text += (text.empty() ? "" : "; and ") + addition_words(addition, materials, show);
  constexpr double splash = 0.5;
  if (help.water_to_add.value() < splash) return text;
  return text + (text.empty() ? "water: " : ", with ") + show.water(help.water_to_add) + (text.empty() ? " in all" : " of water in all");
}

/// Alone so far off that it is no heap to build as it is.
bool is_far_off(const Recipe& recipe) {
  const bool off = recipe.status == RecipeStatus::nearest || recipe.status == RecipeStatus::no_size;
  return off && recipe.mix && told(recipe).distance_from_aim > nearly;
}

std::string help_heading(const Recipe& recipe) {
  const std::string any = recipe.what_would_help.size() == 1 ? "\n" : ": any one of these\n";
  if (is_far_off(recipe)) return "Mix in what it lacks" + any;
  if (recipe.status == RecipeStatus::on_target) return "What would let all of it go in, just inside the range" + any;
  return (recipe.status == RecipeStatus::not_enough ? "What is missing" : "What would set it right") + any;
}

std::string help_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  const bool will_do = recipe.status == RecipeStatus::nearest && told(recipe).distance_from_aim <= nearly;
  const bool may_go_in =
      recipe.status == RecipeStatus::on_target && recipe.everything_in && recipe.everything_in->distance_from_aim <= as_good;
  if (recipe.what_would_help.empty() || will_do || may_go_in) return {};
  constexpr std::size_t most_ways = 6;
  std::string text = "\n" + help_heading(recipe);
  for (std::size_t i = 0; i < std::min(most_ways, recipe.what_would_help.size()); ++i)
    text += item(one_help_words(recipe.what_would_help[i], materials, show));
  const std::optional<Volume>& capacity = recipe.wishes.capacity;
  const Mix& helped = recipe.what_would_help.front().mix;
  if (capacity && helped.volume && *helped.volume > *capacity)
    text += wrap("All of it wants room for " + show.volume(*helped.volume) + ".");
  const auto is_dose = [](const Help& help) { return !help.additions.empty() && help.additions.front().is_supplement; };
  if (std::any_of(recipe.what_would_help.begin(), recipe.what_would_help.end(), is_dose))
    text += wrap(
        "Of urea or a meal put in half to two thirds first, watered in, and see whether it heats (Cornell, Use of Fertilizer Nitrogen).");
  return text;
}

std::string everything_in_text(const Recipe& recipe, const Show& show) {
  if (!recipe.everything_in) return {};
  const EverythingIn& all = *recipe.everything_in;
  // With bought things, supplements or unlimited ones beside them, "everything" would say little.
  const bool others_go_in = std::any_of(recipe.amounts.begin(), recipe.amounts.end(), [&](const RecipeAmount& amount) {
    const bool sparing = amount.feedstock_class == FeedstockClass::supplement || amount.feedstock_class == FeedstockClass::mineral;
    return recipe.mix && goes_in(amount, *recipe.mix) && (sparing || !amount.left_over);
  });
  const bool same = others_go_in || (recipe.mix && std::abs(all.mix.dry.value() / recipe.mix->dry.value() - 1.0) < 1e-3);
  if (same) return {};
  std::string text =
      "If everything went in: " + ratio_of(all.mix) + (all.mix.moisture ? ", " + show_moisture(*all.mix.moisture) + " moist" : "");
  if (all.water_to_add.value() >= 0.5) text += " with " + show.water(all.water_to_add) + " of water";
  const std::string end = all.distance_from_aim <= as_good ? "still about in balance, at the edge of the range. You may put it all in."
                                                           : character(all.mix, recipe.targets) + ".";
  return "\n" + wrap(text + ": " + end, 2);
}

/// What else to do with a lone heap of one kind, where nothing is mixed in.
std::string otherwise_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  const Mix& mix = told(recipe).mix;
  const auto& window = recipe.targets.carbon_to_nitrogen;
  const bool brown = mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen > window.high;
  const bool wet = mix.moisture && *mix.moisture > recipe.targets.moisture.high;
  const bool green = mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen < window.low;
  const std::string heading = recipe.what_would_help.empty() ? "\nWhat to do with it\n" : "\nOr, without them\n";
  if (wet || green) return heading + advice_text(recipe, materials);
  if (brown) return heading + advice_text(recipe, materials) + "For a slow heap by itself\n" + ingredients_text(recipe, materials, show);
  return "\nThe nearest to a good heap\n" + ingredients_text(recipe, materials, show);
}

std::string headline(const Recipe& recipe, const Show& show) {
  switch (recipe.status) {
    case RecipeStatus::on_target: return "Put in the heap\n";
    case RecipeStatus::nearest: {
      if (told(recipe).distance_from_aim <= nearly) return "This comes out a little off the range, and will work.\n\nPut in the heap\n";
      return wrap("As it is this comes out " + character(told(recipe).mix, recipe.targets) + ".");
    }
    case RecipeStatus::not_enough:
      if (!recipe.mix)
        return wrap("That alone makes no heap: it is only an addition, or none of it. Say what else there is: leaves, clippings, scraps.");
      return wrap("There is not enough for a heap of " + show.volume(*recipe.wishes.fill) + ": " + show.volume(*recipe.missing) +
                  " is missing.") +
             "\nThe largest good heap\n";
    case RecipeStatus::limits_clash:
      return wrap(
          "These limits cannot all be kept: what must go in, the largest shares and the room there is contradict each other. Take one "
          "away, or let one be \"up-to\".");
    case RecipeStatus::no_size:
      if (recipe.additions_only)
        return wrap("That alone makes no heap: it is only an addition, or none of it. Say what else there is: leaves, clippings, scraps.");
      if (recipe.proportion) return wrap("Mix by volume: " + parts_words(*recipe.proportion)) + "\nSo, for one small batch\n";
      if (recipe.mix)
        return wrap("As it is this comes out " + character(*recipe.mix, recipe.targets) + ". The amounts are for each " +
                    show.volume(recipe.amounts.front().volume) + ": say how much there is, --have \"leaves=20 bags\".");
      return wrap(
          "How big a heap? Say how much there is of something (--have \"leaves=20 bags\"), or how big a heap you want (--fill \"1 yd3\").");
    case RecipeStatus::nothing_on_hand:
      return wrap("Nothing is on hand. Say what there is: --have \"leaves=20 bags\", or [[supply]] in the yard file.");
  }
  return {};
}

/// Something bought that comes by weight: nobody knows its bags.
bool by_the_part(const Told& heap) {
  return std::any_of(heap.amounts.begin(), heap.amounts.end(),
                     [](const RecipeAmount& amount) { return amount.bought && !amount.containers && amount.mass.value() > 0.0; });
}

/// @param room a line on whether it fits, where bins are described
std::string recipe_body(const Recipe& recipe, const Materials& materials, const Show& show, const std::string& room = {}) {
  std::string text = headline(recipe, show);
  if (!recipe.mix) return text + left_out_text(recipe);
  const bool far_off = is_far_off(recipe);
  text +=
      far_off ? help_text(recipe, materials, show) + otherwise_text(recipe, materials, show) : ingredients_text(recipe, materials, show);
  const Told heap = told(recipe);
  text += (far_off ? "\nWhat it makes as it is\n" : "\nWhat it makes\n") + figures_of(heap.mix, recipe.targets, show) + room;
  const bool to_be_built = !far_off && recipe.status != RecipeStatus::no_size;
  if (to_be_built && room.empty() && !is_enough_to_heat(*heap.mix.volume))
    text += wrap("  So small a heap hardly heats: it rots all the same, but slowly. Keep adding, to a cubic yard.", 2);
  text += on_the_figures(heap.mix);
  if (heap.cost > 0.0)
    text += "  cost       " + print_number(std::round(100.0 * heap.cost) / 100.0, 6) + " in your money" +
            (by_the_part(heap) ? ", by the part of a unit" : "") + "\n";
  if (recipe.wishes.goal == Goal::cheapest && !recipe.wishes.fill)
    text += wrap("  (The cheapest heap is a small one: say how big a heap you want, fill = \"2 yd3\".)", 2);
  if (recipe.next_dearer)
    text += "  For " + print_number(std::round(100.0 * recipe.next_dearer->cost) / 100.0, 6) + " it could be much nearer the aim.\n";
  text += left_out_text(recipe);
  text += left_over_text(recipe, materials, show);
  text += held_back_text(recipe);
  text += everything_in_text(recipe, show);
  if (!far_off) text += help_text(recipe, materials, show);
  text += as_it_comes_text(recipe, materials, show);
  return text;
}

std::string times_words(int times) { return times == 1 ? "once a year" : std::to_string(times) + " times a year"; }

std::string months_words(const TopdressingPlan& plan) {
  std::string text;
  for (const auto month : plan.months) text += (text.empty() ? "" : ", ") + std::string(month_name(month));
  return text;
}

/// Bags as they are sold in the units asked for.
std::string bags_words(Volume volume, const Materials& materials, const Show& show) {
  const Container* bag = find_container(materials.containers, show.in_us_units() ? "compost-bag-1ft3" : "compost-bag-40l");
  if (bag == nullptr) return {};
  return show_count(std::ceil((volume / bag->volume).value() - 1e-9), "bag") + " of " + (show.in_us_units() ? "1 cubic foot" : "40 L");
}

std::string topdressing_body(const Topdressing& topdressing, const Materials& materials, const Show& show) {
  std::string text = wrap("Spread " + show.volume(topdressing.volume_with_allowance) + " of screened compost over " +
                          show.area(topdressing.area) + ", " + show.depth(topdressing.depth) + " deep.");
  std::vector<std::vector<std::string>> rows;
  if (topdressing.lawn.zones.size() > 1) {
    for (const Zone& zone : topdressing.lawn.zones) {
      rows.push_back({zone.name, show.area(zone.area), show.volume(Volume(zone.area * zone.depth.value_or(topdressing.plan.depth)))});
    }
  }
  text += columns(rows);
  const std::string bags = bags_words(topdressing.volume_with_allowance, materials, show);
  const std::string loads = show_count(std::ceil(topdressing.wheelbarrow_loads), "wheelbarrow load");
  const auto line = [](const std::string& what, const std::string& words) { return wrap("  " + padded(what, 14) + " " + words, 17); };
  text += line("on the ground", show.volume(topdressing.volume));
  text += line("with " + show_percent(topdressing.plan.allowance.value()) + " more",
               show.volume(topdressing.volume_with_allowance) + " for overlap and lumps: " + loads + (bags.empty() ? "" : ", or " + bags));
  if (topdressing.mass_kg)
    text += line("it weighs", show.mass_range(topdressing.mass_kg->low, topdressing.mass_kg->high) + ", moist or dry: order by volume");
  const std::string months = months_words(topdressing.plan);
  const bool again = topdressing.plan.surface == Surface::lawn;
  if (again)
    text +=
        line(times_words(topdressing.times_a_year), (months.empty() ? "" : months + ", ") + show.volume(topdressing.per_year) + " in all");
  if (topdressing.plan.near_water)
    text += wrap("Keep back from the pond, stream or drain: ask your county how far. Sweep up what lands on pavement.");
  if (topdressing.deep) text += wrap("More than 3/8 in at once can smother a low or thin lawn: two thinner dressings are safer.");
  return text;
}

/// What to do with the heap once it stands.
std::string care_text(const Plan& plan, const Show& show) {
  if (!plan.recipe.mix || !plan.heap) return {};
  const std::optional<Duration>& turn = plan.heap->turn_every;
  const std::string squeeze = "squeeze a handful: it should clump and not drip. Water it if it crumbles, add dry browns if it drips.";
  const std::string done = "it is done when it is dark and crumbly, smells of earth, and no longer warms up after turning";
  if (!turn) return "\nThen\n" + item("leave it: unturned it gets done too, only later; now and then " + squeeze) + item(done);
  return "\nThen\n" + item("turn it every " + show.days(*turn) + ", and " + squeeze) + item(done);
}

std::string supply_text(const Plan& plan, const Show& show) {
  const SupplyBalance& supply = plan.supply;
  std::string text = "\nThe compost\n";
  if (supply.own_compost) {
    const CompostYield& own = *supply.own_compost;
    text += wrap("  Done and screened, the heap leaves about " + show.volume(own.likely) + ", from " +
                     show.volume_range(own.low, own.high) + ": about half the dry matter rots away and the rest packs down.",
                 2);
  }
  if (!supply.needed) return text + wrap("  No lawn is measured: add [[lawn.zone]] to see how far it goes.", 2);
  text += wrap("  The lawn takes " + show.volume(*supply.needed) + " a year.", 2);
  if (supply.to_buy->value() > 0.0) {
    text += wrap("  To buy, if you want to dress all of it: about " + show.volume(*supply.to_buy) + " of screened compost.", 2);
  } else {
    text += wrap("  That is enough: nothing to buy.", 2);
  }
  const std::optional<SoilTest>& soil = plan.topdressing->plan.soil_test;
  if (soil && soil->phosphorus_is_high())
    text += wrap("  Your soil test calls phosphorus \"" + soil->phosphorus +
                     "\", and compost brings more: ask your extension office before you spread any.",
                 2);
  return text;
}

// Materials.

template <class Quantity, class Words>
std::string reading_words(const Reading<Quantity>& reading, Words words) {
  std::string text = reading.typical ? words(*reading.typical) : "";
  if (reading.low && reading.high) {
    const std::string range = words(*reading.low) + " to " + words(*reading.high);
    text += text.empty() ? range : " (" + range + ")";
  } else if (reading.low) {
    text += (text.empty() ? "" : " (") + ("from " + words(*reading.low)) + (reading.typical ? ")" : "");
  } else if (reading.high) {
    text += (text.empty() ? "" : " (") + ("up to " + words(*reading.high)) + (reading.typical ? ")" : "");
  }
  return text;
}

template <class Quantity, class Words>
std::string readings_text(const std::string& heading, const Readings<Quantity>& readings, const Materials& materials, Words words,
                          bool is_used = true) {
  if (readings.empty()) return {};
  std::string text = heading + "\n";
  bool first = true;
  for (const Reading<Quantity>& reading : readings) {
    std::string line = "  " + std::string(is_used && first && reading.typical ? "* " : "  ") + padded(reading_words(reading, words), 22) +
                       "  " + source_words(materials, reading.source, reading.evidence);
    if (!reading.what.empty()) line += ": " + reading.what;
    if (!reading.note.empty()) line += "; " + reading.note;
    text += wrap(line, 6);
    first = false;
  }
  return text;
}

std::string percent_words(double fraction) { return print_number(100.0 * fraction, 3) + " %"; }

std::string class_in_words(FeedstockClass feedstock_class) {
  switch (feedstock_class) {
    case FeedstockClass::must_go: return "goes in first, it does not keep";
    case FeedstockClass::clippings: return "fresh, may stay on the lawn";
    case FeedstockClass::keeper: return "keeps if dry";
    case FeedstockClass::supplement: return "a nitrogen source, used sparingly";
    case FeedstockClass::mineral: return "mineral, used sparingly";
  }
  return {};
}

std::string names_text(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

/// A checked number as the file has it: a percentage, a ratio, or a bulk density.
std::string checked_words(const std::string& key, double value) {
  if (key == "carbon_to_nitrogen") return print_number(value, 3) + ":1";
  if (key.starts_with("bulk_density")) return Show(ShownUnits::us).density(bulk_density(value));
  return print_number(100.0 * value, 3) + " %";
}

}  // namespace

std::string text_of_mix(const MixAnswer& answer, const Targets& targets, const Materials& materials, const Show& show) {
  if (!answer.mix) return wrap("Nothing is on hand to mix. Say what there is: --add \"leaves=20 bags\", or [[supply]] in the yard file.");
  const Mix& mix = *answer.mix;
  std::string text = first_cautions_text(answer.cautions, materials) + wrap("This heap is " + character(mix, targets) + ".");
  text += figures_of(mix, targets, show);
  std::vector<std::vector<std::string>> rows;
  for (const MixPart& part : mix.parts)
    rows.push_back({part.name, show.mass(part.mass), part.volume ? show.volume(*part.volume) : "",
                    part.share ? show_percent(part.share->value()) + " of the volume" : ""});
  text += "\nIn it\n" + columns(rows);
  return text + assumptions_text(answer.assumptions, answer.measure_first, show) + working_text(answer.working) +
         cautions_text(answer.cautions, materials);
}

std::string text_of_recipe(const Recipe& recipe, const Materials& materials, const Show& show) {
  return first_cautions_text(recipe.cautions, materials) + recipe_body(recipe, materials, show) +
         assumptions_text(recipe.assumptions, recipe.measure_first, show) + working_text(recipe.working) +
         (recipe.pair && recipe.working ? text_of_pair(*recipe.pair, recipe.targets, show) : "") +
         cautions_text(recipe.cautions, materials);
}

std::string text_of_topdressing(const Topdressing& topdressing, const Materials& materials, const Show& show) {
  return topdressing_body(topdressing, materials, show) + assumptions_text(topdressing.assumptions, std::nullopt, show) +
         working_text(topdressing.working) + cautions_text(topdressing.cautions, materials);
}

std::string text_of_coverage(const Topdressing& covered, Volume volume, const Lawn& lawn, const Materials& materials, const Show& show) {
  const Area whole = area_of(lawn);
  const bool known = whole.value() > 0.0;
  std::string text = show.volume(volume) + " of compost covers about " + show.area(covered.covers) +
                     (known ? " of your " + show.area(whole) : "") + ", " + show.depth(covered.plan.depth) + " deep, with " +
                     show_percent(covered.plan.allowance.value()) + " for overlap and lumps.";
  if (known && whole > covered.covers)
    text += " You need " + show.volume(Volume(volume * ((whole - covered.covers) / covered.covers).value())) + " more.";
  if (known && whole <= covered.covers) text += " That is enough.";
  return wrap(text) + working_text(covered.working) + cautions_text(covered.cautions, materials);
}

std::string text_of_plan(const Plan& plan, const Materials& materials, const Show& show) {
  std::string text;
  if (!plan.title.empty()) text += plan.title + "\n" + std::string(width_of(plan.title), '=') + "\n\n";
  text += first_cautions_text(plan.cautions, materials);
  if (plan.has_supplies) text += recipe_body(plan.recipe, materials, show, plan.heap_answer ? text_of_room(*plan.heap_answer, show) : "");
  if (plan.has_supplies) text += care_text(plan, show);
  if (plan.has_supplies || plan.topdressing) text += supply_text(plan, show);
  if (!plan.has_supplies && !plan.topdressing)
    text += wrap(
        "There is nothing yet to build a heap of, and no lawn. Say what there is: [[supply]] and [[lawn.zone]] in the yard file, or "
        "`heapwright new` to be asked.");
  if (plan.topdressing) text += "\nThe lawn\n" + topdressing_body(*plan.topdressing, materials, show);
  return text + assumptions_text(plan.assumptions, plan.measure_first, show) + cautions_text(plan.cautions, materials);
}

std::string text_of_assumptions(const std::vector<Assumption>& assumptions, const std::optional<Measurement>& first, const Show& show) {
  return assumptions_text(assumptions, first, show);
}

std::string text_of_cautions(const std::vector<std::string>& ids, const Materials& materials) { return cautions_text(ids, materials); }

std::string text_of_first_cautions(const std::vector<std::string>& ids, const Materials& materials) {
  return first_cautions_text(ids, materials);
}

std::string text_of_feedstocks(const Materials& materials, const Show& show) {
  const std::string per = show.density_unit();
  const auto weight = [&](std::optional<BulkDensity> density) { return density ? show.density_number(*density) : std::string("-"); };
  std::vector<std::vector<std::string>> rows{{"id", "C:N", "moist", per, "what it is"}};
  for (const Feedstock& feedstock : materials.feedstocks) {
    const auto ratio = feedstock.used_carbon_to_nitrogen();
    const auto moisture = used(feedstock.moisture);
    const auto density = feedstock.density();
    const std::vector<std::string> lacks = feedstock.lacks();
    rows.push_back({feedstock.id, ratio ? show_ratio(*ratio) : "-", moisture ? show_moisture(*moisture) : "-", weight(density),
                    feedstock.name + (lacks.empty() ? "" : " (incomplete)")});
  }
  std::string text = columns(rows) + "\nFinished composts, " + per + "\n";
  rows.clear();
  for (const Compost& compost : materials.composts) rows.push_back({compost.id, weight(used(compost.bulk_density)), compost.name});
  text += columns(rows) + "\nContainers\n";
  rows.clear();
  for (const Container& container : materials.containers) rows.push_back({container.id, show.volume(container.volume), container.name});
  text += columns(rows) + "\nWhat stays out of a heap\n";
  rows.clear();
  for (const KeepOut& row : materials.keep_out) rows.push_back({row.name, row.instead});
  return text + columns(rows) + "\n" + wrap("`heapwright materials ID` shows one in full, with whose figures they are.");
}

std::string text_of_feedstock(const Feedstock& feedstock, const Materials& materials, const Show& show) {
  std::string text = feedstock.id + ": " + feedstock.name + " (" + class_in_words(feedstock.feedstock_class) + ")\n";
  if (!feedstock.also.empty()) text += wrap("also called " + names_text(feedstock.also), 2);
  if (!feedstock.note.empty()) text += wrap(feedstock.note);
  const std::vector<std::string> lacks = feedstock.lacks();
  if (!lacks.empty()) text += wrap("It cannot be mixed: we found no published " + names_text(lacks) + ".");
  text += lacks.size() == 4 ? "\n" : "The figure with a star is the one used.\n\n";
  text += readings_text("moisture, wet basis", feedstock.moisture, materials, [](MoistureWetBasis m) { return percent_words(m.value()); });
  text += readings_text("carbon, of dry matter", feedstock.carbon, materials, [](CarbonDryBasis c) { return percent_words(c.value()); });
  text +=
      readings_text("C:N ratio", feedstock.carbon_to_nitrogen, materials, [](CarbonNitrogenRatio r) { return print_number(r.value(), 3); });
  const bool nitrogen_follows = feedstock.used_carbon() && used(feedstock.carbon_to_nitrogen);
  text += readings_text(
      nitrogen_follows
          ? "nitrogen, of dry matter, to compare (" + percent_words(feedstock.used_nitrogen()->value()) + " follows from carbon and C:N)"
          : "nitrogen, of dry matter",
      feedstock.nitrogen, materials, [](NitrogenDryBasis n) { return percent_words(n.value()); }, !nitrogen_follows);
  text += readings_text("organic matter, of dry matter", feedstock.volatile_solids, materials,
                        [](OrganicMatterDryBasis v) { return percent_words(v.value()); });
  text += readings_text("ash, of dry matter", feedstock.ash, materials, [](ShareOfDryMatter a) { return percent_words(a.value()); });
  for (const Packing& packing : feedstock.packings) {
    const std::string usual = packing.name == feedstock.usual_packing ? ", the usual packing" : "";
    text += readings_text("weight, " + packing.name + usual, packing.readings, materials, [&](BulkDensity d) { return show.density(d); });
  }
  return text;
}

std::string text_of_compost(const Compost& compost, const Materials& materials, const Show& show) {
  std::string text = compost.id + ": " + compost.name + " (finished compost)\n";
  if (!compost.also.empty()) text += wrap("also called " + names_text(compost.also), 2);
  if (!compost.note.empty()) text += wrap(compost.note);
  text += "The figure with a star is the one used.\n\n";
  text += readings_text("moisture, wet basis", compost.moisture, materials, [](MoistureWetBasis m) { return percent_words(m.value()); });
  text += readings_text("weight", compost.bulk_density, materials, [&](BulkDensity d) { return show.density(d); });
  text +=
      readings_text("C:N ratio", compost.carbon_to_nitrogen, materials, [](CarbonNitrogenRatio r) { return print_number(r.value(), 3); });
  text += readings_text("organic matter, of dry matter", compost.organic_matter, materials,
                        [](OrganicMatterDryBasis v) { return percent_words(v.value()); });
  text +=
      readings_text("nitrogen, of dry matter", compost.nitrogen, materials, [](NitrogenDryBasis n) { return percent_words(n.value()); });
  text += readings_text("phosphate (P2O5), of dry matter", compost.phosphate, materials,
                        [](PhosphateDryBasis p) { return percent_words(p.value()); });
  text +=
      readings_text("potash (K2O), of dry matter", compost.potash, materials, [](PotashDryBasis p) { return percent_words(p.value()); });
  return text;
}

std::string text_of_sources(const Materials& materials) {
  std::string text;
  for (const Source& source : materials.sources) {
    text += wrap(padded(source.id, 22) + "  " + source.title + (source.note.empty() ? "" : " [" + source.note + "]"), 24);
  }
  return text;
}

std::string text_of_check(const std::vector<CheckedFeedstock>& checked) {
  std::string text;
  for (const CheckedFeedstock& row : checked) {
    text += (text.empty() ? "" : "\n") + row.id + ", held against " + row.like + "\n";
    for (const CheckedValue& value : row.values) {
      const std::string range = value.low ? checked_words(value.key, *value.low) + " to " + checked_words(value.key, *value.high) : "";
      const std::string verdict = !value.inside   ? "no published figure to hold it against"
                                  : *value.inside ? "inside " + range
                                                  : "OUTSIDE " + range;
      text += wrap("  " + value.key + " " + checked_words(value.key, value.value) + ": " + verdict +
                       (value.whose.empty() ? "" : " (" + value.whose + ")"),
                   4);
      if (value.slip)
        text += wrap("    Likely slip: this is " + std::string(slip_words(*value.slip)) + ". It would be " +
                         checked_words(value.key, *value.meant) + ".",
                     4);
    }
    if (row.disagree) text += wrap("  carbon over nitrogen is not the C:N that is given: give two of the three, or three that agree", 4);
  }
  return text;
}

}  // namespace heapwright
