#pragma once
/// The readers of answers, by the kind of question, a file each. All take an answer in its plain form (plain_answer()) and throw TextError
/// with what to type.

#include <string>
#include <string_view>
#include <vector>

#include "heapwright/guide/reply.hpp"

namespace heapwright {

struct NamedClimate;

/// Something was said, in so many texts; or that there is none.
inline Reply some(std::vector<std::string> texts) { return {std::move(texts), {"some"}}; }
inline Reply none() { return {{}, {"none"}}; }

/// Of what the question asks for: containers, a volume, a weight, a range of them, or a pile's sides.
Reply read_amount_answer(const Question& question, const std::string& said, const Materials& materials);
/// "5000", "5000 ft2", "60 by 30", "quarter acre".
Reply read_area_answer(const Question& question, const std::string& said);
/// A number of people or trees.
Reply read_count_answer(std::string said);
/// A bin's sides, a round one's width and height, a tumbler's volume.
Reply read_size_answer(const Question& question, const std::string& said);
/// How often.
Reply read_interval_answer(const Question& question, const std::string& said);
/// A US state, a winter by name, or two months' means.
/// @param typed as it was typed: "OR" is a state and "or" is none
Reply read_climate_answer(const Question& question, std::string said, std::string_view typed, const std::vector<NamedClimate>& climates);

}  // namespace heapwright
