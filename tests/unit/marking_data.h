#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <memory>
#include <string>
#include <vector>

#include "files/disk_files.h"
#include "marking/mark_attempt.h"
#include "marking/word_index.h"
#include "phonics/lexicon.h"
#include "phonics/phonics.h"
#include "phonics/table_text.h"

namespace sheaf {

/// The word list that the build compiled and what marking makes of it, loaded
/// once.
struct MarkingGround {
  MarkingGround()
      : file(disk().keep(SHEAF_WORD_LIST), SHEAF_WORD_LIST),
        lexicon(file),
        phonics(disk(), SHEAF_WORD_LIST),
        spellings(lexicon.inventory()),
        words(listed_words(lexicon)),
        index(WordSource{words, &lexicon.inventory()}, spellings) {
    options.is_common_word = known_to_learners(phonics);
    options.is_word = [this](std::string_view word) {
      return phonics.knows(word);
    };
  }

  Reading read(std::string_view word) const {
    return phonics.read(word, Conventions{}).front();
  }
  PatternId pattern(std::string_view id) const {
    const Pattern* found = phonics.patterns().by_id(id);
    EXPECT_NE(found, nullptr) << id;
    return found == nullptr ? 0 : phonics.patterns().id_of(*found);
  }
  MarkedAttempt mark(std::string_view target, std::string_view written) const {
    return mark_attempt(spellings, phonics.read(target, Conventions{}), written,
                        options);
  }

  LexiconFile file;
  Lexicon lexicon;
  Phonics phonics;
  SoundSpellings spellings;
  std::vector<ListedWord> words;
  WordIndex index;
  MarkingOptions options;
};

inline const MarkingGround& ground() {
  static const MarkingGround ground;
  return ground;
}

/// The rows of a table in tests/data, its text kept for good.
inline std::vector<TableRow> test_rows(const std::string& name) {
  static std::vector<std::unique_ptr<std::string>> texts;
  std::ifstream file(std::string(SHEAF_TEST_DATA) + "/" + name,
                     std::ios::binary);
  texts.push_back(std::make_unique<std::string>(
      std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()));
  return table_rows(*texts.back());
}

}  // namespace sheaf
