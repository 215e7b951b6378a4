// What went into a pile: as a yard file has it, as people say it, as a log tells it.

#include "heapwright/mix/load.hpp"

#include <catch2/catch.hpp>

#include "heapwright/guide/said_load.hpp"
#include "heapwright/guide/yard_text.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"
#include "logs.hpp"

using namespace heapwright;
using Catch::Contains;
using Catch::Matchers::WithinRel;

namespace {

constexpr Date november_7{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)};

Yard yard_of(const std::string& text) { return read_yard_text(text, "yard.toml", built_in_tables()); }
std::vector<Load> read(const std::string& text) { return yard_of(text).loads; }

std::string load(const std::string& date, const std::string& lines) { return "[[load]]\ndate = " + date + "\n" + lines + "\n"; }
std::string leaves(const std::string& date) { return load(date, "feedstock = \"leaves\"\namount = \"2 bucket\""); }

double gallons(const Load& load) { return value_in(unit::gallon, volume_of(load.water)); }

const ContainerCount& counted(const Load& load) { return std::get<ContainerCount>(*load.supply->amount); }

/// "2 bucket leaves-fall; water 1 gal": the loads of a text in one line.
std::string in_short(const std::string& text) {
  static const Materials materials = built_in_materials();
  std::string line;
  for (const SaidLoad& said : said_loads(text, november_7, materials)) {
    const std::optional<Supply>& supply = said.load.supply;
    line += line.empty() ? "" : "; ";
    line += said.amount + " " + (supply ? supply->feedstock.id + (supply->packing_assumed ? "" : ":" + supply->packing) : "water");
  }
  return line;
}

}  // namespace

TEST_CASE("loads of a file are read, the earliest first", "[load]") {
  const auto loads = read(load("2026-11-21", "feedstock = \"coffee\"\namount = \"5 lb\"\nwater = \"1 gal\"") + leaves("2026-11-07") +
                          load("2026-11-07", "water = \"2 watering-can\""));
  REQUIRE(loads.size() == 3);
  CHECK(loads[0].date == november_7);
  CHECK(loads[0].supply->feedstock.id == "leaves-fall");
  CHECK(counted(loads[0]).count == 2.0);
  CHECK(loads[0].supply->number == 0);
  CHECK(loads[0].supply->name() == "autumn leaves");
  CHECK_FALSE(is_positive(loads[0].water));
  CHECK_FALSE(loads[1].supply);
  CHECK(is_positive(loads[1].water));
  CHECK(print_date(loads[2].date) == "2026-11-21");
  CHECK_THAT(std::get<Mass>(*loads[2].supply->amount) / unit::pound, WithinRel(5.0, 1e-12));
  CHECK_THAT(gallons(loads[2]), WithinRel(1.0, 1e-12));
}

TEST_CASE("what was measured of a load counts as it does of a supply", "[load]") {
  const auto loads = read(load("2026-11-07",
                               "feedstock = \"clippings\"\npacking = \"loose\"\namount = \"2 to 3 buckets\"\ntreated = \"unknown\"\n"
                               "weighed = { container = \"bucket\", full = \"9 lb\", empty = \"2 lb\" }\n"
                               "dried = { wet = \"10 g\", dry = \"2.3 g\" }\nfeel = \"clumps\"\nshredded = false"));
  const Supply& supply = *loads.at(0).supply;
  CHECK(supply.packing == "loose");
  CHECK(supply.treated == Treated::unknown);
  CHECK_THAT(supply.properties().moisture.value(), WithinRel(0.77, 1e-12));
  CHECK_THAT(*supply.mass(*supply.amount) / unit::pound, WithinRel(2.5 * 7.0, 1e-9));
  CHECK_THAT(supply.estimated->low, WithinRel(0.8, 1e-12));
}

TEST_CASE("all that is wrong with loads is told at once, each at its place", "[load]") {
  const auto wrong = [](const std::string& text) {
    try {
      read(text);
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string("nothing wrong");
  };
  CHECK_THAT(wrong("[[load]]\nwater = \"2 gal\"\n"), Contains("yard.toml:1:1: load: date is missing"));
  CHECK_THAT(wrong(load("\"2026-11-07\"", "water = \"2 gal\"")), Contains("yard.toml:2:8: date: is a text where a date is wanted"));
  CHECK_THAT(wrong(load("2026-11-07", "")), Contains("load: neither a feedstock nor water went in"));
  CHECK_THAT(wrong(load("2026-11-07", "amount = \"2 bucket\"")), Contains("load: feedstock is missing"));
  CHECK_THAT(wrong(load("2026-11-07", "feedstock = \"leaves\"")), Contains("load: amount is missing"));
  CHECK_THAT(wrong(load("2026-11-07", "feedstock = \"leaves\"\nwater = \"1 gal\"")), Contains("load: amount is missing"));
  CHECK_THAT(wrong(load("2026-11-07", "feedstock = \"leaves\"\namount = \"0 bucket\"")), Contains("amount: is nothing"));
  CHECK_THAT(wrong(load("2026-11-07", "water = \"0 gal\"")), Contains("water: is none"));
  CHECK_THAT(wrong(load("2026-11-07", "water = \"2\"")), Contains("yard.toml:3:9: water: \"2\" has no unit"));
  CHECK_THAT(wrong(load("2026-11-07", "feedstock = \"dog poop\"\namount = \"1 bucket\"")), Contains("stays out of the pile"));
  CHECK_THAT(wrong(leaves("2026-11-07") + "when = { months = [\"Oct\"] }\n"), Contains("when: is not a key of this table"));
  CHECK_THAT(wrong(leaves("2026-11-07") + "ammount = \"3 bucket\"\n"), Contains("did you mean amount?"));
  CHECK_THAT(wrong("[load]\ndate = 2026-11-07\n"), Contains("[[load]], with two brackets"));
  const std::string two = wrong(load("2026-11-07", "water = \"2\"") + load("2026-11-08", "feedstock = \"leavs\"\namount = \"2 yards2\""));
  CHECK_THAT(two, Contains("yard.toml:3:9") && Contains("yard.toml:6:13") && Contains("yard.toml:7:10"));
  std::string many;
  for (std::size_t i = 0; i <= most_loads; ++i) many += leaves("2026-11-07");
  CHECK_THAT(wrong(many), Contains("2001 loads are more than the 2000 that one pile may have"));
}

TEST_CASE("a pile may stand already", "[load]") {
  const std::string pile = "[pile]\nshape = \"tumbler\"\nvolume = \"60 gal\"\n";
  CHECK_FALSE(yard_of(pile).pile->standing);
  CHECK(yard_of(pile + "standing = true\n").pile->standing);
  CHECK_THROWS_WITH(yard_of(pile + "standing = \"yes\"\n"), Contains("standing: is a text where true or false is wanted"));
}

TEST_CASE("loads are summed in the measures they were counted in", "[load]") {
  const AllLoaded all =
      sum_of(read(leaves("2026-11-07") + load("2026-11-08", "feedstock = \"coffee\"\namount = \"5 lb\"\nwater = \"1 gal\"") +
                  load("2026-11-09", "feedstock = \"leaves\"\namount = \"3 leaf-bag\"") + leaves("2026-11-10") +
                  load("2026-11-11", "water = \"1 gal\"")));
  REQUIRE(all.things.size() == 3);
  CHECK(all.things[0].feedstock.id == "leaves-fall");
  CHECK(std::get<ContainerCount>(all.things[0].amount).count == 4.0);
  CHECK(all.things[1].feedstock.id == "leaves-fall");
  CHECK(std::get<ContainerCount>(all.things[1].amount).container == "leaf-bag");
  CHECK(all.things[2].feedstock.id == "coffee-grounds");
  CHECK_THAT(value_in(unit::gallon, volume_of(all.water)), WithinRel(2.0, 1e-12));
}

TEST_CASE("a load that is written down twice is known", "[load]") {
  const auto one = read(leaves("2026-11-07")).at(0);
  CHECK(are_alike(one, read(leaves("2026-11-07")).at(0)));
  CHECK_FALSE(are_alike(one, read(leaves("2026-11-08")).at(0)));
  CHECK_FALSE(are_alike(one, read(load("2026-11-07", "feedstock = \"leaves\"\namount = \"3 bucket\"")).at(0)));
  CHECK_FALSE(are_alike(one, read(load("2026-11-07", "water = \"2 gal\"")).at(0)));
}

TEST_CASE("loads are said as people say them", "[load]") {
  const auto [said, taken] = GENERATE(table<std::string, std::string>({
      {"2 buckets leaves", "2 bucket leaves-fall"},
      {"2 buckets of leaves", "2 bucket leaves-fall"},
      {"grass 3 buckets", "3 bucket grass-clippings"},
      {"leaves: 2 bags", "2 leaf-bag leaves-fall"},
      {"leaves=2 bags", "2 leaf-bag leaves-fall"},
      {"leaves, 2 bags", "2 leaf-bag leaves-fall"},
      {"half a bucket of coffee grounds", "0.5 bucket coffee-grounds"},
      {"1/2 bucket coffee grounds", "1/2 bucket coffee-grounds"},
      {"a bag of leaves and a gallon of water", "1 leaf-bag leaves-fall; 1 gallon water"},
      {"2 buckets leaves; 1 gal water", "2 bucket leaves-fall; 1 gal water"},
      {"2 buckets leaves, 1 gal water", "2 bucket leaves-fall; 1 gal water"},
      {"2 buckets leaves & 3 lb coffee", "2 bucket leaves-fall; 3 lb coffee-grounds"},
      {"Two Buckets Of Kitchen Scraps", "2 bucket kitchen-scraps"},
      {"3-4 buckets of grass", "3 to 4 bucket grass-clippings"},
      {"2 to 3 buckets leaves", "2 to 3 bucket leaves-fall"},
      {"shredded leaves, 4 bags", "4 leaf-bag leaves-fall:shredded"},
      {"a wheelbarrow of horse manure", "1 wheelbarrow horse-manure"},
      {"a bale of straw", "1 straw-bale straw"},
      {"3 straw bales", "3 straw-bale straw"},
      {"about 5 lb of coffee grounds", "5 lb coffee-grounds"},
      {"1 1/2 buckets of grass clippings", "1 1/2 bucket grass-clippings"},
      {"a bucket and a half of grass", "1 1/2 bucket grass-clippings"},
      {"water 2 gal", "2 gal water"},
      {"water: 2 gallons", "2 gallons water"},
      {"2 watering cans of water", "2 watering-can water"},
      {"2 watering cans", "2 watering-can water"},
      {"a bucket of rain water", "1 bucket water"},
      {"10 L water", "10 l water"},
      {"some leaves, 2 bags", "2 leaf-bag leaves-fall"},
      {"a dozen bags of leaves", "12 leaf-bag leaves-fall"},
      {"two 5-gallon buckets of grass", "2 bucket grass-clippings"},
      {"2 grass-catchers of clippings", "2 grass-catcher grass-clippings"},
      {"1 yd3 wood chips", "1 yd3 wood-chips"},
      {"half a yard of wood chips", "0.5 yard wood-chips"},
      {"5 gal of food scraps", "5 gal kitchen-scraps"},
      {"3 bags dry leaves, 1 bucket wet grass and 2 gal water", "3 leaf-bag leaves-fall; 1 bucket grass-clippings; 2 gal water"},
      {"leaves 2 bags, grass 1 bucket", "2 leaf-bag leaves-fall; 1 bucket grass-clippings"},
      {"2 buckets of leaves.", "2 bucket leaves-fall"},
      {"20 kg horse manure", "20 kg horse-manure"},
      {"water, 2 gal", "2 gal water"},
      {"six 30 gallon bags of leaves, shredded", "6 leaf-bag leaves-fall:shredded"},
      {"3 + 2 bags of leaves", "5 leaf-bag leaves-fall"},
      {"a 5-gallon bucket of grass", "1 bucket grass-clippings"},
      {"I put in 2 buckets leaves,1 gal water", "2 bucket leaves-fall; 1 gal water"},
      {"1,000 lb leaves", "1,000 lb leaves-fall"},
      {"none", ""},
      {"-", ""},
      {"", ""},
  }));
  INFO(said);
  CHECK(in_short(said) == taken);
}

TEST_CASE("what a load is in doubt of is asked, never guessed", "[load]") {
  const auto [said, wrong] = GENERATE(table<std::string, std::string>({
      {"leaves", "how much of leaves?"},
      {"2 buckets", "of what?"},
      {"2 leaves", "2"},
      {"leaves and grass 3 buckets", "how much of leaves?"},
      {"3 buckets leaves and grass", "how much of grass?"},
      {"a few bags of leaves", "does not say how much"},
      {"2 tons of leaves", "a ton is 2000 lb"},
      {"water", "how much water?"},
      {"2 bags of water", "holds none"},
      {"2 qt water", "unit"},
      {"2 to 3 gal of water", "is two amounts"},
      {"0 gal water", "is none"},
      {"0 buckets of leaves", "is nothing"},
      {"2 buckets of dog poop", "stays out of the pile"},
      {"1 lb of meat and 2 buckets leaves", "stays out of the pile"},
      {"2 gal aquarium water", ""},
      {"2 buckets leafs 1 gal water", ""},
      {"2 bukets leaves", ""},
      {"1e9 buckets of leaves", ""},
  }));
  INFO(said);
  CHECK_THROWS_AS(in_short(said), TextError);
  CHECK_THROWS_WITH(in_short(said), Contains(wrong));
}

TEST_CASE("loads come to the end of a file, and are read from it as they were said", "[load]") {
  const auto said = said_loads("shredded leaves 2 1/2 buckets, 3 to 4 lb coffee, 1 gal water", november_7, built_in_materials());
  const std::string before = "# mine\ntitle = \"A\" # no end";
  const std::string after = with_loads(before, said);
  CHECK(after == before +
                     "\n\n[[load]]\ndate = 2026-11-07\nfeedstock = \"leaves-fall\"\npacking = \"shredded\"\namount = \"2 1/2 bucket\"\n"
                     "\n[[load]]\ndate = 2026-11-07\nfeedstock = \"coffee-grounds\"\namount = \"3 to 4 lb\"\n"
                     "\n[[load]]\ndate = 2026-11-07\nwater = \"1 gal\"\n");
  const auto loads = read(after);
  REQUIRE(loads.size() == said.size());
  for (std::size_t i = 0; i < loads.size(); ++i) CHECK(are_alike(loads[i], said[i].load));

  const std::string windows = with_loads("title = \"A\"\r\n[pile]\r\ncovered = true\r\n", said);
  CHECK(windows.find("\r\n\r\n[[load]]\r\ndate") != std::string::npos);
  CHECK(std::count(windows.begin(), windows.end(), '\n') == std::count(windows.begin(), windows.end(), '\r'));
  CHECK_THAT(with_loads("", said), Catch::StartsWith("\n[[load]]"));
}

TEST_CASE("a log tells what went in", "[load][log]") {
  const auto log = logs::log_of(
      "time,core degF,event,Added\n2026-11-08T08:00,100,,2 buckets leaves; 1 gal water\n2026-11-09T08:00,,turned,\"grass 1 bucket, 2 gal "
      "water\"\n2026-11-10T08:00,,,coffee 3 lb\n2026-11-11T08:00,99,,-\n");
  CHECK(log.rows.at(0).added->words == "2 buckets leaves; 1 gal water");
  CHECK_FALSE(log.rows.at(2).probes.at(0));
  CHECK_FALSE(log.rows.at(3).added);
  Yard yard = yard_of(leaves("2026-11-09"));
  take_loads_of_log(yard, log);
  REQUIRE(yard.loads.size() == 6);
  CHECK(print_date(yard.loads[0].date) == "2026-11-08");
  CHECK(yard.loads[2].supply->feedstock.id == "leaves-fall");  // the file's, before the log's of that day
  CHECK(yard.loads[5].supply->feedstock.id == "coffee-grounds");
}

TEST_CASE("a log with more loads than a pile may have is refused before all of it is read", "[load][log]") {
  std::string rows = "time,core degF,added\n";
  for (std::size_t i = 0; i <= most_loads; ++i)
    rows += print_date(std::chrono::sys_days(november_7) + std::chrono::days(i)) + ",100,1 gal water\n";
  Yard yard = yard_of("");
  CHECK_THROWS_WITH(take_loads_of_log(yard, logs::log_of(rows)), Contains("more than 2000 loads"));
}

TEST_CASE("what a log's row added is wrong about is told at its place", "[load][log]") {
  const auto log = logs::log_of("time,core degF,added\n2026-11-08,100,2 buckets leavez\n2026-11-09,100,grass\n");
  Yard yard = yard_of("");
  CHECK_THROWS_AS(take_loads_of_log(yard, log), InputError);
  CHECK_THROWS_WITH(take_loads_of_log(yard, log), Contains("log.csv:2:16: added: ") && Contains("log.csv:3:16: added: how much of grass?"));
  CHECK(yard.loads.empty());
  CHECK_THROWS_WITH(logs::log_of("time,core degF,added,added\n2026-11-08,100,,\n"), Contains("added: is a second column of that name"));
}
