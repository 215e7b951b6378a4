#pragma once
/// What every answer comes with beside its result: what it rests on, what to mind, how it was worked out.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "heapwright/materials/assumption.hpp"
#include "heapwright/mix/assume.hpp"
#include "heapwright/working/step.hpp"

namespace heapwright {

/// What an answer rests on.
struct Grounds {
  std::vector<Assumption> assumptions;       ///< the one that could change the answer most first
  std::optional<Measurement> measure_first;  ///< that would narrow it most
  std::vector<std::string> cautions;         ///< their ids, in the order of importance
  std::optional<Working> working;            ///< where it was asked for
};

/// A result with its grounds. Only whole answers carry them: a result that is part of another is plain.
template <class Result>
struct Answer : Grounds {
  Result result;

  /// Of the result.
  Result* operator->() { return &result; }
  const Result* operator->() const { return &result; }
};

/// Takes the grounds of a part into those of the whole: each assumption and each caution once, so that none is lost on the way.
void take_in(Grounds& whole, const Grounds& part);

}  // namespace heapwright
