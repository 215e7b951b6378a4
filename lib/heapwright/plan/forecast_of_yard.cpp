#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "heapwright/error.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/care.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/process/pile_to_build.hpp"
#include "heapwright/process/rain.hpp"
#include "heapwright/recipe/verdict.hpp"
#include "heapwright/time/days.hpp"

namespace heapwright {
namespace {

constexpr double least_rotting = 0.02;  // of the dry matter; judged

/// As hot as scalds, by as much as a forecast may be off.
bool may_scald(const Forecast& coming) { return coming.heats.is_open() || coming.peak_core + forecast_width.core >= scalding; }

/// How many times the recipe what waits for room would make once more.
double recipes_that_wait(const Recipe& recipe, const AsBuilt& built) {
  if (!room_sets_size(recipe)) return 0.0;
  double least = std::numeric_limits<double>::infinity();
  for (const RecipeAmount& amount : built.amounts) {
    if (!goes_in(amount, built.mix)) continue;
    const bool waits = amount.left_over && amount.feedstock_class == FeedstockClass::keeper;
    least = std::min(least, waits ? static_cast<double>(*amount.left_over / amount.volume) : 0.0);
  }
  return least;
}

/// What waits for room goes on as the pile sinks, half as much as was built each week: judged.
std::optional<Feeding> topping_up(double recipes) {
  constexpr double worth_it = 0.05;
  if (!(recipes > worth_it && recipes < std::numeric_limits<double>::infinity())) return std::nullopt;
  const double share = std::min(0.5, recipes);
  constexpr double most_times = 26.0;
  return Feeding{
      .share = share, .times = static_cast<int>(std::min(most_times, recipes / share)), .room = std::numeric_limits<double>::infinity()};
}

/// The most that a pile is filled with at first: the share of a mix that takes up its room, once it has settled.
double share_that_fits(const Mix& mix, const SettledDensity& density, const std::optional<PileDescription>& pile, Volume room) {
  const LyingPile full = lying(pile, room);
  return room * density.at(full.height, 1.0) / mix.dry;
}

Assumption judged(std::string what, AssumedValue value) {
  return {std::move(what), std::move(value), std::nullopt, std::nullopt, "judged by us", std::nullopt};
}

Assumption rain_of(const ClimateDescription& climate) {
  const MonthlyRain rain = monthly_rain(climate);
  if (rain.empty()) return judged("rain", std::string("3 in (76 mm) a month, all year: you did not tell it"));  // usual_rain_a_day
  const Length all_year = std::accumulate(rain.begin(), rain.end(), Length());
  Assumption assumption = judged("rain of a month", all_year / 12.0);
  const auto [driest, wettest] = std::minmax_element(rain.begin(), rain.end());
  constexpr double much_alike = 0.8;  // months of 28 and of 31 days are
  if (*driest < much_alike * *wettest) {
    assumption.low = *driest;
    assumption.high = *wettest;
  }
  if (climate.rain_is_own) assumption.evidence = "your own figure";
  if (climate.rain.empty()) assumption.evidence = "your file of days";
  return assumption;
}

/// How much of it stays in the pile.
Assumption assumption_of(const RainShare& share) {
  Assumption assumption = judged("of the rain that does not dry off again, the pile keeps", ShareOfVolume::of(share.likely));
  assumption.low = ShareOfVolume::of(share.low);
  assumption.high = ShareOfVolume::of(share.high);
  return assumption;
}

/// The factors on settled density that eight of ten sets draw.
Band<double> most_densities(const ProcessEnsemble& ensemble) {
  std::vector<double> factors;
  for (const ProcessParameters& set : ensemble.members) factors.push_back(set.rho_f);
  std::sort(factors.begin(), factors.end());
  const std::size_t left_out = factors.size() / 10;
  return {factors[left_out], factors[factors.size() - 1 - left_out]};
}

/// What a forecast takes for granted beside its recipe.
std::vector<Assumption> assumptions_of_forecast(const ClimateDescription& climate, const PileToBuild& pile, Volume volume,
                                                const ProcessEnsemble& ensemble) {
  std::vector<Assumption> own;
  if (const auto assumed = assumption_of(climate)) own.push_back(*assumed);
  if (pile.care.share_of_rain > 0.0) {
    own.push_back(rain_of(climate));
    own.push_back(assumption_of(share_of_rain(pile.pile)));
  }
  const BulkDensity settled = pile.share * pile.mix.mass / volume;
  if (pile.pile && pile.pile->weighed) {
    own.push_back({"weight of the pile, as you weighed a full one", settled, std::nullopt, std::nullopt, "your own figure", std::nullopt});
  } else {
    const Band<double> factor = most_densities(ensemble);
    Assumption weight = judged("weight of the pile, once it has settled", settled);
    weight.low = factor.low * settled;
    weight.high = factor.high * settled;
    own.push_back(std::move(weight));
  }
  return own;
}

/// What the compost follows from, with the loss of organic matter by the forecast.
YieldRule by_forecast(YieldRule rule, const Finished& finished) {
  PublishedValue<ShareOfVolatileSolids>& lost = rule.volatile_solids_lost;
  lost = {};
  lost.typical = ShareOfVolatileSolids::of(finished.volatile_solids_loss);
  lost.low = ShareOfVolatileSolids::of(finished.volatile_solids_loss_low);
  lost.high = ShareOfVolatileSolids::of(finished.volatile_solids_loss_high);
  lost.source = "forecast";
  lost.evidence = Evidence::judged;
  return rule;
}

/// The recipe's, and those of a pile that gets hot.
std::vector<std::string> cautions_of(const Grounds& recipe, const Forecast& coming, const Materials& materials) {
  std::vector<std::string> ids = recipe.cautions;
  if (may_scald(coming)) {
    for (const std::string& id : cautions_for(*materials.cautions, {Fact::hot})) ids.push_back(id);
  }
  return in_order(ids, *materials.cautions);
}

int day_of(const WrittenTime& time, Date built) { return days_from_to(built, time.day()); }

NotedCare noted_in(const TemperatureLog& log, Date built) {
  NotedCare noted;
  for (const LogRow& row : log.rows) {
    const int day = day_of(row.time, built);
    if (row.turned) noted.turned.push_back(day);
    if (row.watered) noted.watered.push_back(day);
    noted.until = std::max(noted.until, day);
  }
  return noted;
}

/// The mean of each day, of the hottest thermometer, which is the one in the core.
std::vector<CoreOfDay> cores_of(const TemperatureLog& log, Date built) {
  std::vector<CoreOfDay> cores;
  int readings = 0;
  for (const PileReading& hottest : sound_readings(log).sound) {
    const int day = day_of(hottest.time, built);
    if (cores.empty() || cores.back().day != day) {
      cores.push_back({day, hottest.temperature});
      readings = 1;
    } else {
      ++readings;
      TemperaturePoint& mean = cores.back().core;
      mean = mean + (hottest.temperature - mean) / static_cast<double>(readings);
    }
  }
  return cores;
}

/// Whether it has got hot, by the means of the days; nothing where no day since it was built is known.
std::optional<SeenHeating> heating_in(const std::vector<CoreOfDay>& cores) {
  SeenHeating seen;
  for (const CoreOfDay& core : cores) {
    if (core.day < 0 || seen.hot_day) continue;
    if (core.core > hot_core) {
      seen.hot_day = core.day;
    } else {
      seen.cool_days.push_back(core.day);
    }
  }
  return seen.hot_day || !seen.cool_days.empty() ? std::optional(std::move(seen)) : std::nullopt;
}

/// Fills a pile as it is, or is to be: by its loads, as high as it stands, or with as much of its recipe as it holds. @return whether that
/// is enough to be followed
bool fill(PileToBuild& pile, const Yard& yard, const Recipe& recipe, YardForecast& answer) {
  const bool comes_weekly =
      std::any_of(yard.supplies.begin(), yard.supplies.end(), [](const Supply& supply) { return load_of(supply).has_value(); });
  const bool is_tumbler = yard.pile && yard.pile->shape == PileShape::tumbler;  // which takes more only as it sinks
  answer.week_by_week = comes_weekly && yard.pile && yard.pile->filled_as_it_comes && !is_tumbler;
  if (answer.stands == Stands::by_loads) {
    std::optional<LoadedPile> loaded = loaded_pile(yard);
    answer.too_little = !loaded;
    if (!loaded) return false;
    pile.mix = std::move(loaded->first);
    pile.built = loaded->begun;
    pile.loads = std::move(loaded->later);
    return true;
  }
  const ProcessEnsemble& ensemble = *yard.tables.ensemble;
  const std::optional<BulkDensity> weighed = pile.pile ? pile.pile->weighed : std::nullopt;
  const SettledDensity density = settled_density_of(pile.mix, yard.tables.materials, ensemble, weighed);
  const double fits = pile.room ? share_that_fits(pile.mix, density, pile.pile, *pile.room) : 1.0;
  constexpr double has_much_room = 2.0;                               // what comes then goes on top, and into no other bin; judged
  if (answer.stands == Stands::by_word) answer.week_by_week = false;  // it is taken as what it is
  const bool is_the_only_one = pile.pile && pile.pile->count == 1 && answer.stands != Stands::by_word;
  if (comes_weekly && !is_tumbler && is_the_only_one && pile.room && fits > has_much_room) answer.week_by_week = true;
  if (answer.stands == Stands::by_word && pile.room) {
    pile.share = fits;
  } else if (answer.week_by_week) {
    pile.share = std::min(1.0, fits);
  } else if (piles_for(1.0 / fits) > 1) {
    pile.share = fits;
    answer.piles = piles_for(1.0 / fits);
    answer.fills = 1.0 / fits;
  } else if (!comes_weekly) {  // else what waits goes in with what comes
    pile.care.feeding = topping_up(recipes_that_wait(recipe, as_built(recipe)));
  }
  return true;
}

/// The weeks to come go in too, while there is room.
void feed_by_season(PileToBuild& pile, const Yard& yard, const YardSeason& season, Date today) {
  const Date after = is_loaded(yard) ? std::max(today, yard.loads.back().date) : pile.built;
  for (const WeeklyLoad& load : weekly_loads(season, after, yard.options.settling)) {
    if (load.date < season.new_browns) pile.loads.push_back({days_from_to(pile.built, load.date), load.mix});  // then with the new browns
  }
}

/// How many piles there are of what is followed as one.
double piles_like(const PileToBuild& pile, const YardForecast& answer) {
  if (answer.stands == Stands::by_word) return pile.pile ? pile.pile->count : 1;
  return pile.care.feeding || answer.week_by_week || answer.stands == Stands::by_loads ? 1.0 : 1.0 / pile.share;
}

}  // namespace

std::optional<Stands> stands_by(const Yard& yard, Date today) {
  if (is_loaded(yard)) return Stands::by_loads;
  if (!yard.pile) return std::nullopt;
  if (yard.pile->standing) return Stands::by_word;
  return yard.pile->built && *yard.pile->built < today ? std::optional(Stands::by_date) : std::nullopt;
}

bool rest_goes_in_as_it_sinks(const YardForecast& answer) {
  constexpr double half_as_much_again = 1.5;
  return answer.piles > 1 && answer.fills < half_as_much_again;
}

Answer<YardForecast> forecast_of(const Yard& yard, const Answer<Recipe>& of_recipe, Date today, const TemperatureLog* log,
                                 const Progress& progress) {
  if (!yard.climate)
    throw DomainError("[climate] is missing: a forecast needs the weather",
                      "add like = \"cool\" to [climate], or coldest_month and warmest_month");
  Answer<YardForecast> whole;
  take_in(whole, of_recipe);
  YardForecast& answer = whole.result;
  const Recipe& recipe = of_recipe.result;
  const PileFit room = pile_of(yard, of_recipe, today).result;
  if (!room.mix) return whole;
  const AsBuilt built = as_built(recipe);
  const Mix& mix = built.mix;
  answer.mix = mix;
  answer.amounts = built.amounts;
  answer.targets = recipe.targets;
  answer.on_target = built.distance_from_aim <= hardly_off;

  const ProcessEnsemble& ensemble = *yard.tables.ensemble;
  answer.stands = stands_by(yard, today);
  PileToBuild pile{mix, 1.0, yard.pile, care_of(yard), std::nullopt, yard.built_or(today)};
  pile.stands = answer.stands.has_value();
  if (room.each) pile.room = taken_by(*room.pile);
  answer.age_unknown = answer.stands == Stands::by_word && !yard.pile->built;
  if (answer.age_unknown || !fill(pile, yard, of_recipe.result, answer)) return whole;
  if (answer.week_by_week) {
    answer.season = season_with_pile(yard, of_recipe, today).result;
    feed_by_season(pile, yard, *answer.season, today);
  }
  answer.care = pile.care;
  answer.can_be_built_earlier = std::chrono::sys_days(pile.built) - std::chrono::days(14) >= std::chrono::sys_days(today);
  const PileContents contents = contents_of(pile.mix, yard.tables.materials, ensemble, ensemble.best);
  answer.nothing_rots = !(as_dry_mass(OrganicMass(contents.fast + contents.slow)) > least_rotting * contents.dry());
  if (answer.nothing_rots) return whole;
  const PileModel model(pile, yard.tables.materials, ensemble);
  answer.volume = model.shape(ensemble.best).volume;
  const auto is_enough = [&](const ProcessParameters& set) { return model.shape(set).volume >= smallest_pile; };
  answer.too_little = !is_enough(ensemble.best) || !std::all_of(ensemble.members.begin(), ensemble.members.end(), is_enough);
  if (answer.too_little) return whole;

  const Weather weather = weather_of(*yard.climate);
  const std::vector<Assumption> own = assumptions_of_forecast(*yard.climate, pile, *answer.volume, ensemble);
  whole.assumptions.insert(whole.assumptions.begin(), own.begin(), own.end());
  std::optional<SeenHeating> seen;
  if (log != nullptr) {
    if (log->notes_events) pile.care.noted = noted_in(*log, pile.built);
    const std::vector<CoreOfDay> cores = cores_of(*log, pile.built);
    answer.rate = fit_rate(pile, days_from(weather, pile.built, horizon), yard.tables.materials, ensemble, cores);
    if (answer.rate && answer.rate->tells) pile.rate = answer.rate->factor;
    seen = heating_in(cores);
  }
  answer.forecast = forecast(pile, weather, yard.tables.materials, ensemble, seen, progress);
  const Forecast& coming = *answer.forecast;
  whole.cautions = cautions_of(of_recipe, coming, yard.tables.materials);
  answer.weeks_fed = answer.week_by_week || pile.care.feeding ? coming.times_fed : 0;
  const double such_piles = piles_like(pile, answer);
  answer.such_piles = such_piles;
  answer.goes_in = such_piles * pile.share * coming.filled_in_all * static_cast<double>(pile.mix.dry / mix.dry);
  answer.mass = such_piles * coming.finished.mass;
  answer.finished_volume = such_piles * coming.filled_in_all * (1.0 - coming.finished.volume_loss) * *answer.volume;
  answer.yield = by_forecast(*yard.tables.materials.yield, coming.finished);
  if (coming.status != ForecastStatus::never && coming.finished.is_ready) answer.screened = such_piles * coming.finished.screened;
  return whole;
}

}  // namespace heapwright
