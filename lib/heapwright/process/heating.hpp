#pragma once
/// Whether a pile gets hot soon after it is built, which small differences decide where it is small, loose, lean or built in the cold.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/process/ready_window.hpp"
#include "heapwright/process/trajectory.hpp"

namespace heapwright {

struct Materials;
struct PileToBuild;
struct ProcessEnsemble;

inline constexpr int days_to_heat = 30;        ///< in which a pile gets hot, or does not
inline constexpr double likely_to_heat = 0.5;  ///< chance from which more such piles get hot than do not

/// What is said of a pile by how many of ten such piles get hot. Judged.
enum class Heating {
  will,        ///< eight or more
  may,         ///< between two and eight: there are two ways that it can go
  hardly,      ///< two or fewer
  not_at_all,  ///< none, ever
};
std::string_view heating_word(Heating heating);

/// One of the ways that it can go.
struct HeatingBranch {
  ReadyWindow hot_from;  ///< the first hot day; of piles that do not heat at once it comes in spring, if at all
  ReadyWindow turf;
  ReadyWindow mature;
};

/// What makes it likelier that a pile gets hot.
enum class HeatingChange {
  half_as_much_again,  ///< of the same mix
  greener,             ///< with a C:N of 27, as heavy as before
  packed_closer,       ///< a quarter denser
  two_weeks_earlier,
};
std::string_view change_word(HeatingChange change);

/// A change, and the chance that the pile has with it.
struct WhatWouldTip {
  HeatingChange change;
  double chance;
  std::map<std::string, double> amounts{};  ///< of a greener mix: how many times as much of each part, by its id
};

/// Whether it gets hot, which ways it can go, and what would change that.
struct HeatsOrNot {
  double chance = 0.0;   ///< share of the sets whose core is hot within days_to_heat
  int counted_from = 0;  ///< of the days, the one from which they are counted
  Heating heating = Heating::not_at_all;
  std::optional<HeatingBranch> if_it_heats;    ///< where it will or may
  std::optional<HeatingBranch> if_not;         ///< where it may or hardly does, or not at all
  std::vector<WhatWouldTip> what_would_tip{};  ///< what helps by 0.15 or more, the most first
  bool by_its_log = false;                     ///< whether sets were left out that a log rules out
  bool log_disagrees = false;                  ///< whether it rules out all of them, or nearly: then none were, and no date holds

  /// Whether it can go two ways, and whether the hot one is the likelier.
  bool is_open() const { return heating == Heating::may; }
  bool is_likely() const { return chance >= likely_to_heat; }
};

/// What a log shows of a pile's heating, by the days after it was built on which it was read.
struct SeenHeating {
  std::optional<int> hot_day;    ///< the first on which it was read hot
  std::vector<int> cool_days{};  ///< before that, on which it was not
};

/// The day from which days_to_heat are counted: the one it is built on, or on which half of all is in of a pile that is fed.
int counted_from(const Trajectory& trajectory);

/// Whether a trajectory gets hot in time.
bool heats_in_time(const Trajectory& trajectory, int counted_from);

/// Whether a trajectory does as a log shows: it heats in time where it was read hot in time; else it is hot on none of the days on which
/// the pile was read cool. Days without a reading tell nothing.
bool agrees(const Trajectory& trajectory, int counted_from, const SeenHeating& seen);

/// By the share of sets that heat: 0.8 and more will, 0.2 and less hardly; not at all where none ever does. Judged.
Heating heating_of(double chance, bool ever);

/// What would tip a pile that may not heat: all sets run again with each change, until they are hot. What helps by less than 0.15 is not
/// said. A mix of a C:N of 27 or less is green enough, and more is not asked for where it would not fit.
/// @param chance as it is @param days in which a set must be hot
std::vector<WhatWouldTip> what_would_tip(const PileToBuild& pile, const Weather& weather, const Materials& materials,
                                         const ProcessEnsemble& ensemble, double chance, int days);

}  // namespace heapwright
