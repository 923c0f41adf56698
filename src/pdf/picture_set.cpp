#include "pdf/picture_set.h"

#include <algorithm>
#include <cassert>

#include "pdf/operators.h"
#include "pictures/printed_picture.h"

namespace sheaf {

namespace {

// The grid on which a line drawing's points are rounded: fine enough for a
// printer across a page (a 4,000th of the drawing), and no finer.
std::int64_t grid_of(const LineDrawing& drawing) {
  const std::int64_t side =
      std::max(drawing.box.width.mils(), drawing.box.height.mils());
  return std::max<std::int64_t>(1, side / 4000);
}

std::int64_t on_grid(Length value, std::int64_t grid) {
  const std::int64_t mils = value.mils();
  return (mils + (mils < 0 ? -grid / 2 : grid / 2)) / grid;
}

// What one picture measures in the units of its own.
struct Extent {
  std::int64_t width = 1, height = 1;
  bool is_drawing = false;
};

Extent extent_of(const Picture& picture) {
  if (const auto* drawing = std::get_if<LineDrawing>(&picture.image)) {
    const std::int64_t grid = grid_of(*drawing);
    return {std::max<std::int64_t>(1, on_grid(drawing->box.width, grid)),
            std::max<std::int64_t>(1, on_grid(drawing->box.height, grid)),
            true};
  }
  if (const auto* pixels = std::get_if<PixelImage>(&picture.image)) {
    return {pixels->width, pixels->height, false};
  }
  const auto& jpeg = std::get<JpegImage>(picture.image);
  return {jpeg.width, jpeg.height, false};
}

// How large it is in a box, on paper.
struct Fitted {
  double scale, width, height;  // in points
};
Fitted fitted(const Extent& extent, const Size& box) {
  const double scale =
      std::min(box.width.pt() / static_cast<double>(extent.width),
               box.height.pt() / static_cast<double>(extent.height));
  return {scale, scale * static_cast<double>(extent.width),
          scale * static_cast<double>(extent.height)};
}

Length longer_side(const Extent& extent, const Size& box) {
  const Fitted size = fitted(extent, box);
  return Length::from_pt(std::max(size.width, size.height));
}

// All that a drawing's operators follow from, as bytes: far quicker to write.
std::string key_of(const LineDrawing& drawing) {
  std::string key = "drawing";
  const auto add = [&key](Length length) {
    const std::int64_t mils = length.mils();
    key.append(reinterpret_cast<const char*>(&mils), sizeof mils);
  };
  key.reserve(key.size() + 7 * sizeof(std::int64_t) * drawing.path.size());
  add(drawing.box.width);
  add(drawing.box.height);
  for (const PathStep& step : drawing.path) {
    key += static_cast<char>(step.kind);
    if (step.kind == PathStep::Kind::close) continue;
    add(step.to.x);
    add(step.to.y);
    if (step.kind != PathStep::Kind::curve) continue;
    add(step.control1.x);
    add(step.control1.y);
    add(step.control2.x);
    add(step.control2.y);
  }
  return key;
}

std::string operators_of(const LineDrawing& drawing) {
  const std::int64_t grid = grid_of(drawing);
  const std::int64_t height = on_grid(drawing.box.height, grid);
  std::string path = "0 g\n";
  append_path(path, drawing.path, [&](Point point) {
    append_integer(path, on_grid(point.x, grid));
    path += ' ';
    append_integer(path, height - on_grid(point.y, grid));
    path += ' ';
  });
  path += "f\n";
  return path;
}

ObjectId write_drawing(Objects& objects, Deflater& deflater,
                       const LineDrawing& drawing) {
  const std::int64_t grid = grid_of(drawing);
  std::string entries = "/Type/XObject/Subtype/Form/BBox[0 0 ";
  append_integer(entries, on_grid(drawing.box.width, grid));
  entries += ' ';
  append_integer(entries, on_grid(drawing.box.height, grid));
  entries += "]/Resources<<>>/Filter/FlateDecode";
  return objects.add_stream(std::move(entries),
                            deflater.deflate_recurring(key_of(drawing), [&] {
                              return operators_of(drawing);
                            }));
}

std::string image_entries(int width, int height, std::string_view colours) {
  std::string entries = "/Type/XObject/Subtype/Image/BitsPerComponent 8/Width ";
  append_integer(entries, width);
  entries += "/Height ";
  append_integer(entries, height);
  entries += "/ColorSpace/";
  entries += colours;
  return entries;
}

std::string_view as_text(const std::vector<std::uint8_t>& bytes) {
  return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

// One byte a pixel where the picture has no colour, empty where it has.
std::string grey_pixels(const std::vector<std::uint8_t>& rgb) {
  std::string grey;
  grey.reserve(rgb.size() / 3);
  for (std::size_t i = 0; i + 2 < rgb.size(); i += 3) {
    if (rgb[i] != rgb[i + 1] || rgb[i] != rgb[i + 2]) return {};
    grey += static_cast<char>(rgb[i]);
  }
  return grey;
}

ObjectId write_pixels(Objects& objects, Deflater& deflater,
                      const PixelImage& image) {
  [[maybe_unused]] const std::size_t count =
      static_cast<std::size_t>(image.width) *
      static_cast<std::size_t>(image.height);
  assert(image.rgb.size() == 3 * count);
  const std::string grey = grey_pixels(image.rgb);
  std::string entries = image_entries(
      image.width, image.height, grey.empty() ? "DeviceRGB" : "DeviceGray");
  // Printers flatten what has transparency, so a mask that hides nothing is
  // left out.
  const bool has_mask =
      std::any_of(image.alpha.begin(), image.alpha.end(),
                  [](std::uint8_t alpha) { return alpha != 255; });
  if (has_mask) {
    assert(image.alpha.size() == count);
    std::string mask = image_entries(image.width, image.height, "DeviceGray");
    mask += "/Filter/FlateDecode";
    entries += "/SMask ";
    append_reference(
        entries, objects.add_stream(std::move(mask),
                                    deflater.deflate(as_text(image.alpha))));
  }
  entries += "/Filter/FlateDecode";
  return objects.add_stream(
      std::move(entries),
      deflater.deflate(grey.empty() ? as_text(image.rgb) : grey));
}

// Adobe's programs write CMYK upside down and say so with a marker segment,
// APP14 (Adobe Technical Note 5116).
bool has_adobe_marker(std::string_view jpeg) {
  std::size_t at = 2;
  while (at + 4 <= jpeg.size() && jpeg[at] == '\xFF') {
    const auto marker = static_cast<unsigned char>(jpeg[at + 1]);
    if (marker == 0xEE) return jpeg.substr(at + 4, 5) == "Adobe";
    if (marker == 0xDA) return false;
    at += 2U + (static_cast<unsigned char>(jpeg[at + 2]) << 8U |
                static_cast<unsigned char>(jpeg[at + 3]));
  }
  return false;
}

ObjectId write_jpeg(Objects& objects, const JpegImage& image) {
  const std::string_view colours = image.components == 1   ? "DeviceGray"
                                   : image.components == 4 ? "DeviceCMYK"
                                                           : "DeviceRGB";
  std::string entries = image_entries(image.width, image.height, colours);
  if (image.components == 4 && has_adobe_marker(image.bytes)) {
    entries += "/Decode[1 0 1 0 1 0 1 0]";
  }
  entries += "/Filter/DCTDecode";
  return objects.add_stream(std::move(entries), image.bytes);
}

ObjectId write_picture(Objects& objects, Deflater& deflater,
                       const Picture& picture) {
  if (const auto* drawing = std::get_if<LineDrawing>(&picture.image)) {
    return write_drawing(objects, deflater, *drawing);
  }
  if (const auto* pixels = std::get_if<PixelImage>(&picture.image)) {
    return write_pixels(objects, deflater, *pixels);
  }
  return write_jpeg(objects, std::get<JpegImage>(picture.image));
}

// How far the control points of a quarter circle stand out, for a radius of 1:
// 4/3 (sqrt(2) - 1), the usual approximation by a cubic curve.
constexpr double kQuarterCircle = 0.5522847498;

// A circle around 0, 0.
ObjectId write_ring(Objects& objects, Deflater& deflater, const Ring& ring) {
  const Length radius = (ring.diameter - ring.width) / 2;
  const Length handle = scaled(radius, kQuarterCircle);
  std::string path;
  const auto points = [&](std::initializer_list<Length> places,
                          const char* operation) {
    for (const Length place : places) append_operand(path, place);
    path += operation;
  };
  append_grey(path, ring.ink);
  path += " G\n";
  points({ring.width}, "w\n");
  points({radius, {}}, "m\n");
  points({radius, handle, handle, radius, {}, radius}, "c\n");
  points({-handle, radius, -radius, handle, -radius, {}}, "c\n");
  points({-radius, -handle, -handle, -radius, {}, -radius}, "c\n");
  points({handle, -radius, radius, -handle, radius, {}}, "c\n");
  path += "[]0 d\ns\n";
  const Length edge = ring.diameter / 2 + Length::from_pt(0.01);
  std::string entries = "/Type/XObject/Subtype/Form/BBox[";
  for (const Length side : {-edge, -edge, edge, edge}) {
    append_operand(entries, side);
  }
  entries += "]/Resources<<>>/Filter/FlateDecode";
  return objects.add_stream(std::move(entries),
                            deflater.deflate_recurring(path));
}

}  // namespace

std::size_t PictureSet::use(const Picture& picture, const Size& box,
                            bool grey) {
  const auto [place, is_new] =
      numbers_.try_emplace({&picture, grey}, pictures_.size());
  if (is_new) pictures_.emplace_back(Shown{&picture, grey, {}});
  Length& side = std::get<Shown>(pictures_[place->second]).side;
  side = std::max(side, longer_side(extent_of(picture), box));
  return place->second;
}

std::size_t PictureSet::use(const Ring& ring) {
  const auto [place, is_new] =
      ring_numbers_.try_emplace(ring, pictures_.size());
  if (is_new) pictures_.emplace_back(ring);
  return place->second;
}

void PictureSet::append_ring(std::string& out, std::size_t number,
                             Point centre) {
  out += "q 1 0 0 1 ";
  append_operand(out, centre.x);
  append_length(out, centre.y);
  out += " cm/X";
  append_integer(out, static_cast<std::int64_t>(number));
  out += " Do Q\n";
}

void PictureSet::append_painting(std::string& out, std::size_t number,
                                 const Rect& box) const {
  const Extent extent = extent_of(*std::get<Shown>(pictures_[number]).picture);
  const auto [scale, width, height] = fitted(extent, {box.width, box.height});
  // An image fills a unit square; a drawing has units of its own.
  out += "q ";
  append_decimal(out, extent.is_drawing ? scale : width, 6);
  out += " 0 0 ";
  append_decimal(out, extent.is_drawing ? scale : height, 6);
  out += ' ';
  append_decimal(out, box.x.pt() + (box.width.pt() - width) / 2, 2);
  out += ' ';
  append_decimal(out, box.y.pt() + (box.height.pt() - height) / 2, 2);
  out += " cm/X";
  append_integer(out, static_cast<std::int64_t>(number));
  out += " Do Q\n";
}

std::vector<ObjectId> PictureSet::write(Objects& objects,
                                        Deflater& deflater) const {
  std::vector<ObjectId> ids;
  for (const auto& entry : pictures_) {
    if (const Ring* ring = std::get_if<Ring>(&entry)) {
      ids.push_back(write_ring(objects, deflater, *ring));
      continue;
    }
    const auto& [picture, grey, side] = std::get<Shown>(entry);
    const std::optional<Picture> made = printed_picture(*picture, side, grey);
    ids.push_back(write_picture(objects, deflater, made ? *made : *picture));
  }
  return ids;
}

}  // namespace sheaf
