#include "heapwright/page/pile_now.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/maturity/verdict.hpp"
#include "heapwright/time/numeric_date.hpp"

namespace heapwright {
namespace {

// --- what a pile does ---

/// What to do to it beside what is wrong with it.
Words leave_it(const YardReadings& readings) { return readings.noticed.empty() ? "leave it" : "apart from that, leave it"; }

Words working_words(const LogSummary& seen, const YardReadings& readings) {
  if (seen.latest.temperature < turned_below)
    return say("It is working: {} until it warms no further. Then turn it, and water it if a handful does not clump.", leave_it(readings));
  return say("It is working: {} while it is hot. Turn it when it falls below about {}, and water it then if a handful does not clump.",
             leave_it(readings), turned_below);
}

Words activity_words(const LogSummary& seen, const YardReadings& readings) {
  switch (seen.state()) {
    case PileActivity::is_too_hot:
    case PileActivity::has_not_heated: return {};  // a symptom says so
    case PileActivity::working: return working_words(seen, readings);
    case PileActivity::slowing: return "It is slowing. Turn it now, and water it if a handful does not clump.";
    case PileActivity::measure_again:
      return say(
          "Was the last reading taken in its middle? It is {} below the one before, and nothing was done to the pile. Measure it again "
          "before you turn it.",
          WholeDifference{seen.fell_by});
    case PileActivity::warming:
      return say("It is warming{}: {}, and go on measuring.", seen.first_heated ? " again" : "", leave_it(readings));
    case PileActivity::too_early:
      return say("It is too early to tell. A pile that heats does so within {} days or so; go on measuring.", whole(time_to_heat.count()));
    case PileActivity::turned_in_vain:
      return "It has cooled, and turning did not warm it. Let it cure for three weeks, then see whether it is finished (heapwright "
             "maturity).";
    case PileActivity::turned_lately:
      return say(
          "It is cool, and was turned on {}. Measure it daily for a week. If it stays cool, squeeze a handful: water it if it crumbles. If "
          "you can still tell leaves apart it wants greens; if not, let it cure for three weeks.",
          DayOfMonth{seen.last_turned->day()});
    case PileActivity::cooled_for_good:
      return "It has cooled. Turn it once more. If it does not warm again within a week, let it cure for three weeks, then see whether it "
             "is finished (heapwright maturity).";
    case PileActivity::cooling:
      return say(
          "It has fallen below {}. Turn it, water it if a handful does not clump, and go on measuring. If it warms again it has more to "
          "do.",
          heated);
  }
  return {};
}

Words activity_words(const FeltByHand& felt, const YardReadings& readings) {
  switch (felt.state()) {
    case FeltActivity::has_not_heated: return {};  // a symptom says so
    case FeltActivity::working:
      return say("It is working: {} while it is hot. Turn it when it feels only warm, and water it then if a handful does not clump.",
                 leave_it(readings));
    case FeltActivity::slowing: return "It is warm. Turn it, water it if a handful does not clump, and feel it again in a week.";
    case FeltActivity::too_early:
      return say("It is too early to tell. A pile that heats does so within {} days or so; go on feeling it.", whole(time_to_heat.count()));
    case FeltActivity::cooled:
      return "It has cooled. Turn it, water it if a handful does not clump, and feel it each day for a week. If it does not warm again, "
             "let it cure for three weeks, then see whether it is finished (heapwright maturity).";
  }
  return {};
}

/// Of a pile that has cooled, but that a sign says is not finished.
Words unfinished_words(const YardReadings& readings) {
  return say("It has cooled, but is not finished. See to that first, and {} each day for a week: it may warm again.",
             readings.felt_last ? "feel it" : "measure it");
}

/// Whether what it does calls for curing, or for a look at whether it is finished.
bool calls_for_curing(const YardReadings& readings) {
  if (readings.felt_last) return readings.felt_last->state() == FeltActivity::cooled;
  if (!readings.summary) return false;
  const PileActivity state = readings.summary->state();
  return state == PileActivity::turned_in_vain || state == PileActivity::turned_lately || state == PileActivity::cooled_for_good;
}

Words stale_words(std::chrono::days age) {
  const Count days{static_cast<double>(age.count()), "day"};
  if (age > reading_tells) return say("The last reading is {} old: measure again before you do anything.", days);
  return say("The last reading is {} old: measure first. This is how it was then.", days);
}

Words activity_words(const YardReadings& readings) {
  if (is_frozen(readings)) return {};  // nothing can be done to it
  if (stale_since(readings).value_or(reading_keeps) > reading_tells) return {};
  if (is_unfinished(readings) && calls_for_curing(readings)) return unfinished_words(readings);
  if (readings.felt_last) return activity_words(*readings.felt_last, readings);
  return readings.summary ? activity_words(*readings.summary, readings) : Words();
}

// --- what can hardly be right ---

/// "Oct 3", with its year where the other day is of another one.
Words day_words(Date date, Date beside) {
  if (date.year() == beside.year()) return DayOfMonth{date};
  return say("{}, {}", DayOfMonth{date}, Number{static_cast<double>(static_cast<int>(date.year())), 4});
}

Words before_built_words(const DatesInDoubt& dates, Date built) {
  const Words day_built = day_words(built, dates.first);
  if (dates.count == 1)
    return say("The first reading, {}, is before the pile was built on {}: is one of the two dates wrong? It is left out.",
               day_words(dates.first, built), day_built);
  return say("The first {}, {} to {}, are before the pile was built on {}: is one of the dates wrong? They are left out.",
             Count{static_cast<double>(dates.count), "reading"}, day_words(dates.first, built), day_words(dates.last, built), day_built);
}

Words after_today_words(const DatesInDoubt& dates, Date today) {
  const Words day_today = day_words(today, dates.last);
  if (dates.count == 1) return say("The last reading, {}, is after today, {}: is its date wrong?", day_words(dates.last, today), day_today);
  return say("The last {}, {} to {}, are after today, {}: are their dates wrong?", Count{static_cast<double>(dates.count), "reading"},
             day_words(dates.first, today), day_words(dates.last, today), day_today);
}

Words sign_before_built_words(const SignInDoubt& sign, Date built) {
  return say("Noticed on {}, before the pile was built on {}: {}. Is one of the two dates wrong? It is left out.",
             day_words(sign.date, built), day_words(built, sign.date), sign.symptom->name);
}

Words sign_after_today_words(const SignInDoubt& sign, Date today) {
  return say("Noticed on {}, after today, {}: {}. Is its date wrong?", day_words(sign.date, today), day_words(today, sign.date),
             sign.symptom->name);
}

Words dates_taken_words(const TemperatureLog::DatesTaken& taken) {
  return say("The dates of the log are read as {}: {} is {}.", taken.order == DayOrder::month_first ? "month/day/year" : "day/month/year",
             taken.written, DayOfMonth{numeric_date(taken.written)->in(taken.order)});
}

/// In the scale that its column says.
Words as_written(const PileReading& reading, TemperatureScale scale) {
  const double degrees = scale == TemperatureScale::celsius ? reading.temperature.celsius() : reading.temperature.fahrenheit();
  return say("{} {}", Number{std::round(degrees), 3}, scale == TemperatureScale::celsius ? "°C" : "°F");
}

Words scale_words(const ScaleInDoubt& doubt) {
  const Words reading = as_written(doubt.reading, doubt.written);
  const DayOfMonth day{doubt.reading.time.day()};
  if (doubt.written == TemperatureScale::celsius)
    return say("Is the log in °F? No pile gets to {}, as it reads on {}. If it is, end the names of its columns in degF.", reading, day);
  const Words why = doubt.felt_hot ? say("By hand the pile was hot on {}, and the log reads {}", day, reading)
                                   : say("It goes from {} to {} within days, and ice does not warm so fast",
                                         as_written(*doubt.from, doubt.written), reading);
  return say("Is the log in °C? {}. If it is, end the names of its columns in degC.", why);
}

/// Readings that the summary leaves out.
Words set_aside_words(const std::vector<PileReading>& odd) {
  if (odd.empty()) return {};
  if (odd.size() == 1)
    return say("Was {} misread? It stands alone, far from the readings beside it: what the pile does is told without it.",
               reading_words(odd.front()));
  return say(
      "Were {} readings misread, the first {}? Each stands alone, far from those beside it: what the pile does is told without them.",
      whole(std::ssize(odd)), reading_words(odd.front()));
}

/// The hottest reading and the latest, with its thermometer where there are several.
Labels readings_in_short(const YardReadings& readings) {
  Labels labels;
  if (const std::optional<LogSummary>& seen = readings.summary) {
    const auto shown = [&](const PileReading& reading) {
      const std::vector<std::string>& probes = readings.log->probes;
      return probes.size() < 2 ? reading_words(reading) : say("{} ({})", reading_words(reading), probes[reading.probe]);
    };
    if (seen->peak.time.at() != seen->latest.time.at()) labels.labels.push_back({"Hottest", shown(seen->peak)});
    labels.labels.push_back({"Latest", shown(seen->latest)});
  }
  if (readings.felt_last) labels.labels.push_back({"By hand", felt_words(readings.felt_last->date, readings.felt_last->core)});
  return labels;
}

// --- what is wrong with it ---

/// A cause as one of several: what it is, how to tell it, what to do then.
Words cause_words(const Cause& cause, const NoticedSign& noticed) {
  return say("{}. If {}, {}.", capital(cause.cause), cause.check, cause.to_do(noticed.in_a_tumbler));
}

/// "3 leaf bags"
Words measured(const RecipeAmount& amount, const Materials& materials) {
  return amount.counted_by_mass ? Words(amount.mass) : amount_of(amount.containers, amount.volume, materials);
}

Words to_add(const NoticedSign& noticed, const Materials& materials) {
  std::vector<Words> added;
  for (const RecipeAmount& amount : noticed.fix) {
    const bool by_mass = is_sparing(amount.feedstock_class) || amount.volume.value() == 0.0;
    added.push_back(say("{} of {}", by_mass ? Words(amount.mass) : measured(amount, materials), amount.name));
  }
  if (noticed.takes_water()) added.push_back(say("{} of water", carried(noticed.water, materials)));
  return listed(added);
}

Words kept_browns_words(const KeptBrowns& browns, bool in_a_tumbler, const Materials& materials) {
  const char* add = in_a_tumbler ? "Add" : "Fork in";
  const Words amount = measured(browns.at_most, materials);
  if (!(browns.at_most.mass < browns.kept.mass)) return say("{} what it wants of the {} of {} you kept.", add, amount, browns.kept.name);
  const char* why = browns.is_all_that_fits ? "no more fits" : "more would make it too brown";
  return say("{} up to {} of the {} you kept: {}.", add, amount, browns.kept.name, why);
}

/// What has to be so for the amounts to be right.
Words condition_words(const NoticedSign& noticed, const Materials& materials) {
  const char* went_in = noticed.as_planned ? "if you built it as planned" : "if all you listed went in";
  const bool counts_water = is_carried(noticed.watered);
  if (noticed.cause->fix != Fix::water)
    return counts_water ? say("{}, with {} of water", went_in, carried(noticed.watered, materials)) : went_in;
  return say("{} and {}", went_in, noticed.as_planned ? "gave it no water" : "no water since");
}

/// What to add in containers, on what conditions.
Words fix_words(const NoticedSign& noticed, const Materials& materials) {
  if (noticed.is_mended_with) return "What you add for that does for this too.";
  if (noticed.kept_browns) return kept_browns_words(*noticed.kept_browns, noticed.in_a_tumbler, materials);
  const Words added = to_add(noticed, materials);
  if (added.empty()) return {};
  const Words condition = condition_words(noticed, materials);
  const std::string& when = noticed.cause->fix_when;
  return say("{}, add {}.{}", capital(when.empty() ? condition : say("{}, and {}", when, condition)), added,
             !noticed.overfills     ? ""
             : noticed.in_a_tumbler ? " That is more than fits: take as much out first, for the next load."
                                    : " That is more than fits: make a second pile of the rest.");
}

Numbered steps_of(const NoticedSign& noticed, const Materials& materials) {
  Numbered steps;
  if (!noticed.is_measured)
    steps.items.push_back(say("Check that it is so: {}.{}", noticed.cause->check,
                              noticed.other_causes.empty() ? "" : " If not, see the other causes with the reasons."));
  steps.items.push_back(say("{}.", capital(noticed.cause->to_do(noticed.in_a_tumbler))));
  const Words fix = fix_words(noticed, materials);
  if (!fix.empty()) steps.items.push_back(fix);
  return steps;
}

void say_in_full(PageWriter& writer, const NoticedSign& noticed, const Materials& materials) {
  writer.paragraph(say("{}. Likely {}.", capital(noticed.symptom->name), noticed.cause->cause));
  writer.block(steps_of(noticed, materials));
}

/// Of a sign of a frozen pile, which waits as the pile does.
void say_after_thaw(PageWriter& writer, const NoticedSign& noticed, const Materials& materials) {
  const Words fix = fix_words(noticed, materials);
  writer.paragraph(say("{}. Once it has thawed: {}{}{}", capital(noticed.symptom->name), cause_words(*noticed.cause, noticed),
                       fix.empty() ? "" : " ", fix));
}

void say_in_short(PageWriter& writer, const NoticedSign& noticed, const Materials& materials) {
  const Words fix = fix_words(noticed, materials);
  writer.paragraph(say("{}. {}{}{}", capital(noticed.symptom->name), cause_words(*noticed.cause, noticed), fix.empty() ? "" : " ", fix));
}

/// So many causes of each sign of an unknown pile stand on a screen of twenty lines.
std::size_t causes_shown(const YardReadings& readings) {
  const std::size_t signs = readings.noticed.size();
  return signs == 1 ? 3 : signs == 2 ? 2 : 1;
}

std::vector<const Cause*> causes_of(const NoticedSign& noticed) {
  std::vector<const Cause*> causes{noticed.cause};
  causes.insert(causes.end(), noticed.other_causes.begin(), noticed.other_causes.end());
  return causes;
}

/// Of a pile of which nothing is known the likeliest causes, to choose from by looking.
void say_causes_to_choose(PageWriter& writer, const NoticedSign& noticed, std::size_t shown) {
  const std::vector<const Cause*> causes = causes_of(noticed);
  const std::size_t left = causes.size() - std::min(shown, causes.size());
  const Words more = left == 0 ? Words() : say(" ({} more with the reasons)", whole(static_cast<long long>(left)));
  writer.paragraph(causes.size() == 1 ? say("{}.", capital(noticed.symptom->name))
                                      : say("{}. See which of these fits{}:", capital(noticed.symptom->name), more));
  std::vector<Words> items;
  for (std::size_t i = 0; i < causes.size() - left; ++i) items.push_back(cause_words(*causes[i], noticed));
  writer.bullets(std::move(items));
}

/// Whether a sign is looked after in frost as well: what says that it is frozen, and what cannot wait.
bool can_be_seen_to_in_frost(const NoticedSign& noticed) {
  return noticed.symptom->is_frozen || noticed.symptom->facts.contains(Fact::hot) || noticed.symptom->facts.contains(Fact::rats);
}

Words opposite_words(const OppositeSigns& signs) {
  return say(
      "You noticed that {}, and that {}. Which is it now? If it is both, in two places, turn it and mix the two before you add anything.",
      signs.one->symptom->name, signs.other->symptom->name);
}

/// Those that are not asked about, what can be seen to in frost first.
std::vector<const NoticedSign*> signs_in_order(const YardReadings& readings) {
  std::vector<const NoticedSign*> signs;
  for (const NoticedSign& noticed : readings.noticed) signs.push_back(&noticed);
  for (const OppositeSigns& pair : opposite_signs(readings))
    std::erase_if(signs, [&](const NoticedSign* one) { return one == pair.one || one == pair.other; });
  if (is_frozen(readings))
    std::stable_partition(signs.begin(), signs.end(), [](const NoticedSign* one) { return can_be_seen_to_in_frost(*one); });
  return signs;
}

/// What a fix changes, as far as it shows.
Words brought(const NoticedSign& noticed) {
  if (!noticed.mix || !noticed.mended || !noticed.mix->moisture || !noticed.mended->moisture) return {};
  std::vector<Words> changes;
  const auto& from = noticed.mix->carbon_to_nitrogen;
  const auto& to = noticed.mended->carbon_to_nitrogen;
  const auto shown = [](const std::optional<CarbonNitrogenRatio>& ratio) { return ratio ? Words(*ratio) : Words("none"); };
  const auto is_shown_alike = [](double one, double other) { return std::lround(one) == std::lround(other); };
  if (from.has_value() != to.has_value() || (from && !is_shown_alike(from->value(), to->value())))
    changes.push_back(say("its C:N from {} to {}", shown(from), shown(to)));
  if (!is_shown_alike(100.0 * noticed.mix->moisture->value(), 100.0 * noticed.mended->moisture->value()))
    changes.push_back(say("its moisture from {} to {}", *noticed.mix->moisture, *noticed.mended->moisture));
  return listed(changes);
}

// --- what compost is ---

/// The tests by which plants do not bear it.
std::vector<Words> tests_that_harm(const CompostKnown& known) {
  std::vector<Words> names;
  for (const RatedTest& test : known.rating.tests) {
    if (test.criterion->kind == TestKind::maturity && !test.superseded && !test.stands_beside && test.rating == Rating::immature)
      names.emplace_back(test.criterion->name);
  }
  return names;
}

Words harm_words(const CompostKnown& known) {
  const std::vector<Words> tests = tests_that_harm(known);
  if (tests.empty()) return "It harms plants. Leave it in the pile, and find out why.";
  return say("It may harm plants, by its test of {}. Leave it in the pile, and find out why.", listed(tests));
}

/// Why it stays off the lawn.
Words off_the_lawn(const CompostKnown& known) {
  std::vector<Words> what;
  for (const std::string& one : what_harms_turf(known)) what.emplace_back(one);
  const bool one_suits = what.size() == 1 && what_harms_turf(known).front() == "pH";
  return say("its {} {} no specification for turf.", listed(what), one_suits ? "suits" : "suit");
}

/// What is said the same of rated compost and of any other.
Words why_not(CompostVerdict verdict, const CompostKnown& known) {
  switch (verdict) {
    case CompostVerdict::short_of_nitrogen:
      return "It is short of nitrogen, and would take it from soil and plants. Mix greens in and let it heat once more.";
    case CompostVerdict::still_composting: return "It is still composting. Turn it, keep it moist and let it cure in the pile.";
    case CompostVerdict::looks_unfinished: return "It does not look done. Turn it, keep it moist, and look again in a month.";
    case CompostVerdict::harms_plants: return harm_words(known);
    default: return {};
  }
}

Words curing_words(const YardCompost& compost) {
  if (compost.known.has_cured) return "It has cured long enough.";
  return compost.cured_by ? say("Let it cure until {}.", DayOfMonth{*compost.cured_by}) : Words("Let it cure for three weeks.");
}

Words likely_finished(const YardCompost& compost) {
  const Words use = !what_harms_turf(compost.known).empty() ? say("Keep it off the lawn: {}", off_the_lawn(compost.known))
                    : compost.known.has_cured               ? Words("Use it on the lawn and on beds, not yet on seedlings.")
                                                            : Words("Then use it on the lawn and on beds.");
  return say("Likely finished: every household check passed. {} {}", curing_words(compost), use);
}

Words resting_words(std::chrono::days age) {
  return say("Cannot say: it is {} old, and it is cold out. A cold pile passes the household checks without being finished.",
             in_weeks(age));
}

Words unrated_words(CompostVerdict verdict, const YardCompost& compost) {
  const CompostKnown& known = compost.known;
  switch (verdict) {
    case CompostVerdict::nothing_known:
      return "Nothing is known yet of whether it is finished. The household checks cost nothing and take a week.";
    case CompostVerdict::nothing_against: return "Nothing speaks against it so far, but not enough was checked.";
    case CompostVerdict::likely_finished: return likely_finished(compost);
    case CompostVerdict::pile_at_work: return "Not finished: it is hot, or smells so. Leave it until it is cool and smells of earth.";
    case CompostVerdict::too_dry_to_tell:
      return "Cannot say: it is so dry that it would be cool in any case. Wet it until a handful clumps, and check it again after a week.";
    case CompostVerdict::rests_in_cold: return resting_words(*known.age_in_cold);
    case CompostVerdict::check_failed: return "Cannot say: a household check failed. Find out why before you use it.";
    default: return say("Not finished, as far as this shows. {}", why_not(verdict, known));
  }
}

/// How many turf specifications it passes; nothing where nothing was measured of them.
Words turf_passed(const CompostKnown& known) {
  const TurfStanding standing = turf_standing(known.turf);
  if (standing.held == 0) return {};
  if (standing.passed == standing.held && standing.hardly_measured)
    return " Little was measured of what is asked of compost for turf; that much it passes.";
  return say(" For turf it passes {} of the {} specifications, on what was measured.", whole(standing.passed), whole(standing.held));
}

/// That what stands beside plants calls it immature where they do not, or the other way round.
Words beside_plants(const MaturityRating& rating) {
  const bool bear_it = rating.maturity.rating != Rating::immature;
  std::vector<Words> others;
  for (const RatedTest& one : rating.tests) {
    if (one.stands_beside && (one.rating != Rating::immature) != bear_it) others.emplace_back(one.criterion->name);
  }
  if (others.empty()) return {};
  return say(" Plants {} it, which decides; {} {} otherwise.", bear_it ? "bear" : "do not bear", listed(others),
             others.size() == 1 ? "says" : "say");
}

Words finished_words(const CompostKnown& known, const char* use) {
  return what_harms_turf(known).empty() ? say("{}{}", use, turf_passed(known)) : say("But keep it off the lawn: {}", off_the_lawn(known));
}

Words rated_words(CompostVerdict verdict, const CompostKnown& known) {
  switch (verdict) {
    case CompostVerdict::pile_at_work:
      return "So its tests say, but the pile is at work: it is hot, or smells so. Leave it until it is cool and smells of earth.";
    case CompostVerdict::too_dry_to_tell:
      return "So its tests say, but it is so dry that it would be quiet in any case. Wet it until a handful clumps, and test again what "
             "was "
             "tested dry.";
    case CompostVerdict::check_failed: return "So its tests say, but a household check failed. Find out why before you use it.";
    case CompostVerdict::finished_for_lawn:
      return finished_words(known, "It may go on the lawn and on beds, but not on seedlings or into pots.");
    case CompostVerdict::ready_for_turf:
      return finished_words(known,
                            "Only its C:N is against it, and a lawn bears that: spread it thin there. Keep it off beds and pots, where it "
                            "would take nitrogen from the plants.");
    case CompostVerdict::nothing_against: return "Only its C:N is against it, and a lawn bears that; but not enough else was checked.";
    case CompostVerdict::finished_for_pots:
      return finished_words(known, "It is finished: use it on the lawn and on beds, and mixed with soil in pots.");
    default: return why_not(verdict, known);
  }
}

}  // namespace

std::vector<Words> questions_of(const YardReadings& readings) {
  std::vector<Words> questions;
  const auto ask = [&](Words words) {
    if (!words.empty()) questions.push_back(std::move(words));
  };
  if (readings.before_built) ask(before_built_words(*readings.before_built, *readings.built));
  if (readings.after_today) ask(after_today_words(*readings.after_today, readings.today));
  for (const SignInDoubt& sign : readings.signs_before_built) ask(sign_before_built_words(sign, *readings.built));
  for (const SignInDoubt& sign : readings.signs_after_today) ask(sign_after_today_words(sign, readings.today));
  if (readings.log && readings.log->dates_taken) ask(dates_taken_words(*readings.log->dates_taken));
  for (const OppositeSigns& signs : opposite_signs(readings)) ask(opposite_words(signs));
  if (readings.scale) ask(scale_words(*readings.scale));
  if (readings.summary) ask(set_aside_words(readings.summary->set_aside));
  return questions;
}

void say_pile_now(PageWriter& writer, const YardReadings& readings, const Materials& materials) {
  for (const Words& question : questions_of(readings)) writer.paragraph(question);
  if (const auto age = stale_since(readings)) writer.paragraph(stale_words(*age));
  bool first = true;
  for (const NoticedSign* noticed : signs_in_order(readings)) {
    if (is_frozen(readings) && !can_be_seen_to_in_frost(*noticed))
      say_after_thaw(writer, *noticed, materials);
    else if (!noticed->pile_is_known)
      say_causes_to_choose(writer, *noticed, causes_shown(readings));
    else if (first)
      say_in_full(writer, *noticed, materials);
    else
      say_in_short(writer, *noticed, materials);
    first = false;
  }
  writer.paragraph(activity_words(readings));
  writer.labels(readings_in_short(readings));
}

void say_other_causes(PageWriter& writer, const YardReadings& readings) {
  const std::size_t shown = causes_shown(readings);
  for (const NoticedSign& noticed : readings.noticed) {
    const std::vector<const Cause*> causes = causes_of(noticed);
    std::vector<Words> items;
    for (std::size_t i = noticed.pile_is_known ? 1 : shown; i < causes.size(); ++i) items.push_back(cause_words(*causes[i], noticed));
    writer.section(Depth::why, say("More on this: {}", noticed.symptom->name)).bullets(std::move(items));
    const Words change = brought(noticed);
    if (!change.empty()) writer.paragraph(say("What you add brings {}.", change));
  }
}

std::vector<Words> next_for_compost(const YardCompost& compost) {
  std::vector<Words> items;
  if (const CheckCriterion* check = next_check(compost.known)) {
    items.push_back(check_words(*check));
    items.emplace_back(fit_for_mulch(compost.known) ? "Meanwhile it can be mulch" : "Until then leave it in the pile");
  } else if (!compost.next.empty()) {
    items.push_back(step_words(*compost.next.front(), compost));
  }
  return items;
}

Words verdict_in_short(const YardCompost& compost) {
  const CompostVerdict verdict = verdict_of(compost.known);
  const std::optional<Rating>& rating = compost.known.rating.rating;
  if (rating) return say("{}. {}", capital(std::string(rating_word(rating))), rated_words(verdict, compost.known));
  return unrated_words(verdict, compost);
}

Words verdict_words(const YardCompost& compost) {
  const Words verdict = verdict_in_short(compost);
  return compost.known.rating.rating ? say("{}{}", verdict, beside_plants(compost.known.rating))
                                     : say("{} That is not a rating: there are not enough tests for one.", verdict);
}

Words step_words(const NextStep& step, const YardCompost& compost) {
  return step.id == "cure" && compost.cured_by ? say("{} That is until {}.", step.text, *compost.cured_by) : Words(step.text);
}

Words check_words(const CheckCriterion& check) { return say("Check next that {}. {}", check.name, check.how); }

Words reading_words(const PileReading& reading) { return say("{} on {}", reading.temperature, DayOfMonth{reading.time.day()}); }

Words felt_words(Date date, HandWarmth warmth) {
  const char* word = warmth == HandWarmth::hot ? "hot" : warmth == HandWarmth::warm ? "warm" : "cold";
  return say("{}, {}", DayOfMonth{date}, word);
}

Words in_weeks(std::chrono::days age) { return Count{std::floor(static_cast<double>(age.count()) / 7.0), "week"}; }

}  // namespace heapwright
