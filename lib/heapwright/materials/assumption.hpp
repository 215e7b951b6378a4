#pragma once
/// What an answer took for granted, for "I took it as …".

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "heapwright/materials/amount.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// A figure or a word that was taken for granted.
using AssumedValue = std::variant<std::string, MoistureWetBasis, CarbonDryBasis, NitrogenDryBasis, PhosphateDryBasis, PotashDryBasis,
                                  CarbonNitrogenRatio, BulkDensity, Volume, Area, Mass, Length, ContainerCount, ShareOfVolatileSolids,
                                  ShareOfVolume, ShareOfLooseVolume, TemperaturePoint, Date>;

/// The number of an assumed value in SI; a count of containers; nothing of words and dates.
std::optional<double> si_number_of(const AssumedValue& value);

/// What of a supply a figure is of.
enum class Figure {
  none,
  amount,                ///< how much of it there is
  container,             ///< the volume of the container it is counted in
  bulk_density,          ///< as the person counts it
  bulk_density_in_pile,  ///< as it goes into the pile, where that differs
  moisture,
  carbon_to_nitrogen,
  nitrogen,
  carbon,
};

/// "bulk_density", for other programs.
std::string_view figure_word(Figure figure);

/// A figure that an answer rests on, with its range where it has one.
struct Assumption {
  std::string what;
  AssumedValue value;
  std::optional<AssumedValue> low;
  std::optional<AssumedValue> high;
  std::string evidence;  ///< whose figure it is, as it may be shown
  /// By how much the answer moves when this goes from low to high and all else stays; absent where nobody works it out.
  std::optional<double> could_change_answer;
  std::string feedstock{};       ///< the id of the supply it is about, where it is about one
  Figure figure = Figure::none;  ///< and what of it
  std::string which{};           ///< of several such figures: its packing, container, handful or estimate
  std::string in_short{};        ///< whose figure it is, in a few words with its mark: "Heckman 1996, seen"
};

}  // namespace heapwright
