#include "heapwright/input/csv.hpp"

#include <algorithm>

#include "heapwright/input/file.hpp"

namespace heapwright {
namespace {

// A file that is no CSV would else be a problem a line.
constexpr int most_flaws = 100;
constexpr int most_misread_fields = 1000;

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r'; }

std::string_view without_spaces_after(std::string_view text) {
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

int newlines_in(std::string_view text) { return static_cast<int>(std::count(text.begin(), text.end(), '\n')); }

/// The line at a place, without its end.
std::string_view line_at(std::string_view text, std::size_t at) { return text.substr(at, text.find('\n', at) - at); }

/// What parts the fields, by the row of names.
char separator_of(std::string_view text) {
  for (std::size_t at = 0; at < text.size(); at += line_at(text, at).size() + 1) {
    const std::string_view line = line_at(text, at);
    if (line.starts_with('#') || line.find_first_not_of(" \t\r,;") == std::string_view::npos) continue;
    const bool only_semicolons = line.find(';') != std::string_view::npos && line.find(',') == std::string_view::npos;
    return only_semicolons ? ';' : ',';
  }
  return ',';
}

std::string count_of_fields(std::size_t count) { return std::to_string(count) + (count == 1 ? " field" : " fields"); }

}  // namespace

Csv Csv::from_file(const std::string& path, Problems& problems) {
  return Csv(contents_of(path, {largest_file, ".csv", "leave out the columns that are not used, or make a file a year"}), path, problems);
}

Csv::Csv(std::string text, std::string name, Problems& problems)
    : text_(without_byte_order_mark(std::move(text))), name_(std::move(name)), separator_(separator_of(text_)), problems_(&problems) {
  take_header();
}

void Csv::take_header() {
  if (!take_row()) {
    ++flaws_;
    problem_of_file("the file has no rows", "begin with a row of the columns' names");
    return;
  }
  header_start_ = row_start_;
  if (row_.size() > most_columns) flaw(row_.back().offset, "the file has more than 1000 columns", "leave out those that are not used");
  for (const Field& field : row_) {
    if (field.text.size() > longest_text)
      flaw(field.offset, "a column's name is longer than " + std::to_string(longest_text) + " bytes", "give it a shorter one");
    header_.emplace_back(field.text);
    header_offsets_.push_back(field.offset);
  }
}

bool Csv::next() {
  while (flaws_ < most_flaws && misread_fields_ < most_misread_fields) {
    const int before = flaws_;
    if (!take_row()) return false;
    ++rows_;
    if (flaws_ > before) continue;
    if (row_.size() == header_.size()) return true;
    flaw(row_.front().offset, "the row has " + count_of_fields(row_.size()) + " where the header has " + std::to_string(header_.size()),
         "give each row a field for each column; a field with a comma in it stands in quotation marks");
  }
  problems_->break_off();
  return false;
}

bool Csv::take_row() {
  while (!done()) {
    row_start_ = {at_, line_};
    if (peek() == '#') {
      skip_line();
      continue;
    }
    take_fields();
    if (std::any_of(row_.begin(), row_.end(), [](const Field& field) { return !field.text.empty(); })) return true;
  }
  return false;
}

void Csv::take_fields() {
  row_.clear();
  unescaped_.clear();
  for (;;) {
    Field field = take_field();
    if (row_.size() <= most_columns) row_.push_back(field);
    if (peek() != separator_) break;
    ++at_;
  }
  skip_line();
}

/// To the beginning of the next line, over what is left of this one.
void Csv::skip_line() {
  const std::size_t end = text_.find('\n', at_);
  if (end != std::string::npos) ++line_;
  at_ = end == std::string::npos ? text_.size() : end + 1;
}

void Csv::skip_spaces() {
  while (is_space(peek())) ++at_;
}

Csv::Field Csv::take_field() {
  skip_spaces();
  return peek() == '"' ? take_quoted() : take_plain();
}

Csv::Field Csv::take_plain() {
  const std::size_t begin = at_;
  while (!done() && text_[at_] != separator_ && text_[at_] != '\n') ++at_;
  return {without_spaces_after(std::string_view(text_).substr(begin, at_ - begin)), begin};
}

/// A quotation mark ends the field unless it is doubled; commas and ends of lines are of the field.
Csv::Field Csv::take_quoted() {
  const std::size_t opened = at_++;
  const std::size_t begin = at_;
  bool doubled = false;
  std::size_t close = text_.find('"', at_);
  while (close != std::string::npos && close + 1 < text_.size() && text_[close + 1] == '"') {
    doubled = true;
    close = text_.find('"', close + 2);
  }
  if (close == std::string::npos) {
    at_ = text_.size();
    cut_off_ = true;
    flaw(opened, "a quotation mark is opened here and never closed", "close it; one inside a quoted field is written twice");
    return {{}, opened};
  }
  const std::string_view inside = std::string_view(text_).substr(begin, close - begin);
  line_ += newlines_in(inside);
  at_ = close + 1;
  skip_spaces();
  if (!done() && peek() != separator_ && peek() != '\n') {
    flaw(at_, "text stands behind a quoted field", "a comma parts fields; a quotation mark inside a quoted field is written twice");
    take_plain();
  }
  return {doubled ? undoubled(inside) : inside, opened};
}

std::string Csv::with_decimal_point(std::string_view number) const {
  std::string text(number);
  const std::size_t comma = text.find(',');
  const bool is_decimal =
      separator_ == ';' && comma != std::string::npos && comma == text.rfind(',') && text.find('.') == std::string::npos;
  if (is_decimal) text[comma] = '.';
  return text;
}

std::string_view Csv::undoubled(std::string_view text) {
  std::string& own = unescaped_.emplace_back();
  for (std::size_t i = 0; i < text.size(); ++i) {
    own += text[i];
    if (text[i] == '"') ++i;
  }
  return own;
}

/// Columns count characters, not bytes, as an editor does.
Position Csv::place(std::size_t offset, Start start) const {
  const std::string_view before = std::string_view(text_).substr(start.offset, offset - start.offset);
  const std::size_t newline = before.rfind('\n');
  const std::size_t line_begin = newline == std::string_view::npos ? start.offset : start.offset + newline + 1;
  const std::string_view up_to = std::string_view(text_).substr(line_begin, offset - line_begin);
  const auto characters = std::count_if(up_to.begin(), up_to.end(), [](char c) { return !is_continuation_byte(c); });
  const std::size_t line_end = std::min(text_.find('\n', line_begin), text_.size());
  std::string line;
  if (line_end - line_begin <= longest_line_shown)
    line = without_spaces_after(std::string_view(text_).substr(line_begin, line_end - line_begin));
  return {name_, start.line + newlines_in(before), static_cast<int>(characters) + 1, std::move(line)};
}

void Csv::check_length(std::size_t column) const {
  if (text(column).size() > longest_text)
    throw TextError("is longer than " + std::to_string(longest_text) + " bytes", "write it in fewer words");
}

void Csv::flaw(std::size_t offset, std::string what, std::string hint) {
  ++flaws_;
  problem_at(place(offset, row_start_), {}, std::move(what), std::move(hint));
}

void Csv::problem(std::size_t column, std::string what, std::string hint) {
  ++misread_fields_;
  problem_at(position(column), header_[column], std::move(what), std::move(hint));
}

void Csv::problem_of_header(std::string what, std::string hint) {
  problem_at(place(header_offsets_.front(), header_start_), {}, std::move(what), std::move(hint));
}

void Csv::problem_of_column(std::size_t column, std::string what, std::string hint) {
  problem_at(place(header_offsets_[column], header_start_), header_[column], std::move(what), std::move(hint));
}

void Csv::problem_of_file(std::string what, std::string hint) { problem_at({name_, 0, 0, {}}, {}, std::move(what), std::move(hint)); }

void Csv::problem_at(Position where, std::string key, std::string what, std::string hint) {
  problems_->add({std::move(where), std::move(key), std::move(what), std::move(hint)});
}

}  // namespace heapwright
