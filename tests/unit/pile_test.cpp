// Shapes of piles at their limits, and what a pile and a mix come to together.

#include "heapwright/pile/pile.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/page/pile_parts.hpp"
#include "heapwright/pile/advice.hpp"
#include "heapwright/pile/shapes.hpp"
#include "heapwright/pile/working.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/show.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exact = 1e-12;
constexpr double pi = std::numbers::pi;
constexpr Date may_1{std::chrono::year(2026), std::chrono::month(5), std::chrono::day(1)};

const double foot = unit::foot.value();
Length feet(double value) { return value * foot * unit::m; }
Volume cubic_feet(double value) { return value * foot * foot * foot * unit::m3; }
double in_feet(Length length) { return length.value() / foot; }
double in_cubic_feet(Volume volume) { return volume.value() / (foot * foot * foot); }

PileDescription bin_of(double length, double width, double height, int count = 1) {
  PileDescription pile;
  pile.length = feet(length);
  pile.width = feet(width);
  pile.height = feet(height);
  pile.count = count;
  return pile;
}

PileDescription cone_of(double diameter, double height) {
  PileDescription pile;
  pile.shape = PileShape::cone;
  pile.diameter = feet(diameter);
  pile.height = feet(height);
  return pile;
}

PileDescription windrow_of(double length, double width, double height) {
  PileDescription pile = bin_of(length, width, height);
  pile.shape = PileShape::windrow;
  return pile;
}

PileDescription tumbler_of(double volume) {
  PileDescription pile;
  pile.shape = PileShape::tumbler;
  pile.volume = cubic_feet(volume);
  return pile;
}

const ShareOfLooseVolume no_settling = ShareOfLooseVolume::of(1.0);

PileFit answer_of(const PileDescription& pile, double mix, double settling = 1.0) {
  return fit_of(pile, cubic_feet(mix), ShareOfLooseVolume::of(settling)).result;
}

std::vector<PileNote> notes(std::initializer_list<PileNote> list) { return list; }

PileDescription read(const std::string& text) {
  Problems problems;
  Document document = Document::from_text("[pile]\n" + text, "yard.toml", problems);
  Table root = document.root();
  const std::optional<PileDescription> pile = read_pile(root);
  problems.throw_if_any();
  return *pile;
}

void check_same(const PileSize& one, const PileSize& other) {
  CHECK_THAT(one.volume.value(), WithinRel(other.volume.value(), exact));
  CHECK_THAT(one.surface->value(), WithinRel(other.surface->value(), exact));
  CHECK_THAT(one.footprint->value(), WithinRel(other.footprint->value(), exact));
}

}  // namespace

TEST_CASE("pile: shapes at their limits", "[pile]") {
  const double length = GENERATE(take(5, random(0.5, 60.0)));
  const double height = GENERATE(take(5, random(0.1, 3.0)));
  const Length l = length * unit::m;
  const Length h = height * unit::m;

  SECTION("twice as wide as high, the semi-ellipse is half a circle") {
    const PileSize windrow = semi_elliptic_windrow(l, 2.0 * h, h);
    CHECK_THAT(windrow.volume.value(), WithinRel(0.5 * pi * height * height * length, exact));
    CHECK_THAT(windrow.surface->value(), WithinRel(pi * height * length + pi * height * height, exact));
  }
  SECTION("a flat windrow's arc is its width, a tall one's twice its height") {
    const Length thin = 1e-9 * unit::m;
    CHECK_THAT(semi_elliptic_windrow(l, h, thin).surface->value(), WithinRel(length * height, 1e-8));
    CHECK_THAT(semi_elliptic_windrow(l, thin, h).surface->value(), WithinRel(length * 2.0 * height, 1e-8));
  }
  SECTION("an ellipse's arc, summed up in chords") {
    // Half of the ellipse with half axes 3 and 2: chords are short by about (arc/n)² and are the independent check.
    double arc = 0.0;
    constexpr int chords = 200000;
    for (int i = 0; i < chords; ++i) {
      const double t = pi * i / chords;
      const double next = pi * (i + 1) / chords;
      arc += std::hypot(3.0 * (std::cos(next) - std::cos(t)), 2.0 * (std::sin(next) - std::sin(t)));
    }
    const PileSize windrow = semi_elliptic_windrow(l, 6.0 * unit::m, 2.0 * unit::m);
    CHECK_THAT((windrow.surface->value() - 2.0 * pi / 4.0 * 12.0) / length, WithinRel(arc, 1e-9));
  }
  SECTION("as wide at the top as at the base, a windrow is a box") { check_same(flat_topped_windrow(l, h, h, h), box(l, h, h)); }
  SECTION("without a top its section is a triangle") {
    const PileSize ridge = flat_topped_windrow(l, 2.0 * h, Length(), h);
    CHECK_THAT(ridge.volume.value(), WithinRel(height * height * length, exact));
    CHECK_THAT(ridge.surface->value(), WithinRel(2.0 * std::sqrt(2.0) * height * length + 2.0 * height * height, exact));
  }
  SECTION("a cylinder holds three cones") {
    CHECK_THAT(cylinder(l, h).volume.value(), WithinRel(3.0 * cone(l, h).volume.value(), exact));
    CHECK_THAT(cylinder(l, h).surface->value(), WithinRel(pi / 4.0 * length * length + pi * length * height, exact));
  }
  SECTION("a flat cone shows its base") { CHECK_THAT(cone(l, Length()).surface->value(), WithinRel(cone(l, h).footprint->value(), exact)); }
  SECTION("a drum is its volume alone") {
    CHECK(drum(cubic_feet(8)).volume == cubic_feet(8));
    CHECK_FALSE(drum(cubic_feet(8)).surface);
    CHECK_FALSE(drum(cubic_feet(8)).footprint);
  }
}

TEST_CASE("pile: shapes refuse what is no size", "[pile]") {
  const double bad = GENERATE(-1.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity());
  const Length wrong = bad * unit::m;
  const Length one = 1.0 * unit::m;
  CHECK_THROWS_AS(box(one, wrong, one), DomainError);
  CHECK_THROWS_AS(cylinder(wrong, one), DomainError);
  CHECK_THROWS_AS(cone(one, wrong), DomainError);
  CHECK_THROWS_AS(semi_elliptic_windrow(one, one, wrong), DomainError);
  CHECK_THROWS_AS(flat_topped_windrow(one, one, wrong, one), DomainError);
  CHECK_THROWS_AS(drum(bad * unit::m3), DomainError);
  CHECK_THROWS_AS(site_capacity(bad * unit::m2, one, one, one), DomainError);
  CHECK_THROWS_AS(site_capacity(1.0 * unit::m2, wrong, one, one), DomainError);
  CHECK_THROWS_AS(fit_of(bin_of(4, 4, 4), bad * unit::m3, no_settling).result, DomainError);
}

TEST_CASE("pile: what cannot be is refused", "[pile]") {
  const Length one = 1.0 * unit::m;
  CHECK_THROWS_AS(flat_topped_windrow(one, one, 1.1 * unit::m, one), DomainError);
  CHECK_THROWS_AS(site_capacity(1.0 * unit::m2, Length(), one, Length()), DomainError);
  CHECK_THROWS_AS(size_of(PileDescription()), DomainError);
  CHECK_THROWS_AS(answer_of(bin_of(4, 0, 4), 10.0), DomainError);
  CHECK_THROWS_AS(fit_of(bin_of(4, 4, 4), cubic_feet(10), ShareOfLooseVolume::of(0.0)).result, DomainError);
  CHECK_THROWS_AS(pile_count(std::numeric_limits<double>::quiet_NaN()), TextError);
  CHECK_THROWS_AS(pile_count(1e300), TextError);
  CHECK(pile_count(1000.0) == 1000);
}

TEST_CASE("pile: a windrow of [pile] may be flat on top", "[pile]") {
  const std::string windrow = "shape = \"windrow\"\nlength = \"40 ft\"\nwidth = \"8 ft\"\nheight = \"4 ft\"\n";
  CHECK_THAT(in_cubic_feet(room_of(read(windrow))), WithinRel(pi / 4.0 * 8.0 * 4.0 * 40.0, exact));
  CHECK_THAT(in_cubic_feet(room_of(read(windrow + "top_width = \"4 ft\"\n"))), WithinRel(6.0 * 4.0 * 40.0, exact));
  CHECK_THAT(in_cubic_feet(room_of(read(windrow + "top_width = \"0 ft\"\ncount = 3\n"))), WithinRel(3.0 * 4.0 * 4.0 * 40.0, exact));
  CHECK_THROWS_AS(read(windrow + "top_width = \"9 ft\"\n"), InputError);
  CHECK_THROWS_AS(read("length = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"4 ft\"\ntop_width = \"2 ft\"\n"), InputError);
}

TEST_CASE("pile: how many a mix needs", "[pile]") {
  // 64 cu ft each; up to 2 % more than full is as good as full.
  const auto [mix, count, needed, fits] = GENERATE(table<double, int, int, bool>({{30.0, 1, 1, true},
                                                                                  {64.0, 1, 1, true},
                                                                                  {65.27, 1, 1, true},
                                                                                  {65.29, 1, 2, false},
                                                                                  {79.0, 2, 2, true},
                                                                                  {130.5, 2, 2, true},
                                                                                  {130.6, 2, 3, false},
                                                                                  {640.0, 9, 10, false}}));
  CAPTURE(mix, count);
  const PileFit answer = fit_of(bin_of(4, 4, 4, count), cubic_feet(mix), no_settling).result;
  CHECK(answer.piles_needed == needed);
  CHECK(answer.fits == fits);
  CHECK_THAT(*answer.fills, WithinRel(mix / 64.0, exact));
  CHECK_THAT(in_cubic_feet(answer.all->volume), WithinRel(64.0 * count, exact));
}

TEST_CASE("pile: piles of a thimble are counted up to a million", "[pile]") {
  CHECK(answer_of(bin_of(1e-6, 1e-6, 1e-6), 1e12).piles_needed == 1000000);
}

TEST_CASE("pile: how high it comes", "[pile]") {
  SECTION("bins fill evenly, and never above their rim") {
    CHECK_THAT(in_feet(*answer_of(bin_of(4, 4, 4), 32.0).filled_height), WithinRel(2.0, exact));
    CHECK_THAT(in_feet(*answer_of(bin_of(4, 4, 4), 200.0).filled_height), WithinRel(4.0, exact));
  }
  SECTION("a cone keeps its slope: an eighth of it is half as high") {
    const double full = in_cubic_feet(room_of(cone_of(8, 6)));
    CHECK_THAT(in_feet(*answer_of(cone_of(8, 6), full / 8.0).filled_height), WithinRel(3.0, exact));
  }
  SECTION("a windrow too: a quarter of its section is half as high") {
    const double full = in_cubic_feet(room_of(windrow_of(40, 10, 5)));
    CHECK_THAT(in_feet(*answer_of(windrow_of(40, 10, 5), full / 4.0).filled_height), WithinRel(2.5, exact));
  }
  SECTION("of a tumbler nobody asks") { CHECK_FALSE(answer_of(tumbler_of(8), 4.0).filled_height); }
  SECTION("a mix of 32 cu ft that has settled to 4/5 went in as 40") {
    const PileFit answer = answer_of(bin_of(4, 4, 4), 32.0, 0.8);
    CHECK_THAT(in_feet(*answer.filled_height), WithinRel(2.5, exact));
    CHECK_THAT(in_feet(*answer.settled_height), WithinRel(2.0, exact));
  }
  SECTION("what fits once it has settled does not go in at once") {
    const PileFit answer = answer_of(bin_of(4, 4, 4), 60.0, 0.8);
    CHECK(answer.fits == true);
    CHECK(answer.notes == notes({PileNote::fits_as_it_sinks}));
    CHECK_THAT(in_feet(*answer.settled_height), WithinRel(3.2, exact));
  }
}

TEST_CASE("pile: the plan's line on the room says what the pile's screen says", "[pile]") {
  using Catch::Matchers::Contains;
  using Catch::Matchers::EndsWith;
  const auto said = [](const PileFit& fit) { return Show(ShownUnits::us).words(room_words(fit)); };
  CHECK_THAT(said(answer_of(bin_of(4, 4, 4), 60.0)), EndsWith("it fits"));
  CHECK_THAT(said(answer_of(bin_of(4, 4, 4), 60.0, 0.8)), EndsWith("it fits once it has sunk"));
  CHECK_THAT(said(answer_of(bin_of(4, 4, 4), 70.0)), Contains("does not fit at once"));
  CHECK_THAT(said(answer_of(bin_of(4, 4, 4), 40.0)), Contains("hardly heat"));
  CHECK_THAT(said(answer_of(bin_of(2, 2, 2), 4.0)), Contains("hardly heat"));
  CHECK(room_words(fit_of(bin_of(4, 4, 4), std::nullopt, no_settling).result).empty());
}

TEST_CASE("pile: what to do with a mix and the piles there are", "[pile]") {
  const auto advice = [](const PileDescription& pile, double mix, double settling = 1.0) {
    return advice_of(fit_of(pile, cubic_feet(mix), ShareOfLooseVolume::of(settling)).result);
  };
  CHECK(advice_of(fit_of(std::nullopt, std::nullopt, no_settling).result) == PileAdvice::describe_one);
  CHECK(advice_of(fit_of(bin_of(4, 4, 4), std::nullopt, no_settling).result) == PileAdvice::say_what_goes_in);
  CHECK(advice_of(fit_of(std::nullopt, cubic_feet(4), no_settling).result) == PileAdvice::pile_up);
  CHECK(advice_of(fit_of(std::nullopt, cubic_feet(64), no_settling).result) == PileAdvice::build_suggested);
  CHECK(advice(bin_of(4, 4, 4), 60.0) == PileAdvice::goes_in);
  CHECK(advice(bin_of(4, 4, 4, 2), 60.0) == PileAdvice::use_one);
  CHECK(advice(bin_of(4, 4, 4, 2), 100.0) == PileAdvice::use_several);
  CHECK(advice(bin_of(4, 4, 4), 60.0, 0.8) == PileAdvice::fill_as_it_sinks);
  CHECK(advice(bin_of(4, 4, 4), 70.0) == PileAdvice::does_not_fit);
}

TEST_CASE("pile: whether it heats", "[pile]") {
  CHECK(answer_of(bin_of(3, 3, 3), 27.0).tall_enough_to_heat);
  CHECK(answer_of(bin_of(3, 3, 3), 27.0).notes.empty());
  CHECK(fit_of(bin_of(3, 3, 3), std::nullopt, no_settling).result.tall_enough_to_heat);
  CHECK(answer_of(bin_of(3, 3, 3), 24.0).notes == notes({PileNote::too_little_to_heat}));
  CHECK(answer_of(bin_of(4, 4, 4), 40.0).notes == notes({PileNote::too_little_to_heat}));  // 2.5 ft high
  CHECK(answer_of(bin_of(20, 20, 2), 800.0).notes == notes({PileNote::too_small_to_heat}));
  CHECK_FALSE(answer_of(bin_of(20, 20, 2), 800.0).tall_enough_to_heat);
  CHECK(answer_of(tumbler_of(42), 27.0).tall_enough_to_heat);
  CHECK_FALSE(answer_of(tumbler_of(30), 27.0).tall_enough_to_heat);  // of which 20 go in
  CHECK(answer_of(tumbler_of(8), 4.0).notes == notes({PileNote::too_small_to_heat}));
  SECTION("filled one after another, the last may get too little") {
    CHECK(fit_of(bin_of(4, 4, 4, 2), cubic_feet(79), no_settling).result.notes == notes({PileNote::rest_too_little_to_heat}));
    CHECK(fit_of(bin_of(4, 4, 4, 2), cubic_feet(120), no_settling).result.notes.empty());
    CHECK(answer_of(bin_of(4, 4, 4), 79.0).notes == notes({PileNote::does_not_fit}));
  }
}

TEST_CASE("pile: too tall is above 5 ft as it is filled", "[pile]") {
  CHECK(fit_of(windrow_of(40, 12, 6), std::nullopt, no_settling).result.notes == notes({PileNote::too_tall}));
  CHECK(fit_of(windrow_of(40, 10, 5), std::nullopt, no_settling).result.notes.empty());
  const double full = in_cubic_feet(room_of(windrow_of(40, 12, 6)));
  CHECK(answer_of(windrow_of(40, 12, 6), full).notes == notes({PileNote::too_tall}));
  CHECK(answer_of(windrow_of(40, 12, 6), full / 4.0).notes.empty());  // 3 ft high
}

TEST_CASE("pile: what is taken for granted is told where it was not", "[pile]") {
  const auto taken_for_granted = [](const PileDescription& pile, const std::optional<Volume>& mix, ShareOfLooseVolume settling) {
    std::vector<std::string> all;
    for (const Assumption& assumption : fit_of(pile, mix, settling).assumptions) all.push_back(assumption.what);
    return all;
  };
  const std::string heats(rule_of_heating), section = "section of the windrow", settled = "settled volume, of the loose one";
  const Volume mix = cubic_feet(30.0);
  const ShareOfLooseVolume sinks = ShareOfLooseVolume::of(0.8);
  using What = std::vector<std::string>;
  CHECK(taken_for_granted(bin_of(4, 4, 4), mix, no_settling) == What{heats});
  CHECK(taken_for_granted(bin_of(4, 4, 4), mix, sinks) == What{heats, settled});
  CHECK(taken_for_granted(bin_of(4, 4, 4), std::nullopt, sinks) == What{heats});
  CHECK(taken_for_granted(windrow_of(40, 10, 5), mix, no_settling) == What{heats, section});
  PileDescription flat = windrow_of(40, 10, 5);
  flat.top_width = feet(4.0);
  CHECK(taken_for_granted(flat, mix, no_settling) == What{heats});  // its section is described
}

TEST_CASE("pile: the working of how full it gets counts the mix loose again", "[pile]") {
  // A bin of 3 ft takes 27 cu ft; 10.8 settled to 0.8 are 13.5 loose, half of it, and 1.5 ft high.
  const auto figures = [](double mix, double settling) {
    std::map<std::string, double> found;
    const Working working = working_of_pile(answer_of(bin_of(3, 3, 3), mix, settling), us_working_units());
    for (const Step& step : working.steps())
      if (step.result) found[step.what] = step.result->value;
    return found;
  };
  const std::string height = "Height of the first, as it is filled";
  std::map<std::string, double> loose = figures(10.8, 0.8);
  CHECK_THAT(loose.at("Share of the first that the mix fills while it is loose"), WithinAbs(0.5, 1e-4));
  CHECK_THAT(loose.at(height), WithinAbs(1.5, 1e-3));
  CHECK_THAT(loose.at("Piles that it fills"), WithinAbs(0.4 / 1.02, 1e-4));
  std::map<std::string, double> as_it_lies = figures(13.5, 1.0);
  CHECK_THAT(as_it_lies.at("Share of the first that the mix fills"), WithinAbs(0.5, 1e-4));
  CHECK_THAT(as_it_lies.at(height), WithinAbs(1.5, 1e-3));
}

TEST_CASE("pile: what calls for cautions", "[pile]") {
  const auto has = [](const PileDescription& pile, unsigned month, Fact fact) {
    return facts_of(pile, {std::chrono::year(2026), std::chrono::month(month), std::chrono::day(15)}).count(fact) != 0;
  };
  CHECK_FALSE(has(bin_of(4, 4, 5), 6, Fact::tall_pile));
  CHECK(has(bin_of(4, 4, 5.1), 6, Fact::tall_pile));
  CHECK_FALSE(has(tumbler_of(8), 6, Fact::tall_pile));
  for (unsigned month = 1; month <= 12; ++month) CHECK(has(bin_of(4, 4, 4), month, Fact::cold_season) == (month <= 3 || month >= 11));
  PileDescription turned = bin_of(4, 4, 4);
  CHECK_FALSE(has(turned, 6, Fact::turning));
  turned.turn_every = 14.0 * unit::day;
  CHECK(has(turned, 6, Fact::turning));
}

TEST_CASE("pile: a size that suits", "[pile]") {
  SECTION("less than heats: none yet") {
    CHECK_FALSE(suitable_pile(cubic_feet(24.0)));
    CHECK_FALSE(suitable_pile(std::numeric_limits<double>::quiet_NaN() * unit::m3));
    const PileFit answer = fit_of(std::nullopt, cubic_feet(20), no_settling).result;
    CHECK_FALSE(answer.pile);
    CHECK_FALSE(answer.tall_enough_to_heat);
    CHECK(answer.notes == notes({PileNote::too_little_to_heat}));
  }
  SECTION("bins hold the mix, heat, and are neither too high nor too wide") {
    const double mix = GENERATE(27.0, 30.0, 36.0, 50.0, 99.0, 100.0, 101.0, 150.0, 250.0, 269.0);
    CAPTURE(mix);
    const PileFit answer = fit_of(std::nullopt, cubic_feet(mix), no_settling).result;
    CHECK(answer.pile->shape == PileShape::bin);
    CHECK_THAT(in_cubic_feet(answer.all->volume), WithinRel(mix, exact));
    CHECK(answer.pile->count == std::ceil(mix / 100.0));  // 5 × 5 × 4 ft is the largest
    CHECK(answer.tall_enough_to_heat);
    CHECK(in_feet(*answer.pile->height) <= 4.0 + 1e-9);
    CHECK(in_feet(*answer.pile->width) >= 3.0 - 1e-9);
    CHECK(in_feet(*answer.pile->width) <= 5.0 + 1e-5);
    CHECK(answer.piles_needed == answer.pile->count);
    CHECK(answer.notes == notes({PileNote::suggested}));
    CHECK_FALSE(answer.fits);
  }
  SECTION("a windrow 5 ft high and 10 ft wide, where it comes out twice as long as wide") {
    const PileFit answer = fit_of(std::nullopt, cubic_feet(785.398163397), no_settling).result;
    CHECK(answer.pile->shape == PileShape::windrow);
    CHECK_THAT(in_feet(*answer.pile->length), WithinAbs(20.0, 1e-9));
    CHECK(answer.notes == notes({PileNote::suggested}));
  }
  SECTION("room for it loose") {
    const PileFit answer = fit_of(std::nullopt, cubic_feet(40), ShareOfLooseVolume::of(0.8)).result;
    CHECK_THAT(in_cubic_feet(answer.all->volume), WithinRel(50.0, exact));
    CHECK_THAT(in_feet(*answer.settled_height), WithinRel(3.2, exact));
  }
  SECTION("neither pile nor mix") {
    const Answer<PileFit> answer = fit_of(std::nullopt, std::nullopt, no_settling);
    CHECK_FALSE(answer->pile);
    CHECK(answer->notes.empty());
    CHECK(answer.assumptions.empty());
  }
}

TEST_CASE("pile: of a yard, with what its recipe puts in", "[pile]") {
  const std::string leaves = "[[supply]]\nfeedstock = \"leaves-fall\"\namount = \"10 yd3\"\n";
  const std::string bin = "[pile]\nlength = \"4 ft\"\nwidth = \"4 ft\"\nheight = \"6 ft\"\nbuilt = 2026-05-01\n";
  const auto pile_in = [](const std::string& text) {
    const Yard yard = read_yard_text(text, "yard.toml", built_in_tables());
    return pile_of(yard, first_recipe(yard, may_1), may_1);
  };
  const auto warns = [](const Grounds& answer, const std::string& id) {
    return std::find(answer.cautions.begin(), answer.cautions.end(), id) != answer.cautions.end();
  };
  CHECK(in_cubic_feet(*pile_in(leaves + bin)->mix) > 90.0);  // the bin holds 96, and the rest waits
  CHECK(in_cubic_feet(*pile_in(leaves + bin)->mix) <= 96.0 * (1.0 + exact));
  CHECK(pile_in(leaves + bin)->fits == true);
  const std::string must_go_in = leaves + "use = \"all\"\n";
  CHECK_THAT(in_cubic_feet(*pile_in(must_go_in + bin)->mix), WithinRel(270.0, 1e-6));
  CHECK(pile_in(must_go_in + bin)->fits == false);
  CHECK(
      pile_in("[recipe]\nfill = \"1 yd3\"\n" + leaves + "[pile]\nlength = \"3 ft\"\nwidth = \"3 ft\"\nheight = \"3 ft\"\n")->notes.empty());
  CHECK(warns(pile_in(leaves + bin), "tall-pile"));
  CHECK(warns(pile_in(bin), "tall-pile"));
  CHECK_FALSE(pile_in(bin)->mix);
  CHECK(pile_in(leaves)->pile->shape == PileShape::bin);
  CHECK_FALSE(pile_in("[[supply]]\nfeedstock = \"leaves-fall\"\nuse = \"unlimited\"\n")->mix);  // of parts, without a size
  SECTION("the plan has the same") {
    const Plan plan = make_plan(read_yard_text(leaves + bin, "yard.toml", built_in_tables()), may_1).result;
    CHECK((*plan.fit)->notes == pile_in(leaves + bin)->notes);
    CHECK_FALSE(make_plan(read_yard_text(leaves, "yard.toml", built_in_tables()), may_1).result.fit);
  }
}
