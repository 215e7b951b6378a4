#pragma once
/// What is to be said of a pile that stands, by how long it has and what is in it.

#include "heapwright/plan/plan.hpp"

namespace heapwright {

/// Whether more went in than it holds, half as much again and more: it settles (judged).
bool is_overfilled(const Plan& plan);
/// Whether something went in within the last thirty days, so that what it lacks can be mixed in (judged).
bool is_fed_lately(const Plan& plan);
/// Whether even a late pile would be ready.
bool is_past_its_time(const Plan& plan);
/// Whether it has got hot by now, or will not for months: more than six weeks after it was built (judged).
bool is_past_its_heat(const Plan& plan);
/// Whether most of it goes in after its first day.
bool begins_small(const Plan& plan);

}  // namespace heapwright
