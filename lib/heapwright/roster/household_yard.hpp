#pragma once
/// The yard of a household of a roster.

#include <string>
#include <vector>

#include "heapwright/roster/roster.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// "Household 7"; "Household 7, Ann Example" where names are wanted and there is one.
std::string title_of(const Household& household, bool with_name);

/// Notes which questions that a household could not answer a base file answers: the climate, and the size of the pile.
void note_base_answers(Roster& roster, const Yard& base);

/// The yard that a household's answers describe, and a base file where they do not. @throws InputError where they cannot be one: more
/// leaves than anything weighs
/// @param base_file its path, may be empty; base is what it says
Yard yard_of(const Household& household, const Tables& tables, Date today, const std::string& base_file = {}, const Yard& base = {});

/// What stands for the weather of a yard, which its file may have from another: the same for the same.
std::string mark_of_weather(const Yard& yard);

/// What stands for all that a handout is made of: the same for the same, and another for anything else (a UUID of version 5, RFC 4122).
/// @param title as the handout has it
/// @param others the texts of the files, what was read of files that they name, the day, the version of the program
std::string mark_for(const Household& household, const std::string& title, const std::vector<std::string>& others);

}  // namespace heapwright
