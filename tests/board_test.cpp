// The layout `board` uses its slides: in every lesson that ships, no slide is
// blank or to be cut, each word to blend has one slide, each word in boxes has
// an empty and a filled one, and what is shown spans most of the room between
// the heading and the footer.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "files/disk_files.h"
#include "layout/mark_bounds.h"
#include "look_checks.h"
#include "project_files.h"

namespace sheaf::test {
namespace {

using namespace literals;

// Heading and direction above, the line for filing below.
constexpr Length kHeader = 33_mm;
constexpr Length kFooter = 15_mm;

std::vector<std::string> lessons() {
  const std::set<std::string> folders = {"lessons", "year", "second-year"};
  std::vector<std::string> lessons;
  for (const auto& path : files_below(project() / "lessons", {".yaml"})) {
    const std::string name = path.stem().string();
    if (!folders.contains(path.parent_path().filename().string())) continue;
    if (name != "class" && name != "sequence") lessons.push_back(path.string());
  }
  return lessons;
}

// How much of the room between heading and footer the marks span.
double share_of_room(const Page& page) {
  Length left = page.size.width, top = page.size.height, right, bottom;
  for (const Mark& mark : page.marks) {
    const auto* text = std::get_if<GlyphMark>(&mark);
    const Rect r = text != nullptr ? exact_ink(*text) : bounds_of(mark);
    const Length at = text != nullptr ? text->at.y : r.y + r.height / 2;
    if (at < kHeader || at > page.size.height - kFooter) continue;
    left = std::min(left, r.x);
    right = std::max(right, r.right());
    top = std::min(top, std::max(r.y, kHeader));
    bottom = std::max(bottom, std::min(r.bottom(), page.size.height - kFooter));
  }
  if (right <= left || bottom <= top) return 0;
  const double room =
      page.size.width.pt() * (page.size.height - kHeader - kFooter).pt();
  return (right - left).pt() * (bottom - top).pt() / room;
}

TEST(Board, EverySlideIsUsed) {
  Workspace workspace(disk(), shipped_folder());
  double all = 0;
  int slides = 0;
  for (const std::string& lesson : lessons()) {
    const Made made = make(workspace, lesson, "board", "screen", {});
    ASSERT_NE(made.lesson, nullptr);
    EXPECT_EQ(made.faults, "") << made.about;
    std::map<std::string, std::size_t> count;
    for (const Page& page : made.packet.learner.pages) {
      const std::string where = made.about + ", " + page.label;
      ++count[page.label.substr(0, page.label.rfind(' '))];
      EXPECT_FALSE(page.own_leaf || page.is_back) << where;
      const double share = share_of_room(page);
      // A word of three narrow letters is as tall as the slide, and no wider.
      EXPECT_GE(share, 0.25) << where;
      all += share;
      ++slides;
    }
    EXPECT_EQ(count["blending"], made.lesson->analyzed.words.size())
        << made.about;
    EXPECT_EQ(count["sound-boxes"] % 2, 0U) << made.about;
    EXPECT_LE(count["dictation"], 1U) << made.about;
  }
  ASSERT_GT(slides, 1000);
  EXPECT_GE(all / slides, 0.6);
}

// The first of a pair shows no letter of the word, the second all of them.
TEST(Board, BoxesComeEmptyAndThenFilled) {
  Workspace workspace(disk(), shipped_folder());
  for (const std::string& lesson : lessons()) {
    const Made made = make(workspace, lesson, "board", "screen", {});
    ASSERT_NE(made.lesson, nullptr);
    bool empty = true;
    for (const Page& page : made.packet.learner.pages) {
      if (!page.label.starts_with("sound-boxes ")) continue;
      std::size_t letters = 0;
      for (const Mark& mark : page.marks) {
        const auto* text = std::get_if<GlyphMark>(&mark);
        if (text == nullptr || text->at.y < kHeader) continue;
        if (text->at.y > page.size.height - kFooter) continue;
        const std::string& shown = text->run.shape->text;
        letters += static_cast<std::size_t>(
            std::ranges::count_if(shown, [](char c) { return c >= 'a'; }));
      }
      EXPECT_EQ(letters == 0, empty) << made.about << ", " << page.label;
      empty = !empty;
    }
  }
}

}  // namespace
}  // namespace sheaf::test
