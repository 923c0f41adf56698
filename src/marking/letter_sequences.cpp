#include "marking/letter_sequences.h"

#include <algorithm>
#include <vector>

namespace sheaf {

// The score of the best alignment that ends with target sign i laid against
// written sign j is one more than that of its direct forerunner, or as good as
// any before both. The outer blanks are signs of their own: '\0'.
LetterSequences letter_sequences(std::string_view target,
                                 std::string_view written) {
  LetterSequences result;
  result.possible = static_cast<int>(target.size()) + 1;
  if (target.empty() || written.empty()) return result;

  const std::size_t n = target.size() + 2, m = written.size() + 2;
  const auto sign = [](std::string_view text, std::size_t at) {
    return at == 0 || at > text.size() ? '\0' : text[at - 1];
  };
  constexpr int kNone = -1;
  std::vector<int> ended(m, kNone);    // of the row before, by written sign
  std::vector<int> best_to(m, kNone);  // best of all rows before, up to there
  std::vector<int> now(m, kNone);
  ended[0] = 0;
  std::ranges::fill(best_to, 0);
  for (std::size_t i = 1; i < n; ++i) {
    std::ranges::fill(now, kNone);
    for (std::size_t j = 1; j < m; ++j) {
      const bool both_last = (i == n - 1) == (j == m - 1);
      if (!both_last || sign(target, i) != sign(written, j)) continue;
      now[j] = best_to[j - 1];
      if (ended[j - 1] != kNone) now[j] = std::max(now[j], ended[j - 1] + 1);
    }
    int best = 0;
    for (std::size_t j = 0; j < m; ++j) {
      best = std::max({best, now[j], best_to[j]});
      best_to[j] = best;
    }
    ended = now;
  }
  result.correct = now[m - 1];
  return result;
}

}  // namespace sheaf
