#pragma once
/// Results as plain text for a screen of 80 columns. Lays out and calculates nothing.

#include <string>

#include "heapwright/materials/check.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {

std::string text_of_recipe(const Answer<Recipe>& answer, const Materials& materials, const Show& show);
std::string text_of_topdressing(const Answer<Topdressing>& answer, const Materials& materials, const Show& show);
/// How far a volume goes, of a lawn where one is known.
std::string text_of_coverage(const Answer<Topdressing>& answer, Volume volume, const Lawn& lawn, const Materials& materials,
                             const Show& show);
std::string text_of_plan(const Answer<Plan>& answer, const Materials& materials, const Show& show);

/// Whether a mix fits its pile, and whether it will hardly heat, as a line among its figures.
std::string text_of_room(const PileFit& answer, const Show& show);

/// What a log shows, the rules held against it, and when the pile is ready by it.
std::string text_of_readings(const Answer<YardReadings>& answer, const Materials& materials, const Show& show);
/// Whether compost is finished and fit for a lawn, and what to do next.
std::string text_of_maturity(const Answer<YardCompost>& answer, const Materials& materials, const Show& show);

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
