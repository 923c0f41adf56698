// A week is printed without waste: no page is blank but the back of a leaf that
// is cut up, hardly one is under half full, and the week is not long.

#include <gtest/gtest.h>

#include <algorithm>

#include "files/disk_files.h"
#include "page_fill.h"
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

INSTANTIATE_TEST_SUITE_P(Sizes, Paper, testing::Values("letter", "a4"));

}  // namespace
}  // namespace sheaf::test
