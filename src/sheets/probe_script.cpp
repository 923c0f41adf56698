// For the teacher, with one form of a probe: how to give it, the same way each
// time, then every word with a sentence to say it in and how many letter
// sequences it has. On the page: a few numbered steps and a table with a large
// word at the head of each row, for a page held in one hand.

#include <fmt/format.h>

#include <algorithm>

#include "layout/numbered_steps.h"
#include "layout/table.h"
#include "layout/text_block.h"
#include "marking/letter_sequences.h"
#include "sheets/dictated.h"
#include "sheets/in_sentence.h"
#include "sheets/sheet.h"

namespace sheaf::probe_script_sheet {
namespace {

using namespace literals;

constexpr Length kAroundText = 5_mm;  // in a cell, at both sides together

int sequences_in(const AnalyzedWord& word) {
  return letter_sequences(word.reading.word, "").possible;
}

// Common practice, no source.
std::vector<std::string> steps_of(std::size_t words) {
  return {
      "Give the form on one day, and every form in this way. Nobody has seen "
      "or practised the words.",
      fmt::format(
          "Say: “I will say {} words. Write each one as well as you can. "
          "Some are hard, and a try counts.”",
          words),
      "Say the number, the word, its sentence, and the word again. Wait ten "
      "seconds or so, every time about as long.",
      "Say a word once more if someone asks. Do not stretch its sounds, and "
      "give no help.",
      "Collect the pages. These words are not corrected, taught or sent home: "
      "the next form has others.",
  };
}

void compose(const SheetInput& in, Composer& c) {
  const auto [words, sentences] = dictated_in_packet(in);
  const TextStyle text = c.style().teacher_text();
  const TextStyle bold = c.style().teacher_text(true);
  add_numbered_steps(c, text, steps_of(words.size()));
  const auto room_for = [&](std::string_view title) {
    return width_of(c.shape(bold, title)) + kAroundText;
  };
  const Length widest =
      widest_text(c, bold, words,
                  [](const AnalyzedWord& word) { return word.reading.word; });
  Table table(c, {{.title = "No.", .share = 0, .fixed = room_for("No.")},
                  {.title = "Word",
                   .share = 0,
                   .fixed = std::max(34_mm, widest + kAroundText)},
                  {.title = "Sentence", .share = 1, .none = "no sentence"},
                  {.title = "Letter pairs",
                   .share = 0,
                   .fixed = room_for("Letter pairs")}});
  c.blocks().back().space_before = 5_mm;
  const std::vector<InSentence> said = in_sentences(in.lesson, words);
  int all = 0;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const From from(c, words[i].spelling.span);
    const int own = sequences_in(words[i]);
    all += own;
    std::vector<TextPiece> sentence = {{said[i].sentence, text}};
    if (!said[i].alikes.empty()) {
      sentence.push_back({fmt::format(" ({})", said[i].not_these()), text});
    }
    table.add_row({{{fmt::format("{}", i + 1), text}},
                   {{words[i].reading.word, bold}},
                   sentence,
                   {{fmt::format("{}", own), text}}},
                  true);
  }
  add_paragraph(c, text,
                fmt::format("{} words and {} letter pairs. A letter pair is a "
                            "correct letter sequence: two neighbours that are "
                            "right and in order; the start and the end of a "
                            "word count as neighbours.",
                            words.size(), all),
                {.space_before = 3_mm});
}

std::string missing(const SheetInput& in) {
  return dictated_in_packet(in).words.empty() ? "there are no words to dictate"
                                              : "";
}

const SheetKind kKind = {
    .name = "probe-script",
    .title = "Say these words",
    .summary = "how to give a form of a probe, and a sentence for each word",
    .for_teacher = true,
    .missing = missing,
    .compose = compose,
};
const SheetRegistration kRegistration(kKind);

}  // namespace
}  // namespace sheaf::probe_script_sheet
