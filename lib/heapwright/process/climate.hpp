#pragma once
/// The weather of a yard, as its owner knows it.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/materials/assumption.hpp"
#include "heapwright/materials/lazy.hpp"
#include "heapwright/process/daily_means.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

class Table;

/// Mean air temperatures of the months, January first.
using MonthlyMeans = std::vector<TemperaturePoint>;

/// Rain of the months, January first: twelve, or none where nobody tells.
using MonthlyRain = std::vector<Length>;

/// Whether a temperature can be the mean of a month anywhere: −60 to 50 °C.
bool is_a_monthly_mean(TemperaturePoint mean);

/// A US state that has such winters where most people live, or a part of one that has others. Judged.
struct State {
  std::string name;
  std::vector<std::string> also;
  std::vector<std::string> part_of{};  ///< of a part the state; of one across a border both
  std::vector<std::string> words{};    ///< what tells of the part beside the state's name: "Flagstaff" of Arizona
};

/// A winter by its plain name, of climates.toml. Judged.
struct NamedClimate {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  TemperaturePoint coldest_month = TemperaturePoint::from_celsius(0.0);
  TemperaturePoint warmest_month = TemperaturePoint::from_celsius(0.0);
  MonthlyRain rain;  ///< none where nobody tells
  std::vector<State> states;
};

/// Reads [[climate]] onto a table.
void read_climates(Table& root, std::vector<NamedClimate>& climates);
/// The table that comes with the program.
std::vector<NamedClimate> built_in_climates();

/// One of these ways is used: twelve monthly means; the coldest and warmest month; the mean of the year and its swing or a named winter
/// (whose two months and rain stand here too); or a file of days. Rain given beside it stands above theirs.
struct ClimateDescription {
  MonthlyMeans monthly_means;  ///< twelve or none
  std::optional<TemperaturePoint> coldest_month;
  std::optional<TemperaturePoint> warmest_month;
  std::optional<TemperaturePoint> annual_mean;
  std::optional<TemperatureDifference> swing;  ///< the warmest month's mean less the coldest month's
  std::string like;
  std::string file;  ///< as the yard file names it
  DailyMeans days;   ///< of that file
  MonthlyRain rain;
  bool rain_is_own = false;  ///< as the yard file tells it
};

/// A state that somebody names, and the winter that it has.
struct NamedState {
  const State* state;
  const NamedClimate* climate;
};
/// By its name, with a slip in a long one, or by an abbreviation, wherever it stands: "northern Ohio", "OH", "upstate NY". Of names within
/// each other the longer: "West Virginia". Of a state with a word for a part of it the part: "Flagstaff, AZ". Nothing where none is named,
/// where two are, and where the words may tell of a part that we have no row for (is_apart_from_its_state()).
/// @param said as it was typed: "OR" is a state and "or" is none
std::optional<NamedState> state_named(const std::vector<NamedClimate>& climates, std::string_view said);
/// Whether a text names a state and, in words alone, a part of it that has other winters: "the mountains of Virginia".
bool is_apart_from_its_state(const std::vector<NamedClimate>& climates, std::string_view said);

/// The climate of a winter by its id, its plain name or a US state. @throws TextError with the nearest known one
ClimateDescription climate_like(const std::vector<NamedClimate>& climates, std::string_view name);

/// Reads [climate], and the file of days that it names; nothing where the file has none.
std::optional<ClimateDescription> read_climate(Table& root, const Lazy<std::vector<NamedClimate>>& climates);

/// Twelve means from what is known: as given, or those of a year that is coldest on 20 January and warmest half a year later,
///
///     T(t) = Tm − A cos(2π (t − 20)/365)        t in days, 1.5 at noon on 1 January
///
/// Tm and A so that January's mean is the coldest month's and July's the warmest's. Nothing for a file of days. The cosine is judged; it
/// is for the northern half of the world, the other gives twelve means.
std::optional<MonthlyMeans> monthly_means(const ClimateDescription& climate);

/// The rain of the months: as given, else of the file of days, by the means of its months; none where neither tells.
MonthlyRain monthly_rain(const ClimateDescription& climate);

/// What is taken for granted of the weather; nothing where twelve means or days are given.
std::optional<Assumption> assumption_of(const ClimateDescription& climate);

}  // namespace heapwright
