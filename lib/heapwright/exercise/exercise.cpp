#include "heapwright/exercise/exercise.hpp"

#include "heapwright/exercise/draw_problems.hpp"

namespace heapwright {
namespace {

using DrawProblem = ExerciseProblem (*)(Draw&, Level, const SheetUnits&, const Tables&);

std::vector<DrawProblem> kinds_at(Level level) {
  std::vector<DrawProblem> kinds{draw_moisture, draw_water, draw_ratio, draw_volume, draw_log, draw_tests};
  if (level != Level::first) kinds.insert(kinds.end(), {draw_leaves, draw_nitrogen});
  return kinds;
}

}  // namespace

Exercise make_exercise(std::uint32_t seed, Level level, const SheetUnits& units, const Tables& tables) {
  constexpr std::size_t most_problems = 7;  // with room to write, on two sides
  Draw draw(seed);
  std::vector<DrawProblem> kinds = kinds_at(level);
  draw.shuffle(kinds);
  if (kinds.size() > most_problems) kinds.resize(most_problems);
  Exercise exercise{seed, level, &units, {}};
  for (const DrawProblem draw_one : kinds) exercise.problems.push_back(draw_one(draw, level, units, tables));
  return exercise;
}

}  // namespace heapwright
