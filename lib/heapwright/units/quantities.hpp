#pragma once
/// Quantities of the composting trade, on Boost.Units.
///
/// Dry matter, water, carbon, nitrogen, organic matter, phosphate (P2O5), potash (K2O) and money are
/// base dimensions of their own beside SI. So a wet-basis moisture is kg water per kg, a dry-basis
/// nitrogen content is kg N per kg dry matter, a C:N ratio is kg C per kg N: none is a bare number, none
/// converts into another, and
///
///     NitrogenMass n = as_is_mass * nitrogen_content;     // does not compile: the content is of dry matter
///     NitrogenMass n = dry_mass * nitrogen_content;       // does
///
/// Any product compiles in Boost.Units; what makes it safe is the named type it is assigned or passed to.
/// Signatures therefore show the aliases below and never `auto`. All values are doubles in SI;
/// value_in() is the one way out, and it names the unit.

#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/cmath.hpp>
#include <boost/units/is_unit.hpp>
#include <boost/units/limits.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/amount.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/conductivity.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/volume.hpp>

#include <type_traits>

namespace heapwright {

namespace constituent {
// Boost.Units wants an ordinal for each base dimension and base unit, unique in a program; ours count from 7001.
struct dry_matter_dimension : boost::units::base_dimension<dry_matter_dimension, 7001> {};
struct water_dimension : boost::units::base_dimension<water_dimension, 7002> {};
struct carbon_dimension : boost::units::base_dimension<carbon_dimension, 7003> {};
struct nitrogen_dimension : boost::units::base_dimension<nitrogen_dimension, 7004> {};
struct organic_matter_dimension : boost::units::base_dimension<organic_matter_dimension, 7005> {};
struct phosphate_dimension : boost::units::base_dimension<phosphate_dimension, 7006> {};
struct potash_dimension : boost::units::base_dimension<potash_dimension, 7007> {};
struct money_dimension : boost::units::base_dimension<money_dimension, 7008> {};

struct kg_dry_matter : boost::units::base_unit<kg_dry_matter, dry_matter_dimension::dimension_type, 7001> {};
struct kg_water : boost::units::base_unit<kg_water, water_dimension::dimension_type, 7002> {};
struct kg_carbon : boost::units::base_unit<kg_carbon, carbon_dimension::dimension_type, 7003> {};
struct kg_nitrogen : boost::units::base_unit<kg_nitrogen, nitrogen_dimension::dimension_type, 7004> {};
struct kg_organic_matter : boost::units::base_unit<kg_organic_matter, organic_matter_dimension::dimension_type, 7005> {};
struct kg_phosphate : boost::units::base_unit<kg_phosphate, phosphate_dimension::dimension_type, 7006> {};
struct kg_potash : boost::units::base_unit<kg_potash, potash_dimension::dimension_type, 7007> {};
struct money : boost::units::base_unit<money, money_dimension::dimension_type, 7008> {};  ///< in whatever currency the yard counts
}  // namespace constituent

/// Units to make quantities with: `5.0 * unit::kg_dry`.
namespace unit {
template <class Numerator, class Denominator>
using per = typename boost::units::divide_typeof_helper<Numerator, Denominator>::type;

/// The units of SI, and a kilogram of each constituent.
inline constexpr boost::units::si::length m{};
inline constexpr boost::units::si::area m2{};
inline constexpr boost::units::si::volume m3{};
inline constexpr boost::units::si::mass kg{};
inline constexpr boost::units::si::time s{};
inline constexpr boost::units::si::temperature kelvin{};
inline constexpr boost::units::si::amount mol{};
inline constexpr boost::units::si::conductivity siemens_per_m{};
inline constexpr constituent::kg_dry_matter::unit_type kg_dry{};
inline constexpr constituent::kg_water::unit_type kg_water{};
inline constexpr constituent::kg_carbon::unit_type kg_carbon{};
inline constexpr constituent::kg_nitrogen::unit_type kg_nitrogen{};
inline constexpr constituent::kg_organic_matter::unit_type kg_organic{};
inline constexpr constituent::kg_phosphate::unit_type kg_phosphate{};
inline constexpr constituent::kg_potash::unit_type kg_potash{};
inline constexpr constituent::money::unit_type money{};
}  // namespace unit

namespace detail {
template <class Unit>
using Quantity = boost::units::quantity<Unit, double>;
template <class Numerator, class Denominator>
using Ratio = boost::units::quantity<unit::per<Numerator, Denominator>, double>;
using Kg = boost::units::si::mass;
using KgDry = constituent::kg_dry_matter::unit_type;
using KgWater = constituent::kg_water::unit_type;
using KgCarbon = constituent::kg_carbon::unit_type;
using KgNitrogen = constituent::kg_nitrogen::unit_type;
using KgOrganic = constituent::kg_organic_matter::unit_type;
using KgPhosphate = constituent::kg_phosphate::unit_type;
using KgPotash = constituent::kg_potash::unit_type;
}  // namespace detail

/// SI measures. A difference of temperatures is in kelvins; points are TemperaturePoint.
using Length = detail::Quantity<boost::units::si::length>;
using Area = detail::Quantity<boost::units::si::area>;
using Volume = detail::Quantity<boost::units::si::volume>;
using Duration = detail::Quantity<boost::units::si::time>;
using TemperatureDifference = detail::Quantity<boost::units::si::temperature>;

/// Masses, each of its own dimension; money counts in whatever currency the yard does.
using Mass = detail::Quantity<detail::Kg>;  ///< as it is: dry matter and water together
using DryMass = detail::Quantity<detail::KgDry>;
using WaterMass = detail::Quantity<detail::KgWater>;
using CarbonMass = detail::Quantity<detail::KgCarbon>;
using NitrogenMass = detail::Quantity<detail::KgNitrogen>;
using OrganicMass = detail::Quantity<detail::KgOrganic>;  ///< organic matter, also called volatile solids
using PhosphateMass = detail::Quantity<detail::KgPhosphate>;
using PotashMass = detail::Quantity<detail::KgPotash>;
using Cost = detail::Quantity<constituent::money::unit_type>;
using PricePerMass = detail::Ratio<constituent::money::unit_type, detail::Kg>;

/// Densities, and masses on an area.
using BulkDensity = detail::Ratio<detail::Kg, boost::units::si::volume>;         ///< as-is mass of a volume with its air
using ParticleDensity = detail::Ratio<detail::KgDry, boost::units::si::volume>;  ///< dry matter of a volume without air and water
using DryBulkDensity = ParticleDensity;                                          ///< dry matter of a volume with its air and water
using WaterDensity = detail::Ratio<detail::KgWater, boost::units::si::volume>;
using OrganicMatterDensity = detail::Ratio<detail::KgOrganic, boost::units::si::volume>;
using MassPerArea = detail::Ratio<detail::Kg, boost::units::si::area>;
using DryMassPerArea = detail::Ratio<detail::KgDry, boost::units::si::area>;

/// Contents: kg of one thing in a kg of another, each by its basis.
using MoistureWetBasis = detail::Ratio<detail::KgWater, detail::Kg>;     ///< water of as-is mass, the trade's "moisture"
using MoistureDryBasis = detail::Ratio<detail::KgWater, detail::KgDry>;  ///< water of dry matter
using CarbonDryBasis = detail::Ratio<detail::KgCarbon, detail::KgDry>;
using NitrogenDryBasis = detail::Ratio<detail::KgNitrogen, detail::KgDry>;
using OrganicMatterDryBasis = detail::Ratio<detail::KgOrganic, detail::KgDry>;
using PhosphateDryBasis = detail::Ratio<detail::KgPhosphate, detail::KgDry>;
using PotashDryBasis = detail::Ratio<detail::KgPotash, detail::KgDry>;
using CarbonNitrogenRatio = detail::Ratio<detail::KgCarbon, detail::KgNitrogen>;

/// Carbon that leaves organic matter as CO2 in a time.
using RespirationRate = detail::Ratio<unit::per<detail::KgCarbon, detail::KgOrganic>, boost::units::si::time>;
/// Oxygen that organic matter takes up in a time, where it lies moist and airy.
using OxygenUptakeRate = detail::Ratio<unit::per<boost::units::si::amount, detail::KgOrganic>, boost::units::si::time>;
/// The same stirred in water, given as a mass of oxygen: another method, which does not convert.
using OxygenUptakeRateInWater = detail::Ratio<unit::per<detail::Kg, detail::KgOrganic>, boost::units::si::time>;
/// What salts in an extract conduct, S/m.
using ElectricConductivity = detail::Quantity<boost::units::si::conductivity>;

/// What people here measure in, as quantities: 4.0 * unit::foot. Exact by definition: the international yard and pound agreement of 1959,
/// the US gallon of 231 in³, the US (Winchester) bushel of 2150.42 in³.
namespace unit {
inline constexpr Length inch = 0.0254 * m;
inline constexpr Length foot = 12.0 * inch;
inline constexpr Length yard = 3.0 * foot;
inline constexpr Area square_foot = foot * foot;
inline constexpr Area square_yard = yard * yard;
inline constexpr Area acre = 4840.0 * yard * yard;
inline constexpr Volume cubic_inch = inch * inch * inch;
inline constexpr Volume cubic_foot = foot * foot * foot;
inline constexpr Volume cubic_yard = yard * yard * yard;
inline constexpr Volume gallon = 231.0 * cubic_inch;
inline constexpr Volume pint = gallon / 8.0;
inline constexpr Volume bushel = 2150.42 * cubic_inch;
inline constexpr Volume liter = 0.001 * m3;
inline constexpr Mass pound = 0.45359237 * kg;
inline constexpr Mass ounce = pound / 16.0;
inline constexpr Mass short_ton = 2000.0 * pound;
inline constexpr Mass gram = 0.001 * kg;
inline constexpr Mass metric_ton = 1000.0 * kg;
inline constexpr Duration hour = 3600.0 * s;
inline constexpr Duration day = 24.0 * hour;
inline constexpr Duration week = 7.0 * day;
}  // namespace unit

/// The number that a quantity is in a unit: the only way out of the types.
template <class Unit, class QuantityUnit>
requires boost::units::is_unit<Unit>::value constexpr double value_in(const Unit&,
                                                                      const boost::units::quantity<QuantityUnit, double>& quantity) {
  return static_cast<boost::units::quantity<Unit, double>>(quantity).value();
}
/// How often one quantity goes into another: value_in(unit::cubic_yard, volume). Both of one dimension: water in pounds is
/// value_in(unit::pound, as_is_mass(water)), in gallons value_in(unit::gallon, volume_of(water)).
template <class Unit, class QuantityUnit>
requires std::is_convertible_v<boost::units::quantity<QuantityUnit, double>, boost::units::quantity<Unit, double>>
constexpr double value_in(const boost::units::quantity<Unit, double>& one, const boost::units::quantity<QuantityUnit, double>& quantity) {
  return static_cast<boost::units::quantity<Unit, double>>(quantity).value() / one.value();
}

/// Whether there is any of it; not where it is no number.
template <class Quantity>
constexpr bool is_positive(const Quantity& quantity) {
  return quantity.value() > 0.0;
}

/// Whether a quantity that was worked out meets a bound: to a billionth, so that no rounding misses it. Not where it is no number.
template <class Quantity>
constexpr bool at_least(const Quantity& bound, const Quantity& quantity) {
  return quantity.value() >= bound.value() * (1.0 - 1e-9);
}
template <class Quantity>
constexpr bool at_most(const Quantity& bound, const Quantity& quantity) {
  return quantity.value() <= bound.value() * (1.0 + 1e-9);
}

/// The number that a quantity is in SI, whatever its dimension (kg, m, s, K and kg of each constituent).
template <class Unit>
double si_number(const boost::units::quantity<Unit, double>& quantity) {
  return quantity.value();
}

/// How far two quantities lie apart.
template <class Quantity>
constexpr Quantity apart(const Quantity& one, const Quantity& other) {
  return one < other ? other - one : one - other;
}

/// Carbon, nitrogen or organic matter of dry matter as the dry matter that it is.
template <class Unit>
DryMass as_dry_mass(const boost::units::quantity<Unit, double>& constituent) {
  return constituent.value() * unit::kg_dry;
}

/// A quantity from its SI number; for reading texts and solver results back, where the dimension was checked.
template <class Quantity>
Quantity from_si(double value) {
  return Quantity::from_value(value);
}

/// The number of water_density().
inline constexpr double water_kg_per_m3 = 1000.0;

/// Density of water, taken as 1000 kg/m³ at any temperature of a pile.
inline WaterDensity water_density() { return water_kg_per_m3 * unit::kg_water / unit::m3; }

/// As-is mass of dry matter and water together: the only sum that joins constituents.
inline Mass as_is_mass(DryMass dry, WaterMass water) { return (dry.value() + water.value()) * unit::kg; }

/// Water by itself, on the scales and in the can.
inline Mass as_is_mass(WaterMass water) { return as_is_mass(DryMass(), water); }
/// W/(1000 kg/m³).
inline Volume volume_of(WaterMass water) { return water / water_density(); }

/// Dry matter of an as-is mass: m (1 − M), M the wet-basis moisture in [0, 1].
inline DryMass dry_mass(Mass mass, MoistureWetBasis moisture) { return mass.value() * (1.0 - moisture.value()) * unit::kg_dry; }

/// As-is mass that holds some dry matter: D / (1 − M), M in [0, 1).
inline Mass as_is_mass_of(DryMass dry, MoistureWetBasis moisture) { return dry.value() / (1.0 - moisture.value()) * unit::kg; }

/// Wet-basis moisture of dry matter and water together: W / (D + W); D + W > 0.
inline MoistureWetBasis moisture_wet_basis(DryMass dry, WaterMass water) { return water / as_is_mass(dry, water); }

/// Dry basis from wet basis: M / (1 − M), M in [0, 1).
inline MoistureDryBasis to_dry_basis(MoistureWetBasis moisture) {
  return moisture.value() / (1.0 - moisture.value()) * (unit::kg_water / unit::kg_dry);
}

/// Wet basis from dry basis: w / (1 + w).
inline MoistureWetBasis to_wet_basis(MoistureDryBasis moisture) {
  return moisture.value() / (1.0 + moisture.value()) * (unit::kg_water / unit::kg);
}

/// Ash, the dry matter that is not organic.
inline DryMass ash_mass(DryMass dry, OrganicMass organic) { return (dry.value() - organic.value()) * unit::kg_dry; }

/// A content from a plain fraction of its basis, kg in a kg. No range is checked.
inline MoistureWetBasis wet_basis(double fraction) { return fraction * (unit::kg_water / unit::kg); }
inline CarbonDryBasis carbon_dry_basis(double fraction) { return fraction * (unit::kg_carbon / unit::kg_dry); }
inline NitrogenDryBasis nitrogen_dry_basis(double fraction) { return fraction * (unit::kg_nitrogen / unit::kg_dry); }
inline OrganicMatterDryBasis organic_dry_basis(double fraction) { return fraction * (unit::kg_organic / unit::kg_dry); }
/// A C:N from kg of carbon to a kg of nitrogen; a density from kg in a m³. No range is checked.
inline CarbonNitrogenRatio carbon_to_nitrogen(double kg_carbon_per_kg_nitrogen) {
  return kg_carbon_per_kg_nitrogen * (unit::kg_carbon / unit::kg_nitrogen);
}
inline BulkDensity bulk_density(double kg_per_m3) { return kg_per_m3 * (unit::kg / unit::m3); }
inline DryBulkDensity dry_bulk_density(double kg_dry_per_m3) { return kg_dry_per_m3 * (unit::kg_dry / unit::m3); }
inline ParticleDensity particle_density(double kg_dry_per_m3) { return kg_dry_per_m3 * (unit::kg_dry / unit::m3); }

}  // namespace heapwright
