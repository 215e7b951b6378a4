#pragma once
/// Results as plain text for a screen of 80 columns. Lays out and calculates nothing.

#include <string>

#include "heapwright/materials/check.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {

std::string text_of_mix(const Answer<MixOnHand>& answer, const Targets& targets, const Materials& materials, const Show& show);
std::string text_of_recipe(const Answer<Recipe>& answer, const Materials& materials, const Show& show);
std::string text_of_topdressing(const Answer<Topdressing>& answer, const Materials& materials, const Show& show);
/// How far a volume goes, of a lawn where one is known.
std::string text_of_coverage(const Answer<Topdressing>& answer, Volume volume, const Lawn& lawn, const Materials& materials,
                             const Show& show);
std::string text_of_plan(const Answer<Plan>& answer, const Materials& materials, const Show& show);

std::string text_of_pile(const Answer<PileFit>& answer, const Materials& materials, const Show& show);
/// Whether a mix fits its pile, and whether it will hardly heat, as a line among its figures.
std::string text_of_room(const PileFit& answer, const Show& show);

/// What the pile will do, in half-months, and when it is ready.
std::string text_of_forecast(const Answer<YardForecast>& answer, const Materials& materials, const Show& show);
/// The same week by week, as a table, and day by day, as CSV.
std::string table_of_forecast(const YardForecast& answer, const Show& show);
std::string csv_of_forecast(const YardForecast& answer);

/// The steps of a calculation, each term told where it first comes in.
std::string text_of_working(const Working& working, std::size_t width = 80);
/// All mixes of two feedstocks, and where they are right.
std::string text_of_pair(const Pair& pair, const Targets& targets, const Show& show);

std::string text_of_feedstocks(const Materials& materials, const Show& show);  ///< the table, a row a line
std::string text_of_feedstock(const Feedstock& feedstock, const Materials& materials, const Show& show);
std::string text_of_compost(const Compost& compost, const Materials& materials, const Show& show);
std::string text_of_sources(const Materials& materials);
std::string text_of_check(const std::vector<CheckedFeedstock>& checked);  ///< value by value, with the likely slip

}  // namespace heapwright
