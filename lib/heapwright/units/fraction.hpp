#pragma once
/// Shares of like things, which Boost.Units would let decay into bare numbers.

#include "heapwright/error.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

namespace detail {
[[noreturn]] void refuse_fraction(double value);
}

/// A number in [0, 1] that says of what it is a share. Fractions of different bases do not mix.
template <class Basis>
class Fraction {
 public:
  /// @throws DomainError unless 0 <= value <= 1 (NaN fails too)
  static constexpr Fraction of(double value) {
    if (!(value >= 0.0 && value <= 1.0)) detail::refuse_fraction(value);
    return Fraction(value);
  }
  constexpr double value() const { return value_; }  ///< in [0, 1]
  /// What the share leaves: 1 − value.
  constexpr Fraction rest() const { return Fraction(1.0 - value_); }
  /// By value.
  friend constexpr auto operator<=>(const Fraction&, const Fraction&) = default;

  /// So much of a quantity, and what a quantity is so much of.
  template <class Unit>
  friend constexpr detail::Quantity<Unit> operator*(Fraction share, const detail::Quantity<Unit>& whole) {
    return share.value_ * whole;
  }
  template <class Unit>
  friend constexpr detail::Quantity<Unit> operator/(const detail::Quantity<Unit>& part, Fraction share) {
    return part / share.value_;
  }

 private:
  explicit constexpr Fraction(double value) : value_(value) {}
  double value_;
};

struct OfLooseVolume;     ///< a feedstock's volume of all loose volumes; a settled volume of the loose one
struct OfMass;            ///< a feedstock's as-is mass of all
struct OfPileVolume;      ///< air of the settled pile
struct OfDryMatter;       ///< ash of the dry matter
struct OfVolatileSolids;  ///< degradable, or lost, of the organic matter
struct OfVolume;          ///< an allowance on, or what a screen holds back of, a volume of compost

/// Shares by what they are of. Another basis does not convert.
using ShareOfLooseVolume = Fraction<OfLooseVolume>;
using ShareOfMass = Fraction<OfMass>;
using AirSpace = Fraction<OfPileVolume>;
using ShareOfDryMatter = Fraction<OfDryMatter>;
using ShareOfVolatileSolids = Fraction<OfVolatileSolids>;
using ShareOfVolume = Fraction<OfVolume>;

/// What solids and water leave of a settled pile's volume: at most all of it, and below 0 where they need more room than that.
class AirLeft {
 public:
  /// @throws DomainError unless value <= 1 (NaN fails too)
  static constexpr AirLeft of(double value) {
    if (!(value <= 1.0)) detail::refuse_fraction(value);
    return AirLeft(value);
  }
  constexpr double value() const { return value_; }
  friend constexpr auto operator<=>(const AirLeft&, const AirLeft&) = default;
  /// Against the least that is wanted.
  friend constexpr auto operator<=>(const AirLeft& left, const AirSpace& wanted) { return left.value_ <=> wanted.value(); }
  /// By how much of the volume it is less than that; below 0 where it is more.
  friend constexpr double short_of(const AirLeft& left, const AirSpace& wanted) { return wanted.value() - left.value_; }

 private:
  explicit constexpr AirLeft(double value) : value_(value) {}
  double value_;
};

}  // namespace heapwright
