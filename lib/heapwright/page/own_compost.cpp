#include "heapwright/page/own_compost.hpp"

#include <algorithm>

#include "heapwright/maturity/verdict.hpp"
#include "heapwright/page/nutrients_parts.hpp"
#include "heapwright/page/pile_now.hpp"

namespace heapwright {
namespace {

/// Its salts were measured as turf specifications have them, and none of them takes it.
bool fails_every_limit_of_salts(const YardCompost& compost) {
  bool any = false;
  for (const TurfResult& result : compost.known.turf) {
    if (result.property->measured != TestQuantity::electric_conductivity || !result.ok) continue;
    if (*result.ok) return false;
    any = true;
  }
  return any;
}

}  // namespace

void say_own_compost(Page& page, const SpreadingAdvice& advice, const YardCompost& compost) {
  const bool is_raw = is_to_be_mended(verdict_of(compost.known));
  if (!is_raw && !fails_every_limit_of_salts(compost)) return;
  Paragraph keep_off{is_raw ? say("Keep your own compost off the lawn for now. {}", verdict_in_short(compost))
                            : Words("Keep your own compost off the lawn: its salts fail every limit for turf.")};
  std::vector<Block>& blocks = page.sections.at(sections_of_hold(advice)).blocks;
  blocks.insert(blocks.begin() + 1, std::move(keep_off));
}

}  // namespace heapwright
