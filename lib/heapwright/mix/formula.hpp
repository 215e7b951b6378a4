#pragma once
/// The formulas of a mix, each of them once: on quantities they calculate, and their types hold the bases; on terms of a working they write
/// themselves down as well (working/step.hpp).
///
/// Letters: as-is mass m, wet-basis moisture M, dry matter d, a share of dry matter s (carbon, nitrogen, organic matter), bulk density ρ,
/// particle density p; of the whole mix water W, dry matter D, carbon C, nitrogen N, its solids' volume S, its volume V, and the density of
/// water z. B.C. Agricultural Composting Handbook, 2nd ed. 1998, Appendix A2/A3, seen.

#include "heapwright/units/quantities.hpp"

namespace heapwright::mix_formula {

/// m M
template <class Whole, class Moisture>
auto water(const Whole& m, const Moisture& M) {
  return m * M;
}
/// d s: carbon, nitrogen, organic matter
template <class Dry, class Share>
auto part_of_dry_matter(const Dry& d, const Share& s) {
  return d * s;
}
/// m/ρ
template <class Whole, class Density>
auto loose_volume(const Whole& m, const Density& rho) {
  return m / rho;
}
/// d/p
template <class Dry, class Density>
auto solids_volume(const Dry& d, const Density& p) {
  return d / p;
}
/// C/N of the sums: averaging the ratios of the parts gives another, wrong number
template <class Carbon, class Nitrogen>
auto carbon_to_nitrogen(const Carbon& C, const Nitrogen& N) {
  return C / N;
}
/// W/(W + D), the sum given
template <class Water, class Whole>
auto moisture(const Water& W, const Whole& total) {
  return W / total;
}
/// 1 − (S + W/z)/V
template <class Space, class Water, class Density>
auto air(const Space& S, const Water& W, const Density& z, const Space& V) {
  return 1.0 - (S + Space(W / z)) / V;
}

}  // namespace heapwright::mix_formula
