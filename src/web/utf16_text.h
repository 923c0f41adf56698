#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "service/service.h"

namespace sheaf {

/// A text whose places may be counted in bytes and in units of UTF-16. Made
/// once for all places of an answer.
class Utf16Text {
 public:
  explicit Utf16Text(std::string text);

  const std::string& text() const { return text_; }
  /// A place within a character is where the character begins; one behind the
  /// text is its end.
  std::uint32_t units(std::uint32_t byte) const;
  std::uint32_t byte(std::uint32_t units) const;
  /// From 1.
  int line(std::uint32_t byte) const;
  int column(std::uint32_t byte) const;

 private:
  std::string text_;
  /// Where each code point begins, in both counts; empty where all are ASCII.
  struct Step {
    std::uint32_t byte, units;
  };
  std::vector<Step> steps_;
};

}  // namespace sheaf
