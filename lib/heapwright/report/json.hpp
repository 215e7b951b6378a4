#pragma once
/// Results as JSON: SI, the unit in the key, fractions from 0 to 1, null for what does not apply. Calculates nothing.

#include <string>

#include "heapwright/lawn/jobs.hpp"
#include "heapwright/materials/check.hpp"
#include "heapwright/maturity/criteria.hpp"
#include "heapwright/mix/load.hpp"
#include "heapwright/plan/compare.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/plan/season_of_yard.hpp"

namespace heapwright {

class Show;
struct Exercise;

/// An answer each; the schemas are in report/schema.
std::string json_of_mix(const Answer<MixOnHand>& answer, const Materials& materials);
std::string json_of_recipe(const Answer<Recipe>& answer, const Materials& materials);
std::string json_of_jobs(const Answer<Topdressing>& all, const DressedJobs& jobs, const Materials& materials);
std::string json_of_topdressing(const Answer<Topdressing>& answer, const Materials& materials);
std::string json_of_plan(const Answer<Plan>& answer, const Materials& materials);
std::string json_of_pile(const Answer<PileFit>& answer, const Materials& materials);
std::string json_of_forecast(const Answer<YardForecast>& answer, const Materials& materials);
std::string json_of_comparison(const Answer<PileComparison>& answer, const Materials& materials);
std::string json_of_dies_at(const Criteria& criteria, const Materials& materials);
std::string json_of_readings(const Answer<YardReadings>& answer, const Materials& materials);
std::string json_of_maturity(const Answer<YardCompost>& answer, const Materials& materials);
std::string json_of_season(const Answer<YardSeason>& answer, const Materials& materials);
std::string json_of_loads(const std::vector<Load>& added, const std::vector<Load>& all);
std::string json_of_feedstocks(const Materials& materials);
std::string json_of_feedstock(const Feedstock& feedstock, const Materials& materials);
std::string json_of_compost(const Compost& compost, const Materials& materials);
std::string json_of_sources(const Materials& materials);
/// With the words of each problem as its sheet has them.
std::string json_of_exercise(const Exercise& exercise, const Materials& materials, const Show& show);
std::string json_of_check(const std::vector<CheckedFeedstock>& checked);

}  // namespace heapwright
