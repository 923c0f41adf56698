// A text that Sheaf wrote is known again, and no other is taken for one.

#include <gtest/gtest.h>

#include "driver/own_files.h"
#include "driver/pdf_titles.h"

namespace sheaf {
namespace {

TEST(OwnText, IsADependencyFileByItsWholeForm) {
  const auto is_own = [](std::string_view text) {
    return is_own_text(OwnKind::dependencies, text);
  };
  for (const char* text :
       {"out/a.pdf : a.yaml b.ttf\na.yaml:\nb.ttf:\n", "out/a.pdf :\n",
        "out/a\\ b.pdf out/c.pdf : a\\ b.yaml\na\\ b.yaml:\n",
        "a.pdf : $$x \\#y\n$$x:\n\\#y:\n", "a.pdf : a.yaml\r\na.yaml:\r\n"}) {
    EXPECT_TRUE(is_own(text)) << text;
  }
  for (const char* text :
       {"", "\n", " : a\na:\n", ":\n", "a.pdf: a.yaml\na.yaml:\n",
        "a.pdf : a.yaml\n", "a.pdf : a.yaml\nb.yaml:\n",
        "a.pdf : a.yaml\na.yaml:\n\techo x\n", "a.pdf : a.yaml\na.yaml: b\n",
        "a.pdf : a b\nb:\na:\n", "a.pdf : a.yaml\na.yaml:\nall: x\n",
        "all : a\n\tbuild a\n", "a.pdf\\ : a\na:\n", "a.pdf  : a\na:\n",
        "pattern: sh\nwords: ship\n", "a.pdf : a.yaml \\\n b\n", "\\", "a\\"}) {
    EXPECT_FALSE(is_own(text)) << text;
  }
}

TEST(OwnText, IsByReviewWhereItsHeadSaysSo) {
  const auto is_own = [](std::string_view text) {
    return is_own_text(OwnKind::review, text);
  };
  EXPECT_TRUE(is_own("# a.yaml with words. Written by `sheaf review`, and\n"));
  EXPECT_TRUE(is_own("# A check.\n# Written by `sheaf review`. After\nx: y\n"));
  EXPECT_FALSE(is_own(""));
  EXPECT_FALSE(is_own("learners: B7\n"));
  EXPECT_FALSE(is_own("learners: B7\n# Written by `sheaf review`\n"));
  EXPECT_FALSE(is_own("title: Written by `sheaf review`\n"));
}

TEST(OwnText, IsAListWhereAllItsLinesReadAsOne) {
  const auto is_own = [](std::string_view text) {
    return is_own_text(OwnKind::blocked_words, text);
  };
  for (const std::string& text :
       {std::string(kBlockedHead), std::string(kBlockedHead) + "no list: 1\n",
        std::string(), std::string("# mine\n\nzebra, apple # never\n"),
        std::string("=0123456789 ~abcdef0123\r\nisn't\r\n")}) {
    EXPECT_TRUE(is_own(text)) << text;
  }
  for (const char* text :
       {"pattern: sh\n", "one two.\n", "=012345678\n", "=0123456789a\n",
        "~ABCDEF0123\n", "<html>\n", "caf\xE9\n", "a\tb\n{}\n", "1,2\n"}) {
    EXPECT_FALSE(is_own(text)) << text;
  }
}

TEST(OwnText, IsNeverAPdf) {
  EXPECT_FALSE(is_own_text(OwnKind::pdf, "%PDF-1.7\n"));
}

TEST(PdfTitle, TellsWhatAPdfIsAbout) {
  using Kind = PdfAbout::Kind;
  using Codes = std::vector<std::string>;
  struct Case {
    const char* title;
    Kind kind;
    Codes learners;
  };
  for (const Case& one :
       {Case{"Worksheets, code KF8V", Kind::lesson, {}},
        Case{"Worksheets, Week 3, code KF8V, for B7", Kind::lesson, {"B7"}},
        Case{"sh: script, Words, for you, code KF8V, for B7, C3",
             Kind::lesson,
             {"B7", "C3"}},
        Case{"sh: script, Words, for you, code KF8V", Kind::lesson, {}},
        // A lesson may be called anything.
        Case{"Marks, code KF8V, for B7", Kind::lesson, {"B7"}},
        Case{"Room 4, learners' packets", Kind::class_job, {}},
        Case{"teacher's pages", Kind::class_job, {}},
        Case{"Learners' packets", Kind::class_job, {}},
        Case{"Teacher's pages", Kind::class_job, {}},
        Case{"Room 4, Learners' packets", Kind::other, {}},
        Case{"Marks", Kind::report, {}},
        Case{"Marks, week-06-ai-ay and 2 more", Kind::report, {}},
        Case{"Progress", Kind::report, {}},
        Case{"Progress of B7", Kind::report, {"B7"}},
        Case{"Progress of 5 learners", Kind::report, {}},
        Case{"Progressive", Kind::other, {}}, Case{"Pictures", Kind::other, {}},
        Case{"", Kind::other, {}}}) {
    const PdfAbout about = about_pdf(one.title);
    EXPECT_EQ(about.kind, one.kind) << one.title;
    EXPECT_EQ(about.learners, one.learners) << one.title;
  }
}

}  // namespace
}  // namespace sheaf
