#include "heapwright/materials/used_figures.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {
namespace {

template <class Quantity>
Json reading_json(const PublishedValue<Quantity>& published, const Materials& materials) {
  return {{"typical", optional_si(published.typical)},
          {"low", optional_si(published.low)},
          {"high", optional_si(published.high)},
          {"evidence", evidence_word(published.evidence)},
          {"range_evidence", published.range_evidence ? Json(evidence_word(*published.range_evidence)) : Json(nullptr)},
          {"source", source_words(materials, published.source, published.evidence)},
          {"what", published.what},
          {"note", published.note},
          {"outlier", published.outlier}};
}

template <class Quantity>
Json published_values_json(const PublishedValues<Quantity>& values, const Materials& materials) {
  Json list = Json::array();
  for (const auto& published : values) list.push_back(reading_json(published, materials));
  return list;
}

Json feedstock_json(const Feedstock& feedstock, const Materials& materials) {
  Json json{{"id", feedstock.id},
            {"name", feedstock.name},
            {"also", feedstock.also},
            {"class", class_word(feedstock.feedstock_class)},
            {"lacks", feedstock.lacks()}};
  json["usual_packing"] = feedstock.usual_packing.empty() ? Json(nullptr) : Json(feedstock.usual_packing);
  json["used"] = {{"moisture_fraction", optional_si(used(feedstock.moisture))},
                  {"carbon_fraction_dry", optional_si(feedstock.used_carbon())},
                  {"nitrogen_fraction_dry", optional_si(feedstock.used_nitrogen())},
                  {"carbon_to_nitrogen", optional_si(feedstock.used_carbon_to_nitrogen())},
                  {"volatile_solids_fraction_dry", optional_si(feedstock.used_organic_matter())},
                  {"bulk_density_kg_m3", optional_si(feedstock.density())}};
  Json densities = Json::object();
  for (const Packing& packing : feedstock.packings) densities[packing.name] = published_values_json(packing.values, materials);
  json["readings"] = {{"moisture_fraction", published_values_json(feedstock.moisture, materials)},
                      {"carbon_fraction_dry", published_values_json(feedstock.carbon, materials)},
                      {"carbon_to_nitrogen", published_values_json(feedstock.carbon_to_nitrogen, materials)},
                      {"nitrogen_fraction_dry", published_values_json(feedstock.nitrogen, materials)},
                      {"volatile_solids_fraction_dry", published_values_json(feedstock.volatile_solids, materials)},
                      {"ash_fraction_dry", published_values_json(feedstock.ash, materials)},
                      {"bulk_density_kg_m3", std::move(densities)}};
  return json;
}

}  // namespace

std::string json_of_feedstocks(const Materials& materials) {
  Json list = Json::array();
  for (const Feedstock& feedstock : *materials.feedstocks) list.push_back(feedstock_json(feedstock, materials));
  Json keep_out = Json::array();
  for (const KeepOut& row : *materials.keep_out)
    keep_out.push_back({{"id", row.id},
                        {"name", row.name},
                        {"reason", row.reason},
                        {"instead", row.instead},
                        {"evidence", evidence_word(row.evidence)},
                        {"source", source_words(materials, row.source, row.evidence)}});
  return printed({{"feedstocks", std::move(list)}, {"keep_out", std::move(keep_out)}});
}

std::string json_of_feedstock(const Feedstock& feedstock, const Materials& materials) {
  return printed(feedstock_json(feedstock, materials));
}

std::string json_of_compost(const Compost& compost, const Materials& materials) {
  return printed({{"id", compost.id},
                  {"name", compost.name},
                  {"readings",
                   {{"moisture_fraction", published_values_json(compost.moisture, materials)},
                    {"bulk_density_kg_m3", published_values_json(compost.bulk_density, materials)},
                    {"carbon_to_nitrogen", published_values_json(compost.carbon_to_nitrogen, materials)},
                    {"organic_matter_fraction_dry", published_values_json(compost.organic_matter, materials)},
                    {"nitrogen_fraction_dry", published_values_json(compost.nitrogen, materials)},
                    {"p2o5_fraction_dry", published_values_json(compost.phosphate, materials)},
                    {"k2o_fraction_dry", published_values_json(compost.potash, materials)}}}});
}

std::string json_of_sources(const Materials& materials) {
  Json list = Json::array();
  for (const Source& source : *materials.sources)
    list.push_back({{"id", source.id}, {"title", source.title}, {"kind", source.kind}, {"note", source.note}});
  const UsedFigures counted = used_figures(materials);
  return printed({{"used_figures",
                   {{"seen", counted.seen},
                    {"secondary", counted.secondary},
                    {"memory", counted.memory},
                    {"judged", counted.judged},
                    {"own", counted.own},
                    {"ranges_not_read", counted.ranges_not_read}}},
                  {"sources", std::move(list)}});
}

std::string json_of_check(const std::vector<CheckedFeedstock>& checked) {
  const auto number = [](const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); };
  Json list = Json::array();
  for (const CheckedFeedstock& row : checked) {
    Json values = Json::array();
    for (const CheckedValue& value : row.values)
      values.push_back({{"property", value.key},
                        {"value", value.value},
                        {"low", number(value.low)},
                        {"high", number(value.high)},
                        {"source", value.whose},
                        {"inside", value.inside ? Json(*value.inside) : Json(nullptr)},
                        {"likely_slip", value.slip ? Json(slip_word(*value.slip)) : Json(nullptr)},
                        {"meant", number(value.meant)}});
    list.push_back(
        {{"id", row.id}, {"like", row.like}, {"values", std::move(values)}, {"impossible", row.impossible}, {"disagree", row.disagree}});
  }
  return printed({{"checked", std::move(list)}});
}

}  // namespace heapwright
