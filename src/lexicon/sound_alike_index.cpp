#include "lexicon/sound_alike_index.h"

#include <algorithm>
#include <array>
#include <map>
#include <string_view>

#include "phonics/lexicon.h"
#include "phonics/phonics.h"

namespace sheaf {
namespace {

// Contractions on the model of it's: all others in 's are possessives, the
// same word again (cats, cat's).
constexpr std::array<std::string_view, 11> kContracted = {
    "it's",    "he's",    "she's",  "that's", "what's", "who's",
    "where's", "there's", "here's", "how's",  "let's"};

bool is_common(const WordRecord& record, const HomophoneWords& words) {
  const std::string& word = record.spelling;
  if (words.met.contains(word)) return true;
  if (record.name || words.not_met.contains(word) ||
      word.find('-') != std::string::npos) {
    return false;
  }
  // Letters have names that sound like words (b, c, t).
  if (word.size() == 1 && word != "a" && word != "i") return false;
  const bool in_s = word.ends_with("'s") || word.ends_with("s'");
  if (in_s && std::ranges::find(kContracted, word) == kContracted.end()) {
    return false;
  }
  return record.everyday ||
         (record.tier > 0 && record.tier <= Phonics::kCommonList);
}

SoundAlike::Region region_of(const std::string& word,
                             const HomophoneWords& words) {
  if (words.american.contains(word)) return SoundAlike::Region::american;
  if (words.british.contains(word)) return SoundAlike::Region::british;
  return SoundAlike::Region::both;
}

struct Bucket {
  std::vector<std::uint32_t> common;  ///< packed
  std::set<std::string> spellings;    ///< of any word
};

}  // namespace

std::vector<SoundAlike> index_sound_alikes(const std::string& file,
                                           const HomophoneWords& words) {
  const LexiconFile bytes(file);
  const Lexicon lexicon(bytes);
  std::map<std::uint32_t, Bucket> buckets;
  lexicon.each([&](const WordRecord& record) {
    if (record.tier == 0 && !record.everyday) return true;
    std::vector<Phoneme> sounds =
        phonemes_of(record.segments, lexicon.inventory());
    const bool common = is_common(record, words);
    const std::uint32_t packed =
        lexicon.find(record.spelling) |
        static_cast<std::uint32_t>(region_of(record.spelling, words))
            << SoundAlike::kWordBits;
    const auto add = [&] {
      Bucket& bucket = buckets[sound_alike_key(sounds)];
      bucket.spellings.insert(record.spelling);
      if (common &&
          std::ranges::find(bucket.common, packed) == bucket.common.end()) {
        bucket.common.push_back(packed);
      }
    };
    add();
    if (record.bath && with_bath_vowel(sounds)) add();
    return true;
  });
  std::vector<SoundAlike> index;
  for (const auto& [key, bucket] : buckets) {
    if (bucket.spellings.size() < 2) continue;
    for (const std::uint32_t packed : bucket.common) {
      index.push_back({key, packed});
    }
  }
  return index;
}

}  // namespace sheaf
