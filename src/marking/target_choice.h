#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "marking/session.h"

namespace sheaf {

/// What an attempt without a word of its own was taken for.
struct FoundTarget {
  LearnerCode learner;
  PlacedText written;
  std::string word;  ///< a sentence where the whole of it was written
  /// The sentence that the word stands in; empty for a word of the list and
  /// for a whole sentence.
  std::string sentence;
};

/// An attempt whose word cannot be told. It is asked about, never guessed.
struct UnclearTarget {
  enum class Why : std::uint8_t {
    several,      ///< two or more dictated words are nearly as near
    none,         ///< none is near
    right,        ///< it is a dictated word itself, so it is no error in that
    taken,        ///< the nearest word has an attempt already
    in_sentence,  ///< its sentence was given as a whole as well
  };
  LearnerCode learner;
  PlacedText written;
  Why why = Why::several;
  /// The words that it may be meant for, the nearest first; of `taken` and
  /// `in_sentence` the one that it is nearest to.
  std::vector<std::string> words;
  /// How a word is named is shown with this one: of the dictated words with
  /// room for an attempt the nearest, however far. Empty where none has room.
  std::string example = {};
  /// The record says which word it is for: nobody found that by its letters.
  bool names_target = false;
};

/// A record in which every attempt names its word or sentence.
struct RecordTargets {
  Record record;
  std::vector<FoundTarget> found;
  std::vector<UnclearTarget> unclear;
};

/// Finds the words that attempts under `wrong` were meant for among what was
/// dictated, by how near they are when they are laid against each word (the
/// costs of `align_graphemes`). Every place of a word takes one attempt of a
/// learner: a second attempt at a word that was dictated twice is for its
/// second place, the list before the sentences. A word of a sentence stands for
/// the sentence with this word so, and the rest of it right; that holds for a
/// named word too, if the list does not have it and all of the learner's
/// writing is known. An attempt that is itself a dictated word was not meant
/// for that word, since an error is listed. What is unclear is left out of
/// `record`.
RecordTargets find_targets(const Record& record,
                           std::span<const DictatedItem> items,
                           const SoundSpellings& spellings,
                           const MarkingOptions& options);

/// The same for one learner's attempts, as they are typed: all of the
/// learner's writing is known.
RecordTargets find_targets(const OfLearner<Attempt>& wrong,
                           std::span<const DictatedItem> items,
                           const SoundSpellings& spellings,
                           const MarkingOptions& options);

/// What it takes to find the words of a record, as `marking_work` counts.
/// `lesson_work` is that of all that the lesson dictates, for one learner.
std::size_t finding_work(const Record& record, std::size_t lesson_work);

}  // namespace sheaf
