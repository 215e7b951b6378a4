#include "heapwright/lawn/working.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace heapwright {
namespace {

constexpr const char* geometry = "plane geometry";
constexpr const char* own_figure = "your own figure";

/// The sides of a piece as terms. Their symbols bear the piece's number: l2 is the length of the second.
class Sides {
 public:
  Sides(const Piece& piece, std::string name, std::string number, const WorkingUnits& units)
      : piece_(piece), name_(std::move(name)), number_(std::move(number)), units_(units) {}
  Term side(const std::string& letter, const std::string& what, std::size_t at) const {
    return given(letter + number_, what + " of " + name_, units_.side.number(piece_.sides.at(at)), units_.side.symbol, own_figure);
  }

 private:
  const Piece& piece_;
  std::string name_;
  std::string number_;
  const WorkingUnits& units_;
};

struct ShapeFormula {
  std::string words;
  std::string source;
  Expression area;
};

ShapeFormula ellipse(const Term& length, const Term& width) {
  return {"length times width, times pi over four", geometry, length * width * std::numbers::pi / 4.0};
}

/// From the longest side to the shortest, in the order that triangle_area() calculates in.
ShapeFormula triangle_of_sides(const Piece& piece, const std::string& name, const std::string& number, const WorkingUnits& units) {
  Piece sorted = piece;
  std::sort(sorted.sides.begin(), sorted.sides.end(), std::greater<>());
  const Sides sides(sorted, name, number, units);
  const Term a = sides.side("a", "longest side", 0);
  const Term b = sides.side("b", "middle side", 1);
  const Term c = sides.side("c", "shortest side", 2);
  return {"a quarter of the root of four sums of the sides", "Heron's formula, as W. Kahan arranges it",
          root((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c))) / 4.0};
}

/// Nothing where the area itself was given.
std::optional<ShapeFormula> formula_of(const Piece& piece, const std::string& name, const std::string& number, const WorkingUnits& units) {
  const Sides sides(piece, name, number, units);
  switch (piece.shape) {
    case Shape::rectangle: return ShapeFormula{"length times width", geometry, sides.side("l", "length", 0) * sides.side("w", "width", 1)};
    case Shape::ellipse: return ellipse(sides.side("l", "length", 0), sides.side("w", "width", 1));
    case Shape::circle: {
      const Term d = sides.side("d", "diameter", 0);
      return ShapeFormula{"diameter times itself, times pi over four", geometry, d * d * std::numbers::pi / 4.0};
    }
    case Shape::triangle:
      if (piece.sides.size() == 3) return triangle_of_sides(piece, name, number, units);
      return ShapeFormula{"half of base times height", geometry, sides.side("b", "base", 0) * sides.side("h", "height", 1) / 2.0};
    case Shape::trapezoid:
      return ShapeFormula{
          "half the sum of the parallel sides, times height", geometry,
          (sides.side("a", "one parallel side", 0) + sides.side("b", "the other parallel side", 1)) / 2.0 * sides.side("h", "height", 2)};
    case Shape::area:
    case Shape::offsets:
    case Shape::polygon:
    case Shape::radii:
    case Shape::geojson:
    case Shape::gpx: return std::nullopt;
  }
  return std::nullopt;
}

/// The pieces of a lawn, numbered as they come.
class Ground {
 public:
  Ground(Working& working, const WorkingUnits& units) : working_(working), units_(units) {}

  /// The area of a zone less what is cut out of it.
  Term zone(const Zone& zone) {
    if (!zone.whole) return given(symbol("S"), "area of " + zone.name, units_.area.number(zone.area), units_.area.symbol, own_figure);
    Term area = piece(*zone.whole, zone.name);
    if (zone.cut_out.empty()) return area;
    Expression left = area;
    for (const Piece& cut : zone.cut_out) left = left - piece(cut, cut.name);
    return working_.step({"A" + std::to_string(++zones_), "Area of " + zone.name + " to be spread on", "its area less what is cut out",
                          units_.area.symbol, geometry},
                         left);
  }

 private:
  std::string symbol(const std::string& letter) { return letter + std::to_string(++pieces_); }

  Term piece(const Piece& piece, const std::string& name) {
    const std::string S = symbol("S");
    const auto formula = formula_of(piece, name, std::to_string(pieces_), units_);
    if (!formula) return given(S, "area of " + name, units_.area.number(piece.area), units_.area.symbol, own_figure);
    return working_.step({S, "Area of " + name, formula->words, units_.area.symbol, formula->source}, formula->area);
  }

  Working& working_;
  const WorkingUnits& units_;
  int pieces_ = 0;
  int zones_ = 0;
};

Term depth_term(const std::string& symbol, const std::string& what, Length depth, const WorkingUnits& units) {
  return given(symbol, what, units.depth.number(depth), units.depth.symbol, "as asked, else the usual one");
}

/// Area times depth in these units for one volume of compost.
Term area_depths(const WorkingUnits& units) {
  const Volume thin = 1.0 * units.area.one * units.depth.one;
  return given("x", units.area.symbol + " that 1 " + units.large.symbol + " covers 1 " + units.depth.symbol + " deep",
               units.large.one / thin, units.area.symbol, by_definition);
}

Term volume_on_the_ground(Working& working, const Topdressing& topdressing, const WorkingUnits& units) {
  Ground ground(working, units);
  std::vector<Expression> areas;
  std::vector<Expression> beds;
  for (const Zone& zone : topdressing.lawn.zones) {
    const Term area = ground.zone(zone);
    areas.emplace_back(area);
    const std::string number = std::to_string(areas.size());
    beds.push_back(area * depth_term("t" + number, "depth on " + zone.name, depth_of(zone, topdressing.plan), units));
  }
  const StepHeading volume{"V", "Compost on the ground", "area times depth", units.large.symbol, geometry};
  if (!are_of_one_depth(topdressing.zones)) return working.step(volume, sum(beds) / area_depths(units));
  Expression area = sum(areas);
  if (areas.size() > 1) area = working.step({"A", "Area of the lawn", "that of its zones", units.area.symbol, geometry}, area);
  return working.step(volume, area * depth_term("t", "depth", topdressing.depth, units) / area_depths(units));
}

Term allowance_term(const Topdressing& topdressing) {
  return given("e", "allowance for overlap, lumps and settling, as a fraction", allowance_of(topdressing.plan).value(), "",
               whose_allowance(topdressing.plan));
}

/// What a volume weighs, moist or dry, and how many loads it is.
void weight_steps(Working& working, const Topdressing& topdressing, const Expression& volume, const WorkingUnits& units) {
  if (const auto& wheelbarrow = topdressing.wheelbarrow) {
    const Term b = given("b", "what a wheelbarrow holds", units.pile.number(wheelbarrow->volume), units.pile.symbol, wheelbarrow->source);
    const double many = units.pile.number(units.large.one);
    const Term f = given("f", units.pile.symbol + " in 1 " + units.large.symbol, many, "", by_definition);
    working.step({"L", "Wheelbarrow loads", "volume over what one holds", "", by_definition, 4},
                 units.pile.symbol == units.large.symbol ? volume / b : volume * f / b);
  }
  if (!topdressing.weight) return;
  const CompostWeight& weight = *topdressing.weight;
  const auto step = [&](const std::string& which, const std::string& how, BulkDensity density) {
    const Term r = given("r" + which, "bulk density of " + weight.name + ", " + how, units.density.number(density), units.density.symbol,
                         weight.source);
    working.step({"m" + which, "Weight, " + how, "volume times bulk density", units.mass.symbol, by_definition, 4}, volume * r);
  };
  if (weight.density.low) step("1", "at the least", *weight.density.low);
  step("2", "typical", *weight.density.typical);
  if (weight.density.high) step("3", "at the most", *weight.density.high);
}

/// What dry matter holds of a nutrient.
template <class Content>
std::optional<Term> content_step(Working& working, const Term& dry, const std::string& symbol, const std::string& name,
                                 const std::optional<CompostFigure<Content>>& content, const WorkingUnits& units) {
  if (!content) return std::nullopt;
  const Term c = given("c" + symbol, name + " of dry matter, as a fraction", content->typical->value(), "", content->whose);
  return working.step({symbol, "Its " + name, "dry matter times what it holds", units.mass.symbol, by_definition, 4}, dry * c);
}

/// What comes free of nitrogen in the first year, or is tied up.
void first_year_step(Working& working, const Topdressing& topdressing, const Term& nitrogen, const WorkingUnits& units) {
  if (!topdressing.nutrients.freed) return;
  const double share = topdressing.nutrients.freed->likely.value();
  const bool tied_up = share < 0.0;
  const Term s = given("s", tied_up ? "share that is tied up in the first year" : "share that comes free in the first year",
                       std::abs(share), "", "judged by us, by the C:N");
  working.step({"N1", tied_up ? "Nitrogen tied up in the first year" : "Nitrogen free in the first year", "nitrogen times that share",
                units.mass.symbol, by_definition, 4},
               nitrogen * s);
}

/// What compost brings to as much lawn as people count nutrients by.
void nutrient_steps(Working& working, const Topdressing& topdressing, const WorkingUnits& units) {
  const bool in_square_feet = units.area.one < 1.0 * unit::m2;
  const Area measure = in_square_feet ? 1000.0 * unit::square_foot : 100.0 * unit::m2;
  const CompostContents& contents = topdressing.contents;
  const Term a =
      given("a", "lawn that nutrients are counted on", units.area.number(measure), units.area.symbol, "common practice, no source");
  const Term z = depth_term("z", "depth, the mean of all zones", topdressing.depth, units);
  const Term r = given("r2", "bulk density of " + contents.name + ", typical", units.density.number(*contents.bulk_density.typical),
                       units.density.symbol, contents.bulk_density.whose);
  const Term m = working.step({"m", "Compost on so much lawn", "area times depth times bulk density", units.mass.symbol, by_definition, 4},
                              a * z / area_depths(units) * r);
  const Term M = given("M", "its moisture, as a fraction", contents.moisture.typical->value(), "", contents.moisture.whose);
  const Term D = working.step({"D", "Its dry matter", "weight times what is not water", units.mass.symbol, by_definition, 4},
                              m * (1.0 - Expression(M)));
  const auto N = content_step(working, D, "N", "nitrogen", contents.nitrogen, units);
  if (N) first_year_step(working, topdressing, *N, units);
  content_step(working, D, "P", "phosphate (P2O5)", contents.phosphate, units);
  content_step(working, D, "K", "potash (K2O)", contents.potash, units);
}

}  // namespace

Working working_of_topdressing(const Topdressing& topdressing, const WorkingUnits& units) {
  Working working;
  const Term V = volume_on_the_ground(working, topdressing, units);
  const Term Q = working.step({"Q", "Compost to order", "a little more than lies on the ground", units.large.symbol, by_definition, 4},
                              V * (1.0 + Expression(allowance_term(topdressing))));
  weight_steps(working, topdressing, Q, units);
  const Term n =
      given("n", "times a year", topdressing.times_a_year, "", topdressing.plan.months.empty() ? "common practice, no source" : own_figure);
  working.step({"Y", "Compost for a year", "times a year, times what each takes", units.large.symbol, by_definition, 4}, n * Q);
  nutrient_steps(working, topdressing, units);
  return working;
}

Working working_of_coverage(const Topdressing& covered, const WorkingUnits& units) {
  Working working;
  const Term Q = given("Q", "compost that there is", units.large.number(covered.volume_with_allowance), units.large.symbol, own_figure);
  const Term V =
      working.step({"V", "Compost on the ground", "what there is, over one and the allowance", units.large.symbol, by_definition},
                   Q / (1.0 + Expression(allowance_term(covered))));
  working.step({"A", "Area that it covers", "volume over depth", units.area.symbol, geometry, 4},
               V * area_depths(units) / depth_term("t", "depth", covered.depth, units));
  weight_steps(working, covered, Q, units);
  nutrient_steps(working, covered, units);
  return working;
}

}  // namespace heapwright
