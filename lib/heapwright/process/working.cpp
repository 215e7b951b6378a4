#include "heapwright/process/working.hpp"

namespace heapwright {
namespace {

constexpr int digits_of_a_yield = 4;
constexpr const char* the_forecast = "the forecast";

template <class Quantity>
Term of_rule(const std::string& symbol, const std::string& what, const PublishedValue<Quantity>& value, const Materials& materials) {
  return given(symbol, what, value.typical->value(), "", source_words(materials, value.source, value.evidence));
}

Term density_of_rule(const std::string& symbol, const std::string& what, const PublishedValue<DryBulkDensity>& value,
                     const Materials& materials, const WorkingUnits& units) {
  return given(symbol, what, units.dry_density.number(*value.typical), units.dry_density.symbol,
               source_words(materials, value.source, value.evidence));
}

Mass weight_of(DryMass dry) { return as_is_mass(dry, WaterMass()); }
Mass weight_of(OrganicMass organic) { return weight_of(as_dry_mass(organic)); }

}  // namespace

Working working_of_yield(const Finished& finished, double such_piles, const YieldRule& rule, const Materials& materials,
                         const WorkingUnits& units) {
  Working working;
  const std::string& mass = units.mass.symbol;
  const auto weight = [&](const std::string& symbol, const std::string& what, auto one, const std::string& source) {
    return given(symbol, what, units.mass.number(such_piles * weight_of(one)), mass, source);
  };
  const auto step = [&](const std::string& symbol, const std::string& what, const std::string& formula, const std::string& unit,
                        const Expression& expression) {
    return working.step({symbol, what, formula, unit, by_definition, digits_of_a_yield}, expression);
  };
  const Term O = weight("O", "organic matter that goes in, volatile solids", finished.organic_in, "what goes in, by the tables");
  const Term A = weight("A", "ash that goes in", finished.ash, "what goes in, by the tables");
  step("D", "Dry matter that goes in", "organic matter and ash", mass, O + A);
  const Term x = given("x", "share of the organic matter that is gone when it is ready", finished.volatile_solids_loss, "", the_forecast);
  const Term L = step("L", "Organic matter left", "what goes in, times what is not gone", mass, O * (1.0 - Expression(x)));
  const Term E = step("E", "Dry matter left", "all of the ash stays", mass, A + L);
  const Term w = weight("w", "wood in it too coarse for the screen", finished.coarse, the_forecast);
  const Term b = of_rule("b", "held back by the screen, as a fraction of the rest", rule.held_back_by_screen, materials);
  const Term S = step("S", "Dry matter of screened compost", "what is left without coarse wood, times what passes the screen", mass,
                      (E - w) * (1.0 - Expression(b)));
  const Term o = step("o", "Its organic matter, as a fraction", "that of what is left without coarse wood", "", (L - w) / (E - w));
  const Term ro = density_of_rule("ro", "dry density of finished compost, were it all organic", rule.organic_density, materials, units);
  const Term rm = density_of_rule("rm", "the same, were none of it organic", rule.mineral_density, materials, units);
  const Term r = working.step({"r", "Dry density of screened compost", "one over the volumes of organic and mineral matter, added",
                               units.dry_density.symbol, "fitted by us to ten composts that a laboratory measured", digits_of_a_yield},
                              1.0 / (o / ro + (1.0 - Expression(o)) / rm));
  step("V", "Screened compost", "dry matter over dry density", units.pile.symbol, S / r);
  const Term M = of_rule("M", "moisture at which it is spread, as a fraction", rule.moisture_at_use, materials);
  step("T", "Its weight", "dry matter over what is not water", mass, S / (1.0 - Expression(M)));
  return working;
}

}  // namespace heapwright
