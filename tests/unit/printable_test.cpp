// What steers a terminal or turns a line around does not leave the program as it stands.

#include "heapwright/input/printable.hpp"

#include <catch2/catch.hpp>

#include "heapwright/error.hpp"
#include "heapwright/materials/read_published_values.hpp"

using namespace heapwright;

TEST_CASE("what is printable stays as it is", "[printable]") {
  for (const char* text :
       {"", "leaves\n\tand ½ yd³ of “straw”", "\u00A0", "\u200D", "\u2027\u202F\u2065\u206A", "🍂", "\U0010FFFF", "\uFFFD"}) {
    CHECK(printable(text) == text);
    CHECK(printable_json(text) == text);
  }
}

TEST_CASE("controls and marks of direction are replaced", "[printable]") {
  CHECK(printable("a\x1b[31mb\rc\x7f") == "a\uFFFD[31mb\uFFFDc\uFFFD");
  CHECK(printable(std::string_view("\0", 1)) == "\uFFFD");
  for (const char* one :
       {"\xC2\x80", "\xC2\x9B", "\xC2\x9F", "\u061C", "\u200E", "\u200F", "\u2028", "\u2029", "\u202A", "\u202E", "\u2066", "\u2069"}) {
    CAPTURE(one);
    CHECK(printable(one) == "\uFFFD");
  }
  CHECK(printable_json("\"a\xC2\x9B\u202E\x7f\"\n") == "\"a\\u009b\\u202e\\u007f\"\n");
}

TEST_CASE("each byte that is not UTF-8 is replaced", "[printable]") {
  CHECK(printable("a\x9B|") == "a\uFFFD|");
  CHECK(printable("\xC2") == "\uFFFD");            // cut off
  CHECK(printable("\xE2\x80") == "\uFFFD\uFFFD");  // cut off
  CHECK(printable("\xC2\x1b") == "\uFFFD\uFFFD");
  CHECK(printable("\xC0\x9B") == "\uFFFD\uFFFD");  // longer than need be
  CHECK(printable("\xE0\x82\x9B") == "\uFFFD\uFFFD\uFFFD");
  CHECK(printable("\xED\xA0\x80") == "\uFFFD\uFFFD\uFFFD");  // half of a pair
  CHECK(printable("\xF4\x90\x80\x80") == "\uFFFD\uFFFD\uFFFD\uFFFD");
  CHECK(printable("\xF5") == "\uFFFD");
}

TEST_CASE("how much of a text is UTF-8", "[printable]") {
  CHECK(bytes_of_utf8("") == 0);
  CHECK(bytes_of_utf8("½ yd³ 🍂") == std::string_view("½ yd³ 🍂").size());
  CHECK(bytes_of_utf8(std::string_view("a\0b", 3)) == 3);
  CHECK(bytes_of_utf8("½\xE9|") == 2);
  CHECK(bytes_of_utf8("\xE9") == 0);
  CHECK(bytes_of_utf8("a\xE2\x80") == 1);
}

TEST_CASE("a name has no control characters", "[printable]") {
  CHECK(read_name("Dad's “old” leaves, ½") == "Dad's “old” leaves, ½");
  for (const char* name : {"a\nb", "a\tb", "a\x1b[31m", "a\x7f", "a\xC2\x9B[31m", "a\u202Eb", "a\u2028b", "a\u200Fb", "a\u2069"}) {
    CAPTURE(name);
    CHECK_THROWS_AS(read_name(name), TextError);
  }
}
