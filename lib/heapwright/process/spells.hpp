#pragma once
/// A forecast as its owner will see it: half-months in which the pile feels the same, one after another.

#include <vector>

#include "heapwright/process/forecast.hpp"

namespace heapwright {

/// How a pile feels, and works, by its core. Bounds judged; the last is hot_core.
enum class Warmth {
  frozen,  ///< or nearly: it rests
  cold,    ///< it hardly works
  cool,    ///< it works slowly
  warm,    ///< it works well
  hot,     ///< it works hardest
};
inline const TemperaturePoint thawed_core =
    TemperaturePoint::from_celsius(1.0);  ///< at or below it is frozen or nearly: the core thaws last
inline const TemperaturePoint cool_core = warm_enough;
inline const TemperaturePoint warm_core = TemperaturePoint::from_celsius(25.0);
/// By the bounds above.
Warmth warmth_of(TemperaturePoint core);

/// Days in a row, by half-months, in which it feels the same.
struct Spell {
  Date from;
  Date to;
  Warmth warmth = Warmth::cool;
  bool dry = false;                                             ///< it stands still, like the air
  TemperaturePoint core = TemperaturePoint::from_celsius(0.0);  ///< of its warmest day; of a cold spell, of the coldest of its half-months
};

/// A half-month feels as its warmest day does: a warm week in a cold month is what its owner sees. What is dry is never more than cool.
std::vector<Spell> spells_of(const Forecast& forecast);

}  // namespace heapwright
