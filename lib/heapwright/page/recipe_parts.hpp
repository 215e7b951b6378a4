#pragma once
/// What the pages of a recipe and of a plan share. Not installed: users of the library get whole pages.

#include <vector>

#include "heapwright/materials/materials.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/recipe/verdict.hpp"

namespace heapwright {

/// What a recipe comes to where it is not simply a pile to build; nothing where it is.
Words headline_of(const Recipe& recipe, const Materials& materials);
/// The hands' work: what to take, the layers, the water, what to keep. Of a recipe with a mix.
std::vector<Words> building_steps(const Recipe& recipe, const Materials& materials);
/// "20 leaf bags of autumn leaves and 21 gallons of water"
Words pile_in_one_line(const Recipe& recipe, const Materials& materials);
/// "keep them dry for later"; nothing where there is nothing to say. @param when there is room or browns for more of it
Words use_of_left_over(LeftOver left_over, std::string_view when);
/// " (too brown)"
Words why_left_words(const std::optional<WhyLeft>& why);
/// "each mowing, Apr to Oct: 6 buckets of grass clippings + 14 buckets of autumn leaves"
std::vector<Words> card_words(const Recipe& recipe, const Materials& materials);
/// How long the browns last; nothing where they last a year.
/// That the greens are lacking in what is otherwise a pile to build, since its nitrogen is bound, and what to get.
void say_greens_lacking(PageWriter& writer, const Recipe& recipe, const Materials& materials);
/// The first ways to make a good pile of one that is far off; nothing of another.
void say_what_it_lacks(PageWriter& writer, const Recipe& recipe, const Materials& materials);
/// What stays out and what is not there today, each with where it goes.
Labels set_aside(const Recipe& recipe, const Materials& materials);

/// Figures, limits, other ways: all that does not have to be read to build it. @param room whether it fits its bin, where one is described
void say_why(PageWriter& writer, const Recipe& recipe, const Materials& materials, const Words& room = {});

}  // namespace heapwright
