#include "heapwright/process/climate.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "heapwright/input/csv.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::numbers::pi;

TemperaturePoint read_monthly_mean(std::string_view text) {
  const TemperaturePoint mean = read_temperature(text);
  if (!is_a_monthly_mean(mean))
    throw TextError("\"" + std::string(text) + "\" is no month's mean on this earth", "write the mean air temperature: \"30 degF\"");
  return mean;
}

Length read_rain_of_month(std::string_view text) {
  const Length rain = read_length(text);
  const Length most = 2.0 * unit::m;
  if (!(rain >= Length() && rain <= most))
    throw TextError("\"" + std::string(text) + "\" is no month's rain", "write it from 0 to 2 m, which is 78 in: \"3 in\"");
  return rain;
}

/// "3 in" each month, or twelve of them.
MonthlyRain read_rain(Table& table) {
  const std::optional<Value> value = table.find("rain");
  if (!value) return {};
  MonthlyRain rain;
  if (!value->is_list()) {
    if (const auto of_month = value->read(read_rain_of_month)) rain.assign(12, *of_month);
    return rain;
  }
  const std::vector<Value> months = table.list("rain");
  for (const Value& month : months) {
    if (const auto of_month = month.read(read_rain_of_month)) rain.push_back(*of_month);
  }
  if (months.size() != 12)
    table.problem_at("rain", "has " + std::to_string(months.size()) + " months",
                     "write the rain of a month, \"3 in\", or of twelve, January first");
  return rain.size() == 12 ? rain : MonthlyRain();
}

void take_named(Table& table, const Lazy<std::vector<NamedClimate>>& climates, ClimateDescription& climate) {
  const auto named = table.read("like", [&](std::string_view name) { return climate_like(*climates, name); });
  if (!named) return;
  climate.like = named->like;
  climate.coldest_month = named->coldest_month;
  climate.warmest_month = named->warmest_month;
  climate.rain = named->rain;
}

void read_named_climate(Table& table, NamedClimate& climate) {
  climate.name = table.read("name", read_name).value_or(climate.id);
  table.require("coldest_month", "write coldest_month = \"30 degF\"");
  table.require("warmest_month", "write warmest_month = \"76 degF\"");
  climate.coldest_month = table.read("coldest_month", read_monthly_mean).value_or(climate.coldest_month);
  climate.warmest_month = table.read("warmest_month", read_monthly_mean).value_or(climate.warmest_month);
  climate.rain = read_rain(table);
}

void take_two_months(Table& table, ClimateDescription& climate) {
  climate.coldest_month = table.read("coldest_month", read_monthly_mean);
  climate.warmest_month = table.read("warmest_month", read_monthly_mean);
  if (table.has("coldest_month") != table.has("warmest_month"))
    table.problem("gives only one of the coldest and the warmest month",
                  "write both: coldest_month = \"30 degF\", warmest_month = \"76 degF\"");
  if (climate.coldest_month && climate.warmest_month && *climate.coldest_month > *climate.warmest_month)
    table.problem_at("coldest_month", "is warmer than the warmest month", "swap the two");
}

/// The mean of the year and how far its months lie apart: half of that below is the coldest month, half above the warmest.
void take_mean_and_swing(Table& table, ClimateDescription& climate) {
  climate.annual_mean = table.read("annual_mean", read_monthly_mean);
  climate.swing = table.read("swing", read_temperature_difference);
  if (table.has("annual_mean") != table.has("swing"))
    table.problem("gives only one of the year's mean and its swing", "write both: annual_mean = \"53 degF\", swing = \"46 degF\"");
  if (!climate.annual_mean || !climate.swing) return;
  climate.coldest_month = *climate.annual_mean - 0.5 * *climate.swing;
  climate.warmest_month = *climate.annual_mean + 0.5 * *climate.swing;
  if (!is_a_monthly_mean(*climate.coldest_month) || !is_a_monthly_mean(*climate.warmest_month))
    table.problem_at("swing", "makes a month such as there is none on this earth",
                     "write the warmest month's mean less the coldest's: \"46 degF\"");
}

/// The days are read here, so that what is wrong with them is reported with the rest.
void take_days(Table& table, ClimateDescription& climate) {
  const std::optional<std::string> path = table.path("file");
  if (!path) return;
  climate.file = table.text("file").value_or("");
  try {
    Csv csv = Csv::from_file(*path, table.problems());
    climate.days = read_daily_means(csv);
  } catch (const InputError& error) {
    for (const Problem& problem : error.problems()) table.problem_at("file", problem.where.file + ": " + problem.what, problem.hint);
  }
}

void check_one_way(Table& table) {
  int ways = 0;
  for (const char* key : {"mean_air_temperature", "coldest_month", "annual_mean", "like", "file"}) ways += table.has(key) ? 1 : 0;
  if (ways == 0 && !table.has("warmest_month") && !table.has("swing"))
    table.problem("says nothing of the air's temperature",
                  "write coldest_month = \"30 degF\" and warmest_month = \"76 degF\", or like = \"cool\"");
  if (ways > 1)
    table.problem("tells the weather in more than one way",
                  "give twelve means, or two months, or the year's mean and swing, or like, or a file");
}

constexpr std::array<int, 12> days_of_months{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// The months' means of cos(2π (t − 20)/365).
std::array<double, 12> months_of_wave() {
  constexpr double coldest_day = 20.0;
  std::array<double, 12> means{};
  double noon = 1.5;
  for (std::size_t month = 0; month < means.size(); ++month) {
    for (int day = 0; day < days_of_months[month]; ++day, noon += 1.0)
      means[month] += std::cos(2.0 * pi * (noon - coldest_day) / 365.0) / days_of_months[month];
  }
  return means;
}

std::string evidence_of(const ClimateDescription& climate) {
  if (!climate.like.empty()) return "judged by us";
  return climate.annual_mean ? "your year's mean and swing" : "your two months";
}

}  // namespace

bool is_a_monthly_mean(TemperaturePoint mean) {
  return mean >= TemperaturePoint::from_celsius(-60.0) && mean <= TemperaturePoint::from_celsius(50.0);
}

void read_climates(Table& root, std::vector<NamedClimate>& climates) { read_rows(root, "climate", climates, read_named_climate); }

std::vector<NamedClimate> built_in_climates() { return read_built_in("climates.toml", read_climates); }

ClimateDescription climate_like(const std::vector<NamedClimate>& climates, std::string_view name) {
  std::vector<std::string> known;
  for (const NamedClimate& row : climates) {
    if (plain_name(row.id) == plain_name(name) || row.name == name) {
      ClimateDescription climate;
      climate.like = row.name;
      climate.coldest_month = row.coldest_month;
      climate.warmest_month = row.warmest_month;
      climate.rain = row.rain;
      return climate;
    }
    known.push_back(row.id);
  }
  throw TextError("\"" + std::string(name) + "\" is no known climate", hint_for(name, known, known));
}

std::optional<ClimateDescription> read_climate(Table& root, const Lazy<std::vector<NamedClimate>>& climates) {
  std::optional<Table> table = root.table("climate");
  if (!table) return std::nullopt;
  ClimateDescription climate;
  const std::vector<Value> means = table->list("mean_air_temperature");
  for (const Value& value : means) {
    if (const auto mean = value.read(read_monthly_mean)) climate.monthly_means.push_back(*mean);
  }
  if (!means.empty() && means.size() != 12)
    table->problem_at("mean_air_temperature", "has " + std::to_string(means.size()) + " temperatures",
                      "write twelve monthly means, January first");
  take_two_months(*table, climate);
  take_mean_and_swing(*table, climate);
  take_named(*table, climates, climate);
  take_days(*table, climate);
  climate.rain_is_own = table->has("rain");
  if (climate.rain_is_own) climate.rain = read_rain(*table);
  check_one_way(*table);
  table->finish();
  return climate;
}

std::optional<MonthlyMeans> monthly_means(const ClimateDescription& climate) {
  if (!climate.monthly_means.empty()) return climate.monthly_means;
  if (!climate.coldest_month || !climate.warmest_month) return std::nullopt;
  const TemperatureDifference swing = *climate.warmest_month - *climate.coldest_month;
  const std::array<double, 12> waves = months_of_wave();
  MonthlyMeans means;
  for (const double wave : waves) means.push_back(*climate.coldest_month + (waves[0] - wave) / (waves[0] - waves[6]) * swing);
  return means;
}

MonthlyRain monthly_rain(const ClimateDescription& climate) {
  if (!climate.rain.empty() || climate.days.empty() || !climate.days.front().rain) return climate.rain;
  std::array<Length, 12> sums{};
  std::array<int, 12> days{};
  for (const DailyMean& day : climate.days) {
    const std::size_t month = static_cast<unsigned>(day.day.month()) - 1;
    sums[month] += *day.rain;
    ++days[month];
  }
  MonthlyRain rain;
  for (std::size_t month = 0; month < sums.size(); ++month)
    rain.push_back(static_cast<double>(days_of_months[month]) / days[month] * sums[month]);
  return rain;
}

std::optional<Assumption> assumption_of(const ClimateDescription& climate) {
  const bool measured = !climate.monthly_means.empty() || !climate.days.empty();
  if (measured || !climate.coldest_month || !climate.warmest_month) return std::nullopt;
  Assumption assumption;
  assumption.what = climate.like.empty() ? "weather" : "weather, " + climate.like;
  assumption.value = std::string("a smooth year");
  assumption.low = *climate.coldest_month;
  assumption.high = *climate.warmest_month;
  assumption.evidence = evidence_of(climate);
  return assumption;
}

}  // namespace heapwright
