#pragma once
/// What goes wrong with a heap, and its likely cause in the light of what is known of it. Table: materials/symptoms.toml.

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/input/document.hpp"

namespace heapwright {

/// What may be true of a heap and make a symptom of it.
enum class Circumstance {
  too_much_nitrogen,    ///< C:N of what went in below its window, by more than anyone can tell
  too_little_nitrogen,  ///< above it
  too_wet,              ///< what went in, before any water was added
  too_dry,              ///< likewise, of a heap that nobody keeps moist
  airless,
  grassy,
  scraps,
  small,  ///< hardly heats
  big,    ///< too tall
  cold,   ///< where it stands, then
  rained_on,
  hot,  ///< by its readings
};
using Circumstances = std::set<Circumstance>;

/// What mends a cause by adding something.
enum class Fix { none, balance, water };

struct Cause {
  Circumstances when;  ///< all of them; none: holds of any heap
  std::string cause;
  std::string check;
  std::string do_now;
  Fix fix = Fix::none;
};

struct Symptom {
  std::string id;
  std::string name;  ///< "it smells of ammonia"
  std::vector<std::string> also;
  std::vector<Cause> causes;  ///< the last holds of any heap
};

const std::vector<Symptom>& built_in_symptoms();

/// By its id, its name or another name. @throws TextError with the nearest, or all of them
const Symptom& find_symptom(std::string_view name);

/// The first cause whose circumstances all hold.
const Cause& likely_cause(const Symptom& symptom, const Circumstances& circumstances);

}  // namespace heapwright
