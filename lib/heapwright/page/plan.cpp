#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/page/nutrients_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/pile_now.hpp"
#include "heapwright/page/pile_parts.hpp"
#include "heapwright/page/recipe_parts.hpp"
#include "heapwright/page/topdressing_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

/// "Saturday, Oct 24: fill the bin"
Words heading_of(const Plan& plan) {
  if (!plan.pile) return say("{}: build the pile", DayOfWeek{plan.built});
  const std::string noun = pile_noun(plan.pile->shape);
  const bool is_filled = plan.pile->shape != PileShape::cone && plan.pile->shape != PileShape::windrow;
  const bool one_of_several = plan.pile->count > 1 && plan.fit && (*plan.fit)->piles_needed == 1;
  return say("{}: {} {} {}", DayOfWeek{plan.built}, is_filled ? "fill" : "build", one_of_several ? "one" : "the", noun);
}

/// Whether it was built: it has been measured, looked at or tested.
bool stands(const Plan& plan) { return (plan.readings && is_anything_seen(plan.readings->result)) || plan.maturity; }

/// A lawn and no pile: what to spread on it is the whole answer.
bool is_order_only(const Plan& plan) { return plan.topdressing && !plan.has_supplies && !stands(plan); }

/// What to do with it once it stands.
Words care_of(const Plan& plan) {
  constexpr std::string_view squeeze = "add water if it crumbles, dry leaves if it drips";
  if (!plan.pile || !plan.pile->turn_every) return say("leave it unturned; {}", squeeze);
  const std::string_view turn = plan.pile->shape == PileShape::tumbler ? "rotate" : "turn";
  return say("{} it every {}; {}", turn, *plan.pile->turn_every, squeeze);
}

const Forecast* forecast_in(const Plan& plan) {
  return plan.forecast && (*plan.forecast)->forecast ? &*(*plan.forecast)->forecast : nullptr;
}

Words expected(const Plan& plan) {
  const Forecast* forecast = forecast_in(plan);
  if (forecast == nullptr) return "done when dark and crumbly, smelling of earth, and no longer warm after turning";
  const Words heat = heating_words(plan.forecast->result);
  if (forecast->heats.log_disagrees) return heat;  // and no date holds
  if (forecast->status == ForecastStatus::never) return say("{}; {}", heat, why_never_ready(*forecast));
  return say("{}; {}", heat, ready_between(*forecast));
}

/// The steps of today's work.
WorkSteps work_of(const Plan& plan) {
  if (plan.readings && is_anything_seen(plan.readings->result)) return {"turn", "gather"};
  if (plan.maturity || !plan.has_supplies) return {"use"};
  return {"gather", "build"};
}

/// In place of what to buy, while none is to be spread.
std::string_view in_place_of_buying(const SpreadingAdvice& advice) {
  if (advice.phosphorus == PhosphorusVerdict::hold) return "once cleared. Till then buy none; keep yours covered";
  if (advice.compost_too_salty) return "with yours. Buy none of that compost: ask for one with less salt";
  return "once thawed. Till then buy none; keep yours covered";
}

/// How far the compost goes, and what to buy for the rest.
Words covered(const Plan& plan) {
  const Topdressing& spread = plan.topdressing->result;
  const SupplyBalance& supply = plan.supply;
  const Words goes = supply.covers ? Words(OutOf{*supply.covers, spread.area}) : say("none of {}", spread.area);
  if (!is_positive(*supply.to_buy)) return say("all of {}, {} deep: nothing to buy", spread.area, SpreadDepth{spread.depth});
  if (spread.advice.is_hold()) return say("{} {}", goes, in_place_of_buying(spread.advice));
  return say("{}, {} deep. To buy for the rest: {} of compost", goes, SpreadDepth{spread.depth}, *supply.to_buy);
}

Labels at_a_glance(const Plan& plan, const Materials& materials) {
  Labels labels;
  const auto add = [&](const char* name, Words words) {
    if (!words.empty()) labels.labels.push_back({name, std::move(words)});
  };
  if (has_size(plan.recipe.result) && !stands(plan)) {
    const char* name = "Later";
    for (Words& card : card_words(plan.recipe.result, materials)) add(std::exchange(name, ""), std::move(card));
    add("", how_long_browns_last(plan.recipe.result));
    add("Then", care_of(plan));
    add("Expect", expected(plan));
  }
  if (plan.topdressing && plan.has_supplies) {
    const Topdressing& spread = plan.topdressing->result;
    if (spread.advice.phosphorus == PhosphorusVerdict::hold)
      add("Hold", "phosphorus is high: spread none until your extension office clears it");
    if (spread.advice.compost_too_salty) add("Hold", "the compost to buy is too salty for a lawn: spread none of it");
    if (spread.advice.frozen_or_snow) add("Hold", "spread none while the ground is frozen or under snow");
    if (spread.advice.asks_laboratory())
      add("Ask", say("your laboratory: is phosphorus \"{}\" high? If so, hold", spread.plan.soil_test->phosphorus));
    add("Covers", covered(plan));
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

void say_why_of_forecast(PageWriter& writer, const Plan& plan, const Materials& materials) {
  const Forecast* forecast = forecast_in(plan);
  if (forecast == nullptr) return;
  const bool measured = plan.maturity && (*plan.maturity)->known.rating.rating;
  writer.section(Depth::why, "What it will do").paragraph(capital(say("{}.", expected(plan))));
  writer.bullets(care_notes(*forecast));
  say_heating_tips(writer, plan.forecast->result, materials);
  if (forecast->status != ForecastStatus::never && !measured && !forecast->heats.log_disagrees) writer.block(readiness(*forecast));
  writer.paragraph("It is done when it is dark and crumbly, smells of earth, and no longer warms up after turning.");
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
  if (plan.supply.needed) {
    writer.paragraph(say("The lawn takes {} a year.", *plan.supply.needed));
  } else {
    writer.paragraph("No lawn is measured: add [[lawn.zone]] to see how far it goes.");
  }
}

/// "Sep 1 to Sep 30", "early to late Jun", "from Nov 7 every 14 days to Mar 1"
Words when_words(const CalendarChore& chore) {
  if (chore.about) {
    if (is_same_half_month(chore.from, chore.to)) return HalfMonth{chore.from};
    return say("{} to {}", HalfMonth{chore.from, chore.from.year() != chore.to.year()}, HalfMonth{chore.to});
  }
  if (chore.every) return say("every {} days, {} to {}", Number{static_cast<double>(chore.every->count())}, chore.from, chore.to);
  return chore.from == chore.to ? Words(chore.from) : say("{} to {}", chore.from, chore.to);
}

void say_calendar(PageWriter& writer, const Plan& plan, const Materials& materials) {
  std::vector<Words> chores;
  for (const CalendarChore& chore : plan.calendar)
    chores.push_back(say("{}: {} ({}; {}).", when_words(chore), chore.what.text, chore.what.why,
                         source_in_short(materials, chore.what.source, chore.what.evidence)));
  writer.section(Depth::why, "The calendar").bullets(std::move(chores));
}

void say_lawn(PageWriter& writer, const Plan& plan, const Materials& materials) {
  say_hold(writer, plan.topdressing->result);
  say_topdressing(writer, plan.topdressing->result, materials);
}

}  // namespace

Page plan_page(const Answer<Plan>& answer, const Materials& materials) {
  const Plan& plan = answer.result;
  PageWriter writer("Compost plan", plan.title);
  urgent_cautions(writer, answer, materials);
  if (plan.readings && (*plan.readings)->smokes) {
    writer.paragraph(std::string(wait_until_it_is_out));
    return std::move(writer).page();
  }
  say_now(writer, plan, materials);
  if (plan.has_supplies && !stands(plan)) say_build(writer, plan, materials);
  if (!plan.has_supplies && !is_order_only(plan) && !stands(plan))
    writer.paragraph(
        "There is nothing yet to build a pile of, and no lawn. Say what there is: [[supply]] and [[lawn.zone]] in the yard file, "
        "or `heapwright new` to be asked.");
  if (is_order_only(plan)) say_lawn(writer, plan, materials);
  writer.section(Depth::act).labels(at_a_glance(plan, materials));
  if (!stands(plan)) say_what_it_lacks(writer, plan.recipe.result, materials);
  Grounds grounds = answer;
  if (stands(plan)) grounds.measure_first.reset();  // it went in
  end_act(writer, grounds, materials, work_of(plan));
  if (plan.recipe->mix && stands(plan))
    writer.section(Depth::why, "As it was planned (it stands: put none of this in again)")
        .block(Numbered{building_steps(plan.recipe.result, materials)});
  say_calendar(writer, plan, materials);
  if (plan.has_supplies) say_why(writer, plan.recipe.result, materials, plan.fit ? room_words(plan.fit->result) : Words());
  say_why_of_forecast(writer, plan, materials);
  if (plan.has_supplies) say_why_of_compost(writer, plan);
  writer.section(Depth::why, "The lawn");
  if (plan.topdressing && !is_order_only(plan)) say_lawn(writer, plan, materials);
  if (plan.topdressing) say_why_of_nutrients(writer, plan.topdressing->result, materials);
  return finished(std::move(writer), grounds, materials);
}

}  // namespace heapwright
