#include "analysis/lesson_size.h"

#include <algorithm>

namespace sheaf {

namespace {

std::size_t words_in(const std::vector<AnalyzedSentence>& sentences) {
  std::size_t words = 0;
  for (const AnalyzedSentence& sentence : sentences) {
    words += sentence.words.size();
  }
  return words;
}

}  // namespace

LessonSize size_of(const AnalyzedLesson& lesson) {
  struct Part {
    std::string_view key;
    std::size_t words;
  };
  const Part parts[] = {
      {"words", lesson.words.size()},
      {"sort-words", lesson.sort_words.size()},
      {"sentences", words_in(lesson.sentences)},
      {"dictate-words", lesson.dictate_words.size()},
      {"dictate-sentences", words_in(lesson.dictate_sentences)},
      {"passage", words_in(lesson.passage.paragraphs) +
                      words_in(lesson.passage.questions)},
  };
  LessonSize size;
  for (const Part& part : parts) size.words += part.words;
  size.longest_key = std::ranges::max_element(parts, {}, &Part::words)->key;
  const auto key = std::ranges::find(lesson.lesson->keys, size.longest_key,
                                     &Spanned<std::string>::value);
  if (key != lesson.lesson->keys.end()) size.longest = key->span;
  return size;
}

}  // namespace sheaf
