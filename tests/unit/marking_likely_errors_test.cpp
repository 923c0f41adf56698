// The likeliest misspellings of a word, and what to say to each.

#include "marking/likely_errors.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "marking_data.h"

namespace sheaf {
namespace {

std::vector<LikelyError> errors_of(std::string_view word,
                                   std::size_t most = 2) {
  LikelyErrorOptions options;
  options.is_word = ground().options.is_word;
  return likely_errors(ground().spellings, ground().read(word), options, most);
}

// Common practice, no source: errors that teachers expect of these words.
TEST(LikelyErrors, AreThoseThatTeachersExpect) {
  struct Row {
    std::string_view word, one, other;
  };
  constexpr Row kRows[] = {
      {"rain", "rane", "ran"},         {"ship", "sip", "shep"},
      {"train", "chrain", "trane"},    {"stop", "sop", "stup"},
      {"duck", "duk", "deck"},         {"knee", "nee", "kne"},
      {"girl", "gerl", "gril"},        {"jumped", "jumpt", "juped"},
      {"hopping", "hoping", "hoppin"}, {"making", "makeing", "makin"},
      {"cake", "cak", "kake"},         {"light", "lite", "lit"},
      {"six", "siks", "cix"},          {"queen", "kween", "quen"},
  };
  for (const Row& row : kRows) {
    const auto errors = errors_of(row.word);
    ASSERT_EQ(errors.size(), 2U) << row.word;
    EXPECT_EQ(errors[0].written, row.one) << row.word;
    EXPECT_EQ(errors[1].written, row.other) << row.word;
  }
  EXPECT_EQ(errors_of("babies")[0].written, "babys");
  EXPECT_EQ(errors_of("don't")[0].written, "dont");
}

// Each of them, marked as an attempt, fails at the grapheme that it is about.
TEST(LikelyErrors, AgreeWithMarking) {
  int seen = 0, same_cause = 0;
  for (const ListedWord& word : ground().words) {
    if (!word.everyday ||
        word.spelling.find_first_of("-'") != std::string::npos) {
      continue;
    }
    const Reading reading = ground().read(word.spelling);
    for (const LikelyError& error : errors_of(word.spelling, 4)) {
      ASSERT_LT(error.grapheme, reading.units.size()) << word.spelling;
      const MarkedAttempt marked = mark_attempt(
          ground().spellings, reading, error.written, ground().options);
      EXPECT_FALSE(marked.right) << word.spelling << " " << error.written;
      EXPECT_FALSE(error.cue.text.empty());
      // “first” and “hear” are words of the cues themselves.
      if (error.written.size() > 3 && error.written != "first" &&
          error.written != "hear") {
        EXPECT_EQ(error.cue.text.find(" " + error.written + " "),
                  std::string::npos)
            << error.cue.text;
      }
      ++seen;
      const Cause found = marked.graphemes[error.grapheme].cause;
      const bool extra =
          !marked.extra.empty() && marked.extra.front().cause == error.cause;
      if (found == error.cause || extra) ++same_cause;
    }
  }
  EXPECT_GT(seen, 3000);
  EXPECT_GE(same_cause * 100, seen * 90) << same_cause << " of " << seen;
}

TEST(LikelyErrors, ThePatternsGraphemesComeFirst) {
  LikelyErrorOptions options;
  const std::uint8_t units[] = {2};
  options.pattern_units = units;
  const auto errors =
      likely_errors(ground().spellings, ground().read("train"), options);
  ASSERT_EQ(errors.size(), 2U);
  EXPECT_EQ(errors[0].grapheme, 2U);
}

// In a lesson about soft c, dise comes before a turned letter.
TEST(LikelyErrors, TheLikeliestOfThePatternComesFirst) {
  struct Row {
    std::string_view word, pattern, one;
  };
  constexpr Row kRows[] = {
      {"dice", "soft_c", "dise"},     {"decide", "soft_c", "deside"},
      {"badge", "dge", "baj"},        {"lodge", "dge", "loj"},
      {"duck", "ck", "duk"},          {"ride", "i_e", "rid"},
      {"dish", "sh", "dis"},          {"bring", "ng", "brin"},
      {"bench", "ch_final", "bensh"}, {"king", "k_eiy", "cing"},
  };
  for (const Row& row : kRows) {
    const Reading reading = ground().read(row.word);
    const PatternPlace* place = reading.find(ground().pattern(row.pattern));
    ASSERT_NE(place, nullptr) << row.word;
    LikelyErrorOptions options;
    options.pattern_units = place->units;
    options.is_word = ground().options.is_word;
    const auto errors = likely_errors(ground().spellings, reading, options);
    ASSERT_FALSE(errors.empty()) << row.word;
    EXPECT_EQ(errors[0].written, row.one) << row.word;
  }
}

TEST(LikelyErrors, AnyWordIsLookedAt) {
  for (const std::string& word :
       {std::string("a"), std::string("I"), std::string(64, 'e'),
        std::string("xqzzt"), std::string("x-ray"), std::string()}) {
    EXPECT_LE(errors_of(word).size(), 2U);
  }
}

TEST(LikelyErrors, NoneIsRude) {
  for (const char* word : {"six", "shirt", "thick", "duck", "fog", "pies"}) {
    for (const LikelyError& error : errors_of(word, 9)) {
      EXPECT_NE(error.written, "sex");
      EXPECT_NE(error.written, "shit");
    }
  }
}

// Before it is told which of the two is meant, "one way to write it" helps
// nobody.
TEST(LikelyErrors, SayOfAnotherWordThatItIsOne) {
  LikelyErrorOptions options;
  options.is_word = ground().options.is_word;
  options.is_common_word = ground().options.is_common_word;
  options.sentence = "The mail came.";
  const auto errors =
      likely_errors(ground().spellings, ground().read("mail"), options, 6);
  const auto male = std::ranges::find(errors, "male", &LikelyError::written);
  ASSERT_NE(male, errors.end());
  EXPECT_EQ(male->cue.kind, CueKind::other_word);
  EXPECT_NE(male->cue.text.find("The mail came."), std::string::npos);
}

}  // namespace
}  // namespace sheaf
