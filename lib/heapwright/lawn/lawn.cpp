#include "heapwright/lawn/lawn.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/lawn/read_piece_parts.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

Zone* find_zone(std::vector<Zone>& zones, const std::string& name) {
  const auto found = std::find_if(zones.begin(), zones.end(), [&](const Zone& zone) { return zone.name == name; });
  return found == zones.end() ? nullptr : &*found;
}

/// Takes a cut from its zone, unless it is larger than what is left of that.
bool take_out(Zone& zone, Piece piece) {
  if (piece.area > zone.area) return false;
  zone.area -= piece.area;
  zone.cut_out.push_back(std::move(piece));
  return true;
}

/// Reads the zones and cuts of one lawn, in the order of its tables.
class LawnReader {
 public:
  explicit LawnReader(Table& table) : table_(table) {
    surveying_.pace = table_.read("pace", [](std::string_view text) { return read_side(text, {}); });
  }

  std::vector<Zone> zones() {
    std::vector<Table> zones = table_.tables("zone");
    std::vector<Table> cuts = table_.tables("without");
    if (zones.size() > most_zones || cuts.size() > most_zones) {
      table_.problem(fmt::format("more than {} zones or cuts", most_zones), "join some");
      return {};
    }
    for (Table& zone : zones) read_zone(zone);
    for (Table& cut : cuts) read_cut(cut);
    return std::move(zones_);
  }

 private:
  /// What a table says of all zones that it describes.
  Zone common_of(Table& table) {
    Zone zone;
    zone.measured_by = table.one_of("measured_by", measured_by_words());
    zone.depth = table.read("depth", [&](std::string_view text) { return read_side(text, surveying_); });
    zone.surface = table.one_of("surface", surface_words());
    zone.job = table.text("job");
    return zone;
  }

  void read_zone(Table& table) {
    const Zone common = common_of(table);
    const auto name = table.text("name");
    const std::vector<SurveyedPiece> pieces = read_pieces(table, common.measured_by, surveying_);
    table.finish();
    measured_ = measured_ && !pieces.empty();
    const bool alone = std::count_if(pieces.begin(), pieces.end(), [](const SurveyedPiece& one) { return !one.is_cut_out; }) == 1;
    std::vector<std::size_t> places;
    for (const SurveyedPiece& one : pieces) {
      places.push_back(zones_.size());
      if (!one.is_cut_out) add(table, common, one, alone ? name : std::nullopt);
    }
    for (const SurveyedPiece& one : pieces) {
      if (one.is_cut_out) take_out_of_file(table, one, places);
    }
    if (pieces.empty()) add(table, common, {}, name);  // so that cuts of it are not told to have no zone
  }

  void add(Table& table, Zone zone, const SurveyedPiece& one, const std::optional<std::string>& given) {
    zone.name = given ? *given : one.piece.name.empty() ? fmt::format("zone {}", zones_.size() + 1) : one.piece.name;
    if (find_zone(zones_, zone.name) != nullptr)
      table.problem_at("name", fmt::format("\"{}\" names two zones", zone.name), "give each zone a name of its own");
    if (one.piece.shape == Shape::gpx && !zone.measured_by) zone.measured_by = MeasuredBy::gps;
    zone.whole = one.piece;
    zone.area = one.piece.area;
    zones_.push_back(std::move(zone));
    for (const Piece& hole : one.holes) take_out(zones_.back(), hole);  // a ring inside the ring
  }

  void take_out_of_file(Table& table, const SurveyedPiece& one, const std::vector<std::size_t>& places) {
    Zone& zone = zones_[places[*one.lies_in]];
    if (!take_out(zone, one.piece))
      table.problem_at("file", fmt::format("what it cuts out of \"{}\" is larger than that", zone.name), "do two of the cuts overlap?");
  }

  /// A cut from a zone; one that names no zone is cut from the only one there is.
  void read_cut(Table& table) {
    const auto name = table.text("name");
    const auto from = table.text("from");
    const auto measured_by = table.one_of("measured_by", measured_by_words());
    std::vector<SurveyedPiece> pieces = read_pieces(table, measured_by, surveying_);
    table.finish();
    if (!from && zones_.size() != 1) {
      table.problem("from is missing: which zone is this cut out of?", "write from = \"front\"");
      return;
    }
    Zone* zone = from ? find_zone(zones_, *from) : &zones_.front();
    if (zone == nullptr) {
      refuse_unknown_zone(table, *from);
      return;
    }
    for (SurveyedPiece& one : pieces) {
      if (one.piece.name.empty() || name) one.piece.name = name.value_or("what is cut out");
      if (measured_ && !take_out(*zone, std::move(one.piece))) {
        table.problem(fmt::format("this is larger than what is left of zone \"{}\"", zone->name), "measure both again");
        return;
      }
    }
  }

  void refuse_unknown_zone(Table& table, const std::string& from) const {
    std::string names;
    for (const Zone& known : zones_) names += (names.empty() ? "" : ", ") + known.name;
    table.problem_at("from", fmt::format("there is no zone \"{}\"", from),
                     names.empty() ? "write a [[lawn.zone]] first" : "the zones are " + names);
  }

  Table& table_;
  Surveying surveying_;
  std::vector<Zone> zones_;
  bool measured_ = true;  ///< all of them, so that a cut may be called too large
};

}  // namespace

const std::vector<std::pair<std::string, Surface>>& surface_words() {
  static const std::vector<std::pair<std::string, Surface>> words{{"lawn", Surface::lawn}, {"new", Surface::bare}};
  return words;
}

std::string_view surface_word(Surface surface) { return surface_words()[surface == Surface::bare ? 1 : 0].first; }

Lawn read_lawn(Table& root) {
  std::optional<Table> table = root.table("lawn");
  if (!table) return {};
  Lawn lawn{LawnReader(*table).zones()};
  table->finish();
  return lawn;
}

Area area_of(const Lawn& lawn) {
  Area sum;
  for (const Zone& zone : lawn.zones) sum += zone.area;
  return sum;
}

std::optional<Area> spread_of(const Zone& zone) {
  return zone.measured_by ? std::optional(spread_of_area(zone.area, *zone.measured_by)) : std::nullopt;
}

std::optional<Area> spread_of(const Lawn& lawn) {
  Area sum;
  for (const Zone& zone : lawn.zones) {
    const std::optional<Area> spread = spread_of(zone);
    if (!spread) return std::nullopt;
    sum += *spread;
  }
  return lawn.zones.empty() ? std::nullopt : std::optional(sum);
}

bool wants_closer_widths(const Piece& piece) {
  return piece.by_simpson && boost::units::abs(Area(*piece.by_simpson - piece.area)) > widths_too_far_apart * piece.area;
}

}  // namespace heapwright
