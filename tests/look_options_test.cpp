// Every option of every sheet, one after another, at each choice and at both
// ends of its range, with words that are hard to place: nothing stands on
// anything else, no line runs through letters, nothing is lost at the edge.

#include <gtest/gtest.h>

#include "files/disk_files.h"
#include "look_checks.h"
#include "project_files.h"
#include "sheets/sheet.h"
#include "support/run_program.h"

namespace sheaf::test {
namespace {

using testing_support::TemporaryFolder;

constexpr const char* kLesson = R"(pattern: -dge, igh, ed_id
words: bridge porridge cartridge light lightning knight landed hated planted
sight-words: the a was of said one people
dictate-words: fudge night wanted
taught: sh, ch, ng, ai, oa, ee
home-note: Ask about the bridge that we built of blocks.
rhyme: |
  A {word} and a {word},
  sing it up and down.
sentences: |
  The knight was on the bridge.
  One of the people said it was light, and we wanted porridge.
dictate-sentences: |
  The lightning landed on the bridge.
passage:
  title: The Knight and the Porridge Cartridge
  text: |
    One of the people said the light on the bridge was a knight. We wanted porridge – hot porridge.

    The lightning landed, and it was light. “Porridge!” said the knight on the bridge. It was planted on the bridge, and the people hated it.
  questions: |
    Was it lightning that landed on the bridge, or was it porridge?
    One of the people hated the knight: said who?
)";

// What a layout may say of an option: every choice, both ends of a range.
std::vector<std::string> values_of(const OptionSpec& option) {
  if (option.kind == OptionSpec::Kind::flag) return {"yes", "no"};
  if (option.kind == OptionSpec::Kind::choice) {
    std::vector<std::string> choices;
    std::istringstream text{std::string(option.choices)};
    for (std::string choice; text >> choice;) choices.push_back(choice);
    return choices;
  }
  if (option.least.empty() || option.most.empty()) return {};
  return {std::string(option.least), std::string(option.most)};
}

TEST(LookOptions, NothingCollidesWhateverTheyAre) {
  Workspace workspace(disk(), shipped_folder());
  const TemporaryFolder folder;
  const std::string lesson = folder.write("hard.yaml", kLesson);
  int seen = 0, placed = 0;
  for (const SheetKind* kind : sheet_kinds()) {
    for (const OptionSpec& option : kind->options) {
      for (const std::string& value : values_of(option)) {
        const std::string layout = folder.write(
            std::string(kind->name) + "-" + std::string(option.name) + "-" +
                std::to_string(seen++) + ".yaml",
            "sheets:\n  - " + std::string(kind->name) + ":\n      " +
                std::string(option.name) + ": " + value + "\n");
        const Made made = make(workspace, lesson, layout, "letter", {});
        ASSERT_NE(made.lesson, nullptr) << kind->name;
        // Some words are too long for the greatest sizes, and Sheaf says so.
        if (!made.faults.empty()) continue;
        ++placed;
        const std::string where = std::string(kind->name) + ", " +
                                  std::string(option.name) + ": " + value;
        for (const auto* document :
             {&made.packet.learner, &made.packet.teacher}) {
          for (const Page& page : document->pages) {
            check_overlaps(page, where);
            check_lines(page, where);
            check_edges(page, where);
          }
        }
      }
    }
  }
  EXPECT_GT(placed, 100);
  EXPECT_LT(seen - placed, 3);
}

// The numbers at the ends of a passage's lines, on each of its pages.
std::vector<std::vector<int>> word_counts(const Document& document) {
  std::vector<std::vector<int>> pages;
  for (const Page& page : document.pages) {
    pages.emplace_back();
    for (const Mark& mark : page.marks) {
      const auto* text = std::get_if<GlyphMark>(&mark);
      if (text == nullptr || text->element != kDecoration) continue;
      pages.back().push_back(std::stoi(std::string(text->run.shape->text)));
    }
  }
  return pages;
}

// Whoever is timed turns no page, however much is to be written below.
TEST(LookOptions, APassageThatFitsOnePageIsNotDivided) {
  Workspace workspace(disk(), shipped_folder());
  const TemporaryFolder folder;
  const std::string layout = folder.write("one.yaml", "sheets: [passage]\n");
  bool divided_from_questions = false;
  for (int words = 20; words <= 90; words += 10) {
    std::string lesson =
        "pattern: sh\nwords: ship\npassage:\n  title: Six Ships in One\n"
        "  text: |\n    Kim";
    // A dash is no word, a number is one; a paragraph ends after 50.
    for (int i = 1; i < words; ++i) {
      lesson += i == 50 ? ".\n\n    Kim" : i % 9 == 0 ? " – 6" : " shelf";
    }
    lesson += ".\n  questions: |\n    Is it a ship?\n    Is it a shelf?\n";
    for (const char* paper : {"letter", "a4"}) {
      const Made made =
          make(workspace, folder.write("long.yaml", lesson), layout, paper, {});
      ASSERT_EQ(made.faults, "");
      const auto counts = word_counts(made.packet.learner);
      ASSERT_FALSE(counts.empty());
      ASSERT_FALSE(counts[0].empty()) << words;
      EXPECT_EQ(counts[0].back(), words) << paper;
      EXPECT_LE(counts.size(), 2U) << words;
      if (counts.size() < 2) continue;
      divided_from_questions = true;
      EXPECT_TRUE(counts[1].empty()) << words << ", " << paper;
    }
  }
  EXPECT_TRUE(divided_from_questions);
}

// The columns for words give way to long ones, on both papers.
TEST(LookOptions, TheScriptHasRoomForLongWords) {
  Workspace workspace(disk(), shipped_folder());
  const TemporaryFolder folder;
  const std::string layout =
      folder.write("script.yaml", "sheets: [dictation, script]\n");
  for (const char* words :
       {"misunderstanding transformation", "ship night", "homework knight"}) {
    const std::string lesson = folder.write(
        "long.yaml", std::string("pattern: ing\nwords: jumping\n") +
                         "dictate-words: " + words + "\n");
    for (const char* paper : {"letter", "a4"}) {
      const Made made = make(workspace, lesson, layout, paper, {});
      EXPECT_EQ(made.faults, "") << words << ", " << paper;
      for (const Page& page : made.packet.teacher.pages) {
        check_overlaps(page, words);
        check_lines(page, words);
        check_edges(page, words);
      }
    }
  }
}

// Between the ink of two letters, and of two words.
double gap_ratio(Shaper& shaper, const TextStyle& style) {
  const auto gap = [&](std::string_view text) {
    const GlyphRun run{&shaper.shape(*style.font, text, style.features),
                       style.size, style.tracking, style.word_gap};
    const InkSpan first = ink_of(run, 0, 1);
    const InkSpan last = ink_of(run, text.size() - 1, text.size());
    return static_cast<double>((last.left - first.right).mils());
  };
  return gap("n n") / gap("nn");
}

// More room between letters without more between words slowed readers down:
// Galliussi and others 2020 (abstract read). So the ratio must not fall.
TEST(LookType, WordGapsGrowWithLetterGaps) {
  Workspace workspace(disk(), shipped_folder());
  const TemporaryFolder folder;
  const std::string lesson = folder.write("hard.yaml", kLesson);
  double before = 0;
  for (const char* spacing : {"0 pt", "1 pt", "2.5 pt", "5 pt", "12 pt"}) {
    const std::string layout =
        folder.write(std::string("spacing") + spacing[0] + spacing[1] + ".yaml",
                     std::string("letter-spacing: ") + spacing +
                         "\nsheets: [sentences, discovery]\n");
    const Made made = make(workspace, lesson, layout, "letter", {});
    ASSERT_NE(made.lesson, nullptr);
    const Style& style = made.lesson->style;
    for (const Length size : {style.text_size, style.reading_size}) {
      const TextStyle text = style.text(size);
      // The British Dyslexia Association's style guide, from memory: word
      // spacing of at least 3.5 times the letter spacing.
      EXPECT_GE(text.word_gap + Length::from_pt(0.01),
                scaled(text.tracking, 3.5))
          << spacing;
      const double ratio = gap_ratio(workspace.shaper(), text);
      if (before == 0) before = ratio;
      EXPECT_GE(ratio, before * 0.99) << spacing;
    }
  }
}

// Leading of 1.5 and body text of 14 pt and more: the same guide (leading from
// memory; 12 to 14 pt read in a copy of 2018). The rest is common practice, no
// source.
TEST(LookType, LayoutsSetTypeLargeAndOpen) {
  Workspace workspace(disk(), shipped_folder());
  const TemporaryFolder folder;
  const std::string lesson = folder.write("hard.yaml", kLesson);
  for (const auto& file : files_below(project() / "layouts", {".yaml"})) {
    const Made made = make(workspace, lesson, file.string(), "a4", {});
    ASSERT_NE(made.lesson, nullptr) << file;
    const Style& style = made.lesson->style;
    EXPECT_GE(style.leading, 1.5) << file;
    EXPECT_GE(style.text_size, Length::from_pt(14)) << file;
    EXPECT_GE(style.reading_size, Length::from_pt(20)) << file;
    EXPECT_GE(style.blending_size, Length::from_pt(36)) << file;
    EXPECT_GE(style.heading_size, scaled(style.text_size, 1.2)) << file;
    EXPECT_LE(style.heading_size, style.word_size) << file;
  }
}

}  // namespace
}  // namespace sheaf::test
