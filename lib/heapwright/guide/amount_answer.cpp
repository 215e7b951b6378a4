#include <array>
#include <optional>
#include <string>

#include "heapwright/error.hpp"
#include "heapwright/guide/kinds.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// The lengths that a sentence names: of "a pile 6 by 8 feet, to the knee" it is "6 by 8 feet".
std::string lengths_in(const std::string& said) {
  constexpr auto units =
      std::to_array<std::string_view>({"ft", "feet", "foot", "in", "inch", "inches", "m", "meters", "metres", "yd", "yard", "yards"});
  std::string lengths;
  bool after_number = false;
  for (const std::string& word : split(said, {" ", ",", "x"})) {
    const bool number = is_bare_number(word);
    if (number) lengths += (lengths.empty() ? "" : " by ") + word;
    if (after_number && is_one_of(word, units)) lengths += " " + word;
    after_number = number;
  }
  return lengths;
}

/// "a pile 6 by 8 feet, as high as my waist", "a pile 6 ft by 4 ft by 2 ft": length, width and height; nothing where it is no pile.
std::optional<Reply> read_pile(const std::string& said, const Materials& materials) {
  const bool named = said.find("pile") != std::string::npos;
  if (!named && two_numbers(said)) return std::nullopt;
  std::vector<std::string> sides = sides_of(named ? lengths_in(said) : said, "ft");
  if (!named && sides.size() != 3) sides = sides_of(lengths_in(said), "ft");
  for (const BodyHeight& row : materials.rough->heights) {
    const std::string body = row.id.substr(0, row.id.find('-'));
    if (sides.size() == 2 && said.find(body) != std::string::npos) sides.push_back(row.id);
  }
  if (!named && sides.size() != 3) return std::nullopt;
  const auto refuse = [] { throw TextError("how long, wide and high is the pile?", "write \"a pile 6 by 4 feet, knee-high\""); };
  if (sides.size() != 3) refuse();
  const Volume size = read_length(sides[0]) * read_length(sides[1]) * *read_height(sides[2], *materials.rough).typical;
  if (!is_positive(size)) refuse();
  check_plausible(size, said);
  return Reply{sides, {"some", "pile"}, {}};
}

/// What is in the bags must be what was asked for: "20 bags of grass" are no leaves. @throws TextError
void check_contents(const Question& question, const std::string& said, const Materials& materials) {
  const std::size_t of = said.find(" of ");
  if (of == std::string::npos) return;
  const Feedstock* asked_for = feedstock_called(materials, question.id);
  const std::string contents = said.substr(of + 4);
  if (contents == "them" || contents == "those" || contents == "these")
    throw TextError("how many, and how large is one?", "write for example " + question.example);
  const Feedstock* named = feedstock_called(materials, contents);
  const bool both_leaves = named != nullptr && asked_for != nullptr && named->has_tag("leaves") && asked_for->has_tag("leaves");
  if (asked_for == nullptr || named == asked_for || both_leaves) return;
  throw TextError("here " + asked_for->name + " are meant, not " + contents, "write for example " + question.example);
}

/// Without what the question says already, and with a number: "a bag or two".
std::string amount_alone(const Question& question, std::string said) {
  const bool of_a_week = question.ask.find("a week") != std::string::npos;
  for (const std::string_view after :
       {" a week", " per week", " each week", " every week", " weekly", "/wk", "/week", " /week", " per wk", " a wk"}) {
    if (of_a_week && said.ends_with(after)) said.erase(said.size() - after.size());
  }
  for (const std::string_view after : {" a year", " each year", " every year", " per year", " a season"}) {
    if (!of_a_week && said.ends_with(after)) said.erase(said.size() - after.size());
  }
  constexpr std::string_view or_two = " or 2";
  const bool one_or_two = (said.starts_with("a ") || said.starts_with("1 ")) && said.ends_with(or_two);
  return one_or_two ? "1 to 2 " + said.substr(2, said.size() - 2 - or_two.size()) : said;
}

/// "10 bags" of "10 bags oak leaves".
std::string amount_alone_of(const Question& question, const std::string& said, const Materials& materials) {
  std::string name;
  const auto amount = amount_beside_name(said, materials, name);
  if (!amount) return said;
  check_contents(question, *amount + " of " + name, materials);
  return *amount;
}

}  // namespace

Reply read_amount_answer(const Question& question, const std::string& said, const Materials& materials) {
  const bool stays = !has_digit(said) && (said.find("on the lawn") != std::string::npos || said.find("mulch") != std::string::npos);
  if (is_nothing(said) || stays) return none();
  const std::string amount = amount_alone(question, said);
  if (const auto pile = read_pile(amount, materials)) return *pile;
  if (amount.starts_with("a handful")) throw TextError("how many is a handful?", "write a number: " + question.example);
  const bool only_a_share =
      is_bare_number(amount) && amount != "1/2" && amount.find('/') != std::string::npos && amount.find(' ') == std::string::npos;
  if (only_a_share) throw TextError(in_quotes(said) + " of what?", "write for example " + question.example);
  check_contents(question, amount, materials);
  const std::string text = plain_amount(amount_alone_of(question, amount, materials), question.bare);
  const auto range = read_amount_range(text, *materials.containers);
  const Amount likely = range ? range->likely : read_amount(text, materials);
  check_plausible(likely, said);
  return is_zero(likely) ? none() : some({text});
}

/// "5000", "5000 ft2", "60 by 30", "60 ft by 30 ft".
Reply read_area_answer(const Question& question, const std::string& said) {
  if (is_nothing(said)) return none();
  std::string area = middle_of(said);
  for (const std::string_view behind : {" of lawn", " of grass", " lawn"}) {
    if (area.ends_with(behind)) area.erase(area.size() - behind.size());
  }
  const std::vector<std::string> sides = sides_of(area, "ft");
  constexpr double least_bare = 50.0;  // smaller than any lawn in square feet: acres are meant, or it is a slip
  if (is_bare_number(area) && sides.size() == 1) {
    const auto number = counted_words(area);
    if (number && number->number > 0.0 && number->number < least_bare)
      throw TextError(in_quotes(said) + " of what, square feet or acres?", "write 5000 ft2, or 1/4 acre");
  }
  const std::string text = sides.size() == 2 ? sides[0] + " by " + sides[1] : with_unit(area, question.bare);
  const Area lawn = read_area(text);
  constexpr Area largest_lawn = 1000.0 * unit::acre;  // judged
  if (lawn > largest_lawn) throw TextError(in_quotes(said) + " is more than any lawn has", "write a smaller number: 5000 ft2");
  return is_positive(lawn) ? some({text}) : none();
}

}  // namespace heapwright
