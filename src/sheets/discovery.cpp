// The learner reads a list and finds out what its words share, by eye and by
// ear. On the page: the words, large, in plain type, nothing marked and nothing
// named, each in a light cell with room to colour in; below them rings to tick
// once it is coloured and told, or lines to write down what was noticed.

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "layout/heard.h"
#include "layout/ruled_lines.h"
#include "layout/strokes.h"
#include "layout/text_block.h"
#include "sheets/sheet.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::discovery_sheet {
namespace {

using namespace literals;
using Kind = OptionSpec::Kind;

constexpr OptionSpec kOptions[] = {
    {"columns", Kind::count, "2", "columns of words", "1", "4"},
    {"words", Kind::count, "12", "most words on the sheet", "2", "60"},
    {.name = "answer",
     .kind = Kind::choice,
     .fallback = "written",
     .help = "what was noticed is coloured and told to someone, or written",
     .choices = "told written"},
    {"lines", Kind::count, "4",
     "lines to write what was noticed, as far as there is room", "0", "8"},
};

// Words of one pattern stand as the teacher listed them; words of several are
// mixed, so that there is something to find.
std::vector<const AnalyzedWord*> listed(const SheetInput& in) {
  std::vector<const AnalyzedWord*> words;
  if (in.lesson.patterns.size() > 1) {
    words = mixed_words(in.lesson, "discovery");
  } else {
    for (const AnalyzedWord& w : in.lesson.words) {
      if (w.has_pattern()) words.push_back(&w);
    }
  }
  keep_first(words, in.options.count("words"));
  return words;
}

std::string missing(const SheetInput& in) {
  return listed(in).size() < 2 ? "it needs two words with the pattern" : "";
}

constexpr Length kBeforeFoot = 6_mm;
constexpr Length kBetweenCells = 4_mm;
constexpr Length kBesideWord = 6_mm;  // within a cell
constexpr Length kRing = 9_mm;

bool is_told(const SheetInput& in) {
  return in.options.choice("answer") == "told";
}

bool is_contrast(const SheetInput& in) { return in.lesson.patterns.size() > 1; }

// What is asked below the words: one or two questions, each with its lines.
struct Question {
  std::string_view text;
  int lines = 0;
};

std::vector<Question> questions(const SheetInput& in, int lines, bool one) {
  const bool contrast = is_contrast(in);
  if (one) {
    return {{contrast ? "What do you see and hear? Which belong together?"
                      : "What do you see and hear in every word?",
             lines}};
  }
  return {{contrast ? "What do you see? Which words belong together?"
                    : "What do you see in every word?",
           (lines + 1) / 2},
          {contrast ? "What do you hear?" : "What do you hear in every word?",
           lines / 2}};
}

// What is ticked below the words once it is done, beside each other where the
// page is wide enough.
std::array<std::string_view, 2> done_steps(const SheetInput& in) {
  return {is_contrast(in) ? "I coloured them." : "I coloured it.",
          "I told someone."};
}

Length question_height(const Composer& c) {
  return c.style().learner_text().line_height() + kBeforeFoot + 1_mm;
}

Length lines_height(const Composer& c, int lines) {
  return set_pitch(c.style().ruling) * lines;
}

// How the page is shared out. The words have what the foot leaves, and are as
// large as their cells allow.
struct Plan {
  int columns = 1;
  Length cell_height;
  TextStyle text;
  int lines = 0;
  bool one_question = false;  // asked together, where there is little room
  bool one_page = true;
};

Length least_cell(Length size) { return scaled(size, 1.5); }

// What stands below the words, and how much of the page it takes.
Length plan_foot(const SheetInput& in, const Composer& c, Length words,
                 Plan& plan) {
  if (is_told(in)) return kBeforeFoot + kRing + 4_mm;
  const Length page = c.body().height;
  const Length question = question_height(c);
  const auto lines_in = [&](Length height) {
    return std::clamp(static_cast<int>(height / set_pitch(c.style().ruling)), 0,
                      in.options.count("lines"));
  };
  // A question has a line to answer on, or they are asked together.
  plan.one_question = lines_in(page - words - 2 * question) < 2;
  plan.lines = lines_in(page - words - question * (plan.one_question ? 1 : 2));
  return question * (plan.one_question ? 1 : 2) + lines_height(c, plan.lines);
}

// The plan for words of this size or larger.
Plan plan_page(const SheetInput& in, Composer& c,
               const std::vector<const AnalyzedWord*>& words, Length least) {
  Plan plan;
  plan.text = c.style().text(least);
  const Length widest = widest_word(c, plan.text, words);
  const Length pitch = widest + 2 * kBesideWord + kBetweenCells;
  plan.columns =
      std::clamp(static_cast<int>((c.width() + kBetweenCells) / pitch), 1,
                 in.options.count("columns"));
  // No word stands alone in the last row if it can be helped.
  const auto count = static_cast<int>(words.size());
  while (plan.columns > 2 && count % plan.columns == 1) --plan.columns;
  const int rows = (count + plan.columns - 1) / plan.columns;
  const Length cells =
      (least_cell(least) + kBetweenCells) * rows - kBetweenCells;
  const Length foot = plan_foot(in, c, cells, plan);
  plan.one_page = cells + foot <= c.body().height;
  const Length room = (c.body().height - foot + kBetweenCells) / rows;
  plan.cell_height = std::clamp(room - kBetweenCells, least_cell(least), 42_mm);
  const Length cell =
      (c.width() + kBetweenCells) / plan.columns - kBetweenCells;
  const Length largest =
      std::max(c.style().word_size, scaled(c.style().blending_size, 1.25));
  plan.text.size = std::clamp(scaled(plan.cell_height, 0.6), least, largest);
  plan.text = fitted_style(plan.text, widest_word(c, plan.text, words),
                           cell - 2 * kBesideWord);
  return plan;
}

// All words are seen at once, if need be a little smaller: what they share is
// not found over two pages.
Plan plan_page(const SheetInput& in, Composer& c,
               const std::vector<const AnalyzedWord*>& words) {
  const Length size = c.style().word_size;
  const Plan plan = plan_page(in, c, words, size);
  if (plan.one_page) return plan;
  for (const double share : {0.9, 0.8, 0.7}) {
    const Plan smaller =
        plan_page(in, c, words, c.style().at_least(scaled(size, share)));
    if (smaller.one_page) return smaller;
  }
  return plan;
}

void add_words(Composer& c, const std::vector<const AnalyzedWord*>& words,
               const Plan& plan) {
  const Length pitch = (c.width() + kBetweenCells) / plan.columns;
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto place = static_cast<int>(i) % plan.columns;
    if (place == 0) c.block(plan.cell_height, kBetweenCells);
    const From from(c, words[i]->spelling.span);
    const Rect cell{pitch * place, 0_mm, pitch - kBetweenCells,
                    plan.cell_height};
    Block& block = c.blocks().back();
    block.frame(cell, thin_stroke(c.style()));
    draw_in_middle(c, block, plan.text, words[i]->reading.word, cell,
                   add_list_body(c, list));
  }
}

void add_question(Composer& c, const Question& question) {
  ParagraphOptions options;
  options.space_before = kBeforeFoot;
  options.keep_with_next = question.lines > 0;
  add_paragraph(c, c.style().learner_text(), question.text, options);
  if (question.lines > 0) {
    add_sets(c, c.style().ruling, question.lines, 1_mm);
  }
}

// Rings to tick in one row, as a small child ticks: large.
void add_done(const SheetInput& in, Composer& c) {
  const TextStyle style = c.style().learner_text();
  Block& block = c.block(kRing + 1_mm, kBeforeFoot);
  const ElementId list = c.add(Role::list);
  const Length middle = kRing / 2 + 0.5_mm;
  Length x;
  for (const std::string_view step : done_steps(in)) {
    const auto [label, body] = add_list_item(c, list);
    block.ring({x + kRing / 2, middle}, kRing, c.style().box_weight,
               add_tick_boxes(c, label));
    draw_text(c, block, style, step,
              {x + kRing + 3_mm, middle + scaled(style.size, 0.27)}, body);
    x += c.width() / 2;
  }
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = listed(in);
  const Plan plan = plan_page(in, c, words);
  add_words(c, words, plan);
  even_pages(c.blocks(), c.body().height);
  if (is_told(in)) {
    add_done(in, c);
    return;
  }
  for (const Question& question :
       questions(in, plan.lines, plan.one_question)) {
    add_question(c, question);
  }
}

Direction other_direction(const SheetInput& in) {
  if (is_told(in)) {
    return {is_contrast(in)
                ? "Say the words. Use one colour for those that belong "
                  "together. Tell someone."
                : "Say the words. Colour what is the same. Tell someone.",
            Action::look};
  }
  if (!in.plain_voice) return {};
  return {"Read the words aloud. What do they have in common?"};
}

void answers(const SheetInput& in, Composer& c) {
  const TextStyle plain = c.style().teacher_text();
  const TextStyle strong = c.style().teacher_text(true);
  std::vector<TextPiece> pieces;
  for (const AnalyzedWord* w : listed(in)) {
    if (!pieces.empty()) {
      // Two blanks part words for eyes only.
      pieces.back().heard = pieces.back().text + ",";
      pieces.push_back({"  ", plain});
    }
    append(pieces, marked_word(in.lesson, *w, plain, strong));
  }
  add_paragraph(c, pieces);
}

const SheetKind kKind = {
    .name = "discovery",
    .title = "What do you notice?",
    .direction = "Look at the words. Say them. What do they share?",
    .action = Action::look,
    .other_direction = other_direction,
    .summary = "a list of words to find the pattern in",
    .minutes = 8,
    .materials = "coloured pencil",
    .options = kOptions,
    .missing = missing,
    .compose = compose,
    .script = sheet_script::discovery,
    .answers = answers,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::discovery_sheet
