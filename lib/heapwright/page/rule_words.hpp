#pragma once
/// Why a pile meets the rules of composting sites, or does not.

#include "heapwright/page/words.hpp"
#include "heapwright/plan/answers.hpp"

namespace heapwright {

/// Why a rule is met or not by a log.
Words why_of_rule(const RuleResult& result, const TemperatureLog& log);
/// The same of a rule on what went in.
Words why_of_start(const StartingRatio& start);
/// "131 °F for 15 days, 5 turnings"
Words what_a_rule_asks(const TimeTemperatureRule& rule);

}  // namespace heapwright
