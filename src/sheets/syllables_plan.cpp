#include "sheets/syllables_plan.h"

#include <algorithm>
#include <tuple>

#include "sheets/common_options.h"
#include "sheets/word_parts.h"

namespace sheaf::syllables_sheet {

namespace {

using namespace literals;

constexpr Length kBeforeBoxes = 6_mm;
constexpr Length kBeforeWhole = 9_mm;
constexpr Length kLeastBeat = 17_mm;

// Letters so far apart that a pencil's line fits between two of them.
TextStyle wide_text(const Style& style, double scale) {
  TextStyle text = style.text(scaled(style.word_size, scale));
  text.tracking += scaled(text.size, 0.2);
  text.leading = 1.4;
  return text;
}

}  // namespace

Plan::Plan(const SheetInput& in, Composer& c)
    : in_(in),
      c_(c),
      words_(long_words(in)),
      kinds_(in.options.flag("kinds")),
      model_(is_model_asked(in.options, words_.size())),
      ruling_(ruling_of(in, c.style())),
      right_(c.width()) {
  if (model_) {
    around_ = model_room(c.style());
    left_ = around_.side;
    right_ -= around_.side;
  }
  for (double scale = 1.15; scale > 0.4; scale -= 0.05) {
    text_ = wide_text(c.style(), scale);
    const bool fits = std::ranges::all_of(words_, [&](const AnalyzedWord* w) {
      return widest(*w) <= word_room(*w);
    });
    const Length next = scaled(c.style().word_size, scale - 0.05);
    if (fits || next < c.style().least_size) break;
  }
}

Length Plan::boxes_width(const AnalyzedWord& word) {
  return (kKindBox + kBetweenBoxes) *
             static_cast<std::int64_t>(word.parts.size()) -
         kBetweenBoxes;
}

// The room for the letters of a word, beside its number and its boxes.
Length Plan::word_room(const AnalyzedWord& word) const {
  Length room = right_ - left_ - kNumber;
  if (kinds_) room -= boxes_width(word) + kBeforeBoxes;
  return room;
}

std::vector<Place> Plan::places_of(const AnalyzedWord& word) const {
  std::vector<Place> places;
  const Length left = left_ + kNumber;
  const Length x_height = ruling_.x_height;
  Length x = left;
  std::int64_t row = 0;
  for (const WordPart& part : word.parts) {
    const Length width =
        std::max(scaled(hand_width(part.of(word.reading.word), x_height), 1.25),
                 kLeastBeat);
    if (x > left && x + width > right_) {
      x = left;
      ++row;
    }
    places.push_back({x, std::min(width, right_ - x), row});
    x += width + kBetweenBeats;
  }
  x += kBeforeWhole - kBetweenBeats;
  const Length whole = scaled(hand_width(word.reading.word, x_height), 1.15);
  if (x + whole > right_) {
    x = left;
    ++row;
  }
  places.push_back({x, right_ - x, row});
  return places;
}

Length Plan::item_height(std::size_t index) const {
  const std::int64_t rows = places_of(*words_[index]).back().row;
  Length height = to_lines() + set_height(ruling_) + set_pitch(ruling_) * rows;
  if (model_ && index == 0) {
    height += around_.height();
    // Print hangs less far below the line than the hand may.
    height -= scaled(ruling_.x_height, 0.4);
  }
  return height;
}

// Behind the last item that fits on a page, and at most so many.
std::size_t Plan::end_of_page(std::size_t begin, std::size_t most,
                              Length key_height) const {
  Length room = c_.body().height - key_height;
  std::size_t end = begin;
  while (end < words_.size() && end - begin < most) {
    room -= item_height(end);
    if (end > begin) room -= kBetweenItems;
    if (end > begin && room < Length()) break;
    ++end;
  }
  return end;
}

std::vector<std::size_t> Plan::page_ends(Length key_height) const {
  const auto fill = [&](std::size_t most) {
    std::vector<std::size_t> ends;
    for (std::size_t at = 0; at < words_.size();) {
      at = end_of_page(at, most, key_height);
      ends.push_back(at);
    }
    return ends;
  };
  const auto most = static_cast<std::size_t>(in_.options.count("per-page"));
  const std::vector<std::size_t> full = fill(most);
  const std::size_t share = (words_.size() + full.size() - 1) / full.size();
  const std::vector<std::size_t> even = fill(std::min(most, share));
  return even.size() == full.size() ? even : full;
}

void Plan::save_pages(Length key_height) {
  const std::size_t pages = page_ends(key_height).size();
  const auto [gap, leading, below] =
      std::tuple(ruling_.gap, text_.leading, below_word_);
  ruling_.gap = std::min(gap, 2_mm);
  text_.leading = std::min(leading, 1.2);
  below_word_ = 2.5_mm;
  if (page_ends(key_height).size() < pages) return;
  ruling_.gap = gap;
  text_.leading = leading;
  below_word_ = below;
}

std::vector<Piece> Plan::pieces_of(const AnalyzedWord& word,
                                   bool parted) const {
  const std::string& text = word.reading.word;
  if (!parted) return {{c_.shape(text_, text), 0, Length()}};
  std::vector<Piece> pieces;
  Length x;
  for (const WordPart& part : word.parts) {
    pieces.push_back({c_.shape(text_, part.of(text)), part.begin, x});
    x += width_of(pieces.back().run) + kBetweenParts;
  }
  return pieces;
}

// The width of a word whose parts stand apart.
Length Plan::widest(const AnalyzedWord& word) const {
  const std::vector<Piece> pieces = pieces_of(word, true);
  return pieces.back().x + width_of(pieces.back().run);
}

}  // namespace sheaf::syllables_sheet
