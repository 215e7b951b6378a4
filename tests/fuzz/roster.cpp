/// Rosters of a class, and the yard of each household.

#include "heapwright/roster/roster.hpp"

#include "checks.hpp"
#include "heapwright/materials/question.hpp"
#include "heapwright/report/answers_csv.hpp"
#include "heapwright/roster/assumed.hpp"
#include "heapwright/roster/household_yard.hpp"
#include "heapwright/roster/workshop.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {

void read_class(std::string_view text) {
  ends_well([&] {
    const Roster roster = read_roster_text(std::string(text), "roster.csv", {}, tables(), today);
    check_output(csv_of_answers(roster, *tables().questions, true), text);
    for (const BadRow& row : roster.bad_rows) check_output(describe(problem_of_household(row, true)), text);
    for (const Household& household : roster.households) {
      bad_rows_in(household, [&] { yard_of(household, tables(), today); });
      for (const AssumedAnswer& assumed : assumed_of(household)) check_output(in_words(assumed), text);
    }
    count_answered();
  });
}

}  // namespace heapwright::fuzz
