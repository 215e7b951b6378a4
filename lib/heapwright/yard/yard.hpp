#pragma once
/// The yard file: one TOML file about one yard, of which every command reads the part it needs.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/lawn/jobs.hpp"
#include "heapwright/lawn/lawn.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/maturity/observations.hpp"
#include "heapwright/mix/load.hpp"
#include "heapwright/mix/supply.hpp"
#include "heapwright/mix/targets.hpp"
#include "heapwright/pile/description.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/recipe/options.hpp"
#include "heapwright/tables/tables.hpp"
#include "heapwright/units/shown_units.hpp"

namespace heapwright {

/// Who hands a plan out, as it stands on the handout.
struct Office {
  std::string name;
  std::vector<std::string> lines;       ///< address, telephone, hours
  std::vector<std::string> statements;  ///< that the office has to print
  std::string prepared_by;
  std::string version;  ///< of the office's own forms
};

/// What a yard file says, typed, with the tables it was read with.
struct Yard {
  std::string title;
  ShownUnits units = ShownUnits::us;
  Tables tables = built_in_tables();  ///< with the yard's own containers
  Targets targets;
  RecipeOptions options;
  std::vector<Supply> supplies;
  std::vector<Load> loads;  ///< what went into the pile, the earliest first
  std::optional<ClimateDescription> climate;
  std::optional<PileDescription> pile;
  Observations observations;
  std::optional<Lawn> lawn;  ///< none where the file measures none
  std::vector<Job> jobs;     ///< of its zones; none where they are one
  TopdressingPlan topdressing;
  std::optional<Site> site;  ///< of the drop; jobs have their own
  std::optional<Office> office;
  std::vector<std::string> files;  ///< that it names: of weather, of maps

  /// The day the pile is built: the file's, else that of the first load; without either the given day.
  Date built_or(Date today) const {
    if (pile && pile->built) return *pile->built;
    return loads.empty() ? today : loads.front().date;
  }
};

/// Reads a yard file with some tables. @param base another, of which it takes office, units, climate, pile, containers, targets, recipe and
/// topdressing where its own say nothing; empty: none. @throws InputError with all that is wrong with it
Yard read_yard(const std::string& path, Tables tables = built_in_tables(), const std::string& base = {});
/// The same of a text. @param name what positions call it
Yard read_yard_text(const std::string& text, const std::string& name, Tables tables = built_in_tables(), const std::string& base = {});
/// A yard file as it will be with another text: other files that it names are read from its folder. @throws InputError
Yard read_yard_to_be(const std::string& text, const std::string& path, Tables tables = built_in_tables(), const std::string& base = {});

}  // namespace heapwright
