#include "heapwright/guide/turn.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <tuple>

#include "heapwright/guide/plain.hpp"

namespace heapwright {

TEST_CASE("who does not answer stops, goes back, starts over or asks", "[typed]") {
  const auto [typed, turn] = GENERATE(table<std::string, Turn>({
      {"quit", Turn::quit},
      {"Exit", Turn::quit},
      {"q", Turn::quit},
      {"STOP!", Turn::quit},
      {"back", Turn::back},
      {"Go back", Turn::back},
      {"start over", Turn::start_over},
      {"help", Turn::explain},
      {"What do you mean?", Turn::explain},
      {"?", Turn::answer},
      {"", Turn::answer},
      {"no", Turn::answer},
      {"12", Turn::answer},
      {"a quart", Turn::answer},
      {"back yard", Turn::answer},
      {"end of November", Turn::answer},
  }));
  CAPTURE(typed);
  CHECK(turn_of(plain_answer(typed)) == turn);
}

}  // namespace heapwright
