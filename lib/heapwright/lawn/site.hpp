#pragma once
/// Where compost is dropped, and who meets the truck.

#include <optional>
#include <string>

#include "heapwright/time/date.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// What is empty is left to write on the order sheet by hand.
struct Site {
  std::string address;
  std::string contact;               ///< who is there, with a phone
  std::string drop_spot;             ///< "on the drive, left of the gate"
  std::string access;                ///< how the truck gets there
  std::optional<Length> gate_width;  ///< the narrowest place on the way
  std::optional<Date> deliver_from;
  std::optional<Date> deliver_to;
};

/// Reads [site] of a file or of a job.
std::optional<Site> read_site(Table& of);

}  // namespace heapwright
