#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "input/learner_code.h"
#include "marking/session.h"

namespace sheaf {

/// So many of so many. There is a percentage only from five opportunities on:
/// in ten words one word is ten points, in three it is thirty-three.
struct Share {
  int right = 0;
  int of = 0;

  static constexpr int kLeastForPercent = 5;
  std::optional<int> percent() const;
  /// Whether at least this percentage is reached; false for none at all.
  bool reaches(int wanted_percent) const;
  /// "7/10 (70%)", "3/4".
  std::string text() const;

  Share& operator+=(const Share& other) {
    right += other.right;
    of += other.of;
    return *this;
  }
  friend bool operator==(const Share&, const Share&) = default;
};

/// How often each cause came up, by the number of the cause.
using CauseCounts = std::array<int, kCauseCount>;

struct PatternScore {
  PatternId pattern = 0;
  Share share;
  /// Of the opportunities that were missed.
  CauseCounts causes{};
};

struct Score {
  LearnerCode code;  ///< nobody for a group
  bool absent = false;
  Share words;
  LetterSequences sequences;
  int blanks = 0;
  /// In the order of the patterns asked for.
  std::vector<PatternScore> patterns;
  /// Of all graphemes that are not correct, and of extra letters.
  CauseCounts causes{};

  const PatternScore* find(PatternId pattern) const;
};

struct SessionScores {
  std::vector<Score> learners;
  Score group;
};

/// Counts what came of a session. Which words are an opportunity for a
/// pattern, and when it was taken, says `chances_for`.
SessionScores score_session(const SessionResult& session,
                            std::span<const PatternId> patterns,
                            const PatternCatalogue& catalogue);

/// The causes that came up, the commonest first.
std::vector<Cause> causes_by_count(const CauseCounts& counts);

}  // namespace sheaf
