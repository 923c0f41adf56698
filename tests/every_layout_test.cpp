// Every lesson that Sheaf ships can be made in every layout that it ships, on
// both papers. So can a lesson that is hard on the room: many words and long
// sentences to dictate, words of nine sounds and more.

#include <gtest/gtest.h>

#include <algorithm>

#include "files/disk_files.h"
#include "look_checks.h"
#include "project_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr std::size_t kEachLesson = 12;
#else
constexpr std::size_t kEachLesson = 1;
#endif

std::vector<std::string> shipped_lessons() {
  std::vector<std::string> lessons;
  for (const auto& path : files_below(project() / "lessons", {".yaml"})) {
    const std::string folder = path.parent_path().filename().string();
    const std::string name = path.stem().string();
    if (folder != "lessons" && folder != "year") continue;
    if (name == "class" || name == "sequence") continue;
    lessons.push_back(path.string());
  }
  return lessons;
}

std::vector<std::string> shipped_layouts() {
  std::vector<std::string> layouts;
  for (const auto& path : files_below(project() / "layouts", {".yaml"})) {
    layouts.push_back(path.stem().string());
  }
  return layouts;
}

class EveryLayout : public testing::Test {
 protected:
  void expect_made(const std::string& lesson,
                   const std::vector<std::string>& only = {}) {
    for (const std::string& layout : shipped_layouts()) {
      for (const char* paper : {"letter", "a4"}) {
        const Made made = make(workspace_, lesson, layout, paper, only);
        if (made.lesson == nullptr) continue;
        EXPECT_EQ(made.faults, "") << made.about;
        EXPECT_FALSE(made.packet.learner.pages.empty()) << made.about;
      }
    }
  }

  Workspace workspace_{disk(), shipped_folder()};
};

TEST_F(EveryLayout, MakesEveryLessonThatIsShipped) {
  const std::vector<std::string> lessons = shipped_lessons();
  EXPECT_GE(lessons.size(), 39U);
  for (std::size_t i = 0; i < lessons.size(); i += kEachLesson) {
    expect_made(lessons[i]);
  }
}

TEST_F(EveryLayout, MakesALessonThatIsHardOnTheRoom) {
  const testing_support::TemporaryFolder folder;
  std::string text =
      "pattern: sh\n"
      "words: ship shed shell fish dish brush crash shelf flush fresh\n"
      "  establishment accomplishment refreshment nourishment astonishment\n"
      "dictate-words: ship shed shell fish dish brush crash shelf flush fresh\n"
      "  establishment accomplishment refreshment nourishment astonishment\n"
      "  shin shut shot shop wish rush hush cash mash dash lash rash gush\n"
      "  mush shred shrub shrug splash thrush slush blush flash trash smash\n";
  for (const char* key : {"sentences", "dictate-sentences"}) {
    text += std::string(key) + ": |\n";
    for (const char* first : {"Fresh", "Six", "Big"}) {
      text += std::string("  ") + first +
              " fish and shellfish splash past the splendid establishment "
              "and vanish with astonishment!\n";
    }
  }
  const std::string lesson = folder.write("hard.yaml", text);
  expect_made(lesson);
  std::vector<std::string> kinds;
  for (const SheetKind* kind : sheet_kinds()) kinds.emplace_back(kind->name);
  for (const char* paper : {"letter", "a4"}) {
    for (const char* layout : {"week", "large-print"}) {
      const Made made = make(workspace_, lesson, layout, paper, kinds);
      ASSERT_NE(made.lesson, nullptr);
      EXPECT_EQ(made.faults, "") << made.about;
    }
  }
}

// Where the lines of one sentence are more than a page, they go on on the next,
// every one of them; where they are not, they stay together.
TEST_F(EveryLayout, PartsTheLinesOfASentenceOnlyWhereTheyAreMoreThanAPage) {
  const testing_support::TemporaryFolder folder;
  const std::string lesson = folder.write(
      "long.yaml",
      "pattern: sh\nwords: ship shed fish\ndictate-words: ship\n"
      "dictate-sentences: |\n  The big fresh fish must splash and splash and "
      "rush to the ship with the shells.\n");
  const auto pages_of = [&](const std::string& height,
                            const std::string& form) {
    const std::string layout = folder.write(
        form + height + ".yaml",
        "line-height: " + height +
            "\nreading-size: 60 pt\nsheets:\n  - dictation: {words: "
            "0, self-check: no, sentence-form: " +
            form + "}\n");
    const Made made = make(workspace_, lesson, layout, "letter", {});
    EXPECT_EQ(made.faults, "") << height << " " << form;
    return made.packet.learner.pages.size();
  };
  EXPECT_EQ(pages_of("6 mm", "gaps"), 1U);
  EXPECT_GE(pages_of("15 mm", "gaps"), 2U);
  const auto base_lines = [&](const std::string& height) {
    const std::string layout = folder.write(
        height + ".yaml", "line-height: " + height +
                              "\nline-style: base-only\nsheets:\n"
                              "  - dictation: {words: 0, self-check: no}\n");
    const Made made = make(workspace_, lesson, layout, "letter", {});
    EXPECT_EQ(made.faults, "");
    std::vector<long> lines;
    for (const Page& page : made.packet.learner.pages) {
      // The name and the date have a line each.
      lines.push_back(
          std::ranges::count_if(page.marks,
                                [](const Mark& mark) {
                                  return std::holds_alternative<LineMark>(mark);
                                }) -
          2);
    }
    return lines;
  };
  EXPECT_EQ(base_lines("6 mm").size(), 1U);
  const std::vector<long> tall = base_lines("15 mm");
  ASSERT_GE(tall.size(), 2U);
  long all = 0;
  for (const long count : tall) {
    EXPECT_GE(count, 1);
    all += count;
  }
  // As many to mend on as to write on.
  EXPECT_EQ(all % 2, 0);
  EXPECT_GE(all, 8);
}

}  // namespace
}  // namespace sheaf::test
