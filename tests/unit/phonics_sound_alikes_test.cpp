// Which words have a homophone, so that they are not dictated bare.

#include <gtest/gtest.h>

#include <algorithm>

#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

Conventions said_as(std::string_view how) {
  if (how == "british") return conventions_for(Accent::british);
  if (how == "scottish") return conventions_for(Accent::scottish);
  if (how == "australian") return conventions_for(Accent::australian);
  Conventions conventions;
  conventions.cot_caught_merged = how == "cot-caught-merged";
  return conventions;
}

std::vector<std::string> alikes(std::string_view word,
                                std::string_view how = {}) {
  const Conventions conventions = said_as(how);
  return shared_phonics().sound_alikes(
      shared_phonics().read(word, conventions).front(), conventions);
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += " " + word;
  return text;
}

TEST(SoundAlikes, AreThoseOfTheTable) {
  const std::string text = test_data("phonics_sound_alikes.tsv");
  int rows = 0;
  for (const TableRow& row : table_rows(text)) {
    ++rows;
    const auto found = alikes(row.cell(0), row.cell(1));
    EXPECT_EQ(!found.empty(), row.cell(2) == "yes")
        << row.cell(0) << " (" << row.cell(1) << "):" << listed(found);
  }
  EXPECT_EQ(rows, 202);
}

TEST(SoundAlikes, AreNamed) {
  EXPECT_EQ(listed(alikes("night")), " knight");
  EXPECT_EQ(listed(alikes("Night")), " knight");
  EXPECT_EQ(listed(alikes("cent")), " scent sent");
  EXPECT_EQ(listed(alikes("red")), " read");
  EXPECT_EQ(listed(alikes("sauce", "british")), " source");
  EXPECT_EQ(listed(alikes("pass", "british")), " parse");
  // Two spellings of one word, and what the lesson's English does not write.
  EXPECT_EQ(listed(alikes("gray")), "");
  EXPECT_EQ(listed(alikes("story")), "");
  EXPECT_EQ(listed(alikes("story", "british")), " storey");
  // A form of the same word, and words that nobody would write.
  EXPECT_EQ(listed(alikes("girls")), "");
  EXPECT_EQ(listed(alikes("coming")), "");
  // Stress tells them apart.
  EXPECT_EQ(listed(alikes("insight")), "");
}

TEST(SoundAlikes, AreLookedForInAnyWord) {
  for (const std::string& word :
       {std::string("a"), std::string("xqzzt"), std::string(64, 'e'),
        std::string("x-ray"), std::string("o'clock")}) {
    EXPECT_LE(alikes(word).size(), 5U) << word;
  }
  EXPECT_TRUE(shared_phonics().sound_alikes(Reading{}, {}).empty());
}

}  // namespace
}  // namespace sheaf
