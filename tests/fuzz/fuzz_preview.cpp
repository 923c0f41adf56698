// Bytes as pages of marks of every kind, drawn as a picture and written as PDF.
// The first byte says how much memory there is (see short_memory.h).

#include <array>

#include "fuzz_checks.h"
#include "ground.h"
#include "pdf/pdf_writer.h"
#include "pdf_form.h"
#include "preview/preview.h"
#include "short_memory.h"

namespace {

using namespace sheaf;
using sheaf::fuzz::require;

// More pixels take long and find nothing more.
constexpr double kMostDrawn = 40'000;

fuzz::Ground& ground() {
  static auto* const made = new fuzz::Ground;
  return *made;
}

/// Takes values off the input; zeros at its end.
class Bytes {
 public:
  Bytes(const std::uint8_t* data, std::size_t size) : rest_(data, size) {}

  bool empty() const { return rest_.empty(); }
  std::uint8_t byte() {
    if (rest_.empty()) return 0;
    const std::uint8_t value = rest_.front();
    rest_ = rest_.subspan(1);
    return value;
  }
  /// From -3,276 to 3,276 pt: beyond any paper on all sides.
  Length length() {
    const int high = byte();
    const auto units = static_cast<std::int16_t>(high << 8 | byte());
    return Length::from_mils(std::int64_t{units} * 100);
  }
  /// Never below zero, up to 655 pt.
  Length size() {
    const int high = byte();
    return Length::from_mils(std::int64_t{high << 8 | byte()} * 10);
  }
  Point point() {
    const Length x = length();
    return {x, length()};
  }
  std::string text() {
    std::string text;
    for (std::size_t left = byte() % 32U; left > 0 && !empty(); --left) {
      const std::uint8_t one = byte();
      // Above the letters of ASCII, those of two bytes.
      if (one >= 0x80) {
        text += static_cast<char>(0xC3 + (one & 1U));
        text += static_cast<char>(0x80 + (one >> 1U & 0x3FU));
      } else if (one >= ' ') {
        text += static_cast<char>(one);
      }
    }
    return text;
  }

 private:
  std::span<const std::uint8_t> rest_;
};

class PageMaker {
 public:
  PageMaker(Bytes& bytes, Document& document, Shaper& shaper)
      : bytes_(bytes), document_(document), shaper_(shaper) {}

  void add_page() {
    Page page;
    page.size = {Length::from_pt(20) + bytes_.size(),
                 Length::from_pt(20) + bytes_.size()};
    const int count = bytes_.byte() % 40;
    for (int i = 0; i < count && !bytes_.empty(); ++i) {
      page.marks.push_back(make_mark());
    }
    document_.pages.push_back(std::move(page));
  }

 private:
  Stroke stroke() {
    Stroke stroke{.width = bytes_.size(), .ink = bytes_.byte()};
    const std::uint8_t form = bytes_.byte();
    stroke.round_ends = (form & 1U) != 0;
    if ((form & 2U) != 0) {
      stroke.dash = {bytes_.size(), Length::from_mils(10) + bytes_.size()};
    }
    return stroke;
  }
  Rect rect() {
    const Point at = bytes_.point();
    const Length width = bytes_.size();
    return {at.x, at.y, width, bytes_.size()};
  }
  Path path() {
    Path path;
    const int count = 1 + bytes_.byte() % 12;
    for (int i = 0; i < count; ++i) {
      PathStep step;
      step.kind = i == 0 ? PathStep::Kind::move
                         : static_cast<PathStep::Kind>(bytes_.byte() % 4);
      step.to = bytes_.point();
      if (step.kind == PathStep::Kind::curve) {
        step.control1 = bytes_.point();
        step.control2 = bytes_.point();
      }
      path.push_back(step);
    }
    return path;
  }
  ElementId element() {
    constexpr std::array kRoles = {Role::paragraph, Role::heading1,
                                   Role::figure, Role::span};
    const std::uint8_t form = bytes_.byte();
    if (form < 64) return kDecoration;
    if (form < 80) return form % 2 == 0 ? kPageHeader : kPageFooter;
    Element element{kRoles[form % kRoles.size()], kDocumentElement};
    element.alternative = "what is shown";
    // A span stands in a paragraph.
    if (element.role == Role::span) {
      element.parent = document_.add({Role::paragraph, kDocumentElement});
    }
    return document_.add(std::move(element));
  }

  Mark make_mark() {
    switch (bytes_.byte() % 6) {
      case 0:
        return make_text();
      case 1: {
        const Point from = bytes_.point();
        const Point to = bytes_.point();
        const Stroke line = stroke();
        return LineMark{from, to, line, element()};
      }
      case 2: {
        RectMark mark{.rect = rect(), .filled = bytes_.byte() % 2 == 0};
        mark.fill = bytes_.byte();
        mark.stroked = !mark.filled || bytes_.byte() % 2 == 0;
        mark.stroke = stroke();
        mark.element = element();
        return mark;
      }
      case 3: {
        DotMark mark{.centre = bytes_.point(), .diameter = bytes_.size()};
        mark.hollow = bytes_.byte() % 2 == 0;
        mark.ring = std::min(bytes_.size(), mark.diameter / 2);
        mark.ink = bytes_.byte();
        mark.element = element();
        return mark;
      }
      case 4: {
        PathMark mark{.path = path(), .at = bytes_.point()};
        mark.filled = bytes_.byte() % 2 == 0;
        mark.fill = bytes_.byte();
        mark.stroked = !mark.filled || bytes_.byte() % 2 == 0;
        mark.stroke = stroke();
        mark.element = element();
        return mark;
      }
      default:
        return make_picture();
    }
  }

  Mark make_text() {
    FontLibrary& fonts = ground().workspace.fonts();
    const Font* font =
        fonts.find(fonts.families().front(),
                   bytes_.byte() % 2 == 0 ? FontRole::regular : FontRole::bold);
    GlyphRun run;
    run.shape = &shaper_.shape(*font, bytes_.text());
    run.size = Length::from_pt(1) + bytes_.size();
    run.tracking = bytes_.size() / 50;
    run.word_gap = bytes_.size() / 50;
    const Point at = bytes_.point();
    const std::uint8_t ink = bytes_.byte();
    return GlyphMark{run, at, ink, element()};
  }

  Mark make_picture() {
    const auto words = picture_words();
    const PictureWord& word = words[bytes_.byte() % words.size()];
    PictureMark mark{.picture = ground().workspace.pictures().find(word.word),
                     .box = rect(),
                     .grey = bytes_.byte() % 2 == 0};
    mark.element = element();
    return mark;
  }

  Bytes& bytes_;
  Document& document_;
  Shaper& shaper_;
};

void check_image(const PreviewImage& image) {
  require(image.width > 0 && image.height > 0);
  require(image.pixels.size() == static_cast<std::size_t>(image.width) *
                                     static_cast<std::size_t>(image.height) *
                                     (image.colour ? 3U : 1U));
  require(write_png(image).starts_with("\x89PNG"));
}

void draw(const Document& document, int dpi) {
  const PreviewOptions options{.dpi = dpi};
  for (const Page& page : document.pages) {
    const double inches =
        page.size.width.pt() / 72 * (page.size.height.pt() / 72);
    if (inches * dpi * dpi < kMostDrawn) check_image(draw_page(page, options));
  }
  check_image(contact_sheet(document, {.dpi = kLeastDpi}));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  if (size < 3 || size > 3000) return 0;
  ground();
  Bytes bytes(data + 1, size - 1);
  fuzz::run_short(data[0], [&] {
    Shaper shaper;
    Document document;
    document.title = "Pages";
    const int dpi = kLeastDpi + 2 * bytes.byte();
    PageMaker maker(bytes, document, shaper);
    do maker.add_page();
    while (!bytes.empty() && document.pages.size() < 4);
    draw(document, dpi);
    fuzz::check_pdf(write_pdf(document), document.pages.size());
  });
  return 0;
}
