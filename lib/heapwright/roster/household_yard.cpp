#include "heapwright/roster/household_yard.hpp"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid.hpp>
#include <boost/uuid/uuid_io.hpp>
#include <fmt/format.h>

#include "heapwright/guide/yard_text.hpp"

namespace heapwright {
namespace {

/// Of a fixed length: the same for the same text.
std::string short_name_of(const std::string& text) {
  return boost::uuids::to_string(boost::uuids::name_generator_sha1(boost::uuids::ns::oid())(text));
}

/// A pile of the size of another, built and turned as its own.
PileDescription with_size_of(const PileDescription& size, const PileDescription& own) {
  PileDescription pile = size;
  pile.built = own.built;
  pile.filled_as_it_comes = own.filled_as_it_comes;
  pile.turn_every = own.turn_every;
  return pile;
}

}  // namespace

std::string title_of(const Household& household, bool with_name) {
  const std::string number = "Household " + std::to_string(household.number);
  return with_name && !household.name.empty() ? number + ", " + household.name : number;
}

void note_base_answers(Roster& roster, const Yard& base) {
  for (Household& household : roster.households) {
    for (RosterAnswer& answer : household.answers) {
      const std::string& question = answer.question->id;
      const bool is_said = (question == "winter" && base.climate) || (question == "bin" && base.pile);
      answer.is_in_base = is_said && answer.is_unknown();
    }
  }
}

Yard yard_of(const Household& household, const Tables& tables, Date today, const std::string& base_file, const Yard& base) {
  Yard yard = read_yard_text(yard_text(replies_of(household), today), title_of(household, false), tables, base_file);
  for (const RosterAnswer& answer : household.answers) {
    if (answer.is_in_base && answer.question->id == "bin" && yard.pile) yard.pile = with_size_of(*base.pile, *yard.pile);
  }
  return yard;
}

std::string mark_of_weather(const Yard& yard) {
  std::string all;
  if (!yard.climate) return all;
  for (const DailyMean& day : yard.climate->days) {
    all += fmt::format("{} {} ", print_date(day.day), day.mean.celsius());
    all += day.rain ? fmt::format("{}\n", day.rain->value()) : "\n";
  }
  return short_name_of(all);
}

std::string mark_for(const Household& household, const std::string& title, const std::vector<std::string>& others) {
  std::string all;
  const auto add = [&](const std::string& text) { all += std::to_string(text.size()) + ":" + text; };  // so that no two join to the same
  add(title);
  for (const RosterAnswer& answer : household.answers) {
    add(answer.question->id);
    add(answer.typed);
  }
  for (const std::string& other : others) add(other);
  return short_name_of(all);
}

}  // namespace heapwright
