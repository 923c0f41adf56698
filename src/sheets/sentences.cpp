// The learner finds and marks the pattern words in sentences, reads them, and
// reads them again. On the page: numbered sentences in large type, with rings
// to tick for each reading. In the first, in a box, the words are marked, "Like
// this"; in the second one of them is, if it has more; the rest is unmarked.

#include <fmt/format.h>

#include <algorithm>

#include "layout/heard.h"
#include "layout/model_frame.h"
#include "sheets/common_options.h"
#include "sheets/our_sound.h"
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
    kModelOption,
};

constexpr Length kNumberWidth = 11_mm;  // with the blank behind it
constexpr Length kNumberRoom = 8_mm;    // at least
constexpr Length kRing = 5.5_mm;
constexpr Length kRingPitch = 8_mm;

// Where everything stands; `around` is the room of the box, if there is one.
struct Plan {
  ModelRoom around;
  Length number;  // left edge of the numbers
  Length left;    // of the sentences
  Length right;   // of the rings
  Length gap;
  bool model = false;
  double scale = 1;  // of the reading size
  std::vector<std::vector<TextLine>> lines;
};

// Where sentences are short, type is this much larger at most.
constexpr double kScales[] = {1.3, 1.2, 1.1};

TextStyle sentence_style(const Composer& c, double scale) {
  return c.style().text(scaled(c.style().reading_size, scale));
}

// The sentence with as many of its pattern words marked as are given: all of
// the first, one of the second, if that leaves some to find.
std::vector<TextPiece> pieces_of(const SheetInput& in, const Composer& c,
                                 std::size_t index, const Plan& plan) {
  const AnalyzedSentence& sentence = in.lesson.sentences[index];
  const TextStyle style = sentence_style(c, plan.scale);
  const int words = sentence.pattern_words();
  int given = 0;
  if (plan.model && index == 0) given = words;
  if (plan.model && index == 1 && words > 1) given = 1;
  if (given == 0) return {{sentence.text.text(), style}};
  std::vector<TextPiece> pieces = marked_sentence(sentence, style, style);
  for (TextPiece& piece : pieces) {
    if (piece.marked && given-- <= 0) piece.marked = false;
  }
  return pieces;
}

Length text_height(const Composer& c, const Plan& plan, std::size_t index) {
  return sentence_style(c, plan.scale).line_height() *
         static_cast<std::int64_t>(plan.lines[index].size());
}

// What all sentences take without the blanks between them.
Length height_of_all(const Composer& c, const Plan& plan) {
  Length used = plan.around.height();
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    used += text_height(c, plan, i);
  }
  return used;
}

Plan plan_lines(const SheetInput& in, Composer& c, bool model,
                double scale = 1) {
  Plan plan;
  plan.model = model;
  plan.scale = scale;
  if (model) plan.around = model_room(c.style());
  const int rings = in.options.count("readings");
  const Length rings_width = rings > 0 ? kRingPitch * rings + 4_mm : Length();
  plan.number = plan.around.side;
  // A number is narrow, so the sentences keep their place.
  plan.left = std::max(kNumberWidth, plan.number + kNumberRoom);
  plan.right = c.width() - plan.around.side;
  const Length room = plan.right - plan.left - rings_width;
  for (std::size_t i = 0; i < in.lesson.sentences.size(); ++i) {
    const auto pieces = pieces_of(in, c, i, plan);
    plan.lines.push_back(break_lines(c, pieces, room));
    say_marked(pieces, plan.lines.back());
  }
  // The blank between sentences: as the layout says, or wider where all fit one
  // page and leave much of it empty.
  const Length least = in.options.length("gap");
  const auto count = static_cast<std::int64_t>(plan.lines.size());
  plan.gap = least;
  if (count > 1) {
    plan.gap = std::clamp((c.body().height - height_of_all(c, plan)) / count,
                          least, 3 * least);
  }
  return plan;
}

// How many pages the sentences take.
int pages_of(const Composer& c, const Plan& plan) {
  int pages = 1;
  Length used;
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    Length own = text_height(c, plan, i);
    if (i == 0) own += plan.around.height();
    const Length with = used + (used > Length() ? plan.gap : Length()) + own;
    pages += with > c.body().height ? 1 : 0;
    used = with > c.body().height ? own : with;
  }
  return pages;
}

// The same in the largest type in which no sentence takes a line more.
Plan in_larger_type(const SheetInput& in, Composer& c, Plan plan) {
  if (plan.lines.size() < 2 || pages_of(c, plan) > 1) return plan;
  for (const double scale : kScales) {
    Plan larger = plan_lines(in, c, plan.model, scale);
    const bool as_before = std::ranges::equal(larger.lines, plan.lines, {},
                                              &std::vector<TextLine>::size,
                                              &std::vector<TextLine>::size);
    if (as_before && pages_of(c, larger) == 1) return larger;
  }
  return plan;
}

// The first sentence is done where it has a word to find and the box costs no
// page.
Plan plan_at_size(const SheetInput& in, Composer& c) {
  Plan plain = plan_lines(in, c, false);
  const auto& sentences = in.lesson.sentences;
  if (!is_model_asked(in.options, sentences.size()) ||
      sentences.front().pattern_words() == 0) {
    return plain;
  }
  Plan with = plan_lines(in, c, true);
  // The box parts the first sentence from the next by itself.
  const Length close = scaled(in.options.length("gap"), 0.6);
  if (pages_of(c, with) > pages_of(c, plain)) with.gap = close;
  return pages_of(c, with) > pages_of(c, plain) ? plain : with;
}

void add_sentence(const SheetInput& in, Composer& c, const Plan& plan,
                  std::size_t index, ElementId list) {
  const TextStyle style = sentence_style(c, plan.scale);
  const int rings = in.options.count("readings");
  const bool model = plan.model && index == 0;
  Length height = text_height(c, plan, index);
  if (model) height += plan.around.height();
  Block& block = c.block(height, plan.gap);
  const From from(c, in.lesson.sentences[index].text.span());
  const ElementId item = c.add(Role::list_item, list);
  const ElementId label = c.add(Role::list_label, item);
  Length y = baseline_in_line(style);
  if (model) {
    draw_model_frame(c, block, model_box(c, height), label);
    y += plan.around.above;
  }
  const ElementId body = c.add(Role::list_body, item);
  TextStyle number = c.style().text(scaled(c.style().reading_size, 0.7));
  number.ink = 60;
  draw_text(c, block, number, fmt::format("{}", index + 1), {plan.number, y},
            label);
  const Length middle = y - scaled(style.size, 0.25);
  for (const TextLine& line : plan.lines[index]) {
    draw_line(c, block, line, {plan.left, y}, body);
    y += style.line_height();
  }
  if (rings == 0) return;
  const ElementId ticks = add_tick_boxes(c, body, rings);
  for (int i = 0; i < rings; ++i) {
    const Length x = plan.right - kRing / 2 - kRingPitch * (rings - 1 - i);
    block.ring({x, middle}, kRing, c.style().guide_weight * 2, ticks);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const ElementId list = c.add(Role::list);
  const Plan plan = in_larger_type(in, c, plan_at_size(in, c));
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    add_sentence(in, c, plan, i, list);
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

Direction other_direction(const SheetInput& in) {
  return {said_ours(
              in.lesson,
              {"Find and mark the words with our sound. Read three times.",
               "Find and mark the words with our sounds. Read three times.",
               "Find and mark the words with our pattern. Read three times.",
               "Find and mark the words with our patterns. Read three times."}),
          Action::read};
}

const SheetKind kKind = {
    .name = "sentences",
    .title = "Read and find",
    .direction = "Find and mark the words with our sound. Read three times.",
    .action = Action::read,
    .other_direction = other_direction,
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
