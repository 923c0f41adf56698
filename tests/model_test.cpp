// What is done for the learner: no more than one item of a sheet, the first, at
// no cost in paper; and what is given in sound boxes fades to nothing.

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "files/disk_files.h"
#include "look_checks.h"
#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using testing_support::TemporaryFolder;

constexpr const char* kLessons[] = {
    "lessons/sh-ship.yaml",          "lessons/ai-ay-rain.yaml",
    "lessons/i-e-kite.yaml",         "lessons/year/03-short-a.yaml",
    "lessons/year/13-sh-ch.yaml",    "lessons/year/20-o-e.yaml",
    "lessons/year/36-ow-ow.yaml",    "lessons/second-year/03-a-open.yaml",
    "lessons/second-year/14-ly.yaml"};

// Pages as in the week, and in large print.
constexpr const char* kSettings[] = {
    "",
    "text-size: 20 pt\nreading-size: 32 pt\nword-size: 40 pt\n"
    "line-height: 10 mm\nline-gap: 6 mm\n"};

class Models : public testing::Test {
 protected:
  Made made(const std::string& lesson, const std::string& settings,
            bool model) {
    const std::string options = model ? ": {model: yes}\n" : ": {model: no}\n";
    std::string text = settings + "sheets:\n";
    for (const char* sheet :
         {"sound-boxes", "sentences", "compose", "cover-write"}) {
      text += std::string("  - ") + sheet + options;
    }
    const std::string layout =
        folder_.write(model ? "with.yaml" : "without.yaml", text);
    return make(workspace_, (project() / lesson).string(), layout, "letter",
                {});
  }

  const TemporaryFolder folder_;
  Workspace workspace_{disk(), shipped_folder()};
};

std::string sheet_of(const Page& page) {
  return page.label.substr(0, page.label.rfind(' '));
}

std::map<std::string, int> pages_by_sheet(const Document& document) {
  std::map<std::string, int> pages;
  for (const Page& page : document.pages) ++pages[sheet_of(page)];
  return pages;
}

// How many boxes "Like this" stand on the pages of each sheet.
std::map<std::string, int> models_by_sheet(const Document& document) {
  std::map<std::string, int> models;
  for (const Page& page : document.pages) {
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<GlyphMark>(&mark);
      if (text != nullptr && text->run.shape->text.starts_with("Like this")) {
        ++models[sheet_of(page)];
      }
    }
  }
  return models;
}

TEST_F(Models, AreOneASheetAndCostNoPaper) {
  int seen = 0;
  for (const char* lesson : kLessons) {
    for (const char* settings : kSettings) {
      const Made with = made(lesson, settings, true);
      const Made without = made(lesson, settings, false);
      ASSERT_NE(with.lesson, nullptr);
      ASSERT_NE(without.lesson, nullptr);
      auto before = pages_by_sheet(without.packet.learner);
      for (const auto& [sheet, pages] : pages_by_sheet(with.packet.learner)) {
        EXPECT_LE(pages, before[sheet]) << with.about << ", " << sheet;
      }
      for (const auto& [sheet, models] : models_by_sheet(with.packet.learner)) {
        EXPECT_EQ(models, 1) << with.about << ", " << sheet;
        ++seen;
      }
      EXPECT_TRUE(models_by_sheet(without.packet.learner).empty());
    }
  }
  // Left out only where there is no room: of all sheets in all lessons few.
  EXPECT_GE(seen, 50);
}

// What is heard of the boxes of each word, in their order.
std::vector<std::string> boxes_heard(const Document& document) {
  std::vector<std::string> heard;
  for (const Element& element : document.elements) {
    if (element.alternative.find("to tap over") != std::string::npos) {
      heard.push_back(element.alternative);
    }
  }
  return heard;
}

TEST_F(Models, LettersInSoundBoxesFadeToNothing) {
  for (const char* lesson : kLessons) {
    const Made made_ones = made(lesson, "", true);
    ASSERT_NE(made_ones.lesson, nullptr);
    const auto heard = boxes_heard(made_ones.packet.learner);
    ASSERT_GE(heard.size(), 4U) << lesson;
    const auto is_open = [](const std::string& boxes) {
      return boxes.find("empty boxes") != std::string::npos;
    };
    // The first is done, the second is half given, and after an open one no
    // letters come back.
    EXPECT_EQ(heard[0].find("empty"), std::string::npos) << lesson;
    EXPECT_FALSE(is_open(heard[1])) << lesson;
    EXPECT_NE(heard[1].find("empty"), std::string::npos) << lesson;
    const auto first_open = std::ranges::find_if(heard, is_open);
    EXPECT_LE(first_open - heard.begin(), 3) << lesson;
    EXPECT_TRUE(std::all_of(first_open, heard.end(), is_open)) << lesson;
  }
}

}  // namespace
}  // namespace sheaf::test
