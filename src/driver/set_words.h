#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "driver/taught_sets.h"
#include "phonics/phonics.h"
#include "planning/block_list.h"

namespace sheaf {

/// Which words learners who were taught the same can be asked: common, never
/// blocked, with nothing in them that was not taught. Where no sequence says
/// what was, that is consonant letters, short vowels and the patterns of their
/// records.
class SetWords {
 public:
  /// All three must outlive it.
  SetWords(const Phonics& phonics, const TaughtSet& set,
           const BlockList& own_list)
      : phonics_(phonics), set_(set), own_list_(own_list) {}

  /// Words with a pattern that they never met, the best first: of one syllable
  /// and without an ending -s, then others.
  const std::vector<std::string>& fresh(PatternId pattern);
  /// The words of their lessons with a pattern: for a check where there are
  /// too few others.
  std::vector<std::string> practised(PatternId pattern) const;
  /// Whether a word has nothing in it that was not taught; true of a word
  /// known by sight.
  bool may_be_asked(const std::string& word) const;

 private:
  void find();
  void sort_in(const Reading& reading);
  bool is_new(const std::string& word) const;
  bool is_plain(const Reading& reading) const;
  bool is_readable(const Reading& reading) const;
  bool is_readable_unit(const Reading& reading, std::size_t unit) const;
  bool is_short_vowel(const Unit& unit) const;
  bool is_recorded(const Unit& unit) const;

  struct Found {
    std::vector<std::string> plain, others;
  };

  const Phonics& phonics_;
  const TaughtSet& set_;
  const BlockList& own_list_;
  bool searched_ = false;
  std::map<PatternId, Found> found_;
  std::map<PatternId, std::vector<std::string>> fresh_;
};

}  // namespace sheaf
