#include "lexicon/sound_alike_index.h"

#include <algorithm>
#include <array>
#include <map>
#include <string_view>
#include <utility>

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
  std::set<std::pair<std::uint32_t, SoundAlike::Region>> common;
  std::set<std::string> spellings;  ///< of any word
};

}  // namespace

std::vector<SoundAlike> index_sound_alikes(const ByteSource& source,
                                           const std::string& file,
                                           const HomophoneWords& words) {
  const LexiconFile bytes(source.keep(file), file);
  const Lexicon lexicon(bytes);
  std::map<std::uint32_t, Bucket> buckets;
  const auto add = [&](const WordRecord& record) {
    if (record.tier == 0 && !record.everyday) return true;
    Bucket& bucket = buckets[sound_alike_key(
        phonemes_of(record.segments, lexicon.inventory()))];
    bucket.spellings.insert(record.spelling);
    if (is_common(record, words)) {
      // Commoner words stand before others in the word list.
      bucket.common.insert(
          {lexicon.find(record.spelling), region_of(record.spelling, words)});
    }
    return true;
  };
  for (const Accent accent : {Accent::general_american, Accent::british,
                              Accent::scottish, Accent::australian}) {
    for (const bool bath : {false, true}) {
      for (const bool yod : {false, true}) {
        lexicon.with({accent, bath, yod}).each(add);
      }
    }
  }
  std::vector<SoundAlike> index;
  for (const auto& [key, bucket] : buckets) {
    if (bucket.spellings.size() < 2) continue;
    for (const auto& [word, region] : bucket.common) {
      index.push_back({key, word | static_cast<std::uint32_t>(region)
                                       << SoundAlike::kWordBits});
    }
  }
  return index;
}

}  // namespace sheaf
