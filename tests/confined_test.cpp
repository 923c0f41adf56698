// What the program gives up before it reads a file (src/cli/confinement.cpp),
// seen from outside.

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>
#include <vector>

#include "support/run_program.h"

namespace sheaf {
namespace {

namespace fs = std::filesystem;
using testing_support::Outcome;
using testing_support::run_program;
using testing_support::TemporaryFolder;

constexpr const char* kLesson =
    "pattern: sh\n"
    "words: ship shed shell fish wish dish\n"
    "sentences: The ship is in the shed.\n";

/// `sheaf` while it waits for a text on standard input.
class Waiting {
 public:
  explicit Waiting(const std::vector<std::string>& more) {
    int ends[2];
    EXPECT_EQ(::pipe2(ends, O_CLOEXEC), 0);
    std::vector<std::string> words = {SHEAF_PROGRAM, "writing", "-", "--taught",
                                      "sh"};
    words.insert(words.end(), more.begin(), more.end());
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    process_ = ::fork();
    if (process_ == 0) {
      ::dup2(ends[0], STDIN_FILENO);
      const int nowhere = ::open("/dev/null", O_WRONLY);
      ::dup2(nowhere, STDOUT_FILENO);
      ::execv(SHEAF_PROGRAM, arguments.data());
      ::_exit(127);
    }
    ::close(ends[0]);
    input_ = ends[1];
  }
  ~Waiting() { end(); }
  Waiting(const Waiting&) = delete;
  Waiting& operator=(const Waiting&) = delete;

  /// A line of what the kernel says of the process.
  std::string status(const std::string& name) const {
    std::ifstream lines("/proc/" + std::to_string(process_) + "/status");
    for (std::string line; std::getline(lines, line);) {
      if (!line.starts_with(name + ":")) continue;
      return line.substr(line.find_last_of("\t ") + 1);
    }
    return {};
  }
  /// Lets the text end. What the kernel says of the process then stays until
  /// `end`.
  void finish() {
    if (input_ >= 0) ::close(input_);
    input_ = -1;
    siginfo_t about{};
    ::waitid(P_PID, static_cast<id_t>(process_), &about, WEXITED | WNOWAIT);
  }
  /// Its exit code.
  int end() {
    if (process_ < 0) return -1;
    finish();
    int status = 0;
    ::waitpid(process_, &status, 0);
    process_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

 private:
  pid_t process_ = -1;
  int input_ = -1;
};

#if defined(__x86_64__) || defined(__aarch64__)
TEST(Confined, FiltersCallsBeforeItReads) {
  using namespace std::chrono_literals;
  Waiting sheaf({});
  // No byte of the text has been sent yet.
  for (int i = 0; i < 3000 && sheaf.status("Seccomp") != "2"; ++i) {
    std::this_thread::sleep_for(10ms);
  }
  EXPECT_EQ(sheaf.status("Seccomp"), "2");
  EXPECT_EQ(sheaf.status("NoNewPrivs"), "1");
  EXPECT_EQ(sheaf.end(), 0);
}
#endif

TEST(Confined, KeepsEverythingWhereItIsAskedTo) {
  Waiting confined({}), free({"--no-sandbox"});
  confined.finish();
  free.finish();
  EXPECT_EQ(confined.status("NoNewPrivs"), "1");
  EXPECT_EQ(free.status("NoNewPrivs"), "0");
  EXPECT_EQ(confined.end(), 0);
  EXPECT_EQ(free.end(), 0);
}

// A verb that nobody has thought about would have no such option.
TEST(Confined, HasARowForEachVerb) {
  const std::string manual = run_program({SHEAF_PROGRAM, "manual"}).out;
  int verbs = 0;
  const std::string begin = "\n.SS ";
  for (std::size_t at = manual.find(begin); at != std::string::npos;) {
    const std::size_t end = manual.find(begin, at + 1);
    const std::string verb = manual.substr(at, end - at);
    EXPECT_NE(verb.find("no\\-sandbox"), std::string::npos) << verb;
    at = end;
    ++verbs;
  }
  EXPECT_GT(verbs, 25);
}

// What worked by links goes on working by them.
TEST(Confined, FollowsLinksOfItsUser) {
  const TemporaryFolder folder;
  const fs::path base = folder.path();
  for (const char* name : {"far/lessons", "far/pages", "here/out/ship"}) {
    fs::create_directories(base / name);
  }
  folder.write("far/lessons/ship.yaml", kLesson);
  fs::create_symlink(base / "far/lessons/ship.yaml", base / "here/ship.yaml");
  const auto build = [&] {
    return run_program({SHEAF_PROGRAM, "build", (base / "here/ship.yaml"),
                        "--out", (base / "here/out")});
  };
  ASSERT_EQ(build().status, 0) << build().out;
  fs::rename(base / "here/out/ship/packet.pdf", base / "far/pages/packet.pdf");
  fs::create_symlink(base / "far/pages/packet.pdf",
                     base / "here/out/ship/packet.pdf");
  folder.write("far/lessons/ship.yaml",
               std::string(kLesson) + "title: Another\n");
  const std::string before =
      testing_support::file_bytes(base / "far/pages/packet.pdf");
  const Outcome again = build();
  EXPECT_EQ(again.status, 0) << again.out;
  EXPECT_TRUE(fs::is_symlink(base / "here/out/ship/packet.pdf"));
  EXPECT_NE(testing_support::file_bytes(base / "far/pages/packet.pdf"), before);

  // A folder of lessons in which one is a link; out/ is a link, too.
  fs::create_directory_symlink(base / "far/pages", base / "here/pages");
  const Outcome all = run_program({SHEAF_PROGRAM, "build", (base / "here"),
                                   "--out", (base / "here/pages")});
  EXPECT_EQ(all.status, 0) << all.out;
  EXPECT_TRUE(fs::exists(base / "far/pages/ship/packet.pdf"));
}

TEST(Confined, LeavesNoEmptyFolderBehindAFault) {
  const TemporaryFolder folder;
  const std::string lesson = folder.write("ship.yaml", "pattern: sh\nwords: 7");
  const std::string out = folder.path() + "/new/out";
  const Outcome outcome =
      run_program({SHEAF_PROGRAM, "build", lesson, "--out", out});
  EXPECT_EQ(outcome.status, 1) << outcome.out;
  EXPECT_FALSE(fs::exists(folder.path() + "/new"));
}

}  // namespace
}  // namespace sheaf
