#include "heapwright/exercise/exercise.hpp"

#include "heapwright/materials/rows.hpp"
#include "heapwright/page/exercise_parts.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/page/parts.hpp"

namespace heapwright {
namespace {

constexpr int lines_to_write = 7;  // so that seven problems and what is done by hand fit on two sides

Number plain_number(std::size_t count) { return whole(static_cast<long long>(count)); }

std::string title_of_sheet(const std::string& what, const Exercise& exercise) {
  return what + " " + std::to_string(exercise.seed) + ", level " + std::to_string(static_cast<int>(exercise.level));
}

Words heading_of(const ExerciseProblem& problem, std::size_t number) { return say("{}. {}", plain_number(number), kind_title(problem)); }

/// "weighed = …", as it stands in a yard file, with blanks.
std::vector<Words> lines_of_yard_file(const SheetUnits& units) {
  const std::string& heavy = units.working->mass.symbol;
  const std::string& light = units.small.symbol;
  return {say("weighed = { container = \"bucket\", full = \"____ {}\", empty = \"____ {}\" }", heavy, heavy),
          say("dried = { wet = \"____ {}\", dry = \"____ {}\" }", light, light), "feel = \"____\""};
}

/// The caution about lifting, of a bucket: its own words are of bags and cans that weigh more.
Caution lifting_a_bucket(const Materials& materials) {
  Caution caution = known_row(*materials.cautions, "heavy-lifting");
  caution.text = "A full bucket of something wet is heavy: lift it close to you and with your legs, or let two carry it.";
  caution.in_short = "Two carry a full bucket.";
  return caution;
}

/// What a class does with its hands.
void say_squeeze_and_weigh(PageWriter& writer, const Exercise& exercise, const Materials& materials) {
  const std::string& heavy = exercise.units->working->mass.symbol;
  const std::string& light = exercise.units->small.symbol;
  writer.section(Depth::act, "Squeeze and weigh, in pairs");
  writer.block(
      Numbered{{"Fill a bucket with one kind of browns or greens, as it goes into a pile. Weigh it; weigh the bucket empty.",
                "Squeeze a handful hard and open your hand: it drips, clumps or crumbles.",
                "Weigh another handful. At home let it dry, spread out somewhere warm, until it loses no more, and weigh it again."}});
  writer.block(Form{{{"What it is", {}},
                     {say("Bucket full, {}", heavy), {}},
                     {say("Bucket empty, {}", heavy), {}},
                     {"It drips, clumps, crumbles", {}},
                     {say("Handful wet, {}", light), {}},
                     {say("Handful dry, {}", light), {}}}});
  writer.paragraph(
      "For those who keep a yard file for the program: your figures go below that [[supply]], and answers go by them in place of the "
      "tables:");
  writer.bullets(lines_of_yard_file(*exercise.units));
  Warnings warnings;
  for (const char* id : {"dust-and-mold", "compost-germs"}) warnings.cautions.push_back(known_row(*materials.cautions, id));
  warnings.cautions.push_back(lifting_a_bucket(materials));
  writer.block(std::move(warnings));
}

}  // namespace

Page exercise_page(const Exercise& exercise, const Materials& materials) {
  PageWriter writer("Problem sheet", title_of_sheet("Problem sheet", exercise));
  writer.section(Depth::act).block(Form{{{"Name", {}}}});
  for (std::size_t i = 0; i < exercise.problems.size(); ++i) {
    const ExerciseProblem& problem = exercise.problems[i];
    writer.section(Depth::act, heading_of(problem, i + 1));
    writer.paragraph(asked_words(problem, exercise, materials)).block(RoomToWrite{lines_to_write}).block(Form{{{"Answer", {}}}});
  }
  say_squeeze_and_weigh(writer, exercise, materials);
  return std::move(writer).page();
}

Page answers_page(const Exercise& exercise) {
  PageWriter writer("Answers", title_of_sheet("Answers to problem sheet", exercise));
  for (std::size_t i = 0; i < exercise.problems.size(); ++i) {
    const ExerciseProblem& problem = exercise.problems[i];
    writer.section(Depth::act, heading_of(problem, i + 1));
    writer.paragraph(say("{}.", capital(answer_words(problem, exercise))));
    if (!problem.working.steps().empty()) writer.block(WorkedOut{problem.working});
    writer.paragraph(say("Usual wrong answer: {}. {}", mistaken_words(problem, exercise), why_mistaken(problem, exercise)));
  }
  return std::move(writer).page();
}

}  // namespace heapwright
