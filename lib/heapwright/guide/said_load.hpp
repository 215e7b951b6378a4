#pragma once
/// What went into a pile on a day, in the words that people say it in.

#include <string>
#include <string_view>
#include <vector>

#include "heapwright/mix/load.hpp"

namespace heapwright {

struct Yard;
struct TemperatureLog;

/// A feedstock or water that went in, and its amount as a yard file takes it: "2 bucket", "2 gal".
struct SaidLoad {
  Load load;
  std::string amount;
};

/// "2 buckets leaves", "grass 3 buckets and a gallon of water": each thing of a text, of one day. None are in "none" and "-".
/// @throws TextError for what is no amount of a known thing, and for what stays out of a pile
std::vector<SaidLoad> said_loads(std::string_view text, Date date, const Materials& materials);

/// The loads alone.
std::vector<Load> loads_of(std::string_view text, Date date, const Materials& materials);

/// What the rows of a log say went in joins the loads of its yard. @throws InputError with all rows that cannot be read
void take_loads_of_log(Yard& yard, const TemperatureLog& log);

}  // namespace heapwright
