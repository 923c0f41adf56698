#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <vector>

#include "analysis/analyzed_lesson.h"

namespace sheaf {

/// Puts the steps of a placement check into the lesson that holds it, as if
/// their patterns and words had been written there: the lesson's patterns are
/// those of its steps, and its words to dictate are part one, then part two.
/// Does nothing to other lessons. Reports steps that the sequence does not
/// have or that teach nothing, and keys that have no place beside a check.
/// `sequence` may be null, which is an error here.
void unfold_placement(Lesson& lesson, const SequenceFile* sequence,
                      const Phonics& phonics, Diagnostics& diagnostics);

/// Reports words of a placement check that do not have what their step teaches.
void report_placement(const AnalyzedLesson& lesson, Diagnostics& diagnostics);

/// The check as it is given: which word stands for which step, and where part
/// two begins.
class PlacementCheck {
 public:
  /// A step with words in part two.
  struct Rung {
    std::size_t step = 0;  ///< an index into `Taught::steps`
    int number = 0;        ///< as the sequence counts
    std::vector<PatternId> patterns;
    /// Indices into `AnalyzedLesson::dictate_words`.
    std::vector<std::size_t> words;
  };
  /// Part two asks for so many steps.
  static constexpr std::size_t kAtOnce = 6;
  /// Part one ends after so many wrong words on end.
  static constexpr std::size_t kStopAfter = 2;
  /// Part two begins so many steps below the step that part one would have come
  /// to with as many right words and no luck or slip: each of those counts as
  /// one word up or down. The number is ours, chosen by
  /// `make calibrate-placement`.
  static constexpr std::size_t kBelow = 4;

  explicit PlacementCheck(const AnalyzedLesson& lesson);

  const std::vector<Rung>& rungs() const { return rungs_; }
  /// The rung of each word of part one; the words are the first of
  /// `dictate_words`.
  const std::vector<std::size_t>& part_one() const { return part_one_; }
  /// The rung of a word to dictate; nothing for another index.
  std::optional<std::size_t> rung_of(std::size_t word) const;
  /// The first rung of part two, after so many right words up to where part one
  /// stopped.
  std::size_t part_two_from(std::size_t right) const;
  /// Behind the last rung of part two.
  std::size_t part_two_end(std::size_t first) const {
    return std::min(first + kAtOnce, rungs_.size());
  }
  /// The most words that part two can ask for.
  std::size_t most_in_part_two() const;

 private:
  std::vector<Rung> rungs_;
  std::vector<std::size_t> part_one_;
};

}  // namespace sheaf
