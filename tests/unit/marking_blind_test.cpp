// Attempts labelled blind: see phonics_blind_test.cpp.

#include <gtest/gtest.h>

#include <algorithm>

#include "marking/score_words.h"
#include "marking_data.h"
#include "phonics/table_text.h"

namespace sheaf {
namespace {

TEST(Blind, AttemptsAreMarkedAsTheirListHasThem) {
  int rows = 0, right = 0;
  for (const TableRow& row : test_rows("blind_attempts.tsv")) {
    ++rows;
    const std::string labels =
        labels_text(ground().mark(row.cell(0), row.cell(1)));
    bool same = false;
    for (std::string_view accepted : split_at(row.cell(2), '|')) {
      while (accepted.starts_with(' ')) accepted.remove_prefix(1);
      while (accepted.ends_with(' ')) accepted.remove_suffix(1);
      same = same || accepted == labels;
    }
    if (same) {
      ++right;
    } else {
      std::printf("%s written %s: %s\n", std::string(row.cell(0)).c_str(),
                  std::string(row.cell(1)).c_str(), labels.c_str());
    }
  }
  std::printf("of %d attempts: %d\n", rows, right);
  EXPECT_EQ(rows, 60);
  EXPECT_GE(right, 57);  // first pass
}

}  // namespace
}  // namespace sheaf
