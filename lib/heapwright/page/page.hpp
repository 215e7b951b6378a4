#pragma once
/// What an answer says: sections of blocks. How they are laid out is for report/ to say.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "heapwright/materials/caution.hpp"
#include "heapwright/page/words.hpp"
#include "heapwright/working/step.hpp"

namespace heapwright {

/// How deep a reader must go to meet a section.
enum class Depth {
  act,     ///< what to do, the figure asked for
  why,     ///< figures, ranges, other ways
  ground,  ///< assumptions with their sources, the working, all cautions
};

/// Sentences of a section, one after another.
struct Paragraph {
  Words words;
};
/// In no order.
struct Bullets {
  std::vector<Words> items;
};
/// In the order of the hands.
struct Numbered {
  std::vector<Words> items;
};
/// Each under a word of its own: "Covers  270 of 4090 sq ft".
struct Labels {
  struct Label {
    std::string name;
    Words words;
  };
  std::vector<Label> labels;
};
struct Grid {
  std::vector<Words> head;               ///< empty: the rows speak for themselves
  std::vector<std::vector<Words>> rows;  ///< a row of one cell heads those below it
};
/// To tick off.
struct Boxes {
  std::vector<Words> items;
};
/// To fill in by hand: each name with what is known of it, or with room to write.
struct Form {
  struct Field {
    Words name;
    Words given;  ///< empty: it is left to write
  };
  std::vector<Field> fields;
};
/// Empty lines of paper, to reckon on.
struct RoomToWrite {
  int lines = 0;
};
/// The ground that a barrow of compost covers.
struct SquareOfGround {
  Length side;
};
/// Compost as a truck leaves it.
struct ConeOnGround {
  Length across;
  Length high;
};
/// As thick as compost is to lie, at its true size on paper.
struct TrueThickness {
  Length depth;
};
struct Drawing {
  std::variant<SquareOfGround, ConeOnGround, TrueThickness> of;
  Words in_words;  ///< for those who cannot see it
};
/// Temperatures over time: of a forecast, with what they may be off by, and as they were measured; of either alone too.
struct Chart {
  std::string title;
  struct Point {
    Date date;
    TemperaturePoint low;
    TemperaturePoint likely;
    TemperaturePoint high;
    std::optional<TemperaturePoint> air;
  };
  std::vector<Point> points;
  struct Reading {
    Date date;
    TemperaturePoint core;
  };
  std::vector<Reading> readings;
  std::vector<Date> turned;
  Words in_words;  ///< for those who cannot see it
};
/// Of several wholes what share each part has.
struct ShareBars {
  std::string title;
  std::vector<std::string> wholes;  ///< "volume", "carbon"
  struct Part {
    std::string name;
    std::vector<double> shares;  ///< from 0 to 1, of each whole
  };
  std::vector<Part> parts;
  Words in_words;
};
/// Volumes side by side, each whole or of parts.
struct Bars {
  std::string title;
  std::vector<std::string> part_names;  ///< empty where there is one part only, or the parts are alike
  struct Bar {
    Words name;
    std::vector<Volume> parts;
    Words says;
  };
  std::vector<Bar> bars;
  Words in_words;
};
/// All mixes of two feedstocks, with the windows in which they work.
struct PairChart {
  std::string title;
  std::string first_name;
  std::string second_name;
  struct Point {
    double share_of_first;  ///< by loose volume
    std::optional<CarbonNitrogenRatio> ratio;
    MoistureWetBasis moisture;
  };
  std::vector<Point> points;
  struct {
    CarbonNitrogenRatio low;
    CarbonNitrogenRatio high;
  } ratio;
  struct {
    MoistureWetBasis low;
    MoistureWetBasis high;
  } moisture;
  Words in_words;
};
/// Warnings. In short they stand in one line; else each with all it says.
struct Warnings {
  std::vector<Caution> cautions;
  bool in_short = false;
};
/// A calculation, step by step.
struct WorkedOut {
  Working working;
};

/// Anything that a section is made of.
using Block = std::variant<Paragraph, Bullets, Numbered, Labels, Grid, Boxes, Form, RoomToWrite, Drawing, Chart, ShareBars, Bars, PairChart,
                           Warnings, WorkedOut>;

/// Blocks under one heading, of one depth.
struct Section {
  Depth depth = Depth::act;
  Words heading;  ///< empty: it goes on from the one before
  std::vector<Block> blocks;
};

/// All that one answer says.
struct Page {
  std::string subject;  ///< what it is about: "Topdressing"
  std::string title;    ///< the person's own, of their yard; may be empty
  std::vector<Section> sections;
};

}  // namespace heapwright
