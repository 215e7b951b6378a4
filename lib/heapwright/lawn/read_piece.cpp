#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "heapwright/input/document.hpp"
#include "heapwright/input/file.hpp"
#include "heapwright/input/limits.hpp"
#include "heapwright/lawn/geo_file.hpp"
#include "heapwright/lawn/outline.hpp"
#include "heapwright/lawn/read_piece_parts.hpp"
#include "heapwright/lawn/shapes.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, Shape>> shape_words{
    {"area", Shape::area},         {"rectangle", Shape::rectangle}, {"ellipse", Shape::ellipse}, {"circle", Shape::circle},
    {"triangle", Shape::triangle}, {"trapezoid", Shape::trapezoid}, {"offsets", Shape::offsets}, {"radii", Shape::radii},
    {"polygon", Shape::polygon},   {"geojson", Shape::geojson},     {"gpx", Shape::gpx}};

constexpr const char* shape_keys[] = {"area",     "length",  "width",   "diameter", "base",  "height", "sides",
                                      "parallel", "spacing", "offsets", "tapers",   "radii", "points", "file"};

/// Reads the shape of one table.
class ShapeReader {
 public:
  ShapeReader(Table& table, const Surveying& surveying) : table_(table), surveying_(surveying) {}

  std::vector<SurveyedPiece> read(Shape shape) {
    if (shape == Shape::geojson) return of_file(".geojson", read_geojson, shape);
    if (shape == Shape::gpx) return of_file(".gpx", read_gpx, shape);
    std::optional<Piece> piece = of_lengths(shape);
    return piece ? std::vector<SurveyedPiece>{{std::move(*piece)}} : std::vector<SurveyedPiece>();
  }

 private:
  std::optional<Piece> of_lengths(Shape shape) {
    switch (shape) {
      case Shape::area: return given_area();
      case Shape::rectangle: return of_two(shape, "length", "width", rectangle_area);
      case Shape::ellipse: return of_two(shape, "length", "width", ellipse_area);
      case Shape::circle: return circle();
      case Shape::triangle: return triangle();
      case Shape::trapezoid: return trapezoid();
      case Shape::offsets: return offsets();
      case Shape::radii: return radii();
      case Shape::polygon: return polygon();
      case Shape::geojson:
      case Shape::gpx: return std::nullopt;
    }
    return std::nullopt;
  }

  /// The area of something, or a problem at a key where there is no such thing.
  template <class AreaOf>
  std::optional<Area> measured(std::string_view key, AreaOf area) {
    try {
      return area();
    } catch (const DomainError& error) {
      table_.problem_at(key, error.what(), error.hint());
      return std::nullopt;
    }
  }

  std::optional<Length> side(std::string_view key) {
    table_.require(key, fmt::format("write {} = \"60 ft\"", key));
    return table_.read(key, [&](std::string_view text) { return read_side(text, surveying_); });
  }

  /// Every length of a list; nothing, and a problem, where one of them is none.
  template <class ReadLength>
  std::optional<std::vector<Length>> lengths(std::string_view key, ReadLength read_one) {
    const std::vector<Value> values = table_.list(key);
    std::vector<Length> all;
    for (const Value& value : values) {
      if (const auto length = value.read(read_one)) all.push_back(*length);
    }
    return all.size() == values.size() ? std::optional(all) : std::nullopt;
  }

  std::vector<Length> sides(std::string_view key, std::size_t count) {
    const auto some = lengths(key, [&](std::string_view text) { return read_side(text, surveying_); });
    if (!some) return {};
    if (some->size() == count) return *some;
    table_.problem(fmt::format("{} wants {} lengths", key, count),
                   fmt::format("write {} = [{}\"40 ft\", \"60 ft\"]", key, count == 2 ? "" : "\"50 ft\", "));
    return {};
  }

  template <class AreaOfTwo>
  std::optional<Piece> of_two(Shape shape, std::string_view first_key, std::string_view second_key, AreaOfTwo area) {
    const auto first = side(first_key);
    const auto second = side(second_key);
    if (!first || !second) return std::nullopt;
    return Piece{shape, {*first, *second}, area(*first, *second)};
  }

  std::optional<Piece> given_area() {
    table_.require("area", "write area = \"5000 ft2\"");
    const auto area = table_.read("area", read_area);
    if (!area) return std::nullopt;
    return Piece{Shape::area, {}, *area};
  }

  std::optional<Piece> circle() {
    const auto diameter = side("diameter");
    if (!diameter) return std::nullopt;
    return Piece{Shape::circle, {*diameter}, circle_area(*diameter)};
  }

  std::optional<Piece> triangle() {
    table_.expect("sides");
    if (!table_.has("sides"))
      return of_two(Shape::triangle, "base", "height", [](Length base, Length height) { return triangle_area(base, height); });
    const std::vector<Length> three = sides("sides", 3);
    if (three.empty()) return std::nullopt;
    const auto area = measured("sides", [&] { return triangle_area(three[0], three[1], three[2]); });
    return area ? std::optional(Piece{Shape::triangle, three, *area}) : std::nullopt;
  }

  std::optional<Piece> trapezoid() {
    const std::vector<Length> parallel = sides("parallel", 2);
    const auto height = side("height");
    if (parallel.empty() || !height) return std::nullopt;
    return Piece{Shape::trapezoid, {parallel[0], parallel[1], *height}, trapezoid_area(parallel[0], parallel[1], *height)};
  }

  /// A width, which may be none at an end.
  Length read_width(std::string_view text) const { return text == "0" ? Length() : read_length_of(text); }
  Length read_length_of(std::string_view text) const {
    const Length length = read_length(text);
    return length == Length() ? length : read_side(text, surveying_);
  }

  /// Widths with the ends where it runs out to nothing, one spacing beyond the first and the last.
  std::vector<Length> with_ends(std::vector<Length> widths) {
    const bool has_ends = widths.front() == Length() || widths.back() == Length();
    if (has_ends) {
      table_.expect("tapers");
      return widths;
    }
    table_.require("tapers",
                   "do the ends run out to nothing, one spacing beyond the first and the last width? Write tapers = true; "
                   "where they end straight across, tapers = false");
    if (!table_.flag("tapers").value_or(false)) return widths;
    widths.insert(widths.begin(), Length());
    widths.push_back(Length());
    return widths;
  }

  std::optional<Piece> offsets() {
    const auto spacing = side("spacing");
    table_.require("offsets", "write offsets = [\"12 ft\", \"15 ft\", \"14 ft\"]: the widths at equal spacings");
    const auto given = lengths("offsets", [&](std::string_view text) { return read_width(text); });
    if (!spacing || !given) return std::nullopt;
    if (given->size() < 2) {
      table_.problem_at("offsets", "a width alone has no area", "write two or more, at equal spacings from one end to the other");
      return std::nullopt;
    }
    const std::vector<Length> widths = with_ends(*given);
    Piece piece{Shape::offsets, widths, offsets_area(*spacing, widths)};
    if (can_use_simpson(widths)) piece.by_simpson = offsets_area_by_simpson(*spacing, widths);
    piece.sides.insert(piece.sides.begin(), *spacing);
    return piece;
  }

  std::optional<Piece> radii() {
    table_.require("radii", "write radii = [\"20 ft\", \"22 ft\", \"19 ft\", \"21 ft\"]: from a point in the middle, equal angles apart");
    const auto distances = lengths("radii", [&](std::string_view text) { return read_side(text, surveying_); });
    if (!distances) return std::nullopt;
    const auto area = measured("radii", [&] { return radii_area(*distances); });
    return area ? std::optional(Piece{Shape::radii, *distances, *area}) : std::nullopt;
  }

  /// [east, north], of any place; either may be below zero.
  std::optional<PlanPoint> point(const Value& value) const {
    const std::vector<Value> both = value.is_list() ? value.items() : std::vector<Value>();
    if (both.size() != 2) {
      value.problem("is no point", "a point is two lengths: [\"0 ft\", \"30 ft\"]");
      return std::nullopt;
    }
    const auto east = both[0].read(read_length);
    const auto north = both[1].read(read_length);
    return east && north ? std::optional(PlanPoint{*east, *north}) : std::nullopt;
  }

  std::optional<Piece> polygon() {
    table_.require("points", "write points = [[\"0 ft\", \"0 ft\"], [\"60 ft\", \"0 ft\"], [\"60 ft\", \"30 ft\"]]");
    const std::vector<Value> values = table_.list("points");
    Outline outline;
    for (const Value& value : values) {
      if (const auto one = point(value)) outline.push_back(*one);
    }
    if (outline.size() != values.size() || values.empty()) return std::nullopt;
    const auto area = measured("points", [&] { return outline_area(without_repeats(outline)); });
    return area ? std::optional(Piece{Shape::polygon, {}, *area}) : std::nullopt;
  }

  // --- files ---

  template <class ReadFile>
  std::vector<SurveyedPiece> of_file(const char* ending, ReadFile pieces_of, Shape shape) {
    table_.require("file", fmt::format("write file = \"lawn{}\"", ending));
    const auto path = table_.path("file");
    if (!path) return {};
    constexpr std::size_t largest = 1U << 24U;
    const std::string text = contents_of(*path, {largest, ending, "leave out what is no lawn"});
    try {
      return surveyed(pieces_of(without_byte_order_mark(text)), shape);
    } catch (const Error& error) {
      table_.problem_at("file", fmt::format("{}: {}", *path, error.what()), error.hint());
      return {};
    }
  }

  static Area area_of_edge(const std::vector<GeoPoint>& edge, const std::string& name) {
    try {
      return geodesic_area(edge);
    } catch (const DomainError& error) {
      throw TextError(name.empty() ? error.what() : fmt::format("{}: {}", name, error.what()), error.hint());
    }
  }

  static void check_count(const std::vector<GeoPiece>& found) {
    std::size_t count = found.size();
    for (const GeoPiece& one : found) count += one.holes.size();
    if (count > most_pieces) throw TextError(fmt::format("has more than {} pieces and holes", most_pieces), "leave out what is no lawn");
  }

  static std::vector<SurveyedPiece> surveyed(const std::vector<GeoPiece>& found, Shape shape) {
    check_count(found);
    std::vector<SurveyedPiece> pieces;
    for (const GeoPiece& one : found) {
      SurveyedPiece piece{{shape, {}, area_of_edge(one.edge, one.name), one.name}};
      piece.is_cut_out = one.is_cut_out;
      for (const auto& hole : one.holes) piece.holes.push_back({shape, {}, area_of_edge(hole, one.name), "a hole in it"});
      if (one.is_cut_out) piece.lies_in = piece_around(one, found);
      pieces.push_back(std::move(piece));
    }
    return pieces;
  }

  /// The place of the first piece that another lies in. @throws TextError where it lies in none
  static std::size_t piece_around(const GeoPiece& cut, const std::vector<GeoPiece>& found) {
    const GeoPoint& origin = cut.edge.front();
    const Outline inner = plan_of(cut.edge, origin);
    for (std::size_t i = 0; i < found.size(); ++i) {
      if (!found[i].is_cut_out && lies_in(inner, plan_of(found[i].edge, origin))) return i;
    }
    throw TextError(fmt::format("{} lies in no lawn of the file", cut.name.empty() ? "a cut-out" : cut.name),
                    "draw it inside the piece that it is taken from");
  }

  Table& table_;
  const Surveying& surveying_;
};

/// The ground of a plan's area is larger by √(1 + s²).
void lay_on_slope(Piece& piece, double slope) {
  piece.slope = slope;
  const double more = std::hypot(1.0, slope);
  piece.area = more * piece.area;
  if (piece.by_simpson) piece.by_simpson = more * *piece.by_simpson;
}

bool is_of_a_plan(Shape shape, const std::optional<MeasuredBy>& measured_by) {
  return shape == Shape::geojson || shape == Shape::gpx || measured_by == MeasuredBy::tracing || measured_by == MeasuredBy::gps;
}

/// Rise over run: "25 %". @throws TextError
double read_slope(std::string_view text) {
  struct OfRun;
  return read_fraction<OfRun>(text).value();
}

}  // namespace

Length read_side(std::string_view text, const Surveying& surveying) {
  constexpr std::string_view paces[] = {" paces", " pace", " steps", " step"};
  for (const std::string_view word : paces) {
    if (!text.ends_with(word)) continue;
    if (!surveying.pace)
      throw TextError(fmt::format("\"{}\": nobody knows how long your pace is", text),
                      "walk 100 ft, count, and write the length of one under [lawn]: pace = \"2.5 ft\"");
    const Length paced = read_number(text.substr(0, text.size() - word.size())) * *surveying.pace;
    if (is_positive(paced)) return paced;
    throw TextError(fmt::format("\"{}\" is no length to measure with", text), "write a number above zero: \"24 paces\"");
  }
  const Length length = read_length(text);
  if (!is_positive(length))
    throw TextError(fmt::format("\"{}\" is no length to measure with", text), "write a length above zero: \"60 ft\"");
  return length;
}

std::vector<SurveyedPiece> read_pieces(Table& table, const std::optional<MeasuredBy>& measured_by, const Surveying& surveying) {
  const bool is_plain_area = table.has("area") && !table.has("shape");  // whoever gives the area needs no shape
  table.expect("shape");
  if (!is_plain_area) table.require("shape", "write shape = \"rectangle\" with length and width, or area = \"5000 ft2\"");
  const std::optional<Shape> shape = is_plain_area ? Shape::area : table.one_of("shape", shape_words);
  const auto slope = table.read("slope", read_slope);
  if (!shape) {
    for (const char* key : shape_keys) table.expect(key);
    return {};
  }
  std::vector<SurveyedPiece> pieces = ShapeReader(table, surveying).read(*shape);
  if (!slope) return pieces;
  if (!is_of_a_plan(*shape, measured_by)) {
    table.problem_at(
        "slope", "is for the area of a map or a photo, seen from above",
        "leave it out: a wheel or a tape on the ground has measured the slope with it. Of a map write measured_by = \"tracing\"");
    return pieces;
  }
  for (SurveyedPiece& piece : pieces) {
    lay_on_slope(piece.piece, *slope);
    for (Piece& hole : piece.holes) lay_on_slope(hole, *slope);
  }
  return pieces;
}

}  // namespace heapwright
