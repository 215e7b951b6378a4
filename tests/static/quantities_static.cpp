// What the compiler can promise of the types, without running anything.
// tests/compile_fail has the mistakes that must not compile at all.
#include <type_traits>
#include <utility>

#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/units/temperature.hpp"

using namespace heapwright;

namespace {

template <class... T>
struct Types {};

using Quantities = Types<Length, Area, Volume, Duration, TemperatureDifference,                                                           //
                         Mass, DryMass, WaterMass, CarbonMass, NitrogenMass, OrganicMass, PhosphateMass, PotashMass,                      //
                         BulkDensity, ParticleDensity, WaterDensity, OrganicMatterDensity, MassPerArea,                                   //
                         MoistureWetBasis, MoistureDryBasis, CarbonDryBasis, NitrogenDryBasis, OrganicMatterDryBasis, PhosphateDryBasis,  //
                         PotashDryBasis, CarbonNitrogenRatio>;
using Shares = Types<ShareOfLooseVolume, AirSpace, ShareOfDryMatter, ShareOfVolatileSolids, ShareOfVolume>;
using Points = Types<TemperaturePoint>;

template <class... A, class... B>
constexpr Types<A..., B...> operator+(Types<A...>, Types<B...>) {
  return {};
}

template <class From, class... To>
constexpr int types_it_converts_into = (static_cast<int>(std::is_convertible_v<From, To>) + ...);

template <class... T>
constexpr bool each_converts_into_itself_alone(Types<T...>) {
  return ((types_it_converts_into<T, T...> == 1) && ...);
}

template <class... T>
constexpr bool none_is_a_number(Types<T...>) {
  return (!std::is_convertible_v<T, double> && ...) && (!std::is_constructible_v<T, double> && ...);
}

template <class... T>
constexpr bool each_costs_no_more_than_a_double(Types<T...>) {
  return ((sizeof(T) == sizeof(double) && alignof(T) == alignof(double)) && ...);
}

constexpr auto all = Quantities{} + Shares{} + Points{};
static_assert(each_converts_into_itself_alone(all));
static_assert(none_is_a_number(all));
static_assert(each_costs_no_more_than_a_double(all));
static_assert(sizeof(double) == 8);

// Products and quotients that must fit, so that the refusals mean something.
template <class Expression, class Named>
constexpr bool fits = std::is_convertible_v<Expression, Named>;

template <class A, class B>
using Product = decltype(A() * B());
template <class A, class B>
using Quotient = decltype(A() / B());

static_assert(fits<Product<DryMass, NitrogenDryBasis>, NitrogenMass>);
static_assert(fits<Product<DryMass, CarbonDryBasis>, CarbonMass>);
static_assert(fits<Product<DryMass, MoistureDryBasis>, WaterMass>);
static_assert(fits<Product<Mass, MoistureWetBasis>, WaterMass>);
static_assert(fits<Quotient<CarbonMass, NitrogenMass>, CarbonNitrogenRatio>);
static_assert(fits<Quotient<CarbonDryBasis, NitrogenDryBasis>, CarbonNitrogenRatio>);
static_assert(fits<Quotient<CarbonDryBasis, CarbonNitrogenRatio>, NitrogenDryBasis>);
static_assert(fits<Product<Volume, BulkDensity>, Mass>);
static_assert(fits<Product<Area, Length>, Volume>);
static_assert(fits<Product<Area, MassPerArea>, Mass>);

// The trade's classic mistakes: a content of dry matter put on the as-is mass, and a ratio upside down.
static_assert(!fits<Product<Mass, NitrogenDryBasis>, NitrogenMass>);
static_assert(!fits<Product<Mass, CarbonDryBasis>, CarbonMass>);
static_assert(!fits<Product<DryMass, MoistureWetBasis>, WaterMass>);
static_assert(!fits<Quotient<NitrogenMass, CarbonMass>, CarbonNitrogenRatio>);
static_assert(!fits<Product<Volume, ParticleDensity>, Mass>);

// Shares are checked where they are made, in a constant expression too.
static_assert(AirSpace::of(0.35).value() == 0.35);
static_assert(AirSpace::of(0.25).rest() == AirSpace::of(0.75));
static_assert(AirSpace::of(0.3) < AirSpace::of(0.35));

template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};
static_assert(Comparable<AirSpace, AirSpace>);
static_assert(!Comparable<AirSpace, ShareOfVolume>);
static_assert(!Comparable<AirSpace, double>);

// Points have differences, not sums or multiples.
template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Multipliable = requires(A a, B b) {
  a* b;
};
static_assert(std::is_same_v<decltype(std::declval<TemperaturePoint>() - std::declval<TemperaturePoint>()), TemperatureDifference>);
static_assert(Addable<TemperaturePoint, TemperatureDifference>);
static_assert(!Addable<TemperaturePoint, TemperaturePoint>);
static_assert(!Multipliable<TemperaturePoint, double>);
static_assert(!std::is_default_constructible_v<TemperaturePoint>);
static_assert(!std::is_default_constructible_v<AirSpace>);

}  // namespace
