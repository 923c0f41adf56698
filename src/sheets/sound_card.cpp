// Ties the sound to a key word. On the page, for each pattern of the lesson: a
// large card with the grapheme, a picture of the key word (or a frame to draw
// it in), the key word, and lines to write the grapheme while saying its sound;
// then the teacher's rhyme, with its blanks, and pictures of words to swap into
// them.

#include <fmt/format.h>

#include <algorithm>

#include "layout/picture_frame.h"
#include "layout/ruled_lines.h"
#include "layout/text_block.h"
#include "sheets/rhyme_words.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"grapheme-size", Kind::length, "96 pt", "the grapheme on the card",
     "40 pt", "200 pt"},
    {"card-height", Kind::length, "72 mm", "height of a card", "40 mm",
     "120 mm"},
    {"picture", Kind::flag, "yes", "a picture of the key word, or a frame"},
    {"lines", Kind::count, "0",
     "lines to write the grapheme, for each card; 0 fills the page", "0", "8"},
};

std::string grapheme_text(const LessonPattern& pattern) {
  return pattern.graphemes.empty() ? pattern.name : pattern.graphemes.front();
}

// The type size at which a text fits a width.
TextStyle fitted(Composer& c, Length size, bool bold, std::string_view text,
                 Length room) {
  TextStyle style = c.style().text(size, bold);
  const Length width = width_of(c.shape(style, text));
  if (width > room) {
    style.size = scaled(size, static_cast<double>(room.mils()) /
                                  static_cast<double>(width.mils()));
  }
  return style;
}

void draw_card(const SheetInput& in, Composer& c, std::size_t index) {
  const LessonPattern& pattern = in.lesson.patterns[index];
  const Length height = in.options.length("card-height");
  Block& block = c.block(height, 5_mm);
  block.keep_with_next = true;
  block.frame({0_mm, 0_mm, c.width(), height},
              {c.style().box_weight * 3 / 2, kBlack, {}, false});
  const Length pad = 6_mm;
  const bool has_picture = in.options.flag("picture");
  const Length side = has_picture ? height - 2 * pad : Length();
  const Length middle = pad + side + (c.width() - pad - side) / 2;
  const Length room = c.width() - side - 4 * pad;
  // The key word stands at the foot of the card; the grapheme has the rest.
  Length above = height - 2 * pad;
  const int key = in.lesson.key_words[index];
  if (key >= 0) {
    const AnalyzedWord& word = in.lesson.words[static_cast<std::size_t>(key)];
    const Picture* picture = in.pictures.find(word.reading.word);
    if (has_picture) {
      const ElementId figure =
          c.add(Role::figure, 0,
                picture == nullptr ? "an empty frame to draw the key word in"
                                   : "a picture of the key word");
      draw_picture(block, c.style(), picture, {pad, pad, side, side}, figure);
    }
    const ElementId text = c.add(Role::paragraph);
    const TextStyle style = fitted(c, scaled(c.style().word_size, 1.2), false,
                                   word.reading.word, room);
    const Length depth = scaled(style.size, 0.3);
    draw_centred(c, block, style, word.reading.word,
                 {middle, height - pad - depth}, text);
    above -= scaled(style.size, 1.15);
  }
  const std::string grapheme = grapheme_text(pattern);
  const ElementId text = c.add(Role::paragraph);
  const TextStyle big = fitted(
      c, std::min(in.options.length("grapheme-size"), scaled(above, 0.85)),
      true, grapheme, room);
  draw_centred(c, block, big, grapheme,
               {middle, pad + above / 2 + scaled(big.size, 0.25)}, text);
}

constexpr Length kSwapPicture = 22_mm;
constexpr Length kAboveSwap = 4_mm;

// Whether words to swap into the rhyme are shown as pictures.
bool has_swap_pictures(const SheetInput& in,
                       const std::vector<RhymeWord>& words) {
  return in.options.flag("picture") &&
         std::ranges::any_of(
             words, [](const RhymeWord& w) { return w.picture != nullptr; });
}

// How much of the page the rhyme takes, with the words to swap in.
Length rhyme_height(const SheetInput& in, const Composer& c,
                    const std::vector<RhymeWord>& words) {
  const auto verses = static_cast<std::int64_t>(in.lesson.lesson->rhyme.size());
  if (verses == 0) return Length();
  const Length line = c.style().text(c.style().reading_size).line_height();
  Length height = line * verses + 6_mm;
  if (has_swap_pictures(in, words)) {
    height += kSwapPicture + kAboveSwap;
  } else if (!words.empty()) {
    height += line + kAboveSwap;
  }
  return height;
}

// Lines for each card, so that cards, lines and rhyme fill one page; at least
// one, at most five.
int lines_per_card(const SheetInput& in, const Composer& c, Length rhyme) {
  if (const int asked = in.options.count("lines"); asked > 0) return asked;
  const auto cards = static_cast<std::int64_t>(in.lesson.patterns.size());
  const Length card = in.options.length("card-height") + 9_mm;
  const Length left = c.body().height - card * cards - rhyme;
  const auto fitting =
      static_cast<int>(left / (set_pitch(c.style().ruling) * cards));
  return std::clamp(fitting, 1, 5);
}

void add_lines(const SheetInput& in, Composer& c, Length rhyme) {
  const int lines = lines_per_card(in, c, rhyme);
  for (int i = 0; i < lines; ++i) {
    Block& block = c.block(set_pitch(c.style().ruling), i == 0 ? 4_mm : 0_mm);
    draw_set(block, c.style(), c.style().ruling, {}, c.width());
    block.keep_with_next = i + 1 < lines;
  }
}

// A line of the rhyme: what stands in braces becomes a blank to write in.
Block& add_rhyme_line(Composer& c, const std::string& line, bool first) {
  const TextStyle style = c.style().text(c.style().reading_size);
  Block& block = c.block(style.line_height(), first ? 6_mm : 0_mm);
  const ElementId element = c.add(Role::paragraph);
  const Length base = baseline_in_line(style);
  Length x;
  std::string_view rest = line;
  while (!rest.empty()) {
    const std::size_t open = std::min(rest.find('{'), rest.size());
    const std::string_view text = rest.substr(0, open);
    if (!text.empty()) {
      x += draw_text(c, block, style, text, {x, base}, element);
    }
    rest.remove_prefix(open);
    const std::size_t close = rest.find('}');
    if (close == std::string_view::npos) break;
    const Length blank = 34_mm;
    block.line({x + 1_mm, base + 1_mm}, {x + blank - 1_mm, base + 1_mm},
               {c.style().box_weight, kBlack, {}, false});
    x += blank;
    rest.remove_prefix(close + 1);
  }
  return c.blocks().back();
}

// Pictures in a row, for learners who cannot read yet; else the words.
void add_swap_words(const SheetInput& in, Composer& c,
                    const std::vector<RhymeWord>& words) {
  if (!has_swap_pictures(in, words)) {
    std::string text;
    for (const RhymeWord& word : words) {
      text += (text.empty() ? "" : "    ") + word.word;
    }
    const TextStyle style = c.style().text(c.style().reading_size);
    Block& block = c.block(style.line_height(), kAboveSwap);
    draw_text(c, block, style, text, {Length(), baseline_in_line(style)},
              c.add(Role::paragraph));
    return;
  }
  Block& block = c.block(kSwapPicture, kAboveSwap);
  const Length step = c.width() / static_cast<std::int64_t>(kMostRhymeWords);
  Length x;
  for (const RhymeWord& word : words) {
    if (word.picture == nullptr) continue;
    const ElementId figure = c.add(
        Role::figure, 0, fmt::format("a picture to swap in: {}", word.word));
    draw_picture(block, c.style(), word.picture,
                 {x, Length(), kSwapPicture, kSwapPicture}, figure);
    x += step;
  }
}

void compose(const SheetInput& in, Composer& c) {
  const std::vector<RhymeWord> words = rhyme_words(in);
  const Length height = rhyme_height(in, c, words);
  for (std::size_t i = 0; i < in.lesson.patterns.size(); ++i) {
    draw_card(in, c, i);
    add_lines(in, c, height);
  }
  const auto& rhyme = in.lesson.lesson->rhyme;
  for (std::size_t i = 0; i < rhyme.size(); ++i) {
    // A short rhyme stays whole.
    constexpr std::size_t kShort = 8;
    add_rhyme_line(c, rhyme[i].text(), i == 0).keep_with_next =
        rhyme.size() <= kShort && (i + 1 < rhyme.size() || !words.empty());
  }
  if (!words.empty()) add_swap_words(in, c, words);
}

const SheetKind kKind = {
    .name = "sound-card",
    .title = "Sound card",
    .direction = "Say the word. Say the sound. Write it as you say it.",
    .action = Action::say,
    .summary = "the grapheme, its key word and lines to write it",
    .minutes = 5,
    .options = kOptions,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf
