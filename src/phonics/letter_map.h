#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace sheaf {

/// A word reduced to plain letters, with the way back to its bytes.
struct LetterMap {
  /// a to z only: lower case, accents taken off, marks left out.
  std::string letters;
  /// As `letters`, with apostrophes (all alike) and hyphens in their places.
  std::string spelling;
  /// Bytes of the word that each letter takes up.
  std::vector<std::uint8_t> begins, ends;
  /// The word begins with a capital and goes on in lower case.
  bool capital = false;
  /// The word is letters, with apostrophes and hyphens inside, and not too
  /// long.
  bool good = false;
};

LetterMap map_letters(std::string_view word);

}  // namespace sheaf
