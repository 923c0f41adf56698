#include <gtest/gtest.h>

#include "layout/block.h"

namespace sheaf {
namespace {

using namespace literals;

Block block_of(Length height) {
  Block block;
  block.height = height;
  block.dot({0_mm, 0_mm}, 1_mm);
  return block;
}

constexpr Rect kBody{15_mm, 15_mm, 180_mm, 100_mm};
constexpr Size kPaper{210_mm, 130_mm};

TEST(Pages, KeepRowsWhole) {
  const auto pages =
      paginate({block_of(40_mm), block_of(40_mm), block_of(40_mm)}, kBody,
               kPaper);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(pages[0].marks.size(), 2U);
  const auto& dot = std::get<DotMark>(pages[1].marks[0]);
  EXPECT_EQ(dot.centre, (Point{15_mm, 15_mm}));
}

TEST(Pages, NeverEndWithAHeading) {
  std::vector<Block> blocks = {block_of(85_mm), block_of(10_mm),
                               block_of(20_mm)};
  blocks[1].keep_with_next = true;
  const auto pages = paginate(std::move(blocks), kBody, kPaper);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(pages[0].marks.size(), 1U);
  EXPECT_EQ(pages[1].marks.size(), 2U);
}

TEST(Pages, DropTheSpaceAboveTheirFirstBlock) {
  Block second = block_of(40_mm);
  second.space_before = 30_mm;
  second.new_page = true;
  const auto pages = paginate({block_of(10_mm), second}, kBody, kPaper);
  EXPECT_EQ(std::get<DotMark>(pages[1].marks[0]).centre.y, 15_mm);
}

TEST(Pages, DrawATablesHeadAgain) {
  auto head = std::make_shared<const Block>(block_of(10_mm));
  std::vector<Block> rows(3, block_of(40_mm));
  for (Block& row : rows) row.head = head;
  const auto pages = paginate(rows, kBody, kPaper);
  ASSERT_EQ(pages.size(), 2U);
  EXPECT_EQ(pages[1].marks.size(), 2U);
}

TEST(Pages, ABlockTallerThanAPageStandsAlone) {
  const auto pages = paginate({block_of(300_mm), block_of(10_mm)}, kBody,
                              kPaper);
  EXPECT_EQ(pages.size(), 2U);
}

TEST(Pages, AreEquallyFull) {
  EXPECT_EQ(even_rows(7, 6), 4);
  EXPECT_EQ(even_rows(12, 6), 6);
  EXPECT_EQ(even_rows(1, 6), 1);
  EXPECT_EQ(even_rows(0, 6), 1);
  EXPECT_EQ(even_rows(13, 6), 5);
}

}  // namespace
}  // namespace sheaf
