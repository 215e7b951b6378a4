#define BOOST_ALLOW_DEPRECATED_HEADERS  // Boost.Geometry 1.74 includes one itself
#include "heapwright/lawn/outline.hpp"

#include <boost/geometry/algorithms/append.hpp>
#include <boost/geometry/algorithms/correct.hpp>
#include <boost/geometry/algorithms/covered_by.hpp>
#include <boost/geometry/algorithms/intersects.hpp>
#include <boost/geometry/algorithms/is_valid.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <boost/geometry/geometries/segment.hpp>
#include <boost/geometry/strategies/strategies.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "heapwright/error.hpp"

namespace heapwright {
namespace {

namespace bg = boost::geometry;
using PlainPoint = bg::model::d2::point_xy<double>;
using PlainPolygon = bg::model::polygon<PlainPoint>;
using PlainSegment = bg::model::segment<PlainPoint>;

PlainPoint in_meters(const PlanPoint& point) { return {point.east / unit::m, point.north / unit::m}; }

PlainPolygon polygon_of(const Outline& outline) {
  PlainPolygon polygon;
  for (const PlanPoint& point : outline) bg::append(polygon.outer(), in_meters(point));
  bg::correct(polygon);
  return polygon;
}

PlainSegment side_after(const Outline& outline, std::size_t point) {
  return {in_meters(outline[point]), in_meters(outline[(point + 1) % outline.size()])};
}

/// Two sides that have a point in common and no corner between them.
std::optional<std::pair<std::size_t, std::size_t>> crossing_sides(const Outline& outline) {
  const std::size_t count = outline.size();
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = i + 2; j < count; ++j) {
      if (i == 0 && j == count - 1) continue;
      if (bg::intersects(side_after(outline, i), side_after(outline, j))) return std::pair(i, j);
    }
  }
  return std::nullopt;
}

/// A corner where the edge goes back along itself.
std::optional<std::size_t> spike(const Outline& outline) {
  const std::size_t count = outline.size();
  for (std::size_t i = 0; i < count; ++i) {
    const PlainPoint before = in_meters(outline[(i + count - 1) % count]);
    const PlainPoint after = in_meters(outline[(i + 1) % count]);
    const bool goes_back =
        bg::intersects(before, side_after(outline, i)) || bg::intersects(after, side_after(outline, (i + count - 1) % count));
    if (goes_back) return i;
  }
  return std::nullopt;
}

[[noreturn]] void refuse(const Outline& outline) {
  const auto number = [&](std::size_t at) { return at % outline.size() + 1; };
  if (const auto corner = spike(outline))
    throw DomainError(fmt::format("its edge goes back along itself at point {}", number(*corner)), "leave that point out");
  if (const auto sides = crossing_sides(outline)) {
    const auto [one, other] = *sides;
    throw DomainError(fmt::format("its edge meets itself: from point {} to {}, and from point {} to {}", number(one), number(one + 1),
                                  number(other), number(other + 1)),
                      "give the points in the order in which one walks around");
  }
  throw DomainError("its points go around nothing", "give three or more corners in the order in which one walks around");
}

}  // namespace

Outline without_repeats(Outline outline) {
  const auto same = [](const PlanPoint& one, const PlanPoint& other) { return one.east == other.east && one.north == other.north; };
  outline.erase(std::unique(outline.begin(), outline.end(), same), outline.end());
  while (outline.size() > 1 && same(outline.front(), outline.back())) outline.pop_back();
  return outline;
}

void check_outline(const Outline& outline) {
  if (outline.size() < 3) throw DomainError("fewer than three points go around nothing", "give three or more corners");
  if (outline.size() > most_points) throw DomainError(fmt::format("more than {} points", most_points), "leave some out, or divide it");
  for (const PlanPoint& point : outline) {
    const PlainPoint at = in_meters(point);
    if (!std::isfinite(at.x()) || !std::isfinite(at.y())) throw DomainError("a point lies nowhere", "measure it again");
  }
  if (!bg::is_valid(polygon_of(outline))) refuse(outline);
}

Area outline_area(const Outline& outline) {
  check_outline(outline);
  Area twice;
  const PlanPoint& origin = outline.front();
  for (std::size_t i = 1; i + 1 < outline.size(); ++i) {
    const PlanPoint& a = outline[i];
    const PlanPoint& b = outline[i + 1];
    twice += (a.east - origin.east) * (b.north - origin.north) - (b.east - origin.east) * (a.north - origin.north);
  }
  return 0.5 * boost::units::abs(twice);
}

bool lies_in(const Outline& inner, const Outline& outer) { return bg::covered_by(polygon_of(inner), polygon_of(outer)); }

}  // namespace heapwright
