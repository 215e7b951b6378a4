#pragma once
/// What the pages say of a year and of its chores. Not installed.

#include <vector>

#include "heapwright/mix/load.hpp"
#include "heapwright/page/parts.hpp"
#include "heapwright/plan/calendar.hpp"
#include "heapwright/plan/leaves_alone.hpp"
#include "heapwright/plan/season_of_yard.hpp"

namespace heapwright {

/// "Sep 2027"
std::string month_and_year(Date day);
/// "the end of Sep 2027", "early Jun 2027"
Words till_words(Date day);

/// "2 kitchen pails of kitchen scraps"
Words counted(const RecipeAmount& amount, const Materials& materials);
Words counted(const std::vector<RecipeAmount>& amounts, const Materials& materials);
/// "Apr to Oct"
Words months_words(std::chrono::month from, std::chrono::month to);
/// "2 kitchen pails of kitchen scraps, with 2 buckets of autumn leaves"; empty where nothing goes in.
Words load_words(const WeekOfSeason& week, const Materials& materials);
/// "Apr to Oct: half a bucket of grass clippings, with …; no browns for 5 buckets of grass clippings."
Words week_words(const WeekOfSeason& week, const Materials& materials);
/// "Keep 20 leaf bags of autumn leaves dry: they last to the end of Aug."
Words held_words(const KeptDry& held, const Materials& materials);

/// The same in short: of what all goes in no amount, "Nov to Mar: the scraps + 2 buckets of leaves".
Words later_words(const WeekOfSeason& week, const YardSeason& season, const Materials& materials);

/// "Sep 1 to Sep 30", "early to late Jun", "every 14 days, Nov 7 to Mar 1, 2027", "each Saturday, Nov 7 to Nov 28"
Words when_words(const CalendarChore& chore, Date today);
/// "second pile", of the fillings of bins.
std::string_view pile_called(int batch);
/// What is to be done in a few words: "Turn the pile (second pile)".
Words title_words(const CalendarChore& chore);
/// What is to be done, with its amounts.
Words chore_words(const CalendarChore& chore, const Materials& materials);

/// All that went in, feedstock by feedstock: "12 leaf bags of autumn leaves and 4 gallons of water".
Words in_all_words(const std::vector<Load>& loads, const Materials& materials);

/// What to do with leaves alone, in its order.
std::vector<Words> leaves_alone_words(const LeavesAlone& leaves, Date today, const Materials& materials);
/// The same below what it is.
void say_leaves_alone(PageWriter& writer, const LeavesAlone& leaves, Date today, const Materials& materials);

}  // namespace heapwright
