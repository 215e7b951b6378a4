#pragma once
/// The shape of a zone or of a cut, from its table. Not installed.

#include <optional>
#include <vector>

#include "heapwright/lawn/lawn.hpp"

namespace heapwright {

/// What lengths and areas of a lawn are read with.
struct Surveying {
  std::optional<Length> pace;  ///< of the person who paced them
};

/// A length above zero, "60 ft" or "24 paces". @throws TextError
Length read_side(std::string_view text, const Surveying& surveying);

/// A piece of a table; its name is the file's own, where it is read from one of GeoJSON or GPX.
struct SurveyedPiece {
  Piece piece;
  std::vector<Piece> holes{};
  bool is_cut_out = false;
  std::optional<std::size_t> lies_in{};  ///< of a cut of a file: the place among these of the piece that it is taken from
};

/// Of a table, with its `measured_by` known, all pieces that it describes: one, but for a file. None, and a problem, where it cannot be
/// measured.
std::vector<SurveyedPiece> read_pieces(Table& table, const std::optional<MeasuredBy>& measured_by, const Surveying& surveying);

}  // namespace heapwright
