#pragma once

#include <concepts>
#include <cstddef>
#include <iterator>
#include <ranges>
#include <vector>

#include "marking/session.h"

namespace sheaf {

/// Some sessions in some order. It owns none of them: whoever keeps them keeps
/// them for as long as this is read. A year of marks takes a hundred megabytes,
/// so nobody copies it to hand it on.
class Sessions {
 public:
  class Iterator {
   public:
    using iterator_category = std::bidirectional_iterator_tag;
    using value_type = SessionResult;
    using difference_type = std::ptrdiff_t;
    using pointer = const SessionResult*;
    using reference = const SessionResult&;

    Iterator() = default;
    explicit Iterator(const SessionResult* const* at) : at_(at) {}
    const SessionResult& operator*() const { return **at_; }
    const SessionResult* operator->() const { return *at_; }
    Iterator& operator++() {
      ++at_;
      return *this;
    }
    Iterator operator++(int) { return Iterator(at_++); }
    Iterator& operator--() {
      --at_;
      return *this;
    }
    Iterator operator--(int) { return Iterator(at_--); }
    friend bool operator==(const Iterator&, const Iterator&) = default;

   private:
    const SessionResult* const* at_ = nullptr;
  };

  Sessions() = default;
  /// All of these, in their order. A call takes what somebody keeps without
  /// saying so.
  template <std::ranges::contiguous_range R>
  requires std::same_as<std::ranges::range_value_t<R>, SessionResult> Sessions(
      const R& all) {
    for (const SessionResult& session : all) add(session);
  }

  void add(const SessionResult& session) { sessions_.push_back(&session); }

  Iterator begin() const { return Iterator(sessions_.data()); }
  Iterator end() const { return Iterator(sessions_.data() + sessions_.size()); }
  auto rbegin() const { return std::reverse_iterator(end()); }
  auto rend() const { return std::reverse_iterator(begin()); }
  bool empty() const { return sessions_.empty(); }

 private:
  std::vector<const SessionResult*> sessions_;
};

}  // namespace sheaf
