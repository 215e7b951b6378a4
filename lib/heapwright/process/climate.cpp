#include "heapwright/process/climate.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "heapwright/input/csv.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/materials/called.hpp"
#include "heapwright/materials/read_published_values.hpp"
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

/// @param words for the screen
ClimateDescription described(const NamedClimate& row, std::string words) {
  ClimateDescription climate;
  climate.like = std::move(words);
  climate.coldest_month = row.coldest_month;
  climate.warmest_month = row.warmest_month;
  climate.rain = row.rain;
  return climate;
}

void read_named_climate(Table& table, NamedClimate& climate) {
  climate.name = table.read("name", read_name).value_or(climate.id);
  climate.also = read_names(table, "also");
  table.require("coldest_month", "write coldest_month = \"30 degF\"");
  table.require("warmest_month", "write warmest_month = \"76 degF\"");
  climate.coldest_month = table.read("coldest_month", read_monthly_mean).value_or(climate.coldest_month);
  climate.warmest_month = table.read("warmest_month", read_monthly_mean).value_or(climate.warmest_month);
  climate.rain = read_rain(table);
}

/// A state goes to its climate, from wherever it was.
void read_state(Table& table, std::vector<NamedClimate>& climates) {
  table.require("name", "write name = \"Ohio\"");
  table.require("climate", "write climate = \"cool\"");
  State state{table.text("name").value_or(""), read_names(table, "also"), read_names(table, "part_of"), read_names(table, "words")};
  const auto climate = table.read("climate", [&](std::string_view id) {
    const std::string name(id);
    if (row_with_id(climates, name) != nullptr) return name;
    throw TextError("\"" + name + "\" is no known climate", "write the id of a [[climate]]");
  });
  table.finish();
  if (!climate) return;
  for (NamedClimate& row : climates) {
    std::erase_if(row.states, [&](const State& known) { return known.name == state.name; });
    if (row.id == *climate) row.states.push_back(state);
  }
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// The words of a name with a space at either end: " north carolina ".
std::string in_spaces(std::string_view text) {
  std::string words = " ";
  for (const char c : text) {
    const bool letter = is_letter(c) || (c >= '0' && c <= '9');
    if (letter) words += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (!letter && words.back() != ' ') words += ' ';
  }
  return words.back() == ' ' ? words : words + " ";
}

/// "OH", and in small letters where it stands alone and is no word of its own.
bool is_abbreviation(std::string_view name, std::string_view said) {
  constexpr std::array<std::string_view, 12> words{"or", "in", "me", "hi", "ok", "oh", "la", "ma", "de", "id", "al", "ne"};
  constexpr std::array<std::string_view, 3> capitals{"OK", "LA", "NE"};  // all right, Los Angeles, northeast
  const std::string own = in_spaces(name);
  const std::string whole = in_spaces(said);
  if (whole.find(own) == std::string::npos) return false;
  const bool is_word = std::any_of(words.begin(), words.end(), [&](std::string_view word) { return own == in_spaces(word); });
  const bool unclear = std::any_of(capitals.begin(), capitals.end(), [&](std::string_view word) { return own == in_spaces(word); });
  if (whole == own) return said.find(name) != std::string_view::npos ? !unclear : !is_word;
  const std::size_t comma = said.rfind(',');
  if (comma != std::string_view::npos && in_spaces(said.substr(comma + 1)) == own) return true;
  const bool is_last_word = !is_word && whole.ends_with(own) && said.find_first_of("0123456789") == std::string_view::npos;
  if (is_last_word) return true;                                                                         // "denver co"
  return !unclear && whole.find(own) != std::string::npos && said.find(name) != std::string_view::npos;  // "upstate NY"
}

/// Whether a word of a text is a name of one word with one slip: "Pensylvania".
bool is_nearly_named(std::string_view name, const std::string& words) {
  constexpr std::size_t long_enough = 6;
  if (name.size() < long_enough || name.find(' ') != std::string_view::npos) return false;
  const std::string own = in_spaces(name);
  const std::string_view alone = std::string_view(own).substr(1, own.size() - 2);
  for (std::size_t at = 1; at < words.size();) {
    const std::size_t end = words.find(' ', at);
    const std::string_view word = std::string_view(words).substr(at, end - at);
    const bool may_be = word.size() <= alone.size() + 1 && alone.size() <= word.size() + 1;
    if (may_be && edit_distance(word, alone) <= 1) return true;
    at = end + 1;
  }
  return false;
}

/// The longest of a state's names that a text has; empty where it has none.
/// @param words the text in_spaces()
std::string name_in(const State& state, std::string_view said, const std::string& words) {
  constexpr std::size_t shortest = 3;  // what is shorter is an abbreviation
  std::string longest = words.find(in_spaces(state.name)) != std::string::npos || is_nearly_named(state.name, words) ? state.name : "";
  for (const std::string& name : state.also) {
    const bool named = name.size() >= shortest ? words.find(in_spaces(name)) != std::string::npos : is_abbreviation(name, said);
    if (named && name.size() > longest.size()) longest = name;
  }
  return longest;
}

bool is_part(const State& part, const std::string& state) {
  return std::find(part.part_of.begin(), part.part_of.end(), state) != part.part_of.end();
}

bool has_any_of(const std::string& words, const std::vector<std::string>& phrases) {
  return std::any_of(phrases.begin(), phrases.end(),
                     [&](const std::string& phrase) { return words.find(in_spaces(phrase)) != std::string::npos; });
}

/// The parts of a state that a text has a word of.
std::vector<NamedState> parts_named(const std::vector<NamedClimate>& climates, const std::string& state, const std::string& words) {
  std::vector<NamedState> parts;
  for (const NamedClimate& climate : climates) {
    for (const State& part : climate.states) {
      if (is_part(part, state) && has_any_of(words, part.words)) parts.push_back({&part, &climate});
    }
  }
  return parts;
}

/// Of ground that has other winters than where most people of a state live.
bool tells_of_a_part(std::string_view said) {
  return has_any_of(in_spaces(said), {"mountains", "mtns", "mts", "high country", "highlands", "high elevation", "elevation", "altitude",
                                      "alpine", "desert", "panhandle", "foothills", "rockies"});
}

/// "Not in the mountains of Virginia".
bool denies_a_place(std::string_view said) { return has_any_of(in_spaces(said), {"not", "isnt", "isn t", "outside"}); }

/// As state_named(), before any words for a part of it.
std::optional<NamedState> whole_state_named(const std::vector<NamedClimate>& climates, std::string_view said) {
  if (const std::size_t comma = said.rfind(','); comma != std::string_view::npos) {
    if (const auto state = whole_state_named(climates, said.substr(comma + 1))) return state;  // "Oregon, Ohio"
  }
  const std::string words = in_spaces(said);
  std::vector<std::pair<std::string, NamedState>> found;
  for (const NamedClimate& climate : climates) {
    for (const State& state : climate.states) {
      if (const std::string name = name_in(state, said, words); !name.empty()) found.push_back({in_spaces(name), {&state, &climate}});
    }
  }
  const auto is_in_a_longer = [&](const std::pair<std::string, NamedState>& one) {
    return std::any_of(found.begin(), found.end(), [&](const auto& other) {
      const bool is_longer = other.first.size() > one.first.size() && other.first.find(one.first) != std::string::npos;
      return is_longer || is_part(*other.second.state, one.second.state->name);
    });
  };
  std::vector<NamedState> named;
  for (const auto& one : found) {
    if (!is_in_a_longer(one)) named.push_back(one.second);
  }
  return named.size() == 1 ? std::optional(named.front()) : std::nullopt;
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
    for (const Problem& problem : error.problems()) {
      if (problem.where.line > 0) {
        table.problems().add(problem);
      } else {
        table.problem_at("file", problem.where.file + ": " + problem.what, problem.hint);
      }
    }
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

void read_climates(Table& root, std::vector<NamedClimate>& climates) {
  read_rows(root, "climate", climates, read_named_climate);
  for (Table& table : root.tables("state")) read_state(table, climates);
}

std::vector<NamedClimate> built_in_climates() { return read_built_in("climates.toml", read_climates); }

std::optional<NamedState> state_named(const std::vector<NamedClimate>& climates, std::string_view said) {
  const std::optional<NamedState> state = whole_state_named(climates, said);
  if (!state || !state->state->part_of.empty()) return state;
  const std::vector<NamedState> parts = parts_named(climates, state->state->name, in_spaces(said));
  if (parts.empty()) return tells_of_a_part(said) ? std::nullopt : state;
  const bool one_climate =
      std::all_of(parts.begin(), parts.end(), [&](const NamedState& part) { return part.climate == parts[0].climate; });
  return one_climate && !denies_a_place(said) ? std::optional(parts.front()) : std::nullopt;
}

bool is_apart_from_its_state(const std::vector<NamedClimate>& climates, std::string_view said) {
  return whole_state_named(climates, said) && !state_named(climates, said);
}

ClimateDescription climate_like(const std::vector<NamedClimate>& climates, std::string_view name) {
  std::vector<std::string> known;
  const std::string plain = plain_name(name);
  for (const NamedClimate& row : climates) {
    if (is_called(row, plain)) return described(row, row.name);
    known.push_back(row.id);
  }
  if (const auto found = state_named(climates, name)) return described(*found->climate, found->state->name + ": " + found->climate->name);
  throw TextError("\"" + std::string(name) + "\" is no known climate and no US state", hint_for(name, known, known));
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
