// How many of the words that people meet are known. Lists: SCOWL (package
// scowl), american and english words of sizes 10 to 35; Sheaf's own everyday
// words.

#include <gtest/gtest.h>

#include <fstream>
#include <set>

#include "phonics/phonics.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

TEST(Coverage, CommonWordsAreKnown) {
  const std::set<std::string> words = scowl_words(35);
  ASSERT_GE(words.size(), 39000U);
  std::size_t known = 0;
  std::string unknown;
  for (const std::string& word : words) {
    if (shared_phonics().knows(word)) {
      ++known;
    } else if (unknown.size() < 300) {
      unknown += " " + word;
    }
  }
  const double share =
      100.0 * static_cast<double>(known) / static_cast<double>(words.size());
  std::cout << "known: " << known << " of " << words.size() << ", " << share
            << "%\n";
  EXPECT_GE(share, 98.5) << unknown;
}

TEST(Coverage, EverydayWordsAreAllKnown) {
  std::ifstream file(SHEAF_DATA "/everyday_words.txt");
  ASSERT_TRUE(file);
  int words = 0;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#')) continue;
    for (const std::string_view word : split_at(line, ' ')) {
      if (word.empty()) continue;
      ++words;
      EXPECT_TRUE(shared_phonics().knows(word)) << word;
    }
  }
  EXPECT_GE(words, 1200);
}

TEST(Coverage, CapitalisedEverydayWordsAreWords) {
  for (const std::string_view word :
       {"Monday",    "Tuesday",   "Wednesday", "Thursday", "Friday",
        "Saturday",  "Sunday",    "January",   "February", "March",
        "April",     "May",       "June",      "July",     "August",
        "September", "October",   "November",  "December", "Christmas",
        "Easter",    "Halloween", "English",   "I",        "I'm"}) {
    EXPECT_TRUE(shared_phonics().knows(word)) << word;
  }
}

TEST(Coverage, BritishSpellingsAreKnown) {
  for (const std::string_view word :
       {"colour", "favourite", "neighbour", "centre", "theatre", "realise",
        "organise", "travelled", "jewellery", "grey", "tyre", "plough",
        "programme", "litre", "metre", "mum", "maths"}) {
    EXPECT_TRUE(shared_phonics().knows(word)) << word;
  }
}

}  // namespace
}  // namespace sheaf
