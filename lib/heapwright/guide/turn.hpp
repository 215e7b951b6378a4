#pragma once
/// What somebody wants who does not answer a question: to stop, to go back, to be told more.

#include <string>

namespace heapwright {

/// What is wanted.
enum class Turn { answer, quit, back, start_over, explain };

/// "exit", "go back", "start over", "help", "what do you mean?"; all else is an answer.
/// @param plain in its plain form (plain_answer())
Turn turn_of(const std::string& plain);

}  // namespace heapwright
