#include "heapwright/process/parameters.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

struct Symbol {
  std::string_view name;
  double ProcessParameters::*place;
};
constexpr std::array symbols{
    Symbol{"kF", &ProcessParameters::kF},       Symbol{"kS", &ProcessParameters::kS},         Symbol{"Tmin", &ProcessParameters::Tmin},
    Symbol{"Topt", &ProcessParameters::Topt},   Symbol{"Tmax", &ProcessParameters::Tmax},     Symbol{"a0", &ProcessParameters::a0},
    Symbol{"mu", &ProcessParameters::mu},       Symbol{"KO", &ProcessParameters::KO},         Symbol{"dH", &ProcessParameters::dH},
    Symbol{"yO", &ProcessParameters::yO},       Symbol{"yW", &ProcessParameters::yW},         Symbol{"cC", &ProcessParameters::cC},
    Symbol{"cd", &ProcessParameters::cd},       Symbol{"cw", &ProcessParameters::cw},         Symbol{"k0", &ProcessParameters::k0},
    Symbol{"k1", &ProcessParameters::k1},       Symbol{"k2", &ProcessParameters::k2},         Symbol{"h", &ProcessParameters::h},
    Symbol{"Kp", &ProcessParameters::Kp},       Symbol{"nK", &ProcessParameters::nK},         Symbol{"u0", &ProcessParameters::u0},
    Symbol{"dlat", &ProcessParameters::dlat},   Symbol{"rhoF", &ProcessParameters::rhoF},     Symbol{"chi", &ProcessParameters::chi},
    Symbol{"cap", &ProcessParameters::cap},     Symbol{"kap", &ProcessParameters::kap},       Symbol{"Nmax", &ProcessParameters::Nmax},
    Symbol{"N0", &ProcessParameters::N0},       Symbol{"Nw", &ProcessParameters::Nw},         Symbol{"gN", &ProcessParameters::gN},
    Symbol{"rho_f", &ProcessParameters::rho_f}, Symbol{"rain_f", &ProcessParameters::rain_f}, Symbol{"dT", &ProcessParameters::dT}};

/// Shares that move from their usual value as far as those of another material do.
DecayShares moved(DecayShares shares, const DecayShares& usual, const DecayShares& drawn) {
  shares.fast = std::clamp(shares.fast + drawn.fast - usual.fast, 0.0, most_degradable);
  shares.slow = std::clamp(shares.slow + drawn.slow - usual.slow, 0.0, most_degradable - shares.fast);
  return shares;
}

/// The place of a symbol in a set. A symbol that there is none of is a mistake in our own tables.
double& place_of(ProcessParameters& set, std::string_view name) {
  const auto found = std::find_if(symbols.begin(), symbols.end(), [&](const Symbol& symbol) { return symbol.name == name; });
  if (found == symbols.end()) throw DomainError("the pile model has no parameter \"" + std::string(name) + "\"");
  return set.*(found->place);
}

void read_best(Table& root, ProcessEnsemble& ensemble) {
  for (Table& table : root.tables("parameter"))
    place_of(ensemble.best, table.text("symbol").value_or("")) = table.number("value").value_or(0.0);
  for (Table& table : root.tables("material")) {
    const auto material = table.one_of("id", rotting_material_words());
    table.require("settled_density", "write settled_density = { typical = \"120 kg/m3\" }");
    const auto density = table.find("settled_density");
    if (!material || !density) continue;
    ensemble.best.shares[*material] = {table.number("fast").value_or(0.0), table.number("slow").value_or(0.0)};
    const PublishedValue<DryBulkDensity> settled = read_published_value(*density, read_dry_density);
    ensemble.settling[*material] = {settled.typical.value_or(DryBulkDensity()), table.flag("coarse").value_or(false)};
    if (const auto like = table.one_of("moves_with", rotting_material_words())) ensemble.moves_with[*material] = *like;
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
    for (const auto& [material, like] : ensemble.moves_with)
      set.shares[material] = moved(ensemble.best.shares.at(material), ensemble.best.shares.at(like), set.shares.at(like));
    ensemble.members.push_back(std::move(set));
  }
}

}  // namespace

ProcessEnsemble built_in_ensemble() {
  return read_built_in("process_ensemble.toml", read_members, read_built_in("process.toml", read_best));
}

RottingMaterial ProcessEnsemble::material_of(const Feedstock& feedstock) const {
  return feedstock.rots_like.value_or(rots_like_by_class.at(feedstock.feedstock_class));
}

const SettlingMaterial& ProcessEnsemble::settling_of(const Feedstock& feedstock) const { return settling.at(material_of(feedstock)); }

DecayShares ProcessEnsemble::shares_of(const Feedstock& feedstock, const ProcessParameters& set) const {
  const RottingMaterial material = material_of(feedstock);
  const DecayShares usual = best.shares.at(material);
  const DecayShares drawn = set.shares.at(material);
  DecayShares own = usual;
  if (feedstock.degradable && feedstock.degradable->fast.typical && feedstock.degradable->slow.typical)
    own = {feedstock.degradable->fast.typical->value(), feedstock.degradable->slow.typical->value()};
  return moved(own, usual, drawn);
}

}  // namespace heapwright
