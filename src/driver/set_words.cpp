#include "driver/set_words.h"

#include <algorithm>

#include "base/utf8.h"

namespace sheaf {

namespace {

constexpr std::size_t kMostLettersOfPlain = 7;
constexpr std::size_t kMostLetters = 9;
constexpr std::size_t kCandidates = 30;

}  // namespace

const std::vector<std::string>& SetWords::fresh(PatternId pattern) {
  if (!searched_) find();
  return fresh_[pattern];
}

std::vector<std::string> SetWords::practised(PatternId pattern) const {
  const auto known = set_.practised.find(pattern);
  if (known == set_.practised.end()) return {};
  std::vector<std::string> words;
  for (const std::string& word : known->second) {
    if (may_be_asked(word)) words.push_back(word);
  }
  return words;
}

bool SetWords::may_be_asked(const std::string& word) const {
  if (!set_.taught.known() || set_.taught.is_sight_word(word)) return true;
  return is_readable(phonics_.read(word, set_.spoken).front());
}

// All patterns in one walk through the word list.
void SetWords::find() {
  searched_ = true;
  for (const PatternId pattern : set_.recorded) found_[pattern];
  phonics_.each_word(Phonics::kCommonList, set_.spoken,
                     [&](const Reading& reading, const WordInfo& word) {
                       if (!word.name && is_new(reading.word)) sort_in(reading);
                       return true;
                     });
  for (auto& [pattern, words] : found_) {
    std::vector<std::string>& all = fresh_[pattern];
    all = std::move(words.plain);
    std::ranges::move(words.others, std::back_inserter(all));
    if (all.size() > kCandidates) all.resize(kCandidates);
  }
}

void SetWords::sort_in(const Reading& reading) {
  for (const PatternPlace& place : reading.places) {
    const auto found = found_.find(place.pattern);
    if (found == found_.end() || place.later) continue;
    std::vector<std::string>& words =
        is_plain(reading) ? found->second.plain : found->second.others;
    if (words.size() < kCandidates && is_readable(reading)) {
      words.push_back(reading.word);
    }
  }
}

bool SetWords::is_new(const std::string& word) const {
  return word.size() <= kMostLetters && !set_.met.contains(lower_case(word)) &&
         !BlockList::shipped().blocks(word) && !own_list_.blocks(word);
}

bool SetWords::is_plain(const Reading& reading) const {
  const std::string& word = reading.word;
  const bool with_ending =
      word.ends_with('s') && phonics_.knows(word.substr(0, word.size() - 1));
  return word.size() <= kMostLettersOfPlain && !with_ending &&
         reading.units.back().syllable == 0;
}

bool SetWords::is_readable(const Reading& reading) const {
  for (std::size_t i = 0; i < reading.units.size(); ++i) {
    if (!is_readable_unit(reading, i)) return false;
  }
  return !reading.units.empty();
}

bool SetWords::is_readable_unit(const Reading& reading,
                                std::size_t index) const {
  const Unit& unit = reading.units[index];
  if (unit.irregular) return false;
  if (is_recorded(unit)) return true;
  if (set_.taught.known()) return set_.taught.is_taught(reading, index);
  const bool vowel = is_vowel(unit.phonemes.front());
  if (unit.grapheme.size() == 1 && !unit.is_split()) {
    return !vowel || is_short_vowel(unit);
  }
  return unit.grapheme.size() == 2 && unit.grapheme[0] == unit.grapheme[1] &&
         !vowel;
}

bool SetWords::is_short_vowel(const Unit& unit) const {
  return std::ranges::any_of(
      phonics_.patterns().all(), [&](const Pattern& pattern) {
        return pattern.short_vowel &&
               std::ranges::any_of(pattern.teaches, [&](const TaughtUnit& t) {
                 return t.covers(unit);
               });
      });
}

bool SetWords::is_recorded(const Unit& unit) const {
  return std::ranges::any_of(set_.recorded, [&](PatternId id) {
    return std::ranges::any_of(
        phonics_.patterns()[id].teaches,
        [&](const TaughtUnit& taught) { return taught.covers(unit); });
  });
}

}  // namespace sheaf
