#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "marking/mark_attempt.h"
#include "marking/word_source.h"

namespace sheaf {

/// A word that a learner may have meant.
struct WordGuess {
  std::string word;
  /// How unlike the attempt is (see `GraphemeAlignment`), and with how common
  /// the word is added: less is likelier.
  int cost = 0;
  int score = 0;
  /// Its share among all guesses for this attempt, in percent.
  int sure = 0;
};

/// Finds the words that a misspelling may stand for: by its consonant skeleton
/// (one group more, fewer or other), then by the grapheme scorer with how
/// common the word is. Made once, then read-only. `words` and `spellings` must
/// outlive it.
class WordIndex {
 public:
  /// Words of the lesson at hand are likelier than all others.
  WordIndex(const WordSource& words, const SoundSpellings& spellings,
            std::span<const std::string> lesson_words = {});

  /// The likeliest words, best first, at most `most`; never the attempt
  /// itself. The learner's speech helps; an accent without r is always allowed
  /// for. `meant` are words that are looked at however unlike they sound.
  std::vector<WordGuess> look_up(std::string_view written,
                                 const LearnerSpeech& speech = {},
                                 std::size_t most = 5,
                                 std::span<const std::string> meant = {}) const;

  /// Costs of a word by how common it is alone; `kUnlisted` where it is not
  /// in the list.
  int rarity(std::string_view word) const;
  static constexpr int kUnlisted = 1200;
  /// Whether children use a word at least as much as another: it ranks no lower
  /// among the words of children (grammar words, first words, everyday words,
  /// others) and stands in a list of SCOWL that is no larger. Both tell: deer
  /// is known sooner than dear and written less.
  bool is_as_common(std::string_view word, std::string_view as) const;
  /// Words up to here are such as a learner may well write.
  static constexpr int kCommon = 260;

 private:
  struct Key {
    std::uint64_t hash;
    std::uint32_t word;
    friend auto operator<=>(const Key&, const Key&) = default;
  };
  struct Candidate {
    std::uint32_t word;
    int rough;
  };
  void add_keys(const std::string& skeleton, std::uint32_t word);
  std::vector<Candidate> candidates(std::string_view letters) const;
  std::optional<std::uint32_t> find(std::string_view word) const;
  int find_rarity(std::uint32_t word) const;
  struct Use {
    int rank = 0;
    int tier = 0;
  };
  Use use_of(std::string_view word) const;
  void lend_rarity_of_base(std::uint32_t word);

  WordSource source_;
  const SoundSpellings& spellings_;
  std::vector<Key> keys_;
  std::vector<std::uint64_t> skeletons_;  // hashes
  std::vector<int> rarity_;
  std::vector<std::uint32_t> by_spelling_;
  std::vector<std::string> lesson_words_;  // in order
};

}  // namespace sheaf
