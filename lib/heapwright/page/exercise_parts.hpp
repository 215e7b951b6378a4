#pragma once
/// What a problem sheet says of each problem. Not installed.

#include <string_view>

#include "heapwright/exercise/exercise.hpp"
#include "heapwright/page/words.hpp"

namespace heapwright {

/// "Moisture of a sample"
std::string_view kind_title(const ExerciseProblem& problem);
/// What is given, and what is asked.
Words asked_words(const ExerciseProblem& problem, const Exercise& exercise, const Materials& materials);
/// "75 %"
Words answer_words(const ExerciseProblem& problem, const Exercise& exercise);
/// What comes out by the usual mistake: "300 %, of the dry weight".
Words mistaken_words(const ExerciseProblem& problem, const Exercise& exercise);
/// Why that is wrong.
std::string_view why_mistaken(const ExerciseProblem& problem, const Exercise& exercise);

}  // namespace heapwright
