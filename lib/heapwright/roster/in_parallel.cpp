#include "heapwright/roster/in_parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace heapwright {
namespace {

/// The numbers that are still to do, for whichever thread comes next.
class WorkInOrder {
 public:
  WorkInOrder(std::size_t count, const std::function<void(std::size_t)>& work) : count_(count), work_(work) {}

  void run() {
    for (std::size_t at = next_++; at < count_; at = next_++) {
      try {
        work_(at);
      } catch (...) {
        const std::lock_guard<std::mutex> lock(mutex_);
        if (!first_) first_ = std::current_exception();
        next_ = count_;
      }
    }
  }

  void throw_if_any() const {
    if (first_) std::rethrow_exception(first_);
  }

 private:
  const std::size_t count_;
  const std::function<void(std::size_t)>& work_;
  std::atomic<std::size_t> next_{0};
  std::mutex mutex_;
  std::exception_ptr first_;
};

/// Threads that have ended before what they work on does.
struct JoinedThreads {
  std::vector<std::thread> threads{};

  JoinedThreads() = default;
  JoinedThreads(const JoinedThreads&) = delete;
  JoinedThreads& operator=(const JoinedThreads&) = delete;
  ~JoinedThreads() { join(); }
  void join() {
    for (std::thread& thread : threads) thread.join();
    threads.clear();
  }
};

}  // namespace

void in_parallel(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work) {
  WorkInOrder all(count, work);
  JoinedThreads joined;  // whatever is thrown
  std::vector<std::thread>& others = joined.threads;
  const std::size_t wanted = std::min<std::size_t>(std::max(threads, 1U), count);
  try {
    for (std::size_t i = 1; i < wanted; ++i) others.emplace_back([&] { all.run(); });
  } catch (const std::system_error&) {  // the system gives no more threads: those there are do it all
  }
  all.run();
  joined.join();
  all.throw_if_any();
}

}  // namespace heapwright
