// Words that no card bears as the word that stands for a sound.

#include <gtest/gtest.h>

#include "phonics/key_word_fit.h"

namespace sheaf {
namespace {

TEST(KeyWordFit, LeavesOutWhatAClassGigglesAtAndItsForms) {
  for (const char* word :
       {"toilet", "Toilets", "pants", "kiss", "kissed", "fattest", "potty"}) {
    EXPECT_FALSE(may_be_key_word(word)) << word;
  }
  for (const char* word :
       {"coin", "ship", "hat", "fish", "chestnut", "ring", "net", "rest", ""}) {
    EXPECT_TRUE(may_be_key_word(word)) << word;
  }
}

}  // namespace
}  // namespace sheaf
