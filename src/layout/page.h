#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "base/geometry.h"
#include "base/source.h"
#include "pictures/picture.h"
#include "text/glyph_run.h"

namespace sheaf {

/// Finished pages as plain data: what the layout stage hands to the writers.
/// Places are from the top left corner of the page.

/// Which element of the document a mark belongs to; 0 is decoration (rules,
/// furniture), which a screen reader skips. So is what stands on every page of
/// a sheet alike, each kind with an id of its own (ISO 32000-1, 14.8.2.2).
using ElementId = std::uint32_t;
inline constexpr ElementId kDecoration = 0;
inline constexpr ElementId kPageHeader = 0xFFFFFFFE;
inline constexpr ElementId kPageFooter = 0xFFFFFFFF;
constexpr bool is_artifact(ElementId element) {
  return element == kDecoration || element >= kPageHeader;
}

/// Greyness: 0 is black, 255 white. Nothing in Sheaf needs more colour.
using Ink = std::uint8_t;
inline constexpr Ink kBlack = 0;
inline constexpr Ink kWhite = 255;

struct Dash {
  Length on, off;  ///< both 0: a solid line; on 0 with round ends: dots
  friend bool operator==(const Dash&, const Dash&) = default;
};

struct Stroke {
  Length width;
  Ink ink = kBlack;
  Dash dash;
  bool round_ends = false;
  friend bool operator==(const Stroke&, const Stroke&) = default;
};

struct GlyphMark {
  GlyphRun run;
  Point at;  ///< the run's origin, on the baseline
  Ink ink = kBlack;
  ElementId element = kDecoration;
};

/// A straight line; with round ends also a pill.
struct LineMark {
  Point from, to;
  Stroke stroke;
  ElementId element = kDecoration;
};

struct RectMark {
  Rect rect;
  bool filled = false;
  Ink fill = kWhite;
  bool stroked = true;
  Stroke stroke;
  ElementId element = kDecoration;
};

/// A round dot; a hollow one is a ring of `ring` width inside its diameter.
struct DotMark {
  Point centre;
  Length diameter;
  bool hollow = false;
  Length ring;
  Ink ink = kBlack;
  ElementId element = kDecoration;
};

struct PathMark {
  Path path;
  Point at;  ///< added to every point of the path
  bool filled = false;
  Ink fill = kBlack;
  bool stroked = true;
  Stroke stroke;
  ElementId element = kDecoration;
};

/// The picture is fitted into the box without distortion, in its middle.
struct PictureMark {
  const Picture* picture = nullptr;
  Rect box;
  ElementId element = kDecoration;
  bool grey = false;  ///< in shades of grey, where it has colours
};

using Mark =
    std::variant<GlyphMark, LineMark, RectMark, DotMark, PathMark, PictureMark>;

/// What a part of the document is, after the standard structure types of PDF
/// (ISO 32000-1, 14.8.4).
enum class Role {
  document,
  section,
  heading1,
  heading2,
  heading3,
  paragraph,
  list,
  list_item,
  list_label,
  list_body,
  table,
  table_row,
  header_cell,
  data_cell,
  figure,
  span,
};

enum class Scope { none, row, column };

/// A part of the document, as someone hears it who cannot see the page. Its
/// children are the elements that name it as their parent, in order of their
/// ids, which is the reading order.
struct Element {
  Role role = Role::paragraph;
  ElementId parent = 0;
  /// What a sighted reader sees; required for figures. Of a span: the text as
  /// it would be typed, where its glyphs stand apart (a word with room between
  /// its graphemes) or say less than they show.
  std::string alternative = {};
  Scope scope = Scope::none;
  /// How many columns and rows a table's cell takes.
  std::uint16_t columns = 1, rows = 1;
  /// A language tag if it differs from the document's.
  std::string language = {};
  /// Where it comes from: the word, the sentence or the pattern in the lesson,
  /// or the sheet's entry in the layout. None where nobody wrote it.
  Span span = {};
};

struct Page {
  Size size;
  std::vector<Mark> marks;
  /// The page's label in a viewer: "dictation 1".
  std::string label;
  /// It will be cut up, so that nothing may stand on its back.
  bool own_leaf = false;
  /// It stands on the back of the page before.
  bool is_back = false;
  /// The room between the frame's head and its foot; none where the page has no
  /// frame.
  Rect body;
};

struct OutlineEntry {
  std::string title;
  std::uint32_t page = 0;  ///< index into `Document::pages`
};

/// What a packet is: pages and one element tree over them. `elements[0]` is
/// the document itself and has id 1; an element's id is its index plus one.
struct Document {
  std::string title;
  /// With a region, so that a screen reader takes the right voice.
  std::string language = "en-US";
  /// The lesson's file; null where there is none.
  const SourceFile* source = nullptr;
  std::vector<Page> pages;
  std::vector<Element> elements = {{Role::document, 0}};
  std::vector<OutlineEntry> outline;
  /// Printed on both sides, turned on the long edge.
  bool duplex = true;

  ElementId add(Element element) {
    elements.push_back(std::move(element));
    return static_cast<ElementId>(elements.size());
  }
  const Element& element(ElementId id) const { return elements[id - 1]; }
};

inline constexpr ElementId kDocumentElement = 1;

}  // namespace sheaf
