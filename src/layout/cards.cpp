#include "layout/cards.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/picture_frame.h"
#include "layout/strokes.h"
#include "layout/text_block.h"

namespace sheaf {

namespace {

using namespace literals;

constexpr Length kGutter = 3_mm;
constexpr Length kPad = 3_mm;
constexpr Length kCodeRoom = 5_mm;
constexpr Ink kCodeInk = 60;

Length card_width(const Composer& composer, const CardGrid& grid) {
  return (composer.width() - kGutter * (grid.columns - 1)) / grid.columns;
}

class CardPages {
 public:
  CardPages(Composer& composer, const CardGrid& grid,
            const std::vector<Card>& cards)
      : c_(composer), grid_(grid), cards_(cards) {
    const auto rows = static_cast<std::size_t>(std::max<std::int64_t>(
        1, (c_.body().height + kGutter) / (grid.height + kGutter)));
    const std::size_t columns = static_cast<std::size_t>(grid.columns);
    const std::size_t total = (cards.size() + columns - 1) / columns;
    rows_ = static_cast<std::size_t>(
        even_rows(static_cast<int>(total), static_cast<int>(rows)));
  }

  void add() {
    const std::size_t on_page = rows_ * static_cast<std::size_t>(grid_.columns);
    for (std::size_t first = 0; first < cards_.size(); first += on_page) {
      const std::size_t end = std::min(first + on_page, cards_.size());
      add_page(first, end, false);
      add_page(first, end, true);
    }
  }

 private:
  void add_page(std::size_t first, std::size_t end, bool back) {
    const ElementId cut =
        back ? kDecoration : add_cut_lines(c_, end - first, grid_.code);
    const ElementId list = c_.add(Role::list);
    const auto columns = static_cast<std::size_t>(grid_.columns);
    for (std::size_t i = first; i < end; ++i) {
      const auto column = static_cast<int>((i - first) % columns);
      if (column == 0) {
        Block& row = c_.block(grid_.height, i == first ? 0_mm : kGutter);
        row.new_page = i == first;
        row.own_leaf = !back;
        row.back = back;
      }
      add_card(i, back ? grid_.columns - 1 - column : column, back, cut, list);
    }
  }

  void add_card(std::size_t index, int column, bool back, ElementId cut,
                ElementId list) {
    Block& block = c_.blocks().back();
    const Length width = card_width(c_, grid_);
    const Rect card{(width + kGutter) * column, 0_mm, width, grid_.height};
    // Cut from the front: the back has nothing that could miss the cut.
    if (!back) draw_cut_lines(block, c_.style(), card, cut);
    const From from(c_, cards_[index].from);
    const auto [label, body] = add_list_item(c_, list);
    const Rect room{card.x + kPad, card.y + kPad, card.width - 2 * kPad,
                    card.height - kPad - kCodeRoom};
    TextStyle small = c_.style().text(c_.style().footer_size);
    small.ink = kCodeInk;
    // The code is the same on all of them: it is heard once, with the cut
    // lines.
    draw_text(c_, block, small, fmt::format("{} {}", grid_.code, index + 1),
              {room.x, card.bottom() - 2_mm},
              add_heard(c_, label,
                        fmt::format("{}{}", index + 1, back ? ", back" : "")));
    const auto& draw = back ? cards_[index].back : cards_[index].front;
    if (draw) draw(block, room, body);
  }

  Composer& c_;
  const CardGrid& grid_;
  const std::vector<Card>& cards_;
  std::size_t rows_;
};

}  // namespace

Card::Side text_side(Composer& composer, TextStyle style, std::string text,
                     std::string heard) {
  return [&composer, style = std::move(style), text = std::move(text),
          heard = std::move(heard)](Block& block, const Rect& rect,
                                    ElementId element) {
    if (!heard.empty()) element = add_heard_as(composer, element, text, heard);
    draw_in_middle(composer, block, style, text, rect, element);
  };
}

Card::Side picture_side(Composer& composer, const Picture* picture,
                        std::string word, std::size_t number) {
  return [&composer, picture, number, word = std::move(word)](
             Block& block, const Rect& rect, ElementId element) {
    draw_picture(block, composer.style(), picture, rect,
                 add_picture(composer, element, picture,
                             {.word = word, .number = number}));
  };
}

Length card_room(const Composer& composer, const CardGrid& grid) {
  return card_width(composer, grid) - 2 * kPad;
}

void add_cards(Composer& composer, const CardGrid& grid,
               const std::vector<Card>& cards) {
  CardPages(composer, grid, cards).add();
}

}  // namespace sheaf
