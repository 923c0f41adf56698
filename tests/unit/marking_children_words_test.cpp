// Which word a child meant in a text of its own, and which right words may
// stand for another.

#include <gtest/gtest.h>

#include <algorithm>

#include "marking/free_writing.h"
#include "marking_data.h"

namespace sheaf {
namespace {

using Kind = NotedWord::Kind;
using Verdict = WritingChance::Verdict;

std::vector<PatternId> every_pattern() {
  std::vector<PatternId> all;
  for (const Pattern& pattern : ground().phonics.patterns().all()) {
    all.push_back(ground().phonics.patterns().id_of(pattern));
  }
  return all;
}

FreeWriting read(std::string_view text, std::span<const PatternId> taught) {
  return read_free_writing(
      text, taught,
      {ground().phonics, ground().spellings, ground().index, ground().options});
}

FreeWriting read(std::string_view text, std::string_view pattern) {
  const std::vector<PatternId> taught = {ground().pattern(pattern)};
  return read(text, taught);
}

std::vector<std::string> meant_by(const NotedWord& noted) {
  std::vector<std::string> words;
  for (const NotedWord::Meant& meant : noted.meant) words.push_back(meant.word);
  return words;
}

std::vector<std::string> meant_by(std::string_view attempt) {
  const FreeWriting writing = read(attempt, every_pattern());
  return writing.noted.size() == 1 ? meant_by(writing.noted[0])
                                   : std::vector<std::string>();
}

bool has(const std::vector<std::string>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

struct Hits {
  int rows = 0;
  int first = 0;
  int shown = 0;
};

Hits look_up_all(const std::string& table, std::span<const PatternId> taught) {
  Hits hits;
  for (const TableRow& row : test_rows(table)) {
    if (row.cells.size() < 2 || row.cell(0) == "meant") continue;
    ++hits.rows;
    const std::string meant = "|" + std::string(row.cell(0)) + "|";
    const FreeWriting writing = read(row.cell(1), taught);
    if (writing.noted.empty()) continue;
    const auto words = meant_by(writing.noted[0]);
    const auto is_meant = [&](const std::string& word) {
      return meant.find("|" + word + "|") != std::string::npos;
    };
    hits.first += !words.empty() && is_meant(words[0]) ? 1 : 0;
    hits.shown += std::ranges::any_of(words, is_meant) ? 1 : 0;
  }
  return hits;
}

// Source: memory of how children spell, written before the program was asked;
// see the table's head. When it was first asked, 53 came first and 57 were
// shown.
TEST(ChildrenWords, AreFoundByWhatChildrenUse) {
  for (const auto& taught : {std::vector<PatternId>(), every_pattern()}) {
    const Hits hits = look_up_all("marking_children_words.tsv", taught);
    EXPECT_EQ(hits.rows, 62);
    EXPECT_GE(hits.first, 57);
    EXPECT_GE(hits.shown, 60);
  }
}

// Source: the same, and nothing is tuned to it.
TEST(ChildrenWords, AreFoundInAListThatNothingIsTunedTo) {
  const Hits hits =
      look_up_all("marking_children_words_unseen.tsv", every_pattern());
  EXPECT_EQ(hits.rows, 40);
  EXPECT_GE(hits.first, 33);
  EXPECT_GE(hits.shown, 34);
}

TEST(ChildrenWords, LikelierOnesComeBeforeTheNearestSound) {
  EXPECT_EQ(meant_by("fier")[0], "fire");
  EXPECT_EQ(meant_by("leefs")[0], "leaves");
  EXPECT_EQ(meant_by("chas")[0], "chase");
  EXPECT_TRUE(has(meant_by("lickt"), "licked"));
  EXPECT_TRUE(has(meant_by("lickt"), "liked"));
  const auto wun = meant_by("Wun");
  EXPECT_TRUE(has(wun, "one"));
  EXPECT_TRUE(has(wun, "won"));
}

// What was noted, in the order of the text: "becos", "Shelbin (name)".
std::string noted_in(std::string_view text, std::string_view pattern) {
  const FreeWriting writing = read(text, pattern);
  std::string all;
  for (const NotedWord& noted : writing.noted) {
    all += (all.empty() ? "" : " ") + writing.text.words[noted.word].text;
    if (noted.kind == Kind::rare) all += "(rare)";
    if (noted.kind == Kind::not_known) all += "(not known)";
    if (noted.kind == Kind::name) all += "(name)";
  }
  return all;
}

TEST(NotedWords, AreAllThatIsNotSpelledRight) {
  EXPECT_EQ(noted_in("I went to skool becos my frend was thair.", "oa"),
            "skool becos frend thair");
  // The taught pattern is right in it, the word is not.
  EXPECT_EQ(noted_in("the shep and the ship", "sh"), "shep");
  EXPECT_EQ(noted_in("We saw a zplorg and a musketeer.", "oa"),
            "zplorg(not known)");
  EXPECT_EQ(noted_in("We saw Shelbin and London. Becos it was hot", "oa"),
            "Shelbin(name) Becos");
  EXPECT_EQ(noted_in("u can see B7 at 5cm on the 3rd day, and I can", "oa"),
            "u(not known)");
  EXPECT_EQ(noted_in("my grandmother's well-known volcano", "oa"), "");
}

TEST(NotedWords, GoByTheTeachersAnswers) {
  const FreeWriting told = read("a trn{=train} and a rain{=rain}", "oa");
  ASSERT_EQ(told.noted.size(), 1U);
  EXPECT_EQ(meant_by(told.noted[0]), std::vector<std::string>{"train"});
  EXPECT_EQ(told.noted[0].meant[0].sure, 100);
  EXPECT_TRUE(read("a zplorg{-}", "oa").noted.empty());
  const FreeWriting refused = read("fier{-fire}", "oa");
  ASSERT_EQ(refused.noted.size(), 1U);
  EXPECT_FALSE(has(meant_by(refused.noted[0]), "fire"));
}

// Source: common practice; each was listed as possible before.
TEST(RightWords, AreNotAskedAboutWhereChildrenHardlyWriteTheOther) {
  const FreeWriting writing = read(
      "Dear Gran, I need air. It is a cold story and the rain is new. The deer "
      "had a pale nose for a week.",
      every_pattern());
  std::string possible;
  for (const WritingChance& chance : writing.chances) {
    if (chance.verdict == Verdict::possible) possible += " " + chance.meant;
  }
  EXPECT_EQ(possible, " knew");
  EXPECT_TRUE(read("a new hat", "ai").chances.empty());
}

TEST(RightWords, AreAskedAboutWhereTheOtherIsAsCommonAndTaught) {
  const auto possible = [](std::string_view text, std::string_view pattern) {
    for (const WritingChance& chance : read(text, pattern).chances) {
      if (chance.verdict == Verdict::possible) return chance.meant;
    }
    return std::string();
  };
  EXPECT_EQ(possible("on the rode", "oa"), "road");
  EXPECT_EQ(possible("the male came", "ai"), "mail");
  EXPECT_EQ(possible("the male came", "oa"), "");
  EXPECT_EQ(possible("a weak ago", "ee"), "week");
  EXPECT_EQ(possible("I no it", "kn"), "know");
  EXPECT_EQ(possible("the sun is hot", "ai"), "");
}

}  // namespace
}  // namespace sheaf
