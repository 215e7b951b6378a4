#include "heapwright/page/pile_parts.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright {

std::string text_of_room(const PileFit& answer, const Show& show) {
  const Words room = room_words(answer);
  return room.empty() ? "" : wrap("  room       " + show.words(room), 17);
}

}  // namespace heapwright
