#pragma once

#include <string>
#include <vector>

#include "pdf/deflate.h"
#include "pdf/font_set.h"
#include "pdf/font_subset.h"
#include "pdf/objects.h"
#include "text/font.h"

namespace sheaf {

/// All that the dictionaries of one embedded font are made from.
struct FontParts {
  const Font& font;
  const FontProgram& program;
  std::string name;                           ///< with the tag of the subset
  const std::vector<FontUse::Glyph>& glyphs;  ///< by code
  const FontProgram::Subset& subset;          ///< names by code
};

/// Writes a composite font (ISO 32000-1, 9.7): Type 0 over a CIDFont, the font
/// program, and the way back from codes to text. Returns the Type 0 font.
ObjectId write_font(Objects& objects, Deflater& deflater,
                    const FontParts& parts);

}  // namespace sheaf
