#pragma once
/// Temperature logs: what thermometers in a pile showed, and when it was turned and watered.

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/time/written_time.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

class Csv;
enum class DayOrder;

/// What went into the pile, as somebody wrote it, and where.
struct AddedText {
  std::string words;  ///< "2 buckets leaves; 1 gal water"
  std::string column;
  Position where;
};

/// All thermometers at a time, and what was done then.
struct LogRow {
  WrittenTime time;
  bool turned = false;
  bool watered = false;
  std::vector<std::optional<TemperaturePoint>> probes;  ///< as many as the log has; nothing where one showed nothing
  std::optional<AddedText> added{};
};

/// Row after row, each later than the one before; all times have an offset from UTC, or none has.
struct TemperatureLog {
  std::vector<std::string> probes;  ///< their names; one or more
  bool notes_events = false;        ///< whether it says when the pile was turned, should it have been
  bool air_passed_over = false;     ///< whether it has a column of the air, which is none of the pile
  std::vector<LogRow> rows;
  std::vector<TemperatureScale> scales{};  ///< of each thermometer, by the name of its column; none where no column names one
  /// How dates of three numbers are taken, of a file that has some, and a date of it that can be no other.
  struct DatesTaken {
    DayOrder order;
    std::string written;
  };
  std::optional<DatesTaken> dates_taken{};
};

/// Whether a temperature can be one of a pile or of the air: −60 to 120 °C.
bool is_a_pile_temperature(TemperaturePoint temperature);

/// Reads a column of times or dates (time, date, day, date and time, datetime or timestamp; a date and a time of day in two columns as
/// well), columns of temperatures whose names end in their unit ("core degF", "Center (°C)", "core_temp_f"), those of the air passed over
/// ("air degF"), and a column `event` where there is one ("turned", "watered", "turned and watered"); one `added` of
/// what went in, which is kept as written. Times are those of read_time(), with
/// a clock of twelve hours too; dates like 11/7/2026 are read where all of the file can be in one order only. is_no_reading() is none.
/// Other columns are passed over. All that is wrong becomes problems of the file: times out of order or twice as well.
TemperatureLog read_temperature_log(Csv& csv);

}  // namespace heapwright
