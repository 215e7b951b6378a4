#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

Json notes_json(const std::vector<PileNote>& notes) {
  Json words = Json::array();
  for (const PileNote note : notes) words.push_back(note_word(note));
  return words;
}

}  // namespace

Json pile_json(const Answer<PileFit>& whole, const Materials& materials) {
  const PileFit& answer = whole.result;
  Json json{{"shape", answer.pile ? Json(shape_word(answer.pile->shape)) : Json(nullptr)}};
  // Of all piles together.
  json["volume_m3"] = answer.all ? Json(answer.all->volume.value()) : Json(nullptr);
  json["takes_m3"] = answer.pile ? Json(room_of(*answer.pile).value()) : Json(nullptr);
  json["surface_m2"] = answer.all ? optional_si(answer.all->surface) : Json(nullptr);
  json["footprint_m2"] = answer.all ? optional_si(answer.all->footprint) : Json(nullptr);
  json["count"] = answer.pile ? Json(answer.pile->count) : Json(nullptr);
  json["fits"] = optional_json(answer.fits);
  json["tall_enough_to_heat"] = answer.tall_enough_to_heat;
  json["notes"] = notes_json(answer.notes);
  json["mix_volume_m3"] = optional_si(answer.mix);
  json["left_over_m3"] = optional_si(answer.left_over);
  json["piles_needed"] = optional_json(answer.piles_needed);
  // Of the first pile.
  json["filled_height_m"] = optional_si(answer.filled_height);
  json["settled_height_m"] = optional_si(answer.settled_height);
  return with_grounds(std::move(json), whole, materials);
}

std::string json_of_pile(const Answer<PileFit>& answer, const Materials& materials) { return printed(pile_json(answer, materials)); }

}  // namespace heapwright
