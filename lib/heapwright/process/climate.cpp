#include "heapwright/process/climate.hpp"

#include "heapwright/units/text.hpp"

namespace heapwright {

std::optional<ClimateDescription> read_climate(Table& root) {
  std::optional<Table> table = root.table("climate");
  if (!table) return std::nullopt;
  ClimateDescription climate;
  const std::vector<Value> means = table->list("mean_air_temperature");
  for (const Value& value : means) {
    if (const auto mean = value.read(read_temperature)) climate.monthly_means.push_back(*mean);
  }
  if (!means.empty() && means.size() != 12)
    table->problem_at("mean_air_temperature", "has " + std::to_string(means.size()) + " temperatures",
                      "write twelve monthly means, January first");
  climate.coldest_month = table->read("coldest_month", read_temperature);
  climate.warmest_month = table->read("warmest_month", read_temperature);
  if (table->has("coldest_month") != table->has("warmest_month"))
    table->problem("gives only one of the coldest and the warmest month",
                   "write both: coldest_month = \"30 degF\", warmest_month = \"76 degF\"");
  if (climate.coldest_month && climate.warmest_month && *climate.coldest_month > *climate.warmest_month)
    table->problem_at("coldest_month", "is warmer than the warmest month", "swap the two");
  climate.like = table->text("like").value_or("");
  climate.file = table->text("file").value_or("");
  table->finish();
  return climate;
}

}  // namespace heapwright
