#pragma once
/// Logs to try the rules on.

#include <string>

#include "heapwright/input/csv.hpp"
#include "heapwright/maturity/log.hpp"

namespace heapwright::logs {

/// The log of a text. @throws InputError
inline TemperatureLog log_of(const std::string& text) {
  Problems problems;
  Csv csv(text, "log.csv", problems);
  TemperatureLog log = read_temperature_log(csv);
  problems.throw_if_any();
  return log;
}

}  // namespace heapwright::logs
