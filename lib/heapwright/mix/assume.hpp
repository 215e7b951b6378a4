#pragma once
/// What a mix takes for granted of its supplies, and how much each of it matters.

#include <optional>
#include <string>
#include <tuple>
#include <vector>

#include "heapwright/materials/assumption.hpp"
#include "heapwright/mix/supply.hpp"

namespace heapwright {

struct Taken;

/// What a supply's figures take for granted: its amount where that is estimated, container, density, moisture, carbon, C:N, each with
/// its range and whose it is; and, without a range, what the person measured.
std::vector<Assumption> assumptions_of(const Supply& supply, const Materials& materials);

/// The figure that an assumption is about, however it is said: feedstock, figure, and which of its packings, containers, handfuls or
/// estimates. Shredded leaves lie as they do whether they were counted so or shredded on the way.
using FigureInUse = std::tuple<std::string, Figure, std::string>;
FigureInUse figure_in_use(const Assumption& assumption);

/// By how much a mix changes when an assumption about one of its ingredients goes from its low to its high end and all else stays:
///
///     √( Σ ((max − min)/|typical|)² )        over C:N, moisture and volume, each at low, typical and high;
///                                            over the largest of the three where the typical is 0
///
/// The person is taken to do as the screen says: so many containers where they count containers, so many pounds where they weigh. Nothing
/// where the assumption has no range or the mix no C:N.
std::optional<double> change_of_mix(const Blend& blend, std::size_t ingredient, const Taken& taken, const Assumption& assumption);

/// A measurement that a person can make in a yard.
enum class HowToMeasure {
  weigh,  ///< a full container: gives the bulk density
  dry,    ///< a handful: gives the moisture
  count,  ///< the containers, in place of an estimate
};

/// The key of a supply that takes what was measured: "weighed".
std::string_view measuring_word(HowToMeasure how);

/// One of them, with what it is worth.
struct Measurement {
  HowToMeasure how;
  std::string feedstock;  ///< its id
  std::string name;       ///< its name
  Container container;    ///< to weigh or to count
  double narrows_by;      ///< how much less the answer can change then
};

/// Of the measurements that can be made of a blend's ingredients, the one that narrows its answer most, if it is worth the trouble. The
/// answer's width is √Σ of the squared change_of_mix() of all its assumptions; each measurement is taken in turn, with the figure that is
/// used anyway as its result, and what it leaves is worked out anew.
/// @param taken of each ingredient of the blend, in its order
std::optional<Measurement> measure_first(const Blend& blend, const std::vector<Taken>& taken, const Materials& materials);

/// The most important first; those whose weight nobody knows last, in their order.
void order_by_weight(std::vector<Assumption>& assumptions);

}  // namespace heapwright
