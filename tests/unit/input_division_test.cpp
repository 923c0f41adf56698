#include <gtest/gtest.h>

#include "input_reading.h"

namespace sheaf {
namespace {

using Sizes = std::vector<std::size_t>;

ReadLesson split_as(const std::string& entry) {
  return lesson_from("pattern: sh\nwords: ship\nsplit:\n  " + entry + "\n");
}

TEST(Divisions, AreGivenByHyphensInTheWord) {
  for (const char* entry :
       {"fantastic: fan-tas-tic", "fantastic: fan·tas·tic"}) {
    const ReadLesson read = split_as(entry);
    ASSERT_EQ(read.lesson.splits.size(), 1U) << read.messages();
    EXPECT_EQ(read.lesson.splits[0].division, (Sizes{3, 6}));
    EXPECT_TRUE(read.lesson.splits[0].parts.empty());
  }
}

TEST(Divisions, AreGivenAmongGraphemes) {
  const ReadLesson read = split_as("fireside: f i_e r - s i_e d");
  ASSERT_EQ(read.lesson.splits.size(), 1U) << read.messages();
  const LessonSplit& split = read.lesson.splits[0];
  EXPECT_TRUE(split.division.empty());
  ASSERT_EQ(split.parts.size(), 6U);
  for (std::size_t i = 0; i < split.parts.size(); ++i) {
    EXPECT_EQ(split.parts[i].begins_beat, i == 3) << i;
  }
}

// Signs where nothing is to be divided divide nothing.
TEST(Divisions, LeaveOutSignsAtTheEnds) {
  const ReadLesson read = split_as("ship: sh i p -");
  ASSERT_EQ(read.lesson.splits.size(), 1U) << read.messages();
  for (const auto& part : read.lesson.splits[0].parts) {
    EXPECT_FALSE(part.begins_beat);
  }
  EXPECT_EQ(split_as("rabbit: rab--bit").lesson.splits.at(0).division,
            Sizes{3});
}

TEST(Divisions, HaveToMakeTheWord) {
  const ReadLesson read = split_as("rabbit: rab-it");
  EXPECT_TRUE(read.lesson.splits.empty());
  EXPECT_NE(read.messages().find("[bad-split]"), std::string::npos)
      << read.messages();
}

}  // namespace
}  // namespace sheaf
