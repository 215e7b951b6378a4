// A roster of households, and what a class has in all.

#include <catch2/catch.hpp>

#include <atomic>
#include <new>
#include <stdexcept>

#include "heapwright/linear_program/linear_program.hpp"
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
  CHECK_FALSE(first.not_numbered);
  const Question& leaves = *answer_of(first, "leaves").question;
  CHECK(answer_of(first, "leaves").reply->texts == read_reply(leaves, "about 10", built_in_tables(), today).texts);
  CHECK_FALSE(answer_of(first, "trees").reply);  // the leaves are counted
  CHECK(answer_of(first, "near-water").is_unknown());
  const Household& second = roster.households[1];
  CHECK(second.number == 2);
  CHECK(second.not_numbered == "");
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
  CHECK_THAT(roster.bad_rows[3].problem.what, Contains("this number stands in line 3 already"));
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

TEST_CASE("numbers that are given come first, and the rest have free ones", "[roster]") {
  const Roster roster = roster_of("household,leaves\n,1\n1234567,2\n1,3\nB,4\n,5\n5,6\n");
  CHECK(roster.bad_rows.empty());
  std::vector<int> numbers;
  for (const Household& household : roster.households) numbers.push_back(household.number);
  CHECK(numbers == std::vector<int>{3, 2, 1, 4, 6, 5});
  const auto words = [&](std::size_t at) { return in_words(assumed_of(roster.households.at(at)).at(0)); };
  CHECK(words(0) == "household: no number is given. It has number 3.");
  CHECK(words(1) == "household: \"1234567\" is no number from 1 to 999999. It has number 2.");
  CHECK_FALSE(roster.households[2].not_numbered);
  for (const AssumedAnswer& one : assumed_of(roster_of("leaves\n3\n").households.at(0))) CHECK(one.column != "household");
}

TEST_CASE("a bad row is told with its household", "[roster]") {
  Roster roster = roster_of("household,name,leaves\n7,Ann,10 bgas\n,Bo,blue\n9,Cy,3\n9,Di,4\n10,Ed,5,6\n");
  REQUIRE(roster.bad_rows.size() == 4);
  CHECK(roster.bad_rows[0].household == 7);
  CHECK(roster.bad_rows[1].household == 2);
  CHECK_THAT(describe(problem_of_household(roster.bad_rows[0], false)), Contains("roster.csv:2:7: leaves: household 7: "));
  CHECK_THAT(describe(problem_of_household(roster.bad_rows[0], true)), Contains("leaves: household 7, Ann: "));
  CHECK_THAT(describe(problem_of_household(roster.bad_rows[2], false)), Contains("this number stands in line 4 already"));
  CHECK_THAT(describe(problem_of_household(roster.bad_rows[3], true)), !Contains("household 0"));
  const WithoutHandout without = without_handout(roster);
  CHECK(without.households == std::set<int>{2, 7});
  CHECK(without.lines == std::set<int>{5, 6});  // household 9 has one, and the last row has a field too many
}

TEST_CASE("only what is wrong with a row makes it a bad one", "[roster]") {
  const Roster roster = roster_of("household,name,leaves\n7,Ann,10\n");
  const Household& household = roster.households.at(0);
  const Problem problem{{"Household 7", 12, 10, "amount = \"9e9 t\""}, "amount", "is too much", "write less"};
  const std::vector<BadRow> bad = bad_rows_in(household, [&] { throw InputError({problem}); });
  REQUIRE(bad.size() == 1);
  CHECK(bad[0].household == 7);
  CHECK(bad[0].name == "Ann");
  CHECK(bad[0].problem.where.line == 2);
  CHECK(bad[0].problem.key == "amount");
  CHECK(bad[0].problem.what == "is too much (Household 7, line 12: amount = \"9e9 t\")");
  CHECK(bad_rows_in(household, [] { throw TextError("no text"); }).size() == 1);
  CHECK(bad_rows_in(household, [] { throw DomainError("no meaning"); }).size() == 1);
  CHECK(bad_rows_in(household, [] {}).empty());
  CHECK_THROWS_AS(bad_rows_in(household, [] { throw SolverFailure("ours"); }), SolverFailure);
  CHECK_THROWS_AS(bad_rows_in(household, [] { throw std::bad_alloc(); }), std::bad_alloc);
}

TEST_CASE("names of handouts are known again", "[roster]") {
  Household household;
  for (const int number : {7, 999'999}) {
    household.number = number;
    CHECK(is_name_of_a_handout(handout_file_of(household)));
  }
  for (const char* other : {"household-7.html", "household-007.htm", "household-.html", "household-00a.html", "a-household-007.html"})
    CHECK_FALSE(is_name_of_a_handout(other));
}

TEST_CASE("a base's depth counts where a household has a lawn", "[roster]") {
  const Roster roster = roster_of("leaves,lawn,near-water\n3,5000,no\n3,5000,\n");
  const Yard yard = yard_of(roster.households.at(0), built_in_tables(), today);
  CHECK_FALSE(yard.topdressing.depth);
  CHECK_FALSE(yard.topdressing.near_water);
  CHECK(yard_of(roster.households.at(1), built_in_tables(), today).topdressing.near_water);  // not known, so there is
}

TEST_CASE("what was assumed is listed", "[roster]") {
  const Roster roster = roster_of("household,leaves,trees,bin,clippings,treated\nfirst,10,3,4,0,yes\n");
  REQUIRE(roster.households.size() == 1);
  std::vector<std::pair<std::string, WhyAssumed>> found;
  for (const AssumedAnswer& one : assumed_of(roster.households[0])) found.emplace_back(one.column, one.why);
  const auto has = [&](const char* column, WhyAssumed why) {
    return std::find(found.begin(), found.end(), std::pair<std::string, WhyAssumed>(column, why)) != found.end();
  };
  CHECK(has("household", WhyAssumed::not_numbered));
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
  const std::string mark = mark_for(one, title_of(one, false), {"1.0", "2026-10-24"});
  CHECK(mark == mark_for(one, title_of(one, false), {"1.0", "2026-10-24"}));
  CHECK(mark != mark_for(one, title_of(one, true), {"1.0", "2026-10-24"}));
  CHECK(mark != mark_for(one, title_of(one, false), {"1.0", "2026-10-25"}));
  CHECK(mark != mark_for(one, title_of(one, false), {"1.02026-10-24", ""}));
  CHECK(mark != mark_for(roster.households[1], title_of(roster.households[1], false), {"1.0", "2026-10-24"}));
  CHECK(mark != mark_for(roster.households[2], title_of(one, false), {"1.0", "2026-10-24"}));
  const std::string html = marked("<!DOCTYPE html>\n<html></html>\n", mark);
  CHECK(mark_of(html) == mark);
  CHECK_FALSE(mark_of(html.substr(0, html.size() - 3)));
  CHECK_FALSE(mark_of("<!DOCTYPE html>\n<html></html>\n"));
  CHECK(begins_marked(html.substr(0, html.size() - 3)));
  CHECK_FALSE(begins_marked("<!DOCTYPE html>\n<html></html>\n"));
}

TEST_CASE("the mark of the weather is another where a day is another", "[roster]") {
  Yard yard;
  const std::string none = mark_of_weather(yard);
  yard.climate.emplace();
  yard.climate->days = {{today, TemperaturePoint::from_celsius(10.0)}};
  const std::string ten = mark_of_weather(yard);
  CHECK(ten != none);
  CHECK(mark_of_weather(yard) == ten);
  yard.climate->days[0].mean = TemperaturePoint::from_celsius(10.5);
  CHECK(mark_of_weather(yard) != ten);
  yard.climate->days[0] = {today, TemperaturePoint::from_celsius(10.0), 0.001 * unit::m};
  CHECK(mark_of_weather(yard) != ten);
}

TEST_CASE("a class has what its households have", "[roster]") {
  const std::string headings = "leaves,clippings,treated,lawn,scraps";
  const std::vector<HouseholdShare> shares{share_of_row(headings, "10,4,no,5000,0"), share_of_row(headings, "14,2,no,0,0"),
                                           share_of_row(headings, "0,6,yes,1000,0")};
  const ClassTotals totals = totals_of(shares, Yard(), today);
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
  const ClassTotals totals = totals_of(shares, Yard(), today);
  REQUIRE(totals.pile);
  CHECK(totals.pile->is_to_build);
  const Recipe& recipe = totals.pile->recipe.result;
  CHECK(recipe.status == RecipeStatus::on_target);
  CHECK(value_in(unit::cubic_yard, *recipe.mix->volume) == Approx(1.0).epsilon(1e-6));
  for (const ClassTotal& thing : totals.pile->brought) CHECK(thing.households == 12);
  const ClassTotals of_nobody = totals_of({share_of_row("leaves", "0")}, Yard(), today);
  CHECK_FALSE(of_nobody.pile);
  const ClassTotals of_chips = totals_of({share_of_row("leaves,other", "0,10 bags of wood chips")}, Yard(), today);
  REQUIRE(of_chips.pile);
  CHECK_FALSE(of_chips.pile->is_to_build);  // hardly any nitrogen
}

TEST_CASE("the pile before the class has the targets and the wishes of a base", "[roster]") {
  std::vector<HouseholdShare> shares;
  for (int i = 0; i < 12; ++i) shares.push_back(share_of_row("leaves,clippings,treated,scraps", "10,6,no,2"));
  const Yard base = read_yard_text(
      "[targets]\ncarbon_to_nitrogen = { low = \"33:1\", aim = \"36:1\", high = \"40:1\" }\n[recipe]\ncapacity = \"100 gal\"\n",
      "base.toml");
  const ClassTotals usual = totals_of(shares, Yard(), today);
  const ClassTotals drier = totals_of(shares, base, today);
  REQUIRE(usual.pile->recipe->mix);
  REQUIRE(drier.pile->recipe->mix);
  CHECK(usual.pile->recipe->mix->carbon_to_nitrogen->value() < 34.0);
  CHECK(drier.pile->recipe->mix->carbon_to_nitrogen->value() > 33.99);
  CHECK(value_in(unit::cubic_yard, *drier.pile->recipe->mix->volume) == Approx(1.0).epsilon(1e-6));
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
  int begun = 0;  // by one thread, in order
  CHECK_THROWS_WITH(in_parallel(10, 1,
                                [&](std::size_t at) {
                                  ++begun;
                                  if (at == 3) throw std::runtime_error("three");
                                }),
                    "three");
  CHECK(begun == 4);
}
