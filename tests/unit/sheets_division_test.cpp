#include <gtest/gtest.h>

#include "phonics/division.h"
#include "sheets/word_division.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

Reading reading_of(std::string_view word) {
  return shared_phonics().read(word, Conventions{}).front();
}

std::string divided(std::string_view word) {
  std::string text;
  for (const std::string& piece :
       divided_letters(reading_of(word), shared_phonics())) {
    text += (text.empty() ? "" : "-") + piece;
  }
  return text;
}

std::string built(std::string_view word) {
  const EndingAnalysis parts =
      base_and_ending(reading_of(word), shared_phonics());
  // Searches ask for it by the word, before and after it is remembered.
  for (int i = 0; i < 2; ++i) {
    const EndingAnalysis searched =
        base_and_ending(word, Conventions{}, shared_phonics());
    EXPECT_EQ(searched.ending, parts.ending) << word;
    EXPECT_EQ(searched.joint, parts.joint) << word;
    EXPECT_EQ(searched.base, parts.base) << word;
  }
  if (!parts) return "";
  return parts.base + "+" + std::string(ending_text(parts.ending)) + " " +
         std::string(change_name(parts.joint));
}

// Divisions as teachers make them (common practice, no source): closed
// syllables keep their consonant, open ones do not, doubled letters part.
TEST(Syllables, CloseAfterAShortVowel) {
  for (const char* word :
       {"rab-bit", "les-son", "but-ter-fly", "mag-net", "bas-ket", "sis-ter",
        "lem-on", "riv-er", "fin-ish", "drag-on", "el-e-phant", "pub-lish",
        "kit-ten", "tun-nel", "hap-pen", "pump-kin"}) {
    std::string whole = word;
    std::erase(whole, '-');
    EXPECT_EQ(divided(whole), word);
  }
}

TEST(Syllables, StayOpenAfterALongOrWeakVowel) {
  for (const char* word : {"ti-ger", "mu-sic", "ba-by", "ro-bot", "a-bout",
                           "to-ma-to", "pa-per", "o-pen", "spi-der"}) {
    std::string whole = word;
    std::erase(whole, '-');
    EXPECT_EQ(divided(whole), word);
  }
}

// An ending is one piece (decided so; dictionaries part run-ning). It makes no
// beat where it has no vowel of its own.
TEST(Syllables, KeepEndingsWhole) {
  for (const char* word :
       {"land-ed", "want-ed", "runn-ing", "stopp-ing", "mak-ing", "jump-ing",
        "wish-es", "slow-ly", "help-ful", "hunt-er", "bigg-est", "cried",
        "stopped", "jumped", "stud-ied"}) {
    std::string whole = word;
    std::erase(whole, '-');
    EXPECT_EQ(divided(whole), word);
  }
}

TEST(Syllables, KeepGraphemesWhole) {
  for (const char* word :
       {"chick-en", "pock-et", "fath-om", "ta-ble", "pick-le", "can-dle",
        "lit-tle", "cup-cake", "in-side", "bed-room", "path-way", "rain-bow",
        "tax-i", "lis-ten", "cas-tle", "shad-ow", "fa-ther", "safe-ty"}) {
    std::string whole = word;
    std::erase(whole, '-');
    EXPECT_EQ(divided(whole), word);
  }
}

// -en behind a word that sounds as it does by itself.
TEST(Syllables, KeepTheWordBeforeEn) {
  for (const char* word :
       {"fright-en", "bright-en", "tight-en", "straight-en", "sharp-en",
        "gold-en", "wood-en", "dark-en", "length-en", "thick-en",
        "fright-en-ing", "o-pen", "ba-con", "lis-ten", "to-ken", "e-ven",
        "gar-den", "ra-ven"}) {
    std::string whole = word;
    std::erase(whole, '-');
    EXPECT_EQ(divided(whole), word);
  }
}

TEST(Syllables, MakeUpTheWordAgain) {
  for (const char* word : {"ship", "a", "strengths", "accomplishment",
                           "Quinlan", "shadowboxing", "o'clock"}) {
    std::string whole;
    const auto pieces = divided_letters(reading_of(word), shared_phonics());
    for (const std::string& piece : pieces) {
      EXPECT_FALSE(piece.empty()) << word;
      whole += piece;
    }
    EXPECT_EQ(whole, word);
  }
  EXPECT_EQ(divided_letters(reading_of("splash"), shared_phonics()).size(), 1U);
}

TEST(Endings, AreTakenOffWithTheChangeThatTheyMade) {
  EXPECT_EQ(built("fishing"), "fish+ing nothing changes");
  EXPECT_EQ(built("wishes"), "wish+es nothing changes");
  EXPECT_EQ(built("cups"), "cup+s nothing changes");
  EXPECT_EQ(built("jumped"), "jump+ed nothing changes");
  EXPECT_EQ(built("called"), "call+ed nothing changes");
  EXPECT_EQ(built("shopping"), "shop+ing the last letter is doubled");
  EXPECT_EQ(built("stopped"), "stop+ed the last letter is doubled");
  EXPECT_EQ(built("bigger"), "big+er the last letter is doubled");
  EXPECT_EQ(built("hoped"), "hope+ed e is dropped");
  EXPECT_EQ(built("shaking"), "shake+ing e is dropped");
  EXPECT_EQ(built("shiny"), "shine+y e is dropped");
  EXPECT_EQ(built("cried"), "cry+ed y changes to i");
  EXPECT_EQ(built("babies"), "baby+es y changes to i");
  EXPECT_EQ(built("happier"), "happy+er y changes to i");
  EXPECT_EQ(built("happily"), "happy+ly y changes to i");
  EXPECT_EQ(built("helpful"), "help+ful nothing changes");
  EXPECT_EQ(built("knives"), "knife+es f changes to v");
  EXPECT_EQ(built("quizzes"), "quiz+es the last letter is doubled");
  EXPECT_EQ(built("panicked"), "panic+ed c becomes ck");
  EXPECT_EQ(built("dying"), "die+ing ie changes to y");
  EXPECT_EQ(built("girl's"), "girl+'s nothing changes");
}

TEST(Endings, AreNotSeenWhereThereAreNone) {
  for (const char* word :
       {"bring", "shed", "sister", "bus", "king", "corner", "family", "red",
        "fish", "unhelpful", "girls'", "carryed", "bakery"}) {
    EXPECT_EQ(built(word), "") << word;
  }
}

}  // namespace
}  // namespace sheaf
