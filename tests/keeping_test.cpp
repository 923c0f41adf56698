// What happens to the packets that are there already: whatever goes wrong, a
// packet is the old one or the new one, whole, and nothing else is left behind.
// Many kills without notice are a check of their own (make kill-test).

#include <gtest/gtest.h>

#include <chrono>
#include <csignal>
#include <map>
#include <thread>

#include "project_files.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

namespace fs = std::filesystem;
using testing_support::Burden;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

using Files = std::map<std::string, std::string>;

// Every file below a folder with its bytes, hidden ones too.
Files files_in(const fs::path& folder) {
  Files files;
  if (!fs::exists(folder)) return files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    files[fs::relative(entry.path(), folder).string()] = read(entry.path());
  }
  return files;
}

constexpr const char* kOld = "pattern: sh\nwords: ship shed fish dish\n";
constexpr const char* kNew = "pattern: sh\nwords: brush shelf shut crash\n";

// A lesson with the packet of its old state built, and what a build of the new
// state makes.
class Keeping : public testing::Test {
 protected:
  Keeping() {
    folder.write("lesson.yaml", kNew);
    EXPECT_EQ(build("made").status, 0);
    made = files_in(out("made"));
    folder.write("lesson.yaml", kOld);
    EXPECT_EQ(build("out").status, 0);
    old = files_in(out("out"));
    folder.write("lesson.yaml", kNew);
    EXPECT_EQ(made.size(), 2U);
    EXPECT_EQ(old.size(), 2U);
    EXPECT_TRUE(old != made);
  }

  std::string out(const std::string& name) const {
    return folder.path() + "/" + name;
  }
  Outcome build(const std::string& name, const Burden& burden = {}) const {
    return run_program({SHEAF_PROGRAM, "build", folder.path() + "/lesson.yaml",
                        "--out", out(name)},
                       burden);
  }
  // One sentence for people, besides notes on sheets.
  static void expect_one_sentence(const Outcome& outcome,
                                  const std::string& part) {
    std::istringstream lines(outcome.out);
    int sentences = 0;
    for (std::string line; std::getline(lines, line);) {
      if (line.find(": note: ") != std::string::npos) continue;
      if (line.starts_with("  help: ")) continue;
      ++sentences;
      EXPECT_TRUE(line.starts_with("sheaf: ")) << line;
      EXPECT_NE(line.find(part), std::string::npos) << line;
    }
    EXPECT_EQ(sentences, 1) << outcome.out;
  }

  TemporaryFolder folder;
  Files old, made;
};

TEST_F(Keeping, OutlastsAFullDisk) {
  std::size_t largest = 0;
  for (const auto& [name, bytes] : made) {
    largest = std::max(largest, bytes.size());
  }
  for (const std::size_t most :
       {std::size_t{1}, std::size_t{4096}, largest / 2, largest - 1}) {
    const Outcome outcome = build("out", {.file_size = most});
    EXPECT_EQ(outcome.status, 3) << most;
    expect_one_sentence(outcome, "cannot write ");
    EXPECT_TRUE(files_in(out("out")) == old) << most;
  }
  EXPECT_EQ(build("out", {.file_size = largest}).status, 0);
  EXPECT_TRUE(files_in(out("out")) == made);
}

TEST_F(Keeping, LeavesAFolderThatStandsWhereAFileShould) {
  for (const char* name : {"packet.pdf", "teacher.pdf"}) {
    SCOPED_TRACE(name);
    const fs::path target = fs::path(out("out")) / "lesson" / name;
    fs::remove(target);
    fs::create_directory(target);
    std::ofstream(target / "notes.txt") << "mine";
    const Files before = files_in(out("out"));
    const Outcome outcome = build("out");
    EXPECT_EQ(outcome.status, 3);
    expect_one_sentence(outcome, "there is a folder of that name");
    EXPECT_TRUE(files_in(out("out")) == before);
    fs::remove_all(target);
    EXPECT_EQ(build("out").status, 0);
    EXPECT_TRUE(files_in(out("out")) == made);
  }
}

TEST_F(Keeping, LeavesAFileThatStandsWhereAFolderShould) {
  folder.write("taken", "mine");
  for (const char* name : {"taken", "taken/further"}) {
    const Outcome outcome = build(name);
    EXPECT_EQ(outcome.status, 3);
    expect_one_sentence(outcome, "cannot make the folder ");
  }
  fs::create_directory(out("other"));
  folder.write("other/lesson", "mine");
  EXPECT_EQ(build("other").status, 3);
  EXPECT_EQ(read(out("taken")), "mine");
  EXPECT_EQ(files_in(out("other")), (Files{{"lesson", "mine"}}));
}

TEST_F(Keeping, DoesNotMixTwoBuildsAtOnce) {
  const TemporaryFolder other;
  other.write("lesson.yaml", kOld);
  for (int round = 0; round < 12; ++round) {
    Outcome first, second;
    std::thread thread([&] {
      second =
          run_program({SHEAF_PROGRAM, "build", other.path() + "/lesson.yaml",
                       "--out", out("out")});
    });
    first = build("out");
    thread.join();
    EXPECT_EQ(first.status, 0) << first.out;
    EXPECT_EQ(second.status, 0) << second.out;
    const Files now = files_in(out("out"));
    EXPECT_TRUE(now == old || now == made) << round;
  }
}

TEST_F(Keeping, EndsCleanlyOnAnInterrupt) {
  const auto began = std::chrono::steady_clock::now();
  EXPECT_EQ(build("again").status, 0);
  const long whole = std::chrono::duration_cast<std::chrono::microseconds>(
                         std::chrono::steady_clock::now() - began)
                         .count();
  constexpr int kRounds = 24;
  int interrupted = 0;
  for (int round = 0; round < kRounds; ++round) {
    for (const auto& [name, bytes] : old) folder.write("out/" + name, bytes);
    const int signal = round % 3 == 0   ? SIGINT
                       : round % 3 == 1 ? SIGTERM
                                        : SIGHUP;
    // From the start of a run to about its end.
    const Outcome outcome = build(
        "out", {.signal = signal, .microseconds = whole * round / kRounds});
    const Files now = files_in(out("out"));
    if (outcome.status == 130) {
      ++interrupted;
      EXPECT_TRUE(outcome.out.ends_with("sheaf: interrupted\n"));
    } else if (outcome.status != 0) {
      // Before it could say what to do with signals.
      EXPECT_EQ(outcome.status, -1);
      EXPECT_EQ(outcome.out, "");
    }
    EXPECT_TRUE(now == old || now == made) << "round " << round;
    if (outcome.status == 0) {
      EXPECT_TRUE(now == made) << "round " << round;
    }
  }
  EXPECT_GT(interrupted, 0);
}

#if !defined(__SANITIZE_ADDRESS__)
// The sanitizers need more room than any limit would leave.
TEST_F(Keeping, SaysThatThereIsNotEnoughMemory) {
  int lacking = 0;
  for (unsigned long mib = 16; mib < 64; ++mib) {
    for (const unsigned long part : {0UL, 512UL}) {
      const Outcome outcome =
          build("out", {.address_space = (mib * 1024 + part) * 1024});
      if (outcome.status == 0) {
        EXPECT_TRUE(files_in(out("out")) == made);
        EXPECT_GT(lacking, 0);
        return;
      }
      EXPECT_TRUE(files_in(out("out")) == old) << mib;
      // Below that the system cannot load the program or its libraries.
      if (outcome.status == 127 || outcome.out.starts_with("GLib") ||
          (outcome.status == -1 && outcome.out.empty() && lacking == 0)) {
        EXPECT_EQ(lacking, 0) << outcome.out;
        continue;
      }
      ++lacking;
      EXPECT_EQ(outcome.status, 3) << mib << ": " << outcome.out;
      expect_one_sentence(outcome, "not enough memory");
    }
  }
  FAIL() << "64 MiB do not suffice";
}
#endif

}  // namespace
}  // namespace sheaf::test
