#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/byte_source.h"
#include "text/font.h"
#include "text/glyph_outlines.h"

namespace sheaf {

enum class FontRole { regular, bold };

/// The typefaces at hand: those that `fonts/manifest.tsv` lists, loaded when
/// first asked for, and any file that a layout names. The font that the
/// manifest gives the role `picture` is no typeface: it is kept apart.
class FontLibrary {
 public:
  /// Reads the manifest in `folder`; `source` must outlive the library. Throws
  /// MachineError where it cannot be read or names no typeface, or a file that
  /// it names is missing.
  FontLibrary(const ByteSource& source, const std::string& folder);
  ~FontLibrary();

  /// The face, or null where no family of that name is listed. A family
  /// without a bold face gives its regular one.
  const Font* find(std::string_view family, FontRole role);
  std::vector<std::string> families() const;
  /// Adds a face from the bytes of a TrueType or OpenType file; null where the
  /// bytes are not a font that can be used, with the reason in `why`.
  const Font* add(std::string family, FontRole role, std::string bytes,
                  std::string& why);
  /// The font that draws the pictures. Throws MachineError where the manifest
  /// lists none or it cannot be used.
  const GlyphOutlines& pictures();
  /// The files that were opened, for dependency lists.
  std::vector<std::string> files_read() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sheaf
