#pragma once
/// Sprouts counted and roots measured, as shares of a control.

#include <string_view>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// "18 of 20" seeds.
struct Sprouted {
  double sprouted;
  double sown;
};

/// @throws TextError unless both are whole numbers, some are sown and no more come up
Sprouted read_sprouted(std::string_view text);

/// (sprouted / sown) over the same of the control: 1 is as good as the control, and more is possible. Seeds in compost against seeds in a
/// growing mix. @throws DomainError where nothing sprouts in the control
double emergence(Sprouted in_compost, Sprouted control);

/// (G / G0) (L / L0), of shares G that sprouted and mean root lengths L, in an extract of compost against distilled water (0). 1 is as good
/// as water, and more is possible; publications print it times 100. As a study of composted willow sawdust has it. @throws DomainError
/// where nothing sprouts or grows in the control
double germination_index(Sprouted in_compost, Sprouted control, Length root, Length control_root);

}  // namespace heapwright
