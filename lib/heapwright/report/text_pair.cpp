#include <cmath>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// "3 : 1", the one that there is less of as one.
std::string proportion_words(ShareOfLooseVolume share) {
  const double first = share.value();
  const double second = share.rest().value();
  constexpr double trace = 0.005;
  if (second < trace) return "1 : 0";
  if (first < trace) return "0 : 1";
  return first >= second ? print_number(first / second, 2) + " : 1" : "1 : " + print_number(second / first, 2);
}

std::string window_words(const std::optional<PairWindow>& window) {
  if (!window) return "nowhere";
  const std::string low = proportion_words(window->low);
  const std::string high = proportion_words(window->high);
  return low == high ? "at " + low : "between " + low + " and " + high;
}

std::string ratio_words(const PairMix& mix) { return mix.carbon_to_nitrogen ? show_ratio(*mix.carbon_to_nitrogen) : "-"; }

std::string verdict(const PairMix& mix, const Pair& pair, const Targets& targets) {
  if (holds(pair.both_right, mix.by_volume)) return "right";
  if (holds(pair.right_with_water, mix.by_volume)) return "right, once watered";
  // What is shown as the edge is no more than the edge.
  constexpr double shown_ratio = 0.5;
  constexpr double shown_share = 0.005;
  const auto& ratio = targets.carbon_to_nitrogen;
  std::string text;
  if (!mix.carbon_to_nitrogen || mix.carbon_to_nitrogen->value() >= ratio.high.value() + shown_ratio) text = "too brown";
  if (mix.carbon_to_nitrogen && mix.carbon_to_nitrogen->value() < ratio.low.value() - shown_ratio) text = "too green";
  if (mix.moisture.value() >= targets.moisture.high.value() + shown_share) text += text.empty() ? "too wet" : ", too wet";
  if (text.empty()) return "at the edge";
  return text;
}

std::string by_weight_words(const PairMix& mix) {
  const double first = std::round(100.0 * mix.by_mass.value());
  return print_number(first, 3) + " : " + print_number(100.0 - first, 3);
}

/// The volume that people think of a pile in, and water it by.
Volume one_large(const Show& show) { return (show.in_us_units() ? unit_size(Dimension::volume, "yd3") : 1.0) * unit::m3; }

std::string water_words(const PairMix& mix, const Show& show) {
  if (!(mix.water_wanted.value() > 0.0)) return "-";
  return show.water(WaterMass(mix.water_wanted * one_large(show)));
}

/// How far the two aims lie apart.
std::string apart(const Pair& pair) {
  std::string text;
  if (pair.at_ratio_aim)
    text += " At a C:N of " + ratio_words(*pair.at_ratio_aim) + " it is " + show_moisture(pair.at_ratio_aim->moisture) + " moist.";
  if (pair.at_moisture_aim && pair.at_moisture_aim->carbon_to_nitrogen)
    text += " At " + show_moisture(pair.at_moisture_aim->moisture) + " moist its C:N is " + ratio_words(*pair.at_moisture_aim) + ".";
  return text;
}

}  // namespace

std::string text_of_pair(const Pair& pair, const Targets& targets, const Show& show) {
  std::vector<std::vector<std::string>> rows{{"by volume", "by weight", "C:N", "moist", "water for " + show.volume(one_large(show)), ""}};
  for (std::size_t i = 0; i < pair.everyday.size(); ++i) {
    const PairMix& mix = pair.everyday[i];
    const PartsOfTwo& proportion = everyday_proportions.at(i);
    rows.push_back({std::to_string(proportion.first) + " : " + std::to_string(proportion.second), by_weight_words(mix), ratio_words(mix),
                    show_moisture(mix.moisture), water_words(mix, show), verdict(mix, pair, targets)});
  }
  const auto& ratio = targets.carbon_to_nitrogen;
  const auto& moisture = targets.moisture;
  std::string text = "\n" + wrap("Parts of " + pair.first_name + " to parts of " + pair.second_name + ":") + columns(rows);
  text += item("C:N is " + show_ratio(ratio.low) + " to " + show_ratio(ratio.high) + " " + window_words(pair.right_ratio) + ".");
  text += item("Moisture is " + show_moisture(moisture.low) + " to " + show_moisture(moisture.high) + " without water " +
               window_words(pair.right_moisture) + ".");
  text += item("Both without water: " + window_words(pair.both_right) + "." + (pair.both_right ? "" : apart(pair)));
  return text + item("Both, watered where too dry: " + window_words(pair.right_with_water) + ".");
}

}  // namespace heapwright
