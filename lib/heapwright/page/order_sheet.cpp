#include <algorithm>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/order/phone_line.hpp"
#include "heapwright/page/nutrients_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/turf_parts.hpp"

namespace heapwright {
namespace {

bool is_for(const SheetLine& line, const Topdressing& topdressing) {
  return !line.surface || std::any_of(topdressing.zones.begin(), topdressing.zones.end(),
                                      [&](const ZoneDressing& zone) { return zone.surface == *line.surface; });
}

std::vector<Words> lines_of(SheetPart part, const OrderSheet& sheet, const SheetLines& lines) {
  std::vector<Words> words;
  for (const SheetLine& line : lines.lines) {
    if (line.part == part && is_for(line, sheet.topdressing)) words.emplace_back(line.text);
  }
  return words;
}

/// Where the lines of some parts are from, each source once.
Words sources_of(const std::vector<SheetPart>& parts, const OrderSheet& sheet, const SheetLines& lines, const Materials& materials) {
  std::vector<std::string> sources;
  const auto add = [&](const std::string& source, Evidence evidence) {
    const std::string words = source_in_short(materials, source, evidence);
    if (evidence != Evidence::judged && std::find(sources.begin(), sources.end(), words) == sources.end()) sources.push_back(words);
  };
  for (const SheetLine& line : lines.lines) {
    const bool is_shown = std::find(parts.begin(), parts.end(), line.part) != parts.end() && is_for(line, sheet.topdressing);
    if (is_shown) add(line.source, line.evidence);
  }
  const bool is_work = std::find(parts.begin(), parts.end(), SheetPart::work) != parts.end();
  for (const SeedForArea& seed : sheet.seeds) {
    if (is_work) add(seed.of->rate.source, seed.of->rate.evidence);
  }
  return joined({sources.begin(), sources.end()}, "; ");
}

// --- the supplier's side ---

Words suppliers_of(const std::optional<Ordering>& ordering) {
  std::vector<Words> names;
  if (!ordering || ordering->usual || !ordering->best) return {};
  for (const OrderLine& line : ordering->best->lines) names.emplace_back(ordering->question.offers[line.offer].name);
  return listed(names);
}

Words days_of(const Site& site) {
  if (site.deliver_from && site.deliver_to) return say("{} to {}", DayOfWeek{*site.deliver_from}, DayOfWeek{*site.deliver_to});
  if (site.deliver_from) return say("from {}", DayOfWeek{*site.deliver_from});
  if (site.deliver_to) return say("by {}", DayOfWeek{*site.deliver_to});
  return {};
}

Words counted_price(const std::optional<Ordering>& ordering) {
  if (!ordering || ordering->usual || !ordering->best) return {};
  return say("{}, in your money", ordering->best->cost);
}

Form order_form(const OrderSheet& sheet) {
  const std::optional<Ordering>& ordering = sheet.topdressing.ordering;
  return {{{"Offer", suppliers_of(ordering)},
           {"Price by the offer", counted_price(ordering)},
           {"Price agreed", {}},
           {"Ordered by, phone", {}},
           {"Ordered from, date", {}},
           {"Deliver", days_of(sheet.site)}}};
}

Form site_form(const Site& site) {
  return {{{"Address", site.address},
           {"Who is there, phone", site.contact},
           {"Drop spot", site.drop_spot},
           {"Way in", site.access},
           {"Narrowest place", site.gate_width ? Words(*site.gate_width) : Words()}}};
}

/// What one carries home, by trips or in bags.
void say_hauled(PageWriter& writer, const OrderSheet& sheet, const SheetLines& lines) {
  writer.section(Depth::act, "Fetched").block(Boxes{lines_of(SheetPart::fetch, sheet, lines)});
  const std::optional<Ordering>& ordering = sheet.topdressing.ordering;
  const auto mass = mass_hauled(sheet.topdressing);
  if (!ordering || !ordering->best || !mass) return;
  const double trips = std::max(1, ordering->best->loads);
  const Words weight =
      mass->low < mass->high ? Words(Between<Mass>{mass->low / trips, mass->high / trips}) : Words(Mass(mass->likely / trips));
  writer.paragraph(ordering->best->loads > 0 ? say("{}, each about {}.", Count{trips, "trip"}, weight)
                                             : say("All of it weighs {}.", weight));
}

void say_tipped(PageWriter& writer, const OrderSheet& sheet) {
  const TippedPile& tipped = *sheet.tipped;
  writer.block(Drawing{ConeOnGround{tipped.across, tipped.high}, say("Room for one load, {}: about {} across and {} high.", tipped.volume,
                                                                     AboutLength{tipped.across}, AboutLength{tipped.high})});
  if (sheet.loads > 1)
    writer.paragraph(
        say("{}: as much room again for each that comes before the last is spread.", Count{static_cast<double>(sheet.loads), "load"}));
}

/// Whose limits for turf stand on the sheet.
constexpr std::string_view sheet_specification = "Penn State";

/// "30 to 50 %"
Words wanted_words(const TurfLimit& limit, TestQuantity measured) {
  if (limit.low && limit.high) return say("{} to {}", Tested{measured, limit.low->value, false}, Tested{measured, limit.high->value});
  return bound_words(limit.low ? *limit.low : *limit.high, measured);
}

/// What a published specification for turf asks, beside room for what the supplier's report says.
Grid specification(const OrderSheet& sheet, const Criteria& criteria) {
  Grid grid;
  grid.head = {"", "wanted", "report says"};
  grid.rows.push_back({"screened to", say("{} or finer", SpreadDepth{coarsest_screen(sheet.topdressing)}), ""});
  for (const TurfLimit& limit : criteria.turf) {
    const TestCriterion& property = known_row(criteria.tests, limit.property);
    const bool is_screen = property.measured == TestQuantity::size;
    if (limit.specification == sheet_specification && !is_screen)
      grid.rows.push_back({property.name, wanted_words(limit, property.measured), ""});
  }
  grid.rows.push_back({"soluble salts", "with the method", ""});
  return grid;
}

Words source_of_specification(const Criteria& criteria, const Materials& materials) {
  for (const TurfLimit& limit : criteria.turf) {
    if (limit.specification == sheet_specification)
      return say("Limits for turf: {}.", source_in_short(materials, limit.whose.source, limit.whose.evidence));
  }
  return {};
}

Form questions(const OrderSheet& sheet, const SheetLines& lines) {
  Form form;
  for (Words& ask : lines_of(SheetPart::ask, sheet, lines)) form.fields.push_back({std::move(ask), {}});
  return form;
}

Page supplier_side(const OrderSheet& sheet, const Tables& tables) {
  const SheetLines& lines = *tables.sheet_lines;
  const std::string& line = sheet.topdressing.phone_line;
  PageWriter writer("Compost order", sheet.name.empty() ? "Compost order" : "Compost order: " + sheet.name);
  writer.section(Depth::act);
  if (sheet.topdressing.advice.is_hold())
    writer.paragraph("Hold: not to be sent until it is cleared.").block(Form{{{"Cleared by, date", {}}}});
  writer.section(Depth::act);
  writer.paragraph(line.empty() ? say("{} of compost: every offer is out of date.", sheet.topdressing.volume_with_allowance)
                                : say("{}.", line));
  writer.block(order_form(sheet));
  writer.section(Depth::act, "Where").block(site_form(sheet.site));
  const bool by_truck = sheet.loads > 0;
  if (by_truck) writer.section(Depth::act, "The truck").block(Boxes{lines_of(SheetPart::access, sheet, lines)});
  if (sheet.tipped) say_tipped(writer, sheet);
  if (!by_truck) say_hauled(writer, sheet, lines);
  writer.section(Depth::act, "The compost").block(specification(sheet, *tables.criteria));
  writer.section(Depth::act, "Ask the supplier").block(questions(sheet, lines));
  writer.section(Depth::act, by_truck ? "Before the truck tips" : "Before you load it")
      .block(Boxes{lines_of(SheetPart::look, sheet, lines)});
  writer.paragraph(by_truck ? "Is a box left empty? Do not let it tip, and call the supplier: tipped, it is hard to send back."
                            : "Is a box left empty? Leave it there.");
  writer.section(Depth::ground)
      .paragraph(say("{} {}. The rest is common practice.", source_of_specification(*tables.criteria, tables.materials),
                     sources_of({SheetPart::access, SheetPart::ask, SheetPart::look}, sheet, lines, tables.materials)));
  return std::move(writer).page();
}

// --- the crew's side ---

/// To the half, up.
Words full_barrows(double loads) { return Number{std::ceil(2.0 * loads - 1e-9) / 2.0, 4}; }

Grid zones_to_dress(const Topdressing& topdressing) {
  Grid grid;
  grid.head = {"zone", "area", "deep", "full barrows", "used"};
  for (const ZoneDressing& zone : topdressing.zones)
    grid.rows.push_back({zone.name, zone.area, SpreadDepth{zone.depth}, full_barrows(zone.wheelbarrow_loads), ""});
  if (topdressing.zones.size() > 1) grid.rows.push_back({"all", topdressing.area, "", full_barrows(topdressing.wheelbarrow_loads), ""});
  return grid;
}

Grid depth_checks(const OrderSheet& sheet) {
  Grid grid;
  grid.head = {"deep", "full barrow", "half full", "bucket", say("tarp {} square", tarp_side)};
  for (const DepthCheck& check : sheet.checks)
    grid.rows.push_back({SpreadDepth{check.depth}, say("{} square", AboutLength{check.barrow_square}),
                         say("{} square", AboutLength{check.half_barrow_square}), say("{} square", AboutLength{check.bucket_square}),
                         say("catches {}", AboutCapacity{check.caught})});
  return grid;
}

void say_how_deep(PageWriter& writer, const OrderSheet& sheet) {
  const DepthCheck& check = sheet.checks.front();
  writer.block(Drawing{SquareOfGround{check.barrow_square}, say("One full barrow, {} deep, covers a square of {} a side.",
                                                                SpreadDepth{check.depth}, AboutLength{check.barrow_square})});
  writer.block(Drawing{TrueThickness{check.depth},
                       say("This bar is {} thick when printed at full size: hold it against the compost.", SpreadDepth{check.depth})});
  writer.block(depth_checks(sheet));
}

/// "tall fescue 180 to 240 lb, or Kentucky bluegrass 59 to 89 lb"; nothing where none is known for the grass.
Words seed_words(const OrderSheet& sheet, Surface surface) {
  std::vector<Words> seeds;
  for (const SeedForArea& seed : sheet.seeds) {
    if (seed.of->surface == surface) seeds.push_back(say("{} {}", seed.of->name, Between<Mass>{seed.low, seed.high}));
  }
  return joined(seeds, ", or ");
}

Words barrow_words(const LikelyBand<Mass>& barrow) {
  const Words weight = barrow.low < barrow.high ? Words(Between<Mass>{barrow.low, barrow.high}) : say("about {}", barrow.likely);
  return say("A full barrow of moist compost weighs {}: half-fill it where that is too much, and count two for one.", weight);
}

void say_amounts(PageWriter& writer, const OrderSheet& sheet) {
  std::vector<Words> items;
  if (sheet.barrow) items.push_back(barrow_words(*sheet.barrow));
  if (const Words seed = seed_words(sheet, Surface::lawn); !seed.empty()) items.push_back(say("Seed to thicken the lawn: {}.", seed));
  if (const Words seed = seed_words(sheet, Surface::bare); !seed.empty()) items.push_back(say("Seed for the bare ground: {}.", seed));
  items.push_back(say("Water, {}: {}.", SpreadDepth{0.5 * unit::inch}, AboutCapacity{sheet.water}));
  writer.bullets(std::move(items));
}

Warnings in_short(const std::vector<std::string>& ids, const Materials& materials) {
  Warnings warnings{{}, true};
  for (const std::string& id : ids) warnings.cautions.push_back(known_row(*materials.cautions, id));
  return warnings;
}

/// How deep it lies after what was used, a fifth less and more too.
Words used_and_depth(const Topdressing& topdressing) {
  std::vector<Words> words;
  for (const double share : {0.8, 1.0, 1.2})
    words.push_back(say("{} lies {} deep", Volume(share * topdressing.volume), SpreadDepth{share * topdressing.depth}));
  return joined(words);
}

Form record() { return {{{"Date", {}}, {"Hands, hours", {}}, {"Delivered", {}}, {"Used", {}}, {"Left over", {}}, {"Weather", {}}}}; }

Page crew_side(const OrderSheet& sheet, const Tables& tables) {
  const SheetLines& lines = *tables.sheet_lines;
  PageWriter writer("Spreading compost", sheet.name.empty() ? "Spreading compost" : "Spreading compost: " + sheet.name);
  writer.section(Depth::act);
  say_hold(writer, sheet.topdressing);
  writer.section(Depth::act);
  say_what_to_ask(writer, sheet.topdressing);
  writer.paragraph(say("Carry {} to {}.", sheet.topdressing.volume_with_allowance, sheet.topdressing.area));
  writer.block(zones_to_dress(sheet.topdressing));
  writer.section(Depth::act, "First").block(Boxes{lines_of(SheetPart::before, sheet, lines)});
  writer.section(Depth::act, "Then").block(Numbered{lines_of(SheetPart::work, sheet, lines)});
  writer.section(Depth::act, "How much");
  say_amounts(writer, sheet);
  writer.section(Depth::act, "Is it deep enough?");
  say_how_deep(writer, sheet);
  writer.block(in_short(sheet.cautions, tables.materials));
  writer.section(Depth::act, "Write down").block(record());
  if (sheet.checks.size() == 1) writer.paragraph(say("Used on all of it, {}.", used_and_depth(sheet.topdressing)));
  writer.paragraph("Who keeps the yard file writes date and used under [[spread]]: the next order goes by it.");
  writer.section(Depth::ground)
      .paragraph(say("{}. The rest is common practice.", sources_of({SheetPart::before, SheetPart::work}, sheet, lines, tables.materials)));
  return std::move(writer).page();
}

}  // namespace

std::vector<Page> order_sheet_pages(const std::vector<OrderSheet>& sheets, const Tables& tables) {
  std::vector<Page> pages;
  for (const OrderSheet& sheet : sheets) {
    pages.push_back(supplier_side(sheet, tables));
    pages.push_back(crew_side(sheet, tables));
  }
  return pages;
}

}  // namespace heapwright
