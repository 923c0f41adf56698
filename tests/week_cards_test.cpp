// `sheaf week` and `sheaf review` beside a probe: which review cards move, and
// whose words are kept back until a form of the probe was given.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <sstream>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

// A class of two groups with the same lessons. Red had sh again and again, but
// for A3, who came in the last week; blue had it for that week alone.
class WeekOfCards : public testing::Test {
 protected:
  WeekOfCards() {
    folder_.write(
        "sequence.yaml",
        "taught: short_a, short_e, short_i, short_o, short_u\nsteps:\n"
        "  - {number: 1, patterns: sh}\n"
        "  - {number: 2, patterns: ch}\n"
        "  - {number: 3, patterns: ck}\n");
    lesson("week-1", "sh", "ship shed fish wish shop");
    lesson("week-2", "ch", "chip chin rich much chop");
    lesson("week-3", "ck", "duck sock back kick neck");
    folder_.write("class.yaml",
                  "groups:\n  Red: {lesson: week-2.yaml}\n"
                  "  Blue: {lesson: week-1.yaml}\n"
                  "learners:\n  A1: {group: Red}\n  A2: {group: Red}\n"
                  "  A3: {group: Red}\n  B7: {group: Blue}\n");
    fs::create_directories(at("records"));
  }

  std::string at(const std::string& name) const {
    return folder_.path() + "/" + name;
  }
  void lesson(const std::string& name, const std::string& pattern,
              const std::string& words) {
    folder_.write(name + ".yaml", fmt::format("pattern: {0}\nwords: {1}\n"
                                              "dictate-words: {1}\n",
                                              pattern, words));
  }
  void record(const std::string& date, const std::string& lesson,
              const std::string& marked, const std::string& more = "") {
    folder_.write(fmt::format("records/{}-{}.yaml", date, lesson),
                  fmt::format("date: {}\nlesson: {}.yaml\nclass: class.yaml\n"
                              "marked: {}\n{}",
                              date, lesson, marked, more));
  }
  // Of the 25 words that secure takes, A1 and A2 have 21 before the last week.
  void weeks_of_sh() {
    folder_.write("check-1.yaml",
                  "pattern: sh\nlayout: check\nwords: shut rush cash shin "
                  "dish mash\ndictate-words: shut rush cash shin dish mash\n");
    record("2026-09-11", "week-1", "A1, A2");
    record("2026-09-18", "week-1", "A1, A2");
    record("2026-09-25", "week-1", "A1, A2");
    record("2026-09-28", "check-1", "A1, A2", "kind: retention\n");
    record("2026-10-09", "week-1", "A1, A2, A3, B7");
    record("2026-10-08", "week-2", "A1, A2, A3");
  }
  Outcome sheaf(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), SHEAF_PROGRAM);
    return run_program(arguments);
  }
  Outcome week(std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"week", folder_.path()});
    return sheaf(more);
  }

  TemporaryFolder folder_;
};

// The words behind a key that stands with them in one line.
std::set<std::string> words_behind(const std::string& text,
                                   const std::string& key) {
  std::set<std::string> words;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    line.erase(0, std::min(line.find_first_not_of(' '), line.size()));
    if (!line.starts_with(key)) continue;
    std::istringstream list(line.substr(key.size()));
    for (std::string word; list >> word;) {
      std::erase(word, ',');
      const bool letters = std::ranges::all_of(
          word, [](char c) { return c >= 'a' && c <= 'z'; });
      if (letters) words.insert(word);
    }
  }
  return words;
}

TEST_F(WeekOfCards, TheTextAndThePageSayWhichCardsMove) {
  weeks_of_sh();
  const Outcome told = week({"--pdf", at("week.pdf")});
  ASSERT_EQ(told.status, 0) << told.out;
  // Red goes on to ck; A1 and A2 became secure with sh in the latest week.
  const std::size_t red = told.out.find("Red (A1, A2, A3)");
  const std::size_t blue = told.out.find("Blue (B7)");
  ASSERT_LT(red, blue) << told.out;
  const std::string of_red = told.out.substr(red, blue - red);
  EXPECT_NE(of_red.find("  cards to put in: "), std::string::npos) << told.out;
  EXPECT_NE(of_red.find("  cards to take out: "), std::string::npos)
      << told.out;
  EXPECT_NE(of_red.find("(A1, A2)\n"), std::string::npos) << told.out;
  EXPECT_EQ(told.out.find("take out", blue), std::string::npos) << told.out;

  // Nothing was written, so the page speaks of the lessons as they stand: ch
  // was dictated to red, and sh to blue.
  EXPECT_NE(
      run_program({"pdfinfo", at("week.pdf")}).out.find("Pages:           1\n"),
      std::string::npos);
  const std::string page =
      run_program({"pdftotext", "-layout", at("week.pdf"), "-"}).out;
  const std::size_t cards = page.find("Review cards");
  ASSERT_NE(cards, std::string::npos) << page;
  EXPECT_NE(page.find("Put in", cards), std::string::npos) << page;
  EXPECT_NE(page.find("(A1, A2)", cards), std::string::npos) << page;
  EXPECT_EQ(page.find("A3"), std::string::npos) << page;
  EXPECT_EQ(page.find("B7"), std::string::npos) << page;

  // With the lessons written, ck goes in for all of red.
  const Outcome written = week({"--yes", "--pdf", at("next.pdf")});
  ASSERT_EQ(written.status, 0) << written.out;
  const std::string next =
      run_program({"pdftotext", "-layout", at("next.pdf"), "-"}).out;
  const std::size_t in = next.find("ck", next.find("Review cards"));
  ASSERT_NE(in, std::string::npos) << next;
  EXPECT_EQ(next.substr(in, next.find('\n', in) - in).find("ck ("),
            std::string::npos)
      << next;
}

// The same of the same records on the page for the pack of cards.
TEST_F(WeekOfCards, ThePageForThePackSaysTheSame) {
  weeks_of_sh();
  const auto page_of = [&](std::vector<std::string> more) {
    std::vector<std::string> call = {"build",  "--class",    at("class.yaml"),
                                     "--only", "card-piles", "--out",
                                     at("out")};
    call.insert(call.end(), more.begin(), more.end());
    const Outcome built = sheaf(call);
    EXPECT_EQ(built.status, 0) << built.out;
    return run_program({"pdftotext", "-layout",
                        at("out/class/teacher-card-piles.pdf"), "-"})
        .out;
  };
  const std::string page = page_of({"--records", at("records")});
  EXPECT_NE(page.find("records up to 2026-10-09"), std::string::npos) << page;
  EXPECT_NE(page.find("Take out: sh (A1, A2)"), std::string::npos) << page;
  // A3 has just begun with it.
  EXPECT_NE(page.find("A1, A2 secure"), std::string::npos) << page;
  // Blue has a page of its own, which does not speak of red.
  const std::size_t blue = page.rfind("Take out: ");
  EXPECT_TRUE(page.substr(blue).starts_with("Take out: none")) << page;
  EXPECT_EQ(page.find("A1", blue), std::string::npos) << page;
  // Without records it is as it was, and names nobody.
  const std::string plain = page_of({});
  EXPECT_EQ(plain.find("Take out: "), std::string::npos) << plain;
  EXPECT_EQ(plain.find("A1"), std::string::npos) << plain;
  EXPECT_NE(plain.find("begin"), std::string::npos) << plain;
  const Outcome alone =
      sheaf({"build", at("week-1.yaml"), "--records", at("records")});
  EXPECT_EQ(alone.status, 2) << alone.out;
  EXPECT_NE(alone.out.find("--records goes with --class"), std::string::npos);
}

// A form that waits to be filled in says nothing of anybody.
TEST_F(WeekOfCards, BeforeAnybodyWroteAllOfTheLessonIsNew) {
  record("2026-09-11", "week-1", "not yet", "wrong: {A1: , A2: , B7: }\n");
  const Outcome told = week();
  ASSERT_EQ(told.status, 0) << told.out;
  EXPECT_NE(told.out.find("cards to put in: "), std::string::npos) << told.out;
  EXPECT_EQ(told.out.find("take out"), std::string::npos) << told.out;
}

// A form that was given to nobody keeps its words; once it was given, they may
// be practised again.
TEST_F(WeekOfCards, WordsOfAProbeToComeAreNotChosen) {
  weeks_of_sh();
  // What would be chosen with no probe about, which makes the test honest.
  const auto chosen = [&](const std::string& folder) {
    const Outcome made =
        sheaf({"review", "--class", at("class.yaml"), "--records",
               at("records"), "--week", "2026-10-12", "--out", at(folder)});
    EXPECT_EQ(made.status, 0) << made.out;
    std::set<std::string> words;
    for (const auto& entry : fs::directory_iterator(at(folder))) {
      const std::string text = file_bytes(entry.path().string());
      words.merge(words_behind(text, "review-words: "));
      words.merge(words_behind(text, "dictate-words: "));
    }
    return words;
  };
  const auto fresh = [&] {
    fs::copy(at("class.yaml"), at("kept.yaml"),
             fs::copy_options::overwrite_existing);
    const Outcome made =
        week({"--decide", "Blue=stay", "--decide", "Red=stay", "--yes"});
    EXPECT_EQ(made.status, 0) << made.out;
    std::set<std::string> words;
    const std::vector<fs::directory_entry> entries(
        fs::directory_iterator(folder_.path()), fs::directory_iterator{});
    for (const fs::directory_entry& entry : entries) {
      const std::string name = entry.path().filename().string();
      if (name.find("-set-") == std::string::npos) continue;
      // Words stand in the file, or `check` shows which a build would take.
      const Outcome checked = sheaf({"check", entry.path().string()});
      EXPECT_EQ(checked.status, 0) << checked.out;
      for (const std::string& text :
           {file_bytes(entry.path().string()), checked.out}) {
        words.merge(words_behind(text, "words: "));
        words.merge(words_behind(text, "dictate-words: "));
      }
      fs::remove(entry.path());
    }
    fs::rename(at("kept.yaml"), at("class.yaml"));
    return words;
  };
  const std::set<std::string> before = chosen("plain");
  const std::set<std::string> set_before = fresh();
  ASSERT_GE(before.size(), 6U);
  ASSERT_GE(set_before.size(), 6U);
  std::set<std::string> probed;
  for (const auto* words : {&before, &set_before}) {
    std::size_t taken = 0;
    for (const std::string& word : *words) {
      // None of a lesson or a check that was written.
      const bool known =
          file_bytes(at("week-1.yaml")).find(word) != std::string::npos ||
          file_bytes(at("week-2.yaml")).find(word) != std::string::npos ||
          file_bytes(at("check-1.yaml")).find(word) != std::string::npos;
      if (!known && ++taken <= 4) probed.insert(word);
    }
    ASSERT_GE(taken, 3U);
  }
  const std::string form = fmt::format(
      "pattern: sh\nlayout: probe\nsequence: none\nwords: ship\n"
      "dictate-words: {}\n",
      fmt::join(probed, " "));
  fs::create_directories(at("probes"));
  folder_.write("probes/probe-a.yaml", form);
  EXPECT_EQ(sheaf({"check", at("probes/probe-a.yaml")}).status, 0);
  for (const auto& words : {chosen("beside"), fresh()}) {
    EXPECT_GE(words.size(), 6U);
    for (const std::string& word : probed) {
      EXPECT_FALSE(words.contains(word)) << word;
    }
  }
  folder_.write("records/probe-a.yaml",
                "date: 2026-10-07\nlesson: probes/probe-a.yaml\nkind: probe\n"
                "class: class.yaml\nmarked: A1, A2, A3, B7\n");
  EXPECT_EQ(fresh(), set_before);
}

// The day is needed, and the message says that and nothing about names.
TEST_F(WeekOfCards, ARecordWithoutItsDaySaysSo) {
  const Outcome made =
      sheaf({"record", at("week-1.yaml"), "--class", at("class.yaml")});
  EXPECT_EQ(made.status, 2) << made.out;
  EXPECT_NE(made.out.find("a record needs the day of the writing, as in "
                          "--date 2026-03-12"),
            std::string::npos)
      << made.out;
  EXPECT_EQ(made.out.find("cannot be named"), std::string::npos) << made.out;
  EXPECT_TRUE(fs::is_empty(at("records")));
}

}  // namespace
}  // namespace sheaf::test
