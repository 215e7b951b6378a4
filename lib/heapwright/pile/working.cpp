#include "heapwright/pile/working.hpp"

#include <cmath>
#include <numbers>

namespace heapwright {
namespace {

constexpr const char* own_figure = "your own figure";
constexpr const char* suggested = "suggested for what there is to put in";
constexpr const char* geometry = "plane and solid geometry";
constexpr const char* common_practice = "common practice, no source";
constexpr const char* judged_by_us = "judged by us";
constexpr int digits_of_a_size = 4;

/// The steps of one pile, and of all of them.
class PileSteps {
 public:
  PileSteps(const PileFit& fit, const WorkingUnits& units) : fit_(fit), pile_(*fit.pile), units_(units) {}

  Working working() {
    const Term v = volume();
    if (pile_.count > 1) step("V", "Volume of all of them", "one, times how many", units_.pile.symbol, by_definition, v * how_many());
    ground();
    const Term t = taken(v);
    if (fit_.mix && pile_is_described()) filling(t);
    return std::move(working_);
  }

 private:
  bool pile_is_described() const { return fit_.fits.has_value(); }
  const char* whose() const { return pile_is_described() || !fit_.mix ? own_figure : suggested; }

  Term side(const std::string& symbol, const std::string& what, Length length) const {
    return given(symbol, what, units_.side.number(length), units_.side.symbol, whose());
  }
  Term step(const std::string& symbol, const std::string& what, const std::string& formula, const std::string& unit,
            const std::string& source, const Expression& expression) {
    return working_.step({symbol, what, formula, unit, source, digits_of_a_size}, expression);
  }

  Term volume() {
    const auto of = [&](const std::string& formula, const Expression& expression) {
      return step("v", "Volume of one pile, full", formula, units_.pile.symbol, geometry, expression);
    };
    switch (pile_.shape) {
      case PileShape::bin: return of("length times width times height", length() * width() * height());
      case PileShape::round:
        return of("diameter times itself, times pi over four, times height", diameter() * diameter() * std::numbers::pi / 4.0 * height());
      case PileShape::cone: return of("a third of the round bin of its size", diameter() * diameter() * std::numbers::pi / 12.0 * height());
      case PileShape::windrow:
        if (pile_.top_width)
          return of("half the sum of top and base width, times height, times length", (top() + width()) / 2.0 * height() * length());
        return of("half an ellipse: pi over four, times width, times height; times length",
                  std::numbers::pi / 4.0 * Expression(width()) * height() * length());
      case PileShape::tumbler: break;
    }
    return given("v", "volume of one", units_.pile.number(*pile_.volume), units_.pile.symbol, whose());
  }

  Term how_many() const { return given("n", "how many there are", pile_.count, "", whose()); }
  Term length() const { return side("l", "length", *pile_.length); }
  Term width() const { return side("w", pile_.top_width ? "width at the base" : "width", *pile_.width); }
  Term top() const { return side("p", "width at the top", *pile_.top_width); }
  Term height() const { return side("h", "height, full", *pile_.height); }
  Term diameter() const { return side("d", "diameter", *pile_.diameter); }

  /// The ground that all of them cover.
  void ground() {
    const bool is_round = pile_.shape == PileShape::round || pile_.shape == PileShape::cone;
    if (pile_.shape == PileShape::tumbler) return;
    const Expression one = is_round ? diameter() * diameter() * std::numbers::pi / 4.0 : length() * width();
    step("F", "Ground that they cover",
         is_round ? "diameter times itself, times pi over four, times how many" : "length times width, times how many", units_.area.symbol,
         geometry, one * how_many());
  }

  /// What one takes.
  Term taken(const Term& v) {
    if (pile_.shape != PileShape::tumbler) return v;
    return step("t", "What a tumbler takes", "two thirds of it, since it must turn over", units_.pile.symbol, common_practice,
                v * parts_of_a_tumbler_filled / parts_of_a_tumbler);
  }

  Term settling() const { return given("k", "settled volume over loose volume", fit_.settling.value(), "", own_figure); }
  bool settles() const { return fit_.settling < ShareOfLooseVolume::of(1.0); }

  void filling(const Term& t) {
    const Term m = given("m", settles() ? "volume of the mix, settled" : "volume of the mix", units_.pile.number(*fit_.mix),
                         units_.pile.symbol, "the recipe");
    step("x", "Piles that it fills", "mix over what one takes, of which 2 % more than the room is as good as full; round up", "",
         judged_by_us, m / (t * as_good_as_full));
    working_.in_words("Piles needed",
                      std::to_string(*fit_.piles_needed) + (*fit_.fits ? ", and there are enough." : ": more than there are."),
                      by_definition);
    const Term s =
        settles()
            ? step("s", "Share of the first that the mix fills while it is loose",
                   "the mix loose again (settled, over settled over loose volume), over what one takes; more than 1 is full", "",
                   by_definition, m / (settling() * t))
            : step("s", "Share of the first that the mix fills", "mix over what one takes; more than 1 is full", "", by_definition, m / t);
    filled_height(s);
  }

  /// A bin fills from below; cones and windrows keep their slope and are smaller all round.
  void filled_height(const Term& s) {
    if (!pile_.height) return;
    const std::string what = "Height of the first, as it is filled";
    const Term h = height();
    const bool full = s.value >= 1.0;
    const Expression high = [&]() -> Expression {
      if (full) return h;
      if (pile_.shape == PileShape::cone) return h * cube_root(s);
      return pile_.shape == PileShape::windrow ? h * root(s) : h * s;
    }();
    const char* formula = full                                ? "it is full"
                          : pile_.shape == PileShape::cone    ? "height times the cube root of that share, since a cone keeps its slope"
                          : pile_.shape == PileShape::windrow ? "height times the root of that share, since a windrow keeps its slope"
                                                              : "height times that share";
    const Term H = step("H", what, formula, units_.side.symbol, full ? by_definition : geometry, high);
    if (settles())
      step("Hs", "Its height once it has settled", "settled volume over loose volume, times height", units_.side.symbol, by_definition,
           settling() * H);
  }

  const PileFit& fit_;
  const PileDescription& pile_;
  const WorkingUnits& units_;
  Working working_;
};

}  // namespace

Working working_of_pile(const PileFit& fit, const WorkingUnits& units) { return PileSteps(fit, units).working(); }

}  // namespace heapwright
