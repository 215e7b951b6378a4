#pragma once
/// The tables of materials as text, and workings.

#include <string>

#include "heapwright/materials/check.hpp"
#include "heapwright/report/show.hpp"
#include "heapwright/working/step.hpp"

namespace heapwright {

/// The steps of a calculation, each term explained where it first comes in.
std::string text_of_working(const Working& working, std::size_t width = 80);

std::string text_of_feedstocks(const Materials& materials, const Show& show);  ///< the table, a row a line
/// A row with every value of it; a compost likewise; all sources.
std::string text_of_feedstock(const Feedstock& feedstock, const Materials& materials, const Show& show);
std::string text_of_compost(const Compost& compost, const Materials& materials, const Show& show);
std::string text_of_sources(const Materials& materials);
std::string text_of_check(const std::vector<CheckedFeedstock>& checked);  ///< value by value, with the likely slip

}  // namespace heapwright
