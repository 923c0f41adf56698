// Unknown words: the guesser is taught without a tenth of the word families,
// and then asked for them.

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "base/shuffle.h"
#include "files/disk_files.h"
#include "lexicon/training.h"
#include "phonics/endings.h"
#include "phonics/guess_word.h"
#include "phonics/lexicon.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

// A word without its regular endings, which stands for its family.
std::string head_of_family(std::string word, const Lexicon& lexicon) {
  for (int i = 0; i < 3; ++i) {
    const EndingAnalysis ending =
        take_off_ending(word, [&](const EndingAnalysis& a) {
          const int tier = lexicon.tier(a.base);
          return tier > 0 && a.base.size() > 2 ? tier + joint_rank(a) : -1;
        });
    if (!ending) break;
    word = ending.base;
  }
  return word;
}

std::string graphemes(const Segments& segments, const Inventory& inventory) {
  std::string text;
  for (const Segment& s : segments) {
    text += inventory[s.id].grapheme();
    text += ' ';
  }
  return text;
}

TEST(Guess, HeldOutFamiliesAreSegmentedRight) {
  const LexiconFile file(disk().keep(SHEAF_WORD_LIST), SHEAF_WORD_LIST);
  const Lexicon lexicon(file);
  const Inventory& inventory = lexicon.inventory();
  std::map<std::string, std::set<std::string>> families;
  std::vector<WordRecord> taught;
  const auto held_out = [](const std::string& head) {
    return text_hash(head) % 10 == 3;
  };
  lexicon.each([&](const WordRecord& record) {
    if (record.name || record.tier == 0 || record.tier > 50 ||
        record.spelling.find('\'') != std::string::npos) {
      return true;
    }
    const std::string head = head_of_family(record.spelling, lexicon);
    if (held_out(head)) {
      families[head].insert(record.spelling);
    } else {
      taught.push_back(record);
    }
    return true;
  });
  const std::vector<GuessStep> steps = count_steps(taught);
  const GuessSources sources{
      &inventory, steps, [&](std::string_view word) {
        const bool hidden =
            held_out(head_of_family(std::string(word), lexicon));
        return hidden ? std::vector<WordRecord>{} : lexicon.readings(word);
      }};
  int right = 0;
  for (const auto& [head, words] : families) {
    bool all = true;
    for (const std::string& word : words) {
      const std::string guess =
          graphemes(guess_word(word, sources).segments, inventory);
      bool one = false;
      for (const WordRecord& record : lexicon.readings(word)) {
        one = one || graphemes(record.segments, inventory) == guess;
      }
      all = all && one;
    }
    right += all ? 1 : 0;
  }
  const double share = 100.0 * right / static_cast<double>(families.size());
  std::cout << "families with every word right: " << right << " of "
            << families.size() << ", " << share << "%\n";
  EXPECT_GE(families.size(), 2000U);
  EXPECT_GE(share, 90.0);
}

TEST(Guess, NothingIsTooStrangeForIt) {
  const LexiconFile file(disk().keep(SHEAF_WORD_LIST), SHEAF_WORD_LIST);
  const Lexicon lexicon(file);
  const GuessSources sources{
      &lexicon.inventory(), file.records<GuessStep>(Section::guesses),
      [&](std::string_view word) { return lexicon.readings(word); }};
  for (const std::string& word :
       {std::string("q"), std::string("xzq"), std::string("rrr"),
        std::string(64, 'e'), std::string(64, 'r'), std::string("tttttttt"),
        std::string("strengthshs")}) {
    const WordRecord record = guess_word(word, sources);
    std::size_t letters = 0;
    for (const Segment& s : record.segments) {
      letters += lexicon.inventory()[s.id].width();
      letters += s.split_e >= 0 ? 1 : 0;
    }
    EXPECT_EQ(letters, word.size()) << word;
  }
}

}  // namespace
}  // namespace sheaf
