// Correct letter sequences, and the normalised edit distance beside them.

#include <gtest/gtest.h>

#include <charconv>
#include <cmath>

#include "base/nearest.h"
#include "marking/written_word.h"
#include "marking_data.h"

namespace sheaf {
namespace {

int number(std::string_view text) {
  int value = -1;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

// Source: 36 cases derived from the definition of Deno, Mirkin, Lowry & Kuehnle
// 1980 and Wright 1992 (the exact rule from memory), made for Sheaf.
TEST(LetterSequences, AgreeWithTheCheckedCases) {
  std::size_t seen = 0;
  for (const TableRow& row : test_rows("marking_letter_sequences.tsv")) {
    if (row.cell(0) == "target") continue;
    ++seen;
    const MarkedAttempt marked = ground().mark(row.cell(0), row.cell(1));
    EXPECT_EQ(marked.sequences.correct, number(row.cell(3)))
        << row.cell(0) << " written " << row.cell(1);
    EXPECT_EQ(marked.sequences.possible, number(row.cell(2))) << row.cell(0);
    EXPECT_EQ(marked.right ? 1 : 0, number(row.cell(4))) << row.cell(0);
  }
  EXPECT_EQ(seen, 36U);
}

TEST(LetterSequences, CountAsTheHeaderSays) {
  EXPECT_EQ(letter_sequences("rabbit", "rabit"), (LetterSequences{5, 7}));
  EXPECT_EQ(letter_sequences("went", "whent"), (LetterSequences{4, 5}));
  EXPECT_EQ(letter_sequences("don't", "dont"), (LetterSequences{4, 6}));
  EXPECT_EQ(letter_sequences("off", "offf"), (LetterSequences{3, 4}));
  EXPECT_EQ(letter_sequences("lesson", ""), (LetterSequences{0, 7}));
  EXPECT_EQ(letter_sequences("", ""), (LetterSequences{0, 1}));
  EXPECT_EQ(ground().mark("London", "london").sequences.correct, 7);
  // A single letter has a blank on both sides.
  EXPECT_EQ(letter_sequences("a", "a"), (LetterSequences{2, 2}));
  EXPECT_EQ(letter_sequences("a", "b"), (LetterSequences{0, 2}));
}

// An independent way to count the same: every order-preserving matching, tried
// one by one.
int best_of_all(std::string_view target, std::string_view written,
                std::size_t i, std::size_t last, bool joined) {
  if (i == target.size()) {
    return joined && last == written.size() ? 1 : 0;
  }
  int best = best_of_all(target, written, i + 1, last, false);
  for (std::size_t j = last; j < written.size(); ++j) {
    if (written[j] != target[i]) continue;
    const int pair = joined && j == last ? 1 : 0;
    best =
        std::max(best, pair + best_of_all(target, written, i + 1, j + 1, true));
  }
  return best;
}

TEST(LetterSequences, AreTheMostThatAnyMatchingGives) {
  for (const char* target : {"abab", "aabb", "off", "banana", "noon"}) {
    for (int code = 0; code < 3000; ++code) {
      std::string written;
      for (int rest = code; rest > 0; rest /= 5) {
        written += "abfno"[rest % 5];
      }
      const int expected =
          written.empty() ? 0 : best_of_all(target, written, 0, 0, true);
      EXPECT_EQ(letter_sequences(target, written).correct, expected)
          << target << " " << written;
    }
  }
}

// Damerau and Levenshtein's distance (neighbours swapped count as one step),
// written out here as the textbook's matrix.
int distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<int>> d(a.size() + 1, std::vector<int>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = static_cast<int>(i);
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int change = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min(
          {d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

double correlation(const std::vector<double>& x, const std::vector<double>& y) {
  const double n = static_cast<double>(x.size());
  double sx = 0, sy = 0, sxx = 0, syy = 0, sxy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    sx += x[i], sy += y[i];
    sxx += x[i] * x[i], syy += y[i] * y[i], sxy += x[i] * y[i];
  }
  return (n * sxy - sx * sy) /
         std::sqrt((n * sxx - sx * sx) * (n * syy - sy * sy));
}

// Themistocleous et al. 2020 (JSLHR 63, 4179-4192): the normalised distance
// goes with hand scoring at .99 for words. Ours is a band for sanity only: the
// distance must go with the letter sequences lost.
TEST(LetterSequences, GoWithTheEditDistance) {
  std::vector<double> far, lost;
  for (const char* table :
       {"marking_attempts.tsv", "marking_attempts_more.tsv"}) {
    for (const TableRow& row : test_rows(table)) {
      const std::string a = read_written(row.cell(0)).signs;
      const std::string b = read_written(row.cell(1)).signs;
      const int steps = distance(a, b);
      EXPECT_EQ(edit_distance(a, b, 100), steps) << a << " " << b;
      const MarkedAttempt marked = ground().mark(a, b);
      const auto longest = static_cast<double>(std::max(a.size(), b.size()));
      far.push_back(steps / longest);
      lost.push_back(1.0 - static_cast<double>(marked.sequences.correct) /
                               marked.sequences.possible);
      EXPECT_EQ(marked.right, steps == 0) << a << " " << b;
    }
  }
  EXPECT_GT(correlation(far, lost), 0.75);
}

}  // namespace
}  // namespace sheaf
