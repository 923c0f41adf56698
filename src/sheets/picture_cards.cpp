// Picture cards to name, tap and spell. On the page: pictures on cards of one
// size to cut, a small code on each, no letters; on the back the word, to check
// with, or nothing but the code.

#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::picture_cards_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"pictures", Kind::count, "24", "most cards", "1", "60"},
    card_columns_option("3", "1", "5"),
    card_height_option("56 mm", "120 mm"),
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
  const CardGrid grid = card_grid(in);
  TextStyle style = c.style().text(c.style().word_size);
  style = fitted_style(style, widest_word(c, style, words), card_room(c, grid));
  const bool has_words = in.options.choice("back") == "word";
  std::vector<Card> cards;
  for (const AnalyzedWord* word : words) {
    Card card;
    card.from = word->spelling.span;
    card.front = picture_side(c, in.pictures.find(word->reading.word),
                              word->reading.word, cards.size() + 1);
    if (has_words) card.back = text_side(c, style, word->reading.word);
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
    .minutes = 8,
    .materials = "scissors",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::picture_cards,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::picture_cards_sheet
