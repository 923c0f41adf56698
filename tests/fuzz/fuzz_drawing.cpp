// The notations of our own drawings (src/data/picture_drawings.txt) and of
// written letters (letter_strokes.txt). Two bytes come before the text: how
// much memory there is (see short_memory.h), and `l` where it is letters.

#include "fuzz_checks.h"
#include "pictures/drawing_notation.h"
#include "pictures/letter_strokes.h"
#include "pictures/stroke_outline.h"
#include "short_memory.h"

namespace {

using namespace sheaf;
using sheaf::fuzz::require;

constexpr Length kPen = Length::from_pt(1.6);

// What is drawn stays within a hundred times its box, so that no sum of places
// can run over.
void check_path(const Path& path) {
  const auto check_length = [](Length at) {
    require(at > Length::from_pt(-1e5) && at < Length::from_pt(1e5));
  };
  for (const PathStep& step : path) {
    for (const Point& point : {step.to, step.control1, step.control2}) {
      check_length(point.x);
      check_length(point.y);
    }
  }
}

void read_lines(std::string_view text) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string why;
    const auto part = read_drawn_part(text.substr(0, end), kPen, why);
    text.remove_prefix(std::min(end + 1, text.size()));
    require(part.has_value() == why.empty());
    if (!part) continue;
    require(!part->path.empty());
    require(part->path.front().kind == PathStep::Kind::move);
    check_path(part->path);
    check_path(part->pen > Length() ? stroke_outline(part->path, part->pen)
                                    : fill_outline(part->path));
  }
}

void read_letters(std::string_view text) {
  std::string fault;
  const std::vector<LetterShape> shapes = read_letter_shapes(text, fault);
  if (!fault.empty()) return;
  for (const LetterShape& shape : shapes) {
    require(shape.letter != 0 && !shape.strokes.empty());
    for (const LetterStroke& stroke : shape.strokes) {
      require(stroke.dot == stroke.legs.empty());
      for (const StrokeLeg& leg : stroke.legs) {
        require(!leg.path.empty());
        check_path(leg.path);
        require(length_of(leg.path) >= 0);
        require(!points_along(leg.path, 5).empty());
      }
    }
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data,
                                      std::size_t size) {
  if (size < 2 || size > 4000) return 0;
  const std::string text(reinterpret_cast<const char*>(data + 2), size - 2);
  sheaf::fuzz::run_short(
      data[0], [&] { data[1] == 'l' ? read_letters(text) : read_lines(text); });
  return 0;
}
