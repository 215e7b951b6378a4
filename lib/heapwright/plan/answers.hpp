#pragma once
/// The single answers about a yard, of which a plan is made: its mix, its recipe, its pile, its forecast, its maturity.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/maturity/criteria.hpp"
#include "heapwright/maturity/log_summary.hpp"
#include "heapwright/maturity/next_steps.hpp"
#include "heapwright/maturity/report_line.hpp"
#include "heapwright/maturity/scale_in_doubt.hpp"
#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/pile/pile.hpp"
#include "heapwright/plan/compost_yield.hpp"
#include "heapwright/plan/season_of_yard.hpp"
#include "heapwright/process/forecast.hpp"
#include "heapwright/process/rate.hpp"
#include "heapwright/recipe/recipe.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// Why a supply that is listed is not in the mix of what is on hand.
enum class WhyNotMixed { to_buy, no_amount, none_that_day };
struct NotMixed {
  std::string name;
  WhyNotMixed why;
};

/// What all that is on hand makes together, with some water.
struct MixOnHand {
  std::optional<Mix> mix;  ///< nothing where nothing is on hand
  Batch batch;             ///< what the mix was made of
  std::vector<NotMixed> not_mixed;
};
/// Supplies with an amount, not bought, each by what is on hand on the day.
Answer<MixOnHand> mix_on_hand(const Yard& yard, WaterMass added_water, Date today);

/// The recipe of a yard's first pile.
Answer<Recipe> first_recipe(const Yard& yard, Date today);

/// The pile of a yard with what its recipe puts in, where that comes to a size: described, or suggested.
Answer<PileFit> pile_of(const Yard& yard, const Answer<Recipe>& recipe, Date today);

/// How it is known that a pile is there.
enum class Stands {
  by_date,   ///< on the day it was to be built, which is past: taken as built by its recipe
  by_word,   ///< the file says that it stands
  by_loads,  ///< the file says what went in
};
/// Nothing where the pile is still to be built.
std::optional<Stands> stands_by(const Yard& yard, Date today);

/// The pile of a yard through time. Of several piles the first, which is the fullest.
struct YardForecast {
  std::optional<Forecast> forecast;   ///< nothing where nothing with a size is to put in, or too little
  bool too_little = false;            ///< to forecast
  bool age_unknown = false;           ///< it stands, and nobody says since when
  bool nothing_rots = false;          ///< or as good as nothing: soil, finished compost
  std::optional<Volume> volume;       ///< of what the first pile is filled with, all at once or in the first week
  int piles = 1;                      ///< that are filled
  double fills = 1.0;                 ///< as many piles as all of it would fill
  std::vector<RecipeAmount> amounts;  ///< that the mix is made of
  PileCare care;
  std::optional<Mix> mix;  ///< of all that goes in
  Targets targets;
  bool on_target = true;              ///< whether that is inside them
  bool can_be_built_earlier = false;  ///< by two weeks, as of today
  bool week_by_week = false;
  std::optional<YardSeason> season;      ///< of which it is fed, where it is
  int weeks_fed = 0;                     ///< after its first filling
  std::optional<Stands> stands;          ///< nothing where it is to be built
  double goes_in = 1.0;                  ///< in all, over the mix
  std::optional<CompostYield> screened;  ///< of all that is put in; none where it is never ready
  YieldRule yield;                       ///< that it follows from
  double such_piles = 1.0;               ///< that all of it makes, over the one that is followed
  Mass mass;                             ///< of that when it is ready, unscreened, else at the end
  Volume finished_volume;
  std::optional<RateFit> rate;  ///< that a log of it shows; the forecast goes by it where it tells something
};

/// Whether what does not fit at once, up to half as much again (judged), goes in as it sinks; more is enough for another pile.
bool rest_goes_in_as_it_sinks(const YardForecast& answer);

/// The forecast of a yard's pile. One that is filled as it comes gets the loads of its season too, while there is room.
/// @param recipe recipe_in_pile() of loaded.hpp
/// @param log of that pile, which corrects the forecast; nothing where there is none
/// @throws DomainError without a climate
Answer<YardForecast> forecast_of(const Yard& yard, const Answer<Recipe>& recipe, Date today, const TemperatureLog* log = nullptr,
                                 const Progress& progress = {});

/// Whether what went into a pile meets a rule on its C:N.
struct StartingRatio {
  const StartingRatioRule* rule = nullptr;
  std::optional<CarbonNitrogenRatio> carbon_to_nitrogen;  ///< nothing where nobody knows what went in
  std::optional<bool> met;
};

/// Browns that a plan left standing by, and how much of them a pile bears.
struct KeptBrowns {
  RecipeAmount kept;
  RecipeAmount at_most;           ///< of that: with more the C:N goes above its window
  bool is_all_that_fits = false;  ///< a tumbler has room for no more
};

/// A pile as it was built: of the amounts of its recipe, without the water that they want.
struct PileAsBuilt {
  Yard yard;                              ///< whose supplies are what went in, all of it
  Answer<Recipe> recipe;                  ///< of that: what would set it right
  bool as_planned = false;                ///< the recipe left some of what is on hand
  WaterMass watered;                      ///< as its recipe says
  std::optional<KeptBrowns> kept_browns;  ///< the most of them
};
/// What went in by its recipe, as a yard of its own.
/// @param recipe of the yard's first pile
PileAsBuilt pile_as_built(const Yard& yard, const Answer<Recipe>& recipe, Date today);

/// Whether water is worth a word: half a liter or less is none that anyone carries to a pile.
inline bool is_carried(WaterMass water) { return water > 0.5 * unit::liter * water_density(); }

/// What was noticed of a pile, and what mends it. Points into the tables of its yard.
struct NoticedSign {
  const Symptom* symptom = nullptr;
  const Cause* cause = nullptr;            ///< the likeliest, in the light of the yard; of none the commonest
  std::vector<const Cause*> other_causes;  ///< that hold of the yard too; of none all of them
  bool in_a_tumbler = false;
  bool pile_is_known = false;             ///< whether anything is known of the pile
  bool is_measured = false;               ///< a thermometer has shown that it is so: nobody need look first
  bool as_planned = false;                ///< what went in is by the recipe, which left some of what is on hand
  std::vector<RecipeAmount> fix;          ///< to add to what went in; nothing where nothing is to be added
  WaterMass water;                        ///< likewise
  WaterMass watered;                      ///< what it was given by its recipe, which the fix counts
  bool is_mended_with = false;            ///< what is added for a sign before it mends this one too
  std::optional<KeptBrowns> kept_browns;  ///< to fork in, where the cause asks for browns
  std::optional<Mix> mix;                 ///< what went in, with the water that the fix counts
  std::optional<Mix> mended;              ///< with the fix
  bool overfills = false;                 ///< with the fix there is more than the pile holds

  /// Whether water is a part of what mends it.
  bool takes_water() const { return is_carried(water); }
};

/// The likeliest cause of a symptom, and what mends it: solved again with what went in fixed.
/// @param yard whose tables the sign points into
/// @param pile nothing where the yard lists no supplies
/// @param symptom id of one
/// @param shown what its readings show
NoticedSign noticed_in(const Yard& yard, const PileAsBuilt* pile, std::string_view symptom, Date day, const Circumstances& shown);

/// Readings whose dates can hardly be right.
struct DatesInDoubt {
  int count = 0;
  Date first;
  Date last;
};

/// A sign whose date can hardly be right. Points into the tables of its yard.
struct SignInDoubt {
  const Symptom* symptom = nullptr;
  Date date;
};

/// A log of a pile: held against the rules, looked at as a gardener does, and taken up by the forecast.
struct YardReadings {
  std::optional<TemperatureLog> log;  ///< nothing where nothing was measured
  bool smokes = false;                ///< so that nobody should go near, whatever else is to be done
  std::chrono::seconds gap = usual_gap;
  std::vector<RuleResult> rules;  ///< in the order of the table
  const CountedOtherwise* not_in_a_row = nullptr;
  std::vector<const DiesAt*> dies_at;  ///< what heat is said to do to weed seeds and germs
  const OnlyWhatWasHot* only_what_was_hot = nullptr;
  StartingRatio starting_ratio;
  std::optional<LogSummary> summary;
  std::optional<Date> built;                    ///< where it is known
  Date today;                                   ///< on which it is asked
  std::optional<DatesInDoubt> before_built;     ///< readings, which are left out
  std::optional<DatesInDoubt> after_today;      ///< readings
  std::vector<SignInDoubt> signs_before_built;  ///< which are left out
  std::vector<SignInDoubt> signs_after_today;
  std::optional<ScaleInDoubt> scale;             ///< of its log
  std::vector<NoticedSign> noticed;              ///< by the yard, and by the log; each symptom once
  std::vector<CoreReading> by_hand;              ///< what hands felt, the dated ones in their order
  int readings_left_aside = 0;                   ///< of the yard's thermometer, where a log stands for them
  std::optional<FeltByHand> felt_last;           ///< after all that was measured
  std::optional<Answer<YardForecast>> forecast;  ///< as the log corrects it, where the yard says enough
};

/// Two signs that one place cannot have.
struct OppositeSigns {
  const NoticedSign* one = nullptr;
  const NoticedSign* other = nullptr;
};
/// Each such pair once.
std::vector<OppositeSigns> opposite_signs(const YardReadings& readings);

/// Whether a sign says that it is frozen, so that all else waits.
bool is_frozen(const YardReadings& readings);

/// Whether a sign says that it is not finished, so that there is no word of curing yet.
bool is_unfinished(const YardReadings& readings);

/// So long after a reading a pile may do something else. Judged.
inline constexpr std::chrono::days reading_keeps(3);
/// After that nobody can say of it what a pile does now. Judged.
inline constexpr std::chrono::days reading_tells(14);
/// How old the latest of its readings is, of a thermometer or a hand, where that is more than it keeps.
std::optional<std::chrono::days> stale_since(const YardReadings& readings);

/// Whether anything was measured, felt or noticed of the pile since it was built.
bool is_anything_seen(const YardReadings& readings);

/// The thermometer readings of a yard file as a log of one thermometer, a reading at noon; nothing where there are none with a date.
std::optional<TemperatureLog> log_of(const Observations& seen);

/// What readings and signs say, without a forecast.
/// @param recipe of the yard; nothing where it lists no supplies
Answer<YardReadings> seen_of(const Yard& yard, const Answer<Recipe>* recipe, std::optional<TemperatureLog> log, std::chrono::seconds gap,
                             Date today);

/// What readings and signs say, and the forecast as the log corrects it.
/// @param log of a pile; nothing where the yard's own readings stand in for it
/// @param gap most between two readings of one stretch
Answer<YardReadings> readings_of(const Yard& yard, std::optional<TemperatureLog> log, std::chrono::seconds gap, Date today,
                                 const Progress& progress = {});

/// Whether the compost of a yard is finished and fit for a lawn, by its tests and checks.
struct YardCompost {
  CompostKnown known;
  std::optional<Date> cured_by;  ///< where it is known since when it is cool
  std::vector<const NextStep*> next;
  std::vector<const RatingReason*> reasons;  ///< where the rating comes from, and why it came out so
  std::vector<StandingLine> report_lines;    ///< of its laboratory's reports, that rate nothing, as written
};

/// What its tests, checks and reports say, and what to do next.
Answer<YardCompost> maturity_of(const Yard& yard, Date today);

}  // namespace heapwright
