#pragma once
/// CSV files (RFC 4180) with positions: a header row, then row after row, every problem gathered.
///
/// Beyond the RFC, as programs and people write them: fields may be parted by semicolons, as spreadsheets do where a comma is the decimal
/// sign, and are where the row of names has semicolons and no comma; rows may end in a line feed alone, blank lines (of commas too) and
/// lines that begin with # are passed over, a byte-order mark is, and so are spaces around a field, outside its quotation marks.

#include <cstddef>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include "heapwright/input/limits.hpp"
#include "heapwright/input/problems.hpp"

namespace heapwright {

/// Reads a file row by row in one pass. The text is kept, and fields are views into it; it does not move for that reason.
///
///     Csv csv = Csv::from_file("log.csv", problems);
///     while (csv.next()) csv.text(0);
class Csv {
 public:
  /// Most bytes that a file may have: some years of hourly readings by several probes.
  static constexpr std::size_t largest_file = 1U << 24U;
  static constexpr std::size_t most_columns = 1000;

  /// @throws InputError when the file cannot be read or is too large
  static Csv from_file(const std::string& path, Problems& problems);
  /// @param name what positions call it
  Csv(std::string text, std::string name, Problems& problems);

  Csv(const Csv&) = delete;
  Csv& operator=(const Csv&) = delete;

  /// The names of the columns; none, and a problem, where there is no row at all.
  const std::vector<std::string>& header() const { return header_; }

  /// Goes to the next row that has as many fields as the header. Others are problems, and passed over. After a hundred of them,
  /// or a thousand fields that could not be read, the rest of the file is not read.
  bool next();

  /// Gives each field of a column to come, of the rows that next() would go to, before they are gone through.
  template <class Each>
  void look_ahead(std::size_t column, Each&& each) {
    Problems untold;
    Problems* const told = std::exchange(problems_, &untold);
    const auto [at, line, flaws, rows] = std::tuple(at_, line_, flaws_, rows_);
    while (next()) each(text(column));
    std::tie(at_, line_, flaws_, rows_) = std::tuple(at, line, flaws, rows);
    problems_ = told;
  }

  /// How many rows below the header it went to or passed over so far; blank ones do not count.
  int rows() const { return rows_; }

  /// A number with a point for its decimal comma, where semicolons part the fields; else as it is.
  std::string with_decimal_point(std::string_view number) const;

  /// A field of the row, without its quotation marks. Valid until the next row. @pre next() said true; column < header().size()
  std::string_view text(std::size_t column) const { return row_[column].text; }

  /// The field through a reader; a TextError becomes a problem of its place.
  template <class Read>
  auto read(std::size_t column, Read&& reader) -> std::optional<std::decay_t<decltype(reader(std::string_view()))>> {
    try {
      check_length(column);
      return reader(text(column));
    } catch (const Error& error) {
      problem(column, error.what(), error.hint());
    }
    return std::nullopt;
  }

  /// Whether part of the file was not read as rows, so that what seems to be missing may stand there.
  bool flawed() const { return flaws_ > 0; }
  /// Whether a quotation mark that is never closed took all rows below it.
  bool cut_off() const { return cut_off_; }

  /// Where a field of the row stands.
  Position position(std::size_t column) const { return place(row_[column].offset, row_start_); }

  /// Of a field of the row.
  void problem(std::size_t column, std::string what, std::string hint = {});
  /// Of the row of names as a whole. @pre there is one
  void problem_of_header(std::string what, std::string hint = {});
  /// Of a column as a whole; it stands at its name.
  void problem_of_column(std::size_t column, std::string what, std::string hint = {});
  /// Of the file as a whole.
  void problem_of_file(std::string what, std::string hint = {});
  /// Of a place of the file.
  void problem_at(Position where, std::string key, std::string what, std::string hint = {});

 private:
  struct Field {
    std::string_view text;
    std::size_t offset;  ///< in the file, of its quotation mark where it has one
  };
  /// A place from which lines are counted on.
  struct Start {
    std::size_t offset = 0;
    int line = 1;
  };

  /// @throws TextError for more than anybody writes into one
  void check_length(std::size_t column) const;
  bool done() const { return at_ >= text_.size(); }
  char peek() const { return done() ? '\0' : text_[at_]; }
  void skip_spaces();
  void skip_line();
  bool take_row();
  void take_fields();
  Field take_field();
  Field take_plain();
  Field take_quoted();
  std::string_view undoubled(std::string_view text);
  void take_header();
  Position place(std::size_t offset, Start start) const;
  void flaw(std::size_t offset, std::string what, std::string hint);

  const std::string text_;
  const std::string name_;
  const char separator_;
  Problems* problems_;
  std::size_t at_ = 0;
  int line_ = 1;
  std::vector<std::string> header_;
  std::vector<std::size_t> header_offsets_;
  Start header_start_;
  std::vector<Field> row_;
  Start row_start_;
  std::deque<std::string> unescaped_;  ///< fields of the row with doubled quotation marks, which are no part of the text as it stands
  int flaws_ = 0;
  int rows_ = 0;
  bool cut_off_ = false;
  int misread_fields_ = 0;
};

}  // namespace heapwright
