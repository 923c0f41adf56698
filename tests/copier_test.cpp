// Pages after a bad photocopier. Teachers copy what they print, and copy the
// copies: what means something must still be there, and told apart by more than
// greyness. Every sheet in every layout, made here and seen by the preview.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "files/disk_files.h"
#include "look_checks.h"
#include "project_files.h"
#include "sheets/sheet.h"
#include "support/copier.h"

namespace sheaf::test {
namespace {

using namespace literals;
using testing_support::PhotoCopy;
using testing_support::told_of_line;

// Drawing pages is slow under the checks of the compiler.
#if defined(__SANITIZE_ADDRESS__)
constexpr std::size_t kEachPage = 9;
#else
constexpr std::size_t kEachPage = 1;
#endif

// A ground that may vanish, since words or lines say the same; a darker one
// may not.
constexpr Ink kMayVanish = 230;
constexpr Ink kHalf = 128;

std::vector<std::string> layouts() {
  std::vector<std::string> names;
  for (const auto& path : files_below(project() / "layouts", {".yaml"})) {
    names.push_back(path.stem().string());
  }
  return names;
}

std::vector<std::string> all_kinds() {
  std::vector<std::string> names;
  for (const SheetKind* kind : sheet_kinds()) names.emplace_back(kind->name);
  return names;
}

// What went wrong, how often, by sheet and kind of line.
using Faults = std::map<std::string, int>;

std::string told(const Faults& faults) {
  std::string text;
  for (const auto& [what, times] : faults) {
    text += what + ": " + std::to_string(times) + "\n";
  }
  return text;
}

std::string sheet_of(const Page& page) {
  return page.label.substr(0, page.label.find(' '));
}

void check_line(const PhotoCopy& copy, const Mark& mark,
                const std::string& where, Faults& faults) {
  const std::string line = told_of_line(mark);
  if (line.empty()) return;
  if (copy.kept_of_line(mark) < 0.95) ++faults[where + " loses " + line];
  if (copy.kept_of_gaps(mark) < 0.75) ++faults[where + " joins " + line];
}

// A ground has a frame, or a line at its foot as long as itself.
bool has_line(const Page& page, const RectMark& ground) {
  return ground.stroked || std::ranges::any_of(page.marks, [&](const Mark& m) {
           const auto* line = std::get_if<LineMark>(&m);
           const Rect& r = ground.rect;
           return line != nullptr && line->from == Point{r.x, r.bottom()} &&
                  line->to == Point{r.right(), r.bottom()};
         });
}

// A grey ground is light enough to vanish where nothing hangs on it, has a line
// where something does, or is black.
void check_ground(const PhotoCopy& copy, const Page& page, const RectMark& rect,
                  const std::string& where, Faults& faults) {
  if (!rect.filled || rect.fill == kWhite) return;
  const std::string what = " a ground of " + std::to_string(rect.fill);
  if (rect.fill < kHalf) {
    if (copy.black_in(rect.rect) < 0.9) ++faults[where + " loses" + what];
  } else if (rect.fill < kMayVanish && !has_line(page, rect)) {
    ++faults[where + " leaves nothing of" + what];
  }
}

void check_page(const Page& page, const std::string& layout, Faults& faults) {
  const PhotoCopy copy(page);
  const std::string where = layout + ", " + sheet_of(page);
  for (const Mark& mark : page.marks) {
    check_line(copy, mark, where, faults);
    if (const auto* rect = std::get_if<RectMark>(&mark)) {
      check_ground(copy, page, *rect, where, faults);
    }
  }
}

class Copier : public testing::Test {
 protected:
  Faults faults_of(const std::string& lesson, const std::string& layout) {
    const Made made =
        make(workspace_, (project() / lesson).string(), layout, "letter",
             layout == "board" ? std::vector<std::string>() : all_kinds());
    Faults faults;
    if (made.lesson == nullptr) return faults;
    EXPECT_EQ(made.faults, "") << made.about;
    std::size_t number = 0;
    for (const Document* document :
         {&made.packet.learner, &made.packet.teacher}) {
      for (const Page& page : document->pages) {
        if (number++ % kEachPage == 0) check_page(page, layout, faults);
      }
    }
    pages_ += number;
    return faults;
  }

  std::size_t pages_ = 0;
  Workspace workspace_{disk(), shipped_folder()};
};

// "of" has an f that does not say its usual sound, on an underlined
// ground, which leaves no blot.
TEST_F(Copier, WhatIsUnusualInAWordIsStillMarked) {
  const std::string lesson =
      (project() / "tests/golden/sheet-word-parts.yaml").string();
  const Made made =
      make(workspace_, lesson, "older-learners", "letter", {"word-parts"});
  ASSERT_NE(made.lesson, nullptr);
  int grounds = 0;
  Faults faults;
  for (const Page& page : made.packet.learner.pages) {
    const PhotoCopy copy(page);
    for (const Mark& mark : page.marks) {
      check_line(copy, mark, "word-parts", faults);
      const auto* rect = std::get_if<RectMark>(&mark);
      if (rect == nullptr || !rect->filled || rect->fill == kWhite) continue;
      EXPECT_TRUE(has_line(page, *rect));
      // Little more than the letter is left.
      EXPECT_LT(copy.black_in(rect->rect), 0.35);
      ++grounds;
    }
  }
  EXPECT_EQ(told(faults), "");
  EXPECT_GE(grounds, 1);
}

// Small grey text (footers, codes of cards) is as good as black there.
TEST_F(Copier, GreyTextKeepsItsStrokes) {
  const Made made =
      make(workspace_, (project() / "lessons/sh-ship.yaml").string(),
           "ink-saver", "letter", {"dictation", "word-cards", "sentences"});
  ASSERT_NE(made.lesson, nullptr);
  int grey = 0;
  for (const Page& page : made.packet.learner.pages) {
    Page black = page;
    for (Mark& mark : black.marks) {
      if (auto* text = std::get_if<GlyphMark>(&mark)) text->ink = kBlack;
    }
    const PhotoCopy copy(page), best(black);
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<GlyphMark>(&mark);
      if (text == nullptr || text->ink == kBlack) continue;
      const Rect ink = ink_of_text(*text);
      const auto all = static_cast<double>(best.black_dots(ink));
      EXPECT_GE(static_cast<double>(copy.black_dots(ink)), 0.7 * all)
          << text->run.shape->text;
      ++grey;
    }
  }
  EXPECT_GE(grey, 10);
}

TEST_F(Copier, LinesAndGroundsThatMeanSomethingAreStillThere) {
  for (const std::string& layout : layouts()) {
    EXPECT_EQ(told(faults_of("lessons/sh-ship.yaml", layout)), "");
  }
  EXPECT_GT(pages_, 100U);
}

}  // namespace
}  // namespace sheaf::test
