// Files in memory: alone, and over others, as an editor has them.

#include <gtest/gtest.h>

#include "files/memory_files.h"

namespace sheaf {
namespace {

constexpr OwnForm kPages = {
    .is_own = [](const OpenFile& file) { return file.read(0, 5) == "pages"; },
    .why_not = "not pages",
    .can_be_made_again = true};

std::string text_of(const Files& files, const FilePath& path) {
  return files.is_file(path) ? files.read(path, 100) : "none";
}

std::string names(const Files& files, const FilePath& folder) {
  std::string all;
  for (const FilePath& path : files.list(folder)) all += path.string() + " ";
  return all;
}

// What a call says where it throws.
template <typename Call>
std::string fault_of(Call call) {
  try {
    call();
  } catch (const MachineError& fault) {
    return fault.what();
  }
  return {};
}

TEST(MemoryFiles, HaveWhatWasPutThere) {
  MemoryFiles files;
  files.put("week/sh.yaml", "pattern: sh\n");
  files.put("week/pictures/fish.png", "fish");
  EXPECT_TRUE(files.is_folder("week"));
  EXPECT_TRUE(files.is_folder("week/pictures/"));
  EXPECT_FALSE(files.is_file("week"));
  EXPECT_EQ(files.status("we").kind, Standing::none);
  EXPECT_EQ(text_of(files, "week/../week/./sh.yaml"), "pattern: sh\n");
  EXPECT_EQ(names(files, "week"), "week/pictures week/sh.yaml ");
  EXPECT_EQ(names(files, "none"), "");
  EXPECT_EQ(files.real("week/./sh.yaml"), FilePath("/week/sh.yaml"));
  EXPECT_TRUE(
      files.status("/week/sh.yaml").is_same_as(files.status("week/sh.yaml")));
  EXPECT_FALSE(files.status("week").is_same_as(files.status("week/sh.yaml")));
  EXPECT_EQ(files.keep("week/pictures/fish.png").bytes, "fish");
  EXPECT_EQ(files.read("week/sh.yaml", 4), "patte");
  EXPECT_EQ(fault_of([&] { files.read("week", 9); }),
            "cannot read week: it is not a file");
  EXPECT_EQ(fault_of([&] { files.read("ch.yaml", 9); }),
            "cannot read ch.yaml: it is not there");
}

TEST(MemoryFiles, AreFoundAsFilesOfADiskAre) {
  MemoryFiles files;
  files.put("home/week/sh.yaml", "");
  files.put("home/week/fish.png", "near");
  files.put("home/other.png", "far");
  files.put("shipped/layouts/week.yaml", "");
  files.put("allowed/goat.png", "");
  const auto find = [&](std::string_view name) {
    return find_named_file(files, name, "home/week", "shipped", {"allowed"})
        .value_or("none")
        .string();
  };
  EXPECT_EQ(find("fish.png"), "home/week/fish.png");
  EXPECT_EQ(find("layouts/week.yaml"), "shipped/layouts/week.yaml");
  EXPECT_EQ(find("goat.png"), "allowed/goat.png");
  for (const char* name : {"../other.png", "/home/other.png", "other.png",
                           "x/../../other.png", "", "."}) {
    EXPECT_EQ(find(name), "none") << name;
  }
  EXPECT_EQ(find(std::string_view("fish.png\0x", 10)), "none");
}

TEST(MemoryFiles, HideWhatIsBelowAndLeaveItAlone) {
  MemoryFiles disk;
  disk.put("week/sh.yaml", "old");
  disk.put("week/ch.yaml", "ch");
  MemoryFiles open(&disk);
  open.put("week/sh.yaml", "new");
  open.put("week/th.yaml", "th");
  EXPECT_EQ(text_of(open, "week/sh.yaml"), "new");
  EXPECT_EQ(text_of(open, "week/ch.yaml"), "ch");
  EXPECT_EQ(names(open, "week"), "week/ch.yaml week/sh.yaml week/th.yaml ");
  EXPECT_TRUE(open.remove_file("week/ch.yaml"));
  EXPECT_FALSE(open.remove_file("week/ch.yaml"));
  EXPECT_EQ(names(open, "week"), "week/sh.yaml week/th.yaml ");
  EXPECT_EQ(text_of(open, "week/ch.yaml"), "none");
  open.forget("week/sh.yaml");
  EXPECT_EQ(text_of(open, "week/sh.yaml"), "old");
  EXPECT_EQ(names(disk, "week"), "week/ch.yaml week/sh.yaml ");
}

TEST(MemoryFiles, AreWrittenTogetherOrNotAtAll) {
  MemoryFiles files;
  files.put("out/a.pdf", "pages of last week");
  files.put("out/letter.pdf", "a letter");
  files.put("list", "one");
  {
    const auto set = files.write();
    set->add("out/a.pdf", "pages of today", kPages, "name another");
    set->add_new("out/b/c.pdf", "pages");
    set->rewrite("list", "one two", "one");
    EXPECT_EQ(text_of(files, "out/a.pdf"), "pages of last week");
    set->finish();
    EXPECT_EQ(set->placed(), 3U);
  }
  EXPECT_EQ(text_of(files, "out/a.pdf"), "pages of today");
  EXPECT_EQ(text_of(files, "out/b/c.pdf"), "pages");
  EXPECT_EQ(text_of(files, "list"), "one two");

  const auto set = files.write();
  set->add("out/a.pdf", "pages of tomorrow", kPages, "");
  EXPECT_EQ(fault_of([&] {
              set->add("out/letter.pdf", "pages", kPages, "name another");
            }),
            "out/letter.pdf is there already and is not pages, so it is left "
            "alone; name another");
  EXPECT_EQ(fault_of([&] { set->add_new("list", ""); }),
            "list is there already, and is left alone");
  EXPECT_EQ(fault_of([&] { set->add("out", "pages", kPages, ""); }),
            "cannot write out: there is a folder of that name");
  set->rewrite("list", "three", "one two");
  files.put("list", "somebody else's");
  EXPECT_THROW(set->finish(), FileChanged);
  EXPECT_EQ(set->placed(), 0U);
  EXPECT_EQ(text_of(files, "out/a.pdf"), "pages of today");
  EXPECT_EQ(text_of(files, "list"), "somebody else's");
}

}  // namespace
}  // namespace sheaf
