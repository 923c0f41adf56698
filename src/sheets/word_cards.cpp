// Word cards for games and quick reading. On the page: the words of the week on
// cards of one size to cut, a small code on each; on the back the picture, the
// sound boxes filled in, or nothing but the code.

#include <algorithm>

#include "layout/cards.h"
#include "layout/picture_frame.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"words", Kind::count, "24", "most cards", "1", "60"},
    {"columns", Kind::count, "2", "cards beside each other", "1", "4"},
    {"card-height", Kind::length, "42 mm", "height of a card", "25 mm",
     "120 mm"},
    {.name = "back",
     .kind = Kind::choice,
     .fallback = "picture",
     .help = "on the back: the picture, the graphemes, or only the code",
     .choices = "picture graphemes code"},
};

std::vector<const AnalyzedWord*> chosen(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words;
  for (const AnalyzedWord& word : in.lesson.words) words.push_back(&word);
  const auto most = static_cast<std::size_t>(in.options.count("words"));
  if (words.size() > most) words.resize(most);
  return words;
}

Length widest_spelled(Composer& c, const TextStyle& style,
                      const std::vector<const AnalyzedWord*>& words) {
  Length widest;
  for (const AnalyzedWord* word : words) {
    widest = std::max(widest, width_of(c.shape(style, spelled_out(*word))));
  }
  return widest;
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = chosen(in);
  const CardGrid grid{in.options.count("columns"),
                      in.options.length("card-height"), in.lesson.code};
  const Length room = card_width(c, grid) - 6_mm;
  TextStyle style = c.style().text(scaled(c.style().word_size, 1.3));
  style = fitted_style(style, widest_word(c, style, words), room);
  TextStyle spelled = c.style().text(c.style().word_size);
  spelled = fitted_style(spelled, widest_spelled(c, spelled, words), room);
  const std::string& back = in.options.choice("back");
  std::vector<Card> cards;
  for (const AnalyzedWord* word : words) {
    Card card;
    card.front = [&c, style, word](Block& block, const Rect& rect,
                                   ElementId element) {
      draw_in_middle(c, block, style, word->reading.word, rect, element);
    };
    const Picture* picture = in.pictures.find(word->reading.word);
    if (back == "graphemes") {
      card.back = [&c, spelled, word](Block& block, const Rect& rect,
                                      ElementId element) {
        draw_in_middle(c, block, spelled, spelled_out(*word), rect, element);
      };
    } else if (back == "picture" && picture != nullptr) {
      card.back = [&c, picture](Block& block, const Rect& rect,
                                ElementId element) {
        draw_picture(block, c.style(), picture, rect,
                     c.add(Role::figure, element, "a picture of the word"));
      };
    }
    cards.push_back(std::move(card));
  }
  add_cards(c, grid, cards);
}

std::string missing(const SheetInput& in) {
  return in.lesson.words.empty() ? "the lesson has no words" : "";
}

const SheetKind kKind = {
    .name = "word-cards",
    .title = "Word cards",
    .direction = "Cut along the dashed lines. Read each card.",
    .action = Action::cut,
    .summary = "the words of the week on cards to cut, with backs",
    .cut = true,
    .minutes = 10,
    .materials = "scissors",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf
