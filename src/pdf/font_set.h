#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "pdf/deflate.h"
#include "pdf/font_subset.h"
#include "pdf/objects.h"
#include "text/font.h"
#include "text/glyph_run.h"

namespace sheaf {

/// A glyph as a document's text operators name it: two bytes.
using Code = std::uint16_t;

/// One font of a document and the glyphs it lends. There is a code for each
/// pair of glyph and text, so that what a reader copies is what was written,
/// whatever glyphs the font chose for it. Letters that stand apart come from a
/// font of their own with wider advances: readers take a move of the pen for a
/// blank between words, but never the advance of a letter.
class FontUse {
 public:
  struct Glyph {
    std::uint32_t id = 0;
    std::int32_t width = 0;
    std::string text;
  };

  /// `added` thousandths of an em to every advance.
  FontUse(const Font& font, std::int32_t added, int index);

  const Font& font() const { return font_; }
  std::int32_t added() const { return added_; }
  int index() const { return index_; }  ///< /F0, /F1 ... in the resources
  /// The code for a glyph that shows `text`. Throws MachineError where the
  /// font has no glyph (id 0): a reader would see an empty box.
  Code code(std::uint32_t glyph, std::string_view text);
  /// Advance in thousandths of an em, as the font's dictionary states it.
  std::int32_t width(Code code) const { return glyphs_[code].width; }
  /// Writes the subset and its dictionaries; returns the Type 0 font.
  ObjectId embed(Objects& objects, Deflater& deflater) const;

 private:
  Code add(std::uint32_t glyph, std::string_view text);
  std::string tagged_name() const;

  const Font& font_;
  std::int32_t added_;
  FontProgram program_;
  int index_;
  std::vector<Glyph> glyphs_;  // by code; 0 is kept free for .notdef
  std::unordered_map<std::uint64_t, Code> short_texts_;
  std::map<std::pair<std::uint32_t, std::string>, Code> long_texts_;
};

/// The fonts of a document, in the order of their first use.
class FontSet {
 public:
  /// The font whose advances are wider by `added` thousandths of an em, as it
  /// is or as one is already there that differs by `tolerance` at most: each
  /// one costs the file a program of its own.
  FontUse& use(const Font& font, std::int32_t added = 0,
               std::int32_t tolerance = 0);
  /// Embeds all of them; returns the entries of a /Font resource dictionary.
  std::string embed(Objects& objects, Deflater& deflater) const;

 private:
  std::vector<std::unique_ptr<FontUse>> fonts_;
};

}  // namespace sheaf
