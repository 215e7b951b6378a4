#pragma once
/// The headings of a sign-up form, and what a roster calls the same.

#include <string>
#include <utility>
#include <vector>

#include "heapwright/materials/question.hpp"

namespace heapwright {

/// A form's own heading, and the column that it is: "How many people live with you?" and "scraps".
using ColumnNames = std::vector<std::pair<std::string, std::string>>;

/// The columns of a roster: its household's number and name, then the ids of the questions in their order.
std::vector<std::string> roster_columns(const std::vector<Question>& questions);
/// "the columns are household, name, leaves"
std::string roster_columns_in_words(const std::vector<Question>& questions);

/// Reads [columns] of a base file, and nothing else of it. @throws InputError
ColumnNames read_column_names(const std::string& base_file, const std::vector<Question>& questions);

/// Which column a heading means, by a form's own headings first; empty where it is none.
std::string column_meant(const std::string& heading, const ColumnNames& names, const std::vector<Question>& questions);

}  // namespace heapwright
