#pragma once
/// Whether to spread compost on a lawn at all.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/lawn/lawn.hpp"
#include "heapwright/lawn/soil_test.hpp"

namespace heapwright {

struct TopdressingPlan;

/// What the soil test says of phosphorus. Only the laboratory's own word decides.
enum class PhosphorusVerdict {
  no_test,
  not_tested,    ///< a soil test without phosphorus
  hold,          ///< high, very high, excessive, above optimum: none until an extension office clears it
  go,            ///< optimum, medium, low
  figure_alone,  ///< the laboratory's word is asked for
  unknown_word,  ///< likewise
};
/// "hold", for other programs.
std::string_view phosphorus_verdict_word(PhosphorusVerdict verdict);

/// Ground that falls so much is warned of. Judged: no published limit was seen, and local rules come first.
inline constexpr double steep_from = 0.10;

/// Whether to spread, and what to mind.
struct SpreadingAdvice {
  PhosphorusVerdict phosphorus = PhosphorusVerdict::no_test;
  SoilTestAge soil_test_age = SoilTestAge::not_known;
  bool compost_too_salty = false;                   ///< by the supplier's analysis (judge_compost() in topdressing.hpp)
  bool frozen_or_snow = false;                      ///< none until it has thawed; common practice, no source
  bool out_of_season = false;                       ///< the grass does not grow on that day, and nobody said when to spread
  std::string_view wait_for;                        ///< then what comes next: "spring"
  std::vector<std::chrono::month> months_it_rests;  ///< of those that the plan names
  bool near_water = false;                          ///< keep back, as far as the county says
  bool steep = false;                               ///< as the file says
  std::vector<std::string> steep_zones;             ///< whose slope says so

  /// Spread none for now.
  bool is_hold() const { return phosphorus == PhosphorusVerdict::hold || compost_too_salty || frozen_or_snow; }
  /// Only the laboratory can say whether phosphorus is high.
  bool asks_laboratory() const { return phosphorus == PhosphorusVerdict::figure_alone || phosphorus == PhosphorusVerdict::unknown_word; }
};

/// By the soil test and the ground. Of a day that nobody tells no test is too old.
SpreadingAdvice spreading_advice(const Lawn& lawn, const TopdressingPlan& plan, const std::optional<Date>& today,
                                 const NutrientKnowledge& knowledge);

}  // namespace heapwright
