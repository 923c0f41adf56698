// Grapheme cards to lay words with and to say sounds from. On the page: the
// pattern's graphemes and the others that the words need, one to a card, a
// small code on each; behind a grapheme of the pattern its key picture and key
// word.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/picture_frame.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::grapheme_cards_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {.name = "graphemes",
     .kind = Kind::choice,
     .fallback = "all",
     .help = "those of all words, or of the pattern only",
     .choices = "all pattern"},
    card_columns_option("4", "2", "6"),
    card_height_option("45 mm", "100 mm"),
};

struct Item {
  std::string shown;
  const AnalyzedWord* key = nullptr;
};

void add_item(std::vector<Item>& items, const std::string& grapheme,
              const AnalyzedWord* key) {
  if (std::ranges::find(items, grapheme, &Item::shown) == items.end()) {
    items.push_back({grapheme, key});
  }
}

std::vector<Item> chosen(const SheetInput& in) {
  std::vector<Item> items;
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    const int key = in.lesson.key_words[i];
    bool first = true;
    for (const std::string& grapheme : in.lesson.patterns[i].graphemes) {
      // The key word has the first of them.
      add_item(items, grapheme,
               key >= 0 && first
                   ? &in.lesson.words[static_cast<std::size_t>(key)]
                   : nullptr);
      first = false;
    }
  }
  if (in.options.choice("graphemes") == "pattern") return items;
  const auto pattern_items = static_cast<std::ptrdiff_t>(items.size());
  for (const AnalyzedWord& word : in.lesson.words) {
    for (const Unit& unit : word.reading.units) {
      add_item(items, unit.grapheme, nullptr);
    }
  }
  std::ranges::sort(items.begin() + pattern_items, items.end(), {},
                    &Item::shown);
  return items;
}

void draw_key(const SheetInput& in, Composer& c, Block& block, const Rect& rect,
              const AnalyzedWord& word, std::size_t number, ElementId element) {
  TextStyle style = c.style().learner_text();
  style = fitted_style(style, width_of(c.shape(style, word.reading.word)),
                       rect.width);
  const Length text = style.line_height();
  const Picture* picture = in.pictures.find(word.reading.word);
  draw_picture(
      block, c.style(), picture,
      {rect.x, rect.y, rect.width, rect.height - text - 1.5_mm},
      add_picture(c, element, picture,
                  {.word = word.reading.word,
                   .number = number,
                   .what = "key picture",
                   .frame = "an empty frame to draw the key word in"}));
  draw_centred(
      c, block, style, word.reading.word,
      {rect.x + rect.width / 2, rect.bottom() - text + baseline_in_line(style)},
      element);
}

void compose(const SheetInput& in, Composer& c) {
  const std::vector<Item> items = chosen(in);
  const CardGrid grid = card_grid(in);
  TextStyle style = c.style().text(scaled(c.style().blending_size, 1.2), true);
  style = fitted_style(style, widest_text(c, style, items, &Item::shown),
                       card_room(c, grid));
  std::vector<Card> cards;
  for (const Item& item : items) {
    Card card;
    if (item.key != nullptr) card.from = item.key->spelling.span;
    card.front = text_side(c, style, item.shown, heard_grapheme(item.shown));
    if (item.key != nullptr) {
      card.back = [&in, &c, item, number = cards.size() + 1](
                      Block& block, const Rect& rect, ElementId element) {
        draw_key(in, c, block, rect, *item.key, number, element);
      };
    }
    cards.push_back(std::move(card));
  }
  add_cards(c, grid, cards);
}

std::string missing(const SheetInput& in) {
  return chosen(in).empty() ? "its pattern is not about a grapheme" : "";
}

const SheetKind kKind = {
    .name = "grapheme-cards",
    .title = "Grapheme cards",
    .direction = "Cut along the dashed lines. Say the sound of each card.",
    .action = Action::cut,
    .summary = "graphemes on cards to cut, key pictures behind",
    .cut = true,
    .part = DayPart::spell,
    .minutes = 8,
    .materials = "scissors",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::grapheme_cards,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::grapheme_cards_sheet
