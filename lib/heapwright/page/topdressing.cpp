#include <algorithm>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/order/loads.hpp"
#include "heapwright/order/phone_line.hpp"
#include "heapwright/page/nutrients_parts.hpp"
#include "heapwright/page/order_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/topdressing_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

const WorkSteps spreading{"use"};

Words times_a_year(int times) { return times == 1 ? Words("once a year") : say("{} times a year", whole(times)); }

Words when_of(const TopdressingPlan& plan) {
  std::vector<Words> months;
  for (const auto month : plan.months) months.emplace_back(month_name(month));
  return months.empty() ? Words(season_for(grass_of(plan))) : joined(months);
}

/// A weight that only the supplier's analysis tells has no range.
Words weight_words(const LikelyBand<Mass>& mass) {
  if (mass.low < mass.high) return say("{}, moist or dry", Between<Mass>{mass.low, mass.high});
  return say("{} as analyzed", mass.likely);
}

/// Where wet compost takes more loads than it is ordered in.
Words loads_when_wet(const Topdressing& topdressing) {
  if (!topdressing.ordering || !topdressing.ordering->best) return {};
  int loads = 0;
  int wet = 0;
  for (const OrderLine& line : topdressing.ordering->best->lines) {
    loads += line.loads;
    wet += line.loads_when_wet;
  }
  return wet > loads ? say("; wet it may take {}", Count{static_cast<double>(wet), "load"}) : Words();
}

bool has_ground(const Topdressing& topdressing, Surface surface) {
  return std::any_of(topdressing.zones.begin(), topdressing.zones.end(), [&](const ZoneDressing& zone) { return zone.surface == surface; });
}

/// The day in order. None of it while nothing is to be spread, or not yet.
void add_hand_work(Labels& labels, const Topdressing& topdressing) {
  const bool is_time = !topdressing.advice.is_hold() && !topdressing.advice.out_of_season;
  if (is_time && has_ground(topdressing, Surface::lawn))
    labels.labels.push_back({"Do", "mow short, rake off clippings, core, spread, rake blades free, water"});
}

Labels amounts(const Topdressing& topdressing, const Materials& materials) {
  Labels labels;
  add_order(labels, topdressing, materials);
  if (const auto mass = mass_hauled(topdressing))
    labels.labels.push_back({"Weighs", say("{}{}", weight_words(*mass), loads_when_wet(topdressing))});
  if (topdressing.plan.surface == Surface::lawn)
    labels.labels.push_back({"When", say("{}, {}{}", times_a_year(topdressing.times_a_year), when_of(topdressing.plan),
                                         topdressing.times_a_year > 1 ? say(": {} a year", topdressing.per_year) : Words())});
  add_hand_work(labels, topdressing);
  add_nutrients(labels, topdressing, materials);
  add_ground(labels, topdressing.advice);
  return labels;
}

Words area_words(Area area, const std::optional<Area>& spread) {
  return spread ? say("{} (from {} to {})", area, std::max(Area(), Area(area - *spread)), Area(area + *spread)) : Words(area);
}

Grid zones(const Topdressing& topdressing) {
  Grid grid;
  grid.head = {"zone", "area", "deep", "to carry", "barrows"};
  for (const ZoneDressing& zone : topdressing.zones)
    grid.rows.push_back({zone.name, area_words(zone.area, zone.spread), SpreadDepth{zone.depth}, zone.volume_with_allowance,
                         whole(static_cast<long long>(std::ceil(zone.wheelbarrow_loads)))});
  return grid;
}

void say_where_it_goes(PageWriter& writer, const Topdressing& topdressing) {
  writer
      .section(Depth::why,
               say("Where it goes (to carry: with the {} for overlap and lumps)", Percent{allowance_of(topdressing.plan).value()}))
      .block(zones(topdressing));
}

/// The same in full, with whose each step is.
void say_why_of_hand_work(PageWriter& writer, const Topdressing& topdressing, const Materials& materials) {
  if (!has_ground(topdressing, Surface::lawn)) return;
  const auto whose = [&](std::string_view source) { return source_in_short(materials, source, Evidence::seen); };
  Numbered steps;
  steps.items.push_back("Mow short and rake the clippings off, so that compost reaches the soil (common practice, no source).");
  steps.items.push_back(
      say("Core. Authorities differ on when: before you spread ({}), after, with passes that break the cores ({}), or either ({}). "
          "Have buried lines marked first.",
          whose("cumberland-topdressing"), whose("delaware-topdressing-2009"), whose("uscc-lawns")));
  steps.items.push_back(say("Spread it dry, in small piles 3 to 4 ft apart ({}); but not so dry that it dusts (common practice).",
                            whose("cumberland-topdressing")));
  steps.items.push_back(say("Rake or drag it in until the blades poke through ({}).", whose("cumberland-topdressing")));
  steps.items.push_back("Sweep it off pavement, and water it in (common practice, no source).");
  writer.section(Depth::why, "By hand, on the day").block(std::move(steps));
}

/// A fifth of an area and more: worth measuring otherwise. Judged; of the ways to measure only a phone's fixes on a small lawn are so far
/// off.
constexpr double poorly_known = 0.2;

void say_poorly_known(PageWriter& writer, const Topdressing& topdressing) {
  for (const ZoneDressing& zone : topdressing.zones) {
    if (zone.spread && *zone.spread > poorly_known * zone.area)
      writer.paragraph(say("A phone's fixes tell the area of {} only to within {} either way: measure it with a wheel or a tape.",
                           zone.name, Percent{static_cast<double>(*zone.spread / zone.area)}));
  }
}

/// Pieces whose edge is too curved for so few widths.
std::vector<Words> to_measure_closer(const Lawn& lawn) {
  std::vector<Words> names;
  for (const Zone& zone : lawn.zones) {
    if (zone.whole && wants_closer_widths(*zone.whole)) names.emplace_back(zone.name);
    for (const Piece& cut : zone.cut_out) {
      if (wants_closer_widths(cut)) names.emplace_back(cut.name);
    }
  }
  return names;
}

}  // namespace

void say_topdressing(PageWriter& writer, const Topdressing& topdressing, const Materials& materials) {
  say_order(writer, topdressing);
  say_what_to_ask(writer, topdressing);
  writer.paragraph(say("Spread {} over {}, {} deep{}.", topdressing.volume, topdressing.area, SpreadDepth{topdressing.depth},
                       are_of_one_depth(topdressing.zones) ? "" : " on average"));
  writer.block(amounts(topdressing, materials));
  say_poorly_known(writer, topdressing);
  if (const std::vector<Words> names = to_measure_closer(topdressing.lawn); !names.empty())
    writer.paragraph(say("Measure {} closer, at half the spacing: trapezoids and Simpson's rule differ by more than {}.", listed(names),
                         Percent{widths_too_far_apart}));
  if (has_ground(topdressing, Surface::bare)) writer.paragraph("On bare ground till it in, 6 to 8 in deep, before you sow.");
  if (topdressing.deep_on_bare)
    writer.paragraph(say("More than {} is too much for the soil to take in: spread less.", SpreadDepth{depth_to_warn_at_on_bare_ground}));
  if (topdressing.deep_in_a_year)
    writer.paragraph(
        say("With what is spread it makes more than {} within a year: phosphorus builds up in the soil. Spread less often or thinner.",
            SpreadDepth{depth_a_year_to_warn_at}));
  if (topdressing.deep)
    writer.paragraph(
        say("More than {} at once can smother a low or thin lawn: two thinner dressings are safer.", SpreadDepth{depth_to_warn_at}));
}

Page topdressing_page(const Answer<Topdressing>& answer, const Materials& materials) {
  PageWriter writer("Topdressing");
  urgent_cautions(writer, answer, materials);
  writer.section(Depth::act);
  say_hold(writer, answer.result);
  writer.section(Depth::act);
  say_topdressing(writer, answer.result, materials);
  end_act(writer, answer, materials, spreading);
  const bool worth_a_table = answer->zones.size() > 1 || answer->spread;
  if (worth_a_table) say_where_it_goes(writer, answer.result);
  say_why_of_hand_work(writer, answer.result, materials);
  say_why_of_order(writer, answer.result, materials);
  say_why_of_nutrients(writer, answer.result, materials);
  return finished(std::move(writer), answer, materials);
}

namespace {

Words names_of_jobs(const DressedDrop& drop) { return listed({drop.jobs.begin(), drop.jobs.end()}); }

bool has_prices(const DressedJobs& jobs) {
  return std::any_of(jobs.drops.begin(), jobs.drops.end(), [](const DressedDrop& drop) { return !drop.topdressing.ordering->usual; });
}

/// ", from bulk, delivered", with one's own trips.
Words from_whom(const Ordering& ordering) {
  if (ordering.usual) return {};
  std::vector<Words> words;
  for (const OrderLine& line : ordering.best->lines) {
    const Offer& offer = ordering.question.offers[line.offer];
    words.push_back(offer.own_haulage ? say("\"{}\" in {} of your own", offer.name, Count{static_cast<double>(line.loads), "trip"})
                                      : say("\"{}\"", offer.name));
  }
  return say(", from {}", listed(words));
}

Bullets orders_of_jobs(const DressedJobs& jobs) {
  Bullets bullets;
  for (const DressedDrop& drop : jobs.drops) {
    const std::string& line = drop.topdressing.phone_line;
    const Words order = line.empty() ? Words("every offer is out of date") : say("{}{}", line, from_whom(*drop.topdressing.ordering));
    const Words cost = has_prices(jobs) && !line.empty() ? say(": {}", drop.topdressing.ordering->cost) : Words();
    bullets.items.push_back(say("{}: {}{}", names_of_jobs(drop), order, cost));
  }
  return bullets;
}

Words all_jobs_words(const DressedJobs& jobs) {
  std::vector<Words> once;
  for (const FixedCost& fixed : jobs.fixed_costs) once.push_back(say("{} {}", fixed.name, fixed.price));
  return say("All of it costs {}{}. Loads do not split between drops.", jobs.cost, once.empty() ? Words() : say(", with {}", listed(once)));
}

Grid jobs_grid(const DressedJobs& jobs) {
  Grid grid;
  grid.head = {"job", "area", "deep", "to carry", "barrows"};
  for (const DressedDrop& drop : jobs.drops) {
    const Topdressing& dressing = drop.topdressing;
    grid.rows.push_back({names_of_jobs(drop), dressing.area, SpreadDepth{dressing.depth}, dressing.volume_with_allowance,
                         whole(static_cast<long long>(std::ceil(dressing.wheelbarrow_loads)))});
  }
  return grid;
}

/// What comes to each drop that has an order, a bar for each of its offers.
Bars bars_of_jobs(const DressedJobs& jobs) {
  Bars bars{"What comes to each drop, load by load", {}, {}, {}};
  std::vector<Words> words;
  for (const DressedDrop& drop : jobs.drops) {
    const std::optional<Ordering>& ordering = drop.topdressing.ordering;
    if (!ordering || !ordering->best) continue;
    for (const OrderLine& line : ordering->best->lines) {
      const bool is_mixed = ordering->best->lines.size() > 1;
      const Words of = is_mixed ? say(", {}", ordering->question.offers[line.offer].name) : Words();
      const Words name = say("{}{}", names_of_jobs(drop), of);
      bars.bars.push_back({name, loads_to_draw(line), in_loads(line)});
      words.push_back(say("{}: {}", name, in_loads(line)));
    }
  }
  bars.in_words = say("{}.", joined(words, "; "));
  return bars;
}

}  // namespace

namespace {

/// One whose phosphorus nobody knows, where there is one.
const Topdressing& least_known(const DressedJobs& jobs) {
  const auto is_unknown = [](const DressedDrop& drop) {
    const PhosphorusVerdict verdict = drop.topdressing.advice.phosphorus;
    return verdict == PhosphorusVerdict::no_test || verdict == PhosphorusVerdict::not_tested;
  };
  const auto found = std::find_if(jobs.drops.begin(), jobs.drops.end(), is_unknown);
  return found == jobs.drops.end() ? jobs.drops.front().topdressing : found->topdressing;
}

/// Jobs whose own ground takes none, where the file's does.
void say_jobs_that_hold(PageWriter& writer, const DressedJobs& jobs) {
  for (const DressedDrop& drop : jobs.drops) {
    if (drop.topdressing.advice.is_hold())
      writer.paragraph(say("{} That is at {}.", hold_line(drop.topdressing.advice), names_of_jobs(drop)));
  }
}

}  // namespace

Page jobs_page(const Answer<Topdressing>& all, const DressedJobs& jobs, const Materials& materials) {
  PageWriter writer("Topdressing");
  urgent_cautions(writer, all, materials);
  writer.section(Depth::act);
  say_hold(writer, all.result);
  if (!all->advice.is_hold()) say_jobs_that_hold(writer, jobs);
  writer.section(Depth::act, "Order").block(orders_of_jobs(jobs));
  say_what_to_ask(writer, least_known(jobs));
  if (has_prices(jobs)) writer.paragraph(all_jobs_words(jobs));
  writer.block(jobs_grid(jobs));
  Labels labels;
  add_nutrients(labels, all.result, materials);
  if (!all->plan.soil_test) {
    for (const DressedDrop& drop : jobs.drops) add_soil_of_job(labels, names_of_jobs(drop), drop.topdressing);
  }
  add_ground(labels, all->advice);
  writer.labels(std::move(labels));
  end_act(writer, all, materials, spreading);
  say_where_it_goes(writer, all.result);
  if (Bars bars = bars_of_jobs(jobs); !bars.bars.empty()) writer.block(std::move(bars));
  say_why_of_hand_work(writer, all.result, materials);
  say_why_of_nutrients(writer, all.result, materials);
  return finished(std::move(writer), all, materials);
}

namespace {

/// A hold is said first, and what to ask a laboratory, whatever else there is to say; below them this.
void insert_below_hold(Page& page, const SpreadingAdvice& advice, Paragraph paragraph) {
  page.sections.insert(page.sections.begin() + static_cast<std::ptrdiff_t>(sections_of_hold(advice)),
                       {Depth::act, {}, {std::move(paragraph)}});
}

}  // namespace

Page unmeasured_lawn_page(const Answer<Topdressing>& of_an_area, const std::string& file, const Materials& materials) {
  Page page = topdressing_page(of_an_area, materials);
  Paragraph why{say("No lawn is measured in {}. For every {} of it:", file, of_an_area->area)};
  insert_below_hold(page, of_an_area->advice, std::move(why));
  return page;
}

namespace {

/// A volume at the depths that are usual on a living lawn, and how deep it lies on all of a lawn that is known.
Labels at_usual_depths(const Topdressing& covered, Volume volume, Area whole) {
  Labels labels;
  const Volume spread = volume / (1.0 + allowance_of(covered.plan).value());
  for (const double inches : {0.125, 0.25, 0.375})
    labels.labels.push_back(
        {inches == 0.125 ? "At" : "", say("{} it covers {}", SpreadDepth{inches * unit::inch}, Area(spread / (inches * unit::inch)))});
  if (is_positive(whole) && spread / whole <= depth_to_refuse)
    labels.labels.push_back({"All", say("of the {} would get {}", whole, SpreadDepth{spread / whole})});
  return labels;
}

}  // namespace

Page with_budget(Page page, const SpreadingAdvice& advice, Cost budget, Cost cost) {
  Paragraph first{cost <= budget ? say("{} is enough: this costs {}.", budget, cost)
                                 : say("{} is not enough: all of it costs {}. Leave a job for later, or spread thinner.", budget, cost)};
  insert_below_hold(page, advice, std::move(first));
  return page;
}

Page budget_page(const Answer<Topdressing>& covered, const Bought& bought, const Lawn& lawn, const Materials& materials) {
  Page page = coverage_page(covered, bought.order.volume, lawn, materials);
  std::vector<Words> lines;
  for (const OrderLine& line : bought.order.lines) {
    const Offer& offer = bought.offers[line.offer];
    lines.push_back(say("{} from \"{}\"", quantity_text(line, offer, materials), offer.name));
  }
  Paragraph first{say("For {} you get {}: {}{}.", bought.budget, listed(lines), bought.cost,
                      bought.order.cost < bought.cost ? Words(" with what is paid once") : Words())};
  insert_below_hold(page, covered->advice, std::move(first));
  return page;
}

namespace {

Words enough_words(Volume volume, Volume need) {
  constexpr double as_good_as_enough = 1.0 + 1e-9;
  if (need <= as_good_as_enough * volume) return " That is enough.";
  return say(" You need {} more.", Volume(need - volume));
}

/// How far a volume goes at the plan's depth; of a lawn whose zones have depths of their own, whether it is enough for it.
Words how_far_words(const Topdressing& covered, Volume volume, const Lawn& lawn) {
  const Area whole = area_of(lawn);
  const Volume need = volume_for(lawn, covered.plan);
  const Percent allowance{allowance_of(covered.plan).value()};
  const auto has_own_depth = [&](const Zone& zone) { return depth_of(zone, covered.plan) != depth_of(covered.plan); };
  if (std::any_of(lawn.zones.begin(), lawn.zones.end(), has_own_depth))
    return say("Your {} takes {}, each zone at its own depth, with {} for overlap and lumps: you have {}.{}", whole, need, allowance,
               volume, enough_words(volume, need));
  const Words of_whole = is_positive(whole) ? say(" of your {}", whole) : Words();
  return say("{} of compost covers about {}{}, {} deep, with {} for overlap and lumps.{}", volume, covered.covers, of_whole,
             SpreadDepth{covered.depth}, allowance, is_positive(whole) ? enough_words(volume, need) : Words());
}

}  // namespace

Page coverage_page(const Answer<Topdressing>& covered, Volume volume, const Lawn& lawn, const Materials& materials) {
  const Area whole = area_of(lawn);
  PageWriter writer("Topdressing");
  writer.section(Depth::act);
  say_hold(writer, covered.result);
  writer.section(Depth::act);
  writer.paragraph(how_far_words(covered.result, volume, lawn));
  say_what_to_ask(writer, covered.result);
  Labels labels = at_usual_depths(covered.result, volume, whole);
  if (covered->mass) labels.labels.push_back({"Weighs", weight_words(*covered->mass)});
  add_nutrients(labels, covered.result, materials);
  add_ground(labels, covered->advice);
  writer.labels(std::move(labels));
  end_act(writer, covered, materials, spreading);
  say_why_of_nutrients(writer, covered.result, materials);
  return finished(std::move(writer), covered, materials);
}

}  // namespace heapwright
