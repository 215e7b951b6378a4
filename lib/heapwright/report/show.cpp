#include "heapwright/report/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "heapwright/report/columns.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr int figures = 2;  // of a published table two figures mean something

std::string number(double value) { return print_number(value, figures); }

/// "3 to 12"
std::string range(double low, double high) { return fmt::format("{} to {}", number(low), number(high)); }

/// Half a cubic yard and more is spoken of in cubic yards.
bool is_large(Volume value) { return at_least(0.5 * unit::cubic_yard, value); }

struct VolumeUnit {
  Volume one;
  std::string_view name;
};

VolumeUnit us_unit(Volume value) {
  if (is_large(value)) return {unit::cubic_yard, "cu yd"};
  return {unit::cubic_foot, "cu ft"};
}

VolumeUnit si_unit(Volume value) {
  if (value >= 0.5 * unit::m3) return {1.0 * unit::m3, "m3"};
  return {unit::liter, "L"};
}

std::string scaled(Volume value, const VolumeUnit& in) { return fmt::format("{} {}", number(value_in(in.one, value)), in.name); }

std::string scaled_range(Volume low, Volume high, const VolumeUnit& in) {
  return fmt::format("{} {}", range(value_in(in.one, low), value_in(in.one, high)), in.name);
}

/// "1/4 in" where a depth is a round number of eighths, as a rule reads.
std::string inches(double value) {
  static constexpr std::array<std::string_view, 8> eighths{"", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"};
  const double count = std::round(value * 8.0);
  if (std::abs(value * 8.0 - count) > 1e-6 || count < 1.0 || count > 96.0) return fmt::format("{} in", number(value));
  const auto whole = static_cast<int>(count) / 8;
  const std::string_view part = eighths.at(static_cast<std::size_t>(count) % 8);
  if (whole == 0) return fmt::format("{} in", part);
  return part.empty() ? fmt::format("{} in", whole) : fmt::format("{} {} in", whole, part);
}

/// Less than a pound, or than half a kilogram, is weighed on a kitchen scale.
std::string pounds(Mass value) {
  const bool light = value > Mass() && value < unit::pound;
  return light ? fmt::format("{} oz", number(value_in(unit::ounce, value))) : fmt::format("{} lb", number(value_in(unit::pound, value)));
}

std::string kilograms(Mass value) {
  const bool light = value > Mass() && value < 0.5 * unit::kg;
  return light ? fmt::format("{} g", number(value_in(unit::gram, value))) : fmt::format("{} kg", number(value_in(unit::kg, value)));
}

std::string mass_range_in(Mass one, std::string_view name, Mass low, Mass high) {
  return fmt::format("{} {}", range(value_in(one, low), value_in(one, high)), name);
}

double pounds_per_cubic_yard(BulkDensity value) { return value_in(unit::pound / unit::cubic_yard, value); }

}  // namespace

std::string plural(const std::string& name) {
  if (name.ends_with("ch") || name.ends_with("x") || name.ends_with("s")) return fmt::format("{}es", name);
  return fmt::format("{}s", name);
}

std::string Show::both(std::string us, std::string si) const {
  if (units_ == ShownUnits::us) return us;
  if (units_ == ShownUnits::si) return si;
  return fmt::format("{} ({})", us, si);
}

std::string Show::volume(Volume value) const { return both(scaled(value, us_unit(value)), scaled(value, si_unit(value))); }

std::string Show::volume_in_column(Volume value, Volume largest) const {
  return both(scaled(value, us_unit(largest)), scaled(value, si_unit(largest)));
}

std::string Show::capacity(Volume value) const {
  if (is_large(value)) return volume(value);
  const std::string gallons = print_number(value_in(unit::gallon, value), 3);
  return both(fmt::format("{} {}", gallons, gallons == "1" ? "gallon" : "gallons"),
              fmt::format("{} L", print_number(1000.0 * value.value(), 3)));
}

std::string Show::about_capacity(Volume value) const {
  return both(fmt::format("{} gallons", number(value_in(unit::gallon, value))), fmt::format("{} L", number(1000.0 * value.value())));
}

std::string Show::capacity_range(Volume low, Volume high) const {
  if (is_large(high)) return volume_range(low, high);
  const auto gallons = [](Volume value) { return value_in(unit::gallon, value); };
  return both(fmt::format("{} gallons", range(gallons(low), gallons(high))),
              fmt::format("{} L", range(1000.0 * low.value(), 1000.0 * high.value())));
}

std::string Show::volume_range(Volume low, Volume high) const {
  return both(scaled_range(low, high, us_unit(high)), scaled_range(low, high, si_unit(high)));
}

std::string Show::volume_band(Volume likely, Volume low, Volume high) const {
  const auto band = [&](const VolumeUnit& unit) { return fmt::format("{}, from {}", scaled(likely, unit), scaled_range(low, high, unit)); };
  return both(band(us_unit(likely)), band(si_unit(likely)));
}

std::string Show::area(Area value) const {
  return both(fmt::format("{} sq ft", print_number(value_in(unit::square_foot, value), 3)),
              fmt::format("{} m2", print_number(value.value(), 3)));
}

std::string Show::area_out_of(Area part, Area whole) const {
  const auto out_of = [&](Area one, std::string_view name) {
    return fmt::format("{} of {} {}", number(value_in(one, part)), print_number(value_in(one, whole), 3), name);
  };
  return both(out_of(unit::square_foot, "sq ft"), out_of(1.0 * unit::m2, "m2"));
}

std::string Show::depth(Length value) const {
  return both(inches(value_in(unit::inch, value)), fmt::format("{} mm", number(1000.0 * value.value())));
}

std::string Show::length(Length value) const {
  const auto rounded = [](double number) { return print_number(number, number < 10.0 ? 2 : 3); };
  return both(fmt::format("{} ft", rounded(value_in(unit::foot, value))), fmt::format("{} m", rounded(value.value())));
}

std::string Show::about_length(Length value) const {
  return both(fmt::format("{} ft", number(value_in(unit::foot, value))), fmt::format("{} m", number(value.value())));
}

std::string Show::mass(Mass value) const { return both(pounds(value), kilograms(value)); }

std::string Show::mass_range(Mass low, Mass high) const {
  constexpr Mass few_ounces = 0.667 * unit::pound;  // so that a pound and its parts stay in pounds
  if (high < few_ounces) return both(mass_range_in(unit::ounce, "oz", low, high), mass_range_in(unit::gram, "g", low, high));
  if (high >= 2.0 * unit::short_ton)
    return both(mass_range_in(unit::short_ton, "tons of 2000 lb", low, high), mass_range_in(unit::metric_ton, "t", low, high));
  return both(mass_range_in(unit::pound, "lb", low, high), mass_range_in(1.0 * unit::kg, "kg", low, high));
}

std::string Show::water(WaterMass value) const {
  const double liters = value.value();  // one to the kilogram
  const double gallons = value_in(unit::gallon, Volume(value / water_density()));
  constexpr double pints_to_a_gallon = 8.0;
  const double pints = std::round(pints_to_a_gallon * gallons);
  const std::string small = pints < 1.0 ? "less than a pint" : show_count(pints, "pint");
  return both(gallons < 0.5 && pints < 4.0 ? small : show_count(gallons, "gallon"), fmt::format("{} L", number(liters)));
}

std::string Show::density_unit() const { return both("lb/cu yd", "kg/m3"); }

std::string Show::density_number(BulkDensity value) const {
  return both(print_number(pounds_per_cubic_yard(value), 3), print_number(value.value(), 3));
}

std::string Show::density(BulkDensity value) const {
  return both(fmt::format("{} lb/cu yd", print_number(pounds_per_cubic_yard(value), 3)),
              fmt::format("{} kg/m3", print_number(value.value(), 3)));
}

namespace {

const MassPerArea pound_on_lawn = unit::pound / (1000.0 * unit::square_foot);
const MassPerArea kilogram_on_lawn = 1.0 * unit::kg / (100.0 * unit::m2);

std::string on_lawn_in(MassPerArea one, std::string_view name, const LikelyBand<MassPerArea>& value) {
  return fmt::format("{} {} ({})", number(value_in(one, value.likely)), name, range(value_in(one, value.low), value_in(one, value.high)));
}

}  // namespace

std::string Show::lawn_measure() const { return both("1000 sq ft", "100 m2"); }

std::string Show::on_lawn_measure(MassPerArea value) const {
  return both(fmt::format("{} lb", number(value_in(pound_on_lawn, value))),
              fmt::format("{} kg", number(value_in(kilogram_on_lawn, value))));
}

std::string Show::roughly_on_lawn_measure(MassPerArea value) const {
  const auto roughly = [](double number) { return print_number(number, number < 1.0 ? 1 : 2); };
  return both(fmt::format("{} lb", roughly(value_in(pound_on_lawn, value))),
              fmt::format("{} kg", roughly(value_in(kilogram_on_lawn, value))));
}

std::string Show::on_lawn_measure_band(const LikelyBand<MassPerArea>& value) const {
  if (!(value.low < value.high)) return on_lawn_measure(value.likely);
  const std::string us = on_lawn_in(pound_on_lawn, "lb", value);
  const std::string si = on_lawn_in(kilogram_on_lawn, "kg", value);
  return units_ == ShownUnits::both ? fmt::format("{}, {}", us, si) : both(us, si);
}

std::string Show::days(Duration value) const {
  const std::string count = number(value_in(unit::day, value));
  return fmt::format("{} {}", count, count == "1" ? "day" : "days");
}

std::string Show::temperature(TemperaturePoint value) const {
  return both(fmt::format("{} °F", print_number(std::round(value.fahrenheit()), 3)),
              fmt::format("{} °C", print_number(std::round(value.celsius()), 3)));
}

std::string Show::temperature_rise(TemperatureDifference value) const {
  return both(fmt::format("{} °F", print_number(1.8 * value.value(), 3)), fmt::format("{} °C", print_number(value.value(), 3)));
}

std::string Show::value(const AssumedValue& value) const {
  struct InWords {
    const Show& show;
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(MoistureWetBasis moisture) const { return show_moisture(moisture); }
    std::string operator()(CarbonDryBasis carbon) const { return fmt::format("{} of dry matter", show_percent(carbon.value())); }
    std::string operator()(NitrogenDryBasis nitrogen) const { return fmt::format("{} % of dry matter", number(100.0 * nitrogen.value())); }
    std::string operator()(PhosphateDryBasis phosphate) const {
      return fmt::format("{} % of dry matter", number(100.0 * phosphate.value()));
    }
    std::string operator()(PotashDryBasis potash) const { return fmt::format("{} % of dry matter", number(100.0 * potash.value())); }
    std::string operator()(CarbonNitrogenRatio ratio) const { return show_ratio(ratio); }
    std::string operator()(BulkDensity density) const { return show.density(density); }
    std::string operator()(Volume volume) const { return show.capacity(volume); }
    std::string operator()(Area area) const { return show.area(area); }
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
  const std::string text = value(assumption.value);
  if (!assumption.low || !assumption.high) return text;
  // Both ends in the measure that fits the middle: of few containers a range would read "half a bucket to half a bucket".
  constexpr double few = 3.0;
  const ContainerCount* counted = std::get_if<ContainerCount>(&assumption.value);
  if (counted != nullptr && counted->count < few) {
    const auto room = [](const AssumedValue& end) {
      const ContainerCount& count = std::get<ContainerCount>(end);
      return Volume(count.count * count.each);
    };
    return fmt::format("{}, that is {}", text, capacity_range(room(*assumption.low), room(*assumption.high)));
  }
  if (std::holds_alternative<Volume>(assumption.value))
    return fmt::format("{}, from {}", text, capacity_range(std::get<Volume>(*assumption.low), std::get<Volume>(*assumption.high)));
  std::string low = value(*assumption.low);
  const std::string high = value(*assumption.high);
  const std::size_t unit = low.find_first_not_of("0123456789./ ");  // the unit is said once: "from 70 to 200 lb/cu yd"
  if (unit != std::string::npos && unit > 0 && units_ != ShownUnits::both && high.ends_with(low.substr(unit))) low.resize(unit - 1);
  return fmt::format("{}, from {} to {}", text, low, high);
}

std::string show_ratio(CarbonNitrogenRatio ratio) {
  constexpr double hair = 1e-9;  // so that 48.5 reads as 49 whichever way it was worked out
  return ratio.value() < 3.0 ? number(ratio.value()) : print_number(std::round(ratio.value() + hair), 4);
}

std::string show_moisture(MoistureWetBasis moisture) { return show_percent(moisture.value()); }

std::string show_percent(double fraction) { return fmt::format("{} %", print_number(std::round(100.0 * fraction), 3)); }

std::string show_count(double count, const std::string& container_name) {
  constexpr double countable = 1e6;
  if (!(count < countable)) return fmt::format("{} {}", print_number(count, 3), plural(container_name));
  const double halves = 2.0 * to_the_half(count);
  if (count > 0.0 && halves < 1.0) return fmt::format("less than half a {}", container_name);
  const auto whole = static_cast<long long>(halves / 2.0);
  const bool half = std::fmod(halves, 2.0) > 0.5;
  if (half && whole == 0) return fmt::format("half a {}", container_name);
  if (half) return fmt::format("{} 1/2 {}", whole, plural(container_name));
  return fmt::format("{} {}", whole, whole == 1 ? container_name : plural(container_name));
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
    const std::string_view word = text.substr(at, end - at);
    const std::size_t length = width_of(word);
    if (!first && column + 1 + length > width) {
      wrapped += fmt::format("\n{:{}}", "", indent);
      column = indent;
    } else if (!first) {
      wrapped += ' ';
      ++column;
    }
    first = false;
    wrapped += word;
    column += length;
    at = end + 1;
  }
  wrapped += '\n';
  return wrapped;
}

}  // namespace heapwright
