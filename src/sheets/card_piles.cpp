// For the teacher, beside the pack of cards: which card comes again when, by
// how it went. On the page: how cards move between three piles (every day,
// every other day, once a week), then a table of all cards with the pile that
// each begins in and room to note where it went. Common practice, no source;
// the numbers are ours. Where records are read, they say which cards go in and
// out and where each begins.

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <optional>

#include "layout/heard.h"
#include "layout/numbered_steps.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/calendar.h"
#include "sheets/card_records.h"
#include "sheets/caution.h"
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

// The pile of a card by the records of those who have it; nothing for one that
// they all know. A card of which they say nothing goes by its age. Where half
// of a group needs it, the group has it every day; the shares are ours.
std::optional<Pile> pile_by_records(const SheetInput& in, const DeckCard& card,
                                    const CardRecord& record) {
  if (card.is_new || !record.in.empty()) return Pile::every_day;
  if (record.known == 0) return first_pile(in, card);
  if (record.secure_for_all) return std::nullopt;
  if (2 * record.weak >= record.known) return Pile::every_day;
  const bool half_on_the_way =
      2 * (record.weak + record.on_the_way) >= record.known;
  return record.weak > 0 || half_on_the_way ? Pile::other_day : Pile::weekly;
}

// "ck; ow (B7, C3)": the cards, with codes where it is not for all.
std::vector<TextPiece> cards_named(const SheetInput& in, const Composer& c,
                                   const std::vector<DeckCard>& cards,
                                   const std::vector<CardRecord>& records,
                                   std::vector<std::string> CardRecord::*side) {
  const TextStyle plain = c.style().teacher_text();
  std::vector<TextPiece> pieces;
  for (std::size_t i = 0; i < cards.size(); ++i) {
    const std::vector<std::string>& codes = records[i].*side;
    if (codes.empty()) continue;
    if (!pieces.empty()) pieces.push_back({"; ", plain});
    TextPiece name{cards[i].grapheme, c.style().teacher_text(true)};
    name.heard = heard_grapheme(cards[i].grapheme);
    pieces.push_back(std::move(name));
    if (codes.size() == in.learners.size()) continue;
    pieces.push_back({fmt::format(" ({})", fmt::join(codes, ", ")), plain});
  }
  return pieces;
}

// What to put in and take out this week.
void add_moves(const SheetInput& in, Composer& c,
               const std::vector<DeckCard>& cards,
               const std::vector<CardRecord>& records) {
  const TextStyle strong = c.style().teacher_text(true);
  const auto add = [&](std::string title, std::vector<TextPiece> pieces) {
    if (pieces.empty()) pieces.push_back({"none", c.style().teacher_text()});
    pieces.insert(pieces.begin(), {std::move(title) + ": ", strong});
    add_paragraph(c, pieces, {.space_before = 1_mm});
  };
  c.block(2_mm);
  add("Put in", cards_named(in, c, cards, records, &CardRecord::in));
  add("Take out", cards_named(in, c, cards, records, &CardRecord::out));
}

void add_how(Composer& c, const std::optional<Date>& day) {
  const std::string last =
      day ? fmt::format(
                "This page goes by the records up to {}: what is new or "
                "slipped goes in, what became secure goes out. “Begin” stands "
                "under every day where half of the learners or more slipped or "
                "are not there yet; under every other day where some are not, "
                "or half are on the way. What is secure for all needs no pile.",
                date_text(*day))
          : std::string(
                "Where you keep records, “sheaf week” names the cards to put "
                "in and to take out: a pattern that became secure goes out, "
                "one that slipped comes in again.");
  add_numbered_steps(
      c, c.style().teacher_text(),
      std::vector<std::string>{
          "New cards go into the pile for every day. The others begin in the "
          "pile where “begin” stands; what you see counts more.",
          "Right at once, three times running: the card moves one pile to the "
          "right. Right once a week for four weeks: take it out of the pack.",
          "Slow or wrong: it goes back to every day. More than ten cards a day "
          "are too many; leave those out that wait best.",
          last});
}

void compose(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  const std::vector<DeckCard> cards = deck_cards(in);
  const std::optional<Date> day = latest_record(in);
  const std::vector<CardRecord> records =
      day ? card_records(in, cards) : std::vector<CardRecord>();
  add_how(c, day);
  if (day) add_moves(in, c, cards, records);
  c.block(3_mm);
  std::vector<Table::Column> columns = {
      {.title = "Card", .share = 0, .fixed = 20_mm},
      {.title = "Says, as in", .share = day ? 4 : 5},
      {.title = "Taught in", .share = 3}};
  if (day) {
    columns.push_back({.title = "By the records", .share = 7, .none = "none"});
  }
  for (const char* title : {"Every day", "Every other day", "Once a week"}) {
    columns.push_back({.title = title, .share = 2, .none = "to tick"});
  }
  Table table(c, columns);
  for (std::size_t i = 0; i < cards.size(); ++i) {
    const DeckCard& card = cards[i];
    const std::optional<Pile> pile =
        day ? pile_by_records(in, card, records[i])
            : std::optional<Pile>(first_pile(in, card));
    TextPiece name{card.grapheme, strong};
    name.heard = heard_grapheme(card.grapheme);
    std::vector<Table::Cell> row = {
        {name}, sounds_of(in, plain, card), {{when_taught(in, card), plain}}};
    if (day) row.push_back({{records[i].text, plain}});
    for (const Pile own : {Pile::every_day, Pile::other_day, Pile::weekly}) {
      row.push_back(own == pile ? Table::Cell{{"begin", plain}}
                                : Table::Cell{});
    }
    table.add_row(row, true);
  }
  if (day) {
    add_paragraph(c, plain, kCaution, {.space_before = 4_mm, .whole = true});
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
