#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "phonics/endings.h"
#include "phonics/guess_word.h"
#include "phonics/guesser.h"
#include "phonics/letter_map.h"
#include "phonics/lexicon.h"
#include "phonics/phonics.h"
#include "phonics/sentence_bank.h"
#include "phonics/word_meanings.h"

namespace sheaf {

/// What stands behind `Phonics`: the mapped file and the readers of its parts.
/// For the sources of this folder only.
struct Phonics::Impl {
  Impl(const ByteSource& source, const std::string& path);

  LexiconFile file;
  /// General American first, then what other accents have: `lexicon_for`.
  std::vector<Lexicon> lexicons;
  const Lexicon& lexicon;
  PatternCatalogue catalogue;
  std::span<const GuessStep> steps;
  SentenceBank bank;
  WordMeanings meanings;

  /// The word list as the conventions' accent has it.
  const Lexicon& lexicon_for(const Conventions& conventions) const;

  /// The records of a word that is listed, or is made of listed words with a
  /// possessive's sign or a hyphen, in the accent of the word list given.
  static std::vector<WordRecord> known(const Lexicon& lexicon,
                                       std::string_view spelling);
  static std::vector<WordRecord> possessive(const Lexicon& lexicon,
                                            std::string_view spelling);
  static bool is_plural(const Lexicon& lexicon, std::string_view word);
  static std::vector<WordRecord> hyphenated(const Lexicon& lexicon,
                                            std::string_view spelling);

  GuessSources guess_sources(const Lexicon& spoken) const;
  Reading guess(std::string_view word, const LetterMap& map,
                const Conventions& conventions) const;
  /// The same of a word that ends in é, which says /ay/: rosé is not rose.
  Reading guess_with_acute(std::string_view word, const LetterMap& map,
                           const Conventions& conventions) const;
  Reading make(std::string_view word, const LetterMap& map,
               const WordRecord& record, const Conventions& conventions) const;
  /// All readings of a word, without their patterns.
  std::vector<Reading> read_units(const std::string& given,
                                  const LetterMap& map,
                                  const Conventions& conventions) const;
  void find_patterns(Reading& reading, const LetterMap& map,
                     const Lexicon& spoken) const;

  /// Words read before, under one set of conventions; see `first_reading`.
  struct Remembered {
    std::shared_ptr<const Reading> units;  // without patterns
    std::shared_ptr<const Reading> whole;
    std::optional<EndingAnalysis> ending;  // nothing until somebody asked
  };
  static constexpr std::size_t kMostRemembered = 8192;
  mutable std::mutex memo_lock;
  mutable Conventions memo_conventions;
  mutable std::unordered_map<std::string, Remembered> memo;
  /// The entry of a word; to be called under the lock.
  Remembered& remembered(std::string_view word,
                         const Conventions& conventions) const;
  /// Everyday words, with where each stands in the list, in that order.
  struct EverydayList {
    std::vector<EverydayWord> words;
    std::vector<std::uint32_t> places;
  };
  EverydayList list_everyday(const Lexicon& spoken, unsigned accents) const;
  const EverydayList& everyday(const Conventions& conventions) const;
  /// The words of a pattern that the index has for these accents.
  std::vector<PatternWord> list_words(PatternId pattern,
                                      const Conventions& conventions,
                                      bool only_everyday) const;
  /// Lists made before, by pattern and kind of speech, which says what accents
  /// they are of; places in it stay where they are. To be used under the lock.
  mutable std::unordered_map<std::size_t, std::vector<PatternWord>> words_of,
      everyday_words_of;
  mutable std::unordered_map<std::size_t, EverydayList> everyday_of;
  std::size_t speech_number(const Conventions& conventions) const {
    return static_cast<std::size_t>(&lexicon_for(conventions) -
                                    lexicons.data());
  }
};

}  // namespace sheaf
