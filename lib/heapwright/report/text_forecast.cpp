#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"

namespace heapwright {
std::string text_of_heating(const YardForecast& answer, const Materials& materials, const Show& show) {
  std::string text = item(show.words(heating_words(answer)));
  const std::vector<Words> tips = heating_tips(answer, materials);
  if (tips.empty()) return text;
  text += "  To make it likelier:\n";
  for (const Words& tip : tips) text += wrap("  - " + show.words(tip), 4);
  return text;
}

std::string text_of_readiness(const Forecast& forecast) {
  const Show show(ShownUnits::us);
  const Grid grid = readiness(forecast);
  std::vector<std::vector<std::string>> rows;
  const auto add = [&](const std::vector<Words>& cells) {
    std::vector<std::string>& row = rows.emplace_back();
    for (const Words& cell : cells) row.push_back(show.words(cell));
  };
  add(grid.head);
  for (const auto& row : grid.rows) add(row);
  const std::string last = show.words(last_to_be_done(forecast));
  return columns(rows) + (last.empty() ? "" : wrap("  " + last, 2));
}

std::string text_of_pile_notes(const Forecast& forecast, const Show& show) {
  std::string text;
  for (const Words& note : care_notes(forecast)) text += item(show.words(note));
  return text;
}

std::string text_of_why_never(const Forecast& forecast) { return Show(ShownUnits::us).words(why_never_ready(forecast)); }

}  // namespace heapwright
