#pragma once
/// Files that carry what they were made of, so that a later run knows which of them still hold.

#include <optional>
#include <string>
#include <string_view>

namespace heapwright {

/// An HTML file of ours that carries what it was made of.
std::string marked(const std::string& html, const std::string& made_of);

/// Whether a text begins as marked() does; it may break off.
bool begins_marked(std::string_view text);

/// What a file of ours was made of; nothing for another file, and for one of ours that is not whole.
std::optional<std::string> mark_of(std::string_view html);

}  // namespace heapwright
