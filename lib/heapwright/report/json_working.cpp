#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

Json term_json(const Term& term) {
  return {{"symbol", term.symbol}, {"what", term.what}, {"value", term.value}, {"unit", term.unit}, {"source", term.source}};
}

Json step_json(const Step& step) {
  Json terms = Json::array();
  for (const Term& term : step.terms) terms.push_back(term_json(term));
  Json json{{"what", step.what},  {"formula", step.formula},   {"symbols", nullptr},
            {"numbers", nullptr}, {"terms", std::move(terms)}, {"result", nullptr}};
  if (step.result) {
    json["symbols"] = step.symbols;
    json["numbers"] = step.numbers;
    json["result"] = {{"symbol", step.result->symbol}, {"value", step.result->value}, {"unit", step.result->unit}};
  }
  json["source"] = step.source;
  return json;
}

}  // namespace

Json working_json(const std::optional<Working>& working) {
  if (!working) return nullptr;
  Json steps = Json::array();
  for (const Step& step : working->steps()) steps.push_back(step_json(step));
  return steps;
}

}  // namespace heapwright
