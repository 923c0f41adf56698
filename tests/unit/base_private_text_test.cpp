// What may be shown of files about learners.

#include <gtest/gtest.h>

#include "base/diagnostics.h"
#include "base/private_text.h"

namespace sheaf {
namespace {

TEST(PrivateText, ShowsCodesNumbersAndWordsOfTheForm) {
  for (const char* text :
       {"B7", "AB", "2026-03-12", "3/5", "8 mm", "learners", "marked: all",
        "{B7: {}, C3: {}}", "", "...", "line-size: 8 mm"}) {
    EXPECT_FALSE(may_be_name(text)) << text;
    EXPECT_EQ(without_names(text), text);
  }
  for (const char* text : {"Tom", "tom", "Al", "Ann-Marie", "O'Neil", "Zoë",
                           "B7 Tom", "learners: Tom", "week-03-sh", "Tom7x"}) {
    EXPECT_TRUE(may_be_name(text)) << text;
  }
  EXPECT_EQ(without_names("  Tom Lee: {amount: 6}"), "  … …: {amount: 6}");
}

TEST(PrivateText, KnowsFilesAboutLearners) {
  EXPECT_TRUE(is_about_learners("a.yaml", "title: x\nlearners: [B7]\n"));
  EXPECT_TRUE(is_about_learners("a.yaml", "leaners: [Tom]\n"));
  EXPECT_TRUE(is_about_learners("a.yaml", "x\n  wrong: {Tom: {}}\n"));
  EXPECT_TRUE(is_about_learners("a.yaml", "words: x\ndate: 2026-03-12\n"));
  EXPECT_TRUE(is_about_learners("my/class.yaml", "title: x\n"));
  EXPECT_TRUE(is_about_learners("records/a.yaml", ""));
  EXPECT_TRUE(is_about_learners("class-2026.yaml", "words: x\n"));
  EXPECT_FALSE(is_about_learners("a.yaml", "pattern: sh\nwords: ship\n"));
  EXPECT_FALSE(is_about_learners("glass.yaml", "title: x\n"));
  EXPECT_FALSE(is_about_learners("a.yaml", "wrods: x\ngroup: Puffins\n"));
  EXPECT_FALSE(
      is_about_learners("a.yaml", "placement:\n  part-two:\n    1: hip\n"));
  EXPECT_FALSE(is_about_learners(
      "a.yaml", "pattern: a_e\nwords: date\nsplit:\n  date: d a_e t\n"));
  EXPECT_FALSE(is_about_learners("class-trip.yaml", "pattern: sh\nwords: x\n"));
}

TEST(PrivateText, IsLeftOutOfMessages) {
  const SourceFile file("class.yaml", "learners:\n  Tom: {amount: six}\n");
  const std::uint32_t at = file.line_begin(2) + 2;
  Diagnostics diagnostics;
  diagnostics.error(
      diagnostic::wrong_value, {&file, at, at + 3},
      as_written("Tom") + " is not " + as_written("B7"),
      {"write " + as_written("Tom 7"), {{{}, "Tim", is_now("Tom", "Tim")}}});
  EXPECT_EQ(to_text(diagnostics),
            "class.yaml:2:3: error: this is not `B7` [wrong-value]\n"
            "   2 |   …: {amount: …}\n"
            "     |   ^\n"
            "  help: write `… 7`\n");
  EXPECT_EQ(diagnostics.sorted().front()->fixes.front().label,
            "what stood here is put right");
}

TEST(PrivateText, StaysWhereTheFileIsALesson) {
  const SourceFile file("sh.yaml", "pattern: sh\nwords: Tom\n");
  const std::uint32_t at = file.line_begin(2) + 7;
  Diagnostics diagnostics;
  diagnostics.error(
      diagnostic::wrong_value, {&file, at, at + 3},
      as_written("Tom") + " is there",
      {"as in " + as_written("Tim"), {{{}, "Tim", is_now("Tom", "Tim")}}});
  EXPECT_EQ(to_text(diagnostics),
            "sh.yaml:2:8: error: `Tom` is there [wrong-value]\n"
            "   2 | words: Tom\n"
            "     |        ^~~\n"
            "  help: as in `Tim`\n");
  EXPECT_EQ(diagnostics.sorted().front()->fixes.front().label,
            "Tom is now Tim");
}

TEST(PrivateText, HasAHiddenWordFoundByItsNumber) {
  const auto printed = [](const std::string& line, const std::string& marked) {
    const SourceFile file("class.yaml", "learners:\n" + line + "\n");
    const auto begin = static_cast<std::uint32_t>(file.text().find(marked));
    Diagnostics d;
    d.error(diagnostic::wrong_value,
            {&file, begin, begin + static_cast<std::uint32_t>(marked.size())},
            "this is wrong");
    return to_text(d, {});
  };
  EXPECT_NE(printed("  B7: {ship: sip, fish: fis, dish: dis}", "fis,")
                .find("~ word 5 of this line\n"),
            std::string::npos);
  // In a short line it is seen, and a code is shown.
  EXPECT_EQ(printed("  B7: {ship: sip}", "sip").find("of this line"),
            std::string::npos);
  EXPECT_EQ(printed("  B7, C3, D1, E5, F2, G9", "E5").find("of this line"),
            std::string::npos);
}

}  // namespace
}  // namespace sheaf
