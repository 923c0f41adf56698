// No verb takes the place of a file that is not its own, and what a verb writes
// anew each time it may replace.

#include <gtest/gtest.h>

#include <sys/file.h>
#include <sys/stat.h>
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

using Command = std::vector<std::string>;

// A verb that writes, with the file that it writes to.
struct Writer {
  Command command;
  std::string target;
  std::string way_out;  ///< the option that its message names
};

const std::vector<Writer>& writers() {
  static const std::vector<Writer> all = {
      {{"mark", "records", "--pdf", "x.pdf"}, "x.pdf", "--pdf"},
      {{"progress", "records", "--pdf", "x.pdf"}, "x.pdf", "--pdf"},
      {{"pictures", "--pdf", "x.pdf"}, "x.pdf", "--pdf"},
      {{"week", ".", "--pdf", "x.pdf"}, "x.pdf", "--pdf"},
      {{"preview", "lesson.yaml", "--out", "x.png"}, "x.png", "--out"},
      {{"preview", "lesson.yaml", "--page", "1"},
       "out/lesson/preview.png",
       "--out"},
      {{"build", "lesson.yaml", "--deps", "x.d"}, "x.d", "--deps"},
      {{"build", "--class", "class.yaml", "--deps", "x.d"}, "x.d", "--deps"},
      {{"build", "lesson.yaml"}, "out/lesson/packet.pdf", "--out"},
      {{"build", "lesson.yaml"}, "out/lesson/teacher.pdf", "--out"},
      {{"build", "lesson.yaml", "--separate"},
       "out/lesson/script.pdf",
       "--out"},
      {{"build", "--class", "class.yaml"}, "out/class/packets.pdf", "--out"},
      {{"build", "--class", "class.yaml"}, "out/class/B7/packet.pdf", "--out"},
      {{"review", "--class", "class.yaml", "--records", "records", "--week",
        "2026-04-27"},
       "class-2026-04-27.yaml",
       "--out"},
      {{"review", "--class", "class.yaml", "--records", "records", "--week",
        "2026-04-27", "--out", "plan"},
       "plan/check-2026-04-27.yaml",
       "--out"},
  };
  return all;
}

class OwnFiles : public testing::Test {
 protected:
  OwnFiles() {
    fs::create_directories(path("records"));
    folder.write("lesson.yaml", "pattern: sh\nwords: ship shed fish dish\n");
    folder.write("class.yaml", "lesson: lesson.yaml\nlearners: [B7, C3]\n");
    folder.write("records/one.yaml",
                 "date: 2026-03-12\nlesson: lesson.yaml\nclass: class.yaml\n"
                 "marked: B7, C3\nwrong:\n  B7: {ship: sip}\n");
    folder.write("records/two.yaml",
                 "date: 2026-03-13\nlesson: lesson.yaml\nclass: class.yaml\n"
                 "marked: B7, C3\n");
  }

  std::string path(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  Outcome sheaf(const Command& arguments) const {
    Command all = {"sh", "-c", "cd \"$0\" && exec \"$@\"", folder.path(),
                   SHEAF_PROGRAM};
    all.insert(all.end(), arguments.begin(), arguments.end());
    return run_program(all);
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
  void put(const std::string& name, const std::string& bytes) const {
    fs::create_directories(fs::path(path(name)).parent_path());
    folder.write(name, bytes);
  }
  // Code 3, one sentence that names the file and the way out, no result, and
  // every file as it was.
  void expect_refused(const Command& command, const std::string& target,
                      const std::string& way_out) const {
    const auto before = files();
    const Outcome outcome = sheaf(command);
    EXPECT_EQ(outcome.status, 3) << outcome.out;
    EXPECT_TRUE(files() == before);
    std::string last;
    std::istringstream lines(outcome.out);
    for (std::string line; std::getline(lines, line);) {
      if (line.find(": note: ") == std::string::npos &&
          !line.starts_with("  ")) {
        last += line + "\n";
      }
    }
    EXPECT_TRUE(last.starts_with("sheaf: " + target)) << outcome.out;
    EXPECT_NE(last.find("it is left alone; "), std::string::npos) << last;
    EXPECT_NE(last.find(way_out), std::string::npos) << last;
    EXPECT_EQ(std::count(last.begin(), last.end(), '\n'), 1) << last;
  }

  const TemporaryFolder folder;
};

TEST_F(OwnFiles, NoVerbReplacesAFileThatIsNotItsOwn) {
  const std::string pdf =
      "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n1 0 obj\n<<>>\nendobj\n";
  const std::vector<std::string> foreign = {"date: 2026-03-12\n",
                                            "mine\n",
                                            "",
                                            pdf,
                                            "all: out\n\techo a\n",
                                            "out/a.o: a.c\na.c:\n",
                                            "learners: [B7, C3]\n",
                                            "pattern: sh\nwords: ship\n"};
  for (const Writer& writer : writers()) {
    for (const std::string& text : foreign) {
      SCOPED_TRACE(writer.command[0] + " " + writer.target + ": " + text);
      put(writer.target, text);
      expect_refused(writer.command, writer.target, writer.way_out);
      fs::remove_all(path("out"));
      fs::remove_all(path("plan"));
      fs::remove(path(writer.target));
    }
  }
}

// A picture of the teacher's, made by another program.
TEST_F(OwnFiles, APreviewReplacesNoPictureOfAnotherProgram) {
  const Command command = {"preview", "lesson.yaml", "--out", "x.png"};
  ASSERT_EQ(sheaf(command).status, 0);
  std::string picture = read(path("x.png"));
  const std::size_t maker = picture.find("Software");
  ASSERT_NE(maker, std::string::npos);
  picture.replace(maker + 9, 5, "Other");
  put("x.png", picture);
  expect_refused(command, "x.png", "--out");
}

// What cannot be drawn leaves the picture of before.
TEST_F(OwnFiles, APreviewThatIsRefusedLeavesTheOldOne) {
  ASSERT_EQ(sheaf({"preview", "lesson.yaml"}).status, 0);
  const auto before = files();
  for (const Command& command :
       {Command{"preview", "lesson.yaml", "--page", "99"},
        Command{"preview", "lesson.yaml", "--page", "one"},
        Command{"preview", "lesson.yaml", "--page", "0"},
        Command{"preview", "lesson.yaml", "--dpi", "19"},
        Command{"preview", "lesson.yaml", "--dpi", "601"},
        Command{"preview", "lesson.yaml", "--sheet", "sound-box"}}) {
    EXPECT_EQ(sheaf(command).status, 2) << command.back();
    EXPECT_TRUE(files() == before) << command.back();
  }
  const Outcome outcome = sheaf({"preview", "lesson.yaml", "--page", "99"});
  EXPECT_NE(outcome.out.find("sheaf: there is no page `99`; the learner has "),
            std::string::npos)
      << outcome.out;
}

// As the shell makes it of `--pdf records/*.yaml`.
TEST_F(OwnFiles, TheFirstOfTheRecordsDoesNotBecomeAPdf) {
  for (const std::string verb : {"mark", "progress"}) {
    expect_refused({verb, "--pdf", "records/one.yaml", "records/two.yaml"},
                   "records/one.yaml", "right after `--pdf`");
  }
  expect_refused({"pictures", "--pdf", "lesson.yaml"}, "lesson.yaml", "--pdf");
  expect_refused({"build", "lesson.yaml", "--deps", "class.yaml"}, "class.yaml",
                 "--deps");
}

TEST_F(OwnFiles, EachVerbReplacesItsOwn) {
  for (const Writer& writer : writers()) {
    SCOPED_TRACE(writer.command[0] + " " + writer.target);
    Outcome made = sheaf(writer.command);
    ASSERT_EQ(made.status, 0) << made.out;
    const std::string first = read(path(writer.target));
    ASSERT_FALSE(first.empty());
    fs::permissions(path(writer.target), fs::perms(0600));
    made = sheaf(writer.command);
    EXPECT_EQ(made.status, 0) << made.out;
    EXPECT_EQ(read(path(writer.target)), first);
    EXPECT_EQ(fs::status(path(writer.target)).permissions(), fs::perms(0600));
    // Not one that somebody has added something to.
    if (writer.target.ends_with(".yaml")) continue;
    folder.write(writer.target, first + "x");
    expect_refused(writer.command, writer.target, writer.way_out);
    folder.write(writer.target, first);
  }
}

TEST_F(OwnFiles, ALinkStaysALink) {
  ASSERT_EQ(sheaf({"mark", "records", "--pdf", "real.pdf"}).status, 0);
  const std::string marks = read(path("real.pdf"));
  fs::create_symlink("real.pdf", path("link.pdf"));
  ASSERT_EQ(sheaf({"progress", "records", "--pdf", "link.pdf"}).status, 0);
  EXPECT_TRUE(fs::is_symlink(path("link.pdf")));
  EXPECT_NE(read(path("real.pdf")), marks);
  fs::create_symlink("records/one.yaml", path("other.pdf"));
  const std::string record = read(path("records/one.yaml"));
  EXPECT_EQ(sheaf({"mark", "records", "--pdf", "other.pdf"}).status, 3);
  EXPECT_TRUE(fs::is_symlink(path("other.pdf")));
  EXPECT_EQ(read(path("records/one.yaml")), record);
  fs::create_symlink("nowhere", path("dangling.pdf"));
  const Outcome refused = sheaf({"mark", "records", "--pdf", "dangling.pdf"});
  EXPECT_EQ(refused.status, 3);
  EXPECT_NE(refused.out.find("a link to something that is not there"),
            std::string::npos)
      << refused.out;
  EXPECT_TRUE(fs::is_symlink(path("dangling.pdf")));
}

// What an interrupted run left goes; what only looks a little like it stays.
TEST_F(OwnFiles, AHiddenFileOfTheTeachersStays) {
  folder.write(".sheaf-backup", "mine");
  folder.write(".sheaf-config", "mine");
  ASSERT_EQ(sheaf({"mark", "records", "--pdf", "x.pdf"}).status, 0);
  EXPECT_EQ(read(path(".sheaf-backup")), "mine");
  EXPECT_EQ(read(path(".sheaf-config")), "mine");
}

TEST_F(OwnFiles, NothingNewTakesThePlaceOfAnything) {
  folder.write("sh-ship.yaml", "mine\n");
  folder.write("taken", "mine\n");
  fs::create_symlink("nowhere", path("dangling.yaml"));
  const std::vector<Command> commands = {
      {"draft", "sh", "--file", "taken"},
      {"draft", "sh", "--file", "dangling.yaml"},
      {"settle", "lesson.yaml", "--file", "taken"},
      {"settle", "lesson.yaml", "--file", "dangling.yaml"}};
  for (const Command& command : commands) {
    const auto before = files();
    EXPECT_EQ(sheaf(command).status, 3) << command[0];
    EXPECT_TRUE(files() == before) << command[0];
    EXPECT_TRUE(fs::is_symlink(path("dangling.yaml"))) << command[0];
  }
}

// ---- lists of words that are not to be suggested ----

TEST_F(OwnFiles, BlockLeavesOtherFilesAlone) {
  const std::string longer(std::size_t{1} << 20U, 'a');
  for (const std::string& text :
       {std::string("pattern: sh\nwords: ship\n"), std::string("a, b: c\n"),
        std::string("%PDF-1.7\n"), std::string("one\0two\n", 8),
        std::string("=12345\n"), std::string("caf\xE9\n")}) {
    folder.write("list.txt", text);
    const auto before = files();
    const Outcome outcome = sheaf({"block", "boat", "--file", "list.txt"});
    EXPECT_EQ(outcome.status, 3) << text;
    EXPECT_NE(outcome.out.find("list.txt is not a list of words"),
              std::string::npos)
        << outcome.out;
    EXPECT_NE(outcome.out.find("--file"), std::string::npos) << outcome.out;
    EXPECT_TRUE(files() == before) << text;
  }
  // A list is never cut.
  folder.write("list.txt", "first\n# " + longer + "\nlast\n");
  const auto before = files();
  const Outcome outcome = sheaf({"block", "boat", "--file", "list.txt"});
  EXPECT_EQ(outcome.status, 3) << outcome.out;
  EXPECT_NE(outcome.out.find("list.txt is longer than 1024 kB"),
            std::string::npos)
      << outcome.out;
  EXPECT_TRUE(files() == before);
  const Outcome search = sheaf({"find", "oa", "--block", "list.txt"});
  EXPECT_EQ(search.status, 3) << search.out;
}

TEST_F(OwnFiles, BlockAddsAndChangesNothingElse) {
  const std::string mine =
      "# my list\r\nzebra\n\n# of last year\n=0123456789 ~0123456789\n"
      "apple  # never\n=abcdef0123";
  folder.write("list.txt", mine);
  fs::permissions(path("list.txt"), fs::perms(0640));
  ASSERT_EQ(sheaf({"block", "boat", "--file", "list.txt"}).status, 0);
  const std::string more = read(path("list.txt"));
  EXPECT_TRUE(more.starts_with(mine + "\n=")) << more;
  EXPECT_EQ(fs::status(path("list.txt")).permissions(), fs::perms(0640));
  const Outcome again = sheaf({"block", "boat", "--file", "list.txt"});
  EXPECT_EQ(again.status, 0);
  EXPECT_NE(again.out.find("in the list already"), std::string::npos);
  EXPECT_EQ(read(path("list.txt")), more);
  ASSERT_EQ(sheaf({"block", "coat", "road", "--file", "list.txt"}).status, 0);
  EXPECT_TRUE(read(path("list.txt")).starts_with(more));
  const Outcome found =
      sheaf({"find", "oa", "--block", "list.txt", "--count", "40"});
  for (const char* word : {"boat ", "coat ", "road "}) {
    EXPECT_EQ(("\n" + found.out).find(std::string("\n") + word),
              std::string::npos)
        << word;
  }
}

TEST_F(OwnFiles, BlockLosesNoWordWhereTwoRunAtOnce) {
  const std::vector<std::string> words = {"boat",  "coat", "road", "soap",
                                          "toast", "goat", "foam", "loaf"};
  std::vector<std::thread> threads;
  for (const std::string& word : words) {
    threads.emplace_back([&, word] {
      const Outcome done = sheaf({"block", word, "--file", "list.txt"});
      EXPECT_EQ(done.status, 0) << done.out;
    });
  }
  for (std::thread& thread : threads) thread.join();
  const std::string list = read(path("list.txt"));
  for (const std::string& word : words) {
    EXPECT_NE(sheaf({"block", word, "--file", "list.txt"})
                  .out.find("in the list already"),
              std::string::npos)
        << word;
  }
  EXPECT_EQ(read(path("list.txt")), list);
}

// A list of sentences, and a lesson with two of its own.
class KeptSentences : public OwnFiles {
 protected:
  KeptSentences() {
    folder.write("two.yaml",
                 "pattern: sh\nwords: ship shed\nsentences: |\n"
                 "  the ship zips by Hush\n"
                 "dictate-sentences: |\n  A shed zips by Hush!\n");
  }
};

TEST_F(KeptSentences, AreAddedOnce) {
  const auto before = files();
  const Outcome first = sheaf({"keep", "two.yaml"});
  EXPECT_EQ(first.status, 0);
  EXPECT_EQ(first.out, "sentences.txt: 2 sentences added\n");
  const std::string made = read(path("sentences.txt"));
  EXPECT_TRUE(made.ends_with(
      "comment.\nThe ship zips by Hush.\nA shed zips by Hush!\n"))
      << made;
  EXPECT_EQ(files().size(), before.size() + 1);
  const Outcome second = sheaf({"keep", "two.yaml"});
  EXPECT_EQ(second.status, 0);
  EXPECT_EQ(second.out,
            "sentences.txt: no sentence added; 2 were there already\n");
  EXPECT_EQ(read(path("sentences.txt")), made);
  // And found again, before any other.
  const Outcome found = sheaf({"find", "sh", "--sentences", "--count", "3"});
  EXPECT_NE(found.out.find("The ship zips by Hush.  (your own)\n"),
            std::string::npos)
      << found.out;
  EXPECT_NE(found.out.find("A shed zips by Hush!  (your own)\n"),
            std::string::npos)
      << found.out;
}

TEST_F(KeptSentences, ChangeNothingElse) {
  const std::string mine = "# mine\r\n\r\nZebras first\r\n# last";
  folder.write("list.txt", mine);
  fs::permissions(path("list.txt"), fs::perms(0640));
  ASSERT_EQ(sheaf({"keep", "two.yaml", "--to", "list.txt"}).status, 0);
  EXPECT_EQ(read(path("list.txt")),
            mine + "\r\nThe ship zips by Hush.\r\nA shed zips by Hush!\r\n");
  EXPECT_EQ(fs::status(path("list.txt")).permissions(), fs::perms(0640));
  EXPECT_FALSE(fs::exists(path("sentences.txt")));
}

TEST_F(KeptSentences, LeaveOtherFilesAlone) {
  const auto before = files();
  for (const std::string other : {"lesson.yaml", "class.yaml"}) {
    const Outcome outcome = sheaf({"keep", "two.yaml", "--to", other});
    EXPECT_EQ(outcome.status, 1);
    EXPECT_NE(outcome.out.find(other + ":1:1: error: this file is a"),
              std::string::npos)
        << outcome.out;
  }
  const Outcome folder_named = sheaf({"keep", "two.yaml", "--to", "records"});
  EXPECT_EQ(folder_named.status, 3) << folder_named.out;
  const Outcome not_there = sheaf({"keep", "none.yaml"});
  EXPECT_EQ(not_there.status, 3) << not_there.out;
  EXPECT_TRUE(files() == before);
}

TEST_F(KeptSentences, AreNotLostWhereTwoRunAtOnce) {
  constexpr int kRuns = 6;
  std::vector<std::thread> threads;
  for (int i = 0; i < kRuns; ++i) {
    folder.write("one" + std::to_string(i) + ".yaml",
                 "pattern: sh\nwords: ship\nsentences: |\n  Hush zips by " +
                     std::string(static_cast<std::size_t>(i) + 1, 'o') +
                     " ship.\n");
  }
  for (int i = 0; i < kRuns; ++i) {
    threads.emplace_back([&, i] {
      const Outcome done = sheaf({"keep", "one" + std::to_string(i) + ".yaml"});
      EXPECT_EQ(done.status, 0) << done.out;
    });
  }
  for (std::thread& thread : threads) thread.join();
  const std::string list = read(path("sentences.txt"));
  EXPECT_EQ(std::count(list.begin(), list.end(), '\n'), 2 + kRuns) << list;
}

}  // namespace
}  // namespace sheaf::test
