#pragma once

#include <optional>
#include <string>
#include <vector>

#include "input/record_file.h"
#include "sheets/deck_cards.h"
#include "sheets/sheet.h"

namespace sheaf {

/// How a card went, by the records of the learners whom the pages are for.
struct CardRecord {
  /// From what asks for most practice to what asks for none.
  enum class Standing { slipped, not_there, on_the_way, secure };
  /// Of how many learners the records say anything, and how many of those
  /// slipped or are not there yet, and are on the way.
  int known = 0, weak = 0, on_the_way = 0;
  bool secure_for_all = false;
  /// "B7 slipped, C3 secure"; "secure" where it holds for all. Empty where the
  /// records say nothing.
  std::string text;
  /// The codes of those for whom it goes into the pack or out of it.
  std::vector<std::string> in, out;
};

/// One for each card. The same rule as that of `card_moves`, for a card whose
/// grapheme may be that of several patterns: it goes in where one of them is
/// new or slipped in the latest week, and out where one became secure then and
/// none of the others is less.
std::vector<CardRecord> card_records(const SheetInput& in,
                                     const std::vector<DeckCard>& cards);

/// The latest day on which any of the learners was marked; nothing where there
/// are no records of them.
std::optional<Date> latest_record(const SheetInput& in);

}  // namespace sheaf
