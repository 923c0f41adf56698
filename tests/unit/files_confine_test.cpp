#include "files/confine.h"

#include <gtest/gtest.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <filesystem>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "files/used_folder.h"
#include "support/run_program.h"

namespace sheaf {
namespace {

namespace fs = std::filesystem;

/// Asked without the code that is tested: the version of Landlock, if it is
/// there (`man 2 landlock_create_ruleset`).
bool kernel_has_rules() {
#if defined(SYS_landlock_create_ruleset)
  constexpr unsigned kVersion = 1;
  return ::syscall(SYS_landlock_create_ruleset, nullptr, 0, kVersion) > 0;
#else
  return false;
#endif
}

/// Folders for a process to be held to, and what it said came of its tries.
class Confining : public testing::Test {
 protected:
  void SetUp() override {
    folder_.write("outside", "text");
    fs::create_directories(in("read/inner"));
    folder_.write("read/there", "text");
    folder_.write("read/inner/there", "text");
    fs::create_symlink(in("outside"), in("read/link"));
  }

  void run(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), SHEAF_CONFINED);
    const testing_support::Outcome outcome =
        testing_support::run_program(arguments);
    output_ = outcome.out;
    status_ = outcome.status;
    came_of_.clear();
    std::istringstream lines(output_);
    for (std::string line; std::getline(lines, line);) {
      const std::size_t colon = line.find(": ");
      if (colon != std::string::npos) {
        came_of_[line.substr(0, colon)] = line.substr(colon + 2);
      }
    }
  }
  std::string in(const char* name) const { return folder_.path() + "/" + name; }
  bool filters_calls() { return came_of_["calls filtered"] == "yes"; }
  bool has_rules() { return came_of_["rules for files"] == "yes"; }

  testing_support::TemporaryFolder folder_;
  std::string output_;
  int status_ = 0;
  std::map<std::string, std::string> came_of_;
};

#if defined(__linux__) && (defined(__x86_64__) || defined(__aarch64__))
TEST_F(Confining, FiltersCalls) {
  run({"--calls", in("outside")});
  EXPECT_EQ(status_, 0) << output_;
  ASSERT_TRUE(filters_calls()) << output_;
  for (const char* refused :
       {"exec", "kill", "tgkill of another", "namespace", "limits of another",
        "socket", "local socket", "socket pair", "mount", "kexec", "bpf",
        "ring", "typing"}) {
    EXPECT_EQ(came_of_[refused], "EPERM") << refused << '\n' << output_;
  }
  EXPECT_EQ(came_of_["call to come"], "ENOSYS") << output_;
  for (const char* free : {"tgkill of itself", "its own limits", "thread",
                           "memory", "read outside"}) {
    EXPECT_EQ(came_of_[free], "ok") << free << '\n' << output_;
  }
}

// The sanitizers begin a process at the end that traces this one.
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
TEST_F(Confining, BeginsNoProcessAndMakesNoCode) {
  run({"--calls"});
  for (const char* refused :
       {"fork", "vfork", "ptrace", "code", "data as code"}) {
    EXPECT_EQ(came_of_[refused], "EPERM") << refused << '\n' << output_;
  }
  EXPECT_EQ(came_of_["clone3"], "ENOSYS") << output_;
}
#endif

#if defined(__x86_64__)
TEST_F(Confining, EndsWhereACallIsOfAnotherMachine) {
  run({"--foreign"});
  EXPECT_NE(status_, 0) << output_;
  EXPECT_EQ(output_.find("went on"), std::string::npos) << output_;
}
#endif
#endif

TEST_F(Confining, HoldsToFolders) {
  run({in("read"), in("write/deep"), in("outside")});
  EXPECT_EQ(has_rules(), kernel_has_rules()) << output_;
  for (const char* free :
       {"read", "read in a folder there", "write", "look outside"}) {
    EXPECT_EQ(came_of_[free], "ok") << free << '\n' << output_;
  }
  // A system without rules works as it did before there were any.
  if (!kernel_has_rules()) {
    EXPECT_EQ(came_of_["read outside"], "ok") << output_;
    EXPECT_EQ(came_of_["write outside"], "ok") << output_;
    return;
  }
  for (const char* refused :
       {"write where it reads", "make where it reads", "remove where it reads",
        "read outside", "write outside", "read through a link", "list outside",
        "make a folder outside"}) {
    EXPECT_EQ(came_of_[refused], "EACCES") << refused << '\n' << output_;
  }
  // Between folders the kernel says that they are of two systems.
  EXPECT_NE(came_of_["move outside"], "ok") << output_;
  EXPECT_TRUE(fs::exists(in("write/deep/in/a/folder/new")));
  EXPECT_TRUE(fs::exists(in("read/there")));
}

TEST_F(Confining, LeavesNoFolderThatNothingWasPutInto) {
  run({"--empty", in("made/and/left")});
  ASSERT_EQ(status_, 0) << output_;
  EXPECT_FALSE(fs::exists(in("made"))) << output_;
  run({in("read"), in("made/and/left"), in("outside")});
  EXPECT_TRUE(fs::exists(in("made/and/left/in"))) << output_;
}

// Two builds with one output folder, of which the first comes to nothing.
TEST_F(Confining, LeavesAFolderThatAnotherRunIsAboutToWriteTo) {
  run({"--used", in("made/and/left")});
  ASSERT_EQ(status_, 0) << output_;
  EXPECT_TRUE(fs::exists(in("made/and/left"))) << output_;
}

TEST_F(Confining, AFolderGoesOnlyWhereItIsEmptyAndNobodyUsesIt) {
  fs::create_directory(in("made"));
  {
    const Descriptor one = use_folder(in("made"));
    ASSERT_TRUE(one);
    Descriptor other = use_folder(in("made"));
    other.close();
    remove_unused(in("made"));
    EXPECT_TRUE(fs::exists(in("made")));
  }
  folder_.write("made/page", "text");
  remove_unused(in("made"));
  EXPECT_TRUE(fs::exists(in("made/page")));
  fs::remove(in("made/page"));
  remove_unused(in("made"));
  EXPECT_FALSE(fs::exists(in("made")));
  EXPECT_FALSE(use_folder(in("made")));
}

}  // namespace
}  // namespace sheaf
