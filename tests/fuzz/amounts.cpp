/// Amounts and quantities: the first letter of an input chooses the reader, the rest is what somebody wrote.

#include <array>

#include "checks.hpp"
#include "heapwright/materials/amount.hpp"
#include "heapwright/units/text.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

void check_number(double number, double least, double most) {
  require(std::isfinite(number) && number >= least && number <= most, "a quantity is inside the bounds of its reader");
}

/// What is printed with ten digits is read as the same, but for figures below the last place that is printed.
void check_read_again(double number, double again) {
  constexpr double tolerance = 1e-9;  // ten digits
  constexpr double last_place = 1e-15;
  require(std::abs(number - again) <= tolerance * std::abs(number) + last_place, "what is printed is read again as the same");
}

template <class Quantity>
void check_quantity(Quantity quantity, double most, const char* si_unit, Quantity (*read)(std::string_view)) {
  check_number(quantity.value(), 0.0, most);
  const std::string printed = print_in(quantity, si_unit, 10);
  check_output(printed, {});
  constexpr double rounding = 1.0 - 1e-9;
  if (quantity.value() < rounding * most) check_read_again(quantity.value(), read(printed).value());
}

constexpr double most = 1e12;         // of the units' reader
constexpr double most_length = 1e7;   // m
constexpr double most_area = 1e14;    // m², of two sides
constexpr double most_volume = 1e21;  // m³, of three

void read_one(char which, std::string_view text) {
  switch (which) {
    case 'a': return check_quantity(read_length(text), most_length, "m", read_length);
    case 'b': return check_number(read_area(text).value(), 0.0, most_area);
    case 'c': return check_number(read_volume(text).value(), 0.0, most_volume);
    case 'd': return check_quantity(read_mass(text), most, "kg", read_mass);
    case 'e': return check_number(read_duration(text).value(), 0.0, most);
    case 'f': return check_number(read_water(text).value(), 0.0, 1e3 * most_volume);
    case 'g': return check_number(read_bulk_density(text).value(), 0.0, most);
    case 'h': return check_number(read_particle_density(text).value(), 0.0, most);
    case 'i': return check_number(read_mass_per_area(text).value(), 0.0, most);
    case 'j': return check_number(read_temperature(text).celsius(), -90.0, 200.0);
    case 'k': return check_number(read_temperature_difference(text).value(), 0.0, 290.0);
    case 'l': {
      const CarbonNitrogenRatio ratio = read_carbon_to_nitrogen(text);
      check_number(ratio.value(), 1.0 / most, most);
      check_output(print_ratio(ratio, 3), {});
      return;
    }
    case 'm': return check_number(read_percentage(text), 0.0, 1.0);
    case 'n': {
      const double number = read_number(text);
      check_number(number, -most, most);
      return check_read_again(number, read_number(print_number(number, 10)));
    }
    case 'o': {
      const CountedWords counted = read_counted_words(text);
      check_number(counted.number, 0.0, most);
      require(counted_words(text).has_value(), "counted words begin with a number");
      return;
    }
    case 'p':
      for (const std::string& side : sides_in(text)) require(side.size() <= 2 * text.size() + 8, "a side is part of its text");
      return;
    case 'q':
      for (const Dimension dimension : {Dimension::length, Dimension::area, Dimension::volume, Dimension::mass, Dimension::duration})
        is_quantity(text, dimension);
      return;
    case 'r': {
      const std::string plain = plain_name(text);
      require(plain.size() <= 2 * text.size(), "a plain name is no longer");
      return;
    }
    case 's': {
      const auto either = read_volume_or_mass(text, {"leaf-bag", "bucket"});
      if (const Volume* volume = std::get_if<Volume>(&either)) check_number(volume->value(), 0.0, most_volume);
      return;
    }
    case 't': {
      const Amount amount = read_amount(text, *tables().materials.containers);
      require(is_amount(text, *tables().materials.containers), "what is read as an amount is one");
      if (const auto volume = volume_of(amount)) check_number(volume->value(), 0.0, most_volume);
      return;
    }
    default: {
      const auto range = read_amount_range(text, *tables().materials.containers);
      if (!range) return;
      check_number(range->low, 0.0, 1.0);
      check_number(range->high, 1.0, 2.0);
      return;
    }
  }
}

}  // namespace

void read_amounts(std::string_view text) {
  if (text.empty()) return;
  if (ends_well([&] { read_one(text.front(), text.substr(1)); })) count_answered();
}

}  // namespace heapwright::fuzz
