#pragma once

#include <string_view>

namespace sheaf {

/// Correct letter sequences: how many neighbouring pairs of a word's letters
/// an attempt has side by side and in order, the blank before the first and
/// behind the last letter counted as letters. A word of n letters has n + 1.
/// (Deno, Mirkin, Lowry & Kuehnle 1980; White & Haring 1980; Wright 1992;
/// Hosp, Hosp & Howell 2007; the exact rule is from memory.)
///
/// Where manuals differ, Sheaf counts so:
/// - Letters are laid against letters in order, each at most once, so that the
///   score is the highest. A letter that stands far off its place in an
///   otherwise shifted word still counts with its neighbours.
/// - One letter of a double left out (rabit) loses two sequences: the pair and
///   one of its neighbours.
/// - An inserted letter (whent) loses the one sequence that it parts.
/// - Apostrophes and hyphens are letters: don't has 6, dont loses two.
/// - Capitals are small letters: London written london loses none.
/// - A blank attempt scores 0: two blanks alone are no sequence.
struct LetterSequences {
  int correct = 0;
  int possible = 0;

  LetterSequences& operator+=(const LetterSequences& other) {
    correct += other.correct;
    possible += other.possible;
    return *this;
  }
  friend bool operator==(const LetterSequences&,
                         const LetterSequences&) = default;
};

/// Both as in `WrittenWord::signs`.
LetterSequences letter_sequences(std::string_view target,
                                 std::string_view written);

}  // namespace sheaf
