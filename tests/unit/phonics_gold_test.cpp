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
  EXPECT_EQ(rows, 594);
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

}  // namespace
}  // namespace sheaf
