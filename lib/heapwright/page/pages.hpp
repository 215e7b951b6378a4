#pragma once
/// A page for each answer: all that is said of it, in words, with its quantities.

#include "heapwright/lawn/jobs.hpp"
#include "heapwright/lawn/order_sheet.hpp"
#include "heapwright/maturity/criteria.hpp"
#include "heapwright/mix/load.hpp"
#include "heapwright/page/page.hpp"
#include "heapwright/plan/compare.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/plan/season_of_yard.hpp"

namespace heapwright {

struct Workshop;  // roster/workshop.hpp
struct Exercise;  // exercise/exercise.hpp: only its own pages ask

/// The whole job: the pile, its compost, the lawn, what to buy.
Page plan_page(const Answer<Plan>& answer, const Materials& materials);
/// Two sides to hand out: what to do with its calendar, and why with every caution. @param not_told what was assumed of a household, in
/// words
std::vector<Page> handout_pages(const Answer<Plan>& answer, const std::optional<Office>& office, const std::vector<std::string>& not_told,
                                const Materials& materials);
/// A card for the shed: what goes in each week, and what to look at.
Page shed_card_page(const Plan& plan, const Materials& materials);
/// A sheet to write temperatures and loads on.
Page blank_log_page(const Plan& plan);
/// How much of what goes into the pile.
Page recipe_page(const Answer<Recipe>& answer, const Materials& materials);
/// What to spread on a lawn.
Page topdressing_page(const Answer<Topdressing>& answer, const Materials& materials);
/// What an area takes, where the file does not measure the lawn.
Page unmeasured_lawn_page(const Answer<Topdressing>& of_an_area, const std::string& file, const Materials& materials);
/// What each of several jobs takes, and its order.
Page jobs_page(const Answer<Topdressing>& all, const DressedJobs& jobs, const Materials& materials);
/// Two sides for each drop: one for the supplier, one for the crew.
std::vector<Page> order_sheet_pages(const std::vector<OrderSheet>& sheets, const Tables& tables);
/// How far a volume goes, of a lawn where one is known.
Page coverage_page(const Answer<Topdressing>& covered, Volume volume, const Lawn& lawn, const Materials& materials);
/// A page of what is ordered, with whether some money is enough for it.
Page with_budget(Page page, const SpreadingAdvice& advice, Cost budget, Cost cost);
/// What a budget buys, and how far that goes.
Page budget_page(const Answer<Topdressing>& covered, const Bought& bought, const Lawn& lawn, const Materials& materials);

/// What went into a pile, load by load, and in all. @param file the yard's, where it is written down
Page loads_page(const std::vector<Load>& loads, const std::string& file, const Materials& materials);
/// That loads were added to those of a yard file. @param all with those that were added
Page added_loads_page(const std::vector<Load>& added, const std::vector<Load>& all, const std::string& file, const Materials& materials);

/// What to keep dry, and what goes in each week of a year.
Page season_page(const Answer<YardSeason>& answer, const Materials& materials);

/// What given amounts make.
Page mix_page(const Answer<MixOnHand>& answer, const Targets& targets, const Materials& materials);
/// What a pile holds, whether all fits, and whether it heats.
Page pile_page(const Answer<PileFit>& answer, const Materials& materials);
/// What a pile will do, and when it is ready.
Page forecast_page(const Answer<YardForecast>& answer, const Materials& materials);
/// The same pile under other choices, a row each.
Page comparison_page(const Answer<PileComparison>& answer, const Materials& materials);
/// At what heat weed seeds and germs are said to die.
Page dies_at_page(const Criteria& criteria, const Materials& materials);
/// What a pile is doing and what to do now; the log, the rules held against it and the forecast that it corrects.
Page readings_page(const Answer<YardReadings>& answer, const Materials& materials);
/// Whether compost is finished and fit for a lawn, and what to do next.
Page maturity_page(const Answer<YardCompost>& answer, const Materials& materials);

/// A problem sheet for a class, with room to write, and something to do by hand at its end.
Page exercise_page(const Exercise& exercise, const Materials& materials);
/// Its key: each answer step by step, and the usual wrong one.
Page answers_page(const Exercise& exercise);

/// That a class has its handouts, what to do with them, and a pile to build before it.
Page workshop_page(const Workshop& workshop, const Materials& materials);
/// The class on a page of its own: what it has in all, that pile, and what was assumed of each household.
Page workshop_index_page(const Workshop& workshop, const Materials& materials);

}  // namespace heapwright
