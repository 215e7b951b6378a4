#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "heapwright/report/show.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::chrono::seconds;

/// To so many degrees.
double to_nearest(double step, double degrees) { return step * std::round(degrees / step); }

std::string half_month(const HalfMonth& half) {
  const std::string_view part = is_early(half.date) ? "early" : "late";
  const std::string text = fmt::format("{} {}", part, month_name(half.date.month()));
  return half.with_year ? fmt::format("{} {}", text, static_cast<int>(half.date.year())) : text;
}

std::string day_of_month(Date date) { return fmt::format("{} {}", month_name(date.month()), static_cast<unsigned>(date.day())); }

/// "3 days 4 h", "11 h 30 min"
std::string length_of(seconds length) {
  const auto days = std::chrono::floor<std::chrono::days>(length);
  const auto hours = std::chrono::floor<std::chrono::hours>(length - days);
  const auto minutes = std::chrono::floor<std::chrono::minutes>(length - days - hours);
  std::vector<std::string> spans;
  if (days.count() > 0) spans.push_back(fmt::format("{} {}", days.count(), days.count() == 1 ? "day" : "days"));
  if (hours.count() > 0) spans.push_back(fmt::format("{} h", hours.count()));
  if (minutes.count() > 0) spans.push_back(fmt::format("{} min", minutes.count()));
  return spans.empty() ? "0 h" : fmt::format("{}", fmt::join(spans, " "));
}

/// "1.1 buckets": a count that is no half stands as it is.
std::string tenths(const Count& count) {
  constexpr double about = 0.04;
  const bool is_half = std::abs(to_the_half(count.count) - count.count) <= about * count.count;
  const bool small = count.count >= 1.0 && count.count < 10.0;
  return is_half || !small ? show_count(count.count, count.of)
                           : fmt::format("{} {}", print_number(count.count, 2), heapwright::plural(count.of));
}

/// "3/4 bucket", "2 1/3 buckets", "0.15 buckets"
std::string as_said(const CountAsSaid& said) {
  constexpr double about = 0.004;
  const double whole = std::floor(said.count);
  const double rest = said.count - whole;
  const std::string name = said.count <= 1.0 ? said.of : heapwright::plural(said.of);
  constexpr auto parts =
      std::to_array<std::pair<double, std::string_view>>({{1.0 / 4.0, "1/4"}, {1.0 / 3.0, "1/3"}, {2.0 / 3.0, "2/3"}, {3.0 / 4.0, "3/4"}});
  for (const auto& [part, written] : parts) {
    if (std::abs(rest - part) < about)
      return whole > 0.0 ? fmt::format("{:.0f} {} {}", whole, written, name) : fmt::format("{} {}", written, name);
  }
  if (std::abs(2.0 * said.count - std::round(2.0 * said.count)) < about) return show_count(said.count, said.of);
  return fmt::format("{} {}", print_number(std::max(0.01, std::round(100.0 * said.count) / 100.0), 6), heapwright::plural(said.of));
}

WaterMass two_digits(WaterMass water) {
  const double step = std::pow(10.0, std::floor(std::log10(water.value())) - 1.0);
  return step * std::round(water.value() / step) * unit::kg_water;
}

/// A fragment of a sentence in the person's units.
struct Shown {
  const Show& show;

  std::string operator()(const std::string& text) const { return text; }
  std::string operator()(Volume volume) const { return show.volume(volume); }
  std::string operator()(Area area) const { return show.area(area); }
  std::string operator()(Length length) const { return show.length(length); }
  std::string operator()(Mass mass) const { return show.mass(mass); }
  std::string operator()(WaterMass water) const { return show.water(water); }
  std::string operator()(BulkDensity density) const { return show.density(density); }
  std::string operator()(TemperaturePoint point) const { return show.temperature(point); }
  std::string operator()(TemperatureDifference difference) const { return show.temperature_rise(difference); }
  std::string operator()(Duration duration) const { return show.days(duration); }
  std::string operator()(Date date) const { return print_date(date); }
  std::string operator()(CarbonNitrogenRatio ratio) const { return show_ratio(ratio); }
  std::string operator()(MoistureWetBasis moisture) const { return show_moisture(moisture); }
  std::string operator()(const Capacity& of) const { return show.capacity(of.volume); }
  std::string operator()(const AboutLength& of) const { return show.about_length(of.length); }
  std::string operator()(const AboutCapacity& of) const { return show.about_capacity(of.volume); }
  std::string operator()(const SpreadDepth& of) const { return show.depth(of.depth); }
  std::string operator()(const AboutTemperature& about) const {
    if (!show.in_us_units()) return show.temperature(TemperaturePoint::from_celsius(to_nearest(3.0, about.point.celsius())));
    return show.temperature(TemperaturePoint::from_fahrenheit(to_nearest(5.0, about.point.fahrenheit())));
  }
  std::string operator()(const ExactTemperature& exact) const {
    const double degrees = show.in_us_units() ? exact.point.fahrenheit() : exact.point.celsius();
    return fmt::format("{} {}", print_number(to_nearest(0.01, degrees), 6), show.in_us_units() ? "°F" : "°C");
  }
  std::string operator()(const AboutDifference& about) const {
    const double kelvin = about.difference.value();
    return show.in_us_units() ? fmt::format("{} °F", print_number(to_nearest(10.0, 1.8 * kelvin), 3))
                              : fmt::format("{} °C", print_number(std::round(kelvin), 3));
  }
  std::string operator()(const WholeDifference& whole) const {
    const double kelvin = whole.difference.value();
    return fmt::format("{} {}", std::lround(show.in_us_units() ? 1.8 * kelvin : kelvin), show.in_us_units() ? "°F" : "°C");
  }
  std::string operator()(const CarriedWater& water) const {
    const double cans = (water.mass / water_density() / water.can).value();
    constexpr double many = 10.0;
    const std::string text = show.water(water.mass);
    return show.in_us_units() && cans >= 0.5 && cans < many ? fmt::format("{} ({})", text, show_count(cans, "watering can")) : text;
  }
  std::string operator()(const AboutWater& about) const { return show.water(two_digits(about.mass)); }
  std::string operator()(LargeMeasure) const { return show.volume(large_measure()); }
  std::string operator()(const WaterForMeasure& of) const { return show.water(WaterMass(of.water * large_measure())); }
  std::string operator()(Percent percent) const { return show_percent(percent.fraction); }
  std::string operator()(Number number) const { return print_number(number.value, number.digits); }
  std::string operator()(const Count& count) const { return count.to_the_tenth ? tenths(count) : show_count(count.count, count.of); }
  std::string operator()(const CountAsSaid& said) const { return as_said(said); }
  std::string operator()(const HalfMonth& half) const { return half_month(half); }
  std::string operator()(DayOfMonth day) const { return day_of_month(day.date); }
  std::string operator()(DayOfWeek day) const {
    return fmt::format("{}, {}, {}", weekday_name(day.date), day_of_month(day.date), static_cast<int>(day.date.year()));
  }
  std::string operator()(Span span) const { return length_of(span.length); }
  std::string operator()(const Tested& tested) const { return show.tested(tested); }
  std::string operator()(const SoldInBags& sold) const {
    const Volume bag = show.in_us_units() ? sold.us_bag : sold.si_bag;
    return fmt::format("{} of {}", show_count(std::ceil((sold.volume / bag).value() - 1e-9), "bag"), show.volume(bag));
  }
  std::string operator()(const OutOf& of) const { return show.area_out_of(of.part, of.whole); }
  std::string operator()(Cost cost) const {
    const double cents = std::round(100.0 * value_in(unit::money, cost));
    return std::fmod(cents, 100.0) == 0.0 ? fmt::format("{:.0f}", cents / 100.0) : fmt::format("{:.2f}", cents / 100.0);
  }
  std::string operator()(LawnMeasure) const { return show.lawn_measure(); }
  std::string operator()(const OnLawnMeasure& on) const { return show.on_lawn_measure(on.mass); }
  std::string operator()(const RoughlyOnLawnMeasure& on) const { return show.roughly_on_lawn_measure(on.mass); }
  std::string operator()(const OnLawnMeasureBand& on) const { return show.on_lawn_measure_band(on.mass); }
  std::string operator()(const VolumeBand& band) const { return show.volume_band(band.likely, band.low, band.high); }
  std::string operator()(const VolumeInColumn& one) const { return show.volume_in_column(one.volume, one.largest); }
  std::string operator()(const Between<Volume>& range) const { return show.volume_range(range.low, range.high); }
  std::string operator()(const Between<Capacity>& range) const { return show.capacity_range(range.low.volume, range.high.volume); }
  std::string operator()(const Between<Mass>& range) const { return show.mass_range(range.low, range.high); }
  std::string operator()(const Between<CarbonNitrogenRatio>& range) const {
    return fmt::format("{} to {}", show_ratio(range.low), show_ratio(range.high));
  }
  std::string operator()(const Between<MoistureWetBasis>& range) const { return percents(range.low.value(), range.high.value()); }
  std::string operator()(const Between<Percent>& range) const { return percents(range.low.fraction, range.high.fraction); }
  std::string operator()(const AssumedFigure& figure) const { return show.assumed(figure.assumption); }

  Volume large_measure() const { return show.in_us_units() ? unit::cubic_yard : 1.0 * unit::m3; }

  static std::string percents(double low, double high) {
    return fmt::format("{} to {}", print_number(std::round(100.0 * low), 3), show_percent(high));
  }
};

}  // namespace

std::string Show::words(const Words& words) const {
  std::string text;
  for (const Fragment& fragment : words.fragments()) text += std::visit(Shown{*this}, fragment);
  return text;
}

/// "7 mg CO2-C/g OM/day", "12 °C", "45 %"
std::string Show::tested(const Tested& tested) const {
  const ValueInUnit usual = in_usual_unit(tested.measured, tested.value);
  const auto number = [&](double factor, std::string_view unit) {
    const std::string figure = print_number(factor * usual.number, 3);
    return unit.empty() || !tested.with_unit ? figure : fmt::format("{} {}", figure, unit);
  };
  const auto bare = [&](const std::string& text) { return tested.with_unit ? text : text.substr(0, text.rfind(' ')); };
  switch (tested.measured) {
    case TestQuantity::temperature_rise: return bare(temperature_rise(std::get<TemperatureDifference>(tested.value)));
    case TestQuantity::carbon_dioxide: return number(1.0, "mg CO2-C/g OM/day");
    case TestQuantity::oxygen: return number(1.0, "mmol O2/kg OM/h");
    case TestQuantity::oxygen_in_water: return number(1.0, "mg O2/g OM/h");
    case TestQuantity::size: return bare(depth(std::get<Length>(tested.value)));
    case TestQuantity::ammonium_content:
    case TestQuantity::acid_content: return number(1.0, "mg/kg");
    case TestQuantity::electric_conductivity: return number(1.0, "dS/m");
    case TestQuantity::microbe_count: return number(1.0, "MPN/g");
    case TestQuantity::nitrogen_content:
    case TestQuantity::carbon_content:
    case TestQuantity::organic_matter:
    case TestQuantity::moisture:
    case TestQuantity::share_of_control: return number(100.0, "%");
    case TestQuantity::carbon_to_nitrogen:
    case TestQuantity::nitrogen_ratio:
    case TestQuantity::ph: return number(1.0, "");
  }
  return {};
}

}  // namespace heapwright
