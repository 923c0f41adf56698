// A check of where to begin: its words, its parts, what of a record counts, and
// how often the step is right for learners of whom we know the truth (a quick
// form of `make calibrate-placement`).

#include <gtest/gtest.h>

#include <set>

#include "base/utf8.h"
#include "driver/make_placement.h"
#include "driver/marking_desk.h"
#include "files/disk_files.h"
#include "marking/place_learner.h"
#include "placement_limits.h"
#include "unit/driver_memory.h"

namespace sheaf {
namespace {

using bench::NewcomerKind;
using bench::PlacementTrial;

constexpr const char* kYear = SHEAF_PROJECT "/lessons/year/sequence.yaml";

class PlacementTest : public testing::Test {
 protected:
  static PlacementTrial& year() {
    static Workspace workspace(disk(), SHEAF_SHIPPED);
    static PlacementTrial trial(workspace, kYear);
    return trial;
  }
};

std::vector<std::string> all_words(const PlacementWords& words) {
  std::vector<std::string> all;
  for (const auto* part : {&words.part_one, &words.part_two}) {
    for (const PlacementWords::Step& step : *part) {
      all.insert(all.end(), step.words.begin(), step.words.end());
    }
  }
  return all;
}

// Read as a teacher would: any run of letters in any lesson there.
std::set<std::string> words_of_lessons() {
  std::set<std::string> words;
  for (const FilePath& path :
       yaml_files(disk(), SHEAF_PROJECT "/lessons/year")) {
    if (path.filename() == "sequence.yaml") continue;
    std::string word;
    for (const char c : lower_case(disk().read(path, 1 << 20)) + " ") {
      if (c >= 'a' && c <= 'z') {
        word += c;
      } else {
        words.insert(std::exchange(word, {}));
      }
    }
  }
  return words;
}

TEST_F(PlacementTest, AsksForWordsOfNoLessonEachOnce) {
  const std::vector<std::string> words = all_words(year().made().words);
  const std::set<std::string> lessons = words_of_lessons();
  std::set<std::string> seen;
  EXPECT_GT(words.size(), 80U);
  for (const std::string& word : words) {
    EXPECT_FALSE(lessons.contains(word)) << word;
    EXPECT_TRUE(seen.insert(word).second) << word;
  }
}

TEST_F(PlacementTest, AsksForWordsWhoseStepIsTheirNewPart) {
  const PlacementTrial& trial = year();
  for (std::size_t i = 0; i < trial.items().size(); ++i) {
    const Reading& reading = trial.items()[i].words.front();
    const auto rung = trial.check().rung_of(i);
    ASSERT_TRUE(rung.has_value());
    const std::size_t step = trial.check().rungs()[*rung].step;
    bool has = false;
    for (std::size_t s = 0; s < trial.steps().size(); ++s) {
      for (const PatternId id : trial.steps()[s].patterns) {
        if (reading.find(id) == nullptr) continue;
        has = has || s == step;
        EXPECT_LE(s, step) << reading.word;
      }
    }
    EXPECT_TRUE(has) << reading.word;
  }
}

TEST_F(PlacementTest, ClimbsEveryStepThatTeachesSomething) {
  const PlacementCheck& check = year().check();
  std::size_t teaching = 0;
  for (const Taught::Step& step : year().steps()) {
    if (!step.patterns.empty()) ++teaching;
  }
  EXPECT_EQ(check.rungs().size(), teaching);
  EXPECT_EQ(check.part_one().size(), (teaching + 2) / 3);
  EXPECT_EQ(check.most_in_part_two(), 18U);
  // Whatever comes of part one, part two has six steps on end.
  for (std::size_t right = 0; right <= check.part_one().size(); ++right) {
    const std::size_t first = check.part_two_from(right);
    EXPECT_EQ(check.part_two_end(first) - first, PlacementCheck::kAtOnce);
  }
  EXPECT_EQ(check.part_two_from(0), 0U);
  EXPECT_EQ(check.part_two_end(check.part_two_from(check.part_one().size())),
            check.rungs().size());
}

TEST(PartOne, StopsAfterTwoWrongWordsOnEnd) {
  EXPECT_EQ(right_in_part_one({true, true, false, false}), 2U);
  EXPECT_EQ(right_in_part_one({true, false, true, false, false}), 2U);
  // What comes behind it counts for nothing.
  EXPECT_EQ(right_in_part_one({false, false, true, true}), 0U);
  EXPECT_EQ(right_in_part_one({true, true, true}), 3U);
  EXPECT_EQ(right_in_part_one({}), 0U);
}

TEST_F(PlacementTest, PlacesLearnersWhoKnowEverythingBelowAStep) {
  bench::Random random(1);
  const PlacementTrial& trial = year();
  for (std::size_t truth = 0; truth <= trial.steps().size(); ++truth) {
    const PlacedLearner placed = trial.place(
        [&](std::size_t step) { return step < truth ? 1.0 : 0.0; }, random);
    ASSERT_EQ(placed.kind, PlacedLearner::Kind::step);
    const int off = static_cast<int>(placed.step) - static_cast<int>(truth);
    EXPECT_LE(std::abs(off), 1) << truth;
    EXPECT_LE(placed.low, placed.step);
    EXPECT_GE(placed.high, placed.step);
    EXPECT_TRUE(placed.gaps.empty());
    EXPECT_LE(trial.words_dictated(), 30U);
  }
}

// The full table takes minutes; the limits are the same.
TEST_F(PlacementTest, KeepsItsLimits) {
  constexpr int kEach = 12;
  for (const NewcomerKind& kind : bench::newcomer_kinds()) {
    if (kind.limit == NewcomerKind::Limit::none) continue;
    const bench::PlacementTally tally =
        bench::try_newcomers(year(), kind, kEach);
    // A few hundred learners are off by a few percent.
    constexpr double kBySmallNumbers = 4;
    if (kind.limit == NewcomerKind::Limit::near) {
      EXPECT_GE(tally.percent(tally.near), bench::kLeastNear - kBySmallNumbers)
          << kind.name;
      EXPECT_LE(tally.percent(tally.patchy),
                bench::kMostFalselyPatchy + kBySmallNumbers)
          << kind.name;
    } else {
      EXPECT_GE(tally.percent(tally.patchy),
                bench::kLeastPatchy - kBySmallNumbers)
          << kind.name;
    }
  }
}

TEST_F(PlacementTest, ListsTheGapsOfAPatchyLearner) {
  bench::Random random(1);
  const PlacementTrial& trial = year();
  // The third and the fifth step that teaches something are not known.
  const auto& rungs = trial.check().rungs();
  const std::set<std::size_t> unknown = {rungs[2].step, rungs[4].step};
  const PlacedLearner placed = trial.place(
      [&](std::size_t step) {
        return unknown.contains(step) || step > rungs[6].step ? 0.0 : 1.0;
      },
      random);
  ASSERT_EQ(placed.kind, PlacedLearner::Kind::patchy);
  std::set<std::size_t> gaps;
  for (const auto& gap : placed.gaps) gaps.insert(rungs[gap.rung].step);
  for (const std::size_t step : unknown) EXPECT_TRUE(gaps.contains(step));
  EXPECT_FALSE(gaps.contains(rungs[5].step));
}

// Three lessons' worth of a check in memory, and what records say of it.
class PlacementRecords : public testing::Test {
 protected:
  PlacementRecords() {
    files.put("week/sequence.yaml",
              "steps: [short i, short o, short a, short u, sh, ck, ee, ai]\n");
    files.put("week/check.yaml",
              "sequence: sequence.yaml\n"
              "placement:\n"
              "  part-one: {2: nod, 5: brush, 8: tail}\n"
              "  part-two:\n"
              "    1: hip rid crib\n    2: pop soft drop\n"
              "    3: lap tag sand\n    4: dust jug\n"
              "    5: shed dish shop\n    6: pack sock duck\n"
              "    7: seek feet tree\n    8: rain snail pain\n");
  }

  std::vector<MarkedRecord> marked(const std::string& keys) {
    files.put("week/record.yaml",
              "date: 2026-09-04\nlesson: check.yaml\n" + keys);
    workspace = std::make_unique<Workspace>(files, "shipped");
    std::vector<std::string> faults;
    desk = std::make_unique<MarkingDesk>(*workspace, MarkingRequest{}, faults);
    diagnostics = {};
    return desk->mark({"week/record.yaml"}, diagnostics);
  }

  std::vector<std::string> words_that_count(const std::string& keys) {
    std::vector<std::string> words;
    for (const MarkedRecord& one : marked(keys)) {
      EXPECT_EQ(one.session.kind, Record::Kind::retention);
      for (const LearnerResult& learner : one.session.learners) {
        for (const SessionWord& word : learner.words) {
          words.push_back(word.attempt.target);
        }
      }
    }
    return words;
  }

  static const MemoryFiles& shipped() {
    static const ShippedInMemory all;
    return all.files;
  }
  MemoryFiles files = shipped();
  Diagnostics diagnostics;
  std::unique_ptr<Workspace> workspace;
  std::unique_ptr<MarkingDesk> desk;
};

using Words = std::vector<std::string>;

TEST_F(PlacementRecords, CountsOnlyWhatWasDictated) {
  // Two wrong on end: the third word was not dictated, nor was part two.
  EXPECT_EQ(
      words_that_count("marked: B7\nwrong: {B7: {nod: nad, brush: bus}}\n"),
      (Words{"nod", "brush"}));
  EXPECT_EQ(words_that_count("marked: B7\n"), (Words{"nod", "brush", "tail"}));
  // An error behind the stop shows that the word was dictated all the same.
  EXPECT_EQ(words_that_count(
                "marked: B7\nwrong: {B7: {nod: nad, brush: bus, tail: t}}\n"),
            (Words{"nod", "brush", "tail"}));
  const Words all = words_that_count("marked: B7\npart-two: {B7: 3}\n");
  EXPECT_EQ(all.size(), 3U + 17U);
  EXPECT_EQ(all[3], "lap");
  EXPECT_EQ(all.back(), "pain");
  // Whole attempts are what they are.
  EXPECT_EQ(words_that_count("written: {B7: {nod: nod, seek: sek}}\n"),
            (Words{"nod", "seek"}));
}

TEST_F(PlacementRecords, TellsOfErrorsInWordsThatWereNotAsked) {
  EXPECT_EQ(words_that_count("marked: B7\npart-two: {B7: 1}\n"
                             "wrong: {B7: {seek: sek}}\n")
                .size(),
            3U + 17U);
  EXPECT_EQ(diagnostics.warning_count(), 1);
  marked("marked: B7\npart-two: {B7: 9}\n");
  EXPECT_EQ(diagnostics.error_count(), 1);
  marked("marked: all\npart-two: {B7: 1, C3: 1}\nwrong: {B7: {}}\n");
  EXPECT_EQ(diagnostics.warning_count(), 1);
  EXPECT_EQ(diagnostics.error_count(), 0);
}

TEST_F(PlacementRecords, AsksForPartTwoBeforeItDecides) {
  const auto records =
      marked("marked: B7\nwrong: {B7: {brush: bus, tail: tal}}\n");
  ASSERT_EQ(records.size(), 1U);
  const AnalyzedLesson& lesson = records[0].lesson->analyzed;
  const PlacedLearner placed =
      place_learner(records[0].session, records[0].session.learners.at(0),
                    PlacementCheck(lesson), lesson.taught.steps(),
                    desk->phonics().patterns());
  EXPECT_EQ(placed.kind, PlacedLearner::Kind::part_two_next);
  EXPECT_EQ(placed.part_two, 0U);
}

TEST_F(PlacementRecords, TeachesNothingAndMakesNothingSecure) {
  const auto records = marked("marked: B7\npart-two: {B7: 3}\n");
  const auto lessons = desk->taught_lessons(records);
  const auto sessions = sessions_of(records);
  const auto progress =
      class_progress(sessions, lessons, desk->phonics().patterns());
  ASSERT_EQ(progress.size(), 1U);
  EXPECT_TRUE(progress[0].patterns.empty());
}

// What a sequence cannot offer is said, and nothing is made up for it.
TEST(PlacementOf, SaysWhatTheSequenceCannotOffer) {
  const ShippedInMemory shipped;
  MemoryFiles files = shipped.files;
  files.put("week/sequence.yaml",
            "steps:\n- short i\n- note: Practice\n- short a\n- re-\n- sh\n");
  files.put("week/one.yaml", "pattern: short i\nwords: hip lip sip\n");
  files.put("week/broken.yaml", "pattern: nothing\nwords: a1\n");
  Workspace workspace(files, "shipped");
  Diagnostics diagnostics;
  const MadePlacement made = make_placement(workspace, "week/sequence.yaml",
                                            "sequence.yaml", diagnostics);
  EXPECT_EQ(diagnostics.error_count(), 0);
  EXPECT_EQ(made.lessons, 1U);
  EXPECT_EQ(made.unread, std::vector<std::string>{"week/broken.yaml"});
  ASSERT_EQ(made.words.without_pattern.size(), 1U);
  EXPECT_EQ(made.words.without_pattern[0].number, 2);
  for (const std::string& word : all_words(made.words)) {
    EXPECT_NE(word, "hip");
    EXPECT_NE(word, "lips");
  }
}

}  // namespace
}  // namespace sheaf
