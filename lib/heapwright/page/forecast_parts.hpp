#pragma once
/// What the pages say of a forecast. Not installed: users of the library get whole pages.

#include <optional>
#include <vector>

#include "heapwright/page/parts.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/process/outlook.hpp"
#include "heapwright/process/spells.hpp"

namespace heapwright {

/// "early Jun 2027"
Words about_when(const Forecast& forecast, int day);
/// Whether it gets hot, and how many in ten such piles do.
Words heating_words(const YardForecast& answer);
/// The same for a table: "8 in 10", "hardly".
Words heating_in_short(const Forecast& forecast);
/// The same as a sentence, with what hot is.
Words heating_sentence(const YardForecast& answer);
/// What would make it likelier, each with how many in ten would then; nothing where it will, or where nothing helps.
std::vector<Words> heating_tips(const YardForecast& answer, const Materials& materials);
/// The same below a line that says what they are for.
void say_heating_tips(PageWriter& writer, const YardForecast& answer, const Materials& materials);
/// When it is ready, a row for each use; of a pile that may go two ways, both.
Grid readiness(const Forecast& forecast);
/// What takes longest; empty where nothing does, or where it is never ready.
Words last_to_be_done(const Forecast& forecast);
/// "between early May and late Nov 2027, most likely early Jun 2027"; of a pile that may go two ways, both.
Words lawn_ready(const Forecast& forecast);
Words beds_ready(const Forecast& forecast);
/// The same in a sentence: "ready for the lawn between …".
Words ready_between(const Forecast& forecast);
/// What to mind of it on its way: cold, drought, rain, seeds, each with what to do.
std::vector<Words> care_notes(const Forecast& forecast);
/// Why it is not ready within three years, and what would mend it.
Words why_never_ready(const Forecast& forecast);
/// What to do about it in a line.
Words chore_words(Chore chore, const YardForecast& answer);
/// "watered whenever it is dry, it would be ready for the lawn about early Jul 2027"
Words if_watered(const Forecast& forecast);
/// "late Oct", "early Jan to late Feb"; with the year where months alone would not say it.
Words span_of(const Spell& spell);
/// How warm its core is then.
Words core_of(const Spell& spell);
/// Of a pile that may go two ways, which of them its core is of: " if it gets hot"; else empty.
std::string_view branch_shown(const Forecast& forecast);
/// Its core day by day with its band, and the air.
Chart temperature_chart(const Forecast& forecast);
/// Puts into it what was measured, the hottest of each day, and when the pile was turned.
void add_measured(Chart& chart, const YardReadings& readings);
/// What was measured, and the forecast that it corrects as far as some weeks after; nothing without a log.
std::optional<Chart> measured_chart(const YardReadings& readings);
/// How far a forecast can be trusted.
Words how_sure();
/// Why there is no forecast.
Words why_no_forecast(const YardForecast& answer);

}  // namespace heapwright
