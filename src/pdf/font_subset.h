#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "pdf/font_tables.h"
#include "text/font.h"

struct hb_face_t;

namespace sheaf {

/// A font as the PDF writer sees it: widths and boxes in thousandths of an em,
/// and the part of its program that a document needs. `added` thousandths of an
/// em are put to every advance, in what is stated and in the program alike.
class FontProgram {
 public:
  FontProgram(const Font& font, std::int32_t added);

  std::int32_t width(std::uint32_t glyph) const;

  struct Box {
    std::int32_t left, bottom, right, top;
  };
  Box box() const;
  std::int32_t italic_angle() const;
  /// How thick upright strokes are, guessed from the font's weight class.
  std::int32_t stem_width() const;
  /// `units` of the font's grid in thousandths of an em.
  std::int32_t thousandths(std::int64_t units) const;

  struct Subset {
    /// A TrueType file, or a bare CFF program.
    std::string program;
    /// What a PDF calls each glyph asked for: its number in the subset, or
    /// its CID where a CFF program says so.
    std::vector<std::uint16_t> names;
  };
  /// Throws MachineError where the font turns out to be damaged.
  Subset subset(const std::vector<std::uint32_t>& glyphs) const;

 private:
  Subset subset(hb_face_t* drawing,
                const std::vector<std::uint32_t>& glyphs) const;
  std::int32_t advance(std::uint32_t glyph) const;

  const Font& font_;
  FontTables tables_;
  std::int32_t added_;  // in units of the font's grid
};

}  // namespace sheaf
