#include <algorithm>
#include <array>
#include <set>
#include <string>

#include "base/utf8.h"
#include "phonics/pattern_index.h"
#include "phonics/pattern_rule.h"
#include "phonics/phonics_impl.h"
#include "phonics/why_not.h"
#include "phonics/word_facts.h"

namespace sheaf {

namespace {

WordInfo info_of(const WordRecord& record) {
  return {record.tier, record.everyday, record.name};
}

// Whether the letters of a pattern stand in a word, so that it could be taken
// for one that has the pattern.
class Lookalike {
 public:
  Lookalike(const PatternCatalogue& catalogue, PatternId pattern) {
    for (const PatternRule& rule : catalogue.rules(pattern)) {
      for (const RuleCondition& c : rule.unit) add(c);
      for (const RuleCondition& c : rule.word) add(c);
    }
  }

  bool fits(std::string_view word) const {
    return std::ranges::any_of(parts_,
                               [&](const std::string& part) {
                                 return word.find(part) !=
                                        std::string_view::npos;
                               }) ||
           std::ranges::any_of(tails_,
                               [&](const std::string& tail) {
                                 return word.size() > tail.size() &&
                                        word.ends_with(tail);
                               }) ||
           std::ranges::any_of(
               splits_, [&](char vowel) { return has_split(word, vowel); });
  }

 private:
  void add(const RuleCondition& c) {
    using Key = RuleCondition::Key;
    if (c.negative) return;
    for (const std::string& value : c.values) {
      switch (c.key) {
        case Key::grapheme:
          if (value.size() == 3 && value[1] == '_') {
            splits_.push_back(value[0]);
          } else {
            parts_.push_back(value);
          }
          break;
        case Key::onset:
        case Key::coda: {
          std::string letters = value;
          std::erase(letters, '+');
          parts_.push_back(letters);
          break;
        }
        case Key::ending:
          if (value != "none") tails_.push_back(value);
          break;
        case Key::tail:
          tails_.push_back(value);
          break;
        default:
          break;
      }
    }
  }

  // A vowel letter, one letter and an e: have, are.
  static bool has_split(std::string_view word, char vowel) {
    for (std::size_t i = 0; i + 2 < word.size(); ++i) {
      if (word[i] == vowel && word[i + 2] == 'e') return true;
    }
    return false;
  }

  std::vector<std::string> parts_, tails_;
  std::vector<char> splits_;
};

}  // namespace

std::optional<WordInfo> Phonics::info(std::string_view word) const {
  // Most words are plain letters already, and are looked up as they stand.
  const bool plain = std::ranges::all_of(
      word, [](char c) { return c >= 'a' && c <= 'z'; });
  const auto head = plain ? impl_->lexicon.head(word)
                          : impl_->lexicon.head(map_letters(word).spelling);
  if (!head) return std::nullopt;
  return WordInfo{head->tier, head->everyday, head->name};
}

void Phonics::each_word(
    int largest_list, const Conventions& conventions,
    const std::function<bool(const Reading&, const WordInfo&)>& call) const {
  std::string last;
  impl_->lexicon.each([&](const WordRecord& record) {
    if (!record.everyday && (record.tier == 0 || record.tier > largest_list)) {
      return false;
    }
    if (record.spelling == last) return true;  // a further reading
    last = record.spelling;
    const LetterMap map = map_letters(record.spelling);
    Reading reading = impl_->make(record.spelling, map, record, conventions);
    impl_->find_patterns(reading, map);
    return call(reading, info_of(record));
  });
}

std::vector<std::string> Phonics::words_with(PatternId pattern,
                                             std::size_t count) const {
  std::vector<std::string> words;
  each_word(kCommonList, Conventions{},
            [&](const Reading& reading, const WordInfo& word) {
              if (!word.name && reading.find(pattern) != nullptr) {
                words.push_back(reading.word);
              }
              return words.size() < count;
            });
  return words;
}

const std::vector<PatternWord>& Phonics::pattern_words(
    PatternId pattern) const {
  const std::lock_guard lock(impl_->memo_lock);
  const auto [entry, is_new] = impl_->words_of.try_emplace(pattern);
  if (is_new) entry->second = impl_->list_words(pattern);
  return entry->second;
}

std::vector<PatternWord> Phonics::Impl::list_words(PatternId pattern) const {
  std::vector<PatternWord> words;
  for (const std::uint32_t packed : entries_of(
           file.records<std::uint32_t>(Section::pattern_words), pattern)) {
    const PatternEntry entry = unpack_entry(packed);
    const auto record = lexicon.record(entry.word);
    if (!record) continue;
    words.push_back({record->spelling, info_of(*record), 0,
                     syllable_count(record->segments, lexicon.inventory()),
                     entry.place, entry.twice, entry.later, record->more});
    for (const Segment& segment : record->segments) {
      words.back().phonemes += lexicon.inventory()[segment.id].sound_count;
    }
  }
  return words;
}

bool Phonics::is_said_like_a_word(std::span<const Phoneme> phonemes) const {
  return is_in_hash_set(impl_->file.section(Section::said),
                        said_hash(phonemes));
}

bool Phonics::is_listed(std::string_view word) const {
  const std::string plain = lower_case(word);
  return knows(plain) || is_in_hash_set(impl_->file.section(Section::spelled),
                                        spelled_hash(plain));
}

std::vector<NearMiss> Phonics::near_misses(PatternId pattern,
                                           std::size_t count) const {
  const Lookalike lookalike(impl_->catalogue, pattern);
  std::vector<NearMiss> misses;
  std::set<std::string> reasons;
  each_word(kCommonList, Conventions{},
            [&](const Reading& reading, const WordInfo& word) {
              if (word.name || !lookalike.fits(reading.word) ||
                  reading.find(pattern) != nullptr) {
                return true;
              }
              std::string why = why_not(reading, pattern);
              // One word for each reason, whatever its graphemes.
              if (!reasons.insert(why.substr(0, why.find('('))).second) {
                return true;
              }
              misses.push_back({reading.word, std::move(why)});
              return misses.size() < count;
            });
  return misses;
}

}  // namespace sheaf
