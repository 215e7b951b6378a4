#pragma once
/// What the pages of a plan and of its handout share. Not installed: users of the library get whole pages.

#include "heapwright/page/parts.hpp"
#include "heapwright/plan/plan.hpp"

namespace heapwright {

/// Whether there is a pile already, by its day, its loads, or what was seen of it.
bool stands(const Plan& plan);
/// Whether it smokes, so that nothing else is to be done.
bool waits_for_the_fire(const Plan& plan);
/// The forecast of its pile; nothing where there is none.
const Forecast* forecast_in(const Plan& plan);
/// "it will most likely get hot, about 8 in 10; ready for the lawn between …"
Words expected(const Plan& plan);
/// The steps of today's work.
WorkSteps work_of(const Plan& plan);
/// All that is to be done, in its order, and below it what comes of it.
void say_what_to_do(PageWriter& writer, const Answer<Plan>& answer, const Materials& materials);

}  // namespace heapwright
