#pragma once
/// The same pile under other choices: larger or smaller, wetter or drier, in another season, turned otherwise.

#include <string_view>
#include <vector>

#include "heapwright/plan/answers.hpp"

namespace heapwright {

/// What is changed of a yard, one thing at a time.
enum class PileChange {
  as_it_is,
  larger,          ///< twice as much of all that goes in, and of the room: each side times the cube root of 2
  smaller,         ///< half as much, likewise
  kept_moist,      ///< watered whenever it is dry
  not_watered,     ///< where it would be
  covered,         ///< where nobody waters it: no rain gets in either
  in_spring,       ///< built on the next April 15
  in_late_fall,    ///< built on the next November 15
  turned_weekly,   ///< every 7 days
  turned_monthly,  ///< every 30 days
  never_turned,
};
/// "never-turned", for other programs.
std::string_view change_word(PileChange change);

/// A yard under a change; its file so changed forecasts the same. @pre it has a pile
Yard changed(Yard yard, PileChange change, Date today);

/// Which changes are worth a row, at most eight: those that change something, of the two seasons the one farther off. A pile that stands is
/// neither larger nor built on another day. Where there would be nine, a turning each month is left out.
std::vector<PileChange> changes_for(const Yard& yard, Date today);

/// A row.
struct ComparedPile {
  PileChange change = PileChange::as_it_is;
  YardForecast forecast;
  bool same_as_it_is = false;  ///< it makes no difference that anybody would notice
};

/// All rows.
struct PileComparison {
  std::vector<ComparedPile> piles;  ///< as it is first
  bool stands = false;              ///< so that neither its size nor its day can change
  bool kept_moist = false;          ///< as it is, so that no row is wetter
};

/// Whether two come to the same: as many of ten get hot, to the half of one; ready in the same half-months; compost and water to 1 %.
bool come_to_the_same(const YardForecast& one, const YardForecast& other);

/// A forecast of each, which is computed once. Its grounds are those of the pile as it is.
/// @throws DomainError without a climate or a pile
Answer<PileComparison> compare_piles(const Yard& yard, Date today, const Progress& progress = {});

/// When it is ready for turf, whichever way it goes.
ReadyWindow ready_for_turf(const Forecast& forecast);

}  // namespace heapwright
