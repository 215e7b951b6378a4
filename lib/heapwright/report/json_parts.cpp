#include "heapwright/report/json_parts.hpp"

#include <fmt/format.h>

#include <cmath>

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

Json value_json(const AssumedValue& value) {
  if (const auto number = si_number_of(value)) return *number;
  if (const std::string* words = std::get_if<std::string>(&value)) return *words;
  return print_date(std::get<Date>(value));
}

/// The unit of an assumed value; null of words, dates and counts, whose container stands beside.
struct UnitOf {
  Json operator()(Volume) const { return "m3"; }
  Json operator()(Mass) const { return "kg"; }
  Json operator()(Length) const { return "m"; }
  Json operator()(BulkDensity) const { return "kg/m3"; }
  Json operator()(TemperaturePoint) const { return "K"; }
  Json operator()(const std::string&) const { return nullptr; }
  Json operator()(Date) const { return nullptr; }
  Json operator()(const ContainerCount&) const { return nullptr; }
  template <class Share>
  Json operator()(const Share&) const {
    return "1";
  }
};

Json assumptions_json(const std::vector<Assumption>& assumptions) {
  Json list = Json::array();
  for (const Assumption& assumption : assumptions) {
    Json entry{{"what", assumption.what}, {"value", value_json(assumption.value)}};
    entry["unit"] = std::visit(UnitOf{}, assumption.value);
    entry["low"] = assumption.low ? value_json(*assumption.low) : Json(nullptr);
    entry["high"] = assumption.high ? value_json(*assumption.high) : Json(nullptr);
    entry["evidence"] = assumption.evidence;
    entry["could_change_answer"] = assumption.could_change_answer ? Json(*assumption.could_change_answer) : Json(nullptr);
    entry["feedstock"] = assumption.feedstock.empty() ? Json(nullptr) : Json(assumption.feedstock);
    const ContainerCount* counted = std::get_if<ContainerCount>(&assumption.value);
    entry["container"] = counted != nullptr ? Json(counted->container) : Json(nullptr);
    entry["figure"] = assumption.figure == Figure::none ? Json(nullptr) : Json(figure_word(assumption.figure));
    list.push_back(std::move(entry));
  }
  return list;
}

Json measure_first_json(const std::optional<Measurement>& measurement) {
  if (!measurement) return nullptr;
  return {{"feedstock", measurement->feedstock},
          {"how", measuring_word(measurement->how)},
          {"container", measurement->container.id},
          {"narrows_by", measurement->narrows_by}};
}

Json cautions_json(const std::vector<std::string>& ids, const Materials& materials) {
  Json list = Json::array();
  for (const std::string& id : ids) {
    if (const Caution* caution = row_with_id(*materials.cautions, id)) list.push_back({{"id", id}, {"text", caution->text}});
  }
  return list;
}

/// @throws NotFinite for a number that is none: as null it would say that there is no such figure
void check_finite(const Json& json) {
  if (json.is_number_float() && !std::isfinite(json.get<double>())) throw NotFinite();
  if (!json.is_structured()) return;
  for (const Json& part : json) check_finite(part);
}

}  // namespace

Json with_grounds(Json result, const Grounds& grounds, const Materials& materials) {
  result["assumptions"] = assumptions_json(grounds.assumptions);
  result["measure_first"] = measure_first_json(grounds.measure_first);
  result["working"] = working_json(grounds.working);
  result["cautions"] = cautions_json(grounds.cautions, materials);
  return result;
}

std::string printed(const Json& json) {
  check_finite(json);
  return fmt::format("{}\n", json.dump(2));
}

}  // namespace heapwright
