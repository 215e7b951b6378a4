#pragma once
/// Charts in block characters, for a terminal that shows them. Not installed.

#include <string>

#include "heapwright/page/page.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {

/// The likely core week by week, six lines high; nothing of readings alone.
std::string plot_of(const Chart& chart, const Show& show, std::size_t width);
/// What is too wide for the screen comes out empty: it stands in words beside it.
std::string plot_of(const ShareBars& bars, std::size_t width);
std::string plot_of(const Bars& bars, const Show& show, std::size_t width);

}  // namespace heapwright
