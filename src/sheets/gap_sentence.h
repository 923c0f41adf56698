#pragma once

#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "layout/block.h"
#include "layout/ruled_lines.h"

namespace sheaf {

/// A sentence that is printed but for its pattern words, in whose places there
/// are blanks to write on.
struct GapSentence {
  /// Letters, or a blank for a pattern word. No line is broken between pieces
  /// that touch.
  struct Piece {
    std::string text;
    Length blank;
    bool after_space = false;
  };
  struct Place {
    Piece piece;
    Length x;
    int line = 0;
  };
  TextStyle style;
  Length pitch;  ///< from line to line: what print and hand need
  std::vector<Place> places;

  int lines() const { return places.empty() ? 1 : places.back().line + 1; }
};

/// Sets the sentence in lines as wide as the page, from `indent` on; its blanks
/// are as wide as a hand of this ruling needs.
GapSentence place_gap_sentence(Composer& composer,
                               const AnalyzedSentence& sentence,
                               const Ruling& ruling, Length indent);

}  // namespace sheaf
