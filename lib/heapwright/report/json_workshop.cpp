#include "heapwright/report/json_workshop.hpp"

#include "heapwright/input/printable.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/roster/assumed.hpp"
#include "heapwright/roster/household_yard.hpp"

namespace heapwright {
namespace {

/// What somebody typed, which need not be UTF-8 in a CSV file.
Json typed_json(const std::string& typed) { return printable(typed); }

Json assumed_json(const Household& household) {
  Json list = Json::array();
  for (const AssumedAnswer& assumed : assumed_of(household))
    list.push_back({{"column", assumed.column},
                    {"why", why_word(assumed.why)},
                    {"typed", assumed.typed.empty() ? Json(nullptr) : typed_json(assumed.typed)},
                    {"taken", assumed.taken.empty() ? Json(nullptr) : typed_json(assumed.taken)}});
  return list;
}

Json households_json(const Workshop& workshop) {
  Json list = Json::array();
  for (const Household& household : workshop.roster.households)
    list.push_back({{"household", household.number},
                    {"line", household.where.line},
                    {"file", handout_file_of(household)},
                    {"title", typed_json(title_of(household, workshop.with_names))},
                    {"assumed", assumed_json(household)}});
  return list;
}

Json bad_rows_json(const Roster& roster) {
  Json list = Json::array();
  for (const BadRow& row : roster.bad_rows)
    list.push_back({{"household", row.household == 0 ? Json(nullptr) : Json(row.household)},
                    {"line", row.problem.where.line},
                    {"column", row.column.empty() ? Json(nullptr) : Json(row.column)},
                    {"message", typed_json(row.problem.what)},
                    {"hint", row.problem.hint.empty() ? Json(nullptr) : typed_json(row.problem.hint)}});
  return list;
}

Json typed_list_json(const std::vector<std::string>& texts) {
  Json list = Json::array();
  for (const std::string& text : texts) list.push_back(typed_json(text));
  return list;
}

Json thing_json(const ClassTotal& thing) {
  return {{"id", thing.feedstock},         {"households", thing.households},
          {"each_week", thing.each_week},  {"kept_out", thing.kept_out},
          {"mass_kg", thing.mass.value()}, {"volume_m3", is_positive(thing.volume) ? Json(thing.volume.value()) : Json(nullptr)}};
}

Json things_json(const std::vector<ClassTotal>& things) {
  Json list = Json::array();
  for (const ClassTotal& thing : things) list.push_back(thing_json(thing));
  return list;
}

Json pile_before_class_json(const std::optional<DemonstrationPile>& pile) {
  if (!pile) return nullptr;
  return {{"is_to_build", pile->is_to_build}, {"brought", things_json(pile->brought)}, {"recipe", recipe_json(pile->recipe.result)}};
}

}  // namespace

std::string json_of_workshop(const Workshop& workshop, const Materials& materials) {
  const ClassTotals& totals = workshop.totals;
  Json json{{"folder", typed_json(workshop.folder)},
            {"households", households_json(workshop)},
            {"bad_rows", bad_rows_json(workshop.roster)},
            {"kept", workshop.kept},
            {"removed", workshop.removed},
            {"unknown_columns", typed_list_json(workshop.roster.unknown_columns)},
            {"missing_columns", typed_list_json(workshop.roster.missing_columns)}};
  json["totals"] = {{"households", totals.households},
                    {"feedstocks", things_json(totals.things)},
                    {"lawns", totals.lawns},
                    {"lawn_area_m2", totals.lawn.value()},
                    {"demonstration_pile", pile_before_class_json(totals.pile)}};
  return printed(with_grounds(std::move(json), totals.pile ? Grounds(totals.pile->recipe) : Grounds(), materials));
}

}  // namespace heapwright
