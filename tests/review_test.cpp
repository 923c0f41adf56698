// `sheaf review` for a class of several groups, a newcomer and a learner at a
// step of their own: nobody gets what was not taught to them, and what it
// prints to be copied works as it stands.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <set>
#include <sstream>

#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::file_bytes;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

constexpr std::string_view kSteps =
    "taught: short_a, short_e, short_i, short_o, short_u\nsteps:\n"
    "  - {number: 1, patterns: sh}\n  - {number: 2, patterns: ch}\n"
    "  - {number: 3, patterns: ck}\n  - {number: 4, patterns: ai}\n"
    "  - {number: 5, patterns: oa}\n  - {number: 6, patterns: ee}\n";

// Two groups with lessons of the same file names in two folders: red begins
// with sh and ch, blue with ai and oa.
class ReviewOfGroups : public testing::Test {
 protected:
  ReviewOfGroups() {
    for (const char* name : {"red", "blue"}) {
      fs::create_directories(at(name));
      write(fmt::format("{}/sequence.yaml", name), std::string(kSteps));
    }
    fs::create_directories(at("records"));
    lesson("red/week-1", "sh", "ship shed fish wish shop");
    lesson("red/week-2", "ch", "chip chin rich much chop");
    lesson("red/week-3", "ck", "duck sock back kick neck");
    lesson("blue/week-1", "ai", "rain tail wait nail chain");
    lesson("blue/week-2", "oa", "boat road soap coach coat");
    lesson("blue/week-3", "ee", "feet seed week sleep tree");
    write("class.yaml",
          "groups:\n"
          "  Red group: {lesson: red/week-3.yaml}\n"
          "  Blue: {lesson: blue/week-3.yaml}\n"
          "learners:\n"
          "  A1: {group: Red group}\n  A2: {group: Red group}\n"
          "  A3: {group: Red group, from: 2026-09-14}\n"
          "  B7: {group: Blue}\n  C3: {group: Blue}\n");
    record("2026-09-11", "red/week-1", "A1, A2",
           "{A1: {ship: sip, shed: sed, wish: wis}, A2: {ship: sip, fish: "
           "fis, shop: sop}}");
    record("2026-09-18", "red/week-2", "A1, A2, A3",
           "{A1: {chip: cip, rich: ric}, A2: {chin: cin}, A3: {chip: sip, "
           "much: muc, chop: shop}}");
    record("2026-09-11", "blue/week-1", "B7, C3",
           "{B7: {rain: ran, tail: tal, nail: nal}, C3: {rain: rane, wait: "
           "wat, chain: chan}}");
    record("2026-09-18", "blue/week-2", "B7, C3",
           "{B7: {boat: bot, road: rod}, C3: {boat: bot, soap: sop}}");
  }

  std::string at(const std::string& name) const {
    return (fs::path(folder_.path()) / "Room 4" / name).string();
  }
  void write(const std::string& name, const std::string& text) {
    fs::create_directories(fs::path(at(name)).parent_path());
    folder_.write("Room 4/" + name, text);
  }
  void lesson(const std::string& name, const std::string& pattern,
              const std::string& words) {
    write(name + ".yaml", fmt::format("pattern: {0}\nwords: {1}\n"
                                      "dictate-words: {1}\n",
                                      pattern, words));
  }
  void record(const std::string& date, const std::string& name,
              const std::string& marked, const std::string& wrong) {
    std::string file = fmt::format("{}-{}", date, name);
    file[file.find('/')] = '-';
    write("records/" + file + ".yaml",
          fmt::format("date: {}\nlesson: {}.yaml\nclass: class.yaml\nmarked: "
                      "{}\nwrong: {}\n",
                      date, name, marked, wrong));
  }
  // As a teacher would type it in the folder above the class's.
  Outcome shell(const std::string& command) const {
    return run_program(
        {"sh", "-c", "cd '" + folder_.path() + "' && " + command});
  }
  Outcome review(const std::string& more = "",
                 const std::string& week = "2026-09-28") const {
    return shell(
        fmt::format("'{}' review --class 'Room 4/class.yaml' "
                    "--records 'Room 4/records' --week {} {}",
                    SHEAF_PROGRAM, week, more));
  }
  // The words to review of one learner in a plan.
  static std::vector<std::string> words_of(const std::string& plan,
                                           const std::string& code) {
    const std::size_t learner = plan.find("\n  " + code + ":\n");
    const std::size_t key = plan.find("review-words: ", learner);
    if (learner == std::string::npos || key == std::string::npos) return {};
    std::istringstream line(
        plan.substr(key + 14, plan.find('\n', key) - key - 14));
    std::vector<std::string> words;
    for (std::string word; std::getline(line, word, ',');) {
      words.push_back(word.substr(word.find_first_not_of(' ')));
    }
    return words;
  }

  TemporaryFolder folder_;
};

// Consonants and short vowels, with `more` taken for single letters.
bool is_made_of(std::string word, const std::vector<std::string>& more) {
  for (const std::string& grapheme : more) {
    for (std::size_t i = 0; (i = word.find(grapheme)) != std::string::npos;) {
      word.replace(i, grapheme.size(), "+");
    }
  }
  int vowels = 0;
  for (std::size_t i = 0; i < word.size(); ++i) {
    const bool vowel =
        std::string_view("aeiouy").find(word[i]) != std::string_view::npos;
    vowels += vowel ? 1 : 0;
    if (vowel && i + 1 == word.size()) return false;
    if (word[i] == 'h' && i > 0 && word[i - 1] != '+') return false;
  }
  return vowels <= 1;
}

TEST_F(ReviewOfGroups, LessonsOfOneNameInTwoFoldersAreTwo) {
  const Outcome progress =
      shell(fmt::format("'{}' progress 'Room 4/records'", SHEAF_PROGRAM));
  ASSERT_EQ(progress.status, 0) << progress.out;
  const Outcome a1 = shell(fmt::format(
      "'{}' progress 'Room 4/records' --learner A1", SHEAF_PROGRAM));
  EXPECT_NE(a1.out.find("\n  sh "), std::string::npos) << a1.out;
  EXPECT_EQ(a1.out.find("ai "), std::string::npos) << a1.out;
  const Outcome b7 = shell(fmt::format(
      "'{}' progress 'Room 4/records' --learner B7", SHEAF_PROGRAM));
  EXPECT_NE(b7.out.find("ai "), std::string::npos) << b7.out;
  EXPECT_EQ(b7.out.find("  sh  "), std::string::npos) << b7.out;
  const Outcome marks =
      shell(fmt::format("'{}' mark 'Room 4/records'", SHEAF_PROGRAM));
  EXPECT_NE(marks.out.find("red/week-1"), std::string::npos) << marks.out;
  EXPECT_NE(marks.out.find("blue/week-1"), std::string::npos) << marks.out;
  // No group is missed in the record of another.
  EXPECT_EQ(marks.out.find("learner-not-listed"), std::string::npos)
      << marks.out;
}

// The forms of two such lessons on one day are two files.
TEST_F(ReviewOfGroups, EachOfTwoLessonsOfOneNameHasItsForm) {
  for (const char* group : {"red", "blue"}) {
    const Outcome made = shell(fmt::format(
        "'{}' record 'Room 4/{}/week-3.yaml' --class 'Room 4/class.yaml' "
        "--date 2026-09-25",
        SHEAF_PROGRAM, group));
    EXPECT_EQ(made.status, 0) << made.out;
    EXPECT_EQ(made.out,
              fmt::format("Room 4/records/2026-09-25-{}-week-3.yaml\n", group));
  }
}

TEST_F(ReviewOfGroups, NobodyGetsWordsWithWhatWasNotTaughtToThem) {
  const Outcome made = review();
  ASSERT_EQ(made.status, 0) << made.out;
  const std::string plan = file_bytes(at("class-2026-09-28.yaml"));
  for (const char* code : {"A1", "A2", "A3"}) {
    const auto words = words_of(plan, code);
    EXPECT_GE(words.size(), 3U) << code << plan;
    for (const std::string& word : words) {
      EXPECT_TRUE(is_made_of(word, {"sh", "ch", "ll", "ss", "ff", "zz"}))
          << code << ": " << word;
    }
  }
  // A3 came after sh.
  for (const std::string& word : words_of(plan, "A3")) {
    EXPECT_EQ(word.find("sh"), std::string::npos) << word;
  }
  for (const char* code : {"B7", "C3"}) {
    for (const std::string& word : words_of(plan, code)) {
      EXPECT_TRUE(word.find("ai") != std::string::npos ||
                  word.find("oa") != std::string::npos)
          << code << ": " << word;
    }
  }
}

TEST_F(ReviewOfGroups, EachGroupHasACheckOfItsOwn) {
  const Outcome made = review("", "2026-10-12");
  ASSERT_EQ(made.status, 0) << made.out;
  const std::string red = file_bytes(at("check-2026-10-12-red-group.yaml"));
  EXPECT_NE(red.find("pattern: [sh, ch]\n"), std::string::npos) << red;
  const std::string newcomer =
      file_bytes(at("check-2026-10-12-red-group-2.yaml"));
  EXPECT_NE(newcomer.find("pattern: [ch]\n"), std::string::npos) << newcomer;
  const std::string blue = file_bytes(at("check-2026-10-12-blue.yaml"));
  EXPECT_NE(blue.find("pattern: [ai, oa]\n"), std::string::npos) << blue;
  const std::string pupils = file_bytes(at("class-checks-2026-10-12.yaml"));
  EXPECT_NE(pupils.find("  A3:\n    group: Red group\n    from: 2026-09-14\n"
                        "    lesson: check-2026-10-12-red-group-2.yaml\n"),
            std::string::npos)
      << pupils;
  // No file says whose errors a check is made of.
  for (const char* code : {"A1", "A2", "A3", "B7", "C3"}) {
    EXPECT_EQ((red + newcomer + blue).find(code), std::string::npos) << code;
  }
}

TEST_F(ReviewOfGroups, OnlyThoseOfOneGroupArePutTogether) {
  const Outcome made = review();
  std::istringstream lines(made.out);
  int together = 0;
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("  together, ")) continue;
    ++together;
    const bool red = line.find('A') != std::string::npos;
    const bool blue = line.find("B7") != std::string::npos ||
                      line.find("C3") != std::string::npos;
    EXPECT_TRUE(red != blue) << line;
  }
  EXPECT_GE(together, 2) << made.out;
}

// Whatever stands behind four blanks can be copied, wherever the files lie.
TEST_F(ReviewOfGroups, ItsCommandsWorkAsPrinted) {
  for (const char* more : {"", "--out 'Room 4/week 5'", "--out elsewhere"}) {
    SCOPED_TRACE(more);
    const Outcome made = review(more, "2026-10-12");
    ASSERT_EQ(made.status, 0) << made.out;
    std::istringstream lines(made.out);
    std::set<std::string> verbs;
    for (std::string line; std::getline(lines, line);) {
      if (!line.starts_with("    /") && !line.starts_with("    '")) continue;
      const Outcome ran = shell(line);
      EXPECT_EQ(ran.status, 0) << line << "\n" << ran.out;
      verbs.insert(line.find(" build ") != std::string::npos ? "build"
                                                             : "record");
      if (line.find(" record ") == std::string::npos) continue;
      // The form that it wrote can be read, lesson and class with it.
      const std::string form = ran.out.substr(0, ran.out.find('\n'));
      std::string text = file_bytes(folder_.path() + "/" + form);
      EXPECT_NE(text.find("kind: retention\n"), std::string::npos) << text;
      EXPECT_NE(text.find("date: 2026-10-16\n"), std::string::npos) << text;
      text.replace(text.find("marked: not yet"), 15, "marked: all");
      folder_.write(form, text);
      const Outcome marked =
          shell(fmt::format("'{}' mark '{}'", SHEAF_PROGRAM, form));
      EXPECT_EQ(marked.status, 0) << marked.out;
      EXPECT_EQ(marked.out.find("not-in-class"), std::string::npos);
      fs::remove(folder_.path() + "/" + form);
    }
    EXPECT_TRUE(verbs.contains("build")) << made.out;
    EXPECT_EQ(verbs.contains("record"),
              std::string_view(more) != "--out elsewhere")
        << made.out;
  }
}

// One script for each lesson, with one table: eighteen learners with words of
// their own take hardly more of the teacher's pages than one without any.
TEST_F(ReviewOfGroups, OwnWordsDoNotMultiplyTheScript) {
  const auto pages = [&](const std::string& words) {
    std::string text = "lesson: red/week-3.yaml\nlearners:\n";
    const std::vector<std::string> own = {
        "fish", "ship", "chip", "shop", "much", "rich", "wish", "shed", "chin"};
    for (std::size_t i = 0; i < 18; ++i) {
      text += fmt::format("  A{}:", i + 1);
      text += words.empty() ? " {}\n"
                            : fmt::format("\n    review-words: {}, {}\n",
                                          own[i % 9], own[(i + 1 + i / 9) % 9]);
    }
    write("many.yaml", text);
    const Outcome built = shell(fmt::format(
        "'{}' build --class 'Room 4/many.yaml' --out out", SHEAF_PROGRAM));
    EXPECT_EQ(built.status, 0) << built.out;
    const std::size_t end = built.out.find(" for the teacher");
    const std::size_t begin = built.out.rfind(' ', end - 1);
    return std::stoi(built.out.substr(begin, end - begin));
  };
  const int without = pages("");
  const int with = pages("own");
  EXPECT_GE(with, without);
  EXPECT_LE(with, without + 2);
  const std::string text =
      run_program({"pdftotext", "-layout",
                   folder_.path() + "/out/many/teacher.pdf", "-"})
          .out;
  const std::size_t table = text.find("Who writes which words\n");
  ASSERT_NE(table, std::string::npos);
  EXPECT_EQ(text.find("Who writes which words\n", table + 1),
            std::string::npos);
  for (int i = 1; i <= 18; ++i) {
    EXPECT_NE(text.find(fmt::format("A{} ", i), table), std::string::npos) << i;
  }
}

// A day in the future of the plan is told, since it may be a slip.
TEST_F(ReviewOfGroups, RecordsOfLaterDaysAreTold) {
  const Outcome made = review("", "2026-09-14");
  EXPECT_EQ(made.status, 0) << made.out;
  EXPECT_NE(made.out.find("Not counted, since they are of this week or later: "
                          "2026-09-18.\n"),
            std::string::npos)
      << made.out;
  EXPECT_EQ(review().out.find("Not counted"), std::string::npos);
}

TEST_F(ReviewOfGroups, AWeekWithoutSchoolIsTold) {
  const std::string pupils = file_bytes(at("class.yaml"));
  write("class.yaml", "no-school: 2026-09-30\n" + pupils);
  const Outcome made = review();
  EXPECT_EQ(made.status, 0) << made.out;
  EXPECT_NE(made.out.find("no school in the week of 2026-09-28"),
            std::string::npos)
      << made.out;
  EXPECT_NE(made.out.find("2026-10-05"), std::string::npos) << made.out;
}

// A2 is at the first step: what the group wrote of the second counts for the
// marks and for nothing else.
TEST_F(ReviewOfGroups, ALearnersOwnStepDecidesWhatWasTaught) {
  std::string pupils = file_bytes(at("class.yaml"));
  pupils.replace(pupils.find("A2: {group: Red group}"), 22,
                 "A2: {group: Red group, step: 1}");
  write("class.yaml", pupils);
  const Outcome made = review();
  ASSERT_EQ(made.status, 0) << made.out;
  EXPECT_NE(made.out.find("[other-step]"), std::string::npos) << made.out;
  const std::string plan = file_bytes(at("class-2026-09-28.yaml"));
  const auto words = words_of(plan, "A2");
  EXPECT_FALSE(words.empty()) << plan;
  for (const std::string& word : words) {
    EXPECT_EQ(word.find("ch"), std::string::npos) << word;
  }
}

// The same file under another name counts once, and both are named.
TEST_F(ReviewOfGroups, ACopiedRecordCountsOnce) {
  fs::copy(at("records/2026-09-18-red-week-2.yaml"),
           at("records/copy of red.yaml"));
  const Outcome marks =
      shell(fmt::format("'{}' mark 'Room 4/records'", SHEAF_PROGRAM));
  EXPECT_EQ(marks.status, 0) << marks.out;
  EXPECT_NE(marks.out.find("[repeated-record]"), std::string::npos);
  EXPECT_NE(marks.out.find("copy of red.yaml:1:7"), std::string::npos)
      << marks.out;
  EXPECT_NE(marks.out.find("2026-09-18-red-week-2.yaml"), std::string::npos);
  const Outcome a3 = shell(
      fmt::format("'{}' progress 'Room 4/records' --learner A3 2>/dev/null",
                  SHEAF_PROGRAM));
  EXPECT_NE(a3.out.find("2/5"), std::string::npos) << a3.out;
  EXPECT_EQ(a3.out.find("4/10"), std::string::npos) << a3.out;
}

// Red wrote ch badly but for one of three, blue its oa well: by the class file
// for the week, one of red goes on, two stay with fresh words, and blue goes
// on.
TEST_F(ReviewOfGroups, AWeekIsProposedDecidedAndWritten) {
  const std::string pupils =
      "# Room 4.\n"
      "groups:\n"
      "  Red group: {lesson: red/week-2.yaml}   # before lunch\n"
      "  Blue:\n"
      "    lesson: blue/week-2.yaml\n"
      "learners:\n"
      "  A1: {group: Red group}   # glasses\n"
      "  A2: {group: Red group}\n"
      "  A3: {group: Red group}\n"
      "  B7: {group: Blue}\n  C3: {group: Blue}\n";
  write("class.yaml", pupils);
  fs::remove(at("records/2026-09-18-red-week-2.yaml"));
  fs::remove(at("records/2026-09-18-blue-week-2.yaml"));
  record("2026-09-18", "red/week-2", "A1, A2, A3",
         "{A2: {chip: sip, chin: sin, much: muc}, A3: {chip: sip, rich: ris, "
         "chop: sop}}");
  record("2026-09-18", "blue/week-2", "B7, C3", "{B7: {boat: bot}}");
  const std::string call = fmt::format("'{}' week 'Room 4'", SHEAF_PROGRAM);
  const Outcome shown = shell(call);
  ASSERT_EQ(shown.status, 0) << shown.out;
  for (const char* expected :
       {"Red group (A1, A2, A3): red/week-2.yaml, written 2026-09-18\n",
        "1 of 3 at 80% or more; not there: A2, A3\n",
        "proposed split: red/week-3.yaml; for A2, A3: red/week-2-set-",
        "Blue (B7, C3): blue/week-2.yaml", "proposed go-on: blue/week-3.yaml",
        "Nothing is written."}) {
    EXPECT_NE(shown.out.find(expected), std::string::npos)
        << expected << shown.out;
  }
  EXPECT_EQ(file_bytes(at("class.yaml")), pupils);
  EXPECT_FALSE(fs::exists(at("red/week-2-set-2.yaml")));

  const Outcome written = shell(call + " --yes");
  ASSERT_EQ(written.status, 0) << written.out;
  const std::string now = file_bytes(at("class.yaml"));
  for (const char* expected :
       {"# Room 4.\ngroups:\n  Red group: {lesson: red/week-3.yaml}   # before "
        "lunch\n",
        "    lesson: blue/week-3.yaml\n",
        "  A1: {group: Red group}   # glasses\n",
        "  A2: {lesson: red/week-2-set-"}) {
    EXPECT_NE(now.find(expected), std::string::npos) << expected << now;
  }
  // The week of both groups stands on one page, with codes only where a card
  // does not move for all of a group.
  const Outcome page = shell(call + " --pdf week.pdf");
  EXPECT_EQ(page.status, 0) << page.out;
  const std::string pdf = folder_.path() + "/week.pdf";
  EXPECT_NE(run_program({"pdfinfo", pdf}).out.find("Pages:           1\n"),
            std::string::npos);
  const std::string text = run_program({"pdftotext", "-layout", pdf, "-"}).out;
  for (const char* expected : {"Red group", "Blue", "Packets", "Day 5"}) {
    EXPECT_NE(text.find(expected), std::string::npos) << expected << text;
  }
  for (const char* code : {"A1", "A2", "B7", "C3"}) {
    EXPECT_GT(text.find(code), text.find("Review cards")) << text;
  }
  EXPECT_NE(text.find("ck after a short vowel (A1)"), std::string::npos)
      << text;
  // The packets can be made as the last line says.
  const std::size_t command = written.out.find("    ");
  ASSERT_NE(command, std::string::npos) << written.out;
  const Outcome built = shell(written.out.substr(command));
  EXPECT_EQ(built.status, 0) << built.out;
}

TEST_F(ReviewOfGroups, TheTeacherDecidesTheWeek) {
  const std::string call = fmt::format(
      "'{}' week 'Room 4' --decide 'Blue=stay' --decide 'Red "
      "group=stay' --yes",
      SHEAF_PROGRAM);
  std::string pupils = file_bytes(at("class.yaml"));
  for (const char* group : {"red", "blue"}) {
    pupils.replace(pupils.find(fmt::format("{}/week-3", group)),
                   std::string_view(group).size() + 7,
                   fmt::format("{}/week-2", group));
  }
  write("class.yaml", pupils);
  const Outcome written = shell(call);
  ASSERT_EQ(written.status, 0) << written.out;
  const std::string now = file_bytes(at("class.yaml"));
  const std::size_t blue = now.find("{lesson: blue/week-2-set-");
  ASSERT_NE(blue, std::string::npos) << now;
  const std::size_t begin = now.find("blue/", blue);
  const std::string lesson = now.substr(begin, now.find('}', begin) - begin);
  EXPECT_NE(file_bytes(at(lesson)).find("pattern: [\"oa\"]\nset: "),
            std::string::npos);
  // Fresh words: none of those that they wrote.
  const Outcome words =
      shell(fmt::format("'{}' check 'Room 4/{}'", SHEAF_PROGRAM, lesson));
  EXPECT_EQ(words.status, 0) << words.out;
  for (const char* word : {" boat ", " road ", " soap ", " coach ", " coat "}) {
    const std::size_t chosen = words.out.find("\nwords: ");
    const std::size_t end = words.out.find("same-sound", chosen);
    ASSERT_NE(end, std::string::npos) << words.out;
    EXPECT_EQ(words.out.substr(chosen, end - chosen).find(word),
              std::string::npos)
        << words.out;
  }
  for (const char* wrong : {"Blu=stay", "Blue=maybe", "Blue"}) {
    const Outcome refused = shell(fmt::format(
        "'{}' week 'Room 4' --decide '{}' --yes", SHEAF_PROGRAM, wrong));
    EXPECT_EQ(refused.status, 2) << refused.out;
  }
  EXPECT_EQ(file_bytes(at("class.yaml")), now);
}

}  // namespace
}  // namespace sheaf::test
