#pragma once

#include <functional>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "analysis/taught.h"
#include "phonics/endings.h"
#include "phonics/phonics.h"
#include "planning/block_list.h"
#include "planning/own_sentences.h"

namespace sheaf {

/// Lower and upper limits of a count, both allowed.
struct Range {
  int least = 0;
  int most = 1000;
  bool holds(int count) const { return count >= least && count <= most; }
};

/// What words to look for.
struct WordQuery {
  PatternId pattern = 0;
  std::size_t count = 12;
  Range syllables;
  Range letters;
  /// Only words that most children say on seeing their picture.
  bool pictures_only = false;
  /// Clear words, with the pattern in one place as far as that leaves good
  /// ones; a later set has all of them.
  bool first_set = true;
  /// Also words that only older learners know, and those that a rule holds
  /// back; all behind the others.
  bool older = false;
  /// Words that have one of these patterns too are left out. Where the pattern
  /// is told apart from them by a rule, words that show it come first and its
  /// exceptions last.
  std::vector<PatternId> without;
  /// Lower case; left out with their inflected forms.
  std::set<std::string, std::less<>> leave_out;
  /// Taken first, in this order, as far as they are among the words; see
  /// contrast.h.
  std::vector<std::string> prefer;
};

/// Where words are looked for, and by whom.
struct SearchGround {
  const Phonics& phonics;
  const Conventions& conventions;
  const Taught& taught;
  /// Sheaf's own list always counts; this is the teacher's.
  const BlockList* blocked = nullptr;
  /// Whether a word has a picture that children name so.
  std::function<bool(std::string_view)> has_picture;
  /// The teacher's own sentences, null where there are none; asked for only
  /// where sentences are looked for. May be left out.
  std::function<const OwnSentences*()> own_sentences = {};
};

struct FoundWord {
  std::shared_ptr<const Reading> reading;
  WordInfo info;
  PatternWord::Place place = PatternWord::Place::middle;
  bool later = false;
  bool picture = false;
  /// Only there because `WordQuery::older` asks for it.
  bool older = false;
  /// In a contrast with a rule.
  ContrastFit fit = ContrastFit::shows;
  /// The lower the sooner a child knows it and reads it.
  int cost = 0;
  /// The word that this one is a form of, as toy of toys; else empty.
  std::string base;
  /// Its last ending, where it has one.
  Ending ending = Ending::none;
};

/// Words with a pattern that a child knows first: of Sheaf's everyday words
/// those of its first list, then the others; all decodable with what is taught;
/// clear ones before coloured ones (see PatternPlace), short before long, and
/// unlike each other. The same every time.
///
/// Nothing is suggested that is blocked, in a British spelling, or held back
/// for a reason that word_search.cpp states: not an everyday word, said in
/// another way without the pattern (tear), with the pattern in a weak beat
/// (spatula) or in an ending that it is not about (ng in using), or a form of a
/// word that would do (scared for scare). With `WordQuery::older` the words of
/// the lists up to `Phonics::kCommonList` and those held back follow the rest.
std::vector<FoundWord> find_words(const SearchGround& source,
                                  const WordQuery& query);

/// The candidates in order of their cost alone, at most `most`: for searches
/// that make a choice of their own.
std::vector<FoundWord> candidates(const SearchGround& source,
                                  const WordQuery& query, std::size_t most);

/// How many words `find_words` has to choose from, at most `most`.
std::size_t good_words(const SearchGround& source, const WordQuery& query,
                       std::size_t most);

/// Whether one is the other with an ending, or both have one base.
bool is_same_word(std::string_view a, std::string_view b);

}  // namespace sheaf
