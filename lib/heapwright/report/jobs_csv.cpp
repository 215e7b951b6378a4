#include "heapwright/report/jobs_csv.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "heapwright/report/csv_parts.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double mm_per_m = 1000.0;

std::string offers_of(const Ordering& ordering) {
  std::vector<std::string> names;
  for (const OrderLine& line : ordering.best->lines) names.push_back(ordering.question.offers[line.offer].name);
  return fmt::format("{}", fmt::join(names, " and "));
}

std::string job_row(const DressedDrop& drop) {
  const Topdressing& dressing = drop.topdressing;
  const std::optional<Order>& best = dressing.ordering->best;
  const bool priced = best && !dressing.ordering->usual;
  return fmt::format("{},{},{},{},{},{},{},{},{},{}\n", csv_cell(fmt::format("{}", fmt::join(drop.jobs, " and "))),
                     print_number(dressing.area.value(), 6), print_number(mm_per_m * dressing.depth.value(), 4),
                     print_number(dressing.volume_with_allowance.value(), 6), best ? print_number(best->volume.value(), 6) : "",
                     csv_cell(dressing.phone_line), best ? fmt::format("{}", best->loads) : "",
                     priced ? fmt::format("{:.2f}", best->cost.value()) : "", priced ? csv_cell(offers_of(*dressing.ordering)) : "",
                     dressing.advice.is_hold() ? "yes" : "no");
}

std::string item_row(const OrderLine& line, const Ordering& ordering) {
  const auto cost = [&](Cost of) { return ordering.usual ? std::string() : fmt::format("{:.2f}", of.value()); };
  return fmt::format("{},{},{},{},{},{},{},{},{}\n", csv_cell(ordering.question.offers[line.offer].name), print_number(line.units, 6),
                     print_number(line.volume.value(), 6), line.loads, line.pallets, cost(line.compost), cost(line.haulage),
                     cost(line.pallet_cost), cost(line.cost));
}

}  // namespace

std::string csv_of_order(const Ordering& ordering) {
  std::string text = "offer,units,volume_m3,loads,pallets,compost,haulage,pallet_cost,cost\n";
  if (!ordering.best) return text;
  for (const OrderLine& line : ordering.best->lines) text += item_row(line, ordering);
  return text;
}

std::string csv_of_jobs(const DressedJobs& jobs) {
  std::string text = "job,area_m2,depth_mm,compost_m3,order_m3,order,loads,cost,offers,hold\n";
  for (const DressedDrop& drop : jobs.drops) text += job_row(drop);
  return text;
}

}  // namespace heapwright
