#include "heapwright/page/season_parts.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

std::string month_and_year(Date day) {
  return std::string(month_name(day.month())).substr(0, 3) + " " + std::to_string(static_cast<int>(day.year()));
}

Words till_words(Date day) {
  const bool ends_a_month = Date(std::chrono::sys_days(day) + std::chrono::days(1)).day() == std::chrono::day(1);
  return ends_a_month ? Words("the end of " + month_and_year(day)) : Words(HalfMonth{day});
}

namespace {

/// What goes in week by week, to the half container.
std::optional<ContainerCount> to_the_half(std::optional<ContainerCount> containers) {
  constexpr double least = 0.25;
  if (containers && containers->count >= least) containers->count = 0.5 * std::max(1.0, std::round(2.0 * containers->count));
  return containers;
}

}  // namespace

Words counted(const RecipeAmount& amount, const Materials& materials) {
  const Words measure = own_measure(amount, to_the_half(amount.containers), amount.volume, materials);
  const Container* container = amount.containers ? row_with_id(*materials.containers, amount.containers->container) : nullptr;
  const bool is_named = container != nullptr && container->name.starts_with(amount.name);  // "13 straw bales"
  return is_named ? measure : say("{} of {}", measure, amount.name);
}

Words counted(const std::vector<RecipeAmount>& amounts, const Materials& materials) {
  std::vector<Words> words;
  for (const RecipeAmount& amount : amounts) words.push_back(counted(amount, materials));
  return listed(words);
}

Words months_words(std::chrono::month from, std::chrono::month to) {
  if (from == to) return month_name(from);
  const bool is_all_year = to + std::chrono::months(1) == from;
  return is_all_year ? Words("all year") : say("{} to {}", month_name(from), month_name(to));
}

Words held_words(const KeptDry& held, const Materials& materials) {
  const Words last = held.runs_out ? say(": they last to {}", till_words(*held.runs_out)) : Words();
  return say("Keep {} dry{}.", counted(held.most, materials), last);
}

Words load_words(const WeekOfSeason& week, const Materials& materials) {
  if (week.greens.empty()) return {};
  const Words browns = week.browns.empty() ? Words() : say(", with {}", counted(week.browns, materials));
  const Words water = is_carried(week.water) ? say(" and {} of water", carried(week.water, materials)) : Words();
  return say("{}{}{}", counted(week.greens, materials), browns, water);
}

Words week_words(const WeekOfSeason& week, const Materials& materials) {
  const Words left = week.left.empty() ? Words() : say("; no browns for {}", counted(week.left, materials));
  if (week.greens.empty()) return say("{}: no browns for {}.", months_words(week.from, week.to), counted(week.left, materials));
  return say("{}: {}{}.", months_words(week.from, week.to), load_words(week, materials), left);
}

namespace {

std::string year_unless(Date day, std::chrono::year known) {
  return day.year() == known ? std::string() : ", " + std::to_string(static_cast<int>(day.year()));
}

/// "Nov 28 to Dec 12", and the years where they are not this one.
Words days_words(Date from, Date to, std::chrono::year this_year) {
  const std::string last_year = year_unless(to, this_year);
  if (from == to) return say("{}{}", DayOfMonth{to}, last_year);
  const std::string first_year = from.year() == to.year() ? std::string() : year_unless(from, this_year);
  return say("{}{} to {}{}", DayOfMonth{from}, first_year, DayOfMonth{to}, last_year);
}

}  // namespace

Words when_words(const CalendarChore& chore, Date today) {
  if (chore.about) {
    if (is_same_half_month(chore.from, chore.to)) return say("about {}", HalfMonth{chore.from});
    return say("about {} to {}", HalfMonth{chore.from, chore.from.year() != chore.to.year()}, HalfMonth{chore.to});
  }
  const Words on_days = days_words(chore.from, chore.to, today.year());
  if (!chore.every || chore.from == chore.to) return on_days;
  if (chore.every->count() == 7) return say("each {}, {}", weekday_name(chore.from), on_days);
  return say("every {} days, {}", Number{static_cast<double>(chore.every->count())}, on_days);
}

std::string_view pile_called(int batch) {
  constexpr std::array<std::string_view, 6> names{"first pile", "second pile", "third pile", "fourth pile", "fifth pile", "sixth pile"};
  return names.at(static_cast<std::size_t>(std::clamp(batch, 1, 6) - 1));
}

Words title_words(const CalendarChore& chore) {
  return chore.batch > 1 ? say("{} ({})", chore.what.title, std::string(pile_called(chore.batch))) : Words(chore.what.title);
}

Words chore_words(const CalendarChore& chore, const Materials& materials) {
  std::string what = chore.what.text;
  if (chore.batch > 1) {
    what.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(what.front())));
    what = capital(std::string(pile_called(chore.batch))) + ": " + what;
  }
  if (chore.week) return say("{}: {}", what, load_words(*chore.week, materials));
  return chore.amounts.empty() ? Words(what) : say("{}: {}", what, counted(chore.amounts, materials));
}

namespace {

/// "leaves" of "autumn leaves".
std::string short_name(const std::string& name) {
  const std::size_t space = name.rfind(' ');
  return space == std::string::npos || name.ends_with(')') ? name : name.substr(space + 1);
}

/// The short name where no other supply of the year goes by it.
std::string named_in_short(const std::string& name, const YardSeason& season) {
  const std::string in_short = short_name(name);
  const auto share_it = std::count_if(season.supplies.begin(), season.supplies.end(),
                                      [&](const Supply& supply) { return short_name(supply.name()) == in_short; });
  return share_it > 1 ? name : in_short;
}

}  // namespace

Words later_words(const WeekOfSeason& week, const YardSeason& season, const Materials& materials) {
  const auto measured = [&](const RecipeAmount& amount) {
    return say("{} of {}", own_measure(amount, to_the_half(amount.containers), amount.volume, materials),
               named_in_short(amount.name, season));
  };
  std::vector<Words> greens;
  for (const RecipeAmount& one : week.greens) {
    const bool all_of_it =
        std::none_of(week.left.begin(), week.left.end(), [&](const RecipeAmount& left) { return left.supply == one.supply; });
    greens.push_back(all_of_it ? say("the {}", named_in_short(one.name, season)) : measured(one));
  }
  std::vector<Words> with{joined(greens, ", ")};
  for (const RecipeAmount& browns : week.browns) with.push_back(measured(browns));
  if (is_carried(week.water)) with.push_back(say("{} of water", carried(week.water, materials)));
  return say("{}: {}", months_words(week.from, week.to), joined(with, " + "));
}

std::vector<Words> leaves_alone_words(const LeavesAlone& leaves, Date today, const Materials& materials) {
  std::vector<Words> steps;
  const Words clippings = own_measure(leaves.clippings, leaves.clippings.containers, leaves.clippings.volume, materials);
  const Words water = is_carried(leaves.water) ? say(", and {} of water", carried(leaves.water, materials)) : Words();
  const auto own = [&](const RecipeAmount& amount) { return own_measure(amount, amount.containers, amount.volume, materials); };
  if (leaves.build == today) {
    steps.push_back(say("Now that grass is mown: build a pile of {} with {} of {} that nobody treated with weedkiller{}.", own(leaves.keep),
                        clippings, leaves.clippings.name, water));
    steps.push_back("The same again with the next mowings, as long as dry leaves are left.");
    steps.push_back("Leaves that got wet: pile them in a hoop of wire or a corner, leaf mold in a year or two.");
    return steps;
  }
  if (leaves.mulch)
    steps.push_back(say("Mow over up to {} where they lie, in thin layers, till the grass shows through.", own(*leaves.mulch)));
  const Words kept = leaves.mulch || leaves.mold ? own(leaves.keep) : Words("all of them");
  steps.push_back(say("Keep {} dry: under a roof or a tarp, off the ground, away from walls.", kept));
  if (leaves.mold)
    steps.push_back(say("Pile the other {} damp, in a hoop of wire or a corner: leaf mold in a year or two.", own(*leaves.mold)));
  steps.push_back(say("From {} on, as grass is mown: build the pile of the {} kept with {} of {} that nobody treated with weedkiller{}.",
                      DayOfMonth{leaves.build}, own(leaves.keep), clippings, leaves.clippings.name, water));
  return steps;
}

void say_leaves_alone(PageWriter& writer, const LeavesAlone& leaves, Date today, const Materials& materials) {
  writer.section(Depth::act)
      .paragraph(
          say("{}, and nothing green: that is no failure. Leaves alone rot, slowly and cold.", capital(counted(leaves.all, materials))))
      .block(Numbered{leaves_alone_words(leaves, today, materials)});
}

}  // namespace heapwright
