#include <algorithm>
#include <cmath>

#include "heapwright/input/words.hpp"
#include "heapwright/pile/pile.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double as_good = 1.1;  // as inside: a C:N of 36

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
  std::string text = "\nNot for the pile\n";
  for (const LeftOut& left : recipe.left_out) text += item(left_out_words(left));
  return text;
}

}  // namespace

std::string own_measure(const RecipeAmount& amount, const std::optional<ContainerCount>& containers, Volume volume,
                        const Materials& materials, const Show& show) {
  if (!containers && amount.counted_by_mass && amount.volume.value() > 0.0)
    return show.mass(Mass(amount.mass * (volume / amount.volume).value()));
  return show_amount(containers, volume, materials, show);
}

namespace {

std::vector<std::string> amount_row(const RecipeAmount& amount, const Materials& materials, const Show& show) {
  constexpr double countable = 0.25;
  if (amount.containers && amount.containers->count < countable) return {show.mass(amount.mass), amount.name, show.volume(amount.volume)};
  std::string rest = amount.counted_by_mass ? show.volume(amount.volume)
                                            : show.mass(amount.mass) + (amount.containers ? ", " + show.volume(amount.volume) : "");
  if (amount.bought) rest += "; to buy";
  const bool all = amount.left_over && !is_left(amount);
  if (amount.keeps) {
    rest += "; fresh, at most " + show.days(*amount.keeps) + " old";
  } else if (all) {
    rest += "; all of it";
  }
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
  const Told pile = told(recipe);
  std::vector<std::vector<std::string>> rows;
  for (const RecipeAmount& amount : pile.amounts) {
    if (goes_in(amount, pile.mix)) rows.push_back(amount_row(amount, materials, show));
  }
  std::string text = columns(rows);
  constexpr double splash = 0.1;
  constexpr double shown = 0.005;
  const bool dry = pile.mix.moisture && pile.mix.moisture->value() < recipe.targets.moisture.low.value() - shown;
  if (pile.water_to_add.value() >= splash) {
    text += wrap("  Water: " + water_words(pile.water_to_add, materials, show) + ", a little on each layer as you build.", 4);
  } else if (!dry) {
    const bool none_wanted = recipe.wishes.most_water || recipe.wishes.goal == Goal::least_water;
    text += none_wanted ? "  No water, as you asked.\n" : "  No water: it is wet enough as it is.\n";
  } else {
    text += recipe.wishes.most_water ? "  It stays too dry: it wants more water than there is.\n" : "  Wet it a little as you build.\n";
  }
  if (recipe.status != RecipeStatus::on_target) return text;
  if (!recipe.whole_containers) return text + wrap("  Weigh it: whole containers do not come near enough.", 2);
  if (!recipe.whole_containers->inside) text += wrap("  In whole containers this is the nearest; weighed out it could come right.", 2);
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

/// "Apr to Oct", "Apr", or "Apr, Oct" where none comes in between.
std::string months_of(const Season& season) {
  const std::string from(month_name(season.months.front()));
  if (season.months.size() == 1) return from;
  if (season.is_one_run()) return from + " to " + std::string(month_name(season.months.back()));
  std::string list;
  for (const std::chrono::month m : season.months) list += (list.empty() ? "" : ", ") + std::string(month_name(m));
  return list;
}

/// "each mowing, Apr to Oct: ", "each week: ", and of a load whose season nobody told "each time: ".
std::string each_time(const Card& card, const Materials& materials) {
  const bool mown = find_feedstock(materials, card.greens.id).has_tag("grassy");
  return (mown                ? "each mowing"
          : card.greens.keeps ? "each week"
                              : "each time") +
         (card.season ? ", " + months_of(*card.season) : "") + ": ";
}

/// What goes with each load of greens as it comes.
std::string cards_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  std::string text;
  for (const Card& card : recipe.cards) {
    std::string line = each_time(card, materials) + so_much_of(card.greens, materials, show);
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
  return {};
}

std::string feeding_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  if (recipe.cards.empty() || recipe.status == RecipeStatus::no_size) return {};
  std::string text = "\nAs more comes\n" + cards_text(recipe, materials, show);
  if (!recipe.feeding)
    return text + item("the browns that are left now do not last a week so: get more first, or leave clippings on the lawn");
  if (recipe.feeding->browns_run_out)
    text += item("the browns that are left now last so to about " + about_when(recipe.feeding->until) + ": get more by then");
  return text;
}

/// What sets the size, in the words of the person.
std::string size_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  if (!recipe.size_set_by) return {};
  const SizeSetBy& size = *recipe.size_set_by;
  constexpr double rounding = 1.0 + 1e-6;
  const bool overfull = recipe.room && *told(recipe).mix.volume > rounding * *recipe.room;
  const std::string but =
      overfull ? ", but there is room for " + show.volume(*recipe.room) + ": the rest goes on as it sinks, or makes a second pile" : "";
  switch (size.from) {
    case SizeFrom::fill: return "as you asked" + but;
    case SizeFrom::capacity: return "the limit that you gave sets it";
    case SizeFrom::room: return "the room there is sets it";
    case SizeFrom::fixed: return "what must go in sets it" + but;
    case SizeFrom::water: return "what water there is sets it";
    case SizeFrom::goal: return "the goal sets it: \"" + std::string(goal_word(recipe.wishes.goal)) + "\" takes no more";
    case SizeFrom::on_hand: break;
  }
  constexpr std::size_t most_named = 3;
  std::vector<std::string> names;
  for (const std::string& id : size.feedstocks) {
    const std::string& name = find_feedstock(materials, id).name;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  if (names.empty() || names.size() > most_named) return "what is on hand sets it" + but;
  std::string text = "what there is of ";
  for (std::size_t i = 0; i < names.size(); ++i) text += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return text + " sets it" + but;
}

/// Where clippings and the like are that are not there today, or not all of them.
std::string not_today_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  std::string text;
  for (const NotToday& one : recipe.not_today) {
    const bool grassy = find_feedstock(materials, one.id).has_tag("grassy");
    const std::string season = one.season ? " come " + months_of(*one.season) + " and" : "";
    const bool some = one.share_on_hand > 0.0;
    const std::string there = some ? "only " + print_number(100.0 * one.share_on_hand, 2) + " % of a year's are" : "none are";
    const std::string what = one.bought ? "Get them when they come"
                             : !grassy  ? std::string(some ? "The others" : "They") + " go on as they come"
                             : some     ? "Leave the others on the lawn, or put them on as they come"
                                        : "Leave them on the lawn, or build right after a mowing";
    text += item(one.name + ":" + season + " keep " + show.days(one.keeps) + ", so " + there + " there on the day. " + what);
  }
  return text.empty() ? "" : "\nNot today\n" + text;
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
        return "leaves: keep them dry for greens to come, or pile them up moist by themselves: leaf mold in a year or two";
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
    const bool none = amount.left_over && !((amount.volume + *amount.left_over).value() > 0.0);
    const std::string words = none ? std::string() : advice_for_left_over(find_feedstock(materials, amount.id));
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
    left.count = std::max(0.0, to_the_half(left.count + amount.containers->count) - to_the_half(amount.containers->count));
  return show_amount(left, *amount.left_over, materials, show);
}

/// What there is, or can be bought, as much of as is wanted, and none is.
std::string not_needed_text(const Recipe& recipe) {
  std::string names;
  for (const RecipeAmount& amount : told(recipe).amounts) {
    if (!amount.left_over && !goes_in(amount, *recipe.mix)) names += (names.empty() ? "" : ", ") + amount.name;
  }
  return names.empty() ? "" : "\nNot needed today\n" + wrap("  " + names, 2);
}

std::string left_over_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  std::vector<std::vector<std::string>> rows;
  std::string advice;
  for (const RecipeAmount& amount : told(recipe).amounts) {
    if (!is_left(amount)) continue;
    rows.push_back({left_over_measure(amount, materials, show), amount.name});
    const std::string words = advice_for_left_over(find_feedstock(materials, amount.id));
    if (!words.empty() && advice.find(words) == std::string::npos) advice += item(words);
  }
  if (rows.empty()) return {};
  const bool full = recipe.size_set_by && recipe.size_set_by->from == SizeFrom::room;
  if (full) advice = item("as the pile sinks, top it up with the same mix; or start a second one") + advice;
  return (full ? "\nDoes not fit today\n" : "\nLeft over\n") + columns(rows) + advice;
}

/// Of what there is too little.
std::string amount_words(const std::string& id, const Recipe& recipe) {
  const auto found =
      std::find_if(recipe.amounts.begin(), recipe.amounts.end(), [&](const RecipeAmount& amount) { return amount.id == id; });
  if (found == recipe.amounts.end()) return id + ": there is no more";
  return found->name + (found->mass.value() > 0.0 ? ": there is no more" : ": there is none today");
}

bool greens_are_left(const Recipe& recipe) {
  const Told pile = told(recipe);
  return std::any_of(pile.amounts.begin(), pile.amounts.end(), [](const RecipeAmount& amount) {
    const bool green = amount.feedstock_class == FeedstockClass::clippings || amount.feedstock_class == FeedstockClass::must_go;
    return green && is_left(amount);
  });
}

/// With bought things, supplements or unlimited ones beside it, "everything" would say little.
bool others_go_in(const Recipe& recipe) {
  return std::any_of(recipe.amounts.begin(), recipe.amounts.end(), [&](const RecipeAmount& amount) {
    return recipe.mix && goes_in(amount, *recipe.mix) && (is_sparing(amount.feedstock_class) || !amount.left_over);
  });
}

/// Off the range for nothing but its size.
bool is_too_small(const Recipe& recipe) {
  return recipe.status == RecipeStatus::nearest && recipe.held_back_by.size() == 1 && recipe.held_back_by.front().limit == Limit::capacity;
}

std::string held_back_words(const HeldBack& held, const Recipe& recipe) {
  const bool tells = recipe.everything_in && !others_go_in(recipe);
  const Mix* all = tells ? &recipe.everything_in->mix : recipe.mix ? &*recipe.mix : nullptr;
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
      const bool limited = recipe.wishes.most_water || recipe.wishes.goal == Goal::least_water;
      return wet       ? "wet: all of it together would be too wet"
             : limited ? "dry: all of it together would want more water than you allow"
                       : "dry: all of it together would want more water";
    }
    case Limit::air_space: return "air: it would pack down";
    case Limit::share: return "the largest share that you allow of something";
    case Limit::amount: return amount_words(held.feedstock.value_or(""), recipe);
    case Limit::capacity: {
      const bool asked = recipe.size_set_by && recipe.size_set_by->from == SizeFrom::fill;
      return (asked ? "size: the pile is as big as you asked" : "room: the pile is full") +
             std::string(is_too_small(recipe) ? ", and too small for what must go in" : "");
    }
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

/// Alone so far off that it is no pile to build as it is.
bool is_far_off(const Recipe& recipe) {
  const bool off = recipe.status == RecipeStatus::nearest || recipe.status == RecipeStatus::no_size;
  return off && recipe.mix && told(recipe).distance_from_aim > hardly_off;
}

std::string help_heading(const Recipe& recipe) {
  const std::string any = recipe.what_would_help.size() == 1 ? "\n" : ": any one of these\n";
  if (is_far_off(recipe)) return "Mix in what it lacks" + any;
  if (recipe.status == RecipeStatus::on_target) return "What would let all of it go in, just inside the range" + any;
  return (recipe.status == RecipeStatus::not_enough ? "What is missing" : "What would set it right") + any;
}

/// The most that a pile may take up, where there is a limit.
std::optional<Volume> room_for(const Recipe& recipe) {
  const std::optional<Volume>& capacity = recipe.wishes.capacity;
  return recipe.room && capacity ? std::min(*recipe.room, *capacity) : recipe.room ? recipe.room : capacity;
}

std::string help_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  const bool will_do = recipe.status == RecipeStatus::nearest && told(recipe).distance_from_aim <= hardly_off;
  const bool may_go_in =
      recipe.status == RecipeStatus::on_target && recipe.everything_in && recipe.everything_in->distance_from_aim <= as_good;
  if (recipe.what_would_help.empty() || will_do || may_go_in) return {};
  const std::optional<Volume> limit = room_for(recipe);
  const Volume helped = *recipe.what_would_help.front().mix.volume;
  const bool fits = !limit || helped <= *limit;
  if (!fits && recipe.status == RecipeStatus::on_target) return {};  // nothing would let all of it go in
  constexpr std::size_t most_ways = 6;
  std::string text = "\n" + help_heading(recipe);
  for (std::size_t i = 0; i < std::min(most_ways, recipe.what_would_help.size()); ++i)
    text += item(one_help_words(recipe.what_would_help[i], materials, show));
  if (!fits) text += wrap("All of it wants room for " + show.volume(helped) + ".");
  const auto is_dose = [](const Help& help) { return !help.additions.empty() && help.additions.front().is_supplement; };
  if (std::any_of(recipe.what_would_help.begin(), recipe.what_would_help.end(), is_dose))
    text += wrap(
        "Of urea or a meal put in half to two thirds first, watered in, and see whether it heats (Cornell, Use of Fertilizer Nitrogen).");
  return text;
}

std::string everything_in_text(const Recipe& recipe, const Show& show) {
  if (!recipe.everything_in) return {};
  const EverythingIn& all = *recipe.everything_in;
  const bool same = others_go_in(recipe) || (recipe.mix && std::abs(all.mix.dry.value() / recipe.mix->dry.value() - 1.0) < 1e-3);
  if (same) return {};
  std::string text =
      "If everything went in: " + ratio_of(all.mix) + (all.mix.moisture ? ", " + show_moisture(*all.mix.moisture) + " moist" : "");
  if (all.water_to_add.value() >= 0.5) text += " with " + show.water(all.water_to_add) + " of water";
  const std::optional<Volume> limit = room_for(recipe);
  const bool fits = !limit || *all.mix.volume <= *limit;
  const std::string end = !fits                              ? "more than the room there is."
                          : all.distance_from_aim <= as_good ? "still about in balance, at the edge of the range. You may put it all in."
                                                             : character(all.mix, recipe.targets) + ".";
  return "\n" + wrap(text + ": " + end, 2);
}

/// What else to do with a lone pile of one kind, where nothing is mixed in.
std::string otherwise_text(const Recipe& recipe, const Materials& materials, const Show& show) {
  const Mix& mix = told(recipe).mix;
  const auto& window = recipe.targets.carbon_to_nitrogen;
  const bool brown = mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen > just_above(window.high);
  const bool wet = mix.moisture && *mix.moisture > just_above(recipe.targets.moisture.high);
  const bool green = mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen < just_below(window.low);
  const std::string heading = recipe.what_would_help.empty() ? "\nWhat to do with it\n" : "\nOr, without them\n";
  if (wet || green)
    return heading + advice_text(recipe, materials) + "\nThe nearest to a good pile as it is\n" + ingredients_text(recipe, materials, show);
  if (brown) return heading + advice_text(recipe, materials) + "For a slow pile by itself\n" + ingredients_text(recipe, materials, show);
  return "\nThe nearest to a good pile\n" + ingredients_text(recipe, materials, show);
}

std::string headline(const Recipe& recipe, const Show& show) {
  switch (recipe.status) {
    case RecipeStatus::on_target: return "Put in the pile\n";
    case RecipeStatus::nearest: {
      if (told(recipe).distance_from_aim <= hardly_off) return "This comes out a little off the range, and will work.\n\nPut in the pile\n";
      return wrap("As it is this comes out " + character(told(recipe).mix, recipe.targets) + ".");
    }
    case RecipeStatus::not_enough:
      if (!recipe.mix)
        return wrap("That alone makes no pile: it is only an addition, or none of it. Say what else there is: leaves, clippings, scraps.");
      return wrap("There is not enough for a pile of " + show.volume(*recipe.wanted) + ": " + show.volume(*recipe.missing) +
                  " is missing.") +
             "\nThe largest good pile\n";
    case RecipeStatus::limits_clash:
      return wrap(
          "These limits cannot all be kept: what must go in, the largest shares and the room there is contradict each other. Take one "
          "away, or let one be \"up-to\".");
    case RecipeStatus::no_size:
      if (recipe.additions_only)
        return wrap("That alone makes no pile: it is only an addition, or none of it. Say what else there is: leaves, clippings, scraps.");
      if (recipe.proportion) return wrap("Mix by volume: " + parts_words(*recipe.proportion)) + "\nSo, for one small batch\n";
      if (recipe.mix)
        return wrap("As it is this comes out " + character(*recipe.mix, recipe.targets) + ". The amounts are for each " +
                    show.volume(*recipe.example) + ": say how much there is, --have \"leaves=20 bags\".");
      return wrap(
          "How big a pile? Say how much there is of something (--have \"leaves=20 bags\"), or how big a pile you want (--fill \"1 yd3\").");
    case RecipeStatus::nothing_on_hand:
      return wrap("Nothing is on hand. Say what there is: --have \"leaves=20 bags\", or [[supply]] in the yard file.");
  }
  return {};
}

/// Something bought that comes by weight: nobody knows its bags.
bool by_the_part(const Told& pile) {
  return std::any_of(pile.amounts.begin(), pile.amounts.end(),
                     [](const RecipeAmount& amount) { return amount.bought && !amount.containers && amount.mass.value() > 0.0; });
}

}  // namespace

std::string text_of_recipe_body(const Recipe& recipe, const Materials& materials, const Show& show, const std::string& room) {
  std::string text = headline(recipe, show);
  if (!recipe.mix) return text + left_out_text(recipe) + not_today_text(recipe, materials, show);
  const bool far_off = is_far_off(recipe);
  text +=
      far_off ? help_text(recipe, materials, show) + otherwise_text(recipe, materials, show) : ingredients_text(recipe, materials, show);
  const Told pile = told(recipe);
  text += (far_off ? "\nWhat it makes as it is\n" : "\nWhat it makes\n") + figures_of(pile.mix, recipe.targets, show) + room;
  const std::string size = size_text(recipe, materials, show);
  if (!size.empty()) text += wrap("  size       " + size, 13);
  const bool to_be_built = !far_off && recipe.status != RecipeStatus::no_size;
  if (to_be_built && room.empty() && !is_enough_to_heat(*pile.mix.volume))
    text += wrap("  So small a pile hardly heats: it rots all the same, but slowly. Keep adding, to a cubic yard.", 2);
  text += text_on_the_figures(pile.mix);
  if (pile.cost > 0.0)
    text += "  cost       " + print_number(std::round(100.0 * pile.cost) / 100.0, 6) + " in your money" +
            (by_the_part(pile) ? ", by the part of a unit" : "") + "\n";
  if (pile.cost > 0.0 && recipe.wishes.goal == Goal::cheapest && !recipe.wishes.fill)
    text += wrap("  (The cheapest pile that takes something bought is a small one: say how big a pile you want, fill = \"2 yd3\".)", 2);
  if (recipe.next_dearer)
    text += "  For " + print_number(std::round(100.0 * recipe.next_dearer->cost) / 100.0, 6) + " it could be much nearer the aim.\n";
  text += left_out_text(recipe);
  text += not_today_text(recipe, materials, show);
  text += left_over_text(recipe, materials, show);
  text += not_needed_text(recipe);
  text += held_back_text(recipe);
  text += everything_in_text(recipe, show);
  if (!far_off) text += help_text(recipe, materials, show);
  text += as_it_comes_text(recipe, materials, show) + feeding_text(recipe, materials, show);
  return text;
}

std::string text_of_recipe(const Answer<Recipe>& whole, const Materials& materials, const Show& show) {
  const Recipe& recipe = whole.result;
  return text_of_first_cautions(whole.cautions, materials) + text_of_recipe_body(recipe, materials, show) +
         text_of_assumptions(whole.assumptions, whole.measure_first, show) + text_of_steps(whole.working) +
         (recipe.pair && whole.working ? text_of_pair(*recipe.pair, recipe.targets, show) : "") +
         text_of_cautions(whole.cautions, materials);
}

}  // namespace heapwright
