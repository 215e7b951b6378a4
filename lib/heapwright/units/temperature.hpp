#pragma once
/// Temperature points, kept apart from temperature differences.

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// The scales that people read thermometers in.
enum class TemperatureScale { celsius, fahrenheit };

/// A temperature on the thermometer. Two of them have a difference but no sum; Celsius and Fahrenheit exist at the edges only.
class TemperaturePoint {
 public:
  /// Degrees of a scale: K = °C + 273.15, °C = (°F − 32)/1.8. By definition; no range is checked.
  static TemperaturePoint from_kelvin(double value) { return TemperaturePoint(value); }
  static TemperaturePoint from_celsius(double value) { return TemperaturePoint(value + ice_point); }
  static TemperaturePoint from_fahrenheit(double value) { return TemperaturePoint((value - 32.0) / 1.8 + ice_point); }
  static TemperaturePoint on(TemperatureScale scale, double value) {
    return scale == TemperatureScale::celsius ? from_celsius(value) : from_fahrenheit(value);
  }

  /// The same way back.
  double kelvin() const { return kelvin_; }
  double celsius() const { return kelvin_ - ice_point; }
  double fahrenheit() const { return celsius() * 1.8 + 32.0; }

  /// Points have a difference, and a difference is added to a point; points do not add.
  friend TemperatureDifference operator-(TemperaturePoint a, TemperaturePoint b) { return (a.kelvin_ - b.kelvin_) * unit::kelvin; }
  friend TemperaturePoint operator+(TemperaturePoint a, TemperatureDifference d) { return TemperaturePoint(a.kelvin_ + d.value()); }
  friend TemperaturePoint operator-(TemperaturePoint a, TemperatureDifference d) { return TemperaturePoint(a.kelvin_ - d.value()); }
  friend auto operator<=>(const TemperaturePoint&, const TemperaturePoint&) = default;

 private:
  explicit TemperaturePoint(double kelvin) : kelvin_(kelvin) {}
  static constexpr double ice_point = 273.15;
  double kelvin_;
};

}  // namespace heapwright
