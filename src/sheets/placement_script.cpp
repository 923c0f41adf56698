// What the teacher says and does in a placement check: how to give it, the
// words of part one, when to stop, which part two follows, and its words step
// by step. Each word has a sentence, and in bold the letters to look at. A
// person should see: steps to follow on the first page with part one, a table
// to find part two in, then the words by step, each step together.

#include <fmt/format.h>

#include "layout/numbered_steps.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "sheets/caution.h"
#include "sheets/in_sentence.h"
#include "sheets/placement_parts.h"
#include "sheets/sheet.h"

namespace sheaf::placement_script_sheet {
namespace {

using namespace literals;

constexpr Length kBeforePart = 5_mm;

void add_part_heading(Composer& c, std::string_view text) {
  add_subheading(c, scaled(c.style().teacher_size, 1.2), text, kBeforePart);
}

// Words of the check, each with a sentence of its own.
class Script {
 public:
  Script(const SheetInput& in, Composer& c)
      : in_(in),
        c_(c),
        check_(in.lesson),
        said_(in_sentences(in.lesson, in.lesson.dictate_words)),
        plain_(c.style().teacher_text()),
        strong_(c.style().teacher_text(true)) {}

  void add() {
    add_how_to();
    add_part_one();
    add_where_to_go_on();
    add_part_two();
    add_what_then();
  }

 private:
  void add_how_to() {
    add_paragraph(
        c_, plain_,
        "For a learner who comes new: at about which step of the sequence to "
        "begin. The words are in none of its lessons. It takes 10 to 15 "
        "minutes.");
    add_subheading(c_, c_.style().teacher_size, "How to give it", 3_mm);
    const std::vector<std::string> steps = {
        "Say: “Some of these words may be new to you. Write what you hear. "
        "When it gets hard, we stop.”",
        "For each word say its number, the word, its sentence, and the word "
        "again. Wait for everybody. Do not help or say whether it is right.",
        "Look at the letters in bold only, or at the whole word where all of "
        "it is bold.",
        "Stop when two words on end are wrong there; with several learners, "
        "when that has come for each.",
        "Count the words that are right up to there: the table behind part one "
        "says which steps part two asks for."};
    add_numbered_steps(c_, plain_, steps);
  }

  void add_part_one() {
    add_part_heading(c_, "Part one");
    Table table(c_, {{"No.", 0, 12_mm},
                     {"Step", 0, 46_mm},
                     {"Say the word, its sentence, the word", 1}});
    for (std::size_t k = 0; k < check_.part_one().size(); ++k) {
      const PlacementCheck::Rung& rung = check_.rungs()[check_.part_one()[k]];
      const From from(c_, in_.lesson.dictate_words[k].spelling.span);
      table.add_row({{{fmt::format("{}", k + 1), plain_}},
                     {{placement_step(in_, rung), plain_}},
                     word(k, rung)},
                    true);
    }
  }

  void add_where_to_go_on() {
    add_part_heading(c_, "Where part two begins");
    add_paragraph(c_, plain_,
                  "By how many words were right before part one stopped.",
                  {.keep_with_next = true});
    const std::size_t first = c_.blocks().size();
    Table table(c_, {{"Right in part one", 1},
                     {"Dictate part two from step", 1},
                     {"up to step", 1}});
    for (const PlacementRow& row : placement_table(check_)) {
      const std::size_t last = check_.part_two_end(row.rung) - 1;
      table.add_text_row(
          {right_text(row), fmt::format("{}", check_.rungs()[row.rung].number),
           fmt::format("{}", check_.rungs()[last].number)},
          true);
    }
    keep_on_one_page(std::span(c_.blocks()).subspan(first));
  }

  static std::string right_text(const PlacementRow& row) {
    return row.least == row.most ? fmt::format("{}", row.least)
                                 : fmt::format("{} to {}", row.least, row.most);
  }

  void add_part_two() {
    add_part_heading(c_, "Part two");
    add_paragraph(
        c_, plain_,
        fmt::format(
            "Turn the page. Dictate all words of the {} steps that the table "
            "names, from the lowest up, and number them from 1. Do not stop "
            "before the end: easy and hard ones both count.",
            std::min(PlacementCheck::kAtOnce, check_.rungs().size())),
        {.keep_with_next = true});
    Table table(c_, {{"Step", 0, 46_mm, "the same step"},
                     {"Say the word, its sentence, the word", 1}});
    // A step is never divided between pages; a table binds its last two rows
    // only, so the rows are bound when all are there.
    std::vector<std::size_t> bound;
    for (const PlacementCheck::Rung& rung : check_.rungs()) {
      for (std::size_t i = 0; i < rung.words.size(); ++i) {
        const std::size_t index = rung.words[i];
        const From from(c_, in_.lesson.dictate_words[index].spelling.span);
        table.add_row(
            {{{i == 0 ? placement_step(in_, rung) : std::string(), plain_}},
             word(index, rung)},
            i == 0);
        if (i + 1 < rung.words.size()) bound.push_back(c_.blocks().size() - 1);
      }
    }
    for (const std::size_t row : bound) c_.blocks()[row].keep_with_next = true;
  }

  void add_what_then() {
    const std::size_t first = c_.blocks().size();
    add_part_heading(c_, "What then");
    add_numbered_steps(
        c_, plain_,
        std::vector<std::string>{
            "Mark the words on the page for marks. Type what was wrong, and "
            "the "
            "step at which part two began, into the form that “sheaf record” "
            "writes.",
            "“sheaf place” then names the step to begin at, how sure that is, "
            "and patterns to come back to; or the gaps of a patchy learner.",
            "Begin there, and watch the first week: is it too easy or too "
            "hard?"});
    add_paragraph(c_, plain_, kCaution, {.space_before = 4_mm});
    keep_on_one_page(std::span(c_.blocks()).subspan(first));
  }

  Table::Cell word(std::size_t index, const PlacementCheck::Rung& rung) const {
    return placement_word(in_, in_.lesson.dictate_words[index], rung,
                          said_[index], plain_, strong_);
  }

  const SheetInput& in_;
  Composer& c_;
  PlacementCheck check_;
  std::vector<InSentence> said_;
  TextStyle plain_, strong_;
};

void compose(const SheetInput& in, Composer& c) { Script(in, c).add(); }

const SheetKind kKind = {
    .name = "placement-script",
    .title = "What to say: where to begin",
    .summary =
        "the words and sentences of a placement check, when to stop, "
        "and where part two begins",
    .for_teacher = true,
    .missing = placement_missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::placement_script_sheet
