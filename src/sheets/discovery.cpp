// The learner reads a list and finds out what its words share, by eye and by
// ear. On the page: the words, large, in plain type, nothing marked and nothing
// named; below them lines to write down what was noticed.

#include <algorithm>

#include "layout/heard.h"
#include "layout/ruled_lines.h"
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

constexpr Length kBeforeQuestion = 7_mm;

// How the page is shared out: rows of words first, then two questions, then as
// many of the lines as fit; what is left over parts the rows.
struct Plan {
  int columns = 1;
  Length row_height;
  int lines = 0;
  bool one_question = false;  // asked together, where there is little room
};

Plan plan_page(const SheetInput& in, Composer& c,
               const std::vector<const AnalyzedWord*>& words) {
  const Length widest =
      widest_word(c, c.style().text(c.style().word_size), words);
  Plan plan;
  plan.columns = std::clamp(static_cast<int>(c.width() / (widest + 8_mm)), 1,
                            in.options.count("columns"));
  const int rows =
      (static_cast<int>(words.size()) + plan.columns - 1) / plan.columns;
  const Length least = scaled(c.style().word_size, 1.6);
  const Length question =
      c.style().learner_text().line_height() + kBeforeQuestion + 1_mm;
  plan.one_question = in.options.count("lines") == 0 ||
                      least * rows + 2 * question > c.body().height;
  const auto rest = [&](int questions) {
    return c.body().height - least * rows - question * questions;
  };
  const auto lines_in = [&](Length height) {
    return std::clamp(static_cast<int>(height / set_pitch(c.style().ruling)), 0,
                      in.options.count("lines"));
  };
  // A question has a line to answer on, or they are asked together.
  plan.one_question |= lines_in(rest(2)) < 2;
  Length left = rest(plan.one_question ? 1 : 2);
  plan.lines = lines_in(left);
  left -= set_pitch(c.style().ruling) * plan.lines;
  plan.row_height =
      std::clamp(least + left / std::max(rows, 1), least, scaled(least, 1.7));
  return plan;
}

void add_words(Composer& c, const std::vector<const AnalyzedWord*>& words,
               const Plan& plan) {
  const TextStyle style = c.style().text(c.style().word_size);
  const Length column = c.width() / plan.columns;
  const Length base =
      (plan.row_height - style.line_height()) / 2 + baseline_in_line(style);
  const ElementId list = c.add(Role::list);
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto place = static_cast<int>(i) % plan.columns;
    if (place == 0) c.block(plan.row_height);
    const From from(c, words[i]->spelling.span);
    const ElementId body = add_list_body(c, list);
    draw_text(c, c.blocks().back(), style, words[i]->reading.word,
              {column * place + 4_mm, base}, body);
  }
}

void add_question(Composer& c, std::string_view text, int lines) {
  ParagraphOptions options;
  options.space_before = kBeforeQuestion;
  options.keep_with_next = lines > 0;
  add_paragraph(c, c.style().learner_text(), text, options);
  const ElementId element =
      lines > 0 ? add_writing_lines(c, 0, lines) : kDecoration;
  for (int i = 0; i < lines; ++i) {
    Block& block = c.block(set_pitch(c.style().ruling), i == 0 ? 1_mm : 0_mm);
    draw_set(block, c.style(), c.style().ruling, {}, c.width(), element);
  }
}

void compose(const SheetInput& in, Composer& c) {
  const auto words = listed(in);
  const Plan plan = plan_page(in, c, words);
  add_words(c, words, plan);
  const bool contrast = in.lesson.patterns.size() > 1;
  if (plan.one_question) {
    add_question(c,
                 contrast ? "What do you see and hear? Which belong together?"
                          : "What do you see and hear in every word?",
                 plan.lines);
    return;
  }
  add_question(c,
               contrast ? "What do you see? Which words belong together?"
                        : "What do you see in every word?",
               (plan.lines + 1) / 2);
  add_question(
      c, contrast ? "What do you hear?" : "What do you hear in every word?",
      plan.lines / 2);
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
