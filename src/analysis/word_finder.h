#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "analysis/analyzed_lesson.h"
#include "phonics/words_in.h"

namespace sheaf {

/// Finds the reading of each word that a lesson uses: what the lesson splits by
/// hand comes first, then the word list, then a guess. Says once about each
/// word what the teacher should know.
class WordFinder {
 public:
  /// `may_suggest` says which words a teacher may be asked about for one that
  /// nobody knows.
  WordFinder(const Lesson& lesson, const Phonics& phonics,
             const Conventions& conventions, Diagnostics& diagnostics,
             WordTest may_suggest);

  /// The word with its reading; `hits` is left empty.
  AnalyzedWord look_up(const LessonWord& word);

  bool is_sight_word(std::string_view word) const;

  /// Says which entries of `split:` belong to no word of the lesson.
  void report_unused_splits();

 private:
  Reading read(const LessonWord& word);
  Reading read_usual(const PlacedWord& spelling);
  Reading read_divided(const PlacedWord& spelling, const LessonSplit& split);
  Reading read_by_hand(const PlacedWord& spelling,
                       const std::vector<HandUnit>& parts,
                       const std::vector<Span>& places);
  void warn_of_guess(const PlacedWord& spelling, const Reading& reading);

  const Phonics& phonics_;
  Diagnostics& diagnostics_;
  Conventions conventions_;
  WordTest may_suggest_;
  std::map<std::string, const LessonSplit*, std::less<>> splits_;
  std::set<std::string, std::less<>> used_splits_;
  std::set<std::string, std::less<>> sight_words_;
  std::set<std::string, std::less<>> spoken_of_;
};

}  // namespace sheaf
