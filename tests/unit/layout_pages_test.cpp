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
  const auto pages = paginate(
      {block_of(40_mm), block_of(40_mm), block_of(40_mm)}, kBody, kPaper);
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
  const auto pages =
      paginate({block_of(300_mm), block_of(10_mm)}, kBody, kPaper);
  EXPECT_EQ(pages.size(), 2U);
}

TEST(Pages, AreEquallyFull) {
  EXPECT_EQ(even_rows(7, 6), 4);
  EXPECT_EQ(even_rows(12, 6), 6);
  EXPECT_EQ(even_rows(1, 6), 1);
  EXPECT_EQ(even_rows(0, 6), 1);
  EXPECT_EQ(even_rows(13, 6), 5);
}

std::vector<std::size_t> marks_on_pages(std::vector<Block> blocks) {
  even_pages(blocks, kBody.height);
  std::vector<std::size_t> counts;
  for (const Page& page : paginate(std::move(blocks), kBody, kPaper)) {
    counts.push_back(page.marks.size());
  }
  return counts;
}

TEST(EvenPages, ShareRowsOutWithoutAnotherPage) {
  // Ten fit on a page: eleven would leave one alone.
  EXPECT_EQ(marks_on_pages(std::vector<Block>(11, block_of(10_mm))),
            (std::vector<std::size_t>{6, 5}));
  EXPECT_EQ(marks_on_pages(std::vector<Block>(21, block_of(10_mm))),
            (std::vector<std::size_t>{7, 7, 7}));
  EXPECT_EQ(marks_on_pages(std::vector<Block>(10, block_of(10_mm))),
            (std::vector<std::size_t>{10}));
}

TEST(EvenPages, CountSpacesHeadsAndPagesBegunAnyhow) {
  std::vector<Block> blocks(6, block_of(20_mm));
  for (Block& block : blocks) block.space_before = 5_mm;
  // Four of them fit: 20 + 3 * 25 = 95.
  EXPECT_EQ(marks_on_pages(blocks), (std::vector<std::size_t>{3, 3}));
  blocks[1].new_page = true;
  EXPECT_EQ(marks_on_pages(blocks), (std::vector<std::size_t>{1, 3, 2}));
  const auto head = std::make_shared<const Block>(block_of(50_mm));
  std::vector<Block> rows(6, block_of(20_mm));
  for (std::size_t i = 1; i < rows.size(); ++i) rows[i].head = head;
  // Five fit without a head; four, then two under it, are 80 and 90.
  EXPECT_EQ(marks_on_pages(rows), (std::vector<std::size_t>{4, 3}));
}

TEST(EvenPages, ShareOutEachRunOfPagesByItself) {
  // Six small rows on two pages, then a tall one that begins its own: what
  // that needs is nothing to the rows.
  std::vector<Block> blocks(6, block_of(25_mm));
  blocks.push_back(block_of(95_mm));
  blocks.back().new_page = true;
  EXPECT_EQ(marks_on_pages(blocks), (std::vector<std::size_t>{3, 3, 1}));
}

// Three blocks of 30 mm with blanks of 10 mm between them.
std::vector<Block> three_blocks() {
  std::vector<Block> blocks = {block_of(30_mm), block_of(30_mm),
                               block_of(30_mm)};
  blocks[1].space_before = blocks[2].space_before = 10_mm;
  return blocks;
}

TEST(Blanks, BecomeNarrowerForOnePageAndWiderToFillIt) {
  const auto blank_on = [](Length page) {
    std::vector<Block> blocks = three_blocks();
    stretch_blanks(blocks, page, 0.4, 2);
    EXPECT_EQ(blocks[1].space_before, blocks[2].space_before);
    return blocks[2].space_before;
  };
  const auto about = [](Length blank, Length wanted) {
    return wanted - blank < 0.01_mm && blank - wanted < 0.01_mm;
  };
  EXPECT_TRUE(about(blank_on(100_mm), 5_mm));
  EXPECT_TRUE(about(blank_on(120_mm), 15_mm));
  EXPECT_TRUE(about(blank_on(200_mm), 20_mm));
  // More than a page: it is divided as it is.
  EXPECT_EQ(blank_on(95_mm), 10_mm);
}

TEST(Blanks, BecomeNarrowerWhereThatSavesAPage) {
  // Six blocks: two to a page of 100 mm with their blanks, three where those
  // are halved.
  const auto saved = [](double least) {
    std::vector<Block> blocks(6, block_of(30_mm));
    for (Block& block : blocks) block.space_before = 10_mm;
    save_pages(blocks, 100_mm, least);
    return blocks;
  };
  const std::vector<Block> kept = saved(0.6);
  EXPECT_EQ(kept[5].space_before, 10_mm);
  EXPECT_EQ(marks_on_pages(kept), (std::vector<std::size_t>{2, 2, 2}));
  const std::vector<Block> narrow = saved(0.2);
  EXPECT_LE(narrow[5].space_before, 5_mm);
  // No narrower than is needed.
  EXPECT_GT(narrow[5].space_before, 3_mm);
  EXPECT_EQ(marks_on_pages(narrow), (std::vector<std::size_t>{3, 3}));
}

// What stands on each page of rows of 10 mm where one of 100 mm has ten, and
// these groups are to stay together.
std::vector<std::size_t> rows_on_pages(std::size_t rows,
                                       const std::vector<BlockGroup>& groups,
                                       Length blank = {}) {
  std::vector<Block> blocks(rows, block_of(10_mm));
  for (std::size_t i = 5; i < rows; i += 5) blocks[i].space_before = blank;
  save_pages_with_groups(blocks, groups, 100_mm, 0.6);
  std::vector<std::size_t> counts;
  for (const Page& page : paginate(blocks, kBody, kPaper)) {
    counts.push_back(page.marks.size());
  }
  return counts;
}

using Counts = std::vector<std::size_t>;

TEST(Groups, StandOnOnePageWhereThatIsFree) {
  EXPECT_EQ(rows_on_pages(15, {}), (Counts{10, 5}));
  EXPECT_EQ(rows_on_pages(15, {{8, 3}}), (Counts{8, 7}));
  EXPECT_EQ(rows_on_pages(15, {{8, 3}, {2, 4}}), (Counts{8, 7}));
}

TEST(Groups, AreDividedRatherThanCostAPage) {
  EXPECT_EQ(rows_on_pages(20, {{8, 3}}), (Counts{10, 10}));
  // One of two: the shorter.
  EXPECT_EQ(rows_on_pages(28, {{9, 2}, {16, 5}}), (Counts{9, 10, 9}));
}

TEST(Groups, MayMakeBlanksNarrower) {
  EXPECT_EQ(rows_on_pages(17, {}, 6_mm), (Counts{9, 8}));
  // The nine rows of the second page take 90 mm.
  EXPECT_EQ(rows_on_pages(17, {{8, 2}}, 6_mm), (Counts{8, 9}));
}

TEST(Groups, KeepTwoRowsAtEitherEndOfLongOnes) {
  EXPECT_EQ(rows_on_pages(19, {{9, 8}}), (Counts{9, 10}));
  EXPECT_EQ(rows_on_pages(19, {{2, 9}}), (Counts{9, 10}));
  EXPECT_EQ(rows_on_pages(19, {{4, 8}}), (Counts{10, 9}));
}

TEST(Tints, BecomeFramesInRepeatedHeadsToo) {
  Block head;
  head.height = 10_mm;
  head.shade({0_mm, 0_mm, 50_mm, 10_mm}, 232);
  std::vector<Block> rows(3, block_of(40_mm));
  for (Block& row : rows) row.head = std::make_shared<const Block>(head);
  rows[0].shade({0_mm, 0_mm, 50_mm, 40_mm}, 232);
  outline_tints(rows, 0.5_pt);
  int frames = 0;
  for (const Page& page : paginate(rows, kBody, kPaper)) {
    for (const Mark& mark : page.marks) {
      const auto* rect = std::get_if<RectMark>(&mark);
      if (rect == nullptr) continue;
      ++frames;
      EXPECT_FALSE(rect->filled);
      EXPECT_TRUE(rect->stroked);
    }
  }
  EXPECT_EQ(frames, 3);  // a head on each page, and the row
}

TEST(EvenPages, KeepHeadingsWithWhatFollows) {
  std::vector<Block> blocks(11, block_of(10_mm));
  blocks[5].keep_with_next = true;
  EXPECT_EQ(marks_on_pages(blocks), (std::vector<std::size_t>{5, 6}));
}

// What stands again on a later page was heard on the first: there it is part of
// the page's header.
TEST(Pages, CallARepeatedHeadAHeader) {
  Block block;
  block.shade({0_mm, 0_mm, 50_mm, 10_mm}, 232, 7);
  block.line({0_mm, 0_mm}, {9_mm, 0_mm}, {.width = 1_mm}, kDecoration);
  const auto head = repeated_head(block);
  for (const Mark& mark : head->marks) {
    std::visit([](const auto& m) { EXPECT_EQ(m.element, kPageHeader); }, mark);
  }
}

}  // namespace
}  // namespace sheaf
