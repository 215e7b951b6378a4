#include "heapwright/maturity/log.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/input/columns.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/input/words.hpp"
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
  std::size_t time;
  std::vector<Thermometer> probes;
  bool of_the_air = false;  // whether one is there, which is passed over
  std::optional<std::size_t> event;
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
  return begins_so || has_word(name, {"core", "middle", "edge", "probe", "air", "ambient"});
}

void take_thermometers(Csv& csv, Columns& columns) {
  bool lacks_unit = false;
  for (std::size_t column = 0; column < csv.header().size(); ++column) {
    const std::string& name = csv.header()[column];
    const std::optional<TemperatureScale> scale = scale_at_end(name);
    if (!scale) {
      if (column == columns.time || column == columns.event || !sounds_like_temperature(name)) continue;
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

std::optional<Columns> columns_of(Csv& csv) {
  if (!has_names(is_time, csv, names_wanted)) return std::nullopt;
  const std::optional<std::size_t> time = column_called("time", csv, names_wanted);
  if (!time) return std::nullopt;
  Columns columns{*time, {}, false, {}};
  const auto events = columns_that([](const std::string& name) { return plain_name(name) == "event"; }, csv);
  if (events.size() > 1) csv.problem_of_column(events[1], "is a second column of that name", "leave one");
  if (!events.empty()) columns.event = events.front();
  take_thermometers(csv, columns);
  check_names(csv, columns);
  return columns.probes.empty() ? std::nullopt : std::optional(columns);
}

bool is_no_reading(std::string_view text) {
  if (text.empty()) return true;
  const std::string plain = plain_name(text);
  return plain == "na" || plain == "nan";
}

std::optional<TemperaturePoint> read_probe(std::string_view text, TemperatureScale scale) {
  if (is_no_reading(text)) return std::nullopt;
  const TemperaturePoint temperature = TemperaturePoint::on(scale, read_number(text));
  if (!is_a_pile_temperature(temperature))
    throw TextError("\"" + std::string(text) + "\" is no temperature of a pile",
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
    return csv.read(at.column, [&](std::string_view text) { return read_probe(text, at.scale); }).value_or(std::nullopt);
  };
  LogRow row{time, false, false, {}};
  row.probes.reserve(columns.probes.size());
  for (const Thermometer& probe : columns.probes) row.probes.push_back(reading(probe));
  if (columns.event) {
    const Events events = csv.read(*columns.event, read_events).value_or(Events{});
    row.turned = events.turned;
    row.watered = events.watered;
  }
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
  for (const Thermometer& probe : columns->probes) log.probes.emplace_back(without_scale(csv.header()[probe.column]));
  log.notes_events = columns->event.has_value();
  log.air_passed_over = columns->of_the_air;
  bool some_reading = false;
  const auto is_given = [&](const Thermometer& probe) { return !is_no_reading(csv.text(probe.column)); };
  while (csv.next()) {
    some_reading = some_reading || std::any_of(columns->probes.begin(), columns->probes.end(), is_given);
    const std::optional<WrittenTime> time = csv.read(columns->time, read_time);
    if (!time) continue;
    LogRow row = read_row(csv, *columns, *time);
    if (!log.rows.empty() && !may_follow(*time, log.rows.back().time, csv, columns->time)) continue;
    log.rows.push_back(std::move(row));
  }
  if (!some_reading && !csv.flawed()) csv.problem_of_file("there is no temperature of the pile in it", "write a row for each reading");
  return log;
}

}  // namespace heapwright
