// Fixes of what the reader of lessons notices: put into the file, they leave
// nothing to say, and the lesson that is read from it is the same as before.

#include <gtest/gtest.h>

#include "base/fixes.h"
#include "input_reading.h"

namespace sheaf {
namespace {

// All fixes, or only those that are certain.
enum class Which { all, certain };

std::string mended(const std::string& text, Which which = Which::certain) {
  const ReadLesson read = lesson_from(text);
  std::vector<Fix> fixes;
  for (const Diagnostic* d : read.diagnostics.sorted()) {
    for (const Fix& fix : d->fixes) {
      if (which == Which::all || fix.certain) fixes.push_back(fix);
    }
  }
  return with_fixes(text, fixes).text;
}

// A lesson with these sentences; mended, it is read as before, without a note.
void expect_sentences(const std::string& wrong, const std::string& right) {
  const std::string head = "pattern: sh\nwords: ship\n";
  const std::string text = mended(head + wrong);
  EXPECT_EQ(text, head + right);
  const ReadLesson before = lesson_from(head + wrong);
  const ReadLesson after = lesson_from(text);
  EXPECT_EQ(after.messages(), "");
  EXPECT_EQ(joined(after.lesson.sentences), joined(before.lesson.sentences));
}

TEST(FixesOfLessons, MendSentencesUnderABar) {
  expect_sentences(
      "sentences: |  # read aloud\n  1. the fish is red\n  2) Go!\n",
      "sentences: |  # read aloud\n  The fish is red.\n  Go!\n");
}

TEST(FixesOfLessons, KeepLineEndsOfWindows) {
  expect_sentences("sentences: |\r\n  (1) the fish\r\n  She is in\r\n",
                   "sentences: |\r\n  The fish.\r\n  She is in.\r\n");
}

TEST(FixesOfLessons, MendSentencesInAList) {
  expect_sentences("sentences:\n  - 1. the fish is red.\n  - She can go!\n",
                   "sentences:\n  - the fish is red.\n  - She can go!\n");
}

TEST(FixesOfLessons, MendSentencesInQuotes) {
  expect_sentences("sentences: \"1. the fish: it is red\"\n",
                   "sentences: \"The fish: it is red.\"\n");
  expect_sentences("sentences: 'he can''t go'\n",
                   "sentences: 'He can''t go.'\n");
}

TEST(FixesOfLessons, MendAfterLettersOfSeveralBytes) {
  expect_sentences("sentences: |\n  the café 🐟 is “red”\n  émile is in\n",
                   "sentences: |\n  The café 🐟 is “red”.\n  émile is in.\n");
}

TEST(FixesOfLessons, LeaveQuotesAloneThatTheFileWritesInAWayOfItsOwn) {
  const std::string text =
      "pattern: sh\nwords: ship\nsentences: 'She said ''go'''\n";
  EXPECT_EQ(mended(text), text);
}

TEST(FixesOfLessons, PutSpacesInPlaceOfTabs) {
  EXPECT_EQ(mended("pattern: sh\nsentences: |\n\tGo!\n\t\tShe is in.\n"),
            "pattern: sh\nsentences: |\n  Go!\n    She is in.\n");
  // A tab between words is none in the indentation.
  const std::string between = "pattern: sh\nwords: ship\tshed\n";
  EXPECT_EQ(mended(between), between);
}

TEST(FixesOfLessons, PutAColonAfterAKeyThatIsKnown) {
  EXPECT_EQ(mended("pattern sh\nwords: ship\n"), "pattern: sh\nwords: ship\n");
  EXPECT_EQ(mended("pattern = sh\nwords: ship\n"),
            "pattern: sh\nwords: ship\n");
  EXPECT_EQ(mended("pattern: sh\ndays 4\nwords: ship\n"),
            "pattern: sh\ndays: 4\nwords: ship\n");
  EXPECT_EQ(mended("pattern:sh\nwords: ship\n"), "pattern: sh\nwords: ship\n");
  // Whose key nobody knows may be something else.
  const std::string unknown = "my lesson\npattern: sh\n";
  EXPECT_EQ(mended(unknown), unknown);
}

TEST(FixesOfLessons, RightANameThatIsNearToOneOnly) {
  EXPECT_EQ(mended("patern: sh\n\"wrods\": ship # x\n"),
            "pattern: sh\nwords: ship # x\n");
}

TEST(FixesOfLessons, PutTextsIntoQuotes) {
  const std::pair<std::string, std::string> texts[] = {
      {"title: Week 3: sh", "title: \"Week 3: sh\""},
      {"title: *sh*", "title: \"*sh*\""},
      {"title: 'Don't go'", "title: \"Don't go\""},
      {"title: \"Week\" 3", "title: '\"Week\" 3'"},
      {"title: \"Week 3", "title: \"Week 3\""},
  };
  for (const auto& [wrong, right] : texts) {
    const std::string head = "pattern: sh\nwords: ship\n";
    const std::string text = mended(head + wrong + "\n", Which::all);
    EXPECT_EQ(text, head + right + "\n");
    EXPECT_EQ(lesson_from(text).messages(), "");
    // Only the teacher knows what was meant.
    EXPECT_EQ(mended(head + wrong + "\n"), head + wrong + "\n");
  }
}

}  // namespace
}  // namespace sheaf
