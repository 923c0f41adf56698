// The layout `large-print` keeps its promise: in every lesson that ships, on
// both papers, nothing that a learner reads is under 20 pt, but for footers of
// 14 pt and the codes of cards. The note for home is read by a grown-up.

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>
#include <vector>

#include "files/disk_files.h"
#include "look_checks.h"
#include "project_files.h"
#include "sheets/sheet.h"

namespace sheaf::test {
namespace {

using namespace literals;

constexpr Length kLeast = 20_pt;
constexpr Length kFooter = 14_pt;

std::vector<std::string> lessons_in(const std::set<std::string>& folders) {
  std::vector<std::string> lessons;
  for (const auto& path : files_below(project() / "lessons", {".yaml"})) {
    const std::string name = path.stem().string();
    if (!folders.contains(path.parent_path().filename().string())) continue;
    if (name != "class" && name != "sequence") lessons.push_back(path.string());
  }
  return lessons;
}

// Texts that are too small, each with its size, by sheet.
class SmallTexts {
 public:
  void look_at(const Document& document, const std::string& code) {
    for (const Page& page : document.pages) {
      for (const Mark& mark : page.marks) {
        const auto* text = std::get_if<GlyphMark>(&mark);
        if (text == nullptr) continue;
        ++seen_;
        const std::string& shown = text->run.shape->text;
        const bool is_footer = text->element == kPageFooter;
        // A card's code is the lesson's, with its number.
        if (!is_footer && shown.starts_with(code + " ")) continue;
        if (text->run.size >= (is_footer ? kFooter : kLeast)) continue;
        const std::string sheet = page.label.substr(0, page.label.rfind(' '));
        const double size = static_cast<double>(text->run.size.mils()) / 1000;
        small_.emplace(sheet + ": " + shown + " in " + std::to_string(size));
      }
    }
  }
  int seen() const { return seen_; }
  std::string text() const {
    std::string text;
    for (const std::string& one : small_) text += one + "\n";
    return text;
  }

 private:
  int seen_ = 0;
  std::set<std::string> small_;
};

class LargePrint : public testing::Test {
 protected:
  void look_at(const std::string& lesson, const char* paper,
               const std::vector<std::string>& only, SmallTexts& small) {
    const Made made = make(workspace_, lesson, "large-print", paper, only);
    ASSERT_NE(made.lesson, nullptr);
    EXPECT_EQ(made.faults, "") << made.about;
    EXPECT_GE(made.lesson->style.footer_size, kFooter);
    small.look_at(made.packet.learner, made.lesson->analyzed.code);
  }

  Workspace workspace_{disk(), shipped_folder()};
};

TEST_F(LargePrint, IsTwentyPointsWhereverALearnerReads) {
  SmallTexts small;
  const auto lessons = lessons_in({"lessons", "year", "second-year"});
  ASSERT_GE(lessons.size(), 39U);
  for (const std::string& lesson : lessons) {
    for (const char* paper : {"letter", "a4"}) {
      look_at(lesson, paper, {}, small);
    }
  }
  EXPECT_EQ(small.text(), "");
  EXPECT_GT(small.seen(), 10000);
}

// Sheets that the layout does not have can be asked for by name.
TEST_F(LargePrint, HoldsForEverySheetThatIsAskedFor) {
  std::vector<std::string> kinds;
  for (const SheetKind* kind : sheet_kinds()) {
    if (kind->name != "home-note") kinds.emplace_back(kind->name);
  }
  SmallTexts small;
  for (const std::string& lesson : lessons_in({"lessons"})) {
    look_at(lesson, "letter", kinds, small);
  }
  EXPECT_EQ(small.text(), "");
}

}  // namespace
}  // namespace sheaf::test
