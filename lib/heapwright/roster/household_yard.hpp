#pragma once
/// The yard of a household of a roster.

#include <string>
#include <vector>

#include "heapwright/roster/roster.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// "Household 7"; "Household 7, Ann Example" where names are wanted and there is one.
std::string title_of(const Household& household, bool with_name);

/// The yard that a household's answers describe. @throws InputError where they cannot be one: more leaves than anything weighs
Yard yard_of(const Household& household, const Tables& tables, Date today);

/// What stands for all that a handout is made of: the same for the same, and another for anything else (a UUID of version 5, RFC 4122).
/// @param title as the handout has it
/// @param others the texts of the files, the day, the version of the program
std::string made_of(const Household& household, const std::string& title, const std::vector<std::string>& others);

}  // namespace heapwright
