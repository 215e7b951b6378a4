#include "heapwright/report/parts.hpp"

#include "heapwright/input/words.hpp"
#include "heapwright/page/mix_parts.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_cautions = 3;
constexpr std::size_t most_assumptions = 6;

std::string window_words(const Targets& targets) {
  const auto& cn = targets.carbon_to_nitrogen;
  return show_ratio(cn.low) + " to " + show_ratio(cn.high);
}

std::string moisture_window_words(const Targets& targets) {
  const std::string low = show_moisture(targets.moisture.low);
  return low.substr(0, low.find(' ')) + " to " + show_moisture(targets.moisture.high);
}

/// "likely 26 to 43": the band, its unit said once.
std::string likely(const std::string& low, const std::string& high) {
  const std::size_t unit = low.find(' ');
  const bool same_unit = unit != std::string::npos && high.ends_with(low.substr(unit));
  return "likely " + (same_unit ? low.substr(0, unit) : low) + " to " + high;
}

/// Whether an assumption is worth a line: it could change the answer, has a range that nobody reckoned through, is a statement in words, or
/// what the person measured.
bool is_worth_a_line(const Assumption& assumption) {
  constexpr double little = 0.05;
  if (assumption.could_change_answer) return *assumption.could_change_answer >= little;
  const bool in_words = std::holds_alternative<std::string>(assumption.value) || std::holds_alternative<Date>(assumption.value);
  const bool nobody_weighs_it = assumption.low && assumption.high;
  return in_words || nobody_weighs_it || assumption.evidence.starts_with("you");  // the person's own figure
}

std::string measure_first_text(const std::optional<Measurement>& first) {
  if (!first) return {};
  switch (first->how) {
    case Measuring::weigh:
      return wrap("Measure first: weigh one full " + first->container.name + " of " + first->name +
                  ". In the yard file: weighed = { container = \"" + first->container.id + "\", full = \"… lb\", empty = \"… lb\" }");
    case Measuring::dry:
      return wrap(
          "Measure first: weigh a handful of " + first->name +
          " moist, and again once it has dried crisp in a warm airy place. In the yard file: dried = { wet = \"… g\", dry = \"… g\" }");
    case Measuring::count:
      return wrap("Measure first: count the " + first->name + " in place of the guess. In the yard file: amount = \"… " +
                  first->container.id + "\"");
  }
  return {};
}

}  // namespace

std::string half_month(Date date) { return (is_early(date) ? "early " : "late ") + std::string(month_name(date.month())); }

std::string about_when(Date date) { return half_month(date) + " " + std::to_string(static_cast<int>(date.year())); }

std::string item(const std::string& text) { return wrap("- " + text, 2); }

/// Air that is less than none is none.
std::string show_air(AirLeft air) { return show_percent(std::max(0.0, air.value())); }

std::string character(const Mix& mix, const Targets& targets) { return Show(ShownUnits::us).words(character_words(mix, targets)); }

std::string ratio_of(const Mix& mix) { return mix.carbon_to_nitrogen ? "C:N about " + show_ratio(*mix.carbon_to_nitrogen) : "no nitrogen"; }

std::string figures_of(const Mix& mix, const Targets& targets, const Show& show) {
  std::vector<std::vector<std::string>> rows;
  const std::optional<MixRanges>& ranges = mix.ranges;
  if (mix.carbon_to_nitrogen)
    rows.push_back({"C:N ratio", "about " + show_ratio(*mix.carbon_to_nitrogen),
                    ranges && ranges->carbon_to_nitrogen
                        ? likely(show_ratio(ranges->carbon_to_nitrogen->low), show_ratio(ranges->carbon_to_nitrogen->high))
                        : "",
                    window_words(targets) + " works"});
  if (mix.moisture)
    rows.push_back({"moisture", "about " + show_moisture(*mix.moisture),
                    ranges ? likely(show_moisture(ranges->moisture.low), show_moisture(ranges->moisture.high)) : "",
                    moisture_window_words(targets) + " works: a handful clumps"});
  if (mix.air_space)
    rows.push_back({"air", mix.air_space->value() < 0.0 ? "none" : "about " + show_percent(mix.air_space->value()),
                    ranges && ranges->air_space && ranges->air_space->high.value() >= 0.0
                        ? likely(show_air(ranges->air_space->low), show_air(ranges->air_space->high))
                        : "",
                    "at least " + show_percent(targets.least_air.value())});
  std::string text = columns(rows);
  if (mix.volume)
    text += "  pile       " + show.volume(*mix.volume) + ", " + show.mass(mix.mass) +
            (mix.bulk_density ? ", " + show.density(*mix.bulk_density) : "") + "\n";
  return text;
}

std::string text_on_the_figures(const Mix& mix) { return wrap("  (" + Show(ShownUnits::us).words(on_the_figures(mix)) + ")", 2); }

std::string text_of_assumptions(const std::vector<Assumption>& assumptions, const std::optional<Measurement>& first, const Show& show) {
  if (assumptions.empty()) return {};
  std::string text = "\nI took it as (what could change the answer most comes first)\n";
  std::size_t others = 0;
  std::size_t shown = 0;
  for (const Assumption& assumption : assumptions) {
    const bool ranged = assumption.could_change_answer.has_value();
    if (!is_worth_a_line(assumption) || (ranged && shown == most_assumptions)) {
      ++others;
      continue;
    }
    shown += ranged ? 1 : 0;
    text += item(assumption.what + ": " + show.assumed(assumption) + " (" + assumption.evidence + ")");
  }
  if (others > 0)
    text += item(std::to_string(others) + (others == 1 ? " more that matters" : " more that matter") + " less: --json lists them");
  return text + measure_first_text(first);
}

std::string text_of_steps(const std::optional<Working>& working) { return working ? text_of_working(*working) : ""; }

std::string text_of_cautions(const std::vector<std::string>& ids, const Materials& materials) {
  if (ids.empty()) return {};
  std::string text = "\nMind\n";
  for (std::size_t i = 0; i < ids.size() && i < most_cautions; ++i) {
    if (const Caution* caution = find_caution(materials, ids[i])) text += item(caution->text);
  }
  return text + "Local rules come first.\n";
}

std::string text_of_first_cautions(const std::vector<std::string>& ids, const Materials& materials) {
  std::string text;
  for (const std::string& id : ids) {
    const Caution* caution = find_caution(materials, id);
    if (caution != nullptr && caution->first) text += wrap(caution->text) + "\n";
  }
  return text;
}

}  // namespace heapwright
