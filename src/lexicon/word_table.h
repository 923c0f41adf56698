#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "lexicon/sources.h"
#include "lexicon/training.h"
#include "phonics/guesser.h"
#include "phonics/word_record.h"

namespace sheaf {

/// Everything the word list is made from, as text read from disk.
struct LexiconSources {
  PronunciationTable dictionary;
  PronunciationTable supplement;
  WordLists lists;
  /// What the largest and the variant lists have besides: taken where it is a
  /// known word with an ending, rightly put on.
  WordLists rare;
  std::set<std::string> everyday;
  /// Those of them that children know first.
  std::set<std::string> first;
  /// Words with the vowel of bath, and with a dash before them words that only
  /// look as if they were made of such (-passage).
  std::set<std::string> bath;
  AccentTable accents;
  /// Words that only look inflected (butter, king).
  std::set<std::string> not_inflected;
  /// Words that only look prefixed (uncle, recall).
  std::set<std::string> not_prefixed;
  /// Words that look like two and are one (sagacity), among other entries.
  std::set<std::string> not_compound;
  std::vector<Correspondence> correspondences;
};

/// What building came to, for the builder's report and the tests.
struct LexiconReport {
  int words = 0;
  int readings = 0;
  /// Words of our own list that cannot be laid against their sounds: a fault
  /// of the list that stops the build.
  std::vector<std::string> faults;
  std::vector<std::string> not_aligned;
  /// Common words that nothing says how to read.
  std::vector<std::string> unknown;
  /// What accents have otherwise and why, a line each, for reading.
  std::vector<std::string> accents;
};

struct WordTable {
  std::vector<Correspondence> correspondences;
  /// Common words first, then by alphabet; readings of a word follow each
  /// other, those of some accents behind the others.
  std::vector<WordRecord> records;
  std::vector<std::string> labels;
  std::vector<GuessStep> steps;
};

WordTable make_word_table(LexiconSources sources, LexiconReport& report);

}  // namespace sheaf
