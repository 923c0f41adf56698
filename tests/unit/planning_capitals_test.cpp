// Capitals in lists are put right, and names keep theirs.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "analysis/capitals.h"
#include "unit/phonics_data.h"

namespace sheaf {
namespace {

// The lists afterwards, and the number of notes.
std::string put_right(const std::string& words) {
  const SourceFile file("lesson.yaml", "pattern: ck\nwords: " + words + "\n");
  Diagnostics diagnostics;
  Lesson lesson = read_lesson(file, diagnostics);
  put_capitals_right(lesson, shared_phonics(), diagnostics);
  std::string all;
  for (const auto* list : {&lesson.words, &lesson.dictate_words}) {
    for (const LessonWord& word : *list) {
      all += (all.empty() ? "" : " ") + word.spelling.value;
    }
  }
  return fmt::format("{} ({})", all, diagnostics.sorted().size());
}

TEST(Capitals, AreForNamesOnly) {
  EXPECT_EQ(put_right("Ship SHOP Shrew Sheen"), "ship shop shrew sheen (1)");
  EXPECT_EQ(put_right("duck\ndictate-words: Sock"), "duck sock (1)");
  EXPECT_EQ(put_right("Josh sock"), "Josh sock (0)");
  EXPECT_EQ(put_right("I I'm sock"), "I I'm sock (0)");
  EXPECT_EQ(put_right("Zwick sock"), "Zwick sock (0)");
}

// What is a word and a name too goes by its neighbours.
TEST(Capitals, ThatMayBeNamesStayWhereOnlyNamesHaveThem) {
  EXPECT_EQ(put_right("Jack sock duck"), "Jack sock duck (0)");
  EXPECT_EQ(put_right("Jack Mark duck"), "Jack Mark duck (0)");
  EXPECT_EQ(put_right("Jack Sock Duck"), "jack sock duck (1)");
  EXPECT_EQ(put_right("JACK sock"), "jack sock (1)");
}

}  // namespace
}  // namespace sheaf
