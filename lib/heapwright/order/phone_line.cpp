#include "heapwright/order/phone_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <vector>

#include "heapwright/materials/materials.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double as_good_as_whole = 1e-6;

bool is_whole(double number) { return std::abs(number - std::round(number)) <= as_good_as_whole * std::max(1.0, std::abs(number)); }

/// "13", "12 1/2", "1/4", else so many figures.
std::string count_text(double count, int figures = 3) {
  if (is_whole(count)) return fmt::format("{:.0f}", count);
  constexpr std::array<std::string_view, 3> quarters{"1/4", "1/2", "3/4"};
  if (!is_whole(4.0 * count)) return print_number(count, figures);
  const double whole = std::floor(count);
  const std::string_view rest = quarters.at(static_cast<std::size_t>(std::lround(4.0 * (count - whole))) - 1);
  return whole > 0.0 ? fmt::format("{:.0f} {}", whole, rest) : std::string(rest);
}

/// In the unit that a price is for, as far as its volume tells that.
std::string volume_text(Volume volume, Volume unit_volume, int figures = 3) {
  struct Measure {
    Volume one;
    std::string_view symbol;
  };
  const std::array<Measure, 4> measures{
      {{unit::cubic_yard, "cu yd"}, {1.0 * unit::m3, "cu m"}, {unit::cubic_foot, "cu ft"}, {unit::liter, "L"}}};
  for (const Measure& measure : measures) {
    if (is_whole(4.0 * static_cast<double>(unit_volume / measure.one)))
      return fmt::format("{} {}", count_text(volume / measure.one, figures), measure.symbol);
  }
  return print_in(volume, "yd3", figures);
}

/// "3/8 in"; else millimeters.
std::string screen_text(Length screen) {
  const double eighths = 8.0 * static_cast<double>(screen / unit::inch);
  if (!is_whole(eighths)) return print_in(screen, "mm", 3);
  long above = std::lround(eighths);
  long below = 8;
  while (above % 2 == 0 && below > 1) {
    above /= 2;
    below /= 2;
  }
  return below == 1 ? fmt::format("{} in", above) : fmt::format("{}/{} in", above, below);
}

std::string plural(double count, const std::string& name) { return count > 1.0 + as_good_as_whole ? name + "s" : name; }

/// A bag by its size: "40 bags of 1 cubic foot".
std::string container_text(double count, const Container& container) {
  constexpr std::string_view bag = " bag";
  const std::string& name = container.name;
  const bool sized = name.size() > bag.size() && name.ends_with(bag) && name.front() >= '0' && name.front() <= '9';
  if (!sized) return fmt::format("{} {}", count_text(count), plural(count, name));
  return fmt::format("{} {} of {}", count_text(count), plural(count, "bag"), name.substr(0, name.size() - bag.size()));
}

bool names_its_loads(const Offer& offer) {
  const bool by_the_load = offer.delivery_per == DeliveryPer::load && is_positive(offer.delivery);
  return !offer.own_haulage && (by_the_load || offer.load.volume || offer.load.mass);
}

std::string line_text(const OrderLine& line, const Offer& offer, Length screen, const Materials& materials) {
  const Length finest = offer.screen ? std::min(screen, *offer.screen) : screen;
  std::string text = fmt::format("{} of compost screened to {} or finer", quantity_text(line, offer, materials), screen_text(finest));
  if (names_its_loads(offer)) text += fmt::format(", {} {}", line.loads, line.loads == 1 ? "load" : "loads");
  return text;
}

}  // namespace

std::string quantity_text(const OrderLine& line, const Offer& offer, const Materials& materials) {
  const ContainerCount* counted = std::get_if<ContainerCount>(&offer.unit);
  if (counted == nullptr) return volume_text(line.volume, offer.unit_volume);
  const double count = line.volume / counted->each;
  const Container* container = row_with_id(*materials.containers, counted->container);
  return container != nullptr ? container_text(count, *container)
                              : fmt::format("{} {}", count_text(count), plural(count, counted->container));
}

std::string in_unit_of(const Offer& offer, Volume volume, int figures) { return volume_text(volume, offer.unit_volume, figures); }

std::string phone_line(const Ordering& ordering, Length screen, const Materials& materials) {
  std::string text;
  if (!ordering.best) return text;
  for (const OrderLine& line : ordering.best->lines)
    text += (text.empty() ? "" : ", and ") + line_text(line, ordering.question.offers[line.offer], screen, materials);
  return text;
}

}  // namespace heapwright
