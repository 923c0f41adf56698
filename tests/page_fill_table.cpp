// Prints what paper a week takes: of each lesson its pages, those that are
// blank and those under half full, with the sheets that they belong to.
//
//     page_fill [LAYOUT [PAPER]]

#include <fmt/format.h>

#include <filesystem>

#include "files/disk_files.h"
#include "page_fill.h"
#include "support/run_program.h"

namespace {

using namespace sheaf;
using namespace sheaf::test;

struct Sums {
  std::size_t pages = 0, blank = 0, backs = 0, under_half = 0;
};

void print_lesson(Workspace& workspace, const std::string& lesson,
                  const std::string& layout, const std::string& paper,
                  Sums& sums) {
  const Made made = make(workspace, lesson, layout, paper, {});
  if (made.lesson == nullptr) return;
  Sums own;
  std::string low, all;
  for (const PageFill& page : page_fill(made.packet.learner)) {
    ++own.pages;
    own.blank += page.blank;
    own.backs += page.back_of_cut;
    own.under_half += page.under_half();
    const std::string text =
        page.blank ? "-"
                   : fmt::format("{} {:.0f}%", page.sheet, 100 * page.share);
    all += (all.empty() ? "" : ", ") + text;
  }
  fmt::print("{:<22}{:>6}{:>7}{:>10}{:>12}  {}\n",
             std::filesystem::path(lesson).stem().string(), own.pages,
             own.blank, own.backs, own.under_half, all);
  sums.pages += own.pages;
  sums.blank += own.blank;
  sums.backs += own.backs;
  sums.under_half += own.under_half;
}

}  // namespace

int main(int count, char** words) {
  const std::string layout = count > 1 ? words[1] : "week";
  const std::string paper = count > 2 ? words[2] : "letter";
  Workspace workspace(disk(), shipped_folder());
  fmt::print("layout {}, paper {}\n\n{:<22}{:>6}{:>7}{:>10}{:>12}\n", layout,
             paper, "", "pages", "blank", "of a cut", "under half");
  Sums sums;
  const auto lessons = measured_lessons();
  for (const std::string& lesson : lessons) {
    print_lesson(workspace, lesson, layout, paper, sums);
  }
  fmt::print("{:<22}{:>6}{:>7}{:>10}{:>12}\n\n", "all", sums.pages, sums.blank,
             sums.backs, sums.under_half);
  fmt::print(
      "pages a week {:.1f}, blank or under half {:.1f} %\n",
      static_cast<double>(sums.pages) / static_cast<double>(lessons.size()),
      100.0 * static_cast<double>(sums.blank + sums.under_half) /
          static_cast<double>(sums.pages));
}
