#include "heapwright/process/contents.hpp"

#include "heapwright/materials/rows.hpp"

namespace heapwright {

PileContents operator*(double share, const PileContents& contents) {
  return {share * contents.fast, share * contents.slow,  share * contents.inert,   share * contents.coarse,
          share * contents.ash,  share * contents.water, share * contents.nitrogen};
}

PileContents contents_of(const Mix& mix, const Materials& materials, const ProcessEnsemble& ensemble, const ProcessParameters& set) {
  PileContents contents;
  for (const MixPart& part : mix.parts) {
    const Feedstock* row = row_with_id(*materials.feedstocks, part.id);
    if (row == nullptr) continue;
    const DecayShares shares = ensemble.shares_of(*row, set);
    contents.fast += shares.fast * part.organic_matter;
    contents.slow += shares.slow * part.organic_matter;
    if (ensemble.settling_of(*row).coarse) contents.coarse += (1.0 - shares.fast - shares.slow) * part.organic_matter;
  }
  contents.inert = mix.organic_matter - contents.fast - contents.slow;
  contents.ash = ash_mass(mix.dry, mix.organic_matter);
  contents.water = mix.water;
  const CarbonMass carbon = set.cC * (unit::kg_carbon / unit::kg_organic) * mix.organic_matter;
  if (mix.carbon_to_nitrogen) contents.nitrogen = carbon / *mix.carbon_to_nitrogen;
  return contents;
}

}  // namespace heapwright
