#pragma once
/// What stands on an order sheet beside its figures: materials/order_sheet.toml.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/lawn/lawn.hpp"
#include "heapwright/materials/published_value.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;
enum class Grass;

/// Where on the sheet a line stands.
enum class SheetPart {
  access,  ///< of the truck
  ask,     ///< the supplier
  look,    ///< before the truck tips, or it is loaded
  fetch,   ///< what one hauls oneself
  before,  ///< the work
  work,
};

/// A row of order_sheet.toml.
struct SheetLine {
  std::string id;
  SheetPart part = SheetPart::access;
  std::string text;
  std::optional<Surface> surface;  ///< only of this ground
  std::string source;
  Evidence evidence = Evidence::judged;
};

/// What a lawn is sown with.
struct SeedRate {
  std::string id;
  std::string name;
  Grass grass{};
  Surface surface = Surface::lawn;   ///< to thicken a living lawn, or to make one
  PublishedValue<MassPerArea> rate;  ///< its low and high
};

/// All of that table.
struct SheetLines {
  std::vector<SheetLine> lines;
  std::vector<SeedRate> seeds;
};

/// Reads the rows of order_sheet.toml onto those that are there.
void read_sheet_lines(Table& root, SheetLines& lines);
/// The table that comes with the program.
SheetLines built_in_sheet_lines();

}  // namespace heapwright
