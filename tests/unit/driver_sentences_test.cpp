// A teacher's own sentences: lessons take them, `check` says what they are good
// for, and `keep` adds to them, over files in memory and over files that fail.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "driver/check_file.h"
#include "driver/keep_sentences.h"
#include "driver/planning_ground.h"
#include "input/sentence_file.h"
#include "support/faulty_files.h"
#include "unit/driver_memory.h"

namespace sheaf {
namespace {

using testing_support::FaultyFiles;

constexpr const char* kSequence =
    "steps: [short i, short o, short u, igh, sh]\n"
    "sight-words: the a I is to of he she we\n";
constexpr const char* kOpenLesson = "pattern: igh\n";
// Each of them can be read in the step of igh.
constexpr const char* kOwn =
    "# Mine.\n"
    "It is not right.\n"
    "The sun is a big light.\n"
    "The bright light is high.\n";

class Sentences : public testing::Test {
 protected:
  Sentences() {
    files.put("week/sequence.yaml", kSequence);
    files.put("week/igh.yaml", kOpenLesson);
  }

  std::vector<std::string> chosen(Diagnostics& diagnostics,
                                  const char* lesson = "week/igh.yaml") {
    workspaces.emplace_back(std::make_unique<Workspace>(files, "shipped"));
    const auto prepared = prepare(*workspaces.back(), {}, lesson, diagnostics);
    std::vector<std::string> texts;
    if (prepared == nullptr) return texts;
    for (const LessonLine& line : prepared->lesson.sentences) {
      texts.push_back(line.text());
    }
    return texts;
  }
  std::string text(const char* path) { return files.read(path, 2 << 20); }
  KeepResult keep(const std::vector<std::string>& lessons,
                  const char* to = "") {
    workspaces.emplace_back(std::make_unique<Workspace>(files, "shipped"));
    return keep_sentences(*workspaces.back(), {}, lessons, to);
  }

  // The one copy of what comes with Sheaf, under files of each test's own.
  static const MemoryFiles& shipped() {
    static const ShippedInMemory all;
    return all.files;
  }
  MemoryFiles files{&shipped()};
  std::vector<std::unique_ptr<Workspace>> workspaces;
};

// They have patterns of the weeks before too, and yet none was given then: igh
// was not taught. (Those weeks were once looked at as if it had been.)
TEST_F(Sentences, OfTheTeachersComeFirstInALesson) {
  Diagnostics before;
  const auto without = chosen(before);
  ASSERT_FALSE(without.empty()) << to_text(before);
  files.put("week/sentences.txt", kOwn);
  Diagnostics diagnostics;
  const auto with = chosen(diagnostics);
  ASSERT_EQ(with.size(), 3 + without.size()) << to_text(diagnostics);
  const std::set<std::string> first(with.begin(), with.begin() + 3);
  EXPECT_EQ(first, (std::set<std::string>{"It is not right.",
                                          "The sun is a big light.",
                                          "The bright light is high."}));
  EXPECT_NE(to_text(diagnostics).find(", 3 of them your own ["),
            std::string::npos)
      << to_text(diagnostics);
  // Slips are put right, and not told in every lesson.
  files.put("week/sentences.txt", "it is not right\n");
  Diagnostics again;
  EXPECT_EQ(chosen(again).front(), "It is not right.");
  EXPECT_EQ(to_text(again).find("sentences.txt"), std::string::npos);
}

// What a lesson of a week before was given does not come again, as with the
// sentences that come with Sheaf.
TEST_F(Sentences, OfTheTeachersDoNotComeAgainTheWeekAfter) {
  files.put("week/sentences.txt",
            std::string(kOwn) + "The light is on the ship.\n");
  files.put("week/one.yaml", "pattern: igh\nstep: 4\n");
  files.put("week/two.yaml", "pattern: igh\nstep: 5\n");
  Diagnostics diagnostics;
  const auto one = chosen(diagnostics, "week/one.yaml");
  const auto two = chosen(diagnostics, "week/two.yaml");
  const auto has = [](const auto& all, std::string_view text) {
    return std::ranges::find(all, text) != all.end();
  };
  EXPECT_TRUE(has(one, "The sun is a big light.")) << to_text(diagnostics);
  EXPECT_TRUE(has(two, "The light is on the ship."));
  EXPECT_FALSE(has(two, "The sun is a big light."));
}

TEST_F(Sentences, WithErrorsStopALessonThatWantsThem) {
  files.put("week/sentences.txt", "- A light.\n");
  Diagnostics diagnostics;
  EXPECT_TRUE(chosen(diagnostics).empty());
  const std::string said = to_text(diagnostics);
  EXPECT_EQ(diagnostics.error_count(), 1) << said;
  EXPECT_NE(said.find("week/sentences.txt:1:1: error: "), std::string::npos)
      << said;
  // A lesson that has its own is not concerned.
  files.put("week/igh.yaml",
            "pattern: igh\nwords: light night\n"
            "sentences: |\n  The light is high.\n");
  Diagnostics none;
  EXPECT_EQ(chosen(none).size(), 1U) << to_text(none);
}

TEST_F(Sentences, AreReportedByPattern) {
  files.put("week/sentences.txt",
            std::string(kOwn) + "The light is on the ship.\nI see a light.\n");
  Workspace workspace(files, "shipped");
  const CheckedFile checked = check_file(workspace, {}, "week/sentences.txt");
  ASSERT_TRUE(checked.sentences) << to_text(checked.diagnostics);
  const SentenceReport& report = *checked.sentences;
  EXPECT_EQ(report.sentences, 5);
  EXPECT_EQ(report.rows.size(), 5U) << "one for each pattern of the sequence";
  const auto row = [&](std::string_view pattern) {
    return *std::ranges::find(report.rows, pattern,
                              &SentenceReport::Row::pattern);
  };
  EXPECT_EQ(row("igh").step, 3);
  EXPECT_EQ(row("igh").having, 5);
  // sh is taught later, ee never; ship has both i and sh.
  EXPECT_EQ(row("igh").readable, 3);
  EXPECT_EQ(row("sh").having, 1);
  EXPECT_EQ(row("sh").readable, 1);
  EXPECT_EQ(row("short_i").readable, 0);
  for (std::size_t i = 1; i < report.rows.size(); ++i) {
    EXPECT_GE(report.rows[i - 1].having, report.rows[i].having);
  }
}

TEST_F(Sentences, OfALessonAreKept) {
  files.put("week/a.yaml",
            "pattern: igh\nwords: light night\nsentences: |\n"
            "  1. the light is on\n  Hit the light #4!\n"
            "dictate-sentences: |\n  The knight hid.\n  The light is on!\n");
  const KeepResult first = keep({"week/a.yaml", "week/sequence.yaml"});
  ASSERT_EQ(first.files.size(), 1U);
  EXPECT_TRUE(first.faults.empty());
  EXPECT_EQ(first.files[0].added, 2);
  EXPECT_EQ(first.files[0].there, 1);
  EXPECT_EQ(first.files[0].unfit,
            std::vector<std::string>{"Hit the light #4!"});
  ASSERT_EQ(first.others.size(), 1U);
  EXPECT_EQ(first.others[0].second, "a sequence");
  const std::string made = text("week/sentences.txt");
  EXPECT_TRUE(made.starts_with("# Sentences of your own.")) << made;
  EXPECT_TRUE(made.ends_with("comment.\nThe light is on.\nThe knight hid.\n"))
      << made;
  const KeepResult second = keep({"week/a.yaml"});
  EXPECT_EQ(second.files.at(0).added, 0);
  EXPECT_EQ(second.files.at(0).there, 3);
  EXPECT_EQ(text("week/sentences.txt"), made);
}

TEST_F(Sentences, KeptLeaveTheRestOfTheFileAsItIs) {
  const std::string before =
      "\xEF\xBB\xBF# Zebras first\r\n\r\nzoe is right  # May\r\nA fight.";
  files.put("week/sentences.txt", before);
  files.put("week/a.yaml",
            "pattern: igh\nwords: light night\nsentences: |\n"
            "  The light is on.\n  Zoe is right!\n");
  const KeepResult kept = keep({"week/a.yaml"});
  EXPECT_EQ(kept.files.at(0).added, 1);
  EXPECT_EQ(kept.files.at(0).there, 1);
  EXPECT_EQ(text("week/sentences.txt"), before + "\r\nThe light is on.\r\n");
}

TEST_F(Sentences, OfTheBankOrChosenAreNotKept) {
  Diagnostics diagnostics;
  const auto bank = chosen(diagnostics);
  ASSERT_FALSE(bank.empty());
  files.put(
      "week/a.yaml",
      "pattern: igh\nwords: light night\nsentences: |\n  " + bank[0] + "\n");
  const KeepResult kept = keep({"week/a.yaml", "week/igh.yaml"}, "mine.txt");
  EXPECT_EQ(kept.files.at(0).in_bank, 1);
  EXPECT_EQ(kept.files.at(0).added, 0);
  EXPECT_FALSE(files.is_file("mine.txt"));
}

TEST_F(Sentences, OfLessonsWithErrorsAreNotKept) {
  files.put("week/bad.yaml",
            "pattern: ighh\nwords: light\nsentences: |\n  The light is on.\n");
  files.put("week/good.yaml",
            "pattern: igh\nwords: light\nsentences: |\n  The fight is on.\n");
  const KeepResult kept = keep({"week/bad.yaml", "week/good.yaml"}, "mine.txt");
  ASSERT_EQ(kept.faults.size(), 1U);
  EXPECT_NE(to_text(kept.faults[0]).find("week/bad.yaml:1:10: error"),
            std::string::npos)
      << to_text(kept.faults[0]);
  EXPECT_TRUE(text("mine.txt").ends_with("comment.\nThe fight is on.\n"));
}

TEST_F(Sentences, AreNotAddedToAFileThatIsNoList) {
  files.put("week/good.yaml",
            "pattern: igh\nwords: light\nsentences: |\n  The fight is on.\n");
  const std::string others[] = {"pattern: sh\nwords: ship\n", "%PDF-1.4\n\xFF",
                                "- A light.\n"};
  for (const std::string& other : others) {
    files.put("mine.txt", other);
    const KeepResult kept = keep({"week/good.yaml"}, "mine.txt");
    EXPECT_EQ(kept.faults.size(), 1U) << other;
    EXPECT_FALSE(kept.files.at(0).file_is_good);
    EXPECT_EQ(text("mine.txt"), other);
  }
  std::string full;
  for (int i = 0; i < kMostSentenceLines; ++i) full += "A light.\n";
  files.put("mine.txt", full);
  EXPECT_THROW(keep({"week/good.yaml"}, "mine.txt"), MachineError);
  EXPECT_EQ(text("mine.txt"), full);
}

// Whichever call fails, nobody hears of a wrong lesson, and the list is as it
// was.
TEST_F(Sentences, AFaultOfTheMachineLeavesTheList) {
  files.put("week/a.yaml",
            "pattern: igh\nwords: light night\nsentences: |\n"
            "  The light is on.\n");
  files.put("week/sentences.txt", kOwn);
  const auto add = [](Files& over) {
    Workspace workspace(over, "shipped");
    return keep_sentences(workspace, {}, {"week/a.yaml"}, "");
  };
  FaultyFiles counting(files);
  ASSERT_EQ(add(counting).files.at(0).added, 1);
  const std::string done = text("week/sentences.txt");
  ASSERT_EQ(done, std::string(kOwn) + "The light is on.\n");
  ASSERT_GT(counting.calls(), 10);
  for (int failing = 0; failing < counting.calls(); ++failing) {
    files.put("week/sentences.txt", kOwn);
    FaultyFiles faulty(files, failing);
    EXPECT_THROW(add(faulty), MachineError) << failing;
    EXPECT_EQ(text("week/sentences.txt"), kOwn) << failing;
  }
}

TEST_F(Sentences, AFaultOfTheMachineIsNotTakenForAnEmptyList) {
  files.put("week/sentences.txt", kOwn);
  const auto plan = [](Files& over) {
    Workspace workspace(over, "shipped");
    Diagnostics diagnostics;
    prepare(workspace, {}, "week/igh.yaml", diagnostics);
    return to_text(diagnostics);
  };
  FaultyFiles counting(files);
  ASSERT_NE(plan(counting).find("your own"), std::string::npos);
  for (int failing = 0; failing < counting.calls(); ++failing) {
    FaultyFiles faulty(files, failing);
    EXPECT_THROW(plan(faulty), MachineError) << failing;
  }
}

}  // namespace
}  // namespace sheaf
