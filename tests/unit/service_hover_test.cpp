// What is said of what stands at a place.

#include <gtest/gtest.h>

#include "service_marked.h"

namespace sheaf::test {
namespace {

std::string said(Marked& marked) {
  const auto hover = marked.service.hover(marked.path(), marked.at());
  if (!hover) return "";
  std::string text = "[" + marked.part(hover->range) + "]";
  for (const std::string& line : hover->lines) text += "\n" + line;
  return text;
}

TEST(Hover, TellsOfAWordInAList) {
  Marked marked("pattern: sh\nwords: ship sp^lash fish dish shed\n");
  const std::string text = said(marked);
  EXPECT_TRUE(text.starts_with("[splash]\n`splash`: s p l a sh\n")) << text;
  EXPECT_NE(text.find("\nsounds: /s/ /p/ /l/ /a/ /sh/\n"), std::string::npos);
  EXPECT_NE(text.find("5 boxes"), std::string::npos) << text;
}

// In a list, in a sentence, and where the lesson divides it by hand.
TEST(Hover, TellsHowAWordDividesIntoSyllables) {
  const std::string rest =
      "words: rab^bit table shelf\nsentences: |\n  A rabbit is here.\n";
  Marked listed("pattern: sh\n" + rest);
  EXPECT_NE(said(listed).find(
                "\nsyllables: rab·bit; divided between two consonants\n"
                "rab, bit: closed: one vowel with a consonant behind it, "
                "mostly short\n"),
            std::string::npos)
      << said(listed);
  Marked two("pattern: sh\nwords: shelf ta^ble\n");
  EXPECT_NE(said(two).find("\nta: open: it ends in its one vowel, which "
                           "mostly says its name\nble: consonant and le: "),
            std::string::npos)
      << said(two);
  Marked read("pattern: sh\nwords: shelf ship\nsentences: |\n  The sev^en.\n");
  EXPECT_NE(said(read).find("\nsyllables: sev·en; divided after one "
                            "consonant\nsev, en (its vowel is weak): closed"),
            std::string::npos)
      << said(read);
  Marked short_one("pattern: sh\nwords: she^lf ship\n");
  EXPECT_EQ(said(short_one).find("syllables"), std::string::npos);
}

TEST(Hover, TellsOfAWordInASentenceAndWhyItIsNoPatternWord) {
  Marked marked(
      "pattern: sh\nwords: ship fish dish shed shop\n"
      "sentences: |\n  The c^hef has a dish.\n");
  const std::string text = said(marked);
  EXPECT_TRUE(text.starts_with("[chef]\n`chef`: ch e f\n")) << text;
  EXPECT_NE(text.find("\nnot "), std::string::npos) << text;
}

TEST(Hover, SaysFromWhichStepAWordCanBeRead) {
  Marked marked(
      "pattern: sh\nsequence:\n  steps:\n    - patterns: short_i\n"
      "    - patterns: sh\n    - patterns: oa\nstep: 2\n"
      "words: ship fish dish wish shi^n\ndictate-words: ship\n"
      "sentences: |\n  The boat is a ship.\n");
  const std::string text = said(marked);
  EXPECT_NE(text.find("can it be read: decodable"), std::string::npos) << text;
  Marked later(
      "pattern: sh\nsequence:\n  steps:\n    - patterns: short_i\n"
      "    - patterns: sh\n    - patterns: oa\nstep: 2\n"
      "words: ship fish dish wish shin\ndictate-words: ship\n"
      "sentences: |\n  The bo^at is a ship.\n");
  EXPECT_NE(said(later).find("not yet: `oa`"), std::string::npos)
      << said(later);
}

TEST(Hover, SaysThatAnUnknownWordIsAGuess) {
  Marked marked("pattern: sh\nwords: ship fish dish shed flu^shonk\n");
  EXPECT_NE(said(marked).find("does not know this word"), std::string::npos)
      << said(marked);
}

TEST(Hover, TellsOfAPattern) {
  Marked marked("pattern: a^i, ay\nwords: rain play\n");
  const std::string text = said(marked);
  EXPECT_TRUE(text.starts_with("[ai]\n`ai`: ")) << text;
  EXPECT_NE(text.find("\nthe rule: "), std::string::npos) << text;
  EXPECT_NE(text.find("\nwords that have it: "), std::string::npos);
}

TEST(Hover, TellsWhatANameMayMean) {
  Marked marked("pattern: long^ a\n");
  EXPECT_NE(said(marked).find("may be:"), std::string::npos) << said(marked);
}

TEST(Hover, TellsOfAKeyAndWhatHoldsWithoutIt) {
  Marked marked("pattern: sh\nmin^utes: 20\nwords: ship\n");
  EXPECT_EQ(said(marked),
            "[minutes]\n`minutes`: minutes a day\nas in minutes: 25\n"
            "without it: 25");
}

TEST(Hover, TellsOfSheetsAndOptionsOfALayout) {
  Marked sheet("paper: letter\nsheets:\n  - sound-bo^xes:\n      words: 8\n",
               "/desk/own.yaml");
  EXPECT_TRUE(said(sheet).starts_with("[sound-boxes]\n`sound-boxes`: "))
      << said(sheet);
  Marked option(
      "paper: letter\nsheets:\n  - sound-boxes:\n      per-p^age: 4\n",
      "/desk/own.yaml");
  EXPECT_TRUE(said(option).starts_with("[per-page]\n`per-page`: "))
      << said(option);
}

TEST(Hover, IsEmptyInRemarksAndBetweenWords) {
  Marked remark("pattern: sh # the sh^ip week\nwords: ship\n");
  EXPECT_EQ(said(remark), "");
  Marked between("pattern: sh\nwords: ship ^ shed\n");
  EXPECT_EQ(said(between), "");
}

TEST(Hover, WorksInATextThatHasErrors) {
  Marked marked("pattern: sh\nwords: sh^ip ship\nlayuot: week\n");
  EXPECT_TRUE(said(marked).starts_with("[ship]\n`ship`: sh i p\n"))
      << said(marked);
}

}  // namespace
}  // namespace sheaf::test
