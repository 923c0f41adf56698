#include "preview/preview.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/error.h"
#include "preview/page_painter.h"

namespace sheaf {

namespace {

constexpr Ink kTable = 208;  // what the pages of a contact sheet lie on

// Below this, a page is a speck.
constexpr int kLeastSheetDpi = 4;

void check(const PreviewOptions& options) {
  if (options.dpi >= kLeastDpi && options.dpi <= kMostDpi) return;
  throw MachineError(
      fmt::format("a page can be drawn at {} to {} dots an inch, not at {}",
                  kLeastDpi, kMostDpi, options.dpi));
}

// Where the pages of a contact sheet lie: equal cells with gaps around them.
struct Cells {
  int columns = 1, rows = 1;
  double width = 0, height = 0;  // of the largest page, in inches
  static constexpr double kGap = 0.25;

  double across() const { return columns * (width + kGap) + kGap; }
  double down() const { return rows * (height + kGap) + kGap; }
};

Cells cells_for(const Document& document, int columns) {
  const int count = static_cast<int>(document.pages.size());
  Cells cells;
  for (const Page& page : document.pages) {
    cells.width = std::max(cells.width, page.size.width.pt() / 72);
    cells.height = std::max(cells.height, page.size.height.pt() / 72);
  }
  if (columns <= 0) {
    // A screen is about three by two.
    constexpr double kScreen = 1.5;
    columns = static_cast<int>(
        std::lround(std::sqrt(count * kScreen * cells.height / cells.width)));
  }
  cells.columns = std::clamp(columns, 1, count);
  cells.rows = (count + cells.columns - 1) / cells.columns;
  return cells;
}

// The resolution asked for, or what the limits allow.
int dpi_for(const Cells& cells, int wanted) {
  const double area = cells.across() * cells.down();
  const double side = std::max(cells.across(), cells.down());
  const double most =
      std::min(std::sqrt(static_cast<double>(kMostSheetPixels) / area),
               kMostSheetSide / side);
  return std::min(wanted, static_cast<int>(most));
}

// Puts a page on the table.
void lay_down(PreviewImage& sheet, const PreviewImage& page, int left,
              int top) {
  const std::size_t channels = sheet.colour ? 3 : 1;
  for (int y = 0; y < page.height && top + y < sheet.height; ++y) {
    const auto columns =
        static_cast<std::size_t>(std::min(page.width, sheet.width - left));
    const std::uint8_t* from =
        page.pixels.data() + static_cast<std::size_t>(y) *
                                 static_cast<std::size_t>(page.width) *
                                 (page.colour ? 3 : 1);
    std::uint8_t* to =
        sheet.pixels.data() + (static_cast<std::size_t>(top + y) *
                                   static_cast<std::size_t>(sheet.width) +
                               static_cast<std::size_t>(left)) *
                                  channels;
    if (page.colour == sheet.colour) {
      std::copy_n(from, columns * channels, to);
    } else {
      for (std::size_t x = 0; x < columns; ++x, to += 3) {
        std::fill_n(to, 3, from[x]);
      }
    }
  }
}

void turn_to_colour(PreviewImage& sheet) {
  std::vector<std::uint8_t> colours;
  colours.reserve(3 * sheet.pixels.size());
  for (const std::uint8_t grey : sheet.pixels) {
    colours.insert(colours.end(), 3, grey);
  }
  sheet.pixels = std::move(colours);
  sheet.colour = true;
}

}  // namespace

PreviewImage draw_page(const Page& page, const PreviewOptions& options) {
  check(options);
  return PagePainter(options).paint(page);
}

PreviewImage contact_sheet(const Document& document,
                           const PreviewOptions& options, int columns) {
  check(options);
  if (document.pages.empty()) throw MachineError("there is no page to draw");
  const Cells cells = cells_for(document, columns);
  PreviewOptions smaller = options;
  smaller.dpi = dpi_for(cells, options.dpi);
  if (smaller.dpi < kLeastSheetDpi) {
    throw MachineError("there are too many pages for one picture");
  }
  PagePainter painter(smaller);
  const auto at = [&](double inches) {
    return static_cast<int>(std::lround(inches * smaller.dpi));
  };
  PreviewImage sheet;
  sheet.width = at(cells.across());
  sheet.height = at(cells.down());
  sheet.pixels.assign(static_cast<std::size_t>(sheet.width) *
                          static_cast<std::size_t>(sheet.height),
                      kTable);
  int place = 0;
  for (const Page& page : document.pages) {
    const PreviewImage one = painter.paint(page);
    if (one.colour && !sheet.colour) turn_to_colour(sheet);
    const int column = place % cells.columns, row = place / cells.columns;
    lay_down(sheet, one, at(Cells::kGap + column * (cells.width + Cells::kGap)),
             at(Cells::kGap + row * (cells.height + Cells::kGap)));
    ++place;
  }
  return sheet;
}

}  // namespace sheaf
