#include <algorithm>
#include <array>

#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/page/mix_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/plan_parts.hpp"
#include "heapwright/page/recipe_parts.hpp"
#include "heapwright/page/season_parts.hpp"
#include "heapwright/recipe/verdict.hpp"

namespace heapwright {
namespace {

constexpr std::string_view subject_of_handout = "Compost plan";

/// The chores of one kind: each pile has its own, and each its days. Where something is put in or got, each has its own amounts.
std::vector<std::vector<CalendarChore>> by_kind(const std::vector<CalendarChore>& calendar) {
  std::vector<std::vector<CalendarChore>> kinds;
  for (const CalendarChore& chore : calendar) {
    const auto same = [&](const auto& kind) { return kind.front().what.id == chore.what.id; };
    const bool has_amounts = chore.week || !chore.amounts.empty();
    const auto known = has_amounts ? kinds.end() : std::find_if(kinds.begin(), kinds.end(), same);
    if (known == kinds.end()) {
      kinds.push_back({chore});
    } else {
      known->push_back(chore);
    }
  }
  return kinds;
}

/// What is put in, kept or got.
Words amounts_words(const CalendarChore& chore, const Materials& materials) {
  if (chore.week) return say(": {}", load_words(*chore.week, materials));
  return chore.amounts.empty() ? Words() : say(": {}", counted(chore.amounts, materials));
}

/// A line for each kind of chore, in the order in which they begin.
Grid calendar_grid(const Plan& plan, const Materials& materials) {
  Grid grid;
  grid.head = {"When", "What to do"};
  for (const std::vector<CalendarChore>& kind : by_kind(plan.calendar)) {
    std::vector<Words> times;
    for (const CalendarChore& chore : kind) {
      const bool is_of_another = chore.batch > 1 && kind.size() > 1;
      times.push_back(is_of_another ? say("{}: {}", std::string(pile_called(chore.batch)), when_words(chore, plan.today))
                                    : when_words(chore, plan.today));
    }
    const Words what = kind.size() > 1 ? Words(kind.front().what.title) : title_words(kind.front());
    grid.rows.push_back({capital(joined(first_of(std::move(times), 2), "; ")), say("{}{}", what, amounts_words(kind.front(), materials))});
  }
  return grid;
}

Words who_and_when(const Plan& plan, const std::optional<Office>& office) {
  if (!office) return say("{}.", DayOfWeek{plan.today});
  const std::string by = office->prepared_by.empty() ? "" : ", prepared by " + office->prepared_by;
  const std::string version = office->version.empty() ? "" : ", version " + office->version;
  return say("{}{}, {}{}.", office->name, by, DayOfWeek{plan.today}, version);
}

/// What is fed week by week is gathered too, where it stands.
WorkSteps work_of_handout(const Plan& plan) {
  WorkSteps steps = work_of(plan);
  if (stands(plan) && plan.has_supplies) steps.insert("gather");
  return steps;
}

Page front_of(const Answer<Plan>& answer, const std::optional<Office>& office, const Materials& materials) {
  const Plan& plan = answer.result;
  PageWriter writer(std::string(subject_of_handout), plan.title);
  if (office) writer.section(Depth::act).paragraph(office->name);
  say_what_to_do(writer, answer, materials);
  if (plan.stands == Stands::by_date && plan.recipe->mix)
    writer.section(Depth::act).paragraph(say("Its recipe: {}.", pile_in_one_line(plan.recipe.result, materials)));
  if (plan.is_for_a_pile() && plan.recipe->mix && !waits_for_the_fire(plan))
    writer.section(Depth::act).labels({{{"Done", "when it is dark and crumbly, smells of earth, and no longer warms up after turning"}}});
  const std::vector<Caution> cautions = cautions_of_today(answer, materials, work_of_handout(plan));
  if (!cautions.empty()) writer.section(Depth::act).block(Warnings{cautions, false});
  if (!plan.calendar.empty() && !waits_for_the_fire(plan)) writer.section(Depth::act, "Calendar").block(calendar_grid(plan, materials));
  writer.section(Depth::ground)
      .paragraph(say("{} Amounts are about right, not exact: piles differ. Turn over for the reasons, and for what else to mind.",
                     who_and_when(plan, office)));
  return std::move(writer).page();
}

void say_charts(PageWriter& writer, const Plan& plan) {
  if (plan.is_for_a_pile() && plan.recipe->mix) {
    const Mix& mix = as_built(plan.recipe.result).mix;
    if (auto shares = shares_of(mix)) writer.block(*std::move(shares));
    writer.block(figures_of(mix, plan.recipe->targets));
  }
  const Forecast* forecast = forecast_in(plan);
  if (plan.is_for_a_pile() && forecast != nullptr && !forecast->heats.log_disagrees) writer.block(temperature_chart(*forecast));
}

void say_figures(PageWriter& writer, const Answer<Plan>& answer) {
  const Plan& plan = answer.result;
  const Recipe& recipe = plan.recipe.result;
  const bool is_a_pile = plan.is_for_a_pile() && recipe.mix;
  Labels labels;
  const auto add = [&](const char* name, Words words) {
    if (!words.empty()) labels.labels.push_back({name, std::move(words)});
  };
  if (is_a_pile) add("Likely", "eight times in ten. C:N is carbon to nitrogen: 30 to 1 is not thirty buckets to one");
  const Words needed = plan.supply.needed ? say("; the lawn takes {} a year", *plan.supply.needed) : Words();
  if (plan.is_for_a_pile() && plan.supply.own_compost) {
    const CompostYield& own = *plan.supply.own_compost;
    add("Compost", say("about {}, from {}, done and screened{}", own.likely, Between<Volume>{own.low, own.high}, needed));
  }
  add("Rests on", rests_on(answer));
  if (answer.measure_first && !stands(plan) && plan.is_for_a_pile())
    add("Surer", say("{}: nothing narrows this as much", to_measure(*answer.measure_first)));
  writer.labels(std::move(labels));
}

/// Whole, in the order of the work, but for those of the first side.
void say_other_cautions(PageWriter& writer, const Answer<Plan>& answer, const Materials& materials) {
  constexpr std::array<std::string_view, 4> steps{"gather", "build", "turn", "use"};
  const std::vector<Caution> told = cautions_of_today(answer, materials, work_of_handout(answer.result));
  std::vector<Caution> cautions = cautions_of(answer, materials);
  std::erase_if(cautions, [&](const Caution& one) {
    return std::any_of(told.begin(), told.end(), [&](const Caution& other) { return other.id == one.id; });
  });
  const auto step_of = [&](const Caution& one) { return std::find(steps.begin(), steps.end(), one.step); };
  std::stable_sort(cautions.begin(), cautions.end(),
                   [&](const Caution& one, const Caution& other) { return step_of(one) < step_of(other); });
  writer.section(Depth::why, "Mind too");
  if (!cautions.empty()) writer.block(Warnings{std::move(cautions), false});
}

void say_office(PageWriter& writer, const std::optional<Office>& office) {
  writer.section(Depth::ground);
  if (office) {
    std::vector<Words> lines{office->name};
    lines.insert(lines.end(), office->lines.begin(), office->lines.end());
    writer.paragraph(say("{}. {}", joined(lines, ". "), joined({office->statements.begin(), office->statements.end()}, " ")));
  }
  writer.paragraph(
      "Figures are from published tables where there are any, else judged. Where the work is that of licensed people, leave it to them.");
}

Page back_of(const Answer<Plan>& answer, const std::optional<Office>& office, const std::vector<std::string>& not_told,
             const Materials& materials) {
  PageWriter writer("Why, and what to mind");
  writer.section(Depth::why);
  say_charts(writer, answer.result);
  writer.section(Depth::why);
  say_figures(writer, answer);
  say_other_cautions(writer, answer, materials);
  if (!not_told.empty())
    writer.section(Depth::ground).paragraph(say("Not told, or not as it was taken: {}", joined({not_told.begin(), not_told.end()}, " ")));
  say_office(writer, office);
  return std::move(writer).page();
}

/// What goes in each week, months by months; else each time something is mown or emptied.
std::vector<Words> feedings(const Plan& plan, const Materials& materials) {
  std::vector<Words> lines;
  if (plan.season) {
    for (const WeekOfSeason& week : plan.season->weeks) {
      if (!week.greens.empty()) lines.push_back(week_words(week, materials));
    }
  }
  return lines.empty() ? card_words(plan.recipe.result, materials) : lines;
}

}  // namespace

Page shed_card_page(const Plan& plan, const Materials& materials) {
  PageWriter writer("Card for the shed", plan.title.empty() ? std::string() : plan.title + ": card for the shed");
  std::vector<Words> lines = feedings(plan, materials);
  const bool has_next = plan.batches.size() > 1 && plan.batches[1].bin > 1;
  if (lines.empty()) {
    writer.section(Depth::act).paragraph("Nothing comes in week by week: nothing to feed.");
  } else {
    writer.section(Depth::act, has_next ? say("Each week, into bin {}", whole(plan.batches[1].bin)) : Words("Each week, or each mowing"))
        .bullets(std::move(lines));
  }
  writer.section(Depth::act, "Each time")
      .block(
          Numbered{{"Dig a hole in the middle, put the greens in with their browns, and pull 8 in (20 cm) of what is there over them.",
                    "Squeeze a handful: it should clump. Crumbles: add water. Drips: add dry leaves.", "Put the lid or the tarp back on.",
                    "No browns left? Keep scraps out till you have some; leave clippings on the lawn."}})
      .paragraph(
          "Never in: meat, bones, dairy, grease, pet waste; no lime or ash with fresh greens. Gloves on, and wash your hands after.");
  return std::move(writer).page();
}

Page blank_log_page(const Plan& plan) {
  constexpr std::size_t lines = 26;
  PageWriter writer("Log of the pile", plan.title.empty() ? std::string() : plan.title + ": log of the pile");
  writer.section(Depth::act)
      .paragraph(
          "Push the thermometer an arm's length into the middle, and once into a side; write °F or °C with the first. By hand: hot, "
          "warm or cold. Turned, watered or added something: write what, and how much.");
  Grid grid;
  grid.head = {"Date", "Middle", "Side", "What was done, what went in", "Smell, flies, wet or dry"};
  grid.rows.assign(lines, std::vector<Words>(grid.head.size()));
  writer.block(std::move(grid));
  return std::move(writer).page();
}

std::vector<Page> handout_pages(const Answer<Plan>& answer, const std::optional<Office>& office, const std::vector<std::string>& not_told,
                                const Materials& materials) {
  if (waits_for_the_fire(answer.result)) return {front_of(answer, office, materials)};
  return {front_of(answer, office, materials), back_of(answer, office, not_told, materials)};
}

}  // namespace heapwright
