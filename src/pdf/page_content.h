#pragma once

#include <string>
#include <unordered_set>
#include <vector>

#include "layout/page.h"
#include "pdf/picture_set.h"
#include "pdf/structure_tree.h"
#include "pdf/text_operators.h"

namespace sheaf {

/// Turns the marks of a page into PDF's operators (ISO 32000-1, 8 and 9), with
/// each piece marked as content of its element or as an artifact (14.6).
class PageContent {
 public:
  PageContent(StructureTree& tree, TextOperators& texts, PictureSet& pictures);

  /// The operators of a page. Good until the next call. `shift` is added to
  /// the elements of its marks to get those of the tree.
  const std::string& write(const Page& page, std::uint32_t index,
                           ElementId shift = 0);
  /// The pictures on the page last written, each once.
  const std::vector<std::size_t>& pictures_used() const { return used_; }
  /// Whether a picture so far is in the colours of printing inks (CMYK).
  bool has_ink_colours() const { return has_ink_colours_; }

 private:
  // What the reader's graphics state holds; operators are written only for
  // what changes. The first values are those that a page starts with.
  struct State {
    Ink fill = kBlack;
    Stroke stroke{Length::from_pt(1), kBlack, {}, false};
    TextOperators::State text;
  };

  void write(const GlyphMark& mark);
  void write(const LineMark& mark);
  void write(const RectMark& mark);
  void write(const DotMark& mark);
  void write(const PathMark& mark);
  void write(const PictureMark& mark);

  void belong_to(ElementId element_of_part);
  void end_content();
  void end_strokes();
  void set_fill(Ink ink);
  void set_stroke(const Stroke& stroke);
  void begin_stroke(const Stroke& stroke);
  template <typename AppendShape>
  void paint(bool filled, Ink fill, bool stroked, const Stroke& stroke,
             AppendShape append_shape);
  void append_point(Point point);
  void note_used(std::size_t picture);
  /// What the current element's content covers, if it is a figure's.
  void cover(Point a, Point b, Length margin);

  StructureTree& tree_;
  TextOperators& texts_;
  PictureSet& pictures_;
  std::string out_;
  std::vector<std::size_t> used_;
  std::unordered_set<ElementId> replaced_;  // whose text was stated
  State state_;
  Length height_;
  std::uint32_t page_ = 0;
  ElementId shift_ = 0;
  ElementId element_ = kDecoration;
  bool is_open_ = false;       // inside BDC or BMC
  bool is_in_figure_ = false;  // the element is, or is inside, a figure
  bool is_stroking_ = false;   // a path waits for its S
  bool has_ink_colours_ = false;
  bool space_after_ = false;  // a word space ends the mark's text
};

}  // namespace sheaf
