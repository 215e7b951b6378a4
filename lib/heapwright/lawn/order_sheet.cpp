#include "heapwright/lawn/order_sheet.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/order/loads.hpp"

namespace heapwright {
namespace {

Length side_of_square(Area area) { return std::sqrt(area.value()) * unit::m; }

std::vector<DepthCheck> checks_of(const std::vector<ZoneDressing>& zones, const Materials& materials) {
  std::vector<Length> depths;
  for (const ZoneDressing& zone : zones) depths.push_back(zone.depth);
  std::sort(depths.begin(), depths.end());
  depths.erase(std::unique(depths.begin(), depths.end()), depths.end());
  std::vector<DepthCheck> checks;
  for (const Length& depth : depths) checks.push_back(depth_check(depth, materials));
  return checks;
}

/// What a truck brings and tips.
void set_tipped(OrderSheet& sheet) {
  const std::optional<Ordering>& ordering = sheet.topdressing.ordering;
  if (!ordering || !ordering->best) return;
  Volume largest;
  for (const OrderLine& line : ordering->best->lines) {
    const Offer& offer = ordering->question.offers[line.offer];
    if (std::holds_alternative<ContainerCount>(offer.unit) || offer.own_haulage) continue;
    sheet.loads += count_of_loads(line);
    largest = std::max(largest, one_load_of(line));
  }
  if (is_positive(largest)) sheet.tipped = tipped_pile(largest);
}

Area area_of_surface(const std::vector<ZoneDressing>& zones, Surface surface) {
  Area area;
  for (const ZoneDressing& zone : zones) area += zone.surface == surface ? zone.area : Area();
  return area;
}

std::vector<SeedForArea> seeds_for(const Topdressing& topdressing, const SheetLines& lines) {
  std::vector<SeedForArea> seeds;
  for (const SeedRate& seed : lines.seeds) {
    const Area area = area_of_surface(topdressing.zones, seed.surface);
    if (seed.grass == grass_of(topdressing.plan) && is_positive(area))
      seeds.push_back({&seed, Mass(*seed.rate.low * area), Mass(*seed.rate.high * area)});
  }
  return seeds;
}

Site site_of(const std::vector<std::string>& names, const std::vector<Job>& jobs, const std::optional<Site>& of_file) {
  for (const Job& job : jobs) {
    if (job.site && std::find(names.begin(), names.end(), job.name) != names.end()) return *job.site;
  }
  return of_file.value_or(Site());
}

}  // namespace

DepthCheck depth_check(Length depth, const Materials& materials) {
  if (!is_positive(depth)) throw DomainError("a topdressing has a depth", "write \"1/4 in\"");
  const auto square = [&](const char* container) { return side_of_square(known_row(*materials.containers, container).volume / depth); };
  const Length barrow = square("wheelbarrow");
  return {depth, barrow, std::sqrt(0.5) * barrow, square("bucket"), Volume(tarp_side * tarp_side * depth)};
}

OrderSheet order_sheet(std::string name, Site site, Topdressing topdressing, const Materials& materials, const SheetLines& lines) {
  OrderSheet sheet;
  sheet.name = std::move(name);
  sheet.site = std::move(site);
  sheet.checks = checks_of(topdressing.zones, materials);
  if (topdressing.mass && topdressing.wheelbarrow) {
    const double share = topdressing.wheelbarrow->volume / topdressing.volume_with_allowance;
    sheet.barrow = {share * topdressing.mass->low, share * topdressing.mass->likely, share * topdressing.mass->high};
  }
  sheet.seeds = seeds_for(topdressing, lines);
  sheet.water = 0.5 * unit::inch * topdressing.area;
  sheet.cautions = cautions_for(*materials.cautions, facts_of(topdressing.plan));
  sheet.topdressing = std::move(topdressing);
  set_tipped(sheet);
  return sheet;
}

std::vector<OrderSheet> order_sheets(const DressedJobs& dressed, const std::vector<Job>& jobs, const std::optional<Site>& of_file,
                                     const Materials& materials, const SheetLines& lines) {
  std::vector<OrderSheet> sheets;
  for (const DressedDrop& drop : dressed.drops)
    sheets.push_back(order_sheet(fmt::format("{}", fmt::join(drop.jobs, " and ")), site_of(drop.jobs, jobs, of_file), drop.topdressing,
                                 materials, lines));
  return sheets;
}

}  // namespace heapwright
