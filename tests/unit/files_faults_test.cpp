// A disk that fails: what is written together stays together, and what cannot
// be read is never taken for something else. `make fault-test` lets every call
// of a whole run fail; here are the ways that no run of one machine takes.

#include <gtest/gtest.h>
#include <sys/file.h>

#include <cerrno>
#include <fstream>
#include <map>
#include <sstream>

#include "files/disk_files.h"
#include "files/left_behind.h"
#include "files/system_calls.h"
#include "support/run_program.h"

namespace sheaf {
namespace {

namespace fs = std::filesystem;

// What each kind of call meets, one after the other; after the last all goes
// well, or nothing does.
struct Script {
  std::vector<int> faults;
  bool for_good = false;
  std::size_t calls = 0;

  int next() {
    const std::size_t call = calls++;
    if (call < faults.size()) return faults[call];
    return for_good && !faults.empty() ? faults.back() : 0;
  }
};
std::map<SystemCall, Script>& scripts() {
  static std::map<SystemCall, Script> all;
  return all;
}

class Faults : public testing::Test {
 protected:
  Faults() {
    scripts().clear();
    let_system_calls_fail([](SystemCall call) {
      const auto found = scripts().find(call);
      return found == scripts().end() ? 0 : found->second.next();
    });
  }
  ~Faults() override {
    let_system_calls_fail(nullptr);
    forget_left_behind();
  }

  FilePath put(const std::string& name, const std::string& text) {
    std::ofstream(home_ / name) << text;
    return home_ / name;
  }
  std::string bytes(const std::string& name) const {
    std::ostringstream text;
    text << std::ifstream(home_ / name).rdbuf();
    return std::move(text).str();
  }
  std::size_t count() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(home_), {}));
  }
  // A packet and its key, both old, are to be made new.
  void write_pair() {
    const auto output = disk().write();
    output->rewrite(home_ / "packet", "new", "old");
    output->rewrite(home_ / "key", "new", "old");
    try {
      output->finish();
    } catch (const MachineError& fault) {
      said_ = fault.what();
    }
    placed_ = output->placed();
  }
  void put_pair() {
    put("packet", "old");
    put("key", "old");
  }

  testing_support::TemporaryFolder folder_;
  FilePath home_ = folder_.path();
  std::string said_;
  std::size_t placed_ = 0;
};

TEST_F(Faults, ANewPacketIsNeverLeftBesideAnOldKey) {
  // Names are exchanged, or they cannot be and the old file has a second one.
  const std::vector<std::vector<int>> ways = {{0, EIO},
                                              {EINVAL, 0, EINVAL, EIO}};
  for (const std::vector<int>& way : ways) {
    put_pair();
    scripts()[SystemCall::rename] = {way};
    write_pair();
    EXPECT_NE(said_.find("cannot write"), std::string::npos) << said_;
    EXPECT_NE(said_.find("Input/output error"), std::string::npos) << said_;
    EXPECT_EQ(bytes("packet"), "old");
    EXPECT_EQ(bytes("key"), "old");
    EXPECT_EQ(placed_, 0U);
    EXPECT_EQ(count(), 2U);
    EXPECT_EQ(left_behind(), "");
  }
}

TEST_F(Faults, BothWaysOfPuttingFilesInPlaceLeaveNothing) {
  const std::vector<std::vector<int>> ways = {{}, {EINVAL, 0, ENOSYS}};
  for (const std::vector<int>& way : ways) {
    put_pair();
    scripts()[SystemCall::rename] = {way};
    write_pair();
    EXPECT_EQ(said_, "");
    EXPECT_EQ(bytes("packet"), "new");
    EXPECT_EQ(bytes("key"), "new");
    EXPECT_EQ(placed_, 2U);
    EXPECT_EQ(count(), 2U);
  }
}

TEST_F(Faults, ADriveWithoutSecondNamesSaysWhatIsNewAlready) {
  put_pair();
  scripts()[SystemCall::rename] = {{EINVAL, 0, EINVAL, EIO}};
  scripts()[SystemCall::link] = {{EPERM}, true};
  write_pair();
  EXPECT_NE(said_, "");
  EXPECT_EQ(bytes("packet"), "new");
  EXPECT_EQ(bytes("key"), "old");
  EXPECT_EQ(placed_, 1U);
  EXPECT_EQ(count(), 2U);
  EXPECT_NE(left_behind().find("packet is new already"),
            std::string_view::npos);
}

// Each file is flushed, and then the folder with their names.
TEST_F(Faults, AFolderThatCannotBeFlushedIsToldAndAllIsNew) {
  put_pair();
  scripts()[SystemCall::sync] = {{0, 0, EIO}};
  write_pair();
  EXPECT_EQ(said_, "");
  EXPECT_EQ(bytes("packet"), "new");
  EXPECT_EQ(bytes("key"), "new");
  EXPECT_EQ(placed_, 2U);
  EXPECT_EQ(count(), 2U);
  EXPECT_NE(left_behind().find(home_.string()), std::string_view::npos);
  EXPECT_NE(left_behind().find("may lose what was just written to it: "
                               "Input/output error"),
            std::string_view::npos)
      << left_behind();
}

TEST_F(Faults, ADriveThatCannotFlushIsWrittenToAllTheSame) {
  for (const int answer : {EINVAL, ENOSYS, EOPNOTSUPP}) {
    put_pair();
    scripts()[SystemCall::sync] = {{answer}, true};
    write_pair();
    EXPECT_EQ(said_, "");
    EXPECT_EQ(bytes("packet"), "new");
    EXPECT_EQ(left_behind(), "");
  }
}

// As a FAT drive does that a program without rights of the system's own serves.
TEST_F(Faults, ADriveWithoutModesIsWrittenTo) {
  for (const int answer : {ENOSYS, EOPNOTSUPP}) {
    put_pair();
    scripts()[SystemCall::chmod] = {{answer}, true};
    write_pair();
    EXPECT_EQ(said_, "");
    EXPECT_EQ(bytes("packet"), "new");
    EXPECT_EQ(count(), 2U);
  }
  // Whoever owns the file and may not give it a mode leaves the old one.
  put_pair();
  scripts()[SystemCall::chmod] = {{EPERM}, true};
  EXPECT_THROW(write_pair(), MachineError);
  EXPECT_EQ(bytes("packet"), "old");
  EXPECT_EQ(count(), 2U);
}

TEST_F(Faults, AFileThatWasNotThereGoesAgain) {
  put("key", "old");
  scripts()[SystemCall::rename] = {{0, EIO}};
  {
    const auto output = disk().write();
    output->add_new(home_ / "packet", "new");
    output->rewrite(home_ / "key", "new", "old");
    EXPECT_THROW(output->finish(), MachineError);
  }
  EXPECT_FALSE(fs::exists(home_ / "packet"));
  EXPECT_EQ(bytes("key"), "old");
  EXPECT_EQ(count(), 1U);
}

// Such a drive (FAT under an older system) knows neither that nor second names.
TEST_F(Faults, ADriveWithoutSecondNamesTakesNewFiles) {
  scripts()[SystemCall::rename] = {{EINVAL, 0}};
  scripts()[SystemCall::link] = {{EPERM}, true};
  const auto output = disk().write();
  output->add_new(home_ / "record", "new");
  output->finish();
  EXPECT_EQ(bytes("record"), "new");
  EXPECT_EQ(count(), 1U);
}

TEST_F(Faults, ADriveWithoutSecondNamesReplacesNothingThatCameSince) {
  scripts()[SystemCall::rename] = {{EINVAL}, true};
  scripts()[SystemCall::link] = {{EEXIST}, true};
  const auto output = disk().write();
  output->add_new(home_ / "record", "new");
  EXPECT_THROW(output->finish(), FileChanged);
  EXPECT_EQ(count(), 1U);  // its temporary file, which goes with it
}

TEST_F(Faults, WhatCannotBeRemovedIsNamedAndGoesTheNextTime) {
  put_pair();
  scripts()[SystemCall::write] = {{ENOSPC}, true};
  scripts()[SystemCall::unlink] = {{EIO}, true};
  {
    const auto output = disk().write();
    EXPECT_THROW(output->rewrite(home_ / "key", "new", "old"), MachineError);
  }
  ASSERT_EQ(count(), 3U);
  for (const auto& entry : fs::directory_iterator(home_)) {
    const std::string name = entry.path().filename();
    if (!name.starts_with(".sheaf-")) continue;
    EXPECT_NE(left_behind().find(name), std::string_view::npos);
  }
  scripts().clear();
  write_pair();
  EXPECT_EQ(said_, "");
  EXPECT_EQ(count(), 2U);
}

TEST_F(Faults, MakingATemporaryFileComesToAnEnd) {
  scripts()[SystemCall::lock] = {{EWOULDBLOCK}, true};
  const auto output = disk().write();
  EXPECT_THROW(output->add_new(home_ / "record", "new"), MachineError);
  EXPECT_LE(scripts()[SystemCall::lock].calls, 1000U);
  EXPECT_EQ(count(), 0U);
  // Calls that are ended by interrupts for ever do, too.
  for (const SystemCall call :
       {SystemCall::make, SystemCall::write, SystemCall::sync}) {
    scripts().clear();
    scripts()[call] = {{EINTR}, true};
    const auto other = disk().write();
    EXPECT_THROW(other->add_new(home_ / "record", "new"), MachineError);
    scripts().clear();
  }
}

TEST_F(Faults, AnInterruptOrTwoDoNotMatter) {
  put("packet", "old");
  for (const SystemCall call :
       {SystemCall::open, SystemCall::make, SystemCall::read, SystemCall::write,
        SystemCall::sync, SystemCall::rename, SystemCall::lock,
        SystemCall::close, SystemCall::stat}) {
    scripts()[call] = {{EINTR, EINTR}};
  }
  EXPECT_EQ(disk().read(home_ / "packet", 99), "old");
  const auto output = disk().write();
  output->rewrite(home_ / "packet", "new", "old");
  output->finish();
  EXPECT_EQ(bytes("packet"), "new");
  EXPECT_EQ(count(), 1U);
}

// An unread file was taken for an empty one, or for one of another kind.
TEST_F(Faults, WhatCannotBeReadIsNothingElse) {
  const FilePath file = put("packet", "old");
  for (const SystemCall call :
       {SystemCall::open, SystemCall::stat, SystemCall::read}) {
    scripts().clear();
    scripts()[call] = {{EIO}, true};
    EXPECT_THROW(disk().read(file, 99), MachineError);
    EXPECT_THROW(
        {
          const auto open = disk().open(file);
          open->read(0, 9);
        },
        MachineError);
  }
  scripts().clear();
  scripts()[SystemCall::map] = {{EIO}};
  EXPECT_THROW(disk().keep(file.string()), MachineError);
  scripts()[SystemCall::list] = {{EIO}};
  EXPECT_THROW(disk().list(home_), MachineError);
  scripts()[SystemCall::real] = {{EIO}};
  EXPECT_THROW(disk().real(file), MachineError);
}

}  // namespace
}  // namespace sheaf
