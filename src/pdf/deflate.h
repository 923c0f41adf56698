#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace sheaf {

/// A compressor, set up once and used again for every stream of every document:
/// setting it up costs as much as a small page.
class Deflater {
 public:
  Deflater();
  ~Deflater();
  Deflater(const Deflater&) = delete;
  Deflater& operator=(const Deflater&) = delete;

  /// How hard it looks for what is alike, by libdeflate's levels. Tags are so
  /// alike that a thorough search takes twice the time for a twentieth of the
  /// room.
  enum class Effort { thorough = 4, quick = 1 };

  /// The data in zlib's format, as /FlateDecode reads it. Throws MachineError
  /// where there is no memory.
  std::string deflate(std::string_view data, Effort effort = Effort::thorough);
  /// The same for what often comes again in the next document (a font's
  /// letters, a drawing), whose result is kept.
  const std::string& deflate_recurring(std::string_view data);
  /// The same of what `make` makes, which stands for `key` alone: asked for
  /// only where the key is not known yet.
  const std::string& deflate_recurring(
      std::string key, const std::function<std::string()>& make);

 private:
  struct Impl;
  struct Kept;
  std::unique_ptr<Impl> thorough_, quick_;
  std::unique_ptr<Kept> kept_;
};

/// A compressor that one document after the other has, so that few are ever set
/// up. (One for each thread would be simpler, but where memory is lacking for a
/// thread's own object, the C library ends the program.)
class LentDeflater {
 public:
  LentDeflater();
  ~LentDeflater();
  LentDeflater(const LentDeflater&) = delete;
  LentDeflater& operator=(const LentDeflater&) = delete;
  Deflater& operator*() const { return *deflater_; }
  Deflater* operator->() const { return deflater_; }

 private:
  Deflater* deflater_;
};

/// Four sums that tell one file from another: CRC-32 and Adler-32 of all of it,
/// CRC-32 of each half. Not safe against somebody who wants them alike.
std::array<std::uint32_t, 4> checksums(std::string_view data);

}  // namespace sheaf
