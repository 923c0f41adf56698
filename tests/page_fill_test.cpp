// A week is printed without waste: no page is blank but the back of a leaf that
// is cut up, hardly one is under half full, and the week is not long.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "driver/class_job.h"
#include "files/disk_files.h"
#include "page_fill.h"
#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

class Paper : public testing::TestWithParam<const char*> {
 protected:
  Workspace workspace_{disk(), shipped_folder()};
};

TEST_P(Paper, IsBlankOnlyBehindALeafThatIsCut) {
  for (const std::string& lesson : measured_lessons()) {
    const Made made = make(workspace_, lesson, "week", GetParam(), {});
    ASSERT_NE(made.lesson, nullptr);
    for (const PageFill& page : page_fill(made.packet.learner)) {
      EXPECT_EQ(page.blank, page.back_of_cut) << made.about;
    }
  }
}

// The targets: 8 % of all pages; 12 pages a week, one more for the short
// dictations and one for the chain. Where these make an odd number, the leaf to
// cut comes first and has a blank back.
TEST_P(Paper, IsNotWasted) {
  std::size_t pages = 0, low = 0;
  const auto lessons = measured_lessons();
  for (const std::string& lesson : lessons) {
    const Made made = make(workspace_, lesson, "week", GetParam(), {});
    ASSERT_NE(made.lesson, nullptr);
    const std::vector<PageFill> fills = page_fill(made.packet.learner);
    pages += fills.size();
    low += static_cast<std::size_t>(std::ranges::count_if(
        fills,
        [](const PageFill& page) { return page.blank || page.under_half(); }));
    EXPECT_LE(fills.size(), 15U) << made.about;
  }
  EXPECT_LE(100 * low, 8 * pages);
  EXPECT_LE(pages, 14 * lessons.size());
}

// In every layout that is printed: a page under half full is only the last of
// a sheet that needs more than one, and none is blank but behind a leaf to cut.
TEST_P(Paper, IsUnderHalfFullOnlyWhereALongerSheetEnds) {
  for (const char* layout :
       {"week", "middle-years", "older-learners", "large-print", "ink-saver"}) {
    for (const std::string& lesson : measured_lessons()) {
      const Made made = make(workspace_, lesson, layout, GetParam(), {});
      ASSERT_NE(made.lesson, nullptr);
      const std::vector<PageFill> fills = page_fill(made.packet.learner);
      for (std::size_t i = 0; i < fills.size(); ++i) {
        EXPECT_EQ(fills[i].blank, fills[i].back_of_cut) << made.about;
        if (!fills[i].under_half()) continue;
        const bool goes_on = i > 0 && fills[i - 1].sheet == fills[i].sheet;
        const bool ends =
            i + 1 == fills.size() || fills[i + 1].sheet != fills[i].sheet;
        EXPECT_TRUE(goes_on && ends)
            << made.about << ": page " << i + 1 << ", " << fills[i].sheet;
      }
    }
  }
}

// Eight words and two sentences, for a hand of 6 mm.
TEST_P(Paper, HasRoomForADictationOnOnePage) {
  const testing_support::TemporaryFolder folder;
  const std::string lesson = folder.write(
      "eight.yaml",
      "pattern: sh\nwords: ship shed shut shelf fish dish brush splash\n"
      "dictate-words: ship shed shut shelf fish dish brush splash\n"
      "dictate-sentences: |\n  The ship hit a shed!\n"
      "  Gus has a fish on a dish.\n");
  const Made made = make(workspace_, lesson, "week", GetParam(), {"dictation"});
  ASSERT_NE(made.lesson, nullptr);
  EXPECT_EQ(made.packet.learner.pages.size(), 1U);
}

// Twelve short words.
TEST_P(Paper, HasRoomForTheWordsToBlendOnOnePage) {
  const Made made =
      make(workspace_, measured_lessons()[1], "week", GetParam(), {"blending"});
  ASSERT_NE(made.lesson, nullptr);
  ASSERT_EQ(made.lesson->analyzed.words.size(), 12U);
  EXPECT_EQ(made.packet.learner.pages.size(), 1U);
}

std::size_t cards_on(const Document& document) {
  return static_cast<std::size_t>(
      std::ranges::count(document.elements, Role::list_body, &Element::role));
}

// Of the demo class two have leaves that are half empty: large print, and wide
// spacing. They share; nobody's cards are lost, and the others keep their own.
TEST(ClassCuts, ShareALeafWhereThatSavesOne) {
  Workspace workspace(disk(), shipped_folder());
  Diagnostics diagnostics;
  ClassRequest request;
  request.lesson.allowed_folders = {project() / "lessons"};
  const auto job =
      prepare_class(workspace, request,
                    (project() / "lessons/class.yaml").string(), diagnostics);
  ASSERT_NE(job, nullptr);
  const std::vector<std::string> sorts{"picture-sort", "word-sort"};
  const SharedCuts shared =
      compose_shared_cuts(workspace.shaper(), *job, sorts, diagnostics);
  EXPECT_EQ(shared.learners, (std::vector<std::string>{"B7", "K2"}));
  std::size_t own_leaves = 0, own_cards = 0;
  for (const LearnerJob& learner : job->learners) {
    const std::string& code = learner.code.text();
    const bool shares = code == "B7" || code == "K2";
    const Document own =
        compose_learner(workspace.shaper(), learner, {}, diagnostics);
    const Document without =
        compose_learner(workspace.shaper(), learner, {}, diagnostics, false);
    EXPECT_EQ(std::ranges::count(without.pages, true, &Page::own_leaf), 0);
    if (!shares) continue;
    own_leaves += static_cast<std::size_t>(
        std::ranges::count(own.pages, true, &Page::own_leaf));
    own_cards += cards_on(own) - cards_on(without);
  }
  EXPECT_EQ(own_leaves, 4U);
  EXPECT_EQ(std::ranges::count(shared.leaves.pages, true, &Page::own_leaf), 3);
  EXPECT_EQ(cards_on(shared.leaves), own_cards);
  EXPECT_FALSE(diagnostics.has_errors());
}

// A leaf that is full for one learner is no better for two.
TEST(ClassCuts, StayInThePacketWhereLeavesAreFull) {
  const testing_support::TemporaryFolder folder;
  const std::string path = folder.write(
      "class.yaml", "lesson: sh-ship.yaml\nlearners: {B7: , C3: }\n");
  std::filesystem::copy_file(project() / "lessons/sh-ship.yaml",
                             folder.path() + "/sh-ship.yaml");
  Workspace workspace(disk(), shipped_folder());
  Diagnostics diagnostics;
  ClassRequest request;
  request.lesson.allowed_folders = {folder.path()};
  const auto job = prepare_class(workspace, request, path, diagnostics);
  ASSERT_NE(job, nullptr);
  const SharedCuts shared =
      compose_shared_cuts(workspace.shaper(), *job, {}, diagnostics);
  EXPECT_TRUE(shared.learners.empty());
  EXPECT_TRUE(shared.leaves.pages.empty());
}

// The measure sees what it is for.
TEST(PageFill, TellsBlankAndLowPages) {
  Document document;
  for (const Length bottom :
       {Length(), Length::from_mils(40000), Length::from_mils(90000)}) {
    Page page;
    page.label = "blending 1";
    page.body = {Length(), Length::from_mils(100000), Length::from_mils(1000),
                 Length::from_mils(100000)};
    if (bottom != Length()) {
      // The head of the sheet, the footer, and something in the body.
      page.marks.push_back(LineMark{.element = 3});
      page.marks.push_back(
          LineMark{.from = {Length(), Length::from_mils(250000)},
                   .to = {Length(), Length::from_mils(250000)},
                   .element = kPageFooter});
      page.marks.push_back(
          LineMark{.from = {Length(), page.body.y + Length::from_mils(1)},
                   .to = {Length(), page.body.y + bottom},
                   .element = 4});
    }
    page.own_leaf = bottom != Length();
    document.pages.push_back(std::move(page));
  }
  std::ranges::rotate(document.pages, document.pages.begin() + 1);
  const std::vector<PageFill> fills = page_fill(document);
  ASSERT_EQ(fills.size(), 3U);
  EXPECT_TRUE(fills[0].under_half());
  EXPECT_FALSE(fills[1].under_half());
  EXPECT_NEAR(fills[1].share, 0.9, 0.01);
  EXPECT_TRUE(fills[2].blank && fills[2].back_of_cut);
}

INSTANTIATE_TEST_SUITE_P(Sizes, Paper, testing::Values("letter", "a4"));

}  // namespace
}  // namespace sheaf::test
