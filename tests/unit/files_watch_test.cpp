// What is watched is what a name leads to, whatever is put in its place. All
// changes are made before the wait, as they are kept for it; one that is not
// heard of would be waited for without end, so an alarm ends the test.

#include <gtest/gtest.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>

#include "base/error.h"
#include "files/folder_watch.h"
#include "files/system_calls.h"
#include "support/run_program.h"

namespace sheaf {
namespace {

namespace fs = std::filesystem;

class Watch : public testing::Test {
 protected:
  Watch() {
    fs::create_directories(home_ / "week");
    fs::create_directories(home_ / "elsewhere");
    write("week/sh.yaml");
  }
  void write(const std::string& name) {
    std::ofstream(home_ / name) << "pattern: sh\n";
  }
  static void expect_heard(FolderWatch& folders) {
    ::alarm(30);
    folders.wait();
    ::alarm(0);
  }

  testing_support::TemporaryFolder folder_;
  FilePath home_ = folder_.path();
};

TEST_F(Watch, HearsOfAFileHoweverItIsSaved) {
  FolderWatch folders;
  folders.watch({(home_ / "week/sh.yaml").string()});
  write("week/sh.yaml");
  expect_heard(folders);
  write("week/other");
  fs::rename(home_ / "week/other", home_ / "week/sh.yaml");
  expect_heard(folders);
  fs::remove(home_ / "week/sh.yaml");
  expect_heard(folders);
  write("elsewhere/sh.yaml");
  fs::create_hard_link(home_ / "elsewhere/sh.yaml", home_ / "week/sh.yaml");
  expect_heard(folders);
}

TEST_F(Watch, HearsOfAFolderInThePlaceOfAnother) {
  FolderWatch folders;
  folders.watch({(home_ / "week/sh.yaml").string()});
  for (int time = 0; time < 2; ++time) {
    fs::rename(home_ / "week", home_ / ("old" + std::to_string(time)));
    expect_heard(folders);
    fs::create_directories(home_ / "week");
    expect_heard(folders);
    write("week/sh.yaml");
    expect_heard(folders);
  }
}

TEST_F(Watch, HearsOfAFolderThatIsNotThereYet) {
  FolderWatch folders;
  folders.watch({(home_ / "next/term/sh.yaml").string()});
  fs::create_directories(home_ / "next/term");
  expect_heard(folders);
  write("next/term/sh.yaml");
  expect_heard(folders);
}

TEST_F(Watch, HearsOfWhatALinkLeadsTo) {
  write("elsewhere/sh.yaml");
  fs::create_symlink("../elsewhere/sh.yaml", home_ / "week/link.yaml");
  fs::create_symlink(home_ / "week", home_ / "this-week");
  FolderWatch folders;
  folders.watch({(home_ / "this-week/link.yaml").string()});
  write("elsewhere/sh.yaml");
  expect_heard(folders);
  // It leads elsewhere from now on.
  fs::remove(home_ / "this-week");
  fs::create_symlink(home_ / "elsewhere", home_ / "this-week");
  expect_heard(folders);
  write("elsewhere/link.yaml");
  expect_heard(folders);
}

TEST_F(Watch, HearsOfEveryYamlFileOfAFolderAndOfItsSuccessor) {
  FolderWatch folders;
  folders.watch_folder((home_ / "week").string());
  write("week/new.yaml");
  expect_heard(folders);
  fs::rename(home_ / "week", home_ / "old");
  fs::create_directories(home_ / "week");
  expect_heard(folders);
  write("week/newer.yaml");
  expect_heard(folders);
}

TEST_F(Watch, SaysThatTheMachineFails) {
  FolderWatch folders;
  folders.watch({(home_ / "week/sh.yaml").string()});
  write("week/sh.yaml");
  for (const SystemCall call :
       {SystemCall::wait, SystemCall::read, SystemCall::watch}) {
    static SystemCall failing;
    failing = call;
    let_system_calls_fail(
        [](SystemCall now) { return now == failing ? EIO : 0; });
    if (call == SystemCall::watch) {
      EXPECT_THROW(folders.watch({(home_ / "other.yaml").string()}),
                   MachineError);
    } else {
      EXPECT_THROW(folders.wait(), MachineError);
    }
    let_system_calls_fail(nullptr);
  }
}

}  // namespace
}  // namespace sheaf
