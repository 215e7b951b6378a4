#include "heapwright/maturity/log.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/input/columns.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/input/no_reading.hpp"
#include "heapwright/input/words.hpp"
#include "heapwright/time/numeric_date.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr const char* names_wanted = "write the columns' names in the first row: time,core degF,event";
constexpr const char* events_wanted = "write turned, watered, or turned and watered; nothing where nothing was done";

struct Thermometer {
  std::size_t column;
  TemperatureScale scale;
};

struct Columns {
  std::size_t time;                  ///< of the whole time, or of the day
  std::optional<std::size_t> clock;  ///< of the time of day, where it stands beside its day
  std::vector<Thermometer> probes;
  bool of_the_air = false;  // whether one is there, which is passed over
  std::optional<std::size_t> event;
  std::optional<std::size_t> added;
};

/// Whether a word of a name is one of these.
bool has_word(const std::string& name, std::initializer_list<std::string_view> known) {
  const std::vector<std::string> words = words_of(name);
  return std::any_of(words.begin(), words.end(),
                     [&](const std::string& word) { return std::find(known.begin(), known.end(), word) != known.end(); });
}

bool is_of_the_air(const std::string& name) { return has_word(name, {"air", "ambient", "outdoor", "weather"}); }

/// Whether temperatures seem to be meant, though the unit is lacking.
bool sounds_like_temperature(const std::string& name) {
  const std::vector<std::string> words = words_of(name);
  const bool begins_so = std::any_of(words.begin(), words.end(), [](const std::string& word) { return word.starts_with("temp"); });
  return begins_so || has_word(name, {"core", "middle", "center", "centre", "inside", "side", "edge", "top", "bottom", "surface", "probe",
                                      "thermometer", "air", "ambient"});
}

void take_thermometers(Csv& csv, Columns& columns) {
  bool lacks_unit = false;
  for (std::size_t column = 0; column < csv.header().size(); ++column) {
    const std::string& name = csv.header()[column];
    const std::optional<TemperatureScale> scale = scale_at_end(name);
    if (!scale) {
      const bool is_other = column == columns.time || column == columns.clock || column == columns.event;
      if (is_other || !sounds_like_temperature(name)) continue;
      lacks_unit = true;
      csv.problem_of_column(column, "does not say its unit", "end the name in it: \"" + name + " degF\" or \"" + name + " degC\"");
    } else if (has_word(name, {"outside"})) {
      csv.problem_of_column(column, "may be the pile's outside or the air's", "name it edge or air: \"edge degF\"");
    } else if (is_of_the_air(name)) {
      columns.of_the_air = true;
    } else {
      columns.probes.push_back({column, *scale});
    }
  }
  if (columns.probes.empty() && !lacks_unit && !csv.flawed())
    csv.problem_of_header("no column has temperatures of the pile, by a name that ends in their unit", names_wanted);
}

void check_names(Csv& csv, const Columns& columns) {
  for (std::size_t later = 0; later < columns.probes.size(); ++later) {
    for (std::size_t before = 0; before < later; ++before) {
      if (csv.header()[columns.probes[later].column] != csv.header()[columns.probes[before].column]) continue;
      csv.problem_of_column(columns.probes[later].column, "is a second column of that name", "give each thermometer a name of its own");
    }
  }
}

// --- times ---

bool is_name_of_days(const std::string& name) {
  const std::string plain = plain_name(name);
  return plain == "date" || plain == "day";
}
bool is_name_of_clocks(const std::string& name) { return plain_name(name) == "time"; }
bool is_name_of_moments(const std::string& name) {
  const std::string plain = plain_name(name);
  return plain == "datetime" || plain == "date/time" || plain == "dateandtime" || plain == "timestamp";
}
bool is_name_of_times(const std::string& name) { return is_name_of_days(name) || is_name_of_clocks(name) || is_name_of_moments(name); }

/// The columns of the times: one, or a day and its time of day side by side.
std::optional<Columns> time_columns(Csv& csv) {
  const std::vector<std::size_t> times = columns_that(is_name_of_times, csv);
  if (times.empty()) csv.problem_of_header("no column is named \"time\" or \"date\"", names_wanted);
  if (times.empty()) return std::nullopt;
  if (times.size() == 1) return Columns{times.front(), {}, {}, false, {}, {}};
  const std::vector<std::size_t> days = columns_that(is_name_of_days, csv);
  const std::vector<std::size_t> clocks = columns_that(is_name_of_clocks, csv);
  if (times.size() == 2 && days.size() == 1 && clocks.size() == 1) return Columns{days.front(), clocks.front(), {}, false, {}, {}};
  const bool alike = plain_name(csv.header()[times[0]]) == plain_name(csv.header()[times[1]]);
  csv.problem_of_column(
      times[1], alike ? "is a second column of that name" : "is a second column of times, beside \"" + csv.header()[times[0]] + "\"",
      "leave one; of a day and a time of day side by side, name one date and the other time");
  return std::nullopt;
}

/// The day that a field begins with, before a space.
std::string_view day_in(std::string_view text) { return text.substr(0, text.find(' ')); }

bool is_day(std::string_view text) { return is_date(text) || numeric_date(text); }

bool begins_like_a_row(std::string_view text) { return is_time(text) || is_day(day_in(text)); }

Date read_day(std::string_view text, std::optional<DayOrder> order) {
  return numeric_date(text) ? read_numeric_date(text, order) : read_date(text);
}

WrittenTime at(Date day, std::string_view clock) {
  const std::chrono::seconds noon = std::chrono::hours(12);
  return {std::chrono::sys_days(day) + (clock.find_first_not_of(' ') == std::string_view::npos ? noon : read_clock(clock)), std::nullopt};
}

WrittenTime read_moment(std::string_view text, std::optional<DayOrder> order) {
  const std::string_view day = day_in(text);
  if (is_time(text) || !is_day(day)) return read_time(text);
  return at(read_day(day, order), text.substr(day.size()));
}

/// Reads the times of a file, whose dates were looked at before.
class Times {
 public:
  Times(Csv& csv, const Columns& columns) : csv_(csv), columns_(columns) {
    csv.look_ahead(columns.time, [&](std::string_view text) { dates_.take(day_in(text)); });
    order_ = dates_.order();
  }

  std::optional<TemperatureLog::DatesTaken> taken() const {
    return order_ ? std::optional(TemperatureLog::DatesTaken{*order_, dates_.told_by()}) : std::nullopt;
  }

  /// Of a row. That the order of the dates is not known is told once.
  std::optional<WrittenTime> read() {
    const bool undecided = !order_ && numeric_date(day_in(csv_.text(columns_.time)));
    if (undecided && told_) return std::nullopt;
    std::optional<WrittenTime> time;
    if (columns_.clock) {
      const auto day = csv_.read(columns_.time, [&](std::string_view text) { return read_day(text, order_); });
      if (day) time = csv_.read(*columns_.clock, [&](std::string_view text) { return at(*day, text); });
      told_ = told_ || (undecided && !day);
    } else {
      time = csv_.read(columns_.time, [&](std::string_view text) { return read_moment(text, order_); });
      told_ = told_ || (undecided && !time);
    }
    return time;
  }

 private:
  Csv& csv_;
  const Columns& columns_;
  OrderOfDates dates_;
  std::optional<DayOrder> order_;
  bool told_ = false;
};

/// The column of a name, where there is one.
std::optional<std::size_t> single_column(Csv& csv, std::string_view called) {
  const auto found = columns_that([&](const std::string& name) { return plain_name(name) == called; }, csv);
  if (found.size() > 1) csv.problem_of_column(found[1], "is a second column of that name", "leave one");
  return found.empty() ? std::nullopt : std::optional(found.front());
}

std::optional<Columns> columns_of(Csv& csv) {
  if (!has_names(begins_like_a_row, csv, names_wanted)) return std::nullopt;
  std::optional<Columns> columns = time_columns(csv);
  if (!columns) return std::nullopt;
  columns->event = single_column(csv, "event");
  columns->added = single_column(csv, "added");
  take_thermometers(csv, *columns);
  check_names(csv, *columns);
  return columns->probes.empty() ? std::nullopt : columns;
}

// --- readings ---

/// What a column in the other scale would be called for.
std::string in_the_other_scale(double number, TemperatureScale scale) {
  constexpr double hottest_fahrenheit = 200.0;
  if (scale != TemperatureScale::celsius || !(number <= hottest_fahrenheit)) return {};
  return "if the column is in degrees Fahrenheit, end its name in degF; ";
}

/// What a hand feels has another place than a thermometer's columns.
void refuse_hand(std::string_view text) {
  const std::string plain = plain_name(text);
  if (plain != "hot" && plain != "warm" && plain != "cold" && plain != "cool") return;
  throw TextError("\"" + std::string(text) + "\" is no number of degrees",
                  "leave the field empty, and write what a hand feels in the yard file: [[reading]] with date and core = \"hot\", \"warm\" "
                  "or \"cold\"");
}

std::optional<TemperaturePoint> read_probe(std::string_view text, TemperatureScale scale) {
  if (is_no_reading(text)) return std::nullopt;
  refuse_infinite(text);
  refuse_hand(text);
  const double number = read_number(text);
  const TemperaturePoint temperature = TemperaturePoint::on(scale, number);
  if (!is_a_pile_temperature(temperature))
    throw TextError("\"" + std::string(text) + "\" is no temperature of a pile",
                    in_the_other_scale(number, scale) +
                        "leave the field empty where a thermometer failed; from -60 to 120 degC, or -76 to 248 degF, is read");
  return temperature;
}

struct Events {
  bool turned = false;
  bool watered = false;
};

Events read_events(std::string_view text) {
  const std::string plain = plain_name(text);
  if (plain.empty()) return {};
  if (plain == "turned") return {true, false};
  if (plain == "watered") return {false, true};
  for (const std::string_view between : {"and", ",", "/", "+", "&", ";"}) {
    const std::string joint(between);
    if (plain == "turned" + joint + "watered" || plain == "watered" + joint + "turned") return {true, true};
  }
  throw TextError("\"" + std::string(text) + "\" is no event that a log tells", events_wanted);
}

/// Whether a row may follow another; else a problem says why not.
bool may_follow(const WrittenTime& time, const WrittenTime& before, Csv& csv, std::size_t column) {
  if (time.offset.has_value() != before.offset.has_value()) {
    csv.problem(column,
                time.offset ? "says its offset from UTC where those above do not" : "does not say its offset from UTC as those above do",
                "give every time an offset, or none");
    return false;
  }
  if (time.at() > before.at()) return true;
  const bool twice = time.at() == before.at();
  csv.problem(column, print_time(time) + (twice ? " stands twice" : " stands after " + print_time(before)),
              time.offset ? "give each time once, in their order"
                          : "give each time once, in their order; where clocks were put back, with the offset: 2026-11-01T01:30-05:00");
  return false;
}

LogRow read_row(Csv& csv, const Columns& columns, WrittenTime time) {
  const auto reading = [&](const Thermometer& at) {
    const auto read_it = [&](std::string_view text) { return read_probe(csv.with_decimal_point(text), at.scale); };
    return csv.read(at.column, read_it).value_or(std::nullopt);
  };
  LogRow row{time, false, false, {}};
  row.probes.reserve(columns.probes.size());
  for (const Thermometer& probe : columns.probes) row.probes.push_back(reading(probe));
  if (columns.event) {
    const Events events = csv.read(*columns.event, read_events).value_or(Events{});
    row.turned = events.turned;
    row.watered = events.watered;
  }
  if (columns.added && !is_no_reading(csv.text(*columns.added)))
    row.added = AddedText{std::string(csv.text(*columns.added)), csv.header()[*columns.added], csv.position(*columns.added)};
  return row;
}

}  // namespace

bool is_a_pile_temperature(TemperaturePoint temperature) {
  return temperature >= TemperaturePoint::from_celsius(-60.0) && temperature <= TemperaturePoint::from_celsius(120.0);
}

TemperatureLog read_temperature_log(Csv& csv) {
  TemperatureLog log;
  const std::optional<Columns> columns = columns_of(csv);
  if (!columns) return log;
  for (const Thermometer& probe : columns->probes) {
    log.probes.emplace_back(without_scale(csv.header()[probe.column]));
    log.scales.push_back(probe.scale);
  }
  log.notes_events = columns->event.has_value();
  log.air_passed_over = columns->of_the_air;
  bool some_reading = false;
  const auto is_given = [&](const Thermometer& probe) { return !is_no_reading(csv.text(probe.column)); };
  Times times(csv, *columns);
  log.dates_taken = times.taken();
  while (csv.next()) {
    some_reading = some_reading || std::any_of(columns->probes.begin(), columns->probes.end(), is_given);
    const std::optional<WrittenTime> time = times.read();
    if (!time) continue;
    LogRow row = read_row(csv, *columns, *time);
    if (!log.rows.empty() && !may_follow(*time, log.rows.back().time, csv, columns->time)) continue;
    log.rows.push_back(std::move(row));
  }
  if (!some_reading && !csv.flawed()) csv.problem_of_file("there is no temperature of the pile in it", "write a row for each reading");
  return log;
}

}  // namespace heapwright
