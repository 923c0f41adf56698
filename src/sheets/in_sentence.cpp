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

// Sentences that have the word, the shortest first.
void add_with(std::span<const AnalyzedSentence> sentences, const Reading& word,
              std::vector<std::string>& found) {
  const auto first = static_cast<std::ptrdiff_t>(found.size());
  for (const AnalyzedSentence& sentence : sentences) {
    const bool has = std::ranges::any_of(sentence.words, [&](const auto& part) {
      return is_same(part.word.reading, word);
    });
    if (has) found.push_back(sentence.text.text());
  }
  std::stable_sort(found.begin() + first, found.end(),
                   [](const std::string& a, const std::string& b) {
                     return a.size() < b.size();
                   });
}

// The first that may be said for a word, of those not taken already if there is
// one.
std::string sentence_for(const AnalyzedLesson& lesson, const Reading& word,
                         const std::vector<std::string>& taken) {
  std::vector<std::string> found;
  add_with(lesson.sentences, word, found);
  add_with(lesson.dictate_sentences, word, found);
  std::string carrier(carrier_of(*lesson.phonics, word, lesson.conventions));
  if (!carrier.empty()) found.push_back(std::move(carrier));
  const auto free = std::ranges::find_if(found, [&](const std::string& text) {
    return std::ranges::find(taken, text) == taken.end();
  });
  if (free != found.end()) return *free;
  return found.empty() ? "" : found.front();
}

}  // namespace

std::string InSentence::not_these() const {
  return alikes.size() == 1 ? fmt::format("not {}", alikes[0])
                            : fmt::format("not {} or {}", alikes[0], alikes[1]);
}

InSentence in_sentence(const AnalyzedLesson& lesson, const AnalyzedWord& word) {
  return in_sentences(lesson, std::span(&word, 1)).front();
}

std::vector<InSentence> in_sentences(const AnalyzedLesson& lesson,
                                     std::span<const AnalyzedWord> words,
                                     std::vector<std::string> taken) {
  std::vector<InSentence> all;
  for (const AnalyzedWord& word : words) {
    InSentence found;
    found.alikes =
        lesson.phonics->sound_alikes(word.reading, lesson.conventions);
    found.sentence = sentence_for(lesson, word.reading, taken);
    if (!found.sentence.empty()) taken.push_back(found.sentence);
    all.push_back(std::move(found));
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
