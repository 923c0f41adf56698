#include "preview/page_painter.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include <fmt/format.h>

#include "base/error.h"
#include "pictures/jpeg_image.h"
#include "pictures/pixels.h"
#include "preview/scaled_picture.h"
#include "text/font.h"

namespace sheaf {

namespace {

constexpr double kMilsPerInch = 72'000;

bool is_grey(const PixelImage& image) {
  for (std::size_t i = 0; i + 2 < image.rgb.size(); i += 3) {
    if (image.rgb[i] != image.rgb[i + 1] || image.rgb[i] != image.rgb[i + 2]) {
      return false;
    }
  }
  return true;
}

// How many pixels a side of the paper has.
double pixels_for(Length side, const Scale& scale) {
  // What a sum of roundings leaves over is no pixel.
  constexpr double kLeftOver = 1e-6;
  return std::max(1.0, std::ceil(scale.length(side) - kLeftOver));
}

// Where the middle of an upright or level line of `width` comes to stand so
// that its first edge lies between two pixels, and a line thinner than a pixel
// in the middle of one: else every other rule would look blurred (ISO
// 32000-1, 10.6.5, does the like). Its width stays, so that thin rules look
// thin.
double crisp(double middle, double width) {
  return std::round(middle - width / 2) + std::max(width, 1.0) / 2;
}

}  // namespace

PagePainter::PagePainter(const PreviewOptions& options)
    : options_(options),
      scale_{options.dpi / kMilsPerInch},
      library_(open_free_type()),
      glyphs_(library_.get()),
      pen_(library_.get()) {}

PreviewImage PagePainter::paint(const Page& page) {
  const double width = pixels_for(page.size.width, scale_);
  const double height = pixels_for(page.size.height, scale_);
  // FreeType counts pixels along a row in 15 bits.
  constexpr double kLongestSide = 32'000;
  if (width * height > static_cast<double>(kMostPixels) ||
      std::max(width, height) > kLongestSide) {
    throw MachineError(fmt::format(
        "a page of {:.0f} by {:.0f} mm is too large to be drawn at {} dots an "
        "inch",
        page.size.width.mm(), page.size.height.mm(), options_.dpi));
  }
  const bool colour =
      options_.colours == PreviewColours::as_needed && has_colour(page);
  Canvas canvas(library_.get(), static_cast<int>(width),
                static_cast<int>(height), colour);
  canvas_ = &canvas;
  for (const Mark& mark : page.marks) {
    std::visit([this](const auto& kind) { paint(kind); }, mark);
  }
  canvas_ = nullptr;
  PreviewImage image = canvas.take();
  image.dpi = options_.dpi;
  return image;
}

void PagePainter::fill_shape(Ink ink) {
  if (!shape_.empty()) canvas_->fill(shape_.outline(), ink);
  shape_.clear();
}

void PagePainter::stroke(const CanvasPath& path, const Stroke& stroke) {
  pen_.draw(path, stroke, scale_, shape_, [&] { fill_shape(stroke.ink); });
  fill_shape(stroke.ink);
}

void PagePainter::paint(const GlyphMark& mark) {
  const ShapedText& shape = *mark.run.shape;
  const double scale =
      scale_.length(mark.run.size) / shape.font->units_per_em();
  // Lines of text look alike only if each stands on whole pixels: on the upper
  // edge of the one that its line runs through, so that no letter is drawn over
  // the rule that it stands on.
  const Spot at = scale_.spot(mark.at);
  const Spot origin{at.x, std::floor(at.y)};
  for (std::size_t i = 0; i < shape.glyphs.size(); ++i) {
    const ShapedGlyph& glyph = shape.glyphs[i];
    const auto& outline = glyphs_.outline(*shape.font, glyph.id);
    if (outline.points.empty()) continue;
    paint_glyph(outline,
                {origin.x + scale_.length(pen_before(mark.run, i)) +
                     glyph.x_offset * scale,
                 origin.y - glyph.y_offset * scale},
                scale, mark.ink);
  }
}

void PagePainter::paint_glyph(const Glyphs::Outline& outline, Spot origin,
                              double scale, Ink ink) {
  points_.resize(outline.points.size());
  const double left = origin.x * 64, base = origin.y * 64, grow = scale * 64;
  for (std::size_t i = 0; i < points_.size(); ++i) {
    const FT_Vector from = outline.points[i];
    points_[i] = {std::lrint(left + static_cast<double>(from.x) * grow),
                  std::lrint(base - static_cast<double>(from.y) * grow)};
  }
  FT_Outline placed{};
  placed.n_points = static_cast<decltype(placed.n_points)>(points_.size());
  placed.n_contours =
      static_cast<decltype(placed.n_contours)>(outline.ends.size());
  placed.points = points_.data();
  // FreeType only reads them, but does not say so.
  placed.tags = const_cast<decltype(placed.tags)>(outline.tags.data());
  placed.contours = const_cast<decltype(placed.contours)>(outline.ends.data());
  canvas_->fill(placed, ink);
}

void PagePainter::paint(const LineMark& mark) {
  using enum PathStep::Kind;
  Spot from = scale_.spot(mark.from), to = scale_.spot(mark.to);
  const double width = scale_.length(mark.stroke.width);
  const bool is_level = mark.from.y == mark.to.y;
  const bool is_upright = mark.from.x == mark.to.x;
  if (is_level && !is_upright) from.y = to.y = crisp(from.y, width);
  if (is_upright && !is_level) from.x = to.x = crisp(from.x, width);
  stroke({{move, from, {}, {}}, {line, to, {}, {}}}, mark.stroke);
}

void PagePainter::paint(const RectMark& mark) {
  const Rect& rect = mark.rect;
  Spot corner = scale_.spot({rect.x, rect.y});
  Spot opposite = scale_.spot({rect.right(), rect.bottom()});
  // What has no line around it begins and ends between two pixels.
  const double width = mark.stroked ? scale_.length(mark.stroke.width) : 0;
  for (double* side : {&corner.x, &corner.y, &opposite.x, &opposite.y}) {
    *side = mark.stroked ? crisp(*side, width) : std::round(*side);
  }
  const CanvasPath path = rectangle(corner, opposite);
  if (mark.filled) {
    add_filled(path, shape_);
    fill_shape(mark.fill);
  }
  if (mark.stroked) stroke(path, mark.stroke);
}

void PagePainter::paint(const DotMark& mark) {
  const Spot centre = scale_.spot(mark.centre);
  const double radius = scale_.length(mark.diameter) / 2;
  shape_.circle(centre, radius);
  if (mark.hollow && mark.ring < mark.diameter) {
    const double inner = radius - scale_.length(mark.ring);
    if (inner > 0) shape_.circle(centre, inner, Shape::Turn::back);
  }
  fill_shape(mark.ink);
}

void PagePainter::paint(const PathMark& mark) {
  const CanvasPath path = on_canvas(mark.path, mark.at, scale_);
  if (mark.filled) {
    add_filled(path, shape_);
    fill_shape(mark.fill);
  }
  if (mark.stroked) stroke(path, mark.stroke);
}

void PagePainter::paint(const PictureMark& mark) {
  const Picture& picture = *mark.picture;
  const auto* drawing = std::get_if<LineDrawing>(&picture.image);
  const double box_width = scale_.length(mark.box.width);
  const double box_height = scale_.length(mark.box.height);
  const double own_width =
      drawing != nullptr ? drawing->box.width.pt() : pixels(mark).width;
  const double own_height =
      drawing != nullptr ? drawing->box.height.pt() : pixels(mark).height;
  if (own_width <= 0 || own_height <= 0) return;
  const double scale = std::min(box_width / own_width, box_height / own_height);
  const Spot box = scale_.spot({mark.box.x, mark.box.y});
  const Spot corner{box.x + (box_width - own_width * scale) / 2,
                    box.y + (box_height - own_height * scale) / 2};
  if (drawing == nullptr) {
    draw_pixels(*canvas_, pixels(mark), corner, own_width * scale,
                own_height * scale);
    return;
  }
  CanvasPath path = on_canvas(drawing->path, {}, {scale / 1000});
  for (CanvasStep& step : path) {
    for (Spot* spot : {&step.to, &step.control1, &step.control2}) {
      *spot = {spot->x + corner.x, spot->y + corner.y};
    }
  }
  add_filled(path, shape_);
  fill_shape(kBlack);
}

bool PagePainter::has_colour(const Page& page) {
  for (const Mark& mark : page.marks) {
    const auto* shown = std::get_if<PictureMark>(&mark);
    if (shown == nullptr || shown->grey ||
        std::holds_alternative<LineDrawing>(shown->picture->image)) {
      continue;
    }
    const auto [place, is_new] = coloured_.try_emplace(shown->picture);
    if (is_new) place->second = !is_grey(pixels(*shown));
    if (place->second) return true;
  }
  return false;
}

const PixelImage& PagePainter::pixels(const PictureMark& mark) {
  const Picture& picture = *mark.picture;
  const auto* image = std::get_if<PixelImage>(&picture.image);
  if (image != nullptr && !mark.grey) return *image;
  const auto [place, is_new] = unpacked_.try_emplace({&picture, mark.grey});
  if (!is_new) return place->second;
  if (image != nullptr) {
    place->second = turned_grey(*image);
    return place->second;
  }
  auto unpacked = pixels_of(std::get<JpegImage>(picture.image));
  // It was unpacked whole once when the lesson was read.
  if (!unpacked) {
    throw MachineError(fmt::format(
        "a page cannot be drawn: the picture {} is damaged", picture.name));
  }
  place->second =
      mark.grey ? turned_grey(*std::move(unpacked)) : *std::move(unpacked);
  return place->second;
}

}  // namespace sheaf
