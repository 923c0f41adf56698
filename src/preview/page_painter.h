#pragma once

#include <map>
#include <utility>

#include "layout/page.h"
#include "preview/canvas.h"
#include "preview/glyphs.h"
#include "preview/pen.h"
#include "preview/preview.h"
#include "preview/shapes.h"

namespace sheaf {

/// Goes through the marks of pages, as `PageContent` does for a PDF. What it
/// reads of fonts and pictures it keeps for the next page, so the document has
/// to outlive it.
class PagePainter {
 public:
  /// Takes any resolution above 0.
  explicit PagePainter(const PreviewOptions& options);

  /// Throws MachineError where the page has too many pixels or a font or a
  /// picture cannot be read.
  PreviewImage paint(const Page& page);

 private:
  void paint(const GlyphMark& mark);
  void paint(const LineMark& mark);
  void paint(const RectMark& mark);
  void paint(const DotMark& mark);
  void paint(const PathMark& mark);
  void paint(const PictureMark& mark);

  void paint_glyph(const Glyphs::Outline& outline, Spot origin, double scale,
                   Ink ink);
  void stroke(const CanvasPath& path, const Stroke& stroke);
  void fill_shape(Ink ink);
  bool has_colour(const Page& page);
  const PixelImage& pixels(const PictureMark& mark);

  PreviewOptions options_;
  Scale scale_;
  FtOwner<FT_Library> library_;
  Glyphs glyphs_;
  Pen pen_;
  Shape shape_;
  std::vector<FT_Vector> points_;                 // of a letter where it stands
  using Shown = std::pair<const Picture*, bool>;  // in shades of grey or not
  std::map<Shown, PixelImage> unpacked_;
  std::map<const Picture*, bool> coloured_;
  Canvas* canvas_ = nullptr;  // while a page is painted
};

}  // namespace sheaf
