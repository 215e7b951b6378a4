#pragma once
/// The single answers about a yard, of which a plan is made: its mix, its recipe, its heap, its forecast, its maturity.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/heap/heap.hpp"
#include "heapwright/maturity/next_steps.hpp"
#include "heapwright/plan/compost_yield.hpp"
#include "heapwright/process/forecast.hpp"
#include "heapwright/recipe/recipe.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// What all that is on hand makes together, with some water.
struct MixAnswer {
  std::optional<Mix> mix;  ///< nothing where nothing is on hand
  std::vector<Assumption> assumptions;
  std::optional<Measurement> measure_first;
  std::vector<std::string> cautions;
  Batch batch;                     ///< what the mix was made of
  std::optional<Working> working;  ///< where it was asked for
};
/// Supplies with an amount, not bought, each by what is on hand on the day.
MixAnswer mix_on_hand(const Yard& yard, WaterMass added_water, Date today);

/// The recipe of a yard's first heap, with its assumptions and cautions.
Recipe first_recipe(const Yard& yard, Date today);

/// The heap of a yard with what its recipe puts in, where that comes to a size: described, or suggested.
HeapAnswer heap_of(const Yard& yard, const Recipe& recipe, Date today);

/// The heap of a yard through time. Of several heaps the first, which is the fullest.
struct ForecastAnswer {
  std::optional<Forecast> forecast;  ///< nothing where nothing with a size is to put in, or too little
  bool too_little = false;           ///< to forecast
  std::optional<Volume> volume;      ///< of what the first heap is filled with, all at once or in the first week
  int heaps = 1;                     ///< that are filled
  HeapCare care;
  std::optional<Mix> mix;  ///< of all that goes in
  Targets targets;
  bool on_target = true;  ///< whether that is inside them
  bool week_by_week = false;
  std::optional<CompostYield> screened;  ///< of all that is put in; none where it is never ready
  YieldRule yield;                       ///< that it follows from
  Mass mass;                             ///< of that when it is ready, unscreened, else at the end
  Volume finished_volume;
  std::vector<Assumption> assumptions;
  std::vector<std::string> cautions;
};

/// @param yard with a climate @throws DomainError without one
ForecastAnswer forecast_of(const Yard& yard, const Recipe& recipe, Date today, const Progress& progress = {});

/// Whether the compost of a yard is finished and fit for a lawn, by its tests and checks.
struct MaturityAnswer {
  CompostKnown known;
  std::optional<Date> cured_by;  ///< where it is known since when it is cool
  std::vector<const NextStep*> next;
  std::vector<Assumption> assumptions;
  std::vector<std::string> cautions;
};

MaturityAnswer maturity_of(const Yard& yard, Date today);

}  // namespace heapwright
