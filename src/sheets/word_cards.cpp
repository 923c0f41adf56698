// Word cards for games and quick reading. On the page: the words of the week on
// cards of one size to cut, a small code on each; on the back the picture, the
// sound boxes filled in, or nothing but the code.

#include <algorithm>

#include "layout/heard_text.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::word_cards_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"words", Kind::count, "24", "most cards", "1", "60"},
    card_columns_option("2", "1", "4"),
    card_height_option("42 mm", "120 mm"),
    {.name = "back",
     .kind = Kind::choice,
     .fallback = "picture",
     .help = "on the back: the picture, the graphemes, or only the code",
     .choices = "picture graphemes code"},
};

std::vector<const AnalyzedWord*> chosen(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words = words_of_list(in.lesson);
  keep_first(words, in.options.count("words"));
  return words;
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = chosen(in);
  const CardGrid grid = card_grid(in);
  const Length room = card_room(c, grid);
  TextStyle style = c.style().text(scaled(c.style().word_size, 1.3));
  style = fitted_style(style, widest_word(c, style, words), room);
  TextStyle spelled = c.style().text(c.style().word_size);
  const Length widest_spelled =
      widest_text(c, spelled, words,
                  [](const AnalyzedWord* word) { return spelled_out(*word); });
  spelled = fitted_style(spelled, widest_spelled, room);
  const std::string& back = in.options.choice("back");
  std::vector<Card> cards;
  for (const AnalyzedWord* word : words) {
    Card card;
    card.from = word->spelling.span;
    card.front = text_side(c, style, word->reading.word);
    const Picture* picture = in.pictures.find(word->reading.word);
    if (back == "graphemes") {
      card.back = text_side(c, spelled, spelled_out(*word),
                            heard_graphemes(spelled_out(*word)));
    } else if (back == "picture" && picture != nullptr) {
      card.back =
          picture_side(c, picture, word->reading.word, cards.size() + 1);
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
    .minutes = 6,
    .materials = "scissors",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::word_cards,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::word_cards_sheet
