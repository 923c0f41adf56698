#include "sheets/our_sound.h"
#include "sheets/sheet_scripts.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/capitals.h"
#include "base/utf8.h"

namespace sheaf::sheet_script {

namespace {

// The words that cannot be read yet, each once.
std::vector<std::string> words_to_tell(const AnalyzedLesson& lesson) {
  std::vector<std::string> words;
  for (const auto* texts :
       {&lesson.passage.paragraphs, &lesson.passage.questions}) {
    for (const AnalyzedSentence& text : *texts) {
      for (const AnalyzedSentence::Part& part : text.words) {
        if (part.sight_word ||
            part.word.standing.kind != WordStanding::Kind::not_yet) {
          continue;
        }
        std::string word = part.word.reading.word;
        if (is_common_word(word, *lesson.phonics)) word = lower_case(word);
        if (std::ranges::find(words, word) == words.end()) {
          words.push_back(std::move(word));
        }
      }
    }
  }
  return words;
}

std::string ask_questions(const AnalyzedPassage& passage, bool to_write) {
  std::string text = passage.questions.size() == 1 ? "" : "one by one:";
  for (const AnalyzedSentence& question : passage.questions) {
    text +=
        fmt::format("{}“{}”", text.empty() ? "" : " ", question.text.text());
  }
  text +=
      " Learners answer aloud and, where the text says it, put a finger on the "
      "place.";
  if (to_write) text += " Then they write.";
  return text;
}

// The first time it is read for what it tells.
void add_first_reading(const SheetInput& in, ScriptLines& lines) {
  const std::string& title = in.lesson.passage.title.text();
  lines.push_back(
      {Lead::show,
       title.empty()
           ? "the text, from afar."
           : fmt::format("only the title, “{}”. Read it together.", title)});
  lines.push_back({Lead::say, "“What may it be about?” Take every guess."});
  if (const auto words = words_to_tell(in.lesson); !words.empty()) {
    lines.push_back(
        {Lead::say,
         fmt::format("{}: {}.",
                     words.size() == 1
                         ? "this word first, since it was not taught yet"
                         : "these words first, since they were not taught yet",
                     fmt::join(words, ", "))});
  }
  lines.push_back({Lead::act,
                   "Learners read it aloud, a finger under each word. Where "
                   "that is still hard, you read it to them once first. At the "
                   "end: “Did we guess right?”"});
  lines.push_back({Lead::wait,
                   "three seconds at a word. “Say its sounds. Now say them "
                   "together.” If it still does not come, say it yourself and "
                   "go on."});
}

void add_questions(const SheetInput& in, ScriptLines& lines) {
  const AnalyzedPassage& passage = in.lesson.passage;
  if (!passage.questions.empty()) {
    lines.push_back(
        {Lead::say,
         ask_questions(passage, in.options.count("answer-lines") > 0)});
  }
  if (const int words = passage.pattern_words(); words > 0) {
    lines.push_back(
        {Lead::say,
         fmt::format(
             "“Find the words with {}.” Learners go through the "
             "text line by line, say each word they find and {}. "
             "There {}, repeats counted; the key marks them.",
             our_sound(in.lesson),
             in.options.count("find") > 0 ? "mark or write it" : "mark it",
             words == 1 ? "is 1" : fmt::format("are {}", words))});
  }
}

}  // namespace

std::string share_of_passage(const SheetInput&, const DayStep& step) {
  if (step.turns < 2) return "";
  return step.turn == 0   ? "read it"
         : step.turn == 1 ? "read, talk, find"
                          : "read again";
}

ScriptLines passage(const SheetInput& in, const DayStep& step) {
  ScriptLines lines;
  const bool first = step.turn == 0;
  const bool second = step.turn == 1 || step.turns < 2;
  if (first) add_first_reading(in, lines);
  if (second) {
    if (!first) {
      lines.push_back({Lead::act,
                       "Learners read the text again, to you or to "
                       "a partner."});
    }
    add_questions(in, lines);
    if (!first) {
      lines.push_back({Lead::wait,
                       "an answer in a whole sentence. “Where does "
                       "it say so?”"});
    }
  }
  if (!first && !second) {
    lines.push_back({Lead::act,
                     "Learners read the text aloud, as they would "
                     "tell it to somebody."});
  }
  if (in.options.flag("word-count") && (second || !first)) {
    lines.push_back(
        {Lead::act,
         "To count the words of a minute, one learner reads to you alone. Set "
         "the timer, and put a stroke behind the last word after a minute. "
         "The number at a line's end says how many words there are up to "
         "there, without the title; take off those that were misread. Set the "
         "result beside the same learner's other readings of this text, never "
         "beside another learner's. It describes this text only and diagnoses "
         "nothing."});
  }
  lines.push_back(
      {Lead::done_when,
       fmt::format("{}{}.",
                   second && !in.lesson.passage.questions.empty()
                       ? "the questions are answered and the text was read "
                         "through"
                       : "the text was read through once",
                   in.options.count("readings") > 0
                       ? "; learners tick a ring for each time"
                       : "")});
  return lines;
}

}  // namespace sheaf::sheet_script
