#include "pictures/picture_book.h"

#include <algorithm>
#include <cassert>
#include <map>
#include <mutex>
#include <utility>

#include "base/error.h"
#include "pictures/drawing_notation.h"
#include "pictures/emoji.h"
#include "pictures/stroke_outline.h"

#include <fmt/format.h>

namespace sheaf {

namespace {

using namespace literals;

// The box of every picture, in units of its own.
constexpr Length kBox = 100_pt;

// Where the picture font draws, in its own units, measured on all of its
// pictures: around this middle, and within 1,240 to all sides (but for a
// shaking face and a string of beads). Its lines are 40 wide.
constexpr std::int64_t kMiddleX = 1300;
constexpr std::int64_t kMiddleY = 700;
constexpr std::int64_t kReach = 1240;
constexpr std::int64_t kLine = 40;

constexpr Length in_box(std::int64_t units) {
  return Length::from_mils((units * kBox.mils() + kReach) / (2 * kReach));
}
constexpr Length kPen = in_box(kLine);

void shift(Path& path, Point by) {
  for (PathStep& step : path) {
    step.to = step.to + by;
    step.control1 = step.control1 + by;
    step.control2 = step.control2 + by;
  }
}

// Widens the box of the few pictures that reach beyond it, so that nothing is
// clipped.
void make_room(LineDrawing& drawing) {
  Length beyond;
  for (const PathStep& step : drawing.path) {
    if (step.kind == PathStep::Kind::close) continue;
    for (const Length at : {step.to.x, step.to.y}) {
      beyond = std::max({beyond, -at, at - kBox});
    }
  }
  if (beyond == Length()) return;
  shift(drawing.path, {beyond, beyond});
  drawing.box = {kBox + 2 * beyond, kBox + 2 * beyond};
}

std::optional<LineDrawing> draw_glyph(const GlyphOutlines& font,
                                      std::string_view text) {
  std::optional<Path> path = font.outline(text, in_box(font.units_per_em()));
  if (!path) return std::nullopt;
  // From the pen's start on the baseline to the corner of the box.
  shift(*path, {kBox / 2 - in_box(kMiddleX), kBox / 2 + in_box(kMiddleY)});
  LineDrawing drawing{{kBox, kBox}, std::move(*path)};
  make_room(drawing);
  return drawing;
}

LineDrawing draw_own(std::string_view name) {
  LineDrawing drawing{{kBox, kBox}, {}};
  for (const std::string_view line : drawing_lines(name)) {
    std::string why;
    const std::optional<DrawnPart> part = read_drawn_part(line, kPen, why);
    assert(part && "a drawing that its test should have refused");
    if (!part) continue;
    const Path shape = part->pen > Length()
                           ? stroke_outline(part->path, part->pen)
                           : fill_outline(part->path);
    drawing.path.insert(drawing.path.end(), shape.begin(), shape.end());
  }
  return drawing;
}

}  // namespace

struct PictureBook::Impl {
  FontLibrary& fonts;
  // By word, and by emoji and word. Maps keep what they hold in one place.
  std::map<std::string, Picture, std::less<>> words;
  std::map<std::pair<std::string, std::string>, Picture> emoji;
  std::mutex lock;  // of all three

  explicit Impl(FontLibrary& library) : fonts(library) {}
};

PictureBook::PictureBook(FontLibrary& fonts)
    : impl_(std::make_unique<Impl>(fonts)) {}

PictureBook::~PictureBook() = default;

const Picture* PictureBook::find(std::string_view word) {
  const PictureWord* row = find_picture_word(word);
  if (!row) return nullptr;
  const std::lock_guard held(impl_->lock);
  const auto known = impl_->words.find(row->word);
  if (known != impl_->words.end()) return &known->second;
  Picture picture{std::string(row->word), {}};
  if (row->kind == PictureWord::Kind::drawing) {
    picture.image = draw_own(row->source);
  } else {
    std::optional<LineDrawing> drawing =
        draw_glyph(impl_->fonts.pictures(), text_of_code_points(row->source));
    if (!drawing) {
      throw MachineError(fmt::format(
          "the picture font has no picture for {}: it is not the one that "
          "comes with Sheaf",
          row->word));
    }
    picture.image = std::move(*drawing);
  }
  return &impl_->words.emplace(row->word, std::move(picture)).first->second;
}

const Picture* PictureBook::find_emoji(std::string_view emoji,
                                       std::string_view word,
                                       std::string& why) {
  const std::string plain = plain_emoji(emoji);
  const std::lock_guard held(impl_->lock);
  auto key = std::pair(plain, std::string(word));
  const auto known = impl_->emoji.find(key);
  if (known != impl_->emoji.end()) return &known->second;
  if (!may_stand_on_a_page(plain, why)) return nullptr;
  std::optional<LineDrawing> drawing =
      draw_glyph(impl_->fonts.pictures(), plain);
  if (!drawing) {
    why = "there is no picture for it";
    return nullptr;
  }
  Picture picture{key.second, std::move(*drawing)};
  return &impl_->emoji.emplace(std::move(key), std::move(picture))
              .first->second;
}

}  // namespace sheaf
