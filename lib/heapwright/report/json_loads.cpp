#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

Json containers_json(const Amount& amount) {
  const ContainerCount* counted = std::get_if<ContainerCount>(&amount);
  return counted == nullptr ? Json(nullptr) : Json{{"name", counted->container}, {"count", counted->count}};
}

void tell_supply(Json& json, const Supply& supply) {
  json["id"] = supply.feedstock.id;
  json["packing"] = supply.packing_of(*supply.amount);
  json["mass_kg"] = optional_si(supply.mass(*supply.amount));
  json["volume_m3"] = optional_si(volume_of(*supply.amount));
  json["containers"] = containers_json(*supply.amount);
  json["treated"] = supply.treated ? Json(treated_word(*supply.treated)) : Json(nullptr);
}

Json load_json(const Load& load) {
  Json json{{"date", print_date(load.date)}, {"id", nullptr},         {"packing", nullptr}, {"mass_kg", nullptr},
            {"volume_m3", nullptr},          {"containers", nullptr}, {"treated", nullptr}};
  if (load.supply) tell_supply(json, *load.supply);
  json["water_kg"] = load.water.value();
  return json;
}

Json loads_json(const std::vector<Load>& loads) {
  Json list = Json::array();
  for (const Load& load : loads) list.push_back(load_json(load));
  return list;
}

}  // namespace

std::string json_of_loads(const std::vector<Load>& added, const std::vector<Load>& all) {
  return printed({{"added", loads_json(added)},
                  {"loads", all.size()},
                  {"went_in", loads_json(all)},
                  {"assumptions", Json::array()},
                  {"cautions", Json::array()}});
}

}  // namespace heapwright
