#pragma once

#include <utility>

#include "files/system_calls.h"

namespace sheaf {

/// An open file of the system, closed when it goes away.
class Descriptor {
 public:
  Descriptor() = default;
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() { close(); }
  Descriptor(Descriptor&& other) noexcept
      : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  int number() const { return number_; }
  explicit operator bool() const { return number_ >= 0; }
  /// Hands it over to whoever closes it.
  int release() { return std::exchange(number_, -1); }
  /// Closes and says whether that went well.
  bool close() {
    const int number = std::exchange(number_, -1);
    return number < 0 || system_calls::close(number) == 0;
  }

 private:
  int number_ = -1;
};

}  // namespace sheaf
