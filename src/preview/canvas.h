#pragma once

#include "preview/free_type.h"
#include "preview/preview.h"

namespace sheaf {

/// White paper to draw on: pixels with x to the right and y downwards, in
/// FreeType's 64ths of a pixel where outlines are meant.
class Canvas {
 public:
  /// `library` must outlive it.
  Canvas(FT_Library library, int width, int height, bool colour);

  int width() const { return image_.width; }
  int height() const { return image_.height; }
  bool colour() const { return image_.colour; }

  /// Fills an outline by the non-zero rule, smoothly: a pixel takes on ink as
  /// far as it is covered. What lies outside is cut off.
  void fill(const FT_Outline& outline, Ink ink);

  /// Lays one pixel of a picture over what is there. The colours come
  /// multiplied by `alpha`; all are 0 to 255. Outside, nothing happens.
  void lay_over(int x, int y, float red, float green, float blue, float alpha);

  PreviewImage take() { return std::move(image_); }

 private:
  void cover(int x, int y, int length, unsigned coverage);
  static void cover_spans(int y, int count, const FT_Span* spans, void* canvas);

  FT_Library library_;
  PreviewImage image_;
  std::size_t channels_;
  Ink ink_ = kBlack;
};

}  // namespace sheaf
