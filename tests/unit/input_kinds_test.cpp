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

// What cannot be read may still be known to be about learners.
TEST(FileKind, IsToldByALineWhereTheRestCannotBeRead) {
  const auto likely = [](std::string text) {
    const SourceFile file("some.yaml", std::move(text));
    return likely_kind(file);
  };
  EXPECT_EQ(likely("title: Tuesday\nlearners: [B7: {\n"), FileKind::learners);
  EXPECT_EQ(likely("- date: 2026-03-12\n  wrong: {B7: [\n"), FileKind::record);
  EXPECT_EQ(likely("lesson: a.yaml\r\nwrong:\r\n  B7: [\r\n"),
            FileKind::record);
  EXPECT_EQ(likely("steps: [sh\n"), FileKind::sequence);
  EXPECT_EQ(likely("pattern: [sh\nlearners: none\n"), FileKind::lesson);
  EXPECT_EQ(likely("just text"), FileKind::lesson);
  EXPECT_EQ(likely(""), FileKind::lesson);
  // Where all can be read, as before.
  EXPECT_EQ(likely("layout: week\nlearners: B7\n"), FileKind::learners);
}

}  // namespace
}  // namespace sheaf
