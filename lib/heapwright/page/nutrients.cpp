#include <algorithm>
#include <utility>

#include "heapwright/page/nutrients_parts.hpp"
#include "heapwright/page/turf_parts.hpp"
#include "heapwright/time/date.hpp"

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

/// Whether all that nutrients follow from is of the analysis.
bool is_all_told(const std::optional<CompostAnalysis>& told) {
  return told && told->moisture && told->bulk_density && told->nitrogen && told->phosphate && told->potash;
}

/// By whom its contents are known.
Words whose_contents(const Topdressing& topdressing) {
  const std::optional<CompostAnalysis>& told = topdressing.plan.analysis;
  if (!told) return say("if it is usual {}", topdressing.contents.name);
  if (is_all_told(told)) return "by the supplier's analysis";
  return say("by the supplier's analysis, else as usual {}", topdressing.contents.name);
}

void add_contents(Labels& labels, const Topdressing& topdressing) {
  const Nutrients& nutrients = topdressing.nutrients;
  const char* name = "Brings";
  const auto add = [&](Words words) { labels.labels.push_back({std::exchange(name, ""), std::move(words)}); };
  const Words whose = whose_contents(topdressing);
  const char* mean = are_of_one_depth(topdressing.zones) ? "" : " on average";
  if (nutrients.nitrogen || nutrients.phosphate || nutrients.potash) add(say("to each {}{}, {}:", LawnMeasure{}, mean, whose));
  std::vector<Words> each;
  if (nutrients.nitrogen) each.push_back(say("nitrogen {}", shown_band(*nutrients.nitrogen)));
  if (nutrients.phosphate) each.push_back(say("phosphate (P2O5) {}", shown_band(*nutrients.phosphate)));
  if (nutrients.potash) each.push_back(say("potash (K2O) {}", shown_band(*nutrients.potash)));
  add(joined(each, "; "));
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
    case PhosphorusVerdict::no_test:
    case PhosphorusVerdict::not_tested: return {};  // asked below the order (say_what_to_ask)
    case PhosphorusVerdict::hold: return {};
    case PhosphorusVerdict::go: return say("your soil test calls phosphorus \"{}\": go ahead", phosphorus);
    case PhosphorusVerdict::figure_alone:
    case PhosphorusVerdict::unknown_word: return {};  // asked above the order (say_hold)
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

/// "salts in a 1:5 slurry 12 dS/m"
Words figure_words(const JudgedFigure& figure) { return say("{} {}", figure.name, Tested{figure.measured, figure.value}); }

/// "fails Caltrans (at most 10)", in the words of the maturity page.
Words failed_limits(const JudgedFigure& figure) {
  std::vector<Words> fails;
  for (const JudgedLimit& one : figure.limits) {
    if (!one.ok) fails.push_back(limit_with_owner(one.limit, figure.measured));
  }
  return passes_and_fails({}, fails);
}

Words all_limits(const JudgedFigure& figure) {
  std::vector<Words> passes;
  std::vector<Words> fails;
  for (const JudgedLimit& one : figure.limits) (one.ok ? passes : fails).push_back(limit_with_owner(one.limit, figure.measured));
  return passes_and_fails(passes, fails);
}

/// The first figure outside a limit with its limits, the others by their names.
Words outside_words(const std::vector<JudgedFigure>& outside) {
  std::vector<Words> others;
  for (std::size_t at = 1; at < outside.size(); ++at) others.emplace_back(outside[at].name);
  const Words first = say("{}: {}", figure_words(outside.front()), failed_limits(outside.front()));
  return others.empty() ? first : say("{}; {} too", first, listed(others));
}

/// Once each.
void add_source(std::vector<std::string>& sources, const TurfLimit& limit, const Materials& materials) {
  std::string words = limit.specification + ": " + source_words(materials, limit.whose.source, limit.whose.evidence);
  if (std::find(sources.begin(), sources.end(), words) == sources.end()) sources.push_back(std::move(words));
}

/// In one line above the order: the laboratory's own word decides.
void ask_laboratory(PageWriter& writer, const Topdressing& topdressing) {
  if (topdressing.advice.asks_laboratory())
    writer.paragraph(say("First ask your laboratory: is phosphorus \"{}\" high? If so, hold.", topdressing.plan.soil_test->phosphorus));
}

constexpr const char* none_on_frozen_ground = "spread none on frozen ground or snow";

Labels reasons_to_hold(const Topdressing& topdressing) {
  const SpreadingAdvice& advice = topdressing.advice;
  Labels reasons;
  const auto add = [&](const char* name, Words words) { reasons.labels.push_back({name, std::move(words)}); };
  if (advice.phosphorus == PhosphorusVerdict::hold) {
    add("Why", say("your soil test calls phosphorus \"{}\"; {}", topdressing.plan.soil_test->phosphorus,
                   what_it_would_add(topdressing.nutrients)));
    add("Instead", "skip this year; or ask about a thinner layer, or compost with less P2O5");
  }
  if (!advice.compost_too_salty) return reasons;
  add(advice.phosphorus == PhosphorusVerdict::hold ? "Salt" : "Why", say("{}.", outside_words(topdressing.fitness.outside())));
  if (advice.phosphorus != PhosphorusVerdict::hold) add("Instead", "ask for compost with less salt, or have this one tested again");
  return reasons;
}

}  // namespace

Words hold_line(const SpreadingAdvice& advice) {
  if (advice.phosphorus == PhosphorusVerdict::hold) return "Hold: spread no compost here until your extension office clears it.";
  if (advice.compost_too_salty) return "Hold: spread none of this compost: it is too salty for a lawn.";
  return say("Hold: {}: meltwater carries it off.", none_on_frozen_ground);
}

void say_hold(PageWriter& writer, const Topdressing& topdressing) {
  const SpreadingAdvice& advice = topdressing.advice;
  if (!advice.is_hold()) return ask_laboratory(writer, topdressing);
  writer.paragraph(hold_line(advice));
  writer.labels(reasons_to_hold(topdressing));
  const bool lasts = advice.phosphorus == PhosphorusVerdict::hold || advice.compost_too_salty;
  if (lasts && advice.frozen_or_snow) writer.paragraph(say("And {}.", none_on_frozen_ground));
  ask_laboratory(writer, topdressing);
  writer.paragraph(advice.phosphorus == PhosphorusVerdict::hold ? "If it is cleared:"
                   : advice.compost_too_salty                   ? "With compost that is fit for it:"
                                                                : "Once it has thawed:");
}

std::size_t sections_of_hold(const SpreadingAdvice& advice) { return advice.is_hold() || advice.asks_laboratory() ? 1 : 0; }

void say_what_to_ask(PageWriter& writer, const Topdressing& topdressing) {
  const SpreadingAdvice& advice = topdressing.advice;
  const std::vector<JudgedFigure> outside = topdressing.fitness.outside();
  if (!outside.empty() && !advice.compost_too_salty) writer.paragraph(say("Ask first: {}.", outside_words(outside)));
  if (advice.phosphorus == PhosphorusVerdict::no_test || advice.phosphorus == PhosphorusVerdict::not_tested)
    writer.paragraph("First have the soil's phosphorus tested: if it is high, spread none.");
  const Grass grass = grass_of(topdressing.plan);
  const Words grows = grass == Grass::cool_season ? "cool-season grass" : "warm-season grass";
  if (advice.out_of_season) writer.paragraph(say("Wait for {}, when {} grows.", advice.wait_for, grows));
  if (!advice.months_it_rests.empty()) {
    std::vector<Words> months;
    for (const auto month : advice.months_it_rests) months.emplace_back(month_name(month));
    writer.paragraph(say("Not in {}: spread in {}, when {} grows.", listed(months),
                         grass == Grass::cool_season ? "early fall or spring" : "late spring", grows));
  }
}

void add_nutrients(Labels& labels, const Topdressing& topdressing, const Materials& materials) {
  add_contents(labels, topdressing);
  add_first_year(labels, topdressing);
  const std::vector<JudgedFigure> outside = topdressing.fitness.outside();
  const bool said_above =
      topdressing.contents.salts.size() == 1 && !outside.empty() && outside.front().measured == TestQuantity::electric_conductivity;
  if (!topdressing.contents.salts.empty() && !said_above) labels.labels.push_back({"Salts", salts_told(topdressing.contents.salts)});
  const char* name = "Soil";
  for (Words words : {soil_words(topdressing), age_words(topdressing, *materials.nutrients)}) {
    if (!words.empty()) labels.labels.push_back({std::exchange(name, ""), std::move(words)});
  }
}

void add_soil_of_job(Labels& labels, const Words& job, const Topdressing& topdressing) {
  if (Words words = soil_words(topdressing); !words.empty()) labels.labels.push_back({"Soil", say("{}: {}", job, words)});
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
  std::vector<Words> figures;
  std::vector<std::string> sources;
  for (const JudgedFigure& figure : topdressing.fitness.figures) {
    figures.push_back(say("{}: {}", figure_words(figure), all_limits(figure)));
    for (const JudgedLimit& one : figure.limits) add_source(sources, one.limit, materials);
  }
  writer.section(Depth::why, "The analysis against limits for lawns").bullets(std::move(figures));
  if (!sources.empty()) writer.section(Depth::ground, "Whose limits for lawns").bullets({sources.begin(), sources.end()});
  writer.section(Depth::ground, "Nitrogen of compost, as published").bullets(finding_words(knowledge, materials));
}

}  // namespace heapwright
