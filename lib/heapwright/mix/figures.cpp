#include "heapwright/mix/figures.hpp"

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

/// How many of a smaller measure of volume make a large one, the one that bulk densities are by.
Term to_a_large_one(const WorkingUnits& units, const WorkingUnit<Volume>& small) {
  const std::string symbol = small.symbol == units.container.symbol ? "g" : "f";
  return given(symbol, small.symbol + " in 1 " + units.large.symbol, small.number(units.large.one) / small.number(small.one), "",
               by_definition);
}

/// The steps of one portion. Its symbols bear its number: m2 is the weight of the second.
class PortionWorking {
 public:
  PortionWorking(Working& working, const Portion& portion, std::size_t number, const Materials& materials, const WorkingUnits& units)
      : working_(working),
        portion_(portion),
        feedstock_(portion.supply.feedstock),
        name_(portion.supply.name()),
        number_(std::to_string(number)),
        materials_(materials),
        units_(units) {}

  Figures figures() {
    const Term m = mass();
    const Term M = moisture();
    const Term d = working_.step({symbol("d"), "Dry matter of " + name(), "its weight less its water", units_.mass.symbol, by_definition},
                                 m * (1.0 - M));
    const std::optional<Term> R = table("R", "C:N of " + name(), feedstock_.carbon_to_nitrogen);
    const Term c = carbon(R);
    const Term n = nitrogen(c, R);
    return {name(), m, M, d, c, n, R, solids(d, c), density_in_pile()};
  }

 private:
  const std::string& name() const { return name_; }
  std::string symbol(const std::string& letter) const { return letter + number_; }

  template <class Quantity>
  std::optional<Term> table(const std::string& letter, const std::string& what, const PublishedValues<Quantity>& values) const {
    if (!used(values)) return std::nullopt;
    const PublishedValue<Quantity>& first = values.front();
    return given(symbol(letter), what, first.typical->value(), "", source_words(materials_, first.source, first.evidence));
  }

  std::optional<Term> packed_density(const std::string& letter, const std::string& packing) const {
    const Packing* found = feedstock_.find_packing(packing);
    if (found == nullptr || !used(found->values)) return std::nullopt;
    const PublishedValue<BulkDensity>& first = found->values.front();
    return given(symbol(letter), "bulk density of " + name() + ", " + packing, units_.density.number(*first.typical), units_.density.symbol,
                 source_words(materials_, first.source, first.evidence));
  }

  Term weighed_density(const Weighed& weighed) {
    const auto weight = [&](const std::string& word, const std::string& what, Mass mass) {
      return given(symbol(word), what, units_.mass.number(mass), units_.mass.symbol, "you weighed it");
    };
    const Term full = weight("full", "the full " + container_name(weighed.container) + " of " + name(), weighed.full);
    const Term empty = weight("empty", "the same, empty", weighed.empty);
    const Volume size = weighed.container.count * weighed.container.each;
    const Term holds = given(symbol("holds"), "what it holds", units_.container.number(size), units_.container.symbol,
                             container_source(weighed.container));
    return working_.step(
        {symbol("r"), "Bulk density of " + name(), "what is in the container, over what it holds", units_.density.symbol, by_definition},
        from_large((full - empty) / holds, units_, units_.container));
  }

  /// As the person counts it. The step of a weighing is shown once.
  const std::optional<Term>& counted_density() {
    if (counted_density_) return counted_density_;
    const Supply& supply = portion_.supply;
    counted_density_ = supply.weighed ? std::optional(weighed_density(*supply.weighed)) : packed_density("r", supply.packing_as_counted());
    return counted_density_;
  }

  /// As Supply::density() takes it.
  std::optional<Term> density_in_pile() {
    const std::optional<std::string> in_pile = portion_.supply.packing_in_pile();
    return in_pile ? packed_density("q", *in_pile) : counted_density();
  }

  std::string container_source(const ContainerCount& counted) const {
    const Container* container = row_with_id(*materials_.containers, counted.container);
    return container != nullptr ? source_words(materials_, container->source, container->evidence) : "your own figure";
  }

  std::string container_name(const ContainerCount& counted) const {
    const Container* container = row_with_id(*materials_.containers, counted.container);
    return container != nullptr ? container->name : counted.container;
  }

  Term mass() {
    const std::string heading = "Weight of " + name();
    const ContainerCount* counted = portion_.counted ? std::get_if<ContainerCount>(&*portion_.counted) : nullptr;
    const Volume* volume = portion_.counted ? std::get_if<Volume>(&*portion_.counted) : nullptr;
    if (counted != nullptr && counted_density()) {
      const std::string container = container_name(*counted);
      const WorkingUnit<Volume>& size = counted->each < 0.5 * us_working_units().large.one ? units_.container : units_.large;
      const Term k = given(symbol("k"), name() + ", by the " + container, counted->count, "", portion_.whose);
      const Term v =
          given(symbol("v"), "what one " + container + " holds", size.number(counted->each), size.symbol, container_source(*counted));
      return working_.step({symbol("m"), heading, "how many, times what one holds, times bulk density", units_.mass.symbol, by_definition},
                           in_large(k * v * *counted_density(), units_, size));
    }
    if (volume != nullptr && counted_density()) {
      const Term v = given(symbol("v"), name(), units_.pile.number(*volume), units_.pile.symbol, portion_.whose);
      return working_.step({symbol("m"), heading, "volume times bulk density", units_.mass.symbol, by_definition},
                           in_large(v * *counted_density(), units_, units_.pile));
    }
    return given(symbol("m"), "weight of " + name(), units_.mass.number(portion_.mass), units_.mass.symbol, portion_.whose);
  }

  Term moisture() {
    const Supply& supply = portion_.supply;
    const std::string what = "moisture of " + name() + ", as a fraction";
    if (supply.dried) {
      const Term wet = given(symbol("wet"), "a sample of " + name(), supply.dried->wet / unit::gram, "g", "you weighed it");
      const Term dry = given(symbol("dry"), "the same, dried", supply.dried->dry / unit::gram, "g", "you dried it");
      return working_.step({symbol("M"), "Moisture of " + name() + ", as a fraction", "what it lost in drying, over what it weighed wet",
                            "", "Cornell Composting, Moisture Content"},
                           (wet - dry) / wet);
    }
    if (supply.feel) {
      const PublishedValue<MoistureWetBasis>& feel = supply.feel->moisture;
      return given(symbol("M"), what + "; a handful " + supply.feel->id, feel.typical->value(), "",
                   source_words(materials_, feel.source, feel.evidence));
    }
    return *table("M", what, feedstock_.moisture);
  }

  Term carbon(const std::optional<Term>& R) {
    const std::string what = "carbon of the dry matter of " + name();
    if (!feedstock_.carbon_follows()) return *table("c", what, feedstock_.carbon);
    const Term n = *table("n", "nitrogen of the dry matter of " + name(), feedstock_.nitrogen);
    return working_.step({symbol("c"), "Carbon of the dry matter of " + name(), "nitrogen times C:N", "", "Cornell Composting, C/N Ratio"},
                         n * *R);
  }

  Term nitrogen(const Term& c, const std::optional<Term>& R) {
    if (!feedstock_.nitrogen_follows()) return *table("n", "nitrogen of the dry matter of " + name(), feedstock_.nitrogen);
    return working_.step({symbol("n"), "Nitrogen of the dry matter of " + name(), "carbon over C:N", "", "Cornell Composting, C/N Ratio"},
                         c / *R);
  }

  Term organic_matter(const Term& c) {
    if (!feedstock_.organic_matter_follows())
      return *table("o", "organic matter of the dry matter of " + name(), feedstock_.volatile_solids);
    const std::string gotaas = "Gotaas 1956: %C = (100 − %ash)/1.8";
    if (organic_matter_per_carbon * c.value > 1.0)
      return given(symbol("o"), "organic matter of " + name() + ": all of it", 1.0, "", gotaas);
    return working_.step({symbol("o"), "Organic matter of the dry matter of " + name(), "1.8 times carbon", "", gotaas},
                         organic_matter_per_carbon * Expression(c));
  }

  /// The volume of the dry solids themselves.
  Expression solids(const Term& d, const Term& c) {
    const WorkingUnit<ParticleDensity>& measure = units_.solids_density;
    if (feedstock_.particle_density)
      return d / given(symbol("p"), "density of the dry solids of " + name(), measure.number(*feedstock_.particle_density), measure.symbol,
                       "your own figure");
    const Term o = organic_matter(c);
    const Term po = given("po", "density of organic matter", measure.number(organic_particle_density()), measure.symbol, "judged by us");
    const Term pa = given("pa", "density of ash", measure.number(ash_particle_density()), measure.symbol, "judged by us");
    return d * (o / po + (1.0 - o) / pa);
  }

  Working& working_;
  const Portion& portion_;
  const Feedstock& feedstock_;
  std::string name_;
  std::string number_;
  const Materials& materials_;
  const WorkingUnits& units_;
  std::optional<Term> counted_density_;
};

}  // namespace

Expression in_large(const Expression& volume, const WorkingUnits& units, const WorkingUnit<Volume>& small) {
  return small.symbol == units.large.symbol ? volume : volume / to_a_large_one(units, small);
}

Expression from_large(const Expression& volume, const WorkingUnits& units, const WorkingUnit<Volume>& small) {
  return small.symbol == units.large.symbol ? volume : volume * to_a_large_one(units, small);
}

Figures figures_of(Working& working, const Portion& portion, std::size_t number, const Materials& materials, const WorkingUnits& units) {
  return PortionWorking(working, portion, number, materials, units).figures();
}

}  // namespace heapwright
