// Supplies: what is on hand on a day, weighing, drying, shredding.

#include "heapwright/mix/supply.hpp"

#include <catch2/catch.hpp>

#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using namespace std::chrono;
using Catch::Matchers::WithinRel;

namespace {

Supply read(const std::string& lines) { return read_yard_text("[[supply]]\n" + lines, "yard.toml", built_in_tables()).supplies.at(0); }

double litres_on_hand(const Supply& supply, Date built) { return 1000.0 * volume_of(*on_hand(supply, built))->value(); }

constexpr Date november_7{year(2026), month(11), day(7)};

}  // namespace

TEST_CASE("a supply without a season is on hand, all of it") {
  CHECK_THAT(litres_on_hand(read("feedstock = \"leaves\"\namount = \"120 L\"\n"), november_7), WithinRel(120.0, 1e-12));
}

TEST_CASE("a season's total is shared evenly over its days") {
  // 61 days of October and November; storable, so the twelve months before the 7th of November hold all 31 + 30 of them once.
  const Supply leaves = read("feedstock = \"leaves\"\namount = \"610 L\"\nwhen = { months = [\"Oct\", \"Nov\"] }\nstorable = true\n");
  CHECK_THAT(litres_on_hand(leaves, november_7), WithinRel(610.0, 1e-12));
  // Fresh, two weeks: 7 days of October and 7 of November at 10 L a day.
  const Supply fresh = read("feedstock = \"leaves\"\namount = \"610 L\"\nwhen = { months = [\"Oct\", \"Nov\"] }\nstorable = false\n");
  CHECK_THAT(litres_on_hand(fresh, november_7), WithinRel(140.0, 1e-12));
}

TEST_CASE("fresh things come in loads, and no more than keeps") {
  const Supply clippings =
      read("feedstock = \"clippings\"\namount = \"70 L\"\nwhen = { every = \"week\", from = \"Apr\", to = \"Oct\" }\n");
  CHECK_THAT(litres_on_hand(clippings, Date{year(2026), month(10), day(24)}), WithinRel(70.0, 1e-12));  // the last mowing
  CHECK_THAT(litres_on_hand(clippings, Date{year(2026), month(11), day(2)}), WithinRel(70.0, 1e-12));   // of 31 October, the third day
  CHECK(litres_on_hand(clippings, Date{year(2026), month(11), day(3)}) == 0.0);
  CHECK_THAT(litres_on_hand(clippings, Date{year(2026), month(4), day(1)}), WithinRel(70.0, 1e-12));  // that day's mowing
  CHECK(litres_on_hand(clippings, Date{year(2026), month(2), day(1)}) == 0.0);

  // Scraps keep two weeks: two loads, of a season that is in its ninth day what nine days brought, and its first load whole.
  const Supply scraps = read("feedstock = \"scraps\"\namount = \"70 L\"\nwhen = { every = \"week\", from = \"Nov\", to = \"Feb\" }\n");
  CHECK_THAT(litres_on_hand(scraps, Date{year(2027), month(1), day(31)}), WithinRel(140.0, 1e-12));
  CHECK_THAT(litres_on_hand(scraps, Date{year(2026), month(11), day(9)}), WithinRel(90.0, 1e-12));
  CHECK_THAT(litres_on_hand(scraps, Date{year(2026), month(11), day(2)}), WithinRel(70.0, 1e-12));
  CHECK_THAT(litres_on_hand(scraps, Date{year(2026), month(11), day(1)}), WithinRel(70.0, 1e-12));
  CHECK(litres_on_hand(scraps, Date{year(2026), month(10), day(31)}) == 0.0);

  CHECK_THAT(volume_of(*load_of(scraps))->value(), WithinRel(0.070, 1e-12));
  CHECK(comes_on(scraps, november_7));
  CHECK_FALSE(comes_on(clippings, november_7));
  CHECK(season_of(clippings)->months.front() == April);
  CHECK(season_of(clippings)->is_one_run());
  CHECK(season_of(scraps)->months.front() == November);
  CHECK(season_of(scraps)->months.back() == February);
  CHECK(season_of(scraps)->is_one_run());
  CHECK_FALSE(season_of(read("feedstock = \"scraps\"\namount = \"70 L\"\nwhen = { months = [\"Oct\", \"Apr\"] }\n"))->is_one_run());
  CHECK_FALSE(season_of(read("feedstock = \"scraps\"\namount = \"70 L\"\nwhen = { every = \"week\" }\n")));
}

TEST_CASE("how long a fresh one keeps is judged, row by row, and a user's own row may say") {
  const double day = 86400.0;
  const Materials materials = built_in_materials();
  CHECK(find_feedstock(materials, "grass-clippings").used_keeps().value() == 3.0 * day);
  CHECK(find_feedstock(materials, "kitchen-scraps").used_keeps().value() == 14.0 * day);
  CHECK(find_feedstock(materials, "coffee-grounds").used_keeps().value() == 14.0 * day);
  Feedstock told;
  told.feedstock_class = FeedstockClass::clippings;
  told.keeps.emplace_back().typical = 5.0 * day * unit::s;
  CHECK(told.used_keeps().value() == 5.0 * day);
  Feedstock own;
  own.feedstock_class = FeedstockClass::clippings;
  CHECK(own.used_keeps().value() == 3.0 * day);
}

TEST_CASE("29 February has a day a year before it") {
  const Supply leaves = read("feedstock = \"leaves\"\namount = \"610 L\"\nwhen = { months = [\"Oct\", \"Nov\"] }\nstorable = true\n");
  CHECK_THAT(litres_on_hand(leaves, Date{year(2028), month(2), day(29)}), WithinRel(610.0, 1e-12));
}

TEST_CASE("shredded leaves weigh the same and take less room") {
  const Supply whole = read("feedstock = \"leaves\"\npacking = \"loose\"\namount = \"120 L\"\n");
  const Supply shredded = read("feedstock = \"leaves\"\npacking = \"loose\"\namount = \"120 L\"\nshredded = true\n");
  CHECK(whole.mass(*whole.amount)->value() == shredded.mass(*shredded.amount)->value());
  CHECK(*shredded.density() > *whole.density());
}

TEST_CASE("what is in a container weighs as it lies in that") {
  // A catcher of 2 ft3 holds 2/27 yd3 of clippings at 550 lb/yd3, of leaves cut by the blade at 300; a bucket of 5 gal of them loose.
  const auto pounds = [](const std::string& lines) {
    const Supply supply = read(lines);
    return *supply.mass(*supply.amount) / unit::pound;
  };
  CHECK_THAT(pounds("feedstock = \"clippings\"\namount = \"1 grass-catcher\"\n"), WithinRel(550.0 * 2.0 / 27.0, 1e-9));
  CHECK_THAT(pounds("feedstock = \"leaves\"\namount = \"1 grass-catcher\"\n"), WithinRel(300.0 * 2.0 / 27.0, 1e-9));
  CHECK_THAT(pounds("feedstock = \"clippings:loose\"\namount = \"1 grass-catcher\"\n"), WithinRel(350.0 * 2.0 / 27.0, 1e-9));
  CHECK_THAT(pounds("feedstock = \"clippings\"\namount = \"2 ft3\"\n"), WithinRel(350.0 * 2.0 / 27.0, 1e-9));
}

TEST_CASE("what is bought by the bale weighs as a bale does, though it is counted in buckets") {
  const Supply straw = read("feedstock = \"straw\"\namount = \"9 bucket\"\nbought = true\nprice = 8\nunit = \"1 straw-bale\"\n");
  CHECK(straw.packing_as_counted() == "loose");
  CHECK_THAT(*straw.mass(*straw.priced_amount) / unit::pound, WithinRel(230.0 * 5.25 / 27.0, 1e-9));
}

TEST_CASE("leaves, clippings and the rest are found by the names people use") {
  const auto [name, id] = GENERATE(table<std::string, std::string>({{"leaves", "leaves-fall"},
                                                                    {"Fall Leaves", "leaves-fall"},
                                                                    {"grass", "grass-clippings"},
                                                                    {"clippings", "grass-clippings"},
                                                                    {"coffee", "coffee-grounds"},
                                                                    {"horse bedding", "horse-bedding"},
                                                                    {"food scraps", "kitchen-scraps"},
                                                                    {"straw", "straw"}}));
  CHECK(find_feedstock(built_in_materials(), name).id == id);
}

TEST_CASE("two supplies of one feedstock are told apart", "[supply]") {
  const auto names = [](const std::string& supplies) {
    std::vector<std::string> found;
    for (const Supply& supply : read_yard_text(supplies, "yard.toml", built_in_tables()).supplies) found.push_back(supply.name());
    return found;
  };
  using Names = std::vector<std::string>;
  const std::string leaves = "[[supply]]\nfeedstock = \"leaves\"\namount = \"6 bags\"\n";
  const std::string straw = "[[supply]]\nfeedstock = \"straw\"\namount = \"1 bale\"\n";
  CHECK(names(leaves + straw) == Names{"autumn leaves", "straw"});
  CHECK(names(leaves + leaves + "shredded = true\n" + straw) == Names{"autumn leaves", "autumn leaves (shredded)", "straw"});
  CHECK(names(leaves + straw + leaves) == Names{"autumn leaves (first)", "straw", "autumn leaves (second)"});
  CHECK(names(leaves + "shredded = true\n" + leaves + "shredded = true\n" + leaves) ==
        Names{"autumn leaves (first)", "autumn leaves (second)", "autumn leaves (third)"});
}
