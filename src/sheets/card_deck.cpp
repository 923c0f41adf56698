// All graphemes that were taught so far, as a pack of cards for a few minutes
// of every day: the learner looks, says the sound, turns the card and checks.
// On the page: cards to cut, the grapheme in front; behind it its sound and a
// key word, with its picture where there is one, or a line for each of several
// sounds. Cards of this week have the word "new" in a black frame on both
// sides, which stays when they are cut and copied.

#include <fmt/format.h>

#include <algorithm>

#include "layout/cards.h"
#include "layout/heard.h"
#include "layout/picture_frame.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/deck_cards.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::card_deck_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {.name = "only",
     .kind = Kind::choice,
     .fallback = "all",
     .help = "all graphemes taught so far, or those of this week",
     .choices = "all new"},
    card_columns_option("4", "2", "6"),
    card_height_option("45 mm", "100 mm"),
};

std::vector<DeckCard> chosen(const SheetInput& in) {
  std::vector<DeckCard> cards = deck_cards(in);
  if (in.options.choice("only") == "new") {
    std::erase_if(cards, [](const DeckCard& card) { return !card.is_new; });
  }
  return cards;
}

// At the foot of the card, opposite its code.
void draw_new(Composer& c, Block& block, const Rect& rect, ElementId element) {
  const TextStyle style = c.style().text(c.style().footer_size, true);
  const Length width = width_of(c.shape(style, "new")) + 3_mm;
  const Rect frame{rect.right() - width, rect.bottom() - 1_mm, width, 4.4_mm};
  block.frame(frame, {.width = c.style().box_weight * 3 / 2});
  draw_in_middle(c, block, style, "new", frame,
                 add_heard(c, element, "new this week,"));
}

// One sound: the picture, then the word, then the sound.
void draw_one(const SheetInput& in, Composer& c, Block& block, const Rect& rect,
              const DeckCard::Says& says, std::size_t number,
              ElementId element) {
  const std::string sound = sounds_said(in.lesson, says);
  TextStyle strong = c.style().text(c.style().text_size, true);
  strong = fitted_style(strong, width_of(c.shape(strong, sound)), rect.width);
  TextStyle plain = c.style().learner_text();
  plain = fitted_style(plain, width_of(c.shape(plain, says.word)), rect.width);
  const Length text = strong.line_height() +
                      (says.word.empty() ? Length() : plain.line_height());
  const Picture* picture =
      says.word.empty() ? nullptr : in.pictures.find(says.word);
  const Length middle = rect.x + rect.width / 2;
  Length top = rect.y + (rect.height - text) / 2;
  if (picture != nullptr && rect.height - text > 8_mm) {
    draw_picture(
        block, c.style(), picture,
        {rect.x, rect.y, rect.width, rect.height - text - 1_mm},
        add_picture(
            c, element, picture,
            {.word = says.word, .number = number, .what = "key picture"}));
    top = rect.bottom() - text;
  }
  if (!says.word.empty()) {
    draw_centred(c, block, plain, says.word,
                 {middle, top + baseline_in_line(plain)}, element);
    // The sound is no part of the word.
    draw_text(c, block, plain, " ",
              {middle + width_of(c.shape(plain, says.word)) / 2,
               top + baseline_in_line(plain)},
              element);
    top += plain.line_height();
  }
  draw_centred(c, block, strong, sound,
               {middle, top + baseline_in_line(strong)},
               add_heard_as(c, element, sound, heard_signs(sound)));
}

// A line for each sound.
void draw_several(const SheetInput& in, Composer& c, Block& block,
                  const Rect& rect, const DeckCard& card, ElementId element) {
  std::vector<std::string> lines, heard;
  for (const DeckCard::Says& says : card.says) {
    const std::string sound = sounds_said(in.lesson, says);
    lines.push_back(says.word.empty() ? sound : sound + "  " + says.word);
    heard.push_back(heard_signs(sound) +
                    (says.word.empty() ? ";" : ", " + says.word + ";"));
  }
  TextStyle style = c.style().learner_text();
  style = fitted_style(style, widest_text(c, style, lines), rect.width);
  const auto count = static_cast<std::int64_t>(lines.size());
  while (style.line_height() * count > rect.height) {
    style.size = scaled(style.size, 0.95);
  }
  Length top = rect.y + (rect.height - style.line_height() * count) / 2;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    draw_centred(c, block, style, lines[i],
                 {rect.x + rect.width / 2, top + baseline_in_line(style)},
                 add_heard(c, element, heard[i]));
    top += style.line_height();
  }
}

Card card_of(const SheetInput& in, Composer& c, const TextStyle& style,
             const DeckCard& own, std::size_t number) {
  Card card;
  card.front = [&c, style, grapheme = own.grapheme, is_new = own.is_new](
                   Block& block, const Rect& rect, ElementId element) {
    if (is_new) draw_new(c, block, rect, element);
    draw_in_middle(
        c, block, style, grapheme, rect,
        add_heard_as(c, element, grapheme, heard_grapheme(grapheme)));
  };
  card.back = [&in, &c, own, number](Block& block, const Rect& rect,
                                     ElementId element) {
    if (own.is_new) draw_new(c, block, rect, element);
    if (own.says.size() == 1) {
      draw_one(in, c, block, rect, own.says.front(), number, element);
    } else {
      draw_several(in, c, block, rect, own, element);
    }
  };
  return card;
}

void compose(const SheetInput& in, Composer& c) {
  const std::vector<DeckCard> items = chosen(in);
  const CardGrid grid = card_grid(in);
  TextStyle style = c.style().text(scaled(c.style().blending_size, 1.2), true);
  style = fitted_style(style, widest_text(c, style, items, &DeckCard::grapheme),
                       card_room(c, grid));
  // Low cards too keep the letters clear of what stands at their foot.
  style.size = std::min(style.size, scaled(grid.height - 8_mm, 0.75));
  std::vector<Card> cards;
  for (const DeckCard& item : items) {
    cards.push_back(card_of(in, c, style, item, cards.size() + 1));
  }
  add_cards(c, grid, cards);
}

std::string missing(const SheetInput& in) {
  const std::string why = why_no_deck(in);
  if (!why.empty()) return why;
  return chosen(in).empty() ? "this week teaches no new grapheme" : "";
}

ScriptLines script(const SheetInput& in, const DayStep&) {
  const bool only_new = in.options.choice("only") == "new";
  return {
      {Lead::show,
       only_new ? "the cards of this week, one by one; then put them with the "
                  "others."
                : "the cards one by one, front first; three minutes, no more."},
      {Lead::say, "“Say the sound.” Where a card has several: “Say them all.”"},
      {Lead::act,
       "Learners say the sound, then the card is turned: the key word and the "
       "sound stand on its back. Right at once: one pile. Slow or wrong: say "
       "it, learners say it after you, and it goes back into today’s cards."},
      {Lead::wait,
       "three seconds at each card. A card that is worked out and not known "
       "counts as slow."},
      {Lead::done_when,
       "each card of the day was said right once. The page for the teacher "
       "says when a card comes again."}};
}

const SheetKind kKind = {
    .name = "card-deck",
    .title = "Cards for every day",
    .direction = "Cut along the dashed lines. Say the sound. Turn it to check.",
    .action = Action::cut,
    .summary =
        "all graphemes taught so far on cards to cut, sound and key "
        "word behind, new ones marked",
    .cut = true,
    .part = DayPart::warm_up,
    .minutes = 3,
    .materials = "scissors",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = script,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::card_deck_sheet
