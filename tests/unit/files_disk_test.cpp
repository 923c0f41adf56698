// Files of the machine: what only a disk has. Links, pipes, folders without
// rights, and answers that are no answer.

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fstream>

#include "files/disk_files.h"
#include "files/memory_files.h"
#include "support/run_program.h"

namespace sheaf {
namespace {

namespace fs = std::filesystem;

// Nothing is closed to the administrator, so that one puts on another user for
// as long as this lives. Anybody else stays who they are.
class AsNobody {
 public:
  AsNobody() : before_(::geteuid()) {
    constexpr uid_t kNobody = 65534;
    if (before_ == 0) {
      EXPECT_EQ(::seteuid(kNobody), 0);
    }
  }
  ~AsNobody() {
    if (before_ == 0) {
      EXPECT_EQ(::seteuid(0), 0);
    }
  }
  AsNobody(const AsNobody&) = delete;
  AsNobody& operator=(const AsNobody&) = delete;

 private:
  uid_t before_;
};

class Disk : public testing::Test {
 protected:
  FilePath put(const std::string& name, const std::string& text) {
    const FilePath path = home_ / name;
    fs::create_directories(path.parent_path());
    std::ofstream(path) << text;
    return path;
  }
  std::string find(const std::string& name) const {
    const auto found =
        find_named_file(disk(), name, home_ / "week", home_ / "shipped", {});
    return found ? found->lexically_relative(home_).string() : "none";
  }

  testing_support::TemporaryFolder folder_;
  FilePath home_ = folder_.path();
};

TEST_F(Disk, NamesWhatIsThere) {
  const FilePath file = put("week/sh.yaml", "sh");
  fs::create_symlink("sh.yaml", home_ / "week/link");
  fs::create_symlink("nowhere", home_ / "week/lost");
  ASSERT_EQ(::mkfifo((home_ / "pipe").c_str(), 0600), 0);
  fs::create_hard_link(file, home_ / "twin");
  EXPECT_EQ(disk().status(file).kind, Standing::file);
  EXPECT_EQ(disk().status(file).names, 2U);
  EXPECT_TRUE(disk().status(file).is_same_as(disk().status(home_ / "twin")));
  EXPECT_EQ(disk().status(home_ / "week").kind, Standing::folder);
  EXPECT_EQ(disk().status(home_ / "week/link").kind, Standing::file);
  EXPECT_EQ(disk().own_status(home_ / "week/link").kind, Standing::link);
  EXPECT_EQ(disk().status(home_ / "week/lost").kind, Standing::none);
  EXPECT_EQ(disk().status(home_ / "pipe").kind, Standing::other);
  EXPECT_EQ(disk().status(file / "below").kind, Standing::none);
  EXPECT_EQ(disk().status(home_ / std::string(300, 'x')).kind, Standing::none);
  EXPECT_EQ(disk().real(home_ / "week/link"), disk().real(file));
  EXPECT_EQ(disk().list(home_ / "none").size(), 0U);
  EXPECT_EQ(disk().list(home_).size(), 3U);
}

// A pipe would hold Sheaf up for ever.
TEST_F(Disk, ReadsFilesOnly) {
  ASSERT_EQ(::mkfifo((home_ / "pipe").c_str(), 0600), 0);
  for (const FilePath& path : {home_, home_ / "pipe", home_ / "none"}) {
    EXPECT_THROW(disk().read(path, 9), MachineError);
    EXPECT_THROW(disk().keep(path.string()), MachineError);
    EXPECT_EQ(disk().open(path), nullptr);
  }
  const FilePath file = put("sh", "a ship");
  EXPECT_EQ(disk().read(file, 100), "a ship");
  EXPECT_EQ(disk().read(file, 2), "a s");
  EXPECT_EQ(disk().keep(file.string()).bytes, "a ship");
  EXPECT_EQ(disk().keep(put("empty", "").string()).bytes, "");
  EXPECT_EQ(disk().open(file)->read(2, 99), "ship");
}

TEST_F(Disk, FindsNothingOutsideByALink) {
  put("week/fish.png", "");
  put("other.png", "");
  put("shipped/layouts/week.yaml", "");
  fs::create_symlink("../other.png", home_ / "week/out.png");
  fs::create_symlink("fish.png", home_ / "week/in.png");
  fs::create_symlink("..", home_ / "week/up");
  EXPECT_EQ(find("fish.png"), "week/fish.png");
  EXPECT_EQ(find("in.png"), "week/in.png");
  EXPECT_EQ(find("layouts/week.yaml"), "shipped/layouts/week.yaml");
  for (const char* name : {"out.png", "up/other.png", "../other.png"}) {
    EXPECT_EQ(find(name), "none") << name;
  }
}

// Where Sheaf may not look, it does not say that nothing is there.
TEST_F(Disk, AFolderWithoutRightsIsNoAnswer) {
  put("week/closed/fish.png", "");
  fs::permissions(home_, fs::perms(0755));
  fs::permissions(home_ / "week/closed", fs::perms::none);
  {
    const AsNobody nobody;
    EXPECT_THROW(find("closed/fish.png"), MachineError);
    EXPECT_THROW(disk().list(home_ / "week/closed"), MachineError);
    EXPECT_THROW(disk().status(home_ / "week/closed/fish.png"), MachineError);
    EXPECT_THROW(disk().real(home_ / "week/closed/fish.png"), MachineError);
  }
  fs::permissions(home_ / "week/closed", fs::perms::owner_all);
  EXPECT_EQ(find("closed/fish.png"), "week/closed/fish.png");
}

// An editor's text hides the file by whatever name that is reached.
TEST_F(Disk, LiesBelowFilesInMemory) {
  const FilePath file = put("week/sh.yaml", "on the disk");
  put("week/ch.yaml", "ch");
  fs::create_symlink("week", home_ / "this-week");
  MemoryFiles open(&disk());
  open.put(home_ / "this-week/sh.yaml", "in the editor");
  open.put(home_ / "this-week/new.yaml", "new");
  EXPECT_EQ(open.read(file, 99), "in the editor");
  EXPECT_EQ(open.read(home_ / "week/new.yaml", 99), "new");
  EXPECT_EQ(open.list(home_ / "week").size(), 3U);
  EXPECT_EQ(find_named_file(open, "new.yaml", home_ / "week", home_, {}),
            home_ / "week/new.yaml");
  EXPECT_EQ(disk().read(file, 99), "on the disk");
  const auto set = open.write();
  set->add_new(home_ / "week/out/pages", "pages");
  set->finish();
  EXPECT_TRUE(open.is_folder(home_ / "week/out"));
  EXPECT_FALSE(disk().is_folder(home_ / "week/out"));
}

}  // namespace
}  // namespace sheaf
