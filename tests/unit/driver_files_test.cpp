// A lesson through the whole compiler over files that are not on a disk, and
// over files that fail.

#include <gtest/gtest.h>

#include "driver/packets.h"
#include "files/disk_files.h"
#include "files/memory_files.h"
#include "layout/page_places.h"
#include "support/faulty_files.h"
#include "unit/driver_memory.h"

namespace sheaf {
namespace {

using testing_support::FaultyFiles;

constexpr std::string_view kLesson =
    "pattern: sh\nwords: ship fish shop shed wish shell\n"
    "sentences: |\n  The fish is in the shop.\n"
    "dictate-words: shed wish\n";

// All that a build of this lesson reads, in memory.
struct Memory : ShippedInMemory {
  Memory() {
    files.put("week/sh.yaml", std::string(kLesson));
    files.put("week/sequence.yaml", "steps: [short i, short o, sh]\n");
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

// Every printed word of the week leads back to that word in the lesson, and the
// line of words to all sheets that are made of it.
TEST(DriverFiles, PagesLeadBackToTheLesson) {
  Memory memory;
  Workspace workspace(memory.files, "shipped");
  Diagnostics diagnostics;
  const auto lesson = prepare(workspace, {}, "week/sh.yaml", diagnostics);
  ASSERT_NE(lesson, nullptr) << to_text(diagnostics);
  const Packet packet =
      make_packet(lesson->analyzed, lesson->layout, *lesson->pictures,
                  lesson->style, workspace.shaper(), {}, diagnostics);
  std::set<std::string> words;
  for (const AnalyzedWord& word : lesson->analyzed.words) {
    words.insert(word.reading.word);
  }
  int found = 0;
  for (const Page& page : packet.learner.pages) {
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<GlyphMark>(&mark);
      if (text == nullptr || is_artifact(text->element) ||
          !words.contains(text->run.shape->text)) {
        continue;
      }
      const Span span = source_of(packet.learner, text->element);
      EXPECT_NE(span.text().find(text->run.shape->text), std::string_view::npos)
          << page.label << " has " << text->run.shape->text << " from "
          << span.text();
      ++found;
    }
  }
  EXPECT_GT(found, 15);
  const SourceFile& file = *packet.learner.source;
  const Span line = {&file, file.line_begin(2), file.line_begin(3)};
  std::set<std::string> sheets;
  for (const PagePlace& place : places_from(packet.learner, line)) {
    const std::string& label = packet.learner.pages[place.page].label;
    sheets.insert(label.substr(0, label.rfind(' ')));
  }
  for (const char* sheet : {"discovery", "blending", "sound-boxes", "cards"}) {
    EXPECT_TRUE(sheets.contains(sheet)) << sheet;
  }
  EXPECT_FALSE(sheets.contains("dictation"));
}

}  // namespace
}  // namespace sheaf
