#pragma once
/// What is fuzzed: a reader of texts each, with what is worked out from them.

#include <string>
#include <string_view>
#include <vector>

namespace heapwright::fuzz {

struct Target {
  std::string_view name;
  void (*run)(std::string_view text);
  std::size_t longest;  ///< bytes of an input: what is longer is more of the same, and slower
  bool by_lines;        ///< whether whole lines are worth moving about, as in files
};

// A file each.
void read_amounts(std::string_view text);
void read_typed(std::string_view text);
void answer_yard(std::string_view text);
void forecast_yard(std::string_view text);
void read_own_tables(std::string_view text);
void read_log(std::string_view text);
void rate_report(std::string_view text);
void read_climate_days(std::string_view text);
void be_interviewed(std::string_view text);
void read_class(std::string_view text);
void read_map(std::string_view text);

inline const std::vector<Target>& targets() {
  static const std::vector<Target> all{
      {"amounts", read_amounts, 96, false},         // whoever types more types no amount
      {"typed", read_typed, 160, false},            // a sentence or two
      {"yard", answer_yard, 4096, true},            // twice the longest example: more is the same again
      {"forecast", forecast_yard, 4096, true},      // likewise
      {"materials", read_own_tables, 4096, true},   // a few rows
      {"readings", read_log, 1024, true},           // some weeks
      {"maturity", rate_report, 256, true},         // half a report
      {"climate", read_climate_days, 16384, true},  // a year and a day, with rain
      {"interview", be_interviewed, 256, true},     // all answers, short
      {"roster", read_class, 1024, true},           // some households
      {"map", read_map, 2048, false},               // a lawn with a hole
  };
  return all;
}

inline const Target* target_named(std::string_view name) {
  for (const Target& target : targets()) {
    if (target.name == name) return &target;
  }
  return nullptr;
}

}  // namespace heapwright::fuzz
