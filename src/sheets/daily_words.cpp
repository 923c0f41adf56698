#include "sheets/daily_words.h"

#include <algorithm>

#include "sheets/word_parts.h"

namespace sheaf {

namespace {

constexpr int kFirstSentenceDay = 3;
// More words than this are hard to keep in mind for those who read them this
// week (our judgement).
constexpr std::size_t kLongestSentence = 9;

bool is_dictated(const AnalyzedLesson& lesson, const AnalyzedWord& word) {
  return std::ranges::any_of(lesson.dictate_words,
                             [&](const AnalyzedWord& other) {
                               return other.reading.word == word.reading.word;
                             });
}

// The words in a mixed order, those of the check last: there they are asked for
// once more.
std::vector<const AnalyzedWord*> words_to_practise(
    const AnalyzedLesson& lesson) {
  std::vector<const AnalyzedWord*> words = mixed_words(lesson, "short");
  std::erase_if(words,
                [](const AnalyzedWord* word) { return !word->has_pattern(); });
  std::ranges::stable_partition(words, [&](const AnalyzedWord* word) {
    return !is_dictated(lesson, *word);
  });
  return words;
}

// Short ones among those to read, the shortest first.
std::vector<const AnalyzedSentence*> sentences_to_practise(
    const AnalyzedLesson& lesson) {
  std::vector<const AnalyzedSentence*> sentences;
  for (const AnalyzedSentence& sentence : lesson.sentences) {
    if (sentence.words.size() <= kLongestSentence &&
        sentence.pattern_words() > 0) {
      sentences.push_back(&sentence);
    }
  }
  std::ranges::stable_sort(sentences, {}, [](const AnalyzedSentence* sentence) {
    return sentence->words.size();
  });
  return sentences;
}

}  // namespace

std::vector<DayDictation> short_dictations(const AnalyzedLesson& lesson,
                                           int days, int words_a_day) {
  std::vector<DayDictation> result;
  const auto words = words_to_practise(lesson);
  if (words.empty()) return result;
  const auto sentences = sentences_to_practise(lesson);
  std::size_t next_word = 0, next_sentence = 0;
  for (int day = kFirstDictationDay; day < days; ++day) {
    DayDictation dictation{.day = day};
    for (int i = 0; i < words_a_day; ++i) {
      // A short list begins again, but has no word twice on one day.
      const AnalyzedWord* word = words[next_word % words.size()];
      if (std::ranges::find(dictation.words, word) != dictation.words.end()) {
        break;
      }
      dictation.words.push_back(word);
      ++next_word;
    }
    if (day >= kFirstSentenceDay && next_sentence < sentences.size()) {
      dictation.sentence = sentences[next_sentence++];
    }
    result.push_back(std::move(dictation));
  }
  return result;
}

}  // namespace sheaf
