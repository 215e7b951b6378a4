// What went into a pile that was filled by its recipe before the loads that are noted.
#include <catch2/catch.hpp>

#include "heapwright/plan/loaded.hpp"
#include "heapwright/plan/plan.hpp"
#include "yards.hpp"

using namespace heapwright;
using yards::supply;

TEST_CASE("a pile built weeks before its first load was filled by its recipe", "[load]") {
  const std::string text = supply("leaves", "20 leaf-bag") + supply("clippings", "15 bucket") +
                           "[[load]]\ndate = 2026-11-07\nfeedstock = \"leaves\"\namount = \"2 bucket\"\n[pile]\nlength = \"4 ft\"\nwidth = "
                           "\"4 ft\"\nheight = \"4 ft\"\nbuilt = ";
  const Yard filled = yards::yard(text + "2026-10-01\n");
  const Recipe recipe = first_recipe(filled, *filled.pile->built).result;
  REQUIRE(recipe.batch.portions.size() == 2);
  const std::vector<Load> all = all_loads_of(filled);
  REQUIRE(all.size() == recipe.batch.portions.size() + 1);
  CHECK(all[0].date == *filled.pile->built);
  CHECK(all[1].date == *filled.pile->built);
  CHECK(all[0].water == recipe.batch.added_water);
  CHECK(all[1].water == WaterMass());
  CHECK(all.back().date == filled.loads.front().date);

  // Begun with its load, it has nothing else in it.
  CHECK(all_loads_of(yards::yard(text + "2026-11-07\n")).size() == 1);
}
