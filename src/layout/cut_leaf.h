#pragma once

#include <span>
#include <string>
#include <vector>

#include "layout/action_icon.h"
#include "layout/cards.h"

namespace sheaf {

/// What one sheet has to cut out: the cards of a sort, with a card for the head
/// of each column. Sets of several sheets share a leaf of paper, so that only
/// one has a blank back.
struct CutSet {
  /// Above the cards, where the page's own heading does not say it.
  std::string title;
  std::string day;  ///< at the right of the title; may be empty
  std::string direction;
  Action action = Action::none;
  std::vector<Card> heads;  ///< with a thick frame, in rows of their own
  std::vector<Card> cards;
  /// The height of a card: at best, and where room is scarce.
  Length best, least;
  /// The width of a card; 0 makes it a square.
  Length width;
  /// A small number in the corner of each card but the heads, from 1.
  bool numbered = false;
  /// Of the learner whose cards they are, where several share a leaf; null: the
  /// leaf's own.
  const Style* style = nullptr;
};

/// The number in the corner of a card, which learners read, and its base line
/// from the card's top: what a card shows stands below it.
TextStyle card_number_style(const Style& style);
Length card_number_base(const Style& style);

/// Adds the sets in order, as many on a page as there is room for, with cards
/// as large as they can be there. All pages are leaves of their own. Where
/// `titled` is not set, the first set goes without its title and direction.
void add_cut_sets(Composer& composer, std::vector<CutSet> sets, bool titled);

/// The pages that `add_cut_sets` would make of the sets. Each set's `least` is
/// the size that its cards would have there.
std::vector<std::vector<CutSet>> part_cut_sets(Composer& composer,
                                               std::vector<CutSet> sets,
                                               bool titled);

/// What sets with their titles take on one page, as small as they may be.
Length least_height_of(Composer& composer, std::span<const CutSet> sets);

}  // namespace sheaf
