#pragma once
/// An order as it is read out on the phone, in the supplier's own units whatever units the buyer likes.

#include <string>

#include "heapwright/order/order.hpp"

namespace heapwright {

/// "12 1/2 cu yd", "40 bags of 1 cubic foot", "3 pickup loads"
std::string quantity_text(const OrderLine& line, const Offer& offer, const Materials& materials);

/// A volume in the unit that an offer is priced in: "12.2 cu yd".
std::string in_unit_of(const Offer& offer, Volume volume, int figures = 3);

/// "13 cu yd of compost screened to 3/8 in or finer, 2 loads". Loads are named where they are limited, or paid one by one.
/// Nothing where every offer is out of date.
/// @param screen the coarsest that is wanted; an offer with a finer screen is named with its own
std::string phone_line(const Ordering& ordering, Length screen, const Materials& materials);

}  // namespace heapwright
