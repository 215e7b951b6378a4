#include "heapwright/guide/question.hpp"

#include "heapwright/input/document.hpp"
#include "heapwright/materials/embedded.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, AnswerKind>> kind_words{
    {"amount", AnswerKind::amount},     {"count", AnswerKind::count},     {"yes-no", AnswerKind::yes_no},
    {"area", AnswerKind::area},         {"size", AnswerKind::size},       {"date", AnswerKind::date},
    {"interval", AnswerKind::interval}, {"climate", AnswerKind::climate}, {"things", AnswerKind::things}};

}  // namespace

std::vector<Question> questions() {
  Problems problems;
  Document document = Document::from_text(std::string(embedded_material("questions.toml")), "questions.toml", problems);
  Table root = document.root();
  std::vector<Question> rows;
  for (Table& table : root.tables("question")) {
    Question row;
    row.id = table.text("id").value_or("");
    row.ask = table.text("ask").value_or("");
    row.example = table.text("example").value_or("");
    row.kind = table.one_of("kind", kind_words).value_or(AnswerKind::amount);
    row.bare = table.text("bare").value_or("");
    row.usual = table.text("default").value_or("");
    row.not_known = table.text("not_known").value_or("");
    row.only_after = table.text("only_after").value_or("");
    for (const Value& value : table.list("only_where")) row.only_where.push_back(value.text().value_or(""));
    table.finish();
    rows.push_back(std::move(row));
  }
  root.finish();
  problems.throw_if_any();
  return rows;
}

}  // namespace heapwright
