// Patterns that a lesson defines for itself.

#include <gtest/gtest.h>

#include "files/disk_files.h"
#include "phonics/phonics.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

Phonics with_own(const std::string& written) {
  const std::string own[] = {written};
  return Phonics(disk(), SHEAF_WORD_LIST, own);
}

bool has(const Phonics& phonics, const std::string& word,
         const std::string& pattern) {
  const auto found = phonics.patterns().find_exact(pattern);
  EXPECT_TRUE(found) << pattern;
  const Reading reading = phonics.read(word, Conventions{}).front();
  return reading.find(*found) != nullptr;
}

TEST(OwnPattern, IsFoundByGraphemeAndSound) {
  const std::string written = "ch=/k/ que=/k/";
  const Phonics phonics = with_own(written);
  EXPECT_TRUE(has(phonics, "anchor", written));
  EXPECT_TRUE(has(phonics, "unique", written));
  EXPECT_FALSE(has(phonics, "chin", written));
  EXPECT_FALSE(has(phonics, "cake", written));
  const Pattern& pattern = phonics.patterns().all().back();
  EXPECT_EQ(pattern.name, "ch as /k/, que as /k/");
  EXPECT_EQ(pattern.teaches.size(), 2U);
  EXPECT_TRUE(pattern.of_units);
}

TEST(OwnPattern, WithoutASoundTheGraphemeMaySayAnything) {
  const Phonics phonics = with_own("ough oa=/oh/");
  EXPECT_TRUE(has(phonics, "though", "ough oa=/oh/"));
  EXPECT_TRUE(has(phonics, "bought", "ough oa=/oh/"));
  EXPECT_TRUE(has(phonics, "boat", "ough oa=/oh/"));
  EXPECT_FALSE(has(phonics, "broad", "ough oa=/oh/"));
}

TEST(OwnPattern, SplitVowelsAndShortOCount) {
  EXPECT_TRUE(has(with_own("i_e=/ee/"), "machine", "i_e=/ee/"));
  EXPECT_FALSE(has(with_own("i_e=/ee/"), "bike", "i_e=/ee/"));
  EXPECT_TRUE(has(with_own("o=/o/"), "pond", "o=/o/"));
  EXPECT_TRUE(has(with_own("o=/o/"), "soft", "o=/o/"));
}

TEST(OwnPattern, ShortOIsNotTheVowelOfFather) {
  const Phonics short_o = with_own("a=/o/"), father = with_own("a=/ah/");
  EXPECT_TRUE(has(short_o, "watch", "a=/o/"));
  EXPECT_FALSE(has(short_o, "father", "a=/o/"));
  EXPECT_TRUE(has(father, "father", "a=/ah/"));
  EXPECT_FALSE(has(father, "watch", "a=/ah/"));
  EXPECT_EQ(short_o.patterns().all().back().name, "a as /o/");
  EXPECT_EQ(with_own("o=/o/").patterns().all().back().name, "o as /o/");
  EXPECT_EQ(father.patterns().all().back().name, "a as /ah/");
}

TEST(OwnPattern, SaysWhyAWordLacksIt) {
  const Phonics phonics = with_own("ch=/k/");
  const auto id = *phonics.patterns().find_exact("ch=/k/");
  const Reading chin = phonics.read("chin", Conventions{}).front();
  EXPECT_EQ(phonics.why_not(chin, id, {}), "its ch says /ch/");
  EXPECT_FALSE(phonics.words_with(id, 3).empty());
}

TEST(OwnPattern, NonsenseIsRefused) {
  const Phonics& phonics = shared_phonics();
  for (const char* good : {"sh=/sh/", "x=/ks/", "qu=/kw/", "x=/k s/", "u=/yoo/",
                           "ed=/id/", "er=/er/", "c=s", "le=/ul/"}) {
    EXPECT_EQ(phonics.fault_of_own_pattern(good), "") << good;
  }
  for (const char* bad :
       {"sh=/zz/", "sh=/qqq/", "sh=", "sh=//", "=/k/", "sh=/", "s1=/k/",
        "a_b=/k/", "sh=/shsh/", "x=/k s k s/", "abcdefgh=/k/"}) {
    EXPECT_NE(phonics.fault_of_own_pattern(bad), "") << bad;
  }
}

TEST(HandSplit, NonsenseSoundsAreRefused) {
  const std::vector<HandUnit> good = {{"sh", "sh"}, {"e", ""}, {"d", ""}};
  EXPECT_EQ(shared_phonics().read_by_hand("shed", good, {}).fault, "");
  const std::vector<HandUnit> bad = {{"sh", "zz"}, {"e", ""}, {"d", ""}};
  const HandReading reading = shared_phonics().read_by_hand("shed", bad, {});
  EXPECT_NE(reading.fault, "");
  EXPECT_EQ(reading.part, 0);
}

}  // namespace
}  // namespace sheaf
