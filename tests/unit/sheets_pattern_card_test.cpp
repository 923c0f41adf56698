// A pattern is taught as what it is: what its card shows, by its kind. The
// expected values were written before looking; they follow from the words.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "sheets/pattern_card.h"
#include "unit/analyzed_lesson_fixture.h"

namespace sheaf {
namespace {

using Look = PatternText::Card;

class PatternCardTest : public AnalyzedLessonTest {
 protected:
  // The card of a pattern with its key word.
  PatternCard card(const std::string& pattern, const std::string& word,
                   const std::string& more = {}) {
    return pattern_card(analyzed(fmt::format("{}pattern: {}\nwords: [\"{}\"]\n",
                                             more, pattern, word)),
                        0);
  }
  static std::string all(const std::vector<std::string>& texts) {
    return fmt::format("{}", fmt::join(texts, " "));
  }
};

struct Row {
  const char *pattern, *word;
  Look look;
  const char *face, *sum;
};

TEST_F(PatternCardTest, ShowsWhatThePatternIs) {
  constexpr Row kRows[] = {
      {"sh", "fish", Look::sound, "sh", ""},
      {"a_e", "cake", Look::sound, "a_e", ""},
      {"kn", "knife", Look::silent, "kn", ""},
      {"h_silent", "hour", Look::silent, "hou", ""},
      {"ch_k", "school", Look::unusual, "ch", ""},
      {"blend_l", "flag", Look::blend, "fl", ""},
      {"blend_3", "spring", Look::blend, "spr", ""},
      {"blend_3", "throw", Look::blend, "thr", ""},
      {"final_nasal", "lamp", Look::blend, "mp", ""},
      {"cvc", "ship", Look::closed, "ship", ""},
      {"ccvc", "drum", Look::closed, "drum", ""},
      {"a_open", "baby", Look::syllable, "ba·by", ""},
      {"o_open", "go", Look::syllable, "go", ""},
      {"consonant_le", "table", Look::syllable, "ta·ble", ""},
      {"double_middle", "rabbit", Look::syllable, "rab·bit", ""},
      {"ed_t", "jumped", Look::ending, "-ed", "jump + ed"},
      {"plural_s", "cups", Look::ending, "-s", "cup + s"},
      {"suffix_es", "boxes", Look::ending, "-es", "box + es"},
      {"ful_less_ness", "homeless", Look::ending, "-less", "home + less"},
      {"tion", "station", Look::ending, "-tion", ""},
      {"ous", "famous", Look::ending, "-ous", ""},
      {"able", "washable", Look::ending, "-able", ""},
      {"ture", "picture", Look::ending, "-ture", ""},
      {"ing_double", "hopping", Look::join, "hopping", "hop + ing"},
      {"ed_drop", "hoped", Look::join, "hoped", "hope + ed"},
      {"es_yi", "babies", Look::join, "babies", "baby + es"},
      {"prefix_un", "unhappy", Look::prefix, "un-", "un + happy"},
      {"prefix_un", "unhelpful", Look::prefix, "un-", "un + helpful"},
      {"prefix_in", "impossible", Look::prefix, "im-", "im + possible"},
      {"compound", "sunset", Look::parts, "sunset", "sun + set"},
      {"contraction", "don't", Look::parts, "don't", "do not"},
      {"contraction", "won't", Look::parts, "won't", "will not"},
      {"contraction", "we'll", Look::parts, "we'll", "we will"},
      {"possessive", "dog's", Look::parts, "dog's", "dog + 's"},
      {"possessive", "girls'", Look::parts, "girls'", "girls + '"},
      {"hyphen", "twenty-one", Look::parts, "twenty-one", "twenty + one"},
  };
  for (const Row& row : kRows) {
    const PatternCard made = card(row.pattern, row.word);
    EXPECT_EQ(made.look, row.look) << row.pattern << ' ' << row.word;
    EXPECT_EQ(made.face, row.face) << row.pattern << ' ' << row.word;
    EXPECT_EQ(made.sum(), row.sum) << row.pattern << ' ' << row.word;
  }
}

TEST_F(PatternCardTest, MarksAreUnderTheGraphemesOfABlend) {
  const PatternCard squ = card("blend_3", "squid");
  ASSERT_EQ(squ.touched.size(), 2U);
  EXPECT_EQ(squ.touched[1].begin, 1U);
  EXPECT_EQ(squ.touched[1].end, 3U);
  EXPECT_EQ(all(squ.said), "/s/ /kw/");
  const PatternCard final = card("final_nasal", "pond");
  ASSERT_EQ(final.touched.size(), 2U);
  EXPECT_EQ(final.touched[0].begin, 0U);
  EXPECT_EQ(all(final.said), "/n/ /d/");
  EXPECT_EQ(all(card("cvc", "duck").said), "/d/ /u/ /k/");
}

TEST_F(PatternCardTest, TheBeatIsThatOfTheVowel) {
  EXPECT_EQ(card("a_open", "baby").beat, 0);
  EXPECT_EQ(card("consonant_le", "table").beat, 1);
  EXPECT_EQ(card("double_middle", "rabbit").beat, 0);
  EXPECT_EQ(card("o_open", "hippo").beat, 1);
}

TEST_F(PatternCardTest, TheChangedLetterIsShown) {
  const PatternCard hopping = card("ing_double", "hopping");
  EXPECT_EQ(hopping.changed_begin, 3U);
  EXPECT_EQ(hopping.changed_end, 4U);
  const PatternCard cried = card("ed_yi", "cried");
  EXPECT_EQ(cried.face.substr(cried.changed_begin, 1), "i");
  EXPECT_EQ(card("ing_drop", "making").changed_end, 0U);
  EXPECT_EQ(card("ing_drop", "making").joint, Joint::dropped_e);
}

std::string told(const std::vector<PatternCard::Sounds>& sounds) {
  std::string text;
  for (const auto& s : sounds) {
    text += fmt::format("{}{} {}{}", text.empty() ? "" : ", ", s.word, s.sound,
                        s.own ? "*" : "");
  }
  return text;
}

TEST_F(PatternCardTest, AnEndingHasItsSounds) {
  EXPECT_EQ(told(card("ed_t", "helped").sounds),
            "jumped /t/*, sailed /d/, landed /id/");
  EXPECT_EQ(told(card("ed_d", "played").sounds),
            "jumped /t/, sailed /d/*, landed /id/");
  EXPECT_EQ(told(card("ed_id", "wanted").sounds),
            "jumped /t/, sailed /d/, landed /id/*");
  EXPECT_EQ(told(card("plural_z", "bees").sounds),
            "cups /s/, dogs /z/*, boxes /iz/");
  EXPECT_EQ(told(card("tion", "station").sounds), "");
}

TEST_F(PatternCardTest, LearnersAreToldOfTheKeyWord) {
  EXPECT_EQ(card("sh", "fish").learner,
            "Two letters, one sound. s and h say it together, as in fish.");
  EXPECT_EQ(card("prefix_dis_mis", "misspell").learner,
            "mis- says: in a wrong way, as in misspell.");
  EXPECT_EQ(card("ful_less_ness", "homeless").learner,
            "-less says: without it, as in homeless.");
  EXPECT_EQ(card("prefix_other", "submarine").learner,
            "sub- says: under, as in submarine.");
}

// No card shows what the catalogue calls a pattern, and no text keeps a gap.
TEST_F(PatternCardTest, EveryPatternHasACardForALearner) {
  for (const Pattern& pattern : shared_phonics().patterns().all()) {
    const PatternCard made =
        card(std::string(pattern.id), std::string(pattern.example));
    EXPECT_FALSE(made.learner.empty()) << pattern.id;
    EXPECT_EQ(made.learner.find('{'), std::string::npos) << made.learner;
    EXPECT_FALSE(made.face.empty()) << pattern.id;
    EXPECT_EQ(made.face.find(' '), std::string::npos) << made.face;
    EXPECT_EQ(made.look, find_pattern_text(pattern.id)->card) << pattern.id;
    EXPECT_EQ(column_head(analyzed_, 0).find('('), std::string::npos)
        << pattern.id;
  }
}

TEST_F(PatternCardTest, WithoutAWordOfItAPatternIsASound) {
  // Nothing can be shown of an ending that no word has.
  const PatternCard made = card("prefix_un", "fish");
  EXPECT_EQ(made.look, Look::sound);
  EXPECT_TRUE(made.sum().empty());
}

TEST_F(PatternCardTest, ASoundIsSaidAsItCanBe) {
  const AnalyzedLesson& lesson = analyzed("pattern: sh\nwords: fish\n");
  const auto said = [&](std::vector<Phoneme> sound) {
    const std::string text = how_to_say(lesson, sound);
    return text.substr(0, text.find_first_of(":."));
  };
  EXPECT_EQ(said({Phoneme::sh}), "Hold /sh/, with no “uh” after it");
  EXPECT_EQ(said({Phoneme::ch}),
            "Say /ch/ short and clean, with no “uh” after it");
  EXPECT_EQ(said({Phoneme::w}),
            "Say /w/ short and go straight into the vowel, with no “uh” "
            "between");
  EXPECT_EQ(said({Phoneme::k, Phoneme::s}),
            "Say /ks/, one sound straight after the other");
  EXPECT_EQ(said({Phoneme::aa, Phoneme::r}), "Say /ar/ in one, long and clear");
  EXPECT_EQ(said({Phoneme::ey}), "Say /ay/ by itself, long and clear");
  EXPECT_EQ(how_to_say(lesson, {}), "");
}

}  // namespace
}  // namespace sheaf
