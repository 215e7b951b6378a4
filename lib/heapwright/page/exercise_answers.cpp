#include <cmath>
#include <concepts>

#include "heapwright/page/exercise_parts.hpp"

namespace heapwright {
namespace {

double rounded_to(double step, double number) { return step * std::round(number / step); }

/// "12", or "12 to 18" where a range is asked for.
Words one_or_range(double low, double high, double step) {
  constexpr int digits = 4;
  const Number from{rounded_to(step, low), digits};
  return low < high ? say("{} to {}", from, Number{rounded_to(step, high), digits}) : Words(from);
}

/// All of them in kilograms; another quantity has no place in a weight.
template <class Quantity>
concept KindOfMass = std::same_as<Quantity, Mass> || std::same_as<Quantity, WaterMass> || std::same_as<Quantity, NitrogenMass>;

template <KindOfMass Quantity>
double in_sheet_mass(Quantity mass, const Exercise& exercise) {
  return mass.value() / exercise.units->working->mass.one.value();
}

template <KindOfMass Quantity>
Words weights(const Band<Quantity>& band, double step, const Exercise& exercise) {
  return say("{} {}", one_or_range(in_sheet_mass(band.low, exercise), in_sheet_mass(band.high, exercise), step),
             exercise.units->working->mass.symbol);
}

template <class Quantity>
Words percents(const Band<Quantity>& band) {
  return say("{} %", one_or_range(100.0 * band.low.value(), 100.0 * band.high.value(), 1.0));
}

Words sheet_volume(Volume volume, const VolumeProblem& problem, const Exercise& exercise) {
  const SheetUnits& units = *exercise.units;
  const WorkingUnit<Volume>& in = problem.lawn.whole ? units.working->large : units.spread;
  return say("{} {}", one_or_range(in.number(volume), in.number(volume), units.large_volume_step), in.symbol);
}

Span stretch(std::chrono::seconds length) { return {length}; }

std::string_view told_by(TestKind kind) {
  switch (kind) {
    case TestKind::screening: return "whether it has enough nitrogen";
    case TestKind::stability: return "whether it still composts";
    case TestKind::maturity: return "whether plants bear it";
    case TestKind::property: return "nothing of that";
  }
  return {};
}

struct AnswerWords {
  const Exercise& exercise;

  Words operator()(const MoistureProblem& problem) const { return percents(problem.answer); }
  Words operator()(const WaterProblem& problem) const {
    const Words water =
        problem.answer.low < problem.answer.high ? say("{} to {}", problem.answer.low, problem.answer.high) : Words(problem.answer.low);
    return say("{}, about {}", weights(problem.answer, 1.0, exercise), water);
  }
  Words operator()(const RatioProblem& problem) const { return problem.answer; }
  Words operator()(const LeavesProblem& problem) const { return weights(problem.answer, 1.0, exercise); }
  Words operator()(const VolumeProblem& problem) const { return sheet_volume(problem.answer, problem, exercise); }
  Words operator()(const LogProblem& problem) const {
    return say("{}. The rule is {}. Safe? Met or not, nobody can say of a home pile that it is free of germs or weed seeds",
               stretch(problem.answer), problem.met ? "met" : "not met");
  }
  Words operator()(const TestsProblem& problem) const {
    std::vector<Words> each;
    for (const TestsProblem::Result& result : problem.results)
      each.push_back(say("{} tells {}: {}", result.test.name, told_by(result.test.kind), rating_word(result.rating)));
    if (problem.results.size() < 2) return each.front();
    return say("{}. Taken together: {}", joined(each, "; "), rating_word(problem.answer));
  }
  Words operator()(const NitrogenProblem& problem) const {
    return say("{}, most of it bound, and slow to come free", weights(problem.answer, 0.1, exercise));
  }
};

struct MistakenWords {
  const Exercise& exercise;

  Words operator()(const MoistureProblem& problem) const { return say("{}, water over dry weight", percents(problem.mistaken)); }
  Words operator()(const WaterProblem& problem) const {
    return say("{}, the missing percent of what it weighs now", weights(problem.mistaken, exercise.units->metric ? 0.1 : 0.5, exercise));
  }
  Words operator()(const RatioProblem& problem) const {
    return say("{}, {}", problem.mistaken,
               exercise.level == Level::third ? "carbon and nitrogen of the wet weight" : "the average of the C:N ratios");
  }
  Words operator()(const LeavesProblem& problem) const {
    return say("{}, all their carbon counted as to spare", weights(Band<Mass>{problem.mistaken, problem.mistaken}, 1.0, exercise));
  }
  Words operator()(const VolumeProblem& problem) const {
    const Words volume = sheet_volume(problem.mistaken, problem, exercise);
    return exercise.units->metric ? say("{}, the depth over 100", volume) : say("{}, area times {}", volume, SpreadDepth{problem.depth});
  }
  Words operator()(const LogProblem& problem) const {
    switch (problem.mistake) {
      case LogMistake::counts_readings: return say("{}, as many as there are hot readings", stretch(problem.mistaken));
      case LogMistake::adds_up_stretches: return say("{}, both stretches added up", stretch(problem.mistaken));
      case LogMistake::averages_probes: return say("{}, by the average of core and side", stretch(problem.mistaken));
    }
    return {};
  }
  Words operator()(const TestsProblem& problem) const {
    if (problem.results.size() > 1) return say("{}, by the best test", rating_word(problem.mistaken));
    return say("{}, taken to tell {}", rating_word(problem.mistaken), told_by(problem.mistaken_kind));
  }
  Words operator()(const NitrogenProblem& problem) const {
    return say("{}, its share of the wet weight", weights(problem.mistaken, 0.1, exercise));
  }
};

struct WhyMistaken {
  const Exercise& exercise;

  std::string_view operator()(const MoistureProblem&) const {
    return "Moisture is the water's share of the wet weight, so it is never above 100 %.";
  }
  std::string_view operator()(const WaterProblem&) const {
    return "The water that you add weighs too, so the mix gets heavier. Start from the dry matter, which stays the same.";
  }
  std::string_view operator()(const RatioProblem&) const {
    return exercise.level == Level::third
               ? "Carbon and nitrogen are shares of dry matter. Wet greens are mostly water, so their wet weight counts for too much."
               : "The part with more nitrogen counts for more. Add up all carbon and all nitrogen first, then divide.";
  }
  std::string_view operator()(const LeavesProblem&) const {
    return "Leaves hold nitrogen too, and that wants 30 times as much carbon. Only what is left over makes up for the clippings.";
  }
  std::string_view operator()(const VolumeProblem&) const {
    return exercise.units->metric ? "The sides are in meters and the depth in millimeters: bring it to meters first, 1000 to one, not 100."
                                  : "The sides are in feet and the depth in inches: bring it to feet first, 12 to one.";
  }
  std::string_view operator()(const LogProblem& problem) const {
    switch (problem.mistake) {
      case LogMistake::counts_readings:
        return "From the first reading to the last there is one day less than there are readings: 4 daily readings span 3 days.";
      case LogMistake::adds_up_stretches:
        return "The days are counted in one unbroken stretch: a reading outside the bounds ends it, and the next one begins anew.";
      case LogMistake::averages_probes: return "The coldest spot decides: germs live on there, however hot the core is.";
    }
    return {};
  }
  std::string_view operator()(const TestsProblem& problem) const {
    if (problem.results.size() > 1) return "Each test asks something else, so none makes up for another: the least mature rules.";
    return problem.mistaken_kind == TestKind::maturity
               ? "A quiet compost may still harm plants, by salts or weedkiller: that takes a test with plants."
               : "Plants may bear what still composts: whether it does, a test of its heat or breath tells.";
  }
  std::string_view operator()(const NitrogenProblem&) const { return "Its share is one of dry matter: take the water off first."; }
};

}  // namespace

Words answer_words(const ExerciseProblem& problem, const Exercise& exercise) { return std::visit(AnswerWords{exercise}, problem.of); }

Words mistaken_words(const ExerciseProblem& problem, const Exercise& exercise) { return std::visit(MistakenWords{exercise}, problem.of); }

std::string_view why_mistaken(const ExerciseProblem& problem, const Exercise& exercise) {
  return std::visit(WhyMistaken{exercise}, problem.of);
}

}  // namespace heapwright
