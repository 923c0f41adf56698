#include "sheets/in_sentence.h"

#include <algorithm>
#include <unordered_map>

#include <fmt/format.h>

#include "base/utf8.h"
#include "phonics/carriers.h"

namespace sheaf {
namespace {

// Whether a word is said in the same way: read is two.
bool is_same(const Reading& a, const Reading& b) {
  return std::ranges::equal(a.units, b.units, {}, &Unit::phonemes,
                            &Unit::phonemes);
}

// Where words stand in the sentences of a lesson. A lesson may have hundreds of
// both, so that each word is not looked for in all of them.
class WordPlaces {
 public:
  // Of a single word only its own places are kept.
  WordPlaces(std::span<const AnalyzedSentence> sentences,
             std::span<const AnalyzedWord> words) {
    for (const AnalyzedSentence& sentence : sentences) {
      for (const auto& part : sentence.words) {
        const Reading& reading = part.word.reading;
        if (words.size() == 1 && !is_same(reading, words[0].reading)) continue;
        places_[lower_case(reading.word)].push_back({&sentence, &reading});
      }
    }
  }

  // Adds the sentences that have the word, the shortest first.
  void add_with(const Reading& word, std::vector<std::string>& found) const {
    const auto places = places_.find(lower_case(word.word));
    if (places == places_.end()) return;
    const auto first = static_cast<std::ptrdiff_t>(found.size());
    const AnalyzedSentence* last = nullptr;
    for (const Place& place : places->second) {
      if (place.sentence == last || !is_same(*place.reading, word)) continue;
      last = place.sentence;
      found.push_back(last->text.text());
    }
    std::stable_sort(found.begin() + first, found.end(),
                     [](const std::string& a, const std::string& b) {
                       return a.size() < b.size();
                     });
  }

 private:
  struct Place {
    const AnalyzedSentence* sentence;
    const Reading* reading;
  };
  std::unordered_map<std::string, std::vector<Place>> places_;
};

// The first that may be said for a word, of those not taken already if there is
// one.
std::string sentence_for(const AnalyzedLesson& lesson, const WordPlaces& read,
                         const WordPlaces& dictated, const Reading& word,
                         const std::vector<std::string>& taken) {
  std::vector<std::string> found;
  read.add_with(word, found);
  dictated.add_with(word, found);
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

InSentence only_alikes(const AnalyzedLesson& lesson, const AnalyzedWord& word) {
  InSentence found;
  found.alikes = lesson.phonics->sound_alikes(word.reading, lesson.conventions);
  return found;
}

std::vector<InSentence> in_sentences(const AnalyzedLesson& lesson,
                                     std::span<const AnalyzedWord> words,
                                     std::vector<std::string> taken) {
  const WordPlaces read(lesson.sentences, words);
  const WordPlaces dictated(lesson.dictate_sentences, words);
  std::vector<InSentence> all;
  for (const AnalyzedWord& word : words) {
    InSentence found = only_alikes(lesson, word);
    found.sentence = sentence_for(lesson, read, dictated, word.reading, taken);
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
