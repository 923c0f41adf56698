// What is said and done where learners write letters. The steps are common
// practice, no source; the wording is ours.

#include <fmt/format.h>

#include "layout/letter_model.h"
#include "sheets/letters_content.h"
#include "sheets/sheet_scripts.h"

namespace sheaf::letters_sheet {

ScriptLines script(const SheetInput& in, const DayStep& step) {
  if (step.turn > 0) return {{Lead::act, sheet_script::as_on(in, step)}};
  ScriptLines lines = {
      {Lead::show,
       "the first letter: write it large on the board and say what the pencil "
       "does. Learners write it in the air with a straight arm and say it "
       "with you."}};
  std::string told;
  for (const std::string& row : rows_of(in)) {
    for (const char c : letters_in(row)) {
      if (told.find(c) != std::string::npos) continue;
      told += c;
      lines.push_back(
          {Lead::say, fmt::format("{}: “{}.”", heard_row(std::string(1, c)),
                                  strokes_in_words(c))});
    }
  }
  lines.push_back(
      {Lead::act,
       "Learners follow the model with a finger, from the black dot along the "
       "arrows, in the order of the numbers. Then they go over the dotted "
       "letters, saying the movement, and write on alone."});
  if (in.options.choice("hand") != "right") {
    lines.push_back({Lead::act,
                     "Left hand: turn the sheet a little to the right, and "
                     "copy from the letter at the right, which the hand does "
                     "not cover."});
  }
  lines.push_back({Lead::wait,
                   "the pencil on the starting dot before it moves. A letter "
                   "begun elsewhere is begun again; do not rub out."});
  lines.push_back({Lead::done_when,
                   "the last letter of each row was written alone, begun at "
                   "its dot and standing on the line. The learner rings the "
                   "best one."});
  return lines;
}

}  // namespace sheaf::letters_sheet
