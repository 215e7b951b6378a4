#include "heapwright/guide/turn.hpp"

#include <array>

#include "heapwright/guide/plain.hpp"

namespace heapwright {

Turn turn_of(const std::string& plain) {
  constexpr auto quits =
      std::to_array<std::string_view>({"quit", "exit", "q", "stop", "cancel", "abort", "bye", "goodbye", "end", "quit it", "i quit",
                                       "forget it", "never mind", "nevermind", "get me out", "exit()", ":q", "x"});
  constexpr auto backs = std::to_array<std::string_view>(
      {"back", "go back", "b", "undo", "previous", "prev", "back up", "last question", "previous question", "oops", "i made a mistake"});
  constexpr auto restarts = std::to_array<std::string_view>({"start over", "restart", "start again", "begin again", "over",
                                                             "from the start", "from the top", "go to the start", "redo", "reset"});
  constexpr auto explains = std::to_array<std::string_view>({"help",
                                                             "h",
                                                             "what",
                                                             "huh",
                                                             "what do you mean",
                                                             "what does that mean",
                                                             "what does this mean",
                                                             "what is that",
                                                             "what's that",
                                                             "explain",
                                                             "i don't understand",
                                                             "i don't get it",
                                                             "don't understand",
                                                             "help me",
                                                             "why",
                                                             "why do you ask",
                                                             "how",
                                                             "how do i tell",
                                                             "how do i know",
                                                             "like what",
                                                             "such as",
                                                             "say what",
                                                             "come again",
                                                             "examples",
                                                             "example"});
  if (is_one_of(plain, quits)) return Turn::quit;
  if (is_one_of(plain, backs)) return Turn::back;
  if (is_one_of(plain, restarts)) return Turn::start_over;
  if (is_one_of(plain, explains)) return Turn::explain;
  return Turn::answer;
}

}  // namespace heapwright
