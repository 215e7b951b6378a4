// Compost on a lawn: how much of it, and what nitrogen it brings.

#include "heapwright/exercise/draw_problems.hpp"
#include "heapwright/exercise/tidy.hpp"
#include "heapwright/lawn/shapes.hpp"
#include "heapwright/lawn/topdressing.hpp"

namespace heapwright {
namespace {

constexpr const char* plane_geometry = "plane geometry";

// --- volume at a depth ---

Piece drawn_rectangle(Length length, Length width, std::string name) {
  Piece piece;
  piece.shape = Shape::rectangle;
  piece.sides = {length, width};
  piece.area = rectangle_area(length, width);
  piece.name = std::move(name);
  return piece;
}

Zone drawn_zone(const Piece& whole, const std::vector<Piece>& cut_out) {
  Zone zone{"the lawn", whole.area, std::nullopt};
  zone.whole = whole;
  zone.cut_out = cut_out;
  for (const Piece& cut : cut_out) zone.area -= cut.area;
  return zone;
}

Volume compost_on(const Zone& lawn, Length depth, const Tables& tables) {
  TopdressingPlan plan;
  plan.depth = depth;
  return topdress(Lawn{{lawn}}, plan, tables.materials)->volume;
}

/// Volumes that a class can order: above half a large measure, and no rounding apart.
bool is_an_order(const Zone& lawn, const SheetUnits& units) {
  const double volume = units.working->large.number(lawn.area * units.spread_depth);
  return volume >= 0.5 && rounds_clearly(volume, units.large_volume_step);
}

/// Rectangles longer than wide; at the third level with a bed in them.
std::vector<Zone> lawns_to_measure(Level level, const SheetUnits& units) {
  constexpr double longest = 3.0;  // times as long as wide
  std::vector<Zone> lawns;
  const auto add = [&](const Zone& lawn) {
    if (is_an_order(lawn, units)) lawns.push_back(lawn);
  };
  for (const Length& length : units.lawn_sides) {
    for (const Length& width : units.lawn_sides) {
      if (!(width < length) || length > longest * width) continue;
      const Piece whole = drawn_rectangle(length, width, "the lawn");
      if (level != Level::third) {
        add(drawn_zone(whole, {}));
        continue;
      }
      for (const Length& bed : units.bed_sides) add(drawn_zone(whole, {drawn_rectangle(units.bed_sides.back(), bed, "the bed")}));
    }
  }
  return lawns;
}

Term side_term(const std::string& symbol, const std::string& what, Length side, const WorkingUnits& units) {
  return given(symbol, what, units.side.number(side), units.side.symbol, given_on_the_sheet);
}

Term rectangle_step(Working& working, const Piece& piece, const std::string& number, const WorkingUnits& units) {
  const Term l = side_term("l" + number, "length of " + piece.name, piece.sides[0], units);
  const Term w = side_term("w" + number, "width of " + piece.name, piece.sides[1], units);
  return working.step({"A" + number, "Area of " + piece.name, "length times width", units.area.symbol, plane_geometry}, l * w);
}

/// Area times depth, in a measure. The depth is brought to the unit of the sides in the same step: 1/48 ft as a figure of its own would be
/// rounded, and the volume no longer what a pocket calculator gives.
void volume_step(Working& working, const Expression& area, Length depth, const WorkingUnit<Volume>& in, const WorkingUnits& units) {
  const std::string& side = units.side.symbol;
  const Term t = given("t", "depth", units.depth.number(depth), units.depth.symbol, given_on_the_sheet);
  const Term f = given("f", "how many " + units.depth.symbol + " make 1 " + side, units.depth.number(units.side.one), "", by_definition);
  const bool as_it_is = in.symbol == units.pile.symbol;
  const Term v =
      working.step({as_it_is ? "V" : "v", "Compost", "area times depth in " + side, units.pile.symbol, plane_geometry}, area * t / f);
  if (as_it_is) return;
  const Term g = given("g", "how many " + units.pile.symbol + " make 1 " + in.symbol, units.pile.number(in.one), "", by_definition);
  working.step({"V", "The same in " + in.symbol, "over what makes 1 " + in.symbol, in.symbol, by_definition, 4}, v / g);
}

Working working_of_volume(const VolumeProblem& problem, const SheetUnits& sheet) {
  const WorkingUnits& units = *sheet.working;
  Working working;
  const Zone& lawn = problem.lawn;
  if (!lawn.whole) {
    const Term A = given("A", "area of the lawn", units.area.number(lawn.area), units.area.symbol, given_on_the_sheet);
    volume_step(working, A, problem.depth, sheet.spread, units);
    return working;
  }
  const bool cut = !lawn.cut_out.empty();
  Expression area = rectangle_step(working, *lawn.whole, cut ? "1" : "", units);
  if (cut) {
    const Term bed = rectangle_step(working, lawn.cut_out.front(), "2", units);
    area = working.step({"A", "Lawn to spread on", "the whole less what is cut out", units.area.symbol, plane_geometry}, area - bed);
  }
  volume_step(working, area, problem.depth, units.large, units);
  return working;
}

}  // namespace

ExerciseProblem draw_volume(Draw& draw, Level level, const SheetUnits& units, const Tables& tables) {
  VolumeProblem problem;
  problem.lawn =
      level == Level::first ? Zone{"the lawn", draw.one_of(units.lawns), std::nullopt} : draw.one_of(lawns_to_measure(level, units));
  problem.depth = units.spread_depth;
  problem.answer = compost_on(problem.lawn, problem.depth, tables);
  constexpr double inches_for_feet = 12.0;
  constexpr double hundred_for_a_thousand = 10.0;
  problem.mistaken = (units.metric ? hundred_for_a_thousand : inches_for_feet) * problem.answer;
  return {problem, working_of_volume(problem, units)};
}

// --- nitrogen that it brings ---

namespace {

NitrogenMass nitrogen_brought(const NitrogenProblem& problem, NitrogenDryBasis content, MoistureWetBasis moisture, const Tables& tables) {
  CompostContents contents;
  contents.moisture.typical = moisture;
  contents.bulk_density.typical = problem.density;
  contents.nitrogen.emplace().typical = content;
  return nutrients_of(problem.depth, contents, *tables.materials.nutrients).nitrogen->likely * problem.area;
}

/// Contents in percent to the tenth; at the third level from one to another.
std::vector<Band<double>> contents_of_level(const Compost& compost, Level level) {
  constexpr double tenth = 0.1;
  constexpr double width = 0.4;
  const Band<double> published = published_between(compost.nitrogen, 100.0);
  std::vector<Band<double>> bands;
  const double wide = level == Level::third ? width : 0.0;
  for (const double low : multiples_of(tenth, {published.low, published.high - wide})) bands.push_back({low, low + wide});
  return bands;
}

std::vector<NitrogenProblem> fair_nitrogen(const Compost& compost, Level level, const SheetUnits& units, const Tables& tables) {
  std::vector<NitrogenProblem> fair;
  const auto rounds = [&](NitrogenMass mass) { return rounds_clearly(mass.value() / units.working->mass.one.value(), 0.1); };
  for (const BulkDensity& density : units.compost_densities) {
    for (const double moisture : multiples_of(10.0, published_between(compost.moisture, 100.0))) {
      for (const Band<double>& content : contents_of_level(compost, level)) {
        NitrogenProblem problem{units.lawn_measure,
                                units.spread_depth,
                                density,
                                wet_basis(moisture / 100.0),
                                {nitrogen_dry_basis(content.low / 100.0), nitrogen_dry_basis(content.high / 100.0)},
                                {},
                                {}};
        const auto brought = [&](MoistureWetBasis wet) {
          return Band<NitrogenMass>{nitrogen_brought(problem, problem.content.low, wet, tables),
                                    nitrogen_brought(problem, problem.content.high, wet, tables)};
        };
        problem.answer = brought(problem.moisture);
        problem.mistaken = brought(wet_basis(0.0));
        if (rounds(problem.answer.low) && rounds(problem.answer.high)) fair.push_back(problem);
      }
    }
  }
  return fair;
}

Working working_of_nitrogen(const NitrogenProblem& problem, const WorkingUnits& units) {
  Working working;
  const Term A = given("A", "area", units.area.number(problem.area), units.area.symbol, given_on_the_sheet);
  volume_step(working, A, problem.depth, units.large, units);
  const Term V = *working.steps().back().result;
  const Term r = given("r", "bulk density", units.density.number(problem.density), units.density.symbol, given_on_the_sheet);
  const Term m = working.step({"m", "Weight of it", "volume times bulk density", units.mass.symbol, by_definition, 4}, V * r);
  const Term M = given("M", "its moisture, as a fraction", problem.moisture.value(), "", given_on_the_sheet);
  const Term D = working.step({"D", "Its dry matter", "weight times what is not water", units.mass.symbol, by_definition, 4},
                              m * (1.0 - Expression(M)));
  const bool range = problem.content.low < problem.content.high;
  const auto step = [&](NitrogenDryBasis content, const std::string& number) {
    const Term n = given("n" + number, "nitrogen of dry matter, as a fraction", content.value(), "", given_on_the_sheet);
    working.step({"N" + number, "Nitrogen", "dry matter times what it holds", units.mass.symbol, by_definition, 3}, D * n);
  };
  step(problem.content.low, range ? "1" : "");
  if (range) step(problem.content.high, "2");
  return working;
}

}  // namespace

ExerciseProblem draw_nitrogen(Draw& draw, Level level, const SheetUnits& units, const Tables& tables) {
  const Compost& compost = find_compost(tables.materials, "yard-trimmings");
  const NitrogenProblem problem = draw.one_of(fair_nitrogen(compost, level, units, tables));
  return {problem, working_of_nitrogen(problem, *units.working)};
}

}  // namespace heapwright
