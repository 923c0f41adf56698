#include "sheets/script_passage.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/capitals.h"
#include "base/utf8.h"
#include "layout/numbered_steps.h"
#include "layout/text_block.h"
#include "sheets/word_parts.h"

namespace sheaf {

namespace {

using namespace literals;

const PlannedSheet* passage_sheet_of(const SheetInput& in) {
  const auto found = std::ranges::find_if(
      in.packet,
      [](const PlannedSheet& sheet) { return sheet.kind->name == "passage"; });
  return found == in.packet.end() ? nullptr : &*found;
}

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
  std::string text =
      passage.questions.size() == 1 ? "Ask:" : "Ask, one by one:";
  for (const AnalyzedSentence& question : passage.questions) {
    text += fmt::format(" “{}”", question.text.text());
  }
  text +=
      " Learners answer aloud and, where the text says it, put a finger on the "
      "place.";
  if (to_write) text += " Then they write.";
  return text;
}

}  // namespace

void add_passage_steps(const SheetInput& in, Composer& composer) {
  const PlannedSheet* sheet = passage_sheet_of(in);
  if (sheet == nullptr) return;
  const AnalyzedPassage& passage = in.lesson.passage;
  const std::string& title = passage.title.text();
  std::vector<std::string> steps;
  steps.push_back(
      title.empty()
          ? "Show the text. “What may it be about?” Take every guess."
          : fmt::format("Show only the title, “{}”, and read it together. "
                        "“What may it be about?” Take every guess.",
                        title));
  if (const auto words = words_to_tell(in.lesson); !words.empty()) {
    steps.push_back(
        fmt::format("{}: {}.",
                    words.size() == 1
                        ? "This word was not taught yet, so say it first"
                        : "These words were not taught yet, so say them first",
                    fmt::join(words, ", ")));
  }
  steps.push_back(
      "Learners read it aloud, a finger under each word. Where that is still "
      "hard, you read it to them once first. When a word does not come: “Say "
      "its sounds. Now say them together.” If it still does not come, say it "
      "yourself and go on. At the end: “Did we guess right?”");
  if (sheet->options.flag("word-count")) {
    steps.push_back(
        "To count the words of a minute, one learner reads to you alone. Set "
        "the timer, and put a stroke behind the last word after a minute. "
        "The number at a line's end says how many words there are up to "
        "there, without the title; take off those that were misread. Set the "
        "result beside the same learner's other readings of this text, never "
        "beside another learner's. It describes this text only and diagnoses "
        "nothing.");
  }
  if (!passage.questions.empty()) {
    steps.push_back(
        ask_questions(passage, sheet->options.count("answer-lines") > 0));
  }
  if (const int words = passage.pattern_words(); words > 0) {
    steps.push_back(fmt::format(
        "“Find the words with our sound.” Learners go through the text line "
        "by line, say each word they find and {}. There {}, repeats "
        "counted; the key marks them.",
        sheet->options.count("find") > 0 ? "mark or write it" : "mark it",
        words == 1 ? "is 1" : fmt::format("are {}", words)));
  }
  if (sheet->options.count("readings") > 0) {
    steps.push_back(
        "Learners tick a ring each time they read it again, today or later.");
  }
  add_subheading(composer, composer.style().teacher_size, "The passage", 4_mm);
  add_numbered_steps(composer, composer.style().teacher_text(), steps);
}

}  // namespace sheaf
