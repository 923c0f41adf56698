#include <gtest/gtest.h>

#include "input/file_kind.h"

namespace sheaf {
namespace {

std::optional<FileKind> kind_from(std::string text) {
  const SourceFile file("some.yaml", std::move(text));
  return kind_of(file);
}

TEST(FileKind, IsToldByTheKeys) {
  EXPECT_EQ(kind_from("sheaf: 1\npattern: sh\n"), FileKind::lesson);
  EXPECT_EQ(kind_from("layout: week\nwords: ship\n"), FileKind::lesson);
  EXPECT_EQ(kind_from("paper: a4\nsheets: [discovery]\n"), FileKind::layout);
  EXPECT_EQ(kind_from("taught: sh\nsteps: [ch]\n"), FileKind::sequence);
  EXPECT_EQ(kind_from("layout: week\nlearners: B7\n"), FileKind::learners);
  EXPECT_EQ(kind_from("lesson: a.yaml\nclass: c.yaml\nmarked: all\n"),
            FileKind::record);
  EXPECT_EQ(kind_from("records: []\n"), FileKind::record);
}

TEST(FileKind, IsALessonWhereNothingSpeaksAgainstIt) {
  EXPECT_EQ(kind_from("title: Week 3\n"), FileKind::lesson);
  EXPECT_EQ(kind_from("just text"), std::nullopt);
  EXPECT_EQ(kind_from("a: \"b"), std::nullopt);
}

}  // namespace
}  // namespace sheaf
