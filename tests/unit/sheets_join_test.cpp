#include <gtest/gtest.h>

#include <sstream>

#include "phonics/prefix_meanings.h"
#include "sheets/join_questions.h"
#include "sheets/word_division.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

// What the questions lead to (English curriculum 2013, pages 51 and 56; the
// words are memory). seing and openned are wrong: such words go their own way.
TEST(JoinQuestions, LeadToTheWord) {
  struct Row {
    std::string_view base;
    Ending ending;
    std::string_view word;
  };
  constexpr Row kRows[] = {
      {"hope", Ending::ed, "hoped"},    {"hop", Ending::ed, "hopped"},
      {"cry", Ending::ed, "cried"},     {"cry", Ending::ing, "crying"},
      {"play", Ending::ed, "played"},   {"jump", Ending::ed, "jumped"},
      {"rain", Ending::ing, "raining"}, {"fix", Ending::ed, "fixed"},
      {"snow", Ending::ing, "snowing"}, {"quit", Ending::ing, "quitting"},
      {"gym", Ending::s, "gyms"},       {"sun", Ending::y, "sunny"},
      {"noise", Ending::y, "noisy"},    {"happy", Ending::ness, "happiness"},
      {"hope", Ending::ful, "hopeful"}, {"sad", Ending::ly, "sadly"},
      {"big", Ending::est, "biggest"},  {"see", Ending::ing, "seing"},
      {"open", Ending::ed, "openned"}};
  for (const Row& row : kRows) {
    EXPECT_EQ(joined_by_questions(row.base, row.ending), row.word);
  }
}

TEST(Prefixes, HaveTheMeaningsThatWereWrittenBefore) {
  std::istringstream file(test_data("prefix_meanings.tsv"));
  int rows = 0;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.starts_with('#')) continue;
    const std::size_t tab = line.find('\t');
    const std::string word = line.substr(0, tab);
    const std::string wanted = line.substr(tab + 1);
    const PrefixedWord parts = prefix_and_base(
        shared_phonics().read(word, Conventions{}).front(), shared_phonics());
    EXPECT_EQ(parts.meaning.empty() ? "-" : parts.meaning, wanted) << word;
    ++rows;
  }
  EXPECT_EQ(rows, 72);
}

TEST(Prefixes, MeanTheSameBehindAForm) {
  EXPECT_EQ(prefix_meaning("re", "writes"), "writes again");
  EXPECT_EQ(prefix_meaning("un", "readable"), "not readable");
  EXPECT_EQ(prefix_meaning("sub", "marines"), "");
  EXPECT_EQ(prefix_meaning("re", "turn"), "");
}

}  // namespace
}  // namespace sheaf
