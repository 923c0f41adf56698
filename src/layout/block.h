#pragma once

#include <memory>
#include <span>
#include <utility>
#include <vector>

#include "layout/page.h"
#include "layout/style.h"

namespace sheaf {

/// A piece of a sheet that is never divided between pages: a row of boxes, a
/// line of text, a numbered item with its lines. Marks are placed from the
/// block's own top left corner; its width is that of the page's body.
struct Block {
  Length height;
  /// Blank space kept before it, but for the first block of a page.
  Length space_before;
  /// Stays on the page of the block that follows, if both fit on one:
  /// headings, first lines.
  bool keep_with_next = false;
  /// Begins a new page.
  bool new_page = false;
  /// Will be cut up: its page stands alone on a leaf of paper.
  bool own_leaf = false;
  /// Belongs on the back of the page before it, which will be cut up.
  bool back = false;
  /// What is drawn again above it where it begins a page: a table's head.
  std::shared_ptr<const Block> head;
  std::vector<Mark> marks;

  void line(Point from, Point to, const Stroke& stroke,
            ElementId element = kDecoration) {
    marks.push_back(LineMark{from, to, stroke, element});
  }
  void frame(const Rect& rect, const Stroke& stroke,
             ElementId element = kDecoration) {
    marks.push_back(
        RectMark{.rect = rect, .stroke = stroke, .element = element});
  }
  void shade(const Rect& rect, Ink ink, ElementId element = kDecoration) {
    marks.push_back(RectMark{.rect = rect,
                             .filled = true,
                             .fill = ink,
                             .stroked = false,
                             .element = element});
  }
  void dot(Point centre, Length diameter, ElementId element = kDecoration) {
    marks.push_back(
        DotMark{.centre = centre, .diameter = diameter, .element = element});
  }
  /// A hollow dot: to tick, or at an end that is not touched.
  void ring(Point centre, Length diameter, Length weight,
            ElementId element = kDecoration) {
    marks.push_back(DotMark{.centre = centre,
                            .diameter = diameter,
                            .hollow = true,
                            .ring = weight,
                            .element = element});
  }
  void glyphs(const GlyphRun& run, Point at, ElementId element,
              Ink ink = kBlack) {
    marks.push_back(GlyphMark{run, at, ink, element});
  }
};

/// Moves a mark.
void shift(Mark& mark, Point by);

/// The same drawing to stand again above the rows of later pages, as their
/// `Block::head`. It is part of a page's header there: a reader has heard it
/// already.
std::shared_ptr<const Block> repeated_head(const Block& block);

/// What a sheet composes with: the shaper, the style, the document's element
/// tree, and the blocks made so far. Elements that it adds become children of
/// `section`. Lives as long as one sheet is composed.
class Composer {
 public:
  Composer(Shaper& shaper, const Style& style, Document& document,
           ElementId section, Size body)
      : shaper_(&shaper),
        style_(&style),
        document_(&document),
        section_(section),
        body_(body) {}

  const Style& style() const { return *style_; }
  /// The room for blocks on one page: header and footer are taken off.
  Size body() const { return body_; }
  Length width() const { return body_.width; }
  ElementId section() const { return section_; }

  /// An element without a place of its own gets the one that `From` has set.
  ElementId add(Role role, ElementId parent = 0, std::string alternative = {});
  ElementId add(Element element);

  GlyphRun shape(const TextStyle& style, std::string_view text);

  /// Says that a text is wider than the place it is for; who composes the
  /// packet reports it.
  void note_too_wide(std::string text);
  const std::vector<std::string>& too_wide() const { return too_wide_; }

  Block& block(Length height, Length space_before = {});
  std::vector<Block>& blocks() { return blocks_; }
  std::vector<Block> take() { return std::move(blocks_); }

 private:
  Shaper* shaper_;
  const Style* style_;
  Document* document_;
  ElementId section_;
  Size body_;
  Span from_;
  std::vector<Block> blocks_;
  std::vector<std::string> too_wide_;

  friend class From;
};

/// While one lives, what a composer adds comes from this place in a teacher's
/// files. Nothing changes where the place is nowhere.
class From {
 public:
  From(Composer& composer, const Span& span)
      : composer_(composer), before_(composer.from_) {
    if (span && !span.is_whole()) composer.from_ = span;
  }
  ~From() { composer_.from_ = before_; }
  From(const From&) = delete;
  From& operator=(const From&) = delete;

 private:
  Composer& composer_;
  Span before_;
};

/// A list's item with its parts: what stands before it (a number, a code), and
/// the item itself.
struct ListItem {
  ElementId label = kDecoration;
  ElementId body = kDecoration;
};
ListItem add_list_item(Composer& composer, ElementId list);
/// The body of an item that has nothing before it.
ElementId add_list_body(Composer& composer, ElementId list);

/// What blocks take one below the other, with the blanks before them.
Length height_of(std::span<const Block> blocks);
/// How much of the last page that they begin these blocks take.
Length height_on_last_page(std::span<const Block> blocks);

/// Asks that all these blocks stand on one page, if one has room for them.
void keep_on_one_page(std::span<Block> blocks);

/// How many rows to put on each page so that the pages are about equally full:
/// `total` rows where at most `capacity` fit. At least 1.
int even_rows(int total, int capacity);

/// Says where pages begin so that blocks which do not fit on one page of this
/// height fill all of them about equally, in no more pages than they need.
void even_pages(std::vector<Block>& blocks, Length height);

/// Makes the blanks between blocks narrower, if that brings all of them onto
/// one page of this height, or wider to fill it: each to `least` or `most`
/// times what it is. Blocks that need more than a page keep theirs.
void stretch_blanks(std::vector<Block>& blocks, Length height, double least,
                    double most);

/// Makes the blanks between blocks narrower by as little as brings all of them
/// onto fewer pages of this height, each to at least `least` times what it is.
/// Where that saves no page, they keep theirs.
void save_pages(std::vector<Block>& blocks, Length height, double least);

/// Blocks that follow each other and belong together: a step with its lines.
struct BlockGroup {
  std::size_t first = 0;
  std::size_t count = 0;
};
/// Saves pages as `save_pages` does, then lets groups stand on one page each,
/// as far as that costs no page: those of a few blocks, then two blocks at
/// either end of the others, then all of a third of a page or less. Blanks may
/// become narrower for it, to 0.7 times `least`.
void save_pages_with_groups(std::vector<Block>& blocks,
                            std::span<const BlockGroup> groups, Length height,
                            double least);

/// Draws light grounds as thin frames, to save ink.
void outline_tints(std::vector<Block>& blocks, Length weight);

/// Places blocks on pages of `paper` size, inside `body`, in order.
std::vector<Page> paginate(std::vector<Block> blocks, const Rect& body,
                           Size paper);

}  // namespace sheaf
