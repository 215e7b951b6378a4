// The tables and a user's own: what is found by which name, what is refused, what is computed where a row says nothing.

#include "heapwright/materials/materials.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <set>
#include <unistd.h>

#include "heapwright/input/problems.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/materials/used_figures.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/tables/tables.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Contains;
using Catch::Matchers::WithinRel;

namespace {

/// The built-in tables with a user's file of some text.
Tables own_tables(const std::string& text) {
  const std::string path =
      (std::filesystem::temp_directory_path() / ("heapwright-materials-test-" + std::to_string(getpid()) + ".toml")).string();
  std::ofstream(path) << text;
  try {
    Tables tables = tables_with(path);
    std::remove(path.c_str());
    return tables;
  } catch (...) {
    std::remove(path.c_str());
    throw;
  }
}

Materials with(const std::string& text) { return own_tables(text).materials; }

/// A user's row, id "mine", of some lines.
std::string row(const std::string& lines) { return "[[feedstock]]\nid = \"mine\"\n" + lines; }
Feedstock feedstock(const std::string& lines) { return find_feedstock(with(row(lines)), "mine"); }

void refuses(const std::string& lines, const std::string& why) {
  CAPTURE(lines);
  CHECK_THROWS_WITH(with(row(lines)), Contains(why));
}

// Products of three readings as doubles: a few roundings.
constexpr double exact = 1e-12;

}  // namespace

TEST_CASE("the tables that come with the program", "[materials]") {
  const Materials materials = built_in_materials();

  SECTION("ids that examples and files rely on") {
    const std::string id = GENERATE("leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds", "straw", "urea", "blood-meal");
    CHECK(find_feedstock(materials, id).id == id);
    CHECK(find_feedstock(materials, id).lacks().empty());
  }
  SECTION("the default compost and the two commonest containers") {
    CHECK(find_compost(materials, "yard-trimmings").id == "yard-trimmings");
    REQUIRE(find_container(*materials.containers, "leaf-bag"));
    CHECK_THAT(find_container(*materials.containers, "leaf-bag")->volume.value(), WithinRel(30.0 * unit::gallon.value(), exact));
    REQUIRE(find_container(*materials.containers, "bucket"));
    CHECK_THAT(find_container(*materials.containers, "bucket")->volume.value(), WithinRel(5.0 * unit::gallon.value(), exact));
  }
  SECTION("no name leads to two feedstocks, nor two containers") {
    std::set<std::string> names;
    for (const Feedstock& row : *materials.feedstocks) {
      std::set<std::string> own{plain_name(row.id), plain_name(row.name)};
      for (const std::string& name : row.also) own.insert(plain_name(name));
      for (const std::string& name : own) {
        CAPTURE(row.id, name);
        CHECK(names.insert(name).second);
      }
    }
    std::set<std::string> containers;
    for (const Container& row : *materials.containers) {
      std::set<std::string> own{plain_name(row.id), plain_name(row.name)};
      for (const std::string& name : row.also) own.insert(plain_name(name));
      for (const std::string& name : own) {
        CAPTURE(row.id, name);
        CHECK(containers.insert(name).second);
      }
    }
  }
  SECTION("every complete row has air in it, at every packing") {
    for (const Feedstock& row : *materials.feedstocks) {
      const auto properties = row.properties();
      if (!properties) continue;
      for (const Packing& packing : row.packings) {
        CAPTURE(row.id, packing.name);
        if (const auto density = used(packing.values))
          CHECK(*density < density_without_air(properties->moisture, properties->particle_density));
      }
    }
  }
  SECTION("the yield rule is whole") {
    CHECK(materials.yield->volatile_solids_lost.typical);
    CHECK(materials.yield->held_back_by_screen.high);
    // Section 18 of the model.
    CHECK(materials.yield->moisture_at_use.typical->value() == Approx(0.42));
    CHECK(materials.yield->organic_density.typical->value() == Approx(204.0));
    CHECK(materials.yield->mineral_density.typical->value() == Approx(1154.0));
    CHECK(materials.yield->density_spread == Approx(0.24));
  }
}

TEST_CASE("a feedstock is found by its id and by what people call it", "[materials]") {
  const Materials materials = built_in_materials();
  const auto [name, id] = GENERATE(table<std::string, std::string>({{"leaves-fall", "leaves-fall"},
                                                                    {"LEAVES_FALL", "leaves-fall"},
                                                                    {"leaf", "leaves-fall"},
                                                                    {"Lawn  Clippings", "grass-clippings"},
                                                                    {"lawn-clipping", "grass-clippings"},
                                                                    {"Coffee Grounds", "coffee-grounds"}}));
  CHECK(find_feedstock(materials, name).id == id);
  CHECK_THROWS_WITH(find_feedstock(materials, "strw"), Contains("\"strw\" is no known feedstock"));
  CHECK_THROWS_AS(find_feedstock(materials, "zzzzzzzz"), TextError);
  CHECK_THROWS_AS(find_feedstock(materials, ""), TextError);
  CHECK(find_compost(materials, "garden compost").id == "yard-trimmings");
  CHECK_THROWS_AS(find_compost(materials, "leaves-fall"), TextError);
}

TEST_CASE("a user's file adds rows and replaces those it names", "[materials]") {
  const std::size_t count = built_in_materials().feedstocks->size();
  SECTION("a row of one's own") {
    const Materials materials = with(
        "[[feedstock]]\nid = \"my-grass\"\nname = \"grass, lab report 14\"\nlike = \"grass\"\nmoisture_wet_basis = \"77 "
        "%\"\ncarbon_dry_basis = \"45 %\"\nnitrogen_dry_basis = \"2.4 %\"\nclass = \"clippings\"\nbulk_density = { loose = \"350 lb/yd3\" "
        "}\n");
    CHECK(materials.feedstocks->size() == count + 1);
    const Feedstock& mine = find_feedstock(materials, "my-grass");
    CHECK(mine.name == "grass, lab report 14");
    CHECK(mine.feedstock_class == FeedstockClass::clippings);
    CHECK(mine.moisture.front().evidence == Evidence::own);
    CHECK(mine.lacks().empty());
    CHECK(find_feedstock(materials, "grass").id == "grass-clippings");
  }
  SECTION("a row of the table's id takes its place, whole") {
    const Materials materials = with("[[feedstock]]\nid = \"straw\"\nmoisture_wet_basis = \"20 %\"\n");
    CHECK(materials.feedstocks->size() == count);
    const Feedstock& straw = find_feedstock(materials, "straw");
    CHECK(straw.moisture.size() == 1);
    CHECK(straw.carbon.empty());
    CHECK(straw.lacks() == std::vector<std::string>{"carbon", "C:N", "bulk density"});
  }
  SECTION("containers and composts too") {
    const Materials materials = with(
        "[[container]]\nid = \"bucket\"\nvolume = \"10 L\"\n[[compost]]\nid = \"mine\"\nmoisture_wet_basis = \"40 %\"\nbulk_density = "
        "\"600 kg/m3\"\n");
    CHECK(find_container(*materials.containers, "bucket")->volume.value() == 0.010);
    CHECK(used(find_compost(materials, "mine").bulk_density)->value() == 600.0);
    CHECK_THROWS_WITH(with("[[compost]]\nid = \"mine\"\n"), Contains("needs its moisture") && Contains("needs its weight"));
    CHECK_THROWS_WITH(with("[[container]]\nid = \"mine\"\nvolume = \"0 L\"\n"), Contains("one volume above zero"));
    CHECK_THROWS_WITH(with("[[container]]\nid = \"mine\"\nvolume = \"10 L\"\nlow = \"12 L\"\n"), Contains("out of order"));
    CHECK_THROWS_WITH(with("[[container]]\nid = \"mine\"\nvolume = \"10 L\"\nhigh = \"8 L\"\n"), Contains("out of order"));
  }
  SECTION("misspelt keys, double ids, unknown likes") {
    refuses("moisture = \"20 %\"\n", "moisture: is not a key");
    refuses("moisture_wet_bassis = \"20 %\"\n", "did you mean moisture_wet_basis?");
    refuses("like = \"gras-clippings\"\n", "did you mean \"grass-clippings\"?");
    CHECK_THROWS_WITH(with(row("") + row("")), Contains("stands twice"));
    CHECK_THROWS_WITH(with("[[feedstock]]\nname = \"x\"\n"), Contains("id is missing"));
    CHECK_THROWS_WITH(with("[[feedstok]]\nid = \"x\"\n"), Contains("did you mean feedstock?"));
  }
}

TEST_CASE("two of carbon, nitrogen and C:N give the third", "[materials]") {
  const std::string carbon = "carbon_dry_basis = \"45 %\"\n";
  const std::string nitrogen = "nitrogen_dry_basis = \"2.4 %\"\n";
  const std::string ratio = "carbon_to_nitrogen = \"18.75:1\"\n";
  const std::string two = GENERATE_COPY(carbon + nitrogen, carbon + ratio, nitrogen + ratio, carbon + nitrogen + ratio);
  CAPTURE(two);
  const Feedstock mine = feedstock(two);
  CHECK_THAT(mine.used_carbon()->value(), WithinRel(0.45, exact));
  CHECK_THAT(mine.used_nitrogen()->value(), WithinRel(0.024, exact));
  CHECK_THAT(mine.used_carbon_to_nitrogen()->value(), WithinRel(18.75, exact));
  CHECK(feedstock(carbon).lacks() == std::vector<std::string>{"moisture", "C:N", "bulk density"});
  CHECK(feedstock(ratio).lacks() == std::vector<std::string>{"moisture", "carbon", "C:N", "bulk density"});
}

TEST_CASE("a third of them must agree within the rounding of all three", "[materials]") {
  // Of what rounds to 45 and to 2.4 the ratio lies between 44.5/2.45 = 18.16 and 45.5/2.35 = 19.36.
  const auto [ratio, agrees] = GENERATE(table<std::string, bool>({
      {"18.75:1", true},
      {"19:1", true},
      {"18:1", true},     // up to 18.5
      {"20:1", false},    // from 19.5
      {"19.4:1", true},   // from 19.35
      {"19.5:1", false},  // from 19.45
      {"18.1:1", false},  // up to 18.15
      {"30:1", false},
      {"5.3:1", false},
  }));
  const std::string lines = "carbon_dry_basis = \"45 %\"\nnitrogen_dry_basis = \"2.4 %\"\ncarbon_to_nitrogen = \"" + ratio + "\"\n";
  CAPTURE(ratio);
  if (agrees) CHECK_NOTHROW(with(row(lines)));
  if (!agrees) refuses(lines, "carbon 45 % over nitrogen 2.4 % is 18.75:1, not " + ratio);
}

TEST_CASE("carbon over no nitrogen agrees with no ratio", "[materials]") {
  const std::string carbon = GENERATE("48", "0");
  const std::string lines = "carbon_dry_basis = \"" + carbon + " %\"\nnitrogen_dry_basis = \"0 %\"\ncarbon_to_nitrogen = \"52:1\"\n";
  refuses(lines, "carbon " + carbon + " % over nitrogen 0 % is no ratio, not 52:1");
}

TEST_CASE("carbon is 20 to 60 % of dry matter, both included", "[materials]") {
  SECTION("as measured") {
    const auto [carbon, good] = GENERATE(table<std::string, bool>(
        {{"19.9 %", false}, {"20 %", true}, {"45 %", true}, {"60 %", true}, {"60.1 %", false}, {"0.45 %", false}}));
    const std::string lines = "carbon_dry_basis = \"" + carbon + "\"\ncarbon_to_nitrogen = \"20:1\"\n";
    if (good) CHECK_NOTHROW(with(row(lines)));
    if (!good) refuses(lines, "carbon is " + carbon + " of dry matter, outside 20–60 %");
  }
  SECTION("as nitrogen times C:N, with its arithmetic") {
    // 2.5 × 24 and 5 × 12 come out above 60 % by a rounding of doubles.
    const auto [nitrogen, ratio, good] = GENERATE(table<std::string, std::string, bool>(
        {{"2.5 %", "24:1", true}, {"5 %", "12:1", true}, {"2 %", "10:1", true}, {"2.4 %", "25.1:1", false}, {"1 %", "19.9:1", false}}));
    const std::string lines = "nitrogen_dry_basis = \"" + nitrogen + "\"\ncarbon_to_nitrogen = \"" + ratio + "\"\n";
    if (good) CHECK_NOTHROW(with(row(lines)));
    if (!good) refuses(lines, "nitrogen " + nitrogen + " × C:N " + ratio.substr(0, ratio.find(':')) + " = carbon");
  }
  SECTION("minerals are exempt") {
    CHECK_NOTHROW(with(row("carbon_dry_basis = \"2 %\"\nnitrogen_dry_basis = \"0 %\"\nclass = \"mineral\"\n")));
    refuses("carbon_dry_basis = \"45 %\"\nnitrogen_dry_basis = \"0 %\"\n", "nothing that grew is without nitrogen");
  }
}

TEST_CASE("organic matter where nobody measured it is 1.8 times carbon, at most all", "[materials]") {
  const auto [carbon, organic] = GENERATE(table<std::string, double>({{"40 %", 0.72}, {"55 %", 0.99}, {"56 %", 1.0}, {"60 %", 1.0}}));
  const std::string lines = "moisture_wet_basis = \"50 %\"\ncarbon_to_nitrogen = \"20:1\"\ncarbon_dry_basis = \"" + carbon + "\"\n";
  CHECK_THAT(feedstock(lines).properties()->organic_matter.value(), WithinRel(organic, exact));
  CHECK(feedstock(lines + "volatile_solids_dry_basis = \"80 %\"\n").properties()->organic_matter.value() == 0.8);
}

TEST_CASE("particle density where nobody measured it follows from organic matter and ash", "[materials]") {
  // Volumes add: 0.72 kg at 1500 and 0.28 kg at 2650 kg/m³.
  const std::string lines = "moisture_wet_basis = \"50 %\"\ncarbon_to_nitrogen = \"20:1\"\ncarbon_dry_basis = \"40 %\"\n";
  CHECK_THAT(feedstock(lines).properties()->particle_density.value(), WithinRel(1.0 / (0.72 / 1500.0 + 0.28 / 2650.0), exact));
  CHECK(feedstock(lines + "particle_density = \"1400 kg/m3\"\n").properties()->particle_density.value() == 1400.0);
  CHECK_THAT(particle_density_of(organic_dry_basis(1.0)).value(), WithinRel(1500.0, exact));
  CHECK_THAT(particle_density_of(organic_dry_basis(0.0)).value(), WithinRel(2650.0, exact));
  refuses(lines + "particle_density = \"14 kg/m3\"\n", "outside 500–5000 kg/m3");
}

TEST_CASE("nothing weighs more than its own solids and water without air", "[materials]") {
  // half water, half solids of 1250 kg/m³: 1/(0.5/1250 + 0.5/1000) = 1111.1 kg/m³
  const std::string lines =
      "moisture_wet_basis = \"50 %\"\ncarbon_to_nitrogen = \"20:1\"\ncarbon_dry_basis = \"45 %\"\nparticle_density = \"1250 kg/m3\"\n";
  CHECK_THAT(density_without_air(wet_basis(0.5), particle_density(1250.0)).value(), WithinRel(1.0 / 0.0009, exact));
  CHECK_NOTHROW(with(row(lines + "bulk_density = \"1111 kg/m3\"\n")));
  refuses(lines + "bulk_density = \"1112 kg/m3\"\n",
          "as-is: 1112 kg/m3 is more than its own solids and water weigh without any air, 1111 kg/m3");
  refuses(lines + "bulk_density = { loose = \"300 kg/m3\", packed = \"1200 kg/m3\" }\n", "packed: 1200 kg/m3");
  // The high end of a range may go with the driest, 1/(0.6/1250 + 0.4/1000) = 1136.4 kg/m3, and no further.
  const std::string ranged =
      std::string(lines).replace(0, lines.find('\n'), "moisture_wet_basis = { typical = \"50 %\", low = \"40 %\", high = \"60 %\" }");
  CHECK_NOTHROW(with(row(ranged + "bulk_density = { typical = \"900 kg/m3\", low = \"800 kg/m3\", high = \"1136 kg/m3\" }\n")));
  refuses(ranged + "bulk_density = { typical = \"900 kg/m3\", low = \"800 kg/m3\", high = \"1137 kg/m3\" }\n",
          "as-is: 1137 kg/m3 is more than its own solids and water weigh without any air, 1136 kg/m3");
  refuses(ranged + "bulk_density = { wet = { typical = \"900 kg/m3\", low = \"800 kg/m3\", high = \"1200 kg/m3\" } }\n", "wet: 1200 kg/m3");
  CHECK_THROWS_WITH(with("[[compost]]\nid = \"mine\"\nmoisture_wet_basis = \"50 %\"\nbulk_density = \"2000 kg/m3\"\n"),
                    Contains("2000 kg/m3 is more than its own solids and water weigh without any air, 1452 kg/m3"));  // ash: 2650 kg/m3
}

TEST_CASE("nothing that grew is more than three quarters protein", "[materials]") {
  const std::string carbon = "carbon_dry_basis = \"45 %\"\n";
  CHECK_NOTHROW(with(row(carbon + "nitrogen_dry_basis = \"12 %\"\n")));
  refuses(carbon + "nitrogen_dry_basis = \"12.1 %\"\n", "nitrogen 12.1 % is 75.6 % protein, more than anything that grew: at most 12 %");
  refuses(carbon + "nitrogen_dry_basis = \"16 %\"\n", "is it crude protein? That is 6.25 times its nitrogen");
  refuses(carbon + "nitrogen_dry_basis = { typical = \"3 %\", low = \"2 %\", high = \"16 %\" }\n", "nitrogen 16 % is 100 % protein");
  refuses(carbon + "carbon_to_nitrogen = \"3:1\"\n", "carbon 45 % over C:N 3 = nitrogen 15 % is 93.8 % protein");

  SECTION("by the kind of thing it is or is like") {
    const std::string much = carbon + "nitrogen_dry_basis = \"16 %\"\n";
    const std::string kind =
        GENERATE("class = \"clippings\"\n", "class = \"must-go\"\n", "class = \"supplement\"\nlike = \"leaves-fall\"\n");
    refuses(much + kind, "more than anything that grew");
  }
  SECTION("bought fertilizers may have more") {
    const std::string much = carbon + "nitrogen_dry_basis = \"14 %\"\n";
    const std::string kind = GENERATE("class = \"supplement\"\n", "like = \"blood-meal\"\n");
    CHECK_NOTHROW(with(row(much + kind)));
    // In place of a row it is what that was.
    const Materials replaced = with("[[feedstock]]\nid = \"blood-meal\"\nmoisture_wet_basis = \"10 %\"\n" + much);
    CHECK(find_feedstock(replaced, "blood-meal").feedstock_class == FeedstockClass::supplement);
  }
}

TEST_CASE("packings", "[materials]") {
  SECTION("a text is one packing, as-is") {
    const Feedstock mine = feedstock("bulk_density = \"300 kg/m3\"\n");
    REQUIRE(mine.packings.size() == 1);
    CHECK(mine.packings.front().name == "as-is");
    CHECK(mine.usual_packing == "as-is");
    CHECK(mine.density()->value() == 300.0);
  }
  SECTION("so is one reading with its range") {
    const Feedstock mine = feedstock("bulk_density = { typical = \"300 kg/m3\", low = \"200 kg/m3\", high = \"400 kg/m3\" }\n");
    REQUIRE(mine.packings.size() == 1);
    CHECK(mine.packings.front().name == "as-is");
    CHECK(mine.packings.front().values.front().high->value() == 400.0);
  }
  SECTION("a table names them; the usual one is said, or the first by name") {
    const std::string lines = "bulk_density = { packed = \"300 kg/m3\", loose = \"100 kg/m3\" }\n";
    CHECK(feedstock(lines).density()->value() == 100.0);
    CHECK(feedstock(lines).density("packed")->value() == 300.0);
    CHECK_FALSE(feedstock(lines).density("bagged"));
    CHECK(feedstock(lines + "usual_packing = \"packed\"\n").density()->value() == 300.0);
    refuses(lines + "usual_packing = \"baled\"\n", "\"baled\" is no packing");
  }
  SECTION("ranges stand in order") {
    refuses("bulk_density = { loose = { typical = \"300 kg/m3\", low = \"400 kg/m3\" } }\n", "out of order");
  }
}

TEST_CASE("degradable shares are two, and no more than all", "[materials]") {
  const Feedstock mine = feedstock("degradable = { fast = \"45 %\", slow = \"35 %\" }\n");
  REQUIRE(mine.degradable);
  CHECK(mine.degradable->fast.typical == ShareOfVolatileSolids::of(0.45));
  CHECK(mine.degradable->slow.typical == ShareOfVolatileSolids::of(0.35));
  CHECK_FALSE(feedstock("").degradable);
  CHECK_NOTHROW(with(row("degradable = { fast = \"70 %\", slow = \"30 %\" }\n")));
  refuses("degradable = { fast = \"70 %\", slow = \"40 %\" }\n", "more than all");
  refuses("degradable = { fast = \"70 %\" }\n", "two parts");
  refuses("degradable = { fast = \"45 %\", slow = \"35 %\", never = \"20 %\" }\n", "never: is not a key");
}

TEST_CASE("half a digit of what was written", "[materials]") {
  const auto [text, relative] = GENERATE(table<std::string, double>({{"18.75:1", 0.005 / 18.75},
                                                                     {"30:1", 0.5 / 30.0},
                                                                     {"2.4 %", 0.05 / 2.4},
                                                                     {"45 %", 0.5 / 45.0},
                                                                     {"0.43 %", 0.005 / 0.43},
                                                                     {"0 %", 0.0},
                                                                     {"none", 0.0}}));
  CHECK_THAT(relative_rounding(text), WithinRel(relative, 1e-9) || Catch::Matchers::WithinAbs(relative, 0.0));
}

TEST_CASE("memory and judgement never go under a publication's name", "[materials]") {
  const Materials materials = built_in_materials();
  for (const Source& source : *materials.sources) {
    CAPTURE(source.id);
    CHECK(source_words(materials, source.id, Evidence::memory) == "common handbook figure, not re-checked");
    CHECK(source_words(materials, source.id, Evidence::judged) ==
          (source.id == "common-practice" ? "common practice, no source" : "judged by us"));
    CHECK(source_words(materials, source.id, Evidence::own) == "your own figure");
    CHECK(source_words(materials, source.id, Evidence::seen) == source.title);
    CHECK(source_words(materials, source.id, Evidence::secondary) == source.title + " (as quoted elsewhere)");
  }
  CHECK(source_words(materials, "no-such-source", Evidence::seen) == "no-such-source");
}

TEST_CASE("a range that the source does not give stands under its own mark", "[materials]") {
  const auto moisture = [](const std::string& more) {
    return "moisture_wet_basis = [{ typical = \"50 %\", low = \"40 %\", high = \"60 %\", source = \"lsu-ratio\", evidence = \"seen\"" +
           more + " }]\n";
  };
  const Materials materials = built_in_materials();
  const auto published = [&](const std::string& more) { return feedstock(moisture(more)).moisture.front(); };
  const std::string page = "LSU AgCenter, Composting and the Carbon Nitrogen Ratio";
  CHECK(source_words(materials, published("")) == page);
  CHECK(source_words(materials, published(", range_evidence = \"judged\"")) == page + ", its range judged by us");
  CHECK(source_words(materials, published(", range_evidence = \"memory\"")) ==
        page + ", its range a common handbook figure, not re-checked");
  CHECK(source_in_short(materials, published("")) == "LSU AgCenter, seen");
  CHECK(source_in_short(materials, published(", range_evidence = \"judged\"")) == "LSU AgCenter, seen, range judged");
  CHECK(source_in_short(materials, published(", range_evidence = \"memory\"")) == "LSU AgCenter, seen, range from memory");
  refuses(moisture(", range_evidence = \"seen\""), "range_evidence");
  refuses("moisture_wet_basis = [{ typical = \"50 %\", source = \"lsu-ratio\", evidence = \"seen\", range_evidence = \"judged\" }]\n",
          "range_evidence says whose low and high are");
}

TEST_CASE("how the figures used are known", "[materials]") {
  const UsedFigures built_in = used_figures(built_in_materials());
  const std::string lines =
      "moisture_wet_basis = { typical = \"50 %\", low = \"40 %\", high = \"60 %\", source = \"lsu-ratio\", evidence = \"seen\", "
      "range_evidence = \"memory\" }\ncarbon_dry_basis = \"45 %\"\n";
  SECTION("one that cannot be mixed gives none") { CHECK(used_figures(with(row(lines))).all() == built_in.all()); }
  SECTION("nitrogen counts where it does not follow, and only the first of a list") {
    const UsedFigures figures =
        used_figures(with(row(lines + "nitrogen_dry_basis = [\"2 %\", \"3 %\"]\nbulk_density = { loose = \"300 kg/m3\" }\n")));
    CHECK(figures.seen == built_in.seen + 1);
    CHECK(figures.own == 3);
    CHECK(figures.ranges_not_read == built_in.ranges_not_read + 1);
    CHECK(figures.all() == built_in.all() + 4);
  }
  SECTION("where it follows it is there to compare, as ash is") {
    CHECK(
        used_figures(with(row(lines + "carbon_to_nitrogen = \"22.5:1\"\nnitrogen_dry_basis = \"2 %\"\nash_dry_basis = \"10 %\"\n"))).own ==
        2);
  }
}

TEST_CASE("how finely a figure was typed", "[materials]") {
  const auto [text, half_a_digit] = GENERATE(table<std::string, double>({
      {"35 %", 0.5 / 35.0},
      {"48.0 %", 0.05 / 48.0},
      {"350 lb/yd3", 0.5 / 350.0},
      {"1,000 lb/yd3", 0.5 / 1000.0},
      {"15 1/2 %", 0.25 / 15.0},
      {"1/2 %", 0.25},
      {"18.75:1", 0.005 / 18.75},  // the 1 is exact
      {"1:0.015", 0.0005 / 0.015},
      {"no number", 0.0},
      {"0." + std::string(400, '9') + " %", 0.0},  // past what a double tells apart
  }));
  CAPTURE(text);
  CHECK_THAT(relative_rounding(text), Catch::Matchers::WithinAbs(half_a_digit, 1e-12));
}

TEST_CASE("a file of one's own reaches every table", "[materials][tables]") {
  const Tables tables = own_tables(
      "[[symptom]]\nid = \"whistles\"\nname = \"it whistles\"\n"
      "[[symptom.cause]]\ncause = \"wind\"\ncheck = \"listen\"\ndo_now = \"nothing\"\n"
      "[[climate]]\nid = \"cool\"\nname = \"ours\"\ncoldest_month = \"28 degF\"\nwarmest_month = \"70 degF\"\n"
      "[[rule]]\nid = \"ours\"\nname = \"our rule\"\nat_least = \"50 degC\"\nlength = \"2 days\"\nsource = \"our-office\"\nevidence = "
      "\"judged\"\n"
      "[[check]]\nid = \"looks\"\nname = \"looks\"\nhow = \"look\"\npassed = \"good\"\nfailed = \"wait\"\nsource = "
      "\"our-office\"\nevidence = \"judged\"\n"
      "[[container]]\nid = \"crate\"\nvolume = \"2 ft3\"\n");
  CHECK(find_symptom(*tables.symptoms, "it whistles").id == "whistles");
  CHECK(tables.symptoms->size() == built_in_symptoms().size() + 1);
  CHECK(climate_like(*tables.climates, "cool").like == "ours");
  CHECK(tables.climates->size() == built_in_climates().size());
  CHECK(tables.criteria->rules.back().id == "ours");
  CHECK(row_with_id(tables.criteria->checks, "looks")->passed == "good");
  const Yard yard = read_yard_text(
      "[[noticed]]\nsymptom = \"whistles\"\n[[supply]]\nfeedstock = \"leaves\"\namount = \"3 crates\"\n"
      "[climate]\nlike = \"cool\"\n[[maturity.check]]\ncheck = \"looks\"\nresult = \"passed\"\n",
      "yard.toml", tables);
  CHECK(yard.observations.noticed.front().symptom == "whistles");
  CHECK(readings_of(yard, std::nullopt, usual_gap, read_date("2026-11-01"))->noticed.front().cause->cause == "wind");
}

TEST_CASE("a container of one's own takes the place of the one of its name", "[materials][yard]") {
  const Yard yard =
      read_yard_text("[[container]]\nname = \"Bucket\"\nvolume = \"3 gal\"\n[[supply]]\nfeedstock = \"leaves\"\namount = \"2 buckets\"\n",
                     "yard.toml", built_in_tables());
  const std::vector<Container>& containers = *yard.tables.materials.containers;
  CHECK(std::count_if(containers.begin(), containers.end(), [](const Container& row) { return row.id == "bucket"; }) == 1);
  CHECK(row_with_id(containers, "bucket")->volume == 3.0 * unit::gallon);
  const auto counted = std::get<ContainerCount>(*yard.supplies.front().amount);
  CHECK(counted.container == "bucket");
  CHECK(counted.each == 3.0 * unit::gallon);
}

TEST_CASE("a table is read once, when it is first asked for", "[materials][tables]") {
  int times = 0;
  const Lazy<int> seven([&] {
    ++times;
    return 7;
  });
  const Lazy<int> copy = seven;
  CHECK(times == 0);
  CHECK(*seven == 7);
  CHECK(*copy == 7);
  CHECK(times == 1);
}
