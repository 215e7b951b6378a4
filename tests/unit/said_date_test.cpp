// Days in the words that people say them in. Dates are those of the calendar of 2026 and 2027.
#include "heapwright/guide/said_date.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <utility>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/guide/plain.hpp"

using namespace heapwright;

namespace {

std::string said(const std::string& typed, const std::string& today) {
  return print_date(read_said_date(plain_answer(typed), read_date(today)));
}

}  // namespace

TEST_CASE("holidays fall where the calendar has them", "[said_date]") {
  // Those of a weekday by their law: the third Monday of February, the last of May, the first of September, the second of October, the
  // fourth Thursday of November; the second Sunday of May, the third of June.
  const std::vector<std::pair<std::string, std::string>> days{
      {"Valentine's Day", "2026-02-14"}, {"Presidents Day", "2026-02-16"},   {"St Patrick's Day", "2026-03-17"},
      {"Earth Day", "2026-04-22"},       {"Mother's Day", "2026-05-10"},     {"Memorial Day", "2026-05-25"},
      {"Memorial Day", "2027-05-31"},    {"Juneteenth", "2026-06-19"},       {"Father's Day", "2026-06-21"},
      {"Fourth of July", "2026-07-04"},  {"Independence Day", "2026-07-04"}, {"Labor Day", "2026-09-07"},
      {"Labor Day", "2027-09-06"},       {"Columbus Day", "2026-10-12"},     {"Halloween", "2026-10-31"},
      {"Veterans Day", "2026-11-11"},    {"Thanksgiving", "2026-11-26"},     {"Thanksgiving Day", "2027-11-25"},
      {"Christmas Eve", "2026-12-24"},   {"Christmas", "2026-12-25"},        {"New Year's Eve", "2026-12-31"},
      {"New Year's Day", "2027-01-01"}};
  for (const auto& [name, day] : days) {
    const Date before(std::chrono::sys_days(read_date(day)) - std::chrono::days(3));
    CAPTURE(name, day);
    CHECK(said(name, print_date(before)) == day);
    CHECK(said("on " + name, print_date(before)) == day);
  }
}

TEST_CASE("a date with its year is asked about only where it is past one way and to come the other", "[said_date]") {
  CHECK(said("12/11/2026", "2026-11-20") == "2026-12-11");  // to come with the month first
  CHECK(said("10/12/2026", "2026-10-20") == "2026-10-12");  // just past: the day of a pile that was built last week
  CHECK(said("3/4/2026", "2026-11-20") == "2026-03-04");    // past either way
  CHECK(said("1/30/2026", "2026-11-20") == "2026-01-30");   // no thirtieth month
  CHECK_THROWS_AS(said("1/12/2026", "2026-11-20"), TextError);
}
