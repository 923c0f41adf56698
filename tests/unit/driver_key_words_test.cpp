// One sound, one key word: each lesson of the shipped years teaches a pattern
// with the key word that their sequence names for it.

#include <gtest/gtest.h>

#include <algorithm>

#include "driver/workspace.h"
#include "files/disk_files.h"

namespace sheaf {
namespace {

class KeyWordsTest : public testing::TestWithParam<const char*> {};

TEST_P(KeyWordsTest, AreThoseOfTheSequence) {
  const FilePath folder = std::string(SHEAF_PROJECT "/lessons/") + GetParam();
  Workspace workspace(disk(), SHEAF_SHIPPED);
  int compared = 0;
  for (const FilePath& path : yaml_files(disk(), folder)) {
    if (path.filename() == kSequenceFile) continue;
    Diagnostics diagnostics;
    const auto prepared = prepare(workspace, {}, path.string(), diagnostics);
    ASSERT_NE(prepared, nullptr) << path.string();
    const AnalyzedLesson& lesson = prepared->analyzed;
    for (std::size_t i = 0; i < lesson.patterns.size(); ++i) {
      const int stage = lesson.taught.stage(lesson.patterns[i].id);
      if (stage != lesson.taught.step() + 1) continue;  // for practice
      const auto named = lesson.taught.key_words(stage);
      ASSERT_GE(lesson.key_words[i], 0) << path.string();
      const std::string& word =
          lesson.words[static_cast<std::size_t>(lesson.key_words[i])]
              .reading.word;
      EXPECT_NE(std::ranges::find(named, word), named.end())
          << path.string() << ": " << word;
      ++compared;
    }
  }
  EXPECT_GE(compared, 24);
}

INSTANTIATE_TEST_SUITE_P(Years, KeyWordsTest,
                         testing::Values("year", "second-year"));

}  // namespace
}  // namespace sheaf
