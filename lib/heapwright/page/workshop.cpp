#include "heapwright/roster/workshop.hpp"

#include <algorithm>
#include <set>

#include "heapwright/page/pages.hpp"
#include "heapwright/page/recipe_parts.hpp"
#include "heapwright/roster/assumed.hpp"
#include "heapwright/roster/household_yard.hpp"

namespace heapwright {
namespace {

const WorkSteps before_the_class{"gather", "build"};

Words so_many_words(std::size_t count, const std::string& of) { return Count{static_cast<double>(count), of}; }

Words plain_list(const std::vector<std::string>& texts) { return joined({texts.begin(), texts.end()}); }

Words headings_in_quotes(const std::vector<std::string>& headings) {
  std::vector<Words> quoted;
  for (const std::string& heading : headings) quoted.push_back("\"" + heading + "\"");
  return joined(quoted);
}

constexpr const char* personal_data =
    "this folder holds personal data. Keep it off shared drives, send it to nobody, and delete it when the class is done";

Words when_words(const ClassTotal& thing) {
  const Words when = thing.each_week ? "each week of its season" : "in all";
  return thing.kept_out ? say("{}; weedkiller, or nobody knows: kept out", when) : when;
}

Grid totals_table(const ClassTotals& totals) {
  Grid grid{{"What", "Households", "Loose", "Weight", "When"}, {}};
  for (const ClassTotal& thing : totals.things)
    grid.rows.push_back(
        {thing.name, whole(thing.households), is_positive(thing.volume) ? Words(thing.volume) : Words("-"), thing.mass, when_words(thing)});
  return grid;
}

void say_totals(PageWriter& writer, Depth depth, const ClassTotals& totals) {
  writer.section(depth, "What the class has in all");
  if (!totals.things.empty()) writer.block(totals_table(totals));
  if (totals.lawns > 0)
    writer.paragraph(say("{} of lawn, in {}.", totals.lawn, so_many_words(static_cast<std::size_t>(totals.lawns), "household")));
}

/// How many households have some of it on the day.
Words from_words(const DemonstrationPile& pile, const std::string& feedstock) {
  const auto thing =
      std::find_if(pile.brought.begin(), pile.brought.end(), [&](const ClassTotal& total) { return total.feedstock == feedstock; });
  return thing == pile.brought.end() ? Words() : so_many_words(static_cast<std::size_t>(thing->households), "household");
}

Words in_its_measure(const RecipeAmount& amount, const Materials& materials) {
  return own_measure(amount, amount.containers, amount.volume, materials);
}

/// What goes into it, and who has that. What is left is nobody's to keep here: it stays at home.
Grid bring_table(const DemonstrationPile& pile, const Materials& materials) {
  const AsBuilt built = as_built(pile.recipe.result);
  Grid grid{{"Bring", "Of", "Some is had by"}, {}};
  for (const RecipeAmount& amount : built.amounts) {
    if (goes_in(amount, built.mix)) grid.rows.push_back({in_its_measure(amount, materials), amount.name, from_words(pile, amount.id)});
  }
  if (is_carried(built.water_to_add)) grid.rows.push_back({carried(built.water_to_add, materials), "water", ""});
  return grid;
}

/// In a line, for a screen.
Words pile_words(const ClassTotals& totals, const Materials& materials) {
  if (!totals.pile) return "nobody has anything for one on this day";
  const Recipe& recipe = totals.pile->recipe.result;
  if (!totals.pile->is_to_build) return say("what the class has on this day makes no good one; see {}", index_file);
  const AsBuilt built = as_built(recipe);
  std::vector<Words> parts;
  for (const RecipeAmount& amount : built.amounts) {
    if (goes_in(amount, built.mix)) parts.push_back(say("{} of {}", in_its_measure(amount, materials), amount.name));
  }
  if (is_carried(built.water_to_add)) parts.push_back(say("{} of water", carried(built.water_to_add, materials)));
  return say("{} to build before the class, of {}", *built.mix.volume, listed(parts));
}

/// What to bring for a pile of a cubic yard, and how it is built.
void say_pile_before_class(PageWriter& writer, Depth depth, const ClassTotals& totals, const Materials& materials) {
  writer.section(depth, "A pile to build before the class");
  if (!totals.pile) {
    writer.paragraph("Nobody has anything for it on this day.");
    return;
  }
  const Recipe& recipe = totals.pile->recipe.result;
  writer.paragraph(headline_of(recipe, materials));
  if (totals.pile->is_to_build) {
    writer.block(bring_table(*totals.pile, materials));
    writer.paragraph("Mix them, or lay them in layers with the browns between and on top; water as you go, until a handful clumps.");
  } else {
    say_what_it_lacks(writer, recipe, materials);
  }
}

Grounds grounds_of_pile(const ClassTotals& totals) { return totals.pile ? Grounds(totals.pile->recipe) : Grounds(); }

void say_columns(PageWriter& writer, Depth depth, const Roster& roster) {
  writer.section(depth);
  if (!roster.unknown_columns.empty())
    writer.paragraph(say("Columns that are no question's, left out: {}.", headings_in_quotes(roster.unknown_columns)));
  if (!roster.missing_columns.empty())
    writer.paragraph(say("Not on this roster, so not known of anybody: {}.", plain_list(roster.missing_columns)));
}

Words numbers_list(const std::set<int>& numbers) {
  std::vector<Words> words;
  for (const int number : numbers) words.push_back(whole(number));
  return joined(words);
}

void say_who_has_none(PageWriter& writer, const Roster& roster) {
  const WithoutHandout without = without_handout(roster);
  if (!without.households.empty()) writer.paragraph(say("Households without a handout: {}.", numbers_list(without.households)));
  if (!without.lines.empty()) writer.paragraph(say("Other lines of the roster without a handout: {}.", numbers_list(without.lines)));
}

Words handouts_words(const Workshop& workshop) {
  const std::size_t count = workshop.roster.households.size();
  const Words kept = workshop.kept == 0       ? Words()
                     : workshop.kept == count ? Words(", all of which were there already")
                                              : say(", {} of which were there already", whole(static_cast<long long>(workshop.kept)));
  return say("{} in {}{}.", so_many_words(count, "handout"), workshop.folder, kept);
}

/// A screen holds no hundred names.
Words few_of(const std::vector<std::string>& texts) {
  constexpr std::size_t most_told = 5;
  if (texts.size() <= most_told) return plain_list(texts);
  const auto few = texts.begin() + static_cast<std::ptrdiff_t>(most_told);
  return say("{}, and {} more", plain_list({texts.begin(), few}), whole(static_cast<long long>(texts.size() - most_told)));
}

Labels what_is_where(const Workshop& workshop, const Materials& materials) {
  return {{{"Print", say("{}, all of them in the order of the roster", print_all_file)},
           {"Read", say("{}: what was assumed of each household, what the class has", index_file)},
           {"Answers", say("{}: each as typed and as understood", answers_file)},
           {"Private", personal_data},
           {"Pile", pile_words(workshop.totals, materials)}}};
}

Words assumed_words(const Household& household) {
  std::vector<Words> all;
  for (const AssumedAnswer& assumed : assumed_of(household)) all.push_back(in_words(assumed));
  return joined(all, " ");
}

Grid households_table(const Workshop& workshop) {
  Grid grid{{"Household", "What was assumed"}, {}};
  for (const Household& household : workshop.roster.households) {
    const Words assumed = assumed_words(household);
    grid.rows.push_back({title_of(household, workshop.with_names), assumed.empty() ? Words("nothing") : assumed});
  }
  return grid;
}

}  // namespace

Page workshop_page(const Workshop& workshop, const Materials& materials) {
  PageWriter writer("Workshop");
  const Roster& roster = workshop.roster;
  writer.section(Depth::act).paragraph(handouts_words(workshop));
  if (!roster.bad_rows.empty())
    writer.paragraph(say("Without one, named above: {} of the roster. Correct and run this again: what is done is kept.",
                         so_many_words(count_of_bad_rows(roster), "row")));
  if (!workshop.removed.empty())
    writer.paragraph(say("Removed: {}, of an earlier run; no row that can be read is theirs.", few_of(workshop.removed)));
  if (!roster.households.empty()) {
    writer.labels(what_is_where(workshop, materials));
    say_pile_before_class(writer, Depth::why, workshop.totals, materials);
    say_totals(writer, Depth::why, workshop.totals);
  }
  say_columns(writer, Depth::act, roster);
  end_act(writer, grounds_of_pile(workshop.totals), materials, before_the_class);
  return finished(std::move(writer), grounds_of_pile(workshop.totals), materials);
}

Page workshop_index_page(const Workshop& workshop, const Materials& materials) {
  PageWriter writer("The class of " + print_date(workshop.today));
  const Roster& roster = workshop.roster;
  writer.section(Depth::act).paragraph(say("{}.", capital(std::string(personal_data))));
  say_totals(writer, Depth::act, workshop.totals);
  say_pile_before_class(writer, Depth::act, workshop.totals, materials);
  end_act(writer, grounds_of_pile(workshop.totals), materials, before_the_class);
  writer.section(Depth::why, "Household by household").block(households_table(workshop));
  say_who_has_none(writer, roster);
  say_columns(writer, Depth::why, roster);
  return finished(std::move(writer), grounds_of_pile(workshop.totals), materials);
}

}  // namespace heapwright
