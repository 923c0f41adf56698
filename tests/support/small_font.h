#pragma once

#include <cstdint>
#include <string>

namespace sheaf::testing_support {

/// A font drawn for tests: every letter is a plain block, wider from letter to
/// letter. An OpenType file with CFF outlines, 1000 units to the em, with a to
/// z, H, I, the space, é and the acute accent U+0301.
struct SmallFont {
  /// Glyphs keyed by CIDs, 100 higher than their numbers, not by names.
  bool is_cid_keyed = false;
  /// é is set as two glyphs, e and the accent.
  bool splits_e_acute = false;
  std::string name = "Blocks";

  std::string file() const;
};

/// Advance of a letter from a to z in the font.
constexpr int small_font_advance(char letter) {
  return 400 + 10 * (letter - 'a');
}

}  // namespace sheaf::testing_support
