#include "look_checks.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "layout/mark_bounds.h"
#include "text/font.h"

namespace sheaf::test {

using namespace literals;

namespace {

// Sizes of type: DESIGN of the pages; 14 pt is the least for learners but for
// footers and the codes of cards (common practice, no source).
constexpr Length kLeastType = 14_pt;
constexpr Length kLeastRule = 0.5_pt;

bool overlap(const Rect& a, const Rect& b) {
  const Length slack = 0.3_mm;
  return a.x + slack < b.right() && b.x + slack < a.right() &&
         a.y + slack < b.bottom() && b.y + slack < a.bottom();
}

using Edge = std::pair<Point, Point>;

// Straight lines of a mark: itself, or the four sides of a frame.
std::vector<Edge> edges_of(const Mark& mark) {
  if (const auto* line = std::get_if<LineMark>(&mark)) {
    return {{line->from, line->to}};
  }
  const auto* frame = std::get_if<RectMark>(&mark);
  if (frame == nullptr || !frame->stroked) return {};
  const Rect& r = frame->rect;
  const Point a{r.x, r.y}, b{r.right(), r.y}, c{r.right(), r.bottom()},
      d{r.x, r.bottom()};
  return {{a, b}, {b, c}, {c, d}, {d, a}};
}

struct Strokes {
  std::vector<Stroke> operator()(const LineMark& m) const { return {m.stroke}; }
  std::vector<Stroke> operator()(const RectMark& m) const {
    return m.stroked ? std::vector{m.stroke} : std::vector<Stroke>{};
  }
  std::vector<Stroke> operator()(const PathMark& m) const {
    return m.stroked ? std::vector{m.stroke} : std::vector<Stroke>{};
  }
  template <typename Other>
  std::vector<Stroke> operator()(const Other&) const {
    return {};
  }
};

}  // namespace

Made make(Workspace& workspace, const std::string& lesson,
          const std::string& layout, const std::string& paper,
          const std::vector<std::string>& only) {
  LessonRequest request;
  request.layout = layout;
  request.paper = paper;
  Diagnostics diagnostics;
  Made made;
  made.about = lesson + ", " + layout + ", " + paper;
  made.lesson = prepare(workspace, request, lesson, diagnostics);
  EXPECT_NE(made.lesson, nullptr) << made.about;
  if (made.lesson == nullptr) return made;
  made.packet = make_packet(made.lesson->analyzed, made.lesson->layout,
                            *made.lesson->pictures, made.lesson->style,
                            workspace.shaper(), only, diagnostics);
  if (diagnostics.has_errors()) made.faults = to_text(diagnostics, {});
  return made;
}

Rect ink_of_text(const GlyphMark& text) {
  Rect rect = bounds_of(text);
  rect.y = text.at.y - text.run.size / 2;
  rect.height = text.run.size / 2;
  return rect;
}

Rect exact_ink(const GlyphMark& text) {
  const Font& font = *text.run.shape->font;
  Rect rect = bounds_of(text);
  std::int32_t top = 0, bottom = 0;
  for (const ShapedGlyph& glyph : text.run.shape->glyphs) {
    top = std::max(top, glyph.ink_top);
    bottom = std::min(bottom, glyph.ink_bottom);
  }
  rect.y = text.at.y - at_size(font, text.run.size, top);
  rect.height = text.at.y - at_size(font, text.run.size, bottom) - rect.y;
  return rect;
}

void check_overlaps(const Page& page, const std::string& where) {
  std::vector<std::pair<Rect, std::string>> placed;
  for (const Mark& mark : page.marks) {
    Rect rect;
    std::string what;
    if (const auto* text = std::get_if<GlyphMark>(&mark)) {
      rect = ink_of_text(*text);
      what = text->run.shape->text;
    } else if (const auto* picture = std::get_if<PictureMark>(&mark)) {
      rect = picture->box;
      what = "a picture of " + picture->picture->name;
    } else {
      continue;
    }
    for (const auto& [other, name] : placed) {
      EXPECT_FALSE(overlap(rect, other))
          << where << ": " << what << " on " << name;
    }
    placed.emplace_back(rect, what);
  }
}

void check_lines(const Page& page, const std::string& where) {
  std::vector<Edge> edges;
  for (const Mark& mark : page.marks) {
    for (const Edge& edge : edges_of(mark)) edges.push_back(edge);
  }
  for (const Mark& mark : page.marks) {
    const auto* text = std::get_if<GlyphMark>(&mark);
    if (text == nullptr || bounds_of(mark).width == 0_mm) continue;
    const Rect ink = exact_ink(*text);
    for (const auto& [from, to] : edges) {
      const Rect line{std::min(from.x, to.x), std::min(from.y, to.y),
                      std::max(from.x, to.x) - std::min(from.x, to.x),
                      std::max(from.y, to.y) - std::min(from.y, to.y)};
      const bool stands_on_it = line.height == 0_mm &&
                                line.y - text->at.y < 0.5_mm &&
                                text->at.y - line.y < 0.5_mm;
      const Length slack = 0.2_mm;
      const bool crosses =
          line.x < ink.right() - slack && line.right() > ink.x + slack &&
          line.y < ink.bottom() - slack && line.bottom() > ink.y + slack;
      EXPECT_FALSE(crosses && !stands_on_it)
          << where << ": a line through " << text->run.shape->text;
    }
  }
}

void check_edges(const Page& page, const std::string& where) {
  // The safe edge of office printers: a quarter of an inch, as advised on a
  // page of questions and answers about printers; a maker's manual says 4 mm.
  const Length edge = 6.35_mm;
  for (const Mark& mark : page.marks) {
    const auto* text = std::get_if<GlyphMark>(&mark);
    const Rect ink = text == nullptr ? bounds_of(mark) : exact_ink(*text);
    EXPECT_TRUE(ink.x >= edge && ink.y >= edge &&
                ink.right() <= page.size.width - edge &&
                ink.bottom() <= page.size.height - edge)
        << where << ": " << (text == nullptr ? "a mark" : text->run.shape->text)
        << " at the edge";
  }
}

void check_type(const Page& page, const Style& style, bool for_learner,
                const std::string& where) {
  for (const Mark& mark : page.marks) {
    for (const Stroke& stroke : std::visit(Strokes(), mark)) {
      EXPECT_GE(stroke.width, kLeastRule) << where;
      // A copier makes black or white of any grey.
      EXPECT_EQ(stroke.ink, kBlack) << where;
    }
    const auto* text = std::get_if<GlyphMark>(&mark);
    if (text == nullptr || !for_learner) continue;
    EXPECT_TRUE(text->run.size >= kLeastType ||
                text->run.size == style.footer_size)
        << where << ": " << text->run.shape->text << " in "
        << text->run.size.mils() / 1000.0 << " pt";
  }
}

}  // namespace sheaf::test
