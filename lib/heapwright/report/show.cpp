#include "heapwright/report/show.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr int figures = 2;  // of a published table two figures mean something

double in(Dimension dimension, std::string_view symbol, double si) { return si / unit_size(dimension, symbol); }

std::string number(double value) { return print_number(value, figures); }

/// Half a cubic yard and more is spoken of in cubic yards.
bool is_large(Volume value) { return value.value() >= 0.5 * unit_size(Dimension::volume, "yd3") * (1.0 - 1e-9); }

struct VolumeUnit {
  double size;
  std::string_view name;
};

VolumeUnit us_unit(Volume value) {
  if (is_large(value)) return {unit_size(Dimension::volume, "yd3"), " cu yd"};
  return {unit_size(Dimension::volume, "ft3"), " cu ft"};
}

VolumeUnit si_unit(Volume value) {
  if (value.value() >= 0.5) return {1.0, " m3"};
  return {0.001, " L"};
}

std::string scaled(double value, const VolumeUnit& unit) { return number(value / unit.size) + std::string(unit.name); }

/// "1/4 in" where a depth is a round number of eighths, as a rule reads.
std::string inches(double value) {
  static constexpr std::array<const char*, 8> eighths{"", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"};
  const double count = std::round(value * 8.0);
  if (std::abs(value * 8.0 - count) > 1e-6 || count < 1.0 || count > 96.0) return number(value) + " in";
  const auto whole = static_cast<int>(count) / 8;
  const std::string part = eighths.at(static_cast<std::size_t>(count) % 8);
  if (whole == 0) return part + " in";
  return std::to_string(whole) + (part.empty() ? "" : " " + part) + " in";
}

/// Less than a pound, or than half a kilogram, is weighed on a kitchen scale.
std::string pounds(double value) {
  const double in_pounds = in(Dimension::mass, "lb", value);
  return in_pounds > 0.0 && in_pounds < 1.0 ? number(in(Dimension::mass, "oz", value)) + " oz" : number(in_pounds) + " lb";
}

std::string kilograms(double value) { return value > 0.0 && value < 0.5 ? number(1000.0 * value) + " g" : number(value) + " kg"; }

double pounds_per_cubic_yard(BulkDensity value) {
  return value.value() * unit_size(Dimension::volume, "yd3") / unit_size(Dimension::mass, "lb");
}

}  // namespace

std::string plural(const std::string& name) {
  if (name.ends_with("ch") || name.ends_with("x") || name.ends_with("s")) return name + "es";
  return name + "s";
}

std::string Show::both(std::string us, std::string si) const {
  if (units_ == ShownUnits::us) return us;
  if (units_ == ShownUnits::si) return si;
  return us + " (" + si + ")";
}

std::string Show::volume(Volume value) const { return both(scaled(value.value(), us_unit(value)), scaled(value.value(), si_unit(value))); }

std::string Show::capacity(Volume value) const {
  if (is_large(value)) return volume(value);
  const double gallons = in(Dimension::volume, "gal", value.value());
  return both(print_number(gallons, 3) + (print_number(gallons, 3) == "1" ? " gallon" : " gallons"),
              print_number(1000.0 * value.value(), 3) + " L");
}

std::string Show::capacity_range(Volume low, Volume high) const {
  if (is_large(high)) return volume_range(low, high);
  const auto gallons = [](Volume value) { return number(in(Dimension::volume, "gal", value.value())); };
  return both(gallons(low) + " to " + gallons(high) + " gallons",
              number(1000.0 * low.value()) + " to " + number(1000.0 * high.value()) + " L");
}

std::string Show::volume_range(Volume low, Volume high) const {
  const auto range = [&](const VolumeUnit& unit) { return number(low.value() / unit.size) + " to " + scaled(high.value(), unit); };
  return both(range(us_unit(high)), range(si_unit(high)));
}

std::string Show::volume_band(Volume likely, Volume low, Volume high) const {
  const auto band = [&](const VolumeUnit& unit) {
    return scaled(likely.value(), unit) + ", from " + number(low.value() / unit.size) + " to " + scaled(high.value(), unit);
  };
  return both(band(us_unit(likely)), band(si_unit(likely)));
}

std::string Show::area(Area value) const {
  return both(print_number(in(Dimension::area, "ft2", value.value()), 3) + " sq ft", print_number(value.value(), 3) + " m2");
}

std::string Show::area_out_of(Area part, Area whole) const {
  const auto range = [&](double size, int digits, const char* unit) {
    return number(part.value() / size) + " of " + print_number(whole.value() / size, digits) + unit;
  };
  return both(range(unit_size(Dimension::area, "ft2"), 3, " sq ft"), range(1.0, 3, " m2"));
}

std::string Show::depth(Length value) const {
  return both(inches(in(Dimension::length, "in", value.value())), number(1000.0 * value.value()) + " mm");
}

std::string Show::length(Length value) const {
  const auto rounded = [](double number) { return print_number(number, number < 10.0 ? 2 : 3); };
  return both(rounded(in(Dimension::length, "ft", value.value())) + " ft", rounded(value.value()) + " m");
}

std::string Show::mass(Mass value) const { return both(pounds(value.value()), kilograms(value.value())); }

std::string Show::mass_range(double low_kg, double high_kg) const {
  const bool tons = high_kg >= 2.0 * unit_size(Dimension::mass, "short_ton");
  constexpr double two_thirds = 0.667;  // so that a pound and its parts stay in pounds
  const bool small = in(Dimension::mass, "lb", high_kg) < two_thirds;
  if (small)
    return both(number(in(Dimension::mass, "oz", low_kg)) + " to " + number(in(Dimension::mass, "oz", high_kg)) + " oz",
                number(1000.0 * low_kg) + " to " + number(1000.0 * high_kg) + " g");
  const std::string us = tons ? number(in(Dimension::mass, "short_ton", low_kg)) + " to " +
                                    number(in(Dimension::mass, "short_ton", high_kg)) + " tons of 2000 lb"
                              : number(in(Dimension::mass, "lb", low_kg)) + " to " + number(in(Dimension::mass, "lb", high_kg)) + " lb";
  const std::string si =
      tons ? number(low_kg / 1000.0) + " to " + number(high_kg / 1000.0) + " t" : number(low_kg) + " to " + number(high_kg) + " kg";
  return both(us, si);
}

std::string Show::water(WaterMass value) const {
  const double liters = value.value();  // one to the kilogram
  const double gallons = in(Dimension::volume, "gal", liters / 1000.0);
  constexpr double pints_to_a_gallon = 8.0;
  const double pints = std::round(pints_to_a_gallon * gallons);
  const std::string small = pints < 1.0 ? "less than a pint" : show_count(pints, "pint");
  return both(gallons < 0.5 && pints < 4.0 ? small : show_count(gallons, "gallon"), number(liters) + " L");
}

std::string Show::density_unit() const { return both("lb/cu yd", "kg/m3"); }

std::string Show::density_number(BulkDensity value) const {
  return both(print_number(pounds_per_cubic_yard(value), 3), print_number(value.value(), 3));
}

std::string Show::density(BulkDensity value) const {
  return both(print_number(pounds_per_cubic_yard(value), 3) + " lb/cu yd", print_number(value.value(), 3) + " kg/m3");
}

std::string Show::days(Duration value) const {
  const std::string count = number(value.value() / 86400.0);
  return count + (count == "1" ? " day" : " days");
}

std::string Show::temperature(TemperaturePoint value) const {
  return both(print_number(std::round(value.fahrenheit()), 3) + " °F", print_number(std::round(value.celsius()), 3) + " °C");
}

std::string Show::temperature_rise(TemperatureDifference value) const {
  return both(print_number(1.8 * value.value(), 3) + " °F", print_number(value.value(), 3) + " °C");
}

std::string Show::value(const AssumedValue& value) const {
  struct InWords {
    const Show& show;
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(MoistureWetBasis moisture) const { return show_moisture(moisture); }
    std::string operator()(CarbonDryBasis carbon) const { return show_percent(carbon.value()) + " of dry matter"; }
    std::string operator()(NitrogenDryBasis nitrogen) const { return print_number(100.0 * nitrogen.value(), 2) + " % of dry matter"; }
    std::string operator()(CarbonNitrogenRatio ratio) const { return show_ratio(ratio); }
    std::string operator()(BulkDensity density) const { return show.density(density); }
    std::string operator()(Volume volume) const { return show.capacity(volume); }
    std::string operator()(Mass mass) const { return show.mass(mass); }
    std::string operator()(Length length) const { return show.depth(length); }
    std::string operator()(ShareOfVolatileSolids share) const { return show_percent(share.value()); }
    std::string operator()(ShareOfVolume share) const { return show_percent(share.value()); }
    std::string operator()(ShareOfLooseVolume share) const { return show_percent(share.value()); }
    std::string operator()(const ContainerCount& counted) const {
      std::string name = counted.container;
      std::replace(name.begin(), name.end(), '-', ' ');
      return show_count(counted.count, name);
    }
    std::string operator()(TemperaturePoint point) const { return show.temperature(point); }
    std::string operator()(Date date) const { return print_date(date); }
  };
  return std::visit(InWords{*this}, value);
}

std::string Show::assumed(const Assumption& assumption) const {
  std::string text = value(assumption.value);
  if (!assumption.low || !assumption.high) return text;
  // Both ends in the measure that fits the middle: of few containers a range would read "half a bucket to half a bucket".
  constexpr double few = 3.0;
  const ContainerCount* counted = std::get_if<ContainerCount>(&assumption.value);
  if (counted != nullptr && counted->count < few) {
    const auto room = [](const AssumedValue& end) {
      const ContainerCount& count = std::get<ContainerCount>(end);
      return Volume(count.count * count.each);
    };
    return text + ", that is " + capacity_range(room(*assumption.low), room(*assumption.high));
  }
  if (std::holds_alternative<Volume>(assumption.value))
    return text + ", from " + capacity_range(std::get<Volume>(*assumption.low), std::get<Volume>(*assumption.high));
  std::string low = value(*assumption.low);
  const std::string high = value(*assumption.high);
  const std::size_t unit = low.find_first_not_of("0123456789./ ");  // the unit is said once: "from 70 to 200 lb/cu yd"
  if (unit != std::string::npos && unit > 0 && units_ != ShownUnits::both && high.ends_with(low.substr(unit))) low.resize(unit - 1);
  return text + ", from " + low + " to " + high;
}

std::string show_ratio(CarbonNitrogenRatio ratio) {
  constexpr double hair = 1e-9;  // so that 48.5 reads as 49 whichever way it was worked out
  return ratio.value() < 3.0 ? number(ratio.value()) : print_number(std::round(ratio.value() + hair), 4);
}

std::string show_moisture(MoistureWetBasis moisture) { return show_percent(moisture.value()); }

std::string show_percent(double fraction) { return print_number(std::round(100.0 * fraction), 3) + " %"; }

std::string show_count(double count, const std::string& container_name) {
  constexpr double countable = 1e6;
  if (!(count < countable)) return print_number(count, 3) + " " + plural(container_name);
  const double halves = 2.0 * to_the_half(count);
  if (count > 0.0 && halves < 1.0) return "less than half a " + container_name;
  const auto whole = static_cast<long long>(halves / 2.0);
  const bool half = std::fmod(halves, 2.0) > 0.5;
  if (half && whole == 0) return "half a " + container_name;
  const std::string figure = std::to_string(whole) + (half ? " 1/2" : "");
  return figure + " " + (whole == 1 && !half ? container_name : plural(container_name));
}

std::string show_amount(const std::optional<ContainerCount>& counted, Volume volume, const Materials& materials, const Show& show) {
  if (!counted) return show.volume(volume);
  const Container* container = find_container(materials.containers, counted->container);
  std::string name = container != nullptr ? container->name : counted->container;
  std::replace(name.begin(), name.end(), '-', ' ');
  if (name.find_first_of("0123456789") == 0) name = "x " + name;
  constexpr double about = 0.04;  // a count that is no half is told as it is: 1.1 buckets
  const bool halves = std::abs(to_the_half(counted->count) - counted->count) <= about * counted->count;
  const bool one_decimal = !halves && counted->count >= 1.0 && counted->count < 10.0;
  return one_decimal ? number(counted->count) + " " + plural(name) : show_count(counted->count, name);
}

namespace {

/// Where a word ends that begins at a place; a degree or percent sign goes with its number.
std::size_t end_of_word(std::string_view text, std::size_t at) {
  std::size_t end = std::min(text.find(' ', at), text.size());
  while (end < text.size() && (text.substr(end + 1).starts_with("°") || text.substr(end + 1).starts_with("%")))
    end = std::min(text.find(' ', end + 1), text.size());
  return end;
}

}  // namespace

std::string wrap(std::string_view text, std::size_t indent, std::size_t width) {
  std::size_t at = std::min(text.find_first_not_of(' '), text.size());
  std::string wrapped(at, ' ');
  std::size_t column = at;
  bool first = true;
  while (at < text.size()) {
    const std::size_t end = end_of_word(text, at);
    std::size_t length = 0;
    for (const char c : text.substr(at, end - at)) length += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    if (!first && column + 1 + length > width) {
      wrapped += "\n" + std::string(indent, ' ');
      column = indent;
    } else if (!first) {
      wrapped += ' ';
      ++column;
    }
    first = false;
    wrapped += text.substr(at, end - at);
    column += length;
    at = end + 1;
  }
  return wrapped + "\n";
}

}  // namespace heapwright
