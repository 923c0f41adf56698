// The learner hunts for words with the sound in a short passage, marks them,
// counts them and reads the passage again. On the page: the passage, or each
// sentence from a line of its own, wide lines with a number in the margin, a
// box for the count, rings to tick for each reading, lines to write down the
// words. How many there are stands on the key only.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/reading_foot.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/our_sound.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::hunt_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"leading", Kind::number, "2", "line distance, as a ratio of the size",
     "1.4", "4"},
    kReadingsOption,
    {"count", Kind::flag, "yes", "a box for how many were found"},
    {"lines", Kind::count, "4",
     "lines to write down what was found, as far as there is room", "0", "12"},
};

constexpr Length kNumberWidth = 11_mm;
constexpr Length kBeforeCount = 8_mm;

TextStyle passage_style(const SheetInput& in, const Composer& c) {
  TextStyle style = c.style().text(c.style().reading_size);
  style.leading = in.options.number("leading");
  return style;
}

// The lesson's passage; without one its sentences. So too where
// the passage has a sheet of its own: nobody is to find the same words twice.
const std::vector<AnalyzedSentence>& parts_of(const SheetInput& in) {
  const AnalyzedLesson& lesson = in.lesson;
  const bool in_sentences = std::ranges::any_of(
      lesson.sentences,
      [](const AnalyzedSentence& s) { return s.pattern_words() > 0; });
  const bool elsewhere = has_sheet(in, "passage") && in_sentences;
  return lesson.passage.empty() || elsewhere ? lesson.sentences
                                             : lesson.passage.paragraphs;
}

// Each paragraph begins a line, and so does each of sentences that may have
// nothing to do with one another.
struct Part {
  Span place;
  std::vector<TextLine> lines;
};
std::vector<Part> lines_of(const SheetInput& in, Composer& c) {
  std::vector<Part> parts;
  for (const AnalyzedSentence& sentence : parts_of(in)) {
    parts.push_back({sentence.text.span(),
                     break_lines(c, passage_style(in, c), sentence.text.text(),
                                 c.width() - kNumberWidth)});
  }
  return parts;
}

void add_line(Composer& c, const TextStyle& style, const TextLine& line,
              std::size_t number, Length height, ElementId paragraph) {
  Block& block = c.block(height);
  // Baselines keep their place at the foot of a line that was made higher.
  const Length base = height - style.line_height() + baseline_in_line(style);
  TextStyle small = c.style().text(scaled(style.size, 0.7));
  small.ink = 60;
  draw_text(c, block, small, fmt::format("{}", number), {0_mm, base},
            kDecoration);
  draw_line(block, line, {kNumberWidth, base}, paragraph);
}

Length count_height(const Composer& c) {
  const TextStyle style = c.style().text(c.style().reading_size);
  return std::max(style.line_height(), 14_mm);
}

void add_count(const SheetInput& in, Composer& c) {
  const From from(c, in.options.span("count"));
  const TextStyle style = c.style().text(c.style().reading_size);
  const Length height = count_height(c);
  Block& block = c.block(height, kBeforeCount);
  block.keep_with_next = true;
  const ElementId element = c.add(Role::paragraph);
  const Length base = height / 2 + style.size / 3;
  Length x = kNumberWidth;
  x += draw_text(c, block, style, "I found ", {x, base}, element);
  const Rect box{x + 2_mm, 0_mm, 20_mm, height};
  block.frame(box, {.width = c.style().box_weight}, add_blank(c, element));
  draw_text(c, block, style, " words.", {box.right() + 2_mm, base}, element);
}

// What stands below the passage, without the lines to write on.
Length foot_height(const SheetInput& in, const Composer& c) {
  Length height;
  if (in.options.flag("count")) height += kBeforeCount + count_height(c);
  return height + reading_rings_height(c, in.options.count("readings"));
}

// A short passage gets wider lines, a long one those that were asked for.
Length line_height(const SheetInput& in, const Composer& c,
                   const TextStyle& style, std::size_t lines) {
  const Length least = style.line_height();
  const Length left = c.body().height - foot_height(in, c);
  return std::clamp(left / static_cast<std::int64_t>(lines), least,
                    scaled(least, 1.2));
}

void add_passage(const SheetInput& in, Composer& c) {
  const TextStyle style = passage_style(in, c);
  const std::vector<Part> parts = lines_of(in, c);
  std::size_t lines = 0, number = 0;
  for (const Part& part : parts) lines += part.lines.size();
  const Length height = line_height(in, c, style, lines);
  for (const Part& part : parts) {
    const From from(c, part.place);
    const ElementId paragraph = c.add(Role::paragraph);
    for (const TextLine& line : part.lines) {
      add_line(c, style, line, ++number, height, paragraph);
      // The last two lines go with what stands below them.
      c.blocks().back().keep_with_next = number + 1 >= lines;
    }
  }
}

void compose(const SheetInput& in, Composer& c) {
  add_passage(in, c);
  if (in.options.flag("count")) add_count(in, c);
  {
    const From from(c, in.options.span("readings"));
    add_reading_rings(c, in.options.count("readings"), kNumberWidth);
  }
  c.blocks().back().keep_with_next = false;
  even_pages(c.blocks(), c.body().height);
  add_lines_as_room(c, "Words I found", in.options.count("lines"));
}

std::string missing(const SheetInput& in) {
  if (parts_of(in).empty()) return "the lesson has no `sentences`";
  for (const AnalyzedSentence& sentence : parts_of(in)) {
    if (sentence.pattern_words() > 0) return "";
  }
  return "no sentence has a word with the pattern";
}

// The text with its words marked, and how many there are.
void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  std::vector<TextPiece> pieces;
  int total = 0;
  for (const AnalyzedSentence& sentence : parts_of(in)) {
    if (!pieces.empty()) pieces.push_back({" ", plain});
    append(pieces, marked_sentence(sentence, plain, strong));
    total += sentence.pattern_words();
  }
  add_paragraph(c, pieces);
  add_paragraph(c, strong, fmt::format("To be found: {}", total));
}

Direction other_direction(const SheetInput& in) {
  if (!in.plain_voice) {
    return {
        said_ours(in.lesson,
                  {"Find the words with our sound. Mark them. Read it again.",
                   "Find the words with our sounds. Mark them. Read it again.",
                   "Find the words with our pattern. Mark them. Read it again.",
                   "Find the words with our patterns. Mark them. Read it "
                   "again."}),
        Action::look};
  }
  return {"Mark the words with our pattern, then read the text again."};
}

const SheetKind kKind = {
    .name = "hunt",
    .title = "Find it in text",
    .direction = "Find the words with our sound. Mark them. Read it again.",
    .action = Action::look,
    .other_direction = other_direction,
    .summary = "a passage in which the pattern words are to be found",
    .part = DayPart::read,
    .minutes = 8,
    .materials = "highlighter",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::hunt,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::hunt_sheet
