#include "heapwright/report/jobs_csv.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double mm_per_m = 1000.0;

/// RFC 4180: in quotes where a comma, a quote or a new line is in it.
std::string quoted_cell(const std::string& text) {
  if (text.find_first_of(",\"\n\r") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char letter : text) quoted += letter == '"' ? "\"\"" : std::string(1, letter);
  return quoted + "\"";
}

std::string offers_of(const Ordering& ordering) {
  std::vector<std::string> names;
  for (const OrderLine& line : ordering.best->lines) names.push_back(ordering.question.offers[line.offer].name);
  return fmt::format("{}", fmt::join(names, " and "));
}

std::string job_row(const DressedDrop& drop) {
  const Topdressing& dressing = drop.topdressing;
  const std::optional<Order>& best = dressing.ordering->best;
  const bool priced = best && !dressing.ordering->usual;
  return fmt::format("{},{},{},{},{},{},{},{},{},{}\n", quoted_cell(fmt::format("{}", fmt::join(drop.jobs, " and "))),
                     print_number(dressing.area.value(), 6), print_number(mm_per_m * dressing.depth.value(), 4),
                     print_number(dressing.volume_with_allowance.value(), 6), best ? print_number(best->volume.value(), 6) : "",
                     quoted_cell(dressing.phone_line), best ? fmt::format("{}", best->loads) : "",
                     priced ? fmt::format("{:.2f}", best->cost.value()) : "", priced ? quoted_cell(offers_of(*dressing.ordering)) : "",
                     dressing.advice.is_hold() ? "yes" : "no");
}

}  // namespace

std::string csv_of_jobs(const DressedJobs& jobs) {
  std::string text = "job,area_m2,depth_mm,compost_m3,order_m3,order,loads,cost,offers,hold\n";
  for (const DressedDrop& drop : jobs.drops) text += job_row(drop);
  return text;
}

}  // namespace heapwright
