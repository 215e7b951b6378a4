#pragma once
/// What the pages say of a mix: what it is like, and its figures. Not installed: users of the library get whole pages.

#include <optional>
#include <vector>

#include "heapwright/mix/character.hpp"
#include "heapwright/page/page.hpp"

namespace heapwright {

/// "too wet: it will pack down and smell"
Words fault_words(MixFault fault);
/// What a mix is like, its faults in a gardener's words; "in balance" without any, "a little wet, and will work" where it is hardly off.
Words character_words(const Mix& mix, const Targets& targets);
/// Off its windows by less than anyone can tell, if at all.
bool is_a_little_off(const Mix& mix, const Targets& targets);
/// Of a mix that is judged by what rots, that C:N and why; else nothing.
Words judged_by_words(const Mix& mix, const Targets& targets);
/// "C:N about 33", "no nitrogen"
Words ratio_words(const Mix& mix);
/// What share each feedstock has of the volume, the carbon, the nitrogen and the water; nothing of a single one.
std::optional<ShareBars> shares_of(const Mix& mix);
/// C:N, moisture and air, each with between what it lies and what works.
Grid figures_of(const Mix& mix, const Targets& targets);
/// "0.99 cu yd, 170 lb, 173 lb/cu yd"; nothing where it has no volume.
Words size_words(const Mix& mix);
/// What "likely" means, and the commonest mistake about ratios.
Words on_the_figures(const Mix& mix);

}  // namespace heapwright
