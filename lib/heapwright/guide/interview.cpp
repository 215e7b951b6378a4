#include "heapwright/guide/interview.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "heapwright/input/words.hpp"
#include "heapwright/materials/embedded.hpp"
#include "heapwright/mix/supply.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, AnswerKind>> kind_words{
    {"amount", AnswerKind::amount},     {"count", AnswerKind::count},     {"yes-no", AnswerKind::yes_no},
    {"area", AnswerKind::area},         {"size", AnswerKind::size},       {"date", AnswerKind::date},
    {"interval", AnswerKind::interval}, {"climate", AnswerKind::climate}, {"things", AnswerKind::things}};

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r\n");
  if (begin == std::string_view::npos) return {};
  return std::string(text.substr(begin, text.find_last_not_of(" \t\r\n") - begin + 1));
}

std::string lower(std::string_view text) {
  std::string words = trimmed(text);
  std::transform(words.begin(), words.end(), words.begin(), [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return words;
}

template <std::size_t n>
bool is_one_of(const std::string& said, const std::array<std::string_view, n>& words) {
  return std::find(words.begin(), words.end(), said) != words.end();
}

bool is_do_not_know(const std::string& said) {
  constexpr std::array<std::string_view, 10> words{"?",      "don't know", "dont know", "don’t know", "do not know",
                                                   "unknown", "not sure",  "no idea",   "dunno",      "idk"};
  return is_one_of(said, words);
}

bool is_nothing(const std::string& said) {
  constexpr std::array<std::string_view, 5> words{"0", "none", "nothing", "no", "zero"};
  return is_one_of(said, words);
}

bool is_bare_number(const std::string& said) {
  return !said.empty() && said.find_first_not_of("0123456789./ ") == std::string::npos;
}

Answer some(std::vector<std::string> texts) { return {std::move(texts), {"some"}, {}}; }
Answer none() { return {{}, {"none"}, {}}; }

/// With its unit, where the question named one and the answer has none.
std::string with_unit(const std::string& said, const std::string& unit) { return is_bare_number(said) ? said + " " + unit : said; }

Answer read_amount_answer(const Question& question, const std::string& said, const Materials& materials) {
  if (is_nothing(said)) return none();
  const std::string text = with_unit(said, question.bare);
  return is_zero(read_amount(text, materials.containers)) ? none() : some({text});
}

Answer read_count_answer(const std::string& said) {
  if (is_nothing(said)) return none();
  const CountedWords counted = read_counted_words(said);
  constexpr double most = 1000.0;
  if (counted.number > most) throw TextError("\"" + said + "\" is more than 1000", "write a number: 3");
  const std::string text = print_number(counted.number, 4);
  return counted.number > 0.0 ? some({text}) : none();
}

Answer read_yes_no_answer(const std::string& said) {
  constexpr std::array<std::string_view, 4> yes{"y", "yes", "yeah", "yep"};
  constexpr std::array<std::string_view, 4> no{"n", "no", "nope", "never"};
  if (is_one_of(said, yes)) return some({"yes"});
  if (is_one_of(said, no)) return none();
  throw TextError("\"" + said + "\" is neither yes nor no", "write yes, no, or ? for don't know");
}

Answer read_area_answer(const Question& question, const std::string& said) {
  if (is_nothing(said)) return none();
  const std::string text = with_unit(said, question.bare);
  return read_area(text).value() > 0.0 ? some({text}) : none();
}

std::vector<std::string> split(const std::string& text, const std::vector<std::string>& separators) {
  std::vector<std::string> parts;
  std::size_t begin = 0;
  while (begin <= text.size()) {
    std::size_t end = text.size();
    std::size_t skip = 1;
    for (const std::string& separator : separators) {
      const std::size_t found = text.find(separator, begin);
      if (found < end) {
        end = found;
        skip = separator.size();
      }
    }
    const std::string part = trimmed(text.substr(begin, end - begin));
    if (!part.empty()) parts.push_back(part);
    begin = end + skip;
  }
  return parts;
}

/// "4", "4 by 4 by 3", "4 ft x 4 ft x 3 ft": three sides; one stands for all, two for the base's and the height.
Answer read_size_answer(const Question& question, const std::string& said) {
  std::vector<std::string> sides = split(said, {" by ", " x ", "x", "×", ","});
  if (sides.empty() || sides.size() > 3) throw TextError("\"" + said + "\" is no size", "write length, width and height: 4 by 4 by 3");
  for (std::string& side : sides) {
    side = with_unit(side, question.bare);
    if (!(read_length(side).value() > 0.0)) throw TextError("a bin has a size", "write length, width and height: 4 by 4 by 3");
  }
  if (sides.size() == 1) sides = {sides[0], sides[0], sides[0]};
  if (sides.size() == 2) sides = {sides[0], sides[0], sides[1]};
  return some(sides);
}

Answer read_date_answer(const std::string& said, Date today) {
  if (said == "today" || said == "now") return some({print_date(today)});
  const std::vector<std::string> parts = split(said, {"-"});
  const bool digits = parts.size() == 3 && std::all_of(parts.begin(), parts.end(), [](const std::string& part) {
                        return part.size() <= 4 && part.find_first_not_of("0123456789") == std::string::npos;
                      });
  const std::string hint = "write year, month and day, " + print_date(today) + ", or today";
  if (!digits || parts[0].size() != 4) throw TextError("\"" + said + "\" is no date", hint);
  const Date date(std::chrono::year(std::stoi(parts[0])), std::chrono::month(static_cast<unsigned>(std::stoi(parts[1]))),
                  std::chrono::day(static_cast<unsigned>(std::stoi(parts[2]))));
  if (!date.ok()) throw TextError("\"" + said + "\" is no day of the calendar", hint);
  return some({print_date(date)});
}

Answer read_interval_answer(const Question& question, const std::string& said) {
  if (is_nothing(said) || said == "never") return none();
  std::string text = said.starts_with("every ") ? said.substr(6) : said;
  if (text == "week") text = "1 week";
  text = with_unit(text, question.bare);
  return read_duration(text).value() > 0.0 ? some({text}) : none();
}

/// "30 and 76": the coldest and the warmest month; or the name of a winter.
Answer read_climate_answer(const Question& question, const std::string& said) {
  for (const NamedClimate& climate : named_climates()) {
    if (plain_name(climate.id) == plain_name(said)) return some({climate.id});
  }
  std::vector<std::string> temperatures = split(said, {" and ", " to ", ",", " / "});
  if (temperatures.size() != 2) {
    std::string names;
    for (const NamedClimate& climate : named_climates()) names += (names.empty() ? "" : ", ") + climate.id;
    throw TextError("\"" + said + "\" is neither two temperatures nor a winter by name", "write \"30 and 76\", or one of " + names);
  }
  for (std::string& temperature : temperatures) {
    const bool bare = temperature.find_first_not_of("0123456789.-") == std::string::npos;
    if (bare) temperature += " " + question.bare;
  }
  if (read_temperature(temperatures[0]) > read_temperature(temperatures[1]))
    throw TextError("the coldest month is warmer than the warmest", "write the colder one first: 30 and 76");
  return some(temperatures);
}

/// "2 buckets of coffee grounds" or "coffee grounds: 2 buckets".
std::pair<std::string, std::string> name_and_amount(const std::string& said) {
  for (const std::string sign : {"=", ":"}) {
    const std::size_t at = said.find(sign);
    if (at != std::string::npos) return {trimmed(said.substr(0, at)), trimmed(said.substr(at + 1))};
  }
  const std::size_t of = said.find(" of ");
  if (of != std::string::npos) return {trimmed(said.substr(of + 4)), trimmed(said.substr(0, of))};
  return {said, {}};
}

Thing read_thing(const std::string& said, const Materials& materials) {
  const auto [name, amount] = name_and_amount(said);
  Supply supply = supply_of(materials, name);
  const std::string hint = "write \"2 buckets of " + name + "\"";
  if (amount.empty()) throw TextError("how much of " + name + "?", hint);
  set_amount(supply, read_amount(amount, materials.containers), materials);
  if (!supply.mass(*supply.amount)) throw TextError("no weight of a volume of " + name + " is known", "write \"5 lb of " + name + "\"");
  return {supply.feedstock.id, supply.packing_assumed ? "" : supply.packing, amount, supply.feedstock.has_tag("herbicide")};
}

Answer read_things_answer(const std::string& said, const Materials& materials) {
  if (is_nothing(said)) return none();
  Answer answer = some({});
  for (const std::string& part : split(said, {",", ";", " and "})) answer.things.push_back(read_thing(part, materials));
  if (answer.things.empty()) throw TextError("\"" + said + "\" names nothing", "write \"2 buckets of coffee grounds\", or nothing");
  if (std::any_of(answer.things.begin(), answer.things.end(), [](const Thing& thing) { return thing.herbicide; }))
    answer.is.insert("herbicide");
  return answer;
}

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

Answer read_answer(const Question& question, std::string_view words, const Materials& materials, Date today) {
  const std::string plain = lower(words);
  const std::string said = plain.empty() ? lower(question.usual) : plain;
  if (is_do_not_know(said)) return {{}, {"unknown"}, {}};
  switch (question.kind) {
    case AnswerKind::amount: return read_amount_answer(question, said, materials);
    case AnswerKind::count: return read_count_answer(said);
    case AnswerKind::yes_no: return read_yes_no_answer(said);
    case AnswerKind::area: return read_area_answer(question, said);
    case AnswerKind::size: return read_size_answer(question, said);
    case AnswerKind::date: return read_date_answer(said, today);
    case AnswerKind::interval: return read_interval_answer(question, said);
    case AnswerKind::climate: return read_climate_answer(question, said);
    case AnswerKind::things: return read_things_answer(said, materials);
  }
  return {};
}

Interview::Interview(std::vector<Question> questions, const Materials& materials, Date today)
    : questions_(std::move(questions)), materials_(materials), today_(today) {
  go_on();
}

bool Interview::is_asked(const Question& question) const {
  if (question.only_after.empty()) return true;
  const auto before = answers_.find(question.only_after);
  if (before == answers_.end()) return false;
  return std::any_of(question.only_where.begin(), question.only_where.end(),
                     [&](const std::string& what) { return before->second.is.count(what) != 0; });
}

void Interview::go_on() {
  while (at_ < questions_.size() && !is_asked(questions_[at_])) ++at_;
}

const Question* Interview::due() const { return at_ < questions_.size() ? &questions_[at_] : nullptr; }

void Interview::answer(std::string_view said) {
  const Question& question = questions_.at(at_);
  answers_[question.id] = read_answer(question, said, materials_, today_);
  asked_.push_back(at_++);
  go_on();
}

bool Interview::back() {
  if (asked_.empty()) return false;
  at_ = asked_.back();
  asked_.pop_back();
  answers_.erase(questions_[at_].id);
  return true;
}

}  // namespace heapwright
