// The learner finds and marks the pattern words in sentences, reads them, and
// reads them again. On the page: numbered sentences in large type, nothing
// marked, with rings to tick for each reading.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::sentences_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    kReadingsOption,
    {"gap", Kind::length, "7 mm", "between two sentences", "2 mm", "40 mm"},
};

constexpr Length kNumberWidth = 11_mm;
constexpr Length kRing = 5.5_mm;
constexpr Length kRingPitch = 8_mm;

std::vector<TextLine> lines_of(const SheetInput& in, Composer& c,
                               std::size_t index) {
  const int rings = in.options.count("readings");
  const Length rings_width = rings > 0 ? kRingPitch * rings + 4_mm : Length();
  return break_lines(c, c.style().text(c.style().reading_size),
                     in.lesson.sentences[index].text.text(),
                     c.width() - kNumberWidth - rings_width);
}

// The blank between sentences: as the layout says, or wider where all fit one
// page and leave much of it empty.
Length gap_of(const SheetInput& in, Composer& c) {
  const Length least = in.options.length("gap");
  const auto count = static_cast<std::int64_t>(in.lesson.sentences.size());
  Length used;
  for (std::size_t i = 0; i < in.lesson.sentences.size(); ++i) {
    used += c.style().text(c.style().reading_size).line_height() *
            static_cast<std::int64_t>(lines_of(in, c, i).size());
  }
  if (count < 2) return least;
  return std::clamp((c.body().height - used) / count, least, 3 * least);
}

void add_sentence(const SheetInput& in, Composer& c, std::size_t index,
                  Length gap, ElementId list) {
  const TextStyle style = c.style().text(c.style().reading_size);
  const int rings = in.options.count("readings");
  const auto lines = lines_of(in, c, index);
  Block& block = c.block(
      style.line_height() * static_cast<std::int64_t>(lines.size()), gap);
  const From from(c, in.lesson.sentences[index].text.span());
  const auto [label, body] = add_list_item(c, list);
  Length y = baseline_in_line(style);
  TextStyle number = c.style().text(scaled(c.style().reading_size, 0.7));
  number.ink = 60;
  draw_text(c, block, number, fmt::format("{}", index + 1), {0_mm, y}, label);
  const Length middle = y - scaled(style.size, 0.25);
  for (const TextLine& line : lines) {
    draw_line(block, line, {kNumberWidth, y}, body);
    y += style.line_height();
  }
  if (rings == 0) return;
  const ElementId ticks = add_tick_boxes(c, body, rings);
  for (int i = 0; i < rings; ++i) {
    const Length x = c.width() - kRing / 2 - kRingPitch * (rings - 1 - i);
    block.ring({x, middle}, kRing, c.style().guide_weight * 2, ticks);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const ElementId list = c.add(Role::list);
  const Length gap = gap_of(in, c);
  for (std::size_t i = 0; i < in.lesson.sentences.size(); ++i) {
    add_sentence(in, c, i, gap, list);
  }
}

std::string missing(const SheetInput& in) {
  return in.lesson.sentences.empty() ? "the lesson has no `sentences`" : "";
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  for (std::size_t i = 0; i < in.lesson.sentences.size(); ++i) {
    const AnalyzedSentence& sentence = in.lesson.sentences[i];
    const From from(c, sentence.text.span());
    std::vector<TextPiece> pieces = {{fmt::format("{}.  ", i + 1), plain}};
    append(pieces, marked_sentence(sentence, plain, strong));
    const int count = sentence.pattern_words();
    pieces.push_back(
        {.text = fmt::format("  ({})", count),
         .style = plain,
         .heard = counted(count, "word to find", "words to find")});
    add_paragraph(c, pieces);
  }
}

const SheetKind kKind = {
    .name = "sentences",
    .title = "Read and find",
    .direction = "Find and mark the words with our sound. Read three times.",
    .action = Action::read,
    .summary = "sentences in which the pattern words are to be found",
    .part = DayPart::read,
    .daily = true,
    .minutes = 4,
    .materials = "highlighter",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .share = sheet_script::share_of_sentences,
    .script = sheet_script::sentences,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::sentences_sheet
