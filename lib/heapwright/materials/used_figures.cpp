#include "heapwright/materials/used_figures.hpp"

namespace heapwright {
namespace {

std::size_t& count_of(UsedFigures& figures, Evidence evidence) {
  switch (evidence) {
    case Evidence::seen: return figures.seen;
    case Evidence::secondary: return figures.secondary;
    case Evidence::memory: return figures.memory;
    case Evidence::judged: return figures.judged;
    case Evidence::own: break;
  }
  return figures.own;
}

template <class Quantity>
void count(UsedFigures& figures, const PublishedValue<Quantity>& published) {
  if (!published.typical) return;
  ++count_of(figures, published.evidence);
  if (published.range_evidence) ++figures.ranges_not_read;
}

template <class Quantity>
void count_first(UsedFigures& figures, const PublishedValues<Quantity>& values) {
  if (!values.empty()) count(figures, values.front());
}

void count_figures_of(UsedFigures& figures, const Feedstock& feedstock) {
  count_first(figures, feedstock.moisture);
  count_first(figures, feedstock.carbon);
  count_first(figures, feedstock.carbon_to_nitrogen);
  if (!feedstock.nitrogen_follows()) count_first(figures, feedstock.nitrogen);
  count_first(figures, feedstock.volatile_solids);
  count_first(figures, feedstock.keeps);
  for (const Packing& packing : feedstock.packings) count_first(figures, packing.values);
  if (!feedstock.degradable) return;
  count(figures, feedstock.degradable->fast);
  count(figures, feedstock.degradable->slow);
}

void count_figures_of(UsedFigures& figures, const Compost& compost) {
  count_first(figures, compost.moisture);
  count_first(figures, compost.bulk_density);
  count_first(figures, compost.carbon_to_nitrogen);
  count_first(figures, compost.organic_matter);
  count_first(figures, compost.nitrogen);
  count_first(figures, compost.phosphate);
  count_first(figures, compost.potash);
}

}  // namespace

UsedFigures used_figures(const Materials& materials) {
  UsedFigures figures;
  for (const Feedstock& feedstock : *materials.feedstocks) {
    if (feedstock.properties()) count_figures_of(figures, feedstock);
  }
  for (const Compost& compost : *materials.composts) count_figures_of(figures, compost);
  return figures;
}

}  // namespace heapwright
