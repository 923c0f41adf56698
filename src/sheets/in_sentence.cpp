#include "sheets/in_sentence.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/utf8.h"
#include "phonics/carriers.h"

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

InSentence in_sentence(const AnalyzedLesson& lesson, const AnalyzedWord& word) {
  InSentence found;
  found.alikes = lesson.phonics->sound_alikes(word.reading, lesson.conventions);
  found.sentence = shortest_with(lesson.sentences, word.reading);
  if (found.sentence.empty()) {
    found.sentence = shortest_with(lesson.dictate_sentences, word.reading);
  }
  if (found.sentence.empty()) {
    found.sentence =
        carrier_of(*lesson.phonics, word.reading, lesson.conventions);
  }
  return found;
}

std::vector<InSentence> in_sentences(const AnalyzedLesson& lesson,
                                     std::span<const AnalyzedWord> words) {
  std::vector<InSentence> all;
  for (const AnalyzedWord& word : words) {
    all.push_back(in_sentence(lesson, word));
  }
  return all;
}

HaveSentences have_sentences(std::span<const InSentence> words) {
  const auto count = std::ranges::count_if(
      words, [](const InSentence& one) { return !one.sentence.empty(); });
  if (count == 0) return HaveSentences::none;
  return count == std::ssize(words) ? HaveSentences::all : HaveSentences::some;
}

std::vector<TextPiece> said_pieces(const InSentence& said,
                                   const AnalyzedWord& word,
                                   const TextStyle& plain,
                                   const TextStyle& strong) {
  std::vector<TextPiece> pieces = {{word.reading.word, strong}};
  std::string rest;
  if (!said.alikes.empty()) rest = fmt::format(" ({})", said.not_these());
  if (!said.sentence.empty()) rest += ": " + said.sentence;
  if (!rest.empty()) pieces.push_back({std::move(rest), plain});
  return pieces;
}

}  // namespace sheaf
