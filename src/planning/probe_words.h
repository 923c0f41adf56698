#pragma once

#include <cstdint>
#include <set>
#include <string>
#include <vector>

#include "planning/word_search.h"

namespace sheaf {

/// What the forms of a probe are to be: short lists of words that are dictated
/// over a year to see growth. Growth shows only where the lists are alike, so
/// the place of each word is planned once for all forms.
struct ProbeQuery {
  std::size_t words = 12;  ///< in each form
  std::size_t forms = 8;
  /// Another seed takes other words and another order.
  std::uint64_t seed = 1;
  /// Lower case: words that were practised show the practice. Left out with
  /// their inflected forms.
  std::set<std::string, std::less<>> leave_out;
};

struct ProbeWord {
  std::string word;
  PatternId pattern = 0;
  int step = 0;  ///< which teaches the pattern; an index into `Taught::steps`
};

struct ProbeForms {
  /// Each of as many words and as many letter sequences; words at the same
  /// place are of the same step and the same pattern, and of about one length.
  /// No two forms share a word, and no form has two words of one family. Fewer
  /// words than were asked for where the steps have no more.
  std::vector<std::vector<ProbeWord>> forms;
  /// Of each form: the letters of a word and one more, for the pair at its end.
  int letter_sequences = 0;
};

/// Words for the steps of `source.taught` up to its own step, as evenly as the
/// steps have words, each readable at the step that teaches its pattern. All
/// have a sentence to be said in, and none sounds like another word. The same
/// every time.
ProbeForms probe_forms(const SearchGround& source, const ProbeQuery& query);

}  // namespace sheaf
