// `sheaf build FOLDER`: which files it makes pages of, and when it makes them
// again.

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <functional>
#include <set>
#include <thread>

#include "base/base64.h"
#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

constexpr const char* kSh = "pattern: sh\nwords: ship shed fish dish shelf\n";
constexpr const char* kOa = "pattern: oa\nwords: boat road soap coat toast\n";

// A board of black and white squares as a PNG file.
constexpr const char* kPicture =
    "iVBORw0KGgoAAAANSUhEUgAAAEAAAABACAAAAACPAi4CAAAAOUlEQVR42u3UIQ4AQAgD"
    "wf7/01xIsIizZHA1IxCbmsvc7w7gBOAXgN6eB9ADgB4A9ACgBwA9ACz7Adue+Grlh0xf"
    "AAAAAElFTkSuQmCC";

class FolderBuild : public testing::Test {
 protected:
  FolderBuild() { fs::create_directory(folder.path() + "/lessons"); }

  void write(const std::string& name, const std::string& text) const {
    fs::create_directories(fs::path(at("lessons/" + name)).parent_path());
    folder.write("lessons/" + name, text);
  }
  std::string at(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  Outcome build(const std::vector<std::string>& more = {}) const {
    std::vector<std::string> call = {program, "build", at("lessons"), "--out",
                                     at("out")};
    call.insert(call.end(), more.begin(), more.end());
    return run_program(call);
  }

  // The names of the packets that a run made, by what it said.
  std::set<std::string> made(const Outcome& outcome) const {
    std::set<std::string> names;
    std::istringstream lines(outcome.out);
    const std::string start = at("out") + "/";
    for (std::string line; std::getline(lines, line);) {
      if (!line.starts_with(start)) continue;
      names.insert(line.substr(start.size(), line.find(": ") - start.size()));
    }
    return names;
  }

  // After `change` the next run makes these and no others; the one after it
  // makes none.
  void expect_made(const std::string& what, const std::function<void()>& change,
                   const std::set<std::string>& names,
                   const std::vector<std::string>& more = {}) const {
    SCOPED_TRACE(what);
    change();
    const Outcome after = build(more);
    EXPECT_EQ(after.status, 0) << after.out;
    EXPECT_EQ(made(after), names) << after.out;
    const Outcome again = build(more);
    EXPECT_EQ(again.status, 0) << again.out;
    EXPECT_EQ(made(again), std::set<std::string>{}) << again.out;
  }

  TemporaryFolder folder;
  std::string program = SHEAF_PROGRAM;
};

TEST_F(FolderBuild, TakesLessonsAndClassesAndNothingElse) {
  write("sh.yaml", kSh);
  write("group.yaml", "lesson: sh.yaml\nlearners: [B7, C3]\n");
  write("no-lesson.yaml", "learners: [B7, C3]\n");
  write("plan.yaml", "steps: [short_i, sh, oa]\n");
  write("looks.yaml", "sheets: [discovery, answer-key]\n");
  write("2026-03-12.yaml",
        "date: 2026-03-12\nlesson: sh.yaml\nclass: group.yaml\nmarked: all\n");
  write("records.yaml", "- date: 2026-03-12\n  wrong: {B7: {ship: sip\n");
  write(".sh.yaml", "pattern: none\n");
  write("notes.txt", "pattern: none\n");
  fs::create_directories(at("lessons/later"));
  fs::create_directories(at("lessons/folder.yaml"));
  write("later/oa.yaml", "pattern: none\n");
  const Outcome outcome = build();
  EXPECT_EQ(outcome.status, 0) << outcome.out;
  EXPECT_EQ(made(outcome), (std::set<std::string>{"sh", "group"}))
      << outcome.out;
  EXPECT_NE(outcome.out.find("no-lesson.yaml: it names no lesson"),
            std::string::npos)
      << outcome.out;
  for (const char* page :
       {"sh/packet.pdf", "sh/teacher.pdf", "group/packets.pdf",
        "group/teacher.pdf", "group/B7/packet.pdf", "group/C3/packet.pdf"}) {
    EXPECT_TRUE(fs::exists(at("out/") + page)) << page;
  }
}

// A teacher's sentences count where a lesson takes some, and nowhere else.
TEST_F(FolderBuild, MakesAgainWhereOwnSentencesAreTaken) {
  write("sh.yaml", kSh);
  write("oa.yaml", std::string(kOa) + "sentences: 3\n");
  ASSERT_EQ(build().status, 0);
  expect_made("a list that was not there",
              [&] { write("sentences.txt", "The goat ate soap.\n"); }, {"oa"});
  expect_made("another list",
              [&] { write("sentences.txt", "A goat ate the soap.\n"); },
              {"oa"});
  expect_made("no list", [&] { fs::remove(at("lessons/sentences.txt")); },
              {"oa"});
}

TEST_F(FolderBuild, MakesTheSamePagesAsEachFileByItself) {
  write("sh.yaml", kSh);
  write("group.yaml", "lesson: sh.yaml\nlearners: [B7, C3]\n");
  ASSERT_EQ(build().status, 0);
  run_program(
      {SHEAF_PROGRAM, "build", at("lessons/sh.yaml"), "--out", at("single")});
  run_program({SHEAF_PROGRAM, "build", "--class", at("lessons/group.yaml"),
               "--out", at("single")});
  int compared = 0;
  for (const fs::path& page : files_below(at("out"), {".pdf"})) {
    EXPECT_EQ(read(page), read(at("single") / fs::relative(page, at("out"))))
        << page;
    ++compared;
  }
  EXPECT_EQ(compared, 6);
}

TEST_F(FolderBuild, MakesAgainOnlyWhatWouldBeOther) {
  write("sh.yaml", std::string(kSh) + "pictures: {shed: board.png}\n");
  write("board.png", *from_base64(kPicture));
  write("oa.yaml", std::string(kOa) + "layout: mine.yaml\n");
  write("mine.yaml", "typeface: mine.ttf\nsheets: [discovery, trace]\n");
  fs::copy(project() / "fonts/Andika-Regular.ttf", at("lessons/mine.ttf"));
  write("group.yaml", "lesson: oa.yaml\nlearners: [B7]\n");
  const std::set<std::string> all = {"sh", "oa", "group"};
  const std::set<std::string> none;
  expect_made(
      "the first run", [] {}, all);
  expect_made(
      "a new date",
      [&] { fs::last_write_time(at("lessons/sh.yaml"), fs::file_time_type()); },
      none);
  expect_made("a lesson", [&] { write("sh.yaml", std::string(kSh)); }, {"sh"});
  expect_made("a lesson with a picture",
              [&] {
                write("sh.yaml",
                      std::string(kSh) + "pictures: {shed: p.png}\n");
                write("p.png", *from_base64(kPicture));
              },
              {"sh"});
  expect_made("a picture",
              [&] {
                fs::copy(project() / "docs/pages.png", at("lessons/p.png"),
                         fs::copy_options::overwrite_existing);
              },
              {"sh"});
  expect_made("a layout",
              [&] {
                write("mine.yaml",
                      "typeface: mine.ttf\nsheets: [discovery, script]\n");
              },
              {"oa", "group"});
  expect_made("a typeface beside a layout",
              [&] {
                fs::copy(project() / "fonts/Andika-Bold.ttf",
                         at("lessons/mine.ttf"),
                         fs::copy_options::overwrite_existing);
              },
              {"oa", "group"});
  expect_made(
      "a sequence that was not there",
      [&] { write("sequence.yaml", "steps: [sh, oa]\n"); }, all);
  expect_made(
      "a sequence", [&] { write("sequence.yaml", "steps: [oa, sh]\n"); }, all);
  expect_made("a layout that goes before one of Sheaf's",
              [&] { write("layouts/week.yaml", "sheets: [discovery]\n"); },
              {"sh"});
  expect_made(
      "words not to suggest", [&] { write("blocked-words.txt", "shop\n"); },
      all);
  expect_made(
      "a class",
      [&] { write("group.yaml", "lesson: oa.yaml\nlearners: [B7, C3]\n"); },
      {"group"});
  expect_made("a page that is gone",
              [&] { fs::remove(at("out/group/C3/packet.pdf")); }, {"group"});
  expect_made("a page of a run by itself",
              [&] {
                run_program({SHEAF_PROGRAM, "build", at("lessons/sh.yaml"),
                             "--out", at("out"), "--paper", "a4"});
              },
              {"sh"});
  expect_made("another paper", [] {}, all, {"--paper", "a4"});
  expect_made("another layout", [] {}, all, {"--layout", "board"});
  expect_made("some sheets only", [] {}, all, {"--only", "discovery"});
  expect_made("sheets by themselves", [] {}, all, {"--separate"});
  expect_made(
      "no option", [] {}, all);
  expect_made(
      "the program's files untouched", [] {}, none);
}

// A copy of the program with all that comes with it, to be changed.
TEST_F(FolderBuild, MakesAllAgainWithAnotherSheaf) {
  const fs::path built = fs::path(SHEAF_PROGRAM).parent_path();
  fs::create_directories(at("bin/share/sheaf"));
  fs::copy(SHEAF_PROGRAM, at("bin/sheaf"));
  fs::copy(built / "share/sheaf/phonics.bin", at("bin/share/sheaf"));
  for (const char* name : {"fonts", "layouts"}) {
    fs::copy(project() / name, at("bin/share/sheaf/") + name,
             fs::copy_options::recursive);
  }
  program = at("bin/sheaf");
  write("sh.yaml", kSh);
  write("oa.yaml", std::string(kOa) + "layout: board\n");
  const auto add_to = [&](const std::string& file, const std::string& text) {
    std::ofstream(at(file), std::ios::binary | std::ios::app) << text;
  };
  const std::set<std::string> all = {"sh", "oa"};
  expect_made(
      "the first run", [] {}, all);
  expect_made(
      "the list of typefaces",
      [&] { add_to("bin/share/sheaf/fonts/manifest.tsv", "# more\n"); }, all);
  expect_made("a layout of Sheaf's",
              [&] { add_to("bin/share/sheaf/layouts/board.yaml", "# more\n"); },
              {"oa"});
  expect_made(
      "the program", [&] { add_to("bin/sheaf", "\n"); }, all);
}

TEST_F(FolderBuild, IsStoppedByNoLesson) {
  write("a.yaml", "pattern: sh\nwords: ship sh1p\n");
  write("b.yaml", kSh);
  write("c.yaml", "lesson: a.yaml\nlearners: [B7]\n");
  write("d.yaml", "pattern: [sh\n");
  write("e.yaml", kOa);
  Outcome outcome = build();
  EXPECT_EQ(outcome.status, 1) << outcome.out;
  EXPECT_EQ(made(outcome), (std::set<std::string>{"b", "e"}));
  for (const char* name : {"/a.yaml:2:", "/d.yaml:"}) {
    EXPECT_NE(outcome.out.find(name), std::string::npos) << outcome.out;
  }
  EXPECT_NE(outcome.out.find("2 built, 0 up to date, 3 with errors"),
            std::string::npos)
      << outcome.out;
  // What has errors has them the next time as well.
  outcome = build();
  EXPECT_EQ(outcome.status, 1);
  EXPECT_EQ(made(outcome), std::set<std::string>{});
  EXPECT_NE(outcome.out.find("/a.yaml:2:"), std::string::npos) << outcome.out;
  // A file that cannot be read is the machine's fault.
  fs::create_symlink("nowhere", at("lessons/0.yaml"));
  write("e.yaml", kSh);
  outcome = build();
  EXPECT_EQ(outcome.status, 3);
  EXPECT_EQ(made(outcome), (std::set<std::string>{"e"}));
  EXPECT_NE(outcome.out.find("cannot read "), std::string::npos) << outcome.out;
}

TEST_F(FolderBuild, TrustsNoDamagedRecord) {
  write("sh.yaml", kSh);
  ASSERT_EQ(build().status, 0);
  const std::string record = at("out/sh/.made-from");
  const std::string whole = read(record);
  ASSERT_FALSE(whole.empty());
  for (const std::string& text :
       {std::string(), whole.substr(0, whole.size() / 2),
        whole.substr(0, whole.size() - 4), "\n" + whole, whole + "more\n",
        whole.substr(0, whole.find("\nfile ")) + "\nend\n",
        std::string(100000, '\n')}) {
    std::ofstream(record, std::ios::binary) << text;
    EXPECT_EQ(made(build()), (std::set<std::string>{"sh"}));
    EXPECT_EQ(read(record), whole);
  }
}

TEST_F(FolderBuild, KeepsNoLearnersCodeButOnPages) {
  write("sh.yaml", kSh);
  write("group.yaml", "lesson: sh.yaml\nlearners: [B7, QX]\n");
  ASSERT_EQ(build().status, 0);
  const std::string record = read(at("out/group/.made-from"));
  EXPECT_NE(record.find("group.yaml"), std::string::npos);
  EXPECT_EQ(record.find("B7"), std::string::npos) << record;
  EXPECT_EQ(record.find("QX"), std::string::npos) << record;
}

TEST_F(FolderBuild, ShowsNoLineOfABrokenFileAboutLearners) {
  write("sh.yaml", kSh);
  write("group.yaml", "lesson: sh.yaml\nlearners: [Marguerite Oxley: {\n");
  write("marks.yaml", "date: 2026-03-12\nwrong: {Marguerite Oxley: {ship: [\n");
  const Outcome outcome = build();
  EXPECT_EQ(outcome.status, 1);
  EXPECT_NE(outcome.out.find("/group.yaml:"), std::string::npos) << outcome.out;
  EXPECT_EQ(outcome.out.find("Marguerite"), std::string::npos) << outcome.out;
  for (const char* verb : {"check", "build"}) {
    const Outcome one =
        run_program({SHEAF_PROGRAM, verb, at("lessons/group.yaml")});
    EXPECT_EQ(one.status, 1);
    EXPECT_NE(one.out.find("/group.yaml:"), std::string::npos) << one.out;
    EXPECT_EQ(one.out.find("Marguerite"), std::string::npos) << one.out;
  }
}

TEST_F(FolderBuild, SaysThatAFolderHasNoLesson) {
  Outcome outcome = build();
  EXPECT_EQ(outcome.status, 3);
  EXPECT_EQ(outcome.out,
            "sheaf: there is no lesson in the folder " + at("lessons") + "\n");
  EXPECT_FALSE(fs::exists(at("out")));
  // Two folders with a lesson of one name.
  write("sh.yaml", kSh);
  write("more/sh.yaml", kSh);
  outcome = build({at("lessons/more")});
  EXPECT_EQ(outcome.status, 2) << outcome.out;
  EXPECT_NE(outcome.out.find("would both be written to"), std::string::npos);
  EXPECT_FALSE(fs::exists(at("out")));
}

bool wait_for(const std::function<bool()>& come) {
  for (int i = 0; i < 400; ++i) {
    if (come()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(25));
  }
  return false;
}

TEST_F(FolderBuild, IsWatchedForLessonsThatComeLater) {
  write("sh.yaml", kSh);
  const std::string messages = at("messages");
  const std::string lessons = at("lessons"), out = at("out");
  const pid_t watcher = ::fork();
  ASSERT_GE(watcher, 0);
  if (watcher == 0) {
    if (::freopen(messages.c_str(), "w", stdout) == nullptr) ::_exit(9);
    ::dup2(1, 2);
    ::execl(SHEAF_PROGRAM, "sheaf", "watch", lessons.c_str(), "--out",
            out.c_str(), nullptr);
    ::_exit(9);
  }
  const auto said = [&](const char* text) {
    return read(messages).find(text) != std::string::npos;
  };
  EXPECT_TRUE(wait_for([&] { return said("1 built, 0 up to date"); }));
  EXPECT_TRUE(wait_for([&] { return said("built; waiting"); }));
  write("oa.yaml", kOa);
  EXPECT_TRUE(wait_for([&] { return said("1 built, 1 up to date"); }));
  EXPECT_TRUE(fs::exists(at("out/oa/packet.pdf")));
  ::kill(watcher, SIGINT);
  int status = 0;
  ::waitpid(watcher, &status, 0);
}

}  // namespace
}  // namespace sheaf::test
