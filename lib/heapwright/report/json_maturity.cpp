#include "heapwright/page/pile_now.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {
namespace {

Json date_json(const std::optional<Date>& date) { return date ? Json(print_date(*date)) : Json(nullptr); }

Json number_json(TestQuantity measured, const std::optional<TestValue>& value) {
  return value ? Json(in_usual_unit(measured, *value).number) : Json(nullptr);
}

/// "passed" of a screen; null of a property, which rates nothing.
Json rating_json(const RatedTest& test) {
  if (!test.rating) return nullptr;
  const bool passes_screen = test.criterion->kind == TestKind::screening && *test.rating != Rating::immature;
  return passes_screen ? "passed" : rating_word(test.rating);
}

/// "below": the value is no more than a bound of what was measured; null where it is just that.
Json told_json(const std::optional<Bound::Side>& told) {
  if (!told) return nullptr;
  switch (*told) {
    case Bound::Side::below: return "below";
    case Bound::Side::at_most: return "at most";
    case Bound::Side::above: return "above";
    case Bound::Side::at_least: return "at least";
  }
  return nullptr;
}

Json rating_json(const KindRating& kind) { return kind.rating ? Json(rating_word(kind.rating)) : Json(nullptr); }

Json test_json(const RatedTest& test, const Materials& materials) {
  const ValueInUnit value = in_usual_unit(test.criterion->measured, test.test.value);
  const Provenance* whose = test.scale == nullptr ? nullptr : &test.scale->whose;
  return {{"test", test.criterion->id},
          {"value", value.number},
          {"unit", value.unit},
          {"told", told_json(test.test.told)},
          {"rating", rating_json(test)},
          {"at_least", test.at_least},
          {"source", whose == nullptr ? Json(nullptr) : Json(source_words(materials, whose->source, whose->evidence))},
          {"evidence", whose == nullptr ? Json(nullptr) : Json(evidence_word(whose->evidence))},
          {"class", test.heating_class.empty() ? Json(nullptr) : Json(test.heating_class)},
          {"date", date_json(test.test.date)},
          {"superseded", test.superseded},
          {"stands_beside", test.stands_beside}};
}

Json limit_json(const LineLimit& limit, const Materials& materials) {
  return {{"written", limit.written},
          {"value", in_usual_unit(TestQuantity::microbe_count, limit.bound.value).number},
          {"unit", in_usual_unit(TestQuantity::microbe_count, limit.bound.value).unit},
          {"for_whom", limit.for_whom},
          {"source", source_words(materials, limit.whose.source, limit.whose.evidence)},
          {"evidence", evidence_word(limit.whose.evidence)}};
}

Json line_json(const StandingLine& standing, const Materials& materials) {
  const ReportedLine& reported = standing.reported;
  const ReportLine* line = standing.line;
  Json json{{"name", reported.name},
            {"written", reported.written},
            {"standing", standing_word(standing.standing)},
            {"date", date_json(reported.date)}};
  json["line"] = line == nullptr ? Json(nullptr) : Json(line->id);
  json["what"] = line == nullptr ? Json(nullptr) : Json(line->what);
  json["test"] = reported.test.empty() ? Json(nullptr) : Json(reported.test);
  json["value"] = reported.figure ? Json(reported.figure->number) : Json(nullptr);
  json["unit"] = reported.figure ? Json(reported.figure->unit) : Json(nullptr);
  json["told"] = told_json(reported.figure ? reported.figure->told : std::nullopt);
  json["limit"] = line != nullptr && line->limit ? limit_json(*line->limit, materials) : Json(nullptr);
  json["source"] = line == nullptr ? Json(nullptr) : Json(source_words(materials, line->whose.source, line->whose.evidence));
  json["evidence"] = line == nullptr ? Json(nullptr) : Json(evidence_word(line->whose.evidence));
  return json;
}

Json reason_json(const RatingReason& reason, const Materials& materials) {
  return {{"id", reason.id},
          {"text", reason.text},
          {"source", source_words(materials, reason.whose.source, reason.whose.evidence)},
          {"evidence", evidence_word(reason.whose.evidence)}};
}

Json check_json(const CheckResult& result, const Materials& materials) {
  const Provenance& whose = result.check->whose;
  return {{"check", result.check->id},
          {"result", !result.passed ? Json(nullptr) : Json(*result.passed ? "passed" : "failed")},
          {"date", date_json(result.date)},
          {"how", result.check->how},
          {"source", source_words(materials, whose.source, whose.evidence)},
          {"evidence", evidence_word(whose.evidence)}};
}

/// A value at the limit passes, but where it is strict.
Json limit_json(TestQuantity measured, const TurfLimit& limit) {
  const auto number = [&](const std::optional<Bound>& bound) {
    return bound ? Json(in_usual_unit(measured, bound->value).number) : Json(nullptr);
  };
  const bool strict = (limit.low && limit.low->side == Bound::Side::above) || (limit.high && limit.high->side == Bound::Side::below);
  return {{"low", number(limit.low)}, {"high", number(limit.high)}, {"strict", strict}};
}

Json turf_json(const TurfResult& result, const Materials& materials) {
  const TestQuantity measured = result.property->measured;
  const TurfLimit& limit = *result.limit;
  const TestValue& any = limit.low ? limit.low->value : limit.high->value;
  return {{"property", limit.property},
          {"value", number_json(measured, result.value)},
          {"told", told_json(result.told)},
          {"limit", limit_json(measured, limit)},
          {"unit", in_usual_unit(measured, any).unit},
          {"ok", optional_json(result.ok)},
          {"specification", limit.specification},
          {"source", source_words(materials, limit.whose.source, limit.whose.evidence)},
          {"evidence", evidence_word(limit.whose.evidence)},
          {"what", limit.whose.what},
          {"respiratory_quotient", result.converted ? Json(respiratory_quotient) : Json(nullptr)}};
}

}  // namespace

Json maturity_json(const Answer<YardCompost>& whole, const Materials& materials) {
  const YardCompost& answer = whole.result;
  const CompostKnown& known = answer.known;
  Json json{{"rating", rating_word(known.rating.rating)},
            {"pile_at_work", known.pile_at_work},
            {"stability", rating_json(known.rating.stability)},
            {"maturity", rating_json(known.rating.maturity)},
            {"stability_tests_disagree", known.rating.stability.tests_disagree},
            {"maturity_tests_disagree", known.rating.maturity.tests_disagree},
            {"plants_decide", known.rating.maturity.plants_decide}};
  for (const char* list : {"tests", "report_lines", "checks", "turf", "next", "rating_reasons"}) json[list] = Json::array();
  for (const RatedTest& test : known.rating.tests) json["tests"].push_back(test_json(test, materials));
  for (const StandingLine& line : answer.report_lines) json["report_lines"].push_back(line_json(line, materials));
  for (const CheckResult& result : known.checks) json["checks"].push_back(check_json(result, materials));
  for (const TurfResult& result : known.turf) json["turf"].push_back(turf_json(result, materials));
  for (const RatingReason* reason : answer.reasons) json["rating_reasons"].push_back(reason_json(*reason, materials));
  for (const NextStep* step : answer.next) json["next"].push_back(Show(ShownUnits::si).words(step_words(*step, answer)));
  json["cured_by"] = date_json(answer.cured_by);
  return with_grounds(std::move(json), whole, materials);
}

std::string json_of_maturity(const Answer<YardCompost>& answer, const Materials& materials) {
  return printed(maturity_json(answer, materials));
}

}  // namespace heapwright
