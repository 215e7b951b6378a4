#include <algorithm>

#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/page/mix_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/process/spells.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

const WorkSteps building{"build", "turn"};
constexpr std::size_t most_chores = 2;

// --- the pile ---

Words weeks_words(const YardForecast& answer) { return Count{static_cast<double>(answer.weeks_fed), "week"}; }

Words built_words(const YardForecast& answer) {
  const HalfMonth built{answer.forecast->built};
  if (answer.stands == Stands::by_loads)
    return say(" at first, in {}, and {} after that", built, Count{static_cast<double>(answer.forecast->times_fed), "load"});
  if (answer.weeks_fed == 0) return say(", built in {}", built);
  if (answer.week_by_week) return say(" at first, fed for {} from {} on", weeks_words(answer), built);
  return say(" at first, topped up as it sinks for {} from {} on", weeks_words(answer), built);
}

Words care_words(const YardForecast& answer) {
  const char* watered = answer.care.wet_to ? ", watered when dry" : "";
  if (!answer.care.turn_every) return say("never turned{}", watered);
  return say("turned every {}{}", Count{static_cast<double>(*answer.care.turn_every), "day"}, watered);
}

Words pile_words(const YardForecast& answer) { return say("{}{}, {}", *answer.volume, built_words(answer), care_words(answer)); }

Words rest_words(const YardForecast& answer) {
  if (answer.piles < 2) return {};
  if (rest_goes_in_as_it_sinks(answer)) return "What does not fit goes in as it sinks.";
  return say("There is enough for {} such piles.", whole(answer.piles));
}

// --- what it comes to ---

Words when_ready(const Forecast& forecast) {
  if (forecast.status == ForecastStatus::never) return say("Left as it is, it is {}", why_never_ready(forecast));
  return stalls(forecast) ? say("It dries out and stands still. {}. Left dry, it is ready so:", capital(if_watered(forecast))) : Words();
}

VolumeBand band_of(const CompostYield& screened) { return {screened.likely, screened.low, screened.high}; }

Labels in_figures(const YardForecast& answer) {
  const Forecast& forecast = *answer.forecast;
  Labels labels{{{"Pile", pile_words(answer)}}};
  if (forecast.status != ForecastStatus::never) {
    labels.labels.push_back({"Lawn", lawn_ready(forecast)});
    labels.labels.push_back({"Beds", beds_ready(forecast)});
  }
  if (answer.screened) labels.labels.push_back({"Compost", say("about {}, screened", band_of(*answer.screened))});
  return labels;
}

Numbered to_do(const YardForecast& answer) {
  Numbered steps;
  if (!answer.on_target)
    steps.items.push_back(
        say("Set the mix right first: it is {}. `heapwright recipe` says with what.", character_words(*answer.mix, answer.targets)));
  std::vector<Chore> chores = chores_of(*answer.forecast);
  chores.resize(std::min(chores.size(), most_chores));
  for (const Chore chore : chores) steps.items.push_back(chore_words(chore, answer));
  return steps;
}

// --- its trajectory ---

std::string_view warmth_words(const Spell& spell) {
  if (spell.dry && spell.warmth != Warmth::frozen) return "dry: it stands still";
  switch (spell.warmth) {
    case Warmth::frozen: return "frozen or nearly: it rests";
    case Warmth::cold: return "cold: it hardly works";
    case Warmth::cool: return "cool: it works slowly";
    case Warmth::warm: return "warm: it works well";
    case Warmth::hot: return "hot: it works hardest";
  }
  return {};
}

Grid trajectory(const std::vector<Spell>& spells) {
  Grid grid;
  for (const Spell& spell : spells)
    grid.rows.push_back(
        {Number{static_cast<double>(static_cast<int>(spell.from.year())), 4}, span_of(spell), core_of(spell), warmth_words(spell)});
  return grid;
}

void say_trajectory(PageWriter& writer, const Forecast& forecast) {
  const std::vector<Spell> spells = spells_of(forecast);
  writer.section(Depth::why, say("What it will do{}", branch_shown(forecast)))
      .block(temperature_chart(forecast))
      .block(trajectory(spells))
      .paragraph(say("(The core at its warmest, {} either way.)", AboutDifference{forecast_width.core}));
}

// --- why ---

void say_pile(PageWriter& writer, const YardForecast& answer) {
  writer.section(Depth::why, "The pile")
      .paragraph(say("A pile of {}. That is its size once it has settled. {}", pile_words(answer), rest_words(answer)));
  if (!answer.on_target)
    writer.paragraph(say("The mix is off what works: {}. As it is, expect it cooler and later than this.",
                         character_words(*answer.mix, answer.targets)));
}

void say_readiness(PageWriter& writer, const Forecast& forecast) {
  if (forecast.status == ForecastStatus::never) return;
  writer.section(Depth::why, "Ready, three weeks of rest at the end included")
      .block(readiness(forecast))
      .paragraph(last_to_be_done(forecast))
      .paragraph("If it still warms up after a turning then, leave it until it does not.");
}

void say_what_it_leaves(PageWriter& writer, const YardForecast& answer) {
  if (!answer.screened) return;
  const Finished& finished = answer.forecast->finished;
  writer.section(Depth::why, "What it leaves")
      .paragraph(
          say("About {} as it lies, of all that goes in; some {}, once it is as moist as compost is spread. Screened about {}: lumps "
              "stay behind for the next pile, and fine compost is denser.",
              answer.finished_volume, answer.mass, band_of(*answer.screened)))
      .paragraph(say("When it is fit for {}, {} of the organic matter that went in is gone and {} of the nitrogen; its C:N is {}, give or "
                     "take {}.",
                     answer.forecast->status == ForecastStatus::turf_only ? "the lawn" : "beds and pots",
                     Percent{finished.volatile_solids_loss}, Percent{finished.nitrogen_loss}, Number{finished.carbon_to_nitrogen.value()},
                     Number{forecast_width.carbon_to_nitrogen.value()}));
}

void say_how_sure(PageWriter& writer) {
  writer.section(Depth::why, "How sure is that?")
      .paragraph(how_sure())
      .paragraph(
          "`--turn-every`, `--built`, `--height` and `--keep-moist` show what would change it; `--table` goes week by week, `--csv` day by "
          "day.");
}

}  // namespace

Page forecast_page(const Answer<YardForecast>& whole, const Materials& materials) {
  const YardForecast& answer = whole.result;
  PageWriter writer("What the pile will do");
  urgent_cautions(writer, whole, materials);
  writer.section(Depth::act);
  if (!answer.forecast) {
    writer.paragraph(why_no_forecast(answer));
    return std::move(writer).page();
  }
  const Forecast& forecast = *answer.forecast;
  writer.paragraph(heating_sentence(answer)).paragraph(when_ready(forecast)).block(in_figures(answer));
  writer.section(Depth::act, "What to do").block(to_do(answer));
  end_act(writer, whole, materials, building);
  say_pile(writer, answer);
  writer.section(Depth::why, "To make it likelier to get hot").bullets(heating_tips(answer, materials));
  say_readiness(writer, forecast);
  say_trajectory(writer, forecast);
  writer.section(Depth::why, "What to do about it").bullets(care_notes(forecast));
  say_what_it_leaves(writer, answer);
  say_how_sure(writer);
  return finished(std::move(writer), whole, materials);
}

}  // namespace heapwright
