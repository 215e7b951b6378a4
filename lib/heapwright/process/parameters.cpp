#include "heapwright/process/parameters.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/embedded.hpp"

namespace heapwright {
namespace {

struct Symbol {
  std::string_view name;
  double ProcessParameters::*place;
};
constexpr std::array symbols{
    Symbol{"kF", &ProcessParameters::kF},     Symbol{"kS", &ProcessParameters::kS},     Symbol{"Tmin", &ProcessParameters::Tmin},
    Symbol{"Topt", &ProcessParameters::Topt}, Symbol{"Tmax", &ProcessParameters::Tmax}, Symbol{"a0", &ProcessParameters::a0},
    Symbol{"mu", &ProcessParameters::mu},     Symbol{"KO", &ProcessParameters::KO},     Symbol{"dH", &ProcessParameters::dH},
    Symbol{"yO", &ProcessParameters::yO},     Symbol{"yW", &ProcessParameters::yW},     Symbol{"cC", &ProcessParameters::cC},
    Symbol{"cd", &ProcessParameters::cd},     Symbol{"cw", &ProcessParameters::cw},     Symbol{"k0", &ProcessParameters::k0},
    Symbol{"k1", &ProcessParameters::k1},     Symbol{"k2", &ProcessParameters::k2},     Symbol{"h", &ProcessParameters::h},
    Symbol{"Kp", &ProcessParameters::Kp},     Symbol{"nK", &ProcessParameters::nK},     Symbol{"u0", &ProcessParameters::u0},
    Symbol{"dlat", &ProcessParameters::dlat}, Symbol{"rhoF", &ProcessParameters::rhoF}, Symbol{"chi", &ProcessParameters::chi},
    Symbol{"cap", &ProcessParameters::cap},   Symbol{"kap", &ProcessParameters::kap},   Symbol{"Nmax", &ProcessParameters::Nmax},
    Symbol{"N0", &ProcessParameters::N0},     Symbol{"Nw", &ProcessParameters::Nw},     Symbol{"gN", &ProcessParameters::gN}};

/// The place of a symbol in a set. A symbol that there is none of is a mistake in our own tables.
double& place_of(ProcessParameters& set, std::string_view name) {
  const auto found = std::find_if(symbols.begin(), symbols.end(), [&](const Symbol& symbol) { return symbol.name == name; });
  if (found == symbols.end()) throw DomainError("the heap model has no parameter \"" + std::string(name) + "\"");
  return set.*(found->place);
}

void read_best(Table& root, ProcessEnsemble& ensemble) {
  for (Table& table : root.tables("parameter"))
    place_of(ensemble.best, table.text("symbol").value_or("")) = table.number("value").value_or(0.0);
  for (Table& table : root.tables("material")) {
    if (const auto material = table.one_of("id", rotting_material_words()))
      ensemble.best.shares[*material] = {table.number("fast").value_or(0.0), table.number("slow").value_or(0.0)};
  }
  if (std::optional<Table> by_class = root.table("rots_like_by_class")) {
    for (const FeedstockClass one : {FeedstockClass::must_go, FeedstockClass::clippings, FeedstockClass::keeper, FeedstockClass::supplement,
                                     FeedstockClass::mineral}) {
      if (const auto material = by_class->one_of(class_word(one), rotting_material_words())) ensemble.rots_like_by_class[one] = *material;
    }
  }
}

std::vector<double> numbers(Table& table, std::string_view key, std::size_t count) {
  std::vector<double> row;
  for (const Value& value : table.list(key)) row.push_back(value.number().value_or(0.0));
  if (row.size() != count) table.problem_at(key, "has " + std::to_string(row.size()) + " numbers", std::to_string(count) + " are named");
  row.resize(count);
  return row;
}

void read_members(Table& root, ProcessEnsemble& ensemble) {
  std::vector<std::string> parameters;
  for (const Value& value : root.list("parameters")) parameters.push_back(value.text().value_or(""));
  std::vector<RottingMaterial> materials;
  for (const Value& value : root.list("materials")) {
    if (const auto material = value.one_of(rotting_material_words())) materials.push_back(*material);
  }
  for (Table& table : root.tables("member")) {
    ProcessParameters set = ensemble.best;
    const std::vector<double> values = numbers(table, "parameters", parameters.size());
    const std::vector<double> fast = numbers(table, "fast", materials.size());
    const std::vector<double> slow = numbers(table, "slow", materials.size());
    for (std::size_t i = 0; i < parameters.size(); ++i) place_of(set, parameters[i]) = values[i];
    for (std::size_t i = 0; i < materials.size(); ++i) set.shares[materials[i]] = {fast[i], slow[i]};
    ensemble.members.push_back(std::move(set));
  }
}

template <class Read>
void read_table(const char* file, Read read) {
  Problems problems;
  Document document = Document::from_text(std::string(embedded_material(file)), file, problems);
  Table root = document.root();
  read(root);
  problems.throw_if_any();
}

}  // namespace

ProcessEnsemble built_in_ensemble() {
  ProcessEnsemble ensemble;
  read_table("process.toml", [&](Table& root) { read_best(root, ensemble); });
  read_table("process_ensemble.toml", [&](Table& root) { read_members(root, ensemble); });
  return ensemble;
}

RottingMaterial ProcessEnsemble::material_of(const Feedstock& feedstock) const {
  return feedstock.rots_like.value_or(rots_like_by_class.at(feedstock.feedstock_class));
}

DecayShares ProcessEnsemble::shares_of(const Feedstock& feedstock, const ProcessParameters& set) const {
  const RottingMaterial material = material_of(feedstock);
  const DecayShares usual = best.shares.at(material);
  const DecayShares drawn = set.shares.at(material);
  DecayShares own = usual;
  if (feedstock.degradable && feedstock.degradable->fast.typical && feedstock.degradable->slow.typical)
    own = {feedstock.degradable->fast.typical->value(), feedstock.degradable->slow.typical->value()};
  own.fast = std::clamp(own.fast + drawn.fast - usual.fast, 0.0, most_degradable);
  own.slow = std::clamp(own.slow + drawn.slow - usual.slow, 0.0, most_degradable - own.fast);
  return own;
}

}  // namespace heapwright
