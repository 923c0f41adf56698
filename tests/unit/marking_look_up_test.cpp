// Which word a misspelling stands for.

#include <gtest/gtest.h>

#include <algorithm>

#include "marking/skeleton.h"
#include "marking_data.h"

namespace sheaf {
namespace {

struct Hits {
  int rows = 0;
  int first = 0;
  int among_five = 0;
};

Hits look_up_all(const std::string& table) {
  Hits hits;
  for (const TableRow& row : test_rows(table)) {
    if (row.cells.size() < 2) continue;
    const std::vector<WordGuess> guesses = ground().index.look_up(row.cell(0));
    ++hits.rows;
    EXPECT_LE(guesses.size(), 5U);
    for (std::size_t i = 0; i < guesses.size(); ++i) {
      if (guesses[i].word != row.cell(1)) continue;
      ++hits.among_five;
      if (i == 0) ++hits.first;
    }
  }
  return hits;
}

// Source: misspellings invented for Sheaf by rule.
TEST(LookUp, FindsTheWordsThatWereMeant) {
  const Hits hits = look_up_all("marking_misspellings.tsv");
  EXPECT_EQ(hits.rows, 37);
  EXPECT_GE(hits.first, 34) << "nine in ten";
  EXPECT_EQ(hits.among_five, 37);
}

// Source: more misspellings, collected by kind of error for Sheaf.
TEST(LookUp, FindsMoreWordsThatWereMeant) {
  const Hits hits = look_up_all("marking_misspellings_more.tsv");
  EXPECT_EQ(hits.rows, 213);
  EXPECT_GE(hits.first * 100, hits.rows * 84);
  EXPECT_GE(hits.among_five * 100, hits.rows * 96);
}

TEST(LookUp, LessonWordsComeFirst) {
  const std::vector<std::string> lesson = {"sheep"};
  const WordIndex index(
      WordSource{ground().words, &ground().lexicon.inventory()},
      ground().spellings, lesson);
  EXPECT_EQ(index.look_up("shep").front().word, "sheep");
  EXPECT_EQ(index.rarity("sheep"), 0);
}

TEST(LookUp, AnyTextIsLookedUp) {
  for (const std::string& text :
       {std::string(), std::string("a"), std::string("y"), std::string("#"),
        std::string("\xFF"), std::string(200, 'e'), std::string("zzzzzz"),
        std::string("hhhh"), std::string("\U0001F6A2 ship")}) {
    EXPECT_LE(ground().index.look_up(text).size(), 5U);
  }
  EXPECT_TRUE(ground().index.look_up("").empty());
}

TEST(LookUp, SaysHowSure) {
  const std::vector<WordGuess> train = ground().index.look_up("trane");
  EXPECT_EQ(train.front().word, "train");
  EXPECT_GE(train.front().sure, 90);
  int all = 0;
  for (const WordGuess& guess : ground().index.look_up("shep")) {
    EXPECT_LE(guess.sure, 60);
    all += guess.sure;
  }
  EXPECT_LE(all, 102);  // rounded
}

// Worked by hand.
TEST(Skeleton, OfSoundsAndLettersAgree) {
  using P = Phoneme;
  const P fishing[] = {P::f, P::ih, P::sh, P::ih, P::ng};
  EXPECT_EQ(consonant_skeleton(fishing), "FSM");
  const P queen[] = {P::k, P::w, P::iy, P::n};
  EXPECT_EQ(consonant_skeleton(queen), "KM");
  const P went[] = {P::w, P::eh, P::n, P::t};
  EXPECT_EQ(consonant_skeleton(went), "WMT");
  const auto has = [](std::string_view letters, std::string_view skeleton) {
    const auto all = letter_skeletons(letters);
    return std::ranges::find(all, skeleton) != all.end();
  };
  EXPECT_TRUE(has("fising", "FSM"));
  EXPECT_TRUE(has("kween", "KM"));
  EXPECT_TRUE(has("siks", "SKS"));
  EXPECT_TRUE(has("nite", "MT"));
  EXPECT_TRUE(has("night", "MT"));
  EXPECT_TRUE(has("nashun", "MSM"));
  EXPECT_TRUE(has("nation", "MSM"));
  EXPECT_TRUE(has("sista", "SST"));
  EXPECT_LE(letter_skeletons("ghghghghghgh").size(), 8U);
}

}  // namespace
}  // namespace sheaf
