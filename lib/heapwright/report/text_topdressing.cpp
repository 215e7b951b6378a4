#include <algorithm>
#include <cmath>

#include "heapwright/input/words.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/parts.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

std::string times_words(int times) { return times == 1 ? "once a year" : std::to_string(times) + " times a year"; }

std::string months_words(const TopdressingPlan& plan) {
  std::string text;
  for (const auto month : plan.months) text += (text.empty() ? "" : ", ") + std::string(month_name(month));
  return text;
}

/// Bags as they are sold in the units asked for.
std::string bags_words(Volume volume, const Materials& materials, const Show& show) {
  const Container* bag = find_container(materials.containers, show.in_us_units() ? "compost-bag-1ft3" : "compost-bag-40l");
  if (bag == nullptr) return {};
  return show_count(std::ceil((volume / bag->volume).value() - 1e-9), "bag") + " of " + (show.in_us_units() ? "1 cubic foot" : "40 L");
}

}  // namespace

std::string text_of_topdressing_body(const Topdressing& topdressing, const Materials& materials, const Show& show) {
  std::string text = wrap("Spread " + show.volume(topdressing.volume_with_allowance) + " of screened compost over " +
                          show.area(topdressing.area) + ", " + show.depth(topdressing.depth) + " deep.");
  std::vector<std::vector<std::string>> rows;
  if (topdressing.lawn.zones.size() > 1) {
    for (const Zone& zone : topdressing.lawn.zones) {
      rows.push_back({zone.name, show.area(zone.area), show.volume(Volume(zone.area * zone.depth.value_or(topdressing.plan.depth)))});
    }
  }
  text += columns(rows);
  const std::string bags = bags_words(topdressing.volume_with_allowance, materials, show);
  const std::string loads = show_count(std::ceil(topdressing.wheelbarrow_loads), "wheelbarrow load");
  const auto line = [](const std::string& what, const std::string& words) { return wrap("  " + padded(what, 14) + " " + words, 17); };
  text += line("on the ground", show.volume(topdressing.volume));
  text += line("with " + show_percent(topdressing.plan.allowance.value()) + " more",
               show.volume(topdressing.volume_with_allowance) + " for overlap and lumps: " + loads + (bags.empty() ? "" : ", or " + bags));
  if (topdressing.mass_kg)
    text += line("it weighs", show.mass_range(topdressing.mass_kg->low, topdressing.mass_kg->high) + ", moist or dry: order by volume");
  const std::string months = months_words(topdressing.plan);
  const bool again = topdressing.plan.surface == Surface::lawn;
  if (again)
    text +=
        line(times_words(topdressing.times_a_year), (months.empty() ? "" : months + ", ") + show.volume(topdressing.per_year) + " in all");
  if (topdressing.plan.near_water)
    text += wrap("Keep back from the pond, stream or drain: ask your county how far. Sweep up what lands on pavement.");
  if (topdressing.deep) text += wrap("More than 3/8 in at once can smother a low or thin lawn: two thinner dressings are safer.");
  return text;
}

std::string text_of_topdressing(const Answer<Topdressing>& whole, const Materials& materials, const Show& show) {
  const Topdressing& topdressing = whole.result;
  return text_of_topdressing_body(topdressing, materials, show) + text_of_assumptions(whole.assumptions, std::nullopt, show) +
         text_of_steps(whole.working) + text_of_cautions(whole.cautions, materials);
}

std::string text_of_coverage(const Answer<Topdressing>& whole, Volume volume, const Lawn& lawn, const Materials& materials,
                             const Show& show) {
  const Topdressing& covered = whole.result;
  const Area lawn_area = area_of(lawn);
  const bool known = lawn_area.value() > 0.0;
  std::string text = show.volume(volume) + " of compost covers about " + show.area(covered.covers) +
                     (known ? " of your " + show.area(lawn_area) : "") + ", " + show.depth(covered.plan.depth) + " deep, with " +
                     show_percent(covered.plan.allowance.value()) + " for overlap and lumps.";
  if (known && lawn_area > covered.covers)
    text += " You need " + show.volume(Volume(volume * ((lawn_area - covered.covers) / covered.covers).value())) + " more.";
  if (known && lawn_area <= covered.covers) text += " That is enough.";
  return wrap(text) + text_of_steps(whole.working) + text_of_cautions(whole.cautions, materials);
}

}  // namespace heapwright
