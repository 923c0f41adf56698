#include <gtest/gtest.h>

#include "input/layout_file.h"

namespace sheaf {
namespace {

struct ReadLayout {
  std::unique_ptr<SourceFile> file;
  Diagnostics diagnostics;
  LayoutFile layout;
};

ReadLayout layout_from(std::string text) {
  ReadLayout read;
  read.file = std::make_unique<SourceFile>("week.yaml", std::move(text));
  read.layout = read_layout_file(*read.file, read.diagnostics);
  return read;
}

TEST(LayoutFile, HandsSettingsAndOptionsOnUnread) {
  const ReadLayout read = layout_from(
      "sheaf: 1\n"
      "paper: a4\n"
      "margins: {left: 20 mm}\n"
      "sheets:\n"
      "  - discovery\n"
      "  - sound-boxes: {words: 4, help: none}\n"
      "  - dictation:\n"
      "      lines: 8\n"
      "  - compose:\n");
  EXPECT_EQ(to_text(read.diagnostics), "");
  EXPECT_EQ(read.layout.settings.entries.size(), 2U);
  ASSERT_NE(read.layout.settings.find("paper"), nullptr);
  EXPECT_EQ(read.layout.settings.find("paper")->text.text(), "a4");
  EXPECT_EQ(read.layout.settings.find("margins")->kind, Value::Kind::keys);
  ASSERT_EQ(read.layout.sheets.size(), 4U);
  EXPECT_EQ(read.layout.sheets[0].kind.value, "discovery");
  EXPECT_EQ(read.layout.sheets[0].options.kind, Value::Kind::nothing);
  EXPECT_EQ(read.layout.sheets[1].kind.span.text(), "sound-boxes");
  EXPECT_EQ(read.layout.sheets[1].options.find("words")->text.text(), "4");
  EXPECT_EQ(read.layout.sheets[2].options.find("lines")->span.text(), "8");
  EXPECT_EQ(read.layout.sheets[3].options.kind, Value::Kind::nothing);
}

TEST(LayoutFile, SaysHowSoundsAreCounted) {
  const ReadLayout read = layout_from(
      "accent: british\n"
      "conventions: {count: as-taught, wh: hw}\n"
      "sheets: [discovery]\n");
  EXPECT_EQ(to_text(read.diagnostics), "");
  EXPECT_TRUE(read.layout.settings.entries.empty());
  EXPECT_EQ(read.layout.conventions.accent.value, "british");
  ASSERT_EQ(read.layout.conventions.conventions.size(), 2U);
  EXPECT_EQ(read.layout.conventions.conventions[1].first.value, "wh");
  EXPECT_EQ(read.layout.conventions.conventions[1].second.value, "hw");
}

struct Mistake {
  const char* text;
  const char* message;
};

TEST(LayoutFile, SaysWhatIsWrong) {
  const Mistake mistakes[] = {
      {"paper: a4\n",
       "week.yaml:1:1: error: the layout names no sheets [missing-key]\n"
       "   1 | paper: a4\n"
       "     | ^~~~~\n"
       "  help: add a line such as `sheets: [discovery, sound-boxes]`\n"},
      {"sheets: discovery\n",
       "week.yaml:1:9: error: `sheets` has text after it [wrong-value]\n"
       "   1 | sheets: discovery\n"
       "     |         ^~~~~~~~~\n"
       "  help: write it like this: `sheets: [discovery, sound-boxes]`\n"},
      {"sheets:\n  - sound-boxes:\n    words: 4\n",
       "week.yaml:3:5: error: `words` is level with the sheet `sound-boxes`, "
       "not under it [wrong-indentation]\n"
       "   3 |     words: 4\n"
       "     |     ^~~~~\n"
       "  help: begin the options of a sheet two spaces further right than its "
       "name\n"},
      {"sheets:\n  - [discovery]\n",
       "week.yaml:2:5: error: there is a list where a sheet should be "
       "[wrong-value]\n"
       "   2 |   - [discovery]\n"
       "     |     ^~~~~~~~~~~\n"
       "  help: write one sheet on each line, as in `- discovery`; if a sheet "
       "has options, end its line with a colon, as in `- sound-boxes:`, and "
       "write them on the lines below it, two spaces further right\n"},
      {"pattern: sh\nwords: ship\n",
       "week.yaml:1:1: error: this file is a lesson, as `pattern` shows, and "
       "not a layout [wrong-file-kind]\n"
       "   1 | pattern: sh\n"
       "     | ^~~~~~~\n"
       "  help: name the file of a layout instead\n"},
      {"sheaf: 2\nsheets: [discovery]\n",
       "week.yaml:1:8: error: this file is written for version 2 of the "
       "format; this Sheaf knows version 1 [unknown-version]\n"
       "   1 | sheaf: 2\n"
       "     |        ^\n"
       "  help: write `sheaf: 1`, or get a newer Sheaf\n"},
  };
  for (const Mistake& mistake : mistakes) {
    EXPECT_EQ(to_text(layout_from(mistake.text).diagnostics), mistake.message)
        << mistake.text;
  }
}

}  // namespace
}  // namespace sheaf
