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

/// Share of the control's share. @throws DomainError where nothing sprouts in the control
double emergence(Sprouted in_compost, Sprouted control);

/// (G / G0) (L / L0). @throws DomainError where nothing sprouts or grows in the control
double germination_index(Sprouted in_compost, Sprouted control, Length root, Length control_root);

}  // namespace heapwright
