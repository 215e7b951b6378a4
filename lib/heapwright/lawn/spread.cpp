#include "heapwright/lawn/spread.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/lawn/jobs.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

bool is_on(const std::string& spread_on, const Zone& zone) {
  return spread_on.empty() || spread_on == zone.name || (zone.job && spread_on == *zone.job);
}

/// The job or the zone that a spread names, of those of the file.
std::string read_spread_on(Table& table, const Lawn& lawn) {
  const auto job = table.text("job");
  const auto zone = table.text("zone");
  if (job && zone) table.problem_at("zone", "names a zone beside a job", "write one of them");
  const auto has_job = [&](const Zone& one) { return one.job == job; };
  const auto has_name = [&](const Zone& one) { return one.name == zone; };
  if (job && std::none_of(lawn.zones.begin(), lawn.zones.end(), has_job))
    table.problem_at("job", fmt::format("there is no job \"{}\" with a zone", *job), "name a [[job]] of this file");
  if (zone && std::none_of(lawn.zones.begin(), lawn.zones.end(), has_name))
    table.problem_at("zone", fmt::format("there is no zone \"{}\"", *zone), "name a [[lawn.zone]] of this file");
  return job ? *job : zone.value_or("");
}

/// What it was meant to take, and its area.
Volume meant(Spread& spread, const std::optional<Length>& aim, const Lawn& lawn, const TopdressingPlan& plan) {
  Volume volume;
  for (const Zone& zone : lawn.zones) {
    if (!is_on(spread.of, zone)) continue;
    spread.area += zone.area;
    volume += zone.area * aim.value_or(depth_of(zone, plan));
  }
  return volume;
}

Spread read_spread(Table& table, const Lawn& lawn, const TopdressingPlan& plan, const Materials& materials) {
  Spread spread;
  spread.of = read_spread_on(table, lawn);
  spread.date = table.date("date");
  table.require("used", "write used = \"11 yd3\"");
  const auto used = table.read("used", [&](std::string_view text) { return read_compost_volume(text, materials); });
  if (used && !is_positive(*used)) table.problem_at("used", "something was spread", "write used = \"11 yd3\"");
  const auto aim = table.read("depth", read_length);
  if (aim && !is_positive(*aim)) table.problem_at("depth", "a topdressing has a depth", "write depth = \"1/4 in\"");
  const Volume volume = meant(spread, aim, lawn, plan);
  table.finish();
  if (!used || !is_positive(*used) || !is_positive(volume)) return spread;
  spread.used = *used;
  spread.aim = volume / spread.area;
  spread.depth = spread.used / spread.area;
  const double share = static_cast<double>(spread.depth / spread.aim);
  if (!(share <= spread_likely_a_slip && share >= 1.0 / spread_likely_a_slip))
    table.problem_at("used",
                     fmt::format("on {} it would lie {} deep, and {} was meant", print_in(spread.area, "ft2", 3),
                                 print_in(spread.depth, "in", 2), print_in(spread.aim, "in", 2)),
                     "say what it was spread on, zone = or job =, and how deep it was meant to lie, depth =");
  return spread;
}

}  // namespace

std::vector<Spread> read_spreads(Table& root, const std::optional<Lawn>& lawn, const TopdressingPlan& plan, const Materials& materials) {
  std::vector<Spread> spreads;
  for (Table& table : root.tables("spread")) {
    if (!lawn) {
      table.problem("what it was spread on is not measured", "write a [[lawn.zone]]");
      return {};
    }
    const Spread spread = read_spread(table, *lawn, plan, materials);
    if (is_positive(spread.used)) spreads.push_back(spread);
  }
  return spreads;
}

std::optional<ShareOfVolume> allowance_after(const std::vector<Spread>& spreads) {
  if (spreads.empty()) return std::nullopt;
  Volume used;
  Volume meant;
  for (const Spread& spread : spreads) {
    used += spread.used;
    meant += Volume(spread.area * spread.aim);
  }
  return ShareOfVolume::of(std::clamp(static_cast<double>(used / meant) - 1.0, 0.0, most_learned_allowance));
}

const Spread& latest(const std::vector<Spread>& spreads) {
  const auto is_earlier = [](const Spread& one, const Spread& other) {
    return other.date && (!one.date || std::chrono::sys_days(*one.date) < std::chrono::sys_days(*other.date));
  };
  const Spread* last = &spreads.back();
  for (const Spread& one : spreads) {
    if (is_earlier(*last, one)) last = &one;
  }
  return *last;
}

Length spread_since_last_year(const Zone& zone, const std::vector<Spread>& spreads, Date day) {
  constexpr std::chrono::days eleven_months(335);
  Length depth;
  for (const Spread& spread : spreads) {
    if (!spread.date || !is_on(spread.of, zone)) continue;
    const auto before = std::chrono::sys_days(day) - std::chrono::sys_days(*spread.date);
    if (before >= std::chrono::days(0) && before < eleven_months) depth += spread.depth;
  }
  return depth;
}

}  // namespace heapwright
