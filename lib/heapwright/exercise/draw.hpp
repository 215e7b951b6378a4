#pragma once
/// Draws of one sheet: the same seed gives the same ones on any platform, so nothing of the standard library's random numbers is used,
/// whose distributions differ from one to the next.

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_int_distribution.hpp>

#include <cstdint>
#include <utility>
#include <vector>

#include "heapwright/error.hpp"

namespace heapwright {

/// The draws of one seed, one after another.
class Draw {
 public:
  /// At the first draw of a seed.
  explicit Draw(std::uint32_t seed) : engine_(seed) {}

  /// A whole number between two, both included.
  int between(int low, int high) { return boost::random::uniform_int_distribution<int>(low, high)(engine_); }
  bool yes_or_no() { return between(0, 1) == 1; }

  /// One of some things, each as likely as the next. @throws DomainError where there is none
  template <class Thing>
  Thing one_of(const std::vector<Thing>& things) {
    if (things.empty()) throw DomainError("there is nothing to draw from");
    return things[static_cast<std::size_t>(between(0, static_cast<int>(things.size()) - 1))];
  }

  /// Puts things in another order, each order as likely as the next.
  template <class Thing>
  void shuffle(std::vector<Thing>& things) {
    for (std::size_t left = things.size(); left > 1; --left)
      std::swap(things[left - 1], things[static_cast<std::size_t>(between(0, static_cast<int>(left) - 1))]);
  }

 private:
  boost::random::mt19937 engine_;
};

}  // namespace heapwright
