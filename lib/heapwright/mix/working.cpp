#include "heapwright/mix/working.hpp"

#include <algorithm>
#include <limits>

#include "heapwright/mix/figures.hpp"
#include "heapwright/mix/formula.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr const char* handbook = "B.C. Agricultural Composting Handbook, 2nd ed. 1998, Appendix A2/A3";
constexpr int digits_of_an_answer = 4;

template <class Part>
Expression sum_over(const std::vector<Figures>& portions, Part part) {
  std::vector<Expression> parts;
  parts.reserve(portions.size());
  for (const Figures& portion : portions) parts.push_back(part(portion));
  return sum(parts);
}

/// The weight of the added water.
std::optional<Term> added_water(Working& working, const Batch& batch, const WorkingUnits& units) {
  if (!is_positive(batch.added_water)) return std::nullopt;
  const WorkingUnit<Volume>& container = units.container;
  const Term u = given("u", "water added", container.number(batch.added_water / water_density()), container.symbol, batch.whose_water);
  const Mass of_one = as_is_mass(DryMass(), WaterMass(container.one * water_density()));
  const Term y = given("y", "weight of 1 " + container.symbol + " of water", units.mass.number(of_one), units.mass.symbol,
                       "1000 kg/m3, at any temperature of a pile");
  return working.step({"w", "Water added", "how much, times its weight", units.mass.symbol, by_definition}, u * y);
}

/// The balance of a mix: water, dry matter, carbon, nitrogen and their ratios.
struct Balance {
  Term water;
  Term total;
};

void ratio_step(Working& working, const Term& C, const Term& N) {
  const std::string what = "C:N of the mix";
  if (!(N.value > 0.0)) return working.in_words(what, "There is no nitrogen in it, so it has none.", handbook);
  working.step({"C:N", what, "all its carbon over all its nitrogen; the average of the ratios would be another, wrong number", "", handbook,
                digits_of_an_answer},
               mix_formula::carbon_to_nitrogen(C, N));
}

Balance balance(Working& working, const std::vector<Figures>& portions, const std::optional<Term>& added, const WorkingUnits& units) {
  using namespace mix_formula;
  const std::string& unit = units.mass.symbol;
  Expression moist = sum_over(portions, [](const Figures& of) { return water(of.mass, of.moisture); });
  if (added) moist = moist + *added;
  const Term W =
      working.step({"W", "Water in the mix", added ? "weight times moisture of each, and what is added" : "weight times moisture of each",
                    unit, handbook},
                   moist);
  const Term D = working.step({"D", "Dry matter of the mix", "that of each", unit, by_definition},
                              sum_over(portions, [](const Figures& of) { return of.dry; }));
  const Term T = working.step({"T", "Weight of the mix", "dry matter and water", unit, by_definition}, D + W);
  const Term C = working.step({"C", "Carbon in the mix", "dry matter of each, times its carbon", unit, handbook},
                              sum_over(portions, [](const Figures& of) { return part_of_dry_matter(of.dry, of.carbon); }));
  const Term N = working.step({"N", "Nitrogen in the mix", "dry matter of each, times its nitrogen", unit, handbook},
                              sum_over(portions, [](const Figures& of) { return part_of_dry_matter(of.dry, of.nitrogen); }));
  ratio_step(working, C, N);
  if (T.value > 0.0)
    working.step({"M", "Moisture of the mix, in percent", "water over weight", "%", handbook, digits_of_an_answer},
                 mix_formula::moisture(W, T) * 100.0);
  return {W, T};
}

const Figures* without_density(const std::vector<Figures>& portions) {
  const auto found = std::find_if(portions.begin(), portions.end(), [](const Figures& of) { return !of.density && of.mass.value > 0.0; });
  return found == portions.end() ? nullptr : &*found;
}

/// Volume, bulk density and air.
void volume_steps(Working& working, const std::vector<Figures>& portions, const Balance& of, const Batch& batch,
                  const WorkingUnits& units) {
  if (const Figures* unknown = without_density(portions))
    return working.in_words("Volume and air of the mix", "No bulk density of " + unknown->name + " is known.", by_definition);
  Expression loose = from_large(
      sum_over(portions, [](const Figures& f) { return f.density ? mix_formula::loose_volume(f.mass, *f.density) : Expression(0.0); }),
      units, units.pile);
  const double settling = batch.settling.value();
  if (settling < 1.0) loose = loose * given("k", "settled volume over loose volume", settling, "", "your own figure");
  const Term V = working.step({"V", "Volume of the mix",
                               settling < 1.0 ? "weight over bulk density of each, settled"
                                              : "weight over bulk density of each, as if nothing settled between coarse pieces",
                               units.pile.symbol, handbook},
                              loose);
  if (!(V.value > 0.0)) return;
  working.step({"B", "Bulk density of the mix", "weight over volume", units.density.symbol, by_definition, digits_of_an_answer},
               from_large(of.total / V, units, units.pile));
  const Term S = working.step({"S", "Solids in the mix", "dry matter over the density of its solids, organic matter and ash apart",
                               units.pile.symbol, by_definition},
                              sum_over(portions, [](const Figures& f) { return f.solids; }));
  const Term z = given("z", "density of water", units.water_density.number(water_density()), units.water_density.symbol,
                       "1000 kg/m3, at any temperature of a pile");
  working.step({"A", "Air in the mix, in percent", "what solids and water leave of the volume; below zero: they do not fit in it", "%",
                by_definition, digits_of_an_answer},
               mix_formula::air<Expression>(S, of.water, z, V) * 100.0);
}

/// The steps of a mix; what its portions go by.
std::vector<Figures> mix_steps(Working& working, const Batch& batch, const Materials& materials, const WorkingUnits& units) {
  std::vector<Figures> portions;
  for (const Portion& portion : batch.portions) portions.push_back(figures_of(working, portion, portions.size() + 1, materials, units));
  const std::optional<Term> added = added_water(working, batch, units);
  const Balance of = balance(working, portions, added, units);
  volume_steps(working, portions, of, batch, units);
  return portions;
}

double ratio_of(const Figures& of) {
  return of.nitrogen.value > 0.0 ? of.carbon.value / of.nitrogen.value : std::numeric_limits<double>::infinity();
}

bool lies_between(double goal, double one, double other) { return (goal - one) * (other - goal) > 0.0; }

std::string percent(double fraction) { return print_percent(fraction, 3); }

/// Two portions, of which the greener wants the browner.
struct Pairing {
  const Figures& green;
  const Figures& brown;
  std::string wanted() const { return "Weight of " + brown.name + " that brings the " + green.name + " to "; }
};

void moisture_aim_step(Working& working, const Pairing& pair, const Targets& targets, const WorkingUnits& units) {
  const Term G = given("G", "the moisture aim, as a fraction", targets.moisture.aim.value(), "", "the target in use");
  const Term& Ma = pair.brown.moisture;
  const Term& Mb = pair.green.moisture;
  const std::string what = pair.wanted() + percent(G.value) + " moisture without water";
  if (!lies_between(G.value, Ma.value, Mb.value)) {
    const std::string both = percent(Mb.value) + " and " + percent(Ma.value);
    return working.in_words(what, "No amount brings them there: they are " + both + " moist, and the aim must lie between.", handbook);
  }
  working.step({"a", what, "theirs, times how far they lie from the aim, over how far the aim lies from the other", units.mass.symbol,
                handbook, digits_of_an_answer},
               pair.green.mass * (Mb - G) / (G - Ma));
}

/// The C:N of a portion, from the table or from its carbon and nitrogen.
Term ratio_term(Working& working, const Figures& of, const std::string& symbol) {
  if (of.carbon_to_nitrogen) return *of.carbon_to_nitrogen;
  return working.step({symbol, "C:N of " + of.name, "carbon over nitrogen", "", "Cornell Composting, C/N Ratio"}, of.carbon / of.nitrogen);
}

void ratio_aim_step(Working& working, const Pairing& pair, const Targets& targets, const WorkingUnits& units) {
  const Term R = given("R", "the C:N aim", targets.carbon_to_nitrogen.aim.value(), "", "the target in use");
  const std::string what = pair.wanted() + "a C:N of " + R.number;
  const Figures& a = pair.brown;
  const Figures& b = pair.green;
  if (!(a.nitrogen.value > 0.0 && b.nitrogen.value > 0.0))
    return working.in_words(what, "The form divides by the nitrogen of both, and one has none.", handbook);
  const Term Rb = ratio_term(working, b, "Rb");
  const Term Ra = ratio_term(working, a, "Ra");
  if (!lies_between(R.value, Rb.value, Ra.value)) {
    const std::string both = print_number(Rb.value, 3) + " and " + print_number(Ra.value, 3);
    return working.in_words(what, "No amount brings them there: they have " + both + ", and the aim must lie between.", handbook);
  }
  working.step({"a'", what, "theirs, by nitrogen, by how far each lies from the aim, and by dry matter", units.mass.symbol, handbook,
                digits_of_an_answer},
               b.mass * (b.nitrogen / a.nitrogen) * ((R - Rb) / (Ra - R)) * ((1.0 - b.moisture) / (1.0 - a.moisture)));
}

}  // namespace

Working working_of_mix(const Batch& batch, const Materials& materials, const WorkingUnits& units) {
  Working working;
  mix_steps(working, batch, materials, units);
  return working;
}

Working working_to_aims(const Batch& batch, const Targets& targets, const Materials& materials, const WorkingUnits& units) {
  Working working;
  const std::vector<Figures> portions = mix_steps(working, batch, materials, units);
  if (portions.size() != 2) return working;
  const bool first_is_greener = ratio_of(portions[0]) <= ratio_of(portions[1]);
  const Pairing pair = first_is_greener ? Pairing{portions[0], portions[1]} : Pairing{portions[1], portions[0]};
  moisture_aim_step(working, pair, targets, units);
  ratio_aim_step(working, pair, targets, units);
  return working;
}

}  // namespace heapwright
