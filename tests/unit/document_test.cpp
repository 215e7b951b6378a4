// Files: where things stand in them, what is refused, and that all that is wrong is told at once, in order.

#include "heapwright/input/document.hpp"

#include <catch2/catch.hpp>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <tuple>
#include <unistd.h>

#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Contains;
using Catch::EndsWith;
using Catch::StartsWith;

namespace {

/// What a reading of a text finds wrong.
std::vector<Problem> problems_of(const std::string& text, const std::function<void(Table&)>& read) {
  try {
    Problems problems;
    const Document document = Document::from_text(text, "yard.toml", problems);
    Table root = document.root();
    read(root);
    problems.throw_if_any();
    return {};
  } catch (const InputError& error) {
    return error.problems();
  }
}

Problem problem_of(const std::string& text, const std::function<void(Table&)>& read) {
  const std::vector<Problem> problems = problems_of(text, read);
  REQUIRE(problems.size() == 1);
  return problems.front();
}

std::string place(const Position& where) { return std::to_string(where.line) + ":" + std::to_string(where.column); }
std::string place(const Problem& problem) { return place(problem.where); }

void ask_nothing(Table& root) { root.finish(); }

/// A file of the test's own, gone with it.
class File {
 public:
  explicit File(const std::string& content)
      : path_((std::filesystem::temp_directory_path() /
               ("heapwright-document-test-" + std::to_string(getpid()) + "-" + std::to_string(std::hash<std::string>()(content)) + ".toml"))
                  .string()) {
    std::ofstream(path_, std::ios::binary) << content;
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  ~File() { std::remove(path_.c_str()); }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

}  // namespace

TEST_CASE("a value knows its key, line and column", "[document]") {
  const std::string text =
      "title = \"a\"\n"
      "pile.height = \"4 ft\"\n"
      "climate = { like = \"b\", means = [1, 22, 3] }\n"
      "\n"
      "[[supply]]\n"
      "  amount = \"1 gal\"\n"
      "[[supply]]\n"
      "\tamount = \"2 gal\"\n"
      "[lawn.zone]\n"
      "area   =   \"5 ft2\"\n";
  Problems problems;
  const Document document = Document::from_text(text, "yard.toml", problems);
  Table root = document.root();
  CHECK(document.name() == "yard.toml");
  CHECK(place(root.find("title")->position()) == "1:9");
  CHECK(root.find("title")->key() == "title");
  CHECK(root.find("title")->position().file == "yard.toml");
  CHECK(root.find("title")->position().source_line == "title = \"a\"");

  CHECK(place(root.table("pile")->find("height")->position()) == "2:15");
  CHECK(place(root.table("climate")->position()) == "3:11");
  CHECK(place(root.table("climate")->find("like")->position()) == "3:20");
  std::vector<std::string> places;
  for (const Value& item : root.table("climate")->list("means")) places.push_back(place(item.position()));
  CHECK(places == std::vector<std::string>{"3:34", "3:37", "3:41"});

  std::vector<Table> supplies = root.tables("supply");
  REQUIRE(supplies.size() == 2);
  CHECK(place(supplies[0].position()) == "5:1");
  CHECK(place(supplies[0].find("amount")->position()) == "6:12");
  CHECK(place(supplies[1].find("amount")->position()) == "8:11");  // a tab is one character
  CHECK(place(root.table("lawn")->table("zone")->find("area")->position()) == "10:12");
  CHECK(root.keys() == std::vector<std::string>{"climate", "lawn", "pile", "supply", "title"});
  CHECK(problems.none());
}

TEST_CASE("values are read as what they are", "[document]") {
  Problems problems;
  const Document document =
      Document::from_text("t = \"x\"\nn = 3\nd = 2.5\nf = true\nday = 2026-11-07\nl = [\"a\", \"b\"]\n", "a.toml", problems);
  Table root = document.root();
  CHECK(root.text("t") == "x");
  CHECK(root.number("n") == 3.0);
  CHECK(root.number("d") == 2.5);
  CHECK(root.flag("f") == true);
  CHECK(root.date("day") == Date(std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)));
  CHECK(print_date(*root.date("day")) == "2026-11-07");
  CHECK(root.list("l").size() == 2);
  CHECK(root.list("t").size() == 1);  // one is a list of one
  CHECK(root.list("none").empty());
  CHECK(root.tables("none").empty());
  CHECK_FALSE(root.text("none"));
  CHECK_FALSE(root.table("none"));
  CHECK(problems.none());
}

TEST_CASE("a value of the wrong kind is refused with both kinds", "[document]") {
  const std::function<void(Table&)> text = [](Table& root) { root.text("k"); };
  const std::function<void(Table&)> flag = [](Table& root) { root.flag("k"); };
  const std::function<void(Table&)> number = [](Table& root) { root.number("k"); };
  const std::function<void(Table&)> date = [](Table& root) { root.date("k"); };
  const std::function<void(Table&)> table = [](Table& root) { root.table("k"); };
  const std::function<void(Table&)> list_of_tables = [](Table& root) { root.tables("k"); };
  using Case = std::tuple<std::string, std::function<void(Table&)>, std::string>;
  const auto [line, read, what] = GENERATE_REF(values<Case>({
      {"k = 3", text, "must stand in quotes"},
      {"k = true", text, "is true or false where a text is wanted"},
      {"k = 2026-11-07", text, "is a date where a text is wanted"},
      {"k = [1]", text, "is a list where a text is wanted"},
      {"k = { a = 1 }", text, "is a table where a text is wanted"},
      {"k = 07:32:00", text, "is a time of day where a text is wanted"},
      {"k = 2026-11-07T07:32:00Z", date, "is a time of day where a date is wanted"},
      {"k = nan", text, "is not a number that can be used"},
      {"k = \"true\"", flag, "is a text where true or false is wanted"},
      {"k = 1", flag, "is a bare number where true or false is wanted"},
      {"k = \"3\"", number, "is a text where a number is wanted"},
      {"k = nan", number, "is not a number that can be used"},
      {"k = -inf", number, "is not a number that can be used"},
      {"k = \"2026-11-07\"", date, "is a text where a date is wanted"},
      {"k = \"x\"", table, "is a text where a table is wanted"},
      {"k = [{ a = 1 }]", table, "is a list where a table is wanted"},
      {"k = { a = 1 }", list_of_tables, "is not a list of tables"},
      {"k = [\"x\"]", list_of_tables, "is not a list of tables"},
  }));
  CAPTURE(line);
  const Problem problem = problem_of(line, read);
  CHECK(problem.what == what);
  CHECK(problem.key == "k");
  CHECK_FALSE(problem.hint.empty());
}

TEST_CASE("what a reader says of a text stands at its place", "[document]") {
  SECTION("a text that is no quantity") {
    const Problem problem = problem_of("\ndepth = \"7 lb\"\n", [](Table& root) { CHECK_FALSE(root.read("depth", read_length)); });
    CHECK(place(problem) == "2:9");
    CHECK(problem.key == "depth");
    CHECK_THAT(problem.what, Contains("\"7 lb\" is a weight"));
    CHECK_FALSE(problem.hint.empty());
  }
  SECTION("a share past all of it, by the fraction's own error") {
    CHECK_THAT(problem_of("k = \"101 %\"", [](Table& root) { root.read("k", read_fraction<OfVolume>); }).what, Contains("101 %"));
  }
  SECTION("a bare number is told its unit, not to stand in quotes") {
    CHECK_THAT(problem_of("depth = 7", [](Table& root) { root.read("depth", read_length); }).what, Contains("\"7\" has no unit"));
  }
  SECTION("the message and the hint of any reader") {
    const Problem problem = problem_of("k = \"x\"", [](Table& root) {
      root.read("k", [](std::string_view text) -> int { throw TextError("no " + std::string(text), "write y"); });
    });
    CHECK(problem.what == "no x");
    CHECK(problem.hint == "write y");
  }
}

TEST_CASE("one of some words", "[document]") {
  const std::vector<std::pair<std::string, int>> words{{"up-to", 1}, {"all", 2}, {"unlimited", 3}};
  Problems none;
  CHECK(Document::from_text("use = \"all\"", "a.toml", none).root().one_of("use", words) == 2);
  CHECK(none.none());
  const Problem near = problem_of("use = \"upto\"", [&](Table& root) { CHECK_FALSE(root.one_of("use", words)); });
  CHECK_THAT(near.hint, Contains("did you mean \"up-to\"?") && Contains("\"unlimited\""));
  const Problem far = problem_of("use = \"zzzz\"", [&](Table& root) { root.one_of("use", words); });
  CHECK_THAT(far.hint, !Contains("did you mean") && Contains("\"up-to\", \"all\", \"unlimited\""));
}

TEST_CASE("a key that nobody asked for is reported with the nearest that was", "[document]") {
  const auto read = [](Table& root) {
    root.text("title");
    root.text("units");
    root.finish();
  };
  const Problem near = problem_of("titel = \"a\"", read);
  CHECK(near.key == "titel");
  CHECK(near.hint == "did you mean title?");
  CHECK(problem_of("zzzzzz = \"a\"", read).hint == "its keys are title, units");
  CHECK(problems_of("title = \"a\"", read).empty());

  SECTION("asking whether it is there does not let it stand there") {
    CHECK(problems_of("title = \"a\"", [](Table& root) {
            CHECK(root.has("title"));
            CHECK_FALSE(root.has("office"));
            root.finish();
          }).size() == 1);
    CHECK(problems_of("title = \"a\"", [](Table& root) {
            root.expect("title");
            root.finish();
          }).empty());
  }
  SECTION("in a table of a table, a list and an inline table too") {
    CHECK(place(problem_of("[a]\n[a.b]\nx = 1\n", [](Table& root) { root.table("a")->table("b")->finish(); })) == "3:5");
    CHECK(place(problem_of("[[a]]\n[[a]]\nx = 1\n", [](Table& root) { root.tables("a").at(1).finish(); })) == "3:5");
    CHECK(place(problem_of("a = { x = 1 }\n", [](Table& root) { root.table("a")->finish(); })) == "1:11");
  }
}

TEST_CASE("a missing key is a problem of its table", "[document]") {
  const Problem problem = problem_of("\n[pile]\n", [](Table& root) { root.table("pile")->require("height", "write height = \"4 ft\""); });
  CHECK(place(problem) == "2:1");
  CHECK(problem.key == "pile");
  CHECK(problem.what == "height is missing");
}

TEST_CASE("all problems at once, in the order of their places", "[document]") {
  // asked for from the last line to the first
  const std::vector<Problem> problems = problems_of("a = 1\nb = 2\nc = { d = 3, e = 4 }\nf = 5\n", [](Table& root) {
    root.finish();
    Table c = *root.table("c");
    c.text("e");
    c.text("d");
    root.flag("b");
  });
  std::vector<std::string> found;
  for (const Problem& problem : problems) found.push_back(place(problem) + " " + problem.key);
  CHECK(found == std::vector<std::string>{"1:5 a", "2:5 b", "2:5 b", "3:5 c", "3:11 d", "3:18 e", "4:5 f"});
}

TEST_CASE("many problems are counted, not all described", "[document]") {
  std::string text;
  for (int i = 0; i < 60; ++i) text += "k" + std::to_string(i) + " = 1\n";
  const std::vector<Problem> problems = problems_of(text, ask_nothing);
  CHECK(problems.size() == 60);
  CHECK_THAT(InputError(problems).what(), Contains("and 10 more\n"));
}

TEST_CASE("of problems without end the first are kept, in whatever order they come, and the rest counted", "[document]") {
  Problems problems;
  for (int line = 20'000; line > 0; --line) problems.add({{"yard.toml", line, 1, {}}, "k" + std::to_string(line), "is wrong", {}});
  try {
    problems.throw_if_any();
    FAIL("no problems");
  } catch (const InputError& error) {
    CHECK_THAT(error.what(), StartsWith("yard.toml:1:1: k1: is wrong\nyard.toml:2:1: k2: is wrong\n"));
    CHECK_THAT(error.what(), EndsWith("yard.toml:50:1: k50: is wrong\nand 19950 more\n"));
    REQUIRE(error.problems().size() == 1000);
    CHECK(error.problems().back().key == "k1000");
  }
}

TEST_CASE("a line that is too long to show is not kept", "[document]") {
  std::string text = "a = { ";
  for (int i = 0; i < 100; ++i) text += "k" + std::to_string(i) + " = 1, ";
  text += "z = 1 }\nb = 1\n";
  for (const Problem& problem : problems_of(text, ask_nothing)) CHECK(problem.where.source_line == (problem.key == "b" ? "b = 1" : ""));
  const Problem curly = problem_of(std::string(200, ' ') + "a = “b”\n", ask_nothing);
  CHECK(curly.where.source_line.empty());
  CHECK_THAT(curly.hint, Contains("straight quotes"));
}

TEST_CASE("a caret stands under the character, whatever stands before it", "[document]") {
  const auto [text, expected] = GENERATE(table<std::string, std::string>({
      {"k = 1", "f:1:5: k: is wrong\n    k = 1\n        ^\n    so\n"},
      {"\tk = 1", "f:1:6: k: is wrong\n    \tk = 1\n    \t    ^\n    so\n"},                       // tabs as they stand
      {"\"größe\" = 1", "f:1:11: größe: is wrong\n    \"größe\" = 1\n              ^\n    so\n"},  // two bytes each
      {"a = { b = \"½ €\", k = 1 }",
       "f:1:22: k: is wrong\n    a = { b = \"½ €\", k = 1 }\n                         ^\n    so\n"},  // two and three
      {"a = { b = \"🍂\", k = 1 }", "f:1:20: k: is wrong\n    a = { b = \"🍂\", k = 1 }\n                       ^\n    so\n"},  // four
      {"k = 1 # " + std::string(200, 'x'), "f:1:5: k: is wrong\n    so\n"},  // too long to show
  }));
  Problems problems;
  const Document document = Document::from_text(text, "f", problems);
  Table root = document.root();
  std::optional<Value> value = root.has("k") ? root.find("k") : root.has("a") ? root.table("a")->find("k") : root.find("größe");
  CHECK(describe({value->position(), std::string(value->key()), "is wrong", "so"}) == expected);
}

TEST_CASE("a problem without a line, a key or a hint", "[document]") {
  CHECK(describe({{"yard.toml", 0, 0, {}}, "", "there is no such file", ""}) == "yard.toml: there is no such file\n");
  CHECK(describe({{}, "", "it is wrong", "so"}) == "it is wrong\n    so\n");
}

TEST_CASE("a byte-order mark and CRLF change nothing", "[document]") {
  const auto read = [](Table& root) {
    CHECK(root.text("title") == "a");
    root.finish();
  };
  const Problem plain = problem_of("x = 1\ntitle = \"a\"\n", read);
  const Problem cured = problem_of("\xEF\xBB\xBFx = 1\r\ntitle = \"a\"\r\n", read);
  CHECK(describe(cured) == describe(plain));
}

TEST_CASE("what is not TOML is one problem with its place", "[document]") {
  const auto [text, at, hint] = GENERATE(table<std::string, std::string, std::string>({
      {"a = 1\nb = \n", "2:", "a line is a key"},
      {"a = \"x\nb = 1\n", "1:", "a line is a key"},
      {"depth = 1/4 in\n", "1:", "depth = \"1/4 in\""},
      {"title = “a”\n", "1:9", "straight quotes"},
      {"a = 1\na = 2\n", "2:", "a line is a key"},
      {"built = 2026-02-31\n", "1:", "a line is a key"},
  }));
  CAPTURE(text);
  const Problem problem = problem_of(text, ask_nothing);
  CHECK_THAT(problem.what, Catch::StartsWith("this is not TOML: "));
  CHECK_THAT(place(problem), Catch::StartsWith(at));
  CHECK_THAT(problem.hint, Contains(hint));
}

TEST_CASE("files that cannot be read say why", "[document]") {
  Problems problems;
  CHECK_THROWS_WITH(Document::from_file("/no/such/file.toml", problems), Contains("/no/such/file.toml: there is no such file"));
  CHECK_THROWS_WITH(Document::from_file("/", problems), Contains("this is a folder"));
  CHECK_THROWS_WITH(Document::from_file(File(std::string("a = 1\0", 6)).path(), problems), Contains("not a text file"));
  CHECK_THROWS_WITH(Document::from_file(File("\xFF\xFE" + std::string("a\0", 2)).path(), problems), Contains("saved as UTF-16"));
  CHECK_THROWS_WITH(Document::from_file(File("a = 1\nb = \"½ \xE9\"\n").path(), problems), Contains(":2:8: this is not UTF-8\n"));

  SECTION("a mebibyte is the most, included") {
    const std::string most = "#" + std::string(Document::largest_file - 1, 'x');
    const File largest(most);
    CHECK_NOTHROW(Document::from_file(largest.path(), problems));
    const File larger(most + "x");
    CHECK_THROWS_WITH(Document::from_file(larger.path(), problems), Contains("larger than 1 MiB"));
  }
  SECTION("the file's path is its name") {
    const File file("a = 1\n");
    CHECK(Document::from_file(file.path(), problems).name() == file.path());
  }
  SECTION("another file's path is told from its folder") {
    const File file("other = \"log.csv\"\nfar = \"/far/log.csv\"\n");
    const Document document = Document::from_file(file.path(), problems);
    CHECK(document.root().path("other") == (std::filesystem::path(file.path()).parent_path() / "log.csv").string());
    CHECK(document.root().path("far") == "/far/log.csv");
    const Document text = Document::from_text("other = \"log.csv\"\n", "folder/yard.toml", problems);
    CHECK(text.root().path("other") == "log.csv");
    CHECK_FALSE(text.root().path("none"));
  }
}

TEST_CASE("dates in a text", "[document]") {
  CHECK(print_date(read_date("2026-11-07")) == "2026-11-07");
  CHECK(print_date(read_date("2024-02-29")) == "2024-02-29");
  const std::string text =
      GENERATE("", "2026-11-7", "11/07/2026", "2026-11-07T00:00", "2026-13-01", "2026-02-29", "2026-00-10", "+026-11-07");
  CAPTURE(text);
  CHECK_THROWS_AS(read_date(text), TextError);
}
