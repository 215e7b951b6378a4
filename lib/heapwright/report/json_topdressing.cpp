#include <algorithm>

#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {

namespace {

Json zones_json(const Topdressing& topdressing) {
  Json zones = Json::array();
  for (const ZoneDressing& zone : topdressing.zones)
    zones.push_back({{"name", zone.name},
                     {"surface", surface_word(zone.surface)},
                     {"area_m2", zone.area.value()},
                     {"area_spread_m2", optional_si(zone.spread)},
                     {"depth_m", zone.depth.value()},
                     {"volume_m3", zone.volume.value()},
                     {"volume_with_allowance_m3", zone.volume_with_allowance.value()},
                     {"wheelbarrow_loads", zone.wheelbarrow_loads}});
  return zones;
}

/// Of a quantity per m2, on 100 m2.
template <class PerArea>
double on_100_m2(PerArea quantity) {
  return 100.0 * quantity.value();
}

template <class PerArea>
Json band_on_100_m2(const std::optional<LikelyBand<PerArea>>& band) {
  if (!band) return nullptr;
  return {{"low", on_100_m2(band->low)}, {"likely", on_100_m2(band->likely)}, {"high", on_100_m2(band->high)}};
}

template <class PerArea>
Json likely_on_100_m2(const std::optional<LikelyBand<PerArea>>& band) {
  return band ? Json(on_100_m2(band->likely)) : Json(nullptr);
}

Json nutrients_json(const Nutrients& nutrients) {
  return {{"nitrogen_total", likely_on_100_m2(nutrients.nitrogen)},
          {"nitrogen_available", band_on_100_m2(nutrients.nitrogen_first_year)},
          {"p2o5", likely_on_100_m2(nutrients.phosphate)},
          {"k2o", likely_on_100_m2(nutrients.potash)},
          {"ranges",
           {{"nitrogen_total", band_on_100_m2(nutrients.nitrogen)},
            {"p2o5", band_on_100_m2(nutrients.phosphate)},
            {"k2o", band_on_100_m2(nutrients.potash)}}},
          {"ties_up_nitrogen", nutrients.ties_up_nitrogen}};
}

Json credit_json(const std::optional<NitrogenCredit>& credit) {
  if (!credit) return nullptr;
  return {{"recommended_kg_per_100m2", on_100_m2(credit->recommended)},
          {"share", {{"low", credit->share.low}, {"likely", credit->share.likely}, {"high", credit->share.high}}}};
}

Json salts_json(const std::vector<Salts>& salts) {
  Json list = Json::array();
  for (const Salts& one : salts)
    list.push_back({{"method", salts_method_words(one.method)},
                    {"value_ds_per_m", in_usual_unit(TestQuantity::electric_conductivity, one.value).number}});
  return list;
}

/// A figure of the analysis under each limit for lawns.
Json fitness_json(const CompostFitness& fitness) {
  Json list = Json::array();
  for (const JudgedFigure& figure : fitness.figures) {
    const ValueInUnit value = in_usual_unit(figure.measured, figure.value);
    for (const JudgedLimit& one : figure.limits)
      list.push_back({{"property", figure.name},
                      {"value", value.number},
                      {"unit", value.unit},
                      {"limit_of", one.limit.specification},
                      {"ok", one.ok}});
  }
  return list;
}

Json soil_test_json(const Topdressing& topdressing) {
  const std::optional<SoilTest>& test = topdressing.plan.soil_test;
  if (!test) return nullptr;
  return {{"date", test->date ? Json(print_date(*test->date)) : Json(nullptr)},
          {"too_old", topdressing.advice.soil_test_age == SoilTestAge::too_old},
          {"phosphorus", test->phosphorus.empty() ? Json(nullptr) : Json(test->phosphorus)},
          {"phosphorus_level", test->phosphorus_level.empty() ? Json(nullptr) : Json(test->phosphorus_level)},
          {"nitrogen_recommended_kg_per_100m2", test->nitrogen_recommended ? Json(on_100_m2(*test->nitrogen_recommended)) : Json(nullptr)}};
}

Json spreads_json(const std::vector<Spread>& spreads) {
  Json list = Json::array();
  for (const Spread& spread : spreads)
    list.push_back({{"on", spread.of.empty() ? Json(nullptr) : Json(spread.of)},
                    {"date", spread.date ? Json(print_date(*spread.date)) : Json(nullptr)},
                    {"used_m3", spread.used.value()},
                    {"area_m2", spread.area.value()},
                    {"aim_m", spread.aim.value()},
                    {"depth_m", spread.depth.value()}});
  return list;
}

Json advice_json(const SpreadingAdvice& advice) {
  return {{"hold", advice.is_hold()},
          {"phosphorus", phosphorus_verdict_word(advice.phosphorus)},
          {"compost_too_salty", advice.compost_too_salty},
          {"frozen_or_snow", advice.frozen_or_snow},
          {"out_of_season", advice.out_of_season},
          {"near_water", advice.near_water},
          {"steep", advice.steep || !advice.steep_zones.empty()}};
}

Json order_json(const Order& order, const Ordering& ordering) {
  Json items = Json::array();
  for (const OrderLine& line : order.lines)
    items.push_back({{"offer", ordering.question.offers[line.offer].name},
                     {"units", line.units},
                     {"volume_m3", line.volume.value()},
                     {"loads", line.loads},
                     {"pallets", line.pallets},
                     {"compost", line.compost.value()},
                     {"haulage", line.haulage.value()},
                     {"pallet_cost", line.pallet_cost.value()},
                     {"cost", line.cost.value()}});
  return {{"items", std::move(items)},
          {"volume_m3", order.volume.value()},
          {"left_over_m3", order.left_over.value()},
          {"loads", order.loads},
          {"cost", ordering.usual ? Json(nullptr) : Json(order.cost.value())},
          {"per_m3", ordering.usual ? Json(nullptr) : Json(order.cost.value() / order.volume.value())}};
}

/// The cheapest, the cheapest without one of its offers, and each offer by itself; null where no order was asked for.
Json orders_json(const std::optional<Ordering>& ordering) {
  if (!ordering) return nullptr;
  Json orders = Json::array();
  if (ordering->best) orders.push_back(order_json(*ordering->best, *ordering));
  if (ordering->next) orders.push_back(order_json(*ordering->next, *ordering));
  for (const Order& order : ordering->alone) {
    Json alone = order_json(order, *ordering);
    if (std::find(orders.begin(), orders.end(), alone) == orders.end()) orders.push_back(std::move(alone));
  }
  return orders;
}

Json best_order_json(const std::optional<Ordering>& ordering) {
  if (!ordering || !ordering->best) return nullptr;
  Json best = order_json(*ordering->best, *ordering);
  best["with_fixed_costs"] = ordering->usual ? Json(nullptr) : Json(ordering->cost.value());
  return best;
}

}  // namespace

Json topdressing_json(const Topdressing& topdressing) {
  Json mass = nullptr;
  if (const std::optional<LikelyBand<Mass>>& range = topdressing.mass)
    mass = {{"low", range->low.value()}, {"likely", range->likely.value()}, {"high", range->high.value()}};
  return {{"area_m2", topdressing.area.value()},
          {"area_spread_m2", optional_si(topdressing.spread)},
          {"zones", zones_json(topdressing)},
          {"depth_m", topdressing.depth.value()},
          {"volume_m3", topdressing.volume.value()},
          {"allowance_fraction", allowance_of(topdressing.plan).value()},
          {"spreads", spreads_json(topdressing.plan.spreads)},
          {"volume_with_allowance_m3", topdressing.volume_with_allowance.value()},
          {"covers_m2", topdressing.covers.value()},
          {"mass_kg", std::move(mass)},
          {"per_year_m3", topdressing.per_year.value()},
          {"orders", orders_json(topdressing.ordering)},
          {"best_order", best_order_json(topdressing.ordering)},
          {"phone_line", topdressing.phone_line.empty() ? Json(nullptr) : Json(topdressing.phone_line)},
          {"wheelbarrow_loads", topdressing.wheelbarrow_loads},
          {"nutrients_kg_per_100m2", nutrients_json(topdressing.nutrients)},
          {"nitrogen_credit", credit_json(topdressing.credit)},
          {"salts", salts_json(topdressing.contents.salts)},
          {"analysis_for_lawns", fitness_json(topdressing.fitness)},
          {"soil_test", soil_test_json(topdressing)},
          {"spreading", advice_json(topdressing.advice)}};
}

std::string json_of_jobs(const Answer<Topdressing>& all, const DressedJobs& jobs, const Materials& materials) {
  Json json = topdressing_json(all.result);
  json["jobs"] = Json::array();
  for (const DressedDrop& drop : jobs.drops) {
    Json one = topdressing_json(drop.topdressing);
    one["jobs"] = drop.jobs;
    json["jobs"].push_back(std::move(one));
  }
  json["cost_of_all"] = jobs.cost.value();
  return printed(with_grounds(std::move(json), all, materials));
}

std::string json_of_topdressing(const Answer<Topdressing>& answer, const Materials& materials) {
  return printed(with_grounds(topdressing_json(answer.result), answer, materials));
}

}  // namespace heapwright
