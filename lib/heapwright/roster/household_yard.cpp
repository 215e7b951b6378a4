#include "heapwright/roster/household_yard.hpp"

#include <boost/uuid/name_generator_sha1.hpp>
#include <boost/uuid/uuid.hpp>
#include <boost/uuid/uuid_io.hpp>

#include "heapwright/guide/yard_text.hpp"

namespace heapwright {

std::string title_of(const Household& household, bool with_name) {
  const std::string number = "Household " + std::to_string(household.number);
  return with_name && !household.name.empty() ? number + ", " + household.name : number;
}

Yard yard_of(const Household& household, const Tables& tables, Date today) {
  return read_yard_text(yard_text(replies_of(household), today), title_of(household, false), tables);
}

std::string made_of(const Household& household, const std::string& title, const std::vector<std::string>& others) {
  std::string all;
  const auto add = [&](const std::string& text) { all += std::to_string(text.size()) + ":" + text; };  // so that no two join to the same
  add(title);
  for (const RosterAnswer& answer : household.answers) {
    add(answer.question->id);
    add(answer.typed);
  }
  for (const std::string& other : others) add(other);
  return boost::uuids::to_string(boost::uuids::name_generator_sha1(boost::uuids::ns::oid())(all));
}

}  // namespace heapwright
