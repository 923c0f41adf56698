// What a teacher is asked about for a word that nobody knows.

#include <gtest/gtest.h>

#include <sstream>

#include "phonics/near_words.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

std::vector<std::string> meant(std::string_view word) {
  return shared_phonics().meant_words(word, {});
}

// The list was written before the program was asked.
TEST(NearWords, TheWordThatWasMeantComesFirst) {
  std::istringstream rows(test_data("phonics_one_edit.tsv"));
  int all = 0, first = 0, named = 0;
  for (std::string row; std::getline(rows, row);) {
    const std::size_t tab = row.find('\t');
    if (row.starts_with('#') || tab == std::string::npos) continue;
    const std::string typed = row.substr(0, tab), wanted = row.substr(tab + 1);
    const std::vector<std::string> words = meant(typed);
    ++all;
    if (wanted == "-") {
      EXPECT_TRUE(words.empty()) << typed << ": " << words.front();
      first += words.empty() ? 1 : 0;
      named += words.empty() ? 1 : 0;
      continue;
    }
    const bool is_first = !words.empty() && words.front() == wanted;
    const bool is_named = std::ranges::find(words, wanted) != words.end();
    first += is_first ? 1 : 0;
    named += is_named ? 1 : 0;
    EXPECT_TRUE(is_named) << typed << " for " << wanted;
    if (!is_first && !words.empty()) {
      std::cout << typed << ": " << words.front() << ", not " << wanted << "\n";
    }
  }
  std::cout << "meant words named first: " << first << ", named: " << named
            << " of " << all << "\n";
  EXPECT_GT(all, 50);
  EXPECT_GE(first * 100, all * 95);
}

TEST(NearWords, NamesOnlyForAWordWithACapital) {
  EXPECT_EQ(std::ranges::count(meant("Lodnon"), "London"), 1);
  EXPECT_EQ(std::ranges::count(meant("lodnon"), "London"), 0);
  EXPECT_EQ(std::ranges::count(meant("lodnon"), "london"), 0);
  // A sentence begins with a capital, so a word is as good as a name.
  EXPECT_EQ(meant("Fihs").front(), "fish");
}

TEST(NearWords, NothingThatMayNotBeSuggested) {
  const auto words = shared_phonics().meant_words(
      "fihs", [](std::string_view word) { return word != "fish"; });
  EXPECT_EQ(std::ranges::count(words, "fish"), 0);
}

TEST(NearWords, NothingForKnownWordsAndForWordsOfTwoLetters) {
  EXPECT_TRUE(meant("fish").empty());
  EXPECT_TRUE(meant("zq").empty());
}

TEST(NearWords, OneOfEachSlipIsFound) {
  const Lexicon& lexicon = shared_phonics().lexicon();
  for (const char* wrong : {"shelff", "shlf", "shalf", "shefl"}) {
    const auto words = near_words(wrong, lexicon, {});
    EXPECT_EQ(std::ranges::count(words, "shelf"), 1) << wrong;
  }
  EXPECT_TRUE(near_words("shlff", lexicon, {}).empty());
}

}  // namespace
}  // namespace sheaf
