#include "heapwright/materials/caution.hpp"

#include <algorithm>

namespace heapwright {

const std::vector<std::pair<std::string, Fact>>& fact_words() {
  static const std::vector<std::pair<std::string, Fact>> words{{"dusty", Fact::dusty},
                                                               {"moldy", Fact::moldy},
                                                               {"scraps", Fact::scraps},
                                                               {"fruit", Fact::fruit},
                                                               {"manure", Fact::manure},
                                                               {"herbicide", Fact::herbicide},
                                                               {"sharp-nitrogen", Fact::sharp_nitrogen},
                                                               {"printed", Fact::printed},
                                                               {"thorny", Fact::thorny},
                                                               {"soil", Fact::soil},
                                                               {"grassy", Fact::grassy},
                                                               {"leaves", Fact::leaves},
                                                               {"weedy", Fact::weedy},
                                                               {"juglone", Fact::juglone},
                                                               {"salty", Fact::salty},
                                                               {"shredded", Fact::shredded},
                                                               {"treated", Fact::treated},
                                                               {"pile", Fact::pile},
                                                               {"tall-pile", Fact::tall_pile},
                                                               {"big-dry-pile", Fact::big_dry_pile},
                                                               {"cold-season", Fact::cold_season},
                                                               {"stored-browns", Fact::stored_browns},
                                                               {"from-elsewhere", Fact::from_elsewhere},
                                                               {"heavy-containers", Fact::heavy_containers},
                                                               {"turning", Fact::turning},
                                                               {"readings", Fact::readings},
                                                               {"hot", Fact::hot},
                                                               {"smoke", Fact::smoke},
                                                               {"rats", Fact::rats},
                                                               {"topdressing", Fact::topdressing},
                                                               {"living-lawn", Fact::living_lawn},
                                                               {"near-water", Fact::near_water},
                                                               {"phosphorus-high", Fact::phosphorus_high},
                                                               {"own-compost-on-lawn", Fact::own_compost_on_lawn},
                                                               {"bought-compost", Fact::bought_compost},
                                                               {"new-ground", Fact::new_ground}};
  return words;
}

bool is_tag(Fact fact) {
  switch (fact) {
    case Fact::dusty:
    case Fact::moldy:
    case Fact::scraps:
    case Fact::fruit:
    case Fact::manure:
    case Fact::herbicide:
    case Fact::sharp_nitrogen:
    case Fact::printed:
    case Fact::thorny:
    case Fact::soil:
    case Fact::grassy:
    case Fact::leaves:
    case Fact::weedy:
    case Fact::juglone:
    case Fact::salty: return true;
    default: return false;
  }
}

std::vector<std::string> cautions_for(const std::vector<Caution>& cautions, const Facts& facts) {
  std::vector<std::string> ids;
  for (const Caution& caution : cautions) {
    if (std::any_of(caution.when.begin(), caution.when.end(), [&](Fact fact) { return facts.count(fact) != 0; })) ids.push_back(caution.id);
  }
  return ids;
}

std::vector<std::string> in_order(const std::vector<std::string>& ids, const std::vector<Caution>& cautions) {
  std::vector<std::string> order;
  for (const Caution& caution : cautions) {
    if (std::find(ids.begin(), ids.end(), caution.id) != ids.end()) order.push_back(caution.id);
  }
  return order;
}

}  // namespace heapwright
