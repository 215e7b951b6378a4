#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "heapwright/maturity/verdict.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/pile_now.hpp"
#include "heapwright/page/turf_parts.hpp"

namespace heapwright {
namespace {

const WorkSteps using_it{"use"};

/// With the verdict and the next check that leaves a screen of twenty lines.
constexpr std::ptrdiff_t most_steps = 5;

Words dated(const std::optional<Date>& date) { return date ? say(", {}", *date) : Words(); }

std::vector<Words> names_of(const std::vector<const TestCriterion*>& criteria) {
  std::vector<Words> names;
  for (const TestCriterion* criterion : criteria) names.emplace_back(criterion->name);
  return names;
}

// --- what to do ---

std::vector<const NextStep*> steps_without_tests(const YardCompost& compost) {
  std::vector<const NextStep*> steps = compost.next;
  std::erase_if(steps, [](const NextStep* step) { return is_for_a_rating(*step); });
  return steps;
}

void say_what_to_do(PageWriter& writer, const YardCompost& compost) {
  Numbered act;
  if (const CheckCriterion* check = next_check(compost.known)) act.items.push_back(check_words(*check));
  std::vector<Words> later;
  std::ptrdiff_t number = 0;
  for (const NextStep* step : steps_without_tests(compost)) {
    std::vector<Words>& list = number++ < most_steps ? act.items : later;
    list.push_back(step_words(*step, compost));
  }
  if (!act.items.empty()) writer.block(std::move(act));
  writer.section(Depth::why, "After that").bullets(std::move(later));
}

void say_how_to_rate(PageWriter& writer, const YardCompost& compost) {
  std::vector<Words> items;
  for (const NextStep* step : compost.next) {
    if (is_for_a_rating(*step)) items.emplace_back(step->text);
  }
  writer.section(Depth::why, "For a rating").bullets(std::move(items));
}

// --- household checks ---

/// Whose it is, where somebody published it; the heading says that the rest is common practice.
Words published(const Provenance& whose, const Materials& materials) {
  return whose.evidence == Evidence::judged ? Words() : say(" ({})", source_words(materials, whose.source, whose.evidence));
}

Words check_result(const CheckResult& result, const Materials& materials) {
  const CheckCriterion& check = *result.check;
  if (!result.passed) return say("{}: not done. {}{}", capital(check.name), check.how, published(check.whose, materials));
  return say("{}: {}{}; {}.", capital(check.name), *result.passed ? "passed" : "failed", dated(result.date),
             *result.passed ? check.passed : check.failed);
}

void say_checks(PageWriter& writer, const CompostKnown& known, const Materials& materials) {
  std::vector<Words> items;
  for (const CheckResult& result : known.checks) items.push_back(check_result(result, materials));
  writer.section(Depth::why, "Household checks (no rating; common practice where no source is named)").bullets(std::move(items));
}

// --- tests ---

/// "14.4 °F (8 °C)", "below 5 mg/kg"
Words told_words(TestQuantity measured, const TestValue& value, std::optional<Bound::Side> told) {
  return told ? bound_words({*told, value}, measured) : Words(Tested{measured, value});
}

/// "14.4 °F (8 °C), class V"
Words measured_words_of(const RatedTest& test) {
  const Words value = told_words(test.criterion->measured, test.test.value, test.test.told);
  return test.heating_class.empty() ? value : say("{}, class {}", value, test.heating_class);
}

Words rating_words(const RatedTest& test) {
  if (test.superseded) return "superseded";
  if (!test.rating) return "cannot be told";
  if (test.criterion->kind == TestKind::screening && test.rating != Rating::immature) return "passes";
  return say("{}{}{}", test.at_least && test.test.told ? "at least " : "", rating_word(test.rating),
             test.stands_beside ? ", beside plants" : "");
}

/// From where on a test rates as what.
Words scale_words(const RatedTest& test) {
  const TestCriterion& criterion = *test.criterion;
  const Words mature = bound_words(test.scale->mature, criterion.measured);
  if (criterion.kind == TestKind::screening) return say("{}: passes {}", capital(criterion.name), mature);
  if (!test.scale->very_mature) return say("{}: mature {}", capital(criterion.name), mature);
  return say("{}: mature {}, very mature {}", capital(criterion.name), mature, bound_words(*test.scale->very_mature, criterion.measured));
}

Words kind_words(const char* kind, const KindRating& rating) {
  return say("{}: {}", kind, rating.rating ? Words(rating_word(rating.rating)) : Words("not tested"));
}

/// How it is settled that tests disagree.
const char* what_rules(const MaturityRating& rating, TestKind kind) {
  return kind == TestKind::maturity && rating.maturity.plants_decide
             ? "What plants did decides, the less mature of it; the rest stands beside it, and nothing is averaged."
             : "The less mature rules; nothing is averaged.";
}

Words disagreement(const MaturityRating& rating, TestKind kind) {
  std::vector<Words> tests;
  for (const RatedTest& test : rating.tests) {
    if (test.criterion->kind == kind && !test.superseded && test.rating)
      tests.push_back(say("{} {}", test.criterion->name, rating_word(test.rating)));
  }
  return say("The tests of {} disagree: {}. {}", kind == TestKind::stability ? "stability" : "maturity", joined(tests),
             what_rules(rating, kind));
}

void say_reasons(PageWriter& writer, const std::vector<const RatingReason*>& reasons, const Materials& materials) {
  std::vector<Words> items;
  for (const RatingReason* reason : reasons)
    items.push_back(say("{} ({})", reason->text, source_in_short(materials, reason->whose.source, reason->whose.evidence)));
  writer.bullets(std::move(items));
}

void say_tests(PageWriter& writer, const YardCompost& compost, const Materials& materials) {
  const MaturityRating& rating = compost.known.rating;
  Grid grid;
  std::vector<Words> scales;
  for (const RatedTest& test : rating.tests) {
    if (test.criterion->kind == TestKind::property) continue;
    grid.rows.push_back({test.criterion->name, measured_words_of(test), say("{}{}", rating_words(test), dated(test.test.date))});
    if (!test.superseded) scales.push_back(scale_words(test));
  }
  if (grid.rows.empty()) return;
  writer.section(Depth::why, say("Tests ({}; {})", kind_words("is it still composting", rating.stability),
                                 kind_words("do plants bear it", rating.maturity)));
  writer.block(std::move(grid)).bullets(std::move(scales));
  if (rating.stability.tests_disagree) writer.paragraph(disagreement(rating, TestKind::stability));
  if (rating.maturity.tests_disagree) writer.paragraph(disagreement(rating, TestKind::maturity));
  say_reasons(writer, compost.reasons, materials);
}

// --- the other lines of a laboratory's report ---

/// What to do where a line is beyond a limit that somebody sets.
void say_beyond_limits(PageWriter& writer, const std::vector<StandingLine>& lines) {
  for (const StandingLine& one : lines) {
    if (one.standing == LineStanding::beyond_limit) writer.paragraph(one.line->limit->beyond);
  }
}

/// Lines to be asked about, with or without a figure.
std::vector<Words> to_be_asked_about(const std::vector<StandingLine>& lines, bool with_figure) {
  std::vector<Words> words;
  for (const StandingLine& one : lines) {
    if (one.ask_about && one.reported.figure.has_value() == with_figure)
      words.push_back(say("{} ({})", one.line->name, one.reported.written));
  }
  return words;
}

/// What was found and may harm: above the verdict, which does not know of it.
void say_verdict(PageWriter& writer, const YardCompost& compost) {
  const std::vector<Words> found = to_be_asked_about(compost.report_lines, false);
  if (found.empty()) return static_cast<void>(writer.paragraph(verdict_words(compost)));
  writer.paragraph(say("Wait: show the report to your extension office before you use any of it. Not judged here: {}.", listed(found)));
  writer.paragraph(say("By all else: {}", verdict_words(compost)));
}

/// Figures that are held against no limit: nobody should take the verdict for a word on them.
void say_without_limits(PageWriter& writer, const std::vector<StandingLine>& lines) {
  const std::vector<Words> figures = to_be_asked_about(lines, true);
  if (figures.empty()) return;
  writer.paragraph(
      say("No limit is at hand here for its {}: show the report to your extension office before any of it goes on beds.", listed(figures)));
}

/// A young pile in the cold that a laboratory calls stable: its own sample?
void say_young(PageWriter& writer, const CompostKnown& known) {
  if (!known.age_in_cold || rests_in_cold(known)) return;
  writer.paragraph(say("The pile is {} old, and it is cold out: was the sample taken from this one?", in_weeks(*known.age_in_cold)));
}

/// What nobody here knows is judged by nothing, and should not pass for judged.
void say_not_known(PageWriter& writer, const std::vector<StandingLine>& lines) {
  constexpr std::size_t most_named_here = 3;
  std::vector<Words> names;
  std::size_t all = 0;
  for (const StandingLine& one : lines) {
    if (one.standing != LineStanding::not_known) continue;
    if (++all <= most_named_here) names.push_back(say("{} ({})", one.reported.name, one.reported.written));
  }
  if (all > most_named_here) names.push_back(say("{} more", whole(static_cast<long long>(all - most_named_here))));
  if (!names.empty()) writer.paragraph(say("Not judged, since this program does not know it: {}.", listed(names)));
}

/// Where a household check speaks for compost that its tests speak against.
void say_checks_against_tests(PageWriter& writer, const CompostKnown& known) {
  std::vector<Words> checks;
  for (const CheckCriterion* check : checks_against_tests(known)) checks.emplace_back(check->name);
  if (checks.empty()) return;
  writer.paragraph(
      say("The household check that {} passed, and the tests say otherwise: was one of another day, or of another part of it? The tests "
          "decide.",
          listed(checks)));
}

/// The day of all of them; nothing where they have several, or one has none.
std::optional<Date> day_of_all(const std::vector<StandingLine>& lines) {
  const auto has_another = [&](const StandingLine& one) { return one.reported.date != lines.front().reported.date; };
  return lines.empty() || std::any_of(lines.begin(), lines.end(), has_another) ? std::nullopt : lines.front().reported.date;
}

/// "copper 23.8 mg/kg", with its day where that is not the day of all.
Words line_words(const ReportedLine& line, const std::optional<Date>& day_of_all) {
  return say("{} {}{}", line.name, line.written, line.date == day_of_all ? Words() : dated(line.date));
}

Words limit_standing_words(const StandingLine& one, const Words& line, const Materials& materials) {
  const LineLimit& limit = *one.line->limit;
  const char* stands = one.standing == LineStanding::within_limit   ? "within the limit"
                       : one.standing == LineStanding::beyond_limit ? "beyond the limit"
                                                                    : "cannot be held against the limit";
  return say("{}: {}, which is {} ({}).", line, stands, limit.written,
             source_in_short(materials, limit.whose.source, limit.whose.evidence));
}

bool has_standing_by_limit(const StandingLine& one) {
  return one.standing == LineStanding::within_limit || one.standing == LineStanding::beyond_limit ||
         one.standing == LineStanding::not_comparable;
}

/// What lines that no limit is held against have in common.
std::string common_words(const StandingLine& one) {
  switch (one.standing) {
    case LineStanding::no_figure: return "rates nothing without a figure";
    case LineStanding::other_unit: return "kept as written; the unit is none that such a line is told in";
    case LineStanding::not_known: return "kept as written; this program does not know it";
    case LineStanding::no_limit:
    case LineStanding::within_limit:
    case LineStanding::beyond_limit:
    case LineStanding::not_comparable: return one.line->what;
  }
  return {};
}

/// Why a property is not among those that fit it for turf; empty where it is.
std::string why_not_for_turf(const RatedTest& test, const std::vector<TurfResult>& turf) {
  if (test.superseded) return "superseded by a later test";
  bool is_asked_for = false;
  for (const TurfResult& result : turf) {
    if (result.property != test.criterion) continue;
    if (result.value && std::is_eq(compare(*result.value, test.test.value)) && result.told == test.test.told) return {};
    is_asked_for = true;
  }
  if (!is_asked_for) return "no limit for turf at hand";
  return test.test.told ? "may be within the limits for turf or not" : "the worst of its kind stands below";
}

/// Under headings in the order of their first lines.
class LinesUnderHeadings {
 public:
  void add(const std::string& heading, Words line) {
    auto found = std::find_if(groups_.begin(), groups_.end(), [&](const auto& group) { return group.first == heading; });
    if (found == groups_.end()) found = groups_.insert(found, {heading, {}});
    found->second.push_back(std::move(line));
  }
  std::vector<Words> bullets() const {
    std::vector<Words> items;
    for (const auto& [heading, lines] : groups_) items.push_back(say("{}: {}", capital(heading), joined(lines, "; ")));
    return items;
  }

 private:
  std::vector<std::pair<std::string, std::vector<Words>>> groups_;
};

void say_report_lines(PageWriter& writer, const YardCompost& compost, const Materials& materials) {
  const std::optional<Date> day = day_of_all(compost.report_lines);
  std::vector<Words> items;
  std::vector<std::string> for_whom;
  LinesUnderHeadings rest;
  for (const StandingLine& one : compost.report_lines) {
    const Words line = line_words(one.reported, day);
    if (!has_standing_by_limit(one)) {
      rest.add(common_words(one), one.may_be.empty() ? line : say("{} (did you mean {}?)", line, one.may_be));
      continue;
    }
    items.push_back(limit_standing_words(one, line, materials));
    const std::string& whom = one.line->limit->for_whom;
    if (std::find(for_whom.begin(), for_whom.end(), whom) == for_whom.end()) for_whom.push_back(whom);
  }
  for (const std::string& whom : for_whom) items.emplace_back(whom);
  for (const RatedTest& test : compost.known.rating.tests) {
    const bool is_property = test.criterion->kind == TestKind::property;
    const std::string why = is_property ? why_not_for_turf(test, compost.known.turf) : "";
    if (!why.empty()) rest.add(why, say("{} {}{}", test.criterion->name, test.test.written, dated(test.test.date)));
  }
  for (Words& item : rest.bullets()) items.push_back(std::move(item));
  writer.section(Depth::why, say("Other lines of the report{} (they rate nothing)", dated(day))).bullets(std::move(items));
}

// --- turf ---

/// "passes Penn State (30 to 50); fails UK sheet (35 to 55)"
Words property_words(const std::vector<TurfResult>& results, const TestCriterion* property) {
  std::vector<Words> passes;
  std::vector<Words> fails;
  for (const TurfResult& result : results) {
    if (result.property != property || !result.ok) continue;
    (*result.ok ? passes : fails).push_back(limit_with_owner(*result.limit, property->measured));
  }
  return passes_and_fails(passes, fails);
}

/// The first result of a property that says whether it is ok, as "pH below 7" does by one specification and does not by another; null where
/// none does.
const TurfResult* measured_result(const std::vector<TurfResult>& results, const TestCriterion* property) {
  const auto found =
      std::find_if(results.begin(), results.end(), [&](const TurfResult& one) { return one.property == property && one.ok; });
  return found == results.end() ? nullptr : &*found;
}

std::vector<const TestCriterion*> properties_of(const std::vector<TurfResult>& results, bool measured) {
  std::vector<const TestCriterion*> properties;
  for (const TurfResult& result : results) {
    const bool known = std::find(properties.begin(), properties.end(), result.property) != properties.end();
    const bool is_measured = measured_result(results, result.property) != nullptr;
    if (is_measured == measured && !known) properties.push_back(result.property);
  }
  return properties;
}

Words specifications(const std::vector<TurfResult>& results) {
  std::vector<Words> passes;
  std::vector<Words> fails;
  for (const TurfVerdict& verdict : turf_verdicts(results)) {
    if (verdict.measured == 0) continue;
    const Words name = say("{} ({} of {})", verdict.specification, whole(verdict.measured), whole(verdict.asked));
    if (verdict.fails.empty())
      passes.push_back(name);
    else
      fails.push_back(say("{} on {}", name, joined(names_of(verdict.fails))));
  }
  return say("In all (so many of its limits measured) it {}.", passes_and_fails(passes, fails));
}

/// What the specifications say of some limits, as "fine grade".
Words fine_print(const std::vector<TurfResult>& results) {
  std::vector<std::pair<std::string, std::vector<Words>>> by_words;
  for (const TurfResult& result : results) {
    if (!result.ok || result.limit->whose.what.empty()) continue;
    std::string words = fmt::format("{}: {}", result.property->name, result.limit->whose.what);
    if (by_words.empty() || by_words.back().first != words) by_words.push_back({std::move(words), {}});
    by_words.back().second.emplace_back(result.limit->specification);
  }
  std::vector<Words> parts;
  for (const auto& [words, names] : by_words) parts.push_back(say("{}, {}", joined(names), words));
  return parts.empty() ? Words() : say("Fine print: {}.", joined(parts, "; "));
}

void say_turf(PageWriter& writer, const CompostKnown& known) {
  const std::vector<const TestCriterion*> measured = properties_of(known.turf, true);
  const std::vector<const TestCriterion*> missing = properties_of(known.turf, false);
  writer.section(Depth::why, "Fit for turf");
  if (measured.empty()) {
    writer.paragraph(say("Nothing was measured that turf specifications ask for ({}).", joined(names_of(missing))));
    return;
  }
  std::vector<Words> items;
  bool converted = false;
  for (const TestCriterion* property : measured) {
    const TurfResult& result = *measured_result(known.turf, property);
    converted = converted || result.converted;
    items.push_back(
        say("{} {}: {}", property->name, told_words(property->measured, *result.value, result.told), property_words(known.turf, property)));
  }
  writer.bullets(std::move(items)).paragraph(specifications(known.turf));
  if (!is_ready(known)) writer.paragraph("None of this makes up for compost that is not finished.");
  if (converted) writer.paragraph("CO2 is converted from oxygen at a respiratory quotient of 1: one CO2 for each O2.");
  if (!counting(known.rating.tests, "salts-paste").empty())
    writer.paragraph("Salts in a saturated paste are not held against these limits, which are for a 1:5 slurry: the two do not convert.");
  if (!missing.empty()) writer.paragraph(say("Not measured: {}.", joined(names_of(missing))));
  writer.paragraph(fine_print(known.turf));
}

// --- where all that comes from ---

/// Whose the limits are, said once for all tests that share them.
void say_limits(PageWriter& writer, const std::vector<RatedTest>& tests, const Materials& materials) {
  std::vector<std::pair<std::string, std::vector<Words>>> by_source;
  std::vector<std::string> named;
  for (const RatedTest& test : tests) {
    const bool is_named = std::find(named.begin(), named.end(), test.criterion->id) != named.end();
    if (test.scale == nullptr || test.superseded || is_named) continue;
    named.push_back(test.criterion->id);
    const Provenance& whose = test.scale->whose;
    std::string words = source_words(materials, whose.source, whose.evidence);
    if (!whose.what.empty()) words += fmt::format(", {}", whose.what);
    auto found = std::find_if(by_source.begin(), by_source.end(), [&](const auto& one) { return one.first == words; });
    if (found == by_source.end()) found = by_source.insert(found, {std::move(words), {}});
    found->second.emplace_back(test.criterion->name);
  }
  std::vector<Words> items;
  for (const auto& [words, names] : by_source) items.push_back(say("limits of {}: {}", joined(names), words));
  writer.bullets(std::move(items));
}

void say_sources_of_turf(PageWriter& writer, const std::vector<TurfResult>& results, const Materials& materials) {
  std::vector<std::string> sources;
  for (const TurfResult& result : results) {
    if (!result.ok) continue;
    const Provenance& whose = result.limit->whose;
    const std::string title = source_words(materials, whose.source, whose.evidence);
    const std::string& name = result.limit->specification;
    std::string words = title.find(name) == std::string::npos ? fmt::format("{}: {}", name, title) : title;
    if (std::find(sources.begin(), sources.end(), words) == sources.end()) sources.push_back(std::move(words));
  }
  writer.bullets({sources.begin(), sources.end()});
}

void say_sources_of_steps(PageWriter& writer, const YardCompost& compost, const Materials& materials) {
  std::vector<Words> items;
  for (const NextStep* step : compost.next) {
    const Provenance& whose = step->whose;
    if (whose.evidence != Evidence::judged)
      items.push_back(say("\"{}\": {}", step->text, source_words(materials, whose.source, whose.evidence)));
  }
  writer.bullets(std::move(items));
}

void say_sources_of_line_limits(PageWriter& writer, const std::vector<StandingLine>& lines, const Materials& materials) {
  std::vector<Words> items;
  for (const StandingLine& one : lines) {
    if (!has_standing_by_limit(one)) continue;
    const Provenance& whose = one.line->limit->whose;
    items.push_back(say("limit of {}: {}", one.line->name, source_words(materials, whose.source, whose.evidence)));
  }
  writer.bullets(std::move(items));
}

void say_sources(PageWriter& writer, const YardCompost& compost, const Materials& materials) {
  writer.section(Depth::ground, "Where the limits and the steps come from (common practice where no source is named)");
  say_limits(writer, compost.known.rating.tests, materials);
  say_sources_of_turf(writer, compost.known.turf, materials);
  say_sources_of_line_limits(writer, compost.report_lines, materials);
  say_sources_of_steps(writer, compost, materials);
}

}  // namespace

Page maturity_page(const Answer<YardCompost>& answer, const Materials& materials) {
  const YardCompost& compost = answer.result;
  PageWriter writer("Is the compost finished?");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act);
  say_beyond_limits(writer, compost.report_lines);
  say_verdict(writer, compost);
  say_without_limits(writer, compost.report_lines);
  say_young(writer, compost.known);
  say_not_known(writer, compost.report_lines);
  say_checks_against_tests(writer, compost.known);
  say_what_to_do(writer, compost);
  end_act(writer, answer, materials, using_it);
  say_checks(writer, compost.known, materials);
  say_how_to_rate(writer, compost);
  say_tests(writer, compost, materials);
  say_report_lines(writer, compost, materials);
  say_turf(writer, compost.known);
  say_sources(writer, compost, materials);
  return finished(std::move(writer), answer, materials);
}

}  // namespace heapwright
