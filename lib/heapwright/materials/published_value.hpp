#pragma once
/// A published, remembered or judged figure, and how we know it.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace heapwright {

/// How a figure is known.
enum class Evidence {
  seen,       ///< read in the named publication
  secondary,  ///< read in somebody's quotation of the named publication
  memory,     ///< remembered, not read again: shown as "common handbook figure, not re-checked"
  judged,     ///< ours, with its reason; never under a publication's name
  own,        ///< the user's own
};

/// "seen".
std::string_view evidence_word(Evidence evidence);

/// One figure of a property: what is typical and between what it varies, each where the source says it.
template <class Quantity>
struct PublishedValue {
  std::optional<Quantity> typical;
  std::optional<Quantity> low;
  std::optional<Quantity> high;
  std::string source;  ///< id of a Source
  Evidence evidence = Evidence::own;
  std::optional<Evidence>
      range_evidence;     ///< how low and high are known where the source of the typical figure gives none: memory or judged
  std::string what;       ///< of what, in the source's words: "compacted and moist"
  std::string note;       ///< the reason of a judged figure; a warning
  std::string typed;      ///< the typical figure as it was typed
  bool outlier = false;   ///< shown, but no part of the published span
  double rounding = 0.0;  ///< half a unit of the typical figure's last printed digit, relative to it
};

/// All values of a property. The first is the one that is used.
template <class Quantity>
using PublishedValues = std::vector<PublishedValue<Quantity>>;

/// The figure that is used; nothing where there is none.
template <class Quantity>
std::optional<Quantity> used(const PublishedValues<Quantity>& values) {
  return values.empty() ? std::nullopt : values.front().typical;
}

}  // namespace heapwright
