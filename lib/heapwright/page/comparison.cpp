#include <algorithm>

#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/parts.hpp"

namespace heapwright {
namespace {

Words pile_change_words(const ComparedPile& pile, const Forecast& as_it_is) {
  switch (pile.change) {
    case PileChange::as_it_is: return "as it is";
    case PileChange::larger: return "twice as much";
    case PileChange::smaller: return "half as much";
    case PileChange::kept_moist: return "kept moist";
    case PileChange::not_watered: return "never watered";
    case PileChange::covered: return "kept covered";
    case PileChange::in_spring:
    case PileChange::in_late_fall: {
      const Date built = pile.forecast.forecast ? pile.forecast.forecast->built : as_it_is.built;
      return say("built {}", DayOfMonth{built});
    }
    case PileChange::turned_weekly: return "turned weekly";
    case PileChange::turned_monthly: return "turned monthly";
    case PileChange::never_turned: return "never turned";
  }
  return {};
}

Words short_span(const Forecast& forecast) {
  const ReadyWindow window = ready_for_turf(forecast);
  if (forecast.status == ForecastStatus::never || !window.early) return "not within three years";
  const Date early = date_of(forecast, *window.early);
  if (!window.late) return say("from {} on", HalfMonth{early});
  const Date late = date_of(forecast, *window.late);
  if (is_same_half_month(early, late)) return HalfMonth{early};
  if (early.year() == late.year()) return say("{} to {}", HalfMonth{early, false}, HalfMonth{late});
  return say("{}–{}", HalfMonth{early}, HalfMonth{late});  // " to " would make the table wider than a screen
}

Volume most_compost(const PileComparison& comparison) {
  Volume most;
  for (const ComparedPile& pile : comparison.piles) {
    if (pile.forecast.screened) most = std::max(most, pile.forecast.screened->likely);
  }
  return most;
}

std::vector<Words> row_of(const ComparedPile& pile, const Forecast& as_it_is, Volume most) {
  const Words change = pile_change_words(pile, as_it_is);
  const YardForecast& answer = pile.forecast;
  if (!answer.forecast) return {change, "-", "-", "-", "-"};
  const Words compost = answer.screened ? Words(VolumeInColumn{answer.screened->likely, most}) : Words("-");
  const Words water =
      wants_water(*answer.forecast) ? Words(AboutCapacity{answer.such_piles * answer.forecast->water_given / water_density()}) : Words("-");
  return {change, heating_in_short(*answer.forecast), short_span(*answer.forecast), compost, water};
}

/// Of rows that are left out or say nothing.
std::vector<Words> notes_on_rows(const PileComparison& comparison, const Forecast& as_it_is) {
  std::vector<Words> notes;
  std::vector<Words> no_difference;
  for (const ComparedPile& pile : comparison.piles) {
    const Words change = pile_change_words(pile, as_it_is);
    if (!pile.forecast.forecast) notes.push_back(say("{}: {}", capital(change), why_no_forecast(pile.forecast)));
    if (pile.same_as_it_is && pile.change != PileChange::as_it_is) no_difference.push_back(change);
  }
  if (!no_difference.empty()) notes.insert(notes.begin(), say("No difference: {}.", joined(no_difference)));
  if (comparison.stands) notes.push_back("It stands: its size and its day are as they are.");
  if (comparison.kept_moist) notes.push_back("It is kept moist already: no row is wetter.");
  return notes;
}

Bars compost_bars(const PileComparison& comparison, const Forecast& as_it_is) {
  Bars bars{"Compost that is left", {}, {}, {}};
  std::vector<Words> words;
  for (const ComparedPile& pile : comparison.piles) {
    if (!pile.forecast.screened) continue;
    const Words change = pile_change_words(pile, as_it_is);
    bars.bars.push_back({change, {pile.forecast.screened->likely}, pile.forecast.screened->likely});
    words.push_back(say("{}: {}", change, pile.forecast.screened->likely));
  }
  bars.in_words = say("{}.", joined(words, "; "));
  return bars;
}

}  // namespace

Page comparison_page(const Answer<PileComparison>& answer, const Materials& materials) {
  const ComparedPile& first = answer->piles.front();
  PageWriter writer("The same pile, otherwise");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act);
  if (!first.forecast.forecast) {
    writer.paragraph(why_no_forecast(first.forecast));
    return std::move(writer).page();
  }
  const Forecast& as_it_is = *first.forecast.forecast;
  Grid grid{{Words(), "hot", "ready for the lawn", "compost", "water"}, {}};
  const Volume most = most_compost(answer.result);
  for (const ComparedPile& pile : answer->piles) {
    if (!pile.same_as_it_is || pile.change == PileChange::as_it_is) grid.rows.push_back(row_of(pile, as_it_is, most));
  }
  writer.paragraph(say("Built on {}, and with one thing changed:", DayOfWeek{as_it_is.built})).block(std::move(grid));
  for (Words& note : notes_on_rows(answer.result, as_it_is)) writer.paragraph(std::move(note));
  writer.paragraph(say(
      "Hot: so many of ten such piles get hot (above {}). Compost: the likely amount, screened. Water: what is given after it is built.",
      AboutTemperature{hot_core}));
  end_act(writer, answer, materials, {"build", "turn"});
  Bars bars = compost_bars(answer.result, as_it_is);
  writer.section(Depth::why, "Compost that each leaves");
  if (!bars.bars.empty()) writer.block(std::move(bars));
  writer.section(Depth::why, "What is changed")
      .bullets({"twice and half as much: all that goes in and the room for it, in the same shape",
                "kept moist: watered whenever it is dry; kept covered: no rain gets in",
                "all else is as the file has it; where a year is not said it is the next such day"});
  writer.section(Depth::why, "How sure is that?")
      .paragraph(how_sure())
      .paragraph("Rows that differ by less than that are as good as alike.");
  return finished(std::move(writer), answer, materials);
}

}  // namespace heapwright
