// The yard file: every key it may have, read into its place; every key misspelt, refused.

#include "heapwright/yard/yard.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <unistd.h>

#include "heapwright/input/problems.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Contains;
using Catch::Matchers::WithinRel;
using std::chrono::month;

namespace {

// Every key of the file, each with a value that is not its default. Left out: capacity, which excludes fill, and the
// keys of surveyed lawns, which this version refuses; both have tests of their own below.
const std::string every_key = R"(
title = "Quarter-acre lot with three maples"
units = "both"

[[container]]
name = "kitchen-pail"
volume = "1 1/2 gal"

[targets]
carbon_to_nitrogen = { low = "26:1", aim = "31:1", high = "36:1" }
moisture_wet_basis = { low = "51 %", aim = "56 %", high = "61 %" }
air_space = { low = "36 %" }

[recipe]
goal = "cheapest"
fill = "1 m3"
settling = 0.8
most_water = "100 kg"

[[supply]]
feedstock = "leaves-fall"
packing = "collected"
amount = "24 leaf-bag"
when = { months = ["Oct", "November"] }
storable = false
shredded = true
treated = "unknown"
weighed = { container = "bucket", full = "9 kg", empty = "2 kg" }
dried = { wet = "10 g", dry = "2.3 g" }
feel = "crumbles"
use = "all"
most_of_volume = "30 %"
bought = true
price = 2.5
unit = "1 leaf-bag"

[[supply]]
feedstock = "grass-clippings"
amount = "4 kitchen-pail"
when = { every = "week", from = "Apr", to = "Oct" }
storable = true

[[supply]]
feedstock = "straw"
use = "unlimited"

[[supply]]
feedstock = "leaves-fall"
estimate = { trees = 3, canopy_width = "30 m" }

[climate]
mean_air_temperature = ["-1 degC", "0 degC", "3 degC", "8 degC", "13 degC", "18 degC", "21 degC", "20 degC", "16 degC", "10 degC", "4 degC", "1 degC"]

[pile]
shape = "cone"
length = "1 m"
width = "2 m"
height = "1.5 m"
diameter = "3 m"
volume = "4 m3"
count = 2
built = 2026-11-07
filled = "as-it-comes"
turn_every = "14 days"
keep_moist = true
covered = true

[[noticed]]
symptom = "ammonia-smell"
date = 2026-11-20

[[reading]]
date = 2026-11-12
core = "55 degC"

[[reading]]
date = 2026-11-13
core = "warm"

[[maturity.test]]
test = "self-heating"
value = "12 degC"
date = 2027-04-20

[[maturity.check]]
check = "no-reheat"
result = "passed"
date = 2027-04-21

[[lawn.zone]]
name = "front"
shape = "rectangle"
length = "20 m"
width = "10 m"
depth = "5 mm"

[[lawn.zone]]
name = "round"
shape = "circle"
diameter = "10 m"

[[lawn.zone]]
name = "oval"
shape = "ellipse"
length = "20 m"
width = "10 m"

[[lawn.zone]]
name = "wedge"
shape = "triangle"
base = "10 m"
height = "5 m"

[[lawn.zone]]
name = "corner"
shape = "triangle"
sides = ["3 m", "4 m", "5 m"]

[[lawn.zone]]
name = "back"
shape = "trapezoid"
parallel = ["10 m", "20 m"]
height = "4 m"

[[lawn.zone]]
name = "rest"
shape = "area"
area = "77 m2"

[[lawn.without]]
name = "bed"
from = "front"
shape = "rectangle"
length = "4 m"
width = "5 m"

[topdressing]
depth = "6 mm"
grass = "warm-season"
months = ["May", "Sep"]
surface = "new"
near_water = true
allowance = "7 %"
compost = "food scrap compost"
steep = true
frozen_or_snow = true
analysis = { moisture_wet_basis = "40 %", nitrogen_dry_basis = "1.5 %", p2o5_dry_basis = "0.6 %", k2o_dry_basis = "0.9 %", organic_matter_dry_basis = "50 %", carbon_to_nitrogen = "15:1", bulk_density = "600 kg/m3", salts_1to5 = "4 dS/m", salts_1to2 = "5 dS/m", salts_paste = "6 dS/m" }
own_screened = "10 mm"

[[topdressing.offer]]
name = "bulk, delivered"
unit = "1 m3"
price = 38
delivery = 75
delivery_per = "load"
load = { volume = "10 m3", mass = "9 t" }
minimum = "2 m3"
step = "0.5 m3"
screen = "12 mm"
breaks = [{ from = "10 m3", price = 34 }]
tax = "6 %"
valid_until = 2026-12-31

[[topdressing.offer]]
name = "bags"
unit = "1 compost-bag-40l"
price = 4
pallet = { holds = 40, price = 12 }
own_haulage = { trip_cost = 25, volume = "2 m3", payload = "700 kg" }

[[topdressing.fixed_cost]]
name = "spreader hire"
price = 95

[soil_test]
date = 2026-10-10
phosphorus = "high"
nitrogen_recommended = "0.015 kg/m2"

[office]
name = "County office"
lines = ["Room 3, the old mill", "Open Mondays"]
statements = ["Made up for this test."]
prepared_by = "the one on duty"
version = "fall 2026"
)";

const Materials& materials() {
  static const Materials all = built_in_materials();
  return all;
}

Yard read(const std::string& text) { return read_yard_text(text, "yard.toml", built_in_tables()); }

std::vector<Problem> problems_of(const std::string& text) {
  try {
    read(text);
    return {};
  } catch (const InputError& error) {
    return error.problems();
  }
}

Date date(int year, unsigned month_of_year, unsigned day) {
  return Date(std::chrono::year(year), month(month_of_year), std::chrono::day(day));
}

/// A key as it stands in a text.
struct Key {
  std::size_t begin;
  std::size_t length;
};

/// Every key of a text: words before an equals sign, and in the brackets of headers, outside of quotes.
std::vector<Key> keys_in(const std::string& text) {
  std::vector<Key> keys;
  bool quoted = false;
  bool header = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n') header = i + 1 < text.size() && text[i + 1] == '[';
    if (text[i] == '"') quoted = !quoted;
    if (quoted || !std::isalpha(static_cast<unsigned char>(text[i]))) continue;
    const std::size_t begin = i;
    while (std::isalnum(static_cast<unsigned char>(text[i])) || text[i] == '_') ++i;  // p2o5_dry_basis
    if (header || text.compare(i, 3, " = ") == 0) keys.push_back({begin, i - begin});
    --i;
  }
  return keys;
}

constexpr double exact = 1e-12;

}  // namespace

TEST_CASE("every key of the yard file is read into its place", "[yard]") {
  const Yard yard = read(every_key);

  SECTION("the yard") {
    CHECK(yard.title == "Quarter-acre lot with three maples");
    CHECK(yard.units == ShownUnits::both);
    REQUIRE(yard.office);
    CHECK(yard.office->name == "County office");
    CHECK(yard.office->lines == std::vector<std::string>{"Room 3, the old mill", "Open Mondays"});
    CHECK(yard.office->statements == std::vector<std::string>{"Made up for this test."});
    CHECK(yard.office->prepared_by == "the one on duty");
    CHECK(yard.office->version == "fall 2026");
    const std::optional<SoilTest>& soil = yard.topdressing.soil_test;
    REQUIRE(soil);
    CHECK(soil->date == date(2026, 10, 10));
    CHECK(soil->phosphorus == "high");
    CHECK(soil->phosphorus_is_high);
    CHECK(soil->nitrogen_recommended->value() == 0.015);
    CHECK(yard.tables.materials.containers->size() == materials().containers->size());
    CHECK_THAT(find_container(*yard.tables.materials.containers, "kitchen-pail")->volume.value(),
               WithinRel(1.5 * unit::gallon.value(), exact));
  }
  SECTION("targets and options") {
    CHECK(yard.targets.carbon_to_nitrogen.low == carbon_to_nitrogen(26.0));
    CHECK(yard.targets.carbon_to_nitrogen.aim == carbon_to_nitrogen(31.0));
    CHECK(yard.targets.carbon_to_nitrogen.high == carbon_to_nitrogen(36.0));
    CHECK(yard.targets.moisture.low == wet_basis(0.51));
    CHECK(yard.targets.moisture.aim == wet_basis(0.56));
    CHECK(yard.targets.moisture.high == wet_basis(0.61));
    CHECK(yard.targets.least_air == AirSpace::of(0.36));
    CHECK(yard.options.goal == Goal::cheapest);
    CHECK(yard.options.fill == 1.0 * unit::m3);
    CHECK_FALSE(yard.options.capacity);
    CHECK(yard.options.settling == ShareOfLooseVolume::of(0.8));
    CHECK(yard.options.most_water == 100.0 * unit::kg_water);
  }
  SECTION("supplies") {
    REQUIRE(yard.supplies.size() == 4);
    const Supply& leaves = yard.supplies[0];
    CHECK(leaves.feedstock.id == "leaves-fall");
    CHECK(leaves.packing == "collected");
    CHECK_FALSE(leaves.packing_assumed);
    CHECK(std::get<ContainerCount>(*leaves.amount).container == "leaf-bag");
    CHECK(std::get<ContainerCount>(*leaves.amount).count == 24.0);
    CHECK(std::get<Months>(leaves.when).months == std::vector<month>{month(10), month(11)});
    CHECK_FALSE(leaves.storable);
    CHECK(leaves.shredded);
    CHECK(leaves.treated == Treated::unknown);
    REQUIRE(leaves.weighed);
    CHECK_THAT(leaves.weighed->density().value(), WithinRel(7.0 / (5.0 * unit::gallon.value()), exact));
    REQUIRE(leaves.dried);
    CHECK_THAT(leaves.dried->moisture().value(), WithinRel(0.77, exact));
    REQUIRE(leaves.feel);
    CHECK(leaves.feel->id == "crumbles");
    CHECK(leaves.use == Use::all);
    CHECK(leaves.most_of_volume == ShareOfLooseVolume::of(0.3));
    CHECK(leaves.bought);
    CHECK(leaves.price == 2.5 * unit::money);
    CHECK(std::get<ContainerCount>(*leaves.priced_amount).count == 1.0);

    const Supply& clippings = yard.supplies[1];
    CHECK(clippings.packing_assumed);
    CHECK_THAT(volume_of(*clippings.amount)->value(), WithinRel(6.0 * unit::gallon.value(), exact));  // of the yard's own pail
    CHECK(std::get<Weekly>(clippings.when).from == month(4));
    CHECK(std::get<Weekly>(clippings.when).to == month(10));
    CHECK(clippings.storable);
    CHECK(clippings.use == Use::up_to);
    CHECK_FALSE(clippings.bought);

    CHECK(yard.supplies[2].use == Use::unlimited);
    CHECK_FALSE(yard.supplies[2].amount);

    REQUIRE(yard.supplies[3].estimated);
    CHECK(yard.supplies[3].estimated->words == "3 trees, crowns 98 ft wide");
    CHECK(std::get<ContainerCount>(*yard.supplies[3].amount).container == "leaf-bag");
  }
  SECTION("climate") {
    REQUIRE(yard.climate);
    REQUIRE(yard.climate->monthly_means.size() == 12);
    CHECK_THAT(yard.climate->monthly_means[0].kelvin(), WithinRel(272.15, exact));
    CHECK_THAT(yard.climate->monthly_means[11].kelvin(), WithinRel(274.15, exact));
    CHECK(monthly_means(*yard.climate) == yard.climate->monthly_means);
  }
  SECTION("pile") {
    REQUIRE(yard.pile);
    CHECK(yard.pile->shape == PileShape::cone);
    CHECK(yard.pile->length == 1.0 * unit::m);
    CHECK(yard.pile->width == 2.0 * unit::m);
    CHECK(yard.pile->height == 1.5 * unit::m);
    CHECK(yard.pile->diameter == 3.0 * unit::m);
    CHECK(yard.pile->volume == 4.0 * unit::m3);
    CHECK(yard.pile->count == 2);
    CHECK(yard.pile->built == date(2026, 11, 7));
    CHECK(yard.built_or(date(2000, 1, 1)) == date(2026, 11, 7));
    CHECK(yard.pile->filled_as_it_comes);
    CHECK(yard.pile->turn_every == 14.0 * 86400.0 * unit::s);
    CHECK(yard.pile->keep_moist);
    CHECK(yard.pile->covered);
  }
  SECTION("what was seen of it") {
    const Observations& seen = yard.observations;
    REQUIRE(seen.noticed.size() == 1);
    CHECK(seen.noticed[0].symptom == "ammonia-smell");
    CHECK(seen.noticed[0].date == date(2026, 11, 20));
    REQUIRE(seen.readings.size() == 2);
    CHECK(seen.readings[0].date == date(2026, 11, 12));
    CHECK_THAT(std::get<TemperaturePoint>(seen.readings[0].core).celsius(), WithinRel(55.0, exact));
    CHECK(std::get<HandWarmth>(seen.readings[1].core) == HandWarmth::warm);
    REQUIRE(seen.tests.size() == 1);
    CHECK(seen.tests[0].test == "self-heating");
    CHECK(seen.tests[0].written == "12 degC");
    CHECK_THAT(std::get<TemperatureDifference>(seen.tests[0].value).value(), WithinRel(12.0, exact));
    CHECK(seen.tests[0].date == date(2027, 4, 20));
    REQUIRE(seen.checks.size() == 1);
    CHECK(seen.checks[0].check == "no-reheat");
    CHECK(seen.checks[0].passed);
    CHECK(seen.checks[0].date == date(2027, 4, 21));
  }
  SECTION("lawn") {
    REQUIRE(yard.lawn);
    std::vector<std::string> names;
    for (const Zone& zone : yard.lawn->zones) names.push_back(zone.name);
    CHECK(names == std::vector<std::string>{"front", "round", "oval", "wedge", "corner", "back", "rest"});
    CHECK_THAT(yard.lawn->zones[0].area.value(), WithinRel(200.0 - 20.0, exact));
    CHECK(yard.lawn->zones[0].depth == 5.0 * 0.001 * unit::m);
    CHECK_FALSE(yard.lawn->zones[1].depth);
    CHECK_THAT(yard.lawn->zones[3].area.value(), WithinRel(25.0, exact));
    CHECK_THAT(yard.lawn->zones[4].area.value(), WithinRel(6.0, exact));
    CHECK_THAT(yard.lawn->zones[5].area.value(), WithinRel(60.0, exact));
    CHECK_THAT(yard.lawn->zones[6].area.value(), WithinRel(77.0, exact));
  }
  SECTION("topdressing") {
    const TopdressingPlan& plan = yard.topdressing;
    CHECK_THAT(plan.depth->value(), WithinRel(0.006, exact));
    CHECK(plan.grass == Grass::warm_season);
    CHECK(plan.months == std::vector<month>{month(5), month(9)});
    CHECK(plan.surface == Surface::bare);
    CHECK(plan.near_water);
    CHECK(plan.steep);
    CHECK(plan.frozen_or_snow);
    REQUIRE(plan.analysis);
    CHECK(plan.analysis->moisture == wet_basis(0.4));
    CHECK(plan.analysis->nitrogen == nitrogen_dry_basis(0.015));
    CHECK(plan.analysis->phosphate == from_si<PhosphateDryBasis>(0.006));
    CHECK_THAT(plan.analysis->potash->value(), WithinRel(0.009, exact));
    CHECK(plan.analysis->organic_matter == organic_dry_basis(0.5));
    CHECK(plan.analysis->carbon_to_nitrogen == carbon_to_nitrogen(15.0));
    CHECK(plan.analysis->bulk_density == bulk_density(600.0));
    CHECK(plan.analysis->salts.size() == 3);
    CHECK(plan.allowance == ShareOfVolume::of(0.07));
    CHECK(plan.compost == "food-scrap");
    CHECK_THAT(plan.own_screened->value(), WithinRel(0.010, exact));
    REQUIRE(plan.offers.size() == 2);
    const Offer& offer = plan.offers[0];
    CHECK(offer.name == "bulk, delivered");
    CHECK(std::get<Volume>(offer.unit) == 1.0 * unit::m3);
    CHECK(offer.price.value() == 38.0);
    CHECK(offer.delivery.value() == 75.0);
    CHECK(offer.delivery_per == DeliveryPer::load);
    CHECK(offer.load.volume == 10.0 * unit::m3);
    CHECK(offer.load.mass == 9000.0 * unit::kg);
    CHECK(offer.minimum == 2.0 * unit::m3);
    CHECK(offer.step == 0.5 * unit::m3);
    CHECK_THAT(offer.screen->value(), WithinRel(0.012, exact));
    REQUIRE(offer.breaks.size() == 1);
    CHECK(offer.breaks[0].from == 10.0 * unit::m3);
    CHECK(offer.breaks[0].price.value() == 34.0);
    CHECK(offer.tax == ShareOfPrice::of(0.06));
    CHECK(offer.valid_until == read_date("2026-12-31"));
    const Offer& bags = plan.offers[1];
    CHECK_THAT(bags.step.value(), WithinRel(0.04, exact));
    REQUIRE(bags.pallet);
    CHECK(bags.pallet->holds == 40.0);
    REQUIRE(bags.own_haulage);
    CHECK(bags.own_haulage->trip_cost.value() == 25.0);
    CHECK(bags.own_haulage->load.mass == 700.0 * unit::kg);
    REQUIRE(plan.fixed_costs.size() == 1);
    CHECK(plan.fixed_costs[0].price.value() == 95.0);
  }
}

TEST_CASE("[heap] is told to be [pile], once", "[yard]") {
  const std::vector<Problem> problems = problems_of("[heap]\nshape = \"bin\"\n");
  REQUIRE(problems.size() == 1);
  CHECK(problems.front().what == "is called [pile]");
  CHECK(problems.front().hint == "write [pile]");
}

TEST_CASE("every key, misspelt where it stands, is refused with the right one", "[yard]") {
  const std::vector<Key> keys = keys_in(every_key);
  REQUIRE(keys.size() > 140);
  for (const Key& key : keys) {
    const std::string right = every_key.substr(key.begin, key.length);
    const std::size_t middle = right.size() / 2;
    const std::string dropped = right.substr(0, middle) + right.substr(middle + 1);
    const std::string doubled = right.substr(0, middle) + right[middle] + right.substr(middle);
    for (const std::string& wrong : {dropped, doubled}) {
      std::string text = every_key;
      text.replace(key.begin, key.length, wrong);
      CAPTURE(right, wrong, std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(key.begin), '\n') + 1);
      const std::vector<Problem> problems = problems_of(text);
      const auto found = std::find_if(problems.begin(), problems.end(), [&](const Problem& problem) {
        return problem.key == wrong && problem.what == "is not a key of this table";
      });
      REQUIRE(found != problems.end());
      CHECK(found->hint == "did you mean " + right + "?");
    }
  }
}

TEST_CASE("what the big file had no room for", "[yard]") {
  CHECK(read("[recipe]\ncapacity = \"2 m3\"\n").options.capacity == 2.0 * unit::m3);
  CHECK_THAT(problems_of("[recipe]\ncapacty = \"2 m3\"\n").at(0).hint, Contains("capacity"));
  CHECK_FALSE(read("[pile]\nshape = \"tumbler\"\nvolume = \"60 gal\"\nturn_every = \"never\"\n").pile->turn_every);

  SECTION("a surveyed lawn that cannot be measured is one problem") {
    const auto [keys, hint] = GENERATE(
        table<std::string, std::string>({{"shape = \"offsets\"\nspacing = \"5 ft\"\noffsets = [\"1 ft\", \"2 ft\"]\n", "tapers = true"},
                                         {"shape = \"polygon\"\npoints = [[\"0 ft\", \"0 ft\"]]\n", "three or more corners"},
                                         {"shape = \"geojson\"\nfile = \"lawn.geojson\"\n", "check the name and the folder"}}));
    const std::vector<Problem> problems = problems_of("[[lawn.zone]]\n" + keys);
    REQUIRE(problems.size() == 1);
    CHECK_THAT(problems[0].hint, Contains(hint));
  }
}

TEST_CASE("an empty file is a yard with nothing in it", "[yard]") {
  const Yard yard = read("");
  CHECK(yard.supplies.empty());
  CHECK(yard.units == ShownUnits::us);
  CHECK_FALSE(yard.lawn);
  CHECK_FALSE(yard.pile);
  CHECK_FALSE(yard.climate);
  CHECK(yard.topdressing.compost == "yard-trimmings");
  CHECK_FALSE(yard.topdressing.depth);
  CHECK(yard.built_or(date(2026, 5, 1)) == date(2026, 5, 1));
}

TEST_CASE("a packing is named by the supply, else by its container, else by the table", "[yard]") {
  const auto [lines, packing, assumed] = GENERATE(table<std::string, std::string, bool>({
      {"feedstock = \"straw\"\namount = \"1 yd3\"\n", "", true},
      {"feedstock = \"leaves-fall\"\npacking = \"packed\"\namount = \"1 yd3\"\n", "packed", false},
      {"feedstock = \"leaves-fall:loose\"\namount = \"1 yd3\"\n", "loose", false},
      {"feedstock = \"leaves-fall\"\namount = \"1 yd3\"\n", "bagged", true},
      {"feedstock = \"straw\"\namount = \"2 straw-bale\"\n", "packed", true},
      {"feedstock = \"grass-clippings\"\namount = \"2 grass-catcher\"\n", "collected", true},
      {"feedstock = \"grass-clippings\"\namount = \"2 riding-mower-bagger\"\n", "collected", true},
      {"feedstock = \"grass-clippings:loose\"\namount = \"2 grass-catcher\"\n", "loose", false},
      {"feedstock = \"leaves-fall\"\namount = \"2 grass-catcher\"\n", "shredded", true},
      {"feedstock = \"garden-weeds\"\namount = \"2 grass-catcher\"\n", "loose", true},
  }));
  const Supply supply = read("[[supply]]\n" + lines).supplies.at(0);
  CHECK(supply.packing_as_counted() == (packing.empty() ? supply.feedstock.usual_packing : packing));
  CHECK(supply.packing_assumed == assumed);
}

TEST_CASE("one mistake is told once", "[yard]") {
  // What follows from a mistake is not another mistake.
  const std::string text =
      GENERATE("[pile]\nshape = \"bni\"\n", "[[lawn.zone]]\nshape = \"rectangel\"\nlength = \"4 m\"\nwidth = \"3 m\"\n",
               "[[supply]]\nfeedstock = \"leavs\"\npacking = \"loose\"\namount = \"1 yd3\"\n",
               "[[supply]]\nfeedstock = \"leaves\"\namount = \"1 yd\"\nuse = \"al\"\n",
               "[[lawn.zone]]\nshape = \"area\"\narea = \"7 lb\"\n[[lawn.without]]\nshape = \"area\"\narea = \"1 m2\"\n",
               "[targets]\ncarbon_to_nitrogen = { low = \"25\" }\n",
               "[[supply]]\nfeedstock = \"leaves\"\namount = \"1 yd3\"\nweighed = { container = \"buckt\", full = \"9 lb\" }\n",
               "[topdressing]\ndepth = \"7 lb\"\n", "[climate]\ncoldest_month = \"30\"\nwarmest_month = \"76 degF\"\n",
               "[[topdressing.offer]]\nunit = \"1 yrd3\"\nprice = 3\n", "[[supply]]\nfeedstock = \"leaves\"\namount = \"6 leaf-bgas\"\n",
               "[[supply]]\nfeedstock = \"leaves\"\namount = \"1 yd3\"\nwhen = { months = [\"Okt\"] }\n",
               "[[supply]]\nfeedstock = \"leaves\"\namount = \"1 yd3\"\nwhen = { every = \"day\" }\n",
               "[[maturity.check]]\ncheck = \"looks\"\nresult = \"pased\"\n", "[[container]]\nname = \"a\"\nvolume = \"1 ft\"\n");
  CAPTURE(text);
  const std::vector<Problem> problems = problems_of(text);
  for (const Problem& problem : problems) UNSCOPED_INFO(describe(problem));
  CHECK(problems.size() == 1);
}

namespace {

/// A file that is gone when the test is over.
class ScratchBase {
 public:
  explicit ScratchBase(const std::string& text)
      : path_(std::filesystem::temp_directory_path() / ("base-" + std::to_string(getpid()) + ".toml")) {
    std::ofstream(path_) << text;
  }
  ScratchBase(const ScratchBase&) = delete;
  ScratchBase& operator=(const ScratchBase&) = delete;
  ~ScratchBase() { std::filesystem::remove(path_); }
  std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

}  // namespace

TEST_CASE("a base tells what a yard's own file leaves out", "[yard]") {
  const ScratchBase base(
      "units = \"si\"\n[office]\nname = \"The office\"\n[climate]\nlike = \"cold\"\n[[container]]\nname = \"tub\"\nvolume = \"40 L\"\n"
      "[[container]]\nname = \"pail\"\nvolume = \"3 L\"\n"
      "[pile]\nshape = \"bin\"\nlength = \"3 ft\"\nwidth = \"3 ft\"\nheight = \"3 ft\"\n"
      "[topdressing]\ndepth = \"3/8 in\"\nallowance = \"10 %\"\n[[topdressing.offer]]\nname = \"bulk\"\nunit = \"1 yd3\"\nprice = 30\n"
      "[[supply]]\nfeedstock = \"straw\"\namount = \"2 tub\"\n[columns]\n\"How many?\" = \"leaves\"\n");

  SECTION("all that it may tell") {
    const Yard yard =
        read_yard_text("[[supply]]\nfeedstock = \"leaves\"\namount = \"2 tub\"\n", "own.toml", built_in_tables(), base.path());
    CHECK(yard.units == ShownUnits::si);
    CHECK(yard.office.value().name == "The office");
    CHECK(yard.climate);
    CHECK(yard.pile);
    CHECK(yard.topdressing.offers.size() == 1);
    REQUIRE(yard.supplies.size() == 1);  // what is on hand is each yard's own
    CHECK(yard.supplies.front().feedstock.id == "leaves-fall");
  }

  SECTION("the yard's own word goes first: of a pile the whole, of topdressing key by key, of containers each") {
    const Yard yard = read_yard_text(
        "units = \"us\"\n[pile]\nshape = \"round\"\ndiameter = \"4 ft\"\nheight = \"4 ft\"\n[topdressing]\ndepth = \"1/8 in\"\n"
        "[[container]]\nname = \"pail\"\nvolume = \"5 L\"\n[[supply]]\nfeedstock = \"leaves\"\namount = \"2 pail\"\n",
        "own.toml", built_in_tables(), base.path());
    CHECK(yard.units == ShownUnits::us);
    CHECK(yard.pile.value().shape == PileShape::round);
    CHECK(yard.topdressing.depth.value() / read_length("1/8 in") == Approx(1.0).margin(exact));
    CHECK(yard.topdressing.allowance == ShareOfVolume::of(0.10));
    CHECK(yard.topdressing.offers.size() == 1);
    CHECK(std::get<ContainerCount>(*yard.supplies.front().amount).each / read_volume("5 L") == Approx(1.0).margin(exact));
  }

  SECTION("what is wrong with it is told in its own place") {
    const ScratchBase wrong("[topdressing]\n\n\nallowance = \"a lot\"\n");
    try {
      read_yard_text("[topdressing]\ndepth = \"1/4 in\"\n", "own.toml", built_in_tables(), wrong.path());
      FAIL("it was read");
    } catch (const InputError& error) {
      REQUIRE(error.problems().size() == 1);
      CHECK(error.problems().front().where.file == wrong.path());
      CHECK(error.problems().front().where.line == 4);
    }
  }
}

TEST_CASE("of keys that say the same in another way the yard's own shuts out the base's", "[yard]") {
  const ScratchBase base("[topdressing]\ndepth = \"2 in\"\nsurface = \"new\"\n[recipe]\ncapacity = \"1 yd3\"\ngoal = \"cheapest\"\n");
  const Yard yard =
      read_yard_text("[topdressing]\nsurface = \"lawn\"\n[recipe]\nfill = \"2 yd3\"\n", "own.toml", built_in_tables(), base.path());
  CHECK_FALSE(yard.topdressing.depth);
  CHECK(yard.options.goal == Goal::cheapest);
}

TEST_CASE("what is wrong with a base where it meets the yard's own is told in the file it stands in", "[yard]") {
  const ScratchBase base("[topdressing]\nallowance = \"10 %\"\n");
  SECTION("the yard's own of another type goes first, and is told") {
    try {
      read_yard_text("topdressing = 3\n", "own.toml", built_in_tables(), base.path());
      FAIL("it was read");
    } catch (const InputError& error) {
      CHECK(error.problems().front().where.file == "own.toml");
    }
  }
  SECTION("a file that is its own base is read as without") {
    const Yard yard = read_yard(base.path(), built_in_tables(), base.path());
    CHECK(yard.topdressing.allowance == ShareOfVolume::of(0.10));
  }
}

TEST_CASE("a base's own files are read from its folder", "[yard]") {
  const ScratchBase base("[climate]\nfile = \"no-such-weather.csv\"\n");
  try {
    read_yard_text("title = \"somewhere else\"\n", "/nowhere/own.toml", built_in_tables(), base.path());
    FAIL("it was read");
  } catch (const Error& error) {
    CHECK_THAT(error.what(), Contains((std::filesystem::temp_directory_path() / "no-such-weather.csv").string()));
  }
}
