#include "heapwright/lawn/topdressing.hpp"

#include <algorithm>
#include <functional>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/input/limits.hpp"
#include "heapwright/input/words.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/order/phone_line.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

CompostWeight weight_of(const CompostContents& contents) { return {contents.name, contents.bulk_density, contents.bulk_density.whose}; }

LikelyBand<Mass> mass_of_compost(Volume volume, const PublishedValue<BulkDensity>& density) {
  const auto mass = [&](BulkDensity at) { return Mass(volume * at); };
  return {mass(density.low.value_or(*density.typical)), mass(*density.typical), mass(density.high.value_or(*density.typical))};
}

/// What the nutrients rest on. None of it changes how much compost the lawn takes.
void assume_contents(std::vector<Assumption>& assumptions, const CompostContents& contents) {
  const auto assume = [&](const char* what, const auto& figure) {
    if (figure)
      assumptions.push_back(assumed_of_compost(std::string(what) + " of " + contents.name + " (the volume to order stays)", *figure));
  };
  assume("moisture", std::optional(contents.moisture));
  assume("nitrogen", contents.nitrogen);
  assume("phosphate (P2O5)", contents.phosphate);
  assume("potash (K2O)", contents.potash);
  assume("C:N", contents.carbon_to_nitrogen);
}

/// The share of nitrogen that comes free, in words, as it may be below zero.
void assume_release(std::vector<Assumption>& assumptions, const Nutrients& nutrients) {
  if (!nutrients.freed) return;
  const auto percent = [](FreedShare share) { return print_number(100.0 * share.value(), 2); };
  assumptions.push_back({"nitrogen that comes free in the first year, by the C:N (the volume to order stays)",
                         percent(nutrients.freed->likely) + " % of all, from " + percent(nutrients.freed->low) + " to " +
                             percent(nutrients.freed->high) + " %",
                         std::nullopt, std::nullopt, "judged by us", std::nullopt});
}

/// The area, with its spread where it is known how each zone was measured.
Assumption assumed_area(const Topdressing& topdressing) {
  Assumption area{std::string(area_of_the_lawn), topdressing.area, std::nullopt, std::nullopt, "", std::nullopt};
  if (!topdressing.spread) {
    area.evidence = "taken as exact: say measured_by of each zone, and its range is worked out";
    return area;
  }
  area.low = std::max(Area(), Area(topdressing.area - *topdressing.spread));
  area.high = Area(topdressing.area + *topdressing.spread);
  area.evidence = "as measured; how far that is off: common practice, no source";
  area.could_change_answer = std::get<Area>(*area.high) / topdressing.area - std::get<Area>(*area.low) / topdressing.area;
  return area;
}

bool has_told_depth(const Zone& zone, const TopdressingPlan& plan) { return plan.depth || zone.depth; }

/// The depth: exact where somebody said it. The usual one of a living lawn has the depths from 1/8 to 3/8 in beside it.
Assumption assumed_depth(const Topdressing& topdressing) {
  const auto& zones = topdressing.lawn.zones;
  Assumption depth{"depth of the compost", topdressing.depth, std::nullopt, std::nullopt, "as you said", std::nullopt};
  if (std::all_of(zones.begin(), zones.end(), [&](const Zone& zone) { return has_told_depth(zone, topdressing.plan); })) return depth;
  depth.evidence = "usual where nobody says another: University of Delaware Cooperative Extension 2009, seen";
  const bool all_usual_on_lawn = std::all_of(topdressing.zones.begin(), topdressing.zones.end(), [](const ZoneDressing& zone) {
    return zone.surface == Surface::lawn && zone.depth == usual_depth(Surface::lawn);
  });
  if (!all_usual_on_lawn) {
    depth.evidence = "usual where nobody says another: a quarter inch on a lawn, an inch on bare ground";
    return depth;
  }
  depth.low = thinnest_usual_depth;
  depth.high = depth_to_warn_at;
  depth.could_change_answer = (depth_to_warn_at - thinnest_usual_depth) / topdressing.depth;
  return depth;
}

/// What is added for overlap; without it the order would be less by its share.
Assumption assumed_allowance(const TopdressingPlan& plan) {
  const ShareOfVolume allowance = allowance_of(plan);
  const double share = allowance.value();
  return {"allowance for overlap, lumps and settling", allowance, std::nullopt, std::nullopt, whose_allowance(plan), share / (1.0 + share)};
}

/// Those whose weight is known in the order of it, in the places that they hold among the others.
void order_known_weights(std::vector<Assumption>& assumptions) {
  std::vector<Assumption> known;
  std::copy_if(assumptions.begin(), assumptions.end(), std::back_inserter(known),
               [](const Assumption& one) { return one.could_change_answer.has_value(); });
  order_by_weight(known);
  auto next = known.begin();
  for (Assumption& one : assumptions) {
    if (one.could_change_answer) one = *next++;
  }
}

/// When it is spread. It changes what a year takes, and no order.
void assume_season(std::vector<Assumption>& assumptions, const TopdressingPlan& plan) {
  if (!plan.months.empty() || plan.surface != Surface::lawn) return;
  assumptions.push_back(
      {"once a year", std::string(season_for(grass_of(plan))), std::nullopt, std::nullopt, "common practice, no source", std::nullopt});
  if (!plan.grass)
    assumptions.push_back({"grass", "cool-season grass", std::nullopt, std::nullopt,
                           "judged by us: nobody said; write grass = \"warm-season\" where it is that", std::nullopt});
}

/// What the order of a topdressing rests on; then what a year does, and last what changes no cubic yard.
std::vector<Assumption> assumptions_for(const Topdressing& topdressing) {
  const TopdressingPlan& plan = topdressing.plan;
  std::vector<Assumption> assumptions{assumed_area(topdressing), assumed_depth(topdressing), assumed_allowance(plan)};
  order_known_weights(assumptions);
  assume_season(assumptions, plan);
  assumptions.push_back(
      assumed_of_compost("weight of " + topdressing.contents.name + " (the volume to order stays)", topdressing.contents.bulk_density));
  assume_contents(assumptions, topdressing.contents);
  assume_release(assumptions, topdressing.nutrients);
  return assumptions;
}

}  // namespace

const std::vector<std::pair<std::string, Grass>>& grass_words() {
  static const std::vector<std::pair<std::string, Grass>> words{{"cool-season", Grass::cool_season}, {"warm-season", Grass::warm_season}};
  return words;
}

std::string_view season_for(Grass grass) {
  return grass == Grass::cool_season ? "early fall or spring, cool-season grass" : "late spring, warm-season grass";
}

std::string_view next_season_of(Grass grass, std::chrono::month month) {
  if (grass == Grass::warm_season) return "late spring";
  return month == std::chrono::July ? "late summer" : "spring";
}

Grass grass_of(const TopdressingPlan& plan) { return plan.grass.value_or(Grass::cool_season); }

bool takes_compost_in(Grass grass, std::chrono::month month) {
  using namespace std::chrono;  // NOLINT(google-build-using-namespace): months by their names
  if (grass == Grass::warm_season) return April <= month && month <= August;
  return March <= month && month <= October && month != July;
}

namespace {

/// check_depth() as a problem of the key "depth" of a table.
void report_smothering(Table& table, Length depth, Surface surface) {
  try {
    check_depth(depth, surface);
  } catch (const DomainError& error) {
    table.problem_at("depth", error.what(), error.hint());
  }
}

}  // namespace

TopdressingPlan read_topdressing(Table& root, const Materials& materials) {
  TopdressingPlan plan;
  plan.soil_test = read_soil_test(root, *materials.nutrients);
  std::optional<Table> table = root.table("topdressing");
  if (!table) return plan;
  plan.depth = table->read("depth", read_length);
  if (plan.depth && !is_positive(*plan.depth)) table->problem_at("depth", "a topdressing has a depth", "write depth = \"1/4 in\"");
  plan.grass = table->one_of("grass", grass_words());
  plan.months = read_months(*table, "months");
  plan.surface = table->one_of("surface", surface_words()).value_or(plan.surface);
  if (plan.depth && is_positive(*plan.depth)) report_smothering(*table, *plan.depth, plan.surface);
  plan.near_water = table->flag("near_water").value_or(false);
  plan.steep = table->flag("steep").value_or(false);
  plan.frozen_or_snow = table->flag("frozen_or_snow").value_or(false);
  plan.allowance = table->read("allowance", read_fraction<OfVolume>);
  plan.compost = table->read("compost", [&](std::string_view name) { return find_compost(materials, name).id; }).value_or(plan.compost);
  plan.analysis = read_compost_analysis(*table);
  plan.own_screened = table->read("own_screened", read_length);
  std::vector<Table> offers = table->tables("offer");
  if (offers.size() > most_offers) {
    table->problem_at("offer", "more than " + std::to_string(most_offers) + " offers", "leave out the dearer ones");
    offers.clear();
  }
  for (Table& offer : offers) plan.offers.push_back(read_offer(offer, materials));
  for (Table& fixed : table->tables("fixed_cost")) plan.fixed_costs.push_back(read_fixed_cost(fixed));
  table->finish();
  return plan;
}

Facts facts_of(const TopdressingPlan& plan) {
  Facts facts{Fact::topdressing, plan.surface == Surface::lawn ? Fact::living_lawn : Fact::new_ground};
  if (plan.near_water) facts.insert(Fact::near_water);
  if (plan.soil_test && plan.soil_test->phosphorus_is_high) facts.insert(Fact::phosphorus_high);
  return facts;
}

void check_depth(Length depth, Surface surface) {
  if (surface == Surface::bare || depth <= depth_to_refuse * (1.0 + 1e-9)) return;
  throw DomainError(print_in(depth, "in", 3) + " of compost at once would smother a living lawn",
                    "spread 1/4 in now and again next year; for bare ground, a new lawn or a bed say surface = \"new\" (--surface new)");
}

ShareOfVolume allowance_of(const TopdressingPlan& plan) {
  constexpr double usual = 0.05;
  if (plan.allowance) return *plan.allowance;
  return allowance_after(plan.spreads).value_or(ShareOfVolume::of(usual));
}

std::string whose_allowance(const TopdressingPlan& plan) {
  if (plan.allowance) return "your own figure";
  return plan.spreads.empty() ? "judged by us" : "by what you used before";
}

Length usual_depth(Surface surface) { return (surface == Surface::bare ? 1.0 : 0.25) * unit::inch; }

Surface surface_of(const Zone& zone, const TopdressingPlan& plan) { return zone.surface.value_or(plan.surface); }

Length depth_of(const Zone& zone, const TopdressingPlan& plan) {
  if (zone.depth) return *zone.depth;
  return plan.depth.value_or(usual_depth(surface_of(zone, plan)));
}

Length depth_of(const TopdressingPlan& plan) { return plan.depth.value_or(usual_depth(plan.surface)); }

namespace {

ZoneDressing dressing_of(const Zone& zone, const TopdressingPlan& plan) {
  ZoneDressing dressing{zone.name, zone.area, spread_of(zone), depth_of(zone, plan), surface_of(zone, plan), {}, {}};
  check_depth(dressing.depth, dressing.surface);
  dressing.volume = dressing.area * dressing.depth;
  dressing.volume_with_allowance = dressing.volume + allowance_of(plan) * dressing.volume;
  return dressing;
}

/// Whether any zone of a surface gets more than a depth, so many times over.
bool is_deeper(const std::vector<ZoneDressing>& zones, Surface surface, Length depth, int times) {
  return std::any_of(zones.begin(), zones.end(), [&](const ZoneDressing& zone) {
    return zone.surface == surface && static_cast<double>(times) * zone.depth > depth * (1.0 + 1e-9);
  });
}

/// The middle of the next of its months; without any the day itself.
Date next_spreading(const TopdressingPlan& plan, Date today) {
  if (plan.months.empty()) return today;
  const auto away = [&](std::chrono::month month) { return (month - today.month()).count(); };  // of months it counts round the year
  const auto next = *std::min_element(plan.months.begin(), plan.months.end(),
                                      [&](std::chrono::month one, std::chrono::month other) { return away(one) < away(other); });
  return (today.year() / today.month() + std::chrono::months(away(next))) / std::chrono::day(15);
}

/// Whether a living zone gets more than a depth with what lies on it since a year.
bool is_deeper_with_spreads(const Lawn& lawn, const TopdressingPlan& plan, Length depth, Date today) {
  return std::any_of(lawn.zones.begin(), lawn.zones.end(), [&](const Zone& zone) {
    return surface_of(zone, plan) == Surface::lawn &&
           depth_of(zone, plan) + spread_since_last_year(zone, plan.spreads, today) > depth * (1.0 + 1e-9);
  });
}

}  // namespace

Answer<Topdressing> topdress(const Lawn& lawn, const TopdressingPlan& plan, const Materials& materials, const std::optional<Date>& today) {
  Answer<Topdressing> answer;
  Topdressing& result = answer.result;
  result.plan = plan;
  result.lawn = lawn;
  result.area = area_of(lawn);
  if (!is_positive(result.area)) throw DomainError("the lawn has no area", "give a [[lawn.zone]] with its shape, or --area \"5000 ft2\"");
  for (const Zone& zone : lawn.zones) {
    result.zones.push_back(dressing_of(zone, plan));
    result.volume += result.zones.back().volume;
  }
  result.spread = spread_of(lawn);
  result.depth = result.volume / result.area;
  const ShareOfVolume allowance = allowance_of(plan);
  result.volume_with_allowance = result.volume + allowance * result.volume;
  result.times_a_year = std::max(1, static_cast<int>(plan.months.size()));
  result.deep = is_deeper(result.zones, Surface::lawn, depth_to_warn_at, 1);
  result.deep_on_bare = is_deeper(result.zones, Surface::bare, depth_to_warn_at_on_bare_ground, 1);
  result.deep_in_a_year = is_deeper(result.zones, Surface::lawn, depth_a_year_to_warn_at, result.times_a_year) ||
                          (today && is_deeper_with_spreads(lawn, plan, depth_a_year_to_warn_at, next_spreading(plan, *today)));
  result.per_year = static_cast<double>(result.times_a_year) * result.volume_with_allowance;
  result.covers = result.area;
  result.contents = contents_of(known_row(*materials.composts, plan.compost), plan.analysis, materials);
  result.nutrients = nutrients_of(result.depth, result.contents, *materials.nutrients);
  result.credit = credit_of(result.nutrients, result.times_a_year, plan.soil_test);
  result.advice = spreading_advice(lawn, plan, today, *materials.nutrients);
  result.weight = weight_of(result.contents);
  if (result.weight) result.mass = mass_of_compost(result.volume_with_allowance, result.weight->density);
  if (const Container* wheelbarrow = row_with_id(*materials.containers, "wheelbarrow")) {
    result.wheelbarrow = BarrowLoad{wheelbarrow->volume, source_words(materials, wheelbarrow->source, wheelbarrow->evidence)};
    result.wheelbarrow_loads = result.volume_with_allowance / wheelbarrow->volume;
    for (ZoneDressing& zone : result.zones) zone.wheelbarrow_loads = zone.volume_with_allowance / wheelbarrow->volume;
  }
  answer.assumptions = assumptions_for(result);
  answer.cautions = cautions_for(*materials.cautions, facts_of(plan));
  return answer;
}

std::optional<LikelyBand<Mass>> mass_hauled(const Topdressing& topdressing) {
  if (!topdressing.mass) return std::nullopt;
  const bool is_ordered = topdressing.ordering && topdressing.ordering->best;
  const double times = is_ordered ? static_cast<double>(topdressing.ordering->best->volume / topdressing.volume_with_allowance) : 1.0;
  return LikelyBand<Mass>{times * topdressing.mass->low, times * topdressing.mass->likely, times * topdressing.mass->high};
}

Volume volume_for(const Lawn& lawn, const TopdressingPlan& plan) {
  Volume volume;
  for (const Zone& zone : lawn.zones) volume += zone.area * depth_of(zone, plan);
  return volume + allowance_of(plan) * volume;
}

Length coarsest_screen(const Topdressing& topdressing) {
  const bool living = std::any_of(topdressing.zones.begin(), topdressing.zones.end(),
                                  [](const ZoneDressing& zone) { return zone.surface == Surface::lawn; });
  return (living ? 0.375 : 0.5) * unit::inch;
}

OrderQuestion order_question(const Topdressing& topdressing) {
  OrderQuestion question{topdressing.plan.offers, topdressing.volume_with_allowance, {}, {}};
  if (topdressing.weight) {
    question.density = topdressing.weight->density.typical;
    question.heaviest = topdressing.weight->density.high ? topdressing.weight->density.high : question.density;
  }
  const Length coarsest = coarsest_screen(topdressing) * (1.0 + 1e-9);
  const auto is_fine = [&](const Offer& offer) { return !offer.screen || *offer.screen <= coarsest; };
  if (std::any_of(question.offers.begin(), question.offers.end(), is_fine)) std::erase_if(question.offers, std::not_fn(is_fine));
  return question;
}

void order_for(Topdressing& topdressing, Date today, bool metric, const Materials& materials) {
  OrderQuestion question = order_question(topdressing);
  topdressing.ordering = ordering_of(std::move(question), topdressing.plan.fixed_costs, today, metric, materials);
  topdressing.phone_line = phone_line(*topdressing.ordering, coarsest_screen(topdressing), materials);
}

void judge_compost(Topdressing& topdressing, const Criteria& criteria) {
  if (!topdressing.plan.analysis) return;
  topdressing.fitness = compost_fitness(*topdressing.plan.analysis, criteria);
  topdressing.advice.compost_too_salty = topdressing.fitness.too_salty;
}

void mind_bought_compost(Answer<Topdressing>& answer, const Materials& materials) {
  for (const std::string& id : cautions_for(*materials.cautions, {Fact::bought_compost})) answer.cautions.push_back(id);
  answer.cautions = in_order(answer.cautions, *materials.cautions);
}

bool are_of_one_depth(const std::vector<ZoneDressing>& zones) {
  return std::all_of(zones.begin(), zones.end(), [&](const ZoneDressing& zone) { return zone.depth == zones.front().depth; });
}

Area area_covered(Volume volume, const TopdressingPlan& plan) {
  const Length depth = depth_of(plan);
  if (!is_positive(depth)) throw DomainError("a topdressing has a depth", "write \"1/4 in\"");
  return volume / (depth + allowance_of(plan) * depth);
}

}  // namespace heapwright
