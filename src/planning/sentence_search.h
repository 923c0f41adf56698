#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "phonics/sentence_bank.h"
#include "planning/word_search.h"

namespace sheaf {

/// What sentences to look for.
struct SentenceQuery {
  /// A sentence has a word with at least one of them.
  std::vector<PatternId> patterns;
  std::size_t count = 6;
  /// How many words it has.
  Range words = {2, 16};
  /// Texts that are written for these, or for both; `both` takes all.
  Readers readers = Readers::both;
  /// For dictation: short ones first, with one word or two that have a
  /// pattern. Else those that are rich in it.
  bool to_write = false;
  /// Words of the lesson in lower case: a sentence with some of them comes
  /// first.
  std::set<std::string, std::less<>> practised;
  /// Sentences that were used, as `sentence_key` has them.
  std::set<std::string, std::less<>> leave_out;
  /// Also those with words that cannot be read yet, behind the others, if the
  /// others are too few.
  bool near_ones = false;
};

struct FoundSentence {
  std::string text;
  Readers readers = Readers::both;
  int words = 0;
  /// How many of them have one of the patterns.
  int pattern_words = 0;
  /// Words that cannot be read yet, each once, as they stand in it.
  std::vector<std::string> not_yet;
  /// One of the teacher's own.
  bool own = false;
};

/// Sentences for a group, wholly readable with what it was taught, rich in the
/// patterns and unlike each other: no two of a set begin alike, and words with
/// a pattern are not said again as long as there are others. Those that are
/// written for one of the patterns come before others, and a teacher's own that
/// can be read before all that come with Sheaf. The same every time.
std::vector<FoundSentence> find_sentences(const SearchGround& source,
                                          const SentenceQuery& query);

/// Passages likewise: the one with the most words that have a pattern first,
/// as near as can be to a length in words.
struct FoundPassage {
  std::string title;
  std::string text;  ///< paragraphs parted by line breaks
  std::vector<std::string> questions;
  Readers readers = Readers::both;
  int words = 0;
  int pattern_words = 0;
  std::vector<std::string> not_yet;
};
std::vector<FoundPassage> find_passages(const SearchGround& source,
                                        const SentenceQuery& query);

}  // namespace sheaf
