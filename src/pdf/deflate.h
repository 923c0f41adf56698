#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace sheaf {

/// zlib's compressor, set up once and used again for every stream of every
/// document: setting it up costs as much as a small page.
class Deflater {
 public:
  Deflater();
  ~Deflater();
  Deflater(const Deflater&) = delete;
  Deflater& operator=(const Deflater&) = delete;

  /// How hard it looks for what is alike, by zlib's levels. Tags are so alike
  /// that a thorough search takes more than twice the time for an eighth of the
  /// room.
  enum class Effort { thorough = 6, quick = 2 };

  /// The data in zlib's format, as /FlateDecode reads it. Throws MachineError
  /// where there is no memory.
  std::string deflate(std::string_view data, Effort effort = Effort::thorough);
  /// The same for what often comes again in the next document (a font's
  /// letters, a drawing), whose result is kept.
  const std::string& deflate_recurring(std::string_view data);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf
