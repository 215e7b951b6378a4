#include "heapwright/mix/estimate.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "heapwright/input/document.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::numbers::pi;
constexpr double most_counted = 1000.0;

/// How far a figure may be off, times itself.
struct TimesOff {
  double low = 1.0;
  double high = 1.0;
};

template <class Quantity>
TimesOff spread_of(const PublishedValue<Quantity>& reading, double power = 1.0) {
  return {std::pow(*reading.low / *reading.typical, power), std::pow(*reading.high / *reading.typical, power)};
}

TimesOff together(TimesOff a, TimesOff b) {
  const auto joined = [](double x, double y) { return std::hypot(std::log(x), std::log(y)); };
  return {std::exp(-joined(a.low, b.low)), std::exp(joined(a.high, b.high))};
}

template <class Quantity>
std::string evidence_of(const Materials& materials, const PublishedValue<Quantity>& reading) {
  return source_words(materials, reading.source, reading.evidence);
}

std::string counted(double count, const std::string& one, const std::string& many) {
  return print_number(count, 3) + " " + (count == 1.0 ? one : many);
}

RoughAmount amount_of(const Trees& trees, MoistureWetBasis moisture, const Materials& materials) {
  const PublishedValue<DryMassPerArea>& fall = materials.rough->leaf_fall.front();
  const PublishedValue<Length>& usual = materials.rough->canopy_width.front();
  const Length width = trees.canopy_width.value_or(*usual.typical);
  const Area canopy = trees.count * pi / 4.0 * width * width;
  const TimesOff spread = trees.canopy_width ? spread_of(fall) : together(spread_of(fall), spread_of(usual, 2.0));
  const std::string crowns = trees.canopy_width ? ", crowns " + print_in(width, "ft", 2) + " wide" : "";
  return {trees,       as_is_mass_of(DryMass(canopy * *fall.typical), moisture), spread.low,
          spread.high, counted(trees.count, "tree", "trees") + crowns,           evidence_of(materials, fall)};
}

RoughAmount amount_of(const People& people, MoistureWetBasis, const Materials& materials) {
  const PublishedValue<Mass>& scraps = materials.rough->scraps.front();
  const TimesOff spread = spread_of(scraps);
  return {people,      Mass(people.count * *scraps.typical),      spread.low,
          spread.high, counted(people.count, "person", "people"), evidence_of(materials, scraps)};
}

RoughAmount amount_of(const MownLawn& lawn, MoistureWetBasis, const Materials& materials) {
  const PublishedValue<MassPerArea>& clippings = materials.rough->clippings.front();
  const TimesOff spread = spread_of(clippings);
  return {lawn,        Mass(lawn.area * *clippings.typical),    spread.low,
          spread.high, print_in(lawn.area, "ft2", 3) + " mown", evidence_of(materials, clippings)};
}

RoughAmount amount_of(const LoosePile& pile, MoistureWetBasis, const Materials&) {
  const TimesOff shape{(pi / 12.0) / (pi / 8.0), (pi / 6.0) / (pi / 8.0)};
  const TimesOff spread = together(shape, spread_of(pile.height));
  return {pile,          Volume(pi / 8.0 * pile.length * pile.width * *pile.height.typical), spread.low, spread.high, "a pile of that size",
          "judged by us"};
}

double read_count(Table& table, std::string_view key) {
  const double count = table.number(key).value_or(1.0);
  if (count > 0.0 && count <= most_counted) return count;
  table.problem_at(key, "a count is above 0 and at most 1000", "write " + std::string(key) + " = 3");
  return 1.0;
}

std::optional<LoosePile> read_pile_size(Table& table, const RoughKnowledge& rough) {
  const std::vector<Value> sizes = table.list("pile");
  const std::string example = "write pile = [\"6 ft\", \"4 ft\", \"knee-high\"]: length, width, height";
  if (sizes.size() != 3) {
    table.problem_at("pile", "a pile has a length, a width and a height", example);
    return std::nullopt;
  }
  const auto length = sizes[0].read(read_length);
  const auto width = sizes[1].read(read_length);
  const auto height = sizes[2].read([&](std::string_view text) { return read_height(text, rough); });
  if (!length || !width || !height) return std::nullopt;
  if (is_positive(*length) && is_positive(*width) && is_positive(*height->typical)) return LoosePile{*length, *width, *height};
  table.problem_at("pile", "a pile has a size", example);
  return std::nullopt;
}

void refuse_unless(bool suits, Table& table, std::string_view key, const std::string& what, const std::string& hint) {
  if (!suits) table.problem_at(key, what, hint);
}

}  // namespace

std::optional<Estimate> read_estimate(Table& supply, const Feedstock& feedstock, const RoughKnowledge& rough) {
  std::optional<Table> table = supply.table("estimate");
  if (!table) return std::nullopt;
  table->renamed("heap", "is called pile", "write { pile = [\"6 ft\", \"4 ft\", \"knee-high\"] }");
  std::optional<Estimate> estimate;
  int kinds = 0;
  for (const char* kind : {"trees", "people", "mown_lawn", "pile"}) kinds += table->find(kind) ? 1 : 0;
  if (kinds != 1)
    table->problem("says how much in one way",
                   "write { trees = 3, canopy_width = \"30 ft\" }, { people = 3 }, { mown_lawn = \"5000 ft2\" } or { pile = [\"6 ft\", \"4 "
                   "ft\", \"knee-high\"] }");
  const auto canopy_width = table->read("canopy_width", read_length);
  if (canopy_width && !is_positive(*canopy_width)) table->problem_at("canopy_width", "a crown has a width", "write \"30 ft\"");
  if (table->has("canopy_width") && !table->has("trees"))
    table->problem_at("canopy_width", "is of trees", "write { trees = 3, canopy_width = \"30 ft\" }");
  if (table->has("trees")) {
    refuse_unless(feedstock.has_tag("leaves"), *table, "trees", "trees drop leaves, not " + feedstock.name,
                  "write feedstock = \"leaves-fall\"");
    estimate = Trees{read_count(*table, "trees"), canopy_width};
  }
  if (table->has("people")) {
    refuse_unless(feedstock.has_tag("scraps"), *table, "people", "people are counted for their kitchen scraps, not for " + feedstock.name,
                  "write feedstock = \"kitchen-scraps\"");
    estimate = People{read_count(*table, "people")};
  }
  if (table->has("mown_lawn")) {
    refuse_unless(feedstock.feedstock_class == FeedstockClass::clippings, *table, "mown_lawn",
                  "a mown lawn gives clippings, not " + feedstock.name, "write feedstock = \"grass-clippings\"");
    const auto area = table->read("mown_lawn", read_area);
    if (area && !is_positive(*area)) table->problem_at("mown_lawn", "a lawn has an area", "write \"5000 ft2\"");
    if (area) estimate = MownLawn{*area};
  }
  if (table->has("pile")) {
    if (const auto pile = read_pile_size(*table, rough)) estimate = *pile;
  }
  table->finish();
  return estimate;
}

RoughAmount rough_amount_of(const Estimate& estimate, MoistureWetBasis moisture, const Materials& materials) {
  return std::visit([&](const auto& kind) { return amount_of(kind, moisture, materials); }, estimate);
}

}  // namespace heapwright
