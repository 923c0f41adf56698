// Words that do not follow what was taught. The learner says a word, taps its
// sounds, sees which part is as expected, writes the part that must be
// remembered, then the whole word three times, and uses it. On the page, for
// each word: the word with that part shaded and underlined; its sound boxes,
// with the letters that are as expected, the others left to write on a shaded
// ground with a heavy line; lines to write the word, and one for a sentence.
// Nothing is done beforehand: every word is printed whole, and half of it in
// the boxes. Steps are common practice, no source.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/ruled_lines.h"
#include "layout/sound_boxes.h"
#include "layout/strokes.h"
#include "layout/text_block.h"
#include "sheets/common_options.h"
#include "sheets/irregular_content.h"
#include "sheets/shaded_word.h"
#include "sheets/sheet.h"
#include "sheets/word_parts.h"

namespace sheaf::irregular_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    line_height_option(),
    {"words", Kind::count, "3", "most words on the sheet", "1", "30"},
    {"tries", Kind::count, "3",
     "times to write each word, as far as there is room", "1", "6"},
    {"sentence-lines", Kind::count, "1",
     "lines for a sentence with the word; more where the page has room", "0",
     "4"},
};

constexpr Length kGap = 5_mm;        // beside each other
constexpr Length kBelowWord = 2_mm;  // where the boxes stand below it
// Below the boxes, from one word to the next, and the most between lines: as it
// looks best, and where that saves a page.
struct Air {
  Length before_lines, between, between_lines;
};
constexpr Air kWide = {4_mm, 10_mm, 10_mm};
constexpr Air kNarrow = {2_mm, 6_mm, 2_mm};
constexpr int kMostSentenceLines = 4;
constexpr std::string_view kUseIt = "Use it:";
constexpr std::string_view kAllExpected = "All of it says what you expect.";

std::vector<Grapheme> shaded_graphemes(const RememberedWord& word) {
  std::vector<Grapheme> graphemes = graphemes_of(word.word);
  for (std::size_t i = 0; i < graphemes.size(); ++i) {
    graphemes[i].shaded = word.parts[i];
  }
  return graphemes;
}

std::vector<SoundBox> boxes_to_fill(const RememberedWord& word) {
  std::vector<bool> given = word.parts;
  given.flip();
  return boxes_of(word.word, given);
}

struct Plan {
  Ruling ruling;
  TextStyle word;
  BoxRowOptions options;
  Length boxes_left;   // beside the words
  bool below = false;  // the boxes stand below their word
  int columns = 1;     // lines for the word beside each other
  int tries = 1;
  int sentence_lines = 1;
  Air air = kWide;
};

// The boxes of a word, as wide as its own letters need, in several rows where
// one would be too wide.
struct WordBoxes {
  BoxMeasures measures;
  std::vector<std::vector<SoundBox>> rows;
  Length height() const {
    return row_height(measures) * static_cast<std::int64_t>(rows.size());
  }
};

WordBoxes boxes_for(Composer& c, const Plan& plan, const RememberedWord& word) {
  const Length x_height = plan.ruling.x_height;
  const std::vector<SoundBox> boxes = boxes_to_fill(word);
  const std::vector<std::vector<SoundBox>> one = {boxes};
  WordBoxes found;
  found.measures = measure_boxes(one, x_height, 2 * x_height);
  found.measures.width = std::max(
      found.measures.width, printed_box_width(c, one, x_height, plan.options));
  found.rows = box_rows(boxes, found.measures, c.width());
  return found;
}

Length above_lines(Composer& c, const Plan& plan, const RememberedWord& word) {
  Length height = boxes_for(c, plan, word).height();
  if (plan.below) height += plan.word.line_height() + kBelowWord;
  if (!word.any()) height += c.style().learner_text().line_height();
  return height;
}

int line_rows(const Plan& plan) {
  return (plan.tries + plan.columns - 1) / plan.columns;
}

Length item_height(Composer& c, const Plan& plan, const RememberedWord& word) {
  const int sets = line_rows(plan) + plan.sentence_lines;
  return above_lines(c, plan, word) + plan.air.before_lines +
         set_pitch(plan.ruling) * (sets - 1) + set_height(plan.ruling);
}

bool fit_a_page(Composer& c, const Plan& plan,
                const std::vector<RememberedWord>& words) {
  return std::ranges::all_of(words, [&](const RememberedWord& word) {
    return item_height(c, plan, word) <= c.body().height;
  });
}

int pages_of(Composer& c, const Plan& plan,
             const std::vector<RememberedWord>& words) {
  int pages = 1;
  Length used = -plan.air.between;
  for (const RememberedWord& word : words) {
    const Length height = item_height(c, plan, word);
    used += plan.air.between + height;
    if (used <= c.body().height) continue;
    ++pages;
    used = height;
  }
  return pages;
}

// Less air where that saves a page, and fewer tries where a word would need
// more than one; then more lines for sentences where few words would leave half
// a page blank.
void fill_pages(Composer& c, Plan& plan,
                const std::vector<RememberedWord>& words) {
  Plan narrow = plan;
  narrow.air = kNarrow;
  narrow.ruling.gap = std::min(plan.ruling.gap, kNarrow.between_lines);
  if (!fit_a_page(c, plan, words) ||
      pages_of(c, narrow, words) < pages_of(c, plan, words)) {
    plan = narrow;
  }
  while (plan.tries > 1 && !fit_a_page(c, plan, words)) --plan.tries;
  if (plan.sentence_lines == 0) return;
  const int pages = pages_of(c, plan, words);
  while (plan.sentence_lines < kMostSentenceLines) {
    ++plan.sentence_lines;
    if (fit_a_page(c, plan, words) && pages_of(c, plan, words) == pages) {
      continue;
    }
    --plan.sentence_lines;
    return;
  }
}

Plan plan_page(const SheetInput& in, Composer& c,
               const std::vector<RememberedWord>& words) {
  Plan plan;
  plan.ruling = ruling_of(in, c.style());
  plan.sentence_lines = in.options.count("sentence-lines");
  plan.options.fill = BoxFill::given;
  plan.options.text = c.style().text(c.style().word_size);
  std::vector<const AnalyzedWord*> all;
  for (const RememberedWord& word : words) all.push_back(&word.word);
  Length widest_row;
  for (const RememberedWord& word : words) {
    const WordBoxes boxes = boxes_for(c, plan, word);
    for (const auto& row : boxes.rows) {
      widest_row = std::max(widest_row, row_width(row, boxes.measures));
    }
  }
  plan.word = c.style().text(scaled(c.style().word_size, 1.2));
  plan.word =
      fitted_style(plan.word, widest_word(c, plan.word, all), c.width() - 4_mm);
  plan.boxes_left = widest_word(c, plan.word, all) + 2 * kGap;
  plan.below = plan.boxes_left + widest_row > c.width();
  if (plan.below) plan.boxes_left = 0_mm;
  const Length by_hand =
      scaled(widest_by_hand(all, plan.ruling.x_height), 1.15);
  plan.tries = in.options.count("tries");
  plan.columns = static_cast<int>(std::clamp<std::int64_t>(
      (c.width() + kGap) / (by_hand + kGap), 1, std::min(plan.tries, 3)));
  fill_pages(c, plan, words);
  return plan;
}

// A shaded ground with a heavy line where something must be remembered.
void draw_grounds(Composer& c, Block& block, const std::vector<SoundBox>& row,
                  const BoxMeasures& m, Point at, ElementId element) {
  const Length top = at.y + row_height(m) - m.height() + 1.5_mm;
  const Length height = m.base() - 1.5_mm;
  const auto ground = [&](Length x, Length width) {
    draw_underlined_ground(block, c.style(),
                           {x + 1.5_mm, top, width - 3_mm, height}, element);
  };
  Length x = at.x;
  for (const SoundBox& box : row) {
    if (!box.given && box.part == 0) ground(x, m.width * box.parts);
    x += m.width;
    if (box.slot_after.empty()) continue;
    if (!box.slot_given) ground(x, m.slot_width);
    x += m.slot_width;
  }
}

void draw_boxes(Composer& c, Block& block, const Plan& plan,
                const RememberedWord& word, Point at, ElementId body) {
  const WordBoxes boxes = boxes_for(c, plan, word);
  std::string heard = heard_boxes(
      boxes_to_fill(word), static_cast<int>(boxes.rows.size()), plan.options);
  if (word.any()) heard += "; what is left empty is the part to remember";
  const ElementId figure = c.add(Role::figure, body, std::move(heard));
  for (const std::vector<SoundBox>& row : boxes.rows) {
    draw_grounds(c, block, row, boxes.measures, at, figure);
    draw_box_row(c, block, row, boxes.measures, plan.options, at, figure);
    at.y += row_height(boxes.measures);
  }
}

// Lines for the word, some beside each other, then for a sentence.
void draw_lines(Composer& c, Block& block, const Plan& plan, Length top,
                ElementId body) {
  const Length width = (c.width() - kGap * (plan.columns - 1)) / plan.columns;
  const ElementId lines = add_writing_lines(c, body, plan.tries);
  for (int i = 0; i < plan.tries; ++i) {
    draw_set(block, c.style(), plan.ruling,
             {(width + kGap) * (i % plan.columns),
              top + set_pitch(plan.ruling) * (i / plan.columns)},
             width, lines);
  }
  if (plan.sentence_lines == 0) return;
  top += set_pitch(plan.ruling) * line_rows(plan);
  const TextStyle text = c.style().learner_text();
  const Length label = draw_text(c, block, text, kUseIt,
                                 {0_mm, top + base_in_set(plan.ruling)}, body) +
                       3_mm;
  const ElementId sentence = add_writing_lines(c, body, plan.sentence_lines);
  for (int i = 0; i < plan.sentence_lines; ++i) {
    const Length left = i == 0 ? label : 0_mm;
    draw_set(block, c.style(), plan.ruling,
             {left, top + set_pitch(plan.ruling) * i}, c.width() - left,
             sentence);
  }
}

void add_word(Composer& c, const Plan& plan, const RememberedWord& word,
              ElementId list) {
  const From from(c, word.word.spelling.span);
  Block& block = c.block(item_height(c, plan, word), plan.air.between);
  const ElementId body = add_list_body(c, list);
  const std::vector<Grapheme> graphemes = shaded_graphemes(word);
  const std::string& text = word.word.reading.word;
  const BoxMeasures m = boxes_for(c, plan, word).measures;
  const Length in_row = row_height(m) - m.height() + m.base();
  const Length base = plan.below ? baseline_in_line(plan.word) : in_row;
  draw_shaded(c, block, plan.word, text, graphemes, {1_mm, base},
              add_heard_as(c, body, text, heard_shaded(text, graphemes)));
  const Point boxes{plan.boxes_left,
                    plan.below ? plan.word.line_height() + kBelowWord : 0_mm};
  draw_boxes(c, block, plan, word, boxes, body);
  Length top = above_lines(c, plan, word);
  if (!word.any()) {
    top -= c.style().learner_text().line_height();
    const TextStyle style = c.style().learner_text();
    draw_text(c, block, style, kAllExpected,
              {0_mm, top + baseline_in_line(style)}, body);
    top += style.line_height();
  }
  draw_lines(c, block, plan, top + plan.air.before_lines, body);
}

void compose(const SheetInput& in, Composer& c) {
  const std::vector<RememberedWord> words = content_of(in).words;
  const Plan plan = plan_page(in, c, words);
  const ElementId list = c.add(Role::list);
  for (const RememberedWord& word : words) add_word(c, plan, word, list);
  stretch_blanks(c.blocks(), c.body().height, 1, 2.5);
  even_pages(c.blocks(), c.body().height);
}

std::string missing(const SheetInput& in) {
  if (in.lesson.patterns.empty()) return "it teaches no pattern";
  const Content content = content_of(in);
  if (!content.words.empty()) return "";
  return content.expected.empty()
             ? "no `sight-words` are known"
             : "all of its `sight-words` can be read with what was taught";
}

void answers(const SheetInput& in, Composer& c) {
  const Content content = content_of(in);
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  for (const RememberedWord& word : content.words) {
    const From from(c, word.word.spelling.span);
    const std::vector<TextPiece> pieces = {
        {word.word.reading.word + ": ", strong},
        {parts_told(in.lesson, word), plain}};
    add_paragraph(c, pieces);
  }
  if (!content.for_later.empty()) {
    add_paragraph(
        c, plain,
        fmt::format("For another day: {}.", names(content.for_later)));
  }
  if (!content.expected.empty()) {
    const bool one = content.expected.size() == 1;
    add_paragraph(
        c, plain,
        fmt::format("Nothing to remember in {}: {} be read with what was "
                    "taught.",
                    names(content.expected), one ? "it can" : "they can"));
  }
}

const SheetKind kKind = {
    .name = "irregular",
    .title = "A part to remember",
    .direction =
        "Say it. Tap its sounds. Write the underlined part, then the "
        "word.",
    .action = Action::tap,
    .summary =
        "sight words: what is as expected by now, the part to remember, "
        "writing and using the word",
    .part = DayPart::spell,
    .minutes = 8,
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = script,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::irregular_sheet
