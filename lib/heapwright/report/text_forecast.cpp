#include <algorithm>
#include <cmath>
#include <sstream>

#include "heapwright/input/words.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

std::string year_of(Date date) { return std::to_string(static_cast<int>(date.year())); }

std::string when(const Forecast& forecast, int day) { return about_when(date_of(forecast, day)); }

/// To 5 °F or 3 °C: it is known no better than to 20 °F either way.
std::string about_temperature(double celsius, const Show& show) {
  if (!show.in_us_units()) return show.temperature(TemperaturePoint::from_celsius(3.0 * std::round(celsius / 3.0)));
  const double fahrenheit = TemperaturePoint::from_celsius(celsius).fahrenheit();
  return show.temperature(TemperaturePoint::from_fahrenheit(5.0 * std::round(fahrenheit / 5.0)));
}

// How a pile feels by its core. Judged.
enum class Warmth { frozen, cold, cool, warm, hot };
Warmth warmth_of(double core_degc) {
  if (core_degc <= 1.0) return Warmth::frozen;
  if (core_degc < 10.0) return Warmth::cold;
  if (core_degc < 25.0) return Warmth::cool;
  return core_degc < 45.0 ? Warmth::warm : Warmth::hot;
}

std::string words_of(Warmth warmth, bool dry) {
  if (dry && warmth >= Warmth::cold) return "dry: it stands still";
  switch (warmth) {
    case Warmth::frozen: return "frozen or nearly: it rests";
    case Warmth::cold: return "cold: it hardly works";
    case Warmth::cool: return "cool: it works slowly";
    case Warmth::warm: return "warm: it works well";
    case Warmth::hot: return "hot: it works hardest";
  }
  return {};
}

/// Half-months of the same warmth, one after another.
struct Spell {
  Date from;
  Date to;
  Warmth warmth;
  bool dry;
  double core_degc;  ///< the warmest of it; of the cold ones the coldest
};

/// The warmest a pile gets in each half-month says how it feels in it: a warm week in a cold month is what its owner sees.
std::vector<Spell> spells_of(const Forecast& forecast) {
  std::vector<Spell> spells;
  std::size_t begin = 0;
  while (begin < forecast.days.size()) {
    const Date first = date_of(forecast, static_cast<int>(begin));
    std::size_t end = begin;
    double warmest = -100.0;
    double moistest = 0.0;
    Date last = first;
    while (end < forecast.days.size()) {
      const Date day = date_of(forecast, static_cast<int>(end));
      if (day.month() != first.month() || is_early(day) != is_early(first)) break;
      warmest = std::max(warmest, forecast.days[end].state.core_degc);
      moistest = std::max(moistest, forecast.days[end].state.moisture);
      last = day;
      ++end;
    }
    const bool dry = moistest < dry_moisture;
    const Warmth warmth = dry ? std::min(Warmth::cool, warmth_of(warmest)) : warmth_of(warmest);
    if (!spells.empty() && spells.back().warmth == warmth && spells.back().dry == dry) {
      Spell& spell = spells.back();
      spell.to = last;
      spell.core_degc = warmth >= Warmth::cool ? std::max(spell.core_degc, warmest) : std::min(spell.core_degc, warmest);
    } else {
      spells.push_back({first, last, warmth, dry, warmest});
    }
    begin = end;
  }
  return spells;
}

std::string span_of(const Spell& spell) {
  const std::string from = half_month(spell.from);
  const std::string to = half_month(spell.to);
  if (from == to && spell.from.year() == spell.to.year()) return from;
  const auto most_of_a_year = std::chrono::days(300);
  const bool names_a_month_twice = std::chrono::sys_days(spell.to) - std::chrono::sys_days(spell.from) > most_of_a_year;
  return from + " to " + to + (names_a_month_twice ? " " + year_of(spell.to) : "");
}

/// Whether it dries and stands still, so that water counts for more than waiting.
bool stalls(const Forecast& forecast) {
  constexpr int two_months = 60;
  return forecast.turf.likely && forecast.watered && forecast.watered->turf_day &&
         *forecast.watered->turf_day + two_months < *forecast.turf.likely;
}

/// Of a pile that may go two ways, which of them is shown.
std::string branch_shown(const Forecast& forecast) {
  const auto shows = [&](ForecastNote note) {
    return std::find(forecast.notes.begin(), forecast.notes.end(), note) != forecast.notes.end();
  };
  if (shows(ForecastNote::core_of_those_that_heat)) return " if it gets hot";
  return shows(ForecastNote::core_of_those_that_do_not) ? " if it does not get hot" : "";
}

std::string course_text(const Forecast& forecast, const Show& show) {
  const std::size_t most_spells = forecast.status == ForecastStatus::never || stalls(forecast) ? 5 : 9;
  std::vector<std::vector<std::string>> rows;
  const std::vector<Spell> spells = spells_of(forecast);
  for (std::size_t i = 0; i < std::min(spells.size(), most_spells); ++i)
    rows.push_back({"  " + year_of(spells[i].from), span_of(spells[i]),
                    spells[i].dry ? "like the air" : "about " + about_temperature(spells[i].core_degc, show),
                    words_of(spells[i].warmth, spells[i].dry)});
  std::string text = "\nWhat it will do" + branch_shown(forecast) + "\n" + columns(rows);
  if (spells.size() > most_spells) text += "  and so on\n";
  return text + "  (The core at its warmest, " + std::string(show.in_us_units() ? "20 °F" : "10 °C") + " either way.)\n";
}

std::string range_of(const Forecast& forecast, const ReadyWindow& window) {
  if (!window.early) return "";
  const std::string early = when(forecast, *window.early);
  return window.late ? early + " and " + when(forecast, *window.late) : early + " and years later";
}

std::vector<std::string> ready_row(const Forecast& forecast, const std::string& use, const ReadyWindow& window) {
  return {"  " + use, window.likely ? when(forecast, *window.likely) : "not within three years", range_of(forecast, window)};
}

using Rows = std::vector<std::vector<std::string>>;

const std::vector<std::string> ready_head{"", "most likely", "between"};

void add_uses(Rows& rows, const Forecast& forecast, const ReadyWindow& turf, const ReadyWindow& mature) {
  rows.push_back(ready_row(forecast, "for the lawn", turf));
  rows.push_back(ready_row(forecast, "for beds and pots", mature));
}

/// Both ways in one table, each below a line of its own.
std::string table_of_branches(const Forecast& forecast) {
  const HeatsOrNot& heats = forecast.heats;
  Rows rows{ready_head};
  add_uses(rows, forecast, heats.if_it_heats->turf, heats.if_it_heats->mature);
  add_uses(rows, forecast, heats.if_not->turf, heats.if_not->mature);
  const auto from = [&](const HeatingBranch& way) { return ", from about " + when(forecast, *way.hot_from.likely); };
  std::istringstream lines(columns(rows));
  std::string text, line;
  for (int number = 0; std::getline(lines, line); ++number) {
    if (number == 1) text += "  if it gets hot" + from(*heats.if_it_heats) + ":\n";
    if (number == 3)
      text += heats.if_not->hot_from.likely ? "  if it gets hot only later" + from(*heats.if_not) + ":\n" : "  if it does not:\n";
    text += line + "\n";
  }
  return text;
}

std::string last_to_be_done(const Forecast& forecast) {
  if (forecast.status == ForecastStatus::never || !forecast.binding) return {};
  switch (*forecast.binding) {
    case Criterion::respiration: return wrap("  Last to be done is its rawest part; turning brings the outside in.", 2);
    case Criterion::carbon_to_nitrogen: return wrap("  Last to come down is its C:N, which browns keep high.", 2);
    case Criterion::rotted: return wrap("  Last to rot is its rawest part; turning brings the outside in.", 2);
  }
  return {};
}

/// "before winter", of a pile built from August on; "within a month" of one that has the summer before it.
std::string by_when(const Forecast& forecast) {
  const std::chrono::month month = forecast.built.month();
  if (month >= std::chrono::August && month <= std::chrono::October) return "before winter";
  return month >= std::chrono::November || month == std::chrono::January ? "before spring" : "within a month";
}

/// No surer than it is: 6.5 are 6, and all of the sets are not all piles.
std::string in_ten(double chance) {
  const long count = std::lround(10.0 * chance - 0.01);
  if (count >= 10) return "more than 9 in 10";
  return "about " + std::to_string(count) + " in 10";
}

std::string hot_words(const Forecast& forecast) {
  const HeatsOrNot& heats = forecast.heats;
  if (heats.log_disagrees)
    return std::string("your readings show that it ") + (heats.chance >= 0.5 ? "has not got" : "got") +
           " hot, and hardly a pile like it does so in the forecast: do not go by its dates. Look first at what is wrong with it, and "
           "whether the file tells what went in";
  const std::string by_log = heats.by_its_log ? "by your readings so far " : "";
  switch (heats.heating) {
    case Heating::will: return heats.by_its_log ? "it gets hot, as your readings show" : "it will most likely get hot";
    case Heating::may: return by_log + "it may or may not get hot " + by_when(forecast) + ": " + in_ten(heats.chance) + " such piles do";
    case Heating::hardly:
    case Heating::not_at_all: break;
  }
  if (!heats.if_not->hot_from.likely) return by_log + "it will hardly get hot at all";
  return by_log + "it will hardly get hot " + by_when(forecast) + ", but about " + when(forecast, *heats.if_not->hot_from.likely);
}

/// " (13 leaf bags of autumn leaves, 26 buckets of grass clippings)", in the measures that they were counted in.
std::string amounts_text(const std::map<std::string, double>& times, const YardForecast& answer, const Materials& materials,
                         const Show& show) {
  constexpr double countable = 10.0;
  std::string text;
  for (const RecipeAmount& amount : answer.amounts) {
    const auto of_this = times.find(amount.id);
    if (of_this == times.end() || !(amount.mass.value() > 0.0)) continue;
    std::optional<ContainerCount> containers = amount.containers;
    if (containers) {
      const double count = of_this->second * containers->count;
      containers->count = count < countable ? 0.5 * std::round(2.0 * count) : std::round(count);
    }
    text += (text.empty() ? " (" : ", ") + own_measure(amount, containers, of_this->second * amount.volume, materials, show) + " of " +
            amount.name;
  }
  return text.empty() ? text : text + ")";
}

std::string change_text(const WhatWouldTip& tip, const YardForecast& answer, const Materials& materials, const Show& show) {
  switch (tip.change) {
    case HeatingChange::half_as_much_again: return "half as much again of the same mix";
    case HeatingChange::greener: return "more greens for some of the browns" + amounts_text(tip.amounts, answer, materials, show);
    case HeatingChange::packed_closer: return "shred it, wet it and tread it down";
    case HeatingChange::two_weeks_earlier:
      return answer.can_be_built_earlier ? "build it two weeks earlier" : "next year, two weeks earlier";
  }
  return {};
}

}  // namespace

std::string text_of_heating(const YardForecast& answer, const Materials& materials, const Show& show) {
  const Forecast& forecast = *answer.forecast;
  std::string text = item(hot_words(forecast));
  const std::vector<WhatWouldTip>& tips = forecast.heats.what_would_tip;
  if (tips.empty() || forecast.heats.heating == Heating::will) return text;
  text += "  To make it likelier:\n";
  for (const WhatWouldTip& tip : tips) text += wrap("  - " + change_text(tip, answer, materials, show) + ": " + in_ten(tip.chance), 4);
  return text;
}

std::string text_of_readiness(const Forecast& forecast) {
  const HeatsOrNot& heats = forecast.heats;
  if (heats.is_open()) return table_of_branches(forecast) + last_to_be_done(forecast);
  Rows rows{ready_head};
  add_uses(rows, forecast, forecast.turf, forecast.mature);
  return columns(rows) + last_to_be_done(forecast);
}

namespace {

std::string pile_text(const YardForecast& answer, const Show& show) {
  const Forecast& forecast = *answer.forecast;
  std::string text = "A pile of " + show.volume(*answer.volume);
  const long weeks = answer.care.feeding ? std::lround((forecast.filled_in_all - 1.0) / answer.care.feeding->share) : 0;
  text += answer.care.feeding ? (answer.week_by_week ? " at first, fed for " : " at first, topped up as it sinks for ") +
                                    std::to_string(weeks) + (weeks == 1 ? " week" : " weeks") + ", begun in "
                              : ", once it has settled, built in ";
  text += about_when(forecast.built);
  if (answer.care.turn_every) text += ", turned every " + show.days(*answer.care.turn_every * 86400.0 * unit::s);
  if (answer.care.wet_to) text += answer.care.turn_every ? " and watered when dry" : ", watered when dry";
  if (!answer.care.turn_every) text += ", never turned";
  constexpr double a_little_more = 1.5;
  if (answer.piles > 1)
    text += answer.fills < a_little_more ? "; what does not fit goes in as it sinks"
                                         : "; there is enough for " + std::to_string(answer.piles) + " such piles";
  return wrap(text + ".") + "\n";
}

std::string instead_text(const Forecast& forecast, const Instead& instead, const std::string& done) {
  if (!instead.turf_day) return done + ", it would still not be ready within three years";
  return done + ", it would be ready for the lawn about " + when(forecast, *instead.turf_day);
}

std::string why_never_text(const Forecast& forecast, ForecastNote note) {
  switch (note) {
    case ForecastNote::too_dry:
      return "it is too dry, " + show_percent(forecast.days.back().state.moisture) +
             " moist in the end, and dry matter does not rot. Water it until a handful clumps";
    case ForecastNote::too_wet: return "it is soaked and has no air. Cover it, and turn dry browns in";
    case ForecastNote::too_little_nitrogen:
      return "it rots, but its C:N stays above 30: too few greens for the browns. Mix in greens, or leave it, two years or "
             "so, and use it as mulch";
    case ForecastNote::too_woody:
      return "it is mostly wood, which rots over years and stays on the screen. Use it as mulch, or mix in plenty of greens";
    case ForecastNote::too_cold: return "it hardly thaws where you are. Ask your extension office what works there";
    case ForecastNote::too_slow: return "it works too slowly. More greens, a bigger pile, water in a dry spell and a few turnings help";
    default: return {};
  }
}

/// Waiting is told of only where it gains something.
bool gains_by_waiting(const Forecast& forecast) {
  if (!forecast.built_in_warmth || !forecast.built_in_warmth->turf_day) return false;
  const ReadyWindow& now = forecast.heats.is_open() ? forecast.heats.if_not->turf : forecast.turf;
  return !now.likely || *forecast.built_in_warmth->turf_day < *now.likely;
}

std::string warmth_text(const Forecast& forecast, const Show& show) {
  return "no harm in building now. If you would rather wait, keep the browns dry and build in " + about_when(*forecast.warm_enough) +
         ", at " + show.temperature(TemperaturePoint::from_celsius(10.0)) +
         " or more by day and night: then it is ready for the lawn about " + when(forecast, *forecast.built_in_warmth->turf_day);
}

std::string note_text(ForecastNote note, const Show& show) {
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
      return "in a bin this small the forecast runs hot: expect " + std::string(show.in_us_units() ? "10 °F" : "6 °C") +
             " less than it says, and fewer hot days";
    case ForecastNote::too_big: return "a pile this big stays hot for longer than is shown: for months";
    case ForecastNote::windrow: return "no windrow's temperatures were there to test it on: watch your own";
    case ForecastNote::dries: return "it dries on the way. Squeeze a handful now and then, and water it when it does not clump";
    default: return {};
  }
}

/// What why_never_ready() says, or makes no matter.
bool is_said_by_why_never(ForecastNote note) {
  switch (note) {
    case ForecastNote::few_greens:
    case ForecastNote::in_small_vessel:
    case ForecastNote::too_big:
    case ForecastNote::windrow:
    case ForecastNote::weed_seeds_live: return false;
    default: return true;
  }
}

/// Nobody knows more of the water of a year.
WaterMass two_digits(WaterMass water) {
  const double step = std::pow(10.0, std::floor(std::log10(water.value())) - 1.0);
  return step * std::round(water.value() / step) * unit::kg_water;
}

bool warns_of_seeds(const Forecast& forecast) {
  return std::any_of(forecast.notes.begin(), forecast.notes.end(),
                     [](ForecastNote note) { return note == ForecastNote::weed_seeds_live || note == ForecastNote::hardly_heats; });
}

}  // namespace

std::string text_of_pile_notes(const Forecast& forecast, const Show& show) {
  std::string text;
  for (const ForecastNote note : forecast.notes) {
    if (forecast.status == ForecastStatus::never && is_said_by_why_never(note)) continue;
    const std::string words = note_text(note, show);
    if (!words.empty()) text += item(words);
  }
  if (!warns_of_seeds(forecast)) text += item("even a hot home pile leaves some weed seeds and diseases alive: keep them out");
  if (gains_by_waiting(forecast)) text += item(warmth_text(forecast, show));
  if (forecast.watered && !stalls(forecast)) text += item(instead_text(forecast, *forecast.watered, "watered whenever it is dry"));
  if (forecast.water_given.value() > 1.0)
    text += item("water for it, bit by bit: about " + show.water(two_digits(forecast.water_given)) + " in all");
  return text;
}

std::string why_never_ready(const Forecast& forecast) {
  std::string text = "not ready within three years";
  for (const ForecastNote note : forecast.notes) {
    const std::string words = why_never_text(forecast, note);
    if (!words.empty()) text += ": " + words;
  }
  return text + ".";
}

namespace {

std::string notes_text(const Forecast& forecast, const Show& show) {
  const std::string text = text_of_pile_notes(forecast, show);
  return text.empty() ? text : "\nWhat to do about it\n" + text;
}

std::string left_text(const YardForecast& answer, const Show& show) {
  const Forecast& forecast = *answer.forecast;
  if (!answer.screened) return {};
  std::string text = wrap("  About " + show.volume(answer.finished_volume) + " as it lies, of all that goes in; some " +
                              show.mass(answer.mass) + ", once it is as moist as compost is spread. Screened about " +
                              show.volume_band(answer.screened->likely, answer.screened->low, answer.screened->high) +
                              ": lumps stay behind for the next pile, and fine compost lies closer.",
                          2);
  text += wrap("  " + show_percent(forecast.finished.volatile_solids_loss) + " of its organic matter is gone by then and " +
                   show_percent(forecast.finished.nitrogen_loss) + " of its nitrogen; its C:N is " +
                   std::to_string(std::lround(forecast.finished.carbon_to_nitrogen)) + ", give or take 4.",
               2);
  return "\nWhat it leaves\n" + text;
}

/// A mix off what works rots as the model has it at best.
std::string mix_text(const YardForecast& answer) {
  if (answer.on_target) return {};
  return wrap("The mix is off what works: " + character(*answer.mix, answer.targets) +
              ". Set it right first: `heapwright recipe` says with what. As it is, expect it cooler and later than this:") +
         "\n";
}

std::string first_lines(const Forecast& forecast) {
  const std::string dry =
      stalls(forecast)
          ? wrap("It dries out and stands still. " + instead_text(forecast, *forecast.watered, "Watered whenever it is dry") + ".") + "\n"
          : "";
  const std::string ready = dry + (dry.empty() ? "Ready" : "Left dry, ready") + ", three weeks of rest at the end included\n" +
                            text_of_readiness(forecast) +
                            wrap("  If it still warms up after a turning then, leave it until it does not.", 2);
  if (forecast.status == ForecastStatus::never) return wrap("Left as it is: " + why_never_ready(forecast));
  return ready;
}

std::string trust_text(const Show& show) {
  return "\n" +
         wrap(
             "How sure is that? It is a model, held against published trials; some of them were ready a third "
             "sooner or two thirds later, and temperatures were off by " +
             std::string(show.in_us_units() ? "20 °F" : "10 °C") +
             ". Your thermometer and your hand know better. `--turn-every`, `--built`, `--height` and `--keep-moist` show what would "
             "change it; `--table` goes week by week.");
}

std::string nothing_to_forecast(const YardForecast& answer) {
  if (answer.nothing_rots)
    return wrap("Nothing in it rots, or hardly anything: it is soil or finished compost already. Mix in greens and browns.");
  if (answer.too_little && answer.week_by_week)
    return wrap("What a week brings is less than a bucketful: too little to say what it will do. Begin with more of what keeps.");
  if (answer.too_little) return wrap("Once it has settled that is less than a bucketful: too little to say what it will do. Add to it.");
  return wrap("There is nothing yet to build a pile of: say what there is, and how much, in [[supply]].");
}

}  // namespace

std::string text_of_forecast(const Answer<YardForecast>& whole, const Materials& materials, const Show& show) {
  const YardForecast& answer = whole.result;
  if (!answer.forecast) return nothing_to_forecast(answer);
  const Forecast& forecast = *answer.forecast;
  return text_of_first_cautions(whole.cautions, materials) + pile_text(answer, show) + mix_text(answer) + "Does it get hot, above " +
         about_temperature(hot_core_degc, show) + "?\n" + text_of_heating(answer, materials, show) + "\n" + first_lines(forecast) +
         course_text(forecast, show) + notes_text(forecast, show) + left_text(answer, show) + trust_text(show) +
         text_of_assumptions(whole.assumptions, std::nullopt, show) + text_of_cautions(whole.cautions, materials);
}

std::string table_of_forecast(const YardForecast& answer, const Show& show) {
  if (!answer.forecast) return nothing_to_forecast(answer);
  const Forecast& forecast = *answer.forecast;
  std::vector<std::vector<std::string>> rows{{"week of", "air", "core", "edge", "moisture", "left", "C:N", "breath"}};
  for (std::size_t day = 0; day < forecast.days.size(); day += 7) {
    const DayOfForecast& one = forecast.days[day];
    const auto temperature = [&](double celsius) { return show.temperature(TemperaturePoint::from_celsius(celsius)); };
    const double respiration = one.state.respiration_worst;
    rows.push_back({print_date(date_of(forecast, static_cast<int>(day))), temperature(one.air_degc), temperature(one.state.core_degc),
                    temperature(one.state.edge_degc), show_percent(one.state.moisture), show_percent(1.0 - one.state.volatile_solids_loss),
                    std::isfinite(one.state.carbon_to_nitrogen) ? std::to_string(std::lround(one.state.carbon_to_nitrogen)) : "-",
                    std::to_string(std::lround(respiration))});
  }
  return columns(rows) + "\n" +
         wrap(
             "left: of the organic matter. breath: mg CO2-C per g organic matter and day, of the rawest part; once it is down to "
             "8 and has cured three weeks it is ready for turf, at 4 mature.");
}

std::string csv_of_forecast(const YardForecast& answer) {
  std::string text =
      "date,day,air_degc,core_degc,core_low_degc,core_high_degc,edge_degc,moisture_fraction,volatile_solids_left_fraction,"
      "respiration_mg_co2c_per_g_om_day,carbon_to_nitrogen,relative_volume\n";
  if (!answer.forecast) return text;
  const Forecast& forecast = *answer.forecast;
  const auto add = [&](double number) { text += "," + (std::isfinite(number) ? print_number(number, 5) : std::string()); };
  for (std::size_t day = 0; day < forecast.days.size(); ++day) {
    const DayOfForecast& one = forecast.days[day];
    text += print_date(date_of(forecast, static_cast<int>(day))) + "," + std::to_string(day);
    for (const double number :
         {one.air_degc, one.state.core_degc, one.core_low_degc, one.core_high_degc, one.state.edge_degc, one.state.moisture,
          1.0 - one.state.volatile_solids_loss, one.state.respiration_worst, one.state.carbon_to_nitrogen, one.state.relative_volume})
      add(number);
    text += "\n";
  }
  return text;
}

}  // namespace heapwright
