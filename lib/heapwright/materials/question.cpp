#include "heapwright/materials/question.hpp"

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, AnswerKind>> kind_words{
    {"amount", AnswerKind::amount},     {"count", AnswerKind::count},     {"yes-no", AnswerKind::yes_no},
    {"area", AnswerKind::area},         {"size", AnswerKind::size},       {"date", AnswerKind::date},
    {"interval", AnswerKind::interval}, {"climate", AnswerKind::climate}, {"things", AnswerKind::things}};

void read_question(Table& table, Question& row) {
  row.ask = table.text("ask").value_or("");
  row.example = table.text("example").value_or("");
  row.kind = table.one_of("kind", kind_words).value_or(AnswerKind::amount);
  row.bare = table.text("bare").value_or("");
  row.usual = table.text("default").value_or("");
  row.not_known = table.text("not_known").value_or("");
  row.only_after = table.text("only_after").value_or("");
  for (const Value& value : table.list("only_where")) row.only_where.push_back(value.text().value_or(""));
}

void read_questions(Table& root, std::vector<Question>& rows) { read_rows(root, "question", rows, read_question); }

}  // namespace

std::vector<Question> built_in_questions() { return read_built_in("questions.toml", read_questions); }

}  // namespace heapwright
