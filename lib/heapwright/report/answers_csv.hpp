#pragma once
/// The answers of a class as a table for a spreadsheet.

#include <string>

#include "heapwright/roster/roster.hpp"

namespace heapwright {

/// A line a household, as CSV (RFC 4180): each answer as it was typed and, beside it, as it was understood; what was assumed. A field that
/// a spreadsheet would take for a formula has an apostrophe before it. The file begins with headings of ours.
std::string csv_of_answers(const Roster& roster, const std::vector<Question>& questions, bool with_names);

/// Whether a text begins as csv_of_answers() does.
bool are_answers_of_ours(std::string_view text, const std::vector<Question>& questions);

}  // namespace heapwright
