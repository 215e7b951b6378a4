#include <algorithm>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

/// "7 mg CO2-C/g OM/day", "12 °C", "45 %".
std::string value_text(Measured measured, const TestValue& value, const Show& show) {
  const ValueInUnit usual = in_usual_unit(measured, value);
  const auto number = [&](double factor) { return print_number(factor * usual.number, 3); };
  switch (measured) {
    case Measured::temperature_rise: return show.temperature_rise(std::get<TemperatureDifference>(value));
    case Measured::carbon_dioxide: return number(1.0) + " mg CO2-C/g OM/day";
    case Measured::oxygen: return number(1.0) + " mmol O2/kg OM/h";
    case Measured::oxygen_in_water: return number(1.0) + " mg O2/g OM/h";
    case Measured::size: return show.depth(std::get<Length>(value));
    case Measured::ammonium_content:
    case Measured::acid_content: return number(1.0) + " mg/kg";
    case Measured::electric_conductivity: return number(1.0) + " dS/m";
    case Measured::nitrogen_content:
    case Measured::carbon_content:
    case Measured::organic_matter:
    case Measured::moisture:
    case Measured::share_of_control: return number(100.0) + " %";
    case Measured::carbon_to_nitrogen:
    case Measured::nitrogen_ratio:
    case Measured::ph: return number(1.0);
  }
  return {};
}

std::string bound_text(const Bound& bound, Measured measured, const Show& show) {
  const std::string value = value_text(measured, bound.value, show);
  switch (bound.side) {
    case Bound::Side::below: return "below " + value;
    case Bound::Side::at_most: return "at most " + value;
    case Bound::Side::above: return "above " + value;
    case Bound::Side::at_least: return "at least " + value;
  }
  return {};
}

/// Without the unit that a value beside it has.
std::string without_unit_of(std::string text, const std::string& value) {
  const std::size_t unit = value.find(' ');
  if (unit != std::string::npos && text.ends_with(value.substr(unit))) text.resize(text.size() - (value.size() - unit));
  return text;
}

std::string date_text(const std::optional<Date>& date) { return date ? ", " + print_date(*date) : ""; }

// --- the first lines ------------------------------------------------------------------------------------------------------------

bool is_any_check_done(const CompostKnown& known) {
  return std::any_of(known.checks.begin(), known.checks.end(), [](const CheckResult& one) { return one.passed.has_value(); });
}

/// The tests by which plants do not bear it.
std::string tests_that_harm(const CompostKnown& known) {
  std::vector<std::string> names;
  for (const RatedTest& test : known.rating.tests) {
    if (test.criterion->kind == TestKind::maturity && !test.superseded && test.rating == Rating::immature)
      names.push_back(test.criterion->name);
  }
  return joined(names);
}

std::string why_not(const CompostKnown& known) {
  if (known.rating.carbon_to_nitrogen == Rating::immature)
    return "It is short of nitrogen, and would rob soil and plants of theirs. Mix greens in and let it heat once more.";
  const bool only_looks =
      !known.rating.stability.rating && result_of(known.checks, "no-reheat") != false && result_of(known.checks, "sealed-bag") != false;
  if (still_composts(known) && only_looks) return "It does not look done. Turn it, keep it moist, and look again in a month.";
  if (still_composts(known)) return "It is still composting. Turn it, keep it moist and let it cure in the pile.";
  const std::string by = tests_that_harm(known);
  return (by.empty() ? std::string("It harms plants") : "It may harm plants, as told by " + by) +
         ": leave it in the pile, and find out why.";
}

/// Why it stays off the lawn.
std::string off_the_lawn(const CompostKnown& known) {
  const std::vector<std::string> what = what_harms_turf(known);
  const std::string words = what.size() == 2 ? "pH and salts suit" : what.front() == "pH" ? "pH suits" : "salts suit";
  return "its " + words + " no specification for turf.";
}

std::string meanwhile(const CompostKnown& known) {
  return fit_for_mulch(known) ? "meanwhile it can be mulch." : "until then leave it in the pile.";
}

std::string curing_text(const YardCompost& answer) {
  if (answer.known.has_cured) return "It has cured long enough";
  return answer.cured_by ? "Let it cure until " + print_date(*answer.cured_by) : "Let it cure for three weeks";
}

std::string not_rated_text(const YardCompost& answer) {
  const CompostKnown& known = answer.known;
  if (known.pile_at_work) return "Not finished: it is hot, or smells so. Leave it until it is cool and smells of earth.";
  if (still_composts(known) || harms_plants(known)) return "Not finished, by what there is. " + why_not(known);
  if (too_dry_to_tell(known))
    return "Cannot say: as dry as it is, it would be cool in any case. Wet it until a handful clumps, and check it again after a week.";
  if (is_ready(known))
    return "Likely finished: all four household checks passed. " + curing_text(answer) +
           (!what_harms_turf(known).empty() ? ". Keep it off the lawn: " + off_the_lawn(known)
            : known.has_cured               ? ". Use it on the lawn and on beds, not yet on seedlings."
                                            : ". Then use it on the lawn and on beds.");
  if (is_any_check_done(known)) return "Nothing speaks against it so far. Do the checks that are missing; " + meanwhile(known);
  if (!known.rating.tests.empty()) return "Nothing speaks against it so far. Do the tests named below; " + meanwhile(known);
  return "Nothing is known of it yet. Do the four checks below, which cost nothing and take a week; " + meanwhile(known);
}

/// How many turf specifications it passes; nothing where nothing was measured of them. Where less than half of each was measured it is not
/// said to pass them.
std::string turf_passed_text(const CompostKnown& known) {
  int held = 0;
  int passed = 0;
  bool by_half = false;
  for (const TurfVerdict& verdict : turf_verdicts(known.turf)) {
    if (verdict.measured == 0) continue;
    ++held;
    passed += verdict.fails.empty() ? 1 : 0;
    by_half = by_half || 2 * verdict.measured >= verdict.asked;
  }
  if (held == 0) return {};
  if (passed == held && !by_half) return " Of what is asked of compost for turf little was measured; that much it passes.";
  return " For turf it passes " + std::to_string(passed) + " of the " + std::to_string(held) + " specifications, on what was measured.";
}

std::string rated_text(const CompostKnown& known) {
  const std::string word = capital(std::string(rating_word(known.rating.rating))) + ". ";
  if (known.rating.rating == Rating::immature) return word + why_not(known);
  if (known.pile_at_work)
    return word + "So its tests say, but the pile is at work: it is hot, or smells so. Leave it until it is cool and smells of earth.";
  if (too_dry_to_tell(known))
    return word +
           "So its tests say, but as dry as it is it would be quiet in any case: wet it until a handful clumps, and test again what "
           "was tested dry.";
  if (!is_ready(known)) return word + "So its tests say, but a household check failed: find out why before you use it.";
  if (!what_harms_turf(known).empty()) return word + "But keep it off the lawn: " + off_the_lawn(known);
  const bool very = known.rating.rating == Rating::very_mature;
  return word +
         (very ? "It is finished: use it on the lawn and on beds, and mixed with soil in pots."
               : "It may go on the lawn and on beds, but not on seedlings or into pots.") +
         turf_passed_text(known);
}

std::string first_line(const YardCompost& answer) {
  if (answer.known.rating.rating) return wrap(rated_text(answer.known));
  return wrap(not_rated_text(answer)) + "That is no rating: there are not enough tests for one.\n";
}

// --- tests ----------------------------------------------------------------------------------------------------------------------

/// "IV" beside the rise.
std::string measured_text(const RatedTest& test, const Show& show) {
  const std::string value = value_text(test.criterion->measured, test.test.value, show);
  return test.heating_class.empty() ? value : value + ", class " + test.heating_class;
}

std::string rating_text(const RatedTest& test) {
  if (test.superseded) return "superseded";
  if (test.criterion->kind == TestKind::screening && test.rating != Rating::immature) return "passes";
  return std::string(rating_word(test.rating));
}

std::string scale_text(const RatedTest& test, const Show& show) {
  const Measured measured = test.criterion->measured;
  const std::string mature = bound_text(test.scale->mature, measured, show);
  if (test.criterion->kind == TestKind::screening) return "passes " + mature;
  const std::string text = "mature " + mature;
  return test.scale->very_mature ? text + ", very mature " + bound_text(*test.scale->very_mature, measured, show) : text;
}

/// Whose the limits are, said once for all tests that share them.
std::string limits_text(const std::vector<RatedTest>& tests, const Materials& materials) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_source;
  bool remembered = false;
  for (const RatedTest& test : tests) {
    if (test.scale == nullptr || test.superseded) continue;
    const Provenance& whose = test.scale->whose;
    remembered = remembered || whose.evidence == Evidence::memory;
    const std::string words = source_words(materials, whose.source, whose.evidence) + (whose.what.empty() ? "" : ", " + whose.what);
    auto found = std::find_if(by_source.begin(), by_source.end(), [&](const auto& one) { return one.first == words; });
    if (found == by_source.end()) found = by_source.insert(found, {words, {}});
    std::vector<std::string>& names = found->second;
    if (std::find(names.begin(), names.end(), test.criterion->name) == names.end()) names.push_back(test.criterion->name);
  }
  std::string text;
  for (const auto& [words, names] : by_source)
    text += wrap("  Limits" + (by_source.size() == 1 ? "" : " of " + joined(names)) + ": " + words + ".", 2);
  return remembered ? text + "  So the rating is no published index's.\n" : text;
}

std::string disagreement_text(const MaturityRating& rating, TestKind kind) {
  std::vector<std::string> say;
  for (const RatedTest& test : rating.tests) {
    if (test.criterion->kind == kind && !test.superseded) say.push_back(test.criterion->name + " " + std::string(rating_word(test.rating)));
  }
  return std::string("The tests of ") + (kind == TestKind::stability ? "stability" : "maturity") + " disagree: " + joined(say) + ". ";
}

std::string disagreements_text(const MaturityRating& rating) {
  std::string text;
  if (rating.stability.tests_disagree) text += disagreement_text(rating, TestKind::stability);
  if (rating.maturity.tests_disagree) text += disagreement_text(rating, TestKind::maturity);
  return text.empty() ? text : wrap("  " + text + "The less mature rules; nothing is averaged.", 2);
}

std::string kind_text(const std::string& kind, const KindRating& rating) {
  return kind + ": " + (rating.rating ? std::string(rating_word(rating.rating)) : "not tested");
}

std::string tests_text(const MaturityRating& rating, const Materials& materials, const Show& show) {
  std::vector<const RatedTest*> tests;
  std::size_t name = 0;
  std::size_t value = 0;
  for (const RatedTest& test : rating.tests) {
    if (test.criterion->kind == TestKind::property) continue;
    tests.push_back(&test);
    name = std::max(name, width_of(test.criterion->name));
    value = std::max(value, width_of(measured_text(test, show)));
  }
  if (tests.empty()) return {};
  std::string text =
      "\nTests (" + kind_text("is it still composting", rating.stability) + "; " + kind_text("do plants bear it", rating.maturity) + ")\n";
  for (const RatedTest* test : tests) {
    text += "  " + padded(test->criterion->name, name) + "  " + padded(measured_text(*test, show), value) + "  " + rating_text(*test) +
            date_text(test->test.date) + "\n";
    if (!test->superseded) text += wrap("    " + scale_text(*test, show), 4);
  }
  return text + disagreements_text(rating) + limits_text(rating.tests, materials);
}

// --- turf -----------------------------------------------------------------------------------------------------------------------

/// "30 to 50", in the unit of the value.
std::string limit_text(const TurfResult& result, const Show& show) {
  const Measured measured = result.property->measured;
  const std::string of_value = value_text(measured, *result.value, show);
  const auto number = [&](const TestValue& one) { return without_unit_of(value_text(measured, one, show), of_value); };
  const TurfLimit& limit = *result.limit;
  if (limit.low && limit.high) return number(limit.low->value) + " to " + number(limit.high->value);
  if (limit.low) return (limit.low->side == Bound::Side::above ? "above " : "at least ") + number(limit.low->value);
  return (limit.high->side == Bound::Side::below ? "below " : "at most ") + number(limit.high->value);
}

std::string passes_and_fails(const std::vector<std::string>& passes, const std::vector<std::string>& fails) {
  const std::string passing = passes.empty() ? "" : "passes " + joined(passes);
  const std::string failing = fails.empty() ? "" : "fails " + joined(fails);
  return passing + (passes.empty() || fails.empty() ? "" : "; ") + failing;
}

/// "passes Penn State (30 to 50); fails UK sheet (35 to 55)".
std::string verdict_text(const std::vector<TurfResult>& results, const TestCriterion* property, const Show& show) {
  std::vector<std::string> passes;
  std::vector<std::string> fails;
  for (const TurfResult& result : results) {
    if (result.property != property || !result.ok) continue;
    (*result.ok ? passes : fails).push_back(result.limit->specification + " (" + limit_text(result, show) + ")");
  }
  return passes_and_fails(passes, fails);
}

std::vector<const TestCriterion*> properties_of(const std::vector<TurfResult>& results, bool measured) {
  std::vector<const TestCriterion*> properties;
  for (const TurfResult& result : results) {
    const bool known = std::find(properties.begin(), properties.end(), result.property) != properties.end();
    if (result.ok.has_value() == measured && !known) properties.push_back(result.property);
  }
  return properties;
}

const TurfResult& of_property(const std::vector<TurfResult>& results, const TestCriterion* property) {
  return *std::find_if(results.begin(), results.end(), [&](const TurfResult& one) { return one.property == property; });
}

std::string names_of(const std::vector<const TestCriterion*>& properties) {
  std::vector<std::string> names;
  for (const TestCriterion* property : properties) names.push_back(property->name);
  return joined(names);
}

std::string specifications_text(const std::vector<TurfResult>& results) {
  std::vector<std::string> passes;
  std::vector<std::string> fails;
  for (const TurfVerdict& verdict : turf_verdicts(results)) {
    if (verdict.measured == 0) continue;
    const std::string name = verdict.specification + " (" + std::to_string(verdict.measured) + " of " + std::to_string(verdict.asked) + ")";
    if (verdict.fails.empty()) {
      passes.push_back(name);
    } else {
      fails.push_back(name + " on " + names_of(verdict.fails));
    }
  }
  return "In all (so many of its limits measured) it " + passes_and_fails(passes, fails) + ".";
}

/// What the specifications say of some limits, as "fine grade".
std::string fine_print(const std::vector<TurfResult>& results) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_words;
  for (const TurfResult& result : results) {
    if (!result.ok || result.limit->whose.what.empty()) continue;
    const std::string words = result.property->name + ": " + result.limit->whose.what;
    if (by_words.empty() || by_words.back().first != words) by_words.push_back({words, {}});
    by_words.back().second.push_back(result.limit->specification);
  }
  std::string text;
  for (const auto& [words, specifications] : by_words) text += (text.empty() ? "" : "; ") + joined(specifications) + ", " + words;
  return text.empty() ? text : wrap("  Fine print: " + text + ".", 2);
}

std::string turf_sources_text(const std::vector<TurfResult>& results, const Materials& materials) {
  std::vector<std::string> sources;
  for (const TurfResult& result : results) {
    if (!result.ok) continue;
    const Provenance& whose = result.limit->whose;
    const std::string title = source_words(materials, whose.source, whose.evidence);
    const std::string& name = result.limit->specification;
    const std::string words = title.find(name) == std::string::npos ? name + ": " + title : title;
    if (std::find(sources.begin(), sources.end(), words) == sources.end()) sources.push_back(words);
  }
  std::string text;
  for (const std::string& source : sources) text += (text.empty() ? "" : "; ") + source;
  return wrap("  (" + text + ".)", 2);
}

std::string turf_text(const CompostKnown& known, const Materials& materials, const Show& show) {
  const std::vector<const TestCriterion*> measured = properties_of(known.turf, true);
  const std::vector<const TestCriterion*> missing = properties_of(known.turf, false);
  if (measured.empty()) return "\n" + wrap("Fit for turf: nothing measured that turf specifications ask for (" + names_of(missing) + ").");
  std::string text = "\nFit for turf\n";
  bool converted = false;
  for (const TestCriterion* property : measured) {
    const TurfResult& result = of_property(known.turf, property);
    converted = converted || result.converted;
    text += wrap(
        "  " + property->name + " " + value_text(property->measured, *result.value, show) + ": " + verdict_text(known.turf, property, show),
        4);
  }
  if (converted) text += wrap("  CO2 is converted from oxygen at a respiratory quotient of 1: one CO2 for each O2.", 2);
  if (!counting(known.rating.tests, "salts-paste").empty())
    text += wrap("  Salts in a saturated paste are not held against these limits, which are for a 1:5 slurry: the two do not convert.", 2);
  text +=
      wrap("  " + specifications_text(known.turf) + (is_ready(known) ? "" : " None of this makes up for compost that is not finished."), 2);
  if (!missing.empty()) text += wrap("  Not measured: " + names_of(missing) + ".", 2);
  return text + fine_print(known.turf) + turf_sources_text(known.turf, materials);
}

// --- household checks -----------------------------------------------------------------------------------------------------------

std::string done_text(const CheckResult& result) {
  const std::string word = *result.passed ? "passed" : "failed";
  return item(result.check->name + ": " + word + date_text(result.date) + "; " +
              (*result.passed ? result.check->passed : result.check->failed));
}

/// Whose it is, where somebody published it; the heading says that the rest is common practice.
std::string published_text(const Provenance& whose, const Materials& materials) {
  return whose.evidence == Evidence::judged ? "" : " (" + source_words(materials, whose.source, whose.evidence) + ")";
}

std::string missing_text(const CheckResult& result, const Materials& materials) {
  return item("not done: " + result.check->name + ". " + result.check->how + published_text(result.check->whose, materials));
}

/// With a rating the missing ones are named only: the laboratory has looked closer.
std::string checks_text(const CompostKnown& known, const Materials& materials) {
  if (known.rating.rating && !is_any_check_done(known))
    return "\nHousehold checks: none done. `heapwright maturity` without a file tells how.\n";
  std::string text = "\nHousehold checks (no rating; common practice where no source is named)\n";
  std::vector<std::string> missing;
  for (const CheckResult& result : known.checks) {
    if (result.passed) {
      text += done_text(result);
    } else if (!known.rating.rating) {
      text += missing_text(result, materials);
    } else {
      missing.push_back(result.check->name);
    }
  }
  return missing.empty() ? text : text + item("not done: " + joined(missing));
}

std::string next_text(const YardCompost& answer, const Materials& materials) {
  std::string text = "\nNext (common practice where no source is named)\n";
  for (const NextStep* step : answer.next) text += item(step_text(*step, answer) + published_text(step->whose, materials));
  return text;
}

}  // namespace

std::string step_text(const NextStep& step, const YardCompost& answer) {
  return step.id == "cure" && answer.cured_by ? step.text + " That is until " + print_date(*answer.cured_by) + "." : step.text;
}

std::string text_of_compost_now(const YardCompost& answer) {
  std::string text = first_line(answer);
  if (!answer.next.empty()) text += item("next: " + step_text(*answer.next.front(), answer));
  return text + item("test by test, and what else to do: heapwright maturity");
}

std::string text_of_maturity(const Answer<YardCompost>& whole, const Materials& materials, const Show& show) {
  const YardCompost& answer = whole.result;
  const CompostKnown& known = answer.known;
  // Without a rating it is the household checks that a person goes by.
  const bool rated = known.rating.rating.has_value();
  const std::string checks = checks_text(known, materials);
  return text_of_first_cautions(whole.cautions, materials) + first_line(answer) + (rated ? "" : checks) + next_text(answer, materials) +
         tests_text(known.rating, materials, show) + turf_text(known, materials, show) + (rated ? checks : "") +
         text_of_assumptions(whole.assumptions, std::nullopt, show) + text_of_cautions(whole.cautions, materials);
}

}  // namespace heapwright
