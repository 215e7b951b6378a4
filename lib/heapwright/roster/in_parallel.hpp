#pragma once
/// The same work for each of many, on several cores.

#include <cstddef>
#include <functional>

namespace heapwright {

/// Does a piece of work for each number from 0 on, in no order, by so many threads. After an exception no more is begun; the first is
/// thrown on when all threads have ended.
void in_parallel(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work);

}  // namespace heapwright
