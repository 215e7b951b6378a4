// CSV as programs and people write it: fields and where they stand, what is passed over, what is refused.

#include "heapwright/input/csv.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <locale>

#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Contains;

namespace {

using Rows = std::vector<std::vector<std::string>>;

/// The rows of a text, and what was wrong with it.
struct ReadRows {
  std::vector<std::string> header;
  Rows rows;
  std::vector<std::string> places;  ///< of the fields: "line:column"
  std::vector<Problem> problems;
  bool flawed = false;
};

ReadRows told(const std::string& text) {
  ReadRows told;
  Problems problems;
  Csv csv(text, "log.csv", problems);
  told.header = csv.header();
  while (csv.next()) {
    std::vector<std::string>& row = told.rows.emplace_back();
    for (std::size_t column = 0; column < csv.header().size(); ++column) {
      row.emplace_back(csv.text(column));
      const Position at = csv.position(column);
      told.places.push_back(std::to_string(at.line) + ":" + std::to_string(at.column));
    }
  }
  told.flawed = csv.flawed();
  try {
    problems.throw_if_any();
  } catch (const InputError& error) {
    told.problems = error.problems();
  }
  return told;
}

}  // namespace

TEST_CASE("rows of fields", "[csv]") {
  const auto [what, text, rows] = GENERATE(table<std::string, std::string, Rows>({
      {"plain", "a,b\n1,2\n3,4\n", {{"1", "2"}, {"3", "4"}}},
      {"no line end at the last", "a,b\n1,2", {{"1", "2"}}},
      {"CRLF", "a,b\r\n1,2\r\n3,4\r\n", {{"1", "2"}, {"3", "4"}}},
      {"a carriage return alone at the end", "a,b\r\n1,2\r", {{"1", "2"}}},
      {"byte-order mark",
       "\xEF\xBB\xBF"
       "a,b\n1,2\n",
       {{"1", "2"}}},
      {"empty fields", "a,b\n1,\n,2\n3,", {{"1", ""}, {"", "2"}, {"3", ""}}},
      {"spaces around", "a , b\n 1,\t2 \n", {{"1", "2"}}},
      {"blank lines, of commas too", "\na,b\n\n1,2\n,\n  \r\n3,4\n\n", {{"1", "2"}, {"3", "4"}}},
      {"comments", "# of the yard\na,b\n#1,2\n3,4\n# end", {{"3", "4"}}},
      {"a quoted # is no comment", "a,b\n\"#1\",2\n", {{"#1", "2"}}},
      {"quoted", "\"a\",\"b\"\n\"1\",\"2\"\n", {{"1", "2"}}},
      {"a comma within", "a,b\n\"turned, watered\",2\n", {{"turned, watered", "2"}}},
      {"a line end within", "a,b\n\"turned\nwatered\",2\n3,4\n", {{"turned\nwatered", "2"}, {"3", "4"}}},
      {"doubled quotation marks", "a,b\n\"6\"\" deep\",\"\"\"\"\n", {{"6\" deep", "\""}}},
      {"empty in quotes", "a,b\n\"\",2\n", {{"", "2"}}},
      {"spaces kept within quotes, left out around them", "a,b\n \" 1 \" ,2\n", {{" 1 ", "2"}}},
      {"a quotation mark inside a plain field", "a,b\n6\" deep,2\n", {{"6\" deep", "2"}}},
      {"semicolons", "a;b\r\n1,5;2\r\n;\r\n3;\r\n", {{"1,5", "2"}, {"3", ""}}},
      {"semicolons, below a comment with commas", "# one, two\n\na;b\n1;2\n", {{"1", "2"}}},
      {"semicolons and quotation marks", "a;b\n\"1;5\";2\n", {{"1;5", "2"}}},
      {"a semicolon in a field of commas", "a,b\n1;5,2\n", {{"1;5", "2"}}},
      {"one column", "a\n1\n2\n", {{"1"}, {"2"}}},
      {"no rows behind the header", "a,b\n", {}},
  }));
  CAPTURE(what);
  const ReadRows csv = told(text);
  CHECK(csv.header.size() == (what == "one column" ? 1U : 2U));
  CHECK(csv.header.front() == "a");
  CHECK(csv.rows == rows);
  CHECK(csv.problems.empty());
  CHECK_FALSE(csv.flawed);
}

TEST_CASE("each field has its line and column", "[csv]") {
  CHECK(told("a,b\n1,2\n").places == std::vector<std::string>{"2:1", "2:3"});
  CHECK(told("# one\n\na,b\r\n1, 2\r\n\"3\",\"4\"\r\n").places == std::vector<std::string>{"4:1", "4:4", "5:1", "5:5"});
  // Within a row the lines go on; after it too. Columns count characters: ° is two bytes.
  CHECK(told("a,b,c\n\"x\ny\",°,3\n4,5,6\n").places == std::vector<std::string>{"2:1", "3:4", "3:6", "4:1", "4:3", "4:5"});
}

TEST_CASE("what is no CSV is refused where it stands", "[csv]") {
  const auto [text, at, what, rows] = GENERATE(table<std::string, std::string, std::string, std::size_t>({
      {"a,b\n1,2,3\n4,5\n", "2:1", "the row has 3 fields where the header has 2", 1},
      {"a,b\n\n1\n4,5\n", "3:1", "the row has 1 field where the header has 2", 1},
      {"a,b\n1,2\n3,\"4\n5,6\n", "3:3", "opened here and never closed", 1},
      {"a,\"b\n1,2\n", "1:3", "opened here and never closed", 0},
      {"a,b\n\"6\" deep,2\n3,4\n", "2:5", "text stands behind a quoted field", 1},
      {"", "0:0", "the file has no rows", 0},
      {"\n,\n# nothing\n", "0:0", "the file has no rows", 0},
  }));
  CAPTURE(text);
  const ReadRows csv = told(text);
  REQUIRE(csv.problems.size() == 1);
  const Problem& problem = csv.problems.front();
  CHECK(std::to_string(problem.where.line) + ":" + std::to_string(problem.where.column) == at);
  CHECK_THAT(problem.what, Contains(what));
  CHECK_FALSE(problem.hint.empty());
  CHECK(csv.rows.size() == rows);
  CHECK(csv.flawed);
}

TEST_CASE("a comma is the decimal sign where semicolons part the fields, and nowhere else", "[csv]") {
  Problems problems;
  const Csv semicolons("a;b\n", "log.csv", problems);
  CHECK(semicolons.with_decimal_point("54,5") == "54.5");
  CHECK(semicolons.with_decimal_point("-0,25") == "-0.25");
  CHECK(semicolons.with_decimal_point("54.5") == "54.5");
  CHECK(semicolons.with_decimal_point("1,234,567") == "1,234,567");
  CHECK(semicolons.with_decimal_point("1,234.5") == "1,234.5");
  CHECK(Csv("a,b\n", "log.csv", problems).with_decimal_point("54,5") == "54,5");
}

TEST_CASE("a column is looked at ahead, and what is wrong is told once", "[csv]") {
  Problems problems;
  Csv csv("a,b\n1,2\n3\n\"x\ny\",4\n", "log.csv", problems);
  std::vector<std::string> ahead;
  csv.look_ahead(0, [&](std::string_view text) { ahead.emplace_back(text); });
  CHECK(ahead == std::vector<std::string>{"1", "x\ny"});
  CHECK(problems.none());
  CHECK_FALSE(csv.flawed());
  std::vector<std::string> then;
  std::vector<int> lines;
  while (csv.next()) {
    then.emplace_back(csv.text(0));
    lines.push_back(csv.position(0).line);
  }
  CHECK(then == ahead);
  CHECK(lines == std::vector<int>{2, 4});
  CHECK(csv.flawed());
}

TEST_CASE("a file that is something else is not a problem a line", "[csv]") {
  std::string text = "a,b\n";
  for (int line = 0; line < 10000; ++line) text += "x\n";
  CHECK(told(text).problems.size() == 100);
  CHECK_THAT(told("a" + std::string(2000, ',') + "\n").problems.front().what, Contains("more than 1000 columns"));
}

TEST_CASE("a reader's error stands at the field, under the column's name", "[csv]") {
  Problems problems;
  Csv csv("day, probe degF\n1, 13x\n", "log.csv", problems);
  REQUIRE(csv.next());
  CHECK_FALSE(csv.read(1, read_number));
  CHECK(csv.read(0, read_number) == 1.0);
  CHECK_THROWS_WITH(problems.throw_if_any(),
                    Contains("log.csv:2:4: probe degF: \"13x\" is not a number alone") && Contains("    1, 13x\n       ^\n"));
}

TEST_CASE("of values without end that are wrong the first thousand are told, and the rest of the file is not read", "[csv]") {
  std::string text = "day,probe degF\n";
  for (int line = 0; line < 5000; ++line) text += "1,x\n";
  Problems problems;
  Csv csv(text, "log.csv", problems);
  while (csv.next()) csv.read(1, read_number);
  try {
    problems.throw_if_any();
    FAIL("no problems");
  } catch (const InputError& error) {
    CHECK(error.problems().size() == 1000);
    CHECK(error.problems().back().where.line == 1001);
    CHECK_THAT(error.what(), Contains("log.csv:2:3: ") && Contains("and 950 more; the rest is not read\n"));
  }
}

TEST_CASE("a file that cannot be read says why", "[csv]") {
  Problems problems;
  CHECK_THROWS_WITH(Csv::from_file("/no/such/log.csv", problems), Contains("/no/such/log.csv: there is no such file"));
  CHECK_THROWS_WITH(Csv::from_file("/", problems), Contains("this is a folder"));
}

TEST_CASE("numbers of a column", "[csv]") {
  const auto [text, value] = GENERATE(table<std::string, double>({
      {"31", 31.0},
      {"-12.5", -12.5},
      {"−12.5", -12.5},
      {" 7. ", 7.0},
      {".5", 0.5},
      {"-0.1", -0.1},
      {"1e2", 100.0},
      {"31 1/2", 31.5},
      {"0.30000000000000004", 0.30000000000000004},
      {"123456789012.345", 123456789012.345},
  }));
  CAPTURE(text);
  CHECK(read_number(text) == value);
}

TEST_CASE("what is no number of a column", "[csv]") {
  const std::string text = GENERATE("", " ", "-", "nan", "inf", "M", "a", "half", "31,5", "31 F", "1 2", "--3", "0x1F", "1e400", "1.2.3",
                                    "1e13", "9999999999999");
  CAPTURE(text);
  CHECK_THROWS_AS(read_number(text), TextError);
}

TEST_CASE("any decimal is read as the stream reads it", "[csv]") {
  // The digits and the power of ten are exact, so the quotient is the nearest double, as the stream's is: no tolerance.
  const int digits = GENERATE(range(1, 16));
  const double value = GENERATE(take(40, random(-100.0, 100.0)));
  std::ostringstream written;
  written.imbue(std::locale::classic());
  written.precision(digits);
  written << value;
  double read = 0.0;
  std::istringstream stream(written.str());
  stream.imbue(std::locale::classic());
  stream >> read;
  CAPTURE(written.str());
  CHECK(read_number(written.str()) == read);
}

TEST_CASE("a year of hourly readings by four probes is read at once", "[csv]") {
  std::string text = "time,probe,depth,reading degF\n";
  for (int hour = 0; hour < 8760; ++hour) {
    for (int probe = 1; probe <= 4; ++probe)
      text += "2026-11-07T" + std::to_string(10 + hour % 14) + ":00," + std::to_string(probe) + ",12 in," + std::to_string(90 + hour % 60) +
              ".5\n";
  }
  const auto begin = std::chrono::steady_clock::now();
  Problems problems;
  Csv csv(text, "log.csv", problems);
  double sum = 0.0;
  int rows = 0;
  for (; csv.next(); ++rows) sum += csv.read(3, read_number).value_or(0.0);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
  CHECK(rows == 35040);
  CHECK(sum > 35040 * 90.0);
  CAPTURE(taken.count());
  CHECK(taken.count() < 1.0);  // some 5 ms; under sanitizers and on a busy machine more
}
