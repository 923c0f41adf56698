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
  /// Draw what is on it into a rectangle; `back` may be null: only the code.
  std::function<void(Block&, const Rect&, ElementId)> front;
  std::function<void(Block&, const Rect&, ElementId)> back;
};

struct CardGrid {
  int columns = 3;
  Length height;
  /// Small, at the foot of each side, before the card's number: the same on
  /// all cards of a set, so that sets can be told apart again.
  std::string code;
};

/// The width that one card has.
Length card_width(const Composer& composer, const CardGrid& grid);

/// Adds pages of fronts, each followed by the page of their backs.
void add_cards(Composer& composer, const CardGrid& grid,
               const std::vector<Card>& cards);

}  // namespace sheaf
