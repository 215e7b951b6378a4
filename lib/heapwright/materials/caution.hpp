#pragma once
/// Warnings, and the facts of a yard that call for them.

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/materials/published_value.hpp"

namespace heapwright {

/// What may be true of a yard and calls for a caution.
enum class Fact {
  // of what goes into the pile; words of these are tags of feedstocks
  dusty,
  moldy,
  scraps,
  fruit,
  manure,
  herbicide,  ///< clippings, hay, straw, manure not known to be untreated
  sharp_nitrogen,
  printed,
  thorny,
  soil,
  grassy,
  leaves,
  weedy,     ///< weeds, spent garden plants
  juglone,   ///< black walnut
  salty,     ///< seaweed, spent mushroom compost
  shredded,  ///< mown over or chopped on the spot
  // of what stays out
  treated,  ///< treated with a weedkiller, or nobody knows
  // of the pile
  pile,
  tall_pile,
  big_dry_pile,
  cold_season,
  stored_browns,
  from_elsewhere,
  heavy_containers,
  turning,
  // of what was seen
  readings,
  hot,
  smoke,
  rats,  ///< or mice
  // of the lawn
  topdressing,
  living_lawn,
  near_water,
  phosphorus_high,
  own_compost_on_lawn,
  bought_compost,
  new_ground,
};

/// What is true of a yard.
using Facts = std::set<Fact>;

/// Whether a fact is one of what goes into the pile, whose word is a tag of feedstocks.
bool is_tag(Fact fact);

/// Each fact with its word in the tables.
const std::vector<std::pair<std::string, Fact>>& fact_words();

/// A warning. The order of the table is the order of importance.
struct Caution {
  std::string id;
  std::string text;
  std::string in_short;    ///< a few words, for a screen of twenty lines
  bool harms = false;      ///< what it warns of may burn, poison or infect, so that it is never left out for want of room
  std::vector<Fact> when;  ///< any of these facts calls for it
  bool first = false;      ///< stands above the answer too: it cannot wait
  std::string step;        ///< the step of the work at which it is shown: gather, build, turn, use
  std::string source;
  Evidence evidence = Evidence::judged;
};

/// The ids of the cautions that some facts call for, the most important first.
std::vector<std::string> cautions_for(const std::vector<Caution>& cautions, const Facts& facts);

/// Each id once, in the order of the table, which is the order of importance.
std::vector<std::string> in_order(const std::vector<std::string>& ids, const std::vector<Caution>& cautions);

}  // namespace heapwright
