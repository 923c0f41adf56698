// The steps are common practice, no source; the wording is ours.

#include "sheets/word_parts_script.h"

#include <fmt/format.h>

#include <algorithm>

#include "layout/numbered_steps.h"
#include "sheets/common_options.h"
#include "sheets/word_parts_content.h"

namespace sheaf {
namespace {

using namespace literals;
using Steps = std::vector<std::string>;

// The change as something that is done.
std::string_view what_is_done(Joint joint) {
  switch (joint) {
    case Joint::doubled:
      return "the last letter is doubled";
    case Joint::dropped_e:
      return "the e is dropped";
    case Joint::y_to_i:
      return "the y turns to i";
    default:
      return "nothing changes";
  }
}

void add_sum_steps(const WordParts& content, bool has_model, Steps& steps) {
  if (!content.asked.empty()) {
    const Built& b = content.asked.front();
    steps.push_back(fmt::format(
        "Show {} + {}. Cover the ending: “Which word is this? What does it end "
        "in?” Uncover it: “What does the ending begin with?”",
        b.parts.base, ending_text(b.parts.ending)));
    steps.push_back(fmt::format(
        "Tick together, line by line: a line with two ticks says what to do. "
        "In {}, {}. Write the word, then read it and listen to the vowel.",
        b.word->reading.word, what_is_done(b.parts.joint)));
    steps.emplace_back(
        has_model
            ? "The first word is done on the sheet, in the second the base is "
              "ticked. From the third on, learners ask and tick alone and say "
              "the change before they write."
            : "Learners ask and tick by themselves, and say the change before "
              "they write.");
    steps.emplace_back(
        "It is done when a learner says for a new word what changes, and why, "
        "without the ticks. A wrong word: go back to the line, not to the "
        "spelling.");
  }
  if (!content.own_way.empty()) {
    steps.emplace_back(
        "Some words go their own way: say each, show how it is spelled, and "
        "let learners say what is unlike the rule. The key names it.");
  }
}

void add_meaning_steps(const WordParts& content, Steps& steps) {
  if (content.prefixed.empty()) return;
  const Prefixed& p = content.prefixed.front();
  steps.push_back(fmt::format(
      "Write {}. Cover {}: “Which word is left?” ({}) Uncover it: “What do "
      "both say together?” ({})",
      p.word->reading.word, p.parts.prefix, p.parts.base, p.parts.meaning));
  steps.emplace_back(
      "Learners read each word and each meaning aloud, then join the two with "
      "a line. Ask: “Which part says that?”");
  steps.emplace_back(
      "They put prefix and base together and write the word. Both keep their "
      "letters, even where two alike meet.");
  steps.emplace_back(
      "It is done when a learner says what a new word with the prefix means, "
      "and uses it in a sentence.");
  if (!content.unexplained.empty()) {
    steps.push_back(fmt::format(
        "{} is not among the meanings: what it means is not what its parts "
        "say. Tell learners so.",
        content.unexplained.front()->reading.word));
  }
}

}  // namespace

void add_word_parts_steps(const SheetInput& in, Composer& c) {
  const auto sheet = std::ranges::find_if(in.packet, [](const PlannedSheet& s) {
    return s.kind->name == "word-parts";
  });
  if (sheet == in.packet.end()) return;
  const WordParts content =
      word_parts_of({in.lesson, sheet->options, in.pictures, in.memory, {}});
  Steps steps;
  add_sum_steps(content, is_model_asked(sheet->options, content.asked.size()),
                steps);
  add_meaning_steps(content, steps);
  if (!content.divided.empty()) {
    steps.emplace_back(
        "Long words: say each beat, then the word. Learners write it whole, "
        "saying the beats.");
  }
  if (!content.irregular.empty()) {
    steps.emplace_back(
        "Words with an underlined part: say what is heard there and what is "
        "written. "
        "Learners write the word and look at that part again.");
  }
  if (steps.empty()) return;
  add_subheading(c, c.style().teacher_size, "Parts of words", 4_mm);
  add_numbered_steps(c, c.style().teacher_text(), steps);
}

}  // namespace sheaf
