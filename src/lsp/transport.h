#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace sheaf {

/// Messages of the Language Server Protocol 3.17 (Microsoft, "Base Protocol")
/// as they come in pieces: header lines, an empty line, so many bytes of JSON.
class MessageReader {
 public:
  /// A longer message is not taken; a week of lessons has a hundredth of it.
  static constexpr std::size_t kLongest = std::size_t{16} << 20U;

  void add(std::string_view bytes) { bytes_ += bytes; }
  /// The next whole message; nothing while there is none, or after a fault.
  std::optional<std::string> next();
  /// Whether `next` would give one.
  bool has_next();
  /// What is wrong with what came, for good; empty: nothing.
  const std::string& fault() const { return fault_; }

 private:
  bool read_header();

  std::string bytes_;
  /// Of the message that is coming, once its header is there.
  std::optional<std::size_t> length_;
  std::string fault_;
};

/// A message as it is sent.
std::string framed(std::string_view json);

}  // namespace sheaf
