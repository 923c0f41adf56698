#include "planning/sound_groups.h"

#include <algorithm>
#include <string>
#include <string_view>

#include "phonics/lexicon.h"

namespace sheaf {

namespace {

// How many words must have a group. Ours: it takes out the ends of sixth,
// fifth, width and lens, and the beginning of sphere.
constexpr int kOnsetWords = 3;
constexpr int kCodaWords = 4;

// An ending makes ends that no base has.
bool may_be_inflected(std::string_view word) {
  return (word.ends_with('s') && !word.ends_with("ss")) || word.ends_with("ed");
}

}  // namespace

SoundGroups::SoundGroups(const Phonics& phonics) {
  const Lexicon& lexicon = phonics.lexicon();
  std::string last;
  lexicon.each([&](const WordRecord& record) {
    if (!record.everyday &&
        (record.tier == 0 || record.tier > Phonics::kCommonList)) {
      return false;
    }
    if (record.name || record.spelling == last ||
        may_be_inflected(record.spelling) ||
        syllable_count(record.segments, lexicon.inventory()) != 1) {
      return true;
    }
    last = record.spelling;
    const Parts parts =
        parts_of(phonemes_of(record.segments, lexicon.inventory()));
    ++onsets_[parts.onset];
    ++codas_[parts.coda];
    ++repeated_[repeated(parts)];
    return true;
  });
}

SoundGroups::Parts SoundGroups::parts_of(std::span<const Phoneme> sounds) {
  Parts parts;
  for (const Phoneme p : sounds) {
    if (is_vowel(p)) {
      parts.has_vowel = true;
      // What a vowel of two sounds is said with: r-coloured ones end in r.
      if (p == Phoneme::er) parts.coda.push_back(Phoneme::r);
    } else if (parts.has_vowel) {
      parts.coda.push_back(p);
    } else if (p != Phoneme::y || parts.onset.empty()) {
      // Behind a consonant /y/ belongs to the vowel (cube, few).
      parts.onset.push_back(p);
    }
  }
  return parts;
}

// The consonant that stands next to the vowel on both of its sides, behind
// another one; a vowel where there is none.
Phoneme SoundGroups::repeated(const Parts& parts) {
  const bool twice = parts.onset.size() > 1 && !parts.coda.empty() &&
                     parts.onset.back() == parts.coda.front();
  return twice ? parts.onset.back() : Phoneme::ax;
}

bool SoundGroups::is_english(std::span<const Phoneme> sounds) const {
  const auto often = [](const auto& counts, const auto& key, int least) {
    const auto found = counts.find(key);
    return found != counts.end() && found->second >= least;
  };
  const Parts parts = parts_of(sounds);
  if (!parts.has_vowel) return false;
  const Phoneme twice = repeated(parts);
  return (parts.onset.empty() || often(onsets_, parts.onset, kOnsetWords)) &&
         (parts.coda.empty() || often(codas_, parts.coda, kCodaWords)) &&
         (is_vowel(twice) || often(repeated_, twice, kCodaWords));
}

}  // namespace sheaf
