#pragma once

#include <deque>
#include <string>
#include <vector>

#include "layout/page.h"
#include "text/font_library.h"
#include "text/shaper.h"

namespace sheaf::testing_support {

/// Makes documents for tests and benchmarks without the layout stage. Owns all
/// that its documents point to.
class DocumentMaker {
 public:
  explicit DocumentMaker(const std::string& fonts_folder);

  const Font& font(FontRole role = FontRole::regular);
  GlyphRun run(std::string_view text, double size,
               FontRole role = FontRole::regular);
  GlyphRun run(const Font& font, std::string_view text, double size);
  const Picture& drawing(const std::string& name);
  const Picture& pixels(int width, int height, bool colour, bool alpha);
  const Picture& add(Picture picture);
  FontLibrary& library() { return library_; }

  /// A document of one page that has one of everything: headings, paragraphs,
  /// a numbered list, a table with headers of both scopes, figures, spans,
  /// every kind of mark, text with marks and quotes.
  Document one_of_everything();

  /// Pages as a packet has them: about 80 elements, 300 glyphs, dots, rules
  /// and boxes each. `seed` varies the words, as another learner's would.
  Document worksheet(std::size_t pages, unsigned seed);

 private:
  FontLibrary library_;
  Shaper shaper_;
  std::deque<Picture> pictures_;
};

/// The words on the pages in the order of the tree, parted by single spaces:
/// what a reader of the PDF must get back.
std::string text_in_order(const Document& document);

/// The element tree as a reader should tell it, a line an element or a piece of
/// text, two spaces deeper for each level:
///     Sect
///       H1
///         "Look and say"
std::string tree_in_order(const Document& document);

/// Where each glyph of a page stands, in the order of drawing: points from the
/// top left corner.
struct PlacedGlyph {
  std::string text;
  double x, y;
};
std::vector<PlacedGlyph> placed_glyphs(const Page& page);

}  // namespace sheaf::testing_support
