// Large empty sound boxes to use again and again in a plastic sleeve, with a
// dry pen or counters: the teacher says a word, the learner taps the dots,
// writes a grapheme to a box and the word on the line, and wipes. On the page:
// one row or two of large boxes, a dot over each, a line for the word below.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/ruled_lines.h"
#include "layout/sound_boxes.h"
#include "sheets/common_options.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::blank_boxes_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"rows", Kind::count, "2", "rows of boxes", "1", "2"},
    {"boxes", Kind::count, "4", "boxes in a row", "2", "6"},
    {"widest-box", Kind::length, "50 mm", "most width of a box", "20 mm",
     "90 mm"},
    {"line-height", Kind::length, "12 mm", "height of small letters", "4 mm",
     "16 mm"},
};

constexpr Length kBeforeLine = 5_mm;

BoxMeasures measures_of(const SheetInput& in, const Composer& c) {
  BoxMeasures measures;
  measures.width = std::min(c.width() / in.options.count("boxes"),
                            in.options.length("widest-box"));
  measures.x_height = in.options.length("line-height");
  return measures;
}

void add_row(const SheetInput& in, Composer& c, const BoxMeasures& measures,
             Length height) {
  const Ruling ruling = ruling_of(in, c.style());
  const int boxes = in.options.count("boxes");
  Block& block = c.block(height);
  const std::vector<SoundBox> row(static_cast<std::size_t>(boxes));
  BoxRowOptions options;
  options.text = c.style().text(c.style().word_size);
  options.tap_dot = 4_mm;
  const ElementId figure = c.add(Role::figure, 0, heard_boxes(row, 1, options));
  draw_box_row(c, block, row, measures, options, {}, figure);
  draw_set(block, c.style(), ruling, {0_mm, row_height(measures) + kBeforeLine},
           measures.width * boxes, add_writing_lines(c, 0));
}

void compose(const SheetInput& in, Composer& c) {
  const BoxMeasures measures = measures_of(in, c);
  const Length least =
      row_height(measures) + kBeforeLine + set_height(ruling_of(in, c.style()));
  const int rows = in.options.count("rows");
  // Two rows stand as far apart as halves of the page.
  const Length pitch = std::max(least, c.body().height / 2);
  for (int i = 0; i < rows; ++i) {
    add_row(in, c, measures, i + 1 < rows ? pitch : least);
  }
}

// Words to say, by how many boxes they need.
void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  int most = 0;
  for (const AnalyzedWord& word : in.lesson.words) {
    most = std::max(most, word.reading.boxes());
  }
  for (int boxes = 1; boxes <= most; ++boxes) {
    std::string head = counted(boxes, "box", "boxes");
    if (boxes > in.options.count("boxes")) head += ", more than a row has";
    std::vector<TextPiece> pieces = {{head + ":  ", strong}};
    for (const AnalyzedWord& word : in.lesson.words) {
      if (!word.has_pattern() || word.reading.boxes() != boxes) continue;
      if (pieces.size() > 1) {
        pieces.back().text += ", ";
        pieces.back().heard += ",";
      }
      pieces.push_back({word.reading.word + " ", plain});
      pieces.push_back(spelled_piece(word, plain, "(", ")"));
    }
    if (pieces.size() == 1) continue;
    add_paragraph(c, pieces);
  }
}

std::string missing(const SheetInput& in) {
  return practice_words(in.lesson, 1).empty() ? "no word has the pattern" : "";
}

const SheetKind kKind = {
    .name = "blank-boxes",
    .title = "Tap and write",
    .direction = "Say the word. Tap its sounds. Write one sound in each box.",
    .action = Action::tap,
    .summary = "large empty boxes to use again in a plastic sleeve",
    .part = DayPart::spell,
    .daily = true,
    .minutes = 4,
    .materials = "plastic sleeve, dry pen",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::tapping,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::blank_boxes_sheet
