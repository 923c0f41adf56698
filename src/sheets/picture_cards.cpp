// Picture cards to name, tap and spell. On the page: pictures on cards of one
// size to cut, a small code on each, no letters; on the back the word, to check
// with, or nothing but the code.

#include "layout/cards.h"
#include "layout/picture_frame.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"pictures", Kind::count, "24", "most cards", "1", "60"},
    {"columns", Kind::count, "3", "cards beside each other", "1", "5"},
    {"card-height", Kind::length, "56 mm", "height of a card", "25 mm",
     "120 mm"},
    {.name = "back",
     .kind = Kind::choice,
     .fallback = "word",
     .help = "on the back: the word, or only the code",
     .choices = "word code"},
};

// Words of the list that have a picture.
std::vector<const AnalyzedWord*> pictured(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words;
  const auto most = static_cast<std::size_t>(in.options.count("pictures"));
  for (const AnalyzedWord& word : in.lesson.words) {
    const bool has = in.pictures.find(word.reading.word) != nullptr;
    if (has && words.size() < most) words.push_back(&word);
  }
  return words;
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = pictured(in);
  const CardGrid grid{in.options.count("columns"),
                      in.options.length("card-height"), in.lesson.code};
  TextStyle style = c.style().text(c.style().word_size);
  style = fitted_style(style, widest_word(c, style, words),
                       card_width(c, grid) - 6_mm);
  const bool has_words = in.options.choice("back") == "word";
  std::vector<Card> cards;
  for (const AnalyzedWord* word : words) {
    Card card;
    card.front = [&in, &c, word](Block& block, const Rect& rect,
                                 ElementId element) {
      draw_picture(block, c.style(), in.pictures.find(word->reading.word), rect,
                   c.add(Role::figure, element, "a picture to name"));
    };
    if (has_words) {
      card.back = [&c, style, word](Block& block, const Rect& rect,
                                    ElementId element) {
        draw_in_middle(c, block, style, word->reading.word, rect, element);
      };
    }
    cards.push_back(std::move(card));
  }
  add_cards(c, grid, cards);
}

std::string missing(const SheetInput& in) {
  return pictured(in).empty() ? "no word of the list has a picture" : "";
}

const SheetKind kKind = {
    .name = "picture-cards",
    .title = "Picture cards",
    .direction = "Cut along the dashed lines. Say each picture.",
    .action = Action::cut,
    .summary = "pictures of the words on cards to cut, with backs",
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
