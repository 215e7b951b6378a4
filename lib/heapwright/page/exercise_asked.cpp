#include <algorithm>
#include <cmath>
#include <iterator>

#include "heapwright/page/exercise_parts.hpp"
#include "heapwright/page/rule_words.hpp"
#include "heapwright/page/turf_parts.hpp"

namespace heapwright {
namespace {

constexpr int digits_of_a_given = 3;

template <class Quantity>
Words in_unit(Quantity quantity, const WorkingUnit<Quantity>& unit) {
  return say("{} {}", Number{unit.number(quantity), digits_of_a_given}, unit.symbol);
}

/// A share of dry matter, to the tenth of a percent.
Number percent_number(double share) { return {100.0 * share, digits_of_a_given}; }

/// What is asked of a problem.
struct AskedWords {
  const Exercise& exercise;
  const Materials& materials;

  const SheetUnits& sheet() const { return *exercise.units; }
  const WorkingUnits& units() const { return *exercise.units->working; }
  Words heavy(Mass mass) const { return in_unit(mass, units().mass); }
  Words light(Mass mass) const { return in_unit(mass, sheet().small); }

  Words operator()(const MoistureProblem& problem) const {
    const auto weighed = [&](const Dried& dried) { return say("{} wet and {} dried", light(dried.wet), light(dried.dry)); };
    const Words first = weighed(problem.weighings.front());
    switch (exercise.level) {
      case Level::first: return say("A handful of {} weighs {}. What is its moisture, in percent?", problem.of, first);
      case Level::second:
        return say("A bowl weighs {}. A handful of {} weighs, bowl and all, {}. What is its moisture, in percent?", light(problem.bowl),
                   problem.of, first);
      case Level::third:
        return say(
            "A bowl weighs {}. A handful of {} weighs, bowl and all, {}; another from the same heap, {}. Between what two figures does "
            "their "
            "moisture lie, in percent?",
            light(problem.bowl), problem.of, first, weighed(problem.weighings.back()));
    }
    return {};
  }

  Words operator()(const WaterProblem& problem) const {
    const std::string& unit = units().mass.symbol;
    if (exercise.level == Level::first)
      return say("A mix of browns and greens holds {} of dry matter and {} of water. How much water brings it to {} moisture, in {}?",
                 heavy(as_is_mass(problem.dry, {})), heavy(as_is_mass(problem.water)), problem.goal.low, unit);
    const Words mix = say("A mix of browns and greens weighs {} and has {} moisture.", heavy(as_is_mass(problem.dry, problem.water)),
                          moisture_wet_basis(problem.dry, problem.water));
    if (problem.goal.low < problem.goal.high)
      return say("{} It should have {}. How much water does it take, at the least and at the most, in {}?", mix,
                 Between<MoistureWetBasis>{problem.goal.low, problem.goal.high}, unit);
    return say("{} How much water brings it to {}, in {}?", mix, problem.goal.low, unit);
  }

  static Words nature(const Properties& properties, const Words& ratio) {
    return say("{} moisture, {} % of the dry matter carbon, C:N {}", properties.moisture, percent_number(properties.carbon.value()), ratio);
  }
  static CarbonNitrogenRatio ratio(const Properties& properties) { return properties.carbon / properties.nitrogen; }

  /// "28.8 lb of carbon and 0.32 lb of nitrogen"
  Words held(const Ingredient& ingredient) const {
    const MixPart part = mix_of({{ingredient}, {}}).parts.front();
    const auto number = [&](double kilograms) { return Number{kilograms / units().mass.one.value(), digits_of_a_given}; };
    return say("{} {} of carbon and {} {} of nitrogen", number(part.carbon.value()), units().mass.symbol, number(part.nitrogen.value()),
               units().mass.symbol);
  }

  Words operator()(const RatioProblem& problem) const {
    const std::vector<Ingredient>& all = problem.ingredients;
    if (exercise.level == Level::first)
      return say("In a pile the browns ({}) hold {}, and the greens ({}) {}. What is the C:N of the mix, to the whole number?", all[0].name,
                 held(all[0]), all[1].name, held(all[1]));
    std::vector<Words> parts;
    for (const Ingredient& one : all)
      parts.push_back(say("{} of {} ({}: {})", heavy(one.mass), parts.empty() ? "browns" : "greens", one.name,
                          nature(one.properties, ratio(one.properties))));
    return say("A pile gets {}. What is the C:N of the mix, to the whole number?", listed(parts));
  }

  Words operator()(const LeavesProblem& problem) const {
    const bool range = problem.leaves_ratio.low < problem.leaves_ratio.high;
    const Words leaves =
        range ? say("from {} to {}", problem.leaves_ratio.low, problem.leaves_ratio.high) : Words(problem.leaves_ratio.low);
    return say("There are {} of greens ({}: {}). How much of the browns (autumn leaves: {}){} brings the mix to C:N {}, to the whole {}?",
               heavy(problem.clippings.mass), problem.clippings.name,
               nature(problem.clippings.properties, ratio(problem.clippings.properties)), nature(problem.leaves, leaves),
               range ? ", at the least and at the most," : "", problem.goal, units().mass.symbol);
  }

  Words operator()(const VolumeProblem& problem) const {
    const SpreadDepth deep{problem.depth};
    const Zone& lawn = problem.lawn;
    if (!lawn.whole) return say("How much compost covers {} of lawn {} deep, in {}?", lawn.area, deep, sheet().spread.symbol);
    const std::string_view rounded = sheet().metric ? "hundredth" : "tenth";
    const Words whole = say("A lawn is {} long and {} wide", lawn.whole->sides[0], lawn.whole->sides[1]);
    const Words bed = lawn.cut_out.empty() ? Words()
                                           : say(", with a bed of {} by {} in it that gets none", lawn.cut_out.front().sides[0],
                                                 lawn.cut_out.front().sides[1]);
    return say("{}{}. How much compost covers it {} deep, in {} to the {}?", whole, bed, deep, units().large.symbol, rounded);
  }

  /// "118, 127, 135 °F"
  Words readings(const TemperatureLog& log, std::size_t probe) const {
    std::vector<Words> degrees;
    std::transform(log.rows.begin(), log.rows.end(), std::back_inserter(degrees), [&](const LogRow& row) {
      const TemperaturePoint& point = *row.probes[probe];
      return Words(Number{std::round(sheet().metric ? point.celsius() : point.fahrenheit()), digits_of_a_given});
    });
    return say("{} {}", joined(degrees), sheet().metric ? "°C" : "°F");
  }

  Words operator()(const LogProblem& problem) const {
    const bool two = problem.log.probes.size() > 1;
    const Words shown = two ? say("the core of a pile with air blown through it showed {}; its side, {}", readings(problem.log, 0),
                                  readings(problem.log, 1))
                            : say("a pile with air blown through it showed {}", readings(problem.log, 0));
    return say(
        "A rule of composting sites ({}) asks for {}. Read once a day from day 1 on, {}. How many days is the longest unbroken stretch "
        "that counts, from its first reading to its last? Is the rule met? Is the compost safe then?",
        problem.rule.name, what_a_rule_asks(problem.rule), shown);
  }

  Words limits(const TestsProblem::Result& result) const {
    const Scale& scale = *result.test.scale_for(result.value);
    const Words mature = say("mature {}", bound_words(scale.mature, result.test.measured));
    return scale.very_mature ? say("{}, very mature {}", mature, bound_words(*scale.very_mature, result.test.measured)) : mature;
  }

  /// "85 % of the control"
  static Words measured(const TestsProblem::Result& result) {
    const Tested value{result.test.measured, result.value};
    switch (result.test.measured) {
      case TestQuantity::temperature_rise: return say("{} warmer than the room", value);
      case TestQuantity::share_of_control: return say("{} of the control", value);
      default: return value;
    }
  }

  Words operator()(const TestsProblem& problem) const {
    std::vector<Words> results;
    for (const TestsProblem::Result& result : problem.results)
      results.push_back(say("{}, {} ({})", result.test.name, measured(result), limits(result)));
    const Provenance& whose = problem.results.front().test.scale_for(problem.results.front().value)->whose;
    const std::string source = source_words(materials, whose.source, whose.evidence);
    if (problem.results.size() < 2)
      return say(
          "A test of some compost: {}. Limits: {}. Does it tell whether the compost still composts, or whether plants bear it? By it, is "
          "the compost immature, mature or very mature?",
          results.front(), source);
    const char* question = problem.results.size() > 2
                               ? "whether it still composts, whether plants bear it, or whether it has enough nitrogen"
                               : "whether it still composts, or whether plants bear it";
    return say("Tests of some compost: {}. Limits: {}. What does each tell: {}? Taken together, is it immature, mature or very mature?",
               joined(results, "; "), source, question);
  }

  Words operator()(const NitrogenProblem& problem) const {
    const bool range = problem.content.low < problem.content.high;
    const Words content =
        range ? say("from {} to {}", percent_number(problem.content.low.value()), percent_number(problem.content.high.value()))
              : Words(percent_number(problem.content.low.value()));
    return say(
        "Compost weighs {} and has {} moisture; {} % of its dry matter is nitrogen. How much nitrogen does {} of it bring to {}{}, in "
        "{} to the tenth?",
        problem.density, problem.moisture, content, SpreadDepth{problem.depth}, problem.area, range ? ", at the least and at the most" : "",
        units().mass.symbol);
  }
};

struct KindTitle {
  std::string_view operator()(const MoistureProblem&) const { return "Moisture of a sample"; }
  std::string_view operator()(const WaterProblem&) const { return "Water to add"; }
  std::string_view operator()(const RatioProblem&) const { return "C:N of a mix"; }
  std::string_view operator()(const LeavesProblem&) const { return "Leaves for clippings"; }
  std::string_view operator()(const VolumeProblem&) const { return "Compost for a lawn"; }
  std::string_view operator()(const LogProblem&) const { return "Reading a log"; }
  std::string_view operator()(const TestsProblem&) const { return "Is it finished?"; }
  std::string_view operator()(const NitrogenProblem&) const { return "Nitrogen for a lawn"; }
};

}  // namespace

std::string_view kind_title(const ExerciseProblem& problem) { return std::visit(KindTitle(), problem.of); }

Words asked_words(const ExerciseProblem& problem, const Exercise& exercise, const Materials& materials) {
  return std::visit(AskedWords{exercise, materials}, problem.of);
}

}  // namespace heapwright
