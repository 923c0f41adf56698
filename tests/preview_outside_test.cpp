// Pages drawn both ways: by our preview, and as our PDF by poppler. They are
// made independently from the same marks, so what they share is right.

#include <gtest/gtest.h>

#include <cstdlib>

#include "files/disk_files.h"
#include "look_checks.h"
#include "pdf/pdf_writer.h"
#include "preview/preview.h"
#include "project_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using testing_support::file_bytes;
using testing_support::run_program;
using testing_support::TemporaryFolder;

constexpr int kDpi = 96;
/// Mean difference of a page's pixels, of 255.
constexpr double kMostDifferent = 3;

struct Grey {
  int width = 0, height = 0;
  std::string pixels;
};

// A binary PGM file as pdftoppm writes it.
Grey read_pgm(const std::string& path) {
  const std::string bytes = file_bytes(path);
  Grey grey;
  int used = 0, most = 0;
  if (std::sscanf(bytes.c_str(), "P5 %d %d %d%n", &grey.width, &grey.height,
                  &most, &used) == 3 &&
      most == 255) {
    grey.pixels = bytes.substr(static_cast<std::size_t>(used) + 1);
  }
  return grey;
}

double mean_difference(const PreviewImage& ours, const Grey& theirs) {
  double sum = 0;
  for (std::size_t i = 0; i < ours.pixels.size(); ++i) {
    sum += std::abs(
        ours.pixels[i] -
        static_cast<int>(static_cast<unsigned char>(theirs.pixels[i])));
  }
  return sum / static_cast<double>(ours.pixels.size());
}

std::vector<std::string> demo_lessons() {
  std::vector<std::string> paths;
  for (const auto& path : files_below(project() / "lessons", {".yaml"})) {
    if (path.parent_path().filename() != "lessons") continue;
    if (!path.stem().string().ends_with("class")) {
      paths.push_back(path.string());
    }
  }
  return paths;
}

class BothWays {
 public:
  void compare(const Document& document, const std::string& about) {
    ASSERT_FALSE(document.pages.empty()) << about;
    const TemporaryFolder folder;
    const std::string pdf = folder.write("pages.pdf", write_pdf(document));
    const auto drawn =
        run_program({"pdftoppm", "-r", std::to_string(kDpi), "-gray",
                     "-thinlinemode", "shape", pdf, folder.path() + "/page"});
    ASSERT_EQ(drawn.status, 0) << drawn.out;
    const std::size_t digits = std::to_string(document.pages.size()).size();
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
      const Page& page = document.pages[i];
      std::string number = std::to_string(i + 1);
      number.insert(0, digits - number.size(), '0');
      const Grey theirs = read_pgm(folder.path() + "/page-" + number + ".pgm");
      const PreviewImage ours =
          draw_page(page, {.dpi = kDpi, .colours = PreviewColours::grey});
      const std::string where = about + ", " + page.label;
      ASSERT_EQ(ours.width, theirs.width) << where;
      ASSERT_EQ(ours.height, theirs.height) << where;
      ASSERT_EQ(ours.pixels.size(), theirs.pixels.size()) << where;
      const double difference = mean_difference(ours, theirs);
      EXPECT_LE(difference, kMostDifferent) << where;
      // The test can fail: a white page would not do.
      const PreviewImage white = draw_page(
          {page.size, {}}, {.dpi = kDpi, .colours = PreviewColours::grey});
      if (!page.marks.empty()) {
        EXPECT_LT(difference, mean_difference(white, theirs) / 2) << where;
      }
      double& worst = worst_[page.label.substr(0, page.label.rfind(' '))];
      worst = std::max(worst, difference);
    }
  }
  const std::map<std::string, double>& worst() const { return worst_; }

 private:
  std::map<std::string, double> worst_;  // by the kind of sheet
};

TEST(PreviewOutside, PagesLookAsPopplerDrawsThem) {
  Workspace workspace(disk(), shipped_folder());
  std::vector<std::string> kinds;
  for (const SheetKind* kind : sheet_kinds()) kinds.emplace_back(kind->name);
  BothWays both;
  for (const std::string& lesson : demo_lessons()) {
    const Made made = make(workspace, lesson, "week", "letter", kinds);
    ASSERT_NE(made.lesson, nullptr);
    ASSERT_EQ(made.faults, "") << made.about;
    both.compare(made.packet.learner, made.about);
    both.compare(made.packet.teacher, made.about);
  }
  // Every kind of sheet that some demo lesson has something for.
  EXPECT_GE(both.worst().size(), 25U);
  for (const auto& [sheet, difference] : both.worst()) {
    std::printf("%-28s %.2f of 255\n", sheet.c_str(), difference);
  }
}

}  // namespace
}  // namespace sheaf::test
