#pragma once

#include <cstddef>
#include <memory>
#include <vector>

namespace sheaf {

/// A list that copies share until one of them is changed: a copy costs no more
/// than a pointer, however long the list is. Copies may be read by several
/// threads.
template <typename T>
class SharedList {
 public:
  using value_type = T;
  using const_iterator = typename std::vector<T>::const_iterator;

  const_iterator begin() const { return list().begin(); }
  const_iterator end() const { return list().end(); }
  std::size_t size() const { return list().size(); }
  bool empty() const { return list().empty(); }
  const T& operator[](std::size_t index) const { return list()[index]; }
  const T& front() const { return list().front(); }
  const T& back() const { return list().back(); }

  /// The list to be changed, which is nobody else's from then on.
  std::vector<T>& own() {
    if (list_ == nullptr) {
      list_ = std::make_shared<std::vector<T>>();
    } else if (list_.use_count() > 1) {
      list_ = std::make_shared<std::vector<T>>(*list_);
    }
    return *list_;
  }

 private:
  const std::vector<T>& list() const {
    static const std::vector<T> kNone;
    return list_ == nullptr ? kNone : *list_;
  }

  std::shared_ptr<std::vector<T>> list_;
};

}  // namespace sheaf
