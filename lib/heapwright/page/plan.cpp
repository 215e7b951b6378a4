#include <algorithm>
#include <array>

#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/page/nutrients_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/pile_now.hpp"
#include "heapwright/page/pile_parts.hpp"
#include "heapwright/page/plan_parts.hpp"
#include "heapwright/page/recipe_parts.hpp"
#include "heapwright/page/season_parts.hpp"
#include "heapwright/page/topdressing_parts.hpp"
#include "heapwright/plan/standing.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

/// Whether it has been measured, looked at or tested.
bool is_seen(const Plan& plan) { return (plan.readings && is_anything_seen(plan.readings->result)) || plan.maturity; }

}  // namespace

bool stands(const Plan& plan) { return plan.stands || is_seen(plan); }

const Forecast* forecast_in(const Plan& plan) {
  return plan.forecast && (*plan.forecast)->forecast ? &*(*plan.forecast)->forecast : nullptr;
}

Words expected(const Plan& plan) {
  const Forecast* forecast = forecast_in(plan);
  if (forecast == nullptr) return "done when dark and crumbly, smelling of earth, and no longer warm after turning";
  const bool no_date_holds = forecast->heats.log_disagrees;
  if (!no_date_holds && is_past_its_heat(plan) && forecast->status != ForecastStatus::never) return ready_between(*forecast);
  const Words heat = heating_words(plan.forecast->result);
  if (no_date_holds) return heat;
  if (forecast->status == ForecastStatus::never) return say("{}; {}", heat, why_never_ready(*forecast));
  return say("{}; {}", heat, ready_between(*forecast));
}

WorkSteps work_of(const Plan& plan) {
  if (plan.readings && is_anything_seen(plan.readings->result)) return {"turn", "gather"};
  if (plan.maturity || !plan.has_supplies) return {"use"};
  if (plan.stands) return {"turn"};
  return {"gather", "build"};
}

namespace {

/// "Saturday, Oct 24: fill the bin"
Words heading_of(const Plan& plan) {
  if (!plan.pile) return say("{}: build the pile", DayOfWeek{plan.built});
  const std::string noun = pile_noun(plan.pile->shape);
  const bool is_filled = plan.pile->shape != PileShape::cone && plan.pile->shape != PileShape::windrow;
  const bool one_of_several = plan.pile->count > 1 && plan.fit && (*plan.fit)->piles_needed == 1;
  const char* what = begins_small(plan) ? "start" : is_filled ? "fill" : "build";
  return say("{}: {} {} {}", DayOfWeek{plan.built}, what, one_of_several ? "one" : "the", noun);
}

/// Whether there is a pile to build.
bool is_to_be_built(const Plan& plan) { return plan.has_supplies && !stands(plan) && plan.is_for_a_pile(); }

/// A lawn and no pile: what to spread on it is the whole answer.
bool is_order_only(const Plan& plan) { return plan.topdressing && !plan.has_supplies && !stands(plan); }

/// What to do with it once it stands.
Words care_of(const Plan& plan) {
  constexpr std::string_view squeeze = "add water if it crumbles, dry leaves if it drips";
  if (!plan.pile || !plan.pile->turn_every) return say("leave it unturned; {}", squeeze);
  const std::string_view turn = plan.pile->shape == PileShape::tumbler ? "rotate" : "turn";
  return say("{} it every {}; {}", turn, *plan.pile->turn_every, squeeze);
}

/// In place of what to buy, while none is to be spread.
std::string_view in_place_of_buying(const SpreadingAdvice& advice) {
  if (advice.phosphorus == PhosphorusVerdict::hold) return "once cleared. Till then buy none; keep yours covered";
  if (advice.compost_too_salty) return "with yours. Buy none of that compost: ask for one with less salt";
  return "once thawed. Till then buy none; keep yours covered";
}

/// How far the compost goes at a time, and what to buy for the rest.
Words covered(const Topdressing& spread, const LawnByDate& then) {
  const Words goes = is_positive(then.covers) ? Words(OutOf{then.covers, spread.area}) : say("none of {}", spread.area);
  if (spread.advice.is_hold()) return say("{} {}", goes, in_place_of_buying(spread.advice));
  const std::string month = month_and_year(then.time.from);
  if (!is_positive(then.to_buy)) return say("{}: all of {}, {} deep: nothing to buy", month, spread.area, SpreadDepth{spread.depth});
  return say("{}: {}, {} deep. To buy for the rest: {} of compost", month, goes, SpreadDepth{spread.depth}, then.to_buy);
}

/// How far the compost of a pile goes of which nobody knows when it is done.
Words covered_once_done(const Topdressing& spread, const SupplyBalance& supply) {
  const OutOf goes{*supply.covers, spread.area};
  if (spread.advice.is_hold()) return say("{} {}", goes, in_place_of_buying(spread.advice));
  if (!is_positive(*supply.to_buy))
    return say("once it is done all of {}, {} deep: nothing to buy", spread.area, SpreadDepth{spread.depth});
  return say("once it is done {}, {} deep. To buy for the rest: {} of compost", goes, SpreadDepth{spread.depth}, *supply.to_buy);
}

/// At the next time, and where none of it is ready by then at the first for which it is.
std::vector<Words> covered(const Plan& plan) {
  const Topdressing& spread = plan.topdressing->result;
  if (plan.is_for_a_pile() && plan.batches.empty() && plan.supply.covers) return {covered_once_done(spread, plan.supply)};
  const std::vector<LawnByDate>& times = plan.lawn_by_date;
  const auto own = std::find_if(times.begin(), times.end(), [](const LawnByDate& one) { return is_positive(one.own.likely); });
  if (own == times.end()) return {covered(spread, times.front())};
  std::vector<Words> lines{covered(spread, *own)};
  if (own != times.begin() && !spread.advice.is_hold())
    lines.push_back(say("{}: none of yours is ready. Wait, or buy {}", month_and_year(times.front().time.from), times.front().to_buy));
  return lines;
}

/// Not a week or two between the first filling and the next month.
bool is_worth_a_line(const WeekOfSeason& week, Date today) {
  const auto from = std::max(std::chrono::sys_days(week.first), std::chrono::sys_days(today));
  return std::chrono::sys_days(week.last) - from >= std::chrono::days(14);
}

/// What goes in each week, and till when the browns last.
std::vector<Words> weeks_to_come(const Plan& plan, const Materials& materials) {
  if (!plan.season) return {};
  if (plan.pile && plan.pile->shape == PileShape::tumbler) return card_words(plan.recipe.result, materials);
  std::vector<Words> lines;
  bool clippings_left = plan.season->scraps_only;
  for (const WeekOfSeason& week : plan.season->weeks) {
    const auto is_grass = [](const RecipeAmount& amount) { return amount.feedstock_class == FeedstockClass::clippings; };
    clippings_left = clippings_left || std::any_of(week.left.begin(), week.left.end(), is_grass);
    if (!week.greens.empty() && is_worth_a_line(week, plan.today)) lines.push_back(later_words(week, *plan.season, materials));
  }
  if (!lines.empty()) lines.front() = say("each week, {}", lines.front());
  const std::vector<KeptDry>& kept = plan.season->kept_dry;
  const char* clippings = clippings_left ? "; leave other clippings on the lawn" : "";
  if (!kept.empty() && kept.front().runs_out) {
    lines.push_back(say("Browns last to {}{}.", till_words(*kept.front().runs_out), clippings));
  } else if (clippings_left) {
    lines.push_back("Leave other clippings on the lawn.");
  }
  if (!plan.season->left_dry.empty())
    lines.push_back(say("Left over: {}, for mulch or leaf mold.", counted(plan.season->left_dry, materials)));
  return lines;
}

/// Into which bin what comes later goes.
const char* where_later(const Plan& plan) {
  constexpr std::array<const char*, 5> bins{"Beside", "Later", "Bin 2", "Bin 3", "Bin 4"};
  const bool is_fed = plan.forecast && (*plan.forecast)->week_by_week;
  if (plan.batches.size() < 2 || is_fed) return "Later";
  const int bin = plan.batches[1].bin;
  return bin < static_cast<int>(bins.size()) ? bins.at(static_cast<std::size_t>(bin)) : "Later";
}

Labels at_a_glance(const Plan& plan, const Materials& materials) {
  Labels labels;
  const auto add = [&](const char* name, Words words) {
    if (!words.empty()) labels.labels.push_back({name, std::move(words)});
  };
  const bool is_a_pile = has_size(plan.recipe.result) && plan.is_for_a_pile();
  if (is_a_pile && !stands(plan)) {
    for (Words& later : weeks_to_come(plan, materials)) add(labels.labels.empty() ? where_later(plan) : "", std::move(later));
    add("Then", care_of(plan));
  }
  if (is_a_pile && !is_seen(plan)) add("Expect", expected(plan));
  if (plan.topdressing && plan.has_supplies) {
    const Topdressing& spread = plan.topdressing->result;
    if (spread.advice.phosphorus == PhosphorusVerdict::hold)
      add("Hold", "phosphorus is high: spread none until your extension office clears it");
    if (spread.advice.compost_too_salty) add("Hold", "the compost to buy is too salty for a lawn: spread none of it");
    if (spread.advice.frozen_or_snow) add("Hold", "spread none while the ground is frozen or under snow");
    if (spread.advice.asks_laboratory())
      add("Ask", say("your laboratory: is phosphorus \"{}\" high? If so, hold", spread.plan.soil_test->phosphorus));
    const char* name = "Covers";
    for (Words& line : covered(plan)) add(std::exchange(name, ""), std::move(line));
    if (spread.plan.near_water) add("", "Keep compost back from the water: ask your county how far.");
  }
  return labels;
}

void say_build(PageWriter& writer, const Plan& plan, const Materials& materials) {
  const Recipe& recipe = plan.recipe.result;
  writer.section(Depth::act).paragraph(headline_of(recipe, materials));
  say_greens_lacking(writer, recipe, materials);
  if (recipe.mix)
    writer.section(Depth::act, has_size(recipe) ? heading_of(plan) : Words("So, for one small batch"))
        .block(Numbered{building_steps(recipe, materials)});
  if (plan.fit && (*plan.fit)->fits == false) writer.paragraph(say("Room: {}.", room_words(plan.fit->result)));
  writer.labels(set_aside(recipe, materials));
}

/// What is there already: what it does, what compost it is, and what to do about it now.
void say_now(PageWriter& writer, const Plan& plan, const Materials& materials) {
  if (plan.readings) {
    writer.section(Depth::act);
    say_pile_now(writer, plan.readings->result, materials);
  }
  if (plan.maturity) {
    writer.section(Depth::act, "The compost now");
    writer.paragraph(verdict_in_short(plan.maturity->result));
    if (!plan.readings) writer.bullets(next_for_compost(plan.maturity->result));  // else the pile's own steps are the next ones
    writer.paragraph("Test by test, and what else to do: `heapwright maturity` with this file");
  }
}

/// As many chores as a screen has room for beside the rest; how a pile is fed is told once, and then what changes.
std::vector<Words> next_chores(const Plan& plan, const Materials& materials) {
  const bool takes_lines_to_say = plan.stands == Stands::by_loads || is_past_its_time(plan);
  const std::size_t most = std::min<std::size_t>(takes_lines_to_say ? 3 : 4, plan.calendar.size());
  const auto end = plan.calendar.begin() + static_cast<std::ptrdiff_t>(most);
  std::vector<Words> next;
  for (auto chore = plan.calendar.begin(); chore != end; ++chore) {
    const auto is_of_it = [&](const CalendarChore& one) { return one.week && chore->week && one.batch == chore->batch; };
    const bool is_told = std::any_of(plan.calendar.begin(), chore, is_of_it);
    next.push_back(is_told ? say("{}: then {}.", capital(when_words(*chore, plan.today)), load_words(*chore->week, materials))
                           : say("{}: {}.", capital(when_words(*chore, plan.today)), chore_words(*chore, materials)));
  }
  return next;
}

/// What to do with a pile of which nothing is known.
std::vector<Words> looking_at_it() {
  return {"Dig in a hand's depth and squeeze a handful: water if it crumbles, dry leaves if it drips; the same every two weeks.",
          "Feel it an arm's length in with a rod or a thermometer: `heapwright readings` says what warm, hot or cold means.",
          "Where it is dark and smells of earth, seal a damp handful in a bag for three days: `heapwright maturity` says what that tells."};
}

/// Of a pile that the file says stands.
Words what_stands(const Plan& plan, const std::string& noun) {
  if (!has_size(plan.recipe.result))
    return say("The {} stands. To say when it is done, write down what went in: [[load]], or `heapwright load`.", noun);
  if (plan.pile && !plan.pile->built) return say("The {} stands. To say when it is done, put the day it was filled into built =.", noun);
  return say("The {} stands: taken as filled on {}, with what is listed.", noun, DayOfWeek{plan.built});
}

/// A pile that stands and of which nothing was seen: what it is, and what comes next.
void say_standing(PageWriter& writer, const Plan& plan, const Materials& materials) {
  const std::string noun = plan.pile ? pile_noun(plan.pile->shape) : "pile";
  const bool is_known = has_size(plan.recipe.result);
  writer.section(Depth::act);
  if (plan.stands == Stands::by_loads)
    writer.paragraph(say("In the {} since {}: {}.", noun, DayOfWeek{plan.built}, in_all_words(plan.loads, materials)));
  const bool overfilled = is_overfilled(plan);
  if (overfilled) writer.paragraph(say("That is more than the {} holds: is all of it in there, and counted right?", noun));
  if (plan.stands == Stands::by_date && is_known)
    writer.paragraph(
        say("The {}, filled on {}, as its recipe has it. Not filled yet? Plan it anew, with another day.", noun, DayOfWeek{plan.built}));
  if (plan.stands == Stands::by_word) writer.paragraph(what_stands(plan, noun));
  if (is_past_its_time(plan)) writer.paragraph("By now it should be compost: test it (`heapwright maturity`), use it, and plan the next.");
  if (plan.stands == Stands::by_loads && is_fed_lately(plan) && !overfilled) say_what_it_lacks(writer, plan.recipe.result, materials);
  std::vector<Words> chores = next_chores(plan, materials);
  if (chores.empty() && !is_known) chores = looking_at_it();
  if (!chores.empty()) writer.section(Depth::act, "Next").block(Numbered{std::move(chores)});
}

/// Greens and nothing brown.
void say_greens_alone(PageWriter& writer, const Plan& plan, const Materials& materials) {
  const std::vector<Supply>& supplies = plan.season->supplies;
  const auto any = [&](FeedstockClass sort) {
    return std::any_of(supplies.begin(), supplies.end(), [&](const Supply& one) { return one.feedstock.feedstock_class == sort; });
  };
  const bool scraps = any(FeedstockClass::must_go);
  std::vector<Words> steps;
  const std::optional<RecipeAmount>& wanted = plan.season->wanted_for_scraps;
  if (scraps)
    steps.push_back(say("Get browns before anything else{}. Ask neighbors for bagged leaves, or buy a bale of straw.",
                        wanted ? say(": {} for a year's scraps", counted(*wanted, materials)) : Words()));
  if (scraps) steps.emplace_back("Till then keep scraps out of any pile: some towns collect them. Alone they stink and draw rats.");
  if (any(FeedstockClass::clippings)) {
    steps.emplace_back("Leave clippings on the lawn: mow often, a third of the blade at most. They feed it, and are no waste.");
    steps.emplace_back("Where they lie thick, rake them off and spread them thin under shrubs. A heap of them alone mats and stinks.");
  }
  std::vector<Words> ways;
  for (const RecipeAmount& way : plan.season->would_take_all) ways.push_back(counted(way, materials));
  if (!ways.empty()) steps.push_back(say("To compost all of it, gather {} a year.", joined(ways, ", or ")));
  writer.section(Depth::act)
      .paragraph(scraps ? "Greens and nothing brown: build no pile yet." : "Clippings alone: no pile is needed.")
      .block(Numbered{std::move(steps)});
}

void say_why_of_forecast(PageWriter& writer, const Plan& plan, const Materials& materials) {
  const Forecast* forecast = forecast_in(plan);
  if (forecast == nullptr) return;
  const bool measured = plan.maturity && (*plan.maturity)->known.rating.rating;
  writer.section(Depth::why, "What it will do").paragraph(capital(say("{}.", expected(plan))));
  if (!forecast->heats.log_disagrees) {
    Chart chart = temperature_chart(*forecast);
    if (plan.readings) add_measured(chart, plan.readings->result);
    writer.block(std::move(chart));
  } else if (std::optional<Chart> chart = plan.readings ? measured_chart(plan.readings->result) : std::nullopt) {
    writer.block(*std::move(chart));
  }
  writer.bullets(care_notes(*forecast));
  say_heating_tips(writer, plan.forecast->result, materials);
  if (forecast->status != ForecastStatus::never && !measured && !forecast->heats.log_disagrees) writer.block(readiness(*forecast));
  writer.paragraph("It is done when it is dark and crumbly, smells of earth, and no longer warms up after turning.");
}

/// Filling by filling, when each is compost and how much of it there is.
Grid by_pile(const Plan& plan) {
  Grid grid;
  grid.head = {"", "fed", "ready", "screened"};
  for (std::size_t i = 0; i < plan.batches.size(); ++i) {
    const CompostBatch& batch = plan.batches[i];
    const Words fed =
        batch.from == batch.until ? Words(HalfMonth{batch.from}) : say("{} to {}", HalfMonth{batch.from, false}, HalfMonth{batch.until});
    const Words ready = batch.likely ? Words(HalfMonth{*batch.likely}) : Words("not in three years");
    const Words screened = batch.screened ? say("about {}", batch.screened->likely) : Words("-");
    grid.rows.push_back({std::string(pile_called(static_cast<int>(i) + 1)), fed, ready, screened});
  }
  return grid;
}

/// Time by time, what the lawn takes and what of it is to be bought.
Grid by_date(const Plan& plan) {
  Grid grid;
  grid.head = {"spread in", "takes", "of your own", "to buy"};
  for (const LawnByDate& one : plan.lawn_by_date) {
    const auto some = [](Volume volume) { return is_positive(volume) ? Words(volume) : Words("-"); };
    grid.rows.push_back({month_and_year(one.time.from), one.needed, some(one.own.likely), some(one.to_buy)});
  }
  return grid;
}

/// The same as bars.
Bars bars_by_date(const Plan& plan) {
  Bars bars{"Compost for the lawn", {"of your own", "to buy"}, {}, {}};
  std::vector<Words> words;
  for (const LawnByDate& one : plan.lawn_by_date) {
    const std::string month = month_and_year(one.time.from);
    bars.bars.push_back({month, {one.own.likely, one.to_buy}, one.needed});
    words.push_back(say("{} {} of your own and {} to buy", month, one.own.likely, one.to_buy));
  }
  bars.in_words = say("{}.", joined(words, "; "));
  return bars;
}

void say_why_of_compost(PageWriter& writer, const Plan& plan) {
  writer.section(Depth::why, "The compost");
  if (plan.supply.own_compost) {
    const CompostYield& own = *plan.supply.own_compost;
    writer.paragraph(
        say("Done and screened, the pile leaves about {}, from {}: about half the dry matter rots away and the rest packs down.",
            own.likely, Between<Volume>{own.low, own.high}));
  } else if (forecast_in(plan) != nullptr) {
    writer.paragraph("As it is the pile is not ready within three years: count on none of it.");
  }
  if (plan.batches.size() > 1) writer.block(by_pile(plan));
  if (plan.supply.needed) {
    writer.paragraph(say("The lawn takes {} a year.", *plan.supply.needed));
    if (!plan.topdressing->result.advice.is_hold()) {
      const auto has_own = [](const LawnByDate& one) { return is_positive(one.own.likely); };
      if (std::any_of(plan.lawn_by_date.begin(), plan.lawn_by_date.end(), has_own)) writer.block(bars_by_date(plan));
      writer.block(by_date(plan));
    }
  } else {
    writer.paragraph("No lawn is measured: add [[lawn.zone]] to see how far it goes.");
  }
}

void say_calendar(PageWriter& writer, const Plan& plan, const Materials& materials) {
  std::vector<Words> chores;
  for (const CalendarChore& chore : plan.calendar)
    chores.push_back(say("{}: {} ({}; {}).", capital(when_words(chore, plan.today)), chore_words(chore, materials), chore.what.why,
                         source_in_short(materials, chore.what.source, chore.what.evidence)));
  writer.section(Depth::why, "The calendar").bullets(std::move(chores));
}

void say_lawn(PageWriter& writer, const Plan& plan, const Materials& materials) {
  say_hold(writer, plan.topdressing->result);
  say_topdressing(writer, plan.topdressing->result, materials);
}

}  // namespace

bool waits_for_the_fire(const Plan& plan) { return plan.readings && (*plan.readings)->smokes; }

void say_what_to_do(PageWriter& writer, const Answer<Plan>& answer, const Materials& materials) {
  const Plan& plan = answer.result;
  urgent_cautions(writer, answer, materials);
  if (waits_for_the_fire(plan)) {
    writer.paragraph(std::string(wait_until_it_is_out));
    return;
  }
  say_now(writer, plan, materials);
  if (plan.stands && !is_seen(plan)) say_standing(writer, plan, materials);
  if (is_to_be_built(plan)) say_build(writer, plan, materials);
  if (plan.leaves_alone && !stands(plan)) say_leaves_alone(writer, *plan.leaves_alone, plan.today, materials);
  if (plan.greens_alone && !stands(plan)) say_greens_alone(writer, plan, materials);
  if (!plan.has_supplies && !is_order_only(plan) && !stands(plan))
    writer.paragraph(
        "There is nothing yet to build a pile of, and no lawn. Say what there is: [[supply]] and [[lawn.zone]] in the yard file, "
        "or `heapwright new` to be asked.");
  if (is_order_only(plan)) say_lawn(writer, plan, materials);
  writer.section(Depth::act).labels(at_a_glance(plan, materials));
  if (is_to_be_built(plan)) say_what_it_lacks(writer, plan.recipe.result, materials);
}

Page plan_page(const Answer<Plan>& answer, const Materials& materials) {
  const Plan& plan = answer.result;
  PageWriter writer("Compost plan", plan.title);
  say_what_to_do(writer, answer, materials);
  if (waits_for_the_fire(plan)) return std::move(writer).page();
  Grounds grounds = answer;
  if (stands(plan) || !plan.is_for_a_pile()) grounds.measure_first.reset();  // it went in
  end_act(writer, grounds, materials, work_of(plan));
  if (plan.recipe->mix && stands(plan))
    writer.section(Depth::why, "As it was planned (it stands: put none of this in again)")
        .block(Numbered{building_steps(plan.recipe.result, materials)});
  say_calendar(writer, plan, materials);
  const bool is_a_pile = plan.has_supplies && plan.is_for_a_pile();
  if (is_a_pile) say_why(writer, plan.recipe.result, materials, plan.fit ? room_words(plan.fit->result) : Words());
  say_why_of_forecast(writer, plan, materials);
  if (is_a_pile) say_why_of_compost(writer, plan);
  writer.section(Depth::why, "The lawn");
  if (plan.topdressing && !is_order_only(plan)) say_lawn(writer, plan, materials);
  if (plan.topdressing) say_why_of_nutrients(writer, plan.topdressing->result, materials);
  return finished(std::move(writer), grounds, materials);
}

}  // namespace heapwright
