// The learner makes sentences of their own with the words of the week, told to
// someone who writes them down or written by hand. On the page: the words in a
// box, lines as tall as the learner writes, a line that says who wrote.

#include <algorithm>

#include "layout/heard.h"
#include "layout/picture_frame.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_bank.h"
#include "sheets/word_parts.h"

namespace sheaf::compose_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"lines", Kind::count, "0", "lines to write on; 0 fills the page", "0",
     "40"},
    {"word-bank", Kind::flag, "yes", "the words of the week in a box"},
    {"pictures", Kind::flag, "no", "pictures of some words to tell about"},
};

// Up to this many pictures of words in a row, to tell about.
constexpr std::size_t kMostPictures = 4;
constexpr Length kPictureSide = 24_mm;

void add_pictures(const SheetInput& in, Composer& c) {
  const From asked_for(c, in.options.span("pictures"));
  std::vector<std::pair<const Picture*, const AnalyzedWord*>> pictures;
  for (const AnalyzedWord& word : in.lesson.words) {
    const Picture* picture = in.pictures.find(word.reading.word);
    if (picture != nullptr && pictures.size() < kMostPictures) {
      pictures.emplace_back(picture, &word);
    }
  }
  if (pictures.empty()) return;
  const auto count = static_cast<std::int64_t>(pictures.size());
  const Length step = c.width() / count;
  Block& block = c.block(kPictureSide, c.blocks().empty() ? 0_mm : 4_mm);
  Length left = (step - kPictureSide) / 2;
  std::size_t number = 0;
  for (const auto& [picture, word] : pictures) {
    const From from(c, word->spelling.span);
    draw_picture(block, c.style(), picture,
                 {left, 0_mm, kPictureSide, kPictureSide},
                 add_picture(c, 0, picture,
                             {.word = word->reading.word, .number = ++number}));
    left += step;
  }
}

void add_authors(Composer& c) {
  const TextStyle style = c.style().learner_text();
  Block& block = c.block(14_mm, 2_mm);
  const Stroke line{.width = c.style().box_weight};
  const Length base = 9_mm;
  const Length half = c.width() / 2;
  const auto draw = [&](std::string_view text, Length left, Length right) {
    const ElementId element = c.add(Role::paragraph);
    const Length wide = draw_text(c, block, style, text, {left, base}, element);
    block.line({left + wide + 2_mm, base}, {right, base}, line,
               add_blank(c, element));
  };
  draw("Told to", 0_mm, half - 4_mm);
  draw("Written by", half, c.width());
}

void compose(const SheetInput& in, Composer& c) {
  const Ruling ruling = ruling_of(in, c.style());
  Length used = 16_mm;
  if (in.options.flag("word-bank")) {
    const From from(c, in.options.span("word-bank"));
    add_word_bank(c, words_of_list(in.lesson));
  }
  if (in.options.flag("pictures")) add_pictures(in, c);
  used += height_of(c.blocks());
  if (!c.blocks().empty()) used += 5_mm;
  const Length left = c.body().height - used;
  const int fitting = std::max<int>(
      1, static_cast<int>((left + ruling.gap) / set_pitch(ruling)));
  const int asked = in.options.count("lines");
  const int lines = asked == 0 ? fitting : asked;
  const ElementId element = add_writing_lines(c, 0, lines);
  for (int i = 0; i < lines; ++i) {
    Block& block =
        c.block(set_pitch(ruling), i == 0 && used > 16_mm ? 5_mm : 0_mm);
    draw_set(block, c.style(), ruling, {}, c.width(), element);
  }
  c.blocks().back().keep_with_next = true;
  c.blocks().back().height = set_height(ruling);
  add_authors(c);
}

std::string missing(const SheetInput& in) {
  return in.lesson.words.empty() ? "the lesson has no words" : "";
}

Direction other_direction(const SheetInput& in) {
  if (!in.plain_voice) return {};
  return {in.options.flag("word-bank")
              ? "Write sentences of your own with words from the box."
              : "Write sentences of your own with words of the week."};
}

const SheetKind kKind = {
    .name = "compose",
    .title = "My own sentences",
    .direction = "Choose a word. Say a sentence with it. Write it or tell it.",
    .action = Action::write,
    .other_direction = other_direction,
    .summary = "the words of the week and lines for sentences of one's own",
    .minutes = 10,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::compose_sheet
