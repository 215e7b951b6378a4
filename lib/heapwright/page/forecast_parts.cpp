#include "heapwright/page/forecast_parts.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "heapwright/maturity/hottest_of_days.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/page/pile_now.hpp"

namespace heapwright {
namespace {

AboutDifference width_of_core() { return {forecast_width.core}; }

/// No surer than it is: 6.5 are 6, and all of the sets are not all piles.
double tenths_of(double chance) { return std::round(10.0 * chance - 0.01); }

Words in_ten(double chance) {
  const double count = tenths_of(chance);
  return count >= 10.0 ? Words("more than 9 in 10") : say("about {} in 10", Number{count});
}

Words by_when(const Forecast& forecast) {
  switch (heats_by(forecast)) {
    case ByWhen::within_a_month: return "within a month";
    case ByWhen::before_winter: return "before winter";
    case ByWhen::before_spring: return "before spring";
    case ByWhen::by_its_day: return say("by {}", about_when(forecast, forecast.heats.counted_from + days_to_heat));
  }
  return {};
}

Words log_that_disagrees(const HeatsOrNot& heats, const Words& hot) {
  if (!heats.is_likely())
    return say(
        "your readings show that it got {}, more than the forecast has it: nothing is wrong with that. Expect it sooner than the dates of "
        "the forecast, and check that the file says all that went in",
        hot);
  return say(
      "your readings show that it has not got {}, and hardly a pile like it does so in the forecast: do not go by its dates. First look "
      "for "
      "what is wrong with it, and check that the file says what went in",
      hot);
}

/// Whether readings have shown already what a tip would bring.
bool got_hot_by_its_log(const HeatsOrNot& heats) { return heats.log_disagrees && !heats.is_likely(); }

/// In the measures that they were counted in; a change of a mix is known no better than to half a container.
Words changed_amount(const RecipeAmount& amount, double times, const Materials& materials) {
  constexpr double countable = 10.0;
  std::optional<ContainerCount> containers = amount.containers;
  if (containers) {
    const double count = times * containers->count;
    containers->count = count < countable ? 0.5 * std::round(2.0 * count) : std::round(count);
  }
  return say("{} of {}", own_measure(amount, containers, times * amount.volume, materials), amount.name);
}

/// " (13 leaf bags of autumn leaves, 26 buckets of grass clippings)"
Words changed_amounts(const WhatWouldTip& tip, const YardForecast& answer, const Materials& materials) {
  std::vector<Words> amounts;
  for (const RecipeAmount& amount : answer.amounts) {
    const auto times = tip.amounts.find(amount.id);
    if (times != tip.amounts.end() && is_positive(amount.mass)) amounts.push_back(changed_amount(amount, times->second, materials));
  }
  return amounts.empty() ? Words() : say(" ({})", joined(amounts));
}

Words change_in_short(const WhatWouldTip& tip, const YardForecast& answer) {
  switch (tip.change) {
    case HeatingChange::half_as_much_again: return "half as much again of the same mix";
    case HeatingChange::greener: return "more greens for some of the browns";
    case HeatingChange::packed_closer: return "shred it, wet it and tread it down";
    case HeatingChange::two_weeks_earlier:
      return answer.can_be_built_earlier ? "build it two weeks earlier" : "next year, build it two weeks earlier";
  }
  return {};
}

std::vector<Words> ready_row(const Forecast& forecast, const Words& use, const ReadyWindow& window) {
  const Words likely = window.likely ? about_when(forecast, *window.likely) : Words("not within three years");
  if (!window.early) return {use, likely, Words()};
  const Words late = window.late ? about_when(forecast, *window.late) : Words("years later");
  return {use, likely, say("{} and {}", about_when(forecast, *window.early), late)};
}

void add_uses(Grid& grid, const Forecast& forecast, const ReadyWindow& turf, const ReadyWindow& mature) {
  grid.rows.push_back(ready_row(forecast, "for the lawn", turf));
  grid.rows.push_back(ready_row(forecast, "for beds and pots", mature));
}

void add_branch(Grid& grid, const Words& head, const Forecast& forecast, const HeatingBranch& branch) {
  grid.rows.push_back({head});
  add_uses(grid, forecast, branch.turf, branch.mature);
}

Words if_not(const Forecast& forecast) {
  const std::optional<int>& later = forecast.heats.if_not->hot_from.likely;
  return later ? say("if it gets hot only later, from about {}:", about_when(forecast, *later)) : Words("if it does not:");
}

/// "between early May and late Nov 2027", the year once; "from late Jun 2027 on".
Words span_words(const Forecast& forecast, const ReadyWindow& window) {
  const Date early = date_of(forecast, *window.early);
  if (!window.late) return say("from {} on", HalfMonth{early});
  const Date late = date_of(forecast, *window.late);
  return say("between {} and {}", HalfMonth{early, early.year() != late.year()}, HalfMonth{late});
}

/// "between early May and late Nov 2027, most likely early Jun"
Words window_words(const Forecast& forecast, const ReadyWindow& window) {
  if (!window.early) return "not within three years";
  const Words span = span_words(forecast, window);
  if (!window.likely) return say("{}, if within three years", span);
  const Date early = date_of(forecast, *window.early);
  const bool is_all_one_year = window.late && early.year() == date_of(forecast, *window.late).year();
  return say("{}, most likely {}", span, HalfMonth{date_of(forecast, *window.likely), !is_all_one_year});
}

Words likely_words(const Forecast& forecast, const ReadyWindow& window) {
  return window.likely ? about_when(forecast, *window.likely) : Words("not within three years");
}

Words when_ready(const Forecast& forecast, ReadyWindow HeatingBranch::*of_branch, const ReadyWindow& window) {
  const HeatsOrNot& heats = forecast.heats;
  if (!heats.is_open()) return window_words(forecast, window);
  const ReadyWindow& hot = (*heats.if_it_heats).*of_branch;
  const ReadyWindow& not_hot = (*heats.if_not).*of_branch;
  const ReadyWindow either = either_way(hot, not_hot);
  constexpr int hardly_sooner = 15;                                                   // days
  if (hot.likely && not_hot.likely && *hot.likely + hardly_sooner > *not_hot.likely)  // what was fed last decides, not its heat
    return window_words(forecast, {either.early, std::max(*hot.likely, *not_hot.likely), either.late});
  return say("{} if it gets hot, else {}{}", likely_words(forecast, hot), likely_words(forecast, not_hot),
             either.early ? say("; {}", span_words(forecast, either)) : Words());
}

Words if_built_in_warmth(const Forecast& forecast) {
  return say(
      "no harm in building now. If you would rather wait, keep the browns dry and build in {}, at {} or more by day and night: then it is "
      "ready for the lawn about {}",
      HalfMonth{*forecast.warm_enough}, warm_enough, about_when(forecast, *forecast.built_in_warmth->turf_day));
}

Words note_words(ForecastNote note) {
  switch (note) {
    case ForecastNote::cold_start:
      return "it is built in frost: what is frozen stays so until it thaws, in this forecast at least. A pile that starts warm inside may "
             "not";
    case ForecastNote::hardly_heats: return "it takes its time, and weed seeds and diseases live on, so keep them out";
    case ForecastNote::weed_seeds_live: return "do not count on its heat to kill weed seeds and diseases: keep them out";
    case ForecastNote::few_greens:
      return "so few greens for the browns: gardening guides give such a pile up to two years, and the model does not slow down for it. "
             "Greens make the difference";
    case ForecastNote::freezes: return "while it is frozen leave it alone: it comes to no harm, and turning only cools it";
    case ForecastNote::gets_wet: return "rain soaks it in the end: once it is moist, keep a lid or tarp over it";
    case ForecastNote::in_small_vessel:
      return say("in a bin this small the forecast runs hot: expect {} less than it says, and fewer hot days",
                 AboutDifference{forecast_width.too_hot});
    case ForecastNote::too_big: return "a pile this big stays hot for longer than is shown: for months";
    case ForecastNote::windrow: return "there were no temperatures of windrows to test it on: watch your own";
    case ForecastNote::dries: return "it dries on the way. Squeeze a handful now and then, and water it when it does not clump";
    default: return {};
  }
}

/// The one that helps most.
Words best_tip(const YardForecast& answer) {
  const WhatWouldTip& best = answer.forecast->heats.what_would_tip.front();
  return say("To make it likelier to get hot: {} ({}).", change_in_short(best, answer), in_ten(best.chance));
}

/// @param hot what it gets, "hot"
Words heating_said(const YardForecast& answer, const Words& hot) {
  const Forecast& forecast = *answer.forecast;
  const HeatsOrNot& heats = forecast.heats;
  if (heats.log_disagrees) return log_that_disagrees(heats, hot);
  const char* by_log = heats.by_its_log ? "by your readings so far " : "";
  switch (heats.heating) {
    case Heating::will:
      return heats.by_its_log ? say("it gets {}, as your readings show", hot)
                              : say("it will most likely get {}, {}", hot, in_ten(heats.chance));
    case Heating::may: return say("{}it may or may not get {} {}: {} such piles do", by_log, hot, by_when(forecast), in_ten(heats.chance));
    case Heating::hardly:
    case Heating::not_at_all: break;
  }
  const std::optional<int>& later = heats.if_not->hot_from.likely;
  if (!later) return say("{}it will hardly get {} at all", by_log, hot);
  return say("{}it will hardly get {} {}, but about {}", by_log, hot, by_when(forecast), about_when(forecast, *later));
}

}  // namespace

Words about_when(const Forecast& forecast, int day) { return HalfMonth{date_of(forecast, day)}; }

Words heating_words(const YardForecast& answer) { return heating_said(answer, "hot"); }

Words heating_in_short(const Forecast& forecast) {
  const double count = tenths_of(forecast.heats.chance);
  switch (forecast.heats.heating) {
    case Heating::will:
    case Heating::may: return count >= 10.0 ? Words("over 9 in 10") : say("{} in 10", Number{count});
    case Heating::hardly: return "hardly";
    case Heating::not_at_all: return "no";
  }
  return {};
}

Words heating_sentence(const YardForecast& answer) {
  const Words hot = say("hot (above {})", AboutTemperature{hot_core});
  return say("{}.", capital(heating_said(answer, hot)));
}

std::vector<Words> heating_tips(const YardForecast& answer, const Materials& materials) {
  std::vector<Words> tips;
  if (answer.forecast->heats.heating == Heating::will || got_hot_by_its_log(answer.forecast->heats)) return tips;
  for (const WhatWouldTip& tip : answer.forecast->heats.what_would_tip)
    tips.push_back(say("{}{}: {}", change_in_short(tip, answer), changed_amounts(tip, answer, materials), in_ten(tip.chance)));
  return tips;
}

void say_heating_tips(PageWriter& writer, const YardForecast& answer, const Materials& materials) {
  std::vector<Words> tips = heating_tips(answer, materials);
  if (!tips.empty()) writer.paragraph("To make it likelier to get hot:").bullets(std::move(tips));
}

Grid readiness(const Forecast& forecast) {
  const HeatsOrNot& heats = forecast.heats;
  Grid grid{{Words(), "most likely", "between"}, {}};
  if (!heats.is_open()) {
    add_uses(grid, forecast, forecast.turf, forecast.mature);
    return grid;
  }
  add_branch(grid, say("if it gets hot, from about {}:", about_when(forecast, *heats.if_it_heats->hot_from.likely)), forecast,
             *heats.if_it_heats);
  add_branch(grid, if_not(forecast), forecast, *heats.if_not);
  return grid;
}

Words last_to_be_done(const Forecast& forecast) {
  if (forecast.status == ForecastStatus::never || !forecast.binding) return {};
  switch (*forecast.binding) {
    case Criterion::respiration: return "Last to be done is its rawest part; turning brings the outside in.";
    case Criterion::carbon_to_nitrogen: return "Last to come down is its C:N, which browns keep high.";
    case Criterion::rotted: return "Last to rot is its rawest part; turning brings the outside in.";
  }
  return {};
}

Words lawn_ready(const Forecast& forecast) { return when_ready(forecast, &HeatingBranch::turf, forecast.turf); }

Words beds_ready(const Forecast& forecast) { return when_ready(forecast, &HeatingBranch::mature, forecast.mature); }

Words ready_between(const Forecast& forecast) {
  if (!stalls(forecast)) return say("ready for the lawn {}", lawn_ready(forecast));
  return say("ready for the lawn about {} if you water it whenever it is dry; left dry, most likely {}",
             about_when(forecast, *forecast.watered->turf_day), about_when(forecast, *forecast.turf.likely));
}

Words if_watered(const Forecast& forecast) {
  if (!forecast.watered->turf_day) return "watered whenever it is dry, it would still not be ready within three years";
  return say("watered whenever it is dry, it would be ready for the lawn about {}", about_when(forecast, *forecast.watered->turf_day));
}

std::vector<Words> care_notes(const Forecast& forecast) {
  std::vector<Words> notes;
  for (const ForecastNote note : notes_that_count(forecast)) {
    if (Words words = note_words(note); !words.empty()) notes.push_back(std::move(words));
  }
  if (!warns_of_seeds(forecast)) notes.emplace_back("even a hot home pile leaves some weed seeds and diseases alive: keep them out");
  if (gains_by_waiting(forecast)) notes.push_back(if_built_in_warmth(forecast));
  const bool would_be_ready = forecast.watered && forecast.watered->turf_day;
  if (forecast.watered && !stalls(forecast) && (gains_by_water(forecast) || !would_be_ready)) notes.push_back(if_watered(forecast));
  if (wants_water(forecast)) notes.push_back(say("water for it, bit by bit: about {} in all", AboutWater{forecast.water_given}));
  return notes;
}

Words why_never_ready(const Forecast& forecast) {
  const std::optional<ForecastNote> note = why_never(forecast);
  Words why;
  switch (note.value_or(ForecastNote::too_slow)) {
    case ForecastNote::too_dry:
      why = say("it is too dry, {} moist in the end, and dry matter does not rot. Water it until a handful clumps",
                Percent{forecast.days.back().state.moisture.value()});
      break;
    case ForecastNote::too_wet: why = "it is soaked and has no air. Cover it, and turn dry browns in"; break;
    case ForecastNote::too_little_nitrogen:
      why = say(
          "it rots, but its C:N stays above {}: too few greens for the browns. Mix in greens, or leave it, two years or so, and use it as "
          "mulch",
          Number{turf_limits.carbon_to_nitrogen.value()});
      break;
    case ForecastNote::too_woody:
      why = "it is mostly wood, which rots over years and stays on the screen. Use it as mulch, or mix in plenty of greens";
      break;
    case ForecastNote::too_cold: why = "it hardly thaws where you are. Ask your extension office what works there"; break;
    default: why = "it works too slowly. More greens, a bigger pile, water in a dry spell and a few turnings help";
  }
  return say("not ready within three years: {}.", why);
}

Words chore_words(Chore chore, const YardForecast& answer) {
  const Forecast& forecast = *answer.forecast;
  switch (chore) {
    case Chore::water:
      if (!gains_by_water(forecast)) return "Squeeze a handful now and then. If it does not clump, water the pile.";
      return say("Squeeze a handful now and then. If it does not clump, water the pile: so it would be ready for the lawn about {}.",
                 about_when(forecast, *forecast.watered->turf_day));
    case Chore::dry: return "Keep a lid or tarp over it once it is moist: rain soaks it in the end.";
    case Chore::green: return "Mix in greens: there are too few for the browns.";
    case Chore::use_as_mulch: return "Use it as mulch, or mix in plenty of greens.";
    case Chore::ask_extension: return "Ask your extension office what works where it hardly thaws.";
    case Chore::speed_up: return "Add greens, make it bigger, water it in a dry spell and turn it now and then.";
    case Chore::tip: return best_tip(answer);
    case Chore::wait:
      return say("Build now, or keep the browns dry and build in {}: then it is ready for the lawn about {}.",
                 HalfMonth{*forecast.warm_enough}, about_when(forecast, *forecast.built_in_warmth->turf_day));
    case Chore::leave_frozen: return "Leave it alone while it is frozen.";
    case Chore::keep_seeds_out: return "Keep weed seeds and sick plants out: its heat does not kill them all.";
  }
  return {};
}

Words how_sure() {
  return say(
      "It is a model, held against published trials; some of them were ready a third sooner or two thirds later, and temperatures were off "
      "by {}. Your thermometer and your hand know better.",
      width_of_core());
}

Words why_no_forecast(const YardForecast& answer) {
  if (answer.age_unknown) return "The pile stands, and the file does not say since when: put the day it was filled into built =.";
  if (answer.nothing_rots)
    return "Nothing in it rots, or hardly anything: it is soil or finished compost already. Mix in greens and browns.";
  if (answer.too_little && answer.week_by_week)
    return "What a week brings is less than a bucketful: too little to say what it will do. Begin with more of what keeps.";
  if (answer.too_little) return "Once it has settled that is less than a bucketful: too little to say what it will do. Add to it.";
  return "There is nothing yet to build a pile of: say what there is, and how much, in [[supply]].";
}

Words span_of(const Spell& spell) {
  constexpr std::chrono::days most_of_a_year(300);
  if (is_same_half_month(spell.from, spell.to)) return HalfMonth{spell.from, false};
  const bool names_a_month_twice = std::chrono::sys_days(spell.to) - std::chrono::sys_days(spell.from) > most_of_a_year;
  return say("{} to {}", HalfMonth{spell.from, false}, HalfMonth{spell.to, names_a_month_twice});
}

Words core_of(const Spell& spell) { return spell.dry ? Words("like the air") : say("about {}", AboutTemperature{spell.core}); }

namespace {

/// @param days how far it goes
Chart chart_of_days(const Forecast& forecast, std::size_t days) {
  Chart chart{"Temperature of its core", {}, {}, {}, {}};
  for (std::size_t day = 0; day < std::min(days, forecast.days.size()); ++day) {
    const DayOfForecast& one = forecast.days[day];
    chart.points.push_back({date_of(forecast, static_cast<int>(day)), one.core_low, one.state.core, one.core_high, one.air});
  }
  return chart;
}

}  // namespace

std::string_view branch_shown(const Forecast& forecast) {
  if (says(forecast, ForecastNote::core_of_those_that_heat)) return " if it gets hot";
  return says(forecast, ForecastNote::core_of_those_that_do_not) ? " if it does not get hot" : "";
}

Chart temperature_chart(const Forecast& forecast) {
  Chart chart = chart_of_days(forecast, forecast.days.size());
  chart.title += branch_shown(forecast);
  const std::vector<Spell> spells = spells_of(forecast);
  std::vector<Words> words;
  for (const Spell& spell : spells) words.push_back(say("{} {}", span_of(spell), core_of(spell)));
  chart.in_words = say("{}.", joined(words, "; "));
  return chart;
}

void add_measured(Chart& chart, const YardReadings& readings) {
  if (!readings.log || !readings.summary) return;
  for (const PileReading& reading : hottest_of_days(sound_readings(*readings.log).sound))
    chart.readings.push_back({reading.time.day(), reading.temperature});
  for (const LogRow& row : readings.log->rows) {
    if (row.turned) chart.turned.push_back(row.time.day());
  }
  const Words turned = chart.turned.empty() ? Words() : say("; turned {}", Count{static_cast<double>(chart.turned.size()), "time"});
  chart.in_words += say("{}Measured: {} at most, {} at the end{}.", chart.in_words.empty() ? "" : " ",
                        reading_words(readings.summary->peak), reading_words(readings.summary->latest), turned);
}

std::optional<Chart> measured_chart(const YardReadings& readings) {
  if (!readings.log || !readings.summary) return std::nullopt;
  constexpr std::chrono::days looked_ahead(28);  // more would leave the log no room
  Chart chart{"Temperature of its core, as measured", {}, {}, {}, {}};
  const Forecast* forecast = readings.forecast && (*readings.forecast)->forecast ? &*(*readings.forecast)->forecast : nullptr;
  if (forecast != nullptr && !forecast->heats.log_disagrees) {
    const auto days = std::chrono::sys_days(readings.summary->last.day()) + looked_ahead - std::chrono::sys_days(forecast->built);
    chart.points = chart_of_days(*forecast, static_cast<std::size_t>(std::max<std::int64_t>(0, days.count()))).points;
    chart.title = "Temperature of its core, as measured and as forecast by it";
  }
  add_measured(chart, readings);
  return chart;
}

}  // namespace heapwright
