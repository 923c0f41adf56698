#include "preview/canvas.h"

#include <algorithm>
#include <cmath>

namespace sheaf {

namespace {

// How bright a colour is (ITU-R BT.601, as readers of PDF turn colours grey).
float grey_of(float red, float green, float blue) {
  return 0.299F * red + 0.587F * green + 0.114F * blue;
}

std::uint8_t as_byte(float value) {
  return static_cast<std::uint8_t>(
      std::lround(std::clamp(value, 0.0F, 255.0F)));
}

}  // namespace

Canvas::Canvas(FT_Library library, int width, int height, bool colour)
    : library_(library), channels_(colour ? 3 : 1) {
  image_.width = width;
  image_.height = height;
  image_.colour = colour;
  image_.pixels.assign(static_cast<std::size_t>(width) *
                           static_cast<std::size_t>(height) * channels_,
                       kWhite);
}

void Canvas::fill(const FT_Outline& outline, Ink ink) {
  if (outline.n_points == 0) return;
  ink_ = ink;
  FT_Outline shape = outline;
  FT_Raster_Params params{};
  params.source = &shape;
  params.flags =
      FT_RASTER_FLAG_AA | FT_RASTER_FLAG_DIRECT | FT_RASTER_FLAG_CLIP;
  params.clip_box = {0, 0, image_.width, image_.height};
  params.gray_spans = cover_spans;
  params.user = this;
  check_free_type(FT_Outline_Render(library_, &shape, &params),
                  "a shape on it is too large");
}

void Canvas::cover_spans(int y, int count, const FT_Span* spans, void* canvas) {
  for (int i = 0; i < count; ++i) {
    static_cast<Canvas*>(canvas)->cover(spans[i].x, y, spans[i].len,
                                        spans[i].coverage);
  }
}

// FreeType keeps to the clip box.
void Canvas::cover(int x, int y, int length, unsigned coverage) {
  std::uint8_t* pixel =
      image_.pixels.data() +
      (static_cast<std::size_t>(y) * static_cast<std::size_t>(image_.width) +
       static_cast<std::size_t>(x)) *
          channels_;
  std::uint8_t* const end =
      pixel + static_cast<std::size_t>(length) * channels_;
  if (coverage == 255) {
    std::fill(pixel, end, ink_);
    return;
  }
  const unsigned added = ink_ * coverage;
  for (; pixel != end; ++pixel) {
    *pixel = static_cast<std::uint8_t>(
        (*pixel * (255 - coverage) + added + 127) / 255);
  }
}

void Canvas::lay_over(int x, int y, float red, float green, float blue,
                      float alpha) {
  if (x < 0 || y < 0 || x >= image_.width || y >= image_.height) return;
  std::uint8_t* pixel =
      image_.pixels.data() +
      (static_cast<std::size_t>(y) * static_cast<std::size_t>(image_.width) +
       static_cast<std::size_t>(x)) *
          channels_;
  const float left = 1.0F - alpha / 255.0F;
  const auto lay = [&](std::uint8_t& there, float colour) {
    there = as_byte(static_cast<float>(there) * left + colour);
  };
  if (channels_ == 1) {
    lay(pixel[0], grey_of(red, green, blue));
  } else {
    lay(pixel[0], red);
    lay(pixel[1], green);
    lay(pixel[2], blue);
  }
}

}  // namespace sheaf
