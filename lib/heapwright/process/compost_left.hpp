#pragma once
/// The compost that a pile leaves.

#include "heapwright/materials/materials.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// Dry density of screened compost by its organic matter OM:
///
///     1/ρ = OM/204 + (1 − OM)/1154        kg dry matter per m³
///
/// The specific volumes of organic and mineral matter add, as they do in soils. Fitted to ten finished composts as a laboratory measured
/// them (cftp-2023 of sources.toml), of which it misses one by its logarithm's standard deviation of 0.24.
/// @param organic from 0 to 1
DryBulkDensity finished_density(OrganicMatterDryBasis organic, const YieldRule& rule);

/// Compost as it is spread, of one pile.
struct CompostLeft {
  DryMass dry;
  OrganicMatterDryBasis organic;
  BulkDensity density;  ///< as it is spread
  Mass mass;
  Volume volume;
};

/// What of a pile passes a screen: what wood is too coarse stays, and of the rest a share is held back.
///
///     d = (D − coarse)(1 − held)        OM = (VS − coarse)/(D − coarse)        volume = d/ρ(OM)        mass = d/(1 − M)
///
/// M the moisture at use. All zero where D is all coarse. @param organic VS, volatile solids left @param coarse wood of them, at most D
CompostLeft compost_left(DryMass dry, OrganicMass organic, OrganicMass coarse, ShareOfVolume held_back, const YieldRule& rule);

/// Low, likely and high, eight times in ten.
struct CompostYield {
  Volume low;
  Volume likely;
  Volume high;
};
/// So many times as much.
CompostYield operator*(double share, const CompostYield& yield);

/// A volume with what is not known of it: of the density, of what the screen holds back, and of what is left, each by the standard
/// deviation s of its logarithm, independent of the others:
///
///     likely / t, likely, likely × t        t = spread_times(√Σ s²)
///
/// That all three are independent and their logarithms normal is judged.
CompostYield yield_about(Volume likely, double spread_of_dry, const YieldRule& rule);

/// The standard deviation of the logarithm of a value of which low and high, above 0, hold eight of ten: ln(high/low)/(2 · 1.2816), the
/// normal distribution's; 0 where they are alike or none.
double spread_between(double low, double high);
template <class Unit>
double spread_between(const boost::units::quantity<Unit, double>& low, const boost::units::quantity<Unit, double>& high) {
  return is_positive(low) ? spread_between(1.0, high / low) : 0.0;
}
/// By how many times a value of such a standard deviation is off, nine times in ten no more to either side: exp(1.2816 s).
double spread_times(double spread);

}  // namespace heapwright
