#pragma once

#include <span>
#include <string>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// One grapheme as it stands in a word that is to be blended: a stretch of
/// letters, and for a split one the letter that ends it further on.
struct Grapheme {
  std::size_t begin = 0;  ///< bytes of the word
  std::size_t end = 0;
  /// Where the e of a split grapheme stands, else npos.
  std::size_t split_e = std::string_view::npos;
  /// Printed on a framed ground: it does not say its usual sound.
  bool shaded = false;
  /// Its letters are printed as the sheet asks.
  bool of_pattern = false;
};

enum class MarkStyle { dots, lines, none };

/// How the letters of the pattern are printed: like the others, hollow to be
/// coloured, or filled with grey inside an outline.
enum class PatternLetters { plain, outlined, tinted };

struct TouchWordOptions {
  TextStyle text;
  MarkStyle marks = MarkStyle::dots;
  PatternLetters pattern = PatternLetters::plain;
  Length mark_spacing;  ///< least distance of marks, centre to centre
  Length guide_weight;
  Length dot = Length::from_mm(3.2);  ///< a mark's diameter
  bool arrow = true;                  ///< to sweep along while blending
  /// Every mark has been touched: a ring around it, as a fingertip's.
  bool touched = false;
  /// Where a new beat begins, as bytes of the word: a wider gap with a dot,
  /// also within a grapheme (rab·bit), whose mark stays one.
  std::vector<std::size_t> beats = {};
};

/// A word set with room between its graphemes, and a mark exactly under the
/// ink of each. Measured first, drawn when its place is known.
class TouchWord {
 public:
  TouchWord(Composer& composer, std::string word,
            std::span<const Grapheme> graphemes,
            const TouchWordOptions& options);

  Length width() const { return width_; }
  Length height() const;
  /// Draws it with its top left corner at `at`, as text of `parent`; its marks
  /// are heard behind it with the graphemes that they stand under.
  void draw(Composer& composer, Block& block, Point at, ElementId parent) const;

 private:
  struct Part {
    GlyphRun run;
    Length x;              // of the run's origin, from the word's left edge
    InkSpan ink;           // from the word's left edge
    std::size_t grapheme;  // index into graphemes_
    bool is_split_e;
    bool long_mark;  // several letters: a pill, not a dot
    bool starts_beat;
    bool continues;  // the grapheme of the part before, over a beat
  };

  Length mark_width(const Part& part) const;
  InkSpan marked_ink(std::size_t index) const;
  void make_parts(Composer& composer);
  void place_parts();
  Length baseline() const;
  Length mark_line() const;
  void draw_letters(Block& block, Point at, ElementId element) const;
  void draw_marks(Block& block, Point at, ElementId element) const;
  void draw_beats(Block& block, Point at, ElementId element) const;
  void draw_tie(Block& block, Point from, Point to, ElementId element) const;
  void draw_arrow(Block& block, Point at, ElementId element) const;
  std::string heard_word() const;
  std::string heard_graphemes() const;
  std::string heard_marks() const;

  std::string word_;
  std::vector<Grapheme> graphemes_;
  TouchWordOptions options_;
  std::vector<Part> parts_;
  Length width_;
};

}  // namespace sheaf
