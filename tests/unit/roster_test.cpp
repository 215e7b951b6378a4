// A roster of households, and what a class has in all.

#include <atomic>
#include <stdexcept>

#include "heapwright/report/answers_csv.hpp"
#include "heapwright/report/marked.hpp"
#include "heapwright/roster/assumed.hpp"
#include "heapwright/roster/class_totals.hpp"
#include "heapwright/roster/household_yard.hpp"
#include "heapwright/roster/in_parallel.hpp"
#include "heapwright/roster/workshop.hpp"

using namespace heapwright;
using Catch::Contains;

namespace {

const Date today = std::chrono::year(2026) / 10 / 24;

Roster roster_of(const std::string& text, const ColumnNames& names = {}) {
  return read_roster_text(text, "roster.csv", names, built_in_tables(), today);
}

const RosterAnswer& answer_of(const Household& household, const std::string& question) {
  for (const RosterAnswer& answer : household.answers) {
    if (answer.question->id == question) return answer;
  }
  throw std::out_of_range(question);
}

HouseholdShare share_of_row(const std::string& headings, const std::string& row) {
  const Roster roster = roster_of(headings + "\n" + row + "\n");
  return share_of(yard_of(roster.households.at(0), built_in_tables(), today), today);
}

}  // namespace

TEST_CASE("a roster's answers are those of the questions", "[roster]") {
  const Roster roster = roster_of("household,leaves,lawn,bin\n7,about 10,1/2 acre,4\n,idk,,\n");
  REQUIRE(roster.households.size() == 2);
  CHECK(roster.bad_rows.empty());
  const Household& first = roster.households[0];
  CHECK(first.number == 7);
  CHECK_FALSE(first.numbered_by_row);
  const Question& leaves = *answer_of(first, "leaves").question;
  CHECK(answer_of(first, "leaves").reply->texts == read_reply(leaves, "about 10", built_in_tables(), today).texts);
  CHECK_FALSE(answer_of(first, "trees").reply);  // the leaves are counted
  CHECK(answer_of(first, "near-water").is_unknown());
  const Household& second = roster.households[1];
  CHECK(second.number == 2);
  CHECK(second.numbered_by_row);
  CHECK(answer_of(second, "leaves").is_unknown());
  CHECK(answer_of(second, "trees").is_unknown());
  CHECK_FALSE(answer_of(second, "near-water").reply);  // there is no lawn known
}

TEST_CASE("a blank field is don't know, and not what Enter takes", "[roster]") {
  const Roster roster = roster_of("leaves,lawn,scraps\n , ,3\n");
  REQUIRE(roster.households.size() == 1);
  for (const RosterAnswer& answer : roster.households[0].answers) {
    if (answer.reply && answer.question->id != "scraps") CHECK(answer.is_unknown());
  }
}

TEST_CASE("a form's own headings are mapped, and people are scraps", "[roster]") {
  const Roster roster = roster_of("When,How many people live with you?,Leaves\nMon,3,4\n", {{"How many people live with you?", "scraps"}});
  REQUIRE(roster.households.size() == 1);
  CHECK(answer_of(roster.households[0], "scraps").reply->texts == std::vector<std::string>{"3"});
  CHECK(roster.unknown_columns == std::vector<std::string>{"When"});
  CHECK(roster.missing_columns.size() == roster.households[0].answers.size() - 2);
  CHECK(answer_of(roster_of("people\n3\n").households[0], "scraps").typed == "3");
}

TEST_CASE("a bad row is told with each of its fields, and the rest goes on", "[roster]") {
  const Roster roster = roster_of("household,leaves,lawn\n1,10 bgas,blue\n2,4,0\n3,4\n2,5,0\n,,\n");
  REQUIRE(roster.households.size() == 1);
  CHECK(roster.households[0].number == 2);
  REQUIRE(roster.bad_rows.size() == 4);
  CHECK(roster.bad_rows[0].column == "leaves");
  CHECK(roster.bad_rows[0].problem.where.line == 2);
  CHECK(roster.bad_rows[0].problem.where.column == 3);
  CHECK(roster.bad_rows[1].column == "lawn");
  CHECK(roster.bad_rows[1].problem.where.column == 11);
  CHECK_THAT(roster.bad_rows[2].problem.what, Contains("2 fields where the header has 3"));
  CHECK_THAT(roster.bad_rows[3].problem.what, Contains("household 2 stands in row 3 already"));
  CHECK(count_of_bad_rows(roster) == 3);
}

TEST_CASE("what is no roster is refused as a whole", "[roster]") {
  CHECK_THROWS_WITH(roster_of(""), Contains("the file has no rows"));
  CHECK_THROWS_WITH(roster_of("leaves,lawn\n"), Contains("no row below the headings"));
  CHECK_THROWS_WITH(roster_of("a,b\n1,2\n"), Contains("none of the headings is a question's") && Contains("near-water"));
  CHECK_THROWS_WITH(roster_of("leaves,Leaves\n1,2\n"), Contains("1:8: Leaves: is a second column of leaves"));
  CHECK_THROWS_WITH(roster_of("leaves,name\n3,A\n4,\"B\n5,C\n"), Contains("3:3: a quotation mark is opened here and never closed"));
  std::string many = "scraps\n";
  for (int i = 0; i <= most_households; ++i) many += "0\n";
  CHECK_THROWS_WITH(roster_of(many), Contains("at most 10,000 rows"));
}

TEST_CASE("a household without a number has that of its row, bad rows counted and blank ones not", "[roster]") {
  const Roster roster = roster_of("leaves,scraps\n1,2\n3\n,,\n\n# a note\n4,5\n");
  REQUIRE(roster.households.size() == 2);
  CHECK(roster.households[1].number == 3);
  CHECK(roster.bad_rows.size() == 1);
}

TEST_CASE("what was assumed is listed", "[roster]") {
  const Roster roster = roster_of("household,leaves,trees,bin,clippings,treated\nfirst,10,3,4,0,yes\n");
  REQUIRE(roster.households.size() == 1);
  std::vector<std::pair<std::string, WhyAssumed>> found;
  for (const AssumedAnswer& one : assumed_of(roster.households[0])) found.emplace_back(one.column, one.why);
  const auto has = [&](const char* column, WhyAssumed why) {
    return std::find(found.begin(), found.end(), std::pair<std::string, WhyAssumed>(column, why)) != found.end();
  };
  CHECK(has("household", WhyAssumed::numbered_by_row));
  CHECK(has("trees", WhyAssumed::passed_over));
  CHECK(has("treated", WhyAssumed::passed_over));
  CHECK(has("lawn", WhyAssumed::not_known));
  CHECK_FALSE(has("leaves", WhyAssumed::not_known));
}

TEST_CASE("the template is a roster of two households", "[roster]") {
  const Tables tables = built_in_tables();
  const Roster roster = roster_of(roster_template(*tables.questions));
  CHECK(roster.households.size() == 2);
  CHECK(roster.bad_rows.empty());
  CHECK(roster.unknown_columns.empty());
  CHECK(roster.missing_columns.empty());
  for (const Household& household : roster.households) {
    for (const RosterAnswer& answer : household.answers) {
      if (!answer.typed.empty()) CHECK(answer.reply);
    }
  }
}

TEST_CASE("answers are harmless to a spreadsheet", "[roster]") {
  const Tables tables = built_in_tables();
  const Roster roster = roster_of("name,leaves,trees\n\"=1+1\",3,\"@SUM(\"\"a\"\")\"\n");
  REQUIRE(roster.households.size() == 1);
  const std::string csv = csv_of_answers(roster, *tables.questions, true);
  CHECK_THAT(csv, Contains("\n1,'=1+1,3,3 leaf-bag,\"'@SUM(\"\"a\"\")\","));
  CHECK_THAT(csv_of_answers(roster, *tables.questions, false), !Contains("=1+1"));
  CHECK(are_answers_of_ours(csv, *tables.questions));
  CHECK_FALSE(are_answers_of_ours("household,leaves\n", *tables.questions));
}

TEST_CASE("a handout is made again where anything it is made of is another", "[roster]") {
  const Roster roster = roster_of("household,leaves,name\n1,10,A\n2,10,A\n3,11,A\n");
  const Household& one = roster.households[0];
  const std::string mark = made_of(one, title_of(one, false), {"1.0", "2026-10-24"});
  CHECK(mark == made_of(one, title_of(one, false), {"1.0", "2026-10-24"}));
  CHECK(mark != made_of(one, title_of(one, true), {"1.0", "2026-10-24"}));
  CHECK(mark != made_of(one, title_of(one, false), {"1.0", "2026-10-25"}));
  CHECK(mark != made_of(one, title_of(one, false), {"1.02026-10-24", ""}));
  CHECK(mark != made_of(roster.households[1], title_of(roster.households[1], false), {"1.0", "2026-10-24"}));
  CHECK(mark != made_of(roster.households[2], title_of(one, false), {"1.0", "2026-10-24"}));
  const std::string html = marked("<!DOCTYPE html>\n<html></html>\n", mark);
  CHECK(mark_of(html) == mark);
  CHECK_FALSE(mark_of(html.substr(0, html.size() - 3)));
  CHECK_FALSE(mark_of("<!DOCTYPE html>\n<html></html>\n"));
}

TEST_CASE("a class has what its households have", "[roster]") {
  const std::string headings = "leaves,clippings,treated,lawn,scraps";
  const std::vector<HouseholdShare> shares{share_of_row(headings, "10,4,no,5000,0"), share_of_row(headings, "14,2,no,0,0"),
                                           share_of_row(headings, "0,6,yes,1000,0")};
  const ClassTotals totals = totals_of(shares, built_in_tables(), ShownUnits::us, today);
  CHECK(totals.households == 3);
  CHECK(totals.lawns == 2);
  CHECK(value_in(unit::square_foot, totals.lawn) == Approx(6000.0));
  REQUIRE(totals.things.size() == 3);
  const ClassTotal& leaves = totals.things[0];
  CHECK(leaves.feedstock == "leaves-fall");
  CHECK(leaves.households == 2);
  CHECK(value_in(unit::gallon, leaves.volume) == Approx(24 * 30.0));
  for (const ClassTotal& thing : totals.things) {
    if (thing.feedstock != "grass-clippings") continue;
    CHECK(thing.each_week);
    CHECK(value_in(unit::gallon, thing.volume) == Approx(6 * 5.0));  // four and two buckets; six of the treated lawn, kept out
    CHECK(thing.households == (thing.kept_out ? 1 : 2));
  }
}

TEST_CASE("the pile before the class is a cubic yard of what the class has", "[roster]") {
  std::vector<HouseholdShare> shares;
  for (int i = 0; i < 12; ++i) shares.push_back(share_of_row("leaves,clippings,treated,scraps", "10,6,no,2"));
  const ClassTotals totals = totals_of(shares, built_in_tables(), ShownUnits::us, today);
  REQUIRE(totals.pile);
  const Recipe& recipe = totals.pile->recipe.result;
  CHECK(recipe.status == RecipeStatus::on_target);
  CHECK(value_in(unit::cubic_yard, *recipe.mix->volume) == Approx(1.0).epsilon(1e-6));
  for (const ClassTotal& thing : totals.pile->brought) CHECK(thing.households == 12);
  const ClassTotals of_nobody = totals_of({share_of_row("leaves", "0")}, built_in_tables(), ShownUnits::us, today);
  CHECK_FALSE(of_nobody.pile);
}

TEST_CASE("work in parallel is all done, once each", "[roster]") {
  std::vector<std::atomic<int>> times(1000);
  in_parallel(times.size(), 4, [&](std::size_t at) { ++times[at]; });
  CHECK(std::all_of(times.begin(), times.end(), [](const std::atomic<int>& count) { return count == 1; }));
  in_parallel(0, 4, [](std::size_t) { throw std::logic_error("there is nothing to do"); });
  CHECK_THROWS_WITH(in_parallel(10, 3,
                                [](std::size_t at) {
                                  if (at == 3) throw std::runtime_error("three");
                                }),
                    "three");
}
