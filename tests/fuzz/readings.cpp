/// Logs of temperatures, and what they say.

#include "checks.hpp"
#include "heapwright/guide/said_load.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/maturity/log.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/report/json.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

TemperatureLog log_in(std::string_view text) {
  Problems problems;
  Csv csv{std::string(text), "log.csv", problems};
  TemperatureLog log = read_temperature_log(csv);
  problems.throw_if_any();
  return log;
}

void put(TemperatureLog log, std::string_view input) {
  Yard yard;
  yard.tables = tables();
  take_loads_of_log(yard, log);
  const Answer<YardReadings> readings = readings_of(yard, std::move(log), usual_gap, today);
  if (!in_every_form(input)) return;
  const Materials& materials = yard.tables.materials;
  check_answer(json_of_readings(readings, materials), readings_page(readings, materials), Show(ShownUnits::us), input);
}

}  // namespace

void read_log(std::string_view text) {
  std::optional<TemperatureLog> log;
  if (!ends_well([&] { log = log_in(text); })) return;
  if (ends_well([&] { put(std::move(*log), text); })) count_answered();
}

}  // namespace heapwright::fuzz
