#pragma once
/// What a pile does and what compost is, in short: for their own pages and for the plan's.

#include "heapwright/page/parts.hpp"
#include "heapwright/plan/plan.hpp"

namespace heapwright {

/// What in its readings and dates can hardly be right, each as a question.
std::vector<Words> questions_of(const YardReadings& readings);

/// What can hardly be right in its readings, what is wrong with a pile and what it does, each with what to do now; nothing where nothing of
/// it was seen.
void say_pile_now(PageWriter& writer, const YardReadings& readings, const Materials& materials);

/// The causes that say_pile_now() left out, and what its fix changes.
void say_other_causes(PageWriter& writer, const YardReadings& readings);

/// The first thing to do about compost.
std::vector<Words> next_for_compost(const YardCompost& compost);

/// Whether compost is finished.
Words verdict_in_short(const YardCompost& compost);

/// The same in words that anyone may quote: without a rating they say so.
Words verdict_words(const YardCompost& compost);

/// What to do next with compost, with the day where one is known.
Words step_words(const NextStep& step, const YardCompost& compost);

/// The household check to do next, and how.
Words check_words(const CheckCriterion& check);

/// "3 weeks"
Words in_weeks(std::chrono::days age);

/// "164 °F on Jun 7"
Words reading_words(const PileReading& reading);

/// "Jun 3, hot"
Words felt_words(Date date, HandWarmth warmth);

/// Said below the caution of a pile that smokes, in place of all work.
inline constexpr std::string_view wait_until_it_is_out = "Everything else can wait. Ask again once it is out and cold.";

}  // namespace heapwright
