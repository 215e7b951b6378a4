// Rough knowledge in place of amounts: trees, people, a mown lawn, the size of a pile, how a handful feels, a winter by name.

#include <catch2/catch.hpp>

#include <cmath>

#include "heapwright/input/problems.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exact = 1e-12;
constexpr Date july_1{std::chrono::year(2026), std::chrono::month(7), std::chrono::day(1)};
const double foot = unit::foot.value();
const double pound = unit::pound.value();

Yard yard(const std::string& text) { return read_yard_text(text, "yard.toml", built_in_tables()); }

Supply supply(const std::string& feedstock, const std::string& lines) {
  return yard("[[supply]]\nfeedstock = \"" + feedstock + "\"\n" + lines + "\n").supplies.at(0);
}

double pounds_of(const Supply& some) { return some.mass(*some.amount)->value() / pound; }

double pounds_on_hand(const Supply& some) { return some.mass(*on_hand(some, july_1))->value() / pound; }

}  // namespace

TEST_CASE("trees drop dry leaves by the ground under their crowns", "[estimate]") {
  const Supply three = supply("leaves", "estimate = { trees = 3, canopy_width = \"30 ft\" }");
  const double canopy = 3.0 * 3.14159265358979323846 / 4.0 * 900.0;
  CHECK_THAT(pounds_of(three) * (1.0 - three.properties().moisture.value()), WithinRel(canopy * 0.065, exact));
  CHECK_THAT(three.estimated->low, WithinRel(45.0 / 65.0, exact));
  CHECK_THAT(three.estimated->high, WithinRel(90.0 / 65.0, exact));

  SECTION("a width that nobody knows widens the range, as independent of the fall") {
    const Supply some = supply("leaves", "estimate = { trees = 3 }");
    CHECK_THAT(pounds_of(some), WithinRel(pounds_of(three), exact));  // 30 ft is the usual one
    CHECK_THAT(some.estimated->high, WithinRel(std::exp(std::hypot(std::log(90.0 / 65.0), 2.0 * std::log(45.0 / 30.0))), exact));
    CHECK_THAT(some.estimated->low, WithinRel(std::exp(-std::hypot(std::log(45.0 / 65.0), 2.0 * std::log(20.0 / 30.0))), exact));
  }
  SECTION("drier leaves weigh less") {
    const Supply dried = supply("leaves", "estimate = { trees = 3, canopy_width = \"30 ft\" }\ndried = { wet = \"10 g\", dry = \"8 g\" }");
    CHECK_THAT(pounds_of(dried), WithinRel(canopy * 0.065 / 0.8, exact));
  }
  SECTION("they are counted in leaf bags") { CHECK(std::get<ContainerCount>(*three.amount).container == "leaf-bag"); }
}

TEST_CASE("the size of a pile on the ground", "[estimate]") {
  const Supply measured = supply("leaves", "estimate = { pile = [\"6 ft\", \"4 ft\", \"2 ft\"] }");
  const double box = 6.0 * 4.0 * 2.0 * foot * foot * foot;
  CHECK(measured.packing == "loose");
  CHECK_THAT(volume_of(*measured.amount)->value(), WithinRel(box * 3.14159265358979323846 / 8.0, exact));
  // between a cone, π/12 of the box, and half an ellipsoid, π/6
  CHECK_THAT(measured.estimated->low, WithinRel(8.0 / 12.0, exact));
  CHECK_THAT(measured.estimated->high, WithinRel(8.0 / 6.0, exact));

  SECTION("a height by the body is less certain") {
    const Supply by_the_knee = supply("leaves", "estimate = { pile = [\"6 ft\", \"4 ft\", \"to the knee\"] }");
    CHECK(by_the_knee.estimated->low < measured.estimated->low);
    CHECK(by_the_knee.estimated->high > measured.estimated->high);
    CHECK_THAT(volume_of(*by_the_knee.amount)->value(), WithinRel(volume_of(*measured.amount)->value() * 20.0 / 24.0, exact));
  }
}

TEST_CASE("when an estimated amount comes in", "[estimate]") {
  const double week = 3 * 2.5;
  const double season = 5.0 * 250.0;
  const auto [feedstock, lines, pounds] = GENERATE_COPY(table<std::string, std::string, double>({
      {"kitchen-scraps", "estimate = { people = 3 }", 2.0 * week},  // each week, if not said; two weeks keep
      {"kitchen-scraps", "estimate = { people = 3 }\nwhen = { every = \"week\", from = \"Jul\", to = \"Dec\" }", week},
      {"kitchen-scraps", "estimate = { people = 3 }\nwhen = { every = \"week\", from = \"Aug\", to = \"Dec\" }", 0.0},
      {"kitchen-scraps", "estimate = { people = 3 }\nwhen = { months = [\"May\", \"Jun\"] }", 13.0 / 7.0 * week},  // none on July 1
      {"clippings", "estimate = { mown_lawn = \"5000 ft2\" }", season * 7.0 / 214.0},  // a mowing; April to October have 214 days
      // June's part of April to October, whether alone or beside others; all of a longer season comes to no more than a season.
      {"clippings", "estimate = { mown_lawn = \"5000 ft2\" }\nwhen = { every = \"week\", from = \"Jun\", to = \"Jun\" }",
       season * 7.0 / 214.0},
      {"clippings", "estimate = { mown_lawn = \"5000 ft2\" }\nwhen = { months = [\"Jun\", \"Jul\"] }", season * 7.0 / 214.0},
      {"clippings", "estimate = { mown_lawn = \"5000 ft2\" }\nwhen = { every = \"week\" }", season * 7.0 / 365.0},
  }));
  CAPTURE(feedstock, lines);
  const double found = pounds_on_hand(supply(feedstock, lines));
  if (pounds > 0.0) {
    CHECK_THAT(found, WithinRel(pounds, 1e-9));
  } else {
    CHECK(found == 0.0);
  }
}

TEST_CASE("an estimate that cannot be meant is refused", "[estimate]") {
  const auto [feedstock, lines, message] = GENERATE(table<std::string, std::string, std::string>({
      {"straw", "estimate = { trees = 3 }", "trees drop leaves, not straw"},
      {"leaves", "estimate = { people = 3 }", "people are counted for their kitchen scraps"},
      {"leaves", "estimate = { mown_lawn = \"5000 ft2\" }", "a mown lawn gives clippings"},
      {"leaves", "estimate = { trees = 3, people = 2 }", "says how much in one way"},
      {"leaves", "estimate = { }", "says how much in one way"},
      {"leaves", "estimate = { trees = 0 }", "a count is above 0"},
      {"leaves", "estimate = { trees = 1e9 }", "a count is above 0"},
      {"leaves", "estimate = { trees = 3, canopy_width = \"0 ft\" }", "a crown has a width"},
      {"leaves", "estimate = { pile = [\"6 ft\", \"4 ft\"] }", "a length, a width and a height"},
      {"leaves", "estimate = { pile = [\"6 ft\", \"4 ft\", \"nose-high\"] }", "\"nose-high\" is no height"},
      {"leaves", "estimate = { pile = [\"6 ft\", \"0 ft\", \"2 ft\"] }", "a pile has a size"},
      {"leaves", "estimate = { trees = 3 }\namount = \"3 bags\"", "stands beside an amount"},
      {"leaves", "estimate = { trees = 3 }\nwhen = { every = \"week\" }", "once a year"},
      {"clippings", "estimate = { mown_lawn = \"0 ft2\" }", "a lawn has an area"},
      {"clippings", "estimate = { mown_lawn = \"5000 ft2\", canopy_width = \"3 ft\" }", "is of trees"},
      {"leaves", "estimate = { trees = 3 }\nuse = \"unlimited\"", "an unlimited supply has no amount"},
      {"leaves", "amount = \"3 bags\"\nfeel = \"soggy\"", "\"soggy\" is not how a handful feels"},
  }));
  CAPTURE(feedstock, lines);
  CHECK_THROWS_WITH(supply(feedstock, lines), Contains(message));
}

TEST_CASE("a squeezed handful tells the moisture, a dried one tells it better", "[estimate]") {
  const auto [feel, typical] = GENERATE(table<std::string, double>({{"drips", 0.70}, {"clumps", 0.52}, {"crumbles", 0.30}}));
  const Supply felt = supply("leaves", "amount = \"3 bags\"\nfeel = \"" + feel + "\"");
  CHECK_THAT(felt.properties().moisture.value(), WithinRel(typical, exact));
  const Supply dried = supply("leaves", "amount = \"3 bags\"\nfeel = \"" + feel + "\"\ndried = { wet = \"10 g\", dry = \"2.3 g\" }");
  CHECK_THAT(dried.properties().moisture.value(), WithinRel(0.77, exact));
}

TEST_CASE("what may carry a weedkiller stays out of the recipe", "[treated]") {
  const auto feedstock = GENERATE(as<std::string>{}, "clippings", "hay", "straw", "alfalfa hay", "horse manure", "cow manure");
  const auto treated = GENERATE(as<std::string>{}, "no", "yes", "unknown");
  CAPTURE(feedstock, treated);
  const Yard some = yard("[[supply]]\nfeedstock = \"leaves\"\namount = \"20 bags\"\n[[supply]]\nfeedstock = \"" + feedstock +
                         "\"\namount = \"6 buckets\"\ntreated = \"" + treated + "\"\n");
  const Recipe recipe = first_recipe(some, july_1).result;
  CHECK(recipe.amounts.size() == (treated == "no" ? 2 : 1));
  CHECK(recipe.left_out.size() == (treated == "no" ? 0 : 1));
}

TEST_CASE("leaves are not asked whether they were treated", "[treated]") {
  const Yard some = yard("[[supply]]\nfeedstock = \"leaves\"\namount = \"20 bags\"\ntreated = \"unknown\"\n");
  CHECK(first_recipe(some, july_1).result.amounts.size() == 1);
}

TEST_CASE("a year's weather from two months or a winter by name", "[climate]") {
  const auto climate = [](const std::string& lines) { return *yard("[climate]\n" + lines + "\n").climate; };
  const MonthlyMeans means = *monthly_means(climate("coldest_month = \"30 degF\"\nwarmest_month = \"76 degF\""));
  REQUIRE(means.size() == 12);
  CHECK_THAT(means[0].fahrenheit(), WithinRel(30.0, exact));
  CHECK_THAT(means[6].fahrenheit(), WithinRel(76.0, exact));
  // The other months are of the same wave, coldest on 20 January (climate.hpp): its mean over n days about t is that at t times
  // sin(nΔ/2)/(n sin(Δ/2)), Δ a day of it, as the sum of n cosines is.
  const double a_day = 2.0 * std::acos(-1.0) / 365.0;
  std::vector<double> waves;
  double begin = 1.0;  // the first day's midnight, where noon on 1 January is 1.5
  for (const double days : {31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0}) {
    const double left = std::sin(0.5 * days * a_day) / (days * std::sin(0.5 * a_day));
    waves.push_back(left * std::cos(a_day * (begin + 0.5 * days - 20.0)));
    begin += days;
  }
  for (std::size_t month = 0; month < 12; ++month) {
    const double due = 30.0 + 46.0 * (waves[0] - waves[month]) / (waves[0] - waves[6]);
    CHECK_THAT(means[month].fahrenheit(), WithinRel(due, exact));
  }
  CHECK(means[3].fahrenheit() < 53.0);  // April lags behind the middle, and October
  CHECK(means[9].fahrenheit() > 53.0);

  const std::vector<NamedClimate> named = built_in_climates();
  CHECK(named.size() >= 12);
  for (const NamedClimate& row : named) {
    CAPTURE(row.id);
    CHECK(row.coldest_month < row.warmest_month);
    const ClimateDescription like = climate("like = \"" + row.id + "\"");
    CHECK(monthly_means(like)->front() == row.coldest_month);
    CHECK(assumption_of(like)->evidence == "judged by us");
  }
  CHECK_THROWS_WITH(climate("like = \"colld\""), Contains("did you mean \"cold\"?"));
  CHECK_THROWS_WITH(climate("like = \"cold\"\ncoldest_month = \"30 degF\"\nwarmest_month = \"76 degF\""), Contains("more than one way"));
  CHECK_THROWS_WITH(climate("file = \"no-such-daily.csv\""), Contains("file: no-such-daily.csv: there is no such file"));
}
