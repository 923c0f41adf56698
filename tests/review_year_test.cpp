// `sheaf review` over a school year, week after week.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "marking/calendar.h"
#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// The year of lessons as it ships, a week after the other, each with the check
// that `review` makes for it: by its end every pattern that was taught half a
// year before was asked for, and none all the time.
TEST(ReviewOfAYear, EachPatternIsChecked) {
  const TemporaryFolder folder;
  const std::string home = folder.path();
  fs::copy(project() / "lessons/year", home + "/year",
           fs::copy_options::recursive);
  fs::create_directories(home + "/records");
  std::vector<std::string> lessons;
  for (const auto& entry : fs::directory_iterator(home + "/year")) {
    const std::string name = entry.path().filename().string();
    if (name.ends_with(".yaml") && name[0] >= '0' && name[0] <= '9') {
      lessons.push_back(name);
    }
  }
  std::ranges::sort(lessons);
  ASSERT_EQ(lessons.size(), 36U);
  const auto day = [](int days) {
    return date_text(day_after({2026, 9, 7}, days));
  };
  const auto line = [](const std::string& text, std::string_view key) {
    std::istringstream lines(text);
    for (std::string one; std::getline(lines, one);) {
      if (one.starts_with(key)) return one.substr(key.size());
    }
    return std::string();
  };
  std::map<std::string, int> taught, asked;
  int checks = 0;
  for (int week = 0; week < 36; ++week) {
    const int monday = 7 * (week + (week >= 7 ? 1 : 0) + (week >= 15 ? 2 : 0));
    const std::string& lesson = lessons[static_cast<std::size_t>(week)];
    folder.write("class.yaml", fmt::format("lesson: year/{}\nlearners: [B7, "
                                           "C3]\n",
                                           lesson));
    if (week > 0) {
      const Outcome made =
          run_program({SHEAF_PROGRAM, "review", "--class", home + "/class.yaml",
                       "--records", home + "/records", "--week", day(monday)});
      ASSERT_EQ(made.status, 0) << made.out;
    }
    const std::string check = fmt::format("check-{}.yaml", day(monday));
    if (fs::exists(home + "/" + check)) {
      ++checks;
      std::istringstream patterns(
          line(file_bytes(home + "/" + check), "pattern: ["));
      for (std::string id; patterns >> id;) {
        ++asked[id.substr(0, id.find_first_of(",]"))];
      }
      folder.write(fmt::format("records/{}-check.yaml", day(monday)),
                   fmt::format("date: {}\nlesson: {}\nkind: retention\nclass: "
                               "class.yaml\nmarked: B7, C3\n",
                               day(monday + 3), check));
    }
    std::istringstream own(
        line(file_bytes(home + "/year/" + lesson), "pattern: "));
    for (std::string id; std::getline(own, id, ',');) {
      taught.emplace(id.substr(id.find_first_not_of(' ')), week);
    }
    folder.write(fmt::format("records/{}.yaml", day(monday)),
                 fmt::format("date: {}\nlesson: year/{}\nclass: class.yaml\n"
                             "marked: B7, C3\n",
                             day(monday + 4), lesson));
  }
  EXPECT_GE(checks, 30);
  EXPECT_GT(taught.size(), 20U);
  for (const auto& [id, week] : taught) {
    if (week < 18) {
      EXPECT_GT(asked[id], 0) << id;
    }
    EXPECT_LT(asked[id], checks / 2) << id;
  }
}

}  // namespace
}  // namespace sheaf::test
