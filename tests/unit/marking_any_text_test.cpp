// Whatever a learner wrote and a teacher typed in: marked without a crash, with
// one result for each grapheme.

#include <gtest/gtest.h>

#include <random>

#include "base/utf8.h"
#include "marking/score_words.h"
#include "marking/written_word.h"
#include "marking_data.h"

namespace sheaf {
namespace {

void expect_sound(const MarkedAttempt& marked, const Reading& target) {
  ASSERT_EQ(marked.graphemes.size(), target.units.size());
  EXPECT_GE(marked.sequences.correct, 0);
  EXPECT_LE(marked.sequences.correct, marked.sequences.possible);
  EXPECT_LE(marked.extra.size(), kLongestWritten + 1);
  for (std::size_t i = 0; i < marked.graphemes.size(); ++i) {
    const MarkedGrapheme& g = marked.graphemes[i];
    EXPECT_EQ(g.grapheme, target.units[i].grapheme);
    EXPECT_EQ(g.result == GraphemeResult::correct, g.cause == Cause::none);
    if (g.result == GraphemeResult::missing) {
      EXPECT_TRUE(g.written.empty());
    }
    if (g.result == GraphemeResult::correct) {
      EXPECT_FALSE(g.written.empty());
    }
  }
  for (const ExtraLetter& extra : marked.extra) {
    EXPECT_LE(extra.before, marked.graphemes.size());
  }
}

TEST(AnyText, OddAttemptsAreMarked) {
  const std::string odd[] = {"",
                             " ",
                             ".",
                             "'",
                             "-",
                             "7",
                             "null",
                             "~",
                             "shi p",
                             "sh\u00EFp",
                             "s\u0308hip",
                             "\U0001F6A2",
                             "\u0448\u0438\u043F",
                             "\xFF\xFE",
                             "\xE2\x82",
                             std::string(1, '\0'),
                             "ship\nship",
                             "eeeeeeeeee",
                             "\u00DF\u00C6",
                             std::string(100000, 'e'),
                             std::string(100000, '\xF0')};
  for (const char* word : {"ship", "cake", "queen", "don't", "hopping", "a"}) {
    const Reading target = ground().read(word);
    for (const std::string& written : odd) {
      expect_sound(mark_attempt(ground().spellings, target, written), target);
    }
  }
  EXPECT_EQ(labels_text(ground().mark("ship", "sh\u00EFp")), "C C C");
  EXPECT_EQ(labels_text(ground().mark("ship", "sh1p")), "C W C");
}

TEST(AnyText, OddTargetsAreMarked) {
  const std::string longest(64, 'e');
  for (const std::string& word :
       {std::string("xqzzt"), longest, std::string(65, 'a'), std::string("a"),
        std::string("\U0001F6A2"), std::string("x-ray"), std::string()}) {
    const Reading target = ground().read(word);
    for (const std::string& written : {word, longest, std::string("cat")}) {
      expect_sound(mark_attempt(ground().spellings, target, written), target);
    }
  }
  EXPECT_TRUE(ground().mark(longest, longest).right);
}

// The e of a split grapheme stands behind a sign that is in no grapheme.
TEST(AnyText, ASignBeforeASplitEIsNoFault) {
  for (const char* word : {"ast-e", "cak'e"}) {
    const MarkedAttempt marked = ground().mark(word, word);
    EXPECT_TRUE(marked.right) << word;
    EXPECT_EQ(faults_text(marked), "") << word;
    EXPECT_EQ(marked.graphemes[0].result, GraphemeResult::correct) << word;
  }
}

TEST(AnyText, EveryWordIsRightAsItself) {
  std::size_t seen = 0;
  ground().lexicon.each([&](const WordRecord& record) {
    if (++seen % 17 != 0) return true;
    const MarkedAttempt marked =
        ground().mark(record.spelling, record.spelling);
    EXPECT_TRUE(marked.right) << record.spelling;
    EXPECT_EQ(marked.cost, 0) << record.spelling;
    EXPECT_TRUE(marked.extra.empty()) << record.spelling;
    EXPECT_EQ(marked.count(GraphemeResult::correct),
              static_cast<int>(marked.graphemes.size()))
        << record.spelling;
    return seen < 20000;
  });
}

// Random changes of words, and random text.
TEST(AnyText, RandomAttemptsAreMarked) {
  std::mt19937 random(20260312);
  std::vector<std::string> words;
  ground().lexicon.each([&](const WordRecord& record) {
    words.push_back(record.spelling);
    return words.size() < 5000;
  });
  const std::u32string signs = U"aeiouybdhklnrstwz'- 3\u00E9\u0301\U0001F600";
  for (int round = 0; round < 1500; ++round) {
    const std::string& word = words[random() % words.size()];
    std::string written = word;
    for (unsigned change = random() % 5; change > 0; --change) {
      const std::size_t at = random() % (written.size() + 1);
      std::string sign;
      append_utf8(sign, signs[random() % signs.size()]);
      switch (random() % 3) {
        case 0:
          written.insert(at, sign);
          break;
        case 1:
          written.replace(at, 1, sign);
          break;
        default:
          if (at < written.size()) written.erase(at, 1 + random() % 2);
      }
    }
    const Reading target = ground().read(word);
    MarkingOptions options = ground().options;
    if (round % 2 == 0) {
      options.speech.accent = Accent::british;
      read_confusion("th/f", options.speech);
    }
    const MarkedAttempt marked =
        mark_attempt(ground().spellings, target, written, options);
    expect_sound(marked, target);
    // The learner's speech turns wrong to plausible and nothing else.
    const MarkedAttempt plain =
        mark_attempt(ground().spellings, target, written, ground().options);
    EXPECT_EQ(marked.right, plain.right) << word << " " << written;
  }
}

}  // namespace
}  // namespace sheaf
