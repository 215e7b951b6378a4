#pragma once
/// The problems of a sheet: what is given, what comes out, and what comes out by the usual mistake.

#include <chrono>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "heapwright/lawn/lawn.hpp"
#include "heapwright/maturity/criteria.hpp"
#include "heapwright/maturity/rating.hpp"
#include "heapwright/mix/supply.hpp"
#include "heapwright/units/band.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/working/step.hpp"

namespace heapwright {

/// How hard a sheet is: the easy kinds in one step each; all kinds; all kinds with ranges, cut-outs and two thermometers.
enum class Level { first = 1, second, third };

// An answer is a band where a range is asked for; its ends are the same where one figure is.

/// A handful weighed wet and dried. The usual mistake: the water of the dry weight.
struct MoistureProblem {
  std::string of;
  Mass bowl;                      ///< that is in each weighing; none at the first level
  std::vector<Dried> weighings;   ///< one, or two at the third level; with the bowl
  Band<MoistureWetBasis> answer;  ///< to the whole percent
  Band<MoistureDryBasis> mistaken;
};

/// Water for a mix. The usual mistake: so many more percent of the weight that it has now, though the water adds to the weight.
struct WaterProblem {
  DryMass dry;
  WaterMass water;
  Band<MoistureWetBasis> goal;
  Band<WaterMass> answer;  ///< to the whole pound or kilogram
  Band<WaterMass> mistaken;
};

/// Two or three feedstocks. The usual mistake: the average of their C:N; at the third level, carbon and nitrogen taken of the wet weight.
struct RatioProblem {
  std::vector<Ingredient> ingredients;
  CarbonNitrogenRatio answer;  ///< to the whole number
  CarbonNitrogenRatio mistaken;
};

/// Leaves for clippings. The usual mistake: all carbon of the leaves taken as to spare, though their own nitrogen wants thirty times as
/// much.
struct LeavesProblem {
  Ingredient clippings;
  Properties leaves;                       ///< at the lower end of their C:N
  Band<CarbonNitrogenRatio> leaves_ratio;  ///< a range at the third level
  CarbonNitrogenRatio goal;
  Band<Mass> answer;  ///< to the whole pound or kilogram
  Mass mistaken;
};

/// Compost on a lawn. The usual mistake: a depth that stays in inches where all else is in feet; of
/// millimeters, a hundred of them taken for a meter.
struct VolumeProblem {
  Zone lawn;  ///< its area alone at the first level, with something cut out at the third
  Length depth;
  Volume answer;
  Volume mistaken;
};

/// What is done wrong with a log.
enum class LogMistake {
  counts_readings,  ///< and not the days between them
  adds_up_stretches,
  averages_probes,  ///< where the coldest decides
};

/// A log of a reading a day, against a rule.
struct LogProblem {
  TimeTemperatureRule rule;
  TemperatureLog log;
  std::chrono::seconds answer{};  ///< the longest stretch
  bool met = false;
  LogMistake mistake = LogMistake::counts_readings;
  std::chrono::seconds mistaken{};  ///< the stretch that the mistake gives
};

/// Results of maturity tests. The usual mistake: taking one kind of test for the other; of several, going by the best.
struct TestsProblem {
  struct Result {
    TestCriterion test;
    TestValue value;
    Rating rating;
  };
  std::vector<Result> results;
  Rating answer;  ///< the least mature of several rules
  Rating mistaken;
  TestKind mistaken_kind = TestKind::property;  ///< of a single test: what it is taken for
};

/// Nitrogen of compost on a measure of lawn. The usual mistake: its share taken of the wet weight.
struct NitrogenProblem {
  Area area;
  Length depth;
  BulkDensity density;
  MoistureWetBasis moisture;
  Band<NitrogenDryBasis> content;
  Band<NitrogenMass> answer;  ///< to the tenth
  Band<NitrogenMass> mistaken;
};

/// A problem of any kind.
struct ExerciseProblem {
  std::variant<MoistureProblem, WaterProblem, RatioProblem, LeavesProblem, VolumeProblem, LogProblem, TestsProblem, NitrogenProblem> of;
  Working working;  ///< of the answer; of a test, which is read and not worked out, without steps
};

}  // namespace heapwright
