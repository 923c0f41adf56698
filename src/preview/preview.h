#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "layout/page.h"

namespace sheaf {

/// Pages as pictures: what `pdf` writes, drawn here with FreeType, for screens
/// and for looking a packet over. Both go through the same marks.

/// Rows from the top, one byte a pixel (0 is black), or three where it has
/// colour: red, green, blue.
struct PreviewImage {
  int width = 0;
  int height = 0;
  bool colour = false;
  std::vector<std::uint8_t> pixels;
  /// Dots an inch of the paper; 0 where it is no single page.
  int dpi = 0;
};

/// What a resolution may be.
inline constexpr int kLeastDpi = 20;
inline constexpr int kMostDpi = 600;
/// The most pixels of a picture: A4 and letter at 600 dots an inch.
inline constexpr std::int64_t kMostPixels = 40'000'000;

enum class PreviewColours {
  as_needed,  ///< grey, but for pages with pictures in colour
  grey
};

struct PreviewOptions {
  int dpi = 96;
  PreviewColours colours = PreviewColours::as_needed;
};

/// A page on white paper, every part of a pixel rounded up to a whole one.
/// Throws MachineError where the resolution is not allowed, where the page
/// would have more pixels than `kMostPixels`, or where a font cannot be read.
PreviewImage draw_page(const Page& page, const PreviewOptions& options = {});

/// All pages in the order of reading, `columns` of them side by side (0: as
/// fits a screen; the number of pages: a strip). Where that would be more than
/// `kMostSheetPixels`, or a side longer than `kMostSheetSide`, everything is
/// drawn smaller. Throws as `draw_page`, and where there is no page.
PreviewImage contact_sheet(const Document& document,
                           const PreviewOptions& options, int columns = 0);
inline constexpr std::int64_t kMostSheetPixels = 16'000'000;
inline constexpr int kMostSheetSide = 16'000;

/// The bytes of a PNG file that says that Sheaf made it (see own_png.h).
/// (PNG, third edition, W3C)
std::string write_png(const PreviewImage& image);

}  // namespace sheaf
