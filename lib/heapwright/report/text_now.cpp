#include "heapwright/page/pile_now.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/report/parts.hpp"

namespace heapwright {

// For the plan, until it is a page.

std::string text_of_pile_now(const YardReadings& answer, const Materials& materials, const Show& show) {
  PageWriter writer;
  say_pile_now(writer, answer, materials);
  return text_of(std::move(writer).page(), show, Screen());
}

std::string text_of_compost_now(const YardCompost& answer, const Show& show) {
  PageWriter writer;
  say_compost_now(writer, answer);
  return text_of(std::move(writer).page(), show, Screen());
}

}  // namespace heapwright
