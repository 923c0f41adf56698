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

TEST_F(PutRight, SignsForSeveralLettersAreWrittenOut) {
  EXPECT_EQ(sentences("sentences: |\n  The \uFB01sh o\uFB00 the "
                      "sta\uFB03ng \uFB02at \uFB06.\n"),
            "The fish off the staffing flat st.");
}

TEST_F(PutRight, AccentsAreComposed) {
  EXPECT_EQ(sentences("sentences: |\n  Zoe\u0308 sat in the cafe\u0301.\n"),
            "Zo\u00EB sat in the caf\u00E9.");
  EXPECT_EQ(notes(), "");
  // Of two marks, the outer one has no letter with it.
  EXPECT_EQ(sentences("sentences: |\n  A t\u0306 e\u0302\u0301 hat.\n"),
            "A t\u0306 \u1EBF hat.");
  // "Zoe+mark sat in the cafe+mark." begins in column 3 of line 4.
  sentences("sentences: |\n  Zoe\u0308 sat \uFB01t in the cafe\u0301 now.\n");
  const PlacedText& line = lesson_.sentences.at(0);
  const auto span_of = [&](std::string_view word) {
    const std::size_t at = line.text().find(word);
    return std::string(line.span_of(at, at + word.size()).text());
  };
  EXPECT_EQ(span_of("Zo\u00EB"), "Zoe\u0308");
  EXPECT_EQ(span_of("sat"), "sat");
  EXPECT_EQ(span_of("fit"), "\uFB01t");
  EXPECT_EQ(span_of("fi"), "\uFB01");
  EXPECT_EQ(span_of("caf\u00E9"), "cafe\u0301");
  EXPECT_EQ(span_of("\u00E9"), "e\u0301");
  EXPECT_EQ(span_of("now"), "now");
}

TEST_F(PutRight, ATitleIsComposed) {
  sentences("title: The cafe\u0301 o\uFB00 the quay\n");
  EXPECT_EQ(lesson_.title.value, "The caf\u00E9 off the quay");
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
