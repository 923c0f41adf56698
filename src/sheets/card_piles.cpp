// For the teacher, beside the pack of cards: which card comes again when, by
// how it went. On the page: how cards move between three piles (every day,
// every other day, once a week), then a table of all cards with the pile that
// each begins in and room to note where it went. Common practice, no source;
// the numbers are ours.

#include <fmt/format.h>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/deck_cards.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::card_piles_sheet {
namespace {

using namespace literals;

enum class Pile { every_day, other_day, weekly };

// By how many weeks of teaching ago it was taught, until it is seen how it
// goes.
Pile first_pile(const SheetInput& in, const DeckCard& card) {
  constexpr int kDaily = 2, kOther = 6;
  if (card.is_new) return Pile::every_day;
  const int weeks = in.lesson.taught.step() - card.step;
  // Without steps nothing says how long ago it was.
  if (in.lesson.taught.step() < 0) return Pile::other_day;
  return weeks <= kDaily   ? Pile::every_day
         : weeks <= kOther ? Pile::other_day
                           : Pile::weekly;
}

std::string when_taught(const SheetInput& in, const DeckCard& card) {
  if (card.is_new) return "new this week";
  if (card.step < 0) return "before";
  return step_name(
      in.lesson.taught.steps()[static_cast<std::size_t>(card.step)]);
}

Table::Cell sounds_of(const SheetInput& in, const TextStyle& style,
                      const DeckCard& card) {
  std::string text;
  for (const DeckCard::Says& says : card.says) {
    if (!text.empty()) text += "; ";
    text += sounds_said(in.lesson, says);
    if (!says.word.empty()) text += ", " + says.word;
  }
  return {{text, style}};
}

void compose(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  add_numbered_steps(
      c, plain,
      std::vector<std::string>{
          "New cards go into the pile for every day. The others begin in the "
          "pile where “begin” stands; what you see counts more.",
          "Right at once, three times running: the card moves one pile to the "
          "right. Right once a week for four weeks: take it out of the pack.",
          "Slow or wrong: it goes back to every day. More than ten cards a day "
          "are too many; leave those out that wait best.",
          "Where you keep records, “sheaf week” names the cards to put in and "
          "to take out: a pattern that became secure goes out, one that "
          "slipped comes in again."});
  c.block(3_mm);
  Table table(c, {{.title = "Card", .share = 0, .fixed = 20_mm},
                  {.title = "Says, as in", .share = 5},
                  {.title = "Taught in", .share = 3},
                  {.title = "Every day", .share = 2, .none = "to tick"},
                  {.title = "Every other day", .share = 2, .none = "to tick"},
                  {.title = "Once a week", .share = 2, .none = "to tick"}});
  for (const DeckCard& card : deck_cards(in)) {
    const Pile pile = first_pile(in, card);
    const auto begins = [&](Pile own) -> Table::Cell {
      if (own != pile) return {};
      return {{"begin", plain}};
    };
    TextPiece name{card.grapheme, strong};
    name.heard = heard_grapheme(card.grapheme);
    table.add_row({{name},
                   sounds_of(in, plain, card),
                   {{when_taught(in, card), plain}},
                   begins(Pile::every_day),
                   begins(Pile::other_day),
                   begins(Pile::weekly)},
                  true);
  }
}

const SheetKind kKind = {
    .name = "card-piles",
    .title = "Which cards when",
    .direction = "Three piles of cards, and how a card moves.",
    .summary =
        "for the pack of cards: what comes every day, every other day, "
        "once a week",
    .for_teacher = true,
    .missing = why_no_deck,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::card_piles_sheet
