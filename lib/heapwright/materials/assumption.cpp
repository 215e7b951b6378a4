#include "heapwright/materials/assumption.hpp"

namespace heapwright {
namespace {

struct ToNumber {
  std::optional<double> operator()(const std::string&) const { return std::nullopt; }
  std::optional<double> operator()(Date) const { return std::nullopt; }
  std::optional<double> operator()(const ContainerCount& counted) const { return counted.count; }
  std::optional<double> operator()(TemperaturePoint point) const { return point.kelvin(); }
  template <class Quantity>
  std::optional<double> operator()(const Quantity& quantity) const {
    return quantity.value();
  }
};

}  // namespace

std::optional<double> si_number_of(const AssumedValue& value) { return std::visit(ToNumber{}, value); }

std::string_view figure_word(Figure figure) {
  switch (figure) {
    case Figure::none: return "";
    case Figure::amount: return "amount";
    case Figure::container: return "container";
    case Figure::bulk_density: return "bulk_density";
    case Figure::bulk_density_in_pile: return "bulk_density_in_pile";
    case Figure::moisture: return "moisture_wet_basis";
    case Figure::carbon_to_nitrogen: return "carbon_to_nitrogen";
    case Figure::nitrogen: return "nitrogen_dry_basis";
    case Figure::carbon: return "carbon_dry_basis";
  }
  return "";
}

}  // namespace heapwright
