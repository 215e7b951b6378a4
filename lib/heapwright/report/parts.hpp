#pragma once
/// Parts of screens that several answers have.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/page/parts.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {

bool is_early(Date date);
std::string half_month(Date date);
/// "early Jun 2027": neither a forecast of a pile nor the end of a store is known to a day.
std::string about_when(Date date);
/// A line of a list.
std::string item(const std::string& text);
/// What a pile off its windows will be like, in a gardener's words. What is shown as the edge counts as the edge.
std::string character(const Mix& mix, const Targets& targets);
/// "C:N about 33"
std::string ratio_of(const Mix& mix);
/// C:N, moisture and air with their bands and windows, and the size of the pile.
std::string figures_of(const Mix& mix, const Targets& targets, const Show& show);
/// What "likely" means, and the commonest mistake about ratios.
std::string on_the_figures(const Mix& mix);
/// What an answer takes for granted, and what to measure first.
std::string text_of_assumptions(const std::vector<Assumption>& assumptions, const std::optional<Measurement>& first, const Show& show);
/// The steps of a calculation, where they were asked for.
std::string text_of_steps(const std::optional<Working>& working);
/// At most three.
std::string text_of_cautions(const std::vector<std::string>& ids, const Materials& materials);
/// Those that cannot wait, above the answer.
std::string text_of_first_cautions(const std::vector<std::string>& ids, const Materials& materials);

/// A recipe and what it makes, without what it takes for granted. @param room a line on whether it fits, where bins are described
std::string text_of_recipe_body(const Recipe& recipe, const Materials& materials, const Show& show, const std::string& room = {});
/// In the person's own measure: containers, a weight, or a volume.
std::string own_measure(const RecipeAmount& amount, const std::optional<ContainerCount>& containers, Volume volume,
                        const Materials& materials, const Show& show);
/// Whether it gets hot, and what would make it likelier.
std::string text_of_heating(const YardForecast& answer, const Materials& materials, const Show& show);
/// When a pile is ready, a line for each use, with what takes longest; of one that may go two ways, both.
std::string text_of_readiness(const Forecast& forecast);
/// What to mind of a pile on its way: cold, drought, rain.
std::string text_of_pile_notes(const Forecast& forecast, const Show& show);
/// Why a pile that is never ready is not, and what would mend it.
std::string why_never_ready(const Forecast& forecast);
/// What is wrong with a pile and what it does, each with what to do now; nothing where it was not seen.
std::string text_of_pile_now(const YardReadings& answer, const Materials& materials, const Show& show);
/// Whether compost is finished, by its tests and checks, and the first thing to do about it.
std::string text_of_compost_now(const YardCompost& answer, const Show& show);
/// What to spread on a lawn.
std::string text_of_topdressing_body(const Topdressing& topdressing, const Materials& materials, const Show& show);

}  // namespace heapwright
