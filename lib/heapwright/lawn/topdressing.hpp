#pragma once
/// Compost spread on a lawn: how deep, how often, how much of it, and how far a given volume goes.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/lawn/compost_analysis.hpp"
#include "heapwright/lawn/compost_fitness.hpp"
#include "heapwright/lawn/lawn.hpp"
#include "heapwright/lawn/nutrients.hpp"
#include "heapwright/lawn/soil_test.hpp"
#include "heapwright/lawn/spread.hpp"
#include "heapwright/lawn/spreading.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/answer.hpp"
#include "heapwright/order/order.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/band.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// By when it grows.
enum class Grass { cool_season, warm_season };
/// Each with its word in a yard file.
const std::vector<std::pair<std::string, Grass>>& grass_words();

/// What [topdressing] and [soil_test] say.
struct TopdressingPlan {
  std::optional<Length> depth;             ///< usual_depth() of the surface where nobody said
  std::optional<Grass> grass;              ///< grass_of() where nobody said
  std::vector<std::chrono::month> months;  ///< when; once a year in the season of the grass where empty
  Surface surface = Surface::lawn;
  bool near_water = false;
  bool steep = false;
  bool frozen_or_snow = false;
  std::optional<ShareOfVolume> allowance;  ///< allowance_of() where nobody said
  std::string compost = "yard-trimmings";
  std::optional<CompostAnalysis> analysis;  ///< of the compost to be bought, in place of the table's figures
  std::optional<Length> own_screened;
  std::vector<Offer> offers;
  std::vector<FixedCost> fixed_costs;
  std::optional<SoilTest> soil_test;
  std::vector<Spread> spreads;  ///< before now
};

/// For overlap, lumps and settling in haulage: the plan's own, else what was used before, else 5 % (judged).
ShareOfVolume allowance_of(const TopdressingPlan& plan);
std::string whose_allowance(const TopdressingPlan& plan);

/// Above this a living lawn is warned about, and above the next refused (no source seen recommends more than half an inch on live turf in
/// one pass).
inline const Length depth_to_warn_at = 0.375 * 0.0254 * unit::m;
inline const Length depth_to_refuse = 0.5 * 0.0254 * unit::m;
/// The thinnest that is usual, a rate that a trial spread (Colorado State University, Applied Turfgrass Science 2006, seen).
inline const Length thinnest_usual_depth = 0.125 * 0.0254 * unit::m;

/// Deeper than that on bare ground it is warned of: tilled in it is what establishment of turf takes (US Composting Council, seen, one to
/// two inches).
inline const Length depth_to_warn_at_on_bare_ground = 2.0 * 0.0254 * unit::m;
/// More than that in a year a living lawn is warned of. Judged: trials that spread 0.24 and 0.47 in twice a year left more phosphorus than
/// grass takes (Petrovic and others, Acta Horticulturae 783, seen).
inline const Length depth_a_year_to_warn_at = 0.5 * 0.0254 * unit::m;

/// A quarter inch on a living lawn; an inch on bare ground, to be tilled in (University of Maryland Extension TT-120, 2015, seen).
Length usual_depth(Surface surface);

/// Cool-season grass where nobody said; judged.
Grass grass_of(const TopdressingPlan& plan);

/// Whether a grass grows enough to take compost: cool-season grass from March to June and August to October, warm-season grass from April
/// to August. Common practice, no source; within it lie the months that were published (April, May and September: City of Snoqualmie;
/// spring and late summer: Cumberland County SWCD, seen).
bool takes_compost_in(Grass grass, std::chrono::month month);

/// Reads [topdressing] with its analysis, and [soil_test]. Depths are checked against the surface by check_depth().
TopdressingPlan read_topdressing(Table& root, const Materials& materials);

/// Its own, else the plan's.
Surface surface_of(const Zone& zone, const TopdressingPlan& plan);
/// Its own, else the plan's, else the usual one of its surface.
Length depth_of(const Zone& zone, const TopdressingPlan& plan);
/// The plan's depth where a zone has none of its own.
Length depth_of(const TopdressingPlan& plan);

/// @throws DomainError where a living lawn would get more than half an inch
void check_depth(Length depth, Surface surface);

/// A figure of the tables that a topdressing is worked out with, and whose it is.
struct CompostWeight {
  std::string name;  ///< of the compost
  PublishedValue<BulkDensity> density;
  std::string source;
};
struct BarrowLoad {
  Volume volume;
  std::string source;
};

/// What one zone takes.
struct ZoneDressing {
  std::string name;
  Area area;
  std::optional<Area> spread;  ///< of the area, either way (spread_of())
  Length depth;
  Surface surface = Surface::lawn;
  Volume volume;                 ///< on the ground
  Volume volume_with_allowance;  ///< carried there
  double wheelbarrow_loads = 0.0;
};

/// Whether all zones take the same.
bool are_of_one_depth(const std::vector<ZoneDressing>& zones);

/// What the assumption about the area is called.
inline constexpr std::string_view area_of_the_lawn = "area of the lawn";

/// What a lawn takes, and what that brings.
struct Topdressing {
  Area area;
  std::optional<Area> spread;  ///< of the area, either way, where it is known how each zone was measured
  Length depth;                ///< the mean over the zones
  Volume volume;
  Volume volume_with_allowance;
  Volume per_year;
  Area covers;                           ///< what a given volume covers; of the volume with allowance without one: the area
  std::optional<LikelyBand<Mass>> mass;  ///< of the volume with allowance
  double wheelbarrow_loads = 0.0;
  std::optional<CompostWeight> weight;    ///< what the mass follows from
  std::optional<BarrowLoad> wheelbarrow;  ///< and the loads
  int times_a_year = 1;
  Nutrients nutrients;                   ///< of one spreading, at the mean depth
  std::optional<NitrogenCredit> credit;  ///< against what the laboratory recommends for a year
  CompostContents contents;              ///< what they follow from
  CompostFitness fitness;                ///< of the compost by its analysis, where it was asked for (judge_compost)
  SpreadingAdvice advice;                ///< whether to spread at all
  bool deep = false;                     ///< more than 3/8 in on a living lawn
  bool deep_on_bare = false;             ///< more than 2 in on bare ground
  bool deep_in_a_year = false;           ///< more than half an inch on a living lawn in a year, with what lies there already
  std::vector<ZoneDressing> zones;

  std::optional<Ordering> ordering;  ///< where it was asked for (order_for)
  std::string phone_line;            ///< of that (order/phone_line.hpp)

  /// What was asked.
  TopdressingPlan plan;
  Lawn lawn;
};

/// Volume = Σ area × depth over the zones; a quarter inch on 1000 ft² is 0.772 yd³.
/// @param today by which a soil test may be too old; nothing where no day is told
/// @throws DomainError as check_depth(), or for a lawn without area
Answer<Topdressing> topdress(const Lawn& lawn, const TopdressingPlan& plan, const Materials& materials,
                             const std::optional<Date>& today = std::nullopt);

/// What is asked of the offers of its plan: those too coarse for it are left out where there are others.
OrderQuestion order_question(const Topdressing& topdressing);

/// What to order for a topdressing on a day, by the offers of its plan.
void order_for(Topdressing& topdressing, Date today, bool metric, const Materials& materials);

/// Holds the supplier's analysis against the limits for lawns, and says so in the advice.
void judge_compost(Topdressing& topdressing, const Criteria& criteria);

/// Its compost is bought: the cautions for that too.
void mind_bought_compost(Answer<Topdressing>& answer, const Materials& materials);

/// What is hauled weighs: all that is ordered, else what it takes.
std::optional<LikelyBand<Mass>> mass_hauled(const Topdressing& topdressing);

/// What a lawn takes at the depths of its zones, with the allowance: Σ area × depth × (1 + allowance).
Volume volume_for(const Lawn& lawn, const TopdressingPlan& plan);

/// The coarsest that compost for it is screened to: 3/8 in on a living lawn (University of Delaware Cooperative Extension, 2009, seen), 1/2
/// in where all of it is tilled in (Penn State, Landschoot, UC123, secondary).
Length coarsest_screen(const Topdressing& topdressing);

/// When a lawn of it grows, and compost is spread on it. Common practice, no source.
std::string_view season_for(Grass grass);
/// What to wait for where it does not grow: "spring".
std::string_view next_season_of(Grass grass, std::chrono::month month);

/// The facts of a topdressing that call for cautions.
Facts facts_of(const TopdressingPlan& plan);

/// The area that a volume covers at a depth, after the allowance: volume / (1 + allowance) / depth.
/// @throws DomainError for a depth that is not above zero (NaN too)
Area area_covered(Volume volume, const TopdressingPlan& plan);

}  // namespace heapwright
