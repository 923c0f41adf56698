// What the sort of pictures takes from the word list without reading a word.

#include <gtest/gtest.h>

#include "pictures/picture_words.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

TEST(PictureWords, HaveAsManySyllablesInTheListAsWhenRead) {
  for (const PictureWord& row : picture_words()) {
    for (const Accent accent : {Accent::general_american, Accent::british,
                                Accent::scottish, Accent::australian}) {
      Conventions conventions;
      conventions.accent = accent;
      EXPECT_EQ(
          shared_phonics().syllables(row.word),
          shared_phonics().first_reading(row.word, conventions)->syllables())
          << row.word;
    }
  }
  EXPECT_EQ(shared_phonics().syllables("blorf"), 1);
}

}  // namespace
}  // namespace sheaf
