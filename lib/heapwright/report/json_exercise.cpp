#include "heapwright/exercise/exercise.hpp"
#include "heapwright/page/exercise_parts.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {
namespace {

template <class Quantity>
Json ends_json(const Band<Quantity>& band) {
  return {{"low", band.low.value()}, {"high", band.high.value()}};
}

Json properties_json(const Properties& properties) {
  return {{"moisture_fraction", properties.moisture.value()},
          {"carbon_fraction_dry", properties.carbon.value()},
          {"carbon_to_nitrogen", CarbonNitrogenRatio(properties.carbon / properties.nitrogen).value()}};
}

Json ingredient_json(const Ingredient& ingredient) {
  Json json{{"feedstock", ingredient.id}, {"mass_kg", ingredient.mass.value()}};
  json.update(properties_json(ingredient.properties));
  return json;
}

Json rectangle_json(const Piece& piece) { return {{"length_m", piece.sides[0].value()}, {"width_m", piece.sides[1].value()}}; }

double days_of(std::chrono::seconds length) { return std::chrono::duration<double, std::chrono::days::period>(length).count(); }

/// A problem but for its words.
struct ProblemJson {
  std::string_view kind;
  Json given;
  Json answer;
  Json mistaken;
};

struct ProblemAsJson {
  ProblemJson operator()(const MoistureProblem& problem) const {
    Json weighings = Json::array();
    for (const Dried& one : problem.weighings) weighings.push_back({{"wet_kg", one.wet.value()}, {"dry_kg", one.dry.value()}});
    return {"moisture",
            {{"feedstock", problem.of}, {"bowl_kg", problem.bowl.value()}, {"weighings", std::move(weighings)}},
            {{"moisture_fraction", ends_json(problem.answer)}},
            {{"moisture_fraction", ends_json(problem.mistaken)}}};
  }

  ProblemJson operator()(const WaterProblem& problem) const {
    return {"water",
            {{"mass_kg", as_is_mass(problem.dry, problem.water).value()},
             {"water_kg", problem.water.value()},
             {"moisture_fraction", moisture_wet_basis(problem.dry, problem.water).value()},
             {"wanted_moisture_fraction", ends_json(problem.goal)}},
            {{"added_water_kg", ends_json(problem.answer)}},
            {{"added_water_kg", ends_json(problem.mistaken)}}};
  }

  ProblemJson operator()(const RatioProblem& problem) const {
    Json ingredients = Json::array();
    for (const Ingredient& one : problem.ingredients) ingredients.push_back(ingredient_json(one));
    return {"carbon-to-nitrogen",
            {{"ingredients", std::move(ingredients)}},
            {{"carbon_to_nitrogen", problem.answer.value()}},
            {{"carbon_to_nitrogen", problem.mistaken.value()}}};
  }

  ProblemJson operator()(const LeavesProblem& problem) const {
    Json leaves = properties_json(problem.leaves);
    leaves["carbon_to_nitrogen"] = ends_json(problem.leaves_ratio);
    return {"leaves-for-clippings",
            {{"clippings", ingredient_json(problem.clippings)},
             {"leaves", std::move(leaves)},
             {"wanted_carbon_to_nitrogen", problem.goal.value()}},
            {{"leaves_kg", ends_json(problem.answer)}},
            {{"leaves_kg", ends_json(Band<Mass>{problem.mistaken, problem.mistaken})}}};
  }

  ProblemJson operator()(const VolumeProblem& problem) const {
    const Zone& lawn = problem.lawn;
    Json given{{"area_m2", lawn.whole ? Json(nullptr) : Json(lawn.area.value())},
               {"lawn", lawn.whole ? rectangle_json(*lawn.whole) : Json(nullptr)},
               {"cut_out", lawn.cut_out.empty() ? Json(nullptr) : rectangle_json(lawn.cut_out.front())},
               {"depth_m", problem.depth.value()}};
    return {"volume", std::move(given), {{"volume_m3", problem.answer.value()}}, {{"volume_m3", problem.mistaken.value()}}};
  }

  ProblemJson operator()(const LogProblem& problem) const {
    const TimeTemperatureRule& rule = problem.rule;
    Json probes = Json::object();
    for (std::size_t i = 0; i < problem.log.probes.size(); ++i) {
      Json& readings = probes[problem.log.probes[i]] = Json::array();
      for (const LogRow& row : problem.log.rows) readings.push_back(row.probes[i]->kelvin());
    }
    return {"log",
            {{"rule", rule.id},
             {"at_least_k", rule.at_least.kelvin()},
             {"at_most_k", rule.at_most ? Json(rule.at_most->kelvin()) : Json(nullptr)},
             {"rule_days", days_of(rule.length)},
             {"daily_readings_k", std::move(probes)}},
            {{"longest_days", days_of(problem.answer)}, {"met", problem.met}, {"safe", false}},
            {{"longest_days", days_of(problem.mistaken)}}};
  }

  ProblemJson operator()(const TestsProblem& problem) const {
    Json tests = Json::array();
    Json ratings = Json::array();
    for (const TestsProblem::Result& result : problem.results) {
      const ValueInUnit value = in_usual_unit(result.test.measured, result.value);
      tests.push_back({{"test", result.test.id}, {"value", value.number}, {"unit", value.unit}});
      ratings.push_back({{"test", result.test.id}, {"tells", kind_of(result.test.kind)}, {"rating", rating_word(result.rating)}});
    }
    const bool one = problem.results.size() < 2;
    return {"tests",
            {{"tests", std::move(tests)}},
            {{"tests", std::move(ratings)}, {"rating", rating_word(problem.answer)}},
            {{"tells", one ? Json(kind_of(problem.mistaken_kind)) : Json(nullptr)}, {"rating", rating_word(problem.mistaken)}}};
  }

  ProblemJson operator()(const NitrogenProblem& problem) const {
    return {"nitrogen",
            {{"area_m2", problem.area.value()},
             {"depth_m", problem.depth.value()},
             {"bulk_density_kg_m3", problem.density.value()},
             {"moisture_fraction", problem.moisture.value()},
             {"nitrogen_fraction_dry", ends_json(problem.content)}},
            {{"nitrogen_kg", ends_json(problem.answer)}},
            {{"nitrogen_kg", ends_json(problem.mistaken)}}};
  }

  static std::string_view kind_of(TestKind kind) {
    switch (kind) {
      case TestKind::screening: return "screen";
      case TestKind::stability: return "stability";
      case TestKind::maturity: return "maturity";
      case TestKind::property: return "property";
    }
    return {};
  }
};

}  // namespace

std::string json_of_exercise(const Exercise& exercise, const Materials& materials, const Show& show) {
  Json problems = Json::array();
  for (const ExerciseProblem& problem : exercise.problems) {
    ProblemJson json = std::visit(ProblemAsJson(), problem.of);
    problems.push_back({{"kind", json.kind},
                        {"text", show.words(asked_words(problem, exercise, materials))},
                        {"given", std::move(json.given)},
                        {"answer", std::move(json.answer)},
                        {"usual_mistake", {{"answer", std::move(json.mistaken)}, {"why", why_mistaken(problem, exercise)}}}});
  }
  return printed({{"seed", exercise.seed}, {"level", static_cast<int>(exercise.level)}, {"problems", std::move(problems)}});
}

}  // namespace heapwright
