// `forget` keeps its word: a learner is found in every form and place that a
// record may have, what cannot be done is said, and nothing else is lost.

#include <gtest/gtest.h>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/xattr.h>
#include <unistd.h>

#include <map>
#include <thread>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

constexpr const char* kLesson = "pattern: sh\nwords: ship shed fish\n";
constexpr const char* kClass = "lesson: lesson.yaml\nlearners: [B7, C3, D1]\n";
constexpr const char* kHead =
    "date: 2026-03-12\nlesson: lesson.yaml\nclass: class.yaml\nmarked: all\n";
const std::string kRecord =
    std::string(kHead) + "wrong:\n  B7: {ship: sip}\n  C3: {shed: sed}\n";
const std::string kRest = std::string(kHead) + "wrong:\n  C3: {shed: sed}\n";

// A class with a record; Sheaf runs in its folder.
class Forget : public testing::Test {
 protected:
  Forget() {
    fs::create_directory(path("records"));
    folder.write("lesson.yaml", kLesson);
    folder.write("class.yaml", kClass);
    folder.write("records/one.yaml", kRecord);
  }

  std::string path(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  Outcome sheaf(std::vector<std::string> arguments) const {
    std::vector<std::string> all = {"sh", "-c", "cd \"$0\" && exec \"$@\"",
                                    folder.path(), SHEAF_PROGRAM};
    all.insert(all.end(), arguments.begin(), arguments.end());
    return run_program(all);
  }
  Outcome forget(const std::string& code,
                 std::vector<std::string> more = {"--yes"}) const {
    std::vector<std::string> all = {"forget", code, "--class", "class.yaml"};
    all.insert(all.end(), more.begin(), more.end());
    return sheaf(all);
  }
  std::map<std::string, std::string> files() const {
    std::map<std::string, std::string> all;
    for (const auto& entry : fs::recursive_directory_iterator(folder.path())) {
      if (entry.is_regular_file()) {
        all[entry.path().string()] = read(entry.path());
      }
    }
    return all;
  }
  static void expect_said(const Outcome& outcome, const std::string& text) {
    EXPECT_NE(outcome.out.find(text), std::string::npos) << text << "\n----\n"
                                                         << outcome.out;
  }
  static void expect_not_said(const Outcome& outcome, const std::string& text) {
    EXPECT_EQ(outcome.out.find(text), std::string::npos) << text << "\n----\n"
                                                         << outcome.out;
  }

  const TemporaryFolder folder;
};

TEST_F(Forget, FindsRecordsWhateverTheyAreCalledAndHoweverDeepTheyLie) {
  fs::create_directories(path("records/autumn/late"));
  const std::vector<std::string> names = {
      "records/two.yml", "records/three.YAML", "records/autumn/four.yaml",
      "records/autumn/late/five.yml", "records/.six.yaml"};
  for (const std::string& name : names) folder.write(name, kRecord);
  const auto before = files();
  const Outcome shown = forget("B7", {});
  EXPECT_EQ(shown.status, 0) << shown.out;
  EXPECT_TRUE(files() == before);
  for (const std::string& name : names) expect_said(shown, name + ":6: B7");
  const Outcome done = forget("B7");
  EXPECT_EQ(done.status, 0) << done.out;
  for (const std::string& name : names) {
    EXPECT_EQ(read(path(name)), kRest) << name;
    expect_said(done, name + ":6: B7");
  }
  EXPECT_EQ(read(path("class.yaml")),
            "lesson: lesson.yaml\nlearners: [C3, D1]\n");
  EXPECT_EQ(read(path("lesson.yaml")), kLesson);
  expect_said(forget("B7"), "the code B7 was not found anywhere");
}

TEST_F(Forget, ReadsTheNamedFilesByAnyName) {
  folder.write("room4.txt", kClass);
  folder.write("march", kRecord);
  const Outcome done = sheaf(
      {"forget", "b7", "--records", "march", "--class", "room4.txt", "--yes"});
  EXPECT_EQ(done.status, 0) << done.out;
  EXPECT_EQ(read(path("march")), kRest);
  EXPECT_EQ(read(path("room4.txt")),
            "lesson: lesson.yaml\nlearners: [C3, D1]\n");
}

TEST_F(Forget, FindsThePlansThatReviewWrote) {
  ASSERT_EQ(sheaf({"review", "--class", "class.yaml", "--records", "records",
                   "--week", "2026-04-06"})
                .status,
            0);
  ASSERT_EQ(sheaf({"review", "--class", "class.yaml", "--records", "records",
                   "--week", "2026-04-06", "--out", "out/plan"})
                .status,
            0);
  const std::vector<std::string> plans = {"class-2026-04-06.yaml",
                                          "out/plan/class-2026-04-06.yaml"};
  for (const std::string& plan : plans) {
    ASSERT_NE(read(path(plan)).find("B7"), std::string::npos) << plan;
  }
  const Outcome done = forget("B7");
  EXPECT_EQ(done.status, 0) << done.out;
  for (const std::string& plan : plans) {
    EXPECT_EQ(read(path(plan)).find("B7"), std::string::npos) << plan;
    EXPECT_NE(read(path(plan)).find("C3"), std::string::npos) << plan;
    expect_said(done, plan + ":");
  }
  // Of the last learner, a plan goes as a whole; a teacher's file does not.
  folder.write("class.yaml", "lesson: lesson.yaml\nlearners: [C3, D1]\n");
  folder.write("class-2026-04-06.yaml",
               "# Written by `sheaf review`\nlearners: [C3]\n");
  const Outcome last = forget("C3");
  EXPECT_EQ(last.status, 0) << last.out;
  EXPECT_FALSE(fs::exists(path("class-2026-04-06.yaml")));
  const auto before = files();
  const Outcome refused = forget("D1");
  EXPECT_EQ(refused.status, 1) << refused.out;
  expect_said(refused, "without this learner, nothing would be left");
  EXPECT_TRUE(files() == before);
}

TEST_F(Forget, CallsNothingDoneWhereAFileCannotBeRead) {
  const std::string longer(std::size_t{2} << 20U, '#');
  const std::map<std::string, std::string> bad = {
      {"broken", "date: 2026-03-12\nwrong: {B7: {ship: sip}\n"},
      {"a list", "- B7\n- C3\n"},
      {"no keys", "B7 wrote sip\n"},
      {"two texts", kRecord + "---\n" + kRecord},
      {"a reference", "wrong: &a {B7: {ship: sip}}\nwritten: *a\n"},
      {"UTF-16", std::string("\xFF\xFE"
                             "B\0"
                             "7\0",
                             6)},
      {"too long", kRecord + longer},
      {"a wrong day",
       "date: 2026-02-31\nlesson: a.yaml\nwrong: {B7: {a: b}}\n"},
      {"a key that is none", kRecord + "wrnog: {B7: {a: b}}\n"},
      {"a lesson's key as well", "pattern: sh\n" + kRecord}};
  for (const auto& [what, text] : bad) {
    for (const std::string name :
         {"records/two.yaml", "records/two.yml", "other.yaml"}) {
      folder.write(name, text);
      const auto before = files();
      const Outcome done = forget("B7");
      EXPECT_EQ(done.status, 1) << what << " in " << name << "\n" << done.out;
      expect_said(done, name + ":");
      expect_said(done, "nothing was changed");
      expect_not_said(done, "taken out:");
      EXPECT_TRUE(files() == before) << what;
      fs::remove(path(name));
    }
  }
}

TEST_F(Forget, CallsNothingDoneWhereAFileCannotBeOpened) {
  const auto expect_refused = [&](const std::string& what) {
    const auto before = files();
    const Outcome done = forget("B7");
    EXPECT_EQ(done.status, 3) << what << "\n" << done.out;
    expect_said(done, "two.yaml");
    expect_said(done, "nothing was changed");
    expect_not_said(done, "taken out:");
    EXPECT_TRUE(files() == before) << what;
    fs::remove(path("records/two.yaml"));
  };
  fs::create_symlink("nowhere.yaml", path("records/two.yaml"));
  expect_refused("a link to nothing");
  ASSERT_EQ(::mkfifo(path("records/two.yaml").c_str(), 0600), 0);
  expect_refused("a pipe");
  if (::geteuid() != 0) {
    folder.write("records/two.yaml", kRecord);
    fs::permissions(path("records/two.yaml"), fs::perms::none);
    expect_refused("without the right to read it");
  }
}

TEST_F(Forget, ChangesWhatALinkLeadsToAndLeavesTheLink) {
  const TemporaryFolder elsewhere;
  elsewhere.write("far.yaml", kRecord);
  fs::create_directory(elsewhere.path() + "/more");
  elsewhere.write("more/deep.yaml", kRecord);
  folder.write("records/near", kRecord);
  fs::create_symlink("near", path("records/near.yaml"));
  fs::create_symlink(elsewhere.path() + "/far.yaml", path("records/far.yaml"));
  fs::create_symlink(elsewhere.path() + "/more", path("records/more"));
  const Outcome done = forget("B7");
  EXPECT_EQ(done.status, 0) << done.out;
  EXPECT_TRUE(fs::is_symlink(path("records/near.yaml")));
  EXPECT_TRUE(fs::is_symlink(path("records/far.yaml")));
  EXPECT_FALSE(fs::is_symlink(path("records/near")));
  EXPECT_EQ(read(path("records/near")), kRest);
  EXPECT_EQ(read(elsewhere.path() + "/far.yaml"), kRest);
  expect_said(done, "records/far.yaml is a link: " +
                        fs::canonical(elsewhere.path()).string() + "/far.yaml");
  // A folder elsewhere may hold anything, so it is named and not gone through.
  EXPECT_EQ(read(elsewhere.path() + "/more/deep.yaml"), kRecord);
  expect_said(done, "records/more: a link to the folder ");
}

TEST_F(Forget, NamesAFileThatHasAnotherNameElsewhere) {
  const TemporaryFolder elsewhere;
  fs::create_hard_link(path("records/one.yaml"), elsewhere.path() + "/copy");
  expect_said(forget("B7"), "the file has another name elsewhere");
  folder.write("records/one.yaml", kRecord);
  fs::create_hard_link(path("records/one.yaml"), path("records/two.yaml"));
  expect_not_said(forget("B7"), "another name");
  EXPECT_EQ(read(path("records/one.yaml")), kRest);
  EXPECT_EQ(read(path("records/two.yaml")), kRest);
}

TEST_F(Forget, KeepsOwnersRightsAndMarks) {
  const std::string record = path("records/one.yaml");
  folder.write("records/one.yaml", "\xEF\xBB\xBF" + kRecord);
  fs::permissions(record, fs::perms(0600));
  const bool noted = ::setxattr(record.c_str(), "user.note", "x", 1, 0) == 0;
  // One more reader: POSIX ACL of version 2 in the form of Linux's
  // posix_acl_xattr.h (owner rw, number 12345 r, group none, mask r).
  const std::string list(
      "\2\0\0\0"
      "\1\0\6\0\xFF\xFF\xFF\xFF"
      "\2\0\4\0\x39\x30\0\0"
      "\4\0\0\0\xFF\xFF\xFF\xFF"
      "\x10\0\4\0\xFF\xFF\xFF\xFF"
      "\x20\0\0\0\xFF\xFF\xFF\xFF",
      44);
  const bool listed = ::setxattr(record.c_str(), "system.posix_acl_access",
                                 list.data(), list.size(), 0) == 0;
  fs::permissions(path("class.yaml"), fs::perms(0604));
  const bool is_root = ::geteuid() == 0;
  if (is_root) {
    ASSERT_EQ(::chown(record.c_str(), 4321, 8765), 0);
  }
  struct stat before {
  }, after{};
  ASSERT_EQ(::stat(record.c_str(), &before), 0);
  ASSERT_EQ(forget("B7").status, 0);
  ASSERT_EQ(::stat(record.c_str(), &after), 0);
  EXPECT_EQ(after.st_mode, before.st_mode);
  EXPECT_EQ(after.st_uid, before.st_uid);
  EXPECT_EQ(after.st_gid, before.st_gid);
  EXPECT_EQ(fs::status(path("class.yaml")).permissions(), fs::perms(0604));
  EXPECT_EQ(read(record), "\xEF\xBB\xBF" + kRest);
  std::string kept(64, '\0');
  if (noted) {
    EXPECT_EQ(::getxattr(record.c_str(), "user.note", kept.data(), 64), 1);
  }
  if (listed) {
    EXPECT_EQ(
        ::getxattr(record.c_str(), "system.posix_acl_access", kept.data(), 64),
        44);
    EXPECT_EQ(kept.substr(0, 44), list);
  }
}

TEST_F(Forget, LosesNothingWhereTwoAreForgottenAtOnce) {
  for (int round = 0; round < 6; ++round) {
    for (int i = 0; i < 20; ++i) {
      folder.write("records/" + std::to_string(i) + ".yaml",
                   std::string(kHead) +
                       "wrong:\n  B7: {ship: sip}\n  C3: {shed: sed}\n"
                       "  D1: {fish: fis}\n");
    }
    folder.write("records/one.yaml", kRest);
    folder.write("class.yaml", kClass);
    Outcome other;
    std::thread thread([&] { other = forget("C3"); });
    const Outcome one = forget("B7");
    thread.join();
    EXPECT_EQ(one.status, 0) << one.out;
    EXPECT_EQ(other.status, 0) << other.out;
    for (int i = 0; i < 20; ++i) {
      EXPECT_EQ(read(path("records/" + std::to_string(i) + ".yaml")),
                std::string(kHead) + "wrong:\n  D1: {fish: fis}\n")
          << round << "\n"
          << one.out << other.out;
    }
    EXPECT_EQ(read(path("class.yaml")),
              "lesson: lesson.yaml\nlearners: [D1]\n");
  }
}

// The folder is held until the record has been read and written anew beside the
// old one; then someone saves it, and only then may Sheaf go on.
TEST_F(Forget, LosesNothingThatIsSavedMeanwhile) {
  const int records =
      ::open(path("records").c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  ASSERT_EQ(::flock(records, LOCK_EX), 0);
  Outcome done;
  std::thread thread([&] { done = forget("B7"); });
  const auto is_waiting = [&] {
    for (const auto& entry : fs::directory_iterator(path("records"))) {
      const std::string name = entry.path().filename().string();
      if (name.starts_with(".sheaf-") && read(entry.path()).size() > 60) {
        return true;
      }
    }
    return false;
  };
  for (int i = 0; i < 500 && !is_waiting(); ++i) ::usleep(10000);
  EXPECT_TRUE(is_waiting());
  folder.write("records/one.yaml", kRecord + "note: Wet.\n");
  ::close(records);
  thread.join();
  EXPECT_EQ(done.status, 0) << done.out;
  EXPECT_EQ(read(path("records/one.yaml")), kRest + "note: Wet.\n");
  expect_said(done, "records/one.yaml:6: B7: {ship: sip}");
}

TEST_F(Forget, NamesWhatOnlyPeopleCanChange) {
  fs::create_directories(path("records/B7"));
  folder.write("records/B7/scan.png", "\x89PNG");
  folder.write("records/2026-03-12-b7.yaml",
               std::string(kHead) +
                   "# B7 was ill\nnote: |\n  Fine.\n"
                   "  b7 sat alone.\n");
  folder.write("lesson.yaml", std::string(kLesson) + "# for B7 and C3\n");
  folder.write("journal-B7.txt", "I lik fish\n");
  folder.write("records/marks.csv", "date,learner\n1,C3\n2,B7\n3,B7\n");
  folder.write("records/one.yaml~", kRecord);
  folder.write("B77.txt", "AB7 B77\n");
  const Outcome done = forget("B7");
  EXPECT_EQ(done.status, 0) << done.out;
  for (const char* text :
       {"records/B7: the folder's name has the code",
        "records/2026-03-12-b7.yaml: its name has the code",
        "records/2026-03-12-b7.yaml:5: has the code",
        "records/2026-03-12-b7.yaml:8: has the code",
        "lesson.yaml:3: has the code", "journal-B7.txt: its name has the code",
        "records/marks.csv:3: has the code, and so does 1 more line",
        "records/one.yaml~:6: has the code"}) {
    expect_said(done, text);
  }
  expect_not_said(done, "B77");
  // They stay named as long as they are there.
  expect_said(forget("B7"), "journal-B7.txt");
}

// A file with many notes has twenty named and the rest counted.
TEST_F(Forget, CountsTheNotesThatItDoesNotName) {
  std::string notes;
  for (int i = 0; i < 21; ++i) notes += "# B7\n";
  folder.write("one-more.yaml", kLesson + notes);
  folder.write("two-more.yaml", kLesson + notes + "# B7\n");
  const Outcome done = forget("B7");
  expect_said(done, "one-more.yaml: 1 more line has the code\n");
  expect_said(done, "two-more.yaml: 2 more lines have the code\n");
}

TEST_F(Forget, NamesTheClassThatNobodyAskedItToLookInto) {
  const Outcome done = sheaf({"forget", "B7", "--yes"});
  EXPECT_EQ(done.status, 0) << done.out;
  expect_said(done, "add `--class class.yaml`");
  EXPECT_EQ(read(path("class.yaml")), kClass);
  EXPECT_EQ(forget("B7").status, 0);
  expect_not_said(sheaf({"forget", "B7", "--yes"}), "--class");
}

TEST_F(Forget, DeletesOnlyWhatSheafMade) {
  ASSERT_EQ(
      sheaf({"build", "--class", "class.yaml", "--deps", "out/class.d"}).status,
      0);
  ASSERT_EQ(sheaf({"build", "--class", "class.yaml", "--only", "trace"}).status,
            0);
  ASSERT_EQ(sheaf({"build", "--class", "class.yaml", "--learner", "B7",
                   "--only", "script"})
                .status,
            0);
  ASSERT_EQ(sheaf({"build", "lesson.yaml"}).status, 0);
  ASSERT_EQ(
      sheaf({"mark", "records", "--pdf", "out/class/B7/marks.pdf"}).status, 0);
  ASSERT_EQ(sheaf({"mark", "records", "--pdf", "out/marks.pdf"}).status, 0);
  fs::copy(path("out/class/B7/packet.pdf"), path("out/for-the-printer.pdf"));
  fs::create_directories(path("out/elsewhere/B7"));
  folder.write("out/class/B7/drawing.odt", "mine");
  folder.write("out/class/B7/packet-with-remarks.pdf",
               read(path("out/class/B7/packet.pdf")) + "remarks\n%%EOF\n");
  folder.write("out/elsewhere/B7.pdf", "%PDF-1.4 not Sheaf's\n");
  const auto before = files();
  const Outcome shown = forget("B7", {});
  EXPECT_TRUE(files() == before);
  const Outcome done = forget("B7");
  EXPECT_EQ(done.status, 0) << done.out;
  for (const std::string name :
       {"out/class/B7/packet.pdf", "out/class/B7/trace.pdf",
        "out/class/B7/teacher-script.pdf", "out/class/B7/marks.pdf",
        "out/class/packets.pdf", "out/class/teacher.pdf", "out/class/trace.pdf",
        "out/class.d", "out/for-the-printer.pdf"}) {
    EXPECT_TRUE(before.contains(path(name))) << name;
    EXPECT_FALSE(fs::exists(path(name))) << name;
    expect_said(shown, "  " + name + "\n");
    expect_said(done, "  " + name + "\n");
  }
  EXPECT_FALSE(fs::exists(path("out/elsewhere/B7")));
  expect_said(done, "  out/elsewhere/B7/\n");
  for (const std::string name :
       {"out/class/B7/drawing.odt", "out/class/B7/packet-with-remarks.pdf",
        "out/elsewhere/B7.pdf"}) {
    EXPECT_EQ(read(path(name)), before.at(path(name))) << name;
    expect_said(done, name + ": Sheaf did not make it, so it stays");
  }
  expect_said(done, "out/marks.pdf: made from records, and may show the code");
  for (const std::string name :
       {"out/marks.pdf", "out/lesson/packet.pdf", "out/lesson/teacher.pdf",
        "out/class/C3/packet.pdf"}) {
    EXPECT_EQ(read(path(name)), before.at(path(name))) << name;
    expect_not_said(done, "  " + name + "\n");
  }
}

// Two letters may be a learner and a lesson.
TEST_F(Forget, LeavesALessonsPacketOfThatName) {
  folder.write("class.yaml", "lesson: lesson.yaml\nlearners: [SH, C3]\n");
  folder.write("SH.yaml", kLesson);
  ASSERT_EQ(sheaf({"build", "SH.yaml"}).status, 0);
  ASSERT_EQ(sheaf({"build", "--class", "class.yaml"}).status, 0);
  const Outcome done = forget("SH");
  EXPECT_EQ(done.status, 0) << done.out;
  EXPECT_TRUE(fs::exists(path("out/SH/packet.pdf"))) << done.out;
  EXPECT_FALSE(fs::exists(path("out/class/SH"))) << done.out;
}

}  // namespace
}  // namespace sheaf::test
