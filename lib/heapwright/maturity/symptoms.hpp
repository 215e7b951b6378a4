#pragma once
/// What goes wrong with a pile, and its likely cause in the light of what is known of it. Table: materials/symptoms.toml.

#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/materials/caution.hpp"

namespace heapwright {

class Table;

/// What may be true of a pile and make a symptom of it.
enum class Circumstance {
  too_much_nitrogen,    ///< C:N of what went in below its window, by more than anyone can tell
  too_little_nitrogen,  ///< above it
  no_greens,            ///< no nitrogen that counts at all
  too_wet,              ///< what went in, before any water was added: above its window
  too_dry,              ///< so dry that it hardly rots; likewise, of a pile that nobody keeps moist or has watered
  airless,
  grassy,
  scraps,
  small,    ///< hardly heats
  big,      ///< too tall
  cold,     ///< where it stands, then
  freezes,  ///< likewise: it freezes most nights
  rained_on,
  in_a_tumbler,
  // by its readings
  hot,
  too_hot,  ///< now
  near_fire,
  has_heated,
  turned,  ///< since it was hot, or at all where it never was
  watered,
};
using Circumstances = std::set<Circumstance>;

/// What mends a cause by adding something.
enum class Fix {
  none,
  balance,  ///< what brings the mix back inside its targets
  water,    ///< what brings it to the moisture aim
  browns,   ///< of those that stand by
};

/// What may be behind a symptom, and what to do about it.
struct Cause {
  Circumstances when;  ///< all of them; none: holds of any pile
  std::string cause;
  std::string check;
  std::string do_now;
  std::string in_a_tumbler;  ///< what to do in one, which is rotated, never forked or built anew; nothing where that is the same
  Fix fix = Fix::none;
  std::string fix_when;  ///< what to wait for before anything is added
  /// Whether it takes that circumstance.
  bool is_of(Circumstance circumstance) const { return when.contains(circumstance); }
  /// What to do now, in a tumbler or elsewhere.
  const std::string& to_do(bool tumbler) const { return tumbler && !in_a_tumbler.empty() ? in_a_tumbler : do_now; }
};

/// A row of symptoms.toml.
struct Symptom {
  std::string id;
  std::string name;                    ///< "it smells of ammonia"
  std::vector<std::string> also;       ///< other names; those of several words give it away wherever they stand together
  std::vector<std::string> words;      ///< a word or words that give it away alone
  std::vector<Cause> causes;           ///< the last holds of any pile
  Facts facts;                         ///< that it makes true of a yard, and that call for cautions
  Circumstances rules_out;             ///< that cannot hold of a pile with it
  bool at_work = false;                ///< whether it is one of a pile that is not finished
  bool is_frozen = false;              ///< whether nothing can be done to it before it thaws
  std::vector<std::string> opposites;  ///< ids of symptoms that one place cannot have with it
};

/// By its id, its name or another name, with or without words that say little; nothing where none is so called.
const Symptom* symptom_called(const std::vector<Symptom>& symptoms, std::string_view name);
/// What a sentence tells of: by a name, else by the words that give it away, the most of them ("slimy grass" over "slimy").
/// @throws TextError with the nearest, or all of them; where it tells of two alike, with both
const Symptom& find_symptom(const std::vector<Symptom>& symptoms, std::string_view said);
/// As find_symptom(), but each of several where every part of a sentence tells of one: "smells of rotten eggs and there are flies".
/// @throws TextError also for what is over: "the rats are gone"
std::vector<const Symptom*> find_symptoms(const std::vector<Symptom>& symptoms, std::string_view said);

/// Reads [[symptom]] onto a table.
void read_symptoms(Table& root, std::vector<Symptom>& symptoms);
/// The table that comes with the program.
std::vector<Symptom> built_in_symptoms();

/// The causes whose circumstances all hold, the likeliest first; none whose circumstances are part of one before it.
std::vector<const Cause*> likely_causes(const Symptom& symptom, const Circumstances& circumstances);

}  // namespace heapwright
