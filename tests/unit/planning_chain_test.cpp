// Chains of words that change by one sound: which steps are one, which chains
// hold, and what the search finds.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "planning/chain_search.h"
#include "planning/near_pairs.h"
#include "unit/analyzed_lesson_fixture.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

const Conventions kUsual;

// The rows of a table of tests/data, each with all its columns.
std::vector<std::vector<std::string>> test_rows(const std::string& name,
                                                std::size_t columns) {
  std::vector<std::vector<std::string>> rows;
  std::istringstream text(test_data(name));
  for (std::string line; std::getline(text, line);) {
    if (line.empty() || line.front() == '#') continue;
    std::vector<std::string>& row = rows.emplace_back();
    std::istringstream fields(line);
    for (std::string field; std::getline(fields, field, '\t');) {
      row.push_back(field);
    }
    row.resize(columns);
  }
  return rows;
}

std::vector<SoundPiece> pieces(const std::string& word) {
  return sound_pieces(*shared_phonics().first_reading(word, kUsual));
}

std::string written(const std::optional<SoundStep>& step) {
  if (!step) return "no";
  constexpr const char* kKinds[] = {"change", "add", "take"};
  constexpr const char* kPlaces[] = {"first", "middle", "last"};
  return std::string(kKinds[static_cast<int>(step->kind)]) + " " +
         kPlaces[static_cast<int>(step->place())] + " " + step->from.grapheme +
         ">" + step->to.grapheme;
}

TEST(SoundSteps, AreTheOnesOfTheList) {
  int rows = 0;
  for (const auto& row : test_rows("sound_steps.tsv", 6)) {
    const std::string expected =
        row[2] == "no" ? "no"
                       : row[2] + " " + row[3] + " " + row[4] + ">" + row[5];
    EXPECT_EQ(written(sound_step(pieces(row[0]), pieces(row[1]))), expected)
        << row[0] << " to " << row[1];
    ++rows;
  }
  EXPECT_GE(rows, 60);
}

using Chains = AnalyzedLessonTest;

std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> words;
  std::istringstream in(text);
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

TEST_F(Chains, MadeByHandHoldOrNot) {
  for (const auto& row : test_rows("word_chains.tsv", 3)) {
    std::vector<PatternId> patterns;
    for (const std::string& id : words_in(row[0])) {
      const auto* pattern = shared_phonics().patterns().by_id(id);
      ASSERT_NE(pattern, nullptr) << id;
      patterns.push_back(shared_phonics().patterns().id_of(*pattern));
    }
    std::vector<ChainLink> chain;
    for (const std::string& word : words_in(row[2])) {
      const auto reading = shared_phonics().first_reading(word, kUsual);
      const bool has = std::ranges::any_of(
          patterns, [&](PatternId id) { return reading->find(id) != nullptr; });
      chain.push_back({sound_pieces(*reading), has});
    }
    EXPECT_EQ(chain_fault(chain).empty(), row[1] == "yes")
        << row[2] << ": " << chain_fault(chain);
  }
}

std::string told(const std::vector<ChainWord>& chain) {
  std::string text;
  for (const ChainWord& link : chain) text += link.word.reading.word + " ";
  return text;
}

// What every chain must be.
void expect_whole(const std::string& lesson,
                  const std::vector<ChainWord>& chain) {
  EXPECT_GE(chain.size(), kShortestChain) << lesson;
  EXPECT_LE(chain.size(), kLongestChain) << lesson;
  std::vector<ChainLink> links;
  std::set<std::string> words;
  for (std::size_t i = 0; i < chain.size(); ++i) {
    const Reading& reading = chain[i].word.reading;
    links.push_back({sound_pieces(reading), chain[i].word.has_pattern()});
    EXPECT_TRUE(words.insert(reading.word).second)
        << lesson << ": " << reading.word << " comes twice";
    EXPECT_NE(chain[i].word.standing.kind, WordStanding::Kind::not_yet)
        << lesson << ": " << reading.word;
    if (i == 0) continue;
    const auto step = sound_step(links[i - 1].pieces, links[i].pieces);
    ASSERT_TRUE(step) << lesson << ": " << told(chain);
    EXPECT_EQ(written(step), written(chain[i].step)) << lesson;
  }
  EXPECT_EQ(chain_fault(links), "") << lesson << ": " << told(chain);
}

// Named before the search was run: patterns of one beat with words enough. The
// chains of all of them change sounds at two places at least.
TEST_F(Chains, AreFoundForTenPatternsAndMore) {
  for (const char* pattern :
       {"sh", "ch", "ck", "th_voiceless", "ee", "igh", "a_e", "ai", "oa", "ar",
        "short_a", "short_i", "oi", "ng", "tch", "i_e"}) {
    const auto& lesson =
        analyzed(std::string("pattern: ") + pattern + "\nwords: \n");
    const auto chain = find_chain(lesson, nullptr, false);
    expect_whole(pattern, chain);
    std::set<SoundStep::Place> places;
    for (std::size_t i = 1; i < chain.size(); ++i) {
      places.insert(chain[i].step.place());
    }
    EXPECT_GE(places.size(), 2U) << pattern << ": " << told(chain);
    RecordProperty(pattern, told(chain));
  }
}

TEST_F(Chains, GiveWordsThatWereTaughtOnly) {
  const auto& lesson = analyzed(
      "pattern: sh\nwords: ship shop\n"
      "taught: short_a, short_i, short_o\n");
  const auto chain = find_chain(lesson, nullptr, false);
  expect_whole("sh", chain);
  for (const ChainWord& link : chain) {
    for (const Unit& unit : link.word.reading.units) {
      EXPECT_NE(unit.grapheme, "e") << told(chain);
      EXPECT_NE(unit.grapheme, "u") << told(chain);
      EXPECT_NE(unit.grapheme, "ch") << told(chain);
    }
  }
}

TEST_F(Chains, AreNoneWherePatternsHaveSeveralBeats) {
  for (const char* pattern : {"tion", "compound", "consonant_le", "ous"}) {
    const auto& lesson =
        analyzed(std::string("pattern: ") + pattern + "\nwords: \n");
    EXPECT_TRUE(find_chain(lesson, nullptr, false).empty()) << pattern;
  }
}

TEST_F(Chains, AreTheSameEveryTimeAndOthersByTheirSeed) {
  const std::string text = "pattern: sh\nwords: ship\nseed: ";
  const std::string first =
      told(find_chain(analyzed(text + "a"), nullptr, false));
  EXPECT_EQ(first, told(find_chain(analyzed(text + "a"), nullptr, false)));
  std::set<std::string> chains;
  for (const char* seed : {"a", "b", "c", "d", "e"}) {
    chains.insert(told(find_chain(analyzed(text + seed), nullptr, false)));
  }
  EXPECT_GE(chains.size(), 2U);
}

TEST_F(Chains, LeaveOutWhatATeacherBlocks) {
  const auto& lesson = analyzed("pattern: sh\nwords: ship shop\n");
  BlockList blocked;
  for (const ChainWord& link : find_chain(lesson, nullptr, false)) {
    blocked.add_word(link.word.reading.word);
  }
  for (const ChainWord& link : find_chain(lesson, &blocked, false)) {
    EXPECT_FALSE(blocked.blocks(link.word.reading.word))
        << link.word.reading.word;
  }
}

TEST_F(Chains, HaveMadeUpWordsOnlyWhereAsked) {
  const auto& lesson = analyzed("pattern: wr\nwords: wrap wrist\n");
  for (const ChainWord& link : find_chain(lesson, nullptr, false)) {
    EXPECT_FALSE(link.made_up);
    EXPECT_TRUE(shared_phonics().knows(link.word.reading.word));
  }
  const auto chain = find_chain(lesson, nullptr, true);
  if (!chain.empty()) expect_whole("wr", chain);
  for (const ChainWord& link : chain) {
    EXPECT_EQ(link.made_up, !shared_phonics().knows(link.word.reading.word))
        << link.word.reading.word;
  }
}

bool has_any_picture(std::string_view) { return true; }

// Pairs for sixteen patterns, named before the search was run.
TEST_F(Chains, PairsDifferInOneSoundOfThePattern) {
  for (const char* pattern :
       {"sh", "ch", "ck", "th_voiceless", "ee", "igh", "a_e", "ai", "oa", "ar",
        "short_a", "short_e", "oi", "ng", "ph", "blend_l"}) {
    const auto& lesson =
        analyzed(std::string("pattern: ") + pattern + "\nwords: \n");
    const auto pairs = find_near_pairs(lesson, nullptr, has_any_picture, 6);
    EXPECT_GE(pairs.size(), std::string(pattern) == "ph" ? 1U : 6U) << pattern;
    std::set<std::string> words;
    std::string all;
    for (const NearPair& pair : pairs) {
      const std::string both =
          pair.own.reading.word + " " + pair.other.reading.word;
      all += both + ", ";
      EXPECT_TRUE(words.insert(pair.own.reading.word).second) << both;
      EXPECT_TRUE(words.insert(pair.other.reading.word).second) << both;
      EXPECT_TRUE(pair.own.has_pattern()) << both;
      const auto own = sound_pieces(pair.own.reading);
      const auto other = sound_pieces(pair.other.reading);
      int differ = 0;
      if (own.size() == other.size()) {
        for (std::size_t i = 0; i < own.size(); ++i) {
          differ += own[i].sound == other[i].sound ? 0 : 1;
        }
        EXPECT_EQ(differ, 1) << both;
      } else {
        EXPECT_EQ(std::string(pattern), "blend_l") << both;
        EXPECT_EQ(own.size(), other.size() + 1) << both;
      }
    }
    RecordProperty(pattern, all);
  }
}

// Of the pairs that a teacher would name at once, the search has one each.
TEST_F(Chains, PairsOfNearSoundsComeFirst) {
  const auto found = [&](const std::string& text) {
    std::set<std::string> sounds;
    for (const NearPair& pair :
         find_near_pairs(analyzed(text), nullptr, has_any_picture, 6)) {
      sounds.insert(pair.step.to.grapheme);
    }
    return sounds;
  };
  EXPECT_TRUE(found("pattern: sh\nwords: ship shop\n").contains("ch"));
  EXPECT_TRUE(found("pattern: ch\nwords: chip chop\n").contains("sh"));
  EXPECT_TRUE(found("pattern: short_e\nwords: bed pen\n").contains("i"));
  EXPECT_TRUE(found("pattern: th_voiceless\nwords: thin\n").contains("f"));
  EXPECT_TRUE(found("pattern: ng\nwords: king\n").contains("n"));
}

}  // namespace
}  // namespace sheaf
