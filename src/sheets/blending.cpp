// The learner marks the pattern while saying its sound, touches the mark under
// each grapheme saying each sound, then sweeps along the arrow and says the
// word. On the page: up to six words in large type, one below the other, a mark
// exactly under each grapheme, rings to tick off three readings.

#include <algorithm>

#include "layout/heard.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/word_division.h"
#include "sheets/word_parts.h"

namespace sheaf::blending_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"per-page", Kind::count, "6",
     "words on a page; a single one is as large as fits", "1", "10"},
    {.name = "marks",
     .kind = Kind::choice,
     .fallback = "dots",
     .help = "under each grapheme a dot, a line, or nothing",
     .choices = "dots lines none"},
    {.name = "pattern",
     .kind = Kind::choice,
     .fallback = "plain",
     .help =
         "letters of the pattern: like the others, hollow to colour, or grey",
     .choices = "plain outlined tinted"},
    {"arrow", Kind::flag, "yes", "an arrow to sweep along"},
    {"beats", Kind::flag, "no", "a dot and a wider gap between beats"},
    kLongerFirstOption,
    kReadingsOption,
};

constexpr Length kRing = 6_mm;
constexpr Length kRingPitch = 9_mm;
constexpr Length kAboveAlone = 4_mm;  // tall letters rise above capitals

TouchWordOptions word_options(const SheetInput& in, const Style& style,
                              double scale) {
  TouchWordOptions options;
  options.text = style.text(scaled(style.blending_size, scale));
  const std::string& marks = in.options.choice("marks");
  options.marks = marks == "lines"  ? MarkStyle::lines
                  : marks == "none" ? MarkStyle::none
                                    : MarkStyle::dots;
  const std::string& pattern = in.options.choice("pattern");
  options.pattern = pattern == "outlined" ? PatternLetters::outlined
                    : pattern == "tinted" ? PatternLetters::tinted
                                          : PatternLetters::plain;
  options.mark_spacing = scaled(style.mark_spacing, std::min(scale, 1.0));
  options.guide_weight = style.guide_weight;
  // Marks grow with a word that is larger than the layout's.
  options.dot = scaled(options.dot, std::clamp(scale, 1.0, 1.75));
  options.arrow = in.options.flag("arrow");
  return options;
}

// Where the beats of a word begin, as bytes, but for the first.
std::vector<std::size_t> beats_of(const SheetInput& in,
                                  const AnalyzedWord& word) {
  std::vector<std::size_t> beats;
  if (!in.options.flag("beats")) return beats;
  std::size_t at = 0;
  for (const std::string& letters :
       syllable_letters(word.reading, *in.lesson.phonics)) {
    if (at > 0) beats.push_back(at);
    at += letters.size();
  }
  return beats;
}

// How much larger a word may be that has a page to itself.
double share_of_page(const Composer& c, const TouchWord& word, Length room) {
  const auto ratio = [](Length whole, Length part) {
    return static_cast<double>(whole.mils()) / static_cast<double>(part.mils());
  };
  return std::min(ratio(room, word.width()),
                  ratio(c.body().height - kAboveAlone, word.height()));
}

// The word at the sheet's size, or smaller if it is too long for the page.
TouchWord fitted(const SheetInput& in, Composer& c, const AnalyzedWord& word,
                 Length room) {
  const auto graphemes = graphemes_of(word);
  const std::vector<std::size_t> beats = beats_of(in, word);
  const auto sized = [&](double scale) {
    TouchWordOptions options = word_options(in, c.style(), scale);
    options.beats = beats;
    return TouchWord(c, word.reading.word, graphemes, options);
  };
  double scale = 1.0;
  TouchWord result = sized(scale);
  if (in.options.count("per-page") == 1) {
    // Not all of its height grows with the letters.
    for (int tries = 0; tries < 5; ++tries) {
      scale = std::clamp(scale * share_of_page(c, result, room), 1.0, 6.0);
      result = sized(scale);
    }
    while (scale > 1 && share_of_page(c, result, room) < 1) {
      scale = std::max(1.0, scale * 0.99);
      result = sized(scale);
    }
  }
  for (int tries = 0; result.width() > room && tries < 4; ++tries) {
    scale *= 0.98 * static_cast<double>(room.mils()) /
             static_cast<double>(result.width().mils());
    result = sized(scale);
  }
  return result;
}

void draw_rings(Composer& c, Block& block, int count, Length middle,
                ElementId body) {
  if (count == 0) return;
  const ElementId ticks = add_tick_boxes(c, body, count);
  for (int i = 0; i < count; ++i) {
    const Length x = c.width() - kRing / 2 - kRingPitch * (count - 1 - i);
    block.ring({x, middle}, kRing, c.style().box_weight, ticks);
  }
}

std::vector<const AnalyzedWord*> ordered(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words = words_of_list(in.lesson);
  order_by_length(in, words);
  return words;
}

void compose(const SheetInput& in, Composer& c) {
  const int rings = in.options.count("readings");
  const Length rings_width = kRingPitch * rings + 6_mm;
  const Length room = c.width() - (rings > 0 ? rings_width : Length());
  std::vector<TouchWord> words;
  Length tallest;
  const std::vector<const AnalyzedWord*> listed = ordered(in);
  for (const AnalyzedWord* word : listed) {
    words.push_back(fitted(in, c, *word, room));
    tallest = std::max(tallest, words.back().height());
  }
  const int capacity = std::max(
      1, std::min<int>(in.options.count("per-page"),
                       static_cast<int>(c.body().height / (tallest + 2_mm))));
  const int rows = even_rows(static_cast<int>(words.size()), capacity);
  const Length pitch =
      std::clamp(c.body().height / rows, tallest + 2_mm,
                 std::max(scaled(tallest, 1.8), tallest + 2_mm));
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    Block& block = c.block(pitch);
    block.new_page = i > 0 && i % static_cast<std::size_t>(rows) == 0;
    const From from(c, listed[i]->spelling.span);
    const ElementId body = add_list_body(c, list);
    // Alone, it stands in the middle of the page.
    const bool alone = in.options.count("per-page") == 1;
    const Length left = alone ? (room - words[i].width()) / 2 : Length();
    words[i].draw(c, block, {left, alone ? kAboveAlone : 0_mm}, body);
    draw_rings(c, block, rings, scaled(c.style().blending_size, 0.6), body);
  }
}

std::string missing(const SheetInput& in) {
  return in.lesson.words.empty() ? "the lesson has no words" : "";
}

Direction other_direction(const SheetInput& in) {
  const bool arrow = in.options.flag("arrow");
  if (in.plain_voice) {
    return {in.options.choice("marks") == "none"
                ? "Say each sound, then read the whole word."
                : "Say the sound above each mark, then read the whole word."};
  }
  if (in.options.choice("marks") == "none") {
    return {arrow ? "Say each sound. Sweep and say the word."
                  : "Say each sound. Say the word.",
            Action::say};
  }
  if (arrow) return {};
  return {"Touch each mark and say its sound. Say the word.", Action::tap};
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  std::vector<TextPiece> pieces;
  for (const AnalyzedWord* word : ordered(in)) {
    // Lines end between words and behind the dot.
    if (!pieces.empty()) {
      pieces.back().text += "\u00A0\u00A0·  ";
      pieces.back().heard += ";";
    }
    pieces.push_back(spelled_piece(*word, plain));
    std::string parted;
    for (const char letter : pieces.back().text) {
      if (letter == ' ') {
        parted += "\u00A0";
      } else {
        parted += letter;
      }
    }
    pieces.back().text = std::move(parted);
  }
  add_paragraph(c, pieces);
}

const SheetKind kKind = {
    .name = "blending",
    .title = "Touch and blend",
    .direction = "Touch each mark and say its sound. Sweep and say the word.",
    .action = Action::tap,
    .other_direction = other_direction,
    .summary = "large words with a mark under each grapheme",
    .minutes = 10,
    .materials = "highlighter",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::blending_sheet
