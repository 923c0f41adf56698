#pragma once

#include <algorithm>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// A stretch of text in one style. Pieces that follow each other without a
/// space between make one word ("sh" in bold, then "ip").
struct TextPiece {
  std::string text;
  TextStyle style;
  /// Printed on a light band, as a highlighter would: in answer keys, and where
  /// a learner looks at how it is done. A paragraph says at its end what is
  /// marked.
  bool marked = false;
  /// What is said in its place, where that is not what it shows: graphemes that
  /// stand apart, a dash alone. Signs like those of "/sh/" need nothing here
  /// (see `heard_text`).
  std::string heard = {};
};

/// Appends pieces to others.
void append(std::vector<TextPiece>& pieces, std::vector<TextPiece> more);

/// Runs of a text that are said in other words than they show, on one line or
/// more.
struct HeardRuns {
  std::string text;
  /// Made when the first of them is drawn.
  ElementId element = kDecoration;
};

/// A line of text as it will be printed.
struct TextLine {
  struct Run {
    GlyphRun run;
    Length x;
    Ink ink = kBlack;
    bool marked = false;
    std::shared_ptr<HeardRuns> heard = nullptr;  ///< none: as it stands
  };
  std::vector<Run> runs;
  Length width;
};

/// Breaks text into lines no wider than `width`, at spaces only: never
/// hyphenated, never justified. A word that is wider than a whole line stands
/// on one of its own, and the composer is told.
std::vector<TextLine> break_lines(Composer& composer,
                                  std::span<const TextPiece> pieces,
                                  Length width);
std::vector<TextLine> break_lines(Composer& composer, const TextStyle& style,
                                  std::string_view text, Length width);

/// Lets the last of the lines say what is marked in them: the bands are for
/// eyes. `add_paragraph` does it by itself.
void say_marked(std::span<const TextPiece> pieces,
                std::vector<TextLine>& lines);

/// Draws a line with its baseline at `at`, as it stands.
void draw_line(Block& block, const TextLine& line, Point at, ElementId element);
/// The same with what is said in other words in elements of its own.
void draw_line(Composer& composer, Block& block, const TextLine& line, Point at,
               ElementId element);

/// Where the baseline lies in a line of this style, from the line's top: the
/// ink of ascenders and descenders is centred in the line's height.
Length baseline_in_line(const TextStyle& style);

/// Adds a paragraph, a block for each line, as an element of the given role.
/// `indent` is from the left edge of the body.
struct ParagraphOptions {
  Role role = Role::paragraph;
  ElementId parent = 0;
  Length indent;
  Length space_before;
  bool keep_with_next = false;
  /// All lines on one page.
  bool whole = false;
  /// What is heard in place of the text, where that has signs which a speech
  /// program reads badly.
  std::string heard = {};
};
ElementId add_paragraph(Composer& composer, std::span<const TextPiece> pieces,
                        const ParagraphOptions& options = {});
ElementId add_paragraph(Composer& composer, const TextStyle& style,
                        std::string_view text,
                        const ParagraphOptions& options = {});

/// Adds a heading inside a sheet, in bold; it stays with what follows.
void add_subheading(Composer& composer, Length size, std::string_view text,
                    Length space_before);

/// Draws text of one line at a place and gives its width.
Length draw_text(Composer& composer, Block& block, const TextStyle& style,
                 std::string_view text, Point baseline, ElementId element);
/// The same, with its ink centred on `baseline.x`.
void draw_centred(Composer& composer, Block& block, const TextStyle& style,
                  std::string_view text, Point baseline, ElementId element);
/// The same in the middle of a rectangle.
void draw_in_middle(Composer& composer, Block& block, const TextStyle& style,
                    std::string_view text, const Rect& room, ElementId element);

/// The width of the widest text among some things, each on one line; `text_of`
/// says which text one of them has.
template <typename Things, typename TextOf = std::identity>
Length widest_text(Composer& composer, const TextStyle& style,
                   const Things& things, TextOf text_of = {}) {
  Length widest;
  for (const auto& thing : things) {
    widest = std::max(
        widest, width_of(composer.shape(style, std::invoke(text_of, thing))));
  }
  return widest;
}

}  // namespace sheaf
