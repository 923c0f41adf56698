#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>

namespace sheaf {

/// Bytes that stay where they are as long as somebody holds them: a file that
/// is mapped into memory, or a text.
struct KeptBytes {
  std::shared_ptr<const void> owner;
  std::string_view bytes;
};

/// A text as bytes that are kept.
inline KeptBytes kept(std::string text) {
  const auto owner = std::make_shared<const std::string>(std::move(text));
  return {owner, *owner};
}

/// Where the word list and the fonts come from. The stages know no files.
class ByteSource {
 public:
  virtual ~ByteSource() = default;
  /// Whether there is a file of that name. Throws MachineError where nobody can
  /// tell.
  virtual bool has_file(const std::string& name) const = 0;
  /// All its bytes. Throws MachineError where they cannot be read, and
  /// std::bad_alloc where only memory is lacking.
  virtual KeptBytes keep(const std::string& name) const = 0;
};

}  // namespace sheaf
