// What a lesson may have wrong and everybody understands: it is put right.

#include <gtest/gtest.h>

#include "base/diagnostics.h"
#include "input/lesson.h"

namespace sheaf {
namespace {

class PutRight : public testing::Test {
 protected:
  // The sentences to read, parted by |.
  std::string sentences(const std::string& text) {
    file_ = std::make_unique<SourceFile>("lesson.yaml",
                                         "pattern: sh\nwords: ship\n" + text);
    lesson_ = read_lesson(*file_, diagnostics_ = {});
    std::string all;
    for (const LessonLine& line : lesson_.sentences) {
      all += (all.empty() ? "" : "|") + line.text();
    }
    return all;
  }
  std::string notes() const {
    std::string names;
    for (const Diagnostic* d : diagnostics_.sorted()) {
      names += (names.empty() ? "" : " ") + std::string(d->name->name);
    }
    return names;
  }

  std::unique_ptr<SourceFile> file_;
  Lesson lesson_;
  Diagnostics diagnostics_;
};

TEST_F(PutRight, ASentenceGetsItsEndMark) {
  EXPECT_EQ(sentences("sentences: |\n  Shut it\n  Is it shut?\n  \"Go\"\n"),
            "Shut it.|Is it shut?|\"Go\".");
  EXPECT_EQ(notes(), "end-mark-added");
  // Who ends a line with a comma meant something else.
  EXPECT_EQ(sentences("sentences: |\n  Red fish,\n"), "Red fish,");
  EXPECT_EQ(notes(), "");
}

TEST_F(PutRight, ASentenceBeginsWithACapital) {
  EXPECT_EQ(sentences("sentences: |\n  shut it.\n  \"go on.\"\n  Sh.\n"),
            "Shut it.|\"Go on.\"|Sh.");
  EXPECT_EQ(notes(), "capitals-put-right");
  EXPECT_EQ(sentences("sentences: |\n  1. the end\n"), "The end.");
  EXPECT_EQ(notes(), "number-left-out capitals-put-right end-mark-added");
  EXPECT_EQ(sentences("sentences: |\n  3 fish.\n  \u00E9t\u00E9.\n"),
            "3 fish.|\u00E9t\u00E9.");
  EXPECT_EQ(notes(), "");
}

TEST_F(PutRight, ANumberInFrontIsLeftOut) {
  EXPECT_EQ(sentences("sentences: |\n  1. Shut it.\n  2) Go.\n  (13) Sh!\n"
                      "  4.The end.\n"),
            "Shut it.|Go.|Sh!|The end.");
  EXPECT_EQ(notes(), "number-left-out");
  for (const char* own : {"7 ships came.", "3.5 ships came.", "1.", "2)",
                          "1234. Ships.", "(a) Ships."}) {
    EXPECT_EQ(sentences(std::string("sentences: |\n  ") + own + "\n"),
              std::string(own).ends_with(')') ? std::string(own) + "." : own)
        << own;
  }
}

TEST_F(PutRight, ASignForTwoLettersIsTwoLetters) {
  EXPECT_EQ(sentences("sentences: |\n  The \uFB01sh and the cu\uFB00s.\n"),
            "The fish and the cuffs.");
  const LessonLine& line = lesson_.sentences.front();
  EXPECT_EQ(line.span_of(4, 8).text(), "\uFB01sh");
  EXPECT_EQ(line.span_of(17, 22).text(), "cu\uFB00s");
  EXPECT_EQ(line.span_of(9, 12).text(), "and");
  EXPECT_EQ(notes(), "");
}

}  // namespace
}  // namespace sheaf
