#include "sheets/in_sentence.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/utf8.h"

namespace sheaf {
namespace {

// The same word, said in the same way: read is two. Most words differ in their
// sounds already.
bool is_same(const Reading& a, const Reading& b) {
  return std::ranges::equal(a.units, b.units, {}, &Unit::phonemes,
                            &Unit::phonemes) &&
         lower_case(a.word) == lower_case(b.word);
}

std::string shortest_with(std::span<const AnalyzedSentence> sentences,
                          const Reading& word) {
  std::string found;
  for (const AnalyzedSentence& sentence : sentences) {
    const bool has = std::ranges::any_of(sentence.words, [&](const auto& part) {
      return is_same(part.word.reading, word);
    });
    if (!has) continue;
    const std::string text = sentence.text.text();
    if (found.empty() || text.size() < found.size()) found = text;
  }
  return found;
}

}  // namespace

std::string InSentence::not_these() const {
  return alikes.size() == 1 ? fmt::format("not {}", alikes[0])
                            : fmt::format("not {} or {}", alikes[0], alikes[1]);
}

std::optional<InSentence> in_sentence(const AnalyzedLesson& lesson,
                                      const AnalyzedWord& word) {
  InSentence found;
  found.alikes = lesson.phonics->sound_alikes(word.reading, lesson.conventions);
  if (found.alikes.empty()) return std::nullopt;
  found.sentence = shortest_with(lesson.sentences, word.reading);
  if (found.sentence.empty()) {
    found.sentence = shortest_with(lesson.dictate_sentences, word.reading);
  }
  return found;
}

std::string said_in_sentences(const AnalyzedLesson& lesson,
                              std::span<const AnalyzedWord> words) {
  std::string text;
  for (const AnalyzedWord& word : words) {
    const auto said = in_sentence(lesson, word);
    if (!said) continue;
    text += fmt::format(
        "{}{} ({})", text.empty() ? "" : ", ", word.reading.word,
        said->sentence.empty() ? said->not_these()
                               : fmt::format("“{}”", said->sentence));
  }
  return text;
}

}  // namespace sheaf
