#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace sheaf {

/// zlib's compressor, set up once and used again for every stream of a
/// document: setting it up costs as much as a small page.
class Deflater {
 public:
  Deflater();
  ~Deflater();
  Deflater(const Deflater&) = delete;
  Deflater& operator=(const Deflater&) = delete;

  /// The data in zlib's format, as /FlateDecode reads it. Throws MachineError
  /// where there is no memory.
  std::string deflate(std::string_view data);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf
