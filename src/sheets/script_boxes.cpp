// What is said and done with sound boxes, and what each box holds.

#include <fmt/format.h>

#include "layout/table.h"
#include "sheets/box_words.h"
#include "sheets/sheet_scripts.h"
#include "sheets/word_parts.h"

namespace sheaf::sheet_script {

namespace {

using namespace literals;

// The words of one day, in the order of the sheet.
TurnShare rows_of(const SheetInput& in, const DayStep& step) {
  return turn_share(box_words(in, in.options).size(), step.turn, step.turns);
}

}  // namespace

std::string share_of_boxes(const SheetInput& in, const DayStep& step) {
  const TurnShare rows = rows_of(in, step);
  if (step.turns < 2 || rows.count == 0) return "";
  if (rows.count == 1) return fmt::format("word {}", rows.first + 1);
  return fmt::format("words {} to {}", rows.first + 1, rows.first + rows.count);
}

ScriptLines sound_boxes(const SheetInput& in, const DayStep& step) {
  ScriptLines lines;
  const auto words = box_words(in, in.options);
  const TurnShare rows = rows_of(in, step);
  std::string text;
  bool any_heard = false;
  for (std::size_t i = rows.first; i < rows.first + rows.count; ++i) {
    text += fmt::format("{}{}. {}", text.empty() ? "" : "; ", i + 1,
                        words[i]->reading.word);
    any_heard = any_heard || is_box_word_heard(in, in.options, *words[i]);
  }
  if (!text.empty()) {
    lines.push_back(
        {Lead::say, fmt::format("{}{}", text,
                                any_heard ? ". Where an ear stands, "
                                            "learners have only your "
                                            "voice."
                                          : ".")});
  }
  const bool has_model =
      step.turn == 0 && has_box_model(in.options, words.size());
  if (has_model) {
    lines.push_back({Lead::show,
                     "word 1, which is done on the sheet: tap its dots, say "
                     "its sounds, sweep and say the word."});
  }
  for (ScriptLine& line : tapping(in, step)) {
    // What is done on the sheet already shows how.
    if (has_model && line.lead == Lead::show) continue;
    lines.push_back(std::move(line));
  }
  return lines;
}

void sound_boxes_extra(const SheetInput& in, Composer& c) {
  Table table(c,
              {{.title = "No.", .share = 0, .fixed = 12_mm, .heard = "Number"},
               {"Word", 2},
               {"Graphemes", 3},
               {"Sounds", 3},
               {"Boxes", 1}});
  const TextStyle text = c.style().teacher_text();
  int number = 0;
  for (const AnalyzedWord* word : box_words(in, in.options)) {
    const From from(c, word->spelling.span);
    table.add_row({{{fmt::format("{}", ++number), text}},
                   {{word->reading.word, text}},
                   {spelled_piece(*word, text)},
                   {{sounds_of(in.lesson, *word), text}},
                   {{fmt::format("{}", word->reading.boxes()), text}}},
                  true);
  }
}

}  // namespace sheaf::sheet_script
