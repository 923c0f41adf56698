// Dictated sentences, laid word by word against what was written.

#include "marking/mark_sentence.h"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <random>

#include "analysis/word_finder.h"
#include "marking_data.h"

namespace sheaf {
namespace {

std::vector<Reading> words_of(std::string_view sentence) {
  std::vector<Reading> words;
  for (const WordPlace& place : words_in(sentence)) {
    words.push_back(
        ground().read(sentence.substr(place.begin, place.end - place.begin)));
  }
  return words;
}

MarkedSentence mark(std::string_view target, std::string_view written) {
  return mark_sentence(ground().spellings, words_of(target), written,
                       ground().options);
}

// "the=the rain=rane(C P C) +too": a word a part, extra ones with a plus.
std::string text_of(const MarkedSentence& sentence) {
  std::string text;
  const auto add_extra = [&](std::size_t before) {
    for (const ExtraWord& extra : sentence.extra) {
      if (extra.before == before) text += fmt::format("+{} ", extra.written);
    }
  };
  for (std::size_t i = 0; i < sentence.words.size(); ++i) {
    add_extra(i);
    const MarkedWord& word = sentence.words[i];
    constexpr std::string_view kKinds = "=-<>";
    text += word.attempt.target;
    text += kKinds[static_cast<std::size_t>(word.kind)];
    text += word.attempt.written + " ";
  }
  add_extra(sentence.words.size());
  return text;
}

// Worked by hand.
TEST(MarkSentence, LaysWordsAgainstWords) {
  EXPECT_EQ(text_of(mark("The rain is here.", "The rane is, hear.")),
            "The=The rain=rane is=is, here=hear. ");
  EXPECT_EQ(text_of(mark("The rain is here.", "The is here")),
            "The=The rain- is=is here=here ");
  EXPECT_EQ(text_of(mark("The rain is here.", "The big rain is here")),
            "The=The +big rain=rain is=is here=here ");
  EXPECT_EQ(text_of(mark("I sit inside.", "I sit in side.")),
            "I=I sit=sit inside<in side. ");
  EXPECT_EQ(text_of(mark("We like a lot.", "we like alot")),
            "We=we like=like a>a lot>lot ");
  EXPECT_EQ(text_of(mark("Shut the shed!", "Shut the shed shed")),
            "Shut=Shut the=the +shed shed=shed ");
  EXPECT_EQ(text_of(mark("Shut the shed!", "")), "Shut- the- shed- ");
  EXPECT_EQ(text_of(mark("Shut it.", "a b c d e")).size() > 10, true);
}

TEST(MarkSentence, CountsWordsAndSequences) {
  const MarkedSentence sentence =
      mark("The rain is here.", "the rane is here.");
  EXPECT_EQ(sentence.words_right(), 3);
  // the 4, rain 2 of 5 (^r ra), is 3, here 5; rane has ^r and ra only.
  EXPECT_EQ(sentence.sequences, (LetterSequences{4 + 2 + 3 + 5, 17}));
  EXPECT_FALSE(sentence.capital);
  EXPECT_TRUE(sentence.end_mark);
  EXPECT_EQ(labels_text(sentence.words[1].attempt), "C P C");
}

TEST(MarkSentence, JoinedAndSplitWordsAreNotRight) {
  const MarkedSentence joined = mark("We like a lot.", "we like alot");
  EXPECT_EQ(joined.words_right(), 2);
  EXPECT_TRUE(joined.words[3].attempt.right);
  const MarkedSentence split = mark("I sit inside.", "I sit in side.");
  EXPECT_EQ(split.words_right(), 2);
  EXPECT_EQ(labels_text(split.words[2].attempt).find('W'), std::string::npos);
}

TEST(MarkSentence, AnyTextIsMarked) {
  std::mt19937 random(7);
  const std::string target = "The fish is in the dish and we shut the shed";
  const std::size_t words = words_of(target).size();
  for (int round = 0; round < 60; ++round) {
    std::string written = target;
    for (unsigned change = random() % 12; change > 0; --change) {
      const std::size_t at = random() % (written.size() + 1);
      written.insert(at, 1, static_cast<char>(random() % 256));
      if (written.size() > 8) written.erase(random() % (written.size() - 5), 4);
    }
    const MarkedSentence sentence = mark(target, written);
    EXPECT_EQ(sentence.words.size(), words);
    EXPECT_LE(sentence.sequences.correct, sentence.sequences.possible);
  }
  EXPECT_EQ(mark(target, std::string(50000, 'x')).words.size(), words);
  std::string many;
  for (int i = 0; i < 20000; ++i) many += "a ";
  EXPECT_EQ(mark(target, many).words.size(), words);
  EXPECT_TRUE(mark("", "some words").words.empty());
  EXPECT_EQ(mark("", "some words").extra.size(), 2U);
}

}  // namespace
}  // namespace sheaf
