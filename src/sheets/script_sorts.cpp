// What is said and done in the sorts, by ear and by eye.

#include <fmt/format.h>

#include <algorithm>

#include "sheets/ed_sort.h"
#include "sheets/sheet_scripts.h"

namespace sheaf::sheet_script {

namespace {

// -ed is sorted by ear: all of it is spelled alike.
ScriptLines ed_sort(const SheetInput& in,
                    const std::vector<EdColumn>& columns) {
  ScriptLines lines = {
      {Lead::show, "the cards, one by one."},
      {Lead::say,
       "each word once. Learners say it after you, then the ending "
       "by itself."},
      {Lead::act,
       "Show a hand laid on the throat: it hums where a sound has "
       "voice. Do one word of each column aloud: “I say it. I "
       "listen to the sound before the ending. It belongs here, "
       "because …”"}};
  for (const EdColumn& column : columns) {
    lines.push_back(
        {Lead::say,
         fmt::format("{} is for -ed {}: {} ({}).", column.sound, column.reason,
                     column.words.front()->reading.word,
                     sound_before_ed(in.lesson, *column.words.front()))});
  }
  lines.push_back({Lead::act,
                   "Learners lay the rest, saying each word, and "
                   "read each column down. Ask: “How is the ending "
                   "spelled in this column? And in that one?”"});
  lines.push_back({Lead::wait,
                   "the word said aloud before it is laid. “Which "
                   "sound comes before the ending? Does it hum?”"});
  lines.push_back({Lead::done_when,
                   "learners say that all are spelled ed, whatever is heard, "
                   "and can lay a new word by its sound."});
  return lines;
}

}  // namespace

ScriptLines picture_sort(const SheetInput&, const DayStep&) {
  return {{Lead::show,
           "every picture, before anything is sorted. Name it; "
           "learners say it after you. A picture that they call by "
           "another word gets the word that you need."},
          {Lead::say,
           "of the first for each column: “I say it slowly. I hear "
           "our sound, so it lies here. In this one I do not.”"},
          {Lead::act,
           "Learners say each word slowly, listen, and lay it. No "
           "letters yet: the ear decides. Then say each column down."},
          {Lead::wait,
           "the word said aloud before it is laid. If they doubt: “Say "
           "it again. Hold our sound. Is it there?”"},
          {Lead::done_when,
           "every picture lies as in the key, and learners find "
           "by ear the one that you say on purpose in the wrong "
           "column."}};
}

ScriptLines word_sort(const SheetInput& in, const DayStep&) {
  if (const auto columns = ed_columns(in.lesson); columns.size() > 1) {
    return ed_sort(in, columns);
  }
  std::string done =
      "every word lies as in the key, and learners say in their "
      "own words what each column shares.";
  if (const auto told = what_is_told(in); !told.empty()) {
    done += fmt::format(" What to listen for: “{}”", fmt::join(told, " "));
  }
  return {{Lead::show,
           "the cards. Say every word once; learners say it after "
           "you."},
          {Lead::say,
           "of the first two: “I say it. I look for what we found. It "
           "belongs here, because …”"},
          {Lead::act,
           "Learners lay the rest, saying each word. Read each column "
           "down. Then gather the cards, deal them round the table, and "
           "lay them once more, each learner saying why."},
          {Lead::wait,
           "the word said aloud before it is laid. Ask now and then: "
           "“How do you know?”"},
          {Lead::done_when, done}};
}

}  // namespace sheaf::sheet_script
