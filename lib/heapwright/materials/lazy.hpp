#pragma once
/// Values that are made when they are first asked for.

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <utility>

namespace heapwright {

/// A value that is made once, when it is first asked for, whichever thread asks. Copies share it. It does not change: in place of a table
/// with another row stands another table.
template <class T>
class Lazy {
 public:
  explicit Lazy(std::function<T()> make) : held_(std::make_shared<Held>()) { held_->make = std::move(make); }
  /// A value that is there already.
  explicit Lazy(T value) : held_(std::make_shared<Held>()) {
    std::call_once(held_->once, [&] { held_->value = std::move(value); });
  }

  /// @throws what making it throws; the next who asks tries again
  const T& operator*() const {
    std::call_once(held_->once, [this] { held_->value = held_->make(); });
    return *held_->value;
  }
  const T* operator->() const { return &**this; }

 private:
  struct Held {
    std::once_flag once;
    std::function<T()> make;
    std::optional<T> value;
  };
  std::shared_ptr<Held> held_;
};

}  // namespace heapwright
