#include "heapwright/units/temperature.hpp"

#include <catch2/catch.hpp>

#include <tuple>

using namespace heapwright;

namespace {
// A temperature near 300 K carries a rounding of 6e-14 K; a few of them.
const double rounding = 3e-13;
auto close_to(double value) { return Catch::WithinAbs(value, rounding); }
}  // namespace

TEST_CASE("the three scales agree at known points", "[temperature]") {
  const auto [what, celsius, fahrenheit, kelvin] = GENERATE(table<const char*, double, double, double>({
      {"absolute zero", -273.15, -459.67, 0.0},
      {"where the scales cross", -40.0, -40.0, 233.15},
      {"Fahrenheit's zero", -160.0 / 9.0, 0.0, 273.15 - 160.0 / 9.0},
      {"ice melts", 0.0, 32.0, 273.15},
      {"a pile hot enough for three days", 55.0, 131.0, 328.15},
      {"water boils", 100.0, 212.0, 373.15},
  }));
  CAPTURE(what);
  for (const TemperaturePoint point :
       {TemperaturePoint::from_celsius(celsius), TemperaturePoint::from_fahrenheit(fahrenheit), TemperaturePoint::from_kelvin(kelvin)}) {
    CHECK_THAT(point.celsius(), close_to(celsius));
    CHECK_THAT(point.fahrenheit(), close_to(fahrenheit));
    CHECK_THAT(point.kelvin(), close_to(kelvin));
  }
}

TEST_CASE("a temperature comes back on the scale it went in by", "[temperature]") {
  const double degrees = GENERATE(take(100, random(-90.0, 200.0)));
  CHECK_THAT(TemperaturePoint::from_celsius(degrees).celsius(), close_to(degrees));
  CHECK_THAT(TemperaturePoint::from_fahrenheit(degrees).fahrenheit(), close_to(degrees));
  CHECK(TemperaturePoint::from_kelvin(degrees).kelvin() == degrees);
}

TEST_CASE("two points have a difference, and a point moves by one", "[temperature]") {
  const TemperaturePoint air = TemperaturePoint::from_fahrenheit(-4.0);
  const TemperaturePoint core = TemperaturePoint::from_fahrenheit(131.0);
  const TemperatureDifference rise = core - air;
  CHECK_THAT(value_in(unit::kelvin, rise), close_to(75.0));
  CHECK_THAT(value_in(unit::kelvin, air - core), close_to(-75.0));
  CHECK_THAT((air + rise).celsius(), close_to(55.0));
  CHECK_THAT((core - rise).celsius(), close_to(-20.0));
}

TEST_CASE("temperatures have an order, below zero too", "[temperature]") {
  const TemperaturePoint frost = TemperaturePoint::from_celsius(-5.0);
  const TemperaturePoint colder = TemperaturePoint::from_celsius(-20.0);
  CHECK(colder < frost);
  CHECK(frost < TemperaturePoint::from_fahrenheit(32.0));
  CHECK(frost == TemperaturePoint::from_celsius(-5.0));
  CHECK(frost != colder);
}
