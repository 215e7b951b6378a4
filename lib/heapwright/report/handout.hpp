#pragma once
/// A household's handout, and many of them as one file.

#include <optional>
#include <string>
#include <string_view>

#include "heapwright/plan/plan.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// The handout of a yard as an HTML file. What a handout is, is said here alone.
/// @param made_of what stands for all that it is made of; the file carries it
std::string handout_of(const Answer<Plan>& plan, const Yard& yard, const std::string& made_of);

/// A page as an HTML file that carries what it was made of too.
std::string marked(const std::string& html, const std::string& made_of);

/// What a file of ours was made of; nothing for another file, and for one of ours that is not whole.
std::optional<std::string> mark_of(std::string_view html);

/// The frame of a file of handouts, to be filled with their bodies; each begins a page of its own in print.
HtmlParts frame_of_handouts(const std::string& title, const Show& show);

}  // namespace heapwright
