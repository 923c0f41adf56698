#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/byte_source.h"
#include "base/geometry.h"

namespace sheaf {

/// A font of which only the shapes are wanted: pictures, not letters. Nothing
/// of it is embedded; its outlines are drawn.
class GlyphOutlines {
 public:
  /// Reads no glyph yet. Throws MachineError, with the file's name, where the
  /// bytes are not a font with outlines.
  GlyphOutlines(KeptBytes file, std::string_view name);
  ~GlyphOutlines();
  GlyphOutlines(const GlyphOutlines&) = delete;
  GlyphOutlines& operator=(const GlyphOutlines&) = delete;

  int units_per_em() const;

  /// What the font draws for `text` at a type size, as cubic curves for
  /// non-zero filling: from the pen's start on the baseline, y downwards.
  /// Nothing where the font has no glyph for it, more than one or a blank.
  std::optional<Path> outline(std::string_view text, Length size) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf
