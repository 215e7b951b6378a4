/// What people type in their own words: the first letter of an input chooses what they are asked for, the rest is what they say.

#include "checks.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/said_date.hpp"
#include "heapwright/guide/said_load.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/guide/turn.hpp"
#include "heapwright/guide/yard_text.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/maturity/observations.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/time/numeric_date.hpp"
#include "heapwright/time/written_time.hpp"
#include "heapwright/units/nearest.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

/// What went in, as the yard file that it is written to says it.
void check_loads(std::string_view text) {
  const std::vector<SaidLoad> said = said_loads(text, today, tables().materials);
  Problems problems;
  const Document document = Document::from_text(with_loads("", said), "loads.toml", problems);
  Table root = document.root();
  const std::vector<Load> again = read_loads(root, tables().materials);
  must_end_well([&] { problems.throw_if_any(); });
  require(again.size() == said.size(), "each load that is written is read again");
  for (std::size_t i = 0; i < said.size(); ++i)
    require(are_alike(said[i].load, again[i]), "a load that is written is read again as the same");
}

void check_time(std::string_view text) {
  const WrittenTime time = read_time(text);
  require(is_time(text), "what is read as a time is one");
  const WrittenTime again = read_time(print_time(time));
  require(again.shown == time.shown && again.offset == time.offset, "a time that is printed is read again as the same");
}

void check_supply(std::string_view text) {
  const Supply supply = read_said_supply(text, tables().materials);
  require(!supply.feedstock.id.empty(), "a supply is of something");
}

void read_one(char which, std::string_view text) {
  const std::string plain = plain_answer(text);
  const Materials& materials = tables().materials;
  switch (which) {
    case 'a': return check_supply(text);
    case 'b': return check_loads(text);
    case 'c': require(read_said_date(plain, today).ok(), "a day is one of the calendar"); return;
    case 'd': return check_time(text);
    case 'e': require(read_date(print_date(read_date(text))) == read_date(text), "a day that is printed is read again as the same"); return;
    case 'f':
      if (const auto date = numeric_date(text)) read_numeric_date(text, DayOrder::month_first);
      return;
    case 'g': require(!read_all_noticed(*tables().symptoms, text).empty(), "who notices something notices something"); return;
    case 'h':
      state_named(*tables().climates, text);
      is_apart_from_its_state(*tables().climates, text);
      return;
    case 'i': climate_like(*tables().climates, text); return;
    case 'j': turn_of(plain); return;
    case 'k':
      if (const auto two = two_numbers(plain)) require(!two->low.empty() && !two->high.empty(), "two numbers are two");
      middle_of(plain);
      return;
    case 'l': sides_of(plain, "ft"); return;
    case 'm': read_things(plain, materials); return;
    case 'n': find_feedstock(materials, text); return;
    case 'o': compost_called(materials, text); return;
    case 'p': require(plain_answer(plain_answer(plain)).size() <= 4 * plain.size() + 16, "what is plain stays short"); return;
    case 'q': read_month(text); return;
    case 'r': read_clock(text); return;
    case 's':
      sized_bags(plain);
      plain_amount(plain, "leaf-bag");
      return;
    default:
      is_bare_number(plain);
      is_nothing(plain);
      is_do_not_know(plain);
      unit_behind(plain);
      return;
  }
}

}  // namespace

void read_typed(std::string_view text) {
  if (text.empty()) return;
  if (ends_well([&] { read_one(text.front(), text.substr(1)); })) count_answered();
}

}  // namespace heapwright::fuzz
