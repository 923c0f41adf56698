#include <gtest/gtest.h>

#include "files/disk_files.h"
#include "layout/frame.h"
#include "layout/heard_text.h"
#include "layout/table.h"
#include "layout/text_block.h"

namespace sheaf {
namespace {

using namespace literals;

// How a text is said: the wordings are ours, what needs one was heard from
// espeak-ng, which says "slash" for every stroke and nothing for a dot.
TEST(HeardWords, HasWordsForSigns) {
  constexpr const char* kRows[][2] = {
      {"", ""},
      {"Say it slowly.", "Say it slowly."},
      {"/sh/", "the sound sh"},
      {"Say: “ship. /sh/. I hear /sh/ in ship.”",
       "Say: “ship. the sound sh. I hear the sound sh in ship.”"},
      {"/sh/ /i/ /p/", "the sounds sh, i, p"},
      {"touch each mark: /k/ /a/ /t/. Then",
       "touch each mark: the sounds k, a, t. Then"},
      {"/t/ in jumped, /d/ in sailed",
       "the sound t in jumped, the sound d in sailed"},
      {"x as /ks/ or /gz/", "x as the sound ks or the sound gz"},
      {"1. /sh/ – sh   2. /i/ – i",
       "1. the sound sh – sh   2. the sound i – i"},
      {"write a_e in the air", "write a-blank-e in the air"},
      {"(u_e_yoo)", "(u_e_yoo)"},
      {"i–e (with a letter between)", "i-blank-e (with a letter between)"},
      {"o_e, oa or ow", "o-blank-e, oa or ow"},
      {"ba – by", "ba – by"},
      {"rab · bit = rabbit", "rab, bit = rabbit"},
      {"fan · tas · tic", "fan, tas, tic"},
      // What is no sign of ours stays.
      {"pages 3–4", "pages 3–4"},
      {"his/her and/or 1/2", "his/her and/or 1/2"},
      {"// / a/b/", "// / a/b/"},
      {"sun + set", "sun + set"},
      {"A–Z", "A–Z"},
      {"·", "·"},
  };
  for (const auto& [shown, heard] : kRows) {
    EXPECT_EQ(heard_text(shown), heard) << shown;
  }
}

TEST(HeardWords, SaysGraphemesOneByOne) {
  EXPECT_EQ(heard_graphemes("sh i p"), "sh, i, p");
  EXPECT_EQ(heard_graphemes("c a_e k"), "c, a-blank-e, k");
  EXPECT_EQ(heard_graphemes(""), "");
}

TEST(HeardWords, SaysCounts) {
  EXPECT_EQ(heard_count("13/14"), "13 of 14");
  EXPECT_EQ(heard_count("(3/4),"), "(3 of 4),");
  for (const char* other : {"", "/", "13/", "/sh/", "1/2/3", "a/b", "14"}) {
    EXPECT_EQ(heard_count(other), "") << other;
  }
}

TEST(HeardWords, SpellsWhatWasWritten) {
  EXPECT_EQ(heard_spelling("kight"), "kight: k, i, g, h, t");
  EXPECT_EQ(heard_spelling("binch."), "binch: b, i, n, c, h");
  EXPECT_EQ(heard_spelling("café"), "café: c, a, f, é");
  EXPECT_EQ(heard_spelling(""), "");
}

TEST(HeardWords, SaysWhatIsMarked) {
  const auto said = [](std::vector<BandedText> pieces) {
    return marked_text(pieces);
  };
  EXPECT_EQ(said({{"No band."}}), "");
  EXPECT_EQ(said({{"sh", true}, {"ip"}}), "Marked: sh.");
  EXPECT_EQ(said({{"sh", true}, {"ip  di"}, {"sh", true}, {"  "}}),
            "Marked: sh.");
  EXPECT_EQ(said({{"c"}, {"a", true}, {"k"}, {"e", true}}),
            "Marked: a-blank-e.");
  EXPECT_EQ(
      said(
          {{"r"}, {"ai", true}, {"n s"}, {"ai", true}, {"l pl"}, {"ay", true}}),
      "Marked: ai in rain, sail; ay in play.");
  EXPECT_EQ(
      said({{"The "}, {"fish", true}, {" is on the "}, {"dish", true}, {"."}}),
      "Marked: fish, dish.");
  EXPECT_EQ(said({{"sh", true}, {"u"}, {"sh", true}}), "Marked: sh.");
}

class HeardOnPages : public testing::Test {
 protected:
  HeardOnPages()
      : fonts_(disk(), SHEAF_FONTS),
        style_(make_style(OptionValues(page_options()), fonts_, diagnostics_)),
        composer_(shaper_, style_, document_, kDocumentElement,
                  style_.body_size()) {}

  // What is heard of an element: its marks in order, in words of their own
  // where they have some.
  std::string heard(ElementId of, const std::vector<Mark>& marks) const {
    std::string text;
    ElementId last = kDecoration;
    for (const Mark& mark : marks) {
      const ElementId id =
          std::visit([](const auto& m) { return m.element; }, mark);
      if (is_artifact(id)) continue;
      const Element& element = document_.element(id);
      if (id != of && element.parent != of) continue;
      if (!element.alternative.empty()) {
        if (id != last) text += element.alternative;
      } else if (const auto* glyphs = std::get_if<GlyphMark>(&mark)) {
        text += glyphs->run.shape->text;
      }
      last = id;
    }
    return text;
  }
  std::vector<Mark> all_marks() {
    std::vector<Mark> marks;
    for (const Block& block : composer_.blocks()) {
      marks.insert(marks.end(), block.marks.begin(), block.marks.end());
    }
    return marks;
  }
  std::vector<ElementId> of_role(Role role) const {
    std::vector<ElementId> ids;
    for (std::size_t i = 0; i < document_.elements.size(); ++i) {
      if (document_.elements[i].role == role) {
        ids.push_back(static_cast<ElementId>(i + 1));
      }
    }
    return ids;
  }

  Diagnostics diagnostics_;
  FontLibrary fonts_;
  Shaper shaper_;
  Style style_;
  Document document_;
  Composer composer_;
};

TEST_F(HeardOnPages, ParagraphsSaySignsInWords) {
  const ElementId id = add_paragraph(composer_, style_.teacher_text(),
                                     "Say /sh/ /i/, then a_e.");
  EXPECT_EQ(heard(id, all_marks()), "Say the sounds sh, i, then a-blank-e.");
}

TEST_F(HeardOnPages, ParagraphsEndWithWhatIsMarked) {
  const TextStyle text = style_.teacher_text();
  const std::vector<TextPiece> pieces = {{"sh", text, true},
                                         {"ip is a word", text}};
  const ElementId id = add_paragraph(composer_, pieces);
  EXPECT_EQ(heard(id, all_marks()), "ship is a word. Marked: sh.");
}

TEST_F(HeardOnPages, WhatIsMarkedBeginsASentence) {
  const TextStyle text = style_.teacher_text();
  for (const auto& [end, heard] : {std::pair("“Oh!”", "sh “Oh!” Marked: sh."),
                                   std::pair("(2)", "sh (2). Marked: sh."),
                                   std::pair("why?", "sh why? Marked: sh.")}) {
    const std::vector<TextPiece> pieces = {{"sh ", text, true}, {end, text}};
    const ElementId id = add_paragraph(composer_, pieces);
    EXPECT_EQ(this->heard(id, all_marks()), heard);
  }
}

// What is said in other words is one element, on however many lines it stands.
TEST_F(HeardOnPages, AStretchOverTwoLinesIsSaidOnce) {
  std::string sounds;
  for (int i = 0; i < 60; ++i) sounds += "/sh/ ";
  add_paragraph(composer_, style_.teacher_text(), sounds);
  EXPECT_GT(composer_.blocks().size(), 1U);
  EXPECT_EQ(of_role(Role::span).size(), 1U);
}

TEST_F(HeardOnPages, CellsSayWhatADashAndAnEmptyCellMean) {
  Table table(composer_, {{"Learner"},
                          {.title = "sh", .none = "not asked"},
                          {.title = "Causes", .none = "none"},
                          {"Left to fill in"}});
  table.add_text_row({"B7", "–", "", ""}, true);
  table.add_text_row({"C3", "absent"}, true);
  const auto cells = of_role(Role::data_cell);
  ASSERT_EQ(cells.size(), 4U);
  const auto marks = all_marks();
  EXPECT_EQ(heard(cells[0], marks), "not asked");
  EXPECT_EQ(heard(cells[1], marks), "none");
  EXPECT_EQ(heard(cells[2], marks), "");
  EXPECT_EQ(heard(cells[3], marks), "absent");
  EXPECT_EQ(document_.element(cells[0]).columns, 1);
  EXPECT_EQ(document_.element(cells[3]).columns, 3);
}

// The frame as it is read: heading, title, name, date, direction (the writer
// of the PDF puts the spaces between); and on later
// pages nothing of it but a header.
TEST_F(HeardOnPages, FrameIsReadOnce) {
  FrameText text;
  text.title = "Week 3";
  text.sheet = "Sound boxes";
  text.direction = "Tap the sounds.";
  text.learner = "B7";
  const FrameElements elements = add_frame_elements(composer_, text);
  std::vector<Page> pages(2);
  draw_frame(pages, composer_, text, elements);
  const auto& marks = pages[0].marks;
  EXPECT_EQ(heard(elements.heading, marks), "Sound boxes");
  EXPECT_EQ(heard(elements.title, marks), "Week 3");
  EXPECT_EQ(heard(elements.name, marks), "NameB7");
  EXPECT_EQ(heard(elements.date, marks), "Dateblank");
  EXPECT_EQ(heard(elements.direction, marks), "Tap the sounds.");
  EXPECT_LT(elements.heading, elements.title);
  EXPECT_LT(elements.title, elements.name);
  EXPECT_LT(elements.name, elements.date);
  EXPECT_LT(elements.date, elements.direction);
  ASSERT_EQ(pages[0].marks.size(), pages[1].marks.size());
  int headers = 0;
  for (const Mark& mark : pages[1].marks) {
    const ElementId id =
        std::visit([](const auto& m) { return m.element; }, mark);
    EXPECT_TRUE(is_artifact(id));
    headers += id == kPageHeader ? 1 : 0;
  }
  EXPECT_GE(headers, 6);
}

TEST_F(HeardOnPages, FrameHasNoTitleWhereThereIsNone) {
  FrameText text;
  text.sheet = "Sound boxes";
  EXPECT_EQ(add_frame_elements(composer_, text).title, kDecoration);
  text.for_teacher = true;
  const FrameElements elements = add_frame_elements(composer_, text);
  std::vector<Page> pages(1);
  draw_frame(pages, composer_, text, elements);
  EXPECT_EQ(heard(elements.title, pages[0].marks), "for the teacher");
  EXPECT_EQ(elements.name, kDecoration);
}

TEST_F(HeardOnPages, HeadingsMayBeHeardInOtherWords) {
  FrameText text;
  text.sheet = "B7";
  text.title = "Progress";
  text.heard_heading = "Progress of B7";
  text.for_teacher = true;
  const FrameElements elements = add_frame_elements(composer_, text);
  std::vector<Page> pages(1);
  draw_frame(pages, composer_, text, elements);
  EXPECT_EQ(heard(elements.heading, pages[0].marks), "Progress of B7");
  EXPECT_EQ(heard(elements.title, pages[0].marks), "Progress, for the teacher");
}

}  // namespace
}  // namespace sheaf
