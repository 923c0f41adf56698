#pragma once

#include <functional>
#include <string>
#include <vector>

#include "layout/block.h"

namespace sheaf {

/// Cards to cut out: all of one size, with a dashed line to cut along around
/// each and a blank strip between them, in columns that stand in the middle of
/// the page. Their backs follow on the next page in mirrored columns, so that
/// they meet when the paper is turned on its long edge.
struct Card {
  /// Draws what is on one side into a rectangle, as part of an element.
  using Side = std::function<void(Block&, const Rect&, ElementId)>;
  Side front;
  Side back = nullptr;  ///< may be null: only the code
  Span from = {};       ///< where what is on it stands in the lesson
};

/// A side with a text in its middle; `heard` is said in its place where it has
/// signs that are read badly.
Card::Side text_side(Composer& composer, TextStyle style, std::string text,
                     std::string heard = {});
/// A side with the picture of a word; `number` is the card's, from 1.
Card::Side picture_side(Composer& composer, const Picture* picture,
                        std::string word, std::size_t number);

struct CardGrid {
  int columns = 3;
  Length height;
  /// Small, at the foot of each side, before the card's number: the same on
  /// all cards of a set, so that sets can be told apart again.
  std::string code;
};

/// The width that a card has for what is drawn on it.
Length card_room(const Composer& composer, const CardGrid& grid);

/// Adds pages of fronts, each followed by the page of their backs.
void add_cards(Composer& composer, const CardGrid& grid,
               const std::vector<Card>& cards);

}  // namespace sheaf
