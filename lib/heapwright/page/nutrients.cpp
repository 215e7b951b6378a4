#include <algorithm>
#include <utility>

#include "heapwright/page/nutrients_parts.hpp"

namespace heapwright {
namespace {

/// A nutrient as a weight on the ground, as people count it.
template <class PerArea>
MassPerArea as_weight(PerArea nutrient) {
  return MassPerArea::from_value(nutrient.value());
}

template <class PerArea>
OnLawnMeasureBand shown_band(const LikelyBand<PerArea>& band) {
  return {{as_weight(band.low), as_weight(band.likely), as_weight(band.high)}};
}

Words guessed(NitrogenPerArea nitrogen) {
  if (nitrogen == NitrogenPerArea()) return "none";
  return RoughlyOnLawnMeasure{boost::units::abs(as_weight(nitrogen))};
}

Words first_year_words(const LikelyBand<NitrogenPerArea>& freed) {
  const NitrogenPerArea none;
  if (freed.likely < none)
    return say("it likely ties up {} of the soil's nitrogen, at worst {}", guessed(freed.likely), guessed(freed.low));
  if (!(freed.low < freed.high)) return say("nitrogen for the grass: {}", guessed(freed.likely));
  const Words likely = freed.likely == none ? Words("hardly any") : say("about {}", guessed(freed.likely));
  if (freed.low < none)
    return say("nitrogen for the grass: {}, at best {}; or {} tied up", likely, guessed(freed.high), guessed(freed.low));
  return say("nitrogen for the grass: {}, from {} to {}", likely, guessed(freed.low), guessed(freed.high));
}

Words credit_words(const NitrogenCredit& credit) {
  return say("about {}, at most {}, of the {} a year your laboratory recommends", Percent{std::max(0.0, credit.share.likely)},
             Percent{std::max(0.0, credit.share.high)}, OnLawnMeasure{as_weight(credit.recommended)});
}

/// By whom its contents are known.
Words whose_contents(const Topdressing& topdressing) {
  const std::optional<CompostAnalysis>& told = topdressing.plan.analysis;
  if (!told) return say("if it is usual {}", topdressing.contents.name);
  const bool is_whole = told->moisture && told->bulk_density && told->nitrogen && told->phosphate && told->potash;
  if (is_whole) return "by the supplier's analysis";
  return say("by the supplier's analysis, else as usual {}", topdressing.contents.name);
}

void add_contents(Labels& labels, const Topdressing& topdressing) {
  const Nutrients& nutrients = topdressing.nutrients;
  const char* name = "Brings";
  const auto add = [&](Words words) { labels.labels.push_back({std::exchange(name, ""), std::move(words)}); };
  const Words whose = whose_contents(topdressing);
  const char* mean = are_of_one_depth(topdressing.zones) ? "" : " on average";
  if (nutrients.nitrogen || nutrients.phosphate || nutrients.potash) add(say("to each {}{}, {}:", LawnMeasure{}, mean, whose));
  if (nutrients.nitrogen) add(say("nitrogen {}", shown_band(*nutrients.nitrogen)));
  if (nutrients.phosphate) add(say("phosphate (P2O5) {}", shown_band(*nutrients.phosphate)));
  if (nutrients.potash) add(say("potash (K2O) {}", shown_band(*nutrients.potash)));
}

Words salts_told(const std::vector<Salts>& salts) {
  std::vector<Words> words;
  for (const Salts& one : salts)
    words.push_back(say("{} in a {}", Tested{TestQuantity::electric_conductivity, one.value}, salts_method_words(one.method)));
  return joined(words);
}

void add_first_year(Labels& labels, const Topdressing& topdressing) {
  const Nutrients& nutrients = topdressing.nutrients;
  const auto add = [&](const char* name, Words words) { labels.labels.push_back({name, std::move(words)}); };
  if (nutrients.ties_up_nitrogen)
    add("Year 1",
        say("at a C:N of {} it ties nitrogen up and feeds no grass: let it cure first", *topdressing.contents.carbon_to_nitrogen->typical));
  if (nutrients.nitrogen_first_year) add("Year 1", first_year_words(*nutrients.nitrogen_first_year));
  if (topdressing.credit) add("Credit", credit_words(*topdressing.credit));
}

/// What the soil test says where it does not say to hold.
Words soil_words(const Topdressing& topdressing) {
  const std::string phosphorus = topdressing.plan.soil_test ? topdressing.plan.soil_test->phosphorus : std::string();
  switch (topdressing.advice.phosphorus) {
    case PhosphorusVerdict::no_test: return "no soil test: have phosphorus tested before you spread";
    case PhosphorusVerdict::not_tested: return "your soil test has no phosphorus: have it tested before you spread";
    case PhosphorusVerdict::hold: return {};
    case PhosphorusVerdict::go: return say("your soil test calls phosphorus \"{}\": go ahead", phosphorus);
    case PhosphorusVerdict::figure_alone:
    case PhosphorusVerdict::unknown_word: return say("phosphorus \"{}\": first ask your laboratory: is that high?", phosphorus);
  }
  return {};
}

Words age_words(const Topdressing& topdressing, const NutrientKnowledge& knowledge) {
  const auto& test = topdressing.plan.soil_test;
  switch (topdressing.advice.soil_test_age) {
    case SoilTestAge::too_old:
      return say("the soil test is of {}, more than {} years old: test again", *test->date, whole(knowledge.soil_test_years));
    case SoilTestAge::after_today: return say("the soil test is dated {}, after today: check its date", *test->date);
    case SoilTestAge::not_known:
    case SoilTestAge::holds: return {};
  }
  return {};
}

Words what_it_would_add(const Nutrients& nutrients) {
  if (!nutrients.phosphate) return "compost brings more of it.";
  return say("this would add phosphate (P2O5) to each {}: {}.", LawnMeasure{}, shown_band(*nutrients.phosphate));
}

/// Half a line each, with its source.
std::vector<Words> finding_words(const NutrientKnowledge& knowledge, const Materials& materials) {
  std::vector<Words> words;
  for (const Finding& finding : knowledge.nitrogen_findings)
    words.push_back(say("{} ({})", finding.text, source_words(materials, finding.source, finding.evidence)));
  return words;
}

Words why_of_salts(const std::vector<Salts>& salts, const NutrientKnowledge& knowledge, const Materials& materials) {
  constexpr const char* method = "Salts go with their method: another gives other numbers.";
  if (!salts.empty() || !knowledge.salts) return method;
  return say("Soluble salts are not known of this compost: ask for them. {} For comparison: {} ({}).", method, knowledge.salts->text,
             source_in_short(materials, knowledge.salts->source, knowledge.salts->evidence));
}

}  // namespace

void say_hold(PageWriter& writer, const Topdressing& topdressing) {
  const SpreadingAdvice& advice = topdressing.advice;
  if (!advice.is_hold()) return;
  if (advice.phosphorus != PhosphorusVerdict::hold) {
    writer.paragraph("Hold: spread none on frozen ground or snow: meltwater carries it off.");
    writer.paragraph("Once it has thawed:");
    return;
  }
  writer.paragraph("Hold: spread no compost here until your extension office clears it.");
  Labels labels;
  labels.labels.push_back({"Why", say("your soil test calls phosphorus \"{}\"; {}", topdressing.plan.soil_test->phosphorus,
                                      what_it_would_add(topdressing.nutrients))});
  labels.labels.push_back({"Instead", "skip this year; or ask about a thinner layer, or compost with less P2O5"});
  writer.labels(std::move(labels));
  if (advice.frozen_or_snow) writer.paragraph("And spread none on frozen ground or snow.");
  writer.paragraph("If it is cleared:");
}

void add_nutrients(Labels& labels, const Topdressing& topdressing, const Materials& materials) {
  add_contents(labels, topdressing);
  add_first_year(labels, topdressing);
  if (!topdressing.contents.salts.empty()) labels.labels.push_back({"Salts", salts_told(topdressing.contents.salts)});
  const char* name = "Soil";
  for (Words words : {soil_words(topdressing), age_words(topdressing, *materials.nutrients)}) {
    if (!words.empty()) labels.labels.push_back({std::exchange(name, ""), std::move(words)});
  }
}

void add_ground(Labels& labels, const SpreadingAdvice& advice) {
  const auto add = [&](const char* name, Words words) { labels.labels.push_back({name, std::move(words)}); };
  if (advice.near_water) add("Water", "keep back from pond, stream and drain: ask your county how far");
  constexpr const char* why = "rain can carry compost off; ask your county first";
  std::vector<Words> zones;
  for (const std::string& name : advice.steep_zones) zones.emplace_back(name);
  if (!zones.empty()) {
    add("Steep", say("{}: {}", listed(zones), why));
  } else if (advice.steep) {
    add("Steep", why);
  }
}

void say_why_of_nutrients(PageWriter& writer, const Topdressing& topdressing, const Materials& materials) {
  const NutrientKnowledge& knowledge = *materials.nutrients;
  const Nutrients& nutrients = topdressing.nutrients;
  std::vector<Words> reasons;
  reasons.push_back(
      say("Nutrients go by dry matter, about {} on each {}. A range joins those of what compost holds, how heavy and how wet "
          "it is: their squares add.",
          OnLawnMeasure{as_weight(nutrients.dry_matter)}, LawnMeasure{}));
  if (nutrients.freed)
    reasons.push_back(say(
        "Most nitrogen in compost stays bound for years. By its C:N, {}, about {} % of it comes free in the first year, from {} to {} %; "
        "below zero it is tied up for a time. Judged by us.",
        AssumedFigure{assumed_of_compost("C:N", *topdressing.contents.carbon_to_nitrogen)}, Number{100.0 * nutrients.freed->likely.value()},
        Number{100.0 * nutrients.freed->low.value()}, Number{100.0 * nutrients.freed->high.value()}));
  reasons.push_back(why_of_salts(topdressing.contents.salts, knowledge, materials));
  reasons.push_back(
      say("In trials compost on lawns left too much phosphorus in the soil ({}). Many states limit it on lawns, each in its own way: ask "
          "your extension office.",
          source_in_short(materials, "cornell-lawn-compost", Evidence::seen)));
  if (topdressing.advice.soil_test_age == SoilTestAge::too_old)
    reasons.push_back(say("A soil test holds for {} years ({}).", whole(knowledge.soil_test_years),
                          source_in_short(materials, knowledge.soil_test_years_of.source, knowledge.soil_test_years_of.evidence)));
  writer.section(Depth::why, "What it brings").bullets(std::move(reasons));
  writer.section(Depth::ground, "Nitrogen of compost, as published").bullets(finding_words(knowledge, materials));
}

}  // namespace heapwright
