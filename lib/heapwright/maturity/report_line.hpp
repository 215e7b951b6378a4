#pragma once
/// Lines of laboratory reports that rate nothing: what they are (materials/report_lines.toml), and how they are kept.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/maturity/criteria.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

class Table;

/// What a line tells, and so in which units.
enum class LineQuantity {
  content,       ///< "24 mg/kg", "0.5 %", "24 ppm"
  share,         ///< "86 %"
  microbes,      ///< "388 MPN/g"
  bulk_density,  ///< "1474 lb/yd3"
  size,          ///< "10 mm"
  words,         ///< "very stable"
};

/// What somebody asks of what a line tells.
struct LineLimit {
  Bound bound;
  std::string written;  ///< the bound as its source writes it
  Provenance whose;
  std::string beyond;    ///< what to do where it is not met
  std::string for_whom;  ///< whom it is for
};

/// A line that laboratories print beside tests. It rates nothing.
struct ReportLine {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  std::vector<std::string> words;  ///< single words that give it away, wherever they stand in a name
  LineQuantity quantity = LineQuantity::words;
  std::string what;
  std::optional<LineLimit> limit;  ///< none at hand
  bool may_harm = false;           ///< metals and germs: where no limit is at hand, somebody is to be asked
  Provenance whose;                ///< in whose report such a line was seen
};

/// All of report_lines.toml.
struct ReportLines {
  std::vector<ReportLine> lines;
  std::vector<std::string> in_place_of_a_figure;  ///< "very stable", "not detected"

  /// A line by its id, its name, what else it is called or a word of it; "Lead (Pb)" and "lead, total" are lead. Nothing where none is
  /// meant.
  const ReportLine* find(std::string_view name) const;
  /// Whether a text is one of the words that stand in place of a figure.
  bool is_in_place_of_a_figure(std::string_view text) const;
};

/// Reads the tables of report_lines.toml onto those that are there.
void read_report_lines(Table& root, ReportLines& lines);
/// The table that comes with the program.
ReportLines built_in_report_lines();

/// A figure of a report in the unit that it is told in.
struct ReportFigure {
  double number = 0.0;
  std::string unit;
  std::optional<Bound::Side> told;  ///< the side of the number that it lies on, where no more is told
};

/// A line of a report, kept as it is written.
struct ReportedLine {
  std::string name;                    ///< as written
  std::string line;                    ///< id of a ReportLine; empty where none is known
  std::string test;                    ///< id of the test that it would be if it had a figure; else empty
  std::string written;                 ///< its value, as written
  std::optional<ReportFigure> figure;  ///< none of words, of units that the line is not told in, and of lines that nobody knows
  std::optional<Date> date{};
};

/// @param line nothing of a line that nobody knows
/// @throws TextError for an empty text, for one of several lines and for a number out of range
ReportedLine reported_line(std::string name, const ReportLine* line, std::string_view value);

/// How a line stands.
enum class LineStanding {
  no_limit,        ///< we have none at hand
  within_limit,    ///< all that it may be
  beyond_limit,    ///< likewise
  not_comparable,  ///< with its limit: words, another unit, or a bound that does not say
  other_unit,      ///< than such a line is told in
  no_figure,       ///< of a test, which rates figures
  not_known,       ///< to us
};

/// "within limit".
std::string_view standing_word(LineStanding standing);

/// A line of a report, held against its limit.
struct StandingLine {
  ReportedLine reported;
  const ReportLine* line = nullptr;  ///< none of a test, nor where none is known
  LineStanding standing = LineStanding::not_known;
  std::string may_be{};    ///< the line that one nobody knows may be misspelt for
  bool ask_about = false;  ///< it may harm, some may be in it, and it is held against no limit
};
/// In the order of the report. @param lines must outlive the result
std::vector<StandingLine> standing_lines(const std::vector<ReportedLine>& reported, const ReportLines& lines);

}  // namespace heapwright
