#include "heapwright/page/pair_parts.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/character.hpp"

namespace heapwright {
namespace {

constexpr double hardly_any = 0.005;  // half a percent of the volume, which nobody can measure out

/// "3 : 1", the one that there is less of as one.
Words proportion_words(ShareOfLooseVolume share) {
  const double first = share.value();
  const double second = share.rest().value();
  if (second < hardly_any) return "1 : 0";
  if (first < hardly_any) return "0 : 1";
  return first >= second ? say("{} : 1", Number{first / second}) : say("1 : {}", Number{second / first});
}

Words window_words(const std::optional<PairWindow>& window) {
  if (!window) return "nowhere";
  if (window->high.value() - window->low.value() < hardly_any) return say("at {}", proportion_words(window->low));
  return say("between {} and {}", proportion_words(window->low), proportion_words(window->high));
}

/// Where what is too dry is too brown as well, water helps no mix.
bool is_same_window(const std::optional<PairWindow>& one, const std::optional<PairWindow>& other) {
  if (!one || !other) return !one && !other;
  const auto is_near = [](ShareOfLooseVolume a, ShareOfLooseVolume b) { return std::abs(a.value() - b.value()) < hardly_any; };
  return is_near(one->low, other->low) && is_near(one->high, other->high);
}

Words ratio_of(const PairMix& mix) { return mix.carbon_to_nitrogen ? Words(*mix.carbon_to_nitrogen) : Words("-"); }

Words short_fault(MixFault fault) {
  switch (fault) {
    case MixFault::too_green: return "too green";
    case MixFault::too_wet: return "too wet";
    default: return "too brown";
  }
}

Words verdict_words(const PairMix& mix, const Pair& pair, const Targets& targets) {
  switch (verdict_of(mix, pair, targets)) {
    case PairVerdict::right: return "right";
    case PairVerdict::right_once_watered: return "right, once watered";
    case PairVerdict::at_the_edge: return "at the edge";
    case PairVerdict::off: break;
  }
  std::vector<Words> words;
  for (const MixFault fault : faults_of(mix, targets)) words.push_back(short_fault(fault));
  return joined(words);
}

Words by_weight(const PairMix& mix) {
  const double first = std::round(100.0 * mix.by_mass.value());
  return say("{} : {}", Number{first, 3}, Number{100.0 - first, 3});
}

Words water_for(const PairMix& mix) { return is_positive(mix.water_wanted) ? Words(WaterForMeasure{mix.water_wanted}) : Words("-"); }

Words parts_words(const PartsOfTwo& parts) {
  return say("{} : {}", Number{static_cast<double>(parts.first)}, Number{static_cast<double>(parts.second)});
}

Grid proportions(const Pair& pair, const Targets& targets) {
  Grid grid{{"by volume", "by weight", "C:N", "moist", say("water for {}", LargeMeasure{}), Words()}, {}};
  for (std::size_t i = 0; i < pair.everyday.size(); ++i) {
    const PairMix& mix = pair.everyday[i];
    grid.rows.push_back({parts_words(everyday_proportions.at(i)), by_weight(mix), ratio_of(mix), mix.moisture, water_for(mix),
                         verdict_words(mix, pair, targets)});
  }
  return grid;
}

PairChart chart_of(const Pair& pair, const Targets& targets) {
  PairChart chart{pair.first_name + " and " + pair.second_name + ", all their mixes", pair.first_name, pair.second_name, {}, {}, {}, {}};
  for (const PairMix& mix : pair.line) chart.points.push_back({mix.by_volume.value(), mix.carbon_to_nitrogen, mix.moisture});
  chart.ratio = {targets.carbon_to_nitrogen.low, targets.carbon_to_nitrogen.high};
  chart.moisture = {targets.moisture.low, targets.moisture.high};
  chart.in_words = say("C:N works {}, moisture without water {}.", window_words(pair.right_ratio), window_words(pair.right_moisture));
  return chart;
}

/// How far the two aims lie apart.
Words apart(const Pair& pair) {
  Words words;
  if (pair.at_ratio_aim) words += say(" At a C:N of {} it is {} moist.", ratio_of(*pair.at_ratio_aim), pair.at_ratio_aim->moisture);
  if (pair.at_moisture_aim && pair.at_moisture_aim->carbon_to_nitrogen)
    words += say(" At {} moist its C:N is {}.", pair.at_moisture_aim->moisture, ratio_of(*pair.at_moisture_aim));
  return words;
}

Words bags_between(const BagsForOne& row) {
  if (!row.high) return say("{} or more", Number{row.low});
  return say("{} to {}", Number{row.low}, Number{*row.high});
}

/// By its moisture without water.
Words what_to_do_with(const BagsForOne& row, const Window<MoistureWetBasis>& moisture) {
  if (row.moisture > moisture.high) return "too wet";
  return row.moisture < moisture.low ? Words("water it") : Words();
}

Words clippings_lie(const BagsForOne& row) { return row.wilted ? say("{}, then wilted", row.clippings_lie) : Words(row.clippings_lie); }

}  // namespace

void say_bags_to_a_catcher(PageWriter& writer, const BagsToACatcher& table, const Targets& targets, const Materials& materials) {
  const Container& bag = known_row(*materials.containers, table.bag.container);
  const Container& catcher = known_row(*materials.containers, table.catcher.container);
  Grid grid{{say("{} lie", table.clippings_name), "bags", "between", "moist", Words()}, {}};
  const auto& moisture = targets.moisture;
  const std::string* leaves_lie = nullptr;
  for (const BagsForOne& row : table.rows) {
    if (leaves_lie == nullptr || *leaves_lie != row.leaves_lie) grid.rows.push_back({say("{}, {}:", table.leaves_name, row.leaves_lie)});
    leaves_lie = &row.leaves_lie;
    grid.rows.push_back({clippings_lie(row), Number{row.bags}, bags_between(row), row.moisture, what_to_do_with(row, moisture)});
  }
  const bool some_are_too_wet =
      std::any_of(table.rows.begin(), table.rows.end(), [&](const BagsForOne& row) { return row.moisture > moisture.high; });
  writer.section(Depth::why, say("For the phone: bags of {} to one {} of {}", table.leaves_name, catcher.name, table.clippings_name))
      .paragraph(say("For a C:N of {}. A {} holds {}, a {} {}.", table.aim, bag.name, Capacity{table.bag.each}, catcher.name,
                     Capacity{table.catcher.each}))
      .block(std::move(grid))
      .paragraph(say("Between: eight times in ten, since published figures differ. Moist: without water; right is {}.",
                     Between<MoistureWetBasis>{moisture.low, moisture.high}));
  if (!some_are_too_wet) return;
  writer
      .paragraph(say("Too wet: mix in more dry leaves till a squeezed handful only clumps, or let the clippings wilt to {} first.",
                     wilted_clippings))
      .paragraph("The parts at the top may hold more leaves than this table: they keep the moisture right too, not the C:N alone.");
}

void say_pair(PageWriter& writer, const Pair& pair, const Targets& targets) {
  const auto& ratio = targets.carbon_to_nitrogen;
  const auto& moisture = targets.moisture;
  writer.paragraph(say("Parts of {} to parts of {}:", pair.first_name, pair.second_name)).block(proportions(pair, targets));
  writer.block(chart_of(pair, targets));
  std::vector<Words> lines{
      say("C:N is {} {}.", Between<CarbonNitrogenRatio>{ratio.low, ratio.high}, window_words(pair.right_ratio)),
      say("Moisture is {} without water {}.", Between<MoistureWetBasis>{moisture.low, moisture.high}, window_words(pair.right_moisture))};
  const Words apart_or_not = pair.both_right ? Words() : apart(pair);
  if (is_same_window(pair.both_right, pair.right_with_water)) {
    lines.push_back(say("Both, with or without water: {}.{}", window_words(pair.both_right), apart_or_not));
  } else {
    lines.push_back(say("Both without water: {}.{}", window_words(pair.both_right), apart_or_not));
    lines.push_back(say("Both, watered where too dry: {}.", window_words(pair.right_with_water)));
  }
  writer.bullets(std::move(lines));
}

}  // namespace heapwright
