// The same lesson makes the same files, whoever builds it, where and how.

#include <gtest/gtest.h>

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

using Files = std::map<std::string, std::string>;

Files pdfs_in(const fs::path& folder) {
  Files files;
  for (const fs::path& file : files_below(folder, {".pdf"})) {
    files[fs::relative(file, folder).string()] = read(file);
  }
  return files;
}

void expect_same(const Files& one, const Files& two, const std::string& how) {
  ASSERT_EQ(one.size(), two.size()) << how;
  for (const auto& [name, bytes] : one) {
    const auto other = two.find(name);
    ASSERT_NE(other, two.end()) << how << ": " << name;
    EXPECT_TRUE(bytes == other->second) << how << ": " << name;
  }
}

constexpr const char* kLessons[] = {"ai-ay-rain", "i-e-kite", "sh-ship"};

struct Surroundings {
  std::vector<std::string> variables;
  std::string umask = "022";
  /// The folder that the program runs in, below one of our own.
  std::string working_folder = ".";
};

// All demo packets and the class in two runs, from a copy of the lessons.
Files built_in(const Surroundings& where) {
  const TemporaryFolder folder;
  fs::copy(project() / "lessons", folder.path() + "/lessons",
           fs::copy_options::recursive);
  fs::create_directories(folder.path() + "/" + where.working_folder);
  const fs::path way =
      fs::path(folder.path())
          .lexically_relative((fs::path(folder.path()) / where.working_folder)
                                  .lexically_normal());
  const auto build = [&](const std::vector<std::string>& what) {
    std::vector<std::string> call = {
        "sh", "-c",        "umask \"$1\"; cd \"$2\"; shift 2; exec env \"$@\"",
        "sh", where.umask, folder.path() + "/" + where.working_folder};
    call.insert(call.end(), where.variables.begin(), where.variables.end());
    call.insert(call.end(),
                {SHEAF_PROGRAM, "build", "--out", (way / "out").string()});
    call.insert(call.end(), what.begin(), what.end());
    const Outcome built = run_program(call);
    EXPECT_EQ(built.status, 0) << built.out;
  };
  std::vector<std::string> lessons;
  for (const char* name : kLessons) {
    lessons.push_back((way / "lessons" / name).string() + ".yaml");
  }
  build(lessons);
  build({"--class", (way / "lessons/class.yaml").string()});
  return pdfs_in(folder.path() + "/out");
}

TEST(Surroundings, ChangeNoByteOfAnyPacket) {
  const Files first = built_in({{"LC_ALL=C", "TZ=UTC"}});
  EXPECT_EQ(first.size(), 13U);
  const std::string allocator =
      "GLIBC_TUNABLES=glibc.malloc.tcache_count=0:"
      "glibc.malloc.mmap_threshold=4096:glibc.malloc.top_pad=1000000";
  const std::vector<Surroundings> others = {
      {{"LC_ALL=C.UTF-8", "TZ=Asia/Kolkata", "MALLOC_PERTURB_=85"},
       "077",
       "a b/c"},
      {{"LANG=de_DE.UTF-8", "LC_ALL=de_DE.UTF-8", "TZ=America/New_York",
        "GLIBCXX_FORCE_NEW=1", "MALLOC_PERTURB_=170", "MALLOC_ARENA_MAX=1"},
       "000",
       "lessons"},
      {{"LC_ALL=tr_TR.UTF-8", "LANGUAGE=tr", "TZ=Pacific/Kiritimati", allocator,
        "SOURCE_DATE_EPOCH=1", "HOME=/nonexistent", "COLUMNS=40"},
       "027"},
      {{"-i"}}};
  for (const Surroundings& other : others) {
    expect_same(first, built_in(other), other.variables[0]);
  }
}

// As `make -j` does it: a run for each lesson, side by side.
TEST(Surroundings, ChangeNothingForRunsSideBySide) {
  const TemporaryFolder folder;
  std::vector<std::string> lessons;
  std::vector<std::thread> threads;
  for (const char* name : kLessons) {
    lessons.push_back((project() / "lessons" / name).string() + ".yaml");
    threads.emplace_back([&, lesson = lessons.back()] {
      EXPECT_EQ(run_program({SHEAF_PROGRAM, "build", lesson, "--out",
                             folder.path() + "/side"})
                    .status,
                0);
    });
  }
  for (std::thread& thread : threads) thread.join();
  std::vector<std::string> call = {SHEAF_PROGRAM, "build", "--out",
                                   folder.path() + "/one"};
  call.insert(call.end(), lessons.begin(), lessons.end());
  EXPECT_EQ(run_program(call).status, 0);
  const Files one = pdfs_in(folder.path() + "/one");
  EXPECT_EQ(one.size(), 6U);
  expect_same(one, pdfs_in(folder.path() + "/side"), "side by side");
}

}  // namespace
}  // namespace sheaf::test
