#pragma once
/// What was seen, felt and measured of a pile: symptoms, readings, tests. Read and kept with their dates.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "heapwright/materials/caution.hpp"
#include "heapwright/materials/lazy.hpp"
#include "heapwright/maturity/criteria.hpp"
#include "heapwright/maturity/report_line.hpp"
#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

class Table;

/// A sign that somebody saw or smelled.
struct Noticed {
  std::string symptom;
  std::optional<Date> date;
};

/// How a hand feels it.
enum class HandWarmth { hot, warm, cold };

/// A thermometer's reading, or a hand's.
struct CoreReading {
  std::optional<Date> date;
  std::variant<TemperaturePoint, HandWarmth> core;
};

/// A laboratory or kit test.
struct MaturityTest {
  std::string test;  ///< id of a TestCriterion
  TestValue value;
  std::string written;  ///< the value as it was written
  std::optional<Date> date;
  std::optional<Bound::Side> told{};  ///< the side of the value that it lies on, where no more is told
};

/// A check that was done.
struct HouseholdCheck {
  std::string check;  ///< id of a CheckCriterion
  bool passed = false;
  std::optional<Date> date;
};

/// All that was.
struct Observations {
  std::vector<Noticed> noticed;
  std::vector<CoreReading> readings;
  std::vector<MaturityTest> tests;
  std::vector<HouseholdCheck> checks;
  std::vector<ReportedLine> report_lines{};  ///< of laboratories' reports, that rate nothing
  // Of before the day that the pile was built: of another pile, or a date is wrong. Nothing reckons with them.
  std::vector<CoreReading> readings_before_built{};
  std::vector<Noticed> noticed_before_built{};
};

/// From here on a pile scalds and dries (140 °F, judged).
inline const TemperaturePoint scalding = TemperaturePoint::from_fahrenheit(140.0);

/// Whether a reading is at or above a temperature. What is hot by hand is above any.
bool at_or_above(TemperaturePoint bound, const CoreReading& reading);

/// The id of a symptom, or smoke. @throws TextError
std::string read_noticed(const std::vector<Symptom>& symptoms, std::string_view text);
/// As read_noticed(), each of several where every part of a sentence tells of one.
std::vector<std::string> read_all_noticed(const std::vector<Symptom>& symptoms, std::string_view text);

/// Smoke or fire: no symptom to look up, but a caution that cannot wait.
bool is_smoke(const Noticed& noticed);

/// The facts of what was seen that call for cautions: readings, a hot pile (at or above `scalding`, or by hand), smoke.
Facts facts_of(const Observations& seen);

/// "self-heating" and "12 degC", or a bound: "<12 degC". @throws TextError with the nearest test, or the units that the test takes
MaturityTest read_maturity_test(const Criteria& criteria, std::string_view test, std::string_view value);
/// What a name in a laboratory's report means: a test, a line that rates nothing, or neither, which is kept too.
struct NamedLine {
  std::string name;  ///< as written
  const TestCriterion* test = nullptr;
  const ReportLine* line = nullptr;
};
/// @throws TextError for a name that is nearer to a test than to any line: it may be one misspelt
NamedLine named_line(const Criteria& criteria, const ReportLines& lines, std::string_view name);
using LineOfReport = std::variant<MaturityTest, ReportedLine>;
/// A test with its figure, or what is kept as it is written: a line that rates nothing, a test with words in place of a figure.
/// @throws TextError for what is no number ("nan", "inf"), and for a test's value that cannot be read
LineOfReport line_of_report(const NamedLine& named, const ReportLines& lines, std::string_view value);
/// Keeps it among what was seen.
void keep(Observations& seen, LineOfReport line);

/// "no-reheat" and "passed". @throws TextError
HouseholdCheck read_household_check(const Criteria& criteria, std::string_view check, std::string_view result);

/// Reads [[noticed]], [[reading]], [[maturity.test]], which is any line of a laboratory's report, and [[maturity.check]].
/// @param built the day the pile was, where it is known. Smoke that was noticed before it counts all the same.
Observations read_observations(Table& root, std::optional<Date> built, const Lazy<Criteria>& criteria,
                               const Lazy<ReportLines>& report_lines, const Lazy<std::vector<Symptom>>& symptoms);

}  // namespace heapwright
