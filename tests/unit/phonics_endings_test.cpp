// What the patterns know of a word's endings, its compound and its vowels.

#include <gtest/gtest.h>

#include "phonics/explain.h"
#include "phonics/letter_map.h"
#include "phonics/word_facts.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

Reading reading_of(std::string_view word) {
  return shared_phonics().read(word, Conventions{}).front();
}

WordFacts facts_of(std::string_view word) {
  return find_facts(reading_of(word), map_letters(word),
                    shared_phonics().lexicon());
}

PatternId pattern(std::string_view id) {
  const PatternCatalogue& all = shared_phonics().patterns();
  const Pattern* found = all.by_id(id);
  EXPECT_NE(found, nullptr) << id;
  return all.id_of(*found);
}

// "-s -er, teach": the endings from the outside in, and the last base.
std::string peeled(std::string_view word) {
  std::string text, base(word);
  for (const auto& ending : facts_of(word).endings) {
    text += "-" + std::string(ending_text(ending.analysis.ending)) + " ";
    base = ending.analysis.base;
  }
  return text + base;
}

TEST(PeeledEndings, StandOneAfterTheOther) {
  EXPECT_EQ(peeled("teachers"), "-s -er teach");
  EXPECT_EQ(peeled("runners"), "-s -er run");
  EXPECT_EQ(peeled("hopefully"), "-ly -ful hope");
  EXPECT_EQ(peeled("carelessness"), "-ness -less care");
  EXPECT_EQ(peeled("teacher's"), "-'s -er teach");
  EXPECT_EQ(peeled("girls'"), "-'s -s girl");
  EXPECT_EQ(peeled("shinier"), "-er -y shine");
  EXPECT_EQ(peeled("sunglasses"), "-es sunglass");
  EXPECT_EQ(peeled("brothers"), "-s brother");
  EXPECT_EQ(peeled("butter"), "butter");
}

// No ending stands behind a plural: teases is from tease, tensed from tense.
TEST(PeeledEndings, DoNotStandBehindAPlural) {
  EXPECT_EQ(peeled("teases"), "-s tease");
  EXPECT_EQ(peeled("tensed"), "-ed tense");
  EXPECT_EQ(peeled("cleansing"), "-ing cleanse");
  EXPECT_EQ(peeled("wishes"), "-es wish");
}

TEST(PeeledEndings, ShowTheirPatternsInTheirOwnPlace) {
  const Reading teachers = reading_of("teachers");
  const PatternPlace* er = teachers.find(pattern("er_est"));
  ASSERT_NE(er, nullptr);
  EXPECT_EQ(er->units, std::vector<std::uint8_t>{3});  // er, not s
  const PatternPlace* s = teachers.find(pattern("plural_z"));
  ASSERT_NE(s, nullptr);
  EXPECT_EQ(s->units, std::vector<std::uint8_t>{4});
  // The y of sunny and the ly of friendly are not there to be seen.
  EXPECT_EQ(reading_of("sunnier").find(pattern("y_double")), nullptr);
  EXPECT_EQ(reading_of("friendlier").find(pattern("ly")), nullptr);
}

// The vowel before a dropped e is open only because of the ending.
TEST(OpenVowels, AreJudgedInTheirPlace) {
  const Reading finalized = reading_of("finalized");
  const PatternPlace* open = finalized.find(pattern("i_open"));
  ASSERT_NE(open, nullptr);
  EXPECT_EQ(open->units, std::vector<std::uint8_t>{1});
  EXPECT_NE(reading_of("united").find(pattern("u_open")), nullptr);
  EXPECT_NE(reading_of("cradling").find(pattern("a_open")), nullptr);
  EXPECT_EQ(reading_of("hired").find(pattern("i_open")), nullptr);
  for (const char* word : {"makers", "bakers", "baking"}) {
    EXPECT_EQ(reading_of(word).find(pattern("a_open")), nullptr) << word;
  }
  for (const char* word : {"writers", "drivers", "shinier"}) {
    EXPECT_EQ(reading_of(word).find(pattern("i_open")), nullptr) << word;
  }
  EXPECT_EQ(reading_of("users").find(pattern("u_open")), nullptr);
}

TEST(Compounds, AreSeenBehindTheirEndings) {
  for (const char* word :
       {"lighthouses", "fireplaces", "suitcases", "bookcases", "sunglasses",
        "babysitters", "fireman's", "databases", "sunbathing"}) {
    EXPECT_GT(facts_of(word).compound_at, 0U) << word;
  }
  EXPECT_EQ(facts_of("lighthouses").compound_at, 3U);
}

// Those that only our list knows, with their inflected forms.
TEST(Compounds, WithAChangedSoundAreListed) {
  for (const char* word :
       {"necklace", "necklaces", "cupboard", "cupboards", "maybe", "cannot",
        "goodbye", "woodpecker", "woodpeckers", "breakfast", "grandma's"}) {
    EXPECT_GT(facts_of(word).compound_at, 0U) << word;
  }
  for (const char* word : {"surface", "husband", "carpets", "buttons"}) {
    EXPECT_EQ(facts_of(word).compound_at, 0U) << word;
  }
}

std::string misses_of(std::string_view id) {
  std::string text;
  for (const NearMiss& miss : shared_phonics().near_misses(pattern(id), 6)) {
    text += miss.word + ": " + miss.why_not + "\n";
  }
  return text;
}

bool has_open_letter(const std::string& word, char letter) {
  const std::size_t at = word.find(letter);
  return at != std::string::npos &&
         (at + 1 == word.size() || at + 2 < word.size());
}

TEST(NearMisses, HaveTheLettersWhereThePatternWantsThem) {
  const std::string able = misses_of("able");
  EXPECT_NE(able.find("table: its a says /ay/\n"), std::string::npos) << able;
  for (const NearMiss& miss :
       shared_phonics().near_misses(pattern("able"), 6)) {
    EXPECT_TRUE(miss.word.ends_with("able") || miss.word.ends_with("ably"))
        << miss.word;
  }
  for (const NearMiss& miss :
       shared_phonics().near_misses(pattern("ible"), 6)) {
    EXPECT_TRUE(miss.word.ends_with("ible") || miss.word.ends_with("ibly"))
        << miss.word;
  }
  const auto open = shared_phonics().near_misses(pattern("o_open"), 6);
  EXPECT_FALSE(open.empty());
  for (const NearMiss& miss : open) {
    EXPECT_TRUE(has_open_letter(miss.word, 'o')) << miss.word;
    EXPECT_NE(miss.why_not.find('o'), std::string::npos) << miss.why_not;
  }
}

// r after u is a part of the vowel's grapheme, whether y is heard or not.
TEST(RVowels, AreTheSameWithAndWithoutY) {
  EXPECT_EQ(graphemes_text(reading_of("fury")), "f ur y");
  EXPECT_EQ(graphemes_text(reading_of("jury")), "j ur y");
  EXPECT_EQ(graphemes_text(reading_of("during")), "d ur i ng");
  EXPECT_EQ(graphemes_text(reading_of("curious")), "c ur i ou s");
  EXPECT_EQ(graphemes_text(reading_of("rural")), "r ur a l");
  EXPECT_EQ(reading_of("jury").boxes(), 3);
}

}  // namespace
}  // namespace sheaf
