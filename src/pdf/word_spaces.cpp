#include "pdf/word_spaces.h"

#include <algorithm>
#include <string_view>
#include <variant>

namespace sheaf {

namespace {

// Letters of one word stand closer than this part of the type size; the
// narrowest word space of a typeface is about twice as wide.
constexpr double kTouching = 0.1;

// A piece of what is heard, in the order of the page.
struct Piece {
  std::size_t mark = 0;
  ElementId element = kDecoration;
  bool is_replaced = false;           // heard as the element's own words
  const GlyphMark* glyphs = nullptr;  // null: drawn without letters
};

bool begins_with_space(const Piece& piece) {
  if (piece.is_replaced || piece.glyphs == nullptr) return false;
  const std::string_view text = piece.glyphs->run.shape->text;
  return text.starts_with(' ') || text.starts_with("\u00A0");
}

bool ends_with_space(const Piece& piece) {
  if (piece.is_replaced || piece.glyphs == nullptr) return false;
  const std::string_view text = piece.glyphs->run.shape->text;
  return text.ends_with(' ') || text.ends_with("\u00A0");
}

bool is_near(Length a, Length b, Length reach) {
  return a - b <= reach && b - a <= reach;
}

// Whether the next letters go on where these end.
bool touch(const GlyphMark& mark, const GlyphMark& next) {
  const Length reach =
      scaled(std::min(mark.run.size, next.run.size), kTouching);
  return is_near(mark.at.y, next.at.y, reach) &&
         is_near(mark.at.x + width_of(mark.run) + mark.run.room_after,
                 next.at.x, reach);
}

// The mark that ends a sentence belongs to what stands before it, be it a line
// to write on.
bool is_closing_mark(const Piece& piece) {
  constexpr std::string_view kClosing = ".,;:?!)";
  return piece.glyphs != nullptr &&
         kClosing.find(piece.glyphs->run.shape->text[0]) !=
             std::string_view::npos;
}

class Finder {
 public:
  Finder(std::size_t marks, StructureTree& tree) : tree_(tree), found_(marks) {}

  void add(const Piece& piece) {
    const bool goes_on = piece.is_replaced && last_.is_replaced &&
                         piece.element == last_.element;
    if (goes_on) {
      // For readers that do not heed the words that are stated.
      if (last_.glyphs != nullptr && piece.glyphs != nullptr &&
          !touch(*last_.glyphs, *piece.glyphs)) {
        found_[last_.mark] = true;
      }
    } else if (has_last_ && need_space(piece)) {
      put_space();
    }
    last_ = piece;
    has_last_ = true;
  }
  std::vector<bool> finish() {
    if (has_last_ && !ends_with_space(last_)) put_space();
    return std::move(found_);
  }

 private:
  bool need_space(const Piece& next) const {
    if (ends_with_space(last_) || begins_with_space(next)) return false;
    if (is_closing_mark(next)) return false;
    return last_.glyphs == nullptr || next.glyphs == nullptr ||
           !touch(*last_.glyphs, *next.glyphs);
  }
  void put_space() {
    // Not every reader heeds the words that are stated.
    if (last_.is_replaced) tree_.follow_with_space(last_.element);
    if (last_.glyphs != nullptr) found_[last_.mark] = true;
  }

  StructureTree& tree_;
  std::vector<bool> found_;
  Piece last_;
  bool has_last_ = false;
};

}  // namespace

std::vector<bool> find_word_spaces(const Page& page, StructureTree& tree,
                                   ElementId shift) {
  Finder finder(page.marks.size(), tree);
  for (std::size_t i = 0; i < page.marks.size(); ++i) {
    const Mark& mark = page.marks[i];
    const ElementId of_part =
        std::visit([](const auto& kind) { return kind.element; }, mark);
    if (is_artifact(of_part)) continue;
    const auto* glyphs = std::get_if<GlyphMark>(&mark);
    if (glyphs && glyphs->run.shape->glyphs.empty()) continue;
    const ElementId element = of_part + shift;
    const bool is_replaced = !tree.replacement(element).empty();
    if (glyphs || is_replaced) {
      finder.add({i, element, is_replaced, glyphs});
    }
  }
  return finder.finish();
}

}  // namespace sheaf
