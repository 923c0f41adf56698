#include "planning/key_word_choice.h"

#include <algorithm>
#include <limits>
#include <tuple>
#include <vector>

#include "phonics/key_word_fit.h"
#include "phonics/phoneme.h"
#include "phonics/word_meanings.h"

namespace sheaf {

namespace {

// What a teacher may have in mind for a pattern comes early in the search.
constexpr std::size_t kKeyCandidates = 80;
// Behind that many sounds a word is long to say and to point at.
constexpr int kEasySounds = 4;

// Whether a consonant that the pattern is about has its place to itself: at the
// front or the end, with no other consonant beside it (queen, not square; face,
// not fence). Vowels are heard wherever they stand.
bool is_heard_well(const FoundWord& word, const Pattern& pattern,
                   PatternId id) {
  const PatternPlace* place = word.reading->find(id);
  if (!pattern.of_units || place == nullptr || place->units.empty()) {
    return true;
  }
  const std::vector<Unit>& units = word.reading->units;
  const auto is_consonant = [&](std::size_t unit) {
    return !is_vowel(units[unit].phonemes.front());
  };
  const std::size_t first = place->units.front();
  const std::size_t last = place->units.back();
  if (!is_consonant(first)) return true;
  return word.place != PatternWord::Place::middle &&
         (first == 0 || !is_consonant(first - 1)) &&
         (last + 1 >= units.size() || !is_consonant(last + 1));
}

}  // namespace

KeyWordChoice choose_key_word(const SearchGround& source,
                              const WordQuery& query) {
  std::vector<FoundWord> words = candidates(source, query, kKeyCandidates);
  std::erase_if(words, [](const FoundWord& word) {
    return word.older || word.fit == ContrastFit::breaks ||
           !may_be_key_word(word.reading->word);
  });
  // A base before its forms, unless the pattern is about an ending.
  const auto is_form = [](const FoundWord& word) { return !word.base.empty(); };
  if (!std::ranges::all_of(words, is_form)) std::erase_if(words, is_form);
  int fewest = std::numeric_limits<int>::max();
  for (const FoundWord& word : words) {
    fewest = std::min(fewest, word.reading->syllables());
  }
  const WordMeanings& meanings = source.phonics.meanings();
  const Pattern& pattern = source.phonics.patterns()[query.pattern];
  // The best least; of equals the earlier one, which children know sooner.
  const auto rank = [&](const FoundWord& word) {
    const std::string& text = word.reading->word;
    const auto sounds = static_cast<int>(word.reading->sounds.size());
    return std::tuple(word.reading->syllables() > fewest, word.later,
                      !is_heard_well(word, pattern, query.pattern),
                      !word.picture,
                      !meanings.can_be(text, WordKind::noun, Ending::none),
                      text != pattern.example, !word.info.first,
                      std::max(sounds, kEasySounds), word.info.also_name);
  };
  const auto best = std::ranges::min_element(words, {}, rank);
  if (best == words.end()) return {};
  return {best->reading->word, best->picture};
}

}  // namespace sheaf
