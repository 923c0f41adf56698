// A lesson through the whole compiler over files that are not on a disk, and
// over files that fail.

#include <gtest/gtest.h>

#include "driver/packets.h"
#include "files/disk_files.h"
#include "files/memory_files.h"
#include "support/faulty_files.h"

namespace sheaf {
namespace {

using testing_support::FaultyFiles;

constexpr std::string_view kLesson =
    "pattern: sh\nwords: ship fish shop shed wish shell\n"
    "sentences: |\n  The fish is in the shop.\n";

// All that a build of this lesson reads, in memory.
class Memory {
 public:
  Memory() {
    for (const char* name : {"phonics.bin", "fonts/manifest.tsv"}) take(name);
    for (const char* folder : {"fonts", "layouts"}) {
      for (const FilePath& path : disk().list(FilePath(kShipped) / folder)) {
        if (disk().is_file(path)) take(folder / path.filename());
      }
    }
    files.put("week/sh.yaml", std::string(kLesson));
    files.put("week/sequence.yaml", "steps: [short i, short o, sh]\n");
  }

  MemoryFiles files;

 private:
  static constexpr const char* kShipped = SHEAF_SHIPPED;

  void take(const FilePath& name) {
    files.put("shipped" / name,
              disk().read(FilePath(kShipped) / name, std::size_t{64} << 20U));
  }
};

struct Made {
  std::string text;  // all messages
  std::vector<PacketFile> files;
};

Made make(Files& files, const FilePath& shipped, const FilePath& folder) {
  Workspace workspace(files, shipped);
  const SourceFile& lesson = workspace.open(folder / "sh.yaml");
  MadePackets packets =
      make_lesson_packets(workspace, {}, lesson, folder, false);
  return {to_text(packets.diagnostics), std::move(packets.files)};
}

TEST(DriverFiles, PagesAreTheSameFromMemoryAndFromTheDisk) {
  Memory memory;
  const Made alone = make(memory.files, "shipped", "week");
  ASSERT_EQ(alone.files.size(), 2U) << alone.text;

  MemoryFiles over(&disk());
  over.put("week/sh.yaml", std::string(kLesson));
  over.put("week/sequence.yaml", memory.files.read("week/sequence.yaml", 999));
  const Made over_disk = make(over, SHEAF_SHIPPED, "week");
  EXPECT_EQ(over_disk.text, alone.text);
  ASSERT_EQ(over_disk.files.size(), 2U) << over_disk.text;
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(over_disk.files[i].name, alone.files[i].name);
    EXPECT_TRUE(over_disk.files[i].bytes == alone.files[i].bytes);
  }
}

// Whichever call fails, the machine is at fault: the lesson is not told that it
// names a layout or a sequence that is not there, and nothing else is printed
// than what would be.
TEST(DriverFiles, AFaultOfTheMachineIsNeverTheLessons) {
  Memory memory;
  FaultyFiles counting(memory.files);
  const Made good = make(counting, "shipped", "week");
  ASSERT_GT(counting.calls(), 15);
  for (int failing = 0; failing < counting.calls(); ++failing) {
    FaultyFiles files(memory.files, failing);
    try {
      const Made made = make(files, "shipped", "week");
      EXPECT_EQ(made.text, good.text) << failing;
      ADD_FAILURE() << "call " << failing << " failed and nobody heard";
    } catch (const MachineError& fault) {
      EXPECT_TRUE(std::string_view(fault.what()).starts_with("the disk fails"))
          << fault.what();
    }
  }
}

}  // namespace
}  // namespace sheaf
