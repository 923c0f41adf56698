#pragma once

#include <memory>
#include <mutex>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "phonics/guesser.h"
#include "phonics/letter_map.h"
#include "phonics/lexicon.h"
#include "phonics/phonics.h"

namespace sheaf {

/// What stands behind `Phonics`: the mapped file and the readers of its parts.
/// For the sources of this folder only.
struct Phonics::Impl {
  explicit Impl(const std::string& path);

  LexiconFile file;
  Lexicon lexicon;
  PatternCatalogue catalogue;
  std::span<const GuessStep> steps;

  /// The records of a word that is listed, or is made of listed words with a
  /// possessive's sign or a hyphen.
  std::vector<WordRecord> known(std::string_view spelling) const;
  std::vector<WordRecord> possessive(std::string_view spelling) const;
  bool is_plural(std::string_view word) const;
  std::vector<WordRecord> hyphenated(std::string_view spelling) const;

  Reading guess(std::string_view word, const LetterMap& map,
                const Conventions& conventions) const;
  Reading make(std::string_view word, const LetterMap& map,
               const WordRecord& record, const Conventions& conventions) const;
  /// All readings of a word, without their patterns.
  std::vector<Reading> read_units(const std::string& given,
                                  const LetterMap& map,
                                  const Conventions& conventions) const;
  void find_patterns(Reading& reading, const LetterMap& map) const;
  std::vector<PatternWord> list_words(PatternId pattern) const;

  /// Words read before, under one set of conventions; see `first_reading`.
  struct Remembered {
    std::shared_ptr<const Reading> units;  // without patterns
    std::shared_ptr<const Reading> whole;
  };
  static constexpr std::size_t kMostRemembered = 8192;
  mutable std::mutex memo_lock;
  mutable Conventions memo_conventions;
  mutable std::unordered_map<std::string, Remembered> memo;
  /// The entry of a word; to be called under the lock.
  Remembered& remembered(std::string_view word,
                         const Conventions& conventions) const;
  /// Lists made before, by pattern; places in it stay where they are.
  mutable std::unordered_map<PatternId, std::vector<PatternWord>> words_of;
};

}  // namespace sheaf
