#include <algorithm>

#include <gtest/gtest.h>

#include "phonics/phonics.h"
#include "phonics/table_text.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

std::string spelled_out(const Reading& reading) {
  std::string text;
  for (const Unit& unit : reading.units) {
    if (!text.empty()) text += ' ';
    text += unit.grapheme;
  }
  return text;
}

TEST(Gold, GraphemesAndBoxesAreAsLabelled) {
  const std::string text = test_data("phonics_gold.tsv");
  int rows = 0;
  for (const TableRow& row : table_rows(text)) {
    if (row.cell(1) == "segments") continue;  // the head
    ++rows;
    const Reading reading =
        shared_phonics().read(row.cell(0), Conventions{}).front();
    const auto accepted = split_at(row.cell(1), '|');
    EXPECT_NE(std::ranges::find(accepted, spelled_out(reading)), accepted.end())
        << row.cell(0) << ": " << spelled_out(reading);
    EXPECT_EQ(std::to_string(reading.boxes()), row.cell(2)) << row.cell(0);
  }
  EXPECT_GE(rows, 600);
}

// A teacher's é at the end of a word says /ay/, whatever the word without it
// is.
TEST(Letters, AnAcuteAtTheEndSaysAy) {
  for (const char* word : {"rosé", "café", "pâté", "touché", "cliché", "né"}) {
    const Reading reading = shared_phonics().read(word, Conventions{}).front();
    EXPECT_EQ(reading.units.back().phonemes, std::vector{Phoneme::ey}) << word;
    EXPECT_EQ(reading.units.back().end, std::string_view(word).size()) << word;
  }
  EXPECT_FALSE(shared_phonics().knows("rosé"));
  EXPECT_TRUE(shared_phonics().knows("rose"));
  EXPECT_TRUE(shared_phonics().knows("café"));
  EXPECT_EQ(spelled_out(shared_phonics().read("touché", {}).front()),
            "t ou ch e");
}

TEST(Traps, PatternsAreSeenWhereTheyAreAndOnlyThere) {
  const std::string text = test_data("phonics_traps.tsv");
  for (const TableRow& row : table_rows(text)) {
    if (row.cells.size() < 3) continue;
    const Pattern* pattern = shared_phonics().patterns().by_id(row.cell(0));
    ASSERT_NE(pattern, nullptr) << row.cell(0);
    const Reading reading =
        shared_phonics().read(row.cell(1), Conventions{}).front();
    const bool has =
        reading.find(shared_phonics().patterns().id_of(*pattern)) != nullptr;
    EXPECT_EQ(has, row.cell(2) == "yes") << row.cell(0) << " " << row.cell(1);
  }
}

// One sign for two letters is never cut in two.
TEST(Letters, ASignForTwoIsOneGrapheme) {
  for (const char* word : {"æ", "xxæee", "bæœ", "mæd", "œthe", "straße"}) {
    const Reading reading = shared_phonics().read(word, Conventions{}).front();
    std::size_t end = 0;
    for (const Unit& unit : reading.units) {
      EXPECT_GE(unit.begin, end) << word << " " << spelled_out(reading);
      end = unit.end;
    }
    EXPECT_FALSE(reading.sounds.empty()) << word;
  }
  EXPECT_EQ(spelled_out(shared_phonics().read("xxæee", {}).front()),
            "x x ae ee");
}

TEST(Remembered, AWordIsReadTheSameInPartAndWhole) {
  const Conventions usual;
  Conventions other;
  other.accent = Accent::british;
  for (const char* word :
       {"ship", "brushes", "hoping", "oddly-made", "zwibe"}) {
    for (const Conventions& conventions : {usual, other, usual}) {
      const Reading read = shared_phonics().read(word, conventions).front();
      const auto units = shared_phonics().first_units(word, conventions);
      const auto whole = shared_phonics().first_reading(word, conventions);
      EXPECT_EQ(spelled_out(*units), spelled_out(read));
      EXPECT_EQ(units->boxes(), read.boxes()) << word;
      EXPECT_EQ(whole->places.size(), read.places.size()) << word;
      EXPECT_EQ(shared_phonics().first_units(word, conventions), whole);
    }
  }
}

TEST(Info, KnowsAWordHoweverItIsWritten) {
  const auto info = [](const char* word) {
    return shared_phonics().info(word);
  };
  ASSERT_TRUE(info("ship") && info("Ship") && info("girl's"));
  EXPECT_TRUE(info("ship")->everyday);
  EXPECT_EQ(info("SHIP")->tier, info("ship")->tier);
  EXPECT_TRUE(info("monday")->name);
  EXPECT_FALSE(info("shipx") || info("") || info("12"));
}

}  // namespace
}  // namespace sheaf
