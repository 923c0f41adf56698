// The steps are common practice, no source; the wording is ours.

#include "sheets/sheet_scripts.h"

#include <fmt/format.h>

#include "sheets/common_options.h"
#include "sheets/word_parts_content.h"

namespace sheaf::sheet_script {
namespace {

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

void add_sum_lines(const WordParts& content, bool has_model,
                   ScriptLines& lines) {
  if (!content.asked.empty()) {
    const Built& b = content.asked.front();
    lines.push_back(
        {Lead::show, fmt::format("{} + {}. Cover the ending.", b.parts.base,
                                 ending_text(b.parts.ending))});
    lines.push_back({Lead::say,
                     "“Which word is this? What does it end in?” Uncover it: "
                     "“What does the ending begin with?”"});
    lines.push_back(
        {Lead::act,
         fmt::format("Tick together, line by line: a line with two ticks says "
                     "what to do. In {}, {}. Write the word, then read it and "
                     "listen to the vowel.",
                     b.word->reading.word, what_is_done(b.parts.joint))});
    lines.push_back(
        {Lead::act,
         has_model
             ? "The first word is done on the sheet, in the second the base is "
               "ticked. From the third on, learners ask and tick alone and say "
               "the change before they write."
             : "Learners ask and tick by themselves, and say the change before "
               "they write."});
    lines.push_back({Lead::wait,
                     "the change said aloud before it is written. "
                     "A wrong word: go back to the line, not to "
                     "the spelling."});
  }
  if (!content.own_way.empty()) {
    lines.push_back({Lead::act,
                     "Some words go their own way: say each, show how it is "
                     "spelled, and let learners say what is unlike the rule. "
                     "The key names it."});
  }
}

void add_meaning_lines(const WordParts& content, ScriptLines& lines) {
  if (content.prefixed.empty()) return;
  const Prefixed& p = content.prefixed.front();
  lines.push_back(
      {Lead::show,
       fmt::format("{}. Cover {}.", p.word->reading.word, p.parts.prefix)});
  lines.push_back(
      {Lead::say,
       fmt::format("“Which word is left?” ({}) Uncover it: “What do both say "
                   "together?” ({})",
                   p.parts.base, p.parts.meaning)});
  lines.push_back({Lead::act,
                   "Learners read each word and each meaning aloud, then join "
                   "the two with a line. They put prefix and base together and "
                   "write the word. Both keep their letters, even where two "
                   "alike meet."});
  lines.push_back({Lead::wait,
                   "a meaning in the learner’s own words. “Which "
                   "part says that?”"});
  if (!content.unexplained.empty()) {
    lines.push_back(
        {Lead::say,
         fmt::format("that {} is not among the meanings: what it means is not "
                     "what its parts say.",
                     content.unexplained.front()->reading.word)});
  }
}

}  // namespace

ScriptLines word_parts(const SheetInput& in, const DayStep&) {
  const WordParts content = word_parts_of(in);
  ScriptLines lines;
  add_sum_lines(content, is_model_asked(in.options, content.asked.size()),
                lines);
  add_meaning_lines(content, lines);
  const bool only_these = lines.empty();
  if (!content.divided.empty()) {
    lines.push_back({Lead::say,
                     "each long word in its beats, then whole. "
                     "Learners say it after you."});
    lines.push_back({Lead::act, "They write it whole, saying the beats."});
  }
  if (!content.irregular.empty()) {
    lines.push_back({Lead::say,
                     "of the words with an underlined part what is heard "
                     "there, and what is written."});
    lines.push_back({Lead::act,
                     "Learners write the word and look at that part "
                     "again."});
  }
  if (only_these) {
    lines.push_back({Lead::wait, "the word said aloud before it is written."});
  }
  const bool asked = !content.asked.empty();
  lines.push_back(
      {Lead::done_when,
       asked ? "a learner says for a new word what changes, and why, without "
               "the ticks."
       : !content.prefixed.empty()
           ? "a learner says what a new word with the prefix means, and uses "
             "it in a sentence."
           : "each word was said in its parts and written whole."});
  return lines;
}

}  // namespace sheaf::sheet_script
